/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The long twin, and what counts as a difference. */

#include "config.h"
#include "run/differ.h"
#include "run/twin.h"
#include <math.h>

static HobRange *
shipped (const char *name)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

static double
setting_of (HobRun *run, const char *name)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));
  int part, setting;

  g_assert_true (
      hob_range_find_setting (hob_plan_range (hob_run_plan (run)), name, &part, &setting, NULL));
  g_assert_cmpint (hob_run_advance (run, 30, NULL), ==, HOB_RUN_OK);
  hob_run_read (run, 30, m);
  return hob_moment_part (m, part)->set[setting];
}

/* A weak supply, a cold house, a converted fuel, a fault and an appliance's setting: none is the
 * twin's. */
static void
nothing_is_wrong_with_it (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four.xml");
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobRun) run = NULL, twin = NULL, plain = NULL;
  static const char *const settings[]
      = { "receptacle.volts", "house.temperature", "house.humidity", "house.fuel" };
  static const char *const others[] = { "receptacle.volts=104 V", "house.temperature=280 K",
                                        "house.humidity=0.9", "house.fuel=lp" };

  for (guint k = 0; k < G_N_ELEMENTS (others); k++)
    g_assert_true (hob_case_setting (acts, others[k], NULL));
  g_assert_true (hob_case_fault (acts, "igniter-bake:aged=0.7", NULL));
  g_assert_true (hob_case_do (acts, "1s oven.mode=bake", NULL));
  acts->seed = 11;
  run = hob_run_new (plan, acts, NULL);
  twin = hob_twin_new (plan, acts);
  g_assert_cmpuint (hob_run_case (twin)->seed, ==, 11);
  for (guint k = 0; k < G_N_ELEMENTS (settings); k++)
    g_assert_cmpfloat (setting_of (run, settings[k]), !=, setting_of (twin, settings[k]));
  g_assert_cmpfloat (setting_of (twin, "receptacle.volts"), ==, 120);
  g_assert_cmpfloat (setting_of (twin, "house.temperature"), ==, 298.15);
  g_assert_cmpfloat (setting_of (twin, "house.fuel"), ==, range->plate);
  g_assert_cmpuint (hob_run_case (twin)->acts->len, ==, 1);
  plain = hob_run_new (plan, hob_run_case (twin), NULL);
  g_assert_cmpfloat (setting_of (plain, "igniter-bake.resistance-factor"), ==,
                     setting_of (twin, "igniter-bake.resistance-factor"));
}

static const char file[]
    = "<range format=\"1\" id=\"weak\" name=\"Weak house\" plate=\"natural-gas\">"
      "<part id=\"h\" kind=\"house\"><set name=\"temperature\" value=\"280 K\"/></part>"
      "<part id=\"l\" kind=\"light\"/><part id=\"c\" kind=\"chassis\"/>"
      "<wire id=\"w1\" from=\"h.line\" to=\"l.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w2\" from=\"h.neutral\" to=\"l.b\" colour=\"WH\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>"
      "<wire id=\"w3\" from=\"h.earth\" to=\"c.body\" colour=\"GN\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>"
      "</range>";

/* What the file itself says of the house is not nominal either. */
static void
its_house_is_nominal (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range
      = hob_range_load_memory (file, sizeof file - 1, "weak.xml", NULL, &error);
  g_autoptr (HobPlan) plan = NULL;
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobRun) run = NULL, twin = NULL;

  g_assert_no_error (error);
  plan = hob_plan_new (range);
  acts = hob_case_new (range);
  run = hob_run_new (plan, acts, NULL);
  twin = hob_twin_new (plan, acts);
  g_assert_cmpfloat (setting_of (run, "h.temperature"), ==, 280);
  g_assert_cmpfloat (setting_of (twin, "h.temperature"), ==, 298.15);
}

static void
small_differences_do_not_count (void)
{
  for (int dim = 0; dim <= HOB_DIM_CHOICE; dim++)
    {
      double floor = hob_differ_floor (dim);

      g_assert_cmpfloat (floor, >, 0);
      g_assert_false (hob_differs (0, 0, dim));
      g_assert_false (hob_differs (0.9 * floor, 0, dim));
      g_assert_true (hob_differs (1.1 * floor, 0, dim));
      g_assert_true (hob_differs (-1.1 * floor, 0, dim));
      /* Of something large, three in a hundred. */
      g_assert_false (hob_differs (1029 * floor, 1000 * floor, dim));
      g_assert_true (hob_differs (1031 * floor, 1000 * floor, dim));
    }
}

static void
unknown_and_open_differ_from_a_figure (void)
{
  g_assert_true (hob_differs (NAN, 1, HOB_DIM_CURRENT));
  g_assert_true (hob_differs (1, NAN, HOB_DIM_CURRENT));
  g_assert_false (hob_differs (NAN, NAN, HOB_DIM_CURRENT));
  g_assert_true (hob_differs (INFINITY, 40, HOB_DIM_RESISTANCE));
  g_assert_true (hob_differs (40, INFINITY, HOB_DIM_RESISTANCE));
  g_assert_false (hob_differs (INFINITY, INFINITY, HOB_DIM_RESISTANCE));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/twin/nothing-is-wrong-with-it", nothing_is_wrong_with_it);
  g_test_add_func ("/twin/its-house-is-nominal", its_house_is_nominal);
  g_test_add_func ("/differ/small-differences-do-not-count", small_differences_do_not_count);
  g_test_add_func ("/differ/unknown-and-open-differ-from-a-figure",
                   unknown_and_open_differ_from_a_figure);
  return g_test_run ();
}
