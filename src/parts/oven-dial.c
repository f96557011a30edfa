/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven thermostat with a dial: a contact that the liquid of the bulb works, then a selector
 * contact for each burner.  The thermostat only knows its dial and its bulb.  So with the
 * selector at OFF its contact is closed in a cold oven, and the selector is what turns the oven
 * off.  In broil a cam holds the thermostat at the top of the dial.  As the bulb reads, the
 * contact opens 5 °F above the dial and closes 5 °F below.  A fail-safe bellows opens the
 * contact when the bulb has lost its liquid and reads colder than any kitchen. */

#include "base/i18n.h"
#include "parts/call.h"
#include "parts/joint.h"
#include "parts/symbol.h"

enum { LINE, NEUTRAL, GROUND, BAKE, BROIL, MID };
enum { DIFFERENTIAL, OFFSET, CONTACT_OHMS, FAIL_SAFE, WELDED, DEAD, SELECTOR_WELDED,
       SELECTOR_OPEN };
enum { CONTACT };
enum { JOINT, BROWN = JOINT + HOB_JOINT_N_STATES };
enum { E_THERMOSTAT, E_BAKE, E_BROIL };
enum { Q_CONTACT, Q_TARGET, Q_BEHIND, Q_AHEAD, Q_DROP, Q_JOINT };

#define NO_FLUID 200.0 /* K, below which a bulb must have lost its liquid */

static const HobTerminalDef terminals[] = {
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("line"), .required = TRUE, .x = -80,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    /* Translators: a terminal: the neutral wire only passes through the control. */
    .words = N_ ("neutral, pass-through"), .x = 40, .y = -80,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "ground", .mark = NC_ ("terminal", "ground"),
    .words = N_ ("case ground"), .y = 80,
    .conductor = HOB_CONDUCTOR_GROUND },
  { .name = "bake", .mark = NC_ ("terminal", "bake"),
    .words = N_ ("to the bake igniter"), .required = TRUE, .x = 80, .y = -40 },
  { .name = "broil", .mark = NC_ ("terminal", "broil"),
    .words = N_ ("to the broil igniter"), .x = 80, .y = 40 },
  { .name = "mid", .inner = TRUE, .words = N_ ("between the thermostat and the selector, inside "
                                               "the control") },
};

static const char *const no_yes[] = { "no", "yes", NULL };

static const HobSettingDef settings[] = {
  { .name = "differential",
    .words = N_ ("How far above the set temperature the thermostat contact opens, and how far "
                 "below it the contact closes."),
    .dim = HOB_DIM_DIFFERENCE, .normal = 5 / 1.8, .low = 0.2, .high = 30 },
  { .name = "offset",
    .words = N_ ("How far above its dial setting the thermostat runs; a negative value means below "
                 "the setting."), .dim = HOB_DIM_DIFFERENCE,
    .low = -80, .high = 80 },
  { .name = "contact-ohms",
    .words = N_ ("Resistance of the thermostat contact when the contact is closed and hot."),
    .dim = HOB_DIM_RESISTANCE, .normal = HOB_CONTACT_OHMS, .low = 1e-4, .high = 1e4 },
  { .name = "fail-safe",
    .words = N_ ("Whether the thermostat contact opens when the sensing bulb loses its charge."),
    .dim = HOB_DIM_CHOICE, .high = 1, .choices = no_yes },
  { .name = "welded", .words = "1: the thermostat contact is welded shut.", .high = 1,
    .condition = TRUE },
  { .name = "dead", .words = "1: the thermostat contact makes no more.", .high = 1,
    .condition = TRUE },
  { .name = "selector-welded", .words = "1: the selector's bake contact is welded shut.",
    .high = 1, .condition = TRUE },
  { .name = "selector-open", .words = "1: the selector's bake contact makes no more.",
    .high = 1, .condition = TRUE },
};

static const HobStateDef states[] = {
  HOB_JOINT_STATES,
  HOB_JOINT_BROWN_STATE,
};

static const HobJoint joint
    = { .ohms = CONTACT_OHMS, .states = JOINT, .brown = BROWN, .contact = TRUE, .burned = TRUE };

