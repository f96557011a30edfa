/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/pairs.h"

#include <math.h>
#include <string.h>

#define MOST 24         /* faults that are put together */
#define MOST_PAIRS 12   /* pairs that become suspects */
#define GRADES 5        /* severities of each */
#define EXPLAINS 0.7    /* ln of how much more probable than on a normal range a clue must be */
#define NOT_A_SUM 0.15  /* of the smaller change: what two changes differ from their sum */
#define LEAST 0.005     /* probability of a pair that is a suspect */

/* One fault at one severity: what it makes of each clue. */
typedef struct
{
  const HobListed *fault;
  double severity, prior;
  double said;           /* how probable it is that somebody comes with the complaint */
  HobExpected *expected; /* owned; [clue] */
} Half;

typedef struct
{
  const Half *a, *b;
  double log_w; /* ln of prior and likelihood */
} Pair;

static double
total (const HobInquiry *q, int state)
{
  double sum = 0;

  for (guint k = 0; k < q->clues->len; k++)
    sum += q->logs[(gsize) k * (gsize) q->n_states + (gsize) state];
  return sum;
}

/* What its clues gain over a normal range at the best severity for each. */
static double
gain_of (const HobInquiry *q, const HobListed *f)
{
  double gain = 0;

  for (guint k = 0; k < q->clues->len; k++)
    {
      const double *logs = q->logs + (gsize) k * (gsize) q->n_states;
      double best = 0;

      for (int s = 0; s < f->n_states; s++)
        best = fmax (best, logs[f->first_state + s] - logs[q->normal]);
      gain += best > EXPLAINS ? best : 0;
    }
  return gain;
}

typedef struct
{
  double worth;
  guint fault;
} Ranked;

static int
most_first (const void *a, const void *b)
{
  const Ranked *x = a, *y = b;

  return x->worth > y->worth ? -1 : x->worth < y->worth ? 1 : x->fault < y->fault ? -1 : 1;
}

static void
clear_half (gpointer item)
{
  g_free (((Half *) item)->expected);
}

static void
add_half (const HobInquiry *q, GArray *halves, const HobListed *f, int state, double share)
{
  guint n = q->clues->len;
  Half half = { f, hob_listed_severity (f, state), share, 0, g_new (HobExpected, n + 1) };

  for (guint k = 0; k < n; k++)
    half.expected[k] = hob_inquiry_expected (q, k, f, half.severity);
  half.said = q->complaint >= 0 ? hob_inquiry_said (q, f, half.severity) : 0;
  g_array_append_val (halves, half);
}

/* Half, of the faults that explain anything. */
static GArray *
halves_of (const HobInquiry *q)
{
  GArray *halves = g_array_new (FALSE, FALSE, sizeof (Half));
  g_autofree Ranked *ranked = g_new (Ranked, q->faults->len + 1);
  guint n = 0;

  g_array_set_clear_func (halves, clear_half);
  for (guint f = 0; f < q->faults->len; f++)
    {
      const HobListed *fault = &g_array_index (q->faults, HobListed, f);
      double gain = gain_of (q, fault);
      double prior = q->prior[fault->first_state] * fault->n_states;

      if (gain > 0 && prior > 0)
        ranked[n++] = (Ranked){ gain + log (prior), f };
    }
  qsort (ranked, n, sizeof *ranked, most_first);
  for (guint k = 0; k < MIN (n, MOST); k++)
    {
      const HobListed *f = &g_array_index (q->faults, HobListed, ranked[k].fault);
      int grades = f->graded ? GRADES : 1;
      double prior = q->prior[f->first_state] * f->n_states;

      for (int g = 0; g < grades; g++)
        add_half (q, halves, f, f->graded ? (g + 1) * f->n_states / GRADES - 1 : 0,
                  prior / grades);
    }
  return halves;
}

HobExpected
hob_pair_expected (const HobExpected *a, const HobExpected *b, double normal, HobDimension dim)
{
  double less = fmin (fabs (a->value - normal), fabs (b->value - normal)), sum;

  if (dim == HOB_DIM_NUMBER)
    return (HobExpected){ 1 - (1 - a->value) * (1 - b->value), 0 };
  if (isinf (normal)) /* either way through closes what is open */
    return a->value < b->value ? *a : *b;
  if (isinf (a->value) || isinf (b->value))
    return (HobExpected){ INFINITY, 0 };
  sum = a->value + b->value - normal;
  return (HobExpected){ dim == HOB_DIM_DIFFERENCE ? sum : fmax (sum, 0),
                        hypot (hypot (a->spread, b->spread), NOT_A_SUM * less) };
}

