/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/complaint.h"

#include "reason/trials-cache.h"

#include <math.h>

#define GRAVE 0.02 /* how seldom a shock or a smell of gas is imagined, beside others: assumed */

/* A symptom at a part, of a run or, for −1, of any. */
static guint
key_hash (gconstpointer key)
{
  const HobTrialNoticed *k = key;

  return (guint) ((k->run * 1000 + k->symptom) * 1000 + k->part);
}

static gboolean
key_equal (gconstpointer a, gconstpointer b)
{
  const HobTrialNoticed *x = a, *y = b;

  return x->run == y->run && x->symptom == y->symptom && x->part == y->part;
}

typedef struct
{
  int symptom, part; /* that is complained of */
  guint n_runs;
  GHashTable *known; /* HobTrialNoticed *, owned */
  double *all, *shares; /* [run], last: in any run: symptoms, and those complained of */
} Count;

static void
count_once (Count *c, HobTrialNoticed row, guint at)
{
  if (g_hash_table_contains (c->known, &row))
    return;
  g_hash_table_add (c->known, g_memdup2 (&row, sizeof row));
  c->all[at]++;
  c->shares[at] += row.symptom == c->symptom && (c->part < 0 || row.part == c->part);
}

static void
count_all (Count *c, const GArray *noticed, double until)
{
  for (guint k = 0; k < noticed->len; k++)
    {
      HobTrialNoticed row = g_array_index (noticed, HobTrialNoticed, k);

      if ((double) row.first > until)
        continue;
      count_once (c, row, (guint) row.run);
      row.run = -1;
      count_once (c, row, c->n_runs);
    }
}

void
hob_complaint_shares (HobTrials *trials, const GPtrArray *occasions, int symptom, int part,
                      const double *shows, guint stride, double *shares)
{
  guint n = hob_trials_n_runs (trials);
  g_autoptr (GHashTable) known = g_hash_table_new_full (key_hash, key_equal, g_free, NULL);
  g_autofree double *all = g_new0 (double, n + 1);
  Count count = { symptom, part, n, known, all, shares };

  for (guint r = 0; r <= n; r++)
    shares[r] = 0;
  for (guint k = 0; k < occasions->len; k++)
    {
      const HobOccasion *o = occasions->pdata[k];

      if (!o->dead && !o->exchanged)
        count_all (&count, hob_trials_noticed (trials, o->acts, o->until), o->until);
    }
  all[n] = fmax (all[n], hob_symptom_book_size (hob_trials_bench (trials)->book));
  shares[n] = fmax (shares[n], 1) / all[n];
  for (guint r = 0; r < n; r++) /* shown then and in no occasion, it is one symptom more */
    shares[r] = !(shows[r * stride] > 0) ? 0
                : shares[r] > 0          ? shares[r] / all[r]
                                         : 1 / (all[r] + 1);
}

/* What only an instrument shows can be taken for anything, and so can gas of a burner that does not
 * light at once. */
double
hob_complaint_imagined (const HobSymptomBook *book, int symptom)
{
  const HobSymptom *s = hob_symptom_book_get (book, symptom);
  int gravest = hob_hazards_next (s->hazards, -1);
  gboolean usual = gravest == HOB_HAZARD_GAS_FAINT && hob_symptom_book_calls (book, symptom);

  return gravest >= 0 && hob_hazards[gravest].unmistakable && !usual
                 && hob_symptom_means (s) != HOB_MEANS_THERMOMETER
             ? GRAVE
             : 1;
}
