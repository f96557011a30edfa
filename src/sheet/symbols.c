/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Parts on a sheet: the kind's own symbol, its name, and what hangs on it now — figure, ring,
 * tag, choice. */

#include "sheet/signs.h"
#include "sheet/tags.h"
#include "run/differ.h"
#include "base/i18n.h"
#include "parts/say.h"
#include <math.h>
#include <string.h>

/* Zoom below which a part's figure and name show only where they are asked for. */
#define NAMES_FROM_ZOOM 0.5

static gboolean
is_far_off (const HobLook *look)
{
  return look->zoom < NAMES_FROM_ZOOM && look->page != HOB_PAGE_PAPER;
}

static void
plain_box (HobPen *pen, const HobPartView *view)
{
  const HobSymbolSize *size = &view->kind->symbol[view->sheet];

  if (view->layer != HOB_LAYER_PAPER || size->w <= 20)
    return; /* a junction is the dot where its wires meet */
  pen_rect (pen, -size->w / 2, -size->h / 2, size->w, size->h);
  pen_fill_stroke (pen, HOB_ROLE_PANEL, HOB_ROLE_INK, 2);
}

static void
draw_symbol (const HobStage *stage, int part, const HobPartView *view)
{
  const HobPlacement *at = &stage->range->parts[part].at[stage->sheet];

  pen_push (stage->pen, at->x, at->y, at->turn);
  if (view->kind->draw != NULL)
    view->kind->draw (stage->pen, view);
  else
    plain_box (stage->pen, view);
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
            && hob_cell_symbol (&stage->range->parts[k], stage->sheet, &box))
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
draw_name (const HobStage *stage, int part)
{
  const HobPart *p = &stage->range->parts[part];
  double px = hob_type_px (stage->look, HOB_TEXT_NAME);
  HobTextPlace place;
  HobTextSize size;
  HobRole role;
  char *line[2];

  if (hob_cell_is_dot (p, stage->sheet) || hob_cell_is_attached (stage->range, part, stage->sheet))
    return;
  hob_cell_name_place (stage->range, part, stage->sheet, stage->look, &place);
  size = hob_cell_name_lines (stage->range, part, stage->sheet, stage->type, stage->look, line);
  role = hob_on_cavity (stage->range, stage->sheet, place.x, place.y) ? HOB_ROLE_CAVITY_INK
                                                                      : HOB_ROLE_INK;
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
  draw_name (stage, part);
}

