/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What every command begins with: the range, the case, a run with someone who watches it. */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/plain.h"
#include "base/write-file.h"
#include "run/case-file.h"

#include <stdio.h>
#include <string.h>

/* Prints the first @n findings, in line order. */
static void
print_findings (const GPtrArray *findings, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *text = hob_finding_text (findings->pdata[i]), *plain = hob_plain_text (text);

      fprintf (stderr, "%s\n", plain);
    }
}

/* What the command opened: a pipe cannot be read again when its case is asked for. */
static HobCaseFile *opened;

HobRange *
hob_cli_load (const char *word, GError **error)
{
  g_autofree char *file = hob_range_locate (word);
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) wrong = NULL;

  hob_case_file_free (opened);
  opened = hob_case_load (file, findings, &wrong);
  if (!g_error_matches (wrong, HOB_ERROR, HOB_ERROR_FINDING) || findings->len == 0)
    {
      print_findings (findings, findings->len);
      if (wrong != NULL)
        g_propagate_error (error, g_steal_pointer (&wrong));
      return opened != NULL ? hob_range_ref (opened->range) : NULL;
    }
  /* All are in the list. The caller reports the last one, so each is reported once, in order. */
  print_findings (findings, findings->len - 1);
  {
    g_autofree char *last = hob_finding_text (findings->pdata[findings->len - 1]);

    g_set_error_literal (error, HOB_ERROR, HOB_ERROR_FINDING, last);
  }
  return NULL;
}

/* Nobody wants the case overwritten by what it gives. */
static gboolean
may_replace_case (const HobRange *range, const HobArgs *args, GError **error)
{
  static const HobOption outputs[] = { HOB_OPTION_OUTPUT, HOB_OPTION_EVENTS };
  g_autofree char *file = hob_range_locate (args->words->pdata[0]);

  for (guint i = 0; i < G_N_ELEMENTS (outputs); i++)
    {
      const char *out = hob_args_get (args, outputs[i]);

      if (out == NULL || g_str_equal (file, range->file) || !hob_same_file (file, out))
        continue;
      g_set_error (error, HOB_ERROR, HOB_ERROR_OUTPUT,
                   _ ("%s is the case file itself; write to another file"), out);
      return FALSE;
    }
  return TRUE;
}

static gboolean
has_controls (const HobCase *c)
{
  for (guint i = 0; i < c->acts->len; i++)
    if (g_array_index (c->acts, HobAct, i).what == HOB_ACT_CONTROL)
      return TRUE;
  return FALSE;
}

const GPtrArray *
hob_cli_evidence (const HobRange *range, HobEvidenceWhat what)
{
  return opened != NULL && opened->range == range ? opened->evidence[what] : NULL;
}

HobCase *
hob_cli_case (const HobRange *range, const HobArgs *args, double *until, GError **error)
{
  g_autoptr (HobCase) c = opened != NULL && opened->range == range ? hob_case_copy (opened->acts)
                                                                  : hob_case_new (range);
  const char *procedure = hob_args_get (args, HOB_OPTION_PROCEDURE);

  if (!may_replace_case (range, args, error))
    return NULL;
  if (procedure != NULL && (has_controls (c) || hob_case_options_have_acts (args->of_case)))
    {
      g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                           _ ("--procedure and --do can't be used together; leave one out"));
      return NULL;
    }
  if (!hob_case_options_apply (args->of_case, c, error))
    return NULL;
  if (procedure != NULL && !hob_procedure_add (c, procedure, until, error))
    return NULL;
  if (!hob_case_allowed ((HobRange *) range, c, error))
    return NULL;
  return g_steal_pointer (&c);
}

static void
clear_traced (gpointer item)
{
  g_free (((HobTraced *) item)->name);
}

GArray *
hob_cli_traces (const HobRange *range, const char *list, GError **error)
{
  g_autoptr (GArray) traces = g_array_new (FALSE, TRUE, sizeof (HobTraced));
  g_auto (GStrv) names = g_strsplit (list, ",", -1);

  g_array_set_clear_func (traces, clear_traced);
  if (*list == '\0')
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
                   _ ("--trace '%s' has an empty name; use quantities separated by commas"),
                   list);
      return NULL;
    }
  for (char **n = names; *n != NULL; n++)
    {
      HobTraced traced = { 0 };

      if (*g_strstrip (*n) == '\0')
        {
          g_set_error (
              error, HOB_ERROR, HOB_ERROR_USAGE,
              _ ("--trace '%s' has an empty name; use quantities separated by commas"),
              list);
          return NULL;
        }
      if (!hob_range_find_quantity (range, *n, &traced.part, &traced.quantity, error))
        return NULL;
      traced.name = g_strdup (*n);
      g_array_append_val (traces, traced);
    }
  return g_steal_pointer (&traces);
}
