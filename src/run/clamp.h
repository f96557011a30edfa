/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Clamps: would it have happened if this part had acted on the rest as a normal one does?
 *
 * A clamped run goes on as its original does, but for one part, which has no fault: what that part
 * does to the others (its conductances and sources, its ducts, the beat on its leads, its shaft,
 * what it puts into its place) is what it does in another run at the same time, read by dense
 * output.  Its own states and modes go their own way, those of a normal part.  What it does because
 * of its own current, its own gas or the gaps on its leads is not taken from there
 * (hob_places[].effect): a burner without gas makes no heat, and one with gas lights at its own
 * spark. */

#include "run/run.h"

G_BEGIN_DECLS

/* @run from where @other begins, @part acting as it does there: a run of the same acts without the
 * faults, say.  Both must outlive it.  It has the watch of @run. (transfer full) NULL: @other does
 * not begin. */
HobRun *hob_clamp_new (HobRun *run, HobRun *other, int part);

G_END_DECLS
