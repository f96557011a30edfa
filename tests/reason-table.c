/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The fault table: the same on any number of threads and under any names; pairs of faults; rows
 * of what shows nothing. */

#include "reason/repeats.h"
#include "reason/table.h"
#include "renamed.h"
#include "shipped.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <time.h>

#define EVERY 11 /* faults, of which one is tried in the ordinary run */

/* A shipped range with one top burner: small enough to be tried many times. (transfer full) */
static char *
small_range (void)
{
  g_autofree char *text = shipped_range_text ("dial-four"), *parts = NULL, *all = NULL;
  g_autoptr (GRegex) part = g_regex_new ("<part id=\"[^\"]*-(?:lf|lr|rf)\"[^>]*?(?:/>|>.*?</part>)",
                                         G_REGEX_DOTALL, 0, NULL);
  g_autoptr (GRegex) line
      = g_regex_new ("<(wire|pipe|lead) "
                     "[^>]*(?:-(?:lf|lr|rf)\\.|[.](?:out-)?(?:lf|lr|rf)\")[^>]*?(?:/>|>.*?</\\1>)",
                     G_REGEX_DOTALL, 0, NULL);

  parts = g_regex_replace_literal (part, text, -1, 0, "", 0, NULL);
  all = g_regex_replace_literal (line, parts, -1, 0, "", 0, NULL);
  *strstr (all, "</range>") = '\0';
  return g_strconcat (
      all,
      "<wire id=\"feed\" from=\"oven.line\" to=\"switch-rr.a\" colour=\"BK\" gauge=\"18 AWG\" "
      "length=\"0.5 m\"/></range>\n",
      NULL);
}

static HobRange *
load (const char *text)
{
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load_memory (text, strlen (text), "small.xml", NULL, &error);

  g_assert_no_error (error);
  return range;
}

static HobFaultTable *
table_of (HobRange *range, HobSymptomBook *book, GArray *hypotheses, int threads)
{
  g_autoptr (HobBench) idle = hob_bench_new (book, range, NULL, NULL);

  return hob_fault_table_new (idle, hypotheses, &(HobTableWork){ .threads = threads });
}

/* Row by row; faults and procedures by their place. */
static void
assert_same (const HobFaultTable *a, const HobFaultTable *b)
{
  g_assert_cmpuint (a->rows->len, ==, b->rows->len);
  for (guint i = 0; i < a->rows->len; i++)
    {
      const HobTableRow *x = &g_array_index (a->rows, HobTableRow, i),
                        *y = &g_array_index (b->rows, HobTableRow, i);

      g_assert_cmpint (x->hypothesis, ==, y->hypothesis);
      g_assert_cmpint (x->procedure, ==, y->procedure);
      g_assert_cmpint (x->symptom, ==, y->symptom);
      g_assert_true (x->first == y->first || (isnan (x->first) && isnan (y->first)));
    }
}

/* A fault has rows of symptoms, or one row that says that there are none. */
static void
assert_in_order (const HobFaultTable *table)
{
  const GArray *all = table->hypotheses;
  g_autofree int *rows = g_new0 (int, all->len), *silent = g_new0 (int, all->len);
  int last = -1;
  guint shows = 0;

  for (guint i = 0; i < table->rows->len; i++)
    {
      const HobTableRow *row = &g_array_index (table->rows, HobTableRow, i);

      g_assert_cmpint (row->hypothesis, >=, last);
      last = row->hypothesis;
      rows[last]++;
      silent[last] += row->symptom < 0;
      g_assert_cmpint (isnan (row->first), ==, row->symptom < 0);
      g_assert_cmpint (row->procedure < 0, ==, row->symptom < 0);
    }
  for (guint h = 0; h < all->len; h++)
    {
      g_assert_cmpint (rows[h], >, 0);
      if (silent[h] > 0)
        g_assert_cmpint (rows[h], ==, 1);
      shows += silent[h] == 0;
    }
  g_assert_cmpuint (shows, >, all->len / 2);
  g_assert_cmpuint (shows, <, all->len);
}

