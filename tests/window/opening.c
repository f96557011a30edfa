/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Every way to another range, clicked: the menu, the dialog, recent files, a file dropped, a file
 * that changes on disk; and what a broken file looks like. */

#include "hand.h"

#include "base/data.h"
#include <math.h>
#include <string.h>

static HobApp *app; /* one for all tests of this program */
static char *folder; /* of the files that tests write */

/* ---- Files ---- */

static char *
shipped_text (const char *range)
{
  g_autofree char *file = hob_range_locate (range);
  char *text = NULL;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return text;
}

/* A shipped range with each @words[i] put in the place of the one before it; NULL-ended pairs. */
static char *
changed_text (const char *range, const char *const *words)
{
  char *text = shipped_text (range);

  for (int i = 0; words[i] != NULL; i += 2)
    {
      g_auto (GStrv) pieces = g_strsplit (text, words[i], -1);

      g_assert_nonnull (pieces[1]);
      g_free (text);
      text = g_strjoinv (words[i + 1], pieces);
    }
  return text;
}

static char *
write_file (const char *name, const char *text)
{
  char *file = g_build_filename (folder, name, NULL);

  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  return file;
}

static const char *const no_change[] = { NULL };
/* Three parts of kinds that don't exist. */
static const char *const mistakes[] = { "kind=\"cord\"", "kind=\"chord\"", "kind=\"breaker\"",
                                        "kind=\"braker\"", "kind=\"lever\"", "kind=\"leaver\"",
                                        NULL };
/* An igniter that lights nothing: a warning. */
static const char *const nowhere[] = { " in=\"burner-bake\"", "", NULL };
static const char *const other_knob[] = { "\"knob-rr\"", "\"knob-back\"", NULL };

static char *
write_changed (const char *name, const char *const *words)
{
  g_autofree char *text = changed_text ("dial-four", words);

  return write_file (name, text);
}

/* ---- What tests ask of a window ---- */

static const char *
open_id (HobWindow *window)
{
  return hob_session_range (hob_window_session (window))->id;
}

static const char *
open_path (HobWindow *window)
{
  return hob_session_range (hob_window_session (window))->file;
}

static GPtrArray *
findings_of (const char *file)
{
  GPtrArray *findings = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  G_GNUC_UNUSED g_autoptr (HobRange) range = hob_range_load (file, findings, NULL);

  return findings;
}

/* The list has a row for each finding, with the file's name, the line and the words, on the
 * screen. */
static void
expect_all_findings (HobWindow *window, const char *file, guint at_least)
{
  g_autoptr (GPtrArray) findings = findings_of (file);
  g_autofree char *name = g_path_get_basename (file);
  HobFindingList *list = NULL;

  g_assert_cmpuint (findings->len, >=, at_least);
  WAIT_FOR ((list = hob_window_findings (window)) != NULL);
  g_assert_cmpuint (hob_finding_list_size (list), ==, findings->len);
  for (guint i = 0; i < findings->len; i++)
    {
      const HobFinding *finding = findings->pdata[i];
      g_autofree char *line = g_strdup_printf ("%s:%d: %s", name, finding->line, finding->text);

      g_assert_cmpstr (hob_finding_list_get (list, i), ==, line);
      g_assert_nonnull (hand_find (GTK_WIDGET (window), GTK_TYPE_LABEL, line));
    }
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (list)));
}

static void
choose_in_menu (HobWindow *window, const char *submenu, const char *item)
{
  hand_click_button (GTK_WIDGET (window), "Menu");
  hand_click_button (GTK_WIDGET (window), submenu);
  hand_click_button (GTK_WIDGET (window), item);
}

static double
turned (HobWindow *window, const char *control)
{
  HobSession *session = hob_window_session (window);
  int part, index;

  g_assert_true (
      hob_range_find_control (hob_session_range (session), control, &part, &index, NULL));
  return hob_moment_control (hob_session_moment (session), part, index);
}

/* ---- Tests ---- */

