/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A pen that draws nothing, counts its pieces and remembers where text stands. */

#include "sheet/draw.h"

G_BEGIN_DECLS

typedef struct
{
  HobBox box; /* ink of the text, sheet px */
  char *text; /* owned */
} BoundsText;

typedef struct
{
  HobPen pen;
  HobType *type;       /* borrowed */
  const HobLook *look; /* borrowed */
  int lines, rounds;   /* pieces of paths so far: a plain box has 4 lines */
  GArray *texts;       /* BoundsText */
  GArray *origins;     /* HobPlacement: where pushes have led, turned */
} BoundsPen;

BoundsPen *bounds_pen_new (HobType *type, const HobLook *look);
void bounds_pen_free (BoundsPen *pen);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (BoundsPen, bounds_pen_free)

G_END_DECLS
