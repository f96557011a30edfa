/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/trials.h"

#include "reason/parallel.h"
#include "reason/trials-make.h"

#include <math.h>
#include <string.h>

#define SWING_STEP 15.0 /* s */
#define FORMAT "hobwright trial 5"
#define CYCLES 0.3 /* of the average: more than units differ by their making */
#define ROOM 298.15
#define NEXT_DEGREE 0.25 /* share of people and units by whom a degree becomes the next: assumed */
#define PASSED 0.5       /* … that show what a fault passes between two severities: assumed */

/* ---- What may be wrong ---- */

guint
hob_listed_n_runs (const HobListed *fault)
{
  return fault->graded ? HOB_N_SEVERITIES - 1 : 1;
}

void
hob_listed_add_runs (const HobListed *fault, GArray *runs)
{
  for (guint r = fault->first_run; r < fault->first_run + hob_listed_n_runs (fault); r++)
    g_array_append_val (runs, r);
  g_array_append_val (runs, fault->other_run);
  for (const HobListed *other = fault + fault->next; other != fault; other += other->next)
    {
      g_array_append_val (runs, other->same_run);
      g_array_append_val (runs, other->other_run);
    }
}

double
hob_listed_severity (const HobListed *fault, int state)
{
  return fault->graded ? (state + 1.0) / HOB_N_GRID : fault->h.severity[0];
}

static void
list_faults (HobTrials *t)
{
  const HobRange *range = hob_bench_range (t->idle);
  g_autoptr (GArray) single = hob_hypotheses_single (range);
  HobHypothesis nothing = { { -1, -1 }, { -1, -1 }, { 0, NAN } };

  g_array_append_val (t->runs, nothing);
  for (guint k = 0; k < single->len; k++)
    {
      HobHypothesis h = g_array_index (single, HobHypothesis, k);
      gboolean graded = range->parts[h.part[0]].kind->faults[h.fault[0]].severity_words != NULL;
      HobListed fault = { .h = h, .graded = graded, .first_run = t->runs->len,
                          .same_run = t->runs->len + graded, .first_state = t->n_states,
                          .n_states = graded ? HOB_N_GRID : 1 };

      for (int s = 1; s < (graded ? HOB_N_SEVERITIES : 2); s++)
        {
          h.severity[0] = graded ? hob_severities[s] : h.severity[0];
          g_array_append_val (t->runs, h);
        }
      t->n_states += fault.n_states;
      g_array_append_val (t->faults, fault);
    }
  for (guint k = 0; k < t->faults->len; k++)
    g_array_index (t->faults, HobListed, k).other_run = t->runs->len + HOB_TRIALS_UNITS + k;
}

/* After all other runs, in this unit alone. */
static void
list_lines (HobTrials *t)
{
  g_autoptr (GArray) all = hob_line_faults (hob_bench_range (t->idle));
  int state = t->n_states + 1;

  for (guint k = 0; k < all->len; k++)
    {
      HobLineFault fault = g_array_index (all, HobLineFault, k);
      guint run = t->runs->len + HOB_TRIALS_UNITS + t->faults->len + t->n_line_runs;
      HobListed line = { .h = { { -1, -1 }, { -1, -1 }, { 1, NAN } }, .graded = fault.pipe,
                         .first_run = run, .same_run = run + fault.pipe,
                         .other_run = run + fault.pipe, .first_state = state,
                         .n_states = fault.pipe ? HOB_N_GRID : 1, .line = fault };

      t->n_line_runs += hob_listed_n_runs (&line);
      state += line.n_states;
      g_array_append_val (t->lines, line);
    }
}

/* Last of all: what shows may change twice from one severity to the next. */
static void
list_mids (HobTrials *t)
{
  guint first = t->runs->len + HOB_TRIALS_UNITS + t->faults->len + t->n_line_runs;

  for (guint k = 0; k < t->faults->len; k++)
    {
      HobListed *f = &g_array_index (t->faults, HobListed, k);

      if (!f->graded)
        continue;
      f->first_mid = first + t->mids->len;
      for (guint s = 0; s + 1 < HOB_N_SEVERITIES; s++)
        {
          HobTrialMid mid = { f->h, s == 0 ? 0 : f->first_run + s - 1, f->first_run + s };

          mid.h.severity[0] = (hob_severities[s] + hob_severities[s + 1]) / 2;
          g_array_append_val (t->mids, mid);
        }
    }
}

