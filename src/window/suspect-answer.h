/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/suspect-work.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What the evidence says: the next test, the suspects with their reasons, what to check after the
 * repair.  Children of its own in a template, the evidence, stand below the next test, so that it
 * stays in view however long they are.  Signals: "chosen" (int part): a suspect's part is to be
 * shown; "tried" (HobSuspect *): so is a range that has its fault; "answered" (const char *test,
 * const char *answer): what the next test read or showed, or what its run showed besides, as it is
 * typed. */
#define HOB_TYPE_SUSPECT_ANSWER (hob_suspect_answer_get_type ())
G_DECLARE_FINAL_TYPE (HobSuspectAnswer, hob_suspect_answer, HOB, SUSPECT_ANSWER, GtkWidget)

/* NULL: nothing was asked. */
void hob_suspect_answer_show (HobSuspectAnswer *self, const HobSuspectQuestion *question);

G_END_DECLS
