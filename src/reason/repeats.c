/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "reason/repeats.h"

#include "symptoms/cycles.h"

#include <math.h>

#define SLICE 10.0      /* s of a run between two looks for the end of a turn */
#define ALIKE 0.1       /* share of a turn by which it may differ from the one before */
#define TIMES_OF_A_TURN 4
#define LEAST_TURNS 3.0  /* that would be left: for fewer it is not worth the way there */
#define REST 600.0       /* s of a turn in which nothing happens: of shorter ones three may look
                            alike before something that comes slowly */

/* The highest value of a guard in the last three turns. */
typedef struct
{
  double first, before, last;
} Highest;

/* Turns of the contact that regulates: from one time that it closes to the next.  While none does,
 * and nothing else happens either, a turn is a stretch of rest. */
typedef struct
{
  HobBench *bench;   /* borrowed */
  HobCycles *cycles; /* owned */
  int part, mode;    /* whose turns they are; −1: none has closed yet */
  double closed;     /* s, when it did last, or when the stretch of rest began; NaN: not yet */
  double length, before; /* s, of the last two turns; 0: there was none */
  guint acts;        /* that had been done at the last look */
  GArray *guards;    /* Highest, of each guard while all rests; borrowed */
  gboolean rolls;    /* the next look at them is the first one of a stretch */
} Turns;

static guint
acts_done (const HobRun *run)
{
  const GArray *acts = hob_run_case (run)->acts;
  guint n = 0;

  while (n < acts->len && g_array_index (acts, HobAct, n).ms <= 1000 * hob_run_reached (run))
    n++;
  return n;
}

static gboolean
is_closing (const HobRange *range, const HobEvent *e)
{
  return e->what == HOB_EVENT_CHANGE && e->value > 0
         && range->parts[e->part].kind->modes[e->index].regulates;
}

static void
begin_at (Turns *t, double at)
{
  t->closed = at;
  t->length = t->before = 0;
  hob_cycles_begin (t->cycles, t->bench->run);
}

static void
begin_turns (Turns *t, const HobEvent *closing)
{
  t->part = closing->part;
  t->mode = closing->index;
  begin_at (t, closing->t);
}

static void
end_turn (Turns *t, double at)
{
  t->before = t->length;
  t->length = at - t->closed;
  t->closed = at;
}

/* ---- Rest ---- */

static void
begin_rest (Turns *t)
{
  begin_at (t, hob_run_reached (t->bench->run));
  g_array_set_size (t->guards, 0);
  t->rolls = TRUE;
}

static void
look_at_guards (Turns *t)
{
  const Highest none = { -INFINITY, -INFINITY, -INFINITY };
  int n;
  const double *values = hob_run_guards (t->bench->run, &n);

  while ((int) t->guards->len < n)
    g_array_append_val (t->guards, none);
  for (int g = 0; g < n; g++)
    {
      Highest *high = &g_array_index (t->guards, Highest, g);

      if (t->rolls)
        *high = (Highest){ high->before, high->last, values[g] };
      high->last = fmax (high->last, values[g]);
    }
  t->rolls = FALSE;
}

/* Nothing happened after the last look.  TRUE: a stretch of rest has ended. */
static gboolean
rest_ends (Turns *t)
{
  look_at_guards (t);
  if (hob_run_reached (t->bench->run) - t->closed < REST)
    return FALSE;
  end_turn (t, hob_run_reached (t->bench->run));
  hob_cycles_turn (t->cycles, t->bench->run);
  t->rolls = TRUE;
  return TRUE;
}

/* No guard, going on as in the last turns, comes to be due in so many more. */
static gboolean
no_guard_comes (const Turns *t, double turns)
{
  for (guint g = 0; g < t->guards->len; g++)
    {
      const Highest *high = &g_array_index (t->guards, Highest, g);

      if (!(hob_cycles_ahead (high->first, high->before, high->last, turns) < 0))
        return FALSE;
    }
  return TRUE;
}

/* Looks at what happened after @from.  TRUE: a turn has ended. */
static gboolean
turn_ends (Turns *t, double from)
{
  HobRun *run = t->bench->run;
  guint first, n = hob_run_events (run, from, hob_run_reached (run), &first);
  gboolean ends = FALSE;

  if (acts_done (run) != t->acts)
    t->part = -1;
  t->acts = acts_done (run);
  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (run, k);

      if (!is_closing (hob_bench_range (t->bench), e))
        continue;
      if (t->part < 0)
        begin_turns (t, e);
      if (e->part != t->part || e->index != t->mode || e->t <= t->closed)
        continue;
      end_turn (t, e->t);
      ends = TRUE;
    }
  if (t->part < 0 && n == 0 && !isnan (t->closed))
    return rest_ends (t);
  if (t->part < 0)
    begin_rest (t);
  if (ends)
    hob_cycles_turn (t->cycles, run);
  return ends;
}

