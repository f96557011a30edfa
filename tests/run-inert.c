/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Inert faults: as long as a fault changes nothing, the run with it is the run without it, to the
 * bit, so that it can be forked from there. */

#include "config.h"
#include "reason/table.h"
#include "run/inert.h"
#include "run/local.h"
#include "shipped.h"
#include <math.h>

#define UNTIL 900.0 /* s */
#define SAMPLE 7    /* of so many faults one, in the ordinary run */

static const char *const kitchen[] = { "0s oven.mode=bake",   "20s knob-lf=light",
                                       "26s knob-lf=high",    "100s knob-lf=off",
                                       "300s door=open",      "310s door=closed",
                                       "600s oven.mode=off", NULL };
static const char *const bake[] = { "0s oven.mode=bake", NULL };

static HobCase *
case_with (const HobRange *range, const char *const *words, const HobHypothesis *h)
{
  HobCase *acts = hob_case_new (range);
  HobAct lift = { .what = HOB_ACT_LIFT };

  acts->seed = 3;
  for (; *words != NULL; words++)
    g_assert_true (hob_case_do (acts, *words, NULL));
  hob_case_add (acts, h == NULL ? lift : (HobAct){ .what = HOB_ACT_FAULT, .part = h->part[0],
                                                   .index = h->fault[0], .value = h->severity[0] });
  return acts;
}

static void
assert_same_symptoms (HobRun *a, HobRun *b, const char *fault)
{
  guint first, n = hob_run_events (a, -1, UNTIL, &first), other;

  if (hob_run_events (b, -1, UNTIL, &other) != n)
    g_error ("%s: %u events, and %u as a fork", fault, n, hob_run_events (b, -1, UNTIL, &other));
  for (guint k = 0; k < n; k++)
    {
      const HobEvent *x = hob_run_event (a, k), *y = hob_run_event (b, k);

      if (x->t != y->t || x->what != y->what || x->index != y->index
          || (x->what != HOB_EVENT_ACT && (x->part != y->part || x->value != y->value)))
        g_error ("%s: event %u is another one as a fork", fault, k);
    }
}

/* Returns how much of the run was spared, s. */
static double
fork_is_the_run (const HobBench *plain, const HobCase *acts, double same, const char *fault)
{
  g_autoptr (HobBench) whole = hob_bench_again (plain, acts);
  g_autoptr (HobBench) fork = NULL;
  g_autoptr (HobMoment) m = hob_bench_moment_new (plain);
  guint64 hash;
  HobRunStatus status = hob_bench_advance (whole, UNTIL, NULL);

  if (!(same > 0))
    return 0;
  fork = hob_bench_fork (plain, fmin (same, UNTIL), acts);
  g_assert_cmpint (hob_bench_advance (fork, UNTIL, NULL), ==, status);
  if (status == HOB_RUN_OK)
    {
      g_assert_true (hob_run_read (whole->run, UNTIL, m));
      hash = hob_moment_hash (m);
      g_assert_true (hob_run_read (fork->run, UNTIL, m));
      if (hob_moment_hash (m) != hash)
        g_error ("%s: the same until %g s, and another run as a fork", fault, same);
    }
  assert_same_symptoms (whole->run, fork->run, fault);
  return fmin (same, UNTIL);
}

static void
forks_are_runs (const char *name, const char *const *words)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) faults = hob_hypotheses_single (range);
  g_autoptr (HobCase) nothing = case_with (range, words, NULL);
  g_autoptr (HobBench) plain = hob_bench_again (idle, nothing);
  g_autoptr (HobInert) inert = hob_inert_new (plain->plan);
  double spared = 0;
  guint n = 0, all = 0;

  for (guint k = 0; k < faults->len; k++)
    {
      const HobHypothesis *h = &g_array_index (faults, HobHypothesis, k);

      hob_inert_add (inert, h->part[0], h->fault[0], h->severity[0]);
    }
  hob_bench_set_inert (plain, inert);
  g_assert_cmpint (hob_bench_advance (plain, UNTIL, NULL), ==, HOB_RUN_OK);
  for (guint k = 0; k < faults->len; k++)
    if (full_sweep () || k % SAMPLE == 0)
      {
        const HobHypothesis *h = &g_array_index (faults, HobHypothesis, k);
        g_autoptr (HobCase) acts = case_with (range, words, h);
        g_autofree char *fault = hob_hypothesis_text (range, h);

        spared += fork_is_the_run (plain, acts, hob_inert_until (inert, (int) k), fault);
        n++;
        all += isinf (hob_inert_until (inert, (int) k));
      }
  g_test_message ("%s: %u of %u faults change nothing, %.0f%% of the runs are spared", name, all, n,
                  100 * spared / UNTIL / n);
  g_assert_cmpuint (all, >, 0);
}

