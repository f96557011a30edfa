/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The wiring sheet: wires in their insulation's colour, leads, what is live and what flows. */

#include "sheet/draw.h"
#include <math.h>
#include <string.h>

#define PLATE_RUN 80.0 /* px: a shorter run carries no code */
#define DOT 4.0
#define END_CUT 8.0

static void
knock_out (const HobStage *stage, const HobRoute *route, double width)
{
  hob_route_path (stage->pen, route, END_CUT);
  pen_stroke (stage->pen, HOB_ROLE_SHEET, width);
}

static void
core (const HobStage *stage, const HobRoute *route, const char *code, double on)
{
  double rgb[3];

  hob_route_path (stage->pen, route, 0);
  if (hob_wire_colour (code, rgb))
    pen_tint (stage->pen, rgb);
  if (on > 0)
    pen_dash (stage->pen, on, on);
  pen_stroke (stage->pen, HOB_ROLE_EDGE, HOB_WIRE_CORE);
}

/* A second colour ("GNYE", "GN/YE") goes along in stripes. */
static const char *
second_colour (const char *code)
{
  const char *more = strlen (code) >= 4 ? code + 2 : NULL;
  double rgb[3];

  if (more != NULL && !g_ascii_isalpha (*more))
    more++;
  return more != NULL && hob_wire_colour (more, rgb) ? more : NULL;
}

static void
draw_wire (const HobStage *stage, const HobRoute *route, const HobLine *wire)
{
  const char *stripes = second_colour (wire->colour);

  if (route->n < 2)
    return;
  knock_out (stage, route, HOB_KNOCK_OUT);
  hob_route_path (stage->pen, route, 0);
  pen_stroke (stage->pen, HOB_ROLE_INK, HOB_WIRE_WIDTH);
  core (stage, route, wire->colour, 0);
  if (stripes != NULL)
    core (stage, route, stripes, 8);
}

static void
draw_lead (const HobStage *stage, const HobRoute *route)
{
  if (route->n < 2)
    return;
  knock_out (stage, route, HOB_LEAD_WIDTH + 5);
  hob_route_path (stage->pen, route, 0);
  pen_dash (stage->pen, 6, 3);
  pen_stroke (stage->pen, HOB_ROLE_INK, HOB_LEAD_WIDTH);
  hob_route_path (stage->pen, route, 0);
  pen_stroke (stage->pen, HOB_ROLE_PANEL, HOB_WIRE_CORE);
}

/* ---- Code plates ---- */

static gboolean
run_meets (const HobRoute *route, const HobBox *box, double half)
{
  for (int k = 0; k + 1 < route->n; k++)
    {
      HobBox run = { fmin (route->p[k].x, route->p[k + 1].x) - half, fmin (route->p[k].y, route->p[k + 1].y) - half,
                     fmax (route->p[k].x, route->p[k + 1].x) + half, fmax (route->p[k].y, route->p[k + 1].y) + half };

      if (hob_box_meet (&run, box))
        return TRUE;
    }
  return FALSE;
}

/* Does anything but wire `own` lie under the plate: a line, a part's free zone, another plate? */
static gboolean
plate_is_free (const HobStage *stage, int own, const HobBox *plate, GArray *plates)
{
  const HobRoutes *routes = stage->routes;

  for (int k = 0; k < routes->n_wires; k++)
    if (k != own && run_meets (&routes->wires[k], plate, HOB_WIRE_WIDTH / 2 + 1))
      return FALSE;
  for (int k = 0; k < routes->n_leads; k++)
    if (run_meets (&routes->leads[k], plate, HOB_LEAD_WIDTH / 2 + 1))
      return FALSE;
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox zone;

      if (hob_cell_zone (&stage->range->parts[k], stage->sheet, &zone) && hob_box_meet (&zone, plate))
        return FALSE;
    }
  for (guint k = 0; k < plates->len; k++)
    if (hob_box_meet (&g_array_index (plates, HobBox, k), plate))
      return FALSE;
  return TRUE;
}

/* A free place for a w × h plate along the run, nearest to its middle. */
static gboolean
find_place (const HobStage *stage, int own, HobPoint a, HobPoint b, double w, double h, GArray *plates, HobBox *plate)
{
  gboolean level = fabs (a.y - b.y) < 0.5;
  double length = hypot (b.x - a.x, b.y - a.y), room = length / 2 - (level ? w : h) / 2 - HOB_OFF_BENDS;

  for (double off = 0; off <= room; off += 4)
    for (int side = -1; side <= 1; side += 2)
      {
        double f = 0.5 + side * off / length, x = a.x + (b.x - a.x) * f, y = a.y + (b.y - a.y) * f;

        *plate = (HobBox){ x - w / 2, y - h / 2, x + w / 2, y + h / 2 };
        if (plate_is_free (stage, own, plate, plates))
          return TRUE;
      }
  return FALSE;
}

static void
draw_plate (const HobStage *stage, const HobBox *plate, const char *text)
{
  double px = hob_type_px (stage->look, HOB_TEXT_SMALL);

  pen_rect (stage->pen, plate->x0, plate->y0, plate->x1 - plate->x0, plate->y1 - plate->y0);
  pen_fill (stage->pen, HOB_ROLE_SHEET);
  pen_text (stage->pen, (plate->x0 + plate->x1) / 2, (plate->y0 + plate->y1) / 2 + 0.36 * px, HOB_TEXT_SMALL,
            HOB_ROLE_INK, HOB_ALIGN_CENTRE, text);
}

