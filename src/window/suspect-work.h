/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The search for suspects, in the background: one question at a time, the newest.  No widget here.
 * Signals: "progress" (double share) some times a second while it works; "answered" when it is
 * done, or cancelled, or asked something else. */

#include "reason/suspects.h"
#include "run/case-file.h"
#include <gio/gio.h>

G_BEGIN_DECLS

#define HOB_TYPE_SUSPECT_WORK (hob_suspect_work_get_type ())
G_DECLARE_FINAL_TYPE (HobSuspectWork, hob_suspect_work, HOB, SUSPECT_WORK, GObject)

/* What is asked, and what came of it. */
typedef struct
{
  gatomicrefcount refs;
  gint cancel; /* atomic: not 0 ends the work */
  gint share;  /* atomic: of 1,000, how much of it is done */
  guint trials_done, trials_total; /* of the thread that works on it */
  /*< owned >*/
  HobBench *idle; /* of the range, nothing done */
  HobCase *base;
  GPtrArray *clues; /* HobClue */
  HobPriors *priors;
  HobSkill role;
  HobSuspects *all; /* NULL: not answered yet, or cancelled */
} HobSuspectQuestion;

void hob_suspect_question_unref (HobSuspectQuestion *question);

HobSuspectWork *hob_suspect_work_new (void);
/* Begins with another range; what was asked of the last one is dropped.  Both are referenced. */
void hob_suspect_work_open (HobSuspectWork *self, HobSymptomBook *book, HobRange *range);
/* Of the range that is open, nothing done; words are made with it.  Borrowed. */
const HobBench *hob_suspect_work_bench (HobSuspectWork *self);
/* @base: settings and acts that are known, without faults; copied.  Owns @clues (HobClue). */
void hob_suspect_work_ask (HobSuspectWork *self, const HobCase *base, GPtrArray *clues,
                           HobSkill role);
void hob_suspect_work_cancel (HobSuspectWork *self);
/* Nothing was asked. */
void hob_suspect_work_forget (HobSuspectWork *self);
gboolean hob_suspect_work_busy (HobSuspectWork *self);
/* What was asked last and is answered; NULL: nothing.  Borrowed. */
const HobSuspectQuestion *hob_suspect_work_answer (HobSuspectWork *self);

G_END_DECLS