static void
threads_and_names_change_nothing (void)
{
  g_autofree char *text = small_range ();
  g_autoptr (HobRange) range = load (text), other = NULL;
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_autoptr (GHashTable) names = renamed_ids (range, (guint64) g_test_rand_int ());
  g_autoptr (GArray) all = hob_hypotheses_single (range);
  g_autoptr (HobFaultTable) one = table_of (range, book, all, 1),
                            many = table_of (range, book, all, 5), renamed = NULL;

  other = renamed_range (text, names);
  renamed = table_of (other, book, all, 0);
  g_assert_cmpuint (all->len, >, 40);
  assert_in_order (one);
  assert_same (one, many);
  assert_same (one, renamed);
}

static HobHypothesis
hypothesis (const HobRange *range, const char *a, const char *fault_a, const char *b,
            const char *fault_b)
{
  HobHypothesis h
      = { { hob_range_part (range, a), hob_range_part (range, b) }, { 0, 0 }, { 0, 0 } };

  h.fault[0] = hob_kind_fault (range->parts[h.part[0]].kind, fault_a);
  h.fault[1] = hob_kind_fault (range->parts[h.part[1]].kind, fault_b);
  for (int k = 0; k < 2; k++)
    h.severity[k] = hob_fault_typical (&range->parts[h.part[k]].kind->faults[h.fault[k]]);
  return h;
}

/* Two at once: said with '+', and what each alone shows is there together. */
static void
pairs_show_together (void)
{
  g_autofree char *text = small_range (), *words = NULL, *severity = NULL;
  g_autoptr (HobRange) range = load (text);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));
  HobHypothesis h = hypothesis (range, "switch-rr", "stuck-closed", "igniter-bake", "open");
  g_autoptr (HobFaultTable) table = NULL;
  gboolean sparks = FALSE, dark = FALSE;

  g_array_append_val (list, h);
  words = hob_hypothesis_text (range, &h);
  severity = hob_hypothesis_severity (&h);
  g_assert_cmpstr (words, ==, "switch-rr:stuck-closed+igniter-bake:open");
  g_assert_cmpstr (severity, ==, "1+1");
  table = table_of (range, book, list, 0);
  for (guint i = 0; i < table->rows->len; i++)
    {
      int s = g_array_index (table->rows, HobTableRow, i).symptom;

      sparks = sparks || s == hob_symptom_book_find (book, "sparks-all-knobs-off");
      dark = dark || s == hob_symptom_book_find (book, "no-glow");
    }
  g_assert_true (sparks && dark);
}

/* Whether the pair "PART:FAULT+PART:FAULT" is tried. */
static gboolean
has_pair (const HobRange *range, GArray *pairs, const char *text)
{
  for (guint i = 0; i < pairs->len; i++)
    {
      g_autofree char *pair = hob_hypothesis_text (range, &g_array_index (pairs, HobHypothesis, i));

      if (g_str_equal (pair, text))
        return TRUE;
    }
  return FALSE;
}

/* Two faults of one part are a pair, unless both change the same setting: one receptacle can be
 * wired the wrong way round and have a bootleg ground, but it has one voltage. */
static void
two_faults_of_one_part_make_a_pair (void)
{
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  g_autoptr (GArray) single = hob_hypotheses_single (range), pairs = hob_hypotheses_pairs (range);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint of_one_part = 0, most = single->len * (single->len - 1) / 2;

  for (guint i = 0; i < pairs->len; i++)
    {
      const HobHypothesis *h = &g_array_index (pairs, HobHypothesis, i);

      of_one_part += h->part[0] == h->part[1];
      g_assert_true (h->part[0] != h->part[1] || h->fault[0] != h->fault[1]);
      g_assert_true (g_hash_table_add (seen, hob_hypothesis_text (range, h)));
    }
  g_test_message ("%u single faults, %u pairs, %u of one part", single->len, pairs->len,
                  of_one_part);
  g_assert_cmpuint (of_one_part, >, 50);
  g_assert_cmpuint (pairs->len, <, most);
  g_assert_true (has_pair (range, pairs, "receptacle:reversed+receptacle:bootleg-ground"));
  g_assert_true (has_pair (range, pairs, "oven:contact-welded+igniter-bake:aged"));
  g_assert_false (has_pair (range, pairs, "receptacle:ground-open+receptacle:bootleg-ground"));
}

/* A bootleg ground at a reversed receptacle, the pair that kills: the breaker trips through the
 * gas pipe, which neither fault does alone. */
