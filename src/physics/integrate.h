/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Dormand–Prince 5(4) with its 4th-order dense output (Hairer, Nørsett, Wanner, Solving ODEs I,
 * II.5–6). All memory is the caller's; nothing is kept between calls but what stands in
 * HobOdeStep. */
typedef void (*HobRates) (double t, const double *y, double *dy, gpointer user);

typedef struct
{
  int n;
  double rtol;
  const double *atol; /* per state, in its unit */
  double h_max;       /* s */
  HobRates rates;
  gpointer user;
} HobOde;

typedef enum
{
  HOB_STEP_OK,
  HOB_STEP_TOO_SMALL, /* the error estimate asks for a step below 1e-9 s, or a rate is not finite */
} HobStepStatus;

/* One accepted step and all that reading between its ends needs.  Begin with { .memory = … }, the
 * rest 0. */
typedef struct
{
  double t0, h;        /* s */
  double h_next;       /* s, suggestion for the step after; a cut by t_limit does not shorten it */
  double error_before; /* of the step before, for the control of the next */
  guint evaluations;   /* counters, summed over calls */
  guint rejected;
  int n;               /* states held */
  gboolean same_rates; /* in: the caller vouches that the rates have not changed since the last step, so that
                          its last stage may serve as the next one's first where (t, y) is its end */
  double *memory;      /* borrowed, hob_ode_memory_size (n) doubles: seven stages, y0, y1, dense coefficients */
} HobOdeStep;

gsize hob_ode_memory_size (int n); /* doubles */
/* State at the end of the step. */
double *hob_ode_y1 (const HobOdeStep *step);

/* Steps from (t, y), t < t_limit, by at most h_try and never past t_limit.  Re-tries smaller by
 * itself; on OK, step holds it. y itself is not changed. */
HobStepStatus hob_ode_step (const HobOde *ode, double t, const double *y, double h_try, double t_limit,
                            HobOdeStep *step);

/* State at t within the step. At t0 + h exactly: y1's bits. */
void hob_ode_dense (const HobOdeStep *step, int n, double t, double *y);

/* How far the dense output may have gone astray from the step's start to t, where the rates are @dy:
 * the gap between them and its own slope, times the time, in units of what a step may err (Enright,
 * SIAM J. Numer. Anal. 26 (1989) 588).  Small where the rates are smooth, large past a kink. */
double hob_ode_defect (const HobOde *ode, const HobOdeStep *step, double t, const double *dy);

/* The first moment in [a, b] at which f turns from ≤ 0 to > 0, by bracketing, within tol s:
 * returns the upper end of the final bracket, so f(result) > 0. f(a) ≤ 0 < f(b) on entry. */
typedef double (*HobOfTime) (double t, gpointer user);
double hob_locate (HobOfTime f, gpointer user, double a, double b, double tol);

G_END_DECLS
