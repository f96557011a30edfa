/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/ruled-line.h"

#include "sheet/cell.h"
#include "sheet/signs.h"
#include "sheet/type.h"
#include <math.h>

#define MARGIN 24.0
#define STEP_WIDTH 128.0
#define RINGED_WIDTH 216.0
#define WIDER 12.0 /* px by which an entry grows until its words fit the strip */
#define GAP 16.0
#define ABOVE 34.0 /* px of a row above its rule: mark and time */
#define TICK 7.0
#define BELOW 20.0 /* px under the last line of words */
#define INSET 10.0 /* px between a ring's box and its words */

#define STRIP_LINES 3
#define STRIP_MARGIN 16.0
#define STRIP_ABOVE 25.0
#define STRIP_BELOW 13.0

typedef struct
{
  HobType *type;
  const HobRuledLine *line;
  double unit; /* px of text of scale 1 */
} Line;

/* One entry: its box, and its words in lines. */
typedef struct
{
  int entry;
  double x, y, w, h; /* y: of the rule */
  double inset;
  char **lines;      /* owned */
  guint n_words;     /* lines that say what happens; the others are figures */
  HobTextSize size;
  double pitch; /* px from line to line */
} Place;

static void
place_clear (gpointer data)
{
  g_strfreev (((Place *) data)->lines);
}

static void
wrap (const Line *l, HobTextSize size, const char *text, double w, GPtrArray *lines)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  g_autoptr (GString) line = g_string_new (NULL);

  for (char **word = words; *word != NULL; word++)
    {
      g_autofree char *longer = line->len > 0 ? g_strdup_printf ("%s %s", line->str, *word)
                                              : g_strdup (*word);

      if (line->len > 0 && hob_type_width (l->type, size, longer) > w)
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

static const HobRuledEntry *
entry_of (const Line *l, int entry)
{
  return &g_array_index (l->line->entries, HobRuledEntry, (guint) entry);
}

static double
line_height (const HobLook *look)
{
  return ceil (1.25 * hob_type_px (look, HOB_TEXT_BODY));
}

static void
wrap_into (const Line *l, Place *p, const char *words, const char *figures)
{
  g_autoptr (GPtrArray) lines = g_ptr_array_new ();

  g_strfreev (p->lines);
  wrap (l, p->size, words, p->w - 2 * p->inset, lines);
  p->n_words = lines->len;
  if (figures != NULL)
    wrap (l, p->size, figures, p->w - 2 * p->inset, lines);
  p->h = TICK + 6 + (double) lines->len * p->pitch + BELOW;
  g_ptr_array_add (lines, NULL);
  p->lines = (char **) g_ptr_array_free (g_steal_pointer (&lines), FALSE);
}

/* In the strip an entry is as wide as its words need, and if that is wider than the strip, in small
 * letters and one line more: none of them is cut. */
static Place
place_of (const Line *l, int entry)
{
  const HobRuledEntry *e = entry_of (l, entry);
  double pitch = line_height (l->line->look);
  Place p = { .entry = entry, .inset = e->ringed ? INSET : 0, .size = HOB_TEXT_BODY,
              .pitch = pitch, .w = (e->ringed ? RINGED_WIDTH : STEP_WIDTH) * l->unit };

  wrap_into (l, &p, e->words, e->figures);
  while (l->line->strip && g_strv_length (p.lines) > STRIP_LINES
         && p.w + WIDER <= l->line->w - 2 * STRIP_MARGIN)
    {
      p.w += WIDER;
      wrap_into (l, &p, e->words, e->figures);
    }
  if (l->line->strip && g_strv_length (p.lines) > STRIP_LINES)
    {
      p.size = HOB_TEXT_SMALL;
      p.pitch = floor (pitch * STRIP_LINES / (STRIP_LINES + 1));
      wrap_into (l, &p, e->words, e->figures);
    }
  return p;
}

/* Left to right, row after row. */
static void
place_rows (const Line *l, GArray *places, double *height)
{
  double x = MARGIN, y = MARGIN + ABOVE, tallest = 0;

  for (guint k = 0; k < l->line->entries->len; k++)
    {
      Place p = place_of (l, (int) k);

      if (x > MARGIN && x + p.w > l->line->w - MARGIN)
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
}

/* ---- The strip ---- */

static gboolean
is_placed (const GArray *places, int entry)
{
  for (guint k = 0; k < places->len; k++)
    if (g_array_index (places, Place, k).entry == entry)
      return TRUE;
  return FALSE;
}

/* FALSE: there is no room for it. */
static gboolean
place_one (const Line *l, GArray *places, int entry, double *room)
{
  Place p;

  if (entry < 0 || entry >= (int) l->line->entries->len || is_placed (places, entry))
    return TRUE;
  p = place_of (l, entry);
  if (places->len > 0 && p.w + GAP > *room)
    {
      place_clear (&p);
      return FALSE;
    }
  *room -= p.w + GAP;
  g_array_append_val (places, p);
  return TRUE;
}

static int
by_entry (gconstpointer a, gconstpointer b)
{
  return ((const Place *) a)->entry - ((const Place *) b)->entry;
}

/* Then the neighbors of what matters most, near ones first. */
static void
place_around (const Line *l, GArray *places, double *room)
{
  int n = (int) l->line->entries->len, middle = -1;

  for (int k = 0; k < HOB_RULED_ANCHORS && middle < 0; k++)
    middle = l->line->anchors[k];
  for (int k = 1; k < n; k++)
    if (!place_one (l, places, middle + k, room) || !place_one (l, places, middle - k, room))
      return;
}

static void
place_strip (const Line *l, GArray *places, double *height)
{
  double room = l->line->w - 2 * STRIP_MARGIN + GAP, x = STRIP_MARGIN;

  for (int k = 0; k < HOB_RULED_ANCHORS; k++)
    if (!place_one (l, places, l->line->anchors[k], &room))
      break;
  place_around (l, places, &room);
  g_array_sort (places, by_entry);
  for (guint k = 0; k < places->len; k++)
    {
      Place *p = &g_array_index (places, Place, k);

      p->x = x;
      p->y = STRIP_ABOVE * l->unit;
      x += p->w + GAP;
    }
  *height = hob_ruled_strip_height (l->line->look);
}

/* *height: of all of it. (transfer full) */
static GArray *
places_of (const Line *l, double *height)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (Place));

  g_array_set_clear_func (places, place_clear);
  if (l->line->strip)
    place_strip (l, places, height);
  else
    place_rows (l, places, height);
  return places;
}

