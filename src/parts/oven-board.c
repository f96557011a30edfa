/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Electronic oven control: it reads the ohms of its sensor and works relays.
 *
 * A small source of its own, isolated from the line, drives the sensor through a known
 * resistor, and the ohms follow from the voltage left across the two terminals:
 *
 *   R = R_known·V/(V_source − V)
 *
 * More than 3,000 ohms reads as an open sensor, less than 900 as a shorted one.  Either stops
 * the oven and is shown until the mode is OFF.  So does a reading above 650 °F with the bake
 * relay off (a common limit, from memory); a relay that is welded burns on.  With a second relay
 * in the line (a setting) the control does stop it, and already when it runs far past its set
 * temperature.
 *
 * A surge protector across its supply is made for 150 V without end (from memory).  Above that it
 * heats up, fails within two seconds and takes the supply with it: the control is dead for good.
 *
 * It forgets what it was doing when its power fails: it comes back off and says so until it is set
 * anew, by way of OFF.  Figures invented for a believable appliance. */

#include "base/i18n.h"
#include "parts/call.h"
#include "parts/joint.h"
#include "parts/symbol.h"
#include "physics/material.h"

#include <math.h>

enum { LINE, NEUTRAL, GROUND, BAKE, BROIL, SENSOR_A, SENSOR_B, FAN, ELEMENT, LIGHT, DOOR, MID };
enum { DIFFERENTIAL, OFFSET, CONTACT_OHMS, LINE_RELAY, ELEMENT_USE, WELDED, STAYS_OPEN, READS, DEAD,
       BROIL_OPEN, FAN_OPEN, LINE_WELDED, LINE_OPEN };
enum { JOINT, BROWN = JOINT + HOB_JOINT_N_STATES };
enum { LAMP = HOB_CALL_DIAL + 1 };
enum { POWERED, POWERED_AT, AWAKE, ERROR, CALL, REACHED, OPEN_DOOR, DISPLAY, OUTAGE, SET_AT,
       WAITS, SURGING, SURGE_AT, BURNED };
enum { ERROR_NONE, ERROR_OPEN, ERROR_SHORTED, ERROR_HOT };
enum { SHOWS_NOTHING, SHOWS_READY, SHOWS_PREHEAT, SHOWS_HEAT, SHOWS_DOOR, SHOWS_OPEN, SHOWS_SHORTED,
       SHOWS_HOT, SHOWS_OUTAGE };
enum { E_SUPPLY, E_SOURCE, E_MAIN, E_BAKE, E_BROIL, E_FAN, E_ELEMENT, E_LIGHT, E_DOOR };
enum { G_POWER, G_AWAKE, G_OPEN, G_SHORTED, G_HOT, G_CLEAR, G_CALL, G_REACHED, G_FORGET, G_DOOR,
       G_DISPLAY, G_SET_ANEW, G_SET, G_COOLED, G_SURGE, G_BURNS, N_GUARDS };
enum { Q_TARGET, Q_OHMS, Q_SENSED, Q_CALL, Q_BEHIND, Q_AHEAD, Q_DISPLAY, Q_ERROR, Q_DROP, Q_JOINT };

#define SENSOR_ZERO 1000.0      /* ohm at 0 °C that its table is made for */
#define SENSOR_OPEN 3000.0      /* ohm */
#define SENSOR_SHORT 900.0      /* ohm */
#define SOURCE_VOLTS 1.0        /* V */
#define SOURCE_OHMS 2000.0      /* the known resistor */
#define SUPPLY_OHMS 4800.0      /* what it draws itself, 3 W */
#define PRIMARY_OHMS 600.0      /* of its transformer's winding: some hundreds, from memory */
#define DOOR_OHMS 100e3         /* input from the door switch */
#define AWAKE_VOLTS 85.0        /* V, above which it runs … */
#define ASLEEP_VOLTS 70.0       /* … and below which it drops out */
#define RECHARGE_TIME 0.5       /* s that its supply needs after it has dropped out */
#define DOOR_OPENS 0.7          /* of the line volts, above which the door counts as open … */
#define DOOR_CLOSES 0.6         /* … and below which as closed */
#define WAKE_TIME 1.0           /* s from power to its first reading */
#define SURGE_VOLTS 150.0       /* V, above which its surge protector conducts … */
#define SURGE_ENDS 145.0        /* … and below which no longer */
#define SURGE_TIME 2.0          /* s that it bears it; invented */
#define RUNAWAY HOB_DEGF (650)
#define FAR_TOO_HOT (100 / 1.8) /* K past the set temperature at which a line relay opens */

