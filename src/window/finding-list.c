/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/finding-list.h"

#include "base/i18n.h"
#include "window/words.h"

struct _HobFindingList
{
  GtkWidget parent_instance;

  GtkWidget *card, *check_button; /* template children */
  GtkLabel *title, *note;
  GtkListBox *list;
};

G_DEFINE_FINAL_TYPE (HobFindingList, hob_finding_list, GTK_TYPE_WIDGET)

enum
{
  CHECK_AGAIN,
  CLOSED,
  N_SIGNALS
};
static guint signals[N_SIGNALS];

static void
add_line (HobFindingList *self, const char *line)
{
  GtkWidget *row = gtk_list_box_row_new ();

  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), hob_text_new (line, NULL));
  gtk_list_box_row_set_activatable (GTK_LIST_BOX_ROW (row), FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, line, -1);
  gtk_list_box_append (self->list, row);
}

void
hob_finding_list_fill (HobFindingList *self, const char *title, const char *note,
                       const GPtrArray *lines, gboolean can_check)
{
  GtkListBoxRow *row;

  if (self->card == NULL) /* the window is shown sooner without it */
    gtk_widget_init_template (GTK_WIDGET (self));
  gtk_label_set_text (self->title, title);
  gtk_label_set_text (self->note, note != NULL ? note : "");
  gtk_widget_set_visible (GTK_WIDGET (self->note), note != NULL);
  gtk_widget_set_visible (self->check_button, can_check);
  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  for (guint i = 0; i < lines->len; i++)
    add_line (self, lines->pdata[i]);
}

guint
hob_finding_list_size (HobFindingList *self)
{
  guint n = 0;

  while (gtk_list_box_get_row_at_index (self->list, (int) n) != NULL)
    n++;
  return n;
}

const char *
hob_finding_list_get (HobFindingList *self, guint i)
{
  GtkListBoxRow *row = gtk_list_box_get_row_at_index (self->list, (int) i);

  return gtk_label_get_text (GTK_LABEL (gtk_list_box_row_get_child (row)));
}

static void
on_check (GtkButton *button, HobFindingList *self)
{
  g_signal_emit (self, signals[CHECK_AGAIN], 0);
}

static void
on_close (GtkButton *button, HobFindingList *self)
{
  g_signal_emit (self, signals[CLOSED], 0);
}

static void
hob_finding_list_dispose (GObject *object)
{
  HobFindingList *self = HOB_FINDING_LIST (object);

  g_clear_pointer (&self->card, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_FINDING_LIST);
  G_OBJECT_CLASS (hob_finding_list_parent_class)->dispose (object);
}

static guint
add_signal (const char *name)
{
  return g_signal_new (name, HOB_TYPE_FINDING_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                       G_TYPE_NONE, 0);
}

static void
hob_finding_list_class_init (HobFindingListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_finding_list_dispose;
  signals[CHECK_AGAIN] = add_signal ("check-again");
  signals[CLOSED] = add_signal ("closed");
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/hobwright/Hobwright/finding-list.ui");
  gtk_widget_class_bind_template_child (widget_class, HobFindingList, card);
  gtk_widget_class_bind_template_child (widget_class, HobFindingList, check_button);
  gtk_widget_class_bind_template_child (widget_class, HobFindingList, title);
  gtk_widget_class_bind_template_child (widget_class, HobFindingList, note);
  gtk_widget_class_bind_template_child (widget_class, HobFindingList, list);
  gtk_widget_class_bind_template_callback (widget_class, on_check);
  gtk_widget_class_bind_template_callback (widget_class, on_close);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "findings");
}

static void
hob_finding_list_init (HobFindingList *self)
{
}
