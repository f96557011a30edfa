/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The oven's cavity: where the heat goes.
 *
 * Bodies: air with racks as two equal nodes (low and high; the center is their mean), oven
 * bottom (floor), liner with door and inner insulation, outer shell.  With Q the heat of flames
 * and igniters, of which 0.735 stays, 60% of that in the oven bottom (a broil burner's goes to the
 * upper air and the liner instead), and w = ṁ·c_p of the air
 * through the vent:
 *
 *   C_air dT_low/dt  = Q_air/2 + G_fa·(T_floor − T_low) − G_al/2·(T_low − T_liner)
 *                      − G_mix·(T_low − T_high) − w·(T_low − T_room)
 *   C_air dT_high/dt = Q_air/2 − G_al/2·(T_high − T_liner) + G_mix·(T_low − T_high)
 *                      + w·(T_low − T_high)
 *   C_f dT_floor/dt  = Q_floor − G_fa·(T_floor − T_low) − G_fl·(T_floor − T_liner)
 *                      − G_fo·(T_floor − T_outer)
 *   C_l dT_liner/dt  = G_fl·(…) + G_al/2·(…) + G_al/2·(…) − G_lo·(T_liner − T_outer)
 *                      − G_door·(T_liner − T_room)
 *   C_o dT_outer/dt  = G_fo·(…) + G_lo·(…) − G_or·(T_outer − T_room)
 *   ṁ = vent·√(|b_flue|·T_v/T_flue) + door·√|b|
 *   b = (T_center − T_room + T_room·x·(1 − SG))/150 K,   T_v = T_room + 150 K
 *   b_flue = b + r/150 K,   T_flue = T_center + r,   dr/dt = (250 K·P/5,275 W − r)/30 s
 *
 * b is the buoyancy of what fills the oven: a share x of gas of specific gravity SG makes it as
 * much lighter as so much heat would.  In the flue a flame of P makes it hotter yet, by r, as the
 * flue warms up; its pull goes with the difference in density.  The draft passes two openings, the
 * slots in the oven bottom and the vent.  It
 * loses a tenth of its pressure at the slots while both are free, and so comes to
 *
 *   vent = 4.0 g/s/√(0.9/a_vent² + 0.1/a_slots²)
 *
 * with the shares a that are open.  Where b < 0, as with propane in a cold oven, it sinks: out
 * through the oven bottom into the drawer, where it stays.
 *
 * A flame takes its air from below, through the burner compartment, together with a share of the
 * oven's own products.  That share is larger with foil on the oven bottom; with the vent covered
 * there is more of them.  An open door thins them only above the oven bottom.  Below, what flows
 * is what the slots pass.  A closed door leaves that to the flue's pull; through an open one the
 * flue draws on the kitchen, and the oven and the flame pull by themselves, with the door beside
 * the vent:
 *
 *   ṁ_slots = (1 − open)·ṁ_vent + open·4.0 g/s·√(b_slots·T_v/T_flue)
 *                                 /√(0.9/(a_vent + a_door)² + 0.1/a_slots²)
 *   b_slots = max (b, 0) + r_now/2/150 K,   a_door = door/(4.0 g/s)
 *
 * where r_now is what r tends to: the compartment has no flue that must warm up first.  The flame's
 * products have taken d_slots of the oxygen from it.  With d that which is missing in the oven,
 * the burner compartment is short of x more, which follows as its air is replaced:
 *
 *   dx/dt = (min (10·ṁ_door/ṁ_vent, 1)·max (d_slots − d, 0) − x)/5 s
 *
 * With the door closed all the oven's air has passed the slots, and x is 0.
 *
 * Where too little oxygen is left over, part of the flame rolls out at the front of the burner
 * compartment and burns in the kitchen.  So a starved oven keeps a small flame and does not fill
 * with gas: its igniter glows, and what can burn in there does.
 *
 * Unburned gas above its lean limit goes off at a flame, or at an igniter that is hot enough for
 * it, as much of it as there is oxygen for, unless it is above the rich limit.  The pressure opens
 * the door: nine tenths of the energy and all of what the oven held go out there.  The drawer's
 * goes off at a flame, which takes its air from there, and burns in the kitchen's air.
 *
 * The compartment follows the cavity with a lag.  It is not one of the bodies: what valves lose
 * there is lost.
 *
 * One set of figures, invented for a believable appliance: together they give 350 °F after
 * about 9 minutes and 9,400 Btu in the first hour, and then burn a third of the time. */

#include "base/i18n.h"
#include "parts/air.h"
#include "parts/symbol.h"
#include "physics/flame.h"

#include <math.h>

enum { VOLUME, DRAWER_VOLUME, LEAK, COMPARTMENT_SHARE, BLOCKED, FOIL, OIL_LEFT };
enum { AIR_LOW, AIR_HIGH, FLOOR, LINER, OUTER, COMPARTMENT, GAS, OXYGEN, BURNT, CO, DRAWER, RISE,
       OIL, SHORT };
enum { STIRRED, RISING, TOP, SWING, MIDDLE, TARGET, BLASTING, BLAST, BLAST_AT, BURST, COUNTS,
       DRAWER_BLAST };
enum { G_STIR, G_STILL, G_PEAK, G_TROUGH, G_TARGET, G_BLAST, G_BLASTED, N_GUARDS };
enum { Q_AIR, Q_LOW, Q_HIGH, Q_FLOOR, Q_WALL, Q_OUTER, Q_COMPARTMENT, Q_VENT, Q_SHORT, Q_ABOVE,
       Q_SWING, Q_MIDDLE, Q_GAS, Q_SMELL, Q_LIGHT_ENERGY, Q_BURST, Q_DOOR, Q_UNEVEN, Q_TILT, Q_EDGE,
       Q_DRAWER, Q_OXYGEN, Q_CO, Q_CO_MEASURED, Q_OIL, Q_OIL_SMELL };

/* J/K. */
#define C_AIR 1350.0 /* each of the two nodes */
#define C_FLOOR 2500.0
#define C_LINER 16000.0
#define C_OUTER 7500.0

