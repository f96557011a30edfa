/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: into which intervals to divide a reading that is yet to be taken, so that
 * the interval tells most.  Plain numbers; nothing here knows a range. */

#include "reason/evidence.h"

G_BEGIN_DECLS

/* What one hypothesis makes a reading be. */
typedef struct
{
  HobExpected expected;
  double weight; /* how probable it is, ≥ 0; any unit */
  int group;     /* ≥ 0; nothing is told by what tells a hypothesis from another of its group */
} HobForeseen;

/* Edges between the @n readings in @foreseen, at most @most, in ascending order; returns how many.
 * The one that tells most about the groups is put first, then each where it tells most beside the
 * others, as far as the meter and the scatter of units let it tell; where none tells anything there
 * is none.  @n_groups: more than any group. */
int hob_reading_divide (const HobForeseen *foreseen, int n, int n_groups,
                        const HobMeterClass *meter, double *edges, int most);

G_END_DECLS
