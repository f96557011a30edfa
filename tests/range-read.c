/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Reading a range: what the shipped ones hold, and what names find in them. */

#include "config.h"

#include "base/errors.h"
#include "range/range.h"
#include "range/tree.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static HobRange *
shipped (const char *word)
{
  g_autofree char *file = hob_range_locate (word);
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, findings, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (findings->len, ==, 0);
  return range;
}

static HobRange *
from_text (const char *xml)
{
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load_memory (xml, strlen (xml), "text.xml", NULL, &error);

  g_assert_no_error (error);
  return range;
}

#define HEAD(plate) "<range format=\"1\" id=\"small\" name=\"Small\" plate=\"" plate "\">\n"
#define HOUSE                                                                                      \
  "<part id=\"house\" kind=\"house\"/><part id=\"light\" kind=\"light\"/>\n"                       \
  "<wire id=\"w1\" from=\"house.line\" to=\"light.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"2 "  \
  "m\"/>\n"                                                                                        \
  "<wire id=\"w2\" from=\"light.b\" to=\"house.neutral\" colour=\"WH\" gauge=\"18 AWG\" "          \
  "length=\"50 cm\"/>\n"
#define TAIL "</range>\n"

static const HobPart *
part (const HobRange *range, const char *id)
{
  int i = hob_range_part (range, id);

  g_assert_cmpint (i, >=, 0);
  return &range->parts[i];
}

static double
setting (const HobRange *range, const char *name)
{
  g_autoptr (GError) error = NULL;
  int p, s;

  g_assert_true (hob_range_find_setting (range, name, &p, &s, &error));
  g_assert_no_error (error);
  return range->parts[p].set[s];
}

/* ---- Shipped ranges ---- */

static void
assert_fixed_names (const HobRange *range, const char *const *places)
{
  static const char *const always[]
      = { "module",        "oven",        "igniter-bake", "valve-bake", "burner-bake",
          "igniter-broil", "valve-broil", "burner-broil", "cavity",     "regulator",
          "manifold",      "receptacle",  "cord",         "breaker",    "house",
          "chassis",       "connector",   "shutoff",      "lever",      "door" };
  static const char *const top[] = { "knob", "valve", "switch", "electrode", "burner" };

  for (guint i = 0; i < G_N_ELEMENTS (always); i++)
    part (range, always[i]);
  for (guint k = 0; places[k] != NULL; k++)
    for (guint i = 0; i < G_N_ELEMENTS (top); i++)
      {
        g_autofree char *id = g_strdup_printf ("%s-%s", top[i], places[k]);

        part (range, id);
      }
}

static void
dial_four_has_the_parts_of_its_name (void)
{
  static const char *const places[] = { "lf", "lr", "rf", "rr", NULL };
  g_autoptr (HobRange) range = shipped ("dial-four");

  g_assert_cmpstr (range->id, ==, "dial-four");
  g_assert_cmpstr (range->name, ==, "Four-burner range with dial thermostat");
  g_assert_cmpint (range->plate, ==, HOB_FUEL_NATURAL);
  assert_fixed_names (range, places);
  g_assert_cmpstr (part (range, "oven")->kind->name, ==, "oven-dial");
  part (range, "bulb");
  g_assert_cmpint (range->n_leads, ==, 4);
}

static void
board_five_has_the_parts_of_its_name (void)
{
  static const char *const places[] = { "lf", "lr", "c", "rf", "rr", NULL };
  static const char *const more[] = { "sensor", "fan", "element", "light", "door-switch" };
  g_autoptr (HobRange) range = shipped ("board-five");

  g_assert_cmpstr (range->id, ==, "board-five");
  assert_fixed_names (range, places);
  for (guint i = 0; i < G_N_ELEMENTS (more); i++)
    part (range, more[i]);
  g_assert_cmpstr (part (range, "oven")->kind->name, ==, "oven-board");
  g_assert_cmpint (range->n_leads, ==, 5);
}

static const char *
id_of (const HobRange *range, int index)
{
  return index < 0 ? "" : range->parts[index].id;
}

