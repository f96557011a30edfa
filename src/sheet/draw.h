/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Shared by the files of this folder (and by tests): type, routes, cells, and the stage that a
 * sheet is drawn on. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

/* ---- Type: text laid out in DejaVu Sans, measured in sheet px ---- */

typedef struct _HobType HobType;

HobType *hob_type_new (const HobLook *look); /* (transfer full) */
void hob_type_free (HobType *type);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobType, hob_type_free)
/* Forgets what was laid out if the look's sizes changed. */
void hob_type_set_look (HobType *type, const HobLook *look);
/* Borrowed until the next call. */
PangoLayout *hob_type_layout (HobType *type, HobTextSize size, const char *text);
double hob_type_width (HobType *type, HobTextSize size, const char *text);
/* The text cut to the width it has, with an ellipsis. (transfer full) */
char *hob_type_fitted (HobType *type, HobTextSize size, const char *text, double width);
/* Em size in sheet px: on screen it is never under 11. */
double hob_type_px (const HobLook *look, HobTextSize size);
/* Does text of this size show at this zoom? Codes, letters and "should be" drop out under 0.75. */
gboolean hob_type_shows (const HobLook *look, HobTextSize size);

/* The pen on cairo with a type kept by the caller. */
HobPen *hob_cairo_pen_new_with_type (cairo_t *cr, const HobLook *look, HobType *type);

/* ---- The foot of a picture ---- */

/* Does it name hazards that are in full on a second page only? */
gboolean hob_foot_needs_page (const HobFoot *foot);
/* px, below a picture of its own size, w px wide; @second_page: one follows. */
double hob_foot_height (const HobFoot *foot, double w, gboolean second_page);
/* The same within w × h px, where it may not take more than half. */
double hob_foot_height_in (const HobFoot *foot, double w, double h, gboolean second_page);
/* At the bottom of w × h px. */
void hob_foot_draw (cairo_t *cr, const HobFoot *foot, double w, double h, gboolean second_page);

/* ---- Text in SVG files: as text, not as outlines ---- */

/* From now on texts drawn on the surface go into @texts (char *, freed by its owner). */
void hob_svg_text_collect (cairo_surface_t *surface, GPtrArray *texts);
/* A layout whose line starts at x on the baseline y = 0 of @cr, in its source's colour; FALSE:
 * nobody collects. */
gboolean hob_svg_text_add (cairo_t *cr, PangoLayout *layout, double x);
/* The file with each text in its place. (transfer full) */
char *hob_svg_text_settle (const char *svg, const GPtrArray *texts);

/* ---- Routes: what a wire, a pipe or a lead runs through ---- */

typedef struct
{
  HobPoint *p; /* owned; corners, both ends included */
  int n;       /* 0: not on this sheet */
  guint64 square; /* corner k < 64 is square: another line leaves here */
} HobRoute;

/* A wire goes together with another one from one of its ends on. */
typedef struct
{
  int wire, other;
  gboolean last; /* from its `to` end */
  double length; /* px */
} HobShared;

typedef struct
{
  HobRoute *wires, *pipes, *leads; /* as many as the range has */
  int n_wires, n_pipes, n_leads;
  HobPoint *dots; /* where wires of one terminal part */
  int n_dots;
  HobShared *shared;
  int n_shared;
} HobRoutes;

#define HOB_BEND_RADIUS 8.0
#define HOB_WIRE_WIDTH 5.0
#define HOB_WIRE_CORE 3.0
#define HOB_KNOCK_OUT 10.0
#define HOB_LEAD_WIDTH 7.0
#define HOB_TUBE_WIDTH 14.0

HobRoutes *hob_routes_new (const HobRange *range, HobSheet sheet); /* (transfer full) */
void hob_routes_free (HobRoutes *routes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobRoutes, hob_routes_free)
/* Where a terminal (wiring) or port (gas) stands on the sheet; FALSE: its part is not there. */
gboolean hob_anchor (const HobRange *range, HobSheet sheet, HobEnd end, gboolean port,
                     HobPoint *at);
/* The path with rounded bends, @cut px short of either end. */
void hob_route_path (HobPen *pen, const HobRoute *route, double cut);
/* px from the route to x, y. */
double hob_route_distance (const HobRoute *route, double x, double y);
/* Where route @below is crossed by @over: calls @each with the place. */
typedef void (*HobCrossing) (HobPoint at, gboolean over_is_level, gpointer user);
void hob_route_each_crossing (const HobRoute *over, const HobRoute *below, HobCrossing each,
                              gpointer user);
