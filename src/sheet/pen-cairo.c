/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The pen that draws: verbs in roles become cairo paths in the theme's colors. */

#include "sheet/pen-cairo.h"
#include "sheet/svg-text.h"
#include "physics/material.h"
#include <math.h>

typedef struct
{
  HobPen pen;
  /*< owned >*/
  /*< borrowed >*/
  cairo_t *cr;
  HobType *type;
  HobTiles *tiles; /* NULL: signs are lines */
  HobLook look;
  double tint[3];
  gboolean tinted;
} CairoPen;

static cairo_t *
cr_of (HobPen *pen)
{
  return ((CairoPen *) pen)->cr;
}

static void
set_role (HobPen *pen, HobRole role)
{
  CairoPen *self = (CairoPen *) pen;
  double rgb[3];

  if (self->tinted)
    {
      cairo_set_source_rgb (self->cr, self->tint[0], self->tint[1], self->tint[2]);
      self->tinted = FALSE;
      return;
    }
  hob_theme_colour (self->look.theme, role, rgb);
  cairo_set_source_rgb (self->cr, rgb[0], rgb[1], rgb[2]);
}

static void
move (HobPen *pen, double x, double y)
{
  cairo_move_to (cr_of (pen), x, y);
}

static void
line (HobPen *pen, double x, double y)
{
  cairo_line_to (cr_of (pen), x, y);
}

static void
curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3)
{
  cairo_curve_to (cr_of (pen), x1, y1, x2, y2, x3, y3);
}

static void
arc (HobPen *pen, double x, double y, double r, double from, double to)
{
  cairo_arc (cr_of (pen), x, y, r, from, to);
}

static void
close_path (HobPen *pen)
{
  cairo_close_path (cr_of (pen));
}

static void
dash (HobPen *pen, double on, double off)
{
  const double pattern[2] = { on, off };

  cairo_set_dash (cr_of (pen), pattern, on > 0 ? 2 : 0, 0);
}

static void
stroke (HobPen *pen, HobRole role, double weight)
{
  cairo_t *cr = cr_of (pen);

  set_role (pen, role);
  cairo_set_line_width (cr, weight);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

static void
fill (HobPen *pen, HobRole role)
{
  set_role (pen, role);
  cairo_fill (cr_of (pen));
}

static void
fill_stroke (HobPen *pen, HobRole fill_role, HobRole role, double weight)
{
  set_role (pen, fill_role);
  cairo_fill_preserve (cr_of (pen));
  stroke (pen, role, weight);
}

static void
glow (HobPen *pen, double kelvin)
{
  cairo_t *cr = cr_of (pen);
  double rgb[3];

  if (!hob_glow_colour (kelvin, rgb))
    {
      cairo_new_path (cr);
      return;
    }
  cairo_set_source_rgb (cr, rgb[0], rgb[1], rgb[2]);
  cairo_fill (cr);
}

/* Undoes the turn of the origin, keeping its place: text stands upright. */
static void
stand_upright (cairo_t *cr)
{
  cairo_matrix_t m;

  cairo_get_matrix (cr, &m);
  cairo_rotate (cr, -atan2 (m.yx, m.xx));
}

static void
text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
      const char *string)
{
  CairoPen *self = (CairoPen *) pen;
  cairo_t *cr = self->cr;
  PangoLayout *layout;
  double width, left;

  if (string == NULL || *string == '\0' || !hob_type_shows (&self->look, size))
    {
      self->tinted = FALSE;
      return;
    }
  layout = hob_type_layout (self->type, size, string);
  width = align == HOB_ALIGN_LEFT ? 0 : hob_type_width (self->type, size, string);
  cairo_save (cr);
  cairo_translate (cr, x, y);
  stand_upright (cr);
  left = hob_text_left (0, width, align);
  set_role (pen, role);
  if (!hob_svg_text_add (cr, layout, left))
    {
      cairo_move_to (cr, left, -(double) pango_layout_get_baseline (layout) / PANGO_SCALE);
      pango_cairo_show_layout (cr, layout);
    }
  cairo_restore (cr);
  cairo_new_path (cr);
}

static gboolean
fits (HobPen *pen, HobTextSize size, const char *string, double w)
{
  return hob_type_width (((CairoPen *) pen)->type, size, string) <= w;
}

static void
push (HobPen *pen, double x, double y, int quarter_turns)
{
  static const cairo_matrix_t turns[4] = {
    { 1, 0, 0, 1, 0, 0 }, { 0, 1, -1, 0, 0, 0 }, { -1, 0, 0, -1, 0, 0 }, { 0, -1, 1, 0, 0, 0 },
  };
  cairo_t *cr = cr_of (pen);

  cairo_save (cr);
  cairo_translate (cr, x, y);
  cairo_transform (cr, &turns[quarter_turns & 3]);
}

static void
spin (HobPen *pen, double rad)
{
  cairo_rotate (cr_of (pen), rad);
}

/* Whole pixels, so that clipping stays cheap. */
static void
hide (HobPen *pen, double x, double y, double w, double h)
{
  cairo_t *cr = cr_of (pen);
  double x1 = x + w, y1 = y + h;
  cairo_matrix_t m;

  cairo_user_to_device (cr, &x, &y);
  cairo_user_to_device (cr, &x1, &y1);
  cairo_get_matrix (cr, &m);
  cairo_identity_matrix (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, -16384, -16384, 32768, 32768);
  /* The other way around. */
  cairo_rectangle (cr, floor (x), ceil (y1), ceil (x1) - floor (x), floor (y) - ceil (y1));
  cairo_clip (cr);
  cairo_set_matrix (cr, &m);
}

static void
keep (HobPen *pen, double x, double y, double r)
{
  cairo_t *cr = cr_of (pen);

  cairo_new_path (cr);
  cairo_arc (cr, x, y, r, 0, 2 * G_PI);
  cairo_clip (cr);
}

static void
repeat (HobPen *pen, const HobRepeat *along)
{
  const CairoPen *self = (const CairoPen *) pen;

  hob_tiles_repeat (self->tiles, self->cr, self->look.theme, along);
}

static void
pop (HobPen *pen)
{
  cairo_restore (cr_of (pen));
}

static void
tint (HobPen *pen, const double rgb[3])
{
  CairoPen *self = (CairoPen *) pen;

  for (int k = 0; k < 3; k++)
    self->tint[k] = rgb[k];
  self->tinted = TRUE;
}

static const HobPenClass klass = {
  .move = move,
  .line = line,
  .curve = curve,
  .arc = arc,
  .close = close_path,
  .dash = dash,
  .stroke = stroke,
  .fill = fill,
  .fill_stroke = fill_stroke,
  .glow = glow,
  .text = text,
  .fits = fits,
  .push = push,
  .spin = spin,
  .hide = hide,
  .keep = keep,
  .repeat = repeat,
  .pop = pop,
  .tint = tint,
};

HobPen *
hob_cairo_pen_new_with (cairo_t *cr, const HobLook *look, HobType *type, HobTiles *tiles)
{
  CairoPen *self = g_new0 (CairoPen, 1);

  self->pen.klass = &klass;
  self->cr = cr;
  self->type = type;
  self->tiles = tiles;
  self->look = *look;
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_new_path (cr);
  return &self->pen;
}

void
hob_cairo_pen_free (HobPen *pen)
{
  g_free ((CairoPen *) pen);
}
