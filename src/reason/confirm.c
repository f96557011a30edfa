/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/confirm.h"

#include "reason/checks.h"
#include "reason/effort.h"
#include "reason/ahead.h"
#include "reason/offers.h"
#include "reason/risk.h"
#include "reason/trials-cache.h"

#include <math.h>

#define APART 3.0 /* standard deviations by which a reading that confirms is off a normal one */
#define LEAST_TOLD 0.01 /* probability, so that a reading that is due is taken all the same */
#define AS_DEAR 3.0 /* times a needless part that is as dead as the one before it: assumed */
#define AS_A_RULE 5000.0 /* minutes for the same where no reading can prove it: assumed */
#define WRONG 5.0 /* standard deviations by which a reading says that it is not that fault */

/* Was it read there before, at whatever time? */
static gboolean
was_read (const HobInquiry *q, const HobTest *test)
{
  for (guint k = 0; k < q->clues->len; k++)
    if (hob_test_same (((HobClue *) q->clues->pdata[k])->test, test))
      return TRUE;
  return FALSE;
}

/* The quickest so far, for how likely it is that it tells. */
typedef struct _Quickest Quickest;

struct _Quickest
{
  const HobAhead *a;
  int part;
  /* How probable it is that it tells; @listed reads `told`. */
  double (*tells) (const Quickest *best, const HobListedTest *listed, const HobScatter *spread);
  const HobListed *fault; /* … of that one; unused where it is of any of the part */
  gboolean wires;         /* of lines these alone */
  const HobClue *amps;    /* NULL, or it must be volts across the part in the moment of these */
  const HobClue *again;   /* NULL, or it must be this reading at another moment */
  const HobRisk *risk; /* of the occasion that is tried */
  double *told; /* owned; [run]: of one column */
  const HobOccasion *occasion;
  const HobListedTest *listed;
  double t, minutes;
};

/* Takes what runs answer from @answers, [run·stride]. */
static void
tell (Quickest *best, const float *answers, gsize stride)
{
  const HobTrials *trials = best->a->q->trials;

  for (guint r = 0; r < hob_trials_n_read (trials); r++)
    best->told[r] = (double) answers[r * stride];
  hob_trials_forget_mids (trials, best->told);
}

static HobExpected
expected_of (const Quickest *best, const HobListed *fault, const HobListedTest *listed,
             const HobScatter *spread)
{
  return hob_listed_expected (fault, best->told, 1, hob_ahead_severity (best->a, fault),
                              listed->dim, spread);
}

/* How probable it is, if the part has one of the faults that are thought of, that it reads
 * something that it would not read without. */
static double
confirms (const Quickest *best, const HobListedTest *listed, const HobScatter *spread)
{
  const HobAhead *a = best->a;
  HobExpected normal = hob_expected_of (best->told[0], listed->dim, spread);
  double sum = 0, apart = 0;

  for (guint f = 0; f < a->faults->len; f++)
    {
      const HobListed *fault = a->faults->pdata[f];
      HobExpected with;

      if (fault->h.part[0] != best->part)
        continue;
      with = expected_of (best, fault, listed, spread);
      sum += a->p[f];
      apart += hob_expected_apart (&with, &normal, listed->dim, APART) ? a->p[f] : 0;
    }
  return sum > 0 ? apart / sum : 0;
}

/* How probable it is that a wire or a pipe is to blame, and that it shows: what reaches the part
 * then is not what its own fault leaves. */
static double
clears (const Quickest *best, const HobListedTest *listed, const HobScatter *spread)
{
  const HobAhead *a = best->a;
  HobExpected own = expected_of (best, best->fault, listed, spread);
  double apart = 0;

  for (guint f = 0; f < a->faults->len; f++)
    {
      const HobListed *line = a->faults->pdata[f];
      HobExpected with;

      if (line->h.part[0] >= 0 || (best->wires && line->line.pipe))
        continue;
      with = expected_of (best, line, listed, spread);
      apart += hob_expected_apart (&with, &own, listed->dim, APART) ? a->p[f] : 0;
    }
  return apart;
}

