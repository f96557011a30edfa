/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The wiring sheet: wires in their insulation's color, leads, what is live and what flows. */

#include "sheet/pen-measure.h"
#include "sheet/signs.h"
#include "base/i18n.h"
#include <math.h>
#include <string.h>

#define PLATE_RUN 80.0 /* px: a shorter run carries no code */
#define DOT 4.0
#define LARGE 17.0 /* px: such letters at terminals close to each other are not in one column */

typedef struct
{
  HobPen *pen;
  double half; /* px that the gap reaches beyond the crossing */
  double width;
} Gap;

static void
open_gap (HobPoint at, gboolean over_is_level, gpointer user)
{
  const Gap *gap = user;
  double dx = over_is_level ? gap->half : 0, dy = over_is_level ? 0 : gap->half;

  pen_segment (gap->pen, at.x - dx, at.y - dy, at.x + dx, at.y + dy);
  pen_stroke (gap->pen, HOB_ROLE_SHEET, gap->width);
}

/* Where a line goes over those drawn before it, they are cut: joined only at a dot. */
static void
knock_out (const HobStage *stage, const HobRoute *over, const HobRoute *below, int n_below,
           double width)
{
  Gap gap = { stage->pen, HOB_LEAD_WIDTH / 2 + 2, width };

  for (int k = 0; k < n_below; k++)
    hob_route_each_crossing (over, &below[k], open_gap, &gap);
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

/* A second color ("GNYE", "GN/YE") goes along in stripes. */
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
draw_wire (const HobStage *stage, int index)
{
  const HobRoute *route = &stage->routes->wires[index];
  const HobLine *wire = &stage->range->wires[index];
  const char *stripes = second_colour (wire->colour);

  if (route->n < 2)
    return;
  knock_out (stage, route, stage->routes->leads, stage->routes->n_leads, HOB_KNOCK_OUT);
  knock_out (stage, route, stage->routes->wires, index, HOB_KNOCK_OUT);
  hob_route_path (stage->pen, route, 0);
  pen_stroke (stage->pen, HOB_ROLE_INK, HOB_WIRE_WIDTH);
  core (stage, route, wire->colour, 0);
  if (stripes != NULL)
    core (stage, route, stripes, 8);
}

static void
draw_lead (const HobStage *stage, int index)
{
  const HobRoute *route = &stage->routes->leads[index];

  if (route->n < 2)
    return;
  knock_out (stage, route, stage->routes->leads, index, HOB_LEAD_WIDTH + 5);
  hob_route_path (stage->pen, route, 0);
  pen_dash (stage->pen, 6, 3);
  pen_stroke (stage->pen, HOB_ROLE_INK, HOB_LEAD_WIDTH);
  hob_route_path (stage->pen, route, 0);
  pen_stroke (stage->pen, HOB_ROLE_PANEL, HOB_WIRE_CORE);
}

/* ---- Letters ---- */

/* An output is known by what it serves ("out-lf" → "lf"), a cord's pin by its conductor. */
static const char *
letters_of (const HobTerminalDef *terminal)
{
  const char *dash = strchr (terminal->name, '-');

  if (terminal->mark != NULL)
    return g_dpgettext2 (GETTEXT_PACKAGE, "terminal", terminal->mark);
  return dash != NULL ? dash + 1 : terminal->name;
}

/* px of the longest at any part that shows them. */
static double
widest_letters (const HobRange *range, HobType *type)
{
  double w = 0;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_terminals; k++)
      if (range->parts[p].kind->n_terminals > 2 && hob_range_terminal_used (range, p, k))
        w = fmax (w, hob_type_width (type, HOB_TEXT_SMALL,
                                     letters_of (&range->parts[p].kind->terminals[k])));
  return w;
}

/* ---- Code plates ---- */

static gboolean
run_meets (const HobRoute *route, const HobBox *box, double half)
{
  for (int k = 0; k + 1 < route->n; k++)
    {
      HobBox run = { fmin (route->p[k].x, route->p[k + 1].x) - half,
                     fmin (route->p[k].y, route->p[k + 1].y) - half,
                     fmax (route->p[k].x, route->p[k + 1].x) + half,
                     fmax (route->p[k].y, route->p[k + 1].y) + half };

      if (hob_box_meet (&run, box))
        return TRUE;
    }
  return FALSE;
}

