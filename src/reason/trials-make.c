/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/trials-make.h"

#include "reason/plain.h"
#include "reason/vary.h"

#include <math.h>

guint
hob_trials_n_all (const HobTrials *t)
{
  return t->runs->len + HOB_TRIALS_UNITS + t->faults->len + t->n_line_runs + t->mids->len;
}

/* ---- One run ---- */

/* NULL: it is none. */
static const HobTrialMid *
mid_of (const HobTrials *t, guint run)
{
  guint n_read = hob_trials_n_read (t);

  return run >= n_read ? &g_array_index (t->mids, HobTrialMid, run - n_read) : NULL;
}

/* What is not the range's own line in that run, and how far; NULL: all is. */
static const HobListed *
line_of_run (const HobTrials *t, guint run, double *severity)
{
  for (guint k = 0; k < t->lines->len; k++)
    {
      const HobListed *line = &g_array_index (t->lines, HobListed, k);

      if (run < line->first_run || run >= line->first_run + hob_listed_n_runs (line))
        continue;
      *severity = line->graded ? hob_severities[1 + run - line->first_run] : 1;
      return line;
    }
  return NULL;
}

void
hob_trials_advance (const HobTrials *t, HobBench *bench, double until)
{
  (void) hob_bench_advance_unless (bench, t->work.cancel, until);
}

static void
add_fault (HobCase *acts, const HobHypothesis *h, double severity)
{
  hob_case_add (acts, (HobAct){ .what = HOB_ACT_FAULT, .part = h->part[0], .index = h->fault[0],
                                .value = severity });
}

static HobCase *
case_of_run (const HobTrials *t, const HobCase *plain, guint run)
{
  HobCase *acts = hob_case_copy (plain);
  const HobTrialMid *mid = mid_of (t, run);
  const HobHypothesis *h;

  if (mid != NULL)
    {
      add_fault (acts, &mid->h, mid->h.severity[0]);
      return acts;
    }
  if (run >= hob_trials_n_read (t) - t->n_line_runs)
    return acts;
  if (run >= t->runs->len)
    hob_case_vary (acts, run - t->runs->len + 1);
  if (run >= t->runs->len + HOB_TRIALS_UNITS)
    {
      const HobListed *f
          = &g_array_index (t->faults, HobListed, run - t->runs->len - HOB_TRIALS_UNITS);

      add_fault (acts, &f->h, g_array_index (t->runs, HobHypothesis, f->same_run).severity[0]);
      return acts;
    }
  h = &g_array_index (t->runs, HobHypothesis, run < t->runs->len ? run : 0);
  if (h->part[0] >= 0)
    add_fault (acts, h, h->severity[0]);
  return acts;
}

/* @acts, done to a range that has that line. */
static HobBench *
begin_with_line (const HobTrials *t, const HobListed *line, double severity, const HobCase *acts)
{
  g_autoptr (HobRange) range
      = hob_line_fault_range (hob_bench_range (t->idle), &line->line, severity);
  g_autoptr (HobCase) same = hob_case_copy_to (acts, range);

  return hob_bench_new (t->idle->book, range, same, NULL); /* the book is there: no error */
}

HobBench *
hob_trials_begin (const HobTrials *t, const HobCase *plain, guint run)
{
  g_autoptr (HobCase) acts = case_of_run (t, plain, run);
  double severity;
  const HobListed *line = line_of_run (t, run, &severity);

  return line != NULL ? begin_with_line (t, line, severity, acts)
                      : hob_bench_again (t->idle, acts);
}

/* One trial in the making. */
typedef struct
{
  const HobTrials *t; /* borrowed, and not changed meanwhile */
  HobTrial *trial;    /* each thread writes what belongs to its own runs */
  GArray **noticed;   /* of each run */
  HobPlain *plain;    /* from which they branch off */
  GMutex mutex;       /* of `done` */
  guint done;
} Making;

