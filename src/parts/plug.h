/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/hash.h"
#include "parts/joint.h"

/* A harness plug in series with a part.  Its contact may be burned (joint.h), and it may open by
 * itself:
 *
 *   hot      above a temperature of its own; it closes again 6 K below
 *   loose    for some seconds now and then, from the seed: closed for (20 … 380 s)·(1.1 − s) and
 *            open for 30 … 180 s, s its looseness
 *   slammed  when the door is slammed; one of the next slams closes it again
 *
 * Figures invented. */

G_BEGIN_DECLS

/* Its settings, modes and guards, in this order. */
enum { HOB_PLUG_OHMS, HOB_PLUG_OPENS_AT, HOB_PLUG_LOOSE, HOB_PLUG_SLAMS, HOB_PLUG_N_SETTINGS };
enum { HOB_PLUG_OPEN, HOB_PLUG_UNTIL, HOB_PLUG_COUNT, HOB_PLUG_DOOR, HOB_PLUG_N_MODES };
enum { HOB_PLUG_HOT, HOB_PLUG_MOVES, HOB_PLUG_SHAKEN, HOB_PLUG_N_GUARDS };

#define HOB_PLUG_SETTINGS                                                                          \
  { .name = "plug-ohms", .words = "Resistance of its plug when hot.",                              \
    .dim = HOB_DIM_RESISTANCE, .normal = HOB_CONTACT_OHMS, .low = HOB_CONTACT_OHMS,                \
    .high = INFINITY, .condition = TRUE },                                                         \
  { .name = "plug-opens-at", .words = "Temperature at which its plug opens.",                      \
    .dim = HOB_DIM_TEMPERATURE, .normal = INFINITY, .high = INFINITY, .condition = TRUE },         \
  { .name = "plug-loose", .words = "How loose its plug is, 0 to 1.", .high = 1,                    \
    .condition = TRUE },                                                                           \
  {                                                                                                \
    .name = "plug-slams", .words = "1: a slam of the door opens it.", .high = 1,                   \
    .condition = TRUE                                                                              \
  }

extern const char *const hob_plug_words[]; /* in kind.c */

#define HOB_PLUG_MODES                                                                             \
  { .name = "plug", .words = hob_plug_words }, { .name = "plug-until" },                           \
  { .name = "plug-count" }, { .name = "plug-door" }

/* Where a kind keeps one. */
typedef struct
{
  int settings, modes;
  HobJoint joint;
} HobPlug;

/* Its joint's ohms, or open. */
static inline double
hob_plug_ohms (const HobPartContext *c, const HobPlug *plug)
{
  return c->mode[plug->modes + HOB_PLUG_OPEN] > 0 ? INFINITY : hob_joint_ohms (c, &plug->joint);
}

static inline double
hob_plug_guard (const HobPartContext *c, const HobPlug *plug, int k)
{
  const double *set = c->set + plug->settings, *mode = c->mode + plug->modes;
  double kelvin = c->y[plug->joint.states];
  gboolean open = mode[HOB_PLUG_OPEN] > 0, door = c->moved > 0.5;

  switch (k)
    {
    case HOB_PLUG_HOT:
      if (!isfinite (set[HOB_PLUG_OPENS_AT]))
        return -1;
      return open ? set[HOB_PLUG_OPENS_AT] - 6 - kelvin : kelvin - set[HOB_PLUG_OPENS_AT];
    case HOB_PLUG_MOVES: return set[HOB_PLUG_LOOSE] > 0 ? *c->t - mode[HOB_PLUG_UNTIL] : -1;
    default: return set[HOB_PLUG_SLAMS] > 0 && door != (mode[HOB_PLUG_DOOR] > 0) ? 1 : -1;
    }
}

static inline void
hob_plug_flip (const HobPartContext *c, const HobPlug *plug, int k)
{
  double *mode = c->mode + plug->modes, loose = c->set[plug->settings + HOB_PLUG_LOOSE];
  gboolean opens = !(mode[HOB_PLUG_OPEN] > 0);
  double chance = hob_hash_uniform (c->seed, (guint64) c->index, (guint64) mode[HOB_PLUG_COUNT]);

  if (k == HOB_PLUG_SHAKEN)
    {
      mode[HOB_PLUG_DOOR] = c->moved > 0.5;
      if (mode[HOB_PLUG_DOOR] > 0 || (!opens && chance < 0.5))
        return; /* it is the slam that shakes, and not every slam closes it again */
    }
  if (k == HOB_PLUG_MOVES && mode[HOB_PLUG_COUNT] == 0)
    opens = FALSE; /* it begins closed */
  mode[HOB_PLUG_COUNT] += 1;
  mode[HOB_PLUG_OPEN] = opens;
  mode[HOB_PLUG_UNTIL] = *c->t + (opens ? 30 + 150 * chance : (20 + 360 * chance) * (1.1 - loose));
}

G_END_DECLS
