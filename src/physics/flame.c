/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/flame.h"

#include <math.h>

double
hob_primary_air (const HobFuel *fuel, double ports_to_jet, double shutter)
{
  const double entrainment
      = 0.55; /* this project's figure: 60 % primary air for natural gas at ports/jet 206 */
  double pull = sqrt (MAX (ports_to_jet, 1)) - 1;

  return entrainment * sqrt (fuel->specific_gravity) * pull * CLAMP (shutter, 0, 1);
}

double
hob_primary_mixture (double primary_air)
{
  return 1 / (1 + primary_air);
}

double
hob_tip_mixture (double primary_mixture, double dilution)
{
  return primary_mixture / (1 + dilution);
}

double
hob_aeration (const HobFuel *fuel, double primary_air)
{
  return primary_air / fuel->air;
}

gboolean
hob_mixture_burns (const HobFuel *fuel, double x)
{
  return x >= fuel->lean && x <= fuel->rich;
}

/* 0 at the stoichiometric mixture, 1 at either flammable limit. */
static double
off_best (const HobFuel *fuel, double x)
{
  double best = 1 / (1 + fuel->air);

  return x < best ? (best - x) / (best - fuel->lean) : (x - best) / (fuel->rich - best);
}

double
hob_hot_surface_ignition (const HobFuel *fuel, double x)
{
  const double rise = 100; /* K, from the best mixture to a limit */

  if (!hob_mixture_burns (fuel, x))
    return INFINITY;

  double u = off_best (fuel, x);
  return MAX (fuel->hot_surface + rise * u * u, fuel->autoignition);
}

/* The energy curves of US Bureau of Mines Bulletin 627 are U-shaped on a logarithmic scale; a
 * hundredfold at the limits stands for their steep ends.  Below the quenching distance the edges
 * drink the kernel's heat: the cube of the ratio (from memory: Lewis and von Elbe show a rise this
 * steep). */
double
hob_spark_ignition (const HobFuel *fuel, double x, double gap)
{
  if (!hob_mixture_burns (fuel, x) || gap <= 0)
    return INFINITY;

  double u = off_best (fuel, x);
  double narrow = MAX (fuel->quench / gap, 1);
  return fuel->spark_energy * pow (100, u * u) * narrow * narrow * narrow;
}

HobLightUp
hob_light_up (double joule)
{
  if (joule < 5e3)
    return HOB_LIGHT_SILENT;
  if (joule < 12e3)
    return HOB_LIGHT_SOFT;
  if (joule <= 40e3)
    return HOB_LIGHT_THUMP;
  return HOB_LIGHT_VIOLENT;
}

/* 0 below u = 0, 1 above u = 1, smooth between. */
static double
ramp (double u)
{
  u = CLAMP (u, 0, 1);

  return u * u * (3 - 2 * u);
}

double
hob_flame_yellow (const HobFuel *fuel, double aeration)
{
  return ramp ((fuel->yellow_below - aeration) / 0.15);
}

double
hob_flame_lift (const HobFuel *fuel, double aeration)
{
  const double lifts_above = 0.75,
               all_lifted = 0.95; /* share of stoichiometric air; this project's figures */

  return ramp ((aeration - lifts_above) / (all_lifted - lifts_above));
}
