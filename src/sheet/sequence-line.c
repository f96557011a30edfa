/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The sequence line, as a tech sheet draws the sequence of operation: a rule with short ticks,
 * words under it, and a pencil mark with the time above what has been done.  What is not done when
 * it should be is ringed, with both figures and both times; what waits for it is broken. */

#include "sheet/sequence-line.h"

#include "base/i18n.h"
#include "sheet/cell.h"
#include "sheet/pen-cairo.h"
#include "sheet/signs.h"
#include "sheet/type.h"
#include <math.h>

#define MARGIN 24.0
#define STEP_WIDTH 128.0
#define RINGED_WIDTH 216.0
#define GAP 16.0
#define ABOVE 34.0 /* px of a row above its rule: mark and time */
#define TICK 7.0
#define BELOW 20.0 /* px under the last line of words */
#define INSET 10.0 /* px between a ring's box and its words */

typedef struct
{
  HobType *type;
  const HobLook *look;
  const GArray *entries;
  const HobRun *run;
  double w;
} Line;

/* One entry: its box, and its words in lines. */
typedef struct
{
  double x, y, w, h; /* y: of the rule */
  double inset;
  char **lines;      /* owned */
  guint n_words;     /* lines that say what happens; the others are figures */
} Place;

static void
place_clear (gpointer data)
{
  g_strfreev (((Place *) data)->lines);
}

static void
wrap (const Line *l, const char *text, double w, GPtrArray *lines)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GString) line = g_string_new (NULL);

  for (char **word = words; *word != NULL; word++)
    {
      g_autofree char *longer = line->len > 0 ? g_strdup_printf ("%s %s", line->str, *word)
                                              : g_strdup (*word);

      if (line->len > 0 && hob_type_width (l->type, HOB_TEXT_BODY, longer) > w)
        {
          g_ptr_array_add (lines, g_strdup (line->str));
          g_string_assign (line, *word);
        }
      else
        g_string_assign (line, longer);
    }
  if (line->len > 0)
    g_ptr_array_add (lines, g_strdup (line->str));
}

static double
line_height (const Line *l)
{
  return ceil (1.25 * hob_type_px (l->look, HOB_TEXT_BODY));
}

static Place
place_of (const Line *l, const HobSequenceEntry *e)
{
  g_autofree char *words = hob_sequence_words (l->run, e), *figures = NULL;
  g_autoptr (GPtrArray) lines = g_ptr_array_new ();
  Place p = { .w = hob_sequence_is_ringed (e) ? RINGED_WIDTH : STEP_WIDTH };

  p.inset = hob_sequence_is_ringed (e) ? INSET : 0;
  wrap (l, words, p.w - 2 * p.inset, lines);
  p.n_words = lines->len;
  figures = hob_sequence_figures (l->run, e);
  if (figures != NULL)
    wrap (l, figures, p.w - 2 * p.inset, lines);
  p.h = TICK + 6 + (double) lines->len * line_height (l) + BELOW;
  g_ptr_array_add (lines, NULL);
  p.lines = (char **) g_ptr_array_free (g_steal_pointer (&lines), FALSE);
  return p;
}

/* Left to right, row after row. *height: of all of it. (transfer full) */
static GArray *
places_of (const Line *l, double *height)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (Place));
  double x = MARGIN, y = MARGIN + ABOVE, tallest = 0;

  g_array_set_clear_func (places, place_clear);
  for (guint k = 0; k < l->entries->len; k++)
    {
      Place p = place_of (l, &g_array_index (l->entries, HobSequenceEntry, k));

      if (x > MARGIN && x + p.w > l->w - MARGIN)
        {
          x = MARGIN;
          y += tallest + ABOVE;
          tallest = 0;
        }
      p.x = x;
      p.y = y;
      x += p.w + GAP;
      tallest = fmax (tallest, p.h);
      g_array_append_val (places, p);
    }
  *height = y + tallest + MARGIN;
  return places;
}

static gboolean
is_open (const HobSequenceEntry *e)
{
  return e->state == HOB_SEQUENCE_NEXT || e->state == HOB_SEQUENCE_WAITING;
}

