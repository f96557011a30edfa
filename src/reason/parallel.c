/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/parallel.h"

/* ---- Which parts ---- */

static gboolean
same_end (HobEnd a, HobEnd b)
{
  return a.part == b.part && a.terminal == b.terminal;
}

static gboolean
add_end (GArray *ends, HobEnd end)
{
  for (guint k = 0; k < ends->len; k++)
    if (same_end (g_array_index (ends, HobEnd, k), end))
      return FALSE;
  g_array_append_val (ends, end);
  return TRUE;
}

/* By wires alone. */
static gboolean
wired (const HobRange *range, HobEnd from, HobEnd to)
{
  g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (HobEnd));

  g_array_append_val (ends, from);
  for (guint k = 0; k < ends->len; k++)
    {
      HobEnd end = g_array_index (ends, HobEnd, k);

      if (same_end (end, to))
        return TRUE;
      for (int w = 0; w < range->n_wires; w++)
        if (same_end (range->wires[w].from, end))
          add_end (ends, range->wires[w].to);
        else if (same_end (range->wires[w].to, end))
          add_end (ends, range->wires[w].from);
    }
  return FALSE;
}

static gboolean
in_parallel (const HobRange *range, int a, int b)
{
  const HobKind *kind = range->parts[a].kind;
  gboolean all = kind == range->parts[b].kind && kind->n_terminals > 0;

  for (int k = 0; k < kind->n_terminals && all; k++)
    all = wired (range, (HobEnd){ a, k }, (HobEnd){ b, k });
  return all;
}

/* The next of the same after @from, or before it the first; itself if there is none. */
static guint
next_alike (const HobRange *range, const GArray *faults, guint from)
{
  const HobHypothesis *h = &g_array_index (faults, HobListed, from).h;
  guint k = from;

  do
    {
      const HobHypothesis *other;

      k = (k + 1) % faults->len;
      other = &g_array_index (faults, HobListed, k).h;
      if (other->fault[0] == h->fault[0] && in_parallel (range, other->part[0], h->part[0]))
        break;
    }
  while (k != from);
  return k;
}

void
hob_parallel_link (const HobRange *range, GArray *faults)
{
  for (guint k = 0; k < faults->len; k++)
    g_array_index (faults, HobListed, k).next = (int) next_alike (range, faults, k) - (int) k;
}

/* ---- What they show ---- */

static gboolean
is_moved (const HobCase *acts, int part)
{
  for (guint k = 0; k < acts->acts->len; k++)
    {
      int moved = g_array_index (acts->acts, HobAct, k).part;

      if (moved == part || moved == acts->range->parts[part].moved_by)
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_any_moved (const HobCase *acts, const HobListed *first)
{
  const HobListed *f = first;

  do
    if (is_moved (acts, f->h.part[0]))
      return TRUE;
  while ((f += f->next) != first);
  return FALSE;
}

/* The run of @f that is its nth: of its severities, that of another unit, then those halfway. */
static double *
answer_of (double *answers, const HobListed *f, guint nth)
{
  guint n = hob_listed_n_runs (f);

  return &answers[nth < n ? f->first_run + nth : nth == n ? f->other_run
                                                          : f->first_mid + nth - n - 1];
}

static void
average (const HobListed *first, guint nth, double *answers)
{
  const HobListed *f = first;
  double sum = 0;
  int n = 0;

  do
    {
      sum += *answer_of (answers, f, nth);
      n++;
    }
  while ((f += f->next) != first);
  do
    *answer_of (answers, f, nth) = sum / n;
  while ((f += f->next) != first);
}

void
hob_parallel_average (const GArray *faults, const HobCase *acts, double *answers)
{
  for (guint k = 0; k < faults->len; k++)
    {
      const HobListed *f = &g_array_index (faults, HobListed, k);

      if (f->next > 0 && !is_any_moved (acts, f))
        for (guint nth = 0; nth < (f->graded ? 2 : 1) * hob_listed_n_runs (f) + 1; nth++)
          average (f, nth, answers);
    }
}
