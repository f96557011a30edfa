/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/winding.h"

#include "parts/symbol.h"

const HobStateDef hob_module_states[1] = {
  { .name = "phase", .words = "pulses since the last whole turn", .tolerance = 1e-3 },
};

const char *const hob_sparking_words[] = { N_ ("sparking stops"), N_ ("sparking starts"), NULL };

HobSparkCell
hob_module_cell (const HobPartContext *c, double capacity, double charging, double bleed)
{
  return (HobSparkCell){ capacity * c->set[HOB_MODULE_CAPACITY], charging, bleed,
                         c->set[HOB_MODULE_TRIGGER] };
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
      return fmax (HOB_OUT_LEAST_LINE - volts (c), c->t - lull - HOB_OUT_LULL);
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
      c->mode[HOB_MODULE_LULL] = c->mode[HOB_MODULE_LULL] > 0 ? 0 : fmax (c->t, 1e-3);
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
