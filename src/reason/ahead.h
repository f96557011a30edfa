/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: the suspects that are thought of, and what each test that is left would
 * say if one or another of them were true. */

#include "reason/inquiry.h"

G_BEGIN_DECLS

/* A look is seen or not; a reading falls into one of so many intervals, or is open. */
enum { HOB_AHEAD_OUTCOMES = 6, HOB_AHEAD_PAIRS = 4 };

typedef struct
{
  const HobOccasion *occasion;
  const HobListedTest *listed; /* NULL: a look at `symptom` */
  const HobMeansDef *means;
  int symptom, column;
  const float *answers; /* of a reading: [run·tests + column] */
  double t;
  gboolean again; /* a look that somebody has made: the range is run once more for it */
  double risk; /* minutes that it counts beside those that it takes */
  HobScatter spread;
  double *likelihood; /* owned; [outcome·n + suspect] */
  double bits;
} HobCandidate;

/* Two faults at once, at one severity each. */
typedef struct
{
  const HobListed *a, *b;
  double severity_a, severity_b;
} HobBoth;

/* Those who are thought of, and the tests that tell them apart. */
typedef struct
{
  const HobInquiry *q;
  HobSkill role;
  gboolean felt;      /* somebody has felt a shock or a tingle */
  GPtrArray *faults;  /* const HobListed * */
  HobBoth pairs[HOB_AHEAD_PAIRS];
  int n_pairs;
  int n;              /* faults, lines among them, pairs, then normal, last what nobody knows */
  double *p;          /* [n], sum 1 */
  int *group;         /* [n]: what is replaced: the part, or nothing */
  int n_groups;
  GArray *candidates; /* HobCandidate */
  GArray *runs;       /* guint: those that say what the faults do */
  gboolean *counts;   /* [run]: those, what lies between them, and all of parts in parallel */
  double *run_p;      /* [run]: of nothing wrong, of each fault at each severity; 0: of others */
  double *answers;    /* [run]: of one candidate, those of `runs` */
  double *absent;     /* [run]: of a look, what shows so early that its absence counts */
  float *taken;       /* the same, as they come, and room for three more */
  GHashTable *considered; /* of a test and its answers → the earliest time, s */
  GHashTable *read_alike; /* of answers alone → the candidate that reads them, + 1; 0: none */
} HobAhead;


/* Looks ahead from what is known to what can be asked on each of @occasions (HobOccasion *).  All
 * are borrowed.  (transfer full) */
HobAhead *hob_ahead_new (const HobInquiry *inquiry, HobSkill role, const HobSuspects *suspects,
                         const GPtrArray *occasions);
void hob_ahead_free (HobAhead *ahead);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobAhead, hob_ahead_free)

HobDimension hob_candidate_dim (const HobCandidate *candidate);
/* The severity in the middle of those that @fault may have now. */
double hob_ahead_severity (const HobAhead *ahead, const HobListed *fault);
/* May somebody of @role make it? */
gboolean hob_offer_is_for (const HobMeansDef *means, HobSkill role);

G_END_DECLS
