/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven lamp. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { A, B };
enum { OHMS, BROKEN };
enum { Q_SHINES, Q_CURRENT };

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "ohms",
    .words = N_ ("Resistance of the light bulb when lit; 360 ohms is 40 W at 120 V."),
    .dim = HOB_DIM_RESISTANCE, .normal = 360, .low = 50, .high = 5000 },
  { .name = "broken", .words = "1: its filament is broken.", .high = 1, .condition = TRUE },
};
static const HobElementDef elements[] = {
  { .name = "filament", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "shines", .words = N_ ("light"), .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE },
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
};
static const HobFaultDef faults[] = {
  {
    .id = "open",
    .words = N_ ("oven light bulb burned out"),
    .prior = 6,
    .proof = N_ ("Read the volts at the bulb socket with the light switched on. There is line "
                 "voltage, but the bulb stays off. A known-good bulb lights in the same socket."),
    .confirm = HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (SWAP),
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),
  },
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
  return c->set[BROKEN] > 0 || volts < 30 ? 0 : volts / 120;
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
  .about = N_ ("Lights the oven. If it comes on, the oven has both hot and neutral."),
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
