/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The watch: the book's conditions bound to the parts of one range, looked at after every accepted
 * step.
 *
 * A *predicate* is a bound on a value, true or false at every moment; predicates that several
 * symptoms ask for are kept once.  Its memory is the time since when it has been true.  Where a
 * predicate changes within a step, the time is found there as a root, so that no answer depends on
 * where the steps fall.  An *instance* is a symptom looked for at one part: it begins when the last
 * of its conditions has held for its time, and ends when one has failed for as long as
 * clears-after. */
#include "symptoms/watch-private.h"

#include <math.h>
#include <string.h>

#define NEVER (-1.0) /* in memory: not true, not present, not broken; run time is never negative   \
                      */
#define NOT_YET G_MAXDOUBLE
#define TIME_TOLERANCE 1e-5  /* s, of a crossing: no sense is quicker */
#define SAME_POSITION 0.02   /* of a control's travel: still "at" a mark */

/* ---- Binding ---- */

static gboolean
is_of (const HobPart *part, const GPtrArray *kinds)
{
  for (guint k = 0; kinds != NULL && k < kinds->len; k++)
    if (kinds->pdata[k] == part->kind)
      return TRUE;
  return FALSE;
}

static gboolean
stands_in (const HobRange *range, int part, int place)
{
  return range->parts[part].in == place;
}

/* The parts whose value condition @c looks at, for a symptom at part @at. */
static void
list_subjects (const HobPlan *plan, const HobCondition *c, int at, GArray *parts)
{
  const HobRange *range = hob_plan_range (plan);
  int caller, outlet;

  switch (c->subject)
    {
    case HOB_SUBJECT_SELF: /* -1 for the whole range: its gas */
      g_array_append_val (parts, at);
      break;
    case HOB_SUBJECT_CALLER:
      if (hob_plan_caller (plan, at, &caller, &outlet))
        g_array_append_val (parts, caller);
      break;
    case HOB_SUBJECT_AROUND:
      if (range->parts[at].in >= 0 && is_of (&range->parts[range->parts[at].in], c->kinds))
        g_array_append_val (parts, range->parts[at].in);
      break;
    case HOB_SUBJECT_WITHIN:
    case HOB_SUBJECT_ANY:
    case HOB_SUBJECT_EVERY:
    default:
      for (int p = 0; p < range->n_parts; p++)
        if (is_of (&range->parts[p], c->kinds)
            && (c->subject != HOB_SUBJECT_WITHIN || stands_in (range, p, at)))
          g_array_append_val (parts, p);
    }
}

static Ref
bind_control (const HobKind *kind, const HobCondition *c, int part)
{
  Ref ref = { .part = part, .index = hob_kind_control (kind, c->name), .slack = -INFINITY };
  const HobControlDef *def;

  if (ref.index < 0)
    return ref;
  def = &kind->controls[ref.index];
  if (hob_control_parse (def, c->value, &ref.limit, NULL))
    ref.slack = def->dim == HOB_DIM_CHOICE ? 0.5 : SAME_POSITION * (def->high - def->low);
  return ref;
}

static Ref
bind_ref (const HobRange *range, const HobCondition *c, int part)
{
  const HobKind *kind = part >= 0 ? range->parts[part].kind : NULL;

  if (c->measure == HOB_MEASURE_CONTROL)
    return bind_control (kind, c, part);
  if (c->measure == HOB_MEASURE_QUANTITY)
    return (Ref){ part, hob_kind_quantity (kind, c->name), -1, c->limit, 0 };
  return (Ref){ part, -1, -1, c->limit, 0 };
}

static gboolean
same_predicate (const HobSymptomWatch *w, const Predicate *a, const Predicate *b)
{
  if (a->measure != b->measure || a->bound != b->bound || a->all != b->all || a->n != b->n)
    return FALSE;
  for (int i = 0; i < a->n; i++)
    {
      const Ref *x = &g_array_index (w->refs, Ref, a->first + i),
                *y = &g_array_index (w->refs, Ref, b->first + i);

      if (x->part != y->part || x->index != y->index || x->limit != y->limit
          || x->slack != y->slack)
        return FALSE;
    }
  return TRUE;
}

static int
keep_value (HobSymptomWatch *w, Value v)
{
  for (guint i = 0; i < w->values->len; i++)
    {
      const Value *of = &g_array_index (w->values, Value, i);

      if (of->measure == v.measure && of->part == v.part && of->index == v.index)
        return (int) i;
    }
  g_array_append_val (w->values, v);
  return (int) w->values->len - 1;
}

