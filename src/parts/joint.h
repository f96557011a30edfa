/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/hash.h"
#include "base/i18n.h"
#include "parts/kind.h"
#include "physics/material.h"

#include <math.h>

/* A bad connection or contact is a small heater.
 *
 *   C dT/dt = i²R − G(T − Tₐ) − εσA(T⁴ − Tₐ⁴) − hA(T − Tₐ)
 *   R       = ohms·(1 + wear)·(cold + (1 − cold)·(1 − exp(−(T − 298 K)/60 K)))
 *   d wear/dt = (i²R − 15 W)/15 W / 20 h                  only above 15 W
 *             + (0.25 + wear)·(exp ((T − 573 K)/120 K) − 1) / 45 min   only above 573 K
 *   d brown/dt = (1 − brown) / (10 s + 300 s·exp (14,400 K·(1/T − 1/505 K)))
 *
 * `ohms` is its resistance when hot.  Cold, its two halves press together, and the small current of
 * an ohmmeter finds little.  Above 15 W it is hotter than its insulation can take, and gets worse.
 * Its metal tarnishes and its insulation browns long before: the rate of that doubles about every
 * 11 K around 200 °C, near the ten kelvins by which insulation is said to live half as long (common
 * practice, no source).  It takes two minutes at 450 °F, some seconds at 900 °F, and four days at
 * 250 °F, as behind a hot oven.  From 150 °C on it smells, from 250 °C on its insulation smokes
 * (from memory).
 *
 * Above 300 °C it chars, the hotter the faster, as what burns does: 30 W take forty minutes, 60 W
 * some four.  What chars smolders on at less (the 573 K fall to 373 K): it burns until so little
 * current is left that it cools, at some kilohms in a circuit of 120 V, which is as good as open.
 * A contact may weld instead (three units in ten): 1 + wear then falls at that rate.  A wire that
 * touches the chassis is such a place too: what the breaker lets through burns it clear, or welds
 * it to where the breaker doesn't.
 *
 * A burned connection has a history: what made it so has left its mark, and whoever looks at it
 * finds it brown with the range cold.  It is as brown as its resistance would have left it after a
 * month's baking, an hour a day, at the 3 A of an oven.  A screw that is merely loose is new to it.
 * Invented for a believable appliance. */

#define HOB_JOINT_COLD 0.15    /* share of its resistance that is left cold */
#define HOB_JOINT_SPAN 60.0    /* K */
#define HOB_JOINT_HEAT 2.0     /* J/K */
#define HOB_JOINT_LEADS 0.06   /* W/K into its wires */
#define HOB_JOINT_SURFACE 6e-4 /* m² */
#define HOB_JOINT_LIMIT 15.0   /* W, above which it gets worse */
#define HOB_JOINT_LIFE 72000.0 /* s to double at twice the limit */
#define HOB_JOINT_CHARS 573.0  /* K */
#define HOB_JOINT_SMOLDERS 200.0
#define HOB_JOINT_CHAR_SPAN 120.0 /* K by which it chars e times as fast */
#define HOB_JOINT_CHARRING 2700.0 /* s */
#define HOB_JOINT_FRESH 0.25      /* what begins to char, as a share of its resistance */
#define HOB_JOINT_SMOKES 523.0    /* K */
#define HOB_JOINT_BROWNS 505.0    /* K, 450 °F … */
#define HOB_JOINT_BROWNING 300.0  /* s, τ there: 0.3, which an eye sees, in 110 s */
#define HOB_JOINT_BROWN_HEAT 14400.0 /* K, E/R: 120 kJ/mol; PVC's loss of its acid (from memory) */
#define HOB_JOINT_BROWN_LEAST 10.0   /* s, τ in the end: what browns must get warm itself */
#define HOB_JOINT_BROWN_FROM 340.0   /* K, below which that takes years */
#define HOB_JOINT_SERVED_AMPS 3.0
#define HOB_JOINT_SERVED 1e5         /* s */
#define HOB_JOINT_OPEN 10.0    /* times its resistance: it has burned open */
#define HOB_JOINT_WELDED -0.7  /* wear of one that has welded */
#define HOB_JOINT_WELDS 0.3    /* share of units whose contact welds */
#define HOB_JOINT_CHANCE (1 << 24) /* number of the hash that decides it */

/* States of a joint, in this order. */
#define HOB_JOINT_STATES                                                                           \
  { .name = "joint", .words = "temperature of the joint", .dim = HOB_DIM_TEMPERATURE,              \
    .tolerance = 0.5 },                                                                            \
  {                                                                                                \
    .name = "joint-wear",                                                                          \
    .words = "what heat has added to the joint's resistance, as a share",                          \
    .tolerance = 1e-3                                                                              \
  }

enum { HOB_JOINT_KELVIN, HOB_JOINT_WEAR, HOB_JOINT_N_STATES };

