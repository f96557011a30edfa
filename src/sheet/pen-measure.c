/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/pen-measure.h"
#include <math.h>

typedef struct
{
  double x, y, angle;
} Origin;

typedef struct
{
  HobPen pen;
  /*< borrowed >*/
  HobType *type;
  const HobLook *look;
  /*< owned >*/
  GArray *origins; /* Origin */
  GArray *boxes;   /* HobBox */
} MeasurePen;

static Origin *
here (HobPen *pen)
{
  MeasurePen *self = (MeasurePen *) pen;

  return &g_array_index (self->origins, Origin, self->origins->len - 1);
}

static HobPoint
placed (HobPen *pen, double x, double y)
{
  const Origin *o = here (pen);
  double c = cos (o->angle), s = sin (o->angle);

  return (HobPoint){ o->x + c * x - s * y, o->y + s * x + c * y };
}

static void
text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
      const char *string)
{
  MeasurePen *self = (MeasurePen *) pen;
  HobPoint at = placed (pen, x, y);
  double share = align == HOB_ALIGN_LEFT ? 0 : align == HOB_ALIGN_RIGHT ? 1 : 0.5, w, px;
  HobBox box;

  if (string == NULL || *string == '\0' || !hob_type_shows (self->look, size))
    return;
  w = hob_type_width (self->type, size, string);
  px = hob_type_px (self->look, size);
  box = (HobBox){ at.x - share * w, at.y - 0.8 * px, at.x + (1 - share) * w, at.y + 0.25 * px };
  g_array_append_val (self->boxes, box);
}

static void
push (HobPen *pen, double x, double y, int quarter_turns)
{
  HobPoint at = placed (pen, x, y);
  Origin next = { at.x, at.y, here (pen)->angle + quarter_turns * G_PI_2 };

  g_array_append_val (((MeasurePen *) pen)->origins, next);
}

static void
spin (HobPen *pen, double rad)
{
  here (pen)->angle += rad;
}

static void
pop (HobPen *pen)
{
  GArray *origins = ((MeasurePen *) pen)->origins;

  g_array_set_size (origins, origins->len - 1);
}

/* Nothing else takes room. */
static void
point (HobPen *pen, double x, double y)
{
}

static void
curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3)
{
}

static void
arc (HobPen *pen, double x, double y, double r, double from, double to)
{
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
fill_stroke (HobPen *pen, HobRole inside, HobRole role, double weight)
{
}

static void
glow (HobPen *pen, double kelvin)
{
}

static void
hide (HobPen *pen, double x, double y, double w, double h)
{
}

static void
keep (HobPen *pen, double x, double y, double r)
{
}

static void
repeat (HobPen *pen, const HobRepeat *along)
{
}

static void
tint (HobPen *pen, const double rgb[3])
{
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
  .spin = spin,
  .hide = hide,
  .keep = keep,
  .pop = pop,
  .repeat = repeat,
  .tint = tint,
};

HobPen *
hob_measure_pen_new (HobType *type, const HobLook *look)
{
  MeasurePen *self = g_new0 (MeasurePen, 1);
  Origin zero = { 0 };

  self->pen.klass = &klass;
  self->type = type;
  self->look = look;
  self->origins = g_array_new (FALSE, FALSE, sizeof (Origin));
  self->boxes = g_array_new (FALSE, FALSE, sizeof (HobBox));
  g_array_append_val (self->origins, zero);
  return &self->pen;
}

GArray *
hob_measure_pen_finish (HobPen *pen)
{
  MeasurePen *self = (MeasurePen *) pen;
  GArray *boxes = self->boxes;

  g_array_unref (self->origins);
  g_free (self);
  return boxes;
}
