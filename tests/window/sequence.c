/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The sequence line over the sheet, clicked by a real pointer. */

#include "hand.h"

#include "run/sequence.h"
#include <math.h>

#define IDLE_MS 400 /* longer than the line waits until it reads again */

static HobApp *app; /* one for all tests of this program */

/* A weak igniter from the start, bake, and five minutes gone by. */
static HobWindow *
open_weak (int w, int h)
{
  HobWindow *window = hand_open_weak (app, w, h, 300000);

  hand_sleep (IDLE_MS);
  return window;
}

/* The first entry in that state; fails if there is none. */
static int
entry_in (HobWindow *window, HobSequenceState state)
{
  const GArray *entries = hob_sequence_bar_entries (hob_window_sequence (window));

  for (guint k = 0; k < entries->len; k++)
    if (g_array_index (entries, HobSequenceEntry, k).state == state)
      return (int) k;
  g_assert_not_reached ();
}

static void
click_entry (HobWindow *window, int entry)
{
  HobSequenceBar *bar = hob_window_sequence (window);
  double x, y;

  g_assert_true (hob_sequence_bar_find (bar, entry, &x, &y));
  hand_click (GTK_WIDGET (bar), x, y);
}

static void
what_is_not_done_is_ringed_and_clicked (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSession *session = hob_window_session (window);
  int entry = entry_in (window, HOB_SEQUENCE_UNMET);
  HobSequenceEntry e = g_array_index (hob_sequence_bar_entries (hob_window_sequence (window)),
                                      HobSequenceEntry, (guint) entry);

  g_assert_cmpint (e.part, ==, hand_part (window, "valve-bake"));
  hand_picture (GTK_WIDGET (window), "window-sequence.png");
  click_entry (window, entry);
  WAIT_FOR (hob_session_ms (session) == (gint64) ceil (e.due * 1000));
  g_assert_cmpint (hob_session_chosen_part (session), ==, e.part);
  g_assert_false (hob_session_running (session));
  hand_close (window);
}

/* The line is the same over each; what is on another sheet brings that sheet. */
static void
a_click_shows_the_sheet_with_the_part (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1400, 900);
  HobSession *session = hob_window_session (window);
  HobSequenceBar *bar = hob_window_sequence (window);
  int flame = -1;

  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 1);
  hob_session_go (session, 120000);
  WAIT_FOR (hob_session_ms (session) == 120000 && !hob_session_busy (session));
  hand_sleep (IDLE_MS);
  g_assert_cmpint (hob_sheet_view_sheet (hob_window_sheet (window)), ==, HOB_SHEET_WIRING);
  for (guint k = 0; k < hob_sequence_bar_entries (bar)->len; k++)
    {
      const HobSequenceEntry *e
          = &g_array_index (hob_sequence_bar_entries (bar), HobSequenceEntry, k);

      g_assert_false (hob_sequence_is_ringed (e));
      if (e->part == hand_part (window, "burner-bake") && e->state == HOB_SEQUENCE_MET)
        flame = (int) k;
    }
  g_assert_cmpint (flame, >=, 0);
  click_entry (window, flame);
  WAIT_FOR (hob_session_chosen_part (session) == hand_part (window, "burner-bake"));
  g_assert_cmpint (hob_sheet_view_sheet (hob_window_sheet (window)), ==, HOB_SHEET_GAS);
  g_assert_cmpint (hob_session_ms (session), <, 120000);
  hand_close (window);
}

/* What comes next is known though the run has not come there, and arrow keys go there. */
static void
keys_go_along_the_line (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSession *session = hob_window_session (window);
  HobSequenceBar *bar = hob_window_sequence (window);
  HobSequenceEntry next, first;

  WAIT_FOR (!hob_session_look_ahead (session));
  hand_sleep (IDLE_MS);
  next = g_array_index (hob_sequence_bar_entries (bar), HobSequenceEntry,
                        (guint) entry_in (window, HOB_SEQUENCE_NEXT));
  first = g_array_index (hob_sequence_bar_entries (bar), HobSequenceEntry,
                         (guint) entry_in (window, HOB_SEQUENCE_UNMET));
  g_assert_cmpfloat (next.due, >, 300);
  gtk_widget_grab_focus (GTK_WIDGET (bar));
  hand_key (GTK_WIDGET (window), XK_Right, 0);
  WAIT_FOR (hob_session_ms (session) == (gint64) ceil (next.due * 1000));
  g_assert_cmpint (hob_session_chosen_part (session), ==, next.part);
  hand_sleep (IDLE_MS);
  while (hob_session_ms (session) > (gint64) ceil (first.due * 1000))
    {
      gint64 before = hob_session_ms (session);

      hand_key (GTK_WIDGET (window), XK_Left, 0);
      WAIT_FOR (hob_session_ms (session) < before);
      hand_sleep (IDLE_MS);
    }
  g_assert_cmpint (hob_session_ms (session), ==, (gint64) ceil (first.due * 1000));
  hand_close (window);
}

