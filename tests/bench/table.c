/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a range's table of faults costs, counted in hours of a normal bake, how well threads share
 * the work, and how soon it is cancelled.  Nothing here passes or fails by the clock. */

#include "config.h"
#include "reason/table.h"
#include <stdio.h>
#include <time.h>

#define CANCELS 20
#define FIRST_CANCEL 0.05 /* s */
#define BETWEEN_CANCELS 0.1

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

/* On one thread and on all. */
static void
sharing (const char *name, const HobBench *idle, GArray *some)
{
  int threads = (int) g_get_num_processors ();
  Cost one = cost_of (idle, some, 1), many = cost_of (idle, some, threads);

  printf ("%-16s %u faults: 1 thread %.1f s wall, %.1f s CPU; %d threads %.1f s wall, %.1f s CPU: "
          "%.2f times as fast, for %.2f times the CPU time\n",
          name, some->len, one.wall, one.cpu, threads, many.wall, many.cpu, one.wall / many.wall,
          many.cpu / one.cpu);
}

/* ---- Cancel ---- */

typedef struct
{
  double after; /* s */
  gint cancel;  /* atomic */
  double wall, cpu;
} Cancel;

static gpointer
cancel_later (gpointer data)
{
  Cancel *c = data;

  g_usleep ((gulong) (c->after * 1e6));
  c->wall = (double) g_get_monotonic_time ();
  c->cpu = cpu_seconds ();
  g_atomic_int_set (&c->cancel, 1);
  return NULL;
}

/* At so many moments of the work: how long it goes on. */
static void
cancelling (const char *name, const HobBench *idle, GArray *some)
{
  double wall = 0, cpu = 0;
  int n = 0;

  for (int k = 0; k < CANCELS; k++)
    {
      Cancel c = { .after = FIRST_CANCEL + BETWEEN_CANCELS * k };
      GThread *thread = g_thread_new ("cancel", cancel_later, &c);
      HobFaultTable *table
          = hob_fault_table_new (idle, some, &(HobTableWork){ .cancel = &c.cancel });
      double end = (double) g_get_monotonic_time (), cpu_end = cpu_seconds ();

      g_thread_join (thread);
      if (table != NULL)
        {
          hob_fault_table_free (table);
          break;
        }
      n++;
      wall = MAX (wall, (end - c.wall) * 1e-3);
      cpu = MAX (cpu, 1e3 * (cpu_end - c.cpu));
    }
  printf ("%-16s cancelled %d times: after at most %.1f ms wall, %.1f ms CPU of all threads\n",
          name, n, wall, cpu);
}

static void
table_of (const char *name)
{
  g_autoptr (HobBench) idle = bench_of (name);
  g_autoptr (GArray) all = hob_hypotheses_single (hob_bench_range (idle));
  g_autoptr (GArray) some = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));
  double hour = hour_of_bake (idle);
  Cost cost;

  for (guint k = 0; k < all->len; k += 6)
    g_array_append_val (some, g_array_index (all, HobHypothesis, k));
  sharing (name, idle, some);
  cancelling (name, idle, some);
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
