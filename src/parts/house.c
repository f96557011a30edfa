/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The house: the panel's 120 V, neutral bonded to earth there, the metal gas pipe as an earth of
 * its own, the gas supply, and the kitchen's air.  Earth is the circuit's reference.
 *
 * High up, gas is as thin as the air: a jet lets out √(p/p₀) of its mass, 1.8 % of the heat less
 * for each 1,000 ft. The air that a draught brings thins by p/p₀, 3.5 %: jets that are to keep
 * their share of air must give up as much, which is the trade's rule of 4 % for each 1,000 ft.
 * Primary air, drawn in by the jet itself, keeps its share. */

#include "base/i18n.h"
#include "parts/symbol.h"

#include <math.h>

enum { LINE, NEUTRAL, EARTH, PIPE };
enum { GAS };
enum {
  TEMPERATURE,
  HUMIDITY,
  FUEL,
  PIPE_OHMS,
  GAS_PRESSURE,
  ALTITUDE,
  PRESSURE_SHARE,
  SERVICE_SHARE
};
enum { E_SOURCE, E_NEUTRAL, E_EARTH, E_PIPE };
enum { Q_TEMPERATURE, Q_PRESSURE };

#define SEA_LEVEL 101325.0 /* Pa, ICAO */
#define LINE_VOLTS 120.0
#define BUS_OHMS 0.001
#define SUPPLY_AREA 8e-5      /* m², discharge included: a service far larger than a range */
#define NATURAL_SUPPLY 1744.0 /* Pa, 7 in. w.c.; common practice, no source */
#define LP_SUPPLY 2740.0      /* Pa, 11 in. w.c.; common practice, no source */

static const HobTerminalDef terminals[] = {
  { "line", N_ ("line bus of the panel"), TRUE, 40, -40 },
  { "neutral", N_ ("neutral bus of the panel, bonded to earth"), TRUE, 40, 0 },
  { "earth", N_ ("earth bus of the panel"), FALSE, 40, 40 },
  { "pipe", N_ ("metal gas pipe"), FALSE, 40, 80 },
};

static const HobPortDef ports[] = { { "gas", N_ ("house gas pipe"), FALSE, HOB_WAY_OUT, 40, 0 } };

static const char *const fuels[] = { "natural-gas", "lp", NULL };

static const HobSettingDef settings[] = {
  { "temperature", N_ ("Temperature of the kitchen."), HOB_DIM_TEMPERATURE, 298.15, 253.15,
    323.15 },
  { "humidity", N_ ("Relative humidity of the kitchen, 0 to 1 or in %."), HOB_DIM_NUMBER, 0.5, 0,
    1 },
  { "fuel", N_ ("The gas that flows, whatever the plate says."), HOB_DIM_CHOICE, 0, 0, 1, fuels },
  { "gas-pipe-ohms",
    N_ ("Resistance of the gas pipe to earth; open where it is plastic or has an insulating "
        "union."),
    HOB_DIM_RESISTANCE, 2, 0.01, INFINITY },
  { "gas-pressure", N_ ("Supply pressure behind the house pipe; 0: what is usual for the fuel."),
    HOB_DIM_PRESSURE, 0, 0, 20000 },
  { "altitude", N_ ("Height above the sea."), HOB_DIM_LENGTH, 0, -400, 4000 },
  { "pressure-share", N_ ("Share of its pressure that the supply has."), HOB_DIM_NUMBER, 1, 0, 2,
    NULL, TRUE },
  { "service-share", N_ ("Share of its opening that the service has."), HOB_DIM_NUMBER, 1, 0, 1,
    NULL, TRUE },
};

static const HobFaultDef faults[] = {
  { "gas-low",
    N_ ("supply pressure low"),
    N_ ("pressure falls to 1 − 0.9 · severity of what is usual"),
    0.7,
    1,
    N_ ("assumption: an LP cylinder nearly empty, a service regulator that fails; seldom on a town "
        "main"),
    N_ ("Supply pressure, standing, at the range's inlet: low with all burners off already."),
    N_ ("Pressure tap: gas shut, gauge fitted, leak-tested; afterwards plugged and leak-tested."),
    -1,
    1,
    { { PRESSURE_SHARE, HOB_EFFECT_MULTIPLY, 1, 0.1 } } },
  { "gas-starved",
    N_ ("supply cannot keep up: LP cylinder too cold, service clogged"),
    N_ ("its opening shrinks to 0.02 at severity 1, a tenth about half-way"),
    1,
    1,
    N_ ("assumption: a small LP cylinder in winter"),
    N_ ("Supply pressure stands as it should with all off and falls with each burner that is "
        "turned on."),
    N_ ("Pressure tap: gas shut, gauge fitted, leak-tested; afterwards plugged and leak-tested."),
    -1,
    1,
    { { SERVICE_SHARE, HOB_EFFECT_MULTIPLY, 1, 0.02, TRUE } } },
  { "pipe-insulates",
    N_ ("gas pipe does not reach earth: plastic, or an insulating union"),
    NULL,
    1,
    2,
    N_ ("assumption: common in newer houses, harmless by itself"),
    N_ ("Unplugged: resistance from the pipe at the range to the earth of the receptacle."),
    NULL,
    -1,
    1,
    { { PIPE_OHMS, HOB_EFFECT_SET, 1e9, 1e9 } } },
};

