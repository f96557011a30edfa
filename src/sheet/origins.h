/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Where the pushes and spins of a pen have led: what a pen that draws nothing keeps to know where
 * on the sheet it is. */

#include "range/range.h"
#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

typedef struct
{
  double x, y, angle; /* sheet px, rad clockwise */
} HobOrigin;

/* HobOrigin: the sheet's own. (transfer full) */
static inline GArray *
hob_origins_new (void)
{
  GArray *origins = g_array_new (FALSE, FALSE, sizeof (HobOrigin));
  HobOrigin zero = { 0 };

  return g_array_append_val (origins, zero);
}

static inline HobOrigin *
hob_origins_here (GArray *origins)
{
  return &g_array_index (origins, HobOrigin, origins->len - 1);
}

/* (x, y) of the last origin, on the sheet. */
static inline HobPoint
hob_origins_place (GArray *origins, double x, double y)
{
  const HobOrigin *o = hob_origins_here (origins);
  double c = cos (o->angle), s = sin (o->angle);

  return (HobPoint){ o->x + c * x - s * y, o->y + s * x + c * y };
}

static inline void
hob_origins_push (GArray *origins, double x, double y, int quarter_turns)
{
  HobPoint at = hob_origins_place (origins, x, y);
  HobOrigin next = { at.x, at.y, hob_origins_here (origins)->angle + quarter_turns * G_PI_2 };

  g_array_append_val (origins, next);
}

static inline void
hob_origins_pop (GArray *origins)
{
  g_assert (origins->len > 1);
  g_array_set_size (origins, origins->len - 1);
}

G_END_DECLS