void
hob_parts_paper (const HobStage *stage)
{
  each_part (stage, paper_symbol);
  if (!is_far_off (stage->look))
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

static char *
figure_with (const HobKind *kind, double value, int digits)
{
  const HobQuantityDef *quantity;

  if (kind->figure < 0 || isnan (value))
    return NULL;
  quantity = &kind->quantities[kind->figure];
  if (fabs (value) < hob_differ_floor (quantity->dim) / 2)
    value = 0;
  return hob_quantity_text (quantity, value, digits);
}

/* What a person reads off a figure. */
static double
shown (const HobKind *kind, double value, int digits)
{
  g_autofree char *text = hob_figure_text (value, kind->quantities[kind->figure].dim,
                                           HOB_UNITS_TRADE, digits);

  return g_ascii_strtod (text, NULL);
}

/* Does the difference that a person reads off the two figures come near the true one? */
static gboolean
tells_difference (const HobKind *kind, const HobPartScene *scene, int digits)
{
  const double near = 0.15;
  double true_one = shown (kind, scene->figure, 7) - shown (kind, scene->should_be, 7);
  double read = shown (kind, scene->figure, digits) - shown (kind, scene->should_be, digits);

  return !isfinite (true_one) || fabs (read - true_one) <= near * fabs (true_one);
}

/* Both figures, with as many digits as it takes to see how far apart they are. */
static void
two_figures (const HobKind *kind, const HobPartScene *scene, char **figure, char **should_be)
{
  for (int digits = 2; digits <= 5; digits++)
    {
      g_free (*figure);
      g_free (*should_be);
      *figure = figure_with (kind, scene->figure, digits);
      *should_be = scene->differs ? figure_with (kind, scene->should_be, digits) : NULL;
      if (*figure == NULL || *should_be == NULL
          || (strcmp (*figure, *should_be) != 0 && tells_difference (kind, scene, digits)))
        return;
    }
}

/* Nothing flows, glows or turns: no figure stands there to be read, unless something should. */
static gboolean
is_nothing (const HobKind *kind, const HobPartScene *scene)
{
  HobDimension dim = kind->figure >= 0 ? kind->quantities[kind->figure].dim : HOB_DIM_NUMBER;

  return dim != HOB_DIM_TEMPERATURE && !scene->differs
         && fabs (scene->figure) < hob_differ_floor (dim) / 2;
}

double
hob_part_figure_width (const HobStage *stage, int part)
{
  const HobKind *kind = stage->range->parts[part].kind;
  g_autofree char *figure = NULL, *should_be = NULL;

  two_figures (kind, &stage->scene->parts[part], &figure, &should_be);
  if (figure == NULL || is_nothing (kind, &stage->scene->parts[part]))
    return 0;
  return hob_sign_figure_width (stage, figure, should_be);
}

/* What the second line of a figure takes, level with those of its neighbors. */
static gboolean
second_box (const HobStage *stage, int part, HobBox *box)
{
  double w, left;
  HobTextPlace place;

  if (!stage->scene->parts[part].differs
      || !hob_cell_symbol (&stage->range->parts[part], stage->sheet, box))
    return FALSE;
  w = hob_part_figure_width (stage, part);
  hob_cell_figure_place (stage->range, part, stage->sheet, stage->look, &place);
  left = place.x
         - w * (place.align == HOB_ALIGN_LEFT ? 0 : place.align == HOB_ALIGN_RIGHT ? 1 : 0.5);
  *box = (HobBox){ left - 4, place.y, left + w + 4, place.y + 10 };
  return w > 0;
}

/* A second line that would lie on a neighbor's goes one line lower than that. */
static gboolean
is_lowered (const HobStage *stage, int part)
{
  HobBox own, other;

  if (second_box (stage, part, &own))
    for (int k = part - 1; k >= 0; k--)
      if (second_box (stage, k, &other) && hob_box_meet (&own, &other))
        return !is_lowered (stage, k);
  return FALSE;
}

static void
state_figure (const HobStage *stage, int part)
{
  const HobPartScene *scene = &stage->scene->parts[part];
  const HobKind *kind = stage->range->parts[part].kind;
  g_autofree char *figure = NULL, *should_be = NULL;
  HobTextPlace place;

  two_figures (kind, scene, &figure, &should_be);
  if (figure == NULL || is_nothing (kind, scene)
      || (stage->sheet == HOB_SHEET_GAS && kind->opening > 0)) /* there its opening says more */
    return;
  hob_cell_figure_place (stage->range, part, stage->sheet, stage->look, &place);
  hob_sign_figure (stage, &place,
                   (HobFigureHow){ hob_on_cavity (stage->range, stage->sheet, place.x, place.y),
                                   scene->fault >= 0, is_lowered (stage, part) },
                   figure, should_be);
}

/* A ring goes around the smallest thing that misbehaves: of a part with several branches the one
 * between its two terminals. */
static gboolean
blamed_box (const HobStage *stage, int part, HobBox *ring)
{
  const HobKind *kind = stage->range->parts[part].kind;
  int k = stage->scene->parts[part].blamed;
  HobPoint a, b;

  if (k < 0 || k >= kind->n_elements || kind->n_elements < 3 || kind->elements[k].a < 0
      || kind->elements[k].b < 0
      || !hob_anchor (stage->range, stage->sheet, (HobEnd){ part, kind->elements[k].a }, FALSE, &a)
      || !hob_anchor (stage->range, stage->sheet, (HobEnd){ part, kind->elements[k].b }, FALSE, &b))
    return FALSE;
  *ring = (HobBox){ fmin (a.x, b.x), fmin (a.y, b.y) - 8, fmax (a.x, b.x), fmax (a.y, b.y) + 8 };
  return TRUE;
}

#define RING_WIDEST 400.0 /* px: round anything larger the ring goes round its figure */

static HobBox
ring_box (const HobStage *stage, int part, const HobBox *box)
{
  double half, px = hob_type_px (stage->look, HOB_TEXT_FIGURE);
  HobTextPlace place;
  HobBox blamed;

  if (blamed_box (stage, part, &blamed))
    return blamed;
  if (box->x1 - box->x0 <= RING_WIDEST)
    return *box;
  hob_cell_figure_place (stage->range, part, stage->sheet, stage->look, &place);
  half = hob_part_figure_width (stage, part) / 2 + 6;
  return (HobBox){ place.x - half, place.y - 0.8 * px, place.x + half, place.y + 0.2 * px };
}

/* Under the figure of a part that suffers from what another one does. */
static void
state_arc (const HobStage *stage, int part, double drawn)
{
  double half = fmax (hob_part_figure_width (stage, part) / 2, 14);
  HobTextPlace place;
  double x;

  hob_cell_figure_place (stage->range, part, stage->sheet, stage->look, &place);
  x = place.x
      + (place.align == HOB_ALIGN_LEFT ? half : place.align == HOB_ALIGN_RIGHT ? -half : 0);
  if (hob_type_shows (stage->look, HOB_TEXT_SMALL)) /* what it should be is between */
    place.y += (is_lowered (stage, part) ? 2.3 : 1.2) * hob_type_px (stage->look, HOB_TEXT_SMALL);
  hob_sign_arc (stage->pen, x, place.y + 3, half,
                hob_stage_is_dark (stage, place.x, place.y), drawn);
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
    state_arc (stage, part, drawn);
  if (stage->scene->chosen_part == part)
    hob_sign_selection (stage->pen, box, on_cavity);
}

static gboolean
asked_for (const HobStage *stage, int part)
{
  const HobPartScene *scene = &stage->scene->parts[part];

  return stage->scene->chosen_part == part || scene->differs || scene->culprit;
}

static void
state_texts (const HobStage *stage, int part, const HobBox *box)
{
  gboolean far_off = is_far_off (stage->look);

  if (!far_off || asked_for (stage, part))
    state_figure (stage, part);
  if (far_off && asked_for (stage, part))
    draw_name (stage, part);
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
  each_part (stage, state_hand);
  for (guint k = 0; k < tags->len; k++)
    hob_tag_draw (stage, &g_array_index (tags, HobTag, k));
}
