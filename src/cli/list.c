/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Names first on each line, then what they mean; --csv has them in columns. */
#include "cli/cli.h"
#include "run/tests.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/plain.h"
#include "parts/say.h"
#include "parts/severity.h"

#include <math.h>

typedef struct
{
  GString *out;
  gboolean csv;
  HobUnits units; /* SI in CSV, the trade's for people */
  HobHazards described; /* of the confirmations and tests in the list */
} Lister;

static void
head (Lister *l)
{
  if (l->csv)
    g_string_append (l->out, "name,text\n");
}

static void
row (Lister *l, const char *name, const char *text)
{
  if (l->csv)
    {
      hob_csv_text (l->out, name, TRUE);
      hob_csv_text (l->out, text, FALSE);
      g_string_append_c (l->out, '\n');
    }
  else
    {
      g_autofree char *plain = hob_plain_text (text);

      g_string_append_printf (l->out, *plain == '\0' ? "%s%s\n" : "%-28s  %s\n", name, plain);
    }
}

/* Below a row, for people: what else belongs to it. */
static void
below (Lister *l, const char *text)
{
  if (!l->csv)
    g_string_append_printf (l->out, "%-28s    %s\n", "", text);
}

/* A confirmation or a test with its hazards: their names there, their texts before the list. */
static char *
described (Lister *l, const char *text, HobHazards hazards)
{
  g_autofree char *names = hob_hazards_names (hazards);

  l->described |= hazards;
  /* Translators: how a fault is confirmed, and the names of the cautions for it. */
  return *names == '\0' ? g_strdup (text) : g_strdup_printf (_("%s (Caution: %s)"), text, names);
}

static void
list_hazards (Lister *l)
{
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    {
      g_autofree char *text = hob_hazard_text (h, HOB_HAZARD_IF_ANY);
      g_autofree char *named = g_strdup_printf (_("%s: %s"), _(hob_hazards[h].name), text);

      row (l, hob_hazards[h].id, named);
    }
}

static void
list_kinds (Lister *l)
{
  for (int k = 0; hob_kinds[k] != NULL; k++)
    row (l, hob_kinds[k]->name, _(hob_kinds[k]->label));
}

static void
list_symptoms (Lister *l, const HobSymptomBook *book)
{
  for (int s = 0; s < hob_symptom_book_size (book); s++)
    {
      const HobSymptom *symptom = hob_symptom_book_get (book, s);
      g_autofree char *words = hob_symptom_words (symptom, NULL);

      row (l, symptom->id, words);
    }
}

/* "off|light|high|low, 0% to 100%" */
static char *
positions_text (const HobRange *range, const HobControlDef *def)
{
  GString *out = g_string_new (NULL);

  for (const HobPosition *p = def->positions; p != NULL && p->name != NULL; p++)
    g_string_append_printf (out, "%s%s", p > def->positions ? "|" : "", p->name);
  for (int p = 0; p < range->n_parts; p++)
    if (hob_range_control_is_for (range, def, p))
      g_string_append_printf (out, "|%s", range->parts[p].id);
  if (def->dim != HOB_DIM_CHOICE)
    {
      g_autofree char *low = hob_figure_text (def->low, def->dim, HOB_UNITS_TRADE, 3);
      g_autofree char *high = hob_figure_text (def->high, def->dim, HOB_UNITS_TRADE, 3);
      const char *unit = def->dim == HOB_DIM_NUMBER ? "%" : "";

      /* Translators: what a control can be set to: "off, 170 °F to 550 °F". */
      g_string_append_printf (out, _ ("%s%s%s to %s%s"), out->len > 0 ? ", " : "", low, unit, high,
                              unit);
    }
  return g_string_free (out, FALSE);
}

static void
list_controls (Lister *l, const HobRange *range)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_controls; k++)
      {
        const HobControlDef *def = &range->parts[p].kind->controls[k];
        g_autofree char *name = hob_range_control_name (range, p, k),
                        *positions = positions_text (range, def);
        g_autofree char *text = g_strdup_printf ("%s: %s (%s)", hob_part_label (&range->parts[p]),
                                                 _ (def->words), positions);

        row (l, name, text);
      }
}

static void
list_terminals (Lister *l, const HobRange *range)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_terminals; k++)
      {
        const HobTerminalDef *def = &range->parts[p].kind->terminals[k];
        g_autofree char *name = g_strdup_printf ("%s.%s", range->parts[p].id, def->name);
        g_autofree char *text
            = g_strdup_printf ("%s: %s", hob_part_label (&range->parts[p]), _ (def->words));

        row (l, name, text);
      }
}

