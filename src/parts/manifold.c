/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Manifold: the pipe that feeds all valves. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, LF, LR, CF, CR, RF, RR, C, OVEN, TAP, N_PORTS };
enum { Q_PRESSURE };

#define BORE_AREA 1.0e-4 /* m², discharge included, from its inlet to any tap */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("regulator"), .required = TRUE, .way = HOB_WAY_IN, .x = -40 },
  { .name = "lf", .words = N_ ("to the left front valve"), .way = HOB_WAY_OUT, .x = 40, .y = -160 },
  { .name = "lr", .words = N_ ("to the left rear valve"), .way = HOB_WAY_OUT, .x = 40, .y = -80 },
  { .name = "cf", .words = N_ ("to the center front valve"), .way = HOB_WAY_OUT,
    .x = 40, .y = -120 },
  { .name = "cr", .words = N_ ("to the center rear valve"), .way = HOB_WAY_OUT, .x = 40, .y = -40 },
  { .name = "rf", .words = N_ ("to the right front valve"), .way = HOB_WAY_OUT, .x = 40 },
  { .name = "rr", .words = N_ ("to the right rear valve"), .way = HOB_WAY_OUT, .x = 40, .y = 80 },
  { .name = "c", .words = N_ ("to the center valve"), .way = HOB_WAY_OUT, .x = 40, .y = 40 },
  { .name = "oven", .words = N_ ("oven shutoff lever"), .way = HOB_WAY_OUT, .x = 40, .y = 160 },
  { .name = "tap", .words = N_ ("pressure tap"), .way = HOB_WAY_OUT, .x = -40, .y = 160 },
};
static const HobDuctDef ducts[] = {
  { .name = "lf", .a = IN, .b = LF },
  { .name = "lr", .a = IN, .b = LR },
  { .name = "cf", .a = IN, .b = CF },
  { .name = "cr", .a = IN, .b = CR },
  { .name = "rf", .a = IN, .b = RF },
  { .name = "rr", .a = IN, .b = RR },
  { .name = "c", .a = IN, .b = C },
  { .name = "oven", .a = IN, .b = OVEN },
  { .name = "tap", .a = IN, .b = TAP },
};
static const HobQuantityDef quantities[] = {
  { .name = "pressure", .words = N_ ("manifold pressure"), .dim = HOB_DIM_PRESSURE,
    .says = N_ ("The manifold pressure is %s.") },
};

static void
flow (const HobPartContext *c)
{
  for (int k = 0; k < N_PORTS - 1; k++)
    c->duct[k] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = BORE_AREA };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return c->p[IN];
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  for (int k = 0; k < N_PORTS; k++)
    {
      hob_symbol_tube (pen, ports[k].x < 0 ? -40 : 9, ports[k].x < 0 ? -9 : 40, ports[k].y);
      pen_segment (pen, ports[k].x, ports[k].y - 7, ports[k].x,
                   ports[k].y + 7); /* its joint or cap */
    }
  pen_stroke (pen, HOB_ROLE_GAS, HOB_DETAIL);
  pen_rect (pen, -9, -178, 18, 356);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_GAS, HOB_OUTLINE);
  pen_rect (pen, -40, 152, 5, 16); /* the tap's plug */
  pen_fill (pen, HOB_ROLE_INK);
}

const HobKind hob_kind_manifold = {
  .name = "manifold",
  .label = N_ ("manifold"),
  .about = N_ ("One pipe feeds all the valves. Each burner that is on lowers the pressure for "
               "the others."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 360 } },
  .figure = Q_PRESSURE,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
