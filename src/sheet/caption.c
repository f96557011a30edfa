/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/caption.h"
#include "base/i18n.h"
#include "run/differ.h"
#include "sheet/differences.h"
#include "sheet/pen-measure.h"
#include "sheet/signs.h"
#include <math.h>
#include <string.h>

#define LINE 1.2        /* em between two lines */
#define BESIDE 8.0      /* px from a symbol's edge to its caption */
#define ARC_ROOM 8.0    /* px below a caption for the arc of a part that suffers */
#define RINGS 6         /* distances at which a place is looked for */
#define PLACES 12       /* at each of them */

/* ---- What is said ---- */

void
hob_caption_add (HobCaption *caption, HobTextSize size, HobRole role, char *text)
{
  if (text == NULL || caption->n >= HOB_CAPTION_LINES)
    g_free (text);
  else
    caption->line[caption->n++] = (HobCaptionLine){ size, role, text };
}

void
hob_caption_clear (HobCaption *caption)
{
  for (int k = 0; k < caption->n; k++)
    g_free (caption->line[k].text);
}

/* Nothing flows, glows or turns: no figure is there to be read, unless something should be. */
static gboolean
is_nothing (const HobQuantityDef *quantity, const HobPartScene *scene)
{
  return quantity->dim != HOB_DIM_TEMPERATURE && !scene->differs
         && fabs (scene->figure) < hob_differ_floor (quantity->dim) / 2;
}

/* "2.7 A", and below it "should be 3.5 A". */
static void
add_figure (const HobStage *stage, HobCaption *caption)
{
  const HobPartScene *scene = &stage->scene->parts[caption->part];
  const HobKind *kind = scene->view.kind;
  g_autofree char *now = NULL, *normal = NULL;

  if (kind->figure < 0 || isnan (scene->figure)
      || is_nothing (&kind->quantities[kind->figure], scene))
    return;
  hob_two_figures (&kind->quantities[kind->figure], scene->figure,
                   scene->differs ? scene->should_be : NAN, &now, &normal);
  hob_caption_add (caption, HOB_TEXT_FIGURE, HOB_ROLE_INK, g_steal_pointer (&now));
  if (normal != NULL)
    /* Translators: under a figure, "2.9 A" and below it "should be 3.4 A". */
    hob_caption_add (caption, hob_type_least (stage->look), HOB_ROLE_INK2,
                     /* Translators: a figure, under the one that is read now. */
                     g_strdup_printf (_ ("should be %s"), normal));
}

#define LONG_WORDS 24 /* bytes: more takes two lines */

static void
add_words (HobCaption *caption, const char *words)
{
  gsize half = strlen (words) / 2;
  const char *space = half > LONG_WORDS / 2 ? strchr (words + half, ' ') : NULL;

  if (space != NULL)
    hob_caption_add (caption, HOB_TEXT_SMALL, HOB_ROLE_INK,
                     g_strndup (words, (gsize) (space - words)));
  hob_caption_add (caption, HOB_TEXT_SMALL, HOB_ROLE_INK,
                   g_strdup (space != NULL ? space + 1 : words));
}

/* What its figure doesn't say: "contact closed", and below it "yes, should be no". */
static void
add_note (const HobStage *stage, HobCaption *caption)
{
  const HobPartScene *scene = &stage->scene->parts[caption->part];
  const HobQuantityDef *quantity;
  g_autofree char *figures = NULL;

  if (scene->noted < 0 || !hob_type_shows (stage->look, HOB_TEXT_SMALL)
      || (stage->sheet == HOB_SHEET_GAS && scene->noted == scene->view.kind->opening - 1))
    return;
  quantity = &scene->view.kind->quantities[scene->noted];
  figures = hob_figures_text (quantity, scene->view.quantity[scene->noted], scene->note_should_be);
  add_words (caption, _ (quantity->words));
  hob_caption_add (caption, HOB_TEXT_SMALL, HOB_ROLE_INK, g_steal_pointer (&figures));
}

static gboolean
is_far_off (const HobLook *look)
{
  return look->zoom < HOB_NAMES_FROM_ZOOM && look->page != HOB_PAGE_PAPER;
}

/* A line too small to be drawn takes no room either. */
static void
drop_unreadable (const HobLook *look, HobCaption *caption)
{
  int n = 0;

  for (int k = 0; k < caption->n; k++)
    if (hob_type_shows (look, caption->line[k].size))
      caption->line[n++] = caption->line[k];
    else
      g_free (caption->line[k].text);
  caption->n = n;
}

