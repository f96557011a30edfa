/* SPDX-License-Identifier: GPL-3.0-or-later */

/* From what was seen and read to what may be wrong, and to the next test. */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "reason/suspect-words.h"


#define SHOWN 0.0005   /* probability from which a suspect has a row … */
#define TOLD 0.01      /* … or a paragraph */
#define MOST_TOLD 6

/* As HobDanger. */
static const char *const dangers[] = { "none", "hot", "live", "gas" };

/* ---- For spreadsheets ---- */

static void
append_suspect_row (GString *out, const HobRange *range, const HobSuspect *s)
{
  HobHypothesis h = { { s->part, s->part2 }, { s->fault, s->fault2 },
                      { s->severity.middle, s->severity2 } };
  g_autofree char *id = hob_suspect_id (range, s);
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

/* What is seen in words, a reading as it is written on the command line. (transfer full) */
static char *
clue_text (const HobBench *idle, const HobClue *clue)
{
  return hob_test_is_seen (clue->test) ? hob_test_words (idle, clue->test)
                                       : hob_test_text (hob_bench_range (idle), clue->test);
}

static void
append_reason (GString *out, const HobBench *idle, const HobSuspects *all, const HobSuspect *s,
               const HobClue *clue, guint k)
{
  g_autofree char *what = clue_text (idle, clue);
  g_autofree char *reason = hob_suspect_reason (all, s, clue, k, what);

  g_string_append_printf (out, "    %s\n", reason);
}

static void
append_suspect (GString *out, const HobBench *idle, const GPtrArray *clues,
                const HobSuspects *all, const HobSuspect *s)
{
  const HobRange *range = hob_bench_range (idle);
  g_autofree char *name = hob_suspect_name (range, s), *id = hob_suspect_id (range, s);
  g_autofree char *severity = hob_suspect_severity (range, s);
  const char *doubt = hob_suspect_doubt (s, clues);

  /* Translators: how likely a fault is now, the fault, its id, and how likely it was at first. */
  g_string_append_printf (out, _ ("%3.0f%%  %s (%s). Before any evidence: %.2g%%.\n"), 100 * s->p,
                          name, id, 100 * s->prior);
  if (severity != NULL)
    g_string_append_printf (out, "    %s\n", severity);
  if (doubt != NULL)
    g_string_append_printf (out, "    %s\n", doubt);
  for (guint k = 0; k < clues->len && hob_suspect_has_reasons (s); k++)
    append_reason (out, idle, all, s, clues->pdata[k], k);
}

/* Those that no test tells from the first. */
static void
append_group (GString *out, const HobRange *range, const HobSuspects *all)
{
  const HobSuspect *first = all->suspects->pdata[0];

  if (first->group < 0)
    return;
  g_string_append (out, _ ("No test can tell these suspects apart:\n"));
  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];
      g_autofree char *name = hob_suspect_name (range, s);

      if (s->group == first->group)
        g_string_append_printf (out, "    %s\n", name);
    }
}

static void
append_next (GString *out, const HobRange *range, const HobSuspects *all)
{
  const HobOffer *offer = hob_suspects_next (all), *sign;
  const char *also = hob_suspects_also (all);
  g_autoptr (GPtrArray) safe = NULL;
  g_autofree char *test = NULL, *means = NULL;

  if (offer == NULL)
    {
      g_string_append_printf (out, "%s\n", hob_suspects_end (all));
      return;
    }
  safe = hob_offer_safe (offer);
  test = hob_test_text (range, offer->test);
  means = hob_offer_means_words (offer);
  g_string_append_printf (out, _ ("Next test: %s\n"), test);
  g_string_append_printf (out, "    %s.\n", means);
  for (guint k = 0; k < safe->len; k++)
    g_string_append_printf (out, "    %s\n", (const char *) safe->pdata[k]);
  if (also != NULL)
    g_string_append_printf (out, "    %s\n", also);
  for (guint k = 0; (sign = hob_suspects_sign (all, k)) != NULL; k++)
    {
      g_autofree char *text = hob_test_text (range, sign->test);

      g_string_append_printf (out, "      %s\n", text);
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
      g_autofree char *test = hob_test_text (range, check->test);
      g_autofree char *words = hob_check_words (check, test);

      g_string_append_printf (out, "    %s\n", words);
    }
}

/* What is to be minded when all is put together again. */
static void
append_put_back (GString *out, const HobRange *range, const HobSuspects *all)
{
  g_autofree char *cautions = hob_cautions_text (0, hob_suspects_put_back (range, all)),
                  *lights = hob_suspects_lights (range, all);

  if (lights != NULL)
    g_string_append_printf (out, "    %s\n", lights);
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

static void
append_text (GString *out, const HobBench *idle, const GPtrArray *clues, const HobSuspects *all,
             const HobPriors *priors)
{
  const HobRange *range = hob_bench_range (idle);
  g_autofree char *cautions = hob_cautions_text (all->hazards, hob_suspects_described (all));
  const char *unproved = hob_suspects_unproved (all);

  g_string_append (out, cautions);
  for (guint k = 0; k < MIN (all->suspects->len, MOST_TOLD); k++)
    if (((HobSuspect *) all->suspects->pdata[k])->p >= TOLD)
      append_suspect (out, idle, clues, all, all->suspects->pdata[k]);
  append_group (out, range, all);
  g_string_append_c (out, '\n');
  if (unproved != NULL)
    g_string_append_printf (out, "%s\n", unproved);
  append_next (out, range, all);
  append_checks (out, range, all);
  if (all->checks->len > 0 && all->stop == 0)
    append_put_back (out, range, all);
  else
    g_string_append_c (out, '\n');
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
    hob_clues_add (clues, hob_bench_range (idle), clue);
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
