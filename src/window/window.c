/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/window-private.h"

#include "base/i18n.h"
#include "window/app.h"
#include "window/keys.h"
#include "window/room.h"
#include "window/words.h"

#define TIME_REFRESH_US 80000

G_DEFINE_FINAL_TYPE (HobWindow, hob_window, GTK_TYPE_APPLICATION_WINDOW)

/* As the drop-down in the template lists them. */
const double hob_window_speeds[] = { 0.25, 0.5, 1, 2, 5, 10, 30, 60, 120, 300, 600, 0 };

/* ---- The bar ---- */

/* What is not revealed is not shown either: the toolkit would still lay it out. */
void
hob_window_reveal (GtkRevealer *revealer, gboolean open)
{
  if (open)
    gtk_widget_set_visible (GTK_WIDGET (revealer), TRUE);
  gtk_revealer_set_reveal_child (revealer, open);
}

static void
on_revealed (GtkRevealer *revealer, GParamSpec *pspec, HobWindow *self)
{
  if (!gtk_revealer_get_reveal_child (revealer))
    gtk_widget_set_visible (GTK_WIDGET (revealer), FALSE);
}

void
hob_window_say (HobWindow *self, const char *line)
{
  if (line != NULL)
    gtk_label_set_text (self->said, line);
  gtk_widget_set_visible (self->reload_button, FALSE);
  hob_window_reveal (self->bar, line != NULL);
}

const char *
hob_window_said (HobWindow *self)
{
  return gtk_revealer_get_reveal_child (self->bar) ? gtk_label_get_text (self->said) : NULL;
}

static void
on_trouble (HobSession *session, const char *line, HobWindow *self)
{
  hob_window_say (self, line);
}

static void
on_bar_close (GtkButton *button, HobWindow *self)
{
  hob_window_say (self, NULL);
}

static void
on_check_again (HobFindingList *list, HobWindow *self)
{
  gtk_widget_activate_action (GTK_WIDGET (self), "win.reload", NULL);
}

static void
on_findings_closed (HobFindingList *list, HobWindow *self)
{
  hob_window_hide_findings (self);
}

/* ---- Time goes on ---- */

static gboolean
on_tick (GtkWidget *widget, GdkFrameClock *clock, gpointer user)
{
  HobWindow *self = HOB_WINDOW (widget);
  gint64 now = gdk_frame_clock_get_frame_time (clock);
  double wall = self->last_frame > 0 ? (double)(now - self->last_frame) / G_USEC_PER_SEC : 0;

  self->last_frame = now;
  if (hob_window_tick_beside (self, wall))
    return G_SOURCE_CONTINUE;
  if (hob_session_running (self->session))
    hob_sheet_view_tick (self->sheet, wall);
  hob_session_tick (self->session, wall);
  return G_SOURCE_CONTINUE;
}

static void
follow_pace (HobWindow *self)
{
  gboolean busy = hob_session_busy (self->session);

  if (busy && self->tick == 0)
    {
      self->last_frame = 0;
      self->tick = gtk_widget_add_tick_callback (GTK_WIDGET (self), on_tick, NULL, NULL);
    }
  else if (!busy && self->tick != 0)
    {
      gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
      self->tick = 0;
    }
}

static void
show_time (HobWindow *self)
{
  gint64 ms = hob_session_ms (self->session), reached = hob_session_reached_ms (self->session);
  g_autofree char *now = hob_clock_text (ms), *end = hob_clock_text (reached);
  g_autofree char *record
      = ms < reached ? g_strdup_printf (_ ("timeline ends at %s"), end) : g_strdup ("");
  g_autofree char *house = hob_house_off_words (hob_session_range (self->session),
                                                hob_session_moment (self->session));

  self->time_shown_at = g_get_monotonic_time ();
  hob_label_show (self->time_label, now);
  hob_label_show (self->record_label, record);
  hob_label_show (self->house_label, house != NULL ? house : "");
  gtk_widget_set_visible (GTK_WIDGET (self->house_label), house != NULL);
}

