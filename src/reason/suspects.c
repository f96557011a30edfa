/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/suspects.h"

#include "reason/alike.h"
#include "reason/checks.h"
#include "reason/offers.h"
#include "reason/pairs.h"

#include <math.h>
#include <string.h>

#define SPAN 0.8    /* share of the severities that a span holds */
#define A_WHILE 1.0 /* s after an act */
#define MULTIPLES 0.2 /* share of what they read by which normal units scatter then */

/* Suspects that are compared, whether any test tells them apart. */
#define PROBABLE 0.02
#define MOST_COMPARED 8
#define APART 2.0 /* standard deviations, by which two readings are told apart */

static void
free_suspect (gpointer item)
{
  HobSuspect *s = item;

  g_free (s->expected);
  g_free (s->likelihood);
  g_free (s);
}

void
hob_offer_free (HobOffer *offer)
{
  hob_test_free (offer->test);
  g_free (offer);
}

static void
free_check (gpointer item)
{
  hob_test_free (((HobCheck *) item)->test);
  g_free (item);
}

/* ---- Ranking ---- */

/* States @first … of one suspect, taken together. */
static HobSuspect *
suspect_of (const HobInquiry *q, const HobListed *fault, HobSuspectWhat what, int first, int n)
{
  HobSuspect *s = g_new (HobSuspect, 1);
  guint clues = q->clues->len;
  g_autofree double *grid = g_new (double, n);

  *s = (HobSuspect){ .what = what, .part = -1, .fault = -1, .part2 = -1, .fault2 = -1,
                     .group = -1, .said = NAN, .expected = g_new (double, clues + 1),
                     .likelihood = g_new0 (double, clues + 1) };
  for (int k = 0; k < n; k++)
    {
      s->prior += q->prior[first + k];
      s->p += q->p[first + k];
      grid[k] = fault != NULL ? hob_listed_severity (fault, k) : 0;
    }
  if (fault != NULL)
    {
      s->part = fault->h.part[0];
      s->fault = fault->h.fault[0];
      s->graded = fault->graded;
    }
  s->severity = hob_severity_span (grid, q->p + first, n, SPAN);
  if (fault != NULL && q->complaint >= 0)
    s->said = hob_inquiry_said (q, fault, s->severity.middle);
  for (guint k = 0; k < clues; k++)
    {
      const double *logs = q->logs + (gsize) k * (gsize) q->n_states + first;

      s->expected[k] = fault != NULL
                           ? hob_inquiry_expected (q, k, fault, s->severity.middle).value
                       : what == HOB_SUSPECT_NORMAL ? q->told[k]
                                                    : NAN;
      if ((int) k == q->complaint) /* how often it shows, not how often it is what is named */
        s->likelihood[k] = exp (hob_inquiry_log (q, k, &(HobExpected){ s->expected[k], 0, 0 }));
      for (int i = 0; i < n && (int) k != q->complaint; i++)
        s->likelihood[k] += exp (logs[i]) * (s->p > 0 ? q->p[first + i] / s->p : 1.0 / n);
    }
  return s;
}

/* Lines and what nobody knows, taken together; where one line is likelier than all the rest, it is
 * named, and what it makes one expect. */
static HobSuspect *
not_listed (const HobInquiry *q)
{
  int first = q->normal + 1;
  HobSuspect *s = suspect_of (q, NULL, HOB_SUSPECT_NOT_LISTED, first, q->n_states - first);

  for (guint l = 0; l < q->lines->len; l++)
    {
      const HobListed *line = &g_array_index (q->lines, HobListed, l);
      HobSuspect *one = suspect_of (q, line, HOB_SUSPECT_NOT_LISTED, line->first_state,
                                    line->n_states);

      if (one->p > s->p / 2)
        {
          s->is_line = TRUE;
          s->line = line->line;
          memcpy (s->expected, one->expected, q->clues->len * sizeof *s->expected);
        }
      free_suspect (one);
    }
  return s;
}

static int
most_probable_first (gconstpointer a, gconstpointer b)
{
  const HobSuspect *x = *(HobSuspect *const *) a, *y = *(HobSuspect *const *) b;

  return x->p > y->p ? -1 : x->p < y->p;
}

