/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/material.h"

#include <math.h>

static void
a_longer_wire_resists_more_and_a_thicker_one_less (void)
{
  double r = hob_wire_resistance (1e-3, 10, 293.15);

  g_assert_cmpfloat_with_epsilon (hob_wire_resistance (1e-3, 20, 293.15), 2 * r, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_wire_resistance (2e-3, 10, 293.15), r / 4, 1e-12);
  g_assert_cmpfloat (hob_wire_resistance (1e-3, 10, 393.15), >, r);
  g_assert_cmpfloat (hob_wire_resistance (1e-3, 0, 293.15), ==, 0);
}

static void
platinum_and_its_inverse_undo_each_other (void)
{
  for (double kelvin = 60; kelvin <= 1000; kelvin += 2.5)
    g_assert_cmpfloat_with_epsilon (
        hob_platinum_temperature (1000, hob_platinum_resistance (1000, kelvin)), kelvin, 1e-6);
}

static void
platinum_out_of_its_span_has_no_temperature (void)
{
  const double ohms[] = { 0, -5, 100, 1e6, INFINITY, NAN };

  for (guint k = 0; k < G_N_ELEMENTS (ohms); k++)
    g_assert_true (isnan (hob_platinum_temperature (1000, ohms[k])));
}

/* 60 Ω in the sensor's plug: a sensor at 350 °F is believed to be 16.2 K hotter, so the oven
 * stands that much too cool. */
static void
sixty_ohms_in_the_plug_are_sixteen_kelvin (void)
{
  double set = (350 - 32) / 1.8 + 273.15;
  double believed = hob_platinum_temperature (1000, hob_platinum_resistance (1000, set) + 60);

  g_assert_cmpfloat_with_epsilon (believed - set, 16.2, 0.8);
}

/* Silicon carbide resists least somewhere between 600 and 900 °C and more again above. */
static void
an_igniter_resists_least_near_800_celsius (void)
{
  double least = INFINITY, at = 0;

  g_assert_cmpfloat_with_epsilon (hob_igniter_resistance (1, 31, 95, 293), 95, 1e-9);
  g_assert_cmpfloat_with_epsilon (hob_igniter_resistance (1.25, 31, 95, 293), 1.25 * 95, 1e-9);
  for (double kelvin = 293; kelvin < 1800; kelvin += 1)
    {
      double ohms = hob_igniter_resistance (1, 31, 95, kelvin);

      if (ohms < least)
        {
          least = ohms;
          at = kelvin;
        }
    }
  g_assert_cmpfloat (at, >, 873.15);
  g_assert_cmpfloat (at, <, 1173.15);
  g_assert_cmpfloat (hob_igniter_resistance (1, 31, 95, 1700), >, 1.05 * least);
}

static void
nothing_is_lost_at_the_temperature_of_the_room (void)
{
  g_assert_cmpfloat (hob_surface_loss (1e-3, 0.9, 15, 298, 298), ==, 0);
  g_assert_cmpfloat (hob_surface_loss (1e-3, 0.9, 15, 297, 298), <, 0);
  g_assert_cmpfloat (hob_surface_loss (1e-3, 0.9, 15, 1500, 298), >, 200);
}

static void
glow_brightens_without_a_jump (void)
{
  double before[3] = { 0x4a / 255.0, 0x12 / 255.0, 0x0a / 255.0 }, rgb[3];

  for (double kelvin = 798; kelvin < 2200; kelvin += 1)
    {
      g_assert_true (hob_glow_colour (kelvin, rgb));
      for (int k = 0; k < 3; k++)
        {
          g_assert_cmpfloat (rgb[k], >=, 0);
          g_assert_cmpfloat (rgb[k], <=, 1);
          g_assert_cmpfloat (fabs (rgb[k] - before[k]), <, 0.01);
          before[k] = rgb[k];
        }
    }
}

static void
cold_things_do_not_glow (void)
{
  double rgb[3] = { 1, 1, 1 };

  g_assert_false (hob_glow_colour (293, rgb));
  g_assert_cmpfloat (rgb[0] + rgb[1] + rgb[2], ==, 0);
  g_assert_false (hob_glow_colour (NAN, rgb));
}

static void
more_current_trips_a_breaker_sooner (void)
{
  double before = 0;

  for (double ampere = 15.5; ampere < 300; ampere += 0.5)
    {
      g_assert_cmpfloat (hob_breaker_rate (15, ampere), >=, before);
      before = hob_breaker_rate (15, ampere);
    }
  g_assert_cmpfloat_with_epsilon (1 / hob_breaker_rate (15, 15 * 9), 0.02, 1e-9);
  g_assert_cmpfloat (hob_breaker_rate (15, -30), ==, hob_breaker_rate (15, 30));
}

static void
more_leakage_trips_an_interrupter_sooner (void)
{
  g_assert_cmpfloat (hob_interrupter_time (5e-3), >, hob_interrupter_time (6e-3));
  g_assert_cmpfloat_with_epsilon (hob_interrupter_time (20e-3), 1, 1e-9);
}

static void
water_boils_at_one_atmosphere (void)
{
  g_assert_cmpfloat_with_epsilon (hob_vapour_pressure (273.15 + 22) / 2645, 1,
                                  0.01); /* steam table, from memory */
  g_assert_cmpfloat_with_epsilon (hob_vapour_pressure (373.15) / 101325, 1, 0.03);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/material/" name, function)
  CASE ("a-longer-wire-resists-more-and-a-thicker-one-less",
        a_longer_wire_resists_more_and_a_thicker_one_less);
  CASE ("platinum-and-its-inverse-undo-each-other", platinum_and_its_inverse_undo_each_other);
  CASE ("platinum-out-of-its-span-has-no-temperature", platinum_out_of_its_span_has_no_temperature);
  CASE ("sixty-ohms-in-the-plug-are-sixteen-kelvin", sixty_ohms_in_the_plug_are_sixteen_kelvin);
  CASE ("an-igniter-resists-least-near-800-celsius", an_igniter_resists_least_near_800_celsius);
  CASE ("nothing-is-lost-at-the-temperature-of-the-room",
        nothing_is_lost_at_the_temperature_of_the_room);
  CASE ("glow-brightens-without-a-jump", glow_brightens_without_a_jump);
  CASE ("cold-things-do-not-glow", cold_things_do_not_glow);
  CASE ("more-current-trips-a-breaker-sooner", more_current_trips_a_breaker_sooner);
  CASE ("more-leakage-trips-an-interrupter-sooner", more_leakage_trips_an_interrupter_sooner);
  CASE ("water-boils-at-one-atmosphere", water_boils_at_one_atmosphere);
#undef CASE
  return g_test_run ();
}
