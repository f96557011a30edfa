/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "parts/filament.h"

#include <math.h>

#define FULL 120.0 /* V */
#define DARK 30.0  /* V */
#define LIFE 3.6e6 /* s */
#define COLD 14.0  /* the ohms when lit over those when cold */

const char *const hob_filament_words[]
    = { N_ ("light bulb works again"), N_ ("light bulb burns out"), NULL };
const guint8 hob_filament_guard_reads[1] = { HOB_READS_NOTHING };

double
hob_filament_ohms (const HobPartContext *c)
{
  gboolean out = c->set[HOB_FILAMENT_BROKEN] > 0 || c->mode[HOB_FILAMENT_BURNED_OUT] > 0;

  return out ? INFINITY : c->set[HOB_FILAMENT_OHMS];
}

static double
volts (const HobPartContext *c)
{
  return hob_complex_abs (c->i[0]) * c->set[HOB_FILAMENT_OHMS];
}

double
hob_filament_shines (const HobPartContext *c)
{
  return volts (c) < DARK ? 0 : pow (volts (c) / FULL, 3.4);
}

/* All that it takes ends up as heat in the oven. */
void
hob_filament_rates (const HobPartContext *c)
{
  double watt = hob_complex_abs2 (c->i[0]) * c->set[HOB_FILAMENT_OHMS];

  c->dy[HOB_FILAMENT_WORN] = volts (c) < DARK ? 0 : pow (volts (c) / FULL, 16) / LIFE;
  c->within[HOB_PLACE_HEAT_AIR] += watt;
  c->ledger[HOB_LEDGER_HEAT_IN] += watt;
}

double
hob_filament_at_rest (const HobPartContext *c, int element G_GNUC_UNUSED)
{
  return hob_filament_ohms (c) / COLD;
}

double
hob_filament_guard (const HobPartContext *c, int k G_GNUC_UNUSED)
{
  return c->mode[HOB_FILAMENT_BURNED_OUT] > 0 ? -1 : c->y[HOB_FILAMENT_WORN] - 1;
}

void
hob_filament_flip (const HobPartContext *c, int k, double *y G_GNUC_UNUSED)
{
  hob_mode_toggle (c, k);
}
