/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "sheet/sheet.h"
#include "window/session.h"
#include <gtk/gtk.h>

G_BEGIN_DECLS

/* One sheet on screen, alive: the still layer from a cached image, what moves on top.  Zoom, pan,
 * choice by click, and arrows that walk along lines.  Signals: "framed" another zoom or sheet;
 * "asked" (double x, y, widget px) for a menu of what is chosen there. */
#define HOB_TYPE_SHEET_VIEW (hob_sheet_view_get_type ())
G_DECLARE_FINAL_TYPE (HobSheetView, hob_sheet_view, HOB, SHEET_VIEW, GtkWidget)

void hob_sheet_view_set_session (HobSheetView *self, HobSession *session);
void hob_sheet_view_set_look (HobSheetView *self, HobLook look, gboolean still);
HobSheet hob_sheet_view_sheet (HobSheetView *self);
void hob_sheet_view_show (HobSheetView *self, HobSheet sheet);
double hob_sheet_view_zoom (HobSheetView *self);
void hob_sheet_view_zoom_by (HobSheetView *self, double factor); /* about the middle */
void hob_sheet_view_fit (HobSheetView *self);
gboolean hob_sheet_view_fits (HobSheetView *self); /* the whole sheet is in view and stays so */
/* The middle of the part's symbol, widget px; of the view where it is not on this sheet. */
void hob_sheet_view_middle_of (HobSheetView *self, int part, double *x, double *y);
/* Where a sheet's point is on the widget, and back. */
void hob_sheet_view_to_widget (HobSheetView *self, double sheet_x, double sheet_y, double *x,
                               double *y);
void hob_sheet_view_to_sheet (HobSheetView *self, double x, double y, double *sheet_x,
                              double *sheet_y);
/* Which sheet is shown, and how each is framed. */
typedef struct _HobSheetPlace HobSheetPlace;
HobSheetPlace *hob_sheet_view_place (HobSheetView *self); /* (transfer full), g_free */
void hob_sheet_view_return (HobSheetView *self, const HobSheetPlace *place);
/* @wall s went by while the run went on: motion moves. */
void hob_sheet_view_tick (HobSheetView *self, double wall);

G_END_DECLS