static void
a_fork_where_a_fault_first_matters_is_its_run (void)
{
  g_auto (GStrv) names = shipped_ranges ();

  for (char **name = names; *name != NULL; name++)
    forks_are_runs (*name, bake);
}

static void
so_it_is_where_burners_spark_and_doors_open (void)
{
  g_auto (GStrv) names = shipped_ranges ();

  for (char **name = names; *name != NULL; name++)
    forks_are_runs (*name, kitchen);
}

/* A knob that is turned at once, as a routine does, skips what lies between. */
static void
so_it_is_where_a_knob_jumps (void)
{
  static const char *const jumps[] = { "20s knob-lf:=light", "26s knob-lf:=high",
                                       "100s knob-lf:=off",  "300s knob-lf:=light",
                                       "310s knob-lf:=low",  NULL };

  forks_are_runs ("dial-four", jumps);
}

/* Until when each of these faults is inert in a run of @words, s. */
static void
ask_until (const char *name, const char *const *words, const char *const *faults, double *until)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) all = hob_hypotheses_single (range);
  g_autoptr (HobCase) nothing = case_with (range, words, NULL);
  g_autoptr (HobBench) plain = hob_bench_again (idle, nothing);
  g_autoptr (HobInert) inert = hob_inert_new (plain->plan);
  int n = 0;

  for (; faults[n] != NULL; n++)
    for (guint k = 0; k < all->len; k++)
      {
        const HobHypothesis *h = &g_array_index (all, HobHypothesis, k);
        g_autofree char *text = hob_hypothesis_text (range, h);

        if (g_str_equal (text, faults[n]))
          g_assert_cmpint (hob_inert_add (inert, h->part[0], h->fault[0], h->severity[0]), ==, n);
      }
  hob_bench_set_inert (plain, inert);
  g_assert_cmpint (hob_bench_advance (plain, 60, NULL), ==, HOB_RUN_OK);
  for (int k = 0; k < n; k++)
    until[k] = hob_inert_until (inert, k);
}

static void
a_gap_matters_only_while_pulses_come (void)
{
  static const char *const lit[] = { "0s oven.mode=bake", "20s knob-lf=light", NULL };
  static const char *const faults[]
      = { "electrode-lf:gap-wide", "electrode-lf:lead-open", "burner-lf:cap-missing",
          "burner-lf:cap-dirty",   "module:faded",           "module:output-lf-dead",
          "electrode-lf:cracked",  "module:irregular",       NULL };
  double never[G_N_ELEMENTS (faults)], then[G_N_ELEMENTS (faults)];

  ask_until ("dial-four", bake, faults, never);
  ask_until ("dial-four", lit, faults, then);
  for (int k = 0; faults[k] != NULL; k++)
    {
      g_test_message ("%s: %g s, with a knob turned to LIGHT %g s", faults[k], never[k], then[k]);
      g_assert_true (isinf (never[k]));
      g_assert_cmpfloat (then[k], >=, 15);
      g_assert_cmpfloat (then[k], <=, 21);
    }
}

static void
nothing_is_freed_of_nothing (void)
{
  hob_inert_free (NULL);
  hob_local_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/run/inert/a-fork-where-a-fault-first-matters-is-its-run",
                   a_fork_where_a_fault_first_matters_is_its_run);
  g_test_add_func ("/run/inert/so-it-is-where-burners-spark-and-doors-open",
                   so_it_is_where_burners_spark_and_doors_open);
  g_test_add_func ("/run/inert/so-it-is-where-a-knob-jumps", so_it_is_where_a_knob_jumps);
  g_test_add_func ("/run/inert/a-gap-matters-only-while-pulses-come",
                   a_gap_matters_only_while_pulses_come);
  g_test_add_func ("/run/inert/nothing-is-freed-of-nothing", nothing_is_freed_of_nothing);
  return g_test_run ();
}
