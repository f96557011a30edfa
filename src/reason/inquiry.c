/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/inquiry.h"

#include "reason/complaint.h"

#include <math.h>

/* Assumptions of this project. */
#define UNIT_LIMIT 0.03  /* how far units of one make differ at least */
#define OTHER_SHOWS 0.05 /* share of what no list has that shows a given symptom */
#define SHOWS_AGAIN 0.8  /* … and that shows again what somebody complained of */
#define OTHER_READS 0.5  /* share of readings that what no list has changes: to anything */
#define LINES 0.5        /* share of what is not listed that is a wire or a pipe: assumed */
#define ELSEWHERE 0.1    /* share of units in which a symptom begins at another severity */
#define IMAGINED 0.1     /* of what is mis-seen when looked for: a symptom nobody had asked about */
#define GRAVE 0.02       /* how seldom a grave symptom is imagined, beside others */
#define MULTIPLES 20.0   /* by which what scatters may differ at most */
#define ROOM 298.15      /* K: temperatures differ in their distance to the room's */

/* Times of a procedure at which to read: a while after an act, and where it lasts, later too. */
#define AT_ONCE 1.0   /* s: with nothing done */
#define SHORTEST 10.0 /* s of nothing done, below which nobody reads */
#define SOON 90.0     /* s */
#define UNEVEN 0.3    /* of the time since the last act: how much longer one unit takes */
#define ROUGHLY 0.6   /* the same, where somebody tells of it who has not watched a clock */
#define LEAST_SLACK 3.0 /* s */
#define LATER 600.0   /* s */
#define LONG 1200.0   /* s of nothing done, from which one reads later and at its end */
#define TOO_LONG 7200.0

gboolean
hob_clue_anywhere (const HobClue *clue, const HobCase *base)
{
  return clue->symptom >= 0 && isnan (clue->test->time) && !hob_case_has_controls (base);
}

HobCase *
hob_clue_case (const HobClue *clue, const HobCase *base, double *t)
{
  HobCase *c = hob_test_case (clue->test, base, t);

  if (clue->symptom >= 0 && isnan (clue->test->time))
    *t = NAN;
  return c;
}

/* ---- Occasions ---- */

static void
add_moment (HobOccasion *o, double t)
{
  t = floor (t);
  g_array_append_val (o->moments, t);
}

/* Between an act at @from and the next at @to. */
static void
add_moments (HobOccasion *o, double from, double to)
{
  double rest = to - from;

  if (rest < SHORTEST)
    return;
  add_moment (o, from + fmin (SOON, rest / 2));
  if (o->dead || rest < LONG || rest > TOO_LONG)
    return;
  add_moment (o, from + LATER);
  add_moment (o, to - 1);
}

HobOccasion *
hob_occasion_new (const HobCase *base, const char *procedure, gboolean dead)
{
  HobOccasion *o = g_new0 (HobOccasion, 1);
  double from = 0;

  o->dead = dead;
  o->acts = hob_case_copy (base);
  if (dead)
    hob_trials_make_dead (o->acts);
  o->first = o->acts->acts->len;
  o->moments = g_array_new (FALSE, FALSE, sizeof (double));
  if (!hob_procedure_add (o->acts, procedure, &o->until, NULL))
    g_assert_not_reached ();
  o->still = dead && o->acts->acts->len == o->first;
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      double t = (double) g_array_index (o->acts->acts, HobAct, k).ms / 1000.0;

      add_moments (o, from, t);
      from = t;
    }
  if (o->acts->acts->len == o->first)
    add_moment (o, AT_ONCE);
  if (!o->still)
    add_moments (o, from, o->until);
  if (dead)
    o->until = g_array_index (o->moments, double, o->moments->len - 1);
  return o;
}

void
hob_occasion_free (HobOccasion *o)
{
  hob_case_free (o->acts);
  g_array_unref (o->moments);
  g_free (o);
}

gboolean
hob_occasion_suits (const HobOccasion *o, const HobTest *test)
{
  return o->exchanged                      ? FALSE
         : test->what == HOB_TEST_INSPECT ? o->still
                                          : o->dead == hob_test_is_dead (test);
}

