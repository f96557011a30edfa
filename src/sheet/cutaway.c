/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The cutaway: the oven opened, burners above it; glow, flame, sparks and warm air as they would
 * be seen. From the oven's valves the gas goes to its burners; what rises goes behind what there
 * is to read. */

#include "sheet/caption.h"
#include "sheet/lens.h"
#include "base/i18n.h"
#include "parts/symbol.h"
#include "physics/material.h"
#include <math.h>

#define WALL 6.0 /* px of a shared body around what is in it */

/* The body that a part shares with others of its kind; FALSE: an earlier one has drawn it, or it
 * has a body of its own. */
static gboolean
shared_body (const HobStage *stage, int part, HobBox *body)
{
  const HobKind *kind = stage->range->parts[part].kind;
  HobBox box;
  int n = 0;

  for (int k = 0; (kind->flags & HOB_KIND_ONE_BODY) != 0 && k < stage->range->n_parts; k++)
    if (stage->range->parts[k].kind == kind
        && hob_cell_symbol (&stage->range->parts[k], stage->sheet, &box))
      {
        if (k < part)
          return FALSE;
        if (n++ == 0)
          *body = box;
        *body = (HobBox){ fmin (body->x0, box.x0), fmin (body->y0, box.y0),
                          fmax (body->x1, box.x1), fmax (body->y1, box.y1) };
      }
  return n > 1;
}

static void
draw_shared_bodies (const HobStage *stage)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox body;

      if (!shared_body (stage, k, &body))
        continue;
      pen_rect (stage->pen, body.x0 - WALL, body.y0 - WALL, body.x1 - body.x0 + 2 * WALL,
                body.y1 - body.y0 + 2 * WALL);
      pen_fill_stroke (stage->pen, HOB_ROLE_METAL, HOB_ROLE_INK, HOB_OUTLINE);
    }
}

void
hob_cutaway_paper (const HobStage *stage)
{
  HobBody body;

  if (hob_body_of (stage->range, stage->sheet, &body))
    hob_body_paper (stage, &body);
  draw_shared_bodies (stage);
  hob_parts_paper (stage);
  for (int k = 0; k < stage->routes->n_pipes; k++)
    if (stage->routes->pipes[k].n >= 2)
      hob_tube_paper (stage, &stage->routes->pipes[k]);
}

/* But not past the oven's lower edge. */
static void
hide (const HobStage *stage, const HobBox *box)
{
  double y1 = box->y1;
  HobBody body;

  if (hob_body_of (stage->range, stage->sheet, &body) && box->y0 < body.oven.y1)
    y1 = fmin (y1, body.oven.y1);
  pen_hide (stage->pen, box->x0, box->y0, box->x1 - box->x0, y1 - box->y0);
}

static void
hide_around (const HobStage *stage, const HobBox *text)
{
  const HobBox box = { text->x0 - 4, text->y0 - 2, text->x1 + 4, text->y1 + 2 };

  hide (stage, &box);
}

static void
hide_behind_part (const HobStage *stage, int part)
{
  const HobPart *p = &stage->range->parts[part];
  const HobCaption *caption = stage->captions != NULL
                                  ? &g_array_index (stage->captions, HobCaption, part) : NULL;
  HobBox box;

  if (hob_cell_is_interior (p->kind) || !hob_cell_symbol (p, stage->sheet, &box))
    return;
  if ((p->kind->flags & HOB_KIND_BURNER) == 0)
    hide (stage, &box);
  if (caption != NULL && caption->has_name)
    hide_around (stage, &caption->name_box);
  if (caption != NULL && caption->shown && caption->n > 0)
    hide_around (stage, &caption->box);
}

void
hob_cutaway_hide (const HobStage *stage)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      const HobPlacement *at = &stage->range->parts[k].at[stage->sheet];

      if (at->placed && hob_on_cavity (stage->range, stage->sheet, at->x, at->y))
        hide_behind_part (stage, k);
    }
}

/* ---- Glow ---- */

char *
hob_cutaway_glow (const HobPartView *view)
{
  const HobKind *kind = view->kind;

  for (int k = 0; k < kind->n_quantities; k++)
    if (kind->quantities[k].say == HOB_SAY_GLOW && (kind->flags & HOB_KIND_IGNITER) != 0)
      {
        const char *word = hob_glow_word (view->quantity[k]);

        return g_strdup (word != NULL ? _ (word) : NULL);
      }
  return NULL;
}

/* ---- The riser, which feeds the valves one after the other and the manifold last ---- */

static gboolean
is_branch (const HobStage *stage, int pipe, double x)
{
  const HobRoute *route = &stage->routes->pipes[pipe];

  return route->n == 2 && fabs (route->p[0].x - x) < 1;
}

/* The pipe with the lowest branch above y; −1: none is left. */
static int
next_branch (const HobStage *stage, double x, double y)
{
  int next = -1;

  for (int k = 0; k < stage->routes->n_pipes; k++)
    if (is_branch (stage, k, x) && stage->routes->pipes[k].p[0].y < y
        && (next < 0 || stage->routes->pipes[k].p[0].y > stage->routes->pipes[next].p[0].y))
      next = k;
  return next;
}

/* Each stretch shows what is left to flow in it. */
static void
riser_state (const HobStage *stage, int pipe)
{
  const HobPipeScene *scene = stage->scene->pipes;
  const HobPoint *p = stage->routes->pipes[pipe].p;
  double left = scene[pipe].power, y = p[1].y;
  HobPoint from = p[0];

  for (int next = 0; next >= 0;)
    {
      next = next_branch (stage, p[1].x, y);
      HobPoint to = next >= 0 ? stage->routes->pipes[next].p[0] : p[2], end = p[3];
      HobPoint stretch[4] = { from, from.y == p[1].y ? p[1] : to, to, end };
      int n = (from.y == p[1].y ? 3 : 2) + (next < 0);
      HobRoute route = { .p = stretch, .n = n };

      if (from.y != p[1].y)
        stretch[2] = end;
      hob_tube_contents (stage, &route, pipe, left, scene[pipe].flow >= 0);
      if (next >= 0)
        left -= scene[next].power;
      y = to.y;
      from = to;
    }
}

static gboolean
is_riser (const HobRoute *route)
{
  return route->n == 4 && route->p[1].x == route->p[2].x && route->p[3].x < route->p[0].x;
}

void
hob_cutaway_state (const HobStage *stage)
{
  HobBody body;

  if (hob_body_of (stage->range, stage->sheet, &body))
    hob_body_state (stage, &body);
  for (int k = 0; k < stage->routes->n_pipes; k++)
    if (is_riser (&stage->routes->pipes[k]))
      riser_state (stage, k);
    else if (stage->routes->pipes[k].n >= 2)
      hob_tube_state (stage, k);
  pen_push (stage->pen, 0, 0, 0);
  hob_cutaway_hide (stage);
  hob_gas_signs (stage);
  pen_pop (stage->pen);
  if (hob_body_of (stage->range, stage->sheet, &body))
    hob_lens_lead (stage, &body);
  hob_parts_state (stage);
  if (hob_body_of (stage->range, stage->sheet, &body))
    hob_lens_state (stage, &body);
}
