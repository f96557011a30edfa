/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/fault-chart.h"

#include "sheet/pen-cairo.h"
#include "sheet/svg-text.h"
#include "sheet/title-block.h"

#include <math.h>

#define EDGE 16.0   /* px around it */
#define ROW 16.0
#define CELL 17.0
#define GAP 12.0    /* between columns of text */
#define DOT 4.5     /* px, its radius */
#define FIVE 5      /* columns between two heavier rules */
#define BASE 4.0    /* px from the middle of a line of small text down to its baseline */

enum { MOST_ROWS = 130 }; /* above each other; the rest goes beside them */

/* Where everything is, px; of one panel from its own left edge on. */
typedef struct
{
  const HobFaultChart *chart;
  cairo_t *cr;
  HobPen *pen;
  HobType *type;
  double fault_x, cell_x, end_x, top, w;
  int first, end; /* rows of the panel */
} Layout;

static gboolean
begins_part (const HobFaultChart *chart, int k)
{
  return k == 0 || !g_str_equal (chart->rows[k].part, chart->rows[k - 1].part);
}

static int
n_panels (const HobFaultChart *chart)
{
  return MAX ((chart->n_rows + MOST_ROWS - 1) / MOST_ROWS, 1);
}

/* The row with which panel @k begins: a part is not torn apart. */
static int
first_of (const HobFaultChart *chart, int k)
{
  int row = k * chart->n_rows / n_panels (chart);

  while (row < chart->n_rows && !begins_part (chart, row))
    row++;
  return row;
}

static int
most_rows (const HobFaultChart *chart)
{
  int most = 0;

  for (int k = 0; k < n_panels (chart); k++)
    most = MAX (most, first_of (chart, k + 1) - first_of (chart, k));
  return most;
}

/* Whoever reads it on paper can't ask for the rest of a name: nothing is cut. */
static void
measure (Layout *l)
{
  double part = 0, fault = 0, note = 0, head = 0;

  for (int k = 0; k < l->chart->n_rows; k++)
    {
      const HobFaultChartRow *row = &l->chart->rows[k];

      part = fmax (part, hob_type_width (l->type, HOB_TEXT_SMALL, row->part));
      fault = fmax (fault, hob_type_width (l->type, HOB_TEXT_SMALL, row->fault));
      if (row->note != NULL)
        note = fmax (note, hob_type_width (l->type, HOB_TEXT_SMALL, row->note));
    }
  for (int k = 0; k < l->chart->n_columns; k++)
    head = fmax (head, hob_type_width (l->type, HOB_TEXT_SMALL, l->chart->columns[k].symptom));
  l->fault_x = EDGE + part + GAP;
  l->cell_x = l->fault_x + fault + GAP;
  l->end_x = l->cell_x + fmax (CELL * l->chart->n_columns, note + GAP);
  l->top = EDGE + head + GAP / 2;
  l->w = l->end_x + EDGE;
}

static void
write_small (const Layout *l, double x, double y, HobRole role, const char *text)
{
  pen_text (l->pen, x, y, HOB_TEXT_SMALL, role, HOB_ALIGN_LEFT, text);
}

/* Upward, so that many fit side by side, and all of it: what it takes to see it comes last.  A pen
 * writes upright text only. */
static void
write_upward (const Layout *l, double x, double y, HobRole role, const char *text)
{
  PangoLayout *layout = hob_type_layout (l->type, HOB_TEXT_SMALL, text);
  double rgb[3];

  hob_theme_colour (HOB_THEME_PRINT, role, rgb);
  cairo_save (l->cr);
  cairo_set_source_rgb (l->cr, rgb[0], rgb[1], rgb[2]);
  cairo_translate (l->cr, x, y);
  cairo_rotate (l->cr, -G_PI / 2);
  if (!hob_svg_text_add (l->cr, layout, 0))
    {
      cairo_move_to (l->cr, 0, -(double) pango_layout_get_baseline (layout) / PANGO_SCALE);
      pango_cairo_show_layout (l->cr, layout);
    }
  cairo_restore (l->cr);
  cairo_new_path (l->cr);
}

