/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* What is chosen: how it works, readings, faults to add and remove, settings. */
#define HOB_TYPE_PART_PANEL (hob_part_panel_get_type ())
G_DECLARE_FINAL_TYPE (HobPartPanel, hob_part_panel, HOB, PART_PANEL, GtkWidget)

void hob_part_panel_set_session (HobPartPanel *self, HobSession *session);

G_END_DECLS
