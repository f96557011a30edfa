/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/sequence.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "parts/say.h"
#include "run/two-figures.h"
#include <math.h>

/* How much later or earlier than a normal range it may be: common practice, no source. */
#define LATE_TIME 2.0   /* s, and … */
#define LATE_SHARE 0.10 /* … of the time since the act before it */
#define MOST_ACTS 64
#define DIGITS 3 /* of what something happens at */
#define SETTLED 1.0 /* s after a change, or before the next, in which no amount is compared */

/* ---- What a run has done ---- */

static gboolean
is_change (const HobRange *range, const HobEvent *event)
{
  return event->what == HOB_EVENT_CHANGE
         && range->parts[event->part].kind->modes[event->index].words != NULL;
}

/* Times at which hands did something, −1 the first: what comes before the first act counts from
 * the start. */
static GArray *
acts_of (const HobRun *run, double until)
{
  GArray *times = g_array_new (FALSE, FALSE, sizeof (double));
  const GArray *acts = hob_run_case (run)->acts;
  double start = -1;

  g_array_append_val (times, start);
  for (guint k = 0; k < acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts, HobAct, k);
      double t = (double) act->ms / 1000.0;

      if (act->what == HOB_ACT_CONTROL && t <= until
          && t > g_array_index (times, double, times->len - 1))
        g_array_append_val (times, t);
    }
  if (times->len > MOST_ACTS)
    g_array_remove_range (times, 0, times->len - MOST_ACTS);
  return times;
}

/* The first such change at or after @from and before @to; NaN: none.  *n: how many there are. */
static double
first_change (const HobRun *run, const HobSequenceEntry *like, double from, double to, int *n)
{
  guint first, count = hob_run_events (run, nextafter (from, -INFINITY), to, &first);
  double t = NAN;

  *n = 0;
  for (guint k = first; k < first + count; k++)
    {
      const HobEvent *event = hob_run_event (run, k);

      if (event->what != HOB_EVENT_CHANGE || event->part != like->part
          || event->index != like->mode || event->value != like->value || event->t >= to)
        continue;
      if ((*n)++ == 0)
        t = event->t;
    }
  return t;
}

/* When it is no longer so, after @from and at most @to; that may be in the very instant in which it
 * was done. */
static double
undone (const HobRun *run, const HobSequenceEntry *e, double from, double to)
{
  double at = to;
  guint first, n;

  if (isnan (e->done))
    return to;
  n = hob_run_events (run, nextafter (from, -INFINITY), to, &first);
  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (run, k);

      if (event->what != HOB_EVENT_CHANGE || event->part != e->part || event->index != e->mode)
        continue;
      if (event->value != e->value)
        at = MIN (at, event->t);
      else if (event->t <= from)
        at = to;
    }
  return at;
}

/* ---- Entries ---- */

static gboolean
is_listed (const GArray *entries, guint from, const HobEvent *event)
{
  for (guint k = from; k < entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (entries, HobSequenceEntry, k);

      if (e->part == event->part && e->mode == event->index && e->value == event->value)
        return TRUE;
    }
  return FALSE;
}

/* The first of each change between two acts; later cycles are counted. */
static void
list_changes (GArray *entries, const HobRun *of, double from, double to, double now,
              gboolean normal)
{
  guint first, n = hob_run_events (of, nextafter (from, -INFINITY), to, &first);
  guint begin = entries->len;

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (of, k);
      HobSequenceEntry e = { .part = event->part, .mode = event->index, .value = event->value,
                             .due = NAN, .done = NAN, .limit = NAN, .quantity = -1 };

      if (!is_change (hob_run_case (of)->range, event) || event->t >= to
          || is_listed (entries, begin, event))
        continue;
      e.state = normal ? HOB_SEQUENCE_NEXT : HOB_SEQUENCE_EXTRA;
      if (normal)
        e.due = event->t;
      else
        e.done = event->t;
      first_change (of, &e, from, MIN (to, now), &e.times);
      g_array_append_val (entries, e);
    }
}

/* When the run came to be as a change would make it that it never made: by the change before @t,
 * or from the start; NaN: it is not so then. */
