/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From what was seen and read to what may be wrong, and to the next test. */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "parts/severity.h"
#include "reason/suspects.h"

#include <math.h>

#define SHOWN 0.0005   /* probability from which a suspect has a row … */
#define TOLD 0.01      /* … or a paragraph */
#define MOST_TOLD 6
#define SPEAKS 1.25    /* times as probable as on a normal range: it speaks for or against */

/* As HobDanger. */
static const char *const dangers[] = { "none", "hot", "live", "gas" };

static const struct
{
  guint bit;
  const char *words;
} safes[] = {
  { HOB_SAFE_UNPLUGGED, N_ ("    First unplug the range and verify it's dead.\n") },
  { HOB_SAFE_COLD, N_ ("    First let hot parts cool.\n") },
  { HOB_SAFE_GAS_OFF, N_ ("    First close the gas shutoff valve.\n") },
};

/* ---- For spreadsheets ---- */

static HobHypothesis
hypothesis_of (const HobSuspect *s)
{
  return (HobHypothesis){ { s->part, s->part2 }, { s->fault, s->fault2 },
                          { s->severity.middle, s->severity2 } };
}

static void
append_suspect_row (GString *out, const HobRange *range, const HobSuspect *s)
{
  HobHypothesis h = hypothesis_of (s);
  g_autofree char *id = s->what == HOB_SUSPECT_NORMAL ? g_strdup ("nothing-wrong")
                        : s->what == HOB_SUSPECT_NOT_LISTED
                            ? g_strdup ("not-on-my-list")
                            : hob_hypothesis_text (range, &h);
  g_autofree char *severity
      = s->what == HOB_SUSPECT_FAULT ? hob_hypothesis_severity (&h) : g_strdup ("");

  hob_csv_text (out, "suspect", TRUE);
  hob_csv_text (out, id, FALSE);
  hob_csv_text (out, severity, FALSE);
  hob_csv_number (out, s->p, FALSE);
  g_string_append (out, ",\n");
}

static void
append_test_row (GString *out, const HobRange *range, const HobOffer *offer)
{
  g_autofree char *test = hob_test_text (range, offer->test);

  hob_csv_text (out, "test", TRUE);
  hob_csv_text (out, test, FALSE);
  hob_csv_number (out, offer->minutes, FALSE);
  hob_csv_text (out, dangers[offer->means->danger], FALSE);
  hob_csv_number (out, offer->bits, FALSE);
  g_string_append_c (out, '\n');
}

static void
append_csv (GString *out, const HobRange *range, const HobSuspects *all)
{
  g_string_append (out, "row,id,amount,weight,bits\n");
  for (int h = hob_hazards_next (all->stop, -1); h >= 0; h = hob_hazards_next (all->stop, h))
    g_string_append_printf (out, "stop,%s,,,\n", hob_hazards[h].id);
  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      if (s->p >= SHOWN || s->what != HOB_SUSPECT_FAULT)
        append_suspect_row (out, range, s);
    }
  for (guint k = 0; k < all->offers->len; k++)
    append_test_row (out, range, all->offers->pdata[k]);
}

/* ---- For people ---- */

static const HobSuspect *
normal_of (const HobSuspects *all)
{
  for (guint k = 0; k < all->suspects->len; k++)
    if (((HobSuspect *) all->suspects->pdata[k])->what == HOB_SUSPECT_NORMAL)
      return all->suspects->pdata[k];
  g_assert_not_reached ();
}

static char *
answer_text (const HobClue *clue, double value)
{
  if (isinf (value))
    return g_strdup ("OL");
  if (isnan (value))
    return g_strdup ("?");
  return clue->symptom >= 0
             ? g_strdup_printf ("%.0f%%", 100 * value)
             : hob_figure_text (value, hob_test_dimension (clue->test), HOB_UNITS_TRADE, 3);
}

/* A symptom in its words, a test as it is written on the command line. (transfer full) */
static char *
clue_text (const HobBench *idle, const HobClue *clue)
{
  const HobRange *range = hob_bench_range (idle);
  const char *words;

  if (clue->symptom < 0)
    return hob_test_text (range, clue->test);
  words = hob_symptom_book_get (idle->book, clue->symptom)->technician;
  if (clue->test->part < 0)
    return g_strdup (words);
  return g_strdup_printf (_ ("%s: %s"), hob_part_label (&range->parts[clue->test->part]), words);
}

