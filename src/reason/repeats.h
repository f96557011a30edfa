/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Runs that only repeat themselves: an oven at its temperature goes on in turns of its thermostat,
 * an unplugged range rests, and what a symptom looks at was the same in the last turns or stretches
 * of rest.  What is done next is then done a whole number of them earlier. */

#include "symptoms/bench.h"

G_BEGIN_DECLS

/* As hob_bench_advance_unless, for who asks for the symptoms alone: the bench's run has told of all
 * that show by @until.  Its record may end before. */
gboolean hob_repeats_advance (HobBench *bench, const gint *cancel, double until);

G_END_DECLS
