/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A window that is killed while somebody works in it: what was done until a second before is there
 * again.  And a job that is killed while it saves: the file is whole.  The program starts itself as
 * the one that is killed.
 *
 *   test-window-killed            the test: 8 kills of each kind; HOB_FULL: 50, and 1000 of saving
 *                                 and keeping; HOB_KILLS: as many of each
 *   test-window-killed WORK FILE  works until it is killed */

#include "../kept-files.h"
#include "hand.h"

#include "base/write-file.h"
#include "job/job.h"
#include <glib/gstdio.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define ACT_MS 15
#define MAY_BE_LOST_US G_USEC_PER_SEC

static const double turns[] = { 20, 35, 100, 0 }; /* of the knob, again and again */

static char *self;

/* ---- The one that is killed ---- */

static void
say_done (void)
{
  printf ("%" G_GINT64_FORMAT "\n", g_get_monotonic_time ());
  fflush (stdout);
}

static gboolean
on_act (gpointer user)
{
  HobSession *session = hob_window_session (user);
  guint n = hob_run_case (hob_session_bench (session)->run)->acts->len;
  int part, index;

  g_assert_true (
      hob_range_find_control (hob_session_range (session), "knob-lf", &part, &index, NULL));
  hob_session_act (session, HOB_ACT_CONTROL, part, index, turns[n % G_N_ELEMENTS (turns)]);
  say_done ();
  return G_SOURCE_CONTINUE;
}

static void
work_in_window (const char *file)
{
  g_autoptr (HobApp) app = hob_app_new ();

  gtk_init ();
  g_assert_true (g_application_register (G_APPLICATION (app), NULL, NULL));
  g_timeout_add (ACT_MS, on_act, hand_open (app, "dial-four", 900, 600));
  for (;;)
    g_main_context_iteration (NULL, TRUE);
}

typedef gboolean (*Writer) (HobJob *job, const HobCase *acts, const char *file, GError **error);

/* Writes again and again, each time one act or another value more. */
static void
write_on (const char *file, HobActWhat what, Writer writer)
{
  g_autofree char *shipped = hob_range_locate ("dial-four");
  g_autoptr (HobCaseFile) c = hob_case_load (shipped, NULL, NULL);
  g_autoptr (HobCase) acts = hob_case_copy (c->acts);
  g_autoptr (HobJob) job = hob_job_new (c, NULL);

  for (int i = 0;; i++)
    {
      g_autofree char *act
          = what == HOB_ACT_SETTING
                ? g_strdup_printf ("receptacle.volts=%d V", 110 + i % 10)
                : g_strdup_printf ("%d s knob-lf=%g", i, turns[i % G_N_ELEMENTS (turns)]);
      g_autoptr (GError) error = NULL;

      hob_case_add_argument (acts, what, act, &error);
      g_assert_no_error (error);
      writer (job, acts, file, &error);
      g_assert_no_error (error);
      say_done ();
    }
}

static void
save_case (const char *file)
{
  write_on (file, HOB_ACT_CONTROL, hob_job_save);
}

static gboolean
write_range (HobJob *job, const HobCase *acts, const char *file, GError **error)
{
  return hob_job_save_range (job, acts, 0, file, error);
}

static void
save_range (const char *file)
{
  write_on (file, HOB_ACT_SETTING, write_range);
}

/* The copy that the window keeps, without the pause between. */
static gboolean
write_copy (HobJob *job, const HobCase *acts, const char *file, GError **error)
{
  return hob_job_keep (job, acts, error);
}

static void
keep (const char *file)
{
  write_on (file, HOB_ACT_CONTROL, write_copy);
}

static const struct
{
  const char *name;
  void (*work) (const char *file);
} works[] = { { "window", work_in_window },
              { "case", save_case },
              { "range", save_range },
              { "keep", keep } };

/* ---- The one that kills ---- */

/* Starts @work and kills it between @least and @most ms after the first thing that it did.  Returns
 * how many things it had done by @margin µs before. */
