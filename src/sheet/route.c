/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where wires, pipes and leads run: from terminal to terminal by way of the file's bends, in
 * straight horizontal and vertical runs.  A line turns at every bend; where two points do not
 * align, it takes the corner that this implies.  Drawing and hit-testing read the same routes. */

#include "sheet/body.h"
#include "sheet/cell.h"
#include "sheet/route.h"
#include "parts/symbol.h"
#include <math.h>

#define ALIGNED 0.5 /* px: nearer than this is the same height */

static HobPoint
turned (double x, double y, int turn)
{
  switch (turn & 3)
    {
    case 1: return (HobPoint){ -y, x };
    case 2: return (HobPoint){ -x, -y };
    case 3: return (HobPoint){ y, -x };
    default: return (HobPoint){ x, y };
    }
}

/* The terminal's or port's own place on the unturned symbol. */
static HobPoint
own_place (const HobKind *kind, int index, gboolean port)
{
  if (port)
    return (HobPoint){ kind->ports[index].x, kind->ports[index].y };
  return (HobPoint){ kind->terminals[index].x, kind->terminals[index].y };
}

gboolean
hob_anchor (const HobRange *range, HobSheet sheet, HobEnd end, gboolean port, HobPoint *at)
{
  const HobPart *part = &range->parts[end.part];
  const HobPlacement *placement = &part->at[sheet];
  HobPoint own;

  if (!placement->placed || part->kind->symbol[sheet].w <= 0)
    return FALSE;
  own = own_place (part->kind, end.terminal, port);
  own = turned (own.x, own.y, placement->turn);
  *at = (HobPoint){ placement->x + own.x, placement->y + own.y };
  return TRUE;
}

/* Does the line leave this end sideways? By the edge of the box that the anchor stands on. */
static gboolean
leaves_sideways (const HobRange *range, HobSheet sheet, HobEnd end, gboolean port)
{
  const HobPart *part = &range->parts[end.part];
  const HobSymbolSize *size = &part->kind->symbol[sheet];
  HobPoint own = own_place (part->kind, end.terminal, port);
  gboolean sideways = fabs (own.x) / size->w >= fabs (own.y) / size->h;

  return (part->at[sheet].turn & 1) ? !sideways : sideways;
}

static void
add (GArray *points, HobPoint p)
{
  const HobPoint *last
      = points->len > 0 ? &g_array_index (points, HobPoint, points->len - 1) : NULL;

  if (last == NULL || fabs (last->x - p.x) > 0.01 || fabs (last->y - p.y) > 0.01)
    g_array_append_val (points, p);
}

/* Goes on to p, leaving sideways or not; returns how it should leave p. */
static gboolean
go_on (GArray *points, HobPoint p, gboolean sideways)
{
  HobPoint last = g_array_index (points, HobPoint, points->len - 1);
  gboolean level = fabs (last.y - p.y) < ALIGNED, plumb = fabs (last.x - p.x) < ALIGNED;

  if (level && plumb)
    return sideways;
  if (level || plumb)
    {
      add (points, p);
      return plumb;
    }
  add (points, sideways ? (HobPoint){ p.x, last.y } : (HobPoint){ last.x, p.y });
  add (points, p);
  return sideways;
}

static void
trace (HobRoute *route, const HobRange *range, HobSheet sheet, const HobLine *l, gboolean port)
{
  GArray *points;
  HobPoint a, b;
  gboolean sideways;

  if (!hob_anchor (range, sheet, l->from, port, &a) || !hob_anchor (range, sheet, l->to, port, &b))
    return;
  points = g_array_new (FALSE, FALSE, sizeof (HobPoint));
  add (points, a);
  sideways = leaves_sideways (range, sheet, l->from, port);
  for (int k = 0; k < l->n_bends; k++)
    sideways = go_on (points, l->bends[k], sideways);
  /* Without any bend given, arrive at the far end the way its terminal faces. */
  if (l->n_bends == 0 && fabs (a.x - b.x) > ALIGNED && fabs (a.y - b.y) > ALIGNED
      && sideways == leaves_sideways (range, sheet, l->to, port))
    sideways = go_on (
        points, sideways ? (HobPoint){ (a.x + b.x) / 2, a.y } : (HobPoint){ a.x, (a.y + b.y) / 2 },
        sideways);
  go_on (points, b, sideways);
  route->n = (int) points->len;
  route->p = (HobPoint *) (void *) g_array_free (points, FALSE);
}

