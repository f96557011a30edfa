/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Manifold: the pipe that all valves tap. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, LF, LR, CF, CR, RF, RR, C, OVEN, TAP, N_PORTS };
enum { Q_PRESSURE };

#define BORE_AREA 1.0e-4 /* m², discharge included, from its inlet to any tap */

static const HobPortDef ports[] = {
  { "in", N_ ("regulator"), TRUE, HOB_WAY_IN, -40, 0 },
  { "lf", N_ ("left front"), FALSE, HOB_WAY_OUT, 40, -160 },
  { "lr", N_ ("left rear"), FALSE, HOB_WAY_OUT, 40, -80 },
  { "cf", N_ ("centre front"), FALSE, HOB_WAY_OUT, 40, -120 },
  { "cr", N_ ("centre rear"), FALSE, HOB_WAY_OUT, 40, -40 },
  { "rf", N_ ("right front"), FALSE, HOB_WAY_OUT, 40, 0 },
  { "rr", N_ ("right rear"), FALSE, HOB_WAY_OUT, 40, 80 },
  { "c", N_ ("centre"), FALSE, HOB_WAY_OUT, 40, 40 },
  { "oven", N_ ("oven lever"), FALSE, HOB_WAY_OUT, 40, 160 },
  { "tap", N_ ("pressure tap"), FALSE, HOB_WAY_OUT, -40, 160 },
};
static const HobDuctDef ducts[] = {
  { "lf", IN, LF }, { "lr", IN, LR }, { "cf", IN, CF },     { "cr", IN, CR },   { "rf", IN, RF },
  { "rr", IN, RR }, { "c", IN, C },   { "oven", IN, OVEN }, { "tap", IN, TAP },
};
static const HobQuantityDef quantities[] = {
  { "pressure", N_ ("pressure in the manifold"), HOB_DIM_PRESSURE, HOB_SENSE_NONE },
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
  .about = N_ ("One pipe for all valves: what one burner takes the others feel."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 360 } },
  .figure = Q_PRESSURE,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
