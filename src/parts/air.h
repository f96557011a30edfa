/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/kind.h"

/* The air of an enclosure: unburned gas, oxygen, and what burning leaves.
 *
 * One molecule of fuel needs ox molecules of oxygen and leaves `carbon` of carbon dioxide and
 * 2·(ox − carbon) of water:
 *
 *   CH4 + 2 O2 → CO2 + 2 H2O,   C3H8 + 5 O2 → 3 CO2 + 4 H2O
 *
 * A molecule of carbon monoxide in place of one of dioxide needs half a molecule of oxygen less.
 * `burnt` counts the fuel whose products are still there, so that water and carbon dioxide follow
 * from it.  What an enclosure holds follows from its temperature, n = p·V/(R·T).  Air comes in by
 * its draft; what leaves is a mixture of all that is there:
 *
 *   out = in + gas + burnt·(ox − carbon − 1) − dn/dt
 *
 * This is linear in the amounts, so that the method of integration keeps their balances. */

G_BEGIN_DECLS

#define HOB_MOLAR_GAS 8.314462618 /* J/(mol K), CODATA 2018 */
#define HOB_AIR_MOLE 0.028964     /* kg/mol of dry air; from memory */

/* kg/mol */
static inline double
hob_fuel_mole (const HobFuel *fuel)
{
  return fuel->specific_gravity * HOB_AIR_MOLE;
}

/* Molecules of oxygen that burn one of fuel. */
static inline double
hob_fuel_oxygen (const HobFuel *fuel)
{
  return fuel->air * HOB_OXYGEN_IN_AIR;
}

/* mol of anything in @volume m³ at @kelvin. */
static inline double
hob_air_moles (const HobHouse *house, double volume, double kelvin)
{
  return house->pressure * volume / (HOB_MOLAR_GAS * kelvin);
}

/* Amounts in mol, or their rates in mol/s. */
typedef struct
{
  double gas, oxygen, burnt, co;
} HobAir;

/* mol/s of mixture that leave while @in mol/s of air and @gas mol/s of fuel come in, @burnt mol/s
 * burn, and what there is grows by @swell mol/s; what the draft cannot supply is drawn in. */
static inline double
hob_air_out (const HobFuel *fuel, double *in, double gas, double burnt, double swell)
{
  double out = *in + gas + burnt * (hob_fuel_oxygen (fuel) - fuel->carbon - 1) - swell;

  *in -= MIN (out, 0);
  return MAX (out, 0);
}

/* Rates of what is there: of @n mol, @out mol/s leave; @made mol/s of fuel burn, and of that comes
 * @co mol/s of carbon monoxide. */
static inline HobAir
hob_air_rates (const HobFuel *fuel, HobAir there, double n, double out, double made, double co)
{
  double share = out / n;

  return (HobAir){ .gas = -share * there.gas,
                   .oxygen = -share * there.oxygen - hob_fuel_oxygen (fuel) * made + co / 2,
                   .burnt = -share * there.burnt + made,
                   .co = -share * there.co + co };
}

/* Oxygen atoms in oxygen and products. */
static inline double
hob_air_oxygen_atoms (const HobFuel *fuel, HobAir a)
{
  return 2 * a.oxygen + 2 * hob_fuel_oxygen (fuel) * a.burnt - a.co;
}

/* > 0: a mixture with the volume share @x of unburned fuel can go off: it is above the lean limit
 * and below the rich. */
static inline double
hob_air_explosive (const HobFuel *fuel, double x)
{
  return MIN (x / fuel->lean - 1, 1 - x / fuel->rich);
}

/* kg of @gas kg of fuel in such a mixture that go off: as much as @oxygen mol burn. */
static inline double
hob_air_goes_off (const HobFuel *fuel, double x, double gas, double oxygen)
{
  double burns = MAX (oxygen, 0) / hob_fuel_oxygen (fuel) * hob_fuel_mole (fuel);

  return hob_air_explosive (fuel, x) > 0 ? MIN (gas, burns) : 0;
}

/* In a blast of the time T all gas that goes off leaves where it was by HOB_AIR_GOES/T a
 * second, and a share of it burns.  What is left after T, e^−10, is none to speak of; and what goes
 * in proportion to what is there is never more than that. */
#define HOB_AIR_GOES 10.0

/* What an analyzer draws in is dried first: mol of @n without the water of combustion. */
static inline double
hob_air_dry (const HobFuel *fuel, HobAir a, double n)
{
  return n - 2 * (hob_fuel_oxygen (fuel) - fuel->carbon) * a.burnt;
}

/* Carbon monoxide as a share of the dry mixture, without the air in it that took no part:
 *
 *   CO·20.95 / (20.95 − O2)
 *
 * the formula of ANSI Z21.1 and of every combustion analyzer (from memory).  Of air in which next
 * to nothing has burned there is none to be said: 0. */
static inline double
hob_air_co_air_free (const HobFuel *fuel, HobAir a, double n)
{
  const double least = 0.005; /* share of oxygen that must have gone */
  double dry = hob_air_dry (fuel, a, n), spent = HOB_OXYGEN_IN_AIR * dry - a.oxygen;

  return spent > least * dry ? a.co * HOB_OXYGEN_IN_AIR / spent : 0;
}

/* Room air of @share carried along: @amount mol/s of what is @there, in @n mol. */
static inline void
hob_air_carry (double *place, HobAir there, double n, double amount)
{
  place[HOB_PLACE_CARRIED_OXYGEN] += amount * there.oxygen / n;
  place[HOB_PLACE_CARRIED_BURNT] += amount * there.burnt / n;
  place[HOB_PLACE_CARRIED_CO] += amount * there.co / n;
}

G_END_DECLS
