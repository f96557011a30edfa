/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The body of the range.  A point of a face that looks forward has @far (0: the cut, 1: the far
 * side of the range) and a height. One of the cooktop has @far and a distance from the front. */

#include "sheet/body.h"
#include "parts/symbol.h"
#include <math.h>

#define ABOVE_OVEN 60.0   /* px from the cooktop to the oven */
#define BELOW_OVEN 132.0  /* and from the oven to the floor */
#define DOOR_THICK 44.0
#define BACK_THICK 40.0
#define BEHIND_BURNER 88.0 /* px from the middle of the farthest burner to the far edge */
#define PANEL_HIGH 50.0
#define LIP 8.0           /* the cooktop's edge */
#define GUARD_HIGH 64.0
#define GUARD_THICK 24.0
#define FLOOR_GAP 14.0
#define DOOR_OPEN 200.0   /* px that an open door reaches */
#define KNOB 15.0
#define KNOB_POINTS 20

static gboolean
is_on_cooktop (const HobPart *part)
{
  return (part->kind->flags & HOB_KIND_BURNER) != 0 && part->in < 0;
}

gboolean
hob_body_of (const HobRange *range, HobSheet sheet, HobBody *body)
{
  double farthest = INFINITY;
  gboolean found = FALSE;

  if (sheet != HOB_SHEET_CUTAWAY)
    return FALSE;
  for (int k = 0; k < range->n_parts; k++)
    {
      const HobPart *part = &range->parts[k];

      if (hob_cell_is_interior (part->kind) && !found)
        found = hob_cell_symbol (part, sheet, &body->oven);
      if (is_on_cooktop (part) && part->at[sheet].placed)
        farthest = fmin (farthest, part->at[sheet].y);
    }
  if (!found)
    return FALSE;
  body->front = body->oven.x0 - DOOR_THICK;
  body->back = body->oven.x1 + BACK_THICK;
  body->top = body->oven.y0 - ABOVE_OVEN;
  body->foot = body->oven.y1 + BELOW_OVEN;
  body->across = CLAMP (body->top - farthest + BEHIND_BURNER, 80, 600);
  return TRUE;
}

void
hob_body_bounds (const HobBody *body, HobBox *box)
{
  *box = (HobBox){ body->front - DOOR_OPEN - body->across, body->top - body->across - GUARD_HIGH,
                   body->back, body->foot };
}

gboolean
hob_body_on_cooktop (const HobBody *body, double x, double y)
{
  double up = body->top - y;

  return up >= 0 && up <= body->across && x >= body->front - up && x <= body->back - up;
}

/* ---- Paths ---- */

static HobPoint
at (const HobBody *body, double x, double y, double far)
{
  return (HobPoint){ x - far * body->across, y - far * body->across };
}

static void
polygon (HobPen *pen, const HobPoint *p, int n)
{
  for (int k = 0; k < n; k++)
    if (k == 0)
      pen_move (pen, p[k].x, p[k].y);
    else
      pen_line (pen, p[k].x, p[k].y);
  pen_close (pen);
}

/* A face that looks forward, at x, from @top to @foot, between two distances from the cut. */
static void
face (HobPen *pen, const HobBody *body, double x, double top, double foot, double near, double far)
{
  const HobPoint p[] = { at (body, x, top, near), at (body, x, top, far),
                         at (body, x, foot, far), at (body, x, foot, near) };

  polygon (pen, p, G_N_ELEMENTS (p));
}

/* A level one at height y, from x0 to x1. */
static void
plate (HobPen *pen, const HobBody *body, double x0, double x1, double y, double near, double far)
{
  const HobPoint p[] = { at (body, x0, y, near), at (body, x1, y, near), at (body, x1, y, far),
                         at (body, x0, y, far) };

  polygon (pen, p, G_N_ELEMENTS (p));
}

static void
line_across (HobPen *pen, const HobBody *body, double x, double y, double near, double far)
{
  HobPoint a = at (body, x, y, near), b = at (body, x, y, far);

  pen_segment (pen, a.x, a.y, b.x, b.y);
}

/* ---- Cooktop ---- */

/* A grate: its frame on the cooktop about a burner, and a finger from the middle of each side. */
static void
grate (HobPen *pen, const HobBody *body, double x, double y)
{
  const double half = 108, deep = 46, finger = 36;

  pen_move (pen, x - half + deep, y + deep);
  pen_line (pen, x + half + deep, y + deep);
  pen_line (pen, x + half - deep, y - deep);
  pen_line (pen, x - half - deep, y - deep);
  pen_close (pen);
  pen_segment (pen, x - half, y, x - half + finger, y);
  pen_segment (pen, x + half, y, x + half - finger, y);
  pen_segment (pen, x - deep, y - deep, x - deep + finger / 2, y - deep + finger / 2);
  pen_segment (pen, x + deep, y + deep, x + deep - finger / 2, y + deep - finger / 2);
  pen_stroke (pen, HOB_ROLE_EDGE, HOB_DETAIL);
}

