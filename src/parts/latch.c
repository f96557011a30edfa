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

#define DEGF(f) (((f) + 459.67) / 1.8)

static const HobTerminalDef terminals[] = {
  { "a", N_ ("line side"), TRUE, -40, 0 },
  { "b", N_ ("load side"), TRUE, 40, 0 },
};

static const HobSettingDef settings[] = {
  { "holds", N_ ("Temperature of the air above which its pin holds a latched door."),
    HOB_DIM_TEMPERATURE, DEGF (550), 320, 800 },
  { "frees", N_ ("How far the air must cool before the pin lets go."), HOB_DIM_DIFFERENCE, 30, 5,
    200 },
  { "stuck", N_ ("1: it does not come back."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

static const char *const pin_words[] = { N_ ("latch comes free"), N_ ("latch is held"), NULL };
static const HobModeDef modes[] = { { "pinned", pin_words } };

static const HobPosition positions[] = { { "back", N_ ("BAKE"), 0 },
                                         { "latched", N_ ("LATCHED"), 1 },
                                         { NULL } };
static const HobControlDef controls[] = {
  { "", N_ ("Door latch"), HOB_DIM_CHOICE, positions, 0, 1, 0, HOB_EXERCISE_NONE },
};

static const HobElementDef elements[] = { { "contact", A, B } };
static const HobQuantityDef quantities[] = {
  { "latched", N_ ("door latched, 0 or 1"), HOB_DIM_NUMBER, HOB_SENSE_HAND },
};

static const HobFaultDef faults[] = {
  { "stuck",
    N_ ("latch does not come back"),
    NULL,
    1,
    2,
    N_ ("assumption: after self-cleaning"),
    N_ ("The door does not open by hand, and the line voltage stands across the latch's switch."),
    N_ ("Never bridge its switch."),
    -1,
    1,
    { { STUCK, HOB_EFFECT_SET, 0, 1 } } },
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
  c->mode[PINNED] = c->mode[PINNED] > 0 ? 0 : 1;
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
  .label = N_ ("door latch with switch"),
  .about = N_ ("Locks the door for cleaning. Its switch lets the oven bake only while the latch is "
               "back, and a hot oven "
               "holds it."),
  .flags = HOB_KIND_FRONT,
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
