/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Knob of a top burner, in per cent of the stem's travel: the way to low is 270°, so light (20 %)
 * is 54° from off. */

#include "base/i18n.h"
#include "parts/kind.h"

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

static const HobQuantityDef quantities[] = {
  { "travel", N_ ("travel of the stem, per cent"), HOB_DIM_NUMBER, HOB_SENSE_EYE },
};

static double
turn (const HobPartContext *c)
{
  return c->ctl[0];
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
  HOB_TABLE (controls, controls),
  HOB_TABLE (quantities, quantities),
  .figure = -1,
  .turn = turn,
  .observe = observe,
  .asks = asks,
};
