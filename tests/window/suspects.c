/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The column of suspects, worked by a real pointer and real keys, on a range of one burner whose
 * faults are soon tried. */

#include "hand.h"
#include "one-burner.h"

#include "reason/suspect-words.h"
#include "window/seen-choice.h"
#include "window/suspect-answer.h"
#include "window/suspect-evidence.h"
#include "window/suspect-picker.h"
#include "window/words.h"
#include <glib/gstdio.h>
#include <string.h>

static HobApp *app; /* one for all tests of this program */
static char *one_burner; /* its file, owned */

static HobWindow *
open_one (int w, int h)
{
  HobWindow *window = hand_open (app, one_burner, w, h);

  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (hob_window_suspects (window))));
  return window;
}

static void
wait_answer (HobWindow *window)
{
  WAIT_FOR (hob_suspect_column_answer (hob_window_suspects (window)) != NULL);
  hand_settle (GTK_WIDGET (window));
}

/* By its words, as a person finds it. */
static void
pick (HobWindow *window, const char *button, const char *typed)
{
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window));

  hand_click_button (column, button);
  hand_sleep (250); /* the popover has come to rest */
  hand_type (GTK_WIDGET (window), typed);
  hand_sleep (250); /* the field waits for more to be typed */
  hand_key (GTK_WIDGET (window), XK_Return, 0);
}

static const HobSuspect *
first (HobWindow *window)
{
  return hob_suspect_column_answer (hob_window_suspects (window))->suspects->pdata[0];
}

static const char *
fault_of (HobWindow *window, const HobSuspect *s)
{
  const HobRange *range = hob_session_range (hob_window_session (window));

  return s->what == HOB_SUSPECT_FAULT ? range->parts[s->part].kind->faults[s->fault].id : "";
}

static gboolean
says (HobWindow *window, const char *words)
{
  return hand_find (GTK_WIDGET (hob_window_suspects (window)), GTK_TYPE_LABEL, words) != NULL;
}

/* Is all of it on the screen, in a column that nobody has scrolled? */
static gboolean
is_in_view (HobWindow *window, const char *words)
{
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window)),
            *label = hand_find (column, GTK_TYPE_LABEL, words);
  graphene_rect_t at;

  return label != NULL && gtk_widget_compute_bounds (label, column, &at) && at.origin.y >= 0
         && at.origin.y + at.size.height <= (float) gtk_widget_get_height (column);
}

/* ---- Cases ---- */

static void
a_picked_symptom_is_answered (void)
{
  HobWindow *window = open_one (1400, 900);
  const HobOffer *next;

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  g_assert_cmpint (first (window)->what, ==, HOB_SUSPECT_FAULT);
  g_assert_true (says (window, "Don't replace the part yet. Nothing has confirmed the fault."));
  next = hob_suspects_next (hob_suspect_column_answer (hob_window_suspects (window)));
  g_assert_nonnull (next);
  g_assert_true (says (window, "Next Test"));
  hand_picture (GTK_WIDGET (window), "window-suspects.png");
  hand_close (window);
}

/* The same evidence that was asked before is answered from what is kept. */
static void
the_second_time_it_is_soon_answered (void)
{
  HobWindow *window = open_one (1400, 900);
  HobSuspectColumn *column = hob_window_suspects (window);
  int symptom = hob_symptom_book_find (hob_session_book (hob_window_session (window)),
                                       "no-spark-any");
  gint64 begun;

  hob_suspect_column_add_symptom (column, symptom, -1);
  wait_answer (window);
  hand_click_button (GTK_WIDGET (column), "Remove");
  WAIT_FOR (hob_suspect_column_answer (column) == NULL);
  begun = g_get_monotonic_time ();
  hob_suspect_column_add_symptom (column, symptom, -1);
  g_assert_cmpint (g_get_monotonic_time () - begun, <, 50000); /* nothing waits meanwhile */
  WAIT_FOR (hob_suspect_column_answer (column) != NULL);
  g_test_message ("answered after %.0f ms", (double) (g_get_monotonic_time () - begun) / 1000);
  hand_close (window);
}

#define UNCONFIRMED "Don't replace the part yet. Nothing has confirmed the fault."

static void
wait_open (HobWindow *window)
{
  WAIT_FOR (hob_suspect_column_answer (hob_window_suspects (window)) != NULL
            && g_str_equal (fault_of (window, first (window)), "open"));
  hand_settle (GTK_WIDGET (window));
}

/* Weighed against the normal value, and then a reading speaks for the suspect. */
static void
what_was_read_is_typed_with_its_unit (void)
{
  HobWindow *window = open_one (1400, 900);
  double lit;

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  pick (window, "Add Reading…", "volts switch");
  pick (window, "Pick Time…", "light");
  hand_type (GTK_WIDGET (window), "120 V");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  wait_open (window);
  g_assert_false (says (window, UNCONFIRMED));
  hand_picture (GTK_WIDGET (window), "window-suspects-reading.png");
  hand_key (GTK_WIDGET (window), XK_a, XK_Control_L);
  hand_type (GTK_WIDGET (window), "12 parsec");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  WAIT_FOR (says (window, UNCONFIRMED)); /* what can't be read is no evidence */
  hand_picture (GTK_WIDGET (window), "window-suspects-unit.png");
  hand_key (GTK_WIDGET (window), XK_a, XK_Control_L);
  hand_type (GTK_WIDGET (window), "120 V");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  wait_open (window);
  lit = first (window)->p;
  pick (window, "Pick Time…", "off"); /* asked anew, and soon answered */
  WAIT_FOR (hob_suspect_column_answer (hob_window_suspects (window)) != NULL
            && first (window)->p != lit);
  hand_close (window);
}