static void
the_menu_has_every_shipped_range (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *shipped = hob_data_path (HOB_DATA_RANGES, NULL);
  g_autoptr (GDir) dir = g_dir_open (shipped, 0, NULL);
  const char *name;
  int n = 0;

  hand_click_button (GTK_WIDGET (window), "Menu");
  hand_click_button (GTK_WIDGET (window), "Included Ranges");
  hand_sleep (300);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (shipped, name, NULL);
      g_autoptr (HobRange) range
          = g_str_has_suffix (name, ".xml") ? hob_range_load (file, NULL, NULL) : NULL;
      GtkWidget *label;

      if (range == NULL)
        continue;
      label = hand_find (GTK_WIDGET (window), GTK_TYPE_LABEL, hob_range_name (range));
      g_assert_nonnull (label);
      g_assert_true (gtk_widget_get_mapped (label));
      n++;
    }
  g_assert_cmpint (n, ==, 7);
  hand_screen ("opening-menu.png");
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  hand_close (window);
}

static void
a_shipped_range_is_clicked (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *file = hob_range_locate ("round-dial");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);

  choose_in_menu (window, "Included Ranges", hob_range_name (range));
  WAIT_FOR (g_str_equal (open_id (window), "round-dial"));
  g_assert_null (hob_window_findings (window));
  hand_close (window);
}

static void
the_dialog_opens_a_broken_file_as_a_list (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  g_autofree char *file = write_changed ("broken.xml", mistakes);
  GtkWidget *dialog;

  hand_key (GTK_WIDGET (window), XK_o, XK_Control_L);
  dialog = hand_wait_window (GTK_TYPE_FILE_CHOOSER_DIALOG);
  hand_sleep (500);
  hand_picture (dialog, "opening-dialog.png");
  hand_move (dialog, 200, 100);
  hand_type_path (dialog, file);
  hand_sleep (300);
  hand_key (dialog, XK_Return, 0);
  expect_all_findings (window, file, 3);
  g_assert_cmpstr (open_id (window), ==, "dial-four");
  hand_sleep (400);
  hand_picture (GTK_WIDGET (window), "opening-broken.png");
  hand_close (window);
}

static void
a_list_is_closed_or_checked_again (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *file = write_changed ("again.xml", mistakes), *same = NULL;

  hob_window_open_file (window, file);
  expect_all_findings (window, file, 3);
  hand_sleep (300);
  hand_click_button (GTK_WIDGET (window), "Check Again");
  expect_all_findings (window, file, 3);
  g_assert_cmpstr (open_id (window), ==, "board-five");
  hand_click_button (GTK_WIDGET (hob_window_findings (window)), "Close");
  WAIT_FOR (hob_window_findings (window) == NULL);

  hob_window_open_file (window, file);
  same = write_changed ("again.xml", no_change);
  hand_sleep (300);
  hand_click_button (GTK_WIDGET (hob_window_findings (window)), "Check Again");
  WAIT_FOR (g_str_equal (open_path (window), file));
  g_assert_null (hob_window_findings (window));
  hand_close (window);
}

static void
a_file_manager_opens_a_broken_file (void)
{
  g_autofree char *path = write_changed ("managed.xml", mistakes);
  GFile *file = g_file_new_for_path (path);
  GtkWidget *window;

  g_application_open (G_APPLICATION (app), &file, 1, "");
  window = hand_wait_window (HOB_TYPE_WINDOW);
  expect_all_findings (HOB_WINDOW (window), path, 3);
  g_assert_cmpstr (open_id (HOB_WINDOW (window)), ==, "dial-four");
  g_object_unref (file);
  hand_close (HOB_WINDOW (window));
}

/* With the acts that are in it; what is not on this computer opens no window. */
static void
a_file_manager_opens_a_case (void)
{
  g_autofree char *path
      = write_file ("managed-case.xml", "<case format=\"1\" range=\"board-five\">"
                                        "<do value=\"0s knob-lf=light\"/></case>");
  GFile *files[] = { g_file_new_for_uri ("nowhere://example.invalid/case.xml"),
                     g_file_new_for_path (path) };
  HobWindow *window;

  g_application_open (G_APPLICATION (app), files, G_N_ELEMENTS (files), "");
  window = HOB_WINDOW (hand_wait_window (HOB_TYPE_WINDOW));
  g_assert_cmpuint (g_list_length (gtk_application_get_windows (GTK_APPLICATION (app))), ==, 1);
  g_assert_cmpstr (open_id (window), ==, "board-five");
  WAIT_FOR (turned (window, "knob-lf") == 20);
  g_object_unref (files[0]);
  g_object_unref (files[1]);
  hand_close (window);
}

