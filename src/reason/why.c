/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "reason/why-search.h"

#include "run/clamp.h"
#include "run/step-twin.h"
#include <math.h>

#define LOOKS 120         /* moments between the first fault and the symptom, besides changes */
#define AFTER_CHANGE 0.2  /* s: two runs do not switch at the same instant */
#define LEAST_MARGIN 30.0 /* s that a symptom must stay away for … */
#define MARGIN 0.1        /* … or as a share of the time up to it */
#define GRAIN 0.1         /* s, of the times that are said */
#define BRIEFLY 120.0     /* s that one run may be behind another with what it shows for a while */
#define SWITCHES (1. / 3) /* of the way up and down that something goes: so far it switches … */
#define SAME_END 0.1      /* … and so near it is as good as at an end */
#define SLICE 30.0        /* s of a run between two looks at `cancel` */

static void
course_free (Course *course)
{
  g_array_unref (course->off);
  g_free (course);
}

void
hob_why_free (HobWhy *why)
{
  if (why == NULL)
    return;
  g_array_unref (why->entries);
  hob_case_free (why->acts);
  g_free (why);
}

/* ---- When and where it was noticed ---- */

/* The first thing done to @part by time t that a normal one would not have had; NULL: nothing. */
static const HobAct *
wrong_act (const HobCase *acts, int part, double t)
{
  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if (act->part == part && (double) act->ms / 1000.0 <= t && hob_act_is_wrong (acts, act))
        return act;
    }
  return NULL;
}

static gboolean
is_faulty (const HobCase *acts, int part, double t)
{
  return wrong_act (acts, part, t) != NULL;
}

static int
count_faulty (const HobCase *acts, double t)
{
  int n = 0;

  for (int p = 0; p < acts->range->n_parts; p++)
    n += is_faulty (acts, p, t);
  return n;
}

/* The first time; FALSE: never, as far as @run has come. */
static gboolean
find_symptom (const HobRun *run, int symptom, int part, double until, HobEvent *event)
{
  guint first, n = hob_run_events (run, -1, until, &first);

  for (guint k = first; k < first + n; k++)
    {
      *event = *hob_run_event (run, k);
      if (event->what == HOB_EVENT_SYMPTOM && event->index == symptom
          && (part < 0 || event->part == part))
        return TRUE;
    }
  return FALSE;
}

/* ---- Cancelling ---- */

gboolean
hob_why_advance (HobBench *bench, double until, const gint *cancel)
{
  (void) hob_bench_should_be (bench); /* comes along from here on */
  return hob_bench_advance_unless (bench, cancel, until) && !hob_is_cancelled (cancel);
}

static gboolean
advance_run (HobRun *run, double until, const gint *cancel)
{
  for (double t = hob_run_reached (run); t < until && !hob_is_cancelled (cancel);)
    {
      t = fmin (t + SLICE, until);
      if (hob_run_advance (run, t, NULL) != HOB_RUN_OK)
        return FALSE;
    }
  return !hob_is_cancelled (cancel);
}

/* ---- Does it heal? ---- */

double
hob_why_horizon (const HobCase *acts, double noticed)
{
  return noticed + fmax (LEAST_MARGIN, MARGIN * (noticed - hob_step_twin_since (acts)));
}

/* Does @healed show something that @run has not, up to @until? */
static gboolean
shows_more (const HobRun *healed, const HobRun *run, double until)
{
  guint first, n = hob_run_events (healed, -1, until, &first);
  HobEvent same;

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (healed, k);

      if (event->what == HOB_EVENT_SYMPTOM
          && !find_symptom (run, event->index, event->part, until, &same))
        return TRUE;
    }
  return FALSE;
}

/* @part acts as it should: without its faults, or, where it has none, held to what it does in the
 * normal run.  Of a faulty part a clamp, which leaves to the others all that it lets through, could
 * not say as much. */
static HobRun *
healed_run (Search *s, int part, double until)
{
  const HobCase *acts = hob_run_case (s->bench->run);
  double since = hob_step_twin_since (acts);

  if (is_faulty (acts, part, until))
    {
      g_autoptr (HobCase) repaired = hob_case_without_wrongs (acts, part);

      return hob_run_fork (s->bench->run, since, repaired,
                           hob_symptom_watch_get (s->bench->watch));
    }
  if (s->normal == NULL)
    {
      g_autoptr (HobCase) faultless = hob_step_twin_case (acts);

      s->normal = hob_run_fork (s->bench->run, since, faultless, NULL);
    }
  return s->normal != NULL ? hob_clamp_new (s->bench->run, s->normal, part) : NULL;
}

