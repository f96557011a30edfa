/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Door latch of a self-cleaning oven with its switch: the oven bakes only while the latch is back.
 * A bimetal pin holds a latched door while the air is hot, so a latch drawn for cleaning comes back
 * only when the oven has cooled. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { A, B };
enum { HOLDS, FREES, STUCK };
enum { PINNED };
enum { HANDLE };
enum { Q_LATCHED };


static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("load side"), .required = TRUE, .x = 40 },
};

static const HobSettingDef settings[] = {
  { .name = "holds",
    .words = N_ ("Oven temperature above which the door stays locked."),
    .dim = HOB_DIM_TEMPERATURE, .normal = HOB_DEGF (550), .low = 320, .high = 800 },
  { .name = "frees", .words = N_ ("How far below the lock temperature the oven must cool before "
                                  "the door unlocks."),
    .dim = HOB_DIM_DIFFERENCE, .normal = 30, .low = 5, .high = 200 },
  { .name = "stuck", .words = "1: it does not come back.", .high = 1, .condition = TRUE },
};

static const char *const pin_words[] = { N_ ("door unlocks"), N_ ("door locks"), NULL };
static const HobModeDef modes[] = {
  { .name = "pinned", .words = pin_words },
};

static const HobPosition positions[] = {
  { .name = "back", .words = N_ ("BAKE"), .value = 0 },
  { .name = "latched", .words = N_ ("LOCKED"), .value = 1 },
  { NULL },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Door lock"), .dim = HOB_DIM_CHOICE, .positions = positions,
    .high = 1, .role = HOB_CONTROL_LATCH, .front = HOB_FRONT_DOOR },
};

static const HobElementDef elements[] = {
  { .name = "contact", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "latched", .words = N_ ("door locked"), .values = hob_no_yes, .sense = HOB_SENSE_HAND },
};

static const HobFaultDef faults[] = {
  {
    .id = "stuck",
    .words = N_ ("door lock stuck locked"),
    .prior = 2,
    .basis = "after self-cleaning",
    .proof = N_ ("With the oven cold and no self-clean cycle running, set the door lock to BAKE. "
                 "Pull the door handle. The door stays locked. Set the oven to bake and read the "
                 "volts across the door lock switch. There is line voltage; there should be none."),
    .confirm = HOB_MEANS (LOOK) | HOB_MEANS (LIVE_VOLTS),
    HOB_EFFECTS ({ .setting = STUCK, .at1 = 1 }),
  },
};

static gboolean
latched (const HobPartContext *c)
{
  return c->ctl[HANDLE] > 0 || c->mode[PINNED] > 0 || c->set[STUCK] > 0;
}

static void
conduct (const HobPartContext *c)
{
  if (!latched (c))
    c->g[0] = hob_siemens (HOB_CONTACT_OHMS);
}

static double
guard (const HobPartContext *c, int k G_GNUC_UNUSED)
{
  double hot = c->within[HOB_PLACE_AIR] - c->set[HOLDS];

  if (c->mode[PINNED] > 0)
    return -hot - c->set[FREES];
  return c->ctl[HANDLE] > 0 ? hot : -1;
}

static void
flip (const HobPartContext *c, int k G_GNUC_UNUSED, double *y G_GNUC_UNUSED)
{
  hob_mode_toggle (c, PINNED);
}

static double
observe (const HobPartContext *c, int quantity G_GNUC_UNUSED)
{
  return latched (c);
}

/* The bolt pushes the contact open. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  gboolean shut = view->layer == HOB_LAYER_STATE && view->quantity[Q_LATCHED] > 0;

  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_leads (pen, 20, 40);
      hob_symbol_contact (pen, -20, 20, 0);
      return;
    }
  hob_symbol_blade (pen, -20, 20, 0, !shut);
  pen_rect (pen, shut ? -4 : -18, 8, 18, 6);
  pen_fill (pen, HOB_ROLE_INK);
}

const HobKind hob_kind_latch = {
  .name = "latch",
  .label = N_ ("door lock with switch"),
  .about = N_ ("Locks the door for self-clean and keeps it locked while the oven is hot. Its "
               "switch allows baking only with the door unlocked."),
  .hazards = HOB_HAZARD (NO_BYPASS),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = 1,
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = -1,
  .conduct = conduct,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
