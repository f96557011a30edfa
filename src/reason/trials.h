/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Trials: what every fault of a range, at every computed severity, shows and reads under a list of
 * acts.  A trial is run once: it is kept in memory, and in the user's cache folder if its maker
 * says so. */

#include "reason/evidence.h"
#include "reason/lines.h"
#include "reason/table.h"
#include "run/tests.h"

G_BEGIN_DECLS

/* ---- What may be wrong ---- */

enum { HOB_N_GRID = 20 }; /* severities that are told apart */

/* One fault of the list: one state where it is there or not, else one for each severity of the
 * grid; and the runs that say what it does. */
typedef struct
{
  HobHypothesis h; /* at its typical severity */
  gboolean graded;
  guint first_run; /* one run, or one for each of hob_severities after 0 */
  guint same_run, other_run; /* one of them, and the same severity in another unit and house */
  guint first_mid; /* runs halfway between its severities, and below the least: of looks alone; 0:
                      it has none */
  int first_state, n_states;
  int next; /* in the list, to the same fault at a part in parallel: a ring; 0: there is none */
  HobLineFault line; /* of a line, which no part has in its list */
} HobListed;

guint hob_listed_n_runs (const HobListed *fault); /* of its severities */
/* Adds those that say what it does to @runs (guint): of its severities, of another unit, and of the
 * same fault at parts in parallel. */
void hob_listed_add_runs (const HobListed *fault, GArray *runs);
double hob_listed_severity (const HobListed *fault, int state); /* 0 … n_states − 1 */

/* ---- What was tried ---- */

/* Standard deviation of a reading among normal units in other houses: a share of what is read, and
 * a fixed amount in SI. */
typedef struct
{
  double share, fixed;
} HobScatter;

typedef struct _HobTrials HobTrials;

/* @work: threads, cancel, progress (of one trial) and whether to keep trials in the cache folder;
 * copied, NULL for plain.  @idle: borrowed. (transfer full) */
HobTrials *hob_trials_new (const HobBench *idle, const HobTableWork *work);
void hob_trials_free (HobTrials *trials);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobTrials, hob_trials_free)

const HobBench *hob_trials_bench (const HobTrials *trials);
const GArray *hob_trials_faults (const HobTrials *trials); /* HobListed */
int hob_trials_n_states (const HobTrials *trials);         /* of the faults */
/* Open wires and pinched pipes: HobListed, whose states begin with that after a normal range's,
 * which is hob_trials_n_states (). */
const GArray *hob_trials_lines (const HobTrials *trials);
/* The first run is of a range that has nothing; those of other units are counted. */
guint hob_trials_n_runs (const HobTrials *trials);
guint hob_trials_n_read (const HobTrials *trials); /* the first ones: instruments read them */
/* Of @answers, [run], those that no instrument reads are not known. */
void hob_trials_forget_mids (const HobTrials *trials, double *answers);
/* HobListedTest *: what instruments read; a trial has them as columns. */
const GPtrArray *hob_trials_tests (const HobTrials *trials);
/* A trial was cut short by `cancel`: what it answers is worthless. */
gboolean hob_trials_cancelled (const HobTrials *trials);

/* ---- Asking: [run]; NaN: that run has no answer ---- */

/* 1 or 0: @symptom was noticed by time t, at @part or, for −1, anywhere. */
void hob_trials_look (HobTrials *trials, const HobCase *acts, int symptom, int part, double t,
                      double *answers);
/* Which symptoms of the book any run shows by time t, or the next degree of it: [symptom].  @of:
 * [run], those that count; NULL: all. */
void hob_trials_shown (HobTrials *trials, const HobCase *acts, const gboolean *of, double t,
                       gboolean *shown);
/* Looks for all that are @wanted at once, anywhere: [symptom·runs + run]; others are left out. */
void hob_trials_look_for (HobTrials *trials, const HobCase *acts, const gboolean *wanted, double t,
                          double *answers);
/* +∞: open.  @spread: as far as it is known. */
void hob_trials_read (HobTrials *trials, const HobCase *acts, const HobTest *test, double t,
                      HobScatter *spread, double *answers);
/* The least and the most, SI, that a range without faults reads from time @from to @to, s; worked
 * out once, borrowed.  NULL: it does not come so far, or work is cancelled. */
const double *hob_trials_swing (HobTrials *trials, const HobCase *acts, const HobTest *test,
                                double from, double to);
/* All of hob_trials_tests () at once: [run·tests + test]; @spread: [test].  Both are borrowed until
 * the trials are freed or asked again about the same acts. */
const float *hob_trials_readings (HobTrials *trials, const HobCase *acts, double t,
                                  const HobScatter **spread);
/* Makes sure that what follows about @acts needs one trial: it lasts until @until, and is read at
 * @moments (double). */
void hob_trials_prepare (HobTrials *trials, const HobCase *acts, double until,
                         const GArray *moments);
/* First times of each symptom at each part, by run, under @acts until @until: HobTrialNoticed.
 * Borrowed until the trials are freed or asked again about the same acts. */
const GArray *hob_trials_noticed (HobTrials *trials, const HobCase *acts, double until);
/* The latest time at which @symptom is first noticed in any run under @acts by @until; 0: never. */
double hob_trials_latest (HobTrials *trials, const HobCase *acts, int symptom, double until);

/* Adds to @acts that the range is unplugged and its gas shut off from the start. */
void hob_trials_make_dead (HobCase *acts);

G_END_DECLS
