/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Chart, keys, and what pops up over drawings, worked by a real pointer and real keys. */

#include "hand.h"

#include "base/write-file.h"
#include "window/sheet-hover.h"
#include "window/walk.h"
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static HobApp *app; /* one for all tests of this program */

static HobTrace
trace_of (HobWindow *window, const char *name)
{
  HobTrace trace;

  g_assert_true (hob_range_find_quantity (hob_session_range (hob_window_session (window)), name,
                                          &trace.part, &trace.quantity, NULL));
  return trace;
}

/* A weak igniter from the start, bake, and five minutes gone by. */
static HobWindow *
open_weak (int w, int h)
{
  HobWindow *window = hand_open_weak (app, w, h, 300000);

  hand_sleep (400);
  return window;
}

static GtkWidget *
popover_of (GtkWidget *over)
{
  for (GtkWidget *child = gtk_widget_get_first_child (over); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child) && gtk_widget_get_mapped (child))
      return child;
  return NULL;
}

/* The row of an open menu whose words begin so. */
static GtkWidget *
row_of (GtkWidget *root, const char *words)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root)
      && g_str_has_prefix (gtk_label_get_text (GTK_LABEL (root)), words))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = row_of (child, words);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* ---- The chart ---- */

static void
lanes_show_what_differs (void)
{
  HobWindow *window = open_weak (1560, 940);
  const GArray *shown = hob_chart_view_traces (hob_window_chart (window));
  HobTrace first = trace_of (window, "igniter-bake.current");

  g_assert_cmpuint (shown->len, >=, 2);
  g_assert_cmpint (g_array_index (shown, HobTrace, 0).part, ==, first.part);
  g_assert_cmpint (g_array_index (shown, HobTrace, 0).quantity, ==, first.quantity);
  hand_picture (GTK_WIDGET (window), "window-chart.png");
  hand_close (window);
}

static void
lanes_are_added_and_removed_by_hand (void)
{
  HobWindow *window = open_weak (1560, 940);
  GtkWidget *chart = GTK_WIDGET (hob_window_chart (window));
  HobTrace igniter = trace_of (window, "igniter-bake.current");

  g_assert_true (hob_chart_view_shows (HOB_CHART_VIEW (chart), igniter));
  hand_move (chart, 300, 60);
  hand_button (chart, 3, TRUE);
  hand_button (chart, 3, FALSE);
  WAIT_FOR (popover_of (chart) != NULL);
  hand_settle (popover_of (chart));
  hand_sleep (300);
  hand_click_middle (row_of (popover_of (chart), "Remove: Bake igniter: current"));
  WAIT_FOR (!hob_chart_view_shows (HOB_CHART_VIEW (chart), igniter));
  WAIT_FOR (popover_of (chart) == NULL);
  g_assert_true (hob_chart_view_chosen_by_hand (HOB_CHART_VIEW (chart)));
  hob_session_go (hob_window_session (window), 310000);
  hand_sleep (400);
  g_assert_false (hob_chart_view_shows (HOB_CHART_VIEW (chart), igniter));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.lane", "(ii)",
                              hand_part (window, "valve-bake"),
                              trace_of (window, "valve-bake.opening").quantity);
  g_assert_true (hob_chart_view_shows (HOB_CHART_VIEW (chart),
                                       trace_of (window, "valve-bake.opening")));
  while (hob_chart_view_traces (HOB_CHART_VIEW (chart))->len > 1)
    hob_chart_view_show (HOB_CHART_VIEW (chart),
                         g_array_index (hob_chart_view_traces (HOB_CHART_VIEW (chart)), HobTrace,
                                        0),
                         FALSE);
  hob_chart_view_show (HOB_CHART_VIEW (chart),
                       g_array_index (hob_chart_view_traces (HOB_CHART_VIEW (chart)), HobTrace, 0),
                       FALSE);
  g_assert_cmpuint (hob_chart_view_traces (HOB_CHART_VIEW (chart))->len, ==, 1); /* it stays */
  gtk_widget_activate_action (GTK_WIDGET (window), "win.lanes-automatic", NULL);
  hand_sleep (300);
  g_assert_true (hob_chart_view_shows (HOB_CHART_VIEW (chart), igniter));
  hand_close (window);
}