static void
show_count (HobWindow *self)
{
  guint n = 0;
  g_autofree char *text = NULL, *say = NULL;

  for (guint i = 0; i < hob_symptom_list_size (self->symptoms); i++)
    n += hob_symptom_list_get (self->symptoms, i)->until_ms < 0;
  text = n > 0 ? g_strdup_printf ("%u", n) : g_strdup ("");
  say = g_strdup_printf (ngettext ("%u symptom", "%u symptoms", n), n);
  hob_label_show (self->rail_count, text);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->rail_count), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  say, -1);
}

static void
on_moved (HobWindow *self)
{
  if (!hob_session_running (self->session)
      || g_get_monotonic_time () - self->time_shown_at >= TIME_REFRESH_US)
    {
      show_time (self);
      show_count (self);
      hob_caution_bar_show (self->cautions, hob_session_hazards (self->session)
                                                | hob_suspect_column_hazards (self->suspects));
      hob_window_update_actions (self);
    }
}

static void
on_pace (HobWindow *self)
{
  guint i = 0;

  while (hob_window_speeds[i + 1] > 0 && hob_window_speeds[i] < hob_session_speed (self->session))
    i++;
  self->showing = TRUE;
  gtk_drop_down_set_selected (self->speed, i);
  self->showing = FALSE;
  follow_pace (self);
  show_time (self);
  hob_window_update_actions (self);
}

static void
on_speed (GtkDropDown *drop, GParamSpec *pspec, HobWindow *self)
{
  if (self->session != NULL && !self->showing)
    hob_session_set_speed (self->session, hob_window_speeds[gtk_drop_down_get_selected (drop)]);
}

/* ---- Panels and rails ---- */

/* What is about to be hidden hands its focus to the sheet. */
static void
keep_focus (HobWindow *self, GtkWidget *hidden)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (hidden != NULL && focus != NULL && gtk_widget_is_ancestor (focus, hidden))
    gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (self->sheet));
}

void
hob_window_show_panel (HobWindow *self, gboolean front, gboolean open)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), front ? "front" : "details");

  keep_focus (self, open ? NULL : front ? self->front_panel : self->details_panel);
  gtk_widget_set_visible (front ? self->front_panel : self->details_panel, open);
  gtk_widget_set_visible (front ? self->front_rail : self->details_rail, !open);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (open));
  hob_window_fit_beside (self);
}

void
hob_window_open_panel (HobWindow *self, gboolean front, gboolean open)
{
  hob_window_show_panel (self, front, open);
  if (!self->narrow)
    *(front ? &self->wants_front : &self->wants_details) = open;
  if (!open || !self->narrow)
    return;
  hob_window_show_panel (self, !front, FALSE);
  hob_window_open_suspects (self, FALSE);
}

/* In a narrow window: one of the panels, the range's name in smaller letters, and more room for
 * cautions. */
static void
fold (HobWindow *self)
{
  static const char narrow[] = "narrow";

  (self->narrow ? gtk_widget_add_css_class : gtk_widget_remove_css_class) (
      GTK_WIDGET (self->range_name), narrow);
  hob_caution_bar_fold (self->cautions, self->narrow);
  hob_window_show_panel (self, TRUE, self->wants_front);
  hob_window_show_panel (self, FALSE, !self->narrow && self->wants_details);
}

static gboolean
on_fold (gpointer user)
{
  HobWindow *self = user;

  self->fold_idle = 0;
  if (self->narrow)
    hob_window_open_suspects (self, FALSE);
  fold (self);
  return G_SOURCE_REMOVE;
}

static gboolean
is_narrow (HobWindow *self, int width)
{
  return self->style != NULL
         && width < HOB_WINDOW_NARROW * hob_style_look (self->style).text_scale;
}

