/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Liquid-filled bulb of a dial thermostat: its fluid's temperature is what its capillary hands on. */

#include "base/i18n.h"
#include "parts/sensing.h"
#include "parts/symbol.h"

enum { LAG };
enum { SENSED };
enum { Q_SENSED };

static const HobSettingDef settings[] = {
  { "lag", N_ ("How long it lags behind still air."), HOB_DIM_TIME, HOB_SENSED_LAG, 2, 1200 },
};

static const HobStateDef states[] = {
  { "sensed", N_ ("temperature of the fluid"), HOB_DIM_TEMPERATURE, 0.05 },
};

static const HobQuantityDef quantities[] = {
  { "sensed", N_ ("temperature of the fluid"), HOB_DIM_TEMPERATURE, HOB_SENSE_NONE },
};

static void
start (const HobPartContext *c, double *y)
{
  y[SENSED] = c->house->temperature;
}

static double
turn (const HobPartContext *c)
{
  return c->y[SENSED];
}

static void
rates (const HobPartContext *c)
{
  c->dy[SENSED] = hob_sensing_rate (c, c->y[SENSED], c->set[LAG]);
}

static double
observe (const HobPartContext *c, int quantity)
{
  return c->y[SENSED];
}

/* A thin capsule with its capillary. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  HobRole ink = view->sheet == HOB_SHEET_CUTAWAY ? HOB_ROLE_CAVITY_INK : HOB_ROLE_INK;
  HobRole ground = view->sheet == HOB_SHEET_CUTAWAY ? HOB_ROLE_CAVITY : HOB_ROLE_PANEL;

  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_move (pen, -38, 0);
  pen_curve (pen, -30, -14, -22, 10, -12, 0);
  pen_stroke (pen, ink, HOB_DETAIL);
  pen_arc (pen, -6, 0, 6, G_PI / 2, 3 * G_PI / 2);
  pen_line (pen, 30, -6);
  pen_arc (pen, 30, 0, 6, -G_PI / 2, G_PI / 2);
  pen_close (pen);
  pen_fill_stroke (pen, ground, ink, HOB_OUTLINE);
}

const HobKind hob_kind_bulb = {
  .name = "bulb",
  .label = N_ ("thermostat bulb"),
  .about = N_ ("A thin bulb of liquid clipped up in the cavity. The liquid swells with heat and works the "
               "control's contact through a capillary."),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 }, [HOB_SHEET_CUTAWAY] = { 80, 40 } },
  .figure = Q_SENSED,
  .start = start,
  .turn = turn,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
