/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/sequence.h"
#include "sheet/sheet.h"

G_BEGIN_DECLS

/* The sequence of operation as one ruled line, in as many rows as it takes. */

/* px that it takes at a width of w px. */
double hob_sequence_line_height (const GArray *entries, const HobRun *run, double w,
                                 const HobLook *look);
void hob_sequence_line_draw (cairo_t *cr, const GArray *entries, const HobRun *run, double w,
                             const HobLook *look);
/* The entry at x, y of that picture; −1: none. */
int hob_sequence_line_hit (const GArray *entries, const HobRun *run, double w, const HobLook *look,
                           double x, double y);

G_END_DECLS
