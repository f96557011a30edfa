/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The lens draws the same symbols through a pen that enlarges whatever it is told to draw. */

#include "sheet/lens.h"
#include "sheet/caption.h"
#include "sheet/signs.h"
#include "parts/symbol.h"
#include <math.h>
#include <string.h>

#define RADIUS 90.0
#define CLOSE 2.6    /* times as large, where the part meets the burner */
#define CLOSE_DOWN 14.0 /* px: the tip, the ceramic and the lead below it, the edge of the cap */
#define MOST 6.0
#define LEAST 1.3    /* a part that would gain less has no lens */
#define FILLS 0.9    /* of the lens, by a part that is shown whole */
#define CAPTION 22.0 /* px below it, at least */
#define OFF 8.0      /* px from its edge, and from the sheet's, to letters */
#define ASCENT 0.79  /* em */
#define LINES 3.7    /* em below the first baseline: a name's second line, and a word */
#define WIDEST (2 * RADIUS + 16) /* px: a longer name has two lines */

/* ---- The pen ---- */

typedef struct
{
  HobPen pen;
  HobPen *under; /* borrowed */
  double scale;
} LensPen;

static double
scale_of (HobPen *pen)
{
  return ((LensPen *) pen)->scale;
}

static HobPen *
under (HobPen *pen)
{
  return ((LensPen *) pen)->under;
}

/* Lines grow less than what they are the outline of. */
static double
heavier (HobPen *pen, double weight)
{
  return weight * sqrt (scale_of (pen));
}

static void
move (HobPen *pen, double x, double y)
{
  pen_move (under (pen), x * scale_of (pen), y * scale_of (pen));
}

static void
line (HobPen *pen, double x, double y)
{
  pen_line (under (pen), x * scale_of (pen), y * scale_of (pen));
}

static void
curve (HobPen *pen, double x1, double y1, double x2, double y2, double x3, double y3)
{
  double k = scale_of (pen);

  pen_curve (under (pen), x1 * k, y1 * k, x2 * k, y2 * k, x3 * k, y3 * k);
}

static void
arc (HobPen *pen, double x, double y, double r, double from, double to)
{
  double k = scale_of (pen);

  pen_arc (under (pen), x * k, y * k, r * k, from, to);
}

static void
close_path (HobPen *pen)
{
  pen_close (under (pen));
}

static void
dash (HobPen *pen, double on, double off)
{
  pen_dash (under (pen), on * scale_of (pen), off * scale_of (pen));
}

static void
stroke (HobPen *pen, HobRole role, double weight)
{
  pen_stroke (under (pen), role, heavier (pen, weight));
}

static void
fill (HobPen *pen, HobRole role)
{
  pen_fill (under (pen), role);
}

static void
fill_stroke (HobPen *pen, HobRole inside, HobRole role, double weight)
{
  pen_fill_stroke (under (pen), inside, role, heavier (pen, weight));
}

static void
glow (HobPen *pen, double kelvin)
{
  pen_glow (under (pen), kelvin);
}

static void
push (HobPen *pen, double x, double y, int quarter_turns)
{
  pen_push (under (pen), x * scale_of (pen), y * scale_of (pen), quarter_turns);
}

static void
spin (HobPen *pen, double rad)
{
  pen_spin (under (pen), rad);
}

static void
hide (HobPen *pen, double x, double y, double w, double h)
{
  double k = scale_of (pen);

  pen_hide (under (pen), x * k, y * k, w * k, h * k);
}

static void
keep (HobPen *pen, double x, double y, double r)
{
  pen_keep (under (pen), x * scale_of (pen), y * scale_of (pen), r * scale_of (pen));
}

static void
pop (HobPen *pen)
{
  pen_pop (under (pen));
}

static void
tint (HobPen *pen, const double rgb[3])
{
  pen_tint (under (pen), rgb);
}

/* Letters and what flows are read on the sheet itself. */
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
  .push = push,
  .spin = spin,
  .hide = hide,
  .keep = keep,
  .pop = pop,
  .tint = tint,
};

/* ---- What it shows ---- */

typedef struct
{
  double x, y; /* on the sheet, in the middle of the lens */
  double scale;
} Focus;

