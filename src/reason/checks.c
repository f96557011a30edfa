/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/checks.h"

#include "reason/trials-cache.h"

#include <math.h>
#include <string.h>

#define LEAST 5.0       /* times what the meter may err: less is nothing to read */
#define FLAME 300.0     /* s, by when a normal burner is lit */
#define MOST 3          /* readings */
#define ALONG 0.01      /* by which a reading may differ along one circuit */
#define CYCLES 3600.0   /* s, in which an oven cycles at least three times */
#define SIMPLER 1.2     /* times that a longer procedure's readings must change more */
#define CHANGES 3.0     /* standard deviations: a reading that the repair changes */

/* ---- Tests of an occasion ---- */

static gboolean
has_act (const HobCase *c, const HobAct *act)
{
  for (guint k = 0; k < c->acts->len; k++)
    if (hob_act_same (&g_array_index (c->acts, HobAct, k), act))
      return TRUE;
  return FALSE;
}

/* Without the acts of the case itself, and those that come later. */
HobTest *
hob_occasion_test (const HobCase *base, const HobOccasion *o, double t, const HobTest *what)
{
  HobTest *test = g_memdup2 (what, sizeof *what);

  test->symptom = g_strdup (what->symptom);
  test->acts = hob_case_new (base->range);
  test->time = t;
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (o->acts->acts, HobAct, k);

      if ((double) act->ms <= t * 1000 && !has_act (base, act))
        hob_case_add (test->acts, *act);
    }
  return test;
}

/* ---- Readings ---- */

typedef struct
{
  double change; /* standard deviations */
  const HobListedTest *listed;
  double t, value, share;
} Found;

/* The run whose severity is nearest to the suspect's. */
static guint
run_of (const HobListed *fault, double severity)
{
  guint best = 1;

  for (guint k = 1; fault->graded && k < HOB_N_SEVERITIES; k++)
    if (fabs (hob_severities[k] - severity) < fabs (hob_severities[best] - severity))
      best = k;
  return fault->first_run + best - 1;
}

/* Is it the same current or voltage as one that is found, at another place along the circuit? */
static gboolean
is_found (const Found *found, const Found *f)
{
  for (int i = 0; i < MOST && found[i].listed != NULL; i++)
    if (found[i].listed->means == f->listed->means
        && fabs (found[i].value - f->value) < ALONG * fabs (f->value))
      return TRUE;
  return FALSE;
}

/* The readings at the part that change most, at one moment. */
static void
find_at (const HobInquiry *q, const HobOccasion *o, double t, const HobSuspect *s, Found *found)
{
  const GPtrArray *tests = hob_trials_tests (q->trials);
  const HobScatter *spread;
  const float *answers = hob_trials_readings (q->trials, o->acts, t, &spread);
  guint run = run_of (hob_inquiry_listed (q, s), s->severity.middle);

  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];
      HobMeterClass meter = hob_meter_class (listed->dim);
      HobExpected normal = hob_expected_of ((double) answers[k], listed->dim, &spread[k]);
      double with = (double) answers[(gsize) run * tests->len + k], deviation;
      Found f;

      if (!hob_test_at_part (q->base->range, listed->test, s->part)
          || !isfinite (normal.value) || isnan (with) || hob_test_is_dead (listed->test)
          || listed->dim == HOB_DIM_DIFFERENCE
          || fabs (normal.value) < LEAST * meter.fixed)
        continue;
      deviation = hob_reading_deviation (&normal, &meter, NAN);
      f = (Found){ fabs (with - normal.value) / deviation, listed, t, normal.value,
                   fabs (normal.value) > 0 ? deviation / fabs (normal.value) : 0 };
      if (is_found (found, &f))
        continue;
      for (int i = 0; i < MOST && f.change > CHANGES; i++)
        if (found[i].listed == NULL || f.change > found[i].change)
          {
            Found other = found[i];

            found[i] = f;
            f = other;
          }
    }
}

static void
add_check (const HobInquiry *q, HobSuspects *all, const HobOccasion *o, double t,
           const HobTest *what, double value, double share, double most)
{
  HobCheck check = { hob_occasion_test (q->base, o, t, what), value, share, most };

  g_ptr_array_add (all->checks, g_memdup2 (&check, sizeof check));
}

/* ---- What was seen ---- */

