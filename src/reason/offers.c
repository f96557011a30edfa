/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/offers.h"

#include "base/hash.h"
#include "reason/checks.h"
#include "reason/confirm.h"
#include "reason/effort.h"

#include <math.h>
#include <string.h>

#define WORTH 0.002      /* probability from which a suspect is thought of */
#define MOST 30          /* … and how many of them at most */
#define MOST_OFFERS 12
#define LEAST_BITS 0.01
#define SAME 0.02        /* difference of probabilities, up to which two tests tell the same */
#define FOLLOWED 40      /* offers among which the next test is chosen */
#define EDGES 4          /* a reading yet to be made falls into as many intervals and one */
#define OUTCOMES (EDGES + 2)
#define SHORT 600.0      /* s: a procedure up to this is looked at to its end */
#define LEAST_DIFFERENCE 1.0 /* standard deviations, below which two answers are the same */

/* ---- Amps and their volts ---- */

static gboolean
across (const HobTest *volts, int part)
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
        volts |= across (((HobClue *) q->clues->pdata[i])->test, part)
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
      o->until = t;
      o->moments = g_array_new (FALSE, FALSE, sizeof (double));
      g_array_append_val (o->moments, t);
      g_ptr_array_add (all, o);
      return;
    }
}

/* Occasions: every procedure; and what was done when something was seen or read last. */
static GPtrArray *
occasions_of (const HobInquiry *q)
{
  GPtrArray *all = hob_case_has_controls (q->base)
                       ? g_ptr_array_new_with_free_func ((GDestroyNotify) hob_occasion_free)
                       : hob_occasions_new (q->base, q->procedures);

  add_own (q, all);
  return all;
}

/* ---- Which tests there are, and what each would say ---- */

typedef struct
{
  const HobOccasion *occasion;
  const HobListedTest *listed; /* NULL: a look at `symptom` */
  int symptom, column;
  const float *answers; /* of a reading: [run·tests + column] */
  double t;
  HobScatter spread;
  double *likelihood; /* owned; [outcome·n + suspect] */
  double bits;
} Candidate;

/* Those who are thought of, and the tests that tell them apart. */
typedef struct
{
  const HobInquiry *q;
  HobSkill role;
  GPtrArray *faults;  /* const HobListed * */
  int n;              /* faults, then normal, then not listed */
  double *p;          /* [n], sum 1 */
  int *group;         /* [n]: what is replaced: the part, or nothing */
  int n_groups;
  GArray *candidates; /* Candidate */
  GArray *runs;       /* guint: those that say what the faults do */
  double *answers;    /* [run]: of one candidate, those of `runs` */
  double *absent;     /* [run]: of a look, what shows so early that its absence counts */
  float *taken;       /* the same, as they come, and room for three more */
  GHashTable *considered; /* of a test and its answers → the earliest time, s */
} Ahead;

static void
clear_candidate (gpointer item)
{
  g_free (((Candidate *) item)->likelihood);
}

/* What is replaced for it: of those that no test tells apart the part of the first. */
static int
replaced_for (const HobSuspects *all, const HobSuspect *s)
{
  for (guint k = 0; k < all->suspects->len && s->group >= 0; k++)
    {
      const HobSuspect *first = all->suspects->pdata[k];

      if (first->group == s->group)
        return first->part;
    }
  return s->part;
}

static void
think_of (Ahead *a, const HobSuspects *all)
{
  const HobInquiry *q = a->q;
  double sum = 0;

  for (guint k = 0; k < all->suspects->len && a->faults->len < MOST; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      if (s->what != HOB_SUSPECT_FAULT || s->part2 >= 0 || s->p < WORTH)
        continue;
      a->p[a->faults->len] = s->p;
      a->group[a->faults->len] = replaced_for (all, s);
      g_ptr_array_add (a->faults, (gpointer) hob_inquiry_listed (q, s));
    }
  a->n = (int) a->faults->len + 2;
  a->p[a->n - 2] = q->p[q->n_states - 2];
  a->p[a->n - 1] = q->p[q->n_states - 1];
  a->group[a->n - 2] = q->base->range->n_parts;
  a->group[a->n - 1] = q->base->range->n_parts + 1;
  a->n_groups = q->base->range->n_parts + 2;
  for (int k = 0; k < a->n; k++)
    sum += a->p[k];
  for (int k = 0; k < a->n && sum > 0; k++)
    a->p[k] /= sum;
}

