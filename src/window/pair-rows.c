/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/pair-rows.h"

#define SPACE_Y 4
#define ALWAYS 350 /* px: a pair that needs no more than this is never parted */

static int
widest (GtkWidget *rows)
{
  int widest = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (rows); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      int least;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      widest = MAX (widest, least);
    }
  return widest;
}

static int
columns_at (GtkWidget *rows, int width)
{
  return width < 0 || width >= 2 * widest (rows) ? 2 : 1;
}

static GtkSizeRequestMode
request_mode (GtkWidget *rows)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* Of the row that begins at *@child, each child @width px wide; *@child: the first of the next. */
static int
row_height (GtkWidget **child, int columns, int width)
{
  int height = 0;

  for (int k = 0; k < columns && *child != NULL; k++)
    {
      int wanted;

      gtk_widget_measure (*child, GTK_ORIENTATION_VERTICAL, width, NULL, &wanted, NULL, NULL);
      height = MAX (height, wanted);
      *child = gtk_widget_get_next_sibling (*child);
    }
  return height;
}

static void
measure (GtkWidget *rows, GtkOrientation orientation, int width, int *least, int *wanted,
         int *least_baseline, int *wanted_baseline)
{
  GtkWidget *child = gtk_widget_get_first_child (rows);
  int columns = columns_at (rows, width), each = width < 0 ? -1 : width / columns;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *wanted = 2 * widest (rows);
      *least = *wanted <= ALWAYS ? *wanted : widest (rows);
      return;
    }
  for (*least = 0; child != NULL;)
    *least += (*least > 0 ? SPACE_Y : 0) + row_height (&child, columns, each);
  *wanted = *least;
}

static void
allocate (GtkWidget *rows, int width, int height, int baseline)
{
  gboolean mirrored = gtk_widget_get_direction (rows) == GTK_TEXT_DIR_RTL;
  int columns = columns_at (rows, width), each = width / columns, y = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (rows); child != NULL;)
    {
      GtkWidget *next = child;
      int h = row_height (&next, columns, each);

      for (int k = 0; child != next; child = gtk_widget_get_next_sibling (child), k++)
        gtk_widget_size_allocate (
            child, &(GtkAllocation){ (mirrored ? columns - 1 - k : k) * each, y, each, h }, -1);
      y += h + SPACE_Y;
    }
}

GtkWidget *
hob_pair_rows_new (void)
{
  GtkWidget *rows = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  gtk_widget_set_layout_manager (rows, gtk_custom_layout_new (request_mode, measure, allocate));
  return rows;
}

void
hob_pair_rows_append (GtkWidget *rows, GtkWidget *child)
{
  gtk_box_append (GTK_BOX (rows), child);
}