/* ---- On the cutaway: from an oven's valve to its burner's tube ---- */

#define OVER_ROOF 20.0 /* px above the oven, and beside it */

/* The end of the burner's tube that lies nearer to x. */
static HobPoint
tube_end (const HobPlacement *at, double x)
{
  HobPoint end = turned (HOB_OVEN_TUBE_HALF, HOB_OVEN_TUBE_DOWN, at->turn);
  double reach = fabs (end.x);

  return (HobPoint){ at->x + (x < at->x ? -reach : reach), at->y + end.y };
}

/* Straight in where they stand level, else up outside, over the roof and down. */
static void
trace_inside (HobRoute *route, const HobRange *range, const HobLine *pipe)
{
  const HobPart *burner = &range->parts[pipe->to.part];
  const HobPlacement *valve = &range->parts[pipe->from.part].at[HOB_SHEET_CUTAWAY];
  HobPoint a, b;
  HobBox oven;
  GArray *points;

  if ((burner->kind->flags & HOB_KIND_BURNER) == 0 || burner->in < 0
      || !burner->at[HOB_SHEET_CUTAWAY].placed
      || !hob_cell_symbol (&range->parts[burner->in], HOB_SHEET_CUTAWAY, &oven)
      || !hob_anchor (range, HOB_SHEET_CUTAWAY, pipe->from, TRUE, &a))
    return;
  b = tube_end (&burner->at[HOB_SHEET_CUTAWAY], a.x);
  a.x = valve->x + copysign (a.x - valve->x, b.x - valve->x); /* it leaves on the oven's side */
  points = g_array_new (FALSE, FALSE, sizeof (HobPoint));
  add (points, a);
  if (fabs (a.y - b.y) > ALIGNED)
    {
      double aside = a.x < b.x ? -OVER_ROOF : OVER_ROOF, wall = a.x < b.x ? oven.x0 : oven.x1;

      add (points, (HobPoint){ wall + aside, a.y });
      add (points, (HobPoint){ wall + aside, oven.y0 - OVER_ROOF });
      add (points, (HobPoint){ b.x + aside, oven.y0 - OVER_ROOF });
      add (points, (HobPoint){ b.x + aside, b.y });
    }
  add (points, b);
  route->n = (int) points->len;
  route->p = (HobPoint *) (void *) g_array_free (points, FALSE);
}

/* ---- On the cutaway: from the regulator up behind the range, to the valves and the front ---- */

#define BESIDE_VALVES 40.0 /* px that the riser goes behind them */
#define BELOW_COOKTOP 24.0
#define BEHIND_FRONT 24.0

static gboolean
is_valve_here (const HobPart *part, HobBox *box)
{
  return part->kind->n_ports > 0 && (part->kind->flags & HOB_KIND_BURNER) == 0
         && hob_cell_symbol (part, HOB_SHEET_CUTAWAY, box);
}

static double
riser (const HobRange *range)
{
  double x = -INFINITY;
  HobBox box;

  for (int k = 0; k < range->n_parts; k++)
    if (is_valve_here (&range->parts[k], &box))
      x = fmax (x, box.x1);
  return x + BESIDE_VALVES;
}

static void
lay (HobRoute *route, const HobPoint *p, int n)
{
  route->n = n;
  route->p = g_memdup2 (p, sizeof (HobPoint) * (gsize) n);
}

/* What is in between is not on this sheet: a valve is fed from the riser, and what the regulator
 * feeds is the manifold, behind the knobs. */