/* Places where two different lines of the sheet cross, shared ends not counted. */
int hob_routes_crossings (const HobRoutes *routes);

/* ---- Cells: what belongs to one part ---- */

typedef struct
{
  double x0, y0, x1, y1;
} HobBox;

#define HOB_CELL_ABOVE 24.0
#define HOB_CELL_BELOW 24.0
#define HOB_CELL_AROUND 12.0
#define HOB_TAG_WIDTH 104.0
#define HOB_TAG_HEIGHT 28.0

/* The symbol's own box; FALSE: not on this sheet. */
gboolean hob_cell_symbol (const HobPart *part, HobSheet sheet, HobBox *box);
/* With what it keeps free round it. */
gboolean hob_cell_zone (const HobPart *part, HobSheet sheet, HobBox *zone);
/* Where a fault's tag hangs; FALSE: it has no faults. */
gboolean hob_cell_tag (const HobPart *part, HobSheet sheet, HobBox *tag);
gboolean hob_cell_is_dot (const HobPart *part, HobSheet sheet);
gboolean hob_cell_is_interior (const HobKind *kind); /* others are drawn inside of it */
gboolean hob_cell_is_attached (const HobRange *range, int part,
                               HobSheet sheet); /* has no name of its own there */
gboolean hob_on_cavity (const HobRange *range, HobSheet sheet, double x, double y);
gboolean hob_box_meet (const HobBox *a, const HobBox *b);
gboolean hob_box_holds (const HobBox *box, double x, double y);

typedef struct
{
  double x, y; /* baseline */
  HobAlign align;
} HobTextPlace;

void hob_cell_name_place (const HobRange *range, int part, HobSheet sheet, const HobLook *look,
                          HobTextPlace *place);
void hob_cell_figure_place (const HobRange *range, int part, HobSheet sheet, const HobLook *look,
                            HobTextPlace *place);

/* ---- The stage ---- */

typedef struct _HobSheetMemory HobSheetMemory;

/* A wire's code and gauge on a plate of its own. */
typedef struct
{
  int wire;
  HobBox box;
} HobPlate;

typedef struct
{
  HobPen *pen;
  HobType *type;
  const HobLook *look;
  const HobRange *range;
  HobSheet sheet;
  const HobRoutes *routes;
  const GArray *plates;   /* HobPlate; signs keep off them */
  const HobScene *scene;  /* NULL while paper is drawn */
  HobSheetMemory *memory; /* NULL while paper is drawn, and by pens that only record */
  cairo_t *cr;            /* NULL for pens that only record */
} HobStage;

void hob_stage_paper (const HobStage *stage);
void hob_stage_state (const HobStage *stage);

/* Where the codes find room. (transfer full) */
GArray *hob_wiring_plates (const HobRange *range, const HobRoutes *routes, HobType *type,
                           const HobLook *look);
/* Name of the range and what the signs mean, where the sheet has room for it. */
void hob_title_paper (const HobStage *stage);

/* ---- Flags of a chart ---- */

/* An event in a person's words; NULL: a symptom without its book. (transfer full) */
char *hob_flag_words (const HobRun *run, const HobEvent *event, const HobSymptomBook *book);
void hob_wiring_paper (const HobStage *stage);
void hob_wiring_state (const HobStage *stage);
void hob_gas_paper (const HobStage *stage);
void hob_gas_state (const HobStage *stage);
/* One pipe: its walls, and what is in it. */
void hob_tube_paper (const HobStage *stage, const HobRoute *route);
void hob_tube_state (const HobStage *stage, int pipe);
void hob_cutaway_paper (const HobStage *stage);
void hob_cutaway_state (const HobStage *stage);
/* What rises in the oven goes behind names, figures and what hangs there: clips them out. */
void hob_cutaway_clip (const HobStage *stage);

/* Symbols, names, figures, rings and tags: alike on every sheet. */
void hob_parts_paper (const HobStage *stage);
void hob_parts_state (const HobStage *stage);
void hob_part_view_still (HobPartView *view, const HobRange *range, int part, HobSheet sheet,
                          double *numbers);
