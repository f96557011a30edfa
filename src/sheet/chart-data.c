/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From runs to what a chart draws: readings, and what happened, in words.
 *
 * A reading at the beginning of every column of pixels, and one on each side of whatever happens in
 * between: so contacts that switch are drawn square, however long the time that is shown. */

#include "sheet/chart-data.h"
#include "sheet/facts.h"
#include "run/comparison.h"
#include "run/differ.h"
#include <math.h>
#include <string.h>

#define COLUMN 2.0   /* px */
#define AROUND 1e-6  /* s before an event */
#define MOST_IN_ONE 4 /* events of a column: the first and the last ones, the rest is between */
#define FOLD_FROM 4  /* times */
#define SAME_TURN 0.25 /* s: acts closer than this on one control are one turn */

/* ---- Readings ---- */

typedef struct
{
  double from, step;
  int columns;       /* that are read */
  GArray *trace;     /* HobTrace that they are of */
  GArray *t, *value; /* double, SI; n and n × n_traces */
} Kept;

enum { RUN, SHOULD_BE, TWIN, N_RUNS };

struct _HobChartMemory
{
  Kept kept[N_RUNS];
};

HobChartMemory *
hob_chart_memory_new (void)
{
  HobChartMemory *memory = g_new0 (HobChartMemory, 1);

  for (int k = 0; k < N_RUNS; k++)
    {
      memory->kept[k].trace = g_array_new (FALSE, FALSE, sizeof (HobTrace));
      memory->kept[k].t = g_array_new (FALSE, FALSE, sizeof (double));
      memory->kept[k].value = g_array_new (FALSE, FALSE, sizeof (double));
    }
  return memory;
}

void
hob_chart_memory_free (HobChartMemory *memory)
{
  if (memory == NULL)
    return;
  for (int k = 0; k < N_RUNS; k++)
    {
      g_array_unref (memory->kept[k].trace);
      g_array_unref (memory->kept[k].t);
      g_array_unref (memory->kept[k].value);
    }
  g_free (memory);
}

static void
keep_columns (Kept *kept, int columns)
{
  double end = kept->from + columns * kept->step;
  guint n = kept->t->len;

  if (columns >= kept->columns)
    return;
  while (n > 0 && g_array_index (kept->t, double, n - 1) >= end - AROUND / 2)
    n--;
  g_array_set_size (kept->t, n);
  g_array_set_size (kept->value, n * MAX (kept->trace->len, 1));
  kept->columns = columns;
}

void
hob_chart_memory_cut (HobChartMemory *memory, double t)
{
  for (int k = 0; k < N_RUNS; k++)
    {
      Kept *kept = &memory->kept[k];

      keep_columns (kept, kept->step > 0 && t >= kept->from
                              ? (int) floor ((t - kept->from) / kept->step) : 0);
    }
}

static gboolean
is_of (const Kept *kept, const HobChart *chart)
{
  const gsize bytes = sizeof (HobTrace) * (gsize) chart->n_traces;

  return kept->trace->len == (guint) chart->n_traces
         && (bytes == 0 || memcmp (kept->trace->data, chart->traces, bytes) == 0);
}

/* What is kept serves this chart, or is forgotten. */
static void
prepare (Kept *kept, const HobChart *chart, double step)
{
  if (kept->from == chart->from && kept->step == step && is_of (kept, chart))
    return;
  keep_columns (kept, 0);
  g_array_set_size (kept->t, 0);
  g_array_set_size (kept->value, 0);
  g_array_set_size (kept->trace, 0);
  g_array_append_vals (kept->trace, chart->traces, (guint) chart->n_traces);
  kept->from = chart->from;
  kept->step = step;
  kept->columns = 0;
}

