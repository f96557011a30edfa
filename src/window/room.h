/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* A row whose children give way when there is no room: those with the style class "gives-way-1" go
 * first, "gives-way-3" last, and no later one goes for the sake of an earlier; the others stay.
 * What expands takes the room that is left. */
#define HOB_TYPE_ROOM (hob_room_get_type ())
G_DECLARE_FINAL_TYPE (HobRoom, hob_room, HOB, ROOM, GtkWidget)

G_END_DECLS