static gboolean
heals (Search *s, int part)
{
  double until = hob_why_horizon (hob_run_case (s->bench->run), s->why->t);
  g_autoptr (HobRun) healed = NULL;
  HobEvent event;

  if (!hob_why_advance (s->bench, until, s->cancel))
    return FALSE;
  healed = healed_run (s, part, until);
  return healed != NULL && advance_run (healed, until, s->cancel)
         && !find_symptom (healed, s->symptom, s->why->part, until, &event)
         && !shows_more (healed, s->bench->run, until);
}

gboolean
hob_why_heals (HobBench *bench, const HobWhy *why, int symptom, int part)
{
  Search s = { .bench = bench, .symptom = symptom, .why = (HobWhy *) why };
  gboolean healed = heals (&s, part);

  g_clear_pointer (&s.normal, hob_run_free);
  return healed;
}

/* ---- What differs, and since when ---- */

static int
by_size (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y;
}

static double
grained (double t)
{
  return floor (t / GRAIN + 1e-6) * GRAIN;
}

static void
add_look (GArray *looks, double t, double from, double to)
{
  t = CLAMP (grained (t), from, to);
  g_array_append_val (looks, t);
}

/* Even over the time up to the symptom, and after each change. */
static GArray *
list_looks (HobRun *run, HobRun *twin, double from, double to)
{
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (double));
  GArray *looks = g_array_new (FALSE, FALSE, sizeof (double));
  HobRun *both[] = { run, twin };

  for (int k = 0; k <= LOOKS; k++)
    add_look (all, from + (to - from) * k / LOOKS, from, to);
  for (guint i = 0; i < G_N_ELEMENTS (both); i++)
    {
      guint first, n = hob_run_events (both[i], from - 1, to, &first);

      for (guint k = first; k < first + n; k++)
        add_look (all, hob_run_event (both[i], k)->t + AFTER_CHANGE + GRAIN, from, to);
    }
  g_array_sort (all, by_size);
  for (guint k = 0; k < all->len; k++)
    if (k == 0 || g_array_index (all, double, k) > g_array_index (all, double, k - 1))
      g_array_append_val (looks, g_array_index (all, double, k));
  return looks;
}

static void
add_courses (Search *s)
{
  const HobRange *range = hob_bench_range (s->bench);

  for (int p = 0; p < range->n_parts; p++)
    for (int q = 0; q < range->parts[p].kind->n_quantities; q++)
      {
        Course *course = g_new0 (Course, 1);

        course->part = p;
        course->quantity = q;
        course->since = NAN;
        course->off = g_array_sized_new (FALSE, TRUE, sizeof (double), s->looks->len);
        g_ptr_array_add (s->courses, course);
      }
}

static const HobQuantityDef *
def_of (const Search *s, const Course *course)
{
  return &hob_bench_range (s->bench)->parts[course->part].kind->quantities[course->quantity];
}

/* By how much a quantity is off now; 0: it doesn't differ, +INFINITY: one of the two is unknown. */
static double
off_by (const Search *s, const Course *course)
{
  double should_be, off;

  if (!hob_comparison_quantity (s->comparison, course->part, course->quantity, &should_be))
    return 0;
  off = hob_moment_quantity (hob_comparison_now (s->comparison), course->part, course->quantity)
        - should_be;
  return isnan (off) ? INFINITY : fabs (off);
}

static void
look (Search *s, double t)
{
  hob_comparison_read (s->comparison, s->bench->run, hob_bench_should_be (s->bench), t);
  for (guint k = 0; k < s->courses->len; k++)
    {
      Course *course = s->courses->pdata[k];
      double off = off_by (s, course);

      g_array_append_val (course->off, off);
      if (off > 0 && isnan (course->since))
        course->since = t;
      if (off > 0 && !s->acts[course->part])
        s->acts[course->part] = hob_comparison_acts (s->comparison, course->part);
    }
}

/* ---- From parts to entries ---- */

static gboolean
has_link (const Search *s, const Course *course)
{
  const HobKind *kind = hob_bench_range (s->bench)->parts[course->part].kind;

  return hob_why_link_from (kind, course->quantity) != NULL;
}

/* The quantity of @part that differed first; of several at once, one whose kind says what it
 * moves.  NULL: none that can be compared did. */
