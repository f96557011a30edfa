/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Looks on a range of one burner, all of whose faults are soon tried: which are asked for, and
 * which nobody needs to make any more. */

#include "reason/suspect-words.h"
#include "window/one-burner.h"

#include <math.h>
#include <string.h>

typedef struct
{
  HobRange *range;
  HobBench *idle;
  HobTrials *trials;
  HobPriors *priors;
} Bench;

static Bench bench;

static void
bench_up (void)
{
  GError *error = NULL;

  bench.range = hob_range_load_memory (one_burner_text, strlen (one_burner_text), "one.xml", NULL,
                                       &error);
  g_assert_no_error (error);
  bench.idle = hob_bench_new (NULL, bench.range, NULL, NULL);
  bench.trials = hob_trials_new (bench.idle, NULL);
  bench.priors = hob_priors_new (bench.range);
}

static void
bench_down (void)
{
  hob_priors_free (bench.priors);
  hob_trials_free (bench.trials);
  hob_bench_free (bench.idle);
  hob_range_unref (bench.range);
}

static const char *const nothing[] = { NULL };

/* @not_seen: NULL for none. */
static HobSuspects *
suspects_of (const char *seen, const char *not_seen, const char *const *readings)
{
  g_autoptr (HobCase) base = hob_case_new (bench.range);
  g_autoptr (GPtrArray) clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);

  hob_clues_add (clues, bench.range, hob_clue_look (bench.idle, seen, HOB_SEEN, NULL));
  if (not_seen != NULL)
    hob_clues_add (clues, bench.range, hob_clue_look (bench.idle, not_seen, HOB_NOT_SEEN, NULL));
  for (; *readings != NULL; readings++)
    hob_clues_add (clues, bench.range, hob_clue_reading (bench.idle, *readings, NULL));
  return hob_suspects_new (bench.trials, base, clues, HOB_SKILL_TECHNICIAN, bench.priors);
}

/* How many of the tests that are offered look for it? */
static int
looks_for (const HobSuspects *all, const char *symptom)
{
  g_autofree char *begin = g_strdup_printf ("look %s", symptom);
  int n = 0;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      g_autofree char *text = hob_test_text (bench.range, offer->test);

      g_test_message ("%s", text);
      n += g_str_has_prefix (text, begin);
    }
  return n;
}

/* A knob is turned already: what goes on is read, and what is read with the range dead. */
static void
what_is_going_on_is_read (void)
{
  g_autoptr (HobCase) base = hob_case_new (bench.range);
  g_autoptr (GPtrArray) clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);
  g_autoptr (HobSuspects) all = NULL;
  gboolean dead = FALSE, live = FALSE;

  g_assert_true (hob_case_do (base, "2s knob=light", NULL));
  hob_clues_add (clues, bench.range, hob_clue_look (bench.idle, "no-spark-any", HOB_SEEN, NULL));
  all = hob_suspects_new (bench.trials, base, clues, HOB_SKILL_TECHNICIAN, bench.priors);
  g_assert_cmpint (all->verdict, ==, HOB_TEST_GO);
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobTest *test = ((const HobOffer *) all->offers->pdata[k])->test;
      g_autofree char *text = hob_test_text (bench.range, test);

      g_test_message ("%s", text);
      g_assert_null (strstr (text, "knob=light")); /* the case has it */
      g_assert_false (g_str_has_prefix (text, "bubbles burner")); /* where gas is asked for */
      dead |= hob_test_is_dead (test);
      live |= !hob_test_is_dead (test);
    }
  g_assert_true (dead && live);
}

/* Somebody tried everything, and it never showed. */
static void
what_shows_nowhere_is_looked_for_no_more (void)
{
  g_autoptr (HobSuspects) before = suspects_of ("no-spark-any", NULL, nothing);
  g_autoptr (HobSuspects) after = suspects_of ("no-spark-any", "no-flame-top", nothing);

  g_assert_cmpint (looks_for (before, "no-flame-top"), >, 0);
  g_assert_cmpint (looks_for (after, "no-flame-top"), ==, 0);
}

