/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/circuit.h"

#include <complex.h>
#include <lapacke.h>
#include <string.h>

/* The same networks, solved as a full matrix by LAPACK's zgesvx (equilibrated, refined, with its
 * own estimate of how ill-conditioned the matrix is). */

typedef struct
{
  int n, m;
  HobBranch *branch;                /* owned, m */
  HobComplex *y, *emf, *inject;     /* owned: m, m, n */
  HobComplex *v, *i;                /* owned: n, m */
} Net;

static void
net_clear (Net *net)
{
  g_free (net->branch);
  g_free (net->y);
  g_free (net->emf);
  g_free (net->inject);
  g_free (net->v);
  g_free (net->i);
}

static double
decade (GRand *dice, double low, double high)
{
  return pow (10, g_rand_double_range (dice, low, high));
}

/* A tree with some loops; admittances spread over `spread` decades, some of them reactive; the
 * tie to the reference is as weak as `tie` S. */
static Net
random_net (GRand *dice, int n, double spread, double tie)
{
  Net net = { .n = n };

  net.branch = g_new (HobBranch, 4 * n + 4);
  net.y = g_new0 (HobComplex, 4 * n + 4);
  net.emf = g_new0 (HobComplex, 4 * n + 4);
  net.inject = g_new0 (HobComplex, n);
  for (int k = 1; k < n; k++)
    net.branch[net.m++] = (HobBranch) { k, g_rand_int_range (dice, MAX (0, k - 8), k) };
  for (int k = 0; k < n / 3; k++)
    net.branch[net.m++]
        = (HobBranch){ g_rand_int_range (dice, 0, n), g_rand_int_range (dice, 0, n) };
  for (int b = 0; b < net.m; b++)
    {
      double size = decade (dice, -spread / 2, spread / 2), kind = g_rand_double (dice);

      net.y[b] = kind < 0.7 ? (HobComplex){ size, 0 }
                            : (HobComplex){ 0.5 * size, (kind < 0.85 ? 1 : -1) * size };
      if (g_rand_int_range (dice, 0, 6) == 0)
        net.emf[b] = (HobComplex){ g_rand_double_range (dice, -170, 170),
                                   g_rand_double_range (dice, -170, 170) };
    }
  net.branch[net.m] = (HobBranch) { g_rand_int_range (dice, 0, n), -1 };
  net.y[net.m++] = (HobComplex) { 0, tie };
  net.v = g_new (HobComplex, n);
  net.i = g_new (HobComplex, net.m);
  return net;
}

static void
solve_here (Net *net)
{
  g_autoptr (HobCircuit) circuit = hob_circuit_new (net->n, net->branch, net->m, NULL);
  g_autofree double *work = g_new (double, hob_circuit_work_size (circuit));

  hob_circuit_solve (circuit, net->y, net->emf, net->inject, net->v, net->i, work);
}

/* Volts by LAPACK into x; → the reciprocal condition number. */
static double
solve_there (const Net *net, double complex *x)
{
  int n = net->n;
  g_autofree double complex *a = g_new0 (double complex, n *n), *af = g_new0 (double complex, n *n);
  g_autofree double complex *b = g_new0 (double complex, n);
  g_autofree double *rows = g_new (double, n), *columns = g_new (double, n);
  g_autofree lapack_int *pivot = g_new (lapack_int, n);
  double rcond, forward, backward, growth;
  char equilibrated;

  for (int k = 0; k < net->m; k++)
    {
      int from = net->branch[k].a, to = net->branch[k].b;
      double complex y = net->y[k].re + net->y[k].im * I,
                     j = y * (net->emf[k].re + net->emf[k].im * I);

      if (from == to)
        continue;
      if (from >= 0)
        {
          a[from + from * n] += y;
          b[from] -= j;
        }
      if (to >= 0)
        {
          a[to + to * n] += y;
          b[to] += j;
        }
      if (from >= 0 && to >= 0)
        {
          a[from + to * n] -= y;
          a[to + from * n] -= y;
        }
    }
  for (int k = 0; k < n; k++)
    b[k] += net->inject[k].re + net->inject[k].im * I;

  LAPACKE_zgesvx (LAPACK_COL_MAJOR, 'E', 'N', n, 1, a, n, af, n, pivot, &equilibrated, rows,
                  columns, b, n, x, n, &rcond, &forward, &backward, &growth);
  return rcond;
}