static const HobTerminalDef terminals[] = {
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("line"), .required = TRUE, .x = -120, .y = -80,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("neutral"), .required = TRUE, .x = 80, .y = -160,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "ground", .mark = NC_ ("terminal", "ground"),
    .words = N_ ("ground"), .x = -60, .y = 160,
    .conductor = HOB_CONDUCTOR_GROUND },
  { .name = "bake", .mark = NC_ ("terminal", "bake"),
    .words = N_ ("to the bake igniter"), .required = TRUE, .x = 120, .y = -80 },
  { .name = "broil", .mark = NC_ ("terminal", "broil"),
    .words = N_ ("to the broil igniter"), .x = 120, .y = -40 },
  { .name = "sensor-a", .words = N_ ("sensor"), .required = TRUE, .x = 120, .y = 100 },
  { .name = "sensor-b", .words = N_ ("sensor, other lead"), .required = TRUE, .x = 120, .y = 120 },
  { .name = "fan", .mark = NC_ ("terminal", "fan"),
    .words = N_ ("to the convection fan"), .x = 120 },
  { .name = "element", .mark = NC_ ("terminal", "element"),
    .words = N_ ("to the convection element"), .x = 120, .y = 40 },
  { .name = "light", .mark = NC_ ("terminal", "light"),
    .words = N_ ("to the oven light"), .x = 120, .y = 80 },
  { .name = "door", .mark = NC_ ("terminal", "door"),
    .words = N_ ("from the door switch: live while the door is open"), .x = -120,
    .y = 40 },
  { .name = "mid", .inner = TRUE,
    .words = N_ ("load side of the line relay, inside the control"), .x = -40, .y = -80 },
};

static const char *const element_uses[] = { "preheat", "always", NULL };

static const HobSettingDef settings[] = {
  { .name = "differential",
    .words = N_ ("How far above the set temperature the control stops calling for heat. The "
                 "control calls again when the oven is this far below the set temperature."),
    .dim = HOB_DIM_DIFFERENCE, .normal = 5 / 1.8, .low = 0.2, .high = 30 },
  { .name = "offset", .words = N_ ("Temperature offset (user setting)."),
    .dim = HOB_DIM_DIFFERENCE, .low = -20, .high = 20 },
  { .name = "contact-ohms", .words = N_ ("Resistance of the closed bake relay contact when hot."),
    .dim = HOB_DIM_RESISTANCE, .normal = HOB_CONTACT_OHMS, .low = 1e-4, .high = 1e4 },
  { .name = "line-relay", .words = N_ ("Enter 1 if a line relay in the control shuts off an "
                                       "overheated oven, or 0 if there is none."),
    .high = 1 },
  { .name = "element-use",
    .words = N_ ("Whether the convection element comes on only during preheat or on every call for "
                 "heat."),
    .dim = HOB_DIM_CHOICE, .high = 1, .choices = element_uses },
  { .name = "welded", .words = "1: the bake relay's contact is welded shut.", .high = 1,
    .condition = TRUE },
  { .name = "stays-open", .words = "1: the bake relay closes no more.", .high = 1,
    .condition = TRUE },
  { .name = "reads", .words = "Ohms that it reads too many.", .dim = HOB_DIM_RESISTANCE,
    .low = -500, .high = 500, .condition = TRUE },
  { .name = "dead", .words = "1: its own supply is dead.", .high = 1, .condition = TRUE },
  { .name = "broil-open", .words = "1: the broil relay closes no more.", .high = 1,
    .condition = TRUE },
  { .name = "fan-open", .words = "1: the fan's relay closes no more.", .high = 1,
    .condition = TRUE },
  { .name = "line-welded", .words = "1: the line relay is welded shut.", .high = 1,
    .condition = TRUE },
  { .name = "line-open", .words = "1: the line relay never closes.", .high = 1,
    .condition = TRUE },
};

static const HobStateDef states[] = {
  HOB_JOINT_STATES,
  HOB_JOINT_BROWN_STATE,
};

static const HobJoint joint
    = { .ohms = CONTACT_OHMS, .states = JOINT, .brown = BROWN, .contact = TRUE, .burned = TRUE };

static const char *const power_words[]
    = { N_ ("control loses power"), N_ ("control powers up"), NULL };
static const char *const burned_words[] = { N_ ("control's power supply works again"),
                                            N_ ("control's power supply burns out"), NULL };
static const char *const call_words[]
    = { N_ ("control stops calling for heat"), N_ ("control calls for heat"), NULL };
/* What a display shows, short. */
static const char *const display_values[] = {
  /* Translators: what the display of the oven control shows. */
  N_ ("blank"),
  N_ ("ready"),
  N_ ("preheat"),
  N_ ("set temperature"),
  N_ ("door open"),
  N_ ("fault code: sensor open"),
  N_ ("fault code: sensor shorted"),
  N_ ("fault code: overheat"),
  N_ ("power lost"),
  NULL,
};

