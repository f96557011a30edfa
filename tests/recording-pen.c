/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "recording-pen.h"
#include "sheet/origins.h"
#include "sheet/stage.h"
#include <math.h>

static const char *const role_names[HOB_N_ROLES] = {
  [HOB_ROLE_SHEET] = "SHEET",     [HOB_ROLE_PANEL] = "PANEL",
  [HOB_ROLE_INK] = "INK",         [HOB_ROLE_INK2] = "INK2",
  [HOB_ROLE_EDGE] = "EDGE",       [HOB_ROLE_RULE] = "RULE",
  [HOB_ROLE_GAS] = "GAS",         [HOB_ROLE_HEAT] = "HEAT",
  [HOB_ROLE_RING] = "RING",       [HOB_ROLE_PENCIL] = "PENCIL",
  [HOB_ROLE_CAUTION] = "CAUTION", [HOB_ROLE_TAG] = "TAG",
  [HOB_ROLE_TAG_INK] = "TAG-INK", [HOB_ROLE_CAVITY] = "CAVITY",
  [HOB_ROLE_CAVITY_INK] = "CAVITY-INK", [HOB_ROLE_SPARK] = "SPARK",
  [HOB_ROLE_FLAME] = "FLAME",     [HOB_ROLE_FLAME_CONE] = "FLAME-CONE",
  [HOB_ROLE_FLAME_TIP] = "FLAME-TIP", [HOB_ROLE_METAL] = "METAL",
};
static const char *const size_names[]
    = { "title", "figure", "name", "body", "small", "meter" };
static const char *const align_names[] = { "left", "center", "right" };
static const char *const tile_names[HOB_N_TILES]
    = { "ticks", "heavy-ticks", "rail", "hatch", "wedges" };

static RecordingPen *
self_of (HobPen *pen)
{
  return (RecordingPen *) pen;
}

static HobPoint
placed (HobPen *pen, double x, double y)
{
  return hob_origins_place (self_of (pen)->origins, x, y);
}

/* To a tenth of a px, and no minus before zero. */
static double
tenth (double v)
{
  double r = round (v * 10) / 10;

  return r == 0 ? 0 : r;
}

static void
add_point (HobPen *pen, const char *verb, double x, double y)
{
  RecordingPen *self = self_of (pen);
  HobPoint p = placed (pen, x, y);

  if (self->path->len == 0)
    self->path_box = (HobBox){ p.x, p.y, p.x, p.y };
  self->path_box = (HobBox){ fmin (self->path_box.x0, p.x), fmin (self->path_box.y0, p.y),
                             fmax (self->path_box.x1, p.x), fmax (self->path_box.y1, p.y) };
  if (*verb == 'L')
    {
      RecordedPiece piece = { self->last, p };

      g_array_append_val (self->pieces, piece);
    }
  self->last = p;
  g_string_append_printf (self->path, "%s%g,%g ", verb, tenth (p.x), tenth (p.y));
}

static void paint (HobPen *pen, const char *format, ...) G_GNUC_PRINTF (2, 3);

static void
paint (HobPen *pen, const char *format, ...)
{
  RecordingPen *self = self_of (pen);
  g_autofree char *how = NULL;
  va_list args;

  va_start (args, format);
  how = g_strdup_vprintf (format, args);
  va_end (args);
  if (self->path->len > 0)
    g_string_append_printf (self->strokes, "%s: %s\n", how, g_strchomp (self->path->str));
  g_string_truncate (self->path, 0);
  g_array_set_size (self->pieces, 0);
}

static void
move (HobPen *pen, double x, double y)
{
  self_of (pen)->lines++;
  add_point (pen, "M", x, y);
}

static void
line (HobPen *pen, double x, double y)
{
  self_of (pen)->lines++;
  add_point (pen, "L", x, y);
}

