/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Changing and saving: one changed setting is one changed line, everything else stays byte for
 * byte. */

#include "config.h"

#include "base/errors.h"
#include "range/range.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <unistd.h>

/* A folder of its own for each test, with one file in it. */
typedef struct
{
  char *folder, *file;
} Place;

static void
write_file (const char *file, const char *text)
{
  g_autoptr (GError) error = NULL;

  g_file_set_contents (file, text, -1, &error);
  g_assert_no_error (error);
}

static char *
read_file (const char *file)
{
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (file, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static Place
new_place (const char *text)
{
  Place place = { g_dir_make_tmp ("hobXXXXXX", NULL), NULL };

  place.file = g_build_filename (place.folder, "range.xml", NULL);
  write_file (place.file, text);
  return place;
}

static void
clear_place (Place *place)
{
  g_remove (place->file);
  g_assert_cmpint (g_rmdir (place->folder), ==, 0); /* nothing is left beside the file */
  g_free (place->file);
  g_free (place->folder);
}

static HobRange *
load (const char *file)
{
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

static void
set (HobRange *range, const char *name, const char *text)
{
  g_autoptr (GError) error = NULL;
  int part, setting;

  g_assert_true (hob_range_find_setting (range, name, &part, &setting, &error));
  g_assert_true (hob_range_set (range, part, setting, text, &error));
  g_assert_no_error (error);
}

static double
value (const HobRange *range, const char *name)
{
  int part, setting;

  g_assert_true (hob_range_find_setting (range, name, &part, &setting, NULL));
  return range->parts[part].set[setting];
}

static void
save (HobRange *range, const char *file)
{
  g_autoptr (GError) error = NULL;

  g_assert_true (hob_range_save (range, file, &error));
  g_assert_no_error (error);
}

/* The text after setting NAME to TEXT, saving and reading again, which finds the value. (transfer
 * full) */
static char *
after (const char *xml, const char *name, const char *text)
{
  Place place = new_place (xml);
  g_autoptr (HobRange) range = load (place.file);
  double wanted;
  char *saved;

  set (range, name, text);
  wanted = value (range, name);
  save (range, place.file);
  saved = read_file (place.file);
  g_autoptr (HobRange) again = load (place.file);
  g_assert_cmpfloat (value (again, name), ==, wanted);
  clear_place (&place);
  return saved;
}

#define HEAD "<range format=\"1\" id=\"small\" name=\"Small\" plate=\"natural-gas\">\n"
#define HOUSE                                                                                      \
  "  <part id=\"house\" kind=\"house\"/>\n  <part id=\"light\" kind=\"light\"/>\n"                 \
  "  <wire id=\"w1\" from=\"house.line\" to=\"light.a\" colour=\"BK\" gauge=\"14 AWG\" "           \
  "length=\"2 m\"/>\n"                                                                             \
  "  <wire id=\"w2\" from=\"light.b\" to=\"house.neutral\" colour=\"WH\" gauge=\"18 AWG\" "        \
  "length=\"50 cm\"/>\n"
#define WIRED                                                                                      \
  "  <wire id=\"w3\" from=\"i.a\" to=\"house.line\" colour=\"RD\" gauge=\"18 AWG\" length=\"1 "    \
  "m\"/>\n"                                                                                        \
  "  <wire id=\"w4\" from=\"i.b\" to=\"house.neutral\" colour=\"RD\" gauge=\"18 AWG\" length=\"1 " \
  "m\"/>\n"
#define TAIL "</range>\n"
#define FACTOR "i.resistance-factor"

static void
assert_becomes (const char *part_before, const char *text, const char *part_after)
{
  g_autofree char *before = g_strconcat (HEAD HOUSE, part_before, WIRED TAIL, NULL);
  g_autofree char *wanted = g_strconcat (HEAD HOUSE, part_after, WIRED TAIL, NULL);
  g_autofree char *got = after (before, FACTOR, text);

  g_assert_cmpstr (got, ==, wanted);
}

/* ---- A setting that stands in the file ---- */

static void
a_changed_setting_is_one_changed_line (void)
{
  assert_becomes ("  <part id=\"i\" kind=\"igniter-flat\">\n    <set name=\"resistance-factor\" "
                  "value=\"1.0\"/>\n  </part>\n",
                  "1.25",
                  "  <part id=\"i\" kind=\"igniter-flat\">\n    <set name=\"resistance-factor\" "
                  "value=\"1.25\"/>\n  </part>\n");
}

static void
quotes_spaces_and_order_stay_as_they_were (void)
{
  assert_becomes ("\t<part   id='i'\n kind = \"igniter-flat\"  ><set\tvalue = '1.0'   "
                  "name='resistance-factor'  ></set  ></part>\n",
                  "2",
                  "\t<part   id='i'\n kind = \"igniter-flat\"  ><set\tvalue = '2'   "
                  "name='resistance-factor'  ></set  ></part>\n");
}

static void
comments_that_look_like_settings_are_left_alone (void)
{
  assert_becomes ("  <!-- <part id=\"i\"><set name=\"resistance-factor\" value=\"1\"/></part> "
                  "--><?x <set value=\"1\"/> ?>\n"
                  "  <part id=\"i\" kind=\"igniter-flat\"><!-- value=\"1\" > --><set "
                  "name=\"resistance-factor\" value=\"1\"/></part>\n",
                  "3",
                  "  <!-- <part id=\"i\"><set name=\"resistance-factor\" value=\"1\"/></part> "
                  "--><?x <set value=\"1\"/> ?>\n"
                  "  <part id=\"i\" kind=\"igniter-flat\"><!-- value=\"1\" > --><set "
                  "name=\"resistance-factor\" value=\"3\"/></part>\n");
}

static void
a_value_with_references_is_replaced_whole (void)
{
  assert_becomes ("  <part id=\"i\" kind=\"igniter-flat\" label=\"a > b\"><set "
                  "name=\"resistance-fact&#111;r\" value=\"&#49;.5\"/></part>\n",
                  "1.6",
                  "  <part id=\"i\" kind=\"igniter-flat\" label=\"a > b\"><set "
                  "name=\"resistance-fact&#111;r\" value=\"1.6\"/></part>\n");
}

static void
what_is_written_is_what_was_given (void)
{
  g_autofree char *got = after (HEAD HOUSE TAIL, "house.temperature", "  95 degF ");

  g_assert_nonnull (strstr (got, "<set name=\"temperature\" value=\"95 degF\"/>"));
}

/* ---- A setting that does not ---- */

static void
a_new_setting_in_an_empty_part_changes_its_line (void)
{
  assert_becomes ("  <part id=\"i\" kind=\"igniter-flat\"/>\n", "1.5",
                  "  <part id=\"i\" kind=\"igniter-flat\"><set name=\"resistance-factor\" "
                  "value=\"1.5\"/></part>\n");
  assert_becomes ("  <part id=\"i\" kind=\"igniter-flat\"></part>\n", "1.5",
                  "  <part id=\"i\" kind=\"igniter-flat\"><set name=\"resistance-factor\" "
                  "value=\"1.5\"/></part>\n");
}

static void
a_new_setting_among_others_is_one_new_line (void)
{
  assert_becomes ("  <part id=\"i\" kind=\"igniter-flat\">\n     <at sheet=\"wiring\" x=\"4\" "
                  "y=\"8\"/>\n  </part>\n",
                  "1.5",
                  "  <part id=\"i\" kind=\"igniter-flat\">\n     <set name=\"resistance-factor\" "
                  "value=\"1.5\"/>\n"
                  "     <at sheet=\"wiring\" x=\"4\" y=\"8\"/>\n  </part>\n");
  assert_becomes (
      "  <part id=\"i\" kind=\"igniter-flat\"><at sheet=\"wiring\" x=\"4\" y=\"8\"/></part>\n",
      "1.5",
      "  <part id=\"i\" kind=\"igniter-flat\"><set name=\"resistance-factor\" value=\"1.5\"/>"
      "<at sheet=\"wiring\" x=\"4\" y=\"8\"/></part>\n");
}

static void
line_ends_of_the_other_sort_stay (void)
{
  const char *before = "<range format=\"1\" id=\"small\" name=\"Small\" plate=\"lp\">\r\n"
                       "  <part id=\"house\" kind=\"house\">\r\n    <at sheet=\"gas\" x=\"1\" "
                       "y=\"2\"/>\r\n  </part>\r\n"
                       "  <part id=\"light\" kind=\"light\"/>\r\n"
                       "  <wire id=\"w1\" from=\"house.line\" to=\"light.a\" colour=\"BK\" "
                       "gauge=\"14 AWG\" length=\"2 m\"/>\r\n"
                       "  <wire id=\"w2\" from=\"light.b\" to=\"house.neutral\" colour=\"WH\" "
                       "gauge=\"18 AWG\" length=\"1 m\"/>\r\n"
                       "</range>";
  g_autofree char *got = after (before, "house.humidity", "20 %");
  char *line = strstr (got, "    <set name=\"humidity\" value=\"20 %\"/>\r\n");

  g_assert_nonnull (line);
  memmove (line, line + strlen ("    <set name=\"humidity\" value=\"20 %\"/>\r\n"),
           strlen (line + strlen ("    <set name=\"humidity\" value=\"20 %\"/>\r\n")) + 1);
  g_assert_cmpstr (got, ==, before);
}

/* ---- Many ---- */

static guint
count_changed_lines (const char *before, const char *now)
{
  g_auto (GStrv) a = g_strsplit (before, "\n", -1), b = g_strsplit (now, "\n", -1);
  guint changed = 0;

  g_assert_cmpuint (g_strv_length (a), ==, g_strv_length (b));
  for (guint i = 0; a[i] != NULL; i++)
    changed += strcmp (a[i], b[i]) != 0;
  return changed;
}

static void
a_shipped_range_changes_in_one_line (void)
{
  g_autofree char *file = hob_range_locate ("dial-four"), *before = read_file (file);
  g_autofree char *now = after (before, "burner-lf.orifice", "54 drill");

  g_assert_cmpuint (count_changed_lines (before, now), ==, 1);
}

/* New tags shift those behind them: each change must still find its own. */
static void
many_changes_in_any_order_find_their_places (void)
{
  static const char *const names[]
      = { "valve-rr.bore",         "house.humidity",    "burner-rr.orifice",
          "igniter-bake.hot-ohms", "burner-lf.orifice", "igniter-bake.resistance-factor",
          "house.temperature" };
  static const char *const first[]
      = { "3 mm", "0.3", "0.8 mm", "33.5 ohm", "1 mm", "1.2", "10 degC" };
  static const char *const texts[]
      = { "4 mm", "0.4", "0.9 mm", "34 ohm", "1.1 mm", "1.3", "20 degC" };
  g_autofree char *file = hob_range_locate ("dial-four"), *before = read_file (file);
  Place place = new_place (before);
  g_autoptr (HobRange) range = load (place.file), again = NULL;

  for (int round = 0; round < 2; round++)
    for (guint i = 0; i < G_N_ELEMENTS (names); i++)
      set (range, names[i], round == 0 ? first[i] : texts[i]);
  save (range, place.file);
  again = load (place.file);
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    g_assert_cmpfloat (value (again, names[i]), ==, value (range, names[i]));
  g_assert_cmpfloat (value (again, "house.temperature"), ==, 293.15);
  for (int i = 0; i < range->n_parts; i++)
    for (int s = 0; s < range->parts[i].kind->n_settings; s++)
      g_assert_true (range->parts[i].set[s] == again->parts[i].set[s]);
  clear_place (&place);
}

static void
a_refused_value_changes_nothing (void)
{
  Place place = new_place (HEAD HOUSE TAIL);
  g_autoptr (HobRange) range = load (place.file);
  g_autofree char *saved = NULL;
  g_autoptr (GError) error = NULL;
  int part, setting;

  g_assert_true (hob_range_find_setting (range, "house.temperature", &part, &setting, NULL));
  g_assert_false (hob_range_set (range, part, setting, "20", &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_VALUE);
  g_assert_cmpfloat (value (range, "house.temperature"), ==, 298.15);
  save (range, place.file);
  saved = read_file (place.file);
  g_assert_cmpstr (saved, ==, HEAD HOUSE TAIL);
  clear_place (&place);
}

/* ---- Files ---- */

static void
a_range_unchanged_is_saved_byte_for_byte (void)
{
  static const char *const words[] = { "dial-four", "board-five" };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      g_autofree char *file = hob_range_locate (words[i]), *before = read_file (file), *now = NULL;
      Place place = new_place ("");
      g_autoptr (HobRange) range = load (file);

      save (range, place.file);
      now = read_file (place.file);
      g_assert_cmpstr (now, ==, before);
      clear_place (&place);
    }
}

static void
a_link_stays_a_link_and_rights_stay (void)
{
  Place place = new_place (HEAD HOUSE TAIL);
  g_autofree char *link = g_build_filename (place.folder, "link.xml", NULL), *now = NULL;
  g_autoptr (HobRange) range = load (place.file);
  GStatBuf buf;

  g_assert_cmpint (symlink ("range.xml", link), ==, 0);
  g_assert_cmpint (g_chmod (place.file, 0640), ==, 0);
  set (range, "house.humidity", "0.3");
  save (range, link);
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  now = read_file (place.file);
  g_assert_nonnull (strstr (now, "value=\"0.3\""));
  g_assert_cmpint (g_stat (place.file, &buf), ==, 0);
  g_assert_cmpint (buf.st_mode & 0777, ==, 0640);
  g_remove (link);
  clear_place (&place);
}

static void
a_place_that_takes_no_file_is_told (void)
{
  Place place = new_place (HEAD HOUSE TAIL);
  g_autoptr (HobRange) range = load (place.file);
  g_autofree char *nowhere = g_build_filename (place.folder, "no", "such", "folder.xml", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_false (hob_range_save (range, nowhere, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_OUTPUT);
  g_assert_nonnull (strstr (error->message, nowhere));
  clear_place (&place);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/set/a changed setting is one changed line",
                   a_changed_setting_is_one_changed_line);
  g_test_add_func ("/set/quotes, spaces and order stay as they were",
                   quotes_spaces_and_order_stay_as_they_were);
  g_test_add_func ("/set/comments that look like settings are left alone",
                   comments_that_look_like_settings_are_left_alone);
  g_test_add_func ("/set/a value with references is replaced whole",
                   a_value_with_references_is_replaced_whole);
  g_test_add_func ("/set/what is written is what was given", what_is_written_is_what_was_given);
  g_test_add_func ("/set/a new setting in an empty part changes its line",
                   a_new_setting_in_an_empty_part_changes_its_line);
  g_test_add_func ("/set/a new setting among others is one new line",
                   a_new_setting_among_others_is_one_new_line);
  g_test_add_func ("/set/line ends of the other sort stay", line_ends_of_the_other_sort_stay);
  g_test_add_func ("/set/a shipped range changes in one line", a_shipped_range_changes_in_one_line);
  g_test_add_func ("/set/many changes in any order find their places",
                   many_changes_in_any_order_find_their_places);
  g_test_add_func ("/set/a refused value changes nothing", a_refused_value_changes_nothing);
  g_test_add_func ("/save/a range unchanged is saved byte for byte",
                   a_range_unchanged_is_saved_byte_for_byte);
  g_test_add_func ("/save/a link stays a link and rights stay",
                   a_link_stays_a_link_and_rights_stay);
  g_test_add_func ("/save/a place that takes no file is told", a_place_that_takes_no_file_is_told);
  return g_test_run ();
}
