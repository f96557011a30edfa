/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/sparse.h"

#include <stdlib.h>

/* The order of elimination is by rank, and within a rank that of least degree: the node with the
 * fewest neighbors goes first, of several the one with the smallest number. It depends on the
 * topology and the ranks alone, so that two ranges of the same wiring give the same bits.
 * Eliminating a node joins all its neighbors with each other; few neighbors mean few new edges (W.
 * F. Tinney and J. W. Walker, Proc. IEEE 55 (1967) 1801).
 *
 * Ranges have some hundred nodes, and the order is found once for each. A plain square of bytes
 * for the graph and a search of all nodes at each step are quick enough. */

/* Which nodes are neighbors while the order is found; the reference is the last one. */
typedef struct
{
  int n;
  guint8 *touches; /* (n + 1)² */
  int *degree;     /* neighbors that are left */
  guint8 *gone;    /* eliminated */
  const guint8 *rank; /* borrowed; NULL */
} Graph;

/* Are a and b neighbors? */
static inline guint8 *
cell (const Graph *graph, int a, int b)
{
  return graph->touches + (gsize) a * (gsize) (graph->n + 1) + b;
}

static void
join (Graph *graph, int a, int b)
{
  if (a == b || *cell (graph, a, b))
    return;

  *cell (graph, a, b) = *cell (graph, b, a) = 1;
  graph->degree[a]++;
  graph->degree[b]++;
}

/* Is a to be eliminated before b, which has the smaller number? */
static gboolean
goes_first (const Graph *graph, int a, int b)
{
  if (graph->rank != NULL && graph->rank[a] != graph->rank[b])
    return graph->rank[a] < graph->rank[b];
  return graph->degree[a] < graph->degree[b];
}

/* The node to be eliminated next. The reference, node n, never is. */
static int
least_joined (const Graph *graph)
{
  int best = -1;

  for (int k = 0; k < graph->n; k++)
    if (!graph->gone[k] && (best < 0 || goes_first (graph, k, best)))
      best = k;

  return best;
}

/* Eliminates node k: joins its neighbors with each other, and appends them to @far. */
static void
eliminate (Graph *graph, int k, GArray *far)
{
  guint first = far->len;

  for (int j = 0; j <= graph->n; j++)
    if (*cell (graph, k, j) && (j == graph->n || !graph->gone[j]))
      g_array_append_val (far, j);

  for (guint p = first; p < far->len; p++)
    {
      graph->degree[g_array_index (far, int, p)]--;
      for (guint q = p + 1; q < far->len; q++)
        join (graph, g_array_index (far, int, p), g_array_index (far, int, q));
    }
  graph->gone[k] = 1;
}

static int
compare_rows (const void *a, const void *b)
{
  return *(const int *) a - *(const int *) b;
}

/* The slot of the edge from @row to the row @later. It exists: either the edge was there from the
 * start, or the elimination of an earlier row has made it. */
static int
find_slot (const HobPattern *pattern, int row, int later)
{
  for (int s = pattern->start[row]; s < pattern->start[row + 1]; s++)
    if (pattern->later[s] == later)
      return s;

  g_assert_not_reached ();
}

/* For each pair of neighbors of each row, the slot of the edge between them: a solve then needs
 * no search. */
static void
find_targets (HobPattern *pattern)
{
  /* Room for one: an empty one would be NULL, and readers add to it. */
  g_autoptr (GArray) target = g_array_sized_new (FALSE, FALSE, sizeof (int), 1);

  pattern->pair = g_new (int, pattern->n + 1);
  for (int k = 0; k < pattern->n; k++)
    {
      pattern->pair[k] = (int) target->len;
      for (int p = pattern->start[k]; p < pattern->start[k + 1]; p++)
        for (int q = p + 1; q < pattern->start[k + 1]; q++)
          {
            int slot = find_slot (pattern, pattern->later[p], pattern->later[q]);
            g_array_append_val (target, slot);
          }
    }
  pattern->pair[pattern->n] = (int) target->len;
  pattern->target = (int *) g_array_free (g_steal_pointer (&target), FALSE);
}

void
hob_pattern_init (HobPattern *pattern, int n, const int *ends, int n_edges, const guint8 *rank)
{
  Graph graph = { .n = n, .rank = rank };
  g_autofree guint8 *touches = g_new0 (guint8, (gsize) (n + 1) * (gsize) (n + 1));
  g_autofree guint8 *gone = g_new0 (guint8, n + 1);
  g_autofree int *degree = g_new0 (int, n + 1);
  g_autoptr (GArray) far = g_array_new (FALSE, FALSE, sizeof (int));

  g_return_if_fail (n >= 0);

  graph.touches = touches;
  graph.gone = gone;
  graph.degree = degree;
  for (int e = 0; e < n_edges; e++)
    {
      g_assert (ends[2 * e] < n && ends[2 * e + 1] < n);
      join (&graph, ends[2 * e] < 0 ? n : ends[2 * e], ends[2 * e + 1] < 0 ? n : ends[2 * e + 1]);
    }

  /* Eliminate, noting the neighbors of each row as nodes … */
  pattern->n = n;
  pattern->row = g_new (int, n + 1);
  pattern->start = g_new (int, n + 1);
  for (int row = 0; row < n; row++)
    {
      int k = least_joined (&graph);

      pattern->row[k] = row;
      pattern->start[row] = (int) far->len;
      eliminate (&graph, k, far);
    }
  pattern->start[n] = pattern->n_slots = (int) far->len;
  pattern->row[n] = n;

  /* … then turn these nodes into rows, and sort them. */
  pattern->later = (int *) g_array_free (g_steal_pointer (&far), FALSE);
  for (int s = 0; s < pattern->n_slots; s++)
    pattern->later[s] = pattern->row[pattern->later[s]];
  for (int row = 0; row < n; row++)
    qsort (pattern->later + pattern->start[row],
           (gsize) (pattern->start[row + 1] - pattern->start[row]), sizeof (int), compare_rows);
  find_targets (pattern);
}

void
hob_pattern_clear (HobPattern *pattern)
{
  g_clear_pointer (&pattern->row, g_free);
  g_clear_pointer (&pattern->start, g_free);
  g_clear_pointer (&pattern->later, g_free);
  g_clear_pointer (&pattern->pair, g_free);
  g_clear_pointer (&pattern->target, g_free);
}

int
hob_pattern_slot (const HobPattern *pattern, int a, int b, gboolean *forward)
{
  int row_a = pattern->row[a < 0 ? pattern->n : a];
  int row_b = pattern->row[b < 0 ? pattern->n : b];

  *forward = row_a < row_b;
  if (row_a == row_b)
    return -1;

  return find_slot (pattern, MIN (row_a, row_b), MAX (row_a, row_b));
}
