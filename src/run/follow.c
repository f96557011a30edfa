/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/follow.h"

#include "run/record.h"
#include <math.h>
#include <string.h>

struct _HobFollow
{
  /*< owned >*/
  HobCase *acts;
  HobMoment *reader; /* takes steps again; NULL: not yet needed */
  int *states;       /* places among all states */
  int n_states;
  int part;          /* that acts as it does there; −1 */
  HobOdeStep step;

  /*< borrowed >*/
  HobRun *run;

  double from, end;  /* s; of the step, which may have been cut */
  guint64 serial;    /* of the record that it is from; 0: none */
};

/* States of the plan that store the oven's heat. */
static void
find_states (HobFollow *follow)
{
  const HobPlan *plan = follow->run->plan;
  const HobRange *range = plan->range;

  follow->states = g_new (int, (gsize) plan->n_y + 1);
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_states; k++)
      if (range->parts[p].kind->states[k].stores)
        follow->states[follow->n_states++] = plan->y0[p] + k;
}

static gsize
memory_size (const HobFollow *follow)
{
  return hob_ode_memory_size (follow->run->plan->n_y + HOB_N_LEDGER);
}

HobFollow *
hob_follow_new_part (HobRun *run, int part)
{
  HobFollow *follow = g_new0 (HobFollow, 1);

  follow->run = run;
  follow->part = part;
  follow->acts = hob_case_copy (run->acts);
  follow->step.memory = g_new0 (double, memory_size (follow));
  return follow;
}

HobFollow *
hob_follow_new (HobRun *run)
{
  HobFollow *follow = hob_follow_new_part (run, -1);

  find_states (follow);
  return follow;
}

void
hob_follow_free (HobFollow *follow)
{
  if (follow == NULL)
    return;
  hob_case_free (follow->acts);
  hob_moment_free (follow->reader);
  g_free (follow->states);
  g_free (follow->step.memory);
  g_free (follow);
}

HobRun *
hob_follow_run (const HobFollow *follow)
{
  return follow->run;
}

HobCase *
hob_follow_acts (const HobFollow *follow)
{
  return follow->acts;
}

void
hob_follow_look (HobFollow *follow)
{
  hob_case_free (follow->acts);
  follow->acts = hob_case_copy (follow->run->acts);
}

static void
take (HobFollow *follow, const HobOdeStep *step, double end)
{
  double *memory = follow->step.memory;

  memcpy (memory, step->memory, sizeof (double) * memory_size (follow));
  follow->step = *step;
  follow->step.memory = memory;
  follow->from = step->t0;
  follow->end = end;
  follow->serial = follow->run->serial;
}

/* The run's tip still has the step that it took last: the usual case of two runs that go on
 * together. */
static gboolean
take_from_tip (HobFollow *follow, double t)
{
  const HobRun *run = follow->run;
  const HobOdeStep *step = &run->tip->step;
  double end = hob_run_last (run)->t0;

  if (!run->stands || !(step->h > 0) || step->t0 > t || t >= end || step->t0 + step->h < end)
    return FALSE;
  take (follow, step, end);
  return TRUE;
}

gboolean
hob_follow_open (HobFollow *follow, double t)
{
  HobRun *run = follow->run;

  if (follow->serial == run->serial && follow->from <= t && t < follow->end)
    return TRUE;
  if (hob_run_advance (run, nextafter (t, INFINITY), NULL) != HOB_RUN_OK)
    return FALSE;
  if (follow->part < 0 && take_from_tip (follow, t))
    return TRUE;
  if (follow->reader == NULL)
    follow->reader = hob_moment_new (run->plan);
  if (!hob_run_open (run, follow->reader, t) || !(follow->reader->span_end > t))
    return FALSE;
  take (follow, &follow->reader->step, follow->reader->span_end);
  return TRUE;
}

double
hob_follow_end (const HobFollow *follow)
{
  return follow->end;
}

void
hob_follow_states (const HobFollow *follow, double t, double *y)
{
  int n = follow->run->plan->n_y + HOB_N_LEDGER;

  for (int k = 0; k < follow->n_states; k++)
    y[follow->states[k]] = hob_ode_dense_one (&follow->step, n, follow->states[k],
                                              CLAMP (t, follow->from, follow->end), NULL);
}

void
hob_follow_rates (const HobFollow *follow, double t, double *dy)
{
  int n = follow->run->plan->n_y + HOB_N_LEDGER;

  for (int k = 0; k < follow->n_states; k++)
    hob_ode_dense_one (&follow->step, n, follow->states[k],
                       CLAMP (t, follow->from, follow->end), &dy[follow->states[k]]);
}

int
hob_follow_part (const HobFollow *follow)
{
  return follow->part;
}

/* The step's end belongs to the step after it, and is not yet wanted. */
HobMoment *
hob_follow_moment (const HobFollow *follow, double t)
{
  if (follow->part < 0 || follow->reader == NULL)
    return NULL;
  t = CLAMP (t, follow->from, nextafter (follow->end, follow->from));
  return hob_run_read (follow->run, t, follow->reader) ? follow->reader : NULL;
}
