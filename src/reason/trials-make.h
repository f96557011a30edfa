/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: how a trial is made.  Its runs, one after another: nothing wrong, each
 * fault at each severity, normal units in other houses, each fault in another unit and house, each
 * line, and each fault halfway between its severities. */

#include "reason/trials-cache.h"

G_BEGIN_DECLS

/* Normal units in other houses, run besides: how far readings scatter. */
enum { HOB_TRIALS_UNITS = 10 };

/* Halfway between two runs: where both show the same, it is not run. */
typedef struct
{
  HobHypothesis h;
  guint below, above;
} HobTrialMid;

struct _HobTrials
{
  const HobBench *idle; /* borrowed */
  HobTableWork work;
  /*< owned >*/
  GArray *faults;     /* HobListed */
  GArray *runs;       /* HobHypothesis */
  GArray *lines;      /* HobListed */
  GArray *mids;       /* HobTrialMid */
  GPtrArray *tests;   /* HobListedTest */
  GHashTable *trials; /* text of the acts → HobTrial */
  GHashTable *direct; /* text of acts and test → double *: of tests that are no column, of swings */
  int n_states;
  guint n_line_runs;
};

guint hob_trials_n_all (const HobTrials *t);
/* Runs @trial until its end, and reads it at its moments; what is cut short by `cancel` is
 * worthless. */
void hob_trials_make (const HobTrials *t, HobTrial *trial);

/* The run of that number under @plain, not yet advanced.  (transfer full) */
HobBench *hob_trials_begin (const HobTrials *t, const HobCase *plain, guint run);
/* Until @until, or as far as it comes. */
void hob_trials_advance (const HobTrials *t, HobBench *bench, double until);
/* The state at t in a moment of the caller's; FALSE: the run does not come so far. */
gboolean hob_trials_read_run (HobRun *run, double t, HobMoment *m);
/* As trials keep it: +∞ open; NaN for a ghost voltage, which nobody knows of another range, since
 * how its wires lie decides. */
float hob_trials_answer (HobReading reading);

G_END_DECLS
