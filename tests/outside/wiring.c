/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The wiring of whole ranges: the sensor as its control reads it in a hot oven, what a cord takes,
 * and how fast a GFCI is. */

#include "../faulty.h"
#include "check.h"

/* IEC 60751 above 0 °C: R = R₀(1 + A·t + B·t²), A 3.9083e-3, B −5.775e-7, R₀ 1000 Ω; in series are
 * the harness, 2 × 0.9 m of 20 AWG at 33.3 mΩ/m (copper of IEC 60028, 0.81 mm), and the plug. */
static void
the_control_reads_its_sensor_in_a_hot_oven (void)
{
  g_auto (Faulty) f = SHIPPED ("board-five", "2s oven.mode=bake");

  for (double t = 1200; t <= 3600; t += 600)
    {
      double degrees = at (&f, t, "sensor.temperature") - 273.15;
      double ohms = 1000 * (1 + 3.9083e-3 * degrees - 5.775e-7 * degrees * degrees);

      check_near (DERIVED, "IEC 60751: ohm at the control in a hot oven", at (&f, t, "oven.ohms"),
                  ohms + 1.8 * 33.3e-3, 0.1);
      /* 350 °F ± 25 °F: 176.7 °C ± 14 °C */
      check_within (DERIVED, "IEC 60751: ohm at 350 °F, within the control's swing",
                    at (&f, t, "oven.ohms"), 1611, 1716);
    }
}

/* V = 2·I·ρ·l/A: ρ 1/58 Ω·mm²/m at 20 °C, 0.393 % more for each K (IEC 60028); 18 AWG is
 * 0.8231 mm².  1.9 m of cord and 30 m more. */
static void
a_long_cord_takes_what_copper_takes (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "cord:thin-extension=1", "0s oven.mode=bake");
  double amps = meter (&f, 300, "amps cord.plug-line");
  double ohms = 31.9 / 58 / 0.8231 * (1 + 0.00393 * 5);
  double drop = meter (&f, 300, "volts cord.plug-line cord.lug-line")
                + meter (&f, 300, "volts cord.lug-neutral cord.plug-neutral");

  check_near (DERIVED, "IEC 60028: V in 31.9 m of cord, out and back", drop, 2 * amps * ohms,
              0.02 * 2 * amps * ohms);
}

/* UL 943: it trips within (20/I)^1.43 s, I in mA, and not below 4 mA.  A person who touches a live
 * chassis takes the current. */
static double
trips_after (double amps)
{
  g_autofree char *ohms = g_strdup_printf ("person.ohms=%.9g", 120 / amps);
  g_auto (Faulty) f = SHIPPED ("reignite-six", "receptacle:bootleg-ground", "receptacle:reversed",
                               "house:pipe-not-grounded", ohms, "10s person=chassis");

  if (at (&f, 9.9, "interrupter.tripped") > 0)
    return -INFINITY;
  for (int ms = 0; ms < 10000; ms += 5)
    if (at (&f, 10 + ms / 1000.0, "interrupter.tripped") > 0)
      return ms / 1000.0;
  return INFINITY;
}

static void
a_gfci_is_as_fast_as_its_standard_asks (void)
{
  static const double milliamps[] = { 6.5, 10, 20, 100 };

  for (guint k = 0; k < G_N_ELEMENTS (milliamps); k++)
    {
      g_autofree char *source
          = g_strdup_printf ("UL 943: s at %g mA through a person", milliamps[k]);

      check_within (PUBLISHED, source, trips_after (milliamps[k] / 1000), 0.001,
                    pow (20 / milliamps[k], 1.43) + 0.01);
    }
  g_assert_true (isinf (trips_after (3.5e-3)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/outside/wiring/" name, function)
  CASE ("the-control-reads-its-sensor-in-a-hot-oven", the_control_reads_its_sensor_in_a_hot_oven);
  CASE ("a-long-cord-takes-what-copper-takes", a_long_cord_takes_what_copper_takes);
  CASE ("a-gfci-is-as-fast-as-its-standard-asks", a_gfci_is_as_fast_as_its_standard_asks);
  return g_test_run ();
}
