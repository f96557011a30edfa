/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "rivals.h"

#include "reason/ahead.h"
#include "reason/checks.h"
#include "reason/effort.h"
#include "reason/offers.h"

#include <math.h>
#include <stdlib.h>

#define APART 2.0  /* standard deviations, by which a reading is told from a normal range's */
#define LIKELY 0.05 /* of a suspect's chance to show the complaint: below it the list has it not */
#define LOOKS 2     /* for the same, where the first finds something: eyes err */
#define FIRST 14    /* of the tests that are offered, those that an insider thinks of */
#define MOST_TESTS 20

/* Types what @test reads on top of @clues.  FALSE: it reads nothing. */
static gboolean
type_in (Shop *shop, const Truth *truth, const HobTest *test, guint64 seed, GPtrArray *clues)
{
  g_autofree char *line = technician_reads (shop, truth, test, seed, clues->len);
  HobClue *clue = line != NULL ? hob_clue_reading (shop->idle, line, NULL) : NULL;

  if (clue != NULL)
    g_ptr_array_add (clues, clue);
  return clue != NULL;
}

static HobSuspects *
suspects_of (Shop *shop, const GPtrArray *clues)
{
  g_autoptr (HobCase) base = hob_case_new (shop->range);

  return hob_suspects_new (shop->trials, base, clues, HOB_SKILL_TECHNICIAN, shop->priors);
}

/* ---- With a list on paper ---- */

/* Of a fault of the list: its quickest test; NULL: none tells it from a normal range. */
typedef struct
{
  HobTest *test;  /* owned */
  HobTest *volts; /* owned; of amps: volts across the part in the same run; NULL */
  double minutes, set_up;
  int behind; /* the place where it is opened for it, −1: none */
} Check;

static void
check_clear (Check *check)
{
  g_clear_pointer (&check->test, hob_test_free);
  g_clear_pointer (&check->volts, hob_test_free);
}

/* Takes @test, if it is quicker than what is there. */
static void
take (const Shop *shop, Check *check, HobTest *test, HobTest *volts, const HobMeansDef *means,
      double minutes)
{
  if (check->test != NULL && minutes >= check->minutes)
    {
      hob_test_free (test);
      g_clear_pointer (&volts, hob_test_free);
      return;
    }
  check_clear (check);
  *check = (Check){ test, volts, minutes, means->set_up, hob_effort_behind (shop->range, test) };
}

/* Volts across the part, where a meter reaches both ends of it; NULL.  (transfer full) */
static HobTest *
volts_across (const Shop *shop, const HobCase *house, const HobOccasion *o, double t, int part)
{
  const GPtrArray *tests = hob_trials_tests (shop->trials);

  for (guint k = 0; k < tests->len; k++)
    {
      const HobTest *test = ((const HobListedTest *) tests->pdata[k])->test;

      if (hob_is_volts_across (test, part))
        return hob_occasion_test (house, o, t, test);
    }
  return NULL;
}

/* No igniter is condemned by its amps without the volts that it had then. */
static void
take_reading (const Shop *shop, const HobCase *house, Check *check, const HobListedTest *listed,
              const HobOccasion *o, double t, int part)
{
  double minutes = hob_effort_first (listed->means, o, t);
  HobTest *volts = NULL;

  if (listed->means == &hob_means[HOB_MEANS_AMPS])
    volts = volts_across (shop, house, o, t, part);
  if (volts != NULL)
    minutes += hob_effort_first (&hob_means[HOB_MEANS_LIVE_VOLTS], o, t)
               - hob_means[HOB_MEANS_LIVE_VOLTS].set_up;
  take (shop, check, hob_occasion_test (house, o, t, listed->test), volts, listed->means, minutes);
}

static const HobListed *
listed_at (const Shop *shop, guint fault)
{
  return &g_array_index (hob_trials_faults (shop->trials), HobListed, fault);
}

