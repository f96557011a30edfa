/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/comparison.h"

#include "physics/material.h"
#include "run/differ.h"
#include "run/engine.h"
#include "run/local.h"
#include "run/step-twin.h"
#include <math.h>

#define AROUND 0.1 /* s */

enum { BEFORE, AT, AFTER, N_READINGS };

/* What should be there.  Most of it is the same in the run, and nobody asks what it is around the
 * time: that is read where it is first needed. */
typedef struct
{
  HobMoment *at[N_READINGS]; /* owned */
  gboolean around;           /* before and after have been read */
} Normal;

struct _HobComparison
{
  /*< owned >*/
  HobMoment *now;
  Normal *normal;
  HobLocal *local;

  /*< borrowed >*/
  HobRun *should_be; /* of the last reading */

  gboolean same; /* nothing is wrong with the run: it is compared with itself */
};

HobComparison *
hob_comparison_new (const HobPlan *plan)
{
  HobComparison *c = g_new0 (HobComparison, 1);

  c->now = hob_moment_new (plan);
  c->normal = g_new0 (Normal, 1);
  for (int k = 0; k < N_READINGS; k++)
    c->normal->at[k] = hob_moment_new (plan);
  c->local = hob_local_new (plan);
  c->same = TRUE;
  return c;
}

void
hob_comparison_free (HobComparison *c)
{
  if (c == NULL)
    return;
  hob_moment_free (c->now);
  for (int k = 0; k < N_READINGS; k++)
    hob_moment_free (c->normal->at[k]);
  hob_local_free (c->local);
  g_free (c->normal);
  g_free (c);
}

void
hob_comparison_read (HobComparison *c, HobRun *run, HobRun *should_be, double t)
{
  hob_run_read (run, t, c->now);
  c->same = should_be == NULL || should_be == run;
  c->should_be = should_be;
  c->normal->around = FALSE;
  if (!c->same)
    hob_run_read (should_be, t, c->normal->at[AT]);
}

static void
read_around (const HobComparison *c)
{
  double t = c->now->t;

  if (c->normal->around)
    return;
  hob_run_read (c->should_be, MAX (t - AROUND, 0), c->normal->at[BEFORE]);
  hob_run_read (c->should_be, t + AROUND, c->normal->at[AFTER]);
  c->normal->around = TRUE;
}

const HobMoment *
hob_comparison_now (const HobComparison *c)
{
  return c->now;
}

const HobMoment *
hob_comparison_normal (const HobComparison *c)
{
  return c->same ? c->now : c->normal->at[AT];
}

/* ---- What differs ---- */

/* Something that can be read of a moment. */
typedef double (*Reading) (const HobMoment *m, int part, int index);

static gboolean
differs (const HobComparison *c, Reading read, int part, int index, double least,
         double *should_be)
{
  double value = read (c->now, part, index);
  double normal = c->same ? value : read (c->normal->at[AT], part, index);
  double low = normal, high = normal;

  if (should_be != NULL)
    *should_be = normal;
  if (c->same || !hob_differs_by (value, normal, least))
    return FALSE;
  read_around (c);
  for (int k = BEFORE; k <= AFTER; k += AFTER - BEFORE)
    {
      normal = read (c->normal->at[k], part, index);
      low = fmin (low, normal);
      high = fmax (high, normal);
      if (!hob_differs_by (value, normal, least))
        return FALSE;
    }
  return !(value >= low && value <= high);
}

static double
read_mode (const HobMoment *m, int part, int mode)
{
  return hob_moment_part (m, part)->mode[mode];
}

static double
read_current (const HobMoment *m, int wire, int index)
{
  return hob_complex_abs (hob_moment_wire_current (m, wire));
}

static double
read_volts (const HobMoment *m, int part, int terminal)
{
  return hob_complex_abs (hob_moment_volts (m, (HobEnd){ part, terminal }));
}

static double
read_power (const HobMoment *m, int pipe, int index)
{
  return fabs (hob_moment_pipe_flow (m, pipe)) * hob_moment_house (m)->fuel->heat;
}

static double
read_pressure (const HobMoment *m, int part, int port)
{
  return hob_moment_pressure (m, (HobEnd){ part, port });
}

/* An eye tells glows apart by their color: what doesn't glow looks the same however warm it is. */
static gboolean
glows_alike (const HobComparison *c, int part, int quantity)
{
  return hob_glow_word (hob_moment_quantity (c->now, part, quantity))
         == hob_glow_word (hob_moment_quantity (hob_comparison_normal (c), part, quantity));
}

