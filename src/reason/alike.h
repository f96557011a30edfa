/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Which faults no test tells apart: every reading in every procedure, and every look, by what other
 * units and the meter scatter. */

#include "reason/trials.h"

G_BEGIN_DECLS

/* @base: what is known of the house.
 * Do two faults read the same, to within @deviations standard deviations, and show the same? */
gboolean hob_alike (HobTrials *trials, const HobCase *base, const HobListed *a, double severity_a,
                    const HobListed *b, double severity_b, double deviations);
/* Does @a change something from normal that @b leaves as it is? */
gboolean hob_alike_changes (HobTrials *trials, const HobCase *base, const HobListed *a,
                            double severity_a, const HobListed *b, double severity_b,
                            double deviations);

/* The same of each two of @n faults, at most 32: of each the bits of those that it is like, its own
 * among them.  All at once it takes much less than two by two. */
void hob_alike_among (HobTrials *trials, const HobCase *base, const HobListed *const *faults,
                      const double *severities, int n, double deviations, guint32 *like);

G_END_DECLS
