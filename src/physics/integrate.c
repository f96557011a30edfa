/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/integrate.h"

#include "physics/wide.h"

#include <float.h>
#include <math.h>
#include <string.h>

/* ---- The method ----
 *
 * An explicit Runge–Kutta method with seven stages:
 *
 *   k_s = f(t + c_s·h, y + h·Σ a_sj·k_j),   y1 = y + h·Σ b_s·k_s
 *
 * a_7j = b_j, so that the last stage is the rate at y1 and may serve as the first one of the next
 * step. Coefficients: J. R. Dormand and P. J. Prince, J. Comput. Appl. Math. 6 (1980) 19,
 * RK5(4)7M. Here are c, then a. */
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
/* The error estimate is h·Σ e_s·k_s; e are the weights of 5th order less those of 4th order. */
static const double error_share[7] = { 71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920,
                                       -17253.0 / 339200, 22.0 / 525, -1.0 / 40 };
/* Weights of the last coefficient of the dense output: E. Hairer, S. P. Nørsett, G. Wanner,
 * Solving Ordinary Differential Equations I, II.6 (their program DOPRI5). */
static const double dense_share[7] = { -12715105075.0 / 11282082432, 0, 87487479700.0 / 32700410799,
                                       -10690763975.0 / 1880347072, 701980252875.0 / 199316789632,
                                       -1453857185.0 / 822651844, 69997945.0 / 29380423 };

static const double least_step = 1e-9; /* s; far below everything that a range does */

/* Numbers that processors work on at once. */
typedef double Lot __attribute__ ((vector_size (64), aligned (8), may_alias));
#define LOT 8

/* Rows of a step's memory: stages, both ends, the dense output's coefficient. Each has room for
 * whole lots; what follows its n numbers means nothing. */
typedef enum { K1, K2, K3, K4, K5, K6, K7, Y0, Y1, DENSE, N_ROWS } Row;

static inline gsize
row_length (int n)
{
  return ((gsize) n + LOT - 1) / LOT * LOT;
}

gsize
hob_ode_memory_size (int n)
{
  return N_ROWS * row_length (n);
}

static inline double *
row (const HobOdeStep *step, Row which, int n)
{
  return step->memory + (gsize) which * row_length (n);
}

static inline Lot *
lots (const HobOdeStep *step, Row which, int n)
{
  return (Lot *) row (step, which, n);
}

/* out = h·Σ share_s·k_s of the first @n_rows stages, of the lot at @k in the first one. The sum of
 * each number begins at 0 and goes from the first row to the last. */
static inline void
combine (double h, const double *share, int n_rows, gsize n_lots, const Lot *k, Lot *out)
{
  Lot sum = 0 + share[0] * *k;

  for (int s = 1; s < n_rows; s++)
    sum += share[s] * *(k += n_lots);
  *out = h * sum;
}

/* Only of a NaN or an infinite number are all bits of the exponent set, so that one more in the
 * lowest of them reaches the sign. */
static gboolean
all_finite (const double *values, int n)
{
  const guint64 lowest = (guint64) 1 << 52, exponent = 0x7ff * lowest, sign = 0x800 * lowest;
  guint64 odd = 0;

  for (int i = 0; i < n; i++)
    {
      guint64 bits;

      memcpy (&bits, values + i, sizeof bits);
      odd |= (bits & exponent) + lowest;
    }

  return (odd & sign) == 0;
}

/* Stages 2 to 7 from K1 at (t, y0). y of the seventh is y1 itself. FALSE if a rate is not
 * finite. */
HOB_WIDE
static gboolean
run_stages (const HobOde *ode, double t, double h, HobOdeStep *step)
{
  int n = ode->n;
  gsize n_lots = row_length (n) / LOT;
  const Lot *y0 = lots (step, Y0, n), *k1 = lots (step, K1, n);
  Lot *y = lots (step, Y1, n);

  for (int s = 1; s < 7; s++)
    {
      double *k = row (step, (Row) s, n);

      for (gsize i = 0; i < n_lots; i++)
        {
          combine (h, stage_share[s], s, n_lots, k1 + i, y + i);
          y[i] = y0[i] + y[i];
        }
      ode->rates (t + stage_time[s] * h, row (step, Y1, n), k, ode->user);
      step->evaluations++;
      if (!all_finite (k, n))
        return FALSE;
    }

  return TRUE;
}

