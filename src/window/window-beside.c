/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A second range beside the first: the same acts at the same moment, with a suspect's fault.  Where
 * there is no room for both sheets it takes the place of the first. */

#include "window/window-private.h"

#include "base/i18n.h"
#include "run/step-twin.h"
#include "window/words.h"

/* px at text scale 1. */
#define EACH 400 /* of width, below which two sheets beside each other are too small to read */
#define TALL 760 /* height of a window that has room for all of a range and a line about it */

#define BEHIND 0.4 /* opacity of a sheet that shows an earlier moment */

struct _HobBeside
{
  /*< owned >*/
  HobSession *session;
  HobWindowPlace *place; /* where one was before */

  HobAct faults[2];
  int n_faults;

  /*< borrowed: children of the window >*/
  GtkWidget *strip, *cautions, *trouble;
  HobSequenceBar *sequence;
  HobSheetView *sheet;
  GtkWidget *focus; /* weak: what had it before; NULL: it is gone */

  guint tick; /* on the second sheet, while it is behind; 0: it isn't */
};

/* ---- What it does ---- */

/* The acts as they are known, in a range that has this fault and no other. */
static HobCase *
acts_beside (HobWindow *self)
{
  const HobBeside *beside = self->beside;
  HobCase *acts
      = hob_case_without_wrongs (hob_run_case (hob_session_bench (self->session)->run), -1);

  for (int k = 0; k < beside->n_faults; k++)
    hob_case_add (acts, beside->faults[k]);
  return acts;
}

static void
take_faults (HobBeside *beside, const HobSuspect *s)
{
  beside->faults[beside->n_faults++]
      = (HobAct){ .what = HOB_ACT_FAULT, .part = s->part, .index = s->fault,
                  .value = s->severity.middle };
  if (s->part2 >= 0)
    beside->faults[beside->n_faults++]
        = (HobAct){ .what = HOB_ACT_FAULT, .part = s->part2, .index = s->fault2,
                    .value = s->severity2 };
}

/* "With this fault: Bake igniter: aged, draws 2.9 A" */
static char *
title_of (HobWindow *self)
{
  const HobRange *range = hob_session_range (self->session);
  const HobBeside *beside = self->beside;
  g_autofree char *one = hob_act_words (range, &beside->faults[0]), *two = NULL;

  if (beside->n_faults == 1)
    return g_strdup_printf (_ ("With this fault: %s"), one);
  two = hob_act_words (range, &beside->faults[1]);
  return g_strdup_printf (_ ("With these faults: %s; %s"), one, two);
}

/* ---- In step with the first ---- */

static void
show_cautions (HobBeside *beside)
{
  HobHazards shown = hob_hazards_shown (hob_session_hazards (beside->session));
  g_autofree char *names = hob_hazards_names (shown);

  hob_caution_names_show (beside->cautions, names);
}

static gboolean on_catch_up (GtkWidget *sheet, GdkFrameClock *clock, gpointer user);

static void
keep_step (HobWindow *self)
{
  HobBeside *beside = self->beside;
  gboolean behind;

  if (beside == NULL)
    return;
  behind = !hob_session_keep_step (beside->session, self->session);
  if (behind && beside->tick == 0)
    beside->tick = gtk_widget_add_tick_callback (GTK_WIDGET (beside->sheet), on_catch_up, self,
                                                 NULL);
  if (!behind && beside->tick != 0)
    {
      gtk_widget_remove_tick_callback (GTK_WIDGET (beside->sheet), beside->tick);
      beside->tick = 0;
    }
  gtk_widget_set_opacity (GTK_WIDGET (beside->sheet), behind ? BEHIND : 1);
  show_cautions (beside);
}

static gboolean
on_catch_up (GtkWidget *sheet, GdkFrameClock *clock, gpointer user)
{
  keep_step (user);
  return G_SOURCE_CONTINUE;
}

gboolean
hob_window_tick_beside (HobWindow *self, double wall)
{
  if (self->beside == NULL)
    return FALSE;
  hob_sheet_view_tick (self->beside->sheet, wall);
  return self->beside->tick != 0;
}

/* What was done is another: so it is here.  In another range there is no such part. */
static void
on_cut (HobWindow *self)
{
  g_autoptr (HobCase) acts = NULL;

  if (self->beside == NULL)
    return;
  if (hob_session_range (self->session) != hob_session_range (self->beside->session))
    {
      hob_window_drop_beside (self);
      return;
    }
  hob_window_place_stay (self->beside->place);
  acts = acts_beside (self);
  hob_session_set_case (self->beside->session, acts);
}

static void
on_trouble (HobSession *session, const char *line, HobWindow *self)
{
  hob_label_show (GTK_LABEL (self->beside->trouble), line != NULL ? line : "");
  gtk_widget_set_visible (self->beside->trouble, line != NULL);
}

