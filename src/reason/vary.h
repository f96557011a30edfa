/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Another unit of the same model in another house. */

#include "run/case.h"

G_BEGIN_DECLS

/* Adds to @c, before all that it has, settings as another unit and another house have them: those
 * of the appliance within ±3 %, the house's volts within 5 % (ANSI C84.1, range A: 114 to 126 V)
 * and its temperature within 10 K of the nominal ones.  Chance is that of @seed. */
void hob_case_vary (HobCase *c, guint64 seed);

G_END_DECLS
