/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The house: the panel's 120 V with neutral bonded to ground, the metal gas pipe as a ground of
 * its own, the gas supply, and the kitchen's air.  The soil is the circuit's reference.
 *
 * The service has two legs of 120 V against one neutral.  Each leg feeds other loads of the house,
 * P watts at 120 V.  While the service neutral is whole they do not matter.  Open, the two legs are
 * in series across 240 V, and neutral floats to where their currents are equal: the leg with the
 * larger load loses volts, and the other one gains them.  What the legs do not share then returns
 * through the ground.  Ground rods are a poor neutral: the house's 15 Ω (one rod is accepted up to
 * 25 Ω: National Electrical Code 250.53, from memory) and the utility's at the transformer 5 Ω
 * (invented).  The floor that a person stands on is soil between the two, so all that is grounded
 * in the house is then live to bare feet by what the house's rod drops.  A metal gas pipe that
 * runs on into the street is a better neutral: part of the current takes the range's ground wire,
 * its chassis and its gas connector, and returns by the gas main.  The main's 12 Ω are invented; an
 * insulating fitting at the meter opens the pipe (49 CFR 192.467 asks for one).  On a generator,
 * neutral may float altogether: nothing bonds it to ground.
 *
 * Cooking warms the kitchen by θ and its walls and cabinets by θ_w.  The settings say what it is
 * like without.  Of the heat Q that gets into the room, what evaporates water stays in the vapor:
 *
 *   C·dθ/dt = Q − 2.44 MJ/kg·ṁ − G·(θ − θ_w) − ρ·c_p·v·θ,   C_w·dθ_w/dt = G·(θ − θ_w) − G_w·θ_w
 *
 * G is 8 W/m² K from air to surfaces (from memory), on 1.5 m² for each cubic meter of the kitchen.
 * A surface takes up 20 kJ/m² K within hours and passes 3 W/m² K on, doorways included (both
 * invented).  θ is a mean: a range's plume gathers under the ceiling, and of θ a third is left at
 * the floor (invented), where the range takes in the air around its valves.
 *
 * Steam and the water of combustion raise the humidity, and air that is changed carries both away:
 *
 *   dm/dt = ṁ_steam − m·v/V,   p = RH_set·p_sat(T_set) + (m + m_burnt)·R·T/V,   R = 461.5 J/kg K
 *
 * V is the kitchen's volume and v the air that comes from outside, as for gas.  The heat of
 * evaporation is that at 25 °C.
 *
 * At altitude gas is as thin as the air.  An orifice lets out √(p/p₀) of its mass, 1.8% less
 * heat for each 1,000 ft.  The air of a draft thins by p/p₀, 3.5%; orifices that are to keep
 * their share of it must give up as much, hence the trade's rule of 4% for each 1,000 ft.
 * Primary air, drawn in by the jet itself, keeps its share.
 *
 * Gas that gets out unburned is in two zones, as in the two-box model of industrial hygiene: what
 * is near the range, where a nose is, and the rest of the kitchen.  With V_n and V their volumes,
 * β the air that moves between them, and Q the air that comes from outside:
 *
 *   dm_n/dt = q − β·m_n/V_n,   dm/dt = β·m_n/V_n − s·Q·m/V
 *
 * s is 1 for what is lighter than air.  Propane stays below the sills, where less air moves.  Of
 * what leaves the range's surroundings, a share f of it sinks and lies on the floor, in a layer of
 * the volume V_p = h·V/H under the ceiling's height H.  It mixes into the rest within τ, and with
 * the air that is changed:
 *
 *   dm_p/dt = f·β·m_n/V_n − m_p·(1/τ + Q/V)
 *
 * f, h and τ are invented.  Where nobody walks, a cold layer of a heavy gas lasts.
 *
 * The air that a hood draws off comes across the cooktop, as fast as it enters the hood.
 *
 * Carbon monoxide binds to blood.  A sleeping or working person takes it up as the Coburn,
 * Forster and Kane equation says, here without its less important terms:
 *
 *   dh/dt = (h_ppm·x·(1 − h) − h)/τ
 *
 * with h the share of blood that is bound; only the rest can bind more.  h_ppm is 0.18% for each
 * ppm and τ 85 min.  An alarm sounds at 7%: after 74 min in 70 ppm, 27 min in 150 ppm and 9 min in
 * 400 ppm, within the bands of 60–240, 10–50 and 4–15 min in which UL 2034 wants it, so that nobody
 * has 10% by then (from memory).  Volumes and flows are invented for a believable kitchen. */

