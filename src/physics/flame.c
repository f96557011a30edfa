/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/flame.h"

#include <math.h>

/* ---- Air and mixture ----
 *
 * A free jet of gas drags air along until its momentum fills the ports. With the areas of jet and
 * ports and the specific gravity SG this gives, in volumes of air per volume of gas,
 *
 *   r = e·√SG·(√(A_ports/A_jet) − 1)·shutter
 *
 * Its form is the momentum balance of injector burners. e = 0.55 is this project's figure: it
 * gives a natural gas burner with A_ports/A_jet = 206 60% of its air. The shutter is 0 closed, 1
 * open. */
double
hob_primary_air (const HobFuel *fuel, double ports_to_jet, double shutter)
{
  const double entrainment = 0.55;
  double pull = sqrt (MAX (ports_to_jet, 1)) - 1;

  return entrainment * sqrt (fuel->specific_gravity) * pull * CLAMP (shutter, 0, 1);
}

/* x = 1/(1 + r) */
double
hob_primary_mixture (double primary_air)
{
  return 1 / (1 + primary_air);
}

/* x_tip = x/(1 + m). The primary mixture alone is near its rich limit. On the way to the tip it
 * meets m volumes of room air: 0.7 where everything is in place (this project's figure). */
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

/* ---- Ignition ---- */

gboolean
hob_mixture_burns (const HobFuel *fuel, double x)
{
  return x >= fuel->lean && x <= fuel->rich;
}

/* How far a mixture is from the best one: u = 0 where fuel and air match, 1 at either limit. */
static double
off_best (const HobFuel *fuel, double x)
{
  double best = 1 / (1 + fuel->air);

  return x < best ? (best - x) / (best - fuel->lean) : (x - best) / (fuel->rich - best);
}

/* T_ign = T_best + 100 K·u², and never below auto-ignition. Surfaces in the open light a gas only
 * far above its auto-ignition temperature, which is measured in a closed vessel (API RP 2216: 200
 * °C above it and more). T_best and the 100 K are this project's figures; an igniter that follows
 * the design rule of at least 1,100 °C (US patent 5,892,201) then lights every mixture that
 * burns. */
double
hob_hot_surface_ignition (const HobFuel *fuel, double x)
{
  const double rise = 100; /* K */

  if (!hob_mixture_burns (fuel, x))
    return INFINITY;

  double u = off_best (fuel, x);
  return MAX (fuel->hot_surface + rise * u * u, fuel->autoignition);
}

/* E = E_min·100^(u²)·max(d_q/d, 1)³
 *
 * Measured energies are U-shaped over the mixture on a logarithmic scale (US Bureau of Mines
 * Bulletin 627); the factor 100 at the limits is this project's figure for their steep ends. In a
 * gap d below the quenching distance d_q the electrodes take the heat of the young flame. That
 * this rises with the third power is from memory of the curves of B. Lewis and G. von Elbe. */
double
hob_spark_ignition (const HobFuel *fuel, double x, double gap)
{
  if (!hob_mixture_burns (fuel, x) || gap <= 0)
    return INFINITY;

  double u = off_best (fuel, x);
  double narrow = MAX (fuel->quench / gap, 1);
  return fuel->spark_energy * pow (100, u * u) * narrow * narrow * narrow;
}

/* ---- Look of a flame ---- */

/* 3u² − 2u³ between 0 and 1: smooth at both ends. */
static double
ramp (double u)
{
  u = CLAMP (u, 0, 1);

  return u * u * (3 - 2 * u);
}

#define YELLOW_BAND 0.15

/* With less primary air than fuel->yellow_below, soot glows in the tips; 0.15 of the
 * stoichiometric air less, and all of the flame is yellow (this project's figures). */
double
hob_flame_yellow (const HobFuel *fuel, double aeration)
{
  return ramp ((fuel->yellow_below - aeration) / YELLOW_BAND);
}

/* σ = yellow + 2·max (1 − a/a_yellow, 0)
 *
 * A flame that is all yellow makes the more soot and monoxide the less primary air it has left:
 * without any, as where its shutter is closed, three times as much (this project's figure). */
