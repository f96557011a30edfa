/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Wires that are open and pipes that are pinched: no part has them in its list of faults, so they
 * are tried as what "not on this list" may be. */

#include "range/range.h"

G_BEGIN_DECLS

typedef struct
{
  gboolean pipe;
  int line; /* index among the range's wires or pipes */
} HobLineFault;

/* Every wire, then every pipe.  HobLineFault.  (transfer full) */
GArray *hob_line_faults (const HobRange *range);
/* @range with that line as it is then.  @severity of a pinched pipe, 0 to 1, by the logarithm of
 * the bore that is left.  (transfer full) */
HobRange *hob_line_fault_range (const HobRange *range, const HobLineFault *fault, double severity);
/* A suspect's name, in the person's language.  (transfer full) */
char *hob_line_fault_words (const HobRange *range, const HobLineFault *fault);

G_END_DECLS