double
hob_occasion_left_alone (const HobOccasion *o, const HobCase *acts)
{
  g_autoptr (HobCase) own = hob_case_effective (o->acts), done = hob_case_effective (acts);
  guint common = hob_case_common (own, done);

  if (common < done->acts->len)
    return -INFINITY;
  return common < own->acts->len
             ? (double) (g_array_index (own->acts, HobAct, common).ms - 1) / 1000.0
             : o->until;
}

HobCase *
hob_occasion_done (const HobOccasion *o, double t, double *next)
{
  HobCase *done = hob_case_new (o->acts->range);

  *next = o->until;
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (o->acts->acts, HobAct, k);
      double at = (double) act->ms / 1000.0;

      if (at <= t)
        hob_case_add (done, *act);
      else
        *next = fmin (*next, at);
    }
  return done;
}

static gboolean
does (const HobOccasion *o, const HobAct *act)
{
  for (guint k = 0; k < o->acts->acts->len; k++)
    {
      const HobAct *own = &g_array_index (o->acts->acts, HobAct, k);

      if (own->what == act->what && own->part == act->part && own->index == act->index
          && fabs (own->value - act->value) < 1e-9)
        return TRUE;
    }
  return FALSE;
}

/* Does @other do all that @o does?  If nothing is done, only the same counts. */
static gboolean
is_part_of (const HobOccasion *o, const HobOccasion *other, guint made_dead)
{
  guint n = o->acts->acts->len;

  if (n == made_dead)
    return other->acts->acts->len == n;
  for (guint k = 0; k < n; k++)
    if (!does (other, &g_array_index (o->acts->acts, HobAct, k)))
      return FALSE;
  return TRUE;
}

/* Is it part of one that stays?  Of two that do the same the first one stays. */
static gboolean
is_superfluous (const GPtrArray *dead, guint k, guint made_dead)
{
  const HobOccasion *o = dead->pdata[k];

  for (guint i = 0; i < dead->len; i++)
    if (i != k && is_part_of (o, dead->pdata[i], made_dead)
        && (i < k || !is_part_of (dead->pdata[i], o, made_dead)))
      return TRUE;
  return FALSE;
}

static void
add_exchanges (GPtrArray *all, const HobCase *base)
{
  g_auto (GStrv) names = hob_procedure_exchanges (base->range);

  for (char **name = names; *name != NULL; name++)
    {
      HobOccasion *o = hob_occasion_new (base, *name, FALSE);

      o->exchanged = TRUE;
      g_array_set_size (o->moments, 0);
      g_ptr_array_add (all, o);
    }
}

GPtrArray *
hob_occasions_new (const HobCase *base, char *const *procedures)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_occasion_free);
  g_autoptr (GPtrArray) dead
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_occasion_free);
  g_autoptr (HobCase) unplugged = hob_case_copy (base);

  hob_trials_make_dead (unplugged);
  add_exchanges (all, base);
  for (char *const *name = procedures; *name != NULL; name++)
    {
      g_ptr_array_add (all, hob_occasion_new (base, *name, FALSE));
      g_ptr_array_add (dead, hob_occasion_new (base, *name, TRUE));
    }
  for (guint k = 0; k < dead->len; k++)
    if (!is_superfluous (dead, k, unplugged->acts->len))
      {
        g_ptr_array_add (all, dead->pdata[k]);
        dead->pdata[k] = hob_occasion_new (base, procedures[k], TRUE);
      }
  return all;
}

/* ---- States ---- */

/* Standard deviation among units: what other units and houses show, and never less than parts of
 * one make differ. */
HobExpected
hob_expected_of (double answer, HobDimension dim, const HobScatter *spread)
{
  double size = fabs (answer - (dim == HOB_DIM_TEMPERATURE ? ROOM : 0));
  double share = fmax (spread->share, UNIT_LIMIT / sqrt (3));

  return (HobExpected){ answer, isfinite (answer) ? hypot (size * share, spread->fixed) : 0 };
}

