/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheet/facts.h"
#include "sheet/scene.h"
#include "symptoms/symptoms.h"
#include <cairo.h>
#include <pango/pangocairo.h>

G_BEGIN_DECLS

typedef enum {
  HOB_THEME_LIGHT,
  HOB_THEME_DARK,
  HOB_THEME_PRINT,
  HOB_THEME_CONTRAST_LIGHT,
  HOB_THEME_CONTRAST_DARK,
  HOB_N_THEMES
} HobTheme;

void hob_theme_colour (HobTheme theme, HobRole role, double rgb[3]);
gboolean hob_wire_colour (const char *code, double rgb[3]); /* IEC 60757; FALSE: unknown */

/* Where a picture is shown. */
typedef enum
{
  HOB_PAGE_SCREEN,  /* in the window: the sheet has its own title where there is room */
  HOB_PAGE_PICTURE, /* in a file, above a title block */
  HOB_PAGE_PAPER,   /* the same on paper: nothing drops out, and text has at least 7 pt */
} HobPage;

typedef struct
{
  HobTheme theme;
  double text_scale; /* 1.0 */
  double zoom;       /* 1.0: px per sheet px; chooses what is left out */
  HobPage page;
} HobLook;

void hob_cairo_pen_free (HobPen *pen);

/* Bounds of all that is drawn on a sheet, px: x, y, w, h. */
void hob_sheet_bounds (const HobRange *range, HobSheet sheet, double box[4]);

/* Both draw in sheet px: the caller has scaled @cr by look->zoom and moved it.  @memory: what is
 * kept between frames; NULL: a still.
 * The still layer: depends on range, look, zoom only; cache it as an image surface. */
typedef struct _HobSheetMemory HobSheetMemory;

void hob_sheet_draw_paper (cairo_t *cr, const HobRange *range, HobSheet sheet, const HobLook *look,
                           HobSheetMemory *memory);
/* What moves or changes, on top. */

HobSheetMemory *hob_sheet_memory_new (const HobRange *range); /* (transfer full) */
void hob_sheet_memory_free (HobSheetMemory *memory);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobSheetMemory, hob_sheet_memory_free)
void hob_sheet_draw_state (cairo_t *cr, const HobScene *scene, HobSheet sheet, const HobLook *look,
                           HobSheetMemory *memory);

/* The same geometry asked backwards: part (or −1) and wire/pipe (or −1) at sheet px x, y. */
void hob_sheet_hit (HobSheetMemory *memory, HobSheet sheet, double x, double y, int *part,
                    int *line);
/* hob_sheet_bounds, reckoned once. */
void hob_sheet_memory_bounds (HobSheetMemory *memory, HobSheet sheet, double box[4]);

#define HOB_FIT_LEAST 0.05  /* all of a sheet is in a view, however small */
#define HOB_FIT_MOST 1.5
#define HOB_FIT_MARGIN 16.0 /* px around what is to be seen, at most */
#define HOB_FIT_SHARE 0.022  /* of a small view that they are */

/* The zoom at which all that is to be seen of a sheet fills a view of w × h px in one direction.
 * @look: its zoom is not looked at.  @view: x, y, w, h of the view in sheet px. */
double hob_sheet_memory_fit (HobSheetMemory *memory, HobSheet sheet, const HobLook *look, double w,
                             double h, double view[4]);
/* The view at this zoom: what is said has its place in it.  Until another zoom, and then in all of
 * the sheet. */
void hob_sheet_memory_set_view (HobSheetMemory *memory, HobSheet sheet, double zoom,
                                const double view[4]);
/* Where something has its place at this zoom: the view, or all of the sheet. */
void hob_sheet_memory_room (HobSheetMemory *memory, HobSheet sheet, const HobLook *look,
                            double box[4]);

/* ---- Files ---- */

typedef enum { HOB_PAPER_NONE, HOB_PAPER_LETTER, HOB_PAPER_A4, HOB_PAPER_TABLOID } HobPaper;

/* px of 1/96 in. of a sheet of paper on its side. */
void hob_paper_size (HobPaper paper, double *w, double *h);

/* What the title block below a picture tells, and in whose look. */
typedef struct
{
  const HobFacts *facts;
  const HobLook *look;
  int picture; /* HobSheet, or HOB_N_SHEETS: a chart */
  const GArray *sequence; /* HobSequenceEntry, for the line over the picture; NULL: none */
  const HobRun *run;      /* theirs */
} HobTitleBlock;

/* Writes a picture of w × h px, its title block included; the suffix of @file chooses svg, pdf or
 * png.  @draw fills what is left above the block.  On paper it has margins and a frame, and w and
 * h are the paper's.  Beside and renamed. */
typedef void (*HobDraw) (cairo_t *cr, double w, double h, gpointer user);
gboolean hob_picture_write (const char *file, double w, double h, HobPaper paper, HobDraw draw,
                            gpointer user, const HobTitleBlock *block, GError **error);
/* A whole sheet fitted into w × h (0: its own size, and the title block below it). */
gboolean hob_sheet_write (const char *file, const HobScene *scene, const HobTitleBlock *block,
                          HobPaper paper, double w, double h, GError **error);

/* The same for a printer: page by page, on paper of w × h px. */
int hob_picture_pages (const HobTitleBlock *block, double w, double h);
void hob_picture_draw_page (cairo_t *cr, double w, double h, HobDraw draw, gpointer user,
                            const HobTitleBlock *block, int page);
/* A HobDraw for a whole sheet. */
typedef struct
{
  const HobScene *scene;
  HobSheet sheet;
  const HobLook *look;
} HobSheetPicture;
void hob_sheet_picture_draw (cairo_t *cr, double w, double h, gpointer user);

/* Draw a HobLook's paper ground over w × h. */
void hob_sheet_ground (cairo_t *cr, double w, double h, const HobLook *look);

G_END_DECLS
