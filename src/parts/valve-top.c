/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Valve of a surface burner: a plug on the knob's stem.  It opens from 10 to 20% of the travel
 * and is fully open at 35%, where the burner's orifice alone limits the flow.  From there it
 * throttles down to a small bypass at LOW.  Figures invented for a believable appliance. */

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
  { .name = "in", .words = N_ ("from the manifold"), .required = TRUE, .way = HOB_WAY_IN,
    .x = -40 },
  { .name = "out", .words = N_ ("to the burner orifice"), .required = TRUE, .way = HOB_WAY_OUT,
    .x = 40 },
};

static const HobSettingDef settings[] = {
  { .name = "bore", .words = N_ ("Diameter of the gas passage when the valve is fully "
                                 "open."), .dim = HOB_DIM_LENGTH,
    .normal = 5e-3, .low = 0.5e-3, .high = 20e-3 },
  { .name = "bypass",
    .words = N_ ("Diameter of the low-flame (simmer) passage."), .dim = HOB_DIM_LENGTH,
    .normal = 0.46e-3, .low = 0.1e-3, .high = 3e-3 },
  { .name = "shut", .words = "1: its plug stays shut.", .high = 1, .condition = TRUE },
  { .name = "leak", .words = "Width of the way past the plug when it should be shut.",
    .dim = HOB_DIM_LENGTH, .high = 3e-3, .condition = TRUE },
};

static const HobFaultDef faults[] = {
  {
    .id = "stuck-closed",
    .words = N_ ("burner valve stuck closed"),
    .prior = 2,
    .proof = N_ ("Turn the knob to LIGHT. Listen and smell for gas at this burner. There is none. "
                 "The electrode sparks well, and the other burners light."),
    .confirm = HOB_MEANS (LOOK),
    HOB_EFFECTS ({ .setting = SHUT, .at1 = 1 }),
  },
  {
    .id = "stiff",
    .words = N_ ("burner valve stiff, gas passage clogged with old grease"),
    .severity_words = N_ ("gas passage %s narrower"),
    .typical = 0.7,
    .prior = 4,
    .proof = N_ ("Turn the knob. It's stiff, and the flame stays low at HIGH. The manifold "
                 "pressure is normal."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (PRESSURE) | HOB_MEANS (OPEN_GAS),
    HOB_EFFECTS ({ .setting = BORE, .how = HOB_EFFECT_MULTIPLY, .at0 = 0.5, .at1 = 0.1,
                   .geometric = TRUE }),
  },
  {
    .id = "low-too-low",
    .words = N_ ("low-flame adjustment turned in too far"),
    .severity_words = N_ ("low-flame passage %s narrower"),
    .typical = 0.6,
    .prior = 4,
    .proof = N_ ("Turn the knob to LOW. The flame doesn't go all the way around the burner, but at "
                 "HIGH it's normal. Turn the low-flame adjustment screw counterclockwise, a little "
                 "at a time. Now the flame at LOW goes all the way around."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (HAND),
    HOB_EFFECTS ({ .setting = BYPASS, .how = HOB_EFFECT_MULTIPLY, .at0 = 0.85, .at1 = 0.35 }),
  },
  {
    .id = "leaks",
    .words = N_ ("burner valve leaks when off"),
    .severity_words = N_ ("leaks as much as a hole with a diameter of %s"),
    .typical = 0.5,
    .prior = 1,
    .proof = N_ ("With all the knobs turned to OFF, put leak-detection solution on the burner "
                 "orifice and look for bubbles. Never use a flame."),
    .confirm = HOB_MEANS (LEAK_CHECK),
    .hazards = HOB_HAZARD (GAS_STRONG),
    HOB_EFFECTS ({ .setting = LEAK, .at0 = 0.1e-3, .at1 = 0.6e-3 }),
  },
};

static const HobDuctDef ducts[] = {
  { .name = "plug", .a = IN, .b = OUT },
};

static const HobQuantityDef quantities[] = {
  { .name = "opening", .words = N_ ("how far the valve is open"), .say = HOB_SAY_SHARE,
    .says = N_ ("The valve is %s open.") },
  { .name = "flow", .words = N_ ("gas flow"), .dim = HOB_DIM_MASS_FLOW,
    .says = N_ ("The gas flow is %s.") },
};

/* Width of the passage, m: the plug's slot narrows by equal ratios, so that the knob has an
 * effect over all its travel. */
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
  .about = N_ ("The knob turns the valve. The valve is fully open at LIGHT and HIGH and closes "
               "partway toward LOW."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 40 } },
  .figure = -1,
  .opening = 1 + Q_OPENING,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
