/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The window, worked by a real pointer and real keys on a real X server. */

#include "hand.h"

#include "window/knob.h"
#include "window/part-list.h"
#include "window/part-panel.h"
#include <math.h>

static HobApp *app; /* one for all tests of this program */

/* ---- What tests ask of a window ---- */

static int
part_of (HobWindow *window, const char *id)
{
  int part = hob_range_part (hob_session_range (hob_window_session (window)), id);

  g_assert_cmpint (part, >=, 0);
  return part;
}

static GtkWidget *
control_widget (HobWindow *window, const char *name)
{
  int part, control;
  GtkWidget *widget;

  g_assert_true (hob_range_find_control (hob_session_range (hob_window_session (window)), name,
                                         &part, &control, NULL));
  widget = hob_front_control (hob_window_front (window), part, control);
  g_assert_nonnull (widget);
  return widget;
}

static double
control_value (HobWindow *window, const char *name)
{
  HobSession *session = hob_window_session (window);
  int part, control;

  g_assert_true (hob_range_find_control (hob_session_range (session), name, &part, &control, NULL));
  return hob_moment_control (hob_session_moment (session), part, control);
}

static double
quantity (HobWindow *window, const char *name)
{
  HobSession *session = hob_window_session (window);
  int part, index;

  g_assert_true (hob_range_find_quantity (hob_session_range (session), name, &part, &index, NULL));
  return hob_moment_quantity (hob_session_moment (session), part, index);
}

static gint64
now (HobWindow *window)
{
  return hob_session_ms (hob_window_session (window));
}

/* The row of a symptom that is there now; −1: it is not listed as present. */
static int
symptom_row (HobWindow *window, const char *id)
{
  HobSymptomList *list = hob_window_symptoms (window);
  const HobSymptomBook *book = hob_session_book (hob_window_session (window));

  for (guint i = 0; i < hob_symptom_list_size (list); i++)
    {
      const HobNoticed *noticed = hob_symptom_list_get (list, i);

      if (noticed->until_ms < 0
          && g_str_equal (hob_symptom_book_get (book, noticed->symptom)->id, id))
        return (int)i;
    }
  return -1;
}

/* The time since when symptom @id is there; −1: it is not listed as present. */
static gint64
symptom_since (HobWindow *window, const char *id)
{
  int row = symptom_row (window, id);

  return row < 0 ? -1 : hob_symptom_list_get (hob_window_symptoms (window), (guint)row)->from_ms;
}

static void
click_symptom (HobWindow *window, const char *id)
{
  GtkWidget *list = hand_find (GTK_WIDGET (hob_window_symptoms (window)), GTK_TYPE_LIST_BOX, NULL);

  hand_click_middle (
      GTK_WIDGET (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), symptom_row (window, id))));
}

static void
click_button (HobWindow *window, const char *label)
{
  GtkWidget *button = hand_find (GTK_WIDGET (window), GTK_TYPE_BUTTON, label);

  g_assert_nonnull (button);
  hand_click_middle (button);
}

static void
click_word (HobWindow *window, const char *control, double value)
{
  HobKnob *knob = HOB_KNOB (control_widget (window, control));
  double x, y;

  hob_knob_point (knob, value, HOB_KNOB_RADIUS + 14, &x, &y);
  hand_click (GTK_WIDGET (knob), x, y);
}

/* The pointer takes the notch and leads it to @value, in so many steps. */
static void
drag_knob (HobWindow *window, const char *control, double value, int steps)
{
  HobKnob *knob = HOB_KNOB (control_widget (window, control));
  double from = hob_knob_value (knob), x, y;

  hob_knob_point (knob, from, HOB_KNOB_RADIUS - 8, &x, &y);
  hand_move (GTK_WIDGET (knob), x, y);
  hand_button (GTK_WIDGET (knob), 1, TRUE);
  for (int i = 1; i <= steps; i++)
    {
      hob_knob_point (knob, from + (value - from) * i / steps, HOB_KNOB_RADIUS - 8, &x, &y);
      hand_move (GTK_WIDGET (knob), x, y);
      hand_sleep (20);
    }
  hand_button (GTK_WIDGET (knob), 1, FALSE);
  hand_sleep (30);
}

static void
click_part (HobWindow *window, const char *id)
{
  HobSheetView *sheet = hob_window_sheet (window);
  int part = part_of (window, id);
  const HobPlacement *at = &hob_session_range (hob_window_session (window))
                                ->parts[part]
                                .at[hob_sheet_view_sheet (sheet)];
  double x, y;

  g_assert_true (at->placed);
  hob_sheet_view_to_widget (sheet, at->x, at->y, &x, &y);
  hand_click (GTK_WIDGET (sheet), x, y);
  WAIT_FOR (hob_session_chosen_part (hob_window_session (window)) == part);
  hand_settle (GTK_WIDGET (window));
}

static void
set_speed (HobWindow *window, double speed)
{
  HobSession *session = hob_window_session (window);

  while (hob_session_speed (session) < speed)
    hand_key (GTK_WIDGET (window), XK_bracketright, 0);
  while (hob_session_speed (session) > speed)
    hand_key (GTK_WIDGET (window), XK_bracketleft, 0);
  g_assert_cmpfloat (hob_session_speed (session), ==, speed);
}

static void
run_until (HobWindow *window, gint64 ms)
{
  hand_key (GTK_WIDGET (window), XK_space, 0);
  g_assert_true (hob_session_running (hob_window_session (window)));
  WAIT_FOR (now (window) >= ms);
  hand_key (GTK_WIDGET (window), XK_space, 0);
  g_assert_false (hob_session_running (hob_window_session (window)));
}

/* ---- Tests ---- */

/* The window that is over @window; waits for it. */
static GtkWidget *
wait_over (HobWindow *window)
{
  GListModel *all = gtk_window_get_toplevels ();
  GtkWidget *over = NULL;

  WAIT_FOR (g_list_model_get_n_items (all) > 1);
  for (guint k = 0; k < g_list_model_get_n_items (all); k++)
    {
      g_autoptr (GtkWindow) one = g_list_model_get_item (all, k);

      if (gtk_window_get_transient_for (one) == GTK_WINDOW (window))
        over = GTK_WIDGET (one);
    }
  g_assert_nonnull (over);
  hand_settle (over);
  return over;
}

