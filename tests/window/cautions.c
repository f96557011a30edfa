/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cautions in the window: always seen whole, each once, and none against another. */

#include "hand.h"

#include <math.h>
#include <string.h>

static HobApp *app; /* one for all tests of this program */

/* ---- What tests ask of a window ---- */

static HobSession *
session_of (HobWindow *window)
{
  return hob_window_session (window);
}

static void
go (HobWindow *window, gint64 ms)
{
  hob_session_go (session_of (window), ms);
  WAIT_FOR (hob_session_ms (session_of (window)) == ms && !hob_session_busy (session_of (window)));
  hand_settle (GTK_WIDGET (window));
}

static void
choose (HobWindow *window, const char *id)
{
  HobSession *session = session_of (window);

  hob_session_choose (session, hob_range_part (hob_session_range (session), id), -1);
  hand_settle (GTK_WIDGET (window));
}

/* How many labels on the screen have @text in them. */
static int
count_text (GtkWidget *widget, const char *text)
{
  int n = 0;

  if (!gtk_widget_get_mapped (widget))
    return 0;
  if (GTK_IS_LABEL (widget))
    n = strstr (gtk_label_get_text (GTK_LABEL (widget)), text) != NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_text (child, text);
  return n;
}

/* The label of the strip that is on the screen. */
static GtkWidget *
shown_label (GtkWidget *widget)
{
  if (!gtk_widget_get_mapped (widget))
    return NULL;
  if (GTK_IS_LABEL (widget))
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = shown_label (child);

      if (found != NULL)
        return found;
    }
  return NULL;
}

/* Its words are laid out whole, inside the strip and inside the window. */
static void
expect_whole (HobWindow *window)
{
  GtkWidget *bar = GTK_WIDGET (hob_window_cautions (window)), *label = shown_label (bar);
  PangoLayout *layout;
  graphene_rect_t box;
  int w, h, x, y;

  g_assert_nonnull (label);
  layout = gtk_label_get_layout (GTK_LABEL (label));
  gtk_label_get_layout_offsets (GTK_LABEL (label), &x, &y);
  pango_layout_get_pixel_size (layout, &w, &h);
  g_assert_false (pango_layout_is_ellipsized (layout));
  g_assert_cmpint (y + h, <=, gtk_widget_get_height (label));
  g_assert_cmpint (x + w, <=, gtk_widget_get_width (label));
  g_assert_true (gtk_widget_compute_bounds (label, GTK_WIDGET (window), &box));
  g_assert_cmpfloat (box.origin.x, >=, 0);
  g_assert_cmpfloat (box.origin.x + box.size.width, <=, gtk_widget_get_width (GTK_WIDGET (window)));
  g_assert_cmpfloat (box.origin.y + box.size.height, <=,
                     gtk_widget_get_height (GTK_WIDGET (window)));
}

static int
words_height (GtkWidget *label)
{
  int h;

  pango_layout_get_pixel_size (gtk_label_get_layout (GTK_LABEL (label)), NULL, &h);
  return h;
}

/* What is beside the words: the button. */
static int
button_height (GtkWidget *label)
{
  return gtk_widget_get_height (gtk_widget_get_next_sibling (gtk_widget_get_parent (label)));
}

/* Every caution, with all that circumstances add, in the same height: that of the longest. */
static void
expect_every_caution_whole (HobWindow *window)
{
  HobCautionBar *bar = hob_window_cautions (window);
  GtkWidget *label;
  int height, tallest = 0;

  hob_caution_bar_show (bar, 0);
  hand_settle (GTK_WIDGET (window));
  height = gtk_widget_get_height (GTK_WIDGET (bar));
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    {
      g_autofree char *text = hob_hazard_text ((HobHazard) h, HOB_HAZARD_IF_ANY);

      hob_caution_bar_show (bar, HOB_HAZARD_BIT (h) | HOB_HAZARD_IF_ANY);
      hand_settle (GTK_WIDGET (window));
      label = shown_label (GTK_WIDGET (bar));
      g_assert_cmpint (count_text (label, text), ==, 1);
      expect_whole (window);
      g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (bar)), ==, height);
      tallest = MAX (tallest, words_height (label));
    }
  g_assert_cmpint (gtk_widget_get_height (label), ==, MAX (tallest, button_height (label)));
}

static void
open_panel (HobWindow *window, const char *action, gboolean open)
{
  g_autoptr (GVariant) state
      = g_action_group_get_action_state (G_ACTION_GROUP (window), action);

  if (g_variant_get_boolean (state) != open)
    g_action_group_activate_action (G_ACTION_GROUP (window), action, NULL);
  hand_settle (GTK_WIDGET (window));
}

/* ---- Tests ---- */