/* Keeps @p, whose refs are the last of the list, unless one like it is there.  Returns its number.
 */
static int
keep_predicate (HobSymptomWatch *w, Predicate p)
{
  int *last = &w->last_of[1 + g_array_index (w->refs, Ref, p.first).part];

  for (int i = *last; i >= 0; i = g_array_index (w->predicates, Predicate, i).before)
    if (same_predicate (w, &g_array_index (w->predicates, Predicate, i), &p))
      {
        g_array_set_size (w->refs, (guint) p.first);
        return i;
      }
  p.before = *last;
  *last = (int) w->predicates->len;
  for (int i = p.first; i < p.first + p.n; i++)
    {
      Ref *ref = &g_array_index (w->refs, Ref, i);

      ref->value = keep_value (w, (Value){ p.measure, ref->part, ref->index });
    }
  g_array_append_val (w->predicates, p);
  return (int) w->predicates->len - 1;
}

/* FALSE: this range has no part that the condition could be about. */
static gboolean
bind_condition (HobSymptomWatch *w, const HobCondition *c, int at)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (int));
  Predicate p = { c->measure, c->bound, c->subject == HOB_SUBJECT_EVERY, (int) w->refs->len, 0 };
  Clause clause = { 0, c->hold, c->already };

  list_subjects (w->plan, c, at, parts);
  if (parts->len == 0)
    return FALSE;
  for (guint i = 0; i < parts->len; i++)
    {
      Ref ref = bind_ref (hob_plan_range (w->plan), c, g_array_index (parts, int, i));

      g_array_append_val (w->refs, ref);
    }
  p.n = (int) parts->len;
  clause.predicate = keep_predicate (w, p);
  g_array_append_val (w->clauses, clause);
  return TRUE;
}

/* Those of @list that this range has anything for. */
static Clauses
bind_conditions (HobSymptomWatch *w, const GArray *list, int at)
{
  Clauses clauses = { (int) w->clauses->len, 0 };

  for (guint i = 0; i < list->len; i++)
    if (bind_condition (w, &g_array_index (list, HobCondition, i), at))
      clauses.n++;
  return clauses;
}

/* Without a part for each of its conditions it cannot begin; what ends it may lack one. */
static void
bind_instance (HobSymptomWatch *w, Instance instance, const HobEntry *entry, int at)
{
  instance.part = at;
  instance.conditions = bind_conditions (w, entry->conditions, at);
  if (instance.conditions.n < (int) entry->conditions->len)
    {
      g_array_set_size (w->clauses, (guint) instance.conditions.first);
      return;
    }
  instance.until = bind_conditions (w, entry->until, at);
  g_array_append_val (w->instances, instance);
}

/* @instance: what all instances of the entry have in common. */
static void
bind_entry (HobSymptomWatch *w, Instance instance, const HobEntry *entry)
{
  const HobRange *range = hob_plan_range (w->plan);

  instance.times = entry->times;
  instance.clears_after = entry->clears_after;
  if (entry->each == NULL)
    {
      bind_instance (w, instance, entry, -1);
      return;
    }
  for (int p = 0; p < range->n_parts; p++)
    if (is_of (&range->parts[p], entry->each))
      bind_instance (w, instance, entry, p);
}

static void
add_observables (const HobSymptomWatch *w, const Predicate *p, GArray *observables)
{
  for (int k = 0; k < p->n && p->measure == HOB_MEASURE_QUANTITY; k++)
    {
      const Ref *ref = &g_array_index (w->refs, Ref, p->first + k);
      HobObservable o = { ref->part, ref->index, ref->limit };

      if (o.part >= 0 && o.quantity >= 0)
        g_array_append_val (observables, o);
    }
}

GArray *
hob_symptom_watch_observables (const HobSymptomWatch *w, int symptom, int part)
{
  GArray *observables = g_array_new (FALSE, FALSE, sizeof (HobObservable));

  for (guint k = 0; symptom < 0 && k < w->predicates->len; k++)
    add_observables (w, &g_array_index (w->predicates, Predicate, k), observables);
  for (guint k = 0; k < w->instances->len; k++)
    {
      const Instance *i = &g_array_index (w->instances, Instance, k);

      if (i->begins != HOB_EVENT_SYMPTOM || i->index != symptom || i->part != part)
        continue;
      for (int c = 0; c < i->conditions.n; c++)
        {
          int predicate = g_array_index (w->clauses, Clause, i->conditions.first + c).predicate;

          add_observables (w, &g_array_index (w->predicates, Predicate, predicate), observables);
        }
    }
  return observables;
}

/* ---- Values ---- */