#include "base/i18n.h"
#include "parts/air.h"
#include "parts/symbol.h"
#include "physics/flame.h"
#include "physics/material.h"

#include <math.h>

enum { LINE, NEUTRAL, EARTH, PIPE, CENTER };
enum { GAS };
enum {
  TEMPERATURE,
  HUMIDITY,
  MINERALS,
  FUEL,
  PIPE_OHMS,
  GAS_PRESSURE,
  ALTITUDE,
  KITCHEN,
  AIR_CHANGES,
  HOOD_FLOW,
  PRESSURE_SHARE,
  SERVICE_SHARE,
  LEG_WATTS,
  OTHER_LEG_WATTS,
  NEUTRAL_OHMS,
  BOND_OHMS,
  ROD,
  MAIN
};
enum { WINDOW, HOOD };
enum { NEAR, FAR, OXYGEN, BURNT, CO, BLOOD, VAPOR, WARM, WALLS, POOL };
enum { BLASTING, BLAST, BLAST_AT, POOL_BLAST, BLAST_OF, POOL_OF };
enum { G_BLAST, G_BLASTED, N_GUARDS };
enum { E_SOURCE, E_NEUTRAL, E_BOND, E_PIPE, E_LEG, E_OTHER_LEG, E_RODS, E_MAIN,
       E_HOUSE_ROD };
enum { Q_TEMPERATURE, Q_PRESSURE, Q_HUMIDITY, Q_SMELL, Q_GAS, Q_CO, Q_OXYGEN, Q_ALARM, Q_BLOOD,
       Q_BURST, Q_VOLTS, Q_FLOOR, Q_FLAMMABLE };

#define NEAR_VOLUME 1.0  /* m³ */
#define NOSE 0.02        /* of the lean limit there: less is not told from none, as of all shares */
#define NEAR_FLOW 0.1    /* m³/s, β */
#define WINDOW_FLOW 0.06 /* m³/s through an open window */
#define HOOD_FACE 0.45   /* m², 30 by 24 in. */
#define SINKS_STAYS 0.4  /* s for what is heavier than air */
#define SINKS 0.6         /* f of what is heavier than air; of anything else none */
#define POOL_SHARE (0.15 / 2.4) /* h/H, m */
#define POOL_TIME 1800.0  /* s, τ */
#define BOUND_PER_PPM 1800.0 /* of free blood, for each part of CO in the air: 0.18%/ppm */
#define BLOOD_TIME (85 * 60.0) /* s, τ */
#define ALARM_FROM 0.07 /* share of blood bound at which an alarm sounds */
#define BLAST_TIME 0.5  /* s */
#define HEARD_FOR 5.0   /* s */

#define VAPOR_GAS 461.5   /* J/kg K */
#define EVAPORATION 2.44e6 /* J/kg, at 25 °C */
#define WATER_MOLE 0.018015 /* kg/mol */
#define AIR_HEAT 1190.0   /* J/m³ K, ρ·c_p */
#define SURFACE 1.5       /* m² for each cubic meter */
/* For each square meter of it. */
#define AT_FLOOR (1. / 3)  /* of θ */
#define TO_WALLS 8.0      /* W/K */
#define WALLS_HOLD 20e3   /* J/K */
#define THROUGH_WALLS 3.0 /* W/K */

#define SEA_LEVEL 101325.0 /* Pa, ICAO */
#define LINE_VOLTS 120.0
#define BUS_OHMS 0.001
#define ROD_OHMS 5.0        /* the utility's */
#define HOUSE_ROD_OHMS 15.0
#define MAIN_OHMS 12.0
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
  { .name = "center", .inner = TRUE, .words = N_ ("center tap of the utility transformer"),
    .x = -20 },
};

static const HobPortDef ports[] = {
  { .name = "gas", .words = N_ ("house gas pipe"), .way = HOB_WAY_OUT, .x = 40 },
};