static void
plates_of_wire (const HobStage *stage, int wire, GArray *plates)
{
  const HobLine *line = &stage->range->wires[wire];
  const HobRoute *route = &stage->routes->wires[wire];
  g_autofree char *text = line->gauge > 0 ? g_strdup_printf ("%s %d", line->colour, line->gauge) : g_strdup (line->colour);
  double w = hob_type_width (stage->type, HOB_TEXT_SMALL, text) + 6, h = hob_type_px (stage->look, HOB_TEXT_SMALL) + 2;

  for (int k = 0; k + 1 < route->n; k++)
    {
      HobPoint a = route->p[k], b = route->p[k + 1];
      HobBox plate;

      if (hypot (b.x - a.x, b.y - a.y) < PLATE_RUN || !find_place (stage, wire, a, b, w, h, plates, &plate))
        continue;
      draw_plate (stage, &plate, text);
      g_array_append_val (plates, plate);
    }
}

static void
draw_plates (const HobStage *stage)
{
  g_autoptr (GArray) plates = NULL;

  if (!hob_type_shows (stage->look, HOB_TEXT_SMALL))
    return;
  plates = g_array_new (FALSE, FALSE, sizeof (HobBox));
  for (int k = 0; k < stage->routes->n_wires; k++)
    plates_of_wire (stage, k, plates);
}

/* ---- Terminals ---- */

static int
lines_at (const HobStage *stage, HobPoint p)
{
  int n = 0;

  for (int k = 0; k < stage->routes->n_wires; k++)
    {
      const HobRoute *route = &stage->routes->wires[k];

      if (route->n >= 2)
        n += hypot (route->p[0].x - p.x, route->p[0].y - p.y) < 1
             || hypot (route->p[route->n - 1].x - p.x, route->p[route->n - 1].y - p.y) < 1;
    }
  return n;
}

/* A terminal's letters: inside its edge, or beside a line that comes from above or below. */
static void
draw_letters (const HobStage *stage, const HobBox *box, HobPoint p, const char *name)
{
  double px = hob_type_px (stage->look, HOB_TEXT_SMALL);

  if (p.x <= box->x0 + 1)
    pen_text (stage->pen, p.x + 6, p.y - 5, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_LEFT, name);
  else if (p.x >= box->x1 - 1)
    pen_text (stage->pen, p.x - 6, p.y - 5, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_RIGHT, name);
  else if (p.y <= box->y0 + 1)
    pen_text (stage->pen, p.x, p.y + px + 3, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_CENTRE, name);
  else if (p.y >= box->y1 - 1)
    pen_text (stage->pen, p.x, p.y - 6, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_CENTRE, name);
}

static void
draw_terminals (const HobStage *stage, int part, const HobBox *box)
{
  const HobKind *kind = stage->range->parts[part].kind;

  for (int k = 0; k < kind->n_terminals; k++)
    {
      HobPoint p;
      int n;

      if (!hob_anchor (stage->range, HOB_SHEET_WIRING, (HobEnd){ part, k }, FALSE, &p))
        continue;
      n = lines_at (stage, p);
      if (n >= 2)
        {
          pen_circle (stage->pen, p.x, p.y, DOT);
          pen_fill (stage->pen, HOB_ROLE_INK);
        }
      if (kind->n_terminals > 2)
        draw_letters (stage, box, p, kind->terminals[k].name);
    }
}

static void
draw_all_terminals (const HobStage *stage)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox box;

      if (hob_cell_symbol (&stage->range->parts[k], HOB_SHEET_WIRING, &box))
        draw_terminals (stage, k, &box);
    }
}

void
hob_wiring_paper (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_leads; k++)
    draw_lead (stage, &stage->routes->leads[k]);
  for (int k = 0; k < stage->routes->n_wires; k++)
    draw_wire (stage, &stage->routes->wires[k], &stage->range->wires[k]);
  draw_plates (stage);
  hob_parts_paper (stage);
  draw_all_terminals (stage);
}

/* ---- State ---- */

static void
chosen_line (const HobStage *stage, const HobRoute *route)
{
  if (route->n < 2)
    return;
  for (int k = 0; k + 1 < route->n; k++)
    {
      HobPoint a = route->p[k], b = route->p[k + 1];
      double l = hypot (b.x - a.x, b.y - a.y);
      double nx = -(b.y - a.y) / l * 7, ny = (b.x - a.x) / l * 7, cut = fmin (8, l / 2);
      double ux = (b.x - a.x) / l * cut, uy = (b.y - a.y) / l * cut;

      for (int side = -1; side <= 1; side += 2)
        pen_segment (stage->pen, a.x + ux + side * nx, a.y + uy + side * ny, b.x - ux + side * nx, b.y - uy + side * ny);
    }
  pen_stroke (stage->pen, HOB_ROLE_PENCIL, 2);
}

static void
state_of_wire (const HobStage *stage, int wire)
{
  const HobWireScene *w = &stage->scene->wires[wire];
  const HobRoute *route = &stage->routes->wires[wire];

  if (w->current >= 1e-3)
    hob_sign_along (stage, route, w->current > 5 ? HOB_TILE_TICK_HEAVY : HOB_TILE_TICK, w->flow >= 0,
                    stage->memory != NULL ? hob_sheet_memory_phase (stage->memory, FALSE, wire) : 0);
  else if (w->live)
    hob_sign_along (stage, route, HOB_TILE_RAIL, TRUE, 0);
}

void
hob_wiring_state (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_wires; k++)
    state_of_wire (stage, k);
  if (stage->scene->chosen_wire >= 0 && stage->scene->chosen_wire < stage->routes->n_wires)
    chosen_line (stage, &stage->routes->wires[stage->scene->chosen_wire]);
  hob_parts_state (stage);
}
