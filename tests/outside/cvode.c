/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Whole runs against SUNDIALS CVODE, the library of Lawrence Livermore National Laboratory: an
 * hour of bake from cold by the engine as it ships, by the engine at a tighter tolerance, and by
 * CVODE's BDF at a relative tolerance of 1e-9, from the same right-hand sides and guards. */

#include "bake.h"
#include "check.h"

#define CVODE "SUNDIALS CVODE (BDF, 1e-9), the same equations: "

#define SECONDS 0.1 /* of any change … */
#define KELVIN 0.1 /* …in which the air moves about that much when the burner lights or goes out \
                    */

static void
check_apart (HobRange *range, const char *what, const Bake *ours, const Bake *theirs, double share)
{
  double kelvin, seconds, where;

  bake_compare (range, ours, theirs, &kelvin, &seconds, &where);
  g_test_message ("%s: %u changes; furthest apart at %.0f s; here %u steps, %u evaluations; "
                  "CVODE %u steps, %u evaluations",
                  what, theirs->events->len, where, ours->steps, ours->evaluations, theirs->steps,
                  theirs->evaluations);
  check_near (DERIVED, CVODE "temperatures of the cavity apart, K", kelvin, 0, share * KELVIN);
  check_near (DERIVED, CVODE "changes apart, s", seconds, 0, share * SECONDS);
}

static void
an_hour_of_bake_is_what_cvode_makes_of_it (gconstpointer name)
{
  g_autoptr (HobRange) range = bake_load (name);
  g_autoptr (Bake) theirs = bake_range (range, BAKE_CVODE_BDF, 3600, 5, 1e-9);
  g_autoptr (Bake) shipped = bake_range (range, BAKE_ENGINE, 3600, 5, HOB_RUN_TOLERANCE);
  g_autoptr (Bake) finer = bake_range (range, BAKE_ENGINE, 3600, 5, HOB_RUN_TOLERANCE / 10);

  g_assert_cmpuint (theirs->missed, ==, 0);
  g_assert_cmpuint (theirs->events->len, >, 20);
  check_apart (range, name, shipped, theirs, 1);
  check_apart (range, "at a tenth of the tolerance", finer, theirs, 0.25);
}

int
main (int argc, char **argv)
{
  static const char *const names[]
      = { "dial-four", "board-five", "round-dial", "convection-fan", "lp-four" };

  g_test_init (&argc, &argv, NULL);
  for (guint k = 0; k < G_N_ELEMENTS (names); k++)
    {
      g_autofree char *path = g_strdup_printf (
          "/outside/cvode/%s/an-hour-of-bake-is-what-cvode-makes-of-it", names[k]);
      g_test_add_data_func (path, names[k], an_hour_of_bake_is_what_cvode_makes_of_it);
    }
  return g_test_run ();
}
