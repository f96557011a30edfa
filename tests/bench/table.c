/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a range's table of faults costs, counted in hours of a normal bake, and how well threads
 * share the work.  Nothing here passes or fails by the clock. */

#include "config.h"
#include "reason/table.h"
#include <stdio.h>
#include <time.h>

static double
cpu_seconds (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double) t.tv_sec + (double) t.tv_nsec * 1e-9;
}

static HobBench *
bench_of (const char *name)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return hob_bench_new (NULL, range, NULL, NULL);
}

/* CPU s of one hour of bake, the best of some. */
static double
hour_of_bake (const HobBench *idle)
{
  const HobRange *range = hob_bench_range (idle);
  g_autoptr (HobCase) acts = hob_case_new (range);
  double best = G_MAXDOUBLE;

  g_assert_true (hob_case_do (acts, "0s oven.mode=bake", NULL));
  for (int k = 0; k < 5; k++)
    {
      double begin = cpu_seconds ();
      g_autoptr (HobBench) bench = hob_bench_again (idle, acts);

      hob_bench_advance (bench, 3600, NULL);
      best = MIN (best, cpu_seconds () - begin);
    }
  return best;
}

typedef struct
{
  double cpu, wall;
} Cost;

static Cost
cost_of (const HobBench *idle, GArray *hypotheses, int threads)
{
  double cpu = cpu_seconds (), wall = (double) g_get_monotonic_time ();
  g_autoptr (HobFaultTable) table
      = hob_fault_table_new (idle, hypotheses, &(HobTableWork){ .threads = threads });

  g_assert_nonnull (table);
  return (Cost){ cpu_seconds () - cpu, ((double) g_get_monotonic_time () - wall) * 1e-6 };
}

/* Every sixth fault, on one thread and on all. */
static void
sharing (const char *name, const HobBench *idle, const GArray *all)
{
  g_autoptr (GArray) some = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));
  int threads = (int) g_get_num_processors ();
  Cost one, many;

  for (guint k = 0; k < all->len; k += 6)
    g_array_append_val (some, g_array_index (all, HobHypothesis, k));
  one = cost_of (idle, some, 1);
  many = cost_of (idle, some, threads);
  printf ("%-16s %u faults: 1 thread %.1f s wall, %.1f s CPU; %d threads %.1f s wall, %.1f s CPU: "
          "%.2f times as fast, for %.2f times the CPU time\n", name, some->len, one.wall, one.cpu,
          threads, many.wall, many.cpu, one.wall / many.wall, many.cpu / one.cpu);
}

static void
table_of (const char *name)
{
  g_autoptr (HobBench) idle = bench_of (name);
  g_autoptr (GArray) all = hob_hypotheses_single (hob_bench_range (idle));
  double hour = hour_of_bake (idle);
  Cost cost;

  sharing (name, idle, all);
  cost = cost_of (idle, all, 0);
  printf ("%-16s all %u single faults: %.1f s wall, %.1f s CPU = %.0f normal hours of bake "
          "of %.0f ms\n", name, all->len, cost.wall, cost.cpu, cost.cpu / hour, 1e3 * hour);
}

int
main (void)
{
  table_of ("dial-four.xml");
  table_of ("board-five.xml");
  return 0;
}