/* The least and the most that a fault answers in this unit and in another. */
static void
widen (const HobListed *fault, const double *answers, guint stride, double *low, double *high)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];

  *low = fmin (*low, fmin (same, other));
  *high = fmax (*high, fmax (same, other));
}

/* What another unit in another house, and other chances, change of a fault's answer, as a share: of
 * the greater and the less, how many times the one is more than the other.  Parts in parallel at
 * which it answers as well are more units. */
static double
share_of (const HobListed *fault, const double *answers, guint stride, HobDimension dim)
{
  double room = dim == HOB_DIM_TEMPERATURE ? ROOM : 0, low = INFINITY, high = -INFINITY;
  double all_low, all_high;

  widen (fault, answers, stride, &low, &high);
  if (!isfinite (low) || !isfinite (high))
    return 0;
  all_low = low;
  all_high = high;
  for (const HobListed *f = fault + fault->next; f != fault; f += f->next)
    widen (f, answers, stride, &all_low, &all_high);
  if (isfinite (all_low) && isfinite (all_high))
    {
      low = all_low;
      high = all_high;
    }
  low -= room;
  high -= room;
  if (low * high <= 0)
    return low != high ? 1 : 0;
  return fmin (fmax (low / high, high / low) - 1, MULTIPLES);
}

static double
most_of (const double *values, int n)
{
  double most = values[0];

  for (int k = 1; k < n; k++)
    most = fmax (most, values[k]);
  return most;
}

/* Whether it shows: at a severity, and as often as not in another unit and house, where that
 * differs. */
static double
shows_of (const HobListed *fault, const double *answers, guint stride, double severity)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];
  double shows[HOB_N_SEVERITIES] = { answers[0] }, here = same;

  for (int k = 1; fault->graded && k < HOB_N_SEVERITIES; k++)
    shows[k] = answers[stride * (fault->first_run + (guint) k - 1)];
  if (fault->graded)
    here = (1 - ELSEWHERE) * hob_shows_at (shows, severity)
           + ELSEWHERE * most_of (shows + 1, HOB_N_SEVERITIES - 1);
  return isfinite (other) && other != same ? (here + other) / 2 : here;
}

/* In another unit and house it is open and here it is not, or the other way round: as often as not
 * it is open, and what it reads otherwise is known by its size alone. */
static HobExpected
open_or (double finite)
{
  return (HobExpected){ finite, fabs (finite), 0.5 };
}

HobExpected
hob_listed_expected (const HobListed *fault, const double *answers, guint stride, double severity,
                     HobDimension dim, const HobScatter *spread)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];
  HobScatter own = { fmax (spread->share, share_of (fault, answers, stride, dim)),
                     spread->fixed };
  HobExpected computed[HOB_N_SEVERITIES] = { hob_expected_of (answers[0], dim, spread) };

  if (dim == HOB_DIM_NUMBER)
    return (HobExpected){ shows_of (fault, answers, stride, severity), 0, 0 };
  if (isinf (same) != isinf (other) && !isnan (same) && !isnan (other))
    return open_or (isinf (same) ? other : same);
  if (!fault->graded)
    return hob_expected_of (answers[stride * fault->first_run], dim, &own);
  for (int k = 1; k < HOB_N_SEVERITIES; k++)
    computed[k]
        = hob_expected_of (answers[stride * (fault->first_run + (guint) k - 1)], dim, &own);
  return hob_expected_at (computed, severity);
}

static void
make_prior (HobInquiry *q)
{
  const int other = q->n_states - 1;

  for (guint k = 0; k < q->faults->len; k++)
    {
      const HobListed *f = &g_array_index (q->faults, HobListed, k);

      for (int s = 0; s < f->n_states; s++)
        q->prior[f->first_state + s]
            = q->priors->weights[f->h.part[0]][f->h.fault[0]] / f->n_states;
    }
  hob_prior_set_share (q->prior, q->n_states, q->normal, q->priors->nothing_wrong);
  hob_prior_set_share (q->prior, q->n_states, other, q->priors->not_listed);
  for (guint l = 0; l < q->lines->len; l++)
    {
      const HobListed *line = &g_array_index (q->lines, HobListed, l);

      for (int s = 0; s < line->n_states; s++)
        q->prior[line->first_state + s]
            = LINES * q->prior[other] / (q->lines->len * line->n_states);
    }
  q->prior[other] *= q->lines->len > 0 ? 1 - LINES : 1;
}

