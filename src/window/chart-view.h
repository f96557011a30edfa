/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheet/sheet.h"
#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The strip chart with the hand that scrubs: a press anywhere goes to that moment, a drag moves on
 * both ways. */
#define HOB_TYPE_CHART_VIEW (hob_chart_view_get_type ())
G_DECLARE_FINAL_TYPE (HobChartView, hob_chart_view, HOB, CHART_VIEW, GtkWidget)

void hob_chart_view_set_session (HobChartView *self, HobSession *session);
void hob_chart_view_set_look (HobChartView *self, HobLook look);
/* The time at a widget's x, and back. */
double hob_chart_view_time (HobChartView *self, double x);
double hob_chart_view_x (HobChartView *self, double t);

G_END_DECLS
