/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheet/sheet.h"

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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/chart/ticks-are-1-2-5", test_ticks);
  g_test_add_func ("/sheet/chart/ticks-keep-apart-at-any-span", test_ticks_keep_apart);
  g_test_add_func ("/sheet/chart/times-tick-in-seconds-minutes-hours", test_time_ticks);
  g_test_add_func ("/sheet/chart/nothing-to-show-is-no-trouble", test_nothing_to_show);
  g_test_add_func ("/sheet/chart/the-plot-lies-within", test_plot_box);
  return g_test_run ();
}
