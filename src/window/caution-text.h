/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* One caution, in a place as tall as the longest of all cautions would be at that width: whichever
 * it shows, nothing around it moves. */
#define HOB_TYPE_CAUTION_TEXT (hob_caution_text_get_type ())
G_DECLARE_FINAL_TYPE (HobCautionText, hob_caution_text, HOB, CAUTION_TEXT, GtkWidget)

/* @markup: from hob_caution_markup(). */
void hob_caution_text_set (HobCautionText *self, const char *markup);
const char *hob_caution_text_get (HobCautionText *self);

G_END_DECLS