/* The largest estimated error of any state, in units of what is allowed:
 *
 *   max |h·Σ e_s·k_s|/(atol + rtol·max(|y0|, |y1|))
 *
 * It is not the usual mean square, because then a part that does nothing would loosen the
 * tolerance of all others. */
HOB_WIDE
static double
error_measure (const HobOde *ode, double h, const HobOdeStep *step)
{
  int n = ode->n;
  const double *y0 = row (step, Y0, n), *y1 = row (step, Y1, n), *error = row (step, DENSE, n);
  gsize n_lots = row_length (n) / LOT;
  double worst = 0;

  for (gsize i = 0; i < n_lots; i++)
    combine (h, error_share, 7, n_lots, lots (step, K1, n) + i, lots (step, DENSE, n) + i);
  for (int i = 0; i < n; i++)
    {
      double allowed = ode->atol[i] + ode->rtol * MAX (fabs (y0[i]), fabs (y1[i]));
      worst = MAX (worst, fabs (error[i]) / allowed);
    }

  return worst;
}

/* The coefficient of the dense output that needs the stages. */
HOB_WIDE
static void
keep_dense (double h, int n, HobOdeStep *step)
{
  gsize n_lots = row_length (n) / LOT;

  for (gsize i = 0; i < n_lots; i++)
    combine (h, dense_share, 7, n_lots, lots (step, K1, n) + i, lots (step, DENSE, n) + i);
}

/* Puts y and its rates at t into the first rows. If the rates are unchanged, and y is where
 * the last step ended, the last stage of that step is the first one of this; where it began, the
 * first one is there already. */
static gboolean
begin (const HobOde *ode, double t, const double *y, HobOdeStep *step)
{
  int n = ode->n;
  gsize size = (gsize) n * sizeof (double);
  gboolean known = step->same_rates && step->n == n;
  gboolean goes_on
      = known && t == step->t0 + step->h && memcmp (y, row (step, Y1, n), size) == 0;
  gboolean again = known && t == step->t0 && memcmp (y, row (step, Y0, n), size) == 0;

  memmove (row (step, Y0, n), y, size);
  if (goes_on)
    {
      memcpy (row (step, K1, n), row (step, K7, n), size);
      return TRUE;
    }

  step->n = n;
  step->error_before = 1;
  if (again)
    return TRUE;
  ode->rates (t, row (step, Y0, n), row (step, K1, n), ode->user);
  step->evaluations++;
  return all_finite (row (step, K1, n), n);
}

/* The next step is  h·0.9·err_before^0.04/err^0.17,  within 0.2 to 10 times h. This is
 * proportional and integral control (E. Hairer and G. Wanner, Solving Ordinary Differential
 * Equations II, IV.2; the exponents are theirs). Where stability and not accuracy limits the
 * step, it settles at the limit. A controller without the proportional part would have every
 * other step refused there. */
static double
step_factor (double error, double before)
{
  const double safety = 0.9, integral = 0.17, proportional = 0.04, least = 0.2, most = 10;
  double factor
      = safety * pow (MAX (before, 1e-4), proportional) / pow (MAX (error, 1e-10), integral);

  return CLAMP (factor, least, most);
}

/* By how much a refused step is made shorter. The error of a smooth step goes with h⁵, but past a
 * kink of the rates it goes with a lower power of h, and err^−0.2 would creep up to the kink in
 * many refusals. So from the second refusal on the power is the one just seen, from 1 to 5,
 *
 *   p = ln(err_before/err)/ln(h_before/h),   h·0.9·err^(−1/p)
 *
 * A quarter where a rate is not finite; otherwise at least a tenth. */
static double
refusal_factor (double error, double error_before, double shortened)
{
  double power = 5;

  if (!isfinite (error))
    return 0.25;
  if (isfinite (error_before))
    power = CLAMP (log (error / error_before) / log (shortened), 1, 5);
  return MAX (0.1, 0.9 * pow (error, -1 / power));
}

