/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The tables of faults in tests/ say what is so: each row names faults that a shipped range has,
 * once, and why it is there. */

#include "config.h"
#include "shipped.h"

#include <string.h>

/* "KIND:FAULT" of each fault that the range has. (transfer full) */
static GHashTable *
faults_of (const char *range_name)
{
  GHashTable *faults = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autoptr (HobRange) range = shipped_range (range_name);

  for (int p = 0; p < range->n_parts; p++)
    for (int f = 0; f < range->parts[p].kind->n_faults; f++)
      if (hob_range_has_fault (range, p, f))
        g_hash_table_add (faults, g_strdup_printf ("%s:%s", range->parts[p].kind->name,
                                                   range->parts[p].kind->faults[f].id));
  return faults;
}

/* Whether one of the shipped ranges has all of @faults ("KIND:FAULT", NULL-ended). */
static gboolean
some_range_has (GPtrArray *of_ranges, char **faults)
{
  for (guint r = 0; r < of_ranges->len; r++)
    {
      int n = 0;

      while (faults[n] != NULL && g_hash_table_contains (of_ranges->pdata[r], faults[n]))
        n++;
      if (faults[n] == NULL && n > 0)
        return TRUE;
    }
  return FALSE;
}

/* A group that is there twice is one to the reader of such files. */
static guint
n_headings (const char *text)
{
  guint n = g_str_has_prefix (text, "[");

  for (const char *at = text; (at = strstr (at, "\n[")) != NULL; at++)
    n++;
  return n;
}

/* The table, with its groups. */
static GKeyFile *
read_table (const char *file, char ***groups)
{
  g_autofree char *path = g_build_filename (HOB_SOURCE_DIR, "tests", file, NULL), *text = NULL;
  GKeyFile *table = g_key_file_new ();
  gsize n;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_assert_true (g_key_file_load_from_data (table, text, (gsize) -1, G_KEY_FILE_NONE, NULL));
  *groups = g_key_file_get_groups (table, &n);
  g_assert_cmpuint (n, >, 0);
  g_assert_cmpuint (n, ==, n_headings (text));
  return table;
}

static void
each_row_names_faults_that_a_range_has (gconstpointer file)
{
  g_autoptr (GPtrArray) of_ranges
      = g_ptr_array_new_with_free_func ((GDestroyNotify) g_hash_table_unref);
  g_auto (GStrv) groups = NULL;
  g_auto (GStrv) shipped = shipped_ranges ();
  g_autoptr (GKeyFile) table = read_table (file, &groups);

  for (int r = 0; shipped[r] != NULL; r++)
    g_ptr_array_add (of_ranges, faults_of (shipped[r]));
  for (int k = 0; groups[k] != NULL; k++)
    {
      g_auto (GStrv) faults = g_strsplit (groups[k], " ", -1);
      g_autofree char *why = g_key_file_get_string (table, groups[k], "why", NULL);

      if (some_range_has (of_ranges, faults) && why != NULL && *why != '\0')
        continue;
      g_test_message ("%s: [%s]: %s", (const char *) file, groups[k],
                      why == NULL ? "does not say why" : "no shipped range has that");
      g_test_fail ();
    }
}

/* "all", or names of ranges that have the fault. */
static void
ranges_are_those_that_have_the_fault (void)
{
  g_auto (GStrv) groups = NULL, shipped = shipped_ranges ();
  g_autoptr (GKeyFile) table = read_table ("silent-faults.ini", &groups);

  for (int k = 0; groups[k] != NULL; k++)
    {
      g_auto (GStrv) names = g_key_file_get_string_list (table, groups[k], "ranges", NULL, NULL);

      g_assert_nonnull (names);
      for (int r = 0; names[r] != NULL && !g_str_equal (names[r], "all"); r++)
        {
          g_autoptr (GHashTable) faults = NULL;

          g_assert_true (g_strv_contains ((const char *const *) shipped, names[r]));
          faults = faults_of (names[r]);
          if (g_hash_table_contains (faults, groups[k]))
            continue;
          g_test_message ("[%s]: %s has no such fault", groups[k], names[r]);
          g_test_fail ();
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/fault-lists/silent/each-row-names-faults-that-a-range-has",
                        "silent-faults.ini", each_row_names_faults_that_a_range_has);
  g_test_add_data_func ("/fault-lists/neighbors/each-row-names-faults-that-a-range-has",
                        "neighbors.ini", each_row_names_faults_that_a_range_has);
  g_test_add_func ("/fault-lists/silent/ranges-are-those-that-have-the-fault",
                   ranges_are_those_that_have_the_fault);
  return g_test_run ();
}