static void
time_is_zoomed (void)
{
  HobWindow *window = open_weak (1560, 940);
  HobChartView *chart = hob_window_chart (window);
  double x, t;

  hand_move (GTK_WIDGET (chart), 400, 60);
  hand_sleep (50);
  t = hob_chart_view_time (chart, 400);
  hand_scroll (GTK_WIDGET (chart), TRUE, XK_Control_L);
  WAIT_FOR (hob_chart_view_chart (chart).from > 0);
  g_assert_cmpfloat_with_epsilon (hob_chart_view_time (chart, 400), t, 1);
  x = hob_chart_view_chart (chart).to - hob_chart_view_chart (chart).from;
  g_assert_cmpfloat_with_epsilon (x, 200, 1);
  gtk_widget_grab_focus (GTK_WIDGET (chart));
  hand_key (GTK_WIDGET (window), XK_plus, XK_Shift_L);
  WAIT_FOR (hob_chart_view_chart (chart).to - hob_chart_view_chart (chart).from < x - 1);
  hand_key (GTK_WIDGET (window), XK_0, 0);
  WAIT_FOR (hob_chart_view_chart (chart).from == 0 && hob_chart_view_chart (chart).to == 300);
  hand_close (window);
}

/* Arrows move the hand by a second, or ten; what is in view follows it by pages. */
static void
keys_move_the_hand_and_the_view_follows (void)
{
  HobWindow *window = open_weak (1560, 940);
  GtkWidget *chart = GTK_WIDGET (hob_window_chart (window));
  HobSession *session = hob_window_session (window);
  double span;

  gtk_widget_grab_focus (chart);
  hand_key (GTK_WIDGET (window), XK_Left, 0);
  WAIT_FOR (hob_session_ms (session) == 299000);
  hand_key (GTK_WIDGET (window), XK_Left, XK_Shift_L);
  WAIT_FOR (hob_session_ms (session) == 289000);
  hand_key (GTK_WIDGET (window), XK_Right, 0);
  WAIT_FOR (hob_session_ms (session) == 290000);
  hand_key (GTK_WIDGET (window), XK_Right, XK_Alt_L);
  hand_sleep (100);
  g_assert_cmpint (hob_session_ms (session), ==, 290000);

  hand_key (GTK_WIDGET (window), XK_equal, 0);
  hand_key (GTK_WIDGET (window), XK_equal, 0);
  WAIT_FOR (hob_chart_view_chart (HOB_CHART_VIEW (chart)).from > 0);
  span = hob_chart_view_chart (HOB_CHART_VIEW (chart)).to
         - hob_chart_view_chart (HOB_CHART_VIEW (chart)).from;
  g_assert_cmpfloat_with_epsilon (span, 300 / 2.25, 0.1);
  hob_session_go (session, 10000);
  WAIT_FOR (hob_chart_view_chart (HOB_CHART_VIEW (chart)).from == 0);
  g_assert_cmpfloat_with_epsilon (hob_chart_view_chart (HOB_CHART_VIEW (chart)).to, span, 0.1);
  hand_move (chart, 400, 60);
  hand_scroll (chart, FALSE, XK_Shift_L); /* through time, by a tenth */
  WAIT_FOR (hob_chart_view_chart (HOB_CHART_VIEW (chart)).from > 0);
  g_assert_cmpfloat_with_epsilon (hob_chart_view_chart (HOB_CHART_VIEW (chart)).from, span / 10,
                                  0.1);
  gtk_widget_grab_focus (chart);
  hand_key (GTK_WIDGET (window), XK_minus, 0);
  WAIT_FOR (hob_chart_view_chart (HOB_CHART_VIEW (chart)).to
              - hob_chart_view_chart (HOB_CHART_VIEW (chart)).from > span + 1);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.chart-all", NULL);
  WAIT_FOR (hob_chart_view_chart (HOB_CHART_VIEW (chart)).to == 300);
  g_assert_cmpfloat (hob_chart_view_chart (HOB_CHART_VIEW (chart)).from, ==, 0);
  hand_close (window);
}

