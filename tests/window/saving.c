/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What was done is not lost: case files, Save As…, the question before a window is left, and what a
 * killed program left. */

#include "../kept-files.h"
#include "hand.h"

#include "job/kept.h"
#include <glib/gstdio.h>
#include <string.h>

static HobApp *app; /* one for all tests of this program */
static char *folder; /* of the files that tests write */

static const char case_text[]
    = "<?xml version=\"1.0\"?>\n<!-- mine -->\n"
      "<case format=\"1\" range=\"dial-four\" seed=\"3\">\n"
      "  <fault value=\"igniter-bake:aged=0.5\"/>\n"
      "  <do value=\"1 s oven.mode=bake\"/>\n"
      "  <seen value=\"glow-no-flame\"/>\n</case>\n";

static char *
path_of (const char *name)
{
  return g_build_filename (folder, name, NULL);
}

static char *
write_file (const char *name, const char *text)
{
  char *file = path_of (name);

  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  return file;
}

static char *
text_of (const char *file)
{
  char *text = NULL;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return text;
}

static const HobCase *
acts_of (HobWindow *window)
{
  return hob_run_case (hob_session_bench (hob_window_session (window))->run);
}

static const char *
open_id (HobWindow *window)
{
  return hob_session_range (hob_window_session (window))->id;
}

static GtkWidget *
wait_dialog (GType type)
{
  GtkWidget *dialog = hand_wait_window (type);

  hand_sleep (400);
  hand_move (dialog, gtk_widget_get_width (dialog) / 2.0, 20);
  hand_sleep (100);
  return dialog;
}

static gboolean
has_question (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) one = g_list_model_get_item (windows, i);

      if (GTK_IS_MESSAGE_DIALOG (one) && gtk_widget_get_mapped (one))
        return TRUE;
    }
  return FALSE;
}

static void
answer (const char *label)
{
  GtkWidget *dialog = wait_dialog (GTK_TYPE_MESSAGE_DIALOG);

  hand_picture (dialog, "saving-question.png");
  hand_click_button (dialog, label);
  WAIT_FOR (!has_question ());
}

/* The dialog for saving has a name already: it is replaced. */
static void
type_path (const char *path, gboolean saving)
{
  GtkWidget *dialog = wait_dialog (GTK_TYPE_FILE_CHOOSER_DIALOG);

  if (saving)
    hand_key (dialog, XK_a, XK_Control_L);
  hand_type_path (dialog, path);
  hand_sleep (300);
  hand_picture (dialog, "saving-dialog.png");
  hand_key (dialog, XK_Return, 0);
}

