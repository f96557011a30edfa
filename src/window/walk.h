/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* From part to part along the lines of a sheet, as arrow keys go. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

typedef struct
{
  int part, line; /* one of them; −1: not there */
} HobStand;

/* One step towards (dx, dy), one of the four ways: from a part onto the line that leaves it that
 * way, from a line to the part at that end, or across to the next line of the same part.  Pipes
 * are no places to stop at: a step goes to the part at their other end.  FALSE: no line leads
 * there. */
gboolean hob_walk (const HobRange *range, HobSheet sheet, HobStand *at, double dx, double dy);

G_END_DECLS
