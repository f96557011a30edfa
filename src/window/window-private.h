/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "window/caution-bar.h"
#include "window/finding-list.h"
#include "window/part-list.h"
#include "window/part-panel.h"
#include "window/window.h"

G_BEGIN_DECLS

struct _HobWindow
{
  GtkApplicationWindow parent_instance;

  /*< template children >*/
  GtkLabel *range_name, *said, *zoom_label, *time_label, *record_label;
  GtkRevealer *bar, *findings_bar;
  HobCautionBar *cautions;
  HobFindingList *findings;
  HobFront *front;
  HobSheetView *sheet;
  HobChartView *chart;
  HobSymptomList *symptoms;
  HobPartPanel *part;
  HobPartList *parts;
  GtkStack *right_stack;
  GtkButton *run_button;
  GtkDropDown *speed;
  GtkWidget *front_panel, *front_rail, *details_panel, *details_rail;
  GtkLabel *rail_count;
  GtkWidget *reload_button; /* in the bar */
  GtkMenuButton *menu_button;
  GMenu *open_section; /* of its menu */

  /*< owned >*/
  HobSession *session;
  HobStyle *style;
  GtkFileChooserNative *chooser; /* while it is open */
  char *file;                    /* the one asked for last, open or broken; NULL: none yet */
  GFileMonitor *monitor;         /* of that file */

  guint tick;
  guint fold_idle;
  gint64 last_frame; /* µs; 0: none yet */
  gint64 time_shown_at;
  int width; /* px of the surface; 0: not yet known */
  gboolean narrow;
  gboolean showing;
  gboolean lists_recent;
};

#define HOB_WINDOW_NARROW 1180 /* px at text scale 1: below, one side panel at most is open */

extern const double hob_window_speeds[]; /* 0-ended */

void hob_window_add_actions (HobWindow *self);
void hob_window_add_opening (HobWindow *self);
void hob_window_hide_findings (HobWindow *self);
void hob_window_unwatch (HobWindow *self);
void hob_window_update_actions (HobWindow *self);
void hob_window_open_panel (HobWindow *self, gboolean front, gboolean open);

G_END_DECLS
