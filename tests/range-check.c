/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Checking a range as a whole: what counts as one finding, in which order, and that the grammar and
 * the sentences agree.  Single mistakes stand in tests/hostile. */

#include "config.h"

#include "base/errors.h"
#include "range/tree.h"

#include <string.h>

#define HEAD "<range format=\"1\" id=\"small\" name=\"Small\" plate=\"natural-gas\">\n"
#define HOUSE                                                                                      \
  "<part id=\"house\" kind=\"house\"/><part id=\"light\" kind=\"light\"/>\n"                       \
  "<wire id=\"w1\" from=\"house.line\" to=\"light.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"2 "  \
  "m\"/>\n"                                                                                        \
  "<wire id=\"w2\" from=\"light.b\" to=\"house.neutral\" colour=\"WH\" gauge=\"18 AWG\" "          \
  "length=\"50 cm\"/>\n"
#define TAIL "</range>\n"

typedef struct
{
  GPtrArray *findings;
  HobRange *range;
  GError *error;
} Outcome;

static Outcome
check (const char *xml)
{
  Outcome o = { g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free), NULL, NULL };

  o.range = hob_range_load_memory (xml, strlen (xml), "text.xml", o.findings, &o.error);
  return o;
}

static void
clear (Outcome *o)
{
  g_ptr_array_unref (o->findings);
  g_clear_pointer (&o->range, hob_range_unref);
  g_clear_error (&o->error);
}

static const HobFinding *
finding (const Outcome *o, guint i)
{
  g_assert_cmpuint (i, <, o->findings->len);
  return o->findings->pdata[i];
}

/* ---- Findings ---- */

static void
a_sound_range_is_silent (void)
{
  Outcome o = check (HEAD HOUSE TAIL);

  g_assert_no_error (o.error);
  g_assert_nonnull (o.range);
  g_assert_cmpuint (o.findings->len, ==, 0);
  clear (&o);
}

/* Mistakes of every sort, the whole ones (not connected) first in the file, shapes last. */
static void
all_findings_come_in_one_run_and_in_line_order (void)
{
  Outcome o = check (HEAD HOUSE "<part id=\"k\" kind=\"junction\"/>\n"
                                "<part id=\"x\" kind=\"no-kind\"/>\n"
                                "<wire id=\"w3\" from=\"nobody.a\" to=\"light.a\" colour=\"BK\" "
                                "gauge=\"14 AWG\" length=\"2 m\"/>\n"
                                "<gizmo/>\n" TAIL);

  g_assert_cmpuint (o.findings->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      g_assert_cmpint (finding (&o, i)->line, ==, (int) i + 5);
      g_assert_cmpstr (finding (&o, i)->file, ==, "text.xml");
      g_assert_false (finding (&o, i)->warning);
    }
  clear (&o);
}

static void
the_error_is_the_first_finding_that_is_no_warning (void)
{
  Outcome o = check (HEAD "<part id=\"i\" kind=\"igniter-flat\"/>\n" HOUSE
                          "<wire id=\"w3\" from=\"i.a\" to=\"house.line\" colour=\"RD\" gauge=\"18 "
                          "AWG\" length=\"1 m\"/>\n"
                          "<wire id=\"w4\" from=\"i.b\" to=\"house.neutral\" colour=\"RD\" "
                          "gauge=\"18 AWG\" length=\"0\"/>\n" TAIL);
  g_autofree char *second = NULL;

  g_assert_cmpuint (o.findings->len, ==, 2);
  g_assert_true (finding (&o, 0)->warning);
  second = hob_finding_text (finding (&o, 1));
  g_assert_error (o.error, HOB_ERROR, HOB_ERROR_FINDING);
  g_assert_cmpstr (o.error->message, ==, second);
  g_assert_true (g_str_has_prefix (second, "text.xml:7: wire 'w4': length:"));
  g_assert_null (o.range);
  clear (&o);
}

