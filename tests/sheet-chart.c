/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/differ.h"
#include "recording-pen.h"
#include "run/twin.h"
#include "sheet/chart-data.h"
#include "sheet/fault-chart.h"
#include "staged.h"
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static void
test_ticks (void)
{
  g_assert_cmpfloat (hob_chart_tick (10, 100, 10), ==, 1);
  g_assert_cmpfloat (hob_chart_tick (10, 100, 11), ==, 2);
  g_assert_cmpfloat (hob_chart_tick (10, 100, 30), ==, 5);
  g_assert_cmpfloat (hob_chart_tick (3.4, 100, 20), ==, 1);
  g_assert_cmpfloat_with_epsilon (hob_chart_tick (0.034, 100, 20), 0.01, 1e-12);
  g_assert_cmpfloat (hob_chart_tick (4000, 100, 20), ==, 1000);
}

/* Whatever the span, ticks are no closer than asked and not five times as far. */
static void
test_ticks_keep_apart (void)
{
  for (double span = 1e-4; span < 1e7; span *= 1.37)
    {
      double step = hob_chart_tick (span, 700, 40);

      g_assert_cmpfloat (step / span * 700, >=, 40 * (1 - 1e-9));
      g_assert_cmpfloat (step / span * 700, <=, 40 * 2.5 * (1 + 1e-9));
    }
}

static void
test_time_ticks (void)
{
  g_assert_cmpfloat (hob_chart_time_tick (60, 600, 80), ==, 10);
  g_assert_cmpfloat (hob_chart_time_tick (120, 600, 80), ==, 30);
  g_assert_cmpfloat (hob_chart_time_tick (3600, 900, 80), ==, 600);
  g_assert_cmpfloat (hob_chart_time_tick (8 * 3600.0, 900, 80), ==, 3600);
  g_assert_cmpfloat (hob_chart_time_tick (2, 900, 80), <, 1);
  g_assert_cmpfloat (hob_chart_time_tick (30 * 86400.0, 900, 80), ==, 3 * 86400.0);
}

static void
test_nothing_to_show (void)
{
  g_assert_cmpfloat (hob_chart_tick (0, 100, 10), >, 0);
  g_assert_cmpfloat (hob_chart_tick (1, 0, 10), >, 0);
  g_assert_cmpfloat (hob_chart_time_tick (0, 100, 10), >, 0);
}

static void
test_plot_box (void)
{
  HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  double box[4];

  hob_chart_plot_box (800, 200, &look, box);
  g_assert_cmpfloat (box[0], >, 0);
  g_assert_cmpfloat (box[0] + box[2], <, 800);
  g_assert_cmpfloat (box[1] + box[3], <, 200);
  hob_chart_plot_box (1, 1, &look, box);
  g_assert_cmpfloat (box[2], >, 0);
  g_assert_cmpfloat (box[3], >, 0);
}

#define W 700
#define H 150

static cairo_surface_t *
drawn (const HobChart *chart)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, W, H);
  cairo_t *cr = cairo_create (surface);

  hob_sheet_ground (cr, W, H, &look);
  hob_chart_draw (cr, chart, W, H, &look);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static gboolean
same_with_memory (HobChart chart, HobChartMemory *memory)
{
  cairo_surface_t *one = drawn (&chart), *other;
  gboolean same;

  chart.memory = memory;
  other = drawn (&chart);
  same = memcmp (cairo_image_surface_get_data (one), cairo_image_surface_get_data (other),
                 (gsize) cairo_image_surface_get_stride (one) * H) == 0;
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
  return same;
}

static void
named_trace (const HobRange *range, const char *name, HobTrace *trace)
{
  g_assert_true (hob_range_find_quantity (range, name, &trace->part, &trace->quantity, NULL));
}

