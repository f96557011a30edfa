/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "reason/why.h"
#include "sheet/type.h"

G_BEGIN_DECLS

/* Why a symptom was noticed, drawn as the sequence of operation is: from the faulty part, which is
 * ringed, to the symptom.  Where several faults are enough by themselves there is a line for each,
 * one below the other.  Entries are counted through all of them. */
typedef struct
{
  const GPtrArray *chains;   /* HobWhy; borrowed */
  const HobRange *range;     /* borrowed */
  const HobSymptom *symptom; /* borrowed */
  const HobLook *look;       /* borrowed; at zoom 1 */
  double w;                  /* px */
} HobWhyLine;

double hob_why_line_height (const HobWhyLine *line); /* px */
/* From 0, 0. */
void hob_why_line_draw (HobPen *pen, HobType *type, const HobWhyLine *line);

int hob_why_line_size (const HobWhyLine *line); /* entries */
/* Where entry @k is to be looked at: its part (−1: the range as a whole) and its time, s. */
void hob_why_line_get (const HobWhyLine *line, int k, int *part, double *t);
char *hob_why_line_words (const HobWhyLine *line, int k); /* (transfer full) */
/* The entry at x, y of that picture; −1: none. */
int hob_why_line_hit (const HobWhyLine *line, double x, double y);
/* The middle of an entry's words. */
void hob_why_line_find (const HobWhyLine *line, int k, double *x, double *y);

G_END_DECLS
