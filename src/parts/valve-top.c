/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Valve of a top burner: a plug on the knob's stem.  From 10 to 20 % of the travel it opens, to 35
 * % it is fully open and the burner's jet alone limits the flow; then it throttles down to a small
 * by-pass hole at low. Figures invented for a believable appliance. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { IN, OUT };
enum { BORE, BYPASS, SHUT, LEAK };
enum { Q_OPENING, Q_FLOW };

#define OPENS 10.0 /* % of the travel */
#define FULL 20.0
#define THROTTLES 35.0
#define LOW 100.0
#define DISCHARGE 0.9

static const HobPortDef ports[] = {
  { "in", N_ ("from the manifold"), TRUE, HOB_WAY_IN, -40, 0 },
  { "out", N_ ("to the burner's jet"), TRUE, HOB_WAY_OUT, 40, 0 },
};

static const HobSettingDef settings[] = {
  { "bore", N_ ("Width of its passage, fully open."), HOB_DIM_LENGTH, 5e-3, 0.5e-3, 20e-3 },
  { "bypass", N_ ("Width of the hole that is left at low."), HOB_DIM_LENGTH, 0.46e-3, 0.1e-3,
    3e-3 },
  { "shut", N_ ("1: its plug stays shut."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "leak", N_ ("Width of the way past the plug when it should be shut."), HOB_DIM_LENGTH, 0, 0,
    3e-3, NULL, TRUE },
};

#define GAS_SHUT N_ ("Gas shut before a valve is opened; leak test afterwards.")

static const HobFaultDef faults[] = {
  { "stuck-shut",
    N_ ("burner valve does not open"),
    NULL,
    1,
    2,
    N_ ("assumption"),
    N_ ("Sparks well, no gas: nothing is heard or smelt at this burner, the others burn."),
    GAS_SHUT,
    -1,
    1,
    { { SHUT, HOB_EFFECT_SET, 0, 1 } } },
  { "stiff",
    N_ ("burner valve stiff with old grease, its passage clogged"),
    N_ ("passage left, from half of its width to a tenth"),
    0.7,
    4,
    N_ ("assumption"),
    N_ ("The knob turns hard and the flame stays small at high, at the full manifold pressure."),
    GAS_SHUT,
    -1,
    1,
    { { BORE, HOB_EFFECT_MULTIPLY, 0.5, 0.1, TRUE } } },
  { "leaks",
    N_ ("burner valve lets gas by when it is off"),
    N_ ("as much as a hole of 0.1 mm to 0.6 mm"),
    0.5,
    1,
    N_ ("assumption"),
    N_ ("Soap solution at the burner's jet with all knobs off. Never a flame."),
    N_ ("Do not use it: gas shut, plug out, unless it smells of gas: then touch nothing electric "
        "and "
        "go out."),
    -1,
    1,
    { { LEAK, HOB_EFFECT_SET, 0.1e-3, 0.6e-3 } } },
};

static const HobDuctDef ducts[] = { { "plug", IN, OUT } };

static const HobQuantityDef quantities[] = {
  { "opening", N_ ("how far it is open, 0 to 1"), HOB_DIM_NUMBER, HOB_SENSE_NONE },
  { "flow", N_ ("gas flowing"), HOB_DIM_MASS_FLOW, HOB_SENSE_NONE },
};

/* Width of the passage, m: the plug's slot narrows evenly in proportion, not in step, so that the
 * knob works over all its travel. */
static double
width (const HobPartContext *c)
{
  double bore = c->set[BORE], bypass = fmin (c->set[BYPASS], bore);

  if (c->moved <= OPENS || c->set[SHUT] > 0)
    return c->set[LEAK];
  if (c->moved < FULL)
    return fmax (bore * sqrt ((c->moved - OPENS) / (FULL - OPENS)), c->set[LEAK]);
  if (c->moved <= THROTTLES)
    return bore;
  return bore * pow (bypass / bore, (c->moved - THROTTLES) / (LOW - THROTTLES));
}

static void
flow (const HobPartContext *c)
{
  double open = width (c);

  if (open > 0)
    c->duct[0] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = DISCHARGE * G_PI / 4 * open * open };
}

static double
observe (const HobPartContext *c, int quantity)
{
  double share = width (c) / c->set[BORE];

  return quantity == Q_FLOW ? c->q[0] : share * share;
}

/* A valve with the knob on its stem: the notch turns with the travel. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  double angle = -G_PI_2 + view->moved / 100 * 270 * G_PI / 180;

  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_tube (pen, -40, -16, 0);
      hob_symbol_tube (pen, 16, 40, 0);
      return;
    }
  hob_symbol_valve (pen, 0, 0, view->quantity[Q_OPENING] <= 0);
  pen_segment (pen, 0, 0, 0, -7);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  pen_circle (pen, 0, -13, 6);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_segment (pen, 0, -13, 6 * cos (angle), -13 + 6 * sin (angle));
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_valve_top = {
  .name = "valve-top",
  .label = N_ ("burner valve"),
  .about = N_ ("The knob's stem turns its plug: open at light and high, throttled towards low."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 40 } },
  .figure = -1,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