static void
save_as (const char *file)
{
  GtkWidget *dialog = hand_wait_window (GTK_TYPE_FILE_CHOOSER_DIALOG);

  hand_sleep (400);
  hand_key (dialog, XK_a, XK_Control_L);
  hand_type_path (dialog, file);
  hand_sleep (300);
  hand_key (dialog, XK_Return, 0);
}

static void
expect_closed (HobWindow *window)
{
  gpointer weak = window;

  g_object_add_weak_pointer (G_OBJECT (window), &weak);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  WAIT_FOR (weak == NULL);
}

/* Evidence is work: closing asks for it, the file has it, and it is there again. */
static void
evidence_is_saved_with_the_case (void)
{
  HobWindow *window = open_one (1400, 900);
  g_autofree char *folder = g_dir_make_tmp ("hob-suspects-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "evidence.xml", NULL), *text = NULL;
  GtkWidget *question;

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  pick (window, "Add Reading…", "volts switch");
  pick (window, "Pick Time…", "light");
  hand_type (GTK_WIDGET (window), "120 V");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  wait_open (window);
  hand_key (GTK_WIDGET (window), XK_w, XK_Control_L);
  question = hand_wait_window (GTK_TYPE_MESSAGE_DIALOG);
  hand_sleep (400);
  hand_click_button (question, "Save As…");
  save_as (file);
  WAIT_FOR (g_file_get_contents (file, &text, NULL, NULL));
  g_assert_nonnull (strstr (text, "<seen value=\"no-spark-any\"/>"));
  g_assert_nonnull (strstr (text, "<reading value=\"volts switch.a switch.b @ "));
  g_assert_nonnull (strstr (text, " = 120 V\"/>"));
  window = hand_open (app, file, 1400, 900);
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  wait_open (window);
  g_assert_false (says (window, UNCONFIRMED));
  hand_picture (GTK_WIDGET (window), "window-suspects-again.png");
  expect_closed (window); /* nothing is asked: all of it is saved */
}

static int
count_buttons (GtkWidget *root, const char *label)
{
  int n = GTK_IS_BUTTON (root)
          && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (root)), label) == 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_buttons (child, label);
  return n;
}

/* A case of a time in which the book had a symptom more: what it has is weighed. */
static void
a_symptom_that_is_in_no_book_is_left_out (void)
{
  g_autofree char *folder = g_dir_make_tmp ("hob-suspects-XXXXXX", NULL);
  g_autofree char *file = g_build_filename (folder, "older.xml", NULL);
  g_autofree char *text
      = g_strdup_printf ("<case format=\"1\" range=\"%s\"><seen value=\"sings-in-the-rain\"/>"
                         "<seen value=\"no-spark-any\"/></case>\n",
                         one_burner);
  HobWindow *window;

  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  window = hand_open (app, file, 1400, 900);
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  wait_answer (window);
  g_assert_cmpint (count_buttons (GTK_WIDGET (hob_window_suspects (window)), "Remove"), ==, 1);
  hand_close (window);
  g_remove (file);
  g_rmdir (folder);
}

/* No live and no gas test, and nothing that was said before is lost. */
static void
an_apprentice_is_offered_no_live_test (void)
{
  HobWindow *window = open_one (1400, 900);
  HobSuspectColumn *column = hob_window_suspects (window);
  const HobSuspects *all;

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  hand_click_button (GTK_WIDGET (column), "Technician");
  hand_sleep (250);
  hand_key (GTK_WIDGET (window), XK_Down, 0);
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  wait_answer (window);
  all = hob_suspect_column_answer (column);
  g_assert_cmpuint (all->offers->len, >, 0);
  for (guint k = 0; k < all->offers->len; k++)
    g_assert_cmpint (((HobOffer *) all->offers->pdata[k])->means->danger, <, HOB_DANGER_LIVE);
  g_assert_true (says (window, "Apprentice"));
  hand_close (window);
}

/* What comes before any test is there before an answer is. */
static void
a_smell_of_gas_comes_before_any_test (void)
{
  HobWindow *window = open_one (1400, 900);

  pick (window, "Add Symptom…", "smell of gas at the range");
  g_assert_true (hob_caution_bar_hazards (hob_window_cautions (window))
                 & HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG));
  g_assert_true (says (window, "First make it safe."));
  wait_answer (window);
  g_assert_false (says (window, "Next Test"));
  hand_picture (GTK_WIDGET (window), "window-suspects-smell.png");
  hand_click_button (GTK_WIDGET (hob_window_suspects (window)), "Remove");
  hand_settle (GTK_WIDGET (window));
  g_assert_false (hob_caution_bar_hazards (hob_window_cautions (window))
                  & HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG));
  hand_close (window);
}

/* In the list that it is picked from, and as evidence. */
static void
what_a_symptom_takes_is_said_where_it_is_picked (void)
{
  HobWindow *window = open_one (1400, 900);
  const char *takes
      = "Flame lifts off the burner ports (bake burner: look with the oven bottom out)";

  pick (window, "Add Symptom…", "ports (bake burner: look with the oven bottom");
  WAIT_FOR (says (window, takes));
  hand_close (window);
}

