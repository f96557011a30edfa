/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Spark module: a half-wave cell.  While its input is fed, a capacitor charges through a resistor;
 * at the trigger voltage it is discharged into the pulse transformers, and all outputs fire at
 * once.  The cell sees what stands before it as a source with a resistance, so a wet switch slows
 * it.
 *
 *   dφ/dt = rate (V_source, R_source);   pulse k comes as φ reaches k
 *
 * A quarter of the capacitor's energy reaches the gaps, shared by the outputs in use: 8.45 mJ ×
 * 0.25 ÷ 4 = 0.53 mJ. Figures invented for a believable appliance. */

#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/spark.h"

enum { IN, NEUTRAL, GROUND, LINE, OUT_LF, OUT_LR, OUT_CF, OUT_CR, OUT_RF, OUT_RR, OUT_C, N_TERMINALS
       };
enum { DEAD, MISSED, DEAD_LF, DEAD_LR, DEAD_CF, DEAD_CR, DEAD_RF, DEAD_RR, DEAD_C };
enum { PHASE };
enum { SPARKING, WHOLE };
enum { G_BEGINS, G_ENDS, G_TURNS, N_GUARDS };
enum { Q_VOLTS, Q_RATE, Q_MISSED };

#define YIELD 0.25       /* of the capacitor's energy, into the gaps */
#define OPEN_VOLTS 15e3  /* peak, of an open output */
#define INPUT_OHMS 220e3 /* a resistor that passes as much as the half-wave cell does on average   \
                          */
#define TURNS 64.0  /* pulses after which the phase begins anew, so that its error stays small */
#define BEGINS 0.20 /* 1/s */
#define ENDS 0.05   /* 1/s */

static const HobSparkCell cell = { 1e-6, 47e3, 10e6, 130 };

static const HobTerminalDef terminals[] = {
  { "in", N_ ("from the spark switches"), TRUE, -160, -20 },
  { "neutral", N_ ("neutral"), TRUE, 160, -20 },
  { "ground", N_ ("ground"), FALSE, 160, 20 },
  { "line", N_ ("line, where the module needs it"), FALSE, -160, 20 },
  { "out-lf", N_ ("to the left front electrode"), FALSE, -120, -60, TRUE },
  { "out-lr", N_ ("to the left rear electrode"), FALSE, -80, -60, TRUE },
  { "out-cf", N_ ("to the centre front electrode"), FALSE, -40, -60, TRUE },
  { "out-cr", N_ ("to the centre rear electrode"), FALSE, 40, -60, TRUE },
  { "out-rf", N_ ("to the right front electrode"), FALSE, 80, -60, TRUE },
  { "out-rr", N_ ("to the right rear electrode"), FALSE, 120, -60, TRUE },
  { "out-c", N_ ("to the centre electrode"), FALSE, 0, -60, TRUE },
};