static void
compose (const HobStage *stage, HobCaption *caption)
{
  const HobPartScene *scene = &stage->scene->parts[caption->part];

  caption->asked = stage->scene->chosen_part == caption->part || scene->differs || scene->culprit
                   || scene->noted >= 0;
  if (is_far_off (stage->look) && !caption->asked)
    return;
  if (stage->sheet == HOB_SHEET_GAS && scene->view.kind->opening > 0)
    hob_gas_opening_lines (stage, caption);
  else
    add_figure (stage, caption);
  if (stage->sheet == HOB_SHEET_CUTAWAY && !scene->differs)
    hob_caption_add (caption, HOB_TEXT_SMALL, HOB_ROLE_INK, hob_cutaway_glow (&scene->view));
  if (stage->sheet != HOB_SHEET_WIRING)
    hob_gas_lines (stage, caption);
  add_note (stage, caption);
  drop_unreadable (stage->look, caption);
}

/* ---- The room that it takes ---- */

double
hob_caption_depth (const HobStage *stage, const HobCaption *caption)
{
  double depth = 0;

  for (int k = 1; k < caption->n; k++)
    depth += LINE * hob_type_px (stage->look, caption->line[k].size);
  return depth;
}

double
hob_caption_width (const HobStage *stage, const HobCaption *caption)
{
  double w = 0;

  for (int k = 0; k < caption->n; k++)
    w = fmax (w, hob_type_width (stage->type, caption->line[k].size, caption->line[k].text));
  return w;
}

static HobBox
box_at (const HobStage *stage, const HobCaption *caption, const HobTextPlace *place)
{
  double w = hob_caption_width (stage, caption),
         top = 0.78 * hob_type_px (stage->look, caption->line[0].size),
         foot = 0.24 * hob_type_px (stage->look, caption->line[caption->n - 1].size);
  double x = hob_text_left (place->x, w, place->align);

  return (HobBox){ x, place->y - top, x + w,
                   place->y + hob_caption_depth (stage, caption) + foot };
}

/* Of the name at @place, in one line or two; FALSE: it has none here. */
static gboolean
name_box (const HobStage *stage, int part, const HobTextPlace *place, HobBox *box)
{
  double px = hob_type_px (stage->look, HOB_TEXT_NAME), w = 0;
  HobTextSize size;
  char *line[2];

  if (!hob_cell_name_box (stage->range, part, stage->sheet, stage->type, stage->look, box))
    return FALSE;
  size = hob_cell_name_lines (stage->range, part, stage->sheet, stage->type, stage->look, line);
  for (int k = 0; k < 2 && line[k] != NULL; k++)
    w = fmax (w, hob_type_width (stage->type, size, line[k]));
  box->x0 = hob_text_left (place->x, w, place->align);
  *box = (HobBox){ box->x0, place->y - (0.79 + (line[1] != NULL ? HOB_NAME_PITCH : 0)) * px,
                   box->x0 + w, place->y + 0.26 * px };
  g_free (line[0]);
  g_free (line[1]);
  return TRUE;
}

/* ---- Where ---- */

/* What a place costs for each thing that it would be on. */
#define COST_ASKED 1e4   /* what differs in another part */
#define COST_SYMBOL 600.0
#define COST_NAME 900.0  /* on screen names are on the paper below and can't give way */
#define COST_GIVES_WAY 90.0
#define COST_EDGE 200.0  /* half on what is dark */
#define COST_LINE 40.0
#define COST_PIPE 250.0
#define COST_OUTSIDE 1e5

typedef struct
{
  const HobStage *stage;
  GArray *captions;
  GArray *asked;  /* HobBox: captions, names and rings that don't give way */
  GArray *others; /* HobBox: names and figures that may have to */
  double bounds[4];
} Layout;

static int
n_met (const GArray *boxes, const HobBox *box)
{
  int n = 0;

  for (guint k = 0; k < boxes->len; k++)
    n += hob_box_meet (&g_array_index (boxes, HobBox, k), box);
  return n;
}

static int
lines_under (const HobRoute *routes, int n, double half, const HobBox *box)
{
  int under = 0;

  for (int k = 0; k < n; k++)
    for (int i = 0; i + 1 < routes[k].n; i++)
      {
        HobPoint a = routes[k].p[i], b = routes[k].p[i + 1];
        HobBox run = { fmin (a.x, b.x) - half, fmin (a.y, b.y) - half, fmax (a.x, b.x) + half,
                       fmax (a.y, b.y) + half };

        under += hob_box_meet (&run, box);
      }
  return under;
}

