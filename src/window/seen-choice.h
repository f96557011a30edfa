/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* "Seen" and "Not Seen", of which none is on before somebody has looked.  Signal "answered"
 * (const char *answer): by a hand or by what sets it, "seen" or "not-seen". */
#define HOB_TYPE_SEEN_CHOICE (hob_seen_choice_get_type ())
G_DECLARE_FINAL_TYPE (HobSeenChoice, hob_seen_choice, HOB, SEEN_CHOICE, GtkWidget)

/* @words: what is looked for.  @answer: NULL: none yet. */
GtkWidget *hob_seen_choice_new (const char *words, const char *answer);
void hob_seen_choice_set (HobSeenChoice *self, const char *answer);

G_END_DECLS
