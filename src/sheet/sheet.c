/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A sheet as a whole: paper below, state above, and what lies under a point. */

#include "sheet/brackets.h"
#include "sheet/caption.h"
#include "sheet/lens.h"
#include "sheet/pen-cairo.h"
#include "sheet/signs.h"
#include <math.h>

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
  g_autoptr (GArray) captions = hob_captions_lay (stage), laid = NULL;
  HobStage own = *stage;

  own.captions = captions;
  if (stage->memory != NULL)
    own.brackets = hob_sheet_memory_brackets (stage->memory, &own);
  else
    own.brackets = laid = hob_brackets_lay (&own);
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
  hob_brackets_texts (stage);
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

/* With what @memory keeps, which is of the same look. */
static HobStage
stage_of (HobPen *pen, HobSheet sheet, const HobLook *look, HobSheetMemory *memory)
{
  return (HobStage){
    .pen = pen,
    .type = hob_sheet_memory_type (memory, look),
    .look = look,
    .range = hob_sheet_memory_range (memory),
    .sheet = sheet,
    .routes = hob_sheet_memory_routes (memory, sheet),
    .plates = sheet == HOB_SHEET_WIRING ? hob_sheet_memory_plates (memory, look) : NULL,
    .memory = memory,
  };
}

static void
draw_paper (cairo_t *cr, HobSheet sheet, const HobLook *look, HobSheetMemory *memory)
{
  HobPen *pen = hob_cairo_pen_new_with (cr, look, hob_sheet_memory_type (memory, look), NULL);
  HobStage stage = stage_of (pen, sheet, look, memory);

  hob_stage_paper (&stage);
  hob_cairo_pen_free (pen);
}

void
hob_sheet_draw_paper (cairo_t *cr, const HobRange *range, HobSheet sheet, const HobLook *look,
                      HobSheetMemory *memory)
{
  g_autoptr (HobSheetMemory) own = memory == NULL ? hob_sheet_memory_new (range) : NULL;

  draw_paper (cr, sheet, look, memory != NULL ? memory : own);
}

static void
draw_state (cairo_t *cr, const HobScene *scene, HobSheet sheet, const HobLook *look,
            HobSheetMemory *memory)
{
  HobPen *pen = hob_cairo_pen_new_with (cr, look, hob_sheet_memory_type (memory, look),
                                        hob_sheet_memory_tiles (memory));
  HobStage stage = stage_of (pen, sheet, look, memory);

  stage.scene = scene;
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
hob_sheet_hit (HobSheetMemory *memory, HobSheet sheet, double x, double y, int *part, int *line)
{
  const HobRange *range = hob_sheet_memory_range (memory);
  const HobRoutes *routes = hob_sheet_memory_routes (memory, sheet);

  *part = part_at (range, sheet, x, y);
  *line = -1;
  if (*part >= 0)
    return;
  *line = sheet == HOB_SHEET_WIRING ? line_at (routes->wires, routes->n_wires, x, y)
                                    : line_at (routes->pipes, routes->n_pipes, x, y);
  if (*line < 0)
    *part = electrode_at (range, routes, x, y);
}