gboolean
hob_comparison_quantity (const HobComparison *c, int part, int quantity, double *should_be)
{
  const HobQuantityDef *def = &c->now->plan->range->parts[part].kind->quantities[quantity];

  if (def->say == HOB_SAY_GLOW && glows_alike (c, part, quantity))
    {
      if (should_be != NULL)
        *should_be = hob_moment_quantity (hob_comparison_normal (c), part, quantity);
      return FALSE;
    }
  return differs (c, hob_moment_quantity, part, quantity,
                  def->least > 0 ? def->least : hob_differ_floor (def->dim), should_be);
}

gboolean
hob_comparison_mode (const HobComparison *c, int part, int mode, double *should_be)
{
  return differs (c, read_mode, part, mode, hob_differ_floor (HOB_DIM_CHOICE), should_be);
}

gboolean
hob_comparison_current (const HobComparison *c, int wire, double *should_be)
{
  return differs (c, read_current, wire, 0, hob_differ_floor (HOB_DIM_CURRENT), should_be);
}

/* A stray volt or two on an unconnected terminal is not a reading. */
gboolean
hob_comparison_volts (const HobComparison *c, HobEnd terminal, double *should_be)
{
  const double least = 1; /* V, common practice, no source */
  double normal;
  gboolean off = differs (c, read_volts, terminal.part, terminal.terminal,
                          hob_differ_floor (HOB_DIM_VOLTAGE), &normal);

  if (should_be != NULL)
    *should_be = normal;
  return off && fabs (read_volts (c->now, terminal.part, terminal.terminal) - normal) > least;
}

gboolean
hob_comparison_power (const HobComparison *c, int pipe, double *should_be)
{
  return differs (c, read_power, pipe, 0, hob_differ_floor (HOB_DIM_POWER), should_be);
}

gboolean
hob_comparison_pressure (const HobComparison *c, HobEnd port, double *should_be)
{
  return differs (c, read_pressure, port.part, port.terminal,
                  hob_differ_floor (HOB_DIM_PRESSURE), should_be);
}

/* ---- Who is to blame ---- */

static gboolean
mode_with_words_differs (const HobComparison *c, int part)
{
  const HobKind *kind = c->now->plan->range->parts[part].kind;

  for (int k = 0; k < kind->n_modes; k++)
    if (kind->modes[k].words != NULL && hob_comparison_mode (c, part, k, NULL))
      return TRUE;
  return FALSE;
}

gboolean
hob_comparison_culprit (HobComparison *c, int part, int *element)
{
  const double *normal = c->normal->at[AT]->part[part].set;

  if (element != NULL)
    *element = -1;
  if (c->same || !hob_local_is_changed (c->now, part, normal))
    return FALSE;
  return hob_local_misbehaves (c->local, c->now, part, normal, element)
         || mode_with_words_differs (c, part);
}

/* By a sense or an instrument: its unit says whether one reads it. */
static gboolean
quantity_shows (const HobQuantityDef *def)
{
  return !def->counts && (def->sense != HOB_SENSE_NONE || def->dim != HOB_DIM_NUMBER);
}

gboolean
hob_comparison_shows (const HobComparison *c)
{
  const HobRange *range = c->now->plan->range;

  if (c->same)
    return FALSE;
  for (int p = 0; p < range->n_parts; p++)
    for (int q = 0; q < range->parts[p].kind->n_quantities; q++)
      if (quantity_shows (&range->parts[p].kind->quantities[q])
          && hob_comparison_quantity (c, p, q, NULL))
        return TRUE;
  for (int k = 0; k < range->n_wires; k++)
    if (hob_comparison_current (c, k, NULL) || hob_comparison_volts (c, range->wires[k].from, NULL))
      return TRUE;
  for (int k = 0; k < range->n_pipes; k++)
    if (hob_comparison_pressure (c, range->pipes[k].from, NULL))
      return TRUE;
  return FALSE;
}

gboolean
hob_comparison_has_shown (HobComparison *c)
{
  return hob_comparison_shows (c)
         || (!c->same && !isnan (hob_step_twin_shown (c->should_be, c->now->t)));
}

gboolean
hob_comparison_acts (HobComparison *c, int part)
{
  return !c->same && hob_local_acts_apart (c->local, c->now, c->normal->at[AT], part);
}
