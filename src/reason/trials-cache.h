/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: one trial, and the file that keeps it. */

#include "reason/table-cache.h"
#include "reason/trials.h"

G_BEGIN_DECLS

/* The first time at which a run's symptom was noticed at a part (−1: at none). */
typedef struct
{
  gint32 run, symptom, part;
  float first; /* s */
} HobTrialNoticed;

typedef struct
{
  double t;
  float *answers; /* owned; [run·tests + test] of those that instruments read */
  HobScatter *spread; /* owned; [test], computed when asked for; NULL: not yet */
} HobTrialMoment;

typedef struct
{
  /*< owned >*/
  HobCase *acts;
  double until;     /* s; −1: not run yet */
  GArray *noticed;  /* HobTrialNoticed, by run */
  float *reached;   /* of each run, s: < until where it came to an impossible state */
  GArray *moments;  /* HobTrialMoment */
} HobTrial;

HobTrial *hob_trial_new (const HobCase *acts);
void hob_trial_free (HobTrial *trial);
/* Empty again. */
void hob_trial_clear (HobTrial *trial);

/* @key: of the engine, the range, the symptoms, the hypotheses and the acts; @n_answers: of each
 * moment.  FALSE, and @trial
 * empty, if nothing usable is kept. */
gboolean hob_trial_load (HobTrial *trial, const char *key, guint n_runs, guint n_answers);
void hob_trial_store (const HobTrial *trial, const char *key, guint n_runs, guint n_answers);

G_END_DECLS
