/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/differ.h"

#include <math.h>

#define SHARE 0.03 /* of what it should be, common practice, no source */

/* What a good instrument of the trade is not sure of: common practice, no source. */
static const double floors[] = {
  [HOB_DIM_NUMBER] = 0.02, [HOB_DIM_TEMPERATURE] = 3,  [HOB_DIM_DIFFERENCE] = 3,
  [HOB_DIM_VOLTAGE] = 0.1, [HOB_DIM_CURRENT] = 0.02,   [HOB_DIM_RESISTANCE] = 2,
  [HOB_DIM_POWER] = 50,    [HOB_DIM_WATTS] = 50,    [HOB_DIM_PRESSURE] = 25,
  [HOB_DIM_LENGTH] = 1e-4,
  [HOB_DIM_TIME] = 1,      [HOB_DIM_MASS_FLOW] = 1e-6, [HOB_DIM_ENERGY] = 100,
  [HOB_DIM_RATE] = 0.15,   [HOB_DIM_CHOICE] = 0.5,     [HOB_DIM_MASS] = 1e-5,
  [HOB_DIM_FRACTION] = 20e-6, [HOB_DIM_VOLUME] = 1e-3,
};

double
hob_differ_floor (HobDimension dim)
{
  return floors[dim];
}

gboolean
hob_differs (double value, double should_be, HobDimension dim)
{
  return hob_differs_by (value, should_be, floors[dim]);
}

gboolean
hob_differs_by (double value, double should_be, double least)
{
  double off = fabs (value - should_be);

  if (isnan (value) || isnan (should_be))
    return isnan (value) != isnan (should_be);
  if (value == should_be)
    return FALSE;
  return off > least && (isinf (should_be) || off > SHARE * fabs (should_be));
}
