/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What a person would have noticed up to now, each with its time; a click goes there.  Signal
 * "suspect" (guint row): it is to be evidence; "why" (guint row): what causes it is asked. */
#define HOB_TYPE_SYMPTOM_LIST (hob_symptom_list_get_type ())
G_DECLARE_FINAL_TYPE (HobSymptomList, hob_symptom_list, HOB, SYMPTOM_LIST, GtkWidget)

void hob_symptom_list_set_session (HobSymptomList *self, HobSession *session);
guint hob_symptom_list_size (HobSymptomList *self);
/* Symptom's index in the book, of row @i; its time. */
const HobNoticed *hob_symptom_list_get (HobSymptomList *self, guint i);

G_END_DECLS