typedef struct
{
  const HobRange *range;
  const HobRoutes *routes;
  HobType *type;
  GArray *plates;
  GArray *rings; /* HobBox: the room of a ring around a part and its letters */
  const HobLook *look;
  double figure_w, figure_h; /* px that a figure and what it should be take */
  double letters_w;          /* … and a terminal's letters beside their part */
} Search;

/* Would it be on a part's name, in one line or in two? */
static gboolean
on_name (const Search *search, int part, const HobBox *plate)
{
  double px = hob_type_px (search->look, HOB_TEXT_NAME);
  HobBox box;

  if (!hob_cell_name_box (search->range, part, HOB_SHEET_WIRING, search->type, search->look, &box))
    return FALSE;
  box.y0 -= HOB_NAME_PITCH * px;
  return hob_box_meet (&box, plate);
}

/* Would it be where a part's figure, or what that should be, may come to be? */
static gboolean
under_figure (const Search *search, int part, const HobBox *plate)
{
  HobTextPlace place;
  double left;
  HobBox box;

  if (search->range->parts[part].kind->figure < 0)
    return FALSE;
  hob_cell_figure_place (search->range, part, HOB_SHEET_WIRING, search->look, &place);
  left = hob_text_left (place.x, search->figure_w, place.align);
  box = (HobBox){ left, place.y - 14, left + search->figure_w, place.y + search->figure_h };
  return hob_box_meet (&box, plate);
}

/* Would a ring that goes around a part, and around the letters at its terminals, cut it? */
static gboolean
under_ring (const Search *search, const HobBox *plate)
{
  for (guint k = 0; k < search->rings->len; k++)
    if (hob_box_meet (&g_array_index (search->rings, HobBox, k), plate))
      return TRUE;
  return FALSE;
}

static void
take_rings (const Search *search)
{
  const HobStage stage = { .range = search->range, .sheet = HOB_SHEET_WIRING,
                           .type = search->type, .look = search->look };

  for (int k = 0; k < search->range->n_parts; k++)
    {
      HobBox box;

      if (!hob_cell_symbol (&search->range->parts[k], HOB_SHEET_WIRING, &box))
        continue;
      hob_wiring_hold_letters (&stage, k, &box);
      box = hob_sign_ring_room (&box, search->range->parts[k].id);
      g_array_append_val (search->rings, box);
    }
}

/* Does nothing but wire `own` lie under the plate: no line, no part's free zone, no other plate? */
static gboolean
plate_is_free (const Search *search, int own, const HobBox *plate)
{
  const HobRoutes *routes = search->routes;

  for (int k = 0; k < routes->n_wires; k++)
    if (k != own && run_meets (&routes->wires[k], plate, HOB_WIRE_WIDTH / 2 + 1))
      return FALSE;
  for (int k = 0; k < routes->n_leads; k++)
    if (run_meets (&routes->leads[k], plate, HOB_LEAD_WIDTH / 2 + 1))
      return FALSE;
  for (int k = 0; k < search->range->n_parts; k++)
    {
      HobBox zone;

      if (!hob_cell_zone (&search->range->parts[k], HOB_SHEET_WIRING, &zone))
        continue;
      if (search->range->parts[k].kind->n_terminals > 2)
        zone.x0 -= search->letters_w, zone.x1 += search->letters_w;
      if (hob_box_meet (&zone, plate) || under_figure (search, k, plate)
          || on_name (search, k, plate))
        return FALSE;
    }
  if (under_ring (search, plate))
    return FALSE;
  for (guint k = 0; k < search->plates->len; k++)
    if (hob_box_meet (&g_array_index (search->plates, HobPlate, k).box, plate))
      return FALSE;
  return TRUE;
}

/* A free place for a w × h plate along the run, nearest to its middle. */
static gboolean
find_place (const Search *search, int own, HobPoint a, HobPoint b, double w, double h,
            HobBox *plate)
{
  gboolean level = fabs (a.y - b.y) < 0.5;
  double length = hypot (b.x - a.x, b.y - a.y),
         room = length / 2 - (level ? w : h) / 2 - HOB_OFF_BENDS;

  for (double off = 0; off <= room; off += 4)
    for (int side = -1; side <= 1; side += 2)
      {
        double f = 0.5 + side * off / length, x = a.x + (b.x - a.x) * f, y = a.y + (b.y - a.y) * f;

        *plate = (HobBox){ x - w / 2, y - h / 2, x + w / 2, y + h / 2 };
        if (plate_is_free (search, own, plate))
          return TRUE;
      }
  return FALSE;
}