static int
symbols_under (const Layout *l, int part, const HobBox *box)
{
  int under = 0;

  for (int k = 0; k < l->stage->range->n_parts; k++)
    {
      HobBox symbol;

      if (k != part && !hob_cell_is_interior (l->stage->range->parts[k].kind)
          && hob_cell_symbol (&l->stage->range->parts[k], l->stage->sheet, &symbol))
        under += hob_box_meet (&symbol, box);
    }
  return under;
}

static gboolean
is_outside (const Layout *l, const HobBox *box)
{
  return box->x0 < l->bounds[0] || box->y0 < l->bounds[1]
         || box->x1 > l->bounds[0] + l->bounds[2] || box->y1 > l->bounds[1] + l->bounds[3];
}

static gboolean
is_half_dark (const Layout *l, const HobBox *box)
{
  const HobStage *s = l->stage;
  gboolean dark = hob_on_cavity (s->range, s->sheet, box->x0, box->y0);

  return s->sheet == HOB_SHEET_CUTAWAY
         && (hob_on_cavity (s->range, s->sheet, box->x1, box->y0) != dark
             || hob_on_cavity (s->range, s->sheet, box->x0, box->y1) != dark
             || hob_on_cavity (s->range, s->sheet, box->x1, box->y1) != dark);
}

static double
cost_of (const Layout *l, int part, const HobBox *box)
{
  const HobRoutes *routes = l->stage->routes;
  double gives_way = l->stage->look->page == HOB_PAGE_SCREEN ? COST_NAME : COST_GIVES_WAY;

  return COST_ASKED * n_met (l->asked, box) + gives_way * n_met (l->others, box)
         + COST_SYMBOL * symbols_under (l, part, box)
         + (is_outside (l, box) ? COST_OUTSIDE : 0) + (is_half_dark (l, box) ? COST_EDGE : 0)
         + COST_LINE
               * (lines_under (routes->wires, routes->n_wires, HOB_WIRE_WIDTH / 2, box)
                  + lines_under (routes->leads, routes->n_leads, HOB_LEAD_WIDTH / 2, box))
         + COST_PIPE * lines_under (routes->pipes, routes->n_pipes, HOB_TUBE_WIDTH / 2 + 1, box);
}

/* The symbol of a part that has one here, and what hangs from it. */
static HobBox
body_of (const HobStage *stage, int part)
{
  HobBox box = { 0 };

  hob_cell_symbol (&stage->range->parts[part], stage->sheet, &box);
  hob_gas_hold_sign (stage, part, &box);
  return box;
}

/* Where it may be, beginning with where it belongs: below, on either side, above the name; then
 * the same farther away. */
static int
candidates (const Layout *l, const HobCaption *caption, HobTextPlace *place)
{
  const HobStage *stage = l->stage;
  double px = hob_type_px (stage->look, caption->line[0].size),
         depth = hob_caption_depth (stage, caption), w = hob_caption_width (stage, caption);
  const HobBox s = body_of (stage, caption->part);
  int n = 1;

  for (int ring = 0; ring < RINGS; ring++)
    {
      double off = BESIDE * (1 + ring * (ring + 1) / 2.0);
      double below = s.y1 + off + 0.78 * px, beside = (s.y0 + s.y1 - depth) / 2 + 0.36 * px,
             above = s.y0 - off - 11 - depth - hob_type_px (stage->look, HOB_TEXT_NAME);

      place[n++] = (HobTextPlace){ (s.x0 + s.x1) / 2, below, HOB_ALIGN_CENTRE };
      place[n++] = (HobTextPlace){ s.x1 + off, beside, HOB_ALIGN_LEFT };
      place[n++] = (HobTextPlace){ s.x0 - off, beside, HOB_ALIGN_RIGHT };
      place[n++] = (HobTextPlace){ s.x0, below, HOB_ALIGN_LEFT };
      place[n++] = (HobTextPlace){ s.x1, below, HOB_ALIGN_RIGHT };
      place[n++] = (HobTextPlace){ s.x1 - w / 4, below, HOB_ALIGN_LEFT };
      place[n++] = (HobTextPlace){ s.x0 + w / 4, below, HOB_ALIGN_RIGHT };
      place[n++] = (HobTextPlace){ s.x1 + off, s.y1 + 0.36 * px, HOB_ALIGN_LEFT };
      place[n++] = (HobTextPlace){ s.x0 - off, s.y1 + 0.36 * px, HOB_ALIGN_RIGHT };
      place[n++] = (HobTextPlace){ s.x1 + off, s.y0 - depth + 0.36 * px, HOB_ALIGN_LEFT };
      place[n++] = (HobTextPlace){ s.x0 - off, s.y0 - depth + 0.36 * px, HOB_ALIGN_RIGHT };
      place[n++] = (HobTextPlace){ (s.x0 + s.x1) / 2, above, HOB_ALIGN_CENTRE };
    }
  return n;
}