/* ---- Leaving turns out ---- */

/* The case of the run, whatever is still to be done that much earlier. */
static HobCase *
earlier_case (const HobRun *run, guint done, gint64 ms)
{
  const HobCase *acts = hob_run_case (run);
  HobCase *early = hob_case_new (acts->range);

  early->seed = acts->seed;
  for (guint k = 0; k < acts->acts->len; k++)
    {
      HobAct act = g_array_index (acts->acts, HobAct, k);

      act.ms -= k >= done ? ms : 0;
      hob_case_add (early, act);
    }
  return early;
}

static gboolean
tells_of (const HobRun *run, int symptom)
{
  guint first, n = hob_run_events (run, -1, hob_run_reached (run), &first);

  for (guint k = first; k < first + n; k++)
    if (hob_run_event (run, k)->what == HOB_EVENT_SYMPTOM
        && hob_run_event (run, k)->index == symptom)
      return TRUE;
  return FALSE;
}

static gboolean
tells_more (const HobRun *run, const HobRun *than)
{
  guint first, n = hob_run_events (run, -1, hob_run_reached (run), &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (run, k);

      if (e->what == HOB_EVENT_SYMPTOM && !tells_of (than, e->index))
        return TRUE;
    }
  return FALSE;
}

/* Tries what is still to be done now.  FALSE: it shows something new. */
static gboolean
shows_no_more (HobBench *bench, const gint *cancel, guint done, double next, double until)
{
  double now = hob_run_reached (bench->run);
  gint64 ms = (gint64) ((next - now) * 1000) - 1;
  g_autoptr (HobCase) acts = earlier_case (bench->run, done, ms);
  g_autoptr (HobBench) fork = hob_bench_fork (bench, nextafter (now, INFINITY), acts);

  return hob_bench_advance_unless (fork, cancel, until - (double) ms / 1000)
         && !tells_more (fork->run, bench->run);
}

/* One more turn, and what is done next done at several times of it, since nobody knows at which of
 * them the last one would stand.  FALSE: something new shows, which needs its own time. */
static gboolean
only_repeats (HobBench *bench, const gint *cancel, const Turns *t, double next, double until)
{
  double begin = hob_run_reached (bench->run);

  for (int k = 1; k <= TIMES_OF_A_TURN && !hob_is_cancelled (cancel); k++)
    if (!hob_bench_advance_unless (bench, cancel, begin + k * t->length / TIMES_OF_A_TURN)
        || (!hob_is_cancelled (cancel)
            && !shows_no_more (bench, cancel, t->acts, next, until)))
      return FALSE;
  return TRUE;
}

/* s, of the next act, or the end. */
static double
time_of_next (const Turns *t, double until)
{
  const GArray *acts = hob_run_case (t->bench->run)->acts;

  return t->acts < acts->len ? (double) g_array_index (acts, HobAct, t->acts).ms / 1000 : until;
}

gboolean
hob_repeats_advance (HobBench *bench, const gint *cancel, double until)
{
  g_autoptr (HobCycles) cycles = hob_cycles_new (bench->watch);
  g_autoptr (GArray) guards = g_array_new (FALSE, FALSE, sizeof (Highest));
  Turns t = { .bench = bench, .cycles = cycles, .part = -1, .closed = NAN,
              .acts = acts_done (bench->run), .guards = guards };

  for (double at = hob_run_reached (bench->run); at < until && !hob_is_cancelled (cancel);)
    {
      double from = at, turns, next;

      at = fmin (at + SLICE, until);
      if (!hob_bench_advance_unless (bench, cancel, at))
        return FALSE;
      if (!turn_ends (&t, from))
        continue;
      next = time_of_next (&t, until);
      turns = (next - at) / t.length;
      if (turns < LEAST_TURNS || fabs (t.length - t.before) > ALIKE * t.length
          || (t.part < 0 && !no_guard_comes (&t, turns))
          || !hob_cycles_repeat (cycles, bench->run, turns, until))
        continue;
      return only_repeats (bench, cancel, &t, next, until)
             || hob_bench_advance_unless (bench, cancel, until);
    }
  return TRUE;
}
