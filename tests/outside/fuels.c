/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/gas.h"

/* A cubic foot of air gives about 100 Btu with any hydrocarbon. Heating value and air demand are
 * separate constants of a fuel: an error in either shows here. What they do at a burner is in
 * orifice.c. */
static void
a_cubic_foot_of_air_burns_to_about_100_btu (void)
{
  for (int k = 0; k < HOB_N_FUELS; k++)
    {
      const HobFuel *fuel = &hob_fuels[k];
      double btu = fuel->heat * fuel->density * 0.028316847 / 1055.056; /* per ft³ of gas */

      check_near (FROM_MEMORY, "rule of thumb, Btu per ft³ of air", btu / fuel->air, 100, 10);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/fuels/a-cubic-foot-of-air-burns-to-about-100-btu",
                   a_cubic_foot_of_air_burns_to_about_100_btu);
  return g_test_run ();
}