gboolean
hob_offer_is_for (const HobMeansDef *means, HobSkill role)
{
  return role >= means->skill && (role >= HOB_SKILL_TECHNICIAN || means->danger < HOB_DANGER_LIVE);
}

static HobDimension
dim_of (const Candidate *c)
{
  return c->listed != NULL ? c->listed->dim : HOB_DIM_NUMBER;
}

/* @absent: what is expected so early that its absence counts.  Between the two either may be. */
static void
looks_of (const Ahead *a, const HobExpected *e, const HobExpected *absent, double *out)
{
  double seen = hob_seen_likelihood (HOB_SEEN, isnan (e->value) ? 0.5 : e->value,
                                     a->q->priors->mis_seen);
  double not_seen = hob_seen_likelihood (
      HOB_NOT_SEEN, isnan (absent->value) ? 0.5 : absent->value, a->q->priors->mis_seen);

  out[0] = not_seen / (seen + not_seen);
  out[1] = seen / (seen + not_seen);
}

static void
outcomes_of (const Ahead *a, const HobExpected *e, const HobExpected *absent, HobDimension dim,
             const double *edges, int n_edges, double *out)
{
  HobMeterClass meter = hob_meter_class (dim);

  for (int o = 0; o < OUTCOMES; o++)
    out[o] = 0;
  if (dim == HOB_DIM_NUMBER)
    looks_of (a, e, absent, out);
  else if (isnan (e->value))
    for (int o = 0; o < n_edges + 2; o++)
      out[o] = 1.0 / (n_edges + 2);
  else
    hob_reading_outcomes (e, &meter, edges, n_edges, out);
}

/* ---- What runs answer ----
 * Of hundreds of runs only those count that say what the thought-of faults do. */

static void
find_runs (Ahead *a)
{
  const guint normal = 0;

  g_array_append_val (a->runs, normal);
  for (guint f = 0; f < a->faults->len; f++)
    hob_listed_add_runs (a->faults->pdata[f], a->runs);
}

/* Takes what they answer from @answers, [run·stride]; FALSE: all the same. */
static gboolean
take (Ahead *a, const float *answers, gsize stride)
{
  gboolean all_same = TRUE;

  for (guint k = 0; k < a->runs->len; k++)
    {
      guint run = g_array_index (a->runs, guint, k);

      a->taken[k] = answers[run * stride];
      a->answers[run] = (double) a->taken[k];
      all_same = all_same && a->taken[k] == answers[0];
    }
  return !all_same;
}

/* Was the same test with the answers that are taken considered at a time no later?  Most that is
 * read on a range without power reads the same whatever was done before. */
static gboolean
was_considered (Ahead *a, int column, const HobScatter *spread, double t)
{
  float *end = a->taken + a->runs->len;
  guint64 key;
  double *before;

  end[0] = (float) column;
  end[1] = (float) spread->share;
  end[2] = (float) spread->fixed;
  key = hob_hash_block (a->taken, (a->runs->len + 3) * sizeof *a->taken);
  before = g_hash_table_lookup (a->considered, &key);
  if (before != NULL && *before <= t)
    return TRUE;
  g_hash_table_insert (a->considered, g_memdup2 (&key, sizeof key), g_memdup2 (&t, sizeof t));
  return FALSE;
}

/* Expectations of the runs of those who are thought of. */
static int
expectations (const Ahead *a, const Candidate *c, HobExpected *e)
{
  HobDimension dim = dim_of (c);
  int n = 0;

  e[n++] = hob_expected_of (a->answers[0], dim, &c->spread);
  for (guint f = 0; f < a->faults->len; f++)
    {
      const HobListed *fault = a->faults->pdata[f];

      for (guint r = 0; r < (fault->graded ? HOB_N_SEVERITIES - 1 : 1); r++)
        e[n++] = hob_expected_of (a->answers[fault->first_run + r], dim, &c->spread);
    }
  for (int k = 0, all = n; k < all; k++)
    {
      n = k == 0 ? 0 : n;
      e[n] = e[k];
      n += !isnan (e[k].value);
    }
  return n;
}