static double
value_of (const HobMoment *m, const Value *v)
{
  switch (v->measure)
    {
    case HOB_MEASURE_ASKED: return hob_moment_asked (m, v->part) ? 1 : 0;
    case HOB_MEASURE_GRAVITY: return hob_moment_house (m)->fuel->specific_gravity;
    case HOB_MEASURE_CONTROL:
      return v->index < 0 ? NAN : hob_moment_control (m, v->part, v->index);
    case HOB_MEASURE_QUANTITY:
    default: return hob_moment_quantity (m, v->part, v->index);
    }
}

/* ≥ 0: the bound holds; continuous where the value is. */
static inline double
margin_of (double value, const Predicate *p, const Ref *ref)
{
  if (isnan (value))
    return -1;
  switch (p->bound)
    {
    case HOB_BOUND_AT_LEAST: return value - ref->limit;
    case HOB_BOUND_AT_MOST: return ref->limit - value;
    case HOB_BOUND_IS: return ref->slack < 0 ? -1 : ref->slack - fabs (value - ref->limit);
    case HOB_BOUND_IS_NOT:
    default: return ref->slack < 0 ? 1 : fabs (value - ref->limit) - ref->slack;
    }
}

/* @refs and @values: those of the watch. */
static inline double
margin_among (const Ref *refs, const double *values, const Predicate *p)
{
  const Ref *ref = refs + p->first, *end = ref + p->n;
  double result = margin_of (values[ref->value], p, ref);

  while (++ref < end)
    {
      double next = margin_of (values[ref->value], p, ref);

      result = p->all ? MIN (result, next) : MAX (result, next);
    }
  return result;
}

static double
margin (const HobSymptomWatch *w, const HobMoment *m, int predicate, double *values)
{
  const Predicate *p = &g_array_index (w->predicates, Predicate, predicate);
  const Ref *refs = (gpointer) w->refs->data;

  for (int i = p->first; i < p->first + p->n; i++)
    {
      int v = refs[i].value;

      values[v] = value_of (m, &g_array_index (w->values, Value, v));
    }
  return margin_among (refs, values, p);
}

/* Of the whole range, each value being asked for once. */
static void
ask_values (const HobSymptomWatch *w, const HobMoment *m, double *values)
{
  const Value *of = (gpointer) w->values->data;
  int n = (int) w->values->len, quantities = (int) w->quantities->len;

  hob_moment_quantities (m, (gpointer) w->quantities->data, quantities, values);
  for (int v = quantities; v < n; v++)
    values[v] = value_of (m, of + v);
}

/* A look into the span for one predicate. */
typedef struct
{
  double t, margin;
} Point;

/* The share of the way from @p to @q at which the parabola through the three, read backwards, is
 * zero; a half where it cannot be trusted: where the margin jumps, that is. */
static double
next_share (Point p, Point q, Point r)
{
  double along = (p.t - q.t) / (r.t - q.t), rise = (p.margin - q.margin) / (r.margin - q.margin);

  if (!(rise * rise < along && (1 - rise) * (1 - rise) < 1 - along))
    return 0.5;
  return p.margin / (q.margin - p.margin) * r.margin / (q.margin - r.margin)
         + (r.t - p.t) / (q.t - p.t) * p.margin / (r.margin - p.margin) * q.margin
               / (r.margin - q.margin);
}

/* As much of the moment as the predicate reads. */
static const HobMoment *
look_within (const HobSymptomWatch *w, HobSpan *span, double t, int predicate)
{
  const Predicate *p = &g_array_index (w->predicates, Predicate, predicate);
  const Ref *ref = &g_array_index (w->refs, Ref, p->first);

  return p->n == 1 && p->measure == HOB_MEASURE_QUANTITY
             ? hob_span_at_for (span, t, ref->part, ref->index) : hob_span_at (span, t);
}

/* Where between @a and @b, of unlike signs, the predicate becomes what it is at @b: inverse
 * quadratic steps that fall back on halving (T. R. Chandrupatla, Adv. Eng. Software 28 (1997) 145).
 */
static double
crossing (const HobSymptomWatch *w, HobSpan *span, int predicate, Point a, Point b,
          double *values)
{
  Point p = b, q = a, r;
  gboolean becomes = b.margin >= 0;
  double share = 0.5, least;

  while ((least = TIME_TOLERANCE / fabs (q.t - p.t)) < 0.5)
    {
      Point next = { p.t + CLAMP (share, least, 1 - least) * (q.t - p.t), 0 };

      next.margin = margin (w, look_within (w, span, next.t, predicate), predicate, values);
      r = p;
      if ((next.margin >= 0) != (p.margin >= 0))
        {
          r = q;
          q = p;
        }
      p = next;
      share = next_share (p, q, r);
    }
  return (p.margin >= 0) == becomes ? p.t : q.t;
}

