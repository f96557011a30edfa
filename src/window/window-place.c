/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where one is in the window, and the way back there. */

#include "window/window-private.h"

#define ANY (-1)

/* All that a look aside changes. */
struct _HobWindowPlace
{
  gint64 ms; /* ANY: the one that is looked at then */
  gboolean running, front, details, suspects;
  int part, wire;
  char *page;           /* of the panel at the right; owned */
  HobSheetPlace *sheet; /* owned */
};

void
hob_window_place_free (HobWindowPlace *place)
{
  g_free (place->page);
  g_free (place->sheet);
  g_free (place);
}

HobWindowPlace *
hob_window_place_new (HobWindow *self)
{
  HobWindowPlace *place = g_new (HobWindowPlace, 1);

  *place = (HobWindowPlace){
    .ms = hob_session_ms (self->session),
    .running = hob_session_running (self->session),
    .front = gtk_widget_get_visible (self->front_panel),
    .details = gtk_widget_get_visible (self->details_panel),
    .suspects = gtk_widget_get_visible (GTK_WIDGET (self->suspects)),
    .part = hob_session_chosen_part (self->session),
    .wire = hob_session_chosen_wire (self->session),
    .page = g_strdup (gtk_stack_get_visible_child_name (self->right_stack)),
    .sheet = hob_sheet_view_place (self->sheet),
  };
  return place;
}

/* The sheet by its action, so that the button of that sheet is the one pressed. */
static void
show_sheet_of (HobWindow *self, const HobWindowPlace *place)
{
  hob_sheet_view_return (self->sheet, place->sheet);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.sheet", "s",
                              hob_window_sheets[hob_sheet_view_sheet (self->sheet)]);
}

void
hob_window_place_stay (HobWindowPlace *place)
{
  place->ms = ANY;
  place->running = FALSE;
}

void
hob_window_return (HobWindow *self, const HobWindowPlace *place)
{
  hob_session_choose (self->session, place->part, place->wire);
  if (place->ms != ANY)
    hob_session_go (self->session, place->ms);
  show_sheet_of (self, place);
  gtk_stack_set_visible_child_name (self->right_stack, place->page);
  hob_window_open_suspects (self, place->suspects);
  hob_window_show_panel (self, TRUE, place->front);
  hob_window_show_panel (self, FALSE, place->details);
  if (place->running)
    hob_session_set_running (self->session, TRUE);
}
