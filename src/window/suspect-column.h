/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/hazard.h"
#include "reason/suspects.h"
#include "run/case-file.h"
#include "window/session.h"
#include "window/suspect-steps.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* From what was seen and read to suspects and to the next test, beside the symptoms.  Signals:
 * "chosen" (int part): that part is to be shown; "tried" (HobSuspect *): so is a range that has
 * its fault, beside this one; "changed": other hazards, or another answer;
 * "edited": a hand changed the evidence. */
#define HOB_TYPE_SUSPECT_COLUMN (hob_suspect_column_get_type ())
G_DECLARE_FINAL_TYPE (HobSuspectColumn, hob_suspect_column, HOB, SUSPECT_COLUMN, GtkWidget)

void hob_suspect_column_set_session (HobSuspectColumn *self, HobSession *session);
/* A symptom of the session's range that somebody saw. */
void hob_suspect_column_add_symptom (HobSuspectColumn *self, int symptom, int part);
/* The evidence of a case file, in place of what was there. */
void hob_suspect_column_take (HobSuspectColumn *self, const HobCaseFile *file);
/* Its evidence, in place of what @file has. */
void hob_suspect_column_save (HobSuspectColumn *self, HobCaseFile *file);
/* Instead of all that, what a second range does differently, step by step.  NULL: all that
 * again. */
void hob_suspect_column_compare (HobSuspectColumn *self, HobSession *with);
HobSuspectSteps *hob_suspect_column_steps (HobSuspectColumn *self); /* NULL: not shown */
/* Those of what was seen. */
HobHazards hob_suspect_column_hazards (HobSuspectColumn *self);
/* To what is listed now; NULL: not yet, or nothing is listed.  Borrowed. */
const HobSuspects *hob_suspect_column_answer (HobSuspectColumn *self);
gboolean hob_suspect_column_busy (HobSuspectColumn *self);

G_END_DECLS
