/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what to check after a repair. */

#include "reason/inquiry.h"

G_BEGIN_DECLS

/* Fills checks of @suspects, whose suspects are known: the readings at the first suspect's part
 * that a repair brings back to normal, and the symptoms that must stay away. */
void hob_checks_find (const HobInquiry *inquiry, HobSuspects *suspects);
/* Makes what is done at @occasion until @t, and what is read then, a test. (transfer full) */
HobTest *hob_occasion_test (const HobCase *base, const HobOccasion *occasion, double t,
                            const HobTest *what);

G_END_DECLS
