/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "parts/kind.h"

/* What trips and stays tripped until a hand resets it: its first mode and its two guards. */

G_BEGIN_DECLS

enum { HOB_TRIPPED };
enum { HOB_TRIP_TRIPS, HOB_TRIP_RESETS, HOB_TRIP_N_GUARDS };

extern const char *const hob_trip_words[]; /* in kind.c */

#define HOB_TRIP_MODE { .name = "tripped", .words = hob_trip_words }

/* @beyond: > 0 where it should trip; @reset: is a hand resetting it? */
static inline double
hob_trip_guard (const HobPartContext *c, int k, double beyond, gboolean reset)
{
  gboolean tripped = c->mode[HOB_TRIPPED] > 0;

  if (k == HOB_TRIP_TRIPS)
    return tripped ? -1 : beyond;
  return tripped && reset ? 1 : -1;
}

static inline void
hob_trip_flip (const HobPartContext *c, int k)
{
  c->mode[HOB_TRIPPED] = k == HOB_TRIP_TRIPS;
}

G_END_DECLS
