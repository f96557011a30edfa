/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A search for suspects is cancelled, wherever it is: no thread begins anything more than what it
 * was about to begin. */

#include "reason/suspects.h"
#include "window/one-burner.h"
#include <glib/gstdio.h>
#include <math.h>
#include <time.h>

#define THREADS 2
#define CANCELS 20
#define AT_MOST (2 * (THREADS + 1)) /* a run and a stretch of it, of each thread and the main one */
#define EARLY_MS 20 /* between cancels of a search that takes long … */
#define LATE_MS 500 /* … and in the whole sweep */

typedef struct
{
  HobBench *idle;
  GPtrArray *clues;
  HobCase *base;
  HobPriors *priors;
} Search;

static void
search_open (Search *s, HobRange *range, const char *seen)
{
  s->idle = hob_bench_new (NULL, range, NULL, NULL);
  g_assert_nonnull (s->idle);
  s->clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);
  s->base = hob_case_new (range);
  s->priors = hob_priors_new (range);
  g_ptr_array_add (s->clues, hob_clue_look (s->idle, seen, HOB_SEEN, NULL));
  g_assert_nonnull (s->clues->pdata[0]);
}

static void
search_close (Search *s)
{
  hob_priors_free (s->priors);
  hob_case_free (s->base);
  g_ptr_array_unref (s->clues);
  hob_bench_free (s->idle);
}

/* ---- One cancel ---- */

typedef struct
{
  double after; /* ms */
  gint cancel;  /* atomic */
  guint begun;  /* of the whole program, when it was cancelled */
  gint64 at;    /* µs */
  clock_t cpu;  /* of all threads */
} Canceller;

/* What came after it. */
typedef struct
{
  guint begun;
  double wall, cpu; /* ms */
} After;

static gpointer
cancel_later (gpointer data)
{
  Canceller *c = data;

  g_usleep ((gulong) (c->after * 1000));
  c->at = g_get_monotonic_time ();
  c->cpu = clock ();
  g_atomic_int_set (&c->cancel, 1);
  c->begun = hob_bench_begun ();
  return NULL;
}

/* FALSE: the search had come to its end before. */
static gboolean
cancel_after (const Search *s, double ms, After *after)
{
  Canceller c = { .after = ms };
  HobTableWork work = { .threads = THREADS, .cancel = &c.cancel };
  g_autoptr (HobTrials) trials = hob_trials_new (s->idle, &work);
  GThread *thread = g_thread_new ("cancel", cancel_later, &c);
  HobSuspects *all = hob_suspects_new (trials, s->base, s->clues, HOB_SKILL_TECHNICIAN, s->priors);
  gint64 end = g_get_monotonic_time ();
  clock_t cpu = clock ();
  guint begun = hob_bench_begun ();
  gboolean cancelled = all == NULL;

  g_thread_join (thread);
  hob_suspects_free (all);
  *after = (After){ begun - c.begun, (double) (end - c.at) / 1000,
                    (double) (cpu - c.cpu) * 1000 / CLOCKS_PER_SEC };
  return cancelled;
}

/* At so many moments, @every ms apart.  Where the search is done before it is cancelled, since the
 * machine has less to do than when it was timed, they begin again at half the distance. */
static void
cancel_often (const Search *s, double every)
{
  After worst = { 0 }, one;
  guint n = 0, before = hob_bench_begun ();

  for (guint k = 1; n < CANCELS; k++)
    {
      if (!cancel_after (s, k * every, &one))
        {
          every /= 2;
          k = 0;
          continue;
        }
      worst.begun = MAX (worst.begun, one.begun);
      worst.wall = MAX (worst.wall, one.wall);
      worst.cpu = MAX (worst.cpu, one.cpu);
      n++;
    }
  g_test_message ("%u cancels, %.0f ms apart, of %u pieces of work; after one at most %u were "
                  "begun, and it took %.1f ms, %.1f ms of CPU",
                  n, every, hob_bench_begun () - before, worst.begun, worst.wall, worst.cpu);
  g_assert_cmpuint (worst.begun, <=, AT_MOST);
}

/* ---- Cases ---- */

/* ms of a search that nobody cancels. */
static double
time_of (const Search *s)
{
  g_autoptr (HobTrials) trials
      = hob_trials_new (s->idle, &(HobTableWork){ .threads = THREADS });
  gint64 begun = g_get_monotonic_time ();

  hob_suspects_free (
      hob_suspects_new (trials, s->base, s->clues, HOB_SKILL_TECHNICIAN, s->priors));
  return (double) (g_get_monotonic_time () - begun) / 1000;
}

/* The whole search, from the first run to the last test that is weighed. */
static void
anywhere_in_a_short_search (void)
{
  g_autofree char *file = one_burner_file ();
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  Search s;

  g_remove (file);
  search_open (&s, range, "no-spark-any");
  cancel_often (&s, time_of (&s) / CANCELS);
  search_close (&s);
}

/* A shipped range's runs are long, and there are many of them. */
static void
early_in_a_long_search (void)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  Search s;

  search_open (&s, range, "glow-no-flame");
  cancel_often (&s, g_getenv ("HOB_FULL") != NULL ? LATE_MS : EARLY_MS);
  search_close (&s);
}

/* Volts between two parts are in no list, and every run is asked for them: none is begun, and none
 * has an answer. */
static void
a_cancelled_reading_begins_nothing (void)
{
  g_autofree char *file = one_burner_file ();
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  gint cancel = 0;
  HobTableWork work = { .threads = THREADS, .cancel = &cancel };
  HobScatter spread;
  Search s;

  g_remove (file);
  search_open (&s, range, "no-spark-any");
  {
    g_autoptr (HobTrials) trials = hob_trials_new (s.idle, &work);
    HobClue *clue = hob_clue_reading (s.idle, "volts house.line module.neutral @ 1s = 120 V", NULL);
    guint n = hob_trials_n_runs (trials), before = hob_bench_begun ();
    g_autofree double *answers = g_new0 (double, n);

    g_assert_nonnull (clue);
    g_atomic_int_set (&cancel, 1);
    hob_trials_read (trials, s.base, clue->test, 1, &spread, answers);
    g_assert_cmpuint (hob_bench_begun (), ==, before);
    for (guint k = 0; k < n; k++)
      g_assert_true (isnan (answers[k]));
    hob_clue_free (clue);
  }
  search_close (&s);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reason/cancel/anywhere-in-a-short-search", anywhere_in_a_short_search);
  g_test_add_func ("/reason/cancel/early-in-a-long-search", early_in_a_long_search);
  g_test_add_func ("/reason/cancel/a-cancelled-reading-begins-nothing",
                   a_cancelled_reading_begins_nothing);
  return g_test_run ();
}
