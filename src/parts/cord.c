/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Supply cord: blades in the slots of the receptacle, conductors, and screws on the terminal block
 * of the range.  Each conductor is three connections in series, and each of them can go bad and
 * become a heater (joint.h):
 *
 *   slot —[blade]— blade —[conductor]— lug —[screw]— range side
 *
 * Where its line wire is pinched against the chassis it heats up in the same way.  Pulled out, the
 * blades belong to the range. */

#include "base/i18n.h"
#include "parts/joint.h"
#include "parts/symbol.h"

enum
{
  LINE,
  NEUTRAL,
  GROUND,
  PLUG_LINE,
  PLUG_NEUTRAL,
  PLUG_GROUND,
  SLOT_LINE,
  SLOT_NEUTRAL,
  SLOT_GROUND,
  LUG_LINE,
  LUG_NEUTRAL
};
enum { J_LINE_BLADE, J_LINE_CORE, J_LINE_SCREW, J_NEUTRAL_BLADE, J_NEUTRAL_CORE, J_NEUTRAL_SCREW,
       J_LINE_PINCHED, N_JOINTS };
enum { LENGTH, WIDTH, GROUND_OPEN, NEUTRAL_PINCHED, LINE_PINCHED, JOINT_OHMS };
/* the joints' own, in their order, and then … */
enum { E_GROUND_PIN = N_JOINTS, E_GROUND, E_NEUTRAL_PINCHED };
enum { PLUG };
enum { BROWN = HOB_JOINT_N_STATES * N_JOINTS };

static const HobTerminalDef terminals[] = {
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("line, range side"), .required = TRUE, .x = 40, .y = -40,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("neutral, range side"), .required = TRUE, .x = 40,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "ground", .mark = NC_ ("terminal", "ground"),
    .words = N_ ("ground, range side"), .x = 40, .y = 40,
    .conductor = HOB_CONDUCTOR_GROUND },
  { .name = "plug-line", .words = N_ ("line blade"), .required = TRUE, .x = -40, .y = -40,
    .mate = HOB_MATE (SLOT_LINE) },
  { .name = "plug-neutral", .words = N_ ("neutral blade"), .required = TRUE, .x = -40,
    .mate = HOB_MATE (SLOT_NEUTRAL) },
  { .name = "plug-ground", .words = N_ ("round pin"), .x = -40, .y = 40,
    .mate = HOB_MATE (SLOT_GROUND) },
  { .name = "slot-line", .inner = TRUE,
    .words = N_ ("slot for the line blade"), .x = -40, .y = -40 },
  { .name = "slot-neutral", .inner = TRUE,
    .words = N_ ("slot for the neutral blade"), .x = -40 },
  { .name = "slot-ground", .inner = TRUE,
    .words = N_ ("hole for the round pin"), .x = -40, .y = 40 },
  { .name = "lug-line", .inner = TRUE,
    .words = N_ ("line, at the terminal-block end of the cord"), .x = 20, .y = -40 },
  { .name = "lug-neutral", .inner = TRUE,
    .words = N_ ("neutral, at the terminal-block end of the cord"), .x = 20 },
};

#define JOINT_SETTING(id)                                                                          \
  {                                                                                                \
    .name = id "-ohms", .words = "Resistance of this connection when hot.",                        \
    .dim = HOB_DIM_RESISTANCE, .normal = HOB_CONTACT_OHMS, .low = HOB_CONTACT_OHMS,                \
    .high = INFINITY, .condition = TRUE                                                            \
  }

static const HobSettingDef settings[] = {
  { .name = "length", .words = N_ ("Length of the cord."), .dim = HOB_DIM_LENGTH, .normal = 1.9,
    .low = 0.3, .high = 60, .say = HOB_SAY_FEET },
  { .name = "gauge", .words = N_ ("Wire gauge of the cord."), .dim = HOB_DIM_LENGTH,
    .normal = 1.0237e-3, .low = 0.3e-3, .high = 4e-3, .say = HOB_SAY_GAUGE },
  { .name = "ground-open", .words = "1: its ground is open.", .high = 1, .condition = TRUE },
  { .name = "neutral-to-chassis", .words = "Resistance from its neutral to the chassis.",
    .dim = HOB_DIM_RESISTANCE, .normal = INFINITY, .high = INFINITY, .condition = TRUE },
  { .name = "line-to-chassis", .words = "Resistance from its line to the chassis.",
    .dim = HOB_DIM_RESISTANCE, .normal = INFINITY, .high = INFINITY, .condition = TRUE },
  JOINT_SETTING ("line-blade"),
  JOINT_SETTING ("line-core"),
  JOINT_SETTING ("line-screw"),
  JOINT_SETTING ("neutral-blade"),
  JOINT_SETTING ("neutral-core"),
  JOINT_SETTING ("neutral-screw"),
};

