/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/circuit.h"

#include "physics/sparse.h"
#include "physics/wide.h"

#include <math.h>
#include <string.h>

/* Star–mesh elimination with electromotive forces.
 *
 * Signs: the current of a branch is positive from its end a to its end b. An emf is in series
 * with the branch and drives current from a to b:  i = y·(v_a − v_b + emf).
 *
 * The nodes are eliminated one by one, in the order of the rows of the pattern. An edge joins two
 * rows and has an admittance y and an emf current c = y·emf; the current from its earlier row to
 * its later row is y·(v_early − v_late) + c. Kirchhoff's current law at row k, with edges p to
 * its later neighbors, J_k amperes injected from outside and S = Σ y_p, says
 *
 *   v_k = (J_k − Σ c_p)/S + Σ g_p·v_p,   g_p = y_p/S
 *
 * Inserted into the currents of the neighbors, this replaces the star of k by a mesh among them:
 *
 *   y_pq += g_p·y_q,   c_pq (from p to q) += g_p·c_q − g_q·c_p,   J_p += g_p·J_k
 *
 * Every admittance is a sum of admittances. No diagonal is the small difference of large numbers,
 * as it would be with Gauss on the nodal matrix, so that a wire that is connected to nothing but
 * stray picofarads keeps its digits. For the same reason an emf stays with its edge and is never
 * split into two opposite injections.
 *
 * A workspace keeps what a solve found. The next solve eliminates only the rows that a changed
 * branch reaches. It takes every sum again in the same order, so that the bits are those of a
 * first solve. */

/* Items sorted by keys: key k has item[first[k]] to item[first[k + 1] − 1]. */
typedef struct
{
  int *first; /* owned */
  int *item;  /* owned */
} Lists;

/* All that depends on the topology alone. A slot is an edge of the eliminated network; several
 * branches between the same two nodes share one. A pair is one of the additions y_pq and c_pq. */
struct _HobCircuit
{
  HobPattern pattern; /* owned */
  int n_branches, n_pairs;
  int *slot;          /* owned: of each branch, −1 where both ends are one node */
  double *sign;       /* owned: +1 if branch and slot point the same way */
  int *end_a, *end_b; /* owned: nodes of the branch's ends, the reference being the one after all */
  int *node;          /* owned: of each row, the reference's too */
  gsize *far;         /* owned: of each slot, where the volts of its later row are */
  int *owner;         /* owned: row of each slot */
  int *inner;         /* owned: of each row, the end of its slots, but for one to the reference */
  Lists branches;     /* of each slot */
  Lists pairs;        /* that add to each slot, in the order of their rows */
};

typedef HobComplex Cx;

static inline Cx
add (Cx a, Cx b)
{
  return (Cx) { a.re + b.re, a.im + b.im };
}

static inline Cx
sub (Cx a, Cx b)
{
  return (Cx) { a.re - b.re, a.im - b.im };
}

static inline Cx
mul (Cx a, Cx b)
{
  return (Cx) { a.re * b.re - a.im * b.im, a.re * b.im + a.im * b.re };
}

/* Real and imaginary part side by side, for processors that work on two numbers at once. */
typedef double Two __attribute__ ((vector_size (16)));

static inline Two
two (Cx z)
{
  return (Two) { z.re, z.im };
}

static inline Cx
one (Two z)
{
  return (Cx) { z[0], z[1] };
}

/* A factor as the product takes it: (re, re) and (−im, im). */
typedef struct
{
  Two re, im;
} Factor;

static inline Factor
factor (Cx z)
{
  return (Factor) { { z.re, z.re }, { -z.im, z.im } };
}

/* The bits of mul(): a − b is a + (−b). */
static inline Two
times (Factor f, Two z)
{
  return f.re * z + f.im * (Two) { z[1], z[0] };
}

/* Volts are found by where they are among plain numbers: what is left to compute is the sum. */
#define PLAIN (sizeof (Two) / sizeof (double))

static inline Two *
volts_at (Two *v, gsize where)
{
  return (Two *) ((double *) v + where);
}

/* 1/z; 0 for 0, so that a node without any connection reads 0 V. */
static inline Cx
invert (Cx z)
{
  double d = z.re * z.re + z.im * z.im;
  double r = d > 0 ? 1 / d : 0;

  return (Cx) { z.re * r, -z.im * r };
}

