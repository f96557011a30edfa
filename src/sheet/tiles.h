/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Repeated signs on cairo.  On screen each stretch is one fill of a small picture, since
 * antialiased strokes are too slow to move; in files they are lines. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

typedef struct _HobTiles HobTiles; /* the pictures, kept */

HobTiles *hob_tiles_new (void); /* (transfer full) */
void hob_tiles_free (HobTiles *tiles);
/* @tiles: NULL draws lines. */
void hob_tiles_repeat (HobTiles *tiles, cairo_t *cr, HobTheme theme, const HobRepeat *repeat);

G_END_DECLS
