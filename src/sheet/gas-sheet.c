/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The gas sheet: pipes as tubes, hatched where gas is at rest, wedged where it flows. */

#include "sheet/caption.h"
#include "sheet/signs.h"
#include "base/figure.h"
#include "base/i18n.h"
#include "parts/symbol.h"
#include <math.h>

#define WALL 1.5
#define AT_REST_PA 25.0 /* Pa (0.1 in. w.c.): less is an empty pipe */
#define LEAST_POWER 1.0 /* W */
#define UNLIT_SHOWN 50.0 /* W */
#define GATHERED_SHOWN 3e3 /* J: a normal lighting has less */
#define KITCHEN_SHOWN 1e6 /* J: a hundredth of what would burn in 60 m³: reckoned */
#define CAP 3.0         /* px that a cap stands out */

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

static gboolean
is_piped (const HobRange *range, int part, int port)
{
  for (int k = 0; k < range->n_pipes; k++)
    {
      const HobLine *pipe = &range->pipes[k];

      if ((pipe->from.part == part && pipe->from.terminal == port)
          || (pipe->to.part == part && pipe->to.terminal == port))
        return TRUE;
    }
  return FALSE;
}

/* A port without a pipe is capped, and drawn so: nobody should look for a leak there. */
static void
draw_caps (const HobStage *stage)
{
  for (int part = 0; part < stage->range->n_parts; part++)
    for (int port = 0; port < stage->range->parts[part].kind->n_ports; port++)
      {
        HobPoint p;

        if (is_piped (stage->range, part, port)
            || !hob_anchor (stage->range, HOB_SHEET_GAS, (HobEnd){ part, port }, TRUE, &p))
          continue;
        pen_rect (stage->pen, p.x - CAP, p.y - HOB_TUBE_WIDTH / 2 - 2, 2 * CAP,
                  HOB_TUBE_WIDTH + 4);
        pen_fill (stage->pen, HOB_ROLE_INK);
      }
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
  draw_caps (stage);
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

static gboolean
writing_under (const HobStage *stage, const HobBox *box)
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      const HobCaption *caption = &g_array_index (stage->captions, HobCaption, k);

      if ((caption->shown && hob_box_meet (&caption->box, box))
          || (caption->has_name && hob_box_meet (&caption->name_box, box)))
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
          || fabs (route->p[k].x - route->p[k + 1].x) <= longest || pipe_under (stage, &box)
          || writing_under (stage, &box))
        continue;
      longest = fabs (route->p[k].x - route->p[k + 1].x);
      at = (HobPoint){ x, y };
    }
  if (longest > w + 12)
    pen_text (stage->pen, at.x, at.y, HOB_TEXT_SMALL, HOB_ROLE_INK, HOB_ALIGN_CENTRE, figure);
}

void
hob_tube_contents (const HobStage *stage, const HobRoute *route, int pipe, double power,
                   gboolean forward)
{
  if (power >= LEAST_POWER)
    hob_sign_along (stage, route, -1, HOB_TILE_WEDGE, forward,
                    hob_sheet_memory_phase (stage->memory, TRUE, pipe));
  else if (stage->scene->pipes[pipe].pressure >= AT_REST_PA)
    hob_sign_along (stage, route, -1, HOB_TILE_HATCH, TRUE, 0);
}

void
hob_tube_state (const HobStage *stage, int pipe)
{
  const HobPipeScene *p = &stage->scene->pipes[pipe];

  hob_tube_contents (stage, &stage->routes->pipes[pipe], pipe, p->power, p->flow >= 0);
}

/* ---- What there is to read beside the figures ---- */

static gboolean
has_gathered (const HobPartScene *scene)
{
  gboolean kitchen = (scene->view.kind->flags & HOB_KIND_HOUSE) != 0;

  return scene->gathered >= (kitchen ? KITCHEN_SHOWN : GATHERED_SHOWN);
}

void
hob_gas_opening_lines (const HobStage *stage, HobCaption *caption)
{
  const HobPartScene *scene = &stage->scene->parts[caption->part];
  double opening = scene->view.quantity[scene->view.kind->opening - 1];
  g_autofree char *share = hob_percent_text (opening);

  if (!(opening > 0) && !scene->opening_differs)
    return;
  hob_caption_add (caption, HOB_TEXT_FIGURE, HOB_ROLE_INK,
                   /* Translators: a gas valve, as a percentage. */
                   g_strdup_printf (_ ("%s open"), share));
  if (scene->opening_differs)
    {
      g_autofree char *normal = hob_percent_text (scene->opening_should_be);

      hob_caption_add (caption, hob_type_least (stage->look), HOB_ROLE_INK2,
                       g_strdup_printf (_ ("should be %s"), normal));
    }
}

