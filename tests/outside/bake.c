/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bake.h"
#include "config.h"
#include "run/record.h"

#include <cvode/cvode.h>
#include <math.h>
#include <nvector/nvector_serial.h>
#include <string.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#define LONGEST_STEP 60.0 /* s, as the engine's: a guard must not come and go within a step */

HobRange *
bake_load (const char *name)
{
  g_autofree char *file = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, name);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

static HobRun *
new_run (HobRange *range, double rtol)
{
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (GError) error = NULL;
  HobRun *run;

  hob_case_do (acts, "0s oven.mode=bake", &error);
  g_assert_no_error (error);
  run = hob_run_new (plan, acts, NULL);
  hob_run_set_tolerance (run, rtol);
  return run;
}

static Bake *
new_bake (const HobPlan *plan, double until, double every)
{
  Bake *bake = g_new0 (Bake, 1);

  bake->n_times = (int)floor (until / every + 0.5) + 1;
  bake->n_y = plan->n_y;
  bake->every = every;
  bake->y = g_new0 (double, (gsize)bake->n_times *(gsize)bake->n_y);
  bake->events = g_array_new (FALSE, FALSE, sizeof (HobEvent));
  return bake;
}

void
bake_free (Bake *bake)
{
  if (bake == NULL)
    return;
  g_array_unref (bake->events);
  g_free (bake->y);
  g_free (bake);
}

static double *
row (Bake *bake, int k)
{
  return bake->y + (gsize)k * (gsize)bake->n_y;
}

static void
keep_changes (Bake *bake, const HobRun *run, double until)
{
  for (guint k = 0; k < run->events->len; k++)
    {
      const HobEvent *event = hob_run_event (run, k);
      if (event->what == HOB_EVENT_CHANGE && event->t <= until)
        g_array_append_val (bake->events, *event);
    }
}

static Bake *
bake_by_engine (HobRange *range, double until, double every, double rtol)
{
  g_autoptr (HobRun) run = new_run (range, rtol);
  g_autoptr (HobMoment) m = hob_moment_new (run->plan);
  g_autoptr (GError) error = NULL;
  Bake *bake = new_bake (run->plan, until, every);
  gint64 start = g_get_monotonic_time ();

  hob_run_advance (run, until, &error);
  bake->wall = (double)(g_get_monotonic_time () - start) / 1e6;
  g_assert_no_error (error);
  bake->steps = hob_run_counters (run).steps;
  bake->evaluations = run->tip->evaluations;
  for (int k = 0; k < bake->n_times; k++)
    {
      hob_run_read (run, k * every, m);
      memcpy (row (bake, k), m->y, sizeof (double) * (gsize)bake->n_y);
    }
  keep_changes (bake, run, until);
  return bake;
}

/* ---- CVODE ---- */

typedef struct
{
  HobRun *run;
  HobMoment *m;
  N_Vector y, atol;
  SUNContext context;
  SUNMatrix matrix;
  SUNLinearSolver linear;
  SUNNonlinearSolver newton_free;
  void *cvode;
} Outside;

static int
rates (realtype t, N_Vector y, N_Vector dy, void *user)
{
  hob_moment_rates (t, N_VGetArrayPointer (y), N_VGetArrayPointer (dy), user);
  return 0;
}

/* A guard is due when it is above 0.  Exactly 0 is not yet, and CVODE would stop there; its
 * secants want finite values. */
static int
guards (realtype t, N_Vector y, realtype *g, void *user)
{
  HobMoment *m = user;

  hob_moment_evaluate (m, t, N_VGetArrayPointer (y));
  for (int k = 0; k < m->plan->n_guards; k++)
    {
      double value = hob_moment_guard (m, k);
      g[k] = value > 0 ? fmin (value, 1e9) : value < -1e-12 ? fmax (value, -1e9) : -1e-12;
    }
  return 0;
}

static gboolean
is_due (HobMoment *m)
{
  for (int k = 0; k < m->plan->n_guards; k++)
    if (hob_moment_guard (m, k) > 0)
      return TRUE;
  return FALSE;
}

static void
start_outside (Outside *o, BakeMethod method, double rtol)
{
  const HobPlan *plan = o->run->plan;
  int n = plan->n_y + HOB_N_LEDGER;
  g_autofree int *rising = g_new (int, plan->n_guards + 1);

  for (int k = 0; k < plan->n_guards; k++)
    rising[k] = 1;
  SUNContext_Create (NULL, &o->context);
  o->y = N_VNew_Serial (n, o->context);
  o->atol = N_VNew_Serial (n, o->context);
  memcpy (N_VGetArrayPointer (o->y), o->m->y, sizeof (double) * (gsize)n);
  memcpy (N_VGetArrayPointer (o->atol), o->run->atol, sizeof (double) * (gsize)n);
  o->cvode = CVodeCreate (method == BAKE_CVODE_BDF ? CV_BDF : CV_ADAMS, o->context);
  CVodeInit (o->cvode, rates, o->m->t, o->y);
  CVodeSVtolerances (o->cvode, rtol, o->atol);
  CVodeSetUserData (o->cvode, o->m);
  CVodeSetMaxStep (o->cvode, LONGEST_STEP);
  CVodeSetMaxNumSteps (o->cvode, 1000000);
  if (method == BAKE_CVODE_BDF)
    {
      o->matrix = SUNDenseMatrix (n, n, o->context);
      o->linear = SUNLinSol_Dense (o->y, o->matrix, o->context);
      CVodeSetLinearSolver (o->cvode, o->linear, o->matrix);
    }
  else
    {
      o->newton_free = SUNNonlinSol_FixedPoint (o->y, 0, o->context);
      CVodeSetNonlinearSolver (o->cvode, o->newton_free);
    }
  CVodeRootInit (o->cvode, plan->n_guards, guards);
  CVodeSetRootDirection (o->cvode, rising);
}

