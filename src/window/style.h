/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Light, dark, contrast, text size and motion: what the desktop and the person want, for all
 * windows of a display. */

#include "sheet/sheet.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

typedef enum
{
  HOB_STYLE_SYSTEM,
  HOB_STYLE_LIGHT,
  HOB_STYLE_DARK
} HobStyleChoice;

/* Signal "changed". */
#define HOB_TYPE_STYLE (hob_style_get_type ())
G_DECLARE_FINAL_TYPE (HobStyle, hob_style, HOB, STYLE, GObject)

HobStyle *hob_style_new (GdkDisplay *display);
void hob_style_choose (HobStyle *self, HobStyleChoice choice);
HobLook hob_style_look (HobStyle *self);   /* zoom 1 */
gboolean hob_style_still (HobStyle *self); /* no motion wanted */

/* A role's color as the widget's style sheet has it. */
GdkRGBA hob_widget_colour (GtkWidget *widget, HobRole role);
/* The pencil's line around all of it. */
/* What draws it itself draws it again when the focus comes or goes. */
void hob_widget_follow_focus (GtkWidget *widget);
void hob_widget_draw_focus (GtkWidget *widget, cairo_t *cr);

G_END_DECLS
