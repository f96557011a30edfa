/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/step-twin.h"

#include "run/follow.h"
#include "run/record.h"
#include "run/shown.h"
#include <math.h>

gboolean
hob_act_is_wrong (const HobCase *acts, const HobAct *act)
{
  const HobKind *kind = acts->range->parts[act->part].kind;

  if (act->what == HOB_ACT_SETTING)
    return kind->settings[act->index].of == HOB_SETTING_APPLIANCE;
  return act->what != HOB_ACT_CONTROL;
}

/* ms; G_MAXINT64: nothing is. */
static gint64
first_wrong (const HobCase *acts)
{
  for (guint k = 0; k < acts->acts->len; k++)
    if (hob_act_is_wrong (acts, &g_array_index (acts->acts, HobAct, k)))
      return g_array_index (acts->acts, HobAct, k).ms;
  return G_MAXINT64;
}

double
hob_step_twin_since (const HobCase *acts)
{
  gint64 ms = first_wrong (acts);

  return ms < G_MAXINT64 ? (double) ms / 1000.0 : INFINITY;
}

HobCase *
hob_case_without_wrongs (const HobCase *acts, int part)
{
  HobCase *rest = hob_case_new (acts->range);

  rest->seed = acts->seed;
  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if ((part >= 0 && act->part != part) || !hob_act_is_wrong (acts, act))
        hob_case_add (rest, *act);
    }
  return rest;
}

HobCase *
hob_step_twin_case (const HobCase *acts)
{
  return hob_case_without_wrongs (acts, -1);
}

void
hob_run_begin_at (HobRun *twin, double t)
{
  twin->cut_at = t;
  while (hob_run_last (twin)->t0 < t && twin->trouble == NULL)
    hob_run_go_on (twin);
  while (twin->records->len > 1)
    hob_run_forget_first (twin);
  twin->stands = FALSE;
}

HobRun *
hob_step_twin_new (HobRun *run)
{
  double t = (double) first_wrong (run->acts) / 1000.0;
  g_autoptr (HobCase) acts = NULL;
  HobRun *twin;

  if (t > hob_run_reached (run))
    return NULL;
  acts = hob_step_twin_case (run->acts);
  twin = hob_run_fork (run, t, acts, NULL);
  if (twin != NULL && t > 0)
    hob_run_begin_at (twin, t);
  if (twin != NULL)
    twin->follow = hob_follow_new (run);
  return twin;
}

/* s; before it two cases do the same. */
static double
common_until (const HobCase *a, const HobCase *b)
{
  guint at = hob_case_common (a, b);
  gint64 ms = G_MAXINT64;

  if (a->seed != b->seed)
    return -1;
  if (at < a->acts->len)
    ms = g_array_index (a->acts, HobAct, at).ms;
  if (at < b->acts->len)
    ms = MIN (ms, g_array_index (b->acts, HobAct, at).ms);
  return ms < G_MAXINT64 ? (double) ms / 1000.0 : INFINITY;
}

gboolean
hob_step_twin_keep_up (HobRun *twin)
{
  const HobRun *run = hob_follow_run (twin->follow);
  double until = common_until (hob_follow_acts (twin->follow), run->acts);
  double from = twin->records->len > 0 ? g_array_index (twin->records, HobRecord, 0).t0 : 0;
  g_autoptr (HobCase) acts = NULL;
  gint64 ms;

  if (isinf (until))
    return TRUE;
  if (until <= from || isinf (hob_step_twin_since (run->acts)))
    return FALSE;
  acts = hob_step_twin_case (run->acts);
  ms = (gint64) (until * 1000.0 + 0.5);
  hob_run_set_case (twin, acts);
  hob_run_cut (twin, hob_case_place (acts, ms - 1), nextafter (until, 0));
  hob_follow_look (twin->follow);
  return TRUE;
}

double
hob_step_twin_shown (HobRun *twin, double t)
{
  if (twin->follow == NULL || hob_follow_part (twin->follow) >= 0)
    return NAN;
  if (twin->shown == NULL)
    twin->shown = hob_shown_new (twin);
  return hob_shown_at (twin->shown, t);
}

guint
hob_step_twin_looks (const HobRun *twin)
{
  return twin->shown != NULL ? hob_shown_looks (twin->shown) : 0;
}
