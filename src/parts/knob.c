/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Knob of a surface burner, in percent of the stem's travel.  The travel to LOW is 270°, so
 * LIGHT (20%) is 54° from OFF.  A worn knob or a broken stem loses part of the turn.
 *
 * A hand turns it through all that lies between, at twice its travel a second: half a second from
 * LOW to OFF, past HIGH and LIGHT.  It advances in steps of 4%, each of them at the end of its
 * time.  So it rests while time passes, and no position is too short to be met.  The speed is this
 * project's own. */

#include "base/i18n.h"
#include "parts/kind.h"

#include <math.h>

enum { SLIP };
enum
{
  AT,   /* %, where it is */
  GOAL, /* %, where the hand turns it */
  NEXT  /* s, when it will have made its next step */
};
enum { G_GRASPED, G_STEP, N_GUARDS };
enum { Q_TRAVEL, Q_STEM };

#define ASKS_FROM 10.0 /* %: the gas valve begins to open */
#define SPEED 200.0    /* %/s */
#define STEP 4.0       /* % */

static const HobPosition positions[] = {
  { .name = "off", .words = N_ ("OFF"), .value = 0, .role = HOB_POSITION_OFF },
  { .name = "light", .words = N_ ("LIGHT"), .value = 20, .role = HOB_POSITION_LIGHT },
  { .name = "high", .words = N_ ("HIGH"), .value = 35, .role = HOB_POSITION_FULL },
  { .name = "low", .words = N_ ("LOW"), .value = 100, .role = HOB_POSITION_LOW },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("burner knob"), .positions = positions, .high = 100,
    .exercise = HOB_EXERCISE_LIGHT, .role = HOB_CONTROL_KNOB, .front = HOB_FRONT_BURNERS },
};

static const HobSettingDef settings[] = {
  { .name = "slip", .words = "Share of its turn that does not reach the stem.", .high = 1,
    .condition = TRUE },
};

static const HobModeDef modes[] = { { .name = "reached" }, { .name = "goal" }, { .name = "next" } };

static const HobFaultDef faults[] = {
  {
    .id = "slips",
    .words = N_ ("knob slips on stem (knob or stem worn)"),
    .severity_words = N_ ("slips through %s of each turn"),
    .typical = 0.6,
    .prior = 3,
    .proof = N_ ("Pull off the knob. Push the stem in and turn it with pliers. The burner sparks "
                 "and lights. Try another burner's knob on this stem. If it slips too, the stem is "
                 "worn; if not, the knob is."),
    .confirm = HOB_MEANS (HAND) | HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = SLIP, .at0 = 0.33, .at1 = 1 }),
  },
};

static const HobQuantityDef quantities[] = {
  { .name = "travel", .words = N_ ("how far the knob is "
                                   "turned"), .say = HOB_SAY_PERCENT, .sense = HOB_SENSE_EYE },
  { .name = "stem", .words = N_ ("how far the stem turns with the knob"), .say = HOB_SAY_PERCENT,
    .sense = HOB_SENSE_HAND },
};

static const HobLinkDef links[] = {
  { .from = Q_TRAVEL, .to = Q_STEM, .words = N_ ("The knob is turned to %s of its travel.") },
};

static double
turn (const HobPartContext *c)
{
  return c->mode[AT] * (1 - c->set[SLIP]);
}

/* %, where its next step ends. */
static double
next_stop (const HobPartContext *c)
{
  double at = c->mode[AT], goal = c->mode[GOAL];

  return goal > at ? fmin (at + STEP, goal) : fmax (at - STEP, goal);
}

static double
guard (const HobPartContext *c, int k)
{
  if (k == G_GRASPED)
    return c->ctl[0] != c->mode[GOAL] ? 1 : -1;
  return c->mode[AT] != c->mode[GOAL] ? *c->t - c->mode[NEXT] : -1;
}

static const guint8 guard_reads[N_GUARDS] = { HOB_READS_NOTHING, HOB_READS_NOTHING };

/* A hand that changes its mind on the way goes on from where the knob is. */
static void
flip (const HobPartContext *c, int k, double *y)
{
  if (k == G_GRASPED)
    {
      c->mode[GOAL] = c->ctl[0];
      c->mode[NEXT] = *c->t;
    }
  else
    c->mode[AT] = next_stop (c);
  c->mode[NEXT] += fabs (next_stop (c) - c->mode[AT]) / SPEED;
}

static void
jump (const HobPartContext *c)
{
  c->mode[AT] = c->mode[GOAL] = c->ctl[0];
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_STEM ? turn (c) : c->mode[AT];
}

static gboolean
asks (const HobPartContext *c, int terminal)
{
  return c->ctl[0] > ASKS_FROM;
}

const HobKind hob_kind_knob = {
  .name = "knob",
  .label = N_ ("burner knob"),
  .about = N_ ("Turns the stem of a gas valve, which also operates the spark switch."),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (modes, modes),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = N_GUARDS,
  HOB_TABLE (links, links),
  .figure = -1,
  .turn = turn,
  .guard = guard,
  .guard_reads = guard_reads,
  .flip = flip,
  .jump = jump,
  .observe = observe,
  .asks = asks,
};