static const HobStateDef states[] = {
  HOB_JOINT_STATES, HOB_JOINT_STATES, HOB_JOINT_STATES, HOB_JOINT_STATES,
  HOB_JOINT_STATES, HOB_JOINT_STATES, HOB_JOINT_STATES,
  HOB_JOINT_BROWN_STATE,
};

#define JOINT(k) [k] = { .ohms = JOINT_OHMS + k, .states = HOB_JOINT_N_STATES * k, .brown = BROWN }
#define BLADE(k)                                                                                   \
  [k] = { .ohms = JOINT_OHMS + k, .states = HOB_JOINT_N_STATES * k, .brown = BROWN,                \
          .burned = TRUE }

/* A loose blade burns in its slot for months; strands and a screw are hot from when they fail. */
static const HobJoint joints[N_JOINTS] = {
  BLADE (J_LINE_BLADE),    JOINT (J_LINE_CORE),    JOINT (J_LINE_SCREW),
  BLADE (J_NEUTRAL_BLADE), JOINT (J_NEUTRAL_CORE), JOINT (J_NEUTRAL_SCREW),
  [J_LINE_PINCHED] = { .ohms = LINE_PINCHED, .states = HOB_JOINT_N_STATES * J_LINE_PINCHED,
                       .brown = BROWN, .contact = TRUE, .bare = TRUE },
};

static const HobQuantityDef quantities[] = {
  HOB_JOINT_QUANTITIES,
};
static const HobLinkDef links[] = {
  HOB_JOINT_LINKS (0),
};

/* @where: N_() */
#define JOINT_FAULT(joint, name, text, amount, where)                                              \
  {                                                                                                \
    .id = name, .words = text, .severity_words = amount, .typical = 0.15, .prior = 1,              \
    .basis = "a plug pulled by its cord, a screw never tightened", .proof = where,                 \
    .confirm = HOB_MEANS (VOLTAGE_DROP),                                                           \
    .hazards = HOB_HAZARD (HOT_PLUG) | HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),        \
    HOB_EFFECTS ({ .setting = JOINT_OHMS + joint, .how = HOB_EFFECT_ADD, .at1 = 12 })              \
  }

