/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Wall receptacle with its branch circuit: the voltage without load, and the drop in the wires
 * from the panel, of which hot and neutral have half each; the ground wire is as thick as they
 * are.  So a load raises neutral above ground by half of what it takes from the volts.  The
 * connection of its neutral can go bad; then it is a heater (joint.h). */

#include "base/i18n.h"
#include "parts/joint.h"
#include "parts/symbol.h"

#include <math.h>

enum { LINE, NEUTRAL, GROUND, FEED, RETURN, EARTH };
enum { VOLTS, SOURCE_OHMS, NEUTRAL_OHMS, REVERSED, GROUND_OPEN, BONDED, DEAD };
enum { JOINT, BROWN = JOINT + HOB_JOINT_N_STATES };
enum { E_LINE, E_NEUTRAL, E_GROUND, E_CROSS_LINE, E_CROSS_NEUTRAL, E_BOND };
enum { Q_CURRENT, Q_VOLTS, Q_JOINT };

#define NOMINAL 120.0 /* V at the panel */

static const HobTerminalDef terminals[] = {
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("narrow slot, hot"), .required = TRUE, .x = 40, .y = -40,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("wide slot, neutral"), .required = TRUE, .x = 40,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "ground", .mark = NC_ ("terminal", "ground"),
    .words = N_ ("round hole, ground"), .x = 40, .y = 40,
    .conductor = HOB_CONDUCTOR_GROUND },
  { .name = "feed", .words = N_ ("hot from the breaker"), .required = TRUE, .x = -40, .y = -40 },
  { .name = "return", .words = N_ ("neutral to the panel"), .required = TRUE, .x = -40 },
  { .name = "earth", .mark = NC_ ("terminal", "gnd"),
    .words = N_ ("ground to the panel"), .x = -40, .y = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "volts", .words = N_ ("Voltage at the receptacle with no load."),
    .dim = HOB_DIM_VOLTAGE,
    .normal = 120, .low = 60, .high = 140, .of = HOB_SETTING_NOMINAL },
  { .name = "source-ohms", .words = N_ ("Resistance of the circuit wiring, out and back."),
    .dim = HOB_DIM_RESISTANCE, .normal = 0.25, .low = 0.01, .high = 20, .of = HOB_SETTING_HOUSE },
  { .name = "neutral-ohms", .words = "Resistance of the neutral's joint.",
    .dim = HOB_DIM_RESISTANCE, .normal = HOB_CONTACT_OHMS, .low = HOB_CONTACT_OHMS,
    .high = INFINITY, .condition = TRUE },
  { .name = "reversed", .words = "1: line and neutral are exchanged.", .high = 1,
    .condition = TRUE },
  { .name = "ground-open", .words = "1: the ground is not connected.", .high = 1,
    .condition = TRUE },
  { .name = "bonded", .words = "1: a jumper joins ground and the long slot.", .high = 1,
    .condition = TRUE },
  { .name = "dead", .words = "1: its feed is broken.", .high = 1, .condition = TRUE },
};

static const HobStateDef states[] = {
  HOB_JOINT_STATES,
  HOB_JOINT_BROWN_STATE,
};

static const HobJoint joint = { .ohms = NEUTRAL_OHMS, .states = JOINT, .brown = BROWN };