/* ---- Instances ---- */

/* When the clauses of an instance came true, all times in s; NOT_YET where it is still to come. */
typedef struct
{
  double whole; /* the last of them has held for its time */
  double joint; /* the last of them became true */
  double stop;  /* the first of them failed */
} Standing;

static Standing
standing (const HobSymptomWatch *w, Clauses clauses, const double *memory, const double *failed)
{
  Standing s = { 0, 0, NOT_YET };
  double already = 0, first = NOT_YET; /* when what held already, and what came then, came true */

  for (int k = 0; k < clauses.n; k++)
    {
      const Clause *c = &g_array_index (w->clauses, Clause, clauses.first + k);
      double since = memory[c->predicate];

      if (since < 0)
        return (Standing){ NOT_YET, NOT_YET, 0 };
      s.whole = MAX (s.whole, since + c->hold);
      s.joint = MAX (s.joint, since);
      s.stop = MIN (s.stop, failed[c->predicate]);
      if (c->already)
        already = MAX (already, since);
      else
        first = MIN (first, since);
    }
  return already <= first ? s : (Standing){ NOT_YET, NOT_YET, 0 };
}

static void
emit (HobRun *run, const Instance *i, double t, gboolean begins)
{
  hob_run_emit (run, t, begins ? i->begins : i->ends, i->part, i->index, begins ? 1 : 0);
}

/* One instance in one step. */
typedef struct
{
  const Instance *i;
  Standing conditions, until;
  double *state;
  double from, to; /* the step, s */
} Look;

/* Ends it if it stayed broken for long enough before @again, when its conditions met anew. */
static void
end_if_gone (HobRun *run, const Look *l, double again)
{
  double gone = MAX (MAX (l->state[I_BROKEN] + l->i->clears_after, l->until.whole), l->from);

  if (l->state[I_BROKEN] < 0 || gone > l->to || gone > again)
    return;
  if (l->state[I_TIMES] >= l->i->times)
    emit (run, l->i, gone, FALSE);
  l->state[I_BEGAN] = l->state[I_BROKEN] = l->state[I_CAME_TRUE] = NEVER;
  l->state[I_TIMES] = 0;
}

/* The conditions came true in this step, and not only for a moment within it. */
static void
count (HobRun *run, const Look *l)
{
  Standing s = l->conditions;

  if (s.whole > l->to || s.joint >= s.stop || s.joint == l->state[I_CAME_TRUE]
      || !(s.whole < s.stop || (s.whole == s.stop && s.stop == l->to)))
    return;
  if (l->state[I_BEGAN] < 0)
    l->state[I_BEGAN] = MAX (s.whole, l->from);
  l->state[I_BROKEN] = NEVER;
  l->state[I_CAME_TRUE] = s.joint;
  if (++l->state[I_TIMES] == l->i->times)
    emit (run, l->i, MAX (s.whole, l->from), TRUE);
}

static void
look_at_instance (HobRun *run, const Look *l)
{
  double *state = l->state;

  if (state[I_BEGAN] >= 0 && state[I_BROKEN] >= 0)
    {
      end_if_gone (run, l, l->conditions.joint);
      if (l->conditions.joint <= l->to)
        state[I_BROKEN] = NEVER;
    }
  count (run, l);
  if (state[I_BEGAN] >= 0 && state[I_BROKEN] < 0 && l->conditions.stop < NOT_YET)
    {
      state[I_BROKEN] = MAX (l->conditions.stop, l->from);
      end_if_gone (run, l, NOT_YET);
    }
}

/* Has it not begun, and does a condition not hold?  So it is with nearly all, and a look would
 * change nothing. */
static inline gboolean
is_idle (const Clause *clauses, const Instance *i, const double *memory, const double *state)
{
  const Clause *end = clauses + i->conditions.first + i->conditions.n;

  for (const Clause *c = clauses + i->conditions.first; c < end; c++)
    if (memory[c->predicate] < 0)
      return state[I_BEGAN] < 0;
  return FALSE;
}

/* FALSE: nothing of it is another one now. */
static gboolean
look_at_one (const HobSymptomWatch *w, HobRun *run, int k, double *memory, const double *failed,
             double from, double to)
{
  const Instance *i = &g_array_index (w->instances, Instance, k);
  double *state = memory + w->predicates->len + I_SIZE * (guint) k, before[I_SIZE];
  Look look = { i, standing (w, i->conditions, memory, failed),
                standing (w, i->until, memory, failed), state, from, to };

  memcpy (before, state, sizeof before);
  look_at_instance (run, &look);
  return memcmp (before, state, sizeof before) != 0;
}

