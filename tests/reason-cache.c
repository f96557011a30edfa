/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Trials that are kept between runs of the program: what comes back is what was kept, and a file
 * that is anything else is as good as none. */

#include "config.h"
#include "reason/trials-cache.h"
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#define KEY "0123"
#define RUNS 3
#define TESTS 2

static HobTrial *
empty_trial (void)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobCase) acts = hob_case_new (range);

  return hob_trial_new (acts);
}

/* Three runs, two symptoms, two moments of two tests, one answer open and one not known. */
static HobTrial *
some_trial (void)
{
  static const HobTrialNoticed noticed[] = { { 0, 7, -1, 12.5f }, { 2, 3, 4, 90 } };
  static const float reached[RUNS] = { 60, 60, 31.25f };
  static const float answers[RUNS * TESTS] = { 1, 2, INFINITY, 4, NAN, 6 };
  HobTrial *trial = empty_trial ();

  trial->until = 60;
  trial->reached = g_memdup2 (reached, sizeof reached);
  g_array_append_vals (trial->noticed, noticed, G_N_ELEMENTS (noticed));
  for (int k = 0; k < 2; k++)
    {
      HobTrialMoment m = { 20 + k, g_memdup2 (answers, sizeof answers), NULL };

      g_array_append_val (trial->moments, m);
    }
  return trial;
}

/* (transfer full) */
static char *
kept_file (void)
{
  return g_build_filename (g_get_user_cache_dir (), "hobwright", "trial-" KEY ".bin", NULL);
}

static void
assert_same (const HobTrial *a, const HobTrial *b)
{
  g_assert_cmpfloat (a->until, ==, b->until);
  g_assert_cmpmem (a->reached, RUNS * sizeof (float), b->reached, RUNS * sizeof (float));
  g_assert_cmpmem (a->noticed->data, a->noticed->len * sizeof (HobTrialNoticed), b->noticed->data,
                   b->noticed->len * sizeof (HobTrialNoticed));
  g_assert_cmpuint (a->moments->len, ==, b->moments->len);
  for (guint k = 0; k < a->moments->len; k++)
    {
      const HobTrialMoment *m = &g_array_index (a->moments, HobTrialMoment, k),
                           *n = &g_array_index (b->moments, HobTrialMoment, k);

      g_assert_cmpfloat (m->t, ==, n->t);
      g_assert_cmpmem (m->answers, RUNS * TESTS * sizeof (float), n->answers,
                       RUNS * TESTS * sizeof (float));
    }
}

/* Nothing of what was read before it was found wrong is left. */
static void
assert_refused (guint runs, guint tests)
{
  HobTrial *trial = some_trial ();

  g_assert_false (hob_trial_load (trial, KEY, runs, tests));
  g_assert_cmpfloat (trial->until, <, 0);
  g_assert_cmpuint (trial->noticed->len + trial->moments->len, ==, 0);
  g_assert_null (trial->reached);
  hob_trial_free (trial);
}

static void
what_is_kept_comes_back (void)
{
  HobTrial *kept = some_trial (), *again = empty_trial ();

  hob_trial_store (kept, KEY, RUNS, TESTS);
  g_assert_true (hob_trial_load (again, KEY, RUNS, TESTS));
  assert_same (kept, again);
  assert_refused (RUNS + 1, TESTS); /* another range, or other tests */
  assert_refused (RUNS, TESTS + 1);
  hob_trial_free (kept);
  hob_trial_free (again);
}

static void
a_file_cut_off_anywhere_is_none (void)
{
  g_autofree char *file = kept_file (), *bytes = NULL, *longer = NULL;
  HobTrial *kept = some_trial ();
  gsize size;

  hob_trial_store (kept, KEY, RUNS, TESTS);
  g_assert_true (g_file_get_contents (file, &bytes, &size, NULL));
  for (gsize n = 0; n < size; n++)
    {
      g_assert_true (g_file_set_contents (file, bytes, (gssize) n, NULL));
      assert_refused (RUNS, TESTS);
    }
  longer = g_malloc0 (size + 1);
  memcpy (longer, bytes, size);
  g_assert_true (g_file_set_contents (file, longer, (gssize) size + 1, NULL));
  assert_refused (RUNS, TESTS);
  g_unlink (file);
  assert_refused (RUNS, TESTS);
  hob_trial_free (kept);
}

static void
a_symptom_of_a_run_that_is_not_there_is_refused (void)
{
  static const gint32 runs[] = { RUNS, -1, G_MAXINT32, G_MININT32 };

  for (guint k = 0; k < G_N_ELEMENTS (runs); k++)
    {
      HobTrial *kept = some_trial ();

      g_array_index (kept->noticed, HobTrialNoticed, 1).run = runs[k];
      hob_trial_store (kept, KEY, RUNS, TESTS);
      assert_refused (RUNS, TESTS);
      hob_trial_free (kept);
    }
}

/* Whatever is in the file, what is read has as many answers as there are. */
static void
changed_bytes_do_no_harm (void)
{
  g_autofree char *file = kept_file (), *bytes = NULL;
  HobTrial *kept = some_trial ();
  guint read = 0;
  gsize size;

  hob_trial_store (kept, KEY, RUNS, TESTS);
  g_assert_true (g_file_get_contents (file, &bytes, &size, NULL));
  for (gsize at = 0; at < size; at++)
    {
      HobTrial *trial = empty_trial ();
      char was = bytes[at];

      bytes[at] = (char) (was ^ 0x41);
      g_assert_true (g_file_set_contents (file, bytes, (gssize) size, NULL));
      bytes[at] = was;
      if (hob_trial_load (trial, KEY, RUNS, TESTS))
        {
          read++;
          g_assert_cmpuint (trial->moments->len, ==, 2);
          for (guint k = 0; k < trial->noticed->len; k++)
            g_assert_cmpint (g_array_index (trial->noticed, HobTrialNoticed, k).run, <, RUNS);
        }
      hob_trial_free (trial);
    }
  g_assert_cmpuint (read, >, 0); /* another figure is a figure */
  g_assert_cmpuint (read, <, size);
  hob_trial_free (kept);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, G_TEST_OPTION_ISOLATE_DIRS, NULL);
  g_test_add_func ("/reason/cache/what-is-kept-comes-back", what_is_kept_comes_back);
  g_test_add_func ("/reason/cache/a-file-cut-off-anywhere-is-none",
                   a_file_cut_off_anywhere_is_none);
  g_test_add_func ("/reason/cache/a-symptom-of-a-run-that-is-not-there-is-refused",
                   a_symptom_of_a_run_that_is_not_there_is_refused);
  g_test_add_func ("/reason/cache/changed-bytes-do-no-harm", changed_bytes_do_no_harm);
  return g_test_run ();
}
