/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "run/twin.h"

#include <string.h>

static void
set_nominal (HobCase *acts, const char *kind_name, const char *setting_name, double nominal)
{
  const HobRange *range = acts->range;

  for (int k = 0; k < range->n_parts; k++)
    {
      const HobKind *kind = range->parts[k].kind;
      int setting = strcmp (kind->name, kind_name) == 0 ? hob_kind_setting (kind, setting_name) : -1;

      if (setting >= 0 && range->parts[k].set[setting] != nominal)
        hob_case_add (acts, (HobAct){ 0, HOB_ACT_SETTING, k, setting, nominal });
    }
}

HobCase *
hob_twin_case (const HobCase *acts)
{
  const HobRange *range = acts->range;
  HobCase *twin = hob_case_new (range);

  twin->seed = acts->seed;
  set_nominal (twin, "receptacle", "volts", 120);
  set_nominal (twin, "house", "temperature", 298.15);
  set_nominal (twin, "house", "humidity", 0.5);
  set_nominal (twin, "house", "fuel", range->plate);
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