static const char *const display_words[] = {
  N_ ("display goes blank"),
  N_ ("display shows READY"),
  N_ ("display shows PREHEAT"),
  N_ ("display shows the set temperature"),
  N_ ("display shows that the door is open"),
  N_ ("display shows the open-sensor fault code"),
  N_ ("display shows the shorted-sensor fault code"),
  N_ ("display shows the overheat fault code"),
  N_ ("display shows that power was lost"),
  NULL,
};

static const HobModeDef modes[] = {
  { .name = "powered", .words = power_words },
  { .name = "powered-at" },
  { .name = "awake" },
  { .name = "error" },
  { .name = "call", .words = call_words, .regulates = TRUE },
  { .name = "reached" },
  { .name = "door" },
  { .name = "display", .words = display_words, .display = TRUE },
  { .name = "outage" },
  { .name = "set-at" }, /* K; 0: off */
  { .name = "waits" },  /* to cool down to it */
  { .name = "surging" },
  { .name = "surge-at" },
  { .name = "burned", .words = burned_words },
};

static const HobPosition mode_positions[] = {
  { .name = "off", .words = N_ ("OFF"), .value = HOB_CALL_OFF, .role = HOB_POSITION_OFF },
  { .name = "bake", .words = N_ ("BAKE"), .value = HOB_CALL_BAKE, .role = HOB_POSITION_HOLD },
  { .name = "broil", .words = N_ ("BROIL"), .value = HOB_CALL_BROIL, .role = HOB_POSITION_BROIL },
  /* Translators: a key for convection. */
  { .name = "convection", .words = N_ ("CONV"), .value = HOB_CALL_CONVECTION,
    .role = HOB_POSITION_HOLD },
  { NULL },
};

static const HobPosition lamp_positions[] = {
  { .name = "off", .words = N_ ("OFF"), .value = 0 },
  { .name = "on", .words = N_ ("ON"), .value = 1 },
  { NULL },
};

static const HobControlDef controls[] = {
  { .name = "mode", .words = N_ ("mode keys"), .dim = HOB_DIM_CHOICE, .positions = mode_positions,
    .low = HOB_CALL_OFF, .high = HOB_CALL_CONVECTION, .start = HOB_CALL_OFF,
    .exercise = HOB_EXERCISE_CALL, .role = HOB_CONTROL_KEYS, .front = HOB_FRONT_OVEN },
  HOB_CALL_DIAL_CONTROL (N_ ("set temperature"), HOB_CONTROL_SET),
  { .name = "light", .words = N_ ("light key"), .dim = HOB_DIM_CHOICE, .positions = lamp_positions,
    .high = 1, .role = HOB_CONTROL_KEY, .front = HOB_FRONT_OVEN },
};

static const HobElementDef elements[] = {
  { .name = "supply", .a = LINE, .b = NEUTRAL },
  { .name = "source", .a = SENSOR_B, .b = SENSOR_A },
  { .name = "main", .a = LINE, .b = MID },
  { .name = "bake", .a = MID, .b = BAKE },
  { .name = "broil", .a = MID, .b = BROIL },
  { .name = "fan", .a = LINE, .b = FAN },
  { .name = "element", .a = LINE, .b = ELEMENT },
  { .name = "light", .a = LINE, .b = LIGHT },
  { .name = "door", .a = DOOR, .b = NEUTRAL },
};

static const HobQuantityDef quantities[] = {
  { .name = "target", .words = N_ ("set temperature"),
    .dim = HOB_DIM_TEMPERATURE, .sense = HOB_SENSE_EYE,
    .remark = N_ ("blank with the oven off") },
  { .name = "ohms",
    .words = N_ ("sensor resistance that the control reads"), .dim = HOB_DIM_RESISTANCE },
  { .name = "sensed", .words = N_ ("temperature that the control reads"),
    .dim = HOB_DIM_TEMPERATURE, .out_of_reach = TRUE },
  { .name = "call", .words = N_ ("control calls for heat"), .values = hob_no_yes },
  { .name = "behind", .words = N_ ("how far the reading is below the set temperature"),
    .dim = HOB_DIM_DIFFERENCE },
  { .name = "ahead", .words = N_ ("how far the reading is above the set temperature"),
    .dim = HOB_DIM_DIFFERENCE },
  { .name = "display",
    .words = N_ ("display"), .values = display_values,
    .sense = HOB_SENSE_EYE },
  { .name = "error", .words = N_ ("fault code shown"),
    .values = hob_no_yes, .sense = HOB_SENSE_EYE },
  { .name = "drop", .words = N_ ("voltage across the bake relay contact"), .dim = HOB_DIM_VOLTAGE },
  HOB_JOINT_QUANTITIES,
};

