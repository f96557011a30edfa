/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Dial control of an oven: a thermostat contact worked by the bulb's fluid, then a selector contact for each burner.
 * The selector's off position parks the thermostat contact open as well; in broil a cam holds it to the top of the
 * dial.  The contact opens 5 °F above the dial and closes 5 °F below, as the bulb feels it. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { LINE, NEUTRAL, GROUND, BAKE, BROIL, MID };
enum { DIFFERENTIAL, OFFSET, CONTACT_OHMS, WELDED };
enum { MODE, DIAL };
enum { OFF, MODE_BAKE, MODE_BROIL };
enum { CONTACT };
enum { E_THERMOSTAT, E_BAKE, E_BROIL };
enum { Q_CONTACT, Q_TARGET, Q_BEHIND, Q_AHEAD, Q_DROP };

#define DEGF(f) (((f) + 459.67) / 1.8)

static const HobTerminalDef terminals[] = {
  { "line", N_ ("line"), TRUE, -80, 0 },
  { "neutral", N_ ("neutral, passed through"), FALSE, 40, -80 },
  { "ground", N_ ("ground of its case"), FALSE, 0, 80 },
  { "bake", N_ ("to the bake igniter"), TRUE, 80, -40 },
  { "broil", N_ ("to the broil igniter"), FALSE, 80, 40 },
  { "mid", N_ ("between thermostat and selector, inside"), FALSE, 0, 0 },
};