/* Leaves out temperatures that no thermometer reaches. */
static GPtrArray *
list_tests (const HobRange *range)
{
  GPtrArray *tests = hob_tests_of (range, NULL);

  for (guint k = tests->len; k-- > 0;)
    {
      const HobTest *test = ((HobListedTest *) tests->pdata[k])->test;

      if (test->what == HOB_TEST_TEMP
          && range->parts[test->part].kind->quantities[test->quantity].sense
                 != HOB_SENSE_THERMOMETER)
        g_ptr_array_remove_index (tests, k);
    }
  return tests;
}

HobTrials *
hob_trials_new (const HobBench *idle, const HobTableWork *work)
{
  HobTrials *t = g_new0 (HobTrials, 1);

  t->idle = idle;
  if (work != NULL)
    t->work = *work;
  t->faults = g_array_new (FALSE, FALSE, sizeof (HobListed));
  t->runs = g_array_new (FALSE, FALSE, sizeof (HobHypothesis));
  t->tests = list_tests (hob_bench_range (idle));
  t->trials = g_hash_table_new_full (g_str_hash, g_str_equal, g_free,
                                     (GDestroyNotify) hob_trial_free);
  t->direct = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  list_faults (t);
  t->lines = g_array_new (FALSE, FALSE, sizeof (HobListed));
  list_lines (t);
  t->mids = g_array_new (FALSE, FALSE, sizeof (HobTrialMid));
  list_mids (t);
  hob_parallel_link (hob_bench_range (idle), t->faults);
  return t;
}

void
hob_trials_free (HobTrials *t)
{
  if (t == NULL)
    return;
  g_array_unref (t->faults);
  g_array_unref (t->runs);
  g_array_unref (t->lines);
  g_array_unref (t->mids);
  g_ptr_array_unref (t->tests);
  g_hash_table_unref (t->trials);
  g_hash_table_unref (t->direct);
  g_free (t);
}

const HobBench *
hob_trials_bench (const HobTrials *t)
{
  return t->idle;
}

const GArray *
hob_trials_faults (const HobTrials *t)
{
  return t->faults;
}

int
hob_trials_n_states (const HobTrials *t)
{
  return t->n_states;
}

const GArray *
hob_trials_lines (const HobTrials *t)
{
  return t->lines;
}

guint
hob_trials_n_runs (const HobTrials *t)
{
  return hob_trials_n_all (t);
}

guint
hob_trials_n_read (const HobTrials *t)
{
  return hob_trials_n_all (t) - t->mids->len;
}

void
hob_trials_forget_mids (const HobTrials *t, double *answers)
{
  for (guint r = hob_trials_n_read (t); r < hob_trials_n_all (t); r++)
    answers[r] = NAN;
}

const GPtrArray *
hob_trials_tests (const HobTrials *t)
{
  return t->tests;
}

gboolean
hob_trials_cancelled (const HobTrials *t)
{
  return hob_is_cancelled (t->work.cancel);
}

/* ---- One list of acts ---- */

static char *
text_of_acts (const HobCase *acts)
{
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%" G_GUINT64_FORMAT, acts->seed);
  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);
      g_autofree char *words = hob_act_text (acts->range, act);

      g_string_append_printf (text, "; %" G_GINT64_FORMAT " %d %s", act->ms, act->what, words);
    }
  return g_string_free (text, FALSE);
}

void
hob_trials_make_dead (HobCase *acts)
{
  const HobRange *range = acts->range;

  for (int p = 0; p < range->n_parts; p++)
    for (int c = 0; c < range->parts[p].kind->n_controls; c++)
      {
        const HobControlDef *control = &range->parts[p].kind->controls[c];

        if (control->role == HOB_CONTROL_PLUG || control->role == HOB_CONTROL_VALVE)
          hob_case_add (acts, (HobAct){ .what = HOB_ACT_CONTROL, .part = p, .index = c,
                                        .value = control->low + control->high - control->start });
      }
}

/* ---- Which are there ---- */

static int
moment_at (const HobTrial *trial, double t)
{
  for (guint k = 0; k < trial->moments->len; k++)
    if (g_array_index (trial->moments, HobTrialMoment, k).t == t)
      return (int) k;
  return -1;
}