/* Readings at time t that differ from a normal range's at the faults' own parts. */
static void
take_readings (const Shop *shop, const HobCase *house, const HobOccasion *o, double t,
               Check *checks)
{
  const GPtrArray *tests = hob_trials_tests (shop->trials);
  guint n_faults = hob_trials_faults (shop->trials)->len;
  const HobScatter *spread;
  const float *answers = hob_trials_readings (shop->trials, o->acts, t, &spread);

  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];
      HobExpected normal = hob_expected_of ((double) answers[k], listed->dim, &spread[k]);

      for (guint f = 0; f < n_faults && hob_occasion_suits (o, listed->test); f++)
        {
          const HobListed *fault = listed_at (shop, f);
          HobExpected with
              = hob_expected_of ((double) answers[(gsize) fault->same_run * tests->len + k],
                                 listed->dim, &spread[k]);

          if (hob_test_at_part (shop->range, listed->test, fault->h.part[0])
              && hob_offer_is_for (listed->means, HOB_SKILL_TECHNICIAN)
              && hob_expected_apart (&with, &normal, listed->dim, APART))
            take_reading (shop, house, &checks[f], listed, o, t, fault->h.part[0]);
        }
    }
}

static Check *
find_checks (const Shop *shop)
{
  g_autoptr (HobCase) house = hob_case_new (shop->range);
  g_auto (GStrv) names = hob_procedure_names (shop->range);
  g_autoptr (GPtrArray) all = hob_occasions_new (house, names);
  Check *checks = g_new0 (Check, hob_trials_faults (shop->trials)->len + 1);

  for (guint k = 0; k < all->len; k++)
    {
      const HobOccasion *o = all->pdata[k];

      hob_trials_prepare (shop->trials, o->acts, o->until, o->moments);
      for (guint i = 0; i < o->moments->len; i++)
        take_readings (shop, house, o, g_array_index (o->moments, double, i), checks);
    }
  return checks;
}

/* Of the range that was asked about last. */
static const Check *
checks_of (const Shop *shop)
{
  static const Shop *of;
  static Check *checks; /* lives as long as the program */

  if (of != shop)
    checks = find_checks (shop);
  of = shop;
  return checks;
}

typedef struct
{
  double worth;
  const Check *check;
} Line;

static int
most_first (const void *a, const void *b)
{
  const Line *x = a, *y = b;

  return x->worth > y->worth ? -1 : x->worth < y->worth;
}

/* The most prior for its minutes first.  (transfer full) */
static GArray *
list_for (const Shop *shop, const HobSuspects *all)
{
  GArray *list = g_array_new (FALSE, FALSE, sizeof (Line));
  const Check *checks = checks_of (shop);

  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      if (s->what != HOB_SUSPECT_FAULT || s->part2 >= 0 || !(s->expected[0] > LIKELY))
        continue;
      for (guint f = 0; f < hob_trials_faults (shop->trials)->len; f++)
        if (listed_at (shop, f)->h.part[0] == s->part && listed_at (shop, f)->h.fault[0] == s->fault
            && checks[f].test != NULL)
          {
            Line line = { s->prior / checks[f].minutes, &checks[f] };

            g_array_append_val (list, line);
          }
    }
  qsort (list->data, list->len, sizeof (Line), most_first);
  return list;
}

/* What is at work: what was typed so far, and where the range was opened. */
typedef struct
{
  Shop *shop;
  const Truth *truth;
  guint64 seed;
  GPtrArray *clues; /* HobClue * */
  gboolean *open;   /* of each part */
  RivalOutcome out;
} Work;

/* @nth: of its looks.  Was anything seen? */
static gboolean
read_one (Work *w, const HobTest *test, int nth)
{
  HobTest again = *test;

  again.time += nth;
  return type_in (w->shop, w->truth, &again, w->seed, w->clues) && hob_test_is_seen (test)
         && ((HobClue *) w->clues->pdata[w->clues->len - 1])->seen == HOB_SEEN;
}

