/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/integrate.h"

#include <math.h>
#include <string.h>

enum { MOST = 8 };

static double tolerances[MOST] = { 1e-9, 1e-9, 1e-9, 1e-9, 1e-9, 1e-9, 1e-9, 1e-9 };

/* A swing of 1 rad/s: (cos t, −sin t). */
static void
swing (double t, const double *y, double *dy, gpointer user)
{
  dy[0] = y[1];
  dy[1] = -y[0];
}

/* The same beside six states that never move. */
static void
swing_among_idlers (double t, const double *y, double *dy, gpointer user)
{
  memset (dy, 0, MOST * sizeof (double));
  swing (t, y, dy, user);
}

static void
decay (double t, const double *y, double *dy, gpointer user)
{
  dy[0] = -y[0] * *(double *)user;
}

static HobOde
ode (HobRates rates, int n, double rtol, gpointer user)
{
  return (HobOde){
    .n = n, .rtol = rtol, .atol = tolerances, .h_max = 10, .rates = rates, .user = user
  };
}

#define STEP_ON_STACK(name)                                                                        \
  double name##_memory[16 * MOST];                                                                 \
  HobOdeStep name = { .memory = name##_memory }

static void
read_end (const HobOdeStep *step, double *y)
{
  hob_ode_dense (step, step->n, step->t0 + step->h, y);
}

/* Steps until `end`; → number of steps. */
static guint
run (const HobOde *o, double *y, double end, HobOdeStep *step)
{
  double t = 0, h = 0.01;
  guint steps = 0;

  g_assert_cmpuint (hob_ode_memory_size (o->n), <=, 16 * MOST);
  while (t < end)
    {
      g_assert_cmpint (hob_ode_step (o, t, y, h, end, step), ==, HOB_STEP_OK);
      t = step->t0 + step->h;
      read_end (step, y);
      h = step->h_next;
      steps++;
    }
  g_assert_cmpfloat (t, ==, end); /* to the bit */
  return steps;
}

static void
the_error_falls_with_the_fifth_power_of_the_step (void)
{
  double error[2];

  for (int k = 0; k < 2; k++)
    {
      STEP_ON_STACK (step);
      HobOde o = ode (swing, 2, 1, NULL); /* so wide that each step is accepted as asked */
      double y[2] = { 1, 0 }, h = k == 0 ? 0.1 : 0.05;
      int n = k == 0 ? 20 : 40;

      for (int j = 0; j < n; j++)
        {
          g_assert_cmpint (hob_ode_step (&o, j * h, y, h, 100, &step), ==, HOB_STEP_OK);
          g_assert_cmpfloat (step.h, ==, h);
          read_end (&step, y);
        }
      error[k] = hypot (y[0] - cos (2), y[1] + sin (2));
    }
  g_assert_cmpfloat (log2 (error[0] / error[1]), >, 4.7);
  g_assert_cmpfloat (log2 (error[0] / error[1]), <, 5.5);
}

static void
a_tighter_tolerance_costs_more_and_errs_less (void)
{
  double error_before = INFINITY;
  guint steps_before = 0;

  for (double rtol = 1e-4; rtol >= 1e-9; rtol /= 10)
    {
      STEP_ON_STACK (step);
      HobOde o = ode (swing, 2, rtol, NULL);
      double y[2] = { 1, 0 };
      guint steps = run (&o, y, 20, &step);
      double error = hypot (y[0] - cos (20), y[1] + sin (20));

      g_assert_cmpfloat (error, <, 60 * rtol + 1e-7);
      g_assert_cmpfloat (error, <, error_before);
      g_assert_cmpuint (steps, >, steps_before);
      error_before = error;
      steps_before = steps;
    }
}

static void
states_that_never_move_loosen_nothing (void)
{
  STEP_ON_STACK (alone);
  STEP_ON_STACK (among);
  HobOde o = ode (swing, 2, 1e-6, NULL), with = ode (swing_among_idlers, MOST, 1e-6, NULL);
  double y[2] = { 1, 0 }, wide[MOST] = { 1, 0, 5, 5, 5, 5, 5, 5 };

  g_assert_cmpuint (run (&o, y, 20, &alone), ==, run (&with, wide, 20, &among));
  g_assert_cmpmem (y, sizeof y, wide, sizeof y);
}

static void
between_the_ends_the_dense_output_is_as_good (void)
{
  STEP_ON_STACK (step);
  HobOde o = ode (swing, 2, 1e-8, NULL);
  double y[2] = { 1, 0 }, t = 0, h = 0.1, worst = 0;

  while (t < 10)
    {
      g_assert_cmpint (hob_ode_step (&o, t, y, h, 10, &step), ==, HOB_STEP_OK);
      for (double u = 0; u <= 1; u += 0.05)
        {
          double at = t + u * step.h, z[2];

          hob_ode_dense (&step, 2, at, z);
          worst = MAX (worst, hypot (z[0] - cos (at), z[1] + sin (at)));
        }
      t = step.t0 + step.h;
      read_end (&step, y);
      h = step.h_next;
    }
  g_test_message ("worst error between the ends %.3g", worst);
  g_assert_cmpfloat (worst, <, 3e-6);
}

/* Slope of the dense output by its own differences against what the defect says of it. */
static void
the_defect_is_the_gap_between_slope_and_rates (void)
{
  STEP_ON_STACK (step);
  const double atol[] = { 1e-3, 1e-3 }, still[] = { 0, 0 };
  HobOde o = ode (swing, 2, 0, NULL);
  double y[2] = { 0.3, 0.7 }, before[2], after[2], dy[2];

  o.atol = atol;
  g_assert_cmpint (hob_ode_step (&o, 1, y, 0.2, 100, &step), ==, HOB_STEP_OK);
  for (double at = 1 + 0.1 * step.h; at < 1 + step.h; at += 0.2 * step.h)
    {
      hob_ode_dense (&step, 2, at - 1e-5, before);
      hob_ode_dense (&step, 2, at + 1e-5, after);
      double slope[] = { (after[0] - before[0]) / 2e-5, (after[1] - before[1]) / 2e-5 };
      double most = MAX (fabs (slope[0]), fabs (slope[1])) * (at - 1) / 1e-3;

      g_assert_cmpfloat_with_epsilon (hob_ode_defect (&o, &step, at, still), most, 1e-5 * most);
      hob_ode_dense (&step, 2, at, y);
      swing (at, y, dy, NULL);
      g_assert_cmpfloat (hob_ode_defect (&o, &step, at, dy), <, 0.01);
    }
}

/* Rises until 0.93 and then stands. */
static void
rise_and_stand (double t, const double *y, double *dy, gpointer user)
{
  *dy = t < 0.93 ? 1 : 0;
}

static void
the_defect_tells_of_a_kink_that_the_error_does_not_see (void)
{
  STEP_ON_STACK (step);
  const double atol[] = { 0.1 }, stands[] = { 0 }, rises[] = { 1 };
  HobOde o = ode (rise_and_stand, 1, 0, NULL);
  double y[1] = { 0 };

  o.atol = atol;
  g_assert_cmpint (hob_ode_step (&o, 0, y, 1, 100, &step), ==, HOB_STEP_OK);
  g_assert_cmpfloat (step.h, ==, 1);
  g_assert_cmpfloat (hob_ode_defect (&o, &step, 0.95, stands), >, 1);
  g_assert_cmpfloat (hob_ode_defect (&o, &step, 0.05, rises), <, 0.1);
}

static void
at_its_ends_the_dense_output_has_the_bits_of_the_states (void)
{
  STEP_ON_STACK (step);
  HobOde o = ode (swing, 2, 1e-6, NULL);
  double y[2] = { 0.3, 0.7 }, z[2], end[2];

  g_assert_cmpint (hob_ode_step (&o, 1.7, y, 0.37, 100, &step), ==, HOB_STEP_OK);
  hob_ode_dense (&step, 2, step.t0 + step.h, z);
  memcpy (end, z, sizeof end);
  g_assert_cmpint (hob_ode_step (&o, step.t0 + step.h, z, 0.1, 100, &step), ==, HOB_STEP_OK);
  hob_ode_dense (&step, 2, step.t0, z); /* the next step begins with the same bits */
  g_assert_cmpmem (z, sizeof z, end, sizeof end);
  g_assert_cmpint (hob_ode_step (&o, 1.7, y, 0.37, 100, &step), ==, HOB_STEP_OK);
  hob_ode_dense (&step, 2, step.t0, z);
  g_assert_cmpmem (z, sizeof z, y, sizeof z);
}

static void
a_step_never_passes_its_limit_and_meets_it_exactly (void)
{
  STEP_ON_STACK (step);
  HobOde o = ode (swing, 2, 1e-3, NULL);
  double y[2] = { 1, 0 };
  g_autoptr (GRand) dice = g_rand_new_with_seed (2);

  for (int k = 0; k < 10000; k++)
    {
      double t = g_rand_double_range (dice, 0, 30000),
             limit = t + pow (10, g_rand_double_range (dice, -6, -1));

      g_assert_cmpint (hob_ode_step (&o, t, y, 1, limit, &step), ==, HOB_STEP_OK);
      g_assert_cmpfloat (step.t0 + step.h, ==, limit);
      g_assert_cmpint (hob_ode_step (&o, t, y, 1, t, &step), ==, HOB_STEP_TOO_SMALL);
    }
}

static void
a_cut_by_the_limit_does_not_shorten_what_follows (void)
{
  STEP_ON_STACK (step);
  HobOde o = ode (swing, 2, 1e-6, NULL);
  double y[2] = { 1, 0 };

  g_assert_cmpint (hob_ode_step (&o, 0, y, 0.2, 1e-6, &step), ==, HOB_STEP_OK);
  g_assert_cmpfloat (step.h_next, >=, 0.2);
}

static void
nothing_is_longer_than_the_longest_step (void)
{
  STEP_ON_STACK (step);
  double slow = 1e-9;
  HobOde o = ode (decay, 1, 1e-6, &slow);
  double y[1] = { 1 };

  g_assert_cmpint (hob_ode_step (&o, 0, y, 1000, 1e6, &step), ==, HOB_STEP_OK);
  g_assert_cmpfloat (step.h, ==, 10);
  g_assert_cmpfloat (step.h_next, ==, 10);
}

static void
a_vouched_for_start_saves_one_evaluation_and_changes_no_bit (void)
{
  STEP_ON_STACK (plain);
  STEP_ON_STACK (vouched);
  HobOde o = ode (swing, 2, 1e-6, NULL);
  double y[2] = { 1, 0 }, z[2] = { 1, 0 };
  guint steps = run (&o, y, 10, &plain);

  /* A first step has nothing before it; not vouched for, each is like a first. */
  vouched.same_rates = TRUE;
  run (&o, z, 10, &vouched);
  g_assert_cmpuint (plain.evaluations - vouched.evaluations, >, steps / 2);
  g_assert_cmpfloat_with_epsilon (y[0], z[0], 1e-5);
  g_assert_cmpuint (vouched.evaluations % 6, ==, 1);
}

static void
a_step_taken_again_has_its_first_rates (void)
{
  STEP_ON_STACK (again);
  STEP_ON_STACK (alone);
  HobOde o = ode (swing, 2, 1e-6, NULL);
  double y[2] = { 1, 0 }, a[2], b[2];
  guint first;

  g_assert_cmpint (hob_ode_step (&o, 0, y, 0.02, 1, &again), ==, HOB_STEP_OK);
  first = again.evaluations;
  again.same_rates = TRUE;
  g_assert_cmpint (hob_ode_step (&o, 0, y, 0.01, 1, &again), ==, HOB_STEP_OK);
  g_assert_cmpint (hob_ode_step (&o, 0, y, 0.01, 1, &alone), ==, HOB_STEP_OK);
  read_end (&again, a);
  read_end (&alone, b);
  g_assert_cmpuint (again.evaluations - first, ==, 6);
  g_assert_cmpuint (alone.evaluations, ==, 7);
  g_assert_cmpmem (a, sizeof a, b, sizeof b);
  g_assert_cmpfloat (again.h_next, ==, alone.h_next);
}

static void
what_was_not_vouched_for_is_asked_again (void)
{
  STEP_ON_STACK (step);
  double rate = 1, y[1] = { 1 }, end;
  HobOde o = ode (decay, 1, 1e-6, &rate);

  g_assert_cmpint (hob_ode_step (&o, 0, y, 0.1, 1, &step), ==, HOB_STEP_OK);
  read_end (&step, y);
  rate = 0; /* a contact has opened */
  g_assert_cmpint (hob_ode_step (&o, step.t0 + step.h, y, 0.1, 1, &step), ==, HOB_STEP_OK);
  read_end (&step, &end);
  g_assert_cmpfloat (end, ==, y[0]);
}

static void
cliff (double t, const double *y, double *dy, gpointer user)
{
  dy[0] = t > 0.5 ? NAN : 1;
}

static void
a_rate_that_is_no_number_ends_in_too_small (void)
{
  STEP_ON_STACK (step);
  HobOde o = ode (cliff, 1, 1e-6, NULL);
  double y[1] = { 0 }, t = 0, h = 0.3;
  HobStepStatus status;

  while ((status = hob_ode_step (&o, t, y, h, 1, &step)) == HOB_STEP_OK)
    {
      t = step.t0 + step.h;
      read_end (&step, y);
      h = step.h_next;
      g_assert_cmpfloat (t, <=, 0.5);
    }
  g_assert_cmpint (status, ==, HOB_STEP_TOO_SMALL);
  g_assert_cmpfloat (t, >, 0.49);
}

/* dy/dt = y²: infinite at t = 1. */
static void
explode (double t, const double *y, double *dy, gpointer user)
{
  dy[0] = y[0] * y[0];
}

static void
what_runs_away_ends_in_too_small (void)
{
  STEP_ON_STACK (step);
  HobOde o = ode (explode, 1, 1e-6, NULL);
  double y[1] = { 1 }, t = 0, h = 0.1;

  while (hob_ode_step (&o, t, y, h, 2, &step) == HOB_STEP_OK)
    {
      t = step.t0 + step.h;
      read_end (&step, y);
      h = step.h_next;
    }
  g_assert_cmpfloat_with_epsilon (t, 1, 1e-4);
}

/* τ 1 ms for 10 s: the step settles at the edge of stability without being refused every time. */
static void
a_stiff_decay_settles_into_its_step (void)
{
  STEP_ON_STACK (step);
  double rate = 1000, y[1] = { 1 };
  HobOde o = ode (decay, 1, 1e-6, &rate);
  guint steps = run (&o, y, 10, &step);

  g_test_message ("%u steps, %u refused", steps, step.rejected);
  g_assert_cmpuint (steps, <, 6000); /* the edge is 3.3 τ: 3,030 steps */
  g_assert_cmpuint (step.rejected, <, steps / 20);
  g_assert_cmpfloat (fabs (y[0]), <, 1e-6);
}

static void
the_same_start_gives_the_same_bits (void)
{
  STEP_ON_STACK (first);
  STEP_ON_STACK (second);
  HobOde o = ode (swing, 2, 1e-6, NULL);
  double y[2] = { 1, 0 }, z[2] = { 1, 0 };

  run (&o, y, 33, &first);
  run (&o, z, 33, &second);
  g_assert_cmpmem (y, sizeof y, z, sizeof z);
}

/* Functions of time that turn positive once, and how often they were asked. */
typedef struct
{
  int shape;
  double root;
  int asked;
} Turn;

enum { LINE, CUBE, CLIFF_EDGE, HOOK, N_SHAPES };

static double
turn (double t, gpointer user)
{
  Turn *f = user;
  double x = t - f->root;

  f->asked++;
  switch (f->shape)
    {
    case LINE:
      return x;
    case CUBE:
      return x * x * x;
    case CLIFF_EDGE:
      return x > 0 ? 1e6 : -1e-6;
    default:
      return x > 0 ? sqrt (x) : x / 1e6;
    }
}

static void
a_crossing_is_found_on_its_upper_side (void)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (5);
  int most = 0;

  for (int k = 0; k < 2000; k++)
    {
      double a = g_rand_double_range (dice, 0, 1000), b = a + g_rand_double_range (dice, 1e-3, 60);
      Turn f = { k % N_SHAPES, g_rand_double_range (dice, a, b), 0 };
      double tol = 1e-6, found = hob_locate (turn, &f, a, b, tol);

      most = MAX (most, f.asked - 2 - (int)ceil (log2 ((b - a) / tol)));
      g_assert_cmpfloat (turn (found, &f), >, 0);
      g_assert_cmpfloat (found - f.root, <=, tol * (1 + 1e-9));
      g_assert_cmpfloat (found, <=, b);
    }
  g_assert_cmpint (most, <=, 2); /* bisection, one that the method spends, one for rounding */
}

