/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/sheet: all that a chart draws, as plain arrays. */

#include "sheet/chart.h"
#include "sheet/type.h"

G_BEGIN_DECLS

typedef struct
{
  int n, n_traces;
  double *t;     /* n, rising */
  double *value; /* n × n_traces, trade units */
} HobReadings;

/* Whose trace is behind a lane's own. */
typedef enum
{
  HOB_BEHIND_NOTHING,
  HOB_BEHIND_SHOULD_BE, /* what should be there now */
  HOB_BEHIND_TWIN,      /* a normal range that was used the same way */
} HobBehind;

typedef struct
{
  double t;
  HobEventClass what;
  char *words; /* owned; NULL: a flag without words */
  int times;   /* that it happens in what is shown, folded into this one */
  int group;   /* what happens again has the same one */
} HobChartEvent;

/* The values at the hand, SI. */
typedef struct
{
  double value, normal; /* normal NaN: as it should be */
} HobAtHand;

typedef struct
{
  const HobRange *range; /* borrowed */
  HobReadings run, should_be, twin;
  GArray *events;        /* HobChartEvent, in time order */
  GArray *repeats;       /* HobChartEvent without words: the rest of what was folded */
} HobChartData;

HobChartData *hob_chart_data_new (const HobChart *chart, double px); /* (transfer full) */
void hob_chart_data_free (HobChartData *data);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobChartData, hob_chart_data_free)
HobBehind hob_chart_behind (const HobChart *chart, int trace);
/* At the cursor, one a trace. (transfer full) */
HobAtHand *hob_chart_at_hand (const HobChart *chart);

/* Moves both ends out to a round scale; the step between its three marks. */
double hob_chart_fit (double *low, double *high);
/* Both with the pen alone. */
void hob_chart_paint (HobPen *pen, HobType *type, const HobChartData *data, const HobChart *chart,
                      double w, double h, const HobLook *look);
void hob_chart_paint_hand (HobPen *pen, HobType *type, const HobChart *chart, double w,
                           double h, const HobLook *look);

/* What a lane spans at least, and a quantity moves at least to be shown unasked: SI. */
double hob_chart_least_span (HobDimension dim);
/* Does what should be there follow the run in parts of this kind, as an oven does in heat?  Then a
 * normal range that was used the same way is what is compared. */
gboolean hob_chart_is_followed (const HobKind *kind);

/* ---- Flags, chart-flags.c ---- */

typedef struct
{
  HobPen *pen;
  HobType *type;
  const HobLook *look;
  const HobChart *chart;
  double x, y, w, h; /* px of the plot */
  int lanes;         /* that have room */
} HobPlot;

#define HOB_FLAG_ROWS 3     /* at most */
#define HOB_FLAG_ROW 14.0   /* px for each row of them, at text scale 1 */
#define HOB_FLAG_STRIP 10.0 /* px below them: marks of what has no words */

double hob_plot_x (const HobPlot *plot, double t);
void hob_flags_paint (const HobPlot *plot, const HobChartData *data, int rows);

G_END_DECLS
