/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Pictures in files: svg, pdf or png, the same bits every time. */

#include "sheet/legend.h"
#include "sheet/sequence-line.h"
#include "sheet/svg-text.h"
#include "sheet/title-block.h"
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

/* ---- Pages ---- */

void
hob_paper_size (HobPaper paper, double *w, double *h)
{
  static const double size[][2] = {
    [HOB_PAPER_LETTER] = { 11 * 96, 8.5 * 96 },
    [HOB_PAPER_A4] = { 297 / 25.4 * 96, 210 / 25.4 * 96 },
    [HOB_PAPER_TABLOID] = { 17 * 96, 11 * 96 },
  };

  *w = size[paper][0];
  *h = size[paper][1];
}

typedef struct
{
  double w, h; /* px of a page */
  HobPaper paper;
  HobDraw draw;
  gpointer user;
  const HobTitleBlock *block;
} Job;

/* The sequence line over a picture w px wide, in the block's letters. */
static HobSequenceLine
line_over (const HobTitleBlock *block, const HobLook *look, double w)
{
  return (HobSequenceLine){ .entries = block->sequence, .run = block->run, .look = look, .w = w,
                            .strip = TRUE };
}

static void
draw_line_and_block (cairo_t *cr, const Job *job, HobBlockPart part, const HobPageRoom *room)
{
  const HobLook look = hob_title_block_look (job->block);
  g_autoptr (HobType) type = hob_type_new (&look);
  const HobSequenceLine sequence = line_over (job->block, &look, room->w / room->scale);
  HobPen *pen = hob_cairo_pen_new_with (cr, &look, type, NULL);

  cairo_save (cr);
  cairo_scale (cr, room->scale, room->scale);
  if (room->picture > 0)
    hob_sequence_line_draw (pen, type, &sequence);
  hob_title_block_draw (pen, type, job->block, room->block / room->scale, room->w / room->scale,
                        part);
  cairo_restore (cr);
  if (job->paper != HOB_PAPER_NONE)
    {
      pen_rect (pen, 0, 0, room->w, room->h);
      pen_stroke (pen, HOB_ROLE_INK, 1.5);
    }
  hob_cairo_pen_free (pen);
}

/* What is inside of the margins: the line, the picture, then the block. */
static void
draw_page (cairo_t *cr, const Job *job, HobBlockPart part)
{
  const HobLook look = hob_title_block_look (job->block);
  const HobPageRoom room
      = hob_title_block_room (job->block, job->paper, job->w, job->h, part);
  double margin = hob_paper_margin (job->paper);

  hob_sheet_ground (cr, job->w, job->h, &look);
  cairo_save (cr);
  cairo_translate (cr, margin, margin);
  if (part != HOB_BLOCK_SECOND)
    {
      cairo_save (cr);
      cairo_translate (cr, 0, room.picture);
      job->draw (cr, room.w, fmax (1, room.block - room.picture), job->user);
      cairo_restore (cr);
    }
  draw_line_and_block (cr, job, part, &room);
  cairo_restore (cr);
}

static void
draw_pages (cairo_t *cr, Format format, const Job *job)
{
  gboolean two = format == FORMAT_PDF
                 && hob_title_block_needs_page (job->block, job->paper, job->w, job->h);

  draw_page (cr, job, two ? HOB_BLOCK_FIRST : HOB_BLOCK_WHOLE);
  if (!two)
    return;
  cairo_show_page (cr);
  draw_page (cr, job, HOB_BLOCK_SECOND);
}

/* Title and moment: what a viewer shows above a PDF. */
static void
name_pdf (cairo_surface_t *surface, const HobTitleBlock *block)
{
  g_autofree char *title
      = g_strdup_printf ("%s · %s", hob_range_name (block->facts->range),
                         hob_picture_title (block->picture));
  g_autoptr (GString) subject = g_string_new (NULL);

  for (guint k = 0; k < block->facts->list->len; k++)
    {
      const HobFact *fact = &g_array_index (block->facts->list, HobFact, k);

      g_string_append_printf (subject, "%s%s: %s", k > 0 ? ". " : "", fact->heading, fact->text);
    }
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_SUBJECT, subject->str);
}

