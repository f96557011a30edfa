/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/part-list.h"

#include "base/i18n.h"
#include "run/two-figures.h"
#include "window/words.h"

#define REFRESH_US 400000

struct _HobPartList
{
  GtkWidget parent_instance;

  GtkWidget *scroller; /* template children */
  GtkListBox *list;

  HobSession *session; /* owned */
  GPtrArray *figures;  /* GtkLabel, borrowed, by part */
  gint64 shown_at;     /* µs */
  gboolean choosing;
  gboolean built; /* rows are made when the list is first looked at */
};

G_DEFINE_FINAL_TYPE (HobPartList, hob_part_list, GTK_TYPE_WIDGET)

/* "2.9 A, should be 3.5 A; igniter aged" (transfer full) */
static char *
figure_words (const HobPart *part, const HobPartScene *scene)
{
  int figure = part->kind->figure;
  const HobQuantityDef *quantity = figure >= 0 ? &part->kind->quantities[figure] : NULL;
  g_autofree char *line
      = figure < 0 ? g_strdup ("")
                   : hob_figures_text (quantity, scene->figure,
                                       scene->differs ? scene->should_be : NAN);

  if (scene->fault < 0)
    return g_steal_pointer (&line);
  return g_strdup_printf ("%s%s%s", line, *line != '\0' ? "; " : "",
                          _ (part->kind->faults[scene->fault].words));
}

static void
show_figures (HobPartList *self)
{
  const HobRange *range = hob_session_range (self->session);
  HobScene *scene = hob_session_scene (self->session);

  self->shown_at = g_get_monotonic_time ();
  for (int i = 0; i < range->n_parts; i++)
    {
      g_autofree char *text = figure_words (&range->parts[i], &scene->parts[i]);

      hob_label_show (g_ptr_array_index (self->figures, (guint)i), text);
    }
}

static void
on_moved (HobPartList *self)
{
  gboolean soon = hob_session_running (self->session)
                  && g_get_monotonic_time () - self->shown_at < REFRESH_US;

  if (gtk_widget_get_mapped (GTK_WIDGET (self)) && !soon)
    show_figures (self);
}

static void
on_chosen (HobPartList *self)
{
  int part = hob_session_chosen_part (self->session);

  if (!self->built)
    return;
  self->choosing = TRUE;
  gtk_list_box_select_row (self->list,
                           part >= 0 ? gtk_list_box_get_row_at_index (self->list, part) : NULL);
  self->choosing = FALSE;
}

static void
on_row_selected (GtkListBox *list, GtkListBoxRow *row, HobPartList *self)
{
  if (row != NULL && !self->choosing)
    hob_session_choose (self->session, gtk_list_box_row_get_index (row), -1);
}

static void
add_row (HobPartList *self, const HobPart *part)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *row = gtk_list_box_row_new ();
  const char *label = hob_part_label (part);
  GtkWidget *name = hob_text_new (label, "name"), *figure = hob_text_new ("", "dim");

  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), figure);
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), box);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_accessible_update_relation (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_RELATION_DESCRIBED_BY,
                                  figure, NULL, -1);
  gtk_list_box_append (self->list, row);
  g_ptr_array_add (self->figures, figure);
}

static void
build (HobPartList *self)
{
  const HobRange *range = hob_session_range (self->session);

  self->built = TRUE;
  self->choosing = TRUE;
  for (int i = 0; i < range->n_parts; i++)
    add_row (self, &range->parts[i]);
  self->choosing = FALSE;
}

static void
on_map (HobPartList *self)
{
  if (!self->built)
    build (self);
  on_chosen (self);
  show_figures (self);
}

static void
on_opened (HobPartList *self)
{
  GtkListBoxRow *row;

  self->built = FALSE;
  self->choosing = TRUE;
  while ((row = gtk_list_box_get_row_at_index (self->list, 0)) != NULL)
    gtk_list_box_remove (self->list, GTK_WIDGET (row));
  self->choosing = FALSE;
  g_ptr_array_set_size (self->figures, 0);
  if (gtk_widget_get_mapped (GTK_WIDGET (self)))
    on_map (self);
}

void
hob_part_list_set_session (HobPartList *self, HobSession *session)
{
  self->session = g_object_ref (session);
  g_signal_connect_object (session, "opened", G_CALLBACK (on_opened), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "moved", G_CALLBACK (on_moved), self, G_CONNECT_SWAPPED);
  g_signal_connect_object (session, "chosen", G_CALLBACK (on_chosen), self, G_CONNECT_SWAPPED);
  g_signal_connect (self, "map", G_CALLBACK (on_map), NULL);
  on_opened (self);
}

static void
hob_part_list_dispose (GObject *object)
{
  HobPartList *self = HOB_PART_LIST (object);

  self->choosing = TRUE; /* a list that is taken apart changes no choice */
  g_clear_pointer (&self->scroller, gtk_widget_unparent);
  gtk_widget_dispose_template (GTK_WIDGET (self), HOB_TYPE_PART_LIST);
  g_clear_pointer (&self->figures, g_ptr_array_unref);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (hob_part_list_parent_class)->dispose (object);
}

static void
hob_part_list_class_init (HobPartListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_part_list_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/org/hobwright/Hobwright/part-list.ui");
  gtk_widget_class_bind_template_child (widget_class, HobPartList, scroller);
  gtk_widget_class_bind_template_child (widget_class, HobPartList, list);
  gtk_widget_class_bind_template_callback (widget_class, on_row_selected);
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  gtk_widget_class_set_css_name (widget_class, "parts");
}

static void
hob_part_list_init (HobPartList *self)
{
  self->figures = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
}
