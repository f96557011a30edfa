/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Why a symptom is noticed: what every chain from a faulty part to a symptom has in common, over
 * the faults of the shipped ranges. */

#include "case-words.h"
#include "parts/say.h"
#include "reason/table.h"
#include "reason/why-search.h"
#include "run/differ.h"
#include "shipped.h"
#include "window/one-burner.h"

#include <math.h>
#include <string.h>

#define STRIDE 41    /* of the faults of a range, one is tried in the ordinary run */
#define LONGEST 1200 /* s of a procedure that are run in it */

typedef struct
{
  guint asked, explained, entries;
} Tally;

static const HobQuantityDef *
def_of (const HobRange *range, const HobWhyEntry *e)
{
  return &range->parts[e->part].kind->quantities[e->quantity];
}

/* ---- What must hold of each chain ---- */

static void
assert_begins_at_the_fault (const HobWhy *why, const HobHypothesis *h)
{
  const HobWhyEntry *first = &g_array_index (why->entries, HobWhyEntry, 0);

  g_assert_cmpint (first->part, ==, h->part[0]);
  g_assert_true (first->quantity >= 0 || first->act.what == HOB_ACT_FAULT);
}

static void
assert_ends_at_the_symptom (const HobBench *bench, const HobWhy *why, int symptom)
{
  g_autoptr (GArray) list = hob_symptom_watch_observables (bench->watch, symptom, why->part);
  const HobWhyEntry *last
      = &g_array_index (why->entries, HobWhyEntry, why->entries->len - 1);
  gboolean found = FALSE;

  for (guint k = 0; k < list->len; k++)
    found = found || (g_array_index (list, HobObservable, k).part == last->part
                      && g_array_index (list, HobObservable, k).quantity == last->quantity);
  g_assert_true (found);
}

static void
assert_in_order (const HobWhy *why)
{
  double since = 0, t = 0;

  for (guint k = 0; k < why->entries->len; k++)
    {
      const HobWhyEntry *e = &g_array_index (why->entries, HobWhyEntry, k);

      g_assert_cmpfloat (e->since, >=, since);
      g_assert_cmpfloat (e->t, >=, fmax (t, e->since));
      g_assert_cmpfloat (e->t, <=, why->t);
      since = e->since;
      t = e->t;
    }
}

/* A run of its own, of what was done, has the same figures, and they differ; the sentence says
 * both. */
static void
assert_figures (const HobBench *idle, const HobWhy *why)
{
  const HobRange *range = hob_bench_range (idle);
  g_autoptr (HobBench) again = hob_bench_again (idle, why->acts);
  g_autoptr (HobMoment) m = hob_bench_moment_new (idle);

  g_assert_cmpint (hob_bench_advance (again, why->t + 1, NULL), ==, HOB_RUN_OK);
  for (guint k = 0; k < why->entries->len; k++)
    {
      const HobWhyEntry *e = &g_array_index (why->entries, HobWhyEntry, k);
      g_autofree char *words = hob_why_words (range, e), *value = NULL, *normal = NULL;
      double read;

      if (e->quantity < 0)
        continue;
      value = hob_quantity_text_of (def_of (range, e), e->value, 3, &e->fuel);
      normal = hob_quantity_text_of (def_of (range, e), e->should_be, 3, &e->fuel);
      g_assert_true (def_of (range, e)->never <= 0 || e->value < def_of (range, e)->never
                     || strstr (words, "none yet") != NULL);
      g_assert_true (hob_run_read (again->run, e->t, m));
      read = hob_moment_quantity (m, e->part, e->quantity);
      g_assert_true (read == e->value || (isnan (read) && isnan (e->value)));
      g_assert_cmpfloat (e->value, !=, e->should_be);
      g_assert_true (hob_differs (e->value, e->should_be, def_of (range, e)->dim)
                     || def_of (range, e)->least > 0 || k + 1 == why->entries->len);
      g_assert_nonnull (strstr (words, value));
      g_assert_nonnull (strstr (words, normal));
    }
}

/* Each part but the one at which the symptom is noticed, and those that only pass on what comes
 * from one that heals: nothing was done to them. */