/* ---- Drawing ---- */

static void
draw_mark (HobPen *pen, double x, double y)
{
  pen_move (pen, x, y - 4);
  pen_line (pen, x + 4, y);
  pen_line (pen, x + 12, y - 12);
  pen_stroke (pen, HOB_ROLE_PENCIL, 2);
}

/* The time, behind a mark where it is of something done. */
static void
draw_time (HobPen *pen, const HobRuledEntry *e, const Place *p)
{
  if (e->done)
    draw_mark (pen, p->x, p->y - 9);
  pen_text (pen, p->x + (e->done ? 18 : 0), p->y - 10, HOB_TEXT_SMALL, HOB_ROLE_PENCIL,
            HOB_ALIGN_LEFT, e->time);
}

static void
draw_words (const Line *l, HobPen *pen, const HobRuledEntry *e, const Place *p)
{
  double y = p->y + TICK + 4;

  for (guint k = 0; p->lines[k] != NULL; k++)
    pen_text (pen, p->x + p->inset, y += p->pitch, p->size,
              e->open || k >= p->n_words ? HOB_ROLE_INK2 : HOB_ROLE_INK, HOB_ALIGN_LEFT,
              p->lines[k]);
}

static void
draw_ring (HobPen *pen, const HobRuledEntry *e, const Place *p)
{
  HobBox box = { p->x + 4, p->y + TICK + 6, p->x + p->w - 4, p->y + p->h - BELOW + 5 };

  hob_sign_ring (pen, &box, FALSE, e->id, 1);
}

/* Two short strokes across the rule: something is left out there. */
static void
draw_break (HobPen *pen, double x, double y)
{
  for (int k = -1; k <= 1; k += 2)
    {
      pen_segment (pen, x + 3 * k - 2, y + 5, x + 3 * k + 2, y - 5);
      pen_stroke (pen, HOB_ROLE_INK, 1.5);
    }
}

