/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/flame.h"

#include <math.h>

static const HobFuel *const natural = &hob_fuels[HOB_FUEL_NATURAL];
static const HobFuel *const lp = &hob_fuels[HOB_FUEL_LP];

/* Ports to jet of a burner on its own jet with natural gas; the LP jet is smaller by the heat it
 * must not exceed. */
static const double natural_jet = 206, lp_jet = 206 / 0.465;

static double
aeration (const HobFuel *fuel, double ports_to_jet)
{
  return hob_aeration (fuel, hob_primary_air (fuel, ports_to_jet, 1));
}

static void
a_natural_burner_draws_60_per_cent_of_its_air (void)
{
  g_assert_cmpfloat_with_epsilon (aeration (natural, natural_jet), 0.60, 0.01);
}

static void
a_natural_jet_on_lp_draws_38_and_a_lp_jet_on_natural_gas_90 (void)
{
  g_assert_cmpfloat_with_epsilon (aeration (lp, natural_jet), 0.38, 0.005);
  g_assert_cmpfloat_with_epsilon (aeration (natural, lp_jet), 0.90, 0.01);
}

static void
a_closed_shutter_lets_no_air_in (void)
{
  g_assert_cmpfloat (hob_primary_air (natural, natural_jet, 0), ==, 0);
  g_assert_cmpfloat (hob_primary_mixture (0), ==, 1);
  g_assert_cmpfloat_with_epsilon (hob_primary_air (natural, natural_jet, 0.5) * 2,
                                  hob_primary_air (natural, natural_jet, 1), 1e-12);
  g_assert_cmpfloat (hob_primary_air (natural, 0.5, 1), ==, 0); /* ports smaller than the jet */
}

/* The mixture in the head is near the rich limit; at the tip it has met more air. */
static void
at_the_tip_the_mixture_is_well_within_the_limits (void)
{
  double head = hob_primary_mixture (hob_primary_air (natural, natural_jet, 1));
  double head_lp = hob_primary_mixture (hob_primary_air (lp, lp_jet, 1));

  g_assert_cmpfloat_with_epsilon (head, 0.15, 0.002);
  g_assert_cmpfloat_with_epsilon (head_lp, 0.069, 0.001);
  g_assert_cmpfloat_with_epsilon (hob_tip_mixture (head, 0.7), 0.088, 0.0005);
  g_assert_true (hob_mixture_burns (natural, hob_tip_mixture (head, 0.7)));
  g_assert_true (hob_mixture_burns (lp, hob_tip_mixture (head_lp, 0.7)));
  g_assert_false (
      hob_mixture_burns (natural, hob_tip_mixture (head, 3))); /* a tip out of its place */
}

static void
the_best_mixture_lights_at_1000_degrees_and_the_limits_100_above (void)
{
  double best = 1 / (1 + natural->air);

  g_assert_cmpfloat_with_epsilon (hob_hot_surface_ignition (natural, best), 1273.15, 1e-9);
  g_assert_cmpfloat_with_epsilon (hob_hot_surface_ignition (natural, natural->lean), 1373.15, 1e-6);
  g_assert_cmpfloat_with_epsilon (hob_hot_surface_ignition (natural, natural->rich), 1373.15, 1e-6);
  g_assert_cmpfloat_with_epsilon (hob_hot_surface_ignition (lp, 1 / (1 + lp->air)), 1213.15, 1e-9);
}

static void
outside_the_limits_nothing_lights_at_all (void)
{
  const double x[] = { -1, 0, 0.049, 0.151, 1 };

  for (guint k = 0; k < G_N_ELEMENTS (x); k++)
    {
      g_assert_true (isinf (hob_hot_surface_ignition (natural, x[k])));
      g_assert_true (isinf (hob_spark_ignition (natural, x[k], 3e-3)));
    }
  g_assert_true (isinf (hob_spark_ignition (natural, 0.09, 0)));
}

static void
both_get_harder_towards_the_limits (void)
{
  double best = 1 / (1 + natural->air);

  for (double x = best; x + 0.001 <= natural->rich; x += 0.001)
    {
      g_assert_cmpfloat (hob_hot_surface_ignition (natural, x), <,
                         hob_hot_surface_ignition (natural, x + 0.001));
      g_assert_cmpfloat (hob_spark_ignition (natural, x, 3e-3), <,
                         hob_spark_ignition (natural, x + 0.001, 3e-3));
    }
  for (double x = best; x - 0.001 >= natural->lean; x -= 0.001)
    {
      g_assert_cmpfloat (hob_hot_surface_ignition (natural, x), <,
                         hob_hot_surface_ignition (natural, x - 0.001));
      g_assert_cmpfloat (hob_spark_ignition (natural, x, 3e-3), <,
                         hob_spark_ignition (natural, x - 0.001, 3e-3));
    }
}

/* Half a millijoule of the cell's spark, at a normal tip and at one bent too close. */
static void
a_healthy_spark_lights_and_one_too_narrow_does_not (void)
{
  double tip
      = hob_tip_mixture (hob_primary_mixture (hob_primary_air (natural, natural_jet, 1)), 0.7);

  g_assert_cmpfloat (hob_spark_ignition (natural, tip, 3e-3), <, 0.53e-3);
  g_assert_cmpfloat (hob_spark_ignition (natural, tip, 1e-3), >, 0.53e-3);
}

