/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/sequence.h"
#include "sheet/type.h"

G_BEGIN_DECLS

/* The sequence of operation as one ruled line, in as many rows as it takes; or as a strip of one
 * row and of a constant height, which shows as much of it as there is room for: what is ringed
 * first, what was done last, what comes next, and what is around these. */
typedef struct
{
  const GArray *entries; /* HobSequenceEntry; borrowed */
  const HobRun *run;     /* borrowed */
  const HobLook *look;   /* borrowed; at zoom 1 */
  double w;              /* px */
  gboolean strip;
} HobSequenceLine;

double hob_sequence_line_height (const HobSequenceLine *line); /* px */
double hob_sequence_strip_height (const HobLook *look);        /* px */
/* From 0, 0. */
void hob_sequence_line_draw (HobPen *pen, HobType *type, const HobSequenceLine *line);
/* The entry at x, y of that picture; −1: none. */
int hob_sequence_line_hit (const HobSequenceLine *line, double x, double y);
/* The middle of an entry's words; FALSE: it is not in the strip. */
gboolean hob_sequence_line_find (const HobSequenceLine *line, int entry, double *x, double *y);

G_END_DECLS