/* For the runs of this unit: first those of `runs`, then those of `mids`. */
static HobPlain *
make_plain (const HobTrials *t, const HobTrial *trial)
{
  g_autoptr (HobCase) acts = hob_case_copy (trial->acts);
  g_autoptr (GArray) all = g_array_copy (t->runs);

  for (guint k = 0; k < t->mids->len; k++)
    g_array_append_val (all, g_array_index (t->mids, HobTrialMid, k).h);
  hob_case_add (acts, HOB_PLAIN_ACT);
  return hob_plain_new (t->idle, acts, all, trial->until, t->work.cancel);
}

/* That run, or the end of it: it begins before t at the latest. */
static HobBench *
run_before (const Making *making, guint run, double t)
{
  const HobTrials *trials = making->t;
  gboolean is_mid = mid_of (trials, run) != NULL;
  g_autoptr (HobCase) acts = NULL;

  if (run >= trials->runs->len && !is_mid)
    return hob_trials_begin (trials, making->trial->acts, run);
  acts = case_of_run (trials, making->trial->acts, run);
  if (is_mid)
    run += trials->runs->len - hob_trials_n_read (trials);
  return hob_plain_run (making->plain, run, t, acts);
}

float
hob_trials_answer (HobReading reading)
{
  return (float) (reading.ghost                                ? NAN
                  : reading.answered && isnan (reading.value) ? INFINITY
                                                              : reading.value);
}

gboolean
hob_trials_read_run (HobRun *run, double t, HobMoment *m)
{
  return hob_run_reached (run) >= t && hob_run_read (run, t, m);
}

static void
read_moment (const Making *making, guint run, HobBench *bench, double at, float *answers)
{
  const HobTrials *t = making->t;
  g_autoptr (HobMoment) m = hob_bench_moment_new (bench);

  for (guint k = 0; k < t->tests->len; k++)
    answers[k] = NAN;
  if (hob_run_begins (bench->run) > at)
    {
      g_autoptr (HobBench) earlier = run_before (making, run, at);

      hob_trials_advance (t, earlier, at);
      read_moment (making, run, earlier, at, answers);
      return;
    }
  if (!hob_trials_read_run (bench->run, at, m))
    return;
  for (guint k = 0; k < t->tests->len; k++)
    {
      const HobListedTest *listed = t->tests->pdata[k];

      answers[k] = hob_trials_answer (hob_reading_at (m, listed->test));
    }
}

/* First times of the symptoms of a run at each part, each once. */
static GArray *
collect (const HobBench *bench, guint run)
{
  GArray *found = g_array_new (FALSE, FALSE, sizeof (HobTrialNoticed));
  guint first, n = hob_run_events (bench->run, -1, hob_run_reached (bench->run), &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (bench->run, k);
      HobTrialNoticed row = { (gint32) run, e->index, e->part, (float) e->t };
      gboolean known = e->what != HOB_EVENT_SYMPTOM;

      for (guint i = 0; i < found->len && !known; i++)
        known = g_array_index (found, HobTrialNoticed, i).symptom == row.symptom
                && g_array_index (found, HobTrialNoticed, i).part == row.part;
      if (!known)
        g_array_append_val (found, row);
    }
  return found;
}

static void
do_run (Making *making, guint run)
{
  const HobTrials *t = making->t;
  g_autoptr (HobBench) bench = run_before (making, run, making->trial->until);

  hob_trials_advance (t, bench, making->trial->until);
  making->trial->reached[run] = (float) hob_run_reached (bench->run);
  making->noticed[run] = collect (bench, run);
  for (guint k = 0; k < making->trial->moments->len && mid_of (t, run) == NULL
                    && !hob_trials_cancelled (t); k++)
    {
      const HobTrialMoment *m = &g_array_index (making->trial->moments, HobTrialMoment, k);

      read_moment (making, run, bench, m->t, m->answers + (gsize) run * t->tests->len);
    }
}

