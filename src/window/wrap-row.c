/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/wrap-row.h"

#define SPACE_X 6
#define SPACE_Y 4

static int
measure_child (GtkWidget *child, GtkOrientation orientation, gboolean natural)
{
  int least, wanted;

  gtk_widget_measure (child, orientation, -1, &least, &wanted, NULL, NULL);
  return natural ? wanted : least;
}

static gboolean
is_one_line (GtkWidget *start, GtkWidget *end, int width)
{
  return width < 0
         || measure_child (start, GTK_ORIENTATION_HORIZONTAL, TRUE) + SPACE_X
                    + measure_child (end, GTK_ORIENTATION_HORIZONTAL, TRUE)
                <= width;
}

static GtkSizeRequestMode
request_mode (GtkWidget *row)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
measure (GtkWidget *row, GtkOrientation orientation, int width, int *least, int *wanted,
         int *least_baseline, int *wanted_baseline)
{
  GtkWidget *start = gtk_widget_get_first_child (row), *end = gtk_widget_get_last_child (row);
  int a = measure_child (start, orientation, FALSE), b = measure_child (end, orientation, FALSE);
  gboolean two = start != end;

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *least = MAX (a, b);
      *wanted = two ? measure_child (start, orientation, TRUE) + SPACE_X
                          + measure_child (end, orientation, TRUE)
                    : measure_child (end, orientation, TRUE);
    }
  else
    *least = *wanted = two && !is_one_line (start, end, width) ? a + SPACE_Y + b : MAX (a, b);
}

/* @x from the side on which the row starts. */
static void
place (GtkWidget *row, GtkWidget *child, int x, int y, int w, int h)
{
  gboolean mirrored = gtk_widget_get_direction (row) == GTK_TEXT_DIR_RTL;
  int left = mirrored ? gtk_widget_get_width (row) - x - w : x;

  gtk_widget_size_allocate (child, &(GtkAllocation){ left, y, w, h }, -1);
}

static void
allocate (GtkWidget *row, int width, int height, int baseline)
{
  GtkWidget *start = gtk_widget_get_first_child (row), *end = gtk_widget_get_last_child (row);
  int a = MIN (measure_child (start, GTK_ORIENTATION_HORIZONTAL, TRUE), width),
      b = MIN (measure_child (end, GTK_ORIENTATION_HORIZONTAL, TRUE), width),
      h = measure_child (start, GTK_ORIENTATION_VERTICAL, FALSE);

  if (start == end || is_one_line (start, end, width))
    {
      place (row, end, width - b, 0, b, height);
      if (start != end)
        place (row, start, 0, 0, a, height);
      return;
    }
  place (row, start, 0, 0, a, h);
  place (row, end, width - b, h + SPACE_Y, b, height - h - SPACE_Y);
}

GtkWidget *
hob_wrap_row_new (GtkWidget *start, GtkWidget *end)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);

  if (start != NULL)
    gtk_box_append (GTK_BOX (row), start);
  gtk_box_append (GTK_BOX (row), end);
  gtk_widget_set_layout_manager (row, gtk_custom_layout_new (request_mode, measure, allocate));
  return row;
}
