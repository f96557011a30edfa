/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What of the work on a range is saved, and where nothing may be written. */

#include "base/errors.h"
#include "job/job.h"
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

typedef struct
{
  char *folder, *range_file, *case_file; /* owned */
  HobCaseFile *opened;
  HobCase *acts;
  HobJob *job;
} Fixture;

/* A range of one's own: a copy of a shipped one. */
static void
set_up (Fixture *f, gconstpointer unused)
{
  g_autofree char *shipped = hob_range_locate ("dial-four"), *text = NULL;
  g_autoptr (GError) error = NULL;

  f->folder = g_dir_make_tmp ("hob-job-XXXXXX", NULL);
  f->range_file = g_build_filename (f->folder, "mine.xml", NULL);
  f->case_file = g_build_filename (f->folder, "case.xml", NULL);
  g_assert_true (g_file_get_contents (shipped, &text, NULL, NULL));
  g_assert_true (g_file_set_contents (f->range_file, text, -1, NULL));
  f->opened = hob_case_load (f->range_file, NULL, &error);
  g_assert_no_error (error);
  f->acts = hob_case_copy (f->opened->acts);
  f->job = hob_job_new (f->opened, NULL);
}

static void
tear_down (Fixture *f, gconstpointer unused)
{
  g_autoptr (GDir) dir = g_dir_open (f->folder, 0, NULL);
  const char *name;

  hob_job_free (f->job);
  hob_case_free (f->acts);
  hob_case_file_free (f->opened);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (f->folder, name, NULL);

      g_unlink (path);
    }
  g_rmdir (f->folder);
  g_free (f->folder);
  g_free (f->range_file);
  g_free (f->case_file);
}

static void
add (Fixture *f, HobActWhat what, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_add_argument (f->acts, what, text, &error);
  g_assert_no_error (error);
}

/* The value of "PART.NAME" in a range file. */
static double
setting_in (const char *file, const char *id, const char *name)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);
  const HobPart *part;

  g_assert_no_error (error);
  part = &range->parts[hob_range_part (range, id)];
  return part->set[hob_kind_setting (part->kind, name)];
}

static void
what_is_done_is_unsaved_until_it_is_saved (Fixture *f, gconstpointer unused)
{
  g_autoptr (HobCaseFile) again = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_true (hob_job_is_saved (f->job, f->acts));
  add (f, HOB_ACT_CONTROL, "1s knob-lf=light");
  g_assert_false (hob_job_is_saved (f->job, f->acts));
  g_assert_true (hob_job_save (f->job, f->acts, f->case_file, &error));
  g_assert_no_error (error);
  g_assert_true (hob_job_is_saved (f->job, f->acts));
  g_assert_cmpstr (f->job->file, ==, f->case_file);
  again = hob_case_load (f->case_file, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->acts->acts->len, ==, 1);
  g_assert_cmpstr (again->range->id, ==, "dial-four");
  add (f, HOB_ACT_CONTROL, "2s knob-lf=high");
  g_assert_false (hob_job_is_saved (f->job, f->acts));
}

/* What somebody has seen, not seen and read by now is @text alone. */
static void
set_seen (Fixture *f, const char *text)
{
  g_ptr_array_set_size (f->opened->evidence[HOB_EVIDENCE_SEEN], 0);
  g_ptr_array_add (f->opened->evidence[HOB_EVIDENCE_SEEN], g_strdup (text));
  hob_job_set_evidence (f->job, f->opened);
}

static void
evidence_is_unsaved_until_it_is_saved (Fixture *f, gconstpointer unused)
{
  g_autoptr (HobCaseFile) again = NULL;
  g_autoptr (GError) error = NULL;

  set_seen (f, "no-glow");
  g_assert_false (hob_job_is_saved (f->job, f->acts));
  g_assert_true (hob_job_save (f->job, f->acts, f->case_file, &error));
  g_assert_no_error (error);
  g_assert_true (hob_job_is_saved (f->job, f->acts));
  again = hob_case_load (f->case_file, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->evidence[HOB_EVIDENCE_SEEN]->len, ==, 1);
  g_assert_cmpstr (again->evidence[HOB_EVIDENCE_SEEN]->pdata[0], ==, "no-glow");
  set_seen (f, "glow-no-flame"); /* as many, and not the same */
  g_assert_false (hob_job_is_saved (f->job, f->acts));
  set_seen (f, "no-glow");
  g_assert_true (hob_job_is_saved (f->job, f->acts));
}

static void
expect_refusal (gboolean saved, const char *file, const char *before, GError **error)
{
  g_autofree char *after = NULL;

  g_assert_false (saved);
  g_assert_error (*error, HOB_ERROR, HOB_ERROR_OUTPUT);
  g_assert_null (strchr ((*error)->message, '\n'));
  if (before == NULL)
    {
      g_assert_false (g_file_test (file, G_FILE_TEST_EXISTS));
      return;
    }
  g_assert_true (g_file_get_contents (file, &after, NULL, NULL));
  g_assert_cmpstr (after, ==, before);
}

