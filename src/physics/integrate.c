/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/integrate.h"

#include <float.h>
#include <math.h>
#include <string.h>

/* Dormand and Prince, J. Comput. Appl. Math. 6 (1980) 19: RK5(4)7M. */
static const double stage_time[7] = { 0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1 };
static const double stage_share[7][6] = {
  { 0 },
  { 1.0 / 5 },
  { 3.0 / 40, 9.0 / 40 },
  { 44.0 / 45, -56.0 / 15, 32.0 / 9 },
  { 19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729 },
  { 9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656 },
  { 35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84 },
};
/* 5th-order weights less 4th-order ones. */
static const double error_share[7] = { 71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920,
                                       -17253.0 / 339200, 22.0 / 525, -1.0 / 40 };
/* Dense output: Hairer, Nørsett, Wanner, Solving ODEs I, II.6 (their code DOPRI5). */
static const double dense_share[7] = { -12715105075.0 / 11282082432, 0, 87487479700.0 / 32700410799,
                                       -10690763975.0 / 1880347072, 701980252875.0 / 199316789632,
                                       -1453857185.0 / 822651844, 69997945.0 / 29380423 };

static const double least_step = 1e-9; /* s */

/* Rows of the step's memory, n doubles each. */
typedef enum { K1, K2, K3, K4, K5, K6, K7, Y0, Y1, DENSE, N_ROWS } Row;

gsize
hob_ode_memory_size (int n)
{
  return N_ROWS * (gsize) n;
}

static inline double *
row (const HobOdeStep *step, Row which, int n)
{
  return step->memory + (gsize) which * (gsize) n;
}

double *
hob_ode_y1 (const HobOdeStep *step)
{
  return row (step, Y1, step->n);
}

static gboolean
all_finite (const double *values, int n)
{
  double sum = 0;

  for (int i = 0; i < n; i++)
    sum += values[i] - values[i];

  return sum == 0;
}

/* Stages 2…7 from K1 at (t, y0); y at the seventh is y1 itself.  FALSE if a rate is not finite. */
static gboolean
run_stages (const HobOde *ode, double t, double h, HobOdeStep *step)
{
  int n = ode->n;
  const double *y0 = row (step, Y0, n);
  double *y = row (step, Y1, n);

  for (int s = 1; s < 7; s++)
    {
      double *k = row (step, (Row) s, n);

      for (int i = 0; i < n; i++)
        {
          double sum = 0;
          for (int j = 0; j < s; j++)
            sum += stage_share[s][j] * step->memory[j * n + i];
          y[i] = y0[i] + h * sum;
        }
      ode->rates (t + stage_time[s] * h, y, k, ode->user);
      step->evaluations++;
      if (!all_finite (k, n))
        return FALSE;
    }

  return TRUE;
}

/* Largest estimated error in units of what is allowed.  The largest, not the mean square: a part
 * added to the range that does nothing must not loosen the others. */
static double
error_measure (const HobOde *ode, double h, const HobOdeStep *step)
{
  int n = ode->n;
  const double *y0 = row (step, Y0, n), *y1 = row (step, Y1, n);
  double worst = 0;

  for (int i = 0; i < n; i++)
    {
      double sum = 0;
      for (int s = 0; s < 7; s++)
        sum += error_share[s] * step->memory[s * n + i];
      double allowed = ode->atol[i] + ode->rtol * MAX (fabs (y0[i]), fabs (y1[i]));
      worst = MAX (worst, fabs (h * sum) / allowed);
    }

  return worst;
}

static void
keep_dense (double h, int n, HobOdeStep *step)
{
  double *dense = row (step, DENSE, n);

  for (int i = 0; i < n; i++)
    {
      double sum = 0;
      for (int s = 0; s < 7; s++)
        sum += dense_share[s] * step->memory[s * n + i];
      dense[i] = h * sum;
    }
}

/* Puts y and its rates at t into the step's first rows.  If the caller vouches that the rates have
 * not changed and y is where the last step ended, its last stage is this one's first. */
static gboolean
begin (const HobOde *ode, double t, const double *y, HobOdeStep *step)
{
  int n = ode->n;
  gsize size = (gsize) n * sizeof (double);
  gboolean goes_on = step->same_rates && step->n == n && t == step->t0 + step->h
                     && memcmp (y, row (step, Y1, n), size) == 0;

  memmove (row (step, Y0, n), y, size);
  if (goes_on)
    {
      memcpy (row (step, K1, n), row (step, K7, n), size);
      return TRUE;
    }

  step->n = n;
  step->error_before = 1;
  ode->rates (t, row (step, Y0, n), row (step, K1, n), ode->user);
  step->evaluations++;
  return all_finite (row (step, K1, n), n);
}

/* Proportional–integral control of the step (Hairer and Wanner, Solving ODEs II, IV.2): where
 * stability and not accuracy bounds the step it settles there, instead of being refused every
 * other time. */
static double
step_factor (double error, double before)
{
  const double safety = 0.9, integral = 0.17, proportional = 0.04, least = 0.2, most = 10;
  double factor
      = safety * pow (MAX (before, 1e-4), proportional) / pow (MAX (error, 1e-10), integral);

  return CLAMP (factor, least, most);
}