static void
assert_heals (HobBench *bench, const HobWhy *why, int symptom, const HobHypothesis *h)
{
  int last = g_array_index (why->entries, HobWhyEntry, why->entries->len - 1).part;

  for (guint k = 0; k < why->entries->len; k++)
    {
      const HobWhyEntry *e = &g_array_index (why->entries, HobWhyEntry, k);

      if (e->passes_on)
        g_assert_true (k > 0 && e->part != h->part[0]);
      else if (e->part != why->part && e->part != last)
        g_assert_true (hob_why_heals (bench, why, symptom, e->part));
    }
}

/* ---- Every fault × symptom ---- */

static void
ask (HobBench *bench, const HobBench *idle, const HobHypothesis *h, const HobEvent *event,
     Tally *tally)
{
  g_autoptr (GPtrArray) all = hob_why (bench, event->index, event->part, NULL);
  const HobWhy *why;

  g_assert_cmpuint (all->len, ==, 1);
  why = all->pdata[0];
  tally->asked++;
  if (why->entries->len == 0)
    {
      g_autofree char *fault = hob_hypothesis_text (hob_bench_range (idle), h);

      g_test_message ("no chain: %s, %s at %.1f s", fault,
                      hob_symptom_book_get (idle->book, event->index)->id, event->t);
      return;
    }
  tally->explained++;
  tally->entries += why->entries->len;
  g_assert_cmpuint (why->entries->len, <=, HOB_WHY_MOST);
  assert_begins_at_the_fault (why, h);
  assert_ends_at_the_symptom (bench, why, event->index);
  assert_in_order (why);
  assert_figures (idle, why);
  assert_heals (bench, why, event->index, h);
}

/* Each symptom of the fault the first time that it is noticed. */
static void
ask_all (const HobBench *idle, const HobHypothesis *h, const char *procedure, gboolean *asked,
         Tally *tally)
{
  const HobRange *range = hob_bench_range (idle);
  g_autofree char *fault = hob_hypothesis_text (range, h);
  const char *words[] = { fault, NULL };
  double until;
  g_autoptr (HobCase) acts = case_of (range, procedure, words, &until);
  g_autoptr (HobBench) bench = hob_bench_again (idle, acts);
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (HobEvent));
  guint first, n;

  until = full_sweep () ? until : fmin (until, LONGEST);
  if (hob_bench_advance (bench, until, NULL) != HOB_RUN_OK)
    return;
  n = hob_run_events (bench->run, -1, until, &first);
  for (guint k = first; k < first + n; k++)
    if (hob_run_event (bench->run, k)->what == HOB_EVENT_SYMPTOM
        && !asked[hob_run_event (bench->run, k)->index])
      {
        asked[hob_run_event (bench->run, k)->index] = TRUE;
        g_array_append_val (events, *hob_run_event (bench->run, k));
      }
  for (guint k = 0; k < events->len; k++)
    {
      g_autoptr (HobBench) fresh = hob_bench_again (idle, acts);

      g_assert_cmpint (hob_bench_advance (fresh, g_array_index (events, HobEvent, k).t + 1, NULL),
                       ==, HOB_RUN_OK);
      ask (fresh, idle, h, &g_array_index (events, HobEvent, k), tally);
    }
}

static void
sweep (const char *name, Tally *tally)
{
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (GArray) faults = hob_hypotheses_single (range);
  g_auto (GStrv) procedures = hob_procedure_names (range);
  gsize n = (gsize) hob_symptom_book_size (idle->book);

  for (guint k = 0; k < faults->len; k += full_sweep () ? 1 : STRIDE)
    {
      g_autofree gboolean *asked = g_new0 (gboolean, n);

      for (char **procedure = procedures; *procedure != NULL; procedure++)
        ask_all (idle, &g_array_index (faults, HobHypothesis, k), *procedure, asked, tally);
    }
}

static void
chains_hold (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();
  Tally tally = { 0 };

  for (char **name = ranges; *name != NULL; name++)
    {
      Tally before = tally;

      sweep (*name, &tally);
      g_test_message ("%s: %u of %u symptoms explained", *name,
                      tally.explained - before.explained, tally.asked - before.asked);
    }
  g_test_message ("%u of %u symptoms explained, %u entries", tally.explained, tally.asked,
                  tally.entries);
  g_assert_cmpuint (tally.explained, ==, tally.asked);
}

/* ---- Single chains ---- */