/* A shipped range has so much to try that a hand is quicker. */
static void
a_search_is_cancelled (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1400, 900);
  HobSuspectColumn *column = hob_window_suspects (window);
  gint64 begun;

  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (column)));
  pick (window, "Add Symptom…", "igniter glow");
  g_assert_true (hob_suspect_column_busy (column));
  hand_click_button (GTK_WIDGET (window), "Run"); /* the range goes on meanwhile */
  WAIT_FOR (hob_session_ms (hob_window_session (window)) > 500);
  g_assert_true (hob_suspect_column_busy (column));
  hand_picture (GTK_WIDGET (window), "window-suspects-busy.png");
  begun = g_get_monotonic_time ();
  hand_click_button (GTK_WIDGET (column), "Cancel");
  WAIT_FOR (!hob_suspect_column_busy (column));
  g_assert_null (hob_suspect_column_answer (column));
  g_test_message ("cancelled after %.0f ms",
                  (double) (g_get_monotonic_time () - begun) / 1000);
  hand_close (window);
}

/* A search on a shipped range, well under way. */
static HobWindow *
open_busy (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1400, 900);
  HobSuspectColumn *column = hob_window_suspects (window);
  int symptom = hob_symptom_book_find (hob_session_book (hob_window_session (window)),
                                       "glow-no-flame");
  guint begun;

  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (column)));
  hob_suspect_column_add_symptom (column, symptom, -1);
  begun = hob_bench_begun ();
  WAIT_FOR (hob_bench_begun () > begun + 50);
  g_assert_true (hob_suspect_column_busy (column));
  return window;
}

/* No thread works on any longer. */
static void
expect_rest (void)
{
  guint begun;

  hand_sleep (100);
  begun = hob_bench_begun ();
  hand_sleep (200);
  g_assert_cmpuint (hob_bench_begun (), ==, begun);
}

/* No key is typed into what can't be seen. */
static void
a_hidden_column_gives_the_focus_back (void)
{
  HobWindow *window = open_one (1400, 900);
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window));

  pick (window, "Add Reading…", "volts switch");
  WAIT_FOR (hand_find (column, GTK_TYPE_ENTRY, NULL) != NULL);
  pick (window, "Pick Time…", "light");
  WAIT_FOR (gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (window)), column));
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (!gtk_widget_get_mapped (column));
  g_assert_true (gtk_window_get_focus (GTK_WINDOW (window))
                 == GTK_WIDGET (hob_window_sheet (window)));
  hand_close (window);
}

/* Nobody waits for what can't be seen; shown again, it is looked for again. */
static void
a_hidden_column_searches_no_more (void)
{
  HobWindow *window = open_busy ();
  HobSuspectColumn *column = hob_window_suspects (window);

  hand_click_button (GTK_WIDGET (column), "Hide");
  WAIT_FOR (!hob_suspect_column_busy (column));
  expect_rest ();
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (hob_suspect_column_busy (column));
  hand_close (window);
}

static void
another_range_ends_the_search (void)
{
  HobWindow *window = open_busy ();
  HobSession *session = hob_window_session (window);
  g_autoptr (HobRange) range = hob_range_load (one_burner, NULL, NULL);

  hob_session_open (session, range, NULL);
  hob_session_set_running (session, FALSE);
  g_assert_false (hob_suspect_column_busy (hob_window_suspects (window)));
  while (hob_session_look_ahead (session)) /* its own work */
    ;
  expect_rest ();
  hand_close (window);
}

static void
add_symptom (HobWindow *window, const char *id)
{
  const HobSymptomBook *book = hob_session_book (hob_window_session (window));

  hob_suspect_column_add_symptom (hob_window_suspects (window), hob_symptom_book_find (book, id),
                                  -1);
  wait_answer (window);
}

/* No fault of this range makes its flame small.  Where there is no test it is said why. */
static void
what_ends_the_tests_is_said (void)
{
  HobWindow *window = open_one (1400, 900);
  const HobSuspects *all;

  add_symptom (window, "flame-small");
  all = hob_suspect_column_answer (hob_window_suspects (window));
  g_assert_null (hob_suspects_next (all));
  g_assert_cmpint (all->verdict, ==, HOB_TEST_NOT_WORTH);
  g_assert_true (says (window, hob_suspects_end (all)));
  hand_close (window);
}

/* The button that shows the part of a suspect; NULL: @root has none. */
static GtkWidget *
show_button (GtkWidget *root, int part)
{
  GtkWidget *found = NULL;

  if (GTK_IS_BUTTON (root) && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (root)), "Show") == 0
      && GPOINTER_TO_INT (g_object_get_data (G_OBJECT (root), "part")) == part)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = show_button (child, part);
  return found;
}

