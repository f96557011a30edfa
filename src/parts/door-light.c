/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven lamp with its own door switch built in: the door holds a plunger in; as the door opens, the
 * plunger comes out and closes the contact in series with the filament.
 *
 *   R = R_filament + R_contact   plunger out, filament whole
 *   R = ∞                        else
 *
 * 360 ohms is V²/P of a 40 W lamp at 120 V.  That it shines in proportion to the volts, and is dark
 * below 30 V, is this project's simplification, as is one resistance cold and hot; no published
 * source. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { A, B };
enum { OHMS, BROKEN, STUCK };
enum { Q_SHINES, Q_CURRENT, Q_CLOSED };

#define FULL_VOLTS 120.0
#define DARK_VOLTS 30.0

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -60, 0 },
  { "b", N_ ("neutral side"), TRUE, 60, 0 },
};
static const HobSettingDef settings[] = {
  { "ohms", N_ ("Resistance of the burning lamp; 360 ohms is 40 W at 120 V."), HOB_DIM_RESISTANCE,
    360, 50, 5000 },
  { "broken", N_ ("1: its filament is broken."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "stuck", N_ ("−1: the plunger stays in, 1: it stays out."), HOB_DIM_NUMBER, 0, -1, 1, NULL,
    TRUE },
};
static const HobElementDef elements[] = { { "filament", A, B } };
static const HobQuantityDef quantities[] = {
  { "shines", N_ ("light, 0 to 1"), HOB_DIM_NUMBER, HOB_SENSE_EYE },
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
  { "closed", N_ ("contact closed, 0 or 1"), HOB_DIM_NUMBER, HOB_SENSE_NONE },
};
static const HobFaultDef faults[] = {
  { "open",
    N_ ("lamp burnt out"),
    NULL,
    1,
    6,
    N_ ("assumption"),
    N_ ("Line voltage across the unit with the door open, no light; another lamp lights."),
    N_ ("Hot glass; unplug first."),
    -1,
    1,
    { { BROKEN, HOB_EFFECT_SET, 0, 1 } } },
  { "stuck-in",
    N_ ("plunger stuck in"),
    NULL,
    1,
    2,
    N_ ("assumption"),
    N_ ("The plunger does not come out as the door opens; a good lamp, and yet no continuity "
        "through the unit."),
    N_ ("Hot glass; unplug first."),
    -1,
    1,
    { { STUCK, HOB_EFFECT_SET, 0, -1 } } },
  { "stuck-out",
    N_ ("plunger stuck out"),
    NULL,
    1,
    2,
    N_ ("assumption"),
    N_ ("Pushed by hand, the plunger does not put the light out: it shines behind a closed door."),
    N_ ("Hot glass; unplug first."),
    -1,
    1,
    { { STUCK, HOB_EFFECT_SET, 0, 1 } } },
};

static gboolean
closed (const HobPartContext *c)
{
  return c->set[STUCK] != 0 ? c->set[STUCK] > 0 : c->moved > 0.5;
}

static void
conduct (const HobPartContext *c)
{
  if (closed (c) && !(c->set[BROKEN] > 0))
    c->g[0] = hob_siemens (c->set[OHMS] + HOB_CONTACT_OHMS);
}

static void
rates (const HobPartContext *c)
{
  double watt = hob_complex_abs2 (c->i[0]) * c->set[OHMS];

  c->within[HOB_PLACE_HEAT_AIR] += watt;
  c->ledger[HOB_LEDGER_HEAT_IN] += watt;
}

static double
observe (const HobPartContext *c, int quantity)
{
  double amps = hob_complex_abs (c->i[0]), volts = amps * c->set[OHMS];

  switch (quantity)
    {
    case Q_CURRENT:
      return amps;
    case Q_CLOSED:
      return closed (c);
    default:
      return volts < DARK_VOLTS ? 0 : MIN (volts / FULL_VOLTS, 1);
    }
}

/* Wiring: one box; the plunger below lifts the blade while the door holds it in. */
static void
draw_wiring (HobPen *pen, const HobPartView *view)
{
  gboolean shut = view->quantity[Q_CLOSED] > 0;

  if (view->layer == HOB_LAYER_PAPER)
    {
      pen_rect (pen, -52, -28, 104, 56);
      pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
      hob_symbol_leads (pen, 40, 60);
      pen_segment (pen, -8, 0, 6, 0);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
      hob_symbol_contact (pen, -40, -8, 0);
      hob_symbol_lamp (pen, 24, 16, HOB_ROLE_PANEL, HOB_ROLE_INK);
      return;
    }
  hob_symbol_blade (pen, -40, -8, 0, shut);
  pen_dash (pen, 3, 2);
  pen_segment (pen, -24, shut ? 0 : -7, -24, shut ? 35 : 28);
  pen_stroke (pen, HOB_ROLE_INK2, HOB_DETAIL);
  pen_rect (pen, -30, shut ? 35 : 28, 12, 5);
  pen_fill (pen, HOB_ROLE_INK);
  hob_symbol_rays (pen, 24, 16, view->quantity[Q_SHINES]);
}

/* Cutaway: the lamp in its holder, the plunger out of it to the right, where the door is. */
static void
draw_cutaway (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_lamp (pen, -18, 10, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK);
      pen_segment (pen, -8, 0, 4, 0);
      pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
      pen_rect (pen, 4, -12, 16, 24);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
      return;
    }
  pen_rect (pen, 20, -5, view->quantity[Q_CLOSED] > 0 ? 19 : 7, 10);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  hob_symbol_rays (pen, -18, 10, view->quantity[Q_SHINES]);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_WIRING)
    draw_wiring (pen, view);
  else
    draw_cutaway (pen, view);
}

const HobKind hob_kind_door_light = {
  .name = "door-light",
  .label = N_ ("oven light with door switch"),
  .about = N_ ("A lamp and a plunger in one unit: as the door opens, the plunger comes out and the "
               "lamp shines, without a board or a key."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_WIRING] = { 120, 80 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },
  .figure = -1,
  .conduct = conduct,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
