/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Why a symptom was noticed: from a faulty part to the symptom, with figures. */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "reason/why.h"
#include "symptoms/look.h"
#include <math.h>

#define LOOK_ON (90 * 60.0) /* s after the last act: a heat-up and some cycles */
#define STRIDE 30.0         /* s that it runs on at once */

/* What is asked. */
typedef struct
{
  HobTest *look; /* owned */
  int symptom;
} Question;

static gboolean
parse_question (Question *q, const HobBench *idle, const char *text, GError **error)
{
  g_autofree char *words = g_strconcat ("look ", text, NULL);
  HobReading reading;

  q->look = hob_test_parse (hob_bench_range (idle), words, error);
  if (q->look == NULL || !hob_look (idle, q->look, 0, &reading, error))
    return FALSE;
  q->symptom = hob_symptom_book_find (idle->book, q->look->symptom);
  return TRUE;
}

/* ---- Running up to the symptom ---- */

static double
last_act (const HobCase *acts)
{
  guint n = acts->acts->len;

  return n > 0 ? (double) g_array_index (acts->acts, HobAct, n - 1).ms / 1000.0 : 0;
}

/* No farther than it must. */
static gboolean
run_to_symptom (HobBench *bench, const Question *q, double until)
{
  for (double t = 0; t < until;)
    {
      t = MIN (t + STRIDE, until);
      if (hob_bench_advance (bench, t, NULL) != HOB_RUN_OK)
        t = until;
      if (hob_bench_noticed (bench, q->symptom, q->look->part, t))
        return TRUE;
    }
  return FALSE;
}

/* Under the acts of @base, or, if it has none, in the first procedure that shows it. (transfer
 * full) NULL: it is never noticed. */
static HobBench *
find_bench (const HobBench *idle, const HobCase *base, const Question *q, double until)
{
  g_auto (GStrv) names = hob_procedure_names (hob_bench_range (idle));

  if (hob_case_has_controls (base) || until > 0)
    {
      g_autoptr (HobBench) bench = hob_bench_again (idle, base);

      until = until > 0 ? until : last_act (base) + LOOK_ON;
      return run_to_symptom (bench, q, until) ? g_steal_pointer (&bench) : NULL;
    }
  for (char **name = names; *name != NULL; name++)
    {
      g_autoptr (HobCase) acts = hob_case_copy (base);
      g_autoptr (HobBench) bench = NULL;

      hob_procedure_add (acts, *name, &until, NULL);
      bench = hob_bench_again (idle, acts);
      if (run_to_symptom (bench, q, until))
        return g_steal_pointer (&bench);
    }
  return NULL;
}

/* ---- The answer ---- */

/* Status 1 and a reason where there is no chain. */
static gboolean
has_chain (const GPtrArray *all, const char *symptom, GError **error)
{
  for (guint i = 0; i < all->len; i++)
    if (((const HobWhy *) all->pdata[i])->entries->len > 0)
      return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_NAME,
               _ ("no single part explains '%s'; fixing just one of the faulty parts won't stop "
                  "it"),
               symptom);
  return FALSE;
}

gboolean
hob_cli_why (HobCliWhy *why, HobRange *range, const HobCase *base, const HobArgs *args,
             double until, GError **error)
{
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, error);
  const char *text = hob_args_get (args, HOB_OPTION_SYMPTOM);
  Question q = { NULL, -1 };

  *why = (HobCliWhy){ NULL, NULL, -1 };
  if (idle != NULL && parse_question (&q, idle, text, error))
    {
      why->symptom = q.symptom;
      why->bench = find_bench (idle, base, &q, until);
      if (why->bench == NULL)
        g_set_error (error, HOB_ERROR, HOB_ERROR_NAME,
                     _ ("'%s' doesn't show up in this case; add faults with --fault and control "
                        "changes with --do, such as --do \"0s oven.mode=bake\""),
                     text);
      else
        why->chains = hob_why (why->bench, q.symptom, q.look->part, NULL);
    }
  hob_test_free (q.look);
  return why->chains != NULL && has_chain (why->chains, text, error);
}

void
hob_cli_why_clear (HobCliWhy *why)
{
  g_clear_pointer (&why->chains, g_ptr_array_unref);
  g_clear_pointer (&why->bench, hob_bench_free);
}

/* ---- Printing ---- */

/* Of what has never happened there is no figure. */
static void
append_value (GString *out, const HobQuantityDef *def, double value)
{
  gboolean never = def != NULL && def->never > 0 && value >= def->never;

  hob_csv_number (out, never ? NAN : value, FALSE);
}

