/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Convection fan: a shaded-pole motor.
 *
 *   Z = Z_run·(cos φ + j·sin φ), over STALLED while its shaft stands
 *
 * To direct current it is R, the ohms of its wire alone, a part of the real part of Z: the rest
 * comes from a field that alternates and from the rotor that turns in it.  So an unplugged motor
 * reads R on an ohmmeter, a tenth of the impedance that it runs on.
 *
 * Its motor's heat stays behind the rear wall; only what it stirs reaches the air of the cavity.
 * Figures invented for a believable appliance.  That such motors have some tens of ohms, a power
 * factor of about 0.6, and turn less than a third of their power into motion is from memory. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { A, B };
enum { OHMS, WINDING, BROKEN, SEIZED };
enum { Q_SPEED, Q_CURRENT };

#define FULL_VOLTS 100.0 /* at and above which it stirs fully */
#define POWER_FACTOR 0.6 /* cos φ … */
#define REACTIVE 0.8     /* … and sin φ */
#define SHAFT_SHARE 0.3  /* of its power goes into the air it moves */
#define STALLED 1.4      /* times the current while it stands: common practice, no source */

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -60 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 60 },
};

static const HobSettingDef settings[] = {
  { .name = "ohms", .words = N_ ("Running impedance of the motor."),
    .dim = HOB_DIM_RESISTANCE, .normal = 480, .low = 20, .high = 10000 },
  { .name = "winding-ohms", .words = N_ ("Resistance of the motor winding with the range "
                                         "unplugged."),
    .dim = HOB_DIM_RESISTANCE, .normal = 50, .low = 1, .high = 1000 },
  { .name = "broken", .words = "1: its winding is broken.", .high = 1, .condition = TRUE },
  { .name = "seized", .words = "1: its shaft does not turn.", .high = 1, .condition = TRUE },
};

static const HobElementDef elements[] = {
  { .name = "winding", .a = A, .b = B },
};

/* Translators: of the convection fan. */
static const HobQuantityDef quantities[] = {
  { .name = "speed", .words = N_ ("speed"), .say = HOB_SAY_SHARE, .sense = HOB_SENSE_EAR },
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
};

static const HobLinkDef links[] = {
  { .from = Q_CURRENT, .to = Q_SPEED, .words = N_ ("The current through the fan motor is %s.") },
};

static const HobFaultDef faults[] = {
  {
    .id = "open",
    .words = N_ ("fan motor winding open"),
    .prior = 4,
    .proof = N_ ("Read the volts across the motor and, with a clamp meter, the amps in one of its "
                 "wires. There is line voltage, but no current. Unplug the range; the motor reads "
                 "OL instead of a few dozen ohms."),
    .confirm = HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (AMPS) | HOB_MEANS (OHMS),
    HOB_EFFECTS ({ .setting = BROKEN, .at1 = 1 }),
  },
  {
    .id = "seized",
    .words = N_ ("fan shaft seized"),
    .prior = 4,
    .proof = N_ ("Unplug the range and turn the blade by hand. It doesn't turn freely. With "
                 "power on, the motor hums and draws more current than normal."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (HAND),
    HOB_EFFECTS ({ .setting = SEIZED, .at1 = 1 }),
  },
};

static double
speed (const HobPartContext *c)
{
  double volts = hob_volts_across (c, A, B);

  return c->set[SEIZED] > 0 || c->set[BROKEN] > 0 ? 0 : CLAMP (volts / FULL_VOLTS, 0, 1);
}

/* 1/Z */
static void
conduct (const HobPartContext *c)
{
  double z = c->set[OHMS] / (c->set[SEIZED] > 0 ? STALLED : 1);

  if (!(c->set[BROKEN] > 0))
    c->g[0] = (HobComplex){ POWER_FACTOR / z, -REACTIVE / z };
}

static double
at_rest (const HobPartContext *c, int element G_GNUC_UNUSED)
{
  return c->set[WINDING];
}

static void
rates (const HobPartContext *c)
{
  double stirs = speed (c);
  double power = POWER_FACTOR * hob_complex_abs2 (c->i[0]) * c->set[OHMS];
  double shaft = stirs > 0 ? SHAFT_SHARE * power : 0;

  c->within[HOB_PLACE_FAN] = MAX (c->within[HOB_PLACE_FAN], stirs);
  c->within[HOB_PLACE_HEAT_AIR] += shaft;
  c->ledger[HOB_LEDGER_HEAT_IN] += shaft;
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_SPEED ? speed (c) : hob_complex_abs (c->i[0]);
}

/* IEC 60617: a motor's circle. */
static void
draw_wiring (HobPen *pen)
{
  hob_symbol_leads (pen, 30, 60);
  pen_circle (pen, 0, 0, 30);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_text (pen, 0, 6, HOB_TEXT_FIGURE, HOB_ROLE_INK, HOB_ALIGN_CENTRE, "M");
}

/* Four blades in their ring; arcs ahead of the tips while it turns. */
static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_circle (pen, 0, 0, 36);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
      for (int k = 0; k < 4; k++)
        {
          pen_push (pen, 0, 0, k);
          pen_move (pen, 0, 0);
          pen_curve (pen, 4, -10, 14, -18, 8, -24);
          pen_curve (pen, 2, -22, -2, -12, 0, 0);
          pen_pop (pen);
        }
      pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
      return;
    }
  if (!(view->quantity[Q_SPEED] > 0.1))
    return;
  for (int k = 0; k < 4; k++)
    {
      double from = G_PI / 2 * k + 0.3;

      pen_move (pen, 30 * cos (from), 30 * sin (from));
      pen_arc (pen, 0, 0, 30, from, from + 0.9 * view->quantity[Q_SPEED]);
    }
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_CUTAWAY)
    draw_cutaway (pen, view);
  else if (view->layer == HOB_LAYER_PAPER)
    draw_wiring (pen);
}

const HobKind hob_kind_fan = {
  .name = "fan",
  .label = N_ ("convection fan"),
  .about = N_ ("Moves the air in the oven. It evens out the heat from top to bottom, transfers "
               "heat faster, and lets the oven sensor respond sooner."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .symbol = { [HOB_SHEET_WIRING] = { 120, 80 }, [HOB_SHEET_CUTAWAY] = { 80, 80 } },
  .figure = Q_CURRENT,
  .conduct = conduct,
  .at_rest = at_rest,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
