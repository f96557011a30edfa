/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reignition module.  Each burner's stem switch, closed in every position but OFF, feeds an
 * input of its own.  As long as an input is live and no flame is sensed at that burner, the
 * module sparks, at all outputs.
 *
 * A flame passes current one way only, from the tip to the larger metal of the burner.  The
 * module puts the line on the tip through its winding and senses the direct current:
 *
 *   I = √2·V/(π·(R_f + R_dc))
 *
 * V is line to chassis, R_f the flame, R_dc the path from the chassis back to the line
 * terminal: ground wire or gas pipe, ground, neutral, and through the source.  With hot and
 * neutral reversed V is zero; with neither ground nor pipe R_dc is infinite.  Either way no
 * flame is sensed, and the sparks go on.  20 MΩ at 120 V give 2.7 µA; the threshold is 0.5 µA.
 *
 * Two spark leads may be crossed: all sparks come, and each of the two inputs watches the other's
 * burner.  While it sparks, 0.5 mA leak from line to chassis through its filter capacitor, which no
 * normal GFCI minds.
 *
 * Cell, windings and ground lug are those of the plain module, with half as much capacity again
 * for six outputs: 12.7 mJ × 0.25 ÷ 6 = 0.53 mJ.  Figures invented for a believable appliance. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "parts/winding.h"

enum { LINE, NEUTRAL, GROUND, IN, OUT = IN + HOB_OUT_C, N_TERMINALS = OUT + HOB_OUT_C };
enum { N_BURNERS = HOB_OUT_C };
enum { DEAF = HOB_MODULE_N_SETTINGS, CROSSED, DEAD_LF };
enum { E_FILTER = N_BURNERS };
enum { FELT = HOB_MODULE_N_MODES };
enum { G_FEELS = HOB_MODULE_N_GUARDS, N_GUARDS };
enum { Q_VOLTS, Q_RATE, Q_MISSED, Q_FLAME, Q_OUTPUTS };

#define CAPACITANCE 1.5e-6 /* F */
#define CHARGING 31.3e3    /* ohm */
#define BLEED 6.7e6        /* ohm */
#define FILTER 11e-9       /* F */
#define FEELS 0.5e-6       /* A, a flame … */
#define LOSES 0.4e-6       /* … and no longer */

static const HobTerminalDef terminals[] = {
  { .name = "line", .mark = NC_ ("terminal", "line"),
    .words = N_ ("line"), .required = TRUE, .x = -160, .y = -60,
    .conductor = HOB_CONDUCTOR_LINE },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("neutral"), .required = TRUE, .x = 160, .y = -40,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "ground", .mark = NC_ ("terminal", "ground"),
    .words = N_ ("ground (burner metal)"), .required = TRUE,
    .x = 160, .y = 20, .conductor = HOB_CONDUCTOR_GROUND },
  { .name = "in-lf", .words = N_ ("from the left front spark switch"), .x = -160, .y = -40 },
  { .name = "in-lr", .words = N_ ("from the left rear spark switch"), .x = -160, .y = -20 },
  { .name = "in-cf", .words = N_ ("from the center front spark switch"), .x = -160 },
  { .name = "in-cr", .words = N_ ("from the center rear spark switch"), .x = -160, .y = 20 },
  { .name = "in-rf", .words = N_ ("from the right front spark switch"), .x = -160, .y = 40 },
  { .name = "in-rr", .words = N_ ("from the right rear spark switch"), .x = -160, .y = 60 },
  HOB_OUT_TERMINALS (-80),
};

static const HobSettingDef settings[] = {
  HOB_MODULE_SETTINGS,
  { .name = "deaf", .words = "1: it feels no flame.", .high = 1, .condition = TRUE },
  { .name = "leads-crossed", .words = "1: the left front and left rear leads are crossed.",
    .high = 1, .condition = TRUE, .visible = 1 },
  HOB_OUT_SETTINGS,
};

static const HobModeDef modes[] = {
  HOB_MODULE_MODES,
  { .name = "felt" },
};

static const HobElementDef elements[] = {
  { .name = "cell lf", .a = IN, .b = NEUTRAL },
  { .name = "cell lr", .a = IN + 1, .b = NEUTRAL },
  { .name = "cell cf", .a = IN + 2, .b = NEUTRAL },
  { .name = "cell cr", .a = IN + 3, .b = NEUTRAL },
  { .name = "cell rf", .a = IN + 4, .b = NEUTRAL },
  { .name = "cell rr", .a = IN + 5, .b = NEUTRAL },
  [E_FILTER] = { .name = "filter", .a = LINE, .b = GROUND },
};

