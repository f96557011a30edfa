/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/offers.h"

#include "reason/ahead.h"
#include "reason/beliefs.h"
#include "reason/checks.h"
#include "reason/confirm.h"
#include "reason/effort.h"

#include <math.h>

#define MOST_OFFERS 12
#define LEAST_BITS 0.01  /* up to which two tests tell as much */
#define NEARLY 0.95      /* of the bits of another: as much, for what it may prove besides */
#define SAME 0.02        /* difference of probabilities, up to which two tests tell the same */
#define WORTH_SAYING 0.03 /* bits, from which somebody who has watched is asked */
#define LEAST_AT 0.02    /* probability of a fault where an ohmmeter is put */
#define SHOCKED_AGAIN 10 /* times worse it is to be wrong about who has shocked somebody: assumed */
#define FOLLOWED 40      /* offers among which the next test is chosen */
#define MOST_ALONG 6     /* signs that one person keeps in mind while watching: assumed */

/* ---- Amps and their volts ---- */

gboolean
hob_is_volts_across (const HobTest *volts, int part)
{
  return volts->what == HOB_TEST_VOLTS && volts->a.part == part && volts->b.part == part;
}

/* A clamp round the part, one of its terminals or a wire that ends at it. */
static gboolean
clamps (const HobRange *range, const HobTest *amps, int part)
{
  return amps->what == HOB_TEST_AMPS && hob_test_at_part (range, amps, part);
}

static gboolean
same_moment (const HobInquiry *q, const HobClue *a, const HobClue *b)
{
  double t, u;
  g_autoptr (HobCase) x = hob_clue_case (a, q->base, &t);
  g_autoptr (HobCase) y = hob_clue_case (b, q->base, &u);

  return t == u && x->acts->len == y->acts->len && hob_case_common (x, y) == x->acts->len;
}

const HobClue *
hob_amps_alone (const HobInquiry *q, int part)
{
  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *amps = q->clues->pdata[k];
      gboolean volts = FALSE;

      if (!clamps (hob_bench_range (q->idle), amps->test, part))
        continue;
      for (guint i = 0; i < q->clues->len; i++)
        volts |= hob_is_volts_across (((HobClue *) q->clues->pdata[i])->test, part)
                 && same_moment (q, amps, q->clues->pdata[i]);
      if (!volts)
        return amps;
    }
  return NULL;
}

/* ---- When to test ---- */

/* Is what was done by time t the beginning of a procedure? */
static gboolean
is_begun_by (const GPtrArray *occasions, const HobCase *acts, double t)
{
  for (guint k = 0; k < occasions->len; k++)
    {
      const HobOccasion *o = occasions->pdata[k];

      if (t <= hob_occasion_left_alone (o, acts))
        return TRUE;
    }
  return FALSE;
}

/* What was done when something was seen or read last, unless a procedure does the same. */
static void
add_own (const HobInquiry *q, GPtrArray *all)
{
  for (guint k = q->clues->len; k-- > 0;)
    {
      const HobClue *clue = q->clues->pdata[k];
      g_autoptr (HobCase) acts = NULL;
      HobOccasion *o;
      double t;

      if (isnan (clue->test->time))
        continue;
      acts = hob_clue_case (clue, q->base, &t);
      if (is_begun_by (all, acts, t))
        return;
      o = g_new0 (HobOccasion, 1);
      o->dead = hob_test_is_dead (clue->test);
      o->still = clue->test->what == HOB_TEST_INSPECT;
      o->acts = g_steal_pointer (&acts);
      o->first = q->base->acts->len;
      o->until = t;
      o->moments = g_array_new (FALSE, FALSE, sizeof (double));
      g_array_append_val (o->moments, t);
      g_ptr_array_add (all, o);
      return;
    }
}

/* Occasions: every procedure, or what goes on where something is done already; and what was done
 * when something was seen or read last. */
static GPtrArray *
occasions_of (const HobInquiry *q)
{
  GPtrArray *all = hob_case_has_controls (q->base)
                       ? hob_occasions_going_on (q->base)
                       : hob_occasions_new (q->base, q->procedures);

  add_own (q, all);
  return all;
}

/* ---- Which come first ---- */