static void
follow_width (HobWindow *self)
{
  gboolean narrow = is_narrow (self, self->width);

  if (narrow == self->narrow || self->width == 0)
    return;
  self->narrow = narrow;
  if (self->fold_idle == 0)
    self->fold_idle = g_idle_add (on_fold, self);
}

static void
on_surface_layout (GdkSurface *surface, int width, int height, HobWindow *self)
{
  self->width = width;
  self->height = height;
  follow_width (self);
  if (self->beside != NULL)
    hob_window_fit_beside (self);
}

/* Before the window asks for its size: two panels would make a small window larger than it should
 * be. */
static void
fold_for_default_size (HobWindow *self)
{
  int width, height;

  gtk_window_get_default_size (GTK_WINDOW (self), &width, &height);
  self->narrow = is_narrow (self, width);
  fold (self);
}

/* What isn't seen in the first frame.  Each tooltip asks the X server where the pointer is, the
 * icon is for whoever lists windows (a library that reads SVG is loaded for it), and a list's names
 * are for whoever doesn't see it. */
static gboolean
on_finish (gpointer user)
{
  HobWindow *self = user;

  self->finish_idle = 0;
  if (gtk_window_get_default_icon_name () == NULL)
    gtk_window_set_default_icon_name (HOB_APPLICATION_ID);
  hob_drop_down_name (self->speed, _ ("Speed"));
  hob_keys_add_tooltips (GTK_WIDGET (self));
  hob_window_add_menu (self);
  return G_SOURCE_REMOVE;
}

static void
on_first_frame (GdkFrameClock *clock, HobWindow *self)
{
  g_signal_handlers_disconnect_by_func (clock, on_first_frame, self);
  if (self->finish_idle == 0)
    self->finish_idle = g_idle_add (on_finish, self);
}

static void
hob_window_realize (GtkWidget *widget)
{
  fold_for_default_size (HOB_WINDOW (widget));
  GTK_WIDGET_CLASS (hob_window_parent_class)->realize (widget);
  g_signal_connect_object (gtk_widget_get_frame_clock (widget), "after-paint",
                           G_CALLBACK (on_first_frame), widget, 0);
  g_signal_connect_object (gtk_native_get_surface (GTK_NATIVE (widget)), "layout",
                           G_CALLBACK (on_surface_layout), widget, 0);
}

/* ---- Choice, look, range ---- */

static void
on_chosen (HobWindow *self)
{
  gboolean any = hob_session_chosen_part (self->session) >= 0
                 || hob_session_chosen_wire (self->session) >= 0;

  if (!any || self->beside != NULL)
    return;
  gtk_stack_set_visible_child_name (self->right_stack, "part");
  hob_window_open_panel (self, FALSE, TRUE);
}

static void
on_style (HobWindow *self)
{
  HobLook look = hob_style_look (self->style);

  hob_sheet_view_set_look (self->sheet, look, hob_style_still (self->style));
  hob_sequence_bar_set_look (self->sequence, look);
  hob_why_bar_set_look (self->why, look);
  hob_chart_view_set_look (self->chart, look);
  follow_width (self);
}

/* A sheet that has no room yet has no zoom to show. */
static void
on_framed (HobSheetView *sheet, HobWindow *self)
{
  /* Translators: how much the sheet is enlarged. */
  g_autofree char *text = g_strdup_printf (_ ("%.0f%%"), hob_sheet_view_zoom (sheet) * 100);

  hob_label_show (self->zoom_label, gtk_widget_get_width (GTK_WIDGET (sheet)) > 0 ? text : "");
  if (self->session != NULL)
    hob_window_update_actions (self);
}

static void
on_went (HobSequenceBar *bar, int part, HobWindow *self)
{
  hob_window_show_part (self, part);
}

static void
on_suspect (HobSymptomList *list, guint row, HobWindow *self)
{
  HobNoticed noticed = *hob_symptom_list_get (list, row);

  hob_window_drop_beside (self);
  hob_window_open_suspects (self, TRUE);
  hob_suspect_column_add_symptom (self->suspects, noticed.symptom, noticed.part);
}