static void
trace_riser (HobRoute *route, const HobRange *range, const HobLine *pipe)
{
  double x = riser (range);
  HobBody body;
  HobBox from, to;
  gboolean has_from = is_valve_here (&range->parts[pipe->from.part], &from),
           has_to = is_valve_here (&range->parts[pipe->to.part], &to);

  if (has_from == has_to || !hob_body_of (range, HOB_SHEET_CUTAWAY, &body)
      || (range->parts[pipe->to.part].kind->flags & HOB_KIND_BURNER) != 0)
    return;
  if (has_from)
    {
      double y = (from.y0 + from.y1) / 2, header = body.top + BELOW_COOKTOP;
      const HobPoint p[] = { { from.x1, y }, { x, y }, { x, header },
                             { body.front + BEHIND_FRONT, header } };

      lay (route, p, G_N_ELEMENTS (p));
    }
  else if (to.y1 < body.oven.y1 + BELOW_COOKTOP)
    {
      const HobPoint p[] = { { x, (to.y0 + to.y1) / 2 }, { to.x1, (to.y0 + to.y1) / 2 } };

      lay (route, p, G_N_ELEMENTS (p));
    }
}

static HobRoute *
trace_all_inside (const HobRange *range)
{
  HobRoute *routes = g_new0 (HobRoute, (gsize) range->n_pipes + 1);

  for (int k = 0; k < range->n_pipes; k++)
    {
      trace_inside (&routes[k], range, &range->pipes[k]);
      if (routes[k].n == 0)
        trace_riser (&routes[k], range, &range->pipes[k]);
    }
  return routes;
}

static HobRoute *
trace_all (const HobRange *range, HobSheet sheet, const HobLine *lines, int n, gboolean port)
{
  HobRoute *routes = g_new0 (HobRoute, (gsize) n + 1);

  for (int k = 0; k < n; k++)
    trace (&routes[k], range, sheet, &lines[k], port);
  return routes;
}

static double
length_of (HobPoint a, HobPoint b)
{
  return hypot (b.x - a.x, b.y - a.y);
}

/* ---- Where wires of one terminal part ---- */

/* Corner k as counted from the shared end. */
static HobPoint *
from_end (const HobRoute *route, gboolean last, int k)
{
  return &route->p[last ? route->n - 1 - k : k];
}

static void
make_square (HobRoute *route, gboolean last, int k)
{
  int corner = last ? route->n - 1 - k : k;

  if (corner > 0 && corner < route->n - 1 && corner < 64)
    route->square |= (guint64) 1 << corner;
}

static gboolean
same_point (HobPoint a, HobPoint b)
{
  return fabs (a.x - b.x) < ALIGNED && fabs (a.y - b.y) < ALIGNED;
}

/* Does b lie on the run from a to c? */
static gboolean
between (HobPoint a, HobPoint b, HobPoint c)
{
  return fabs ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) < ALIGNED
         && (b.x - a.x) * (c.x - a.x) + (b.y - a.y) * (c.y - a.y) > 0
         && hypot (b.x - a.x, b.y - a.y) <= hypot (c.x - a.x, c.y - a.y) + ALIGNED;
}

/* Two wires that begin at one terminal go together for a while: a dot where they part, no round
 * bend there. → px that they go together. */
static double
part_ways (HobRoute *one, gboolean one_last, HobRoute *other, gboolean other_last, GArray *dots)
{
  int k = 0;
  double length = 0;
  HobPoint at;

  while (k + 1 < one->n && k + 1 < other->n
         && same_point (*from_end (one, one_last, k + 1), *from_end (other, other_last, k + 1)))
    {
      length += length_of (*from_end (one, one_last, k), *from_end (one, one_last, k + 1));
      k++;
    }
  at = *from_end (one, one_last, k);
  if (k + 1 < one->n && k + 1 < other->n)
    {
      HobPoint a = *from_end (one, one_last, k + 1), b = *from_end (other, other_last, k + 1);

      if (between (at, a, b))
        at = a;
      else if (between (at, b, a))
        at = b;
      length += length_of (*from_end (one, one_last, k), at);
    }
  for (int i = 0; i < one->n; i++)
    if (same_point (*from_end (one, one_last, i), at))
      make_square (one, one_last, i);
  for (int i = 0; i < other->n; i++)
    if (same_point (*from_end (other, other_last, i), at))
      make_square (other, other_last, i);
  g_array_append_val (dots, at);
  return length;
}

