/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The run without a fault under a list of acts, from which the runs with one fault branch off where
 * it first matters: the same bits as from the start, for less (run/inert.h). */

#include "reason/table.h"

G_BEGIN_DECLS

typedef struct _HobPlain HobPlain;

/* What stands in the case of that run where the others have their fault, at time 0: takes one away
 * that is not there. */
#define HOB_PLAIN_ACT ((HobAct){ .what = HOB_ACT_LIFT })

/* @acts: with HOB_PLAIN_ACT.  @hypotheses: HobHypothesis; none but single faults are spared
 * anything.  The run ends at @until, or early where *@cancel is not 0 (NULL: never).
 * (transfer full) */
HobPlain *hob_plain_new (const HobBench *idle, const HobCase *acts, const GArray *hypotheses,
                         double until, const gint *cancel);
void hob_plain_free (HobPlain *plain);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobPlain, hob_plain_free)

/* The run of @acts, which are those of hypothesis @k: whole, or from before t on at the latest.
 * For any thread. (transfer full) */
HobBench *hob_plain_run (const HobPlain *plain, guint k, double t, const HobCase *acts);

G_END_DECLS
