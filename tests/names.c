/* SPDX-License-Identifier: GPL-3.0-or-later */

/* No names above the kinds: what a layer above parts/ must know of a kind it reads from flags and
 * fields of the kind's tables, never by the name of a kind, setting, state, mode, control,
 * position, quantity or fault, nor by the id of a part in a shipped range. */

#include "config.h"

#include "parts/kind.h"

#include <string.h>

static const char *const layers[] = { "range", "run",   "symptoms", "reason",
                                      "job",   "sheet", "cli",      "window" };

/* Literals that are spelled like a name and mean something else. */
static const struct
{
  const char *file, *literal, *why;
} allowed[] = {
  { "range/lines.c", "gauge", "attribute of <wire>" },
  { "range/lines.c", "length", "attribute of <wire>, <pipe>, <lead>" },
  { "range/lines.c", "bore", "attribute of <pipe>" },
  { "range/parts.c", "gas", "the gas sheet" },
  { "range/parts.c", "set", "the element <set>" },
  { "range/parts.c", "in", "attribute of <part>" },
  { "range/shapes.c", "in", "attribute of <part>" },
  { "range/shapes.c", "set", "the element <set>" },
  { "range/shapes.c", "gauge", "attribute of <wire>" },
  { "range/shapes.c", "length", "attribute of <wire>, <pipe>, <lead>" },
  { "range/shapes.c", "bore", "attribute of <pipe>" },
  { "window/chart-view.c", "pressed", "a signal of gestures" },
  { "window/menus.c", "closed", "a signal of popovers" },
  { "window/sheet-view.c", "pressed", "a signal of gestures" },
  { "run/case.c", "open", "infinite resistance, as it is written" },
  { "run/reading.c", "volts", "a test that a meter makes" },
  { "run/reading.c", "ohms", "a test that a meter makes" },
  { "run/reading.c", "pressure", "a test that a manometer makes" },
  { "symptoms/book.c", "gas", "attribute of a condition in the symptoms' file" },
  { "cli/draw.c", "gas", "the gas sheet" },
  { "cli/suspects.c", "gas", "a danger" },
  { "cli/draw.c", "light", "a theme" },
  { "window/app.c", "light", "a theme" },
  { "window/finding-list.c", "closed", "a signal of GTK" },
  { "window/front.c", "set", "a style class" },
  { "window/front.c", "display", "a style class" },
  { "window/front.c", "turned", "a signal of the knob widget" },
  { "window/knob.c", "knob", "the widget's style name" },
  { "window/knob.c", "turned", "a signal of the knob widget" },
  { "window/knob.c", "pressed", "a signal of GTK" },
  { "window/part-panel.c", "current", "a word for what is read on a wire" },
  { "window/window-actions.c", "gas", "the gas sheet" },
  { "window/window-actions.c", "back", "an action" },
  { "window/window-opening.c", "open", "a signal of GTK" },
  { "window/window-opening.c", "drop", "a signal of GTK" },
  { "window/window-opening.c", "closed", "a signal of GTK" },
};

/* ---- Names ---- */

