/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Motion is in wall time: a pause stops it, simulated speed does not hurry it. */

#include "sheet/brackets.h"
#include "sheet/caption.h"
#include "sheet/memory.h"
#include "sheet/signs.h"
#include "sheet/tags.h"
#include <math.h>
#include <string.h>

struct _HobSheetMemory
{
  /*< owned >*/
  HobType *type;
  HobRoutes *routes[HOB_N_SHEETS];
  double bounds[HOB_N_SHEETS][4]; /* w 0: not reckoned yet */
  double view[HOB_N_SHEETS][4], view_zoom[HOB_N_SHEETS]; /* zoom 0: none */
  GArray *plates; /* HobPlate */
  HobLook plates_look;
  HobTiles *tiles;
  GArray *tags; /* HobTag */
  guint64 tags_of; /* what they were laid for */
  GArray *brackets; /* HobBracket */
  guint64 brackets_of;
  GArray *captions; /* HobKeptCaption */
  HobLook captions_look;
  HobSheet captions_sheet;
  double *wire_at, *pipe_at;      /* px that the signs have moved */
  double *ringed_at, *tagged_at;  /* wall s since which; NaN: not */
  int n_parts, n_wires, n_pipes;
  double clock;                   /* wall s that all this stands at */
  gboolean still;
  /*< borrowed >*/
  const HobRange *range;
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

