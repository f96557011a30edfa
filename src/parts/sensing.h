/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/kind.h"

/* A bulb or a sensor in the cavity follows mostly the air, and a little the liner's radiation,
 * and lags behind both; a fan that stirs the air halves the lag:
 *
 *   dT/dt = (T_seen − T)·(1 + stir)/lag,   T_seen = 0.88·T_air + 0.12·T_liner
 *
 * Invented for a believable appliance. */
#define HOB_SENSED_AIR 0.88 /* share; the rest is the liner's */
#define HOB_SENSED_LAG 36.0 /* s in still air */

/* K/s of a probe at @kelvin. */
static inline double
hob_sensing_rate (const HobPartContext *c, double kelvin, double lag)
{
  double seen = HOB_SENSED_AIR * c->within[HOB_PLACE_AIR]
                + (1 - HOB_SENSED_AIR) * c->within[HOB_PLACE_WALL];

  return (seen - kelvin) * (1 + c->within[HOB_PLACE_STIR]) / lag;
}
