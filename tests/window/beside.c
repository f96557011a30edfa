/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A suspect tried beside the range, by a real pointer and real keys. */

#include "hand.h"
#include "one-burner.h"

#include "window/suspect-column.h"
#include <glib/gstdio.h>
#include <string.h>

#define AT_MS 10000

static HobApp *app; /* one for all tests of this program */
static char *one_burner; /* its file, owned */

/* ---- Where one is ---- */

typedef struct
{
  gint64 ms;
  gboolean running, front, details, suspects;
  int part;
  HobSheet sheet;
  double zoom, scrolled;
  guint acts;
  guint64 serial; /* of the acts: another one after any change */
  guint64 hash;   /* of the state */
  GtkWidget *focus;
} Here;

static gboolean
is_open (HobWindow *window, const char *panel)
{
  g_autoptr (GVariant) state = g_action_group_get_action_state (G_ACTION_GROUP (window), panel);

  return g_variant_get_boolean (state);
}

static GtkAdjustment *
page_of (HobWindow *window)
{
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window));

  return gtk_scrolled_window_get_vadjustment (
      GTK_SCROLLED_WINDOW (hand_find (column, GTK_TYPE_SCROLLED_WINDOW, NULL)));
}

static Here
here (HobWindow *window)
{
  HobSession *session = hob_window_session (window);
  const HobCase *acts = hob_run_case (hob_session_bench (session)->run);

  return (Here){ .ms = hob_session_ms (session),
                 .running = hob_session_running (session),
                 .front = is_open (window, "front"),
                 .details = is_open (window, "details"),
                 .suspects = is_open (window, "suspects"),
                 .part = hob_session_chosen_part (session),
                 .sheet = hob_sheet_view_sheet (hob_window_sheet (window)),
                 .zoom = hob_sheet_view_zoom (hob_window_sheet (window)),
                 .scrolled = gtk_adjustment_get_value (page_of (window)),
                 .acts = acts->acts->len,
                 .serial = acts->serial,
                 .hash = hob_moment_hash (hob_session_moment (session)),
                 .focus = gtk_window_get_focus (GTK_WINDOW (window)) };
}

static void
expect_same (const Here *a, const Here *b)
{
  g_assert_cmpint (a->ms, ==, b->ms);
  g_assert_cmpint (a->running, ==, b->running);
  g_assert_cmpint (a->front, ==, b->front);
  g_assert_cmpint (a->details, ==, b->details);
  g_assert_cmpint (a->suspects, ==, b->suspects);
  g_assert_cmpint (a->part, ==, b->part);
  g_assert_cmpint (a->sheet, ==, b->sheet);
  g_assert_cmpfloat (a->zoom, ==, b->zoom);
  g_assert_cmpfloat (a->scrolled, ==, b->scrolled);
  g_assert_cmpuint (a->acts, ==, b->acts);
  g_assert_cmpuint (a->serial, ==, b->serial);
  g_assert_cmpuint (a->hash, ==, b->hash);
  g_assert_true (a->focus == b->focus);
}

/* ---- What a hand does ---- */

/* The knob at LIGHT, ten seconds gone by, and a symptom that was seen and is answered. */
static HobWindow *
open_asked (int w, int h)
{
  HobWindow *window = hand_open (app, one_burner, w, h);
  HobSession *session = hob_window_session (window);
  HobSuspectColumn *column = hob_window_suspects (window);
  int symptom = hob_symptom_book_find (hob_session_book (session), "no-spark-any");

  hand_act (window, HOB_ACT_CONTROL, "knob", 20);
  hob_session_go (session, AT_MS);
  WAIT_FOR (hob_session_ms (session) == AT_MS);
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (column)));
  hob_suspect_column_add_symptom (column, symptom, -1);
  WAIT_FOR (hob_suspect_column_answer (column) != NULL);
  hand_settle (GTK_WIDGET (window));
  return window;
}

/* A little, so that there is a place to come back to. */
static void
scroll (HobWindow *window)
{
  GtkWidget *column = GTK_WIDGET (hob_window_suspects (window));

  hand_move (column, gtk_widget_get_width (column) / 2.0, gtk_widget_get_height (column) / 2.0);
  hand_button (column, 5, TRUE);
  hand_button (column, 5, FALSE);
  WAIT_FOR (gtk_adjustment_get_value (page_of (window)) > 0);
  hand_sleep (300); /* it has come to rest */
}

static gboolean
is_in_step (HobWindow *window)
{
  return hob_session_ms (hob_window_beside_session (window))
         == hob_session_ms (hob_window_session (window));
}

static void
try_first (HobWindow *window)
{
  hand_click_button (GTK_WIDGET (hob_window_suspects (window)), "Simulate It");
  WAIT_FOR (hob_window_beside (window) != NULL && is_in_step (window));
  hand_settle (GTK_WIDGET (window));
}

