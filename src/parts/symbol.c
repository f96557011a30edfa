/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/symbol.h"

#include <math.h>

void
hob_symbol_leads (HobPen *pen, double inner, double reach)
{
  pen_segment (pen, -reach, 0, -inner, 0);
  pen_segment (pen, inner, 0, reach, 0);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

void
hob_symbol_resistor (HobPen *pen, double w, double h, double reach)
{
  hob_symbol_leads (pen, w / 2, reach);
  pen_rect (pen, -w / 2, -h / 2, w, h);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
}

void
hob_symbol_contact (HobPen *pen, double x1, double x2, double y)
{
  pen_circle (pen, x1, y, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_circle (pen, x2, y, 3);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
}

void
hob_symbol_blade (HobPen *pen, double x1, double x2, double y, gboolean closed)
{
  const double open = 24 * G_PI / 180;
  double reach = x2 - x1, angle = closed ? 0 : open;

  pen_segment (pen, x1, y, x1 + reach * cos (angle), y - fabs (reach) * sin (angle));
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

void
hob_symbol_lamp (HobPen *pen, double x, double r, HobRole ground, HobRole ink)
{
  double d = r * sin (G_PI_4);

  pen_circle (pen, x, 0, r);
  pen_fill_stroke (pen, ground, ink, HOB_OUTLINE);
  pen_segment (pen, x - d, -d, x + d, d);
  pen_segment (pen, x - d, d, x + d, -d);
  pen_stroke (pen, ink, HOB_DETAIL);
}

void
hob_symbol_rays (HobPen *pen, double x, double r, double shines)
{
  double near = r + 3, far = near + 5 * MIN (shines, 2);

  for (int k = 0; k < 8 && shines > 0; k++)
    {
      double a = G_PI_4 * (k + 0.5);

      pen_segment (pen, x + near * cos (a), near * sin (a), x + far * cos (a), far * sin (a));
    }
  pen_stroke (pen, HOB_ROLE_HEAT, HOB_OUTLINE);
}

void
hob_symbol_earth (HobPen *pen, double x, double y)
{
  for (int k = 0; k < 3; k++)
    pen_segment (pen, x - 9 + 3 * k, y + 4 * k, x + 9 - 3 * k, y + 4 * k);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

void
hob_symbol_frame (HobPen *pen, double x, double y, gboolean down)
{
  double reach = down ? 9 : -9;

  pen_segment (pen, x - 12, y, x + 12, y);
  for (int k = -1; k <= 1; k++)
    pen_segment (pen, x + 11 * k, y, x + 11 * k - 5, y + reach);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

void
hob_symbol_tube (HobPen *pen, double x1, double x2, double y)
{
  const double wall = 6.25; /* half the tube, to the middle of its wall */

  pen_segment (pen, x1, y - wall, x2, y - wall);
  pen_segment (pen, x1, y + wall, x2, y + wall);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_DETAIL);
}

void
hob_symbol_valve (HobPen *pen, double x, double y, gboolean shut)
{
  const double w = 16, h = 11;

  for (int side = -1; side <= 1; side += 2)
    {
      pen_move (pen, x, y);
      pen_line (pen, x + side * w, y - h);
      pen_line (pen, x + side * w, y + h);
      pen_close (pen);
    }
  pen_fill_stroke (pen, shut ? HOB_ROLE_INK : HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
}

static void
zig_zag (HobPen *pen, double x1, double y1, double x2, double y2)
{
  double dx = x2 - x1, dy = y2 - y1;

  pen_move (pen, x1, y1);
  for (int k = 1; k < 4; k++)
    {
      double side = k % 2 != 0 ? 0.35 : -0.35;

      pen_line (pen, x1 + dx * k / 4 - dy * side, y1 + dy * k / 4 + dx * side);
    }
  pen_line (pen, x2, y2);
}

void
hob_symbol_spark (HobPen *pen, HobRole casing, double x1, double y1, double x2, double y2)
{
  zig_zag (pen, x1, y1, x2, y2);
  pen_stroke (pen, casing, 4);
  zig_zag (pen, x1, y1, x2, y2);
  pen_stroke (pen, HOB_ROLE_SPARK, HOB_DETAIL);
}

double
hob_symbol_flame_height (double watt, double full_watt, double full)
{
  return full * sqrt (MAX (watt, 0) / full_watt);
}

typedef struct
{
  double w, h;
  double bend;  /* px that its tip is to the right */
  double blunt; /* 0: it has a point … 1: it is round */
} Drop;

/* On the origin, its tip above it. */
static void
draw_drop (HobPen *pen, const Drop *d, HobRole role)
{
  const double w = d->w, h = d->h, tip = d->bend, bent = 0.4 * tip;
  const double shoulder = w * (0.15 + 0.25 * d->blunt), neck = h * (0.6 + 0.4 * d->blunt);

  pen_move (pen, tip, -h);
  pen_curve (pen, shoulder + bent, -neck, w / 2, -h * 0.45, w / 2, -h * 0.2);
  pen_curve (pen, w / 2, 0, -w / 2, 0, -w / 2, -h * 0.2);
  pen_curve (pen, -w / 2, -h * 0.45, bent - shoulder, -neck, tip, -h);
  pen_close (pen);
  pen_fill (pen, role);
}

/* How lazy a flame is that lacks air, from 0 to 1: from the first yellow in its tips on, and
 * wholly where half of it is yellow. */
static double
lazy_by (double yellow)
{
  return sqrt (CLAMP (2 * yellow, 0, 1));
}

/* Steady and blue: a sharp cone in a sharp flame.  Lazy: taller, its cone blunt and short, its tip
 * yellow and swaying.  From half on, yellow down to its foot and without a cone. */
static void
draw_flame (HobPen *pen, const HobSymbolFlame *flame)
{
  const double lazy = lazy_by (flame->yellow), share = 0.9 * sqrt (flame->yellow);
  const double blue = flame->height, h = fmax (blue, fmin (blue * (1 + 0.3 * lazy), flame->most));
  const double w = MAX (h * 0.36, 3), sway = 0.16 * h * lazy * (flame->nth % 2 != 0 ? 1 : -1);

  draw_drop (pen, &(Drop){ w, h, sway, 0 }, HOB_ROLE_FLAME);
  if (flame->yellow > 0)
    {
      pen_push (pen, sway * (1 - share) * (1 - share), -h * (1 - share), 0);
      draw_drop (pen, &(Drop){ w * share, h * share, sway * share, 0 }, HOB_ROLE_FLAME_TIP);
      pen_pop (pen);
    }
  if (lazy < 1)
    draw_drop (pen, &(Drop){ w * 0.5, h * 0.45 * (1 - 0.6 * lazy * lazy), 0, lazy },
               HOB_ROLE_FLAME_CONE);
}

void
hob_symbol_flame (HobPen *pen, double x, double y, const HobSymbolFlame *flame)
{
  if (flame->height < 2)
    return;
  pen_push (pen, x, y, 0);
  pen_spin (pen, atan (flame->lean));
  pen_push (pen, 0, -flame->lift * flame->height * 0.35, 0); /* lifting: a gap below the cone */
  draw_flame (pen, flame);
  pen_pop (pen);
  pen_pop (pen);
}

/* The heat color for the cutaway's dark interior, the same in both themes. */
static const double warm[3] = { 0xf0 / 255.0, 0x95 / 255.0, 0x5a / 255.0 };

void
hob_symbol_warm_air (HobPen *pen, const HobPartView *view, const double *lanes, double foot,
                     double rise, int n)
{
  const double length = 60, period = 3; /* px, s */
  double path = MAX (rise - length, 0);

  for (int k = 0; k < n; k++)
    {
      double x = lanes[k];
      double turn = (view->still ? 0 : view->clock / period) + k * 0.618;
      double y = foot - path * (turn - floor (turn));

      pen_move (pen, x, y);
      pen_curve (pen, x + 8, y - length * 0.33, x - 8, y - length * 0.67, x, y - length);
      pen_tint (pen, warm);
      pen_stroke (pen, HOB_ROLE_HEAT, HOB_OUTLINE);
    }
}

void
hob_symbol_driven_air (HobPen *pen, const HobPartView *view, double a, double b, int n)
{
  const double period = 6, length = 0.32; /* s, rad */
  double turned = view->still ? 0 : 2 * G_PI * view->clock / period;

  for (int k = 0; k < n; k++)
    {
      double from = 2 * G_PI * k / n - turned;

      for (int i = 0; i <= 6; i++)
        {
          double t = from - length * i / 6;

          if (i == 0)
            pen_move (pen, a * cos (t), b * sin (t));
          else
            pen_line (pen, a * cos (t), b * sin (t));
        }
      pen_tint (pen, warm);
      pen_stroke (pen, HOB_ROLE_HEAT, HOB_OUTLINE);
    }
}

/* The gas color for a dark ground, the same in both themes. */
static void
gas_on (HobPen *pen, gboolean on_dark)
{
  static const double light[3] = { 0x5c / 255.0, 0xc4 / 255.0, 0xbc / 255.0 };

  if (on_dark)
    pen_tint (pen, light);
}

void
hob_symbol_escaping (HobPen *pen, double x, double y, double reach, gboolean up,
                     gboolean on_dark)
{
  const double spread = 38 * G_PI / 180;

  for (int k = -1; k <= 1; k++)
    for (int step = 1; step <= 2; step++)
      {
        double angle = k * spread, r = reach * step / 2, half = 3 + step;
        double ux = sin (angle), uy = up ? -cos (angle) : cos (angle);

        pen_move (pen, x + ux * (r - 6) - uy * half, y + uy * (r - 6) + ux * half);
        pen_line (pen, x + ux * r, y + uy * r);
        pen_line (pen, x + ux * (r - 6) + uy * half, y + uy * (r - 6) - ux * half);
      }
  gas_on (pen, on_dark);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_OUTLINE);
}

#define SCALLOP 12.0 /* px, one of them */
#define DOT_PITCH 14.0

/* A row of arcs that bulge to the left of the way from (x1, y1) to (x2, y2). */
static void
scallops (HobPen *pen, double x1, double y1, double x2, double y2)
{
  double length = hypot (x2 - x1, y2 - y1), way = atan2 (y2 - y1, x2 - x1);
  int n = MAX (1, (int) round (length / SCALLOP));
  double r = length / n / 2;

  for (int k = 0; k < n; k++)
    {
      double along = (2 * k + 1) * r / length;
      double cx = x1 + (x2 - x1) * along, cy = y1 + (y2 - y1) * along;

      pen_arc (pen, cx, cy, r, way + G_PI, way + 2 * G_PI);
    }
}

void
hob_symbol_gathered (HobPen *pen, double x, double y, double w, double h, gboolean on_dark)
{
  double in = MIN (SCALLOP / 2, MIN (w, h) / 3);

  if (w < 4 || h < 4)
    return;
  pen_move (pen, x + in, y + in);
  scallops (pen, x + in, y + in, x + w - in, y + in);
  scallops (pen, x + w - in, y + in, x + w - in, y + h - in);
  scallops (pen, x + w - in, y + h - in, x + in, y + h - in);
  scallops (pen, x + in, y + h - in, x + in, y + in);
  pen_close (pen);
  gas_on (pen, on_dark);
  pen_stroke (pen, HOB_ROLE_GAS, HOB_OUTLINE);
  for (double dy = DOT_PITCH / 2; dy < h - in; dy += DOT_PITCH)
    for (double dx = DOT_PITCH / 2; dx < w - in; dx += DOT_PITCH)
      {
        pen_circle (pen, x + dx, y + dy, 1.5);
        gas_on (pen, on_dark);
        pen_fill (pen, HOB_ROLE_GAS);
      }
}
