/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* An hour of bake taken two ways from the same right-hand sides and guards: by the engine's own
 * integrator and by SUNDIALS CVODE (A. C. Hindmarsh et al., ACM Trans. Math. Softw. 31 (2005)
 * 363). Only the integrator, its step and its root finding differ; what flips at an instant is
 * settled by the same function. */

#include "run/run.h"

G_BEGIN_DECLS

typedef enum { BAKE_ENGINE, BAKE_CVODE_BDF, BAKE_CVODE_ADAMS } BakeMethod;

typedef struct
{
  GArray *events; /* HobEvent, changes only, in order */
  double *y;      /* n_times × n_y states */
  int n_times, n_y;
  double every; /* s between them, from 0 on */
  guint steps;
  guint evaluations; /* of the whole range: for rates, for roots, to settle */
  guint missed;      /* guards found due where no root was told of */
  double wall;       /* s, of the way there alone */
} Bake;

/* Bakes @range as its file sets the oven, cold at 0 s, until @until s at relative tolerance
 * @rtol, absolute ones in proportion. (transfer full) */
Bake *bake_range (HobRange *range, BakeMethod method, double until, double every, double rtol);
void bake_free (Bake *bake);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Bake, bake_free)

HobRange *bake_load (const char *name); /* a shipped range, (transfer full) */

/* How far two bakes of a range lie apart: the cavity's temperatures, K, and the same changes, s;
 * infinite if they are not the same changes.  @where: when temperatures are furthest apart, s. */
void bake_compare (HobRange *range, const Bake *a, const Bake *b, double *kelvin, double *seconds,
                   double *where);

G_END_DECLS