double
hob_complex_abs (HobComplex z)
{
  return hypot (z.re, z.im);
}

/* @key has the key of each item, −1 if it has none. */
static Lists
lists_new (int n_keys, const int *key, int n_items)
{
  Lists lists = { g_new0 (int, n_keys + 2), g_new (int, n_items + 1) };

  for (int k = 0; k < n_items; k++)
    lists.first[key[k] + 1] += key[k] >= 0;
  for (int k = 0; k < n_keys; k++)
    lists.first[k + 1] += lists.first[k];
  g_autofree int *next = g_memdup2 (lists.first, sizeof (int) * ((gsize) n_keys + 1));
  for (int k = 0; k < n_items; k++)
    if (key[k] >= 0)
      lists.item[next[key[k]]++] = k;

  return lists;
}

/* Two lists make an elimination repeatable in part: the branches of each slot, and the pairs that
 * add to it. A sum that has to be taken again is taken over both lists, from the start. */
HobCircuit *
hob_circuit_new (int n_nodes, const HobBranch *branches, int n_branches, const guint8 *rank)
{
  HobCircuit *circuit = g_new0 (HobCircuit, 1);
  g_autofree int *ends = g_new (int, 2 * n_branches + 1);

  for (int b = 0; b < n_branches; b++)
    {
      ends[2 * b] = branches[b].a;
      ends[2 * b + 1] = branches[b].b;
    }
  hob_pattern_init (&circuit->pattern, n_nodes, ends, n_branches, rank);

  circuit->n_branches = n_branches;
  circuit->slot = g_new (int, n_branches + 1);
  circuit->sign = g_new (double, n_branches + 1);
  circuit->end_a = g_new (int, n_branches + 1);
  circuit->end_b = g_new (int, n_branches + 1);
  for (int b = 0; b < n_branches; b++)
    {
      gboolean forward;

      circuit->slot[b]
          = hob_pattern_slot (&circuit->pattern, branches[b].a, branches[b].b, &forward);
      circuit->sign[b] = forward ? 1 : -1;
      circuit->end_a[b] = branches[b].a < 0 ? n_nodes : branches[b].a;
      circuit->end_b[b] = branches[b].b < 0 ? n_nodes : branches[b].b;
    }

  const HobPattern *pattern = &circuit->pattern;
  circuit->n_pairs = pattern->pair[n_nodes];
  circuit->owner = g_new (int, pattern->n_slots + 1);
  circuit->inner = g_new0 (int, n_nodes + 1);
  circuit->node = g_new (int, n_nodes + 1);
  circuit->far = g_new (gsize, pattern->n_slots + 1);
  for (int k = 0; k <= n_nodes; k++)
    circuit->node[pattern->row[k]] = k;
  for (int k = 0; k < n_nodes; k++)
    for (int s = circuit->inner[k] = pattern->start[k]; s < pattern->start[k + 1]; s++)
      {
        circuit->owner[s] = k;
        circuit->inner[k] += pattern->later[s] < n_nodes;
        circuit->far[s] = PLAIN * (gsize) circuit->node[pattern->later[s]];
      }
  circuit->branches = lists_new (pattern->n_slots, circuit->slot, n_branches);
  circuit->pairs = lists_new (pattern->n_slots, pattern->target, circuit->n_pairs);

  return circuit;
}

void
hob_circuit_free (HobCircuit *circuit)
{
  if (circuit == NULL)
    return;

  hob_pattern_clear (&circuit->pattern);
  g_free (circuit->slot);
  g_free (circuit->sign);
  g_free (circuit->end_a);
  g_free (circuit->end_b);
  g_free (circuit->owner);
  g_free (circuit->inner);
  g_free (circuit->node);
  g_free (circuit->far);
  g_free (circuit->branches.first);
  g_free (circuit->branches.item);
  g_free (circuit->pairs.first);
  g_free (circuit->pairs.item);
  g_free (circuit);
}

/* Admittance in S and emf current in A: of a slot all that it collected, of a pair what it adds. */
typedef struct
{
  Two y, c;
} Edge;

/* What has to be computed again in a slot or a row. */
enum { ADMITTANCES = 1, SOURCES = 2, SHARES = 4 };