static void
a_pair_of_one_part_shows_what_neither_shows (void)
{
  g_autofree char *text = small_range ();
  g_autoptr (HobRange) range = load (text);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));
  HobHypothesis both = hypothesis (range, "receptacle", "reversed", "receptacle", "bootleg-ground");
  HobHypothesis alone[] = { both, both };
  g_autoptr (HobFaultTable) table = NULL;
  int trips = hob_symptom_book_find (book, "breaker-trips"), n[3] = { 0 };

  alone[1].part[0] = both.part[1];
  alone[1].fault[0] = both.fault[1];
  for (int k = 0; k < 2; k++)
    {
      alone[k].part[1] = alone[k].fault[1] = -1;
      g_array_append_val (list, alone[k]);
    }
  g_array_append_val (list, both);
  table = table_of (range, book, list, 0);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const HobTableRow *row = &g_array_index (table->rows, HobTableRow, i);

      n[row->hypothesis] += row->symptom == trips;
    }
  g_assert_cmpint (n[0], ==, 0);
  g_assert_cmpint (n[1], ==, 0);
  g_assert_cmpint (n[2], >, 0);
}

/* ---- How a table is made ---- */

static double
cpu_seconds (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double) t.tv_sec + (double) t.tv_nsec * 1e-9;
}

/* A thermostat's turns that only repeat are left out; run to the end, every trial has the same
 * rows.  A whole sweep takes every fault of every shipped range. */
static void
turns_that_are_left_out_show_nothing (gconstpointer name)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) all = hob_hypotheses_single (range);
  g_autoptr (GArray) some = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));
  g_autoptr (HobFaultTable) whole = NULL, table = NULL;
  double begun = cpu_seconds (), spent;

  for (guint k = 0; k < all->len; k += full_sweep () ? 1 : EVERY)
    g_array_append_val (some, g_array_index (all, HobHypothesis, k));
  table = hob_fault_table_new (idle, some, NULL);
  spent = cpu_seconds () - begun;
  whole = hob_fault_table_new (idle, some, &(HobTableWork){ .whole = TRUE });
  g_test_message ("%u faults, %u rows: × %.2f the CPU time of whole trials", some->len,
                  table->rows->len, spent / (cpu_seconds () - begun - spent));
  assert_same (whole, table);
}

/* s that a night unplugged is simulated for, with a fault, of those that it lasts. */
static double
simulated (const HobBench *idle, const char *part, const char *fault, double *lasts)
{
  HobRange *range = (HobRange *) hob_bench_range (idle);
  g_autoptr (HobCase) acts = hob_case_new (range);
  HobHypothesis h = hypothesis (range, part, fault, part, fault);
  g_autoptr (HobBench) bench = NULL;

  hob_case_add (acts, (HobAct){ .what = HOB_ACT_FAULT, .part = h.part[0], .index = h.fault[0],
                                .value = h.severity[0] });
  g_assert_true (hob_procedure_add (acts, "all-off-8h-unplugged", lasts, NULL));
  bench = hob_bench_again (idle, acts);
  g_assert_true (hob_repeats_advance (bench, NULL, *lasts));
  return hob_run_reached (bench->run);
}

/* Nothing goes on in an unplugged range, and it is plugged in sooner; unless what was wet has dried
 * only by then. */
static void
a_rest_is_left_out_unless_it_changes_something (void)
{
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  double lasts;

  g_assert_cmpfloat (simulated (idle, "igniter-bake", "aged", &lasts), <, 0.2 * lasts);
  g_assert_cmpfloat (simulated (idle, "switch-lf", "wet", &lasts), >=, lasts);
}

/* A severity far beyond all that a fault can have brings a run to an impossible state.  Its row
 * says so, and the rows of the others are what they are without it. */
static void
one_impossible_hypothesis_spoils_no_other (void)
{
  g_autofree char *text = small_range ();
  g_autoptr (HobRange) range = load (text);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));
  HobHypothesis good = hypothesis (range, "igniter-bake", "open", "igniter-bake", "open"), bad;
  g_autoptr (HobFaultTable) alone = NULL, table = NULL;
  guint impossible = 0;

  good.part[1] = good.fault[1] = -1;
  bad = hypothesis (range, "receptacle", "low-volts", "igniter-bake", "open");
  bad.part[1] = bad.fault[1] = -1;
  bad.severity[0] = -1e160;
  g_array_append_val (list, good);
  alone = table_of (range, book, list, 0);
  g_array_append_val (list, bad);
  table = table_of (range, book, list, 0);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const HobTableRow *row = &g_array_index (table->rows, HobTableRow, i);

      impossible += row->hypothesis == 1 && row->symptom == HOB_TABLE_IMPOSSIBLE;
      g_assert_true (row->hypothesis == 1 || row->symptom >= 0);
    }
  g_assert_cmpuint (impossible, >, 0);
  g_array_set_size (table->rows, alone->rows->len);
  assert_same (alone, table);
}