static const HobQuantityDef quantities[] = {
  { .name = "volts", .words = N_ ("highest voltage at any input"),
    .dim = HOB_DIM_VOLTAGE },
  { .name = "rate", .words = N_ ("sparks per second from the module"), .dim = HOB_DIM_RATE,
    .says = N_ ("The module sparks at a rate of %s.") },
  { .name = "missed", .words = N_ ("sparks that missed the burner"), .say = HOB_SAY_SHARE },
  { .name = "flame-current", .words = N_ ("highest flame sense current"),
    .dim = HOB_DIM_CURRENT,
    .least = 0.2e-6 },
  HOB_OUT_QUANTITY,
};

static const HobLinkDef links[] = {
  { .from = Q_FLAME, .to = Q_RATE, .words = N_ ("The highest flame sense current is %s.") },
  { .from = Q_VOLTS, .to = Q_RATE, .words = N_ ("The highest voltage at any input is %s.") },
};

static const HobFaultDef faults[] = {
  HOB_MODULE_FAULTS,
  HOB_MODULE_LUG_FAULT,
  {
    .id = "deaf",
    .words = N_ ("module doesn't sense the flame"),
    .prior = 2,
    .proof = N_ ("Check polarity, ground, and electrodes first. All are good, but sparking "
                 "continues no matter which burner is lit."),
    .confirm = HOB_MEANS (LOOK),
    HOB_EFFECTS ({ .setting = DEAF, .at1 = 1 }),
  },
  {
    .id = "leads-crossed",
    .words = N_ ("left front and left rear spark leads swapped"),
    .prior = 1,
    .basis = "after a repair",
    .proof = N_ ("Unplug the range and trace the spark leads of the two burners. Each lead goes to "
                 "the other burner's electrode. Plug the range back in. With only one of the two "
                 "burners lit, the sparking continues. With both lit, it stops."),
    .confirm = HOB_MEANS (INSPECT) | HOB_MEANS (SWAP),
    .needs = HOB_NEEDS (OUT + 1),
    HOB_EFFECTS ({ .setting = CROSSED, .at1 = 1 }),
  },
  HOB_OUT_FAULTS (OUT, DEAD_LF),
};

static HobSparkCell
cell (const HobPartContext *c)
{
  return hob_module_cell (c, CAPACITANCE, CHARGING, BLEED);
}

static void
conduct (const HobPartContext *c)
{
  HobSparkCell own = cell (c);

  for (int k = 0; k < N_BURNERS && c->set[HOB_MODULE_DEAD] == 0; k++)
    c->g[k].re = hob_module_draws (c, &own);
  if (c->mode[HOB_MODULE_SPARKING] > 0)
    c->g[E_FILTER].im = 2 * G_PI * 60 * FILTER;
}

/* A rectifier is first behind each input: an ohmmeter reads OL, on a good module and a dead one. */
static double
at_rest (const HobPartContext *c G_GNUC_UNUSED, int element G_GNUC_UNUSED)
{
  return INFINITY;
}

/* Which electrode output @k feeds, both counted from the first. */
static int
fed (const HobPartContext *c, int k)
{
  return c->set[CROSSED] > 0 && k < 2 ? 1 - k : k;
}

/* ---- The flame's current ---- */

static gboolean
any_flame (const HobPartContext *c)
{
  for (int k = OUT; k < N_TERMINALS; k++)
    if (c->lead[k] != NULL && isfinite (c->lead[k]->flame))
      return TRUE;
  return FALSE;
}

/* A for each burner; the circuit is asked only while there is a flame. */
static void
flame_currents (const HobPartContext *c, double current[N_BURNERS])
{
  gboolean asked = c->set[HOB_MODULE_DEAD] == 0 && c->set[DEAF] == 0 && any_flame (c);
  double back = asked ? c->dc_ohms (c, GROUND, LINE) : INFINITY;
  double crest = G_SQRT2 * hob_volts_across (c, LINE, GROUND);

  for (int k = 0; k < N_BURNERS; k++)
    {
      const HobLead *lead = c->lead[OUT + fed (c, k)];
      gboolean reaches = asked && lead != NULL && c->set[DEAD_LF + k] == 0;

      current[k] = reaches ? crest / (G_PI * (lead->flame + back)) : 0;
    }
}

/* Bit k: a flame is sensed at burner k. */
static int
feels (const HobPartContext *c)
{
  int before = (int)c->mode[FELT], now = 0;
  double current[N_BURNERS];

  flame_currents (c, current);
  for (int k = 0; k < N_BURNERS; k++)
    now |= (current[k] >= (before >> k & 1 ? LOSES : FEELS)) << k;
  return now;
}

/* ---- Sparks ---- */

/* Of the inputs that call for sparks, the one with the most volts; −1: none. */
static int
caller (const HobPartContext *c)
{
  int best = -1;
  double most = HOB_OUT_LEAST_LINE;

  for (int k = 0; k < N_BURNERS; k++)
    {
      double volts = hob_volts_across (c, IN + k, NEUTRAL);

      if (((int)c->mode[FELT] >> k & 1) == 0 && volts >= most)
        {
          best = k;
          most = volts;
        }
    }
  return best;
}

