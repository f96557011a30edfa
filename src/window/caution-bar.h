/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "base/hazard.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The strip under the header: the gravest hazard that holds, the others behind "More Cautions";
 * while none holds, what the program is for.  It is as tall as the longest caution needs, so that
 * nothing below it moves when one comes or goes. */
#define HOB_TYPE_CAUTION_BAR (hob_caution_bar_get_type ())
G_DECLARE_FINAL_TYPE (HobCautionBar, hob_caution_bar, HOB, CAUTION_BAR, GtkWidget)

void hob_caution_bar_show (HobCautionBar *self, HobHazards now);
HobHazards hob_caution_bar_hazards (HobCautionBar *self); /* those that it shows */
/* In a narrow window the button takes two lines, and the words beside it fewer. */
void hob_caution_bar_fold (HobCautionBar *self, gboolean narrow);

G_END_DECLS
