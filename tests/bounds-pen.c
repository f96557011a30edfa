/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bounds-pen.h"

static HobPlacement *
here (HobPen *pen)
{
  BoundsPen *self = (BoundsPen *) pen;

  return &g_array_index (self->origins, HobPlacement, self->origins->len - 1);
}

static HobPoint
turned (const HobPlacement *at, double x, double y)
{
  switch (at->turn & 3)
    {
    case 1: return (HobPoint){ at->x - y, at->y + x };
    case 2: return (HobPoint){ at->x - x, at->y - y };
    case 3: return (HobPoint){ at->x + y, at->y - x };
    default: return (HobPoint){ at->x + x, at->y + y };
    }
}

static void
point (HobPen *pen, double x, double y)
{
  ((BoundsPen *) pen)->lines++;
}

static void
curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3)
{
  ((BoundsPen *) pen)->rounds++;
}

static void
arc (HobPen *pen, double x, double y, double r, double from, double to)
{
  ((BoundsPen *) pen)->rounds++;
}

static void
close_path (HobPen *pen)
{
}

static void
stroke (HobPen *pen, HobRole role, double weight)
{
}

static void
fill (HobPen *pen, HobRole role)
{
}

static void
fill_stroke (HobPen *pen, HobRole fill_role, HobRole role, double weight)
{
}

static void
glow (HobPen *pen, double kelvin)
{
}

static void
tint (HobPen *pen, const double rgb[3])
{
}

/* The ink's own box, as the drawing pen would set it. */
static void
text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
      const char *string)
{
  BoundsPen *self = (BoundsPen *) pen;
  BoundsText one = { .text = g_strdup (string) };
  HobPoint at = turned (here (pen), x, y);
  PangoRectangle ink, logical;
  PangoLayout *layout;
  double left, top;

  if (string == NULL || *string == '\0' || !hob_type_shows (self->look, size))
    {
      g_free (one.text);
      return;
    }
  layout = hob_type_layout (self->type, size, string);
  pango_layout_get_extents (layout, &ink, &logical);
  left = at.x
         - (align == HOB_ALIGN_LEFT    ? 0
            : align == HOB_ALIGN_RIGHT ? 1.0
                                       : 0.5)
               * logical.width / (double) PANGO_SCALE;
  top = at.y - (double) pango_layout_get_baseline (layout) / PANGO_SCALE;
  one.box.x0 = left + (double) ink.x / PANGO_SCALE;
  one.box.y0 = top + (double) ink.y / PANGO_SCALE;
  one.box.x1 = one.box.x0 + (double) ink.width / PANGO_SCALE;
  one.box.y1 = one.box.y0 + (double) ink.height / PANGO_SCALE;
  g_array_append_val (self->texts, one);
}

static void
push (HobPen *pen, double x, double y, int quarter_turns)
{
  HobPoint at = turned (here (pen), x, y);
  HobPlacement next = { TRUE, at.x, at.y, (here (pen)->turn + quarter_turns) & 3 };

  g_array_append_val (((BoundsPen *) pen)->origins, next);
}

static void
pop (HobPen *pen)
{
  GArray *origins = ((BoundsPen *) pen)->origins;

  g_array_set_size (origins, origins->len - 1);
}

static const HobPenClass klass = {
  .move = point,
  .line = point,
  .curve = curve,
  .arc = arc,
  .close = close_path,
  .dash = point,
  .stroke = stroke,
  .fill = fill,
  .fill_stroke = fill_stroke,
  .glow = glow,
  .text = text,
  .push = push,
  .pop = pop,
  .tint = tint,
};

static void
clear_text (gpointer data)
{
  g_free (((BoundsText *) data)->text);
}

BoundsPen *
bounds_pen_new (HobType *type, const HobLook *look)
{
  BoundsPen *self = g_new0 (BoundsPen, 1);
  HobPlacement zero = { TRUE, 0, 0, 0 };

  self->pen.klass = &klass;
  self->type = type;
  self->look = look;
  self->texts = g_array_new (FALSE, FALSE, sizeof (BoundsText));
  g_array_set_clear_func (self->texts, clear_text);
  self->origins = g_array_new (FALSE, FALSE, sizeof (HobPlacement));
  g_array_append_val (self->origins, zero);
  return self;
}

void
bounds_pen_free (BoundsPen *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->texts);
  g_array_unref (self->origins);
  g_free (self);
}
