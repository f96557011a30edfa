/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/circuit.h"

#include "physics/sparse.h"

#include <math.h>
#include <string.h>

/* Star–mesh elimination with electromotive forces.
 *
 * Each edge carries y and c; the current from its earlier row to its later row is y·(v_early −
 * v_late) + c. Row k with edges p (y_p, c_p towards p), S = Σ y_p and J_k amperes injected has
 *
 *   v_k = (J_k − Σ c_p)/S + Σ g_p v_p,       g_p = y_p/S.
 *
 * Put into the currents that reach its neighbours, the star becomes a mesh:
 *
 *   y_pq += g_p·y_q,     c_pq (from p to q) += g_p·c_q − g_q·c_p,     J_p += g_p·J_k.
 *
 * Since c stays with its edge (it is y·emf, and two emfs in a row add or cancel as such) instead
 * of being split into two opposite injections, a source that floats on picofarads keeps its digits
 * too. */

struct _HobCircuit
{
  HobPattern pattern; /* owned */
  int n_branches;
  int *slot;          /* owned: of each branch, −1 where both ends are one node */
  double *sign;       /* owned: +1 if branch and slot point the same way */
  int *end_a, *end_b; /* owned: rows of the branch's ends */
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

/* 1/z, and 0 for 0: what hangs on nothing stays at 0 V. */
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

HobCircuit *
hob_circuit_new (int n_nodes, const HobBranch *branches, int n_branches)
{
  HobCircuit *circuit = g_new0 (HobCircuit, 1);
  g_autofree int *ends = g_new (int, 2 * n_branches + 1);

  for (int b = 0; b < n_branches; b++)
    {
      ends[2 * b] = branches[b].a;
      ends[2 * b + 1] = branches[b].b;
    }
  hob_pattern_init (&circuit->pattern, n_nodes, ends, n_branches);

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
      circuit->end_a[b] = circuit->pattern.row[branches[b].a < 0 ? n_nodes : branches[b].a];
      circuit->end_b[b] = circuit->pattern.row[branches[b].b < 0 ? n_nodes : branches[b].b];
    }

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
  g_free (circuit);
}

/* An edge while it is worked on: the admittance is replaced by its share g when its row goes. */
typedef struct
{
  Cx y, c;
} Edge;

gsize
hob_circuit_work_size (const HobCircuit *circuit)
{
  gsize slots = (gsize) circuit->pattern.n_slots, rows = (gsize) circuit->pattern.n + 1;

  return slots * (sizeof (Edge) / sizeof (double)) + 4 * rows * (sizeof (Cx) / sizeof (double));
}

static void
load_branches (const HobCircuit *circuit, const Cx *y, const Cx *emf, Edge *edge)
{
  memset (edge, 0, (gsize) circuit->pattern.n_slots * sizeof (Edge));

  for (int b = 0; b < circuit->n_branches; b++)
    {
      Edge *e = edge + circuit->slot[b];

      if (circuit->slot[b] < 0)
        continue;
      e->y = add (e->y, y[b]);
      if (emf == NULL || (emf[b].re == 0 && emf[b].im == 0))
        continue;
      Cx c = mul (y[b], emf[b]);
      e->c.re += circuit->sign[b] * c.re;
      e->c.im += circuit->sign[b] * c.im;
    }
}

static inline gboolean
is_zero (Cx z)
{
  return z.re == 0 && z.im == 0;
}

/* Mesh among the neighbours of one row, admittances only: edge[p].y is still y_p. */
static inline void
mesh_admittances (const int *target, Edge *row, int m, Cx r, Edge *edge)
{
  if (m == 2) /* the common one: a wire's node, its neighbour and the chassis that it strays to */
    {
      Edge *t = edge + *target;
      Cx y1 = row[1].y;

      row[0].y = mul (row[0].y, r);
      row[1].y = mul (y1, r);
      t->y = add (t->y, mul (row[0].y, y1));
      return;
    }

  for (int p = 0; p < m; p++)
    {
      Cx g = mul (row[p].y, r);

      for (int q = p + 1; q < m; q++)
        {
          Edge *t = edge + *target++;
          t->y = add (t->y, mul (g, row[q].y));
        }
      row[p].y = g;
    }
}

/* …and the emf currents, once edge[p].y holds g_p. */
static inline void
mesh_sources (const int *target, const Edge *row, int m, Edge *edge)
{
  for (int p = 0; p < m; p++)
    for (int q = p + 1; q < m; q++)
      {
        Edge *t = edge + *target++;
        t->c = add (t->c, sub (mul (row[p].y, row[q].c), mul (row[q].y, row[p].c)));
      }
}

/* Sends every row's star into the mesh of its neighbours; v[k] is left holding (J_k − Σ c)/S,
 * per[k] 1/S. */
