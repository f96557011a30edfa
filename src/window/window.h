/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* window: the program with a face: the range's front, its sheets, the chart, what is selected. */

#include "window/caution-bar.h"
#include "window/chart-view.h"
#include "window/finding-list.h"
#include "window/front.h"
#include "window/opening.h"
#include "window/sequence-bar.h"
#include "window/session.h"
#include "window/sheet-view.h"
#include "window/style.h"
#include "window/suspect-column.h"
#include "window/symptom-list.h"
#include "window/why-bar.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

#define HOB_TYPE_WINDOW (hob_window_get_type ())
G_DECLARE_FINAL_TYPE (HobWindow, hob_window, HOB, WINDOW, GtkApplicationWindow)

/* The session has a range open. Both are kept by the window. */
HobWindow *hob_window_new (GtkApplication *app, HobSession *session, HobStyle *style);
/* One line in the bar over the sheet; NULL: gone. */
void hob_window_say (HobWindow *self, const char *line);
const char *hob_window_said (HobWindow *self); /* NULL: nothing there */

/* Opens @path, or shows all that is wrong with it over the range that stays open.  Asks first if
 * what was done would be lost. */
void hob_window_open_file (HobWindow *self, const char *path);
/* The session shows what came of @opening, or what it had before.  The window lists what is wrong
 * with the file, and watches it from now on.  What the session holds now counts as saved. */
void hob_window_show_opening (HobWindow *self, const HobOpening *opening);

/* Offers what a killed program left, if any did. */
void hob_window_offer_left (HobWindow *self);

/*< borrowed >*/
HobSession *hob_window_session (HobWindow *self);
HobFront *hob_window_front (HobWindow *self);
HobSheetView *hob_window_sheet (HobWindow *self);
HobSequenceBar *hob_window_sequence (HobWindow *self);
/* Its size, panels, and speed as they were when the last one was closed; and to have them next
 * time. */
void hob_window_restore_look (HobWindow *self);
void hob_window_keep_look (HobWindow *self);
/* The sheet or the chart that is shown; the ending chooses svg, pdf, png, and of a chart csv. */
gboolean hob_window_export (HobWindow *self, gboolean chart, const char *file, GError **error);
/* What Print… prints, as a PDF. */
gboolean hob_window_print_to (HobWindow *self, const char *file, GError **error);
HobChartView *hob_window_chart (HobWindow *self);
HobSymptomList *hob_window_symptoms (HobWindow *self);
HobSuspectColumn *hob_window_suspects (HobWindow *self);
HobWhyBar *hob_window_why (HobWindow *self); /* NULL: no cause is shown */
/* The second range's, while there is one; else NULL. */
HobSheetView *hob_window_beside (HobWindow *self);
HobSession *hob_window_beside_session (HobWindow *self);
HobCautionBar *hob_window_cautions (HobWindow *self);
HobFindingList *hob_window_findings (HobWindow *self); /* NULL: nothing is listed */

G_END_DECLS
