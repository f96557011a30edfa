/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Liquid-filled bulb of a dial thermostat: its capillary hands on the temperature that the fluid's
 * volume stands for. Fluid that is lost reads as cold.  Off its clips it lies on the floor plate
 * and feels that, or it hangs in the still air by the door and lags. */

#include "base/i18n.h"
#include "parts/sensing.h"
#include "parts/symbol.h"

enum { LAG, ON_FLOOR, LOST };
enum { SENSED };
enum { Q_SENSED, Q_READS };

#define ALL_LOST 300.0 /* K that a bulb without fluid reads too cold */

static const HobSettingDef settings[] = {
  { "lag", N_ ("How long it lags behind still air."), HOB_DIM_TIME, HOB_SENSED_LAG, 2, 1200 },
  { "on-floor", N_ ("Share in which it feels the floor plate."), HOB_DIM_NUMBER, 0, 0, 1, NULL,
    TRUE },
  { "lost", N_ ("Share of its fluid that is lost."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const HobStateDef states[] = {
  { "sensed", N_ ("temperature of the fluid"), HOB_DIM_TEMPERATURE, 0.05 },
};

static const HobQuantityDef quantities[] = {
  { "sensed", N_ ("temperature of the fluid"), HOB_DIM_TEMPERATURE, HOB_SENSE_NONE },
  { "reads", N_ ("temperature that its control takes it for"), HOB_DIM_TEMPERATURE,
    HOB_SENSE_NONE },
};

static const HobFaultDef faults[] = {
  { "on-floor",
    N_ ("bulb off its clips, on the floor plate"),
    N_ ("share in which it feels the plate"),
    0.5,
    3,
    N_ ("assumption: pulled down by a pan or at cleaning"),
    N_ ("Look: is it up in its clips?"),
    NULL,
    -1,
    1,
    { { ON_FLOOR, HOB_EFFECT_SET, 0, 1 } } },
  { "near-door",
    N_ ("bulb off its clips, hanging by the door"),
    N_ ("lag × (1 + 4 · severity)"),
    0.5,
    2,
    N_ ("assumption"),
    N_ ("Look: is it up in its clips?"),
    NULL,
    -1,
    1,
    { { LAG, HOB_EFFECT_MULTIPLY, 1, 5 } } },
  { "fluid-lost",
    N_ ("fluid of the bulb lost"),
    N_ ("reads 300 K · severity too cold"),
    1,
    3,
    N_ ("assumption: capillary chafed or kinked"),
    N_ ("The contact stays as it is whatever the oven's heat; a stain along the capillary."),
    N_ ("Without a fail-safe bellows it runs away. Do not use it: gas shut, plug out."),
    -1,
    1,
    { { LOST, HOB_EFFECT_SET, 0, 1 } } },
};

static double
reads (const HobPartContext *c)
{
  return c->y[SENSED] - ALL_LOST * c->set[LOST];
}

static void
start (const HobPartContext *c, double *y)
{
  y[SENSED] = c->house->temperature;
}

static double
turn (const HobPartContext *c)
{
  return reads (c);
}

static void
rates (const HobPartContext *c)
{
  double air = hob_sensing_rate (c, c->y[SENSED], c->set[LAG]);
  double floor = (c->within[HOB_PLACE_FLOOR] - c->y[SENSED]) / c->set[LAG];

  c->dy[SENSED] = air + c->set[ON_FLOOR] * (floor - air);
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_READS ? reads (c) : c->y[SENSED];
}

/* A thin capsule with its capillary. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  HobRole ink = view->sheet == HOB_SHEET_CUTAWAY ? HOB_ROLE_CAVITY_INK : HOB_ROLE_INK;
  HobRole ground = view->sheet == HOB_SHEET_CUTAWAY ? HOB_ROLE_CAVITY : HOB_ROLE_PANEL;

  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_move (pen, -38, 0);
  pen_curve (pen, -30, -14, -22, 10, -12, 0);
  pen_stroke (pen, ink, HOB_DETAIL);
  pen_arc (pen, -6, 0, 6, G_PI / 2, 3 * G_PI / 2);
  pen_line (pen, 30, -6);
  pen_arc (pen, 30, 0, 6, -G_PI / 2, G_PI / 2);
  pen_close (pen);
  pen_fill_stroke (pen, ground, ink, HOB_OUTLINE);
}

const HobKind hob_kind_bulb = {
  .name = "bulb",
  .label = N_ ("thermostat bulb"),
  .about = N_ (
      "A thin bulb of liquid clipped up in the cavity. The liquid swells with heat and works the "
      "control's contact through a capillary."),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },
  .figure = Q_SENSED,
  .start = start,
  .turn = turn,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