static void
begin (gpointer user, HobRun *run, const HobMoment *m, double *memory)
{
  const HobSymptomWatch *w = user;
  const Predicate *predicates = (gpointer) w->predicates->data;
  const Ref *refs = (gpointer) w->refs->data;
  guint n = w->predicates->len;
  g_autofree double *failed = g_new (double, n + 1);
  g_autofree double *values = g_new (double, w->values->len + 1);

  ask_values (w, m, values);
  for (guint p = 0; p < n; p++)
    {
      gboolean holds = margin_among (refs, values, predicates + p) >= 0;

      memory[p] = holds ? hob_moment_time (m) : NEVER;
      failed[p] = NOT_YET;
    }
  for (guint k = 0; k < I_SIZE * w->instances->len; k++)
    memory[n + k] = k % I_SIZE == I_TIMES ? 0 : NEVER;
  for (int k = 0; k < (int) w->instances->len; k++)
    look_at_one (w, run, k, memory, failed, hob_moment_time (m), hob_moment_time (m));
}

/* Whether it matters when exactly the predicate failed: for a symptom that is there, or that comes
 * before the end of this step.  Most that fail were on their way to nothing, and looking for the
 * moment costs more than all else here. */
static gboolean
failing_matters (const HobSymptomWatch *w, int predicate, const double *memory, double to)
{
  const double *states = memory + w->predicates->len;

  for (guint k = 0; k < w->instances->len; k++)
    {
      const Instance *i = &g_array_index (w->instances, Instance, k);
      double whole = 0;
      gboolean asks = FALSE;

      for (int c = i->conditions.first; c < i->conditions.first + i->conditions.n; c++)
        {
          const Clause *clause = &g_array_index (w->clauses, Clause, c);
          double since = memory[clause->predicate];

          asks = asks || clause->predicate == predicate;
          whole = since < 0 ? NOT_YET : MAX (whole, since + clause->hold);
          if (since < 0)
            break;
        }
      if (asks && (states[I_SIZE * k + I_BEGAN] >= 0 || whole <= to))
        return TRUE;
    }
  return FALSE;
}

/* ---- Only what moved ----
 *
 * Most values stay, from step to step, where no bound on them is crossed.  Noted for each is how
 * far it may go like that; beyond, its predicates are due, and what asks for one that changed is
 * awake until it is idle again. */

static const Reach nowhere = { INFINITY, -INFINITY };

typedef guint64 Word; /* a set, a bit for each member */
#define WORD 64

static inline void
put_in (Word *set, int k)
{
  set[k / WORD] |= (Word) 1 << k % WORD;
}

static inline void
take_out (Word *set, int k)
{
  set[k / WORD] &= ~((Word) 1 << k % WORD);
}

/* The first member from @k on; @n if there is none. */
static inline int
next_in (const Word *set, int k, int n)
{
  for (; k < n; k = (k / WORD + 1) * WORD)
    {
      Word rest = set[k / WORD] >> k % WORD;

      if (rest != 0)
        return k + __builtin_ctzll (rest);
    }
  return n;
}

/* What a watch works with, beside its memory. */
typedef struct
{
  double *valid;    /* 0: nothing of it holds */
  double *values;   /* at the step's end */
  double *before;   /* at its start, where the last step ended: nothing came between */
  double *within;   /* of those asked for, somewhere in it */
  double *end;      /* margins of those that changed, at its end */
  double *start;    /* at its start, once it was looked at */
  double *failed;   /* when it failed in this step; NOT_YET */
  Reach *reach;     /* per value */
  Seen seen;
  Word *due;        /* predicates */
  Word *awake;      /* instances */
  int *changed;     /* the predicates that did, n of them, rising */
  int n;
  gboolean follows; /* `before` is known */
  gboolean started; /* its start was looked at */
} Scratch;

