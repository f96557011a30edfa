/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Forks: under the same case nobody can tell a fork from the run itself.  A clamp is one in which a
 * part acts as it does in another run. */

#include "config.h"
#include "base/hash.h"
#include "run/clamp.h"
#include "shipped.h"
#include <math.h>

#define UNTIL 1200.0 /* s */

typedef struct
{
  HobRange *range;
  HobBench *idle;
  HobCase *acts;
} Fixture;

static void
do_ (HobCase *acts, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_do (acts, text, &error);
  g_assert_no_error (error);
}

static void
set_up (Fixture *f, gconstpointer name)
{
  f->range = shipped_range (name);
  f->idle = hob_bench_new (NULL, f->range, NULL, NULL);
  f->acts = hob_case_new (f->range);
  f->acts->seed = 3;
  do_ (f->acts, "0s oven.mode=bake");
  do_ (f->acts, "20s knob-lf=light");
  do_ (f->acts, "26s knob-lf=high");
  do_ (f->acts, "300s knob-lf=off");
  do_ (f->acts, "310s knob-lf=high");
  do_ (f->acts, "310s door=open");
  do_ (f->acts, "700s door=closed");
}

static void
tear_down (Fixture *f, gconstpointer name)
{
  hob_case_free (f->acts);
  hob_bench_free (f->idle);
  hob_range_unref (f->range);
}

static guint64
hash_at (HobRun *run, HobMoment *m, double t)
{
  g_assert_cmpint (hob_run_advance (run, t, NULL), ==, HOB_RUN_OK);
  g_assert_true (hob_run_read (run, t, m));
  return hob_moment_hash (m);
}

static double
random_time (guint k, double from, double until)
{
  return floor ((from + hob_hash_uniform (29, 1, k) * (until - from)) * 1000) / 1000;
}

static void
assert_same_events (HobRun *a, HobRun *b)
{
  guint first, n = hob_run_events (a, -1, UNTIL, &first);

  g_assert_cmpuint (hob_run_events (b, -1, UNTIL, &first), ==, n);
  for (guint k = 0; k < n; k++)
    {
      const HobEvent *x = hob_run_event (a, k), *y = hob_run_event (b, k);

      g_assert_cmpfloat (x->t, ==, y->t);
      g_assert_cmpint (x->what, ==, y->what);
      g_assert_cmpint (x->part, ==, y->part);
      g_assert_cmpint (x->index, ==, y->index);
      g_assert_cmpfloat (x->value, ==, y->value);
    }
}

static void
assert_same_from (HobRun *run, HobRun *fork, double t, HobMoment *here, HobMoment *there)
{
  for (guint k = 0; k < 20; k++)
    {
      double at = random_time (k, t, UNTIL);

      g_assert_cmphex (hash_at (fork, here, at), ==, hash_at (run, there, at));
    }
  g_assert_cmphex (hash_at (fork, here, t), ==, hash_at (run, there, t));
  g_assert_cmphex (hash_at (fork, here, UNTIL), ==, hash_at (run, there, UNTIL));
  assert_same_events (run, fork);
}

static void
same_case_same_bits (Fixture *f, gconstpointer name)
{
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (HobMoment) here = hob_moment_new (f->idle->plan),
                        there = hob_moment_new (f->idle->plan);
  /* Inside steps, right at acts, between acts of one moment, and just beside them. */
  const double times[] = { 0,     0.001, 19.999, 20,      20.001,  26,  47.123,
                           299.5, 300,   310,    310.001, 699.999, 700, 1000.777 };

  g_assert_true (hob_case_fault (f->acts, "receptacle:low-volts@200s", NULL));
  bench = hob_bench_again (f->idle, f->acts);
  g_assert_cmpint (hob_bench_advance (bench, UNTIL, NULL), ==, HOB_RUN_OK);
  for (guint k = 0; k < G_N_ELEMENTS (times); k++)
    {
      g_autoptr (HobRun) fork
          = hob_run_fork (bench->run, times[k], f->acts, hob_symptom_watch_get (bench->watch));

      g_assert_cmpfloat (hob_run_reached (fork), <=, times[k]);
      assert_same_from (bench->run, fork, times[k], here, there);
    }
}

