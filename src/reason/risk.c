/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/risk.h"

#include "reason/trials-cache.h"

#include <math.h>

/* Assumptions of this project: of what silences everything else, and of what one stops using the
 * range for. */
#define MOST_GRAVE 0.01 /* probability from which nobody brings it about */
#define AGAIN 60.0      /* minutes that it counts to bring that about again */

struct _HobRisk
{
  guint n_runs;
  double *p;            /* owned; of each run */
  float *grave, *again; /* owned; s, when each run shows such a hazard; +∞: never */
};

/* What nobody brings about on purpose: it silences all else, or is at least as grave as what one
 * stops using the range for. */
static void
note (HobRisk *risk, const HobTrialNoticed *row, HobHazards hazards)
{
  int gravest = hob_hazards_next (hazards, -1);

  if (gravest < 0 || gravest > HOB_HAZARD_STOP_USING)
    return;
  risk->again[row->run] = fminf (risk->again[row->run], row->first);
  if (hob_hazards[gravest].silences)
    risk->grave[row->run] = fminf (risk->grave[row->run], row->first);
}

HobRisk *
hob_risk_new (const HobAhead *a, const HobOccasion *o)
{
  HobRisk *risk = g_new0 (HobRisk, 1);
  const GArray *noticed = hob_trials_noticed (a->q->trials, o->acts, o->until);

  risk->n_runs = a->q->n_runs;
  risk->p = g_memdup2 (a->run_p, risk->n_runs * sizeof *risk->p);
  risk->grave = g_new (float, risk->n_runs);
  risk->again = g_new (float, risk->n_runs);
  for (guint r = 0; r < risk->n_runs; r++)
    risk->grave[r] = risk->again[r] = INFINITY;
  for (guint k = 0; k < noticed->len; k++)
    {
      const HobTrialNoticed *row = &g_array_index (noticed, HobTrialNoticed, k);

      if (row->run < (gint32) risk->n_runs && risk->p[row->run] > 0)
        note (risk, row, hob_symptom_book_get (a->q->idle->book, row->symptom)->hazards);
    }
  return risk;
}

void
hob_risk_free (HobRisk *risk)
{
  g_free (risk->p);
  g_free (risk->grave);
  g_free (risk->again);
  g_free (risk);
}

double
hob_risk_minutes (const HobRisk *risk, double t)
{
  double grave = 0, again = 0;

  for (guint r = 0; r < risk->n_runs; r++)
    {
      grave += (double) risk->grave[r] <= t ? risk->p[r] : 0;
      again += (double) risk->again[r] <= t ? risk->p[r] : 0;
    }
  return grave > MOST_GRAVE ? INFINITY : AGAIN * again;
}
