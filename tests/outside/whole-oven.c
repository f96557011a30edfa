/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "each-range.h"

/* One hour at 350 °F from cold: 11,000 to 11,200 Btu of gas (LBNL Home Energy Saver, after PG&E
 * 1995; Consumer Guide to Home Energy Savings).  Ovens differ: the gate is 9,000 to 13,000 Btu, the
 * igniter's electricity aside.  Of swing and mean only private measurements and a press figure of
 * 330 to 370 °F were found, so the bands are wide: 20 to 60 °F peak to peak, mean within 25 °F of
 * the dial. */
static const double btu = 1055.056; /* J */

static double
degf (double kelvin)
{
  return kelvin * 1.8 - 459.67;
}

static HobRun *
bake (const char *name, double until)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = range_by_name (name);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  hob_case_do (acts, "0s oven.dial=350 degF", &error);
  g_assert_no_error (error);
  hob_case_do (acts, "0s oven.mode=bake", &error);
  g_assert_no_error (error);

  HobRun *run = hob_run_new (plan, acts, NULL);
  hob_run_advance (run, until, &error);
  g_assert_no_error (error);
  return run;
}

static double
air (HobRun *run, HobMoment *moment, double t)
{
  int part, quantity;

  g_assert_true (hob_range_find_quantity (hob_plan_range (hob_run_plan (run)), "cavity.air", &part,
                                          &quantity, NULL));
  hob_run_read (run, t, moment);
  return hob_moment_quantity (moment, part, quantity);
}

static void
the_first_hour_takes_what_ovens_were_found_to_take (gconstpointer name)
{
  g_autoptr (HobRun) run = bake (name, 3600);
  g_autoptr (HobMoment) moment = hob_moment_new (hob_run_plan (run));
  double heat, turned, gas, burnt;

  hob_run_read (run, 3600, moment);
  hob_moment_balance (moment, &heat, &turned, &gas, &burnt);
  check_within ("LBNL Home Energy Saver (PG&E 1995), gate around 11,000 to 11,200 Btu",
                burnt * hob_moment_house (moment)->fuel->heat / btu, 9000, 13000);
}

static void
the_air_swings_about_the_dial (gconstpointer name)
{
  g_autoptr (HobRun) run = bake (name, 3 * 3600);
  g_autoptr (HobMoment) moment = hob_moment_new (hob_run_plan (run));
  double low = INFINITY, high = 0, sum = 0;
  const int from
      = 3600,
      to = 3 * 3600; /* some 28 cycles: half a cycle more or less moves the mean by 1 °F at most */

  for (int t = from; t < to; t++)
    {
      double kelvin = air (run, moment, t);

      low = fmin (low, kelvin);
      high = fmax (high, kelvin);
      sum += kelvin;
    }
  check_within ("private measurements: °F peak to peak", degf (high) - degf (low), 20, 60);
  check_within ("private measurements, press figure 330 to 370: mean °F", degf (sum / (to - from)),
                325, 375);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add_for_each_range ("whole-oven", "the-first-hour-takes-what-ovens-were-found-to-take",
                      the_first_hour_takes_what_ovens_were_found_to_take);
  add_for_each_range ("whole-oven", "the-air-swings-about-the-dial", the_air_swings_about_the_dial);
  return g_test_run ();
}
