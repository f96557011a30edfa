/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* How long a fault changes nothing: while a run without it is made, its part's own functions are
 * asked at every evaluation what they would write with the fault.  As long as that is the same, bit
 * for bit, where anybody reads it, the run with the fault is this run, and can begin as a fork of
 * it (hob_run_fork_same). */

#include "run/run.h"

G_BEGIN_DECLS

typedef struct _HobInert HobInert;

/* @plan: borrowed. (transfer full) */
HobInert *hob_inert_new (const HobPlan *plan);
void hob_inert_free (HobInert *inert);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobInert, hob_inert_free)

/* A quantity that the run's watch looks at. */
void hob_inert_show (HobInert *inert, int part, int quantity);
/* A fault of time 0, and the last one of its part.  Returns its number. */
int hob_inert_add (HobInert *inert, int part, int fault, double severity);

/* Before the first advance of @run; borrowed until it is freed or does not go on any more.  The
 * fault is not in its case, but an act of time 0 in its place. */
void hob_run_set_inert (HobRun *run, HobInert *inert);
/* s: the start of the step in which fault @k first mattered; +∞: it has not so far. */
double hob_inert_until (const HobInert *inert, int k);

G_END_DECLS
