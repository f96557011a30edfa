/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/ahead.h"

#include "base/hash.h"
#include "reason/divide.h"
#include "reason/pairs.h"
#include "reason/risk.h"

#include <math.h>
#include <string.h>

#define WORTH 0.002      /* probability from which a suspect is thought of */
#define MOST 30          /* … and how many of them at most … */
#define MOST_LINES 8     /* … and how many wires and pipes */
#define MOST_STATES (MOST + MOST_LINES + HOB_AHEAD_PAIRS + 2)
#define MOST_FORESEEN ((MOST + MOST_LINES) * (HOB_N_SHOWN - 1) + 1)
#define LOOKS 2          /* that are made for the same: eyes err.  Who looks again looks a second
                            longer, since evidence that is said twice counts once */
#define LEAST_BITS 0.01
#define EDGES (HOB_AHEAD_OUTCOMES - 2) /* of the intervals of a reading yet to be made */
#define SHORT 600.0      /* s: a procedure up to this is looked at soon, and to its end … */
#define LONG 60.0        /* … and before each act after which it goes on for longer than this */
#define SETTLES 300.0    /* s, after which a thermometer has what is around it: common practice */
#define LEAST_DIFFERENCE 1.0 /* standard deviations, below which two answers are the same */

/* ---- Who is thought of ---- */

static void
clear_candidate (gpointer item)
{
  g_free (((HobCandidate *) item)->likelihood);
}

static double
p_of (const HobInquiry *q, const HobListed *fault)
{
  double sum = 0;

  for (int s = 0; s < fault->n_states; s++)
    sum += q->p[fault->first_state + s];
  return sum;
}

/* The likeliest wires and pipes: each is one way not to be listed.  @singles: the share of those
 * that are no pair. */
static void
think_of_lines (HobAhead *a, double singles)
{
  const HobInquiry *q = a->q;
  g_autofree gboolean *taken = g_new0 (gboolean, q->lines->len + 1);

  for (int n = 0; n < MOST_LINES; n++)
    {
      double most = WORTH;
      int best = -1;

      for (guint l = 0; l < q->lines->len; l++)
        {
          double p = p_of (q, &g_array_index (q->lines, HobListed, l));

          if (!taken[l] && p >= most)
            {
              best = (int) l;
              most = p;
            }
        }
      if (best < 0)
        return;
      taken[best] = TRUE;
      a->p[a->faults->len] = singles * most;
      a->group[a->faults->len] = q->base->range->n_parts + 1;
      g_ptr_array_add (a->faults, &g_array_index (q->lines, HobListed, best));
    }
}

/* The likeliest two faults at once; whoever names them replaces two parts. */
static void
think_of_pairs (HobAhead *a, const HobSuspects *all)
{
  const HobInquiry *q = a->q;

  for (guint k = 0; k < all->suspects->len && a->n_pairs < HOB_AHEAD_PAIRS; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];
      guint n = a->faults->len + (guint) a->n_pairs;

      if (s->what != HOB_SUSPECT_FAULT || s->part2 < 0 || s->p < WORTH)
        continue;
      a->p[n] = s->p;
      a->group[n] = q->base->range->n_parts + 2 + a->n_pairs;
      a->pairs[a->n_pairs++]
          = (HobBoth){ hob_inquiry_listed_at (q, s->part, s->fault),
                       hob_inquiry_listed_at (q, s->part2, s->fault2), s->severity.middle,
                       s->severity2 };
    }
}