static HobTest *
test_of (const HobAhead *a, const HobCandidate *c)
{
  HobEnd none = { -1, -1 };
  HobTest look = { .what = HOB_TEST_LOOK, .a = none, .b = none, .wire = -1, .part = -1,
                   .quantity = -1 };

  if (c->listed != NULL)
    return hob_occasion_test (a->q->base, c->occasion, c->t, c->listed->test);
  look.symptom = (char *) hob_symptom_book_get (a->q->idle->book, c->symptom)->id;
  return hob_occasion_test (a->q->base, c->occasion, c->t, &look);
}

static gboolean
was_made (const HobInquiry *q, const HobTest *test)
{
  g_autofree char *text = hob_test_text (q->base->range, test);

  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];
      g_autofree char *other = hob_test_text (q->base->range, clue->test);

      if (!clue->volunteered && g_str_equal (text, other))
        return TRUE;
    }
  return FALSE;
}

typedef struct
{
  double worth;
  guint candidate;
  HobEffort effort;
} Ranked;

static int
most_first (gconstpointer a, gconstpointer b)
{
  const Ranked *x = a, *y = b;

  return x->worth > y->worth ? -1 : x->worth < y->worth ? 1 : x->candidate < y->candidate ? -1 : 1;
}

static const HobCandidate *
candidate_of (const HobAhead *a, const Ranked *ranked)
{
  return &g_array_index (a->candidates, HobCandidate, ranked->candidate);
}

static Ranked
rank (const HobAhead *a, guint k)
{
  const HobCandidate *c = &g_array_index (a->candidates, HobCandidate, k);
  const HobTest look = { .what = HOB_TEST_LOOK };
  const HobMeansDef *means = c->means;
  HobEffort effort
      = c->again && !c->occasion->exchanged
            ? (HobEffort){ hob_effort_first (means, c->occasion, c->t), 0, NULL, 0 }
            : hob_effort_of (a->q, c->occasion, c->t,
                             c->listed != NULL ? c->listed->test : &look, means);
  double cost = effort.minutes + c->risk + a->q->priors->rule.price[means->danger];

  return (Ranked){ c->bits / cost, k, effort };
}

/* Is the test made at the part of @fault, or at an end of the wire that it is? */
static gboolean
is_at (const HobRange *range, const HobTest *test, const HobListed *fault)
{
  if (fault->h.part[0] >= 0)
    return hob_test_at_part (range, test, fault->h.part[0]);
  return !fault->line.pipe
         && (hob_test_at_part (range, test, range->wires[fault->line.line].from.part)
             || hob_test_at_part (range, test, range->wires[fault->line.line].to.part));
}

/* How probable it is that there is a fault where the test is made. */
static double
weight_at (const HobAhead *a, const HobCandidate *c)
{
  double weight = 0;

  for (guint f = 0; f < a->faults->len && c->listed != NULL; f++)
    if (is_at (a->q->base->range, c->listed->test, a->faults->pdata[f]))
      weight += a->p[f];
  return weight;
}

/* An ohmmeter is put where a suspect is: what it reads elsewhere comes by way of other parts. */
static gboolean
is_by_the_way (const HobAhead *a, const HobCandidate *c)
{
  return c->listed != NULL && c->listed->test->what == HOB_TEST_OHMS
         && weight_at (a, c) < LEAST_AT;
}

/* Does each answer tell of each suspect what it does in the other test? */
static gboolean
tells_the_same (const HobAhead *a, const HobCandidate *c, const HobCandidate *other)
{
  if (hob_candidate_dim (c) != hob_candidate_dim (other)
      || fabs (c->bits - other->bits) > LEAST_BITS)
    return FALSE;
  for (int k = 0; k < HOB_AHEAD_OUTCOMES * a->n; k++)
    if (fabs (c->likelihood[k] - other->likelihood[k]) > SAME)
      return FALSE;
  return TRUE;
}

static gboolean
was_made_so (const HobAhead *a, const HobCandidate *c)
{
  HobTest *test = test_of (a, c);
  gboolean made = was_made (a->q, test);

  hob_test_free (test);
  return made;
}

/* Of tests that tell the same, such as amps along one circuit, one is enough: the one that takes
 * least, and of these the one at the likeliest part. */
