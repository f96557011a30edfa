/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Time both ways: reading the record, cutting it, and keeping it small. */

#include "run/record.h"
#include <math.h>
#include <string.h>

HobRecord *
hob_run_last (const HobRun *run)
{
  return &g_array_index (run->records, HobRecord, run->records->len - 1);
}

guint
hob_run_record_at (const HobRun *run, double t)
{
  guint low = 0, high = run->records->len;

  while (high - low > 1)
    {
      guint middle = low + (high - low) / 2;
      if (g_array_index (run->records, HobRecord, middle).t0 <= t)
        low = middle;
      else
        high = middle;
    }
  return low;
}

/* ---- Keeping it small ---- */

static gsize
bytes_of_one (const HobRun *run)
{
  return hob_run_block_size (run) + sizeof (HobRecord);
}

/* (transfer full) its block */
static double *
take_out (HobRun *run, guint index)
{
  double *block = g_array_index (run->records, HobRecord, index).block;

  g_array_remove_index (run->records, index);
  run->bytes -= bytes_of_one (run);
  return block;
}

static void
drop (HobRun *run, guint index)
{
  g_free (take_out (run, index));
}

void
hob_run_forget_first (HobRun *run)
{
  drop (run, 0);
}

/* The first block of its gap; of gaps twice as wide it is the first only if it is one of these. */
static gboolean
opens_a_gap (const HobRun *run, const HobRecord *record)
{
  return record->ordinal == 0 || record->cost / run->gap != record->before / run->gap;
}

static void
widen_gaps (HobRun *run)
{
  guint n = 0;

  run->gap *= 2;
  for (guint k = 0; k < run->records->len; k++)
    {
      HobRecord *record = &g_array_index (run->records, HobRecord, k);

      if (k == 0 || k + 1 == run->records->len || opens_a_gap (run, record))
        g_array_index (run->records, HobRecord, n++) = *record;
      else
        g_free (record->block);
    }
  run->bytes -= (run->records->len - n) * bytes_of_one (run);
  g_array_set_size (run->records, n);
}

/* What next_block holds.  @spare: the block before it, no longer needed, or NULL; it is written
 * next in its turn, all but the watch's memory, which most steps leave as it is. (transfer full) */
static double *
take_next (HobRun *run, double *spare)
{
  double *block = run->next_block;

  if (spare == NULL)
    return g_memdup2 (block, hob_run_block_size (run));
  if (run->remembered)
    memcpy (spare + run->plan->b_watch, block + run->plan->b_watch,
            hob_run_block_size (run) - hob_plan_block_size (run->plan));
  run->next_block = spare;
  return block;
}

void
hob_run_push (HobRun *run, guint32 cost)
{
  HobRecord record = { .t0 = run->next_block[B_TIME], .end = NAN };
  double *spare = NULL;

  if (run->records->len > 0)
    {
      const HobRecord *last = hob_run_last (run);

      record.ordinal = last->ordinal + 1;
      record.before = last->cost;
      record.cost = last->cost + cost;
      if (run->records->len > 1 && !opens_a_gap (run, last))
        spare = take_out (run, run->records->len - 1);
    }
  record.block = take_next (run, spare);
  g_array_append_val (run->records, record);
  run->bytes += bytes_of_one (run);
  while (run->bytes > run->limit && run->records->len > 2)
    widen_gaps (run);
}

/* ---- Reading ---- */

/* Makes the moment stand at the start of @block, its step of h s, which was cut at @end, open. */
static void
open_span (HobRun *run, HobMoment *m, const double *block, guint ordinal, double h, double end)
{
  hob_run_load (run, m, block);
  m->span_serial = run->serial;
  m->span_ordinal = ordinal;
  m->span_end = block[B_TIME];
  if (end > block[B_TIME] && hob_run_open_step (run, m, h))
    m->span_end = end;
}

static gboolean
is_open (const HobRun *run, const HobMoment *m, double t)
{
  double from = m->block[B_TIME];

  return m->span_serial == run->serial && t >= from
         && (t < m->span_end || (t == from && m->span_ordinal == hob_run_last (run)->ordinal));
}