/* The knob stands on no sheet.  It is shown where what it turns stands. */
static void
a_part_is_shown_where_it_moves_something (void)
{
  HobWindow *window = open_one (1400, 900);
  HobSession *session = hob_window_session (window);
  int knob = hob_range_part (hob_session_range (session), "knob");
  GtkWidget *show;

  add_symptom (window, "sparks-never-stop");
  show = show_button (GTK_WIDGET (hob_window_suspects (window)), knob);
  g_assert_nonnull (show);
  hand_key (GTK_WIDGET (window), XK_3, XK_Alt_L);
  WAIT_FOR (hob_sheet_view_sheet (hob_window_sheet (window)) == HOB_SHEET_CUTAWAY);
  g_signal_emit_by_name (show, "clicked");
  WAIT_FOR (hob_sheet_view_sheet (hob_window_sheet (window)) == HOB_SHEET_WIRING);
  g_assert_cmpint (hob_session_chosen_part (session), ==, knob);
  hand_close (window);
}

static int
n_rows (GtkWidget *list)
{
  int n = 0;

  while (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), n) != NULL)
    n++;
  return n;
}

/* What can be measured on one range is not offered on another one. */
static void
another_range_has_other_readings (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1400, 900);
  HobSession *session = hob_window_session (window);
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window)), *popover, *list;
  g_autoptr (HobRange) range = hob_range_load (one_burner, NULL, NULL);
  int n;

  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (gtk_widget_get_mapped (column));
  hand_click_button (column, "Add Reading…");
  WAIT_FOR (gtk_widget_get_ancestor (gtk_window_get_focus (GTK_WINDOW (window)), GTK_TYPE_POPOVER)
            != NULL);
  popover = gtk_widget_get_ancestor (gtk_window_get_focus (GTK_WINDOW (window)), GTK_TYPE_POPOVER);
  list = hand_find (popover, GTK_TYPE_LIST_BOX, NULL);
  n = n_rows (list);
  hand_sleep (250); /* the popover has come to rest */
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  WAIT_FOR (!gtk_widget_get_mapped (popover));
  hand_sleep (250); /* … and gone away */
  hob_session_open (session, range, NULL);
  hob_session_set_running (session, FALSE);
  hand_settle (GTK_WIDGET (window));
  hand_click_button (column, "Add Reading…");
  WAIT_FOR (gtk_widget_get_mapped (popover));
  g_assert_cmpint (n_rows (list), >, 0);
  g_assert_cmpint (n_rows (list), <, n);
  hand_sleep (250);
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  WAIT_FOR (!gtk_widget_get_mapped (popover));
  hand_close (window);
}

static void
closing_the_window_ends_the_search (void)
{
  HobWindow *window = open_busy ();

  hand_close (window);
  expect_rest ();
}

/* Two symptoms with all that can be asked about them are in view, and the list keeps its height. */
static void
symptoms_are_whole_with_their_buttons (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1400, 900);
  HobSession *session = hob_window_session (window);
  GtkWidget *symptoms = GTK_WIDGET (hob_window_symptoms (window));
  int height = gtk_widget_get_height (symptoms);

  hand_act (window, HOB_ACT_FAULT, "igniter-bake:aged", 0.5);
  hand_act (window, HOB_ACT_FAULT, "module:dead", 1);
  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 1);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 20);
  hob_session_go (session, 120000);
  WAIT_FOR (hob_symptom_list_size (hob_window_symptoms (window)) >= 2);
  hand_settle (GTK_WIDGET (window));
  hand_picture (GTK_WIDGET (window), "window-symptoms.png");
  for (int k = 0; k < 2; k++)
    {
      GtkWidget *list = hand_find (symptoms, GTK_TYPE_LIST_BOX, NULL);
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), k);
      graphene_rect_t box;

      g_assert_true (gtk_widget_compute_bounds (GTK_WIDGET (row), symptoms, &box));
      g_assert_cmpfloat (box.origin.y + box.size.height, <=, height);
      g_assert_cmpfloat (box.origin.x + box.size.width, <=, gtk_widget_get_width (symptoms));
    }
  g_assert_cmpint (gtk_widget_get_height (symptoms), ==, height);
  hand_close (window);
}

static guint
n_evidence (HobWindow *window)
{
  return (guint) count_buttons (GTK_WIDGET (hob_window_suspects (window)), "Remove");
}

/* Said twice it is evidence once; what the hand set of the house goes along. */
static void
what_is_said_twice_is_evidence_once (void)
{
  HobWindow *window = open_one (1400, 900);
  HobSuspectColumn *column = hob_window_suspects (window);
  int symptom = hob_symptom_book_find (hob_session_book (hob_window_session (window)),
                                       "no-spark-any");

  hand_act (window, HOB_ACT_SETTING, "house.humidity", 0.9);
  hob_suspect_column_add_symptom (column, symptom, -1);
  hob_suspect_column_add_symptom (column, symptom, -1);
  wait_answer (window);
  g_assert_cmpuint (n_evidence (window), ==, 1);
  hand_close (window);
}

static HobSeen
seen_first (GtkWidget *evidence)
{
  g_autoptr (GPtrArray) clues = hob_suspect_evidence_clues (HOB_SUSPECT_EVIDENCE (evidence));

  g_assert_cmpuint (clues->len, ==, 1);
  return ((const HobClue *) clues->pdata[0])->seen;
}

/* An answer is changed in its row. */
static void
what_was_seen_is_not_seen_after_all (void)
{
  HobWindow *window = open_one (1400, 900);
  GtkWidget *evidence;

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  evidence = hand_find (GTK_WIDGET (hob_window_suspects (window)), HOB_TYPE_SUSPECT_EVIDENCE, NULL);
  g_assert_cmpint (seen_first (evidence), ==, HOB_SEEN);
  hand_click_button (evidence, "Not Seen");
  WAIT_FOR (seen_first (evidence) == HOB_NOT_SEEN);
  wait_answer (window);
  hand_close (window);
}

