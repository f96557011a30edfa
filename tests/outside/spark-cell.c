/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "appliance.h"
#include "check.h"
#include "physics/spark.h"

static HobSparkCell
cell_with_trigger (double volts)
{
  return (HobSparkCell){ .capacitance = 1e-6, .resistance = 47e3, .bleed = 10e6, .trigger = volts };
}

/* The crest of 102 V is 144.2 V. */
static void
a_150_volt_trigger_cannot_fire_at_102_volts (void)
{
  HobSparkCell cell = cell_with_trigger (150);

  g_assert_cmpfloat (hob_spark_cell_rate (&cell, 102, 0), ==, 0);
  g_assert_cmpfloat (hob_spark_cell_rate (&cell, 120, 0), >, 0); /* 169.7 V */
}

/* With the gas off nothing lights, and a module sparks on. */
static void
two_to_five_sparks_a_second (gconstpointer name)
{
  g_autoptr (HobRange) range = range_by_name (name);
  g_autofree char *light = g_strdup_printf ("1s %s=light", lighting_knob (range));
  g_autoptr (HobRun) run = run_of (range, WORDS ("0s shutoff=closed", light), 10);

  check_within (FROM_MEMORY, "spark modules, sparks per second", quantity (run, "module.rate", 5),
                2, 5);
}

/* The charging current summed over the mains cycle in a thousand pieces, apart from the closed
 * form in use. */
static double
rate_by_stepping (const HobSparkCell *cell, double volts, double source_ohms)
{
  const double dt = 1 / 60.0 / 1000;
  double v = 0, r = cell->resistance + source_ohms;

  for (int k = 0; k < 60 * 1000 * 60; k++)
    {
      double crest = volts * G_SQRT2 * sin (2 * G_PI * 60 * k * dt);

      v += dt / cell->capacitance * (MAX (crest - v, 0) / r - v / cell->bleed);
      if (v >= cell->trigger)
        return 1 / (k * dt);
    }
  return 0;
}

/* The closed form works with cycle means.  A spark waits for the next crest, up to a cycle; and
 * between crests the bleed takes back a little, so that the true voltage swings about the mean by
 * up to what a cycle charges: two cycles. */
static void
the_mean_over_the_cycle_agrees_with_the_cycle_itself (void)
{
  HobSparkCell cell = cell_with_trigger (130);
  const double volts[] = { 126, 120, 114, 108, 120, 120, 120 };
  const double ohms[] = { 0, 0, 0, 0, 47e3, 100e3, 200e3 };

  for (guint k = 0; k < G_N_ELEMENTS (volts); k++)
    {
      double stepped = rate_by_stepping (&cell, volts[k], ohms[k]);

      check_near (DERIVED, "stepped through the cycle: s between sparks",
                  1 / hob_spark_cell_rate (&cell, volts[k], ohms[k]), 1 / stepped, 2 / 60.0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/spark-cell/a-150-volt-trigger-cannot-fire-at-102-volts",
                   a_150_volt_trigger_cannot_fire_at_102_volts);
  g_test_add_func ("/outside/spark-cell/the-mean-over-the-cycle-agrees-with-the-cycle-itself",
                   the_mean_over_the_cycle_agrees_with_the_cycle_itself);
  add_for_each_range ("spark-cell", "two-to-five-sparks-a-second", two_to_five_sparks_a_second);
  return g_test_run ();
}
