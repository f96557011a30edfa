/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A sheet as a whole: paper below, state above, its bounds, and what lies under a point. */

#include "sheet/caption.h"
#include "sheet/lens.h"
#include "sheet/pen-cairo.h"
#include "sheet/signs.h"
#include <math.h>

#define MARGIN 20.0
#define REACH 10.0 /* px: as far as a hand may miss a line: half of the wires' pitch */

static const struct
{
  void (*paper) (const HobStage *stage);
  void (*state) (const HobStage *stage);
} sheets[HOB_N_SHEETS] = {
  [HOB_SHEET_WIRING] = { hob_wiring_paper, hob_wiring_state },
  [HOB_SHEET_GAS] = { hob_gas_paper, hob_gas_state },
  [HOB_SHEET_CUTAWAY] = { hob_cutaway_paper, hob_cutaway_state },
};

void
hob_stage_paper (const HobStage *stage)
{
  sheets[stage->sheet].paper (stage);
  hob_title_paper (stage);
}

void
hob_stage_state (const HobStage *stage)
{
  g_autoptr (GArray) captions = hob_captions_lay (stage);
  HobStage own = *stage;

  own.captions = captions;
  sheets[stage->sheet].state (&own);
}

gboolean
hob_stage_is_dark (const HobStage *stage, double x, double y)
{
  return stage->look->theme != HOB_THEME_PRINT
         && hob_on_cavity (stage->range, stage->sheet, x, y);
}

void
hob_stage_texts (const HobStage *stage)
{
  if (stage->sheet == HOB_SHEET_GAS)
    hob_gas_texts (stage);
  hob_parts_texts (stage);
}

void
hob_sheet_ground (cairo_t *cr, double w, double h, const HobLook *look)
{
  double rgb[3];

  hob_theme_colour (look->theme, HOB_ROLE_SHEET, rgb);
  cairo_set_source_rgb (cr, rgb[0], rgb[1], rgb[2]);
  cairo_rectangle (cr, 0, 0, w, h);
  cairo_fill (cr);
}

void
hob_sheet_draw_paper (cairo_t *cr, const HobRange *range, HobSheet sheet, const HobLook *look)
{
  g_autoptr (HobRoutes) routes = hob_routes_new (range, sheet);
  g_autoptr (HobType) type = hob_type_new (look);
  HobPen *pen = hob_cairo_pen_new_with (cr, look, type, NULL);
  g_autoptr (GArray) plates
      = sheet == HOB_SHEET_WIRING ? hob_wiring_plates (range, routes, type, look) : NULL;
  HobStage stage = { .pen = pen,
                     .type = type,
                     .look = look,
                     .range = range,
                     .sheet = sheet,
                     .routes = routes,
                     .plates = plates };

  hob_stage_paper (&stage);
  hob_cairo_pen_free (pen);
}

static void
draw_state (cairo_t *cr, const HobScene *scene, HobSheet sheet, const HobLook *look,
            HobSheetMemory *memory)
{
  HobType *type = hob_sheet_memory_type (memory, look);
  HobPen *pen = hob_cairo_pen_new_with (cr, look, type, hob_sheet_memory_tiles (memory));
  HobStage stage = {
    .pen = pen,
    .type = type,
    .look = look,
    .range = scene->range,
    .sheet = sheet,
    .routes = hob_sheet_memory_routes (memory, sheet),
    .plates = sheet == HOB_SHEET_WIRING ? hob_sheet_memory_plates (memory, look) : NULL,
    .scene = scene,
    .memory = memory,
  };

  hob_sheet_memory_move (memory, scene);
  hob_stage_state (&stage);
  hob_cairo_pen_free (pen);
}

void
hob_sheet_draw_state (cairo_t *cr, const HobScene *scene, HobSheet sheet, const HobLook *look,
                      HobSheetMemory *memory)
{
  g_autoptr (HobSheetMemory) own = memory == NULL ? hob_sheet_memory_new (scene->range) : NULL;

  draw_state (cr, scene, sheet, look, memory != NULL ? memory : own);
}

static void
take_in (HobBox *box, const HobBox *more)
{
  box->x0 = fmin (box->x0, more->x0);
  box->y0 = fmin (box->y0, more->y0);
  box->x1 = fmax (box->x1, more->x1);
  box->y1 = fmax (box->y1, more->y1);
}

static void
take_in_routes (HobBox *box, const HobRoute *routes, int n)
{
  for (int k = 0; k < n; k++)
    for (int i = 0; i < routes[k].n; i++)
      {
        HobPoint p = routes[k].p[i];

        take_in (box, &(HobBox){ p.x - 8, p.y - 8, p.x + 8, p.y + 8 });
      }
}