static void
end_outside (Outside *o)
{
  CVodeFree (&o->cvode);
  if (o->linear != NULL)
    SUNLinSolFree (o->linear);
  if (o->newton_free != NULL)
    SUNNonlinSolFree (o->newton_free);
  if (o->matrix != NULL)
    SUNMatDestroy (o->matrix);
  N_VDestroy (o->y);
  N_VDestroy (o->atol);
  SUNContext_Free (&o->context);
}

/* CVODE's steps since it was last started; each start forgets the count. */
static guint
steps_so_far (Outside *o)
{
  long steps = 0;

  CVodeGetNumSteps (o->cvode, &steps);
  return (guint)steps;
}

/* Settles at (t, y) and begins anew from there if anything flipped. */
static void
settle (Outside *o, Bake *bake, double t)
{
  double *y = N_VGetArrayPointer (o->y);
  gboolean changed = FALSE;

  hob_moment_evaluate (o->m, t, y);
  g_assert_true (hob_run_settle (o->run, o->m, &changed));
  if (!changed)
    return;
  bake->steps += steps_so_far (o);
  hob_moment_store (o->m, o->run->next_block);
  hob_moment_load (o->m, o->run->next_block);
  memcpy (y, o->m->y, sizeof (double) * (gsize)(o->m->plan->n_y + HOB_N_LEDGER));
  CVodeReInit (o->cvode, t, o->y);
}

static void
integrate (Outside *o, Bake *bake)
{
  double t = o->m->t;

  for (int k = 0; k < bake->n_times; k++)
    {
      double until = k * bake->every;

      while (t < until)
        {
          int flag = CVode (o->cvode, until, o->y, &t, CV_NORMAL);

          g_assert_cmpint (flag, >=, 0);
          hob_moment_evaluate (o->m, t, N_VGetArrayPointer (o->y));
          if (flag != CV_ROOT_RETURN && !is_due (o->m))
            continue;
          bake->missed += flag != CV_ROOT_RETURN;
          settle (o, bake, t);
        }
      memcpy (row (bake, k), N_VGetArrayPointer (o->y), sizeof (double) * (gsize)bake->n_y);
    }
  bake->steps += steps_so_far (o);
}

static Bake *
bake_by_cvode (HobRange *range, BakeMethod method, double until, double every, double rtol)
{
  g_autoptr (HobRun) run = new_run (range, rtol);
  g_autoptr (GError) error = NULL;
  Outside o = { .run = run, .m = run->tip };
  Bake *bake = new_bake (run->plan, until, every);
  gint64 start;
  guint before;

  /* The start and the hand on the knob are the engine's: both begin from the same bits. */
  hob_run_advance (run, 0, &error);
  g_assert_no_error (error);
  hob_moment_load (o.m, g_array_index (run->records, HobRecord, run->records->len - 1).block);
  hob_moment_evaluate (o.m, 0, NULL);
  before = o.m->evaluations;
  start_outside (&o, method, rtol);
  start = g_get_monotonic_time ();
  integrate (&o, bake);
  bake->wall = (double)(g_get_monotonic_time () - start) / 1e6;
  bake->evaluations = o.m->evaluations - before;
  end_outside (&o);
  keep_changes (bake, run, until);
  return bake;
}

Bake *
bake_range (HobRange *range, BakeMethod method, double until, double every, double rtol)
{
  if (method == BAKE_ENGINE)
    return bake_by_engine (range, until, every, rtol);
  return bake_by_cvode (range, method, until, every, rtol);
}

/* ---- Comparing ---- */

static double
apart (const Bake *a, const Bake *b, int state, double *where)
{
  double worst = 0;

  for (int k = 0; k < MIN (a->n_times, b->n_times); k++)
    {
      double gap = fabs (a->y[k * a->n_y + state] - b->y[k * b->n_y + state]);

      if (gap > worst)
        {
          worst = gap;
          *where = k * a->every;
        }
    }
  return worst;
}

static gboolean
same_change (const HobEvent *a, const HobEvent *b)
{
  return a->part == b->part && a->index == b->index && a->value == b->value;
}

void
bake_compare (HobRange *range, const Bake *a, const Bake *b, double *kelvin, double *seconds,
              double *where)
{
  int state = 0;

  *kelvin = *seconds = *where = 0;
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_states; k++, state++)
      if (g_str_equal (range->parts[p].kind->name, "cavity")
          && range->parts[p].kind->states[k].dim == HOB_DIM_TEMPERATURE)
        {
          double at = 0, gap = apart (a, b, state, &at);

          *where = gap > *kelvin ? at : *where;
          *kelvin = fmax (*kelvin, gap);
        }
  if (a->events->len != b->events->len)
    *seconds = INFINITY;
  for (guint k = 0; k < MIN (a->events->len, b->events->len); k++)
    {
      const HobEvent *x = &g_array_index (a->events, HobEvent, k),
                     *y = &g_array_index (b->events, HobEvent, k);

      *seconds = fmax (*seconds, same_change (x, y) ? fabs (x->t - y->t) : INFINITY);
    }
}