/* As the run goes on, and after an act in the past that was told of. */
static void
test_memory (void)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobChartMemory) memory = hob_chart_memory_new ();
  HobTrace traces[3];
  HobChart chart = { .to = 120, .cursor = NAN, .traces = traces, .n_traces = 3, .until = 40 };
  HobRun *run, *twin;
  int part, control;

  named_trace (range, "cavity.air", &traces[0]);
  named_trace (range, "igniter-bake.current", &traces[1]);
  named_trace (range, "burner-bake.heat", &traces[2]);
  g_assert_true (hob_case_do (acts, "1s oven.mode=bake", NULL));
  g_assert_true (hob_range_find_control (range, "oven.mode", &part, &control, NULL));
  run = hob_run_new (plan, acts, NULL);
  twin = hob_twin_new (plan, acts);
  chart.run = run;
  chart.twin = twin;
  for (; chart.until < 120; chart.until += 27)
    {
      hob_run_advance (run, chart.until, NULL);
      hob_run_advance (twin, chart.until, NULL);
      g_assert_true (same_with_memory (chart, memory));
    }
  hob_run_act (run, (HobAct){ 50000, HOB_ACT_CONTROL, part, control, 0 });
  hob_run_act (twin, (HobAct){ 50000, HOB_ACT_CONTROL, part, control, 0 });
  hob_chart_memory_cut (memory, 50);
  hob_run_advance (run, 110, NULL);
  hob_run_advance (twin, 110, NULL);
  g_assert_true (same_with_memory (chart, memory));
  named_trace (range, "valve-bake.opening", &traces[0]);
  g_assert_true (same_with_memory (chart, memory));
  chart.from = 30;
  g_assert_true (same_with_memory (chart, memory));
  hob_run_free (run);
  hob_run_free (twin);
}

static void
flags_speak_a_persons_words (void)
{
  static const char *const wanted[]
      = { "Bake igniter: weak igniter, 30% more resistance", "Oven control: BAKE",
          "Igniter glows for 90 seconds without a flame" };
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_autoptr (HobSymptomWatch) watch = hob_symptom_watch_new (book, plan);
  HobRun *run;
  guint first;

  g_assert_true (hob_case_fault (acts, "igniter-bake:aged", NULL));
  g_assert_true (hob_case_do (acts, "0s oven.mode=bake", NULL));
  run = hob_run_new (plan, acts, hob_symptom_watch_get (watch));
  hob_run_advance (run, 180, NULL);
  g_assert_cmpuint (hob_run_events (run, -1, 180, &first), ==, G_N_ELEMENTS (wanted));
  for (guint k = 0; k < G_N_ELEMENTS (wanted); k++)
    {
      g_autofree char *said = hob_event_words (run, hob_run_event (run, first + k), book);

      g_assert_cmpstr (said, ==, wanted[k]);
    }
  g_assert_null (hob_event_words (run, hob_run_event (run, first + 2), NULL));
  hob_run_free (run);
}

/* ---- Which lanes ---- */

static const struct
{
  const char *range, *words, *lanes; /* parts and quantities, the first ones */
  double at;
} choices[] = {
  { "dial-four", NULL, "cavity.air igniter-bake.current burner-bake.heat", 10 },
  { "dial-four", "1s oven.mode=bake", "cavity.air igniter-bake.current burner-bake.heat", 300 },
  { "dial-four", "1s knob-rr=light", "burner-rr.heat electrode-rr.rate module.rate", 10 },
  { "dial-four", "1s knob-rr=light | 3s oven.mode=bake | 300s knob-lf=light",
    "burner-lf.heat electrode-lf.rate", 305 },
  { "dial-four", "5s knob-lf=light | electrode-lf:cracked",
    "electrode-lf.rate burner-lf.heat electrode-lr.rate electrode-rf.rate", 14 },
  { "dial-four", "5s knob-rr=light | electrode-rr:cracked",
    "electrode-rr.rate burner-rr.heat electrode-lf.rate electrode-lr.rate", 14 },
  { "dial-four", "5s oven.mode=bake | igniter-bake:aged",
    "igniter-bake.current cavity.air burner-bake.heat", 600 },
  { "dial-four", "5s oven.mode=bake | oven:contact-welded",
    "oven.drop cavity.air igniter-bake.current", 3600 },
  { "board-five", "5s oven.mode=broil", "cavity.air igniter-broil.current burner-broil.heat", 300 },
  { "dial-four", "1s knob-lf=light | 4s knob-lf=high | burner-lf:orifice-clogged",
    "burner-lf.heat", 60 },
};

