/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Two groups of buttons in a row: the first at its start, the second at its end, and below the
 * first one where the row is too narrow for both. */

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* @start: NULL: none. */
GtkWidget *hob_wrap_row_new (GtkWidget *start, GtkWidget *end);

G_END_DECLS