static const HobSettingDef settings[] = {
  { .name = "temperature", .words = N_ ("Temperature in the kitchen."), .dim = HOB_DIM_TEMPERATURE,
    .normal = 298.15, .low = 253.15, .high = 323.15, .of = HOB_SETTING_NOMINAL },
  { .name = "humidity", .words = N_ ("Relative humidity in the kitchen, from 0 to 1 or as a "
                                     "percentage."),
    .normal = 0.5, .high = 1, .of = HOB_SETTING_NOMINAL, .say = HOB_SAY_SHARE,
    .titled = N_ ("%s humidity") },
  { .name = "minerals",
    .words = N_ ("Amount of minerals in the air from a humidifier that runs on tap water, from 0 "
                 "to 1."),
    .high = 1, .of = HOB_SETTING_NOMINAL, .say = HOB_SAY_SHARE,
    .titled = N_ ("minerals in the kitchen air: %s") },
  { .name = "fuel", .words = N_ ("Type of gas actually in the pipe, no matter what the data plate "
                                 "says."),
    .dim = HOB_DIM_CHOICE, .high = 1, .choices = hob_fuel_names, .of = HOB_SETTING_FUEL },
  { .name = "gas-pipe-ohms",
    .words = N_ ("Resistance of the gas pipe to ground; open for plastic pipe or a dielectric "
                 "union."),
    .dim = HOB_DIM_RESISTANCE, .normal = 2, .low = 0.01, .high = INFINITY,
    .of = HOB_SETTING_HOUSE },
  { .name = "gas-pressure",
    .words = N_ ("Supply pressure to the house. Enter 0 to use the normal pressure for the type of "
                 "gas."),
    .dim = HOB_DIM_PRESSURE, .high = 20000, .of = HOB_SETTING_HOUSE },
  { .name = "altitude", .words = N_ ("Altitude of the house."), .dim = HOB_DIM_LENGTH, .low = -400,
    .high = 4000, .of = HOB_SETTING_HOUSE, .say = HOB_SAY_FEET },
  { .name = "kitchen", .words = N_ ("Volume of the kitchen."), .dim = HOB_DIM_VOLUME,
    .normal = 60, .low = 5, .high = 500, .of = HOB_SETTING_HOUSE },
  { .name = "air-changes",
    .words = N_ ("Air changes per hour in the kitchen, from outdoors and from other rooms."),
    .normal = 2, .low = 0.01, .high = 20, .of = HOB_SETTING_HOUSE },
  { .name = "hood-flow", .words = N_ ("Airflow of the range hood, in m³/s (1 m³/s = 2,120 CFM)."),
    .normal = 0.09, .low = 0.01, .high = 1, .of = HOB_SETTING_HOUSE },
  { .name = "pressure-share", .words = "Share of its pressure that the supply has.",
    .normal = 1, .high = 2, .condition = TRUE },
  { .name = "service-share", .words = "Share of its opening that the service has.",
    .normal = 1, .high = 1, .condition = TRUE },
  { .name = "leg-watts", .words = N_ ("Wattage of other appliances in the house on the same leg as "
                                      "the range, at 120 V."),
    .dim = HOB_DIM_WATTS, .normal = 300, .low = 1, .high = 10000, .of = HOB_SETTING_HOUSE },
  { .name = "other-leg-watts",
    .words = N_ ("Wattage of other appliances in the house on the other leg, at 120 V."),
    .dim = HOB_DIM_WATTS,
    .normal = 900, .low = 1, .high = 10000, .of = HOB_SETTING_HOUSE },
  { .name = "neutral-ohms", .words = "Resistance of the service neutral.",
    .dim = HOB_DIM_RESISTANCE, .normal = BUS_OHMS, .low = BUS_OHMS, .high = INFINITY,
    .condition = TRUE },
  { .name = "bond-ohms", .words = "Resistance from neutral to ground at the panel.",
    .dim = HOB_DIM_RESISTANCE, .normal = BUS_OHMS, .low = BUS_OHMS, .high = INFINITY,
    .condition = TRUE },
  { .name = "rod-ohms", .words = "Resistance from the service's center tap to the soil.",
    .dim = HOB_DIM_RESISTANCE, .normal = ROD_OHMS, .low = 1, .high = INFINITY, .condition = TRUE },
  { .name = "main-ohms", .words = "Resistance from the gas main to the service's center tap.",
    .dim = HOB_DIM_RESISTANCE, .normal = MAIN_OHMS, .low = 1, .high = INFINITY,
    .condition = TRUE },
};

static const HobControlDef controls[] = {
  { .name = "window", .words = N_ ("Kitchen window"), .dim = HOB_DIM_CHOICE,
    .positions = hob_closed_open, .high = 1, .role = HOB_CONTROL_DOOR },
  { .name = "hood", .words = N_ ("Range hood"), .dim = HOB_DIM_CHOICE, .positions = hob_off_on,
    .high = 1, .role = HOB_CONTROL_SWITCH },
};