#define RING_WIDEST 400.0 /* px: round anything larger the ring goes round its figure */

gboolean
hob_caption_is_ringed (const HobStage *stage, const HobCaption *caption)
{
  HobBox symbol;

  return stage->scene->parts[caption->part].culprit && caption->n > 0
         && hob_cell_symbol (&stage->range->parts[caption->part], stage->sheet, &symbol)
         && symbol.x1 - symbol.x0 > RING_WIDEST;
}

/* The box with the room of the arc below it, or of the ring around it. */
static HobBox
with_sign (const HobStage *stage, const HobCaption *caption, HobBox box)
{
  const HobPartScene *scene = &stage->scene->parts[caption->part];

  if (hob_caption_is_ringed (stage, caption))
    return hob_sign_ring_room (&box, stage->range->parts[caption->part].id);
  if (scene->differs && !scene->culprit)
    box.y1 += ARC_ROOM;
  return box;
}

/* What the best place costs. */
static double
find_place (Layout *l, HobCaption *caption)
{
  HobTextPlace place[1 + RINGS * PLACES];
  HobTextPlace best = caption->place;
  double least = INFINITY;
  int n;

  place[0] = caption->place;
  n = candidates (l, caption, place);
  for (int k = 0; k < n && least > 0; k++)
    {
      HobBox box = with_sign (l->stage, caption, box_at (l->stage, caption, &place[k]));
      double cost = cost_of (l, caption->part, &box);

      cost += k == 0 ? 0 : 6 + 100 * ((k - 1) / PLACES); /* a neighbor gives way first */
      if (cost >= least)
        continue;
      least = cost;
      best = place[k];
    }
  caption->place = best;
  caption->box = box_at (l->stage, caption, &best);
  return least;
}

/* In a small view there may be no place that is not on another one: what only suffers is left out
 * then. A file has room for all of them. */
static gboolean
may_be_left_out (const HobStage *stage, int part)
{
  return stage->look->page == HOB_PAGE_SCREEN && !stage->scene->parts[part].culprit
         && stage->scene->chosen_part != part;
}

#define SPACE 0.15 /* em on either side: words of two parts in one row would read as one */

static void
take_box (const Layout *l, GArray *taken, HobBox box)
{
  double space = SPACE * hob_type_px (l->stage->look, HOB_TEXT_NAME);

  box.x0 -= space;
  box.x1 += space;
  g_array_append_val (taken, box);
}

static void
settle (Layout *l, HobCaption *caption)
{
  double cost = find_place (l, caption);

  if (cost >= COST_ASKED && may_be_left_out (l->stage, caption->part))
    {
      caption->shown = caption->named = FALSE;
      return;
    }
  take_box (l, l->asked, with_sign (l->stage, caption, caption->box));
}

static void
take_boxes (GArray *taken, const GArray *boxes)
{
  g_array_append_vals (taken, boxes->data, boxes->len);
}

/* Codes on wires and letters at terminals don't give way. */
static void
take_codes (Layout *l)
{
  HobStage stage = *l->stage;
  g_autoptr (GArray) letters = NULL;

  if (stage.sheet != HOB_SHEET_WIRING)
    return;
  stage.pen = hob_measure_pen_new (stage.type, stage.look);
  hob_wiring_letters (&stage);
  letters = hob_measure_pen_finish (stage.pen);
  take_boxes (l->asked, letters);
  for (guint k = 0; stage.plates != NULL && k < stage.plates->len; k++)
    g_array_append_val (l->asked, g_array_index (stage.plates, HobPlate, k).box);
}

/* Of what it goes around: a ring that comes nearer would cut it in two. */
#define MOST_NEARER 0.5

