/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The range's own front, made from its controls: knobs, the oven's selector and dial, and what else
 * a hand can set. */
#define HOB_TYPE_FRONT (hob_front_get_type ())
G_DECLARE_FINAL_TYPE (HobFront, hob_front, HOB, FRONT, GtkWidget)

void hob_front_set_session (HobFront *self, HobSession *session);
/* The widget of a control: a HobKnob, a GtkSwitch or a box of GtkToggleButtons; NULL if the range
 * has it not.  Borrowed. */
GtkWidget *hob_front_control (HobFront *self, int part, int control);

G_END_DECLS
