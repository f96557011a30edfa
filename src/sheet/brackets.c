/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/brackets.h"
#include "base/i18n.h"
#include "run/differ.h"
#include "sheet/caption.h"
#include "sheet/differences.h"
#include "sheet/room.h"
#include "sheet/signs.h"
#include <math.h>

#define LEG 6.0
#define OFF_WIRE 7.0       /* px from a wire's middle to the ends of the legs */
#define OFF_TUBE 10.0
#define LEAST 28.0         /* px: a shorter run has no bracket */
#define MOST 120.0         /* px: a longer one has it along a part of it */
#define SLIDE 20.0
#define THICK 3.0          /* px on either side of its stroke that are free */
#define OFF_PARTS 34.0     /* px: a name is between */
#define BESIDE_PARTS 20.0
#define TEXT_OFF 4.0
#define COST_SHORT 1.0     /* a px that it is shorter than it might be */
#define COST_LINE 60.0     /* its figures are on a line */
#define COST_SILENT 1000.0 /* no figures */

/* ---- What differs alike ---- */

static gboolean
are_alike (double value, double should_be, double other, double other_should_be, HobDimension dim)
{
  return !hob_differs (value, other, dim) && !hob_differs (should_be, other_should_be, dim);
}

static gboolean
wires_alike (const HobStage *stage, int k, int other)
{
  const HobWireScene *a = &stage->scene->wires[k], *b = &stage->scene->wires[other];

  return a->volts_differ && b->volts_differ
         && are_alike (a->volts, a->volts_should_be, b->volts, b->volts_should_be,
                       HOB_DIM_VOLTAGE);
}

static gboolean
pipes_alike (const HobStage *stage, int k, int other)
{
  const HobPipeScene *a = &stage->scene->pipes[k], *b = &stage->scene->pipes[other];

  return a->pressure_differs && b->pressure_differs
         && are_alike (a->pressure, a->pressure_should_be, b->pressure, b->pressure_should_be,
                       HOB_DIM_PRESSURE);
}

static gboolean
suffers (const HobStage *stage, int part)
{
  const HobPartScene *scene = &stage->scene->parts[part];
  HobBox box;

  return scene->differs && !scene->culprit
         && !hob_cell_is_interior (stage->range->parts[part].kind)
         && hob_cell_symbol (&stage->range->parts[part], stage->sheet, &box);
}

static gboolean
parts_alike (const HobStage *stage, int k, int other)
{
  const HobPartScene *a = &stage->scene->parts[k], *b = &stage->scene->parts[other];
  const HobKind *kind = a->view.kind;

  return kind == b->view.kind && suffers (stage, k) && suffers (stage, other)
         && are_alike (a->figure, a->should_be, b->figure, b->should_be,
                       kind->quantities[kind->figure].dim);
}

static gboolean (*const alike[]) (const HobStage *stage, int k, int other) = {
  [HOB_BRACKET_WIRE] = wires_alike,
  [HOB_BRACKET_PIPE] = pipes_alike,
  [HOB_BRACKET_PARTS] = parts_alike,
};

int
hob_bracket_first (const HobStage *stage, HobBracketOf of, int k)
{
  if (!alike[of](stage, k, k))
    return -1;
  for (int other = 0; other < k; other++)
    if (alike[of](stage, other, k))
      return other;
  return k;
}

/* ---- In words ---- */

/* "24.5 V, should be 120 V". (transfer full) */
static char *
figures_of (const HobStage *stage, const HobBracket *bracket)
{
  static const HobQuantityDef volts = { .dim = HOB_DIM_VOLTAGE },
                              pressure = { .dim = HOB_DIM_PRESSURE };
  const HobWireScene *wire = &stage->scene->wires[bracket->first];
  const HobPipeScene *pipe = &stage->scene->pipes[bracket->first];

  return bracket->of == HOB_BRACKET_WIRE
             ? hob_figures_text (&volts, wire->volts, wire->volts_should_be)
             : hob_figures_text (&pressure, pipe->pressure, pipe->pressure_should_be);
}

/* ---- Where ---- */

