/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Spark module: a half-wave capacitor cell.  While its input is live, a capacitor charges
 * through a resistor.  At the trigger voltage it discharges into the pulse transformers, and
 * all outputs fire at once.  The cell sees its supply as a source with a resistance, so a wet
 * switch slows it.
 *
 *   dφ/dt = rate (V_source, R_source);   pulse k fires as φ reaches k
 *
 * A quarter of the capacitor's energy reaches the gaps, shared by the windings in use: 8.45 mJ
 * × 0.25 ÷ 4 = 0.53 mJ.  In the plain kind each output has a winding, and all return through
 * the module's ground lug; a loose lug is one more gap, in series with all of them.  In the
 * paired kind a winding has an output at each end, two electrodes in series through the
 * burners' metal: an open at one is an open for both.  Figures invented for a believable
 * appliance. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "parts/winding.h"

enum { IN, NEUTRAL, GROUND, LINE, OUT, OUT_C = OUT + HOB_OUT_C, N_PAIRED = OUT_C, N_TERMINALS };
enum { DEAD_LF = HOB_MODULE_N_SETTINGS, DEAD_C = DEAD_LF + HOB_OUT_C };
enum { Q_VOLTS, Q_RATE, Q_MISSED, Q_OUTPUTS };

#define CAPACITANCE 1e-6 /* F */
#define CHARGING 47e3    /* ohm */
#define BLEED 10e6       /* ohm */

static const HobTerminalDef terminals[] = {
  { .name = "in", .words = N_ ("from the spark switches"), .required = TRUE, .x = -160, .y = -20 },
  { .name = "neutral", .mark = NC_ ("terminal", "neutral"),
    .words = N_ ("neutral"), .required = TRUE, .x = 160, .y = -20,
    .conductor = HOB_CONDUCTOR_NEUTRAL },
  { .name = "ground", .mark = NC_ ("terminal", "ground"), .words = N_ ("ground"), .x = 160, .y = 20,
    .conductor = HOB_CONDUCTOR_GROUND },
  { .name = "line", .mark = NC_ ("terminal", "line"),
    /* Translators: a terminal for the line wire, which some modules have. */
    .words = N_ ("line, if the module needs it"), .x = -160, .y = 20,
    .conductor = HOB_CONDUCTOR_LINE },
  HOB_OUT_TERMINALS (-60),
  { .name = "out-c", .words = N_ ("to the center electrode"), .y = -60, .high_voltage = TRUE },
};

static const HobSettingDef settings[] = {
  HOB_MODULE_SETTINGS,
  HOB_OUT_SETTINGS,
  HOB_OUT_SETTING ("c"),
};

enum { LEADS };

static const HobPosition lead_positions[] = {
  { "as-wired", N_ ("each lead on its own output"), 0 },
  { "moved-on", N_ ("each lead moved to the next output"), 1 },
  { NULL },
};

static const HobControlDef controls[] = {
  { .name = "leads", .words = N_ ("spark leads"), .dim = HOB_DIM_CHOICE,
    .positions = lead_positions, .high = 1, .exercise = HOB_EXERCISE_EXCHANGE,
    .role = HOB_CONTROL_LEADS },
};

static const HobModeDef modes[] = {
  HOB_MODULE_MODES,
};

static const HobElementDef elements[] = {
  { .name = "cell", .a = IN, .b = NEUTRAL },
};

static const HobQuantityDef quantities[] = {
  { .name = "volts", .words = N_ ("voltage at the module's input"), .dim = HOB_DIM_VOLTAGE },
  { .name = "rate", .words = N_ ("sparks per second from the module"), .dim = HOB_DIM_RATE,
    .says = N_ ("The module sparks at a rate of %s.") },
  { .name = "missed", .words = N_ ("sparks that missed the burner"), .say = HOB_SAY_SHARE },
  HOB_OUT_QUANTITY,
};

static const HobLinkDef links[] = {
  { .from = Q_VOLTS, .to = Q_RATE, .words = N_ ("The voltage at the module's input is %s.") },
};

