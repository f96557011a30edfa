/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Type on sheets: DejaVu Sans, the widest face we ship for, with digits of one width, so that a
 * layout that holds here holds with any other.  Nothing on screen is smaller than 11 px. */

#include "sheet/type.h"
#include <math.h>

static const struct
{
  double px;
  PangoWeight weight;
} sizes[] = {
  [HOB_TEXT_TITLE] = { 18, PANGO_WEIGHT_BOLD }, [HOB_TEXT_FIGURE] = { 16, PANGO_WEIGHT_BOLD },
  [HOB_TEXT_NAME] = { 14, PANGO_WEIGHT_BOLD },  [HOB_TEXT_BODY] = { 13, PANGO_WEIGHT_NORMAL },
  [HOB_TEXT_SMALL] = { 11, PANGO_WEIGHT_NORMAL }, [HOB_TEXT_METER] = { 32, PANGO_WEIGHT_BOLD },
};

#define LEAST_PX 11.0
#define LEAST_ON_PAPER 9.36 /* px of 1/96 in.: 7.02 pt */
#define SMALL_FROM_ZOOM 0.75
#define KEPT 400 /* layouts; then all are dropped: figures that change would pile up */

struct _HobType
{
  /*< owned >*/
  PangoContext *context;
  PangoFontDescription *fonts[G_N_ELEMENTS (sizes)];
  GHashTable *kept[G_N_ELEMENTS (sizes)]; /* text → PangoLayout */
  double text_scale, zoom;
  HobPage page;
};

double
hob_type_px (const HobLook *look, HobTextSize size)
{
  double zoom = look->zoom > 0 ? look->zoom : 1.0;

  double least = look->page == HOB_PAGE_PAPER ? LEAST_ON_PAPER : LEAST_PX;

  return fmax (least, sizes[size].px * look->text_scale * zoom) / zoom;
}

gboolean
hob_type_shows (const HobLook *look, HobTextSize size)
{
  return size != HOB_TEXT_SMALL || look->zoom >= SMALL_FROM_ZOOM
         || look->page == HOB_PAGE_PAPER;
}

HobTextSize
hob_type_least (const HobLook *look)
{
  return hob_type_shows (look, HOB_TEXT_SMALL) ? HOB_TEXT_SMALL : HOB_TEXT_BODY;
}

double
hob_text_left (double x, double w, HobAlign align)
{
  return x - (align == HOB_ALIGN_LEFT ? 0 : align == HOB_ALIGN_RIGHT ? w : w / 2);
}

static void
forget (HobType *type)
{
  for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++)
    g_hash_table_remove_all (type->kept[k]);
}

HobType *
hob_type_new (const HobLook *look)
{
  HobType *type = g_new0 (HobType, 1);
  cairo_font_options_t *options = cairo_font_options_create ();

  /* Widths must not depend on zoom or screen: no rounding of advances to pixels. */
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  type->context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  pango_cairo_context_set_font_options (type->context, options);
  pango_cairo_context_set_resolution (type->context, 96);
  cairo_font_options_destroy (options);
  /* One family: Pango asks for the metrics of a font by the name of the face that was found, and
   * with a second family that is another font, which is then looked for anew. */
  for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++)
    {
      type->fonts[k] = pango_font_description_from_string ("DejaVu Sans");
      pango_font_description_set_weight (type->fonts[k], sizes[k].weight);
      type->kept[k] = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_object_unref);
    }
  hob_type_set_look (type, look);
  return type;
}

void
hob_type_free (HobType *type)
{
  if (type == NULL)
    return;
  for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++)
    {
      pango_font_description_free (type->fonts[k]);
      g_hash_table_unref (type->kept[k]);
    }
  g_object_unref (type->context);
  g_free (type);
}

void
hob_type_set_look (HobType *type, const HobLook *look)
{
  if (type->text_scale == look->text_scale && type->zoom == look->zoom
      && type->page == look->page)
    return;
  type->page = look->page;
  type->text_scale = look->text_scale;
  type->zoom = look->zoom;
  forget (type);
  for (gsize k = 0; k < G_N_ELEMENTS (sizes); k++)
    pango_font_description_set_absolute_size (type->fonts[k],
                                              hob_type_px (look, (HobTextSize) k) * PANGO_SCALE);
}

PangoLayout *
hob_type_layout (HobType *type, HobTextSize size, const char *text)
{
  GHashTable *kept = type->kept[size];
  PangoLayout *layout = g_hash_table_lookup (kept, text);

  if (layout != NULL)
    return layout;
  if (g_hash_table_size (kept) >= KEPT)
    g_hash_table_remove_all (kept);
  layout = pango_layout_new (type->context);
  pango_layout_set_font_description (layout, type->fonts[size]);
  pango_layout_set_text (layout, text, -1);
  g_hash_table_insert (kept, g_strdup (text), layout);
  return layout;
}

double
hob_type_width (HobType *type, HobTextSize size, const char *text)
{
  PangoRectangle logical;

  pango_layout_get_extents (hob_type_layout (type, size, text), NULL, &logical);
  return (double) logical.width / PANGO_SCALE;
}