static gboolean
is_asked (const HobAhead *a, const Ranked *ranked, GArray *chosen)
{
  const HobCandidate *c = candidate_of (a, ranked);

  for (guint k = 0; k < chosen->len; k++)
    {
      Ranked *other = &g_array_index (chosen, Ranked, k);
      const HobCandidate *before = candidate_of (a, other);

      if (!tells_the_same (a, c, before))
        continue;
      if (ranked->effort.minutes <= other->effort.minutes
          && c->means == before->means
          && weight_at (a, c) > weight_at (a, before) && !was_made_so (a, c))
        *other = *ranked;
      return TRUE;
    }
  return FALSE;
}

/* The best few, each of which was not made before.  Ranked. */
static void
choose (const HobAhead *a, GArray *chosen)
{
  guint n = a->candidates->len;
  g_autofree Ranked *ranked = g_new (Ranked, n + 1);

  for (guint k = 0; k < n; k++)
    ranked[k] = rank (a, k);
  qsort (ranked, n, sizeof *ranked, most_first);
  for (guint k = 0; k < n && chosen->len < FOLLOWED; k++)
    if (!is_by_the_way (a, candidate_of (a, &ranked[k])) && !is_asked (a, &ranked[k], chosen)
        && !was_made_so (a, candidate_of (a, &ranked[k])))
      g_array_append_val (chosen, ranked[k]);
}

static void
offer_chosen (const HobAhead *a, const GArray *chosen, HobSuspects *all)
{
  for (guint k = 0; k < chosen->len; k++)
    {
      const Ranked *ranked = &g_array_index (chosen, Ranked, k);
      const HobCandidate *c = candidate_of (a, ranked);
      HobOffer *offer = g_new (HobOffer, 1);

      *offer = (HobOffer){ test_of (a, c), c->means, ranked->effort.minutes,
                           c->risk, c->bits, 0 };
      offer->hazards = hob_test_hazards (a->q->base->range, offer->test);
      g_ptr_array_add (all->offers, offer);
    }
}

/* The number of its set-up: that of the first that shares it. */
static int
set_up_of (const GArray *chosen, guint k)
{
  const HobEffort *effort = &g_array_index (chosen, Ranked, k).effort;

  for (guint i = 0; i < k; i++)
    {
      const HobEffort *other = &g_array_index (chosen, Ranked, i).effort;

      if (other->what == effort->what && other->which == effort->which)
        return (int) i + 1;
    }
  return (int) k + 1;
}

static HobNextTest
ask_core (const HobAhead *a, const HobSuspects *all, const GArray *chosen)
{
  g_autofree HobTestOption *options = g_new0 (HobTestOption, chosen->len + 1);
  HobTestRule rule = a->q->priors->rule;
  HobTestProblem problem = { .n_states = a->n, .p = a->p, .group = a->group,
                             .n_groups = a->n_groups, .n_tests = (int) chosen->len,
                             .tests = options };

  for (guint k = 0; k < chosen->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      const Ranked *ranked = &g_array_index (chosen, Ranked, k);

      options[k] = (HobTestOption){
        .minutes = offer->minutes + candidate_of (a, ranked)->risk,
        .set_up_minutes = ranked->effort.set_up_minutes,
        .set_up = ranked->effort.what != NULL ? set_up_of (chosen, k) : 0,
        .danger = (int) offer->means->danger,
        .n_outcomes = HOB_AHEAD_OUTCOMES,
        .likelihood = candidate_of (a, ranked)->likelihood,
      };
    }
  rule.wrong *= a->felt ? SHOCKED_AGAIN : 1;
  return hob_next_test (&problem, &rule);
}

/* Of tests by the same means that take no longer and tell about as much, the one at the first
 * suspect's part: there it may prove it. */
static int
at_the_suspect (const HobAhead *a, const HobSuspects *all, int best)
{
  const HobRange *range = a->q->base->range;
  const HobOffer *chosen = all->offers->pdata[best];
  int part = ((HobSuspect *) all->suspects->pdata[0])->part, nearest = best;
  double most = NEARLY * chosen->bits;

  if (part < 0 || chosen->test->what == HOB_TEST_LOOK
      || hob_test_at_part (range, chosen->test, part))
    return best;
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];

      if (offer->means == chosen->means && offer->minutes <= chosen->minutes
          && offer->risk <= chosen->risk && offer->bits >= most
          && hob_test_at_part (range, offer->test, part))
        {
          most = offer->bits;
          nearest = (int) k;
        }
    }
  return nearest;
}