/* Divides the notes; NULL: there are none yet.  Returns their number. */
static int
lay_out (const HobSymptomWatch *w, double *notes, Scratch *s)
{
  int values = (int) w->values->len, predicates = (int) w->predicates->len, at = 0;
  int instances = (int) w->instances->len;

#define TAKE(field, type, count)                                                               \
  (s->field = notes != NULL ? (type *) (gpointer) (notes + at) : NULL,                         \
   at += (int) (((gsize) (count) * sizeof (type) + 7) / sizeof (double)))
  TAKE (valid, double, 1);
  TAKE (values, double, values);
  TAKE (before, double, values);
  TAKE (within, double, values);
  TAKE (end, double, predicates);
  TAKE (start, double, predicates);
  TAKE (failed, double, predicates);
  TAKE (reach, Reach, values);
  TAKE (seen.values, Reach, values);
  TAKE (seen.longest, double, predicates);
  TAKE (due, Word, predicates / WORD + 1);
  TAKE (awake, Word, instances / WORD + 1);
  TAKE (changed, int, predicates);
#undef TAKE
  s->n = 0;
  s->follows = s->started = FALSE;
  return at;
}

Seen
hob_symptom_watch_seen (const HobSymptomWatch *w, double *notes)
{
  Scratch s;

  lay_out (w, notes, &s);
  return *s.valid != 0 ? s.seen : (Seen){ NULL, NULL };
}

/* Nothing is known: all is looked at. */
static void
begin_notes (const HobSymptomWatch *w, Scratch *s)
{
  *s->valid = 1;
  for (guint v = 0; v < w->values->len; v++)
    s->reach[v] = s->seen.values[v] = nowhere;
  for (guint p = 0; p < w->predicates->len; p++)
    {
      s->failed[p] = NOT_YET;
      s->seen.longest[p] = 0;
    }
  memset (s->due, 0, (w->predicates->len / WORD + 1) * sizeof (Word));
  memset (s->awake, 0, (w->instances->len / WORD + 1) * sizeof (Word));
  for (int k = 0; k < (int) w->instances->len; k++)
    put_in (s->awake, k);
}

/* Shortens the reach of @value to where the bound of @ref holds if it holds at @value, and else to
 * where it does not: both meet at the limit, which belongs to where it holds.  Of the others, which
 * are on positions, only the value itself is known. */
static void
shorten (Reach *reach, double value, const Predicate *p, const Ref *ref)
{
  if (p->bound == HOB_BOUND_AT_LEAST && value >= ref->limit)
    reach->low = MAX (reach->low, ref->limit);
  else if (p->bound == HOB_BOUND_AT_LEAST)
    reach->high = MIN (reach->high, nextafter (ref->limit, -INFINITY));
  else if (p->bound == HOB_BOUND_AT_MOST && value <= ref->limit)
    reach->high = MIN (reach->high, ref->limit);
  else if (p->bound == HOB_BOUND_AT_MOST)
    reach->low = MAX (reach->low, nextafter (ref->limit, INFINITY));
  else
    reach->low = reach->high = value;
}

/* The predicates about value @v are due, now that it left its reach; a NaN has none. */
static void
left_reach (const HobSymptomWatch *w, int v, Scratch *s)
{
  const Ref *refs = (gpointer) w->refs->data;
  double value = s->values[v];
  Reach reach = isnan (value) ? nowhere : (Reach){ -INFINITY, INFINITY };

  for (int k = w->looks_at.first[v]; k < w->looks_at.first[v + 1]; k++)
    {
      const Predicate *p = &g_array_index (w->predicates, Predicate, w->looks_at.item[k]);

      put_in (s->due, w->looks_at.item[k]);
      for (int r = p->first; r < p->first + p->n && !isnan (value); r++)
        if (refs[r].value == v)
          shorten (&reach, value, p, refs + r);
    }
  s->reach[v] = reach;
}

/* Margins at the step's end; those that changed since its start, and who asks for them. */
static void
look_at_end (const HobSymptomWatch *w, HobSpan *span, const double *memory, Scratch *s)
{
  const Predicate *predicates = (gpointer) w->predicates->data;
  const Ref *refs = (gpointer) w->refs->data;
  int n = (int) w->predicates->len;

  ask_values (w, hob_span_at (span, hob_span_end (span)), s->values);
  for (int v = 0; v < (int) w->values->len; v++)
    {
      double value = s->values[v];
      Reach *seen = &s->seen.values[v];

      seen->low = value < seen->low ? value : seen->low;
      seen->high = value > seen->high ? value : seen->high;
      if (!(value >= s->reach[v].low && value <= s->reach[v].high))
        left_reach (w, v, s);
    }
  for (int p = next_in (s->due, 0, n); p < n; p = next_in (s->due, p + 1, n))
    {
      double end = margin_among (refs, s->values, predicates + p);

      take_out (s->due, p);
      if ((end >= 0) == (memory[p] >= 0))
        continue;
      s->end[p] = end;
      s->changed[s->n++] = p;
      for (int k = w->asks_for.first[p]; k < w->asks_for.first[p + 1]; k++)
        put_in (s->awake, w->asks_for.item[k]);
    }
}