#define THREADS 2

typedef struct
{
  GThread *thread;
  guint calls, last, total, stop_at;
  gint cancel;
  guint begun; /* pieces of work, of all threads, when it was cancelled */
} Progress;

static void
on_progress (guint done, guint total, gpointer user)
{
  Progress *progress = user;

  g_assert_true (g_thread_self () == progress->thread);
  g_assert_cmpuint (done, >, progress->last);
  g_assert_cmpuint (done, <=, total);
  progress->calls++;
  progress->last = done;
  progress->total = total;
  if (done >= progress->stop_at && g_atomic_int_get (&progress->cancel) == 0)
    {
      g_atomic_int_set (&progress->cancel, 1);
      progress->begun = hob_bench_begun ();
    }
}

static HobTableWork
watched (Progress *progress, guint stop_at)
{
  *progress = (Progress){ .thread = g_thread_self (), .stop_at = stop_at };
  return (HobTableWork){ .threads = THREADS, .cancel = &progress->cancel, .progress = on_progress,
                         .user = progress };
}

static void
progress_is_told_to_the_end (void)
{
  g_autofree char *text = small_range ();
  g_autoptr (HobRange) range = load (text);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) all = hob_hypotheses_single (range);
  Progress progress;
  HobTableWork work = watched (&progress, G_MAXUINT);
  g_autoptr (HobFaultTable) table = hob_fault_table_new (idle, all, &work);

  g_assert_nonnull (table);
  g_assert_cmpuint (progress.last, ==, all->len);
  g_assert_cmpuint (progress.total, ==, all->len);
  g_assert_cmpuint (progress.calls, >, 3);
}

/* All pairs would take minutes; a whole bake is under way in both threads when it is cancelled.
 * They leave it where they are: each begins at most the one stretch of a run that it was about to
 * begin, where one more hypothesis would have taken hundreds. */
static void
cancelling_takes_no_time (void)
{
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) all = hob_hypotheses_pairs (range);
  Progress progress;
  HobTableWork work = watched (&progress, 3);
  guint before = hob_bench_begun ();
  g_autoptr (HobFaultTable) table = hob_fault_table_new (idle, all, &work);
  guint after = hob_bench_begun () - progress.begun;
  guint each = (progress.begun - before) / progress.stop_at;

  g_test_message ("cancelled after %u of %u, %u pieces of work each; then %u were begun",
                  progress.last, progress.total, each, after);
  g_assert_null (table);
  g_assert_cmpuint (progress.total, ==, all->len);
  g_assert_cmpuint (progress.last, <, all->len / 2);
  g_assert_cmpuint (each, >, 100);
  g_assert_cmpuint (after, <=, THREADS);
}

/* ---- Kept tables ---- */

static char *
kept_folder (void)
{
  return g_build_filename (g_get_user_cache_dir (), "hobwright", NULL);
}