static void
a_healthy_flame_neither_yellows_nor_lifts (void)
{
  g_assert_cmpfloat (hob_flame_yellow (natural, aeration (natural, natural_jet)), ==, 0);
  g_assert_cmpfloat (hob_flame_lift (natural, aeration (natural, natural_jet)), ==, 0);
  g_assert_cmpfloat (hob_flame_yellow (lp, aeration (lp, lp_jet)), ==, 0);
  g_assert_cmpfloat (hob_flame_lift (lp, aeration (lp, lp_jet)), ==, 0);
}

static void
exchanged_jets_show_in_the_flame (void)
{
  g_assert_cmpfloat (hob_flame_yellow (lp, aeration (lp, natural_jet)), >, 0.7);
  g_assert_cmpfloat (hob_flame_lift (natural, aeration (natural, lp_jet)), >, 0.7);
}

static void
yellow_and_lift_stay_between_nothing_and_all (void)
{
  for (double a = -0.5; a < 2; a += 0.01)
    for (int k = 0; k < HOB_N_FUELS; k++)
      {
        double yellow = hob_flame_yellow (&hob_fuels[k], a),
               lift = hob_flame_lift (&hob_fuels[k], a);

        g_assert_cmpfloat (yellow, >=, 0);
        g_assert_cmpfloat (yellow, <=, 1);
        g_assert_cmpfloat (lift, >=, 0);
        g_assert_cmpfloat (lift, <=, 1);
        g_assert_true (yellow == 0 || lift == 0);
      }
}

/* Yellow ends at the eye's all; what such a flame makes of its gas does not. */
static void
soot_grows_until_there_is_no_primary_air (void)
{
  for (int k = 0; k < HOB_N_FUELS; k++)
    {
      const HobFuel *fuel = &hob_fuels[k];
      double solid = fuel->yellow_below - 0.2, last = 0;

      g_assert_cmpfloat (hob_flame_yellow (fuel, solid), ==, 1);
      for (double a = 1; a >= -1e-9; a -= 0.01)
        {
          double soot = hob_flame_soot (fuel, a);

          if (a < solid)
            g_assert_cmpfloat (soot, >, last);
          else
            g_assert_cmpfloat (soot, >=, last);
          last = soot;
        }
      g_assert_cmpfloat_with_epsilon (last, 3, 0.01);
    }
}

/* Laminar burning velocities of methane from memory of G. E. Andrews and D. Bradley. */
static void
a_flame_travels_as_fast_as_measured_and_hardly_in_a_burner_s_own_mixture (void)
{
  static const struct
  {
    double ratio, speed;
  } methane[] = { { 0.8, 0.26 }, { 1.0, 0.38 }, { 1.2, 0.35 }, { 1.3, 0.26 }, { 1.4, 0.16 } };

  for (guint k = 0; k < G_N_ELEMENTS (methane); k++)
    g_assert_cmpfloat_with_epsilon (hob_burning_velocity (1 / methane[k].ratio), methane[k].speed,
                                    0.03);
  g_assert_cmpfloat (hob_burning_velocity (0.6), <, 0.03);
  g_assert_cmpfloat (hob_burning_velocity (0), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/flame/" name, function)
  CASE ("a-natural-burner-draws-60-per-cent-of-its-air",
        a_natural_burner_draws_60_per_cent_of_its_air);
  CASE ("a-natural-jet-on-lp-draws-38-and-a-lp-jet-on-natural-gas-90",
        a_natural_jet_on_lp_draws_38_and_a_lp_jet_on_natural_gas_90);
  CASE ("a-closed-shutter-lets-no-air-in", a_closed_shutter_lets_no_air_in);
  CASE ("at-the-tip-the-mixture-is-well-within-the-limits",
        at_the_tip_the_mixture_is_well_within_the_limits);
  CASE ("the-best-mixture-lights-at-1000-degrees-and-the-limits-100-above",
        the_best_mixture_lights_at_1000_degrees_and_the_limits_100_above);
  CASE ("outside-the-limits-nothing-lights-at-all", outside_the_limits_nothing_lights_at_all);
  CASE ("both-get-harder-towards-the-limits", both_get_harder_towards_the_limits);
  CASE ("a-healthy-spark-lights-and-one-too-narrow-does-not",
        a_healthy_spark_lights_and_one_too_narrow_does_not);
  CASE ("a-healthy-flame-neither-yellows-nor-lifts", a_healthy_flame_neither_yellows_nor_lifts);
  CASE ("exchanged-jets-show-in-the-flame", exchanged_jets_show_in_the_flame);
  CASE ("soot-grows-until-there-is-no-primary-air", soot_grows_until_there_is_no_primary_air);
  CASE ("yellow-and-lift-stay-between-nothing-and-all",
        yellow_and_lift_stay_between_nothing_and_all);
  CASE ("a-flame-travels-as-fast-as-measured",
        a_flame_travels_as_fast_as_measured_and_hardly_in_a_burner_s_own_mixture);
#undef CASE
  return g_test_run ();
}
