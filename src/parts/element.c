/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Sheathed electric element behind the convection fan: on 120 V and 15 A at most 900 W.
 *
 *   C dT/dt = i²R − εσA(T⁴ − Tₐ⁴) − hA(T − Tₐ)
 *
 * Figures invented for a believable appliance. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { A, B };
enum { OHMS, HEAT_CAPACITY, SURFACE, BROKEN };
enum { SHEATH };
enum { Q_POWER, Q_CURRENT, Q_SHEATH };

#define EMISSIVITY 0.85
#define CONVECTION 25.0 /* W/m²K, in the fan's stream */

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -60, 0 },
  { "b", N_ ("neutral side"), TRUE, 60, 0 },
};

static const HobSettingDef settings[] = {
  { "ohms", N_ ("Resistance."), HOB_DIM_RESISTANCE, 16, 5, 1000 },
  { "heat-capacity", N_ ("Heat capacity, J/K."), HOB_DIM_NUMBER, 150, 5, 5000 },
  { "surface", N_ ("Surface, m²."), HOB_DIM_NUMBER, 0.03, 1e-3, 1 },
  { "broken", N_ ("1: the element is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const HobStateDef states[] = {
  { "sheath", N_ ("temperature of the sheath"), HOB_DIM_TEMPERATURE, 0.2 },
};

static const HobElementDef elements[] = { { "element", A, B } };

static const HobQuantityDef quantities[] = {
  { "power", N_ ("power"), HOB_DIM_POWER, HOB_SENSE_NONE },
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
  { "sheath", N_ ("temperature of the sheath"), HOB_DIM_TEMPERATURE, HOB_SENSE_EYE },
};

static const HobFaultDef faults[] = {
  { "open", N_ ("element broken"), NULL, 1, 4, N_ ("assumption"),
    N_ ("The line voltage stands across it and it draws nothing; unplugged, it reads open."),
    N_ ("Off is not dead: unplug and prove dead before reaching in."), -1, 1,
    { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },
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
  double in = power (c);
  double out = hob_surface_loss (c->set[SURFACE], EMISSIVITY, CONVECTION, c->y[SHEATH],
                                 c->within[HOB_PLACE_AIR]);

  c->dy[SHEATH] = (in - out) / c->set[HEAT_CAPACITY];
  c->within[HOB_PLACE_HEAT_AIR] += out;
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
  .label = N_ ("electric element"),
  .about = N_ ("A sheathed heating element in the fan's stream; it helps the gas while the oven preheats."),
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