/* What was saved is what was done. */
static void
expect_saved (HobWindow *window, const char *file)
{
  g_autoptr (HobCaseFile) c = NULL;
  g_autoptr (GError) error = NULL;

  WAIT_FOR (g_file_test (file, G_FILE_TEST_EXISTS));
  c = hob_case_load (file, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (c->acts->acts->len, ==, acts_of (window)->acts->len);
  g_assert_cmpuint (hob_case_common (c->acts, acts_of (window)), ==, c->acts->acts->len);
}

/* ---- Case files ---- */

static void
expect_case (HobWindow *window)
{
  WAIT_FOR (acts_of (window)->acts->len == 2);
  g_assert_cmpstr (open_id (window), ==, "dial-four");
  g_assert_cmpuint (acts_of (window)->seed, ==, 3);
  g_assert_cmpint (g_array_index (acts_of (window)->acts, HobAct, 0).what, ==, HOB_ACT_FAULT);
}

static void
the_dialog_opens_a_case (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *file = write_file ("dialog.xml", case_text);

  hand_key (GTK_WIDGET (window), XK_o, XK_Control_L);
  type_path (file, FALSE);
  expect_case (window);
  g_assert_null (hob_window_findings (window));
  hand_close (window);
}

static void
a_recent_case_is_opened_again (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *file = write_file ("kitchen.xml", case_text);

  hob_window_open_file (window, file);
  expect_case (window);
  hand_close (window);
  window = hand_open (app, "board-five", 1560, 940);
  hand_click_button (GTK_WIDGET (window), "Menu");
  hand_click_button (GTK_WIDGET (window), "Recent Files");
  hand_click_button (GTK_WIDGET (window), "Four-burner range with dial thermostat (kitchen.xml)");
  expect_case (window);
  hand_close (window);
}

static void
a_broken_case_is_a_list (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *file
      = write_file ("broken.xml", "<case format=\"1\" range=\"dial-four\">\n"
                                  "<fault value=\"igniter-bake:agde\"/>\n"
                                  "<do value=\"1 s oven.mode=bke\"/>\n</case>\n");

  hob_window_open_file (window, file);
  WAIT_FOR (hob_window_findings (window) != NULL);
  g_assert_cmpuint (hob_finding_list_size (hob_window_findings (window)), ==, 2);
  g_assert_cmpstr (open_id (window), ==, "board-five");
  hand_close (window);
}

/* Undo and redo go back to what was opened and no further. */
static void
undo_and_redo_over_a_case (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *file = write_file ("undo.xml", case_text);

  hob_window_open_file (window, file);
  hob_session_set_running (hob_window_session (window), FALSE);
  expect_case (window);
  g_assert_false (hob_session_can_undo (hob_window_session (window)));
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hand_act (window, HOB_ACT_SETTING, "receptacle.volts", 108);
  g_assert_cmpuint (acts_of (window)->acts->len, ==, 4);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  expect_case (window);
  hand_key (GTK_WIDGET (window), XK_y, XK_Control_L);
  WAIT_FOR (acts_of (window)->acts->len == 3);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  expect_case (window);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  hand_sleep (200);
  g_assert_false (has_question ());
}

/* ---- Save As… ---- */

static void
save_as_writes_a_case_with_its_evidence (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *from = write_file ("from.xml", case_text), *file = path_of ("saved.xml");
  g_autofree char *text = NULL;

  hob_window_open_file (window, from);
  hob_session_set_running (hob_window_session (window), FALSE);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hand_key (GTK_WIDGET (window), XK_s, XK_Control_L);
  type_path (file, TRUE);
  expect_saved (window, file);
  text = text_of (file);
  g_assert_nonnull (strstr (text, "<seen value=\"glow-no-flame\"/>"));
  WAIT_FOR (hob_window_said (window) != NULL);
  g_assert_cmpstr (hob_window_said (window), ==, "Saved as saved.xml.");
  hand_sleep (2200); /* neither the copy nor "has changed on disk" comes of it */
  g_assert_cmpuint (n_kept (), ==, 0);
  g_assert_cmpstr (hob_window_said (window), ==, "Saved as saved.xml.");
  hand_picture (GTK_WIDGET (window), "saving-saved.png");
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  hand_sleep (200);
  g_assert_false (has_question ());
}

static void
go (HobWindow *window, gint64 ms)
{
  hob_session_go (hob_window_session (window), ms);
  WAIT_FOR (hob_session_ms (hob_window_session (window)) == ms);
}

/* A setting that changes and a fault that comes and goes in the run are kept with their times. */
static void
what_changes_in_time_is_kept_with_its_times (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *file = path_of ("in-time.xml"), *text = NULL;
  HobAct fault;

  hob_session_set_running (hob_window_session (window), FALSE);
  go (window, 1000);
  hand_act (window, HOB_ACT_FAULT, "igniter-bake:aged", 0.5);
  fault = g_array_index (acts_of (window)->acts, HobAct, 0);
  go (window, 2000);
  hand_act (window, HOB_ACT_SETTING, "receptacle.volts", 108);
  go (window, 3000);
  hob_session_act (hob_window_session (window), HOB_ACT_LIFT, fault.part, fault.index, 0);
  hand_key (GTK_WIDGET (window), XK_s, XK_Control_L);
  type_path (file, TRUE);
  expect_saved (window, file);
  text = text_of (file);
  g_assert_nonnull (strstr (text, "igniter-bake:aged=0.5@1 s"));
  g_assert_nonnull (strstr (text, "receptacle.volts=108 V@2 s"));
  g_assert_nonnull (strstr (text, "igniter-bake:aged=0@3 s"));
  WAIT_FOR (hob_window_said (window) != NULL);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  hand_sleep (200);
  g_assert_false (has_question ());
}

/* A name without an ending gets the one that is looked for; one that is taken stays what it is. */
static void
a_name_gets_its_ending (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *typed = path_of ("plain"), *file = path_of ("plain.xml"), *text = NULL;

  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hand_key (GTK_WIDGET (window), XK_s, XK_Control_L);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.save-as", NULL); /* no second dialog */
  type_path (typed, TRUE);
  expect_saved (window, file);
  g_assert_false (g_file_test (typed, G_FILE_TEST_EXISTS));
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 0);
  hand_key (GTK_WIDGET (window), XK_s, XK_Control_L);
  type_path (typed, TRUE);
  WAIT_FOR (g_file_test (typed, G_FILE_TEST_EXISTS)); /* nothing was asked about the other one */
  text = text_of (file);
  g_assert_null (strstr (text, "knob-lf=off"));
  hand_close (window);
}