static void
list_quantities (Lister *l, const HobRange *range)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_quantities; k++)
      {
        const HobQuantityDef *def = &range->parts[p].kind->quantities[k];
        g_autofree char *unit = hob_quantity_unit (def, l->units);
        g_autofree char *name = g_strdup_printf ("%s.%s", range->parts[p].id, def->name);
        g_autofree char *words = hob_quantity_words (def);
        g_autofree char *text
            = g_strdup_printf ("%s: %s%s%s%s", hob_part_label (&range->parts[p]), words,
                               *unit != '\0' ? " (" : "", unit, *unit != '\0' ? ")" : "");

        row (l, name, text);
      }
}

/* What --setting takes, and what the range's file has set.  Conditions are a fault's to change and
 * stay unnamed. */
static void
list_settings (Lister *l, const HobRange *range)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_settings; k++)
      {
        const HobSettingDef *def = &range->parts[p].kind->settings[k];
        double value = range->parts[p].set[k];
        g_autofree char *name = g_strdup_printf ("%s.%s", range->parts[p].id, def->name);
        g_autofree char *now = l->csv && def->choices == NULL
                                   ? hob_figure_text (value, def->dim, l->units, 4)
                                   : hob_setting_entry (def, value);
        g_autofree char *text = g_strdup_printf ("%s: %s (%s)", hob_part_label (&range->parts[p]),
                                                 _ (def->words), now);

        if (!def->condition)
          row (l, name, text);
      }
}

static void
how_to_confirm (Lister *l, const HobKind *kind, const HobFaultDef *def)
{
  g_autofree char *text = described (l, _(def->proof), hob_fault_hazards (kind, def));
  g_autofree char *line = g_strdup_printf (_("How to confirm: %s"), text);

  below (l, line);
}

static void
list_faults (Lister *l, const HobRange *range)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_faults; k++)
      {
        const HobFaultDef *def = &range->parts[p].kind->faults[k];
        g_autofree char *name = g_strdup_printf ("%s:%s", range->parts[p].id, def->id);
        g_autofree char *typical = hob_number_text (hob_fault_typical (def));
        g_autofree char *span = hob_fault_span_text (range->parts[p].kind, def);
        g_autofree char *usual
            = hob_fault_amount_text (range->parts[p].kind, def, hob_fault_typical (def));
        g_autofree char *text = def->severity_words == NULL
                                    ? g_strdup (_ (def->words))
                                    /* Translators: a fault, least to most, and its usual amount. */
                                    : g_strdup_printf (_ ("%s: %s, typically %s (severity %s)"),
                                                       _ (def->words), span, usual, typical);

        if (!hob_range_has_fault (range, p, k))
          continue;
        row (l, name, text);
        how_to_confirm (l, range->parts[p].kind, def);
      }
}

static void
list_each_procedure (Lister *l, const HobRange *range, char *const *names)
{
  for (char *const *n = names; *n != NULL; n++)
    {
      g_autoptr (HobCase) c = hob_case_new (range);
      g_autofree char *length = NULL, *text = NULL;
      double until = 0;

      hob_procedure_add (c, *n, &until, NULL);
      length = hob_time_text (until);
      /* Translators: a routine, and how long it takes: "3 steps in 5 min". */
      text = g_strdup_printf (ngettext ("%u step in %s", "%u steps in %s", c->acts->len),
                              c->acts->len, length);
      row (l, *n, text);
    }
}

static void
list_procedures (Lister *l, const HobRange *range)
{
  g_auto (GStrv) names = hob_procedure_names (range);
  g_auto (GStrv) exchanges = hob_procedure_exchanges (range);

  list_each_procedure (l, range, names);
  list_each_procedure (l, range, exchanges);
}

/* ---- Tests: all that an instrument or an eye could be asked of this range ---- */

/* "Volts across the part, with the range on; 10 min, technicians only" */
static char *
means_text (const HobMeansDef *means)
{
  const char *words = _ (means->words);

  if (means->skill == HOB_SKILL_TECHNICIAN)
    /* Translators: a way to test, and how many minutes it takes. */
    return g_strdup_printf (_ ("%s; %.0f min, technicians only"), words, means->minutes);
  /* Translators: a way to test, and its minutes. */
  return g_strdup_printf (_ ("%s; %.0f min"), words, means->minutes);
}