/* ---- What runs answer ---- */

static double
either (double a, double b)
{
  return isnan (a) || isnan (b) ? (a > 0 || b > 0 ? 1 : NAN) : fmax (a, b);
}

/* In any procedure. */
static void
look_anywhere (HobInquiry *q, const HobClue *clue, double *answers)
{
  g_autofree double *one = g_new (double, q->n_runs);

  for (guint r = 0; r < q->n_runs; r++)
    answers[r] = 0;
  for (char **name = q->procedures; *name != NULL; name++)
    {
      HobOccasion *o = hob_occasion_new (q->base, *name, FALSE);

      hob_trials_prepare (q->trials, o->acts, o->until, o->moments);
      hob_trials_look (q->trials, o->acts, clue->symptom, clue->test->part, o->until, one);
      for (guint r = 0; r < q->n_runs; r++)
        answers[r] = either (answers[r], one[r]);
      hob_occasion_free (o);
    }
}

/* As long after the last act as a fault takes to show it in any procedure. */
static double
long_enough (HobInquiry *q, const HobClue *clue, double last)
{
  g_autoptr (HobCase) house = hob_case_new (q->base->range);
  double latest = SOON;

  for (char **name = q->procedures; *name != NULL; name++)
    {
      HobOccasion *o = hob_occasion_new (house, *name, FALSE);

      hob_trials_prepare (q->trials, o->acts, o->until, o->moments);
      latest = fmax (latest, hob_trials_latest (q->trials, o->acts, clue->symptom,
                                                fmin (o->until, TOO_LONG)));
      hob_occasion_free (o);
    }
  return last + ceil (latest);
}

static double
last_act (const HobCase *acts)
{
  guint n = acts->acts->len;

  return n > 0 ? (double) g_array_index (acts->acts, HobAct, n - 1).ms / 1000.0 : 0;
}

/* Until when a procedure that begins with @acts leaves them alone, beyond t; +∞: there is none. */
static double
left_alone_until (const HobInquiry *q, const HobCase *acts, double t)
{
  double until = -INFINITY;

  for (guint k = 0; q->occasions != NULL && k < q->occasions->len; k++)
    until = fmax (until, hob_occasion_left_alone (q->occasions->pdata[k], acts));
  return until < t ? INFINITY : until;
}

static double
about (const HobInquiry *q, const HobCase *acts, double t, HobSeen seen, double uneven)
{
  double begin = last_act (acts), slack = fmax (uneven * (t - begin), LEAST_SLACK);

  return seen == HOB_SEEN ? fmin (t + slack, left_alone_until (q, acts, t))
                          : fmax (t - slack, fmin (begin, t));
}

double
hob_inquiry_about (const HobInquiry *q, const HobCase *acts, double t, HobSeen seen)
{
  return about (q, acts, t, seen, UNEVEN);
}

double
hob_inquiry_look_until (const HobCase *acts, double t)
{
  double begin = last_act (acts);

  return fmax (begin + (t - begin) / (1 - UNEVEN), t + LEAST_SLACK);
}

static void
ask (HobInquiry *q, guint k, double *answers)
{
  const HobClue *clue = q->clues->pdata[k];
  g_autoptr (HobCase) acts = NULL;
  double t;

  if (hob_clue_anywhere (clue, q->base))
    {
      look_anywhere (q, clue, answers);
      return;
    }
  acts = hob_clue_case (clue, q->base, &t);
  if (isnan (t))
    t = long_enough (q, clue, last_act (acts));
  else if (clue->symptom >= 0)
    t = about (q, acts, t, clue->seen, clue->volunteered ? ROUGHLY : UNEVEN);
  if (clue->symptom >= 0)
    hob_trials_look (q->trials, acts, clue->symptom, clue->test->part, t, answers);
  else
    hob_trials_read (q->trials, acts, clue->test, t, &q->spread[k], answers);
}