static void
curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3)
{
  self_of (pen)->rounds++;
  add_point (pen, "C", x1, y1);
  add_point (pen, "", x2, y2);
  add_point (pen, "", x3, y3);
}

static void
arc (HobPen *pen, double x, double y, double r, double from, double to)
{
  self_of (pen)->rounds++;
  add_point (pen, "A", x, y);
  g_string_append_printf (self_of (pen)->path, "r%g:%.0f..%.0f ", tenth (r), from * 180 / G_PI,
                          to * 180 / G_PI);
}

static void
close_path (HobPen *pen)
{
  g_string_append (self_of (pen)->path, "Z ");
}

static void
dash (HobPen *pen, double on, double off)
{
  if (on > 0)
    g_string_append_printf (self_of (pen)->path, "dash %g/%g ", on, off);
}

static void
stroke (HobPen *pen, HobRole role, double weight)
{
  RecordingPen *self = self_of (pen);

  if (role == HOB_ROLE_RING)
    g_array_append_vals (self->rings, self->pieces->data, self->pieces->len);
  paint (pen, "stroke %s %g", role_names[role], tenth (weight));
}

static void
fill (HobPen *pen, HobRole role)
{
  paint (pen, "fill %s", role_names[role]);
}

static void
fill_stroke (HobPen *pen, HobRole fill_role, HobRole role, double weight)
{
  if (fill_role == HOB_ROLE_TAG)
    g_array_append_val (self_of (pen)->tags, self_of (pen)->path_box);
  paint (pen, "fill %s stroke %s %g", role_names[fill_role], role_names[role], tenth (weight));
}

static void
glow (HobPen *pen, double kelvin)
{
  paint (pen, "glow %.0f K", kelvin);
}

static void
tint (HobPen *pen, const double rgb[3])
{
  g_string_append_printf (self_of (pen)->path, "tint %02X%02X%02X ", (int) (rgb[0] * 255 + 0.5),
                          (int) (rgb[1] * 255 + 0.5), (int) (rgb[2] * 255 + 0.5));
}

/* The ink's own box, as the drawing pen would set it. */
static HobBox
ink_of (RecordingPen *self, HobPoint at, HobTextSize size, HobAlign align, const char *string)
{
  PangoLayout *layout = hob_type_layout (self->type, size, string);
  PangoRectangle ink, logical;
  double share = align == HOB_ALIGN_LEFT ? 0 : align == HOB_ALIGN_RIGHT ? 1.0 : 0.5, left, top;

  pango_layout_get_extents (layout, &ink, &logical);
  left = at.x - share * logical.width / (double) PANGO_SCALE + (double) ink.x / PANGO_SCALE;
  top = at.y + (double) (ink.y - pango_layout_get_baseline (layout)) / PANGO_SCALE;
  return (HobBox){ left, top, left + (double) ink.width / PANGO_SCALE,
                   top + (double) ink.height / PANGO_SCALE };
}

static void
text (HobPen *pen, double x, double y, HobTextSize size, HobRole role, HobAlign align,
      const char *string)
{
  RecordingPen *self = self_of (pen);
  HobPoint at = placed (pen, x, y);
  RecordedText one;

  if (string == NULL || *string == '\0' || !hob_type_shows (self->look, size))
    return;
  one = (RecordedText){ ink_of (self, at, size, align, string), g_strdup (string),
                        fabs (remainder (hob_origins_here (self->origins)->angle, G_PI_2)) > 1e-3 };
  g_array_append_val (self->texts, one);
  g_string_append_printf (self->strokes, "text %s %s %s %g,%g: %s\n", size_names[size],
                          role_names[role], align_names[align], tenth (at.x), tenth (at.y),
                          string);
}

static void
push (HobPen *pen, double x, double y, int quarter_turns)
{
  hob_origins_push (self_of (pen)->origins, x, y, quarter_turns);
}

static void
spin (HobPen *pen, double rad)
{
  hob_origins_here (self_of (pen)->origins)->angle += rad;
}