static void
draw_mark (HobPen *pen, double x, double y)
{
  pen_move (pen, x, y - 4);
  pen_line (pen, x + 4, y);
  pen_line (pen, x + 12, y - 12);
  pen_stroke (pen, HOB_ROLE_PENCIL, 2);
}

/* The mark with the time when it was done, and how often. */
static void
draw_done (const Line *l, HobPen *pen, const HobSequenceEntry *e, const Place *p)
{
  g_autofree char *time = hob_time_text (e->done);
  g_autofree char *text
      = e->times > 1 ? g_strdup_printf ("%s ×%d", time, e->times) : g_strdup (time);

  draw_mark (pen, p->x, p->y - 9);
  pen_text (pen, p->x + 18, p->y - 10, HOB_TEXT_SMALL, HOB_ROLE_PENCIL, HOB_ALIGN_LEFT, text);
}

static void
draw_words (const Line *l, HobPen *pen, const HobSequenceEntry *e, const Place *p)
{
  double y = p->y + TICK + 4;

  for (guint k = 0; p->lines[k] != NULL; k++)
    pen_text (pen, p->x + p->inset, y += line_height (l), HOB_TEXT_BODY,
              is_open (e) || k >= p->n_words ? HOB_ROLE_INK2 : HOB_ROLE_INK, HOB_ALIGN_LEFT,
              p->lines[k]);
}

static void
draw_ring (const Line *l, HobPen *pen, const HobSequenceEntry *e, const Place *p)
{
  const char *id = hob_run_case (l->run)->range->parts[e->part].id;
  HobBox box = { p->x + 4, p->y + TICK + 6, p->x + p->w - 4, p->y + p->h - BELOW + 5 };

  hob_sign_ring (pen, &box, FALSE, id, 1);
}

static void
draw_entry (const Line *l, HobPen *pen, const HobSequenceEntry *e, const Place *p)
{
  pen_segment (pen, p->x, p->y, p->x + p->w + GAP, p->y);
  if (is_open (e))
    pen_dash (pen, 6, 5);
  pen_stroke (pen, is_open (e) ? HOB_ROLE_INK2 : HOB_ROLE_INK, 1.5);
  pen_segment (pen, p->x, p->y - TICK / 2, p->x, p->y + TICK);
  pen_stroke (pen, HOB_ROLE_INK, 1.5);
  draw_words (l, pen, e, p);
  if (!isnan (e->done))
    draw_done (l, pen, e, p);
  if (hob_sequence_is_ringed (e))
    draw_ring (l, pen, e, p);
}

double
hob_sequence_line_height (const GArray *entries, const HobRun *run, double w, const HobLook *look)
{
  g_autoptr (HobType) type = hob_type_new (look);
  Line l = { type, look, entries, run, w };
  double height;
  g_autoptr (GArray) places = places_of (&l, &height);

  return height;
}

void
hob_sequence_line_draw (cairo_t *cr, const GArray *entries, const HobRun *run, double w,
                        const HobLook *look)
{
  g_autoptr (HobType) type = hob_type_new (look);
  Line l = { type, look, entries, run, w };
  double height;
  g_autoptr (GArray) places = places_of (&l, &height);
  HobPen *pen = hob_cairo_pen_new_with (cr, look, type, NULL);

  for (guint k = 0; k < entries->len; k++)
    draw_entry (&l, pen, &g_array_index (entries, HobSequenceEntry, k),
                &g_array_index (places, Place, k));
  if (entries->len == 0)
    pen_text (pen, MARGIN, MARGIN + ABOVE, HOB_TEXT_BODY, HOB_ROLE_INK2, HOB_ALIGN_LEFT,
              _ ("Nothing has been turned on yet."));
  hob_cairo_pen_free (pen);
}

int
hob_sequence_line_hit (const GArray *entries, const HobRun *run, double w, const HobLook *look,
                       double x, double y)
{
  g_autoptr (HobType) type = hob_type_new (look);
  Line l = { type, look, entries, run, w };
  double height;
  g_autoptr (GArray) places = places_of (&l, &height);

  for (guint k = 0; k < places->len; k++)
    {
      const Place *p = &g_array_index (places, Place, k);

      if (x >= p->x && x < p->x + p->w + GAP && y >= p->y - ABOVE && y < p->y + p->h)
        return (int) k;
    }
  return -1;
}
