/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/pen.h"

void
pen_move (HobPen *pen, double x, double y)
{
  if (pen->klass->move != NULL)
    pen->klass->move (pen, x, y);
}

void
pen_line (HobPen *pen, double x, double y)
{
  if (pen->klass->line != NULL)
    pen->klass->line (pen, x, y);
}

void
pen_curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3)
{
  if (pen->klass->curve != NULL)
    pen->klass->curve (pen, x1, y1, x2, y2, x3, y3);
}

void
pen_arc (HobPen *pen, double x, double y, double r, double from, double to)
{
  if (pen->klass->arc != NULL)
    pen->klass->arc (pen, x, y, r, from, to);
}

void
pen_close (HobPen *pen)
{
  if (pen->klass->close != NULL)
    pen->klass->close (pen);
}

void
pen_dash (HobPen *pen, double on, double off)
{
  if (pen->klass->dash != NULL)
    pen->klass->dash (pen, on, off);
}

void
pen_stroke (HobPen *pen, HobRole role, double weight)
{
  if (pen->klass->stroke != NULL)
    pen->klass->stroke (pen, role, weight);
}

void
pen_fill (HobPen *pen, HobRole role)
{
  if (pen->klass->fill != NULL)
    pen->klass->fill (pen, role);
}

void
pen_fill_stroke (HobPen *pen, HobRole fill, HobRole role, double weight)
{
  if (pen->klass->fill_stroke != NULL)
    pen->klass->fill_stroke (pen, fill, role, weight);
}

void
pen_glow (HobPen *pen, double kelvin)
{
  if (pen->klass->glow != NULL)
    pen->klass->glow (pen, kelvin);
}

void
pen_text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
          const char *text)
{
  if (pen->klass->text != NULL)
    pen->klass->text (pen, x, y, size, role, align, text);
}

void
pen_text_within (HobPen *pen, double x, double y, double w, HobTextSize size, HobRole role,
                 const char *text)
{
  if (pen->klass->fits == NULL || pen->klass->fits (pen, size, text, w))
    pen_text (pen, x, y, size, role, HOB_ALIGN_CENTRE, text);
}

void
pen_push (HobPen *pen, double x, double y, int quarter_turns)
{
  if (pen->klass->push != NULL)
    pen->klass->push (pen, x, y, quarter_turns);
}

void
pen_spin (HobPen *pen, double rad)
{
  if (pen->klass->spin != NULL)
    pen->klass->spin (pen, rad);
}

void
pen_hide (HobPen *pen, double x, double y, double w, double h)
{
  if (pen->klass->hide != NULL)
    pen->klass->hide (pen, x, y, w, h);
}

void
pen_keep (HobPen *pen, double x, double y, double r)
{
  if (pen->klass->keep != NULL)
    pen->klass->keep (pen, x, y, r);
}

void
pen_pop (HobPen *pen)
{
  if (pen->klass->pop != NULL)
    pen->klass->pop (pen);
}

void
pen_repeat (HobPen *pen, const HobRepeat *repeat)
{
  if (pen->klass->repeat != NULL)
    pen->klass->repeat (pen, repeat);
}

double
hob_tile_pitch (HobTile tile)
{
  static const double pitch[HOB_N_TILES] = {
    [HOB_TILE_TICK] = 24, [HOB_TILE_TICK_HEAVY] = 24, [HOB_TILE_RAIL] = 14,
    [HOB_TILE_HATCH] = 10, [HOB_TILE_WEDGE] = 32,
  };

  return pitch[tile];
}

void
pen_rect (HobPen *pen, double x, double y, double w, double h)
{
  pen_move (pen, x, y);
  pen_line (pen, x + w, y);
  pen_line (pen, x + w, y + h);
  pen_line (pen, x, y + h);
  pen_close (pen);
}

void
pen_tint (HobPen *pen, const double rgb[3])
{
  if (pen->klass->tint != NULL)
    pen->klass->tint (pen, rgb);
}

/* Starts on the rim: a pen that joins the arc to the point before it would draw a radius else. */
void
pen_circle (HobPen *pen, double x, double y, double r)
{
  pen_move (pen, x + r, y);
  pen_arc (pen, x, y, r, 0.0, 2.0 * G_PI);
  pen_close (pen);
}

void
pen_segment (HobPen *pen, double x1, double y1, double x2, double y2)
{
  pen_move (pen, x1, y1);
  pen_line (pen, x2, y2);
}