/* The workspace. The reference follows the rows. */
typedef struct
{
  gboolean begun;     /* FALSE before the first solve */
  gboolean answered;  /* `at` belongs to `y` and `emf` */
  Cx *y, *emf;        /* per branch: what was eliminated */
  Factor *drive;      /* the same y */
  Edge *edge;         /* per slot */
  Factor *g;          /* per slot: the edge's share of its row */
  Edge *part;         /* per pair */
  Factor *per;        /* per row: 1/S */
  Two *own;           /* per row: −(Σ c)/S: volts without neighbors */
  Two *at;            /* per node: volts, the last answer without injections */
  Two *over, *rise;   /* scratch: per node currents from outside, per row what they add to the
                         volts */
  guint8 *slot, *row; /* what has to be computed again … */
  guint64 *due;       /* … and a bit for each such row */
  guint8 *quiet;      /* per row: none of its pairs adds an emf current */
  int *way;           /* scratch: the rows that a probe's current takes */
} Work;

/* Divides a workspace; NULL: there is none yet. Returns its size in doubles. It begins with what
 * points to its pieces; each of them begins at a pair of doubles. */
static gsize
lay_out (const HobCircuit *circuit, double *memory, Work *work)
{
  gsize branches = (gsize) circuit->n_branches, slots = (gsize) circuit->pattern.n_slots;
  gsize pairs = (gsize) circuit->n_pairs, rows = (gsize) circuit->pattern.n + 1;
  gsize at = (sizeof (Work) + 15) / 16 * 2;

#define TAKE(field, type, count)                                                               \
  (work->field = memory != NULL ? (type *) (gpointer) (memory + at) : NULL,                    \
   at += ((count) * sizeof (type) + 15) / 16 * 2)
  TAKE (y, Cx, branches);
  TAKE (emf, Cx, branches);
  TAKE (drive, Factor, branches);
  TAKE (edge, Edge, slots);
  TAKE (g, Factor, slots);
  TAKE (part, Edge, pairs);
  TAKE (per, Factor, rows);
  TAKE (own, Two, rows);
  TAKE (at, Two, rows);
  TAKE (over, Two, rows);
  TAKE (rise, Two, rows);
  TAKE (slot, guint8, slots);
  TAKE (row, guint8, rows);
  TAKE (due, guint64, rows / 64 + 1);
  TAKE (quiet, guint8, rows);
  TAKE (way, int, rows);
#undef TAKE
  return at;
}

gsize
hob_circuit_work_size (const HobCircuit *circuit)
{
  Work work;

  return lay_out (circuit, NULL, &work);
}

static inline gboolean
is_zero (Cx z)
{
  return z.re == 0 && z.im == 0;
}

/* −0 and 0 differ here, and a NaN equals itself: what counts is that the same bits come out. */
static inline gboolean
same_bits (Cx a, Cx b)
{
  guint64 x[2], y[2];

  memcpy (x, &a, sizeof x);
  memcpy (y, &b, sizeof y);
  return x[0] == y[0] && x[1] == y[1];
}

static inline void
mark_row (Work *work, int row, guint8 what)
{
  work->row[row] |= what;
  work->due[(guint) row / 64] |= (guint64) 1 << (guint) row % 64;
}

/* A slot that changes changes its row: that is where the slot is read. */
static inline void
mark (const HobCircuit *circuit, Work *work, int slot, guint8 what)
{
  work->slot[slot] |= what;
  mark_row (work, circuit->owner[slot], what);
}

/* The first row from @k on that is due; one beyond the last row if none is. */
static inline int
next_due (const Work *work, int k, int n)
{
  guint64 bits = work->due[k / 64] >> k % 64;

  if (bits != 0)
    return k + __builtin_ctzll (bits);
  for (int word = k / 64 + 1; word <= n / 64; word++)
    if (work->due[word] != 0)
      return word * 64 + __builtin_ctzll (work->due[word]);
  return n;
}

/* Marks those of some branches whose admittances have changed since the last solve. */
static void
note_admittances (const HobCircuit *circuit, const Cx *y, int first, int end, Work *work)
{
  for (int b = first; b < end; b++)
    if (!same_bits (work->y[b], y[b]))
      {
        work->y[b] = y[b];
        work->answered = FALSE;
        work->drive[b] = factor (y[b]);
        if (circuit->slot[b] >= 0)
          mark (circuit, work, circuit->slot[b],
                is_zero (work->emf[b]) ? ADMITTANCES : ADMITTANCES | SOURCES);
      }
}