static const HobSuspectStep *
step_of (HobWindow *window, gboolean differs)
{
  HobSuspectSteps *steps = hob_suspect_column_steps (hob_window_suspects (window));
  const GArray *list = hob_suspect_steps_list (steps);

  for (guint k = 0; k < list->len; k++)
    if (g_array_index (list, HobSuspectStep, k).differs == differs)
      return &g_array_index (list, HobSuspectStep, k);
  return NULL;
}

/* ---- Cases ---- */

/* The same acts at the same moment, and the fault; and nothing of that in the range itself. */
static void
a_suspect_is_tried_beside_the_range (void)
{
  HobWindow *window = open_asked (1600, 900);
  HobSession *first = hob_window_session (window), *with;
  const HobSuspect *suspect
      = hob_suspect_column_answer (hob_window_suspects (window))->suspects->pdata[0];
  int symptom = hob_symptom_book_find (hob_session_book (first), "no-spark-any");
  const HobCase *acts;

  try_first (window);
  with = hob_window_beside_session (window);
  acts = hob_run_case (hob_session_bench (with)->run);
  g_assert_cmpuint (acts->acts->len, ==,
                    hob_run_case (hob_session_bench (first)->run)->acts->len + 1);
  g_assert_false (isnan (hob_moment_fault (hob_session_moment (with), suspect->part,
                                           suspect->fault)));
  g_assert_true (isnan (hob_moment_fault (hob_session_moment (first), suspect->part,
                                          suspect->fault)));
  g_assert_true (hob_bench_noticed (hob_session_bench (with), symptom, -1, AT_MS / 1000.0));
  g_assert_false (hob_bench_noticed (hob_session_bench (first), symptom, -1, AT_MS / 1000.0));
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (hob_window_sheet (window))));
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (hob_window_beside (window))));
  g_assert_nonnull (step_of (window, TRUE));
  hand_picture (GTK_WIDGET (window), "window-beside.png");
  hand_close (window);
}

static void
expect_return (void (*back) (HobWindow *window))
{
  HobWindow *window = open_asked (1280, 800);
  Here before, after;

  scroll (window);
  before = here (window);
  try_first (window);
  hand_click_button (GTK_WIDGET (window), "Gas");
  hand_click_button (GTK_WIDGET (window), "Run");
  WAIT_FOR (hob_session_ms (hob_window_session (window)) > AT_MS + 500);
  g_assert_true (is_in_step (window));
  hand_click_button (GTK_WIDGET (window), "Pause");
  back (window);
  WAIT_FOR (hob_window_beside (window) == NULL);
  hand_settle (GTK_WIDGET (window));
  after = here (window);
  expect_same (&before, &after);
  g_assert_null (hob_suspect_column_steps (hob_window_suspects (window)));
  hand_close (window);
}

static void
press_escape (HobWindow *window)
{
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
}

static void
click_back (HobWindow *window)
{
  hand_click_button (GTK_WIDGET (window), "Go Back");
}

/* The moment, the acts, the state, the sheet, its zoom, the panels and the focus are as before. */
static void
escape_returns_to_where_one_was (void)
{
  expect_return (press_escape);
}

static void
a_button_returns_too (void)
{
  expect_return (click_back);
}

/* Runs, is held, goes back to a step and forward to the end: both always show the same moment. */
static void
both_are_always_at_the_same_moment (void)
{
  HobWindow *window = open_asked (1600, 900);
  HobSession *first = hob_window_session (window);
  HobSuspectColumn *column = hob_window_suspects (window);
  const HobSuspectStep *step;
  gint64 ms;

  try_first (window);
  hand_click_button (GTK_WIDGET (window), "Run");
  for (int k = 0; k < 20; k++)
    {
      hand_sleep (50);
      g_assert_true (is_in_step (window));
    }
  hand_click_button (GTK_WIDGET (window), "Pause");
  step = step_of (window, TRUE);
  ms = step->ms;
  hand_click_middle (hand_find (GTK_WIDGET (hob_suspect_column_steps (column)), GTK_TYPE_LABEL,
                                step->words));
  WAIT_FOR (hob_session_ms (first) == ms);
  WAIT_FOR (is_in_step (window));
  hob_session_go (first, hob_session_reached_ms (first));
  WAIT_FOR (hob_session_ms (first) == hob_session_reached_ms (first));
  WAIT_FOR (is_in_step (window));
  hand_close (window);
}

