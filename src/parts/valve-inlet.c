/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Inlet of a dual oven safety valve: one body, one screen, one path to the bake side and one to
 * the broil side.  A clogged inlet starves both. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, BAKE, BROIL };
enum { CLOGGED };

#define SCREEN_AREA 2.8e-5 /* m², discharge included, each way */

static const HobPortDef ports[] = {
  { .name = "in",
    .words = N_ ("gas from the oven shutoff lever"), .required = TRUE, .way = HOB_WAY_IN,
    .x = -40 },
  { .name = "bake", .words = N_ ("to the bake side"), .required = TRUE, .way = HOB_WAY_OUT, .x = 40,
    .y = -20 },
  { .name = "broil", .words = N_ ("to the broil side"), .required = TRUE, .way = HOB_WAY_OUT,
    .x = 40, .y = 20 },
};

static const HobSettingDef settings[] = {
  { .name = "clogged", .words = "Share of the inlet's screen that is closed.", .high = 1,
    .condition = TRUE },
};

static const HobFaultDef faults[] = {
  {
    .id = "clogged",
    .words = N_ ("inlet screen of the dual oven safety valve clogged"),
    .severity_words = N_ ("%s of the screen clogged"),
    .typical = 0.95,
    .prior = 1,
    .basis = "thread sealant in the inlet",
    .proof = N_ ("Read the manifold pressure. It's normal, but both oven flames are low. Unplug "
                 "the range, shut off the gas, and take out the valve. Look at the inlet screen "
                 "that bake and broil share. It's clogged."),
    .confirm = HOB_MEANS (PRESSURE) | HOB_MEANS (OPEN_GAS),
    HOB_EFFECTS ({ .setting = CLOGGED, .how = HOB_EFFECT_ADD, .at1 = 1 }),
  },
};

static const HobDuctDef ducts[] = {
  { .name = "to bake", .a = IN, .b = BAKE },
  { .name = "to broil", .a = IN, .b = BROIL },
};

static void
flow (const HobPartContext *c)
{
  double open = 1 - CLAMP (c->set[CLOGGED], 0, 1);

  if (open > 0)
    c->duct[0] = c->duct[1] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = SCREEN_AREA * open };
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  hob_symbol_tube (pen, -40, -14, 0);
  hob_symbol_tube (pen, 14, 40, -20);
  hob_symbol_tube (pen, 14, 40, 20);
  pen_rect (pen, -14, -32, 28, 64);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_segment (pen, -4, -26, -4, 26); /* the screen */
  pen_dash (pen, 3, 3);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

const HobKind hob_kind_valve_inlet = {
  .name = "valve-inlet",
  .label = N_ ("inlet of a dual oven safety valve"),
  .about = N_ ("The inlet that feeds both sides of a dual oven safety valve."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = -1,
  .flow = flow,
  .draw = draw,
};
