/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/inquiry.h"

#include "reason/complaint.h"

#include <math.h>

/* Assumptions of this project. */
#define OTHER_SHOWS 0.05 /* share of what no list has that shows a given symptom */
#define SHOWS_AGAIN 0.8  /* … and that shows again what somebody complained of */
#define OTHER_READS 0.5  /* share of readings that what no list has changes: to anything */
#define LIVE_READ 0.02   /* share of ohms that somebody reads where voltage forbids it */
#define LINES 0.5        /* share of what is not listed that is a wire or a pipe: assumed */
#define DECADES 8        /* of ohms that something may have */
#define IMAGINED 0.1     /* of what is mis-seen when looked for: a symptom nobody had asked about */

#define UNEVEN 0.3      /* of the time since the last act: how much longer one unit takes */
#define ROUGHLY 0.6     /* the same, where somebody tells of it who has not watched a clock */
#define LEAST_SLACK 3.0 /* s */

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

/* ---- States ---- */

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
  double latest = HOB_OCCASION_SOON;

  for (char **name = q->procedures; *name != NULL; name++)
    {
      HobOccasion *o = hob_occasion_new (house, *name, FALSE);

      hob_trials_prepare (q->trials, o->acts, o->until, o->moments);
      latest = fmax (latest, hob_trials_latest (q->trials, o->acts, clue->symptom,
                                                fmin (o->until, HOB_OCCASION_LONGEST)));
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

/* Not seen by time t: what shows a while before was there, what shows only then was or was not. */
static void
look_for_absent (HobInquiry *q, const HobClue *clue, const HobCase *acts, double t,
                 double *answers)
{
  double early = about (q, acts, t, HOB_NOT_SEEN, UNEVEN);
  g_autofree double *then = g_new (double, q->n_runs);

  hob_trials_look (q->trials, acts, clue->symptom, clue->test->part, early, answers);
  hob_trials_look (q->trials, acts, clue->symptom, clue->test->part, t, then);
  for (guint r = 0; r < q->n_runs; r++)
    answers[r] = (answers[r] + then[r]) / 2;
}

static void
ask (HobInquiry *q, guint k, double *answers)
{
  const HobClue *clue = q->clues->pdata[k];
  g_autoptr (HobCase) acts = NULL;
  gboolean absent = clue->symptom >= 0 && clue->seen == HOB_NOT_SEEN;
  double t;

  if (hob_clue_anywhere (clue, q->base))
    {
      look_anywhere (q, clue, answers);
      return;
    }
  acts = hob_clue_case (clue, q->base, &t);
  absent = absent && !isnan (t);
  if (isnan (t))
    t = long_enough (q, clue, last_act (acts));
  else if (clue->symptom >= 0 && !absent)
    t = about (q, acts, t, HOB_SEEN, clue->volunteered ? ROUGHLY : UNEVEN);
  if (absent)
    look_for_absent (q, clue, acts, t, answers);
  else if (clue->symptom >= 0)
    hob_trials_look (q->trials, acts, clue->symptom, clue->test->part, t, answers);
  else
    hob_trials_read (q->trials, acts, clue->test, t, &q->spread[k], answers);
}

/* Over which it may lie anywhere: up to the most that is read; of ohms, from next to none to many
 * megohms, each decade as often as another. */
static double
scale_of (const HobClue *clue, const double *answers, guint n)
{
  HobDimension dim = hob_test_dimension (clue->test);
  double most = isfinite (clue->value) ? fabs (clue->value) : 0;

  if (dim == HOB_DIM_RESISTANCE)
    return (most + hob_meter_class (dim).fixed) * DECADES * G_LN10;
  for (guint r = 0; r < n; r++)
    if (isfinite (answers[r]))
      most = fmax (most, fabs (answers[r]));
  return fmax (most, hob_meter_class (dim).fixed + 1e-6);
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
hob_inquiry_sure_odds (const HobInquiry *q)
{
  return q->priors->rule.sure / (1 - q->priors->rule.sure);
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

/* Of a fault at a severity.  Where it has no ohms, a part is live: whoever read some was wrong. */
static double
log_listed (const HobInquiry *q, guint k, const HobListed *fault, double severity)
{
  const HobTest *test = ((const HobClue *) q->clues->pdata[k])->test;
  HobExpected e;

  if ((int) k == q->complaint)
    return hob_inquiry_log_said (q, hob_inquiry_said (q, fault, severity));
  e = hob_inquiry_expected (q, k, fault, severity);
  return hob_inquiry_log (q, k, &e)
         + (test->what == HOB_TEST_OHMS && isnan (e.value) ? log (LIVE_READ) : 0);
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

/* Of a range that has nothing wrong: a complaint names what it shows, or what is imagined. */
static double
log_normal (const HobInquiry *q, guint k, const HobExpected *normal)
{
  const HobClue *clue = q->clues->pdata[k];

  return (int) k == q->complaint
             ? log (fmax (q->said[0], q->said[q->n_runs]
                                          * hob_complaint_imagined (q->idle->book, clue->symptom)))
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

/* What is seen in one run of the range. */
typedef struct
{
  HobCase *acts;  /* owned */
  double as_list; /* how probable it is that what no list has behaves in it as the list does */
} Run;

static void
clear_run (gpointer item)
{
  hob_case_free (((Run *) item)->acts);
}

/* The run of @runs that begins with @acts, or is the beginning of them: something is done in both,
 * beyond what is known of the house, or in neither. */
static Run *
run_of (const HobInquiry *q, GArray *runs, const HobCase *acts)
{
  guint before = q->base->acts->len;
  Run new_run = { NULL, 0.5 };

  for (guint k = 0; k < runs->len; k++)
    {
      Run *run = &g_array_index (runs, Run, k);

      guint less = MIN (run->acts->acts->len, acts->acts->len);

      if (hob_case_common (run->acts, acts) == less
          && (less > before || run->acts->acts->len == acts->acts->len))
        return run;
    }
  new_run.acts = hob_case_copy (acts);
  g_array_append_val (runs, new_run);
  return &g_array_index (runs, Run, runs->len - 1);
}

/* What no list has shows what the list has, together as often, or anything: in one run either the
 * one or the other. @weights: of the listed states by what was seen so far. */
static void
weigh_clue (HobInquiry *q, guint k, double *weights, GArray *runs)
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
    {
      Run *run = run_of (q, runs, acts);
      double listed = as_listed (logs, weights, q->normal) * run->as_list;
      double both = listed + exp (*other) * (1 - run->as_list);

      *other = log (both);
      run->as_list = both > 0 ? listed / both : 0.5;
    }
}

static void
weigh (HobInquiry *q)
{
  g_autoptr (HobBelief) belief = NULL;
  g_autofree double *weights = NULL;
  g_autoptr (GArray) runs = g_array_new (FALSE, FALSE, sizeof (Run));

  g_array_set_clear_func (runs, clear_run);
  make_prior (q);
  belief = hob_belief_new (q->prior, q->n_states);
  hob_belief_get (belief, q->prior);
  weights = g_memdup2 (q->prior, (gsize) q->n_states * sizeof *weights);
  for (guint k = 0; k < q->clues->len; k++)
    {
      weigh_clue (q, k, weights, runs);
      hob_belief_update_log (belief, q->logs + (gsize) k * (gsize) q->n_states);
    }
  hob_belief_get (belief, q->p);
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
  q->hazards = hob_suspects_hazards (q->idle, base, clues);
  /* Smells and shocks are answered before anything is tried at length. */
  if (!hob_case_has_controls (base) && hob_suspects_stop (q->hazards) == 0)
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