static void
warnings_open_the_file_and_are_listed (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *file = write_changed ("nowhere.xml", nowhere);

  hob_window_open_file (window, file);
  g_assert_cmpstr (open_path (window), ==, file);
  expect_all_findings (window, file, 1);
  g_assert_nonnull (strstr (hob_finding_list_get (hob_window_findings (window), 0), "warning: "));
  hand_sleep (400);
  hand_picture (GTK_WIDGET (window), "opening-warnings.png");
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  WAIT_FOR (hob_window_findings (window) == NULL);
  hand_close (window);
}

static void
wait_offer (HobWindow *window)
{
  WAIT_FOR (hob_window_said (window) != NULL
            && strstr (hob_window_said (window), "changed on disk") != NULL);
  hand_sleep (300);
}

static void
a_file_that_changes_is_offered_and_keeps_the_acts (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  HobSession *session = hob_window_session (window);
  g_autofree char *file = write_changed ("mine.xml", no_change), *again = NULL;
  HobRange *before;

  hob_window_open_file (window, file);
  hob_session_set_running (session, FALSE);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 20);
  hand_act (window, HOB_ACT_CONTROL, "knob-rr", 35);
  hob_session_go (session, 3000);
  WAIT_FOR (hob_session_ms (session) == 3000);
  before = hob_session_range (session);

  again = write_changed ("mine.xml", other_knob);
  wait_offer (window);
  hand_picture (GTK_WIDGET (window), "opening-changed.png");
  g_assert_true (hob_session_range (session) == before);
  hand_click_button (GTK_WIDGET (window), "Reload");
  WAIT_FOR (hob_session_range (session) != before && hob_session_ms (session) == 3000);
  g_assert_cmpfloat (turned (window, "knob-lf"), ==, 20);
  g_assert_cmpfloat (turned (window, "knob-back"), ==, 0);
  g_assert_null (hob_window_said (window));

  g_assert_nonnull (hob_window_findings (window));
  g_assert_cmpuint (hob_finding_list_size (hob_window_findings (window)), ==, 1);
  g_assert_nonnull (strstr (hob_finding_list_get (hob_window_findings (window), 0), "Right rear"));
  hand_sleep (300);
  hand_picture (GTK_WIDGET (window), "opening-left-out.png");
  hand_close (window);
}

/* Faults put in and taken out, numbers and choices: as they were, bit by bit, at the same times. */
static void
all_that_was_done_goes_along (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  HobSession *session = hob_window_session (window);
  g_autofree char *file = write_changed ("along.xml", no_change), *again = NULL;
  g_autoptr (HobCase) before = NULL;
  const HobCase *after;
  HobRange *range;
  int part, fault;

  hob_window_open_file (window, file);
  range = hob_session_range (session);
  hob_session_set_running (session, FALSE);
  g_assert_true (hob_range_find_fault (range, "module:dead", &part, &fault, NULL));
  hand_act (window, HOB_ACT_FAULT, "module:dead", 1);
  hand_act (window, HOB_ACT_FAULT, "igniter-bake:aged", 1 / 3.0);
  hand_act (window, HOB_ACT_SETTING, "receptacle.volts", 113.1234567);
  hand_act (window, HOB_ACT_SETTING, "house.fuel", 1);
  hand_act (window, HOB_ACT_CONTROL, "oven.dial", 449.123);
  hob_session_go (session, 1500);
  WAIT_FOR (hob_session_ms (session) == 1500);
  hob_session_act (session, HOB_ACT_LIFT, part, fault, 0);
  before = hob_case_copy (hob_run_case (hob_session_bench (session)->run));
  g_assert_cmpuint (before->acts->len, ==, 6);

  again = write_changed ("along.xml", other_knob);
  wait_offer (window);
  hand_click_button (GTK_WIDGET (window), "Reload");
  WAIT_FOR (hob_session_range (session) != range && hob_session_ms (session) == 1500);
  g_assert_null (hob_window_findings (window));
  after = hob_run_case (hob_session_bench (session)->run);
  g_assert_cmpuint (after->acts->len, ==, before->acts->len);
  g_assert_cmpuint (hob_case_common (after, before), ==, before->acts->len);
  g_assert_true (isnan (hob_moment_fault (hob_session_moment (session), part, fault)));
  hand_close (window);
}