/* Whatever they are: first those that @fault makes differ, last those that are none. */
static double
is_due (const Quickest *best, const HobListedTest *listed, const HobScatter *spread)
{
  HobExpected normal = hob_expected_of (best->told[0], listed->dim, spread);
  HobExpected own = expected_of (best, best->fault, listed, spread);

  HobExpected none = { 0, 0, 0 };

  return hob_expected_apart (&own, &normal, listed->dim, APART)    ? 1
         : hob_expected_apart (&none, &normal, listed->dim, APART) ? LEAST_TOLD
                                                                   : LEAST_TOLD / 10;
}

static gboolean
is_moment_of (const HobInquiry *q, const HobClue *clue, const HobOccasion *o, double t)
{
  double then;
  g_autoptr (HobCase) acts = hob_clue_case (clue, q->base, &then);

  return t == then && hob_occasion_left_alone (o, acts) >= t;
}

/* A reading that was taken before: one that @fault would have otherwise, too. */
static double
repeats (const Quickest *best, const HobListedTest *listed, const HobScatter *spread)
{
  HobExpected own = expected_of (best, best->fault, listed, spread);
  HobExpected read = { best->again->value, 0, 0 };

  return hob_expected_apart (&own, &read, listed->dim, WRONG) ? 1 : 0;
}

/* Where a control stands after acts until t; @start: where it stands if none moves it. */
static double
stands (const HobCase *acts, double t, const HobAct *control, double start)
{
  for (guint k = acts->acts->len; k-- > 0;)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if (act->what == control->what && act->part == control->part && act->index == control->index
          && (double) act->ms <= t * 1000)
        return act->value;
    }
  return start;
}

/* Do all controls that were worked for @clue stand there too, at another moment? */
static gboolean
is_another_moment (const HobInquiry *q, const HobClue *clue, const HobOccasion *o, double t)
{
  double then;
  g_autoptr (HobCase) acts = hob_clue_case (clue, q->base, &then);

  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if (act->what == HOB_ACT_CONTROL
          && stands (o->acts, t, act, NAN) != stands (acts, then, act, NAN))
        return FALSE;
    }
  return !is_moment_of (q, clue, o, t);
}

/* Is it one that @best asks for? */
static gboolean
is_wanted (const Quickest *best, const HobOccasion *o, double t, const HobListedTest *listed)
{
  const HobInquiry *q = best->a->q;

  if (best->again != NULL)
    return hob_test_same (listed->test, best->again->test)
           && is_another_moment (q, best->again, o, t);
  if (!hob_test_at_part (q->base->range, listed->test, best->part))
    return FALSE;
  return best->amps != NULL ? hob_is_volts_across (listed->test, best->part)
                            : !was_read (q, listed->test);
}

static void
try_at (Quickest *best, const HobOccasion *o, double t)
{
  const HobAhead *a = best->a;
  const GPtrArray *tests = hob_trials_tests (a->q->trials);
  const HobScatter *spread;
  const float *answers = hob_trials_readings (a->q->trials, o->acts, t, &spread);

  if (isinf (hob_risk_minutes (best->risk, a->role, t))
      || (best->amps != NULL && !is_moment_of (a->q, best->amps, o, t)))
    return;
  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];
      double minutes = hob_effort_of (a->q, o, t, listed->test, listed->means).minutes;

      if (minutes >= best->minutes || !hob_occasion_suits (o, listed->test)
          || !is_wanted (best, o, t, listed) || !hob_offer_is_for (listed->means, a->role))
        continue;
      tell (best, answers + k, tests->len);
      minutes /= best->tells (best, listed, &spread[k]);
      if (minutes >= best->minutes)
        continue;
      best->occasion = o;
      best->listed = listed;
      best->t = t;
      best->minutes = minutes;
    }
}

/* (transfer full) */
static HobOffer *
offer_of (const HobInquiry *q, const HobOccasion *o, double t, const HobTest *what,
          const HobMeansDef *means)
{
  HobOffer *offer = g_new0 (HobOffer, 1);

  *offer = (HobOffer){ .test = hob_occasion_test (q->base, o, t, what), .means = means,
                       .minutes = hob_effort_of (q, o, t, what, means).minutes };
  offer->hazards = hob_test_hazards (q->base->range, offer->test);
  return offer;
}

/* The quickest that tells, below so many minutes for how likely it is.  NULL: there is none.
 * (transfer full) */
