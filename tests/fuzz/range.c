/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Any bytes may be given as a range.  Built with clang -fsanitize=fuzzer -DHOB_FUZZER this searches
 * for bytes that break the reader; built plainly it is a test: the files that were found to matter
 * (tests/fuzz/range), the hostile and the shipped ones, and a few thousand seeded damages of them.
 *
 *   test-fuzz-range        the test
 *   fuzz-range FOLDER      the search, new files go to FOLDER */

#include "config.h"

#include "base/errors.h"
#include "base/hash.h"
#include "run/run.h"

#include <glib/gstdio.h>
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

/* Sets each setting that can be set to a plain 1 and reads what then would be saved. */
static void
change_and_read_again (HobRange *range)
{
  g_autofree char *folder = g_dir_make_tmp ("hobXXXXXX", NULL),
                  *file = g_build_filename (folder, "range.xml", NULL);
  g_autoptr (GError) error = NULL;
  guint changed = 0;

  for (int p = 0; p < range->n_parts && changed < 20; p++)
    for (int s = 0; s < range->parts[p].kind->n_settings; s++)
      changed += hob_range_set (range, p, s, "1", NULL);
  if (!hob_range_save (range, file, &error))
    g_error ("%s", error->message);
  g_autoptr (HobRange) again = hob_range_load (file, NULL, &error);
  if (again == NULL)
    g_error ("what was saved cannot be read: %s", error->message);
  for (int p = 0; p < range->n_parts; p++)
    for (int s = 0; s < range->parts[p].kind->n_settings; s++)
      if (range->parts[p].set[s] != again->parts[p].set[s])
        g_error ("%s.%s is not what was saved", range->parts[p].id,
                 range->parts[p].kind->settings[s].name);
  g_remove (file);
  g_rmdir (folder);
}

/* A range that passes runs, or says in one line why it can't. */
static void
run_for_a_moment (HobRange *range)
{
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) nothing = hob_case_new (range);
  g_autoptr (HobRun) run = hob_run_new (plan, nothing, NULL);
  g_autoptr (GError) error = NULL;

  if (hob_run_advance (run, 0.2, &error) == HOB_RUN_OK)
    return;
  if (error == NULL || strpbrk (error->message, "\n\r") != NULL)
    g_error ("no sentence: %s", error != NULL ? error->message : "nothing");
}

static void
check_finding (const HobFinding *finding, int lines)
{
  if (finding->line < 1 || finding->line > lines)
    g_error ("line %d of %d: %s", finding->line, lines, finding->text);
  if (strpbrk (finding->text, "\n\r") != NULL || strstr (finding->text, "; ") == NULL
      || !g_utf8_validate (finding->text, -1, NULL))
    g_error ("no sentence: %s", finding->text);
  if (finding->warning != g_str_has_prefix (finding->text, "warning:"))
    g_error ("warning or not: %s", finding->text);
}

static int
count_lines (const uint8_t *data, size_t size)
{
  int lines = 1;

  for (size_t i = 0; i < size; i++)
    lines += data[i] == '\n';
  return lines;
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) error = NULL;
  g_autofree char *copy = g_malloc (size + 1); /* where reading past the end is seen */
  int lines = count_lines (data, size);

  memcpy (copy, data, size);
  g_autoptr (HobRange) range = hob_range_load_memory (copy, size, "fuzz.xml", findings, &error);

  if ((range == NULL) != (error != NULL))
    g_error ("neither a range nor an error, or both");
  if (error != NULL && !g_str_has_prefix (error->message, "fuzz.xml:"))
    g_error ("no file: %s", error->message);
  for (guint i = 0; i < findings->len; i++)
    {
      check_finding (findings->pdata[i], lines);
      if (i > 0
          && ((HobFinding *) findings->pdata[i - 1])->line
                 > ((HobFinding *) findings->pdata[i])->line)
        g_error ("findings are out of order");
    }
  if (range != NULL)
    {
      run_for_a_moment (range);
      change_and_read_again (range);
    }
  return 0;
}

#ifndef HOB_FUZZER

/* ---- The test ---- */

#include "damage.h"

static const char *const bits[] = {
  "<", ">", "\"", "'", "/>", "<!--", "-->", "<![CDATA[", "]]>", "<?", "&lt;", "&#0;", "=", ".",
  "<part id=\"", "<set name=\"", "\xff", "\xc3", "1e999", "-", "\n", "</part>", "xmlns=\"x\"",
};

static void
nothing_breaks_on_files_of (gconstpointer folder)
{
  try_files_of (folder, 100, bits, G_N_ELEMENTS (bits), 12);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/fuzz/range/hostile files", "tests/hostile", nothing_breaks_on_files_of);
  g_test_add_data_func ("/fuzz/range/shipped files", "diagrams", nothing_breaks_on_files_of);
  g_test_add_data_func ("/fuzz/range/files that were found", "tests/fuzz/range",
                        nothing_breaks_on_files_of);
  return g_test_run ();
}

#endif
