/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Appliance regulator: holds the manifold's pressure whatever the supply and the burners do, and
 * locks up a little higher when all are shut. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };
enum { SET_PRESSURE, LOCKUP, AREA, CREEP };
enum { Q_PRESSURE };

static const HobPortDef ports[] = {
  { "in", N_ ("supply"), TRUE, HOB_WAY_IN, -40, 0 },
  { "out", N_ ("manifold"), TRUE, HOB_WAY_OUT, 40, 0 },
};
static const HobSettingDef settings[] = {
  { "set-pressure", N_ ("Manifold pressure it holds; the data plate says which."), HOB_DIM_PRESSURE,
    5 * 249.089, 100, 5000 },
  { "lockup", N_ ("Rise above it when nothing flows, as a share."), HOB_DIM_NUMBER, 0.05, 0.005,
    0.5 },
  { "area", N_ ("Its seat fully open, m², discharge included."), HOB_DIM_NUMBER, 4e-5, 1e-6, 1e-3 },
  { "creep", N_ ("What its seat leaves open when it should be shut, m²."), HOB_DIM_NUMBER, 0, 0,
    1e-5, NULL, TRUE },
};
static const HobDuctDef ducts[] = { { "seat", IN, OUT } };
static const HobQuantityDef quantities[] = {
  { "pressure", N_ ("manifold pressure"), HOB_DIM_PRESSURE, HOB_SENSE_NONE },
};

static void
flow (const HobPartContext *c)
{
  c->duct[0] = (HobDuct){ .law = HOB_DUCT_REGULATOR,
                          .area = c->set[AREA],
                          .set = c->set[SET_PRESSURE],
                          .lockup = c->set[LOCKUP],
                          .leak = c->set[CREEP] };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return c->p[OUT];
}

/* A valve whose diaphragm feels the outlet; it sinks as gas is drawn. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      double sunk = view->q[0] > 1e-7 ? 5 : 0; /* kg/s */

      pen_segment (pen, -14, -22 + sunk, 14, -22 + sunk);
      pen_segment (pen, 0, -22 + sunk, 0, 0);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
      return;
    }
  hob_symbol_tube (pen, -40, -16, 0);
  hob_symbol_tube (pen, 16, 40, 0);
  pen_move (pen, -16, -16);
  pen_line (pen, -16, -24);
  pen_arc (pen, 0, -24, 16, -G_PI, 0);
  pen_line (pen, 16, -16);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_valve (pen, 0, 0, FALSE);
  pen_dash (pen, 4, 3); /* what it feels */
  pen_move (pen, 30, -7);
  pen_line (pen, 30, -20);
  pen_line (pen, 16, -20);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_DETAIL);
}

const HobKind hob_kind_regulator = {
  .name = "regulator",
  .label = N_ ("appliance regulator"),
  .about = N_ ("Turns a supply that varies into the one pressure the orifices are drilled for."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = Q_PRESSURE,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
