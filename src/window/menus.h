/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Menus that pop up over a drawing, at what they are about. */

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* At x, y of @over, px. */
void hob_menus_pop_up (GtkWidget *over, GMenuModel *menu, double x, double y);
/* A drawing gives its menus their room, and drops them when it goes. */
void hob_menus_allocate (GtkWidget *over);
void hob_menus_drop (GtkWidget *over);

G_END_DECLS
