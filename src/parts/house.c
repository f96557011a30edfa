/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The house: the panel's 120 V with neutral bonded to ground, the metal gas pipe as a ground of
 * its own, the gas supply, and the kitchen's air.  Ground is the circuit's reference.
 *
 * The service has two legs of 120 V against one neutral.  Each leg feeds other loads of the house,
 * P watts at 120 V.  While the service neutral is whole they do not matter.  Open, the two legs are
 * in series across 240 V, and neutral floats to where their currents are equal: the leg with the
 * larger load loses volts, and the other one gains them.  Ground rods are a poor neutral, 20 Ω
 * (one rod is accepted up to 25 Ω: National Electrical Code 250.53, from memory).  On a generator,
 * neutral may float altogether: nothing bonds it to ground.
 *
 * Steam raises the kitchen's humidity, and air that is changed carries it away:
 *
 *   dm/dt = ṁ_steam − m/τ,   RH = RH_set + m·R·T/(V·p_sat(T)),   R = 461.5 J/kg K
 *
 * V is 30 m³ and τ 1.5 h; both are invented for a believable kitchen.
 *
 * At altitude gas is as thin as the air.  An orifice lets out √(p/p₀) of its mass, 1.8% less
 * heat for each 1,000 ft.  The air of a draft thins by p/p₀, 3.5%; orifices that are to keep
 * their share of it must give up as much, hence the trade's rule of 4% for each 1,000 ft.
 * Primary air, drawn in by the jet itself, keeps its share. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { LINE, NEUTRAL, EARTH, PIPE, CENTER };
enum { GAS };
enum {
  TEMPERATURE,
  HUMIDITY,
  FUEL,
  PIPE_OHMS,
  GAS_PRESSURE,
  ALTITUDE,
  PRESSURE_SHARE,
  SERVICE_SHARE,
  LEG_WATTS,
  OTHER_LEG_WATTS,
  NEUTRAL_OHMS,
  BOND_OHMS,
  ROD
};
enum { E_SOURCE, E_NEUTRAL, E_BOND, E_EARTH, E_PIPE, E_LEG, E_OTHER_LEG, E_RODS };
enum { VAPOR };
enum { Q_TEMPERATURE, Q_PRESSURE, Q_HUMIDITY };

#define KITCHEN 30.0      /* m³ */
#define AIRED 5400.0      /* s */
#define VAPOR_GAS 461.5   /* J/kg K */

#define SEA_LEVEL 101325.0 /* Pa, ICAO */
#define LINE_VOLTS 120.0
#define BUS_OHMS 0.001
#define ROD_OHMS 20.0
#define SUPPLY_AREA 8e-5      /* m², discharge included: a service far larger than a range */
#define NATURAL_SUPPLY 1744.0 /* Pa, 7 in. w.c.; common practice, no source */
#define LP_SUPPLY 2740.0      /* Pa, 11 in. w.c.; common practice, no source */

static const HobTerminalDef terminals[] = {
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("hot bus of the panel"), .required = TRUE, .x = 40, .y = -40,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("neutral bus of the panel, bonded to ground"), .required = TRUE,
    .x = 40, .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "earth", .mark = NC_ ("terminal", "gnd"),
    .words = N_ ("ground bus of the panel"), .x = 40, .y = 40 },
  { .name = "pipe", .mark = NC_ ("terminal", "pipe"),
    .words = N_ ("metal gas pipe"), .x = 40, .y = 80 },
  { .name = "center", .inner = TRUE, .words = N_ ("center tap of the service, at the pole"),
    .x = -14, .y = 0 },
};

static const HobPortDef ports[] = {
  { .name = "gas", .words = N_ ("house gas pipe"), .way = HOB_WAY_OUT, .x = 40 },
};


