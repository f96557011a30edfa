/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/air.h"

#include <math.h>

/* Private to the oven's cavity: what its files share.  cavity.c says where the heat goes,
 * cavity-air.c what fills the oven, the burner compartment and the drawer. */

G_BEGIN_DECLS

/* Settings, states, modes and quantities, in the order of their tables. */
enum {
  HOB_CAVITY_VOLUME,
  HOB_CAVITY_DRAWER_VOLUME,
  HOB_CAVITY_LEAK,
  HOB_CAVITY_COMPARTMENT_SHARE,
  HOB_CAVITY_BLOCKED,
  HOB_CAVITY_FOIL,
  HOB_CAVITY_OIL_LEFT,
};

enum {
  HOB_CAVITY_AIR_LOW,
  HOB_CAVITY_AIR_HIGH,
  HOB_CAVITY_FLOOR,
  HOB_CAVITY_LINER,
  HOB_CAVITY_OUTER,
  HOB_CAVITY_COMPARTMENT,
  HOB_CAVITY_GAS,
  HOB_CAVITY_OXYGEN,
  HOB_CAVITY_BURNT,
  HOB_CAVITY_CO,
  HOB_CAVITY_DRAWER,
  HOB_CAVITY_RISE,
  HOB_CAVITY_OIL,
  HOB_CAVITY_BELOW,
};

enum {
  HOB_CAVITY_STIRRED,
  HOB_CAVITY_RISING,
  HOB_CAVITY_TOP,
  HOB_CAVITY_SWING,
  HOB_CAVITY_MIDDLE,
  HOB_CAVITY_TARGET,
  HOB_CAVITY_BLASTING,
  HOB_CAVITY_BLAST,
  HOB_CAVITY_BLAST_AT,
  HOB_CAVITY_BURST,
  HOB_CAVITY_COUNTS,
  HOB_CAVITY_DRAWER_BLAST,
  HOB_CAVITY_BLAST_OF,
  HOB_CAVITY_DRAWER_OF,
};

enum {
  HOB_CAVITY_Q_AIR,
  HOB_CAVITY_Q_LOW,
  HOB_CAVITY_Q_HIGH,
  HOB_CAVITY_Q_FLOOR,
  HOB_CAVITY_Q_WALL,
  HOB_CAVITY_Q_OUTER,
  HOB_CAVITY_Q_COMPARTMENT,
  HOB_CAVITY_Q_VENT,
  HOB_CAVITY_Q_SHORT,
  HOB_CAVITY_Q_ABOVE,
  HOB_CAVITY_Q_SWING,
  HOB_CAVITY_Q_MIDDLE,
  HOB_CAVITY_Q_GAS,
  HOB_CAVITY_Q_SMELL,
  HOB_CAVITY_Q_LIGHT_ENERGY,
  HOB_CAVITY_Q_BURST,
  HOB_CAVITY_Q_DOOR,
  HOB_CAVITY_Q_UNEVEN,
  HOB_CAVITY_Q_TILT,
  HOB_CAVITY_Q_EDGE,
  HOB_CAVITY_Q_DRAWER,
  HOB_CAVITY_Q_OXYGEN,
  HOB_CAVITY_Q_CO,
  HOB_CAVITY_Q_CO_MEASURED,
  HOB_CAVITY_Q_OIL,
  HOB_CAVITY_Q_OIL_SMELL,
};

static inline double
hob_cavity_centre (const HobPartContext *c)
{
  return (c->y[HOB_CAVITY_AIR_LOW] + c->y[HOB_CAVITY_AIR_HIGH]) / 2;
}

static inline double
hob_cavity_kitchen (const HobPartContext *c)
{
  return c->within[HOB_PLACE_AIR];
}

static inline double
hob_cavity_door_open (const HobPartContext *c)
{
  return CLAMP (c->place[HOB_PLACE_OPEN] + c->set[HOB_CAVITY_LEAK], 0, 1);
}

/* kg/s of room air through the oven. */
double hob_cavity_vent (const HobPartContext *c);
/* kg/s that burn in a blast. */
double hob_cavity_blast (const HobPartContext *c);
/* What a flame's air has left of its oxygen. */
void hob_cavity_give_oxygen (const HobPartContext *c);
/* @warming: K/s of the oven's air. */
void hob_cavity_air_rates (const HobPartContext *c, double warming);
/* > 0: something sets off what the oven holds, or the drawer. */
double hob_cavity_sets_off (const HobPartContext *c);
void hob_cavity_go_off (const HobPartContext *c);
double hob_cavity_blast_ends (const HobPartContext *c);
double hob_cavity_observe_air (const HobPartContext *c, int quantity, double warming);
double hob_cavity_stored_gas (const HobPartContext *c);
void hob_cavity_stored_air (const HobPartContext *c, double *oxygen, double *burnt);

G_END_DECLS