/* What is done while it is there is done to both, and stays when it is closed. */
static void
an_act_is_done_to_both (void)
{
  HobWindow *window = open_asked (1600, 900);
  HobSession *first = hob_window_session (window), *with;
  const GArray *acts;
  const HobAct *last;

  try_first (window);
  with = hob_window_beside_session (window);
  hob_session_go (first, AT_MS + 2000);
  WAIT_FOR (hob_session_ms (first) == AT_MS + 2000 && is_in_step (window));
  hand_act (window, HOB_ACT_CONTROL, "knob", 0);
  WAIT_FOR (is_in_step (window));
  acts = hob_run_case (hob_session_bench (with)->run)->acts;
  last = &g_array_index (acts, HobAct, acts->len - 1);
  g_assert_cmpint (last->what, ==, HOB_ACT_CONTROL);
  g_assert_cmpint (last->ms, ==, hob_session_ms (first));
  g_assert_cmpfloat (last->value, ==, 0);
  press_escape (window);
  WAIT_FOR (hob_window_beside (window) == NULL);
  g_assert_cmpint (hob_session_ms (first), ==, AT_MS + 2000);
  g_assert_cmpuint (hob_run_case (hob_session_bench (first)->run)->acts->len, ==, 2);
  hand_close (window);
}

/* A fault of a part that another range may not have. */
static void
another_range_takes_it_away (void)
{
  HobWindow *window = open_asked (1600, 900);
  HobSession *session = hob_window_session (window);
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);

  try_first (window);
  hob_session_open (session, range, NULL);
  hob_session_set_running (session, FALSE);
  g_assert_null (hob_window_beside (window));
  g_assert_null (hob_suspect_column_steps (hob_window_suspects (window)));
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (hob_window_chart (window))));
  hand_settle (GTK_WIDGET (window));
  hand_close (window);
}

/* A suspect of a shipped range, whose faults take long to be tried. */
static void
try_at_once (HobWindow *window, const char *part, const char *fault, double severity)
{
  int p = hand_part (window, part);
  const HobKind *kind = hob_session_range (hob_window_session (window))->parts[p].kind;
  HobSuspect suspect = { .what = HOB_SUSPECT_FAULT, .part = p, .part2 = -1, .fault2 = -1,
                         .severity = { severity, severity, severity } };
  gint64 begun;

  for (int f = 0; f < kind->n_faults; f++)
    if (g_str_equal (kind->faults[f].id, fault))
      suspect.fault = f;
  begun = g_get_monotonic_time ();
  g_signal_emit_by_name (hob_window_suspects (window), "tried", &suspect);
  g_test_message ("opened in %.1f ms", (double) (g_get_monotonic_time () - begun) / 1000);
  g_assert_nonnull (hob_window_beside (window));
}

#define FAR_MS 7200000

/* What has to be computed is computed a little a frame, and the first range waits for it. */
static void
nothing_waits_for_a_long_run (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1600, 900);
  HobSession *session = hob_window_session (window), *with;
  gint64 begun, longest = 0;
  guint turns = 0;

  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 1);
  hob_session_go (session, FAR_MS);
  WAIT_FOR (hob_session_ms (session) == FAR_MS);
  try_at_once (window, "igniter-bake", "aged", 0.1);
  with = hob_window_beside_session (window);
  g_assert_cmpint (hob_session_ms (with), <, FAR_MS);
  hob_session_set_running (session, TRUE);
  while (hob_session_ms (with) < FAR_MS)
    {
      g_assert_cmpint (hob_session_ms (session), ==, FAR_MS);
      begun = g_get_monotonic_time ();
      g_main_context_iteration (NULL, TRUE);
      longest = MAX (longest, g_get_monotonic_time () - begun);
      turns++;
    }
  g_test_message ("%u turns of the main loop, the longest %.1f ms", turns,
                  (double) longest / 1000);
  g_assert_cmpuint (turns, >, 10);
  WAIT_FOR (hob_session_ms (session) > FAR_MS);
  g_assert_true (is_in_step (window));
  hand_close (window);
}

/* ---- Pictures ---- */

static void
take_picture (int w, int h, const char *name)
{
  HobWindow *window = hand_open (app, "dial-four", w, h);
  HobSession *session = hob_window_session (window);

  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 1);
  hob_session_go (session, 120000);
  WAIT_FOR (hob_session_ms (session) == 120000);
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (hob_window_suspects (window))));
  try_at_once (window, "igniter-bake", "aged", 0.5);
  WAIT_FOR (is_in_step (window));
  hand_sleep (300);
  hand_picture (GTK_WIDGET (window), name);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, w);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, h);
  press_escape (window);
  WAIT_FOR (hob_window_beside (window) == NULL);
  hand_close (window);
}

