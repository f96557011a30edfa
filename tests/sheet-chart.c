/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/twin.h"
#include "sheet/chart-data.h"
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
  const HobChart chart = { 0, 600, 0, NULL, 0 };
  HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  double box[4];

  hob_chart_plot_box (&chart, 800, 200, &look, box);
  g_assert_cmpfloat (box[0], >, 0);
  g_assert_cmpfloat (box[0] + box[2], <, 800);
  g_assert_cmpfloat (box[1] + box[3], <, 200);
  hob_chart_plot_box (&chart, 1, 1, &look, box);
  g_assert_cmpfloat (box[2], >, 0);
  g_assert_cmpfloat (box[3], >, 0);
}

#define W 700
#define H 150

static cairo_surface_t *
drawn (HobRun *run, HobRun *twin, const HobChart *chart)
{
  const HobLook look = { HOB_THEME_LIGHT, 1.0, 1.0 };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, W, H);
  cairo_t *cr = cairo_create (surface);

  hob_sheet_ground (cr, W, H, &look);
  hob_chart_draw (cr, run, twin, chart, W, H, &look);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static gboolean
same_with_memory (HobRun *run, HobRun *twin, HobChart chart, HobChartMemory *memory)
{
  cairo_surface_t *one = drawn (run, twin, &chart), *other;
  gboolean same;

  chart.memory = memory;
  other = drawn (run, twin, &chart);
  same = memcmp (cairo_image_surface_get_data (one), cairo_image_surface_get_data (other),
                 (gsize) cairo_image_surface_get_stride (one) * H) == 0;
  cairo_surface_destroy (one);
  cairo_surface_destroy (other);
  return same;
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
  g_autoptr (GArray) traces = hob_chart_default_traces (range);
  HobChart chart = { .to = 120,
                     .cursor = NAN,
                     .traces = (const HobTrace *) (gconstpointer) traces->data,
                     .n_traces = (int) traces->len,
                     .until = 40 };
  HobRun *run, *twin;
  int part, control;

  g_assert_true (hob_case_do (acts, "1s oven.mode=bake", NULL));
  g_assert_true (hob_range_find_control (range, "oven.mode", &part, &control, NULL));
  run = hob_run_new (plan, acts, NULL);
  twin = hob_twin_new (plan, acts);
  for (; chart.until < 120; chart.until += 27)
    {
      hob_run_advance (run, chart.until, NULL);
      hob_run_advance (twin, chart.until, NULL);
      g_assert_true (same_with_memory (run, twin, chart, memory));
    }
  hob_run_act (run, (HobAct){ 50000, HOB_ACT_CONTROL, part, control, 0 });
  hob_run_act (twin, (HobAct){ 50000, HOB_ACT_CONTROL, part, control, 0 });
  hob_chart_memory_cut (memory, 50);
  hob_run_advance (run, 110, NULL);
  hob_run_advance (twin, 110, NULL);
  g_assert_true (same_with_memory (run, twin, chart, memory));
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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/chart/ticks-are-1-2-5", test_ticks);
  g_test_add_func ("/sheet/chart/flags-speak-a-persons-words", flags_speak_a_persons_words);
  g_test_add_func ("/sheet/chart/ticks-keep-apart-at-any-span", test_ticks_keep_apart);
  g_test_add_func ("/sheet/chart/times-tick-in-seconds-minutes-hours", test_time_ticks);
  g_test_add_func ("/sheet/chart/nothing-to-show-is-no-trouble", test_nothing_to_show);
  g_test_add_func ("/sheet/chart/the-plot-lies-within", test_plot_box);
  g_test_add_func ("/sheet/chart/what-is-kept-draws-the-same", test_memory);
  return g_test_run ();
}
