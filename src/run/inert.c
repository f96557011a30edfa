/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/inert.h"

#include "run/engine.h"
#include "run/local.h"
#include "run/record.h"
#include <math.h>
#include <string.h>

typedef struct
{
  int part, fault;
  double severity, until;
} Fault;

struct _HobInert
{
  const HobPlan *plan; /* borrowed */
  HobLocal *local;     /* owned, as the rest */
  GArray *faults;      /* Fault, those of a part one after another */
  guint8 **shown;      /* per part and quantity */
  double *set;
};

HobInert *
hob_inert_new (const HobPlan *plan)
{
  HobInert *inert = g_new0 (HobInert, 1);

  inert->plan = plan;
  inert->local = hob_local_new (plan);
  inert->faults = g_array_new (FALSE, FALSE, sizeof (Fault));
  inert->shown = g_new0 (guint8 *, plan->range->n_parts + 1);
  for (int p = 0; p < plan->range->n_parts; p++)
    inert->shown[p] = g_new0 (guint8, plan->range->parts[p].kind->n_quantities + 1);
  inert->set = g_new0 (double, plan->n_sets + 1);
  return inert;
}

void
hob_inert_free (HobInert *inert)
{
  if (inert == NULL)
    return;
  for (int p = 0; p < inert->plan->range->n_parts; p++)
    g_free (inert->shown[p]);
  g_free (inert->shown);
  g_free (inert->set);
  g_array_unref (inert->faults);
  hob_local_free (inert->local);
  g_free (inert);
}

void
hob_inert_show (HobInert *inert, int part, int quantity)
{
  inert->shown[part][quantity] = 1;
}

int
hob_inert_add (HobInert *inert, int part, int fault, double severity)
{
  Fault f = { part, fault, severity, INFINITY };

  g_array_append_val (inert->faults, f);
  return (int) inert->faults->len - 1;
}

double
hob_inert_until (const HobInert *inert, int k)
{
  return g_array_index (inert->faults, Fault, k).until;
}

void
hob_run_set_inert (HobRun *run, HobInert *inert)
{
  g_return_if_fail (run->records->len == 0);
  run->tip->inert = inert;
}

/* What is asked about each fault that has not mattered yet. */
typedef struct
{
  int of;          /* only faults of this part; −1: of all */
  gboolean within; /* a part in its place flips; FALSE: it is about the part itself */
  HobLocalQuestion question;
  int k;
} Question;

static gboolean
is_same (HobInert *inert, HobMoment *m, const Fault *f, const Question *q)
{
  hob_moment_faulty_settings (m, f->part, f->fault, f->severity, inert->set);
  if (q->within)
    return hob_local_place_same (inert->local, m, f->part, inert->set);
  return hob_local_same (inert->local, m, f->part, inert->set, inert->shown, q->question, q->k);
}

static void
ask_each (HobInert *inert, HobMoment *m, Question q)
{
  int asked = -1;

  for (guint i = 0; i < inert->faults->len; i++)
    {
      Fault *f = &g_array_index (inert->faults, Fault, i);

      if (!isinf (f->until) || (q.of >= 0 && f->part != q.of))
        continue;
      if (asked != f->part)
        hob_local_ask (inert->local, m, asked = f->part, inert->shown[f->part]);
      if (!is_same (inert, m, f, &q))
        f->until = m->block[B_TIME];
    }
}

void
hob_inert_begin (HobInert *inert, HobMoment *m)
{
  ask_each (inert, m, (Question){ -1, FALSE, HOB_LOCAL_STARTS, 0 });
}

void
hob_inert_look (HobInert *inert, HobMoment *m)
{
  ask_each (inert, m, (Question){ -1, FALSE, HOB_LOCAL_ACTS, 0 });
}

void
hob_inert_flip (HobInert *inert, HobMoment *m, int part, int guard)
{
  int place = m->plan->range->parts[part].in;

  ask_each (inert, m, (Question){ part, FALSE, HOB_LOCAL_FLIPS, guard });
  if (place >= 0)
    ask_each (inert, m, (Question){ place, TRUE, HOB_LOCAL_FLIPS, guard });
}

void
hob_inert_end (HobInert *inert, const HobMoment *m, int part)
{
  int place = m->plan->range->parts[part].in;

  for (guint i = 0; i < inert->faults->len; i++)
    {
      Fault *f = &g_array_index (inert->faults, Fault, i);

      if (f->part == part || f->part == place)
        f->until = fmin (f->until, m->block[B_TIME]);
    }
}