static void
note_sources (const HobCircuit *circuit, const Cx *emf, int first, int end, Work *work)
{
  for (int b = first; b < end; b++)
    if (!same_bits (work->emf[b], emf[b]))
      {
        work->emf[b] = emf[b];
        work->answered = FALSE;
        if (circuit->slot[b] >= 0)
          mark (circuit, work, circuit->slot[b], SOURCES);
      }
}

#define LOT 8 /* branches that are compared at once */
typedef guint64 Bits __attribute__ ((vector_size (16), aligned (8), may_alias));

static inline gboolean
lots_differ (const Cx *a, const Cx *b)
{
  const Bits *x = (const Bits *) (gconstpointer) a, *y = (const Bits *) (gconstpointer) b;
  Bits odd = { 0, 0 };

  for (int k = 0; k < LOT; k++)
    odd |= x[k] ^ y[k];
  return (odd[0] | odd[1]) != 0;
}

/* Marks what has changed since the last solve, among the first @n branches. Without @emf the
 * sources stay. Most branches never change: they are compared in lots, and one by one only where a
 * lot differs, or is not whole; sources, which change with the house alone, all at once. */
static void
note_changes (const HobCircuit *circuit, const Cx *y, const Cx *emf, int n, Work *work)
{
  for (int at = 0; at < n; at += LOT)
    if (at + LOT > n || lots_differ (work->y + at, y + at))
      note_admittances (circuit, y, at, MIN (at + LOT, n), work);
  if (emf != NULL && memcmp (work->emf, emf, (gsize) n * sizeof (Cx)) != 0)
    note_sources (circuit, emf, 0, n, work);
}

static inline Work *
work_in (double *memory)
{
  return (Work *) (gpointer) memory;
}

/* The first solve: everything is marked. */
static void
begin (const HobCircuit *circuit, const Cx *y, const Cx *emf, Work *work)
{
  const guint8 all = ADMITTANCES | SOURCES;

  lay_out (circuit, (double *) (gpointer) work, work);
  memcpy (work->y, y, (gsize) circuit->n_branches * sizeof (Cx));
  for (int b = 0; b < circuit->n_branches; b++)
    work->drive[b] = factor (y[b]);
  memset (work->emf, 0, (gsize) circuit->n_branches * sizeof (Cx));
  if (emf != NULL)
    memcpy (work->emf, emf, (gsize) circuit->n_branches * sizeof (Cx));
  memset (work->part, 0, (gsize) circuit->n_pairs * sizeof (Edge));
  memset (work->slot, all, (gsize) circuit->pattern.n_slots);
  memset (work->row, all, (gsize) circuit->pattern.n);
  memset (work->due, 0, ((gsize) circuit->pattern.n / 64 + 1) * sizeof (guint64));
  memset (work->quiet, TRUE, (gsize) circuit->pattern.n);
  for (int k = 0; k < circuit->pattern.n; k++)
    work->due[k / 64] |= (guint64) 1 << k % 64;
  work->begun = TRUE;
  work->answered = FALSE;
}

/* y of a slot: its branches, then what earlier rows add, always in this order. */
static inline Two
admittance_of (const HobCircuit *circuit, const Work *work, int slot)
{
  const Lists *branches = &circuit->branches, *pairs = &circuit->pairs;
  Two y = { 0, 0 };

  for (int k = branches->first[slot]; k < branches->first[slot + 1]; k++)
    y += two (work->y[branches->item[k]]);
  for (int k = pairs->first[slot]; k < pairs->first[slot + 1]; k++)
    y += work->part[pairs->item[k]].y;
  return y;
}

/* c of a slot, from its earlier to its later row. */
static inline Two
source_of (const HobCircuit *circuit, const Work *work, int slot)
{
  const Lists *branches = &circuit->branches, *pairs = &circuit->pairs;
  Two c = { 0, 0 };

  for (int k = branches->first[slot]; k < branches->first[slot + 1]; k++)
    {
      int b = branches->item[k];

      if (!is_zero (work->emf[b]))
        c += circuit->sign[b] * two (mul (work->y[b], work->emf[b]));
    }
  for (int k = pairs->first[slot]; k < pairs->first[slot + 1]; k++)
    c += work->part[pairs->item[k]].c;
  return c;
}

