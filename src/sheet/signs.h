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
/* What that stroke lies in. */
HobBox hob_sign_ring_room (const HobBox *box, const char *id);
/* Open below a figure, from x − half to x + half at its ends: a part that suffers. */
void hob_sign_arc (HobPen *pen, double x, double y, double half, gboolean on_cavity,
                   double drawn);
/* The stroke in the colors of the dark inside of the oven, where it is there. */
void hob_stroke_on (HobPen *pen, gboolean on_cavity, HobRole role, double weight);
void hob_sign_selection (HobPen *pen, const HobBox *box, gboolean on_cavity);
/* Unlit gas of @joule in a box, from below where it sinks, else from above. */
void hob_sign_gathered (HobPen *pen, const HobBox *box, double joule, gboolean sinks,
                        gboolean on_dark);

/* The room that the longest "should be 18,000 Btu/h" takes, in the language of the moment, px. */
double hob_should_be_width (HobType *type, HobTextSize size);

G_END_DECLS