static void
think_of (HobAhead *a, const HobSuspects *all)
{
  const HobInquiry *q = a->q;
  double sum = 0, singles = 1;

  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      singles -= s->part2 >= 0 ? s->p : 0;
      if (a->faults->len == MOST || s->what != HOB_SUSPECT_FAULT || s->part2 >= 0 || s->p < WORTH)
        continue;
      a->p[a->faults->len] = s->p;
      a->group[a->faults->len] = s->part;
      g_ptr_array_add (a->faults, (gpointer) hob_inquiry_listed (q, s));
    }
  think_of_lines (a, singles);
  think_of_pairs (a, all);
  a->n = (int) a->faults->len + a->n_pairs + 2;
  a->p[a->n - 2] = singles * q->p[q->normal];
  a->p[a->n - 1] = singles * q->p[q->n_states - 1];
  a->group[a->n - 2] = q->base->range->n_parts;
  a->group[a->n - 1] = q->base->range->n_parts + 1;
  a->n_groups = q->base->range->n_parts + 2 + a->n_pairs;
  for (int k = 0; k < a->n; k++)
    sum += a->p[k];
  a->p[a->n - 1] += fmax (1 - sum, 0); /* all who are hardly probable, together */
  sum = fmax (sum, 1);
  for (int k = 0; k < a->n; k++)
    a->p[k] /= sum;
}

/* ---- What each would say ---- */

HobDimension
hob_candidate_dim (const HobCandidate *c)
{
  return c->listed != NULL ? c->listed->dim : HOB_DIM_NUMBER;
}

/* @absent: what is expected so early that its absence counts.  Between the two either may be. */
static void
looks_of (const HobAhead *a, const HobExpected *e, const HobExpected *absent, double *out)
{
  double seen = hob_seen_likelihood (HOB_SEEN, isnan (e->value) ? 0.5 : e->value,
                                     a->q->priors->mis_seen);
  double not_seen = hob_seen_likelihood (
      HOB_NOT_SEEN, isnan (absent->value) ? 0.5 : absent->value, a->q->priors->mis_seen);

  out[0] = not_seen / (seen + not_seen);
  out[1] = seen / (seen + not_seen);
}