/* W/K. */
#define FLOOR_AIR 15.0
#define FLOOR_LINER 5.0
#define AIR_LINER 14.0
#define LINER_OUTER 8.5
#define FLOOR_OUTER 1.8
#define OUTER_ROOM 15.0
#define MIXING 6.0
#define MIXING_FAN 40.0
#define FAN_FLOOR 1.4       /* of floor–air … */
#define FAN_LINER 1.1       /* … and air–liner: its stream runs along the rear wall alone */
#define OPEN_RADIATION 12.0 /* liner to room through an open door */

#define CAUGHT 0.735
#define TO_FLOOR 0.60
/* Of a flame from above: into the upper air, the liner above it, and down to the oven bottom. */
#define ABOVE_AIR 0.35
#define ABOVE_LINER 0.50
#define ABOVE_FLOOR 0.15
/* With covered slots, this share of the flame's heat to the air stays in the oven bottom … */
#define FOIL_HOLDS 0.85
/* … and the oven bottom passes this share less on to the air. */
#define FOIL_WEAKENS 0.3

/* kg/s. */
#define VENT 4.0e-3      /* with what is 150 K above the room, or sinks as much */
#define DOOR_FLOW 30e-3  /* through the open door, at 150 K above the room */
#define SPILLS 0.14      /* share of a flame's heat that a covered vent turns out below */
#define COVERS 0.9       /* share of the draft that a covered vent stops: seams leak the rest */
#define FOIL_COVERS 0.7  /* the same of the slots in the oven bottom: foil leaves its edges free */
#define AT_SLOTS 0.1     /* share of the draft's pressure that the free slots take */
#define FLUE_RISE 250.0  /* K by which a flame of FLUE_POWER heats what rises in the flue … */
#define FLUE_POWER 5275.0 /* W: 18,000 Btu/h */
#define FLUE_LAG 30.0    /* s … once the flue is warm */
/* Share of the warm flue's pull that the compartment has by itself, for the slots, with the door
 * open, where the flue draws on the door: 0.15 m of a flame's gases a thousand kelvin hotter
 * against 0.5 m of 250 K. */
#define BELOW_PULLS 0.5
#define DOOR_SHOWS 0.1   /* share of the vent's draft by which a door thins the oven in earnest */
#define BELOW_LAG 5.0    /* s in which 15 L of the compartment are replaced */

/* Shares of what feeds a flame that are the oven's own products. */
#define OWN_PRODUCTS 0.12
#define OWN_BY_FOIL 0.24 /* more with all slots covered */
#define OWN_BY_VENT 0.14 /* more with the vent covered */
#define OXYGEN_LEFT 0.01  /* share of oxygen left over below which some gas finds none */
#define ROLLED_WARM 400.0 /* K above the room of what a flame that rolls out licks */

/* m³/s of what diffuses out of a cold oven, and through its open door, and out of the drawer: from
 * a pan of the depth d that is open above, π²·D·V/4d², with D 11 mm²/s for propane in air (from
 * memory) and d 0.2 m. */
#define STILL 0.02e-3
#define STILL_DOOR 2e-3
#define STILL_DRAWER 0.03e-3
#define FALLS 0.5      /* share of a heavy gas let out cold that falls into the drawer … */
#define FALLS_LESS 30.0 /* K by which warmer air lets a third of that fall */
#define RELIEVED 0.9   /* share of a blast's energy that leaves by the door */
#define BLOWN_OUT 10.0 /* 1/s by which a blast replaces what the oven holds */

/* Oil that keeps a new liner from rusting: at 350 °F most of it is gone within two hours, as the
 * usual advice to heat a new oven for an hour has it.  Invented. */
#define OIL_TIME 2400.0   /* s, τ */
#define OIL_LINER 430.0   /* K of the liner then */
#define OIL_DOUBLES 30.0  /* K */

#define AIR_HEAT 1005.0       /* J/kgK */
#define COMPARTMENT_LAG 900.0 /* s */
#define BLAST_TIME 0.3        /* s */
#define HEARD_FOR 5.0         /* s */

static const HobSettingDef settings[] = {
  { .name = "volume", .words = N_ ("Volume of the oven."), .dim = HOB_DIM_VOLUME,
    .normal = 0.130, .low = 0.02, .high = 0.5 },
  { .name = "drawer", .words = N_ ("Volume of the drawer below the oven."),
    .dim = HOB_DIM_VOLUME, .normal = 0.040, .low = 0.005, .high = 0.2 },
  { .name = "gasket-leak",
    .words = "How far a bad gasket leaves the closed door open, 0 to 1.", .high = 1,
    .condition = TRUE },
  { .name = "compartment-share",
    .words = N_ ("How far the compartment behind the oven warms above the kitchen, as a fraction "
                 "of the oven's own rise, from 0 to 1."),
    .normal = 0.15,
    .high = 1 },
  { .name = "blocked", .words = "Share of the vent that is covered.", .high = 1,
    .condition = TRUE, .visible = 0.1 },
  { .name = "foil", .words = "Share of the floor's slots that is covered.", .high = 1,
    .condition = TRUE, .visible = 0.1 },
  { .name = "oil",
    .words = N_ ("Factory oil still on the oven liner: 0 to 1, or a percentage. A new range is "
                 "at 1 (100%)."),
    .high = 1, .of = HOB_SETTING_NOMINAL, .say = HOB_SAY_SHARE,
    .titled = N_ ("factory oil on the oven liner: %s") },
};

static const HobStateDef states[] = {
  { .name = "air-low", .words = "air in the lower half", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.05, .stores = TRUE },
  { .name = "air-high", .words = "air in the upper half", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.05, .stores = TRUE },
  { .name = "floor", .words = "floor plate", .dim = HOB_DIM_TEMPERATURE, .tolerance = 0.05,
    .stores = TRUE },
  { .name = "liner", .words = "liner", .dim = HOB_DIM_TEMPERATURE, .tolerance = 0.05,
    .stores = TRUE },
  { .name = "outer", .words = "outer shell", .dim = HOB_DIM_TEMPERATURE, .tolerance = 0.05,
    .stores = TRUE },
  { .name = "compartment", .words = "air behind, where the valves stand",
    .dim = HOB_DIM_TEMPERATURE, .tolerance = 0.05, .stores = TRUE },
  { .name = "gas", .words = "unburned gas in the cavity, kg", .tolerance = 1e-7 },
  { .name = "oxygen", .words = "oxygen in the cavity, mol", .tolerance = 1e-2 },
  { .name = "burnt", .words = "fuel whose products are in the cavity, mol", .tolerance = 1e-3 },
  { .name = "co", .words = "carbon monoxide in the cavity, mol", .tolerance = 2e-5 },
  { .name = "drawer", .words = "unburned gas in the drawer, kg", .tolerance = 1e-7 },
  { .name = "flue-rise", .words = "K by which the flame heats the flue", .dim = HOB_DIM_DIFFERENCE,
    .tolerance = 0.5 },
  { .name = "oil", .words = "share of a new liner's oil that is still on it", .tolerance = 1e-3 },
  { .name = "short", .words = "oxygen missing below the oven bottom beyond what is in the oven",
    .tolerance = 1e-3 },
};

