/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/material.h"

#define IEC "IEC 60751:2008"

static const struct
{
  double degrees, ohms;
} hundred_ohm_element[] = { /* IEC 60751:2008 / ASTM E1137 */
  { 0, 100.00 }, { 50, 119.40 }, { 100, 138.51 }, { 200, 175.86 }, { 300, 212.05 },
};

static void
a_hundred_ohm_element_follows_the_table (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (hundred_ohm_element); i++)
    check_near (IEC, hob_platinum_resistance (100, celsius (hundred_ohm_element[i].degrees)),
                hundred_ohm_element[i].ohms, 0.005);
}

static void
a_thousand_ohm_element_is_ten_times_it (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (hundred_ohm_element); i++)
    check_near (IEC, hob_platinum_resistance (1000, celsius (hundred_ohm_element[i].degrees)),
                10 * hundred_ohm_element[i].ohms, 0.05);
}

/* R0·(1 + A t + B t² + C (t − 100) t³), the last term below 0 °C only. */
static void
frost_adds_the_cubic_term (void)
{
  double t = -50;
  double formula = 100 * (1 + 3.9083e-3 * t - 5.775e-7 * t * t - 4.183e-12 * (t - 100) * t * t * t);

  check_near (IEC " (formula)", hob_platinum_resistance (100, celsius (t)), formula, 1e-9);
}

/* An older curve has 138.50 and 175.84; a sensor read on it would be a tenth of a degree off. */
static void
the_older_curve_is_not_the_one_in_use (void)
{
  g_assert_cmpfloat (fabs (hob_platinum_resistance (100, celsius (100)) - 138.50), >, 0.005);
  g_assert_cmpfloat (fabs (hob_platinum_resistance (100, celsius (200)) - 175.84), >, 0.01);
}

/* Class B: ±(0.30 + 0.005·|t|) °C; from memory.  The inverse must be far better than any element.
 */
static void
the_inverse_errs_far_less_than_class_b_allows (void)
{
  for (double t = -200; t <= 700; t += 12.5)
    check_near ("class B tolerance, from memory",
                hob_platinum_temperature (1000, hob_platinum_resistance (1000, celsius (t))),
                celsius (t), 1e-3 * (0.30 + 0.005 * fabs (t)));
}

static void
an_oven_sensor_reads_about_1080_to_1100_ohms_at_room_temperature (void)
{
  check_within ("common practice, no source", hob_platinum_resistance (1000, celsius (23)), 1080,
                1100);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/platinum/a-hundred-ohm-element-follows-the-table",
                   a_hundred_ohm_element_follows_the_table);
  g_test_add_func ("/outside/platinum/a-thousand-ohm-element-is-ten-times-it",
                   a_thousand_ohm_element_is_ten_times_it);
  g_test_add_func ("/outside/platinum/frost-adds-the-cubic-term", frost_adds_the_cubic_term);
  g_test_add_func ("/outside/platinum/the-older-curve-is-not-the-one-in-use",
                   the_older_curve_is_not_the_one_in_use);
  g_test_add_func ("/outside/platinum/the-inverse-errs-far-less-than-class-b-allows",
                   the_inverse_errs_far_less_than_class_b_allows);
  g_test_add_func (
      "/outside/platinum/an-oven-sensor-reads-about-1080-to-1100-ohms-at-room-temperature",
      an_oven_sensor_reads_about_1080_to_1100_ohms_at_room_temperature);
  return g_test_run ();
}