static void
a_warning_refuses_nothing (void)
{
  Outcome o = check (HEAD "<part id=\"i\" kind=\"igniter-flat\"/>\n" HOUSE
                          "<wire id=\"w3\" from=\"i.a\" to=\"house.line\" colour=\"RD\" gauge=\"18 "
                          "AWG\" length=\"1 m\"/>\n"
                          "<wire id=\"w4\" from=\"i.b\" to=\"house.neutral\" colour=\"RD\" "
                          "gauge=\"18 AWG\" length=\"1 m\"/>\n" TAIL);

  g_assert_no_error (o.error);
  g_assert_nonnull (o.range);
  g_assert_cmpuint (o.findings->len, ==, 1);
  g_assert_true (finding (&o, 0)->warning);
  g_assert_true (g_str_has_prefix (finding (&o, 0)->text, "warning: "));
  clear (&o);
}

static void
findings_are_nobodys_duty_to_collect (void)
{
  g_autoptr (GError) error = NULL;
  const char *xml = HEAD HOUSE "<gizmo/>\n" TAIL;

  g_assert_null (hob_range_load_memory (xml, strlen (xml), "text.xml", NULL, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_FINDING);
  g_assert_null (hob_range_load_memory (xml, strlen (xml), "text.xml", NULL, NULL));
}

/* ---- One mistake, one finding ---- */

static void
assert_one (const char *body, int line, const char *says)
{
  g_autofree char *xml = g_strconcat (HEAD HOUSE, body, TAIL, NULL);
  Outcome o = check (xml);

  for (guint i = 1; i < o.findings->len; i++)
    g_test_message ("%s", finding (&o, i)->text);
  g_assert_cmpuint (o.findings->len, ==, 1);
  g_assert_cmpint (finding (&o, 0)->line, ==, line);
  if (strstr (finding (&o, 0)->text, says) == NULL)
    g_error ("\"%s\" does not say \"%s\"", finding (&o, 0)->text, says);
  clear (&o);
}

static void
what_refers_to_a_part_of_unknown_kind_is_not_found_faulty (void)
{
  assert_one ("<part id=\"x\" kind=\"igniter-flta\" in=\"b\"><set name=\"y\" value=\"z\"/></part>\n"
              "<part id=\"c\" kind=\"cavity\"/>"
              "<part id=\"b\" kind=\"burner-oven\" in=\"c\" moved-by=\"x\"/>\n"
              "<wire id=\"w3\" from=\"x.q\" to=\"house.line\" colour=\"BK\" gauge=\"14 AWG\" "
              "length=\"2 m\"/>\n"
              "<pipe id=\"p1\" from=\"house.gas\" to=\"b.in\" bore=\"9 mm\" length=\"2 m\"/>\n",
              5, "did you mean 'igniter-flat'");
}

static void
a_terminal_whose_wire_is_refused_is_not_found_open_too (void)
{
  assert_one ("<part id=\"j\" kind=\"junction\"/>\n"
              "<wire id=\"w3\" from=\"j.at\" to=\"nobody.a\" colour=\"BK\" gauge=\"14 AWG\" "
              "length=\"2 m\"/>\n",
              6, "goes nowhere");
}

/* A lead, not a wire, goes to where there is high voltage. */
static void
an_electrode_without_its_lead_is_found_open (void)
{
  assert_one ("<part id=\"b\" kind=\"burner-top\"/>\n"
              "<part id=\"e\" kind=\"electrode\" in=\"b\"/>\n"
              "<pipe id=\"p1\" from=\"house.gas\" to=\"b.in\" bore=\"9 mm\" length=\"2 m\"/>\n",
              6, "connect a <lead> to e.lead");
}

static void
a_house_misspelt_is_not_found_missing_too (void)
{
  Outcome o = check (HEAD "<part id=\"house\" kind=\"hause\"/>\n" TAIL);

  g_assert_cmpuint (o.findings->len, ==, 1);
  g_assert_nonnull (strstr (finding (&o, 0)->text, "did you mean 'house'"));
  clear (&o);
}

static void
a_circle_is_found_once (void)
{
  assert_one ("<part id=\"c1\" kind=\"cavity\" in=\"c2\"/>\n"
              "<part id=\"c2\" kind=\"cavity\" in=\"c3\"/>\n"
              "<part id=\"c3\" kind=\"cavity\" in=\"c1\"/>\n"
              "<part id=\"c4\" kind=\"cavity\" in=\"c2\"/>\n",
              5, "is inside itself");
}

static void
a_part_may_stand_deep_and_be_named_before_it_comes (void)
{
  Outcome o = check (HEAD HOUSE "<part id=\"c1\" kind=\"sensor\" in=\"c2\"/>\n"
                                "<part id=\"c2\" kind=\"cavity\" in=\"house\"/>\n"
                                "<wire id=\"w8\" from=\"c1.a\" to=\"house.line\" colour=\"BK\" "
                                "gauge=\"18 AWG\" length=\"1 m\"/>\n"
                                "<wire id=\"w9\" from=\"c1.b\" to=\"house.line\" colour=\"BK\" "
                                "gauge=\"18 AWG\" length=\"1 m\"/>\n" TAIL);

  g_assert_no_error (o.error);
  g_assert_cmpint (o.range->parts[hob_range_part (o.range, "c1")].in, ==,
                   hob_range_part (o.range, "c2"));
  clear (&o);
}

/* ---- What is in what ---- */

/* @from becomes @to in a shipped range; the one finding is about @part. */
static void
assert_moved (const char *from, const char *to, const char *part)
{
  g_autofree char *file = hob_range_locate ("dial-four"), *text = NULL, *changed = NULL;
  g_auto (GStrv) pieces = NULL;
  Outcome o;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  pieces = g_strsplit (text, from, -1);
  g_assert_cmpuint (g_strv_length (pieces), ==, 2);
  changed = g_strjoinv (to, pieces);
  o = check (changed);
  g_assert_error (o.error, HOB_ERROR, HOB_ERROR_FINDING);
  g_assert_cmpuint (o.findings->len, ==, 1);
  g_assert_nonnull (strstr (finding (&o, 0)->text, part));
  g_assert_nonnull (strstr (finding (&o, 0)->text, "can't be in"));
  clear (&o);
}

static void
a_part_is_refused_where_its_heat_would_be_lost (void)
{
  assert_moved ("kind=\"burner-oven\" label=\"Bake burner\" in=\"cavity\"",
                "kind=\"burner-oven\" label=\"Bake burner\" in=\"burner-lf\"", "burner-bake");
  assert_moved ("kind=\"burner-oven\" label=\"Bake burner\" in=\"cavity\"",
                "kind=\"burner-oven\" label=\"Bake burner\"", "burner-bake");
  assert_moved ("kind=\"burner-top\" label=\"Left front burner\"",
                "kind=\"burner-top\" label=\"Left front burner\" in=\"cavity\"", "burner-lf");
  assert_moved ("label=\"Bake igniter\" in=\"burner-bake\"",
                "label=\"Bake igniter\" in=\"burner-lf\"", "igniter-bake");
}

/* ---- How much of everything ---- */

/* @n more wires that only @other ends tell apart. */
static void
assert_wires (int n, gboolean alike, const char *words)
{
  g_autofree char *file = hob_range_locate ("dial-four"), *text = NULL;
  GString *more = g_string_new (NULL);
  Outcome o;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  g_string_append_len (more, text, strstr (text, "</range>") - text);
  for (int i = 0; i < n; i++)
    g_string_append_printf (more,
                            "<wire id=\"x%d\" from=\"%s\" to=\"%s\" colour=\"BK\" "
                            "gauge=\"18 AWG\" length=\"1 m\"/>\n",
                            i, alike || i % 2 ? "igniter-bake.a" : "igniter-bake.b",
                            alike || i % 3 ? "igniter-broil.a" : "igniter-broil.b");
  g_string_append (more, "</range>");
  o = check (more->str);
  if (words == NULL)
    g_assert_no_error (o.error);
  else
    {
      g_assert_error (o.error, HOB_ERROR, HOB_ERROR_FINDING);
      g_assert_nonnull (strstr (finding (&o, 0)->text, words));
    }
  clear (&o);
  g_string_free (more, TRUE);
}

static void
sixteen_wires_may_join_the_same_two_ends (void)
{
  assert_wires (16, TRUE, NULL);
  assert_wires (17, TRUE, "more than 16 wires, pipes, or leads connect igniter-bake.a to "
                          "igniter-broil.a");
  assert_wires (5000, FALSE, "more than 1000 wires, pipes, and leads");
}

static void
an_attribute_on_a_line_of_its_own_is_found_there (void)
{
  assert_one ("<wire id=\"w3\"\n  from=\"house.line\"\n  to='light.z>'\n  colour=\"BK\" gauge=\"14 "
              "AWG\" length=\"2 m\"/>\n",
              7, "no terminal 'z>'");
}

/* ---- The grammar ---- */

/* Whether data/range.rng takes the file; −1 for one that is not well-formed. */
static int
grammar_takes (const char *file)
{
  g_autofree char *text = NULL;
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  HobRangeTree *tree;
  xmlDoc *doc;
  gsize size;

  g_assert_true (g_file_get_contents (file, &text, &size, NULL));
  tree = hob_tree_new (text, size);
  doc = hob_tree_parse (tree, file, NULL);
  if (doc != NULL)
    hob_grammar_check (doc, file, findings);
  hob_tree_free (tree);
  if (doc == NULL)
    return -1;
  xmlFreeDoc (doc);
  return findings->len == 0;
}

static gboolean
reader_takes (const char *file)
{
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);

  return range != NULL;
}

