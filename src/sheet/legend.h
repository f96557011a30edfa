/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The legend: what each sign means, with a sample of it. */

#include "sheet/sheet.h"

G_BEGIN_DECLS

typedef enum {
  HOB_SAMPLE_NONE,
  HOB_SAMPLE_CURRENT,
  HOB_SAMPLE_LIVE,
  HOB_SAMPLE_LEAD,
  HOB_SAMPLE_DOT,
  HOB_SAMPLE_GAS_RESTS,
  HOB_SAMPLE_GAS_FLOWS,
  HOB_SAMPLE_ESCAPING,
  HOB_SAMPLE_GATHERED,
  HOB_SAMPLE_SPARK,
  HOB_SAMPLE_GLOW,
  HOB_SAMPLE_FLAME,
  HOB_SAMPLE_ARM,
  HOB_SAMPLE_TRACE,
  HOB_SAMPLE_NORMAL,
  HOB_SAMPLE_RING,
  HOB_SAMPLE_BRACKET,
  HOB_SAMPLE_TAG,
} HobSample;

typedef struct
{
  HobSample sample;
  const char *words; /* N_() */
} HobLegend;

#define HOB_CHART_PICTURE HOB_N_SHEETS /* where a picture need not be a sheet */
#define HOB_SEQUENCE_PICTURE (HOB_N_SHEETS + 1)
#define HOB_WHY_PICTURE (HOB_N_SHEETS + 2)
#define HOB_TABLE_PICTURE (HOB_N_SHEETS + 3)

/* What a picture's signs mean: those of its own, and those that every one has. Borrowed. */
const HobLegend *hob_legend_own (int picture, int *n);
const HobLegend *hob_legend_common (int *n);
/* "Wiring sheet", translated. */
const char *hob_picture_title (int picture);
/* From x on, @w px wide, about the line y; no more than 16 px high. */
void hob_legend_draw (HobPen *pen, HobSample sample, double x, double y, double w);

G_END_DECLS
