/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheet/tiles.h"
#include "sheet/type.h"

G_BEGIN_DECLS

/* The pen on cairo with what its caller keeps: type, and the pictures of repeated signs (NULL: they
 * are lines). (transfer full) */
HobPen *hob_cairo_pen_new_with (cairo_t *cr, const HobLook *look, HobType *type, HobTiles *tiles);

G_END_DECLS