static char *
code_of (const HobLine *wire)
{
  return wire->gauge > 0 ? g_strdup_printf ("%s %d", wire->colour, wire->gauge)
                         : g_strdup (wire->colour);
}

static void
search_wire (const Search *search, int wire, double h)
{
  const HobRoute *route = &search->routes->wires[wire];
  g_autofree char *code = code_of (&search->range->wires[wire]);
  double w = hob_type_width (search->type, HOB_TEXT_SMALL, code) + 6;

  for (int k = 0; k + 1 < route->n; k++)
    {
      HobPoint a = route->p[k], b = route->p[k + 1];
      HobPlate plate = { .wire = wire };

      if (hypot (b.x - a.x, b.y - a.y) >= PLATE_RUN
          && find_place (search, wire, a, b, w, h, &plate.box))
        g_array_append_val (search->plates, plate);
    }
}

GArray *
hob_wiring_plates (const HobRange *range, const HobRoutes *routes, HobType *type,
                   const HobLook *look)
{
  g_autoptr (GArray) rings = g_array_new (FALSE, FALSE, sizeof (HobBox));
  Search search = { range, routes, type, g_array_new (FALSE, FALSE, sizeof (HobPlate)), rings,
                    look, hob_should_be_width (type, HOB_TEXT_SMALL),
                    1.4 * hob_type_px (look, HOB_TEXT_SMALL),
                    widest_letters (range, type) - HOB_CELL_AROUND + 8 };

  if (!hob_type_shows (look, HOB_TEXT_SMALL))
    return search.plates;
  take_rings (&search);
  for (int k = 0; k < routes->n_wires; k++)
    search_wire (&search, k, hob_type_px (look, HOB_TEXT_SMALL) + 2);
  return search.plates;
}

static void
draw_plates (const HobStage *stage)
{
  double px = hob_type_px (stage->look, HOB_TEXT_SMALL);

  for (guint k = 0; k < stage->plates->len; k++)
    {
      const HobPlate *plate = &g_array_index (stage->plates, HobPlate, k);
      const HobBox *box = &plate->box;
      g_autofree char *code = code_of (&stage->range->wires[plate->wire]);

      pen_rect (stage->pen, box->x0, box->y0, box->x1 - box->x0, box->y1 - box->y0);
      pen_fill (stage->pen, HOB_ROLE_SHEET);
      pen_text (stage->pen, (box->x0 + box->x1) / 2, (box->y0 + box->y1) / 2 + 0.36 * px,
                HOB_TEXT_SMALL, HOB_ROLE_INK, HOB_ALIGN_CENTRE, code);
    }
}

/* ---- Terminals ---- */

/* How many terminals follow each other closely from above down to the one at p, on one edge. */
static int
close_above (const HobStage *stage, int part, HobPoint p)
{
  HobPoint q;

  for (int k = 0; k < stage->range->parts[part].kind->n_terminals; k++)
    if (hob_anchor (stage->range, HOB_SHEET_WIRING, (HobEnd){ part, k }, FALSE, &q)
        && fabs (q.x - p.x) < 1 && p.y - q.y > 1 && p.y - q.y < 30)
      return 1 + close_above (stage, part, q);
  return 0;
}

/* A terminal's letters, outside the edge that it stands on: above a level line, beside a plumb
 * one. */
static void
draw_letters (const HobStage *stage, int part, const HobBox *box, HobPoint p, const char *letters)
{
  double px = hob_type_px (stage->look, HOB_TEXT_SMALL),
         above = close_above (stage, part, p) > 0 ? 4 : 9;
  double aside = close_above (stage, part, p) % 2 != 0 && px > LARGE ? 4 + 1.5 * px : 4;


  if (p.x <= box->x0 + 1)
    pen_text (stage->pen, p.x - aside, p.y - above, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_RIGHT,
              letters);
  else if (p.x >= box->x1 - 1)
    pen_text (stage->pen, p.x + aside, p.y - above, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_LEFT,
              letters);
  else if (p.y <= box->y0 + 1)
    pen_text (stage->pen, p.x + 7, p.y - 5, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_LEFT, letters);
  else if (p.y >= box->y1 - 1)
    pen_text (stage->pen, p.x - 7, p.y + px + 2, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_ALIGN_RIGHT,
              letters);
}