/* Its button beside the next test is as good as a row that was picked … */
static void
the_next_look_is_answered_where_it_stands (void)
{
  HobWindow *window = open_one (1400, 900);
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window)), *answer;

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  answer = hand_find (column, HOB_TYPE_SUSPECT_ANSWER, NULL);
  for (guint n = 1; n < 4; n++)
    {
      const HobOffer *next
          = hob_suspects_next (hob_suspect_column_answer (hob_window_suspects (window)));

      g_assert_cmpuint (n_evidence (window), ==, n);
      g_assert_true (hob_test_is_seen (next->test));
      hand_click_button (answer, "Not Seen");
      WAIT_FOR (n_evidence (window) == n + 1);
      wait_answer (window);
    }
  hand_close (window);
}

/* … and so is its field. */
static void
the_next_test_is_answered_where_it_stands (void)
{
  HobWindow *window = open_one (1400, 900);
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window)), *answer, *typed, *entry;
  const HobOffer *next;
  const char *value;
  guint n;

  pick (window, "Add Symptom…", "no flame with");
  wait_answer (window);
  answer = hand_find (column, HOB_TYPE_SUSPECT_ANSWER, NULL);
  next = hob_suspects_next (hob_suspect_column_answer (hob_window_suspects (window)));
  g_assert_false (hob_test_is_seen (next->test));
  entry = hand_find (answer, GTK_TYPE_ENTRY, NULL);
  gtk_widget_grab_focus (entry);
  hand_type (GTK_WIDGET (window), "12 parsec");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  hand_settle (GTK_WIDGET (window));
  g_assert_cmpuint (n_evidence (window), ==, 1); /* what can't be read stays a field */
  hand_key (GTK_WIDGET (window), XK_a, XK_Control_L);
  value = next->test->what == HOB_TEST_VOLTS      ? "120 V"
          : next->test->what == HOB_TEST_AMPS     ? "0 A"
          : next->test->what == HOB_TEST_PRESSURE ? "0 inH2O"
                                                  : "OL";
  hand_type (GTK_WIDGET (window), value);
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  WAIT_FOR (n_evidence (window) == 2);
  wait_answer (window);
  hand_picture (GTK_WIDGET (window), "window-suspects-answered.png");

  /* Where it was spoiled in the list it is the next test again, and answered in its place. */
  typed = hand_find (hand_find (column, HOB_TYPE_SUSPECT_EVIDENCE, NULL), GTK_TYPE_ENTRY, NULL);
  n = n_evidence (window);
  gtk_widget_grab_focus (typed);
  hand_key (GTK_WIDGET (window), XK_a, XK_Control_L);
  hand_type (GTK_WIDGET (window), "12 parsec");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  WAIT_FOR (hob_suspect_column_answer (hob_window_suspects (window)) != NULL
            && hand_find (answer, GTK_TYPE_ENTRY, NULL) != NULL);
  hand_settle (GTK_WIDGET (window));
  gtk_widget_grab_focus (hand_find (answer, GTK_TYPE_ENTRY, NULL));
  hand_type (GTK_WIDGET (window), value);
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  WAIT_FOR (g_str_equal (gtk_editable_get_text (GTK_EDITABLE (typed)), value));
  g_assert_cmpuint (n_evidence (window), ==, n);
  hand_close (window);
}

/* A range of which nobody knows more than that its burner has no flame: the next look is a whole
 * run, which shows more than one sign. */
static HobWindow *
open_run (void)
{
  g_autofree char *file = g_strdup_printf ("%s/run-%u.xml", g_get_tmp_dir (), g_random_int ());
  g_autofree char *text
      = g_strdup_printf ("<case format=\"1\" range=\"%s\"><seen value=\"no-flame-top\"/>"
                         "<reading value=\"look burner @ 1s = not-seen\"/>"
                         "<reading value=\"look electrode @ 1s = not-seen\"/></case>\n",
                         one_burner);
  HobWindow *window;

  g_assert_true (g_file_set_contents (file, text, -1, NULL));
  window = hand_open (app, file, 1400, 900);
  g_remove (file);
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  wait_answer (window);
  g_assert_cmpuint (hob_suspect_column_answer (hob_window_suspects (window))->along, >, 1);
  return window;
}

/* As it is written in a case file; the next test is the first. (transfer full) */
static char *
asked (HobWindow *window, guint k)
{
  const HobSuspects *all = hob_suspect_column_answer (hob_window_suspects (window));
  const HobOffer *offer = k == 0 ? hob_suspects_next (all) : hob_suspects_sign (all, k - 1);

  return offer != NULL ? hob_test_text (hob_session_range (hob_window_session (window)),
                                        offer->test)
                       : NULL;
}

static gboolean
is_asked (HobWindow *window, const char *test)
{
  char *text;

  for (guint k = 0; (text = asked (window, k)) != NULL; k++)
    {
      gboolean found = g_str_equal (text, test);

      g_free (text);
      if (found)
        return TRUE;
    }
  return FALSE;
}

