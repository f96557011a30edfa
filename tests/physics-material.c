/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/integrate.h"
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

static void
an_igniter_falls_from_cold_to_hot_ohms (void)
{
  double before = INFINITY;

  g_assert_cmpfloat_with_epsilon (hob_igniter_resistance (1, 33, 95, 293), 95, 1e-9);
  g_assert_cmpfloat_with_epsilon (hob_igniter_resistance (1.25, 33, 95, 293), 1.25 * 95, 1e-9);
  for (double kelvin = 293; kelvin < 1250; kelvin += 10)
    {
      g_assert_cmpfloat (hob_igniter_resistance (1, 33, 95, kelvin), <, before);
      before = hob_igniter_resistance (1, 33, 95, kelvin);
    }
  g_assert_cmpfloat_with_epsilon (hob_igniter_resistance (1, 33, 95, 1566), 33.7, 0.3);
}

static void
nothing_is_lost_at_the_temperature_of_the_room (void)
{
  g_assert_cmpfloat (hob_surface_loss (1e-3, 0.9, 15, 298, 298), ==, 0);
  g_assert_cmpfloat (hob_surface_loss (1e-3, 0.9, 15, 297, 298), <, 0);
  g_assert_cmpfloat (hob_surface_loss (1e-3, 0.9, 15, 1500, 298), >, 200);
}

/* An igniter in series with the heater of its valve: C dT/dt = i²R(T) − loss, C_b dx/dt = i²R_v −
 * G(x − x_c), x the rise of the valve's bimetal above 25 °C. */
typedef struct
{
  double factor, volts, compartment; /* compartment: x_c, K */
  gboolean round, round_valve;       /* else flat */
  double amps, opens,
      fahrenheit; /* hot; s until the arm begins to lift, 0: never; the igniter then */
} Series;

static double
series_amps (const Series *s, double kelvin)
{
  double ohms = s->round ? hob_igniter_resistance (s->factor, 41.5, 150, kelvin)
                         : hob_igniter_resistance (s->factor, 33, 95, kelvin);

  return s->volts / (ohms + (s->round_valve ? 1.15 : 1.0) + 0.35);
}

static void
series_rates (double t, const double *y, double *dy, gpointer user)
{
  const Series *s = user;
  double amps = series_amps (s, y[0]), valve = s->round_valve ? 1.15 : 1.0;
  double watts = amps * (s->volts - amps * (valve + 0.35));
  double loss = hob_surface_loss (s->round ? 8.3e-4 : 10.5e-4, 0.9, 15, y[0], 298.15);

  dy[0] = (watts - loss) / (s->round ? 6 : 7);
  dy[1] = (amps * amps * valve - 0.060 * (y[1] - s->compartment)) / 1.2;
}

static void
check_series (const Series *s)
{
  const double atol[] = { 1e-3, 1e-3 };
  double y[2] = { 298.15, s->compartment }, memory[64], opens = 0, fahrenheit = 0;
  HobOde ode = { 2, 1e-6, atol, 0.25, series_rates, (gpointer) s };
  HobOdeStep step = { .memory = memory, .h_next = 0.01 };

  for (double t = 0; t < 300; t = step.t0 + step.h)
    {
      g_assert_cmpint (hob_ode_step (&ode, t, y, step.h_next, 300, &step), ==, HOB_STEP_OK);
      hob_ode_dense (&step, 2, step.t0 + step.h, y);
      if (opens == 0 && y[1] > (s->round_valve ? 110 : 150))
        {
          opens = step.t0 + step.h;
          fahrenheit = y[0] * 1.8 - 459.67;
        }
    }
  g_assert_cmpfloat_with_epsilon (series_amps (s, y[0]), s->amps, 0.0075);
  g_assert_cmpfloat_with_epsilon (opens, s->opens, 1.5);
  if (s->fahrenheit > 0)
    g_assert_cmpfloat_with_epsilon (fahrenheit, s->fahrenheit, 20);
}

static void
the_current_and_not_the_glow_decides_whether_the_valve_opens (void)
{
  static const Series flat[] = {
    { 1.00, 120, 0, FALSE, FALSE, 3.43, 43, 2360 }, { 1.00, 108, 0, FALSE, FALSE, 3.08, 78, 2305 },
    { 1.08, 120, 0, FALSE, FALSE, 3.18, 60, 0 },    { 1.08, 110, 0, FALSE, FALSE, 2.91, 0, 0 },
    { 1.10, 120, 0, FALSE, FALSE, 3.13, 67, 0 },    { 1.10, 110, 0, FALSE, FALSE, 2.86, 0, 0 },
    { 1.20, 120, 0, FALSE, FALSE, 2.87, 0, 0 },     { 1.20, 120, 25, FALSE, FALSE, 2.87, 65, 0 },
  };

  for (guint k = 0; k < G_N_ELEMENTS (flat); k++)
    check_series (&flat[k]);
}

static void
an_igniter_and_a_valve_of_different_kinds_do_not_go_together (void)
{
  static const Series kinds[] = {
    { 1, 120, 0, TRUE, TRUE, 2.73, 50, 0 },
    { 1, 120, 0, TRUE, FALSE, 2.74, 0, 0 },
    { 1, 120, 0, FALSE, TRUE, 3.42, 27, 1810 }, /* too early: the igniter is not hot yet */
  };

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    check_series (&kinds[k]);
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
  CASE ("an-igniter-falls-from-cold-to-hot-ohms", an_igniter_falls_from_cold_to_hot_ohms);
  CASE ("nothing-is-lost-at-the-temperature-of-the-room",
        nothing_is_lost_at_the_temperature_of_the_room);
  CASE ("the-current-and-not-the-glow-decides-whether-the-valve-opens",
        the_current_and_not_the_glow_decides_whether_the_valve_opens);
  CASE ("an-igniter-and-a-valve-of-different-kinds-do-not-go-together",
        an_igniter_and_a_valve_of_different_kinds_do_not_go_together);
  CASE ("glow-brightens-without-a-jump", glow_brightens_without_a_jump);
  CASE ("cold-things-do-not-glow", cold_things_do_not_glow);
  CASE ("more-current-trips-a-breaker-sooner", more_current_trips_a_breaker_sooner);
  CASE ("more-leakage-trips-an-interrupter-sooner", more_leakage_trips_an_interrupter_sooner);
  CASE ("water-boils-at-one-atmosphere", water_boils_at_one_atmosphere);
#undef CASE
  return g_test_run ();
}
