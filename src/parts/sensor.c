/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Platinum resistance sensor (1,000 ohm at 0 °C, IEC 60751) and its plug, in series. */

#include "base/i18n.h"
#include "parts/sensing.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { A, B };
enum { ZERO_OHMS, PLUG_OHMS, LAG, BROKEN, SHORTED };
enum { ELEMENT };
enum { Q_OHMS, Q_TEMPERATURE };

static const HobTerminalDef terminals[] = {
  { "a", N_ ("one lead"), TRUE, -60, 0 },
  { "b", N_ ("other lead"), TRUE, 60, 0 },
};

static const HobSettingDef settings[] = {
  { "zero-ohms", N_ ("Resistance at 0 °C."), HOB_DIM_RESISTANCE, 1000, 10, 10000 },
  { "plug-ohms", N_ ("Resistance of its plug."), HOB_DIM_RESISTANCE, 0, 0, 100e3 },
  { "lag", N_ ("How long it lags behind still air."), HOB_DIM_TIME, HOB_SENSED_LAG, 2, 1200 },
  { "broken", N_ ("1: the element is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "shorted", N_ ("1: its leads touch."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const HobStateDef states[] = {
  { "element", N_ ("temperature of the element"), HOB_DIM_TEMPERATURE, 0.05 },
};

static const HobElementDef elements[] = { { "element", A, B } };

static const HobQuantityDef quantities[] = {
  { "ohms", N_ ("resistance with its plug"), HOB_DIM_RESISTANCE, HOB_SENSE_NONE },
  { "temperature", N_ ("temperature of the element"), HOB_DIM_TEMPERATURE, HOB_SENSE_NONE },
};

static const HobFaultDef faults[] = {
  { "open",
    N_ ("sensor broken"),
    NULL,
    1,
    4,
    N_ ("assumption"),
    N_ ("Unplugged, the sensor reads open at the board's plug; near 1,090 ohm is right in a cold "
        "oven."),
    NULL,
    -1,
    1,
    { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },
  { "shorted",
    N_ ("sensor leads touch"),
    NULL,
    1,
    2,
    N_ ("assumption"),
    N_ ("Unplugged, the sensor reads next to nothing at the board's plug."),
    NULL,
    -1,
    1,
    { { SHORTED, HOB_EFFECT_SET, 0, 1 } } },
  { "drifted",
    N_ ("sensor drifted"),
    N_ ("resistance × (1 + 0.08 · severity): the oven runs cool"),
    0.5,
    2,
    N_ ("assumption"),
    N_ ("Straight at the sensor its ohms stand above the table for the oven's temperature."),
    NULL,
    -1,
    1,
    { { ZERO_OHMS, HOB_EFFECT_MULTIPLY, 1, 1.08 } } },
  { "plug-corroded",
    N_ ("sensor plug corroded"),
    N_ ("adds 120 ohm · severity: the oven runs cool"),
    0.5,
    4,
    N_ ("assumption"),
    N_ ("Ohms at the board's plug stand above the table for the oven's temperature; straight at "
        "the sensor they agree."),
    NULL,
    -1,
    1,
    { { PLUG_OHMS, HOB_EFFECT_ADD, 0, 120 } } },
};

static double
ohms (const HobPartContext *c)
{
  if (c->set[SHORTED] > 0)
    return HOB_CONTACT_OHMS;
  if (c->set[BROKEN] > 0)
    return INFINITY;
  return hob_platinum_resistance (c->set[ZERO_OHMS], c->y[ELEMENT]) + c->set[PLUG_OHMS];
}

static void
start (const HobPartContext *c, double *y)
{
  y[ELEMENT] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  c->g[0] = hob_siemens (ohms (c));
}

static void
rates (const HobPartContext *c)
{
  c->dy[ELEMENT] = hob_sensing_rate (c, c->y[ELEMENT], c->set[LAG]);
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_OHMS ? ohms (c) : c->y[ELEMENT];
}

/* IEC 60617: a resistor that changes with temperature, its stroke bent at the foot. */
static void
draw_wiring (HobPen *pen)
{
  hob_symbol_resistor (pen, 64, 20, 60);
  pen_move (pen, -30, 18);
  pen_line (pen, -20, 18);
  pen_line (pen, 22, -18);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

static void
draw_cutaway (HobPen *pen)
{
  pen_rect (pen, -36, -12, 8, 24); /* its flange on the rear wall */
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  pen_rect (pen, -28, -4, 60, 8);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER && view->sheet == HOB_SHEET_WIRING)
    draw_wiring (pen);
  else if (view->layer == HOB_LAYER_PAPER)
    draw_cutaway (pen);
}

const HobKind hob_kind_sensor = {
  .name = "sensor",
  .label = N_ ("oven sensor"),
  .about = N_ ("A platinum element in a steel tube in the cavity. Its resistance rises with heat, "
               "about 3.8 ohm "
               "a kelvin, and the board reads it."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 120, 40 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },
  .figure = Q_OHMS,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