static const HobFaultDef faults[] = {
  {
    .id = "contact-welded",
    .words = N_ ("bake relay contact welded closed"),
    .prior = 4,
    .proof = N_ ("Read the volts from the control's bake terminal to neutral, with the oven on but "
                 "hotter than its set temperature. There is line voltage; there should be none."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = WELDED, .at1 = 1 }),
  },
  {
    .id = "relay-open",
    .words = N_ ("bake relay won't close"),
    .prior = 4,
    .proof = N_ ("Read the volts across the bake relay contact while the control calls for bake. "
                 "There is line voltage, so the contact is open. Broil works."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = STAYS_OPEN, .at1 = 1 }),
  },
  {
    .id = "relay-burned",
    .words = N_ ("bake relay contact burned"),
    .severity_words = N_ ("%s of resistance across the contact when hot"),
    .typical = 0.5,
    .prior = 3,
    .proof = N_ ("Under load, read the voltage drop across the relay contact. More than 1 V at 3 A "
                 "is bad."),
    .confirm = HOB_MEANS (VOLTAGE_DROP),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = CONTACT_OHMS, .how = HOB_EFFECT_ADD, .at1 = 19 }),
  },
  {
    .id = "broil-relay-open",
    .words = N_ ("broil relay won't close"),
    .prior = 2,
    .proof = N_ ("Read the volts across the broil relay contact while the control calls for broil. "
                 "There is line voltage, so the contact is open. Bake works."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    .needs = HOB_NEEDS (BROIL),
    HOB_EFFECTS ({ .setting = BROIL_OPEN, .at1 = 1 }),
  },
  {
    .id = "fan-relay-open",
    .words = N_ ("fan relay won't close"),
    .prior = 2,
    .proof = N_ ("Set the oven to convection and read the volts across the fan relay contact. "
                 "There is line voltage, so the contact is open; it should be closed."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    .needs = HOB_NEEDS (FAN),
    HOB_EFFECTS ({ .setting = FAN_OPEN, .at1 = 1 }),
  },
  {
    .id = "reads-high",
    .words = N_ ("control reads the sensor high"),
    .severity_words = N_ ("reads the sensor %s too high"),
    .typical = 0.5,
    .prior = 2,
    .proof = N_ ("Set the temperature offset to 0. Unplug the range and read the sensor's ohms at "
                 "the control plug. The reading matches the oven's temperature, but the oven runs "
                 "cool."),
    .confirm = HOB_MEANS (SENSOR_OHMS),
    HOB_EFFECTS ({ .setting = READS, .how = HOB_EFFECT_ADD, .at1 = 120 }),
  },
  {
    .id = "reads-low",
    .words = N_ ("control reads the sensor low"),
    .severity_words = N_ ("reads the sensor %s too low"),
    .typical = 0.5,
    .prior = 2,
    .proof = N_ ("Set the temperature offset to 0. Unplug the range and read the sensor's ohms at "
                 "the control plug. The reading matches the oven's temperature, but the oven runs "
                 "hot."),
    .confirm = HOB_MEANS (SENSOR_OHMS),
    HOB_EFFECTS ({ .setting = READS, .how = HOB_EFFECT_ADD, .at1 = -120 }),
  },
  {
    .id = "dead",
    .words = N_ ("electronic oven control dead"),
    .prior = 2,
    .proof = N_ ("Read the volts from line to neutral at the control. There is line voltage, "
                 "but the display is blank."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = DEAD, .at1 = 1 }),
  },
  {
    .id = "line-relay-welded",
    .words = N_ ("line relay contact welded closed"),
    .prior = 1,
    .basis = "silent until the bake relay welds too",
    .proof = N_ ("Read the volts from the load side of the line relay to neutral with the oven "
                 "off. There is line voltage; there should be none."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = LINE_WELDED, .at1 = 1 }),
  },
  {
    .id = "line-relay-open",
    .words = N_ ("line relay won't close"),
    .prior = 1,
    .proof = N_ ("Read the volts across the line relay contact while the control calls for heat. "
                 "There is line voltage, so the contact is open. Neither bake nor broil works."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = LINE_OPEN, .at1 = 1 }),
  },
};

/* R as the control reads it. */
static double
sensor_ohms (const HobPartContext *c)
{
  double volts = sqrt (hob_square_volts_across (c, SENSOR_A, SENSOR_B));
  double rest = SOURCE_VOLTS - volts;

  return rest > 1e-6 ? SOURCE_OHMS * volts / rest + c->set[READS] : SOURCE_OHMS * 1e6;
}

/* K; a reading beyond the table counts as the table's end. */
static double
sensed (const HobPartContext *c)
{
  double ohms = CLAMP (sensor_ohms (c), 300, 3300);

  return hob_platinum_temperature (SENSOR_ZERO, ohms) - c->set[OFFSET];
}

