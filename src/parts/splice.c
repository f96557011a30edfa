/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A splice in a lead: two ends under one crimp or ceramic wire connector.  A good one has no
 * resistance to speak of; a burned one is a heater in series with its load (joint.h). */

#include "base/i18n.h"
#include "parts/joint.h"
#include "parts/symbol.h"

enum { A, B };
enum { OHMS };
enum { JOINT, BROWN = JOINT + HOB_JOINT_N_STATES };
enum { Q_OHMS, Q_VOLTS, Q_CURRENT, Q_JOINT };

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("load side"), .required = TRUE, .x = 40 },
};

static const HobSettingDef settings[] = {
  { .name = "ohms", .words = N_ ("Resistance of the splice when hot; it's lower when cold."),
    .dim = HOB_DIM_RESISTANCE, .normal = HOB_CONTACT_OHMS, .low = HOB_CONTACT_OHMS, .high = 1e6 },
};

static const HobStateDef states[] = {
  HOB_JOINT_STATES,
  HOB_JOINT_BROWN_STATE,
};

static const HobJoint joint = { .ohms = OHMS, .states = JOINT, .brown = BROWN, .burned = TRUE };
static const HobElementDef elements[] = {
  { .name = "splice", .a = A, .b = B },
};

static const HobQuantityDef quantities[] = {
  { .name = "ohms", .words = N_ ("resistance of the splice now"), .dim = HOB_DIM_RESISTANCE,
    .says = N_ ("The resistance of the splice is %s.") },
  { .name = "volts", .words = N_ ("voltage across the splice"), .dim = HOB_DIM_VOLTAGE,
    .says = N_ ("The voltage across the splice is %s.") },
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
  HOB_JOINT_QUANTITIES,
};
static const HobLinkDef links[] = {
  { .from = Q_VOLTS, .to = Q_JOINT + HOB_JOINT_POWER,
    .words = N_ ("The voltage across the splice is %s.") },
  HOB_JOINT_LINKS (Q_JOINT),
};

static const HobFaultDef faults[] = {
  {
    .id = "burned",
    .words = N_ ("splice burned"),
    .severity_words = N_ ("%s of resistance in the splice once it heats up"),
    .typical = 0.125,
    .prior = 5,
    .basis = "it stands in the heat and carries 3 A for hours",
    .proof = N_ ("Under load, read the voltage drop across the splice. More than 1 V at 3 A is "
                 "bad. An ohmmeter can miss a bad splice while the splice is cold."),
    .confirm = HOB_MEANS (VOLTAGE_DROP),
    .hazards = HOB_HAZARD (STOP_USING),
    HOB_EFFECTS ({ .setting = OHMS, .how = HOB_EFFECT_ADD, .at1 = 14 }),
  },
};

static void
start (const HobPartContext *c, double *y)
{
  hob_joint_start (c, &joint, y);
}

static void
conduct (const HobPartContext *c)
{
  c->g[0] = hob_siemens (hob_joint_ohms (c, &joint));
}

static void
rates (const HobPartContext *c)
{
  hob_joint_rates (c, &joint, 0, c->within[HOB_PLACE_COMPARTMENT]);
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_OHMS: return hob_joint_ohms (c, &joint);
    case Q_VOLTS: return hob_volts_across (c, A, B);
    case Q_CURRENT: return hob_complex_abs (c->i[0]);
    default: return hob_joint_observe (c, &joint, 0, quantity - Q_JOINT);
    }
}

static double
stored_heat (const HobPartContext *c)
{
  return hob_joint_stored (c, &joint);
}

/* A wire connector over two ends; it glows where it is hot enough. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_leads (pen, 12, 40);
      pen_move (pen, -12, -9);
      pen_line (pen, 12, -6);
      pen_line (pen, 12, 6);
      pen_line (pen, -12, 9);
      pen_close (pen);
      pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
      return;
    }
  pen_rect (pen, -7, -3, 14, 6);
  pen_glow (pen, view->y[JOINT]);
}

const HobKind hob_kind_splice = {
  .name = "splice",
  .label = N_ ("splice with a wire connector"),
  .about = N_ ("Joins two wires. A loose splice has resistance, gets hot, and takes voltage away "
               "from the load."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = Q_VOLTS,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .stored_heat = stored_heat,
  .draw = draw,
};
