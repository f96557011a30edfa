/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/kind.h"

/* A bulb or probe in the cavity sees mostly air and a little of the liner's radiation, and lags behind both; a fan
 * that stirs the air halves the lag.  Invented for a believable appliance. */
#define HOB_SENSED_AIR 0.88 /* share; the rest is the liner's */
#define HOB_SENSED_LAG 45.0 /* s in still air */

/* K/s of a probe at @kelvin. */
static inline double
hob_sensing_rate (const HobPartContext *c, double kelvin, double lag)
{
  double seen = HOB_SENSED_AIR * c->within[HOB_PLACE_AIR] + (1 - HOB_SENSED_AIR) * c->within[HOB_PLACE_WALL];

  return (seen - kelvin) * (1 + c->within[HOB_PLACE_STIR]) / lag;
}
