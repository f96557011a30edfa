/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Another appliance on the same circuit, plugged into the other half of the receptacle: a
 * resistance that pulls the voltage down for everything on the same wires.  A kettle boils, and all
 * that it takes then leaves as steam (2.257 MJ/kg, the heat of evaporation of water at 100 °C):
 *
 *   c·m·dT/dt = P·(1 − b) − G·(T − Tₐ),   ṁ_steam = P·b/2.257 MJ/kg
 *
 * b goes from 0 to 1 between 98 and 100 °C.  Once all of its water has left, its own switch opens;
 * whoever turns it off fills it again. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { A, B };
enum { WATTS, WATER };
enum { KELVIN, BOILED };
enum { DRY };
enum { G_BOILS_DRY, G_IS_FILLED, N_GUARDS };
enum { POSITION };
enum { Q_CURRENT };

#define RATED_AT 120.0   /* V at which it takes its watts */
#define HEAT 4186.0      /* J/kg K, water */
#define EVAPORATION 2.257e6
#define LOSS 1.0         /* W/K; invented */

static const HobTerminalDef terminals[] = {
  { .name = "a", .words = N_ ("line side"), .required = TRUE, .x = -40 },
  { .name = "b", .words = N_ ("neutral side"), .required = TRUE, .x = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "watts", .words = N_ ("Wattage of the appliance at 120 V."), .dim = HOB_DIM_WATTS,
    .normal = 1200, .low = 1, .high = 5000, .of = HOB_SETTING_HOUSE },
  { .name = "water", .words = N_ ("Weight of the water in the appliance. Enter 0 for none."),
    .dim = HOB_DIM_MASS, .high = 20, .of = HOB_SETTING_HOUSE },
};
static const HobStateDef states[] = {
  { .name = "water", .words = "temperature of the water", .dim = HOB_DIM_TEMPERATURE,
    .tolerance = 0.1 },
  { .name = "boiled", .words = "water that has left as steam", .dim = HOB_DIM_MASS,
    .tolerance = 1e-3 },
};
static const char *const dry_words[]
    = { N_ ("other appliance on the circuit is refilled with water"),
        N_ ("other appliance on the circuit boils dry and shuts off"), NULL };
static const HobModeDef modes[] = {
  { .name = "dry", .words = dry_words },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Other appliance"), .dim = HOB_DIM_CHOICE, .positions = hob_off_on,
    .high = 1 },
};
static const HobElementDef elements[] = {
  { .name = "load", .a = A, .b = B },
};
static const HobQuantityDef quantities[] = {
  { .name = "current", .words = N_ ("current"), .dim = HOB_DIM_CURRENT },
};

static void
conduct (const HobPartContext *c)
{
  if (c->ctl[POSITION] > 0 && !(c->mode[DRY] > 0))
    c->g[0] = hob_siemens (RATED_AT * RATED_AT / c->set[WATTS]);
}

static void
start (const HobPartContext *c, double *y)
{
  y[KELVIN] = c->house->temperature;
}

static void
rates (const HobPartContext *c)
{
  double watt = hob_complex_abs2 (c->i[0]) * RATED_AT * RATED_AT / c->set[WATTS];
  double boils = CLAMP ((c->y[KELVIN] - 371.15) / 2, 0, 1);

  if (!(c->set[WATER] > 0))
    return;
  c->dy[KELVIN] = (watt * (1 - boils) - LOSS * (c->y[KELVIN] - c->house->temperature))
                  / (HEAT * c->set[WATER]);
  c->dy[BOILED] = watt * boils / EVAPORATION;
  c->within[HOB_PLACE_STEAM] += c->dy[BOILED];
}

static double
guard (const HobPartContext *c, int k)
{
  gboolean dry = c->mode[DRY] > 0;

  if (k == G_IS_FILLED)
    return dry && !(c->ctl[POSITION] > 0) ? 1 : -1;
  return dry || !(c->set[WATER] > 0) ? -1 : c->y[BOILED] / c->set[WATER] - 1;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  c->mode[DRY] = k == G_BOILS_DRY;
  if (k == G_IS_FILLED)
    y[BOILED] = 0;
}

static const guint8 guard_reads[N_GUARDS] = { HOB_READS_NOTHING, HOB_READS_NOTHING };

static double
observe (const HobPartContext *c, int quantity G_GNUC_UNUSED)
{
  return hob_complex_abs (c->i[0]);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      hob_symbol_blade (pen, -30, -12, 0, view->ctl[POSITION] > 0 && !(view->mode[DRY] > 0));
      return;
    }
  pen_segment (pen, -40, 0, -30, 0);
  pen_segment (pen, 28, 0, 40, 0);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_contact (pen, -30, -12, 0);
  pen_rect (pen, -8, -10, 36, 20);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_branch_load = {
  .name = "branch-load",
  .label = N_ ("another appliance on the same circuit"),
  .about
  = N_ ("Another appliance on the same circuit. When that appliance is on, the range gets less "
        "voltage."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (controls, controls),
  HOB_TABLE (elements, elements),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 40 } },
  .figure = -1,
  .start = start,
  .conduct = conduct,
  .rates = rates,
  .n_guards = N_GUARDS,
  .guard_reads = guard_reads,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