static void
cooktop (const HobStage *stage, const HobBody *body)
{
  HobPen *pen = stage->pen;

  plate (pen, body, body->front, body->back, body->top, 0, 1);
  pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_OUTLINE);
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      const HobPart *part = &stage->range->parts[k];

      if (is_on_cooktop (part) && part->at[stage->sheet].placed)
        grate (pen, body, part->at[stage->sheet].x, part->at[stage->sheet].y);
    }
  pen_rect (pen, body->front, body->top, body->back - body->front, LIP);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_DETAIL);
}

/* ---- Knobs ---- */

static gboolean
is_knob (const HobControlDef *control)
{
  return (control->role == HOB_CONTROL_KNOB || control->role == HOB_CONTROL_SELECTOR
          || control->role == HOB_CONTROL_DIAL)
         && control->front != HOB_FRONT_NONE;
}

static gboolean
has_role (const HobRange *range, HobControlRole role)
{
  for (int k = 0; k < range->n_parts; k++)
    for (int c = 0; c < range->parts[k].kind->n_controls; c++)
      if (range->parts[k].kind->controls[c].role == role)
        return TRUE;
  return FALSE;
}

typedef void (*EachKnob) (const HobStage *stage, HobPoint center, int part, int control);

/* From the left of the range to its right, in the file's order. */
static void
each_knob (const HobStage *stage, const HobBody *body, EachKnob each)
{
  const HobRange *range = stage->range;
  int n = 0, done = 0;

  for (int k = 0; k < range->n_parts; k++)
    for (int c = 0; c < range->parts[k].kind->n_controls; c++)
      n += is_knob (&range->parts[k].kind->controls[c]);
  for (int k = 0; k < range->n_parts; k++)
    for (int c = 0; c < range->parts[k].kind->n_controls; c++)
      if (is_knob (&range->parts[k].kind->controls[c]))
        {
          double far = 1 - (done++ + 0.5) / n;

          each (stage, at (body, body->front, body->top + LIP + PANEL_HIGH / 2, far), k, c);
        }
}

/* A circle on the front, seen at half its width along 45°. */
static HobPoint
on_knob (HobPoint center, double r, double angle)
{
  double right = r * sin (angle) * M_SQRT1_2;

  return (HobPoint){ center.x + right * 0.75, center.y + right * 0.75 - r * cos (angle) };
}

static void
disc (HobPen *pen, HobPoint center, double r)
{
  HobPoint p[KNOB_POINTS];

  for (int k = 0; k < KNOB_POINTS; k++)
    p[k] = on_knob (center, r, 2 * G_PI * k / KNOB_POINTS);
  polygon (pen, p, KNOB_POINTS);
}

static void
paper_knob (const HobStage *stage, HobPoint center, int part, int control)
{
  disc (stage->pen, center, KNOB);
  pen_fill_stroke (stage->pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_DETAIL);
  disc (stage->pen, (HobPoint){ center.x - 5, center.y }, KNOB);
  pen_fill_stroke (stage->pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_DETAIL);
}

/* OFF is up; from there it turns to the left, as the stem does. */
static void
state_knob (const HobStage *stage, HobPoint center, int part, int control)
{
  const HobControlDef *def = &stage->range->parts[part].kind->controls[control];
  double turned = (stage->scene->parts[part].view.ctl[control] - def->low)
                  / fmax (def->high - def->low, 1e-9);
  HobPoint middle = { center.x - 5, center.y };
  HobPoint tip = on_knob (middle, KNOB - 3, -1.5 * G_PI * turned),
           tail = on_knob (middle, 2, -1.5 * G_PI * turned);

  pen_segment (stage->pen, tail.x, tail.y, tip.x, tip.y);
  pen_stroke (stage->pen, HOB_ROLE_INK, 2.5);
}

/* ---- Backguard, front and drawer ---- */

/* With a display where the oven has keys, else plain and with the vent's slots. */
static void
backguard (const HobStage *stage, const HobBody *body)
{
  HobPen *pen = stage->pen;
  const double x = body->back - GUARD_THICK, high = body->top - GUARD_HIGH;

  plate (pen, body, x, body->back, high, 0, 1);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_DETAIL);
  face (pen, body, x, high, body->top, 0, 1);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_rect (pen, x, high, GUARD_THICK, GUARD_HIGH);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_OUTLINE);
  if (has_role (stage->range, HOB_CONTROL_KEYS))
    {
      face (pen, body, x, high + 14, body->top - 20, 0.36, 0.64);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_DETAIL);
      for (int k = 0; k < 4; k++)
        {
          face (pen, body, x, high + 22, body->top - 28, 0.12 + 0.05 * k, 0.15 + 0.05 * k);
          face (pen, body, x, high + 22, body->top - 28, 0.70 + 0.05 * k, 0.73 + 0.05 * k);
        }
      pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
      return;
    }
  for (int k = 0; k < 8; k++)
    line_across (pen, body, x, body->top - 16, 0.16 + 0.09 * k, 0.22 + 0.09 * k);
  pen_stroke (pen, HOB_ROLE_INK, HOB_DETAIL);
}