static void
outcomes_of (const HobAhead *a, const HobExpected *e, const HobExpected *absent, HobDimension dim,
             const double *edges, int n_edges, double *out)
{
  HobMeterClass meter = hob_meter_class (dim);

  for (int o = 0; o < HOB_AHEAD_OUTCOMES; o++)
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

/* All that a look at @first, or at the same fault of a part in parallel, depends on. */
static void
count_runs (HobAhead *a, const HobListed *first)
{
  const HobListed *f = first;

  do
    {
      for (guint k = 0; k < hob_listed_n_runs (f); k++)
        {
          a->counts[f->first_run + k] = TRUE;
          if (f->first_mid > 0)
            a->counts[f->first_mid + k] = TRUE;
        }
      a->counts[f->other_run] = TRUE;
    }
  while ((f += f->next) != first);
}

static void
add_runs (HobAhead *a, const HobListed *fault)
{
  hob_listed_add_runs (fault, a->runs);
  count_runs (a, fault);
}

static void
find_runs (HobAhead *a)
{
  const guint normal = 0;

  g_array_append_val (a->runs, normal);
  a->counts[normal] = TRUE;
  for (guint f = 0; f < a->faults->len; f++)
    add_runs (a, a->faults->pdata[f]);
  for (int k = 0; k < a->n_pairs; k++)
    {
      add_runs (a, a->pairs[k].a);
      add_runs (a, a->pairs[k].b);
    }
}

/* Takes what they answer from @answers, [run·stride]; FALSE: all the same. */
static gboolean
take (HobAhead *a, const float *answers, gsize stride)
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
was_considered (HobAhead *a, int column, const HobScatter *spread, double t)
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

/* What @clue told of a run. */
static double
told (const HobAhead *a, guint clue, guint run)
{
  return a->q->told[(gsize) run * a->q->clues->len + clue];
}

/* How often it was read before, no matter when, when it was in each run what it is now as far as
 * the meter shows it: who reads a part twice has read it once. */
static int
times_read (const HobAhead *a, const HobListedTest *listed)
{
  HobMeterClass meter = hob_meter_class (listed->dim);
  int n = 0;

  for (guint k = 0; k < a->q->clues->len; k++)
    {
      const HobClue *clue = a->q->clues->pdata[k];
      gboolean same = hob_test_same (clue->test, listed->test);

      for (guint r = 0; r < a->runs->len && same; r++)
        {
          guint run = g_array_index (a->runs, guint, r);
          HobExpected now = { a->answers[run], 0, 0 }, then = { told (a, k, run), 0, 0 };

          same = now.value == then.value
                 || fabs (now.value - then.value) <= hob_reading_deviation (&then, &meter, NAN);
        }
      n += same;
    }
  return n;
}

/* Adds what @run makes one read to @all, [n]; how many there are then. */
static int
add_foreseen (const HobAhead *a, const HobCandidate *c, guint run, int group, HobForeseen *all,
              int n)
{
  all[n] = (HobForeseen){ hob_expected_of (a->answers[run], hob_candidate_dim (c), &c->spread),
                          a->run_p[run], group };
  return isnan (all[n].expected.value) ? n : n + 1;
}

/* What the runs of those who are thought of make one read. */
static int
foresee_runs (const HobAhead *a, const HobCandidate *c, HobForeseen *all)
{
  int n = add_foreseen (a, c, 0, a->group[a->n - 2], all, 0);

  for (guint f = 0; f < a->faults->len; f++)
    {
      const HobListed *fault = a->faults->pdata[f];

      for (guint k = 0; k < hob_listed_n_runs (fault); k++)
        {
          n = add_foreseen (a, c, fault->first_run + k, a->group[f], all, n);
          if (fault->first_mid > 0)
            n = add_foreseen (a, c, fault->first_mid + k, a->group[f], all, n);
        }
    }
  return n;
}

/* Of nothing wrong, and of each fault at each severity that was computed: the states nearest to
 * it. */
static void
weigh_runs (HobAhead *a)
{
  a->run_p[0] = a->p[a->n - 2];
  for (guint f = 0; f < a->faults->len; f++)
    {
      const HobListed *fault = a->faults->pdata[f];
      double p = p_of (a->q, fault), *of_fault = a->run_p + fault->first_run;
      guint n = hob_listed_n_runs (fault);

      for (int s = 0; s < fault->n_states; s++)
        {
          double nearest = round (hob_listed_severity (fault, s) * n);

          of_fault[n > 1 ? (int) CLAMP (nearest, 1, n) - 1 : 0]
              += p > 0 ? a->p[f] * a->q->p[fault->first_state + s] / p : 0;
        }
    }
}

/* Do any two of them differ by more than what scatters? */
static gboolean
differ (const HobForeseen *all, int n, const HobMeterClass *meter, gboolean look)
{
  double low = INFINITY, high = -INFINITY, deviation = 0;
  int open = 0;

  for (int k = 0; k < n; k++)
    {
      const HobExpected *e = &all[k].expected;

      open += isinf (e->value);
      if (isinf (e->value))
        continue;
      low = fmin (low, e->value);
      high = fmax (high, e->value);
      deviation = fmax (deviation, look ? 0 : hob_reading_deviation (e, meter, NAN));
    }
  return (open > 0 && open < n) || (open < n && high - low > deviation * LEAST_DIFFERENCE);
}

static double
other_shows (const HobAhead *a, const HobCandidate *c)
{
  return hob_inquiry_other_shows (a->q, c->symptom, c->occasion->acts, c->t);
}

/* Of what no list has: it answers as all the others do on average, or shows what somebody
 * complains of. */
static double
foreseen (const HobAhead *a, const HobCandidate *c, int outcome)
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

/* Of a fault, its severities taken together. */
static void
foresee_fault (const HobAhead *a, HobCandidate *c, int f, const double *edges, int n_edges)
{
  const HobListed *fault = a->faults->pdata[f];
  HobDimension dim = hob_candidate_dim (c);
  HobCourse course = hob_listed_course (fault, a->answers, 1, dim, &c->spread);
  HobCourse absent
      = c->symptom >= 0 ? hob_listed_course (fault, a->absent, 1, dim, &c->spread) : course;
  const double *p = a->q->p + fault->first_state;
  double out[HOB_AHEAD_OUTCOMES], sum = p_of (a->q, fault);

  for (int s = 0; s < fault->n_states; s++)
    {
      double severity = hob_listed_severity (fault, s);
      HobExpected e, none;

      if (p[s] < sum * 1e-3)
        continue;
      e = hob_course_at (&course, severity);
      none = hob_course_at (&absent, severity);
      outcomes_of (a, &e, &none, dim, edges, n_edges, out);
      for (int o = 0; o < HOB_AHEAD_OUTCOMES; o++)
        c->likelihood[o * a->n + f] += out[o] * p[s] / sum;
    }
}

static HobExpected
both_expected (const HobAhead *a, const HobCandidate *c, const HobBoth *both, const double *answers)
{
  HobDimension dim = hob_candidate_dim (c);
  HobExpected x
      = hob_listed_expected (both->a, answers, 1, both->severity_a, dim, &c->spread);
  HobExpected y
      = hob_listed_expected (both->b, answers, 1, both->severity_b, dim, &c->spread);

  return hob_pair_expected (&x, &y, answers[0], dim);
}

static void
foresee_pairs (const HobAhead *a, HobCandidate *c, const double *edges, int n_edges)
{
  double out[HOB_AHEAD_OUTCOMES];

  for (int k = 0; k < a->n_pairs; k++)
    {
      HobExpected e = both_expected (a, c, &a->pairs[k], a->answers), absent = e;

      if (c->symptom >= 0)
        absent = both_expected (a, c, &a->pairs[k], a->absent);
      outcomes_of (a, &e, &absent, hob_candidate_dim (c), edges, n_edges, out);
      for (int o = 0; o < HOB_AHEAD_OUTCOMES; o++)
        c->likelihood[o * a->n + (int) a->faults->len + k] = out[o];
    }
}

/* Of each suspect. */
static void
foresee (const HobAhead *a, HobCandidate *c, const double *edges, int n_edges)
{
  HobDimension dim = hob_candidate_dim (c);
  HobExpected e = hob_expected_of (a->answers[0], dim, &c->spread);
  HobExpected absent = hob_expected_of (a->absent[0], dim, &c->spread);
  double out[HOB_AHEAD_OUTCOMES];

  c->likelihood = g_new0 (double, (gsize) HOB_AHEAD_OUTCOMES * (gsize) a->n);
  for (guint f = 0; f < a->faults->len; f++)
    foresee_fault (a, c, (int) f, edges, n_edges);
  foresee_pairs (a, c, edges, n_edges);
  outcomes_of (a, &e, c->symptom >= 0 ? &absent : &e, dim, edges, n_edges, out);
  for (int o = 0; o < HOB_AHEAD_OUTCOMES; o++)
    c->likelihood[o * a->n + a->n - 2] = out[o];
  for (int o = 0; o < HOB_AHEAD_OUTCOMES; o++)
    c->likelihood[o * a->n + a->n - 1] = foreseen (a, c, o);
}

/* ---- Which tests tell anything ---- */

/* Adds @c with what it tells, or nothing if that is too little. */
static void
keep (HobAhead *a, HobCandidate c)
{
  if (c.bits < LEAST_BITS)
    g_free (c.likelihood);
  else
    g_array_append_val (a->candidates, c);
}

static void
consider (HobAhead *a, HobCandidate c)
{
  HobForeseen all[MOST_FORESEEN];
  HobMeterClass meter = hob_meter_class (hob_candidate_dim (&c));
  double edges[EDGES];
  int n = foresee_runs (a, &c, all), n_edges = 0;

  if (!differ (all, n, &meter, hob_candidate_dim (&c) == HOB_DIM_NUMBER)
      && !(c.symptom >= 0 && other_shows (a, &c) > 0.5))
    return;
  if (hob_candidate_dim (&c) != HOB_DIM_NUMBER)
    n_edges = hob_reading_divide (all, n, a->n_groups, &meter, edges, EDGES);
  foresee (a, &c, edges, n_edges);
  c.bits = hob_information (a->p, a->n, a->group, a->n_groups, c.likelihood, HOB_AHEAD_OUTCOMES);
  keep (a, c);
}

/* Of answers that are taken: the same for two tests whose answers differ by less than any meter
 * shows, such as amps along one circuit. */
static guint64
key_of_reading (HobAhead *a, const HobCandidate *c)
{
  const guint32 digits = 0xfffff000u; /* of a float: a sign, its size, and 11 bits */
  guint n = a->runs->len + 3;

  a->taken[n - 3] = (float) hob_candidate_dim (c);
  a->taken[n - 2] = (float) c->spread.share;
  a->taken[n - 1] = (float) c->spread.fixed;
  for (guint k = 0; k < n; k++)
    {
      guint32 bits;

      memcpy (&bits, &a->taken[k], sizeof bits);
      bits &= digits;
      memcpy (&a->taken[k], &bits, sizeof bits);
    }
  return hob_hash_block (a->taken, n * sizeof *a->taken);
}

/* What tells the same as another reading is not worked out again. */
static void
consider_reading (HobAhead *a, HobCandidate c)
{
  guint64 key = key_of_reading (a, &c);
  gpointer found;
  guint n = a->candidates->len;

  if (!g_hash_table_lookup_extended (a->read_alike, &key, NULL, &found))
    {
      consider (a, c);
      found = GUINT_TO_POINTER (a->candidates->len > n ? a->candidates->len : 0);
      g_hash_table_insert (a->read_alike, g_memdup2 (&key, sizeof key), found);
      return;
    }
  if (found != NULL)
    {
      const HobCandidate *other
          = &g_array_index (a->candidates, HobCandidate, GPOINTER_TO_UINT (found) - 1);

      c.bits = other->bits;
      c.likelihood = g_memdup2 (other->likelihood, (gsize) HOB_AHEAD_OUTCOMES * (gsize) a->n
                                                       * sizeof *other->likelihood);
      keep (a, c);
    }
}

static void
consider_readings (HobAhead *a, const HobOccasion *o, double t, double risk)
{
  const GPtrArray *tests = hob_trials_tests (a->q->trials);
  const HobScatter *spread;
  const float *answers = hob_trials_readings (a->q->trials, o->acts, t, &spread);

  hob_trials_forget_mids (a->q->trials, a->answers);
  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];
      int n;

      if (!hob_offer_is_for (listed->means, a->role) || !hob_occasion_suits (o, listed->test)
          || (listed->means == &hob_means[HOB_MEANS_THERMOMETER] && t < SETTLES)
          || !take (a, answers + k, tests->len) || was_considered (a, (int) k, &spread[k], t))
        continue;
      n = times_read (a, listed);
      if (n < (hob_test_is_seen (listed->test) ? LOOKS : 1))
        consider_reading (a, (HobCandidate){ .occasion = o, .listed = listed,
                                             .means = listed->means, .symptom = -1,
                                             .column = (int) k, .answers = answers, .t = t + n,
                                             .risk = risk, .spread = spread[k] });
    }
}

