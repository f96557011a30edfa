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

/* How many of the pulses in (from, to] fire. */
static inline double
hob_pulses_fired (guint64 seed, double key, double from, double to, double miss)
{
  double n = 0;

  if (miss <= 0)
    return to > from ? to - from : 0;
  for (double k = from + 1; k <= to; k++)
    n += hob_pulse_fires (seed, key, k, miss);
  return n;
}