static HobBox
box_of (HobPoint a, HobPoint b, HobPoint leg)
{
  return (HobBox){ fmin (fmin (a.x, b.x), fmin (a.x, b.x) + leg.x) - THICK,
                   fmin (fmin (a.y, b.y), fmin (a.y, b.y) + leg.y) - THICK,
                   fmax (fmax (a.x, b.x), fmax (a.x, b.x) + leg.x) + THICK,
                   fmax (fmax (a.y, b.y), fmax (a.y, b.y) + leg.y) + THICK };
}

/* The figures are beyond it, seen from what differs. */
static HobBox
put_figures (const HobStage *stage, HobBracket *bracket, double w)
{
  double px = hob_type_px (stage->look, HOB_TEXT_SMALL);
  double x = (bracket->a.x + bracket->b.x) / 2, y = (bracket->a.y + bracket->b.y) / 2;

  if (bracket->leg.x == 0)
    {
      y += bracket->leg.y > 0 ? -TEXT_OFF - 0.25 * px : TEXT_OFF + 0.8 * px;
      bracket->place = (HobTextPlace){ x, y, HOB_ALIGN_CENTRE };
      return (HobBox){ x - w / 2, y - 0.8 * px, x + w / 2, y + 0.25 * px };
    }
  y += 0.36 * px;
  if (bracket->leg.x > 0)
    {
      bracket->place = (HobTextPlace){ x - TEXT_OFF, y, HOB_ALIGN_RIGHT };
      return (HobBox){ x - TEXT_OFF - w, y - 0.8 * px, x - TEXT_OFF, y + 0.25 * px };
    }
  bracket->place = (HobTextPlace){ x + TEXT_OFF, y, HOB_ALIGN_LEFT };
  return (HobBox){ x + TEXT_OFF, y - 0.8 * px, x + TEXT_OFF + w, y + 0.25 * px };
}

static gboolean
is_half_dark (const HobStage *stage, const HobBox *box)
{
  gboolean dark = hob_on_cavity (stage->range, stage->sheet, box->x0, box->y0);

  return hob_on_cavity (stage->range, stage->sheet, box->x1, box->y0) != dark
         || hob_on_cavity (stage->range, stage->sheet, box->x0, box->y1) != dark
         || hob_on_cavity (stage->range, stage->sheet, box->x1, box->y1) != dark;
}

typedef struct
{
  HobRoom room;
  double least; /* cost of the best so far */
  HobBracket best;
} Search;

/* One place for it: with its figures where these have room, else without. */
static void
try_place (Search *search, HobBracket bracket, double w, double cost)
{
  const HobBox own = box_of (bracket.a, bracket.b, bracket.leg);
  HobBox figures;

  if (cost >= search->least || !hob_room_is_free (&search->room, &own)
      || is_half_dark (search->room.stage, &own))
    return;
  figures = put_figures (search->room.stage, &bracket, w);
  bracket.said = w > 0 && hob_room_is_free (&search->room, &figures)
                 && !is_half_dark (search->room.stage, &figures);
  if (w > 0)
    cost += !bracket.said ? COST_SILENT
            : hob_room_covers_a_line (&search->room, &figures) ? COST_LINE
                                                                : 0;
  if (cost >= search->least)
    return;
  search->least = cost;
  search->best = bracket;
}

/* Along one straight run, on either side, at several places of it. */
static void
try_run (Search *search, HobBracket bracket, HobPoint p, HobPoint q, double w)
{
  double length = hypot (q.x - p.x, q.y - p.y), own = fmin (length - 2 * LEG, MOST);
  double ux = (q.x - p.x) / length, uy = (q.y - p.y) / length;
  double off = LEG + (bracket.of == HOB_BRACKET_WIRE ? OFF_WIRE : OFF_TUBE);

  if (own < LEAST || (fabs (ux) > 0.01 && fabs (uy) > 0.01))
    return;
  for (double at = (length - own) / 2; at >= LEG; at -= SLIDE)
    for (int turn = 0; turn < 4; turn++)
      {
        double from = turn & 1 ? length - own - at : at, side = turn & 2 ? 1 : -1;
        double nx = -uy * side, ny = ux * side;

        bracket.a = (HobPoint){ p.x + ux * from + nx * off, p.y + uy * from + ny * off };
        bracket.b = (HobPoint){ bracket.a.x + ux * own, bracket.a.y + uy * own };
        bracket.leg = (HobPoint){ fabs (nx) > 0.5 ? -nx * LEG : 0,
                                  fabs (ny) > 0.5 ? -ny * LEG : 0 };
        try_place (search, bracket, w,
                   COST_SHORT * (MOST - own) + fabs ((length - own) / 2 - at) / SLIDE);
      }
}

