/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "appliance.h"
#include "check.h"
#include "physics/material.h"

/* J. W. Draper, Philosophical Magazine 30 (1847) 345: 977 °F. The color of a picture is black
 * below it and red from there. */
static void
the_first_red_is_seen_at_draper_s_point (void)
{
  const double draper = (977 - 32) / 1.8 + 273.15;
  double rgb[3], first = 0;

  for (double kelvin = 600; first == 0; kelvin += 0.1)
    if (hob_glow_colour (kelvin, rgb))
      first = kelvin;
  check_near (PUBLISHED, "Draper 1847, K", first, draper, 0.5);
  g_assert_cmpfloat (rgb[0], >, rgb[1]);
  g_assert_cmpfloat (rgb[0], >, rgb[2]);
}

/* A hot igniter has settled when it loses what it takes:  volts·amps = A·(ε·σ·(T⁴ − Ta⁴) + h·(T −
 * Ta)), with σ of CODATA 2018. Surface, emissivity and h are this project's (parts/igniter.c). */
static void
a_settled_igniter_radiates_what_it_takes (void)
{
  const double sigma = 5.670374419e-8, area = 10.5e-4, emissivity = 0.9, h = 15, t = 600;
  g_autoptr (HobRange) range = range_by_name ("dial-four");
  g_autoptr (HobRun) run
      = run_of (range, WORDS ("lever:left-shut", "0s oven.mode=bake"), t);
  double kelvin = quantity (run, "igniter-bake.temperature", t);
  double air = quantity (run, "cavity.air", t);
  double lost = area * (emissivity * sigma * (pow (kelvin, 4) - pow (air, 4)) + h * (kelvin - air));

  check_near (DERIVED, "Stefan and Boltzmann, CODATA 2018: W",
              quantity (run, "igniter-bake.volts", t) * quantity (run, "igniter-bake.current", t),
              lost, 0.01 * lost);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/glow/the-first-red-is-seen-at-draper-s-point",
                   the_first_red_is_seen_at_draper_s_point);
  g_test_add_func ("/outside/glow/a-settled-igniter-radiates-what-it-takes",
                   a_settled_igniter_radiates_what_it_takes);
  return g_test_run ();
}