static const HobFaultDef faults[] = {
  {
    .id = "thin-extension",
    .words = N_ ("extension cord too long or undersized"),
    .severity_words = N_ ("%s of extension cord"),
    .typical = 0.7,
    .prior = 1,
    .proof = N_ ("With the oven on, read the volts at the receptacle, then at the range's terminal "
                 "block. The terminal block reads several volts lower; both should read almost the "
                 "same."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = LENGTH, .how = HOB_EFFECT_ADD, .at1 = 30 }),
  },
  {
    .id = "ground-open",
    .words = N_ ("ground pin or ground wire open"),
    .prior = 2,
    .basis = "pins are cut off",
    .proof = N_ ("Unplug the range. Read ohms from the plug's round pin to the chassis. The meter "
                 "reads OL; it should read almost 0 Ω."),
    .confirm = HOB_MEANS (OHMS),
    .hazards = HOB_HAZARD (GAS_JOINT) | HOB_HAZARD_IF_GROUND_OPEN,
    .needs = HOB_NEEDS (PLUG_GROUND),
    HOB_EFFECTS ({ .setting = GROUND_OPEN, .at1 = 1 }),
  },
  {
    .id = "neutral-pinched",
    .words = N_ ("neutral wire pinched against the chassis"),
    .severity_words = N_ ("%s of resistance from neutral to the chassis"),
    .prior = 1,
    .basis = "after a repair",
    .proof = N_ ("Unplug the range. Read ohms from the plug's neutral blade to the chassis. The "
                 "meter shows a resistance. Find the pinched wire and move it off the metal. Now "
                 "the meter reads OL, as it should."),
    .confirm = HOB_MEANS (OHMS),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    .needs = HOB_NEEDS (GROUND),
    HOB_EFFECTS ({ .setting = NEUTRAL_PINCHED, .at0 = 20, .at1 = 0.05, .geometric = TRUE }),
  },
  {
    .id = "line-pinched",
    .words = N_ ("line wire pinched against the chassis"),
    .severity_words = N_ ("%s of resistance from line to the chassis"),
    .prior = 1,
    .basis = "after a repair, or where the cord passes a sharp edge",
    .proof = N_ ("Unplug the range. Read ohms from the plug's line blade to the chassis. The meter "
                 "shows a resistance. Find the pinched wire and move it off the metal. Now the "
                 "meter reads OL, as it should."),
    .confirm = HOB_MEANS (OHMS),
    .hazards = HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),
    .needs = HOB_NEEDS (GROUND),
    HOB_EFFECTS ({ .setting = LINE_PINCHED, .at0 = 20, .at1 = 0.05, .geometric = TRUE }),
  },
  JOINT_FAULT (J_LINE_BLADE, "line-blade-burned", N_ ("line blade of the plug loose and burned"),
               N_ ("%s of resistance between blade and slot"),
               N_ ("With the breaker off, clip one meter lead to the cord's line wire at the "
                   "terminal block. Put the other probe in the narrow (hot) slot of the "
                   "receptacle's unused outlet. Turn the breaker on and read the voltage drop "
                   "under load. More than 1 V at 3 A is bad. Turn the breaker off, let the plug "
                   "cool, and pull it. The blade that fits that slot is burned, or was loose in "
                   "it.")),
  JOINT_FAULT (J_NEUTRAL_BLADE, "neutral-blade-burned",
               N_ ("neutral blade of the plug loose and burned"),
               N_ ("%s of resistance between blade and slot"),
               N_ ("With the breaker off, clip one meter lead to the cord's neutral wire at the "
                   "terminal block. Put the other probe in the wide (neutral) slot of the "
                   "receptacle's unused outlet. Turn the breaker on and read the voltage drop "
                   "under load. More than 1 V at 3 A is bad. Turn the breaker off, let the plug "
                   "cool, and pull it. The blade that fits that slot is burned, or was loose in "
                   "it.")),
  JOINT_FAULT (J_LINE_CORE, "line-strands-broken",
               N_ ("strands of the line wire broken inside the cord"),
               N_ ("%s of resistance inside the cord"),
               N_ ("With the breaker off, clip one meter lead to the cord's line wire at the "
                   "terminal block. Put the other probe in the narrow (hot) slot of the "
                   "receptacle's unused outlet. Turn the breaker on and read the voltage drop "
                   "under load. More than 1 V at 3 A is bad. Turn the breaker off, let the plug "
                   "cool, and pull it. The blade that fits that slot is clean and was tight in it, "
                   "so the cord is bad.")),
  JOINT_FAULT (J_NEUTRAL_CORE, "neutral-strands-broken",
               N_ ("strands of the neutral wire broken inside the cord"),
               N_ ("%s of resistance inside the cord"),
               N_ ("With the breaker off, clip one meter lead to the cord's neutral wire at the "
                   "terminal block. Put the other probe in the wide (neutral) slot of the "
                   "receptacle's unused outlet. Turn the breaker on and read the voltage drop "
                   "under load. More than 1 V at 3 A is bad. Turn the breaker off, let the plug "
                   "cool, and pull it. The blade that fits that slot is clean and was tight in it, "
                   "so the cord is bad.")),
  JOINT_FAULT (J_LINE_SCREW, "line-screw-loose", N_ ("line screw loose at the terminal block"),
               N_ ("%s of resistance at the screw terminal"),
               N_ ("Under load, read the voltage drop from the cord's line wire to its screw on "
                   "the terminal block. More than 1 V at 3 A is bad.")),
  JOINT_FAULT (J_NEUTRAL_SCREW, "neutral-screw-loose",
               N_ ("neutral screw loose at the terminal block"),
               N_ ("%s of resistance at the screw terminal"),
               N_ ("Under load, read the voltage drop from the cord's neutral wire to its screw on "
                   "the terminal block. More than 1 V at 3 A is bad.")),
};
static const HobPosition positions[] = {
  /* Translators: the plug of the range. */
  { .name = "out", .words = N_ ("OUT"), .value = 0 },
  /* Translators: the plug is in its receptacle. */
  { .name = "in", .words = N_ ("IN"), .value = 1 },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "plug", .words = N_ ("Plug"), .dim = HOB_DIM_CHOICE, .positions = positions, .high = 1,
    .start = 1, .exercise = HOB_EXERCISE_UNPLUG, .role = HOB_CONTROL_PLUG },
};
static const HobElementDef elements[] = {
  [J_LINE_BLADE] = { .name = "line blade", .a = SLOT_LINE, .b = PLUG_LINE },
  [J_LINE_CORE] = { .name = "line", .a = PLUG_LINE, .b = LUG_LINE },
  [J_LINE_SCREW] = { .name = "line screw", .a = LUG_LINE, .b = LINE },
  [J_NEUTRAL_BLADE] = { .name = "neutral blade", .a = PLUG_NEUTRAL, .b = SLOT_NEUTRAL },
  [J_NEUTRAL_CORE] = { .name = "neutral", .a = LUG_NEUTRAL, .b = PLUG_NEUTRAL },
  [J_NEUTRAL_SCREW] = { .name = "neutral screw", .a = NEUTRAL, .b = LUG_NEUTRAL },
  [J_LINE_PINCHED] = { .name = "line pinched", .a = LINE, .b = GROUND },
  [E_GROUND_PIN] = { .name = "ground pin", .a = PLUG_GROUND, .b = SLOT_GROUND },
  [E_GROUND] = { .name = "ground", .a = GROUND, .b = PLUG_GROUND },
  [E_NEUTRAL_PINCHED] = { .name = "neutral pinched", .a = NEUTRAL, .b = GROUND },
};

