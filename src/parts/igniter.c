/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Silicon carbide igniter, in series with the heater of its safety valve.
 *
 *   C dT/dt = i²R(T) − εσA(T⁴ − Tₐ⁴) − hA(T − Tₐ)
 *   R(T)    = s·R_hot·(1 + 2e-5·max(T − 1250 K, 0)) + s·(R_cold − R_hot)·exp(−(T − 293 K)/260 K)
 *
 * s is the resistance factor: age raises it.  R_cold carries the specimen's own log-normal scatter
 * (σ 0.4), so cold ohms find an open igniter and never a weak one.  The figures are this project's
 * invention for a believable appliance, from common practice; no published source. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { A, B };
enum { RESISTANCE_FACTOR, R_HOT, R_COLD, HEAT_CAPACITY, AREA, OFFSET, BROKEN };
enum { TEMPERATURE };
enum { Q_CURRENT, Q_TEMPERATURE, Q_VOLTS, Q_GLOW };

#define EMISSIVITY 0.9
#define CONVECTION 15.0 /* W/m²K */
#define COLD_SCATTER 0.4

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -60, 0 },
  { "b", N_ ("valve side"), TRUE, 60, 0 },
};

static const HobElementDef elements[] = { { "element", A, B } };

#define SETTINGS(element) SETTINGS_OF (element)
#define SETTINGS_OF(r_hot, r_cold, capacity, area)                                                     \
  {                                                                                                 \
    { "resistance-factor", N_ ("Resistance against a new one's; age raises it."), HOB_DIM_NUMBER,    \
      1.0, 0.5, 10.0 },                                                                             \
    { "hot-ohms", N_ ("Resistance of a new one at working heat."), HOB_DIM_RESISTANCE, r_hot, 5,    \
      500 },                                                                                        \
    { "cold-ohms", N_ ("Resistance of a typical one at 20 °C."), HOB_DIM_RESISTANCE, r_cold, 10,    \
      2000 },                                                                                       \
    { "heat-capacity", N_ ("Heat capacity, J/K."), HOB_DIM_NUMBER, capacity, 0.5, 100 },            \
    { "surface", N_ ("Radiating surface, m²."), HOB_DIM_NUMBER, area, 1e-5, 0.1 },                  \
    { "offset", N_ ("How far it stands from its proper place at the burner, 0 to 1."),              \
      HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },                                                        \
    { "broken", N_ ("1: the element is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },            \
  }

/* Hot and cold ohms, J/K, m². */
#define FLAT 33.0, 95.0, 7.0, 10.5e-4
#define ROUND 41.5, 150.0, 6.0, 8.3e-4

static const HobSettingDef flat_settings[] = SETTINGS (FLAT);
static const HobSettingDef round_settings[] = SETTINGS (ROUND);

static const HobStateDef states[] = {
  { "temperature", N_ ("temperature"), HOB_DIM_TEMPERATURE, 0.5 },
};

static const HobQuantityDef quantities[] = {
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
  { "temperature", N_ ("temperature"), HOB_DIM_TEMPERATURE, HOB_SENSE_NONE },
  { "volts", N_ ("voltage across it"), HOB_DIM_VOLTAGE, HOB_SENSE_NONE },
  { "glow", N_ ("glow"), HOB_DIM_TEMPERATURE, HOB_SENSE_EYE },
};

/* Faults of one of the two kinds; the last is the other kind fitted in its place. */
#define FAULTS(other_words, element) FAULTS_OF (other_words, element)
#define FAULTS_OF(other_words, r_hot, r_cold, capacity, area)                                          \
  {                                                                                                 \
    { "aged", N_ ("igniter weak with age"),                                                         \
      N_ ("resistance × (1 + 0.5 · severity); it may glow bright and yet never open its valve"),    \
      0.5, 30, N_ ("assumption: the most frequent oven failure"),                                   \
      N_ ("Clamp on one igniter wire after a minute: below the valve's opening current with the "   \
          "full line voltage at the harness."),                                                     \
      N_ ("Hot for ten minutes after it is off, and brittle."), -1, 1,                              \
      { { RESISTANCE_FACTOR, HOB_EFFECT_MULTIPLY, 1.0, 1.5 } } },                                   \
    { "open", N_ ("igniter broken"), NULL, 1, 10, N_ ("assumption"),                                \
      N_ ("No glow and the line voltage stands across it; unplugged, it reads open."),              \
      N_ ("Off is not dead: unplug and prove dead before reaching in."), -1, 1,                     \
      { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },                                                       \
    { "out-of-place", N_ ("igniter out of its place"),                                              \
      N_ ("0 at the first ports, 1 twenty times as far off"), 0.5, 3,                               \
      N_ ("assumption: after a bracket has broken or a part was changed"),                          \
      N_ ("Full amps and gas, and a late light; look where it stands against the burner's first "   \
          "ports."),                                                                                \
      N_ ("Gas gathers before it lights. Do not use it: gas shut, plug out."), -1, 1,               \
      { { OFFSET, HOB_EFFECT_ADD, 0, 1 } } },                                                       \
    { "wrong-kind", other_words, NULL, 1, 2, N_ ("assumption: after a repair elsewhere"),           \
      N_ ("Its shape, the part's number, and amps that belong to the other kind."),                 \
      N_ ("Hot for ten minutes after it is off, and brittle."), -1, 4,                              \
      { { R_HOT, HOB_EFFECT_SET, 0, r_hot }, { R_COLD, HOB_EFFECT_SET, 0, r_cold },                 \
        { HEAT_CAPACITY, HOB_EFFECT_SET, 0, capacity }, { AREA, HOB_EFFECT_SET, 0, area } } },      \
  }

static const HobFaultDef flat_faults[] = FAULTS (N_ ("a round igniter fitted in place of a flat one"), ROUND);
static const HobFaultDef round_faults[] = FAULTS (N_ ("a flat igniter fitted in place of a round one"), FLAT);

static double
ohms (const HobPartContext *c)
{
  double r_cold = c->set[R_COLD] * exp (COLD_SCATTER * hob_specimen_normal (c, 0));

  if (c->set[BROKEN] > 0)
    return INFINITY;
  return hob_igniter_resistance (c->set[RESISTANCE_FACTOR], c->set[R_HOT], r_cold, c->y[TEMPERATURE]);
}

static double
power (const HobPartContext *c)
{
  return c->set[BROKEN] > 0 ? 0 : hob_complex_abs2 (c->i[0]) * ohms (c);
}

static double
loss (const HobPartContext *c)
{
  return hob_surface_loss (c->set[AREA], EMISSIVITY, CONVECTION, c->y[TEMPERATURE],
                           c->within[HOB_PLACE_AIR]);
}

static void
start (const HobPartContext *c, double *y)
{
  y[TEMPERATURE] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  c->g[0] = hob_siemens (ohms (c));
}

static void
rates (const HobPartContext *c)
{
  double out = loss (c);

  c->dy[TEMPERATURE] = (power (c) - out) / c->set[HEAT_CAPACITY];
  c->within[HOB_PLACE_HEAT] += out;
  c->within[HOB_PLACE_HOT] = fmax (c->within[HOB_PLACE_HOT], c->y[TEMPERATURE]);
  c->within[HOB_PLACE_GLOW_SHOWN] = fmax (c->within[HOB_PLACE_GLOW_SHOWN], c->y[TEMPERATURE]);
  c->within[HOB_PLACE_SPARK_OFFSET] = fmax (c->within[HOB_PLACE_SPARK_OFFSET], c->set[OFFSET]);
  c->ledger[HOB_LEDGER_HEAT_IN] += power (c);
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_CURRENT: return hob_complex_abs (c->i[0]);
    case Q_VOLTS: return hob_volts_across (c, A, B);
    default: return c->y[TEMPERATURE];
    }
}

/* Counted from the room's temperature: a cold igniter of another kind in its place brings no heat along. */
static double
stored_heat (const HobPartContext *c)
{
  return c->set[HEAT_CAPACITY] * (c->y[TEMPERATURE] - c->house->temperature);
}

/* Wiring: a resistor's box that fills with the element's glow. */
static void
draw_wiring (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_resistor (pen, 84, 24, 60);
      return;
    }
  if (!(view->set[BROKEN] > 0))
    {
      pen_rect (pen, -40, -10, 80, 20);
      pen_glow (pen, view->y[TEMPERATURE]);
      return;
    }
  pen_segment (pen, -6, -16, 6, 16);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

/* Cutaway: the bar in its ceramic holder. */
static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_rect (pen, 20, -10, 20, 20);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
    }
  pen_rect (pen, -38, -6, 58, 12);
  if (view->layer == HOB_LAYER_PAPER)
    pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  else
    pen_glow (pen, view->y[TEMPERATURE]);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_WIRING)
    draw_wiring (pen, view);
  else
    draw_cutaway (pen, view);
}

