/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Looks on a range of one burner, all of whose faults are soon tried: which are asked for, and
 * which nobody needs to make any more. */

#include "asked.h"
#include "reason/alike.h"
#include "reason/suspect-words.h"
#include "window/one-burner.h"

#include <math.h>
#include <string.h>

static Asked bench;

static const char *const nothing[] = { NULL };

/* @not_seen: NULL for none. */
static HobSuspects *
suspects_of (const char *seen, const char *not_seen, const char *const *readings)
{
  return asked_suspects (&bench, (const char *[]){ seen, NULL }, (const char *[]){ not_seen, NULL },
                         readings, HOB_SKILL_TECHNICIAN);
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

/* Does @test end with the time of @first, or earlier, after the same acts or fewer of them? */
static gboolean
is_same_run (const HobTest *first, const HobTest *test)
{
  return test->what == HOB_TEST_LOOK && test->time <= first->time
         && hob_case_common (first->acts, test->acts) == test->acts->acts->len;
}

/* One run is watched once: what else it shows is asked along with the first sign, for the seconds
 * that it takes to say so, and each sign once. */
static void
what_one_run_shows_is_asked_at_once (void)
{
  static const char *const closely[]
      = { "look burner @ 1s = not-seen", "look electrode @ 1s = not-seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of ("no-flame-top", NULL, closely);
  g_autoptr (GHashTable) signs = g_hash_table_new (g_str_hash, g_str_equal);
  const HobOffer *first = all->offers->pdata[0];

  g_assert_cmpint (first->test->what, ==, HOB_TEST_LOOK);
  g_assert_cmpuint (all->along, >, 1);
  g_assert_cmpuint (all->along, <, all->offers->len);
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      g_autofree char *text = hob_test_text (bench.range, offer->test);

      g_test_message ("%s: %.1f min", text, offer->minutes);
      if (k > all->along)
        continue;
      g_assert_true (is_same_run (first->test, offer->test));
      g_assert_true (g_hash_table_add (signs, offer->test->symptom));
      g_assert_true (k == 0 || offer->minutes < 0.2);
    }
  g_assert_cmpfloat (first->minutes, >, 1);
}

/* Minutes of the look for @symptom that is offered by @until; NaN: none is. */
static double
minutes_of (const HobSuspects *all, const char *symptom, double until)
{
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];

      if (offer->test->what == HOB_TEST_LOOK && offer->test->time <= until
          && g_str_equal (offer->test->symptom, symptom))
        return offer->minutes;
    }
  return NAN;
}

/* Who has watched the run for one sign need not run the range for another. */
static void
what_was_watched_is_only_told (void)
{
  static const char *const watched[]
      = { "look burner @ 1s = not-seen",
          "look gas-smell @ 1s knob=light; 11s knob=high; 31s knob=low; 41s knob=off; 61s = "
          "not-seen",
          NULL };
  g_autoptr (HobSuspects) before = suspects_of ("no-spark-any", NULL, nothing);
  g_autoptr (HobSuspects) after = suspects_of ("no-spark-any", NULL, watched);

  g_assert_cmpfloat (minutes_of (before, "no-flame-top", 61), >, 1);
  g_assert_cmpfloat (minutes_of (after, "no-flame-top", 61), <, 0.2);
  g_assert_cmpfloat (((HobOffer *) after->offers->pdata[0])->minutes, <, 0.2); /* it comes first */
  g_assert_false (minutes_of (after, "gas-smell", 61) < 1); /* whoever looks again runs it again */
}

static const HobListed *
listed_of (const char *part, const char *fault)
{
  const GArray *faults = hob_trials_faults (bench.trials);

  for (guint k = 0; k < faults->len; k++)
    {
      const HobListed *f = &g_array_index (faults, HobListed, k);
      const HobPart *p = &bench.range->parts[f->h.part[0]];

      if (g_str_equal (p->id, part) && g_str_equal (p->kind->faults[f->h.fault[0]].id, fault))
        return f;
    }
  g_assert_not_reached ();
}

/* A knob that slips by three eighths sparks and does not light, which neither a quarter nor a half
 * does; and where both do the same, as three quarters and all of it, so does what is between. */
