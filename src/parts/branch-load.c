/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Another appliance on the same circuit, plugged into the other half of the receptacle: a
 * resistance that pulls the voltage down for everything on the same wires. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { A, B };
enum { WATTS };
enum { POSITION };
enum { Q_CURRENT };

#define RATED_AT 120.0 /* V at which it takes its watts */

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "watts", .words = N_ ("Power at 120 V."), .dim = HOB_DIM_POWER, .normal = 1200,
    .low = 1, .high = 5000, .of = HOB_SETTING_HOUSE },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Other appliance"), .dim = HOB_DIM_CHOICE, .positions = hob_off_on,
    .high = 1 },
};
static const HobElementDef elements[] = {
  { .name = "load", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
};

static void
conduct (const HobPartContext *c)
{
  if (c->ctl[POSITION] > 0)
    c->g[0] = hob_siemens (RATED_AT * RATED_AT / c->set[WATTS]);
}

static double
observe (const HobPartContext *c, int quantity G_GNUC_UNUSED)
{
  return hob_complex_abs (c->i[0]);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      hob_symbol_blade (pen, -30, -12, 0, view->ctl[POSITION] > 0);
      return;
    }
  pen_segment (pen, -40, 0, -30, 0);
  pen_segment (pen, 28, 0, 40, 0);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_contact (pen, -30, -12, 0);
  pen_rect (pen, -8, -10, 36, 20);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_branch_load = {
  .name = "branch-load",
  .label = N_ ("another appliance on the same circuit"),
  .about
  = N_ ("Another appliance on the same circuit. When it's on, the range gets less voltage."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = -1,
  .conduct = conduct,
  .observe = observe,
  .draw = draw,
};