double
hob_flame_soot (const HobFuel *fuel, double aeration)
{
  const double without = 2;

  return hob_flame_yellow (fuel, aeration)
         + without * MAX (1 - aeration / (fuel->yellow_below - YELLOW_BAND), 0);
}

/* With more primary air the mixture leaves the ports faster than it burns, and the flame lifts.
 * Both ends of the band, as shares of the stoichiometric air, are this project's figures. */
double
hob_flame_lift (const HobFuel *fuel, double aeration)
{
  const double lifts_above = 0.75, all_lifted = 0.95;

  return ramp ((aeration - lifts_above) / (all_lifted - lifts_above));
}

/* r/a·(1 − 0.6·ramp ((d − 0.015)/0.03)),   d = 0.2095 − oxygen
 *
 * Where the air has lost oxygen, the flame is as soft and yellow as one with less primary air.
 * This project's figures: nothing is seen before 1.5% of oxygen is gone. */
double
hob_flame_aeration (const HobFuel *fuel, double primary_air, double oxygen)
{
  const double unseen = 0.015, band = 0.03, most = 0.6;
  double gone = HOB_OXYGEN_IN_AIR - oxygen;

  return hob_aeration (fuel, primary_air) * (1 - most * ramp ((gone - unseen) / band));
}

/* b = ramp ((x − 0.155)/0.015): a flame burns all of its gas down to 17% of oxygen, and what its
 * air can still burn below.  S/S0 = (x − 0.14)/(0.2095 − 0.14): the burning velocity falls about
 * in proportion to the oxygen above what can burn at all (from memory).  Both pairs of figures are
 * this project's. */
double
hob_flame_share (double oxygen)
{
  const double none = 0.155, all = 0.170;

  return ramp ((oxygen - none) / (all - none));
}

double
hob_flame_slowed (double oxygen)
{
  const double none = 0.14;

  return CLAMP ((oxygen - none) / (HOB_OXYGEN_IN_AIR - none), 0.01, 1);
}

/* S = 0.40 m/s·exp (−((1/a − 1.08)/w)²),   w = 0.42 lean, 0.34 rich
 *
 * The bell over the equivalence ratio 1/a is drawn through the laminar burning velocities of
 * methane that G. E. Andrews and D. Bradley gathered (from memory: 0.40 m/s at 1.06, 0.26 at 0.8,
 * 0.25 at 1.3, 0.17 at 1.4).  Propane's differ by a tenth there and are taken as the same. */
double
hob_burning_velocity (double aeration)
{
  const double most = 0.40, best = 1.08, lean = 0.42, rich = 0.34;
  double ratio = 1 / MAX (aeration, 1e-3), off = (ratio - best) / (ratio < best ? lean : rich);

  return most * exp (-off * off);
}

/* φ = φ0·exp (d/0.01)·(1 + 6·exp (−ΔT/80 K))·(1 + 10·σ + 10·lift)·over³,   d as above
 *
 * and φ/(1 + φ/0.2) of the carbon becomes monoxide: in a starved oven up to 2% of the air-free gas,
 * beyond the end of most analyzers (from memory).  It rises steeply where oxygen is short, where
 * cold metal quenches the flame, and where the flame is out of order or too large.  All figures are
 * this project's: they make 50 to 100 ppm air-free in a hot oven, several times that in its first
 * minutes, and far above the approvals' limit of 800 ppm where air is short. */
double
hob_flame_co (double oxygen, double soot, double lift, double over, double warm)
{
  const double least = 1e-4, per_oxygen = 0.01, cold = 6, cools = 80, disorder = 10,
               most = 0.20;
  double lack = exp (MIN ((HOB_OXYGEN_IN_AIR - oxygen) / per_oxygen, 10));
  double quench = 1 + cold * exp (-MAX (warm, 0) / cools);
  double large = MAX (over, 1);
  double phi = least * lack * quench * (1 + disorder * (soot + lift)) * large * large * large;

  return phi / (1 + phi / most);
}
