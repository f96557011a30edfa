/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A button that opens a list to pick from, with a field that finds words in it.  Signal "picked"
 * (guint): its place in the list. */
#define HOB_TYPE_SUSPECT_PICKER (hob_suspect_picker_get_type ())
G_DECLARE_FINAL_TYPE (HobSuspectPicker, hob_suspect_picker, HOB, SUSPECT_PICKER, GtkWidget)

GtkWidget *hob_suspect_picker_new (const char *label, const char *tooltip);
void hob_suspect_picker_fill (HobSuspectPicker *self, GPtrArray *words); /* char *; owns them */

G_END_DECLS