/* With large text too; it goes away by Escape. */
static void
the_list_of_shortcuts_fits_a_small_screen (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  GtkWidget *keys;
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  for (int large = 0; large < 2; large++)
    {
      g_object_set (settings, "gtk-xft-dpi", large ? 96 * 1024 * 3 / 2 : dpi, NULL);
      window = hand_open (app, "dial-four", 900, 600);
      hand_key (GTK_WIDGET (window), XK_F1, 0);
      keys = wait_over (window);
      hand_picture (keys, large ? "window-keys-large.png" : "window-keys.png");
      g_assert_cmpint (gtk_widget_get_width (keys), <=, 900);
      g_assert_cmpint (gtk_widget_get_height (keys), <=, 600);
      hand_key (keys, XK_Escape, 0);
      WAIT_FOR (g_list_model_get_n_items (gtk_window_get_toplevels ()) == 1);
      hand_close (window);
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

static void
every_template_instantiates (void)
{
  const GType types[] = { HOB_TYPE_FRONT, HOB_TYPE_PART_PANEL, HOB_TYPE_PART_LIST,
                          HOB_TYPE_SYMPTOM_LIST, HOB_TYPE_WINDOW };
  g_autoptr (GtkBuilder) keys = gtk_builder_new_from_resource ("/org/hobwright/Hobwright/keys.ui");

  g_assert_true (GTK_IS_WINDOW (gtk_builder_get_object (keys, "keys")));
  gtk_window_destroy (GTK_WINDOW (gtk_builder_get_object (keys, "keys")));
  for (guint i = 0; i < G_N_ELEMENTS (types); i++)
    {
      GtkWidget *widget = g_object_ref_sink (g_object_new (types[i], NULL));
      gpointer weak = widget;

      g_object_add_weak_pointer (G_OBJECT (widget), &weak);
      if (GTK_IS_WINDOW (widget))
        gtk_window_destroy (GTK_WINDOW (widget));
      g_object_unref (widget);
      g_assert_null (weak);
    }
}

static void
opens_plugged_in_and_off (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);

  g_assert_cmpfloat (control_value (window, "knob-lf"), ==, 0);
  g_assert_true (gtk_switch_get_active (GTK_SWITCH (control_widget (window, "cord.plug")))
                 == (control_value (window, "cord.plug") == 1));
  g_assert_cmpfloat (quantity (window, "receptacle.current"), <, 0.01);
  g_assert_null (hob_window_said (window));
  g_assert_cmpuint (hob_symptom_list_size (hob_window_symptoms (window)), ==, 0);
  hand_close (window);
}

static void
weak_igniter_is_noticed_both_ways_in_time (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  g_autoptr (HobRun) fresh = NULL;
  g_autoptr (HobMoment) moment = NULL;
  gint64 since;
  guint64 hash;

  click_word (window, "oven.mode", 1);
  WAIT_FOR (control_value (window, "oven.mode") == 1);
  hand_click_middle (control_widget (window, "oven.dial"));
  hand_key (GTK_WIDGET (window), XK_Right, 0);
  hand_key (GTK_WIDGET (window), XK_Left, 0);
  g_assert_cmpfloat_with_epsilon (
      hob_convert (control_value (window, "oven.dial"), HOB_DIM_TEMPERATURE, HOB_UNITS_TRADE), 350,
      0.01);

  click_part (window, "igniter-bake");
  click_button (window, "Add");
  WAIT_FOR (hob_session_scene (session)->parts[part_of (window, "igniter-bake")].fault == 0);

  set_speed (window, 60);
  run_until (window, 180000);
  since = symptom_since (window, "glow-no-flame");
  g_assert_cmpint (since, >, 0);
  g_assert_cmpint (since, <=, 180000);
  hand_picture (GTK_WIDGET (window), "window-glow-no-flame.png");

  click_symptom (window, "glow-no-flame");
  WAIT_FOR (now (window) == since);
  g_assert_cmpint (symptom_since (window, "glow-no-flame"), ==, since);
  hash = hob_moment_hash (hob_session_moment (session));

  click_button (window, "Back 1 s");
  WAIT_FOR (now (window) == since - 1000);
  g_assert_cmpint (symptom_since (window, "glow-no-flame"), ==, -1);
  click_button (window, "Forward 1 s");
  WAIT_FOR (now (window) == since);
  g_assert_cmpint (symptom_since (window, "glow-no-flame"), ==, since);
  g_assert_cmpuint (hob_moment_hash (hob_session_moment (session)), ==, hash);

  /* And a run that never saw a window comes to the same bits. */
  fresh = hob_run_new (hob_session_bench (session)->plan,
                       hob_run_case (hob_session_bench (session)->run), NULL);
  moment = hob_moment_new (hob_run_plan (fresh));
  g_assert_cmpint (hob_run_advance (fresh, (double)since / 1000.0, NULL), ==, HOB_RUN_OK);
  hob_run_read (fresh, (double)since / 1000.0, moment);
  g_assert_cmpuint (hob_moment_hash (moment), ==, hash);
  hand_close (window);
}

static void
a_fault_from_the_start_replays_the_same_acts (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  int part = part_of (window, "igniter-bake");

  click_word (window, "oven.mode", 1);
  set_speed (window, 30);
  run_until (window, 30000);
  click_part (window, "igniter-bake");
  click_button (window, "Add from the Start");
  WAIT_FOR (now (window) >= 30000 && !hob_session_busy (session));
  g_assert_false (isnan (hob_moment_fault (hob_session_moment (session), part, 0)));
  g_assert_cmpfloat (control_value (window, "oven.mode"), ==, 1);
  hob_session_go (session, 0);
  WAIT_FOR (now (window) == 0);
  g_assert_false (isnan (hob_moment_fault (hob_session_moment (session), part, 0)));

  /* Both are undone and redone one by one. */
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (isnan (hob_moment_fault (hob_session_moment (session), part, 0)));
  hob_session_go (session, 30000);
  WAIT_FOR (now (window) == 30000 && !hob_session_busy (session));
  g_assert_cmpfloat (control_value (window, "oven.mode"), ==, 1);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (!hob_session_busy (session) && control_value (window, "oven.mode") == 0);
  g_assert_cmpint (now (window), ==, 30000);
  hand_key (GTK_WIDGET (window), XK_y, XK_Control_L);
  hand_key (GTK_WIDGET (window), XK_y, XK_Control_L);
  WAIT_FOR (!hob_session_busy (session) && now (window) == 30000);
  g_assert_cmpfloat (control_value (window, "oven.mode"), ==, 1);
  g_assert_false (isnan (hob_moment_fault (hob_session_moment (session), part, 0)));
  hand_close (window);
}

static void
one_drag_of_a_knob_lights_a_burner (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);

  hand_key (GTK_WIDGET (window), XK_space, 0);
  g_assert_true (hob_session_running (hob_window_session (window)));
  g_assert_cmpfloat (quantity (window, "burner-lf.flame"), ==, 0);
  drag_knob (window, "knob-lf", 20, 15);
  g_assert_cmpfloat_with_epsilon (control_value (window, "knob-lf"), 20, 2);
  WAIT_FOR (quantity (window, "burner-lf.flame") == 1);
  g_assert_cmpint (now (window), <, 6000);
  hand_sleep (300);
  hand_picture (GTK_WIDGET (window), "window-flame.png");
  hand_close (window);
}

static void
a_turn_is_undone_as_one (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);

  hand_key (GTK_WIDGET (window), XK_space, 0);
  drag_knob (window, "knob-rf", 60, 12);
  g_assert_cmpfloat_with_epsilon (control_value (window, "knob-rf"), 60, 2);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (control_value (window, "knob-rf") == 0);
  g_assert_false (hob_session_can_undo (hob_window_session (window)));
  hand_close (window);
}

/* Of all the places that a knob goes by while time is held, the last one counts. */
static void
a_turn_while_paused_is_one_act (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  const HobCase *acts = hob_run_case (hob_session_bench (hob_window_session (window))->run);

  drag_knob (window, "knob-rf", 60, 12);
  g_assert_cmpfloat_with_epsilon (control_value (window, "knob-rf"), 60, 2);
  g_assert_cmpuint (acts->acts->len, ==, 1);
  drag_knob (window, "knob-rf", 30, 12);
  g_assert_cmpuint (acts->acts->len, ==, 2);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (control_value (window, "knob-rf") > 55);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (control_value (window, "knob-rf") == 0);
  hand_key (GTK_WIDGET (window), XK_y, XK_Control_L);
  hand_key (GTK_WIDGET (window), XK_y, XK_Control_L);
  WAIT_FOR (control_value (window, "knob-rf") > 25 && control_value (window, "knob-rf") < 35);
  hand_close (window);
}

static void
an_act_in_the_past_cuts_and_undo_brings_back (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  guint64 hash;

  click_word (window, "oven.mode", 1);
  set_speed (window, 30);
  run_until (window, 60000);
  hob_session_go (session, 60000);
  WAIT_FOR (now (window) == 60000);
  hash = hob_moment_hash (hob_session_moment (session));
  hob_session_go (session, 20000);
  WAIT_FOR (now (window) == 20000);
  click_word (window, "oven.mode", 0);
  WAIT_FOR (control_value (window, "oven.mode") == 0);
  g_assert_cmpint (hob_session_reached_ms (session), ==, 20000);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (control_value (window, "oven.mode") == 1);
  hob_session_go (session, 60000);
  WAIT_FOR (now (window) == 60000);
  g_assert_cmpuint (hob_moment_hash (hob_session_moment (session)), ==, hash);
  hand_close (window);
}

