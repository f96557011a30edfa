/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Appliance regulator: holds the manifold's pressure whatever the supply and the burners do, and
 * locks up a little higher when all are shut.  Its cap is convertible: turned over it seats the
 * spring for the other gas. */

#include "base/i18n.h"
#include "parts/symbol.h"

enum { IN, OUT };
enum { SET_PRESSURE, LOCKUP, AREA, CREEP, CAP, SET_WITH, SEATS, TURNED };
enum { NATURAL, LP };
enum { Q_PRESSURE };

static const HobPortDef ports[] = {
  { "in", N_ ("supply"), TRUE, HOB_WAY_IN, -40, 0 },
  { "out", N_ ("manifold"), TRUE, HOB_WAY_OUT, 40, 0 },
};
static const char *const caps[] = { "natural", "lp", NULL };

static const HobSettingDef settings[] = {
  { "set-pressure", N_ ("Manifold pressure it holds; the data plate says which."), HOB_DIM_PRESSURE,
    5 * 249.089, 100, 5000 },
  { "lockup", N_ ("Rise above it when nothing flows, as a share."), HOB_DIM_NUMBER, 0.05, 0.005,
    0.5 },
  { "area", N_ ("Its seat fully open, m², discharge included."), HOB_DIM_NUMBER, 4e-5, 1e-7, 1e-3 },
  { "creep", N_ ("What its seat leaves open when it should be shut, m²."), HOB_DIM_NUMBER, 0, 0,
    1e-5, NULL, TRUE },
  { "cap", N_ ("The gas for which its cap is turned."), HOB_DIM_CHOICE, NATURAL, 0, 1, caps },
  { "set-with", N_ ("How the cap stood when the set pressure was adjusted."), HOB_DIM_CHOICE,
    NATURAL, 0, 1, caps },
  { "seats", N_ ("Pressure with the cap on LP, over that on natural gas."), HOB_DIM_NUMBER, 2, 1,
    5 },
  { "turned", N_ ("1: the cap is the wrong way round."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
};

#define TAP_CAUTION                                                                                \
  N_ ("Pressure tap: gas shut, gauge fitted, leak-tested; afterwards plugged and leak-tested.")

static const HobFaultDef faults[] = {
  { "cap-turned",
    N_ ("cap set for the other gas"),
    NULL,
    1,
    2,
    N_ ("assumption: a classic slip at installation"),
    N_ ("Look which way the cap is turned; manifold pressure with one burner on."),
    TAP_CAUTION,
    -1,
    1,
    { { TURNED, HOB_EFFECT_SET, 0, 1 } } },
  { "set-low",
    N_ ("spring weak or set too low"),
    N_ ("it holds 1 − 0.7 · severity of its pressure"),
    0.6,
    1,
    N_ ("assumption"),
    N_ ("Manifold pressure with one burner on, against the data plate."),
    TAP_CAUTION,
    -1,
    1,
    { { SET_PRESSURE, HOB_EFFECT_MULTIPLY, 1, 0.3 } } },
  { "set-high",
    N_ ("set too high"),
    N_ ("it holds 1 + severity of its pressure"),
    0.6,
    0.5,
    N_ ("assumption"),
    N_ ("Manifold pressure with one burner on, against the data plate."),
    TAP_CAUTION,
    -1,
    1,
    { { SET_PRESSURE, HOB_EFFECT_MULTIPLY, 1, 2 } } },
  { "creeps",
    N_ ("creeps: its seat does not shut"),
    N_ ("3 mm² · severity stay open"),
    0.1,
    1,
    N_ ("assumption: dirt from new pipe on the seat"),
    N_ ("Lock-up with all off: the manifold climbs to the supply's pressure instead of a little "
        "above its own."),
    TAP_CAUTION,
    -1,
    1,
    { { CREEP, HOB_EFFECT_ADD, 0, 3e-6 } } },
  { "sticks",
    N_ ("moves stiffly"),
    N_ ("rise at lock-up, and droop when all burn, of 0.05 + 0.4 · severity"),
    0.7,
    1,
    N_ ("assumption"),
    N_ ("Manifold pressure with one burner on, with all on and with all off: too far apart."),
    TAP_CAUTION,
    -1,
    1,
    { { LOCKUP, HOB_EFFECT_ADD, 0, 0.4 } } },
  { "clogged",
    N_ ("screen or vent clogged"),
    N_ ("its seat's area shrinks to 0.02 at severity 1"),
    0.9,
    1,
    N_ ("assumption"),
    N_ ("Supply stands with everything on, the manifold falls with each burner."),
    TAP_CAUTION,
    -1,
    1,
    { { AREA, HOB_EFFECT_MULTIPLY, 1, 0.02, TRUE } } },
};
static const HobDuctDef ducts[] = { { "seat", IN, OUT } };
static const HobQuantityDef quantities[] = {
  { "pressure", N_ ("manifold pressure"), HOB_DIM_PRESSURE, HOB_SENSE_NONE },
};

/* What it holds as the cap stands now: the spring was adjusted as it stood then. */
static double
held (const HobPartContext *c)
{
  gboolean lp = ((int)c->set[CAP] == LP) != (c->set[TURNED] > 0),
           was_lp = (int)c->set[SET_WITH] == LP;

  if (lp == was_lp)
    return c->set[SET_PRESSURE];
  return lp ? c->set[SET_PRESSURE] * c->set[SEATS] : c->set[SET_PRESSURE] / c->set[SEATS];
}

static void
flow (const HobPartContext *c)
{
  c->duct[0] = (HobDuct){ .law = HOB_DUCT_REGULATOR,
                          .area = c->set[AREA],
                          .set = held (c),
                          .lockup = c->set[LOCKUP],
                          .leak = c->set[CREEP] };
}

static double
observe (const HobPartContext *c, int quantity)
{
  return c->p[OUT];
}

/* A valve whose diaphragm feels the outlet; it sinks as gas is drawn. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      double sunk = view->q[0] > 1e-7 ? 5 : 0; /* kg/s */

      pen_segment (pen, -14, -22 + sunk, 14, -22 + sunk);
      pen_segment (pen, 0, -22 + sunk, 0, 0);
      pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
      return;
    }
  hob_symbol_tube (pen, -40, -16, 0);
  hob_symbol_tube (pen, 16, 40, 0);
  pen_move (pen, -16, -16);
  pen_line (pen, -16, -24);
  pen_arc (pen, 0, -24, 16, -G_PI, 0);
  pen_line (pen, 16, -16);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  hob_symbol_valve (pen, 0, 0, FALSE);
  pen_dash (pen, 4, 3); /* what it feels */
  pen_move (pen, 30, -7);
  pen_line (pen, 30, -20);
  pen_line (pen, 16, -20);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_DETAIL);
}

const HobKind hob_kind_regulator = {
  .name = "regulator",
  .label = N_ ("appliance regulator"),
  .about = N_ ("Turns a supply that varies into the one pressure the orifices are drilled for."),
  HOB_TABLE (ports, ports),
  HOB_TABLE (settings, settings),
  HOB_TABLE (ducts, ducts),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .symbol = { [HOB_SHEET_GAS] = { 80, 80 } },
  .figure = Q_PRESSURE,
  .flow = flow,
  .observe = observe,
  .draw = draw,
};
