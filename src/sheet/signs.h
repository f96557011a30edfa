/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Signs: what moves along wires and pipes, rings, tags, choices, figures. */

#include "sheet/stage.h"

G_BEGIN_DECLS

#define HOB_OFF_BENDS 10.0 /* px that signs keep off them */

/* px/s that ticks and wedges run; 0: they stand or are not there. */
double hob_tick_speed (double ampere);
double hob_wedge_speed (double watt);
/* Straight runs of the route filled with a repeated sign, the plates of @wire (−1: none) left
 * out; @forward: it points from → to; @phase px. */
void hob_sign_along (const HobStage *stage, const HobRoute *route, int wire, HobTile tile,
                     gboolean forward, double phase);
/* One stroke around the box, wandering, ends overlapping; @drawn 0…1. */
void hob_sign_ring (HobPen *pen, const HobBox *box, gboolean on_cavity, const char *id,
                    double drawn);
/* Open below a figure, from x − half to x + half at its ends: a part that suffers. */
void hob_sign_arc (HobPen *pen, double x, double y, double half, gboolean on_cavity,
                   double drawn);
/* What the tag hangs on: drawn before the texts, so that it passes behind them. */
void hob_sign_string (const HobStage *stage, const HobBox *symbol, const HobBox *tag,
                      gboolean on_cavity);
void hob_sign_tag (const HobStage *stage, const HobBox *tag, const char *name, const char *severity,
                   double swing);
void hob_sign_selection (HobPen *pen, const HobBox *box, gboolean on_cavity);
/* The figure under a part: "2.9 A", and when it differs ", should be 3.4".  In the oven it has a
 * dark ground, over racks and what rises; elsewhere the sheet's where a @plate is asked for. */
void hob_sign_figure (const HobStage *stage, const HobTextPlace *place, gboolean on_cavity,
                      gboolean plate, const char *figure, const char *should_be);
double hob_sign_figure_width (const HobStage *stage, const char *figure, const char *should_be);

G_END_DECLS