/* "part.quantity part.quantity …"; "part:fault" where the fault itself is the entry. */
static char *
links_of (const HobRange *range, const HobWhy *why)
{
  GString *out = g_string_new (NULL);

  for (guint k = 0; k < why->entries->len; k++)
    {
      const HobWhyEntry *e = &g_array_index (why->entries, HobWhyEntry, k);
      const HobPart *part = &range->parts[e->part];

      if (k > 0)
        g_string_append_c (out, ' ');
      if (e->quantity < 0)
        g_string_append_printf (out, "%s:%s", part->id, part->kind->faults[e->act.index].id);
      else
        g_string_append_printf (out, "%s.%s", part->id, def_of (range, e)->name);
    }
  return g_string_free (out, FALSE);
}

typedef struct
{
  HobRange *range;
  HobBench *bench;
  GPtrArray *chains;
  const HobWhy *why; /* the first */
  char *links;
} Asked;

static void
asked_clear (Asked *a)
{
  g_free (a->links);
  g_ptr_array_unref (a->chains);
  hob_bench_free (a->bench);
  hob_range_unref (a->range);
}

/* Why a range with one fault shows a symptom in a procedure: there is one chain. */
static Asked
asked (const char *name, const char *fault, const char *procedure, const char *symptom)
{
  Asked a = { .range = shipped_range (name) };
  const char *words[] = { fault, NULL };
  double until;
  g_autoptr (HobCase) acts = case_of (a.range, procedure, words, &until);

  a.bench = hob_bench_new (NULL, a.range, acts, NULL);
  g_assert_cmpint (hob_bench_advance (a.bench, until, NULL), ==, HOB_RUN_OK);
  a.chains = hob_why (a.bench, hob_symptom_book_find (a.bench->book, symptom), -1, NULL);
  g_assert_cmpuint (a.chains->len, ==, 1);
  a.why = a.chains->pdata[0];
  a.links = links_of (a.range, a.why);
  g_test_message ("%s %s: %s", fault, symptom, a.links);
  return a;
}

static void
assert_begins (const char *name, const char *fault, const char *procedure, const char *symptom,
               const char *begin)
{
  Asked a = asked (name, fault, procedure, symptom);

  g_assert_true (g_str_has_prefix (a.links, begin));
  asked_clear (&a);
}

/* Nothing of its own can be read, or what keeps the symptom away is not the part by itself. */
static void
the_only_fault_explains (void)
{
  assert_begins ("reignite-six", "receptacle:reversed", "light-knob-lf", "sparks-never-stop",
                 "receptacle:reversed ");
  assert_begins ("reignite-six", "house:neutral-floats", "light-knob-lf", "sparks-never-stop",
                 "house:neutral-floats ");
  assert_begins ("reignite-six", "cord:neutral-pinched", "all-off-1min", "interrupter-trips",
                 "cord:neutral-pinched ");
  assert_begins ("dial-four", "door:gasket-torn", "bake-350", "heat-at-door",
                 "door:gasket-torn ");
  assert_begins ("dial-four", "breaker:open", "light-knob-lf", "no-spark-any", "breaker:open ");
  assert_begins ("round-dial", "cord:line-blade-burned=0.5", "bake-350", "joint-brown",
                 "cord:line-blade-burned ");
  assert_begins ("reignite-six", "electrode-cf:gap-wide", "light-knob-cf", "gas-smell",
                 "electrode-cf.");
}

static void
assert_chain (const char *name, const char *fault, const char *procedure, const char *symptom,
              const char *links)
{
  Asked a = asked (name, fault, procedure, symptom);

  g_assert_cmpstr (a.links, ==, links);
  asked_clear (&a);
}

/* A burned splice cools the igniter and shuts the valve: both are needed, so neither heals alone,
 * and a warmer oven, which would, is not the cause. */
static void
what_only_passes_on_is_told (void)
{
  assert_chain ("round-dial", "splice-bake:burned=0.5", "bake-350", "glow-no-flame",
                "splice-bake.volts valve-bake.current valve-bake.arm valve-bake.opening "
                "valve-bake.flow burner-bake.flame");
  assert_chain ("round-dial", "cord:line-blade-burned=0.5", "bake-350", "glow-dull",
                "cord.joint-temperature igniter-bake.volts igniter-bake.current "
                "igniter-bake.temperature burner-bake.glow");
  assert_chain ("dial-four", "breaker:open", "bake-350", "stays-cold",
                "breaker.current valve-bake.current valve-bake.arm valve-bake.opening "
                "valve-bake.flow burner-bake.heat cavity.air");
}