static void
parts_know_where_they_stand_and_what_moves_them (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four");

  g_assert_cmpstr (id_of (range, part (range, "igniter-bake")->in), ==, "burner-bake");
  g_assert_cmpstr (id_of (range, part (range, "burner-bake")->in), ==, "cavity");
  g_assert_cmpstr (id_of (range, part (range, "electrode-lf")->in), ==, "burner-lf");
  g_assert_cmpstr (id_of (range, part (range, "knob-lf")->in), ==, "");
  g_assert_cmpstr (id_of (range, part (range, "valve-lf")->moved_by), ==, "knob-lf");
  g_assert_cmpstr (id_of (range, part (range, "oven")->moved_by), ==, "bulb");
  g_assert_cmpstr (id_of (range, part (range, "bulb")->moved_by), ==, "");
}

static void
every_shipped_range_says_what_it_teaches (void)
{
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "diagrams", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL), *text = NULL;

      if (!g_str_has_suffix (name, ".xml"))
        continue;
      g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
      if (strstr (text, "<range ") == NULL)
        continue;
      g_autoptr (HobRange) range = shipped (path);
      g_autofree char *own = g_strconcat (range->id, ".xml", NULL);

      g_assert_cmpstr (own, ==, name);
      g_assert_cmpuint (strlen (range->note), >, 80);
      g_assert_null (strstr (range->note, "  "));
      n++;
    }
  g_assert_cmpuint (n, >=, 2);
}

static void
every_placed_part_has_a_symbol (void)
{
  static const char *const words[] = { "dial-four", "board-five" };

  for (guint k = 0; k < G_N_ELEMENTS (words); k++)
    {
      g_autoptr (HobRange) range = shipped (words[k]);

      for (int i = 0; i < range->n_parts; i++)
        for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
          if (range->parts[i].at[sheet].placed && range->parts[i].kind->symbol[sheet].w <= 0)
            g_error ("%s: %s is not drawn on sheet %d", words[k], range->parts[i].id, sheet);
    }
}

/* ---- Values ---- */

static void
settings_come_from_the_file_or_the_kind (void)
{
  g_autoptr (HobRange) range = from_text (
      HEAD ("natural-gas") HOUSE
      "<part id=\"r\" kind=\"receptacle\"><set name=\"volts\" value=\"108 V\"/></part>\n"
      "<wire id=\"a\" from=\"r.feed\" to=\"house.line\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>\n"
      "<wire id=\"b\" from=\"r.return\" to=\"house.neutral\" colour=\"BK\" gauge=\"14 AWG\" "
      "length=\"1 m\"/>\n"
      "<wire id=\"c\" from=\"r.line\" to=\"r.neutral\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>\n" TAIL);

  g_assert_cmpfloat (setting (range, "r.volts"), ==, 108);
  g_assert_cmpfloat (setting (range, "r.source-ohms"), ==, 0.25);
  g_assert_cmpfloat (setting (range, "house.temperature"), ==, 298.15);
  g_assert_cmpint (part (range, "r")->line, ==, 5);
}

static void
what_flows_is_what_the_plate_says (void)
{
  g_autoptr (HobRange) natural = from_text (HEAD ("natural-gas") HOUSE TAIL);
  g_autoptr (HobRange) lp = from_text (HEAD ("lp") HOUSE TAIL);

  g_assert_cmpfloat (setting (natural, "house.fuel"), ==, HOB_FUEL_NATURAL);
  g_assert_cmpfloat (setting (lp, "house.fuel"), ==, HOB_FUEL_LP);
  g_assert_cmpint (lp->plate, ==, HOB_FUEL_LP);
}