/* How often has it been answered?  What did not show in any procedure does not show in this one
 * either, and is asked no more; else whoever has done the same (@done, of a procedure that may go
 * on), for as long or a second less, has looked.  What a customer says is worth a look, and what
 * was seen once may be looked for after something else is done. */
static int
times_looked (const HobInquiry *q, int symptom, const HobCase *done, double t)
{
  int n = 0;

  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];
      g_autoptr (HobCase) acts = NULL;
      double looked;

      if (clue->symptom != symptom || clue->volunteered)
        continue;
      if (hob_clue_anywhere (clue, q->base))
        return LOOKS;
      acts = hob_clue_case (clue, q->base, &looked);
      n += acts->acts->len == done->acts->len && hob_case_common (acts, done) == acts->acts->len
           && (clue->seen == HOB_SEEN || t <= looked + LOOKS);
    }
  return n;
}

static const HobMeansDef *
means_of_look (const HobInquiry *q, const HobOccasion *o, int symptom)
{
  return o->exchanged
             ? &hob_means[HOB_MEANS_SWAP]
             : &hob_means[hob_symptom_means (hob_symptom_book_get (q->idle->book, symptom))];
}

/* Does anybody who is thought of show the complaint, in whatever procedure? */
static gboolean
shows_anywhere (const HobAhead *a)
{
  for (guint k = 0; k < a->runs->len; k++)
    if (told (a, (guint) a->q->complaint, g_array_index (a->runs, guint, k)) > 0)
      return TRUE;
  return FALSE;
}

