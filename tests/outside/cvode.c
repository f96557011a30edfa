/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Whole runs against SUNDIALS CVODE 6.4, the library of Lawrence Livermore National Laboratory: an hour of bake from
 * cold by the engine as it ships and by CVODE's BDF at a relative tolerance of 1e-8, from the same right-hand sides and
 * guards. */

#include "bake.h"
#include "check.h"

#define CVODE "SUNDIALS CVODE (BDF, 1e-8), the same equations: "

/* What a step may err, of the cavity's temperatures: 0.05 K and 1e-4 of them, some 500 K. */
#define TOLERANCE 0.1 /* K */

static void
an_hour_of_bake_is_what_cvode_makes_of_it (gconstpointer name)
{
  g_autoptr (HobRange) range = bake_load (name);
  g_autoptr (Bake) ours = bake_range (range, BAKE_ENGINE, 3600, 5, 1e-4);
  g_autoptr (Bake) theirs = bake_range (range, BAKE_CVODE_BDF, 3600, 5, 1e-8);
  double kelvin, seconds, where;

  bake_compare (range, ours, theirs, &kelvin, &seconds, &where);
  g_test_message ("%s: %u changes; furthest apart at %.0f s; here %u steps, %u evaluations; CVODE %u steps, %u evaluations",
                  (const char *) name, theirs->events->len, where, ours->steps, ours->evaluations, theirs->steps,
                  theirs->evaluations);
  g_assert_cmpuint (theirs->missed, ==, 0);
  g_assert_cmpuint (theirs->events->len, >, 20);
  check_near (CVODE "temperatures of the cavity apart, K", kelvin, 0, TOLERANCE);
  check_near (CVODE "changes apart, s", seconds, 0, 0.1);
}

int
main (int argc, char **argv)
{
  static const char *const names[] = { "dial-four", "board-five", "round-dial", "convection-fan", "lp-four" };

  g_test_init (&argc, &argv, NULL);
  for (guint k = 0; k < G_N_ELEMENTS (names); k++)
    {
      g_autofree char *path = g_strdup_printf ("/outside/cvode/%s/an-hour-of-bake-is-what-cvode-makes-of-it", names[k]);
      g_test_add_data_func (path, names[k], an_hour_of_bake_is_what_cvode_makes_of_it);
    }
  return g_test_run ();
}
