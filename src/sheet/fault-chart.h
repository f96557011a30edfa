/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A chart to print: which faults show which symptoms, the faults grouped by part. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

typedef struct
{
  const char *part;      /* label, borrowed; rows of one part follow each other */
  const char *fault;     /* in words, translated, borrowed */
  const gboolean *shows; /* of each column, borrowed */
  const char *note;      /* in place of an empty row, translated; NULL: none */
} HobFaultChartRow;

typedef struct
{
  const char *symptom; /* in words, translated, borrowed */
  HobHazards hazards;  /* what whoever notices it must know */
} HobFaultChartColumn;

typedef struct
{
  const HobFaultChartRow *rows; /* borrowed */
  int n_rows;
  const HobFaultChartColumn *columns; /* borrowed */
  int n_columns;
} HobFaultChart;

/* Writes it in its own size with @block below it. */
gboolean hob_fault_chart_write (const char *file, const HobFaultChart *chart,
                                const HobTitleBlock *block, GError **error);

G_END_DECLS