static const char *const blast_words[] = { N_ ("gas in the oven has burned off"),
N_ ("gas in the oven ignites"),
                                           NULL };

static const HobModeDef modes[] = {
  { .name = "stirred" },
  { .name = "rising" },
  { .name = "top" },
  { .name = "swing" },
  { .name = "middle" },
  { .name = "target" },
  { .name = "blasting", .words = blast_words },
  { .name = "blast" },
  { .name = "blast-at" },
  { .name = "burst" },
  { .name = "counts" },
  { .name = "drawer-blast" },
};

static const HobQuantityDef quantities[] = {
  { .name = "air", .words = N_ ("air temperature in the center"), .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_THERMOMETER, .trace = 1,
    .says = N_ ("The air in the center of the oven is at %s.") },
  { .name = "air-low",
    .words = N_ ("air temperature in the lower half"), .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_THERMOMETER },
  { .name = "air-high",
    .words = N_ ("air temperature in the upper half"), .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_THERMOMETER },
  { .name = "floor", .words = N_ ("temperature of the oven bottom"), .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_THERMOMETER, .out_of_reach = TRUE },
  { .name = "wall", .words = N_ ("temperature of the oven liner"), .dim = HOB_DIM_TEMPERATURE,
    .sense = HOB_SENSE_THERMOMETER, .out_of_reach = TRUE },
  { .name = "outer", .words = N_ ("temperature outside the oven's insulation, behind the side "
                                  "panels"),
    .dim = HOB_DIM_TEMPERATURE, .out_of_reach = TRUE },
  { .name = "compartment", .words = N_ ("air temperature behind the oven"),
    .dim = HOB_DIM_TEMPERATURE, .out_of_reach = TRUE },
  { .name = "vent", .words = N_ ("flow of hot air from the oven vent"), .dim = HOB_DIM_MASS_FLOW,
    .say = HOB_SAY_AIR, .sense = HOB_SENSE_HAND },
  { .name = "short-of-dial",
    .words = N_ ("how far the air is below the set temperature"),
    .dim = HOB_DIM_DIFFERENCE, .sense = HOB_SENSE_THERMOMETER,
    .remark = N_ ("0 with the oven off"),
    .says = N_ ("The oven is %s below the set temperature.") },
  { .name = "above-dial",
    .words = N_ ("how far the air is above the set temperature"),
    .dim = HOB_DIM_DIFFERENCE, .sense = HOB_SENSE_THERMOMETER,
    .remark = N_ ("0 with the oven off"),
    .says = N_ ("The oven is %s above the set temperature.") },
  { .name = "swing",
    .words = N_ ("temperature swing, high to low, in the last cycle"),
    .dim = HOB_DIM_DIFFERENCE, .sense = HOB_SENSE_THERMOMETER,
    .says = N_ ("The oven temperature swings %s from high to low.") },
  { .name = "middle", .words = N_ ("how far the average of the last high and low is above the "
                                   "set temperature"),
    .dim = HOB_DIM_DIFFERENCE, .sense = HOB_SENSE_THERMOMETER,
    .says = N_ ("The oven averages %s the set temperature."), .averages = TRUE,
    .say = HOB_SAY_ABOVE },
  { .name = "gas",
    .words = N_ ("unburned gas in the oven, as a fraction of its lower explosive limit (LEL)"),
    .say = HOB_SAY_SHARE },
  { .name = "smell", .words = N_ ("unburned gas leaving the oven vent"), .dim = HOB_DIM_MASS_FLOW,
    .sense = HOB_SENSE_NOSE },
  { .name = "light-energy",
    .words = N_ ("energy released when built-up gas lights in the oven"),
    .dim = HOB_DIM_ENERGY, .sense = HOB_SENSE_EAR,
    .brief = TRUE,
    .remark = N_ ("shown for 5 s") },
  { .name = "burst", .words = N_ ("strength of the last flash of built-up gas in the oven"),
    .values = hob_bursts, .sense = HOB_SENSE_EAR,
    .brief = TRUE,
    .remark = N_ ("shown for 5 s") },
  { .name = "door", .words = N_ ("how far the door is open"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EYE },
  { .name = "uneven", .words = N_ ("temperature difference between the top and bottom of the oven"),
    .dim = HOB_DIM_DIFFERENCE, .sense = HOB_SENSE_THERMOMETER,
    .says = N_ ("The top and bottom of the oven differ by %s.") },
  { .name = "tilt",
    .words = N_ ("top-to-bottom temperature difference, as a fraction of the oven-to-kitchen "
                 "difference"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_THERMOMETER },
  { .name = "edge", .words = N_ ("hot air leaking around the closed door"),
    .dim = HOB_DIM_MASS_FLOW, .say = HOB_SAY_AIR, .sense = HOB_SENSE_HAND,
    .says = N_ ("Hot air leaks around the closed door at a rate of %s.") },
  { .name = "drawer",
    .words = N_ ("unburned gas in the drawer, as a fraction of its lower explosive limit (LEL)"),
    .say = HOB_SAY_SHARE },
  { .name = "oxygen", .words = N_ ("oxygen at the oven vent, as an analyzer reads it"),
    .say = HOB_SAY_SHARE },
  { .name = "co", .words = N_ ("carbon monoxide at the oven vent, air-free"),
    .dim = HOB_DIM_FRACTION,
    .says = N_ ("Carbon monoxide at the oven vent is %s, air-free.") },
  { .name = "co-measured", .words = N_ ("carbon monoxide at the oven vent, as measured"),
    .dim = HOB_DIM_FRACTION },
  { .name = "oil", .words = N_ ("factory oil on the oven liner"), .say = HOB_SAY_SHARE },
  { .name = "oil-smell",
    .words = N_ ("smell of factory oil, compared with that of a new range"),
    .say = HOB_SAY_SHARE, .sense = HOB_SENSE_NOSE },
};

static const HobLinkDef links[] = {
  { .from = Q_VENT, .to = Q_OXYGEN, .words = N_ ("Hot air leaves the oven vent at a rate of %s.") },
  { .from = Q_OXYGEN, .to = Q_CO, .words = N_ ("Oxygen at the oven vent is %s.") },
};

static const HobFaultDef faults[] = {
  {
    .id = "bottom-covered",
    .words = N_ ("foil or pans over the slots in the oven bottom"),
    .severity_words = N_ ("%s of the slots covered"),
    .prior = 4,
    .basis = "often laid in against spills",
    .proof = N_ ("Look for foil or pans over the slots in the oven bottom."),
    .confirm = HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = FOIL, .how = HOB_EFFECT_ADD, .at1 = 1 }),
  },
  {
    .id = "vent-covered",
    .words = N_ ("oven vent covered"),
    .severity_words = N_ ("%s of the oven vent covered"),
    .typical = 0.8,
    .prior = 2,
    .proof = N_ ("Look for anything covering the oven vent. With the burner on, little hot air "
                 "comes out."),
    .confirm = HOB_MEANS (INSPECT),
    .hazards = HOB_HAZARD (CO_FLAME) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = BLOCKED, .how = HOB_EFFECT_ADD, .at1 = 1 }),
  },
};