static double
already_at (HobRun *run, HobComparison *c, const HobSequenceEntry *e, double t)
{
  guint first, n = hob_run_events (run, -1, t, &first);

  for (guint k = first + n; k-- > first;)
    {
      const HobEvent *event = hob_run_event (run, k);

      if (event->what == HOB_EVENT_CHANGE && event->part == e->part && event->index == e->mode)
        return event->value == e->value ? event->t : NAN;
    }
  hob_comparison_read (c, run, NULL, t);
  return hob_moment_part (hob_comparison_now (c), e->part)->mode[e->mode] == e->value ? 0 : NAN;
}

static double
allowed_after (double wait)
{
  return LATE_TIME + LATE_SHARE * wait;
}

/* Of the entries from @begin to @k, the last that @k's own part has done before it; NULL: none. */
static const HobSequenceEntry *
step_before (const GArray *entries, guint begin, guint k)
{
  const HobSequenceEntry *e = &g_array_index (entries, HobSequenceEntry, k);

  while (k-- > begin)
    {
      const HobSequenceEntry *before = &g_array_index (entries, HobSequenceEntry, k);

      if (before->part == e->part && before->done <= e->done)
        return before;
    }
  return NULL;
}

/* It came too long after the step before it, though a normal range waits long for that one. */
static gboolean
has_dawdled (const HobSequenceEntry *e, const HobSequenceEntry *before)
{
  double wait = before != NULL ? e->due - before->due : 0;

  return before != NULL && e->done - before->done > wait + allowed_after (wait);
}

static HobSequenceState
state_of (const HobSequenceEntry *e, const HobSequenceEntry *before, double since, double now)
{
  double allowed = allowed_after (e->due - MAX (since, 0));

  if (isnan (e->done))
    return e->due + allowed <= now ? HOB_SEQUENCE_UNMET : HOB_SEQUENCE_NEXT;
  if (e->done > e->due + allowed || has_dawdled (e, before))
    return HOB_SEQUENCE_LATE;
  return e->done < e->due - allowed ? HOB_SEQUENCE_EARLY : HOB_SEQUENCE_MET;
}

/* What the run did between two acts and a normal range does neither there nor, by then, has done
 * late. */
static void
add_extras (GArray *entries, guint from_entry, const HobRun *run, double from, double to,
            double now)
{
  g_autoptr (GArray) extras = g_array_new (FALSE, TRUE, sizeof (HobSequenceEntry));

  list_changes (extras, run, from, MIN (to, now), now, FALSE);
  for (guint k = 0; k < extras->len; k++)
    {
      HobSequenceEntry *e = &g_array_index (extras, HobSequenceEntry, k);
      HobEvent event = { .part = e->part, .index = e->mode, .value = e->value };
      gboolean late = FALSE;

      for (guint i = 0; i < from_entry; i++)
        late = late || g_array_index (entries, HobSequenceEntry, i).done == e->done;
      if (!late && !is_listed (entries, from_entry, &event))
        g_array_append_val (entries, *e);
    }
}

/* What is done early may be undone before a normal range does it; and what should be there may be
 * undone at another time than in a normal range, whose oven is as hot at another time. */
static double
kept_until (const HobSequenceEntry *e, const HobRun *run, const HobRun *twin,
            const HobRun *should_be, double to)
{
  double both = MAX (e->done, e->due);

  return MIN (undone (run, e, e->done, to),
              MIN (undone (twin, e, both, to), undone (should_be, e, both, to)));
}

static void
add_group (GArray *entries, HobRun *run, const HobRun *twin, const HobRun *should_be,
           HobComparison *c, double from, double to, double now)
{
  guint begin = entries->len;

  list_changes (entries, twin, from, to, now, TRUE);
  for (guint k = begin; k < entries->len; k++)
    {
      HobSequenceEntry *e = &g_array_index (entries, HobSequenceEntry, k);
      int n;

      e->done = first_change (run, e, from, nextafter (now, INFINITY), &n);
      if (isnan (e->done) && e->due <= now)
        e->done = already_at (run, c, e, e->due);
      e->state = state_of (e, step_before (entries, begin, k), from, now);
      e->over = to < now;
      e->until = kept_until (e, run, twin, should_be != NULL ? should_be : run, MIN (to, now));
    }
  add_extras (entries, begin, run, from, to, now);
}

/* ---- What drives them ---- */

