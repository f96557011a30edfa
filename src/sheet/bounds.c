/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How far a sheet reaches: parts with their names, figures and tags, lines, body and lens. */

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
  take_in_routes (&box, routes->wires, routes->n_wires);
  take_in_routes (&box, routes->leads, routes->n_leads);
  take_in_routes (&box, routes->pipes, routes->n_pipes);
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

void
hob_stage_bounds (const HobStage *stage, double bounds[4])
{
  if (stage->memory != NULL)
    hob_sheet_memory_bounds (stage->memory, stage->sheet, bounds);
  else
    hob_routes_bounds (stage->routes, stage->range, stage->sheet, bounds);
}
