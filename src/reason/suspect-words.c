/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/suspect-words.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "parts/say.h"
#include "parts/severity.h"

#include <math.h>
#include <string.h>

#define DIGITS 3
#define LEAST_TOLD 0.5 /* min, below which a whole number of them would be none */
#define OTHERS 0.9  /* of its chance to show: below that it shows more to complain of */
#define SPEAKS 2.0  /* times as probable as on a normal range: it speaks for or against */

/* ---- Tests ---- */

static char *
end_words (const HobRange *range, HobEnd end, gboolean port)
{
  const HobPart *part = &range->parts[end.part];

  return g_strdup_printf ("%s, %s", hob_part_label (part),
                          port ? _ (part->kind->ports[end.terminal].words)
                               : _ (part->kind->terminals[end.terminal].words));
}

static char *
between_words (const HobRange *range, const HobTest *test)
{
  g_autofree char *a = end_words (range, test->a, FALSE), *b = end_words (range, test->b, FALSE);

  if (test->what == HOB_TEST_VOLTS)
    return g_strdup_printf (_ ("Volts: from %s to %s"), a, b);
  /* Translators: from one terminal to another. */
  return g_strdup_printf (test->lead_off ? _ ("Ohms with one wire off: from %s to %s")
                                         : _ ("Ohms: from %s to %s"),
                          a, b);
}

static char *
amps_words (const HobRange *range, const HobTest *test)
{
  g_autofree char *end = NULL;

  if (test->wire >= 0)
    return g_strdup_printf (
        _ ("Amps: wire from %s to %s"),
        hob_part_label (&range->parts[range->wires[test->wire].from.part]),
        hob_part_label (&range->parts[range->wires[test->wire].to.part]));
  if (test->part >= 0)
    /* Translators: a part or a terminal, whose wire the clamp meter is on. */
    return g_strdup_printf (_ ("Amps: %s"), hob_part_label (&range->parts[test->part]));
  end = end_words (range, test->a, FALSE);
  return g_strdup_printf (_ ("Amps: %s"), end);
}

static char *
temp_words (const HobRange *range, const HobTest *test)
{
  const HobPart *part = &range->parts[test->part];

  return g_strdup_printf (_ ("%s: %s"), hob_part_label (part),
                          _ (part->kind->quantities[test->quantity].words));
}

static char *
look_words (const HobBench *idle, const HobTest *test)
{
  int symptom = hob_symptom_book_find (idle->book, test->symptom);
  const HobPart *part = test->part >= 0 ? &hob_bench_range (idle)->parts[test->part] : NULL;

  return hob_symptom_words_at (hob_symptom_book_get (idle->book, symptom), part);
}

char *
hob_test_words (const HobBench *idle, const HobTest *test)
{
  const HobRange *range = hob_bench_range (idle);
  g_autofree char *port = NULL;

  switch (test->what)
    {
    case HOB_TEST_VOLTS:
    case HOB_TEST_OHMS: return between_words (range, test);
    case HOB_TEST_AMPS: return amps_words (range, test);
    case HOB_TEST_PRESSURE:
      port = end_words (range, test->a, TRUE);
      return g_strdup_printf (_ ("Gas pressure: %s"), port);
    case HOB_TEST_TEMP: return temp_words (range, test);
    case HOB_TEST_INSPECT:
      /* Translators: a part that is looked at closely. */
      return g_strdup_printf (_ ("%s: something looks wrong"),
                              hob_part_label (&range->parts[test->part]));
    case HOB_TEST_BUBBLES:
      /* Translators: a part with leak-detection solution on it. */
      return g_strdup_printf (_ ("%s: leak-detection solution bubbles"),
                              hob_part_label (&range->parts[test->part]));
    case HOB_TEST_LOOK:
    default: return look_words (idle, test);
    }
}

char *
hob_test_until_words (const HobTest *test)
{
  g_autofree char *at = hob_time_text (test->time);

  if (test->what == HOB_TEST_INSPECT)
    /* Translators: after what has to be done first. */
    return g_strdup (_ ("Then look at the part."));
  if (test->what == HOB_TEST_BUBBLES)
    /* Translators: after what has to be done first; a time. */
    return g_strdup_printf (_ ("At %s, look for bubbles."), at);
  /* Translators: a time. */
  return g_strdup_printf (test->what == HOB_TEST_LOOK ? _ ("Watch until %s.")
                                                      : _ ("Take the reading at %s."),
                          at);
}