#define ADD_ALL(names, kind, table)                                                                \
  for (int k_ = 0; k_ < (kind)->n_##table; k_++)                                                   \
  g_hash_table_add (names, g_strdup ((kind)->table[k_].name))

static void
add_kind (GHashTable *names, const HobKind *kind)
{
  g_hash_table_add (names, g_strdup (kind->name));
  ADD_ALL (names, kind, settings);
  ADD_ALL (names, kind, states);
  ADD_ALL (names, kind, modes);
  ADD_ALL (names, kind, controls);
  ADD_ALL (names, kind, quantities);
  for (int k = 0; k < kind->n_faults; k++)
    g_hash_table_add (names, g_strdup (kind->faults[k].id));
  for (int k = 0; k < kind->n_controls; k++)
    for (const HobPosition *p = kind->controls[k].positions; p != NULL && p->name != NULL; p++)
      g_hash_table_add (names, g_strdup (p->name));
}

/* Whatever @pattern's first group matches in @text. */
static void
add_matches (GHashTable *names, const char *text, const char *pattern)
{
  g_autoptr (GRegex) regex = g_regex_new (pattern, 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;

  g_regex_match (regex, text, 0, &match);
  for (; g_match_info_matches (match); g_match_info_next (match, NULL))
    g_hash_table_add (names, g_match_info_fetch (match, 1));
}

static char *
read_file (const char *folder, const char *name)
{
  g_autofree char *path = g_build_filename (HOB_SOURCE_DIR, folder, name, NULL);
  g_autoptr (GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static GDir *
open_folder (const char *folder)
{
  g_autofree char *path = g_build_filename (HOB_SOURCE_DIR, folder, NULL);

  return g_dir_open (path, 0, NULL);
}

/* Every name; (element-type utf8), owned by the caller. */
static GHashTable *
names_below (void)
{
  GHashTable *names = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (GDir) dir = open_folder ("diagrams");
  const char *name;

  for (const HobKind *const *k = hob_kinds; *k != NULL; k++)
    add_kind (names, *k);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      {
        g_autofree char *text = read_file ("diagrams", name);

        add_matches (names, text, "<part id=\"([^\"]+)\"");
      }
  g_hash_table_remove (names, "");
  return names;
}

/* ---- Literals ---- */

/* @text without comments, which may name what they like. */
static char *
without_comments (const char *text)
{
  g_autoptr (GRegex) comment = g_regex_new ("/\\*.*?\\*/", G_REGEX_DOTALL, 0, NULL);

  return g_regex_replace_literal (comment, text, -1, 0, "", 0, NULL);
}

static gboolean
is_allowed (const char *file, const char *literal, gboolean *used)
{
  for (guint k = 0; k < G_N_ELEMENTS (allowed); k++)
    if (g_str_equal (allowed[k].file, file) && g_str_equal (allowed[k].literal, literal))
      return used[k] = TRUE;
  return FALSE;
}

/* Appends every literal of @text that is a name. */
static void
survey_text (GString *offences, GHashTable *names, const char *file, const char *text,
             gboolean *used)
{
  g_autoptr (GHashTable) literals = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *code = without_comments (text);
  GHashTableIter iter;
  gpointer literal;

  add_matches (literals, code, "\"((?:[^\"\\\\\\n]|\\\\.)*)\"");
  g_hash_table_iter_init (&iter, literals);
  while (g_hash_table_iter_next (&iter, &literal, NULL))
    if (g_hash_table_contains (names, literal) && !is_allowed (file, literal, used))
      g_string_append_printf (offences, "%s: \"%s\" is a name of a kind's tables or a part\n",
                              file, (char *) literal);
}

static guint
survey_layer (GString *offences, GHashTable *names, const char *layer, gboolean *used)
{
  g_autofree char *folder = g_build_filename ("src", layer, NULL);
  g_autoptr (GDir) dir = open_folder (folder);
  const char *name;
  guint n = 0;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".c") || g_str_has_suffix (name, ".h"))
      {
        g_autofree char *text = read_file (folder, name);
        g_autofree char *file = g_build_filename (layer, name, NULL);

        survey_text (offences, names, file, text, used);
        n++;
      }
  return n;
}

static void
no_layer_above_knows_a_name (void)
{
  g_autoptr (GHashTable) names = names_below ();
  g_autoptr (GString) offences = g_string_new (NULL);
  gboolean used[G_N_ELEMENTS (allowed)] = { FALSE };
  guint files = 0;

  for (guint k = 0; k < G_N_ELEMENTS (layers); k++)
    files += survey_layer (offences, names, layers[k], used);
  for (guint k = 0; k < G_N_ELEMENTS (allowed); k++)
    if (!used[k])
      g_string_append_printf (offences, "%s: \"%s\" (%s) is gone; take it off the list\n",
                              allowed[k].file, allowed[k].literal, allowed[k].why);
  g_assert_cmpstr (offences->str, ==, "");
  g_assert_cmpuint (files, >, 50);
  g_assert_cmpuint (g_hash_table_size (names), >, 300);
}

static void
a_name_would_be_seen (void)
{
  g_autoptr (GHashTable) names = names_below ();
  g_autoptr (GString) offences = g_string_new (NULL);
  gboolean used[G_N_ELEMENTS (allowed)] = { FALSE };

  survey_text (offences, names, "run/x.c", "find (\"igniter-bake\"); /* \"glow\" */", used);
  g_assert_nonnull (strstr (offences->str, "igniter-bake"));
  g_assert_null (strstr (offences->str, "glow"));
  survey_text (offences, names, "run/x.c", "is (kind, \"oven-dial\") || at (\"broil\")", used);
  g_assert_nonnull (strstr (offences->str, "oven-dial"));
  g_assert_nonnull (strstr (offences->str, "broil"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/names/no layer above knows a name", no_layer_above_knows_a_name);
  g_test_add_func ("/names/a name would be seen", a_name_would_be_seen);
  return g_test_run ();
}