static gboolean
running (const double *ctl, const double *mode)
{
  return mode[AWAKE] > 0 && ctl[HOB_CALL_MODE] > HOB_CALL_OFF && mode[ERROR] <= ERROR_NONE
         && !(mode[OUTAGE] > 0);
}

static gboolean
works (const HobPartContext *c)
{
  return running (c->ctl, c->mode);
}

/* Whether it stands at what its keys were set to.  Without power, or after a fault code, it
 * doesn't. */
static gboolean
stands (const HobPartContext *c)
{
  return c->mode[POWERED] > 0 && c->mode[ERROR] <= ERROR_NONE && !(c->mode[OUTAGE] > 0);
}

/* Is this relay's contact closed?  One answer for the circuit and for the drawing. */
static gboolean
closed (const double *set, const double *ctl, const double *y, const double *mode, int element)
{
  gboolean run = running (ctl, mode), call = run && mode[CALL] > 0,
           broil = hob_call_mode (ctl) == HOB_CALL_BROIL;
  gboolean stirring = run && hob_call_mode (ctl) == HOB_CALL_CONVECTION && !(mode[OPEN_DOOR] > 0);

  switch (element)
    {
    case E_MAIN:
      return !(set[LINE_RELAY] > 0) || (run && !(set[LINE_OPEN] > 0)) || set[LINE_WELDED] > 0;
    case E_BAKE:
      return (call && !broil && !(set[STAYS_OPEN] > 0)) || set[WELDED] > 0
             || hob_joint_welded (y, &joint);
    case E_BROIL: return call && broil && !(set[BROIL_OPEN] > 0);
    case E_FAN: return stirring && !(set[FAN_OPEN] > 0);
    /* The element helps while the oven preheats; after that only if it is set to. */
    case E_ELEMENT: return stirring && call && (set[ELEMENT_USE] > 0 || !(mode[REACHED] > 0));
    default: return mode[POWERED] > 0 && (ctl[LAMP] > 0 || mode[OPEN_DOOR] > 0);
    }
}

static void
start (const HobPartContext *c, double *y)
{
  hob_joint_start (c, &joint, y);
  c->mode[POWERED_AT] = -2 * RECHARGE_TIME; /* it begins charged */
}

static void
conduct (const HobPartContext *c)
{
  static const int relays[] = { E_MAIN, E_BAKE, E_BROIL, E_FAN, E_ELEMENT, E_LIGHT };

  if (!(c->mode[BURNED] > 0))
    c->g[E_SUPPLY] = hob_siemens (SUPPLY_OHMS);
  c->g[E_DOOR] = hob_siemens (DOOR_OHMS);
  if (c->mode[POWERED] > 0)
    {
      c->g[E_SOURCE] = hob_siemens (SOURCE_OHMS);
      c->emf[E_SOURCE] = (HobComplex){ SOURCE_VOLTS, 0 };
    }
  for (guint k = 0; k < G_N_ELEMENTS (relays); k++)
    if (closed (c->set, c->ctl, c->y, c->mode, relays[k]))
      {
        gboolean bakes = relays[k] == E_BAKE;

        c->g[relays[k]] = hob_siemens (bakes ? hob_joint_ohms (c, &joint) : HOB_CONTACT_OHMS);
      }
}

/* Unpowered, its supply is the wire of a small transformer's primary. */
static double
at_rest (const HobPartContext *c, int element)
{
  return element == E_SUPPLY ? PRIMARY_OHMS : 1 / c->g[element].re;
}

static void
rates (const HobPartContext *c)
{
  hob_joint_rates (c, &joint, E_BAKE, c->within[HOB_PLACE_AIR]);
}

/* What the display ought to show now. */
static int
shows (const HobPartContext *c)
{
  static const int of_error[] = { SHOWS_NOTHING, SHOWS_OPEN, SHOWS_SHORTED, SHOWS_HOT };

  if (!(c->mode[AWAKE] > 0))
    return SHOWS_NOTHING;
  if (c->mode[ERROR] > 0)
    return of_error[(int)c->mode[ERROR]];
  if (c->mode[OUTAGE] > 0)
    return SHOWS_OUTAGE;
  if (c->mode[OPEN_DOOR] > 0)
    return SHOWS_DOOR;
  if (c->ctl[HOB_CALL_MODE] <= HOB_CALL_OFF)
    return SHOWS_READY;
  return c->mode[REACHED] > 0 ? SHOWS_HEAT : SHOWS_PREHEAT;
}

/* Where the circuit is so weak that its own loads pull it below what it runs on, it drops out, and
 * tries again when its supply has charged up. */
static double
guard_power (const HobPartContext *c)
{
  double square = hob_square_volts_across (c, LINE, NEUTRAL);

  if (c->set[DEAD] > 0 || c->mode[BURNED] > 0)
    return c->mode[POWERED] > 0 ? 1 : -1;
  if (c->mode[POWERED] > 0)
    return ASLEEP_VOLTS * ASLEEP_VOLTS - square;
  return MIN (sqrt (square) - AWAKE_VOLTS, *c->t - c->mode[POWERED_AT] - RECHARGE_TIME);
}

