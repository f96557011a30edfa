/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* physics: pure functions and solvers; knows no range, no part. */

#include <glib.h>

G_BEGIN_DECLS

/* A phasor, rms, 60 Hz unless said otherwise. */
typedef struct
{
  double re, im;
} HobComplex;

/* A branch joins two nodes; −1 is the reference (earth for circuits, the room's air for gas). */
typedef struct
{
  int a, b;
} HobBranch;

/* Nodal analysis of a linear AC network by star–mesh elimination: each node is replaced by the
 * mesh among its neighbours, sums of admittances only, so that no diagonal is ever a difference of
 * large numbers and a node that hangs on picofarads keeps its digits.  The order (least neighbours
 * first) is compiled once per topology into a flat list of operations; a solve re-executes
 * it.  Immutable: threads may share it. */
typedef struct _HobCircuit HobCircuit;

HobCircuit *hob_circuit_new (int n_nodes, const HobBranch *branches, int n_branches);
void hob_circuit_free (HobCircuit *circuit);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobCircuit, hob_circuit_free)

/* Doubles of workspace that a solve needs. */
gsize hob_circuit_work_size (const HobCircuit *circuit);

/* y: admittance of each branch in S (0: absent).  emf: V in series, per branch, NULL for none; the
 * current from a to b is y·(v[a] − v[b] + emf).  inject: A into each node from outside, NULL for
 * none. v: out, V of each node; a node that hangs on nothing reads 0.  i: out, A from a to b of
 * each branch, or NULL. */
void hob_circuit_solve (const HobCircuit *circuit, const HobComplex *y, const HobComplex *emf,
                        const HobComplex *inject, HobComplex *v, HobComplex *i, double *work);

/* The same, sooner: @work is that of an earlier solve of this circuit, or zeroed, and only what a
 * changed branch reaches is eliminated again.  The bits are the same whatever was solved before.
 * The currents keep what rounding of 120 V makes of them along a short wire, some 1e-10 A, until
 * they are refined. */
void hob_circuit_solve_again (const HobCircuit *circuit, const HobComplex *y, const HobComplex *emf,
                              const HobComplex *inject, HobComplex *v, HobComplex *i, double *work);
/* Gives the currents @i of the last solve in @work the digits that rounding took from them. */
void hob_circuit_refine (const HobCircuit *circuit, const HobComplex *inject, HobComplex *i,
                         double *work);

/* Largest sum of currents at any node, A (Kirchhoff's residual). */
double hob_circuit_residual (const HobCircuit *circuit, const HobComplex *inject, const HobComplex *i);

static inline double
hob_complex_abs2 (HobComplex z)
{
  return z.re * z.re + z.im * z.im;
}

double hob_complex_abs (HobComplex z);

G_END_DECLS