/* Moves the side of the box that is next to the text, so that a ring around it keeps off. */
static void
keep_off (HobBox *box, const HobBox *text, const char *id)
{
  const HobBox room = hob_sign_ring_room (box, id);
  double *const side[] = { &box->x0, &box->y0, &box->x1, &box->y1 };
  const double by[] = { text->x1 - room.x0, text->y1 - room.y0, text->x0 - room.x1,
                        text->y0 - room.y1 };
  int least = 0;

  if (!hob_box_meet (&room, text))
    return;
  for (int k = 1; k < 4; k++)
    if (fabs (by[k]) < fabs (by[least]))
      least = k;
  if (fabs (by[least]) <= MOST_NEARER * fabs (*side[least] - *side[(least + 2) % 4]))
    *side[least] += by[least];
}

static gboolean
holds (const HobBox *box, const HobBox *text)
{
  return text->x0 >= box->x0 - 1e-6 && text->y0 >= box->y0 - 1e-6 && text->x1 <= box->x1 + 1e-6
         && text->y1 <= box->y1 + 1e-6;
}

/* Takes the room of a ring around a part that misbehaves.  So far nothing is taken but codes and
 * letters, which can't give way to it. */
static void
take_ring (Layout *l, const GArray *codes, HobCaption *caption)
{
  const char *id = l->stage->range->parts[caption->part].id;
  HobBox room;

  if (!l->stage->scene->parts[caption->part].culprit
      || !hob_cell_symbol (&l->stage->range->parts[caption->part], l->stage->sheet, &caption->ring)
      || hob_cell_is_interior (l->stage->range->parts[caption->part].kind))
    return;
  if (l->stage->sheet == HOB_SHEET_WIRING)
    hob_wiring_hold_letters (l->stage, caption->part, &caption->ring);
  for (guint k = 0; k < codes->len; k++)
    if (!holds (&caption->ring, &g_array_index (codes, HobBox, k)))
      keep_off (&caption->ring, &g_array_index (codes, HobBox, k), id);
  room = hob_sign_ring_room (&caption->ring, id);
  g_array_append_val (l->asked, room);
}

static void
take_rings (Layout *l)
{
  g_autoptr (GArray) codes = g_array_copy (l->asked);

  for (guint k = 0; k < l->captions->len; k++)
    take_ring (l, codes, &g_array_index (l->captions, HobCaption, k));
}

static gboolean
is_kept (const Layout *l, const HobBox *box)
{
  return n_met (l->asked, box) == 0 && !is_outside (l, box);
}

#define MOST_DOWN 4.0 /* px: half of what is between a name and its part */

/* Large letters would reach beyond the sheet.  A name above a part comes down no nearer to it than
 * names keep anyway. */
static void
move_inside (const Layout *l, HobCaption *caption, HobBox *box)
{
  double aside = fmax (0, l->bounds[0] + 2 - box->x0)
                 - fmax (0, box->x1 - l->bounds[0] - l->bounds[2] + 2);
  double down = fmin (fmax (0, l->bounds[1] + 1 - box->y0), MOST_DOWN);

  caption->name.x += aside;
  caption->name.y += down;
  *box = (HobBox){ box->x0 + aside, box->y0 + down, box->x1 + aside, box->y1 + down };
}

static gboolean
is_on_line (const Layout *l, const HobBox *box)
{
  const HobRoutes *routes = l->stage->routes;

  return lines_under (routes->wires, routes->n_wires, HOB_WIRE_WIDTH / 2, box) > 0
         || lines_under (routes->leads, routes->n_leads, HOB_LEAD_WIDTH / 2, box) > 0
         || lines_under (routes->pipes, routes->n_pipes, HOB_TUBE_WIDTH / 2, box) > 0;
}

/* Where a name may go, of its own width and of a line. */
static const struct
{
  double aside, raised;
} moves[] = { { 0, 0 },   { 0, 0.25 },  { 0, 0.5 }, { 0, 1 },    { 0.4, 0 },  { -0.4, 0 },
              { 0.4, 1 }, { -0.4, 1 },  { 0, 2 },   { 0.8, 0 },  { -0.8, 0 }, { 1.1, 0 },
              { -1.1, 0 }, { 2, 0 },    { -2, 0 },  { 3, 0 },    { -3, 0 } };

/* In which order they are tried: first off lines and symbols, then, near its part, on them if need
 * be; last where it is hardly seen whose name it is. */