static const HobWhyEntry *
last_of (const Asked *a)
{
  return &g_array_index (a->why->entries, HobWhyEntry, a->why->entries->len - 1);
}

/* From the beginning to the first flame; a normal one lights then too, only earlier, and showed
 * that at its own time. */
static void
what_is_shown_briefly_is_compared_with_the_same (void)
{
  Asked a = asked ("dial-four", "receptacle:neutral-resistance=0.5", "bake-350", "lights-slowly");

  g_assert_cmpstr (def_of (a.range, last_of (&a))->name, ==, "waited");
  g_assert_cmpfloat_with_epsilon (last_of (&a)->value, a.why->t, 1);
  g_assert_cmpfloat (last_of (&a)->should_be, >, 30);
  g_assert_cmpfloat (last_of (&a)->should_be, <, 53);
  asked_clear (&a);
}

static void
assert_end_is_of_the_whole (const char *name, const char *fault, const char *symptom)
{
  Asked a = asked (name, fault, "bake-350", symptom);
  g_autoptr (HobMoment) m = hob_bench_moment_new (a.bench);
  const HobWhyEntry *last = last_of (&a);

  g_assert_true (last->whole);
  hob_run_read (hob_bench_twin (a.bench), last->t, m);
  g_assert_cmpfloat (last->should_be, ==, hob_moment_quantity (m, last->part, last->quantity));
  asked_clear (&a);
}

/* The step twin's oven is as hot as the faulty one, and has the faulty one's swing. */
static void
a_cycle_is_compared_with_a_normal_cycle (void)
{
  Asked a = asked ("dial-four", "valve-bake:slow-to-close", "bake-350", "wide-swing");
  g_autoptr (HobMoment) m = hob_bench_moment_new (a.bench);
  const HobWhyEntry *last = last_of (&a);
  const HobWhyEntry *first = &g_array_index (a.why->entries, HobWhyEntry, 0);

  /* Nor is what is about to close in both a figure. */
  g_assert_cmpfloat (first->value, >, first->should_be + 0.9);
  g_assert_cmpstr (def_of (a.range, last)->name, ==, "swing");
  hob_run_read (hob_bench_twin (a.bench), last->t, m);
  g_assert_cmpfloat (last->should_be, ==, hob_moment_quantity (m, last->part, last->quantity));
  asked_clear (&a);
  assert_end_is_of_the_whole ("board-five", "sensor:plug-corroded", "runs-cool");
  assert_end_is_of_the_whole ("dial-four", "bulb:on-bottom", "runs-cool");
  assert_end_is_of_the_whole ("dial-four", "oven:calibration-high", "runs-hot");
  /* An average is no matter of when the valve happens to be open. */
  assert_chain ("board-five", "sensor:plug-corroded", "bake-350", "runs-cool",
                "sensor.ohms oven.ohms cavity.middle");
  assert_chain ("dial-four", "oven:calibration-high", "bake-350", "runs-hot",
                "oven.contact cavity.middle");
  assert_chain ("reignite-six", "burner-cf:cap-missing", "light-knob-cf", "no-spark-one",
                "burner-cf.capped electrode-cf.gap electrode-cf.rate");
  assert_chain ("dial-four", "burner-bake:orifice-clogged", "bake-350", "slow-preheat",
                "burner-bake.gas burner-bake.heat cavity.short-of-dial");
}

/* What links of a kind, floors of its quantities and the air add. */
static void
gas_and_small_currents_lead_on (void)
{
  assert_chain ("lp-four", "cavity:vent-covered", "bake-350", "headache",
                "cavity.vent cavity.co house.co house.blood");
  assert_chain ("reignite-six", "receptacle:reversed", "light-knob-lf", "sparks-never-stop",
                "receptacle:reversed module.flame-current module.rate electrode-lf.ticking");
  assert_chain ("reignite-six", "cord:neutral-pinched", "all-off-1min", "interrupter-trips",
                "cord:neutral-pinched interrupter.leakage interrupter.tripped");
  assert_chain ("round-dial", "splice-bake:burned", "bake-350", "hot-joint",
                "splice-bake.volts splice-bake.joint-temperature splice-bake.joint-smell");
}

static void
assert_says (const char *name, const char *fault, const char *procedure, const char *symptom,
             const char *sentence)
{
  Asked a = asked (name, fault, procedure, symptom);
  g_autofree char *words = hob_why_words (a.range, last_of (&a));

  g_assert_cmpstr (words, ==, sentence);
  asked_clear (&a);
}

