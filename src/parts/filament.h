/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/i18n.h"
#include "parts/kind.h"

/* The filament of a light bulb.
 *
 *   light   (V/120 V)^3.4
 *   d worn/dt = (V/120 V)^16/1,000 h,   burned out at 1
 *
 * The exponents are the usual ones for tungsten (from memory: 3.4, and 12 to 16); 1,000 h are a
 * household bulb's.  At 132 V it lasts a fifth of that, at 200 V a quarter of an hour.  An ohmmeter
 * finds it cold, at a fourteenth of its ohms: tungsten's resistivity at 2,700 K is 14 times that at
 * 293 K (from memory).  That it has its hot resistance at any voltage, and that it is dark below
 * 30 V, are simplifications of this project. */

G_BEGIN_DECLS

extern const char *const hob_filament_words[];

/* What a bulb's kind begins with: two settings, its state, its mode, and one element with one
 * guard. */
enum { HOB_FILAMENT_OHMS, HOB_FILAMENT_BROKEN, HOB_FILAMENT_N_SETTINGS };
enum { HOB_FILAMENT_WORN };
enum { HOB_FILAMENT_BURNED_OUT };
#define HOB_FILAMENT_SETTINGS                                                                      \
  { .name = "ohms",                                                                                \
    .words = N_ ("Resistance of the light bulb when lit; 360 Ω for a 40 W bulb at 120 V."),        \
    .dim = HOB_DIM_RESISTANCE, .normal = 360, .low = 50, .high = 5000 },                           \
  { .name = "broken", .words = "1: its filament is broken.", .high = 1, .condition = TRUE }
#define HOB_FILAMENT_STATE                                                                         \
  { .name = "worn", .words = "share of its filament's life that is gone", .tolerance = 1e-3 }
#define HOB_FILAMENT_MODE { .name = "burned-out", .words = hob_filament_words }

/* +INFINITY: it is out. */
double hob_filament_ohms (const HobPartContext *c);
/* How bright it is: 1 at 120 V. */
double hob_filament_shines (const HobPartContext *c);

/* Functions of the kind; at rest, those of the filament alone. */
void hob_filament_rates (const HobPartContext *c);
double hob_filament_at_rest (const HobPartContext *c, int element);
double hob_filament_guard (const HobPartContext *c, int k);
void hob_filament_flip (const HobPartContext *c, int k, double *y);
extern const guint8 hob_filament_guard_reads[1];

G_END_DECLS