static void
add_reading (Kept *kept, HobRun *run, HobMoment *m, double t)
{
  if (kept->t->len > 0 && t <= g_array_index (kept->t, double, kept->t->len - 1))
    return;
  hob_run_read (run, t, m);
  g_array_append_val (kept->t, t);
  for (guint i = 0; i < kept->trace->len; i++)
    {
      const HobTrace *trace = &g_array_index (kept->trace, HobTrace, i);
      double value = hob_moment_quantity (m, trace->part, trace->quantity);

      g_array_append_val (kept->value, value);
    }
}

/* Just before it and, at a whole millisecond, after. */
static void
add_event (Kept *kept, HobRun *run, HobMoment *m, const HobEvent *event, double to)
{
  add_reading (kept, run, m, event->t - AROUND);
  add_reading (kept, run, m, fmin (to, ceil (event->t * 1000 - 1e-6) / 1000));
}

static void
add_column (Kept *kept, HobRun *run, HobMoment *m, double from, double to)
{
  guint first, n = hob_run_events (run, from, to, &first);

  add_reading (kept, run, m, from);
  for (guint k = 0; k < n; k++)
    if (k < MOST_IN_ONE || k + MOST_IN_ONE >= n)
      add_event (kept, run, m, hob_run_event (run, first + k), to);
}

static HobReadings
copy_in_trade_units (const Kept *kept, const HobRange *range)
{
  HobReadings r = { (int) kept->t->len, (int) kept->trace->len };

  r.t = g_memdup2 (kept->t->data, sizeof (double) * kept->t->len);
  r.value = g_new (double, kept->value->len + 1);
  for (guint k = 0; k < kept->value->len; k++)
    {
      const HobTrace *trace = &g_array_index (kept->trace, HobTrace, k % kept->trace->len);
      HobDimension dim = range->parts[trace->part].kind->quantities[trace->quantity].dim;

      r.value[k] = hob_convert (g_array_index (kept->value, double, k), dim, HOB_UNITS_TRADE);
    }
  return r;
}

static double
last_shown (HobRun *run, const HobChart *chart)
{
  double to = fmin (chart->to, hob_run_reached (run));

  return chart->until > 0 ? fmin (to, chart->until) : to;
}

/* Whole columns stay as the run goes on; the last one is read again each time. */
static HobReadings
take_readings (HobRun *run, const HobChart *chart, double px, Kept *kept)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));
  const double step = (chart->to - chart->from) * COLUMN / px, to = last_shown (run, chart);
  HobReadings r = { 0 };

  prepare (kept, chart, step);
  if (to < chart->from || chart->n_traces == 0)
    return r;
  while (chart->from + (kept->columns + 1) * step <= to)
    {
      double from = chart->from + kept->columns * step;

      add_column (kept, run, m, from, from + step);
      kept->columns++;
    }
  add_column (kept, run, m, chart->from + kept->columns * step, to);
  add_reading (kept, run, m, to);
  r = copy_in_trade_units (kept, hob_plan_range (hob_run_plan (run)));
  kept->columns++; /* the last one is not whole: it goes again */
  keep_columns (kept, kept->columns - 1);
  return r;
}

static void
readings_clear (HobReadings *r)
{
  g_free (r->t);
  g_free (r->value);
}

/* ---- What is behind ---- */

HobBehind
hob_chart_behind (const HobChart *chart, int trace)
{
  const HobRange *range = hob_plan_range (hob_run_plan (chart->run));

  if (chart->should_be != NULL && chart->should_be != chart->run
      && !hob_chart_is_followed (range->parts[chart->traces[trace].part].kind))
    return HOB_BEHIND_SHOULD_BE;
  return chart->twin != NULL ? HOB_BEHIND_TWIN : HOB_BEHIND_NOTHING;
}

/* ---- Events ---- */

static void
clear_event (gpointer item)
{
  g_free (((HobChartEvent *) item)->words);
}

static GArray *
events_new (void)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (HobChartEvent));

  g_array_set_clear_func (events, clear_event);
  return events;
}

static const HobAct *
act_of (const HobRun *run, const HobEvent *event)
{
  return &g_array_index (hob_run_case (run)->acts, HobAct, event->index);
}