static void
an_end_is_a_sentence (void)
{
  assert_says ("board-five", "sensor:plug-corroded", "bake-350", "runs-cool",
               "Oven cavity: The oven averages 18.7 °F below the set temperature. Normal is "
               "8.99 °F above.");
  assert_says ("dial-four", "burner-bake:ports-clogged", "bake-350", "late-light-whoosh",
               "Bake burner, strength of the last delayed ignition: whoosh, should be none.");
}

/* What flows is said by the heat that it carries, which is that of the flame. */
static void
nobody_weighs_gas (void)
{
  Asked a = asked ("dial-four", "burner-bake:orifice-clogged", "bake-350", "slow-preheat");
  const HobWhyEntry *gas = &g_array_index (a.why->entries, HobWhyEntry, 0);
  const HobWhyEntry *heat = &g_array_index (a.why->entries, HobWhyEntry, 1);
  g_autofree char *flows = hob_quantity_text_of (def_of (a.range, gas), gas->value, 3, &gas->fuel);
  g_autofree char *burns
      = hob_quantity_text_of (def_of (a.range, heat), heat->value, 3, &heat->fuel);

  g_assert_cmpstr (def_of (a.range, gas)->name, ==, "gas");
  g_assert_cmpstr (flows, ==, burns);
  g_assert_true (g_str_has_suffix (flows, " Btu/h"));
  asked_clear (&a);
}

/* ---- No chain ---- */

/* Why dial-four shows a symptom after these acts; case-words.h. (transfer full) */
static GPtrArray *
chains_of (const char *words, double until, const char *symptom)
{
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobBench) bench = NULL;

  case_add_list (acts, words);
  bench = hob_bench_new (NULL, range, acts, NULL);
  g_assert_cmpint (hob_bench_advance (bench, until, NULL), ==, HOB_RUN_OK);
  return hob_why (bench, hob_symptom_book_find (bench->book, symptom), -1, NULL);
}

static void
what_was_not_noticed_has_no_chain (void)
{
  g_autoptr (GPtrArray) chains
      = chains_of ("igniter-bake:aged|0s oven.mode=bake", 60, "glow-no-flame");

  g_assert_cmpuint (chains->len, ==, 0);
}

/* A hand that lets gas out without a spark: the fault is there, and has nothing to do with it. */
static void
what_a_hand_does_has_no_chain (void)
{
  g_autoptr (GPtrArray) chains
      = chains_of ("house:pipe-not-grounded|0s cord.plug=out|1s knob-lf=high", 120, "gas-smell");
  const HobWhy *why;

  g_assert_cmpuint (chains->len, ==, 1);
  why = chains->pdata[0];
  g_assert_cmpuint (why->entries->len, ==, 0);
}

/* The house's pressure is low, and only later there is a fault. */
static void
a_later_fault_explains_nothing (void)
{
  g_autoptr (GPtrArray) chains
      = chains_of ("house.gas-pressure=300|1s knob-lf=light|8s knob-lf=high|igniter-bake:aged@90s",
                   120, "flame-small");
  const HobWhy *why;

  g_assert_cmpuint (chains->len, ==, 1);
  why = chains->pdata[0];
  g_assert_cmpfloat (why->t, <, 90);
  g_assert_cmpuint (why->entries->len, ==, 0);
}

/* Of two faults only one shows it: there is one chain, and it is that one's. */
static void
a_fault_that_shows_something_else_has_no_chain (void)
{
  g_autoptr (GPtrArray) chains = chains_of (
      "house:pipe-not-grounded|igniter-bake:aged|0s oven.mode=bake", 200, "glow-no-flame");
  const HobWhy *why;

  g_assert_cmpuint (chains->len, ==, 1);
  why = chains->pdata[0];
  g_assert_cmpuint (why->acts->acts->len, ==, 2);
  g_assert_cmpuint (why->entries->len, >, 0);
}

/* A regulator that is set a little low and an orifice that is a little clogged: neither alone makes
 * the flame small, and the gas comes from the one to the other.  How low it burns is told, not how
 * much later it was lit. */
