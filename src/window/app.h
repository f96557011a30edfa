/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/style.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HOB_APPLICATION_ID "org.hobwright.Hobwright"

/* hobwright [RANGE] [CASE]: one window a process. */
#define HOB_TYPE_APP (hob_app_get_type ())
G_DECLARE_FINAL_TYPE (HobApp, hob_app, HOB, APP, GtkApplication)

HobApp *hob_app_new (void);
HobStyle *hob_app_style (HobApp *self); /* borrowed; from startup to shutdown */

G_END_DECLS
