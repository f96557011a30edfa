/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "sheet/room.h"
#include "sheet/lens.h"
#include "sheet/pen-measure.h"
#include <math.h>

#define FIGURE_GROWS 20.0 /* px that a figure may still get wider */

static void
add_texts (HobRoom *room, void (*draw) (const HobStage *stage), gboolean state)
{
  HobStage stage = *room->stage;
  g_autoptr (GArray) boxes = NULL;

  stage.pen = hob_measure_pen_new (stage.type, stage.look);
  draw (&stage);
  boxes = hob_measure_pen_finish (stage.pen);
  for (guint k = 0; k < boxes->len; k++)
    {
      HobBox box = g_array_index (boxes, HobBox, k);

      if (state)
        box.x0 -= FIGURE_GROWS, box.x1 += FIGURE_GROWS;
      g_array_append_val (room->taken, box);
    }
}

HobRoom
hob_room_of (const HobStage *stage)
{
  HobRoom room = { stage, g_array_new (FALSE, FALSE, sizeof (HobBox)), { 0 } };
  HobBody body;

  hob_stage_bounds (stage, room.bounds);
  for (int k = 0; k < stage->range->n_parts; k++)
    {
      HobBox box;

      if (!hob_cell_is_interior (stage->range->parts[k].kind)
          && hob_cell_symbol (&stage->range->parts[k], stage->sheet, &box))
        g_array_append_val (room.taken, box);
    }
  if (hob_body_of (stage->range, stage->sheet, &body))
    {
      HobBox lens;

      hob_lens_box (&body, stage->look, &lens);
      g_array_append_val (room.taken, lens);
    }
  add_texts (&room, hob_stage_paper, FALSE);
  add_texts (&room, hob_stage_texts, TRUE);
  return room;
}

gboolean
hob_room_is_free (const HobRoom *room, const HobBox *box)
{
  if (box->x0 < room->bounds[0] || box->y0 < room->bounds[1]
      || box->x1 > room->bounds[0] + room->bounds[2]
      || box->y1 > room->bounds[1] + room->bounds[3])
    return FALSE;
  for (guint k = 0; k < room->taken->len; k++)
    if (hob_box_meet (&g_array_index (room->taken, HobBox, k), box))
      return FALSE;
  return TRUE;
}

gboolean
hob_room_covers_a_line (const HobRoom *room, const HobBox *box)
{
  return hob_routes_near (room->stage->routes, box, 4);
}