static void
lay_line (Search *search, HobBracketOf of, int first, const HobRoute *routes, int n)
{
  const HobStage *stage = search->room.stage;
  HobBracket bracket = { .of = of, .first = first };
  g_autofree char *figures = figures_of (stage, &bracket);
  double w = hob_type_shows (stage->look, HOB_TEXT_SMALL)
                 ? hob_type_width (stage->type, HOB_TEXT_SMALL, figures) + 8 : 0;

  for (int k = first; k < n; k++)
    for (int i = 0; alike[of](stage, first, k) && i + 1 < routes[k].n; i++)
      try_run (search, bracket, routes[k].p[i], routes[k].p[i + 1], w);
}

/* Around all that are alike; FALSE: it is only one, or another part is between them. */
static gboolean
box_of_parts (const HobStage *stage, int first, HobBox *all)
{
  int n = 0;
  HobBox box;

  hob_cell_symbol (&stage->range->parts[first], stage->sheet, all);
  for (int k = first; k < stage->range->n_parts; k++)
    if (parts_alike (stage, first, k)
        && hob_cell_symbol (&stage->range->parts[k], stage->sheet, &box))
      {
        *all = (HobBox){ fmin (all->x0, box.x0), fmin (all->y0, box.y0), fmax (all->x1, box.x1),
                         fmax (all->y1, box.y1) };
        n++;
      }
  for (int k = 0; k < stage->range->n_parts; k++)
    if (!hob_cell_is_interior (stage->range->parts[k].kind)
        && !hob_cell_is_attached (stage->range, k, stage->sheet)
        && !parts_alike (stage, first, k)
        && hob_cell_symbol (&stage->range->parts[k], stage->sheet, &box)
        && hob_box_meet (all, &box))
      return FALSE;
  return n > 1;
}

static void
lay_parts (Search *search, int first)
{
  HobBracket over = { .of = HOB_BRACKET_PARTS, .first = first };
  HobBox box;

  if (!box_of_parts (search->room.stage, first, &box))
    return;
  over.a = (HobPoint){ box.x0, box.y0 - OFF_PARTS };
  over.b = (HobPoint){ box.x1, box.y0 - OFF_PARTS };
  over.leg = (HobPoint){ 0, LEG };
  try_place (search, over, 0, 0);
  over.a = (HobPoint){ box.x0 - BESIDE_PARTS, box.y0 };
  over.b = (HobPoint){ box.x0 - BESIDE_PARTS, box.y1 };
  over.leg = (HobPoint){ LEG, 0 };
  try_place (search, over, 0, 1);
  over.a = (HobPoint){ box.x1 + BESIDE_PARTS, box.y0 };
  over.b = (HobPoint){ box.x1 + BESIDE_PARTS, box.y1 };
  over.leg = (HobPoint){ -LEG, 0 };
  try_place (search, over, 0, 2);
}

/* Its room, and that of its figures, is taken from now on. */
static void
take (Search *search, GArray *brackets)
{
  HobBracket *best = &search->best;
  HobBox box = box_of (best->a, best->b, best->leg);

  if (!isfinite (search->least))
    return;
  g_array_append_val (brackets, *best);
  g_array_append_val (search->room.taken, box);
  if (!best->said)
    return;
  g_autofree char *figures = figures_of (search->room.stage, best);

  box = put_figures (search->room.stage, best,
                     hob_type_width (search->room.stage->type, HOB_TEXT_SMALL, figures) + 8);
  g_array_append_val (search->room.taken, box);
}