static const HobTrialNoticed *
find_noticed (const GArray *noticed, const HobTrialNoticed *row)
{
  for (guint k = 0; k < noticed->len; k++)
    {
      const HobTrialNoticed *other = &g_array_index (noticed, HobTrialNoticed, k);

      if (other->symptom == row->symptom && other->part == row->part)
        return other;
    }
  return NULL;
}

/* Where the runs beside it show the same, it shows that at a time between theirs.  FALSE: they do
 * not. */
static gboolean
between (Making *making, guint run, const HobTrialMid *mid)
{
  const GArray *below = making->noticed[mid->below], *above = making->noticed[mid->above];
  float *reached = making->trial->reached;
  GArray *found;

  if (below->len != above->len || reached[mid->below] < reached[mid->above])
    return FALSE;
  for (guint k = 0; k < below->len; k++)
    if (find_noticed (above, &g_array_index (below, HobTrialNoticed, k)) == NULL)
      return FALSE;
  found = g_array_sized_new (FALSE, FALSE, sizeof (HobTrialNoticed), below->len);
  for (guint k = 0; k < below->len; k++)
    {
      HobTrialNoticed row = g_array_index (below, HobTrialNoticed, k);

      row.first = (row.first + find_noticed (above, &row)->first) / 2;
      row.run = (gint32) run;
      g_array_append_val (found, row);
    }
  reached[run] = reached[mid->above];
  making->noticed[run] = found;
  return TRUE;
}

/* Once it is cancelled, those that are left end at once. */
static void
try_run (gpointer item, gpointer user)
{
  Making *making = user;
  const HobTrials *t = making->t;
  guint run = GPOINTER_TO_UINT (item) - 1;
  const HobTrialMid *mid = mid_of (t, run);

  if (!hob_trials_cancelled (t) && (mid == NULL || !between (making, run, mid)))
    do_run (making, run);
  g_mutex_lock (&making->mutex);
  making->done++;
  g_mutex_unlock (&making->mutex);
}

/* For so many that they are done. */
static void
wait_for (Making *making, guint wanted)
{
  const HobTableWork *work = &making->t->work;
  guint total = hob_trials_n_all (making->t), done = 0;

  while (done < wanted)
    {
      g_usleep (work->progress != NULL ? 20000 : 2000);
      g_mutex_lock (&making->mutex);
      done = making->done;
      g_mutex_unlock (&making->mutex);
      if (work->progress != NULL && !hob_trials_cancelled (making->t))
        work->progress (done, total, work->user);
    }
}

void
hob_trials_make (const HobTrials *t, HobTrial *trial)
{
  Making making = { .t = t, .trial = trial };
  guint n = hob_trials_n_all (t), n_read = hob_trials_n_read (t);
  int threads = t->work.threads > 0 ? t->work.threads : (int) g_get_num_processors ();
  GThreadPool *pool = g_thread_pool_new (try_run, &making, threads, TRUE, NULL);

  making.plain = make_plain (t, trial);
  g_mutex_init (&making.mutex);
  making.noticed = g_new0 (GArray *, n);
  trial->reached = g_new0 (float, n);
  for (guint k = 0; k < n; k++)
    {
      if (k == n_read) /* what lies between two comes after both */
        wait_for (&making, n_read);
      g_thread_pool_push (pool, GUINT_TO_POINTER (k + 1), NULL);
    }
  wait_for (&making, n);
  g_thread_pool_free (pool, FALSE, TRUE);
  for (guint k = 0; k < n; k++)
    if (making.noticed[k] != NULL) /* else it was cancelled before */
      {
        g_array_append_vals (trial->noticed, making.noticed[k]->data, making.noticed[k]->len);
        g_array_unref (making.noticed[k]);
      }
  g_free (making.noticed);
  hob_plain_free (making.plain);
  g_mutex_clear (&making.mutex);
}