/* A conductor that passes straight through a narrow part: its color says enough. */
static gboolean
passes_through (const HobStage *stage, int part, const HobBox *box, HobPoint p)
{
  const HobKind *kind = stage->range->parts[part].kind;
  double across = p.x <= box->x0 + 1 ? box->x1 : box->x0;
  HobPoint q;

  if (box->x1 - box->x0 > 100)
    return FALSE;
  for (int k = 0; k < kind->n_terminals; k++)
    if (hob_anchor (stage->range, HOB_SHEET_WIRING, (HobEnd){ part, k }, FALSE, &q)
        && fabs (q.y - p.y) < 1 && fabs (q.x - across) < 1)
      return TRUE;
  return FALSE;
}

static void
letter_part (const HobStage *stage, int part, const HobBox *box)
{
  const HobKind *kind = stage->range->parts[part].kind;

  if (kind->n_terminals <= 2 || hob_kind_is_two_terminal (kind))
    return;
  for (int k = 0; k < kind->n_terminals; k++)
    {
      HobPoint p;

      if (hob_range_terminal_used (stage->range, part, k)
          && hob_anchor (stage->range, HOB_SHEET_WIRING, (HobEnd){ part, k }, FALSE, &p)
          && !passes_through (stage, part, box, p))
        draw_letters (stage, part, box, p, letters_of (&kind->terminals[k]));
    }
}

void
hob_wiring_letters (const HobStage *stage)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox box;

      if (hob_cell_symbol (&stage->range->parts[k], HOB_SHEET_WIRING, &box))
        letter_part (stage, k, &box);
    }
}

void
hob_wiring_hold_letters (const HobStage *stage, int part, HobBox *box)
{
  HobStage measured = *stage;
  g_autoptr (GArray) letters = NULL;

  measured.pen = hob_measure_pen_new (stage->type, stage->look);
  letter_part (&measured, part, box);
  letters = hob_measure_pen_finish (measured.pen);
  for (guint k = 0; k < letters->len; k++)
    {
      const HobBox *one = &g_array_index (letters, HobBox, k);

      *box = (HobBox){ fmin (box->x0, one->x0), fmin (box->y0, one->y0), fmax (box->x1, one->x1),
                       fmax (box->y1, one->y1) };
    }
}

static void
draw_terminals (const HobStage *stage)
{
  hob_wiring_letters (stage);
  for (int k = 0; k < stage->routes->n_dots; k++)
    {
      pen_circle (stage->pen, stage->routes->dots[k].x, stage->routes->dots[k].y, DOT);
      pen_fill (stage->pen, HOB_ROLE_INK);
    }
}

void
hob_wiring_paper (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_leads; k++)
    draw_lead (stage, k);
  for (int k = 0; k < stage->routes->n_wires; k++)
    draw_wire (stage, k);
  draw_plates (stage);
  hob_parts_paper (stage);
  draw_terminals (stage);
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
        pen_segment (stage->pen, a.x + ux + side * nx, a.y + uy + side * ny, b.x - ux + side * nx,
                     b.y - uy + side * ny);
    }
  pen_stroke (stage->pen, HOB_ROLE_PENCIL, 2);
}

static void
state_of_wire (const HobStage *stage, int wire)
{
  const HobWireScene *w = &stage->scene->wires[wire];
  const HobRoute *route = &stage->routes->wires[wire];

  if (w->current >= 1e-3)
    hob_sign_along (
        stage, route, wire, w->current > 5 ? HOB_TILE_TICK_HEAVY : HOB_TILE_TICK, w->flow >= 0,
        hob_sheet_memory_phase (stage->memory, FALSE, wire));
  else if (w->live)
    hob_sign_along (stage, route, wire, HOB_TILE_RAIL, TRUE, 0);
}

void
hob_wiring_state (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_wires; k++)
    state_of_wire (stage, k);
  if (stage->scene->chosen_wire >= 0 && stage->scene->chosen_wire < stage->routes->n_wires)
    chosen_line (stage, &stage->routes->wires[stage->scene->chosen_wire]);
  for (int k = 0; k < stage->routes->n_leads; k++)
    if (stage->range->leads[k].to.part == stage->scene->chosen_part)
      chosen_line (stage, &stage->routes->leads[k]); /* an electrode and its lead are one */
  hob_parts_state (stage);
}
