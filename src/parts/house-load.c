/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A furnace or water heater on the same supply pipe.  Its burner has a regulator of its own, so
 * it burns what its data plate says as long as the pressure suffices, and the range gets what
 * is left.  Its heat goes up its own flue and not into the kitchen. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { IN, OUT, JET };
enum { HEAT };
enum { POSITION };
enum { D_THROUGH, D_REGULATOR, D_JET };
enum { Q_HEAT };

#define BORE_AREA 1.2e-4   /* m², discharge included: the tee */
#define SEAT_AREA 2e-4     /* m², its regulator fully open */
#define MANIFOLD 871.8     /* Pa, 3.5 in. w.c., usual for a furnace; LP … */
#define LP_MANIFOLD 2490.9 /* … 10 in. w.c. [common practice] */
#define LOCKUP 0.05

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("supply side"), .required = TRUE, .way = HOB_WAY_IN, .x = -40 },
  { .name = "out", .words = N_ ("range side"), .required = TRUE,
    .way = HOB_WAY_OUT, .x = 40 },
  { .name = "jet", .words = N_ ("pressure tap on the appliance's manifold"),
    .way = HOB_WAY_OUT, .y = 40 },
};
static const HobSettingDef settings[] = {
  { .name = "heat", .words = N_ ("Rated input of the other appliance, from its data plate."),
    .dim = HOB_DIM_POWER, .normal = 80000 * 0.29307107, .low = 100, .high = 200e3,
    .of = HOB_SETTING_HOUSE },
};
static const HobControlDef controls[] = {
  { .name = "", .words = N_ ("Other gas appliance"), .dim = HOB_DIM_CHOICE, .positions = hob_off_on,
    .high = 1 },
};
static const HobDuctDef ducts[] = {
  { .name = "tee", .a = IN, .b = OUT },
  { .name = "regulator", .a = OUT, .b = JET },
  { .name = "jets", .a = JET, .b = -1 },
};
static const HobQuantityDef quantities[] = {
  { .name = "heat", .words = N_ ("heat input"), .dim = HOB_DIM_POWER },
};

/* Area of orifices drilled for the gas that flows, at sea level: they burn the rated heat at
 * the manifold pressure. */
static void
flow (const HobPartContext *c)
{
  gboolean lp = c->house->fuel->specific_gravity > 1;
  const HobFuel *fuel = &hob_fuels[lp ? HOB_FUEL_LP : HOB_FUEL_NATURAL];
  double pressure = lp ? LP_MANIFOLD : MANIFOLD;

  c->duct[D_THROUGH] = (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = BORE_AREA };
  if (!(c->ctl[POSITION] > 0))
    return;
  c->duct[D_REGULATOR] = (HobDuct){
    .law = HOB_DUCT_REGULATOR, .area = SEAT_AREA, .set = pressure, .lockup = LOCKUP
  };
  c->duct[D_JET]
      = (HobDuct){ .law = HOB_DUCT_ORIFICE,
                   .area = c->set[HEAT] / fuel->heat / sqrt (2 * fuel->density * pressure) };
}

static double
observe (const HobPartContext *c, int quantity G_GNUC_UNUSED)
{
  return c->q[D_JET] * c->house->fuel->heat;
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      if (view->ctl[POSITION] > 0)
        for (int x = -8; x <= 8; x += 8)
          hob_symbol_flame (pen, x, 32, &(HobSymbolFlame){ .height = 14 });
      return;
    }
  hob_symbol_tube (pen, -40, 40, 0);
  pen_segment (pen, 0, 4, 0, 12);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_OUTLINE);
  pen_rect (pen, -18, 12, 36, 26);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_OUTLINE);
}

const HobKind hob_kind_house_load = {
  .name = "house-load",
  .label = N_ ("another appliance on the same gas pipe"),
  .about = N_ ("Another gas appliance on the same gas pipe. When it's on, the pressure at the "
               "range drops."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (controls, controls),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = Q_HEAT,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