static void
two_that_are_needed_are_one_chain (void)
{
  g_autoptr (GPtrArray) chains
      = chains_of ("regulator:set-low=0.5|burner-lf:orifice-clogged=0.15|1s knob-lf=light|"
                   "8s knob-lf=high",
                   60, "flame-small");
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  const HobWhy *why;
  g_autofree char *links = NULL;

  g_assert_cmpuint (chains->len, ==, 1);
  why = chains->pdata[0];
  links = links_of (range, why);
  g_test_message ("%s", links);
  g_assert_cmpstr (links, ==,
                   "regulator:set-low regulator.pressure burner-lf:orifice-clogged burner-lf.gas "
                   "burner-lf.heat burner-lf.flame-height");
  for (guint k = 3; k < why->entries->len; k++)
    g_assert_cmpfloat (g_array_index (why->entries, HobWhyEntry, k).value, >, 0);
}

/* A bulb that lies a little on the oven bottom and a thermostat that is a little low: what differs
 * at the thermostat is the bulb's doing too, so that its own fault is named. */
static void
each_that_is_needed_is_named (void)
{
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  const char *words[] = { "bulb:on-bottom=0.1", "oven:calibration-low=0.2", NULL };
  double until;
  g_autoptr (HobCase) acts = case_of (range, "bake-350", words, &until);
  g_autoptr (HobBench) bench = hob_bench_new (NULL, range, acts, NULL);
  g_autoptr (GPtrArray) chains = NULL;
  g_autofree char *links = NULL;

  g_assert_cmpint (hob_bench_advance (bench, 1300, NULL), ==, HOB_RUN_OK);
  chains = hob_why (bench, hob_symptom_book_find (bench->book, "runs-cool"), -1, NULL);
  g_assert_cmpuint (chains->len, ==, 1);
  links = links_of (range, chains->pdata[0]);
  g_test_message ("%s", links);
  g_assert_true (g_str_has_prefix (links, "bulb:on-bottom "));
  g_assert_nonnull (strstr (links, " oven:calibration-low "));
}

#define HOUSE_ENDS "y='200'/></part>"

/* Why a burner smells of gas, in a range with its house first, or last. */
static char *
links_with_house (gboolean last)
{
  const char *house = strstr (one_burner_text, "<part id='house'"),
             *after = strstr (house, HOUSE_ENDS) + strlen (HOUSE_ENDS),
             *wires = strstr (after, "<wire ");
  g_autoptr (GString) text = g_string_new_len (one_burner_text, house - one_burner_text);
  g_autoptr (HobRange) range = NULL;
  g_autoptr (HobCase) acts = NULL;
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (GPtrArray) chains = NULL;
  g_autoptr (GError) error = NULL;

  if (!last)
    g_string_append_len (text, house, after - house);
  g_string_append_len (text, after, wires - after);
  if (last)
    g_string_append_len (text, house, after - house);
  g_string_append (text, wires);
  range = hob_range_load_memory (text->str, text->len, "one.xml", NULL, &error);
  g_assert_no_error (error);
  acts = hob_case_new (range);
  case_add_list (acts, "electrode:lead-open|1s knob=light");
  bench = hob_bench_new (NULL, range, acts, NULL);
  g_assert_cmpint (hob_bench_advance (bench, 60, NULL), ==, HOB_RUN_OK);
  chains = hob_why (bench, hob_symptom_book_find (bench->book, "gas-smell"), -1, NULL);
  g_assert_cmpuint (chains->len, ==, 1);
  return links_of (range, chains->pdata[0]);
}

static void
the_house_is_found_wherever_it_stands (void)
{
  g_autofree char *first = links_with_house (FALSE), *last = links_with_house (TRUE);

  g_test_message ("%s", first);
  g_assert_nonnull (strstr (first, "electrode"));
  g_assert_cmpstr (last, ==, first);
}

static Course
course (const HobRange *range, const char *part, const char *quantity, double since)
{
  int p = hob_range_part (range, part);

  return (Course){ .part = p, .since = since,
                   .quantity = hob_kind_quantity (range->parts[p].kind, quantity) };
}

/* The burner glows by the igniter in it.  That the oven around it is at another temperature, too,
 * and has been for longer, is none of its doing: air only takes on what heats it. */