static void
find_choices (GtkWidget *root, GPtrArray *found)
{
  if (HOB_IS_SEEN_CHOICE (root))
    g_ptr_array_add (found, root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (!HOB_IS_SUSPECT_EVIDENCE (child))
      find_choices (child, found);
}

/* The one that says that the k-th of what is asked was not seen. */
static GtkWidget *
not_seen_button (HobWindow *window, guint k)
{
  g_autoptr (GPtrArray) choices = g_ptr_array_new ();

  find_choices (GTK_WIDGET (hob_window_suspects (window)), choices);
  g_assert_cmpuint (k, <, choices->len);
  return gtk_widget_get_last_child (choices->pdata[k]);
}

static gboolean
is_evidence (HobWindow *window, const char *test)
{
  HobRange *range = hob_session_range (hob_window_session (window));
  g_autoptr (HobCase) none = hob_case_new (range);
  g_autoptr (HobCaseFile) file = hob_case_file_new (range, none);
  g_autofree char *text = g_strdup_printf ("%s = not-seen", test);

  hob_suspect_column_save (hob_window_suspects (window), file);
  return g_ptr_array_find_with_equal_func (file->evidence[HOB_EVIDENCE_READING], text, g_str_equal,
                                           NULL);
}

/* Under the words that the command begins them with. */
static void
what_the_same_run_shows_is_answered_in_its_place (void)
{
  HobWindow *window = open_run ();
  const HobSuspects *all = hob_suspect_column_answer (hob_window_suspects (window));
  g_autofree char *sign = asked (window, 2);
  guint n = n_evidence (window);

  g_assert_true (says (window, hob_suspects_also (all)));
  for (guint k = 0; k <= all->along; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      g_autofree char *words
          = hob_test_words (hob_session_bench (hob_window_session (window)), offer->test);

      g_assert_true (says (window, words));
      g_assert_nonnull (gtk_widget_get_tooltip_text (not_seen_button (window, k)));
    }
  hand_picture (GTK_WIDGET (window), "window-suspects-run.png");
  hand_click_middle (not_seen_button (window, 2));
  WAIT_FOR (n_evidence (window) == n + 1);
  g_assert_true (is_evidence (window, sign));
  wait_answer (window);
  g_assert_false (is_asked (window, sign));
  hand_picture (GTK_WIDGET (window), "window-suspects-run-answered.png");
  hand_close (window);
}

/* What has an answer goes away with its buttons; the focus goes on to what is asked still. */
static void
keys_answer_one_sign_after_another (void)
{
  HobWindow *window = open_run ();

  gtk_widget_grab_focus (not_seen_button (window, 0));
  hand_key (GTK_WIDGET (window), XK_Tab, 0);
  for (guint k = 0; k < 2; k++)
    {
      g_autofree char *sign = asked (window, 1);
      guint n = n_evidence (window);

      g_assert_nonnull (sign);
      hand_key (GTK_WIDGET (window), XK_Tab, 0);
      hand_settle (GTK_WIDGET (window));
      g_assert_true (gtk_window_get_focus (GTK_WINDOW (window)) == not_seen_button (window, 1));
      hand_key (GTK_WIDGET (window), XK_Return, 0);
      WAIT_FOR (n_evidence (window) == n + 1);
      g_assert_true (is_evidence (window, sign));
      wait_answer (window);
      g_assert_true (
          gtk_widget_is_ancestor (gtk_window_get_focus (GTK_WINDOW (window)),
                                  gtk_widget_get_parent (not_seen_button (window, 1))));
    }
  hand_close (window);
}

/* Sooner than a button has its outline.  What the toolkit loses on the way, a sanitizer tells. */
static void
the_focus_goes_on_before_it_is_drawn (void)
{
  GtkWidget *window = gtk_window_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0),
            *choice = hob_seen_choice_new ("", NULL);

  gtk_box_append (GTK_BOX (box), choice);
  gtk_box_append (GTK_BOX (box), gtk_button_new_with_label (""));
  gtk_window_set_child (GTK_WINDOW (window), box);
  gtk_window_present (GTK_WINDOW (window));
  WAIT_FOR (gtk_widget_get_mapped (window));
  for (int k = 0; k < 30; k++)
    {
      GtkWidget *next = k % 2 ? gtk_widget_get_last_child (box)
                              : gtk_widget_get_first_child (choice);

      gtk_window_set_focus_visible (GTK_WINDOW (window), TRUE);
      gtk_widget_grab_focus (next);
      hand_sleep (70);
      g_assert_true (gtk_window_get_focus (GTK_WINDOW (window)) == next);
      g_assert_true (gtk_widget_get_state_flags (next) & GTK_STATE_FLAG_FOCUS_VISIBLE);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

/* In how many of many widths does a line end between a number and its unit? */
static int
n_torn (PangoLayout *layout)
{
  const char *text = pango_layout_get_text (layout);
  int n = 0;

  for (int width = 60; width < 400; width += 5)
    {
      pango_layout_set_width (layout, width * PANGO_SCALE);
      for (int k = 1; k < pango_layout_get_line_count (layout); k++)
        {
          int at = pango_layout_get_line_readonly (layout, k)->start_index;

          n += at > 1 && text[at - 1] == ' ' && g_ascii_isdigit (text[at - 2]);
        }
    }
  return n;
}

static void
a_number_keeps_its_unit (void)
{
  GtkWidget *label = g_object_ref_sink (hob_text_new (NULL, NULL));
  g_autoptr (PangoLayout) layout = NULL;

  hob_label_show (GTK_LABEL (label), "Left front knob: Light at 1 s. Watch until 61 s. The air is "
                                     "at 289 \302\260F, then at 310 \302\260F.");
  layout = pango_layout_copy (gtk_label_get_layout (GTK_LABEL (label)));
  g_assert_cmpint (n_torn (layout), ==, 0);
  pango_layout_set_attributes (layout, NULL); /* the widths are such that it could be torn */
  g_assert_cmpint (n_torn (layout), >, 0);
  g_object_unref (label);
}

/* However much is known already. */
static void
the_next_test_stays_in_view (void)
{
  HobWindow *window = open_one (900, 600);
  HobSuspectColumn *column = hob_window_suspects (window);
  const HobSymptomBook *book = hob_session_book (hob_window_session (window));
  static const char *const seen[] = { "no-spark-any", "no-flame-top", "flame-large", "sparks-slow",
                                      "sparks-never-stop", "yellow-flame", "flame-small" };

  for (gsize k = 0; k < G_N_ELEMENTS (seen); k++)
    hob_suspect_column_add_symptom (column, hob_symptom_book_find (book, seen[k]), -1);
  g_assert_cmpuint (n_evidence (window), ==, G_N_ELEMENTS (seen));
  wait_answer (window);
  g_assert_cmpuint (hob_suspect_column_answer (column)->stop, ==, 0);
  g_assert_true (is_in_view (window, "Next Test"));
  hand_click_button (GTK_WIDGET (column), "Remove");
  hand_close (window);
}

/* When it is known what to replace: what to read, how soon the burner lights, what to mind.  Which
 * part that is, and after which tests, is not this test's affair. */
static void
what_to_check_after_the_repair_is_said (void)
{
  HobWindow *window = open_one (1400, 900);
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window)), *answer;
  HobSuspectQuestion question = { 0 };
  HobSuspects *all;
  HobCheck *check = g_new0 (HobCheck, 1);

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  answer = hand_find (column, HOB_TYPE_SUSPECT_ANSWER, NULL);
  all = (HobSuspects *) hob_suspect_column_answer (hob_window_suspects (window));
  question.idle = hob_session_bench (hob_window_session (window));
  question.clues = g_ptr_array_new ();
  question.all = all;
  g_ptr_array_set_size (all->checks, 0);
  hob_suspect_answer_show (HOB_SUSPECT_ANSWER (answer), &question);
  g_assert_false (says (window, "Check After the Repair"));
  check->test = hob_test_parse (hob_session_range (hob_window_session (window)),
                                "look no-spark-any", NULL);
  g_ptr_array_add (all->checks, check);
  all->lights = hob_range_part (hob_session_range (hob_window_session (window)), "burner");
  all->lights_after = 0.4;
  all->by_knob = TRUE;
  hob_suspect_answer_show (HOB_SUSPECT_ANSWER (answer), &question);
  g_assert_true (says (window, "Check After the Repair"));
  g_assert_true (says (window, "Burner: should light within 1 s after you turn its knob to LIGHT. "
                               "Try it three times."));
  hob_suspect_answer_show (HOB_SUSPECT_ANSWER (answer), NULL);
  g_ptr_array_unref (question.clues);
  hand_close (window);
}

