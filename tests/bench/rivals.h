/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Whom the technician is compared with: others with the same eyes and meters, who stop by the same
 * rule. */

#include "technician.h"

typedef struct
{
  gboolean right;
  int tests;
  double minutes;
} RivalOutcome;

/* With a list on paper: of every suspect that shows @complaint the quickest test at its part, in an
 * order that no answer changes, until testing stops or the list ends. */
RivalOutcome rival_list (Shop *shop, const Truth *truth, const char *complaint, guint64 seed);
/* With the answer in a pocket: of the tests that are offered the quickest that proves it, or while
 * none does the one that brings the most for its minutes.  Nobody who has yet to find out is much
 * quicker. */
RivalOutcome rival_insider (Shop *shop, const Truth *truth, const char *complaint, guint64 seed);
