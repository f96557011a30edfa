/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What a view of sheets keeps between frames: laid-out text, routes, plates, the pictures of
 * repeated signs, and how far each sign has moved.  A still needs none. */

#include "sheet/cell.h"
#include "sheet/route.h"
#include "sheet/tiles.h"
#include "sheet/type.h"

G_BEGIN_DECLS

const HobRange *hob_sheet_memory_range (const HobSheetMemory *memory);
HobType *hob_sheet_memory_type (HobSheetMemory *memory, const HobLook *look);
const HobRoutes *hob_sheet_memory_routes (HobSheetMemory *memory, HobSheet sheet);
/* HobPlate */
const GArray *hob_sheet_memory_plates (HobSheetMemory *memory, const HobLook *look);
HobTiles *hob_sheet_memory_tiles (HobSheetMemory *memory);
/* HobKeptCaption of each part, where they were the last time; empty: of another sheet or look. */
GArray *hob_sheet_memory_captions (HobSheetMemory *memory, HobSheet sheet, const HobLook *look);
/* Where the tags are (HobTag): they stay while the same faults are seen in the same look. */
typedef struct _HobStage HobStage;

const GArray *hob_sheet_memory_tags (HobSheetMemory *memory, const HobStage *stage);
/* Where the brackets are (HobBracket): while the same things differ alike. */
const GArray *hob_sheet_memory_brackets (HobSheetMemory *memory, const HobStage *stage);
/* Moves ticks, wedges, rings and tags on to the scene's clock. */
void hob_sheet_memory_move (HobSheetMemory *memory, const HobScene *scene);
/* All three of a NULL memory: nothing has moved, rings are closed, tags hang still. */
double hob_sheet_memory_phase (const HobSheetMemory *memory, gboolean pipe, int line); /* px */
double hob_sheet_memory_ring (const HobSheetMemory *memory, int part);  /* 0…1 drawn */
double hob_sheet_memory_swing (const HobSheetMemory *memory, int part); /* rad */

/* A wire's code and gauge on a plate of its own. */
typedef struct
{
  int wire;
  HobBox box;
} HobPlate;

/* Where the codes find room. (transfer full) */
GArray *hob_wiring_plates (const HobRange *range, const HobRoutes *routes, HobType *type,
                           const HobLook *look);

G_END_DECLS
