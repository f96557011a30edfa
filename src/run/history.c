/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Time both ways: reading the record, acts in the past, undo, and thinning a record that grows too large. */

#include "run/record.h"
#include "base/i18n.h"
#include <math.h>
#include <string.h>

#define MOST_BYTES (64u << 20)

/* ---- Reading ---- */

/* The last record at or before t. */
static guint
record_at (const HobRun *run, double t)
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

static void
load_block (const HobRun *run, HobMoment *m, const double *block)
{
  hob_moment_apply_acts (m, run->acts, run->version, (int) block[B_ACTS]);
  hob_moment_load (m, block);
}

/* A copy of a record's block.  Where the record was thinned it is made again from the last one kept, silently.
 * (transfer full) */
static double *
dup_block (HobRun *run, guint index)
{
  gsize size = hob_run_block_size (run);
  guint kept = index;
  double *block;
  HobMoment *worker;

  while (g_array_index (run->records, HobRecord, kept).block == NULL)
    kept--;
  block = g_memdup2 (g_array_index (run->records, HobRecord, kept).block, size);
  if (kept == index)
    return block;
  worker = hob_moment_new (run->plan);
  run->muted = TRUE;
  for (; kept < index; kept++)
    {
      load_block (run, worker, block);
      hob_run_step (run, worker, block);
      memcpy (block, run->next_block, size);
    }
  run->muted = FALSE;
  hob_moment_free (worker);
  return block;
}

/* Makes the moment stand at the start of record `index`, its step open for reading. */
static void
open_record (HobRun *run, HobMoment *m, guint index)
{
  g_autofree double *block = dup_block (run, index);

  load_block (run, m, block);
  m->span_run = run;
  m->span_index = index;
  m->span_version = run->version;
  m->span_end = block[B_TIME];
  if (index + 1 < run->records->len
      && g_array_index (run->records, HobRecord, index + 1).t0 > block[B_TIME]
      && hob_run_open_step (run, m, g_array_index (run->records, HobRecord, index).h))
    m->span_end = m->step.t0 + m->step.h;
}

static gboolean
is_open (const HobRun *run, const HobMoment *m, guint index)
{
  return m->span_run == run && m->span_index == index && m->span_version == run->version
         && (m->span_end > m->block[B_TIME] || index + 1 >= run->records->len);
}

void
hob_run_read (HobRun *run, double t, HobMoment *m)
{
  guint index;

  if (run->records->len == 0)
    hob_run_advance (run, 0, NULL);
  t = CLAMP (t, 0, hob_run_reached (run));
  index = record_at (run, t);
  if (!is_open (run, m, index))
    open_record (run, m, index);
  if (t > m->block[B_TIME] && m->span_end > m->block[B_TIME])
    {
      hob_ode_dense (&m->step, m->plan->n_y + HOB_N_LEDGER, fmin (t, m->span_end), m->span_y);
      hob_moment_evaluate (m, t, m->span_y);
    }
  else
    hob_moment_evaluate (m, m->block[B_TIME], m->block + m->plan->b_y);
}

/* ---- Thinning ---- */

/* Over the limit every second block of the older half goes; the newest and the first stay. */
void
hob_run_thin (HobRun *run)
{
  gsize size = hob_run_block_size (run);
  gboolean odd = FALSE;

  if (run->bytes <= MOST_BYTES)
    return;
  for (guint k = 1; k < run->records->len / 2; k++)
    {
      HobRecord *record = &g_array_index (run->records, HobRecord, k);
      if (record->block == NULL)
        continue;
      odd = !odd;
      if (odd)
        {
          g_clear_pointer (&record->block, g_free);
          run->bytes -= size;
        }
    }
}

/* ---- Acts ---- */

static void
cut_after (HobRun *run, double t)
{
  gsize size = hob_run_block_size (run);
  guint keep = 0, events = 0;

  while (keep < run->records->len && g_array_index (run->records, HobRecord, keep).t0 <= t)
    keep++;
  /* What follows grows from the last record kept: its block must stand. */
  if (keep > 0 && keep < run->records->len
      && g_array_index (run->records, HobRecord, keep - 1).block == NULL)
    {
      g_array_index (run->records, HobRecord, keep - 1).block = dup_block (run, keep - 1);
      run->bytes += size;
    }
  for (guint k = keep; k < run->records->len; k++)
    {
      HobRecord *record = &g_array_index (run->records, HobRecord, k);
      if (record->block != NULL)
        run->bytes -= size;
      g_free (record->block);
    }
  g_array_set_size (run->records, keep);
  /* Events that are found again from the last record on go too. */
  double known = keep > 0 ? g_array_index (run->records, HobRecord, keep - 1).t0 : -1;
  while (events < run->events->len && g_array_index (run->events, HobEvent, events).t <= known)
    events++;
  g_array_set_size (run->events, events);
  g_clear_pointer (&run->trouble, g_free);
  run->stands = FALSE;
  run->version++;
}

