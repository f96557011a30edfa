/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where wires are joined: a splice, drawn as a dot.  The wire to the supply may have an end of its
 * own under it; that end can go bad and is then a heater (joint.h) in series with all the rest. */

#include "base/i18n.h"
#include "parts/joint.h"
#include "parts/symbol.h"

enum { AT, SUPPLY };
enum { OHMS };
enum { JOINT, BROWN = JOINT + HOB_JOINT_N_STATES };

static const HobTerminalDef terminals[] = {
  { .name = "at", .words = N_ ("splice"), .required = TRUE },
  { .name = "supply", .words = N_ ("end of the wire from the supply") },
};

static const HobSettingDef settings[] = {
  { .name = "supply-ohms", .words = "Resistance of the supply's end when hot.",
    .dim = HOB_DIM_RESISTANCE, .normal = HOB_CONTACT_OHMS, .low = HOB_CONTACT_OHMS,
    .high = INFINITY, .condition = TRUE },
};

static const HobStateDef states[] = {
  HOB_JOINT_STATES,
  HOB_JOINT_BROWN_STATE,
};

static const HobJoint joint = { .ohms = OHMS, .states = JOINT, .brown = BROWN, .burned = TRUE };

static const HobElementDef elements[] = {
  { .name = "supply", .a = SUPPLY, .b = AT },
};

static const HobQuantityDef quantities[] = {
  HOB_JOINT_QUANTITIES,
};
static const HobLinkDef links[] = {
  HOB_JOINT_LINKS (0),
};

static const HobFaultDef faults[] = {
  {
    .id = "burned",
    .words = N_ ("splice burned where the supply wire enters"),
    .severity_words = N_ ("%s of resistance in the splice once it heats up"),
    .typical = 0.125,
    .prior = 1,
    .basis = "it carries the current of the whole range",
    .proof = N_ ("Under load, read the voltage drop from the supply wire to each of the other "
                 "wires in the splice. More than 1 V at 3 A is bad."),
    .confirm = HOB_MEANS (VOLTAGE_DROP),
    .hazards = HOB_HAZARD (STOP_USING),
    .needs = HOB_NEEDS (SUPPLY),
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
  return hob_joint_observe (c, &joint, 0, quantity);
}

static double
stored_heat (const HobPartContext *c)
{
  return hob_joint_stored (c, &joint);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_circle (pen, 0, 0, 4);
  pen_fill (pen, HOB_ROLE_INK);
}

const HobKind hob_kind_junction = {
  .name = "junction",
  .label = N_ ("splice"),
  .about = N_ ("Wires joined together."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_WIRING] = { 8, 8 } },
  .figure = -1,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .stored_heat = stored_heat,
  .draw = draw,
};
