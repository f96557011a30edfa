/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Ordinary differential equations, one step at a time, and the root finder.
 *
 * Dormand–Prince 5(4) with dense output of 4th order (E. Hairer, S. P. Nørsett, G. Wanner,
 * Solving Ordinary Differential Equations I, II.5 and II.6). All memory is the caller's.
 * HobOdeStep has all that is kept between two calls. */

/* dy = dy/dt at (t, y). */
typedef void (*HobRates) (double t, const double *y, double *dy, gpointer user);

typedef struct
{
  int n;
  double rtol;        /* relative tolerance of a step */
  const double *atol; /* absolute one of each state, in its unit */
  double h_max;       /* s, the longest step */
  HobRates rates;
  gpointer user;
} HobOde;

typedef enum
{
  HOB_STEP_OK,
  HOB_STEP_TOO_SMALL, /* it would take less than 1e-9 s, or a rate is not finite */
} HobStepStatus;

/* An accepted step, and all that it takes to read between its ends. Start with { .memory = … }
 * and the rest zero. */
typedef struct
{
  double t0, h;        /* s, where it begins and how long it is */
  double h_next;       /* s, a good length for the next one; t_limit does not shorten it */
  double error_before; /* error of the step before, which controls the next one */
  guint evaluations;   /* of the rates, in all calls */
  guint rejected;      /* steps that were tried again with a smaller h, in all calls */
  int n;               /* states in `memory` */
  gboolean same_rates; /* in: the rates are unchanged since the last step, so that its last stage
                          may serve as the first one of a step from its end, and its first stage
                          as that of the same step taken again */
  double *memory;      /* borrowed: hob_ode_memory_size (n) doubles */
} HobOdeStep;

gsize hob_ode_memory_size (int n); /* doubles */
/* Takes a step from (t, y), t < t_limit, by at most h_try and not beyond t_limit. If the error is
 * too large it tries again with a smaller one. @y stays as it is: read the end with
 * hob_ode_dense. */
HobStepStatus hob_ode_step (const HobOde *ode, double t, const double *y, double h_try,
                            double t_limit, HobOdeStep *step);

/* The state at t within the step. At t0 + h it has the bits that the step computed. */
void hob_ode_dense (const HobOdeStep *step, int n, double t, double *y);

/* The same of state i alone, of n; @rate: its slope too, or NULL. */
double hob_ode_dense_one (const HobOdeStep *step, int n, int i, double t, double *rate);

/* How far the dense output may be wrong at t, where the rates are @dy, in units of what a step
 * may err: the gap between these rates and its own slope, times the time since the step began (W.
 * H. Enright, SIAM J. Numer. Anal. 26 (1989) 588). Small where the rates are smooth, large beyond
 * a kink. */
double hob_ode_defect (const HobOde *ode, const HobOdeStep *step, double t, const double *dy);

/* Where f turns from ≤ 0 to > 0 in [a, b]: f(a) ≤ 0 < f(b). Returns the upper end of a bracket
 * that is not wider than tol, so that f is > 0 there. This is the only root finder of the
 * program. */
typedef double (*HobOfTime) (double t, gpointer user);
double hob_locate (HobOfTime f, gpointer user, double a, double b, double tol);

G_END_DECLS
