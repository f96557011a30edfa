/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what a test may bring about.  Whoever works the range to look or to read
 * has it do again what it does with each suspect: leak gas, smoke, shock. */

#include "reason/ahead.h"

G_BEGIN_DECLS

/* Does nobody bring about, only to see it, what has these hazards? */
gboolean hob_risk_forbids (HobHazards hazards);

/* Of one occasion. */
typedef struct _HobRisk HobRisk;

/* Both are borrowed. (transfer full) */
HobRisk *hob_risk_new (const HobAhead *ahead, const HobOccasion *occasion);
void hob_risk_free (HobRisk *risk);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobRisk, hob_risk_free)

/* Minutes that it counts to go on until time t, s; +∞: nobody does, since a suspect that is thought
 * of endangers people by then. */
double hob_risk_minutes (const HobRisk *risk, HobSkill role, double t);

G_END_DECLS
