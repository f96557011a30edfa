/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Signs: what moves along wires and pipes, rings, tags, figures. */

#include "sheet/signs.h"
#include "base/figure.h"
#include "base/hash.h"
#include "base/i18n.h"
#include "parts/symbol.h"
#include <math.h>
#include <string.h>

static const struct
{
  gboolean whole;     /* never cut at a run's end */
  double half_length; /* px */
} tiles[HOB_N_TILES] = {
  [HOB_TILE_TICK] = { TRUE, 5 },
  [HOB_TILE_TICK_HEAVY] = { TRUE, 6 },
  [HOB_TILE_WEDGE] = { TRUE, 4 },
};

#define LEAST_CURRENT 1e-3
#define LEAST_POWER 1.0
#define LONG_FIGURE 25784.0 /* W, 88,000 Btu/h: as long as a figure gets */

/* 20 px/s per A, 8 to 160. */
double
hob_tick_speed (double ampere)
{
  return ampere < LEAST_CURRENT ? 0 : CLAMP (20 * ampere, 8, 160);
}

/* 15 px/s per kW, 6 to 90. */
double
hob_wedge_speed (double watt)
{
  return watt < LEAST_POWER ? 0 : CLAMP (15e-3 * watt, 6, 90);
}

/* ---- Along a run ---- */

typedef struct
{
  HobPoint a, b;     /* ends, already off the bends */
  double at;         /* px along the route at a */
  double length;
  double ux, uy;     /* the way the sign points */
  int quarter;       /* the same in quarter turns clockwise from right */
} Run;

/* Place of the first whole sign in the run, px from a, and how many there are. */
static int
whole_signs (const Run *run, HobTile tile, double phase, double *first)
{
  double pitch = hob_tile_pitch (tile), half = tiles[tile].half_length;
  double origin = phase - run->at;
  double k0 = ceil ((half - origin) / pitch), k1 = floor ((run->length - half - origin) / pitch);

  *first = origin + k0 * pitch;
  return k1 >= k0 ? (int) (k1 - k0) + 1 : 0;
}

/* Where signs stand still, a run too short for its turn has one in its middle. */
static int
one_sign (const HobStage *stage, const Run *run, HobTile tile, double *first)
{
  *first = run->length / 2;
  return stage->scene->still && run->length >= 2 * tiles[tile].half_length ? 1 : 0;
}

static void
sign_run (const HobStage *stage, const Run *run, HobTile tile, double phase)
{
  HobRepeat repeat = { .tile = tile, .x0 = run->a.x, .y0 = run->a.y, .x1 = run->b.x,
                       .y1 = run->b.y, .quarter = run->quarter };

  if (tiles[tile].whole)
    {
      repeat.n = whole_signs (run, tile, phase, &repeat.first);
      if (repeat.n == 0)
        repeat.n = one_sign (stage, run, tile, &repeat.first);
      if (repeat.n == 0)
        return;
    }
  pen_repeat (stage->pen, &repeat);
}

/* The straight part of segment k, off bends and ends; FALSE: too short, or slanting. */
static gboolean
straight_run (const HobRoute *route, int k, double at, double off, gboolean forward, Run *run)
{
  HobPoint a = route->p[k], b = route->p[k + 1];
  double length = hypot (b.x - a.x, b.y - a.y);
  double ux, uy;

  if (length < 2 * off + 4 || (fabs (b.x - a.x) > 0.5 && fabs (b.y - a.y) > 0.5))
    return FALSE;
  ux = (b.x - a.x) / length;
  uy = (b.y - a.y) / length;
  run->a = (HobPoint){ a.x + ux * off, a.y + uy * off };
  run->b = (HobPoint){ b.x - ux * off, b.y - uy * off };
  run->at = at + off;
  run->length = length - 2 * off;
  run->ux = forward ? ux : -ux;
  run->uy = forward ? uy : -uy;
  run->quarter = run->ux > 0.5 ? 0 : run->uy > 0.5 ? 1 : run->ux < -0.5 ? 2 : 3;
  return TRUE;
}

/* The part of a run from s0 to s1 px. */
static Run
piece (const Run *run, double s0, double s1)
{
  double ux = (run->b.x - run->a.x) / run->length, uy = (run->b.y - run->a.y) / run->length;
  Run cut = *run;

  cut.a = (HobPoint){ run->a.x + ux * s0, run->a.y + uy * s0 };
  cut.b = (HobPoint){ run->a.x + ux * s1, run->a.y + uy * s1 };
  cut.at = run->at + s0;
  cut.length = s1 - s0;
  return cut;
}

