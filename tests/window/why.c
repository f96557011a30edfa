/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Why a symptom was noticed, asked for and gone along by a real pointer and real keys. */

#include "hand.h"

#define AT_MS 120000

static HobApp *app; /* one for all tests of this program */

/* A weak igniter, the oven on, and two minutes gone by. */
static HobWindow *
open_weak (int w, int h)
{
  HobWindow *window = hand_open_weak (app, w, h, AT_MS);

  WAIT_FOR (hob_symptom_list_size (hob_window_symptoms (window)) > 0);
  return window;
}

static HobWhyBar *
ask (HobWindow *window)
{
  hand_click_button (GTK_WIDGET (hob_window_symptoms (window)), "Why?");
  WAIT_FOR (hob_window_why (window) != NULL);
  hand_settle (GTK_WIDGET (window));
  return hob_window_why (window);
}

/* px from the top of what is in view of a long line. */
static double
down_to (GtkWidget *scroller, HobWhyBar *bar, double x, double y)
{
  graphene_point_t at;

  g_assert_true (gtk_widget_compute_point (GTK_WIDGET (bar), scroller,
                                           &GRAPHENE_POINT_INIT ((float) x, (float) y), &at));
  return (double) at.y;
}

/* As a person does: what isn't in view is scrolled to. */
static void
click_entry (HobWhyBar *bar, int entry)
{
  GtkWidget *scroller = gtk_widget_get_ancestor (GTK_WIDGET (bar), GTK_TYPE_SCROLLED_WINDOW);
  int h = gtk_widget_get_height (scroller);
  double x, y;

  hob_why_bar_find (bar, entry, &x, &y);
  hand_move (scroller, 100, h / 2.0);
  for (int k = 0; k < 20 && down_to (scroller, bar, x, y) > h - 20; k++)
    {
      hand_button (scroller, 5, TRUE);
      hand_button (scroller, 5, FALSE);
      hand_sleep (50);
    }
  hand_click (GTK_WIDGET (bar), x, y);
}

/* ---- Cases ---- */

/* It begins at the faulty part and ends at the symptom; each click goes to its moment and part. */
static void
each_entry_goes_to_its_moment_and_part (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSession *session = hob_window_session (window);
  HobWhyBar *bar = ask (window);
  int n = hob_why_bar_size (bar), part;
  gint64 ms, before = 0;

  g_assert_cmpint (n, >=, 2);
  for (int k = 0; k < n; k++)
    {
      hob_why_bar_get (bar, k, &part, &ms);
      g_assert_cmpint (ms, >=, before);
      before = ms;
      click_entry (bar, k);
      WAIT_FOR (hob_session_ms (session) == ms);
      g_assert_cmpint (hob_session_chosen_part (session), ==, part);
    }
  hob_why_bar_get (bar, 0, &part, &ms);
  g_assert_cmpint (part, ==, hob_range_part (hob_session_range (session), "igniter-bake"));
  hob_why_bar_get (bar, n - 1, &part, &ms);
  g_assert_cmpint (part, ==, hob_range_part (hob_session_range (session), "burner-bake"));
  g_assert_cmpint (hob_sheet_view_sheet (hob_window_sheet (window)), ==, HOB_SHEET_GAS);
  hand_picture (GTK_WIDGET (window), "window-why.png");
  hand_close (window);
}

/* What it took to see it is said above the way to it. */
static void
its_title_says_what_the_symptom_takes (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1400, 900);
  HobSession *session = hob_window_session (window);

  hand_act (window, HOB_ACT_FAULT, "burner-bake:shutter-open", 1);
  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 1);
  hob_session_go (session, 50000);
  WAIT_FOR (hob_session_ms (session) == 50000 && !hob_session_busy (session)
            && hob_symptom_list_size (hob_window_symptoms (window)) > 0);
  (void) ask (window);
  WAIT_FOR (hand_find (GTK_WIDGET (window), GTK_TYPE_LABEL,
                       "Why: Flame lifts off the burner ports (look with the oven bottom out)"));
  hand_close (window);
}

