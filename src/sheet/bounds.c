/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How far a sheet reaches: parts with their names, figures and tags, lines, body and lens; and what
 * of that is to be seen in a view. */

#include "sheet/caption.h"
#include "sheet/lens.h"
#include "sheet/signs.h"
#include <math.h>

#define MARGIN 20.0

static void
take_in (HobBox *box, const HobBox *more)
{
  box->x0 = fmin (box->x0, more->x0);
  box->y0 = fmin (box->y0, more->y0);
  box->x1 = fmax (box->x1, more->x1);
  box->y1 = fmax (box->y1, more->y1);
}

#define LINE_ROOM 8.0 /* px from the middle of a line */

static void
take_in_line (HobBox *box, const HobRoute *routes, int n, double room)
{
  for (int k = 0; k < n; k++)
    for (int i = 0; i < routes[k].n; i++)
      {
        HobPoint p = routes[k].p[i];

        take_in (box, &(HobBox){ p.x - room, p.y - room, p.x + room, p.y + room });
      }
}

static void
take_in_routes (HobBox *box, const HobRoutes *routes, double room)
{
  take_in_line (box, routes->wires, routes->n_wires, room);
  take_in_line (box, routes->leads, routes->n_leads, room);
  take_in_line (box, routes->pipes, routes->n_pipes, room);
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
  x = hob_text_left (place.x, w, place.align);
  take_in (box, &(HobBox){ x - 4, place.y - 36, x + w + 4, place.y + 4 }); /* two lines */
}

#define ON_PAPER 1.2 /* its text is larger than large text where a sheet is shrunk to 0.4 */

/* Room for a long figure, and for what it should be: @w. */
static void
take_in_figure (HobBox *box, const HobRange *range, int part, HobSheet sheet, double w,
                const HobLook *look)
{
  HobTextPlace place;

  if (range->parts[part].kind->figure < 0)
    return;
  hob_cell_figure_place (range, part, sheet, look, &place);
  place.x = hob_text_left (place.x, w, place.align);
  take_in (box, &(HobBox){ place.x, place.y - 14, place.x + w, place.y + 22 });
}

void
hob_routes_bounds (const HobRoutes *routes, const HobRange *range, HobSheet sheet,
                   double bounds[4])
{
  const HobLook look = { HOB_THEME_LIGHT, 1.5, 1.0 }; /* large text has its room too */
  g_autoptr (HobType) type = hob_type_new (&look);
  HobBox box = { INFINITY, INFINITY, -INFINITY, -INFINITY }, one;
  double figure = ON_PAPER * hob_should_be_width (type, HOB_TEXT_BODY);
  HobBody body;

  for (int k = 0; k < range->n_parts; k++)
    {
      if (hob_cell_zone (&range->parts[k], sheet, &one))
        {
          take_in (&box, &one);
          take_in_name (&box, range, k, sheet, type, &look);
          take_in_figure (&box, range, k, sheet, figure, &look);
        }
      if (hob_cell_tag (&range->parts[k], sheet, &one))
        take_in (&box, &one);
    }
  take_in_routes (&box, routes, LINE_ROOM);
  if (hob_body_of (range, sheet, &body))
    {
      hob_body_bounds (&body, &one);
      take_in (&box, &one);
      hob_lens_box (&body, &look, &one);
      take_in (&box, &one);
    }
  if (box.x1 < box.x0)
    box = (HobBox){ 0, 0, 400, 300 };
  bounds[0] = floor (box.x0 - MARGIN);
  bounds[1] = floor (box.y0 - MARGIN);
  bounds[2] = ceil (box.x1 + MARGIN) - bounds[0];
  bounds[3] = ceil (box.y1 + MARGIN) - bounds[1];
}

void
hob_sheet_bounds (const HobRange *range, HobSheet sheet, double bounds[4])
{
  g_autoptr (HobRoutes) routes = hob_routes_new (range, sheet);

  hob_routes_bounds (routes, range, sheet, bounds);
}

/* ---- In a view ---- */

/* A name as it is drawn, and the row below its part where its figure is. */
static void
take_in_texts (HobBox *box, const HobRange *range, int part, HobSheet sheet, HobType *type,
               const HobLook *look)
{
  HobBox symbol, name;
  char *line[2];

  hob_cell_symbol (&range->parts[part], sheet, &symbol);
  if (range->parts[part].kind->figure >= 0 && !hob_cell_is_attached (range, part, sheet))
    {
      symbol.y1 += HOB_CELL_BELOW;
      take_in (box, &symbol);
    }
  if (!hob_cell_name_box (range, part, sheet, type, look, &name))
    return;
  hob_cell_name_lines (range, part, sheet, type, look, line);
  if (line[1] != NULL)
    name.y0 -= HOB_NAME_PITCH * hob_type_px (look, HOB_TEXT_NAME);
  take_in (box, &name);
  g_free (line[0]);
  g_free (line[1]);
}

