/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/i18n.h"
#include "parts/kind.h"

#include <math.h>

/* The filament of a light bulb.
 *
 *   light   (V/120 V)^3.4
 *   d worn/dt = (V/120 V)^16/1,000 h,   burned out at 1
 *
 * The exponents are the usual ones for tungsten (from memory: 3.4, and 12 to 16); 1,000 h are a
 * household bulb's.  At 132 V it lasts a fifth of that, at 200 V a quarter of an hour.  That its
 * resistance is the same hot and cold, and that it is dark below 30 V, are simplifications of this
 * project. */

G_BEGIN_DECLS

#define HOB_FILAMENT_FULL 120.0 /* V */
#define HOB_FILAMENT_DARK 30.0  /* V */
#define HOB_FILAMENT_LIFE 3.6e6 /* s */

extern const char *const hob_filament_words[]; /* in kind.c */

/* Its state, its mode and its guard. */
enum { HOB_FILAMENT_WORN };
enum { HOB_FILAMENT_BURNED_OUT };
#define HOB_FILAMENT_STATE                                                                         \
  { .name = "worn", .words = "share of its filament's life that is gone", .tolerance = 1e-3 }
#define HOB_FILAMENT_MODE { .name = "burned-out", .words = hob_filament_words }

static inline double
hob_filament_shines (double volts)
{
  return volts < HOB_FILAMENT_DARK ? 0 : pow (volts / HOB_FILAMENT_FULL, 3.4);
}

/* d worn/dt */
static inline double
hob_filament_wear (double volts)
{
  return volts < HOB_FILAMENT_DARK ? 0 : pow (volts / HOB_FILAMENT_FULL, 16) / HOB_FILAMENT_LIFE;
}

static inline double
hob_filament_guard (const HobPartContext *c)
{
  return c->mode[HOB_FILAMENT_BURNED_OUT] > 0 ? -1 : c->y[HOB_FILAMENT_WORN] - 1;
}

G_END_DECLS