static void
what_only_takes_heat_on_is_no_way (void)
{
  g_autoptr (GPtrArray) courses = g_ptr_array_new (), starts = g_ptr_array_new (), way = NULL;
  g_autoptr (GArray) looks = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (HobComparison) comparison = NULL;
  Course air = course (range, "cavity", "air", 10),
         hot = course (range, "igniter-bake", "temperature", 20),
         glow = course (range, "burner-bake", "glow", 30), fault = hot;
  const HobWhyEntry end = { .part = glow.part, .quantity = glow.quantity, .since = glow.since };
  const double last = 40;

  case_add_list (acts, "igniter-bake:aged|0s oven.mode=bake");
  bench = hob_bench_new (NULL, range, acts, NULL);
  comparison = hob_comparison_new (bench->plan);
  g_assert_true (hob_why_advance (bench, last, NULL));
  g_array_append_val (looks, last);
  g_ptr_array_add (courses, &air);
  g_ptr_array_add (courses, &hot);
  fault.since = 0;
  g_ptr_array_add (starts, &fault);
  g_assert_cmpint (air.part, <, hot.part);
  way = hob_why_trace (&(Search){ .bench = bench, .looks = looks, .courses = courses,
                                  .comparison = comparison },
                       starts, &end);
  g_assert_nonnull (way);
  g_assert_cmpuint (way->len, ==, 1);
  g_assert_true (way->pdata[0] == &hot);
}

/* Nobody waits for what is no longer asked, whenever that is said. */
static gpointer
cancel_soon (gpointer cancel)
{
  g_usleep (20000);
  g_atomic_int_set ((gint *) cancel, 1);
  return NULL;
}

static void
a_search_is_cancelled (void)
{
  const char *words[] = { "oven:calibration-low=1", NULL };
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  double until;
  g_autoptr (HobCase) acts = case_of (range, "bake-350", words, &until);
  g_autoptr (HobBench) bench = hob_bench_new (NULL, range, acts, NULL);
  gint cancel = 0;
  GThread *other = g_thread_new ("cancel", cancel_soon, &cancel);
  gint64 begun = g_get_monotonic_time ();

  g_assert_false (hob_why_advance (bench, 1e6, &cancel));
  g_test_message ("ended %.0f ms after it began, told after 20 ms",
                  (double) (g_get_monotonic_time () - begun) / 1000);
  g_assert_cmpfloat (hob_run_reached (bench->run), <, 1e6);
  g_thread_join (other);
  g_assert_cmpint (hob_bench_advance (bench, until, NULL), ==, HOB_RUN_OK);
  g_assert_null (hob_why (bench, hob_symptom_book_find (bench->book, "runs-cool"), -1, &cancel));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reason/why/every-chain-holds", chains_hold);
  g_test_add_func ("/reason/why/the-only-fault-explains", the_only_fault_explains);
  g_test_add_func ("/reason/why/what-only-passes-on-is-told", what_only_passes_on_is_told);
  g_test_add_func ("/reason/why/what-is-shown-briefly-is-compared-with-the-same",
                   what_is_shown_briefly_is_compared_with_the_same);
  g_test_add_func ("/reason/why/a-cycle-is-compared-with-a-normal-cycle",
                   a_cycle_is_compared_with_a_normal_cycle);
  g_test_add_func ("/reason/why/gas-and-small-currents-lead-on", gas_and_small_currents_lead_on);
  g_test_add_func ("/reason/why/an-end-is-a-sentence", an_end_is_a_sentence);
  g_test_add_func ("/reason/why/nobody-weighs-gas", nobody_weighs_gas);
  g_test_add_func ("/reason/why/what-was-not-noticed-has-no-chain",
                   what_was_not_noticed_has_no_chain);
  g_test_add_func ("/reason/why/what-a-hand-does-has-no-chain", what_a_hand_does_has_no_chain);
  g_test_add_func ("/reason/why/a-later-fault-explains-nothing", a_later_fault_explains_nothing);
  g_test_add_func ("/reason/why/a-fault-that-shows-something-else-has-no-chain",
                   a_fault_that_shows_something_else_has_no_chain);
  g_test_add_func ("/reason/why/two-that-are-needed-are-one-chain",
                   two_that_are_needed_are_one_chain);
  g_test_add_func ("/reason/why/each-that-is-needed-is-named", each_that_is_needed_is_named);
  g_test_add_func ("/reason/why/the-house-is-found-wherever-it-stands",
                   the_house_is_found_wherever_it_stands);
  g_test_add_func ("/reason/why/what-only-takes-heat-on-is-no-way",
                   what_only_takes_heat_on_is_no_way);
  g_test_add_func ("/reason/why/a-search-is-cancelled", a_search_is_cancelled);
  return g_test_run ();
}