static double
drawer_top (const HobBody *body)
{
  return body->oven.y1 + 52;
}

static double
drawer_foot (const HobBody *body)
{
  return body->foot - FLOOR_GAP;
}

static void
front (const HobStage *stage, const HobBody *body)
{
  HobPen *pen = stage->pen;

  face (pen, body, body->front, body->top, body->foot - FLOOR_GAP, 0, 1);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_OUTLINE);
  face (pen, body, body->front, body->top + LIP, body->top + LIP + PANEL_HIGH, 0, 1);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  face (pen, body, body->front, drawer_top (body), drawer_foot (body), 0, 1);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  line_across (pen, body, body->front - 5, drawer_top (body) + 20, 0.3, 0.7);
  pen_stroke (pen, HOB_ROLE_INK, 4);
  each_knob (stage, body, paper_knob);
}

/* The cut: insulated walls, the empty drawer, the feet. */
static void
cut (const HobStage *stage, const HobBody *body)
{
  HobPen *pen = stage->pen;
  const double top = body->top + LIP, left = body->front;

  pen_rect (pen, left, top, body->back - left, body->foot - FLOOR_GAP - top);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_OUTLINE);
  pen_rect (pen, left + 10, top + 2, body->back - left - 20, 24);
  pen_fill_stroke (pen, HOB_ROLE_SHEET, HOB_ROLE_INK, HOB_DETAIL);
  pen_rect (pen, left + 10, drawer_top (body), body->back - left - 30,
            drawer_foot (body) - drawer_top (body) - 6);
  pen_fill_stroke (pen, HOB_ROLE_SHEET, HOB_ROLE_INK, HOB_DETAIL);
  pen_rect (pen, left - 6, drawer_top (body), 16, drawer_foot (body) - drawer_top (body));
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_DETAIL);
  for (int k = 0; k < 2; k++)
    pen_rect (pen, k == 0 ? left + 24 : body->back - 54, body->foot - FLOOR_GAP, 30, FLOOR_GAP);
  pen_fill_stroke (pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_DETAIL);
}

/* From the oven's roof, at the back, up into the backguard. */
static void
vent (const HobStage *stage, const HobBody *body)
{
  HobPen *pen = stage->pen;
  const double right = body->oven.x1 - 12, left = right - 34, shift = body->back - 20 - right;

  pen_move (pen, left, body->oven.y0 + 2);
  pen_line (pen, left, body->oven.y0 - 8);
  pen_line (pen, left + shift, body->top - 4);
  pen_line (pen, left + shift, body->top - GUARD_HIGH + 18);
  pen_line (pen, right + shift, body->top - GUARD_HIGH + 18);
  pen_line (pen, right + shift, body->top);
  pen_line (pen, right, body->oven.y0 - 4);
  pen_line (pen, right, body->oven.y0 + 2);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_SHEET, HOB_ROLE_INK, HOB_DETAIL);
}

void
hob_body_paper (const HobStage *stage, const HobBody *body)
{
  backguard (stage, body);
  cooktop (stage, body);
  front (stage, body);
  cut (stage, body);
  vent (stage, body);
}

/* ---- What moves ---- */

static gboolean
open_door (const HobStage *stage)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    for (int c = 0; c < stage->range->parts[k].kind->n_controls; c++)
      if (stage->range->parts[k].kind->controls[c].front == HOB_FRONT_DOOR)
        return stage->scene->parts[k].view.ctl[c] > 0;
  return FALSE;
}

void
hob_body_state (const HobStage *stage, const HobBody *body)
{
  HobPen *pen = stage->pen;
  const double top = body->top + LIP + PANEL_HIGH + 2, foot = body->oven.y1;

  if (open_door (stage))
    {
      face (pen, body, body->front, top, foot, 0, 0.96);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_OUTLINE);
      plate (pen, body, body->front - DOOR_OPEN, body->front, foot - 8, 0, 1);
      pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
      plate (pen, body, body->front - DOOR_OPEN + 60, body->front - 60, foot - 8, 0.2, 0.8);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_DETAIL);
    }
  else
    {
      face (pen, body, body->front, top, foot, 0, 1);
      pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, HOB_OUTLINE);
      face (pen, body, body->front, top + 84, foot - 76, 0.2, 0.8);
      pen_fill_stroke (pen, HOB_ROLE_CAVITY, HOB_ROLE_INK, HOB_DETAIL);
      line_across (pen, body, body->front - 8, top + 40, 0.1, 0.9);
      pen_stroke (pen, HOB_ROLE_INK, 5);
    }
  each_knob (stage, body, state_knob);
}
