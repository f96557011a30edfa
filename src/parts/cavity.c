/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The oven's cavity: where the heat goes.  What fills it is in cavity-air.c.
 *
 * Bodies: air with racks as two equal nodes (low and high; the center is their mean), oven
 * bottom (floor), liner with door and inner insulation, outer shell.  With Q the heat of flames
 * and igniters, of which 0.735 stays, 60% of that in the oven bottom (a broil burner's goes to the
 * upper air and the liner instead), and w = ṁ·c_p of the air through the vent and the door:
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
 *
 * The compartment behind follows the cavity with a lag.  It is not one of the bodies: what valves
 * lose there is lost.
 *
 * One set of figures, invented for a believable appliance: together they give 350 °F after
 * about 9 minutes and 9,400 Btu in the first hour, and then burn a third of the time. */

#include "base/i18n.h"
#include "parts/cavity.h"
#include "parts/symbol.h"
#include "physics/flame.h"

#include <math.h>

enum { G_STIR, G_STILL, G_PEAK, G_TROUGH, G_TARGET, G_BLAST, G_BLASTED, N_GUARDS };

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
#define SPILLS 0.14    /* share of a flame's heat that a covered vent turns out below */
#define RELIEVED 0.9   /* share of a blast's energy that leaves by the door */

/* Oil that keeps a new liner from rusting: at 350 °F most of it is gone within two hours, as the
 * usual advice to heat a new oven for an hour has it.  Invented. */
#define OIL_TIME 2400.0   /* s, τ */
#define OIL_LINER 430.0   /* K of the liner then */
#define OIL_DOUBLES 30.0  /* K */

#define AIR_HEAT 1005.0       /* J/kgK */
#define COMPARTMENT_LAG 900.0 /* s */
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
    .words = N_ ("Temperature rise behind the oven, as a fraction of the rise in the oven, from 0 "
                 "to 1. Both rises are above the kitchen temperature."),
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
  { .name = "gas", .words = "unburned gas in the cavity, kg", .tolerance = 1e-7,
    .amount = TRUE },
  { .name = "oxygen", .words = "oxygen in the cavity, mol", .tolerance = 1e-2 },
  { .name = "burnt", .words = "fuel whose products are in the cavity, mol", .tolerance = 1e-3 },
  { .name = "co", .words = "carbon monoxide in the cavity, mol", .tolerance = 2e-5 },
  { .name = "drawer", .words = "unburned gas in the drawer, kg", .tolerance = 1e-7,
    .amount = TRUE },
  { .name = "flue-rise", .words = "K by which the flame heats the flue", .dim = HOB_DIM_DIFFERENCE,
    .tolerance = 0.5 },
  { .name = "oil", .words = "share of a new liner's oil that is still on it", .tolerance = 1e-3 },
  { .name = "below", .words = "oxygen missing in what leaves the burner compartment, vol/vol",
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
  { .name = "blast-of" },
  { .name = "drawer-of" },
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
  { .name = "middle", .words = N_ ("how far the average of the last high and low oven temperatures "
                                   "is above the set temperature"),
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
    .remark = N_ ("reading held for 5 s after it happens") },
  { .name = "burst", .words = N_ ("strength of the last flash of built-up gas in the oven"),
    .values = hob_bursts, .sense = HOB_SENSE_EAR,
    .brief = TRUE,
    .remark = N_ ("reading held for 5 s after it happens") },
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
  { .from = HOB_CAVITY_Q_VENT,
    .to = HOB_CAVITY_Q_OXYGEN,
    .words = N_ ("Hot air leaves the oven vent at a rate of %s.") },
  { .from = HOB_CAVITY_Q_OXYGEN,
    .to = HOB_CAVITY_Q_CO,
    .words = N_ ("Oxygen at the oven vent is %s.") },
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
    HOB_EFFECTS ({ .setting = HOB_CAVITY_FOIL, .how = HOB_EFFECT_ADD, .at1 = 1 }),
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
    HOB_EFFECTS ({ .setting = HOB_CAVITY_BLOCKED, .how = HOB_EFFECT_ADD, .at1 = 1 }),
  },
};

