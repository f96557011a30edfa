/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The sheet's title and its legend: what each sign means, as on a printed tech sheet.  They stand
 * where the layout left room, and nowhere if it left none. */

#include "sheet/stage.h"
#include "base/i18n.h"
#include <math.h>

typedef enum {
  SAMPLE_CURRENT,
  SAMPLE_LIVE,
  SAMPLE_LEAD,
  SAMPLE_DOT,
  SAMPLE_GAS_RESTS,
  SAMPLE_GAS_FLOWS
} Sample;

typedef struct
{
  Sample sample;
  const char *words;
} Legend;

static const Legend wiring_legend[] = {
  { SAMPLE_CURRENT, N_ ("current, toward neutral") },
  { SAMPLE_LIVE, N_ ("live, no current") },
  { SAMPLE_LEAD, N_ ("high voltage") },
  { SAMPLE_DOT, N_ ("connected; other crossings are not") },
};
static const Legend gas_legend[] = {
  { SAMPLE_GAS_RESTS, N_ ("gas under pressure, not flowing") },
  { SAMPLE_GAS_FLOWS, N_ ("gas flowing") },
};

static const struct
{
  const char *words;
  const Legend *legend;
  int n;
} titles[HOB_N_SHEETS] = {
  [HOB_SHEET_WIRING] = { N_ ("Wiring"), wiring_legend, G_N_ELEMENTS (wiring_legend) },
  [HOB_SHEET_GAS] = { N_ ("Gas"), gas_legend, G_N_ELEMENTS (gas_legend) },
  [HOB_SHEET_CUTAWAY] = { N_ ("Cutaway"), NULL, 0 },
};

#define SAMPLE_WIDTH 72.0
#define STEP 20.0

/* ---- Room ---- */

static gboolean
routes_meet (const HobRoute *routes, int n, const HobBox *box)
{
  for (int k = 0; k < n; k++)
    for (int i = 0; i + 1 < routes[k].n; i++)
      {
        HobPoint a = routes[k].p[i], b = routes[k].p[i + 1];
        HobBox run = { fmin (a.x, b.x) - 16, fmin (a.y, b.y) - 16, fmax (a.x, b.x) + 16,
                       fmax (a.y, b.y) + 16 };

        if (hob_box_meet (&run, box))
          return TRUE;
      }
  return FALSE;
}

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

static gboolean
parts_meet (const HobStage *stage, const HobBox *box)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox zone;

      if (!hob_cell_zone (&stage->range->parts[k], stage->sheet, &zone))
        continue;
      if (!hob_cell_is_attached (stage->range, k, stage->sheet))
        widen_by_name (stage, k, &zone);
      zone.y0 -= 8;
      zone.y1 += 40;
      if (hob_box_meet (&zone, box))
        return TRUE;
    }
  return FALSE;
}

static gboolean
find_room (const HobStage *stage, double w, double h, HobPoint *at)
{
  double bounds[4];

  hob_sheet_bounds (stage->range, stage->sheet, bounds);
  for (double y = bounds[1] + 20; y <= bounds[1] + bounds[3] / 3; y += STEP)
    for (double x = bounds[0] + 24; x <= bounds[0] + bounds[2] / 3; x += STEP)
      {
        HobBox box = { x, y, x + w, y + h };

        if (parts_meet (stage, &box)
            || routes_meet (stage->routes->wires, stage->routes->n_wires, &box)
            || routes_meet (stage->routes->leads, stage->routes->n_leads, &box)
            || routes_meet (stage->routes->pipes, stage->routes->n_pipes, &box))
          continue;
        *at = (HobPoint){ x, y };
        return TRUE;
      }
  return FALSE;
}

/* ---- Samples ---- */

static void
tiles (const HobStage *stage, double x, double y, HobTile tile)
{
  const double pitch = hob_tile_pitch (tile);
  const HobRepeat repeat = { .tile = tile, .x0 = x, .y0 = y, .x1 = x + SAMPLE_WIDTH, .y1 = y,
                             .first = pitch / 2,
                             .n = (int) ceil ((SAMPLE_WIDTH - 4 - pitch / 2) / pitch) };

  pen_repeat (stage->pen, &repeat);
}