static void
a_file_that_breaks_leaves_the_last_good_range (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  HobSession *session = hob_window_session (window);
  g_autofree char *file = write_changed ("breaks.xml", no_change), *again = NULL;
  HobRange *good;

  hob_window_open_file (window, file);
  hob_session_set_running (session, FALSE);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 20);
  good = hob_session_range (session);
  again = write_changed ("breaks.xml", mistakes);
  wait_offer (window);
  hand_click_button (GTK_WIDGET (window), "Reload");
  expect_all_findings (window, file, 3);
  g_assert_true (hob_session_range (session) == good);
  g_assert_cmpfloat (turned (window, "knob-lf"), ==, 20);

  g_free (again);
  again = write_changed ("breaks.xml", no_change);
  wait_offer (window);
  hand_click_button (GTK_WIDGET (hob_window_findings (window)), "Check Again");
  WAIT_FOR (hob_session_range (session) != good);
  g_assert_cmpfloat (turned (window, "knob-lf"), ==, 20);
  g_assert_null (hob_window_findings (window));
  hand_close (window);
}

static const char cased[] = "<case format=\"1\" range=\"cased.xml\">"
                            "<do value=\"1s knob-lf=light\"/></case>";

/* The range is another file than the case: both are watched. */
static void
the_range_of_a_case_is_watched_too (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  HobSession *session = hob_window_session (window);
  g_autofree char *range_file = write_changed ("cased.xml", no_change), *again = NULL,
                  *broken = NULL, *mended = NULL;
  g_autofree char *file = write_file ("case.xml", cased);
  HobRange *before;

  hob_window_open_file (window, file);
  hob_session_set_running (session, FALSE);
  g_assert_cmpstr (open_path (window), ==, range_file);
  hand_act (window, HOB_ACT_CONTROL, "knob-rr", 35);
  hob_session_go (session, 2000);
  WAIT_FOR (hob_session_ms (session) == 2000);
  before = hob_session_range (session);

  again = write_changed ("cased.xml", other_knob);
  wait_offer (window);
  g_assert_nonnull (strstr (hob_window_said (window), "cased.xml"));
  hand_click_button (GTK_WIDGET (window), "Reload");
  WAIT_FOR (hob_session_range (session) != before);
  WAIT_FOR (turned (window, "knob-lf") == 20);
  g_assert_cmpfloat (turned (window, "knob-back"), ==, 0);
  g_assert_cmpuint (hob_finding_list_size (hob_window_findings (window)), ==, 1);

  before = hob_session_range (session);
  broken = write_changed ("cased.xml", mistakes);
  wait_offer (window);
  hand_click_button (GTK_WIDGET (window), "Reload");
  WAIT_FOR (hob_finding_list_size (hob_window_findings (window)) >= 3);
  g_assert_true (hob_session_range (session) == before);
  mended = write_changed ("cased.xml", no_change);
  wait_offer (window);
  hand_click_button (GTK_WIDGET (hob_window_findings (window)), "Check Again");
  WAIT_FOR (hob_session_range (session) != before);
  WAIT_FOR (turned (window, "knob-lf") == 20);
  g_assert_null (hob_window_findings (window));
  hand_close (window);
}