static double
centre (const HobPartContext *c)
{
  return (c->y[AIR_LOW] + c->y[AIR_HIGH]) / 2;
}

static double
door_open (const HobPartContext *c)
{
  return CLAMP (c->place[HOB_PLACE_OPEN] + c->set[LEAK], 0, 1);
}

/* Volume of gas in the oven, vol/vol. */
static double
gas_volume (const HobPartContext *c)
{
  return MAX (c->y[GAS], 0) / c->house->fuel->density / c->set[VOLUME];
}

static double
kitchen (const HobPartContext *c)
{
  return c->within[HOB_PLACE_AIR];
}

/* b: > 0 what fills the oven rises, < 0 it sinks. */
static double
buoyancy (const HobPartContext *c)
{
  double lighter = 1 - c->house->fuel->specific_gravity;

  return (centre (c) - kitchen (c) + kitchen (c) * gas_volume (c) * lighter) / 150;
}

/* b_flue */
static double
draft (const HobPartContext *c)
{
  return buoyancy (c) + c->y[RISE] / 150;
}

/* What holds a draft back that passes the slots, and above them the vent and @door beside it, as a
 * share of the vent. */
static double
holds (const HobPartContext *c, double door)
{
  double a_above = 1 - COVERS * CLAMP (c->set[BLOCKED], 0, 1) + door;
  double a_slots = 1 - FOIL_COVERS * CLAMP (c->set[FOIL], 0, 1);

  return (1 - AT_SLOTS) / (a_above * a_above) + AT_SLOTS / (a_slots * a_slots);
}

/* T_v/T_flue */
static double
thins (const HobPartContext *c)
{
  return (kitchen (c) + 150) / (centre (c) + c->y[RISE]);
}

/* kg/s through the vent, up or down. */
static double
flue (const HobPartContext *c)
{
  double rises = draft (c) > 0 ? thins (c) : 1;

  return VENT * sqrt (fabs (draft (c)) * rises / holds (c, 0));
}

/* kg/s of warm air out of the vent. */
static double
warm_air (const HobPartContext *c)
{
  return draft (c) > 0 ? flue (c) : 0;
}

/* Share of that which finds the vent covered and leaves by the seams around the door instead. */
static double
by_seams (const HobPartContext *c)
{
  double blocked = CLAMP (c->set[BLOCKED], 0, 1);

  return (1 - COVERS) * blocked / (1 - COVERS * blocked);
}

/* kg/s of room air through the cavity. */
static double
vent (const HobPartContext *c)
{
  return flue (c) + DOOR_FLOW * sqrt (fabs (buoyancy (c))) * door_open (c);
}

/* kg/s that leak past the gasket of a closed door, and by its seams. */
static double
edge (const HobPartContext *c)
{
  double pull = sqrt (MAX (buoyancy (c), 0)), open = door_open (c);

  return open < 1 ? DOOR_FLOW * pull * open + warm_air (c) * by_seams (c) : 0;
}

static double
blast_rate (const HobPartContext *c)
{
  return c->mode[BLASTING] > 0 ? c->mode[BLAST] / BLAST_TIME : 0;
}

/* The same of the drawer's gas. */
static double
drawer_blast_rate (const HobPartContext *c)
{
  return c->mode[BLASTING] > 0 ? c->mode[DRAWER_BLAST] / BLAST_TIME : 0;
}

/* W, all flames and igniters. */
static double
fire (const HobPartContext *c)
{
  double blast = blast_rate (c) + drawer_blast_rate (c);

  return c->place[HOB_PLACE_HEAT] + (1 - RELIEVED) * blast * c->house->fuel->heat;
}

typedef struct
{
  double low, high, floor, liner, outer; /* W into each body */
  double out;                            /* W out of the whole */
} Exchange;