static gboolean
same_end (HobEnd a, HobEnd b)
{
  return a.part == b.part && a.terminal == b.terminal;
}

static void
meet_at (HobRoutes *routes, int i, gboolean i_last, int k, gboolean k_last, GArray *dots,
         GArray *shared)
{
  double length = part_ways (&routes->wires[i], i_last, &routes->wires[k], k_last, dots);
  HobShared one = { i, k, i_last, length }, other = { k, i, k_last, length };

  if (length <= 0)
    return;
  g_array_append_val (shared, one);
  g_array_append_val (shared, other);
}

static void
find_dots (HobRoutes *routes, const HobRange *range)
{
  GArray *dots = g_array_new (FALSE, FALSE, sizeof (HobPoint)),
         *shared = g_array_new (FALSE, FALSE, sizeof (HobShared));

  for (int i = 0; i < routes->n_wires; i++)
    for (int k = i + 1; k < routes->n_wires; k++)
      for (int way = 0; way < 4; way++)
        {
          const HobLine *a = &range->wires[i], *b = &range->wires[k];
          gboolean a_last = way & 1, b_last = (way & 2) != 0;

          if (routes->wires[i].n > 1 && routes->wires[k].n > 1
              && same_end (a_last ? a->to : a->from, b_last ? b->to : b->from))
            meet_at (routes, i, a_last, k, b_last, dots, shared);
        }
  routes->n_dots = (int) dots->len;
  routes->dots = (HobPoint *) (void *) g_array_free (dots, FALSE);
  routes->n_shared = (int) shared->len;
  routes->shared = (HobShared *) (void *) g_array_free (shared, FALSE);
}

HobRoutes *
hob_routes_new (const HobRange *range, HobSheet sheet)
{
  HobRoutes *routes = g_new0 (HobRoutes, 1);

  routes->n_wires = sheet == HOB_SHEET_WIRING ? range->n_wires : 0;
  routes->n_leads = sheet == HOB_SHEET_WIRING ? range->n_leads : 0;
  routes->n_pipes = sheet != HOB_SHEET_WIRING ? range->n_pipes : 0;
  routes->wires = trace_all (range, sheet, range->wires, routes->n_wires, FALSE);
  routes->leads = trace_all (range, sheet, range->leads, routes->n_leads, FALSE);
  routes->pipes = sheet == HOB_SHEET_CUTAWAY
                      ? trace_all_inside (range)
                      : trace_all (range, sheet, range->pipes, routes->n_pipes, TRUE);
  find_dots (routes, range);
  return routes;
}

static void
free_all (HobRoute *routes, int n)
{
  for (int k = 0; k < n; k++)
    g_free (routes[k].p);
  g_free (routes);
}

void
hob_routes_free (HobRoutes *routes)
{
  if (routes == NULL)
    return;
  free_all (routes->wires, routes->n_wires);
  free_all (routes->pipes, routes->n_pipes);
  free_all (routes->leads, routes->n_leads);
  g_free (routes->dots);
  g_free (routes->shared);
  g_free (routes);
}

/* The point d px from a towards b. */
static HobPoint
towards (HobPoint a, HobPoint b, double d)
{
  double l = length_of (a, b);
  double f = l > 0 ? d / l : 0;

  return (HobPoint){ a.x + (b.x - a.x) * f, a.y + (b.y - a.y) * f };
}

/* A quarter circle by its Bezier handle 0.5523 r; for other angles near enough. */
static void
bend (HobPen *pen, HobPoint before, HobPoint corner, HobPoint after)
{
  const double handle = 1 - 0.5523;
  double r
      = fmin (HOB_BEND_RADIUS, fmin (length_of (before, corner), length_of (corner, after)) / 2);
  HobPoint in = towards (corner, before, r), out = towards (corner, after, r);
  HobPoint c1 = towards (corner, before, r * handle), c2 = towards (corner, after, r * handle);

  pen_line (pen, in.x, in.y);
  pen_curve (pen, c1.x, c1.y, c2.x, c2.y, out.x, out.y);
}

