/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The strip chart: a lane for each quantity, over time. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

typedef struct
{
  int part, quantity;
} HobTrace;

typedef struct _HobChartMemory HobChartMemory;

typedef struct
{
  /*< borrowed >*/
  HobRun *run;
  HobRun *should_be;          /* run/step-twin.h; NULL or the run itself: nothing is wrong */
  HobRun *twin;               /* the long one; NULL: no normal range is drawn behind */
  const HobTrace *traces;
  HobChartMemory *memory;     /* readings kept from one drawing to the next; NULL: none */
  const HobSymptomBook *book; /* the words of symptoms; NULL: their flags stand without */

  int n_traces;
  double from, to;  /* s */
  double cursor;    /* s, where the values are read; NaN: nowhere */
  double until;     /* s: nothing later is shown, the run may be ahead of what is looked at; 0: all
                       there is */
  gboolean covered; /* without what gives a fault away */
} HobChart;

/* For the runs of one range, drawn again and again as they go on. */
HobChartMemory *hob_chart_memory_new (void);
void hob_chart_memory_free (HobChartMemory *memory);
/* The record after @t has changed; < 0: all of it. */
void hob_chart_memory_cut (HobChartMemory *memory, double t);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobChartMemory, hob_chart_memory_free)

/* Draws into w × h px: the traces of the run, solid, those of a normal range behind them, dashed,
 * flags where something happened, and the hand with its values.  Traces that have no room are left
 * out, the last ones first. */
void hob_chart_draw (cairo_t *cr, const HobChart *chart, double w, double h, const HobLook *look);
/* The hand alone, over a chart that was drawn with the cursor nowhere. */
void hob_chart_draw_hand (cairo_t *cr, const HobChart *chart, double w, double h,
                          const HobLook *look);
/* Where the time axis is within w × h px: x, y, w, h; `from` is at x, `to` at x + w. */
void hob_chart_plot_box (double w, double h, const HobLook *look, double box[4]);
/* px that so many need, with rows of flags for what happened to them. */
double hob_chart_height (int traces, const HobLook *look);
/* px of one low lane without words for flags: the least that can be read. */
double hob_chart_least_height (const HobLook *look);
/* Tick spacing 1, 2, 5 × 10^n (time: 1, 2, 5, 10, 15, 30 s, min …) for a span over @px at no less
 * than @least px each. */
double hob_chart_tick (double span, double px, double least);
double hob_chart_time_tick (double span, double px, double least);

/* ---- Which traces ---- */

#define HOB_CHART_LANES 5 /* that a chart chooses at most */

/* What has moved and what has differed from a normal range so far, seen moment by moment. */
typedef struct _HobLanes HobLanes;

HobLanes *hob_lanes_new (const HobPlan *plan); /* (transfer full) */
void hob_lanes_free (HobLanes *lanes);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobLanes, hob_lanes_free)
void hob_lanes_forget (HobLanes *lanes);
/* @should_be and @twin as in HobChart.  A look at the time of the last one stands in its place. */
void hob_lanes_look (HobLanes *lanes, HobRun *run, HobRun *should_be, HobRun *twin, double t);
/* As many moments of a record as tell enough, and each at which something was done or changed. */
void hob_lanes_look_back (HobLanes *lanes, HobRun *run, HobRun *should_be, HobRun *twin,
                          double from, double to);
/* HobTrace, those first that tell most: what differs, the same of neighbors that do not, and what
 * the acts up to @t moved. (transfer full) */
GArray *hob_lanes_choose (const HobLanes *lanes, const HobCase *acts, double t, int most);

/* ---- As a file ---- */

/* Rows at from, from + every … to, as `hob run --trace` has them: SI, C locale. */
void hob_chart_append_csv (GString *csv, const HobChart *chart, double every);

G_END_DECLS
