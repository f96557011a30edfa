/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The column of suspects in the window. */

#include "window/window-private.h"

#define ROOM 1480 /* px at text scale 1: below, the front gives way to the column */

static gboolean
is_less (HobWindow *self, double least)
{
  return self->style != NULL && self->width > 0
         && self->width < least * hob_style_look (self->style).text_scale;
}

void
hob_window_open_suspects (HobWindow *self, gboolean open)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), "suspects");
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (!open && focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (self->suspects)))
    gtk_window_set_focus (GTK_WINDOW (self), GTK_WIDGET (self->sheet));
  gtk_widget_set_visible (GTK_WIDGET (self->suspects), open);
  g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_boolean (open));
  hob_window_fit_beside (self);
  if (open && is_less (self, ROOM))
    hob_window_show_panel (self, TRUE, FALSE);
  if (open && self->narrow)
    hob_window_show_panel (self, FALSE, FALSE);
  if (!open && !self->narrow)
    hob_window_show_panel (self, TRUE, self->wants_front);
}

static void
on_suspects (GSimpleAction *action, GVariant *state, gpointer user)
{
  hob_window_open_suspects (user, g_variant_get_boolean (state));
}

static void
on_chosen (HobSuspectColumn *column, int part, HobWindow *self)
{
  hob_session_choose (self->session, part, -1);
  hob_window_show_part (self, part);
}

static void
on_tried (HobSuspectColumn *column, const HobSuspect *suspect, HobWindow *self)
{
  hob_window_open_beside (self, suspect);
}

/* What was seen may be dangerous. */
static void
on_changed (HobSuspectColumn *column, HobWindow *self)
{
  if (self->session != NULL && hob_session_range (self->session) != NULL)
    hob_caution_bar_show (self->cautions, hob_session_hazards (self->session)
                                              | hob_suspect_column_hazards (column));
}

static const GActionEntry entries[] = {
  { "suspects", NULL, NULL, "false", on_suspects },
};

void
hob_window_add_suspects (HobWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  g_signal_connect (self->suspects, "chosen", G_CALLBACK (on_chosen), self);
  g_signal_connect (self->suspects, "tried", G_CALLBACK (on_tried), self);
  g_signal_connect (self->suspects, "changed", G_CALLBACK (on_changed), self);
}
