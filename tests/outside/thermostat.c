/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/integrate.h"

/* One body that follows its surroundings with τ 600 s: 25 °C off, 400 °C on; contact between 165
 * and 190 °C. By t_on = τ·ln((Th − lo)/(Th − hi)) and t_off = τ·ln((hi − Ta)/(lo − Ta)) it
 * is on for 67.487 s and off for 98.582 s, at 177.392 °C in the mean. */
static const double tau = 600, ambient = 25, hot = 400, low = 165, high = 190;

/* The body's temperature over time, and the integral of it for the mean. */
static void
follow (double t, const double *y, double *dy, gpointer user)
{
  const double *towards = user;

  dy[0] = (*towards - y[0]) / tau;
  dy[1] = y[0];
}

typedef struct
{
  const HobOdeStep *step;
  double sign, level;
} Guard;

static double
past_level (double t, gpointer user)
{
  const Guard *guard = user;
  double y[2];

  hob_ode_dense (guard->step, 2, t, y);
  return guard->sign * (y[0] - guard->level);
}

/* Runs to the level and returns when it was met; y is moved there. */
static double
run_to (double towards, double level, double t, double *y)
{
  const double atol[] = { 1e-9, 1e-6 };
  double memory[80];
  HobOde ode = { 2, 1e-10, atol, 60, follow, &towards };
  HobOdeStep step = { .memory = memory };
  Guard guard = { &step, towards > level ? 1 : -1, level };
  double h = 1;

  g_assert_cmpuint (hob_ode_memory_size (2), <=, G_N_ELEMENTS (memory));
  for (;;)
    {
      g_assert_cmpint (hob_ode_step (&ode, t, y, h, t + 1e4, &step), ==, HOB_STEP_OK);
      if (past_level (t + step.h, &guard) > 0)
        break;
      hob_ode_dense (&step, 2, t + step.h, y);
      t += step.h;
      h = step.h_next;
    }

  double found
      = past_level (t, &guard) > 0 ? t : hob_locate (past_level, &guard, t, t + step.h, 1e-9);
  hob_ode_dense (&step, 2, found, y);
  return found;
}

static void
the_integrator_finds_the_exact_cycle (void)
{
  double y[2] = { low, 0 };
  double on = run_to (hot, high, 0, y);
  double off = run_to (ambient, low, on, y);

  check_near (DERIVED, "exact solution: s on", on, 67.487, 0.0005);
  check_near (DERIVED, "exact solution: s off", off - on, 98.582, 0.0005);
  check_near (DERIVED, "exact solution: mean °C", y[1] / off, 177.392, 0.0005);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/thermostat/the-integrator-finds-the-exact-cycle",
                   the_integrator_finds_the_exact_cycle);
  return g_test_run ();
}