/* One state of all the joints of a part: it browns at the rate of the hottest. */
#define HOB_JOINT_BROWN_STATE                                                                      \
  {                                                                                                \
    .name = "joint-tarnish", .words = "how brown its joints are, 0 to 1", .tolerance = 1e-2        \
  }

/* Its quantities, in this order. */
#define HOB_JOINT_QUANTITIES                                                                       \
  { .name = "joint-temperature", .words = N_ ("temperature of the connection"),                    \
    .dim = HOB_DIM_TEMPERATURE, .says = N_ ("The connection is at %s.") },                         \
  { .name = "joint-heat", .words = N_ ("heat from the connection"), .dim = HOB_DIM_WATTS,          \
    .says = N_ ("The connection produces %s of heat.") },                                          \
  { .name = "joint-smell", .words = N_ ("smell of hot insulation at the connection"),              \
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_NOSE,                                                 \
    .says = N_ ("The smell of hot insulation is at %s of its full strength.") },                   \
  { .name = "joint-smoke", .words = N_ ("smoke from the connection"), .say = HOB_SAY_SHARE,        \
    .sense = HOB_SENSE_EYE },                                                                      \
  { .name = "joint-discolored", .words = N_ ("discoloration of the connection"),                   \
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE, .mark = TRUE },                                  \
  {                                                                                                \
    .name = "joint-burned-open", .words = N_ ("how badly the connection is burned"),               \
    .say = HOB_SAY_SHARE                                                                           \
  }

/* What they move; @first: the first of them. */
#define HOB_JOINT_LINK(from_, to_, words_) { .from = from_, .to = to_, .words = words_ }
#define HOB_JOINT_LINKS(first)                                                                     \
  HOB_JOINT_LINK ((first) + HOB_JOINT_POWER, (first) + HOB_JOINT_TEMPERATURE,                      \
                  N_ ("The connection produces %s of heat.")),                                     \
  HOB_JOINT_LINK ((first) + HOB_JOINT_TEMPERATURE, (first) + HOB_JOINT_SMELL,                      \
                  N_ ("The connection is at %s.")),                                                \
  HOB_JOINT_LINK ((first) + HOB_JOINT_TEMPERATURE, (first) + HOB_JOINT_SMOKE,                      \
                  N_ ("The connection is at %s.")),                                                \
  HOB_JOINT_LINK ((first) + HOB_JOINT_TEMPERATURE, (first) + HOB_JOINT_DISCOLORED,                 \
                  N_ ("The connection is at %s."))

enum
{
  HOB_JOINT_TEMPERATURE,
  HOB_JOINT_POWER,
  HOB_JOINT_SMELL,
  HOB_JOINT_SMOKE,
  HOB_JOINT_DISCOLORED,
  HOB_JOINT_BURNED_OPEN,
};

/* Where a kind keeps one: the setting that is its `ohms`, the first of its states, and `brown`. */
typedef struct
{
  int ohms, states, brown;
  gboolean contact; /* it opens and closes, so it can weld */
  gboolean bare;    /* a wire that touches metal: it has the same ohms cold */
  gboolean burned;  /* heat has made it what it is */
} HobJoint;

/* Does this unit's contact weld where others burn open?  The typical unit's burns open. */
static inline gboolean
hob_joint_welds (const HobPartContext *c, const HobJoint *joint)
{
  return joint->contact && c->seed != 0
         && hob_hash_uniform (c->seed, (guint64) c->index, HOB_JOINT_CHANCE) < HOB_JOINT_WELDS;
}

/* Has it?  It closes and does not open any longer. */
static inline gboolean
hob_joint_welded (const double *y, const HobJoint *joint)
{
  return joint->contact && y[joint->states + HOB_JOINT_WEAR] < HOB_JOINT_WELDED;
}

/* Share of its resistance that is there at @kelvin. */
static inline double
hob_joint_warm (const HobJoint *joint, double kelvin)
{
  double warm = joint->bare ? 1 : 1 - exp (-MAX (kelvin - 298, 0) / HOB_JOINT_SPAN);

  return HOB_JOINT_COLD + (1 - HOB_JOINT_COLD) * warm;
}

/* R */
static inline double
hob_joint_ohms (const HobPartContext *c, const HobJoint *joint)
{
  const double *y = c->y + joint->states;
  double ohms = c->set[joint->ohms];

  if (ohms <= HOB_CONTACT_OHMS)
    return HOB_CONTACT_OHMS;
  return MAX (ohms * (1 + y[HOB_JOINT_WEAR]) * hob_joint_warm (joint, y[HOB_JOINT_KELVIN]),
              HOB_CONTACT_OHMS);
}

/* i²R, where it is a branch of the circuit as @element. */
static inline double
hob_joint_watt (const HobPartContext *c, const HobJoint *joint, int element)
{
  double ohms = hob_joint_ohms (c, joint);

  return ohms < INFINITY ? hob_complex_abs2 (c->i[element]) * ohms : 0;
}

