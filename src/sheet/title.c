/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The sheet's title and its legend: what each sign means, as on a printed tech sheet.  They stand
 * where the layout left room, and nowhere if it left none. */

#include "sheet/legend.h"
#include "sheet/stage.h"
#include "base/i18n.h"
#include <math.h>

#define SAMPLE_WIDTH 72.0
#define STEP 20.0

/* ---- Room ---- */

/* Names are wider than their parts, grow with the text, and are not always centered. */
static void
widen_by_name (const HobStage *stage, int part, HobBox *zone)
{
  const char *name = hob_part_label (&stage->range->parts[part]);
  double w = hob_type_width (stage->type, HOB_TEXT_NAME, name), left;
  HobTextPlace place;

  hob_cell_name_place (stage->range, part, stage->sheet, stage->look, &place);
  left = place.x;
  if (place.align != HOB_ALIGN_LEFT)
    left -= place.align == HOB_ALIGN_RIGHT ? w : w / 2;
  zone->x0 = fmin (zone->x0, left - 8);
  zone->x1 = fmax (zone->x1, left + w + 8);
}

/* What the title keeps clear of around each part. (transfer full) */
static GArray *
zones_new (const HobStage *stage)
{
  GArray *zones = g_array_new (FALSE, FALSE, sizeof (HobBox));

  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox zone;

      if (!hob_cell_zone (&stage->range->parts[k], stage->sheet, &zone))
        continue;
      if (!hob_cell_is_attached (stage->range, k, stage->sheet))
        widen_by_name (stage, k, &zone);
      zone.y0 -= 8;
      zone.y1 += 40;
      g_array_append_val (zones, zone);
    }
  return zones;
}

static gboolean
any_meets (const GArray *zones, const HobBox *box)
{
  for (guint k = 0; k < zones->len; k++)
    if (hob_box_meet (&g_array_index (zones, HobBox, k), box))
      return TRUE;
  return FALSE;
}

static gboolean
find_room (const HobStage *stage, double w, double h, HobPoint *at)
{
  g_autoptr (GArray) zones = zones_new (stage);
  double bounds[4];

  hob_stage_bounds (stage, bounds);
  for (double y = bounds[1] + 20; y <= bounds[1] + bounds[3] / 3; y += STEP)
    for (double x = bounds[0] + 24; x <= bounds[0] + bounds[2] / 3; x += STEP)
      {
        HobBox box = { x, y, x + w, y + h };

        if (any_meets (zones, &box) || hob_routes_near (stage->routes, &box, 16))
          continue;
        *at = (HobPoint){ x, y };
        return TRUE;
      }
  return FALSE;
}

static double
widest (const HobStage *stage, const char *subtitle, const HobLegend *legend, int n)
{
  double w = fmax (hob_type_width (stage->type, HOB_TEXT_TITLE, hob_range_name (stage->range)),
                   hob_type_width (stage->type, HOB_TEXT_BODY, subtitle));

  for (int k = 0; k < n; k++)
    w = fmax (w, SAMPLE_WIDTH + 12
                     + hob_type_width (stage->type, HOB_TEXT_SMALL, _ (legend[k].words)));
  return w;
}

/* A picture with a title block has all this there. */
void
hob_title_paper (const HobStage *stage)
{
  double title = hob_type_px (stage->look, HOB_TEXT_TITLE),
         body = hob_type_px (stage->look, HOB_TEXT_BODY);
  double row = fmax (22, hob_type_px (stage->look, HOB_TEXT_SMALL) * 1.5);
  const char *fuel = stage->range->plate == HOB_FUEL_LP ? _ ("LP gas") : _ ("natural gas");
  g_autofree char *subtitle
      = g_strdup_printf ("%s · %s", hob_picture_title ((int) stage->sheet), fuel);
  int n;
  const HobLegend *legend = hob_legend_own ((int) stage->sheet, &n);
  HobPoint at;

  if (!hob_type_shows (stage->look, HOB_TEXT_SMALL) || stage->sheet == HOB_SHEET_CUTAWAY)
    n = 0;
  if (stage->look->page != HOB_PAGE_SCREEN
      || !find_room (stage, widest (stage, subtitle, legend, n), title + body * 1.6 + 8 + row * n,
                     &at))
    return;
  pen_text (stage->pen, at.x, at.y + title, HOB_TEXT_TITLE, HOB_ROLE_INK, HOB_ALIGN_LEFT,
            hob_range_name (stage->range));
  pen_text (stage->pen, at.x, at.y + title + body * 1.5, HOB_TEXT_BODY, HOB_ROLE_INK2,
            HOB_ALIGN_LEFT, subtitle);
  for (int k = 0; k < n; k++)
    {
      double y = at.y + title + body * 1.6 + 8 + row * (k + 0.6);

      hob_legend_draw (stage->pen, legend[k].sample, at.x, y, SAMPLE_WIDTH);
      pen_text (stage->pen, at.x + SAMPLE_WIDTH + 12, y + 4, HOB_TEXT_SMALL, HOB_ROLE_INK2,
                HOB_ALIGN_LEFT, _ (legend[k].words));
    }
}
