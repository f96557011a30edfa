/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A range at work: what is done to the run is done to its twin, as far as a hand does it;
 * looking. */

#include "config.h"
#include "run/case-options.h"
#include "run/comparison.h"
#include "symptoms/look.h"
#include <string.h>

static HobRange *
shipped (const char *name)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

static HobAct
act_of (const HobRange *range, gint64 ms, const char *control, double value)
{
  HobAct act = { .ms = ms, .what = HOB_ACT_CONTROL, .value = value };

  g_assert_true (hob_range_find_control (range, control, &act.part, &act.index, NULL));
  return act;
}

static guint64
hash_of (HobRun *run, double t)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));

  g_assert_cmpint (hob_run_advance (run, t, NULL), ==, HOB_RUN_OK);
  hob_run_read (run, t, m);
  return hob_moment_hash (m);
}

static void
assert_twin_follows (HobBench *bench, double t)
{
  g_autoptr (HobRun) fresh = hob_twin_new (bench->plan, hob_run_case (bench->run));

  g_assert_cmpint (hob_bench_advance (bench, t, NULL), ==, HOB_RUN_OK);
  g_assert_cmpfloat (hob_bench_reached (bench), >=, t);
  g_assert_cmphex (hash_of (bench->twin, t), ==, hash_of (fresh, t));
}

static void
the_twin_follows_the_hand (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four.xml");
  g_autoptr (HobBench) bench = hob_bench_new (NULL, range, NULL, NULL);
  HobAct fault = { 30000, HOB_ACT_FAULT, hob_range_part (range, "igniter-bake"), 0, 1 };
  guint64 clean;

  g_assert_null (bench->twin);
  hob_bench_act (bench, act_of (range, 0, "oven.mode", 1));
  g_assert_cmpint (hob_bench_advance (bench, 60, NULL), ==, HOB_RUN_OK);
  g_assert_cmpfloat (hob_run_reached (hob_bench_twin (bench)), >=, 60);
  clean = hash_of (bench->twin, 60);
  g_assert_cmphex (clean, ==, hash_of (bench->run, 60));

  hob_bench_act (bench, fault);
  assert_twin_follows (bench, 60);
  g_assert_cmphex (hash_of (bench->twin, 60), ==, clean);
  g_assert_cmphex (hash_of (bench->run, 60), !=, clean);

  hob_bench_act (bench, act_of (range, 40000, "knob-lf", 100));
  assert_twin_follows (bench, 60);
  g_assert_cmphex (hash_of (bench->twin, 60), !=, clean);
  hob_bench_join (bench);
  hob_bench_act (bench, act_of (range, 41000, "knob-lf", 0));
  hob_bench_insert (bench, act_of (range, 10000, "door", 1));
  assert_twin_follows (bench, 60);
  hob_bench_remove (bench, 0);
  assert_twin_follows (bench, 60);

  for (int k = 0; k < 4; k++)
    {
      g_assert_true (hob_bench_undo (bench));
      assert_twin_follows (bench, 60);
    }
  g_assert_cmphex (hash_of (bench->run, 60), ==, clean);
  g_assert_true (hob_bench_redo (bench));
  g_assert_cmphex (hash_of (bench->run, 60), !=, clean);
  g_assert_cmphex (hash_of (bench->twin, 60), ==, clean);
}

static void
again_shares_all_but_the_run (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four.xml");
  HobBench *first = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobBench) other = NULL;

  hob_case_add (acts, act_of (range, 0, "oven.mode", 1));
  other = hob_bench_again (first, acts);
  g_assert_true (other->plan == first->plan && other->book == first->book
                 && other->watch == first->watch);
  hob_bench_free (first);
  g_assert_cmpint (hob_bench_advance (other, 60, NULL), ==, HOB_RUN_OK);
  g_assert_cmpuint (hob_run_case (other->run)->acts->len, ==, 1);
}

static double
looked (const HobBench *bench, const char *text, double t)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobTest) test = hob_test_parse (hob_bench_range (bench), text, &error);
  g_autofree char *again = NULL;
  HobReading reading = { 0 };

  g_assert_no_error (error);
  again = hob_test_text (hob_bench_range (bench), test);
  g_assert_cmpstr (again, ==, text);
  g_assert_true (hob_look (bench, test, t, &reading, &error));
  g_assert_true (reading.answered);
  return reading.value;
}

static void
a_look_can_name_the_part (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four.xml");
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (HobTest) unknown = NULL;
  g_autoptr (GError) error = NULL;
  HobReading reading;

  g_assert_true (hob_case_fault (acts, "igniter-bake:open", NULL));
  hob_case_add (acts, act_of (range, 0, "oven.mode", 1));
  bench = hob_bench_new (NULL, range, acts, NULL);
  g_assert_cmpint (hob_bench_advance (bench, 600, NULL), ==, HOB_RUN_OK);
  g_assert_cmpfloat (looked (bench, "look no-glow", 600), ==, 1);
  g_assert_cmpfloat (looked (bench, "look no-glow", 1), ==, 0);
  g_assert_cmpfloat (looked (bench, "look no-glow burner-lf", 600), ==, 0);
  g_assert_cmpfloat (looked (bench, "look no-glow igniter-bake", 600)
                         + looked (bench, "look no-glow burner-bake", 600),
                     ==, 1);
  unknown = hob_test_parse (range, "look no-glo", &error);
  g_assert_no_error (error);
  g_assert_false (hob_look (bench, unknown, 1, &reading, &error));
  g_assert_nonnull (strstr (error->message, "did you mean 'no-glow'"));
  g_clear_error (&error);
  g_assert_null (hob_test_parse (range, "look no-glow nobody", &error));
  g_assert_nonnull (strstr (error->message, "nobody"));
}

static void
nothing_is_freed_of_nothing (void)
{
  hob_bench_free (NULL);
  hob_run_free (NULL);
  hob_case_free (NULL);
  hob_case_options_free (NULL);
  hob_comparison_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench/the-twin-follows-the-hand", the_twin_follows_the_hand);
  g_test_add_func ("/bench/again-shares-all-but-the-run", again_shares_all_but_the_run);
  g_test_add_func ("/bench/a-look-can-name-the-part", a_look_can_name_the_part);
  g_test_add_func ("/bench/nothing-is-freed-of-nothing", nothing_is_freed_of_nothing);
  return g_test_run ();
}