static void
line (const HobStage *stage, double x, double y, HobRole role, double width, double on)
{
  pen_segment (stage->pen, x, y, x + SAMPLE_WIDTH, y);
  if (on > 0)
    pen_dash (stage->pen, on, 3);
  pen_stroke (stage->pen, role, width);
}

static void
wire (const HobStage *stage, double x, double y)
{
  line (stage, x, y, HOB_ROLE_INK, HOB_WIRE_WIDTH, 0);
  line (stage, x, y, HOB_ROLE_SHEET, HOB_WIRE_CORE, 0);
}

static void
tube (const HobStage *stage, double x, double y)
{
  line (stage, x, y, HOB_ROLE_GAS, HOB_TUBE_WIDTH, 0);
  line (stage, x, y, HOB_ROLE_SHEET, HOB_TUBE_WIDTH - 3, 0);
}

static void
draw_sample (const HobStage *stage, Sample sample, double x, double y)
{
  switch (sample)
    {
    case SAMPLE_CURRENT:
      wire (stage, x, y);
      tiles (stage, x, y, HOB_TILE_TICK);
      break;
    case SAMPLE_LIVE:
      wire (stage, x, y);
      tiles (stage, x, y, HOB_TILE_RAIL);
      break;
    case SAMPLE_LEAD:
      line (stage, x, y, HOB_ROLE_INK, HOB_LEAD_WIDTH, 6);
      line (stage, x, y, HOB_ROLE_PANEL, HOB_WIRE_CORE, 0);
      break;
    case SAMPLE_DOT:
      wire (stage, x, y);
      pen_circle (stage->pen, x + SAMPLE_WIDTH / 2, y, 4);
      pen_fill (stage->pen, HOB_ROLE_INK);
      break;
    case SAMPLE_GAS_RESTS:
      tube (stage, x, y);
      tiles (stage, x, y, HOB_TILE_HATCH);
      break;
    case SAMPLE_GAS_FLOWS:
    default:
      tube (stage, x, y);
      tiles (stage, x, y, HOB_TILE_WEDGE);
      break;
    }
}

static double
widest (const HobStage *stage, const char *subtitle)
{
  double w = fmax (hob_type_width (stage->type, HOB_TEXT_TITLE, hob_range_name (stage->range)),
                   hob_type_width (stage->type, HOB_TEXT_BODY, subtitle));

  for (int k = 0; k < titles[stage->sheet].n; k++)
    w = fmax (w, SAMPLE_WIDTH + 12
                     + hob_type_width (stage->type, HOB_TEXT_SMALL,
                                       _ (titles[stage->sheet].legend[k].words)));
  return w;
}

void
hob_title_paper (const HobStage *stage)
{
  int n = hob_type_shows (stage->look, HOB_TEXT_SMALL) ? titles[stage->sheet].n : 0;
  double title = hob_type_px (stage->look, HOB_TEXT_TITLE),
         body = hob_type_px (stage->look, HOB_TEXT_BODY);
  double row = fmax (22, hob_type_px (stage->look, HOB_TEXT_SMALL) * 1.5);
  const char *fuel = stage->range->plate == HOB_FUEL_LP ? _ ("LP gas") : _ ("natural gas");
  g_autofree char *subtitle = g_strdup_printf ("%s · %s", _ (titles[stage->sheet].words), fuel);
  HobPoint at;

  if (!find_room (stage, widest (stage, subtitle), title + body * 1.6 + 8 + row * n, &at))
    return;
  pen_text (stage->pen, at.x, at.y + title, HOB_TEXT_TITLE, HOB_ROLE_INK, HOB_ALIGN_LEFT,
            hob_range_name (stage->range));
  pen_text (stage->pen, at.x, at.y + title + body * 1.5, HOB_TEXT_BODY, HOB_ROLE_INK2,
            HOB_ALIGN_LEFT, subtitle);
  for (int k = 0; k < n; k++)
    {
      double y = at.y + title + body * 1.6 + 8 + row * (k + 0.6);

      draw_sample (stage, titles[stage->sheet].legend[k].sample, at.x, y);
      pen_text (stage->pen, at.x + SAMPLE_WIDTH + 12, y + 4, HOB_TEXT_SMALL, HOB_ROLE_INK2,
                HOB_ALIGN_LEFT, _ (titles[stage->sheet].legend[k].words));
    }
}