static GArray *
chosen (const Staged *s)
{
  g_autoptr (HobLanes) lanes = hob_lanes_new (s->bench->plan);
  HobRun *should_be = hob_bench_should_be (s->bench), *twin = hob_bench_twin (s->bench);

  hob_lanes_look_back (lanes, s->bench->run, should_be, twin, 0, s->at);
  return hob_lanes_choose (lanes, s->acts, s->at, HOB_CHART_LANES);
}

static char *
names_of (const HobRange *range, const GArray *traces)
{
  GString *names = g_string_new (NULL);

  for (guint k = 0; k < traces->len; k++)
    {
      const HobTrace *t = &g_array_index (traces, HobTrace, k);
      const HobPart *part = &range->parts[t->part];

      g_string_append_printf (names, "%s%s.%s", k > 0 ? " " : "", part->id,
                              part->kind->quantities[t->quantity].name);
    }
  return g_string_free (names, FALSE);
}

static void
lanes_are_of_the_acts_and_of_what_differs (void)
{
  for (gsize k = 0; k < G_N_ELEMENTS (choices); k++)
    {
      g_autoptr (Staged) s = staged_new (choices[k].range, choices[k].words, choices[k].at);
      g_autoptr (GArray) traces = chosen (s);
      g_autofree char *names = names_of (s->range, traces);

      if (!g_str_has_prefix (names, choices[k].lanes))
        {
          g_test_message ("%s: %s, not %s", choices[k].words, names, choices[k].lanes);
          g_test_fail ();
        }
    }
}

/* What is looked at as time goes on leads to the same as looking back. */
static void
lanes_come_with_time (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "5s knob-lf=light | electrode-lf:cracked", 14);
  g_autoptr (HobLanes) lanes = hob_lanes_new (s->bench->plan);
  g_autoptr (GArray) early = NULL, late = NULL, all = chosen (s);
  g_autofree char *was = NULL, *is = NULL, *wanted = names_of (s->range, all);
  HobRun *should_be = hob_bench_should_be (s->bench), *twin = hob_bench_twin (s->bench);

  for (double t = 0; t <= 4; t += 0.2)
    hob_lanes_look (lanes, s->bench->run, should_be, twin, t);
  early = hob_lanes_choose (lanes, s->acts, 4, HOB_CHART_LANES);
  was = names_of (s->range, early);
  g_assert_cmpstr (was, ==, "cavity.air igniter-bake.current burner-bake.heat");
  for (double t = 4; t <= 14; t += 0.2)
    hob_lanes_look (lanes, s->bench->run, should_be, twin, t);
  late = hob_lanes_choose (lanes, s->acts, 14, HOB_CHART_LANES);
  is = names_of (s->range, late);
  g_assert_cmpstr (is, ==, wanted);
}

/* What is undone at the time of the last look was never there; what was seen before it stays. */
static void
what_is_taken_back_is_not_remembered (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "5s knob-lf=light | 20s knob-lf=off", 60);
  g_autoptr (HobLanes) lanes = hob_lanes_new (s->bench->plan);
  HobRun *run = s->bench->run, *twin = hob_bench_twin (s->bench);
  g_autoptr (GArray) before = NULL, with = NULL, after = NULL;
  g_autofree char *was = NULL, *wrong = NULL, *is = NULL;
  HobAct act = { 60000, HOB_ACT_FAULT, -1, -1, 1 };

  g_assert_true (hob_range_find_fault (s->range, "receptacle:reversed", &act.part, &act.index,
                                       NULL));
  hob_lanes_look_back (lanes, run, hob_bench_should_be (s->bench), twin, 0, 60);
  before = hob_lanes_choose (lanes, s->acts, 60, HOB_CHART_LANES);
  hob_bench_act (s->bench, act);
  hob_bench_advance (s->bench, 60, NULL);
  hob_lanes_look (lanes, run, hob_bench_should_be (s->bench), twin, 60);
  with = hob_lanes_choose (lanes, s->acts, 60, HOB_CHART_LANES);
  hob_bench_undo (s->bench);
  hob_bench_advance (s->bench, 60, NULL);
  hob_lanes_look (lanes, run, hob_bench_should_be (s->bench), twin, 60);
  after = hob_lanes_choose (lanes, s->acts, 60, HOB_CHART_LANES);
  was = names_of (s->range, before);
  wrong = names_of (s->range, with);
  is = names_of (s->range, after);
  g_assert_cmpstr (wrong, !=, was);
  g_assert_cmpstr (is, ==, was);
}

