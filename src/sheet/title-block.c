/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/title-block.h"
#include "base/i18n.h"
#include "sheet/legend.h"
#include "sheet/sequence-line.h"
#include <math.h>
#include <string.h>

#define EDGE 16.0   /* px around the text */
#define GAP 24.0    /* px between columns */
#define COLUMN 290. /* px, at least */
#define MOST_COLUMNS 4
#define SAMPLE 40.0 /* px that a legend's sample is wide */
#define HANG 10.0   /* px by which what goes on in another line is indented: entries stand out */
#define PAPER_SCALE 0.855 /* small letters on paper have 7 pt */
#define IN_FULL 3
#define LARGEST_SHARE 0.36 /* of a page's height; then a second page takes the rest */
#define PAPER_MARGIN 36.0 /* px: 3/8 in. */
#define SMALL_SHARE 0.6    /* of a small picture's height that its block may have */
#define LEAST_SCALE 0.1

typedef struct
{
  HobTextSize size;
  HobRole role;
  HobSample sample;
  double indent; /* px */
  char *text;    /* owned */
} Line;

typedef struct
{
  GArray *lines; /* Line; owned */
  HobType *type;
  double width; /* px of a column */
  const HobTitleBlock *block;
  HobBlockPart part;
} Block;

HobLook
hob_title_block_look (const HobTitleBlock *block)
{
  HobLook look = *block->look;

  look.zoom = 1;
  if (look.page == HOB_PAGE_PAPER)
    look.text_scale *= PAPER_SCALE;
  return look;
}

/* ---- Lines ---- */

static void
clear_line (gpointer item)
{
  g_free (((Line *) item)->text);
}

/* Appends lines of @text no wider than the column; only the first has the sample, and is not
 * indented. */
static void
wrap (Block *b, HobTextSize size, HobRole role, HobSample sample, const char *text)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  double beside = sample != HOB_SAMPLE_NONE ? SAMPLE + 8 : 0;
  g_autoptr (GString) s = g_string_new (NULL);
  Line line = { size, role, sample, beside, NULL };

  for (char **w = words; *w != NULL; w++)
    {
      g_autofree char *longer = g_strdup_printf ("%s%s%s", s->str, s->len > 0 ? " " : "", *w);

      if (s->len > 0 && hob_type_width (b->type, size, longer) > b->width - line.indent)
        {
          line.text = g_strdup (s->str);
          g_array_append_val (b->lines, line);
          line.sample = HOB_SAMPLE_NONE;
          line.indent = beside > 0 ? beside : HANG;
          g_string_assign (s, *w);
        }
      else
        g_string_assign (s, longer);
    }
  line.text = g_strdup (s->str);
  g_array_append_val (b->lines, line);
}

static void
add_facts (Block *b)
{
  const HobFacts *facts = b->block->facts;
  g_autofree char *title
      = g_strdup_printf ("%s · %s", hob_range_name (facts->range),
                         hob_picture_title (b->block->picture));

  wrap (b, HOB_TEXT_NAME, HOB_ROLE_INK, HOB_SAMPLE_NONE, title);
  for (guint k = 0; k < facts->list->len; k++)
    {
      const HobFact *fact = &g_array_index (facts->list, HobFact, k);
      /* Translators: a heading in a title block, and what is under it. */
      g_autofree char *text = g_strdup_printf (_ ("%s: %s"), fact->heading, fact->text);

      wrap (b, HOB_TEXT_SMALL, HOB_ROLE_INK, HOB_SAMPLE_NONE, text);
    }
}

static void
add_hazards (Block *b, HobHazards hazards)
{
  for (int h = hob_hazards_next (hazards, -1); h >= 0; h = hob_hazards_next (hazards, h))
    {
      g_autofree char *text = hob_hazard_text (h, hazards);
      g_autofree char *line = g_strdup_printf (_ ("%s: %s"), _ (hob_hazards[h].name), text);
      gboolean always = h == HOB_HAZARD_ALWAYS;

      wrap (b, HOB_TEXT_SMALL, always ? HOB_ROLE_INK2 : HOB_ROLE_CAUTION, HOB_SAMPLE_NONE,
            always ? text : line);
    }
}

static HobHazards
hazards_of (const HobTitleBlock *block)
{
  return hob_hazards_shown (block->facts->now) & ~HOB_HAZARD_BIT (HOB_HAZARD_ALWAYS);
}

/* Each hazard once: three in full, the rest by name where a second page follows. */
static void
add_cautions (Block *b)
{
  HobHazards shown = hazards_of (b->block), rest = 0;

  if (b->part == HOB_BLOCK_FIRST)
    shown = hob_hazards_first (shown, IN_FULL, &rest);
  add_hazards (b, shown);
  if (hob_hazards_next (rest, -1) >= 0)
    {
      g_autofree char *names = hob_hazards_names (rest);
      /* Translators: names of cautions. */
      g_autofree char *line = g_strdup_printf (_ ("%s: see page 2"), names);

      wrap (b, HOB_TEXT_SMALL, HOB_ROLE_CAUTION, HOB_SAMPLE_NONE, line);
    }
  add_hazards (b, HOB_HAZARD_BIT (HOB_HAZARD_ALWAYS));
}