/* px along the run that a plate covers; FALSE: it does not lie on it. */
static gboolean
covered (const Run *run, const HobBox *box, double *s0, double *s1)
{
  double ux = (run->b.x - run->a.x) / run->length, uy = (run->b.y - run->a.y) / run->length;
  double x = (box->x0 + box->x1) / 2, y = (box->y0 + box->y1) / 2;
  double s = (x - run->a.x) * ux + (y - run->a.y) * uy,
         aside = fabs ((x - run->a.x) * uy - (y - run->a.y) * ux);
  double half = fabs (ux) > 0.5 ? (box->x1 - box->x0) / 2 : (box->y1 - box->y0) / 2;

  *s0 = s - half - 2;
  *s1 = s + half + 2;
  return aside < 1 && *s1 > 0 && *s0 < run->length;
}

static void
sign_between_plates (const HobStage *stage, const Run *run, int wire, HobTile tile, double phase)
{
  double from = 0;

  for (guint k = 0; wire >= 0 && stage->plates != NULL && k < stage->plates->len; k++)
    {
      const HobPlate *plate = &g_array_index (stage->plates, HobPlate, k);
      double s0, s1;

      if (plate->wire != wire || !covered (run, &plate->box, &s0, &s1))
        continue;
      if (s0 > from + 4)
        {
          Run before = piece (run, from, s0);

          sign_run (stage, &before, tile, phase);
        }
      from = fmax (from, s1);
    }
  if (run->length > from + 4)
    {
      Run rest = piece (run, from, run->length);

      sign_run (stage, &rest, tile, phase);
    }
}

/* Where wires go together, the sign of the one that carries most stands for all: px to leave out
 * at either end. */
static void
leave_to_others (const HobStage *stage, int wire, double cut[2])
{
  cut[0] = cut[1] = 0;
  for (int k = 0; wire >= 0 && k < stage->routes->n_shared; k++)
    {
      const HobShared *shared = &stage->routes->shared[k];
      double own = stage->scene->wires[wire].current,
             other = stage->scene->wires[shared->other].current;

      if (shared->wire == wire && (other > own || (other == own && shared->other < wire)))
        cut[shared->last] = fmax (cut[shared->last], shared->length);
    }
}

static double
route_length (const HobRoute *route)
{
  double length = 0;

  for (int k = 0; k + 1 < route->n; k++)
    length += hypot (route->p[k + 1].x - route->p[k].x, route->p[k + 1].y - route->p[k].y);
  return length;
}

void
hob_sign_along (const HobStage *stage, const HobRoute *route, int wire, HobTile tile,
                gboolean forward, double phase)
{
  double at = 0, end = route_length (route), cut[2];

  leave_to_others (stage, wire, cut);
  for (int k = 0; k + 1 < route->n; k++)
    {
      Run run;

      if (straight_run (route, k, at, HOB_OFF_BENDS, forward, &run))
        {
          double from = CLAMP (cut[0] - run.at, 0, run.length),
                 to = CLAMP (end - cut[1] - run.at, 0, run.length);
          Run own = piece (&run, from, to);

          if (own.length > 4)
            sign_between_plates (stage, &own, wire, tile, forward ? phase : -phase);
        }
      at += hypot (route->p[k + 1].x - route->p[k].x, route->p[k + 1].y - route->p[k].y);
    }
}

/* ---- Hand: ring, tag, selection ---- */

#define RING_POINTS 72
#define RING_OVERLAP (25.0 / 360.0)
#define RING_WANDER 0.04
#define RING_WEIGHT 2.5
#define RING_ASIDE 8.0 /* px beside the box */
#define RING_ABOVE 5.0 /* px above and below it: name and figure stay free */

#define LEAST_FLAT 4.0

/* A flattened circle, |x/a|^n + |y/b|^n = 1: around the box without cutting its corners or going
 * far from its sides. */
static double
flattened (double c, double n)
{
  return copysign (n == LEAST_FLAT ? sqrt (fabs (c)) : pow (fabs (c), 2 / n), c);
}

/* The roundest that holds the corners of a box of half @w and @h. */
static double
flatness (double w, double h)
{
  double n = LEAST_FLAT;

  while (n < 16 && pow (w / (w + RING_ASIDE), n) + pow (h / (h + RING_ABOVE), n) > 1)
    n += 0.5;
  return n;
}

/* Inside the oven it is dark in every theme. */
void
hob_stroke_on (HobPen *pen, gboolean on_cavity, HobRole role, double weight)
{
  double rgb[3];

  if (on_cavity)
    {
      hob_theme_colour (HOB_THEME_DARK, role, rgb);
      pen_tint (pen, rgb);
    }
  pen_stroke (pen, role, weight);
}