static void
knobs_answer_keys_and_wheel (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *knob = control_widget (window, "knob-lr");

  hand_click_middle (knob);
  hand_key (knob, XK_Right, 0);
  WAIT_FOR (control_value (window, "knob-lr") == 1);
  hand_button (knob, 4, TRUE);
  hand_button (knob, 4, FALSE);
  WAIT_FOR (control_value (window, "knob-lr") == 2);
  hand_key (knob, XK_End, 0);
  WAIT_FOR (control_value (window, "knob-lr") == 100);
  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (gtk_widget_get_first_child (knob)),
                                   GTK_ACCESSIBLE_ROLE_SLIDER);
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (gtk_widget_get_first_child (knob)),
                                       GTK_ACCESSIBLE_PROPERTY_VALUE_NOW, 100.0);
  hand_close (window);
}

static void
switches_work_the_house (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  double before = control_value (window, "door");

  hand_click_middle (control_widget (window, "door"));
  WAIT_FOR (control_value (window, "door") != before);
  gtk_widget_grab_focus (control_widget (window, "door"));
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  WAIT_FOR (control_value (window, "door") == before);
  hand_close (window);
}

static void
expect_space_runs_and_pauses (HobWindow *window)
{
  hand_key (GTK_WIDGET (window), XK_space, 0);
  g_assert_true (hob_session_running (hob_window_session (window)));
  hand_key (GTK_WIDGET (window), XK_space, 0);
  g_assert_false (hob_session_running (hob_window_session (window)));
}

/* Whatever has focus, but for text; also after a panel that had it was hidden. */
static void
the_space_bar_runs_and_pauses (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *entry;

  for (int i = 0; i < 40; i++)
    {
      hand_key (GTK_WIDGET (window), XK_Tab, 0);
      expect_space_runs_and_pauses (window);
    }
  gtk_widget_grab_focus (control_widget (window, "door"));
  hand_key (GTK_WIDGET (window), XK_F8, 0);
  expect_space_runs_and_pauses (window);
  click_part (window, "receptacle");
  entry = hand_find (GTK_WIDGET (window), GTK_TYPE_ENTRY, NULL);
  gtk_widget_grab_focus (entry);
  hand_key (GTK_WIDGET (window), XK_space, 0);
  g_assert_false (hob_session_running (hob_window_session (window)));
  hand_key (GTK_WIDGET (window), XK_F9, 0);
  expect_space_runs_and_pauses (window);
  hand_close (window);
}

/* The buttons that move and close the window are the toolkit's. */
static int
count_silent_buttons (GtkWidget *widget, int *n)
{
  int silent = 0;

  if (!gtk_widget_get_mapped (widget) || GTK_IS_WINDOW_CONTROLS (widget))
    return 0;
  if (GTK_IS_BUTTON (widget))
    {
      const char *tip = gtk_widget_get_tooltip_text (widget);

      for (GtkWidget *w = widget; tip == NULL && w != NULL; w = gtk_widget_get_parent (w))
        tip = gtk_widget_get_tooltip_text (w);
      (*n)++;
      silent += tip == NULL;
      if (tip == NULL)
        g_test_message ("no tooltip: %s in %s", gtk_button_get_label (GTK_BUTTON (widget)),
                        G_OBJECT_TYPE_NAME (gtk_widget_get_parent (widget)));
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    silent += count_silent_buttons (child, n);
  return silent;
}

static void
every_button_has_a_tooltip (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);
  GtkWidget *run = hand_find (GTK_WIDGET (window), GTK_TYPE_BUTTON, "Run");
  int n = 0;

  click_part (window, "igniter-bake");
  hand_settle (GTK_WIDGET (window));
  WAIT_FOR (gtk_widget_get_tooltip_text (run) != NULL); /* they come after the first frame */
  g_assert_cmpint (count_silent_buttons (GTK_WIDGET (window), &n), ==, 0);
  g_assert_cmpint (n, >, 20);
  g_assert_cmpstr (gtk_widget_get_tooltip_text (run), ==, "Run or pause (Space)");
  hand_close (window);
}

/* It isn't needed for the first frame, and nobody has to ask for it. */
static void
main_menu_and_icon_come_by_themselves (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *button = hand_find (GTK_WIDGET (window), GTK_TYPE_TOGGLE_BUTTON, "Menu");
  GtkMenuButton *menu = GTK_MENU_BUTTON (gtk_widget_get_ancestor (button, GTK_TYPE_MENU_BUTTON));

  WAIT_FOR (gtk_menu_button_get_menu_model (menu) != NULL);
  g_assert_cmpstr (gtk_window_get_default_icon_name (), ==, HOB_APPLICATION_ID);
  g_assert_cmpint (g_menu_model_get_n_items (gtk_menu_button_get_menu_model (menu)), ==, 5);
  hand_close (window);
}

static void
about_shows_its_icon_and_what_it_is_for (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkIconTheme *theme = gtk_icon_theme_get_for_display (gdk_display_get_default ());
  GtkAboutDialog *about;

  g_assert_true (gtk_icon_theme_has_icon (theme, HOB_APPLICATION_ID));
  g_action_group_activate_action (G_ACTION_GROUP (app), "about", NULL);
  about = GTK_ABOUT_DIALOG (hand_wait_window (GTK_TYPE_ABOUT_DIALOG));
  hand_sleep (400);
  hand_picture (GTK_WIDGET (about), "window-about.png");
  g_assert_nonnull (strstr (gtk_about_dialog_get_comments (about), "local codes"));
  g_assert_cmpstr (gtk_about_dialog_get_logo_icon_name (about), ==, HOB_APPLICATION_ID);
  gtk_window_close (GTK_WINDOW (about));
  hand_sleep (200);
  hand_close (window);
}

static void
chart_scrubs_both_ways (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *chart = GTK_WIDGET (hob_window_chart (window));
  double y = gtk_widget_get_height (chart) / 2.0;

  set_speed (window, 30);
  run_until (window, 40000);
  hand_move (chart, hob_chart_view_x (HOB_CHART_VIEW (chart), 10), y);
  hand_button (chart, 1, TRUE);
  WAIT_FOR (llabs (now (window) - 10000) < 200);
  hand_move (chart, hob_chart_view_x (HOB_CHART_VIEW (chart), 30), y);
  WAIT_FOR (llabs (now (window) - 30000) < 200);
  hand_move (chart, hob_chart_view_x (HOB_CHART_VIEW (chart), 5), y);
  WAIT_FOR (llabs (now (window) - 5000) < 200);
  hand_button (chart, 1, FALSE);
  hand_sleep (30);
  hand_close (window);
}

static void
events_are_stepped_both_ways (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  gint64 first, second;

  click_word (window, "oven.mode", 1);
  hand_key (GTK_WIDGET (window), XK_n, 0);
  WAIT_FOR (!hob_session_busy (hob_window_session (window)) && now (window) > 0);
  first = now (window);
  hand_key (GTK_WIDGET (window), XK_n, 0);
  WAIT_FOR (!hob_session_busy (hob_window_session (window)) && now (window) > first);
  second = now (window);
  hand_key (GTK_WIDGET (window), XK_p, 0);
  WAIT_FOR (now (window) == first);
  hand_key (GTK_WIDGET (window), XK_n, 0);
  WAIT_FOR (now (window) == second);
  hand_close (window);
}

static gboolean
same_pixels (GdkTexture *one, GdkTexture *other)
{
  gsize stride = (gsize)gdk_texture_get_width (one) * 4,
        size = stride * (gsize)gdk_texture_get_height (one);
  g_autofree guchar *a = g_malloc (size), *b = g_malloc (size);

  gdk_texture_download (one, a, stride);
  gdk_texture_download (other, b, stride);
  return memcmp (a, b, size) == 0;
}

static gboolean
same_picture (GtkWidget *widget, guint after_ms)
{
  g_autoptr (GdkTexture) one = hand_texture (widget), other = NULL;

  hand_sleep (after_ms);
  hand_settle (widget);
  other = hand_texture (widget);
  return same_pixels (one, other);
}

static void
motion_stops_on_hold (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));

  click_word (window, "oven.mode", 1);
  run_until (window, 1500);
  g_assert_true (same_picture (sheet, 400));
  hand_key (GTK_WIDGET (window), XK_space, 0);
  g_assert_false (same_picture (sheet, 400));
  hand_close (window);
}

