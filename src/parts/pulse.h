/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/hash.h"

/* Whether pulse @k of the module with this @key fires is a function of the seed alone, so that
 * every electrode on it and every burner agree without asking each other. */
static inline gboolean
hob_pulse_fires (guint64 seed, double key, double k, double miss)
{
  return miss <= 0 || hob_hash_uniform (seed, (guint64)key, (guint64)k) >= miss;
}

#define HOB_PULSE_WAYS (1 << 21) /* first count of the hash of an electrode's choices */

/* Whether pulse @k jumps at the cap of electrode @tip (its part index + 1), with this @chance. */
static inline gboolean
hob_pulse_at_cap (guint64 seed, double tip, double k, double chance)
{
  return chance >= 1
         || (chance > 0
             && hob_hash_uniform (seed, (guint64)tip, HOB_PULSE_WAYS + (guint64)k) < chance);
}

/* How many of the pulses in (from, to] fire and jump at the cap. */
static inline double
hob_pulses_at_cap (guint64 seed, double key, double miss, double tip, double chance, double from,
                   double to)
{
  double n = 0;

  if (miss <= 0 && chance >= 1)
    return to > from ? to - from : 0;
  for (double k = from + 1; k <= to; k++)
    n += hob_pulse_fires (seed, key, k, miss) && hob_pulse_at_cap (seed, tip, k, chance);
  return n;
}
