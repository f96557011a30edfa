/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/run.h"

G_BEGIN_DECLS

/* What the long twin of a range does: the file as it is, without faults and without changed
 * settings, in a nominal house; the same controls moved at the same times, the same unit (seed).
 * It answers for the whole: how long preheating should take, how many volts there should be.
 * (transfer full) */
HobCase *hob_twin_case (const HobCase *acts);

/* The long twin of a run of @acts. (transfer full) */
HobRun *hob_twin_new (HobPlan *plan, const HobCase *acts);

G_END_DECLS
