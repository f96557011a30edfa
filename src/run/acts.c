/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What is done to a run, back and forth.  A change puts an act into the case or takes one out; undo
 * and redo walk along the list of changes.  Each cuts the record where its act would come. */

#include "run/record.h"
#include <math.h>

/* A fork has no past. */
static gboolean
may_change (const HobRun *run, gint64 ms)
{
  const HobRecord *first = &g_array_index (run->records, HobRecord, 0);

  return first->ordinal == 0 || (double) ms / 1000.0 > first->t0;
}

static HobChange *
change_at (const HobRun *run, guint index)
{
  return &g_array_index (run->changes, HobChange, index);
}

/* Up to when the record holds if an act at @ms is put in or taken out: what is set at time 0
 * shapes the start itself, and the step before an act was cut where it came. */
static double
holds_until (gint64 ms, gboolean out)
{
  double t = ms > 0 ? (double) ms / 1000.0 : -1;

  return out ? nextafter (t, -1) : t;
}

static void
carry_out (HobRun *run, const HobChange *change, gboolean out)
{
  if (out)
    hob_case_remove (run->acts, change->at);
  else
    hob_case_insert (run->acts, change->at, change->act);
  hob_run_cut (run, change->at, holds_until (change->act.ms, out));
}

/* Does it, and forgets what was undone before. */
static void
change (HobRun *run, HobAct act, guint at, gboolean out)
{
  HobChange one = { act, at, out, !run->joined || run->n_done == 0 };

  g_return_if_fail (run->records->len == 0 || may_change (run, act.ms));
  g_array_set_size (run->changes, run->n_done);
  g_array_append_val (run->changes, one);
  run->n_done++;
  run->joined = TRUE;
  carry_out (run, &one, out);
}

void
hob_run_act (HobRun *run, HobAct act)
{
  gint64 reached = (gint64) floor (hob_run_reached (run) * 1000.0 + 1e-6);
  guint at = hob_case_place (run->acts, act.ms);

  for (guint k = hob_case_place (run->acts, reached); k-- > at;)
    change (run, g_array_index (run->acts->acts, HobAct, k), k, TRUE);
  change (run, act, at, FALSE);
  run->joined = FALSE;
}

void
hob_run_insert (HobRun *run, HobAct act)
{
  change (run, act, hob_case_place (run->acts, act.ms), FALSE);
  run->joined = FALSE;
}

void
hob_run_remove (HobRun *run, guint index)
{
  g_return_if_fail (index < run->acts->acts->len);

  change (run, g_array_index (run->acts->acts, HobAct, index), index, TRUE);
  run->joined = FALSE;
}

void
hob_run_join (HobRun *run)
{
  run->joined = TRUE;
}

gboolean
hob_run_undo (HobRun *run)
{
  gboolean more = run->n_done > 0, any = more;

  while (more)
    {
      const HobChange *last = change_at (run, --run->n_done);

      carry_out (run, last, !last->out);
      more = !last->begins;
    }
  run->joined = FALSE;
  return any;
}

gboolean
hob_run_redo (HobRun *run)
{
  gboolean more = hob_run_can_redo (run), any = more;

  while (more)
    {
      const HobChange *next = change_at (run, run->n_done++);

      carry_out (run, next, next->out);
      more = hob_run_can_redo (run) && !change_at (run, run->n_done)->begins;
    }
  run->joined = FALSE;
  return any;
}

gboolean
hob_run_can_undo (const HobRun *run)
{
  return run->n_done > 0;
}

gboolean
hob_run_can_redo (const HobRun *run)
{
  return run->n_done < run->changes->len;
}

void
hob_run_set_case (HobRun *run, const HobCase *acts)
{
  guint at = hob_case_common (run->acts, acts);
  gint64 ms = G_MAXINT64;

  for (int k = 0; k < 2; k++)
    {
      const GArray *all = k == 0 ? run->acts->acts : acts->acts;
      if (at < all->len)
        ms = MIN (ms, g_array_index (all, HobAct, at).ms);
    }
  if (run->acts->seed != acts->seed)
    at = 0, ms = 0;
  g_array_set_size (run->changes, 0);
  run->n_done = 0;
  if (ms == G_MAXINT64)
    return;
  hob_case_free (run->acts);
  run->acts = hob_case_copy (acts);
  hob_run_cut (run, at, holds_until (ms, TRUE));
}