/* Who looks again looks a second longer; or less, where more is done then. */
static double
again_at (double t, int looked, double next)
{
  return t + looked < next ? t + looked : t - looked;
}

/* Looks for what any run shows by then, and for what somebody complains of; but what one must stop
 * using the range for is not brought about only to see it again. */
static void
consider_looks (HobAhead *a, const HobOccasion *o, double t, double risk)
{
  const HobInquiry *q = a->q;
  int n = hob_symptom_book_size (q->idle->book);
  int complaint
      = q->complaint >= 0 ? ((HobClue *) q->clues->pdata[q->complaint])->symptom : -1;
  gsize cells = (gsize) n * q->n_runs;
  g_autofree double *shows = g_new (double, cells), *absent = g_new (double, cells);
  g_autofree gboolean *shown = g_new (gboolean, n);
  g_autofree int *looked = g_new (int, n);
  gboolean anywhere = complaint >= 0
                      && hob_clue_anywhere (q->clues->pdata[q->complaint], q->base);
  double next, by;
  g_autoptr (HobCase) done = hob_occasion_done (o, t, &next);

  by = fmin (hob_inquiry_about (q, done, t, HOB_SEEN), next);
  hob_trials_shown (q->trials, o->acts, a->counts, by, shown);
  if (complaint >= 0 && hob_risk_forbids (hob_symptom_book_get (q->idle->book, complaint)->hazards))
    shown[complaint] = FALSE;
  else if (complaint >= 0 && !(anywhere && shows_anywhere (a)))
    shown[complaint] = TRUE;
  for (int k = 0; k < n; k++)
    {
      looked[k] = shown[k] ? times_looked (q, k, done, t) : 0;
      shown[k] = shown[k] && looked[k] < LOOKS;
    }
  hob_trials_look_for (q->trials, o->acts, shown, by, shows);
  hob_trials_look_for (q->trials, o->acts, shown, hob_inquiry_about (q, done, t, HOB_NOT_SEEN),
                       absent);
  for (int k = 0; k < n; k++)
    {
      if (!shown[k])
        continue;
      memcpy (a->answers, shows + (gsize) k * q->n_runs, q->n_runs * sizeof *shows);
      memcpy (a->absent, absent + (gsize) k * q->n_runs, q->n_runs * sizeof *absent);
      consider (a, (HobCandidate){ .occasion = o, .means = means_of_look (q, o, k), .symptom = k,
                                   .column = -1, .t = again_at (t, looked[k], next),
                                   .again = looked[k] > 0,
                                   .risk = risk });
    }
}