static void
hide (HobPen *pen, double x, double y, double w, double h)
{
  HobPoint at = placed (pen, x, y);

  g_string_append_printf (self_of (pen)->strokes, "hide %g,%g %g x %g\n", tenth (at.x),
                          tenth (at.y), tenth (w), tenth (h));
}

static void
keep (HobPen *pen, double x, double y, double r)
{
  HobPoint at = placed (pen, x, y);

  g_string_append_printf (self_of (pen)->strokes, "keep %g,%g r%g\n", tenth (at.x), tenth (at.y),
                          tenth (r));
}

static void
pop (HobPen *pen)
{
  hob_origins_pop (self_of (pen)->origins);
}

static void
repeat (HobPen *pen, const HobRepeat *r)
{
  HobPoint a = placed (pen, r->x0, r->y0), b = placed (pen, r->x1, r->y1);

  g_string_append_printf (self_of (pen)->strokes, "%s x%d turn %d first %g: %g,%g to %g,%g\n",
                          tile_names[r->tile], r->n, r->quarter & 3, tenth (r->first),
                          tenth (a.x), tenth (a.y), tenth (b.x), tenth (b.y));
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
  .push = push,
  .spin = spin,
  .hide = hide,
  .keep = keep,
  .pop = pop,
  .repeat = repeat,
  .tint = tint,
};

static void
clear_text (gpointer data)
{
  g_free (((RecordedText *) data)->text);
}

RecordingPen *
recording_pen_new (HobType *type, const HobLook *look)
{
  RecordingPen *self = g_new0 (RecordingPen, 1);

  self->pen.klass = &klass;
  self->type = type;
  self->look = look;
  self->texts = g_array_new (FALSE, FALSE, sizeof (RecordedText));
  g_array_set_clear_func (self->texts, clear_text);
  self->origins = hob_origins_new ();
  self->tags = g_array_new (FALSE, FALSE, sizeof (HobBox));
  self->rings = g_array_new (FALSE, FALSE, sizeof (RecordedPiece));
  self->pieces = g_array_new (FALSE, FALSE, sizeof (RecordedPiece));
  self->path = g_string_new (NULL);
  self->strokes = g_string_new (NULL);
  return self;
}

void
recording_pen_free (RecordingPen *self)
{
  if (self == NULL)
    return;
  g_array_unref (self->texts);
  g_array_unref (self->origins);
  g_array_unref (self->tags);
  g_array_unref (self->rings);
  g_array_unref (self->pieces);
  g_string_free (self->path, TRUE);
  g_string_free (self->strokes, TRUE);
  g_free (self);
}

void
recorded_on (RecordingPen *pen, const HobScene *scene, HobSheet sheet, gboolean paper)
{
  g_autoptr (HobRoutes) routes = hob_routes_new (scene->range, sheet);
  g_autoptr (GArray) plates = sheet == HOB_SHEET_WIRING
                                  ? hob_wiring_plates (scene->range, routes, pen->type, pen->look)
                                  : NULL;
  HobStage stage = { .pen = &pen->pen,
                     .type = pen->type,
                     .look = pen->look,
                     .range = scene->range,
                     .sheet = sheet,
                     .routes = routes,
                     .plates = plates };

  if (paper)
    hob_stage_paper (&stage);
  stage.scene = scene;
  hob_stage_state (&stage);
}

char *
recorded_still (const HobScene *scene, HobSheet sheet, const HobLook *look, gboolean paper)
{
  g_autoptr (HobType) type = hob_type_new (look);
  g_autoptr (RecordingPen) pen = recording_pen_new (type, look);

  recorded_on (pen, scene, sheet, paper);
  return g_strdup (pen->strokes->str);
}

guint
recorded_count (const char *strokes, const char *word)
{
  guint n = 0;

  for (const char *p = strokes; (p = strstr (p, word)) != NULL; p++)
    n++;
  return n;
}
