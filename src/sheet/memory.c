/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a scene keeps between frames: laid-out text, routes, the repeated pictures of signs, and
 * how far each sign has moved.  Motion is in wall time: a hold stops it, simulated speed does not
 * hurry it. */

#include "sheet/draw.h"
#include <math.h>
#include <string.h>

typedef struct
{
  /*< owned >*/
  cairo_surface_t *pictures[4];
  HobTheme theme;
  double scale;
} Picture;

struct _HobSheetMemory
{
  /*< owned >*/
  HobType *type;
  HobRoutes *routes[HOB_N_SHEETS];
  GArray *plates; /* HobPlate */
  HobLook plates_look;
  Picture tiles[HOB_N_TILES];
  double *wire_at, *pipe_at;      /* px that the signs have moved */
  double *ringed_at, *tagged_at;  /* wall s since which; NaN: not */
  int n_parts, n_wires, n_pipes;
  double clock;                   /* wall s that all this stands at */
  gboolean still;
  guint64 seed;
  gpointer kept; /* owned */
  GDestroyNotify destroy;
};

#define RING_TIME 0.35  /* s to draw it on */
#define SWING_TIME 0.4  /* s */
#define SWING 0.12      /* rad */

static double *
not_yet (int n)
{
  double *at = g_new (double, (gsize) n + 1);

  for (int k = 0; k < n; k++)
    at[k] = NAN;
  return at;
}

HobSheetMemory *
hob_sheet_memory_new (const HobRange *range)
{
  HobSheetMemory *memory = g_new0 (HobSheetMemory, 1);

  memory->n_parts = range->n_parts;
  memory->n_wires = range->n_wires;
  memory->n_pipes = range->n_pipes;
  memory->wire_at = g_new0 (double, (gsize) range->n_wires + 1);
  memory->pipe_at = g_new0 (double, (gsize) range->n_pipes + 1);
  memory->ringed_at = not_yet (range->n_parts);
  memory->tagged_at = not_yet (range->n_parts);
  memory->clock = NAN;
  return memory;
}

static void
drop_pictures (Picture *tile)
{
  for (int q = 0; q < 4; q++)
    g_clear_pointer (&tile->pictures[q], cairo_surface_destroy);
}

void
hob_sheet_memory_free (HobSheetMemory *memory)
{
  if (memory == NULL)
    return;
  if (memory->destroy != NULL)
    memory->destroy (memory->kept);
  hob_type_free (memory->type);
  for (int s = 0; s < HOB_N_SHEETS; s++)
    hob_routes_free (memory->routes[s]);
  g_clear_pointer (&memory->plates, g_array_unref);
  for (int t = 0; t < HOB_N_TILES; t++)
    drop_pictures (&memory->tiles[t]);
  g_free (memory->wire_at);
  g_free (memory->pipe_at);
  g_free (memory->ringed_at);
  g_free (memory->tagged_at);
  g_free (memory);
}

void
hob_sheet_memory_keep (HobSheetMemory *memory, gpointer kept, GDestroyNotify destroy)
{
  memory->kept = kept;
  memory->destroy = destroy;
}

gpointer
hob_sheet_memory_kept (HobSheetMemory *memory)
{
  return memory->kept;
}

void
hob_sheet_memory_set_seed (HobSheetMemory *memory, guint64 seed)
{
  memory->seed = seed;
}

guint64
hob_scene_seed (const HobScene *scene)
{
  return ((const HobSheetMemory *) scene->memory)->seed;
}

HobType *
hob_sheet_memory_type (HobSheetMemory *memory, const HobLook *look)
{
  if (memory->type == NULL)
    memory->type = hob_type_new (look);
  hob_type_set_look (memory->type, look);
  return memory->type;
}

const HobRoutes *
hob_sheet_memory_routes (HobSheetMemory *memory, const HobRange *range, HobSheet sheet)
{
  if (memory->routes[sheet] == NULL)
    memory->routes[sheet] = hob_routes_new (range, sheet);
  return memory->routes[sheet];
}

const GArray *
hob_sheet_memory_plates (HobSheetMemory *memory, const HobRange *range, const HobLook *look)
{
  if (memory->plates != NULL
      && (memory->plates_look.zoom != look->zoom
          || memory->plates_look.text_scale != look->text_scale))
    g_clear_pointer (&memory->plates, g_array_unref);
  memory->plates_look = *look;
  if (memory->plates == NULL)
    memory->plates
        = hob_wiring_plates (range, hob_sheet_memory_routes (memory, range, HOB_SHEET_WIRING),
                             hob_sheet_memory_type (memory, look), look);
  return memory->plates;
}