static const HobStateDef states[] = {
  { .name = "near", .words = "unburned gas near the range, kg", .tolerance = 1e-6, .amount = TRUE },
  { .name = "far", .words = "unburned gas in the rest of the kitchen, kg", .tolerance = 1e-5,
    .amount = TRUE },
  { .name = "oxygen", .words = "oxygen in the kitchen, mol", .tolerance = 1e-2 },
  { .name = "burnt", .words = "fuel whose products are in the kitchen, mol", .tolerance = 1e-2 },
  { .name = "co", .words = "carbon monoxide in the kitchen, mol", .tolerance = 1e-3 },
  { .name = "blood", .words = "share of a person's blood that carries carbon monoxide",
    .tolerance = 1e-4 },
  { .name = "vapor", .words = "kg of steam in the kitchen's air", .tolerance = 1e-4 },
  { .name = "warm", .words = "K by which cooking has warmed the kitchen's air",
    .dim = HOB_DIM_DIFFERENCE, .tolerance = 0.05 },
  { .name = "walls", .words = "K by which it has warmed walls and cabinets",
    .dim = HOB_DIM_DIFFERENCE, .tolerance = 0.05 },
  { .name = "pool", .words = "unburned gas at the floor, kg", .tolerance = 1e-6, .amount = TRUE },
};

static const char *const blast_words[] = { N_ ("gas in the kitchen has burned off"),
                                           N_ ("gas in the kitchen explodes"), NULL };
static const HobModeDef modes[] = {
  { .name = "blasting", .words = blast_words },
  { .name = "blast" },
  { .name = "blast-at" },
  { .name = "pool-blast" },
  { .name = "blast-of" },
  { .name = "pool-of" },
};

static const HobFaultDef faults[] = {
  {
    .id = "gas-low",
    .words = N_ ("inlet pressure low"),
    .severity_words = N_ ("inlet pressure %s low"),
    .typical = 0.7,
    .prior = 1,
    .basis = "an LP cylinder nearly empty, a service regulator that fails; seldom on a town main",
    .proof = N_ ("With all the burners off, read the static pressure at the range inlet. It's "
                 "low."),
    .confirm = HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = PRESSURE_SHARE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.1 }),
  },
  {
    .id = "gas-starved",
    .words = N_ ("gas supply can't keep up: cold LP tank or restricted gas line"),
    .severity_words = N_ ("gas supply %s restricted"),
    .prior = 1,
    .basis = "a small LP cylinder in winter",
    .proof = N_ ("Open the gas shutoff valve all the way. Read the inlet pressure with all the "
                 "burners off. It's normal, but it drops too far as you turn on the burners."),
    .confirm = HOB_MEANS (PRESSURE),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = SERVICE_SHARE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.02,
                   .geometric = TRUE }),
  },
  {
    .id = "pipe-not-grounded",
    .words = N_ ("gas pipe isn't grounded: plastic pipe or a dielectric union"),
    .prior = 2,
    .basis = "common in newer houses, harmless by itself",
    .proof = N_ ("Turn off the breaker and unplug the range. Read ohms from the gas pipe to the "
                 "receptacle ground. The meter reads OL; a bonded pipe reads only a few ohms."),
    .confirm = HOB_MEANS (OHMS),
    HOB_EFFECTS ({ .setting = PIPE_OHMS, .at0 = 1e9, .at1 = 1e9 }),
  },
  {
    .id = "neutral-open",
    .words = N_ ("open or loose service neutral"),
    .severity_words = N_ ("%s of resistance in the service neutral"),
    .prior = 1,
    .basis = "a corroded clamp at the service drop",
    .proof = N_ ("Read the volts from hot to neutral at a receptacle on each leg. As appliances "
                 "come on, one reading rises and the other falls. They still add up to about 240 "
                 "V. They should stay almost equal."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = NEUTRAL_OHMS, .at0 = 0.5, .at1 = 60, .geometric = TRUE }),
  },
  {
    .id = "neutral-floats",
    .words = N_ ("generator with a floating neutral"),
    .prior = 1,
    .basis = "portable generators, after an outage",
    .proof = N_ ("Read the volts from neutral to ground at the receptacle. A normal supply reads "
                 "almost 0 V. If the neutral isn't bonded to ground, the meter reads ghost "
                 "voltage, and hot to ground reads low."),
    .confirm = HOB_MEANS (RECEPTACLE),
    HOB_EFFECTS ({ .setting = BOND_OHMS, .at0 = 1e9, .at1 = 1e9 },
                 { .setting = ROD, .at0 = 1e9, .at1 = 1e9 },
                 { .setting = MAIN, .at0 = 1e9, .at1 = 1e9 }),
  },
};