static void
recent_files_are_ours_and_are_opened_again (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkRecentManager *manager = gtk_recent_manager_get_default ();
  g_autofree char *file = write_changed ("kitchen_one.xml", no_change);
  g_autofree char *letter = write_file ("letter.xml", "<letter/>");
  g_autofree char *letter_uri = g_filename_to_uri (letter, NULL, NULL), *label = NULL;
  GtkRecentData other = { .mime_type = (char *) "application/xml",
                          .app_name = (char *) "Letters",
                          .app_exec = (char *) "letters %f" };

  g_assert_true (gtk_recent_manager_add_full (manager, letter_uri, &other));
  hob_window_open_file (window, file);
  hand_close (window);

  window = hand_open (app, "board-five", 1560, 940);
  label = g_strdup_printf ("%s (kitchen_one.xml)", "Four-burner range with dial thermostat");
  hand_click_button (GTK_WIDGET (window), "Menu");
  hand_click_button (GTK_WIDGET (window), "Recent Files");
  hand_sleep (300);
  hand_screen ("opening-recent.png");
  g_assert_null (hand_find (GTK_WIDGET (window), GTK_TYPE_LABEL, "letter.xml"));
  hand_click_button (GTK_WIDGET (window), label);
  WAIT_FOR (g_str_equal (open_path (window), file));
  hand_close (window);
}

/* ---- Dropped ---- */

/* A small window from which files can be dragged. */
static GtkWidget *
source_window (GdkContentProvider *content)
{
  GtkWidget *window = gtk_window_new (), *label = gtk_label_new ("Drag this");
  GtkDragSource *source = gtk_drag_source_new ();

  gtk_drag_source_set_content (source, content);
  gtk_drag_source_set_actions (source, GDK_ACTION_COPY);
  gtk_widget_add_controller (label, GTK_EVENT_CONTROLLER (source));
  gtk_window_set_decorated (GTK_WINDOW (window), FALSE);
  gtk_window_set_child (GTK_WINDOW (window), label);
  gtk_window_set_default_size (GTK_WINDOW (window), 160, 80);
  gtk_window_present (GTK_WINDOW (window));
  WAIT_FOR (gtk_widget_get_mapped (label) && gtk_widget_get_width (label) > 0);
  hand_settle (window);
  return window;
}

/* GTK loses an object for each drag. */
static void
drag (GtkWidget *from, GtkWidget *to)
{
  double x = gtk_widget_get_width (to) / 2.0, y = gtk_widget_get_height (to) / 2.0;

  hand_look_away ();
  hand_move (from, 40, 40);
  hand_sleep (60);
  hand_button (from, 1, TRUE);
  for (int i = 1; i <= 6; i++)
    {
      hand_sleep (60);
      hand_move (from, 40 + 6 * i, 40);
    }
  for (int i = 0; i < 8; i++)
    {
      hand_sleep (60);
      hand_move (to, x + i, y);
    }
  hand_sleep (120);
  hand_look_again ();
  hand_button (to, 1, FALSE);
}

static void
a_dropped_file_opens (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *path = write_changed ("dropped.xml", no_change);
  g_autofree char *bad_path = write_changed ("dropped-broken.xml", mistakes);
  g_autoptr (GFile) file = g_file_new_for_path (path), bad = g_file_new_for_path (bad_path);
  g_autoptr (GdkContentProvider) good = gdk_content_provider_new_typed (G_TYPE_FILE, file);
  g_autoptr (GdkContentProvider) broken = gdk_content_provider_new_typed (G_TYPE_FILE, bad);
  GtkWidget *source = source_window (good);

  drag (source, GTK_WIDGET (hob_window_sheet (window)));
  WAIT_FOR (g_str_equal (open_path (window), path));
  gtk_window_destroy (GTK_WINDOW (source));

  source = source_window (broken);
  drag (source, GTK_WIDGET (hob_window_sheet (window)));
  expect_all_findings (window, bad_path, 3);
  g_assert_cmpstr (open_path (window), ==, path);
  gtk_window_destroy (GTK_WINDOW (source));
  hand_close (window);
}

