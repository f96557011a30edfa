/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What goes on in turns, as a thermostat's contact does: whether more of the same turns can bring a
 * symptom that there was not. */

#include "symptoms/symptoms.h"

G_BEGIN_DECLS

typedef struct _HobCycles HobCycles;

/* @watch: borrowed, and that of the runs it is asked about. (transfer full) */
HobCycles *hob_cycles_new (const HobSymptomWatch *watch);
void hob_cycles_free (HobCycles *cycles);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobCycles, hob_cycles_free)

/* What @run did until now is no turn; the first one begins. */
void hob_cycles_begin (HobCycles *cycles, HobRun *run);
/* A turn of @run ends where it stands, and the next one begins. */
void hob_cycles_turn (HobCycles *cycles, HobRun *run);
/* Do @turns more turns, until @until (s), show nothing that the last ones have not shown?  Every
 * value that a symptom looks at goes on to drift as it did in the last three, and no condition that
 * holds may hold for long enough meanwhile. */
gboolean hob_cycles_repeat (const HobCycles *cycles, HobRun *run, double turns, double until);
/* What the highest of a value, a, b and c in the last three turns, comes to in so many more. */
double hob_cycles_ahead (double a, double b, double c, double turns);

G_END_DECLS