static void
forward (const HobPattern *pattern, Edge *edge, Cx *inject, Cx *per, Cx *v)
{
  for (int k = 0; k < pattern->n; k++)
    {
      Edge *row = edge + pattern->start[k];
      const int *target = pattern->target + pattern->pair[k];
      int m = pattern->start[k + 1] - pattern->start[k];
      Cx s = { 0, 0 }, c = { 0, 0 };
      gboolean sources = FALSE;

      for (int p = 0; p < m; p++)
        {
          s = add (s, row[p].y);
          sources = sources || !is_zero (row[p].c);
        }

      Cx r = per[k] = invert (s);
      mesh_admittances (target, row, m, r, edge);
      if (sources)
        {
          mesh_sources (target, row, m, edge);
          for (int p = 0; p < m; p++)
            c = add (c, row[p].c);
        }

      if (inject != NULL && !is_zero (inject[k]))
        {
          const int *later = pattern->later + pattern->start[k];
          for (int p = 0; p < m; p++)
            inject[later[p]] = add (inject[later[p]], mul (row[p].y, inject[k]));
          c = sub (c, inject[k]);
        }
      v[k] = (Cx) { -c.re * r.re + c.im * r.im, -c.re * r.im - c.im * r.re };
    }
}

static void
backward (const HobPattern *pattern, const Edge *edge, Cx *v)
{
  v[pattern->n] = (Cx) { 0, 0 };
  for (int k = pattern->n - 1; k >= 0; k--)
    for (int s = pattern->start[k]; s < pattern->start[k + 1]; s++)
      v[k] = add (v[k], mul (edge[s].y, v[pattern->later[s]]));
}

/* Volts are rounded to parts of the source's 120 V, and a wire of some 1,000 S makes more current
 * of that than a meter's megohms let through: what is left over at the nodes, `over`, is sent
 * through the same elimination once more, and the little volts that it makes add to the currents
 * what rounding took from them. */
static void
refine (const HobCircuit *circuit, const Edge *edge, const Cx *per, const Cx *y, Cx *over, Cx *v,
        Cx *i)
{
  const HobPattern *pattern = &circuit->pattern;

  for (int b = 0; b < circuit->n_branches; b++)
    {
      over[circuit->end_a[b]] = sub (over[circuit->end_a[b]], i[b]);
      over[circuit->end_b[b]] = add (over[circuit->end_b[b]], i[b]);
    }
  for (int k = 0; k < pattern->n; k++)
    {
      for (int s = pattern->start[k]; s < pattern->start[k + 1]; s++)
        over[pattern->later[s]] = add (over[pattern->later[s]], mul (edge[s].y, over[k]));
      v[k] = mul (over[k], per[k]);
    }
  backward (pattern, edge, v);
  for (int b = 0; b < circuit->n_branches; b++)
    i[b] = add (i[b], mul (y[b], sub (v[circuit->end_a[b]], v[circuit->end_b[b]])));
}

void
hob_circuit_solve (const HobCircuit *circuit, const HobComplex *y, const HobComplex *emf,
                   const HobComplex *inject, HobComplex *v, HobComplex *i, double *work)
{
  const HobPattern *pattern = &circuit->pattern;
  Edge *edge = (Edge *) work;
  Cx *at = (Cx *) (edge + pattern->n_slots);
  Cx *into = at + pattern->n + 1, *per = into + pattern->n + 1, *over = per + pattern->n + 1;

  load_branches (circuit, y, emf, edge);
  if (inject != NULL)
    {
      into[pattern->n] = (Cx) { 0, 0 };
      for (int k = 0; k < pattern->n; k++)
        into[pattern->row[k]] = inject[k];
    }
  forward (pattern, edge, inject != NULL ? into : NULL, per, at);
  backward (pattern, edge, at);

  for (int k = 0; k < pattern->n; k++)
    v[k] = at[pattern->row[k]];
  if (i == NULL)
    return;

  for (int b = 0; b < circuit->n_branches; b++)
    {
      Cx drop = sub (at[circuit->end_a[b]], at[circuit->end_b[b]]);
      i[b] = mul (y[b], emf != NULL ? add (drop, emf[b]) : drop);
    }
  memset (over, 0, sizeof (Cx) * ((gsize) pattern->n + 1));
  for (int k = 0; inject != NULL && k < pattern->n; k++)
    over[pattern->row[k]] = inject[k];
  refine (circuit, edge, per, y, over, at, i);
}

double
hob_circuit_residual (const HobCircuit *circuit, const HobComplex *inject, const HobComplex *i)
{
  int n = circuit->pattern.n;
  g_autofree Cx *sum = g_new0 (Cx, n + 1);
  double worst = 0;

  for (int k = 0; inject != NULL && k < n; k++)
    sum[circuit->pattern.row[k]] = inject[k];
  for (int b = 0; b < circuit->n_branches; b++)
    {
      sum[circuit->end_a[b]] = sub (sum[circuit->end_a[b]], i[b]);
      sum[circuit->end_b[b]] = add (sum[circuit->end_b[b]], i[b]);
    }
  for (int k = 0; k < n; k++)
    worst = MAX (worst, hob_complex_abs (sum[k]));

  return worst;
}
