/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Oven light with a door switch built in.  The closed door holds a plunger in; as the door
 * opens, the plunger comes out and closes the contact in series with the filament.
 *
 *   R = R_filament + R_contact   plunger out, filament not burned out
 *   R = ∞                        else
 *
 * 360 ohms is V²/P of a 40 W bulb at 120 V. */

#include "parts/filament.h"
#include "parts/symbol.h"

enum { A, B };
enum { STUCK = HOB_FILAMENT_N_SETTINGS };
enum { Q_SHINES, Q_CURRENT, Q_CLOSED };

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -60 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 60 },
};
static const HobSettingDef settings[] = {
  HOB_FILAMENT_SETTINGS,
  { .name = "stuck", .words = "−1: the plunger stays in, 1: it stays out.", .low = -1,
    .high = 1, .condition = TRUE },
};
static const HobStateDef states[] = {
  HOB_FILAMENT_STATE,
};
static const HobModeDef modes[] = {
  HOB_FILAMENT_MODE,
};
static const HobElementDef elements[] = {
  { .name = "filament", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "shines", .words = N_ ("brightness of the light"), .say = HOB_SAY_SHARE,
    .sense = HOB_SENSE_EYE },
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
  { .name = "closed", .words = N_ ("contact closed"), .values = hob_no_yes },
};
static const HobFaultDef faults[] = {
  {
    .id = "open",
    .words = N_ ("oven light bulb burned out"),
    .prior = 6,
    .proof = N_ ("Open the door and read the volts across the terminals of the light assembly. "
                 "There is line voltage, but the light stays off. Turn off the breaker, put in a "
                 "known-good bulb, and turn the breaker back on. Now the light works."),
    .confirm = HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (SWAP),
    HOB_EFFECTS ({ .setting = HOB_FILAMENT_BROKEN, .at1 = 1 }),
  },
  {
    .id = "stuck-in",
    .words = N_ ("door switch plunger stuck in the pressed position"),
    .prior = 2,
    .proof = N_ ("Open the door and look at the plunger. It doesn't come out. Unplug the range. "
                 "Even with a good bulb, the light assembly reads OL from terminal to terminal."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (CONTINUITY),
    HOB_EFFECTS ({ .setting = STUCK, .at1 = -1 }),
  },
  {
    .id = "stuck-out",
    .words = N_ ("door switch plunger stuck in the extended position"),
    .prior = 2,
    .proof = N_ ("Try to push the plunger in by hand. The light should go off, but the plunger "
                 "doesn't move and the light stays on."),
    .confirm = HOB_MEANS (LOOK),
    HOB_EFFECTS ({ .setting = STUCK, .at1 = 1 }),
  },
};

static gboolean
closed (const HobPartContext *c)
{
  return c->set[STUCK] != 0 ? c->set[STUCK] > 0 : c->moved > 0.5;
}

static void
conduct (const HobPartContext *c)
{
  if (closed (c))
    c->g[0] = hob_siemens (hob_filament_ohms (c) + HOB_CONTACT_OHMS);
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_CURRENT:
      return hob_complex_abs (c->i[0]);
    case Q_CLOSED:
      return closed (c);
    default:
      return hob_filament_shines (c);
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
  .about = N_ ("An oven light bulb and a plunger switch in one assembly. As the door opens, the "
               "plunger comes out and turns the light on. The light works without the oven "
               "control."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_WIRING] = { 120, 80 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },
  .figure = -1,
  .conduct = conduct,
  .at_rest = hob_filament_at_rest,
  .rates = hob_filament_rates,
  .n_guards = 1,
  .guard_reads = hob_filament_guard_reads,
  .guard = hob_filament_guard,
  .flip = hob_filament_flip,
  .observe = observe,
  .draw = draw,
};