/* ---- What is drawn ---- */

static HobChart
chart_of (const Staged *s, const GArray *traces)
{
  return (HobChart){ .run = s->bench->run,
                     .should_be = hob_bench_should_be (s->bench),
                     .twin = hob_bench_twin (s->bench),
                     .traces = (const HobTrace *) (gconstpointer) traces->data,
                     .n_traces = (int) traces->len,
                     .book = s->bench->book,
                     .to = s->at,
                     .cursor = s->at };
}

static void
lanes_have_three_round_marks (void)
{
  for (double low = -1000; low < 1000; low += 33.3)
    for (double span = 1e-3; span < 1e5; span *= 3.1)
      {
        double foot = low, top = low + span, step = hob_chart_fit (&foot, &top);

        g_assert_cmpfloat (foot, <=, low + 1e-6 * span);
        g_assert_cmpfloat (top, >=, low + span - 1e-6 * span);
        g_assert_cmpfloat_with_epsilon (top - foot, 2 * step, 1e-9 * step);
        g_assert_cmpfloat (step, <=, 2 * span * (1 + 1e-9));
      }
}

/* Four hours, one reading a column: the igniter's current is full or none at every reading beside
 * a switching contact, and the two are never more than 2 ms apart. */
static void
contacts_are_drawn_square (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "0s oven.mode=bake", 4 * 3600);
  HobTrace trace;
  GArray traces = { (char *) &trace, 1 };
  HobChart chart;
  g_autoptr (HobChartData) data = NULL;
  int drops = 0;

  named_trace (s->range, "igniter-bake.current", &trace);
  chart = chart_of (s, &traces);
  data = hob_chart_data_new (&chart, 500);
  for (int k = 1; k < data->run.n; k++)
    {
      if (data->run.value[k - 1] < 1 || data->run.value[k] > 0.01)
        continue;
      g_assert_cmpfloat (data->run.t[k] - data->run.t[k - 1], <, 0.002);
      drops++;
    }
  g_assert_cmpint (drops, >, 40);
}

/* The number itself, as `hob run --trace` prints it, and what should be there. */
static void
the_hand_has_the_values_of_the_run (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "5s oven.mode=bake | igniter-bake:aged", 600);
  g_autoptr (GArray) traces = chosen (s);
  g_autoptr (HobMoment) m = hob_moment_new (s->bench->plan);
  HobChart chart = chart_of (s, traces);

  for (chart.cursor = 1; chart.cursor < 600; chart.cursor += 7.3)
    {
      g_autofree HobAtHand *hand = hob_chart_at_hand (&chart);

      for (int k = 0; k < chart.n_traces; k++)
        {
          const HobTrace *t = &chart.traces[k];
          HobDimension dim = s->range->parts[t->part].kind->quantities[t->quantity].dim;
          double normal;

          hob_run_read (s->bench->run, chart.cursor, m);
          g_assert_cmpfloat (hand[k].value, ==, hob_moment_quantity (m, t->part, t->quantity));
          hob_run_read (hob_chart_behind (&chart, k) == HOB_BEHIND_SHOULD_BE ? chart.should_be
                                                                             : chart.twin,
                        chart.cursor, m);
          normal = hob_moment_quantity (m, t->part, t->quantity);
          if (!isnan (hand[k].normal))
            g_assert_cmpfloat (hand[k].normal, ==, normal);
          else
            g_assert_false (hob_differs (hand[k].value, normal, dim));
        }
    }
}

