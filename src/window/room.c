/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/room.h"

#define SPACING 6
#define STAYS 4 /* the rank of a child that never gives way */

struct _HobRoom
{
  GtkWidget parent_instance;
};

G_DEFINE_FINAL_TYPE (HobRoom, hob_room, GTK_TYPE_WIDGET)

static GtkWidget *
next_visible (GtkWidget *child)
{
  while (child != NULL && !gtk_widget_get_visible (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

#define FOR_EACH_CHILD(child, self)                                                                \
  for (GtkWidget *child = next_visible (gtk_widget_get_first_child (GTK_WIDGET (self)));           \
       child != NULL; child = next_visible (gtk_widget_get_next_sibling (child)))

static int
rank_of (GtkWidget *child)
{
  static const char *const classes[] = { "gives-way-1", "gives-way-2", "gives-way-3" };

  for (int i = 0; i < (int) G_N_ELEMENTS (classes); i++)
    if (gtk_widget_has_css_class (child, classes[i]))
      return i + 1;
  return STAYS;
}

/* The width of all children from @rank on; @expanding: how many of them take more. */
static int
width_from (HobRoom *self, int rank, gboolean natural, int *expanding)
{
  int width = 0, n = 0;

  *expanding = 0;
  FOR_EACH_CHILD (child, self)
    {
      int min, nat;

      if (rank_of (child) < rank)
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &min, &nat, NULL, NULL);
      width += natural ? nat : min;
      *expanding += gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
      n++;
    }
  return width + SPACING * MAX (0, n - 1);
}

static void
hob_room_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                  int *natural, int *minimum_baseline, int *natural_baseline)
{
  HobRoom *self = HOB_ROOM (widget);
  int expanding;

  *minimum = *natural = 0;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = width_from (self, STAYS, FALSE, &expanding);
      *natural = width_from (self, 0, TRUE, &expanding);
      return;
    }
  FOR_EACH_CHILD (child, self)
    {
      int min, nat;

      gtk_widget_measure (child, orientation, -1, &min, &nat, NULL, NULL);
      *minimum = MAX (*minimum, min);
      *natural = MAX (*natural, nat);
    }
}

static void
place (GtkWidget *widget, GtkWidget *child, int x, int width)
{
  GtkAllocation box = { x, 0, width, gtk_widget_get_height (widget) };

  if (gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL)
    box.x = gtk_widget_get_width (widget) - x - width;
  gtk_widget_size_allocate (child, &box, -1);
}

static void
hob_room_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  HobRoom *self = HOB_ROOM (widget);
  int rank = 0, expanding = 0, spare, x = 0;

  while ((spare = width - width_from (self, rank, FALSE, &expanding)) < 0 && rank < STAYS)
    rank++;
  FOR_EACH_CHILD (child, self)
    {
      gboolean stays = rank_of (child) >= rank;
      int min, nat, more = 0;

      gtk_widget_set_child_visible (child, stays);
      if (!stays)
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &min, &nat, NULL, NULL);
      if (expanding > 0 && gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL))
        more = MAX (0, spare) / expanding;
      place (widget, child, x, min + more);
      x += min + more + SPACING;
    }
}

static void
hob_room_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))) != NULL)
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (hob_room_parent_class)->dispose (object);
}

static void
hob_room_class_init (HobRoomClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hob_room_dispose;
  widget_class->measure = hob_room_measure;
  widget_class->size_allocate = hob_room_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "room");
}

static void
hob_room_init (HobRoom *self)
{
}
