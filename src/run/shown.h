/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/run: when a run first showed something other than its step twin, looked for once
 * for all who ask.
 *
 * Looked at are both sides of every edge — an act or a change, which ends one step and begins
 * another — in the order of time, so that the record is taken again once at most.  A look counts
 * from BESIDE_EDGE later on: by then all edges around it are known, so that the answer for a time
 * is the same whoever asks first, and for whatever time. */

#include "run/comparison.h"

G_BEGIN_DECLS

typedef struct _HobShown HobShown;

HobShown *hob_shown_new (HobRun *twin); /* borrowed; it follows a run */
void hob_shown_free (HobShown *shown);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobShown, hob_shown_free)

/* s; NaN: nothing had shown by time t. */
double hob_shown_at (HobShown *shown, double t);
/* What came after t is done again: only what came before it still holds. */
void hob_shown_cut (HobShown *shown, double t);
guint hob_shown_looks (const HobShown *shown); /* so far */

G_END_DECLS
