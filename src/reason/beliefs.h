/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Beliefs: how probable each of several states is, and how evidence changes that.  Plain arrays;
 * nothing here knows what a state means.
 *
 *   Bayes:    p(s | e) = p(s)·P(e | s) / Σ p(s')·P(e | s')
 *   entropy:  H = −Σ p·log2 p, in bits */

#include <glib.h>

G_BEGIN_DECLS

/* Logarithms, because a hundred pieces of evidence against a state multiply to a number that a
 * double cannot hold, and the next one may speak for it again. */
typedef struct
{
  int n;
  double *log_p; /* owned; ln p of each state, −∞: impossible; the p sum to 1 */
} HobBelief;

/* @prior: weights ≥ 0 of @n states in any unit; all zero counts as all equal. (transfer full) */
HobBelief *hob_belief_new (const double *prior, int n);
HobBelief *hob_belief_copy (const HobBelief *belief); /* (transfer full) */
void hob_belief_free (HobBelief *belief);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobBelief, hob_belief_free)

/* @likelihood: P(evidence | state), or its density in one unit for all states.  FALSE, and the
 * belief as before, when no state allows the evidence. */
gboolean hob_belief_update (HobBelief *belief, const double *likelihood);

/* The same with ln P(evidence | state). */
gboolean hob_belief_update_log (HobBelief *belief, const double *log_likelihood);

/* p of each state into @p. */
void hob_belief_get (const HobBelief *belief, double *p);

double hob_belief_entropy (const HobBelief *belief); /* bits */

/* Gives the state @index the share @share of all weight, 0 ≤ @share < 1; the others keep their
 * proportions.  This is how "not on my list" gets its part. */
void hob_prior_set_share (double *prior, int n, int index, double share);

/* W·H for weights @w ≥ 0 of sum W; 0 if they are all zero.  Bits. */
double hob_weighted_entropy (const double *w, int n);

/* What one test tells, in bits: the entropy of the groups before it less the one expected after it.
 * @group: of each state, 0 … @n_groups − 1; NULL: each state is a group of its own.
 * @likelihood: [outcome·n + state]. */
double hob_information (const double *p, int n, const int *group, int n_groups,
                        const double *likelihood, int n_outcomes);

G_END_DECLS