static const Course *
first_of (const Search *s, int part, double not_before)
{
  const Course *best = NULL;

  for (guint k = 0; k < s->courses->len; k++)
    {
      const Course *c = s->courses->pdata[k];

      if (c->part != part || isnan (c->since) || c->since < not_before || def_of (s, c)->counts
          || def_of (s, c)->mark)
        continue;
      if (best == NULL || c->since < best->since
          || (c->since <= best->since && has_link (s, c) && !has_link (s, best)))
        best = c;
    }
  return best;
}

static HobWhyEntry
entry_of (const Course *course)
{
  return (HobWhyEntry){ .part = course->part, .quantity = course->quantity, .act = course->act,
                        .since = course->since, .t = course->since };
}

/* What was done to @part, which is faulty, where nothing of its own can be read. */
static const Course *
fault_of (Search *s, int part)
{
  const HobAct *act = wrong_act (hob_run_case (s->bench->run), part, s->why->t);
  Course *course = g_new0 (Course, 1);

  *course = (Course){ .part = part, .quantity = -1, .act = *act,
                      .since = (double) act->ms / 1000.0,
                      .off = g_array_new (FALSE, FALSE, sizeof (double)) };
  g_ptr_array_add (s->faults, course);
  return course;
}

/* What the kind says that it moves, where that differed too, and not before it. */
static const Course *
moved_by (const Search *s, const Course *from)
{
  const HobKind *kind = hob_bench_range (s->bench)->parts[from->part].kind;

  for (int k = 0; k < kind->n_links; k++)
    for (guint i = 0; i < s->courses->len && kind->links[k].from == from->quantity; i++)
      {
        const Course *c = s->courses->pdata[i];

        if (c->part == from->part && c->quantity == kind->links[k].to
            && !def_of (s, c)->counts && c->since >= from->since)
          return c;
      }
  return NULL;
}

/* ---- The chain ---- */

/* Where the chain enters a part: Course *, borrowed. */
static int
by_since (gconstpointer a, gconstpointer b)
{
  const Course *x = *(const Course *const *) a, *y = *(const Course *const *) b;

  return x->since < y->since ? -1 : x->since > y->since;
}

/* Unless it is there already, or is the end. */
static void
add_entry (const Search *s, const Course *c, gboolean passes_on, const HobWhyEntry *end)
{
  HobWhyEntry entry = entry_of (c);
  gboolean there = c->part == end->part && c->quantity == end->quantity;

  for (guint k = 0; k < s->why->entries->len; k++)
    {
      const HobWhyEntry *e = &g_array_index (s->why->entries, HobWhyEntry, k);

      there = there || (c->part == e->part && c->quantity == e->quantity);
    }
  entry.passes_on = passes_on;
  if (!there)
    g_array_append_val (s->why->entries, entry);
}

/* A part's own entries: where the chain enters it, then what that moves inside it, as far as it has
 * differed by @until. */
static void
add_moved (const Search *s, const Course *start, double until, const HobWhyEntry *end)
{
  for (const Course *c = start; c != NULL && c->since <= until; c = moved_by (s, c))
    add_entry (s, c, FALSE, end);
}

/* Each part in turn, no farther than to where the chain goes on.  What differs later has moved
 * nothing. */
static void
add_entries (const Search *s, GPtrArray *starts, const HobWhyEntry *end)
{
  for (guint k = 0; k < starts->len; k++)
    add_moved (s, starts->pdata[k],
               k + 1 < starts->len ? ((const Course *) starts->pdata[k + 1])->since : end->since,
               end);
  g_array_append_val (s->why->entries, *end);
}

/* From @start along @way, which comes back from the end to its part. */
static void
add_way (const Search *s, const Course *start, const GPtrArray *way, const HobWhyEntry *end)
{
  guint n = way->len;
  const Course *joins = NULL;

  while (n > 0 && ((const Course *) way->pdata[n - 1])->part == start->part)
    joins = way->pdata[--n];
  add_moved (s, start, joins->since, end);
  add_entry (s, joins, FALSE, end);
  for (guint k = n; k > 0; k--)
    add_entry (s, way->pdata[k - 1], TRUE, end);
  g_array_append_val (s->why->entries, *end);
}

const Course *
hob_why_course (const Search *s, int part, int quantity)
{
  for (guint i = 0; i < s->courses->len; i++)
    {
      const Course *c = s->courses->pdata[i];

      if (c->part == part && c->quantity == quantity)
        return c;
    }
  return NULL;
}

