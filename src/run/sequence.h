/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/comparison.h"

G_BEGIN_DECLS

/* The sequence of operation: what a normal range does under the same acts, change by change, and
 * which of that the run has done. */

typedef enum
{
  HOB_SEQUENCE_MET,
  HOB_SEQUENCE_LATE,    /* done, but later than a normal range by more than it may be … */
  HOB_SEQUENCE_EARLY,   /* … or earlier */
  HOB_SEQUENCE_POOR,    /* done in time, and it yields something else than in a normal range */
  HOB_SEQUENCE_UNMET,   /* due and not done: the first one */
  HOB_SEQUENCE_WAITING, /* due and not done, but something before it is not done either */
  HOB_SEQUENCE_NEXT,    /* not due yet */
  HOB_SEQUENCE_EXTRA,   /* done, and a normal range never does it */
} HobSequenceState;

typedef struct
{
  HobSequenceState state;
  int part, mode;
  double value;
  double due, done; /* s; NaN: never */
  double until;     /* how long the run, the normal range, and what should be there all keep it
                       so, or wait for it */
  gboolean over;    /* an act has come after it: what is not done by now is not waited for */
  int times;        /* that a normal range has done it since the act before it, up to now */

  /* what drives it, from the kind's link, or what it yields if it is poor; quantity −1: not said */
  const HobLinkDef *link; /* NULL: none */
  int quantity;
  gboolean differs;
  double figure, should_be, limit; /* of quantity, of what is ringed; limit NaN: none */
  double read_at;                  /* s, when both are so */
} HobSequenceEntry;

#define HOB_SEQUENCE_AHEAD (15 * 60.0) /* s, for which a normal range is looked at ahead */

/* What is due up to a while after t, in the order of time, as far ahead as @twin, the long one, has
 * come.  @should_be: run/step-twin.h; @c is read where there are figures. (transfer full) */
GArray *hob_sequence_read (HobRun *run, HobRun *twin, HobRun *should_be, HobComparison *c,
                           double t);
/* Is it one that is ringed? */
gboolean hob_sequence_is_ringed (const HobSequenceEntry *entry);
/* "Bake valve: valve starts to open". (transfer full) */
char *hob_sequence_words (const HobRun *run, const HobSequenceEntry *entry);
/* "2.7 A, should be 3.5 A; opens at 2.8 A", with times where it is about time; NULL: nothing to
 * say. (transfer full) */
char *hob_sequence_figures (const HobRun *run, const HobSequenceEntry *entry);

G_END_DECLS
