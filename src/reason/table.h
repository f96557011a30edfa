/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* reason: what faults would show, and from what was seen back to the fault.  It knows faults by their place in the
 * tables of kinds and symptoms by their place in the book, and no one of either by name. */

#include "symptoms/bench.h"

G_BEGIN_DECLS

/* A fault hung from the start, at its typical severity; or two at once. */
typedef struct
{
  int part[2], fault[2]; /* the second is −1 for a single fault */
  double severity[2];
} HobHypothesis;

/* One symptom of one hypothesis in one procedure. */
typedef struct
{
  int hypothesis, procedure; /* by their place in the table */
  int symptom;               /* in the book; −1: a row that says that nothing shows in any procedure */
  double first;              /* s from the procedure's start; NaN where nothing shows */
} HobTableRow;

typedef struct
{
  /*< owned; read-only >*/
  GArray *hypotheses; /* HobHypothesis */
  char **procedures;  /* NULL-ended */
  GArray *rows;       /* HobTableRow: by hypothesis, procedure, time */
} HobFaultTable;

/* Every fault that can be hung on the range (or, with @pairs, every two on different parts), simulated in every procedure.
 * Work is spread over the machine's threads and merged in order: the table does not depend on their number.
 * @error: HOB_ERROR_IMPOSSIBLE where a run comes to a state that cannot be. (transfer full) */
HobFaultTable *hob_fault_table_new (const HobBench *idle, gboolean pairs, GError **error);
/* Every fault that can be hung on the range, alone and at its typical severity: HobHypothesis. (transfer full) */
GArray *hob_hypotheses_single (const HobRange *range);
/* The same table for @hypotheses alone, on @threads threads; 0: as many as the machine has. (transfer full) */
HobFaultTable *hob_fault_table_new_for (const HobBench *idle, GArray *hypotheses, int threads, GError **error);
void hob_fault_table_free (HobFaultTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobFaultTable, hob_fault_table_free)

/* "igniter-bake:aged" or "igniter-bake:aged+oven:contact-welded". (transfer full) */
char *hob_hypothesis_text (const HobRange *range, const HobHypothesis *h);
char *hob_hypothesis_severity (const HobHypothesis *h); /* "0.5", "0.5+1" (transfer full) */

G_END_DECLS