/* By how much it is off at @c's looks by @until: the middle one of those at which it is. */
static double
usually_off (const Search *s, const Course *c, double until)
{
  g_autoptr (GArray) off = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint k = 0; k < s->looks->len && g_array_index (s->looks, double, k) <= until; k++)
    if (g_array_index (c->off, double, k) > 0)
      g_array_append_val (off, g_array_index (c->off, double, k));
  g_array_sort (off, by_size);
  return off->len > 0 ? g_array_index (off, double, off->len / 2) : 0;
}

/* The latest look by @until at which it is off by at least half as much as it usually is: no
 * figure of two runs that are about to switch, nor of the moment between two switchings. */
static double
moment_of (const Search *s, const HobWhyEntry *entry, double until)
{
  const Course *c = hob_why_course (s, entry->part, entry->quantity);
  double t = entry->since, usual;

  if (entry->whole || c == NULL)
    return t;
  usual = usually_off (s, c, until);
  for (guint k = 0; k < s->looks->len && g_array_index (s->looks, double, k) <= until; k++)
    if (g_array_index (c->off, double, k) > 0 && g_array_index (c->off, double, k) >= usual / 2)
      t = fmax (t, g_array_index (s->looks, double, k));
  return t;
}

static const HobQuantityDef *
def_at (const Search *s, const HobWhyEntry *e)
{
  return &hob_bench_range (s->bench)->parts[e->part].kind->quantities[e->quantity];
}

static double
limit_of (const Search *s, const HobMoment *m, const HobWhyEntry *e)
{
  const HobKind *kind = hob_bench_range (s->bench)->parts[e->part].kind;
  const HobLinkDef *link = hob_why_limited_link (kind, e->quantity);

  return link != NULL ? link->limit (hob_moment_part (m, e->part)) : NAN;
}

/* What is shown for a while only was shown by another run at a time of its own: the last look by t
 * at which it showed anything. */
static double
shown_before (const Search *s, HobRun *run, const HobWhyEntry *e, HobMoment *m)
{
  for (guint k = s->looks->len; k > 0; k--)
    {
      double value, t = g_array_index (s->looks, double, k - 1);

      if (t > e->t || t < e->t - BRIEFLY)
        continue;
      hob_run_read (run, t, m);
      value = hob_moment_quantity (m, e->part, e->quantity);
      if (value != 0)
        return value;
    }
  return 0;
}

/* Figures as late as they still differ, none later than the next one's. */
static void
add_figures (const Search *s, GArray *entries)
{
  g_autoptr (HobMoment) m = hob_moment_new (s->bench->plan);
  double until = hob_why_last_look (s);

  for (guint k = entries->len; k > 0; k--)
    {
      HobWhyEntry *e = &g_array_index (entries, HobWhyEntry, k - 1);
      HobRun *should_be;

      e->t = until = moment_of (s, e, until);
      e->value = e->should_be = e->limit = NAN;
      if (e->quantity < 0)
        continue;
      hob_run_read (s->bench->run, e->t, m);
      e->value = hob_moment_quantity (m, e->part, e->quantity);
      e->limit = limit_of (s, m, e);
      e->fuel = *hob_moment_house (m)->fuel;
      should_be = e->whole ? hob_bench_twin (s->bench) : hob_bench_should_be (s->bench);
      hob_run_read (should_be, e->t, m);
      e->should_be = hob_moment_quantity (m, e->part, e->quantity);
      if (def_at (s, e)->brief && e->should_be == 0)
        e->should_be = shown_before (s, should_be, e, m);
    }
}

/* The least and the most that a quantity was. */
typedef struct
{
  double low, high;
} Reach;

/* Of each of @entries that passes on, at all looks.  (transfer full) */
static Reach *
reaches_of (const Search *s, const GArray *entries)
{
  g_autoptr (HobMoment) m = hob_moment_new (s->bench->plan);
  Reach *reach = g_new (Reach, entries->len);

  for (guint i = 0; i < entries->len; i++)
    reach[i] = (Reach){ INFINITY, -INFINITY };
  for (guint k = 0; k < s->looks->len; k++)
    {
      hob_run_read (s->bench->run, g_array_index (s->looks, double, k), m);
      for (guint i = 0; i < entries->len; i++)
        {
          const HobWhyEntry *e = &g_array_index (entries, HobWhyEntry, i);
          double value = e->passes_on && e->quantity >= 0
                             ? hob_moment_quantity (m, e->part, e->quantity)
                             : NAN;

          reach[i].low = fmin (reach[i].low, value);
          reach[i].high = fmax (reach[i].high, value);
        }
    }
  return reach;
}

