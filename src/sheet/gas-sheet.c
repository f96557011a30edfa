/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The gas sheet: pipes as tubes, hatched where gas is at rest, wedged where it flows. */

#include "sheet/signs.h"
#include "base/figure.h"
#include <math.h>

#define WALL 1.5
#define AT_REST_PA 25.0 /* Pa (0.1 in. w.c.): less is an empty pipe */
#define LEAST_POWER 1.0 /* W */

/* The ground beside it is cleared, so that it passes over another. */
static void
knock_out (const HobStage *stage, const HobRoute *route)
{
  hob_route_path (stage->pen, route, HOB_TUBE_WIDTH);
  pen_stroke (stage->pen, HOB_ROLE_SHEET, HOB_TUBE_WIDTH + 8);
}

void
hob_tube_paper (const HobStage *stage, const HobRoute *route)
{
  hob_route_path (stage->pen, route, 0);
  pen_stroke (stage->pen, HOB_ROLE_GAS, HOB_TUBE_WIDTH);
  hob_route_path (stage->pen, route, 0);
  pen_stroke (stage->pen, HOB_ROLE_SHEET, HOB_TUBE_WIDTH - 2 * WALL);
}

void
hob_gas_paper (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_pipes; k++)
    if (stage->routes->pipes[k].n >= 2)
      {
        knock_out (stage, &stage->routes->pipes[k]);
        hob_tube_paper (stage, &stage->routes->pipes[k]);
      }
  hob_parts_paper (stage);
}

/* Does any pipe lie under the box? */
static gboolean
pipe_under (const HobStage *stage, const HobBox *box)
{
  const double half = HOB_TUBE_WIDTH / 2 + 1;

  for (int k = 0; k < stage->routes->n_pipes; k++)
    for (int i = 0; i + 1 < stage->routes->pipes[k].n; i++)
      {
        HobPoint a = stage->routes->pipes[k].p[i], b = stage->routes->pipes[k].p[i + 1];
        HobBox run = { fmin (a.x, b.x) - half, fmin (a.y, b.y) - half, fmax (a.x, b.x) + half,
                       fmax (a.y, b.y) + half };

        if (hob_box_meet (&run, box))
          return TRUE;
      }
  return FALSE;
}

/* What flows, over the middle of the longest level run that has room for it. */
static void
power_figure (const HobStage *stage, const HobRoute *route, double watt)
{
  g_autofree char *figure = hob_person_text (watt, HOB_DIM_POWER, 2);
  double w = hob_type_width (stage->type, HOB_TEXT_SMALL, figure),
         px = hob_type_px (stage->look, HOB_TEXT_SMALL);
  double longest = w + 12;
  HobPoint at = { 0 };

  for (int k = 0; k + 1 < route->n; k++)
    {
      double x = (route->p[k].x + route->p[k + 1].x) / 2,
             y = route->p[k].y - HOB_TUBE_WIDTH / 2 - 5;
      HobBox box = { x - w / 2, y - px, x + w / 2, y + 2 };

      if (fabs (route->p[k].y - route->p[k + 1].y) > 0.5
          || fabs (route->p[k].x - route->p[k + 1].x) <= longest || pipe_under (stage, &box))
        continue;
      longest = fabs (route->p[k].x - route->p[k + 1].x);
      at = (HobPoint){ x, y };
    }
  if (longest > w + 12)
    pen_text (stage->pen, at.x, at.y, HOB_TEXT_SMALL, HOB_ROLE_INK, HOB_ALIGN_CENTRE, figure);
}

void
hob_tube_state (const HobStage *stage, int pipe)
{
  const HobPipeScene *p = &stage->scene->pipes[pipe];
  const HobRoute *route = &stage->routes->pipes[pipe];

  if (p->power >= LEAST_POWER)
    hob_sign_along (stage, route, -1, HOB_TILE_WEDGE, p->flow >= 0,
                    hob_sheet_memory_phase (stage->memory, TRUE, pipe));
  else if (p->pressure >= AT_REST_PA)
    hob_sign_along (stage, route, -1, HOB_TILE_HATCH, TRUE, 0);
}

/* Beside what flows, how much; a burner has its own figure. */
static void
state_of_pipe (const HobStage *stage, int pipe)
{
  const HobPart *to = &stage->range->parts[stage->range->pipes[pipe].to.part];
  double power = stage->scene->pipes[pipe].power;

  hob_tube_state (stage, pipe);
  if (power >= LEAST_POWER && (to->kind->flags & HOB_KIND_BURNER) == 0)
    power_figure (stage, &stage->routes->pipes[pipe], power);
}

static void
chosen_pipe (const HobStage *stage, const HobRoute *route)
{
  HobBox box;

  if (route->n < 2)
    return;
  box = (HobBox){ route->p[0].x, route->p[0].y, route->p[0].x, route->p[0].y };
  for (int k = 1; k < route->n; k++)
    box = (HobBox){ fmin (box.x0, route->p[k].x), fmin (box.y0, route->p[k].y),
                    fmax (box.x1, route->p[k].x), fmax (box.y1, route->p[k].y) };
  hob_sign_selection (stage->pen, &box, FALSE);
}

void
hob_gas_state (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_pipes; k++)
    state_of_pipe (stage, k);
  if (stage->scene->chosen_wire >= 0 && stage->scene->chosen_wire < stage->routes->n_pipes)
    chosen_pipe (stage, &stage->routes->pipes[stage->scene->chosen_wire]);
  hob_parts_state (stage);
}
