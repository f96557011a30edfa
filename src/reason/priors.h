/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What is assumed before anything was seen or read: how often each thing is at fault, and when to
 * stop testing.  A person may change all of it in a file of their own:
 *
 *   [Assumptions]
 *   nothing-wrong=0.1      share of complaints about a range that has nothing
 *   not-listed=0.03        … that has what no list has
 *   two-faults=0.05        … and how often two are there for each one
 *   mis-seen=0.03          share of what was looked for that is reported wrong
 *   sure=0.95              probability at which testing ends
 *   wrong-part=120         minutes that a needless part costs
 *   [Faults]
 *   igniter-bake:aged=30   relative weight, a number from 0 on */

#include "range/range.h"
#include "reason/next-test.h"

G_BEGIN_DECLS

typedef struct
{
  double nothing_wrong, not_listed, two_faults, mis_seen;
  HobTestRule rule;
  double **weights; /* owned; [part][fault] */
  int n_parts;
} HobPriors;

/* As the program comes. (transfer full) */
HobPriors *hob_priors_new (const HobRange *range);
void hob_priors_free (HobPriors *priors);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobPriors, hob_priors_free)

char *hob_priors_file (void); /* in the user's configuration folder (transfer full) */
/* Changes what @file says; a file that is not there changes nothing.  HOB_ERROR_VALUE names file
 * and line.  What is said of faults that this range cannot have is left alone. */
gboolean hob_priors_load (HobPriors *priors, const HobRange *range, const char *file,
                          GError **error);
/* The file that says what is assumed now, with what it rests on. (transfer full) */
char *hob_priors_text (const HobPriors *priors, const HobRange *range);

G_END_DECLS
