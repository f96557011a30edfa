/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Each fault that shows something has one reading that tells it from its nearest neighbor: the
 * fault that shares most of what it shows.  Both readings are taken, on the fault and on the
 * neighbor.  Those that no instrument and no look tells apart are in tests/neighbors.ini, each with
 * its ranges and its reason.  The last argument names the range. */

#include "config.h"
#include "reason/plain.h"
#include "run/differ.h"
#include "run/tests.h"
#include "shipped.h"

#include <math.h>

#define SEEDS 4 /* other units, whose normal readings scatter */

enum { MOST_READS = 3 };

/* What is done, when it is read, and how long somebody looks on.  Where a range has not what it is
 * done with, it is left out there. */
static const struct
{
  const char *acts[6];
  double read[MOST_READS];
  double until;
} occasions[] = {
  { { "0s cord.plug=out" }, { 5 }, 30 },
  { { NULL }, { 5 }, 30 },
  { { "1s knob-lf=light", "8s knob-lf=high", "20s knob-lf=low", "32s knob-lf=off" },
    { 6, 31 }, 60 },
  { { "1s knob-rr=light", "8s knob-rr=high", "20s knob-rr=low", "32s knob-rr=off" },
    { 31 }, 60 },
  { { "0s oven.mode=bake" }, { 90, 600 }, 1800 },
  { { "0s oven.mode=bake", "300s oven.mode=off" }, { 320 }, 400 },
  { { "0s oven.mode=broil" }, { 90 }, 400 },
  { { "1s knob-lf=light", "2s knob-rr=light", "8s knob-lf=high", "9s knob-rr=high",
      "20s oven.mode=bake" }, { 110 }, 120 },
  { { "0s oven.mode=convection" }, { 600 }, 1800 },
};
enum { OCCASIONS = G_N_ELEMENTS (occasions) };

/* A range, and what it does without a fault on each occasion. */
typedef struct
{
  const char *name;
  HobBench *idle;
  GPtrArray *tests;           /* HobListedTest */
  GArray *hypotheses;         /* HobHypothesis: those of parts that stand for their kind */
  HobPlain *plain[OCCASIONS]; /* NULL: it is left out */
  GPtrArray *normal;          /* Specimen: other units */
} Stage;

typedef struct
{
  char *name;      /* owned; "PART:FAULT" */
  char *kind;      /* owned; "KIND:FAULT" */
  GPtrArray *seen; /* char *, owned, sorted: "OCCASION SYMPTOM PART" */
  GArray *values;  /* double, owned: by occasion, moment and test; NaN: not answered */
} Specimen;

static void
specimen_free (gpointer data)
{
  Specimen *s = data;

  g_free (s->name);
  g_free (s->kind);
  g_ptr_array_unref (s->seen);
  g_array_unref (s->values);
  g_free (s);
}

/* NULL: this range can't. */
static HobCase *
case_at (const HobRange *range, int occasion, HobAct first, guint64 seed)
{
  HobCase *acts = hob_case_new (range);

  acts->seed = seed;
  hob_case_add (acts, first);
  for (int k = 0; occasions[occasion].acts[k] != NULL; k++)
    if (!hob_case_do (acts, occasions[occasion].acts[k], NULL))
      {
        hob_case_free (acts);
        return NULL;
      }
  return acts;
}

static void
look (Specimen *s, const HobBench *bench, int occasion)
{
  guint first, n = hob_run_events (bench->run, -1, occasions[occasion].until, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (bench->run, k);

      if (e->what == HOB_EVENT_SYMPTOM)
        g_ptr_array_add (s->seen,
                         g_strdup_printf ("%d %s %d", occasion,
                                          hob_symptom_book_get (bench->book, e->index)->id,
                                          e->part));
    }
}

static void
measure (Specimen *s, const HobBench *bench, double t, const GPtrArray *tests)
{
  HobMoment *moment = hob_bench_moment_new (bench);

  hob_run_read (bench->run, t, moment);
  for (guint k = 0; k < tests->len; k++)
    {
      const HobListedTest *listed = g_ptr_array_index (tests, k);
      HobReading r = hob_reading_at (moment, listed->test);
      double value = !r.answered ? NAN : isnan (r.value) ? INFINITY : r.value;

      g_array_append_val (s->values, value);
    }
  hob_moment_free (moment);
}