static cairo_status_t
draw_into (Format format, GString *picture, const Job *job)
{
  cairo_surface_t *surface = surface_for (format, picture, job->w, job->h);
  g_autoptr (GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  cairo_t *cr = cairo_create (surface);
  cairo_status_t status;

  if (format == FORMAT_SVG)
    hob_svg_text_collect (surface, texts);
  if (format == FORMAT_PDF)
    {
      name_pdf (surface, job->block);
      cairo_scale (cr, POINTS_PER_PX, POINTS_PER_PX);
    }
  draw_pages (cr, format, job);
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
hob_picture_write (const char *file, double w, double h, HobPaper paper, HobDraw draw,
                   gpointer user, const HobTitleBlock *block, GError **error)
{
  const Format format = format_of (file);
  Job job = { w, h, paper, draw, user, block };
  GString *picture;
  cairo_status_t status;
  gboolean good;

  if (format == FORMAT_NONE)
    return fail (error, file, _ ("the picture's file name must end in .svg, .pdf, or .png"));
  if (paper != HOB_PAPER_NONE)
    hob_paper_size (paper, &job.w, &job.h);
  else if (!(w >= 1 && h >= 1) || w > LARGEST_PNG || h > LARGEST_PNG)
    return fail (error, file, _ ("each side must be 1 to 16,384 pixels"));
  picture = g_string_new (NULL);
  status = draw_into (format, picture, &job);
  good = status == CAIRO_STATUS_SUCCESS ? hob_write_file (file, picture->str, picture->len, error)
                                        : fail (error, file, cairo_status_to_string (status));
  g_string_free (picture, TRUE);
  return good;
}

int
hob_picture_pages (const HobTitleBlock *block, double w, double h)
{
  return hob_title_block_needs_page (block, HOB_PAPER_LETTER, w, h) ? 2 : 1;
}

void
hob_picture_draw_page (cairo_t *cr, double w, double h, HobDraw draw, gpointer user,
                       const HobTitleBlock *block, int page)
{
  const Job job = { w, h, HOB_PAPER_LETTER, draw, user, block }; /* any paper: it has margins */

  draw_page (cr, &job, page > 0 ? HOB_BLOCK_SECOND
                       : hob_picture_pages (block, w, h) > 1 ? HOB_BLOCK_FIRST : HOB_BLOCK_WHOLE);
}

void
hob_sheet_picture_draw (cairo_t *cr, double w, double h, gpointer user)
{
  const HobSheetPicture *p = user;
  HobLook look = *p->look;
  double box[4], fit;

  hob_sheet_bounds (p->scene->range, p->sheet, box);
  fit = fmin (w / box[2], h / box[3]);
  hob_sheet_ground (cr, w, h, &look);
  look.zoom = fit;
  cairo_translate (cr, (w - box[2] * fit) / 2, (h - box[3] * fit) / 2);
  cairo_scale (cr, fit, fit);
  cairo_translate (cr, -box[0], -box[1]);
  hob_sheet_draw_paper (cr, p->scene->range, p->sheet, &look, NULL);
  hob_sheet_draw_state (cr, p->scene, p->sheet, &look, NULL);
}

gboolean
hob_sheet_write (const char *file, const HobScene *scene, const HobTitleBlock *block,
                 HobPaper paper, double w, double h, GError **error)
{
  gboolean own = !(w > 0) && !(h > 0);
  HobSheetPicture picture
      = { .scene = scene, .sheet = (HobSheet) block->picture, .look = block->look };
  double box[4];

  hob_sheet_bounds (scene->range, picture.sheet, box);
  if (own)
    w = ceil (box[2] * block->look->zoom);
  if (!(h > 0))
    h = ceil (w * box[3] / box[2]);
  if (!(w > 0))
    w = ceil (h * box[2] / box[3]);
  if (own)
    h += hob_title_block_height (block, w, HOB_BLOCK_WHOLE) + hob_title_block_line_height (block);
  return hob_picture_write (file, w, h, paper, hob_sheet_picture_draw, &picture, block, error);
}