static gboolean
covers (const HobTrial *trial, double until, const GArray *moments)
{
  gboolean all = trial->until >= until;

  for (guint k = 0; k < moments->len; k++)
    all = all && moment_at (trial, g_array_index (moments, double, k)) >= 0;
  return all;
}

/* Of each moment. */
static guint
n_answers (const HobTrials *t)
{
  return hob_trials_n_read (t) * t->tests->len;
}

/* What it had and what is wanted now. */
static void
make_wider (HobTrials *t, HobTrial *trial, double until, const GArray *moments)
{
  double end = fmax (trial->until, until);
  g_autoptr (GArray) times = g_array_new (FALSE, FALSE, sizeof (double));

  for (guint k = 0; k < trial->moments->len; k++)
    g_array_append_val (times, g_array_index (trial->moments, HobTrialMoment, k).t);
  for (guint k = 0; k < moments->len; k++)
    if (moment_at (trial, g_array_index (moments, double, k)) < 0)
      g_array_append_val (times, g_array_index (moments, double, k));
  hob_trial_clear (trial);
  trial->until = end;
  for (guint k = 0; k < times->len; k++)
    {
      HobTrialMoment m = { g_array_index (times, double, k), g_new (float, n_answers (t)), NULL };

      trial->until = fmax (trial->until, m.t);
      g_array_append_val (trial->moments, m);
    }
  hob_trials_make (t, trial);
}

/* Up to @until the same is done. */
static gboolean
same_until (const HobCase *a, const HobCase *b, double until)
{
  guint common = hob_case_common (a, b);

  return a->seed == b->seed
         && (common >= a->acts->len
             || (double) g_array_index (a->acts, HobAct, common).ms > until * 1000)
         && (common >= b->acts->len
             || (double) g_array_index (b->acts, HobAct, common).ms > until * 1000);
}

/* One that answers already: of these acts, or with others after @until. */
static const HobTrial *
known_trial (const HobTrials *t, const HobCase *acts, double until, const GArray *moments)
{
  GHashTableIter iter;
  gpointer trial;

  g_hash_table_iter_init (&iter, t->trials);
  while (g_hash_table_iter_next (&iter, NULL, &trial))
    if (covers (trial, until, moments)
        && same_until (((const HobTrial *) trial)->acts, acts, until))
      return trial;
  return NULL;
}

static const HobTrial *
trial_of (HobTrials *t, const HobCase *said, double until, const GArray *moments)
{
  g_autoptr (HobCase) acts = hob_case_effective (said);
  const HobTrial *known = known_trial (t, acts, until, moments);
  g_autofree char *text = known == NULL ? text_of_acts (acts) : NULL;
  HobTrial *trial = known == NULL ? g_hash_table_lookup (t->trials, text) : NULL;
  g_autofree char *key = NULL;

  if (known != NULL)
    return known;
  if (trial == NULL)
    {
      trial = hob_trial_new (acts);
      g_hash_table_insert (t->trials, g_strdup (text), trial);
    }
  if (covers (trial, until, moments) || hob_trials_cancelled (t))
    return trial;
  key = t->work.cache ? hob_cache_key (t->idle, FORMAT, t->runs, text) : NULL;
  if (key != NULL && trial->until < 0)
    (void) hob_trial_load (trial, key, hob_trials_n_all (t), n_answers (t));
  if (covers (trial, until, moments))
    return trial;
  make_wider (t, trial, until, moments);
  if (hob_trials_cancelled (t))
    hob_trial_clear (trial);
  else if (key != NULL)
    hob_trial_store (trial, key, hob_trials_n_all (t), n_answers (t));
  return trial;
}

void
hob_trials_prepare (HobTrials *t, const HobCase *acts, double until, const GArray *moments)
{
  (void) trial_of (t, acts, until, moments);
}

/* ---- Asking ---- */

static void
forget (const HobTrials *t, double *answers)
{
  for (guint r = 0; r < hob_trials_n_all (t); r++)
    answers[r] = NAN;
}

/* What shows in a run is said as it is, or as the next degree of the same. */
static double
said_of (const HobSymptomBook *book, int shows, int symptom)
{
  return shows == symptom                                      ? 1
         : hob_symptom_book_next_degree (book, shows, symptom) ? NEXT_DEGREE
                                                               : 0;
}

