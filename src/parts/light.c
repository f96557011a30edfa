/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven light: a bulb alone.  360 ohms is V²/P of a 40 W bulb at 120 V. */

#include "parts/filament.h"
#include "parts/symbol.h"

enum { A, B };
enum { Q_SHINES, Q_CURRENT };

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 40 },
};
static const HobSettingDef settings[] = {
  HOB_FILAMENT_SETTINGS,
};
static const HobStateDef states[] = {
  HOB_FILAMENT_STATE,
};
static const HobModeDef modes[] = {
  HOB_FILAMENT_MODE,
};
static const HobElementDef elements[] = {
  { .name = "filament", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "shines", .words = N_ ("brightness of the light"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EYE },
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
    HOB_EFFECTS ({ .setting = HOB_FILAMENT_BROKEN, .at1 = 1 }),
  },
};

static void
conduct (const HobPartContext *c)
{
  c->g[0] = hob_siemens (hob_filament_ohms (c));
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_CURRENT ? hob_complex_abs (c->i[0]) : hob_filament_shines (c);
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
  .about = N_ ("Lights up the inside of the oven. If the light comes on, the range has both hot "
               "and neutral."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 80 }, [HOB_SHEET_CUTAWAY] = { 40, 40 } },
  .figure = -1,
  .conduct = conduct,
  .at_rest = hob_filament_at_rest,
  .rates = hob_filament_rates,
  .n_guards = 1,
  .guard_reads = hob_filament_guard_reads,
  .guard = hob_filament_guard,
  .flip = hob_filament_flip,
  .observe = observe,
  .draw = draw,
};
