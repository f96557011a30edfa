/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How fast a range runs, and how the cost of a simulated second grows with the number of ranges
 * on one house. Figures are ratios of what was measured side by side in this run; no time gates
 * anything. */

#include "config.h"
#include "copies.h"
#include "run/run.h"
#include "symptoms/symptoms.h"
#include <stdio.h>
#include <sys/resource.h>

static HobRange *
load_shipped (const char *name)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

/* Best of @times runs, wall s. */
static double
time_of_bake (HobRange *range, const HobSymptomBook *book, double until, int times,
              HobRunCounters *counters)
{
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobSymptomWatch) watch = book != NULL ? hob_symptom_watch_new (book, plan) : NULL;
  double best = G_MAXDOUBLE;

  for (int p = 0; p < range->n_parts; p++)
    if (hob_kind_control (range->parts[p].kind, "mode") >= 0)
      {
        HobAct bake = { 0, HOB_ACT_CONTROL, p, hob_kind_control (range->parts[p].kind, "mode"), 1 };
        hob_case_add (acts, bake);
      }
  for (int k = 0; k < times; k++)
    {
      gint64 t0 = g_get_monotonic_time ();
      g_autoptr (HobRun) run
          = hob_run_new (plan, acts, watch != NULL ? hob_symptom_watch_get (watch) : NULL);
      hob_run_advance (run, until, NULL);
      best = MIN (best, (double) (g_get_monotonic_time () - t0) / 1e6);
      *counters = hob_run_counters (run);
    }
  return best;
}

static double
peak_mb (void)
{
  struct rusage usage;

  getrusage (RUSAGE_SELF, &usage);
  return (double) usage.ru_maxrss / 1024;
}

static void
one_hour_of_bake (const char *name, const HobSymptomBook *book)
{
  g_autoptr (HobRange) range = load_shipped (name);
  HobRunCounters counters;
  double bare = time_of_bake (range, NULL, 3600, 7, &counters);
  double watched = time_of_bake (range, book, 3600, 7, &counters);

  printf ("%-16s one hour of bake at the shipped tolerance: %.1f ms (%.0f simulated hours a wall "
          "second), with symptoms "
          "× %.2f; %u steps, %u refused, %u evaluations\n",
          name, 1e3 * bare, 1 / bare, watched / bare, counters.steps, counters.rejected,
          counters.evaluations);
}

static void
growth (void)
{
  g_autoptr (HobRange) one = load_shipped ("dial-four.xml");
  double first = 0;

  for (int n = 1; n <= 16; n *= 4)
    {
      g_autofree char *xml = copies_xml (one, n);
      g_autoptr (GError) error = NULL;
      g_autoptr (HobRange) range
          = hob_range_load_memory (xml, strlen (xml), "copies.xml", NULL, &error);
      HobRunCounters counters;
      double wall;

      g_assert_no_error (error);
      wall = time_of_bake (range, NULL, 1200, 2, &counters);
      first = n == 1 ? wall : first;
      printf ("%2d ranges on one house: × %.1f the cost of one, × %.2f a range; %u steps\n", n,
              wall / first, wall / first / n, counters.steps);
    }
}

int
main (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, &error);

  g_assert_no_error (error);
  one_hour_of_bake ("dial-four.xml", book);
  one_hour_of_bake ("board-five.xml", book);
  printf ("peak memory so far: %.1f MB (aim for hob run: under 30)\n", peak_mb ());
  growth ();
  return 0;
}
