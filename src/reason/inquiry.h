/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what each fault makes one see and read, and how probable it is then. */

#include "reason/beliefs.h"
#include "reason/suspects.h"

G_BEGIN_DECLS

/* What a person does with the range so as to look and to read. */
typedef struct
{
  gboolean dead;     /* unplugged, gas shut off: for an ohmmeter */
  gboolean still;    /* … and nothing done: for looking closely too */
  gboolean exchanged; /* leads are exchanged first: for looking alone */
  HobCase *acts;     /* owned */
  guint first;       /* of the acts: those before it are of the house, or make the range dead */
  double until;      /* s */
  GArray *moments;   /* double, s */
  double watched;    /* s, until when somebody has watched it */
  double runs_on;    /* s, the same if the range was not turned off since; or 0 */
} HobOccasion;

void hob_occasion_free (HobOccasion *occasion);
/* @procedure under what is known of the house, and when in it to read.  (transfer full) */
HobOccasion *hob_occasion_new (const HobCase *base, const char *procedure, gboolean dead);

/* All of @procedures; those that exchange leads; and, with the range dead, those that do something
 * that no other one does.  HobOccasion *.  (transfer full) */
GPtrArray *hob_occasions_new (const HobCase *base, char *const *procedures);
/* Is it an occasion for @test? */
gboolean hob_occasion_suits (const HobOccasion *occasion, const HobTest *test);
/* The last time, s, before it does something more than @acts, or at which it ends; −∞: it does not
 * begin with them. */
double hob_occasion_left_alone (const HobOccasion *occasion, const HobCase *acts);

/* What is done by time t, s; @next: when more is, or it ends.  (transfer full) */
HobCase *hob_occasion_done (const HobOccasion *occasion, double t, double *next);

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

/* Expectation at a severity, from answers at each computed one (@answers: [stride·run]; run 0:
 * nothing wrong).  Its value is NaN where it is not known. */
HobExpected hob_listed_expected (const HobListed *fault, const double *answers, guint stride,
                                 double severity, HobDimension dim, const HobScatter *spread);
/* @answer of a normal range, with the spread of its make. */
HobExpected hob_expected_of (double answer, HobDimension dim, const HobScatter *spread);

G_END_DECLS
