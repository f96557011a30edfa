/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/alike.h"

#include "reason/inquiry.h"

#include <math.h>
#include <string.h>

enum { MOST = 32 }; /* faults that are compared at a time: the bits of a number */

typedef struct _Walk Walk;

/* What each fault and a normal range answer. */
typedef struct
{
  HobExpected of[MOST], normal;
  HobDimension dim;
} Answers;

struct _Walk
{
  HobTrials *trials;
  const HobCase *base;
  int n; /* ≤ MOST */
  const HobListed *const *faults;
  const double *severities;
  double deviations;
  gboolean (*wanted) (Walk *walk, const Answers *answers); /* … and no more */
  guint32 *like; /* of each fault: the bits of those that nothing has told from it yet */
  GArray *runs;  /* owned; guint: a normal one, and those of the faults */
  double *told;  /* owned; [run]: of one column, those of `runs` alone, or of one symptom, all */
};

/* Is there another fault that it may be told from? */
static gboolean
is_open (const Walk *w, int k)
{
  return w->like == NULL || (w->like[k] & ~(1u << k)) != 0;
}

/* Are all of them told apart? */
static gboolean
are_apart (Walk *w, const Answers *answers)
{
  gboolean all = TRUE;

  for (int i = 0; i < w->n; i++)
    {
      for (int k = i + 1; k < w->n; k++)
        if ((w->like[i] >> k & 1) != 0
            && hob_expected_apart (&answers->of[i], &answers->of[k], answers->dim, w->deviations))
          {
            w->like[i] &= ~(1u << k);
            w->like[k] &= ~(1u << i);
          }
      all = all && !is_open (w, i);
    }
  return all;
}

static gboolean
first_alone_changes (Walk *w, const Answers *answers)
{
  return hob_expected_apart (&answers->of[0], &answers->normal, answers->dim, w->deviations)
         && !hob_expected_apart (&answers->of[1], &answers->normal, answers->dim, w->deviations);
}

/* ---- Columns ---- */

/* What is told of one column. */
static gboolean
is_wanted (Walk *w, HobDimension dim, const HobScatter *spread)
{
  Answers told;

  told.dim = dim;
  told.normal = hob_expected_of (w->told[0], dim, spread);
  for (int k = 0; k < w->n; k++)
    if (is_open (w, k))
      told.of[k] = hob_listed_expected (w->faults[k], w->told, 1, w->severities[k], dim, spread);
  return w->wanted (w, &told);
}

/* @answers: of one column, [run·stride]. */
static void
tell (const Walk *w, const float *answers, gsize stride)
{
  for (guint k = 0; k < w->runs->len; k++)
    {
      guint run = g_array_index (w->runs, guint, k);

      w->told[run] = (double) answers[run * stride];
    }
}

static gboolean
in_readings (Walk *w, const HobOccasion *o, double t)
{
  const GPtrArray *tests = hob_trials_tests (w->trials);
  const HobScatter *spread;
  const float *answers = hob_trials_readings (w->trials, o->acts, t, &spread);

  hob_trials_forget_mids (w->trials, w->told);
  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];

      if (!hob_occasion_suits (o, listed->test))
        continue;
      tell (w, answers + k, tests->len);
      if (is_wanted (w, listed->dim, &spread[k]))
        return TRUE;
    }
  return FALSE;
}

static gboolean
in_looks (Walk *w, const HobOccasion *o)
{
  guint n = hob_trials_n_runs (w->trials);
  gsize symptoms = (gsize) hob_symptom_book_size (hob_trials_bench (w->trials)->book);
  g_autofree double *shows = g_new (double, symptoms * n);
  g_autofree gboolean *shown = g_new (gboolean, symptoms);
  HobScatter none = { 0, 0 };
  gboolean found = FALSE;

  if (o->dead)
    return FALSE;
  hob_trials_shown (w->trials, o->acts, NULL, o->until, shown);
  hob_trials_look_for (w->trials, o->acts, shown, o->until, shows);
  for (gsize k = 0; k < symptoms && !found; k++)
    {
      if (!shown[k])
        continue;
      memcpy (w->told, shows + k * n, n * sizeof *shows);
      found = is_wanted (w, HOB_DIM_NUMBER, &none);
    }
  return found;
}

/* ---- All procedures ---- */

static gboolean
in_any_reading (Walk *w, const HobOccasion *o)
{
  for (guint i = 0; i < o->moments->len; i++)
    if (in_readings (w, o, g_array_index (o->moments, double, i)))
      return TRUE;
  return FALSE;
}

/* Readings first: to look for every symptom in every run takes much longer than to read a column
 * in a few, and most are told apart by a reading. */
static gboolean
found_anywhere (Walk *w)
{
  const HobRange *range = hob_bench_range (hob_trials_bench (w->trials));
  g_auto (GStrv) names = hob_procedure_names (range);
  g_autoptr (GPtrArray) all = hob_occasions_new (w->base, names);
  gboolean found = FALSE;

  for (guint k = 0; k < all->len && !found; k++)
    {
      const HobOccasion *o = all->pdata[k];

      hob_trials_prepare (w->trials, o->acts, o->until, o->moments);
      found = in_any_reading (w, o);
    }
  for (guint k = 0; k < all->len && !found; k++)
    found = in_looks (w, all->pdata[k]);
  return found;
}

/* Is there anything that is wanted? */
static gboolean
walk (Walk w)
{
  g_autofree double *told = g_new (double, hob_trials_n_runs (w.trials));
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (guint));
  const guint normal = 0;

  g_array_append_val (runs, normal);
  for (int k = 0; k < w.n; k++)
    hob_listed_add_runs (w.faults[k], runs);
  w.runs = runs;
  w.told = told;
  return found_anywhere (&w);
}

void
hob_alike_among (HobTrials *trials, const HobCase *base, const HobListed *const *faults,
                 const double *severities, int n, double deviations, guint32 *like)
{
  g_return_if_fail (n <= MOST);
  for (int k = 0; k < n; k++)
    like[k] = (guint32) ((G_GUINT64_CONSTANT (1) << n) - 1);
  if (n > 1)
    walk ((Walk){ .trials = trials, .base = base, .n = n, .faults = faults,
                  .severities = severities, .deviations = deviations, .wanted = are_apart,
                  .like = like });
}

gboolean
hob_alike (HobTrials *trials, const HobCase *base, const HobListed *a, double severity_a,
           const HobListed *b, double severity_b, double deviations)
{
  guint32 like[2];

  hob_alike_among (trials, base, (const HobListed *const[]){ a, b },
                   (const double[]){ severity_a, severity_b }, 2, deviations, like);
  return (like[0] & 2) != 0;
}

gboolean
hob_alike_changes (HobTrials *trials, const HobCase *base, const HobListed *a,
                   double severity_a, const HobListed *b, double severity_b, double deviations)
{
  return walk ((Walk){ .trials = trials, .base = base, .n = 2,
                       .faults = (const HobListed *const[]){ a, b },
                       .severities = (const double[]){ severity_a, severity_b },
                       .deviations = deviations, .wanted = first_alone_changes });
}
