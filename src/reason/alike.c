/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/alike.h"

#include "reason/inquiry.h"

#include <math.h>
#include <string.h>

typedef struct _Walk Walk;

/* What @a, @b and a normal range answer. */
typedef struct
{
  HobExpected a, b, normal;
  HobDimension dim;
} Answers;

struct _Walk
{
  HobTrials *trials;
  const HobCase *base;
  const HobListed *a, *b;
  double severity_a, severity_b, deviations;
  gboolean (*wanted) (const Walk *walk, const Answers *answers);
  GArray *runs; /* owned; guint: a normal one, and those of @a and @b */
  double *told; /* owned; [run]: of one column, those of `runs` alone, or of one symptom, all */
};

static gboolean
are_apart (const Walk *w, const Answers *answers)
{
  return hob_expected_apart (&answers->a, &answers->b, answers->dim, w->deviations);
}

static gboolean
a_alone_changes (const Walk *w, const Answers *answers)
{
  return hob_expected_apart (&answers->a, &answers->normal, answers->dim, w->deviations)
         && !hob_expected_apart (&answers->b, &answers->normal, answers->dim, w->deviations);
}

/* ---- Columns ---- */

/* What is told of one column. */
static gboolean
is_wanted (const Walk *w, HobDimension dim, const HobScatter *spread)
{
  Answers told = {
    .dim = dim,
    .normal = hob_expected_of (w->told[0], dim, spread),
    .a = hob_listed_expected (w->a, w->told, 1, w->severity_a, dim, spread),
    .b = hob_listed_expected (w->b, w->told, 1, w->severity_b, dim, spread),
  };

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
in_readings (const Walk *w, const HobOccasion *o, double t)
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
in_looks (const Walk *w, const HobOccasion *o)
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
found_anywhere (const Walk *w)
{
  const HobRange *range = hob_bench_range (hob_trials_bench (w->trials));
  g_auto (GStrv) names = hob_procedure_names (range);
  g_autoptr (GPtrArray) all = hob_occasions_new (w->base, names);
  gboolean found = FALSE;

  for (guint k = 0; k < all->len && !found; k++)
    {
      const HobOccasion *o = all->pdata[k];

      hob_trials_prepare (w->trials, o->acts, o->until, o->moments);
      found = in_looks (w, o);
      for (guint i = 0; i < o->moments->len && !found; i++)
        found = in_readings (w, o, g_array_index (o->moments, double, i));
    }
  return found;
}

static gboolean
walk (Walk w)
{
  g_autofree double *told = g_new (double, hob_trials_n_runs (w.trials));
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (guint));
  const guint normal = 0;

  g_array_append_val (runs, normal);
  hob_listed_add_runs (w.a, runs);
  hob_listed_add_runs (w.b, runs);
  w.runs = runs;
  w.told = told;
  return found_anywhere (&w);
}

gboolean
hob_alike (HobTrials *trials, const HobCase *base, const HobListed *a, double severity_a,
           const HobListed *b, double severity_b, double deviations)
{
  return !walk ((Walk){ .trials = trials, .base = base, .a = a, .b = b, .severity_a = severity_a,
                        .severity_b = severity_b, .deviations = deviations,
                        .wanted = are_apart });
}

gboolean
hob_alike_changes (HobTrials *trials, const HobCase *base, const HobListed *a,
                   double severity_a, const HobListed *b, double severity_b, double deviations)
{
  return walk ((Walk){ .trials = trials, .base = base, .a = a, .b = b,
                       .severity_a = severity_a, .severity_b = severity_b,
                       .deviations = deviations,
                       .wanted = a_alone_changes });
}
