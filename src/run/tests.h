/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* All tests that can be made on a range, as data. */

#include "run/reading.h"

G_BEGIN_DECLS

typedef struct
{
  HobTest *test;            /* owned; without acts */
  HobDimension dim;         /* of what it reads; NUMBER: seen or not */
  const HobMeansDef *means; /* how it is made, its minutes, who may make it, how dangerous it is,
                               and what is made safe first */
  HobHazards hazards;       /* to be shown wherever it is described */
} HobListedTest;

void hob_listed_test_free (HobListedTest *listed);

/* Part by part in file order, then the clamps round wires, then ohms from end to end of each wire,
 * then a look for each of @looks (ids of symptoms, NULL-ended; may be NULL).  HobListedTest *.
 * (transfer full) */
GPtrArray *hob_tests_of (const HobRange *range, const char *const *looks);

G_END_DECLS
