/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* One range that is asked for suspects again and again: what is tried once is remembered. */

#include "reason/suspects.h"

typedef struct
{
  /*< owned >*/
  HobRange *range;
  HobBench *idle;
  HobTrials *trials;
  HobPriors *priors;
} Asked;

/* Takes @range.  @keep: trials are kept in the cache folder too. */
Asked asked_up (HobRange *range, gboolean keep);
void asked_down (Asked *asked);
/* Lists end with NULL.  (transfer full) */
HobSuspects *asked_suspects (const Asked *asked, const char *const *seen,
                             const char *const *not_seen, const char *const *readings,
                             HobSkill role);