static void
the_file_has_the_values_of_the_run (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "5s oven.mode=bake", 120);
  g_autoptr (GArray) traces = chosen (s);
  g_autoptr (HobMoment) m = hob_moment_new (s->bench->plan);
  HobChart chart = chart_of (s, traces);
  g_autoptr (GString) csv = g_string_new (NULL);
  g_auto (GStrv) lines = NULL;

  hob_chart_append_csv (csv, &chart, 0.5);
  lines = g_strsplit (csv->str, "\n", -1);
  g_assert_cmpuint (g_strv_length (lines), ==, 1 + 241 + 1);
  g_assert_cmpstr (lines[0], ==,
                   "time_s,cavity.air,igniter-bake.current,burner-bake.heat");
  for (int row = 0; row <= 240; row++)
    {
      g_auto (GStrv) cells = g_strsplit (lines[row + 1], ",", -1);

      g_assert_cmpfloat (g_ascii_strtod (cells[0], NULL), ==, row * 0.5);
      hob_run_read (s->bench->run, row * 0.5, m);
      for (int k = 0; k < chart.n_traces; k++)
        {
          double value
              = hob_moment_quantity (m, chart.traces[k].part, chart.traces[k].quantity);

          g_assert_cmpfloat_with_epsilon (g_ascii_strtod (cells[k + 1], NULL), value,
                                          1e-8 * fabs (value) + 1e-300);
        }
    }
}

static cairo_surface_t *
blank (const HobLook *look, cairo_t **cr)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 800, 500);

  *cr = cairo_create (surface);
  hob_sheet_ground (*cr, 800, 500, look);
  return surface;
}

/* The window draws a chart once and the hand over it as it moves: that is the picture of both. */
static void
the_hand_over_a_chart_is_the_whole_chart (void)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.5 }; /* a chart has no zoom */
  g_autoptr (Staged) s = staged_new ("dial-four", "5s oven.mode=bake | igniter-bake:aged", 200);
  g_autoptr (GArray) traces = chosen (s);
  HobChart chart = chart_of (s, traces);
  cairo_surface_t *surfaces[3];
  const guchar *pixels[3];
  cairo_t *cr;

  for (int k = 0; k < 3; k++) /* at once, without a hand, and with the hand over that */
    {
      surfaces[k] = blank (&look, &cr);
      chart.cursor = k == 0 ? 120 : NAN;
      hob_chart_draw (cr, &chart, 800, 500, &look);
      chart.cursor = 120;
      if (k == 2)
        hob_chart_draw_hand (cr, &chart, 800, 500, &look);
      cairo_destroy (cr);
      cairo_surface_flush (surfaces[k]);
      pixels[k] = cairo_image_surface_get_data (surfaces[k]);
    }
  g_assert_true (memcmp (pixels[0], pixels[2], 800 * 500 * 4) == 0);
  g_assert_false (memcmp (pixels[1], pixels[2], 800 * 500 * 4) == 0);
  for (int k = 0; k < 3; k++)
    cairo_surface_destroy (surfaces[k]);
}

/* As high as asked for n lanes, n lanes have room and one more has not; large text needs more. */
static void
the_height_asked_for_has_room (void)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 }, large = { HOB_THEME_LIGHT, 1.5, 1.0 };

  g_assert_cmpfloat (hob_chart_least_height (&look), <, hob_chart_height (1, &look));
  for (int n = 1; n < 8; n++)
    {
      double least = hob_chart_height (n, &look), box[4], lane;

      hob_chart_plot_box (800, least, &look, box);
      lane = box[3] / n;
      g_assert_cmpfloat (box[1] + box[3], <, least);
      g_assert_cmpfloat (lane, >=, 20);
      g_assert_cmpfloat (least, <, hob_chart_height (n + 1, &look));
      g_assert_cmpfloat (least, <, hob_chart_height (n, &large));
    }
}

static gboolean
overlap (const HobBox *a, const HobBox *b)
{
  return a->x0 < b->x1 - 0.5 && b->x0 < a->x1 - 0.5 && a->y0 < b->y1 - 0.5 && b->y0 < a->y1 - 0.5;
}