static void
rank (const HobInquiry *q, HobSuspects *all)
{
  for (guint k = 0; k < q->faults->len; k++)
    {
      const HobListed *f = &g_array_index (q->faults, HobListed, k);

      g_ptr_array_add (all->suspects,
                       suspect_of (q, f, HOB_SUSPECT_FAULT, f->first_state, f->n_states));
    }
  g_ptr_array_add (all->suspects, suspect_of (q, NULL, HOB_SUSPECT_NORMAL, q->normal, 1));
  g_ptr_array_add (all->suspects, not_listed (q));
  hob_pairs_find (q, all);
  g_ptr_array_sort (all->suspects, most_probable_first);
}

/* ---- What no test tells apart ---- */

/* Is the @k-th like every suspect of the group that it would join? */
static gboolean
joins (HobSuspect *const *list, int k, const guint32 *like, int group)
{
  for (int i = 0; i < k; i++)
    if ((list[i]->group == group || i == group) && (like[k] >> i & 1) == 0)
      return FALSE;
  return TRUE;
}

/* Cliques among the most probable; a group is numbered by its first. */
static void
group_suspects (const HobInquiry *q, const HobSuspects *all)
{
  HobSuspect *list[MOST_COMPARED];
  const HobListed *faults[MOST_COMPARED];
  double severities[MOST_COMPARED];
  guint32 like[MOST_COMPARED];
  int n = 0;

  for (guint k = 0; k < all->suspects->len && n < MOST_COMPARED; k++)
    {
      HobSuspect *s = all->suspects->pdata[k];

      if (s->what == HOB_SUSPECT_FAULT && s->part2 < 0 && s->p >= PROBABLE)
        {
          faults[n] = hob_inquiry_listed (q, s);
          severities[n] = s->severity.middle;
          list[n++] = s;
        }
    }
  hob_alike_among (q->trials, q->base, faults, severities, n, APART, like);
  for (int k = 1; k < n; k++)
    for (int first = 0; first < k && list[k]->group < 0; first++)
      if ((list[first]->group < 0 || list[first]->group == first)
          && joins (list, k, like, first))
        list[k]->group = list[first]->group = first;
}

/* ---- How sure it is ---- */

/* Is it read at @part, and does it say more of the part than of the day?  What normal units read by
 * multiples of each other, as a cold igniter's ohms, convicts nobody unless it is open. */
static gboolean
may_prove (const HobInquiry *q, guint k, int part)
{
  const HobClue *clue = q->clues->pdata[k];

  return clue->symptom < 0 && hob_test_at_part (q->base->range, clue->test, part)
         && (hob_test_dimension (clue->test) != HOB_DIM_RESISTANCE || isinf (clue->value)
             || q->spread[k].share < MULTIPLES);
}

/* Do the readings at the first suspect's part, taken together, make one sure that it is not normal?
 * Cold ohms of an igniter that are rather many do not. */
static HobProof
proof_of (const HobInquiry *q, const HobSuspects *all)
{
  const HobSuspect *first = all->suspects->pdata[0];
  double speaks = 1;

  if (first->what != HOB_SUSPECT_FAULT)
    return HOB_PROOF_NONE;
  for (guint k = 0; k < q->clues->len; k++)
    if (may_prove (q, k, first->part))
      speaks *= first->likelihood[k]
                / exp (q->logs[(gsize) k * (gsize) q->n_states + (gsize) q->normal]);
  return !(speaks > hob_inquiry_sure_odds (q))       ? HOB_PROOF_NONE
         : hob_amps_alone (q, first->part) != NULL ? HOB_PROOF_VOLTS
                                                   : HOB_PROOF_READING;
}

/* ---- What comes before any test ---- */

