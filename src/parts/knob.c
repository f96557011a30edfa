/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Knob of a top burner, in per cent of the stem's travel: the way to low is 270°, so light (20 %)
 * is 54° from off.  A worn knob or a broken stem loses part of the turn. */

#include "base/i18n.h"
#include "parts/kind.h"

enum { SLIP };
enum { Q_TRAVEL };

#define ASKS_FROM 10.0 /* %: the gas valve begins to open */

static const HobPosition positions[] = {
  { "off", N_ ("Off"), 0 },
  { "light", N_ ("Light"), 20 },
  { "high", N_ ("High"), 35 },
  { "low", N_ ("Low"), 100 },
  { NULL },
};
static const HobControlDef controls[] = {
  { "", N_ ("burner knob"), HOB_DIM_NUMBER, positions, 0, 100, 0, HOB_EXERCISE_LIGHT },
};

static const HobSettingDef settings[] = {
  { "slip", N_ ("Share of its turn that does not reach the stem."), HOB_DIM_NUMBER, 0, 0, 1, NULL,
    TRUE },
};

static const HobFaultDef faults[] = {
  { "slips",
    N_ ("knob worn or stem broken: it slips"),
    N_ ("share of the turn that is lost, a third to all of it"),
    0.6,
    3,
    N_ ("assumption"),
    N_ ("Pull the knob and turn the stem with pliers: sparks and gas come as they should. Another "
        "burner's knob on this stem works."),
    N_ ("Where the stem itself is broken the burner cannot be shut at the knob: gas shut behind "
        "the "
        "range."),
    -1,
    1,
    { { SLIP, HOB_EFFECT_SET, 0.33, 1 } } },
};

static const HobQuantityDef quantities[] = {
  { "travel", N_ ("travel of the stem, per cent"), HOB_DIM_NUMBER, HOB_SENSE_EYE },
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
  .about = N_ ("Turns the stem of a gas valve and of the spark switch behind it."),
  .flags = HOB_KIND_FRONT,
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .figure = -1,
  .turn = turn,
  .observe = observe,
  .asks = asks,
};
