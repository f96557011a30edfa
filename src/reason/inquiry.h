/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what each fault makes one see and read, and how probable it is then. */

#include "reason/beliefs.h"
#include "reason/expected.h"
#include "reason/occasion.h"
#include "reason/suspects.h"

G_BEGIN_DECLS

typedef struct
{
  /*< borrowed >*/
  HobTrials *trials;
  const HobBench *idle;
  const HobCase *base;
  const GPtrArray *clues;
  const GArray *faults; /* HobListed, of the trials */
  const GArray *lines;  /* HobListed, of the trials */
  const HobPriors *priors;
  /*< owned >*/
  char **procedures; /* NULL-ended */
  guint n_runs;
  HobHazards hazards;   /* of what was seen, before anything is tried */
  GPtrArray *occasions; /* HobOccasion *: every procedure; NULL: they were not run */
  int complaint;  /* clue that somebody came with; −1: none, or what runs show is not known */
  double *said;   /* [run]: how probable it is that the complaint is this; last: in any run */
  double *told;   /* [run·clues + clue] */
  HobScatter *spread; /* [clue] */
  double *scale;  /* [clue]: over which a reading that was taken wrong may lie anywhere */
  double *logs;   /* [clue·states + state]: ln P(clue | state) */
  double *prior;  /* of each state */
  double *p;      /* of each state */
  int normal;     /* state, after those of faults; then those that are not listed: … */
  int n_states;   /* … of each line, last what nobody knows */
} HobInquiry;

/* (transfer full) */
HobInquiry *hob_inquiry_new (HobTrials *trials, const HobCase *base, const GPtrArray *clues,
                             const HobPriors *priors);
void hob_inquiry_free (HobInquiry *inquiry);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobInquiry, hob_inquiry_free)

/* Without acts and time of its own, under a case without acts: at any time in any procedure. */
gboolean hob_clue_anywhere (const HobClue *clue, const HobCase *base);
/* The fault that a suspect is: of two at once the first. */
const HobListed *hob_inquiry_listed (const HobInquiry *inquiry, const HobSuspect *suspect);
const HobListed *hob_inquiry_listed_at (const HobInquiry *inquiry, int part, int fault);

/* The case of a clue, and when it is read or by when it is seen; NaN: as long as it takes to see
 * it.  (transfer full) */
HobCase *hob_clue_case (const HobClue *clue, const HobCase *base, double *t);

/* What a fault at a severity makes one expect of clue @k; of the complaint: how probable it is that
 * somebody comes with it. */
HobExpected hob_inquiry_expected (const HobInquiry *inquiry, guint k, const HobListed *fault,
                                  double severity);
double hob_inquiry_said (const HobInquiry *inquiry, const HobListed *fault, double severity);
/* How probable it is that a range shows @symptom under @acts by time t which has something that is
 * not listed: likely what somebody complained of after the same was done, and of everything else a
 * little. */
double hob_inquiry_other_shows (const HobInquiry *inquiry, int symptom, const HobCase *acts,
                                double t);
/* How many times as probable as on a normal range something must be for one to be sure of it. */
double hob_inquiry_sure_odds (const HobInquiry *inquiry);
/* ln P(clue @k | a fault that makes one expect that). */
double hob_inquiry_log (const HobInquiry *inquiry, guint k, const HobExpected *expected);
double hob_inquiry_log_said (const HobInquiry *inquiry, double said);
/* By when, s, a unit of the same make shows what somebody saw by time t after @acts, or did not:
 * none is as quick as another. */
double hob_inquiry_about (const HobInquiry *inquiry, const HobCase *acts, double t, HobSeen seen);
/* Until when to look for what shows at t after @acts, so that it counts if it does not show: no
 * unit is as quick as another. */
double hob_inquiry_look_until (const HobCase *acts, double t);
double hob_log_sum (double a, double b); /* ln (eᵃ + eᵇ) */

G_END_DECLS