static double
scale_of (const HobClue *clue, const double *answers, guint n)
{
  double most = isfinite (clue->value) ? fabs (clue->value) : 0;

  for (guint r = 0; r < n; r++)
    if (isfinite (answers[r]))
      most = fmax (most, fabs (answers[r]));
  return fmax (most, hob_meter_class (hob_test_dimension (clue->test)).fixed + 1e-6);
}

static void
ask_all (HobInquiry *q)
{
  g_autofree double *answers = g_new (double, q->n_runs);
  guint n = q->clues->len;

  for (guint k = 0; k < n; k++)
    {
      ask (q, k, answers);
      q->scale[k] = scale_of (q->clues->pdata[k], answers, q->n_runs);
      for (guint r = 0; r < q->n_runs; r++)
        q->told[r * n + k] = answers[r];
    }
}

/* ---- How probable that is ---- */

/* What is not known shows now and then, and reads anything. */
double
hob_inquiry_log (const HobInquiry *q, guint k, const HobExpected *expected)
{
  const HobClue *clue = q->clues->pdata[k];
  HobMeterClass meter = hob_meter_class (hob_test_dimension (clue->test));
  double shows = isnan (expected->value) ? OTHER_SHOWS : expected->value;

  if (hob_test_is_seen (clue->test))
    return log (hob_seen_likelihood (clue->seen, shows, q->priors->mis_seen));
  if (isnan (expected->value))
    return isinf (clue->value) ? log (0.5) : log (0.5 / q->scale[k]);
  return hob_reading_log_likelihood (clue->value, expected, &meter, clue->limit, q->scale[k]);
}

double
hob_log_sum (double a, double b)
{
  double more = fmax (a, b);

  return isinf (more) ? more : more + log (exp (a - more) + exp (b - more));
}

/* Nobody is asked about a complaint: a person names one of the symptoms that there are, or rarely
 * imagines one. */
double
hob_inquiry_log_said (const HobInquiry *q, double said)
{
  double imagined = q->priors->mis_seen * IMAGINED;

  return log ((1 - imagined) * said + imagined * q->said[q->n_runs]);
}

HobExpected
hob_inquiry_expected (const HobInquiry *q, guint k, const HobListed *fault, double severity)
{
  const HobClue *clue = q->clues->pdata[k];

  return hob_listed_expected (fault, q->told + k, q->clues->len, severity,
                              hob_test_dimension (clue->test), &q->spread[k]);
}

double
hob_inquiry_said (const HobInquiry *q, const HobListed *fault, double severity)
{
  static const HobScatter none = { 0, 0 };

  return hob_listed_expected (fault, q->said, 1, severity, HOB_DIM_NUMBER, &none).value;
}

/* Of a fault at a severity. */
static double
log_listed (const HobInquiry *q, guint k, const HobListed *fault, double severity)
{
  HobExpected e;

  if ((int) k == q->complaint)
    return hob_inquiry_log_said (q, hob_inquiry_said (q, fault, severity));
  e = hob_inquiry_expected (q, k, fault, severity);
  return hob_inquiry_log (q, k, &e);
}

double
hob_inquiry_other_shows (const HobInquiry *q, int symptom, const HobCase *acts, double t)
{
  const HobClue *complaint = q->complaint >= 0 ? q->clues->pdata[q->complaint] : NULL;
  g_autoptr (HobCase) done = NULL;
  double by;

  if (complaint == NULL || complaint->symptom != symptom)
    return OTHER_SHOWS;
  done = hob_clue_case (complaint, q->base, &by);
  return isnan (by) || (t >= by && hob_case_common (done, acts) == done->acts->len) ? SHOWS_AGAIN
                                                                                  : OTHER_SHOWS;
}

/* Does nobody take anything else for it: a shock, a smell of gas, a breaker that trips?  What only
 * an instrument shows is no such thing. */
