/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/hazard.h"
#include "base/units.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* "0:01:34.2": the window's clock, in the user's locale. (transfer full) */
char *hob_clock_text (gint64 ms);
/* "Temperature dial" of "temperature dial": as a heading. (transfer full) */
char *hob_heading_text (const char *words);
/* A label that wraps, aligned left; no line of it ends between a number and its unit. */
GtkWidget *hob_text_new (const char *text, const char *css_class);
/* Text only where it differs: nothing is laid out anew for nothing. */
void hob_label_show (GtkLabel *label, const char *text);
/* A caution as the table has it: its triangle, its name in bold and its words.  @set: which
 * circumstances hold. (transfer full) */
char *hob_caution_markup (HobHazard hazard, HobHazards set);
GtkWidget *hob_caution_new (HobHazard hazard, HobHazards set);
/* The triangle and names of hazards alone; "": the label is hidden. */
void hob_caution_names_show (GtkWidget *label, const char *names);
/* Gives a drop-down of strings, its button and its items the names that assistive tools say. */
void hob_drop_down_name (GtkDropDown *drop, const char *name);
/* Takes every child out of a box. */
void hob_box_clear (GtkWidget *box);

G_END_DECLS
