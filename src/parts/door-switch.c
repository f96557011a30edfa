/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Switch behind the door: closes when the door opens (light), or, where set so, when it closes. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { A, B };
enum { CLOSES_WHEN, STUCK };
enum { Q_CLOSED };

static const char *const whens[] = { "open", "closed", NULL };
static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("load side"), .required = TRUE, .x = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "closes-when", .words = N_ ("Door position that closes the contact."),
    .dim = HOB_DIM_CHOICE, .high = 1, .choices = whens },
  { .name = "stuck", .words = "−1: stuck open, 1: stuck closed.", .low = -1, .high = 1,
    .condition = TRUE },
};
static const HobElementDef elements[] = {
  { .name = "contact", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "closed", .words = N_ ("contact closed"), .values = hob_no_yes },
};
static const HobFaultDef faults[] = {
  {
    .id = "stuck-open",
    .words = N_ ("door switch stuck open"),
    .prior = 2,
    .proof = N_ ("Unplug the range and take one lead off the door switch. Read ohms with the door "
                 "open, then closed. The switch reads OL both times; the reading should change."),
    .confirm = HOB_MEANS (CONTINUITY),
    HOB_EFFECTS ({ .setting = STUCK, .at1 = -1 }),
  },
  {
    .id = "stuck-closed",
    .words = N_ ("door switch stuck closed"),
    .prior = 2,
    .proof = N_ ("Unplug the range and take one lead off the door switch. Read ohms with the door "
                 "open, then closed. The switch has continuity both times; the reading should "
                 "change."),
    .confirm = HOB_MEANS (CONTINUITY),
    HOB_EFFECTS ({ .setting = STUCK, .at1 = 1 }),
  },
};

static gboolean
closed (const HobPartContext *c)
{
  if (c->set[STUCK] != 0)
    return c->set[STUCK] > 0;
  return (c->moved > 0.5) == (c->set[CLOSES_WHEN] < 0.5);
}

static void
conduct (const HobPartContext *c)
{
  if (closed (c))
    c->g[0] = hob_siemens (HOB_CONTACT_OHMS);
}

static double
observe (const HobPartContext *c, int quantity)
{
  return closed (c);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  gboolean shut = view->quantity[Q_CLOSED] > 0;

  if (view->layer == HOB_LAYER_PAPER)
    {
      hob_symbol_leads (pen, 20, 40);
      hob_symbol_contact (pen, -20, 20, 0);
      return;
    }
  hob_symbol_blade (pen, -20, 20, 0, shut);
  pen_rect (pen, -4, shut ? -16 : -20, 8, 5); /* the plunger */
  pen_fill (pen, HOB_ROLE_INK);
  pen_dash (pen, 3, 2);
  pen_segment (pen, 0, shut ? -11 : -15, 0, shut ? 0 : -8);
  pen_stroke (pen, HOB_ROLE_INK2, HOB_DETAIL);
}

const HobKind hob_kind_door_switch = {
  .name = "door-switch",
  .label = N_ ("door switch"),
  .about = N_ ("A plunger switch that the door operates."),
  .hazards = HOB_HAZARD (NO_BYPASS),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (faults, faults),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = -1,
  .conduct = conduct,
  .observe = observe,
  .draw = draw,
};
