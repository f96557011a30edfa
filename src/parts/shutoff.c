/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The gas shutoff valve behind the range. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };
enum { POSITION };
enum { SHUT };
enum { Q_OPENING, Q_FLOW };

#define BORE_AREA 1.2e-4 /* m², discharge included */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("house side"), .required = TRUE, .way = HOB_WAY_IN, .x = -40 },
  { .name = "out", .words = N_ ("range side"), .required = TRUE, .way = HOB_WAY_OUT, .x = 40 },
};
static const HobControlDef controls[] = {
  { .name = "",
    .words = N_ ("Gas shutoff valve"), .dim = HOB_DIM_CHOICE, .positions = hob_closed_open,
    .high = 1, .start = 1, .role = HOB_CONTROL_VALVE },
};
static const HobSettingDef settings[] = {
  { .name = "shut", .words = "Share of its bore that is shut although the handle says open.",
    .high = 1, .condition = TRUE },
};
static const HobFaultDef faults[] = {
  {
    .id = "half-shut",
    .words = N_ ("gas shutoff valve not fully open"),
    .severity_words = N_ ("valve %s closed"),
    .typical = 0.95,
    .prior = 1,
    .basis = "not turned all the way after an installation",
    .proof = N_ ("Look at the handle of the gas shutoff valve. It isn't in line with the pipe. "
                 "Open the valve all the way. The inlet pressure no longer drops with each burner "
                 "you turn on."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = SHUT, .at1 = 1 }),
  },
};
static const HobDuctDef ducts[] = {
  { .name = "bore", .a = IN, .b = OUT },
};
static const HobQuantityDef quantities[] = {
  { .name = "opening", .words = N_ ("how far the shutoff is open"), .say = HOB_SAY_SHARE },
  { .name = "flow", .words = N_ ("gas flow"), .dim = HOB_DIM_MASS_FLOW,
    .says = N_ ("The gas flow is %s.") },
};
static const HobLinkDef links[] = {
  { .from = Q_OPENING, .to = Q_FLOW, .words = N_ ("The shutoff is %s open.") },
};

static double
opening (const HobPartContext *c)
{
  return c->ctl[POSITION] > 0 ? 1 - c->set[SHUT] : 0;
}

static void
flow (const HobPartContext *c)
{
  if (opening (c) > 0)
    c->duct[0] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = BORE_AREA * opening (c) };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_OPENING ? opening (c) : c->q[0];
}

/* Its handle is along the pipe when open, across it when closed. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  gboolean open = view->ctl[POSITION] > 0;

  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_tube (pen, -40, -16, 0);
      hob_symbol_tube (pen, 16, 40, 0);
      return;
    }
  hob_symbol_valve (pen, 0, 0, !open);
  pen_segment (pen, 0, 0, 0, open ? -15 : -19);
  pen_segment (pen, 0, open ? -15 : -12, open ? 18 : 0, open ? -15 : -12);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_shutoff = {
  .name = "shutoff",
  .label = N_ ("gas shutoff valve"),
  .about = N_ ("The manual shutoff valve in the gas line behind the range."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_GAS] = { 80, 40 } },
  .figure = -1,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