/* The margins at its start, of all that changed.  A look there would move the borrowed moment, and
 * is needed only where the last step was not this watch's. */
static void
look_at_start (const HobSymptomWatch *w, HobSpan *span, Scratch *s)
{
  const Predicate *predicates = (gpointer) w->predicates->data;
  const Ref *refs = (gpointer) w->refs->data;

  if (!s->follows)
    ask_values (w, hob_span_at (span, hob_span_start (span)), s->before);
  for (int k = 0; k < s->n; k++)
    s->start[s->changed[k]] = margin_among (refs, s->before, predicates + s->changed[k]);
  s->started = TRUE;
}

/* When predicate @p changed in the step. */
static double
moment_of (const HobSymptomWatch *w, HobSpan *span, int p, Scratch *s)
{
  double from = hob_span_start (span), to = hob_span_end (span);

  if (to - from <= TIME_TOLERANCE)
    return to;
  if (!s->started)
    look_at_start (w, span, s);
  if ((s->start[p] >= 0) == (s->end[p] >= 0))
    return from;
  return crossing (w, span, p, (Point){ from, s->start[p] }, (Point){ to, s->end[p] },
                   s->within);
}

/* What became true goes first, since it decides whether a failure matters. */
static void
find_changes (const HobSymptomWatch *w, HobSpan *span, double *memory, Scratch *s)
{
  double to = hob_span_end (span);

  look_at_end (w, span, memory, s);
  for (int k = 0, p; k < s->n; k++)
    if (s->end[p = s->changed[k]] >= 0)
      memory[p] = moment_of (w, span, p, s);
  for (int k = 0, p; k < s->n; k++)
    if (s->end[p = s->changed[k]] < 0)
      s->failed[p] = failing_matters (w, p, memory, to) ? moment_of (w, span, p, s) : to;
}

static gboolean
look_at_awake (const HobSymptomWatch *w, HobRun *run, HobSpan *span, double *memory,
               const Scratch *s)
{
  const Clause *clauses = (gpointer) w->clauses->data;
  const double *states = memory + w->predicates->len;
  int n = (int) w->instances->len;
  gboolean wrote = FALSE;

  for (int k = next_in (s->awake, 0, n); k < n; k = next_in (s->awake, k + 1, n))
    if (is_idle (clauses, &g_array_index (w->instances, Instance, k), memory,
                 states + I_SIZE * k))
      take_out (s->awake, k);
    else if (look_at_one (w, run, k, memory, s->failed, hob_span_start (span),
                          hob_span_end (span)))
      wrote = TRUE;
  return wrote;
}

static gboolean
step (gpointer user, HobRun *run, HobSpan *span, double *memory, double *notes)
{
  const HobSymptomWatch *w = user;
  gboolean wrote;
  Scratch s;

  lay_out (w, notes, &s);
  s.follows = *s.valid != 0;
  if (s.follows)
    memcpy (s.before, s.values, sizeof (double) * w->values->len);
  else
    begin_notes (w, &s);
  find_changes (w, span, memory, &s);
  wrote = look_at_awake (w, run, span, memory, &s);
  for (int k = 0; k < s.n; k++)
    {
      int p = s.changed[k];
      double held = s.failed[p] - memory[p];

      s.failed[p] = NOT_YET;
      if (s.end[p] >= 0)
        continue;
      s.seen.longest[p] = MAX (s.seen.longest[p], held);
      memory[p] = NEVER;
    }
  return wrote || s.n > 0;
}

/* ---- The watch ---- */

/* The items of each key, in their order. */
static Lists
lists_new (int n_keys, const GArray *keys, const GArray *items)
{
  Lists lists = { g_new0 (int, n_keys + 2), g_new (int, items->len + 1) };
  g_autofree int *next = NULL;

  for (guint k = 0; k < keys->len; k++)
    lists.first[g_array_index (keys, int, k) + 1]++;
  for (int k = 0; k < n_keys; k++)
    lists.first[k + 1] += lists.first[k];
  next = g_memdup2 (lists.first, sizeof (int) * ((gsize) n_keys + 1));
  for (guint k = 0; k < items->len; k++)
    lists.item[next[g_array_index (keys, int, k)]++] = g_array_index (items, int, k);
  return lists;
}