/* In the color of cautions where one belongs to it. */
static void
draw_heads (const Layout *l)
{
  for (int k = 0; k < l->chart->n_columns; k++)
    write_upward (l, l->cell_x + CELL * (k + 0.5) + BASE, l->top - GAP / 2,
                  l->chart->columns[k].hazards != 0 ? HOB_ROLE_CAUTION : HOB_ROLE_INK,
                  l->chart->columns[k].symptom);
}

static void
draw_columns (const Layout *l)
{
  for (int k = 0; k <= l->chart->n_columns; k++)
    {
      double x = l->cell_x + CELL * k;

      pen_segment (l->pen, x, l->top, x, l->top + ROW * (l->end - l->first));
      pen_stroke (l->pen, k % FIVE == 0 ? HOB_ROLE_EDGE : HOB_ROLE_RULE, k % FIVE == 0 ? 1 : 0.5);
    }
}

static void
draw_row (const Layout *l, int k)
{
  const HobFaultChartRow *row = &l->chart->rows[k];
  gboolean begins = begins_part (l->chart, k);
  double y = l->top + ROW * (k - l->first), middle = y + ROW / 2;

  pen_segment (l->pen, begins ? EDGE : l->fault_x, y, l->end_x, y);
  pen_stroke (l->pen, begins ? HOB_ROLE_EDGE : HOB_ROLE_RULE, begins ? 1 : 0.5);
  if (begins)
    write_small (l, EDGE, middle + BASE, HOB_ROLE_INK, row->part);
  write_small (l, l->fault_x, middle + BASE, row->note != NULL ? HOB_ROLE_INK2 : HOB_ROLE_INK,
         row->fault);
  if (row->note != NULL)
    write_small (l, l->cell_x + GAP / 2, middle + BASE, HOB_ROLE_INK2, row->note);
  for (int c = 0; c < l->chart->n_columns; c++)
    if (row->shows[c])
      {
        pen_circle (l->pen, l->cell_x + CELL * (c + 0.5), middle, DOT);
        pen_fill (l->pen, l->chart->columns[c].hazards != 0 ? HOB_ROLE_CAUTION : HOB_ROLE_INK);
      }
}

/* A note has its row to itself: rules do not run through it. */
static void
clear_notes (const Layout *l)
{
  for (int k = l->first; k < l->end; k++)
    if (l->chart->rows[k].note != NULL)
      {
        pen_rect (l->pen, l->cell_x + 1, l->top + ROW * (k - l->first),
                  l->end_x - l->cell_x - 2, ROW);
        pen_fill (l->pen, HOB_ROLE_SHEET);
      }
}

static void
draw_panel (const Layout *l)
{
  double bottom = l->top + ROW * (l->end - l->first);

  draw_heads (l);
  draw_columns (l);
  clear_notes (l);
  for (int k = l->first; k < l->end; k++)
    draw_row (l, k);
  pen_segment (l->pen, EDGE, bottom, l->end_x, bottom);
  pen_stroke (l->pen, HOB_ROLE_EDGE, 1);
}

static void
draw_chart (cairo_t *cr, double w, double h, gpointer user)
{
  Layout l = *(const Layout *) user;
  const HobLook look = { HOB_THEME_PRINT, 1, 1, HOB_PAGE_PICTURE };

  l.cr = cr;
  l.pen = hob_cairo_pen_new_with (cr, &look, l.type, NULL);
  for (int k = 0; k < n_panels (l.chart); k++)
    {
      l.first = first_of (l.chart, k);
      l.end = first_of (l.chart, k + 1);
      cairo_save (cr);
      cairo_translate (cr, k * l.w, 0);
      draw_panel (&l);
      cairo_restore (cr);
    }
  hob_cairo_pen_free (l.pen);
}

gboolean
hob_fault_chart_write (const char *file, const HobFaultChart *chart, const HobTitleBlock *block,
                       GError **error)
{
  g_autoptr (HobType) type = hob_type_new (block->look);
  Layout l = { .chart = chart, .type = type };
  double w, h;

  measure (&l);
  w = ceil (l.w * n_panels (chart));
  h = l.top + ROW * most_rows (chart) + EDGE;
  h += hob_title_block_height (block, w, HOB_BLOCK_WHOLE);
  return hob_picture_write (file, w, ceil (h), HOB_PAPER_NONE, draw_chart, &l, block, error);
}
