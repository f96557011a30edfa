/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/circuit.h"

#define BIRD "Bird, Electrical Circuit Theory and Technology, "

enum { MOST = 4 };

typedef struct
{
  int n_nodes, n_branches;
  HobBranch branch[MOST];
  HobComplex z[MOST], emf[MOST], inject[MOST]; /* ohm, V, A */
  HobComplex v[MOST], i[MOST], y[MOST];
} Circuit;

static HobComplex
inverse (HobComplex z)
{
  double d = hob_complex_abs2 (z);

  return (HobComplex) { z.re / d, -z.im / d };
}

static HobComplex
times_conjugate (HobComplex a, HobComplex b)
{
  return (HobComplex) { a.re * b.re + a.im * b.im, a.im * b.re - a.re * b.im };
}

/* Complex power that sources give less what the impedances take: VA. */
static HobComplex
unbalanced_power (const Circuit *c)
{
  HobComplex sum = { 0, 0 };

  for (int k = 0; k < c->n_nodes; k++)
    {
      HobComplex given = times_conjugate (c->v[k], c->inject[k]);
      sum.re += given.re;
      sum.im += given.im;
    }
  for (int b = 0; b < c->n_branches; b++)
    {
      HobComplex given = times_conjugate (c->emf[b], c->i[b]);
      double square = hob_complex_abs2 (c->i[b]);

      sum.re += given.re - square * c->z[b].re;
      sum.im += given.im - square * c->z[b].im;
    }
  return sum;
}

static void
solve (Circuit *c)
{
  g_autoptr (HobCircuit) circuit = hob_circuit_new (c->n_nodes, c->branch, c->n_branches, NULL);
  g_autofree double *work = g_new (double, hob_circuit_work_size (circuit));

  for (int b = 0; b < c->n_branches; b++)
    c->y[b] = inverse (c->z[b]);
  hob_circuit_solve (circuit, c->y, c->emf, c->inject, c->v, c->i, work);

  check_near (DERIVED, "Kirchhoff, currents sum to zero: A",
              hob_circuit_residual (circuit, c->inject, c->i), 0, 1e-12);
  check_near (DERIVED, "Tellegen, powers balance: VA", hob_complex_abs (unbalanced_power (c)), 0,
              1e-9);
}

static void
check_volts (const char *source, HobComplex v, double re, double im)
{
  check_near (DERIVED, source, v.re, re, 0.0005);
  check_near (DERIVED, source, v.im, im, 0.0005);
}

static void
a_current_divides_between_two_branches (void)
{
  Circuit c = { .n_nodes = 1, .n_branches = 2, .branch = { { 0, -1 }, { 0, -1 } },
                .z = { { 16, 0 }, { 4, 3 } }, .inject = { { 20, 0 } } };

  solve (&c);
  check_volts (BIRD "problem 31.4, derived", c.v[0], 69.633, 37.555);
}

static void
two_sources_and_a_load_share_a_node (void)
{
  Circuit c = { .n_nodes = 1, .n_branches = 3, .branch = { { -1, 0 }, { -1, 0 }, { 0, -1 } },
                .z = { { 25, 0 }, { 10, 0 }, { 20, 0 } }, .emf = { { 100, 0 }, { 0, 50 } } };

  solve (&c);
  check_volts (BIRD "problem 31.6, derived", c.v[0], 21.053, 26.316);
}

static void
two_sources_are_joined_through_their_impedances (void)
{
  Circuit c = { .n_nodes = 1, .n_branches = 2, .branch = { { -1, 0 }, { -1, 0 } },
                .z = { { 9, 0 }, { 3, 6 } }, .emf = { { 8, 0 }, { 0, 8 } } };

  solve (&c);
  check_volts (BIRD "problem 31.5, derived", c.v[0], 5.600, 7.200);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/ac-circuits/a-current-divides-between-two-branches",
                   a_current_divides_between_two_branches);
  g_test_add_func ("/outside/ac-circuits/two-sources-and-a-load-share-a-node",
                   two_sources_and_a_load_share_a_node);
  g_test_add_func ("/outside/ac-circuits/two-sources-are-joined-through-their-impedances",
                   two_sources_are_joined_through_their_impedances);
  return g_test_run ();
}
