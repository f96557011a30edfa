/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/gas.h"

static const double inch = 0.0254;                 /* m */
static const double inch_of_water = 249.08891;     /* Pa */
static const double cubic_feet_per_hour = 0.028316847 / 3600; /* m³/s */
static const double btu_per_hour = 1055.056 / 3600;           /* W */

static double
jet_area (double diameter_inch)
{
  return G_PI / 4 * diameter_inch * inch * diameter_inch * inch;
}

/* Flow in ft³/h of a gas of this specific gravity, discharge coefficient 0.90. */
static double
table_flow (double diameter_inch, double specific_gravity, double water_column)
{
  double air = hob_fuels[HOB_FUEL_NATURAL].density / hob_fuels[HOB_FUEL_NATURAL].specific_gravity;
  double density = air * specific_gravity;
  double flow
      = hob_orifice_flow (0.90 * jet_area (diameter_inch), water_column * inch_of_water, density);

  return flow / density / cubic_feet_per_hour;
}

/* Heat of a jet in Btu/h. */
static double
table_heat (double diameter_inch, HobFuelName name, double water_column)
{
  const HobFuel *fuel = &hob_fuels[name];
  double area = 0.90 * jet_area (diameter_inch);

  return hob_orifice_flow (area, water_column * inch_of_water, fuel->density) * fuel->heat
         / btu_per_hour;
}

/* Plumbing Level 3, Block E, appendix 2 (BCcampus, open): ft³/h at Cd 0.90. */
static const struct
{
  double diameter, natural[4], lp[2];
} open_table[] = {
  { 0.0135, { 0.276, 0.516, 0.552, 0.730 }, { 0.552, 0.579 } }, /* No. 80 */
  { 0.0280, { 1.187, 2.220, 2.373, 3.139 }, { 2.373, 2.489 } }, /* No. 70 */
  { 0.0350, { 1.854, 3.469, 3.708, 4.905 }, { 3.708, 3.889 } }, /* No. 65 */
  { 0.0380, { 2.185, 4.089, 4.371, 5.782 }, { 4.371, 4.584 } }, /* No. 62 */
};

static void
flows_follow_the_open_table (void)
{
  const double natural_at[] = { 1.0, 3.5, 4.0, 7.0 }, lp_at[] = { 10, 11 }; /* in. w.c. */
  const char *source = "Plumbing Level 3 Block E App. 2 (BCcampus)";

  for (guint row = 0; row < G_N_ELEMENTS (open_table); row++)
    {
      double d = open_table[row].diameter;

      /* ±0.2 %, and half of the last digit printed. */
      for (guint k = 0; k < 4; k++)
        check_near (source, table_flow (d, 0.60, natural_at[k]), open_table[row].natural[k],
                    0.002 * open_table[row].natural[k] + 0.0005);
      for (guint k = 0; k < 2; k++)
        check_near (source, table_flow (d, 1.50, lp_at[k]), open_table[row].lp[k],
                    0.002 * open_table[row].lp[k] + 0.0005);
    }
}

static void
a_number_80_drill_follows_the_fuel_gas_code (void)
{
  const double at[] = { 3, 4, 5, 7, 10 }, flow[] = { 0.48, 0.55, 0.63, 0.73, 0.88 };

  for (guint k = 0; k < G_N_ELEMENTS (at); k++)
    check_near ("NFPA 54 table E.1.1(a)", table_flow (0.0135, 0.60, at[k]), flow[k],
                0.05 * flow[k]);
}

/* Q[ft³/h] = 1658.5·Cd·A[in²]·√(H[in. w.c.]/SG), derived from 180 entries of the open table. */
static void
flows_follow_the_formula (void)
{
  for (double d = 0.0135; d < 0.13; d *= 1.1)
    {
      double formula = 1658.5 * 0.90 * G_PI / 4 * d * d * sqrt (5 / 0.60);

      check_near ("NFPA 54 Annex E, formula", table_flow (d, 0.60, 5), formula, 0.001 * formula);
    }
}

static void
flow_goes_with_the_square_of_the_bore_and_the_root_of_pressure_over_gravity (void)
{
  double flow = table_flow (0.05, 0.60, 5);

  check_near ("exact law", table_flow (0.10, 0.60, 5) / flow, 4, 1e-9);
  check_near ("exact law", table_flow (0.05, 0.60, 20) / flow, 2, 1e-6);
  check_near ("exact law", table_flow (0.05, 2.40, 5) / flow, 0.5, 1e-9);
}

static void
heat_goes_with_the_wobbe_number (void)
{
  const HobFuel *natural = &hob_fuels[HOB_FUEL_NATURAL], *lp = &hob_fuels[HOB_FUEL_LP];
  double wobbe = (lp->heat * lp->density / sqrt (lp->specific_gravity))
                 / (natural->heat * natural->density / sqrt (natural->specific_gravity));

  check_near ("exact law (Wobbe)",
              table_heat (0.05, HOB_FUEL_LP, 5) / table_heat (0.05, HOB_FUEL_NATURAL, 5), wobbe,
              1e-9);
}

static void
a_natural_gas_jet_left_in_on_lp_gives_twice_the_heat (void)
{
  double rated = table_heat (0.0715, HOB_FUEL_NATURAL, 5);

  check_near ("derived: 5 in natural, 10 in LP", table_heat (0.0715, HOB_FUEL_LP, 10) / rated, 2.15,
              0.005);
  check_near ("derived: 4 in natural, 10 in LP",
              table_heat (0.0756, HOB_FUEL_LP, 10) / table_heat (0.0756, HOB_FUEL_NATURAL, 4), 2.40,
              0.005);
  check_near ("derived: LP at the natural pressure", table_heat (0.0715, HOB_FUEL_LP, 5) / rated,
              1.52, 0.005);
  check_near ("derived: LP jet on natural gas", table_heat (0.0488, HOB_FUEL_NATURAL, 5) / rated,
              0.465, 0.005);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/orifice/flows-follow-the-open-table", flows_follow_the_open_table);
  g_test_add_func ("/outside/orifice/a-number-80-drill-follows-the-fuel-gas-code",
                   a_number_80_drill_follows_the_fuel_gas_code);
  g_test_add_func ("/outside/orifice/flows-follow-the-formula", flows_follow_the_formula);
  g_test_add_func ("/outside/orifice/"
                   "flow-goes-with-the-square-of-the-bore-and-the-root-of-pressure-over-gravity",
                   flow_goes_with_the_square_of_the_bore_and_the_root_of_pressure_over_gravity);
  g_test_add_func ("/outside/orifice/heat-goes-with-the-wobbe-number",
                   heat_goes_with_the_wobbe_number);
  g_test_add_func ("/outside/orifice/a-natural-gas-jet-left-in-on-lp-gives-twice-the-heat",
                   a_natural_gas_jet_left_in_on_lp_gives_twice_the_heat);
  return g_test_run ();
}