static gboolean
is_grave (const HobInquiry *q, const HobClue *clue)
{
  const HobSymptom *symptom = hob_symptom_book_get (q->idle->book, clue->symptom);
  int gravest = hob_hazards_next (symptom->hazards, -1);

  return gravest >= 0 && hob_symptom_means (symptom) != HOB_MEANS_THERMOMETER
         && (hob_hazards[gravest].silences || gravest == HOB_HAZARD_STOP_USING
             || gravest == HOB_HAZARD_BREAKER_GFCI
             || (gravest == HOB_HAZARD_GAS_FAINT
                 && !hob_symptom_book_calls (q->idle->book, clue->symptom)));
}

/* Of a range that has nothing wrong: who complains of it names what it shows, or any symptom, those
 * that are grave seldom. */
static double
log_normal (const HobInquiry *q, guint k, const HobExpected *normal)
{
  const HobClue *clue = q->clues->pdata[k];

  return (int) k == q->complaint
             ? log (fmax (q->said[0], q->said[q->n_runs] * (is_grave (q, clue) ? GRAVE : 1)))
             : hob_inquiry_log (q, k, normal);
}

/* Of a range that has something wrong that is not listed: some readings are as on a normal one. */
static double
log_other (const HobInquiry *q, guint k, const HobExpected *normal, double shows)
{
  const HobClue *clue = q->clues->pdata[k];
  HobExpected unknown = { shows, 0, 0 };

  if ((int) k == q->complaint)
    return log (q->said[q->n_runs]);
  if (hob_test_is_seen (clue->test))
    return hob_inquiry_log (q, k, &unknown);
  return hob_log_sum (log (1 - OTHER_READS) + hob_inquiry_log (q, k, normal),
                      log (OTHER_READS) + hob_inquiry_log (q, k, &unknown));
}

/* How often the listed faults, weighed by @weights, show what was seen; the weights are then theirs
 * who saw it. */
static double
as_listed (const double *logs, double *weights, int n)
{
  double before = 0, after = 0;

  for (int s = 0; s < n; s++)
    {
      before += weights[s];
      weights[s] *= exp (logs[s]);
      after += weights[s];
    }
  return before > 0 ? after / before : 0;
}

/* Of each of @faults (HobListed) at every severity. */
static void
log_all (const HobInquiry *q, guint k, const GArray *faults, double *logs)
{
  for (guint f = 0; f < faults->len; f++)
    {
      const HobListed *fault = &g_array_index (faults, HobListed, f);

      for (int s = 0; s < fault->n_states; s++)
        logs[fault->first_state + s] = log_listed (q, k, fault, hob_listed_severity (fault, s));
    }
}

/* What no list has shows what the list has, together as often, or anything. @weights: of the
 * listed states by what was seen so far. */
static void
weigh_clue (HobInquiry *q, guint k, double *weights)
{
  const HobClue *clue = q->clues->pdata[k];
  HobDimension dim = hob_test_dimension (clue->test);
  double *logs = q->logs + (gsize) k * (gsize) q->n_states, *other = logs + q->n_states - 1, t;
  HobExpected normal = hob_expected_of (q->told[k], dim, &q->spread[k]);
  g_autoptr (HobCase) acts = hob_clue_case (clue, q->base, &t);
  double shows = clue->symptom >= 0 ? hob_inquiry_other_shows (q, clue->symptom, acts, t) : NAN;

  log_all (q, k, q->faults, logs);
  log_all (q, k, q->lines, logs);
  logs[q->normal] = log_normal (q, k, &normal);
  *other = log_other (q, k, &normal, shows);
  if (hob_test_is_seen (clue->test))
    *other = log ((exp (*other) + as_listed (logs, weights, q->normal)) / 2);
}

static void
weigh (HobInquiry *q)
{
  g_autoptr (HobBelief) belief = NULL;
  g_autofree double *weights = NULL;

  make_prior (q);
  belief = hob_belief_new (q->prior, q->n_states);
  hob_belief_get (belief, q->prior);
  weights = g_memdup2 (q->prior, (gsize) q->n_states * sizeof *weights);
  for (guint k = 0; k < q->clues->len; k++)
    {
      weigh_clue (q, k, weights);
      hob_belief_update_log (belief, q->logs + (gsize) k * (gsize) q->n_states);
    }
  hob_belief_get (belief, q->p);
}