static int
best_offer (const HobAhead *a, HobSuspects *all, const GArray *chosen)
{
  HobNextTest next = ask_core (a, all, chosen);
  int best = next.verdict == HOB_TEST_GO ? next.test : -1;

  all->verdict = next.verdict;
  return best >= 0 && !a->q->priors->rule.greedy ? at_the_suspect (a, all, best) : best;
}

static void
put_first (HobSuspects *all, guint k)
{
  g_ptr_array_insert (all->offers, 0, g_ptr_array_steal_index (all->offers, k));
}

/* Puts @offer at @at; the same test is not offered twice. */
static void
insert_offer (HobSuspects *all, const HobRange *range, HobOffer *offer, guint at)
{
  g_autofree char *text = hob_test_text (range, offer->test);

  for (guint k = all->offers->len; k-- > at;)
    {
      g_autofree char *other
          = hob_test_text (range, ((HobOffer *) all->offers->pdata[k])->test);

      if (g_str_equal (text, other))
        g_ptr_array_remove_index (all->offers, k);
    }
  g_ptr_array_insert (all->offers, (int) at, offer);
}

/* Is it more probable that nothing is wrong than the rule lets one be mistaken? */
static gboolean
may_be_normal (const HobAhead *a)
{
  return a->p[a->n - 2] > 1 - a->q->priors->rule.sure;
}

/* Has whoever looks for the fault found something that is not normal, and that the first suspect
 * explains?  Then the complaint is not all that speaks for it. */
static gboolean
is_found (const HobInquiry *q, const HobSuspect *first)
{
  const double *normal = q->logs + q->normal;
  double found = 0;

  for (guint k = 0; k < q->clues->len && first->what != HOB_SUSPECT_NORMAL; k++)
    if (!((HobClue *) q->clues->pdata[k])->volunteered)
      found += log (first->likelihood[k]) - normal[(gsize) k * (gsize) q->n_states];
  return found > log (hob_inquiry_sure_odds (q));
}

/* No part is named before something was read at the part itself, where anything can be, or else
 * before somebody has seen what a customer complains of, or something else that is not normal, nor
 * while it may be that nothing is wrong; nor is it said that nothing is wrong, or something that is
 * not listed, before somebody has looked. */
static void
confirm (const HobAhead *a, const GPtrArray *occasions, HobSuspects *all)
{
  const HobSuspect *first = all->suspects->pdata[0];
  gboolean fault = first->what == HOB_SUSPECT_FAULT;
  gboolean done = fault && all->proof != HOB_PROOF_NONE && !may_be_normal (a);
  HobOffer *offer = NULL;

  if (fault && all->proof == HOB_PROOF_NONE)
    offer = hob_confirm_find (a, occasions, first);
  done |= offer == NULL && is_found (a->q, first) && !may_be_normal (a);
  if (offer == NULL && !done)
    offer = hob_confirm_complaint (a, occasions, first);
  if (offer == NULL && fault && first->part2 < 0)
    offer = hob_confirm_again (a, occasions, first);
  if (offer == NULL && fault && first->part2 < 0)
    offer = hob_confirm_supply (a, occasions, first, all->proof != HOB_PROOF_NONE);
  if (offer == NULL)
    return;
  insert_offer (all, a->q->base->range, offer, 0);
  all->verdict = HOB_TEST_GO;
}

/* ---- What is seen in the same run ---- */

/* Does whoever watches what is done in @acts until t see it too? */
static gboolean
is_seen_along (const HobCandidate *c, const HobCase *acts, double t)
{
  return c->listed == NULL && c->means == &hob_means[HOB_MEANS_LOOK] && !c->occasion->exchanged
         && !c->again && c->bits >= WORTH_SAYING && c->t <= t
         && hob_occasion_left_alone (c->occasion, acts) >= t;
}

/* Of looks at one symptom the latest. */
static void
add_latest (GPtrArray *signs, const HobCandidate *c)
{
  for (guint k = 0; k < signs->len; k++)
    if (((const HobCandidate *) signs->pdata[k])->symptom == c->symptom)
      {
        if (((const HobCandidate *) signs->pdata[k])->t < c->t)
          signs->pdata[k] = (gpointer) c;
        return;
      }
  g_ptr_array_add (signs, (gpointer) c);
}