static void
add_legend (Block *b)
{
  int n_own, n_common;
  const HobLegend *own = hob_legend_own (b->block->picture, &n_own),
                  *common = hob_legend_common (&n_common);

  for (int k = 0; k < n_own; k++)
    wrap (b, HOB_TEXT_SMALL, HOB_ROLE_INK2, own[k].sample, _ (own[k].words));
  for (int k = 0; k < n_common && b->block->picture < HOB_CHART_PICTURE; k++)
    wrap (b, HOB_TEXT_SMALL, HOB_ROLE_INK2, common[k].sample, _ (common[k].words));
}

static int
columns_of (double w)
{
  return CLAMP ((int) floor ((w - 2 * EDGE + GAP) / (COLUMN + GAP)), 1, MOST_COLUMNS);
}

static Block
compose (const HobTitleBlock *block, HobType *type, double w, HobBlockPart part)
{
  int n = columns_of (w);
  Block b = { .lines = g_array_new (FALSE, FALSE, sizeof (Line)), .type = type, .block = block,
              .width = (w - 2 * EDGE - GAP * (n - 1)) / n, .part = part };

  g_array_set_clear_func (b.lines, clear_line);
  add_facts (&b);
  add_cautions (&b);
  if (part != HOB_BLOCK_FIRST)
    add_legend (&b);
  else
    wrap (&b, HOB_TEXT_SMALL, HOB_ROLE_INK2, HOB_SAMPLE_NONE,
          _ ("Legend: see page 2"));
  return b;
}

static double
pitch_of (const HobTitleBlock *block)
{
  const HobLook look = hob_title_block_look (block);

  return ceil (1.55 * hob_type_px (&look, HOB_TEXT_SMALL));
}

static int
rows_of (const Block *b, double w)
{
  int n = columns_of (w);

  return ((int) b->lines->len + n - 1) / n;
}

double
hob_title_block_height (const HobTitleBlock *block, double w, HobBlockPart part)
{
  const HobLook look = hob_title_block_look (block);
  g_autoptr (HobType) type = hob_type_new (&look);
  Block b = compose (block, type, w, part);
  double h = EDGE + rows_of (&b, w) * pitch_of (block) + EDGE / 2;

  g_array_unref (b.lines);
  return h;
}

double
hob_title_block_line_height (const HobTitleBlock *block)
{
  const HobLook look = hob_title_block_look (block);

  return block->sequence != NULL ? hob_sequence_strip_height (&look) : 0;
}

double
hob_paper_margin (HobPaper paper)
{
  return paper != HOB_PAPER_NONE ? PAPER_MARGIN : 0;
}

/* What the block of a small picture is scaled by, so that it leaves some of it. */
static double
scale_for (const HobTitleBlock *block, double w, double h, HobBlockPart part)
{
  double scale = 1;

  while (scale > LEAST_SCALE && part != HOB_BLOCK_SECOND
         && scale * hob_title_block_height (block, w / scale, part) > SMALL_SHARE * h)
    scale *= 0.9;
  return scale;
}

HobPageRoom
hob_title_block_room (const HobTitleBlock *block, HobPaper paper, double w, double h,
                      HobBlockPart part)
{
  double margin = hob_paper_margin (paper);
  HobPageRoom room = { .w = w - 2 * margin, .h = h - 2 * margin, .scale = 1 };

  if (paper == HOB_PAPER_NONE)
    room.scale = scale_for (block, room.w, room.h, part);
  if (part == HOB_BLOCK_SECOND)
    return room;
  room.block = fmax (
      1, room.h - room.scale * hob_title_block_height (block, room.w / room.scale, part));
  room.picture = fmin (room.scale * hob_title_block_line_height (block), room.block / 2);
  return room;
}

gboolean
hob_title_block_needs_page (const HobTitleBlock *block, HobPaper paper, double w, double h)
{
  double margin = hob_paper_margin (paper);
  HobHazards rest;

  hob_hazards_first (hazards_of (block), IN_FULL, &rest);
  return hob_hazards_next (rest, -1) >= 0
         || hob_title_block_height (block, w - 2 * margin, HOB_BLOCK_WHOLE)
                > LARGEST_SHARE * (h - 2 * margin);
}

void
hob_title_block_draw (HobPen *pen, HobType *type, const HobTitleBlock *block, double y, double w,
                      HobBlockPart part)
{
  Block b = compose (block, type, w, part);
  double pitch = pitch_of (block);
  int rows = rows_of (&b, w);

  pen_segment (pen, EDGE, y + 2, w - EDGE, y + 2);
  pen_stroke (pen, HOB_ROLE_INK, 1);
  for (guint k = 0; k < b.lines->len; k++)
    {
      const Line *line = &g_array_index (b.lines, Line, k);
      double left = EDGE + ((int) k / rows) * (b.width + GAP),
             base = y + EDGE / 2 + ((int) k % rows + 1) * pitch;

      if (line->sample != HOB_SAMPLE_NONE)
        hob_legend_draw (pen, line->sample, left, base - 0.28 * pitch, SAMPLE);
      pen_text (pen, left + line->indent, base, line->size, line->role, HOB_ALIGN_LEFT,
                line->text);
    }
  g_array_unref (b.lines);
}