static gboolean
has_pressure (const HobKind *kind)
{
  return kind->figure >= 0 && kind->quantities[kind->figure].dim == HOB_DIM_PRESSURE;
}

/* The pressure that the house gives, and what comes to a part that has a pressure of its own. */
static void
pressure_lines (const HobStage *stage, HobCaption *caption, int pipe)
{
  const HobLine *line = &stage->range->pipes[pipe];
  const HobKind *from = stage->range->parts[line->from.part].kind,
                *to = stage->range->parts[line->to.part].kind;
  const HobPipeScene *p = &stage->scene->pipes[pipe];

  if (line->from.part == caption->part && (from->flags & HOB_KIND_SUPPLY_GAS) != 0)
    hob_caption_add (caption, HOB_TEXT_FIGURE, HOB_ROLE_INK,
                     hob_person_text (p->pressure, HOB_DIM_PRESSURE, 2));
  if (line->to.part == caption->part && has_pressure (to) && !has_pressure (from))
    {
      g_autofree char *arrives = hob_person_text (p->arrives, HOB_DIM_PRESSURE, 2);

      /* Translators: the pressure that comes to the regulator, under the one that it makes. */
      hob_caption_add (caption, HOB_TEXT_SMALL, HOB_ROLE_INK2,
                       g_strdup_printf (_ ("inlet %s"), arrives));
    }
}

void
hob_gas_lines (const HobStage *stage, HobCaption *caption)
{
  const HobPartScene *scene = &stage->scene->parts[caption->part];

  for (int k = 0; k < stage->range->n_pipes && stage->sheet == HOB_SHEET_GAS
                  && !stage->scene->eyes_only; k++)
    pressure_lines (stage, caption, k);
  if (scene->unlit >= UNLIT_SHOWN)
    {
      g_autofree char *heat = hob_person_text (scene->unlit, HOB_DIM_POWER, 2);

      hob_caption_add (caption, HOB_TEXT_SMALL, HOB_ROLE_CAUTION,
                       /* Translators: gas that escapes without a flame, as heat: "18,000 Btu/h
                        * unlit". */
                       g_strdup_printf (_ ("%s unlit"), heat));
    }
  else if (has_gathered (scene))
    hob_caption_add (caption, HOB_TEXT_SMALL, HOB_ROLE_CAUTION,
                     g_strdup (_ ("unburned gas buildup")));
}

#define ESCAPES 24.0 /* px that its sign reaches */

/* On the cutaway it goes where it would go in the room. */
static gboolean
escapes_up (const HobStage *stage)
{
  return stage->sheet == HOB_SHEET_CUTAWAY && !stage->scene->gas_sinks;
}

void
hob_gas_hold_sign (const HobStage *stage, int part, HobBox *box)
{
  if (stage->scene->parts[part].unlit >= UNLIT_SHOWN && !escapes_up (stage)
      && stage->sheet != HOB_SHEET_WIRING)
    box->y1 += ESCAPES;
}

static void
gas_signs (const HobStage *stage, int part, const HobBox *box)
{
  const HobPartScene *scene = &stage->scene->parts[part];
  gboolean dark = hob_stage_is_dark (stage, (box->x0 + box->x1) / 2, (box->y0 + box->y1) / 2);
  gboolean up = escapes_up (stage);

  if (has_gathered (scene))
    hob_sign_gathered (stage->pen, box, scene->gathered, stage->scene->gas_sinks, dark);
  if (scene->unlit >= UNLIT_SHOWN)
    hob_symbol_escaping (stage->pen, (box->x0 + box->x1) / 2,
                         up ? (box->y0 + box->y1) / 2 : box->y1, ESCAPES, up, dark);
}

static void
each_part_here (const HobStage *stage,
                void (*each) (const HobStage *stage, int part, const HobBox *box))
{
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox box;

      if (hob_cell_symbol (&stage->range->parts[k], stage->sheet, &box))
        each (stage, k, &box);
    }
}

void
hob_gas_signs (const HobStage *stage)
{
  each_part_here (stage, gas_signs);
}

/* Beside what flows, how much; a burner has its own figure. */
void
hob_gas_texts (const HobStage *stage)
{
  for (int k = 0; k < stage->routes->n_pipes; k++)
    {
      const HobPart *to = &stage->range->parts[stage->range->pipes[k].to.part];
      double power = stage->scene->pipes[k].power;

      if (power >= LEAST_POWER && (to->kind->flags & HOB_KIND_BURNER) == 0)
        power_figure (stage, &stage->routes->pipes[k], power);
    }
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
    hob_tube_state (stage, k);
  hob_gas_texts (stage);
  if (stage->scene->chosen_wire >= 0 && stage->scene->chosen_wire < stage->routes->n_pipes)
    chosen_pipe (stage, &stage->routes->pipes[stage->scene->chosen_wire]);
  hob_parts_state (stage);
  hob_gas_signs (stage);
}