static HobExpected
expected_of (const HobInquiry *q, const Half *a, const Half *b, guint k)
{
  return hob_pair_expected (&a->expected[k], &b->expected[k], q->told[k],
               hob_test_dimension (((HobClue *) q->clues->pdata[k])->test));
}

/* Of what two faults show the one that is complained of is as often the one's as the other's. */
static double
log_of_pair (const HobInquiry *q, const Half *a, const Half *b, guint k)
{
  HobExpected e;

  if ((int) k == q->complaint)
    return hob_inquiry_log_said (q, (a->said + b->said) / 2);
  e = expected_of (q, a, b, k);
  return hob_inquiry_log (q, k, &e);
}

static int
heavier_first (const void *a, const void *b)
{
  const Pair *x = a, *y = b;

  return x->log_w > y->log_w ? -1 : x->log_w < y->log_w;
}

/* Pair: of every two faults, at the severities that explain most, all severities weighed. */
static GArray *
pairs_of (const HobInquiry *q, const GArray *halves)
{
  GArray *pairs = g_array_new (FALSE, FALSE, sizeof (Pair));

  for (guint i = 0; i < halves->len; i++)
    for (guint j = i + 1; j < halves->len; j++)
      {
        const Half *a = &g_array_index (halves, Half, i), *b = &g_array_index (halves, Half, j);
        Pair pair = { a, b, log (q->priors->two_faults * a->prior * b->prior) };
        Pair *last = pairs->len > 0 ? &g_array_index (pairs, Pair, pairs->len - 1) : NULL;

        if (a->fault->h.part[0] == b->fault->h.part[0])
          continue;
        for (guint k = 0; k < q->clues->len; k++)
          pair.log_w += log_of_pair (q, a, b, k);
        if (last != NULL && last->a->fault == a->fault && last->b->fault == b->fault)
          {
            double sum = hob_log_sum (last->log_w, pair.log_w);

            if (pair.log_w > last->log_w)
              *last = pair;
            last->log_w = sum;
          }
        else
          g_array_append_val (pairs, pair);
      }
  g_array_sort (pairs, heavier_first);
  return pairs;
}

static HobSuspect *
suspect_of (const HobInquiry *q, const Pair *pair, double p)
{
  HobSuspect *s = g_new0 (HobSuspect, 1);
  const Half *a = pair->a, *b = pair->b;

  *s = (HobSuspect){ .what = HOB_SUSPECT_FAULT, .part = a->fault->h.part[0],
                     .fault = a->fault->h.fault[0], .part2 = b->fault->h.part[0],
                     .fault2 = b->fault->h.fault[0], .group = -1,
                     .severity2 = b->severity, .p = p,
                     .prior = q->priors->two_faults * a->prior * b->prior,
                     .graded = a->fault->graded,
                     .severity = { a->severity, a->severity, a->severity },
                     .expected = g_new (double, q->clues->len + 1),
                     .likelihood = g_new (double, q->clues->len + 1) };
  for (guint k = 0; k < q->clues->len; k++)
    {
      HobExpected e = expected_of (q, a, b, k);

      s->expected[k] = e.value;
      s->likelihood[k] = exp (hob_inquiry_log (q, k, &e));
    }
  return s;
}

void
hob_pairs_find (const HobInquiry *q, HobSuspects *all)
{
  g_autoptr (GArray) halves = halves_of (q), pairs = pairs_of (q, halves);
  double singles = -INFINITY, sum = -INFINITY;

  for (int s = 0; s < q->n_states; s++)
    if (q->prior[s] > 0)
      singles = hob_log_sum (singles, log (q->prior[s]) + total (q, s));
  for (guint k = 0; k < pairs->len; k++)
    sum = hob_log_sum (sum, g_array_index (pairs, Pair, k).log_w);
  sum = hob_log_sum (sum, singles);
  for (guint k = 0; k < all->suspects->len; k++)
    ((HobSuspect *) all->suspects->pdata[k])->p *= exp (singles - sum);
  for (guint k = 0; k < MIN (pairs->len, MOST_PAIRS); k++)
    {
      const Pair *pair = &g_array_index (pairs, Pair, k);
      double p = exp (pair->log_w - sum);

      if (p >= LEAST)
        g_ptr_array_add (all->suspects, suspect_of (q, pair, p));
    }
}
