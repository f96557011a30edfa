/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The oven sensor: a platinum element of 1,000 Ω at 0 °C. */

#include "appliance.h"
#include "check.h"
#include "physics/material.h"

static const struct
{
  double degrees, ohms;
} hundred_ohm_element[] = {
  { 0, 100.00 }, { 50, 119.40 }, { 100, 138.51 }, { 200, 175.86 }, { 300, 212.05 },
};

/* An older curve has 138.50 and 175.84 at 100 and 200 °C. */
static void
a_hundred_ohm_element_follows_the_table (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (hundred_ohm_element); i++)
    check_near (PUBLISHED, "IEC 60751:2008, ASTM E1137, Ω",
                hob_platinum_resistance (100, celsius (hundred_ohm_element[i].degrees)),
                hundred_ohm_element[i].ohms, 0.005);
}

/* What an ohmmeter reads at the oven sensor of an unplugged range, the kitchen being at
 * @degrees. */
static double
ohms_of_sensor (double degrees)
{
  g_autoptr (HobRange) range = range_by_name ("board-five");
  g_autoptr (GError) error = NULL;
  g_autoptr (HobTest) test = hob_test_parse (range, "ohms sensor.a sensor.b", &error);
  g_autofree char *kitchen = g_strdup_printf ("house.temperature=%d degC", (int)degrees);
  g_autoptr (HobRun) run = run_of (range, WORDS (kitchen, "0s cord.plug=out"), 5);
  HobReading reading;

  g_assert_no_error (error);
  reading = hob_reading_take (run, test, 5);
  g_assert_true (reading.answered);
  return reading.value;
}

/* Ten times the table, and half an ohm for its plug and leads. */
static void
a_meter_at_the_oven_sensor_reads_the_table (void)
{
  check_near (PUBLISHED, "IEC 60751:2008, 0 °C, Ω", ohms_of_sensor (0), 1000.0, 0.5);
  check_near (PUBLISHED, "IEC 60751:2008, 50 °C, Ω", ohms_of_sensor (50), 1194.0, 0.5);
  check_within (COMMON_PRACTICE, "oven sensor at room temperature, Ω", ohms_of_sensor (23), 1080,
                1100);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/platinum/a-hundred-ohm-element-follows-the-table",
                   a_hundred_ohm_element_follows_the_table);
  g_test_add_func ("/outside/platinum/a-meter-at-the-oven-sensor-reads-the-table",
                   a_meter_at_the_oven_sensor_reads_the_table);
  return g_test_run ();
}
