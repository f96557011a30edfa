/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The chassis: strays couple to it; ground wire and gas pipe hold it near ground. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { BODY };
enum { Q_VOLTS };

static const HobTerminalDef terminals[] = {
  { .name = "body", .words = N_ ("chassis"), .required = TRUE, .y = -20 },
};
static const HobQuantityDef quantities[] = {
  { .name = "volts",
    .words = N_ ("voltage from the chassis to a separate ground"), .dim = HOB_DIM_VOLTAGE,
    .says = N_ ("The voltage from the chassis to a separate ground is %s.") },
};

static double
observe (const HobPartContext *c, int quantity)
{
  return hob_complex_abs (c->v[BODY]);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_segment (pen, 0, -20, 0, 2);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_frame (pen, 2, 2, TRUE);
}

const HobKind hob_kind_chassis = {
  .name = "chassis",
  .label = N_ ("chassis"),
  .about = N_ ("All the exposed metal of the range, connected to ground."),
  .flags = HOB_KIND_CHASSIS,
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 40, 40 } },
  .figure = -1,
  .observe = observe,
  .draw = draw,
};
