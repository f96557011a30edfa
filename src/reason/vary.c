/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/vary.h"

#include "base/hash.h"

#include <math.h>

#define UNITS 0.03  /* this project's assumption */
#define VOLTS 0.05
#define KELVIN 10.0 /* this project's assumption */
#define ROOM 298.15 /* K: a temperature's 3 % are of its distance to the room's */

/* What the setting is moved to by @u in −1 … 1; NaN: it is not moved. */
static double
moved (const HobSettingDef *def, double value, double u)
{
  if (def->condition || def->dim == HOB_DIM_CHOICE || !isfinite (value))
    return NAN;
  if (def->of == HOB_SETTING_NOMINAL)
    return def->dim == HOB_DIM_TEMPERATURE ? value + KELVIN * u
           : def->dim == HOB_DIM_VOLTAGE   ? value * (1 + VOLTS * u)
                                           : NAN;
  if (def->of != HOB_SETTING_APPLIANCE || value == 0)
    return NAN;
  return def->dim == HOB_DIM_TEMPERATURE ? value + UNITS * u * (value - ROOM)
                                         : value * (1 + UNITS * u);
}

void
hob_case_vary (HobCase *c, guint64 seed)
{
  const HobRange *range = c->range;
  guint at = 0;

  c->seed = seed;
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_settings; k++)
      {
        const HobSettingDef *def = &range->parts[p].kind->settings[k];
        double u = 2 * hob_hash_uniform (seed, (guint64) p, (guint64) k) - 1;
        double value = moved (def, range->parts[p].set[k], u);

        if (isfinite (value))
          hob_case_insert (c, at++, (HobAct){ .what = HOB_ACT_SETTING, .part = p, .index = k,
                                              .value = CLAMP (value, def->low, def->high) });
      }
}