static double
guard_surge (const HobPartContext *c)
{
  double square = hob_square_volts_across (c, LINE, NEUTRAL);

  return c->mode[SURGING] > 0 ? SURGE_ENDS * SURGE_ENDS - square
                              : square - SURGE_VOLTS * SURGE_VOLTS;
}

/* K at which the line relay opens.  An oven that was hotter before it was set lower, or turned on
 * again, first cools down to what is asked for now; until then only the hottest of all settings
 * counts. */
static double
too_hot (const HobPartContext *c)
{
  double target = hob_call_target (c);
  gboolean waits = c->mode[WAITS] > 0 || c->mode[SET_AT] != target;

  return (waits ? HOB_CALL_HIGHEST : target) + FAR_TOO_HOT;
}

static double
guard_hot (const HobPartContext *c)
{
  if (!works (c) || c->mode[CALL] > 0)
    return -1;
  return sensed (c) - (c->set[LINE_RELAY] > 0 ? MIN (too_hot (c), RUNAWAY) : RUNAWAY);
}

static double
guard_awake (const HobPartContext *c)
{
  return c->mode[POWERED] > 0 && !(c->mode[AWAKE] > 0) ? *c->t - c->mode[POWERED_AT] - WAKE_TIME
                                                       : -1;
}

static double
guard_call (const HobPartContext *c)
{
  double cold = hob_call_target (c) - sensed (c);

  gboolean calls = c->mode[CALL] > 0;

  if (!works (c))
    return calls ? 1 : -1;
  return hob_call_guard (calls, cold, c->set[DIFFERENTIAL]);
}

/* The input is compared with the line that feeds both: the light, which an open door turns on,
 * lowers the two together. */
static double
guard_door (const HobPartContext *c)
{
  double door = hob_square_volts_across (c, DOOR, NEUTRAL);
  double line = hob_square_volts_across (c, LINE, NEUTRAL);
  gboolean open = c->mode[OPEN_DOOR] > 0;

  if (!(c->mode[POWERED] > 0))
    return open ? 1 : -1;
  return open ? DOOR_CLOSES * DOOR_CLOSES * line - door : door - DOOR_OPENS * DOOR_OPENS * line;
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean run = works (c), off = hob_call_mode (c->ctl) == HOB_CALL_OFF;

  switch (k)
    {
    case G_POWER: return guard_power (c);
    case G_AWAKE: return guard_awake (c);
    case G_OPEN: return run ? sensor_ohms (c) / SENSOR_OPEN - 1 : -1;
    case G_SHORTED: return run ? 1 - sensor_ohms (c) / SENSOR_SHORT : -1;
    case G_HOT: return guard_hot (c);
    case G_SET: return hob_call_target (c) != c->mode[SET_AT] ? 1 : -1;
    case G_COOLED: return c->mode[WAITS] > 0 ? hob_call_target (c) - sensed (c) : -1;
    case G_CLEAR: return c->mode[ERROR] > 0 && (off || !(c->mode[POWERED] > 0)) ? 1 : -1;
    case G_CALL: return guard_call (c);
    case G_REACHED: return run && !(c->mode[REACHED] > 0) ? sensed (c) - hob_call_target (c) : -1;
    case G_FORGET: return c->mode[REACHED] > 0 && !run ? 1 : -1;
    case G_DOOR: return guard_door (c);
    case G_SET_ANEW: return c->mode[OUTAGE] > 0 && off ? 1 : -1;
    case G_SURGE: return guard_surge (c);
    case G_BURNS:
      return c->mode[SURGING] > 0 && !(c->mode[BURNED] > 0) ? *c->t - c->mode[SURGE_AT] - SURGE_TIME
                                                            : -1;
    default: return shows (c) != (int)c->mode[DISPLAY] ? 1 : -1;
    }
}

static const guint8 guard_reads[N_GUARDS] = {
  [G_POWER] = HOB_READS_CIRCUIT,   [G_AWAKE] = HOB_READS_NOTHING,
  [G_OPEN] = HOB_READS_CIRCUIT,    [G_SHORTED] = HOB_READS_CIRCUIT,
  [G_HOT] = HOB_READS_CIRCUIT,     [G_CALL] = HOB_READS_CIRCUIT,
  [G_REACHED] = HOB_READS_CIRCUIT, [G_DOOR] = HOB_READS_CIRCUIT,
  [G_COOLED] = HOB_READS_CIRCUIT,
  [G_SURGE] = HOB_READS_CIRCUIT,   [G_BURNS] = HOB_READS_NOTHING,
};

