/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/reading.h"
#include "symptoms/bench.h"

G_BEGIN_DECLS

/* "look SYMPTOM[ PART]": whether somebody who watched from the start would have noticed it by
 * time t; the reading is 1 or 0. HOB_ERROR_NAME: there is no such symptom. */
gboolean hob_look (const HobBench *bench, const HobTest *test, double t, HobReading *reading,
                   GError **error);

G_END_DECLS