/* Has anybody felt current?  Then nobody turns a knob only to look. */
static gboolean
was_felt (const HobInquiry *q)
{
  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];

      if (clue->symptom >= 0 && clue->seen == HOB_SEEN
          && hob_symptom_book_is_felt (q->idle->book, clue->symptom))
        return TRUE;
    }
  return FALSE;
}

/* What a suspect may do by then to whoever works the range is counted, or it is not tried. */
static void
consider_at (HobAhead *a, const HobOccasion *o, const HobRisk *risk, double t, gboolean look)
{
  double minutes = hob_risk_minutes (risk, a->role, t);

  if (isinf (minutes) || (look && a->felt))
    return;
  if (look)
    consider_looks (a, o, t, minutes);
  else
    consider_readings (a, o, t, minutes);
}

/* Just before more is done than by time t, s. */
static double
left_alone_from (const HobOccasion *o, double t)
{
  double next;
  G_GNUC_UNUSED g_autoptr (HobCase) done = hob_occasion_done (o, t, &next);

  return fmax (t, next - 1);
}

/* A moment soon after an act, and the run goes on alone: whoever watches stays as long again, since
 * what takes so long to show has not shown by then. */
static void
consider_staying (HobAhead *a, const HobOccasion *o, const HobRisk *risk, double t)
{
  double next;
  g_autoptr (HobCase) done = hob_occasion_done (o, t, &next);
  guint n = done->acts->len;
  double last = n > 0 ? (double) g_array_index (done->acts, HobAct, n - 1).ms / 1000.0 : t;

  if (n > o->first && t - last <= HOB_OCCASION_SOON && 2 * t - last < next - LONG)
    consider_at (a, o, risk, 2 * t - last, TRUE);
}