/* Replaces the star of row @k by the mesh among its neighbors: admittances. */
static inline void
mesh_admittances (const HobCircuit *circuit, int k, Work *work)
{
  const HobPattern *pattern = &circuit->pattern;
  int start = pattern->start[k], end = pattern->start[k + 1], pair = pattern->pair[k];
  Two s = { 0, 0 };

  for (int p = start; p < end; p++)
    {
      if (work->slot[p] & ADMITTANCES)
        work->edge[p].y = admittance_of (circuit, work, p);
      work->slot[p] &= (guint8) ~ADMITTANCES;
      s += work->edge[p].y;
    }

  Factor r = work->per[k] = factor (invert (one (s)));
  for (int p = start; p < end; p++)
    {
      Factor g = work->g[p] = factor (one (times (r, work->edge[p].y)));

      if (p + 1 < end) /* the row of p has the edges from p to all that come after it */
        mark_row (work, pattern->later[p], ADMITTANCES);
      for (int q = p + 1; q < end; q++, pair++)
        {
          work->part[pair].y = times (g, work->edge[q].y);
          work->slot[pattern->target[pair]] |= ADMITTANCES;
        }
    }
  work->row[k] = (guint8) ((work->row[k] & SOURCES) | SHARES);
}

/* The same for the emf currents; the shares g are known by now. Most rows never see any, and
 * whatever their shares are has nothing to share. */
static inline void
mesh_sources (const HobCircuit *circuit, int k, Work *work)
{
  const HobPattern *pattern = &circuit->pattern;
  int start = pattern->start[k], end = pattern->start[k + 1], pair = pattern->pair[k];
  Edge *edge = work->edge;
  const Factor *g = work->g;
  gboolean none = TRUE;
  Two c = { 0, 0 };

  if (work->quiet[k] && !(work->row[k] & SOURCES))
    {
      work->row[k] = 0;
      return;
    }
  for (int p = start; p < end; p++)
    {
      if (work->slot[p] & SOURCES)
        edge[p].c = source_of (circuit, work, p);
      work->slot[p] &= (guint8) ~SOURCES;
      none = none && is_zero (one (edge[p].c));
      c += edge[p].c;
    }
  work->own[k] = none ? (Two) { 0, 0 } : times (work->per[k], (Two) { 0, 0 } - c);
  work->row[k] = 0;
  if (none && work->quiet[k])
    return;
  work->quiet[k] = none;
  for (int p = start; p < end; p++)
    {
      if (p + 1 < end)
        mark_row (work, pattern->later[p], SOURCES);
      for (int q = p + 1; q < end; q++, pair++)
        {
          work->part[pair].c = times (g[p], edge[q].c) - times (g[q], edge[p].c);
          work->slot[pattern->target[pair]] |= SOURCES;
        }
    }
}

/* From the first row to the last. A row that is eliminated again marks slots of later rows only,
 * so that one pass is enough. Only its own pairs are written, never a sum of several rows. */
HOB_WIDE
static void
eliminate (const HobCircuit *circuit, gboolean sources, Work *work)
{
  int n = circuit->pattern.n;

  for (int k = next_due (work, 0, n); k < n; k = next_due (work, k + 1, n))
    {
      if (work->row[k] & ADMITTANCES)
        mesh_admittances (circuit, k, work);
      if (sources)
        mesh_sources (circuit, k, work);
      if (work->row[k] == 0)
        work->due[k / 64] &= ~((guint64) 1 << k % 64);
    }
}

/* v_k = own_k + Σ g_p·v_p, from the last row to the first; the reference is at 0 V and adds
 * nothing. @own is by row, @v by node. */
HOB_WIDE
static void
backward (const HobCircuit *circuit, const Factor *g, const Two *own, Two *v)
{
  const HobPattern *pattern = &circuit->pattern;

  v[pattern->n] = (Two) { 0, 0 };
  for (int k = pattern->n - 1; k >= 0; k--)
    {
      gsize start = (gsize) pattern->start[k], n = (gsize) circuit->inner[k] - start;
      const gsize *far = circuit->far + start;
      const Factor *factor = g + start;
      Two sum = own[k];

      for (gsize i = 0; i < n; i++)
        sum += times (factor[i], *volts_at (v, far[i]));
      v[circuit->node[k]] = sum;
    }
}

