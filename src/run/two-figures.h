/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What a reading is and what it should be, as every picture and list writes the two. */

#include "parts/kind.h"

G_BEGIN_DECLS

/* Both values, with as many digits as it takes to see how far apart they are; *normal: NULL where
 * @should_be is NaN; *now "–" where @value is. (transfer full) */
void hob_two_figures (const HobQuantityDef *quantity, double value, double should_be, char **now,
                      char **normal);
/* "2.7 A, should be 3.5 A"; "2.7 A" where @should_be is NaN or no digits tell them apart. (transfer
 * full) */
char *hob_figures_text (const HobQuantityDef *quantity, double value, double should_be);

G_END_DECLS
