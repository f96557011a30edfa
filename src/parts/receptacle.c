/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Wall receptacle, with the branch behind it: what stands there unloaded and what the wire from the
 * panel drops.  Its neutral's joint may go bad, and is a heater then (joint.h). */

#include "base/i18n.h"
#include "parts/joint.h"
#include "parts/symbol.h"

#include <math.h>

enum { LINE, NEUTRAL, GROUND, FEED, RETURN, EARTH };
enum { VOLTS, SOURCE_OHMS, NEUTRAL_OHMS, REVERSED, GROUND_OPEN, BONDED, DEAD };
enum { JOINT, WEAR };
enum { E_LINE, E_NEUTRAL, E_GROUND, E_CROSS_LINE, E_CROSS_NEUTRAL, E_BOND };
enum { Q_CURRENT, Q_VOLTS, Q_JOINT };

#define NOMINAL 120.0 /* V at the panel */

static const HobTerminalDef terminals[] = {
  { "line", N_ ("short slot, line"), TRUE, 40, -40 },
  { "neutral", N_ ("long slot, neutral"), TRUE, 40, 0 },
  { "ground", N_ ("round hole, ground"), FALSE, 40, 40 },
  { "feed", N_ ("line from the breaker"), TRUE, -40, -40 },
  { "return", N_ ("neutral to the panel"), TRUE, -40, 0 },
  { "earth", N_ ("earth to the panel"), FALSE, -40, 40 },
};
static const HobSettingDef settings[] = {
  { "volts", N_ ("Voltage that stands here without load."), HOB_DIM_VOLTAGE, 120, 60, 140 },
  { "source-ohms", N_ ("Resistance of the branch, both ways together."), HOB_DIM_RESISTANCE, 0.25,
    0.01, 20 },
  { "neutral-ohms", N_ ("Resistance of the neutral's joint."), HOB_DIM_RESISTANCE, HOB_CONTACT_OHMS,
    HOB_CONTACT_OHMS, INFINITY, NULL, TRUE },
  { "reversed", N_ ("1: line and neutral are exchanged."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "ground-open", N_ ("1: the ground is not connected."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "bonded", N_ ("1: a jumper joins ground and the long slot."), HOB_DIM_NUMBER, 0, 0, 1, NULL,
    TRUE },
  { "dead", N_ ("1: its feed is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const HobStateDef states[] = { HOB_JOINT_STATES };

#define ELECTRICIAN                                                                                \
  N_ ("House wiring is for the licensed trade. Breaker off and proven dead before the cover "      \
      "comes off.")

static const HobFaultDef faults[] = {
  { "dead",
    N_ ("no line at the receptacle"),
    NULL,
    1,
    3,
    N_ ("assumption: a joint upstream, or another device's trip"),
    N_ ("Volts line to neutral, range unplugged."),
    ELECTRICIAN,
    -1,
    1,
    { { DEAD, HOB_EFFECT_SET, 0, 1 } } },
  { "low-volts",
    N_ ("supply voltage low"),
    N_ ("25 V · severity less"),
    0.5,
    2,
    N_ ("assumption"),
    N_ ("Volts line to neutral, range unplugged."),
    NULL,
    -1,
    1,
    { { VOLTS, HOB_EFFECT_ADD, 0, -25 } } },
  { "weak-branch",
    N_ ("branch too long or too thin"),
    N_ ("1.5 ohm · severity more"),
    0.6,
    2,
    N_ ("assumption"),
    N_ ("Volts line to neutral without load and with the oven and the branch's other loads on."),
    ELECTRICIAN,
    -1,
    1,
    { { SOURCE_OHMS, HOB_EFFECT_ADD, 0, 1.5 } } },
  { "reversed",
    N_ ("line and neutral exchanged"),
    NULL,
    1,
    2,
    N_ ("assumption: one receptacle in some dozens"),
    N_ ("Range unplugged: neutral to ground reads line volts, line to ground none."),
    N_ ("Off is not dead: igniters, valves and wiring stay live with every control off."),
    -1,
    1,
    { { REVERSED, HOB_EFFECT_SET, 0, 1 } } },
  { "ground-open",
    N_ ("ground not connected"),
    NULL,
    1,
    3,
    N_ ("assumption: houses wired with two conductors"),
    N_ ("Range unplugged: line to ground reads only ghost volts."),
    N_ ("With a metal gas pipe fault current takes the flexible connector: never open a gas joint "
        "before the supply is "
        "proven dead."),
    GROUND,
    1,
    { { GROUND_OPEN, HOB_EFFECT_SET, 0, 1 } } },
  { "false-ground",
    N_ ("ground hole jumpered to the long slot, no ground wire"),
    NULL,
    1,
    1,
    N_ ("assumption: done to please a tester"),
    N_ ("Range unplugged it reads as sound. From its ground to an independent earth: volts under "
        "load, or line volts."),
    N_ ("Where line and neutral are exchanged too, the range's metal is live. Hands off until "
        "proven dead."),
    GROUND,
    2,
    { { BONDED, HOB_EFFECT_SET, 0, 1 }, { GROUND_OPEN, HOB_EFFECT_SET, 0, 1 } } },
  { "neutral-resistance",
    N_ ("neutral's joint gone bad"),
    N_ ("12 ohm · severity at working heat; cold much less"),
    0.5,
    1,
    N_ ("assumption: a back-stabbed or loose screw joint"),
    N_ ("Under load, volts from neutral to ground: over 1 V at 3 A is bad. Without load there are "
        "none."),
    N_ ("A hot joint is a fire risk. Do not use it: gas shut, plug out."),
    -1,
    1,
    { { NEUTRAL_OHMS, HOB_EFFECT_ADD, 0, 12 } } },
};
static const HobElementDef elements[] = {
  { "line", FEED, LINE },
  { "neutral", NEUTRAL, RETURN },
  { "ground", GROUND, EARTH },
  { "line exchanged", FEED, NEUTRAL },
  { "neutral exchanged", LINE, RETURN },
  { "false ground", GROUND, NEUTRAL },
};
static const HobQuantityDef quantities[] = {
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
  { "volts", N_ ("voltage line to neutral"), HOB_DIM_VOLTAGE, HOB_SENSE_NONE },
  HOB_JOINT_QUANTITIES,
};

static int
neutral_element (const HobPartContext *c)
{
  return c->set[REVERSED] > 0 ? E_CROSS_NEUTRAL : E_NEUTRAL;
}

static double
joint_ohms (const HobPartContext *c)
{
  return hob_joint_ohms (c->set[NEUTRAL_OHMS], c->y[JOINT], c->y[WEAR]);
}

static double
joint_watt (const HobPartContext *c)
{
  return hob_complex_abs2 (c->i[neutral_element (c)]) * joint_ohms (c);
}

static void
start (const HobPartContext *c, double *y)
{
  y[JOINT] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  gboolean reversed = c->set[REVERSED] > 0;
  int line = reversed ? E_CROSS_LINE : E_LINE;

  if (!(c->set[DEAD] > 0))
    c->g[line] = hob_siemens (c->set[SOURCE_OHMS]);
  c->emf[line].re = c->set[VOLTS] - NOMINAL;
  c->g[neutral_element (c)] = hob_siemens (joint_ohms (c));
  if (c->set[BONDED] > 0)
    c->g[E_BOND] = hob_siemens (HOB_CONTACT_OHMS);
  if (!(c->set[GROUND_OPEN] > 0))
    c->g[E_GROUND] = hob_siemens (HOB_CONTACT_OHMS);
}

static void
rates (const HobPartContext *c)
{
  hob_joint_rates (c, c->dy + JOINT, c->y[JOINT], joint_watt (c), c->house->temperature);
}

static double
observe (const HobPartContext *c, int quantity)
{
  if (quantity >= Q_JOINT)
    return hob_joint_observe (quantity - Q_JOINT, c->y[JOINT], c->y[WEAR], joint_watt (c));
  if (quantity == Q_VOLTS)
    return hob_volts_across (c, LINE, NEUTRAL);
  return hob_complex_abs (c->i[c->set[REVERSED] > 0 ? E_CROSS_LINE : E_LINE]);
}

static double
stored_heat (const HobPartContext *c)
{
  return HOB_JOINT_HEAT * c->y[JOINT];
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
  .about
  = N_ ("Where the range is plugged in. Its voltage sags under load by what the branch resists."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 120 } },
  .figure = Q_CURRENT,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .stored_heat = stored_heat,
  .draw = draw,
};
