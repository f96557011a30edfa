/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* window: the program with a face — the range's front, its sheets, the strip chart, what is chosen.
 */

#include "window/chart-view.h"
#include "window/front.h"
#include "window/session.h"
#include "window/sheet-view.h"
#include "window/style.h"
#include "window/symptom-list.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HOB_TYPE_WINDOW (hob_window_get_type ())
G_DECLARE_FINAL_TYPE (HobWindow, hob_window, HOB, WINDOW, GtkApplicationWindow)

/* The session has a range open. Both are kept by the window. */
HobWindow *hob_window_new (GtkApplication *app, HobSession *session, HobStyle *style);
void hob_window_say (HobWindow *self,
                     const char *line);        /* one line in the bar on top; NULL: gone */
const char *hob_window_said (HobWindow *self); /* NULL: nothing there */

/*< borrowed >*/
HobSession *hob_window_session (HobWindow *self);
HobFront *hob_window_front (HobWindow *self);
HobSheetView *hob_window_sheet (HobWindow *self);
HobChartView *hob_window_chart (HobWindow *self);
HobSymptomList *hob_window_symptoms (HobWindow *self);

G_END_DECLS