static void
wires_have_colour_gauge_and_length (void)
{
  g_autoptr (HobRange) range = from_text (
      HEAD ("lp") HOUSE "<wire id=\"w3\" from=\"house.earth\" to=\"light.a\" colour=\"GNYE\" "
                        "gauge=\"18 AWG\" length=\"3 ft\">"
                        "<bend x=\"10\" y=\"20\"/><bend x=\"-30\" y=\"4e1\"/></wire>\n" TAIL);
  const HobLine *w = &range->wires[2];

  g_assert_cmpint (range->n_wires, ==, 3);
  g_assert_cmpint (range->wires[0].gauge, ==, 14);
  g_assert_cmpfloat (range->wires[1].length, ==, 0.5);
  g_assert_cmpstr (w->id, ==, "w3");
  g_assert_cmpstr (w->colour, ==, "GNYE");
  g_assert_cmpfloat_with_epsilon (w->length, 0.9144, 1e-12);
  g_assert_cmpfloat_with_epsilon (w->diameter, 1.0237e-3, 1e-6);
  g_assert_cmpint (w->n_bends, ==, 2);
  g_assert_cmpfloat (w->bends[1].x, ==, -30);
  g_assert_cmpfloat (w->bends[1].y, ==, 40);
  g_assert_cmpstr (id_of (range, w->from.part), ==, "house");
  g_assert_cmpstr (range->parts[w->to.part].kind->terminals[w->to.terminal].name, ==, "a");
  g_assert_cmpint (w->line, ==, 5);
}

static void
parts_have_places_labels_and_numbers (void)
{
  g_autoptr (HobRange) range = from_text (
      HEAD ("lp") HOUSE "<part id=\"k\" kind=\"knob\" "
                        "label=\"Left &amp; &lt;front&#x3e; &quot;x&quot;\" number=\"A-1\"/>\n"
                        "<part id=\"m\" kind=\"knob\"><at sheet=\"wiring\" x=\"40\" y=\"80\" "
                        "turn=\"270\"/></part>\n" TAIL);
  const HobPart *k = part (range, "k"), *m = part (range, "m");

  g_assert_cmpstr (k->label, ==, "Left & <front> \"x\"");
  g_assert_cmpstr (k->number, ==, "A-1");
  g_assert_false (k->at[HOB_SHEET_WIRING].placed);
  g_assert_cmpstr (m->label, ==, m->kind->label);
  g_assert_cmpstr (m->number, ==, "");
  g_assert_true (m->at[HOB_SHEET_WIRING].placed);
  g_assert_cmpint (m->at[HOB_SHEET_WIRING].turn, ==, 3);
  g_assert_cmpfloat (m->at[HOB_SHEET_WIRING].y, ==, 80);
}

/* Each <note> is a paragraph of its own, whatever the lines of the file are. */
static void
notes_are_paragraphs (void)
{
  g_autoptr (HobRange) range = from_text (HEAD ("lp") "<note>  One\n  idea. </note>\n" HOUSE
                                                      "<note>Another.</note>\n" TAIL);

  g_assert_cmpstr (hob_range_note (range), ==, "One idea.\nAnother.");
}

/* ---- Names ---- */