static void
take_rings (HobRoom *room)
{
  const double around = 12;

  for (int k = 0; k < room->stage->range->n_parts; k++)
    {
      HobBox box;

      if (!room->stage->scene->parts[k].culprit
          || hob_cell_is_interior (room->stage->range->parts[k].kind)
          || !hob_cell_symbol (&room->stage->range->parts[k], room->stage->sheet, &box))
        continue;
      box = (HobBox){ box.x0 - around, box.y0 - around, box.x1 + around, box.y1 + around };
      g_array_append_val (room->taken, box);
    }
}

static void
lay_one (Search *search, GArray *brackets, HobBracketOf of, int k)
{
  const HobStage *stage = search->room.stage;
  const HobRoutes *routes = stage->routes;

  if (hob_bracket_first (stage, of, k) != k)
    return;
  if (search->room.taken == NULL)
    {
      search->room = hob_room_of (stage);
      take_rings (&search->room);
    }
  search->least = INFINITY;
  if (of == HOB_BRACKET_WIRE)
    lay_line (search, of, k, routes->wires, routes->n_wires);
  else if (of == HOB_BRACKET_PIPE)
    lay_line (search, of, k, routes->pipes, routes->n_pipes);
  else
    lay_parts (search, k);
  take (search, brackets);
}

GArray *
hob_brackets_lay (const HobStage *stage)
{
  GArray *brackets = g_array_new (FALSE, FALSE, sizeof (HobBracket));
  Search search = { .room = { .stage = stage } };

  for (int k = 0; k < stage->range->n_parts; k++)
    lay_one (&search, brackets, HOB_BRACKET_PARTS, k);
  for (int k = 0; k < stage->routes->n_wires && stage->sheet == HOB_SHEET_WIRING; k++)
    lay_one (&search, brackets, HOB_BRACKET_WIRE, k);
  for (int k = 0; k < stage->routes->n_pipes && stage->sheet != HOB_SHEET_WIRING; k++)
    lay_one (&search, brackets, HOB_BRACKET_PIPE, k);
  g_clear_pointer (&search.room.taken, g_array_unref);
  return brackets;
}

gboolean
hob_brackets_hold (const HobStage *stage, int part)
{
  for (guint k = 0; stage->brackets != NULL && k < stage->brackets->len; k++)
    {
      const HobBracket *bracket = &g_array_index (stage->brackets, HobBracket, k);

      if (bracket->of == HOB_BRACKET_PARTS && parts_alike (stage, bracket->first, part))
        return TRUE;
    }
  return FALSE;
}

/* ---- Drawing ---- */

void
hob_brackets_texts (const HobStage *stage)
{
  for (guint k = 0; stage->brackets != NULL && k < stage->brackets->len; k++)
    {
      const HobBracket *bracket = &g_array_index (stage->brackets, HobBracket, k);
      const HobTextPlace *at = &bracket->place;
      g_autofree char *figures = bracket->said ? figures_of (stage, bracket) : NULL;
      gboolean dark = hob_stage_is_dark (stage, at->x, at->y);

      if (figures != NULL)
        pen_text (stage->pen, at->x, at->y, HOB_TEXT_SMALL,
                  dark ? HOB_ROLE_CAVITY_INK : HOB_ROLE_INK, at->align, figures);
    }
}

void
hob_brackets_draw (const HobStage *stage)
{
  for (guint k = 0; stage->brackets != NULL && k < stage->brackets->len; k++)
    {
      const HobBracket *bracket = &g_array_index (stage->brackets, HobBracket, k);
      HobPoint a = bracket->a, b = bracket->b, leg = bracket->leg;

      pen_move (stage->pen, a.x + leg.x, a.y + leg.y);
      pen_line (stage->pen, a.x, a.y);
      pen_line (stage->pen, b.x, b.y);
      pen_line (stage->pen, b.x + leg.x, b.y + leg.y);
      hob_stroke_on (stage->pen, hob_stage_is_dark (stage, a.x, a.y), HOB_ROLE_RING, 2.5);
    }
}