static const char *const contact_words[]
    = { N_ ("thermostat contact opens"), N_ ("thermostat contact closes"), NULL };

static const HobModeDef modes[] = {
  { .name = "contact", .words = contact_words, .regulates = TRUE },
};

static const HobPosition mode_positions[] = {
  { .name = "off", .words = N_ ("OFF"), .value = HOB_CALL_OFF, .role = HOB_POSITION_OFF },
  { .name = "bake", .words = N_ ("BAKE"), .value = HOB_CALL_BAKE, .role = HOB_POSITION_HOLD },
  { .name = "broil", .words = N_ ("BROIL"), .value = HOB_CALL_BROIL, .role = HOB_POSITION_BROIL },
  { NULL },
};

static const HobControlDef controls[] = {
  { .name = "mode", .words = N_ ("selector"), .dim = HOB_DIM_CHOICE, .positions = mode_positions,
    .low = HOB_CALL_OFF, .high = HOB_CALL_BROIL, .start = HOB_CALL_OFF,
    .exercise = HOB_EXERCISE_CALL, .role = HOB_CONTROL_SELECTOR, .front = HOB_FRONT_OVEN },
  HOB_CALL_DIAL_CONTROL (N_ ("temperature dial"), HOB_CONTROL_DIAL),
};

static const HobElementDef elements[] = {
  { .name = "thermostat", .a = LINE, .b = MID },
  { .name = "bake", .a = MID, .b = BAKE },
  { .name = "broil", .a = MID, .b = BROIL },
};

static const HobQuantityDef quantities[] = {
  { .name = "contact", .words = N_ ("thermostat contact closed"), .values = hob_no_yes },
  { .name = "target", .words = N_ ("set temperature"),
    .dim = HOB_DIM_TEMPERATURE, .sense = HOB_SENSE_EYE,
    .remark = N_ ("blank with the oven off") },
  { .name = "behind",
    .words = N_ ("how far the sensing bulb is below the set temperature"),
    .dim = HOB_DIM_DIFFERENCE,
    .remark = N_ ("0 with the oven off") },
  { .name = "ahead",
    .words = N_ ("how far the sensing bulb is above the set temperature"),
    .dim = HOB_DIM_DIFFERENCE,
    .remark = N_ ("0 with the oven off") },
  { .name = "drop", .words = N_ ("voltage across the thermostat contact"), .dim = HOB_DIM_VOLTAGE,
    .says = N_ ("The voltage across the thermostat contact is %s.") },
  HOB_JOINT_QUANTITIES,
};

