/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "shipped.h"

#include "case-words.h"

#include "config.h"

#include <string.h>

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

char *
shipped_range_text (const char *name)
{
  g_autofree char *file = hob_range_locate (name);
  char *text = NULL;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return text;
}

/* Those that HOB_RANGES names, if it is set: a sweep of one range can be repeated alone. */
static gboolean
is_asked_for (const char *name)
{
  g_auto (GStrv) asked = g_strsplit (g_getenv ("HOB_RANGES") != NULL ? g_getenv ("HOB_RANGES") : "",
                                     " ", -1);

  return asked[0] == NULL || g_strv_contains ((const char *const *) asked, name);
}

char **
shipped_ranges (void)
{
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "diagrams", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  GPtrArray *names = g_ptr_array_new ();
  const char *entry;

  g_assert_nonnull (dir);
  while ((entry = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (entry, ".xml"))
      {
        g_autofree char *name = g_strndup (entry, strlen (entry) - 4),
                        *text = shipped_range_text (name);

        if (strstr (text, "<range ") != NULL)
          g_ptr_array_add (names, g_steal_pointer (&name));
      }
  g_assert_cmpuint (names->len, >=, 4);
  for (guint k = names->len; k-- > 0;)
    if (!is_asked_for (names->pdata[k]))
      g_free (g_ptr_array_remove_index (names, k));
  g_ptr_array_sort (names, by_name);
  g_ptr_array_add (names, NULL);
  return (char **) g_ptr_array_free (names, FALSE);
}

HobRange *
shipped_range (const char *name)
{
  g_autofree char *file = hob_range_locate (name);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

/* ---- What they show ---- */

char *
symptoms_of (const HobBench *idle, const HobCase *acts, double until)
{
  return symptoms_and_hazards_of (idle, acts, until, NULL);
}

char *
symptoms_and_hazards_of (const HobBench *idle, const HobCase *acts, double until,
                         HobHazards *hazards)
{
  g_autoptr (HobBench) bench = hob_bench_again (idle, acts);
  const HobRun *run = bench->run;
  g_autoptr (GError) error = NULL;
  GString *out = g_string_new (NULL);
  guint first, n;

  hob_bench_advance (bench, until, &error);
  g_assert_no_error (error);
  if (hazards != NULL)
    *hazards = hob_hazards_up_to (bench->book, run, until);
  n = hob_run_events (run, -1, until, &first);
  for (guint k = first; k < first + n; k++)
    if (hob_run_event (run, k)->what == HOB_EVENT_SYMPTOM)
      {
        g_string_append_printf (
            out, "%s ", hob_symptom_book_get (bench->book, hob_run_event (run, k)->index)->id);
        hob_append_number (out, hob_run_event (run, k)->t);
        g_string_append_c (out, '\n');
      }
  return g_string_free (out, FALSE);
}

HobCase *
case_of (const HobRange *range, const char *procedure, const char *const *words, double *until)
{
  HobCase *c = hob_case_new (range);
  g_autoptr (GError) error = NULL;

  case_add_all (c, words);
  hob_procedure_add (c, procedure, until, &error);
  g_assert_no_error (error);
  return c;
}

gboolean
full_sweep (void)
{
  return g_getenv ("HOB_FULL") != NULL;
}

/* ---- Faults that show nothing ---- */

GKeyFile *
silent_faults (void)
{
  g_autofree char *name = g_build_filename (HOB_SOURCE_DIR, "tests", "silent-faults.ini", NULL);
  GKeyFile *faults = g_key_file_new ();
  g_autoptr (GError) error = NULL;

  g_key_file_load_from_file (faults, name, G_KEY_FILE_NONE, &error);
  g_assert_no_error (error);
  return faults;
}

gboolean
silent_fault_in (GKeyFile *faults, const char *fault, const char *range)
{
  g_auto (GStrv) ranges = g_key_file_get_string_list (faults, fault, "ranges", NULL, NULL);
  const char *const *names = (const char *const *) ranges;

  return names != NULL && (g_strv_contains (names, "all") || g_strv_contains (names, range));
}