/* A part on a burner is shown where it meets the burner, any other one whole. */
static gboolean
focus_on (const HobStage *stage, int part, Focus *focus)
{
  const HobPart *p = &stage->range->parts[part];
  HobBox box, burner;

  if (hob_cell_is_interior (p->kind) || !hob_cell_symbol (p, stage->sheet, &box))
    return FALSE;
  *focus = (Focus){ (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2,
                    2 * RADIUS * FILLS / hypot (box.x1 - box.x0, box.y1 - box.y0) };
  if (hob_cell_is_attached (stage->range, part, stage->sheet)
      && hob_cell_symbol (&stage->range->parts[p->in], stage->sheet, &burner))
    {
      focus->x = (box.x0 + box.x1 + burner.x1) / 3;
      focus->y += CLOSE_DOWN;
      focus->scale = CLOSE;
    }
  focus->scale = fmin (focus->scale, MOST);
  return focus->scale >= LEAST;
}

/* The chosen part, else the first that is ringed; −1: none. */
static int
looks_at (const HobStage *stage, Focus *focus)
{
  int chosen = stage->scene->chosen_part;

  if (chosen >= 0 && focus_on (stage, chosen, focus))
    return chosen;
  for (int k = 0; k < stage->range->n_parts; k++)
    if (stage->scene->parts[k].culprit && focus_on (stage, k, focus))
      return k;
  return -1;
}

static HobPoint
middle (const HobBody *body)
{
  return (HobPoint){ body->back + 104, body->top - body->across + 20 };
}

static void
enlarged (const HobStage *stage, const Focus *focus)
{
  const double r = RADIUS / focus->scale;
  const HobBox seen = { focus->x - r, focus->y - r, focus->x + r, focus->y + r };
  LensPen lens = { { &klass }, stage->pen, focus->scale };
  HobStage through = *stage;

  through.pen = &lens.pen;
  through.within = &seen;
  pen_push (&lens.pen, -focus->x, -focus->y, 0);
  hob_parts_symbols (&through);
  pen_pop (&lens.pen);
}

/* The small circle on the sheet, and the line from it to the large one. */
static void
lead_to (const HobStage *stage, const Focus *focus, HobPoint at)
{
  gboolean dark = hob_stage_is_dark (stage, focus->x, focus->y);
  double away = atan2 (at.y - focus->y, at.x - focus->x), r = RADIUS / focus->scale;

  pen_segment (stage->pen, focus->x + r * cos (away), focus->y + r * sin (away),
               at.x - RADIUS * cos (away), at.y - RADIUS * sin (away));
  pen_stroke (stage->pen, HOB_ROLE_EDGE, HOB_DETAIL);
  pen_circle (stage->pen, focus->x, focus->y, r);
  hob_stroke_on (stage->pen, dark, HOB_ROLE_PENCIL, HOB_DETAIL);
}

/* The name, in two lines where it is too long, and below it the color that the part glows in. */
static HobCaption
compose (const HobStage *stage, int part)
{
  const char *name = hob_part_label (&stage->range->parts[part]);
  const char *space = hob_type_width (stage->type, HOB_TEXT_NAME, name) > WIDEST
                          ? hob_cell_middle_space (stage->type, name) : NULL;
  HobCaption caption = { .part = part, .shown = TRUE };

  if (space != NULL)
    hob_caption_add (&caption, HOB_TEXT_NAME, HOB_ROLE_INK,
                     g_strndup (name, (gsize) (space - name)));
  hob_caption_add (&caption, HOB_TEXT_NAME, HOB_ROLE_INK,
                   g_strdup (space != NULL ? space + 1 : name));
  hob_caption_add (&caption, HOB_TEXT_SMALL, HOB_ROLE_INK,
                   hob_cutaway_glow (&stage->scene->parts[part].view));
  return caption;
}

/* From the lens's middle to the first baseline: letters that grow where the sheet shrinks keep off
 * its edge. */
static double
first_line (const HobLook *look)
{
  return RADIUS + fmax (CAPTION, OFF + ASCENT * hob_type_px (look, HOB_TEXT_NAME));
}

void
hob_lens_box (const HobBody *body, const HobLook *look, HobBox *box)
{
  HobPoint at = middle (body);

  *box = (HobBox){ at.x - RADIUS - 4, at.y - RADIUS - 4, at.x + RADIUS + 4,
                   at.y + first_line (look) + LINES * hob_type_px (look, HOB_TEXT_NAME) };
}

/* Below the lens, and within the sheet. */
static HobTextPlace
place_of (const HobStage *stage, const HobCaption *caption, HobPoint at)
{
  double half = hob_caption_width (stage, caption) / 2, bounds[4];

  hob_stage_bounds (stage, bounds);
  return (HobTextPlace){ fmin (at.x, bounds[0] + bounds[2] - OFF - half),
                         at.y + first_line (stage->look), HOB_ALIGN_CENTRE };
}

static void
draw_caption (const HobStage *stage, int part, HobPoint at)
{
  HobCaption caption = compose (stage, part);

  caption.place = place_of (stage, &caption, at);
  hob_caption_draw (stage, &caption);
  hob_caption_clear (&caption);
}

void
hob_lens_lead (const HobStage *stage, const HobBody *body)
{
  Focus focus;

  if (looks_at (stage, &focus) >= 0)
    lead_to (stage, &focus, middle (body));
}

void
hob_lens_state (const HobStage *stage, const HobBody *body)
{
  HobPen *pen = stage->pen;
  HobPoint at = middle (body);
  Focus focus;
  int part = looks_at (stage, &focus);

  if (part < 0)
    return;
  pen_push (pen, at.x, at.y, 0);
  pen_keep (pen, 0, 0, RADIUS);
  pen_circle (pen, 0, 0, RADIUS);
  pen_fill (pen, hob_on_cavity (stage->range, stage->sheet, focus.x, focus.y) ? HOB_ROLE_CAVITY
                                                                              : HOB_ROLE_SHEET);
  enlarged (stage, &focus);
  pen_pop (pen);
  pen_circle (pen, at.x, at.y, RADIUS);
  pen_stroke (pen, HOB_ROLE_INK, 3);
  draw_caption (stage, part, at);
}
