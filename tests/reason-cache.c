/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Trials that are kept between runs of the program: what comes back is what was kept, and a file
 * that is anything else is as good as none. */

#include "config.h"
#include "reason/table-cache.h"
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
assert_refused (guint runs, guint answers)
{
  HobTrial *trial = some_trial ();

  g_assert_false (hob_trial_load (trial, KEY, runs, answers));
  g_assert_cmpfloat (trial->until, <, 0);
  g_assert_cmpuint (trial->noticed->len + trial->moments->len, ==, 0);
  g_assert_null (trial->reached);
  hob_trial_free (trial);
}

static void
what_is_kept_comes_back (void)
{
  HobTrial *kept = some_trial (), *again = empty_trial ();

  hob_trial_store (kept, KEY, RUNS, RUNS * TESTS);
  g_assert_true (hob_trial_load (again, KEY, RUNS, RUNS * TESTS));
  assert_same (kept, again);
  assert_refused (RUNS + 1, RUNS * TESTS); /* another range, or other tests */
  assert_refused (RUNS, RUNS * TESTS + 1);
  hob_trial_free (kept);
  hob_trial_free (again);
}

static void
a_file_cut_off_anywhere_is_none (void)
{
  g_autofree char *file = kept_file (), *bytes = NULL, *longer = NULL;
  HobTrial *kept = some_trial ();
  gsize size;

  hob_trial_store (kept, KEY, RUNS, RUNS * TESTS);
  g_assert_true (g_file_get_contents (file, &bytes, &size, NULL));
  for (gsize n = 0; n < size; n++)
    {
      g_assert_true (g_file_set_contents (file, bytes, (gssize) n, NULL));
      assert_refused (RUNS, RUNS * TESTS);
    }
  longer = g_malloc0 (size + 1);
  memcpy (longer, bytes, size);
  g_assert_true (g_file_set_contents (file, longer, (gssize) size + 1, NULL));
  assert_refused (RUNS, RUNS * TESTS);
  g_unlink (file);
  assert_refused (RUNS, RUNS * TESTS);
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
      hob_trial_store (kept, KEY, RUNS, RUNS * TESTS);
      assert_refused (RUNS, RUNS * TESTS);
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

  hob_trial_store (kept, KEY, RUNS, RUNS * TESTS);
  g_assert_true (g_file_get_contents (file, &bytes, &size, NULL));
  for (gsize at = 0; at < size; at++)
    {
      HobTrial *trial = empty_trial ();
      char was = bytes[at];

      bytes[at] = (char) (was ^ 0x41);
      g_assert_true (g_file_set_contents (file, bytes, (gssize) size, NULL));
      bytes[at] = was;
      if (hob_trial_load (trial, KEY, RUNS, RUNS * TESTS))
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

/* ---- Tables ---- */

/* A table of the faults of a light with a door. */
typedef struct
{
  HobBench *idle;
  HobFaultTable *table;
  char *file, *text; /* where it is kept, and as what */
} Kept;

static char *
only_file_in (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name = g_dir_read_name (dir);

  g_assert_nonnull (name);
  return g_build_filename (folder, name, NULL);
}

static void
keep_table (Kept *k, gconstpointer unused)
{
  g_autofree char *folder = g_build_filename (g_get_user_cache_dir (), "hobwright", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range
      = hob_range_load (HOB_SOURCE_DIR "/tests/golden/small.xml", NULL, &error);
  g_autoptr (HobCase) nothing = NULL;
  GArray *some;

  g_assert_no_error (error);
  nothing = hob_case_new (range);
  k->idle = hob_bench_new (NULL, range, nothing, &error);
  g_assert_no_error (error);
  some = hob_hypotheses_single (range);
  k->table = hob_fault_table_new (k->idle, some, &(HobTableWork){ .cache = TRUE });
  g_array_unref (some);
  g_assert_cmpuint (k->table->rows->len, >, 3);
  k->file = only_file_in (folder);
  g_assert_true (g_file_get_contents (k->file, &k->text, NULL, NULL));
}

static void
drop_table (Kept *k, gconstpointer unused)
{
  g_unlink (k->file);
  g_free (k->file);
  g_free (k->text);
  hob_fault_table_free (k->table);
  hob_bench_free (k->idle);
}

static gboolean
load_text (Kept *k, const char *text, gssize size)
{
  g_assert_true (g_file_set_contents (k->file, text, size, NULL));
  g_array_set_size (k->table->rows, 0);
  return hob_table_cache_load (k->idle, k->table);
}

static void
a_kept_table_comes_back (Kept *k, gconstpointer unused)
{
  g_autoptr (GArray) rows = g_array_copy (k->table->rows);

  g_assert_true (load_text (k, k->text, -1));
  g_assert_cmpuint (k->table->rows->len, ==, rows->len);
  for (guint r = 0; r < rows->len; r++)
    {
      const HobTableRow *a = &g_array_index (rows, HobTableRow, r),
                        *b = &g_array_index (k->table->rows, HobTableRow, r);

      g_assert_true (a->hypothesis == b->hypothesis && a->procedure == b->procedure
                     && a->symptom == b->symptom);
      g_assert_true (a->first == b->first || (isnan (a->first) && isnan (b->first)));
    }
}

static void
a_damaged_table_is_none (Kept *k, gconstpointer unused)
{
  g_auto (GStrv) lines = g_strsplit (k->text, "\n", 3); /* what it is, how many rows, the rows */
  static const char *const rows[] = { "x 0 0 1", "0 x 0 1", "0 0 x 1", "0 0 0 x", "0 0 0",
                                      "-1 0 0 1", "9999 0 0 1", "0 9999 0 1", "0 -2 0 1",
                                      "0 0 9999 1", "0 0 -3 1", "0.5 0 0 1" };

  for (gsize n = 0; n < strlen (k->text); n++)
    {
      g_assert_false (load_text (k, k->text, (gssize) n));
      g_assert_cmpuint (k->table->rows->len, ==, 0);
    }
  for (guint r = 0; r < G_N_ELEMENTS (rows); r++)
    {
      g_autofree char *text = g_strdup_printf ("%s\n1\n%s\n", lines[0], rows[r]);

      if (load_text (k, text, -1))
        g_error ("'%s' was taken for a row", rows[r]);
    }
  {
    g_autofree char *longer = g_strconcat (k->text, "0 0 0 1\n", NULL),
                    *other = g_strconcat ("other", k->text, NULL),
                    *good = g_strdup_printf ("%s\n1\n0 0 0 1\n", lines[0]);

    g_assert_false (load_text (k, longer, -1));
    g_assert_false (load_text (k, other, -1));
    g_assert_true (load_text (k, good, -1));
  }
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
#define ADD(path, function) g_test_add (path, Kept, NULL, keep_table, function, drop_table)
  ADD ("/reason/cache/a-kept-table-comes-back", a_kept_table_comes_back);
  ADD ("/reason/cache/a-damaged-table-is-none", a_damaged_table_is_none);
#undef ADD
  return g_test_run ();
}