#define OUTPUT_SETTING(x)                                                                          \
  {                                                                                                \
    "dead-" x, N_ ("1: this output gives nothing."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE           \
  }

static const HobSettingDef settings[] = {
  { "dead", N_ ("1: the module does nothing."), HOB_DIM_NUMBER, 0, 0, 1, NULL, TRUE },
  { "missed", N_ ("Share of its discharges that give no spark."), HOB_DIM_NUMBER, 0, 0, 1, NULL,
    TRUE },
  OUTPUT_SETTING ("lf"),
  OUTPUT_SETTING ("lr"),
  OUTPUT_SETTING ("cf"),
  OUTPUT_SETTING ("cr"),
  OUTPUT_SETTING ("rf"),
  OUTPUT_SETTING ("rr"),
  OUTPUT_SETTING ("c"),
};

static const HobStateDef states[]
    = { { "phase", N_ ("pulses since the last whole turn"), HOB_DIM_NUMBER, 1e-3 } };

static const char *const sparking_words[] = { N_ ("sparking ends"), N_ ("sparking begins"), NULL };
static const HobModeDef modes[] = { { "sparking", sparking_words }, { "whole", NULL } };

static const HobElementDef elements[] = { { "cell", IN, NEUTRAL } };

static const HobQuantityDef quantities[] = {
  { "volts", N_ ("voltage at its input"), HOB_DIM_VOLTAGE, HOB_SENSE_NONE },
  { "rate", N_ ("sparks per second that it gives"), HOB_DIM_RATE, HOB_SENSE_NONE },
  { "missed", N_ ("share of its discharges that give no spark"), HOB_DIM_NUMBER, HOB_SENSE_NONE },
};

#define OUTPUT_FAULT(x, words, out, setting)                                                       \
  {                                                                                                \
    "output-" x "-dead", words, NULL, 1, 2, N_ ("assumption"),                                     \
        N_ ("Its electrode never sparks, the others do. Two leads exchanged at the module: the "   \
            "fault stays with the output."),                                                       \
        N_ ("Never a meter on a spark lead."), out, 1,                                             \
    {                                                                                              \
      {                                                                                            \
        setting, HOB_EFFECT_SET, 0, 1                                                              \
      }                                                                                            \
    }                                                                                              \
  }

static const HobFaultDef faults[] = {
  { "dead",
    N_ ("spark module dead"),
    NULL,
    1,
    6,
    N_ ("assumption"),
    N_ ("No spark from any knob, though the line voltage reaches its input."),
    N_ ("Volts at its input only; never a meter on a spark lead."),
    -1,
    1,
    { { DEAD, HOB_EFFECT_SET, 0, 1 } } },
  { "irregular",
    N_ ("spark module worn"),
    N_ ("share of its discharges that give no spark, 20 % to 80 %"),
    0.5,
    3,
    N_ ("assumption"),
    N_ ("Sparks come irregularly at the full line voltage, from every knob, with dry switches."),
    N_ ("Never a meter on a spark lead."),
    -1,
    1,
    { { MISSED, HOB_EFFECT_SET, 0.2, 0.8 } } },
  OUTPUT_FAULT ("lf", N_ ("left front output dead"), OUT_LF, DEAD_LF),
  OUTPUT_FAULT ("lr", N_ ("left rear output dead"), OUT_LR, DEAD_LR),
  OUTPUT_FAULT ("cf", N_ ("centre front output dead"), OUT_CF, DEAD_CF),
  OUTPUT_FAULT ("cr", N_ ("centre rear output dead"), OUT_CR, DEAD_CR),
  OUTPUT_FAULT ("rf", N_ ("right front output dead"), OUT_RF, DEAD_RF),
  OUTPUT_FAULT ("rr", N_ ("right rear output dead"), OUT_RR, DEAD_RR),
  OUTPUT_FAULT ("c", N_ ("centre output dead"), OUT_C, DEAD_C),
};

static double
cell_rate (const HobPartContext *c)
{
  HobComplex volts;
  double ohms;

  /* Under a tenth of the line the source is either dead or behind more than a megohm: the bleed
   * alone then keeps the cell from its trigger, and the network need not be asked. */
  if (c->set[DEAD] > 0 || hob_volts_across (c, IN, NEUTRAL) < 12)
    return 0;
  c->source (c, 0, &volts, &ohms);
  return hob_spark_cell_rate (&cell, hob_complex_abs (volts), ohms);
}

/* The rate as `offer` put it on the leads, so that the source is asked for once an evaluation. */
static double
rate_now (const HobPartContext *c)
{
  for (int k = OUT_LF; k < N_TERMINALS; k++)
    if (c->lead[k] != NULL)
      return c->lead[k]->rate;
  return cell_rate (c);
}

static void
conduct (const HobPartContext *c)
{
  if (c->set[DEAD] == 0)
    c->g[0] = hob_siemens (INPUT_OHMS);
}

static int
outputs_in_use (const HobPartContext *c)
{
  int n = 0;

  for (int k = OUT_LF; k < N_TERMINALS; k++)
    n += c->lead[k] != NULL;
  return n;
}

static void
offer (const HobPartContext *c)
{
  double rate = cell_rate (c);
  int n = outputs_in_use (c);

  for (int k = OUT_LF; k < N_TERMINALS; k++)
    {
      HobLead *lead = c->lead[k];
      if (lead == NULL)
        continue;
      lead->volts = rate > 0 && c->set[DEAD_LF + k - OUT_LF] == 0 ? OPEN_VOLTS : 0;
      lead->energy = YIELD * hob_spark_cell_energy (&cell) / n;
      lead->rate = rate;
      lead->phase = c->mode[WHOLE] + c->y[PHASE];
      lead->miss = c->set[MISSED];
      lead->key = c->index + 1;
    }
}

static void
rates (const HobPartContext *c)
{
  c->dy[PHASE] = rate_now (c);
}

static double
guard (const HobPartContext *c, int k)
{
  double rate = rate_now (c) * (1 - c->set[MISSED]);

  if (k == G_TURNS)
    return c->y[PHASE] - TURNS;
  if (k == G_BEGINS)
    return c->mode[SPARKING] > 0 ? -1 : rate - BEGINS;
  return c->mode[SPARKING] > 0 ? ENDS - rate : -1;
}

static void
flip (const HobPartContext *c, int k, double *y)
{
  if (k != G_TURNS)
    {
      c->mode[SPARKING] = k == G_BEGINS;
      return;
    }
  c->mode[WHOLE] += TURNS;
  y[PHASE] -= TURNS;
}

static double
observe (const HobPartContext *c, int quantity)
{
  switch (quantity)
    {
    case Q_VOLTS:
      return hob_volts_across (c, IN, NEUTRAL);
    case Q_RATE:
      return rate_now (c) * (1 - c->set[MISSED]);
    default:
      return c->set[MISSED];
    }
}

/* Charging path at y: a rectifier and a resistor, from x1. */
static void
draw_charging (HobPen *pen, double x1, double y)
{
  pen_segment (pen, x1, y, x1 + 96, y);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_move (pen, x1 + 20, y - 8);
  pen_line (pen, x1 + 20, y + 8);
  pen_line (pen, x1 + 34, y);
  pen_close (pen);
  pen_segment (pen, x1 + 34, y - 8, x1 + 34, y + 8);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_rect (pen, x1 + 50, y - 6, 30, 12);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
}

/* Capacitor between the charging path and the neutral. */
static void
draw_capacitor (HobPen *pen, double x, double y1, double y2)
{
  double middle = (y1 + y2) / 2;

  pen_segment (pen, x, y1, x, middle - 4);
  pen_segment (pen, x - 11, middle - 4, x + 11, middle - 4);
  pen_segment (pen, x - 11, middle + 4, x + 11, middle + 4);
  pen_segment (pen, x, middle + 4, x, y2);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

/* One winding below its output. */
static void
draw_winding (HobPen *pen, double x)
{
  pen_segment (pen, x, -60, x, -52);
  for (int k = 0; k < 3; k++)
    {
      pen_move (pen, x, -52 + 6 * k);
      pen_arc (pen, x, -49 + 6 * k, 3, -G_PI_2, G_PI_2);
    }
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

static void
draw (HobPen *pen, const HobPartView *view)
{
  if (view->layer != HOB_LAYER_PAPER)
    return;
  pen_rect (pen, -160, -60, 320, 120);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  draw_charging (pen, -160, -20);
  draw_capacitor (pen, -64, -20, 40);
  pen_move (pen, -64, 40);
  pen_line (pen, 130, 40);
  pen_line (pen, 130, -20);
  pen_line (pen, 160, -20);
  pen_segment (pen, -132, -28, 128, -28); /* the core */
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  for (int k = OUT_LF; k < N_TERMINALS; k++)
    draw_winding (pen, terminals[k].x);
  hob_symbol_frame (pen, 146, 24, TRUE);
}

const HobKind hob_kind_spark_module = {
  .name = "spark-module",
  .label = N_ ("spark module"),
  .about = N_ ("Charges a capacitor from the line and discharges it into pulse transformers a few "
               "times a second: all "
               "electrodes spark, whichever knob is turned."),
  HOB_TABLE (terminals, terminals),
  HOB_TABLE (settings, settings),
  HOB_TABLE (states, states),
  HOB_TABLE (modes, modes),
  HOB_TABLE (elements, elements),
  HOB_TABLE (faults, faults),
  HOB_TABLE (quantities, quantities),
  .n_guards = N_GUARDS,
  .symbol = { [HOB_SHEET_WIRING] = { 320, 120 } },
  .figure = Q_RATE,
  .conduct = conduct,
  .offer = offer,
  .rates = rates,
  .guard = guard,
  .flip = flip,
  .observe = observe,
  .draw = draw,
};