static int
by_text (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *)a, *(char *const *)b);
}

/* @bench, which may be NULL, advanced to @t; or, as far as fault @k has changed nothing by then, a
 * branch of the run without it.  Takes @bench. */
static HobBench *
advanced (const Stage *stage, int occasion, guint k, const HobCase *acts, HobBench *bench,
          double t)
{
  HobBench *other = k < stage->hypotheses->len ? hob_plain_run (stage->plain[occasion], k, t, acts)
                                               : hob_bench_again (stage->idle, acts);

  if (bench == NULL || hob_run_reached (other->run) > hob_run_reached (bench->run))
    {
      HobBench *earlier = bench;

      bench = other;
      other = earlier;
    }
  g_clear_pointer (&other, hob_bench_free);
  hob_bench_advance (bench, t, NULL);
  return bench;
}

static void
attend (const Stage *stage, int occasion, guint k, const HobCase *acts, Specimen *s)
{
  HobBench *bench = NULL;

  for (int r = 0; r < MOST_READS && occasions[occasion].read[r] > 0; r++)
    {
      bench = advanced (stage, occasion, k, acts, bench, occasions[occasion].read[r]);
      measure (s, bench, occasions[occasion].read[r], stage->tests);
    }
  bench = advanced (stage, occasion, k, acts, bench, occasions[occasion].until);
  look (s, bench, occasion);
  hob_bench_free (bench);
}

/* Fault @k, or, where that is none, another unit by the chance of @seed. */
static Specimen *
specimen_of (const Stage *stage, guint k, guint64 seed)
{
  const HobRange *range = hob_bench_range (stage->idle);
  HobAct first = HOB_PLAIN_ACT;
  Specimen *s = g_new0 (Specimen, 1);

  s->seen = g_ptr_array_new_with_free_func (g_free);
  s->values = g_array_new (FALSE, FALSE, sizeof (double));
  if (k < stage->hypotheses->len)
    {
      const HobHypothesis *h = &g_array_index (stage->hypotheses, HobHypothesis, k);
      const HobKind *kind = range->parts[h->part[0]].kind;

      first = (HobAct){ 0, HOB_ACT_FAULT, h->part[0], h->fault[0], h->severity[0] };
      s->name = hob_hypothesis_text (range, h);
      s->kind = g_strdup_printf ("%s:%s", kind->name, kind->faults[h->fault[0]].id);
    }
  for (int o = 0; o < OCCASIONS; o++)
    {
      g_autoptr (HobCase) acts = case_at (range, o, first, seed);

      if (acts != NULL)
        attend (stage, o, k, acts, s);
    }
  g_ptr_array_sort (s->seen, by_text);
  return s;
}

/* What both show, as a share of what either shows. */
static double
likeness (const Specimen *a, const Specimen *b)
{
  guint i = 0, j = 0, both = 0, all = 0;

  while (i < a->seen->len || j < b->seen->len)
    {
      int order = i == a->seen->len   ? 1
                  : j == b->seen->len ? -1
                                      : g_strcmp0 (a->seen->pdata[i], b->seen->pdata[j]);

      all++;
      both += order == 0;
      i += order <= 0;
      j += order >= 0;
    }
  return all > 0 ? (double)both / all : 0;
}

/* Does reading @k tell them apart, whatever the unit? */
static gboolean
tells (const Specimen *a, const Specimen *b, guint k, HobDimension dim, GPtrArray *normal)
{
  double x = g_array_index (a->values, double, k), y = g_array_index (b->values, double, k);
  double low = INFINITY, high = -INFINITY;

  if (isnan (x) || isnan (y) || (isinf (x) && isinf (y)))
    return FALSE;
  if (isinf (x) != isinf (y))
    return TRUE;
  for (guint n = 0; n < normal->len; n++)
    {
      double value = g_array_index (((Specimen *)normal->pdata[n])->values, double, k);

      if (isfinite (value))
        {
          low = fmin (low, value);
          high = fmax (high, value);
        }
    }
  return hob_differs (x, y, dim) && (low > high || fabs (x - y) > high - low);
}