static const struct
{
  gsize from, to;
  gboolean choosy; /* not on a line or on another part's symbol */
} rounds[] = {
  { 0, 1, FALSE },
  { 1, 13, TRUE },
  { 1, 9, FALSE },
  { 13, G_N_ELEMENTS (moves), TRUE },
};

/* Takes the name there if it can be; @beside: not on its own part either.  @home: where it is, and
 * where it then is. */
static gboolean
move_name (Layout *l, HobCaption *caption, gsize move, gboolean choosy, gboolean beside,
           HobBox *home)
{
  double pitch = HOB_NAME_PITCH * hob_type_px (l->stage->look, HOB_TEXT_NAME);
  double dx = moves[move].aside * (home->x1 - home->x0), dy = moves[move].raised * pitch;
  HobBox own = { 0 }, box = { home->x0 + dx, home->y0 - dy, home->x1 + dx, home->y1 - dy };

  hob_cell_symbol (&l->stage->range->parts[caption->part], l->stage->sheet, &own);
  if (!is_kept (l, &box) || (beside && hob_box_meet (&box, &own))
      || (choosy && (is_on_line (l, &box) || symbols_under (l, caption->part, &box) > 0)))
    return FALSE;
  caption->name.x += dx;
  caption->name.y -= dy;
  *home = box;
  return TRUE;
}

static gboolean
find_name (Layout *l, HobCaption *caption, gboolean beside, HobBox *home)
{
  for (gsize r = 0; r < G_N_ELEMENTS (rounds); r++)
    for (gsize k = rounds[r].from; k < rounds[r].to; k++)
      if (move_name (l, caption, k, rounds[r].choosy, beside, home))
        return TRUE;
  return FALSE;
}

#define ROWS_BESIDE 4

/* A name that stays goes above or beside what is there, off lines and symbols if it can; beside its
 * part where all that is above is outside; where there is no room, that of a part that only suffers
 * gives way. */
static HobBox
keep_name (Layout *l, HobCaption *caption, HobBox home)
{
  double down = fmax (0, l->bounds[1] + 1 - home.y0), y = caption->name.y;
  double pitch = HOB_NAME_PITCH * hob_type_px (l->stage->look, HOB_TEXT_NAME);

  caption->named = TRUE;
  if (find_name (l, caption, FALSE, &home))
    return home;
  for (int row = 0; row < ROWS_BESIDE && down > 0; row++)
    {
      double by = down + row * pitch;
      HobBox lower = { home.x0, home.y0 + by, home.x1, home.y1 + by };

      caption->name.y = y + by;
      if (find_name (l, caption, TRUE, &lower))
        return lower;
    }
  caption->name.y = y;
  caption->named = l->stage->scene->parts[caption->part].culprit;
  return home;
}

/* Names: those of what differs stay, first of all of what misbehaves. */
static void
take_names (Layout *l, gboolean asked, gboolean culprits)
{
  for (guint k = 0; k < l->captions->len; k++)
    {
      HobCaption *caption = &g_array_index (l->captions, HobCaption, k);
      const HobPart *part = &l->stage->range->parts[k];
      gboolean far_off = is_far_off (l->stage->look);
      HobBox box;

      if (caption->asked != asked || l->stage->scene->parts[k].culprit != culprits
          || !caption->has_name)
        continue;
      box = caption->name_box;
      caption->named = (far_off ? asked : l->stage->look->page != HOB_PAGE_SCREEN)
                       && (asked || !hob_cell_is_face (part, l->stage->sheet));
      if (caption->named)
        move_inside (l, caption, &box);
      if (asked && caption->named)
        box = keep_name (l, caption, box);
      caption->name_box = box;
      if (asked && (caption->named || l->stage->look->page == HOB_PAGE_SCREEN))
        take_box (l, l->asked, box);
      else if (!asked && !far_off)
        take_box (l, l->others, box);
    }
}