/* Largest difference from LAPACK of the volts between neighbors, in parts of the largest emf
 * there is. */
static double
worst_difference (const Net *net, const double complex *x)
{
  double worst = 0, largest = 1e-300;

  for (int k = 0; k < net->m; k++)
    {
      int from = net->branch[k].a, to = net->branch[k].b;
      HobComplex va = from < 0 ? (HobComplex) { 0, 0 } : net->v[from];
      HobComplex vb = to < 0 ? (HobComplex) { 0, 0 } : net->v[to];
      double complex there = (from < 0 ? 0 : x[from]) - (to < 0 ? 0 : x[to]);

      worst = MAX (worst, cabs (va.re - vb.re + (va.im - vb.im) * I - there));
      largest = MAX (largest, cabs (there));
    }
  return worst / largest;
}

/* As far apart as conditioning lets LAPACK itself be, and no further. */
static void
compare (GRand *dice, int n, double spread, double tie, double *worst)
{
  Net net = random_net (dice, n, spread, tie);
  g_autofree double complex *x = g_new (double complex, n);
  double rcond, apart;

  for (int k = 0; k < n; k += 7)
    net.inject[k] = (HobComplex) { tie * g_rand_double (dice), -tie * g_rand_double (dice) };
  solve_here (&net);
  rcond = solve_there (&net, x);
  apart = worst_difference (&net, x);
  *worst = MAX (*worst, apart);
  if (!(apart <= 1e-14 * n + 1e-14 / rcond))
    g_test_fail_printf ("LAPACK zgesvx, %d nodes, 1/cond %.2g: apart by %.3g", n, rcond, apart);
  net_clear (&net);
}

static void
compare_many (double spread, double tie)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (31);
  double worst = 0;

  for (int k = 0; k < 150; k++)
    compare (dice, g_rand_int_range (dice, 5, 201), spread, tie, &worst);
  g_test_message ("largest difference from LAPACK zgesvx: %.3g", worst);
}

static void
ordinary_networks_agree (void)
{
  compare_many (2, 1);
}

static void
networks_of_milliohms_and_megohms_agree (void)
{
  compare_many (10, 1);
}

/* The whole network hangs on 60 pF: for the full matrix nearly singular. */
static void
networks_that_float_on_picofarads_agree (void)
{
  compare_many (4, 2 * G_PI * 60 * 60e-12);
}

/* With nothing injected no current flows through the one tie, so the volts across every *branch*
 * are those of the network tied firmly: a full matrix loses this, elimination by sums does not. */
static void
a_weaker_tie_changes_no_voltage_inside (void)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (32);
  double worst = 0;

  for (int k = 0; k < 50; k++)
    {
      Net net = random_net (dice, 60, 6, 1);
      g_autofree HobComplex *firm = NULL;

      solve_here (&net);
      firm = g_memdup2 (net.v, (gsize) net.n * sizeof (HobComplex));
      net.y[net.m - 1].im = 1e-13;
      solve_here (&net);
      for (int j = 0; j < net.n; j++)
        worst = MAX (worst, hypot (net.v[j].re - firm[j].re, net.v[j].im - firm[j].im));
      net_clear (&net);
    }
  check_near (DERIVED, "LAPACK zgesvx, the firmly tied network: V", worst, 0, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/lapack/ordinary-networks-agree", ordinary_networks_agree);
  g_test_add_func ("/outside/lapack/networks-of-milliohms-and-megohms-agree",
                   networks_of_milliohms_and_megohms_agree);
  g_test_add_func ("/outside/lapack/networks-that-float-on-picofarads-agree",
                   networks_that_float_on_picofarads_agree);
  g_test_add_func ("/outside/lapack/a-weaker-tie-changes-no-voltage-inside",
                   a_weaker_tie_changes_no_voltage_inside);
  return g_test_run ();
}