/* What a clue says of a suspect, with what it and a normal range would show. */
static void
append_reason (GString *out, const HobBench *idle, const HobClue *clue, const HobSuspect *s,
               const HobSuspect *normal, guint k)
{
  double ratio = s->likelihood[k] / normal->likelihood[k];
  const char *sign = ratio > SPEAKS       ? _ ("Evidence for it")
                     : ratio * SPEAKS < 1 ? _ ("Evidence against it")
                                          : _ ("Neither for nor against it");
  g_autofree char *said = clue_text (idle, clue);
  g_autofree char *with = answer_text (clue, s->expected[k]);
  g_autofree char *without = answer_text (clue, normal->expected[k]);
  g_autofree char *value = answer_text (clue, clue->value);

  if (clue->symptom < 0)
    g_string_append_printf (
        out, _ ("    %s: %s reads %s. With this fault it reads %s; normal is %s.\n"), sign, said,
        value, with, without);
  else
    g_string_append_printf (
        out,
        clue->seen == HOB_SEEN
            ? _ ("    %s: %s, seen. Chance of seeing it: %s with this fault, %s without it.\n")
            : _ ("    %s: %s, not seen. Chance of seeing it: %s with this fault, %s without it.\n"),
        sign, said, with, without);
}

static char *
pair_name (const HobRange *range, const HobSuspect *s)
{
  const HobPart *a = &range->parts[s->part], *b = &range->parts[s->part2];
  HobHypothesis h = hypothesis_of (s);
  g_autofree char *id = hob_hypothesis_text (range, &h);

  return g_strdup_printf (_ ("Two faults. %s: %s. %s: %s (%s)"), hob_part_label (a),
                          _ (a->kind->faults[s->fault].words), hob_part_label (b),
                          _ (b->kind->faults[s->fault2].words), id);
}

static char *
name_of (const HobRange *range, const HobSuspect *s)
{
  const HobPart *part;

  if (s->what == HOB_SUSPECT_NORMAL)
    return g_strdup (_ ("Nothing is wrong with the range (nothing-wrong)"));
  if (s->what == HOB_SUSPECT_NOT_LISTED)
    return g_strdup (_ ("Something that is not on this list (not-on-my-list)"));
  if (s->part2 >= 0)
    return pair_name (range, s);
  part = &range->parts[s->part];
  return g_strdup_printf ("%s: %s (%s:%s)", hob_part_label (part),
                          _ (part->kind->faults[s->fault].words), part->id,
                          part->kind->faults[s->fault].id);
}

static void
append_suspect (GString *out, const HobBench *idle, const GPtrArray *clues,
                const HobSuspects *all, const HobSuspect *s)
{
  const HobRange *range = hob_bench_range (idle);
  g_autofree char *name = name_of (range, s);

  g_string_append_printf (out, _ ("%3.0f%%  %s. Before any evidence: %.2g%%.\n"), 100 * s->p, name,
                          100 * s->prior);
  if (s->what != HOB_SUSPECT_FAULT)
    return;
  if (s->graded && s->part2 < 0)
    {
      const HobKind *kind = range->parts[s->part].kind;
      const HobFaultDef *fault = &kind->faults[s->fault];
      g_autofree char *amount = hob_fault_severity_text (kind, fault, s->severity.middle);

      g_string_append_printf (out, _ ("    Severity %.2f, between %.2f and %.2f: %s.\n"),
                              s->severity.middle, s->severity.low, s->severity.high, amount);
    }
  for (guint k = 0; k < clues->len; k++)
    append_reason (out, idle, clues->pdata[k], s, normal_of (all), k);
}

/* Why no test follows.  As HobTestVerdict. */
static const char *const verdicts[] = {
  NULL,
  N_ ("Testing stops here: one part is clearly the most likely cause.\n"),
  N_ ("Testing stops here: no remaining test can tell the suspects apart.\n"),
  N_ ("Testing stops here: the remaining tests would take longer than replacing a wrong part.\n"),
  N_ ("Testing stops here: only tests for a trained technician are left.\n"),
};

/* A live test begins with the range unplugged, too. */
static void
append_safe (GString *out, const HobMeansDef *means)
{
  for (guint k = 0; k < G_N_ELEMENTS (safes); k++)
    if (means->safe & safes[k].bit)
      g_string_append (out, _ (safes[k].words));
  if (means->danger == HOB_DANGER_LIVE)
    g_string_append (out, _ ("    Clip the leads on before you plug in.\n"));
}

static void
append_next (GString *out, const HobRange *range, const HobSuspects *all)
{
  const HobOffer *offer = all->offers->len > 0 ? all->offers->pdata[0] : NULL;
  g_autofree char *test = NULL;

  if (all->stop != 0)
    g_string_append (out, _ ("First make it safe. Then test.\n"));
  else if (all->verdict != HOB_TEST_GO || offer == NULL)
    g_string_append (out, _ (verdicts[all->verdict == HOB_TEST_GO ? HOB_TEST_NOTHING_TELLS
                                                                  : all->verdict]));
  else
    {
      test = hob_test_text (range, offer->test);
      g_string_append_printf (out, _ ("Next test: %s\n    %s: %.0f min.\n"), test,
                              _ (offer->means->words), offer->minutes);
      append_safe (out, offer->means);
    }
}

