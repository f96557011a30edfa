/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Flexible connector. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };

#define BORE_AREA 8e-5 /* m², discharge included */

static const HobPortDef ports[] = {
  { "in", N_ ("house side"), TRUE, HOB_WAY_IN, -40, 0 },
  { "out", N_ ("range side"), TRUE, HOB_WAY_OUT, 40, 0 },
};

static const HobDuctDef ducts[] = { { "bore", IN, OUT } };

static void
flow (const HobPartContext *c)
{
  c->duct[0] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = BORE_AREA };
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  for (int side = -1; side <= 1; side += 2)
    {
      pen_move (pen, -40, side * 6);
      for (int x = -40; x < 40; x += 10)
        pen_curve (pen, x + 3, side * 12, x + 7, side * 12, x + 10, side * 6);
    }
  pen_stroke (pen, HOB_ROLE_GAS, HOB_OUTLINE);
}

const HobKind hob_kind_connector = {
  .name = "connector",
  .label = N_ ("flexible connector"),
  .about = N_ ("Corrugated metal hose between wall and range; never used twice."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (ducts, ducts),
  .symbol = { [HOB_SHEET_GAS] = { 80, 40 } },
  .figure = -1,
  .flow = flow,
  .draw = draw,
};
