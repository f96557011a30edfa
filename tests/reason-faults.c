/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Every fault of a shipped range shows something in some routine, except those that
 * tests/silent-faults.ini accounts for. The last argument names the range: each one is a test of
 * its own. */

#include "reason/table.h"
#include "shipped.h"

static const char *name;

/* Of parts of one kind the first and the last stand for all: left front and right rear, bake and
 * broil. */
static gboolean
stands_for_its_kind (const HobRange *range, int part)
{
  gboolean before = FALSE, after = FALSE;

  for (int p = 0; p < range->n_parts; p++)
    if (range->parts[p].kind == range->parts[part].kind)
      {
        before = before || p < part;
        after = after || p > part;
      }
  return !(before && after);
}

static GArray *
hypotheses_of (const HobRange *range)
{
  g_autoptr (GArray) all = hob_hypotheses_single (range);
  GArray *some = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));

  for (guint i = 0; i < all->len; i++)
    {
      HobHypothesis h = g_array_index (all, HobHypothesis, i);

      if (stands_for_its_kind (range, h.part[0]))
        g_array_append_val (some, h);
    }
  return some;
}

static char *
pair_of (const HobRange *range, const HobHypothesis *h)
{
  const HobKind *kind = range->parts[h->part[0]].kind;

  return g_strdup_printf ("%s:%s", kind->name, kind->faults[h->fault[0]].id);
}

/* "KIND:FAULT" of which some part shows nothing. (transfer full) */
static GHashTable *
silent_pairs (const HobRange *range, const HobFaultTable *table)
{
  GHashTable *pairs = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < table->rows->len; i++)
    {
      const HobTableRow *row = &g_array_index (table->rows, HobTableRow, i);

      g_assert_cmpint (row->symptom, !=, HOB_TABLE_IMPOSSIBLE);
      if (row->symptom == HOB_TABLE_SILENT)
        g_hash_table_add (pairs, pair_of (range, &g_array_index (table->hypotheses, HobHypothesis,
                                                                 row->hypothesis)));
    }
  return pairs;
}

/* A fault shows something, or the table accounts for it. */
static void
compare_with_the_table (const char *pair, gboolean shows, gboolean accounted)
{
  if (shows && accounted)
    g_test_message ("%s: %s shows, but silent-faults.ini says that it does not", name, pair);
  if (!shows && !accounted)
    g_test_message ("%s: %s shows nothing in any routine, and silent-faults.ini does not say why",
                    name, pair);
  if (shows == accounted)
    g_test_fail ();
}

/* The table names no fault that this range does not have. */
static void
look_for_strangers (GKeyFile *accounted, GHashTable *tried)
{
  g_auto (GStrv) pairs = g_key_file_get_groups (accounted, NULL);

  for (int i = 0; pairs[i] != NULL; i++)
    if (silent_fault_in (accounted, pairs[i], name) && !g_hash_table_contains (tried, pairs[i]))
      {
        g_test_message ("%s: silent-faults.ini names %s, but there is no such fault", name,
                        pairs[i]);
        g_test_fail ();
      }
}

/* What a symptom of a fault puts at risk, the fault's own description must say too. */
static const struct
{
  HobHazards shown, said;
} at_risk[] = {
  { HOB_HAZARD (STOP_USING) | HOB_HAZARD (FIRE) | HOB_HAZARD (SHOCK) | HOB_HAZARD (HOT_PLUG),
    HOB_HAZARD (STOP_USING) | HOB_HAZARD (HOT_PLUG) | HOB_HAZARD (GAS_STRONG)
        | HOB_HAZARD (GAS_GATHERED) | HOB_HAZARD (CO_FLAME) },
  { HOB_HAZARD (CO_FLAME), HOB_HAZARD (CO_FLAME) },
  { HOB_HAZARD (GAS_STRONG), HOB_HAZARD (GAS_STRONG) | HOB_HAZARD (GAS_GATHERED) },
};

/* Gas that is smelled was let out unlit, whatever the symptom says of the source. */
static HobHazards
hazards_of (const HobSymptom *symptom)
{
  HobHazards smelled = g_str_has_prefix (symptom->id, "gas-smell") ? HOB_HAZARD (GAS_STRONG) : 0;

  return symptom->hazards | smelled;
}

static void
faults_say_what_their_symptoms_put_at_risk (const HobRange *range, const HobSymptomBook *book,
                                            const HobFaultTable *table)
{
  for (guint i = 0; i < table->rows->len; i++)
    {
      const HobTableRow *row = &g_array_index (table->rows, HobTableRow, i);
      const HobHypothesis *h = &g_array_index (table->hypotheses, HobHypothesis, row->hypothesis);
      const HobKind *kind = range->parts[h->part[0]].kind;
      HobHazards said = hob_fault_hazards (kind, &kind->faults[h->fault[0]]);
      const HobSymptom *symptom
          = row->symptom < 0 ? NULL : hob_symptom_book_get (book, row->symptom);

      for (guint k = 0; symptom != NULL && k < G_N_ELEMENTS (at_risk); k++)
        if ((hazards_of (symptom) & at_risk[k].shown) != 0 && (said & at_risk[k].said) == 0)
          {
            g_test_message ("%s: %s:%s shows %s, and its hazards do not say so", name, kind->name,
                            kind->faults[h->fault[0]].id, symptom->id);
            g_test_fail ();
          }
    }
}

static void
what_shows_nothing_is_accounted_for (void)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) some = hypotheses_of (range);
  g_autoptr (GKeyFile) accounted = silent_faults ();
  g_autoptr (HobFaultTable) table = hob_fault_table_new (idle, some, NULL);
  g_autoptr (GHashTable) silent = NULL;
  g_autoptr (GHashTable) tried = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  silent = silent_pairs (range, table);
  for (guint i = 0; i < some->len; i++)
    {
      char *pair = pair_of (range, &g_array_index (some, HobHypothesis, i));

      compare_with_the_table (pair, !g_hash_table_contains (silent, pair),
                              silent_fault_in (accounted, pair, name));
      g_hash_table_add (tried, pair);
    }
  look_for_strangers (accounted, tried);
  faults_say_what_their_symptoms_put_at_risk (range, idle->book, table);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  name = argv[1];
  g_test_add_func ("/reason/faults/what-shows-nothing-is-accounted-for",
                   what_shows_nothing_is_accounted_for);
  return g_test_run ();
}