/* Where the k-th of n pieces of a ring around the box begins, @turn being all of it. */
static HobPoint
ring_point (const HobBox *box, const char *id, double turn, int k, int n)
{
  guint64 key = g_str_hash (id);
  double start = 2 * G_PI * hob_hash_uniform (key, 1, 0),
         p1 = 2 * G_PI * hob_hash_uniform (key, 1, 1), p2 = 2 * G_PI * hob_hash_uniform (key, 1, 2);
  double cx = (box->x0 + box->x1) / 2, cy = (box->y0 + box->y1) / 2;
  double w = (box->x1 - box->x0) / 2, h = (box->y1 - box->y0) / 2, flat = flatness (w, h);
  double a = w + RING_ASIDE, b = h + RING_ABOVE;
  double wander = fmin (RING_WANDER, 2.2 / fmin (a, b));
  double along = turn * k / MAX (n, 1), t = start + along;
  double r = 1 + wander * (0.6 * sin (2 * along + p1) + 0.4 * sin (3 * along + p2))
             + wander * (along / (2 * G_PI) - 0.5); /* the end passes outside the beginning */

  return (HobPoint){ cx + a * r * flattened (cos (t), flat),
                     cy + b * r * flattened (sin (t), flat) };
}

void
hob_sign_ring (HobPen *pen, const HobBox *box, gboolean on_cavity, const char *id, double drawn)
{
  double turn = 2 * G_PI * (1 + RING_OVERLAP) * CLAMP (drawn, 0, 1);
  int n = (int) ceil (RING_POINTS * CLAMP (drawn, 0, 1));

  for (int k = 0; k <= n; k++)
    {
      HobPoint p = ring_point (box, id, turn, k, n);

      if (k == 0)
        pen_move (pen, p.x, p.y);
      else
        pen_line (pen, p.x, p.y);
    }
  hob_stroke_on (pen, on_cavity, HOB_ROLE_RING, RING_WEIGHT);
}

HobBox
hob_sign_ring_room (const HobBox *box, const char *id)
{
  HobBox room = *box;

  for (int k = 0; k <= RING_POINTS; k++)
    {
      HobPoint p = ring_point (box, id, 2 * G_PI * (1 + RING_OVERLAP), k, RING_POINTS);

      room = (HobBox){ fmin (room.x0, p.x - RING_WEIGHT / 2), fmin (room.y0, p.y - RING_WEIGHT / 2),
                       fmax (room.x1, p.x + RING_WEIGHT / 2),
                       fmax (room.y1, p.y + RING_WEIGHT / 2) };
    }
  return room;
}

#define ARC_DEGREES 140.0
#define ARC_DEEP 6.0 /* px at most, so that it keeps to the line below the figure */

void
hob_sign_arc (HobPen *pen, double x, double y, double half, gboolean on_cavity, double drawn)
{
  const double reach = ARC_DEGREES / 2 * G_PI / 180, a = half / sin (reach);
  const double b = fmin (a, ARC_DEEP / (1 - cos (reach))), top = y - b * cos (reach);
  int n = (int) ceil (RING_POINTS / 2 * CLAMP (drawn, 0, 1));

  for (int k = 0; k <= n; k++)
    {
      double along = -reach + 2 * reach * CLAMP (drawn, 0, 1) * k / MAX (n, 1);

      if (k == 0)
        pen_move (pen, x + a * sin (along), top + b * cos (along));
      else
        pen_line (pen, x + a * sin (along), top + b * cos (along));
    }
  hob_stroke_on (pen, on_cavity, HOB_ROLE_RING, 2.5);
}

void
hob_sign_selection (HobPen *pen, const HobBox *box, gboolean on_cavity)
{
  const double out = 10, leg = 12;
  double x[2] = { box->x0 - out, box->x1 + out }, y[2] = { box->y0 - out, box->y1 + out };

  for (int i = 0; i < 2; i++)
    for (int k = 0; k < 2; k++)
      {
        pen_move (pen, x[i] + (i == 0 ? leg : -leg), y[k]);
        pen_line (pen, x[i], y[k]);
        pen_line (pen, x[i], y[k] + (k == 0 ? leg : -leg));
      }
  hob_stroke_on (pen, on_cavity, HOB_ROLE_PENCIL, 2);
}

/* ---- Gas ---- */

#define GATHERED_FULL 185e3 /* J in an oven of 100 L at its leanest mixture that burns: reckoned */
#define GATHERED_LEAST 0.25 /* of the box's height */

void
hob_sign_gathered (HobPen *pen, const HobBox *box, double joule, gboolean sinks,
                   gboolean on_dark)
{
  double h = (box->y1 - box->y0) * CLAMP (sqrt (joule / GATHERED_FULL), GATHERED_LEAST, 1);

  hob_symbol_gathered (pen, box->x0, sinks ? box->y1 - h : box->y0, box->x1 - box->x0, h,
                       on_dark);
}

/* ---- Figures ---- */

double
hob_should_be_width (HobType *type, HobTextSize size)
{
  g_autofree char *figure = hob_person_text (LONG_FIGURE, HOB_DIM_POWER, 2);
  g_autofree char *text = g_strdup_printf (_ ("should be %s"), figure);

  return hob_type_width (type, size, text);
}
