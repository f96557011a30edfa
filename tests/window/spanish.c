/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The window for a person whose language is Spanish and whose locale writes "77,0": numbers have a
 * decimal point all the same, as in the sentences around them. */

#include "base/i18n.h"
#include "hand.h"

#include <locale.h>
#include <string.h>

static HobApp *app;

/* How many texts with a figure there are below @widget; one with a decimal comma fails. */
static int
look_at_texts (GtkWidget *widget)
{
  static GRegex *comma = NULL;
  const char *text = GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : "";
  const char *tip = gtk_widget_get_tooltip_text (widget);
  int n = strpbrk (text, "0123456789") != NULL;

  if (comma == NULL) /* "1,090" is a thousand */
    comma = g_regex_new ("[0-9],([0-9]{1,2}|[0-9]{4,})([^0-9]|$)", 0, 0, NULL);
  if (g_regex_match (comma, text, 0, NULL) || (tip != NULL && g_regex_match (comma, tip, 0, NULL)))
    {
      g_test_message ("%s; %s", text, tip);
      g_test_fail ();
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += look_at_texts (child);
  return n;
}

static void
numbers_have_a_point (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1366, 768);
  HobSession *session = hob_window_session (window);
  const char *const parts[] = { "igniter-bake", "house", "oven", "burner-lf" };
  int n = 0;

  g_assert_cmpstr (setlocale (LC_MESSAGES, NULL), !=, "C");
  hand_act (window, HOB_ACT_FAULT, "igniter-bake:aged", 0.5);
  hand_act (window, HOB_ACT_CONTROL, "oven.mode", 1);
  hob_session_go (session, 61500);
  WAIT_FOR (hob_session_ms (session) == 61500);
  for (gsize k = 0; k < G_N_ELEMENTS (parts); k++)
    {
      hob_session_choose (session, hand_part (window, parts[k]), -1);
      hand_settle (GTK_WIDGET (window));
      n += look_at_texts (GTK_WIDGET (window));
    }
  g_assert_cmpint (n, >, 60);
  hand_key (GTK_WIDGET (window), XK_F7, 0);
  hand_sleep (500);
  look_at_texts (GTK_WIDGET (window));
  hand_close (window);
}

static GtkWidget *
label_of (GtkWidget *widget, const char *text)
{
  GtkWidget *found = NULL;

  if (GTK_IS_LABEL (widget) && g_str_equal (gtk_label_get_text (GTK_LABEL (widget)), text))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = label_of (child, text);
  return found;
}

/* The range's name is in the header, whole. */
static void
expect_named (HobWindow *window)
{
  const char *name = hob_range_name (hob_session_range (hob_window_session (window)));
  GtkWidget *label = label_of (gtk_window_get_titlebar (GTK_WINDOW (window)), name);

  g_test_message ("%s", name);
  g_assert_nonnull (label);
  g_assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (label))));
}

static void
names_are_whole_in_large_text (void)
{
  static const char *const ranges[]
      = { "board-five", "convection-fan", "dial-four", "lp-four", "pair-spark-four",
          "reignite-six", "round-dial" };
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  for (gsize k = 0; k < G_N_ELEMENTS (ranges); k++)
    {
      HobWindow *window = hand_open (app, ranges[k], 900, 600);

      hand_settle (GTK_WIDGET (window));
      expect_named (window);
      hand_close (window);
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* Longer words in larger letters: what stands side by side goes one below the other. */
static void
large_text_fits (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  HobWindow *window;
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  g_object_set (settings, "gtk-xft-dpi", 96 * 1024 * 3 / 2, NULL);
  window = hand_open (app, "dial-four", 900, 600);
  hand_settle (GTK_WIDGET (window));
  hand_picture (GTK_WIDGET (window), "window-spanish.png");
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 900);
  g_action_group_activate_action (G_ACTION_GROUP (window), "details", NULL);
  hob_session_choose (hob_window_session (window), hand_part (window, "igniter-bake"), -1);
  hand_settle (GTK_WIDGET (window));
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 900);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 600);
  g_action_group_activate_action (G_ACTION_GROUP (window), "suspects", NULL);
  hand_settle (GTK_WIDGET (window));
  hand_picture (GTK_WIDGET (window), "window-spanish-suspects.png");
  g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, 900);
  g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, 600);
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
  hand_close (window);
}

int
main (int argc, char **argv)
{
  int status;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, g_getenv ("HOB_TEST_CATALOGS"));
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  app = hand_app (&argc, &argv);
  g_test_add_func ("/window/spanish/numbers-have-a-point", numbers_have_a_point);
  g_test_add_func ("/window/spanish/large-text-fits", large_text_fits);
  g_test_add_func ("/window/spanish/names-are-whole-in-large-text",
                   names_are_whole_in_large_text);
  status = g_test_run ();
  g_clear_object (&app);
  return status;
}