static void
take_in_plates (HobBox *box, const HobRange *range, const HobRoutes *routes, HobType *type,
                const HobLook *look)
{
  g_autoptr (GArray) plates = hob_wiring_plates (range, routes, type, look);

  for (guint k = 0; k < plates->len; k++)
    take_in (box, &g_array_index (plates, HobPlate, k).box);
}

#define BELOW_BURNER 10.0 /* px: with the margin, room for the sign of gas that escapes there */

/* What is to be seen of the sheet at this zoom while nothing is wrong. */
static HobBox
ink_of (const HobRoutes *routes, const HobRange *range, HobSheet sheet, const HobLook *look)
{
  const gboolean texts = look->zoom >= HOB_NAMES_FROM_ZOOM;
  g_autoptr (HobType) type = texts ? hob_type_new (look) : NULL;
  HobBox ink = { INFINITY, INFINITY, -INFINITY, -INFINITY }, one;
  HobBody body;

  for (int k = 0; k < range->n_parts; k++)
    {
      if (!hob_cell_symbol (&range->parts[k], sheet, &one))
        continue;
      if ((range->parts[k].kind->flags & HOB_KIND_BURNER) != 0)
        one.y1 += BELOW_BURNER;
      take_in (&ink, &one);
      if (texts)
        take_in_texts (&ink, range, k, sheet, type, look);
    }
  take_in_routes (&ink, routes, 0);
  if (sheet == HOB_SHEET_WIRING && texts)
    take_in_plates (&ink, range, routes, type, look);
  if (hob_body_of (range, sheet, &body))
    {
      hob_body_bounds (&body, &one);
      take_in (&ink, &one);
      hob_lens_box (&body, look, &one);
      take_in (&ink, &one);
    }
  return ink.x1 > ink.x0 && ink.y1 > ink.y0 ? ink : (HobBox){ 0, 0, 400, 300 };
}

static double
zoom_for (const HobBox *ink, double w, double h)
{
  double margin = fmin (HOB_FIT_MARGIN, HOB_FIT_SHARE * fmin (w, h));
  double across = (w - 2 * margin) / (ink->x1 - ink->x0),
         down = (h - 2 * margin) / (ink->y1 - ink->y0);

  return CLAMP (fmin (across, down), HOB_FIT_LEAST, HOB_FIT_MOST);
}

/* The smaller the zoom, the more of the sheet names take, which keep their size; and where it
 * leaves no room for names, none are drawn. */
double
hob_sheet_memory_fit (HobSheetMemory *memory, HobSheet sheet, const HobLook *look, double w,
                      double h, double view[4])
{
  const HobRange *range = hob_sheet_memory_range (memory);
  const HobRoutes *routes = hob_sheet_memory_routes (memory, sheet);
  HobLook own = *look;
  HobBox bare, ink;
  double zoom;

  own.zoom = 0;
  ink = bare = ink_of (routes, range, sheet, &own);
  own.zoom = zoom = zoom_for (&bare, w, h);
  for (int n = 0; n < 4 && own.zoom >= HOB_NAMES_FROM_ZOOM; n++)
    {
      ink = ink_of (routes, range, sheet, &own);
      zoom = zoom_for (&ink, w, h);
      if (zoom >= own.zoom)
        break;
      own.zoom = zoom;
    }
  if (own.zoom < HOB_NAMES_FROM_ZOOM && zoom_for (&bare, w, h) >= HOB_NAMES_FROM_ZOOM)
    {
      ink = bare;
      own.zoom = nextafter (HOB_NAMES_FROM_ZOOM, 0);
    }
  view[0] = (ink.x0 + ink.x1 - w / own.zoom) / 2;
  view[1] = (ink.y0 + ink.y1 - h / own.zoom) / 2;
  view[2] = w / own.zoom;
  view[3] = h / own.zoom;
  return own.zoom;
}

void
hob_stage_bounds (const HobStage *stage, double bounds[4])
{
  if (stage->memory != NULL)
    hob_sheet_memory_room (stage->memory, stage->sheet, stage->look, bounds);
  else
    hob_routes_bounds (stage->routes, stage->range, stage->sheet, bounds);
}