/* A press anywhere goes there, and a drag goes on. */
static void
the_hand_is_dragged (void)
{
  HobWindow *window = open_weak (1560, 940);
  HobChartView *chart = hob_window_chart (window);
  HobSession *session = hob_window_session (window);
  double x = hob_chart_view_x (chart, 100), z = hob_chart_view_x (chart, 200);

  hand_move (GTK_WIDGET (chart), x, 60);
  hand_button (GTK_WIDGET (chart), 1, TRUE);
  WAIT_FOR (ABS (hob_session_ms (session) - 100000) < 1000);
  hand_move (GTK_WIDGET (chart), z, 60);
  WAIT_FOR (ABS (hob_session_ms (session) - 200000) < 1000);
  /* No further than the record. */
  hand_move (GTK_WIDGET (chart), gtk_widget_get_width (GTK_WIDGET (chart)) - 2, 60);
  WAIT_FOR (hob_session_ms (session) == 300000);
  hand_button (GTK_WIDGET (chart), 1, FALSE);
  hand_sleep (100);
  hand_close (window);
}

static void
the_menu_key_is_for_what_has_the_focus (void)
{
  HobWindow *window = open_weak (1560, 940);
  GtkWidget *chart = GTK_WIDGET (hob_window_chart (window));
  HobSession *session = hob_window_session (window);

  hob_session_choose (session, -1, -1);
  gtk_widget_grab_focus (GTK_WIDGET (hob_window_sheet (window)));
  hand_key (GTK_WIDGET (window), XK_Menu, 0);
  WAIT_FOR (hob_window_said (window) != NULL);
  g_assert_cmpstr (hob_window_said (window), ==,
                   "Select a part first: click it, or use the list of all parts.");
  hob_session_choose (session, hand_part (window, "valve-bake"), -1);
  gtk_widget_grab_focus (chart);
  hand_key (GTK_WIDGET (window), XK_Menu, 0);
  WAIT_FOR (popover_of (chart) != NULL);
  hand_settle (popover_of (chart));
  hand_sleep (300);
  g_assert_nonnull (row_of (popover_of (chart), "Whole Timeline"));
  hand_click_middle (row_of (popover_of (chart), "Bake valve"));
  hand_sleep (400);
  hand_screen ("window-chart-menu.png");
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  hand_sleep (300);
  hand_close (window);
}

static char *
in_build (const char *name)
{
  return g_test_build_filename (G_TEST_BUILT, name, NULL);
}

static void
pictures_and_tables_are_exported (void)
{
  static const struct
  {
    const char *name, *begins;
    gboolean chart;
  } files[] = {
    { "export-chart.png", "\211PNG", TRUE },   { "export-chart.svg", "<?xml", TRUE },
    { "export-chart.pdf", "%PDF", TRUE },      { "export-chart.csv", "time_s,", TRUE },
    { "export-sheet.png", "\211PNG", FALSE },  { "export-sheet.pdf", "%PDF", FALSE },
  };
  HobWindow *window = open_weak (1560, 940);
  g_autoptr (GError) error = NULL;
  g_autofree char *printed = in_build ("printed.pdf"), *text = NULL;

  for (gsize k = 0; k < G_N_ELEMENTS (files); k++)
    {
      g_autofree char *file = in_build (files[k].name);
      g_autofree char *content = NULL;

      hob_window_export (window, files[k].chart, file, &error);
      g_assert_no_error (error);
      g_file_get_contents (file, &content, NULL, &error);
      g_assert_no_error (error);
      g_assert_true (g_str_has_prefix (content, files[k].begins));
    }
  g_assert_true (hob_window_print_to (window, printed, &error));
  g_assert_no_error (error);
  g_file_get_contents (printed, &text, NULL, &error);
  g_assert_true (g_str_has_prefix (text, "%PDF"));
  g_assert_false (hob_window_export (window, TRUE, "/nowhere/at/all.png", &error));
  g_assert_nonnull (error);
  hand_close (window);
}

static gboolean
has_dialog (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) one = g_list_model_get_item (windows, i);

      if (GTK_IS_FILE_CHOOSER_DIALOG (one) && gtk_widget_get_mapped (one))
        return TRUE;
    }
  return FALSE;
}

/* The dialog of the action, answered with @path; NULL: with Escape. */
static void
export_by_hand (HobWindow *window, const char *action, const char *path)
{
  GtkWidget *dialog;

  gtk_widget_activate_action (GTK_WIDGET (window), action, NULL);
  dialog = hand_wait_window (GTK_TYPE_FILE_CHOOSER_DIALOG);
  gtk_widget_activate_action (GTK_WIDGET (window), action, NULL); /* no second one */
  hand_sleep (400);
  hand_move (dialog, gtk_widget_get_width (dialog) / 2.0, 20);
  hand_sleep (100);
  if (path != NULL)
    {
      hand_key (dialog, XK_a, XK_Control_L);
      hand_type_path (dialog, path);
      hand_sleep (300);
    }
  hand_key (dialog, path != NULL ? XK_Return : XK_Escape, 0);
  WAIT_FOR (!has_dialog ());
  hand_sleep (50);
}

