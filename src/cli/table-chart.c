/* SPDX-License-Identifier: GPL-3.0-or-later */

/* hob table -o: what every fault of a range shows, as a chart to print. */
#include "cli/table.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "sheet/fault-chart.h"
#include "sheet/legend.h"

/* What the table says, as the chart takes it. */
typedef struct
{
  const HobRange *range;
  const HobSymptomBook *book;
  const HobFaultTable *table;
  /*< owned >*/
  HobFaultChartColumn *columns;
  GPtrArray *heads; /* char *: the words of the columns */
  HobFaultChartRow *rows;
  gboolean *cells; /* [row·columns + column] */
  int *column_of;  /* of each symptom; −1: nothing shows it */
  int n_columns;
  HobHazards hazards;
} Chart;

/* A column for each symptom that anything shows, in the order of the book. */
static void
take_columns (Chart *c)
{
  int n = hob_symptom_book_size (c->book);
  g_autofree gboolean *shown = g_new0 (gboolean, n);

  c->columns = g_new (HobFaultChartColumn, n);
  c->column_of = g_new (int, n);
  for (guint k = 0; k < c->table->rows->len; k++)
    {
      int symptom = g_array_index (c->table->rows, HobTableRow, k).symptom;

      if (symptom >= 0)
        shown[symptom] = TRUE;
    }
  for (int s = 0; s < n; s++)
    {
      const HobSymptom *symptom = hob_symptom_book_get (c->book, s);
      char *words;

      c->column_of[s] = shown[s] ? c->n_columns : -1;
      if (!shown[s])
        continue;
      words = hob_symptom_words (symptom, NULL);
      g_ptr_array_add (c->heads, words);
      c->columns[c->n_columns++] = (HobFaultChartColumn){ words, symptom->hazards };
      c->hazards |= symptom->hazards;
    }
}

static void
take_rows (Chart *c)
{
  gsize n = c->table->hypotheses->len, width = (gsize) c->n_columns;

  c->rows = g_new (HobFaultChartRow, n + 1);
  c->cells = g_new0 (gboolean, n * width + 1);
  for (gsize k = 0; k < n; k++)
    {
      const HobHypothesis *h = &g_array_index (c->table->hypotheses, HobHypothesis, k);
      const HobPart *part = &c->range->parts[h->part[0]];

      c->rows[k] = (HobFaultChartRow){ hob_part_label (part),
                                       _ (part->kind->faults[h->fault[0]].words),
                                       c->cells + k * width, NULL };
    }
  for (guint k = 0; k < c->table->rows->len; k++)
    {
      const HobTableRow *row = &g_array_index (c->table->rows, HobTableRow, k);

      if (row->symptom >= 0)
        c->cells[(gsize) row->hypothesis * width + (gsize) c->column_of[row->symptom]] = TRUE;
      else
        c->rows[row->hypothesis].note = row->symptom == HOB_TABLE_SILENT
                                            /* Translators: beside a fault, in a chart of faults and
                                             * symptoms. */
                                            ? _ ("no symptoms in any routine")
                                            /* Translators: beside a fault, in a chart of faults and
                                             * symptoms. */
                                            : _ ("can't be simulated to the end");
    }
}

static gboolean
draw (Chart *c, const char *file, GError **error)
{
  const HobLook look = { HOB_THEME_PRINT, 1, 1, HOB_PAGE_PICTURE };
  g_autofree char *routines = g_strjoinv (", ", c->table->procedures);
  /* Translators: heading of how the faults of a chart were tested. */
  HobFact facts[] = { { _ ("How each fault was tested"),
                        /* Translators: after "How each fault was tested:". */
                        (char *) _ ("alone, at its typical severity") },
                      { _ ("Routines"), routines } };
  g_autoptr (GArray) list = g_array_new (FALSE, FALSE, sizeof (HobFact));
  HobFacts all = { c->range, list, 0 };
  HobTitleBlock block = { &all, &look, HOB_TABLE_PICTURE, NULL, NULL };
  HobFaultChart chart = { 0 };

  take_columns (c);
  take_rows (c);
  g_array_append_vals (list, facts, G_N_ELEMENTS (facts));
  all.now = c->hazards;
  chart = (HobFaultChart){ c->rows, (int) c->table->hypotheses->len, c->columns, c->n_columns };
  return hob_fault_chart_write (file, &chart, &block, error);
}

static gboolean
draw_table (const HobRange *range, const HobSymptomBook *book, const HobFaultTable *table,
            const char *file, GError **error)
{
  g_autoptr (GPtrArray) heads = g_ptr_array_new_with_free_func (g_free);
  Chart c = { .range = range, .book = book, .table = table, .heads = heads };
  gboolean good = draw (&c, file, error);

  g_free (c.columns);
  g_free (c.rows);
  g_free (c.cells);
  g_free (c.column_of);
  return good;
}

/* ---- The command ---- */

/* Thousands of pairs are no page. */
static gboolean
may_draw (const HobArgs *args, const HobRange *range, GError **error)
{
  const char *file = hob_args_get (args, HOB_OPTION_OUTPUT);

  if (!hob_cli_may_draw (file, error))
    return FALSE;
  if (!hob_args_has (args, HOB_OPTION_PAIRS))
    return hob_output_may_replace (range, file, error);
  g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                       _ ("--pairs and -o can't be used together; leave one out"));
  return FALSE;
}

int
hob_table_draw (char **words, const HobArgs *args, GError **error)
{
  g_autoptr (HobRange) range = hob_cli_load (g_ptr_array_index (args->words, 0), error);
  g_autoptr (HobBench) idle = NULL;
  g_autoptr (HobFaultTable) table = NULL;

  if (range == NULL || !may_draw (args, range, error)
      || (idle = hob_bench_new (NULL, range, NULL, error)) == NULL)
    return 1;
  table = hob_table_make (idle, FALSE);
  draw_table (range, idle->book, table, hob_args_get (args, HOB_OPTION_OUTPUT), error);
  return 0;
}
