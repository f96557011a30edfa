/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The cutaway: the oven opened, burners above it; glow, flame, sparks and warm air as they would
 * be seen. From the oven's valves the gas goes to its burners; what rises goes behind what there
 * is to read. */

#include "sheet/draw.h"
#include <math.h>

void
hob_cutaway_paper (const HobStage *stage)
{
  hob_parts_paper (stage);
  for (int k = 0; k < stage->routes->n_pipes; k++)
    if (stage->routes->pipes[k].n >= 2)
      hob_tube_paper (stage, &stage->routes->pipes[k]);
}

/* All but @box from now on; whole pixels, so that clipping stays cheap. */
static void
clip_out (cairo_t *cr, const HobBox *box)
{
  double x0 = box->x0, y0 = box->y0, x1 = box->x1, y1 = box->y1;
  cairo_matrix_t m;

  cairo_user_to_device (cr, &x0, &y0);
  cairo_user_to_device (cr, &x1, &y1);
  cairo_get_matrix (cr, &m);
  cairo_identity_matrix (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, -16384, -16384, 32768, 32768);
  /* The other way around. */
  cairo_rectangle (cr, floor (x0), ceil (y1), ceil (x1) - floor (x0), floor (y0) - ceil (y1));
  cairo_clip (cr);
  cairo_set_matrix (cr, &m);
}

static HobBox
box_of_text (const HobTextPlace *place, double w, double px)
{
  double x = place->x
             - (place->align == HOB_ALIGN_LEFT    ? 0
                : place->align == HOB_ALIGN_RIGHT ? w
                                                  : w / 2);

  return (HobBox){ x - 4, place->y - 0.8 * px - 2, x + w + 4, place->y + 0.25 * px + 2 };
}

static void
clip_out_part (const HobStage *stage, int part)
{
  const HobPart *p = &stage->range->parts[part];
  HobTextPlace place;
  HobBox box;

  if (hob_cell_is_interior (p->kind) || !hob_cell_symbol (p, stage->sheet, &box))
    return;
  if ((p->kind->flags & HOB_KIND_BURNER) == 0)
    clip_out (stage->cr, &box);
  hob_cell_name_place (stage->range, part, stage->sheet, stage->look, &place);
  box = box_of_text (&place, hob_type_width (stage->type, HOB_TEXT_NAME, hob_part_label (p)),
                     hob_type_px (stage->look, HOB_TEXT_NAME));
  clip_out (stage->cr, &box);
  if (p->kind->figure < 0)
    return;
  hob_cell_figure_place (stage->range, part, stage->sheet, stage->look, &place);
  box = box_of_text (&place, hob_part_figure_width (stage, part),
                     hob_type_px (stage->look, HOB_TEXT_FIGURE));
  clip_out (stage->cr, &box);
}

void
hob_cutaway_clip (const HobStage *stage)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      const HobPlacement *at = &stage->range->parts[k].at[stage->sheet];

      if (at->placed && hob_on_cavity (stage->range, stage->sheet, at->x, at->y))
        clip_out_part (stage, k);
    }
}

void
hob_cutaway_state (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_pipes; k++)
    if (stage->routes->pipes[k].n >= 2)
      hob_tube_state (stage, k);
  hob_parts_state (stage);
}