static void
files_are_exported_by_the_dialog (void)
{
  HobWindow *window = open_weak (1560, 940);
  g_autofree char *folder = g_dir_make_tmp ("hob-export-XXXXXX", NULL);
  g_autofree char *sheet = g_build_filename (folder, "sheet.svg", NULL),
                  *table = g_build_filename (folder, "chart.csv", NULL),
                  *odd = g_build_filename (folder, "chart.odd", NULL);
  g_autofree char *drawn = NULL, *rows = NULL;

  export_by_hand (window, "win.export-sheet", NULL);
  g_assert_null (hob_window_said (window));
  export_by_hand (window, "win.export-sheet", sheet);
  g_assert_cmpstr (hob_window_said (window), ==, "Saved as sheet.svg.");
  g_assert_true (g_file_get_contents (sheet, &drawn, NULL, NULL));
  g_assert_true (g_str_has_prefix (drawn, "<?xml"));
  export_by_hand (window, "win.export-chart", table);
  g_assert_cmpstr (hob_window_said (window), ==, "Saved as chart.csv.");
  g_assert_true (g_file_get_contents (table, &rows, NULL, NULL));
  g_assert_true (g_str_has_prefix (rows, "time_s,"));
  export_by_hand (window, "win.export-chart", odd); /* no kind of file that there is */
  g_assert_nonnull (strstr (hob_window_said (window), "chart.odd"));
  g_assert_false (g_file_test (odd, G_FILE_TEST_EXISTS));
  hand_click_button (GTK_WIDGET (window), "Close");
  hand_close (window);
  g_remove (sheet);
  g_remove (table);
  g_assert_cmpint (g_rmdir (folder), ==, 0); /* nothing was left beside */
}

static void
print_opens_the_dialog_of_the_system (void)
{
  HobWindow *window = open_weak (1560, 940);
  GtkWidget *dialog;

  hand_key (GTK_WIDGET (window), XK_p, XK_Control_L);
  dialog = hand_wait_window (GTK_TYPE_DIALOG);
  hand_sleep (300);
  hand_screen ("window-print.png");
  gtk_dialog_response (GTK_DIALOG (dialog), GTK_RESPONSE_CANCEL);
  hand_sleep (300);
  hand_close (window);
}

/* ---- What pops up over the sheet ---- */

static void
place_of (HobWindow *window, const char *id, double *x, double *y)
{
  hob_sheet_view_middle_of (hob_window_sheet (window), hand_part (window, id), x, y);
}

static gboolean
has_fault (HobWindow *window, const char *name)
{
  HobSession *session = hob_window_session (window);
  int part, fault;

  g_assert_true (hob_range_find_fault (hob_session_range (session), name, &part, &fault, NULL));
  return !isnan (hob_moment_fault (hob_session_moment (session), part, fault));
}

/* On the sheet, where the part has its symbol: a menu opens. */
static void
right_click_part (HobWindow *window, const char *part)
{
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));
  double x, y;

  place_of (window, part, &x, &y);
  hand_move (sheet, x, y);
  hand_button (sheet, 3, TRUE);
  hand_button (sheet, 3, FALSE);
  WAIT_FOR (popover_of (sheet) != NULL);
}

/* The leads of a spark module are moved from its menu, and back; the front has no switch for it. */
static void
leads_are_moved_from_the_menu (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));
  HobSession *session = hob_window_session (window);
  int part, control;

  g_assert_true (hob_range_find_control (hob_session_range (session), "module.leads", &part,
                                         &control, NULL));
  for (int moved = 1; moved >= 0; moved--)
    {
      right_click_part (window, "module");
      hand_settle (popover_of (sheet));
      hand_sleep (300);
      hand_click_middle (row_of (popover_of (sheet),
                                 moved ? "Change to: each lead moved to the next output"
                                       : "Change to: each lead on its own output"));
      WAIT_FOR (hob_moment_control (hob_session_moment (session), part, control) == moved);
      WAIT_FOR (popover_of (sheet) == NULL);
    }
  hand_close (window);
}

