/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* How bad a fault is, in a technician's unit: the figure comes from the effect itself, the words
 * around it from the fault's table. */

#include "parts/kind.h"

G_BEGIN_DECLS

/* "54 °F": the amount alone. (transfer full) */
char *hob_fault_amount_text (const HobKind *kind, const HobFaultDef *fault, double severity);
/* "54 °F too hot" at @severity; NULL for a fault that is there or not. (transfer full) */
char *hob_fault_severity_text (const HobKind *kind, const HobFaultDef *fault, double severity);
/* From the mildest to the worst: "up to 90 °F too hot", "2 to 8 Ω in the contact"; NULL as
 * above. (transfer full) */
char *hob_fault_span_text (const HobKind *kind, const HobFaultDef *fault);

G_END_DECLS
