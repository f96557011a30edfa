/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "symptoms/look.h"

#include <math.h>
#include <stdio.h>

/* One answer as it is printed. */
typedef struct
{
  HobTest *test;     /* owned */
  HobReading reading;
  HobHazards now;     /* that hold while it is read */
} Answer;

static gboolean
take (const HobBench *idle, const HobCase *base, Answer *answer, GError **error)
{
  double t;
  g_autoptr (HobCase) acts = hob_test_case (answer->test, base, &t);
  g_autoptr (HobBench) bench = hob_bench_again (idle, acts);

  if (hob_run_advance (bench->run, t, error) != HOB_RUN_OK)
    return FALSE;
  answer->now = hob_hazards_at (bench->book, bench->run, t);
  if (answer->test->what == HOB_TEST_LOOK)
    return hob_look (bench, answer->test, t, &answer->reading, error);
  answer->reading = hob_reading_take (bench->run, answer->test, t);
  answer->now |= answer->reading.hazards;
  return TRUE;
}

/* What was looked for and not read; NULL: an instrument was read. */
static const char *
seen_word (const Answer *a)
{
  return !hob_test_is_seen (a->test) ? NULL
         : !a->reading.answered      ? ""
         : a->reading.value > 0      ? "seen"
                                     : "not-seen";
}

static void
append_row (GString *out, const HobRange *range, const Answer *a, HobUnits units)
{
  HobDimension dim = hob_test_dimension (a->test);
  g_autofree char *test = hob_test_text (range, a->test);
  const char *seen = seen_word (a);

  hob_csv_text (out, test, TRUE);
  if (seen != NULL)
    hob_csv_text (out, seen, FALSE);
  else
    hob_csv_number (out, hob_convert (a->reading.value, dim, units), FALSE);
  hob_csv_text (out, seen != NULL ? "" : hob_unit_sign (dim, units), FALSE);
  hob_csv_text (out, a->reading.note != NULL ? a->reading.note : "", FALSE);
  g_string_append_c (out, '\n');
}

static void
append_line (GString *out, const HobRange *range, const Answer *a, HobUnits units)
{
  const char *seen = seen_word (a);
  g_autofree char *test = hob_test_text (range, a->test);
  g_autofree char *figure
      = hob_figure_text (hob_test_resolved (a->test, a->reading.value),
                         hob_test_dimension (a->test), units, 4);

  if (!a->reading.answered)
    return;
  g_string_append_printf (out, "%s = %s", test,
                          seen != NULL               ? seen
                          : isnan (a->reading.value) ? a->reading.note
                                                     : figure);
  if (a->reading.ghost)
    g_string_append_printf (out, " (%s)", _ (a->reading.note));
  g_string_append_c (out, '\n');
}

/* A question without an answer is an error that says why; its row in a table stays, empty.  FALSE:
 * no answer. */
static gboolean
print_answer (HobOutput *output, const HobRange *range, const Answer *a, gboolean csv,
              HobUnits units)
{
  g_autofree char *test = hob_test_text (range, a->test);

  if (csv)
    append_row (hob_output_text (output), range, a, units);
  else
    append_line (hob_output_text (output), range, a, units);
  if (!a->reading.answered)
    fprintf (stderr, "%s: %s\n", test, _(a->reading.note));
  return a->reading.answered;
}

/* Reads one test; adds its hazards, and those that hold while it is read, to what the page has. */
static gboolean
answer_one (const HobBench *idle, const HobCase *base, Answer *answer, HobHazards *now,
            HobHazards *described, GError **error)
{
  if (answer->test == NULL || !take (idle, base, answer, error))
    return FALSE;
  *now |= answer->now;
  *described |= hob_test_hazards (hob_bench_range (idle), answer->test);
  return TRUE;
}

static int
answer_all (const HobArgs *args, HobRange *range, const HobCase *base, HobUnits units,
            GError **error)
{
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, error);
  g_autoptr (HobOutput) output = hob_output_stdout ();
  g_autofree char *cautions = NULL;
  gboolean csv = hob_args_has (args, HOB_OPTION_CSV);
  guint answered = 0;
  HobHazards now = 0, described = 0;
  int status = 0;

  if (csv)
    g_string_append (hob_output_text (output), "test,value,unit,note\n");
  for (guint i = 0; i < args->given->len && *error == NULL; i++)
    {
      const HobGiven *given = &g_array_index (args->given, HobGiven, i);
      Answer answer = { 0 };

      if (given->option != HOB_OPTION_TEST)
        continue;
      answer.test = hob_test_parse (range, given->value, error);
      if (answer_one (idle, base, &answer, &now, &described, error))
        {
          answered++;
          if (!print_answer (output, range, &answer, csv, units))
            status = 1;
        }
      hob_test_free (answer.test);
    }
  cautions = hob_cautions_text (now, described);
  if (!csv && hob_output_text (output)->len > 0)
    g_string_prepend (hob_output_text (output), cautions);
  /* What was answered before a test that is wrong stays said. */
  if (answered > 0)
    hob_output_close (g_steal_pointer (&output), *error == NULL ? error : NULL);
  return status;
}

int
hob_command_read (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "read", error);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobCase) base = NULL;
  HobUnits units;
  double until = 0;

  if (args == NULL || !hob_args_words (args, 1, 1, "read RANGE [CASE] --test \"TEST\"", error))
    return 2;
  if (!hob_args_has (args, HOB_OPTION_TEST))
    {
      g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                           _ ("--test is missing; add --test \"TEST\", such as \"amps "
                              "igniter-bake @ 0s oven.mode=bake; 60s\""));
      return 2;
    }
  if (!hob_args_units (args, &units, error)
      || (range = hob_cli_load (args->words->pdata[0], error)) == NULL
      || (base = hob_cli_case (range, args, &until, error)) == NULL)
    return 0;
  if (!hob_args_has (args, HOB_OPTION_CSV) && !hob_args_has (args, HOB_OPTION_UNITS))
    units = HOB_UNITS_TRADE;
  return answer_all (args, range, base, units, error);
}
