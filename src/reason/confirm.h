/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: the reading at the suspected part itself that confirms its fault. */

#include "reason/inquiry.h"

G_BEGIN_DECLS

/* The quickest reading at the first suspect's part that its fault makes differ from a normal
 * range's, that @role may take and that was not taken before, in any of @occasions (HobOccasion).
 * NULL: there is none.  (transfer full) */
HobOffer *hob_confirm_find (const HobInquiry *inquiry, const GPtrArray *occasions, HobSkill role,
                            const HobSuspect *first);

G_END_DECLS