static guint
kill_at_work (const char *work, const char *file, int least, int most, gint64 margin)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GSubprocess) process = g_subprocess_new (G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error, self,
                                                      work, file, NULL);
  g_autoptr (GDataInputStream) said = NULL;
  gint64 killed;
  guint n = 0;
  char *line;

  g_assert_no_error (error);
  said = g_data_input_stream_new (g_subprocess_get_stdout_pipe (process));
  line = g_data_input_stream_read_line (said, NULL, NULL, NULL);
  g_assert_nonnull (line);
  g_free (line);
  g_usleep ((gulong) g_test_rand_int_range (least, most) * 1000);
  killed = g_get_monotonic_time ();
  g_subprocess_send_signal (process, SIGKILL);
  for (n = 1; (line = g_data_input_stream_read_line (said, NULL, NULL, NULL)) != NULL;
       g_free (line))
    n += g_ascii_strtoll (line, NULL, 10) <= killed - margin;
  g_subprocess_wait (process, NULL, NULL);
  return n;
}

static void
expect_turns (const HobCase *acts)
{
  for (guint i = 0; i < acts->acts->len; i++)
    g_assert_cmpfloat (g_array_index (acts->acts, HobAct, i).value, ==,
                       turns[i % G_N_ELEMENTS (turns)]);
}

static int
n_kills (int full)
{
  const char *said = g_getenv ("HOB_KILLS");

  return said != NULL ? atoi (said) : g_getenv ("HOB_FULL") != NULL ? full : 8;
}

/* Kills, and looks at the next start for what was done by @margin µs before. */
static void
expect_kept (const char *work, int times, int least, int most, gint64 margin)
{
  g_autofree char *jobs = kept_folder ();

  for (int i = 0; i < times; i++)
    {
      guint done = kill_at_work (work, "-", least, most, margin);
      g_autoptr (GPtrArray) left = hob_kept_left ();
      g_autoptr (HobCaseFile) c = NULL;
      g_autoptr (GError) error = NULL;

      g_test_message ("kill %d: %u acts by a second before", i, done);
      if (margin > 0 && done <= 1 && left->len == 0)
        continue;
      g_assert_cmpuint (left->len, ==, 1);
      c = hob_case_load (left->pdata[0], NULL, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (c->acts->acts->len, >=, done);
      expect_turns (c->acts);
      hob_kept_free (hob_kept_take (left->pdata[0]));
      g_assert_cmpuint (n_files_in (jobs), ==, 0);
    }
  g_test_message ("%d kills: none torn, none lost, none left behind", times);
}

static void
at_most_a_second_of_acts_is_lost (void)
{
  expect_kept ("window", n_kills (50), 100, 3000, MAY_BE_LOST_US);
}

static void
a_kept_copy_is_whole (void)
{
  expect_kept ("keep", n_kills (1000), 0, 40, 0);
}

static void
what_is_saved_is_whole (gconstpointer work)
{
  g_autofree char *folder = g_dir_make_tmp ("hob-killed-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "saved.xml", NULL);
  int times = n_kills (1000);
  guint most = 0;

  for (int i = 0; i < times; i++)
    {
      g_autoptr (HobCaseFile) c = NULL;
      g_autoptr (GError) error = NULL;

      kill_at_work (work, file, 0, 40, 0);
      most = MAX (most, n_files_in (folder) - 1);
      c = hob_case_load (file, NULL, &error);
      g_assert_no_error (error);
      if (g_str_equal (work, "case"))
        expect_turns (c->acts);
    }
  g_assert_true (hob_write_file (file, "x", 1, NULL)); /* the next start, in that folder */
  g_assert_cmpuint (n_files_in (folder), ==, 1);
  g_test_message ("%d kills, at most %u files beside, none after", times, most);
  g_unlink (file);
  g_rmdir (folder);
}

int
main (int argc, char **argv)
{
  for (guint i = 0; argc == 3 && i < G_N_ELEMENTS (works); i++)
    if (g_str_equal (argv[1], works[i].name))
      works[i].work (argv[2]);
  self = argv[0];
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/window/killed/at-most-a-second-of-acts-is-lost",
                   at_most_a_second_of_acts_is_lost);
  g_test_add_func ("/window/killed/a-kept-copy-is-whole", a_kept_copy_is_whole);
  g_test_add_data_func ("/window/killed/a-case-is-whole", "case", what_is_saved_is_whole);
  g_test_add_data_func ("/window/killed/a-range-is-whole", "range", what_is_saved_is_whole);
  return g_test_run ();
}
