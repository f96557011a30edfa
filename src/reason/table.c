/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/table.h"

#include "base/errors.h"

#include <math.h>
#include <string.h>

/* ---- What may be wrong ---- */

GArray *
hob_hypotheses_single (const HobRange *range)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));

  for (int p = 0; p < range->n_parts; p++)
    for (int f = 0; f < range->parts[p].kind->n_faults; f++)
      if (hob_range_has_fault (range, p, f))
        {
          const HobFaultDef *def = &range->parts[p].kind->faults[f];
          HobHypothesis h = { { p, -1 }, { f, -1 }, { hob_fault_typical (def), NAN } };
          g_array_append_val (all, h);
        }
  return all;
}

static GArray *
pairs_of (const GArray *single)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));

  for (guint a = 0; a < single->len; a++)
    for (guint b = a + 1; b < single->len; b++)
      {
        HobHypothesis h = g_array_index (single, HobHypothesis, a);
        const HobHypothesis *other = &g_array_index (single, HobHypothesis, b);

        if (h.part[0] == other->part[0])
          continue;
        h.part[1] = other->part[0];
        h.fault[1] = other->fault[0];
        h.severity[1] = other->severity[0];
        g_array_append_val (all, h);
      }
  return all;
}

/* ---- What it shows ---- */

typedef struct
{
  const HobBench *idle; /* each trial is the same range under its own case */
  const HobFaultTable *table;
  GArray **rows;   /* per hypothesis; filled by the one thread that has it */
  GError *error;   /* of the first hypothesis that has one */
  guint error_at;
  GMutex mutex;
} Work;

static int
row_order (gconstpointer a, gconstpointer b)
{
  const HobTableRow *x = a, *y = b;

  return x->first < y->first ? -1 : x->first > y->first ? 1 : x->symptom - y->symptom;
}

/* First times of the symptoms of one procedure, each once. */
static gboolean
try_procedure (const Work *work, int hypothesis, int procedure, GArray *rows, GError **error)
{
  const HobHypothesis *h = &g_array_index (work->table->hypotheses, HobHypothesis, hypothesis);
  g_autoptr (HobCase) acts = hob_case_new (hob_bench_range (work->idle));
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HobTableRow));
  double until;
  guint first, n;

  for (int k = 0; k < 2; k++)
    if (h->part[k] >= 0)
      hob_case_add (acts, (HobAct){ 0, HOB_ACT_FAULT, h->part[k], h->fault[k], h->severity[k] });
  if (!hob_procedure_add (acts, work->table->procedures[procedure], &until, error))
    return FALSE;
  bench = hob_bench_again (work->idle, acts);
  if (hob_bench_advance (bench, until, error) != HOB_RUN_OK)
    return FALSE;
  n = hob_run_events (bench->run, -1, until, &first);
  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (bench->run, k);
      HobTableRow row = { hypothesis, procedure, e->index, e->t };
      gboolean known = e->what != HOB_EVENT_SYMPTOM;

      for (guint i = 0; i < found->len && !known; i++)
        known = g_array_index (found, HobTableRow, i).symptom == row.symptom;
      if (!known)
        g_array_append_val (found, row);
    }
  g_array_sort (found, row_order);
  g_array_append_vals (rows, found->data, found->len);
  return TRUE;
}

static void
try_hypothesis (gpointer item, gpointer user)
{
  Work *work = user;
  guint hypothesis = GPOINTER_TO_UINT (item) - 1;
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (HobTableRow));
  HobTableRow silent = { (int) hypothesis, -1, -1, NAN };
  g_autoptr (GError) error = NULL;

  for (int p = 0; work->table->procedures[p] != NULL && error == NULL; p++)
    try_procedure (work, (int) hypothesis, p, rows, &error);
  if (rows->len == 0)
    g_array_append_val (rows, silent);
  work->rows[hypothesis] = rows;
  if (error == NULL)
    return;
  g_mutex_lock (&work->mutex);
  if (work->error == NULL || hypothesis < work->error_at)
    {
      g_clear_error (&work->error);
      work->error = g_steal_pointer (&error);
      work->error_at = hypothesis;
    }
  g_mutex_unlock (&work->mutex);
}

static void
try_all (Work *work, int threads)
{
  int n = threads > 0 ? threads : (int) g_get_num_processors ();
  GThreadPool *pool = g_thread_pool_new (try_hypothesis, work, n, TRUE, NULL);

  for (guint k = 0; k < work->table->hypotheses->len; k++)
    g_thread_pool_push (pool, GUINT_TO_POINTER (k + 1), NULL);
  g_thread_pool_free (pool, FALSE, TRUE);
}

HobFaultTable *
hob_fault_table_new_for (const HobBench *idle, GArray *hypotheses, int threads, GError **error)
{
  HobFaultTable *table = g_new0 (HobFaultTable, 1);
  Work work = { .idle = idle, .table = table };

  g_mutex_init (&work.mutex);
  table->hypotheses = g_array_ref (hypotheses);
  table->procedures = hob_procedure_names (hob_bench_range (idle));
  table->rows = g_array_new (FALSE, FALSE, sizeof (HobTableRow));
  work.rows = g_new0 (GArray *, hypotheses->len + 1);
  try_all (&work, threads);
  for (guint k = 0; k < hypotheses->len; k++)
    {
      g_array_append_vals (table->rows, work.rows[k]->data, work.rows[k]->len);
      g_array_unref (work.rows[k]);
    }
  g_free (work.rows);
  g_mutex_clear (&work.mutex);
  if (work.error == NULL)
    return table;
  g_propagate_error (error, work.error);
  hob_fault_table_free (table);
  return NULL;
}

HobFaultTable *
hob_fault_table_new (const HobBench *idle, gboolean pairs, GError **error)
{
  g_autoptr (GArray) single = hob_hypotheses_single (hob_bench_range (idle));
  g_autoptr (GArray) all = pairs ? pairs_of (single) : g_array_ref (single);

  return hob_fault_table_new_for (idle, all, 0, error);
}

void
hob_fault_table_free (HobFaultTable *table)
{
  if (table == NULL)
    return;
  g_array_unref (table->hypotheses);
  g_strfreev (table->procedures);
  g_array_unref (table->rows);
  g_free (table);
}

/* ---- In words ---- */

char *
hob_hypothesis_text (const HobRange *range, const HobHypothesis *h)
{
  GString *text = g_string_new (NULL);

  for (int k = 0; k < 2; k++)
    if (h->part[k] >= 0)
      g_string_append_printf (text, "%s%s:%s", k > 0 ? "+" : "", range->parts[h->part[k]].id,
                              range->parts[h->part[k]].kind->faults[h->fault[k]].id);
  return g_string_free (text, FALSE);
}

char *
hob_hypothesis_severity (const HobHypothesis *h)
{
  GString *text = g_string_new (NULL);

  for (int k = 0; k < 2; k++)
    if (h->part[k] >= 0)
      {
        g_string_append (text, k > 0 ? "+" : "");
        hob_append_number (text, h->severity[k]);
      }
  return g_string_free (text, FALSE);
}