static void
no_text_on_text (const Staged *s, const GArray *traces, double w, double h, double text_scale)
{
  const HobLook look = { HOB_THEME_LIGHT, text_scale, 1.0 };
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, &look);
  HobChart chart = chart_of (s, traces);
  double box[4];
  g_autoptr (HobChartData) data = NULL;

  hob_chart_plot_box (w, h, &look, box);
  data = hob_chart_data_new (&chart, box[2]);
  hob_chart_paint (&pen->pen, type, data, &chart, w, h, &look);
  hob_chart_paint_hand (&pen->pen, type, &chart, w, h, &look);
  for (guint a = 0; a < pen->texts->len; a++)
    {
      const RecordedText *one = &g_array_index (pen->texts, RecordedText, a);

      if (one->box.x0 < -0.5 || one->box.x1 > w + 0.5 || one->box.y0 < -0.5
          || one->box.y1 > h + 0.5 || strstr (one->text, "…") != NULL)
        {
          g_test_message ("%g x %g at %g: '%s' is cut off", w, h, text_scale, one->text);
          g_test_fail ();
        }
      for (guint b = 0; b < a; b++)
        {
          const RecordedText *other = &g_array_index (pen->texts, RecordedText, b);

          if (!overlap (&one->box, &other->box))
            continue;
          g_test_message ("%g x %g at %g: '%s' is on '%s'", w, h, text_scale, one->text,
                          other->text);
          g_test_fail ();
        }
    }
}

static void
texts_keep_apart (void)
{
  static const struct
  {
    const char *range, *words;
    double at;
  } shown[] = {
    { "dial-four", "0s oven.mode=bake", 4 * 3600 },
    { "board-five", "0s oven.mode=bake", 3600 },
    { "convection-fan", "0s oven.mode=convection", 3600 },
    { "dial-four", "5s knob-lf=light | 15s knob-lf=off | electrode-lf:cracked", 30 },
    { "dial-four", "5s oven.mode=bake | oven:contact-welded", 3600 },
    { "reignite-six", "1s knob-lf=light | 4s knob-lf=high | module:dead", 60 },
  };
  static const double widths[] = { 420, 1100 }, heights[] = { 0, 106, 480 };

  for (gsize k = 0; k < G_N_ELEMENTS (shown); k++)
    {
      g_autoptr (Staged) s = staged_new (shown[k].range, shown[k].words, shown[k].at);
      g_autoptr (GArray) traces = chosen (s);

      for (gsize x = 0; x < G_N_ELEMENTS (widths); x++)
        for (gsize y = 0; y < G_N_ELEMENTS (heights); y++)
          for (double text = 1; text < 1.6; text += 0.5)
            {
              const HobLook look = { HOB_THEME_LIGHT, text, 1.0 };

              no_text_on_text (s, traces, widths[x],
                               fmax (heights[y] * text, hob_chart_least_height (&look)), text);
            }
    }
}

/* What cycles is said once with how often it happens, and nothing is left out. */
static void
cycles_are_folded (void)
{
  g_autoptr (Staged) s = staged_new ("dial-four", "0s oven.mode=bake", 4 * 3600);
  g_autoptr (GArray) traces = chosen (s);
  HobChart chart = chart_of (s, traces);
  g_autoptr (HobChartData) data = hob_chart_data_new (&chart, 500);
  guint first, n = hob_run_events (s->bench->run, -1, s->at, &first), shown = 0, said = 0;

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (s->bench->run, k);

      shown += event->what < HOB_EVENT_HAZARD
               && (event->what != HOB_EVENT_CHANGE
                   || s->range->parts[event->part].kind->modes[event->index].words != NULL);
    }
  for (guint k = 0; k < data->events->len; k++)
    said += (guint) g_array_index (data->events, HobChartEvent, k).times;
  g_assert_cmpuint (data->events->len, <, 12);
  g_assert_cmpuint (data->events->len + data->repeats->len, ==, shown);
  g_assert_cmpuint (said, ==, shown);
  g_assert_cmpuint (shown, >, 200);
}

/* ---- Odd traces ---- */

/* The chart of one trace from @from on, with the hand at @cursor. */
static RecordingPen *
one_lane (const Staged *s, const char *name, HobType *type, const HobLook *look, double from,
          double cursor)
{
  HobTrace trace;
  GArray traces = { (char *) &trace, 1 };
  HobChart chart;
  RecordingPen *pen = recording_pen_new (type, look);
  g_autoptr (HobChartData) data = NULL;

  named_trace (s->range, name, &trace);
  chart = chart_of (s, &traces);
  chart.from = from;
  chart.cursor = cursor;
  data = hob_chart_data_new (&chart, 500);
  hob_chart_paint (&pen->pen, type, data, &chart, 800, 300, look);
  hob_chart_paint_hand (&pen->pen, type, &chart, 800, 300, look);
  return pen;
}

