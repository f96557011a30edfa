/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* When to read: the moments at which trials read, so that the answer is soon there. */

#include "run/reading.h"

G_BEGIN_DECLS

/* @test at each of them, with what is done before: HobTest *.  An ohmmeter's are those with the
 * range unplugged. (transfer full) */
GPtrArray *hob_reading_moments (const HobRange *range, const HobTest *test);

/* How many trials are on the way to an answer about @base, in which no control is worked. */
guint hob_trials_wanted (const HobCase *base, char *const *procedures);

G_END_DECLS
