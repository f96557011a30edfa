/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what a range without faults, and one with a fault, makes one expect of a
 * test. */

#include "reason/trials.h"

G_BEGIN_DECLS

/* Expectation at a severity, from answers at each computed one (@answers: [stride·run]; run 0:
 * nothing wrong).  Its value is NaN where it is not known. */
HobExpected hob_listed_expected (const HobListed *fault, const double *answers, guint stride,
                                 double severity, HobDimension dim, const HobScatter *spread);
/* @answer of a normal range, with the spread of its make. */
HobExpected hob_expected_of (double answer, HobDimension dim, const HobScatter *spread);

G_END_DECLS
