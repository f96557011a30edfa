/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/material.h"

#define TIMOSHENKO "Timoshenko, J. Opt. Soc. Am. 11 (1925) 233"

static void
equal_layers_of_equal_stiffness_bend_by_the_short_formula (void)
{
  double curvature = hob_bimetal_curvature (0.05, 0.05, 200e9, 200e9, 0, 1e-5, 100);

  check_near (TIMOSHENKO ": κ = 1.5·Δα·ΔT/h", curvature, 1.5 * 1e-5 * 100 / 0.1, 1e-12);
  check_near (TIMOSHENKO ", derived: /m", curvature, 0.0150, 1e-9);
  check_near (TIMOSHENKO ", derived: tip, m", hob_bimetal_tip (curvature, 10), 0.75, 1e-9);
}

static void
steel_on_aluminium_bends_as_derived (void)
{
  check_near (TIMOSHENKO ", derived: /m",
              hob_bimetal_curvature (0.5, 0.5, 200e9, 70e9, 12e-6, 23e-6, 200), 3.0685e-3, 5e-8);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/bimetal/equal-layers-of-equal-stiffness-bend-by-the-short-formula",
                   equal_layers_of_equal_stiffness_bend_by_the_short_formula);
  g_test_add_func ("/outside/bimetal/steel-on-aluminium-bends-as-derived",
                   steel_on_aluminium_bends_as_derived);
  return g_test_run ();
}
