/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/risk.h"

#include "reason/trials-cache.h"

#include <math.h>

#define MOST_GRAVE 0.01 /* probability from which nobody brings about what is grave: assumed */

/* Minutes that bringing a hazard about counts (assumed), by who does it; what is never done is not
 * counted.  Whoever learns stops there; a technician airs the oven and the room, and goes on. */
static const double minutes[][HOB_N_AGAIN] = {
  [HOB_SKILL_APPRENTICE] = { [HOB_AGAIN_STOP] = 60, [HOB_AGAIN_FAINT] = 5 },
  [HOB_SKILL_TECHNICIAN] = { [HOB_AGAIN_STOP] = 10, [HOB_AGAIN_FAINT] = 5 },
};

struct _HobRisk
{
  guint n_runs;
  const double *p;           /* borrowed; of each run */
  float *first[HOB_N_AGAIN]; /* owned; s, when each run shows such a hazard; +∞: never */
  double touched;            /* s, when a person is put to the range; +∞: never */
};

static HobAgain
again_of (HobHazards hazards)
{
  int gravest = hob_hazards_next (hazards, -1);

  return gravest >= 0 ? hob_hazards[gravest].again : HOB_AGAIN_FREE;
}

/* When what is done there has a person do something: nobody is an instrument. */
static double
touched_at (const HobOccasion *o)
{
  for (guint k = o->first; k < o->acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (o->acts->acts, HobAct, k);

      if (o->acts->range->parts[act->part].kind->flags & HOB_KIND_LIVES)
        return (double) act->ms / 1000;
    }
  return INFINITY;
}

gboolean
hob_risk_forbids (HobHazards hazards)
{
  return again_of (hazards) >= HOB_AGAIN_STOP;
}

HobRisk *
hob_risk_new (const HobAhead *a, const HobOccasion *o)
{
  HobRisk *risk = g_new0 (HobRisk, 1);
  const GArray *noticed = hob_trials_noticed (a->q->trials, o->acts, o->until);

  risk->n_runs = a->q->n_runs;
  risk->p = a->run_p;
  risk->touched = touched_at (o);
  for (int d = 0; d < HOB_N_AGAIN; d++)
    {
      risk->first[d] = g_new (float, risk->n_runs);
      for (guint r = 0; r < risk->n_runs; r++)
        risk->first[d][r] = INFINITY;
    }
  for (guint k = 0; k < noticed->len; k++)
    {
      const HobTrialNoticed *row = &g_array_index (noticed, HobTrialNoticed, k);
      HobAgain d = again_of (hob_symptom_book_get (a->q->idle->book, row->symptom)->hazards);

      if (row->run < (gint32) risk->n_runs)
        risk->first[d][row->run] = fminf (risk->first[d][row->run], row->first);
    }
  return risk;
}

void
hob_risk_free (HobRisk *risk)
{
  for (int d = 0; d < HOB_N_AGAIN; d++)
    g_free (risk->first[d]);
  g_free (risk);
}

double
hob_risk_minutes (const HobRisk *risk, HobSkill role, double t)
{
  double sum = 0;

  if (t >= risk->touched)
    return INFINITY;
  for (int d = HOB_AGAIN_FREE + 1; d < HOB_N_AGAIN; d++)
    {
      double p = 0;

      for (guint r = 0; r < risk->n_runs; r++)
        p += (double) risk->first[d][r] <= t ? risk->p[r] : 0;
      if (d == HOB_AGAIN_NEVER && p > MOST_GRAVE)
        return INFINITY;
      sum += minutes[role][d] * p;
    }
  return sum;
}