/* The values that are quantities come first: they can be asked for at once. */
static void
put_quantities_first (HobSymptomWatch *w)
{
  g_autofree int *place = g_new (int, w->values->len + 1);
  GArray *sorted = g_array_new (FALSE, TRUE, sizeof (Value));

  for (int others = 0; others < 2; others++)
    for (guint v = 0; v < w->values->len; v++)
      {
        Value *value = &g_array_index (w->values, Value, v);
        HobQuantityOf of = { value->part, value->index };

        if ((value->measure != HOB_MEASURE_QUANTITY) != others)
          continue;
        place[v] = (int) sorted->len;
        g_array_append_val (sorted, *value);
        if (!others)
          g_array_append_val (w->quantities, of);
      }
  for (guint r = 0; r < w->refs->len; r++)
    g_array_index (w->refs, Ref, r).value = place[g_array_index (w->refs, Ref, r).value];
  g_array_unref (w->values);
  w->values = sorted;
}

/* What is about what: predicates about values, instances that ask for predicates. */
static void
list_readers (HobSymptomWatch *w)
{
  g_autoptr (GArray) keys = g_array_new (FALSE, FALSE, sizeof (int));
  g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (int));

  for (int p = 0; p < (int) w->predicates->len; p++)
    {
      const Predicate *of = &g_array_index (w->predicates, Predicate, p);

      for (int r = of->first; r < of->first + of->n; r++)
        {
          g_array_append_val (keys, g_array_index (w->refs, Ref, r).value);
          g_array_append_val (items, p);
        }
    }
  w->looks_at = lists_new ((int) w->values->len, keys, items);
  g_array_set_size (keys, 0);
  g_array_set_size (items, 0);
  for (int k = 0; k < (int) w->instances->len; k++)
    {
      const Clauses *c = &g_array_index (w->instances, Instance, k).conditions;

      for (int i = c->first; i < c->first + c->n; i++)
        {
          g_array_append_val (keys, g_array_index (w->clauses, Clause, i).predicate);
          g_array_append_val (items, k);
        }
    }
  w->asks_for = lists_new ((int) w->predicates->len, keys, items);
}

HobSymptomWatch *
hob_symptom_watch_new (const HobSymptomBook *book, const HobPlan *plan)
{
  HobSymptomWatch *w = g_new0 (HobSymptomWatch, 1);

  g_atomic_ref_count_init (&w->owners);
  w->plan = hob_plan_ref ((HobPlan *) plan);
  w->values = g_array_new (FALSE, TRUE, sizeof (Value));
  w->quantities = g_array_new (FALSE, TRUE, sizeof (HobQuantityOf));
  w->refs = g_array_new (FALSE, TRUE, sizeof (Ref));
  w->predicates = g_array_new (FALSE, TRUE, sizeof (Predicate));
  w->clauses = g_array_new (FALSE, TRUE, sizeof (Clause));
  w->instances = g_array_new (FALSE, TRUE, sizeof (Instance));
  w->last_of = g_new (int, hob_plan_range (plan)->n_parts + 1);
  for (int p = 0; p <= hob_plan_range (plan)->n_parts; p++)
    w->last_of[p] = -1;
  for (guint s = 0; s < book->entries->len; s++)
    bind_entry (w, (Instance){ HOB_EVENT_SYMPTOM, HOB_EVENT_SYMPTOM_END, .index = (int) s },
                book->entries->pdata[s]);
  for (guint h = 0; h < book->hazards->len; h++)
    bind_entry (w, (Instance){ HOB_EVENT_HAZARD, HOB_EVENT_HAZARD_END, .index = (int) h },
                book->hazards->pdata[h]);
  g_clear_pointer (&w->last_of, g_free);
  put_quantities_first (w);
  list_readers (w);
  w->watch = (HobWatch){ (int) (w->predicates->len + I_SIZE * w->instances->len),
                         lay_out (w, NULL, &(Scratch){ 0 }), begin, step, w };
  return w;
}

HobSymptomWatch *
hob_symptom_watch_ref (HobSymptomWatch *watch)
{
  g_atomic_ref_count_inc (&watch->owners);
  return watch;
}

void
hob_symptom_watch_unref (HobSymptomWatch *watch)
{
  if (watch == NULL || !g_atomic_ref_count_dec (&watch->owners))
    return;
  g_array_unref (watch->values);
  g_array_unref (watch->quantities);
  g_array_unref (watch->refs);
  g_array_unref (watch->predicates);
  g_array_unref (watch->clauses);
  g_array_unref (watch->instances);
  g_free (watch->looks_at.first);
  g_free (watch->looks_at.item);
  g_free (watch->asks_for.first);
  g_free (watch->asks_for.item);
  hob_plan_unref (watch->plan);
  g_free (watch);
}

const HobWatch *
hob_symptom_watch_get (const HobSymptomWatch *watch)
{
  return &watch->watch;
}
