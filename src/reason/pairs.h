/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: two faults at once. */

#include "reason/inquiry.h"

G_BEGIN_DECLS

/* Adds to @suspects those pairs that explain what was seen and read, and takes their share from the
 * others.  What two faults make one read is put together from what each does alone: this says
 * which two to think of; it does not confirm them. */
void hob_pairs_find (const HobInquiry *inquiry, HobSuspects *suspects);

/* Of two faults at once: the changes from @normal add up. */
HobExpected hob_pair_expected (const HobExpected *a, const HobExpected *b, double normal,
                               HobDimension dim);

G_END_DECLS