/* Do any two of them differ by more than what scatters? */
static gboolean
differ (const HobExpected *e, int n, const HobMeterClass *meter, gboolean look)
{
  double low = INFINITY, high = -INFINITY, deviation = 0;
  int open = 0;

  for (int k = 0; k < n; k++)
    {
      open += isinf (e[k].value);
      if (isinf (e[k].value))
        continue;
      low = fmin (low, e[k].value);
      high = fmax (high, e[k].value);
      deviation = fmax (deviation, look ? 0 : hob_reading_deviation (&e[k], meter, NAN));
    }
  return (open > 0 && open < n) || (open < n && high - low > deviation * LEAST_DIFFERENCE);
}

static double
other_shows (const Ahead *a, const Candidate *c)
{
  return hob_inquiry_other_shows (a->q, c->symptom, c->occasion->acts, c->t);
}

/* Of what no list has: it answers as all the others do on average, or shows what somebody
 * complains of. */
static double
foreseen (const Ahead *a, const Candidate *c, int outcome)
{
  const double *likelihood = c->likelihood + outcome * a->n;
  double sum = 0, weight = 0, average;

  for (int k = 0; k < a->n - 1; k++)
    {
      sum += a->p[k] * likelihood[k];
      weight += a->p[k];
    }
  average = weight > 0 ? sum / weight : 0;
  return c->symptom < 0 || outcome > 1
             ? average
             : (average
                + hob_seen_likelihood (outcome == 0 ? HOB_NOT_SEEN : HOB_SEEN, other_shows (a, c),
                                       a->q->priors->mis_seen))
                   / 2;
}

/* Of a fault at a severity. */
static void
foresee_state (const Ahead *a, const Candidate *c, const HobListed *fault, double severity,
               const double *edges, int n_edges, double *out)
{
  HobDimension dim = dim_of (c);
  HobExpected e
      = hob_listed_expected (fault, a->answers, 1, severity, dim, &c->spread);
  HobExpected absent = e;

  if (c->symptom >= 0)
    absent = hob_listed_expected (fault, a->absent, 1, severity, dim, &c->spread);
  outcomes_of (a, &e, &absent, dim, edges, n_edges, out);
}

/* Of each suspect, its severities taken together. */
static void
foresee (const Ahead *a, Candidate *c, const double *edges, int n_edges)
{
  HobDimension dim = dim_of (c);
  HobExpected e = hob_expected_of (a->answers[0], dim, &c->spread);
  HobExpected absent = hob_expected_of (a->absent[0], dim, &c->spread);
  double out[OUTCOMES];

  c->likelihood = g_new0 (double, (gsize) OUTCOMES * (gsize) a->n);
  for (guint f = 0; f < a->faults->len; f++)
    {
      const HobListed *fault = a->faults->pdata[f];
      const double *p = a->q->p + fault->first_state;
      double sum = 0;

      for (int s = 0; s < fault->n_states; s++)
        sum += p[s];
      for (int s = 0; s < fault->n_states; s++)
        {
          if (p[s] < sum * 1e-3)
            continue;
          foresee_state (a, c, fault, hob_listed_severity (fault, s), edges, n_edges, out);
          for (int o = 0; o < OUTCOMES; o++)
            c->likelihood[o * a->n + (int) f] += out[o] * p[s] / sum;
        }
    }
  outcomes_of (a, &e, c->symptom >= 0 ? &absent : &e, dim, edges, n_edges, out);
  for (int o = 0; o < OUTCOMES; o++)
    c->likelihood[o * a->n + a->n - 2] = out[o];
  for (int o = 0; o < OUTCOMES; o++)
    c->likelihood[o * a->n + a->n - 1] = foreseen (a, c, o);
}