static guint
count_of (const RecordingPen *pen, const char *text)
{
  guint n = 0;

  for (guint k = 0; k < pen->texts->len; k++)
    n += strcmp (g_array_index (pen->texts, RecordedText, k).text, text) == 0;
  return n;
}

/* Marks are on the values that have a word, with none between them; the hand says its own. */
static void
a_lane_of_words_has_its_words (void)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (Staged) s = staged_new ("dial-four", "1s knob-lf=light", 10);
  g_autoptr (RecordingPen) pen = one_lane (s, "switch-lf.contact", type, &look, 0, 5);

  g_assert_cmpuint (count_of (pen, "no"), ==, 1);
  g_assert_cmpuint (count_of (pen, "yes"), ==, 2);
  g_assert_cmpuint (count_of (pen, "0.5"), ==, 0);
}

/* A dry switch has no ohms to be drawn: the lane has a scale all the same, and no line. */
static void
what_is_open_has_no_line (void)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (Staged) s = staged_new ("dial-four", "1s knob-lf=light", 10);
  g_autoptr (RecordingPen) pen = one_lane (s, "switch-lf.film-ohms", type, &look, 0, 5);

  g_assert_cmpuint (count_of (pen, "0"), >, 0);
  g_assert_null (strstr (pen->strokes->str, "nan"));
  g_assert_null (strstr (pen->strokes->str, "inf"));
  for (guint k = 0; k < pen->texts->len; k++)
    g_assert_null (strstr (g_array_index (pen->texts, RecordedText, k).text, "inf"));
}

/* The hand is drawn only over the time that is shown; its figures are there in any case. */
static void
a_hand_outside_is_not_drawn (void)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  g_autoptr (HobType) type = hob_type_new (&look);
  g_autoptr (Staged) s = staged_new ("dial-four", "1s knob-lf=light", 10);
  g_autoptr (RecordingPen) in = one_lane (s, "module.rate", type, &look, 4, 6);
  g_autoptr (RecordingPen) out = one_lane (s, "module.rate", type, &look, 4, 2);

  g_assert_cmpint (out->lines, <, in->lines);
  g_assert_cmpuint (out->texts->len, ==, in->texts->len);
}

/* Of a knob that is turned through its positions in one go, the last one has a flag. */
static void
one_turn_is_one_flag (void)
{
  static const struct
  {
    const char *words;
    guint flags;
  } turns[] = {
    { "1s knob-lf=light | 1.1s knob-lf=high | 1.2s knob-lf=low", 1 },
    { "1s knob-lf=light | 1.5s knob-lf=high | 2s knob-lf=low", 3 },
    { "1s knob-lf=light | 1.1s knob-rf=light | 1.2s knob-lr=light", 3 },
  };

  for (guint k = 0; k < G_N_ELEMENTS (turns); k++)
    {
      g_autoptr (Staged) s = staged_new ("dial-four", turns[k].words, 2.2);
      g_autoptr (GArray) traces = chosen (s);
      HobChart chart = chart_of (s, traces);
      g_autoptr (HobChartData) data = hob_chart_data_new (&chart, 500);
      guint acts = 0;

      for (guint e = 0; e < data->events->len; e++)
        acts += g_array_index (data->events, HobChartEvent, e).what == HOB_EVENT_ACT;
      g_assert_cmpuint (acts, ==, turns[k].flags);
      chart.covered = TRUE; /* what a hand does is no secret, and what is seen of it neither */
      {
        g_autoptr (HobChartData) same = hob_chart_data_new (&chart, 500);

        g_assert_cmpuint (same->events->len, ==, data->events->len);
      }
      chart.from = chart.to;
      {
        g_autoptr (HobChartData) none = hob_chart_data_new (&chart, 500);

        g_assert_cmpuint (none->events->len, ==, 0);
        g_assert_cmpint (none->run.n, ==, 0);
      }
    }
  hob_chart_data_free (NULL);
}