static void
no_caution_is_clipped (void)
{
  static const struct
  {
    int width, height;
    double scale;
    gboolean front;
  } screens[] = { { 1560, 940, 1, TRUE },  { 1400, 900, 1, TRUE },  { 1366, 768, 1, FALSE },
                  { 900, 600, 1, TRUE },   { 900, 600, 1.5, TRUE }, { 900, 600, 1.5, FALSE },
                  { 1366, 768, 1.5, TRUE } };
  GtkSettings *settings = gtk_settings_get_default ();
  int dpi;

  g_object_get (settings, "gtk-xft-dpi", &dpi, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (screens); i++)
    {
      HobWindow *window;
      g_autofree char *name = g_strdup_printf ("cautions-%d-%d-%g%s.png", screens[i].width,
                                               screens[i].height, screens[i].scale,
                                               screens[i].front ? "-front" : "");

      g_object_set (settings, "gtk-xft-dpi", (int) (96 * 1024 * screens[i].scale), NULL);
      window = hand_open (app, "dial-four", screens[i].width, screens[i].height);
      hand_sleep (100);
      open_panel (window, "front", screens[i].front);
      open_panel (window, "details", !screens[i].front);
      if (!screens[i].front) /* with all that its panel has */
        hob_session_choose (hob_window_session (window), hand_part (window, "igniter-bake"), -1);
      g_test_message ("%s: %d × %d", name, gtk_widget_get_width (GTK_WIDGET (window)),
                      gtk_widget_get_height (GTK_WIDGET (window)));
      expect_every_caution_whole (window);
      hob_caution_bar_show (hob_window_cautions (window),
                            HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG) | HOB_HAZARD_IF_LP);
      hand_settle (GTK_WIDGET (window));
      hand_picture (GTK_WIDGET (window), name);
      g_assert_cmpint (gtk_widget_get_width (GTK_WIDGET (window)), <=, screens[i].width);
      g_assert_cmpint (gtk_widget_get_height (GTK_WIDGET (window)), <=, screens[i].height);
      hand_close (window);
    }
  g_object_set (settings, "gtk-xft-dpi", dpi, NULL);
}

/* Gas into an oven that is off: the strip says so whatever is hidden, and nothing moved for it. */
static void
gas_is_shown_whatever_is_hidden (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1400, 900);
  HobCautionBar *bar = hob_window_cautions (window);
  GtkWidget *knob = hand_find (GTK_WIDGET (window), GTK_TYPE_BUTTON, "Run");
  graphene_rect_t before, after;
  HobHazards now;

  hand_act (window, HOB_ACT_FAULT, "valve-bake:stuck-open", 1);
  g_assert_cmpuint (hob_caution_bar_hazards (bar), ==, HOB_HAZARD_BIT (HOB_HAZARD_ALWAYS));
  g_assert_true (gtk_widget_compute_bounds (knob, GTK_WIDGET (window), &before));
  open_panel (window, "details", FALSE);
  open_panel (window, "front", FALSE);
  go (window, 120000);
  now = hob_session_hazards (session_of (window));
  g_assert_true (now & HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG));
  g_assert_true (hob_caution_bar_hazards (bar) & HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG));
  g_assert_cmpint (count_text (GTK_WIDGET (window), "Get everyone out now."), ==, 1);
  expect_whole (window);
  g_assert_true (gtk_widget_compute_bounds (knob, GTK_WIDGET (window), &after));
  g_assert_cmpfloat (after.origin.y, ==, before.origin.y);
  hand_picture (GTK_WIDGET (window), "cautions-gas.png");
  go (window, 0);
  g_assert_cmpuint (hob_caution_bar_hazards (bar), ==, HOB_HAZARD_BIT (HOB_HAZARD_ALWAYS));
  hand_close (window);
}

/* Nobody is told how to measure while gas escapes. */
static void
first_make_it_safe (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);

  choose (window, "igniter-bake");
  g_assert_cmpint (count_text (GTK_WIDGET (window), "How to confirm"), >, 0);
  g_assert_cmpint (count_text (GTK_WIDGET (window), "First make it safe."), ==, 0);
  hand_act (window, HOB_ACT_FAULT, "valve-bake:stuck-open", 1);
  go (window, 120000);
  g_assert_cmpint (count_text (GTK_WIDGET (window), "How to confirm"), ==, 0);
  g_assert_cmpint (count_text (GTK_WIDGET (window), "First make it safe."), >, 0);
  hand_picture (GTK_WIDGET (window), "cautions-first-safe.png");
  hand_close (window);
}

/* Beside the words that say how a fault is confirmed, of every part, whether or not it has the
 * fault. */
static void
faults_show_their_hazards_always (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  const HobRange *range = hob_session_range (session_of (window));
  int n = 0;

  for (int p = 0; p < range->n_parts; p++)
    {
      const HobKind *kind = range->parts[p].kind;

      choose (window, range->parts[p].id);
      for (int f = 0; f < kind->n_faults; f++)
        {
          HobHazards set = hob_fault_hazards (kind, &kind->faults[f]);

          if (!hob_range_has_fault (range, p, f))
            continue;
          for (int h = hob_hazards_next (set, -1); h >= 0; h = hob_hazards_next (set, h))
            {
              g_autofree char *text = hob_hazard_text ((HobHazard) h, 0);

              g_assert_cmpint (count_text (GTK_WIDGET (window), text), ==, 1);
              n++;
            }
        }
    }
  g_test_message ("%d hazards of faults", n);
  g_assert_cmpint (n, >, 100);
  choose (window, "valve-bake");
  hand_picture (GTK_WIDGET (window), "cautions-part.png");
  hand_close (window);
}

