/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "symptoms/cycles.h"

#include "symptoms/watch-private.h"

#include <math.h>
#include <string.h>

struct _HobCycles
{
  const HobSymptomWatch *watch; /* borrowed */
  Reach *first, *before, *last; /* owned, as the rest: of each value in the last three turns, … */
  Reach *ahead;         /* … and where it may be in those to come */
  double *held_before, *held; /* s, of each predicate: the longest that it held in those turns */
  int n_turns;
  double begun, length; /* s: of the turn that is under way, and of the last one */
};

HobCycles *
hob_cycles_new (const HobSymptomWatch *watch)
{
  HobCycles *c = g_new0 (HobCycles, 1);

  c->watch = watch;
  c->first = g_new0 (Reach, watch->values->len + 1);
  c->before = g_new0 (Reach, watch->values->len + 1);
  c->last = g_new0 (Reach, watch->values->len + 1);
  c->ahead = g_new0 (Reach, watch->values->len + 1);
  c->held_before = g_new0 (double, watch->predicates->len + 1);
  c->held = g_new0 (double, watch->predicates->len + 1);
  return c;
}

void
hob_cycles_free (HobCycles *c)
{
  if (c == NULL)
    return;
  g_free (c->first);
  g_free (c->before);
  g_free (c->last);
  g_free (c->ahead);
  g_free (c->held_before);
  g_free (c->held);
  g_free (c);
}

/* FALSE: nothing was seen. */
static gboolean
take_seen (HobCycles *c, HobRun *run)
{
  Seen seen = hob_symptom_watch_seen (c->watch, hob_run_notes (run));
  const double *since = hob_run_memory (run);
  guint n = c->watch->values->len, predicates = c->watch->predicates->len;

  if (seen.values == NULL)
    return FALSE;
  memcpy (c->first, c->before, sizeof (Reach) * n);
  memcpy (c->before, c->last, sizeof (Reach) * n);
  memcpy (c->last, seen.values, sizeof (Reach) * n);
  memcpy (c->held_before, c->held, sizeof (double) * predicates);
  for (guint v = 0; v < n; v++)
    seen.values[v] = (Reach){ INFINITY, -INFINITY };
  for (guint p = 0; p < predicates; p++)
    {
      c->held[p] = fmax (seen.longest[p], since[p] >= 0 ? hob_run_reached (run) - since[p] : 0);
      seen.longest[p] = 0;
    }
  return TRUE;
}

void
hob_cycles_begin (HobCycles *c, HobRun *run)
{
  (void) take_seen (c, run);
  c->n_turns = 0;
  c->begun = hob_run_reached (run);
}

void
hob_cycles_turn (HobCycles *c, HobRun *run)
{
  c->n_turns = take_seen (c, run) ? c->n_turns + 1 : 0;
  c->length = hob_run_reached (run) - c->begun;
  c->begun = hob_run_reached (run);
}

/* ---- What may be true ---- */

/* Of a bound or a predicate, at some time in a turn. */
typedef struct
{
  gboolean holds, fails;
} May;

static May
may_be_near (Reach r, const Ref *ref)
{
  double low = ref->limit - ref->slack, high = ref->limit + ref->slack;

  return (May){ r.low <= high && r.high >= low, r.low < low || r.high > high };
}

static May
may_ref (Reach r, HobBound bound, const Ref *ref)
{
  May near;

  if (r.low > r.high) /* it was never a number */
    return (May){ FALSE, TRUE };
  switch (bound)
    {
    case HOB_BOUND_AT_LEAST: return (May){ r.high >= ref->limit, r.low < ref->limit };
    case HOB_BOUND_AT_MOST: return (May){ r.low <= ref->limit, r.high > ref->limit };
    case HOB_BOUND_IS: return may_be_near (r, ref);
    case HOB_BOUND_IS_NOT:
    default: near = may_be_near (r, ref); return (May){ near.fails, near.holds };
    }
}

