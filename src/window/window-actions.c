/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Everything a key or a button can do to a window. */

#include "window/window-private.h"

#include "base/i18n.h"
#include "window/keys.h"

#include <string.h>

#define STEP_MS 1000
#define ZOOM_STEP 1.25

const char *const hob_window_sheets[HOB_N_SHEETS] = { "wiring", "gas", "cutaway" };

/* ---- Time ---- */

static void
on_run (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;

  hob_session_set_running (self->session, !hob_session_busy (self->session));
}

static void
on_step (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;

  hob_session_go (self->session, hob_session_ms (self->session) + STEP_MS);
}

static void
on_back (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;

  hob_session_go (self->session, hob_session_ms (self->session) - STEP_MS);
}

static void
on_next_event (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_session_next_event (HOB_WINDOW (user)->session);
}

static void
on_previous_event (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_session_previous_event (HOB_WINDOW (user)->session);
}

static void
on_start (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_session_go (HOB_WINDOW (user)->session, 0);
}

static void
on_end (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;

  hob_session_go (self->session, hob_session_reached_ms (self->session));
}

static void
change_speed (HobWindow *self, int by)
{
  int i = 0;

  while (hob_window_speeds[i + 1] > 0 && hob_window_speeds[i] < hob_session_speed (self->session))
    i++;
  i = MAX (0, i + by);
  if (hob_window_speeds[i] > 0)
    hob_session_set_speed (self->session, hob_window_speeds[i]);
}

static void
on_faster (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  change_speed (user, 1);
}

static void
on_slower (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  change_speed (user, -1);
}

static void
on_undo (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_session_undo (HOB_WINDOW (user)->session);
}

static void
on_redo (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_session_redo (HOB_WINDOW (user)->session);
}

/* ---- What is seen ---- */

static void
on_sheet (GSimpleAction *action, GVariant *state, gpointer user)
{
  HobWindow *self = user;

  for (int i = 0; i < HOB_N_SHEETS; i++)
    if (strcmp (g_variant_get_string (state, NULL), hob_window_sheets[i]) == 0)
      {
        hob_sheet_view_show (self->sheet, (HobSheet)i);
        g_simple_action_set_state (action, state);
      }
}

static gboolean
is_shown (const HobRange *range, int part, int sheet)
{
  if (range->parts[part].at[sheet].placed)
    return TRUE;
  for (int p = 0; p < range->n_parts; p++)
    if (range->parts[p].moved_by == part && range->parts[p].at[sheet].placed)
      return TRUE;
  return FALSE;
}

void
hob_window_show_part (HobWindow *self, int part)
{
  const HobRange *range = hob_session_range (self->session);

  if (is_shown (range, part, hob_sheet_view_sheet (self->sheet)))
    return;
  for (int i = 0; i < HOB_N_SHEETS; i++)
    if (is_shown (range, part, i))
      {
        gtk_widget_activate_action (GTK_WIDGET (self), "win.sheet", "s", hob_window_sheets[i]);
        return;
      }
}

static void
on_zoom_in (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_sheet_view_zoom_by (HOB_WINDOW (user)->sheet, ZOOM_STEP);
}

static void
on_zoom_out (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_sheet_view_zoom_by (HOB_WINDOW (user)->sheet, 1 / ZOOM_STEP);
}

static void
on_zoom_fit (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  hob_sheet_view_fit (HOB_WINDOW (user)->sheet);
}

static void
on_front (GSimpleAction *action, GVariant *state, gpointer user)
{
  hob_window_open_panel (user, TRUE, g_variant_get_boolean (state));
}

static void
on_details (GSimpleAction *action, GVariant *state, gpointer user)
{
  hob_window_open_panel (user, FALSE, g_variant_get_boolean (state));
}

/* Made when it is asked for: it is larger than all the rest of the window. */
static void
on_keys (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  g_autoptr (GtkBuilder) builder
      = gtk_builder_new_from_resource ("/org/hobwright/Hobwright/keys.ui");
  GtkWindow *keys = GTK_WINDOW (gtk_builder_get_object (builder, "keys"));

  gtk_window_set_transient_for (keys, GTK_WINDOW (user));
  gtk_window_set_destroy_with_parent (keys, TRUE);
  gtk_window_present (keys);
}

/* ---- From area to area ---- */

#define AREAS 10

static void
areas_of (HobWindow *self, GtkWidget *areas[AREAS])
{
  GtkWidget *all[AREAS] = { GTK_WIDGET (self->front),    GTK_WIDGET (self->sequence),
                            GTK_WIDGET (self->sheet),    GTK_WIDGET (self->chart),
                            GTK_WIDGET (self->symptoms), GTK_WIDGET (self->right_stack),
                            GTK_WIDGET (self->suspects), GTK_WIDGET (self->why),
                            hob_window_beside_strip (self),
                            (GtkWidget *) hob_window_beside (self) };

  memcpy (areas, all, sizeof all);
}

static gboolean
has_focus (HobWindow *self, GtkWidget *area)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  return focus != NULL && area != NULL && (focus == area || gtk_widget_is_ancestor (focus, area));
}

static gboolean
enter (GtkWidget *area)
{
  return area != NULL && gtk_widget_get_mapped (area)
         && (gtk_widget_get_focusable (area) ? gtk_widget_grab_focus (area)
                                             : gtk_widget_child_focus (area, GTK_DIR_TAB_FORWARD));
}

