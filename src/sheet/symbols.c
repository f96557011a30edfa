/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Parts on a sheet: the kind's own symbol, its name, and what hangs on it now — figure, ring,
 * tag, choice. */

#include "sheet/brackets.h"
#include "sheet/caption.h"
#include "sheet/signs.h"
#include "sheet/tags.h"
#include <math.h>
#include <string.h>

static void
draw_symbol (const HobStage *stage, int part, const HobPartView *view)
{
  const HobPlacement *at = &stage->range->parts[part].at[stage->sheet];

  pen_push (stage->pen, at->x, at->y, at->turn);
  view->kind->draw (stage->pen, view);
  pen_pop (stage->pen);
}

/* 0: what others stand inside of, 1: burners, 2: the rest. */
static int
depth (const HobKind *kind)
{
  return hob_cell_is_interior (kind) ? 0 : (kind->flags & HOB_KIND_BURNER) != 0 ? 1 : 2;
}

typedef void (*EachPart) (const HobStage *stage, int part, const HobBox *box);

/* From the back to the front. */
static void
each_part (const HobStage *stage, EachPart each)
{
  for (int d = 0; d <= 2; d++)
    for (int k = 0; k < stage->range->n_parts; k++)
      {
        HobBox box;

        if (depth (stage->range->parts[k].kind) == d
            && hob_cell_symbol (&stage->range->parts[k], stage->sheet, &box)
            && (stage->within == NULL || hob_box_meet (&box, stage->within)))
          each (stage, k, &box);
      }
}

static void
paper_symbol (const HobStage *stage, int part, const HobBox *box)
{
  g_autofree double *numbers
      = g_new (double, hob_part_view_numbers (stage->range->parts[part].kind));
  HobPartView view;

  hob_part_view_still (&view, stage->range, part, stage->sheet, numbers);
  view.layer = HOB_LAYER_PAPER;
  draw_symbol (stage, part, &view);
}

static void
ground (const HobStage *stage, const HobTextPlace *place, double w, HobRole role)
{
  double px = hob_type_px (stage->look, HOB_TEXT_NAME);

  pen_rect (stage->pen, hob_text_left (place->x, w, place->align) - 4, place->y - px, w + 8,
            1.3 * px);
  pen_fill (stage->pen, role);
}

/* Light text that isn't all on the dark inside: over its edge, or perhaps over the backguard. */
static gboolean
reaches_out (const HobStage *stage, const HobPart *part, const HobTextPlace *place, double w)
{
  double left = hob_text_left (place->x, w, place->align);

  return part->in < 0 || !hob_on_cavity (stage->range, stage->sheet, left, place->y)
         || !hob_on_cavity (stage->range, stage->sheet, left + w, place->y);
}

static void
draw_name (const HobStage *stage, int part, HobTextPlace place)
{
  const HobPart *p = &stage->range->parts[part];
  double px = hob_type_px (stage->look, HOB_TEXT_NAME), w;
  HobTextSize size;
  HobRole role;
  char *line[2];

  if (hob_cell_is_dot (p, stage->sheet) || hob_cell_is_attached (stage->range, part, stage->sheet))
    return;
  size = hob_cell_name_lines (stage->range, part, stage->sheet, stage->type, stage->look, line);
  role = hob_on_cavity (stage->range, stage->sheet, place.x, place.y) ? HOB_ROLE_CAVITY_INK
                                                                      : HOB_ROLE_INK;
  w = hob_type_width (stage->type, size, line[0]);
  if (hob_cell_is_face (p, stage->sheet) && stage->scene != NULL)
    ground (stage, &place, w, HOB_ROLE_SHEET);
  else if (role == HOB_ROLE_CAVITY_INK && reaches_out (stage, p, &place, w))
    ground (stage, &place, w, HOB_ROLE_CAVITY);
  pen_text (stage->pen, place.x, place.y - (line[1] != NULL ? HOB_NAME_PITCH * px : 0),
            size, role, place.align, line[0]);
  if (line[1] != NULL)
    pen_text (stage->pen, place.x, place.y, size, role, place.align, line[1]);
  g_free (line[0]);
  g_free (line[1]);
}

static void
paper_name (const HobStage *stage, int part, const HobBox *box)
{
  HobTextPlace place;

  hob_cell_name_place (stage->range, part, stage->sheet, stage->look, &place);
  draw_name (stage, part, place);
}

void
hob_parts_paper (const HobStage *stage)
{
  each_part (stage, paper_symbol);
  if (stage->look->page == HOB_PAGE_SCREEN && stage->look->zoom >= HOB_NAMES_FROM_ZOOM)
    each_part (stage, paper_name);
}