/* What comes after t may be anything: the fork is that case's own run. */
static void
other_acts_later_are_that_cases_run (Fixture *f, gconstpointer name)
{
  g_autoptr (HobCase) other = hob_case_copy (f->acts);
  g_autoptr (HobBench) bench = hob_bench_again (f->idle, f->acts), fresh = NULL;
  g_autoptr (HobRun) fork = NULL;
  g_autoptr (HobMoment) here = hob_moment_new (f->idle->plan),
                        there = hob_moment_new (f->idle->plan);

  hob_case_remove (other, 3); /* knob-lf=off at 300 s */
  do_ (other, "300s oven.mode=off");
  g_assert_true (hob_case_fault (other, "receptacle:low-volts@400s", NULL));
  fresh = hob_bench_again (f->idle, other);
  fork = hob_run_fork (bench->run, 300, other, hob_symptom_watch_get (bench->watch));
  g_assert_cmpint (hob_bench_advance (fresh, UNTIL, NULL), ==, HOB_RUN_OK);
  g_assert_cmpfloat (hob_run_reached (fork), >, 0); /* from a state that was kept, not anew */
  assert_same_from (fresh->run, fork, 300, here, there);
}

/* A fault that the case has from the start begins, in a fork, where the fork does. */
static void
another_past_begins_at_the_fork (Fixture *f, gconstpointer name)
{
  g_autoptr (HobCase) from_start = hob_case_copy (f->acts), from_then = hob_case_copy (f->acts);
  g_autoptr (HobBench) bench = hob_bench_again (f->idle, f->acts), fresh = NULL;
  g_autoptr (HobRun) fork = NULL;
  g_autoptr (HobMoment) here = hob_moment_new (f->idle->plan),
                        there = hob_moment_new (f->idle->plan);

  g_assert_true (hob_case_fault (from_start, "receptacle:low-volts", NULL));
  g_assert_true (hob_case_fault (from_then, "receptacle:low-volts@123.456s", NULL));
  fresh = hob_bench_again (f->idle, from_then);
  fork = hob_run_fork (bench->run, 123.456, from_start, hob_symptom_watch_get (bench->watch));
  g_assert_cmpfloat (hob_run_reached (fork), ==, 123.456);
  for (guint k = 0; k < 20; k++)
    {
      double at = random_time (k, 123.456, UNTIL);

      g_assert_cmphex (hash_at (fork, here, at), ==, hash_at (fresh->run, there, at));
      g_assert_cmphex (hash_at (fork, here, at), !=, hash_at (bench->run, there, at));
    }
}

/* A fork has a record of its own: it lives longer than the run, and neither disturbs the other. */
static void
a_fork_stands_alone (Fixture *f, gconstpointer name)
{
  HobBench *bench = hob_bench_again (f->idle, f->acts);
  g_autoptr (HobMoment) m = hob_moment_new (f->idle->plan);
  guint64 wanted = hash_at (bench->run, m, UNTIL), early = hash_at (bench->run, m, 350);
  g_autoptr (HobRun) fork = hob_run_fork (bench->run, 400, f->acts, NULL);
  HobAct off = g_array_index (f->acts->acts, HobAct, 0);

  off.ms = 500000;
  off.value = 0;
  hob_run_act (fork, off);
  g_assert_cmphex (hash_at (fork, m, UNTIL), !=, wanted);
  g_assert_cmphex (hash_at (bench->run, m, UNTIL), ==, wanted);
  g_assert_cmphex (hash_at (bench->run, m, 350), ==, early);
  hob_bench_free (bench);
  g_assert_true (hob_run_undo (fork));
  g_assert_cmphex (hash_at (fork, m, UNTIL), ==, wanted);
}

static double
read_at (HobRun *run, HobMoment *m, double t, const char *id, const char *quantity)
{
  const HobRange *range = hob_run_case (run)->range;
  int part = hob_range_part (range, id);

  g_assert_cmpint (hob_run_advance (run, t, NULL), ==, HOB_RUN_OK);
  g_assert_true (hob_run_read (run, t, m));
  return hob_moment_quantity (m, part, hob_kind_quantity (range->parts[part].kind, quantity));
}

