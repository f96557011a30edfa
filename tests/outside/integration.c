/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/integrate.h"

#define ROBERTSON "IVP Test Set, Robertson problem, by Radau at 1e-11"

static void
robertson (double t, const double *y, double *dy, gpointer user)
{
  double slow = -0.04 * y[0] + 1e4 * y[1] * y[2], fast = 3e7 * y[1] * y[1];

  dy[0] = slow;
  dy[1] = -slow - fast;
  dy[2] = fast;
}

/* Steps from *t to the end exactly. */
static void
run (const HobOde *ode, double *t, double end, double *y, HobOdeStep *step)
{
  double h = 1e-4;

  step->same_rates = TRUE;
  while (*t < end)
    {
      g_assert_cmpint (hob_ode_step (ode, *t, y, h, end, step), ==, HOB_STEP_OK);
      *t = step->t0 + step->h;
      hob_ode_dense (step, ode->n, *t, y);
      h = step->h_next;
    }
}

/* Stiff: the fastest rate passes 3,000 /s, so stability and not accuracy sets the step, and the
 * explicit method must creep.  It must get there all the same, to every published digit. */
static void
the_robertson_problem_comes_out_to_nine_digits (void)
{
  static const double published[2][4] = {
    { 0.4, 9.851721139e-1, 3.386395379e-5, 1.479402219e-2 },
    { 40, 7.158270687e-1, 9.185534765e-6, 2.841637457e-1 },
  };
  const double atol[] = { 1e-13, 1e-16, 1e-13 };
  double y[3] = { 1, 0, 0 }, t = 0, memory[80];
  HobOde ode = { 3, 1e-11, atol, 1, robertson, NULL };
  HobOdeStep step = { .memory = memory };

  g_assert_cmpuint (hob_ode_memory_size (3), <=, G_N_ELEMENTS (memory));
  for (guint row = 0; row < 2; row++)
    {
      run (&ode, &t, published[row][0], y, &step);
      for (guint k = 0; k < 3; k++)
        check_near (DERIVED, ROBERTSON, y[k], published[row][k + 1], 1e-9 * published[row][k + 1]);
    }
  g_test_message ("%u evaluations, %u steps refused", step.evaluations, step.rejected);
}

static void
fall (double t, const double *y, double *dy, gpointer user)
{
  dy[0] = y[1];
  dy[1] = -9.81;
}

static double
below_ground (double t, gpointer user)
{
  double y[2];

  hob_ode_dense (user, 2, t, y);
  return -y[0];
}

/* Falls from y at t until the ground, and comes back up with 0.8 of its speed; → the moment. */
static double
next_impact (double t, double *y)
{
  const double atol[] = { 1e-9, 1e-9 };
  double memory[80];
  HobOde ode = { 2, 1e-9, atol, 0.5, fall, NULL };
  HobOdeStep step = { .memory = memory };

  for (double h = 1e-3;; h = step.h_next)
    {
      g_assert_cmpint (hob_ode_step (&ode, t, y, h, 100, &step), ==, HOB_STEP_OK);
      if (below_ground (step.t0 + step.h, &step) > 0)
        break;
      t = step.t0 + step.h;
      hob_ode_dense (&step, 2, t, y);
    }

  double impact = hob_locate (below_ground, &step, step.t0, step.t0 + step.h, 1e-12);
  hob_ode_dense (&step, 2, impact, y);
  y[0] = 0;
  y[1] *= -0.8;
  return impact;
}

/* h 10 m, g 9.81 m/s², restitution 0.8: t1 = √(2h/g), then 2·0.8^k·t1 each. */
static void
a_ball_bounces_at_the_derived_moments (void)
{
  double y[2] = { 10, 0 }, t = 0;
  const double published[] = { 1.427843, 3.712392, 5.540031 };

  for (guint k = 0; k < G_N_ELEMENTS (published); k++)
    {
      t = next_impact (t, y);
      check_near (DERIVED, "t1 = √(2h/g), then 2·0.8^k·t1: impact, s", t, published[k], 1e-6);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/integration/the-robertson-problem-comes-out-to-nine-digits",
                   the_robertson_problem_comes_out_to_nine_digits);
  g_test_add_func ("/outside/integration/a-ball-bounces-at-the-derived-moments",
                   a_ball_bounces_at_the_derived_moments);
  return g_test_run ();
}
