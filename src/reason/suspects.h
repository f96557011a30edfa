/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Suspects: which single faults of a range explain what was seen and read, how far each does, and
 * which test to make next.  Every expectation comes from a run of the range with that fault. */

#include "reason/priors.h"
#include "reason/trials.h"

G_BEGIN_DECLS

/* ---- What was seen and read ---- */

/* One piece of evidence.  A symptom is a test that looks. */
typedef struct
{
  HobTest *test; /* owned */
  int symptom;   /* of a look, in the book; −1: a reading */
  gboolean volunteered; /* somebody noticed it without being asked to look */
  HobSeen seen;
  char *typed;   /* owned; the value as it was typed, NULL: a look */
  double value;  /* SI; +∞: open */
  double limit;  /* the stated ±, SI; NaN: the meter's class */
} HobClue;

void hob_clue_free (HobClue *clue);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobClue, hob_clue_free)

/* "SYMPTOM[ PART][ @ ACT{; ACT}; TIME]". (transfer full) */
HobClue *hob_clue_look (const HobBench *idle, const char *text, HobSeen seen, GError **error);
/* "TEST = VALUE UNIT [± or +- TOL]", "TEST = seen", "TEST = not-seen". (transfer full) */
HobClue *hob_clue_reading (const HobBench *idle, const char *text, GError **error);

/* What is said twice counts once.  Takes @clue. */
void hob_clues_add (GPtrArray *clues, const HobRange *range, HobClue *clue);

/* The first of them (HobClue *) that nobody had asked about; −1: none. */
int hob_clues_complaint (const GPtrArray *clues);
/* Was anything read with the range unplugged?  Then it has been made dead. */
gboolean hob_clues_are_dead (const GPtrArray *clues);
/* What somebody complains of, as long as nobody has looked for it; NULL.  Borrowed. */
const HobClue *hob_clues_unseen (const GPtrArray *clues);

/* ---- Suspects ---- */

typedef enum { HOB_SUSPECT_FAULT, HOB_SUSPECT_NORMAL, HOB_SUSPECT_NOT_LISTED } HobSuspectWhat;

typedef struct
{
  HobSuspectWhat what;
  int part, fault;   /* −1 unless it is a fault */
  int part2, fault2; /* of two faults at once the second; −1 */
  double severity2;
  gboolean is_line;  /* of what is not listed one line is likelier than all the rest … */
  HobLineFault line; /* … this one */
  int group;         /* suspects that no test tells apart have the same; −1: it is alone */
  gboolean graded; /* it has a severity of its own; else it is there or not */
  double prior, p; /* before anything was seen or read, and now */
  HobSeveritySpan severity;
  double *expected;   /* owned; of each clue at the middle severity: what it reads or, of a look,
                         the probability that it shows; NaN: not known */
  double said;        /* how probable it is that, of all that it shows, the complaint is this one;
                         NaN: it is not known, or nobody complained */
  double *likelihood; /* owned; of each clue, severities taken together, to compare suspects by */
} HobSuspect;

/* How far the first suspect has got. */
typedef enum
{
  HOB_PROOF_NONE,   /* only symptoms speak for it */
  HOB_PROOF_VOLTS,  /* its amps were read, but not the volts across it under the same load */
  HOB_PROOF_READING /* a reading speaks for it */
} HobProof;

typedef struct
{
  HobTest *test; /* owned */
  const HobMeansDef *means;
  double minutes; /* that it takes now: of the means and of the acts before it */
  double risk;    /* … and how many it counts besides, for what a suspect may do by then */
  double bits;
  HobHazards hazards;
} HobOffer;

void hob_offer_free (HobOffer *offer);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobOffer, hob_offer_free)

/* What to read after the repair: what a normal range reads there. */
typedef struct
{
  HobTest *test; /* owned */
  double value, spread; /* SI; of a look: 0, not seen */
  double most; /* SI; of what goes up and down, `value` being the least; NaN: it does not */
} HobCheck;

typedef struct
{
  GPtrArray *suspects; /* HobSuspect *: the most probable first */
  GPtrArray *offers;   /* HobOffer *: the next test first; none while `stop` is not 0 */
  guint along;         /* … of them so many after the first are seen in the same run as that one:
                          who watches it says what each of them did */
  GPtrArray *checks;   /* HobCheck *: after the first suspect was repaired */
  int lights;          /* the burner to light then; −1: none */
  double lights_after; /* s from the call to its flame, normally */
  gboolean by_knob;    /* its knob calls for it, not the control of the oven */
  HobHazards hazards;  /* of what was seen */
  HobHazards stop;     /* those of them that come before any test */
  int complaint;       /* the clue that somebody came with; −1: none, or it is not known what the
                          range shows besides */
  HobProof proof;
  HobTestVerdict verdict;
} HobSuspects;

/* @base: settings and acts that are known, without faults.  @clues: HobClue *.  @trials: of the
 * same range; they remember, and the same question is soon answered again.  (transfer full) NULL:
 * cancelled. */
HobSuspects *hob_suspects_new (HobTrials *trials, const HobCase *base, const GPtrArray *clues,
                               HobSkill role, const HobPriors *priors);
/* The hazards of what was seen, before anything is tried.  A smell of gas that no control explains
 * is a strong one. */
HobHazards hob_suspects_hazards (const HobBench *idle, const HobCase *base,
                                 const GPtrArray *clues);
/* Those of @set that come before any test. */
HobHazards hob_suspects_stop (HobHazards set);
void hob_suspects_free (HobSuspects *suspects);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobSuspects, hob_suspects_free)

G_END_DECLS
