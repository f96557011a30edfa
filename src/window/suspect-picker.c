/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/suspect-picker.h"

#include "base/i18n.h"
#include "window/words.h"

#define LIST_W 420
#define LIST_H 320

struct _HobSuspectPicker
{
  GtkWidget parent_instance;

  GtkWidget *button; /* a child, and what is in its popover: */
  GtkWidget *search;
  GtkListBox *list;

  GPtrArray *words; /* char *, owned; NULL: nothing to pick from */
  gboolean built;   /* rows are made when the list is first opened */
};

G_DEFINE_FINAL_TYPE (HobSuspectPicker, hob_suspect_picker, GTK_TYPE_WIDGET)

enum
{
  PICKED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
add_row (HobSuspectPicker *self, const char *words)
{
  GtkWidget *row = gtk_list_box_row_new ();

  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), hob_text_new (words, NULL));
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_list_box_append (self->list, row);
}

static void
clear (HobSuspectPicker *self)
{
  GtkListBoxRow *row;

  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  self->built = FALSE;
}

static void
on_map (HobSuspectPicker *self)
{
  if (!self->built && self->words != NULL)
    for (guint k = 0; k < self->words->len; k++)
      add_row (self, self->words->pdata[k]);
  self->built = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  gtk_widget_grab_focus (self->search);
}

/* Every word that is typed must be in it somewhere. */
static gboolean
is_found (GtkListBoxRow *row, gpointer user)
{
  HobSuspectPicker *self = user;
  guint k = (guint) gtk_list_box_row_get_index (row);
  g_autofree char *typed
      = g_utf8_casefold (gtk_editable_get_text (GTK_EDITABLE (self->search)), -1);
  g_autofree char *words = g_utf8_casefold (self->words->pdata[k], -1);
  g_auto (GStrv) all = g_strsplit (typed, " ", -1);

  for (char **one = all; *one != NULL; one++)
    if (strstr (words, *one) == NULL)
      return FALSE;
  return TRUE;
}

static void
on_search (HobSuspectPicker *self)
{
  gtk_list_box_invalidate_filter (self->list);
}

static void
on_row (GtkListBox *list, GtkListBoxRow *row, HobSuspectPicker *self)
{
  gtk_menu_button_popdown (GTK_MENU_BUTTON (self->button));
  g_signal_emit (self, signals[PICKED], 0, (guint) gtk_list_box_row_get_index (row));
}

/* Enter takes the first that is found. */
static void
on_enter (HobSuspectPicker *self)
{
  for (int k = 0; k < (int) self->words->len; k++)
    {
      GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, k);

      if (!gtk_widget_get_child_visible (GTK_WIDGET (row)))
        continue;
      on_row (self->list, row, self);
      return;
    }
}

static GtkWidget *
list_new (HobSuspectPicker *self)
{
  GtkWidget *scroller = gtk_scrolled_window_new (), *list = gtk_list_box_new ();

  self->list = GTK_LIST_BOX (list);
  gtk_list_box_set_selection_mode (self->list, GTK_SELECTION_NONE);
  gtk_list_box_set_filter_func (self->list, is_found, self, NULL);
  g_signal_connect (list, "row-activated", G_CALLBACK (on_row), self);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), list);
  gtk_widget_set_size_request (scroller, LIST_W, LIST_H);
  return scroller;
}

static GtkWidget *
popover_new (HobSuspectPicker *self)
{
  GtkWidget *popover = gtk_popover_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);

  self->search = gtk_search_entry_new ();
  g_signal_connect_swapped (self->search, "search-changed", G_CALLBACK (on_search), self);
  g_signal_connect_swapped (self->search, "activate", G_CALLBACK (on_enter), self);
  g_signal_connect_swapped (self->search, "stop-search", G_CALLBACK (gtk_popover_popdown), popover);
  gtk_accessible_update_property (GTK_ACCESSIBLE (self->search), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Find"), -1);
  gtk_box_append (GTK_BOX (box), self->search);
  gtk_box_append (GTK_BOX (box), list_new (self));
  gtk_popover_set_child (GTK_POPOVER (popover), box);
  g_signal_connect_swapped (popover, "map", G_CALLBACK (on_map), self);
  return popover;
}

void
hob_suspect_picker_fill (HobSuspectPicker *self, GPtrArray *words)
{
  clear (self);
  g_clear_pointer (&self->words, g_ptr_array_unref);
  self->words = words;
}

static void
hob_suspect_picker_dispose (GObject *object)
{
  HobSuspectPicker *self = HOB_SUSPECT_PICKER (object);

  g_clear_pointer (&self->button, gtk_widget_unparent);
  g_clear_pointer (&self->words, g_ptr_array_unref);
  G_OBJECT_CLASS (hob_suspect_picker_parent_class)->dispose (object);
}

static void
hob_suspect_picker_class_init (HobSuspectPickerClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hob_suspect_picker_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
  signals[PICKED] = g_signal_new ("picked", HOB_TYPE_SUSPECT_PICKER, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 1, G_TYPE_UINT);
}

static void
hob_suspect_picker_init (HobSuspectPicker *self)
{
  self->button = gtk_menu_button_new ();
  gtk_widget_set_focus_on_click (self->button, FALSE);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (self->button), popover_new (self));
  gtk_widget_set_parent (self->button, GTK_WIDGET (self));
}

GtkWidget *
hob_suspect_picker_new (const char *label, const char *tooltip)
{
  HobSuspectPicker *self = g_object_new (HOB_TYPE_SUSPECT_PICKER, NULL);

  gtk_menu_button_set_label (GTK_MENU_BUTTON (self->button), label);
  gtk_widget_set_tooltip_text (self->button, tooltip);
  return GTK_WIDGET (self);
}