/* Held at one burner at a time; where no match can be held none is offered. */
static void
a_match_is_held_at_a_burner_from_the_menu (void)
{
  static const struct
  {
    const char *at, *words;
    gboolean held;
  } steps[] = { { "burner-lf", "Hold a Lit Match Here", TRUE },
                { "burner-rf", "Hold a Lit Match Here", TRUE },
                { "burner-rf", "Take the Match Away", FALSE } };
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));
  HobSession *session = hob_window_session (window);
  int part, control;

  gtk_widget_activate_action (GTK_WIDGET (window), "win.sheet", "s", "gas");
  hand_sleep (300);
  for (gsize k = 0; k < G_N_ELEMENTS (steps); k++)
    {
      int at = hand_part (window, steps[k].at);

      g_assert_true (hob_range_control_at (hob_session_range (session), at, &part, &control));
      right_click_part (window, steps[k].at);
      hand_settle (popover_of (sheet));
      hand_sleep (300);
      hand_click_middle (row_of (popover_of (sheet), steps[k].words));
      WAIT_FOR (popover_of (sheet) == NULL);
      g_assert_cmpfloat (hob_moment_control (hob_session_moment (session), part, control), ==,
                         steps[k].held ? HOB_AT (at) : 0);
    }
  gtk_widget_activate_action (GTK_WIDGET (window), "win.hold-match", "(ii)",
                              hand_part (window, "cord"), 1);
  g_assert_cmpfloat (hob_moment_control (hob_session_moment (session), part, control), ==, 0);
  hand_close (window);
}

static void
right_click_and_keys_list_faults (void)
{
  static const guint keys[] = { XK_h, XK_Menu };
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));

  right_click_part (window, "igniter-bake");
  g_assert_cmpint (hob_session_chosen_part (hob_window_session (window)), ==,
                   hand_part (window, "igniter-bake"));
  hand_settle (popover_of (sheet));
  hand_sleep (300);
  hand_screen ("window-faults-menu.png");
  hand_click_middle (row_of (popover_of (sheet), "Add: weak igniter"));
  WAIT_FOR (has_fault (window, "igniter-bake:aged"));
  for (gsize k = 0; k < G_N_ELEMENTS (keys); k++)
    {
      WAIT_FOR (popover_of (sheet) == NULL);
      hand_move (GTK_WIDGET (window), 400, 20); /* the keys follow the pointer */
      hand_sleep (300);
      WAIT_FOR (gtk_window_is_active (GTK_WINDOW (window)));
      hand_key (GTK_WIDGET (window), keys[k], 0);
      WAIT_FOR (popover_of (sheet) != NULL);
      hand_sleep (200);
      g_assert_nonnull (row_of (popover_of (sheet), "Remove: weak igniter"));
      hand_key (GTK_WIDGET (window), XK_Escape, 0);
    }
  hand_sleep (200);
  hand_close (window);
}

/* The menu goes with it: no widget is left (hand_close). */
static void
a_window_closes_with_its_menu_open (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));

  right_click_part (window, "igniter-bake");
  hand_settle (popover_of (sheet));
  g_assert_true (gtk_widget_get_mapped (popover_of (sheet)));
  hand_close (window);
}

static void
hover_says_name_reading_and_what_should_be (void)
{
  HobWindow *window = open_weak (1560, 940);
  HobSheetView *sheet = hob_window_sheet (window);
  HobSession *session = hob_window_session (window);
  const HobRange *range = hob_session_range (session);
  const HobPlacement *at = &range->parts[hand_part (window, "igniter-bake")].at[HOB_SHEET_WIRING];
  g_autoptr (HobSheetMemory) memory = hob_sheet_memory_new (range);
  g_autofree char *part
      = hob_sheet_hover_text (session, memory, HOB_SHEET_WIRING, at->x, at->y);
  int wires = 0, pipes = 0;
  double x, y;

  g_assert_nonnull (strstr (part, "Bake igniter\n2.7"));
  g_assert_nonnull (strstr (part, ", should be 3.5"));
  for (double sx = 0; sx < 1600; sx += 10)
    for (double sy = 0; sy < 1200; sy += 10)
      {
        g_autofree char *wire = hob_sheet_hover_text (session, memory, HOB_SHEET_WIRING, sx, sy);
        g_autofree char *pipe = hob_sheet_hover_text (session, memory, HOB_SHEET_GAS, sx, sy);

        wires += wire != NULL && g_str_has_prefix (wire, "Wire:") && strstr (wire, " A") != NULL
                 && strstr (wire, "V") != NULL;
        pipes += pipe != NULL && g_str_has_prefix (pipe, "Gas pipe:")
                 && strstr (pipe, "in. w.c.") != NULL;
      }
  g_assert_cmpint (wires, >, 20);
  g_assert_cmpint (pipes, >, 20);
  place_of (window, "igniter-bake", &x, &y);
  hand_move (GTK_WIDGET (sheet), x - 3, y);
  hand_move (GTK_WIDGET (sheet), x, y);
  hand_sleep (1200);
  hand_screen ("window-hover.png");
  hand_close (window);
}

