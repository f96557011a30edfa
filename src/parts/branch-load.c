/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Another appliance on the branch, in the other half of the receptacle: a resistance that drags the
 * voltage down for whatever hangs on the same wires. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { A, B };
enum { WATTS };
enum { POSITION };
enum { Q_CURRENT };

#define RATED_AT 120.0 /* V at which it takes its watts */

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -40, 0 },
  { "b", N_ ("neutral side"), TRUE, 40, 0 },
};
static const HobSettingDef settings[] = {
  { "watts", N_ ("What it takes at 120 V."), HOB_DIM_POWER, 1200, 1, 5000 },
};
static const HobPosition positions[]
    = { { "off", N_ ("OFF"), 0 }, { "on", N_ ("ON"), 1 }, { NULL } };
static const HobControlDef controls[] = {
  { "", N_ ("Other appliance"), HOB_DIM_CHOICE, positions, 0, 1, 0, HOB_EXERCISE_NONE },
};
static const HobElementDef elements[] = { { "load", A, B } };
static const HobQuantityDef quantities[] = {
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
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
  .label = N_ ("another load on the branch"),
  .about
  = N_ ("What else is plugged in on the same wires. When it is on, the range gets fewer volts."),
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