/* The time whose figures explain it: when it should have been done, or was done too early; of what
 * is not done, just before the act that ended the wait for it; of what never should be, now. */
static double
explained_at (const HobSequenceEntry *e, double now)
{
  switch ((int) e->state)
    {
    case HOB_SEQUENCE_LATE: return e->due;
    case HOB_SEQUENCE_EARLY: return e->done;
    case HOB_SEQUENCE_UNMET: return e->over ? MAX (e->due, e->until - SETTLED) : now;
    default: return now;
    }
}

/* The first of what it yields that differs; −1: none does. */
static int
poor_quantity (const HobComparison *c, const HobModeDef *mode, int part, double *should_be)
{
  for (guint k = 0; k < G_N_ELEMENTS (mode->yields) && mode->yields[k] > 0; k++)
    if (hob_comparison_quantity (c, part, mode->yields[k] - 1, should_be))
      return mode->yields[k] - 1;
  return -1;
}

/* Both have done it, in time: how well?  Looked at just before one of them does something
 * else. */
static void
weigh (HobSequenceEntry *e, HobRun *run, HobRun *should_be, HobComparison *c)
{
  const HobModeDef *mode = &hob_run_case (run)->range->parts[e->part].kind->modes[e->mode];
  double t = e->until - SETTLED;

  if (e->state != HOB_SEQUENCE_MET || e->value != 1 || mode->yields[0] == 0
      || t < MAX (e->done, e->due) + SETTLED)
    return;
  hob_comparison_read (c, run, should_be, t);
  if (hob_moment_part (hob_comparison_normal (c), e->part)->mode[e->mode] != e->value)
    return;
  e->quantity = poor_quantity (c, mode, e->part, &e->should_be);
  e->differs = e->quantity >= 0;
  if (!e->differs)
    return;
  e->state = HOB_SEQUENCE_POOR;
  e->read_at = t;
  e->figure = hob_moment_quantity (hob_comparison_now (c), e->part, e->quantity);
}

static void
drive (HobSequenceEntry *e, HobRun *run, HobRun *should_be, HobComparison *c, double now)
{
  const HobRange *range = hob_run_case (run)->range;
  const HobLinkDef *link
      = hob_kind_link_to_mode (range->parts[e->part].kind, e->mode, e->value);

  e->link = link;
  if (link == NULL || !hob_sequence_is_ringed (e) || e->state == HOB_SEQUENCE_POOR)
    return;
  e->quantity = link->from;
  e->read_at = explained_at (e, now);
  hob_comparison_read (c, run, should_be, e->read_at);
  e->figure = hob_moment_quantity (hob_comparison_now (c), e->part, link->from);
  e->differs = hob_comparison_quantity (c, e->part, link->from, &e->should_be);
  if (link->limit != NULL)
    e->limit = link->limit (hob_moment_part (hob_comparison_normal (c), e->part));
}

/* What should first be undone was never done: nothing has been closed that did not open. */
static gboolean
is_moot (const GArray *entries, guint k)
{
  const HobSequenceEntry *e = &g_array_index (entries, HobSequenceEntry, k);

  while (k-- > 0)
    {
      const HobSequenceEntry *before = &g_array_index (entries, HobSequenceEntry, k);

      if (before->part == e->part && before->mode == e->mode && before->value != e->value)
        return isnan (before->done);
    }
  return FALSE;
}

/* After the first that is not done all others wait for it; and what has been done too early makes
 * all that follows early, so that only the first is said to be. */
static void
let_wait (GArray *entries)
{
  gboolean one = FALSE, early = FALSE;

  for (guint k = 0; k < entries->len; k++)
    {
      HobSequenceEntry *e = &g_array_index (entries, HobSequenceEntry, k);

      if (!isnan (e->done) && is_moot (entries, k))
        {
          e->done = NAN;
          e->state = HOB_SEQUENCE_WAITING;
        }
      if (e->state == HOB_SEQUENCE_EARLY && early)
        e->state = HOB_SEQUENCE_MET;
      early = early || e->state == HOB_SEQUENCE_EARLY;
      if (e->state != HOB_SEQUENCE_UNMET)
        continue;
      if (one)
        e->state = HOB_SEQUENCE_WAITING;
      one = TRUE;
    }
}

