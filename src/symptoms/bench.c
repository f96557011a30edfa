/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "symptoms/bench.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "run/inert.h"

#include <math.h>

static gint begun; /* atomic */

guint
hob_bench_begun (void)
{
  return (guint) g_atomic_int_get (&begun);
}

static HobBench *
bench_of (HobSymptomBook *book, HobPlan *plan, HobSymptomWatch *watch, const HobCase *acts)
{
  HobBench *bench = g_new0 (HobBench, 1);

  g_atomic_int_inc (&begun);
  bench->book = book;
  bench->plan = plan;
  bench->watch = watch;
  bench->run = hob_run_new (plan, acts, hob_symptom_watch_get (watch));
  return bench;
}

HobBench *
hob_bench_new (HobSymptomBook *book, HobRange *range, const HobCase *acts, GError **error)
{
  g_autoptr (HobCase) nothing = hob_case_new (range);
  HobSymptomBook *own
      = book != NULL ? hob_symptom_book_ref (book) : hob_symptom_book_load (NULL, error);
  HobPlan *plan;

  if (own == NULL)
    return NULL;
  plan = hob_plan_new (range);
  return bench_of (own, plan, hob_symptom_watch_new (own, plan), acts != NULL ? acts : nothing);
}

HobBench *
hob_bench_again (const HobBench *bench, const HobCase *acts)
{
  return bench_of (hob_symptom_book_ref (bench->book), hob_plan_ref (bench->plan),
                   hob_symptom_watch_ref (bench->watch), acts);
}

HobBench *
hob_bench_fork (const HobBench *bench, double t, const HobCase *acts)
{
  HobBench *fork = hob_bench_again (bench, acts);
  const HobWatch *watch = hob_symptom_watch_get (fork->watch);

  hob_run_free (fork->run);
  fork->run = hob_run_fork_same (bench->run, t, acts, watch);
  return fork;
}

void
hob_bench_set_inert (HobBench *bench, HobInert *inert)
{
  g_autoptr (GArray) all = hob_symptom_watch_observables (bench->watch, -1, -1);

  for (guint k = 0; k < all->len; k++)
    {
      const HobObservable *o = &g_array_index (all, HobObservable, k);

      hob_inert_show (inert, o->part, o->quantity);
    }
  hob_run_set_inert (bench->run, inert);
}

void
hob_bench_free (HobBench *bench)
{
  if (bench == NULL)
    return;
  hob_run_free (bench->step_twin);
  hob_run_free (bench->twin);
  hob_run_free (bench->run);
  hob_symptom_watch_unref (bench->watch);
  hob_plan_unref (bench->plan);
  hob_symptom_book_unref (bench->book);
  g_free (bench);
}

const HobRange *
hob_bench_range (const HobBench *bench)
{
  return hob_plan_range (bench->plan);
}

HobMoment *
hob_bench_moment_new (const HobBench *bench)
{
  return hob_moment_new (bench->plan);
}

HobRun *
hob_bench_twin (HobBench *bench)
{
  if (bench->twin == NULL)
    bench->twin = hob_twin_new (bench->plan, hob_run_case (bench->run));
  (void) hob_run_advance (bench->twin, hob_run_reached (bench->run), NULL);
  return bench->twin;
}

HobRun *
hob_bench_should_be (HobBench *bench)
{
  double reached = hob_run_reached (bench->run);

  bench->compares = TRUE;
  if (bench->step_twin == NULL)
    bench->step_twin = hob_step_twin_new (bench->run);
  if (bench->step_twin == NULL)
    return bench->run;
  (void) hob_run_advance (bench->step_twin, reached, NULL);
  return bench->step_twin;
}

void
hob_bench_look_along (HobBench *bench)
{
  bench->looks = TRUE;
}

/* ---- Time ---- */

HobRunStatus
hob_bench_advance (HobBench *bench, double t, GError **error)
{
  HobRunStatus status;

  if (bench->compares)
    (void) hob_run_advance (hob_bench_should_be (bench), t, NULL); /* step by step with the run */
  status = hob_run_advance (bench->run, t, error);
  if (bench->twin != NULL && status == HOB_RUN_OK)
    (void) hob_run_advance (bench->twin, t, NULL);
  if (bench->looks && bench->step_twin != NULL)
    (void) hob_step_twin_shown (bench->step_twin, fmin (t, hob_bench_reached (bench)));
  return status;
}

#define SLICE 10.0 /* s of a run between two looks at `cancel` */

gboolean
hob_bench_advance_unless (HobBench *bench, const gint *cancel, double t)
{
  for (double at = hob_run_reached (bench->run); at < t && !hob_is_cancelled (cancel);)
    {
      g_atomic_int_inc (&begun);
      at = fmin (at + SLICE, t);
      if (hob_bench_advance (bench, at, NULL) != HOB_RUN_OK)
        return FALSE;
    }
  return TRUE;
}

double
hob_bench_reached (const HobBench *bench)
{
  double reached = hob_run_reached (bench->run);

  if (bench->twin != NULL)
    reached = fmin (reached, hob_run_reached (bench->twin));
  if (bench->step_twin != NULL)
    reached = fmin (reached, hob_run_reached (bench->step_twin));
  return reached;
}

