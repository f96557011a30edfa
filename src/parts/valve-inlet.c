/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Inlet of a two-coil valve: one body, one screen, a way to the bake half and one to the broil
 * half.  What clogs here starves both. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, BAKE, BROIL };
enum { CLOGGED };

#define SCREEN_AREA 2.8e-5 /* m², discharge included, each way */

static const HobPortDef ports[] = {
  { "in", N_ ("gas from the lever"), TRUE, HOB_WAY_IN, -40, 0 },
  { "bake", N_ ("to the bake half"), TRUE, HOB_WAY_OUT, 40, -20 },
  { "broil", N_ ("to the broil half"), TRUE, HOB_WAY_OUT, 40, 20 },
};

static const HobSettingDef settings[] = {
  { "clogged", N_ ("Share of the inlet's screen that is closed."), HOB_DIM_NUMBER, 0, 0, 1, NULL,
    TRUE },
};

static const HobFaultDef faults[] = {
  { "clogged",
    N_ ("inlet screen of the two-coil valve clogged"),
    N_ ("share of the screen that is closed"),
    0.95,
    1,
    N_ ("assumption: thread sealant in the inlet"),
    N_ ("Manifold pressure right, and both oven flames small: bake and broil share this inlet."),
    NULL,
    -1,
    1,
    { { CLOGGED, HOB_EFFECT_ADD, 0, 1 } } },
};

static const HobDuctDef ducts[] = { { "to bake", IN, BAKE }, { "to broil", IN, BROIL } };

static void
flow (const HobPartContext *c)
{
  double open = 1 - CLAMP (c->set[CLOGGED], 0, 1);

  if (open > 0)
    c->duct[0] = c->duct[1] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = SCREEN_AREA * open };
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  hob_symbol_tube (pen, -40, -14, 0);
  hob_symbol_tube (pen, 14, 40, -20);
  hob_symbol_tube (pen, 14, 40, 20);
  pen_rect (pen, -14, -32, 28, 64);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_segment (pen, -4, -26, -4, 26); /* the screen */
  pen_dash (pen, 3, 3);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

const HobKind hob_kind_valve_inlet = {
  .name = "valve-inlet",
  .label = N_ ("inlet of a two-coil valve"),
  .about = N_ ("The one inlet from which both halves of a two-coil valve take their gas."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = -1,
  .flow = flow,
  .draw = draw,
};
