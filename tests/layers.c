/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The layers: every #include of src/ points to the same layer or to an earlier one. */

#include "config.h"

#include <glib.h>
#include <string.h>

static const char *const layers[] = { "base",   "physics", "parts", "range", "run", "symptoms",
                                      "reason", "job",     "sheet", "cli",   "window" };

static int
layer_rank (const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (layers); i++)
    if (g_str_equal (layers[i], name))
      return (int) i;
  return -1;
}

/* Which layers may use a library's headers; one not named here is free to all. */
static const struct
{
  const char *prefix;
  const char *allowed; /* space before and behind each */
} libraries[] = {
  { "gtk/", " window " },
  { "gdk/", " window " },
  { "gsk/", " window " },
  { "graphene", " window " },
  { "adwaita", " window " },
  { "cairo", " sheet window " },
  { "pango/", " sheet window " },
  { "libxml/", " range symptoms job " },
};

static gboolean
library_is_allowed (const char *layer, const char *header)
{
  g_autofree char *word = g_strdup_printf (" %s ", layer);

  for (guint i = 0; i < G_N_ELEMENTS (libraries); i++)
    if (g_str_has_prefix (header, libraries[i].prefix))
      return strstr (libraries[i].allowed, word) != NULL;
  return TRUE;
}

/* A header of our own: "layer/name.h", the build's "config.h", or one made by the build ("name.h"
 * without a folder is none of ours). */
static gboolean
own_is_allowed (const char *layer, const char *header)
{
  g_auto (GStrv) path = g_strsplit (header, "/", -1);
  int here = layer_rank (layer), there;

  if (g_str_equal (header, "config.h"))
    return TRUE;
  if (g_strv_length (path) != 2 || (there = layer_rank (path[0])) < 0)
    return FALSE;
  if (g_str_equal (layer, "window") && g_str_equal (path[0], "cli"))
    return FALSE;
  return there <= here;
}

/* What a line includes: FALSE if nothing. */
static gboolean
parse_include (const char *line, char **header, gboolean *own)
{
  g_autoptr (GRegex) regex = g_regex_new ("^\\s*#\\s*include\\s*([<\"])([^>\"]+)[>\"]", 0, 0, NULL);
  g_autoptr (GMatchInfo) match = NULL;
  g_autofree char *mark = NULL;

  if (!g_regex_match (regex, line, 0, &match))
    return FALSE;
  mark = g_match_info_fetch (match, 1);
  *header = g_match_info_fetch (match, 2);
  *own = *mark == '"';
  return TRUE;
}

static gboolean
line_is_allowed (const char *layer, const char *line)
{
  g_autofree char *header = NULL;
  gboolean own;

  if (!parse_include (line, &header, &own))
    return TRUE;
  return own ? own_is_allowed (layer, header) : library_is_allowed (layer, header);
}

typedef struct
{
  guint files, own_includes;
  GString *offences;
} Survey;

static void
survey_file (Survey *survey, const char *layer, const char *path)
{
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  g_autoptr (GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  lines = g_strsplit (text, "\n", -1);
  survey->files++;
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_autofree char *header = NULL;
      gboolean own;

      if (parse_include (lines[i], &header, &own) && own)
        survey->own_includes++;
      if (!line_is_allowed (layer, lines[i]))
        g_string_append_printf (survey->offences, "%s:%u: %s\n", path, i + 1, lines[i]);
    }
}

static void
survey_layer (Survey *survey, const char *layer, const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_str_has_suffix (name, ".c") || g_str_has_suffix (name, ".h"))
        survey_file (survey, layer, path);
      else if (g_file_test (path, G_FILE_TEST_IS_DIR))
        g_string_append_printf (survey->offences, "%s: a folder inside a layer\n", path);
    }
}

static void
no_include_points_upward (void)
{
  g_autofree char *src = g_build_filename (HOB_SOURCE_DIR, "src", NULL);
  g_autoptr (GDir) dir = g_dir_open (src, 0, NULL);
  Survey survey = { 0, 0, g_string_new (NULL) };
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (src, name, NULL);

      if (!g_file_test (path, G_FILE_TEST_IS_DIR))
        continue;
      if (layer_rank (name) < 0)
        g_string_append_printf (survey.offences, "%s: a folder that is no layer\n", path);
      else
        survey_layer (&survey, name, path);
    }
  g_test_message ("%u files, %u own includes", survey.files, survey.own_includes);
  g_assert_cmpstr (survey.offences->str, ==, "");
  g_assert_cmpuint (survey.files, >, 10);
  g_assert_cmpuint (survey.own_includes, >, survey.files / 2);
  g_string_free (survey.offences, TRUE);
}

static void
an_upward_include_would_be_seen (void)
{
  g_assert_true (line_is_allowed ("run", "#include \"range/range.h\""));
  g_assert_true (line_is_allowed ("run", "#include \"run/case.h\""));
  g_assert_true (line_is_allowed ("window", "#include \"sheet/sheet.h\""));
  g_assert_false (line_is_allowed ("range", "#include \"run/run.h\""));
  g_assert_false (line_is_allowed ("base", "  #  include \"physics/gas.h\""));
  g_assert_false (line_is_allowed ("window", "#include \"cli/cli.h\""));
  g_assert_false (line_is_allowed ("cli", "#include \"window/window.h\""));
  g_assert_false (line_is_allowed ("parts", "#include \"../run/run.h\""));
  g_assert_false (line_is_allowed ("parts", "#include \"kind.h\""));
  g_assert_false (line_is_allowed ("parts", "#include \"elsewhere/kind.h\""));
  g_assert_true (line_is_allowed ("base", "/* like #include \"window/x.h\" */"));
}

static void
a_library_out_of_its_layer_would_be_seen (void)
{
  g_assert_true (line_is_allowed ("window", "#include <gtk/gtk.h>"));
  g_assert_false (line_is_allowed ("sheet", "#include <gtk/gtk.h>"));
  g_assert_false (line_is_allowed ("cli", "#include <gdk/gdk.h>"));
  g_assert_true (line_is_allowed ("sheet", "#include <cairo-pdf.h>"));
  g_assert_false (line_is_allowed ("parts", "#include <cairo.h>"));
  g_assert_false (line_is_allowed ("run", "#include <libxml/parser.h>"));
  g_assert_true (line_is_allowed ("run", "#include <math.h>"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/layers/no include points upward", no_include_points_upward);
  g_test_add_func ("/layers/an upward include would be seen", an_upward_include_would_be_seen);
  g_test_add_func ("/layers/a library out of its layer would be seen",
                   a_library_out_of_its_layer_would_be_seen);
  return g_test_run ();
}