/* To the next one that can have the focus, round and round. */
static void
go_to_area (HobWindow *self, int by)
{
  GtkWidget *areas[AREAS];
  int at = by > 0 ? -1 : AREAS;

  areas_of (self, areas);
  for (int k = 0; k < AREAS; k++)
    if (has_focus (self, areas[k]))
      at = k;
  for (int k = 1; k <= AREAS; k++)
    if (enter (areas[(at + by * k + 2 * AREAS) % AREAS]))
      break;
  gtk_window_set_focus_visible (GTK_WINDOW (self), TRUE);
}

static void
on_next_area (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  go_to_area (user, 1);
}

static void
on_previous_area (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  go_to_area (user, -1);
}

static void
on_no_choice (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  HobWindow *self = user;

  if (hob_window_return_from_why (self) || hob_window_close_beside (self))
    return;
  hob_window_say (self, NULL);
  hob_window_hide_findings (self);
  hob_session_choose (self->session, -1, -1);
}

static void
on_close (GSimpleAction *action, GVariant *parameter, gpointer user)
{
  gtk_window_close (GTK_WINDOW (user));
}

static const GActionEntry entries[] = {
  { "run", on_run },
  { "step", on_step },
  { "back", on_back },
  { "next-event", on_next_event },
  { "previous-event", on_previous_event },
  { "start", on_start },
  { "end", on_end },
  { "faster", on_faster },
  { "slower", on_slower },
  { "undo", on_undo },
  { "redo", on_redo },
  { "sheet", NULL, "s", "'wiring'", on_sheet },
  { "zoom-in", on_zoom_in },
  { "zoom-out", on_zoom_out },
  { "zoom-fit", on_zoom_fit },
  { "front", NULL, NULL, "true", on_front },
  { "details", NULL, NULL, "true", on_details },
  { "keys", on_keys },
  { "next-area", on_next_area },
  { "previous-area", on_previous_area },
  { "no-choice", on_no_choice },
  { "close", on_close },
};

/* Text that is being typed takes every key, and so does an open menu or list of choices. */
static gboolean
takes_keys (GtkWidget *focus)
{
  return focus != NULL
         && (GTK_IS_EDITABLE (focus) || GTK_IS_TEXT_VIEW (focus)
             || gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) != NULL);
}

/* The space bar runs and pauses whatever has focus; buttons and switches answer Enter. */
static gboolean
on_space (GtkWidget *widget, GVariant *arguments, gpointer user)
{
  if (takes_keys (gtk_window_get_focus (GTK_WINDOW (widget))))
    return FALSE;
  return gtk_widget_activate_action (widget, "win.run", NULL);
}

static gboolean
on_enter (GtkWidget *widget, GVariant *arguments, gpointer user)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (widget));

  return GTK_IS_SWITCH (focus) && gtk_widget_activate (focus);
}

static void
add_shortcut (GtkEventController *keys, guint key, GtkShortcutFunc function)
{
  gtk_shortcut_controller_add_shortcut (
      GTK_SHORTCUT_CONTROLLER (keys),
      gtk_shortcut_new (gtk_keyval_trigger_new (key, 0),
                        gtk_callback_action_new (function, NULL, NULL)));
}

static void
add_first_keys (HobWindow *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  add_shortcut (keys, GDK_KEY_space, on_space);
  add_shortcut (keys, GDK_KEY_Return, on_enter);
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

/* They come only when nothing that has focus wanted them. */
static void
add_plain_keys (HobWindow *self)
{
  GtkEventController *keys = gtk_shortcut_controller_new ();

  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_BUBBLE);
  for (const HobKeys *k = hob_keys; k->action != NULL; k++)
    for (int i = 0; k->plain && k->keys[i] != NULL && !g_str_equal (k->action, "win.run"); i++)
      gtk_shortcut_controller_add_shortcut (
          GTK_SHORTCUT_CONTROLLER (keys),
          gtk_shortcut_new (gtk_shortcut_trigger_parse_string (k->keys[i]),
                            gtk_named_action_new (k->action)));
  gtk_widget_add_controller (GTK_WIDGET (self), keys);
}

void
hob_window_add_actions (HobWindow *self)
{
  g_action_map_add_action_entries (G_ACTION_MAP (self), entries, G_N_ELEMENTS (entries), self);
  add_first_keys (self);
  add_plain_keys (self);
}

/* ---- Enablement ---- */

static void
enable (HobWindow *self, const char *name, gboolean enabled)
{
  GAction *action = g_action_map_lookup_action (G_ACTION_MAP (self), name);

  if (g_action_get_enabled (action) != enabled)
    g_simple_action_set_enabled (G_SIMPLE_ACTION (action), enabled);
}

void
hob_window_update_actions (HobWindow *self)
{
  gboolean busy = hob_session_busy (self->session);
  gint64 ms = hob_session_ms (self->session);

  enable (self, "back", ms > 0);
  enable (self, "previous-event", ms > 0);
  enable (self, "start", ms > 0);
  enable (self, "end", ms < hob_session_reached_ms (self->session));
  enable (self, "undo", hob_session_can_undo (self->session));
  enable (self, "redo", hob_session_can_redo (self->session));
  enable (self, "zoom-fit", !hob_sheet_view_fits (self->sheet));
  if (g_strcmp0 (gtk_button_get_label (self->run_button), busy ? _ ("Pause") : _ ("Run")) != 0)
    gtk_button_set_label (self->run_button, busy ? _ ("Pause") : _ ("Run"));
}
