/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Circuit breaker of the branch: a bimetal that integrates its overload. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "parts/trip.h"
#include "physics/material.h"

enum { A, B };
enum { RATING, BROKEN };
enum { HEATED };
enum { POSITION };
enum { Q_CURRENT, Q_TRIPPED };

#define COOLING 120.0 /* s, in which its bimetal loses most of its heat; invented */

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("load side"), .required = TRUE, .x = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "rating", .words = N_ ("Rated current of the breaker."), .dim = HOB_DIM_CURRENT,
    .normal = 15, .low = 1, .high = 100, .of = HOB_SETTING_HOUSE },
  { .name = "broken", .words = "1: it lets nothing through although its handle says ON.",
    .high = 1, .condition = TRUE },
};
static const HobStateDef states[] = {
  { .name = "heated", .words = "share of the way to its trip", .tolerance = 1e-3 },
};
static const HobModeDef modes[] = {
  HOB_TRIP_MODE,
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Breaker handle"), .dim = HOB_DIM_CHOICE, .positions = hob_off_on,
    .high = 1, .start = 1, .role = HOB_CONTROL_BREAKER },
};
static const HobFaultDef faults[] = {
  {
    .id = "open",
    .words = N_ ("breaker open with the handle at ON"),
    .prior = 1,
    .basis = "a worn breaker, or a loose screw",
    .proof = N_ ("Turn the breaker fully OFF, then ON. Nothing on its circuit works, but other "
                 "circuits have power. Have a qualified person read the volts at the panel from "
                 "the breaker's load terminal to the neutral bar. The meter reads 0 V with the "
                 "handle at ON."),
    .confirm = HOB_MEANS (RECEPTACLE),
    .hazards = HOB_HAZARD (GAS_GATHERED),
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),
  },
  {
    .id = "weak",
    .words = N_ ("breaker trips below its rating"),
    .severity_words = N_ ("trips %s below its rating"),
    .prior = 1,
    .basis = "old, or often tripped",
    .proof = N_ ("Have a qualified person put a clamp meter on the circuit's hot wire at the "
                 "panel. Turn on loads and read the amps. The breaker trips below the rating on "
                 "its handle."),
    .confirm = HOB_MEANS (AMPS),
    HOB_EFFECTS ({ .setting = RATING, .how = HOB_EFFECT_MULTIPLY, .at0 = 1, .at1 = 0.1 }),
  },
};
static const HobElementDef elements[] = {
  { .name = "contact", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
  { .name = "tripped", .words = N_ ("tripped"), .values = hob_no_yes, .sense = HOB_SENSE_EYE },
};

static void
conduct (const HobPartContext *c)
{
  if (c->ctl[POSITION] > 0 && !(c->mode[HOB_TRIPPED] > 0) && !(c->set[BROKEN] > 0))
    c->g[0] = hob_siemens (HOB_CONTACT_OHMS);
}

static void
rates (const HobPartContext *c)
{
  double rate = hob_breaker_rate (c->set[RATING], hob_complex_abs (c->i[0]));

  c->dy[HEATED] = rate > 0 ? rate : -c->y[HEATED] / COOLING;
}

static double
guard (const HobPartContext *c, int k)
{
  return hob_trip_guard (c, k, c->y[HEATED] - 1, !(c->ctl[POSITION] > 0));
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  hob_trip_flip (c, k);
  if (k == HOB_TRIP_TRIPS)
    y[HEATED] = 0.9;
}

static double
rating (const HobPartContext *c)
{
  return c->set[RATING];
}

static const HobLinkDef links[] = {
  { .from = Q_CURRENT, .to = HOB_LINK_MODE (HOB_TRIPPED), .value = 1,
    /* Translators: "… is 18 A. It should be 3 A (trips above 15 A)." */
    .words = N_ ("The current through the breaker is %s."), .at = N_ ("trips above %s"),
    .limit = rating },
};

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_CURRENT ? hob_complex_abs (c->i[0]) : c->mode[HOB_TRIPPED];
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      hob_symbol_blade (pen, -20, 20, 0, view->ctl[POSITION] > 0 && !(view->mode[HOB_TRIPPED] > 0));
      return;
    }
  hob_symbol_leads (pen, 20, 40);
  hob_symbol_contact (pen, -20, 20, 0);
  pen_segment (pen, 16, -10, 24, -2); /* the breaker's cross */
  pen_segment (pen, 16, -2, 24, -10);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

const HobKind hob_kind_breaker = {
  .name = "breaker",
  .label = N_ ("breaker"),
  .about = N_ ("Opens the hot wire when the circuit draws too much current. The more it draws, "
               "the sooner the breaker trips."),
  .hazards = HOB_HAZARD (BREAKER_GFCI),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = HOB_TRIP_N_GUARDS,
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = -1,
  .conduct = conduct,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