static Exchange
exchange (const HobPartContext *c)
{
  const double *y = c->y;
  double room = kitchen (c);
  double at_floor = 1 + (FAN_FLOOR - 1) * c->mode[STIRRED];
  double at_liner = 1 + (FAN_LINER - 1) * c->mode[STIRRED];
  double stream = vent (c) * AIR_HEAT;
  double foil = CLAMP (c->set[FOIL], 0, 1);
  double share_air = (1 - TO_FLOOR) * (1 - FOIL_HOLDS * foil);
  double caught = CAUGHT * (1 - SPILLS * CLAMP (c->set[BLOCKED], 0, 1));
  double above = c->place[HOB_PLACE_HEAT_ABOVE] * caught;
  double below = fire (c) * caught - above;
  double to_air = (below * share_air + c->place[HOB_PLACE_HEAT_AIR]) / 2;

  double floor_air = FLOOR_AIR * (1 - FOIL_WEAKENS * foil) * at_floor * (y[FLOOR] - y[AIR_LOW]);
  double floor_liner = FLOOR_LINER * (y[FLOOR] - y[LINER]);
  double floor_outer = FLOOR_OUTER * (y[FLOOR] - y[OUTER]);
  double low_liner = AIR_LINER / 2 * at_liner * (y[AIR_LOW] - y[LINER]);
  double high_liner = AIR_LINER / 2 * at_liner * (y[AIR_HIGH] - y[LINER]);
  double liner_outer = LINER_OUTER * (y[LINER] - y[OUTER]);
  double liner_room = OPEN_RADIATION * door_open (c) * (y[LINER] - room);
  double outer_room = OUTER_ROOM * (y[OUTER] - room);
  double mixing = (c->mode[STIRRED] > 0 ? MIXING_FAN : MIXING) * (y[AIR_LOW] - y[AIR_HIGH]);

  return (Exchange){
    .low = to_air + floor_air - low_liner - mixing - stream * (y[AIR_LOW] - room),
    .high = to_air + ABOVE_AIR * above - high_liner + mixing + stream * (y[AIR_LOW] - y[AIR_HIGH]),
    .floor = below * (1 - share_air) + ABOVE_FLOOR * above - floor_air - floor_liner - floor_outer,
    .liner = c->place[HOB_PLACE_HEAT_WALL] + ABOVE_LINER * above + floor_liner + low_liner
             + high_liner - liner_outer - liner_room,
    .outer = floor_outer + liner_outer - outer_room,
    .out = outer_room + liner_room + stream * (y[AIR_HIGH] - room) + (1 - caught) * fire (c),
  };
}

/* ---- What fills the oven ---- */

static HobAir
there (const HobPartContext *c)
{
  return (HobAir){ .gas = c->y[GAS], .oxygen = c->y[OXYGEN], .burnt = c->y[BURNT],
                   .co = c->y[CO] };
}

static double
moles (const HobPartContext *c)
{
  return hob_air_moles (c->house, c->set[VOLUME], centre (c));
}

/* kg/s of unburned gas that falls into the drawer before it gets into the oven. */
static double
falls (const HobPartContext *c)
{
  double warm = MAX (centre (c) - kitchen (c), 0);

  return c->house->fuel->specific_gravity > 1
           ? FALLS * exp (-warm / FALLS_LESS) * c->place[HOB_PLACE_UNBURNT]
           : 0;
}

/* m³/s that fall there: that gas in the air which its jet drew in. */
static double
falling (const HobPartContext *c)
{
  double gas = c->place[HOB_PLACE_UNBURNT] / hob_fuel_mole (c->house->fuel);

  return gas > 0 ? falls (c) / c->house->fuel->density * (1 + c->place[HOB_PLACE_DRAWN] / gas) : 0;
}

/* How what fills the oven is replaced. */
typedef struct
{
  double n;     /* mol in it */
  double in;    /* mol/s of room air */
  double share; /* 1/s, what leaves … */
  double down;  /* 1/s … and the part of that which sinks into the drawer */
  double made;  /* mol/s of fuel burnt */
} Turnover;

/* With its air warming by @warming K/s. */
static Turnover
turnover (const HobPartContext *c, double warming)
{
  const HobFuel *fuel = c->house->fuel;
  Turnover t = { .n = moles (c) };
  double still = (STILL + STILL_DOOR * door_open (c)) / c->set[VOLUME];
  double blown = blast_rate (c) > 0 ? BLOWN_OUT : 0;
  double gas = (c->place[HOB_PLACE_UNBURNT] - falls (c)) / hob_fuel_mole (fuel);

  t.made = (c->place[HOB_PLACE_BURNT] + blast_rate (c)) / hob_fuel_mole (fuel);
  t.in = vent (c) / HOB_AIR_MOLE + c->place[HOB_PLACE_DRAWN] + (still + blown) * t.n;
  t.share = hob_air_out (fuel, &t.in, gas, t.made, -t.n * warming / centre (c)) / t.n;
  t.down = warm_air (c) > 0 ? 0 : MIN (t.share, flue (c) / HOB_AIR_MOLE / t.n);
  return t;
}

/* kg/s out of the drawer.  It is a pan: what is heavier than what lies there fills it and pushes as
 * much out, but what is lighter passes over it and leaves as it came. */
static double
drawer_out (const HobPartContext *c, Turnover t)
{
  double lies = c->y[DRAWER] / c->set[DRAWER_VOLUME], sinks = c->y[GAS] / c->set[VOLUME];

  return lies * (falling (c) + STILL_DRAWER) + MIN (lies, sinks) * t.down * c->set[VOLUME];
}

/* kg/s into the drawer from the air at the floor, where a heavy gas lies: as much of that moves in
 * as moves out. */
static double
drawer_in (const HobPartContext *c)
{
  return c->within[HOB_PLACE_GAS_LOW] * STILL_DRAWER;
}

/* kg/s of unburned gas out to the kitchen. */
static double
escape (const HobPartContext *c, Turnover t)
{
  return c->y[GAS] * (t.share - t.down) + drawer_out (c, t);
}

