/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Thermal cut-out on the back of the oven's liner: a disc that snaps open where no healthy bake
 * ever comes.  One kind snaps back when it has cooled, the other stays open until a finger has
 * pressed its button. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { A, B };
enum { OPENS, RESETS, MANUAL, LAG, BROKEN };
enum { DISC };
enum { TRIPPED };
enum { BUTTON };
enum { Q_OPEN, Q_TEMPERATURE, Q_VOLTS };

static const char *const reset_ways[] = { "auto", "manual", NULL };

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -60, 0 },
  { "b", N_ ("load side"), TRUE, 60, 0 },
};

static const HobSettingDef settings[] = {
  { "opens", N_ ("Temperature of its disc at which it opens."), HOB_DIM_TEMPERATURE, 573.15, 320,
    800 },
  { "resets", N_ ("How far it must cool before it can close again."), HOB_DIM_DIFFERENCE, 40, 5,
    200 },
  { "reset", N_ ("How it closes again: by itself, or by its button."), HOB_DIM_CHOICE, 1, 0, 1,
    reset_ways },
  { "lag", N_ ("How long it lags behind the liner."), HOB_DIM_TIME, 60, 1, 1200 },
  { "broken", N_ ("1: it is open for good."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const HobStateDef states[] = { { "disc", N_ ("temperature of its disc"), HOB_DIM_TEMPERATURE,
                                        0.1 } };

static const char *const trip_words[] = { N_ ("cut-out closes"), N_ ("cut-out opens"), NULL };
static const HobModeDef modes[] = { { "tripped", trip_words } };

static const HobPosition positions[] = { { "released", N_ ("RELEASED"), 0 },
                                         { "pressed", N_ ("PRESSED"), 1 },
                                         { NULL } };
static const HobControlDef controls[] = {
  { "button", N_ ("reset button"), HOB_DIM_CHOICE, positions, 0, 1, 0, HOB_EXERCISE_NONE },
};

static const HobElementDef elements[] = { { "contact", A, B } };

static const HobQuantityDef quantities[] = {
  { "open", N_ ("cut-out open, 0 or 1"), HOB_DIM_NUMBER, HOB_SENSE_NONE },
  { "temperature", N_ ("temperature of its disc"), HOB_DIM_TEMPERATURE, HOB_SENSE_NONE },
  { "volts", N_ ("voltage across it"), HOB_DIM_VOLTAGE, HOB_SENSE_NONE },
};

static const HobFaultDef faults[] = {
  { "open",
    N_ ("thermal cut-out open for good"),
    NULL,
    1,
    2,
    N_ ("assumption: after an overheating"),
    N_ ("The line voltage stands across it in a cold oven; unplugged, it reads open and its button "
        "does not help."),
    N_ ("Never bridge it. It has opened for a reason: find what ran hot."),
    -1,
    1,
    { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },
  { "weak",
    N_ ("thermal cut-out opens too soon"),
    N_ ("120 K · severity below its rating"),
    0.5,
    1,
    N_ ("assumption: aged"),
    N_ ("The oven goes dead while hot though it never passed its dial; the line voltage then "
        "stands across the cut-out."),
    N_ ("Never bridge it."),
    -1,
    1,
    { { OPENS, HOB_EFFECT_ADD, 0, -120 } } },
};

static gboolean
is_open (const HobPartContext *c)
{
  return c->mode[TRIPPED] > 0 || c->set[BROKEN] > 0;
}

static void
start (const HobPartContext *c, double *y)
{
  y[DISC] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  if (!is_open (c))
    c->g[0] = hob_siemens (HOB_CONTACT_OHMS);
}

static void
rates (const HobPartContext *c)
{
  c->dy[DISC] = (c->within[HOB_PLACE_WALL] - c->y[DISC]) / c->set[LAG];
}

/* Trips above its rating; closes below it by `resets`, the manual one only under a finger. */
static double
guard (const HobPartContext *c, int k G_GNUC_UNUSED)
{
  if (!(c->mode[TRIPPED] > 0))
    return c->y[DISC] - c->set[OPENS];
  if (c->set[MANUAL] > 0 && !(c->ctl[BUTTON] > 0))
    return -1;
  return c->set[OPENS] - c->set[RESETS] - c->y[DISC];
}

static void
flip (const HobPartContext *c, int k G_GNUC_UNUSED, double *y G_GNUC_UNUSED)
{
  c->mode[TRIPPED] = c->mode[TRIPPED] > 0 ? 0 : 1;
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_OPEN: return is_open (c);
    case Q_TEMPERATURE: return c->y[DISC];
    default: return hob_volts_across (c, A, B);
    }
}

/* A contact with the disc's bow above it. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      hob_symbol_blade (pen, -20, 20, 0, !(view->quantity[Q_OPEN] > 0));
      return;
    }
  hob_symbol_leads (pen, 20, 60);
  hob_symbol_contact (pen, -20, 20, 0);
  pen_move (pen, -16, 14);
  pen_curve (pen, -8, 8, 8, 8, 16, 14);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

const HobKind hob_kind_high_limit = {
  .name = "high-limit",
  .label = N_ ("thermal cut-out"),
  .about = N_ ("A disc on the oven's back that opens the line when the oven has run away. It has "
               "opened for a reason."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = 1,
  .symbol = { [HOB_SHEET_WIRING] = { 120, 40 } },
  .figure = -1,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
