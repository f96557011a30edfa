/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Appliance regulator: it holds the manifold pressure whatever the supply and the burners do,
 * and locks up a little higher when all burners are off.  Its cap is convertible: turned over,
 * it sets the spring for the other gas. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };
enum { SET_PRESSURE, LOCKUP, AREA, CREEP, CAP, SET_WITH, SEATS, TURNED };
enum { NATURAL, LP };
enum { Q_PRESSURE };

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("supply"), .required = TRUE, .way = HOB_WAY_IN, .x = -40 },
  { .name = "out", .words = N_ ("manifold"), .required = TRUE, .way = HOB_WAY_OUT, .x = 40 },
};
static const char *const caps[] = { "natural", "lp", NULL };

static const HobSettingDef settings[] = {
  { .name = "set-pressure", .words = N_ ("Manifold pressure; see the data plate."),
    .dim = HOB_DIM_PRESSURE, .normal = 5 * 249.089, .low = 100, .high = 5000, .feeds = TRUE },
  { .name = "lockup", .words = N_ ("How far the lockup pressure is above the set pressure, as a "
                                   "fraction of the set pressure."),
    .normal = 0.05,
    .low = 0.005, .high = 0.5 },
  { .name = "area", .words = N_ ("Effective flow area through the seat with the regulator fully "
                                 "open, in m²."),
    .normal = 4e-5, .low = 1e-7, .high = 1e-3 },
  { .name = "creep", .words = "What its seat leaves open when it should be shut, m².",
    .high = 1e-5, .condition = TRUE },
  { .name = "cap", .words = N_ ("Gas that the regulator cap is set for: natural or LP."),
    .dim = HOB_DIM_CHOICE,
    .normal = NATURAL, .high = 1, .choices = caps },
  { .name = "set-with", .words = N_ ("The regulator cap position (natural or LP) that the manifold "
                                     "pressure applies to."),
    .dim = HOB_DIM_CHOICE, .normal = NATURAL, .high = 1, .choices = caps },
  { .name = "seats", .words = N_ ("Pressure with the cap set for LP, divided by the pressure "
                                  "with the cap set for natural gas."),
    .normal = 2, .low = 1, .high = 5 },
  { .name = "turned", .words = "1: the cap is the wrong way round.", .high = 1,
    .condition = TRUE, .visible = 1 },
};