/* With the desktop's animations off, the run goes on and the picture is still. */
static void
reduced_motion_is_still (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window));
  gint64 before;

  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.sheet", "s", "gas"));
  click_word (window, "knob-lf", 20);
  set_speed (window, 10);
  run_until (window, 10000);
  click_word (window, "knob-lf", 35);
  set_speed (window, 1);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", FALSE, NULL);
  hand_key (GTK_WIDGET (window), XK_space, 0);
  hand_sleep (1200); /* the flame has settled */
  before = now (window);
  g_assert_true (same_picture (sheet, 1000));
  g_assert_cmpint (now (window), >, before);
  g_object_set (gtk_settings_get_default (), "gtk-enable-animations", TRUE, NULL);
  g_assert_false (same_picture (sheet, 1000));
  hand_close (window);
}

static void
zoom_keeps_the_point_under_the_pointer (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSheetView *sheet = hob_window_sheet (window);
  double zoom = hob_sheet_view_zoom (sheet), x, y, x_after, y_after;

  hand_move (GTK_WIDGET (sheet), 300, 200);
  hand_sleep (50);
  hob_sheet_view_to_sheet (sheet, 300, 200, &x, &y);
  hand_scroll (GTK_WIDGET (sheet), TRUE, XK_Control_L);
  WAIT_FOR (hob_sheet_view_zoom (sheet) > zoom);
  hob_sheet_view_to_sheet (sheet, 300, 200, &x_after, &y_after);
  g_assert_cmpfloat_with_epsilon (x_after, x, 2);
  g_assert_cmpfloat_with_epsilon (y_after, y, 2);
  g_assert_false (hob_sheet_view_fits (sheet));
  hand_key (GTK_WIDGET (window), XK_0, XK_Control_L);
  WAIT_FOR (hob_sheet_view_fits (sheet));
  g_assert_cmpfloat_with_epsilon (hob_sheet_view_zoom (sheet), zoom, 1e-9);
  hand_close (window);
}

static void
a_drag_pans_and_chooses_nothing (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSheetView *sheet = hob_window_sheet (window);
  double x, y, x_after, y_after;

  hob_sheet_view_to_sheet (sheet, 0, 0, &x, &y);
  hand_move (GTK_WIDGET (sheet), 400, 300);
  hand_button (GTK_WIDGET (sheet), 1, TRUE);
  hand_sleep (20);
  hand_move (GTK_WIDGET (sheet), 340, 270);
  hand_sleep (20);
  hand_button (GTK_WIDGET (sheet), 1, FALSE);
  hand_sleep (50);
  hob_sheet_view_to_sheet (sheet, 0, 0, &x_after, &y_after);
  g_assert_cmpfloat_with_epsilon ((x_after - x) * hob_sheet_view_zoom (sheet), 60, 1);
  g_assert_cmpfloat_with_epsilon ((y_after - y) * hob_sheet_view_zoom (sheet), 30, 1);
  g_assert_cmpint (hob_session_chosen_part (hob_window_session (window)), ==, -1);
  hand_close (window);
}

static void
a_setting_is_typed_with_its_unit (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  int part, setting;
  GtkWidget *entry;

  g_assert_true (hob_range_find_setting (hob_session_range (session), "receptacle.volts", &part,
                                         &setting, NULL));
  click_part (window, "receptacle");
  entry = hand_find (GTK_WIDGET (window), GTK_TYPE_ENTRY, NULL);
  g_assert_nonnull (entry);
  gtk_widget_grab_focus (entry);
  gtk_editable_set_text (GTK_EDITABLE (entry), "1,5");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  g_assert_nonnull (hob_window_said (window));
  g_assert_nonnull (strstr (hob_window_said (window), "decimal point"));
  gtk_editable_set_text (GTK_EDITABLE (entry), "108 V");
  hand_key (GTK_WIDGET (window), XK_Return, 0);
  g_assert_null (hob_window_said (window));
  WAIT_FOR (hob_moment_part (hob_session_moment (session), part)->set[setting] == 108);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  hand_close (window);
}

/* How bad a fault is can be said before it is put in and while it is there. */
static void
how_bad_a_fault_is_is_set_by_hand (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  int part = part_of (window, "igniter-bake");
  GtkWidget *spin;

  click_part (window, "igniter-bake");
  spin = hand_find (GTK_WIDGET (window), GTK_TYPE_SPIN_BUTTON, NULL);
  g_assert_nonnull (spin);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), 30);
  g_assert_true (isnan (hob_moment_fault (hob_session_moment (session), part, 0)));
  click_button (window, "Add");
  WAIT_FOR (hob_moment_fault (hob_session_moment (session), part, 0) == 0.3);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), 80);
  WAIT_FOR (hob_moment_fault (hob_session_moment (session), part, 0) == 0.8);
  click_button (window, "Remove");
  WAIT_FOR (isnan (hob_moment_fault (hob_session_moment (session), part, 0)));
  hand_close (window);
}

/* The first drop-down below @root that is on the screen; NULL: none. */
static GtkWidget *
drop_down_in (GtkWidget *root)
{
  if (!gtk_widget_get_mapped (root))
    return NULL;
  if (GTK_IS_DROP_DOWN (root))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = drop_down_in (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
what_is_one_of_few_is_picked (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  GtkWidget *panel, *drop;
  int part, setting;

  g_assert_true (hob_range_find_setting (hob_session_range (session), "regulator.cap", &part,
                                         &setting, NULL));
  gtk_widget_activate_action (GTK_WIDGET (window), "win.sheet", "s", "gas");
  click_part (window, "regulator");
  panel = hand_find (GTK_WIDGET (window), HOB_TYPE_PART_PANEL, NULL);
  drop = drop_down_in (panel);
  g_assert_nonnull (drop);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (drop), 1);
  WAIT_FOR (hob_moment_part (hob_session_moment (session), part)->set[setting] == 1);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (gtk_drop_down_get_selected (GTK_DROP_DOWN (drop)) == 0);
  hand_close (window);
}

/* Keys hold each other out, and undo presses the one before. */
static void
keys_of_a_board_are_pressed (void)
{
  HobWindow *window = hand_open (app, "board-five", 1560, 940);

  hand_click_button (GTK_WIDGET (hob_window_front (window)), "BAKE");
  WAIT_FOR (control_value (window, "oven.mode") == 1);
  hand_click_button (GTK_WIDGET (hob_window_front (window)), "BROIL");
  WAIT_FOR (control_value (window, "oven.mode") == 2);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (control_value (window, "oven.mode") == 1);
  hand_key (GTK_WIDGET (window), XK_z, XK_Control_L);
  WAIT_FOR (control_value (window, "oven.mode") == 0);
  hand_close (window);
}

/* The first label that has these words in it. */
static GtkWidget *
label_with (GtkWidget *root, const char *words)
{
  GtkWidget *found = NULL;

  if (GTK_IS_LABEL (root) && strstr (gtk_label_get_text (GTK_LABEL (root)), words) != NULL)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = label_with (child, words);
  return found;
}

/* All parts in words: what a part is at, what it should be at, its fault; a row chooses its part,
 * and another range has other rows. */
static void
the_list_of_parts_says_what_the_sheet_draws (void)
{
  HobWindow *window = hand_open_weak (app, 1560, 940, 300000);
  HobSession *session = hob_window_session (window);
  g_autofree char *file = hob_range_locate ("board-five");
  g_autoptr (HobRange) other = hob_range_load (file, NULL, NULL);
  int igniter = part_of (window, "igniter-bake"), n = hob_session_range (session)->n_parts;
  g_autofree char *now_at = NULL;
  GtkWidget *parts, *list;
  GtkListBoxRow *row;

  hand_click_button (GTK_WIDGET (window), "All Parts");
  parts = hand_find (GTK_WIDGET (window), HOB_TYPE_PART_LIST, NULL);
  list = hand_find (parts, GTK_TYPE_LIST_BOX, NULL);
  WAIT_FOR (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), n - 1) != NULL);
  g_assert_null (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), n));
  row = gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), igniter);
  g_assert_nonnull (label_with (GTK_WIDGET (row), ", should be 3.5"));
  g_assert_nonnull (label_with (GTK_WIDGET (row), "; weak igniter"));
  now_at = g_strdup (gtk_label_get_text (GTK_LABEL (label_with (GTK_WIDGET (row), " A"))));
  hob_session_go (session, 1000); /* cold */
  WAIT_FOR (label_with (GTK_WIDGET (row), now_at) == NULL);
  gtk_list_box_select_row (GTK_LIST_BOX (list), row);
  g_assert_cmpint (hob_session_chosen_part (session), ==, igniter);
  hand_sleep (400); /* the part's page comes to the front */
  hand_click_button (GTK_WIDGET (window), "All Parts");
  WAIT_FOR (gtk_widget_get_mapped (parts));
  hob_session_open (session, other, NULL);
  hob_session_set_running (session, FALSE);
  WAIT_FOR (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), other->n_parts - 1) != NULL);
  g_assert_null (gtk_list_box_get_row_at_index (GTK_LIST_BOX (list), other->n_parts));
  hand_close (window);
}