/* On paper nobody can ask for the rest: names wider than any column, and a note over one column. */
static void
rows_to_print_are_whole (void)
{
  static const char *const part = "Receptacle behind the range, beside the gas shutoff valve",
                    *const fault = "spill bridging the hot side of the spark switch to the valve "
                                   "stem, which is at the chassis",
                    *const note = "no symptoms in any of these routines";
  static const gboolean shows = FALSE;
  const HobFaultChartRow row = { part, fault, &shows, note };
  const HobFaultChartColumn column = { "Sparks with no knob at LIGHT", 0 };
  const HobFaultChart chart = { &row, 1, &column, 1 };
  const HobLook look = { HOB_THEME_PRINT, 1, 1, HOB_PAGE_PICTURE };
  g_autoptr (Staged) staged = staged_new ("dial-four", NULL, 0);
  g_autoptr (HobFacts) facts = hob_facts_new (staged->bench, 0, FALSE);
  const HobTitleBlock block = { facts, &look, HOB_SHEET_WIRING };
  g_autofree char *dir = g_dir_make_tmp ("chart-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (dir, "faults.svg", NULL), *svg = NULL;
  const char *const whole[] = { part, fault, note, column.symptom };
  g_autoptr (GError) error = NULL;

  hob_fault_chart_write (file, &chart, &block, &error);
  g_assert_no_error (error);
  g_file_get_contents (file, &svg, NULL, &error);
  g_assert_no_error (error);
  for (gsize k = 0; k < G_N_ELEMENTS (whole); k++)
    {
      g_autofree char *words = g_markup_printf_escaped (">%s</text>", whole[k]);

      g_assert_nonnull (strstr (svg, words));
    }
  g_remove (file);
  g_rmdir (dir);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/chart/ticks-are-1-2-5", test_ticks);
  g_test_add_func ("/sheet/chart/flags-speak-a-persons-words", flags_speak_a_persons_words);
  g_test_add_func ("/sheet/chart/ticks-keep-apart-at-any-span", test_ticks_keep_apart);
  g_test_add_func ("/sheet/chart/times-tick-in-seconds-minutes-hours", test_time_ticks);
  g_test_add_func ("/sheet/chart/nothing-to-show-is-no-trouble", test_nothing_to_show);
  g_test_add_func ("/sheet/chart/the-hand-over-a-chart-is-the-whole-chart",
                   the_hand_over_a_chart_is_the_whole_chart);
  g_test_add_func ("/sheet/chart/the-height-asked-for-has-room", the_height_asked_for_has_room);
  g_test_add_func ("/sheet/chart/the-plot-lies-within", test_plot_box);
  g_test_add_func ("/sheet/chart/what-is-kept-draws-the-same", test_memory);
  g_test_add_func ("/sheet/chart/lanes-are-of-the-acts-and-of-what-differs",
                   lanes_are_of_the_acts_and_of_what_differs);
  g_test_add_func ("/sheet/chart/lanes-come-with-time", lanes_come_with_time);
  g_test_add_func ("/sheet/chart/what-is-taken-back-is-not-remembered",
                   what_is_taken_back_is_not_remembered);
  g_test_add_func ("/sheet/chart/lanes-have-three-round-marks", lanes_have_three_round_marks);
  g_test_add_func ("/sheet/chart/contacts-are-drawn-square", contacts_are_drawn_square);
  g_test_add_func ("/sheet/chart/the-hand-has-the-values-of-the-run",
                   the_hand_has_the_values_of_the_run);
  g_test_add_func ("/sheet/chart/the-file-has-the-values-of-the-run",
                   the_file_has_the_values_of_the_run);
  g_test_add_func ("/sheet/chart/texts-keep-apart", texts_keep_apart);
  g_test_add_func ("/sheet/chart/cycles-are-folded", cycles_are_folded);
  g_test_add_func ("/sheet/chart/a-lane-of-words-has-its-words", a_lane_of_words_has_its_words);
  g_test_add_func ("/sheet/chart/what-is-open-has-no-line", what_is_open_has_no_line);
  g_test_add_func ("/sheet/chart/a-hand-outside-is-not-drawn", a_hand_outside_is_not_drawn);
  g_test_add_func ("/sheet/chart/one-turn-is-one-flag", one_turn_is_one_flag);
  g_test_add_func ("/sheet/chart/rows-to-print-are-whole", rows_to_print_are_whole);
  return g_test_run ();
}
