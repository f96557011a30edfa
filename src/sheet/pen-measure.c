/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/pen-measure.h"
#include "sheet/origins.h"
#include <math.h>

typedef struct
{
  HobPen pen;
  /*< borrowed >*/
  HobType *type;
  const HobLook *look;
  /*< owned >*/
  GArray *origins; /* HobOrigin */
  GArray *boxes;   /* HobBox */
} MeasurePen;

static void
text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
      const char *string)
{
  MeasurePen *self = (MeasurePen *) pen;
  HobPoint at = hob_origins_place (self->origins, x, y);
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
  hob_origins_push (((MeasurePen *) pen)->origins, x, y, quarter_turns);
}

static void
spin (HobPen *pen, double rad)
{
  hob_origins_here (((MeasurePen *) pen)->origins)->angle += rad;
}

static void
pop (HobPen *pen)
{
  hob_origins_pop (((MeasurePen *) pen)->origins);
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

  self->pen.klass = &klass;
  self->type = type;
  self->look = look;
  self->origins = hob_origins_new ();
  self->boxes = g_array_new (FALSE, FALSE, sizeof (HobBox));
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