static const HobElementDef elements[] = {
  [E_SOURCE] = { .name = "source", .a = CENTER, .b = LINE },
  [E_NEUTRAL] = { .name = "service neutral", .a = NEUTRAL, .b = CENTER },
  [E_BOND] = { .name = "bond", .a = NEUTRAL, .b = EARTH },
  [E_PIPE] = { .name = "gas pipe", .a = PIPE, .b = EARTH },
  [E_LEG] = { .name = "other loads, this leg", .a = LINE, .b = NEUTRAL },
  [E_OTHER_LEG] = { .name = "other loads, other leg", .a = CENTER, .b = NEUTRAL },
  [E_RODS] = { .name = "utility's ground rod", .a = CENTER, .b = -1 },
  [E_MAIN] = { .name = "gas main", .a = PIPE, .b = CENTER },
  [E_HOUSE_ROD] = { .name = "ground rod", .a = EARTH, .b = -1 },
};

static const HobDuctDef ducts[] = {
  { .name = "supply", .a = -1, .b = GAS },
};

static const HobQuantityDef quantities[] = {
  { .name = "air", .words = N_ ("temperature in the kitchen"), .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_THERMOMETER },
  { .name = "pressure", .words = N_ ("gas pressure in the house pipe"), .dim = HOB_DIM_PRESSURE,
    .says = N_ ("The gas pressure in the house pipe is %s.") },
  { .name = "humidity", .words = N_ ("relative humidity in the kitchen"), .say = HOB_SAY_SHARE },
  { .name = "smell",
    .words = N_ ("unburned gas at nose height in front of the range, as a fraction of its lower "
                 "explosive limit (LEL)"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_NOSE,
    .says = N_ ("The gas in front of the range is at %s of its lower explosive limit (LEL).") },
  { .name = "gas",
    .words = N_ ("unburned gas in the kitchen, as a fraction of its lower explosive limit (LEL)"),
    .say = HOB_SAY_SHARE },
  { .name = "co", .words = N_ ("carbon monoxide in the kitchen"), .dim = HOB_DIM_FRACTION },
  { .name = "oxygen", .words = N_ ("oxygen in the kitchen air"), .say = HOB_SAY_SHARE },
  { .name = "co-alarm", .words = N_ ("carbon monoxide alarm sounds"),
    .values = hob_no_yes, .sense = HOB_SENSE_EAR },
  { .name = "blood", .words = N_ ("share of blood hemoglobin that carries carbon monoxide (COHb)"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_HAND,
    .says = N_ ("%s of the blood's hemoglobin carries carbon monoxide.") },
  { .name = "burst", .words = N_ ("strength of the last ignition of built-up gas in the kitchen"),
    .values = hob_bursts, .sense = HOB_SENSE_EAR,
    .brief = TRUE,
    .remark = N_ ("reading held for 5 s after it happens") },
  { .name = "volts", .words = N_ ("voltage, line to neutral"), .dim = HOB_DIM_VOLTAGE,
    .says = N_ ("The voltage from line to neutral is %s.") },
  { .name = "floor",
    .words = N_ ("unburned gas at the kitchen floor, as a fraction of its lower explosive limit "
                 "(LEL)"),
    .say = HOB_SAY_SHARE },
  { .name = "flammable",
    .words = N_ ("volume of flammable gas-air mixture that the gas in the kitchen could form"),
    .dim = HOB_DIM_VOLUME, .least = NOSE * NEAR_VOLUME },
};

static const HobLinkDef links[] = {
  { .from = Q_CO, .to = Q_BLOOD,
    .words = N_ ("The air in the kitchen has %s of carbon monoxide.") },
};

static void
house (const HobPartContext *c, HobHouse *h)
{
  h->temperature = c->set[TEMPERATURE];
  h->humidity = c->set[HUMIDITY];
  h->vapor = c->set[HUMIDITY] * hob_vapour_pressure (c->set[TEMPERATURE]);
  h->minerals = c->set[MINERALS];
  /* Standard atmosphere, ICAO: p = 101325·(1 − 2.25577e-5·h)^5.25588 */
  h->pressure = SEA_LEVEL * pow (1 - 2.25577e-5 * c->set[ALTITUDE], 5.25588);
  h->thinned = hob_fuels[(int)c->set[FUEL]];
  h->thinned.density *= h->pressure / SEA_LEVEL;
  h->fuel = &h->thinned;
}

/* K */
static double
air (const HobPartContext *c)
{
  return c->set[TEMPERATURE] + c->y[WARM];
}

/* kg of water that come from @burnt mol of fuel. */
static double
water (const HobPartContext *c, double burnt)
{
  const HobFuel *fuel = c->house->fuel;

  return 2 * (hob_fuel_oxygen (fuel) - fuel->carbon) * burnt * WATER_MOLE;
}

/* p, Pa */
static double
vapor (const HobPartContext *c)
{
  double made = c->y[VAPOR] + water (c, c->y[BURNT]);

  return c->house->vapor + made * VAPOR_GAS * air (c) / c->set[KITCHEN];
}

static HobAir
there (const HobPartContext *c)
{
  return (HobAir){ .oxygen = c->y[OXYGEN], .burnt = c->y[BURNT], .co = c->y[CO] };
}

static double
moles (const HobPartContext *c)
{
  return hob_air_moles (c->house, c->set[KITCHEN], c->house->temperature);
}

static void
start (const HobPartContext *c, double *y)
{
  y[OXYGEN] = HOB_OXYGEN_IN_AIR * moles (c);
}

/* m³/s */
static double
hood (const HobPartContext *c)
{
  return c->set[HOOD_FLOW] * c->ctl[HOOD];
}

/* m³ of the layer at the floor. */
static double
pool_volume (const HobPartContext *c)
{
  return POOL_SHARE * c->set[KITCHEN];
}

static void
give (const HobPartContext *c)
{
  c->place[HOB_PLACE_VAPOR] = vapor (c);
  c->place[HOB_PLACE_GAS_LOW] = c->y[POOL] / pool_volume (c);
  c->place[HOB_PLACE_DRAFT] = hood (c) / HOOD_FACE;
  for (int k = HOB_PLACE_AIR; k <= HOB_PLACE_COMPARTMENT; k++)
    c->place[k] = air (c);
  c->place[HOB_PLACE_AIR_LOW] = air (c) - (1 - AT_FLOOR) * c->y[WARM];
  c->place[HOB_PLACE_OXYGEN] = c->y[OXYGEN] / moles (c);
  c->place[HOB_PLACE_BURNABLE] = hob_flame_share (c->place[HOB_PLACE_OXYGEN]);
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
  c->g[E_SOURCE] = hob_siemens (BUS_OHMS);
  c->g[E_HOUSE_ROD] = hob_siemens (HOUSE_ROD_OHMS);
  c->g[E_NEUTRAL] = hob_siemens (c->set[NEUTRAL_OHMS]);
  c->g[E_BOND] = hob_siemens (c->set[BOND_OHMS]);
  c->g[E_RODS] = hob_siemens (c->set[ROD]);
  c->g[E_MAIN] = hob_siemens (c->set[PIPE_OHMS] + c->set[MAIN]);
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

/* m³/s of air from outside. */
static double
fresh (const HobPartContext *c)
{
  return c->set[AIR_CHANGES] * c->set[KITCHEN] / 3600 + WINDOW_FLOW * c->ctl[WINDOW]
         + hood (c);
}

/* kg/s of @gas kg that a blast burns, if @blast of @of kg go off, and what it throws out: the rest
 * of the kitchen's through the windows, the rest of the layer's up into the kitchen. */
static double
burns_off (const HobPartContext *c, double gas, int blast, int of)
{
  gboolean goes = c->mode[BLASTING] > 0 && c->mode[blast] > 0;

  return goes ? gas * HOB_AIR_GOES / BLAST_TIME * c->mode[blast] / c->mode[of] : 0;
}

static double
thrown (const HobPartContext *c, double gas, int blast, int of)
{
  double burns = burns_off (c, gas, blast, of);

  return burns > 0 ? burns * (c->mode[of] / c->mode[blast] - 1) : 0;
}

static double
blast_rate (const HobPartContext *c)
{
  return burns_off (c, c->y[FAR], BLAST, BLAST_OF);
}

static double
pool_blast_rate (const HobPartContext *c)
{
  return burns_off (c, c->y[POOL], POOL_BLAST, POOL_OF);
}

/* kg/s of gas from near the range into the rest, and out of that. */
static double
spreads (const HobPartContext *c)
{
  return c->y[NEAR] / NEAR_VOLUME * (NEAR_FLOW + hood (c));
}

static double
aired (const HobPartContext *c)
{
  double stays = c->house->fuel->specific_gravity > 1 ? SINKS_STAYS : 1;

  return c->y[FAR] / c->set[KITCHEN] * fresh (c) * stays
         + thrown (c, c->y[FAR], BLAST, BLAST_OF);
}

/* kg/s of gas that sinks to the floor, and that rises from there with the air that mixes. */
static double
sinks (const HobPartContext *c)
{
  return c->house->fuel->specific_gravity > 1 ? SINKS * spreads (c) : 0;
}

static double
rises (const HobPartContext *c)
{
  return c->y[POOL] * (1 / POOL_TIME + fresh (c) / c->set[KITCHEN])
         + thrown (c, c->y[POOL], POOL_BLAST, POOL_OF);
}

/* Gas is in its states near, far and pool; its volume is a thousandth of the kitchen's where anyone
 * still asks for oxygen, and is left out of what leaves. */
static void
air_rates (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double n = moles (c), blast = blast_rate (c) + pool_blast_rate (c);
  double made = (c->place[HOB_PLACE_BURNT] + blast) / hob_fuel_mole (fuel);
  double in = fresh (c) / c->set[KITCHEN] * n;
  double out = hob_air_out (fuel, &in, 0, made, 0);
  HobAir d = hob_air_rates (fuel, there (c), n, out, made, c->place[HOB_PLACE_CO]);
  double outside = HOB_OXYGEN_IN_AIR * in;

  c->dy[OXYGEN] = d.oxygen + outside + c->place[HOB_PLACE_CARRIED_OXYGEN];
  c->dy[BURNT] = d.burnt + c->place[HOB_PLACE_CARRIED_BURNT];
  c->dy[CO] = d.co + c->place[HOB_PLACE_CARRIED_CO];
  c->ledger[HOB_LEDGER_OXYGEN]
      += 2 * (outside + c->place[HOB_PLACE_CARRIED_OXYGEN])
         + 2 * hob_fuel_oxygen (fuel) * c->place[HOB_PLACE_CARRIED_BURNT]
         - c->place[HOB_PLACE_CARRIED_CO] - out / n * hob_air_oxygen_atoms (fuel, there (c));
  c->ledger[HOB_LEDGER_PRODUCTS_OUT]
      += out / n * c->y[BURNT] - c->place[HOB_PLACE_CARRIED_BURNT];
}

/* The room takes in all heat that reaches it. */
static void
warm_rates (const HobPartContext *c)
{
  double surface = SURFACE * c->set[KITCHEN], theta = c->y[WARM], walls = c->y[WALLS];
  double made = c->place[HOB_PLACE_BURNT] / hob_fuel_mole (c->house->fuel);
  double in = c->place[HOB_PLACE_HEAT] + c->place[HOB_PLACE_HEAT_AIR]
              + c->place[HOB_PLACE_HEAT_WALL];
  double latent = EVAPORATION * water (c, made + c->place[HOB_PLACE_CARRIED_BURNT]);
  double to_walls = TO_WALLS * surface * (theta - walls);
  double through = THROUGH_WALLS * surface * walls, aired = AIR_HEAT * fresh (c) * theta;

  c->dy[WARM] = (in - latent - to_walls - aired) / (AIR_HEAT * c->set[KITCHEN]);
  c->dy[WALLS] = (to_walls - through) / (WALLS_HOLD * surface);
  c->ledger[HOB_LEDGER_HEAT_OUT] += latent + through + aired;
}

static void
rates (const HobPartContext *c)
{
  double blast = blast_rate (c) + pool_blast_rate (c), heat = blast * c->house->fuel->heat;

  c->dy[NEAR] = c->place[HOB_PLACE_UNBURNT] - spreads (c);
  c->dy[FAR] = spreads (c) - sinks (c) + rises (c) - aired (c) - blast_rate (c);
  c->dy[POOL] = sinks (c) - rises (c) - c->place[HOB_PLACE_CREEPS] - pool_blast_rate (c);
  c->dy[BLOOD] = (BOUND_PER_PPM * c->y[CO] / moles (c) * (1 - c->y[BLOOD]) - c->y[BLOOD])
                 / BLOOD_TIME;
  c->dy[VAPOR] = c->place[HOB_PLACE_STEAM] - c->y[VAPOR] / c->set[KITCHEN] * fresh (c);
  air_rates (c);
  c->ledger[HOB_LEDGER_HEAT_IN] += heat;
  c->ledger[HOB_LEDGER_HEAT_OUT] += heat; /* it blows the windows out */
  warm_rates (c);
  c->ledger[HOB_LEDGER_GAS_BURNT] += blast;
  /* What gets out of the range has not escaped while it is in the kitchen. */
  c->ledger[HOB_LEDGER_GAS_ESCAPED] += aired (c) - c->place[HOB_PLACE_UNBURNT];
}

/* Volume of gas in the layer at the floor, and in the rest of the kitchen, vol/vol. */
static double
pool_share (const HobPartContext *c)
{
  return c->y[POOL] / c->house->fuel->density / pool_volume (c);
}

static double
far_share (const HobPartContext *c)
{
  return c->y[FAR] / c->house->fuel->density / c->set[KITCHEN];
}

/* kg of @gas kg, with the volume share @x in @part of the kitchen, that go off at a flame; where
 * there is gas there is so much less air. */
static double
goes_off (const HobPartContext *c, double x, double gas, double part)
{
  return hob_air_goes_off (c->house->fuel, x, gas, c->y[OXYGEN] * part * (1 - x));
}

/* m³ that all the gas in the kitchen would fill at its lean limit. */
static double
flammable (const HobPartContext *c)
{
  double gas = c->y[NEAR] + c->y[FAR] + c->y[POOL];

  return gas / c->house->fuel->density / c->house->fuel->lean;
}

/* Gas in the kitchen as a share of the leanest mixture that burns. */
static double
gas_share (const HobPartContext *c)
{
  return far_share (c) / c->house->fuel->lean;
}

/* Any flame sets off what can burn. */
static double
guard (const HobPartContext *c, int k)
{
  if (k == G_BLASTED)
    return c->mode[BLASTING] > 0 ? *c->t - c->mode[BLAST_AT] - BLAST_TIME : -1;
  return c->mode[BLASTING] > 0 || !(c->place[HOB_PLACE_BURNT] > 0)
             ? -1
             : MAX (hob_air_explosive (c->house->fuel, far_share (c)),
                    hob_air_explosive (c->house->fuel, pool_share (c)));
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  c->mode[BLASTING] = k == G_BLAST;
  if (k != G_BLAST)
    return;
  c->mode[BLAST] = goes_off (c, far_share (c), y[FAR], 1 - POOL_SHARE);
  c->mode[BLAST_OF] = y[FAR];
  c->mode[POOL_BLAST] = goes_off (c, pool_share (c), y[POOL], POOL_SHARE);
  c->mode[POOL_OF] = y[POOL];
  c->mode[BLAST_AT] = *c->t;
}

static double
observe (const HobPartContext *c, int quantity)
{
  const HobFuel *fuel = c->house->fuel;
  gboolean heard
      = c->mode[BLAST] + c->mode[POOL_BLAST] > 0 && *c->t - c->mode[BLAST_AT] < HEARD_FOR;

  switch (quantity)
    {
    case Q_TEMPERATURE: return air (c);
    case Q_HUMIDITY: return fmin (vapor (c) / hob_vapour_pressure (air (c)), 1);
    case Q_SMELL: return gas_share (c) + c->y[NEAR] / fuel->density / NEAR_VOLUME / fuel->lean;
    case Q_GAS: return gas_share (c);
    case Q_CO: return c->y[CO] / moles (c);
    case Q_OXYGEN: return c->y[OXYGEN] / moles (c);
    case Q_ALARM: return c->y[BLOOD] >= ALARM_FROM;
    case Q_BLOOD: return c->y[BLOOD];
    case Q_BURST: return heard ? HOB_BURST_EXPLOSION : HOB_BURST_NONE;
    case Q_FLOOR: return pool_share (c) / fuel->lean;
    case Q_FLAMMABLE: return flammable (c);
    case Q_VOLTS: return hob_volts_across (c, LINE, NEUTRAL);
    default: return c->p[GAS];
    }
}

static double
stored_heat (const HobPartContext *c)
{
  return c->set[KITCHEN] * (AIR_HEAT * c->y[WARM] + SURFACE * WALLS_HOLD * c->y[WALLS]);
}

static double
stored_gas (const HobPartContext *c)
{
  return c->y[NEAR] + c->y[FAR] + c->y[POOL];
}

static void
stored_air (const HobPartContext *c, double *oxygen, double *burnt)
{
  *oxygen = hob_air_oxygen_atoms (c->house->fuel, there (c));
  *burnt = c->y[BURNT];
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
  .about = N_ ("The electrical panel, the gas service, and the air in the kitchen."),
  .room = HOB_ROOM_KITCHEN,
  .flags = HOB_KIND_PLACE | HOB_KIND_SUPPLY_LINE | HOB_KIND_SUPPLY_GAS | HOB_KIND_HOUSE,
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 200 }, [HOB_SHEET_GAS] = { 80, 80 } },
  .n_guards = N_GUARDS,
  .figure = -1,
  .house = house,
  .start = start,
  .give = give,
  .conduct = conduct,
  .flow = flow,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .stored_heat = stored_heat,
  .stored_gas = stored_gas,
  .stored_air = stored_air,
  .draw = draw,
};