static void
append_checks (GString *out, const HobRange *range, const HobSuspects *all)
{
  if (all->checks->len == 0 || all->stop != 0)
    return;
  g_string_append (out, _ ("After the repair, check:\n"));
  for (guint k = 0; k < all->checks->len; k++)
    {
      const HobCheck *check = all->checks->pdata[k];
      g_autofree char *test = hob_test_text (range, check->test), *value = NULL;

      if (check->test->what == HOB_TEST_LOOK)
        {
          g_string_append_printf (out, _ ("    %s: not seen\n"), test);
          continue;
        }
      value = hob_figure_text (check->value, hob_test_dimension (check->test), HOB_UNITS_TRADE, 3);
      g_string_append_printf (out, _ ("    %s: normally %s, within %.0f%%\n"), test, value,
                              100 * check->spread);
    }
}

/* What is to be minded when all is put together again. */
static void
append_put_back (GString *out, const HobRange *range, const HobSuspects *all)
{
  const HobSuspect *first = all->suspects->pdata[0];
  const HobKind *kind = range->parts[first->part].kind;
  g_autofree char *cautions = hob_cautions_text (
      0, HOB_HAZARD (PUT_BACK) | (kind->n_ports > 0 ? HOB_HAZARD (GAS_JOINT) : 0));

  if (all->lights >= 0)
    g_string_append_printf (
        out, _ ("    %s: lights %.0f s after the call for heat. Try it three times, once while "
                "it's warm.\n"),
        hob_part_label (&range->parts[all->lights]), all->lights_after);
  g_string_append (out, cautions);
}

static void
append_rule (GString *out, const HobPriors *priors)
{
  g_autofree char *file = hob_priors_file ();

  g_string_append_printf (out,
                          _ ("Testing stops when one part is at least %.0f%% likely to be the "
                             "cause. Replacing the wrong part counts as %.0f min lost. To change "
                             "these values, edit %s (see --priors).\n"),
                          100 * priors->rule.sure, priors->rule.wrong, file);
}

static const char *
proof_text (const HobSuspects *all)
{
  if (((HobSuspect *) all->suspects->pdata[0])->what != HOB_SUSPECT_FAULT)
    return NULL;
  if (all->proof == HOB_PROOF_VOLTS)
    return _ ("Don't replace it yet. First read the voltage drop across it under the same load.");
  return all->proof == HOB_PROOF_NONE ? _ ("Don't replace it yet. Nothing has confirmed the fault.")
                                      : NULL;
}

static void
append_text (GString *out, const HobBench *idle, const GPtrArray *clues, const HobSuspects *all,
             const HobPriors *priors)
{
  const HobRange *range = hob_bench_range (idle);
  HobHazards described = all->offers->len > 0 && all->verdict == HOB_TEST_GO
                             ? ((HobOffer *) all->offers->pdata[0])->hazards
                             : 0;
  /* The tests that are left out while one of these holds count as described. */
  g_autofree char *cautions = hob_cautions_text (
      all->hazards, all->stop != 0 ? HOB_HAZARD_BIT (HOB_HAZARD_LIVE_TEST) : described);
  const char *proof = proof_text (all);

  g_string_append (out, cautions);
  for (guint k = 0; k < MIN (all->suspects->len, MOST_TOLD); k++)
    if (((HobSuspect *) all->suspects->pdata[k])->p >= TOLD)
      append_suspect (out, idle, clues, all, all->suspects->pdata[k]);
  g_string_append_c (out, '\n');
  if (proof != NULL)
    g_string_append_printf (out, "%s\n", proof);
  append_next (out, range, all);
  append_checks (out, range, all);
  if (all->checks->len > 0 && all->stop == 0)
    append_put_back (out, range, all);
  append_rule (out, priors);
}

/* ---- The command ---- */

static const struct
{
  HobOption option;
  HobSeen seen; /* HOB_NOT_LOOKED: a reading */
} evidence[HOB_N_EVIDENCE] = {
  [HOB_EVIDENCE_SEEN] = { HOB_OPTION_SEEN, HOB_SEEN },
  [HOB_EVIDENCE_NOT_SEEN] = { HOB_OPTION_NOT_SEEN, HOB_NOT_SEEN },
  [HOB_EVIDENCE_READING] = { HOB_OPTION_READING, HOB_NOT_LOOKED },
};

