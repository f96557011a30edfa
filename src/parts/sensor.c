/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Platinum resistance sensor (1,000 ohm at 0 °C, IEC 60751) and its plug, in series.  Pulled apart
 * in thought, the plug has a harness side (a) and the sensor's own side: ohms read there are the
 * element's alone. */

#include "base/i18n.h"
#include "parts/sensing.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { A, B, OWN };
enum { ZERO_OHMS, PLUG_OHMS, LAG, BROKEN, SHORTED };
enum { ELEMENT };
enum { E_ELEMENT, E_PLUG };
enum { Q_OHMS, Q_TEMPERATURE };

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("one lead of the sensor"), .required = TRUE, .x = -60 },
  { .name = "b", .words = N_ ("other lead of the sensor"), .required = TRUE, .x = 60 },
  { .name = "own", .inner = TRUE, .words = N_ ("sensor side of the plug"), .x = -60 },
};

static const HobSettingDef settings[] = {
  { .name = "zero-ohms", .words = N_ ("Sensor resistance at 32 °F."), .dim = HOB_DIM_RESISTANCE,
    .normal = 1000, .low = 10, .high = 10000 },
  { .name = "plug-ohms", .words = N_ ("Contact resistance of the sensor "
                                      "plug."), .dim = HOB_DIM_RESISTANCE,
    .high = 100e3 },
  { .name = "lag", .words = N_ ("How long the part takes to respond to a temperature change in "
                                "still air."),
    .dim = HOB_DIM_TIME,
    .normal = HOB_SENSED_LAG, .low = 2, .high = 1200 },
  { .name = "broken", .words = "1: the element is broken.", .high = 1, .condition = TRUE },
  { .name = "shorted", .words = "1: its leads touch.", .high = 1, .condition = TRUE },
};

static const HobStateDef states[] = {
  { .name = "element", .words = "temperature of the sensor element", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.05 },
};

static const HobElementDef elements[] = {
  [E_ELEMENT] = { .name = "element", .a = OWN, .b = B, .varies = TRUE },
  [E_PLUG] = { .name = "plug", .a = A, .b = OWN },
};

static const HobQuantityDef quantities[] = {
  { .name = "ohms", .words = N_ ("resistance, including the plug"), .dim = HOB_DIM_RESISTANCE,
    .says = N_ ("The sensor and its plug read %s.") },
  { .name = "temperature", .words = N_ ("temperature of the sensor element"),
    .dim = HOB_DIM_TEMPERATURE },
};

static const HobFaultDef faults[] = {
  {
    .id = "open",
    .words = N_ ("sensor open"),
    .prior = 4,
    .proof = N_ ("Unplug the range. Disconnect the sensor harness at the control and read ohms "
                 "there. Then disconnect the sensor plug and read the sensor itself. Both read OL. "
                 "In a cold oven the sensor should read about 1,090 Ω."),
    .confirm = HOB_MEANS (SENSOR_OHMS),
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),
  },
  {
    .id = "shorted",
    .words = N_ ("sensor leads shorted"),
    .prior = 2,
    .proof = N_ ("Unplug the range. Disconnect the sensor harness at the control and read ohms "
                 "there. Then disconnect the sensor plug and read the sensor itself. Both read "
                 "almost 0 Ω; a cold sensor should read about 1,090 Ω."),
    .confirm = HOB_MEANS (SENSOR_OHMS),
    HOB_EFFECTS ({ .setting = SHORTED, .at1 = 1 }),
  },
  {
    .id = "drifted",
    .words = N_ ("sensor out of tolerance"),
    .severity_words = N_ ("sensor reads %s too high"),
    .typical = 0.5,
    .prior = 2,
    .proof = N_ ("Unplug the range. Disconnect the sensor plug and read ohms at the sensor itself. "
                 "The reading is too high for the oven's temperature."),
    .confirm = HOB_MEANS (SENSOR_OHMS),
    HOB_EFFECTS ({ .setting = ZERO_OHMS, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 1.08 }),
  },
  {
    .id = "plug-corroded",
    .words = N_ ("sensor plug corroded"),
    .severity_words = N_ ("%s of extra resistance in the plug"),
    .typical = 0.5,
    .prior = 4,
    .proof = N_ ("Unplug the range. Disconnect the sensor harness at the control and read ohms "
                 "there. The reading is too high for the oven's temperature. Then disconnect the "
                 "sensor plug. At the sensor itself, the reading is normal."),
    .confirm = HOB_MEANS (SENSOR_OHMS),
    HOB_EFFECTS ({ .setting = PLUG_OHMS, .how = HOB_EFFECT_ADD, .at1 = 120 }),
  },
};

/* Of the element alone. */
static double
ohms (const HobPartContext *c)
{
  if (c->set[SHORTED] > 0)
    return HOB_CONTACT_OHMS;
  if (c->set[BROKEN] > 0)
    return INFINITY;
  return hob_platinum_resistance (c->set[ZERO_OHMS], c->y[ELEMENT]);
}

static double
plug_ohms (const HobPartContext *c)
{
  return fmax (c->set[PLUG_OHMS], HOB_CONTACT_OHMS);
}

static void
start (const HobPartContext *c, double *y)
{
  y[ELEMENT] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  c->g[E_ELEMENT] = hob_siemens (ohms (c));
  c->g[E_PLUG] = hob_siemens (plug_ohms (c));
}

static void
rates (const HobPartContext *c)
{
  c->dy[ELEMENT] = hob_sensing_rate (c, c->y[ELEMENT], c->set[LAG]);
}

static const HobLinkDef links[] = {
  { .from = Q_TEMPERATURE, .to = Q_OHMS, .words = N_ ("The sensor is at %s.") },
};

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_OHMS ? ohms (c) + plug_ohms (c) : c->y[ELEMENT];
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
  .means = HOB_MEANS (SENSOR_OHMS),
  .about = N_ ("A platinum element in a steel tube inside the oven. Its resistance rises about "
               "2.1 Ω for each °F, and the control reads it."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_WIRING] = { 120, 40 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },
  .figure = Q_OHMS,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