/* After a refusal the next step is not made longer. */
HobStepStatus
hob_ode_step (const HobOde *ode, double t, const double *y, double h_try, double t_limit,
              HobOdeStep *step)
{
  double whole = MIN (h_try, ode->h_max);
  double h = MIN (whole, t_limit - t);
  double error_before = INFINITY, shortened = 1; /* of the refused one before */
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
          if (!refused && h < whole) /* cut short by t_limit: a longer one would have done */
            step->h_next = MAX (step->h_next, whole);
          step->error_before = MAX (error, 1e-4);
          keep_dense (h, ode->n, step);
          return HOB_STEP_OK;
        }

      step->rejected++;
      refused = TRUE;
      shortened = refusal_factor (error, error_before, shortened);
      error_before = error;
      h *= shortened;
      if (h < least_step)
        return HOB_STEP_TOO_SMALL;
    }
}

/* ---- Between the ends ----
 *
 * With u = (t − t0)/h, v = 1 − u, and the rates f0 and f1 at both ends (Hairer, Nørsett, Wanner
 * II.6):
 *
 *   y = y0 + u·(rise + v·(bend + u·(twist + v·dense)))
 *   rise = y1 − y0,   bend = h·f0 − rise,   twist = rise − h·f1 − bend
 *
 * It meets both ends with their slopes; @dense makes it of 4th order. */
HOB_WIDE
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

/* The slope of that polynomial is (dy/du)/h. */
static double
slope_of (const HobOdeStep *step, int n, int i, double u)
{
  double h = step->h, v = 1 - u;
  double rise = row (step, Y1, n)[i] - row (step, Y0, n)[i];
  double bend = h * row (step, K1, n)[i] - rise;
  double twist = rise - h * row (step, K7, n)[i] - bend;

  return (rise + (v - u) * bend + u * (2 * v - u) * twist
          + 2 * u * v * (v - u) * row (step, DENSE, n)[i])
         / h;
}

double
hob_ode_dense_one (const HobOdeStep *step, int n, int i, double t, double *rate)
{
  double h = step->h, u = (t - step->t0) / h, v = 1 - u, y0 = row (step, Y0, n)[i];
  double rise = row (step, Y1, n)[i] - y0;
  double bend = h * row (step, K1, n)[i] - rise;
  double twist = rise - h * row (step, K7, n)[i] - bend;

  if (rate != NULL)
    *rate = slope_of (step, n, i, u);
  if (t == step->t0 + h)
    return row (step, Y1, n)[i];
  return y0 + u * (rise + v * (bend + u * (twist + v * row (step, DENSE, n)[i])));
}

/* See integrate.h for what the slope is compared with. */
double
hob_ode_defect (const HobOde *ode, const HobOdeStep *step, double t, const double *dy)
{
  int n = ode->n;
  const double *y0 = row (step, Y0, n), *y1 = row (step, Y1, n);
  double worst = 0;

  for (int i = 0; i < n; i++)
    {
      double slope = slope_of (step, n, i, (t - step->t0) / step->h);
      double allowed = ode->atol[i] + ode->rtol * MAX (fabs (y0[i]), fabs (y1[i]));

      worst = MAX (worst, fabs (slope - dy[i]) * (t - step->t0) / allowed);
    }

  return worst;
}

/* ---- The root finder ---- */

/* The function at one moment. */
typedef struct
{
  double t, f;
} Point;

/* Where to look next, as a share of the way from @p, the newest point, to @q, where f has the
 * other sign. This is the zero of the parabola through p, q and @r, read backwards as t over f,
 * if Chandrupatla's test trusts it (T. R. Chandrupatla, Adv. Eng. Software 28 (1997) 145).
 * Otherwise it is the zero of the chord, moved toward the middle by a fifth of @left, the share
 * of the first bracket that is left. */
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

/* Inverse quadratic steps within what bisection would have reached by then: each step is
 * projected onto a distance of @reach − width/2 around the middle, and reach halves every time.
 * It therefore never takes more steps than bisection and one (and one for rounding), as in ITP
 * (I. F. D. Oliveira and R. H. C. Takahashi, ACM Trans. Math. Softw. 47 (2020) 5).
 *
 * No step is shorter than the tolerance. If one ends close to the zero, the next one goes to its
 * other side, and the bracket is done. */
double
hob_locate (HobOfTime f, gpointer user, double a, double b, double tol)
{
  Point q = { a, f (a, user) }, p = { b, f (b, user) }, r;
  double share = p.f > q.f ? p.f / (p.f - q.f) : 0.5, reach;

  /* No two numbers are closer to each other than this. */
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