/* What the line shows is what a fresh reading of the same moment says. */
static void
the_line_follows_what_is_done (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSession *session = hob_window_session (window);

  entry_in (window, HOB_SEQUENCE_UNMET);
  hob_session_undo (session); /* the oven was never turned on … */
  hand_sleep (IDLE_MS);
  for (guint k = 0; k < hob_sequence_bar_entries (hob_window_sequence (window))->len; k++)
    g_assert_false (hob_sequence_is_ringed (&g_array_index (
        hob_sequence_bar_entries (hob_window_sequence (window)), HobSequenceEntry, k)));
  hob_session_redo (session); /* … and it was */
  WAIT_FOR (!hob_session_busy (session));
  hand_sleep (IDLE_MS);
  entry_in (window, HOB_SEQUENCE_UNMET);
  hand_close (window);
}

/* What is ringed, what was done last and what comes next have room at every size; the line keeps
 * its height. */
static void
small_and_large_text_keep_what_is_ringed (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  GtkWidget *bar;
  double x, y;
  int dpi, height;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  window = open_weak (900, 600);
  bar = GTK_WIDGET (hob_window_sequence (window));
  height = gtk_widget_get_height (bar);
  hand_picture (GTK_WIDGET (window), "window-sequence-900.png");
  g_assert_true (hob_sequence_bar_find (hob_window_sequence (window),
                                        entry_in (window, HOB_SEQUENCE_UNMET), &x, &y));
  g_assert_cmpfloat (x, <, gtk_widget_get_width (bar));
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 600);
  hob_session_go (hob_window_session (window), 0);
  hand_sleep (IDLE_MS);
  g_assert_cmpint (gtk_widget_get_height (bar), ==, height);
  hand_close (window);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* On hold, once it is known what a normal range does next, there is nothing to read again. */
static void
on_hold_nothing_is_read_again (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSequenceBar *bar = hob_window_sequence (window);
  g_autoptr (GArray) read = NULL; /* kept, so that its place is not given to another one */

  WAIT_FOR (!hob_session_look_ahead (hob_window_session (window)));
  hand_sleep (IDLE_MS);
  read = g_array_ref ((GArray *) hob_sequence_bar_entries (bar));
  hand_sleep (5 * IDLE_MS);
  g_assert_true (hob_sequence_bar_entries (bar) == read);
  hand_close (window);
}

static void
expect_no_entries (HobSession *session, HobWindow *window)
{
  g_assert_null (hob_sequence_bar_entries (hob_window_sequence (window)));
}

/* However soon it is looked at: parts and modes of the range before are none of this one. */
static void
another_range_has_its_own_line (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSession *session = hob_window_session (window);
  g_autofree char *file = hob_range_locate ("round-dial");
  g_autoptr (HobOpening) other = hob_opening_new (file);

  g_signal_connect (session, "opened", G_CALLBACK (expect_no_entries), window);
  hob_session_open (session, other->range, NULL);
  g_assert_nonnull (hob_sequence_bar_entries (hob_window_sequence (window)));
  hand_close (window);
}

static gboolean
has_tip (HobSequenceBar *bar, double x, double y)
{
  g_autoptr (GtkTooltip) tip = g_object_new (GTK_TYPE_TOOLTIP, NULL);
  gboolean shown;

  g_signal_emit_by_name (bar, "query-tooltip", (int) x, (int) y, FALSE, tip, &shown);
  return shown;
}

/* What a click goes to is said where the pointer is on an entry, and nothing beside it. */
static void
an_entry_says_where_it_goes (void)
{
  HobWindow *window = open_weak (1400, 900);
  HobSequenceBar *bar = hob_window_sequence (window);
  double x, y;

  g_assert_true (hob_sequence_bar_find (bar, entry_in (window, HOB_SEQUENCE_UNMET), &x, &y));
  g_assert_true (has_tip (bar, x, y));
  g_assert_false (has_tip (bar, gtk_widget_get_width (GTK_WIDGET (bar)) - 1, 0));
  hand_close (window);
}

static void
picture_in_the_dark (void)
{
  HobWindow *window;

  hob_style_choose (hob_app_style (app), HOB_STYLE_DARK);
  window = open_weak (1400, 900);
  hand_picture (GTK_WIDGET (window), "window-sequence-dark.png");
  hob_style_choose (hob_app_style (app), HOB_STYLE_SYSTEM);
  hand_close (window);
}

int
main (int argc, char **argv)
{
  int result;

  app = hand_app (&argc, &argv);
  g_test_add_func ("/sequence/what-is-not-done-is-ringed-and-clicked",
                   what_is_not_done_is_ringed_and_clicked);
  g_test_add_func ("/sequence/a-click-shows-the-sheet-with-the-part",
                   a_click_shows_the_sheet_with_the_part);
  g_test_add_func ("/sequence/keys-go-along-the-line", keys_go_along_the_line);
  g_test_add_func ("/sequence/the-line-follows-what-is-done", the_line_follows_what_is_done);
  g_test_add_func ("/sequence/on-hold-nothing-is-read-again", on_hold_nothing_is_read_again);
  g_test_add_func ("/sequence/small-and-large-text-keep-what-is-ringed",
                   small_and_large_text_keep_what_is_ringed);
  g_test_add_func ("/sequence/another-range-has-its-own-line", another_range_has_its_own_line);
  g_test_add_func ("/sequence/an-entry-says-where-it-goes", an_entry_says_where_it_goes);
  g_test_add_func ("/sequence/picture-in-the-dark", picture_in_the_dark);
  result = g_test_run ();
  g_object_unref (app);
  return result;
}
