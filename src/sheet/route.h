/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Routes: what a wire, a pipe or a lead runs through on a sheet. */

#include "sheet/cell.h"
#include "sheet/sheet.h"

G_BEGIN_DECLS

typedef struct
{
  HobPoint *p; /* owned; corners, both ends included */
  int n;       /* 0: not on this sheet */
  guint64 square; /* corner k < 64 is square: another line leaves here */
} HobRoute;

/* A wire goes together with another one from one of its ends on. */
typedef struct
{
  int wire, other;
  gboolean last; /* from its `to` end */
  double length; /* px */
} HobShared;

typedef struct
{
  HobRoute *wires, *pipes, *leads; /* as many as the range has */
  int n_wires, n_pipes, n_leads;
  HobPoint *dots; /* where wires of one terminal part */
  int n_dots;
  HobShared *shared;
  int n_shared;
} HobRoutes;

#define HOB_BEND_RADIUS 8.0
#define HOB_WIRE_WIDTH 5.0
#define HOB_WIRE_CORE 3.0
#define HOB_KNOCK_OUT 10.0
#define HOB_LEAD_WIDTH 7.0
#define HOB_TUBE_WIDTH 14.0

HobRoutes *hob_routes_new (const HobRange *range, HobSheet sheet); /* (transfer full) */
void hob_routes_free (HobRoutes *routes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobRoutes, hob_routes_free)
/* The sheet's bounds (hob_sheet_bounds), which hold all of these. */
void hob_routes_bounds (const HobRoutes *routes, const HobRange *range, HobSheet sheet,
                        double bounds[4]);
/* The place of a terminal (wiring) or port (gas) on the sheet; FALSE: its part is not there. */
gboolean hob_anchor (const HobRange *range, HobSheet sheet, HobEnd end, gboolean port,
                     HobPoint *at);
/* The path with rounded bends, @cut px short of either end. */
void hob_route_path (HobPen *pen, const HobRoute *route, double cut);
/* px from the route to x, y. */
double hob_route_distance (const HobRoute *route, double x, double y);
/* Where route @below is crossed by @over: calls @each with the place. */
typedef void (*HobCrossing) (HobPoint at, gboolean over_is_level, gpointer user);
void hob_route_each_crossing (const HobRoute *over, const HobRoute *below, HobCrossing each,
                              gpointer user);
/* Does a line of the sheet come within @near px of the box? */
gboolean hob_routes_near (const HobRoutes *routes, const HobBox *box, double near);
/* Places where two different lines of the sheet cross, shared ends not counted. */
int hob_routes_crossings (const HobRoutes *routes);

G_END_DECLS