/* W that it loses at @kelvin to its wires and to the @air around it. */
static inline double
hob_joint_loss (double kelvin, double air)
{
  return HOB_JOINT_LEADS * (kelvin - air)
         + hob_surface_loss (HOB_JOINT_SURFACE, 0.8, 10, kelvin, air);
}

/* τ of browning */
static inline double
hob_joint_browning (double kelvin)
{
  return HOB_JOINT_BROWN_LEAST
         + HOB_JOINT_BROWNING * exp (HOB_JOINT_BROWN_HEAT * (1 / kelvin - 1 / HOB_JOINT_BROWNS));
}

/* How brown its service has left it: the temperature at which it loses what it gets. */
static inline double
hob_joint_served (const HobPartContext *c, const HobJoint *joint)
{
  const double amps2 = HOB_JOINT_SERVED_AMPS * HOB_JOINT_SERVED_AMPS;
  double air = c->house->temperature, low = air, high = 1500, ohms = c->set[joint->ohms];

  if (!joint->burned || ohms <= HOB_CONTACT_OHMS)
    return 0;
  while (high - low > 0.01)
    {
      double kelvin = (low + high) / 2;
      gboolean gains = amps2 * ohms * hob_joint_warm (joint, kelvin) > hob_joint_loss (kelvin, air);

      *(gains ? &low : &high) = kelvin;
    }
  return -expm1 (-HOB_JOINT_SERVED / hob_joint_browning (low));
}

static inline void
hob_joint_start (const HobPartContext *c, const HobJoint *joint, double *y)
{
  y[joint->states + HOB_JOINT_KELVIN] = c->house->temperature;
  y[joint->brown] = MAX (y[joint->brown], hob_joint_served (c, joint));
}

/* d wear/dt at @watt. */
static inline double
hob_joint_wear (const HobPartContext *c, const HobJoint *joint, double watt)
{
  const double *y = c->y + joint->states;
  double kelvin = y[HOB_JOINT_KELVIN], wear = y[HOB_JOINT_WEAR];
  double chars_at, chars, worse;

  if (kelvin <= HOB_JOINT_CHARS - HOB_JOINT_SMOLDERS && watt <= HOB_JOINT_LIMIT)
    return 0;
  worse = MAX (watt / HOB_JOINT_LIMIT - 1, 0) / HOB_JOINT_LIFE;
  chars_at = HOB_JOINT_CHARS - HOB_JOINT_SMOLDERS * CLAMP (wear / HOB_JOINT_OPEN, 0, 1);
  if (kelvin <= chars_at)
    return worse;
  chars = expm1 ((kelvin - chars_at) / HOB_JOINT_CHAR_SPAN) / HOB_JOINT_CHARRING;
  return worse
         + (hob_joint_welds (c, joint) ? -chars * (1 + wear) : chars * (HOB_JOINT_FRESH + wear));
}

/* Rates of its states; Tₐ is @air. */
static inline void
hob_joint_rates (const HobPartContext *c, const HobJoint *joint, int element, double air)
{
  const double *y = c->y + joint->states;
  double *dy = c->dy + joint->states, kelvin = y[HOB_JOINT_KELVIN];
  double watt = hob_joint_watt (c, joint, element), loss = hob_joint_loss (kelvin, air);

  dy[HOB_JOINT_KELVIN] = (watt - loss) / HOB_JOINT_HEAT;
  dy[HOB_JOINT_WEAR] = hob_joint_wear (c, joint, watt);
  if (kelvin > HOB_JOINT_BROWN_FROM)
    c->dy[joint->brown]
        = MAX (c->dy[joint->brown], (1 - c->y[joint->brown]) / hob_joint_browning (kelvin));
  c->ledger[HOB_LEDGER_HEAT_IN] += watt;
  c->ledger[HOB_LEDGER_HEAT_OUT] += loss;
}

/* Quantity @which of HOB_JOINT_QUANTITIES. */
static inline double
hob_joint_observe (const HobPartContext *c, const HobJoint *joint, int element, int which)
{
  double kelvin = c->y[joint->states + HOB_JOINT_KELVIN];
  double wear = c->y[joint->states + HOB_JOINT_WEAR];

  switch (which)
    {
    case HOB_JOINT_TEMPERATURE: return kelvin;
    case HOB_JOINT_POWER: return hob_joint_watt (c, joint, element);
    case HOB_JOINT_SMELL: return CLAMP ((kelvin - 423) / 100, 0, 1);
    case HOB_JOINT_SMOKE: return CLAMP ((kelvin - HOB_JOINT_SMOKES) / 100, 0, 1);
    case HOB_JOINT_DISCOLORED: return CLAMP (c->y[joint->brown], 0, 1);
    default: return CLAMP (wear / HOB_JOINT_OPEN, 0, 1);
    }
}

static inline double
hob_joint_stored (const HobPartContext *c, const HobJoint *joint)
{
  return HOB_JOINT_HEAT * c->y[joint->states + HOB_JOINT_KELVIN];
}
