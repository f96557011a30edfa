/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/i18n.h"
#include "parts/kind.h"
#include "physics/material.h"

#include <math.h>

/* A bad connection or contact is a small heater.
 *
 *   C dT/dt = i²R − G(T − Tₐ) − εσA(T⁴ − Tₐ⁴) − hA(T − Tₐ)
 *   R       = ohms·(1 + wear)·(cold + (1 − cold)·(1 − exp(−(T − 298 K)/60 K)))
 *   d wear/dt = (i²R − 15 W)/15 W / 20 h, only above 15 W
 *
 * `ohms` is its resistance when hot.  Cold, its two halves press together, and the small current of
 * an ohmmeter finds little.  Above 15 W it is hotter than its insulation can take: it smells, turns
 * brown, and gets worse.  Invented for a believable appliance. */

#define HOB_JOINT_COLD 0.15    /* share of its resistance that is left cold */
#define HOB_JOINT_SPAN 60.0    /* K */
#define HOB_JOINT_HEAT 2.0     /* J/K */
#define HOB_JOINT_LEADS 0.06   /* W/K into its wires */
#define HOB_JOINT_SURFACE 6e-4 /* m² */
#define HOB_JOINT_LIMIT 15.0   /* W, above which it gets worse */
#define HOB_JOINT_LIFE 72000.0 /* s to double at twice the limit */

/* States of a joint, in this order. */
#define HOB_JOINT_STATES                                                                           \
  { .name = "joint", .words = "temperature of the joint", .dim = HOB_DIM_TEMPERATURE,              \
    .tolerance = 0.5 },                                                                            \
  {                                                                                                \
    .name = "joint-wear",                                                                          \
    .words = "what heat has added to the joint's resistance, as a share",                          \
    .tolerance = 1e-3                                                                              \
  }

/* Its quantities, in this order. */
#define HOB_JOINT_QUANTITIES                                                                       \
  { .name = "joint-temperature", .words = N_ ("temperature of the connection"),                    \
    .dim = HOB_DIM_TEMPERATURE },                                                                  \
  { .name = "joint-heat", .words = N_ ("heat in the connection"), .dim = HOB_DIM_POWER },          \
  { .name = "joint-smell", .words = N_ ("smell of hot insulation at the connection"),              \
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_NOSE },                                               \
  {                                                                                                \
    .name = "joint-discolored", .words = N_ ("discoloration of the connection"),                  \
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE                                                   \
  }

enum
{
  HOB_JOINT_TEMPERATURE,
  HOB_JOINT_POWER,
  HOB_JOINT_SMELL,
  HOB_JOINT_DISCOLOURED,
};

/* Where a kind keeps one: the setting that is its `ohms`, and the first of its states. */
typedef struct
{
  int ohms, states;
} HobJoint;

/* R */
static inline double
hob_joint_ohms (const HobPartContext *c, const HobJoint *joint)
{
  double ohms = c->set[joint->ohms], kelvin = c->y[joint->states], wear = c->y[joint->states + 1];
  double warm = 1 - exp (-MAX (kelvin - 298, 0) / HOB_JOINT_SPAN);

  return MAX (ohms * (1 + wear) * (HOB_JOINT_COLD + (1 - HOB_JOINT_COLD) * warm),
              HOB_CONTACT_OHMS);
}

/* i²R, where it is a branch of the circuit as @element. */
static inline double
hob_joint_watt (const HobPartContext *c, const HobJoint *joint, int element)
{
  return hob_complex_abs2 (c->i[element]) * hob_joint_ohms (c, joint);
}

static inline void
hob_joint_start (const HobPartContext *c, const HobJoint *joint, double *y)
{
  y[joint->states] = c->house->temperature;
}

/* Rates of both states; Tₐ is @air. */
static inline void
hob_joint_rates (const HobPartContext *c, const HobJoint *joint, int element, double air)
{
  double kelvin = c->y[joint->states], *dy = c->dy + joint->states;
  double watt = hob_joint_watt (c, joint, element);
  double loss = HOB_JOINT_LEADS * (kelvin - air)
                + hob_surface_loss (HOB_JOINT_SURFACE, 0.8, 10, kelvin, air);

  dy[0] = (watt - loss) / HOB_JOINT_HEAT;
  dy[1] = MAX (watt / HOB_JOINT_LIMIT - 1, 0) / HOB_JOINT_LIFE;
  c->ledger[HOB_LEDGER_HEAT_IN] += watt;
  c->ledger[HOB_LEDGER_HEAT_OUT] += loss;
}

/* Quantity @which of HOB_JOINT_QUANTITIES.  Insulation smells from 150 °C up; what has been over
 * the limit for some minutes stays brown. */
static inline double
hob_joint_observe (const HobPartContext *c, const HobJoint *joint, int element, int which)
{
  double kelvin = c->y[joint->states], wear = c->y[joint->states + 1];

  switch (which)
    {
    case HOB_JOINT_TEMPERATURE: return kelvin;
    case HOB_JOINT_POWER: return hob_joint_watt (c, joint, element);
    case HOB_JOINT_SMELL: return CLAMP ((kelvin - 423) / 100, 0, 1);
    default: return CLAMP (wear / 0.02, 0, 1);
    }
}

static inline double
hob_joint_stored (const HobPartContext *c, const HobJoint *joint)
{
  return HOB_JOINT_HEAT * c->y[joint->states];
}