/* W, all flames and igniters. */
static double
fire (const HobPartContext *c)
{
  return c->place[HOB_PLACE_HEAT]
         + (1 - RELIEVED) * hob_cavity_blast (c) * c->house->fuel->heat;
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
  double room = hob_cavity_kitchen (c);
  double at_floor = 1 + (FAN_FLOOR - 1) * c->mode[HOB_CAVITY_STIRRED];
  double at_liner = 1 + (FAN_LINER - 1) * c->mode[HOB_CAVITY_STIRRED];
  double stream = hob_cavity_vent (c) * AIR_HEAT;
  double foil = CLAMP (c->set[HOB_CAVITY_FOIL], 0, 1);
  double share_air = (1 - TO_FLOOR) * (1 - FOIL_HOLDS * foil);
  double caught = CAUGHT * (1 - SPILLS * CLAMP (c->set[HOB_CAVITY_BLOCKED], 0, 1));
  double above = c->place[HOB_PLACE_HEAT_ABOVE] * caught;
  double below = fire (c) * caught - above;
  double to_air = (below * share_air + c->place[HOB_PLACE_HEAT_AIR]) / 2;

  double floor_air = FLOOR_AIR * (1 - FOIL_WEAKENS * foil) * at_floor
                     * (y[HOB_CAVITY_FLOOR] - y[HOB_CAVITY_AIR_LOW]);
  double floor_liner = FLOOR_LINER * (y[HOB_CAVITY_FLOOR] - y[HOB_CAVITY_LINER]);
  double floor_outer = FLOOR_OUTER * (y[HOB_CAVITY_FLOOR] - y[HOB_CAVITY_OUTER]);
  double low_liner = AIR_LINER / 2 * at_liner * (y[HOB_CAVITY_AIR_LOW] - y[HOB_CAVITY_LINER]);
  double high_liner = AIR_LINER / 2 * at_liner * (y[HOB_CAVITY_AIR_HIGH] - y[HOB_CAVITY_LINER]);
  double liner_outer = LINER_OUTER * (y[HOB_CAVITY_LINER] - y[HOB_CAVITY_OUTER]);
  double liner_room = OPEN_RADIATION * hob_cavity_door_open (c) * (y[HOB_CAVITY_LINER] - room);
  double outer_room = OUTER_ROOM * (y[HOB_CAVITY_OUTER] - room);
  double mixing = (c->mode[HOB_CAVITY_STIRRED] > 0 ? MIXING_FAN : MIXING)
                  * (y[HOB_CAVITY_AIR_LOW] - y[HOB_CAVITY_AIR_HIGH]);

  return (Exchange){
    .low = to_air + floor_air - low_liner - mixing - stream * (y[HOB_CAVITY_AIR_LOW] - room),
    .high = to_air + ABOVE_AIR * above - high_liner + mixing
            + stream * (y[HOB_CAVITY_AIR_LOW] - y[HOB_CAVITY_AIR_HIGH]),
    .floor = below * (1 - share_air) + ABOVE_FLOOR * above - floor_air - floor_liner - floor_outer,
    .liner = c->place[HOB_PLACE_HEAT_WALL] + ABOVE_LINER * above + floor_liner + low_liner
             + high_liner - liner_outer - liner_room,
    .outer = floor_outer + liner_outer - outer_room,
    .out
    = outer_room + liner_room + stream * (y[HOB_CAVITY_AIR_HIGH] - room) + (1 - caught) * fire (c),
  };
}

static void
start (const HobPartContext *c, double *y)
{
  for (int k = HOB_CAVITY_AIR_LOW; k <= HOB_CAVITY_COMPARTMENT; k++)
    y[k] = c->house->temperature;
  y[HOB_CAVITY_OXYGEN] = HOB_OXYGEN_IN_AIR
              * hob_air_moles (c->house, c->set[HOB_CAVITY_VOLUME], c->house->temperature);
  y[HOB_CAVITY_OIL] = c->set[HOB_CAVITY_OIL_LEFT];
  c->mode[HOB_CAVITY_RISING] = 1;
}

static void
give (const HobPartContext *c)
{
  hob_cavity_give_oxygen (c);
  c->place[HOB_PLACE_AIR] = hob_cavity_centre (c);
  c->place[HOB_PLACE_AIR_LOW] = c->y[HOB_CAVITY_AIR_LOW];
  c->place[HOB_PLACE_AIR_HIGH] = c->y[HOB_CAVITY_AIR_HIGH];
  c->place[HOB_PLACE_WALL] = c->y[HOB_CAVITY_LINER];
  c->place[HOB_PLACE_FLOOR] = c->y[HOB_CAVITY_FLOOR];
  c->place[HOB_PLACE_COMPARTMENT] = c->y[HOB_CAVITY_COMPARTMENT];
  c->place[HOB_PLACE_STIR] = c->mode[HOB_CAVITY_STIRRED];
}

/* 1/s by which the oil boils off a liner at T: 2^((T − T_350)/30 K)/τ. */
static double
boils_off (const HobPartContext *c)
{
  return c->y[HOB_CAVITY_OIL] > 0 ? exp2 ((c->y[HOB_CAVITY_LINER] - OIL_LINER) / OIL_DOUBLES)
                                        * c->y[HOB_CAVITY_OIL] / OIL_TIME
                                  : 0;
}