static void
arrows_go_along_wires (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  const HobRange *range = hob_session_range (session);
  int igniter = hand_part (window, "igniter-bake"), valve = hand_part (window, "valve-bake"),
      oven = hand_part (window, "oven");

  hob_session_choose (session, igniter, -1);
  gtk_widget_grab_focus (GTK_WIDGET (hob_window_sheet (window)));
  hand_key (GTK_WIDGET (window), XK_Right, 0);
  WAIT_FOR (hob_session_chosen_wire (session) >= 0);
  g_assert_true (range->wires[hob_session_chosen_wire (session)].from.part == igniter
                 || range->wires[hob_session_chosen_wire (session)].to.part == igniter);
  hand_key (GTK_WIDGET (window), XK_Right, 0);
  WAIT_FOR (hob_session_chosen_part (session) == valve);
  for (int k = 0; k < 4; k++)
    {
      hand_key (GTK_WIDGET (window), XK_Left, 0);
      hand_sleep (50);
    }
  WAIT_FOR (hob_session_chosen_part (session) == oven);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.sheet", "s", "gas");
  hob_session_choose (session, hand_part (window, "regulator"), -1);
  for (int k = 0; k < 2; k++)
    {
      hand_key (GTK_WIDGET (window), k == 0 ? XK_Right : XK_Up, 0);
      hand_sleep (50);
    }
  g_assert_cmpint (hob_session_chosen_part (session), !=, hand_part (window, "regulator"));
  hand_close (window);
}

/* Across a line, arrows go to the line that the same part has beside it; the other way back leads
 * to where one came from. */
static void
arrows_go_from_wire_to_wire (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  const HobRange *range = hob_session_range (session);
  int n_beside = 0;

  gtk_widget_grab_focus (GTK_WIDGET (hob_window_sheet (window)));
  for (int k = 0; k < range->n_wires; k++)
    for (int up = 0; up < 2; up++)
      {
        HobStand at = { -1, k }, back;
        const HobLine *from = &range->wires[k], *to;

        if (!hob_walk (range, HOB_SHEET_WIRING, &at, 0, up ? -1 : 1) || at.line < 0)
          continue;
        to = &range->wires[at.line];
        g_assert_cmpint (at.line, !=, k);
        g_assert_true (to->from.part == from->from.part || to->from.part == from->to.part
                       || to->to.part == from->from.part || to->to.part == from->to.part);
        back = at;
        if (hob_walk (range, HOB_SHEET_WIRING, &back, 0, up ? 1 : -1) && back.line >= 0)
          n_beside += back.line == k;
        hob_session_choose (session, -1, k);
        hand_key (GTK_WIDGET (window), up ? XK_Up : XK_Down, 0);
        WAIT_FOR (hob_session_chosen_wire (session) == at.line);
      }
  g_assert_cmpint (n_beside, >, 5);
  hand_close (window);
}

/* Arrows with Shift and the wheel move the view; that with Ctrl zooms. */
static void
the_sheet_is_moved_and_zoomed (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSheetView *sheet = hob_window_sheet (window);
  double x, y, z, w, zoom;

  gtk_widget_grab_focus (GTK_WIDGET (sheet));
  hob_sheet_view_zoom_by (sheet, 2);
  zoom = hob_sheet_view_zoom (sheet);
  hob_sheet_view_to_sheet (sheet, 100, 100, &x, &y);
  hand_key (GTK_WIDGET (window), XK_Right, XK_Shift_L);
  WAIT_FOR ((hob_sheet_view_to_sheet (sheet, 100, 100, &z, &w), z > x));
  g_assert_cmpfloat_with_epsilon (w, y, 1e-6);
  hand_move (GTK_WIDGET (sheet), 200, 200);
  hand_scroll (GTK_WIDGET (sheet), FALSE, XK_Shift_L);
  WAIT_FOR ((hob_sheet_view_to_sheet (sheet, 100, 100, &x, &w), x > z));
  g_assert_cmpfloat_with_epsilon (w, y, 1e-6);
  hand_button (GTK_WIDGET (sheet), 5, TRUE);
  hand_button (GTK_WIDGET (sheet), 5, FALSE);
  WAIT_FOR ((hob_sheet_view_to_sheet (sheet, 100, 100, &z, &w), w > y));
  g_assert_cmpfloat_with_epsilon (z, x, 1e-6);
  g_assert_cmpfloat (hob_sheet_view_zoom (sheet), ==, zoom);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.zoom-out", NULL);
  g_assert_cmpfloat (hob_sheet_view_zoom (sheet), <, zoom);
  hand_close (window);
}