/* What the grammar refuses, the reader must have a sentence for: then its own, of the library, is
 * never needed. */
static void
what_the_grammar_refuses_the_reader_refuses (void)
{
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "tests", "hostile", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint refused = 0, taken = 0;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (folder, name, NULL);
      int takes = g_str_has_suffix (name, ".xml") ? grammar_takes (file) : -1;

      if (takes == 0 && reader_takes (file))
        g_error ("the grammar refuses %s, the reader takes it", name);
      refused += takes == 0;
      taken += takes == 1;
    }
  g_assert_cmpuint (refused, >, 5);
  g_assert_cmpuint (taken, >, 20);
}

static void
no_finding_is_the_grammars_own (void)
{
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "tests", "hostile", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *file = g_build_filename (folder, name, NULL);
      g_autoptr (GPtrArray) findings
          = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
      g_autoptr (HobRange) range = NULL;

      if (!g_str_has_suffix (name, ".xml"))
        continue;
      range = hob_range_load (file, findings, NULL);
      for (guint i = 0; i < findings->len; i++)
        g_assert_null (strstr (((HobFinding *) findings->pdata[i])->text, "range.rng"));
    }
}

static void
the_shapes_of_shipped_ranges_are_the_grammars (void)
{
  g_autofree char *dial = hob_range_locate ("dial-four"), *board = hob_range_locate ("board-five");

  g_assert_cmpint (grammar_takes (dial), ==, 1);
  g_assert_cmpint (grammar_takes (board), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/findings/a sound range is silent", a_sound_range_is_silent);
  g_test_add_func ("/findings/all come in one run and in line order",
                   all_findings_come_in_one_run_and_in_line_order);
  g_test_add_func ("/findings/the error is the first that is no warning",
                   the_error_is_the_first_finding_that_is_no_warning);
  g_test_add_func ("/findings/a warning refuses nothing", a_warning_refuses_nothing);
  g_test_add_func ("/findings/are nobody's duty to collect", findings_are_nobodys_duty_to_collect);
  g_test_add_func ("/once/what refers to a part of unknown kind is not found faulty",
                   what_refers_to_a_part_of_unknown_kind_is_not_found_faulty);
  g_test_add_func ("/once/a terminal whose wire is refused is not found open too",
                   a_terminal_whose_wire_is_refused_is_not_found_open_too);
  g_test_add_func ("/once/an electrode without its lead is found open",
                   an_electrode_without_its_lead_is_found_open);
  g_test_add_func ("/once/a house misspelt is not found missing too",
                   a_house_misspelt_is_not_found_missing_too);
  g_test_add_func ("/once/a circle is found once", a_circle_is_found_once);
  g_test_add_func ("/places/a part is refused where its heat would be lost",
                   a_part_is_refused_where_its_heat_would_be_lost);
  g_test_add_func ("/amounts/sixteen wires may join the same two ends",
                   sixteen_wires_may_join_the_same_two_ends);
  g_test_add_func ("/places/a part may stand deep and be named before it comes",
                   a_part_may_stand_deep_and_be_named_before_it_comes);
  g_test_add_func ("/lines/an attribute on a line of its own is found there",
                   an_attribute_on_a_line_of_its_own_is_found_there);
  g_test_add_func ("/grammar/what it refuses the reader refuses",
                   what_the_grammar_refuses_the_reader_refuses);
  g_test_add_func ("/grammar/no finding is its own", no_finding_is_the_grammars_own);
  g_test_add_func ("/grammar/the shapes of shipped ranges are its",
                   the_shapes_of_shipped_ranges_are_the_grammars);
  return g_test_run ();
}
