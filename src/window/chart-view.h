/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheet/chart.h"
#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* The strip chart with the hand that scrubs: a press anywhere goes to that moment, a drag moves on
 * both ways.  Ctrl and the wheel zoom in time, the wheel alone moves through it.
 * Signal "asked" (double x, y, px) for a menu of its lanes. */
#define HOB_TYPE_CHART_VIEW (hob_chart_view_get_type ())
G_DECLARE_FINAL_TYPE (HobChartView, hob_chart_view, HOB, CHART_VIEW, GtkWidget)

void hob_chart_view_set_session (HobChartView *self, HobSession *session);
void hob_chart_view_set_look (HobChartView *self, HobLook look);
/* The traces that are shown: those that tell most, until somebody chooses.  The last one stays. */
const GArray *hob_chart_view_traces (HobChartView *self); /* HobTrace; borrowed */
gboolean hob_chart_view_shows (HobChartView *self, HobTrace trace);
void hob_chart_view_show (HobChartView *self, HobTrace trace, gboolean show);
void hob_chart_view_choose (HobChartView *self); /* those that tell most again */
gboolean hob_chart_view_chosen_by_hand (HobChartView *self);
HobChart hob_chart_view_chart (HobChartView *self); /* all of it borrowed, no cursor */
/* What is in view becomes so much shorter, and @about, s, stays where it is. */
void hob_chart_view_zoom (HobChartView *self, double factor, double about);
void hob_chart_view_zoom_out (HobChartView *self); /* all of it */
/* The time at a widget's x, and back. */
double hob_chart_view_time (HobChartView *self, double x);
double hob_chart_view_x (HobChartView *self, double t);

G_END_DECLS