/* What is over stays in the list, with the time when it was. */
static void
a_symptom_that_is_over_says_until_when (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  g_autoptr (GArray) noticed = NULL;
  gboolean over = FALSE;

  hand_act (window, HOB_ACT_FAULT, "module:dead", 1);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 20);
  hob_session_go (session, 12000);
  WAIT_FOR (now (window) == 12000 && !hob_session_busy (session));
  g_assert_cmpint (symptom_row (window, "no-spark-any"), >=, 0);
  hand_act (window, HOB_ACT_CONTROL, "knob-lf", 0);
  hob_session_go (session, 60000);
  WAIT_FOR (now (window) == 60000 && !hob_session_busy (session));
  WAIT_FOR (symptom_row (window, "no-spark-any") < 0);
  noticed = hob_session_noticed (session);
  for (guint k = 0; k < noticed->len; k++)
    {
      const HobNoticed *one = &g_array_index (noticed, HobNoticed, k);

      if (!g_str_equal (hob_symptom_book_get (hob_session_book (session), one->symptom)->id,
                        "no-spark-any"))
        continue;
      over = TRUE;
      g_assert_cmpint (one->until_ms, >=, 12000);
      g_assert_cmpint (one->until_ms, <=, 60000);
    }
  g_assert_true (over);
  hand_picture (GTK_WIDGET (window), "window-symptom-over.png");
  hand_close (window);
}

/* Nothing happens to a range that is off: two hours are looked through, and it is said. */
static void
the_next_event_may_be_none (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);

  hob_session_go (session, 500); /* and nothing has happened since the start */
  WAIT_FOR (now (window) == 500);
  hand_key (GTK_WIDGET (window), XK_p, 0);
  WAIT_FOR (now (window) == 0);
  for (int k = 0; k < 40 && hob_window_said (window) == NULL; k++)
    {
      gint64 before = now (window);

      hob_session_next_event (session);
      WAIT_FOR (!hob_session_busy (session));
      g_assert_true (now (window) > before || hob_window_said (window) != NULL);
    }
  g_assert_cmpstr (hob_window_said (window), ==, "Nothing else happens in the next two hours.");
  g_assert_false (hob_session_running (session));
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  hand_close (window);
}

/* Of a window that is made narrow one panel gives way; made wide again, all is as it was. */
static void
a_window_that_is_made_narrow_folds (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *front = GTK_WIDGET (hob_window_front (window)),
            *list = GTK_WIDGET (hob_window_symptoms (window));

  g_assert_true (gtk_widget_get_mapped (front) && gtk_widget_get_mapped (list));
  gtk_window_set_default_size (GTK_WINDOW (window), 1000, 700);
  WAIT_FOR (gtk_widget_get_width (GTK_WIDGET (window)) <= 1000);
  WAIT_FOR (!gtk_widget_get_mapped (list));
  g_assert_true (gtk_widget_get_mapped (front));
  gtk_window_set_default_size (GTK_WINDOW (window), 1560, 940);
  WAIT_FOR (gtk_widget_get_mapped (list) && gtk_widget_get_mapped (front));
  hand_close (window);
}

static void
the_speed_is_picked_and_the_bar_follows_keys (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobSession *session = hob_window_session (window);
  GtkWidget *speed = drop_down_in (GTK_WIDGET (window));
  guint first = gtk_drop_down_get_selected (GTK_DROP_DOWN (speed));

  gtk_drop_down_set_selected (GTK_DROP_DOWN (speed), first + 2);
  g_assert_cmpfloat (hob_session_speed (session), >, 1);
  hand_key (GTK_WIDGET (window), XK_bracketleft, 0);
  WAIT_FOR (gtk_drop_down_get_selected (GTK_DROP_DOWN (speed)) == first + 1);
  hand_close (window);
}

/* Chosen by hand, kept, and there again in a program that is started later. */
static void
the_look_that_was_chosen_is_kept (void)
{
  static const struct
  {
    const char *look;
    HobTheme theme;
  } looks[] = { { "dark", HOB_THEME_DARK }, { "light", HOB_THEME_LIGHT },
                { "system", HOB_THEME_LIGHT } };
  g_autoptr (GError) error = NULL;

  for (gsize k = 0; k < G_N_ELEMENTS (looks); k++)
    {
      g_autoptr (HobApp) later = hob_app_new ();
      g_autofree char *id = g_strconcat ("org.hobwright.Later.", looks[k].look, NULL);
      g_autoptr (GVariant) state = NULL;

      g_action_group_change_action_state (G_ACTION_GROUP (app), "look",
                                          g_variant_new_string (looks[k].look));
      g_assert_cmpint (hob_style_look (hob_app_style (app)).theme, ==, looks[k].theme);
      g_application_set_application_id (G_APPLICATION (later), id);
      g_application_register (G_APPLICATION (later), NULL, &error);
      g_assert_no_error (error);
      state = g_action_group_get_action_state (G_ACTION_GROUP (later), "look");
      g_assert_cmpstr (g_variant_get_string (state, NULL), ==, looks[k].look);
      g_assert_cmpint (hob_style_look (hob_app_style (later)).theme, ==, looks[k].theme);
    }
  g_action_group_change_action_state (G_ACTION_GROUP (app), "look",
                                      g_variant_new_string ("pink")); /* there is none */
  g_assert_cmpint (hob_style_look (hob_app_style (app)).theme, ==, HOB_THEME_LIGHT);
}

/* ---- A desktop that prefers dark ---- */

static void
on_settings_asked (GDBusConnection *bus, const char *sender, const char *path,
                   const char *interface, const char *method, GVariant *arguments,
                   GDBusMethodInvocation *call, gpointer user)
{
  g_dbus_method_invocation_return_value (
      call, g_variant_new ("(v)", g_variant_new_variant (g_variant_new_uint32 (1))));
}

static void
prefer (GDBusConnection *bus, const char *key, GVariant *value)
{
  g_autoptr (GError) error = NULL;

  g_dbus_connection_emit_signal (bus, NULL, "/org/freedesktop/portal/desktop",
                                 "org.freedesktop.portal.Settings", "SettingChanged",
                                 g_variant_new ("(ssv)", "org.freedesktop.appearance", key, value),
                                 &error);
  g_assert_no_error (error);
}