#define IGNITER(kind_name, kind_label, kind_about, kind_settings, kind_faults)                                   \
  {                                                                                                 \
    .name = kind_name, .label = kind_label, .about = kind_about, .flags = HOB_KIND_IGNITER,         \
    HOB_TABLE (terminals, terminals), HOB_TABLE (settings, kind_settings),                          \
    HOB_TABLE (states, states), HOB_TABLE (elements, elements), HOB_TABLE (faults, kind_faults),    \
    HOB_TABLE (quantities, quantities),                                                             \
    .symbol = { [HOB_SHEET_WIRING] = { 120, 40 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },               \
    .figure = Q_CURRENT, .start = start, .conduct = conduct, .rates = rates, .observe = observe,    \
    .stored_heat = stored_heat, .draw = draw,                                                       \
  }

const HobKind hob_kind_igniter_flat
    = IGNITER ("igniter-flat", N_ ("flat igniter"),
               N_ ("A bar of silicon carbide. Cold it resists, hot it conducts: its current rises for "
                   "half a minute, heats the valve's arm, and it lights the gas that then comes."),
               flat_settings, flat_faults);

const HobKind hob_kind_igniter_round
    = IGNITER ("igniter-round", N_ ("round igniter"),
               N_ ("A spiral of silicon carbide. It works as the flat one does, with less current: its valve "
                   "must be one that opens at less."),
               round_settings, round_faults);
