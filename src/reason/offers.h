/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: which tests are left, and which of them comes first. */

#include "reason/inquiry.h"

G_BEGIN_DECLS

/* Fills offers and verdict of @suspects, whose suspects and proof are known. */
void hob_offers_find (const HobInquiry *inquiry, HobSkill role, HobSuspects *suspects);
/* Is it volts across the part? */
gboolean hob_is_volts_across (const HobTest *test, int part);
/* The amps that were read on @part, without the volts across it in the same run; NULL: none.
 * Borrowed. */
const HobClue *hob_amps_alone (const HobInquiry *inquiry, int part);

G_END_DECLS