/* Has it been where it should be too, a large part of its way from where it is?  Then it only
 * switches at another time. */
static gboolean
goes_both_ways (const HobWhyEntry *e, const Reach *reach)
{
  double span = reach->high - reach->low;

  return fabs (e->value - e->should_be) > SWITCHES * span
         && e->should_be >= reach->low - SAME_END * span
         && e->should_be <= reach->high + SAME_END * span;
}

/* An average is no matter of moments.  What passes on a call and is off for a while only because
 * the call comes at another time, as it does in every cycle, says nothing of it. */
static void
drop_passing (const Search *s)
{
  GArray *entries = s->why->entries;
  g_autofree Reach *reach = NULL;

  if (!def_at (s, &g_array_index (entries, HobWhyEntry, entries->len - 1))->averages)
    return;
  add_figures (s, entries);
  reach = reaches_of (s, entries);
  for (guint k = entries->len - 1; k > 0; k--)
    {
      const HobWhyEntry *e = &g_array_index (entries, HobWhyEntry, k - 1);

      if (e->passes_on && e->quantity >= 0 && goes_both_ways (e, &reach[k - 1]))
        g_array_remove_index (entries, k - 1);
    }
}

/* The entry that is missed least: of those whose kind says nothing of what they move, or else of
 * all but the first and the last, the one nearest to the middle. */
static guint
least_missed (const Search *s)
{
  const HobPart *parts = hob_bench_range (s->bench)->parts;
  guint n = s->why->entries->len, best = n / 2;
  gboolean idle = FALSE;

  for (guint k = 1; k + 1 < n; k++)
    {
      const HobWhyEntry *e = &g_array_index (s->why->entries, HobWhyEntry, k);

      if (e->quantity < 0 || hob_why_link_from (parts[e->part].kind, e->quantity) != NULL)
        continue;
      if (!idle || ABS ((int) k - (int) n / 2) < ABS ((int) best - (int) n / 2))
        best = k;
      idle = TRUE;
    }
  return best;
}

static void
shorten (const Search *s)
{
  while (s->why->entries->len > HOB_WHY_MOST)
    g_array_remove_index (s->why->entries, least_missed (s));
}

/* Where @part comes in no later than the chain's end; what the end itself says is not a cause.
 * NULL: nowhere. */
static const Course *
start_of (Search *s, int part, gboolean faulty, double not_before, const HobWhyEntry *end)
{
  const Course *c = first_of (s, part, not_before);
  gboolean is_end = c != NULL && c->part == end->part && c->quantity == end->quantity;

  if (faulty && (c == NULL || is_end || c->since > end->since))
    c = fault_of (s, part);
  return c != NULL && c->since <= end->since ? c : NULL;
}

/* The parts of the chain but the last one: faulty ones, or, once it is known since when these
 * differ, the others.  Where it takes several faults, what differs at the one may come of the
 * other: each is named besides. */
static void
add_starts (Search *s, GPtrArray *starts, gboolean faulty, double not_before,
            const HobWhyEntry *end)
{
  const HobCase *acts = hob_run_case (s->bench->run);
  gboolean together = faulty && count_faulty (acts, s->why->t) > 1;

  for (int p = 0; p < acts->range->n_parts; p++)
    {
      const Course *c = NULL;

      if (is_faulty (acts, p, s->why->t) == faulty)
        c = start_of (s, p, faulty, not_before, end);
      if (c == NULL || !(p == s->why->part ? faulty : (faulty || s->acts[p]) && heals (s, p)))
        continue;
      if (together && c->quantity >= 0)
        g_ptr_array_add (starts, (gpointer) fault_of (s, p));
      g_ptr_array_add (starts, (gpointer) c);
    }
}

