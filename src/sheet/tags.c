/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/tags.h"
#include "base/i18n.h"
#include "parts/severity.h"
#include "sheet/room.h"
#include "sheet/signs.h"
#include <math.h>
#include <string.h>

#define TILT (2.6 * G_PI / 180)
#define PAD 7.0            /* px between a card's edge and its words */
#define HOLE 12.0          /* px for the hole, at the right end of the first line */
#define FREE 4.0           /* px around a card */
#define FAR 220.0          /* px from its part that a card may be */
#define STEP 10.0
#define OVER_A_LINE 60.0   /* px of way that it is worth to lie on no line */
#define WIDEST 23          /* letters in a line, where three of them are enough */
#define WORDS_FROM_ZOOM 0.5

/* ---- Words ---- */

/* Takes words off the text as long as they fit; the rest of it, "" at its end. */
static const char *
take_line (HobType *type, HobTextSize size, const char *text, double width, char **line)
{
  const char *end = NULL;

  for (const char *at = text; at != NULL;)
    {
      const char *space = strchr (at, ' '), *stop = space != NULL ? space : at + strlen (at);
      g_autofree char *head = g_strndup (text, (gsize) (stop - text));

      if (end != NULL && hob_type_width (type, size, head) > width)
        break;
      end = stop;
      at = space != NULL ? space + 1 : NULL;
    }
  *line = g_strndup (text, (gsize) (end - text));
  return *end == ' ' ? end + 1 : end;
}

/* Lines that the text takes at this width; only whole words. */
static int
lines_at (HobType *type, HobTextSize size, const char *text, double width, double *widest)
{
  int n = 0;

  *widest = 0;
  while (*text != '\0')
    {
      g_autofree char *line = NULL;

      text = take_line (type, size, text, width, &line);
      *widest = fmax (*widest, hob_type_width (type, size, line));
      n++;
    }
  return n;
}

/* The width at which three lines hold it: 23 letters, or as few more as it takes. */
static double
width_for (HobType *type, HobTextSize size, const char *text)
{
  double letter = hob_type_width (type, size, "n"), widest;

  for (int most = 1; most <= HOB_TAG_LINES; most++)
    for (double width = 8 * letter; width <= WIDEST * letter; width += letter)
      if (lines_at (type, size, text, width, &widest) <= most && widest <= WIDEST * letter)
        return widest;
  for (double width = WIDEST * letter;; width += letter)
    if (lines_at (type, size, text, width, &widest) <= HOB_TAG_LINES)
      return widest;
}

/* (transfer full) */
static char *
words_of (const HobPartScene *scene)
{
  const HobKind *kind = scene->view.kind;
  const HobFaultDef *fault = &kind->faults[scene->fault];
  g_autofree char *amount = fault->severity_words != NULL
                                ? hob_fault_amount_text (kind, fault, scene->severity)
                                : NULL; /* the amount alone: a tag is small */

  return amount != NULL ? g_strconcat (_ (fault->words), ", ", amount, NULL)
                        : g_strdup (_ (fault->words));
}

static int
n_lines (const HobTag *tag)
{
  int n = 0;

  while (n < HOB_TAG_LINES && tag->line[n] != NULL)
    n++;
  return n;
}

static void
set_words (HobTag *tag, HobType *type, HobTextSize size, const char *words)
{
  double width = width_for (type, size, words) + 0.5;

  for (int k = 0; k < HOB_TAG_LINES; k++)
    g_clear_pointer (&tag->line[k], g_free);
  for (int k = 0; k < HOB_TAG_LINES && *words != '\0'; k++)
    words = take_line (type, size, words, width, &tag->line[k]);
}

/* ---- Room ---- */

/* What a tilted card covers, and a little around it. */
static HobBox
covered (const HobBox *card)
{
  double lifted = TILT * (card->x1 - card->x0);

  return (HobBox){ card->x0 - FREE, card->y0 - lifted - FREE, card->x1 + FREE, card->y1 + FREE };
}

/* px from the symbol to the card's hole, its upper right corner. */
static double
way_to (const HobBox *symbol, const HobBox *card)
{
  double dx = fmax (0, fmax (symbol->x0 - card->x1, card->x1 - symbol->x1)),
         dy = fmax (0, fmax (symbol->y0 - card->y0, card->y0 - symbol->y1));

  return hypot (dx, dy);
}

/* The nearest free place for a card of w × h px; FALSE: there is none. */
static gboolean
find_place (const HobRoom *room, const HobBox *symbol, double w, double h, HobBox *card)
{
  double least = INFINITY;

  for (double y = symbol->y0 - FAR; y <= symbol->y1 + FAR; y += STEP)
    for (double x = symbol->x0 - FAR - w; x <= symbol->x1 + FAR; x += STEP)
      {
        const HobBox tried = { x, y, x + w, y + h }, all = covered (&tried);
        double cost = way_to (symbol, &tried);

        if (cost >= least || cost > FAR || !hob_room_is_free (room, &all))
          continue;
        cost += hob_room_covers_a_line (room, &all) ? OVER_A_LINE : 0;
        if (cost >= least)
          continue;
        least = cost;
        *card = tried;
      }
  return isfinite (least);
}

