/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Knob of a surface burner, in percent of the stem's travel.  The travel to LOW is 270°, so
 * LIGHT (20%) is 54° from OFF.  A worn knob or a broken stem loses part of the turn. */

#include "base/i18n.h"
#include "parts/kind.h"

enum { SLIP };
enum { Q_TRAVEL };

#define ASKS_FROM 10.0 /* %: the gas valve begins to open */

static const HobPosition positions[] = {
  { .name = "off", .words = N_ ("Off"), .value = 0, .role = HOB_POSITION_OFF },
  { .name = "light", .words = N_ ("Light"), .value = 20, .role = HOB_POSITION_LIGHT },
  { .name = "high", .words = N_ ("High"), .value = 35, .role = HOB_POSITION_FULL },
  { .name = "low", .words = N_ ("Low"), .value = 100, .role = HOB_POSITION_LOW },
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

static const HobFaultDef faults[] = {
  {
    .id = "slips",
    .words = N_ ("worn knob or stem slips"),
    .severity_words = N_ ("loses %s of each turn"),
    .typical = 0.6,
    .prior = 3,
    .proof = N_ ("Pull the knob and turn the stem with pliers. The burner sparks and lights. "
                 "Another burner's knob works on this stem."),
    .confirm = HOB_MEANS (HAND) | HOB_MEANS (SWAP),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = SLIP, .at0 = 0.33, .at1 = 1 }),
  },
};

static const HobQuantityDef quantities[] = {
  { .name = "travel", .words = N_ ("stem travel"), .say = HOB_SAY_PERCENT, .sense = HOB_SENSE_EYE },
};

static double
turn (const HobPartContext *c)
{
  return c->ctl[0] * (1 - c->set[SLIP]);
}

static double
observe (const HobPartContext *c, int quantity)
{
  return c->ctl[0];
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
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .figure = -1,
  .turn = turn,
  .observe = observe,
  .asks = asks,
};