static const HobFaultDef faults[] = {
  {
    .id = "contact-welded",
    .words = N_ ("thermostat contact welded closed"),
    .prior = 4,
    .proof = N_ ("Read the volts across the thermostat contact with the oven above its set "
                 "temperature and the igniter still glowing. The meter reads 0 V, so the contact "
                 "is closed; it should be open."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = WELDED, .at1 = 1 }),
  },
  {
    .id = "contact-open",
    .words = N_ ("thermostat contact won't close"),
    .prior = 3,
    .proof = N_ ("Set the cold oven to bake and read the volts across the thermostat contact. "
                 "There is line voltage, so the contact is open."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = DEAD, .at1 = 1 }),
  },
  {
    .id = "contact-burned",
    .words = N_ ("thermostat contact burned"),
    .severity_words = N_ ("%s of resistance across the contact when hot"),
    .typical = 0.5,
    .prior = 4,
    .proof = N_ ("Under load, read the voltage drop across the thermostat contact. More than 1 V "
                 "at 3 A is bad. A resistance reading can miss a burned contact."),
    .confirm = HOB_MEANS (VOLTAGE_DROP),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = CONTACT_OHMS, .how = HOB_EFFECT_ADD, .at1 = 19 }),
  },
  {
    .id = "selector-welded",
    .words = N_ ("selector bake contact welded closed"),
    .prior = 1,
    .proof = N_ ("Read the volts from the selector's bake terminal to neutral, with the selector "
                 "off and the oven cold. There is line voltage; there should be none."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = SELECTOR_WELDED, .at1 = 1 }),
  },
  {
    .id = "selector-open",
    .words = N_ ("selector bake contact won't close"),
    .prior = 2,
    .proof = N_ ("Set the oven to bake and read the volts across the selector's bake contact. "
                 "There is line voltage, so the contact is open. Broil works."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = SELECTOR_OPEN, .at1 = 1 }),
  },
  {
    .id = "calibration-high",
    .words = N_ ("thermostat out of calibration, oven runs hot"),
    .severity_words = N_ ("%s too hot"),
    .typical = 0.6,
    .prior = 3,
    .proof = N_ ("Put a thermometer in the center of the oven for three cycles. The average of the "
                 "highs and lows should be close to the set temperature, but it's well above."),
    .confirm = HOB_MEANS (THERMOMETER),
    HOB_EFFECTS ({ .setting = OFFSET, .how = HOB_EFFECT_ADD, .at1 = 50 }),
  },
  {
    .id = "calibration-low",
    .words = N_ ("thermostat out of calibration, oven runs cool"),
    .severity_words = N_ ("%s too cool"),
    .typical = 0.6,
    .prior = 3,
    .proof = N_ ("Put a thermometer in the center of the oven for three cycles. The average of the "
                 "highs and lows should be close to the set temperature, but it's well below."),
    .confirm = HOB_MEANS (THERMOMETER),
    HOB_EFFECTS ({ .setting = OFFSET, .how = HOB_EFFECT_ADD, .at1 = -50 }),
  },
};

/* K by which the bulb reads below the temperature that is held. */
static double
too_cold (const HobPartContext *c)
{
  if (c->set[FAIL_SAFE] > 0 && c->moved < NO_FLUID)
    return -NO_FLUID;
  return hob_call_held (c) + c->set[OFFSET] - c->moved;
}

static gboolean
welded (const double *set, const double *y)
{
  return set[WELDED] > 0 || hob_joint_welded (y, &joint);
}

static gboolean
closed (const double *set, const double *y, const double *mode)
{
  return welded (set, y) || (mode[CONTACT] > 0 && !(set[DEAD] > 0));
}

static gboolean
bake_closed (const double *set, const double *ctl)
{
  gboolean bake = hob_call_mode (ctl) == HOB_CALL_BAKE;

  return set[SELECTOR_WELDED] > 0 || (bake && !(set[SELECTOR_OPEN] > 0));
}

/* A control at the kitchen's temperature: its contact is closed from the start. */
static void
start (const HobPartContext *c, double *y)
{
  hob_joint_start (c, &joint, y);
  double closes = hob_call_held (c) + c->set[OFFSET] - c->set[DIFFERENTIAL];

  c->mode[CONTACT] = c->house->temperature < closes;
}

static void
conduct (const HobPartContext *c)
{
  if (closed (c->set, c->y, c->mode))
    c->g[E_THERMOSTAT] = hob_siemens (hob_joint_ohms (c, &joint));
  if (bake_closed (c->set, c->ctl))
    c->g[E_BAKE] = hob_siemens (HOB_CONTACT_OHMS);
  if (hob_call_mode (c->ctl) == HOB_CALL_BROIL)
    c->g[E_BROIL] = hob_siemens (HOB_CONTACT_OHMS);
}

static void
rates (const HobPartContext *c)
{
  hob_joint_rates (c, &joint, E_THERMOSTAT, c->within[HOB_PLACE_AIR]);
}

static double
guard (const HobPartContext *c, int k)
{
  if (welded (c->set, c->y))
    return c->mode[CONTACT] > 0 ? -1 : 1; /* it closes, and never opens */
  return hob_call_guard (c->mode[CONTACT] > 0, too_cold (c), c->set[DIFFERENTIAL]);
}

static const guint8 guard_reads[] = { HOB_READS_NOTHING };

static void
flip (const HobPartContext *c, int k, double *y)
{
  hob_mode_toggle (c, CONTACT);
}

static double
differential (const HobPartContext *c)
{
  return c->set[DIFFERENTIAL];
}

