/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven lamp. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { A, B };
enum { OHMS, BROKEN };
enum { Q_SHINES, Q_CURRENT };

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -40, 0 },
  { "b", N_ ("neutral side"), TRUE, 40, 0 },
};
static const HobSettingDef settings[] = {
  { "ohms", N_ ("Resistance of the burning lamp; 360 ohms is 40 W at 120 V."), HOB_DIM_RESISTANCE,
    360, 50, 5000 },
  { "broken", N_ ("1: its filament is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};
static const HobElementDef elements[] = { { "filament", A, B } };
static const HobQuantityDef quantities[] = {
  { "shines", N_ ("light, 0 to 1"), HOB_DIM_NUMBER, HOB_SENSE_EYE },
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
};
static const HobFaultDef faults[] = {
  { "open",
    N_ ("lamp burnt out"),
    NULL,
    1,
    6,
    N_ ("assumption"),
    N_ ("Line voltage at the socket, no light; another lamp lights."),
    N_ ("Hot glass; unplug first."),
    -1,
    1,
    { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },
};

static void
conduct (const HobPartContext *c)
{
  if (!(c->set[BROKEN] > 0))
    c->g[0] = hob_siemens (c->set[OHMS]);
}

static void
rates (const HobPartContext *c)
{
  double watt = c->set[BROKEN] > 0 ? 0 : hob_complex_abs2 (c->i[0]) * c->set[OHMS];

  c->within[HOB_PLACE_HEAT_AIR] += watt;
  c->ledger[HOB_LEDGER_HEAT_IN] += watt;
}

static double
observe (const HobPartContext *c, int quantity)
{
  double volts = hob_volts_across (c, A, B);

  if (quantity == Q_CURRENT)
    return hob_complex_abs (c->i[0]);
  return c->set[BROKEN] > 0 || volts < 30 ? 0 : CLAMP (volts / 120, 0, 1);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  gboolean wiring = view->sheet == HOB_SHEET_WIRING;
  double r = wiring ? 20 : 10;

  if (view->layer == HOB_LAYER_STATE)
    hob_symbol_rays (pen, 0, r, view->quantity[Q_SHINES]);
  else
    {
      if (wiring)
        hob_symbol_leads (pen, r, 40);
      hob_symbol_lamp (pen, 0, r, wiring ? HOB_ROLE_PANEL : HOB_ROLE_CAVITY,
                       wiring ? HOB_ROLE_INK : HOB_ROLE_CAVITY_INK);
    }
}

const HobKind hob_kind_light = {
  .name = "light",
  .label = N_ ("oven light"),
  .about = N_ ("Shows the oven; also shows that line and neutral arrive."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 80 }, [HOB_SHEET_CUTAWAY] = { 40, 40 } },
  .figure = -1,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