static const HobFaultDef paired_faults[] = {
  HOB_MODULE_FAULTS,
  HOB_OUT_FAULTS (OUT, DEAD_LF),
};

static const HobFaultDef faults[] = {
  HOB_MODULE_FAULTS,
  HOB_MODULE_LUG_FAULT,
  HOB_OUT_FAULTS (OUT, DEAD_LF),
  HOB_OUT_FAULT ("c", N_ ("center output dead"), OUT_C, DEAD_C),
};

static HobSparkCell
cell (const HobPartContext *c)
{
  return hob_module_cell (c, CAPACITANCE, CHARGING, BLEED);
}

static double
cell_rate (const HobPartContext *c)
{
  HobSparkCell own = cell (c);
  HobComplex volts;
  double ohms;

  if (c->set[HOB_MODULE_DEAD] > 0
      || !hob_module_may_fire (&own, hob_volts_across (c, IN, NEUTRAL)))
    return 0;
  c->source (c, 0, &volts, &ohms);
  return hob_spark_cell_rate (&own, hob_complex_abs (volts), ohms);
}

static void
conduct (const HobPartContext *c)
{
  HobSparkCell own = cell (c);

  if (c->set[HOB_MODULE_DEAD] == 0)
    c->g[0].re = hob_module_draws (c, &own);
}

/* A rectifier is first behind each input: an ohmmeter reads OL, on a good module and a dead one. */
static double
at_rest (const HobPartContext *c G_GNUC_UNUSED, int element G_GNUC_UNUSED)
{
  return INFINITY;
}

/* The output that the lead of output @k is on: once the leads are moved, the next that has one. */
static int
output_of (const HobPartContext *c, int k)
{
  int n = N_TERMINALS - OUT, next = k;

  if (!(c->ctl[LEADS] > 0))
    return k;
  do
    next = (next + 1) % n;
  while (c->lead[OUT + next] == NULL && next != k);
  return next;
}

static void
offer_singly (const HobPartContext *c)
{
  HobSparkCell own = cell (c);
  double dead[N_TERMINALS - OUT];
  int n = N_TERMINALS - OUT;

  for (int k = 0; k < n; k++)
    dead[k] = c->set[DEAD_LF + output_of (c, k)];
  hob_module_beat (c, OUT, n, cell_rate (c));
  hob_outputs_offer (c, OUT, n, dead, c->set[HOB_MODULE_LUG], hob_module_energy (&own));
}

/* V that the output at one end of a winding needs; +inf: nothing is there, or it is open inside. */
static double
end_volts (const HobPartContext *c, int k)
{
  return c->lead[k] != NULL && c->set[DEAD_LF + k - OUT] == 0 ? c->lead[k]->breakdown : INFINITY;
}

static void
offer_in_pairs (const HobPartContext *c)
{
  HobSparkCell own = cell (c);
  double energy = hob_module_energy (&own);
  int n = 0;

  hob_module_beat (c, OUT, N_PAIRED - OUT, cell_rate (c));
  for (int k = OUT; k < N_PAIRED; k += 2)
    n += c->lead[k] != NULL || c->lead[k + 1] != NULL;
  for (int k = OUT; k < N_PAIRED; k++)
    {
      int partner = OUT + ((k - OUT) ^ 1);

      if (c->lead[k] != NULL && c->set[DEAD_LF + k - OUT] == 0)
        hob_winding_offer (c->lead[k], end_volts (c, partner), HOB_OUT_VOLTS, energy / n);
    }
}

static double
rate_now (const HobPartContext *c)
{
  return hob_module_rate (c, OUT, N_PAIRED - OUT, cell_rate);
}

static double
volts (const HobPartContext *c)
{
  return c->set[HOB_MODULE_DEAD] > 0 ? 0 : hob_volts_across (c, IN, NEUTRAL);
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
  return hob_module_guard (c, k, rate_now (c), volts);
}

static double
observe (const HobPartContext *c, int quantity, int n_outputs)
{
  switch (quantity)
    {
    case Q_VOLTS:
      return hob_volts_across (c, IN, NEUTRAL);
    case Q_RATE:
      return rate_now (c) * (1 - c->set[HOB_MODULE_MISSED]);
    case Q_MISSED:
      return c->set[HOB_MODULE_MISSED];
    default:
      return hob_module_outputs (c, OUT, n_outputs);
    }
}