static gboolean
same_control (const HobAct *a, const HobAct *b)
{
  return a->what == b->what && a->part == b->part && a->index == b->index;
}

/* Another time the same thing. */
static gboolean
is_again (const HobRun *run, const HobEvent *a, const HobEvent *b)
{
  if (a->what != b->what || a->part != b->part || a->value != b->value)
    return FALSE;
  return a->what == HOB_EVENT_ACT ? same_control (act_of (run, a), act_of (run, b))
                                  : a->index == b->index;
}

/* A hand that turns a knob passes many places: the last one counts. */
static gboolean
is_passed (const HobRun *run, guint index, guint end)
{
  const HobEvent *event = hob_run_event (run, index);

  for (guint k = index + 1; k < end; k++)
    {
      const HobEvent *later = hob_run_event (run, k);

      if (later->t - event->t >= SAME_TURN)
        return FALSE;
      if (event->what == HOB_EVENT_ACT && later->what == HOB_EVENT_ACT
          && same_control (act_of (run, event), act_of (run, later)))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_silent (const HobRun *run, const HobEvent *event)
{
  const HobRange *range = hob_plan_range (hob_run_plan (run));

  return event->what >= HOB_EVENT_HAZARD
         || (event->what == HOB_EVENT_CHANGE
             && range->parts[event->part].kind->modes[event->index].words == NULL);
}

typedef struct
{
  const HobEvent *first;
  int number, times;
} Group;

/* Its index. */
static guint
group_of (GArray *groups, const HobRun *run, const HobEvent *event)
{
  Group fresh = { .first = event, .number = (int) groups->len };

  for (guint k = 0; k < groups->len; k++)
    {
      Group *group = &g_array_index (groups, Group, k);

      if (is_again (run, group->first, event))
        return k;
    }
  g_array_append_val (groups, fresh);
  return groups->len - 1;
}

typedef struct
{
  const HobEvent *event;
  guint group;
} Shown;

/* What cycles is said once, with how often it happens: the rest are marks. */
static void
take_events (HobChartData *data, const HobChart *chart)
{
  HobRun *run = chart->run;
  guint first, n = hob_run_events (run, chart->from - 1e-9, last_shown (run, chart), &first);
  g_autoptr (GArray) groups = g_array_new (FALSE, FALSE, sizeof (Group));
  g_autoptr (GArray) shown = g_array_new (FALSE, FALSE, sizeof (Shown));

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (run, k);

      if (is_silent (run, event) || is_passed (run, k, first + n)
          || (chart->covered && hob_event_is_covered (run, event)))
        continue;
      const Shown one = { event, group_of (groups, run, event) };

      g_array_index (groups, Group, one.group).times++;
      g_array_append_val (shown, one);
    }
  for (guint k = 0; k < shown->len; k++)
    {
      const HobEvent *event = g_array_index (shown, Shown, k).event;
      const Group *group = &g_array_index (groups, Group, g_array_index (shown, Shown, k).group);
      HobChartEvent mark = { event->t, event->what, NULL, 1, group->number };

      if (group->times >= FOLD_FROM && group->first != event)
        {
          g_array_append_val (data->repeats, mark);
          continue;
        }
      mark.times = group->times >= FOLD_FROM ? group->times : 1;
      mark.words = hob_event_words (run, event, chart->book);
      g_array_append_val (data->events, mark);
    }
}

/* ---- All of it ---- */

HobChartData *
hob_chart_data_new (const HobChart *chart, double px)
{
  HobChartData *data = g_new0 (HobChartData, 1);
  g_autoptr (HobChartMemory) fresh = chart->memory == NULL ? hob_chart_memory_new () : NULL;
  HobChartMemory *memory = fresh != NULL ? fresh : chart->memory;

  data->range = hob_plan_range (hob_run_plan (chart->run));
  data->events = events_new ();
  data->repeats = events_new ();
  if (!(chart->to > chart->from))
    return data;
  take_events (data, chart);
  data->run = take_readings (chart->run, chart, px, &memory->kept[RUN]);
  if (chart->should_be != NULL && chart->should_be != chart->run)
    data->should_be = take_readings (chart->should_be, chart, px, &memory->kept[SHOULD_BE]);
  if (chart->twin != NULL)
    data->twin = take_readings (chart->twin, chart, px, &memory->kept[TWIN]);
  return data;
}

void
hob_chart_data_free (HobChartData *data)
{
  if (data == NULL)
    return;
  readings_clear (&data->run);
  readings_clear (&data->should_be);
  readings_clear (&data->twin);
  g_array_unref (data->events);
  g_array_unref (data->repeats);
  g_free (data);
}

/* ---- At the hand ---- */

/* As the sheets have it. */
static void
read_should_be (const HobChart *chart, HobAtHand *hand)
{
  g_autoptr (HobComparison) c = hob_comparison_new (hob_run_plan (chart->run));

  hob_comparison_read (c, chart->run, chart->should_be, chart->cursor);
  for (int k = 0; k < chart->n_traces; k++)
    {
      const HobTrace *t = &chart->traces[k];
      double normal;

      if (hob_chart_behind (chart, k) == HOB_BEHIND_SHOULD_BE
          && hob_comparison_quantity (c, t->part, t->quantity, &normal))
        hand[k].normal = normal;
    }
}

static void
read_twin (const HobChart *chart, HobMoment *m, HobAtHand *hand)
{
  const HobRange *range = hob_plan_range (hob_run_plan (chart->run));

  hob_run_read (chart->twin, chart->cursor, m);
  for (int k = 0; k < chart->n_traces; k++)
    {
      const HobTrace *t = &chart->traces[k];
      double normal = hob_moment_quantity (m, t->part, t->quantity);

      if (hob_chart_behind (chart, k) == HOB_BEHIND_TWIN
          && hob_differs (hand[k].value, normal,
                          range->parts[t->part].kind->quantities[t->quantity].dim))
        hand[k].normal = normal;
    }
}

HobAtHand *
hob_chart_at_hand (const HobChart *chart)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (chart->run));
  HobAtHand *hand = g_new (HobAtHand, (gsize) chart->n_traces + 1);

  hob_run_read (chart->run, chart->cursor, m);
  for (int k = 0; k < chart->n_traces; k++)
    {
      const HobTrace *t = &chart->traces[k];

      hand[k] = (HobAtHand){ hob_moment_quantity (m, t->part, t->quantity), NAN };
    }
  if (chart->should_be != NULL && chart->should_be != chart->run)
    read_should_be (chart, hand);
  if (chart->twin != NULL)
    read_twin (chart, m, hand);
  return hand;
}

/* ---- As a file ---- */

static void
append_cell (GString *csv, double value)
{
  if (isfinite (value))
    hob_append_number (csv, value);
}

void
hob_chart_append_csv (GString *csv, const HobChart *chart, double every)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (chart->run));
  const HobRange *range = hob_plan_range (hob_run_plan (chart->run));
  const double to = last_shown (chart->run, chart);
  const int rows = (int) floor ((to - chart->from) / every + 1e-9) + 1;

  g_string_append (csv, "time_s");
  for (int k = 0; k < chart->n_traces; k++)
    {
      const HobPart *part = &range->parts[chart->traces[k].part];

      g_string_append_printf (csv, ",%s.%s", part->id,
                              part->kind->quantities[chart->traces[k].quantity].name);
    }
  g_string_append_c (csv, '\n');
  for (int row = 0; row < rows; row++)
    {
      double t = chart->from + row * every;

      hob_run_read (chart->run, t, m);
      append_cell (csv, t);
      for (int k = 0; k < chart->n_traces; k++)
        {
          g_string_append_c (csv, ',');
          append_cell (csv, hob_moment_quantity (m, chart->traces[k].part,
                                                 chart->traces[k].quantity));
        }
      g_string_append_c (csv, '\n');
    }
}
