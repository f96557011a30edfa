/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/sheet: all that a chart draws, as plain arrays. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

typedef struct
{
  int n, n_traces;
  double from, to; /* s actually read */
  double *t;       /* n */
  double *value;   /* n_traces × n, trade units */
} HobReadings;

typedef struct
{
  double t;
  HobEventClass what;
  char *words; /* owned; NULL: a flag without words */
} HobChartEvent;

typedef struct
{
  const HobRange *range;  /* borrowed */
  HobReadings run, twin;
  gboolean has_twin;
  GArray *events;         /* HobChartEvent, in time order */
} HobChartData;

void hob_chart_paint (cairo_t *cr, const HobChartData *data, const HobChart *chart, double w,
                      double h, const HobLook *look);

G_END_DECLS
