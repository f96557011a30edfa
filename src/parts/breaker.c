/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Circuit breaker of the branch: a bimetal that integrates its overload. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"

enum { A, B };
enum { RATING, BROKEN };
enum { HEATED };
enum { TRIPPED };
enum { POSITION };
enum { G_TRIP, G_RESET };
enum { Q_CURRENT, Q_TRIPPED };

#define COOLING 120.0 /* s, in which its bimetal loses most of its heat; invented */

static const HobTerminalDef terminals[] = {
  { "a", N_ ("panel side"), TRUE, -40, 0 },
  { "b", N_ ("branch side"), TRUE, 40, 0 },
};
static const HobSettingDef settings[] = {
  { "rating", N_ ("Current it holds for ever."), HOB_DIM_CURRENT, 15, 1, 100 },
  { "broken", N_ ("1: it lets nothing through although its handle says ON."), HOB_DIM_NUMBER, 0, 0,
    1, NULL, TRUE },
};
static const HobStateDef states[]
    = { { "heated", N_ ("share of the way to its trip"), HOB_DIM_NUMBER, 1e-3 } };
static const char *const tripped_words[] = { N_ ("is set again"), N_ ("trips"), NULL };
static const HobModeDef modes[] = { { "tripped", tripped_words } };
static const HobPosition positions[]
    = { { "off", N_ ("OFF"), 0 }, { "on", N_ ("ON"), 1 }, { NULL } };
static const HobControlDef controls[] = {
  { "", N_ ("Breaker handle"), HOB_DIM_CHOICE, positions, 0, 1, 1, HOB_EXERCISE_NONE },
};
static const HobFaultDef faults[] = {
  { "open",
    N_ ("lets nothing through although ON"),
    NULL,
    1,
    1,
    N_ ("assumption: a worn breaker, or a loose screw"),
    N_ ("Handle ON, no volts at the receptacle, and nothing else on the branch works."),
    N_ ("The panel is for an electrician: its buses stay live with every breaker off."),
    -1,
    1,
    { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },
  { "weak",
    N_ ("trips at less than its rating"),
    N_ ("rating falls to a tenth at severity 1"),
    1,
    1,
    N_ ("assumption: old, or often tripped"),
    N_ ("Clamp on the branch: below its rating, and it trips."),
    N_ ("The panel is for an electrician: its buses stay live with every breaker off."),
    -1,
    1,
    { { RATING, HOB_EFFECT_MULTIPLY, 1, 0.1 } } },
};
static const HobElementDef elements[] = { { "contact", A, B } };
static const HobQuantityDef quantities[] = {
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
  { "tripped", N_ ("tripped, 0 or 1"), HOB_DIM_NUMBER, HOB_SENSE_EYE },
};

static void
conduct (const HobPartContext *c)
{
  if (c->ctl[POSITION] > 0 && !(c->mode[TRIPPED] > 0) && !(c->set[BROKEN] > 0))
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
  if (k == G_TRIP)
    return c->mode[TRIPPED] > 0 ? -1 : c->y[HEATED] - 1;
  return c->mode[TRIPPED] > 0 && !(c->ctl[POSITION] > 0) ? 1 : -1;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  c->mode[TRIPPED] = k == G_TRIP;
  if (k == G_TRIP)
    y[HEATED] = 0.9;
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_CURRENT ? hob_complex_abs (c->i[0]) : c->mode[TRIPPED];
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      hob_symbol_blade (pen, -20, 20, 0, view->ctl[POSITION] > 0 && !(view->mode[TRIPPED] > 0));
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
  .about = N_ ("Opens the line when the branch draws too much: the more, the sooner. Off and on "
               "sets it again."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = 2,
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = -1,
  .conduct = conduct,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