void
hob_route_path (HobPen *pen, const HobRoute *route, double cut)
{
  HobPoint first, last;

  if (route->n < 2)
    return;
  first = towards (route->p[0], route->p[1], fmin (cut, length_of (route->p[0], route->p[1]) / 2));
  last = towards (route->p[route->n - 1], route->p[route->n - 2],
                  fmin (cut, length_of (route->p[route->n - 1], route->p[route->n - 2]) / 2));
  pen_move (pen, first.x, first.y);
  for (int k = 1; k < route->n - 1; k++)
    if (k < 64 && (route->square >> k & 1) != 0)
      pen_line (pen, route->p[k].x, route->p[k].y);
    else
      bend (pen, route->p[k - 1], route->p[k], route->p[k + 1]);
  pen_line (pen, last.x, last.y);
}

static double
distance_to_run (HobPoint a, HobPoint b, double x, double y)
{
  double l2 = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
  double f = l2 > 0 ? CLAMP (((x - a.x) * (b.x - a.x) + (y - a.y) * (b.y - a.y)) / l2, 0, 1) : 0;

  return hypot (x - a.x - f * (b.x - a.x), y - a.y - f * (b.y - a.y));
}

double
hob_route_distance (const HobRoute *route, double x, double y)
{
  double least = INFINITY;

  for (int k = 0; k + 1 < route->n; k++)
    least = fmin (least, distance_to_run (route->p[k], route->p[k + 1], x, y));
  return least;
}

/* Do the runs ab (level) and cd (plumb) cross inside both? */
static gboolean
level_crosses (HobPoint a, HobPoint b, HobPoint c, HobPoint d)
{
  const double in = 1.0;

  return fabs (a.y - b.y) < ALIGNED && fabs (c.x - d.x) < ALIGNED && c.x > fmin (a.x, b.x) + in
         && c.x < fmax (a.x, b.x) - in && a.y > fmin (c.y, d.y) + in && a.y < fmax (c.y, d.y) - in;
}

void
hob_route_each_crossing (const HobRoute *over, const HobRoute *below, HobCrossing each,
                         gpointer user)
{
  for (int i = 0; i + 1 < over->n; i++)
    for (int k = 0; k + 1 < below->n; k++)
      {
        HobPoint a = over->p[i], b = over->p[i + 1], c = below->p[k], d = below->p[k + 1];

        if (level_crosses (a, b, c, d))
          each ((HobPoint){ c.x, a.y }, TRUE, user);
        else if (level_crosses (c, d, a, b))
          each ((HobPoint){ a.x, c.y }, FALSE, user);
      }
}

static void
count_one (HobPoint at, gboolean level, gpointer user)
{
  ++*(int *) user;
}

static const HobRoute *
route_at (const HobRoutes *routes, int index)
{
  if (index < routes->n_wires)
    return &routes->wires[index];
  index -= routes->n_wires;
  return index < routes->n_pipes ? &routes->pipes[index] : &routes->leads[index - routes->n_pipes];
}

int
hob_routes_crossings (const HobRoutes *routes)
{
  int n = routes->n_wires + routes->n_pipes + routes->n_leads, crossings = 0;

  for (int i = 0; i < n; i++)
    for (int k = i + 1; k < n; k++)
      hob_route_each_crossing (route_at (routes, i), route_at (routes, k), count_one, &crossings);
  return crossings;
}

static gboolean
is_near (const HobRoute *route, const HobBox *box, double near)
{
  for (int i = 0; i + 1 < route->n; i++)
    {
      HobPoint a = route->p[i], b = route->p[i + 1];
      HobBox run = { fmin (a.x, b.x) - near, fmin (a.y, b.y) - near, fmax (a.x, b.x) + near,
                     fmax (a.y, b.y) + near };

      if (hob_box_meet (&run, box))
        return TRUE;
    }
  return FALSE;
}

gboolean
hob_routes_near (const HobRoutes *routes, const HobBox *box, double near)
{
  for (int k = 0; k < routes->n_wires + routes->n_pipes + routes->n_leads; k++)
    if (is_near (route_at (routes, k), box, near))
      return TRUE;
  return FALSE;
}