static void
start (const HobPartContext *c, double *y)
{
  for (int k = 0; k < N_JOINTS; k++)
    hob_joint_start (c, &joints[k], y);
}

static gboolean
is_blade (int joint)
{
  return joint == J_LINE_BLADE || joint == J_NEUTRAL_BLADE;
}

static void
conduct (const HobPartContext *c)
{
  double core = hob_wire_resistance (c->set[WIDTH], c->set[LENGTH], c->house->temperature);

  for (int k = 0; k < N_JOINTS; k++)
    {
      gboolean is_core = k == J_LINE_CORE || k == J_NEUTRAL_CORE;

      if (c->ctl[PLUG] > 0 || !is_blade (k))
        c->g[k] = hob_siemens (hob_joint_ohms (c, &joints[k]) + (is_core ? core : 0));
    }
  if (c->ctl[PLUG] > 0)
    c->g[E_GROUND_PIN] = hob_siemens (HOB_CONTACT_OHMS);
  if (!(c->set[GROUND_OPEN] > 0))
    c->g[E_GROUND] = hob_siemens (HOB_CONTACT_OHMS + core);
  c->g[E_NEUTRAL_PINCHED] = hob_siemens (c->set[NEUTRAL_PINCHED]);
}

static void
rates (const HobPartContext *c)
{
  for (int k = 0; k < N_JOINTS; k++)
    hob_joint_rates (c, &joints[k], k, c->house->temperature);
}

/* Heat of all connections together; else what the worst of them shows. */
static double
observe (const HobPartContext *c, int quantity)
{
  double most = 0, sum = 0;

  for (int k = 0; k < N_JOINTS; k++)
    {
      double value = hob_joint_observe (c, &joints[k], k, quantity);

      most = MAX (most, value);
      sum += value;
    }
  return quantity == HOB_JOINT_POWER ? sum : most;
}

static double
stored_heat (const HobPartContext *c)
{
  double sum = 0;

  for (int k = 0; k < N_JOINTS; k++)
    sum += hob_joint_stored (c, &joints[k]);
  return sum;
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      double tip = view->ctl[PLUG] > 0 ? -40 : -26; /* pulled out, the blades end in the open */

      for (int y = -40; y <= 40; y += 40)
        pen_rect (pen, tip, y - 3, -12 - tip, 6);
      pen_fill (pen, HOB_ROLE_INK);
      return;
    }
  pen_rect (pen, -12, -56, 28, 112);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  for (int y = -40; y <= 40; y += 40)
    pen_segment (pen, 16, y, 40, y);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_cord = {
  .name = "cord",
  .label = N_ ("power cord"),
  .about = N_ ("Three conductors and a plug. Unplugging the range cuts off its power."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 120 } },
  .figure = -1,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .stored_heat = stored_heat,
  .draw = draw,
};