/* A thermostat that is off, and its bulb clamped: the thermostat is told the temperature of the
 * normal oven, while its own oven is at another one. */
static void
a_clamped_part_turns_as_in_the_other_run (Fixture *f, gconstpointer name)
{
  g_autoptr (HobMoment) m = hob_moment_new (f->idle->plan);
  g_autoptr (HobBench) normal = hob_bench_again (f->idle, f->acts), faulty = NULL;
  g_autoptr (HobRun) clamped = NULL;
  double told = 0, ovens = 0;

  g_assert_true (hob_case_fault (f->acts, "oven:calibration-low", NULL));
  faulty = hob_bench_again (f->idle, f->acts);
  g_assert_cmpint (hob_bench_advance (normal, UNTIL, NULL), ==, HOB_RUN_OK);
  clamped = hob_clamp_new (faulty->run, normal->run, hob_range_part (f->range, "bulb"));
  g_assert_nonnull (clamped);
  for (double t = 10; t <= UNTIL; t += 10)
    {
      told = fmax (told, fabs (read_at (clamped, m, t, "oven", "behind")
                               - read_at (normal->run, m, t, "oven", "behind")));
      ovens = fmax (ovens, fabs (read_at (clamped, m, t, "cavity", "air")
                                 - read_at (normal->run, m, t, "cavity", "air")));
    }
  g_test_message ("told %g K, ovens %g K apart", told, ovens);
  g_assert_cmpfloat (told, <, 0.1);
  g_assert_cmpfloat (ovens, >, 20);
}

/* A burner's valve clamped as it is while nobody turns its knob: the knob lets no gas through. */
static void
a_clamped_part_is_open_as_in_the_other_run (Fixture *f, gconstpointer name)
{
  g_autoptr (HobMoment) m = hob_moment_new (f->idle->plan);
  g_autoptr (HobBench) turned = hob_bench_again (f->idle, f->acts);
  g_autoptr (HobRun) clamped = NULL;

  g_assert_cmpint (hob_bench_advance (turned, 60, NULL), ==, HOB_RUN_OK);
  g_assert_cmpint (hob_bench_advance (f->idle, 60, NULL), ==, HOB_RUN_OK);
  clamped = hob_clamp_new (turned->run, f->idle->run, hob_range_part (f->range, "valve-lf"));
  g_assert_nonnull (clamped);
  g_assert_cmpfloat (read_at (turned->run, m, 50, "burner-lf", "gas"), >, 0);
  g_assert_cmpfloat (read_at (clamped, m, 50, "burner-lf", "gas"), ==, 0);
}

int
main (int argc, char **argv)
{
  g_auto (GStrv) names = shipped_ranges ();
  int status;

  g_test_init (&argc, &argv, NULL);
  for (char **n = names; *n != NULL; n++)
    {
      g_autofree char *path = g_strconcat ("/fork/same-case-same-bits/", *n, NULL);

      g_test_add (path, Fixture, *n, set_up, same_case_same_bits, tear_down);
    }
  g_test_add ("/fork/other-acts-later-are-that-cases-run", Fixture, "dial-four", set_up,
              other_acts_later_are_that_cases_run, tear_down);
  g_test_add ("/fork/another-past-begins-at-the-fork", Fixture, "board-five", set_up,
              another_past_begins_at_the_fork, tear_down);
  g_test_add ("/fork/a-fork-stands-alone", Fixture, "dial-four", set_up, a_fork_stands_alone,
              tear_down);
  g_test_add ("/fork/a-clamped-part-turns-as-in-the-other-run", Fixture, "dial-four", set_up,
              a_clamped_part_turns_as_in_the_other_run, tear_down);
  g_test_add ("/fork/a-clamped-part-is-open-as-in-the-other-run", Fixture, "dial-four", set_up,
              a_clamped_part_is_open_as_in_the_other_run, tear_down);
  status = g_test_run ();
  return status;
}
