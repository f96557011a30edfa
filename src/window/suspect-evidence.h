/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "reason/suspects.h"
#include "run/case-file.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What was seen, not seen and read: a list that a person edits.  Signal "changed". */
#define HOB_TYPE_SUSPECT_EVIDENCE (hob_suspect_evidence_get_type ())
G_DECLARE_FINAL_TYPE (HobSuspectEvidence, hob_suspect_evidence, HOB, SUSPECT_EVIDENCE, GtkWidget)

/* Empty again.  @idle: of the range, borrowed until the next time. */
void hob_suspect_evidence_open (HobSuspectEvidence *self, const HobBench *idle);
/* What was there already changes its answer. */
void hob_suspect_evidence_add_symptom (HobSuspectEvidence *self, int symptom, int part,
                                       HobSeen seen);
/* @test: with its acts and its time, owned from here on; without a time the moment is picked.
 * @answer: "2.9 A", "seen"; NULL: a field waits for it. */
void hob_suspect_evidence_add_test (HobSuspectEvidence *self, HobTest *test, const char *answer);
/* As a case file has it; what this range doesn't know is left out. */
void hob_suspect_evidence_add_text (HobSuspectEvidence *self, HobEvidenceWhat what,
                                    const char *text);
/* All that has an answer, as a case file has it; what @file has of it goes. */
void hob_suspect_evidence_save (HobSuspectEvidence *self, HobCaseFile *file);
/* HobClue, of all that has an answer. (transfer full) */
GPtrArray *hob_suspect_evidence_clues (HobSuspectEvidence *self);

G_END_DECLS