static const HobSettingDef settings[] = {
  { .name = "temperature", .words = N_ ("Temperature of the kitchen."), .dim = HOB_DIM_TEMPERATURE,
    .normal = 298.15, .low = 253.15, .high = 323.15, .of = HOB_SETTING_NOMINAL },
  { .name = "humidity", .words = N_ ("Relative humidity of the kitchen, 0 to 1 or in %."),
    .normal = 0.5, .high = 1, .of = HOB_SETTING_NOMINAL },
  { .name = "fuel", .words = N_ ("Gas in the pipe, whatever the data plate says."),
    .dim = HOB_DIM_CHOICE, .high = 1, .choices = hob_fuel_names, .of = HOB_SETTING_FUEL },
  { .name = "gas-pipe-ohms",
    .words = N_ ("Resistance of the gas pipe to ground; open for plastic pipe or a dielectric "
                 "union."),
    .dim = HOB_DIM_RESISTANCE, .normal = 2, .low = 0.01, .high = INFINITY,
    .of = HOB_SETTING_HOUSE },
  { .name = "gas-pressure",
    .words = N_ ("Supply pressure to the house; 0 means normal for the gas."),
    .dim = HOB_DIM_PRESSURE, .high = 20000, .of = HOB_SETTING_HOUSE },
  { .name = "altitude", .words = N_ ("Altitude."), .dim = HOB_DIM_LENGTH, .low = -400,
    .high = 4000, .of = HOB_SETTING_HOUSE },
  { .name = "pressure-share", .words = "Share of its pressure that the supply has.",
    .normal = 1, .high = 2, .condition = TRUE },
  { .name = "service-share", .words = "Share of its opening that the service has.",
    .normal = 1, .high = 1, .condition = TRUE },
  { .name = "leg-watts", .words = N_ ("Other loads of the house on the range's leg, at 120 V."),
    .dim = HOB_DIM_POWER, .normal = 300, .low = 1, .high = 10000, .of = HOB_SETTING_HOUSE },
  { .name = "other-leg-watts",
    .words = N_ ("Other loads of the house on the other leg, at 120 V."), .dim = HOB_DIM_POWER,
    .normal = 900, .low = 1, .high = 10000, .of = HOB_SETTING_HOUSE },
  { .name = "neutral-ohms", .words = "Resistance of the service neutral.",
    .dim = HOB_DIM_RESISTANCE, .normal = BUS_OHMS, .low = BUS_OHMS, .high = INFINITY,
    .condition = TRUE },
  { .name = "bond-ohms", .words = "Resistance from neutral to ground at the panel.",
    .dim = HOB_DIM_RESISTANCE, .normal = BUS_OHMS, .low = BUS_OHMS, .high = INFINITY,
    .condition = TRUE },
  { .name = "rod-ohms", .words = "Resistance from the service's center tap to ground.",
    .dim = HOB_DIM_RESISTANCE, .normal = ROD_OHMS, .low = 1, .high = INFINITY, .condition = TRUE },
};

static const HobStateDef states[] = {
  { .name = "vapor", .words = "kg of steam in the kitchen's air", .tolerance = 1e-4 },
};