static void
state_symbol (const HobStage *stage, int part, const HobBox *box)
{
  gboolean inside = stage->sheet == HOB_SHEET_CUTAWAY
                    && hob_cell_is_interior (stage->range->parts[part].kind);
  HobPartView view = stage->scene->parts[part].view;

  view.sheet = stage->sheet;
  view.layer = HOB_LAYER_STATE;
  view.clock = stage->scene->clock;
  view.still = stage->scene->still;
  if (inside)
    {
      pen_push (stage->pen, 0, 0, 0);
      hob_cutaway_hide (stage);
    }
  if (view.kind->draw != NULL)
    draw_symbol (stage, part, &view);
  if (inside)
    pen_pop (stage->pen);
}

void
hob_parts_symbols (const HobStage *stage)
{
  each_part (stage, paper_symbol);
  each_part (stage, state_symbol);
}

static const HobCaption *
caption_of (const HobStage *stage, int part)
{
  return &g_array_index (stage->captions, HobCaption, part);
}

#define INSIDE 12.0 /* px: a ring around one branch stays inside the part, off its letters */

/* A ring goes around the smallest thing that misbehaves: of a part with several branches the one
 * between its two terminals, where these are drawn.  @ring: the part's symbol, and then that. */
static gboolean
blamed_box (const HobStage *stage, int part, HobBox *ring)
{
  const HobKind *kind = stage->range->parts[part].kind;
  int k = stage->scene->parts[part].blamed;
  HobPoint a, b;

  if (stage->sheet != HOB_SHEET_WIRING || k < 0 || k >= kind->n_elements
      || kind->n_elements < 3 || kind->elements[k].a < 0 || kind->elements[k].b < 0
      || !hob_anchor (stage->range, stage->sheet, (HobEnd){ part, kind->elements[k].a }, FALSE, &a)
      || !hob_anchor (stage->range, stage->sheet, (HobEnd){ part, kind->elements[k].b }, FALSE, &b))
    return FALSE;
  *ring = (HobBox){ fmax (fmin (a.x, b.x), ring->x0 + INSIDE), fmin (a.y, b.y) - 8,
                    fmin (fmax (a.x, b.x), ring->x1 - INSIDE), fmax (a.y, b.y) + 8 };
  return TRUE;
}

static HobBox
ring_box (const HobStage *stage, int part, const HobBox *box)
{
  HobBox ring = *box;

  if (blamed_box (stage, part, &ring))
    return ring;
  if (hob_caption_is_ringed (stage, caption_of (stage, part)))
    return caption_of (stage, part)->box;
  return caption_of (stage, part)->ring;
}

/* Under the figure of a part that suffers from what another one does; where that found no room,
 * under the part. */
static void
state_arc (const HobStage *stage, int part, const HobBox *symbol, double drawn)
{
  const HobCaption *caption = caption_of (stage, part);
  const HobBox *over = caption->shown ? &caption->box : symbol;
  double x = (over->x0 + over->x1) / 2, y = caption->shown ? over->y1 + 1.5 : symbol->y1 + 3;

  if (caption->n > 0 && !hob_brackets_hold (stage, part))
    hob_sign_arc (stage->pen, x, y, fmax ((over->x1 - over->x0) / 2, 14),
                  hob_stage_is_dark (stage, x, y), drawn);
}

static void
state_hand (const HobStage *stage, int part, const HobBox *box)
{
  const HobPartScene *scene = &stage->scene->parts[part];
  const HobPart *p = &stage->range->parts[part];
  double drawn = hob_sheet_memory_ring (stage->memory, part);
  gboolean on_cavity = !hob_cell_is_interior (p->kind)
                       && hob_stage_is_dark (stage, box->x1, box->y0);

  if (scene->culprit)
    {
      HobBox ring = ring_box (stage, part, box);

      hob_sign_ring (stage->pen, &ring, on_cavity, p->id, drawn);
    }
  else if (scene->differs)
    state_arc (stage, part, box, drawn);
  if (stage->scene->chosen_part == part)
    hob_sign_selection (stage->pen, box, on_cavity);
}

static void
state_texts (const HobStage *stage, int part, const HobBox *box)
{
  hob_caption_draw_leader (stage, caption_of (stage, part));
  hob_caption_draw (stage, caption_of (stage, part));
  if (caption_of (stage, part)->named)
    draw_name (stage, part, caption_of (stage, part)->name);
}

void
hob_parts_texts (const HobStage *stage)
{
  each_part (stage, state_texts);
}

void
hob_parts_state (const HobStage *stage)
{
  g_autoptr (GArray) own = stage->memory == NULL ? hob_tags_lay (stage) : NULL;
  const GArray *tags = own != NULL ? own : hob_sheet_memory_tags (stage->memory, stage);

  each_part (stage, state_symbol);
  for (guint k = 0; k < tags->len; k++)
    hob_tag_string (stage, &g_array_index (tags, HobTag, k));
  each_part (stage, state_texts);
  hob_brackets_texts (stage);
  each_part (stage, state_hand);
  hob_brackets_draw (stage);
  for (guint k = 0; k < tags->len; k++)
    hob_tag_draw (stage, &g_array_index (tags, HobTag, k));
}
