/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Sensing bulb of a dial thermostat.  The liquid expands with heat, and the capillary tube
 * passes the temperature on to the control.  Lost liquid reads as cold.  Off its clips, the
 * bulb either lies on the oven bottom and follows that, or hangs in the still air by the door
 * and lags.
 *
 *   dT/dt = (1 − f)·(T_seen − T)/lag + f·(T_bottom − T)/lag,   T_read = T − 300 K·lost
 *
 * f is the share in which it touches the oven bottom; T_seen is in sensing.h. */

#include "base/i18n.h"
#include "parts/sensing.h"
#include "parts/symbol.h"

enum { LAG, ON_FLOOR, LOST, OFF_CLIPS };
enum { SENSED };
enum { Q_SENSED, Q_READS };

#define ALL_LOST 300.0 /* K too cold that a bulb without liquid reads */

static const HobSettingDef settings[] = {
  { .name = "lag", .words = N_ ("How long the part takes to respond to a temperature change in "
                                "still air."),
    .dim = HOB_DIM_TIME,
    .normal = HOB_SENSED_LAG, .low = 2, .high = 1200 },
  { .name = "on-bottom", .words = "Share in which it feels the floor plate.", .high = 1,
    .condition = TRUE, .visible = 0.25 },
  { .name = "lost", .words = "Share of its fluid that is lost.", .high = 1,
    .condition = TRUE },
  { .name = "off-clips", .words = "Whether it is out of its clips.", .high = 1,
    .condition = TRUE, .visible = 0.5 },
};

static const HobStateDef states[] = {
  { .name = "sensed", .words = "temperature of the fluid", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.05 },
};

static const HobQuantityDef quantities[] = {
  { .name = "sensed", .words = N_ ("temperature of the sensing bulb"), .dim = HOB_DIM_TEMPERATURE,
    .says = N_ ("The sensing bulb is at %s.") },
  { .name = "reads", .words = N_ ("temperature that the thermostat senses"),
    .dim = HOB_DIM_TEMPERATURE, .out_of_reach = TRUE,
    .says = N_ ("The thermostat senses %s.") },
};

static const HobFaultDef faults[] = {
  {
    .id = "on-bottom",
    .words = N_ ("sensing bulb out of its clips, lying on the oven bottom"),
    .severity_words = N_ ("%s of the bulb's heat comes from the oven bottom"),
    .typical = 0.5,
    .prior = 3,
    .basis = "pulled down by a pan or at cleaning",
    .proof = N_ ("Look inside the oven. The sensing bulb isn't in its clips; it's lying on the "
                 "oven bottom."),
    .confirm = HOB_MEANS (INSPECT),
    HOB_EFFECTS ({ .setting = ON_FLOOR, .at1 = 1 }),
  },
  {
    .id = "near-door",
    .words = N_ ("sensing bulb out of its clips, near the door"),
    .severity_words = N_ ("takes %s longer to respond"),
    .typical = 0.5,
    .prior = 2,
    .proof = N_ ("Look inside the oven. The sensing bulb isn't in its clips; it's near the door."),
    .confirm = HOB_MEANS (INSPECT),
    HOB_EFFECTS ({ .setting = LAG, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 5 },
                 { .setting = OFF_CLIPS, .at0 = 1, .at1 = 1 }),
  },
  {
    .id = "charge-lost",
    .words = N_ ("sensing bulb lost its charge"),
    .severity_words = N_ ("%s of the charge lost"),
    .prior = 3,
    .basis = "capillary chafed or kinked",
    .proof = N_ ("Set the oven low and read the volts across the thermostat contact. An open "
                 "contact reads about 120 V; a closed one reads 0 V. The reading should change as "
                 "the oven heats and cools, but it never does. A stain on the capillary tube shows "
                 "where the liquid leaked out."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = LOST, .at1 = 1 }),
  },
};

static double
reads (const HobPartContext *c)
{
  return MAX (c->y[SENSED] - ALL_LOST * c->set[LOST], 0);
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

/* A thin capsule with its capillary tube. */
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
  .label = N_ ("sensing bulb"),
  .about = N_ ("A thin, liquid-filled bulb clipped near the top of the oven. Heat expands the "
               "liquid, which operates the thermostat contact through the capillary tube."),
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
