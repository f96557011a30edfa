/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What lights a mixture, in the law and in whole appliances. */

#include "appliance.h"
#include "check.h"
#include "physics/flame.h"

static const double autoignition[HOB_N_FUELS] = { 537, 450 };        /* °C, NFPA 325 */
static const double least_spark[HOB_N_FUELS] = { 0.28e-3, 0.25e-3 }; /* J, Bulletin 627 */

/* ---- The law ---- */

static void
a_surface_in_the_open_must_be_200_degrees_above_auto_ignition (void)
{
  for (int k = 0; k < HOB_N_FUELS; k++)
    {
      double least = INFINITY;

      for (double x = 0; x < 0.2; x += 0.001)
        least = fmin (least, hob_hot_surface_ignition (&hob_fuels[k], x));
      check_within (PUBLISHED, "API RP 2216, NFPA 325: °C", least - 273.15, autoignition[k] + 200,
                    INFINITY);
    }
}

static void
a_surface_at_1100_degrees_lights_whatever_can_burn (void)
{
  for (int k = 0; k < HOB_N_FUELS; k++)
    {
      double most = 0;

      for (double x = 0; x < 0.2; x += 0.001)
        if (hob_mixture_burns (&hob_fuels[k], x))
          most = fmax (most, hob_hot_surface_ignition (&hob_fuels[k], x));
      check_within (PUBLISHED, "US patent 5,892,201: °C", most - 273.15, 0, 1100 + 1e-9);
    }
}

/* ---- Appliances ---- */

/* Gas flows from the start, the valve being stuck open, and the igniter heats up: the flame comes
 * when it is hot enough. */
static void
the_igniter_lights_gas_between_these_temperatures (gconstpointer name)
{
  g_autoptr (HobRange) range = range_by_name (name);
  g_autoptr (HobRun) run
      = run_of (range, WORDS ("valve-bake:stuck-open=1", "0s oven.mode=bake"), 120);
  double lit = first_change (run, "burner-bake", "flame", 1, 120);

  g_assert_cmpfloat (lit, <, 120);
  check_within (PUBLISHED, "API RP 2216, US patent 5,892,201: °C",
                quantity (run, "igniter-bake.temperature", lit) - 273.15,
                autoignition[range->plate] + 200, 1100);
}

/* The module gets weaker and weaker. No spark below the least energy lights the burner; normal
 * ones have more. */
static void
no_spark_below_the_least_energy_lights_a_burner (gconstpointer name)
{
  g_autoptr (HobRange) range = range_by_name (name);
  double least = least_spark[range->plate];
  int below = 0;

  for (double severity = 0; severity <= 1; severity += 0.1)
    {
      g_autofree char *fault = g_strdup_printf ("module:faded=%.1f", severity);
      g_autoptr (HobRun) run = run_of (range, WORDS (fault, "1s knob-lf=light"), 15);
      gboolean lit = first_change (run, "burner-lf", "flame", 1, 15) < 15;
      double energy = quantity (run, "electrode-lf.energy", 1.1);

      below += energy < least;
      if (lit)
        check_within (PUBLISHED, "US Bureau of Mines Bulletin 627: J", energy, least, INFINITY);
      if (severity == 0)
        g_assert_true (lit);
    }
  g_assert_cmpint (below, >, 0); /* there were such sparks */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func (
      "/outside/ignition/a-surface-in-the-open-must-be-200-degrees-above-auto-ignition",
      a_surface_in_the_open_must_be_200_degrees_above_auto_ignition);
  g_test_add_func ("/outside/ignition/a-surface-at-1100-degrees-lights-whatever-can-burn",
                   a_surface_at_1100_degrees_lights_whatever_can_burn);
  add_for_each_range ("ignition", "the-igniter-lights-gas-between-these-temperatures",
                      the_igniter_lights_gas_between_these_temperatures);
  add_for_each_range ("ignition", "no-spark-below-the-least-energy-lights-a-burner",
                      no_spark_below_the_least_energy_lights_a_burner);
  return g_test_run ();
}
