/* SPDX-License-Identifier: GPL-3.0-or-later */

/* README.md and the manual pages have the cautions of the table: all of them, in its order, in
 * its words, and no others.  "cautions --update" writes them there. */

#include "base/hazard.h"
#include "config.h"

#include <string.h>

#define WIDTH 100

static const struct
{
  const char *file;
  const char *heading, *end; /* lines around them; NULL: the end of the file */
  gboolean man;
} places[] = {
  { "README.md", "\n## Cautions\n", "\n## More\n", FALSE },
  { "data/man/hob.1", "\n.Sh CAVEATS\n", NULL, TRUE },
  { "data/man/hobwright.1", "\n.Sh CAVEATS\n", NULL, TRUE },
};

static gboolean update;

/* Words in lines of WIDTH columns at most, those after the first indented by @indent. */
static void
append_wrapped (GString *out, const char *text, int indent)
{
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  gsize line = 0;

  for (char **w = words; *w != NULL; w++)
    {
      if (line > 0 && line + 1 + strlen (*w) > WIDTH)
        {
          g_string_append_printf (out, "\n%*s", indent, "");
          line = (gsize) indent;
        }
      else if (line > 0)
        {
          g_string_append_c (out, ' ');
          line++;
        }
      g_string_append (out, *w);
      line += strlen (*w);
    }
  g_string_append_c (out, '\n');
}

/* A manual page begins each sentence on a line of its own. */
static void
append_sentences (GString *out, const char *text)
{
  g_auto (GStrv) sentences = g_strsplit (text, ". ", -1);

  for (char **s = sentences; *s != NULL; s++)
    {
      g_autofree char *sentence = g_strconcat (*s, s[1] != NULL ? "." : "", NULL);

      append_wrapped (out, sentence, 0);
    }
}

static void
append_caution (GString *out, HobHazard hazard, gboolean man)
{
  g_autofree char *text = hob_hazard_text (hazard, HOB_HAZARD_IF_ANY);
  g_autofree char *item = g_strdup_printf ("- **%s.** %s", hob_hazards[hazard].name, text);

  if (man)
    {
      g_string_append_printf (out, "%s.Sy \"%s.\"\n", hazard > 0 ? ".Pp\n" : "",
                              hob_hazards[hazard].name);
      append_sentences (out, text);
    }
  else
    append_wrapped (out, item, 2);
}

static void
check_place (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, places[i].file, NULL), *text = NULL,
                  *there = NULL;
  g_autoptr (GString) wanted = g_string_new (places[i].man ? "" : "\n");
  const char *from, *to;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  from = strstr (text, places[i].heading);
  g_assert_nonnull (from);
  from += strlen (places[i].heading);
  to = places[i].end != NULL ? strstr (from, places[i].end) : from + strlen (from);
  g_assert_nonnull (to);
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    append_caution (wanted, h, places[i].man);
  there = g_strndup (from, (gsize) (to - from));
  if (update && !g_str_equal (there, wanted->str))
    {
      g_autofree char *before = g_strndup (text, (gsize) (from - text));
      g_autofree char *all = g_strconcat (before, wanted->str, to, NULL);

      g_assert_true (g_file_set_contents (file, all, -1, NULL));
    }
  else
    g_assert_cmpstr (there, ==, wanted->str);
}

int
main (int argc, char **argv)
{
  update = argc > 1 && g_str_equal (argv[1], "--update");
  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autofree char *path = g_strdup_printf ("/cautions/%s", places[i].file);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), check_place);
    }
  return g_test_run ();
}