/* What a person must do never contradicts what is shown beside it: while gas is in the air, nothing
 * on the screen has them pull a plug, switch something or light it, except to say "don't".  Only a
 * shock is graver than a faint smell, and then nothing is said of the smell. */
static void
expect_no_contradiction (GtkWidget *window, HobHazards set)
{
  static const char *const sparks[] = { "Unplug the range",     "Turn off its breaker",
                                        "Turn off the breaker", "Reset it once",
                                        "Plug in, read",        "Hold the lit match" };
  HobHazards shown = hob_hazards_shown (set);

  for (int h = hob_hazards_next (shown, -1); h >= 0; h = hob_hazards_next (shown, h))
    {
      g_autofree char *text = hob_hazard_text ((HobHazard) h, shown);

      g_assert_cmpint (count_text (window, text), ==, 1);
    }
  for (guint i = 0; i < G_N_ELEMENTS (sparks) && !(shown & HOB_HAZARD (SHOCK)); i++)
    g_assert_cmpint (count_text (window, sparks[i]), ==, 0);
}

static gboolean
says_gas (HobHazards set)
{
  const HobHazards gas
      = HOB_HAZARD_BIT (HOB_HAZARD_GAS_STRONG) | HOB_HAZARD_BIT (HOB_HAZARD_GAS_FAINT);

  return (set & gas) != 0;
}

static gboolean
says_stop (HobHazards set)
{
  return (set & (HOB_HAZARD_BIT (HOB_HAZARD_STOP_USING + 1) - 1)) != 0;
}

static void
open_more (HobWindow *window)
{
  GtkWidget *more
      = hand_find (GTK_WIDGET (hob_window_cautions (window)), GTK_TYPE_MENU_BUTTON, NULL);

  if (gtk_widget_get_sensitive (more))
    gtk_menu_button_popup (GTK_MENU_BUTTON (more));
  hand_settle (GTK_WIDGET (window));
}

/* All pairs of a smell of gas and any symptom for which the range must be stopped. */
static void
no_pair_contradicts_itself (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobCautionBar *bar = hob_window_cautions (window);
  const HobSymptomBook *book = hob_session_book (session_of (window));
  int n = 0;

  for (int a = 0; a < hob_symptom_book_size (book); a++)
    for (int b = 0; b < hob_symptom_book_size (book); b++)
      {
        HobHazards gas = hob_symptom_book_get (book, a)->hazards,
                   stop = hob_symptom_book_get (book, b)->hazards;

        if (!says_gas (gas) || !says_stop (stop))
          continue;
        hob_caution_bar_show (bar, gas | stop);
        open_more (window);
        expect_no_contradiction (GTK_WIDGET (window), gas | stop);
        n++;
      }
  g_test_message ("%d pairs", n);
  g_assert_cmpint (n, >, 20);
  hand_close (window);
}

/* The others are behind a button; the strip has the gravest. */
static void
more_cautions_are_behind_a_button (void)
{
  HobWindow *window = hand_open (app, "dial-four", 1560, 940);
  HobHazards set = HOB_HAZARD_BIT (HOB_HAZARD_GAS_GATHERED) | HOB_HAZARD_BIT (HOB_HAZARD_CO_FLAME)
                   | HOB_HAZARD_BIT (HOB_HAZARD_HOT_IGNITER);
  g_autofree char *co = hob_hazard_text (HOB_HAZARD_CO_FLAME, 0);

  hob_caution_bar_show (hob_window_cautions (window), set);
  hand_settle (GTK_WIDGET (window));
  g_assert_cmpint (count_text (GTK_WIDGET (window), "Don't try to light the burner again yet."), ==,
                   1);
  g_assert_cmpint (count_text (GTK_WIDGET (window), co), ==, 0);
  hand_click_button (GTK_WIDGET (window), "More Cautions");
  WAIT_FOR (count_text (GTK_WIDGET (window), co) == 1);
  g_assert_cmpint (count_text (GTK_WIDGET (window), "ten minutes"), ==, 1);
  hand_sleep (200);
  hand_screen ("cautions-more.png");
  hand_key (GTK_WIDGET (window), XK_Escape, 0);
  hand_sleep (200);
  hand_close (window);
}

int
main (int argc, char **argv)
{
  int result;

  app = hand_app (&argc, &argv);

  g_test_add_func ("/window/cautions/no-caution-is-clipped", no_caution_is_clipped);
  g_test_add_func ("/window/cautions/gas-is-shown-whatever-is-hidden",
                   gas_is_shown_whatever_is_hidden);
  g_test_add_func ("/window/cautions/first-make-it-safe", first_make_it_safe);
  g_test_add_func ("/window/cautions/faults-show-their-hazards-always",
                   faults_show_their_hazards_always);
  g_test_add_func ("/window/cautions/no-pair-contradicts-itself", no_pair_contradicts_itself);
  g_test_add_func ("/window/cautions/more-cautions-are-behind-a-button",
                   more_cautions_are_behind_a_button);
  result = g_test_run ();
  g_object_unref (app);
  return result;
}