static gboolean
add_clue (GPtrArray *clues, const HobBench *idle, int what, const char *text, GError **error)
{
  HobClue *clue = evidence[what].seen == HOB_NOT_LOOKED
                      ? hob_clue_reading (idle, text, error)
                      : hob_clue_look (idle, text, evidence[what].seen, error);

  if (clue != NULL)
    g_ptr_array_add (clues, clue);
  return clue != NULL;
}

/* Of the case file, then of the command line. */
static gboolean
add_clues (GPtrArray *clues, const HobBench *idle, const HobArgs *args, GError **error)
{
  const HobRange *range = hob_bench_range (idle);

  for (int what = 0; what < HOB_N_EVIDENCE; what++)
    {
      const GPtrArray *filed = hob_cli_evidence (range, (HobEvidenceWhat) what);

      for (guint k = 0; filed != NULL && k < filed->len; k++)
        if (!add_clue (clues, idle, what, filed->pdata[k], error))
          return FALSE;
    }
  for (guint k = 0; k < args->given->len; k++)
    for (int what = 0; what < HOB_N_EVIDENCE; what++)
      {
        const HobGiven *given = &g_array_index (args->given, HobGiven, k);

        if (given->option == evidence[what].option
            && !add_clue (clues, idle, what, given->value, error))
          return FALSE;
      }
  if (clues->len > 0)
    return TRUE;
  g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                       _ ("say what you noticed or measured; use --seen, --not-seen, or "
                          "--reading"));
  return FALSE;
}

static gboolean
role_of (const HobArgs *args, HobSkill *role, GError **error)
{
  const char *text = hob_args_get (args, HOB_OPTION_ROLE);

  *role = HOB_SKILL_TECHNICIAN;
  if (text == NULL || g_str_equal (text, "technician"))
    return TRUE;
  *role = HOB_SKILL_APPRENTICE;
  if (g_str_equal (text, "apprentice"))
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("'%s' is not a role; use apprentice or technician"), text);
  return FALSE;
}

static gboolean
no_faults (const HobCase *base, GError **error)
{
  for (guint k = 0; k < base->acts->len; k++)
    if (g_array_index (base->acts, HobAct, k).what == HOB_ACT_FAULT)
      {
        g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                             _ ("'hob suspects' finds the fault for you; leave out --fault"));
        return FALSE;
      }
  return TRUE;
}

static HobPriors *
load_priors (const HobRange *range, GError **error)
{
  g_autoptr (HobPriors) priors = hob_priors_new (range);
  g_autofree char *file = hob_priors_file ();

  return hob_priors_load (priors, range, file, error) ? g_steal_pointer (&priors) : NULL;
}

static gboolean
print_priors (const HobRange *range, const HobPriors *priors, GError **error)
{
  g_autofree char *text = hob_priors_text (priors, range);
  HobOutput *output = hob_output_stdout ();

  g_string_append (hob_output_text (output), text);
  return hob_output_close (output, error);
}

static gboolean
answer (const HobArgs *args, HobRange *range, const HobCase *base, GError **error)
{
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, error);
  g_autoptr (HobPriors) priors = load_priors (range, error);
  g_autoptr (GPtrArray) clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);
  g_autoptr (HobTrials) trials = NULL;
  g_autoptr (HobSuspects) all = NULL;
  HobTableWork work = { .cache = TRUE, .progress = hob_cli_progress () };
  HobOutput *output;
  HobSkill role;

  if (idle == NULL || priors == NULL || !role_of (args, &role, error))
    return FALSE;
  if (hob_args_has (args, HOB_OPTION_PRIORS))
    return print_priors (range, priors, error);
  if (!add_clues (clues, idle, args, error))
    return FALSE;
  trials = hob_trials_new (idle, &work);
  all = hob_suspects_new (trials, base, clues, role, priors);
  output = hob_output_stdout ();
  if (hob_args_has (args, HOB_OPTION_CSV))
    append_csv (hob_output_text (output), range, all);
  else
    append_text (hob_output_text (output), idle, clues, all, priors);
  return hob_output_close (output, error);
}

int
hob_command_suspects (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "suspects", error);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobCase) base = NULL;
  double until = 0;

  if (args == NULL
      || !hob_args_words (args, 1, 1, "suspects RANGE [CASE] --seen \"SYMPTOM\"", error))
    return 2;
  range = hob_cli_load (args->words->pdata[0], error);
  if (range == NULL || (base = hob_cli_case (range, args, &until, error)) == NULL
      || !no_faults (base, error))
    return 0;
  answer (args, range, base, error);
  return 0;
}