static void
a_shipped_range_is_never_replaced (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *shipped = hob_range_locate ("dial-four"), *before = text_of (shipped);
  g_autofree char *after = NULL;

  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hand_key (GTK_WIDGET (window), XK_s, XK_Control_L);
  type_path (shipped, TRUE);
  answer ("Replace");
  WAIT_FOR (hob_window_said (window) != NULL);
  g_assert_cmpstr (hob_window_said (window), ==,
                   "dial-four.xml: this range comes with Hobwright; save it under another name");
  after = text_of (shipped);
  g_assert_cmpstr (before, ==, after);
  hand_picture (GTK_WIDGET (window), "saving-refused.png");
  hand_close (window);
}

/* All lines of @before are in @after, in order; this many are new. */
static guint
n_new_lines (const char *before, const char *after)
{
  g_auto (GStrv) a = g_strsplit (before, "\n", -1), b = g_strsplit (after, "\n", -1);
  guint n = 0;

  for (char **old = a, **line = b; *line != NULL; line++)
    if (*old != NULL && g_str_equal (*old, *line))
      old++;
    else
      n++;
  g_assert_cmpuint (g_strv_length (b), ==, g_strv_length (a) + n);
  return n;
}

static void
save_range_as_adds_one_line_a_setting (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *shipped = hob_range_locate ("dial-four"), *before = text_of (shipped);
  g_autofree char *file = path_of ("my-range.xml"), *after = NULL;
  g_autoptr (HobRange) range = NULL;
  int part, setting;

  hand_act (window, HOB_ACT_SETTING, "receptacle.volts", 108);
  hand_act (window, HOB_ACT_SETTING, "receptacle.volts", 109);
  hand_act (window, HOB_ACT_SETTING, "igniter-bake.resistance-factor", 1.1);
  hand_click_button (GTK_WIDGET (window), "Menu");
  hand_click_button (GTK_WIDGET (window), "Save Range As…");
  type_path (file, TRUE);
  WAIT_FOR (g_file_test (file, G_FILE_TEST_EXISTS));
  after = text_of (file);
  g_assert_cmpuint (n_new_lines (before, after), ==, 2);
  range = hob_range_load (file, NULL, NULL);
  g_assert_nonnull (range);
  g_assert_true (hob_range_find_setting (range, "receptacle.volts", &part, &setting, NULL));
  g_assert_cmpfloat (range->parts[part].set[setting], ==, 109);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L); /* nothing but settings: all is saved */
  hand_sleep (200);
  g_assert_false (has_question ());
}

/* ---- The question ---- */

static void
opening_another_asks_once (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *other = hob_range_locate ("board-five"), *file = path_of ("asked.xml");

  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hob_window_open_file (window, other);
  answer ("Cancel");
  g_assert_cmpstr (open_id (window), ==, "dial-four");
  g_assert_cmpuint (acts_of (window)->acts->len, ==, 1);

  hob_window_open_file (window, other);
  answer ("Save As…");
  type_path (file, TRUE);
  WAIT_FOR (g_str_equal (open_id (window), "board-five"));
  g_assert_true (g_file_test (file, G_FILE_TEST_EXISTS));

  g_free (other);
  other = hob_range_locate ("lp-four");
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hob_window_open_file (window, other);
  answer ("Discard");
  WAIT_FOR (g_str_equal (open_id (window), "lp-four"));
  hand_close (window);
}