static void
flip (const HobPartContext *c, int k, double *y)
{
  static const int toggled[N_GUARDS] = { [G_AWAKE] = AWAKE,
                                         [G_CALL] = CALL,
                                         [G_REACHED] = REACHED,
                                         [G_FORGET] = REACHED,
                                         [G_DOOR] = OPEN_DOOR,
                                         [G_BURNS] = BURNED };

  switch (k)
    {
    case G_POWER:
      hob_mode_toggle (c, POWERED);
      c->mode[POWERED_AT] = *c->t;
      c->mode[AWAKE] = 0;
      /* what was set in the dark, or before, does not count; at the beginning nothing was lost */
      if (c->mode[POWERED] > 0 && *c->t > 0)
        c->mode[OUTAGE] = 1;
      break;
    case G_OPEN: c->mode[ERROR] = ERROR_OPEN; break;
    case G_SHORTED: c->mode[ERROR] = ERROR_SHORTED; break;
    case G_HOT: c->mode[ERROR] = ERROR_HOT; break;
    case G_CLEAR: c->mode[ERROR] = ERROR_NONE; break;
    case G_DISPLAY: c->mode[DISPLAY] = shows (c); break;
    case G_SET_ANEW: c->mode[OUTAGE] = 0; break;
    case G_SET:
      c->mode[SET_AT] = hob_call_target (c);
      c->mode[WAITS] = sensed (c) > hob_call_target (c);
      break;
    case G_COOLED: c->mode[WAITS] = 0; break;
    case G_SURGE:
      hob_mode_toggle (c, SURGING);
      c->mode[SURGE_AT] = *c->t;
      break;
    default: hob_mode_toggle (c, toggled[k]);
    }
}

static double
calls_below (const HobPartContext *c)
{
  return hob_call_held (c) - c->set[DIFFERENTIAL];
}

static double
stops_above (const HobPartContext *c)
{
  return hob_call_held (c) + c->set[DIFFERENTIAL];
}

static const HobLinkDef links[] = {
  { .from = Q_OHMS, .to = Q_SENSED, .words = N_ ("The control reads %s from the oven sensor.") },
  { .from = Q_SENSED, .to = HOB_LINK_MODE (CALL), .value = 1,
    .words = N_ ("The temperature that the control reads is %s."),
    /* Translators: "… is 345 °F. It should be 330 °F (calls for heat below 340 °F)." */
    .at = N_ ("calls for heat below %s"),
    .limit = calls_below },
  { .from = Q_SENSED, .to = HOB_LINK_MODE (CALL), .value = 0,
    .words = N_ ("The temperature that the control reads is %s."),
    /* Translators: "… is 345 °F. It should be 360 °F (stops calling for heat above 360 °F)." */
    .at = N_ ("stops calling for heat above %s"), .limit = stops_above },
  HOB_JOINT_LINKS (Q_JOINT),
};

static double
observe (const HobPartContext *c, int quantity)
{
  gboolean on = works (c);

  switch (quantity)
    {
    case Q_TARGET:
      return stands (c) ? hob_call_shown (c) : NAN;
    case Q_OHMS: return c->mode[AWAKE] > 0 ? sensor_ohms (c) : NAN;
    case Q_SENSED: return c->mode[AWAKE] > 0 ? sensed (c) : NAN;
    case Q_CALL: return on && c->mode[CALL] > 0;
    case Q_BEHIND: return on ? MAX (hob_call_target (c) - sensed (c), 0) : 0;
    case Q_AHEAD: return on ? MAX (sensed (c) - hob_call_target (c), 0) : 0;
    case Q_DISPLAY: return c->mode[DISPLAY];
    case Q_ERROR: return c->mode[ERROR] > 0;
    case Q_DROP: return hob_volts_across (c, MID, BAKE);
    default: return hob_joint_observe (c, &joint, E_BAKE, quantity - Q_JOINT);
    }
}

static double
stored_heat (const HobPartContext *c)
{
  return hob_joint_stored (c, &joint);
}

/* K that it holds now. */
static double
turn (const HobPartContext *c)
{
  return c->mode[POWERED] > 0 && !(c->mode[OUTAGE] > 0) ? hob_call_target (c) : 0;
}

static gboolean
asks (const HobPartContext *c, int terminal)
{
  int mode = stands (c) ? hob_call_mode (c->ctl) : HOB_CALL_OFF;

  return (terminal == BAKE && (mode == HOB_CALL_BAKE || mode == HOB_CALL_CONVECTION))
         || (terminal == BROIL && mode == HOB_CALL_BROIL);
}

/* A row for each relay, at the height of its terminal. */
static const struct
{
  int element;
  double y;
} rows[] = { { E_BAKE, -80 }, { E_BROIL, -40 }, { E_FAN, 0 }, { E_ELEMENT, 40 }, { E_LIGHT, 80 } };