/* Wall time moves them, faster with more current or more heat. */
static void
move_lines (HobSheetMemory *memory, const HobScene *scene, double dt)
{
  for (int k = 0; k < memory->n_wires; k++)
    memory->wire_at[k]
        = fmod (memory->wire_at[k] + dt * hob_tick_speed (scene->wires[k].current), 24 * 840);
  for (int k = 0; k < memory->n_pipes; k++)
    memory->pipe_at[k]
        = fmod (memory->pipe_at[k] + dt * hob_wedge_speed (scene->pipes[k].power), 32 * 840);
}

static void
note (double *at, gboolean there, double clock)
{
  if (!there)
    *at = NAN;
  else if (isnan (*at))
    *at = clock;
}

void
hob_sheet_memory_move (HobSheetMemory *memory, const HobScene *scene)
{
  double dt = scene->clock - memory->clock;

  if (!scene->still && dt > 0)
    move_lines (memory, scene, fmin (dt, 0.25));
  memory->clock = scene->clock;
  memory->still = scene->still;
  for (int k = 0; k < memory->n_parts; k++)
    {
      note (&memory->ringed_at[k], scene->parts[k].differs, scene->clock);
      note (&memory->tagged_at[k], scene->parts[k].fault >= 0, scene->clock);
    }
}

double
hob_sheet_memory_phase (const HobSheetMemory *memory, gboolean pipe, int line)
{
  return pipe ? memory->pipe_at[line] : memory->wire_at[line];
}

double
hob_sheet_memory_ring (const HobSheetMemory *memory, int part)
{
  if (memory->still || isnan (memory->ringed_at[part]))
    return 1;
  return CLAMP ((memory->clock - memory->ringed_at[part]) / RING_TIME, 0.02, 1);
}

double
hob_sheet_memory_swing (const HobSheetMemory *memory, int part)
{
  double along = (memory->clock - memory->tagged_at[part]) / SWING_TIME;

  if (memory->still || isnan (along) || along >= 1 || along < 0)
    return 0;
  return SWING * (1 - along) * cos (3 * G_PI * along);
}

static cairo_surface_t *
picture_of (HobTheme theme, double scale, HobTile tile, int quarter)
{
  int along = (int) fmax (1, round (hob_tile_pitch (tile) * scale)),
      across = (int) ceil (HOB_TILE_ACROSS * scale);
  gboolean level = (quarter & 1) == 0;
  cairo_surface_t *surface = cairo_image_surface_create (
      CAIRO_FORMAT_ARGB32, level ? along : across, level ? across : along);
  cairo_t *cr = cairo_create (surface);

  cairo_translate (cr, (level ? along : across) / 2.0, (level ? across : along) / 2.0);
  cairo_rotate (cr, quarter * G_PI_2);
  cairo_scale (cr, along / hob_tile_pitch (tile), scale);
  hob_tile_draw_one (cr, theme, tile);
  cairo_destroy (cr);
  return surface;
}

cairo_surface_t *
hob_sheet_memory_tile (HobSheetMemory *memory, HobTheme theme, double scale, HobTile tile,
                       int quarter)
{
  Picture *kept = &memory->tiles[tile];

  if (kept->theme != theme || kept->scale != scale)
    drop_pictures (kept);
  kept->theme = theme;
  kept->scale = scale;
  if (kept->pictures[quarter & 3] == NULL)
    kept->pictures[quarter & 3] = picture_of (theme, scale, tile, quarter & 3);
  return kept->pictures[quarter & 3];
}

/* ---- A scene's arrays ---- */

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

/* Cold, at rest, controls as at load: what the paper shows, and the arrays that a scene fills. */
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
hob_scene_new_bare (const HobRange *range)
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
      scene->parts[k].fault = -1;
    }
  scene->speed = 1;
  scene->chosen_part = scene->chosen_wire = -1;
  scene->memory = hob_sheet_memory_new (range);
  return scene;
}

void
hob_scene_free (HobScene *scene)
{
  if (scene == NULL)
    return;
  for (int k = 0; k < scene->range->n_parts; k++)
    g_free ((gpointer) scene->parts[k].view.v); /* the first of its numbers */
  hob_sheet_memory_free (scene->memory);
  g_free (scene->parts);
  g_free (scene->wires);
  g_free (scene->pipes);
  g_free (scene->leads);
  g_free (scene);
}
