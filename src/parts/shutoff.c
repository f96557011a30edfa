/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The shut-off behind the range. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };
enum { POSITION };
enum { SHUT };

#define BORE_AREA 1.2e-4 /* m², discharge included */

static const HobPortDef ports[] = {
  { "in", N_ ("house side"), TRUE, HOB_WAY_IN, -40, 0 },
  { "out", N_ ("range side"), TRUE, HOB_WAY_OUT, 40, 0 },
};
static const HobPosition positions[]
    = { { "closed", N_ ("CLOSED"), 0 }, { "open", N_ ("OPEN"), 1 }, { NULL } };
static const HobControlDef controls[] = {
  { "", N_ ("Gas shut-off"), HOB_DIM_CHOICE, positions, 0, 1, 1, HOB_EXERCISE_NONE },
};
static const HobSettingDef settings[] = {
  { "shut", N_ ("Share of its bore that is shut although the handle says open."), HOB_DIM_NUMBER, 0,
    0, 1, NULL, TRUE },
};
static const HobFaultDef faults[] = {
  { "half-shut",
    N_ ("not fully open"),
    N_ ("share of its bore that is shut"),
    0.95,
    1,
    N_ ("assumption: not turned all the way after an installation"),
    N_ ("Look at it. Pressure at the range's inlet falls with each burner that is turned on."),
    NULL,
    -1,
    1,
    { { SHUT, HOB_EFFECT_SET, 0, 1 } } },
};
static const HobDuctDef ducts[] = { { "bore", IN, OUT } };

static void
flow (const HobPartContext *c)
{
  if (c->ctl[POSITION] > 0 && c->set[SHUT] < 1)
    c->duct[0] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = BORE_AREA * (1 - c->set[SHUT]) };
}

/* Its handle lies along the pipe when open, across it when closed. */
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
  .label = N_ ("shut-off valve"),
  .about = N_ ("The hand valve in the house pipe behind the range."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_GAS] = { 80, 40 } },
  .figure = -1,
  .flow = flow,
  .draw = draw,
};
