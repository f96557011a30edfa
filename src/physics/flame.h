/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Air, mixture, ignition and the look of a flame: pure functions. Mixtures are fractions by
 * volume. The equation of each one and the source of its constants are above the code in
 * flame.c. */

#include "physics/gas.h"

G_BEGIN_DECLS

/* vol/vol of oxygen below which no flame lights, or keeps burning.  This project's figures; an
 * oxygen depletion sensor shuts off a heater at 18% (ANSI Z21.11.2, from memory). */
#define HOB_FLAME_LIGHTS_OXYGEN 0.170
#define HOB_FLAME_DIES_OXYGEN 0.160

/* Primary air that the jet draws into the venturi, volumes of air per volume of gas. */
double hob_primary_air (const HobFuel *fuel, double ports_to_jet, double shutter);
/* Share of fuel in the primary mixture. */
double hob_primary_mixture (double primary_air);
/* Share of fuel where that mixture meets an electrode or an igniter; @dilution is the secondary
 * air it has met by then, per volume of mixture. */
double hob_tip_mixture (double primary_mixture, double dilution);
/* Primary air as a share of what burns all the gas. */
double hob_aeration (const HobFuel *fuel, double primary_air);

/* Is a mixture of @x fuel within the flammable limits? */
gboolean hob_mixture_burns (const HobFuel *fuel, double x);
/* Temperature in K of a surface that lights it; infinite outside the limits. */
double hob_hot_surface_ignition (const HobFuel *fuel, double x);
/* The least energy in J of a spark that lights it across a gap of @gap m; infinite outside the
 * limits. */
double hob_spark_ignition (const HobFuel *fuel, double x, double gap);

/* Look of a flame, from 0 to 1: yellow tips from too little primary air, lifting from too much. */
double hob_flame_yellow (const HobFuel *fuel, double aeration);
/* As much as yellow, and beyond it the more, the less primary air there is. */
double hob_flame_soot (const HobFuel *fuel, double aeration);
double hob_flame_lift (const HobFuel *fuel, double aeration);
/* Primary air as the flame uses it, where its air has @oxygen vol/vol: a share of what burns all
 * the gas. */
double hob_flame_aeration (const HobFuel *fuel, double primary_air, double oxygen);

/* Share of a flame's gas that burns in air with @oxygen vol/vol, and the speed at which it burns
 * there, as a share of that in fresh air. */
double hob_flame_share (double oxygen);
double hob_flame_slowed (double oxygen);

/* m/s at which a flame travels through a mixture with that share of the air that burns it all. */
double hob_burning_velocity (double aeration);

/* Molecules of carbon monoxide for each carbon atom burned.  @over: heat beyond what the burner is
 * made for, as a factor; @warm: K by which the metal that it heats is above the room. */
double hob_flame_co (double oxygen, double soot, double lift, double over, double warm);

G_END_DECLS
