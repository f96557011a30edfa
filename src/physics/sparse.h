/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The pattern of an elimination, for the circuit and the gas net.
 *
 * Rows are the nodes, numbered in the order of their elimination. Row n is the reference, which
 * is never eliminated. Row k has the slots start[k] to start[k + 1] − 1: one for each neighbor
 * that is left when k is eliminated, in rising order of rows, so that the reference comes last.
 * Eliminating k adds to the edge between each pair of these neighbors (1st and 2nd, 1st and 3rd,
 * …). `target` has the slots of those edges; the pairs of row k begin at pair[k]. */
typedef struct
{
  int n;       /* nodes, not counting the reference */
  int n_slots;
  int *row;    /* owned: n + 1, the row of each node; the last one is the reference's */
  int *start;  /* owned: n + 1 */
  int *later;  /* owned: n_slots, the row at the far end of each slot */
  int *pair;   /* owned: n + 1 */
  int *target; /* owned: pair[n] */
} HobPattern;

/* @ends has the two nodes of each edge, −1 for the reference. @rank: of each node; those of a
 * higher rank are eliminated later. NULL: all are equal. */
void hob_pattern_init (HobPattern *pattern, int n, const int *ends, int n_edges,
                       const guint8 *rank);
void hob_pattern_clear (HobPattern *pattern);

/* The slot of the edge between nodes a and b; −1 if they are the same node. *forward: a is
 * eliminated before b. */
int hob_pattern_slot (const HobPattern *pattern, int a, int b, gboolean *forward);

G_END_DECLS