static void
rates (const HobPartContext *c)
{
  Exchange w = exchange (c);
  double floor = c->within[HOB_PLACE_AIR_LOW];
  double behind = floor + c->set[HOB_CAVITY_COMPARTMENT_SHARE] * (hob_cavity_centre (c) - floor);
  double blast = hob_cavity_blast (c) * c->house->fuel->heat;

  c->dy[HOB_CAVITY_AIR_LOW] = w.low / C_AIR;
  c->dy[HOB_CAVITY_AIR_HIGH] = w.high / C_AIR;
  c->dy[HOB_CAVITY_FLOOR] = w.floor / C_FLOOR;
  c->dy[HOB_CAVITY_LINER] = w.liner / C_LINER;
  c->dy[HOB_CAVITY_OUTER] = w.outer / C_OUTER;
  c->dy[HOB_CAVITY_COMPARTMENT] = (behind - c->y[HOB_CAVITY_COMPARTMENT]) / COMPARTMENT_LAG;
  c->dy[HOB_CAVITY_OIL] = -boils_off (c);
  hob_cavity_air_rates (c, (w.low + w.high) / (2 * C_AIR));
  c->ledger[HOB_LEDGER_HEAT_IN] += blast;
  c->ledger[HOB_LEDGER_HEAT_OUT] += RELIEVED * blast;
  c->within[HOB_PLACE_HEAT_AIR] += w.out;
}

/* K/s of the center. */
static double
air_rate (const HobPartContext *c)
{
  return (c->dy[HOB_CAVITY_AIR_LOW] + c->dy[HOB_CAVITY_AIR_HIGH]) / 2;
}

/* > 0: it has cooled by a kelvin since its highest temperature; what is less, as when the draft
 * dies down after the flame, is no swing. */
static double
fell (const HobPartContext *c)
{
  return c->mode[HOB_CAVITY_TOP] > 0 ? c->mode[HOB_CAVITY_TOP] - hob_cavity_centre (c) - 1 : 1;
}

static double
guard (const HobPartContext *c, int k)
{
  const double turned = 1e-4; /* K/s by which the air must have turned */

  switch (k)
    {
    case G_STIR: return c->mode[HOB_CAVITY_STIRRED] > 0 ? -1 : c->place[HOB_PLACE_FAN] - 0.5;
    case G_STILL:
      return c->mode[HOB_CAVITY_STIRRED] > 0 ? 0.3 - c->place[HOB_PLACE_FAN] : -1;
    case G_PEAK:
      return c->mode[HOB_CAVITY_RISING] > 0 ? -turned - air_rate (c) : -1;
    case G_TROUGH:
      return c->mode[HOB_CAVITY_RISING] > 0 ? -1 : fmin (air_rate (c) - turned, fell (c));
    case G_TARGET:
      return fabs (c->moved - c->mode[HOB_CAVITY_TARGET]) - 1e-9;
    case G_BLAST: return c->mode[HOB_CAVITY_BLASTING] > 0 ? -1 : hob_cavity_sets_off (c);
    default: return hob_cavity_blast_ends (c);
    }
}

/* A swing is from a highest to a lowest temperature at one set temperature; what was still too hot
 * from an earlier one does not count. */
static void
note_trough (const HobPartContext *c)
{
  c->mode[HOB_CAVITY_RISING] = c->mode[HOB_CAVITY_COUNTS] = 1;
  if (!(c->mode[HOB_CAVITY_TOP] > 0))
    return;
  c->mode[HOB_CAVITY_SWING] = c->mode[HOB_CAVITY_TOP] - hob_cavity_centre (c);
  c->mode[HOB_CAVITY_MIDDLE]
      = c->mode[HOB_CAVITY_TARGET] > 0
            ? (c->mode[HOB_CAVITY_TOP] + hob_cavity_centre (c)) / 2 - c->mode[HOB_CAVITY_TARGET]
            : 0;
}

static void
flip (const HobPartContext *c, int k, double *y G_GNUC_UNUSED)
{
  switch (k)
    {
    case G_STIR: c->mode[HOB_CAVITY_STIRRED] = 1; break;
    case G_STILL: c->mode[HOB_CAVITY_STIRRED] = 0; break;
    case G_PEAK:
      c->mode[HOB_CAVITY_RISING] = 0;
      c->mode[HOB_CAVITY_TOP] = c->mode[HOB_CAVITY_TARGET] > 0 && c->mode[HOB_CAVITY_COUNTS] > 0
                                    ? hob_cavity_centre (c)
                                    : 0;
      break;
    case G_TROUGH:
      note_trough (c);
      break;
    case G_TARGET:
      c->mode[HOB_CAVITY_TARGET] = c->moved;
      c->mode[HOB_CAVITY_COUNTS] = hob_cavity_centre (c) < c->moved;
      c->mode[HOB_CAVITY_TOP] = c->mode[HOB_CAVITY_SWING] = c->mode[HOB_CAVITY_MIDDLE] = 0;
      break;
    case G_BLAST: hob_cavity_go_off (c); break;
    default: c->mode[HOB_CAVITY_BLASTING] = 0;
    }
}