static HobOffer *
find_quickest (Quickest best, const GPtrArray *occasions)
{
  const HobAhead *a = best.a;
  const HobInquiry *q = a->q;
  g_autofree double *told = g_new (double, q->n_runs);

  best.told = told;
  for (guint k = 0; k < occasions->len && !hob_trials_cancelled (q->trials); k++)
    {
      const HobOccasion *o = occasions->pdata[k];
      g_autoptr (HobRisk) risk = hob_risk_new (a, o);

      best.risk = risk;
      for (guint i = 0; i < o->moments->len; i++)
        try_at (&best, o, g_array_index (o->moments, double, i));
    }
  if (best.listed == NULL)
    return NULL;
  return offer_of (q, best.occasion, best.t, best.listed->test, best.listed->means);
}

HobOffer *
hob_confirm_find (const HobAhead *a, const GPtrArray *occasions, const HobSuspect *first)
{
  return find_quickest ((Quickest){ .a = a, .part = first->part, .tells = confirms,
                                    .minutes = INFINITY },
                        occasions);
}

HobOffer *
hob_confirm_volts (const HobAhead *a, const GPtrArray *occasions, const HobSuspect *first)
{
  return find_quickest ((Quickest){ .a = a, .part = first->part, .tells = is_due,
                                    .fault = hob_inquiry_listed (a->q, first),
                                    .amps = hob_amps_alone (a->q, first->part),
                                    .minutes = INFINITY },
                        occasions);
}

/* How often it was read, at whatever times. */
static int
times_read (const HobInquiry *q, const HobTest *test)
{
  int n = 0;

  for (guint k = 0; k < q->clues->len; k++)
    n += hob_test_same (((HobClue *) q->clues->pdata[k])->test, test);
  return n;
}

/* Is it much more probable that it reads anything than what @fault makes it read? */
static gboolean
contradicts (const HobInquiry *q, guint k, const HobListed *fault, double severity)
{
  const HobExpected anything = { NAN, 0, 0 };
  HobExpected own = hob_inquiry_expected (q, k, fault, severity);

  return !isnan (own.value)
         && hob_inquiry_log (q, k, &anything) - hob_inquiry_log (q, k, &own)
                > log (hob_inquiry_sure_odds (q));
}

HobOffer *
hob_confirm_again (const HobAhead *a, const GPtrArray *occasions, const HobSuspect *first)
{
  const HobInquiry *q = a->q;
  const HobListed *fault = hob_inquiry_listed (q, first);
  HobOffer *offer = NULL;

  for (guint k = 0; k < q->clues->len && offer == NULL; k++)
    {
      const HobClue *clue = q->clues->pdata[k];

      if (!hob_test_is_seen (clue->test) && times_read (q, clue->test) == 1
          && contradicts (q, k, fault, first->severity.middle))
        offer = find_quickest ((Quickest){ .a = a, .part = first->part, .tells = repeats,
                                           .fault = fault, .again = clue,
                                           .minutes = q->priors->rule.wrong },
                               occasions);
    }
  return offer;
}

HobOffer *
hob_confirm_supply (const HobAhead *a, const GPtrArray *occasions, const HobSuspect *first,
                    gboolean proved)
{
  Quickest best = { .a = a, .part = first->part, .tells = clears,
                    .fault = hob_inquiry_listed (a->q, first),
                    .minutes = AS_DEAR * a->q->priors->rule.wrong };
  HobOffer *offer = find_quickest (best, occasions);

  if (offer != NULL || proved)
    return offer;
  best.wires = TRUE;
  best.minutes = AS_A_RULE;
  return find_quickest (best, occasions);
}

/* ---- The complaint ---- */

enum { ANY = -1 };

/* When @run, or for ANY one that has a fault, first shows it; +∞: never. */
static double
shown_by (const GArray *noticed, gint32 run, const HobClue *complaint)
{
  double first = INFINITY;

  for (guint k = 0; k < noticed->len; k++)
    {
      const HobTrialNoticed *row = &g_array_index (noticed, HobTrialNoticed, k);

      if ((run == ANY ? row->run > 0 : row->run == run) && row->symptom == complaint->symptom
          && (complaint->test->part < 0 || row->part == complaint->test->part))
        first = fmin (first, (double) row->first);
    }
  return first;
}

/* As long as its absence takes to count, and before anything more is done. */
static double
look_until (const HobOccasion *o, double t)
{
  double next;
  g_autoptr (HobCase) done = hob_occasion_done (o, t, &next);

  return fmin (ceil (hob_inquiry_look_until (done, ceil (t))), ceil (next) - 1);
}