HobStepStatus
hob_ode_step (const HobOde *ode, double t, const double *y, double h_try, double t_limit,
              HobOdeStep *step)
{
  double whole = MIN (h_try, ode->h_max);
  double h = MIN (whole, t_limit - t);
  gboolean refused = FALSE;

  if (!begin (ode, t, y, step) || !(h > 0))
    return HOB_STEP_TOO_SMALL;

  for (;;)
    {
      double error = run_stages (ode, t, h, step) ? error_measure (ode, h, step) : INFINITY;

      if (error <= 1)
        {
          double factor = step_factor (error, step->error_before);

          step->t0 = t;
          step->h = h;
          step->h_next = MIN (h * (refused ? MIN (factor, 1) : factor), ode->h_max);
          if (!refused && h < whole) /* cut by t_limit, which says nothing of the step that would
                                        have done */
            step->h_next = MAX (step->h_next, whole);
          step->error_before = MAX (error, 1e-4);
          keep_dense (h, ode->n, step);
          return HOB_STEP_OK;
        }

      step->rejected++;
      refused = TRUE;
      h *= isfinite (error) ? MAX (0.2, 0.9 * pow (error, -0.2)) : 0.25;
      if (h < least_step)
        return HOB_STEP_TOO_SMALL;
    }
}

void
hob_ode_dense (const HobOdeStep *step, int n, double t, double *y)
{
  const double *y0 = row (step, Y0, n), *y1 = row (step, Y1, n), *dense = row (step, DENSE, n);
  const double *f0 = row (step, K1, n), *f1 = row (step, K7, n);

  if (t == step->t0 + step->h)
    {
      memcpy (y, y1, (gsize) n * sizeof (double));
      return;
    }

  double h = step->h, u = (t - step->t0) / h, v = 1 - u;
  for (int i = 0; i < n; i++)
    {
      double rise = y1[i] - y0[i];
      double bend = h * f0[i] - rise;
      double twist = rise - h * f1[i] - bend;

      y[i] = y0[i] + u * (rise + v * (bend + u * (twist + v * dense[i])));
    }
}

double
hob_ode_defect (const HobOde *ode, const HobOdeStep *step, double t, const double *dy)
{
  int n = ode->n;
  const double *y0 = row (step, Y0, n), *y1 = row (step, Y1, n), *dense = row (step, DENSE, n);
  const double *f0 = row (step, K1, n), *f1 = row (step, K7, n);
  double h = step->h, u = (t - step->t0) / h, v = 1 - u, worst = 0;

  for (int i = 0; i < n; i++)
    {
      double rise = y1[i] - y0[i];
      double bend = h * f0[i] - rise;
      double twist = rise - h * f1[i] - bend;
      double slope = rise + (v - u) * bend + u * (2 * v - u) * twist + 2 * u * v * (v - u) * dense[i];
      double allowed = ode->atol[i] + ode->rtol * MAX (fabs (y0[i]), fabs (y1[i]));

      worst = MAX (worst, fabs (slope / h - dy[i]) * (t - step->t0) / allowed);
    }

  return worst;
}

/* A look at the function. */
typedef struct
{
  double t, f;
} Point;

/* Share of the way from @p, the newest, to @q, of the other sign, at which to look next: where the
 * parabola through them and @r, read backwards, is zero (Chandrupatla, Adv. Eng. Software 28 (1997)
 * 145), or where it cannot be trusted where the chord is, pushed towards the middle by a fifth of
 * @left, the share of the first bracket that is left, as in ITP. */
static double
next_share (Point p, Point q, Point r, double left)
{
  double along = (p.t - q.t) / (r.t - q.t), rise = (p.f - q.f) / (r.f - q.f);
  double chord = p.f != q.f ? p.f / (p.f - q.f) : 0.5;

  if (rise * rise < along && (1 - rise) * (1 - rise) < 1 - along)
    return p.f / (q.f - p.f) * r.f / (q.f - r.f)
           + (r.t - p.t) / (q.t - p.t) * p.f / (r.f - p.f) * q.f / (r.f - q.f);
  return fabs (0.5 - chord) > 0.2 * left ? chord + copysign (0.2 * left, 0.5 - chord) : 0.5;
}

/* Inverse quadratic steps, kept within what bisection would have reached by then, as in ITP (Oliveira
 * and Takahashi, ACM Trans. Math. Softw. 47 (2020)), so that it never takes more steps than bisection
 * and one (and one for rounding).  No step is shorter than the tolerance: one that ends close to the
 * zero is followed by one to its other side, and that is all. */
double
hob_locate (HobOfTime f, gpointer user, double a, double b, double tol)
{
  Point q = { a, f (a, user) }, p = { b, f (b, user) }, r;
  double share = p.f > q.f ? p.f / (p.f - q.f) : 0.5, reach;

  /* no number lies closer */
  tol = MAX (tol, DBL_EPSILON * MAX (fabs (a), fabs (b)) + DBL_MIN);
  reach = tol;

  while (reach < b - a)
    reach *= 2;

  for (double width = b - a; width > tol; width = fabs (q.t - p.t))
    {
      double least = MIN (tol / width, 0.5);
      double middle = p.t + (q.t - p.t) / 2;
      double radius = MAX (reach - width / 2, 0);
      Point next = { p.t + CLAMP (share, least, 1 - least) * (q.t - p.t), 0 };

      if (!(fabs (next.t - middle) <= radius))
        next.t = middle + copysign (radius, next.t - middle);
      if (!((next.t > p.t) != (next.t > q.t)) || next.t == p.t || next.t == q.t)
        next.t = middle;

      next.f = f (next.t, user);
      r = p;
      if ((next.f > 0) != (p.f > 0))
        {
          r = q;
          q = p;
        }
      p = next;
      share = next_share (p, q, r, fabs (q.t - p.t) / (b - a));
      reach /= 2;
    }

  return p.f > 0 ? p.t : q.t;
}