static void
on_why (HobSymptomList *list, guint row, HobWindow *self)
{
  HobNoticed noticed = *hob_symptom_list_get (list, row);

  hob_window_ask_why (self, noticed.symptom, noticed.part);
}

static void
on_opened (HobWindow *self)
{
  const HobRange *range = hob_session_range (self->session);
  g_autofree char *title = g_strdup_printf (_ ("%s – Hobwright"), hob_range_name (range));

  gtk_label_set_text (self->range_name, hob_range_name (range));
  gtk_widget_set_tooltip_text (GTK_WIDGET (self->range_name), hob_range_note (range));
  gtk_window_set_title (GTK_WINDOW (self), title);
  show_time (self);
}

HobSession *
hob_window_session (HobWindow *self)
{
  return self->session;
}

HobFront *
hob_window_front (HobWindow *self)
{
  return self->front;
}

HobSheetView *
hob_window_sheet (HobWindow *self)
{
  return self->sheet;
}

HobSequenceBar *
hob_window_sequence (HobWindow *self)
{
  return self->sequence;
}

HobChartView *
hob_window_chart (HobWindow *self)
{
  return self->chart;
}

HobSymptomList *
hob_window_symptoms (HobWindow *self)
{
  return self->symptoms;
}

HobWhyBar *
hob_window_why (HobWindow *self)
{
  return hob_why_bar_size (self->why) > 0 ? self->why : NULL;
}

HobSuspectColumn *
hob_window_suspects (HobWindow *self)
{
  return self->suspects;
}

HobCautionBar *
hob_window_cautions (HobWindow *self)
{
  return self->cautions;
}

HobFindingList *
hob_window_findings (HobWindow *self)
{
  return gtk_revealer_get_reveal_child (self->findings_bar) ? self->findings : NULL;
}

/* ---- GObject ---- */

static gboolean
hob_window_close_request (GtkWindow *window)
{
  hob_window_leave (HOB_WINDOW (window), HOB_THEN_CLOSE, NULL);
  return TRUE; /* closed by now, or the question is open */
}

static void
hob_window_dispose (GObject *object)
{
  HobWindow *self = HOB_WINDOW (object);

  g_clear_handle_id (&self->fold_idle, g_source_remove);
  g_clear_handle_id (&self->finish_idle, g_source_remove);
  if (self->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (self), self->tick);
  self->tick = 0;
  if (self->chooser != NULL)
    gtk_native_dialog_destroy (GTK_NATIVE_DIALOG (self->chooser));
  g_clear_object (&self->chooser);
  hob_window_unfollow (self);
  hob_window_drop_why (self);
  hob_window_drop_beside (self);
  hob_window_drop_job (self);
  if (self->session != NULL)
    g_signal_handlers_disconnect_by_data (self->session, self);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_WINDOW);
  g_clear_object (&self->session);
  g_clear_object (&self->style);
  G_OBJECT_CLASS (hob_window_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, HobWindow, range_name);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, said);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, zoom_label);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, time_label);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, record_label);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, house_label);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, bar);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, front);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, sheet);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, sequence);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, strip_head);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, strip);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, sheets);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, strips);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, chart);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, symptoms);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, suspects);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, why);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, why_panel);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, why_title);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, why_scroller);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, part);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, parts);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, right_stack);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, run_button);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, speed);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, front_panel);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, front_rail);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, details_panel);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, details_rail);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, rail_count);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, menu_button);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, menu);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, open_section);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, reload_button);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, findings);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, cautions);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, findings_bar);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, offer_bar);
  gtk_widget_class_bind_template_child (widget_class, HobWindow, offered);
}

