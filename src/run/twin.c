/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "run/twin.h"

/* The house as it nominally is, where the file says otherwise. */
static void
set_nominal (HobCase *acts)
{
  const HobRange *range = acts->range;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_settings; k++)
      {
        double filed = range->parts[p].set[k];
        double nominal
            = hob_setting_nominal (&range->parts[p].kind->settings[k], range->plate, filed);

        if (nominal != filed)
          hob_case_add (acts, (HobAct){ 0, HOB_ACT_SETTING, p, k, nominal });
      }
}

HobCase *
hob_twin_case (const HobCase *acts)
{
  const HobRange *range = acts->range;
  HobCase *twin = hob_case_new (range);

  twin->seed = acts->seed;
  set_nominal (twin);
  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if (act->what == HOB_ACT_CONTROL)
        hob_case_add (twin, *act);
    }
  return twin;
}

HobRun *
hob_twin_new (HobPlan *plan, const HobCase *acts)
{
  g_autoptr (HobCase) twin = hob_twin_case (acts);

  return hob_run_new (plan, twin, NULL);
}
