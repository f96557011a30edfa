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

/* The width of all children of @rank, each with the space beside it. */
static int
width_of (HobRoom *self, int rank, gboolean natural)
{
  int width = 0;

  FOR_EACH_CHILD (child, self)
    {
      int min, nat;

      if (rank_of (child) != rank)
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &min, &nat, NULL, NULL);
      width += SPACING + (natural ? nat : min);
    }
  return width;
}

/* Which ranks are shown, a bit each: those that never give way, and each that has room beside what
 * gives way after it. */
static guint
shown_in (HobRoom *self, int width, int *spare)
{
  guint shown = 1 << STAYS;

  *spare = width + SPACING - width_of (self, STAYS, FALSE);
  for (int rank = STAYS - 1; rank > 0; rank--)
    {
      int wanted = width_of (self, rank, FALSE);

      if (wanted > *spare)
        continue;
      shown |= 1 << rank;
      *spare -= wanted;
    }
  return shown;
}

static int
n_expanding (HobRoom *self, guint shown)
{
  int n = 0;

  FOR_EACH_CHILD (child, self)
    if ((shown & 1 << rank_of (child)) != 0)
      n += gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
  return n;
}

static void
hob_room_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *minimum,
                  int *natural, int *minimum_baseline, int *natural_baseline)
{
  HobRoom *self = HOB_ROOM (widget);

  *minimum = *natural = 0;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      for (int rank = 1; rank <= STAYS; rank++)
        *natural += width_of (self, rank, TRUE);
      *natural = MAX (0, *natural - SPACING);
      *minimum = MAX (0, width_of (self, STAYS, FALSE) - SPACING);
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
  int spare, x = 0;
  guint shown = shown_in (self, width, &spare);
  int expanding = n_expanding (self, shown);

  FOR_EACH_CHILD (child, self)
    {
      gboolean stays = (shown & 1 << rank_of (child)) != 0;
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
