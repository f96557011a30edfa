/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Which of a part's quantities say that it differs. */

#include "run/comparison.h"
#include "run/two-figures.h"

G_BEGIN_DECLS

/* What its figure doesn't say: the first quantity that differs and that a sense or an instrument,
 * or only an eye (@seen), could find; −1: none.  *should_be: what it should be. */
int hob_difference_next (const HobComparison *c, const HobKind *kind, int part, gboolean seen,
                         double *should_be);
/* "Wire: Oven control to Bake igniter". (transfer full) */
char *hob_wire_title (const HobRange *range, const HobLine *wire);

G_END_DECLS