static void
the_desktops_preference_is_followed (void)
{
  static const char xml[]
      = "<node><interface name='org.freedesktop.portal.Settings'><method name='Read'>"
        "<arg type='s' direction='in'/><arg type='s' direction='in'/>"
        "<arg type='v' direction='out'/></method></interface></node>";
  static const GDBusInterfaceVTable table = { .method_call = on_settings_asked };
  g_autoptr (GError) error = NULL;
  g_autoptr (GDBusNodeInfo) node = g_dbus_node_info_new_for_xml (xml, &error);
  g_autoptr (GDBusConnection) bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, &error);
  g_autoptr (HobStyle) style = NULL;
  guint object, name;

  g_assert_no_error (error);
  hand_sleep (200); /* the program has asked for itself: nobody answers */
  object = g_dbus_connection_register_object (bus, "/org/freedesktop/portal/desktop",
                                              node->interfaces[0], &table, NULL, NULL, &error);
  g_assert_no_error (error);
  name = g_bus_own_name_on_connection (bus, "org.freedesktop.portal.Desktop",
                                       G_BUS_NAME_OWNER_FLAGS_NONE, NULL, NULL, NULL, NULL);
  hand_sleep (200);
  style = hob_style_new (gdk_display_get_default ());
  WAIT_FOR (hob_style_look (style).theme == HOB_THEME_DARK); /* as it says when asked … */
  prefer (bus, "color-scheme", g_variant_new_uint32 (2));
  WAIT_FOR (hob_style_look (style).theme == HOB_THEME_LIGHT); /* … and when it changes */
  prefer (bus, "accent-color", g_variant_new_uint32 (1));
  prefer (bus, "color-scheme", g_variant_new_string ("dark")); /* not what it should be */
  hand_sleep (200);
  g_assert_cmpint (hob_style_look (style).theme, ==, HOB_THEME_LIGHT);
  prefer (bus, "color-scheme", g_variant_new_uint32 (1));
  WAIT_FOR (hob_style_look (style).theme == HOB_THEME_DARK);
  hob_style_choose (style, HOB_STYLE_LIGHT); /* a person knows better */
  g_assert_cmpint (hob_style_look (style).theme, ==, HOB_THEME_LIGHT);
  hob_style_choose (style, HOB_STYLE_SYSTEM);
  prefer (bus, "color-scheme", g_variant_new_uint32 (0)); /* no preference: the toolkit's */
  WAIT_FOR (hob_style_look (style).theme == HOB_THEME_LIGHT);
  g_bus_unown_name (name);
  g_dbus_connection_unregister_object (bus, object);
}

static void
the_file_dialog_opens_once_and_closes (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  guint before = g_list_model_get_n_items (gtk_window_get_toplevels ());

  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.open", NULL));
  g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.open", NULL));
  WAIT_FOR (g_list_model_get_n_items (gtk_window_get_toplevels ()) == before + 1);
  hand_sleep (300);
  hand_close (window);
  WAIT_FOR (g_list_model_get_n_items (gtk_window_get_toplevels ()) == before - 1);
}

static void
the_keys_are_shown_without_a_warning (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  guint before = g_list_model_get_n_items (gtk_window_get_toplevels ());

  hand_key (GTK_WIDGET (window), XK_F1, 0);
  WAIT_FOR (g_list_model_get_n_items (gtk_window_get_toplevels ()) == before + 1);
  hand_sleep (300);
  hand_close (window);
  WAIT_FOR (g_list_model_get_n_items (gtk_window_get_toplevels ()) == before - 1);
}

/* A widget that takes focus says what it is: by its label property, or by the text on it. */
static gboolean
has_name (GtkWidget *widget)
{
  if (gtk_test_accessible_has_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL)
      || gtk_test_accessible_has_relation (GTK_ACCESSIBLE (widget),
                                           GTK_ACCESSIBLE_RELATION_LABELLED_BY))
    return TRUE;
  return (GTK_IS_BUTTON (widget) || GTK_IS_LABEL (widget))
         && hand_find (widget, GTK_TYPE_LABEL, NULL) != NULL;
}

static int
count_nameless (GtkWidget *widget, int *n)
{
  int nameless = 0;

  if (!gtk_widget_get_mapped (widget))
    return 0;
  if (gtk_widget_get_focusable (widget) && gtk_widget_get_can_focus (widget))
    {
      GtkWidget *parent = gtk_widget_get_parent (widget);

      (*n)++;
      /* The text inside an entry or a spin button is named by it. */
      if (!has_name (widget) && !(GTK_IS_EDITABLE (parent) && has_name (parent)))
        {
          g_test_message ("no name: %s in %s", G_OBJECT_TYPE_NAME (widget),
                          G_OBJECT_TYPE_NAME (parent));
          nameless++;
        }
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    nameless += count_nameless (child, n);
  return nameless;
}

static void
what_takes_focus_has_a_name (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  int n = 0;

  click_part (window, "igniter-bake");
  hand_settle (GTK_WIDGET (window));
  g_assert_cmpint (count_nameless (GTK_WIDGET (window), &n), ==, 0);
  g_assert_cmpint (n, >, 30);
  click_button (window, "All Parts");
  hand_settle (GTK_WIDGET (window));
  g_assert_cmpint (count_nameless (GTK_WIDGET (window), &n), ==, 0);
  hand_close (window);
}

/* From 1180 px on both panels are open, and the sheet keeps more than half of the width; on smaller
 * screens one panel at a time. */
static void
small_screens_leave_the_sheet_room (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1366, 768);
  GtkWidget *sheet = GTK_WIDGET (hob_window_sheet (window)),
            *front = GTK_WIDGET (hob_window_front (window)),
            *symptoms = GTK_WIDGET (hob_window_symptoms (window));

  click_part (window, "igniter-bake");
  g_assert_true (gtk_widget_get_mapped (front) && gtk_widget_get_mapped (symptoms));
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 1366);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 768);
  g_assert_cmpint (gtk_widget_get_width (sheet), >=, 700);
  hand_picture (GTK_WIDGET (window), "window-1366.png");
  hand_close (window);

  window = hand_open (app, "dial-four", 900, 600);
  sheet = GTK_WIDGET (hob_window_sheet (window));
  front = GTK_WIDGET (hob_window_front (window));
  symptoms = GTK_WIDGET (hob_window_symptoms (window));
  g_assert_true (gtk_widget_get_mapped (front) && !gtk_widget_get_mapped (symptoms));
  click_part (window, "igniter-bake");
  g_assert_true (!gtk_widget_get_mapped (front) && gtk_widget_get_mapped (symptoms));
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 900);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 600);
  g_assert_cmpint (gtk_widget_get_width (sheet), >=, 450);
  hand_picture (GTK_WIDGET (window), "window-900.png");
  hand_close (window);
}

/* Low volts are nobody's fault and ringed nowhere: words say them, and the window stays small. */
static void
low_voltage_is_said_in_words (void)
{
  const char *words = "Receptacle: 104 V, should be 120 V";
  HobWindow *window = hand_open (app, "dial-four", 900, 600);

  g_assert_null (label_with (GTK_WIDGET (window), words));
  hand_act (window, HOB_ACT_SETTING, "receptacle.volts", 104);
  WAIT_FOR (label_with (GTK_WIDGET (window), words) != NULL);
  hand_settle (GTK_WIDGET (window));
  g_assert_true (gtk_widget_get_mapped (label_with (GTK_WIDGET (window), words)));
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 900);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 600);
  hand_picture (GTK_WIDGET (window), "window-low-volts.png");
  hand_act (window, HOB_ACT_SETTING, "receptacle.volts", 120);
  WAIT_FOR (label_with (GTK_WIDGET (window), words) == NULL);
  hand_close (window);
}

/* The window after 70 s of bake with a burner lit, on each sheet. */
static void
picture_all_sheets (HobWindow *window, const char *look)
{
  static const char *const sheets[] = { "wiring", "gas", "cutaway" };

  click_word (window, "oven.mode", 1);
  click_word (window, "knob-lf", 20);
  click_part (window, "igniter-bake");
  set_speed (window, 60);
  run_until (window, 50000);
  set_speed (window, 1);
  hand_key (GTK_WIDGET (window), XK_space, 0);
  for (guint i = 0; i < G_N_ELEMENTS (sheets); i++)
    {
      g_autofree char *file = g_strdup_printf ("window-%s-%s.png", look, sheets[i]);

      g_assert_true (gtk_widget_activate_action (GTK_WIDGET (window), "win.sheet", "s", sheets[i]));
      hand_sleep (300);
      hand_picture (GTK_WIDGET (window), file);
    }
}

static void
pictures_in_light_and_dark (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);

  hob_style_choose (hob_app_style (app), HOB_STYLE_LIGHT);
  picture_all_sheets (window, "light");
  hand_close (window);
  window = hand_open (app, "dial-four", 1560, 940);
  hob_style_choose (hob_app_style (app), HOB_STYLE_DARK);
  g_assert_cmpint (hob_style_look (hob_app_style (app)).theme, ==, HOB_THEME_DARK);
  picture_all_sheets (window, "dark");
  hob_style_choose (hob_app_style (app), HOB_STYLE_SYSTEM);
  hand_close (window);
}

