/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Somebody's hand on bare metal: 2 kΩ to earth through body and shoes (IEC 60479 gives the order of
 * it; from memory). */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { HAND };
enum { TOUCH };
enum { OHMS };
enum { Q_TINGLE };

static const HobTerminalDef terminals[] = { { "hand", N_ ("hand"), FALSE, 20, 0 } };
static const HobSettingDef settings[] = {
  { "ohms", N_ ("Resistance from hand to earth."), HOB_DIM_RESISTANCE, 2000, 300, 1e6 },
};
static const HobPosition positions[] = {
  { "away", N_ ("AWAY"), 0 },
  { "chassis", N_ ("HAND ON METAL"), 1 },
  { NULL },
};
static const HobControlDef controls[] = {
  { "", N_ ("Hand on the range"), HOB_DIM_CHOICE, positions, 0, 1, 0, HOB_EXERCISE_TRY },
};
static const HobElementDef elements[] = { { "body", HAND, -1 } };
static const HobQuantityDef quantities[] = {
  { "felt", N_ ("current through the person"), HOB_DIM_CURRENT, HOB_SENSE_HAND },
};

static void
conduct (const HobPartContext *c)
{
  if (c->ctl[TOUCH] > 0)
    c->g[0] = hob_siemens (c->set[OHMS]);
}

static double
observe (const HobPartContext *c, int quantity)
{
  return hob_complex_abs (c->i[0]);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      gboolean touches = view->ctl[TOUCH] > 0;

      pen_segment (pen, -4, -12, touches ? 20 : 8, touches ? 0 : 8);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
      return;
    }
  pen_circle (pen, -4, -26, 8);
  pen_segment (pen, -4, -18, -4, 10);
  pen_segment (pen, -4, 10, -12, 34);
  pen_segment (pen, -4, 10, 4, 34);
  pen_segment (pen, -16, 36, 12, 36);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_person = {
  .name = "person",
  .label = N_ ("person"),
  .about = N_ ("Feels half a milliampere; is not an instrument."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 40, 80 } },
  .figure = -1,
  .conduct = conduct,
  .observe = observe,
  .draw = draw,
};
