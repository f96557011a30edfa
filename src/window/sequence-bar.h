/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheet/sheet.h"
#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The sequence of operation over the sheet: what a normal range does now, and which of that this
 * range has done.  A click goes to the moment of an entry and chooses its part; so do the arrow
 * keys.  Signal "went" (int part): the one that was chosen. */
#define HOB_TYPE_SEQUENCE_BAR (hob_sequence_bar_get_type ())
G_DECLARE_FINAL_TYPE (HobSequenceBar, hob_sequence_bar, HOB, SEQUENCE_BAR, GtkWidget)

void hob_sequence_bar_set_session (HobSequenceBar *self, HobSession *session);
void hob_sequence_bar_set_look (HobSequenceBar *self, HobLook look);
/* What it shows, and where the words of one of them are; FALSE: there is no room for it. */
const GArray *hob_sequence_bar_entries (HobSequenceBar *self);
gboolean hob_sequence_bar_find (HobSequenceBar *self, int entry, double *x, double *y);

G_END_DECLS