static int
more_bits_first (gconstpointer a, gconstpointer b)
{
  const HobCandidate *x = *(HobCandidate *const *) a, *y = *(HobCandidate *const *) b;

  return x->bits > y->bits ? -1 : x->bits < y->bits ? 1 : x->symptom - y->symptom;
}

/* What somebody has watched is told before anything more is done. */
static void
ask_watched (HobSuspects *all)
{
  int best = -1;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];

      if (offer->test->what == HOB_TEST_LOOK && offer->minutes <= hob_effort_note ()
          && offer->bits >= WORTH_SAYING
          && (best < 0 || offer->bits > ((HobOffer *) all->offers->pdata[best])->bits))
        best = (int) k;
    }
  if (best > 0 && all->verdict == HOB_TEST_GO)
    put_first (all, (guint) best);
}

/* If the next test is a look, what else the same run shows is asked along with it. */
static void
ask_along (const HobAhead *a, HobSuspects *all)
{
  const HobOffer *first = all->offers->len > 0 ? all->offers->pdata[0] : NULL;
  const HobRange *range = a->q->base->range;
  g_autoptr (GPtrArray) signs = g_ptr_array_new ();
  g_autoptr (HobCase) acts = NULL;
  double t;

  if (all->verdict != HOB_TEST_GO || first == NULL || first->test->what != HOB_TEST_LOOK
      || first->means != &hob_means[HOB_MEANS_LOOK])
    return;
  acts = hob_test_case (first->test, a->q->base, &t);
  for (guint k = 0; k < a->candidates->len; k++)
    {
      const HobCandidate *c = &g_array_index (a->candidates, HobCandidate, k);

      if (is_seen_along (c, acts, t) && !was_made_so (a, c)
          && hob_symptom_book_find (a->q->idle->book, first->test->symptom) != c->symptom)
        add_latest (signs, c);
    }
  g_ptr_array_sort (signs, more_bits_first);
  all->along = MIN (signs->len, MOST_ALONG);
  for (guint k = 0; k < all->along; k++)
    {
      const HobCandidate *c = signs->pdata[k];
      HobOffer *offer = g_new (HobOffer, 1);

      *offer = (HobOffer){ test_of (a, c), c->means, hob_effort_note (), 0, c->bits, 0 };
      offer->hazards = hob_test_hazards (range, offer->test);
      insert_offer (all, range, offer, k + 1);
    }
}

static gboolean
is_offered (const HobSuspects *all, const HobRange *range, const HobOffer *offer)
{
  g_autofree char *text = hob_test_text (range, offer->test);

  for (guint k = 0; k < all->offers->len; k++)
    {
      g_autofree char *other
          = hob_test_text (range, ((HobOffer *) all->offers->pdata[k])->test);

      if (g_str_equal (text, other))
        return TRUE;
    }
  return FALSE;
}

/* Amps wait for their volts: before anything else where these tell something, and in any case
 * before testing stops. */
void
hob_offers_find (const HobInquiry *q, HobSkill role, HobSuspects *all)
{
  g_autoptr (GPtrArray) occasions = occasions_of (q);
  g_autoptr (GArray) chosen = g_array_new (FALSE, FALSE, sizeof (Ranked));
  g_autoptr (HobAhead) a = NULL;
  g_autoptr (HobOffer) volts = NULL;
  int best;

  hob_effort_note_watched (q, occasions);
  a = hob_ahead_new (q, role, all, occasions);
  choose (a, chosen);
  offer_chosen (a, chosen, all);
  best = best_offer (a, all, chosen);
  if (best > 0)
    put_first (all, (guint) best);
  volts = all->proof == HOB_PROOF_VOLTS
              ? hob_confirm_volts (a, occasions, all->suspects->pdata[0])
              : NULL;
  if (volts != NULL && (best < 0 || is_offered (all, q->base->range, volts)))
    {
      all->verdict = HOB_TEST_GO;
      insert_offer (all, q->base->range, g_steal_pointer (&volts), 0);
    }
  else
    {
      if (best < 0)
        confirm (a, occasions, all);
      ask_watched (all);
    }
  ask_along (a, all);
  if (all->offers->len > MOST_OFFERS)
    g_ptr_array_set_size (all->offers, MOST_OFFERS);
}