static int
by_time (gconstpointer a, gconstpointer b)
{
  const HobSequenceEntry *x = a, *y = b;
  double tx = isnan (x->due) ? x->done : x->due, ty = isnan (y->due) ? y->done : y->due;

  return tx < ty ? -1 : tx > ty;
}

GArray *
hob_sequence_read (HobRun *run, HobRun *twin, HobRun *should_be, HobComparison *c, double t)
{
  GArray *entries = g_array_new (FALSE, TRUE, sizeof (HobSequenceEntry));
  g_autoptr (GArray) acts = acts_of (run, t);

  for (guint k = 0; k < acts->len; k++)
    {
      double to = k + 1 < acts->len ? g_array_index (acts, double, k + 1)
                                    : t + HOB_SEQUENCE_AHEAD;

      add_group (entries, run, twin, should_be, c, g_array_index (acts, double, k), to, t);
    }
  g_array_sort (entries, by_time);
  let_wait (entries);
  for (guint k = 0; k < entries->len; k++)
    {
      HobSequenceEntry *e = &g_array_index (entries, HobSequenceEntry, k);

      weigh (e, run, should_be, c);
      drive (e, run, should_be, c, t);
    }
  return entries;
}

gboolean
hob_sequence_is_ringed (const HobSequenceEntry *e)
{
  return e->state == HOB_SEQUENCE_LATE || e->state == HOB_SEQUENCE_EARLY
         || e->state == HOB_SEQUENCE_POOR || e->state == HOB_SEQUENCE_UNMET
         || e->state == HOB_SEQUENCE_EXTRA;
}

/* ---- Words ---- */

char *
hob_sequence_words (const HobRun *run, const HobSequenceEntry *e)
{
  HobEvent event = { .what = HOB_EVENT_CHANGE, .part = e->part, .index = e->mode,
                     .value = e->value };

  return hob_event_text (run, &event);
}

static char *
time_words (const HobSequenceEntry *e)
{
  g_autofree char *due = isnan (e->due) ? NULL : hob_time_text (e->due);
  g_autofree char *done = isnan (e->done) ? NULL : hob_time_text (e->done);

  if (due == NULL)
    /* Translators: under a step of the sequence of operation; a time. */
    return g_strdup_printf (_ ("at %s; a normal range doesn't do this"), done);
  if (done == NULL)
    /* Translators: under a step of the sequence of operation; a time. */
    return g_strdup_printf (e->over ? _ ("didn't happen; due at %s") : _ ("not yet; due at %s"),
                            due);
  /* Translators: under a step of the sequence of operation; two times. */
  return g_strdup_printf (_ ("at %s, should be %s"), done, due);
}

/* Heat speaks for itself; what else it yields is named. */
static char *
poor_words (const HobKind *kind, const HobSequenceEntry *e, const char *figures)
{
  const HobQuantityDef *quantity = &kind->quantities[e->quantity];
  gboolean named = e->quantity != kind->modes[e->mode].yields[0] - 1;

  return named ? g_strdup_printf (_ ("%s: %s"), _ (quantity->words), figures)
               : g_strdup (figures);
}

char *
hob_sequence_figures (const HobRun *run, const HobSequenceEntry *e)
{
  const HobKind *kind = hob_run_case (run)->range->parts[e->part].kind;
  const HobQuantityDef *quantity;
  g_autofree char *times = hob_sequence_is_ringed (e) ? time_words (e) : NULL;
  g_autofree char *figures = NULL, *limit = NULL, *at = NULL;

  if (e->quantity < 0 || !hob_sequence_is_ringed (e) || !e->differs)
    return g_steal_pointer (&times);
  quantity = &kind->quantities[e->quantity];
  figures = hob_figures_text (quantity, e->figure, e->should_be);
  if (e->state == HOB_SEQUENCE_POOR)
    return poor_words (kind, e, figures);
  if (!isnan (e->limit))
    {
      limit = hob_quantity_text (quantity, e->limit, DIGITS);
      at = hob_words_around (_ (e->link->at), limit);
    }
  if (at == NULL)
    return g_strdup_printf ("%s; %s", figures, times);
  /* "2.7 A, should be 3.4 A; opens at 2.85 A; not yet; due at 45 s" */
  return g_strdup_printf ("%s; %s; %s", figures, at, times);
}
