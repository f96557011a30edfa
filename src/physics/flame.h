/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "physics/gas.h"

G_BEGIN_DECLS

/* Primary air drawn in by the jet, vol air/vol gas: 0.55·√SG·(√(A_ports/A_jet) − 1)·shutter. */
double hob_primary_air (const HobFuel *fuel, double ports_to_jet, double shutter);
/* Fuel fraction, vol/vol, of the primary mixture. */
double hob_primary_mixture (double primary_air);
/* …and where it meets tip or igniter: x_primary/(1 + dilution); dilution 0.7 with all in place. */
double hob_tip_mixture (double primary_mixture, double dilution);
/* Primary air as a share of stoichiometric. */
double hob_aeration (const HobFuel *fuel, double primary_air);

gboolean hob_mixture_burns (const HobFuel *fuel, double x);
/* Surface temperature, K, that lights mixture x: 1,000 °C at best (LP 60 °C lower), +100 °C at
 * either limit, never below auto-ignition; +inf outside the limits. */
double hob_hot_surface_ignition (const HobFuel *fuel, double x);
/* Least spark energy, J, for mixture x across a gap (rises towards the limits and below the
 * quenching distance); +inf outside the limits. */
double hob_spark_ignition (const HobFuel *fuel, double x, double gap);

typedef enum { HOB_LIGHT_SILENT, HOB_LIGHT_SOFT, HOB_LIGHT_THUMP, HOB_LIGHT_VIOLENT } HobLightUp;
/* By unburnt energy J at lighting: < 5 kJ, 5–12, 12–40, > 40. */
HobLightUp hob_light_up (double joule);

/* Look of a flame, all 0…1: yellow tipping from lack of primary air, lifting from too much. */
double hob_flame_yellow (const HobFuel *fuel, double aeration);
double hob_flame_lift (const HobFuel *fuel, double aeration);

G_END_DECLS
