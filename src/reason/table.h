/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* reason: what faults would show, and from what was seen back to the fault.  It knows faults by
 * their place in the tables of kinds and symptoms by their place in the book, and no one of
 * either by name. */

#include "symptoms/bench.h"

G_BEGIN_DECLS

/* A fault that a range has from the start, at a severity; or two at once. */
typedef struct
{
  int part[2], fault[2]; /* the second is −1 for a single fault */
  double severity[2];
} HobHypothesis;

/* In place of a symptom: */
enum
{
  HOB_TABLE_SILENT = -1,     /* nothing shows in any procedure; the procedure is −1 */
  HOB_TABLE_IMPOSSIBLE = -2, /* the run came to an impossible state, and says nothing after it */
};

/* One symptom of one hypothesis in one procedure. */
typedef struct
{
  int hypothesis, procedure; /* by their place in the table */
  int symptom;               /* in the book, or one of the above */
  double first;              /* s from the procedure's start; NaN where nothing shows */
} HobTableRow;

typedef struct
{
  /*< owned; read-only >*/
  GArray *hypotheses; /* HobHypothesis */
  char **procedures;  /* NULL-ended */
  GArray *rows;       /* HobTableRow: by hypothesis, procedure, time */
} HobFaultTable;

/* How a table is made. */
typedef struct
{
  int threads;        /* 0: as many as the machine has */
  const gint *cancel; /* borrowed, read atomically: not 0 ends the work within 50 ms; NULL */
  /* In the thread that asked, some times a second; NULL. */
  void (*progress) (guint done, guint total, gpointer user);
  gpointer user;
  gboolean cache; /* ask the user's cache folder first, and leave the table there */
  gboolean whole; /* a table runs every trial to its own end (reason/repeats.h): to prove that the
                     other ways lead to the same rows */
} HobTableWork;

/* Every fault that @range can have, alone and at its typical severity: HobHypothesis. (transfer
 * full) */
GArray *hob_hypotheses_single (const HobRange *range);
/* Every two of them at once, two faults of one part too unless both change the same setting: what
 * a setting has been changed to, it cannot be changed to again. (transfer full) */
GArray *hob_hypotheses_pairs (const HobRange *range);

/* What @hypotheses show in every procedure.  The work is spread over threads and merged in order:
 * the table does not depend on their number.  @work: NULL for all of its zeros.  NULL if it was
 * cancelled. (transfer full) */
HobFaultTable *hob_fault_table_new (const HobBench *idle, GArray *hypotheses,
                                    const HobTableWork *work);
void hob_fault_table_free (HobFaultTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobFaultTable, hob_fault_table_free)

/* "igniter-bake:aged" or "igniter-bake:aged+oven:contact-welded". (transfer full) */
char *hob_hypothesis_text (const HobRange *range, const HobHypothesis *h);
char *hob_hypothesis_severity (const HobHypothesis *h); /* "0.5", "0.5+1" (transfer full) */

G_END_DECLS