/* The first look that is asked for was seen: it is evidence as such. */
static void
what_is_to_be_looked_at_is_seen (void)
{
  HobWindow *window = open_one (1400, 900);
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window));
  g_autoptr (HobRange) range = hob_range_ref (hob_session_range (hob_window_session (window)));
  g_autoptr (HobCase) none = hob_case_new (range);
  g_autoptr (HobCaseFile) file = hob_case_file_new (range, none);
  const HobSuspects *all;

  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  all = hob_suspect_column_answer (hob_window_suspects (window));
  g_assert_true (hob_test_is_seen (hob_suspects_next (all)->test));
  hand_click_button (hand_find (column, HOB_TYPE_SUSPECT_ANSWER, NULL), "Seen");
  WAIT_FOR (n_evidence (window) == 2);
  wait_answer (window);
  hob_suspect_column_save (hob_window_suspects (window), file);
  g_assert_cmpuint (file->evidence[HOB_EVIDENCE_READING]->len, ==, 1); /* it has its moment */
  g_assert_true (
      g_str_has_suffix (file->evidence[HOB_EVIDENCE_READING]->pdata[0], " = seen"));
  hand_close (window);
}

/* Straight from the list of symptoms; a suspect shows its part. */
static void
what_shows_now_is_taken_over (void)
{
  HobWindow *window = hand_open (app, one_burner, 1400, 900);
  HobSession *session = hob_window_session (window);

  hand_act (window, HOB_ACT_FAULT, "module:dead", 1);
  hand_act (window, HOB_ACT_CONTROL, "knob", 20);
  hob_session_go (session, 10000);
  WAIT_FOR (hob_symptom_list_size (hob_window_symptoms (window)) > 0);
  hand_click_button (GTK_WIDGET (hob_window_symptoms (window)), "Add to Evidence");
  wait_answer (window);
  hand_click_button (GTK_WIDGET (hob_window_suspects (window)), "Show");
  g_assert_cmpint (hob_session_chosen_part (session), ==, first (window)->part);
  hand_picture (GTK_WIDGET (window), "window-suspects-now.png");
  hand_close (window);
}