static GPtrArray *
kept_files (void)
{
  g_autofree char *folder = kept_folder ();
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *entry;

  while (dir != NULL && (entry = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (files, g_build_filename (folder, entry, NULL));
  return files;
}

static void
keep_nothing (void)
{
  g_autoptr (GPtrArray) files = kept_files ();
  g_autofree char *folder = kept_folder ();

  for (guint k = 0; k < files->len; k++)
    g_assert_cmpint (g_unlink (files->pdata[k]), ==, 0);
  (void) g_rmdir (folder);
}

/* The table of the first @n faults, from the cache if it is there; @computed: it was not. */
static HobFaultTable *
kept_table (HobRange *range, guint n, gboolean *computed)
{
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) some = hob_hypotheses_single (range);
  Progress progress;
  HobTableWork work = watched (&progress, G_MAXUINT);
  HobFaultTable *table;

  g_array_set_size (some, n);
  work.cache = TRUE;
  table = hob_fault_table_new (idle, some, &work);
  *computed = progress.calls > 0;
  return table;
}

static void
a_table_is_kept (void)
{
  g_autofree char *text = small_range ();
  g_autofree char *other_text = g_strconcat (text, "<!-- changed -->\n", NULL);
  g_autoptr (HobRange) range = load (text), other = load (other_text);
  g_autoptr (HobFaultTable) first = NULL, second = NULL, longer = NULL, changed = NULL;
  g_autoptr (GPtrArray) files = NULL;
  gboolean computed;

  keep_nothing ();
  first = kept_table (range, 6, &computed);
  g_assert_true (computed);
  second = kept_table (range, 6, &computed);
  g_assert_false (computed);
  assert_same (first, second);
  longer = kept_table (range, 7, &computed);
  g_assert_true (computed);
  changed = kept_table (other, 6, &computed);
  g_assert_true (computed);
  files = kept_files ();
  g_assert_cmpuint (files->len, ==, 3);
}

/* Cut short, longer than it says, of another format, or full of nonsense: computed anew. */
static void
a_damaged_table_is_not_taken (void)
{
  static const char *const damages[] = { "", "hobwright fault table 1\n", "nonsense",
                                         "hobwright fault table 1\n1\n99 0 0 5\n",
                                         "hobwright fault table 1\n1\n0 0 9999 5\n",
                                         "hobwright fault table 1\n0\n0 0 0 5\n",
                                         "hobwright fault table 1\n2\n0 0 0 5\n" };
  g_autofree char *text = small_range ();
  g_autoptr (HobRange) range = load (text);
  g_autoptr (HobFaultTable) first = NULL;
  g_autoptr (GPtrArray) files = NULL;
  gboolean computed;

  keep_nothing ();
  first = kept_table (range, 2, &computed);
  g_assert_true (computed);
  files = kept_files ();
  g_assert_cmpuint (files->len, ==, 1);
  for (guint k = 0; k < G_N_ELEMENTS (damages); k++)
    {
      g_autoptr (HobFaultTable) again = NULL;

      g_assert_true (g_file_set_contents (g_ptr_array_index (files, 0), damages[k], -1, NULL));
      again = kept_table (range, 2, &computed);
      g_assert_true (computed);
      assert_same (first, again);
    }
}

int
main (int argc, char **argv)
{
  g_autofree char *cache = g_dir_make_tmp ("hobwright-XXXXXX", NULL);
  g_auto (GStrv) names = shipped_ranges ();
  int result;

  g_assert_nonnull (cache);
  g_assert_true (g_setenv ("XDG_CACHE_HOME", cache, TRUE));
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reason/table/threads-and-names-change-nothing",
                   threads_and_names_change_nothing);
  g_test_add_func ("/reason/table/pairs-show-together", pairs_show_together);
  g_test_add_func ("/reason/table/two-faults-of-one-part-make-a-pair",
                   two_faults_of_one_part_make_a_pair);
  g_test_add_func ("/reason/table/a-pair-of-one-part-shows-what-neither-shows",
                   a_pair_of_one_part_shows_what_neither_shows);
  g_test_add_func ("/reason/table/one-impossible-hypothesis-spoils-no-other",
                   one_impossible_hypothesis_spoils_no_other);
  for (char **name = names; *name != NULL; name++)
    {
      g_autofree char *path
          = g_strdup_printf ("/reason/table/%s/turns-that-are-left-out-show-nothing", *name);

      g_test_add_data_func (path, *name, turns_that_are_left_out_show_nothing);
    }
  g_test_add_func ("/reason/table/a-rest-is-left-out-unless-it-changes-something",
                   a_rest_is_left_out_unless_it_changes_something);
  g_test_add_func ("/reason/table/progress-is-told-to-the-end", progress_is_told_to_the_end);
  g_test_add_func ("/reason/table/cancelling-takes-no-time", cancelling_takes_no_time);
  g_test_add_func ("/reason/table/a-table-is-kept", a_table_is_kept);
  g_test_add_func ("/reason/table/a-damaged-table-is-not-taken", a_damaged_table_is_not_taken);
  result = g_test_run ();
  keep_nothing ();
  g_assert_cmpint (g_rmdir (cache), ==, 0);
  return result;
}
