/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/table.h"

#include "reason/plain.h"
#include "reason/repeats.h"
#include "reason/table-cache.h"

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

static gboolean
change_the_same (const HobRange *range, const HobHypothesis *a, const HobHypothesis *b)
{
  const HobKind *kind = range->parts[a->part[0]].kind;
  const HobFaultDef *x = &kind->faults[a->fault[0]], *y = &kind->faults[b->fault[0]];

  for (int i = 0; i < x->n_effects; i++)
    for (int k = 0; k < y->n_effects; k++)
      if (x->effects[i].setting == y->effects[k].setting)
        return TRUE;
  return FALSE;
}

GArray *
hob_hypotheses_pairs (const HobRange *range)
{
  g_autoptr (GArray) single = hob_hypotheses_single (range);
  GArray *all = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));

  for (guint a = 0; a < single->len; a++)
    for (guint b = a + 1; b < single->len; b++)
      {
        HobHypothesis h = g_array_index (single, HobHypothesis, a);
        const HobHypothesis *other = &g_array_index (single, HobHypothesis, b);

        if (h.part[0] == other->part[0] && change_the_same (range, &h, other))
          continue;
        h.part[1] = other->part[0];
        h.fault[1] = other->fault[0];
        h.severity[1] = other->severity[0];
        g_array_append_val (all, h);
      }
  return all;
}

/* ---- What it shows ---- */

#define LOOK_EVERY (20 * G_TIME_SPAN_MILLISECOND) /* of the thread that waits */

typedef struct
{
  /*< borrowed >*/
  const HobBench *idle;
  const HobFaultTable *table;
  const HobTableWork *how;
  /*< owned >*/
  HobPlain **plain; /* per procedure: the run without a fault */
  GArray **rows; /* per hypothesis; filled by the one thread that has it */
  guint done;
  GMutex mutex; /* of `done` */
  GCond more;
} Work;

static gboolean
cancelled (const Work *work)
{
  return hob_is_cancelled (work->how->cancel);
}

static int
row_order (gconstpointer a, gconstpointer b)
{
  const HobTableRow *x = a, *y = b;

  return x->first < y->first ? -1 : x->first > y->first ? 1 : x->symptom - y->symptom;
}

/* First times of the symptoms of a run, each once; not what its last step shows after the end. */
static void
collect (const HobBench *bench, HobTableRow row, double until, GArray *found)
{
  guint first, n = hob_run_events (bench->run, -1, until, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (bench->run, k);
      gboolean known = e->what != HOB_EVENT_SYMPTOM;

      row.symptom = e->index;
      row.first = e->t;
      for (guint i = 0; i < found->len && !known; i++)
        known = g_array_index (found, HobTableRow, i).symptom == row.symptom;
      if (!known)
        g_array_append_val (found, row);
    }
}

/* The run without a fault; @item: 1 + the procedure. */
static void
try_nothing (gpointer item, gpointer user)
{
  Work *work = user;
  guint procedure = GPOINTER_TO_UINT (item) - 1;
  g_autoptr (HobCase) acts = hob_case_new (hob_bench_range (work->idle));
  double until;

  hob_case_add (acts, HOB_PLAIN_ACT);
  if (!hob_procedure_add (acts, work->table->procedures[procedure], &until, NULL))
    g_assert_not_reached ();
  work->plain[procedure]
      = hob_plain_new (work->idle, acts, work->table->hypotheses, until, work->how->cancel);
}

/* FALSE: the run came to an impossible state. */
static gboolean
advance (const Work *work, HobBench *bench, double until)
{
  return work->how->whole ? hob_bench_advance_unless (bench, work->how->cancel, until)
                          : hob_repeats_advance (bench, work->how->cancel, until);
}

static void
try_procedure (const Work *work, int hypothesis, int procedure, GArray *rows)
{
  const HobHypothesis *h = &g_array_index (work->table->hypotheses, HobHypothesis, hypothesis);
  g_autoptr (HobCase) acts = hob_case_new (hob_bench_range (work->idle));
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (HobTableRow));
  HobTableRow row = { .hypothesis = hypothesis, .procedure = procedure };
  g_autoptr (HobBench) bench = NULL;
  double until;

  for (int k = 0; k < 2; k++)
    if (h->part[k] >= 0)
      hob_case_add (acts, (HobAct){ .what = HOB_ACT_FAULT, .part = h->part[k],
                                    .index = h->fault[k], .value = h->severity[k] });
  if (!hob_procedure_add (acts, work->table->procedures[procedure], &until, NULL))
    g_assert_not_reached ();
  bench = hob_plain_run (work->plain[procedure], (guint) hypothesis, until, acts);
  if (!advance (work, bench, until))
    {
      row.symptom = HOB_TABLE_IMPOSSIBLE;
      row.first = hob_run_reached (bench->run);
      g_array_append_val (found, row);
    }
  collect (bench, row, until, found);
  g_array_sort (found, row_order);
  g_array_append_vals (rows, found->data, found->len);
}

