/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The copy that outlives a killed program: who may take it, and what is left when nobody needs
 * it. */

#include "base/errors.h"
#include "job/job.h"
#include "kept-files.h"
#include <glib/gstdio.h>
#include <utime.h>

static guint
n_left (void)
{
  g_autoptr (GPtrArray) left = hob_kept_left ();

  return left->len;
}

/* A job with one act that is saved nowhere. */
static HobJob *
open_job (HobCase **acts)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (GError) error = NULL;
  g_autoptr (HobCaseFile) opened = hob_case_load (file, NULL, &error);

  g_assert_no_error (error);
  *acts = hob_case_copy (opened->acts);
  hob_case_add_argument (*acts, HOB_ACT_CONTROL, "1s knob-lf=light", &error);
  g_assert_no_error (error);
  return hob_job_new (opened, NULL);
}

static void
a_copy_in_use_is_not_offered (void)
{
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobJob) job = open_job (&acts);
  g_autoptr (GError) error = NULL;

  g_assert_cmpuint (n_kept (), ==, 0);
  g_assert_true (hob_job_keep (job, acts, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (n_kept (), ==, 2); /* the copy and its lock */
  g_assert_cmpuint (n_left (), ==, 0);
  g_clear_pointer (&job, hob_job_free);
  g_assert_cmpuint (n_kept (), ==, 0);
}

static void
a_copy_that_was_left_is_taken_by_one_alone (void)
{
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobJob) job = open_job (&acts);
  g_autoptr (GPtrArray) left = NULL;
  g_autoptr (HobCaseFile) again = NULL;
  g_autoptr (GError) error = NULL;
  HobKept *kept;

  g_assert_true (hob_job_keep (job, acts, &error));
  hob_kept_release (g_steal_pointer (&job->kept)); /* as a killed program does */
  left = hob_kept_left ();
  g_assert_cmpuint (left->len, ==, 1);
  again = hob_case_load (left->pdata[0], NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->acts->acts->len, ==, 1);

  kept = hob_kept_take (left->pdata[0]);
  g_assert_nonnull (kept);
  g_assert_null (hob_kept_take (left->pdata[0]));
  g_assert_cmpuint (n_left (), ==, 0);
  hob_kept_free (kept);
  g_assert_cmpuint (n_kept (), ==, 0);
}

/* A job that its program left behind, last written @seconds after 1970: its copy.  (transfer
 * full) */
static char *
leave_job (time_t seconds)
{
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobJob) job = open_job (&acts);
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) before = hob_kept_left (), after = NULL;
  struct utimbuf then = { seconds, seconds };

  g_assert_true (hob_job_keep (job, acts, &error));
  g_assert_no_error (error);
  hob_kept_release (g_steal_pointer (&job->kept));
  after = hob_kept_left ();
  for (guint k = 0; k < after->len; k++)
    if (!g_ptr_array_find_with_equal_func (before, after->pdata[k], g_str_equal, NULL))
      {
        g_assert_cmpint (g_utime (after->pdata[k], &then), ==, 0);
        return g_strdup (after->pdata[k]);
      }
  g_assert_not_reached ();
}

static void
copies_that_were_left_come_latest_first (void)
{
  g_autofree char *middle = leave_job (2000), *last = leave_job (3000),
                  *first = leave_job (1000);
  g_autoptr (GPtrArray) left = hob_kept_left ();

  g_assert_cmpuint (left->len, ==, 3);
  g_assert_cmpstr (left->pdata[0], ==, last);
  g_assert_cmpstr (left->pdata[1], ==, middle);
  g_assert_cmpstr (left->pdata[2], ==, first);
  for (guint k = 0; k < left->len; k++)
    hob_kept_free (hob_kept_take (left->pdata[k]));
  g_assert_cmpuint (n_kept (), ==, 0);
}

