/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/spark.h"

static double
sphere_kv (double mm)
{
  return hob_breakdown_sphere (mm * 1e-3) / 1e3;
}

/* Sphere gaps that the line in spark.c was not fitted to, crest kV at 20 °C and 101.3 kPa. The
 * band is wide, because they are from memory. */
static void
small_spheres_are_near_the_remembered_values (void)
{
  check_near (FROM_MEMORY, "2 cm spheres, 2 mm", sphere_kv (2), 8.0, 0.10 * 8.0);
  check_near (FROM_MEMORY, "2 cm spheres, 3 mm", sphere_kv (3), 11.2, 0.10 * 11.2);
  check_near (FROM_MEMORY, "2 cm spheres, 4 mm", sphere_kv (4), 14.4, 0.10 * 14.4);
}

/* V[kV] = 24.22 d + 6.08 √d, d in cm, is 2 to 12% below measured values. */
static void
the_uniform_field_line_lies_just_below (void)
{
  for (double mm = 1; mm <= 10; mm += 0.5)
    {
      double d = mm / 10, line = 24.22 * d + 6.08 * sqrt (d);

      check_within (FROM_MEMORY, "uniform-field line, share of measured values",
                    line / sphere_kv (mm), 0.88, 0.98);
    }
}

/* Paschen with A 15, B 365 /(cm·Torr) and γ 0.01 is 11 to 16% too high at 3 to 5 mm. Sphere gaps
 * are good to ±3% (IEC 60052). */
static void
the_textbook_paschen_curve_lies_above (void)
{
  for (double mm = 3; mm <= 5; mm += 0.5)
    {
      double pd = 760 * mm / 10;
      double paschen = 365 * pd / (log (15 * pd) - log (log (1 + 1 / 0.01))) / 1e3;

      check_within (DERIVED, "Paschen with textbook constants, multiple of measured values",
                    paschen / sphere_kv (mm), 1.08, 1.18);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/breakdown/small-spheres-are-near-the-remembered-values",
                   small_spheres_are_near_the_remembered_values);
  g_test_add_func ("/outside/breakdown/the-uniform-field-line-lies-just-below",
                   the_uniform_field_line_lies_just_below);
  g_test_add_func ("/outside/breakdown/the-textbook-paschen-curve-lies-above",
                   the_textbook_paschen_curve_lies_above);
  return g_test_run ();
}