static double
beyond (const HobPartContext *c, double sign)
{
  return c->moved > 0 ? MAX (sign * (hob_cavity_centre (c) - c->moved), 0) : 0;
}

/* The difference grows with what flows through the walls: it is judged by how hot the oven is. */
static double
tilt (const HobPartContext *c)
{
  double above = hob_cavity_centre (c) - hob_cavity_kitchen (c);

  return above > 50 ? fabs (c->y[HOB_CAVITY_AIR_HIGH] - c->y[HOB_CAVITY_AIR_LOW]) / above : 0;
}

static gboolean
heard (const HobPartContext *c)
{
  return c->mode[HOB_CAVITY_BURST] > 0 && *c->t - c->mode[HOB_CAVITY_BLAST_AT] < HEARD_FOR;
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case HOB_CAVITY_Q_AIR: return hob_cavity_centre (c);
    case HOB_CAVITY_Q_LOW: return c->y[HOB_CAVITY_AIR_LOW];
    case HOB_CAVITY_Q_HIGH: return c->y[HOB_CAVITY_AIR_HIGH];
    case HOB_CAVITY_Q_FLOOR: return c->y[HOB_CAVITY_FLOOR];
    case HOB_CAVITY_Q_WALL: return c->y[HOB_CAVITY_LINER];
    case HOB_CAVITY_Q_OUTER: return c->y[HOB_CAVITY_OUTER];
    case HOB_CAVITY_Q_COMPARTMENT: return c->y[HOB_CAVITY_COMPARTMENT];
    case HOB_CAVITY_Q_SHORT: return beyond (c, -1);
    case HOB_CAVITY_Q_ABOVE: return beyond (c, 1);
    case HOB_CAVITY_Q_SWING: return c->mode[HOB_CAVITY_SWING];
    case HOB_CAVITY_Q_MIDDLE:
      return c->mode[HOB_CAVITY_MIDDLE];
    case HOB_CAVITY_Q_LIGHT_ENERGY:
      return heard (c) ? (c->mode[HOB_CAVITY_BLAST] + c->mode[HOB_CAVITY_DRAWER_BLAST])
                             * c->house->fuel->heat
                       : 0;
    case HOB_CAVITY_Q_BURST:
      return heard (c) ? c->mode[HOB_CAVITY_BURST] : HOB_BURST_NONE;
    case HOB_CAVITY_Q_UNEVEN:
      return fabs (c->y[HOB_CAVITY_AIR_HIGH] - c->y[HOB_CAVITY_AIR_LOW]);
    case HOB_CAVITY_Q_TILT: return tilt (c);
    case HOB_CAVITY_Q_DOOR: return c->place[HOB_PLACE_OPEN];
    case HOB_CAVITY_Q_OIL: return c->y[HOB_CAVITY_OIL];
    case HOB_CAVITY_Q_OIL_SMELL: return fmin (boils_off (c) * OIL_TIME, 1);
    default: return hob_cavity_observe_air (c, quantity, air_rate (c));
    }
}

static double
stored_heat (const HobPartContext *c)
{
  const double *y = c->y;

  return C_AIR * (y[HOB_CAVITY_AIR_LOW] + y[HOB_CAVITY_AIR_HIGH]) + C_FLOOR * y[HOB_CAVITY_FLOOR]
         + C_LINER * y[HOB_CAVITY_LINER] + C_OUTER * y[HOB_CAVITY_OUTER];
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
  double flow = view->quantity != NULL ? view->quantity[HOB_CAVITY_Q_VENT] : 0;

  int n = (int) CLAMP (flow / per_stroke + 0.5, 0, G_N_ELEMENTS (lanes));
  gboolean from_below = view->y[HOB_CAVITY_FLOOR] >= view->y[HOB_CAVITY_AIR_HIGH];

  if (view->layer == HOB_LAYER_PAPER)
    draw_interior (pen);
  else if (view->mode[HOB_CAVITY_STIRRED] > 0)
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
  .figure = HOB_CAVITY_Q_AIR,
  .start = start,
  .give = give,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .stored_heat = stored_heat,
  .stored_gas = hob_cavity_stored_gas,
  .stored_air = hob_cavity_stored_air,
  .draw = draw,
};