/* Keeps @c if it tells anything. */
static void
consider (Ahead *a, Candidate c)
{
  HobExpected e[MOST * (HOB_N_SEVERITIES - 1) + 1];
  HobMeterClass meter = hob_meter_class (dim_of (&c));
  double edges[EDGES];
  int n = expectations (a, &c, e), n_edges = 0;

  if (!differ (e, n, &meter, dim_of (&c) == HOB_DIM_NUMBER)
      && !(c.symptom >= 0 && other_shows (a, &c) > 0.5))
    return;
  if (dim_of (&c) != HOB_DIM_NUMBER)
    n_edges = hob_reading_edges (e, n, &meter, edges, EDGES);
  foresee (a, &c, edges, n_edges);
  c.bits = hob_information (a->p, a->n, a->group, a->n_groups, c.likelihood, OUTCOMES);
  if (c.bits < LEAST_BITS)
    g_free (c.likelihood);
  else
    g_array_append_val (a->candidates, c);
}

static void
consider_readings (Ahead *a, const HobOccasion *o, double t)
{
  const GPtrArray *tests = hob_trials_tests (a->q->trials);
  const HobScatter *spread;
  const float *answers = hob_trials_readings (a->q->trials, o->acts, t, &spread);

  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];

      if (!hob_offer_is_for (listed->means, a->role) || !hob_occasion_suits (o, listed->test))
        continue;
      if (take (a, answers + k, tests->len)
          && !was_considered (a, (int) k, &spread[k], t))
        consider (a, (Candidate){ .occasion = o, .listed = listed, .symptom = -1,
                                  .column = (int) k, .answers = answers, .t = t,
                                  .spread = spread[k] });
    }
}

/* Has it been answered?  What somebody saw who looked for it need not be seen again, but what a
 * customer says is worth a look; what did not show in any procedure does not show in this one, nor
 * earlier in the same. */
static gboolean
is_known (const HobInquiry *q, int symptom, const HobOccasion *o, double t)
{
  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];
      g_autoptr (HobCase) acts = NULL;
      double looked;

      if (clue->symptom != symptom || clue->volunteered)
        continue;
      if (clue->seen == HOB_SEEN || hob_clue_anywhere (clue, q->base))
        return TRUE;
      acts = hob_clue_case (clue, q->base, &looked);
      if (t <= looked && acts->acts->len == o->acts->acts->len
          && hob_case_common (acts, o->acts) == acts->acts->len)
        return TRUE;
    }
  return FALSE;
}

static void
consider_looks (Ahead *a, const HobOccasion *o, double t)
{
  int n = hob_symptom_book_size (a->q->idle->book);
  gsize cells = (gsize) n * a->q->n_runs;
  g_autofree double *shows = g_new (double, cells), *absent = g_new (double, cells);
  double next;
  g_autoptr (HobCase) done = hob_occasion_done (o, t, &next);

  hob_trials_look_all (a->q->trials, o->acts,
                       fmin (hob_inquiry_about (a->q, done, t, HOB_SEEN), next), shows);
  hob_trials_look_all (a->q->trials, o->acts,
                       hob_inquiry_about (a->q, done, t, HOB_NOT_SEEN), absent);
  for (int k = 0; k < n; k++)
    {
      if (is_known (a->q, k, o, t))
        continue;
      memcpy (a->answers, shows + (gsize) k * a->q->n_runs, a->q->n_runs * sizeof *shows);
      memcpy (a->absent, absent + (gsize) k * a->q->n_runs, a->q->n_runs * sizeof *absent);
      consider (a, (Candidate){ .occasion = o, .symptom = k, .column = -1, .t = t });
    }
}

static void
consider_all (Ahead *a, const GPtrArray *occasions)
{
  for (guint k = 0; k < occasions->len && !hob_trials_cancelled (a->q->trials); k++)
    {
      const HobOccasion *o = occasions->pdata[k];

      hob_trials_prepare (a->q->trials, o->acts, o->until, o->moments);
      for (guint i = 0; i < o->moments->len; i++)
        {
          double t = g_array_index (o->moments, double, i);

          consider_readings (a, o, t);
          if (!o->dead && o->until > SHORT)
            consider_looks (a, o, t);
        }
      if (!o->dead && (o->until <= SHORT || o->moments->len == 0))
        consider_looks (a, o, o->until);
    }
}

/* ---- Which come first ---- */