static void
copy_choice (HobSession *from, HobSession *to)
{
  hob_session_choose (to, hob_session_chosen_part (from), hob_session_chosen_wire (from));
}

static void
on_first_chosen (HobWindow *self)
{
  if (self->beside != NULL)
    copy_choice (self->session, self->beside->session);
}

static void
on_second_chosen (HobWindow *self)
{
  copy_choice (self->beside->session, self->session);
}

/* The strip of the second range goes to a moment of its own: both are there together. */
static void
on_second_went (HobSequenceBar *bar, int part, HobWindow *self)
{
  gint64 ms = hob_session_ms (self->beside->session);

  hob_session_go (self->session, ms);
  hob_window_show_part (self, part);
}

/* The same sheet, framed alike. */
static void
on_framed (HobWindow *self)
{
  g_autofree HobSheetPlace *place = NULL;

  if (self->beside == NULL)
    return;
  place = hob_sheet_view_place (self->sheet);
  hob_sheet_view_return (self->beside->sheet, place);
}

/* ---- Room ---- */

static int
width_of (GtkWidget *widget)
{
  int width;

  if (!gtk_widget_get_visible (widget))
    return 0;
  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  return width;
}

static gboolean
has_room (HobWindow *self)
{
  int sides = width_of (self->front_panel) + width_of (self->front_rail)
              + width_of (GTK_WIDGET (self->suspects)) + width_of (self->details_panel)
              + width_of (self->details_rail);

  return self->width - sides >= 2 * EACH * hob_style_look (self->style).text_scale;
}

/* In a small window the column has the steps, and the strip and the chart give way to the sheet. */
void
hob_window_fit_beside (HobWindow *self)
{
  gboolean both = self->beside == NULL || has_room (self);
  gboolean all = both || self->height >= TALL * hob_style_look (self->style).text_scale;

  gtk_widget_set_visible (self->strip, both);
  gtk_widget_set_visible (GTK_WIDGET (self->sheet), both);
  if (self->beside == NULL)
    return;
  gtk_widget_set_visible (GTK_WIDGET (self->beside->sequence), all);
  gtk_widget_set_visible (GTK_WIDGET (self->chart), all);
}

/* Other panels give way while it is there. */
static void
make_room (HobWindow *self)
{
  if (!has_room (self))
    hob_window_show_panel (self, FALSE, FALSE);
  if (!has_room (self))
    hob_window_show_panel (self, TRUE, FALSE);
  hob_window_fit_beside (self);
}

/* ---- Its widgets ---- */

static GtkWidget *
head_new (const char *title)
{
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 6), *back, *name;

  name = hob_text_new (title, "name");
  gtk_widget_set_hexpand (name, TRUE);
  gtk_label_set_yalign (GTK_LABEL (name), 0);
  back = gtk_button_new_with_label (_ ("Go Back"));
  gtk_widget_set_focus_on_click (back, FALSE);
  gtk_widget_set_valign (back, GTK_ALIGN_START);
  gtk_widget_set_tooltip_text (back, _ ("Return to where you were (Esc)"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (back), "win.no-choice");
  gtk_widget_add_css_class (head, "side-head");
  gtk_widget_set_vexpand (head, TRUE);
  gtk_box_append (GTK_BOX (head), name);
  gtk_box_append (GTK_BOX (head), back);
  return head;
}

static GtkWidget *
line_new (GtkWidget *strip)
{
  GtkWidget *line = hob_text_new (NULL, "caution");

  gtk_widget_add_css_class (line, "side-head");
  gtk_widget_set_visible (line, FALSE);
  gtk_box_append (GTK_BOX (strip), line);
  return line;
}

static void
add_widgets (HobWindow *self)
{
  HobBeside *beside = self->beside;
  HobLook look = hob_style_look (self->style);
  g_autofree char *title = title_of (self);

  beside->strip = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  beside->sequence = g_object_new (HOB_TYPE_SEQUENCE_BAR, NULL);
  beside->sheet = g_object_new (HOB_TYPE_SHEET_VIEW, "hexpand", TRUE, "vexpand", TRUE, NULL);
  gtk_widget_add_css_class (beside->strip, "beside");
  gtk_widget_add_css_class (GTK_WIDGET (beside->sheet), "beside");
  gtk_box_append (GTK_BOX (beside->strip), head_new (title));
  beside->cautions = line_new (beside->strip);
  beside->trouble = line_new (beside->strip);
  gtk_box_append (GTK_BOX (beside->strip), GTK_WIDGET (beside->sequence));
  gtk_box_append (self->strips, beside->strip);
  gtk_box_append (self->sheets, GTK_WIDGET (beside->sheet));
  hob_sequence_bar_set_session (beside->sequence, beside->session);
  hob_sheet_view_set_session (beside->sheet, beside->session);
  hob_sequence_bar_set_look (beside->sequence, look);
  hob_sheet_view_set_look (beside->sheet, look, hob_style_still (self->style));
  gtk_accessible_update_property (GTK_ACCESSIBLE (beside->sheet),
                                  GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, title, -1);
  gtk_widget_set_visible (self->strip_head, TRUE);
}

