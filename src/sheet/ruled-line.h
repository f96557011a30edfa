/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A line of entries as a tech sheet rules it: short ticks, words under it, the time above it with a
 * pencil mark where something was done.  What is ringed has more room, what is open is broken.  Two
 * short strokes across the rule say that something is left out there. */

#include "sheet/type.h"

G_BEGIN_DECLS

typedef struct
{
  char *words;    /* owned */
  char *figures;  /* owned; under the words; NULL: none */
  char *time;     /* owned; NULL: none */
  const char *id; /* of the part, borrowed: no two rings are alike */
  gboolean done;  /* a pencil mark goes before the time */
  gboolean open;
  gboolean ringed;
} HobRuledEntry;

GArray *hob_ruled_entries_new (void); /* HobRuledEntry (transfer full) */

#define HOB_RULED_ANCHORS 3

/* In as many rows as it takes; or as a strip of one row and of a constant height, which shows as
 * much of it as there is room for. */
typedef struct
{
  const GArray *entries; /* HobRuledEntry; borrowed */
  const HobLook *look;   /* borrowed; at zoom 1 */
  double w;              /* px */
  gboolean strip;
  int anchors[HOB_RULED_ANCHORS]; /* what a strip can't do without, in that order; −1: none */
  const char *empty;     /* said where there are no entries; borrowed */
} HobRuledLine;

double hob_ruled_line_height (const HobRuledLine *line); /* px */
double hob_ruled_strip_height (const HobLook *look);     /* px */
/* From 0, 0. */
void hob_ruled_line_draw (HobPen *pen, HobType *type, const HobRuledLine *line);
/* The entry at x, y of that picture; −1: none. */
int hob_ruled_line_hit (const HobRuledLine *line, double x, double y);
/* The middle of an entry's words; FALSE: it is not in the strip. */
gboolean hob_ruled_line_find (const HobRuledLine *line, int entry, double *x, double *y);

G_END_DECLS
