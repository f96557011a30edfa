/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/flame.h"

static const HobFuel *const natural = &hob_fuels[HOB_FUEL_NATURAL];
static const HobFuel *const lp = &hob_fuels[HOB_FUEL_LP];

static void
mixtures_burn_within_the_flammable_limits_only (void)
{
  check_near ("NFPA 325: methane", natural->lean, 0.05, 1e-9);
  check_near ("NFPA 325: methane", natural->rich, 0.15, 1e-9);
  check_near ("NFPA 325: propane", lp->lean, 0.021, 1e-9);
  check_near ("NFPA 325: propane", lp->rich, 0.095, 1e-9);
  g_assert_false (hob_mixture_burns (natural, 0.0499));
  g_assert_true (hob_mixture_burns (natural, 0.0501));
  g_assert_true (hob_mixture_burns (natural, 0.1499));
  g_assert_false (hob_mixture_burns (natural, 0.1501));
  g_assert_true (hob_mixture_burns (lp, 0.03));
  g_assert_false (hob_mixture_burns (natural, 0.03));
}

/* Auto-ignition in a closed vessel: methane 537 °C (another source: 630), propane 450 °C. */
static void
nothing_lights_below_auto_ignition (void)
{
  check_near ("NFPA 325: methane, °C", natural->autoignition - 273.15, 537, 1e-6);
  check_near ("NFPA 325: propane, °C", lp->autoignition - 273.15, 450, 1e-6);
  for (double x = 0; x < 0.2; x += 0.001)
    {
      g_assert_cmpfloat (hob_hot_surface_ignition (natural, x), >=, natural->autoignition);
      g_assert_cmpfloat (hob_hot_surface_ignition (lp, x), >=, lp->autoignition);
    }
}

static void
a_surface_in_the_open_must_be_200_degrees_above_it (void)
{
  for (double x = 0; x < 0.2; x += 0.001)
    {
      g_assert_cmpfloat (hob_hot_surface_ignition (natural, x), >=,
                         natural->autoignition + 200); /* API RP 2216 */
      g_assert_cmpfloat (hob_hot_surface_ignition (lp, x), >=, lp->autoignition + 200);
    }
}

/* Design rule for appliance igniters: at least 1,100 °C at 85 % of the voltage (US patent
 * 5,892,201). */
static void
a_surface_at_1100_degrees_lights_whatever_can_burn (void)
{
  for (double x = 0; x < 0.2; x += 0.001)
    {
      if (hob_mixture_burns (natural, x))
        g_assert_cmpfloat (hob_hot_surface_ignition (natural, x), <=, celsius (1100) + 1e-9);
      if (hob_mixture_burns (lp, x))
        g_assert_cmpfloat (hob_hot_surface_ignition (lp, x), <=, celsius (1100) + 1e-9);
    }
}

static void
least_spark_energy_is_a_quarter_of_a_millijoule (void)
{
  double best_natural = hob_spark_ignition (natural, 1 / (1 + natural->air), 3e-3);
  double best_lp = hob_spark_ignition (lp, 1 / (1 + lp->air), 3e-3);

  check_within ("Bureau of Mines Bulletin 627: methane, mJ", best_natural * 1e3, 0.28 - 1e-9, 0.30);
  check_within ("Bureau of Mines Bulletin 627: propane, mJ", best_lp * 1e3, 0.25 - 1e-9, 0.26);
}

static void
a_gap_below_the_quenching_distance_takes_more (void)
{
  check_within ("from memory: methane, mm", natural->quench * 1e3, 2.0, 2.5);
  check_within ("from memory: propane, mm", lp->quench * 1e3, 1.8 - 1e-9, 2.0);
  g_assert_cmpfloat (hob_spark_ignition (natural, 0.095, 1e-3), >,
                     2 * hob_spark_ignition (natural, 0.095, 3e-3));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/ignition/mixtures-burn-within-the-flammable-limits-only",
                   mixtures_burn_within_the_flammable_limits_only);
  g_test_add_func ("/outside/ignition/nothing-lights-below-auto-ignition",
                   nothing_lights_below_auto_ignition);
  g_test_add_func ("/outside/ignition/a-surface-in-the-open-must-be-200-degrees-above-it",
                   a_surface_in_the_open_must_be_200_degrees_above_it);
  g_test_add_func ("/outside/ignition/a-surface-at-1100-degrees-lights-whatever-can-burn",
                   a_surface_at_1100_degrees_lights_whatever_can_burn);
  g_test_add_func ("/outside/ignition/least-spark-energy-is-a-quarter-of-a-millijoule",
                   least_spark_energy_is_a_quarter_of_a_millijoule);
  g_test_add_func ("/outside/ignition/a-gap-below-the-quenching-distance-takes-more",
                   a_gap_below_the_quenching_distance_takes_more);
  return g_test_run ();
}