static gboolean
asked_at (HobBench *bench, int burner, double t)
{
  g_autoptr (HobMoment) m = hob_bench_moment_new (bench);
  int part, outlet;

  if (hob_bench_advance (bench, t, NULL) != HOB_RUN_OK || !hob_run_read (bench->run, t, m))
    return FALSE;
  for (int b = 0; b < hob_bench_range (bench)->n_parts; b++)
    if ((burner < 0 || burner == b) && hob_plan_caller (bench->plan, b, &part, &outlet)
        && hob_moment_asked (m, b))
      return TRUE;
  return FALSE;
}

/* Was the control of the burner that smells, or of any if it is not said which, on? */
static gboolean
control_was_on (const HobBench *idle, const HobCase *base, const HobClue *clue)
{
  double t;
  g_autoptr (HobCase) acts = hob_clue_case (clue, base, &t);
  g_autoptr (HobBench) bench = hob_bench_again (idle, acts);
  gboolean on = FALSE;

  if (isnan (t))
    t = INFINITY;
  for (guint k = 0; k < acts->acts->len && !on; k++)
    {
      double after = (double) g_array_index (acts->acts, HobAct, k).ms / 1000.0 + A_WHILE;

      on = after <= t + A_WHILE && asked_at (bench, clue->test->part, after);
    }
  return on;
}

/* A smell that a knob does not explain comes from where no knob stops it. */
HobHazards
hob_suspects_hazards (const HobBench *idle, const HobCase *base, const GPtrArray *clues)
{
  HobHazards all = 0;

  for (guint k = 0; k < clues->len; k++)
    {
      const HobClue *clue = clues->pdata[k];
      HobHazards h = clue->symptom >= 0 && clue->seen == HOB_SEEN
                         ? hob_symptom_book_get (idle->book, clue->symptom)->hazards
                         : 0;

      if ((h & HOB_HAZARD (GAS_FAINT)) && !hob_symptom_book_calls (idle->book, clue->symptom)
          && !control_was_on (idle, base, clue))
        h |= HOB_HAZARD (GAS_STRONG);
      all |= h;
    }
  return hob_clues_are_dead (clues) ? hob_hazards_unplugged (all) : all;
}

HobHazards
hob_suspects_stop (HobHazards set)
{
  HobHazards stop = 0;

  for (int h = hob_hazards_next (set, -1); h >= 0; h = hob_hazards_next (set, h))
    if (hob_hazards[h].silences)
      stop |= HOB_HAZARD_BIT (h);
  return stop;
}

/* ---- All of it ---- */

static void
find_suspects (const HobInquiry *q, HobSuspects *all)
{
  rank (q, all);
  all->complaint = q->complaint;
  all->proof = proof_of (q, all);
  all->hazards = q->hazards;
  all->stop = hob_suspects_stop (all->hazards);
}

static void
find_tests (const HobInquiry *q, HobSkill role, HobSuspects *all)
{
  if (!hob_case_has_controls (q->base))
    group_suspects (q, all);
  if (!hob_trials_cancelled (q->trials))
    hob_offers_find (q, role, all);
  if (!hob_trials_cancelled (q->trials))
    hob_checks_find (q, all);
}

HobSuspects *
hob_suspects_new (HobTrials *trials, const HobCase *base, const GPtrArray *clues, HobSkill role,
                  const HobPriors *priors)
{
  g_autoptr (HobInquiry) q = hob_inquiry_new (trials, base, clues, priors);
  HobSuspects *all = g_new0 (HobSuspects, 1);

  all->suspects = g_ptr_array_new_with_free_func (free_suspect);
  all->offers = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_offer_free);
  all->checks = g_ptr_array_new_with_free_func (free_check);
  all->verdict = HOB_TEST_NOTHING_TELLS;
  all->lights = -1;
  all->complaint = -1;
  if (!hob_trials_cancelled (trials))
    find_suspects (q, all);
  if (!hob_trials_cancelled (trials) && all->stop == 0)
    find_tests (q, role, all);
  if (hob_trials_cancelled (trials))
    g_clear_pointer (&all, hob_suspects_free);
  return all;
}

void
hob_suspects_free (HobSuspects *all)
{
  if (all == NULL)
    return;
  g_ptr_array_unref (all->suspects);
  g_ptr_array_unref (all->offers);
  g_ptr_array_unref (all->checks);
  g_free (all);
}
