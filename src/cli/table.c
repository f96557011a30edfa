/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What every fault of a range shows in every procedure: rows of text. */
#include "cli/table.h"

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

static gboolean
print (const HobRange *range, const HobSymptomBook *book, const HobFaultTable *table,
       GError **error)
{
  HobOutput *output = hob_output_stdout ();

  g_string_append (hob_output_text (output), "fault,severity,procedure,symptom,first_s\n");
  for (guint k = 0; k < table->rows->len; k++)
    {
      append_row (hob_output_text (output), range, book, table,
                  &g_array_index (table->rows, HobTableRow, k));
      if (!hob_output_flush (output))
        break;
    }
  return hob_output_close (output, error);
}

/* ---- The command ---- */

HobFaultTable *
hob_table_make (const HobBench *idle, gboolean pairs)
{
  const HobRange *range = hob_bench_range (idle);
  g_autoptr (GArray) hypotheses
      = pairs ? hob_hypotheses_pairs (range) : hob_hypotheses_single (range);
  HobTableWork work = { .cache = TRUE, .progress = hob_cli_progress () };

  return hob_fault_table_new (idle, hypotheses, &work);
}

int
hob_command_table (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "table", error);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobBench) idle = NULL;
  g_autoptr (HobFaultTable) table = NULL;

  if (args == NULL
      || !hob_args_words (args, 1, 1, "table RANGE [--pairs | -o FILE]", error))
    return 2;
  if (hob_args_has (args, HOB_OPTION_OUTPUT))
    return hob_table_draw (words, args, error);
  range = hob_cli_load (g_ptr_array_index (args->words, 0), error);
  if (range == NULL || (idle = hob_bench_new (NULL, range, NULL, error)) == NULL)
    return 1;
  table = hob_table_make (idle, hob_args_has (args, HOB_OPTION_PAIRS));
  print (range, idle->book, table, error);
  return 0;
}
