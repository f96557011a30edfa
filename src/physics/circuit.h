/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* physics/: pure functions and solvers, all in SI units. No file here knows a range or a part.
 *
 * This one: the electric circuit. */

#include <glib.h>

G_BEGIN_DECLS

/* A phasor, rms, 60 Hz unless said otherwise. */
typedef struct
{
  double re, im;
} HobComplex;

/* A branch between two nodes. −1 is the reference: ground for a circuit, the air of the room for
 * gas. */
typedef struct
{
  int a, b;
} HobBranch;

/* Nodal analysis of a linear AC network by star–mesh elimination (circuit.c). The order of the
 * elimination is found once for a topology. Immutable: threads may share it. */
typedef struct _HobCircuit HobCircuit;

/* @rank, of each node: those whose branches change more often have a higher one, so that a solve
 * that follows a change has less to do. It is part of the topology: another rank gives other last
 * bits. NULL: all are equal. */
HobCircuit *hob_circuit_new (int n_nodes, const HobBranch *branches, int n_branches,
                             const guint8 *rank);
void hob_circuit_free (HobCircuit *circuit);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobCircuit, hob_circuit_free)

/* The workspace that a solve needs, in doubles. */
gsize hob_circuit_work_size (const HobCircuit *circuit);

/* In: y, the admittance of each branch in S, 0 if absent; emf, V in series with each branch, or
 * NULL; inject, A into each node from outside, or NULL. Out: v, V of each node; i, A of each
 * branch from a to b, or NULL. The current of a branch is y·(v[a] − v[b] + emf). A node without
 * any connection reads 0 V. */
void hob_circuit_solve (const HobCircuit *circuit, const HobComplex *y, const HobComplex *emf,
                        const HobComplex *inject, HobComplex *v, HobComplex *i, double *work);

/* The same volts, but faster: @work comes from an earlier solve of this circuit, or is zeroed, and
 * only what a changed branch reaches is eliminated again. The first @n branches are looked at; all
 * others have the admittance and the source that they had in the first solve in @work. The bits do
 * not depend on what was solved before. */
void hob_circuit_solve_again (const HobCircuit *circuit, const HobComplex *y, const HobComplex *emf,
                              int n, const HobComplex *inject, HobComplex *v, double *work);
/* V between nodes @a and @b for each A that a probe sends in at a and out at b, all sources absent:
 * as a solve without emf and with these injections, but only on the way of that current. */
HobComplex hob_circuit_probe_again (const HobCircuit *circuit, const HobComplex *y, int n, int a,
                                    int b, double *work);
/* The currents of the first @n branches in the last solve in @work that had sources and no
 * injections. They have rounding errors of some 1e-10 A until they are refined. */
void hob_circuit_currents (const HobCircuit *circuit, int n, HobComplex *i, double *work);
/* Removes those rounding errors from the currents @i of all branches, after the last solve in
 * @work. */
void hob_circuit_refine (const HobCircuit *circuit, const HobComplex *inject, HobComplex *i,
                         double *work);

/* The largest sum of currents at any node, A: 0 by Kirchhoff's law. */
double hob_circuit_residual (const HobCircuit *circuit, const HobComplex *inject,
                             const HobComplex *i);

static inline double
hob_complex_abs2 (HobComplex z)
{
  return z.re * z.re + z.im * z.im;
}

double hob_complex_abs (HobComplex z);

G_END_DECLS