/* The reading, or the look, that tells @a from @b; NULL. (transfer full) */
static char *
difference (const HobRange *range, const Specimen *a, const Specimen *b, const GPtrArray *tests,
            GPtrArray *normal)
{
  for (guint k = 0; k < a->values->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k % tests->len];

      if (tells (a, b, k, listed->dim, normal))
        {
          g_autofree char *text = hob_test_text (range, listed->test);

          return g_strdup_printf ("%s: %g against %g", text, g_array_index (a->values, double, k),
                                  g_array_index (b->values, double, k));
        }
    }
  if (likeness (a, b) < 1)
    {
      for (guint k = 0; k < a->seen->len; k++)
        if (!g_ptr_array_find_with_equal_func (b->seen, a->seen->pdata[k], g_str_equal, NULL))
          return g_strdup_printf ("look %s: seen against not seen", (char *)a->seen->pdata[k]);
      for (guint k = 0; k < b->seen->len; k++)
        if (!g_ptr_array_find_with_equal_func (a->seen, b->seen->pdata[k], g_str_equal, NULL))
          return g_strdup_printf ("look %s: not seen against seen", (char *)b->seen->pdata[k]);
    }
  return NULL;
}

/* Of parts of one kind the first stands for all. */
static gboolean
stands_for_its_kind (const HobRange *range, int part)
{
  for (int p = 0; p < part; p++)
    if (range->parts[p].kind == range->parts[part].kind)
      return FALSE;
  return TRUE;
}

static void
stage_open (Stage *stage, const char *name)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (GArray) all = hob_hypotheses_single (range);

  *stage = (Stage){ .name = name,
                    .idle = hob_bench_new (NULL, range, NULL, NULL),
                    .tests = hob_tests_of (range, NULL),
                    .hypotheses = g_array_new (FALSE, FALSE, sizeof (HobHypothesis)),
                    .normal = g_ptr_array_new_with_free_func (specimen_free) };
  for (guint i = 0; i < all->len; i++)
    if (stands_for_its_kind (range, g_array_index (all, HobHypothesis, i).part[0]))
      g_array_append_val (stage->hypotheses, g_array_index (all, HobHypothesis, i));
  for (int o = 0; o < OCCASIONS; o++)
    {
      g_autoptr (HobCase) acts = case_at (range, o, HOB_PLAIN_ACT, 0);

      if (acts != NULL)
        stage->plain[o] = hob_plain_new (stage->idle, acts, stage->hypotheses,
                                         occasions[o].until, NULL);
    }
  for (guint64 seed = 0; seed <= SEEDS; seed++)
    g_ptr_array_add (stage->normal, specimen_of (stage, stage->hypotheses->len, seed));
}

static void
stage_close (Stage *stage)
{
  for (int o = 0; o < OCCASIONS; o++)
    g_clear_pointer (&stage->plain[o], hob_plain_free);
  g_ptr_array_unref (stage->normal);
  g_array_unref (stage->hypotheses);
  g_ptr_array_unref (stage->tests);
  hob_bench_free (stage->idle);
}

/* ---- The table ---- */

/* The group for those two, whichever is named first; NULL: none for this range. (transfer full) */
static char *
group_of (GKeyFile *table, const Specimen *a, const Specimen *b, const char *range)
{
  const char *const kinds[] = { a->kind, b->kind, a->kind };

  for (int k = 0; k < 2; k++)
    {
      g_autofree char *group = g_strdup_printf ("%s %s", kinds[k], kinds[k + 1]);
      g_auto (GStrv) ranges = g_key_file_get_string_list (table, group, "ranges", NULL, NULL);
      g_autofree char *why = g_key_file_get_string (table, group, "why", NULL);

      if (ranges != NULL && why != NULL && g_strv_contains ((const char *const *)ranges, range))
        return g_steal_pointer (&group);
    }
  return NULL;
}