static void
a_straight_crossing_takes_few_looks (void)
{
  Turn f = { LINE, 17.123456, 0 };

  hob_locate (turn, &f, 0, 60, 1e-6);
  g_assert_cmpint (f.asked, <=, 14);
}

static void
a_crossing_at_the_start_is_found_there (void)
{
  Turn f = { LINE, 3, 0 };
  double found = hob_locate (turn, &f, 3, 4, 1e-6);

  g_assert_cmpfloat (found, >, 3);
  g_assert_cmpfloat (found, <=, 3 + 1e-6);
}

static void
a_tolerance_below_the_numbers_themselves_ends_too (void)
{
  Turn f = { CUBE, 12345.678, 0 };
  double found = hob_locate (turn, &f, 12345, 12346, 0);

  g_assert_cmpfloat (found, >, f.root);
  g_assert_cmpfloat (found, <=, nextafter (nextafter (f.root, INFINITY), INFINITY));
}

/* A guard that answers ∞ gives no slope to go by. */
typedef struct
{
  double root, first, last; /* asked between these */
} Wall;

static double
wall (double t, gpointer user)
{
  Wall *f = user;

  f->first = fmin (f->first, t);
  f->last = fmax (f->last, t);
  return t > f->root ? INFINITY : -1;
}

static void
a_crossing_to_infinity_is_looked_for_between_the_ends (void)
{
  for (int k = 1; k < 60; k++)
    {
      Wall f = { k / 7.0, INFINITY, -INFINITY };
      double found = hob_locate (wall, &f, 0, 9, 1e-6);

      g_assert_cmpfloat (found, >, f.root);
      g_assert_cmpfloat (found, <=, f.root + 1e-6);
      g_assert_cmpfloat (f.first, >=, 0);
      g_assert_cmpfloat (f.last, <=, 9);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/integrate/" name, function)
  CASE ("the-error-falls-with-the-fifth-power-of-the-step",
        the_error_falls_with_the_fifth_power_of_the_step);
  CASE ("a-tighter-tolerance-costs-more-and-errs-less",
        a_tighter_tolerance_costs_more_and_errs_less);
  CASE ("states-that-never-move-loosen-nothing", states_that_never_move_loosen_nothing);
  CASE ("between-the-ends-the-dense-output-is-as-good",
        between_the_ends_the_dense_output_is_as_good);
  CASE ("the-defect-is-the-gap-between-slope-and-rates",
        the_defect_is_the_gap_between_slope_and_rates);
  CASE ("the-defect-tells-of-a-kink-that-the-error-does-not-see",
        the_defect_tells_of_a_kink_that_the_error_does_not_see);
  CASE ("at-its-ends-the-dense-output-has-the-bits-of-the-states",
        at_its_ends_the_dense_output_has_the_bits_of_the_states);
  CASE ("a-step-never-passes-its-limit-and-meets-it-exactly",
        a_step_never_passes_its_limit_and_meets_it_exactly);
  CASE ("a-cut-by-the-limit-does-not-shorten-what-follows",
        a_cut_by_the_limit_does_not_shorten_what_follows);
  CASE ("nothing-is-longer-than-the-longest-step", nothing_is_longer_than_the_longest_step);
  CASE ("a-vouched-for-start-saves-one-evaluation-and-changes-no-bit",
        a_vouched_for_start_saves_one_evaluation_and_changes_no_bit);
  CASE ("a-step-taken-again-has-its-first-rates", a_step_taken_again_has_its_first_rates);
  CASE ("what-was-not-vouched-for-is-asked-again", what_was_not_vouched_for_is_asked_again);
  CASE ("a-rate-that-is-no-number-ends-in-too-small", a_rate_that_is_no_number_ends_in_too_small);
  CASE ("what-runs-away-ends-in-too-small", what_runs_away_ends_in_too_small);
  CASE ("a-stiff-decay-settles-into-its-step", a_stiff_decay_settles_into_its_step);
  CASE ("the-same-start-gives-the-same-bits", the_same_start_gives_the_same_bits);
  CASE ("a-crossing-is-found-on-its-upper-side", a_crossing_is_found_on_its_upper_side);
  CASE ("a-straight-crossing-takes-few-looks", a_straight_crossing_takes_few_looks);
  CASE ("a-crossing-at-the-start-is-found-there", a_crossing_at_the_start_is_found_there);
  CASE ("a-crossing-to-infinity-is-looked-for-between-the-ends",
        a_crossing_to_infinity_is_looked_for_between_the_ends);
  CASE ("a-tolerance-below-the-numbers-themselves-ends-too",
        a_tolerance_below_the_numbers_themselves_ends_too);
#undef CASE
  return g_test_run ();
}