  memory->range = range;
  memory->tiles = hob_tiles_new ();
  memory->captions = g_array_new (FALSE, TRUE, sizeof (HobKeptCaption));
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

void
hob_sheet_memory_free (HobSheetMemory *memory)
{
  if (memory == NULL)
    return;
  hob_type_free (memory->type);
  for (int s = 0; s < HOB_N_SHEETS; s++)
    hob_routes_free (memory->routes[s]);
  g_clear_pointer (&memory->plates, g_array_unref);
  g_clear_pointer (&memory->tags, g_array_unref);
  g_clear_pointer (&memory->brackets, g_array_unref);
  g_array_unref (memory->captions);
  hob_tiles_free (memory->tiles);
  g_free (memory->wire_at);
  g_free (memory->pipe_at);
  g_free (memory->ringed_at);
  g_free (memory->tagged_at);
  g_free (memory);
}

GArray *
hob_sheet_memory_captions (HobSheetMemory *memory, HobSheet sheet, const HobLook *look)
{
  const HobLook *kept = &memory->captions_look;

  if (memory->captions_sheet != sheet || kept->zoom != look->zoom
      || kept->text_scale != look->text_scale || kept->page != look->page)
    g_array_set_size (memory->captions, 0);
  memory->captions_sheet = sheet;
  memory->captions_look = *look;
  return memory->captions;
}

HobTiles *
hob_sheet_memory_tiles (HobSheetMemory *memory)
{
  return memory->tiles;
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
hob_sheet_memory_routes (HobSheetMemory *memory, HobSheet sheet)
{
  if (memory->routes[sheet] == NULL)
    memory->routes[sheet] = hob_routes_new (memory->range, sheet);
  return memory->routes[sheet];
}

const HobRange *
hob_sheet_memory_range (const HobSheetMemory *memory)
{
  return memory->range;
}

void
hob_sheet_memory_bounds (HobSheetMemory *memory, HobSheet sheet, double box[4])
{
  double *kept = memory->bounds[sheet];

  if (!(kept[2] > 0))
    hob_routes_bounds (hob_sheet_memory_routes (memory, sheet), memory->range, sheet, kept);
  memcpy (box, kept, sizeof memory->bounds[sheet]);
}

void
hob_sheet_memory_set_view (HobSheetMemory *memory, HobSheet sheet, double zoom,
                           const double view[4])
{
  if (memory->view_zoom[sheet] == zoom
      && memcmp (memory->view[sheet], view, sizeof memory->view[sheet]) == 0)
    return;
  memcpy (memory->view[sheet], view, sizeof memory->view[sheet]);
  memory->view_zoom[sheet] = zoom;
  g_array_set_size (memory->captions, 0);
}

void
hob_sheet_memory_room (HobSheetMemory *memory, HobSheet sheet, const HobLook *look, double box[4])
{
  if (memory->view_zoom[sheet] != look->zoom)
    hob_sheet_memory_bounds (memory, sheet, box);
  else
    memcpy (box, memory->view[sheet], sizeof memory->view[sheet]);
}

const GArray *
hob_sheet_memory_plates (HobSheetMemory *memory, const HobLook *look)
{
  if (memory->plates != NULL
      && (memory->plates_look.zoom != look->zoom
          || memory->plates_look.text_scale != look->text_scale))
    g_clear_pointer (&memory->plates, g_array_unref);
  memory->plates_look = *look;
  if (memory->plates == NULL)
    memory->plates
        = hob_wiring_plates (memory->range, hob_sheet_memory_routes (memory, HOB_SHEET_WIRING),
                             hob_sheet_memory_type (memory, look), look);
  return memory->plates;
}

static void
mix (guint64 *key, double value)
{
  guint64 bits;

  memcpy (&bits, &value, sizeof bits);
  *key = (*key ^ bits) * 0x9E3779B97F4A7C15u;
  *key ^= *key >> 29;
}

static void
mix_caption (guint64 *key, const HobCaption *caption)
{
  mix (key, caption->shown);
  mix (key, caption->place.x);
  mix (key, caption->place.y);
  mix (key, caption->n);
  mix (key, caption->named);
  mix (key, caption->name.x);
  mix (key, caption->name.y);
}

/* The sheet and the look. */
static guint64
look_key (const HobStage *stage)
{
  double room[4];
  guint64 key = 1;

  hob_stage_bounds (stage, room);
  for (gsize k = 0; k < G_N_ELEMENTS (room); k++)
    mix (&key, room[k]);
  mix (&key, (double) stage->sheet);
  mix (&key, stage->look->zoom);
  mix (&key, stage->look->text_scale);
  return key;
}

/* And what differs alike, and where captions and names are. */
static guint64
brackets_key (const HobStage *stage)
{
  guint64 key = look_key (stage);

  for (int k = 0; k < stage->range->n_wires && stage->sheet == HOB_SHEET_WIRING; k++)
    mix (&key, hob_bracket_first (stage, HOB_BRACKET_WIRE, k));
  for (int k = 0; k < stage->range->n_pipes && stage->sheet != HOB_SHEET_WIRING; k++)
    mix (&key, hob_bracket_first (stage, HOB_BRACKET_PIPE, k));
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      mix (&key, hob_bracket_first (stage, HOB_BRACKET_PARTS, k));
      mix_caption (&key, &g_array_index (stage->captions, HobCaption, k));
    }
  return key;
}

const GArray *
hob_sheet_memory_brackets (HobSheetMemory *memory, const HobStage *stage)
{
  guint64 key = brackets_key (stage);

  if (memory->brackets != NULL && memory->brackets_of != key)
    g_clear_pointer (&memory->brackets, g_array_unref);
  memory->brackets_of = key;
  if (memory->brackets == NULL)
    memory->brackets = hob_brackets_lay (stage);
  return memory->brackets;
}

/* The sheet, the look, faults, brackets, and where captions and names are. */
static guint64
tags_key (const HobStage *stage)
{
  guint64 key = look_key (stage);

  for (int k = 0; k < stage->range->n_parts; k++)
    {
      const HobPartScene *part = &stage->scene->parts[k];

      mix (&key, part->fault);
      mix (&key, part->fault >= 0 ? part->severity : 0);
      if (stage->captions != NULL)
        mix_caption (&key, &g_array_index (stage->captions, HobCaption, k));
    }
  for (guint k = 0; stage->brackets != NULL && k < stage->brackets->len; k++)
    {
      const HobBracket *bracket = &g_array_index (stage->brackets, HobBracket, k);

      mix (&key, bracket->place.x);
      mix (&key, bracket->place.y);
    }
  return key;
}

const GArray *
hob_sheet_memory_tags (HobSheetMemory *memory, const HobStage *stage)
{
  guint64 key = tags_key (stage);

  if (memory->tags != NULL && memory->tags_of != key)
    g_clear_pointer (&memory->tags, g_array_unref);
  memory->tags_of = key;
  if (memory->tags == NULL)
    memory->tags = hob_tags_lay (stage);
  return memory->tags;
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
      note (&memory->ringed_at[k], scene->parts[k].culprit || scene->parts[k].differs,
            scene->clock);
      note (&memory->tagged_at[k], scene->parts[k].fault >= 0, scene->clock);
    }
}

double
hob_sheet_memory_phase (const HobSheetMemory *memory, gboolean pipe, int line)
{
  if (memory == NULL)
    return 0;
  return pipe ? memory->pipe_at[line] : memory->wire_at[line];
}

double
hob_sheet_memory_ring (const HobSheetMemory *memory, int part)
{
  if (memory == NULL || memory->still || isnan (memory->ringed_at[part]))
    return 1;
  return CLAMP ((memory->clock - memory->ringed_at[part]) / RING_TIME, 0.02, 1);
}

double
hob_sheet_memory_swing (const HobSheetMemory *memory, int part)
{
  double along;

  if (memory == NULL || memory->still)
    return 0;
  along = (memory->clock - memory->tagged_at[part]) / SWING_TIME;
  if (isnan (along) || along >= 1 || along < 0)
    return 0;
  return SWING * (1 - along) * cos (3 * G_PI * along);
}
