/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Flexible gas connector with an excess flow valve at its house end: a ball that the stream
 * carries to its seat when more gas flows than any range takes, as it would from a torn
 * connector.  A pinhole past the closed ball lets the pressure behind it build up again,
 * slowly.  When both sides are nearly equal, a spring takes the ball back.
 *
 * What leaks gathers behind the range, in V, and the air that moves there carries it into the
 * kitchen:
 *
 *   dm/dt = q − m·Q/V */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { IN, OUT };
enum { TRIP_FLOW, LEAK };
enum { BEHIND };
enum { SHUT };
enum { D_BORE, D_LEAK };
enum { Q_TRIPPED, Q_FLOW, Q_LEAK, Q_SMELL };

#define BORE_AREA 8e-5 /* m², discharge included */
#define PINHOLE 2e-9   /* m², past the closed ball */
#define MOVES 5e-3     /* Q, m³/s of air that moves behind the range, where a leak mixes … */
#define VOLUME 0.1     /* V, m³: 30 by 36 in., 6 in. deep; both invented */
#define EQUAL 25.0     /* Pa between its sides at which the spring takes the ball back */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("house side"), .required = TRUE, .way = HOB_WAY_IN, .x = -40 },
  { .name = "out", .words = N_ ("range side"), .required = TRUE, .way = HOB_WAY_OUT, .x = 40 },
};

static const HobSettingDef settings[] = {
  { .name = "trip-flow",
    .words = N_ ("Natural gas flow that trips the excess flow valve."),
    .dim = HOB_DIM_MASS_FLOW, .normal = 8e-4, .low = 1e-6, .high = INFINITY },
  { .name = "leak", .words = "Hole in it, m².", .high = 1e-4, .condition = TRUE },
};

static const HobStateDef states[] = {
  { .name = "behind", .words = "unburned gas behind the range, kg", .tolerance = 1e-7 },
};

static const char *const shut_words[]
    = { N_ ("excess flow valve resets"), N_ ("excess flow valve trips"), NULL };
static const HobModeDef modes[] = {
  { .name = "excess-flow", .words = shut_words },
};

static const HobFaultDef faults[] = {
  {
    .id = "trips-early",
    .words = N_ ("excess flow valve trips at too low a flow"),
    .severity_words = N_ ("trips at a flow %s below its rating"),
    .prior = 1,
    .basis = "one made for a smaller appliance, or dirt under its spring",
    .proof = N_ ("Turn the burners to HIGH one by one and read the inlet pressure. Add up the "
                 "Btu/h of the burners that are on. The pressure drops to almost zero while the "
                 "total is still below the excess flow valve's rating. Turn all the burners off "
                 "right away. The pressure rises again."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = TRIP_FLOW, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.02,
                   .geometric = TRUE }),
  },
  {
    .id = "leaks",
    .words = N_ ("flexible gas connector leaks"),
    .severity_words = N_ ("leaks as much as a hole with a diameter of %s"),
    .say = HOB_SAY_HOLE,
    .typical = 0.3,
    .prior = 1,
    .basis = "a hose used twice, or bent too sharply",
    .proof = N_ ("With the gas on, put leak-detection solution on the connector. The solution "
                 "bubbles at the leak. Never look for a leak with a flame."),
    .confirm = HOB_MEANS (LEAK_CHECK),
    .hazards = HOB_HAZARD (GAS_STRONG),
    HOB_EFFECTS ({ .setting = LEAK, .how = HOB_EFFECT_ADD, .at1 = 5e-7 }),
  },
};

static const HobDuctDef ducts[] = {
  { .name = "bore", .a = IN, .b = OUT },
  { .name = "leak", .a = OUT, .b = -1 },
};

static const HobQuantityDef quantities[] = {
  { .name = "tripped", .words = N_ ("excess flow valve tripped"), .values = hob_no_yes },
  { .name = "flow", .words = N_ ("gas flow"), .dim = HOB_DIM_MASS_FLOW,
    .says = N_ ("The gas flow is %s.") },
  { .name = "leak", .words = N_ ("gas leaking into the kitchen"), .dim = HOB_DIM_MASS_FLOW,
    .sense = HOB_SENSE_NOSE },
  { .name = "smell",
    .words = N_ ("gas behind the range, as a fraction of its lower explosive limit (LEL)"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_NOSE },
};

/* Gas in the air behind the range, over the lean limit. */
static double
smell (const HobPartContext *c)
{
  return c->y[BEHIND] / c->house->fuel->density / VOLUME / c->house->fuel->lean;
}

/* kg/s from there into the kitchen. */
static double
spreads (const HobPartContext *c)
{
  return c->y[BEHIND] * MOVES / VOLUME;
}

static void
flow (const HobPartContext *c)
{
  c->duct[D_BORE]
      = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = c->mode[SHUT] > 0 ? PINHOLE : BORE_AREA };
  if (c->set[LEAK] > 0)
    c->duct[D_LEAK] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = c->set[LEAK] };
}

static void
rates (const HobPartContext *c)
{
  c->dy[BEHIND] = c->q[D_LEAK] - spreads (c);
  c->within[HOB_PLACE_UNBURNT] += spreads (c);
  c->ledger[HOB_LEDGER_GAS_IN] += c->q[D_LEAK];
  c->ledger[HOB_LEDGER_GAS_ESCAPED] += spreads (c);
}

/* ρv² carries the ball: the same q/√ρ whatever the gas. */
static double
carried (const HobPartContext *c)
{
  double as_natural = sqrt (hob_fuels[HOB_FUEL_NATURAL].density / c->house->fuel->density);

  return c->q[D_BORE] * as_natural / c->set[TRIP_FLOW];
}

/* One guard for both changes: a valve that has just closed must not be judged by the pressures
 * before it did. */
static double
guard (const HobPartContext *c, int k G_GNUC_UNUSED)
{
  return c->mode[SHUT] > 0 ? 1 - (c->p[IN] - c->p[OUT]) / EQUAL : carried (c) - 1;
}

static void
flip (const HobPartContext *c, int k G_GNUC_UNUSED, double *y G_GNUC_UNUSED)
{
  c->mode[SHUT] = !(c->mode[SHUT] > 0);
}

static double
stored_gas (const HobPartContext *c)
{
  return c->y[BEHIND];
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_TRIPPED:
      return c->mode[SHUT];
    case Q_FLOW:
      return c->q[D_BORE];
    case Q_SMELL:
      return smell (c);
    default:
      return c->q[D_LEAK];
    }
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      if (view->mode[SHUT] > 0) /* its ball in the seat */
        {
          pen_circle (pen, -26, 0, 5);
          pen_fill (pen, HOB_ROLE_INK);
        }
      return;
    }
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
  .label = N_ ("flexible gas connector"),
  .means = HOB_MEANS (LEAK_CHECK),
  .about = N_ ("A corrugated metal connector between the gas shutoff valve and the range. Its "
               "excess flow valve closes when the flow is far above normal. Never reuse an old "
               "connector."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = 1,
  .symbol = { [HOB_SHEET_GAS] = { 80, 40 } },
  .figure = -1,
  .flow = flow,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .stored_gas = stored_gas,
  .draw = draw,
};