static const HobElementDef elements[] = {
  { "source", -1, LINE },
  { "neutral bus", NEUTRAL, -1 },
  { "earth bus", EARTH, -1 },
  { "gas pipe", PIPE, -1 },
};

static const HobDuctDef ducts[] = { { "supply", -1, GAS } };

static const HobQuantityDef quantities[] = {
  { "air", N_ ("temperature of the kitchen"), HOB_DIM_TEMPERATURE, HOB_SENSE_THERMOMETER },
  { "pressure", N_ ("gas pressure at the house pipe"), HOB_DIM_PRESSURE, HOB_SENSE_NONE },
};

static void
house (const HobPartContext *c, HobHouse *h)
{
  h->temperature = c->set[TEMPERATURE];
  h->humidity = c->set[HUMIDITY];
  /* Standard atmosphere, ICAO: p = 101325·(1 − 2.25577e-5·h)^5.25588 */
  h->pressure = SEA_LEVEL * pow (1 - 2.25577e-5 * c->set[ALTITUDE], 5.25588);
  h->thinned = hob_fuels[(int)c->set[FUEL]];
  h->thinned.density *= h->pressure / SEA_LEVEL;
  h->fuel = &h->thinned;
}

static void
give (const HobPartContext *c)
{
  for (int k = HOB_PLACE_AIR; k <= HOB_PLACE_COMPARTMENT; k++)
    c->place[k] = c->house->temperature;
}

static void
conduct (const HobPartContext *c)
{
  c->g[E_SOURCE] = c->g[E_NEUTRAL] = c->g[E_EARTH] = hob_siemens (BUS_OHMS);
  c->emf[E_SOURCE].re = LINE_VOLTS;
  c->g[E_PIPE] = hob_siemens (c->set[PIPE_OHMS]);
}

static void
flow (const HobPartContext *c)
{
  double usual = (int)c->set[FUEL] == HOB_FUEL_LP ? LP_SUPPLY : NATURAL_SUPPLY;
  double pressure = c->set[GAS_PRESSURE] > 0 ? c->set[GAS_PRESSURE] : usual;

  c->duct[0] = (HobDuct){ .law = HOB_DUCT_SUPPLY,
                          .area = SUPPLY_AREA * c->set[SERVICE_SHARE],
                          .set = pressure * c->set[PRESSURE_SHARE] };
}

/* The room takes up all heat that is let go in it. */
static void
rates (const HobPartContext *c)
{
  c->ledger[HOB_LEDGER_HEAT_OUT] += c->place[HOB_PLACE_HEAT] + c->place[HOB_PLACE_HEAT_AIR];
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_TEMPERATURE ? c->house->temperature : c->p[GAS];
}

/* A source between line and neutral, neutral and earth bonded, the gas pipe an earth of its own. */
static void
draw_panel (HobPen *pen)
{
  pen_rect (pen, -40, -100, 80, 200);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_segment (pen, 40, -40, -14, -40);
  pen_segment (pen, -14, -40, -14, 40);
  pen_segment (pen, 40, 0, -14, 0);
  pen_segment (pen, 40, 40, -14, 40);
  pen_segment (pen, 10, 0, 10, 40);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
  pen_circle (pen, -14, -20, 14);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_move (pen, -22, -20);
  pen_curve (pen, -18, -30, -16, -28, -14, -20);
  pen_curve (pen, -12, -12, -10, -10, -6, -20);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, 10, 0, 3);
  pen_fill (pen, HOB_ROLE_INK);
  hob_symbol_earth (pen, -14, 44);
  hob_symbol_tube (pen, 6, 40, 80);
  pen_segment (pen, 6, 80, -14, 80);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  hob_symbol_earth (pen, -14, 84);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  if (view->sheet == HOB_SHEET_WIRING)
    {
      draw_panel (pen);
      return;
    }
  hob_symbol_tube (pen, 16, 40, 0);
  pen_rect (pen, -40, -40, 56, 80);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_circle (pen, -12, 0, 16);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_DETAIL);
  pen_text (pen, -12, 5, HOB_TEXT_NAME, HOB_ROLE_GAS, HOB_ALIGN_CENTRE, "G");
}

const HobKind hob_kind_house = {
  .name = "house",
  .label = N_ ("house supply"),
  .about = N_ ("The panel with line, neutral and earth, the gas service, and the kitchen's air."),
  .flags = HOB_KIND_PLACE | HOB_KIND_SUPPLY_LINE | HOB_KIND_SUPPLY_GAS | HOB_KIND_HOUSE,
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (elements, elements),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_WIRING] = { 80, 200 }, [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = -1,
  .house = house,
  .give = give,
  .conduct = conduct,
  .flow = flow,
  .rates = rates,
  .observe = observe,
  .draw = draw,
};