/* The same of all runs at once. */
static void
pass_over (double *more, double *less, gsize n_runs)
{
  for (gsize r = 0; r < n_runs; r++)
    if (more[r] == 1)
      less[r] = fmax (less[r], NEXT_DEGREE);
    else if (less[r] == 1)
      more[r] = NEXT_DEGREE;
}

/* At the first severity that shows the worse without what comes before it, while the next lower one
 * shows neither, a fault has just passed it. */
static void
pass_one (const HobListed *fault, const double *worse, double *answers)
{
  gboolean passed = FALSE;
  guint before = 0, n = hob_listed_n_runs (fault);

  for (guint k = 0; k < 2 * n && !passed; k++)
    {
      guint run = (k % 2 == 1 ? fault->first_run : fault->first_mid) + k / 2;

      passed = worse[before] == 0 && answers[before] == 0 && worse[run] == 1 && answers[run] == 0;
      answers[run] = passed ? PASSED : answers[run];
      before = isnan (worse[run]) ? before : run;
    }
  if (passed && fault->same_run == before && worse[fault->other_run] == 1)
    answers[fault->other_run] = fmax (answers[fault->other_run], PASSED);
}

static void
pass (const HobTrials *t, const double *worse, double *answers)
{
  for (guint f = 0; f < t->faults->len; f++)
    {
      const HobListed *fault = &g_array_index (t->faults, HobListed, f);

      if (fault->graded)
        pass_one (fault, worse, answers);
    }
}

static void
look (HobTrials *t, const HobTrial *trial, int symptom, int part, double at, double *answers)
{
  forget (t, answers);
  if (trial->until < 0)
    return;
  for (guint r = 0; r < hob_trials_n_all (t); r++)
    answers[r] = (double) trial->reached[r] + 1e-3 >= at ? 0 : NAN;
  for (guint k = 0; k < trial->noticed->len; k++)
    {
      const HobTrialNoticed *row = &g_array_index (trial->noticed, HobTrialNoticed, k);

      double share = said_of (t->idle->book, row->symptom, symptom);

      if (share > 0 && (part < 0 || row->part == part) && (double) row->first <= at)
        answers[row->run] = fmax (answers[row->run], share);
    }
}

void
hob_trials_look (HobTrials *t, const HobCase *acts, int symptom, int part, double at,
                 double *answers)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (double));
  const HobTrial *trial = trial_of (t, acts, at, none);
  g_autofree double *worse = g_new (double, hob_trials_n_all (t));

  look (t, trial, symptom, part, at, answers);
  for (int s = 0; s < hob_symptom_book_size (t->idle->book); s++)
    if (hob_symptom_book_get (t->idle->book, s)->passes == symptom)
      {
        look (t, trial, s, part, at, worse);
        pass (t, worse, answers);
      }
  if (part < 0)
    hob_parallel_average (t->faults, acts, answers);
}

void
hob_trials_shown (HobTrials *t, const HobCase *acts, const gboolean *of, double at,
                  gboolean *shown)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (double));
  const HobTrial *trial = trial_of (t, acts, at, none);
  int n = hob_symptom_book_size (t->idle->book);
  g_autofree gboolean *noticed = g_new0 (gboolean, n);

  for (guint k = 0; k < trial->noticed->len && trial->until >= 0; k++)
    {
      const HobTrialNoticed *row = &g_array_index (trial->noticed, HobTrialNoticed, k);

      noticed[row->symptom] |= (double) row->first <= at && (of == NULL || of[row->run]);
    }
  memcpy (shown, noticed, (gsize) n * sizeof *shown);
  for (int s = 0; s < n; s++)
    {
      const HobSymptom *symptom = hob_symptom_book_get (t->idle->book, s);

      if (symptom->passes >= 0)
        shown[symptom->passes] |= noticed[s];
      if (symptom->less < 0)
        continue;
      shown[s] |= noticed[symptom->less];
      shown[symptom->less] |= noticed[s];
    }
}