void
hob_run_act (HobRun *run, HobAct act)
{
  double t = (double) act.ms / 1000.0, reached = hob_run_reached (run);
  GArray *acts = run->acts->acts;

  g_ptr_array_add (run->undo, hob_case_copy (run->acts));
  for (guint k = acts->len; k-- > 0;)
    {
      const HobAct *old = &g_array_index (acts, HobAct, k);
      if (old->ms > act.ms && (double) old->ms / 1000.0 <= reached)
        g_array_remove_index (acts, k);
    }
  hob_case_add (run->acts, act);
  /* What is set at time 0 shapes the start itself. */
  cut_after (run, act.ms > 0 ? t : -1);
}

gboolean
hob_run_undo (HobRun *run)
{
  HobCase *before;
  double t = INFINITY;

  if (run->undo->len == 0)
    return FALSE;
  before = g_ptr_array_steal_index (run->undo, run->undo->len - 1);
  for (guint k = 0; k < MAX (before->acts->len, run->acts->acts->len); k++)
    {
      const HobAct *a = k < before->acts->len ? &g_array_index (before->acts, HobAct, k) : NULL;
      const HobAct *b = k < run->acts->acts->len ? &g_array_index (run->acts->acts, HobAct, k) : NULL;
      if (a == NULL || b == NULL || memcmp (a, b, sizeof *a) != 0)
        {
          t = (double) MIN (a != NULL ? a->ms : G_MAXINT64, b != NULL ? b->ms : G_MAXINT64) / 1000.0;
          break;
        }
    }
  hob_case_free (run->acts);
  run->acts = before;
  /* The act was applied at t: only what stands before it is still true. */
  cut_after (run, nextafter (t, -1));
  return TRUE;
}

/* ---- Events ---- */

guint
hob_run_events (const HobRun *run, double from, double to, guint *first)
{
  guint n = 0, k = 0;

  while (k < run->events->len && g_array_index (run->events, HobEvent, k).t <= from)
    k++;
  *first = k;
  while (k + n < run->events->len && g_array_index (run->events, HobEvent, k + n).t <= to)
    n++;
  return n;
}

const HobEvent *
hob_run_event (const HobRun *run, guint index)
{
  return &g_array_index (run->events, HobEvent, index);
}

gboolean
hob_run_next_event (HobRun *run, double t, double until, HobEvent *event)
{
  for (double end = t;;)
    {
      guint first, n;

      /* A watch may tell of a moment some time after it: look a step further than the event. */
      if (hob_run_advance (run, fmin (end, until), NULL) != HOB_RUN_OK)
        end = until;
      n = hob_run_events (run, t, until, &first);
      if (n > 0)
        {
          *event = *hob_run_event (run, first);
          return event->t <= until;
        }
      if (end >= until)
        return FALSE;
      end = fmin (until, fmax (end + 10, hob_run_reached (run) + 10));
    }
}

static char *
act_id (const HobRange *range, const HobAct *act)
{
  const HobPart *part = &range->parts[act->part];

  switch (act->what)
    {
    case HOB_ACT_CONTROL: return hob_range_control_name (range, act->part, act->index);
    case HOB_ACT_SETTING: return g_strdup_printf ("%s.%s", part->id, part->kind->settings[act->index].name);
    case HOB_ACT_FAULT:
    case HOB_ACT_LIFT:
    default: return g_strdup_printf ("%s:%s", part->id, part->kind->faults[act->index].id);
    }
}

char *
hob_event_id (const HobRun *run, const HobEvent *event)
{
  const HobRange *range = run->plan->range;
  const HobPart *part = event->part >= 0 ? &range->parts[event->part] : NULL;

  if (event->what == HOB_EVENT_CHANGE)
    return g_strdup_printf ("%s.%s", part->id, part->kind->modes[event->index].name);
  if (event->what == HOB_EVENT_ACT)
    return act_id (range, &g_array_index (run->acts->acts, HobAct, event->index));
  return NULL;
}

char *
hob_event_text (const HobRun *run, const HobEvent *event)
{
  const HobRange *range = run->plan->range;
  const HobPart *part = event->part >= 0 ? &range->parts[event->part] : NULL;
  int value = (int) event->value, n = 0;

  if (event->what == HOB_EVENT_ACT)
    return hob_act_text (range, &g_array_index (run->acts->acts, HobAct, event->index));
  if (event->what != HOB_EVENT_CHANGE)
    return NULL;
  while (part->kind->modes[event->index].words[n] != NULL)
    n++;
  /* Translators: a part's label, then what happens to it: "Bake burner: flame lights". */
  return g_strdup_printf (_ ("%s: %s"), hob_part_label (part),
                          _ (part->kind->modes[event->index].words[CLAMP (value, 0, n - 1)]));
}
