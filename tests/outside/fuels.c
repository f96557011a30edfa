/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/gas.h"

static const HobFuel *const natural = &hob_fuels[HOB_FUEL_NATURAL];
static const HobFuel *const lp = &hob_fuels[HOB_FUEL_LP];

/* Gross heat, Btu/ft³. */
static double
btu_per_cubic_foot (const HobFuel *fuel)
{
  return fuel->heat * fuel->density * 0.028316847 / 1055.056;
}

static void
natural_gas_is_1040_btu_at_gravity_060 (void)
{
  check_near ("National Fuel Gas Code, Annex E", btu_per_cubic_foot (natural), 1040, 0.5);
  check_near ("National Fuel Gas Code, Annex E", natural->specific_gravity, 0.60, 1e-9);
}

/* Another table has 2,572: the base is commercial propane, gross, at 60 °F and 30 in Hg. */
static void
commercial_propane_is_2516_btu_at_gravity_152 (void)
{
  check_near ("GPA 2145", btu_per_cubic_foot (lp), 2516, 1);
  check_near ("GPA 2145", lp->specific_gravity, 1.52, 1e-9);
}

/* Methane 1,011 Btu/ft³ at 0.554: what natural gas carries beyond it is denser and richer. */
static void
natural_gas_is_a_little_more_than_methane (void)
{
  g_assert_cmpfloat (btu_per_cubic_foot (natural), >, 1011); /* GPA 2145 */
  g_assert_cmpfloat (btu_per_cubic_foot (natural), <, 1.1 * 1011);
  g_assert_cmpfloat (natural->specific_gravity, >, 0.554);   /* derived: 16.04/28.96 */
}

/* Air demand of CxHy: (x + y/4)/0.2095. */
static void
air_demand_follows_from_the_formula_of_the_gas (void)
{
  check_near ("derived: CH4", natural->air, (1 + 4 / 4.0) / 0.2095, 0.01);
  check_near ("derived: C3H8", lp->air, (3 + 8 / 4.0) / 0.2095, 0.01);
}

static void
stoichiometric_fuel_is_948_and_402_per_cent (void)
{
  check_near ("derived: CH4, %", 100 / (1 + natural->air), 9.48, 0.01);
  check_near ("derived: C3H8, %", 100 / (1 + lp->air), 4.02, 0.01);
}

/* A foot of air gives about 100 Btu with any hydrocarbon. */
static void
a_cubic_foot_of_air_burns_to_about_100_btu_with_either (void)
{
  check_near ("rule of thumb, from memory", btu_per_cubic_foot (natural) / natural->air, 100, 10);
  check_near ("rule of thumb, from memory", btu_per_cubic_foot (lp) / lp->air, 100, 10);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/fuels/natural-gas-is-1040-btu-at-gravity-060",
                   natural_gas_is_1040_btu_at_gravity_060);
  g_test_add_func ("/outside/fuels/commercial-propane-is-2516-btu-at-gravity-152",
                   commercial_propane_is_2516_btu_at_gravity_152);
  g_test_add_func ("/outside/fuels/natural-gas-is-a-little-more-than-methane",
                   natural_gas_is_a_little_more_than_methane);
  g_test_add_func ("/outside/fuels/air-demand-follows-from-the-formula-of-the-gas",
                   air_demand_follows_from_the_formula_of_the_gas);
  g_test_add_func ("/outside/fuels/stoichiometric-fuel-is-948-and-402-per-cent",
                   stoichiometric_fuel_is_948_and_402_per_cent);
  g_test_add_func ("/outside/fuels/a-cubic-foot-of-air-burns-to-about-100-btu-with-either",
                   a_cubic_foot_of_air_burns_to_about_100_btu_with_either);
  return g_test_run ();
}