static void
air_rates (const HobPartContext *c, double warming)
{
  const HobFuel *fuel = c->house->fuel;
  Turnover t = turnover (c, warming);
  double lost = escape (c, t), burnt = blast_rate (c), share = c->within[HOB_PLACE_OXYGEN];
  HobAir d = hob_air_rates (fuel, there (c), t.n, t.share * t.n, t.made, c->place[HOB_PLACE_CO]);

  c->dy[GAS] = c->place[HOB_PLACE_UNBURNT] - falls (c) - t.share * c->y[GAS] - burnt;
  c->dy[DRAWER] = drawer_in (c) + falls (c) + t.down * c->y[GAS] - drawer_out (c, t)
                  - drawer_blast_rate (c);
  c->dy[OXYGEN] = d.oxygen + share * t.in;
  c->dy[BURNT] = d.burnt;
  c->dy[CO] = d.co;
  hob_air_carry (c->within, there (c), t.n, t.share * t.n);
  c->within[HOB_PLACE_CARRIED_OXYGEN] -= share * t.in;
  c->within[HOB_PLACE_UNBURNT] += lost;
  c->within[HOB_PLACE_CREEPS] += drawer_in (c);
  c->within[HOB_PLACE_BURNT] += drawer_blast_rate (c);
  c->ledger[HOB_LEDGER_GAS_BURNT] += burnt + drawer_blast_rate (c);
  c->ledger[HOB_LEDGER_GAS_ESCAPED] += lost;
  c->ledger[HOB_LEDGER_OXYGEN]
      += 2 * share * t.in - t.share * hob_air_oxygen_atoms (fuel, there (c));
  c->ledger[HOB_LEDGER_PRODUCTS_OUT] += t.share * c->y[BURNT];
}

/* Share of oxygen that the oven has less than the kitchen. */
static double
missing (const HobPartContext *c)
{
  return c->within[HOB_PLACE_OXYGEN] - MAX (c->y[OXYGEN], 0) / moles (c);
}

/* kg/s that burn below the oven bottom. */
static double
burns_below (const HobPartContext *c)
{
  double heat = c->place[HOB_PLACE_HEAT];
  double above = heat > 0 ? c->place[HOB_PLACE_HEAT_ABOVE] / heat : 0;

  return c->place[HOB_PLACE_BURNT] * (1 - above);
}

/* K by which what burns heats what rises in the flue, in the end. */
static double
heats_flue (const HobPartContext *c, double burns)
{
  return FLUE_RISE * burns * c->house->fuel->heat / FLUE_POWER;
}

/* kg/s up through the slots while @burns kg/s burn below them. */
static double
through_slots (const HobPartContext *c, double burns)
{
  double open = door_open (c);
  double pull = MAX (buoyancy (c), 0) + BELOW_PULLS * heats_flue (c, burns) / 150;
  double by_itself = VENT * sqrt (pull * thins (c) / holds (c, DOOR_FLOW / VENT));

  return (1 - open) * warm_air (c) + open * by_itself;
}

/* What x tends to: none with the door closed, where all of the oven's air passes the slots. */
static double
short_below (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double gas = burns_below (c), burns = gas / hob_fuel_mole (fuel) * hob_fuel_oxygen (fuel);

  if (!(door_open (c) > 0 && gas > 0 && flue (c) > 0))
    return 0;

  double by_door = fmin ((vent (c) / flue (c) - 1) / DOOR_SHOWS, 1);
  double most = c->within[HOB_PLACE_OXYGEN] * through_slots (c, gas) / HOB_AIR_MOLE;
  double taken = burns < most ? burns / most * c->within[HOB_PLACE_OXYGEN]
                              : c->within[HOB_PLACE_OXYGEN];

  return by_door * MAX (taken - missing (c), 0);
}

static void
start (const HobPartContext *c, double *y)
{
  for (int k = AIR_LOW; k <= COMPARTMENT; k++)
    y[k] = c->house->temperature;
  y[OXYGEN] = HOB_OXYGEN_IN_AIR
              * hob_air_moles (c->house, c->set[VOLUME], c->house->temperature);
  y[OIL] = c->set[OIL_LEFT];
  c->mode[RISING] = 1;
}

/* What a flame's air has left of its oxygen, after it took in some of the oven's products. */
static void
give_oxygen (const HobPartContext *c)
{
  double fresh = c->within[HOB_PLACE_OXYGEN], gone = MIN (missing (c) + c->y[SHORT], fresh);
  double own = OWN_PRODUCTS + OWN_BY_FOIL * CLAMP (c->set[FOIL], 0, 1)
               + OWN_BY_VENT * CLAMP (c->set[BLOCKED], 0, 1);

  c->place[HOB_PLACE_OXYGEN] = fresh - own * gone;
  c->place[HOB_PLACE_BURNABLE]
      = fmin ((fresh - gone) / OXYGEN_LEFT, 1) * hob_flame_share (c->place[HOB_PLACE_OXYGEN]);
}

static void
give (const HobPartContext *c)
{
  give_oxygen (c);
  c->place[HOB_PLACE_AIR] = centre (c);
  c->place[HOB_PLACE_AIR_LOW] = c->y[AIR_LOW];
  c->place[HOB_PLACE_AIR_HIGH] = c->y[AIR_HIGH];
  c->place[HOB_PLACE_WALL] = c->y[LINER];
  c->place[HOB_PLACE_FLOOR] = c->y[FLOOR];
  c->place[HOB_PLACE_COMPARTMENT] = c->y[COMPARTMENT];
  c->place[HOB_PLACE_STIR] = c->mode[STIRRED];
}

/* Flames that roll out burn in the kitchen, yellow. */
static void
roll_out (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double rolled = c->place[HOB_PLACE_ROLLED];

  if (rolled == 0)
    return;
  c->within[HOB_PLACE_HEAT] += rolled * fuel->heat;
  c->within[HOB_PLACE_BURNT] += rolled;
  c->within[HOB_PLACE_CO] += rolled / hob_fuel_mole (fuel) * fuel->carbon
                             * hob_flame_co (c->within[HOB_PLACE_OXYGEN], 1, 0, 1, ROLLED_WARM);
}

/* 1/s by which the oil boils off a liner at T: 2^((T − T_350)/30 K)/τ. */
static double
boils_off (const HobPartContext *c)
{
  return c->y[OIL] > 0 ? exp2 ((c->y[LINER] - OIL_LINER) / OIL_DOUBLES) * c->y[OIL] / OIL_TIME : 0;
}