void
hob_trials_look_for (HobTrials *t, const HobCase *acts, const gboolean *wanted, double at,
                     double *answers)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (double));
  const HobTrial *trial = trial_of (t, acts, at, none);
  gsize n = hob_trials_n_all (t), symptoms = (gsize) hob_symptom_book_size (t->idle->book);

  for (gsize s = 0; s < symptoms; s++)
    for (gsize r = 0; r < n && wanted[s]; r++)
      answers[s * n + r] = trial->until >= 0 && (double) trial->reached[r] + 1e-3 >= at
                               ? 0
                               : (double) NAN;
  for (guint k = 0; k < trial->noticed->len && trial->until >= 0; k++)
    {
      const HobTrialNoticed *row = &g_array_index (trial->noticed, HobTrialNoticed, k);

      if (wanted[row->symptom] && (double) row->first <= at)
        answers[(gsize) row->symptom * n + (gsize) row->run] = 1;
    }
  for (gsize s = 0; s < symptoms; s++)
    {
      const HobSymptom *symptom = hob_symptom_book_get (t->idle->book, (int) s);

      if (symptom->less >= 0 && wanted[s] && wanted[symptom->less])
        pass_over (answers + s * n, answers + (gsize) symptom->less * n, n);
      if (symptom->passes >= 0 && wanted[s] && wanted[symptom->passes])
        pass (t, answers + s * n, answers + (gsize) symptom->passes * n);
    }
  for (gsize s = 0; s < symptoms; s++)
    if (wanted[s])
      hob_parallel_average (t->faults, acts, answers + s * n);
}

const GArray *
hob_trials_noticed (HobTrials *t, const HobCase *acts, double until)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (double));

  return trial_of (t, acts, until, none)->noticed;
}

double
hob_trials_latest (HobTrials *t, const HobCase *acts, int symptom, double until)
{
  g_autoptr (GArray) none = g_array_new (FALSE, FALSE, sizeof (double));
  const HobTrial *trial = trial_of (t, acts, until, none);
  g_autofree float *first = g_new (float, t->runs->len);
  double latest = 0;

  for (guint r = 0; r < t->runs->len; r++)
    first[r] = INFINITY;
  for (guint k = 0; k < trial->noticed->len; k++)
    {
      const HobTrialNoticed *row = &g_array_index (trial->noticed, HobTrialNoticed, k);

      if (row->symptom == symptom && (double) row->first <= until
          && row->run < (gint32) t->runs->len)
        first[row->run] = fminf (first[row->run], row->first);
    }
  for (guint r = 0; r < t->runs->len; r++)
    latest = isinf (first[r]) ? latest : fmax (latest, (double) first[r]);
  return latest;
}

/* Of one column.  What is on in one unit and off in another, because its thermostat is elsewhere in
 * its cycle, scatters by as much whatever is read. */
static HobScatter
scatter_of (const HobTrials *t, const float *answers, guint test)
{
  const HobListedTest *listed = t->tests->pdata[test];
  double sum = 0, squares = 0, mean, room = listed->dim == HOB_DIM_TEMPERATURE ? ROOM : 0;

  for (guint r = t->runs->len; r < t->runs->len + HOB_TRIALS_UNITS; r++)
    {
      double value = (double) answers[(gsize) r * t->tests->len + test] - room;

      sum += value;
      squares += value * value;
    }
  mean = sum / HOB_TRIALS_UNITS;
  squares = sqrt (fmax (squares / HOB_TRIALS_UNITS - mean * mean, 0));
  if (!isfinite (mean))
    return (HobScatter){ 0, 0 };
  return squares > CYCLES * fabs (mean) || listed->dim == HOB_DIM_TEMPERATURE
                 || listed->dim == HOB_DIM_DIFFERENCE
             ? (HobScatter){ 0, squares }
             : (HobScatter){ fabs (mean) > 0 ? squares / fabs (mean) : 0, 0 };
}

const float *
hob_trials_readings (HobTrials *t, const HobCase *acts, double at,
                     const HobScatter **spread)
{
  g_autoptr (GArray) one = g_array_new (FALSE, FALSE, sizeof (double));
  const HobTrial *trial;
  HobTrialMoment *m;
  int moment;

  g_array_append_val (one, at);
  trial = trial_of (t, acts, at, one);
  moment = moment_at (trial, at);
  if (moment < 0)
    return NULL;
  m = &g_array_index (trial->moments, HobTrialMoment, moment);
  if (m->spread == NULL)
    {
      m->spread = g_new (HobScatter, t->tests->len);
      for (guint k = 0; k < t->tests->len; k++)
        m->spread[k] = scatter_of (t, m->answers, k);
    }
  *spread = m->spread;
  return m->answers;
}

