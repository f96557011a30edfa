/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* All that is wrong with a file, or was left out of it: a title, a line each, "Check Again",
 * "Close".  Signals: "check-again", "closed". */
#define HOB_TYPE_FINDING_LIST (hob_finding_list_get_type ())
G_DECLARE_FINAL_TYPE (HobFindingList, hob_finding_list, HOB, FINDING_LIST, GtkWidget)

/* @lines: char *.  @note: a sentence under the title, or NULL. */
void hob_finding_list_fill (HobFindingList *self, const char *title, const char *note,
                            const GPtrArray *lines, gboolean can_check);
guint hob_finding_list_size (HobFindingList *self);
const char *hob_finding_list_get (HobFindingList *self, guint i);

G_END_DECLS