/* A name or a figure that doesn't differ gives way to all that is there. */
static void
give_way (Layout *l)
{
  g_array_set_size (l->others, 0);
  for (guint k = 0; k < l->captions->len; k++)
    {
      HobCaption *caption = &g_array_index (l->captions, HobCaption, k);

      if (caption->asked || !caption->has_name)
        continue;
      if (caption->named)
        caption->named = n_met (l->asked, &caption->name_box) == 0
                         && n_met (l->others, &caption->name_box) == 0;
      if (caption->named || l->stage->look->page == HOB_PAGE_SCREEN)
        take_box (l, l->others, caption->name_box);
    }
  for (guint k = 0; k < l->captions->len; k++)
    {
      HobCaption *caption = &g_array_index (l->captions, HobCaption, k);

      if (caption->asked || caption->n == 0)
        continue;
      if (is_outside (l, &caption->box))
        find_place (l, caption);
      caption->shown = n_met (l->asked, &caption->box) == 0
                       && n_met (l->others, &caption->box) == 0;
      if (caption->shown)
        take_box (l, l->others, caption->box);
    }
}

/* Where it belongs; what begins with words in small letters begins as near to the part. */
static void
home (const HobStage *stage, HobCaption *caption)
{
  HobBox symbol;

  hob_cell_figure_place (stage->range, caption->part, stage->sheet, stage->look, &caption->place);
  if (!hob_cell_symbol (&stage->range->parts[caption->part], stage->sheet, &symbol)
      || caption->place.y < symbol.y1)
    return; /* or it is beside it */
  caption->place.y += body_of (stage, caption->part).y1 - symbol.y1
                      - 0.74
                            * (hob_type_px (stage->look, HOB_TEXT_FIGURE)
                               - hob_type_px (stage->look, caption->line[0].size));
}

static void
begin (Layout *l)
{
  for (int k = 0; k < l->stage->range->n_parts; k++)
    {
      HobCaption caption = { .part = k };
      HobBox symbol;

      if (hob_cell_symbol (&l->stage->range->parts[k], l->stage->sheet, &symbol))
        {
          hob_cell_name_place (l->stage->range, k, l->stage->sheet, l->stage->look, &caption.name);
          compose (l->stage, &caption);
          caption.ring = symbol;
        }
      if (caption.n > 0)
        {
          home (l->stage, &caption);
          caption.box = box_at (l->stage, &caption, &caption.place);
          caption.shown = TRUE;
        }
      g_array_append_val (l->captions, caption);
    }
}

/* Finds all places anew. */
static void
lay (Layout *l)
{
  hob_stage_bounds (l->stage, l->bounds);
  for (guint k = 0; k < l->captions->len; k++)
    {
      HobCaption *caption = &g_array_index (l->captions, HobCaption, k);

      caption->has_name = name_box (l->stage, (int) k, &caption->name, &caption->name_box);
    }
  take_codes (l);
  take_rings (l);
  take_names (l, TRUE, TRUE);
  take_names (l, TRUE, FALSE);
  take_names (l, FALSE, FALSE);
  for (int culprits = 1; culprits >= 0; culprits--)
    for (guint k = 0; k < l->captions->len; k++)
      {
        HobCaption *caption = &g_array_index (l->captions, HobCaption, k);

        if (caption->asked && caption->n > 0
            && l->stage->scene->parts[k].culprit == (gboolean) culprits)
          settle (l, caption);
      }
  give_way (l);
}

static HobKeptCaption
kept_of (const HobStage *stage, const HobCaption *caption)
{
  const HobPartScene *scene = &stage->scene->parts[caption->part];

  return (HobKeptCaption){ caption->asked, scene->culprit, scene->differs, caption->n,
                           caption->named, caption->shown, caption->has_name, caption->name,
                           caption->place, caption->name_box, caption->ring };
}

static gboolean
is_as_kept (const HobStage *stage, const GArray *captions, const GArray *kept)
{
  if (kept->len != captions->len)
    return FALSE;
  for (guint k = 0; k < kept->len; k++)
    {
      const HobKeptCaption *was = &g_array_index (kept, HobKeptCaption, k);
      const HobCaption *caption = &g_array_index (captions, HobCaption, k);
      const HobKeptCaption is = kept_of (stage, caption);

      if (was->asked != is.asked || was->culprit != is.culprit || was->differs != is.differs
          || (was->n > 0) != (is.n > 0) || was->n < is.n)
        return FALSE;
    }
  return TRUE;
}

static void
take_kept (const HobStage *stage, GArray *captions, const GArray *kept)
{
  for (guint k = 0; k < kept->len; k++)
    {
      const HobKeptCaption *was = &g_array_index (kept, HobKeptCaption, k);
      HobCaption *caption = &g_array_index (captions, HobCaption, k);

      caption->named = was->named;
      caption->shown = was->shown;
      caption->name = was->name;
      caption->has_name = was->has_name;
      caption->name_box = was->name_box;
      caption->place = was->place;
      caption->ring = was->ring;
      if (caption->n > 0)
        caption->box = box_at (stage, caption, &caption->place);
    }
}