static const HobFaultDef faults[] = {
  {
    .id = "gas-low",
    .words = N_ ("inlet pressure low"),
    .severity_words = N_ ("inlet pressure %s low"),
    .typical = 0.7,
    .prior = 1,
    .basis = "an LP cylinder nearly empty, a service regulator that fails; seldom on a town main",
    .proof = N_ ("Read the static pressure at the range inlet. It's low even with all the "
                 "burners off."),
    .confirm = HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = PRESSURE_SHARE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.1 }),
  },
  {
    .id = "gas-starved",
    .words = N_ ("gas supply can't keep up: cold LP tank or clogged supply"),
    .severity_words = N_ ("gas supply %s restricted"),
    .prior = 1,
    .basis = "a small LP cylinder in winter",
    .proof = N_ ("Read the inlet pressure with all the burners off. It's normal, but it drops "
                 "with each burner you turn on."),
    .confirm = HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = SERVICE_SHARE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.02,
                   .geometric = TRUE }),
  },
  {
    .id = "pipe-not-grounded",
    .words = N_ ("gas pipe isn't grounded: plastic pipe or a dielectric union"),
    .prior = 2,
    .basis = "common in newer houses, harmless by itself",
    .proof = N_ ("Unplug the range. Read ohms from the gas pipe to the receptacle's ground. A "
                 "grounded pipe reads only a few ohms."),
    .confirm = HOB_MEANS (OHMS),
    HOB_EFFECTS ({ .setting = PIPE_OHMS, .at0 = 1e9, .at1 = 1e9 }),
  },
  {
    .id = "neutral-open",
    .words = N_ ("open or loose neutral of the house"),
    .severity_words = N_ ("%s in the service neutral"),
    .prior = 1,
    .basis = "a corroded clamp at the service drop",
    .proof = N_ ("Read volts from hot to neutral. They change when another appliance on either "
                 "leg comes on, and the volts of both legs still add up to 240."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = NEUTRAL_OHMS, .at0 = 0.5, .at1 = 60, .geometric = TRUE }),
  },
  {
    .id = "neutral-floats",
    .words = N_ ("generator with a floating neutral"),
    .prior = 1,
    .basis = "portable generators, after an outage",
    .proof = N_ ("Read volts from neutral to ground at the receptacle. On a normal supply there "
                 "are almost none; here only ghost voltage, and hot to ground reads low too."),
    .confirm = HOB_MEANS (RECEPTACLE),
    HOB_EFFECTS ({ .setting = BOND_OHMS, .at0 = 1e9, .at1 = 1e9 },
                 { .setting = ROD, .at0 = 1e9, .at1 = 1e9 }),
  },
};

static const HobElementDef elements[] = {
  [E_SOURCE] = { .name = "source", .a = CENTER, .b = LINE },
  [E_NEUTRAL] = { .name = "service neutral", .a = NEUTRAL, .b = CENTER },
  [E_BOND] = { .name = "bond", .a = NEUTRAL, .b = -1 },
  [E_EARTH] = { .name = "earth bus", .a = EARTH, .b = -1 },
  [E_PIPE] = { .name = "gas pipe", .a = PIPE, .b = -1 },
  [E_LEG] = { .name = "other loads, this leg", .a = LINE, .b = NEUTRAL },
  [E_OTHER_LEG] = { .name = "other loads, other leg", .a = CENTER, .b = NEUTRAL },
  [E_RODS] = { .name = "ground rods", .a = CENTER, .b = -1 },
};

static const HobDuctDef ducts[] = {
  { .name = "supply", .a = -1, .b = GAS },
};

static const HobQuantityDef quantities[] = {
  { .name = "air", .words = N_ ("temperature of the kitchen"), .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_THERMOMETER },
  { .name = "pressure", .words = N_ ("gas pressure in the house pipe"), .dim = HOB_DIM_PRESSURE },
  { .name = "humidity", .words = N_ ("relative humidity of the kitchen"), .say = HOB_SAY_SHARE },
};

static void
house (const HobPartContext *c, HobHouse *h)
{
  h->temperature = c->set[TEMPERATURE];
  h->humidity = c->set[HUMIDITY];
  /* Standard atmosphere, ICAO: p = 101325·(1 − 2.25577e-5·h)^5.25588 */
  h->pressure = SEA_LEVEL * pow (1 - 2.25577e-5 * c->set[ALTITUDE], 5.25588);
  h->thinned = hob_fuels[(int)c->set[FUEL]];
  h->thinned.density *= h->pressure / SEA_LEVEL;
  h->fuel = &h->thinned;
}

static double
humidity (const HobPartContext *c)
{
  double kelvin = c->set[TEMPERATURE];
  double most = KITCHEN * hob_vapour_pressure (kelvin) / VAPOR_GAS / kelvin; /* kg, saturated */

  return fmin (c->set[HUMIDITY] + c->y[VAPOR] / most, 1);
}

static void
give (const HobPartContext *c)
{
  c->place[HOB_PLACE_HUMIDITY] = c->y[VAPOR] > 0 ? humidity (c) : c->set[HUMIDITY];
  for (int k = HOB_PLACE_AIR; k <= HOB_PLACE_COMPARTMENT; k++)
    c->place[k] = c->house->temperature;
}