static const HobFaultDef faults[] = {
  {
    .id = "dead",
    .words = N_ ("receptacle dead"),
    .prior = 3,
    .basis = "a joint upstream, or another device's trip",
    .proof = N_ ("Unplug the range. Read the volts from hot to neutral at the receptacle. The "
                 "meter reads 0 V; it should read about 120 V. The rest of the circuit works."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = DEAD, .at1 = 1 }),
  },
  {
    .id = "low-volts",
    .words = N_ ("low line voltage"),
    .severity_words = N_ ("line voltage %s below normal"),
    .typical = 0.8, /* 100 V, below the 102 V that ranges are approved for */
    .prior = 2,
    .proof = N_ ("Unplug the range. Read the volts from hot to neutral at the receptacle. The "
                 "reading is well below 120 V."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = VOLTS, .how = HOB_EFFECT_ADD, .at1 = -25 }),
  },
  {
    .id = "weak-branch",
    .words = N_ ("circuit wiring too long or undersized"),
    .severity_words = N_ ("%s of extra resistance in the circuit wiring"),
    .typical = 0.6,
    .prior = 2,
    .proof = N_ ("Read the volts from hot to neutral at the receptacle with no load. Read again "
                 "with the oven and everything else on the circuit turned on. The second reading "
                 "is much lower; it should be almost the same."),
    .confirm = HOB_MEANS (RECEPTACLE) | HOB_MEANS (VOLTAGE_DROP),
    HOB_EFFECTS ({ .setting = SOURCE_OHMS, .how = HOB_EFFECT_ADD, .at1 = 1.5 }),
  },
  {
    .id = "reversed",
    .words = N_ ("hot and neutral reversed"),
    .prior = 2,
    .basis = "one receptacle in some dozens",
    .proof = N_ ("Test the receptacle with the range unplugged. From the wide slot to ground, the "
                 "meter reads line voltage; from the narrow slot to ground, 0 V."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (DEAD_FIRST),
    HOB_EFFECTS ({ .setting = REVERSED, .at1 = 1 }),
  },
  {
    .id = "ground-open",
    .words = N_ ("open ground"),
    .prior = 3,
    .basis = "houses wired with two conductors",
    .proof = N_ ("Test the receptacle with the range unplugged. Hot to ground reads only ghost "
                 "voltage."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (GAS_JOINT) | HOB_HAZARD_IF_GROUND_OPEN,
    .needs = HOB_NEEDS (GROUND),
    HOB_EFFECTS ({ .setting = GROUND_OPEN, .at1 = 1 }),
  },
  {
    .id = "bootleg-ground",
    .words = N_ ("bootleg ground: ground jumpered to neutral, no ground wire"),
    .prior = 1,
    .basis = "done to please a tester",
    .proof = N_ ("Test the receptacle with the range unplugged. It tests normal. Turn off the "
                 "breaker, check that the receptacle is dead, and pull it. A jumper joins ground "
                 "to neutral, and there is no ground wire."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),
    .needs = HOB_NEEDS (GROUND),
    HOB_EFFECTS ({ .setting = BONDED, .at1 = 1 }, { .setting = GROUND_OPEN, .at1 = 1 }),
  },
  {
    .id = "neutral-resistance",
    .words = N_ ("high-resistance neutral connection"),
    .severity_words = N_ ("%s of resistance in the neutral connection"),
    .typical = 0.15,
    .prior = 1,
    .basis = "a back-stabbed or loose screw joint",
    .proof = N_ ("Under load, read the volts from neutral to ground at the receptacle. More than 1 "
                 "V at 3 A is bad. With no load, the meter reads 0 V."),
    .confirm = HOB_MEANS (VOLTAGE_DROP),
    .hazards = HOB_HAZARD (HOT_PLUG) | HOB_HAZARD (STOP_USING) | HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = NEUTRAL_OHMS, .how = HOB_EFFECT_ADD, .at1 = 12 }),
  },
};
static const HobElementDef elements[] = {
  { .name = "line", .a = FEED, .b = LINE },
  { .name = "neutral", .a = NEUTRAL, .b = RETURN },
  { .name = "ground", .a = GROUND, .b = EARTH },
  { .name = "line exchanged", .a = FEED, .b = NEUTRAL },
  { .name = "neutral exchanged", .a = LINE, .b = RETURN },
  { .name = "false ground", .a = GROUND, .b = NEUTRAL },
};
static const HobQuantityDef quantities[] = {
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT, .trace = 4,
    .says = N_ ("The current through the receptacle is %s.") },
  { .name = "volts", .words = N_ ("voltage, line to neutral"), .dim = HOB_DIM_VOLTAGE,
    .says = N_ ("The voltage from line to neutral is %s.") },
  HOB_JOINT_QUANTITIES,
};
static const HobLinkDef links[] = {
  HOB_JOINT_LINKS (Q_JOINT),
};

static int
neutral_element (const HobPartContext *c)
{
  return c->set[REVERSED] > 0 ? E_CROSS_NEUTRAL : E_NEUTRAL;
}

static void
start (const HobPartContext *c, double *y)
{
  hob_joint_start (c, &joint, y);
}

static void
conduct (const HobPartContext *c)
{
  gboolean reversed = c->set[REVERSED] > 0;
  int line = reversed ? E_CROSS_LINE : E_LINE;

  double wire = c->set[SOURCE_OHMS] / 2;

  if (!(c->set[DEAD] > 0))
    c->g[line] = hob_siemens (wire);
  c->emf[line].re = c->set[VOLTS] - NOMINAL;
  c->g[neutral_element (c)] = hob_siemens (wire + hob_joint_ohms (c, &joint));
  if (c->set[BONDED] > 0)
    c->g[E_BOND] = hob_siemens (HOB_CONTACT_OHMS);
  if (!(c->set[GROUND_OPEN] > 0))
    c->g[E_GROUND] = hob_siemens (wire);
}

static void
rates (const HobPartContext *c)
{
  hob_joint_rates (c, &joint, neutral_element (c), c->house->temperature);
}

static double
observe (const HobPartContext *c, int quantity)
{
  if (quantity >= Q_JOINT)
    return hob_joint_observe (c, &joint, neutral_element (c), quantity - Q_JOINT);
  if (quantity == Q_VOLTS)
    return hob_volts_across (c, LINE, NEUTRAL);
  return hob_complex_abs (c->i[c->set[REVERSED] > 0 ? E_CROSS_LINE : E_LINE]);
}

static double
stored_heat (const HobPartContext *c)
{
  return hob_joint_stored (c, &joint);
}

/* One contact that a pin enters. */
static void
socket (HobPen *pen, double y)
{
  pen_segment (pen, -40, y, -8, y);
  pen_segment (pen, 4, y, 40, y);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  pen_move (pen, 0, y - 8);
  pen_arc (pen, 0, y, 8, -G_PI_2, -3 * G_PI_2);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_rect (pen, -24, -60, 48, 120);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  for (int y = -40; y <= 40; y += 40)
    socket (pen, y);
  hob_symbol_earth (pen, 12, 46);
}

const HobKind hob_kind_receptacle = {
  .name = "receptacle",
  .label = N_ ("receptacle"),
  .means = HOB_MEANS (RECEPTACLE),
  .about
  = N_ ("Where the range plugs in. Its voltage drops under load because the circuit has "
        "resistance."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 120 } },
  .figure = Q_CURRENT,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .stored_heat = stored_heat,
  .draw = draw,
};
