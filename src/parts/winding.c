/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/winding.h"

#include "parts/symbol.h"

/* What its input draws from the line.
 *
 * Each discharge takes the charge C·V_b, which comes in half waves through the rectifier.  At the
 * line's frequency they are an alternating current a times their mean: π/(2·√2) for half sine
 * waves, √2 for narrow peaks, and a = 1.2 fits a cell's own course within 2%.  Between discharges
 * the bleed takes narrow peaks.  So the input looks to the line like
 *
 *   G = a·f·C·V_b/V + 2/R_bleed
 *
 * The less often it sparks, the less it draws: behind a film of water its volts stay nearly those
 * of the line, though the sparks are slow.  G is a mean over discharges and follows within τ. */
#define DRAWS 1.2      /* a */
#define DRAWS_TIME 1.0 /* τ, s */

const HobStateDef hob_module_states[HOB_MODULE_N_STATES] = {
  { .name = "phase", .words = "pulses since the last whole turn", .tolerance = 1e-3 },
  { .name = "load", .words = "admittance of its input by its sparks, S", .tolerance = 5e-8 },
};

const char *const hob_sparking_words[] = { N_ ("sparking stops"), N_ ("sparking starts"), NULL };

HobSparkCell
hob_module_cell (const HobPartContext *c, double capacity, double charging, double bleed)
{
  return (HobSparkCell){ capacity * c->set[HOB_MODULE_CAPACITY], charging, bleed,
                         c->set[HOB_MODULE_TRIGGER] };
}

gboolean
hob_module_may_fire (const HobSparkCell *cell, double volts)
{
  return G_SQRT2 * volts > HOB_OUT_NO_CELL * cell->trigger;
}

double
hob_module_draws (const HobPartContext *c, const HobSparkCell *cell)
{
  return 2 / cell->bleed + (c->mode[HOB_MODULE_SPARKING] > 0 ? c->y[HOB_MODULE_DRAW] : 0);
}

/* What is within a hundredth of where it goes is there: nothing to follow in small steps.  From
 * there on it follows what is left, so that the rate has no jump. */
void
hob_module_rates (const HobPartContext *c, const HobSparkCell *cell, double rate, double volts)
{
  double charge = cell->capacitance * cell->trigger, draws, off, near;

  c->dy[HOB_MODULE_PHASE] = rate;
  if (!(c->mode[HOB_MODULE_SPARKING] > 0) || volts < HOB_OUT_LEAST_LINE)
    return;
  draws = DRAWS * rate * charge / volts;
  near = 0.01 * draws + 1e-9;
  off = draws - c->y[HOB_MODULE_DRAW];
  c->dy[HOB_MODULE_DRAW] = (off - CLAMP (off, -near, near)) / DRAWS_TIME;
}

double
hob_module_energy (const HobSparkCell *cell)
{
  return HOB_OUT_YIELD * hob_spark_cell_energy (cell);
}

void
hob_module_beat (const HobPartContext *c, int first, int n_outputs, double rate)
{
  for (int k = first; k < first + n_outputs; k++)
    if (c->lead[k] != NULL)
      {
        c->lead[k]->rate = rate;
        c->lead[k]->phase = c->mode[HOB_MODULE_WHOLE] + c->y[HOB_MODULE_PHASE];
        c->lead[k]->miss = c->set[HOB_MODULE_MISSED];
        c->lead[k]->key = c->index + 1;
      }
}

double
hob_module_rate (const HobPartContext *c, int first, int n_outputs,
                 double (*cell_rate) (const HobPartContext *c))
{
  for (int k = first; k < first + n_outputs; k++)
    if (c->lead[k] != NULL)
      return c->lead[k]->rate;
  return cell_rate (c);
}

double
hob_module_outputs (const HobPartContext *c, int first, int n_outputs)
{
  int n = 0;

  for (int k = first; k < first + n_outputs; k++)
    n += c->lead[k] != NULL && c->lead[k]->rate > 0 && c->lead[k]->volts > 0;
  return n;
}

const guint8 hob_module_guard_reads[HOB_MODULE_N_GUARDS] = {
  [HOB_MODULE_BEGINS] = HOB_READS_LEADS,
  [HOB_MODULE_ENDS] = HOB_READS_LEADS,
  [HOB_MODULE_TURNS] = HOB_READS_NOTHING,
  [HOB_MODULE_LULLS] = HOB_READS_LEADS,
};

double
hob_module_guard (const HobPartContext *c, int k, double rate,
                  double (*volts) (const HobPartContext *c))
{
  gboolean sparking = c->mode[HOB_MODULE_SPARKING] > 0;
  double seen = rate * (1 - c->set[HOB_MODULE_MISSED]), lull = c->mode[HOB_MODULE_LULL];

  switch (k)
    {
    case HOB_MODULE_TURNS: return c->y[HOB_MODULE_PHASE] - HOB_OUT_TURNS;
    case HOB_MODULE_BEGINS: return sparking ? -1 : seen - HOB_OUT_BEGINS;
    case HOB_MODULE_LULLS:
      if (!sparking)
        return -1;
      return lull > 0 ? seen - HOB_OUT_BEGINS : HOB_OUT_ENDS - seen;
    default:
      if (!(sparking && lull > 0))
        return -1;
      return fmax (HOB_OUT_LEAST_LINE - volts (c), *c->t - lull - HOB_OUT_LULL);
    }
}

/* What comes and goes with a film of water is one sparking, with lulls. */
void
hob_module_flip (const HobPartContext *c, int k, double *y)
{
  switch (k)
    {
    case HOB_MODULE_TURNS:
      c->mode[HOB_MODULE_WHOLE] += HOB_OUT_TURNS;
      y[HOB_MODULE_PHASE] -= HOB_OUT_TURNS;
      break;
    case HOB_MODULE_LULLS:
      c->mode[HOB_MODULE_LULL] = c->mode[HOB_MODULE_LULL] > 0 ? 0 : fmax (*c->t, 1e-3);
      break;
    default:
      c->mode[HOB_MODULE_SPARKING] = k == HOB_MODULE_BEGINS;
      c->mode[HOB_MODULE_LULL] = 0;
    }
}

void
hob_module_draw_charging (HobPen *pen, double x1, double y)
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

void
hob_module_draw_capacitor (HobPen *pen, double x, double y1, double y2)
{
  double middle = (y1 + y2) / 2;

  pen_segment (pen, x, y1, x, middle - 4);
  pen_segment (pen, x - 11, middle - 4, x + 11, middle - 4);
  pen_segment (pen, x - 11, middle + 4, x + 11, middle + 4);
  pen_segment (pen, x, middle + 4, x, y2);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

void
hob_module_draw_winding (HobPen *pen, double x, double y)
{
  pen_segment (pen, x, y, x, y + 8);
  for (int k = 0; k < 3; k++)
    {
      pen_move (pen, x, y + 8 + 6 * k);
      pen_arc (pen, x, y + 11 + 6 * k, 3, -G_PI_2, G_PI_2);
    }
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}