static May
may_predicate (const HobSymptomWatch *w, const Reach *values, int predicate)
{
  const Predicate *p = &g_array_index (w->predicates, Predicate, predicate);
  May all = { TRUE, FALSE }, any = { FALSE, TRUE };

  for (int r = p->first; r < p->first + p->n; r++)
    {
      const Ref *ref = &g_array_index (w->refs, Ref, r);
      May one = may_ref (values[ref->value], p->bound, ref);

      all = (May){ all.holds && one.holds, all.fails || one.fails };
      any = (May){ any.holds || one.holds, any.fails && one.fails };
    }
  return p->all ? all : any;
}

/* ---- What may come ---- */

/* Does it hold and fail in each turn, never for long enough? */
static gboolean
keeps_failing (const HobCycles *c, const Clause *clause, double turns)
{
  double held = c->held[clause->predicate], before = c->held_before[clause->predicate];
  May was = may_predicate (c->watch, c->last, clause->predicate);
  May first = may_predicate (c->watch, c->before, clause->predicate);

  return was.holds && was.fails && first.holds && first.fails
         && held + turns * fmax (held - before, 0) < clause->hold;
}

/* Can the instance, which has not begun, begin before @until?  It can where its conditions may all
 * be true and one of them was not in the last turn, or one that lasts has not yet lasted for its
 * time.  Where they all were as they will be, it would have begun by now. */
static gboolean
may_begin (const HobCycles *c, const Instance *i, const double *memory, double turns, double until)
{
  const HobSymptomWatch *w = c->watch;
  double turn_before = c->begun - c->length; /* it has held for a turn more than it must */
  gboolean new = FALSE;

  for (int k = i->conditions.first; k < i->conditions.first + i->conditions.n; k++)
    {
      const Clause *clause = &g_array_index (w->clauses, Clause, k);
      May was = may_predicate (w, c->last, clause->predicate);
      double since = memory[clause->predicate], held = since + clause->hold;

      if (!may_predicate (w, c->ahead, clause->predicate).holds
          || keeps_failing (c, clause, turns))
        return FALSE;
      if (since >= 0 && !was.fails && held > until)
        return FALSE;
      new = new || !was.holds || (since >= 0 && !was.fails && held > turn_before);
    }
  return new;
}

/* How far it goes on from c in that many turns, after a and b.  As far in each as in the last; or,
 * where the way becomes shorter by the same share r from turn to turn, as it does where heat comes
 * to rest, (c − b)·(r + r² + …), and as far again. */
static double
drift (double a, double b, double c, double turns)
{
  double d = c - b, r = d / (b - a);

  return r > 0 && r < 1 ? d * fmin (turns, 2 * r / (1 - r)) : d * turns;
}

double
hob_cycles_ahead (double a, double b, double c, double turns)
{
  return c > b ? c + drift (a, b, c, turns) : c;
}

static void
look_ahead (const HobCycles *c, double turns)
{
  for (guint v = 0; v < c->watch->values->len; v++)
    {
      Reach x = c->first[v], y = c->before[v], z = c->last[v];

      c->ahead[v].low = z.low < y.low ? z.low + drift (x.low, y.low, z.low, turns) : z.low;
      c->ahead[v].high = hob_cycles_ahead (x.high, y.high, z.high, turns);
    }
}

gboolean
hob_cycles_repeat (const HobCycles *c, HobRun *run, double turns, double until)
{
  const HobSymptomWatch *w = c->watch;
  const double *memory = hob_run_memory (run), *states = memory + w->predicates->len;

  if (c->n_turns < 3)
    return FALSE;
  look_ahead (c, turns);
  for (guint k = 0; k < w->instances->len; k++)
    {
      const Instance *i = &g_array_index (w->instances, Instance, k);
      const double *state = states + I_SIZE * k;

      if (i->begins != HOB_EVENT_SYMPTOM || (state[I_BEGAN] >= 0 && state[I_TIMES] >= i->times))
        continue;
      if (state[I_TIMES] > 0 || may_begin (c, i, memory, turns, until))
        return FALSE;
    }
  return TRUE;
}
