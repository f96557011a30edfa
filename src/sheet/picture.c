/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Pictures in files: svg, pdf or png, the same bits every time. */

#include "sheet/foot.h"
#include "sheet/svg-text.h"
#include "base/errors.h"
#include "base/i18n.h"
#include "base/write-file.h"
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <math.h>
#include <string.h>

typedef enum { FORMAT_SVG, FORMAT_PDF, FORMAT_PNG, FORMAT_NONE } Format;

#define POINTS_PER_PX 0.75
#define LARGEST_PNG 16384.0 /* px a side */

static Format
format_of (const char *file)
{
  static const char *const suffixes[]
      = { [FORMAT_SVG] = ".svg", [FORMAT_PDF] = ".pdf", [FORMAT_PNG] = ".png" };
  g_autofree char *lower = g_ascii_strdown (file, -1);

  for (int k = 0; k < FORMAT_NONE; k++)
    if (g_str_has_suffix (lower, suffixes[k]))
      return (Format) k;
  return FORMAT_NONE;
}

/* A PDF carries the time of its making otherwise: no two runs would give the same file. */
static void
date_pdf (cairo_surface_t *surface)
{
  const char *always = "2000-01-01T00:00:00Z";

  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, always);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, always);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Hobwright");
}

static cairo_status_t
keep (void *picture, const unsigned char *bytes, unsigned int size)
{
  g_string_append_len (picture, (const char *)bytes, size);
  return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *
surface_for (Format format, GString *picture, double w, double h)
{
  cairo_surface_t *surface;

  switch (format)
    {
    case FORMAT_SVG:
      surface = cairo_svg_surface_create_for_stream (keep, picture, w, h);
      cairo_svg_surface_set_document_unit (surface, CAIRO_SVG_UNIT_PX);
      return surface;
    case FORMAT_PDF:
      surface = cairo_pdf_surface_create_for_stream (keep, picture, w * POINTS_PER_PX,
                                                     h * POINTS_PER_PX);
      date_pdf (surface);
      return surface;
    case FORMAT_PNG:
    case FORMAT_NONE:
    default:
      return cairo_image_surface_create (CAIRO_FORMAT_RGB24, (int)ceil (w), (int)ceil (h));
    }
}

/* Texts get their places.  The drawing's group is named after a counter of the process: the
 * second picture would differ from the first. */
static void
settle_svg (GString *picture, const GPtrArray *texts)
{
  g_autofree char *text = hob_svg_text_settle (picture->str, texts);
  const char *at = strstr (text, "<g id=\"surface"), *end = at != NULL ? strchr (at, '>') : NULL;

  g_string_truncate (picture, 0);
  if (end == NULL)
    {
      g_string_append (picture, text);
      return;
    }
  g_string_append_len (picture, text, at - text);
  g_string_append (picture, "<g id=\"picture\"");
  g_string_append (picture, end);
}

/* The picture above its foot, and in a PDF a second page with what the foot only names. */
static void
draw_pages (cairo_t *cr, Format format, double w, double h, HobDraw draw, gpointer user,
            const HobFoot *foot)
{
  gboolean second_page = format == FORMAT_PDF && hob_foot_needs_page (foot);

  hob_sheet_ground (cr, w, h, foot->look);
  cairo_save (cr);
  draw (cr, w, h - hob_foot_height_in (foot, w, h, second_page), user);
  cairo_restore (cr);
  hob_foot_draw (cr, foot, w, h, second_page);
  if (!second_page)
    return;
  cairo_show_page (cr);
  hob_sheet_ground (cr, w, h, foot->look);
  hob_foot_draw (cr, foot, w, h, FALSE);
}

static cairo_status_t
draw_into (Format format, GString *picture, double w, double h, HobDraw draw, gpointer user,
           const HobFoot *foot)
{
  cairo_surface_t *surface = surface_for (format, picture, w, h);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  if (format == FORMAT_SVG)
    hob_svg_text_collect (surface, texts);
  if (format == FORMAT_PDF)
    cairo_scale (cr, POINTS_PER_PX, POINTS_PER_PX);
  draw_pages (cr, format, w, h, draw, user, foot);
  status = cairo_status (cr);
  if (format == FORMAT_PNG && status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_write_to_png_stream (surface, keep, picture);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  if (status == CAIRO_STATUS_SUCCESS && format == FORMAT_SVG)
    settle_svg (picture, texts);
  return status;
}

static gboolean
fail (GError **error, const char *file, const char *why)
{
  g_set_error (error, HOB_ERROR, HOB_ERROR_OUTPUT, _ ("cannot write %s: %s"), file, why);
  return FALSE;
}

gboolean
hob_picture_write (const char *file, double w, double h, HobDraw draw, gpointer user,
                   const HobFoot *foot, GError **error)
{
  Format format = format_of (file);
  GString *picture;
  cairo_status_t status;
  gboolean good;

  if (format == FORMAT_NONE)
    return fail (error, file, _ ("the name of a picture must end in .svg, .pdf or .png"));
  if (!(w >= 1 && h >= 1) || w > LARGEST_PNG || h > LARGEST_PNG)
    return fail (error, file, _ ("each side must be 1 to 16384 pixels"));
  picture = g_string_new (NULL);
  status = draw_into (format, picture, w, h, draw, user, foot);
  good = status == CAIRO_STATUS_SUCCESS ? hob_write_file (file, picture->str, picture->len, error)
                                        : fail (error, file, cairo_status_to_string (status));
  g_string_free (picture, TRUE);
  return good;
}

typedef struct
{
  const HobScene *scene;
  HobSheet sheet;
  const HobLook *look;
  double box[4];
} SheetPicture;

static void
draw_sheet (cairo_t *cr, double w, double h, gpointer user)
{
  const SheetPicture *p = user;
  HobLook look = *p->look;
  double fit = fmin (w / p->box[2], h / p->box[3]);

  hob_sheet_ground (cr, w, h, &look);
  look.zoom = fit;
  cairo_translate (cr, (w - p->box[2] * fit) / 2, (h - p->box[3] * fit) / 2);
  cairo_scale (cr, fit, fit);
  cairo_translate (cr, -p->box[0], -p->box[1]);
  hob_sheet_draw_paper (cr, p->scene->range, p->sheet, &look);
  hob_sheet_draw_state (cr, p->scene, p->sheet, &look, NULL);
}

gboolean
hob_sheet_write (const char *file, const HobScene *scene, HobSheet sheet, const HobLook *look,
                 double w, double h, HobHazards now, GError **error)
{
  const HobFoot foot = { now, look };
  gboolean own = !(w > 0) && !(h > 0);
  SheetPicture picture = { .scene = scene, .sheet = sheet, .look = look };

  hob_sheet_bounds (scene->range, sheet, picture.box);
  if (own)
    w = ceil (picture.box[2] * look->zoom);
  if (!(h > 0))
    h = ceil (w * picture.box[3] / picture.box[2]);
  if (!(w > 0))
    w = ceil (h * picture.box[2] / picture.box[3]);
  if (own)
    h += hob_foot_height (&foot, w, format_of (file) == FORMAT_PDF && hob_foot_needs_page (&foot));
  return hob_picture_write (file, w, h, draw_sheet, &picture, &foot, error);
}
