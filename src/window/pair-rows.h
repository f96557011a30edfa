/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Children two a row, all of one width, or one below the other where two are too wide. */

#include <gtk/gtk.h>

G_BEGIN_DECLS

GtkWidget *hob_pair_rows_new (void);
void hob_pair_rows_append (GtkWidget *rows, GtkWidget *child);

G_END_DECLS
