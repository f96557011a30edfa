/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what confirms the fault of a suspected part: a reading at the part itself,
 * or else a look at what a customer complained of. */

#include "reason/ahead.h"

G_BEGIN_DECLS

/* The quickest reading at the first suspect's part that its fault makes differ from a normal
 * range's, that @role may take and that was not taken before, in any of @occasions (HobOccasion).
 * NULL: there is none.  (transfer full) */
HobOffer *hob_confirm_find (const HobAhead *ahead, const GPtrArray *occasions,
                            const HobSuspect *first);

/* The volts across the first suspect's part in the moment in which its amps were read; NULL: there
 * are none.  (transfer full) */
HobOffer *hob_confirm_volts (const HobAhead *ahead, const GPtrArray *occasions,
                             const HobSuspect *first);

/* The quickest reading at the first suspect's part, a fault, that would show if a wire or a pipe
 * were to blame instead; NULL: none is worth its minutes.  Whoever replaces a part that nothing
 * reaches has the same range again; and where no reading has @proved the part, it is a rule that
 * what feeds it is read before it is called dead.  (transfer full) */
HobOffer *hob_confirm_supply (const HobAhead *ahead, const GPtrArray *occasions,
                              const HobSuspect *first, gboolean proved);

/* A reading that the first suspect, a fault, does not explain, at another moment; NULL: there
 * is none, or it was read twice.  (transfer full) */
HobOffer *hob_confirm_again (const HobAhead *ahead, const GPtrArray *occasions,
                             const HobSuspect *first);

/* The quickest look at the complaint where the first suspect shows it, or is said to if it is no
 * fault, and a normal range does not; NULL: somebody has looked, or it never shows.
 * (transfer full) */
HobOffer *hob_confirm_complaint (const HobAhead *ahead, const GPtrArray *occasions,
                                 const HobSuspect *first);

G_END_DECLS
