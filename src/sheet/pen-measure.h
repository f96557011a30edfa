/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A pen that draws nothing and remembers the room that texts take. */

#include "sheet/cell.h"
#include "sheet/type.h"

G_BEGIN_DECLS

HobPen *hob_measure_pen_new (HobType *type, const HobLook *look); /* (transfer full) */
/* HobBox of each text, sheet px; frees the pen. (transfer full) */
GArray *hob_measure_pen_finish (HobPen *pen);

G_END_DECLS
