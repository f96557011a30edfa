/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven shutoff lever: while it is closed, the igniter glows with full current and the oven gets
 * no gas. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, BAKE, BROIL };
enum { POSITION };
enum { SHUT };
enum { Q_OPENING, Q_FLOW };

#define BORE_AREA 5e-5 /* m², discharge included */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("manifold"), .required = TRUE, .way = HOB_WAY_IN, .x = -40 },
  { .name = "bake", .words = N_ ("to the bake valve"), .way = HOB_WAY_OUT, .x = 40, .y = -20 },
  { .name = "broil", .words = N_ ("to the broil valve"), .way = HOB_WAY_OUT, .x = 40, .y = 20 },
};
static const HobControlDef controls[] = {
  { .name = "",
    .words = N_ ("Oven shutoff lever"), .dim = HOB_DIM_CHOICE, .positions = hob_closed_open,
    .high = 1, .start = 1, .role = HOB_CONTROL_VALVE },
};
static const HobSettingDef settings[] = {
  { .name = "shut", .words = "Share of its bore that is shut although the handle says open.",
    .high = 1, .condition = TRUE },
};
static const HobFaultDef faults[] = {
  {
    .id = "left-shut",
    .words = N_ ("oven shutoff closed, though the lever may look open"),
    .prior = 1,
    .basis = "turned at the last repair and forgotten, or its handle slipped",
    .proof = N_ ("The igniter draws full current, and the surface burners have gas, but no gas "
                 "reaches the oven valve. Move the oven shutoff lever all the way open. Now the "
                 "oven burner lights."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (AMPS),
    HOB_EFFECTS ({ .setting = SHUT, .at1 = 1 }),
  },
};
static const HobDuctDef ducts[] = {
  { .name = "to bake", .a = IN, .b = BAKE },
  { .name = "to broil", .a = IN, .b = BROIL },
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
    c->duct[0] = c->duct[1] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = BORE_AREA };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_OPENING ? opening (c) : c->q[0] + c->q[1];
}

/* Its handle is along the pipe when open, across it when closed. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  gboolean open = view->ctl[POSITION] > 0;

  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_tube (pen, -40, -30, 0);
      hob_symbol_tube (pen, 20, 40, -20);
      hob_symbol_tube (pen, 20, 40, 20);
      pen_rect (pen, 6, -27, 14, 54); /* the tee */
      pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_GAS, HOB_DETAIL);
      return;
    }
  hob_symbol_valve (pen, -14, 0, !open);
  pen_segment (pen, -14, 0, -14, open ? -24 : -34);
  pen_segment (pen, -14, -24, open ? 4 : -14, -24);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_lever = {
  .name = "lever",
  .label = N_ ("oven shutoff lever"),
  .about = N_ ("Shuts off the gas to the oven only. The surface burners still have gas."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = -1,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