static void
list_test (Lister *l, const HobRange *range, const HobListedTest *listed)
{
  g_autofree char *text = hob_test_text (range, listed->test);
  g_autofree char *how = means_text (listed->means);
  g_autofree char *means = described (l, how, listed->hazards);

  row (l, text, l->csv ? "" : means);
}

static void
list_tests (Lister *l, const HobRange *range, const HobSymptomBook *book)
{
  g_autoptr (GPtrArray) looks = g_ptr_array_new (), tests = NULL;

  for (int s = 0; s < hob_symptom_book_size (book); s++)
    if (hob_symptom_book_may_show (book, s, range))
      g_ptr_array_add (looks, (gpointer) hob_symptom_book_get (book, s)->id);
  g_ptr_array_add (looks, NULL);
  tests = hob_tests_of (range, (const char *const *) looks->pdata);
  for (guint k = 0; k < tests->len; k++)
    list_test (l, range, tests->pdata[k]);
}

/* ---- The command ---- */

static const char usage[] = "list kinds|symptoms|hazards, or hob list RANGE "
                            "[controls|terminals|quantities|settings|faults|"
                            "procedures|tests]";

static const struct
{
  const char *name;
  void (*list) (Lister *l, const HobRange *range);
} lists[] = {
  { "controls", list_controls }, { "terminals", list_terminals }, { "quantities", list_quantities },
  { "settings", list_settings }, { "faults", list_faults },       { "procedures", list_procedures },
};

static void
cautions_first (Lister *l, const HobRange *range)
{
  HobHazards lp = range->plate == HOB_FUEL_LP ? HOB_HAZARD_IF_LP : 0;
  g_autofree char *cautions = hob_cautions_text (0, l->described | lp);

  if (!l->csv)
    g_string_prepend (l->out, cautions);
}

static gboolean
list_of_range (Lister *l, const HobArgs *args, const HobSymptomBook *book, GError **error)
{
  const char *what = args->words->pdata[1];
  const char *names[] = { "controls", "terminals",  "quantities", "settings",
                          "faults",   "procedures", "tests",      NULL };
  g_autoptr (HobRange) range = NULL;
  const char *near;

  if (!g_strv_contains (names, what))
    {
      near = hob_near_miss (what, names);
      g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
                   near != NULL ? _ ("unknown list '%s'; did you mean "
                                     "'%s'?")
                                : _ ("unknown list '%s'; use: hob %s"),
                   what, near != NULL ? near : usage);
      return FALSE;
    }
  range = hob_cli_load (args->words->pdata[0], error);
  if (range == NULL)
    return FALSE;
  head (l);
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    if (g_str_equal (lists[i].name, what))
      lists[i].list (l, range);
  if (g_str_equal (what, "tests"))
    list_tests (l, range, book);
  cautions_first (l, range);
  return TRUE;
}

/* What it is called and what it teaches. */
static gboolean
list_range (Lister *l, const char *word, GError **error)
{
  g_autoptr (HobRange) range = hob_cli_load (word, error);

  if (range == NULL)
    return FALSE;
  head (l);
  row (l, range->id, hob_range_name (range));
  if (l->csv)
    row (l, "note", hob_range_note (range));
  else
    g_string_append_printf (l->out, "\n%s\n", hob_range_note (range));
  return TRUE;
}

static gboolean
list_in_general (Lister *l, const char *what, const HobSymptomBook *book, GError **error)
{
  if (g_str_equal (what, "kinds"))
    {
      head (l);
      list_kinds (l);
      return TRUE;
    }
  if (g_str_equal (what, "symptoms"))
    {
      head (l);
      list_symptoms (l, book);
      return TRUE;
    }
  if (g_str_equal (what, "hazards"))
    {
      head (l);
      list_hazards (l);
      return TRUE;
    }
  return list_range (l, what, error);
}

int
hob_command_list (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "list", error);
  g_autoptr (HobSymptomBook) book = NULL;
  g_autoptr (HobOutput) output = NULL;
  Lister l;

  if (args == NULL || !hob_args_words (args, 1, 2, usage, error))
    return 2;
  book = hob_symptom_book_load (NULL, error);
  if (book == NULL)
    return 2;
  output = hob_output_stdout ();
  l = (Lister){ .out = hob_output_text (output), .csv = hob_args_has (args, HOB_OPTION_CSV) };
  l.units = l.csv ? HOB_UNITS_SI : HOB_UNITS_TRADE;
  if (args->words->len == 1 ? !list_in_general (&l, args->words->pdata[0], book, error)
                            : !list_of_range (&l, args, book, error))
    return 0;
  hob_output_close (g_steal_pointer (&output), error);
  return 0;
}
