/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What happens in a run: a list for people, the list as CSV, or traces of quantities as CSV. */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/plain.h"
#include "parts/say.h"

#include <math.h>
#include <stdio.h>

/* ---- Events ---- */

static const char *const classes[] = {
  [HOB_EVENT_ACT] = "act",
  [HOB_EVENT_CHANGE] = "change",
  [HOB_EVENT_SYMPTOM] = "symptom",
  [HOB_EVENT_SYMPTOM_END] = "symptom-end",
};

static gboolean
is_symptom (const HobEvent *e)
{
  return e->what == HOB_EVENT_SYMPTOM || e->what == HOB_EVENT_SYMPTOM_END;
}

static char *
event_id (const HobBench *s, const HobEvent *e)
{
  return is_symptom (e) ? g_strdup (hob_symptom_book_get (s->book, e->index)->id)
                        : hob_event_id (s->run, e);
}

/* A symptom is worded by the book, at the part where it is seen. */
static char *
event_text (const HobBench *s, const HobEvent *e)
{
  const HobPart *part = e->part >= 0 ? &hob_plan_range (s->plan)->parts[e->part] : NULL;

  return is_symptom (e) ? hob_symptom_words_at (hob_symptom_book_get (s->book, e->index), part)
                        : hob_event_text (s->run, e);
}

static void
append_event_row (GString *out, const HobBench *s, const HobEvent *e)
{
  g_autofree char *id = event_id (s, e), *text = event_text (s, e);

  hob_csv_number (out, e->t, TRUE);
  hob_csv_text (out, classes[e->what], FALSE);
  hob_csv_text (out, id, FALSE);
  hob_csv_text (out, text, FALSE);
  hob_csv_text (out, e->part >= 0 ? hob_plan_range (s->plan)->parts[e->part].id : "", FALSE);
  g_string_append_c (out, '\n');
}

/* What a person did is said to people in words, to a spreadsheet as the command line takes it. */
static char *
line_text (const HobBench *s, const HobEvent *e)
{
  if (e->what != HOB_EVENT_ACT)
    return event_text (s, e);
  return hob_act_words (hob_plan_range (s->plan),
                        &g_array_index (hob_run_case (s->run)->acts, HobAct, e->index));
}

static void
append_event_line (GString *out, const HobBench *s, const HobEvent *e)
{
  g_autofree char *id = event_id (s, e), *said = line_text (s, e), *text = hob_plain_text (said);

  hob_append_moment (out, e->t);
  if (e->what == HOB_EVENT_ACT)
    g_string_append_printf (out, "  > %s\n", text);
  else if (e->what == HOB_EVENT_CHANGE)
    g_string_append_printf (out, "    %s\n", text);
  else
    g_string_append_printf (
        /* Translators: a symptom that begins or ends, and its id. */
        out, e->what == HOB_EVENT_SYMPTOM ? _ ("  ! %s (%s)\n") : _ ("    ended: %s (%s)\n"),
        text, id);
}

static void
write_events (HobOutput *output, const HobBench *s, double until, gboolean csv)
{
  guint first, n = hob_run_events (s->run, -1, until, &first);
  GString *out = hob_output_text (output);
  g_autofree char *cautions = hob_cautions_text (hob_hazards_up_to (s->book, s->run, until), 0);

  g_string_append (out, csv ? "time_s,class,id,text,part\n" : cautions);
  for (guint k = first; k < first + n; k++)
    {
      if (hob_run_event (s->run, k)->what >= HOB_EVENT_HAZARD)
        continue;
      if (csv)
        append_event_row (out, s, hob_run_event (s->run, k));
      else
        append_event_line (out, s, hob_run_event (s->run, k));
      if (!hob_output_flush (output))
        return;
    }
}

/* ---- Traces ---- */

static void
append_trace_head (GString *out, const HobRange *range, const GArray *traces, HobUnits units)
{
  g_string_append (out, "time_s");
  for (guint k = 0; k < traces->len; k++)
    {
      const HobTraced *q = &g_array_index (traces, HobTraced, k);
      const char *unit
          = hob_quantity_trade_sign (&range->parts[q->part].kind->quantities[q->quantity]);
      g_autofree char *name = units == HOB_UNITS_TRADE && *unit != '\0'
                                  ? g_strdup_printf ("%s (%s)", q->name, unit)
                                  : g_strdup (q->name);

      hob_csv_text (out, name, FALSE);
    }
  g_string_append_c (out, '\n');
}

static void
append_trace_row (GString *out, const HobRange *range, const GArray *traces, HobUnits units,
                  const HobMoment *m, double t)
{
  hob_csv_number (out, t, TRUE);
  for (guint k = 0; k < traces->len; k++)
    {
      const HobTraced *q = &g_array_index (traces, HobTraced, k);
      const HobQuantityDef *def = &range->parts[q->part].kind->quantities[q->quantity];
      double value = hob_moment_quantity (m, q->part, q->quantity);

      if (units == HOB_UNITS_TRADE)
        value = hob_quantity_trade (def, value, hob_moment_house (m)->fuel);
      hob_csv_number (out, value, FALSE);
    }
  g_string_append_c (out, '\n');
}

/* Rows at 0, every, 2·every … to the end.  The run is asked for each in turn, so that what is read
 * stands at its tip; how often it is asked changes nothing in it. */