/* ---- Keys of the window ---- */

static void
the_ends_of_the_record_are_reached (void)
{
  HobWindow *window = open_weak (1560, 940);
  HobSession *session = hob_window_session (window);

  gtk_widget_activate_action (GTK_WIDGET (window), "win.start", NULL);
  g_assert_cmpint (hob_session_ms (session), ==, 0);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.end", NULL);
  g_assert_cmpint (hob_session_ms (session), ==, 300000);
  for (int k = 0; k < 200 && hob_session_ms (session) > 0; k++)
    {
      gint64 before = hob_session_ms (session);

      hob_session_previous_event (session);
      g_assert_cmpint (hob_session_ms (session), <, before);
    }
  g_assert_cmpint (hob_session_ms (session), ==, 0);
  hand_close (window);
}

static gboolean
focus_is_in (HobWindow *window, gpointer area)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  return focus != NULL && (focus == area || gtk_widget_is_ancestor (focus, area));
}

static void
f6_goes_from_area_to_area (void)
{
  HobWindow *window = open_weak (1560, 940);
  gpointer areas[] = { hob_window_sheet (window), hob_window_chart (window),
                       hob_window_front (window), hob_window_sequence (window),
                       hob_window_sheet (window) };
  int found = 0;

  gtk_widget_grab_focus (areas[0]);
  for (int k = 0; k < 12 && found + 1 < (int) G_N_ELEMENTS (areas); k++)
    {
      hand_key (GTK_WIDGET (window), XK_F6, 0);
      hand_sleep (50);
      found += focus_is_in (window, areas[found + 1]);
    }
  g_assert_cmpint (found + 1, ==, G_N_ELEMENTS (areas));
  hand_key (GTK_WIDGET (window), XK_F6, XK_Shift_L);
  WAIT_FOR (focus_is_in (window, hob_window_sequence (window)));
  hand_close (window);
}

/* Wherever the focus is, but for text that is being typed. */
static void
space_runs_and_pauses_from_every_area (void)
{
  HobWindow *window = open_weak (1560, 940);
  HobSession *session = hob_window_session (window);

  for (int k = 0; k < 7; k++)
    {
      hand_key (GTK_WIDGET (window), XK_F6, 0);
      hand_sleep (50);
      hand_key (GTK_WIDGET (window), XK_space, 0);
      WAIT_FOR (hob_session_running (session));
      hand_key (GTK_WIDGET (window), XK_space, 0);
      WAIT_FOR (!hob_session_running (session));
    }
  hand_close (window);
}

static void
the_look_is_kept (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1320, 860);
  g_autofree char *file
      = g_build_filename (g_get_user_config_dir (), "hobwright", "window.ini", NULL);
  int w, h;

  hob_session_set_speed (hob_window_session (window), 60);
  gtk_widget_activate_action (GTK_WIDGET (window), "win.details", NULL);
  hand_sleep (200);
  hob_window_keep_look (window);
  hand_close (window);

  window = hand_open (app, "dial-four", 1000, 700);
  hob_window_restore_look (window);
  gtk_window_get_default_size (GTK_WINDOW (window), &w, &h);
  g_assert_cmpint (w, ==, 1320);
  g_assert_cmpint (h, ==, 860);
  g_assert_cmpfloat (hob_session_speed (hob_window_session (window)), ==, 60);
  hand_close (window);

  /* What somebody has spoiled is left out. */
  g_assert_true (hob_write_file (file, "[look]\nwidth=x\npace=-3\n", 22, NULL));
  window = hand_open (app, "dial-four", 1000, 700);
  hob_window_restore_look (window);
  gtk_window_get_default_size (GTK_WINDOW (window), &w, &h);
  g_assert_cmpint (w, ==, 1000);
  g_assert_cmpfloat (hob_session_speed (hob_window_session (window)), ==, 1);
  hand_close (window);
}

