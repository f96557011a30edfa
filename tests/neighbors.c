/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Each fault that shows something has one reading that tells it from its nearest neighbor: the
 * fault that shares most of what it shows.  Both readings are taken, on the fault and on the
 * neighbor.  Those that no instrument and no look tells apart are in tests/neighbors.ini, each with
 * its reason.  The last argument names the range. */

#include "config.h"
#include "reason/table.h"
#include "run/differ.h"
#include "run/tests.h"
#include "shipped.h"

#include <math.h>

#define SEEDS 4 /* other units, whose normal readings scatter */

static const char *name;

/* What is done, when it is read, and how long somebody looks on. */
static const struct
{
  const char *acts[6];
  double read[3];
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
};

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

static HobCase *
case_at (const HobRange *range, int occasion, const HobHypothesis *h, guint64 seed)
{
  HobCase *acts = hob_case_new (range);
  g_autoptr (GError) error = NULL;

  acts->seed = seed;
  if (h != NULL)
    hob_case_add (acts, (HobAct){ 0, HOB_ACT_FAULT, h->part[0], h->fault[0], h->severity[0] });
  for (int k = 0; occasions[occasion].acts[k] != NULL; k++)
    {
      hob_case_do (acts, occasions[occasion].acts[k], &error);
      g_assert_no_error (error);
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
measure (Specimen *s, const HobBench *bench, int occasion, const GPtrArray *tests)
{
  for (guint m = 0; m < G_N_ELEMENTS (occasions[occasion].read); m++)
    for (guint t = 0; t < tests->len && occasions[occasion].read[m] > 0; t++)
      {
        const HobListedTest *listed = g_ptr_array_index (tests, t);
        HobReading r = hob_reading_take (bench->run, listed->test, occasions[occasion].read[m]);
        double value = !r.answered ? NAN : isnan (r.value) ? INFINITY : r.value;

        g_array_append_val (s->values, value);
      }
}

static int
by_text (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(char *const *)a, *(char *const *)b);
}

static Specimen *
specimen_of (const HobBench *idle, const HobHypothesis *h, guint64 seed, const GPtrArray *tests)
{
  const HobRange *range = hob_bench_range (idle);
  Specimen *s = g_new0 (Specimen, 1);

  s->seen = g_ptr_array_new_with_free_func (g_free);
  s->values = g_array_new (FALSE, FALSE, sizeof (double));
  if (h != NULL)
    {
      const HobKind *kind = range->parts[h->part[0]].kind;

      s->name = hob_hypothesis_text (range, h);
      s->kind = g_strdup_printf ("%s:%s", kind->name, kind->faults[h->fault[0]].id);
    }
  for (int o = 0; o < (int)G_N_ELEMENTS (occasions); o++)
    {
      g_autoptr (HobCase) acts = case_at (range, o, h, seed);
      g_autoptr (HobBench) bench = hob_bench_again (idle, acts);

      hob_bench_advance (bench, occasions[o].until, NULL);
      look (s, bench, o);
      measure (s, bench, o, tests);
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

static GPtrArray *
specimens_of (const HobBench *idle, const GPtrArray *tests)
{
  g_autoptr (GArray) all = hob_hypotheses_single (hob_bench_range (idle));
  GPtrArray *some = g_ptr_array_new_with_free_func (specimen_free);

  for (guint i = 0; i < all->len; i++)
    {
      const HobHypothesis *h = &g_array_index (all, HobHypothesis, i);

      if (stands_for_its_kind (hob_bench_range (idle), h->part[0]))
        g_ptr_array_add (some, specimen_of (idle, h, 0, tests));
    }
  return some;
}

/* The table accounts for those two, whichever is named first. */
static gboolean
accounted (GKeyFile *table, const Specimen *a, const Specimen *b)
{
  g_autofree char *one = g_strdup_printf ("%s %s", a->kind, b->kind);
  g_autofree char *other = g_strdup_printf ("%s %s", b->kind, a->kind);
  g_autofree char *why = g_key_file_get_string (table, one, "why", NULL);
  g_autofree char *because = g_key_file_get_string (table, other, "why", NULL);

  return why != NULL || because != NULL;
}

static void
one_reading_tells_each_fault_from_its_nearest_neighbors (void)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GPtrArray) tests = hob_tests_of (range, NULL);
  g_autoptr (GPtrArray) normal = g_ptr_array_new_with_free_func (specimen_free);
  g_autoptr (GPtrArray) faults = specimens_of (idle, tests);
  g_autoptr (GKeyFile) table = g_key_file_new ();
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "tests", "neighbors.ini", NULL);
  guint showing = 0, pairs = 0, instruments = 0, looks = 0, none = 0;

  g_assert_true (g_key_file_load_from_file (table, file, G_KEY_FILE_NONE, NULL));
  for (guint64 seed = 0; seed <= SEEDS; seed++)
    g_ptr_array_add (normal, specimen_of (idle, NULL, seed, tests));
  g_assert_cmpuint (((Specimen *)normal->pdata[0])->seen->len, ==, 0);
  for (guint i = 0; i < faults->len; i++)
    {
      const Specimen *a = faults->pdata[i];
      double nearest = 0;

      showing += a->seen->len > 0;
      for (guint j = 0; j < faults->len; j++)
        if (j != i)
          nearest = fmax (nearest, likeness (a, faults->pdata[j]));
      for (guint j = 0; j < faults->len && nearest > 0; j++)
        if (j != i && likeness (a, faults->pdata[j]) >= nearest)
          {
            const Specimen *b = faults->pdata[j];
            g_autofree char *text = difference (range, a, b, tests, normal);

            pairs++;
            instruments += text != NULL && !g_str_has_prefix (text, "look");
            looks += text != NULL && g_str_has_prefix (text, "look");
            none += text == NULL;
            g_test_message ("%.2f %s, %s: %s", nearest, a->name, b->name,
                            text != NULL ? text : "no reading");
            if ((text == NULL) != accounted (table, a, b))
              {
                g_test_message ("^ neighbors.ini %s", text != NULL
                                                          ? "says that nothing tells them apart"
                                                          : "does not say why");
                g_test_fail ();
              }
          }
    }
  g_test_message ("%u of %u faults show something; %u nearest pairs: %u told apart by an "
                  "instrument, %u by a look, %u by nothing",
                  showing, faults->len, pairs, instruments, looks, none);
  g_assert_cmpuint (showing, >, 60);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_assert_cmpint (argc, ==, 2);
  name = argv[1];
  g_test_add_func ("/neighbors/one-reading-tells-each-fault-from-its-nearest-neighbors",
                   one_reading_tells_each_fault_from_its_nearest_neighbors);
  return g_test_run ();
}