static void
pictures_in_the_dark_and_small (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;

  take_picture (1560, 940, "window-beside-1560.png");
  take_picture (1280, 800, "window-beside-1280.png");
  hob_style_choose (hob_app_style (app), HOB_STYLE_DARK);
  take_picture (1280, 800, "window-beside-dark.png");
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  take_picture (900, 600, "window-beside-900-dark.png");
  hob_style_choose (hob_app_style (app), HOB_STYLE_SYSTEM);
  take_picture (900, 600, "window-beside-900.png");
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* What ran goes on where it was left. */
static void
a_run_goes_on_after_it (void)
{
  HobWindow *window = open_asked (1560, 940);
  HobSession *session = hob_window_session (window);

  hob_session_set_running (session, TRUE);
  hand_sleep (200);
  try_first (window);
  g_assert_false (hob_session_running (session));
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  WAIT_FOR (hob_window_beside (window) == NULL);
  g_assert_true (hob_session_running (session));
  hand_close (window);
}

/* The strip of the range that has the fault. */
static GtkWidget *
second_strip (HobWindow *window, GtkWidget *root)
{
  if (HOB_IS_SEQUENCE_BAR (root) && root != GTK_WIDGET (hob_window_sequence (window)))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = second_strip (window, child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* A step of the second range that is clicked is gone to by both. */
static void
a_step_of_the_second_takes_both_there (void)
{
  HobWindow *window = open_asked (1560, 940);
  HobSession *first = hob_window_session (window);
  HobSequenceBar *strip;
  double x, y;

  try_first (window);
  strip = HOB_SEQUENCE_BAR (second_strip (window, GTK_WIDGET (window)));
  WAIT_FOR (hob_sequence_bar_entries (strip)->len > 0);
  g_assert_true (hob_sequence_bar_find (strip, 0, &x, &y));
  hand_click (GTK_WIDGET (strip), x, y);
  WAIT_FOR (hob_session_ms (first) < AT_MS && is_in_step (window));
  g_assert_false (hob_session_running (first));
  hand_close (window);
}

/* Mean of the green of a picture, 0 to 255. */
static double
brightness (GtkWidget *widget)
{
  g_autoptr (GdkTexture) texture = hand_texture (widget);
  gsize n = (gsize) gdk_texture_get_width (texture) * (gsize) gdk_texture_get_height (texture);
  g_autofree guint32 *pixels = g_new (guint32, n);
  double sum = 0;

  gdk_texture_download (texture, (guchar *) pixels, 4 * (gsize) gdk_texture_get_width (texture));
  for (gsize k = 0; k < n; k++)
    sum += (pixels[k] >> 8) & 0xff;
  return sum / (double) n;
}

/* A darker desktop darkens both sheets. */
static void
both_have_the_same_look (void)
{
  HobWindow *window = open_asked (1560, 940);
  GtkWidget *sheets[] = { GTK_WIDGET (hob_window_sheet (window)), NULL };
  double light[2];

  try_first (window);
  sheets[1] = GTK_WIDGET (hob_window_beside (window));
  for (int k = 0; k < 2; k++)
    light[k] = brightness (sheets[k]);
  hob_style_choose (hob_app_style (app), HOB_STYLE_DARK);
  hand_settle (GTK_WIDGET (window));
  for (int k = 0; k < 2; k++)
    {
      g_assert_cmpfloat (light[k], >, 180);
      g_assert_cmpfloat (brightness (sheets[k]), <, 90);
    }
  hob_style_choose (hob_app_style (app), HOB_STYLE_SYSTEM);
  hand_close (window);
}

int
main (int argc, char **argv)
{
  int result;

  app = hand_app (&argc, &argv);
  one_burner = one_burner_file ();
  g_test_add_func ("/beside/a-suspect-is-tried-beside-the-range",
                   a_suspect_is_tried_beside_the_range);
  g_test_add_func ("/beside/escape-returns-to-where-one-was", escape_returns_to_where_one_was);
  g_test_add_func ("/beside/a-button-returns-too", a_button_returns_too);
  g_test_add_func ("/beside/both-are-always-at-the-same-moment",
                   both_are_always_at_the_same_moment);
  g_test_add_func ("/beside/an-act-is-done-to-both", an_act_is_done_to_both);
  g_test_add_func ("/beside/another-range-takes-it-away", another_range_takes_it_away);
  g_test_add_func ("/beside/nothing-waits-for-a-long-run", nothing_waits_for_a_long_run);
  g_test_add_func ("/beside/a-run-goes-on-after-it", a_run_goes_on_after_it);
  g_test_add_func ("/beside/a-step-of-the-second-takes-both-there",
                   a_step_of_the_second_takes_both_there);
  g_test_add_func ("/beside/both-have-the-same-look", both_have_the_same_look);
  g_test_add_func ("/beside/pictures-in-the-dark-and-small", pictures_in_the_dark_and_small);
  result = g_test_run ();
  g_object_unref (app);
  g_remove (one_burner);
  g_free (one_burner);
  return result;
}
