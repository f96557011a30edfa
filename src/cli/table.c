/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What every fault of a range shows in every procedure. */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "reason/table.h"

static void
append_row (GString *out, const HobRange *range, const HobSymptomBook *book,
            const HobFaultTable *table, const HobTableRow *row)
{
  const HobHypothesis *h = &g_array_index (table->hypotheses, HobHypothesis, row->hypothesis);
  g_autofree char *fault = hob_hypothesis_text (range, h), *severity = hob_hypothesis_severity (h);
  const char *symptom = row->symptom >= 0 ? hob_symptom_book_get (book, row->symptom)->id
                        : row->symptom == HOB_TABLE_IMPOSSIBLE ? "impossible" : "";

  hob_csv_text (out, fault, TRUE);
  hob_csv_text (out, severity, FALSE);
  hob_csv_text (out, row->procedure >= 0 ? table->procedures[row->procedure] : "", FALSE);
  hob_csv_text (out, symptom, FALSE);
  hob_csv_number (out, row->first, FALSE);
  g_string_append_c (out, '\n');
}

int
hob_command_table (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "table", error);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobBench) idle = NULL;
  g_autoptr (GArray) hypotheses = NULL;
  g_autoptr (HobFaultTable) table = NULL;
  HobTableWork work = { .cache = TRUE };
  HobOutput *output;

  if (args == NULL || !hob_args_words (args, 1, 1, "table RANGE [--pairs]", error))
    return 2;
  range = hob_cli_load (g_ptr_array_index (args->words, 0), error);
  if (range == NULL || (idle = hob_bench_new (NULL, range, NULL, error)) == NULL)
    return 1;
  hypotheses = hob_args_has (args, HOB_OPTION_PAIRS) ? hob_hypotheses_pairs (range)
                                                     : hob_hypotheses_single (range);
  work.progress = hob_cli_progress ();
  table = hob_fault_table_new (idle, hypotheses, &work);
  output = hob_output_stdout ();
  g_string_append (hob_output_text (output), "fault,severity,procedure,symptom,first_s\n");
  for (guint k = 0; k < table->rows->len; k++)
    {
      append_row (hob_output_text (output), range, idle->book, table,
                  &g_array_index (table->rows, HobTableRow, k));
      if (!hob_output_flush (output))
        break;
    }
  hob_output_close (output, error);
  return 0;
}
