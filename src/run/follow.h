/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/run: a run some of whose states are those of another run, at every moment.
 *
 * They are read from the other run's steps, by dense output.  No step of the follower crosses the
 * end of one of these, so that it meets no kink and needs nothing that has not happened yet; and
 * within a step all is read from the one that holds its beginning, so that a step that is taken
 * again has the same bits. */

#include "run/engine.h"

G_BEGIN_DECLS

typedef struct _HobFollow HobFollow;

/* @run is borrowed. */
HobFollow *hob_follow_new (HobRun *run);
/* No states are followed, but @part acts as it does there: run/clamp.h. */
HobFollow *hob_follow_new_part (HobRun *run, int part);
void hob_follow_free (HobFollow *follow);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobFollow, hob_follow_free)

HobRun *hob_follow_run (const HobFollow *follow);
/* The acts of that run when they were last looked at; the first one that has changed since then. */
HobCase *hob_follow_acts (const HobFollow *follow);
void hob_follow_look (HobFollow *follow);

/* From now on it reads the step that holds t, s; it is taken if it has not been yet.  FALSE: it
 * cannot be. */
gboolean hob_follow_open (HobFollow *follow, double t);
double hob_follow_end (const HobFollow *follow); /* of that step, s */
/* The followed states at t into @y, and their rates into @dy. */
void hob_follow_states (const HobFollow *follow, double t, double *y);
void hob_follow_rates (const HobFollow *follow, double t, double *dy);
int hob_follow_part (const HobFollow *follow); /* −1: none */
/* The other run at t, within the open step, evaluated; NULL: no part acts as it does there. */
HobMoment *hob_follow_moment (const HobFollow *follow, double t);

/* clamp.c, after a part's own functions of these names. */
static inline gboolean
hob_is_clamped (const HobMoment *m, int part)
{
  return m->as != NULL && hob_follow_part (m->follow) == part;
}
void hob_clamp_give (HobMoment *m, int part);
void hob_clamp_conduct (HobMoment *m, int part);
void hob_clamp_flow (HobMoment *m, int part);
void hob_clamp_offer (HobMoment *m, int part);
void hob_clamp_rates (HobMoment *m, int part); /* in their place */

G_END_DECLS