/* ---- What is done ---- */

/* The twins do what the run does, as far as it is for a hand to do. */
static void
let_twins_follow (HobBench *bench)
{
  g_autoptr (HobCase) acts = NULL;

  if (bench->step_twin != NULL && !hob_step_twin_keep_up (bench->step_twin))
    g_clear_pointer (&bench->step_twin, hob_run_free);
  if (bench->twin == NULL)
    return;
  acts = hob_twin_case (hob_run_case (bench->run));
  hob_run_set_case (bench->twin, acts);
}

void
hob_bench_act (HobBench *bench, HobAct act)
{
  hob_run_act (bench->run, act);
  let_twins_follow (bench);
}

void
hob_bench_insert (HobBench *bench, HobAct act)
{
  hob_run_insert (bench->run, act);
  let_twins_follow (bench);
}

void
hob_bench_remove (HobBench *bench, guint index)
{
  hob_run_remove (bench->run, index);
  let_twins_follow (bench);
}

void
hob_bench_join (HobBench *bench)
{
  hob_run_join (bench->run);
}

gboolean
hob_bench_undo (HobBench *bench)
{
  gboolean any = hob_run_undo (bench->run);

  let_twins_follow (bench);
  return any;
}

gboolean
hob_bench_redo (HobBench *bench)
{
  gboolean any = hob_run_redo (bench->run);

  let_twins_follow (bench);
  return any;
}

void
hob_bench_set_case (HobBench *bench, const HobCase *acts)
{
  hob_run_set_case (bench->run, acts);
  let_twins_follow (bench);
}

/* ---- What was noticed ---- */

gboolean
hob_bench_noticed (const HobBench *bench, int symptom, int part, double t)
{
  guint first, n = hob_run_events (bench->run, -1, t, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (bench->run, k);

      if (event->what == HOB_EVENT_SYMPTOM && event->index == symptom
          && (part < 0 || event->part == part))
        return TRUE;
    }
  return FALSE;
}

/* ---- What may be done ---- */

#define JUST_BEFORE 0.0005 /* s: what an act itself brings about does not speak against it */
#define NO_MATCH                                                                                  \
  (HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG) | HOB_HAZARD_BIT (HOB_HAZARD_CO_SICK)                   \
   | HOB_HAZARD_BIT (HOB_HAZARD_GAS_GATHERED))

static gboolean
is_match (const HobRange *range, const HobAct *act)
{
  return act->what == HOB_ACT_CONTROL && act->value > 0
         && range->parts[act->part].kind->controls[act->index].role == HOB_CONTROL_MATCH;
}

gboolean
hob_bench_allows (const HobBench *bench, const HobAct *act, GError **error)
{
  const HobRange *range = hob_bench_range (bench);
  double t = (double) act->ms / 1000 - JUST_BEFORE;
  HobHazards now = is_match (range, act) ? hob_hazards_at (bench->book, bench->run, t) : 0;
  int first = hob_hazards_next (now & NO_MATCH, -1);
  g_autofree char *done = NULL, *text = NULL;

  if (first < 0)
    return TRUE;
  done = hob_act_argument (range, act);
  text = hob_hazard_text ((HobHazard) first, now);
  /* Translators: what was to be done, the name of a hazard, and what to do about it. */
  g_set_error (error, HOB_ERROR, HOB_ERROR_FINDING, _ ("'%s' isn't allowed. %s: %s"), done,
               _ (hob_hazards[first].name), text);
  return FALSE;
}

/* What carries current: a switch sparks as it opens, and an igniter glows behind it. */
static const gboolean sparks[] = {
  [HOB_CONTROL_SWITCH] = TRUE, [HOB_CONTROL_KNOB] = TRUE, [HOB_CONTROL_SELECTOR] = TRUE,
  [HOB_CONTROL_KEYS] = TRUE,   [HOB_CONTROL_KEY] = TRUE,  [HOB_CONTROL_BUTTON] = TRUE,
  [HOB_CONTROL_BREAKER] = TRUE, [HOB_CONTROL_PLUG] = TRUE, [HOB_CONTROL_LEADS] = FALSE,
};

gboolean
hob_bench_act_may_ignite (const HobBench *bench, const HobAct *act)
{
  const HobRange *range = hob_bench_range (bench);
  double t = (double) act->ms / 1000 - JUST_BEFORE;

  return act->what == HOB_ACT_CONTROL
         && sparks[range->parts[act->part].kind->controls[act->index].role]
         && (hob_hazards_at (bench->book, bench->run, t) & HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG));
}

gboolean
hob_case_allowed (HobRange *range, const HobCase *acts, GError **error)
{
  g_autoptr (HobBench) bench = NULL;

  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if (!is_match (range, act))
        continue;
      if (bench == NULL && (bench = hob_bench_new (NULL, range, acts, error)) == NULL)
        return FALSE;
      if (hob_bench_advance (bench, (double) act->ms / 1000, NULL) == HOB_RUN_OK
          && !hob_bench_allows (bench, act, error))
        return FALSE;
    }
  return TRUE;
}