/* What a copy holds is saved nowhere else, though nothing has been done since. */
static void
a_job_that_was_taken_up_is_unsaved (void)
{
  g_autofree char *copy = leave_job (1000);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobCaseFile) left = hob_case_load (copy, NULL, &error);
  g_autoptr (HobJob) job = NULL;

  g_assert_no_error (error);
  job = hob_job_new_unsaved (left, hob_kept_take (copy));
  g_assert_false (hob_job_is_saved (job, left->acts));
  g_assert_true (hob_job_keep (job, left->acts, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_test (copy, G_FILE_TEST_EXISTS));
  g_clear_pointer (&job, hob_job_free);
  g_assert_cmpuint (n_kept (), ==, 0);
}

static void
what_is_saved_needs_no_copy (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hob-kept-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "case.xml", NULL);
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobJob) job = open_job (&acts);
  g_autoptr (GError) error = NULL;

  g_assert_true (hob_job_keep (job, acts, &error));
  g_assert_true (hob_job_save (job, acts, file, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (n_kept (), ==, 0);
  g_assert_true (hob_job_keep (job, acts, &error));
  g_assert_cmpuint (n_kept (), ==, 0);
  g_unlink (file);
  g_rmdir (folder);
}

/* Its program was killed before anything was done. */
static void
a_lock_without_a_copy_is_removed (void)
{
  g_autoptr (GError) error = NULL;
  HobKept *kept = hob_kept_new (&error);

  g_assert_no_error (error);
  g_assert_cmpuint (n_kept (), ==, 1);
  g_assert_cmpuint (n_left (), ==, 0);
  g_assert_cmpuint (n_kept (), ==, 1); /* somebody works on it */
  hob_kept_release (kept);
  g_assert_cmpuint (n_left (), ==, 0);
  g_assert_cmpuint (n_kept (), ==, 0);
}

static void
where_no_copy_can_be_kept_it_is_said (void)
{
  g_autofree char *folder = kept_folder (), *above = g_path_get_dirname (folder);
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobJob) job = open_job (&acts);
  g_autoptr (GError) error = NULL;

  g_assert_cmpint (g_mkdir_with_parents (g_get_user_state_dir (), 0700), ==, 0);
  g_assert_true (g_file_set_contents (above, "a file, no folder", -1, NULL));
  g_assert_false (hob_job_keep (job, acts, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_OUTPUT);
  g_assert_null (job->kept);
  g_assert_false (hob_job_is_saved (job, acts));
}

/* The folder of the copies is removed while the program works, and comes back. */
static void
a_folder_that_goes_away_is_said (void)
{
  g_autofree char *folder = kept_folder (), *aside = g_strconcat (folder, ".aside", NULL);
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobJob) job = open_job (&acts);
  g_autoptr (GError) error = NULL;

  g_assert_true (hob_job_keep (job, acts, &error));
  g_assert_cmpint (g_rename (folder, aside), ==, 0);
  hob_case_add_argument (acts, HOB_ACT_CONTROL, "2s knob-lf=high", NULL);
  g_assert_false (hob_job_keep (job, acts, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_OUTPUT);
  g_clear_error (&error);
  g_assert_cmpint (g_rename (aside, folder), ==, 0);
  g_assert_true (hob_job_keep (job, acts, &error));
  g_assert_no_error (error);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, G_TEST_OPTION_ISOLATE_DIRS, NULL);
#define CASE(name, function) g_test_add_func ("/kept/" name, function)
  CASE ("a-copy-in-use-is-not-offered", a_copy_in_use_is_not_offered);
  CASE ("a-copy-that-was-left-is-taken-by-one-alone", a_copy_that_was_left_is_taken_by_one_alone);
  CASE ("copies-that-were-left-come-latest-first", copies_that_were_left_come_latest_first);
  CASE ("a-job-that-was-taken-up-is-unsaved", a_job_that_was_taken_up_is_unsaved);
  CASE ("what-is-saved-needs-no-copy", what_is_saved_needs_no_copy);
  CASE ("a-lock-without-a-copy-is-removed", a_lock_without_a_copy_is_removed);
  CASE ("a-folder-that-goes-away-is-said", a_folder_that_goes_away_is_said);
  CASE ("where-no-copy-can-be-kept-it-is-said", where_no_copy_can_be_kept_it_is_said);
#undef CASE
  return g_test_run ();
}
