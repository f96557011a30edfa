/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Every part of the range by name and figure: what the sheets draw, for eyes and ears that a
 * drawing does not serve. */
#define HOB_TYPE_PART_LIST (hob_part_list_get_type ())
G_DECLARE_FINAL_TYPE (HobPartList, hob_part_list, HOB, PART_LIST, GtkWidget)

void hob_part_list_set_session (HobPartList *self, HobSession *session);

G_END_DECLS
