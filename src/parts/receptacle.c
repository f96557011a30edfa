/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Wall receptacle, with the branch behind it: what stands there unloaded and what the wire from the
 * panel drops. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { LINE, NEUTRAL, GROUND, FEED, RETURN, EARTH };
enum { VOLTS, SOURCE_OHMS, NEUTRAL_OHMS, REVERSED, GROUND_OPEN };
enum { E_LINE, E_NEUTRAL, E_GROUND, E_CROSS_LINE, E_CROSS_NEUTRAL };
enum { Q_CURRENT, Q_VOLTS };

#define NOMINAL 120.0 /* V at the panel */

static const HobTerminalDef terminals[] = {
  { "line", N_ ("short slot, line"), TRUE, 40, -40 },
  { "neutral", N_ ("long slot, neutral"), TRUE, 40, 0 },
  { "ground", N_ ("round hole, ground"), FALSE, 40, 40 },
  { "feed", N_ ("line from the breaker"), TRUE, -40, -40 },
  { "return", N_ ("neutral to the panel"), TRUE, -40, 0 },
  { "earth", N_ ("earth to the panel"), FALSE, -40, 40 },
};
static const HobSettingDef settings[] = {
  { "volts", N_ ("Voltage that stands here without load."), HOB_DIM_VOLTAGE, 120, 60, 140 },
  { "source-ohms", N_ ("Resistance of the branch, both ways together."), HOB_DIM_RESISTANCE, 0.25,
    0.01, 20 },
  { "neutral-ohms", N_ ("Resistance of the neutral's joint."), HOB_DIM_RESISTANCE, HOB_CONTACT_OHMS,
    HOB_CONTACT_OHMS, INFINITY, NULL, TRUE },
  { "reversed", N_ ("1: line and neutral are exchanged."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "ground-open", N_ ("1: the ground is not connected."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};
static const HobElementDef elements[] = {
  { "line", FEED, LINE },
  { "neutral", NEUTRAL, RETURN },
  { "ground", GROUND, EARTH },
  { "line exchanged", FEED, NEUTRAL },
  { "neutral exchanged", LINE, RETURN },
};
static const HobQuantityDef quantities[] = {
  { "current", N_ ("current"), HOB_DIM_CURRENT, HOB_SENSE_NONE },
  { "volts", N_ ("voltage line to neutral"), HOB_DIM_VOLTAGE, HOB_SENSE_NONE },
};

static void
conduct (const HobPartContext *c)
{
  gboolean reversed = c->set[REVERSED] > 0;
  int line = reversed ? E_CROSS_LINE : E_LINE, neutral = reversed ? E_CROSS_NEUTRAL : E_NEUTRAL;

  c->g[line] = hob_siemens (c->set[SOURCE_OHMS]);
  c->emf[line].re = c->set[VOLTS] - NOMINAL;
  c->g[neutral] = hob_siemens (c->set[NEUTRAL_OHMS]);
  if (!(c->set[GROUND_OPEN] > 0))
    c->g[E_GROUND] = hob_siemens (HOB_CONTACT_OHMS);
}

static double
observe (const HobPartContext *c, int quantity)
{
  if (quantity == Q_VOLTS)
    return hob_volts_across (c, LINE, NEUTRAL);
  return hob_complex_abs (c->i[c->set[REVERSED] > 0 ? E_CROSS_LINE : E_LINE]);
}

/* One contact that a pin enters. */
static void
socket (HobPen *pen, double y)
{
  pen_segment (pen, -40, y, -8, y);
  pen_segment (pen, 4, y, 40, y);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  pen_move (pen, 0, y - 8);
  pen_arc (pen, 0, y, 8, -G_PI_2, -3 * G_PI_2);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_rect (pen, -24, -60, 48, 120);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  for (int y = -40; y <= 40; y += 40)
    socket (pen, y);
  hob_symbol_earth (pen, 12, 46);
}

const HobKind hob_kind_receptacle = {
  .name = "receptacle",
  .label = N_ ("receptacle"),
  .about
  = N_ ("Where the range is plugged in. Its voltage sags under load by what the branch resists."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 120 } },
  .figure = Q_CURRENT,
  .conduct = conduct,
  .observe = observe,
  .draw = draw,
};
