/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Parts in parallel: of one kind, each terminal of the one wired to the same terminal of the other.
 * What is noticed of the whole range says nothing about which of them has a fault, as long as none
 * is moved.  They differ as units do, and one fault at four such parts is the same fault in four
 * units: what they show is counted together. */

#include "reason/trials.h"

G_BEGIN_DECLS

/* Links each of @faults (HobListed) with the same at parts in parallel: HobListed.next. */
void hob_parallel_link (const HobRange *range, GArray *faults);

/* Gives each run in @answers the average of the runs that have the same fault at a part in
 * parallel, but where @acts move one of the parts. */
void hob_parallel_average (const GArray *faults, const HobCase *acts, double *answers);

G_END_DECLS
