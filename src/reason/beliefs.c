/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/beliefs.h"

#include <math.h>
#include <string.h>

/* ---- Belief ---- */

/* Makes the p sum to 1: subtracts ln Σ exp, taken relative to the greatest, which cannot overflow.
 * FALSE if every state is impossible. */
static gboolean
normalize (double *log_p, int n)
{
  double most = -INFINITY, sum = 0;

  for (int s = 0; s < n; s++)
    most = fmax (most, log_p[s]);
  if (!isfinite (most))
    return FALSE;
  for (int s = 0; s < n; s++)
    sum += exp (log_p[s] - most);
  for (int s = 0; s < n; s++)
    log_p[s] -= most + log (sum);
  return TRUE;
}

HobBelief *
hob_belief_new (const double *prior, int n)
{
  HobBelief *belief = g_new (HobBelief, 1);

  *belief = (HobBelief){ .n = n, .log_p = g_new0 (double, MAX (n, 1)) };
  for (int s = 0; s < n; s++)
    belief->log_p[s] = prior[s] > 0 ? log (prior[s]) : -INFINITY;
  if (!normalize (belief->log_p, n))
    for (int s = 0; s < n; s++)
      belief->log_p[s] = -log (n);
  return belief;
}

HobBelief *
hob_belief_copy (const HobBelief *belief)
{
  HobBelief *copy = g_new (HobBelief, 1);

  *copy = (HobBelief){ .n = belief->n, .log_p = g_new0 (double, MAX (belief->n, 1)) };
  memcpy (copy->log_p, belief->log_p, (gsize) belief->n * sizeof (double));
  return copy;
}

void
hob_belief_free (HobBelief *belief)
{
  if (belief == NULL)
    return;
  g_free (belief->log_p);
  g_free (belief);
}

gboolean
hob_belief_update_log (HobBelief *belief, const double *log_likelihood)
{
  g_autofree double *after = g_new (double, MAX (belief->n, 1));

  for (int s = 0; s < belief->n; s++)
    after[s] = belief->log_p[s] + log_likelihood[s];
  if (!normalize (after, belief->n))
    return FALSE;
  g_free (belief->log_p);
  belief->log_p = g_steal_pointer (&after);
  return TRUE;
}

gboolean
hob_belief_update (HobBelief *belief, const double *likelihood)
{
  g_autofree double *logs = g_new (double, MAX (belief->n, 1));

  for (int s = 0; s < belief->n; s++)
    logs[s] = likelihood[s] > 0 ? log (likelihood[s]) : -INFINITY;
  return hob_belief_update_log (belief, logs);
}

void
hob_belief_get (const HobBelief *belief, double *p)
{
  for (int s = 0; s < belief->n; s++)
    p[s] = exp (belief->log_p[s]);
}

double
hob_belief_entropy (const HobBelief *belief)
{
  g_autofree double *p = g_new (double, MAX (belief->n, 1));

  hob_belief_get (belief, p);
  return hob_weighted_entropy (p, belief->n);
}

/* ---- Priors and information ---- */

void
hob_prior_set_share (double *prior, int n, int index, double share)
{
  double others = 0;

  g_return_if_fail (index >= 0 && index < n && share >= 0 && share < 1);
  for (int s = 0; s < n; s++)
    others += s == index ? 0 : prior[s];
  prior[index] = others > 0 ? others * share / (1 - share) : 1;
}

/* W·H = W·log2 W − Σ w·log2 w: linear in the weights' unit, so that no outcome of a test has to be
 * normalized before its entropy is added up. */
double
hob_weighted_entropy (const double *w, int n)
{
  double sum = 0, terms = 0;

  for (int k = 0; k < n; k++)
    if (w[k] > 0)
      {
        sum += w[k];
        terms += w[k] * log2 (w[k]);
      }
  return sum > 0 ? fmax (sum * log2 (sum) - terms, 0) : 0;
}

double
hob_information (const double *p, int n, const int *group, int n_groups, const double *likelihood,
                 int n_outcomes)
{
  int n_w = group != NULL ? n_groups : n;
  g_autofree double *before = g_new0 (double, MAX (n_w, 1)), *after = g_new (double, MAX (n_w, 1));
  double bits;

  for (int s = 0; s < n; s++)
    before[group != NULL ? group[s] : s] += p[s];
  bits = hob_weighted_entropy (before, n_w);
  for (int o = 0; o < n_outcomes; o++)
    {
      memset (after, 0, (gsize) n_w * sizeof (double));
      for (int s = 0; s < n; s++)
        after[group != NULL ? group[s] : s] += p[s] * likelihood[o * n + s];
      bits -= hob_weighted_entropy (after, n_w);
    }
  return fmax (bits, 0);
}