static HobTest *
test_of (const Ahead *a, const Candidate *c)
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

static const HobMeansDef *
means_of (const Candidate *c)
{
  return c->listed != NULL ? c->listed->means : &hob_means[HOB_MEANS_LOOK];
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

static const Candidate *
candidate_of (const Ahead *a, const Ranked *ranked)
{
  return &g_array_index (a->candidates, Candidate, ranked->candidate);
}

static Ranked
rank (const Ahead *a, guint k)
{
  const Candidate *c = &g_array_index (a->candidates, Candidate, k);
  const HobTest look = { .what = HOB_TEST_LOOK };
  const HobMeansDef *means = means_of (c);
  HobEffort effort = hob_effort_of (a->q, c->occasion, c->t,
                                    c->listed != NULL ? c->listed->test : &look, means);
  double cost = effort.minutes + a->q->priors->rule.price[means->danger];

  return (Ranked){ c->bits / cost, k, effort };
}

/* How probable it is that the part has a fault at which the test is made. */
static double
weight_at (const Ahead *a, const Candidate *c)
{
  double weight = 0;

  for (guint f = 0; f < a->faults->len && c->listed != NULL; f++)
    {
      const HobListed *fault = a->faults->pdata[f];

      if (hob_test_at_part (a->q->base->range, c->listed->test, fault->h.part[0]))
        weight += a->p[f];
    }
  return weight;
}

/* Does each answer tell of each suspect what it does in the other test? */
static gboolean
tells_the_same (const Ahead *a, const Candidate *c, const Candidate *other)
{
  if (dim_of (c) != dim_of (other) || fabs (c->bits - other->bits) > LEAST_BITS)
    return FALSE;
  for (int k = 0; k < OUTCOMES * a->n; k++)
    if (fabs (c->likelihood[k] - other->likelihood[k]) > SAME)
      return FALSE;
  return TRUE;
}

static gboolean
was_made_so (const Ahead *a, const Candidate *c)
{
  HobTest *test = test_of (a, c);
  gboolean made = was_made (a->q, test);

  hob_test_free (test);
  return made;
}

/* Of tests that tell the same, such as amps along one circuit, one is enough: the one that takes
 * least, and of these the one at the likeliest part. */
static gboolean
is_asked (const Ahead *a, const Ranked *ranked, GArray *chosen)
{
  const Candidate *c = candidate_of (a, ranked);

  for (guint k = 0; k < chosen->len; k++)
    {
      Ranked *other = &g_array_index (chosen, Ranked, k);
      const Candidate *before = candidate_of (a, other);

      if (!tells_the_same (a, c, before))
        continue;
      if (ranked->effort.minutes <= other->effort.minutes && means_of (c) == means_of (before)
          && weight_at (a, c) > weight_at (a, before) && !was_made_so (a, c))
        *other = *ranked;
      return TRUE;
    }
  return FALSE;
}

/* The best few, each of which was not made before.  Ranked. */
static void
choose (const Ahead *a, GArray *chosen)
{
  guint n = a->candidates->len;
  g_autofree Ranked *ranked = g_new (Ranked, n + 1);

  for (guint k = 0; k < n; k++)
    ranked[k] = rank (a, k);
  qsort (ranked, n, sizeof *ranked, most_first);
  for (guint k = 0; k < n && chosen->len < FOLLOWED; k++)
    if (!is_asked (a, &ranked[k], chosen) && !was_made_so (a, candidate_of (a, &ranked[k])))
      g_array_append_val (chosen, ranked[k]);
}

static void
offer_chosen (const Ahead *a, const GArray *chosen, HobSuspects *all)
{
  for (guint k = 0; k < chosen->len; k++)
    {
      const Ranked *ranked = &g_array_index (chosen, Ranked, k);
      const Candidate *c = candidate_of (a, ranked);
      HobOffer *offer = g_new (HobOffer, 1);

      *offer = (HobOffer){ test_of (a, c), means_of (c), ranked->effort.minutes, c->bits, 0 };
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
ask_core (const Ahead *a, const HobSuspects *all, const GArray *chosen)
{
  g_autofree HobTestOption *options = g_new0 (HobTestOption, chosen->len + 1);
  HobTestProblem problem = { .n_states = a->n, .p = a->p, .group = a->group,
                             .n_groups = a->n_groups, .n_tests = (int) chosen->len,
                             .tests = options };

  for (guint k = 0; k < chosen->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      const Ranked *ranked = &g_array_index (chosen, Ranked, k);

      options[k] = (HobTestOption){
        .minutes = offer->minutes,
        .set_up_minutes = ranked->effort.set_up_minutes,
        .set_up = ranked->effort.what != NULL ? set_up_of (chosen, k) : 0,
        .danger = (int) offer->means->danger,
        .n_outcomes = OUTCOMES,
        .likelihood = candidate_of (a, ranked)->likelihood,
      };
    }
  return hob_next_test (&problem, &a->q->priors->rule);
}

/* Where amps wait for their volts, the volts; −1: they are not offered. */
static int
volts_across (const HobSuspects *all)
{
  for (guint k = 0; k < all->offers->len; k++)
    if (across (((HobOffer *) all->offers->pdata[k])->test,
                ((HobSuspect *) all->suspects->pdata[0])->part))
      return (int) k;
  return -1;
}

static int
best_offer (const Ahead *a, HobSuspects *all, const GArray *chosen)
{
  HobNextTest next = ask_core (a, all, chosen);
  int best = next.verdict == HOB_TEST_GO ? next.test : -1;

  all->verdict = next.verdict;
  if (all->proof == HOB_PROOF_VOLTS && volts_across (all) >= 0)
    best = volts_across (all);
  if (best >= 0)
    all->verdict = HOB_TEST_GO;
  return best;
}

/* No part is named before something was read at the part itself, where anything can be, or else
 * before somebody has seen what a customer complains of. */
static void
confirm (const Ahead *a, const GPtrArray *occasions, HobSuspects *all)
{
  const HobSuspect *first = all->suspects->pdata[0];
  HobOffer *offer = NULL;

  if (first->what != HOB_SUSPECT_FAULT || all->proof != HOB_PROOF_NONE)
    return;
  offer = hob_confirm_find (a->q, occasions, a->role, first);
  if (offer == NULL)
    offer = hob_confirm_complaint (a->q, occasions, first);
  if (offer == NULL)
    return;
  g_ptr_array_insert (all->offers, 0, offer);
  all->verdict = HOB_TEST_GO;
}

void
hob_offers_find (const HobInquiry *q, HobSkill role, HobSuspects *all)
{
  g_autoptr (GPtrArray) occasions = occasions_of (q);
  g_autoptr (GArray) chosen = g_array_new (FALSE, FALSE, sizeof (Ranked));
  Ahead a = { .q = q, .role = role, .faults = g_ptr_array_new (),
              .p = g_new0 (double, MOST + 2), .group = g_new0 (int, MOST + 2),
              .candidates = g_array_new (FALSE, FALSE, sizeof (Candidate)),
              .runs = g_array_new (FALSE, FALSE, sizeof (guint)),
              .considered = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free),
              .answers = g_new (double, q->n_runs), .absent = g_new (double, q->n_runs) };
  int best;

  hob_effort_note_watched (q, occasions);
  g_array_set_clear_func (a.candidates, clear_candidate);
  think_of (&a, all);
  find_runs (&a);
  a.taken = g_new (float, a.runs->len + 3);
  consider_all (&a, occasions);
  choose (&a, chosen);
  offer_chosen (&a, chosen, all);
  best = best_offer (&a, all, chosen);
  if (best > 0)
    {
      gpointer offer = g_ptr_array_steal_index (all->offers, (guint) best);

      g_ptr_array_insert (all->offers, 0, offer);
    }
  if (best < 0)
    confirm (&a, occasions, all);
  if (all->offers->len > MOST_OFFERS)
    g_ptr_array_set_size (all->offers, MOST_OFFERS);
  g_ptr_array_unref (a.faults);
  g_array_unref (a.candidates);
  g_array_unref (a.runs);
  g_hash_table_unref (a.considered);
  g_free (a.taken);
  g_free (a.p);
  g_free (a.group);
  g_free (a.answers);
  g_free (a.absent);
}