/* Without a faulty part to begin with there is no chain. */
static void
link_up (Search *s)
{
  g_autoptr (GPtrArray) starts = g_ptr_array_new ();
  g_autoptr (GPtrArray) way = NULL;
  HobWhyEntry end;

  if (!hob_why_find_end (s, &end))
    return;
  add_starts (s, starts, TRUE, 0, &end);
  if (starts->len == 0)
    return;
  g_ptr_array_sort (starts, by_since);
  if (starts->len == 1)
    way = hob_why_trace (s, starts, &end);
  if (way != NULL)
    {
      add_way (s, starts->pdata[0], way, &end);
      return;
    }
  add_starts (s, starts, FALSE, ((const Course *) starts->pdata[0])->since, &end);
  g_ptr_array_sort (starts, by_since);
  add_entries (s, starts, &end);
}

static HobWhy *
explain (HobBench *bench, int symptom, int part, const gint *cancel)
{
  HobEvent event;
  HobWhy *why;
  Search s = { .bench = bench, .symptom = symptom, .cancel = cancel };

  if (!find_symptom (bench->run, symptom, part, hob_run_reached (bench->run), &event))
    return NULL;
  why = g_new0 (HobWhy, 1);
  *why = (HobWhy){ hob_case_copy (hob_run_case (bench->run)), event.t, event.part,
                   g_array_new (FALSE, FALSE, sizeof (HobWhyEntry)) };
  if (isinf (hob_step_twin_since (hob_run_case (bench->run))))
    return why;
  (void) hob_why_advance (bench, hob_why_horizon (hob_run_case (bench->run), event.t), cancel);
  s.why = why;
  s.looks = list_looks (bench->run, hob_bench_should_be (bench),
                        hob_step_twin_since (hob_run_case (bench->run)), event.t);
  s.courses = g_ptr_array_new_with_free_func ((GDestroyNotify) course_free);
  s.faults = g_ptr_array_new_with_free_func ((GDestroyNotify) course_free);
  s.acts = g_new0 (gboolean, (gsize) hob_bench_range (bench)->n_parts);
  s.comparison = hob_comparison_new (bench->plan);
  add_courses (&s);
  for (guint k = 0; k < s.looks->len && !hob_is_cancelled (cancel); k++)
    look (&s, g_array_index (s.looks, double, k));
  if (!hob_is_cancelled (cancel))
    link_up (&s);
  if (why->entries->len > 0 && !hob_is_cancelled (cancel))
    {
      drop_passing (&s);
      shorten (&s);
      add_figures (&s, why->entries);
    }
  g_clear_pointer (&s.normal, hob_run_free);
  hob_comparison_free (s.comparison);
  g_ptr_array_unref (s.courses);
  g_ptr_array_unref (s.faults);
  g_array_unref (s.looks);
  g_free (s.acts);
  return why;
}

/* The same acts without the faults of other parts than @part. */
static HobCase *
with_one (const HobCase *acts, int part)
{
  HobCase *one = hob_case_copy (acts);

  for (guint k = one->acts->len; k > 0; k--)
    {
      const HobAct *act = &g_array_index (one->acts, HobAct, k - 1);

      if (act->part != part && hob_act_is_wrong (acts, act))
        hob_case_remove (one, k - 1);
    }
  return one;
}

/* The chain of @part's faults alone; NULL: they are not enough. */
static HobWhy *
explain_one (const HobBench *bench, int symptom, int part, int faulty, const gint *cancel)
{
  g_autoptr (HobCase) acts = with_one (hob_run_case (bench->run), faulty);
  g_autoptr (HobBench) alone = hob_bench_again (bench, acts);

  if (!hob_why_advance (alone, hob_run_reached (bench->run), cancel))
    return NULL;
  return explain (alone, symptom, part, cancel);
}

GPtrArray *
hob_why (HobBench *bench, int symptom, int part, const gint *cancel)
{
  GPtrArray *all;
  const HobCase *acts = hob_run_case (bench->run);
  double until = hob_run_reached (bench->run);
  HobEvent event;
  HobWhy *why;

  if (hob_is_cancelled (cancel))
    return NULL;
  all = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_why_free);
  if (!find_symptom (bench->run, symptom, part, until, &event))
    return all;
  for (int p = 0; p < acts->range->n_parts && count_faulty (acts, event.t) > 1; p++)
    if (is_faulty (acts, p, event.t)
        && (why = explain_one (bench, symptom, event.part, p, cancel)) != NULL)
      g_ptr_array_add (all, why);
  if (all->len == 0 && (why = explain (bench, symptom, event.part, cancel)) != NULL)
    g_ptr_array_add (all, why);
  if (hob_is_cancelled (cancel))
    g_clear_pointer (&all, g_ptr_array_unref);
  return all;
}