/* Two at once: the first is opened, and it is said that it is the only one. */
static void
of_two_dropped_files_one_opens (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autofree char *path = write_changed ("first.xml", no_change);
  g_autofree char *other = write_changed ("second.xml", no_change);
  g_autoptr (GFile) file = g_file_new_for_path (path), second = g_file_new_for_path (other);
  GFile *both[] = { file, second };
  GdkFileList *list = gdk_file_list_new_from_array (both, G_N_ELEMENTS (both));
  g_autoptr (GdkContentProvider) content
      = gdk_content_provider_new_typed (GDK_TYPE_FILE_LIST, list);
  GtkWidget *source = source_window (content);

  drag (source, GTK_WIDGET (hob_window_sheet (window)));
  WAIT_FOR (g_str_equal (open_path (window), path));
  WAIT_FOR (hob_window_said (window) != NULL);
  g_assert_cmpstr (hob_window_said (window), ==, "Only the first of these files was opened.");
  gtk_window_destroy (GTK_WINDOW (source));
  g_boxed_free (GDK_TYPE_FILE_LIST, list);
  hand_close (window);
}

/* What is elsewhere is opened by nobody, and the range stays. */
static void
a_file_that_is_elsewhere_is_refused (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  g_autoptr (GFile) file = g_file_new_for_uri ("nowhere://example.invalid/range.xml");
  GdkFileList *list = gdk_file_list_new_from_array (&file, 1);
  g_autoptr (GdkContentProvider) content
      = gdk_content_provider_new_typed (GDK_TYPE_FILE_LIST, list);
  GtkWidget *source = source_window (content);

  drag (source, GTK_WIDGET (hob_window_sheet (window)));
  WAIT_FOR (hob_window_said (window) != NULL);
  g_assert_cmpstr (hob_window_said (window), ==,
                   "This file is not on this computer. Copy it here, then open the copy.");
  g_assert_cmpstr (open_id (window), ==, "board-five");
  gtk_window_destroy (GTK_WINDOW (source));
  g_boxed_free (GDK_TYPE_FILE_LIST, list);
  hand_close (window);
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  int result;

  app = hand_app (&argc, &argv);
  folder = g_dir_make_tmp ("hob-opening-XXXXXX", &error);
  g_assert_no_error (error);

  g_test_add_func ("/window/opening/the-menu-has-every-shipped-range",
                   the_menu_has_every_shipped_range);
  g_test_add_func ("/window/opening/a-shipped-range-is-clicked", a_shipped_range_is_clicked);
  g_test_add_func ("/window/opening/the-dialog-opens-a-broken-file-as-a-list",
                   the_dialog_opens_a_broken_file_as_a_list);
  g_test_add_func ("/window/opening/a-list-is-closed-or-checked-again",
                   a_list_is_closed_or_checked_again);
  g_test_add_func ("/window/opening/a-file-manager-opens-a-broken-file",
                   a_file_manager_opens_a_broken_file);
  g_test_add_func ("/window/opening/a-file-manager-opens-a-case", a_file_manager_opens_a_case);
  g_test_add_func ("/window/opening/warnings-open-the-file-and-are-listed",
                   warnings_open_the_file_and_are_listed);
  g_test_add_func ("/window/opening/a-file-that-changes-is-offered-and-keeps-the-acts",
                   a_file_that_changes_is_offered_and_keeps_the_acts);
  g_test_add_func ("/window/opening/all-that-was-done-goes-along", all_that_was_done_goes_along);
  g_test_add_func ("/window/opening/a-file-that-breaks-leaves-the-last-good-range",
                   a_file_that_breaks_leaves_the_last_good_range);
  g_test_add_func ("/window/opening/the-range-of-a-case-is-watched-too",
                   the_range_of_a_case_is_watched_too);
  g_test_add_func ("/window/opening/recent-files-are-ours-and-are-opened-again",
                   recent_files_are_ours_and_are_opened_again);
  g_test_add_func ("/window/opening/a-dropped-file-opens", a_dropped_file_opens);
  g_test_add_func ("/window/opening/of-two-dropped-files-one-opens",
                   of_two_dropped_files_one_opens);
  g_test_add_func ("/window/opening/a-file-that-is-elsewhere-is-refused",
                   a_file_that_is_elsewhere_is_refused);
  result = g_test_run ();
  g_free (folder);
  g_object_unref (app);
  return result;
}