static void
rates (const HobPartContext *c)
{
  Exchange w = exchange (c);
  double floor = c->within[HOB_PLACE_AIR_LOW];
  double behind = floor + c->set[COMPARTMENT_SHARE] * (centre (c) - floor);
  double blast = (blast_rate (c) + drawer_blast_rate (c)) * c->house->fuel->heat;

  c->dy[AIR_LOW] = w.low / C_AIR;
  c->dy[AIR_HIGH] = w.high / C_AIR;
  c->dy[FLOOR] = w.floor / C_FLOOR;
  c->dy[LINER] = w.liner / C_LINER;
  c->dy[OUTER] = w.outer / C_OUTER;
  c->dy[COMPARTMENT] = (behind - c->y[COMPARTMENT]) / COMPARTMENT_LAG;
  c->dy[RISE] = (heats_flue (c, c->place[HOB_PLACE_BURNT]) - c->y[RISE]) / FLUE_LAG;
  c->dy[OIL] = -boils_off (c);
  c->dy[SHORT] = (short_below (c) - c->y[SHORT]) / BELOW_LAG;
  air_rates (c, (w.low + w.high) / (2 * C_AIR));
  c->ledger[HOB_LEDGER_HEAT_IN] += blast;
  c->ledger[HOB_LEDGER_HEAT_OUT] += RELIEVED * blast;
  c->within[HOB_PLACE_HEAT_AIR] += w.out;
  roll_out (c);
}

/* Unburned gas as a share of the leanest mixture that burns. */
static double
gas_share (const HobPartContext *c)
{
  return gas_volume (c) / c->house->fuel->lean;
}

/* Volume of gas in the drawer, vol/vol. */
static double
drawer_volume (const HobPartContext *c)
{
  return c->y[DRAWER] / c->house->fuel->density / c->set[DRAWER_VOLUME];
}

/* > 0: something sets off what the oven holds, or the drawer. */
static double
sets_off (const HobPartContext *c)
{
  const HobFuel *fuel = c->house->fuel;
  double oven = hob_air_explosive (fuel, gas_volume (c));
  double drawer = hob_air_explosive (fuel, drawer_volume (c));

  if (c->place[HOB_PLACE_BURNT] > 0)
    return MAX (oven, drawer);
  if (oven <= 0)
    return oven;
  return MIN (oven, c->place[HOB_PLACE_HOT]
                        / hob_hot_surface_ignition (fuel, gas_volume (c)) - 1);
}

/* kg of the oven's gas that there is oxygen for, and of the drawer's, which the blast throws
 * out. */
static double
blasts (const HobPartContext *c)
{
  return hob_air_goes_off (c->house->fuel, gas_volume (c), c->y[GAS], c->y[OXYGEN]);
}

static double
charge (const HobPartContext *c, double volume)
{
  return volume * c->house->fuel->density / (1 + c->house->fuel->air);
}

static double
drawer_blasts (const HobPartContext *c)
{
  return hob_air_explosive (c->house->fuel, drawer_volume (c)) > 0 ? c->y[DRAWER] : 0;
}

/* The oven by itself bangs, the door thrown open, and so does the drawer; with most of the oven
 * full, or two of oven, drawer and burner compartment together, it explodes. */
static HobBurst
burst (const HobPartContext *c)
{
  double full = charge (c, c->set[VOLUME]);
  gboolean oven = blasts (c) >= 0.1 * full;
  gboolean drawer = drawer_blasts (c) >= 0.1 * charge (c, c->set[DRAWER_VOLUME]);
  gboolean box = c->place[HOB_PLACE_BURST] > 0;

  if (!oven && !drawer)
    return HOB_BURST_NONE;
  return blasts (c) > 0.5 * full || oven + drawer + box > 1 ? HOB_BURST_EXPLOSION : HOB_BURST_BANG;
}

/* K/s of the center. */
static double
air_rate (const HobPartContext *c)
{
  return (c->dy[AIR_LOW] + c->dy[AIR_HIGH]) / 2;
}

/* > 0: it has cooled by a kelvin since its highest temperature; what is less, as when the draft
 * dies down after the flame, is no swing. */
static double
fell (const HobPartContext *c)
{
  return c->mode[TOP] > 0 ? c->mode[TOP] - centre (c) - 1 : 1;
}

static double
guard (const HobPartContext *c, int k)
{
  const double turned = 1e-4; /* K/s by which the air must have turned */

  switch (k)
    {
    case G_STIR: return c->mode[STIRRED] > 0 ? -1 : c->place[HOB_PLACE_FAN] - 0.5;
    case G_STILL: return c->mode[STIRRED] > 0 ? 0.3 - c->place[HOB_PLACE_FAN] : -1;
    case G_PEAK: return c->mode[RISING] > 0 ? -turned - air_rate (c) : -1;
    case G_TROUGH: return c->mode[RISING] > 0 ? -1 : fmin (air_rate (c) - turned, fell (c));
    case G_TARGET: return fabs (c->moved - c->mode[TARGET]) - 1e-9;
    case G_BLAST: return c->mode[BLASTING] > 0 ? -1 : sets_off (c);
    default: return c->mode[BLASTING] > 0 ? c->t - c->mode[BLAST_AT] - BLAST_TIME : -1;
    }
}

/* A swing is from a highest to a lowest temperature at one set temperature; what was still too hot
 * from an earlier one does not count. */
static void
note_trough (const HobPartContext *c)
{
  c->mode[RISING] = c->mode[COUNTS] = 1;
  if (!(c->mode[TOP] > 0))
    return;
  c->mode[SWING] = c->mode[TOP] - centre (c);
  c->mode[MIDDLE] = c->mode[TARGET] > 0 ? (c->mode[TOP] + centre (c)) / 2 - c->mode[TARGET] : 0;
}

static void
flip (const HobPartContext *c, int k, double *y G_GNUC_UNUSED)
{
  switch (k)
    {
    case G_STIR: c->mode[STIRRED] = 1; break;
    case G_STILL: c->mode[STIRRED] = 0; break;
    case G_PEAK:
      c->mode[RISING] = 0;
      c->mode[TOP] = c->mode[TARGET] > 0 && c->mode[COUNTS] > 0 ? centre (c) : 0;
      break;
    case G_TROUGH: note_trough (c); break;
    case G_TARGET:
      c->mode[TARGET] = c->moved;
      c->mode[COUNTS] = centre (c) < c->moved;
      c->mode[TOP] = c->mode[SWING] = c->mode[MIDDLE] = 0;
      break;
    case G_BLAST:
      c->mode[BLASTING] = 1;
      c->mode[BLAST] = blasts (c);
      c->mode[DRAWER_BLAST] = drawer_blasts (c);
      c->mode[BURST] = burst (c);
      c->mode[BLAST_AT] = c->t;
      break;
    default: c->mode[BLASTING] = 0;
    }
}

