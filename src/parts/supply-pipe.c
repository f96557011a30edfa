/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A run of the house's gas pipe.  Its loss by friction goes nearly with the square of the flow,
 * so a pipe that is too thin shows only when much is burned at once.  Elbows and tees count as
 * added length. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };
enum { BORE, LENGTH };
enum { Q_LOSS, Q_FLOW };

#define QUARTER_INCH 9.2e-3 /* m, bore of 1/4 in. pipe */

static const HobPortDef ports[] = {
  { .name = "in", .words = N_ ("supply side"), .required = TRUE, .way = HOB_WAY_IN, .x = -40 },
  { .name = "out", .words = N_ ("range side"), .required = TRUE, .way = HOB_WAY_OUT, .x = 40 },
};

static const HobSettingDef settings[] = {
  { .name = "bore",
    .words = N_ ("Inside diameter of the pipe: 1/2 in. pipe is 0.62 in., 3/8 in. pipe is 0.49 in., "
                 "and 1/4 in. pipe is 0.36 in."),
    .dim = HOB_DIM_LENGTH, .normal = 15.8e-3, .low = 2e-3, .high = 0.1, .of = HOB_SETTING_HOUSE },
  { .name = "length", .words = N_ ("Length of the pipe, plus the equivalent length of its "
                                   "fittings."), .dim = HOB_DIM_LENGTH,
    .normal = 6, .low = 0.01, .high = 200, .of = HOB_SETTING_HOUSE, .say = HOB_SAY_FEET },
};

static const HobFaultDef faults[] = {
  {
    .id = "undersized",
    .words = N_ ("gas pipe too small"),
    /* Translators: a length. */
    .severity_words = N_ ("%s of 1/4 in. pipe"),
    .typical = 0.75,
    .prior = 1,
    .basis = "a run lengthened, an appliance added",
    .proof = N_ ("Read the inlet pressure. It's normal with all the burners off but too low with "
                 "all on. Check the gas pipe. It's too small for its length and load."),
    .confirm = HOB_MEANS (PRESSURE),
    HOB_EFFECTS ({ .setting = BORE, .at0 = QUARTER_INCH, .at1 = QUARTER_INCH },
                 { .setting = LENGTH, .at0 = 0.01, .at1 = 25 }),
  },
};

static const HobDuctDef ducts[] = {
  { .name = "run", .a = IN, .b = OUT },
};

static const HobQuantityDef quantities[] = {
  { .name = "loss", .words = N_ ("pressure drop along the pipe"), .dim = HOB_DIM_PRESSURE,
    .says = N_ ("The pressure drop along the pipe is %s.") },
  { .name = "flow", .words = N_ ("gas flow"), .dim = HOB_DIM_MASS_FLOW,
    .says = N_ ("The gas flow is %s.") },
};

static void
flow (const HobPartContext *c)
{
  c->duct[0] = (HobDuct){ .law = HOB_DUCT_PIPE, .bore = c->set[BORE], .length = c->set[LENGTH] };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return quantity == Q_LOSS ? c->p[IN] - c->p[OUT] : c->q[0];
}

/* A pipe with a break line in the middle: it is longer than the sheet. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  hob_symbol_tube (pen, -40, -6, 0);
  hob_symbol_tube (pen, 6, 40, 0);
  for (int x = -6; x <= 6; x += 12)
    {
      pen_move (pen, x - 3, 14);
      pen_curve (pen, x + 5, 5, x - 5, -5, x + 3, -14);
    }
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

const HobKind hob_kind_supply_pipe = {
  .name = "supply-pipe",
  .label = N_ ("house gas pipe"),
  .about = N_ ("The house gas piping. When gas flows, friction lowers the pressure "
               "at the far end."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 40 } },
  .figure = -1,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
