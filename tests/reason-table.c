/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The fault table: the same on any number of threads and under any names; pairs of faults; rows of what shows nothing. */

#include "reason/table.h"
#include "renamed.h"
#include "shipped.h"

#include <math.h>
#include <string.h>

/* A shipped range with one top burner: small enough to be tried many times. (transfer full) */
static char *
small_range (void)
{
  g_autofree char *text = shipped_range_text ("dial-four"), *parts = NULL, *all = NULL;
  g_autoptr (GRegex) part = g_regex_new ("<part id=\"[^\"]*-(?:lf|lr|rf)\"[^>]*?(?:/>|>.*?</part>)", G_REGEX_DOTALL, 0,
                                         NULL);
  g_autoptr (GRegex) line
      = g_regex_new ("<(wire|pipe|lead) [^>]*(?:-(?:lf|lr|rf)\\.|[.](?:out-)?(?:lf|lr|rf)\")[^>]*?(?:/>|>.*?</\\1>)",
                     G_REGEX_DOTALL, 0, NULL);

  parts = g_regex_replace_literal (part, text, -1, 0, "", 0, NULL);
  all = g_regex_replace_literal (line, parts, -1, 0, "", 0, NULL);
  *strstr (all, "</range>") = '\0';
  return g_strconcat (all, "<wire id=\"feed\" from=\"oven.line\" to=\"switch-rr.a\" colour=\"BK\" gauge=\"18 AWG\" "
                      "length=\"0.5 m\"/></range>\n", NULL);
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
  g_autoptr (GError) error = NULL;
  HobFaultTable *table = hob_fault_table_new_for (idle, hypotheses, threads, &error);

  g_assert_no_error (error);
  return table;
}

/* Row by row; faults and procedures by their place. */
static void
assert_same (const HobFaultTable *a, const HobFaultTable *b)
{
  g_assert_cmpuint (a->rows->len, ==, b->rows->len);
  for (guint i = 0; i < a->rows->len; i++)
    {
      const HobTableRow *x = &g_array_index (a->rows, HobTableRow, i), *y = &g_array_index (b->rows, HobTableRow, i);

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
  g_autoptr (HobFaultTable) one = table_of (range, book, all, 1), many = table_of (range, book, all, 5), renamed = NULL;

  other = renamed_range (text, names);
  renamed = table_of (other, book, all, 0);
  g_assert_cmpuint (all->len, >, 40);
  assert_in_order (one);
  assert_same (one, many);
  assert_same (one, renamed);
}

static HobHypothesis
hypothesis (const HobRange *range, const char *a, const char *fault_a, const char *b, const char *fault_b)
{
  HobHypothesis h = { { hob_range_part (range, a), hob_range_part (range, b) }, { 0, 0 }, { 0, 0 } };

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

/* With pairs asked for, every two faults of different parts stand there once. */
static void
every_two_parts_make_pairs (void)
{
  static const char two[]
      = "<range format=\"1\" id=\"two\" name=\"Two\" plate=\"natural-gas\">"
        "<part id=\"house\" kind=\"house\"/><part id=\"a\" kind=\"light\"/><part id=\"b\" kind=\"light\"/>"
        "<part id=\"c\" kind=\"chassis\"/>"
        "<wire id=\"w1\" from=\"house.line\" to=\"a.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
        "<wire id=\"w2\" from=\"house.neutral\" to=\"a.b\" colour=\"WH\" gauge=\"14 AWG\" length=\"1 m\"/>"
        "<wire id=\"w3\" from=\"a.a\" to=\"b.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
        "<wire id=\"w4\" from=\"a.b\" to=\"b.b\" colour=\"WH\" gauge=\"14 AWG\" length=\"1 m\"/>"
        "<wire id=\"w5\" from=\"house.earth\" to=\"c.body\" colour=\"GN\" gauge=\"14 AWG\" length=\"1 m\"/>"
        "</range>";
  g_autoptr (HobRange) range = load (two);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) single = hob_hypotheses_single (range);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobFaultTable) table = hob_fault_table_new (idle, TRUE, &error);
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint wanted = 0;

  g_assert_no_error (error);
  for (guint i = 0; i < single->len; i++)
    for (guint k = i + 1; k < single->len; k++)
      wanted += g_array_index (single, HobHypothesis, i).part[0] != g_array_index (single, HobHypothesis, k).part[0];
  g_assert_cmpuint (wanted, >, 0);
  g_assert_cmpuint (table->hypotheses->len, ==, wanted);
  for (guint i = 0; i < table->hypotheses->len; i++)
    {
      const HobHypothesis *h = &g_array_index (table->hypotheses, HobHypothesis, i);

      g_assert_cmpint (h->part[0], !=, h->part[1]);
      g_assert_true (g_hash_table_add (seen, hob_hypothesis_text (range, h)));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reason/table/threads-and-names-change-nothing", threads_and_names_change_nothing);
  g_test_add_func ("/reason/table/pairs-show-together", pairs_show_together);
  g_test_add_func ("/reason/table/every-two-parts-make-pairs", every_two_parts_make_pairs);
  return g_test_run ();
}
