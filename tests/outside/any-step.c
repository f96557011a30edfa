/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Whoever watches a run, and however often, sees the same run: asked for every 0.01 s to every 60
 * s each state is the same to the last bit as in a run that was taken at once. */

#include "appliance.h"

/* A bake, and a burner lit, turned and shut meanwhile. */
static HobCase *
busy_case (HobRange *range)
{
  HobCase *acts = hob_case_new (range);
  const char *knob = lighting_knob (range);

  do_ (acts, "0s oven.mode=bake");
  for (const char *const *act
       = (const char *const[]){ "2s %s=light", "8s %s=high", "611.5s %s=off", NULL };
       *act != NULL; act++)
    {
      g_auto (GStrv) around = g_strsplit (*act, "%s", 2);
      g_autofree char *text = g_strjoinv (knob, around);

      do_ (acts, text);
    }
  return acts;
}

/* Asks @run for every @every s until @until and holds each against the run taken at once. */
static void
ask (HobPlan *plan, const HobCase *acts, HobRun *at_once, double every, double until)
{
  g_autoptr (HobRun) run = hob_run_new (plan, acts, NULL);
  g_autoptr (HobMoment) here = hob_moment_new (plan), there = hob_moment_new (plan);

  for (int k = 0; k * every <= until; k++)
    {
      g_assert_cmpint (hob_run_advance (run, k * every, NULL), ==, HOB_RUN_OK);
      hob_run_read (run, k * every, here);
      hob_run_read (at_once, k * every, there);
      g_assert_cmphex (hob_moment_hash (here), ==, hob_moment_hash (there));
    }
  hob_run_read (run, until, here);
  hob_run_read (at_once, until, there);
  g_assert_cmphex (hob_moment_hash (here), ==, hob_moment_hash (there));
}

static void
same_bits_every_hundredth_of_a_second_to_every_minute (gconstpointer name)
{
  g_autoptr (HobRange) range = range_by_name (name);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = busy_case (range);
  g_autoptr (HobRun) at_once = hob_run_new (plan, acts, NULL);
  g_assert_cmpint (hob_run_advance (at_once, 1200, NULL), ==, HOB_RUN_OK);

  /* Until the igniter has lit the oven and half a minute more, then over whole cycles. */
  ask (plan, acts, at_once, 0.01, 75);
  ask (plan, acts, at_once, 0.37, 1200);
  ask (plan, acts, at_once, 5, 1200);
  ask (plan, acts, at_once, 60, 1200);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add_for_each_range ("any-step", "same-bits-every-hundredth-of-a-second-to-every-minute",
                      same_bits_every_hundredth_of_a_second_to_every_minute);
  return g_test_run ();
}