static double
observe_singly (const HobPartContext *c, int quantity)
{
  return observe (c, quantity, N_TERMINALS - OUT);
}

static double
observe_in_pairs (const HobPartContext *c, int quantity)
{
  return observe (c, quantity, N_PAIRED - OUT);
}

/* A winding with an output at either end. */
static void
draw_pair (HobPen *pen, double x0, double x1)
{
  double step = (x1 - x0) / 6;

  pen_move (pen, x0, -60);
  pen_line (pen, x0, -40);
  for (int k = 0; k < 6; k++)
    pen_arc (pen, x0 + step * (k + 0.5), -40, step / 2, G_PI, 2 * G_PI);
  pen_move (pen, x1, -40);
  pen_line (pen, x1, -60);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

static void
draw_module (HobPen *pen, const HobPartView *view, int n_outputs, gboolean in_pairs)
{
  const HobTerminalDef *out = view->kind->terminals + OUT;

  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_rect (pen, -160, -60, 320, 120);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  hob_module_draw_charging (pen, -160, -20);
  hob_module_draw_capacitor (pen, -64, -20, 40);
  pen_move (pen, -64, 40);
  pen_line (pen, 130, 40);
  pen_line (pen, 130, -20);
  pen_line (pen, 160, -20);
  pen_segment (pen, -132, -28, 128, -28); /* the core */
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  for (int k = 0; k < n_outputs; k++)
    if (!in_pairs)
      hob_module_draw_winding (pen, out[k].x, -60);
    else if (k % 2 == 0)
      draw_pair (pen, out[k].x, out[k + 1].x);
  hob_symbol_frame (pen, 146, 24, TRUE);
}

static void
draw_singly (HobPen *pen, const HobPartView *view)
{
  draw_module (pen, view, N_TERMINALS - OUT, FALSE);
}

static void
draw_in_pairs (HobPen *pen, const HobPartView *view)
{
  draw_module (pen, view, N_PAIRED - OUT, TRUE);
}

#define COMMON                                                                                     \
  .hazards = HOB_HAZARD (SPARK_LEAD),                                                              \
  HOB_TABLE (settings, settings),                                                                  \
  HOB_TABLE (states, hob_module_states),                                                           \
  HOB_TABLE (modes, modes),                                                                        \
  HOB_TABLE (elements, elements),                                                                  \
  HOB_TABLE (quantities, quantities),                                                              \
  HOB_TABLE (links, links),                                                                        \
  .n_guards = HOB_MODULE_N_GUARDS,                                                                 \
  .guard_reads = hob_module_guard_reads,                                                           \
  .symbol = { [HOB_SHEET_WIRING] = { 320, 120 } },                                                 \
  .figure = Q_RATE,                                                                                \
  .conduct = conduct,                                                                              \
  .at_rest = at_rest,                                                                              \
  .rates = rates,                                                                                  \
  .guard = guard,                                                                                  \
  .flip = hob_module_flip

const HobKind hob_kind_spark_module = {
  .name = "spark-module",
  .label = N_ ("spark module"),
  .about = N_ ("Charges a capacitor from the line and discharges it into pulse transformers a "
               "few times a second. All the electrodes spark, no matter which knob is turned."),
  COMMON,
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (controls, controls),
  HOB_TABLE (faults, faults),
  .offer = offer_singly,
  .observe = observe_singly,
  .draw = draw_singly,
};

const HobKind hob_kind_spark_module_pair = {
  .name = "spark-module-pair",
  .label = N_ ("spark module with paired outputs"),
  .about = N_ ("A spark module in which each winding serves two electrodes in series through "
               "the metal of the burners. An open at one electrode stops both."),
  COMMON,
  .terminals = terminals,
  .n_terminals = N_PAIRED,
  HOB_TABLE (faults, paired_faults),
  .offer = offer_in_pairs,
  .observe = observe_in_pairs,
  .draw = draw_in_pairs,
};