static void
add_symptom (const HobInquiry *q, HobSuspects *all, const HobClue *clue, const HobOccasion *o,
             guint run)
{
  g_autofree double *shows = g_new (double, q->n_runs);

  hob_trials_look (q->trials, o->acts, clue->symptom, clue->test->part, o->until, shows);
  if (shows[run] > 0)
    add_check (q, all, o, o->until, clue->test, 0, 0, NAN);
}

/* Does anybody notice anything in that run? */
static gboolean
shows_anything (const HobInquiry *q, const HobOccasion *o, guint run)
{
  const GArray *noticed = hob_trials_noticed (q->trials, o->acts, o->until);

  for (guint k = 0; k < noticed->len; k++)
    if (g_array_index (noticed, HobTrialNoticed, k).run == (gint32) run)
      return TRUE;
  return FALSE;
}

/* The occasion in which most of all changes of what is read; where that is nothing, as with a cap
 * that is not seated, in which something shows. */
static HobOccasion *
most_telling (const HobInquiry *q, const HobSuspect *s, Found *found)
{
  guint run = run_of (hob_inquiry_listed (q, s), s->severity.middle);
  HobOccasion *best = NULL;

  for (char **name = q->procedures; *name != NULL; name++)
    {
      HobOccasion *o = hob_occasion_new (q->base, *name, FALSE);
      Found here[MOST] = { { 0 } };

      hob_trials_prepare (q->trials, o->acts, o->until, o->moments);
      for (guint k = 0; k < o->moments->len; k++)
        find_at (q, o, g_array_index (o->moments, double, k), s, here);
      if (best == NULL || here[0].change > SIMPLER * found[0].change
          || (here[0].listed == NULL && found[0].listed == NULL && !shows_anything (q, best, run)
              && shows_anything (q, o, run)))
        {
          g_clear_pointer (&best, hob_occasion_free);
          best = g_steal_pointer (&o);
          memcpy (found, here, sizeof here);
        }
      g_clear_pointer (&o, hob_occasion_free);
    }
  return best;
}

/* The first burner that lights in a normal range after its control calls for it. */
static void
find_flame (const HobInquiry *q, HobSuspects *all, const HobOccasion *o)
{
  g_autoptr (HobBench) bench = hob_bench_again (q->idle, o->acts);
  double call = 0;
  guint first, n;

  if (hob_bench_advance (bench, fmin (o->until, FLAME), NULL) != HOB_RUN_OK)
    return;
  n = hob_run_events (bench->run, -1, FLAME, &first);
  for (guint k = first; k < first + n && all->lights < 0; k++)
    {
      const HobEvent *e = hob_run_event (bench->run, k);
      int caller, outlet;

      call = e->what == HOB_EVENT_ACT ? e->t : call;
      if (e->what != HOB_EVENT_CHANGE || !(e->value > 0)
          || !hob_plan_caller (bench->plan, e->part, &caller, &outlet))
        continue;
      all->lights = e->part;
      all->lights_after = e->t - call;
      all->by_knob = outlet < 0;
    }
}

/* Where the oven heats for long, how its temperature goes up and down at the end. */
static void
add_temperature (const HobInquiry *q, HobSuspects *all, const HobOccasion *o)
{
  const GPtrArray *tests = hob_trials_tests (q->trials);
  const double *span;
  double t;

  if (o->moments->len < 3)
    return;
  t = g_array_index (o->moments, double, 2);
  for (guint k = 0; k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];

      if (listed->means != &hob_means[HOB_MEANS_THERMOMETER])
        continue;
      span = hob_trials_swing (q->trials, o->acts, listed->test, t - CYCLES, t);
      if (span != NULL && span[1] - span[0] > hob_meter_class (listed->dim).fixed)
        add_check (q, all, o, t, listed->test, span[0], 0, span[1]);
      return;
    }
}

void
hob_checks_find (const HobInquiry *q, HobSuspects *all)
{
  const HobSuspect *s = all->suspects->pdata[0];
  Found found[MOST] = { { 0 } };
  HobOccasion *o;

  if (s->what != HOB_SUSPECT_FAULT || hob_case_has_controls (q->base))
    return;
  o = most_telling (q, s, found);
  for (int k = 0; k < MOST && found[k].listed != NULL; k++)
    add_check (q, all, o, found[k].t, found[k].listed->test, found[k].value, found[k].share, NAN);
  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];

      if (clue->symptom >= 0 && clue->seen == HOB_SEEN)
        add_symptom (q, all, clue, o, run_of (hob_inquiry_listed (q, s), s->severity.middle));
    }
  find_flame (q, all, o);
  add_temperature (q, all, o);
  hob_occasion_free (o);
}