/* Smells and shocks are answered before anything is tried at length. */
static gboolean
may_stop (const HobInquiry *q)
{
  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];
      HobHazards h = clue->symptom >= 0 && clue->seen == HOB_SEEN
                         ? hob_symptom_book_get (q->idle->book, clue->symptom)->hazards
                         : 0;

      if (h & HOB_HAZARD (GAS_FAINT))
        return TRUE;
      for (int k2 = hob_hazards_next (h, -1); k2 >= 0; k2 = hob_hazards_next (h, k2))
        if (hob_hazards[k2].silences)
          return TRUE;
    }
  return FALSE;
}

/* Every procedure, live and dead: what is asked later is mostly a part of one. */
static void
prepare (HobInquiry *q)
{
  q->occasions = hob_occasions_new (q->base, q->procedures);
  for (guint k = 0; k < q->occasions->len; k++)
    {
      const HobOccasion *o = q->occasions->pdata[k];

      hob_trials_prepare (q->trials, o->acts, o->until, o->moments);
    }
}

static void
hear_complaint (HobInquiry *q)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  const HobClue *clue;

  q->complaint = hob_clues_complaint (q->clues);
  if (q->complaint < 0)
    return;
  clue = q->clues->pdata[q->complaint];
  hob_complaint_shares (q->trials, q->occasions != NULL ? q->occasions : none, clue->symptom,
                        clue->test->part, q->told + q->complaint, q->clues->len, q->said);
}

HobInquiry *
hob_inquiry_new (HobTrials *trials, const HobCase *base, const GPtrArray *clues,
                 const HobPriors *priors)
{
  HobInquiry *q = g_new0 (HobInquiry, 1);
  gsize cells = MAX (clues->len, 1);

  q->trials = trials;
  q->idle = hob_trials_bench (trials);
  q->base = base;
  q->clues = clues;
  q->faults = hob_trials_faults (trials);
  q->priors = priors;
  q->procedures = hob_procedure_names (base->range);
  q->n_runs = hob_trials_n_runs (trials);
  q->lines = hob_trials_lines (trials);
  q->normal = hob_trials_n_states (trials);
  q->n_states = q->normal + 2;
  for (guint l = 0; l < q->lines->len; l++)
    q->n_states += g_array_index (q->lines, HobListed, l).n_states;
  q->said = g_new0 (double, q->n_runs + 1);
  q->told = g_new0 (double, cells * q->n_runs);
  q->spread = g_new0 (HobScatter, cells);
  q->scale = g_new0 (double, cells);
  q->logs = g_new0 (double, cells * (gsize) q->n_states);
  q->prior = g_new0 (double, q->n_states);
  q->p = g_new0 (double, q->n_states);
  if (!hob_case_has_controls (base) && !may_stop (q))
    prepare (q);
  ask_all (q);
  hear_complaint (q);
  weigh (q);
  return q;
}

void
hob_inquiry_free (HobInquiry *q)
{
  if (q == NULL)
    return;
  g_strfreev (q->procedures);
  g_clear_pointer (&q->occasions, g_ptr_array_unref);
  g_free (q->said);
  g_free (q->told);
  g_free (q->spread);
  g_free (q->scale);
  g_free (q->logs);
  g_free (q->prior);
  g_free (q->p);
  g_free (q);
}

const HobListed *
hob_inquiry_listed_at (const HobInquiry *q, int part, int fault)
{
  for (guint f = 0; f < q->faults->len; f++)
    {
      const HobListed *listed = &g_array_index (q->faults, HobListed, f);

      if (listed->h.part[0] == part && listed->h.fault[0] == fault)
        return listed;
    }
  g_assert_not_reached ();
}

const HobListed *
hob_inquiry_listed (const HobInquiry *q, const HobSuspect *s)
{
  return hob_inquiry_listed_at (q, s->part, s->fault);
}
