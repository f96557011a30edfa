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
  double w, px, left;
  HobBox box;

  if (string == NULL || *string == '\0' || !hob_type_shows (self->look, size))
    return;
  w = hob_type_width (self->type, size, string);
  px = hob_type_px (self->look, size);
  left = hob_text_left (at.x, w, align);
  box = (HobBox){ left, at.y - 0.8 * px, left + w, at.y + 0.25 * px };
  g_array_append_val (self->boxes, box);
}

static gboolean
fits (HobPen *pen, HobTextSize size, const char *string, double w)
{
  return hob_type_width (((MeasurePen *) pen)->type, size, string) <= w;
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
static const HobPenClass klass = {
  .text = text,
  .fits = fits,
  .push = push,
  .spin = spin,
  .pop = pop,
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
