/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "base/units.h"
#include "physics/material.h"

#define NBS "NBS Handbook 100"

static const double thousand_feet = 304.8; /* m */

static void
gauges_have_the_published_resistance (void)
{
  static const struct
  {
    int gauge;
    double ohms;
  } table[] = { { 12, 1.588 }, { 14, 2.525 }, { 18, 6.385 } };

  for (guint k = 0; k < G_N_ELEMENTS (table); k++)
    check_near (
        NBS ", Ω/1000 ft at 20 °C",
        hob_wire_resistance (hob_awg_diameter (table[k].gauge), thousand_feet, celsius (20)),
        table[k].ohms, 0.0002 * table[k].ohms + 0.0005); /* ±0.02 % and half of the last digit */
}

static void
diameters_follow_the_gauge_formula (void)
{
  for (int gauge = 0; gauge <= 40; gauge++)
    check_near (NBS ", in", hob_awg_diameter (gauge) / 0.0254,
                0.005 * pow (92, (36 - gauge) / 39.0), 1e-9);
}

/* 1/58 Ω·mm²/m at 20 °C; 0.00393 /K. */
static void
copper_has_the_standard_resistivity (void)
{
  double diameter = sqrt (4 / G_PI) * 1e-3; /* 1 mm² */

  check_near (NBS ", Ω·mm²/m", hob_wire_resistance (diameter, 1, celsius (20)), 1 / 58.0, 1e-12);
  check_near (NBS ", per K", hob_wire_resistance (diameter, 1, celsius (120)) * 58,
              1 + 100 * 0.00393, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/conductors/gauges-have-the-published-resistance",
                   gauges_have_the_published_resistance);
  g_test_add_func ("/outside/conductors/diameters-follow-the-gauge-formula",
                   diameters_follow_the_gauge_formula);
  g_test_add_func ("/outside/conductors/copper-has-the-standard-resistivity",
                   copper_has_the_standard_resistivity);
  return g_test_run ();
}