static void
make (Work *w, const Check *check)
{
  gboolean opens = check->set_up > 0 && check->behind >= 0;
  int nth = 0;

  do
    {
      w->out.minutes += check->minutes - (opens && w->open[check->behind] ? check->set_up : 0);
      w->out.tests++;
      if (opens)
        w->open[check->behind] = TRUE;
    }
  while (read_one (w, check->test, nth) && ++nth < LOOKS);
  if (check->volts != NULL)
    read_one (w, check->volts, 0);
}

/* Was the same test made for a line above the k-th? */
static gboolean
is_made (const Shop *shop, const GArray *list, guint k)
{
  g_autofree char *text = hob_test_text (shop->range, g_array_index (list, Line, k).check->test);

  for (guint i = 0; i < k; i++)
    {
      g_autofree char *other
          = hob_test_text (shop->range, g_array_index (list, Line, i).check->test);

      if (g_str_equal (text, other))
        return TRUE;
    }
  return FALSE;
}

RivalOutcome
rival_list (Shop *shop, const Truth *truth, const char *complaint, guint64 seed)
{
  g_autoptr (GPtrArray) clues = technician_complaint (shop, complaint);
  g_autofree gboolean *open = g_new0 (gboolean, shop->range->n_parts + 1);
  HobSuspects *all = suspects_of (shop, clues);
  g_autoptr (GArray) list = list_for (shop, all);
  Work w = { shop, truth, seed, clues, open, { 0 } };

  for (guint k = 0; k < list->len && all->verdict != HOB_TEST_SURE; k++)
    {
      if (is_made (shop, list, k))
        continue;
      make (&w, g_array_index (list, Line, k).check);
      hob_suspects_free (all);
      all = suspects_of (shop, clues);
    }
  w.out.right = technician_is_right (shop, truth, all);
  hob_suspects_free (all);
  return w.out;
}

/* ---- With the answer in a pocket ---- */

static double
odds_of (const Truth *truth, const HobSuspects *all)
{
  double p = CLAMP (technician_true_share (truth, all), 1e-9, 1 - 1e-9);

  return log2 (p / (1 - p));
}

/* What is worth most of what is offered; −1: nothing answers. */
static int
best_offer (Shop *shop, const Truth *truth, const HobSuspects *all, guint64 seed, GPtrArray *clues)
{
  double proved = INFINITY, most = -INFINITY, odds = odds_of (truth, all);
  int best = -1;

  for (guint k = 0; k < MIN (all->offers->len, FIRST); k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      g_autoptr (HobSuspects) then = NULL;
      double gain;

      if (!type_in (shop, truth, offer->test, seed, clues))
        continue;
      then = suspects_of (shop, clues);
      g_ptr_array_set_size (clues, (int) clues->len - 1);
      gain = (odds_of (truth, then) - odds) / offer->minutes;
      if (then->verdict == HOB_TEST_SURE && technician_is_right (shop, truth, then))
        {
          best = offer->minutes < proved ? (int) k : best;
          proved = fmin (proved, offer->minutes);
        }
      else if (isinf (proved) && gain > most)
        {
          best = (int) k;
          most = gain;
        }
    }
  return best;
}

RivalOutcome
rival_insider (Shop *shop, const Truth *truth, const char *complaint, guint64 seed)
{
  g_autoptr (GPtrArray) clues = technician_complaint (shop, complaint);
  HobSuspects *all = suspects_of (shop, clues);
  RivalOutcome out = { 0 };

  while (all->verdict == HOB_TEST_GO && out.tests < MOST_TESTS)
    {
      int best = best_offer (shop, truth, all, seed, clues);
      const HobOffer *offer = best >= 0 ? all->offers->pdata[best] : NULL;

      if (offer == NULL || !type_in (shop, truth, offer->test, seed, clues))
        break;
      out.minutes += offer->minutes;
      out.tests++;
      hob_suspects_free (all);
      all = suspects_of (shop, clues);
    }
  out.right = technician_is_right (shop, truth, all);
  hob_suspects_free (all);
  return out;
}