static void
try_hypothesis (gpointer item, gpointer user)
{
  Work *work = user;
  guint hypothesis = GPOINTER_TO_UINT (item) - 1;
  GArray *rows = g_array_new (FALSE, FALSE, sizeof (HobTableRow));
  HobTableRow silent = { (int) hypothesis, -1, HOB_TABLE_SILENT, NAN };

  for (int p = 0; work->table->procedures[p] != NULL && !cancelled (work); p++)
    try_procedure (work, (int) hypothesis, p, rows);
  if (rows->len == 0)
    g_array_append_val (rows, silent);
  work->rows[hypothesis] = rows;
  g_mutex_lock (&work->mutex);
  work->done++;
  g_cond_signal (&work->more);
  g_mutex_unlock (&work->mutex);
}

/* Tells how far the threads are until all are done or it is cancelled; hypotheses that have not
 * begun by then end at once and are no progress. */
static void
wait_for_all (Work *work, guint total)
{
  guint told = 0, done = 0;

  while (done < total)
    {
      g_mutex_lock (&work->mutex);
      if (work->done == told)
        g_cond_wait_until (&work->more, &work->mutex, g_get_monotonic_time () + LOOK_EVERY);
      done = work->done;
      g_mutex_unlock (&work->mutex);
      if (done > told && !cancelled (work) && work->how->progress != NULL)
        work->how->progress (done, total, work->how->user);
      told = done;
    }
}

/* Does @try for each of @n items, which begin at 1, on all threads. */
static GThreadPool *
begin_each (Work *work, GFunc try, guint n)
{
  int threads = work->how->threads > 0 ? work->how->threads : (int) g_get_num_processors ();
  GThreadPool *pool = g_thread_pool_new (try, work, threads, TRUE, NULL);

  for (guint k = 1; k <= n; k++)
    g_thread_pool_push (pool, GUINT_TO_POINTER (k), NULL);
  return pool;
}

static void
try_all (Work *work)
{
  guint total = work->table->hypotheses->len;
  GThreadPool *pool = begin_each (work, try_nothing, g_strv_length (work->table->procedures));

  g_thread_pool_free (pool, FALSE, TRUE);
  pool = begin_each (work, try_hypothesis, total);
  wait_for_all (work, total);
  g_thread_pool_free (pool, FALSE, TRUE);
}

static void
make_rows (const HobBench *idle, HobFaultTable *table, const HobTableWork *how)
{
  guint total = table->hypotheses->len;
  Work work = { .idle = idle, .table = table, .how = how };

  g_mutex_init (&work.mutex);
  g_cond_init (&work.more);
  work.rows = g_new0 (GArray *, total + 1);
  work.plain = g_new0 (HobPlain *, g_strv_length (table->procedures) + 1);
  try_all (&work);
  for (guint k = 0; k < total; k++)
    {
      g_array_append_vals (table->rows, work.rows[k]->data, work.rows[k]->len);
      g_array_unref (work.rows[k]);
    }
  for (int p = 0; table->procedures[p] != NULL; p++)
    hob_plain_free (work.plain[p]);
  g_free (work.plain);
  g_free (work.rows);
  g_cond_clear (&work.more);
  g_mutex_clear (&work.mutex);
}

HobFaultTable *
hob_fault_table_new (const HobBench *idle, GArray *hypotheses, const HobTableWork *work)
{
  static const HobTableWork plain;
  HobFaultTable *table = g_new (HobFaultTable, 1);

  *table = (HobFaultTable){
    .hypotheses = g_array_ref (hypotheses),
    .procedures = hob_procedure_names (hob_bench_range (idle)),
    .rows = g_array_new (FALSE, FALSE, sizeof (HobTableRow)),
  };
  work = work != NULL ? work : &plain;
  if (work->cache && hob_table_cache_load (idle, table))
    return table;
  make_rows (idle, table, work);
  if (work->cancel != NULL && g_atomic_int_get (work->cancel) != 0)
    g_clear_pointer (&table, hob_fault_table_free);
  else if (work->cache)
    hob_table_cache_store (idle, table);
  return table;
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
