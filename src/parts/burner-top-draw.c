/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The surface burners in both pictures. */

#include "parts/burner-top.h"
#include "parts/symbol.h"

#define LARGE_BURNER 4400.0 /* W whose flame is drawn at full height */

static HobSymbolFlame
flame_of (const HobPartView *view, double full, double most)
{
  double blue = hob_symbol_flame_height (view->quantity[HOB_TOP_Q_HEAT], LARGE_BURNER, full);

  return (HobSymbolFlame){ .height = fmin (blue, most),
                           .most = most,
                           .yellow = view->quantity[HOB_TOP_Q_YELLOW],
                           .lift = view->quantity[HOB_TOP_Q_LIFT],
                           .lean = view->quantity[HOB_TOP_Q_LEAN] };
}

/* An ellipse of half width a and half height b. */
static void
oval (HobPen *pen, double x, double y, double a, double b)
{
  const double k = 0.5523; /* of the half axes: a circle from four curves */

  pen_move (pen, x - a, y);
  pen_curve (pen, x - a, y - k * b, x - k * a, y - b, x, y - b);
  pen_curve (pen, x + k * a, y - b, x + a, y - k * b, x + a, y);
  pen_curve (pen, x + a, y + k * b, x + k * a, y + b, x, y + b);
  pen_curve (pen, x - k * a, y + b, x - a, y + k * b, x - a, y);
  pen_close (pen);
}

/* From the upper edge of one oval down the sides to the lower edge of the same oval @high below. */
static void
drum (HobPen *pen, double y, double a, double b, double high)
{
  const double k = 0.5523;

  pen_move (pen, -a, y);
  pen_line (pen, -a, y + high);
  pen_curve (pen, -a, y + high + k * b, -k * a, y + high + b, 0, y + high + b);
  pen_curve (pen, k * a, y + high + b, a, y + high + k * b, a, y + high);
  pen_line (pen, a, y);
  pen_curve (pen, a, y - k * b, k * a, y - b, 0, y - b);
  pen_curve (pen, -k * a, y - b, -a, y - k * b, -a, y);
  pen_close (pen);
}

/* Base, head with its ports, and cap, on the cooktop. */
static void
paper_on_cooktop (HobPen *pen)
{
  oval (pen, 0, 24, 52, 15);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  drum (pen, 8, 38, 11, 13);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  for (int k = -3; k <= 3; k++)
    {
      double x = 37 * sin (k * G_PI / 8), y = 11 * cos (k * G_PI / 8);

      pen_segment (pen, x, 12 + y, x, 18 + y);
    }
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  drum (pen, 1, 42, 12, 6);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  oval (pen, 0, 0, 42, 12);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
}

/* A flame at every port that is seen, round the front of the head.  One that leans by more than a
 * third reaches out of the symbol's box, by 18 px at the most. */
static void
flames_on_cooktop (HobPen *pen, const HobPartView *view)
{
  const double full = 40;
  HobSymbolFlame flame = flame_of (view, full, full + 6);

  for (int k = -4; k < -4 + 9 * view->quantity[HOB_TOP_Q_RING]; flame.nth = ++k)
    hob_symbol_flame (pen, 46 * sin (k * G_PI / 8), 12 + 12 * cos (k * G_PI / 8), &flame);
}

/* The open bowl, the head with drilled ports and no cap, and the flash tube, which ends in front
 * of the electrode. */
static void
paper_in_bowl (HobPen *pen)
{
  oval (pen, 0, 22, 56, 17);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  oval (pen, 0, 23, 50, 13);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  pen_move (pen, 30, 22);
  pen_line (pen, 44, 0);
  pen_line (pen, 50, 2);
  pen_line (pen, 38, 24);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  drum (pen, 2, 36, 11, 16);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_CAVITY_INK, HOB_OUTLINE);
  oval (pen, 0, 2, 36, 11);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  oval (pen, 0, 2, 14, 4);
  pen_stroke (pen, HOB_ROLE_CAVITY_INK, HOB_DETAIL);
  for (int k = -3; k <= 3; k++)
    {
      pen_circle (pen, 35 * sin (k * G_PI / 8), 9 + 11 * cos (k * G_PI / 8), 1.5);
      pen_fill (pen, HOB_ROLE_CAVITY_INK);
    }
}

typedef void (*Paper) (HobPen *pen);

static void
draw_cutaway (HobPen *pen, const HobPartView *view, Paper paper)
{
  if (view->layer == HOB_LAYER_PAPER)
    paper (pen);
  else
    flames_on_cooktop (pen, view);
}

/* The flames of three ports behind the window, which ends to their right where they lean. */
static void
flames_in_window (HobPen *pen, const HobPartView *view)
{
  const int n = 3;
  HobSymbolFlame flame = flame_of (view, 30, 30);

  pen_push (pen, 0, 0, 0);
  if (flame.lean > 0)
    pen_hide (pen, 39, -40, 40, 40);
  for (int k = 0; k < n * view->quantity[HOB_TOP_Q_RING]; flame.nth = ++k)
    hob_symbol_flame (pen, 4 + 14 * k, -6, &flame);
  pen_pop (pen);
}

/* Orifice, venturi and head; a dark window above the head for the flame. */
static void
draw_gas (HobPen *pen, const HobPartView *view)
{
  if (view->layer == HOB_LAYER_STATE)
    {
      flames_in_window (pen, view);
      return;
    }
  hob_symbol_tube (pen, -40, -28, 0);
  pen_move (pen, -28, -8); /* the jet */
  pen_line (pen, -16, 0);
  pen_line (pen, -28, 8);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  pen_move (pen, -12, -12); /* the venturi */
  pen_curve (pen, -4, -4, -4, -4, 4, 0);
  pen_move (pen, -12, 12);
  pen_curve (pen, -4, 8, -4, 8, 4, 8);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
  pen_rect (pen, -4, -40, 44, 36);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_DETAIL);
  pen_rect (pen, -4, -4, 44, 18); /* the head */
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
}

/* The disc of the shutter at the mouth of the venturi. */
static void
draw_shutter (HobPen *pen)
{
  pen_segment (pen, -12, -16, -12, -5);
  pen_segment (pen, -12, 5, -12, 16);
  pen_stroke (pen, HOB_ROLE_INK, HOB_OUTLINE);
}

void
hob_burner_top_draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_GAS)
    draw_gas (pen, view);
  else
    draw_cutaway (pen, view, paper_on_cooktop);
}

void
hob_burner_open_draw (HobPen *pen, const HobPartView *view)
{
  if (view->sheet == HOB_SHEET_GAS)
    draw_gas (pen, view);
  else
    draw_cutaway (pen, view, paper_in_bowl);
  if (view->sheet == HOB_SHEET_GAS && view->layer == HOB_LAYER_PAPER)
    draw_shutter (pen);
}