char *
hob_test_acts_words (const HobRange *range, const HobTest *test)
{
  g_autoptr (GString) text = g_string_new (NULL);
  g_autofree char *until = NULL;

  if (isnan (test->time))
    return NULL;
  for (guint k = 0; k < test->acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (test->acts->acts, HobAct, k);
      g_autofree char *words = hob_act_words (range, act);
      g_autofree char *when = hob_time_text ((double) act->ms / 1000.0);

      /* Translators: what is done, and at what time: "Oven control: BAKE at 0.0 s. " */
      g_string_append_printf (text, _ ("%s at %s. "), words, when);
    }
  until = hob_test_until_words (test);
  g_string_append (text, until);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
hob_clue_figure (const HobClue *clue, double value)
{
  if (isinf (value))
    return g_strdup ("OL");
  if (isnan (value))
    return g_strdup ("?");
  return hob_test_is_seen (clue->test)
             ? g_strdup_printf ("%.0f%%", 100 * value)
             : hob_figure_text (value, hob_test_dimension (clue->test), HOB_UNITS_TRADE, DIGITS);
}

/* What was typed; without its unit, as a figure with one. */
static char *
typed_text (const HobClue *clue)
{
  const char *typed = clue->typed;
  gboolean bare = typed == NULL || strspn (typed, "0123456789.") == strlen (typed);

  return bare ? hob_clue_figure (clue, clue->value) : g_strdup (typed);
}

/* ---- Suspects ---- */

static HobHypothesis
hypothesis_of (const HobSuspect *s)
{
  return (HobHypothesis){ { s->part, s->part2 }, { s->fault, s->fault2 },
                          { s->severity.middle, s->severity2 } };
}

char *
hob_suspect_id (const HobRange *range, const HobSuspect *s)
{
  HobHypothesis h = hypothesis_of (s);

  return s->what == HOB_SUSPECT_NORMAL       ? g_strdup ("nothing-wrong")
         : s->what == HOB_SUSPECT_NOT_LISTED ? g_strdup ("not-on-my-list")
                                             : hob_hypothesis_text (range, &h);
}

static char *
fault_name (const HobPart *part, int fault)
{
  return g_strdup_printf ("%s: %s", hob_part_label (part), _ (part->kind->faults[fault].words));
}

char *
hob_suspect_name (const HobRange *range, const HobSuspect *s)
{
  g_autofree char *one = NULL, *other = NULL;

  if (s->what == HOB_SUSPECT_NORMAL)
    return g_strdup (_ ("Nothing is wrong with the range"));
  if (s->what == HOB_SUSPECT_NOT_LISTED)
    return s->is_line ? hob_line_fault_words (range, &s->line)
                      : g_strdup (_ ("Something that is not on this list"));
  one = fault_name (&range->parts[s->part], s->fault);
  if (s->part2 < 0)
    return g_steal_pointer (&one);
  other = fault_name (&range->parts[s->part2], s->fault2);
  return g_strdup_printf (_ ("Two faults at once: %s; %s"), one, other);
}

char *
hob_suspect_severity (const HobRange *range, const HobSuspect *s)
{
  const HobKind *kind;
  g_autofree char *amount = NULL;

  if (s->what != HOB_SUSPECT_FAULT || !s->graded || s->part2 >= 0)
    return NULL;
  kind = range->parts[s->part].kind;
  amount = hob_fault_severity_text (kind, &kind->faults[s->fault], s->severity.middle);
  /* Translators: how bad the fault probably is, from 0 to 1, and its amount. */
  return hob_one_period (
      g_strdup_printf (_ ("Severity about %.2f on a scale of 0 to 1 (probably %.2f to %.2f): "
                          "%s."), s->severity.middle,
                       s->severity.low, s->severity.high, amount));
}

static const HobSuspect *
normal_of (const HobSuspects *all)
{
  for (guint k = 0; k < all->suspects->len; k++)
    if (((HobSuspect *) all->suspects->pdata[k])->what == HOB_SUSPECT_NORMAL)
      return all->suspects->pdata[k];
  g_assert_not_reached ();
}

char *
hob_suspect_reason (const HobSuspects *all, const HobSuspect *s, const HobClue *clue, guint k,
                    const char *what)
{
  const HobSuspect *normal = normal_of (all);
  double ratio = s->likelihood[k] / normal->likelihood[k];
  /* Translators: begins a line under a suspect: for the fault that is suspected. */
  const char *sign = ratio > SPEAKS       ? _ ("Evidence for this fault")
                     : ratio * SPEAKS < 1 ? _ ("Evidence against this fault")
                                          : _ ("Neither for nor against this fault");
  g_autofree char *with = hob_clue_figure (clue, s->expected[k]);
  g_autofree char *without = hob_clue_figure (clue, normal->expected[k]);
  g_autofree char *value = typed_text (clue), *figure = hob_clue_figure (clue, clue->value);
  g_autofree char *text = NULL, *named = NULL;

  if (!hob_test_is_seen (clue->test) && ratio * SPEAKS < 1 && g_str_equal (figure, with))
    return hob_one_period (g_strdup_printf (
        /* Translators: "Evidence against this fault", a test, and what it reads. */
        _ ("%s: %s. The reading is %s. It is less likely with this fault than on a normal range; "
           "normal is %s."), sign, what,
        value, without));
  if (!hob_test_is_seen (clue->test))
    return hob_one_period (g_strdup_printf (
        /* Translators: "Evidence for this fault", a test, and what it reads or would read. */
        _ ("%s: %s. The reading is %s. With this fault, it would be %s; normal is "
           "%s."), sign, what, value, with,
        without));
  text = g_strdup_printf (
      clue->seen == HOB_SEEN
          ? _ ("%s: %s (seen). Chance of seeing it: %s with this fault, %s on a normal range.")
          : _ ("%s: %s (not seen). Chance of seeing it: %s with this fault, %s on a normal range."),
      sign, what, with, without);
  if ((int) k != all->complaint || !(s->said < OTHERS * s->expected[k]))
    return g_steal_pointer (&text);
  named = hob_clue_figure (clue, s->said);
  /* Translators: after the chance of seeing what a customer complains of; a percentage. */
  return g_strdup_printf (_ ("%s Of customers whose range has this fault, %s would complain about "
                             "this; the rest would complain about something else."),
                          text, named);
}

const char *
hob_suspect_doubt (const HobSuspect *s, const GPtrArray *clues)
{
  return s->what == HOB_SUSPECT_NORMAL && hob_clues_unseen (clues) != NULL
             ? _ ("Still possible, because nobody has checked the complaint yet.")
             : NULL;
}

gboolean
hob_suspect_has_reasons (const HobSuspect *s)
{
  return s->what == HOB_SUSPECT_FAULT || s->is_line;
}

const char *
hob_suspects_unproved (const HobSuspects *all)
{
  if (((HobSuspect *) all->suspects->pdata[0])->what != HOB_SUSPECT_FAULT)
    return NULL;
  if (all->proof == HOB_PROOF_VOLTS)
    return _ ("Don't replace the part yet. First read the voltage drop across it under load.");
  return all->proof == HOB_PROOF_NONE
             ? _ ("Don't replace the part yet. Nothing has confirmed the fault.")
             : NULL;
}

/* ---- The next test ---- */

/* Why no test follows.  As HobTestVerdict. */
static const char *const verdicts[] = {
  NULL,
  N_ ("Testing stops here: one part is clearly the most likely cause."),
  N_ ("Testing stops here: no remaining test can tell the suspects apart."),
  N_ ("Testing stops here: the remaining tests would likely take more time than they could save."),
  N_ ("Testing stops here: only tests for a trained technician are left."),
};

const HobOffer *
hob_suspects_next (const HobSuspects *all)
{
  return all->stop == 0 && all->verdict == HOB_TEST_GO && all->offers->len > 0
             ? all->offers->pdata[0]
             : NULL;
}

const HobOffer *
hob_suspects_sign (const HobSuspects *all, guint k)
{
  return hob_suspects_next (all) != NULL && k < all->along ? all->offers->pdata[1 + k] : NULL;
}

const char *
hob_suspects_also (const HobSuspects *all)
{
  return hob_suspects_sign (all, 0) != NULL ? _ ("During the same run, also note:") : NULL;
}

const char *
hob_suspects_end (const HobSuspects *all)
{
  if (all->stop != 0)
    return _ ("First make it safe. Then test.");
  return _ (verdicts[all->verdict == HOB_TEST_GO ? HOB_TEST_NOTHING_TELLS : all->verdict]);
}

static const struct
{
  guint bit;
  const char *words;
} safes[] = {
  { HOB_SAFE_UNPLUGGED, N_ ("First turn off the breaker and unplug the range. Verify that the "
                            "range is dead.") },
  { HOB_SAFE_COLD, N_ ("If the range has been on, let the hot parts cool first.") },
  { HOB_SAFE_GAS_OFF, N_ ("First close the gas shutoff valve.") },
};

char *
hob_offer_means_words (const HobOffer *offer)
{
  if (offer->minutes < LEAST_TOLD)
    /* Translators: the way to do a test. */
    return g_strdup_printf (_ ("%s: less than 1 min"), _ (offer->means->words));
  /* Translators: the way to do a test, and its minutes. */
  return g_strdup_printf (_ ("%s: %.0f min"), _ (offer->means->words), offer->minutes);
}

/* A live test begins with the range unplugged, too. */
GPtrArray *
hob_offer_safe (const HobOffer *offer)
{
  GPtrArray *lines = g_ptr_array_new ();

  for (guint k = 0; k < G_N_ELEMENTS (safes); k++)
    if (offer->means->safe & safes[k].bit)
      g_ptr_array_add (lines, (gpointer) _ (safes[k].words));
  if (offer->means->danger == HOB_DANGER_LIVE && (offer->means->safe & HOB_SAFE_UNPLUGGED))
    g_ptr_array_add (lines, (gpointer) _ ("Clip on the meter leads before you plug in the range."));
  return lines;
}

char *
hob_check_words (const HobCheck *check, const char *what)
{
  HobDimension dim = hob_test_dimension (check->test);
  g_autofree char *value = NULL, *most = NULL;

  if (check->test->what == HOB_TEST_LOOK)
    /* Translators: a symptom that should be gone after the repair. */
    return g_strdup_printf (_ ("%s: should be gone"), what);
  value = hob_figure_text (check->value, dim, HOB_UNITS_TRADE, DIGITS);
  if (isfinite (check->most))
    {
      most = hob_figure_text (check->most, dim, HOB_UNITS_TRADE, DIGITS);
      /* Translators: a test, and between what it goes up and down after the repair. */
      return g_strdup_printf (_ ("%s: normally between %s and %s over three cycles"), what, value,
                              most);
    }
  /* Translators: a test, and what it should read after the repair. */
  return g_strdup_printf (_ ("%s: normally %s, within %.0f%%"), what, value, 100 * check->spread);
}

char *
hob_suspects_lights (const HobRange *range, const HobSuspects *all)
{
  const char *burner = all->lights >= 0 ? hob_part_label (&range->parts[all->lights]) : NULL;

  if (burner == NULL)
    return NULL;
  if (all->by_knob)
    return g_strdup_printf (
        /* Translators: a surface burner, and after how many seconds it should light. */
        _ ("%s: should light within %.0f s after you turn its knob to LIGHT. Try it three times."),
        burner, ceil (all->lights_after));
  return g_strdup_printf (
      /* Translators: the oven burner, and after how many seconds it should light. */
      _ ("%s: should light about %.0f s after the control calls for heat. Try it three times, once "
         "with the oven warm."),
      burner, all->lights_after);
}

HobHazards
hob_suspects_put_back (const HobRange *range, const HobSuspects *all)
{
  const HobSuspect *first = all->suspects->pdata[0];
  gboolean gas = first->part >= 0 && range->parts[first->part].kind->n_ports > 0;

  return HOB_HAZARD (PUT_BACK) | (gas ? HOB_HAZARD (GAS_JOINT) : 0);
}

/* The tests that are left out while one of the others holds count as described. */
HobHazards
hob_suspects_described (const HobSuspects *all)
{
  const HobOffer *next = hob_suspects_next (all), *sign;
  HobHazards described = next != NULL ? next->hazards : 0;

  if (all->stop != 0)
    return HOB_HAZARD_BIT (HOB_HAZARD_LIVE_TEST);
  for (guint k = 0; (sign = hob_suspects_sign (all, k)) != NULL; k++)
    described |= sign->hazards;
  return described;
}