static const HobSettingDef settings[] = {
  { "differential", N_ ("How far above and below the dial the contact opens and closes."), HOB_DIM_DIFFERENCE,
    5 / 1.8, 0.2, 30 },
  { "offset", N_ ("How far its scale is out."), HOB_DIM_DIFFERENCE, 0, -80, 80 },
  { "contact-ohms", N_ ("Resistance of its closed thermostat contact."), HOB_DIM_RESISTANCE, HOB_CONTACT_OHMS, 1e-4,
    1e4 },
  { "welded", N_ ("1: the thermostat contact is welded shut."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const char *const contact_words[] = { N_ ("contact opens"), N_ ("contact closes"), NULL };

static const HobModeDef modes[] = { { "contact", contact_words } };

static const HobPosition mode_positions[] = {
  { "off", N_ ("OFF"), OFF }, { "bake", N_ ("BAKE"), MODE_BAKE }, { "broil", N_ ("BROIL"), MODE_BROIL }, { NULL },
};

static const HobControlDef controls[] = {
  { "mode", N_ ("selector"), HOB_DIM_CHOICE, mode_positions, OFF, MODE_BROIL, OFF, HOB_EXERCISE_CALL },
  { "dial", N_ ("temperature dial"), HOB_DIM_TEMPERATURE, NULL, DEGF (140), DEGF (550), DEGF (350), HOB_EXERCISE_NONE },
};

static const HobElementDef elements[] = {
  { "thermostat", LINE, MID }, { "bake", MID, BAKE }, { "broil", MID, BROIL },
};

static const HobQuantityDef quantities[] = {
  { "contact", N_ ("thermostat contact, 0 open, 1 closed"), HOB_DIM_NUMBER, HOB_SENSE_NONE },
  { "target", N_ ("temperature asked for; 0 with the oven off"), HOB_DIM_TEMPERATURE, HOB_SENSE_EYE },
  { "behind", N_ ("how far its bulb is below what is asked for; 0 with the oven off"), HOB_DIM_DIFFERENCE,
    HOB_SENSE_NONE },
  { "ahead", N_ ("how far its bulb is above what is asked for; 0 with the oven off"), HOB_DIM_DIFFERENCE,
    HOB_SENSE_NONE },
  { "drop", N_ ("voltage across the thermostat contact"), HOB_DIM_VOLTAGE, HOB_SENSE_NONE },
};

static const HobFaultDef faults[] = {
  { "contact-welded", N_ ("thermostat contact welded shut"), NULL, 1, 4, N_ ("assumption"),
    N_ ("With the oven hot past the dial, no voltage stands across the thermostat contact; it ought to be open."),
    N_ ("Do not use it: gas shut, plug out."), -1, 1, { { WELDED, HOB_EFFECT_SET, 0, 1 } } },
};

/* K; 0 with the oven off. */
static double
target (const HobPartContext *c)
{
  int mode = (int) c->ctl[MODE];

  if (mode == OFF)
    return 0;
  return mode == MODE_BROIL ? controls[DIAL].high : c->ctl[DIAL];
}

static double
too_cold (const HobPartContext *c)
{
  return target (c) + c->set[OFFSET] - c->moved;
}

static void
conduct (const HobPartContext *c)
{
  int mode = (int) c->ctl[MODE];

  if (c->mode[CONTACT] > 0 || c->set[WELDED] > 0)
    c->g[E_THERMOSTAT] = hob_siemens (c->set[CONTACT_OHMS]);
  if (mode == MODE_BAKE)
    c->g[E_BAKE] = hob_siemens (HOB_CONTACT_OHMS);
  if (mode == MODE_BROIL)
    c->g[E_BROIL] = hob_siemens (HOB_CONTACT_OHMS);
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean off = target (c) <= 0;

  if (c->mode[CONTACT] > 0)
    return off ? 1 : -too_cold (c) - c->set[DIFFERENTIAL];
  return off ? -1 : too_cold (c) - c->set[DIFFERENTIAL];
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  c->mode[CONTACT] = c->mode[CONTACT] > 0 ? 0 : 1;
}

static double
observe (const HobPartContext *c, int quantity)
{
  gboolean on = target (c) > 0;

  switch (quantity)
    {
    case Q_CONTACT: return c->mode[CONTACT] > 0 || c->set[WELDED] > 0;
    case Q_TARGET: return target (c);
    case Q_BEHIND: return on ? MAX (target (c) - c->moved, 0) : 0;
    case Q_AHEAD: return on ? MAX (c->moved - target (c), 0) : 0;
    default: return hob_volts_across (c, LINE, MID);
    }
}

static gboolean
asks (const HobPartContext *c, int terminal)
{
  int mode = (int) c->ctl[MODE];

  return (terminal == BAKE && mode == MODE_BAKE) || (terminal == BROIL && mode == MODE_BROIL);
}

/* The selector's blade from the middle to the contact of its mode; off points down. */
static void
draw_selector (HobPen *pen, int mode)
{
  static const double end[][2] = { { 22, 34 }, { 45, -38 }, { 45, 38 } };

  pen_segment (pen, 0, 0, end[mode][0], end[mode][1]);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

/* Thermostat contact on the left with the bulb's capillary below it, selector on the right. */
static void
draw_paper (HobPen *pen)
{
  pen_rect (pen, -79, -79, 158, 158);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_segment (pen, -80, 0, -58, 0);
  pen_segment (pen, -18, 0, 0, 0);
  pen_segment (pen, 48, -40, 80, -40);
  pen_segment (pen, 48, 40, 80, 40);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_contact (pen, -58, -18, 0);
  pen_circle (pen, 0, 0, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, 48, -40, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, 48, 40, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_segment (pen, -38, 4, -38, 48);
  pen_dash (pen, 5, 3);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, -38, 56, 8);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      draw_paper (pen);
      return;
    }
  hob_symbol_blade (pen, -58, -18, 0, view->mode[CONTACT] > 0 || view->set[WELDED] > 0);
  draw_selector (pen, CLAMP ((int) view->ctl[MODE], OFF, MODE_BROIL));
}

const HobKind hob_kind_oven_dial = {
  .name = "oven-dial",
  .label = N_ ("oven control with dial"),
  .about = N_ ("A selector and a thermostat in series: the bulb's fluid opens the contact above the dial and closes "
               "it below, so the dial is the middle of a swing."),
  .flags = HOB_KIND_FRONT,
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = 1,
  .symbol = { [HOB_SHEET_WIRING] = { 160, 160 } },
  .figure = Q_TARGET,
  .turn = target,
  .conduct = conduct,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .asks = asks,
  .draw = draw,
};