static void
consider_all (HobAhead *a, const GPtrArray *occasions)
{
  for (guint k = 0; k < occasions->len && !hob_trials_cancelled (a->q->trials); k++)
    {
      const HobOccasion *o = occasions->pdata[k];
      g_autoptr (HobRisk) risk = NULL;

      hob_trials_prepare (a->q->trials, o->acts, o->until, o->moments);
      risk = hob_risk_new (a, o);
      for (guint i = 0; i < o->moments->len; i++)
        {
          double t = g_array_index (o->moments, double, i);

          consider_at (a, o, risk, t, FALSE);
          if (!o->dead
              && (o->until > SHORT || i == 0 || left_alone_from (o, t) + LONG < o->until))
            consider_at (a, o, risk, o->until > SHORT ? t : left_alone_from (o, t), TRUE);
          if (!o->dead && o->until > SHORT)
            consider_staying (a, o, risk, t);
        }
      if (!o->dead && (o->until <= SHORT || o->moments->len == 0))
        consider_at (a, o, risk, o->until, TRUE);
    }
}

double
hob_ahead_severity (const HobAhead *a, const HobListed *fault)
{
  double grid[HOB_N_GRID];

  for (int s = 0; s < fault->n_states; s++)
    grid[s] = hob_listed_severity (fault, s);
  return hob_severity_span (grid, a->q->p + fault->first_state, fault->n_states, 0).middle;
}

gboolean
hob_offer_is_for (const HobMeansDef *means, HobSkill role)
{
  return role >= means->skill && (role >= HOB_SKILL_TECHNICIAN || means->danger < HOB_DANGER_LIVE);
}

HobAhead *
hob_ahead_new (const HobInquiry *q, HobSkill role, const HobSuspects *all,
               const GPtrArray *occasions)
{
  HobAhead *a = g_new0 (HobAhead, 1);

  a->q = q;
  a->role = role;
  a->felt = was_felt (q);
  a->faults = g_ptr_array_new ();
  a->p = g_new0 (double, MOST_STATES);
  a->group = g_new0 (int, MOST_STATES);
  a->candidates = g_array_new (FALSE, FALSE, sizeof (HobCandidate));
  g_array_set_clear_func (a->candidates, clear_candidate);
  a->runs = g_array_new (FALSE, FALSE, sizeof (guint));
  a->considered = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, g_free);
  a->read_alike = g_hash_table_new_full (g_int64_hash, g_int64_equal, g_free, NULL);
  a->answers = g_new (double, q->n_runs);
  a->absent = g_new (double, q->n_runs);
  a->counts = g_new0 (gboolean, q->n_runs);
  think_of (a, all);
  find_runs (a);
  a->run_p = g_new0 (double, q->n_runs);
  weigh_runs (a);
  a->taken = g_new (float, a->runs->len + 3);
  consider_all (a, occasions);
  return a;
}

void
hob_ahead_free (HobAhead *a)
{
  if (a == NULL)
    return;
  g_ptr_array_unref (a->faults);
  g_array_unref (a->candidates);
  g_array_unref (a->runs);
  g_free (a->counts);
  g_hash_table_unref (a->considered);
  g_hash_table_unref (a->read_alike);
  g_free (a->run_p);
  g_free (a->taken);
  g_free (a->p);
  g_free (a->group);
  g_free (a->answers);
  g_free (a->absent);
  g_free (a);
}