/* Whole, where neither above nor below the part there is room for it. */
static void
a_tall_menu_goes_to_the_side (void)
{
  static const struct
  {
    int h;
    GtkPositionType side;
  } windows[] = { { 600, GTK_POS_RIGHT }, { 940, GTK_POS_BOTTOM } };

  for (gsize k = 0; k < G_N_ELEMENTS (windows); k++)
    {
      HobWindow *window = hand_open (app, "dial-four", 900, windows[k].h);
      GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));

      hob_session_choose (hob_window_session (window), hand_part (window, "igniter-bake"), -1);
      gtk_widget_grab_focus (sheet);
      hand_key (sheet, XK_h, 0);
      WAIT_FOR (hand_find (sheet, GTK_TYPE_POPOVER, NULL) != NULL);
      g_assert_cmpint (
          gtk_popover_get_position (GTK_POPOVER (hand_find (sheet, GTK_TYPE_POPOVER, NULL))), ==,
          windows[k].side);
      hand_key (sheet, XK_Escape, 0);
      WAIT_FOR (hand_find (sheet, GTK_TYPE_POPOVER, NULL) == NULL);
      hand_close (window);
    }
}

int
main (int argc, char **argv)
{
  int status;

  app = hand_app (&argc, &argv);
  g_test_add_func ("/window/chart/lanes-show-what-differs", lanes_show_what_differs);
  g_test_add_func ("/window/chart/lanes-are-added-and-removed-by-hand",
                   lanes_are_added_and_removed_by_hand);
  g_test_add_func ("/window/chart/time-is-zoomed", time_is_zoomed);
  g_test_add_func ("/window/chart/pictures-and-tables-are-exported",
                   pictures_and_tables_are_exported);
  g_test_add_func ("/window/chart/keys-move-the-hand-and-the-view-follows",
                   keys_move_the_hand_and_the_view_follows);
  g_test_add_func ("/window/chart/the-hand-is-dragged", the_hand_is_dragged);
  g_test_add_func ("/window/chart/the-menu-key-is-for-what-has-the-focus",
                   the_menu_key_is_for_what_has_the_focus);
  g_test_add_func ("/window/chart/files-are-exported-by-the-dialog",
                   files_are_exported_by_the_dialog);
  g_test_add_func ("/window/chart/print-opens-the-dialog-of-the-system",
                   print_opens_the_dialog_of_the_system);
  g_test_add_func ("/window/keys/leads-are-moved-from-the-menu", leads_are_moved_from_the_menu);
  g_test_add_func ("/window/keys/a-match-is-held-at-a-burner-from-the-menu",
                   a_match_is_held_at_a_burner_from_the_menu);
  g_test_add_func ("/window/keys/arrows-go-from-wire-to-wire", arrows_go_from_wire_to_wire);
  g_test_add_func ("/window/keys/the-sheet-is-moved-and-zoomed", the_sheet_is_moved_and_zoomed);
  g_test_add_func ("/window/keys/the-ends-of-the-record-are-reached",
                   the_ends_of_the_record_are_reached);
  g_test_add_func ("/window/keys/right-click-and-keys-list-faults",
                   right_click_and_keys_list_faults);
  g_test_add_func ("/window/keys/a-window-closes-with-its-menu-open",
                   a_window_closes_with_its_menu_open);
  g_test_add_func ("/window/keys/hover-says-name-reading-and-what-should-be",
                   hover_says_name_reading_and_what_should_be);
  g_test_add_func ("/window/keys/arrows-go-along-wires", arrows_go_along_wires);
  g_test_add_func ("/window/keys/f6-goes-from-area-to-area", f6_goes_from_area_to_area);
  g_test_add_func ("/window/keys/space-runs-and-pauses-from-every-area",
                   space_runs_and_pauses_from_every_area);
  g_test_add_func ("/window/keys/the-look-is-kept", the_look_is_kept);
  g_test_add_func ("/window/chart/a-tall-menu-goes-to-the-side", a_tall_menu_goes_to_the_side);
  status = g_test_run ();
  g_clear_object (&app);
  return status;
}