static void
draw_entry (const Line *l, HobPen *pen, const HobRuledEntry *e, const Place *p)
{
  pen_segment (pen, p->x, p->y, p->x + p->w + GAP, p->y);
  if (e->open)
    pen_dash (pen, 6, 5);
  pen_stroke (pen, e->open ? HOB_ROLE_INK2 : HOB_ROLE_INK, 1.5);
  pen_segment (pen, p->x, p->y - TICK / 2, p->x, p->y + TICK);
  pen_stroke (pen, HOB_ROLE_INK, 1.5);
  draw_words (l, pen, e, p);
  if (e->time != NULL)
    draw_time (pen, e, p);
  if (e->ringed)
    draw_ring (pen, e, p);
}

static void
draw_places (const Line *l, HobPen *pen, const GArray *places)
{
  int last = -1;

  for (guint k = 0; k < places->len; k++)
    {
      const Place *p = &g_array_index (places, Place, k);

      draw_entry (l, pen, entry_of (l, p->entry), p);
      if (l->line->strip && p->entry != last + 1)
        draw_break (pen, p->x - GAP / 2, p->y);
      last = p->entry;
    }
  if (places->len > 0 && l->line->strip && last + 1 < (int) l->line->entries->len)
    {
      const Place *p = &g_array_index (places, Place, places->len - 1);

      draw_break (pen, p->x + p->w + GAP / 2, p->y);
    }
}

static void
entry_clear (gpointer data)
{
  HobRuledEntry *e = data;

  g_free (e->words);
  g_free (e->figures);
  g_free (e->time);
}

GArray *
hob_ruled_entries_new (void)
{
  GArray *entries = g_array_new (FALSE, TRUE, sizeof (HobRuledEntry));

  g_array_set_clear_func (entries, entry_clear);
  return entries;
}

static Line
line_of (const HobRuledLine *line, HobType *type)
{
  return (Line){ type, line, fmax (1, hob_type_px (line->look, HOB_TEXT_BODY) / 13.0) };
}

double
hob_ruled_strip_height (const HobLook *look)
{
  double unit = fmax (1, hob_type_px (look, HOB_TEXT_BODY) / 13.0);

  return ceil (STRIP_ABOVE * unit + TICK + 6 + STRIP_LINES * line_height (look) + STRIP_BELOW);
}

double
hob_ruled_line_height (const HobRuledLine *line)
{
  g_autoptr (HobType) type = hob_type_new (line->look);
  Line l = line_of (line, type);
  double height;

  g_array_unref (places_of (&l, &height));
  return height;
}

void
hob_ruled_line_draw (HobPen *pen, HobType *type, const HobRuledLine *line)
{
  Line l = line_of (line, type);
  double height;
  g_autoptr (GArray) places = places_of (&l, &height);

  draw_places (&l, pen, places);
  if (line->entries->len == 0)
    pen_text (pen, line->strip ? STRIP_MARGIN : MARGIN, MARGIN + ABOVE, HOB_TEXT_BODY,
              HOB_ROLE_INK2, HOB_ALIGN_LEFT, line->empty);
}

int
hob_ruled_line_hit (const HobRuledLine *line, double x, double y)
{
  g_autoptr (HobType) type = hob_type_new (line->look);
  Line l = line_of (line, type);
  double height;
  g_autoptr (GArray) places = places_of (&l, &height);

  for (guint k = 0; k < places->len; k++)
    {
      const Place *p = &g_array_index (places, Place, k);

      if (x >= p->x && x < p->x + p->w + GAP && y >= p->y - ABOVE && y < p->y + p->h)
        return p->entry;
    }
  return -1;
}

gboolean
hob_ruled_line_find (const HobRuledLine *line, int entry, double *x, double *y)
{
  g_autoptr (HobType) type = hob_type_new (line->look);
  Line l = line_of (line, type);
  double height;
  g_autoptr (GArray) places = places_of (&l, &height);

  for (guint k = 0; k < places->len; k++)
    {
      const Place *p = &g_array_index (places, Place, k);

      if (p->entry != entry)
        continue;
      *x = p->x + p->w / 2;
      *y = p->y + TICK + line_height (line->look);
      return TRUE;
    }
  return FALSE;
}
