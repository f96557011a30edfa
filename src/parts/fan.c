/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Convection fan: its motor's warmth stays behind the rear wall, only what it stirs reaches the cavity's air.
 * Figures invented for a believable appliance. */

#include "base/i18n.h"
#include "parts/kind.h"

enum { A, B };
enum { OHMS, BROKEN, SEIZED };
enum { Q_SPEED, Q_CURRENT };

#define FULL_VOLTS 100.0 /* at and above which it stirs fully */
#define SHAFT_SHARE 0.3  /* of its power goes into the air it moves */

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -60, 0 },
  { "b", N_ ("neutral side"), TRUE, 60, 0 },
};

static const HobSettingDef settings[] = {
  { "ohms", N_ ("What its running motor draws, as a resistance."), HOB_DIM_RESISTANCE, 480, 20, 10000 },
  { "broken", N_ ("1: its winding is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "seized", N_ ("1: its shaft does not turn."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const HobElementDef elements[] = { { "winding", A, B } };

static const HobQuantityDef quantities[] = {
  { "speed", N_ ("speed, 0 to 1"), HOB_DIM_NUMBER, HOB_SENSE_EAR },
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
};

static const HobFaultDef faults[] = {
  { "open", N_ ("fan winding broken"), NULL, 1, 4, N_ ("assumption"),
    N_ ("The line voltage stands across the motor and it draws nothing."),
    N_ ("Off is not dead: unplug and prove dead before reaching in."), -1, 1,
    { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },
  { "seized", N_ ("fan shaft stuck"), NULL, 1, 4, N_ ("assumption"),
    N_ ("The motor hums and draws current; unplugged, the blade does not turn freely by hand."),
    N_ ("Off is not dead: unplug and prove dead before reaching in."), -1, 1,
    { { SEIZED, HOB_EFFECT_SET, 0, 1 } } },
};

static double
speed (const HobPartContext *c)
{
  double volts = hob_volts_across (c, A, B);

  return c->set[SEIZED] > 0 || c->set[BROKEN] > 0 ? 0 : CLAMP (volts / FULL_VOLTS, 0, 1);
}

static void
conduct (const HobPartContext *c)
{
  if (!(c->set[BROKEN] > 0))
    c->g[0] = hob_siemens (c->set[OHMS]);
}

static void
rates (const HobPartContext *c)
{
  double stirs = speed (c);
  double shaft = stirs > 0 ? SHAFT_SHARE * hob_complex_abs2 (c->i[0]) * c->set[OHMS] : 0;

  c->within[HOB_PLACE_FAN] = MAX (c->within[HOB_PLACE_FAN], stirs);
  c->within[HOB_PLACE_HEAT_AIR] += shaft;
  c->ledger[HOB_LEDGER_HEAT_IN] += shaft;
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_SPEED ? speed (c) : hob_complex_abs (c->i[0]);
}

const HobKind hob_kind_fan = {
  .name = "fan",
  .label = N_ ("convection fan"),
  .about = N_ ("Stirs the cavity's air: it evens top and bottom out, carries more heat from floor and walls, and "
               "lets the sensor follow sooner."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 120, 80 }, [HOB_SHEET_CUTAWAY] = { 80, 80 } },
  .figure = Q_CURRENT,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
};
