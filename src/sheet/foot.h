/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The foot of a picture. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

/* Does it name hazards that are in full on a second page only? */
gboolean hob_foot_needs_page (const HobFoot *foot);
/* px, below a picture of its own size, w px wide; @second_page: one follows. */
double hob_foot_height (const HobFoot *foot, double w, gboolean second_page);
/* The same within w × h px, where it may not take more than half. */
double hob_foot_height_in (const HobFoot *foot, double w, double h, gboolean second_page);
/* At the bottom of w × h px. */
void hob_foot_draw (cairo_t *cr, const HobFoot *foot, double w, double h, gboolean second_page);

G_END_DECLS
