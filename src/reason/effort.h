/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: how many minutes a test takes now. */

#include "reason/inquiry.h"

G_BEGIN_DECLS

/* A test whose set-up is shared with others that are made next: what opens the way to its parts, or
 * the run of the range that is watched. */
typedef struct
{
  double minutes;        /* all that it takes now */
  double set_up_minutes; /* … of them those that the next one of the same set-up does not take */
  const void *what;      /* borrowed; set-ups are the same if this and `which` are; NULL: none */
  double which;
} HobEffort;

/* Notes on each of @occasions (HobOccasion *) how far somebody has watched it. */
void hob_effort_note_watched (const HobInquiry *inquiry, const GPtrArray *occasions);

/* @test with @means at time t of what is done on an occasion.  What was made before (the clues)
 * need not be done again: panels are off, and who watched the range run saw all there was. */
HobEffort hob_effort_of (const HobInquiry *inquiry, const HobOccasion *occasion, double t,
                         const HobTest *test, const HobMeansDef *means);

/* What @means takes until time t of @occasion, what is done before it included, if nothing was done
 * yet. */
double hob_effort_first (const HobMeansDef *means, const HobOccasion *occasion, double t);

/* What it takes to say what one more sign did in a run that was watched. */
double hob_effort_note (void);

/* Where @test opens the range: the outermost place that its part is in; −1: it is in none. */
int hob_effort_behind (const HobRange *range, const HobTest *test);

G_END_DECLS
