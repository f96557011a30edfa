/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: the one symptom that somebody complains of, among all that a range
 * shows. */

#include "reason/inquiry.h"

G_BEGIN_DECLS

/* How probable it is that somebody whose range is that of a run complains of @symptom at @part or,
 * for −1, anywhere: the share that it has among the symptoms that the run shows in any of
 * @occasions (HobOccasion *), at each part one, and when the complaint was made.  @shows:
 * [stride·run], 1 where it showed then; else nobody complains of it.  @shares: of each run; and,
 * last, among all that any run shows and not fewer than the book's: of somebody whose range shows
 * nothing. */
void hob_complaint_shares (HobTrials *trials, const GPtrArray *occasions, int symptom, int part,
                           const double *shows, guint stride, double *shares);

/* How often somebody whose range shows nothing complains of that symptom, beside the others: 1, or
 * less where nobody takes anything else for it. */
double hob_complaint_imagined (const HobSymptomBook *book, int symptom);

G_END_DECLS