/* J_p += g_p·J_k: carries injected currents, in work->over, through the eliminated rows. Then the
 * volts of each row without neighbors. */
static void
spread (const HobCircuit *circuit, Work *work)
{
  const HobPattern *pattern = &circuit->pattern;
  Two *over = work->over;

  for (int k = 0; k < pattern->n; k++)
    {
      Two own = over[circuit->node[k]];

      if (!is_zero (one (own)))
        for (int s = pattern->start[k]; s < pattern->start[k + 1]; s++)
          *volts_at (over, circuit->far[s]) += times (work->g[s], own);
      work->rise[k] = times (work->per[k], own);
    }
}

/* J of each node. */
static void
load_injections (const HobPattern *pattern, const Cx *inject, Work *work)
{
  memset (work->over, 0, sizeof (Two) * ((gsize) pattern->n + 1));
  if (inject != NULL)
    memcpy (work->over, inject, sizeof (Two) * (gsize) pattern->n);
}

/* Volts of the nodes, once all rows are eliminated: with injections, or of injections alone. */
static const Two *
answer_injected (const HobCircuit *circuit, gboolean sources, const Cx *inject, Work *work)
{
  const HobPattern *pattern = &circuit->pattern;

  load_injections (pattern, inject, work);
  spread (circuit, work);
  for (int k = 0; k < pattern->n; k++)
    work->rise[k] += sources ? work->own[k] : (Two) { 0, 0 };
  backward (circuit, work->g, work->rise, work->over);
  return work->over;
}

/* Of the first @n branches, at the volts of @nodes. The currents come from differences of volts:
 * along a short wire 120 V leave rounding of some 1e-10 A. */
static void
currents_at (const HobCircuit *circuit, const Work *work, const Two *nodes, int n, Cx *i)
{
  for (int b = 0; b < n; b++)
    {
      Two a = nodes[circuit->end_a[b]], drop = a - nodes[circuit->end_b[b]] + two (work->emf[b]);

      i[b] = one (times (work->drive[b], drop));
    }
}

HOB_WIDE
void
hob_circuit_currents (const HobCircuit *circuit, int n, HobComplex *i, double *memory)
{
  const Work *work = work_in (memory);

  currents_at (circuit, work, work->at, n, i);
}

/* Volts of the nodes. The usual question has sources and no injections: its last answer is kept,
 * for a network in which nothing has changed. */
static const Two *
answer (const HobCircuit *circuit, const Cx *y, const Cx *emf, int n, const Cx *inject, Work *work)
{
  if (!work->begun)
    begin (circuit, y, emf, work);
  else
    note_changes (circuit, y, emf, n, work);
  eliminate (circuit, emf != NULL, work);
  if (emf == NULL || inject != NULL)
    return answer_injected (circuit, emf != NULL, inject, work);
  if (!work->answered)
    backward (circuit, work->g, work->own, work->at);
  work->answered = TRUE;
  return work->at;
}

void
hob_circuit_solve_again (const HobCircuit *circuit, const HobComplex *y, const HobComplex *emf,
                         int n, const HobComplex *inject, HobComplex *v, double *memory)
{
  const Two *nodes = answer (circuit, y, emf, n, inject, work_in (memory));

  memcpy (v, nodes, sizeof (Two) * (gsize) circuit->pattern.n);
}

/* The rows that currents from @a and @b reach, rising; returns their number. What leaves a row goes
 * to its neighbors, and all but the first of these are neighbors of the first one too: the way is
 * the chain of first neighbors, up to the reference. */
static int
find_way (const HobCircuit *circuit, int a, int b, int *way)
{
  const HobPattern *pattern = &circuit->pattern;
  int n = 0;

  while (a < pattern->n || b < pattern->n)
    {
      int k = MIN (a, b), first = pattern->start[k];
      int next = first < pattern->start[k + 1] ? pattern->later[first] : pattern->n;

      way[n++] = k;
      a = a == k ? next : a;
      b = b == k ? next : b;
    }
  return n;
}

/* As answer_injected() without sources, on the rows of the way alone: no other row has a current,
 * and none of the volts here is read from it. */