static void
what_lies_between_two_severities_is_run (void)
{
  const HobListed *slips = listed_of ("knob", "slips");
  g_autofree double *shows = g_new (double, hob_trials_n_runs (bench.trials));
  g_autoptr (HobCase) acts = hob_case_new (bench.range);
  int symptom = hob_symptom_book_find (bench.idle->book, "sparks-but-no-light");

  g_assert_true (hob_case_do (acts, "1s knob=light", NULL));
  g_assert_true (hob_case_do (acts, "11s knob=high", NULL));
  hob_trials_look (bench.trials, acts, symptom, -1, 20, shows);
  g_assert_cmpfloat (shows[slips->first_run], ==, 0);
  g_assert_cmpfloat (shows[slips->first_mid + 1], ==, 1);
  g_assert_cmpfloat (shows[slips->first_run + 1], <, 1);
  symptom = hob_symptom_book_find (bench.idle->book, "no-spark-any");
  hob_trials_look (bench.trials, acts, symptom, -1, 20, shows);
  g_assert_cmpfloat (shows[slips->first_mid + 1], ==, 0);
  g_assert_cmpfloat (shows[slips->first_run + 2], ==, 1);
  g_assert_cmpfloat (shows[slips->first_mid + 3], ==, 1);
  g_assert_cmpfloat (shows[slips->first_run + 3], ==, 1);
}

/* All at once they are as like as two by two. */
static void
likeness_is_the_same_of_many (void)
{
  enum { N = 12 };
  const GArray *all = hob_trials_faults (bench.trials);
  g_autoptr (HobCase) house = hob_case_new (bench.range);
  const HobListed *faults[N];
  double severities[N];
  guint32 like[N];
  int n = MIN (N, (int) all->len), alike = 0;

  for (int k = 0; k < n; k++)
    {
      faults[k] = &g_array_index (all, HobListed, k);
      severities[k] = hob_listed_severity (faults[k], faults[k]->n_states / 2);
    }
  hob_alike_among (bench.trials, house, faults, severities, n, 2, like);
  for (int i = 0; i < n; i++)
    for (int k = 0; k < n; k++)
      {
        gboolean two = i == k || hob_alike (bench.trials, house, faults[i], severities[i],
                                            faults[k], severities[k], 2);

        alike += two && i != k;
        g_assert_cmpint (like[i] >> k & 1, ==, two);
      }
  g_test_message ("%d of %d alike", alike, n * (n - 1));
  g_assert_cmpint (alike, <, n * (n - 1));
}

int
main (int argc, char **argv)
{
  HobRange *one;
  int result;

  g_test_init (&argc, &argv, NULL);
  one = hob_range_load_memory (one_burner_text, strlen (one_burner_text), "one.xml", NULL, NULL);
  bench = asked_up (one, FALSE);
  g_test_add_func ("/reason/looks/what-shows-nowhere-is-looked-for-no-more",
                   what_shows_nowhere_is_looked_for_no_more);
  g_test_add_func ("/reason/looks/what-is-going-on-is-read", what_is_going_on_is_read);
  g_test_add_func ("/reason/looks/what-no-fault-shows-is-looked-for",
                   what_no_fault_shows_is_looked_for);
  g_test_add_func ("/reason/looks/what-nothing-confirms-is-looked-for",
                   what_nothing_confirms_is_looked_for);
  g_test_add_func ("/reason/looks/what-nobody-else-saw-is-unseen", what_nobody_else_saw_is_unseen);
  g_test_add_func ("/reason/looks/what-one-run-shows-is-asked-at-once",
                   what_one_run_shows_is_asked_at_once);
  g_test_add_func ("/reason/looks/what-was-watched-is-only-told", what_was_watched_is_only_told);
  g_test_add_func ("/reason/looks/what-lies-between-two-severities-is-run",
                   what_lies_between_two_severities_is_run);
  g_test_add_func ("/reason/looks/likeness-is-the-same-of-many", likeness_is_the_same_of_many);
  result = g_test_run ();
  asked_down (&bench);
  return result;
}
