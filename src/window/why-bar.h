/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "reason/why.h"
#include "sheet/sheet.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Why a symptom was noticed, as a line over the sheet.  A click goes to an entry's moment and part;
 * so do the arrow keys.  Signal "went" (int entry). */
#define HOB_TYPE_WHY_BAR (hob_why_bar_get_type ())
G_DECLARE_FINAL_TYPE (HobWhyBar, hob_why_bar, HOB, WHY_BAR, GtkWidget)

/* @chains (HobWhy): takes a reference; NULL: nothing is shown.  @symptom: its words outlive the
 * chains. */
void hob_why_bar_show (HobWhyBar *self, GPtrArray *chains, HobRange *range,
                       const HobSymptom *symptom);
void hob_why_bar_set_look (HobWhyBar *self, HobLook look);
int hob_why_bar_size (HobWhyBar *self); /* entries, the symptom included */
/* Where an entry goes to, and where its words are. */
void hob_why_bar_get (HobWhyBar *self, int entry, int *part, gint64 *ms);
void hob_why_bar_find (HobWhyBar *self, int entry, double *x, double *y);

G_END_DECLS
