/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Work and precision: an hour of bake by the engine and by SUNDIALS CVODE (BDF with a dense
 * Jacobian by differences; Adams with fixed-point iteration) from the same right-hand sides and
 * guards, each against CVODE at 1e-10.  The error is the latest change's, s; the ratios are read at
 * equal error, straight between neighbouring pairs on logarithmic scales. */

#include "bake.h"
#include <math.h>
#include <stdio.h>

#define HOUR 3600.0
#define TIMES 3 /* of which the quickest counts */

typedef struct
{
  double rtol, seconds, kelvin, wall;
  guint evaluations;
} Pair;

static const char *const method_names[] = { "engine", "CVODE BDF", "CVODE Adams" };
static const double tolerances[] = { 1e-3, 1e-4, 1e-5, HOB_RUN_TOLERANCE, 1e-7, 1e-8, 1e-9 };
#define SHIPPED 3 /* of these */

static Pair
measure (HobRange *range, BakeMethod method, double rtol, const Bake *truth)
{
  Pair pair = { .rtol = rtol, .wall = G_MAXDOUBLE };
  double where;

  for (int k = 0; k < TIMES; k++)
    {
      g_autoptr (Bake) bake = bake_range (range, method, HOUR, 5, rtol);

      bake_compare (range, bake, truth, &pair.kelvin, &pair.seconds, &where);
      pair.wall = MIN (pair.wall, bake->wall);
      pair.evaluations = bake->evaluations;
    }
  printf ("  %-12s %7.0e: changes within %9.3g s, temperatures within %8.3g K; %6u evaluations, "
          "%7.1f ms\n",
          method_names[method], rtol, pair.seconds, pair.kelvin, pair.evaluations, 1e3 * pair.wall);
  return pair;
}

/* What @method costs for an error of @seconds: evaluations and wall s; NaN where its pairs do not
 * reach so far. */
static void
cost_at (const Pair *pairs, int n, double seconds, double *evaluations, double *wall)
{
  *evaluations = *wall = NAN;
  for (int k = 0; k + 1 < n; k++)
    {
      const Pair *a = &pairs[k], *b = &pairs[k + 1];
      double share;

      if (!isfinite (a->seconds) || a->seconds < seconds || b->seconds > seconds)
        continue;
      share = log (a->seconds / seconds) / log (a->seconds / b->seconds);
      *evaluations = a->evaluations * pow ((double)b->evaluations / a->evaluations, share);
      *wall = a->wall * pow (b->wall / a->wall, share);
    }
}

static void
work_and_precision (const char *name)
{
  g_autoptr (HobRange) range = bake_load (name);
  g_autoptr (Bake) truth = bake_range (range, BAKE_CVODE_BDF, HOUR, 5, 1e-10);
  Pair pairs[3][G_N_ELEMENTS (tolerances)];
  const Pair *shipped = &pairs[BAKE_ENGINE][SHIPPED];

  printf ("%s, one hour of bake, %u changes:\n", name, truth->events->len);
  for (int m = BAKE_ENGINE; m <= BAKE_CVODE_ADAMS; m++)
    for (guint k = 0; k < G_N_ELEMENTS (tolerances); k++)
      pairs[m][k] = measure (range, (BakeMethod)m, tolerances[k], truth);
  for (int m = BAKE_CVODE_BDF; m <= BAKE_CVODE_ADAMS; m++)
    {
      double evaluations, wall;

      cost_at (pairs[m], G_N_ELEMENTS (tolerances), shipped->seconds, &evaluations, &wall);
      printf ("  for changes within %.3g s, as the engine ships: %s takes × %.1f the evaluations, "
              "× %.1f the time\n",
              shipped->seconds, method_names[m], evaluations / shipped->evaluations,
              wall / shipped->wall);
    }
}

int
main (void)
{
  work_and_precision ("dial-four");
  work_and_precision ("board-five");
  work_and_precision ("convection-fan");
  return 0;
}
