/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Two ranges compared step by step: the symptoms of both, and what each has done, with the times of
 * both.  A click goes to the moment of a step and chooses its part.  Signal "went" (int part): the
 * one that was chosen. */
#define HOB_TYPE_SUSPECT_STEPS (hob_suspect_steps_get_type ())
G_DECLARE_FINAL_TYPE (HobSuspectSteps, hob_suspect_steps, HOB, SUSPECT_STEPS, GtkWidget)

/* @with: the range with the fault; both NULL: nothing is compared. */
void hob_suspect_steps_show (HobSuspectSteps *self, HobSession *first, HobSession *with);

/* One line of it. */
typedef struct
{
  char *words, *figures; /* owned */
  gboolean differs;      /* the ranges do it at other times, or one doesn't */
  int part;              /* −1: none */
  gint64 ms;             /* when the first of the ranges did it */
} HobSuspectStep;

/* HobSuspectStep, those of the symptoms first.  Borrowed. */
const GArray *hob_suspect_steps_list (HobSuspectSteps *self);

G_END_DECLS