/* No fault of this range makes its flame small, so most likely nothing is wrong; but somebody said
 * that it is. */
static void
what_no_fault_shows_is_looked_for (void)
{
  g_autoptr (HobSuspects) all = suspects_of ("flame-small", NULL, nothing);
  const HobSuspect *first = all->suspects->pdata[0];

  g_assert_cmpint (first->what, ==, HOB_SUSPECT_NORMAL);
  g_assert_cmpint (looks_for (all, "flame-small"), >, 0);
}

/* All that was read and looked at is as it should be.  Where the customer has seen it nobody knows:
 * before it is given up it is looked for where the first of the faults would show it. */
static void
what_nothing_confirms_is_looked_for (void)
{
  static const char *const normal[]
      = { "volts switch.a switch.b @ 1s = 117 V",
          "volts switch.a switch.b @ 1s knob=light; 6s = 0 V",
          "pressure burner.in @ 1s knob=light; 6s = 6.911 inH2O", "look electrode @ 1s = not-seen",
          "look burner @ 1s = not-seen", "look burner @ 2s = not-seen" };
  g_autoptr (GPtrArray) readings = g_ptr_array_new_with_free_func (g_free);
  gboolean looked = FALSE;

  for (gsize k = 0; k < G_N_ELEMENTS (normal); k++)
    g_ptr_array_add (readings, g_strdup (normal[k]));
  for (int k = 0; k < 6 && !looked; k++)
    {
      g_autoptr (HobSuspects) all = NULL;
      g_autofree char *text = NULL;

      g_ptr_array_add (readings, NULL);
      all = suspects_of ("yellow-tips", NULL, (const char *const *) readings->pdata);
      g_ptr_array_set_size (readings, (int) readings->len - 1);
      g_assert_cmpint (((HobSuspect *) all->suspects->pdata[0])->what, ==, HOB_SUSPECT_NORMAL);
      g_assert_cmpint (all->verdict, ==, HOB_TEST_GO);
      text = hob_test_text (bench.range, ((HobOffer *) all->offers->pdata[0])->test);
      g_test_message ("%s", text);
      g_assert_true (g_str_has_prefix (text, "look "));
      looked = g_str_has_prefix (text, "look yellow-tips @ ");
      g_ptr_array_add (readings, g_strconcat (text, " = not-seen", NULL));
    }
  g_assert_true (looked);
}

/* A customer's complaint was seen by nobody else, until somebody looks. */
static void
what_nobody_else_saw_is_unseen (void)
{
  g_autoptr (GPtrArray) clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);
  HobClue *look
      = hob_clue_reading (bench.idle, "look yellow-tips @ 1s knob=light; 8s = not-seen", NULL);

  hob_clues_add (clues, bench.range, hob_clue_look (bench.idle, "yellow-tips", HOB_SEEN, NULL));
  g_assert_true (hob_clues_unseen (clues) == clues->pdata[0]);
  hob_clues_add (clues, bench.range, look);
  g_assert_null (hob_clues_unseen (clues));
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  bench_up ();
  g_test_add_func ("/reason/looks/what-shows-nowhere-is-looked-for-no-more",
                   what_shows_nowhere_is_looked_for_no_more);
  g_test_add_func ("/reason/looks/what-is-going-on-is-read", what_is_going_on_is_read);
  g_test_add_func ("/reason/looks/what-no-fault-shows-is-looked-for",
                   what_no_fault_shows_is_looked_for);
  g_test_add_func ("/reason/looks/what-nothing-confirms-is-looked-for",
                   what_nothing_confirms_is_looked_for);
  g_test_add_func ("/reason/looks/what-nobody-else-saw-is-unseen", what_nobody_else_saw_is_unseen);
  result = g_test_run ();
  bench_down ();
  return result;
}