static void
answer_on_way (const HobCircuit *circuit, int rows, Work *work)
{
  const HobPattern *pattern = &circuit->pattern;
  Two *over = work->over, *rise = work->rise;

  for (int j = 0; j < rows; j++)
    {
      int k = work->way[j];

      if (!is_zero (one (over[k])))
        for (int s = pattern->start[k]; s < pattern->start[k + 1]; s++)
          over[pattern->later[s]] += times (work->g[s], over[k]);
      rise[k] = times (work->per[k], over[k]) + (Two) { 0, 0 };
    }
  rise[pattern->n] = (Two) { 0, 0 };
  for (int j = rows - 1; j >= 0; j--)
    {
      int k = work->way[j];

      for (int s = pattern->start[k]; s < circuit->inner[k]; s++)
        rise[k] += times (work->g[s], rise[pattern->later[s]]);
    }
}

HobComplex
hob_circuit_probe_again (const HobCircuit *circuit, const HobComplex *y, int n, int a, int b,
                         double *memory)
{
  const HobPattern *pattern = &circuit->pattern;
  Work *work = work_in (memory);
  int row_a = pattern->row[a < 0 ? pattern->n : a], row_b = pattern->row[b < 0 ? pattern->n : b];

  if (!work->begun)
    begin (circuit, y, NULL, work);
  else
    note_changes (circuit, y, NULL, n, work);
  eliminate (circuit, FALSE, work);
  if (row_a == row_b)
    return (Cx) { 0, 0 };

  int rows = find_way (circuit, row_a, row_b, work->way);
  for (int j = 0; j < rows; j++)
    work->over[work->way[j]] = (Two) { 0, 0 };
  work->over[row_a] = (Two) { 1, 0 };
  work->over[row_b] = (Two) { -1, 0 };
  answer_on_way (circuit, rows, work);
  return one (work->rise[row_a] - work->rise[row_b]);
}

/* One step of iterative refinement. The currents that are left over at the nodes go through the
 * same elimination as injections. The small volts that result give the currents the digits that
 * rounding took from them. */
void
hob_circuit_refine (const HobCircuit *circuit, const HobComplex *inject, HobComplex *i,
                    double *memory)
{
  const HobPattern *pattern = &circuit->pattern;
  Work *work = work_in (memory);

  load_injections (pattern, inject, work);
  for (int b = 0; b < circuit->n_branches; b++)
    {
      work->over[circuit->end_a[b]] -= two (i[b]);
      work->over[circuit->end_b[b]] += two (i[b]);
    }
  spread (circuit, work);
  backward (circuit, work->g, work->rise, work->over);
  for (int b = 0; b < circuit->n_branches; b++)
    {
      Cx drop = one (work->over[circuit->end_a[b]] - work->over[circuit->end_b[b]]);
      i[b] = add (i[b], mul (work->y[b], drop));
    }
}

void
hob_circuit_solve (const HobCircuit *circuit, const HobComplex *y, const HobComplex *emf,
                   const HobComplex *inject, HobComplex *v, HobComplex *i, double *memory)
{
  Work *work = work_in (memory);

  work->begun = FALSE; /* nothing solved before */
  const Two *nodes = answer (circuit, y, emf, circuit->n_branches, inject, work);
  memcpy (v, nodes, sizeof (Two) * (gsize) circuit->pattern.n);
  if (i == NULL)
    return;
  currents_at (circuit, work, nodes, circuit->n_branches, i);
  hob_circuit_refine (circuit, inject, i, memory);
}

double
hob_circuit_residual (const HobCircuit *circuit, const HobComplex *inject, const HobComplex *i)
{
  int n = circuit->pattern.n;
  g_autofree Cx *sum = g_new0 (Cx, n + 1);
  double worst = 0;

  for (int k = 0; inject != NULL && k < n; k++)
    sum[k] = inject[k];
  for (int b = 0; b < circuit->n_branches; b++)
    {
      sum[circuit->end_a[b]] = sub (sum[circuit->end_a[b]], i[b]);
      sum[circuit->end_b[b]] = add (sum[circuit->end_b[b]], i[b]);
    }
  for (int k = 0; k < n; k++)
    worst = MAX (worst, hob_complex_abs2 (sum[k]));

  return sqrt (worst);
}
