/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/walk.h"

#include "sheet/route.h"
#include <math.h>

#define ALIKE 0.35 /* cosine: a line leaves that way if it does so more or less */
#define SIDE 0.5   /* px to the side that the next line begins at least */

typedef struct
{
  const HobLine *lines;
  const HobRoute *routes;
  int n;
  double dx, dy;
} Walk;

static int
other_end (const HobLine *line, int part)
{
  return line->from.part == part ? line->to.part : line->from.part;
}

/* The corner of a route that is so many from the end at @part. */
static HobPoint
corner (const Walk *w, int line, int part, int k)
{
  const HobRoute *route = &w->routes[line];

  return w->lines[line].from.part == part ? route->p[k] : route->p[route->n - 1 - k];
}

/* How much a line leaves @part that way: by its first stretch, and where that is even by all of
 * it. */
static double
leaves (const Walk *w, int line, int part)
{
  HobPoint a = corner (w, line, part, 0), b = corner (w, line, part, 1),
           z = corner (w, line, part, w->routes[line].n - 1);
  double first = hypot (b.x - a.x, b.y - a.y), all = hypot (z.x - a.x, z.y - a.y);

  if (first < 1e-6 || all < 1e-6)
    return -1;
  return ((b.x - a.x) * w->dx + (b.y - a.y) * w->dy) / first
         + 0.1 * ((z.x - a.x) * w->dx + (z.y - a.y) * w->dy) / all;
}

static int
line_from (const Walk *w, int part)
{
  double best = ALIKE;
  int found = -1;

  for (int k = 0; k < w->n; k++)
    {
      double much;

      if ((w->lines[k].from.part != part && w->lines[k].to.part != part) || w->routes[k].n < 2)
        continue;
      much = leaves (w, k, part);
      if (much <= best)
        continue;
      best = much;
      found = k;
    }
  return found;
}

/* The part at the end that is further that way; −1: the line goes across. */
static int
end_that_way (const Walk *w, int line)
{
  const HobLine *l = &w->lines[line];
  HobPoint a = corner (w, line, l->from.part, 0),
           z = corner (w, line, l->from.part, w->routes[line].n - 1);
  double along = (z.x - a.x) * w->dx + (z.y - a.y) * w->dy,
         across = fabs ((z.x - a.x) * w->dy) + fabs ((z.y - a.y) * w->dx);

  if (fabs (along) < ALIKE * across)
    return -1;
  return along > 0 ? l->to.part : l->from.part;
}

/* The next line of a part that this one is of too. */
static int
line_beside (const Walk *w, int line)
{
  const int parts[] = { w->lines[line].from.part, w->lines[line].to.part };
  double best = INFINITY;
  int found = -1;

  for (int p = 0; p < 2; p++)
    for (int k = 0; k < w->n; k++)
      {
        HobPoint here, there;
        double side;

        if (k == line || w->routes[k].n < 2
            || (w->lines[k].from.part != parts[p] && w->lines[k].to.part != parts[p]))
          continue;
        here = corner (w, line, parts[p], 0);
        there = corner (w, k, parts[p], 0);
        side = (there.x - here.x) * w->dx + (there.y - here.y) * w->dy;
        if (side <= SIDE || side >= best)
          continue;
        best = side;
        found = k;
      }
  return found;
}

static gboolean
step (const Walk *w, gboolean stops, HobStand *at)
{
  HobStand next = { -1, -1 };

  if (at->line >= 0 && at->line < w->n && w->routes[at->line].n >= 2)
    {
      next.part = end_that_way (w, at->line);
      next.line = next.part < 0 ? line_beside (w, at->line) : -1;
    }
  else if (at->part >= 0)
    {
      int line = line_from (w, at->part);

      next.line = stops ? line : -1;
      next.part = !stops && line >= 0 ? other_end (&w->lines[line], at->part) : -1;
    }
  if (next.part < 0 && next.line < 0)
    return FALSE;
  *at = next;
  return TRUE;
}

gboolean
hob_walk (const HobRange *range, HobSheet sheet, HobStand *at, double dx, double dy)
{
  g_autoptr (HobRoutes) routes = hob_routes_new (range, sheet);
  const gboolean wires = sheet == HOB_SHEET_WIRING;
  const Walk w = { wires ? range->wires : range->pipes, wires ? routes->wires : routes->pipes,
                   wires ? routes->n_wires : routes->n_pipes, dx, dy };

  return step (&w, wires, at);
}