static void
pictures_in_the_dark_and_small (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  int dpi;

  hob_style_choose (hob_app_style (app), HOB_STYLE_DARK);
  window = open_one (1400, 900);
  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  hand_picture (GTK_WIDGET (window), "window-suspects-dark.png");
  hob_style_choose (hob_app_style (app), HOB_STYLE_SYSTEM);
  hand_close (window);
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  window = open_one (900, 600);
  pick (window, "Add Symptom…", "no spark at any");
  wait_answer (window);
  hand_picture (GTK_WIDGET (window), "window-suspects-900.png");
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 900);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 600);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  hand_close (window);
}

static gboolean
is_open (HobWindow *window, const char *panel)
{
  g_autoptr (GVariant) state = g_action_group_get_action_state (G_ACTION_GROUP (window), panel);

  return g_variant_get_boolean (state);
}

/* Nobody wished it away. */
static void
a_front_that_gave_way_comes_back (void)
{
  HobWindow *window = open_one (1400, 900);

  g_assert_true (is_open (window, "suspects"));
  g_assert_false (is_open (window, "front"));
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (!is_open (window, "suspects"));
  g_assert_true (is_open (window, "front"));
  hand_close (window);
}

int
main (int argc, char **argv)
{
  int result;

  app = hand_app (&argc, &argv);
  one_burner = one_burner_file ();
  g_test_add_func ("/suspects/a-picked-symptom-is-answered", a_picked_symptom_is_answered);
  g_test_add_func ("/suspects/the-second-time-it-is-soon-answered",
                   the_second_time_it_is_soon_answered);
  g_test_add_func ("/suspects/what-was-read-is-typed-with-its-unit",
                   what_was_read_is_typed_with_its_unit);
  g_test_add_func ("/suspects/evidence-is-saved-with-the-case", evidence_is_saved_with_the_case);
  g_test_add_func ("/suspects/a-symptom-that-is-in-no-book-is-left-out",
                   a_symptom_that_is_in_no_book_is_left_out);
  g_test_add_func ("/suspects/an-apprentice-is-offered-no-live-test",
                   an_apprentice_is_offered_no_live_test);
  g_test_add_func ("/suspects/a-smell-of-gas-comes-before-any-test",
                   a_smell_of_gas_comes_before_any_test);
  g_test_add_func ("/suspects/what-a-symptom-takes-is-said-where-it-is-picked",
                   what_a_symptom_takes_is_said_where_it_is_picked);
  g_test_add_func ("/suspects/a-search-is-cancelled", a_search_is_cancelled);
  g_test_add_func ("/suspects/what-ends-the-tests-is-said", what_ends_the_tests_is_said);
  g_test_add_func ("/suspects/a-part-is-shown-where-it-moves-something",
                   a_part_is_shown_where_it_moves_something);
  g_test_add_func ("/suspects/a-hidden-column-searches-no-more", a_hidden_column_searches_no_more);
  g_test_add_func ("/suspects/a-hidden-column-gives-the-focus-back",
                   a_hidden_column_gives_the_focus_back);
  g_test_add_func ("/suspects/another-range-ends-the-search", another_range_ends_the_search);
  g_test_add_func ("/suspects/another-range-has-other-readings", another_range_has_other_readings);
  g_test_add_func ("/suspects/closing-the-window-ends-the-search",
                   closing_the_window_ends_the_search);
  g_test_add_func ("/suspects/symptoms-are-whole-with-their-buttons",
                   symptoms_are_whole_with_their_buttons);
  g_test_add_func ("/suspects/what-is-said-twice-is-evidence-once",
                   what_is_said_twice_is_evidence_once);
  g_test_add_func ("/suspects/what-was-seen-is-not-seen-after-all",
                   what_was_seen_is_not_seen_after_all);
  g_test_add_func ("/suspects/the-next-look-is-answered-where-it-stands",
                   the_next_look_is_answered_where_it_stands);
  g_test_add_func ("/suspects/the-next-test-is-answered-where-it-stands",
                   the_next_test_is_answered_where_it_stands);
  g_test_add_func ("/suspects/what-the-same-run-shows-is-answered-in-its-place",
                   what_the_same_run_shows_is_answered_in_its_place);
  g_test_add_func ("/suspects/keys-answer-one-sign-after-another",
                   keys_answer_one_sign_after_another);
  g_test_add_func ("/suspects/a-number-keeps-its-unit", a_number_keeps_its_unit);
  g_test_add_func ("/suspects/the-focus-goes-on-before-it-is-drawn",
                   the_focus_goes_on_before_it_is_drawn);
  g_test_add_func ("/suspects/the-next-test-stays-in-view", the_next_test_stays_in_view);
  g_test_add_func ("/suspects/what-to-check-after-the-repair-is-said",
                   what_to_check_after_the_repair_is_said);
  g_test_add_func ("/suspects/what-is-to-be-looked-at-is-seen", what_is_to_be_looked_at_is_seen);
  g_test_add_func ("/suspects/what-shows-now-is-taken-over", what_shows_now_is_taken_over);
  g_test_add_func ("/suspects/a-front-that-gave-way-comes-back",
                   a_front_that_gave_way_comes_back);
  g_test_add_func ("/suspects/pictures-in-the-dark-and-small", pictures_in_the_dark_and_small);
  result = g_test_run ();
  g_object_unref (app);
  g_remove (one_burner);
  g_free (one_burner);
  return result;
}
