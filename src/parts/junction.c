/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where wires are joined: a splice, drawn as a dot. */

#include "base/i18n.h"
#include "parts/symbol.h"

static const HobTerminalDef terminals[] = {
  { .name = "at", .words = N_ ("splice"), .required = TRUE },
};

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_circle (pen, 0, 0, 4);
  pen_fill (pen, HOB_ROLE_INK);
}

const HobKind hob_kind_junction = {
  .name = "junction",
  .label = N_ ("splice"),
  .about = N_ ("Wires joined together."),
  HOB_TABLE (terminals, terminals),
  .symbol = { [HOB_SHEET_WIRING] = { 8, 8 } },
  .figure = -1,
  .draw = draw,
};