static void
hob_window_class_init (HobWindowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (HOB_TYPE_CAUTION_BAR);
  g_type_ensure (HOB_TYPE_FINDING_LIST);
  g_type_ensure (HOB_TYPE_FRONT);
  g_type_ensure (HOB_TYPE_ROOM);
  g_type_ensure (HOB_TYPE_SEQUENCE_BAR);
  g_type_ensure (HOB_TYPE_SHEET_VIEW);
  g_type_ensure (HOB_TYPE_CHART_VIEW);
  g_type_ensure (HOB_TYPE_SUSPECT_COLUMN);
  g_type_ensure (HOB_TYPE_SYMPTOM_LIST);
  g_type_ensure (HOB_TYPE_WHY_BAR);
  g_type_ensure (HOB_TYPE_PART_PANEL);
  g_type_ensure (HOB_TYPE_PART_LIST);
  G_OBJECT_CLASS (klass)->dispose = hob_window_dispose;
  widget_class->realize = hob_window_realize;
  GTK_WINDOW_CLASS (klass)->close_request = hob_window_close_request;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/hobwright/Hobwright/window.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, on_bar_close);
  gtk_widget_class_bind_template_callback (widget_class, on_revealed);
  gtk_widget_class_bind_template_callback (widget_class, on_check_again);
  gtk_widget_class_bind_template_callback (widget_class, on_findings_closed);
  gtk_widget_class_bind_template_callback (widget_class, on_speed);
  gtk_widget_class_bind_template_callback (widget_class, on_framed);
  gtk_widget_class_bind_template_callback (widget_class, on_went);
  gtk_widget_class_bind_template_callback (widget_class, on_suspect);
  gtk_widget_class_bind_template_callback (widget_class, on_why);
}

/* Long words in large letters: a button of two words may take two lines. */
static void
let_buttons_wrap (GtkWidget *box)
{
  for (GtkWidget *child = gtk_widget_get_first_child (box); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *label = GTK_IS_BUTTON (child) ? gtk_button_get_child (GTK_BUTTON (child)) : NULL;

      if (label != NULL && GTK_IS_LABEL (label))
        {
          gtk_label_set_wrap (GTK_LABEL (label), TRUE);
          gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
        }
      else if (GTK_IS_BOX (child) || GTK_IS_STACK_SWITCHER (child))
        let_buttons_wrap (child);
    }
}

static void
hob_window_init (HobWindow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  hob_window_add_actions (self);
  hob_window_add_opening (self);
  hob_window_add_saving (self);
  hob_window_add_suspects (self);
  hob_window_add_menus (self);
  hob_window_add_printing (self);
  let_buttons_wrap (self->details_panel);
  let_buttons_wrap (gtk_widget_get_parent (self->front_rail));
  self->wants_front = self->wants_details = TRUE;
}

HobWindow *
hob_window_new (GtkApplication *app, HobSession *session, HobStyle *style)
{
  HobWindow *self = g_object_new (HOB_TYPE_WINDOW, "application", app, NULL);

  self->session = g_object_ref (session);
  self->style = g_object_ref (style);
  hob_front_set_session (self->front, session);
  hob_sheet_view_set_session (self->sheet, session);
  hob_sequence_bar_set_session (self->sequence, session);
  hob_chart_view_set_session (self->chart, session);
  hob_symptom_list_set_session (self->symptoms, session);
  hob_suspect_column_set_session (self->suspects, session);
  hob_part_panel_set_session (self->part, session);
  hob_part_list_set_session (self->parts, session);
  g_signal_connect_object (session, "opened", G_CALLBACK (on_opened), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (on_moved), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "pace", G_CALLBACK (on_pace), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "chosen", G_CALLBACK (on_chosen), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "trouble", G_CALLBACK (on_trouble), self, 0);
  g_signal_connect_object (style, "changed", G_CALLBACK (on_style), self, G_CONNECT_SWAPPED);
  hob_window_watch_acts (self);
  hob_window_add_why (self);
  hob_window_add_beside (self);
  on_style (self);
  on_opened (self);
  on_pace (self);
  gtk_window_set_focus (GTK_WINDOW (self),
                        GTK_WIDGET (self->sheet)); /* so that plain keys work at once */
  return self;
}