/* When the fault, at a severity or a graver one, shows it here and in another unit, if that does at
 * all; +∞: never. */
static double
fault_shows_by (const GArray *noticed, const HobListed *fault, double severity,
                const HobClue *complaint)
{
  guint n = hob_listed_n_runs (fault);
  int nearest = fault->graded ? CLAMP ((int) round (severity * n), 1, (int) n) - 1 : 0;
  double here = INFINITY, other = shown_by (noticed, (gint32) fault->other_run, complaint);

  for (guint k = (guint) nearest; k < n && isinf (here); k++)
    here = shown_by (noticed, (gint32) (fault->first_run + k), complaint);
  return isfinite (other) ? fmax (here, other) : here;
}

/* When it is expected in @o: as the first suspect shows it; and where that is no fault, as somebody
 * said, or else as soon as any fault shows it.  +∞: never. */
static double
expected_by (const HobInquiry *q, const HobOccasion *o, const HobSuspect *first,
             const HobClue *complaint)
{
  const GArray *noticed = hob_trials_noticed (q->trials, o->acts, o->until);
  g_autoptr (HobCase) acts = NULL;
  double t;

  if (first->what == HOB_SUSPECT_FAULT)
    return fault_shows_by (noticed, hob_inquiry_listed (q, first), first->severity.middle,
                           complaint);
  if (hob_clue_anywhere (complaint, q->base))
    return shown_by (noticed, ANY, complaint);
  acts = hob_clue_case (complaint, q->base, &t);
  return t <= hob_occasion_left_alone (o, acts) ? t : INFINITY;
}

/* Has somebody who came to look seen it, or looked in vain for as long as it takes to show there?
 * Where nobody says when it shows, nor any fault that is suspected first, one look is enough. */
static gboolean
was_looked_for (const HobInquiry *q, const HobOccasion *o, double t, const HobSuspect *first,
                const HobClue *complaint)
{
  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];
      g_autoptr (HobCase) acts = NULL;
      double until;

      if (clue->symptom != complaint->symptom || clue->volunteered)
        continue;
      if (clue->seen == HOB_SEEN || hob_clue_anywhere (clue, q->base)
          || (first->what != HOB_SUSPECT_FAULT && hob_clue_anywhere (complaint, q->base)))
        return TRUE;
      acts = hob_clue_case (clue, q->base, &until);
      if (until >= t && hob_occasion_left_alone (o, acts) >= until)
        return TRUE;
    }
  return FALSE;
}

/* Where, and when, a look at the complaint is made. */
typedef struct
{
  const HobClue *complaint; /* NULL: there is none */
  const HobOccasion *o;     /* NULL: it is not expected anywhere */
  double t;
} Look;

/* The quickest one that endangers nobody. */
static Look
find_look (const HobAhead *a, const GPtrArray *occasions, const HobSuspect *first)
{
  const HobInquiry *q = a->q;
  Look look = { q->complaint >= 0 ? q->clues->pdata[q->complaint] : NULL, NULL, INFINITY };

  for (guint k = 0; k < occasions->len && look.complaint != NULL; k++)
    {
      const HobOccasion *o = occasions->pdata[k];
      const GArray *noticed = hob_trials_noticed (q->trials, o->acts, o->until);
      double t = expected_by (q, o, first, look.complaint);
      g_autoptr (HobRisk) risk = hob_risk_new (a, o);

      if (!o->dead && !o->exchanged && t < look.t && t <= o->until
          && shown_by (noticed, 0, look.complaint) > t
          && !was_looked_for (q, o, t, first, look.complaint)
          && isfinite (hob_risk_minutes (risk, a->role, look_until (o, t))))
        look = (Look){ look.complaint, o, t };
    }
  return look;
}

HobOffer *
hob_confirm_complaint (const HobAhead *a, const GPtrArray *occasions, const HobSuspect *first)
{
  const HobInquiry *q = a->q;
  Look look = find_look (a, occasions, first);

  return look.o != NULL
             ? offer_of (q, look.o, look_until (look.o, look.t), look.complaint->test,
                         &hob_means[hob_symptom_means (
                             hob_symptom_book_get (q->idle->book, look.complaint->symptom))])
             : NULL;
}
