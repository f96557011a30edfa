/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/run.h"

G_BEGIN_DECLS

/* A run beside what should be there (run/step-twin.h), at one time.  Sheets, window, tests and
 * reasoning ask here what differs and which part does so by itself.
 *
 * Two runs never switch at the very same instant, so a value differs only if it is outside of what
 * should be there within a tenth of a second before and after. */
typedef struct _HobComparison HobComparison;

HobComparison *hob_comparison_new (const HobPlan *plan);
void hob_comparison_free (HobComparison *c);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobComparison, hob_comparison_free)

/* Reads both at t.  @should_be: NULL or @run itself: nothing differs.  What is asked afterwards
 * may read more of @should_be, so ask before anything is done to it. */
void hob_comparison_read (HobComparison *c, HobRun *run, HobRun *should_be, double t);

const HobMoment *hob_comparison_now (const HobComparison *c);
const HobMoment *hob_comparison_normal (const HobComparison *c); /* what should be there */

/* Each: does it differ?  @should_be: NULL, or where to put the value that should be there. */
gboolean hob_comparison_quantity (const HobComparison *c, int part, int quantity,
                                  double *should_be);
gboolean hob_comparison_mode (const HobComparison *c, int part, int mode, double *should_be);
gboolean hob_comparison_current (const HobComparison *c, int wire, double *should_be); /* A */
gboolean hob_comparison_volts (const HobComparison *c, HobEnd terminal,
                               double *should_be); /* V to earth */
gboolean hob_comparison_power (const HobComparison *c, int pipe,
                               double *should_be); /* W of heat that its flow carries */
gboolean hob_comparison_pressure (const HobComparison *c, HobEnd port, double *should_be); /* Pa */

/* The local test: does the part itself misbehave?  It does if its own functions, given all that
 * it gets now, do something else with normal settings, or if it is changed and its modes are other
 * than they should be.  @element, NULL or: the one branch or duct inside it that is to blame; −1:
 * the part as a whole. */
gboolean hob_comparison_culprit (HobComparison *c, int part, int *element);
/* Does the part do something else to others than it should: by its branches, ducts, leads, shaft or
 * place? */
gboolean hob_comparison_acts (HobComparison *c, int part);
/* Is there anything that a sense or an instrument could find different?  Without it a part that
 * misbehaves is a fault that does nothing yet. */
gboolean hob_comparison_shows (const HobComparison *c);
/* Is there, or was there in a step before this one?  What has shown itself stays to be seen until
 * its part is well again: a lead that is open is still open when no spark is called for.  Steps
 * before this one are known where what should be is a step twin. */
gboolean hob_comparison_has_shown (HobComparison *c);

G_END_DECLS
