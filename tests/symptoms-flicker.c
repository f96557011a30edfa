/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A symptom that has ended stays away for a while: a person does not say "it is over" and "there
 * it is again" in one breath. */

#include "reason/table.h"
#include "shipped.h"

#include <math.h>

#define LEAST_AWAY 10.0 /* s from an end to the next beginning, at the same part */
#define MOST_BEGINS                                                                                \
  30 /* in one procedure, at one part: an oven cycles no more often in 90 minutes */

/* Looks through one run's events.  Returns how many symptoms began. */
static guint
look_through (const HobRun *run, const HobSymptomBook *book, const char *what)
{
  guint first, n = hob_run_events ((HobRun *) run, -1, INFINITY, &first), all = 0;

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (run, k);
      guint begins = 1;

      if (e->what != HOB_EVENT_SYMPTOM)
        continue;
      all++;
      for (guint i = first; i < k; i++)
        {
          const HobEvent *before = hob_run_event (run, i);
          gboolean same = before->part == e->part && before->index == e->index;

          if (same && before->what == HOB_EVENT_SYMPTOM)
            begins++;
          if (same && before->what == HOB_EVENT_SYMPTOM_END && e->t - before->t < LEAST_AWAY)
            {
              g_test_message ("%s: %s ends at %.2f s and is back at %.2f s", what,
                              hob_symptom_book_get (book, e->index)->id, before->t, e->t);
              g_test_fail ();
            }
        }
      if (begins > MOST_BEGINS)
        {
          g_test_message ("%s: %s begins %u times", what, hob_symptom_book_get (book, e->index)->id,
                          begins);
          g_test_fail ();
        }
    }
  return all;
}

static guint
try_fault (const HobBench *idle, const char *fault)
{
  const HobRange *range = hob_bench_range (idle);
  g_auto (GStrv) procedures = hob_procedure_names (range);
  const char *words[] = { fault, NULL };
  guint all = 0;

  for (char **p = procedures; *p != NULL; p++)
    {
      double until = 0;
      g_autofree char *what = g_strdup_printf ("%s, %s", *p, fault);
      g_autoptr (HobCase) c = case_of (range, *p, words, &until);
      g_autoptr (HobBench) bench = hob_bench_again (idle, c);
      g_autoptr (GError) error = NULL;

      hob_bench_advance (bench, until, &error);
      g_assert_no_error (error);
      all += look_through (bench->run, bench->book, what);
    }
  return all;
}

/* Of each kind's faults, at the first part that has it. */
static void
no_symptom_flickers (void)
{
  g_autoptr (HobRange) range = shipped_range ("board-five");
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) all = hob_hypotheses_single (range);
  g_autoptr (GHashTable) tried = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint seen = 0;

  for (guint i = 0; i < all->len; i++)
    {
      const HobHypothesis *h = &g_array_index (all, HobHypothesis, i);
      g_autofree char *fault = hob_hypothesis_text (range, h);

      if (g_hash_table_add (
              tried, g_strdup_printf ("%s:%d", range->parts[h->part[0]].kind->name, h->fault[0])))
        seen += try_fault (idle, fault);
    }
  g_assert_cmpuint (seen, >, 200);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/symptoms/flicker/none-flickers", no_symptom_flickers);
  return g_test_run ();
}
