/* SPDX-License-Identifier: GPL-3.0-or-later */

/* High-limit thermostat on the back of the oven's liner: a disc that snaps open at a
 * temperature that nothing normal reaches there.  What comes nearest is broil: half of its flame's
 * heat goes into the liner, which gets to 564 °F before the control stops at 555 °F; in bake it
 * stays below 495 °F.  With the burner on for good it is at 590 °F after an hour and a quarter,
 * in a cold kitchen after two.
 *
 *   dT/dt = (T_liner − T)/lag
 *
 * The automatic kind snaps back when it has cooled; the manual kind stays open until its button
 * is pressed. */

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
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -60 },
  { .name = "b", .words = N_ ("load side"), .required = TRUE, .x = 60 },
};

static const HobSettingDef settings[] = {
  { .name = "opens", .words = N_ ("Disc temperature at which the thermostat opens."),
    .dim = HOB_DIM_TEMPERATURE, .normal = 583.15, .low = 320, .high = 800 },
  { .name = "resets", .words = N_ ("How far the disc must cool before the thermostat closes."),
    .dim = HOB_DIM_DIFFERENCE, .normal = 40, .low = 5, .high = 200 },
  { .name = "reset", .words = N_ ("How the high-limit thermostat resets: automatically or with its "
                                  "button."),
    .dim = HOB_DIM_CHOICE, .normal = 1, .high = 1, .choices = reset_ways },
  { .name = "lag",
    .words = N_ ("How long the disc's temperature lags behind the oven liner's."),
    .dim = HOB_DIM_TIME,
    .normal = 60, .low = 1, .high = 1200 },
  { .name = "broken", .words = "1: it is open for good.", .high = 1, .condition = TRUE },
};

static const HobStateDef states[] = {
  { .name = "disc", .words = "disc temperature", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.1 },
};

static const char *const trip_words[] = { N_ ("high-limit thermostat "
                                              "closes"), N_ ("high-limit thermostat opens"), NULL };
static const HobModeDef modes[] = {
  { .name = "tripped", .words = trip_words },
};

static const HobPosition positions[] = {
  { .name = "released", .words = N_ ("RELEASED"), .value = 0 },
  { .name = "pressed", .words = N_ ("PRESSED"), .value = 1 },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "button", .words = N_ ("reset button"), .dim = HOB_DIM_CHOICE, .positions = positions,
    .high = 1, .role = HOB_CONTROL_BUTTON },
};

static const HobElementDef elements[] = {
  { .name = "contact", .a = A, .b = B },
};

static const HobQuantityDef quantities[] = {
  { .name = "open", .words = N_ ("high-limit thermostat open"), .values = hob_no_yes },
  { .name = "temperature", .words = N_ ("disc temperature"), .dim = HOB_DIM_TEMPERATURE },
  { .name = "volts", .words = N_ ("voltage across the high-limit "
                                  "thermostat"), .dim = HOB_DIM_VOLTAGE },
};

static const HobFaultDef faults[] = {
  {
    .id = "open",
    .words = N_ ("high-limit thermostat open"),
    .prior = 2,
    .basis = "after an overheating",
    .proof = N_ ("Set the cold oven to bake and read the volts across the high-limit thermostat. "
                 "There is line voltage; there should be none. Unplug the range. If the thermostat "
                 "has a reset button, press it. Take one wire off the thermostat and read ohms "
                 "across its terminals. The meter reads OL; it should read close to 0 Ω."),
    .confirm = HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (OHMS),
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),
  },
  {
    .id = "weak",
    .words = N_ ("high-limit thermostat opens too soon"),
    .severity_words = N_ ("opens %s below its rating"),
    .typical = 0.5,
    .prior = 1,
    .basis = "aged",
    .proof = N_ ("When the oven stops heating too soon, read the volts across the high-limit "
                 "thermostat. There is line voltage, so the thermostat is open, but the oven is no "
                 "hotter than its set temperature."),
    .confirm = HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = OPENS, .how = HOB_EFFECT_ADD, .at1 = -120 }),
  },
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

/* Trips above its rating; closes when it has cooled by `resets`, the manual kind only while its
 * button is pressed. */
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
  hob_mode_toggle (c, TRIPPED);
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
  .label = N_ ("high-limit thermostat"),
  .about = N_ ("A thermostat on the back of the oven. It cuts the power to the oven when the oven "
               "overheats. Always find out why it opened."),
  .hazards = HOB_HAZARD (NO_BYPASS),
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