static void
on_style (HobWindow *self)
{
  if (self->beside == NULL)
    return;
  hob_sequence_bar_set_look (self->beside->sequence, hob_style_look (self->style));
  hob_sheet_view_set_look (self->beside->sheet, hob_style_look (self->style),
                           hob_style_still (self->style));
  hob_window_fit_beside (self);
}

GtkWidget *
hob_window_beside_strip (HobWindow *self)
{
  return self->beside != NULL ? GTK_WIDGET (self->beside->sequence) : NULL;
}

HobSheetView *
hob_window_beside (HobWindow *self)
{
  return self->beside != NULL ? self->beside->sheet : NULL;
}

HobSession *
hob_window_beside_session (HobWindow *self)
{
  return self->beside != NULL ? self->beside->session : NULL;
}

/* ---- Opening and closing ---- */

static void
keep_focus (HobWindow *self)
{
  HobBeside *beside = self->beside;

  beside->focus = gtk_window_get_focus (GTK_WINDOW (self));
  if (beside->focus != NULL)
    g_object_add_weak_pointer (G_OBJECT (beside->focus), (gpointer *) &beside->focus);
}

static void
begin (HobWindow *self)
{
  HobBeside *beside = self->beside;
  g_autoptr (HobCase) acts = acts_beside (self);

  beside->session = hob_session_new_beside (self->session, acts);
  add_widgets (self);
  on_framed (self);
  on_first_chosen (self);
  g_signal_connect_object (beside->session, "chosen", G_CALLBACK (on_second_chosen), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (beside->session, "trouble", G_CALLBACK (on_trouble), self, 0);
  g_signal_connect_object (beside->sequence, "went", G_CALLBACK (on_second_went), self, 0);
  hob_suspect_column_compare (self->suspects, beside->session);
}

void
hob_window_open_beside (HobWindow *self, const HobSuspect *suspect)
{
  HobWindowPlace *place;
  HobBeside *beside;
  GtkWidget *focus;

  if (suspect->what != HOB_SUSPECT_FAULT)
    return;
  hob_window_return_from_why (self);
  hob_window_close_beside (self);
  place = hob_window_place_new (self);
  hob_session_set_running (self->session, FALSE); /* while there is no second one to keep step */
  beside = self->beside = g_new0 (HobBeside, 1);
  take_faults (beside, suspect);
  beside->place = place;
  keep_focus (self);
  begin (self);
  make_room (self);
  focus = gtk_window_get_focus (GTK_WINDOW (self));
  if (focus == NULL || !gtk_widget_get_mapped (focus))
    gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (beside->sheet));
  keep_step (self);
}

static void
end (HobWindow *self, HobBeside *beside)
{
  if (beside->tick != 0)
    gtk_widget_remove_tick_callback (GTK_WIDGET (beside->sheet), beside->tick);
  g_signal_handlers_disconnect_by_data (beside->session, self);
  hob_suspect_column_compare (self->suspects, NULL);
  hob_window_fit_beside (self);
  gtk_widget_set_visible (self->strip_head, FALSE);
  gtk_widget_set_visible (GTK_WIDGET (self->chart), TRUE);
  if (beside->focus != NULL && gtk_widget_get_mapped (beside->focus))
    gtk_window_set_focus (GTK_WINDOW (self), beside->focus);
  else
    gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (self->sheet));
  gtk_box_remove (self->strips, beside->strip);
  gtk_box_remove (self->sheets, GTK_WIDGET (beside->sheet));
}

static void
beside_free (HobBeside *beside)
{
  g_clear_weak_pointer (&beside->focus);
  hob_window_place_free (beside->place);
  g_object_unref (beside->session);
  g_free (beside);
}

void
hob_window_drop_beside (HobWindow *self)
{
  HobBeside *beside = g_steal_pointer (&self->beside);

  if (beside == NULL)
    return;
  end (self, beside);
  beside_free (beside);
}

gboolean
hob_window_close_beside (HobWindow *self)
{
  HobBeside *beside = g_steal_pointer (&self->beside);

  if (beside == NULL)
    return FALSE;
  hob_window_return (self, beside->place);
  end (self, beside);
  beside_free (beside);
  return TRUE;
}

void
hob_window_add_beside (HobWindow *self)
{
  g_signal_connect_object (self->session, "moved", G_CALLBACK (keep_step), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "pace", G_CALLBACK (keep_step), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "cut", G_CALLBACK (on_cut), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (self->session, "chosen", G_CALLBACK (on_first_chosen), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->sheet, "framed", G_CALLBACK (on_framed), self,
                           G_CONNECT_SWAPPED);
  g_signal_connect_object (self->style, "changed", G_CALLBACK (on_style), self,
                           G_CONNECT_SWAPPED);
}
