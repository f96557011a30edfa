/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/units.h"

G_BEGIN_DECLS

/* Does a value differ from what it should be by more than an instrument or an eye would let pass?
 * One table for sheets, window, reasoning and tests.  Known against unknown differs, two unknowns
 * do not. */
gboolean hob_differs (double value, double should_be, HobDimension dim);

/* The same where values are alike below @least, SI, and not below what holds for a dimension. */
gboolean hob_differs_by (double value, double should_be, double least);

/* Below it two values are alike, whatever they are, in the dimension's SI unit. */
double hob_differ_floor (HobDimension dim);

G_END_DECLS
