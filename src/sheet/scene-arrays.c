/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A scene's arrays: one block of numbers for each part, in the order of its kind's tables. */

#include "sheet/scene.h"
#include <math.h>
#include <string.h>

gsize
hob_part_view_numbers (const HobKind *kind)
{
  return (gsize) (kind->n_settings + kind->n_controls + kind->n_states + kind->n_modes
                  + kind->n_quantities + 2 * kind->n_terminals + 2 * kind->n_elements
                  + kind->n_ports + kind->n_ducts)
         + 1;
}

static double *
take (double **numbers, int n)
{
  double *taken = *numbers;

  *numbers += n;
  return taken;
}

void
hob_part_view_still (HobPartView *view, const HobRange *range, int part, HobSheet sheet,
                     double *numbers)
{
  const HobPart *p = &range->parts[part];
  const HobKind *kind = p->kind;
  double *set, *ctl;

  memset (numbers, 0, hob_part_view_numbers (kind) * sizeof (double));
  *view = (HobPartView){ .kind = kind, .sheet = sheet, .air = 298.15, .still = TRUE };
  view->v = (HobComplex *) (void *) take (&numbers, 2 * kind->n_terminals);
  view->i = (HobComplex *) (void *) take (&numbers, 2 * kind->n_elements);
  view->set = set = take (&numbers, kind->n_settings);
  view->ctl = ctl = take (&numbers, kind->n_controls);
  view->y = take (&numbers, kind->n_states);
  view->mode = take (&numbers, kind->n_modes);
  view->quantity = take (&numbers, kind->n_quantities);
  view->p = take (&numbers, kind->n_ports);
  view->q = take (&numbers, kind->n_ducts);
  for (int k = 0; k < kind->n_settings; k++)
    set[k] = p->set[k];
  for (int k = 0; k < kind->n_controls; k++)
    ctl[k] = kind->controls[k].start;
}

HobScene *
hob_scene_new (const HobRange *range)
{
  HobScene *scene = g_new0 (HobScene, 1);

  scene->range = range;
  scene->parts = g_new0 (HobPartScene, (gsize) range->n_parts + 1);
  scene->wires = g_new0 (HobWireScene, (gsize) range->n_wires + 1);
  scene->pipes = g_new0 (HobPipeScene, (gsize) range->n_pipes + 1);
  scene->leads = g_new0 (HobLeadScene, (gsize) range->n_leads + 1);
  for (int k = 0; k < range->n_parts; k++)
    {
      hob_part_view_still (&scene->parts[k].view, range, k, HOB_SHEET_WIRING,
                           g_new (double, hob_part_view_numbers (range->parts[k].kind)));
      scene->parts[k].view.layer = HOB_LAYER_STATE;
      scene->parts[k].figure = NAN;
      scene->parts[k].should_be = NAN;
      scene->parts[k].fault = scene->parts[k].noted = -1;
    }
  scene->speed = 1;
  scene->chosen_part = scene->chosen_wire = -1;
  return scene;
}

void
hob_scene_free (HobScene *scene)
{
  if (scene == NULL)
    return;
  for (int k = 0; k < scene->range->n_parts; k++)
    g_free ((gpointer) scene->parts[k].view.v); /* the first of its numbers */
  g_free (scene->parts);
  g_free (scene->wires);
  g_free (scene->pipes);
  g_free (scene->leads);
  g_free (scene);
}