static void
card_size (const HobStage *stage, const HobTag *tag, double *w, double *h)
{
  HobTextSize size = hob_type_least (stage->look);
  double px = hob_type_px (stage->look, size);

  *w = 0;
  for (int k = 0; k < n_lines (tag); k++)
    *w = fmax (*w, hob_type_width (stage->type, size, tag->line[k]) + (k == 0 ? HOLE : 0));
  *w += 2 * PAD;
  *h = 1.25 * px * n_lines (tag) + PAD;
}

static gboolean
place (const HobRoom *room, const HobBox *symbol, HobTag *tag)
{
  double w, h;

  card_size (room->stage, tag, &w, &h);
  return find_place (room, symbol, w, h, &tag->card);
}

/* Where nothing is free even a number lies on something: at the part's own corner. */
static void
place_number (const HobRoom *room, const HobBox *symbol, HobTag *tag)
{
  g_autofree char *number = g_strdup_printf ("%d", tag->number);
  double w, h;

  set_words (tag, room->stage->type, hob_type_least (room->stage->look), number);
  if (place (room, symbol, tag))
    return;
  card_size (room->stage, tag, &w, &h);
  tag->card = (HobBox){ symbol->x1, symbol->y1, symbol->x1 + w, symbol->y1 + h };
}

static void
clear_tag (gpointer item)
{
  HobTag *tag = item;

  for (int k = 0; k < HOB_TAG_LINES; k++)
    g_free (tag->line[k]);
}

static void
lay (HobRoom *room, GArray *tags, int part, int number, const HobBox *symbol)
{
  g_autofree char *words = words_of (&room->stage->scene->parts[part]);
  HobTag tag = { .part = part, .number = number };
  HobBox all;

  set_words (&tag, room->stage->type, hob_type_least (room->stage->look), words);
  if ((room->stage->look->page != HOB_PAGE_PAPER
       && room->stage->look->zoom < WORDS_FROM_ZOOM)
      || !place (room, symbol, &tag))
    place_number (room, symbol, &tag);
  all = covered (&tag.card);
  g_array_append_val (room->taken, all);
  g_array_append_val (tags, tag);
}

GArray *
hob_tags_lay (const HobStage *stage)
{
  GArray *tags = g_array_new (FALSE, FALSE, sizeof (HobTag));
  HobRoom room = { 0 };
  int number = 0;

  g_array_set_clear_func (tags, clear_tag);
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox symbol;

      if (stage->scene->parts[k].fault < 0)
        continue;
      number++;
      if (!hob_cell_symbol (&stage->range->parts[k], stage->sheet, &symbol))
        continue;
      if (room.taken == NULL)
        room = hob_room_of (stage);
      lay (&room, tags, k, number, &symbol);
    }
  g_clear_pointer (&room.taken, g_array_unref);
  return tags;
}

/* ---- Drawing ---- */

static HobPoint
hole_of (const HobTag *tag)
{
  return (HobPoint){ tag->card.x1 - 6, tag->card.y0 + 6 };
}

void
hob_tag_string (const HobStage *stage, const HobTag *tag)
{
  HobPoint hole = hole_of (tag);
  HobBox box;
  double x, y;

  hob_cell_symbol (&stage->range->parts[tag->part], stage->sheet, &box);
  x = CLAMP (hole.x, box.x0 + 3, box.x1 - 3);
  y = CLAMP (hole.y, box.y0 + 3, box.y1 - 3);
  pen_move (stage->pen, x, y);
  pen_curve (stage->pen, x + 4, y + 6, hole.x + 6, hole.y - 10, hole.x, hole.y);
  hob_stroke_on (stage->pen,
                 !hob_cell_is_interior (stage->range->parts[tag->part].kind)
                     && hob_stage_is_dark (stage, hole.x, hole.y),
                 HOB_ROLE_INK, 1);
}

static void
draw_card (HobPen *pen, double w, double h)
{
  /* Its hole is the origin; the card lies to the left of it, the corner at the hole cut off. */
  pen_move (pen, 6 - w, -6);
  pen_line (pen, 0, -6);
  pen_line (pen, 6, 0);
  pen_line (pen, 6, h - 6);
  pen_line (pen, 6 - w, h - 6);
  pen_close (pen);
  pen_fill_stroke (pen, HOB_ROLE_TAG, HOB_ROLE_TAG_INK, 1.5);
  pen_circle (pen, -1, 0, 2);
  pen_fill_stroke (pen, HOB_ROLE_SHEET, HOB_ROLE_TAG_INK, 1);
}

void
hob_tag_draw (const HobStage *stage, const HobTag *tag)
{
  HobTextSize size = hob_type_least (stage->look);
  double px = hob_type_px (stage->look, size), w = tag->card.x1 - tag->card.x0,
         h = tag->card.y1 - tag->card.y0;
  HobPoint hole = hole_of (tag);

  pen_push (stage->pen, hole.x, hole.y, 0);
  pen_spin (stage->pen, TILT + hob_sheet_memory_swing (stage->memory, tag->part));
  draw_card (stage->pen, w, h);
  for (int k = 0; k < n_lines (tag); k++)
    pen_text (stage->pen, 6 - w + PAD, -6 + PAD / 2 + (1.25 * k + 1) * px, size, HOB_ROLE_TAG_INK,
              HOB_ALIGN_LEFT, tag->line[k]);
  pen_pop (stage->pen);
}