/* Of the list, but for acts and time; the column, or −1. */
static int
column_of (const HobTrials *t, const HobTest *test)
{
  for (guint k = 0; k < t->tests->len; k++)
    if (hob_test_same (((const HobListedTest *) t->tests->pdata[k])->test, test))
      return (int) k;
  return -1;
}

typedef struct
{
  const HobTrials *t;
  const HobCase *acts;
  const HobTest *test;
  double at;
  double *answers;
} Direct;

static void
read_one (gpointer item, gpointer user)
{
  const Direct *d = user;
  guint run = GPOINTER_TO_UINT (item) - 1;
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (HobMoment) m = NULL;

  d->answers[run] = NAN;
  if (hob_trials_cancelled (d->t))
    return;
  bench = hob_trials_begin (d->t, d->acts, run);
  m = hob_bench_moment_new (bench);
  hob_trials_advance (d->t, bench, d->at);
  d->answers[run] = hob_trials_read_run (bench->run, d->at, m)
                        ? (double) hob_trials_answer (hob_reading_at (m, d->test))
                        : (double) NAN;
}

/* A test that is no column: between terminals of two parts, say. */
static void
read_directly (HobTrials *t, const HobCase *acts, const HobTest *test, double at, double *answers)
{
  g_autofree char *before = text_of_acts (acts), *what = hob_test_text (acts->range, test);
  g_autofree char *key = g_strdup_printf ("%s; %s; %.3f", before, what, at);
  double *known = g_hash_table_lookup (t->direct, key);

  if (known == NULL)
    {
      Direct d = { t, acts, test, at, known = g_new (double, hob_trials_n_all (t)) };
      GThreadPool *pool
          = g_thread_pool_new (read_one, &d, (int) g_get_num_processors (), TRUE, NULL);

      forget (t, known);
      for (guint k = 0; k < hob_trials_n_read (t); k++)
        g_thread_pool_push (pool, GUINT_TO_POINTER (k + 1), NULL);
      g_thread_pool_free (pool, FALSE, TRUE);
      g_hash_table_insert (t->direct, g_strdup (key), known);
    }
  memcpy (answers, known, hob_trials_n_all (t) * sizeof *answers);
}

/* NULL: it does not come so far. */
static double *
swing_of (HobTrials *t, const HobCase *acts, const HobTest *test, double from, double to)
{
  g_autoptr (HobBench) bench = hob_bench_again (t->idle, acts);
  g_autoptr (HobMoment) m = hob_bench_moment_new (bench);
  double span[2] = { INFINITY, -INFINITY };

  hob_trials_advance (t, bench, to);
  for (double at = from; at <= to; at += SWING_STEP)
    {
      double value;

      if (!hob_trials_read_run (bench->run, at, m))
        return NULL;
      value = hob_reading_at (m, test).value;
      span[0] = fmin (span[0], value);
      span[1] = fmax (span[1], value);
    }
  return g_memdup2 (span, sizeof span);
}

const double *
hob_trials_swing (HobTrials *t, const HobCase *acts, const HobTest *test, double from, double to)
{
  g_autofree char *before = text_of_acts (acts), *what = hob_test_text (acts->range, test);
  g_autofree char *key = g_strdup_printf ("%s; %s; %.3f to %.3f", before, what, from, to);
  double *span = g_hash_table_lookup (t->direct, key);

  if (span == NULL && (span = swing_of (t, acts, test, from, to)) != NULL)
    g_hash_table_insert (t->direct, g_strdup (key), span);
  return span;
}

void
hob_trials_read (HobTrials *t, const HobCase *acts, const HobTest *test, double at,
                 HobScatter *spread, double *answers)
{
  int column = column_of (t, test);
  const HobScatter *spreads;
  const float *all;

  *spread = (HobScatter){ 0, 0 };
  if (column < 0)
    {
      read_directly (t, acts, test, at, answers);
      return;
    }
  all = hob_trials_readings (t, acts, at, &spreads);
  forget (t, answers);
  if (all != NULL)
    *spread = spreads[column];
  for (guint r = 0; all != NULL && r < hob_trials_n_read (t); r++)
    answers[r] = (double) all[(gsize) r * t->tests->len + (guint) column];
}