static void
keep (const HobStage *stage, const GArray *captions, GArray *kept)
{
  g_array_set_size (kept, 0);
  for (guint k = 0; k < captions->len; k++)
    {
      const HobKeptCaption one = kept_of (stage, &g_array_index (captions, HobCaption, k));

      g_array_append_val (kept, one);
    }
}

GArray *
hob_captions_lay (const HobStage *stage)
{
  Layout l = { stage, g_array_new (FALSE, TRUE, sizeof (HobCaption)),
               g_array_new (FALSE, FALSE, sizeof (HobBox)),
               g_array_new (FALSE, FALSE, sizeof (HobBox)), { 0 } };
  GArray *kept = stage->memory != NULL
                     ? hob_sheet_memory_captions (stage->memory, stage->sheet, stage->look) : NULL;

  g_array_set_clear_func (l.captions, (GDestroyNotify) hob_caption_clear);
  begin (&l);
  if (kept != NULL && is_as_kept (stage, l.captions, kept))
    take_kept (stage, l.captions, kept);
  else
    {
      lay (&l);
      if (kept != NULL)
        keep (stage, l.captions, kept);
    }
  for (guint k = 0; k < l.captions->len && stage->sheet == HOB_SHEET_CUTAWAY; k++)
    {
      HobCaption *caption = &g_array_index (l.captions, HobCaption, k);

      caption->on_cavity = caption->n > 0
                           && hob_on_cavity (stage->range, stage->sheet,
                                             (caption->box.x0 + caption->box.x1) / 2,
                                             (caption->box.y0 + caption->box.y1) / 2);
    }
  g_array_unref (l.asked);
  g_array_unref (l.others);
  return l.captions;
}

/* ---- Drawing ---- */

/* Where the two come nearest to each other. */
static void
nearest (const HobStage *stage, const HobCaption *caption, HobPoint *from, HobPoint *to)
{
  const HobBox *b = &caption->box, s = body_of (stage, caption->part);

  to->x = CLAMP ((b->x0 + b->x1) / 2, s.x0, s.x1);
  to->y = CLAMP ((b->y0 + b->y1) / 2, s.y0, s.y1);
  from->x = CLAMP (to->x, b->x0, b->x1);
  from->y = CLAMP (to->y, b->y0, b->y1);
  to->x = CLAMP (from->x, s.x0, s.x1);
  to->y = CLAMP (from->y, s.y0, s.y1);
}

double
hob_caption_gap (const HobStage *stage, const HobCaption *caption)
{
  HobPoint from, to;

  nearest (stage, caption, &from, &to);
  return hypot (from.x - to.x, from.y - to.y);
}

/* There was no room beside the part. */
void
hob_caption_draw_leader (const HobStage *stage, const HobCaption *caption)
{
  HobPoint from, to;

  if (caption->n == 0 || !caption->shown
      || hob_cell_is_interior (stage->range->parts[caption->part].kind)
      || hob_caption_gap (stage, caption) <= HOB_CAPTION_NEAR)
    return;
  nearest (stage, caption, &from, &to);
  pen_segment (stage->pen, from.x, from.y, to.x, to.y);
  pen_stroke (stage->pen, HOB_ROLE_PENCIL, 1);
}

void
hob_caption_draw (const HobStage *stage, const HobCaption *caption)
{
  const HobBox *box = &caption->box;
  double y = caption->place.y;

  if (caption->n == 0 || !caption->shown)
    return;
  if (caption->on_cavity || caption->asked)
    {
      pen_rect (stage->pen, box->x0 - 3, box->y0 - 1, box->x1 - box->x0 + 6,
                box->y1 - box->y0 + 1);
      pen_fill (stage->pen, caption->on_cavity ? HOB_ROLE_CAVITY : HOB_ROLE_SHEET);
    }
  for (int k = 0; k < caption->n; k++)
    {
      const HobCaptionLine *line = &caption->line[k];

      y += k > 0 ? LINE * hob_type_px (stage->look, line->size) : 0;
      pen_text (stage->pen, caption->place.x, y, line->size,
                caption->on_cavity ? HOB_ROLE_CAVITY_INK : line->role, caption->place.align,
                line->text);
    }
}
