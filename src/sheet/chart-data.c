/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From runs to what a chart draws: readings, one a column of pixels, and what happened, in words.
 * The only file that reads runs for a chart. */

#include "sheet/chart-data.h"
#include "sheet/facts.h"
#include <math.h>
#include <string.h>

#define COLUMN 2.0 /* px: a reading each */
#define MOST_EVENTS 400

/* ---- Readings ---- */

static void
readings_clear (HobReadings *r)
{
  g_free (r->t);
  g_free (r->value);
}

/* Readings of one run at from, from + step, from + 2·step …, in trade units, traces side by
 * side. */
typedef struct
{
  double from, step;
  int n_traces;
  GArray *value; /* double, owned */
} Kept;

struct _HobChartMemory
{
  Kept run, twin;
};

HobChartMemory *
hob_chart_memory_new (void)
{
  HobChartMemory *memory = g_new0 (HobChartMemory, 1);

  memory->run.value = g_array_new (FALSE, FALSE, sizeof (double));
  memory->twin.value = g_array_new (FALSE, FALSE, sizeof (double));
  return memory;
}

void
hob_chart_memory_free (HobChartMemory *memory)
{
  g_array_unref (memory->run.value);
  g_array_unref (memory->twin.value);
  g_free (memory);
}

static void
cut (Kept *kept, double t)
{
  double columns = kept->step > 0 && t >= kept->from ? floor ((t - kept->from) / kept->step) : 0;
  double n = columns * MAX (kept->n_traces, 1);

  if (n < kept->value->len)
    g_array_set_size (kept->value, (guint) n);
}

void
hob_chart_memory_cut (HobChartMemory *memory, double t)
{
  cut (&memory->run, t);
  cut (&memory->twin, t);
}

static void
read_column (HobRun *run, HobMoment *m, const HobChart *chart, double t, double *value)
{
  const HobRange *range = hob_plan_range (hob_run_plan (run));

  hob_run_read (run, t, m);
  for (int i = 0; i < chart->n_traces; i++)
    value[i] = hob_convert (
        hob_moment_quantity (m, chart->traces[i].part, chart->traces[i].quantity),
        range->parts[chart->traces[i].part].kind->quantities[chart->traces[i].quantity].dim,
        HOB_UNITS_TRADE);
}

/* What is kept serves this chart, or is forgotten. */
static void
prepare (Kept *kept, const HobChart *chart, double step)
{
  if (kept->from == chart->from && kept->step == step && kept->n_traces == chart->n_traces)
    return;
  g_array_set_size (kept->value, 0);
  kept->from = chart->from;
  kept->step = step;
  kept->n_traces = chart->n_traces;
}

static double
last_shown (HobRun *run, const HobChart *chart)
{
  double to = fmin (chart->to, hob_run_reached (run));

  return chart->until > 0 ? fmin (to, chart->until) : to;
}

/* Columns stand still while the run goes on; only the last reading moves, at the end of what is
 * shown. */
static HobReadings
take_readings (HobRun *run, const HobChart *chart, double px, Kept *kept)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));
  HobReadings r
      = { .n_traces = chart->n_traces, .from = chart->from, .to = last_shown (run, chart) };
  const double step = (chart->to - chart->from) * COLUMN / px;
  g_autofree double *column = g_new (double, MAX (chart->n_traces, 1));

  if (r.to < r.from)
    return r;
  prepare (kept, chart, step);
  r.n = 1 + (int) ceil ((r.to - r.from) / step - 1e-9);
  r.t = g_new (double, r.n);
  r.value = g_new (double, (gsize) r.n * (gsize) MAX (r.n_traces, 1));
  for (int k = 0; k < r.n; k++)
    {
      gboolean end = k == r.n - 1;
      const double *have = column;

      r.t[k] = end ? r.to : r.from + k * step;
      if (!end && (guint) (k * r.n_traces) < kept->value->len)
        have = &g_array_index (kept->value, double, k * r.n_traces);
      else
        {
          read_column (run, m, chart, r.t[k], column);
          if (!end)
            g_array_append_vals (kept->value, column, (guint) r.n_traces);
        }
      for (int i = 0; i < r.n_traces; i++)
        r.value[i * r.n + k] = have[i];
    }
  return r;
}

static void
clear_event (gpointer item)
{
  g_free (((HobChartEvent *) item)->words);
}

static GArray *
take_events (HobRun *run, const HobChart *chart)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (HobChartEvent));
  guint first, n = hob_run_events (run, chart->from - 1e-9, last_shown (run, chart), &first);

  g_array_set_clear_func (events, clear_event);
  for (guint k = first; k < first + MIN (n, MOST_EVENTS); k++)
    {
      const HobEvent *event = hob_run_event (run, k);
      HobChartEvent shown = { event->t, event->what, NULL };

      if (chart->covered && hob_event_is_covered (run, event))
        continue;
      shown.words = hob_event_words (run, event, chart->book);
      g_array_append_val (events, shown);
    }
  return events;
}

/* ---- All of it ---- */

static HobChartData *
read_chart (HobRun *run, HobRun *twin, const HobChart *chart, double px)
{
  HobChartData *data = g_new0 (HobChartData, 1);
  g_autoptr (HobChartMemory) fresh = chart->memory == NULL ? hob_chart_memory_new () : NULL;
  HobChartMemory *memory = fresh != NULL ? fresh : chart->memory;

  data->range = hob_plan_range (hob_run_plan (run));
  data->has_twin = twin != NULL;
  data->events = take_events (run, chart);
  if (!(chart->to > chart->from))
    return data;
  data->run = take_readings (run, chart, px, &memory->run);
  if (twin != NULL)
    data->twin = take_readings (twin, chart, px, &memory->twin);
  return data;
}

static void
data_free (HobChartData *data)
{
  readings_clear (&data->run);
  readings_clear (&data->twin);
  g_array_unref (data->events);
  g_free (data);
}

void
hob_chart_draw (cairo_t *cr, HobRun *run, HobRun *twin, const HobChart *chart, double w, double h,
                const HobLook *look)
{
  const HobLook flat = { look->theme, look->text_scale, 1.0 };
  HobChartData *data;
  double box[4];

  hob_chart_plot_box (chart, w, h, &flat, box);
  data = read_chart (run, twin, chart, box[2]);
  hob_chart_paint (cr, data, chart, w, h, look);
  data_free (data);
}