/* The window goes, and with it whatever it kept. */
static void
expect_closed (gpointer *weak)
{
  WAIT_FOR (*weak == NULL);
  g_assert_cmpuint (n_kept (), ==, 0);
}

static void
closing_asks_once (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  gpointer weak = window;

  g_object_add_weak_pointer (G_OBJECT (window), &weak);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  answer ("Cancel");
  g_assert_nonnull (weak);
  hand_move (GTK_WIDGET (window), 700, 20);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  answer ("Discard");
  expect_closed (&weak);
}

static void
quitting_asks_once_and_saves (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *file = path_of ("quit.xml");
  gpointer weak = window;

  g_object_add_weak_pointer (G_OBJECT (window), &weak);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  hand_key (GTK_WIDGET (window), XK_q, XK_Control_L);
  answer ("Save As…");
  type_path (file, TRUE);
  expect_closed (&weak);
  g_assert_true (g_file_test (file, G_FILE_TEST_EXISTS));
}

static void
nothing_is_asked_where_nothing_was_done (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  gpointer weak = window;

  g_object_add_weak_pointer (G_OBJECT (window), &weak);
  hob_session_go (hob_window_session (window), 2000);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  expect_closed (&weak);
}

/* ---- What a killed program left ---- */

/* As a program does that is killed: nothing is removed. */
static void
leave_behind (void)
{
  g_autofree char *file = hob_range_locate ("board-five");
  g_autoptr (HobCaseFile) c = hob_case_load (file, NULL, NULL);
  g_autoptr (GError) error = NULL;
  HobKept *kept = hob_kept_new (&error);

  g_assert_no_error (error);
  g_assert_true (hob_case_do (c->acts, "2 s knob-lf=high", &error));
  hob_kept_write (kept, c, &error);
  g_assert_no_error (error);
  hob_kept_release (kept);
}

static HobWindow *
open_with_offer (void)
{
  HobWindow *window;

  leave_behind ();
  window = hand_open (app, "dial-four", 1560, 940);
  hob_window_offer_left (window);
  hand_sleep (500);
  hand_picture (GTK_WIDGET (window), "saving-offer.png");
  return window;
}

static void
what_was_left_is_restored (void)
{
  HobWindow *window = open_with_offer ();

  hand_click_button (GTK_WIDGET (window), "Restore");
  WAIT_FOR (g_str_equal (open_id (window), "board-five"));
  WAIT_FOR (hob_session_ms (hob_window_session (window)) == 2000);
  g_assert_cmpuint (acts_of (window)->acts->len, ==, 1);
  g_assert_cmpuint (n_kept (), ==, 2); /* still: it is saved nowhere else */
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  answer ("Discard");
  WAIT_FOR (n_kept () == 0);
}

static void
what_was_left_is_discarded (void)
{
  HobWindow *window = open_with_offer ();

  hand_click_button (GTK_WIDGET (window), "Discard");
  WAIT_FOR (n_kept () == 0);
  g_assert_cmpstr (open_id (window), ==, "dial-four");
  hand_close (window);
}

