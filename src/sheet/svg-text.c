/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Text in SVG files as text, to be read aloud, searched and translated: the drawing library
 * writes outlines.  Each text leaves a mark among the lines, so that what lies over it still
 * does; in the finished file the marks are replaced.  A mark is a line whose mitre limit tells
 * which text it stands for; no other line has one so large. */

#include "sheet/svg-text.h"
#include "base/units.h"
#include <string.h>

#define FIRST_MARK 1000

static const cairo_user_data_key_t key;

void
hob_svg_text_collect (cairo_surface_t *surface, GPtrArray *texts)
{
  cairo_surface_set_user_data (surface, &key, texts, NULL);
}

static void
append_attribute (GString *out, const char *name, double value)
{
  g_string_append_printf (out, " %s=\"", name);
  hob_append_number (out, value);
  g_string_append_c (out, '"');
}

static void
append_place (GString *out, const cairo_matrix_t *m)
{
  const double numbers[] = { m->xx, m->yx, m->xy, m->yy, m->x0, m->y0 };

  g_string_append (out, " transform=\"matrix(");
  for (gsize k = 0; k < G_N_ELEMENTS (numbers); k++)
    {
      if (k > 0)
        g_string_append_c (out, ',');
      hob_append_number (out, numbers[k]);
    }
  g_string_append (out, ")\"");
}

static void
append_colour (GString *out, cairo_pattern_t *source)
{
  double rgb[3] = { 0, 0, 0 };

  cairo_pattern_get_rgba (source, &rgb[0], &rgb[1], &rgb[2], NULL);
  g_string_append_printf (out, " fill=\"#%02X%02X%02X\"", (guint) (rgb[0] * 255 + 0.5),
                          (guint) (rgb[1] * 255 + 0.5), (guint) (rgb[2] * 255 + 0.5));
}

/* With its measured width, so that another face keeps the room that was made for it. */
static char *
element (cairo_t *cr, PangoLayout *layout, double x)
{
  const PangoFontDescription *font = pango_layout_get_font_description (layout);
  GString *out = g_string_new ("<text");
  g_autofree char *words = g_markup_escape_text (pango_layout_get_text (layout), -1);
  PangoRectangle logical;
  cairo_matrix_t m;

  pango_layout_get_extents (layout, NULL, &logical);
  cairo_get_matrix (cr, &m);
  append_place (out, &m);
  append_attribute (out, "x", x);
  append_attribute (out, "font-size",
                    (double) pango_font_description_get_size (font) / PANGO_SCALE);
  append_attribute (out, "textLength", (double) logical.width / PANGO_SCALE);
  g_string_append (out,
                   " lengthAdjust=\"spacingAndGlyphs\" font-family=\"DejaVu Sans, sans-serif\"");
  if (pango_font_description_get_weight (font) >= PANGO_WEIGHT_BOLD)
    g_string_append (out, " font-weight=\"bold\"");
  append_colour (out, cairo_get_source (cr));
  g_string_append_printf (out, " xml:space=\"preserve\">%s</text>", words);
  return g_string_free (out, FALSE);
}

gboolean
hob_svg_text_add (cairo_t *cr, PangoLayout *layout, double x)
{
  GPtrArray *texts = cairo_surface_get_user_data (cairo_get_target (cr), &key);

  if (texts == NULL)
    return FALSE;
  g_ptr_array_add (texts, element (cr, layout, x));
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_move_to (cr, x, 0);
  cairo_line_to (cr, x + 1, 0);
  cairo_set_dash (cr, NULL, 0, 0);
  cairo_set_line_width (cr, 1);
  cairo_set_miter_limit (cr, FIRST_MARK + texts->len - 1);
  cairo_stroke (cr);
  cairo_restore (cr);
  return TRUE;
}

/* The text that the line's element from `open` to `end` stands for; NULL: it is a line. */
static const char *
marked (const char *open, const char *end, const GPtrArray *texts)
{
  const char *limit = g_strstr_len (open, end - open, "stroke-miterlimit:");
  guint64 index
      = limit != NULL ? g_ascii_strtoull (limit + strlen ("stroke-miterlimit:"), NULL, 10) : 0;

  return index >= FIRST_MARK && index - FIRST_MARK < texts->len
             ? g_ptr_array_index (texts, index - FIRST_MARK)
             : NULL;
}

char *
hob_svg_text_settle (const char *svg, const GPtrArray *texts)
{
  GString *out = g_string_sized_new (strlen (svg));
  const char *from = svg, *open = strstr (svg, "<path ");

  for (; open != NULL; open = strstr (open, "<path "))
    {
      const char *end = strstr (open, "/>"), *text = end != NULL ? marked (open, end, texts) : NULL;

      if (end == NULL)
        break;
      if (text != NULL)
        {
          g_string_append_len (out, from, open - from);
          g_string_append (out, text);
          from = end + 2;
        }
      open = end + 2;
    }
  g_string_append (out, from);
  return g_string_free (out, FALSE);
}