static double
cell_rate (const HobPartContext *c)
{
  int k = c->set[HOB_MODULE_DEAD] > 0 ? -1 : caller (c);
  HobSparkCell own = cell (c);
  HobComplex volts;
  double ohms;

  if (k < 0 || !hob_module_may_fire (&own, hob_volts_across (c, IN + k, NEUTRAL)))
    return 0;
  c->source (c, k, &volts, &ohms);
  return hob_spark_cell_rate (&own, hob_complex_abs (volts), ohms);
}

static void
offer (const HobPartContext *c)
{
  HobSparkCell own = cell (c);
  double dead[N_BURNERS];

  for (int k = 0; k < N_BURNERS; k++)
    dead[fed (c, k)] = c->set[DEAD_LF + k];
  hob_outputs_offer (c, OUT, N_BURNERS, dead, c->set[HOB_MODULE_LUG],
                     hob_module_energy (&own));
  hob_module_beat (c, OUT, N_BURNERS, cell_rate (c));
}

static double
rate_now (const HobPartContext *c)
{
  return hob_module_rate (c, OUT, N_BURNERS, cell_rate);
}

/* V at the input that makes it spark. */
static double
volts (const HobPartContext *c)
{
  int k = c->set[HOB_MODULE_DEAD] > 0 ? -1 : caller (c);

  return k >= 0 ? hob_volts_across (c, IN + k, NEUTRAL) : 0;
}

static void
rates (const HobPartContext *c)
{
  HobSparkCell own = cell (c);

  hob_module_rates (c, &own, rate_now (c), volts (c));
}

static double
guard (const HobPartContext *c, int k)
{
  if (k == G_FEELS)
    return feels (c) != (int)c->mode[FELT] ? 1 : -1;
  return hob_module_guard (c, k, rate_now (c), volts);
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  if (k == G_FEELS)
    c->mode[FELT] = feels (c);
  else
    hob_module_flip (c, k, y);
}

static double
observe (const HobPartContext *c, int quantity)
{
  double most = 0, current[N_BURNERS];

  switch (quantity)
    {
    case Q_VOLTS:
      for (int k = 0; k < N_BURNERS; k++)
        most = fmax (most, hob_volts_across (c, IN + k, NEUTRAL));
      return most;
    case Q_RATE:
      return rate_now (c) * (1 - c->set[HOB_MODULE_MISSED]);
    case Q_MISSED:
      return c->set[HOB_MODULE_MISSED];
    case Q_OUTPUTS:
      return hob_module_outputs (c, OUT, N_BURNERS);
    default:
      flame_currents (c, current);
      for (int k = 0; k < N_BURNERS; k++)
        most = fmax (most, current[k]);
      return most;
    }
}

/* The box of a module, its inputs gathered, and a flame over a rectifier for what it watches. */
static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_rect (pen, -160, -80, 320, 160);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  for (int k = 0; k < N_BURNERS; k++)
    pen_segment (pen, -160, terminals[IN + k].y, -140, terminals[IN + k].y);
  pen_segment (pen, -140, -40, -140, 60);
  pen_segment (pen, -132, -48, 128, -48); /* the core */
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  hob_module_draw_charging (pen, -140, 10);
  hob_module_draw_capacitor (pen, -44, 10, 70);
  pen_move (pen, -44, 70);
  pen_line (pen, 130, 70);
  pen_line (pen, 130, -40);
  pen_line (pen, 160, -40);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  for (int k = 0; k < N_BURNERS; k++)
    hob_module_draw_winding (pen, terminals[OUT + k].x, -80);
  pen_segment (pen, 40, 44, 40, 20); /* what it watches */
  pen_segment (pen, 30, 20, 50, 20);
  pen_move (pen, 30, 36);
  pen_line (pen, 50, 36);
  pen_line (pen, 40, 20);
  pen_close (pen);
  pen_move (pen, 40, -22);
  pen_curve (pen, 56, -4, 52, 12, 40, 12);
  pen_curve (pen, 28, 12, 24, -4, 40, -22);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  hob_symbol_frame (pen, 146, 24, TRUE);
}

const HobKind hob_kind_spark_module_watch = {
  .name = "spark-module-watch",
  .label = N_ ("reignition module"),
  .about = N_ ("Makes sparks while a burner's knob is on and no flame is sensed at that burner. "
               "Flame sensing uses a small DC current through the flame to ground. Hot and neutral "
               "must not be reversed, and the ground must be good."),
  .hazards = HOB_HAZARD (SPARK_LEAD),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, hob_module_states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  HOB_TABLE (links, links),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_WIRING] = { 320, 160 } },
  .figure = Q_RATE,
  .conduct = conduct,
  .at_rest = at_rest,
  .offer = offer,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