static const HobLinkDef links[] = {
  { .from = Q_AHEAD, .to = HOB_LINK_MODE (CONTACT), .value = 0,
    .words = N_ ("The sensing bulb is %s above the set temperature."),
    /* Translators: "… Normal is 10 °F (the contact opens 9 °F above the set temperature)." */
    .at = N_ ("the contact opens %s above the set temperature"), .limit = differential },
  { .from = Q_BEHIND, .to = HOB_LINK_MODE (CONTACT), .value = 1,
    .words = N_ ("The sensing bulb is %s below the set temperature."),
    /* Translators: "… Normal is 10 °F (the contact closes 9 °F below the set temperature)." */
    .at = N_ ("the contact closes %s below the set temperature"), .limit = differential },
  HOB_JOINT_LINKS (Q_JOINT),
};

static double
observe (const HobPartContext *c, int quantity)
{
  gboolean on = hob_call_target (c) > 0;

  switch (quantity)
    {
    case Q_CONTACT: return closed (c->set, c->y, c->mode);
    case Q_TARGET: return hob_call_shown (c);
    case Q_BEHIND: return on ? MAX (hob_call_target (c) - c->moved, 0) : 0;
    case Q_AHEAD: return on ? MAX (c->moved - hob_call_target (c), 0) : 0;
    case Q_DROP: return hob_volts_across (c, LINE, MID);
    default: return hob_joint_observe (c, &joint, E_THERMOSTAT, quantity - Q_JOINT);
    }
}

static double
stored_heat (const HobPartContext *c)
{
  return hob_joint_stored (c, &joint);
}

static gboolean
asks (const HobPartContext *c, int terminal)
{
  int mode = hob_call_mode (c->ctl);

  return (terminal == BAKE && mode == HOB_CALL_BAKE)
         || (terminal == BROIL && mode == HOB_CALL_BROIL);
}

/* The selector's blade from the middle to the contact of its mode; off points down. */
static void
draw_selector (HobPen *pen, int mode)
{
  static const double end[][2] = { { 22, 34 }, { 45, -38 }, { 45, 38 } };

  pen_segment (pen, 0, 0, end[mode][0], end[mode][1]);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

/* Thermostat contact on the left with the bulb's capillary tube below it, selector on the right. */
static void
draw_paper (HobPen *pen)
{
  pen_rect (pen, -79, -79, 158, 158);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_segment (pen, -80, 0, -58, 0);
  pen_segment (pen, -18, 0, 0, 0);
  pen_segment (pen, 48, -40, 80, -40);
  pen_segment (pen, 48, 40, 80, 40);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_contact (pen, -58, -18, 0);
  pen_circle (pen, 0, 0, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, 48, -40, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, 48, 40, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_segment (pen, -38, 4, -38, 48);
  pen_dash (pen, 5, 3);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, -38, 56, 8);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      draw_paper (pen);
      return;
    }
  hob_symbol_blade (pen, -58, -18, 0, closed (view->set, view->y, view->mode));
  if (view->set[SELECTOR_WELDED] > 0)
    draw_selector (pen, HOB_CALL_BAKE);
  draw_selector (pen, CLAMP (hob_call_mode (view->ctl), HOB_CALL_OFF, HOB_CALL_BROIL));
}

const HobKind hob_kind_oven_dial = {
  .name = "oven-dial",
  .label = N_ ("selector switch and oven thermostat"),
  .about = N_ ("A selector switch and a thermostat in series. The thermostat contact opens above "
               "the set temperature and closes below it. The set temperature is the middle of the "
               "swing. At BROIL, the thermostat holds 550 °F, no matter where the dial is set."),
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
  .n_guards = 1,
  .symbol = { [HOB_SHEET_WIRING] = { 160, 160 } },
  .figure = Q_TARGET,
  .start = start,
  .turn = hob_call_target,
  .conduct = conduct,
  .rates = rates,
  .guard = guard,
  .guard_reads = guard_reads,
  .flip = flip,
  .observe = observe,
  .stored_heat = stored_heat,
  .asks = asks,
  .draw = draw,
};
