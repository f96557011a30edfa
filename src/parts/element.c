/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Sheathed electric element behind the convection fan: on 120 V and 15 A at most 900 W.
 *
 *   C dT/dt = i²R − εσA(T⁴ − Tₐ⁴) − hA(T − Tₐ)
 *
 * The fan's stream carries all of that into the oven.  Without it, the wall that it sits behind
 * keeps most, and the element itself gets hotter.  Figures invented for a believable appliance. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { A, B };
enum { OHMS, HEAT_CAPACITY, SURFACE, BROKEN };
enum { SHEATH };
enum { Q_POWER, Q_CURRENT, Q_SHEATH };

#define EMISSIVITY 0.85
#define CONVECTION 25.0 /* W/m²K, in the fan's stream … */
#define STILL_AIR 8.0   /* … and without it */
#define WALL_KEEPS 0.8  /* share that stays behind the wall then */

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -60 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 60 },
};

static const HobSettingDef settings[] = {
  { .name = "ohms",
    .words = N_ ("Resistance of the element."), .dim = HOB_DIM_RESISTANCE, .normal = 16, .low = 5,
    .high = 1000 },
  { .name = "heat-capacity", .words = N_ ("Heat capacity of the part, in J/K."),
    .normal = 150, .low = 5,
    .high = 5000 },
  { .name = "surface",
    .words = N_ ("Surface area of the element, in m²."), .normal = 0.03, .low = 1e-3, .high = 1 },
  { .name = "broken", .words = "1: the element is broken.", .high = 1, .condition = TRUE },
};

static const HobStateDef states[] = {
  { .name = "sheath", .words = "surface temperature of the element", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.2 },
};

static const HobElementDef elements[] = {
  { .name = "element", .a = A, .b = B },
};

static const HobQuantityDef quantities[] = {
  { .name = "power", .words = N_ ("wattage"), .dim = HOB_DIM_WATTS },
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
  { .name = "sheath", .words = N_ ("surface temperature of the element"),
    .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_EYE },
};

static const HobFaultDef faults[] = {
  {
    .id = "open",
    .words = N_ ("element open"),
    .prior = 4,
    .proof = N_ ("Read the volts across the element and, with a clamp meter, the amps in one of "
                 "its wires. There is line voltage, but no current. Unplug the range; the element "
                 "reads OL."),
    .confirm = HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (AMPS) | HOB_MEANS (OHMS),
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),
  },
};

static double
power (const HobPartContext *c)
{
  return c->set[BROKEN] > 0 ? 0 : hob_complex_abs2 (c->i[0]) * c->set[OHMS];
}

static void
start (const HobPartContext *c, double *y)
{
  y[SHEATH] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  c->g[0] = hob_siemens (c->set[BROKEN] > 0 ? INFINITY : c->set[OHMS]);
}

static void
rates (const HobPartContext *c)
{
  double stir = c->within[HOB_PLACE_STIR], in = power (c);
  double h = STILL_AIR + (CONVECTION - STILL_AIR) * stir;
  double out = hob_surface_loss (c->set[SURFACE], EMISSIVITY, h, c->y[SHEATH],
                                 c->within[HOB_PLACE_AIR]);
  double kept = WALL_KEEPS * (1 - stir) * out;

  c->dy[SHEATH] = (in - out) / c->set[HEAT_CAPACITY];
  c->within[HOB_PLACE_HEAT_AIR] += out - kept;
  c->within[HOB_PLACE_HEAT_WALL] += kept;
  c->ledger[HOB_LEDGER_HEAT_IN] += in;
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_POWER: return power (c);
    case Q_CURRENT: return hob_complex_abs (c->i[0]);
    default: return c->y[SHEATH];
    }
}

static double
stored_heat (const HobPartContext *c)
{
  return c->set[HEAT_CAPACITY] * c->y[SHEATH];
}

/* IEC 60617: a heating element is a resistor's box in four fields. */
static void
draw_wiring (HobPen *pen)
{
  hob_symbol_resistor (pen, 80, 20, 60);
  for (int k = -1; k <= 1; k++)
    pen_segment (pen, 20 * k, -10, 20 * k, 10);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

/* A loop of sheathed rod. */
static void
draw_cutaway (HobPen *pen)
{
  pen_move (pen, -38, -14);
  pen_line (pen, 22, -14);
  pen_arc (pen, 22, 0, 14, -G_PI / 2, G_PI / 2);
  pen_line (pen, -38, 14);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, 4);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER && view->sheet == HOB_SHEET_WIRING)
    draw_wiring (pen);
  else if (view->layer == HOB_LAYER_PAPER)
    draw_cutaway (pen);
}

const HobKind hob_kind_element = {
  .name = "element",
  .label = N_ ("convection element"),
  .about = N_ ("A heating element in the airstream of the convection fan. It helps the gas burner "
               "heat the oven."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 120, 40 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },
  .figure = Q_CURRENT,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .stored_heat = stored_heat,
  .draw = draw,
};