static void
take_in_name (HobBox *box, const HobRange *range, int part, HobSheet sheet, HobType *type,
              const HobLook *look)
{
  double w = hob_type_width (type, HOB_TEXT_NAME, hob_part_label (&range->parts[part]));
  HobTextPlace place;
  double x;

  if (hob_cell_is_dot (&range->parts[part], sheet) || hob_cell_is_attached (range, part, sheet))
    return;
  hob_cell_name_place (range, part, sheet, look, &place);
  x = place.x - (place.align == HOB_ALIGN_LEFT ? 0 : place.align == HOB_ALIGN_RIGHT ? w : w / 2);
  take_in (box, &(HobBox){ x - 4, place.y - 36, x + w + 4, place.y + 4 }); /* two lines */
}

#define ON_PAPER 1.2 /* its text is larger than large text where a sheet is shrunk to 0.4 */

/* Room for a long figure, and for what it should be. */
static void
take_in_figure (HobBox *box, const HobRange *range, int part, HobSheet sheet, HobType *type,
                const HobLook *look)
{
  double w = ON_PAPER * hob_should_be_width (type, HOB_TEXT_BODY);
  HobTextPlace place;

  if (range->parts[part].kind->figure < 0)
    return;
  hob_cell_figure_place (range, part, sheet, look, &place);
  place.x -= place.align == HOB_ALIGN_LEFT ? 0 : place.align == HOB_ALIGN_RIGHT ? w : w / 2;
  take_in (box, &(HobBox){ place.x, place.y - 14, place.x + w, place.y + 22 });
}

void
hob_sheet_bounds (const HobRange *range, HobSheet sheet, double bounds[4])
{
  const HobLook look = { HOB_THEME_LIGHT, 1.5, 1.0 }; /* large text has its room too */
  g_autoptr (HobRoutes) routes = hob_routes_new (range, sheet);
  g_autoptr (HobType) type = hob_type_new (&look);
  HobBox box = { INFINITY, INFINITY, -INFINITY, -INFINITY }, one;
  HobBody body;

  for (int k = 0; k < range->n_parts; k++)
    {
      if (hob_cell_zone (&range->parts[k], sheet, &one))
        {
          take_in (&box, &one);
          take_in_name (&box, range, k, sheet, type, &look);
          take_in_figure (&box, range, k, sheet, type, &look);
        }
      if (hob_cell_tag (&range->parts[k], sheet, &one))
        take_in (&box, &one);
    }
  take_in_routes (&box, routes->wires, routes->n_wires);
  take_in_routes (&box, routes->leads, routes->n_leads);
  take_in_routes (&box, routes->pipes, routes->n_pipes);
  if (hob_body_of (range, sheet, &body))
    {
      hob_body_bounds (&body, &one);
      take_in (&box, &one);
      hob_lens_box (&body, &one);
      take_in (&box, &one);
    }
  if (box.x1 < box.x0)
    box = (HobBox){ 0, 0, 400, 300 };
  bounds[0] = floor (box.x0 - MARGIN);
  bounds[1] = floor (box.y0 - MARGIN);
  bounds[2] = ceil (box.x1 + MARGIN) - bounds[0];
  bounds[3] = ceil (box.y1 + MARGIN) - bounds[1];
}

static int
part_at (const HobRange *range, HobSheet sheet, double x, double y)
{
  double least = INFINITY;
  int found = -1;

  for (int k = 0; k < range->n_parts; k++)
    {
      HobBox box;
      double area;

      if (!hob_cell_symbol (&range->parts[k], sheet, &box) || !hob_box_holds (&box, x, y))
        continue;
      area = (box.x1 - box.x0) * (box.y1 - box.y0); /* the smaller lies on the larger */
      if (area < least)
        {
          least = area;
          found = k;
        }
    }
  return found;
}

static int
line_at (const HobRoute *routes, int n, double x, double y)
{
  double least = REACH;
  int found = -1;

  for (int k = 0; k < n; k++)
    {
      double d = hob_route_distance (&routes[k], x, y);

      if (d <= least)
        {
          least = d;
          found = k;
        }
    }
  return found;
}

/* A high-voltage lead stands for the electrode that it belongs to. */
static int
electrode_at (const HobRange *range, const HobRoutes *routes, double x, double y)
{
  int lead = line_at (routes->leads, routes->n_leads, x, y);

  return lead < 0 ? -1 : range->leads[lead].to.part;
}

void
hob_sheet_hit (const HobRange *range, HobSheet sheet, double x, double y, int *part, int *line)
{
  g_autoptr (HobRoutes) routes = hob_routes_new (range, sheet);

  *part = part_at (range, sheet, x, y);
  *line = -1;
  if (*part >= 0)
    return;
  *line = sheet == HOB_SHEET_WIRING ? line_at (routes->wires, routes->n_wires, x, y)
                                    : line_at (routes->pipes, routes->n_pipes, x, y);
  if (*line < 0)
    *part = electrode_at (range, routes, x, y);
}
