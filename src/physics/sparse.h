/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The pattern of an elimination, shared by the circuit and the gas net.  Rows are nodes renumbered
 * in the order in which they are eliminated; row n is the reference, never eliminated.  Row k owns
 * the slots start[k] … start[k+1] − 1, one for each neighbour that is left when k goes, in rising
 * row order, so that the reference is last. For each pair of those neighbours (1st with 2nd, 1st
 * with 3rd, … ) `target` names the slot of the edge between them, pairs of row k beginning at
 * pair[k]. */
typedef struct
{
  int n;         /* nodes, without the reference */
  int n_slots;
  int *row;      /* owned: of node, n */
  int *start;    /* owned: n + 1 */
  int *later;    /* owned: row at the far end of each slot, n_slots */
  int *pair;     /* owned: n + 1 */
  int *target;   /* owned: pair[n] */
} HobPattern;

/* ends: 2·n_edges node numbers, −1 the reference.  Least neighbours first, ties by the smaller
 * number: the order is a function of the topology alone. */
void hob_pattern_init (HobPattern *pattern, int n, const int *ends, int n_edges);
void hob_pattern_clear (HobPattern *pattern);

/* Slot of the edge between nodes a and b (−1: reference); −1 if a is b.  *forward: a is eliminated
 * first. */
int hob_pattern_slot (const HobPattern *pattern, int a, int b, gboolean *forward);

G_END_DECLS
