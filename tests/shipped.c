/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "shipped.h"

#include "config.h"

#include <string.h>

#define HEADING "## Faults that show nothing"

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
        g_autofree char *name = g_strndup (entry, strlen (entry) - 4), *text = shipped_range_text (name);

        if (strstr (text, "<range ") != NULL)
          g_ptr_array_add (names, g_steal_pointer (&name));
      }
  g_assert_cmpuint (names->len, >=, 4);
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
symptoms_of (HobPlan *plan, const HobSymptomBook *book, const HobCase *acts, double until)
{
  g_autoptr (HobSymptomWatch) watch = hob_symptom_watch_new (book, plan);
  g_autoptr (HobRun) run = hob_run_new (plan, acts, hob_symptom_watch_get (watch));
  g_autoptr (GError) error = NULL;
  GString *out = g_string_new (NULL);
  guint first, n;

  hob_run_advance (run, until, &error);
  g_assert_no_error (error);
  n = hob_run_events (run, -1, until, &first);
  for (guint k = first; k < first + n; k++)
    if (hob_run_event (run, k)->what == HOB_EVENT_SYMPTOM)
      {
        g_string_append_printf (out, "%s ", hob_symptom_book_get (book, hob_run_event (run, k)->index)->id);
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

  for (int i = 0; words != NULL && words[i] != NULL; i++)
    {
      if (strchr (words[i], ':') != NULL)
        hob_case_fault (c, words[i], &error);
      else
        hob_case_setting (c, words[i], &error);
      g_assert_no_error (error);
    }
  hob_procedure_add (c, procedure, until, &error);
  g_assert_no_error (error);
  return c;
}

/* ---- Faults that show nothing ---- */

static void
clear_silent (gpointer item)
{
  SilentFault *f = item;

  g_free (f->fault);
  g_free (f->ranges);
  g_free (f->why);
  g_free (f->proof);
}

/* "| `a:b` | all | why | how |" */
static void
read_row (GArray *faults, const char *line)
{
  g_auto (GStrv) cells = g_strsplit (line, "|", -1);
  SilentFault f;

  if (g_strv_length (cells) != 6 || strchr (cells[1], '`') == NULL)
    return;
  f.fault = g_strdup (g_strstrip (g_strdelimit (cells[1], "`", ' ')));
  f.ranges = g_strdup (g_strstrip (cells[2]));
  f.why = g_strdup (g_strstrip (cells[3]));
  f.proof = g_strdup (g_strstrip (cells[4]));
  g_array_append_val (faults, f);
}

GArray *
silent_faults (void)
{
  GArray *faults = g_array_new (FALSE, FALSE, sizeof (SilentFault));
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "DEVELOPERS.md", NULL), *text = NULL;
  const char *from, *to;

  g_array_set_clear_func (faults, clear_silent);
  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  from = strstr (text, HEADING);
  g_assert_nonnull (from);
  to = strstr (from + strlen (HEADING), "\n## ");
  {
    g_autofree char *part = to != NULL ? g_strndup (from, (gsize) (to - from)) : g_strdup (from);
    g_auto (GStrv) lines = g_strsplit (part, "\n", -1);

    for (char **l = lines; *l != NULL; l++)
      read_row (faults, *l);
  }
  g_assert_cmpuint (faults->len, >, 0);
  return faults;
}

gboolean
silent_fault_in (const GArray *faults, const char *fault, const char *range)
{
  for (guint i = 0; i < faults->len; i++)
    {
      const SilentFault *f = &g_array_index (faults, SilentFault, i);
      g_auto (GStrv) names = g_strsplit (f->ranges, " ", -1);

      if (g_str_equal (f->fault, fault)
          && (g_str_equal (f->ranges, "all") || g_strv_contains ((const char *const *) names, range)))
        return TRUE;
    }
  return FALSE;
}