static const HobFaultDef faults[] = {
  {
    .id = "cap-turned",
    .words = N_ ("regulator cap set for the other gas"),
    .prior = 2,
    .basis = "a classic slip at installation",
    .proof = N_ ("Look at the regulator cap. It's set for the other gas. Read the manifold "
                 "pressure with one burner on. The pressure isn't what the data plate lists for "
                 "the gas in the house."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (PRESSURE),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = TURNED, .at1 = 1 }),
  },
  {
    .id = "set-low",
    .words = N_ ("regulator spring weak or set too low"),
    .severity_words = N_ ("manifold pressure %s low"),
    .typical = 0.6,
    .prior = 1,
    .proof = N_ ("Read the manifold pressure with one burner on. It's below the data plate's "
                 "figure, but the inlet pressure is normal."),
    .confirm = HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = SET_PRESSURE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.3 }),
  },
  {
    .id = "set-high",
    .words = N_ ("regulator set too high"),
    .severity_words = N_ ("manifold pressure %s high"),
    .typical = 0.6,
    .prior = 0.5,
    .proof = N_ ("Read the manifold pressure with one burner on. It's above the data plate's "
                 "figure."),
    .confirm = HOB_MEANS (PRESSURE),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = SET_PRESSURE, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 2 }),
  },
  {
    .id = "creeps",
    .words = N_ ("regulator seat leaks and pressure creeps up"),
    .severity_words = N_ ("seat leaks as much as a hole with a diameter of %s"),
    .say = HOB_SAY_HOLE,
    .typical = 0.1,
    .prior = 1,
    .basis = "dirt from new pipe on the seat",
    .proof = N_ ("Read the lockup pressure with all the burners off. It climbs to the inlet "
                 "pressure. It should stop a little above the set pressure."),
    .confirm = HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = CREEP, .how = HOB_EFFECT_ADD, .at1 = 3e-6 }),
  },
  {
    .id = "sticks",
    .words = N_ ("regulator sticks"),
    .severity_words = N_ ("lockup pressure %s above the set pressure"),
    .typical = 0.7,
    .prior = 1,
    .proof = N_ ("Read the manifold pressure with one burner on, with all on, and with all off. "
                 "The readings are too far apart."),
    .confirm = HOB_MEANS (PRESSURE),
    .hazards = HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = LOCKUP, .how = HOB_EFFECT_ADD, .at1 = 0.4 }),
  },
  {
    .id = "clogged",
    .words = N_ ("regulator inlet screen clogged"),
    .severity_words = N_ ("gas passage %s blocked"),
    .typical = 0.9,
    .prior = 1,
    .proof = N_ ("Read the inlet and manifold pressures while you turn on the burners one by one. "
                 "The inlet pressure stays normal, but the manifold pressure drops too far."),
    .confirm = HOB_MEANS (PRESSURE),
    .hazards = HOB_HAZARD (GAS_GATHERED) | HOB_HAZARD (CO_FLAME),
    HOB_EFFECTS ({ .setting = AREA, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.02,
                   .geometric = TRUE }),
  },
};
static const HobDuctDef ducts[] = {
  { .name = "seat", .a = IN, .b = OUT },
};
static const HobQuantityDef quantities[] = {
  { .name = "pressure", .words = N_ ("manifold pressure"), .dim = HOB_DIM_PRESSURE,
    .says = N_ ("The manifold pressure is %s.") },
};

/* Pa that it holds with the cap as it is now; the spring was adjusted with the cap as filed. */
static double
held (const HobPartContext *c)
{
  gboolean lp = ((int)c->set[CAP] == LP) != (c->set[TURNED] > 0),
           was_lp = (int)c->set[SET_WITH] == LP;

  if (lp == was_lp)
    return c->set[SET_PRESSURE];
  return lp ? c->set[SET_PRESSURE] * c->set[SEATS] : c->set[SET_PRESSURE] / c->set[SEATS];
}

static void
flow (const HobPartContext *c)
{
  c->duct[0] = (HobDuct){ .law = HOB_DUCT_REGULATOR,
                          .area = c->set[AREA],
                          .set = held (c),
                          .lockup = c->set[LOCKUP],
                          .leak = c->set[CREEP] };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return c->p[OUT];
}

/* A valve whose diaphragm senses the outlet; it drops as gas is drawn. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      double sunk = view->q[0] > 1e-7 ? 5 : 0; /* kg/s */

      pen_segment (pen, -14, -22 + sunk, 14, -22 + sunk);
      pen_segment (pen, 0, -22 + sunk, 0, 0);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
      return;
    }
  hob_symbol_tube (pen, -40, -16, 0);
  hob_symbol_tube (pen, 16, 40, 0);
  pen_move (pen, -16, -16);
  pen_line (pen, -16, -24);
  pen_arc (pen, 0, -24, 16, -G_PI, 0);
  pen_line (pen, 16, -16);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_valve (pen, 0, 0, FALSE);
  pen_dash (pen, 4, 3); /* what it feels */
  pen_move (pen, 30, -7);
  pen_line (pen, 30, -20);
  pen_line (pen, 16, -20);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_DETAIL);
}

const HobKind hob_kind_regulator = {
  .name = "regulator",
  .label = N_ ("appliance regulator"),
  .about = N_ ("Holds the manifold at the pressure that the orifices are sized for, even if the "
               "inlet pressure changes."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 }, [HOB_SHEET_CUTAWAY] = { 80, 80 } },
  .figure = Q_PRESSURE,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