static void
picture_with_large_text (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  window = hand_open (app, "dial-four", 1560, 940);
  g_assert_cmpfloat (hob_style_look (hob_app_style (app)).text_scale, ==, 1.5);
  click_part (window, "igniter-bake");
  hand_sleep (200);
  hand_picture (GTK_WIDGET (window), "window-large-text.png");
  hand_close (window);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

static void
picture_in_high_contrast (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  g_autofree char *name = NULL;

  g_object_get (settings, "gtk-theme-name", &name, NULL);
  g_object_set (settings, "gtk-theme-name", "Default-hc", NULL);
  window = hand_open (app, "dial-four", 1560, 940);
  g_assert_cmpint (hob_style_look (hob_app_style (app)).theme, ==, HOB_THEME_CONTRAST_LIGHT);
  click_word (window, "oven.mode", 1);
  hand_sleep (200);
  hand_picture (GTK_WIDGET (window), "window-contrast.png");
  hand_close (window);
  g_object_set (settings, "gtk-theme-name", name, NULL);
}

/* The first widget below whose type is of no size that the style has; NULL: none. */
static GtkWidget *
odd_type (GtkWidget *root)
{
  static const double sizes[] = { 11, 13, 14, 16, 18 }; /* px */
  PangoContext *context = gtk_widget_get_pango_context (root);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  double px = (double)pango_font_description_get_size (font) / PANGO_SCALE;
  gboolean found = FALSE;

  if (!pango_font_description_get_size_is_absolute (font))
    px *= pango_cairo_context_get_resolution (context) / 72;
  for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++)
    found |= fabs (px - sizes[k]) < 0.01;
  if (!found)
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *odd = gtk_widget_get_mapped (child) ? odd_type (child) : NULL;

      if (odd != NULL)
        return odd;
    }
  return NULL;
}

/* Each size and weight more is a font that has to be found before the first frame. */
static void
the_window_has_few_sizes_of_type (void)
{
  HobWindow *window = hand_open (app, "board-five", 1400, 900);
  GtkWidget *odd = odd_type (GTK_WIDGET (window));

  if (odd != NULL)
    g_error ("%s has type of another size", gtk_widget_get_name (odd));
  hand_close (window);
}

/* By the name of the toolkit's theme, which for some is dark by itself. */
static void
the_theme_is_the_desktops (void)
{
  static const struct
  {
    const char *name;
    HobTheme theme;
  } named[] = {
    { "Default-hc", HOB_THEME_CONTRAST_LIGHT },
    { "HighContrastInverse", HOB_THEME_CONTRAST_DARK },
    { "HighContrast", HOB_THEME_CONTRAST_LIGHT },
    { "Default-hc-dark", HOB_THEME_CONTRAST_DARK },
    { "Adwaita-dark", HOB_THEME_DARK },
  };
  GtkSettings *settings = gtk_settings_get_default ();
  g_autofree char *name = NULL;

  g_object_get (settings, "gtk-theme-name", &name, NULL);
  for (gsize k = 0; k < G_N_ELEMENTS (named); k++)
    {
      g_object_set (settings, "gtk-theme-name", named[k].name, NULL);
      g_assert_cmpint (hob_style_look (hob_app_style (app)).theme, ==, named[k].theme);
    }
  g_setenv ("GTK_THEME", "HighContrast:dark", TRUE);
  g_object_set (settings, "gtk-theme-name", name, NULL);
  g_assert_cmpint (hob_style_look (hob_app_style (app)).theme, ==, HOB_THEME_CONTRAST_DARK);
  g_unsetenv ("GTK_THEME");
  g_object_notify (G_OBJECT (settings), "gtk-theme-name");
  g_assert_cmpint (hob_style_look (hob_app_style (app)).theme, ==, HOB_THEME_LIGHT);
}

/* Where sheet, panel and edge have one color, too. */
static void
what_is_under_the_pointer_shows (void)
{
  static const char *const themes[] = { "Default-hc", "Default-hc-dark" };
  GtkSettings *settings = gtk_settings_get_default ();
  g_autofree char *name = NULL;

  g_object_get (settings, "gtk-theme-name", &name, NULL);
  for (gsize k = 0; k < G_N_ELEMENTS (themes); k++)
    {
      HobWindow *window;
      GtkWidget *button;
      g_autoptr (GdkTexture) before = NULL, after = NULL;

      g_object_set (settings, "gtk-theme-name", themes[k], NULL);
      window = hand_open (app, "dial-four", 1400, 900);
      button = hand_find (GTK_WIDGET (window), GTK_TYPE_BUTTON, "All Parts");
      before = hand_texture (button);
      hand_move (button, 20, 10);
      WAIT_FOR ((gtk_widget_get_state_flags (button) & GTK_STATE_FLAG_PRELIGHT) != 0);
      hand_sleep (400); /* the theme fades it in */
      after = hand_texture (button);
      g_assert_false (same_pixels (before, after));
      hand_close (window);
    }
  g_object_set (settings, "gtk-theme-name", name, NULL);
}

/* The window as it is on screen: what isn't drawn anew is old. (transfer full) */
static GdkTexture *
with_focus_on (HobWindow *window, GtkWidget *widget)
{
  gtk_window_set_focus (GTK_WINDOW (window), widget);
  gtk_window_set_focus_visible (GTK_WINDOW (window), TRUE);
  hand_settle (GTK_WIDGET (window));
  return hand_texture (GTK_WIDGET (window));
}

/* Without a pointer nobody would know where keys go. */
static void
what_has_the_focus_shows_it (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  GtkWidget *const drawn[] = { hand_find (control_widget (window, "knob-lf"), GTK_TYPE_SCALE, NULL),
                               GTK_WIDGET (hob_window_sheet (window)),
                               GTK_WIDGET (hob_window_sequence (window)),
                               GTK_WIDGET (hob_window_chart (window)) };

  hob_session_set_running (hob_window_session (window), FALSE);
  for (gsize k = 0; k < G_N_ELEMENTS (drawn); k++)
    {
      g_autoptr (GdkTexture) without = with_focus_on (window, NULL);
      g_autoptr (GdkTexture) alone = with_focus_on (window, drawn[k]);
      g_autoptr (GdkTexture) no_longer = with_focus_on (window, NULL);

      g_assert_false (same_pixels (without, alone));
      g_assert_true (same_pixels (without, no_longer));
    }
  g_object_unref (with_focus_on (window, drawn[3]));
  hand_picture (GTK_WIDGET (window), "window-focus-chart.png");
  g_object_unref (with_focus_on (window, drawn[1]));
  hand_picture (GTK_WIDGET (window), "window-focus-sheet.png");
  hand_close (window);
}

