/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "reason/plain.h"

#include "run/inert.h"

#include <math.h>

#define MOST_BYTES (12u << 20) /* of a record */

struct _HobPlain
{
  HobBench *bench; /* owned, as the rest */
  HobInert *inert; /* NULL: the case has faults of its own, and nothing is spared */
  int *fault;      /* of each hypothesis, its number there; −1: none */
};

static gboolean
has_faults (const HobCase *acts)
{
  for (guint k = 0; k < acts->acts->len; k++)
    if (g_array_index (acts->acts, HobAct, k).what == HOB_ACT_FAULT)
      return TRUE;
  return FALSE;
}

/* Returns how many there are. */
static int
look_for (HobPlain *plain, const GArray *hypotheses)
{
  int n = 0;

  for (guint k = 0; k < hypotheses->len; k++)
    {
      const HobHypothesis *h = &g_array_index (hypotheses, HobHypothesis, k);
      gboolean single = h->part[0] >= 0 && h->part[1] < 0;

      plain->fault[k] = -1;
      if (single)
        plain->fault[k] = hob_inert_add (plain->inert, h->part[0], h->fault[0], h->severity[0]);
      n += single;
    }
  return n;
}

HobPlain *
hob_plain_new (const HobBench *idle, const HobCase *acts, const GArray *hypotheses, double until,
               const gint *cancel)
{
  HobPlain *plain = g_new0 (HobPlain, 1);

  plain->bench = hob_bench_again (idle, acts);
  plain->fault = g_new0 (int, hypotheses->len + 1);
  if (has_faults (acts))
    return plain;
  plain->inert = hob_inert_new (plain->bench->plan);
  if (look_for (plain, hypotheses) == 0)
    return plain;
  hob_run_set_limit (plain->bench->run, MOST_BYTES);
  hob_bench_set_inert (plain->bench, plain->inert);
  (void) hob_bench_advance_unless (plain->bench, cancel, until);
  return plain;
}

void
hob_plain_free (HobPlain *plain)
{
  if (plain == NULL)
    return;
  hob_bench_free (plain->bench);
  hob_inert_free (plain->inert);
  g_free (plain->fault);
  g_free (plain);
}

HobBench *
hob_plain_run (const HobPlain *plain, guint k, double t, const HobCase *acts)
{
  double same = plain->inert != NULL && plain->fault[k] >= 0
                    ? hob_inert_until (plain->inert, plain->fault[k]) : 0;

  same = fmin (same, hob_run_reached (plain->bench->run)); /* it may have been cancelled */
  return same > 0 ? hob_bench_fork (plain->bench, fmin (same, t), acts)
                  : hob_bench_again (plain->bench, acts);
}