/* Sheet, zoom, moment and choice are those of before. */
static void
escape_returns_to_where_one_was (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSession *session = hob_window_session (window);
  HobSheetView *sheet = hob_window_sheet (window);
  int chassis = hob_range_part (hob_session_range (session), "chassis"), n;
  HobWhyBar *bar;
  double zoom;

  hob_session_choose (session, chassis, -1);
  hand_click_button (GTK_WIDGET (window), "Zoom In");
  zoom = hob_sheet_view_zoom (sheet);
  bar = ask (window);
  n = hob_why_bar_size (bar);
  for (int k = 0; k < n; k++)
    hand_key (GTK_WIDGET (window), XK_Right, 0);
  WAIT_FOR (hob_session_ms (session) < AT_MS);
  g_assert_cmpint (hob_sheet_view_sheet (sheet), ==, HOB_SHEET_GAS);
  hand_key (GTK_WIDGET (window), XK_Tab, 0);
  hand_key (GTK_WIDGET (window), XK_Tab, XK_Shift_L);
  WAIT_FOR (gtk_widget_has_visible_focus (GTK_WIDGET (bar))); /* and its frame is drawn */
  hand_settle (GTK_WIDGET (window));
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  WAIT_FOR (hob_window_why (window) == NULL);
  hand_settle (GTK_WIDGET (window));
  g_assert_cmpint (hob_session_ms (session), ==, AT_MS);
  g_assert_cmpint (hob_session_chosen_part (session), ==, chassis);
  g_assert_cmpint (hob_sheet_view_sheet (sheet), ==, HOB_SHEET_WIRING);
  g_assert_cmpfloat (hob_sheet_view_zoom (sheet), ==, zoom);
  g_assert_false (hob_session_running (session));
  hand_close (window);
}

/* In the smallest window and with large text the first entry is in view with its figures. */
static void
a_small_window_shows_the_first_entry (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  HobWhyBar *bar;
  GtkWidget *scroller;
  double x, y;
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  window = open_weak (900, 600);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.details", NULL);
  hand_settle (GTK_WIDGET (window));
  bar = ask (window);
  hand_sleep (300);
  scroller = gtk_widget_get_ancestor (GTK_WIDGET (bar), GTK_TYPE_SCROLLED_WINDOW);
  hob_why_bar_find (bar, 0, &x, &y);
  g_assert_cmpfloat (down_to (scroller, bar, x, y) + 4 * 13 * 1.5, <=,
                     gtk_widget_get_height (scroller)); /* four lines below it */
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 600);
  hand_picture (GTK_WIDGET (window), "window-why-small.png");
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  WAIT_FOR (hob_window_why (window) == NULL);
  WAIT_FOR (gtk_widget_get_mapped (GTK_WIDGET (hob_window_chart (window))));
  hand_close (window);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* It is the line of what was done: with other acts it goes away, and one stays. */
static void
another_act_takes_the_line_away (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSession *session = hob_window_session (window);

  ask (window);
  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 0);
  g_assert_null (hob_window_why (window));
  g_assert_cmpint (hob_session_ms (session), ==, AT_MS);
  hand_close (window);
}

/* A window that is closed before the cause is found waits for nothing. */
static void
closing_forgets_the_search (void)
{
  HobWindow *window = open_weak (1400, 900);

  hand_click_button (GTK_WIDGET (hob_window_symptoms (window)), "Why?");
  hand_close (window);
}

static void
pictures_in_the_dark_and_small (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  int dpi, height;

  hob_style_choose (hob_app_style (app), HOB_STYLE_DARK);
  window = open_weak (1400, 900);
  ask (window);
  hand_picture (GTK_WIDGET (window), "window-why-dark.png");
  hob_style_choose (hob_app_style (app), HOB_STYLE_SYSTEM);
  hand_close (window);
  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  window = open_weak (900, 600);
  hand_key (GTK_WIDGET (window), XK_F9, 0);
  height = gtk_widget_get_height (GTK_WIDGET (window));
  ask (window);
  hand_picture (GTK_WIDGET (window), "window-why-900.png");
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, height);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 900);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  hand_close (window);
}

int
main (int argc, char **argv)
{
  int result;

  app = hand_app (&argc, &argv);
  g_test_add_func ("/why/each-entry-goes-to-its-moment-and-part",
                   each_entry_goes_to_its_moment_and_part);
  g_test_add_func ("/why/its-title-says-what-the-symptom-takes",
                   its_title_says_what_the_symptom_takes);
  g_test_add_func ("/why/escape-returns-to-where-one-was", escape_returns_to_where_one_was);
  g_test_add_func ("/why/another-act-takes-the-line-away", another_act_takes_the_line_away);
  g_test_add_func ("/why/closing-forgets-the-search", closing_forgets_the_search);
  g_test_add_func ("/why/a-small-window-shows-the-first-entry",
                   a_small_window_shows_the_first_entry);
  g_test_add_func ("/why/pictures-in-the-dark-and-small", pictures_in_the_dark_and_small);
  result = g_test_run ();
  g_object_unref (app);
  return result;
}