gsize hob_part_view_numbers (const HobKind *kind); /* doubles that the above needs */

/* ---- Signs ---- */

typedef enum {
  HOB_TILE_TICK,
  HOB_TILE_TICK_HEAVY,
  HOB_TILE_RAIL,
  HOB_TILE_HATCH,
  HOB_TILE_WEDGE,
  HOB_N_TILES
} HobTile;

#define HOB_TICK_PITCH 24.0
#define HOB_WEDGE_PITCH 32.0
#define HOB_OFF_BENDS 10.0

/* px/s that ticks and wedges run; 0: they stand or are not there. */
double hob_tick_speed (double ampere);
double hob_wedge_speed (double watt);
/* Straight runs of the route filled with a repeated sign, the plates of @wire (−1: none) left
 * out; @forward: it points from → to; @phase px. */
void hob_sign_along (const HobStage *stage, const HobRoute *route, int wire, HobTile tile,
                     gboolean forward, double phase);
/* One stroke round the box, wandering, ends overlapping; @drawn 0…1. */
void hob_sign_ring (HobPen *pen, const HobBox *box, gboolean on_cavity, const char *id,
                    double drawn);
/* What the tag hangs on: drawn before the texts, so that it passes behind them. */
void hob_sign_string (const HobStage *stage, const HobBox *symbol, const HobBox *tag,
                      gboolean on_cavity);
void hob_sign_tag (const HobStage *stage, const HobBox *tag, const char *name, const char *severity,
                   double swing);
void hob_sign_selection (HobPen *pen, const HobBox *box, gboolean on_cavity);
/* The figure under a part: "2.9 A", and when it differs ", should be 3.4".  In the oven it has a
 * dark ground, over racks and what rises; elsewhere the sheet's where a @plate is asked for. */
void hob_sign_figure (const HobStage *stage, const HobTextPlace *place, gboolean on_cavity,
                      gboolean plate, const char *figure, const char *should_be);
double hob_sign_figure_width (const HobStage *stage, const char *figure, const char *should_be);
/* The same of what now stands under a part; 0: nothing does. */
double hob_part_figure_width (const HobStage *stage, int part);

/* ---- What a scene keeps between frames ---- */

/* Arrays for a range's scene, without a run. */
HobScene *hob_scene_new_bare (const HobRange *range);
HobSheetMemory *hob_sheet_memory_new (const HobRange *range);
void hob_sheet_memory_free (HobSheetMemory *memory);
/* Something that lives as long as the scene. */
void hob_sheet_memory_keep (HobSheetMemory *memory, gpointer kept, GDestroyNotify destroy);
gpointer hob_sheet_memory_kept (HobSheetMemory *memory);
/* The seed of chance of the run shown: which spark fires. */
void hob_sheet_memory_set_seed (HobSheetMemory *memory, guint64 seed);
guint64 hob_scene_seed (const HobScene *scene);
HobType *hob_sheet_memory_type (HobSheetMemory *memory, const HobLook *look);
const HobRoutes *hob_sheet_memory_routes (HobSheetMemory *memory, const HobRange *range,
                                          HobSheet sheet);
const GArray *hob_sheet_memory_plates (HobSheetMemory *memory, const HobRange *range,
                                       const HobLook *look);
/* Moves ticks, wedges, rings and tags on to the scene's clock. */
void hob_sheet_memory_move (HobSheetMemory *memory, const HobScene *scene);
double hob_sheet_memory_phase (const HobSheetMemory *memory, gboolean pipe, int line);
double hob_sheet_memory_ring (const HobSheetMemory *memory, int part); /* 0…1 drawn */
double hob_sheet_memory_swing (const HobSheetMemory *memory, int part); /* rad */
/* Device-size picture of one repeat, kept; borrowed. */
cairo_surface_t *hob_sheet_memory_tile (HobSheetMemory *memory, HobTheme theme, double scale,
                                        HobTile tile, int quarter);
/* One sign at the origin of @cr, pointing right. */
void hob_tile_draw_one (cairo_t *cr, HobTheme theme, HobTile tile);
double hob_tile_pitch (HobTile tile);
/* The scale that sheet px have on the surface's own pixels; 0 where signs must be drawn as lines
 * (files of lines). */
double hob_tile_scale (cairo_t *cr);
#define HOB_TILE_ACROSS 16.0

G_END_DECLS
