/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/spark.h"

#include <math.h>

static const HobSparkCell cell
    = { .capacitance = 1e-6, .resistance = 47e3, .bleed = 10e6, .trigger = 130 };

static void
the_rate_falls_with_the_mains (void)
{
  const double volts[] = { 126, 120, 114, 108, 100 }, rate[] = { 3.5, 3.0, 2.4, 1.9, 1.0 };

  for (guint k = 0; k < G_N_ELEMENTS (volts); k++)
    g_assert_cmpfloat_with_epsilon (hob_spark_cell_rate (&cell, volts[k], 0), rate[k], 0.06);
}

static void
a_wet_film_in_series_slows_it_and_ends_it (void)
{
  const double ohms[] = { 0, 47e3, 100e3, 200e3, 300e3, 500e3 };
  const double rate[] = { 2.96, 1.41, 0.85, 0.44, 0.26, 0 };

  for (guint k = 0; k < G_N_ELEMENTS (ohms); k++)
    g_assert_cmpfloat_with_epsilon (hob_spark_cell_rate (&cell, 120, ohms[k]), rate[k], 0.0125);
  g_assert_cmpfloat (hob_spark_cell_rate (&cell, 120, 500e3), ==, 0);
  g_assert_cmpfloat (hob_spark_cell_rate (&cell, 120, 1e9), ==, 0);
  g_assert_cmpfloat (hob_spark_cell_rate (&cell, 120, INFINITY), ==, 0);
}

static void
more_volts_never_spark_slower_nor_more_ohms_faster (void)
{
  for (double volts = 0; volts < 260; volts += 0.5)
    for (double ohms = 0; ohms < 600e3; ohms += 20e3)
      {
        double rate = hob_spark_cell_rate (&cell, volts, ohms);

        g_assert_cmpfloat (rate, >=, 0);
        g_assert_cmpfloat (hob_spark_cell_rate (&cell, volts + 0.5, ohms), >=, rate);
        g_assert_cmpfloat (hob_spark_cell_rate (&cell, volts, ohms + 20e3), <=, rate);
      }
}

/* dv/dt = (I(v) − v/R_bleed)/C summed in many small steps of v. */
static double
rate_by_summing (double volts, double ohms)
{
  const int n = 200000;
  double crest = volts * G_SQRT2, r = cell.resistance + ohms, dv = cell.trigger / n, t = 0;

  for (int k = 0; k < n; k++)
    {
      double v = (k + 0.5) * dv, alpha = asin (v / crest);
      double current
          = crest / (G_PI * r) * (cos (alpha) - (G_PI_2 - alpha) * sin (alpha)) - v / cell.bleed;

      t += cell.capacitance * dv / current;
    }
  return 1 / t;
}

/* To a thousandth, even where charge and bleed nearly balance: no cell's parts are known as
 * well. */
static void
the_ten_points_integrate_as_well_as_many (void)
{
  for (double volts = 98; volts < 250; volts += 9)
    g_assert_cmpfloat_with_epsilon (
        hob_spark_cell_rate (&cell, volts, 0) / rate_by_summing (volts, 0), 1, 1e-3);
  for (double ohms = 0; ohms < 390e3; ohms += 30e3)
    g_assert_cmpfloat_with_epsilon (
        hob_spark_cell_rate (&cell, 120, ohms) / rate_by_summing (120, ohms), 1, 1e-3);
}

static void
without_mains_or_trigger_there_is_no_spark (void)
{
  HobSparkCell dead = cell;

  dead.trigger = 0;
  g_assert_cmpfloat (hob_spark_cell_rate (&cell, 0, 0), ==, 0);
  g_assert_cmpfloat (hob_spark_cell_rate (&cell, -120, 0), ==, 0);
  g_assert_cmpfloat (hob_spark_cell_rate (&cell, NAN, 0), ==, 0);
  g_assert_cmpfloat (hob_spark_cell_rate (&dead, 120, 0), ==, 0);
}

static void
half_waves_charge_about_five_times_slower_than_direct_voltage (void)
{
  double direct = -cell.resistance * cell.capacitance * log1p (-cell.trigger / (120 * G_SQRT2));
  double ratio = 1 / hob_spark_cell_rate (&cell, 120, 0) / direct;

  g_assert_cmpfloat (ratio, >, 4);
  g_assert_cmpfloat (ratio, <, 6);
}

/* A quarter of 8.45 mJ over four outputs is half a millijoule each: enough for either gas. */
static void
the_cell_holds_8_millijoules (void)
{
  g_assert_cmpfloat_with_epsilon (hob_spark_cell_energy (&cell), 8.45e-3, 1e-9);
  g_assert_cmpfloat_with_epsilon (hob_spark_cell_energy (&cell) * 0.25 / 4, 0.53e-3, 0.005e-3);
}

static void
a_wider_gap_takes_more (void)
{
  double before = 0;

  g_assert_cmpfloat (hob_breakdown_sphere (0), ==, 0);
  for (double gap = 1e-4; gap < 20e-3; gap += 1e-4)
    {
      g_assert_cmpfloat (hob_breakdown_sphere (gap), >, before);
      before = hob_breakdown_sphere (gap);
    }
}

static void
a_three_millimetre_gap_breaks_at_about_5600_volts (void)
{
  g_assert_cmpfloat_with_epsilon (hob_breakdown_point (3e-3, 0), 5600, 50);
}

static void
fifteen_kilovolts_fail_at_nine_to_ten_millimetres (void)
{
  g_assert_cmpfloat (hob_breakdown_point (9e-3, 0), <, 15e3);
  g_assert_cmpfloat (hob_breakdown_point (10e-3, 0), >, 15e3);
}

static void
in_flame_a_quarter_is_left (void)
{
  g_assert_cmpfloat_with_epsilon (hob_breakdown_point (3e-3, 1) / hob_breakdown_point (3e-3, 0),
                                  0.25, 1e-9);
  g_assert_cmpfloat (hob_breakdown_point (3e-3, 0.5), <, hob_breakdown_point (3e-3, 0));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/spark/" name, function)
  CASE ("the-rate-falls-with-the-mains", the_rate_falls_with_the_mains);
  CASE ("a-wet-film-in-series-slows-it-and-ends-it", a_wet_film_in_series_slows_it_and_ends_it);
  CASE ("more-volts-never-spark-slower-nor-more-ohms-faster",
        more_volts_never_spark_slower_nor_more_ohms_faster);
  CASE ("the-ten-points-integrate-as-well-as-many", the_ten_points_integrate_as_well_as_many);
  CASE ("without-mains-or-trigger-there-is-no-spark", without_mains_or_trigger_there_is_no_spark);
  CASE ("half-waves-charge-about-five-times-slower-than-direct-voltage",
        half_waves_charge_about_five_times_slower_than_direct_voltage);
  CASE ("the-cell-holds-8-millijoules", the_cell_holds_8_millijoules);
  CASE ("a-wider-gap-takes-more", a_wider_gap_takes_more);
  CASE ("a-three-millimetre-gap-breaks-at-about-5600-volts",
        a_three_millimetre_gap_breaks_at_about_5600_volts);
  CASE ("fifteen-kilovolts-fail-at-nine-to-ten-millimetres",
        fifteen_kilovolts_fail_at_nine_to_ten_millimetres);
  CASE ("in-flame-a-quarter-is-left", in_flame_a_quarter_is_left);
#undef CASE
  return g_test_run ();
}
