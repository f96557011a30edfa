/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Every fault is a change of physics: in some routine of the range it moves some trace by more
 * than counts as a difference, unless tests/silent-faults.ini says why not. The last argument
 * names the range: each one is a test of its own. */

#include "run/differ.h"
#include "shipped.h"

#include <math.h>

#define SAMPLES 150
#define LEAST_PAIRS 60

static const char *name;

typedef struct
{
  HobRange *range;
  HobPlan *plan;
  char **procedures;
  double **sound; /* traces of the sound range, a procedure each */
  int n;          /* values of one */
} Bench;

static double *
traces_of (const Bench *b, const char *procedure, int part, int fault, int *n)
{
  g_autoptr (HobCase) acts = hob_case_new (b->range);
  g_autoptr (HobMoment) m = hob_moment_new (b->plan);
  g_autoptr (HobRun) run = NULL;
  g_autoptr (GError) error = NULL;
  GArray *values = g_array_new (FALSE, FALSE, sizeof (double));
  double until;

  if (part >= 0)
    hob_case_add (acts, (HobAct){ 0, HOB_ACT_FAULT, part, fault,
                                  hob_fault_typical (&b->range->parts[part].kind->faults[fault]) });
  hob_procedure_add (acts, procedure, &until, &error);
  g_assert_no_error (error);
  run = hob_run_new (b->plan, acts, NULL);
  hob_run_advance (run, until, &error);
  g_assert_no_error (error);
  for (int k = 0; k < SAMPLES; k++)
    {
      hob_run_read (run, until * (k + 0.5) / SAMPLES, m);
      for (int p = 0; p < b->range->n_parts; p++)
        for (int q = 0; q < b->range->parts[p].kind->n_quantities; q++)
          {
            double value = hob_moment_quantity (m, p, q);
            g_array_append_val (values, value);
          }
    }
  *n = (int) values->len;
  return (double *) (void *) g_array_free (values, FALSE);
}

static gboolean
differs (const Bench *b, const double *a, const double *other, int n, const char **what)
{
  int at = 0;

  while (at < n)
    for (int p = 0; p < b->range->n_parts; p++)
      for (int q = 0; q < b->range->parts[p].kind->n_quantities; q++, at++)
        {
          const HobQuantityDef *def = &b->range->parts[p].kind->quantities[q];

          *what = def->name;
          if (hob_differs (other[at], a[at], def->dim))
            return TRUE;
        }
  return FALSE;
}

static gboolean
moves_a_trace (const Bench *b, int part, int fault)
{
  for (int k = 0; b->procedures[k] != NULL; k++)
    {
      int n;
      const char *what;
      g_autofree double *faulty = traces_of (b, b->procedures[k], part, fault, &n);

      if (differs (b, b->sound[k], faulty, n, &what))
        return TRUE;
    }
  return FALSE;
}

/* Faults of a kind act alike in every part of it: one that moves something will do. */
static void
try_faults (const Bench *b, GHashTable *moved, GHashTable *seen)
{
  for (int p = 0; p < b->range->n_parts; p++)
    for (int f = 0; f < b->range->parts[p].kind->n_faults; f++)
      {
        const HobKind *kind = b->range->parts[p].kind;
        g_autofree char *pair = g_strdup_printf ("%s:%s", kind->name, kind->faults[f].id);

        if (!hob_range_has_fault (b->range, p, f))
          continue;
        if (!g_hash_table_contains (moved, pair) && moves_a_trace (b, p, f))
          g_hash_table_add (moved, g_strdup (pair));
        g_hash_table_add (seen, g_steal_pointer (&pair));
      }
}

static void
bench_open (Bench *b)
{
  b->range = shipped_range (name);
  b->plan = hob_plan_new (b->range);
  b->procedures = hob_procedure_names (b->range);
  b->sound = g_new0 (double *, g_strv_length (b->procedures) + 1);
  for (int k = 0; b->procedures[k] != NULL; k++)
    b->sound[k] = traces_of (b, b->procedures[k], -1, -1, &b->n);
}

static void
bench_close (Bench *b)
{
  for (int k = 0; b->procedures[k] != NULL; k++)
    g_free (b->sound[k]);
  g_free (b->sound);
  g_strfreev (b->procedures);
  hob_plan_unref (b->plan);
  hob_range_unref (b->range);
}

static void
every_fault_moves_a_trace (void)
{
  g_autoptr (GHashTable) moved = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GKeyFile) accounted = silent_faults ();
  GHashTableIter iter;
  gpointer pair;
  Bench b = { 0 };

  bench_open (&b);
  try_faults (&b, moved, seen);
  bench_close (&b);
  g_hash_table_iter_init (&iter, seen);
  while (g_hash_table_iter_next (&iter, &pair, NULL))
    if (!g_hash_table_contains (moved, pair) && !silent_fault_in (accounted, pair, name))
      {
        g_test_message ("%s: %s moves nothing", name, (char *) pair);
        g_test_fail ();
      }
  g_test_message ("%s: %u pairs of kind and fault, %u move a trace", name, g_hash_table_size (seen),
                  g_hash_table_size (moved));
  g_assert_cmpuint (g_hash_table_size (moved), >=, LEAST_PAIRS);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  name = argv[1];
  g_test_add_func ("/faults/every-fault-moves-a-trace", every_fault_moves_a_trace);
  return g_test_run ();
}