static double
beyond (const HobPartContext *c, double sign)
{
  return c->moved > 0 ? MAX (sign * (centre (c) - c->moved), 0) : 0;
}

/* The difference grows with what flows through the walls: it is judged by how hot the oven is. */
static double
tilt (const HobPartContext *c)
{
  double above = centre (c) - kitchen (c);

  return above > 50 ? fabs (c->y[AIR_HIGH] - c->y[AIR_LOW]) / above : 0;
}

static gboolean
heard (const HobPartContext *c)
{
  return c->mode[BURST] > 0 && c->t - c->mode[BLAST_AT] < HEARD_FOR;
}

static double
observe_air (const HobPartContext *c, int quantity)
{
  const HobFuel *fuel = c->house->fuel;
  double dry = hob_air_dry (fuel, there (c), moles (c));

  switch (quantity)
    {
    case Q_SMELL: return escape (c, turnover (c, air_rate (c)));
    case Q_DRAWER: return drawer_volume (c) / fuel->lean;
    case Q_OXYGEN: return c->y[OXYGEN] / dry;
    case Q_OIL: return c->y[OIL];
    case Q_OIL_SMELL: return fmin (boils_off (c) * OIL_TIME, 1);
    case Q_CO: return hob_air_co_air_free (fuel, there (c), moles (c));
    default: return c->y[CO] / dry;
    }
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_AIR: return centre (c);
    case Q_LOW: return c->y[AIR_LOW];
    case Q_HIGH: return c->y[AIR_HIGH];
    case Q_FLOOR: return c->y[FLOOR];
    case Q_WALL: return c->y[LINER];
    case Q_OUTER: return c->y[OUTER];
    case Q_COMPARTMENT: return c->y[COMPARTMENT];
    case Q_VENT: return warm_air (c) * (1 - by_seams (c));
    case Q_SHORT: return beyond (c, -1);
    case Q_ABOVE: return beyond (c, 1);
    case Q_SWING: return c->mode[SWING];
    case Q_MIDDLE: return c->mode[MIDDLE];
    case Q_GAS: return gas_share (c);
    case Q_LIGHT_ENERGY:
      return heard (c) ? (c->mode[BLAST] + c->mode[DRAWER_BLAST]) * c->house->fuel->heat : 0;
    case Q_BURST: return heard (c) ? c->mode[BURST] : HOB_BURST_NONE;
    case Q_UNEVEN: return fabs (c->y[AIR_HIGH] - c->y[AIR_LOW]);
    case Q_TILT: return tilt (c);
    case Q_EDGE: return edge (c);
    case Q_DOOR: return c->place[HOB_PLACE_OPEN];
    default: return observe_air (c, quantity);
    }
}

static double
stored_heat (const HobPartContext *c)
{
  const double *y = c->y;

  return C_AIR * (y[AIR_LOW] + y[AIR_HIGH]) + C_FLOOR * y[FLOOR] + C_LINER * y[LINER]
         + C_OUTER * y[OUTER];
}

static double
stored_gas (const HobPartContext *c)
{
  return c->y[GAS] + c->y[DRAWER];
}

static void
stored_air (const HobPartContext *c, double *oxygen, double *burnt)
{
  *oxygen = hob_air_oxygen_atoms (c->house->fuel, there (c));
  *burnt = c->y[BURNT];
}

/* A rack: its front wire and the ends of the wires that run back. */
static void
draw_rack (HobPen *pen, double half, double y)
{
  pen_segment (pen, -half, y, half, y);
  for (double x = -half + 16; x < half; x += 32)
    pen_segment (pen, x, y, x, y + 4);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
}

static void
draw_interior (HobPen *pen)
{
  pen_rect (pen, -358, -178, 716, 356);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_OUTLINE);
  draw_rack (pen, 330, -20);
  draw_rack (pen, 330, 26);
  /* Oven bottom with its slots, above the burner compartment. */
  for (int k = 0; k < 8; k++)
    pen_segment (pen, -330 + 83.75 * k, 70, -330 + 83.75 * k + 73, 70);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  /* The vent opens in the roof at the back. */
  pen_rect (pen, 315, -180, 32, 6);
  pen_fill (pen, HOB_ROLE_CAVITY);
}

/* px: where warm air is drawn rising, between parts and their names; the first are drawn first. */
static const double lanes[] = { 96, -100, -320, 200, -340, 80, -120, 212, -84, 112, -304, 188 };

/* Warm air goes as the oven vent draws: a stroke for each gram a second, none under half a gram.
 * A fan drives it around. Else it rises from the hot oven bottom, or stays up where the roof is
 * hotter than the bottom. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  const double per_stroke = 1e-3; /* kg/s */
  double flow = view->quantity != NULL ? view->quantity[Q_VENT] : 0;

  int n = (int) CLAMP (flow / per_stroke + 0.5, 0, G_N_ELEMENTS (lanes));
  gboolean from_below = view->y[FLOOR] >= view->y[AIR_HIGH];

  if (view->layer == HOB_LAYER_PAPER)
    draw_interior (pen);
  else if (view->mode[STIRRED] > 0)
    hob_symbol_driven_air (pen, view, 332, 66, 2 * n);
  else
    hob_symbol_warm_air (pen, view, lanes, from_below ? 62 : -68, 102, n);
}

const HobKind hob_kind_cavity = {
  .name = "cavity",
  .label = N_ ("oven cavity"),
  .means = HOB_MEANS (THERMOMETER),
  .about = N_ ("The air, racks, bottom, liner, door, and outer shell of the oven. The flame has "
               "to heat all of them, and heat is lost through the walls and the oven vent."),
  .flags = HOB_KIND_PLACE,
  .room = HOB_ROOM_OVEN,
  .may_be_in = HOB_ROOM_KITCHEN,
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_CUTAWAY] = { 720, 360 } },
  .figure = Q_AIR,
  .start = start,
  .give = give,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .stored_heat = stored_heat,
  .stored_gas = stored_gas,
  .stored_air = stored_air,
  .draw = draw,
};
