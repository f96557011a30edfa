/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Appliance regulator: holds the manifold's pressure whatever the supply and the burners do, and locks up a little
 * higher when all are shut. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };
enum { SET_PRESSURE, LOCKUP, AREA, CREEP };
enum { Q_PRESSURE };

static const HobPortDef ports[] = {
  { "in", N_ ("supply"), TRUE, HOB_WAY_IN, -40, 0 }, { "out", N_ ("manifold"), TRUE, HOB_WAY_OUT, 40, 0 },
};
static const HobSettingDef settings[] = {
  { "set-pressure", N_ ("Manifold pressure it holds; the data plate says which."), HOB_DIM_PRESSURE, 5 * 249.089, 100,
    5000 },
  { "lockup", N_ ("Rise above it when nothing flows, as a share."), HOB_DIM_NUMBER, 0.05, 0.005, 0.5 },
  { "area", N_ ("Its seat fully open, m², discharge included."), HOB_DIM_NUMBER, 4e-5, 1e-6, 1e-3 },
  { "creep", N_ ("What its seat leaves open when it should be shut, m²."), HOB_DIM_NUMBER, 0, 0, 1e-5, NULL, TRUE },
};
static const HobDuctDef ducts[] = { { "seat", IN, OUT } };
static const HobQuantityDef quantities[] = {
  { "pressure", N_ ("manifold pressure"), HOB_DIM_PRESSURE, HOB_SENSE_NONE },
};

static void
flow (const HobPartContext *c)
{
  c->duct[0] = (HobDuct){ .law = HOB_DUCT_REGULATOR, .area = c->set[AREA], .set = c->set[SET_PRESSURE],
                          .lockup = c->set[LOCKUP], .leak = c->set[CREEP] };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return c->p[OUT];
}

const HobKind hob_kind_regulator = {
  .name = "regulator", .label = N_ ("appliance regulator"),
  .about = N_ ("Turns a supply that varies into the one pressure the orifices are drilled for."),
  HOB_TABLE (ports, ports), HOB_TABLE (settings, settings), HOB_TABLE (ducts, ducts),
  HOB_TABLE (quantities, quantities), .symbol = { [HOB_SHEET_GAS] = { 80, 80 } }, .figure = Q_PRESSURE,
  .flow = flow, .observe = observe,
};