/* As of a disk that lost its end: what is wrong is listed, range and copy stay. */
static void
a_broken_copy_is_listed_and_left (void)
{
  HobWindow *window;
  g_autofree char *jobs = kept_folder (), *copy = NULL;
  g_autoptr (GDir) dir = NULL;
  const char *name;

  leave_behind ();
  dir = g_dir_open (jobs, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      copy = g_build_filename (jobs, name, NULL);
  g_assert_true (g_file_set_contents (copy, "<case format=\"1\" ran", -1, NULL));
  window = hand_open (app, "dial-four", 1560, 940);
  hob_window_offer_left (window);
  hand_click_button (GTK_WIDGET (window), "Restore");
  WAIT_FOR (hob_window_findings (window) != NULL);
  g_assert_cmpstr (open_id (window), ==, "dial-four");
  g_assert_cmpuint (n_kept (), ==, 2);
  hob_window_offer_left (window); /* nobody else has it */
  hand_sleep (300);
  hand_click_button (GTK_WIDGET (window), "Discard");
  WAIT_FOR (n_kept () == 0);
  hand_close (window);
}

/* It was offered, and meanwhile another program has taken it. */
static void
what_another_took_is_not_restored (void)
{
  HobWindow *window = open_with_offer ();
  g_autoptr (GPtrArray) left = hob_kept_left ();
  HobKept *taken = hob_kept_take (left->pdata[0]);

  g_assert_nonnull (taken);
  hand_click_button (GTK_WIDGET (window), "Restore");
  WAIT_FOR (hob_window_said (window) != NULL);
  g_assert_cmpstr (hob_window_said (window), ==, "This case is already open in another Hobwright "
                                                 "window.");
  g_assert_cmpstr (open_id (window), ==, "dial-four");
  g_assert_cmpuint (n_kept (), ==, 2);
  hob_kept_free (taken);
  hand_close (window);
}

/* No room for the copy: it is said once, and the work goes on. */
static void
a_copy_that_cannot_be_kept_is_said_once (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *jobs = kept_folder ();

  WAIT_FOR (n_kept () == 0);
  g_rmdir (jobs);
  g_assert_true (g_file_set_contents (jobs, "", 0, NULL)); /* not even root makes files in it */
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 35);
  WAIT_FOR (hob_window_said (window) != NULL);
  g_assert_nonnull (strstr (hob_window_said (window), "jobs"));
  hand_click_button (GTK_WIDGET (window), "Close");
  WAIT_FOR (hob_window_said (window) == NULL);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 0);
  hand_sleep (800);
  g_assert_null (hob_window_said (window));
  g_assert_cmpint (g_remove (jobs), ==, 0);
  hand_close (window);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int result;

  app = hand_app (&argc, &argv);
  folder = g_dir_make_tmp ("hob-saving-XXXXXX", &error);
  g_assert_no_error (error);

  g_test_add_func ("/window/saving/the-dialog-opens-a-case", the_dialog_opens_a_case);
  g_test_add_func ("/window/saving/a-recent-case-is-opened-again", a_recent_case_is_opened_again);
  g_test_add_func ("/window/saving/a-broken-case-is-a-list", a_broken_case_is_a_list);
  g_test_add_func ("/window/saving/undo-and-redo-over-a-case", undo_and_redo_over_a_case);
  g_test_add_func ("/window/saving/save-as-writes-a-case-with-its-evidence",
                   save_as_writes_a_case_with_its_evidence);
  g_test_add_func ("/window/saving/what-changes-in-time-is-kept-with-its-times",
                   what_changes_in_time_is_kept_with_its_times);
  g_test_add_func ("/window/saving/a-name-gets-its-ending", a_name_gets_its_ending);
  g_test_add_func ("/window/saving/a-shipped-range-is-never-replaced",
                   a_shipped_range_is_never_replaced);
  g_test_add_func ("/window/saving/save-range-as-adds-one-line-a-setting",
                   save_range_as_adds_one_line_a_setting);
  g_test_add_func ("/window/saving/opening-another-asks-once", opening_another_asks_once);
  g_test_add_func ("/window/saving/closing-asks-once", closing_asks_once);
  g_test_add_func ("/window/saving/quitting-asks-once-and-saves", quitting_asks_once_and_saves);
  g_test_add_func ("/window/saving/nothing-is-asked-where-nothing-was-done",
                   nothing_is_asked_where_nothing_was_done);
  g_test_add_func ("/window/saving/what-was-left-is-restored", what_was_left_is_restored);
  g_test_add_func ("/window/saving/what-was-left-is-discarded", what_was_left_is_discarded);
  g_test_add_func ("/window/saving/a-broken-copy-is-listed-and-left",
                   a_broken_copy_is_listed_and_left);
  g_test_add_func ("/window/saving/what-another-took-is-not-restored",
                   what_another_took_is_not_restored);
  g_test_add_func ("/window/saving/a-copy-that-cannot-be-kept-is-said-once",
                   a_copy_that_cannot_be_kept_is_said_once);
  result = g_test_run ();
  g_free (folder);
  g_object_unref (app);
  return result;
}
