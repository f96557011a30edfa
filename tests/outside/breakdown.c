/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/spark.h"

static double
sphere_kv (double mm)
{
  return hob_breakdown_sphere (mm * 1e-3) / 1e3;
}

/* Peak kV at 20 °C and 101.3 kPa, ±3 %. */
static void
spheres_break_down_as_published (void)
{
  check_near ("Peek: 1 mm", sphere_kv (1), 4.95, 0.03 * 4.95);
  check_within ("IEC 60052 / IEEE 4: 5 mm", sphere_kv (5), 16.8 * 0.97, 17.4 * 1.03);
  check_within ("IEC 60052 / IEEE 4: 10 mm", sphere_kv (10), 31.2 * 0.97, 32.0 * 1.03);
}

/* A wide band, since these are from memory. */
static void
small_spheres_are_near_the_remembered_values (void)
{
  check_near ("2 cm spheres, from memory: 2 mm", sphere_kv (2), 8.0, 0.10 * 8.0);
  check_near ("2 cm spheres, from memory: 3 mm", sphere_kv (3), 11.2, 0.10 * 11.2);
  check_near ("2 cm spheres, from memory: 4 mm", sphere_kv (4), 14.4, 0.10 * 14.4);
}

/* V[kV] = 24.22 d + 6.08 √d, d in cm (from memory), is 2–12 % below measured values. */
static void
the_uniform_field_line_lies_just_below (void)
{
  for (double mm = 1; mm <= 10; mm += 0.5)
    {
      double d = mm / 10, line = 24.22 * d + 6.08 * sqrt (d);

      check_within ("uniform-field line, from memory", sphere_kv (mm) / line, 1 / 0.98 - 0.02,
                    1 / 0.88 + 0.02);
    }
}

/* Paschen with A 15, B 365 /(cm·Torr) and γ 0.01 is 11–16 % too high at 3–5 mm. */
static void
the_textbook_paschen_curve_lies_above (void)
{
  for (double mm = 3; mm <= 5; mm += 0.5)
    {
      double pd = 760 * mm / 10;
      double paschen = 365 * pd / (log (15 * pd) - log (log (1 + 1 / 0.01))) / 1e3;

      check_within ("Paschen constants", paschen / sphere_kv (mm), 1.08, 1.18);
    }
}

static void
points_break_down_below_spheres (void)
{
  for (double mm = 0.5; mm <= 12; mm += 0.5)
    g_assert_cmpfloat (hob_breakdown_point (mm * 1e-3, 0), <, hob_breakdown_sphere (mm * 1e-3));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/breakdown/spheres-break-down-as-published",
                   spheres_break_down_as_published);
  g_test_add_func ("/outside/breakdown/small-spheres-are-near-the-remembered-values",
                   small_spheres_are_near_the_remembered_values);
  g_test_add_func ("/outside/breakdown/the-uniform-field-line-lies-just-below",
                   the_uniform_field_line_lies_just_below);
  g_test_add_func ("/outside/breakdown/the-textbook-paschen-curve-lies-above",
                   the_textbook_paschen_curve_lies_above);
  g_test_add_func ("/outside/breakdown/points-break-down-below-spheres",
                   points_break_down_below_spheres);
  return g_test_run ();
}