/* A file of before, with what a kind was called then. */
static void
an_old_name_is_read_with_a_warning (void)
{
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (HobRange) now = shipped ("convection-fan"), range = NULL;
  g_autofree char *text = NULL, *file = hob_range_locate ("convection-fan");
  g_autoptr (GString) old = NULL;
  const char *burner;
  g_autoptr (GError) error = NULL;
  static const char *const says[] = { "'shutter' is now called 'venturi'",
                                      "'valve-two-coil' is now called 'valve-dual'" };

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  old = g_string_new (text);
  g_assert_cmpuint (g_string_replace (old, "kind=\"valve-dual\"", "kind=\"valve-two-coil\"", 1),
                    ==, 1);
  burner = strchr (strstr (old->str, "<part id=\"burner-lf\""), '>') + 1;
  g_string_insert (old, burner - old->str, "<set name=\"shutter\" value=\"0.5\"/>");
  range = hob_range_load_memory (old->str, old->len, "old.xml", findings, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (findings->len, ==, G_N_ELEMENTS (says));
  for (guint k = 0; k < findings->len; k++)
    {
      const HobFinding *finding = findings->pdata[k];

      g_assert_true (finding->warning);
      g_assert_nonnull (strstr (finding->text, says[k]));
    }
  g_assert_cmpfloat (setting (range, "burner-lf.venturi"), ==, 0.5);
  for (int k = 0; k < now->n_parts; k++)
    g_assert_true (range->parts[k].kind == now->parts[k].kind);
}

/* What is worked at another part, as a match at a burner. */
static void
a_burner_has_its_match_and_a_house_has_none (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four");
  int part, control;

  g_assert_true (hob_range_control_at (range, hob_range_part (range, "burner-lf"), &part,
                                       &control));
  g_assert_cmpstr (range->parts[part].id, ==, "match");
  g_assert_false (hob_range_control_at (range, hob_range_part (range, "house"), &part, &control));
  g_assert_false (hob_range_control_at (range, -1, &part, &control));
}

static void
assert_no_name (gboolean found, GError *error, const char *because)
{
  g_assert_false (found);
  g_assert_error (error, HOB_ERROR, HOB_ERROR_NAME);
  if (strstr (error->message, because) == NULL)
    g_error ("\"%s\" does not say \"%s\"", error->message, because);
  g_error_free (error);
}

static void
names_find_what_they_name (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four");
  g_autofree char *oven_mode = NULL, *knob = NULL;
  HobEnd end;
  int p, k;

  g_assert_true (hob_range_find_terminal (range, "oven.bake", &end, NULL));
  g_assert_cmpstr (range->parts[end.part].kind->terminals[end.terminal].name, ==, "bake");
  g_assert_true (hob_range_find_port (range, "manifold.lf", &end, NULL));
  g_assert_cmpstr (range->parts[end.part].kind->ports[end.terminal].name, ==, "lf");
  g_assert_true (hob_range_find_quantity (range, "cavity.air", &p, &k, NULL));
  g_assert_cmpstr (range->parts[p].kind->quantities[k].name, ==, "air");
  g_assert_true (hob_range_find_control (range, "oven.mode", &p, &k, NULL));
  oven_mode = hob_range_control_name (range, p, k);
  g_assert_cmpstr (oven_mode, ==, "oven.mode");
  g_assert_true (hob_range_find_control (range, "knob-lf", &p, &k, NULL));
  knob = hob_range_control_name (range, p, k);
  g_assert_cmpstr (knob, ==, "knob-lf");
  g_assert_true (hob_range_find_fault (range, "igniter-bake:aged", &p, &k, NULL));
  g_assert_cmpstr (range->parts[p].kind->faults[k].id, ==, "aged");
  g_assert_cmpint (hob_range_part (range, "nobody"), ==, -1);
}

static void
a_misspelt_name_gets_its_near_miss (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four");
  GError *error = NULL;
  HobEnd end;
  int p, k;
  gboolean found;

  found = hob_range_find_terminal (range, "oven.bak", &end, &error);
  assert_no_name (found, g_steal_pointer (&error), "did you mean 'oven.bake'");
  found = hob_range_find_control (range, "oven.mod", &p, &k, &error);
  assert_no_name (found, g_steal_pointer (&error), "did you mean 'oven.mode'");
  found = hob_range_find_control (range, "knob-l", &p, &k, &error);
  assert_no_name (found, g_steal_pointer (&error), "did you mean 'knob-lf'");
  found = hob_range_find_fault (range, "igniter-bake:agd", &p, &k, &error);
  assert_no_name (found, g_steal_pointer (&error), "did you mean 'igniter-bake:aged'");
  found = hob_range_find_quantity (range, "cavty.air", &p, &k, &error);
  assert_no_name (found, g_steal_pointer (&error), "did you mean 'cavity'");
  found = hob_range_find_setting (range, "toaster.heat", &p, &k, &error);
  assert_no_name (found, g_steal_pointer (&error), "hob list");
  found = hob_range_find_port (range, "", &end, &error);
  assert_no_name (found, g_steal_pointer (&error), "''");
}

static void
a_condition_is_no_setting (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four");
  GError *error = NULL;
  int p, k;
  gboolean found = hob_range_find_setting (range, "igniter-bake.broken", &p, &k, &error);

  assert_no_name (found, error, "use one of: igniter-bake.resistance-factor");
}

/* The other gas's orifice is wrong, and the own one is no fault. */
static void
an_orifice_for_the_gas_of_the_plate_is_no_fault (void)
{
  static const char *const faults[]
      = { "burner-lf:orifice-for-natural", "burner-bake:orifice-for-natural",
          "burner-lf:orifice-for-lp", "burner-bake:orifice-for-lp" };
  g_autoptr (HobRange) natural = shipped ("dial-four"), lp = shipped ("lp-four");
  int p, f;

  for (guint k = 0; k < G_N_ELEMENTS (faults); k++)
    {
      g_assert_true (hob_range_find_fault (natural, faults[k], &p, &f, NULL) == (k >= 2));
      g_assert_true (hob_range_find_fault (lp, faults[k], &p, &f, NULL) == (k < 2));
    }
}

static void
a_fault_of_a_terminal_that_nothing_reaches_is_not_there (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four");
  int module = hob_range_part (range, "module");
  guint with = 0, without = 0;

  for (int f = 0; f < range->parts[module].kind->n_faults; f++)
    {
      int needs = range->parts[module].kind->faults[f].needs;

      if (needs == 0)
        continue;
      g_assert_true (hob_range_has_fault (range, module, f)
                     == hob_range_terminal_used (range, module, needs - 1));
      if (hob_range_has_fault (range, module, f))
        with++;
      else
        without++;
    }
  g_assert_cmpuint (with, ==, 4);
  g_assert_cmpuint (without, >, 0);
}

/* ---- Bytes ---- */

static void
line_ends_and_byte_marks_do_not_matter (void)
{
  const char *xml = "\xef\xbb\xbf<?xml version=\"1.0\" encoding=\"utf-8\"?>\r\n" HEAD (
      "lp") "\r\n\r\n" HOUSE "<part id=\"k\"\r\n kind=\"knob\"/>\r\n" TAIL;
  g_autoptr (HobRange) range = from_text (xml);

  g_assert_cmpint (part (range, "k")->line, ==, 8);
}

static void
lines_are_right_far_down_a_file (void)
{
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  GString *xml = g_string_new (HEAD ("lp") HOUSE);
  g_autoptr (GError) error = NULL;

  for (int i = 0; i < 100000; i++)
    g_string_append_c (xml, '\n');
  g_string_append (xml, "<part id=\"k\"\n\nkind=\"knop\"/>\n" TAIL);
  g_assert_null (hob_range_load_memory (xml->str, xml->len, "far.xml", findings, &error));
  g_string_free (xml, TRUE);
  g_assert_error (error, HOB_ERROR, HOB_ERROR_FINDING);
  g_assert_cmpstr (error->message, ==,
                   "far.xml:100007: part 'k': unknown kind 'knop'; did you mean 'knob'?");
  g_assert_cmpuint (findings->len, ==, 1);
}

/* One line is another, all else the same; each lives as long as somebody holds it. */
static void
a_range_may_have_another_line (void)
{
  HobRange *range = shipped ("dial-four");
  double wire = range->wires[3].diameter, pipe = range->pipes[2].diameter;
  HobRange *open = hob_range_with_wire (range, 3, wire / 2);
  HobRange *both = hob_range_with_pipe (open, 2, pipe / 4);

  g_assert_cmpfloat (range->wires[3].diameter, ==, wire);
  g_assert_cmpfloat (open->wires[3].diameter, ==, wire / 2);
  g_assert_cmpfloat (open->wires[2].diameter, ==, range->wires[2].diameter);
  g_assert_cmpfloat (open->pipes[2].diameter, ==, pipe);
  hob_range_unref (range);
  hob_range_unref (open);
  g_assert_cmpfloat (both->pipes[2].diameter, ==, pipe / 4);
  g_assert_cmpfloat (both->wires[3].diameter, ==, wire / 2);
  g_assert_cmpint (hob_range_part (both, both->parts[0].id), ==, 0);
  hob_range_unref (both);
}

static void
a_range_may_be_held_twice (void)
{
  HobRange *range = from_text (HEAD ("lp") HOUSE TAIL);
  HobRange *again = hob_range_ref (range);

  hob_range_unref (range);
  g_assert_cmpstr (again->id, ==, "small");
  hob_range_unref (again);
  hob_tree_free (NULL);
}

/* ---- Finding files ---- */

static void
a_word_means_a_shipped_range (void)
{
  g_autofree char *word = hob_range_locate ("dial-four"),
                  *file = hob_range_locate ("dial-four.xml");
  g_autofree char *path = hob_range_locate ("./dial-four"),
                  *unknown = hob_range_locate ("no-such-range");

  g_assert_true (g_file_test (word, G_FILE_TEST_IS_REGULAR));
  g_assert_cmpstr (word, ==, file);
  g_assert_cmpstr (path, ==, "./dial-four");
  g_assert_cmpstr (unknown, ==, "no-such-range");
}

/* ---- Older formats ---- */

static void
first_step (xmlDoc *doc)
{
  xmlSetProp (xmlDocGetRootElement (doc), (const xmlChar *)"name", (const xmlChar *)"one");
}

static void
second_step (xmlDoc *doc)
{
  xmlNode *root = xmlDocGetRootElement (doc);

  g_assert_cmpstr (hob_xml_get (root, "name"), ==, "one");
  xmlSetProp (root, (const xmlChar *)"name", (const xmlChar *)"two");
}

static void
an_older_file_goes_up_one_step_at_a_time (void)
{
  static const HobMigration steps[] = { NULL, first_step, second_step };
  HobRangeTree *tree = hob_tree_new ("<range name=\"nought\"/>", 22);
  xmlDoc *doc = hob_tree_parse (tree, "old.xml", NULL);
  xmlNode *root = xmlDocGetRootElement (doc);

  hob_range_migrate (doc, 3, 3, steps);
  g_assert_cmpstr (hob_xml_get (root, "name"), ==, "nought");
  hob_range_migrate (doc, 1, 3, steps);
  g_assert_cmpstr (hob_xml_get (root, "name"), ==, "two");
  xmlFreeDoc (doc);
  hob_tree_free (tree);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shipped/dial-four has the parts of its name",
                   dial_four_has_the_parts_of_its_name);
  g_test_add_func ("/shipped/board-five has the parts of its name",
                   board_five_has_the_parts_of_its_name);
  g_test_add_func ("/shipped/parts know where they stand and what moves them",
                   parts_know_where_they_stand_and_what_moves_them);
  g_test_add_func ("/shipped/every range says what it teaches",
                   every_shipped_range_says_what_it_teaches);
  g_test_add_func ("/shipped/every placed part has a symbol", every_placed_part_has_a_symbol);
  g_test_add_func ("/values/settings come from the file or the kind",
                   settings_come_from_the_file_or_the_kind);
  g_test_add_func ("/values/what flows is what the plate says", what_flows_is_what_the_plate_says);
  g_test_add_func ("/values/wires have colour, gauge and length",
                   wires_have_colour_gauge_and_length);
  g_test_add_func ("/values/parts have places, labels and numbers",
                   parts_have_places_labels_and_numbers);
  g_test_add_func ("/values/notes are paragraphs", notes_are_paragraphs);
  g_test_add_func ("/names/an old name is read with a warning",
                   an_old_name_is_read_with_a_warning);
  g_test_add_func ("/names/a burner has its match and a house has none",
                   a_burner_has_its_match_and_a_house_has_none);
  g_test_add_func ("/names/names find what they name", names_find_what_they_name);
  g_test_add_func ("/names/a misspelt name gets its near miss", a_misspelt_name_gets_its_near_miss);
  g_test_add_func ("/names/a condition is no setting", a_condition_is_no_setting);
  g_test_add_func ("/names/a fault of a terminal that nothing reaches is not there",
                   a_fault_of_a_terminal_that_nothing_reaches_is_not_there);
  g_test_add_func ("/names/an orifice for the gas of the plate is no fault",
                   an_orifice_for_the_gas_of_the_plate_is_no_fault);
  g_test_add_func ("/bytes/line ends and byte marks do not matter",
                   line_ends_and_byte_marks_do_not_matter);
  g_test_add_func ("/bytes/lines are right far down a file", lines_are_right_far_down_a_file);
  g_test_add_func ("/bytes/a range may be held twice", a_range_may_be_held_twice);
  g_test_add_func ("/bytes/a range may have another line", a_range_may_have_another_line);
  g_test_add_func ("/files/a word means a shipped range", a_word_means_a_shipped_range);
  g_test_add_func ("/formats/an older file goes up one step at a time",
                   an_older_file_goes_up_one_step_at_a_time);
  return g_test_run ();
}