static void
append_row (GString *out, const HobRange *range, const HobWhyEntry *e)
{
  const HobPart *part = &range->parts[e->part];
  const HobQuantityDef *def = e->quantity >= 0 ? &part->kind->quantities[e->quantity] : NULL;
  g_autofree char *words = hob_why_words (range, e);

  hob_csv_text (out, part->id, TRUE);
  hob_csv_text (out, def != NULL ? def->name : "", FALSE);
  append_value (out, def, e->value);
  append_value (out, def, e->should_be);
  hob_csv_text (out, def != NULL ? hob_unit_sign (def->dim, HOB_UNITS_SI) : "", FALSE);
  hob_csv_number (out, e->t, FALSE);
  hob_csv_text (out, words, FALSE);
  g_string_append_c (out, '\n');
}

static void
append_line (GString *out, const HobRange *range, const HobWhyEntry *e)
{
  g_autofree char *words = hob_why_words (range, e);

  hob_append_moment (out, e->t);
  g_string_append_printf (out, "  %s\n", words);
}

/* The symptom itself ends the text. */
static void
append_symptom (GString *out, const HobBench *bench, int index, const HobWhy *why)
{
  const HobPart *part = why->part >= 0 ? &hob_bench_range (bench)->parts[why->part] : NULL;
  g_autofree char *words = hob_symptom_words_at (hob_symptom_book_get (bench->book, index), part);

  hob_append_moment (out, why->t);
  g_string_append_printf (out, "  %s\n", words);
}

/* When the first chain ends. */
static double
noticed_at (const GPtrArray *all)
{
  return ((const HobWhy *) all->pdata[0])->t;
}

/* Those that held so far.  One that silences the others and is over doesn't silence such a one of
 * the symptom itself: an hour after flames rolled out of the oven, the headache is what matters. */
static HobHazards
hazards_of (const HobCliWhy *w)
{
  const HobBench *bench = w->bench;
  HobHazards own = hob_symptom_book_get (bench->book, w->symptom)->hazards;
  HobHazards now = hob_hazards_at (bench->book, bench->run, noticed_at (w->chains));
  HobHazards all = hob_hazards_up_to (bench->book, bench->run, hob_run_reached (bench->run));

  if (hob_hazards_make_safe (own) == NULL)
    return all;
  for (int h = hob_hazards_next (all, -1); h >= 0; h = hob_hazards_next (all, h))
    if (hob_hazards[h].silences && !((now | own) & HOB_HAZARD_BIT (h)))
      all &= ~HOB_HAZARD_BIT (h);
  return all;
}

static gboolean
print (const HobCliWhy *w, gboolean csv, GError **error)
{
  const HobBench *bench = w->bench;
  const GPtrArray *all = w->chains;
  const HobRange *range = hob_bench_range (bench);
  HobHazards now = hazards_of (w);
  g_autofree char *cautions = hob_cautions_text (now, 0);
  HobOutput *output = hob_output_stdout ();
  GString *out = hob_output_text (output);

  g_string_append (out, csv ? "part,quantity,value,should_be,unit,time_s,words\n" : cautions);
  for (guint i = 0; i < all->len; i++)
    {
      const HobWhy *why = all->pdata[i];

      if (!csv && i > 0)
        g_string_append_c (out, '\n');
      for (guint k = 0; k < why->entries->len; k++)
        (csv ? append_row : append_line) (out, range,
                                          &g_array_index (why->entries, HobWhyEntry, k));
      if (!csv)
        append_symptom (out, bench, w->symptom, why);
    }
  return hob_output_close (output, error);
}

int
hob_command_why (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "why", error);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobCase) base = NULL;
  HobCliWhy why;
  double until = 0;

  if (args == NULL
      || !hob_args_words (args, 1, 1, "why RANGE [CASE] --symptom \"SYMPTOM\"", error))
    return 2;
  if (!hob_args_has (args, HOB_OPTION_SYMPTOM))
    {
      g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                           _ ("--symptom is missing; add --symptom \"SYMPTOM\", such as "
                              "no-glow"));
      return 2;
    }
  if ((range = hob_cli_load (args->words->pdata[0], error)) == NULL
      || (base = hob_cli_case (range, args, &until, error)) == NULL)
    return 0;
  if (hob_cli_why (&why, range, base, args, until, error))
    print (&why, hob_args_has (args, HOB_OPTION_CSV), error);
  hob_cli_why_clear (&why);
  return 0;
}