#define RAIL -40.0
#define PIVOT -20.0
#define TIP 16.0
#define DISPLAY_WIDTH 216.0

/* Line relay at the left, its rail down the middle, a row for each relay contact, the display
 * on top, and the sensor's input below. */
static void
draw_paper (HobPen *pen)
{
  pen_rect (pen, -119, -159, 238, 318);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_rect (pen, -DISPLAY_WIDTH / 2, -138, DISPLAY_WIDTH, 38);
  pen_fill_stroke (pen, HOB_ROLE_SHEET, HOB_ROLE_INK, HOB_DETAIL);
  pen_segment (pen, -120, -80, -100, -80);
  pen_segment (pen, -64, -80, PIVOT, -80);
  pen_segment (pen, RAIL, -80, RAIL, 80);
  for (guint k = 0; k < G_N_ELEMENTS (rows); k++)
    {
      pen_segment (pen, RAIL, rows[k].y, PIVOT, rows[k].y);
      pen_segment (pen, TIP, rows[k].y, 120, rows[k].y);
    }
  pen_segment (pen, TIP, 100, 120, 100);
  pen_segment (pen, TIP, 120, 120, 120);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_contact (pen, -100, -64, -80);
  for (guint k = 0; k < G_N_ELEMENTS (rows); k++)
    hob_symbol_contact (pen, PIVOT, TIP, rows[k].y);
  pen_rect (pen, -40, 94, 56, 32);
  pen_fill_stroke (pen, HOB_ROLE_SHEET, HOB_ROLE_INK, HOB_DETAIL);
  pen_text (pen, -12, 115, HOB_TEXT_BODY, HOB_ROLE_INK, HOB_ALIGN_CENTRE, "Ω");
}

/* What the display says, into @text. */
static void
display_text (const HobPartView *view, char *text, gsize size)
{
  static const char *const plain[] = {
    [SHOWS_NOTHING] = "",
    /* Translators: on the display of the oven control. */
    [SHOWS_READY] = N_ ("READY"),
    [SHOWS_DOOR] = N_ ("door open"),
    [SHOWS_OPEN] = N_ ("sensor open"),
    [SHOWS_SHORTED] = N_ ("sensor shorted"),
    [SHOWS_HOT] = N_ ("too hot"),
    [SHOWS_OUTAGE] = N_ ("power lost"),
  };
  int shown = CLAMP ((int)view->mode[DISPLAY], SHOWS_NOTHING, SHOWS_OUTAGE);
  int mode = CLAMP (hob_call_mode (view->ctl), HOB_CALL_OFF, HOB_CALL_CONVECTION);
  int degf = (int)lround (view->ctl[HOB_CALL_DIAL] * 1.8 - 459.67);

  if (shown == SHOWS_NOTHING)
    text[0] = '\0';
  else if (shown != SHOWS_PREHEAT && shown != SHOWS_HEAT)
    g_snprintf (text, size, "%s", _ (plain[shown]));
  else if (mode == HOB_CALL_BROIL)
    g_snprintf (text, size, "%s", _ (mode_positions[mode].words));
  else
    g_snprintf (text, size, "%s %d °F%s%s", _ (mode_positions[mode].words), degf,
                /* Translators: on the display while the oven preheats. */
                shown == SHOWS_PREHEAT ? " " : "", shown == SHOWS_PREHEAT ? _ ("PRE") : "");
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  char text[64];

  if (view->layer == HOB_LAYER_PAPER)
    {
      draw_paper (pen);
      return;
    }
  display_text (view, text, sizeof text);
  pen_text_within (pen, 0, -114, DISPLAY_WIDTH, HOB_TEXT_BODY, HOB_ROLE_INK, text);
  hob_symbol_blade (pen, -100, -64, -80,
                    closed (view->set, view->ctl, view->y, view->mode, E_MAIN));
  for (guint k = 0; k < G_N_ELEMENTS (rows); k++)
    hob_symbol_blade (pen, PIVOT, TIP, rows[k].y,
                      closed (view->set, view->ctl, view->y, view->mode, rows[k].element));
}

const HobKind hob_kind_oven_board = {
  .name = "oven-board",
  .label = N_ ("electronic oven control"),
  .about = N_ ("Reads the oven sensor and operates a relay for each load. If the sensor reads open "
               "or shorted, the control stops heating the oven and shows a fault code."),
  .hazards = HOB_HAZARD (NO_BYPASS),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .guard_reads = guard_reads,
  .symbol = { [HOB_SHEET_WIRING] = { 240, 320 } },
  .figure = Q_TARGET,
  .start = start,
  .turn = turn,
  .conduct = conduct,
  .at_rest = at_rest,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .stored_heat = stored_heat,
  .asks = asks,
  .draw = draw,
};