/* The first label below that shows less than its words; NULL: none. */
static GtkWidget *
cut_label (GtkWidget *root)
{
  if (!gtk_widget_get_mapped (root) || !gtk_widget_get_child_visible (root))
    return NULL;
  if (GTK_IS_LABEL (root) && pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (root))))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = cut_label (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* Looking back, the row under the sheet says how far the timeline goes where there is room for all
 * of its words, and no button makes way for them. */
static void
the_row_of_time_cuts_no_words (void)
{
  static const int widths[] = { 900, 1180, 1400, 1560 };

  for (gsize k = 0; k < G_N_ELEMENTS (widths); k++)
    {
      HobWindow *window = hand_open (app, "dial-four", widths[k], 900);
      GtkWidget *speed = hand_find (GTK_WIDGET (window), GTK_TYPE_DROP_DOWN, NULL),
                *row = gtk_widget_get_parent (speed), *cut;
      graphene_rect_t before, after;

      hand_key (GTK_WIDGET (window), XK_period, 0);
      WAIT_FOR (now (window) == 1000);
      hand_settle (row);
      g_assert_true (gtk_widget_compute_bounds (speed, row, &before));
      hand_key (GTK_WIDGET (window), XK_comma, 0);
      WAIT_FOR (now (window) == 0);
      hand_settle (row);
      g_assert_true (gtk_widget_compute_bounds (speed, row, &after));
      g_assert_true (graphene_rect_equal (&before, &after));
      cut = cut_label (row);
      if (cut != NULL)
        g_error ("at %d px: \"%s\" is cut", widths[k], gtk_label_get_text (GTK_LABEL (cut)));
      hand_close (window);
    }
}

/* The name at the top: all of its words, and the window no larger for them. */
static void
expect_whole_name (HobWindow *window, const char *file, int width, int height)
{
  HobSession *session = hob_window_session (window);
  g_autoptr (HobOpening) opening = hob_opening_new (file);
  const char *name = hob_range_name (opening->range);
  GtkWidget *top = gtk_window_get_titlebar (GTK_WINDOW (window)), *label;
  int w, h;

  hob_session_open (session, opening->range, NULL);
  hand_settle (top);
  label = label_with (top, name);
  g_assert_nonnull (label);
  pango_layout_get_pixel_size (gtk_label_get_layout (GTK_LABEL (label)), &w, &h);
  if (cut_label (top) != NULL || gtk_widget_get_width (label) < w
      || gtk_widget_get_height (label) < h)
    g_error ("at %d px: \"%s\" is cut", width, name);
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, width);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, height);
}

/* On any screen and with large text. */
static void
a_range_has_its_whole_name (void)
{
  static const struct
  {
    int width, height;
    double text_scale;
  } screens[] = { { 900, 600, 1 },    { 900, 600, 1.5 },  { 1180, 768, 1 },
                  { 1200, 800, 1.5 }, { 1400, 900, 1.5 }, { 1560, 940, 1 } };
  g_autoptr (GPtrArray) ranges = hob_shipped_ranges ();
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  for (gsize k = 0; k < G_N_ELEMENTS (screens); k++)
    {
      HobWindow *window;
      g_autofree char *picture = g_strdup_printf ("window-name-%d-%g.png", screens[k].width,
                                                  screens[k].text_scale);

      g_object_set (settings, "gtk-xft-dpi", (int) (96 * 1024 * screens[k].text_scale), NULL);
      window = hand_open (app, "dial-four", screens[k].width, screens[k].height);
      for (guint i = 0; i < ranges->len; i++)
        expect_whole_name (window, ((HobShipped *) ranges->pdata[i])->file,
                           screens[k].width, screens[k].height);
      hand_picture (GTK_WIDGET (window), picture);
      hand_close (window);
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

int
main (int argc, char **argv)
{
  int result;

  app = hand_app (&argc, &argv);

  g_test_add_func ("/window/the-list-of-shortcuts-fits-a-small-screen",
                   the_list_of_shortcuts_fits_a_small_screen);
  g_test_add_func ("/window/every-template-instantiates", every_template_instantiates);
  g_test_add_func ("/window/opens-plugged-in-and-off", opens_plugged_in_and_off);
  g_test_add_func ("/window/weak-igniter-is-noticed-both-ways-in-time",
                   weak_igniter_is_noticed_both_ways_in_time);
  g_test_add_func ("/window/a-fault-from-the-start-replays-the-same-acts",
                   a_fault_from_the_start_replays_the_same_acts);
  g_test_add_func ("/window/one-drag-of-a-knob-lights-a-burner",
                   one_drag_of_a_knob_lights_a_burner);
  g_test_add_func ("/window/a-turn-is-undone-as-one", a_turn_is_undone_as_one);
  g_test_add_func ("/window/a-turn-while-paused-is-one-act", a_turn_while_paused_is_one_act);
  g_test_add_func ("/window/an-act-in-the-past-cuts-and-undo-brings-back",
                   an_act_in_the_past_cuts_and_undo_brings_back);
  g_test_add_func ("/window/knobs-answer-keys-and-wheel", knobs_answer_keys_and_wheel);
  g_test_add_func ("/window/switches-work-the-house", switches_work_the_house);
  g_test_add_func ("/window/the-space-bar-runs-and-pauses", the_space_bar_runs_and_pauses);
  g_test_add_func ("/window/every-button-has-a-tooltip", every_button_has_a_tooltip);
  g_test_add_func ("/window/main-menu-and-icon-come-by-themselves",
                   main_menu_and_icon_come_by_themselves);
  g_test_add_func ("/window/about-shows-its-icon-and-what-it-is-for",
                   about_shows_its_icon_and_what_it_is_for);
  g_test_add_func ("/window/chart-scrubs-both-ways", chart_scrubs_both_ways);
  g_test_add_func ("/window/events-are-stepped-both-ways", events_are_stepped_both_ways);
  g_test_add_func ("/window/motion-stops-on-hold", motion_stops_on_hold);
  g_test_add_func ("/window/reduced-motion-is-still", reduced_motion_is_still);
  g_test_add_func ("/window/zoom-keeps-the-point-under-the-pointer",
                   zoom_keeps_the_point_under_the_pointer);
  g_test_add_func ("/window/a-drag-pans-and-chooses-nothing", a_drag_pans_and_chooses_nothing);
  g_test_add_func ("/window/a-setting-is-typed-with-its-unit", a_setting_is_typed_with_its_unit);
  g_test_add_func ("/window/how-bad-a-fault-is-is-set-by-hand",
                   how_bad_a_fault_is_is_set_by_hand);
  g_test_add_func ("/window/what-is-one-of-few-is-picked", what_is_one_of_few_is_picked);
  g_test_add_func ("/window/keys-of-a-board-are-pressed", keys_of_a_board_are_pressed);
  g_test_add_func ("/window/the-list-of-parts-says-what-the-sheet-draws",
                   the_list_of_parts_says_what_the_sheet_draws);
  g_test_add_func ("/window/a-symptom-that-is-over-says-until-when",
                   a_symptom_that_is_over_says_until_when);
  g_test_add_func ("/window/the-next-event-may-be-none", the_next_event_may_be_none);
  g_test_add_func ("/window/a-window-that-is-made-narrow-folds",
                   a_window_that_is_made_narrow_folds);
  g_test_add_func ("/window/the-speed-is-picked-and-the-bar-follows-keys",
                   the_speed_is_picked_and_the_bar_follows_keys);
  g_test_add_func ("/window/the-look-that-was-chosen-is-kept", the_look_that_was_chosen_is_kept);
  g_test_add_func ("/window/the-desktops-preference-is-followed",
                   the_desktops_preference_is_followed);
  g_test_add_func ("/window/the-file-dialog-opens-once-and-closes",
                   the_file_dialog_opens_once_and_closes);
  g_test_add_func ("/window/the-keys-are-shown-without-a-warning",
                   the_keys_are_shown_without_a_warning);
  g_test_add_func ("/window/what-takes-focus-has-a-name", what_takes_focus_has_a_name);
  g_test_add_func ("/window/small-screens-leave-the-sheet-room",
                   small_screens_leave_the_sheet_room);
  g_test_add_func ("/window/low-voltage-is-said-in-words", low_voltage_is_said_in_words);
  g_test_add_func ("/window/pictures-in-light-and-dark", pictures_in_light_and_dark);
  g_test_add_func ("/window/picture-with-large-text", picture_with_large_text);
  g_test_add_func ("/window/picture-in-high-contrast", picture_in_high_contrast);
  g_test_add_func ("/window/the-window-has-few-sizes-of-type", the_window_has_few_sizes_of_type);
  g_test_add_func ("/window/the-theme-is-the-desktops", the_theme_is_the_desktops);
  g_test_add_func ("/window/what-is-under-the-pointer-shows", what_is_under_the_pointer_shows);
  g_test_add_func ("/window/the-row-of-time-cuts-no-words", the_row_of_time_cuts_no_words);
  g_test_add_func ("/window/what-has-the-focus-shows-it", what_has_the_focus_shows_it);
  g_test_add_func ("/window/a-range-has-its-whole-name", a_range_has_its_whole_name);
  result = g_test_run ();
  g_object_unref (app);
  return result;
}