static gboolean
write_traces (HobOutput *output, const HobBench *s, const GArray *traces, double every,
              double until, HobUnits units, GError **error)
{
  g_autoptr (HobMoment) m = hob_moment_new (s->plan);
  const HobRange *range = hob_plan_range (s->plan);
  guint64 rows = (guint64) floor (until / every + 1e-9) + 1;

  append_trace_head (hob_output_text (output), range, traces, units);
  for (guint64 k = 0; k < rows; k++)
    {
      double t = MIN ((double) k * every, until);

      if (hob_run_advance (s->run, t, error) != HOB_RUN_OK)
        return FALSE;
      hob_run_read (s->run, t, m);
      append_trace_row (hob_output_text (output), range, traces, units, m, t);
      if (!hob_output_flush (output))
        break;
    }
  return TRUE;
}

/* ---- The command ---- */

typedef struct
{
  double until, every;
  HobUnits units;
  GArray *traces; /* NULL: events */
} Wanted;

static gboolean
read_every (const HobArgs *args, Wanted *w, GError **error)
{
  const char *text = hob_args_get (args, HOB_OPTION_EVERY);

  w->every = 1;
  if (text == NULL)
    return TRUE;
  if (w->traces == NULL)
    g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                         _ ("--every needs --trace; add --trace and the quantities"));
  else if (hob_args_time (args, HOB_OPTION_EVERY, &w->every, error) && w->every < 0.001)
    g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE, _("--every: '%s' is too short; use 0.001 s or "
                                                      "longer"), text);
  return *error == NULL;
}

static gboolean
read_wanted (const HobRange *range, const HobArgs *args, Wanted *w, GError **error)
{
  const char *list = hob_args_get (args, HOB_OPTION_TRACE);

  if (hob_args_has (args, HOB_OPTION_UNTIL)
      && !hob_args_time (args, HOB_OPTION_UNTIL, &w->until, error))
    return FALSE;
  if (isnan (w->until))
    {
      g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE,
                           _("--until is missing; add --until TIME, such as --until 5min"));
      return FALSE;
    }
  if (list != NULL && (w->traces = hob_cli_traces (range, list, error)) == NULL)
    return FALSE;
  return hob_args_units (args, &w->units, error) && read_every (args, w, error);
}

static gboolean
write_event_file (const HobArgs *args, const HobBench *s, double until, GError **error)
{
  const char *file = hob_args_get (args, HOB_OPTION_EVENTS);
  HobOutput *output;

  if (file == NULL)
    return TRUE;
  output = hob_output_file (file, error);
  if (output == NULL)
    return FALSE;
  write_events (output, s, until, TRUE);
  return hob_output_close (output, error);
}

static gboolean
may_write_events (const HobRange *range, const HobArgs *args, GError **error)
{
  const char *file = hob_args_get (args, HOB_OPTION_EVENTS);

  return file == NULL || hob_output_may_replace (range, file, error);
}

static void
print_hash (const HobBench *s, double until)
{
  g_autoptr (HobMoment) m = hob_moment_new (s->plan);

  hob_run_read (s->run, until, m);
  fprintf (stderr, "hash: %016" G_GINT64_MODIFIER "x\n", hob_moment_hash (m));
}

/* It is done all the same: a run must be able to show what comes of it. */
static void
warn_of_sparks (const HobBench *s, double until)
{
  const GArray *acts = hob_run_case (s->run)->acts;

  for (guint k = 0; k < acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts, HobAct, k);
      g_autofree char *done = NULL;

      if ((double) act->ms / 1000 > until || !hob_bench_act_may_ignite (s, act))
        continue;
      done = hob_act_argument (hob_plan_range (s->plan), act);
      /* Translators: what was done. */
      fprintf (stderr,
               _ ("warning: there is a strong smell of gas when '%s' happens. A switch or an "
                  "igniter can light the gas. In a real kitchen, never operate anything when you "
                  "smell gas.\n"),
               done);
      return;
    }
}

/* An impossible state ends the run; what came before it is still printed. */
static void
run_and_write (const HobArgs *args, const HobBench *s, const Wanted *w, GError **error)
{
  g_autoptr (HobOutput) output = hob_output_stdout ();
  g_autoptr (GError) impossible = NULL, wrong = NULL;
  HobRunStatus status;

  if (w->traces != NULL)
    write_traces (output, s, w->traces, w->every, w->until, w->units, &impossible);
  if (impossible == NULL)
    {
      status = hob_run_advance (s->run, w->until, &impossible);
      if (status == HOB_RUN_OK && hob_args_has (args, HOB_OPTION_HASH))
        print_hash (s, w->until);
      if (status == HOB_RUN_OK)
        warn_of_sparks (s, w->until);
    }
  if (w->traces == NULL)
    write_events (output, s, w->until, hob_args_has (args, HOB_OPTION_CSV));
  if (hob_output_close (g_steal_pointer (&output), &wrong))
    write_event_file (args, s, w->until, &wrong);
  if (impossible != NULL)
    g_propagate_error (error, g_steal_pointer (&impossible));
  else if (wrong != NULL)
    g_propagate_error (error, g_steal_pointer (&wrong));
}

int
hob_command_run (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "run", error);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobBench) bench = NULL;
  Wanted wanted = { .until = NAN };

  if (args == NULL || !hob_args_words (args, 1, 1, "run RANGE [CASE] --until T", error)
      || (range = hob_cli_load (args->words->pdata[0], error)) == NULL
      || (acts = hob_cli_case (range, args, &wanted.until, error)) == NULL
      || !read_wanted (range, args, &wanted, error)
      || !may_write_events (range, args, error))
    {
      g_clear_pointer (&wanted.traces, g_array_unref);
      return 0;
    }
  bench = hob_bench_new (NULL, range, acts, error);
  if (bench != NULL)
    run_and_write (args, bench, &wanted, error);
  g_clear_pointer (&wanted.traces, g_array_unref);
  return 0;
}
