/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/divide.h"

#include <math.h>

#define LEAST 1e-6 /* of the whole weight, in bits, that an edge must tell */

typedef struct
{
  HobForeseen *all;  /* that are not open, ascending */
  double *deviation; /* of each */
  double *left, *right; /* [group]: weight on either side of a split */
} Division;

/* Where a part of the order is best split: before `at`.  Bits are times the weight. */
typedef struct
{
  int from, to, at;
  double bits, edge;
} Split;

static double
x_log_x (double x)
{
  return x > 0 ? x * log2 (x) : 0;
}

/* How much Σ x·log x of the two grows. */
static double
move (double *from, double *to, double weight)
{
  double before = x_log_x (*from) + x_log_x (*to);

  *from = fmax (*from - weight, 0);
  *to += weight;
  return x_log_x (*from) + x_log_x (*to) - before;
}

/* Between the neighbors k − 1 and k, where it is as many deviations from the one as from the other.
 * Returns how much more often than not their readings fall on the right side of it. */
static double
edge_before (const Division *d, int k, double *edge)
{
  double low = d->all[k - 1].expected.value, step = d->all[k].expected.value - low;
  double a = d->deviation[k - 1], b = d->deviation[k];

  *edge = low + step * a / (a + b);
  return step > 0 ? erf (step / (a + b) / G_SQRT2) : 0;
}

/* All of the part to the right; returns its weight, and Σ x·log x of its groups. */
static double
begin (const Division *d, int from, int to, double *sum)
{
  double weight = 0;

  for (int k = from; k < to; k++)
    d->left[d->all[k].group] = d->right[d->all[k].group] = 0;
  *sum = 0;
  for (int k = from; k < to; k++)
    {
      double *right = &d->right[d->all[k].group], before = x_log_x (*right);

      *right += d->all[k].weight;
      *sum += x_log_x (*right) - before;
      weight += d->all[k].weight;
    }
  return weight;
}

/* W·H of the part less that of its two sides: with S = Σ x·log x of the groups,
 * W·H = W·log W − S. */
static Split
best_split (const Division *d, int from, int to)
{
  Split best = { from, to, from, 0, NAN };
  double sum, weight = begin (d, from, to, &sum), whole = x_log_x (weight) - sum, left = 0;

  for (int k = from + 1; k < to; k++)
    {
      const HobForeseen *moved = &d->all[k - 1];
      double edge, sure = edge_before (d, k, &edge), bits;

      sum += move (&d->right[moved->group], &d->left[moved->group], moved->weight);
      left += moved->weight;
      if (sure <= 0)
        continue;
      bits = sure * (whole + sum - x_log_x (left) - x_log_x (fmax (weight - left, 0)));
      if (bits > best.bits)
        best = (Split){ from, to, k, bits, edge };
    }
  return best;
}

static int
by_value (const void *a, const void *b)
{
  const HobForeseen *x = a, *y = b;

  return x->expected.value < y->expected.value ? -1 : x->expected.value > y->expected.value;
}

static int
ascending (const void *a, const void *b)
{
  const double *x = a, *y = b;

  return *x < *y ? -1 : *x > *y;
}

/* Divides the part that is best divided, again and again. */
static int
divide (const Division *d, int n, double least, double *edges, int most)
{
  g_autofree Split *parts = g_new (Split, most + 1);
  int n_edges = 0;

  parts[0] = best_split (d, 0, n);
  while (n_edges < most)
    {
      Split *best = &parts[0], whole;

      for (int k = 1; k <= n_edges; k++)
        best = parts[k].bits > best->bits ? &parts[k] : best;
      if (best->bits <= least)
        break;
      whole = *best;
      edges[n_edges++] = whole.edge;
      *best = best_split (d, whole.from, whole.at);
      parts[n_edges] = best_split (d, whole.at, whole.to);
    }
  qsort (edges, (gsize) n_edges, sizeof *edges, ascending);
  return n_edges;
}

int
hob_reading_divide (const HobForeseen *foreseen, int n, int n_groups, const HobMeterClass *meter,
                    double *edges, int most)
{
  g_autofree HobForeseen *all = g_new (HobForeseen, MAX (n, 1));
  g_autofree double *room = g_new (double, 2 * n_groups + MAX (n, 1));
  Division d = { all, room + 2 * n_groups, room, room + n_groups };
  double weight = 0;
  int closed = 0;

  for (int k = 0; k < n; k++)
    if (isfinite (foreseen[k].expected.value) && foreseen[k].weight > 0)
      {
        all[closed++] = foreseen[k];
        weight += foreseen[k].weight;
      }
  qsort (all, (gsize) closed, sizeof *all, by_value);
  for (int k = 0; k < closed; k++)
    d.deviation[k] = hob_reading_deviation (&all[k].expected, meter, NAN);
  return divide (&d, closed, weight * LEAST, edges, most);
}