/* Who takes steps again for readers works on memory of its own: the run's tip does not notice. */
static void
set_up_again (HobRun *run, const double *block)
{
  gsize size = sizeof (double) * (gsize) run->plan->b_watch;

  if (run->again == NULL)
    {
      run->again = hob_moment_new (run->plan);
      run->again_block = g_malloc (size);
      run->again_next = g_malloc (size);
    }
  memcpy (run->again_block, block, size);
  hob_run_load (run, run->again, run->again_block);
}

/* Opens the step that holds t, which begins somewhere after @block. */
static gboolean
take_again (HobRun *run, HobMoment *m, const double *block, guint ordinal, double t)
{
  gsize size = sizeof (double) * (gsize) run->plan->b_watch;

  for (set_up_again (run, block);; ordinal++)
    {
      if (!hob_run_step (run, run->again, run->again_block, run->again_next))
        return FALSE;
      if (t < run->again_next[B_TIME])
        break;
      memcpy (run->again_block, run->again_next, size);
      hob_moment_stay (run->again, run->again_block);
    }
  open_span (run, m, run->again_block, ordinal, run->again->step.h, run->again_next[B_TIME]);
  return TRUE;
}

static gboolean
seek (HobRun *run, HobMoment *m, double t)
{
  const HobRecord *kept = &g_array_index (run->records, HobRecord, hob_run_record_at (run, t));

  if (!(t >= kept->end))
    {
      open_span (run, m, kept->block, kept->ordinal, kept->h, kept->end);
      return TRUE;
    }
  /* Going on from where the moment stands is the shorter way, if it is one. */
  if (m->span_serial == run->serial && m->span_ordinal > kept->ordinal && m->block[B_TIME] <= t)
    return take_again (run, m, m->block, m->span_ordinal, t);
  return take_again (run, m, kept->block, kept->ordinal, t);
}

gboolean
hob_run_open (HobRun *run, HobMoment *m, double t)
{
  if (is_open (run, m, t) || seek (run, m, t))
    return TRUE;
  g_critical ("a step that was taken once cannot be taken again, before %g s", t);
  return FALSE;
}

/* Where gas begins to come within a step, the step's polynomial can dip below 0 though neither end
 * is. */
static void
keep_amounts (HobMoment *m)
{
  const GArray *amounts = m->plan->amounts;

  for (guint k = 0; k < amounts->len; k++)
    {
      double *y = &m->span_y[g_array_index (amounts, int, k)];

      *y = fmax (*y, 0);
    }
}

gboolean
hob_run_read (HobRun *run, double t, HobMoment *m)
{
  double first;

  if (run->records->len == 0)
    hob_run_advance (run, 0, NULL);
  first = g_array_index (run->records, HobRecord, 0).t0;
  if (run->follow != NULL && t < first)
    return hob_run_read (hob_follow_run (run->follow), t, m);
  t = CLAMP (t, first, hob_run_reached (run));
  if (!hob_run_open (run, m, t))
    return FALSE;
  if (run->follow != NULL)
    hob_follow_open (run->follow, m->block[B_TIME]);
  if (t > m->block[B_TIME] && m->span_end > m->block[B_TIME])
    {
      hob_ode_dense (&m->step, m->plan->n_y + HOB_N_LEDGER, fmin (t, m->span_end), m->span_y);
      keep_amounts (m);
      hob_moment_evaluate (m, t, m->span_y);
    }
  else
    hob_moment_evaluate (m, m->block[B_TIME], m->block + m->plan->b_y);
  return TRUE;
}

/* ---- Cutting ---- */

void
hob_run_cut (HobRun *run, guint at, double t)
{
  guint events = 0;

  while (run->records->len > 0)
    {
      const HobRecord *last = hob_run_last (run);

      if (last->t0 <= t && last->block[B_ACTS] <= at)
        break;
      drop (run, run->records->len - 1);
    }
  if (run->records->len > 0)
    hob_run_last (run)->end = NAN;
  for (guint k = 0; k < run->events->len; k++)
    {
      const HobTold *told = &g_array_index (run->events, HobTold, k);

      if (run->records->len > 0 && told->ordinal <= hob_run_last (run)->ordinal)
        g_array_index (run->events, HobTold, events++) = *told;
    }
  g_array_set_size (run->events, events);
  g_clear_pointer (&run->trouble, g_free);
  if (run->shown != NULL)
    hob_shown_cut (run->shown, t);
  run->stands = FALSE;
  run->serial = hob_serial_new ();
}