/* S of what takes @watts at 120 V. */
static HobComplex
load (double watts)
{
  return hob_siemens (LINE_VOLTS * LINE_VOLTS / watts);
}

static void
conduct (const HobPartContext *c)
{
  c->g[E_SOURCE] = c->g[E_EARTH] = hob_siemens (BUS_OHMS);
  c->g[E_NEUTRAL] = hob_siemens (c->set[NEUTRAL_OHMS]);
  c->g[E_BOND] = hob_siemens (c->set[BOND_OHMS]);
  c->g[E_RODS] = hob_siemens (c->set[ROD]);
  c->g[E_LEG] = load (c->set[LEG_WATTS]);
  c->g[E_OTHER_LEG] = load (c->set[OTHER_LEG_WATTS]);
  c->emf[E_SOURCE].re = LINE_VOLTS;
  c->emf[E_OTHER_LEG].re = -LINE_VOLTS;
  c->g[E_PIPE] = hob_siemens (c->set[PIPE_OHMS]);
}

static void
flow (const HobPartContext *c)
{
  double usual = (int)c->set[FUEL] == HOB_FUEL_LP ? LP_SUPPLY : NATURAL_SUPPLY;
  double pressure = c->set[GAS_PRESSURE] > 0 ? c->set[GAS_PRESSURE] : usual;

  c->duct[0] = (HobDuct){ .law = HOB_DUCT_SUPPLY,
                          .area = SUPPLY_AREA * c->set[SERVICE_SHARE],
                          .set = pressure * c->set[PRESSURE_SHARE] };
}

/* The room takes in all heat that reaches it. */
static void
rates (const HobPartContext *c)
{
  c->dy[VAPOR] = c->place[HOB_PLACE_STEAM] - c->y[VAPOR] / AIRED;
  c->ledger[HOB_LEDGER_HEAT_OUT] += c->place[HOB_PLACE_HEAT] + c->place[HOB_PLACE_HEAT_AIR];
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_TEMPERATURE: return c->house->temperature;
    case Q_PRESSURE: return c->p[GAS];
    default: return humidity (c);
    }
}

/* A source between line and neutral, neutral and ground bonded, the gas pipe grounded by itself. */
static void
draw_panel (HobPen *pen)
{
  pen_rect (pen, -40, -100, 80, 200);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_segment (pen, 40, -40, -14, -40);
  pen_segment (pen, -14, -40, -14, 40);
  pen_segment (pen, 40, 0, -14, 0);
  pen_segment (pen, 40, 40, -14, 40);
  pen_segment (pen, 10, 0, 10, 40);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  pen_circle (pen, -14, -20, 14);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_move (pen, -22, -20);
  pen_curve (pen, -18, -30, -16, -28, -14, -20);
  pen_curve (pen, -12, -12, -10, -10, -6, -20);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, 10, 0, 3);
  pen_fill (pen, HOB_ROLE_INK);
  hob_symbol_earth (pen, -14, 44);
  hob_symbol_tube (pen, 6, 40, 80);
  pen_segment (pen, 6, 80, -14, 80);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  hob_symbol_earth (pen, -14, 84);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  if (view->sheet == HOB_SHEET_WIRING)
    {
      draw_panel (pen);
      return;
    }
  hob_symbol_tube (pen, 16, 40, 0);
  pen_rect (pen, -40, -40, 56, 80);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_circle (pen, -12, 0, 16);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_DETAIL);
  pen_text (pen, -12, 5, HOB_TEXT_NAME, HOB_ROLE_GAS, HOB_ALIGN_CENTRE, "G");
}

const HobKind hob_kind_house = {
  .name = "house",
  .label = N_ ("house supply"),
  .about = N_ ("The electrical panel, the gas service and the air in the kitchen."),
  .room = HOB_ROOM_KITCHEN,
  .flags = HOB_KIND_PLACE | HOB_KIND_SUPPLY_LINE | HOB_KIND_SUPPLY_GAS | HOB_KIND_HOUSE,
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 200 }, [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = -1,
  .house = house,
  .give = give,
  .conduct = conduct,
  .flow = flow,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