/* Each group that is said of this range was needed. */
static void
check_used (GKeyFile *table, GHashTable *used, const char *range)
{
  g_auto (GStrv) groups = g_key_file_get_groups (table, NULL);

  for (char **group = groups; *group != NULL; group++)
    {
      g_auto (GStrv) ranges = g_key_file_get_string_list (table, *group, "ranges", NULL, NULL);

      g_assert_nonnull (ranges);
      if (g_strv_contains ((const char *const *)ranges, range)
          && !g_hash_table_contains (used, *group))
        {
          g_test_message ("neighbors.ini: [%s] is not needed for %s", *group, range);
          g_test_fail ();
        }
    }
}

/* ---- Pairs ---- */

typedef struct
{
  guint pairs, instruments, looks, none;
} Count;

static void
check_pair (const Stage *stage, const Specimen *a, const Specimen *b, GKeyFile *table,
            GHashTable *used, Count *count)
{
  g_autofree char *text = difference (hob_bench_range (stage->idle), a, b, stage->tests,
                                      stage->normal);
  g_autofree char *group = group_of (table, a, b, stage->name);

  count->pairs++;
  count->instruments += text != NULL && !g_str_has_prefix (text, "look");
  count->looks += text != NULL && g_str_has_prefix (text, "look");
  count->none += text == NULL;
  g_test_message ("%.2f %s, %s: %s", likeness (a, b), a->name, b->name,
                  text != NULL ? text : "no reading");
  if (text == NULL && group != NULL)
    g_hash_table_add (used, g_steal_pointer (&group));
  else if (text == NULL || group != NULL)
    {
      g_test_message ("^ neighbors.ini %s", text != NULL ? "says that nothing tells them apart"
                                                         : "does not say why");
      g_test_fail ();
    }
}

/* How much it shares with the fault that shares most. */
static double
nearest_to (const GPtrArray *faults, guint i)
{
  double nearest = 0;

  for (guint j = 0; j < faults->len; j++)
    if (j != i)
      nearest = fmax (nearest, likeness (faults->pdata[i], faults->pdata[j]));
  return nearest;
}

static void
one_reading_tells_each_fault_from_its_nearest_neighbors (gconstpointer name)
{
  g_autoptr (GPtrArray) faults = g_ptr_array_new_with_free_func (specimen_free);
  g_autoptr (GHashTable) used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GKeyFile) table = g_key_file_new ();
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "tests", "neighbors.ini", NULL);
  Count count = { 0 };
  guint showing = 0;
  Stage stage;

  g_assert_true (g_key_file_load_from_file (table, file, G_KEY_FILE_NONE, NULL));
  stage_open (&stage, name);
  g_assert_cmpuint (((Specimen *)stage.normal->pdata[0])->seen->len, ==, 0);
  for (guint k = 0; k < stage.hypotheses->len; k++)
    g_ptr_array_add (faults, specimen_of (&stage, k, 0));
  for (guint i = 0; i < faults->len; i++)
    {
      const Specimen *a = faults->pdata[i];
      double nearest = nearest_to (faults, i);

      showing += a->seen->len > 0;
      for (guint j = 0; j < faults->len && nearest > 0; j++)
        if (j != i && likeness (a, faults->pdata[j]) >= nearest)
          check_pair (&stage, a, faults->pdata[j], table, used, &count);
    }
  check_used (table, used, name);
  g_test_message ("%s: %u of %u faults show something; %u nearest pairs: %u told apart by an "
                  "instrument, %u by a look, %u by nothing",
                  stage.name, showing, faults->len, count.pairs, count.instruments, count.looks,
                  count.none);
  g_assert_cmpuint (showing, >, 60);
  stage_close (&stage);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  g_test_add_data_func ("/neighbors/one-reading-tells-each-fault-from-its-nearest-neighbors",
                        argv[1], one_reading_tells_each_fault_from_its_nearest_neighbors);
  return g_test_run ();
}
