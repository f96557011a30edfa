/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a record costs: memory and time of acts, of undo, of long runs, and of looking anywhere in
 * them. Each measurement is a process of its own, so that none inherits the memory of another;
 * times are the processor's. bench-record [HOURS …]: long runs of so many hours of bake (100 if
 * none is named). */

#include "config.h"
#include "base/hash.h"
#include "run/run.h"
#include <stdio.h>
#include <stdlib.h>
#include <time.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#define SEEKS 1000

static double
peak_mb (void)
{
  struct rusage usage;

  getrusage (RUSAGE_SELF, &usage);
  return (double) usage.ru_maxrss / 1024;
}

/* Of this process alone: others may be at work. */
static double
seconds (void)
{
  struct timespec now;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &now);
  return (double) now.tv_sec + 1e-9 * (double) now.tv_nsec;
}

typedef struct
{
  HobRange *range;
  HobRun *run;
  HobAct mode, knob;
} Bench;

static Bench
open_bench (void)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", "dial-four.xml", NULL);
  Bench b = { .range = hob_range_load (file, NULL, NULL), .mode = { .value = 1 } };
  g_autoptr (HobCase) acts = hob_case_new (b.range);

  g_assert_true (hob_range_find_control (b.range, "oven.mode", &b.mode.part, &b.mode.index, NULL));
  g_assert_true (hob_range_find_control (b.range, "knob-lf", &b.knob.part, &b.knob.index, NULL));
  b.run = hob_run_new (hob_plan_new (b.range), acts, NULL);
  return b;
}

/* @gap: ms from one turn of a knob to the next; 0: all at one paused moment. */
static void
acts (int n, int gap)
{
  Bench b = open_bench ();
  double before, start, turned, undone;
  guint taken_back = 0;

  hob_run_act (b.run, b.mode);
  g_assert_cmpint (hob_run_advance (b.run, 5, NULL), ==, HOB_RUN_OK);
  before = peak_mb ();
  start = seconds ();
  for (int k = 0; k < n; k++)
    {
      b.knob.ms = 5000 + (gint64) k * gap;
      b.knob.value = 50 + k % 50;
      hob_run_act (b.run, b.knob);
      if (hob_run_advance (b.run, (double) b.knob.ms / 1000, NULL) != HOB_RUN_OK)
        {
          printf ("%d turns, one each %d ms: impossible after %d\n", n, gap, k);
          return;
        }
    }
  turned = seconds () - start;
  start = seconds ();
  while (hob_run_undo (b.run))
    taken_back++;
  undone = seconds () - start;
  printf ("%d turns, one each %d ms: %.1f MB more, %.2f s; all %u undone in %.2f s\n", n, gap,
          peak_mb () - before, turned, taken_back, undone);
}

static int
by_time (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

static void
long_run (int hours)
{
  Bench b = open_bench ();
  HobMoment *m = hob_moment_new (hob_run_plan (b.run));
  double until = hours * 3600.0, start = seconds (), taken, sum = 0, took[SEEKS];

  hob_run_act (b.run, b.mode);
  g_assert_cmpint (hob_run_advance (b.run, until, NULL), ==, HOB_RUN_OK);
  taken = seconds () - start;
  for (guint k = 0; k < SEEKS; k++)
    {
      double t = hob_hash_uniform (23, 1, k) * until;

      start = seconds ();
      hob_run_read (b.run, t, m);
      took[k] = seconds () - start;
      sum += took[k];
    }
  qsort (took, SEEKS, sizeof *took, by_time);
  printf ("%d h of bake: %.1f s, peak %.1f MB; a seek takes %.2f ms on average, p99 %.2f ms, at "
          "most %.2f ms\n",
          hours, taken, peak_mb (), 1e3 * sum / SEEKS, 1e3 * took[SEEKS * 99 / 100],
          1e3 * took[SEEKS - 1]);
}

static void
apart (void (*measure) (int, int), int a, int b)
{
  pid_t child;

  fflush (stdout);
  child = fork ();
  if (child == 0)
    {
      measure (a, b);
      fflush (stdout);
      _exit (0);
    }
  waitpid (child, NULL, 0);
}

static void
long_run_apart (int hours, int unused)
{
  long_run (hours);
}

int
main (int argc, char **argv)
{
  for (int n = 1000; n <= 10000; n *= 10)
    {
      apart (acts, n, 0);
      apart (acts, n, 1000);
    }
  for (int k = 1; k < argc; k++)
    apart (long_run_apart, atoi (argv[k]), 0);
  if (argc == 1)
    apart (long_run_apart, 100, 0);
  return 0;
}