static void
no_range_is_written_over_by_a_case (Fixture *f, gconstpointer unused)
{
  g_autofree char *shipped = hob_range_locate ("board-five"), *text = NULL, *own = NULL;
  g_autoptr (GError) error = NULL, other = NULL;

  add (f, HOB_ACT_CONTROL, "1s knob-lf=light");
  g_assert_true (g_file_get_contents (shipped, &text, NULL, NULL));
  g_assert_true (g_file_get_contents (f->range_file, &own, NULL, NULL));
  expect_refusal (hob_job_save (f->job, f->acts, shipped, &error), shipped, text, &error);
  expect_refusal (hob_job_save (f->job, f->acts, f->range_file, &other), f->range_file, own,
                  &other);
  g_assert_false (hob_job_is_saved (f->job, f->acts));
  g_assert_null (f->job->file);
}

static void
a_folder_that_is_not_there_leaves_the_job_unsaved (Fixture *f, gconstpointer unused)
{
  g_autofree char *nowhere = g_build_filename (f->folder, "none", "case.xml", NULL);
  g_autoptr (GError) error = NULL, other = NULL;

  add (f, HOB_ACT_CONTROL, "1s knob-lf=light");
  expect_refusal (hob_job_save (f->job, f->acts, nowhere, &error), nowhere, NULL, &error);
  expect_refusal (hob_job_save_range (f->job, f->acts, 0, nowhere, &other), nowhere, NULL, &other);
  g_assert_false (hob_job_is_saved (f->job, f->acts));
}

static void
a_range_is_saved_as_it_is_at_that_time (Fixture *f, gconstpointer unused)
{
  g_autofree char *file = g_build_filename (f->folder, "other.xml", NULL);
  double ohms = setting_in (f->range_file, "receptacle", "source-ohms");
  g_autoptr (GError) error = NULL;

  add (f, HOB_ACT_SETTING, "receptacle.volts=110 V");
  add (f, HOB_ACT_SETTING, "receptacle.volts=114 V@5s");
  add (f, HOB_ACT_SETTING, "receptacle.source-ohms=3 ohm@20s");
  g_assert_true (hob_job_save_range (f->job, f->acts, 10000, file, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (setting_in (file, "receptacle", "volts"), ==, 114);
  g_assert_cmpfloat (setting_in (file, "receptacle", "source-ohms"), ==, ohms);
  g_assert_true (hob_job_is_saved (f->job, f->acts)); /* there was nothing else */

  add (f, HOB_ACT_CONTROL, "30s knob-lf=light");
  g_assert_true (hob_job_save_range (f->job, f->acts, 30000, file, &error));
  g_assert_cmpfloat (setting_in (file, "receptacle", "source-ohms"), ==, 3);
  g_assert_false (hob_job_is_saved (f->job, f->acts)); /* a range does not hold that */
}

/* A setting that is put to what it is anyway leaves the file as it is, to the byte. */
static void
what_is_set_as_it_was_changes_nothing (Fixture *f, gconstpointer unused)
{
  g_autofree char *file = g_build_filename (f->folder, "other.xml", NULL);
  g_autofree char *before = NULL, *after = NULL, *same = NULL;
  double volts = setting_in (f->range_file, "receptacle", "volts");
  g_autoptr (GError) error = NULL;

  same = g_strdup_printf ("receptacle.volts=%d V", (int) volts);
  add (f, HOB_ACT_SETTING, same);
  g_assert_true (hob_job_save_range (f->job, f->acts, 0, file, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (f->range_file, &before, NULL, NULL));
  g_assert_true (g_file_get_contents (file, &after, NULL, NULL));
  g_assert_cmpstr (before, ==, after);
  hob_job_free (NULL);
}

static void
a_shipped_range_is_never_replaced (Fixture *f, gconstpointer unused)
{
  g_autofree char *shipped = hob_range_locate ("dial-four"), *text = NULL;
  g_autofree char *link = g_build_filename (f->folder, "link.xml", NULL);
  g_autoptr (GError) error = NULL, other = NULL;

  g_assert_true (g_file_get_contents (shipped, &text, NULL, NULL));
  add (f, HOB_ACT_SETTING, "receptacle.volts=110 V");
  expect_refusal (hob_job_save_range (f->job, f->acts, 0, shipped, &error), shipped, text, &error);
  g_assert_cmpint (symlink (shipped, link), ==, 0);
  expect_refusal (hob_job_save_range (f->job, f->acts, 0, link, &other), shipped, text, &other);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define ADD(sentence, function)                                                                    \
  g_test_add ("/job/" sentence, Fixture, NULL, set_up, function, tear_down)
  ADD ("what-is-done-is-unsaved-until-it-is-saved", what_is_done_is_unsaved_until_it_is_saved);
  ADD ("evidence-is-unsaved-until-it-is-saved", evidence_is_unsaved_until_it_is_saved);
  ADD ("no-range-is-written-over-by-a-case", no_range_is_written_over_by_a_case);
  ADD ("a-folder-that-is-not-there-leaves-the-job-unsaved",
       a_folder_that_is_not_there_leaves_the_job_unsaved);
  ADD ("a-range-is-saved-as-it-is-at-that-time", a_range_is_saved_as_it_is_at_that_time);
  ADD ("what-is-set-as-it-was-changes-nothing", what_is_set_as_it_was_changes_nothing);
  ADD ("a-shipped-range-is-never-replaced", a_shipped_range_is_never_replaced);
#undef ADD
  return g_test_run ();
}
