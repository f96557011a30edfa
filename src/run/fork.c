/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Forks: a run that begins in the middle of another one. */

#include "run/record.h"
#include <math.h>
#include <string.h>

/* Are the acts before t the same, and so all that came of them? */
static gboolean
same_before (const HobCase *a, const HobCase *b, double t)
{
  guint common = hob_case_common (a, b);

  return a->seed == b->seed
         && (common >= a->acts->len
             || (double) g_array_index (a->acts, HobAct, common).ms / 1000.0 >= t)
         && (common >= b->acts->len
             || (double) g_array_index (b->acts, HobAct, common).ms / 1000.0 >= t);
}

/* The last block from which @acts lead to time t as they did in the run: an act at t itself that
 * the new case has not cut the step before it. */
static const HobRecord *
branching_point (const HobRun *run, const HobCase *acts, double t)
{
  guint common = hob_case_common (run->acts, acts), at = hob_run_record_at (run, t);
  gboolean strictly = common < run->acts->acts->len
                      && (double) g_array_index (run->acts->acts, HobAct, common).ms / 1000.0 <= t;
  const HobRecord *record = &g_array_index (run->records, HobRecord, at);

  while (at > 0 && (record->block[B_ACTS] > common || (strictly && record->t0 >= t)))
    record = &g_array_index (run->records, HobRecord, --at);
  return record;
}

/* What the run told up to @record; symptoms only where the fork counts them alike. */
static void
copy_events (HobRun *fork, const HobRun *run, const HobRecord *record)
{
  for (guint k = 0; k < run->events->len; k++)
    {
      const HobTold *told = &g_array_index (run->events, HobTold, k);
      gboolean symptom
          = told->event.what == HOB_EVENT_SYMPTOM || told->event.what == HOB_EVENT_SYMPTOM_END;

      if (told->ordinal <= record->ordinal && (!symptom || fork->watch == run->watch))
        g_array_append_val (fork->events, *told);
    }
}

/* What was told on the way to where the fork begins belongs to its first block. */
static void
keep_events (HobRun *fork)
{
  for (guint k = 0; k < fork->events->len; k++)
    {
      HobTold *told = &g_array_index (fork->events, HobTold, k);

      told->ordinal = MIN (told->ordinal, hob_run_last (fork)->ordinal);
    }
}

static void
watch_from_here (HobRun *run)
{
  HobRecord *last = hob_run_last (run);

  hob_run_load (run, run->tip, last->block);
  hob_moment_evaluate (run->tip, last->t0, NULL);
  run->watch->begin (run->watch->user, run, run->tip, last->block + run->plan->b_watch);
  keep_events (run);
}

/* Goes on from @record, which is one of @run's, as it did there. */
static HobRun *
branch_off (const HobRun *run, const HobRecord *record, const HobCase *acts, const HobWatch *watch)
{
  HobRun *fork = hob_run_new (run->plan, acts, watch);
  HobRecord first = *record;

  hob_run_set_tolerance (fork, run->rtol);
  hob_run_set_limit (fork, run->limit);
  copy_events (fork, run, record);
  first.end = NAN;
  first.block = g_malloc0 (hob_run_block_size (fork));
  memcpy (first.block, record->block, MIN (hob_run_block_size (fork), hob_run_block_size (run)));
  g_array_append_val (fork->records, first);
  fork->bytes = hob_run_block_size (fork) + sizeof (HobRecord);
  if (watch != NULL && watch != run->watch)
    watch_from_here (fork);
  return fork;
}

HobRun *
hob_run_fork_same (const HobRun *run, double t, const HobCase *acts, const HobWatch *watch)
{
  guint at = hob_run_record_at (run, t);

  while (at > 0 && g_array_index (run->records, HobRecord, at).t0 >= t)
    at--;
  return branch_off (run, &g_array_index (run->records, HobRecord, at), acts, watch);
}

HobRun *
hob_run_fork (HobRun *run, double t, const HobCase *acts, const HobWatch *watch)
{
  HobRun *fork;

  if (hob_run_advance (run, t, NULL) != HOB_RUN_OK)
    return NULL;
  if (t <= 0)
    return hob_run_new (run->plan, acts, watch);
  if (same_before (run->acts, acts, t))
    return branch_off (run, branching_point (run, acts, t), acts, watch);
  fork = branch_off (run, branching_point (run, run->acts, nextafter (t, 0)), run->acts, watch);
  hob_run_begin_at (fork, t);
  if (fork->trouble == NULL && hob_run_take_over (fork, acts))
    keep_events (fork);
  fork->stands = FALSE;
  return fork;
}
