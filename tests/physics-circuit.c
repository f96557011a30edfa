/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/circuit.h"
#include "physics/sparse.h"

#include <math.h>
#include <string.h>

/* A network and its solution, with room for everything. */
typedef struct
{
  int n, m;
  HobBranch *branch;            /* owned, m */
  HobComplex *y, *emf, *inject; /* owned: m, m, n */
  HobComplex *v, *i;            /* owned: n, m */
} Net;

static Net
net_new (int n, int most)
{
  return (Net) { .n = n, .branch = g_new0 (HobBranch, most + 1), .y = g_new0 (HobComplex, most + 1),
                 .emf = g_new0 (HobComplex, most + 1), .inject = g_new0 (HobComplex, n + 1),
                 .v = g_new0 (HobComplex, n + 1), .i = g_new0 (HobComplex, most + 1) };
}

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

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Net, net_clear)

static void
join (Net *net, int a, int b, double re, double im)
{
  net->branch[net->m] = (HobBranch) { a, b };
  net->y[net->m++] = (HobComplex) { re, im };
}

static double
net_solve (Net *net)
{
  g_autoptr (HobCircuit) circuit = hob_circuit_new (net->n, net->branch, net->m, NULL);
  gsize size = hob_circuit_work_size (circuit);
  g_autofree double *work = g_new (double, size + 1);

  for (gsize k = 0; k <= size; k++)
    work[k] = NAN; /* what a solve finds in its workspace must not matter */
  work[size] = 12345;
  hob_circuit_solve (circuit, net->y, net->emf, net->inject, net->v, net->i, work);
  g_assert_cmpfloat (work[size], ==, 12345);

  return hob_circuit_residual (circuit, net->inject, net->i);
}

static double
apart (HobComplex a, HobComplex b)
{
  return hypot (a.re - b.re, a.im - b.im);
}

#define assert_complex(z, re_, im_, tolerance) \
  g_assert_cmpfloat (apart (z, (HobComplex) { re_, im_ }), <=, tolerance)

/* A house: a tree of wires and contacts behind the mains, every node strayed to the chassis, some
 * loops. */
static Net
random_house (guint32 seed, int n)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (seed);
  Net net = net_new (n, 4 * n + 4);

  for (int k = 1; k < n - 1; k++)
    {
      double conductance = pow (10, g_rand_double_range (dice, -6, 2.3));

      join (&net, g_rand_int_range (dice, MAX (0, k - 6), k), k, conductance, 0);
      join (&net, k, n - 1, 0, 2 * G_PI * 60 * g_rand_double_range (dice, 20e-12, 200e-12));
    }
  for (int k = 0; k < n / 8; k++)
    join (&net, g_rand_int_range (dice, 0, n), g_rand_int_range (dice, 0, n),
          g_rand_double_range (dice, 0, 0.1), 0);
  join (&net, n - 1, -1, 0.5, 0);
  join (&net, -1, 0, 4, 0);
  net.emf[net.m - 1] = (HobComplex) { 120, 0 };
  return net;
}

/* A milliampere through 120 V and 6,000 S: what rounding takes from the volts is not missing from
 * the currents. */
static void
a_small_current_through_a_short_wire_loses_no_digits (void)
{
  g_auto (Net) net = net_new (6, 7);

  join (&net, -1, 0, 1000, 0);
  net.emf[0] = (HobComplex) { 120, 0 };
  for (int k = 0; k < 5; k++)
    join (&net, k, k + 1, k % 2 == 0 ? 6000 : 1234.5, 0);
  join (&net, 5, -1, 1 / 120e3, 0);
  g_assert_cmpfloat (net_solve (&net), <, 1e-17);
  for (int b = 0; b < net.m; b++)
    g_assert_cmpfloat (net.i[b].re, >, 0.999e-3);
}

static void
an_empty_network_is_solved_at_once (void)
{
  g_auto (Net) net = net_new (0, 0);

  g_assert_cmpfloat (net_solve (&net), ==, 0);
  hob_circuit_free (NULL);
}

static void
a_node_that_hangs_on_nothing_reads_zero (void)
{
  g_auto (Net) net = net_new (3, 2);

  join (&net, 0, 1, 0, 0); /* an open contact */
  net.inject[0] = (HobComplex) { 0, 0 };
  net_solve (&net);
  for (int k = 0; k < 3; k++)
    assert_complex (net.v[k], 0, 0, 0);
}

static void
two_resistors_divide_the_voltage (void)
{
  g_auto (Net) net = net_new (2, 3);

  join (&net, -1, 0, 1e3, 0);
  net.emf[0] = (HobComplex) { 120, 0 };
  join (&net, 0, 1, 1 / 30.0, 0);
  join (&net, 1, -1, 1 / 10.0, 0);
  net_solve (&net);
  assert_complex (net.v[1], 120 * 10 / (40 + 1e-3), 0, 1e-12);
  assert_complex (net.i[0], 120 / (40 + 1e-3), 0,
                  1e-10); /* a milliohm: 1,000 S times the last digit of 120 V */
  assert_complex (net.i[2], 120 / (40 + 1e-3), 0, 1e-12);
}

static void
parallel_branches_share_by_admittance (void)
{
  g_auto (Net) net = net_new (1, 3);

  join (&net, 0, -1, 1, 0);
  join (&net, -1, 0, 2, 0); /* the other way round */
  join (&net, 0, -1, 0, 5);
  net.inject[0] = (HobComplex) { 3, 5 };
  net_solve (&net);
  assert_complex (net.v[0], 1, 0, 1e-15);
  assert_complex (net.i[0], 1, 0, 1e-15);
  assert_complex (net.i[1], -2, 0, 1e-15);
  assert_complex (net.i[2], 0, 5, 1e-15);
}

static void
a_branch_from_a_node_to_itself_keeps_its_current (void)
{
  g_auto (Net) net = net_new (1, 2);

  join (&net, 0, 0, 2, 0);
  net.emf[0] = (HobComplex) { 3, 0 };
  join (&net, 0, -1, 1, 0);
  g_assert_cmpfloat (net_solve (&net), <, 1e-15);
  assert_complex (net.i[0], 6, 0, 0);
  assert_complex (net.v[0], 0, 0, 0);
}

static void
open_contacts_are_as_if_they_were_not_there (void)
{
  g_auto (Net) with = random_house (3, 40), without = random_house (3, 40);

  for (int k = 0; k < 20; k++)
    join (&with, k, 2 * k, 0, 0);
  net_solve (&with);
  net_solve (&without);
  for (int k = 0; k < 40; k++)
    g_assert_cmpfloat_with_epsilon (apart (with.v[k], without.v[k]), 0, 1e-10);
}

/* 120 V between two nodes that hang on 60 and 20 pF: the sum of the two capacitors' currents is
 * nil, so they stand at 30 and −90 V, to the last digits though the source's admittance is 10
 * orders above. */
static void
a_source_that_floats_on_picofarads_keeps_its_digits (void)
{
  g_auto (Net) net = net_new (2, 3);
  double w = 2 * G_PI * 60;

  join (&net, 1, 0, 200, 0);
  net.emf[0] = (HobComplex) { 120, 0 };
  join (&net, 0, -1, 0, w * 60e-12);
  join (&net, 1, -1, 0, w * 20e-12);
  net_solve (&net);
  assert_complex (net.v[0], 30, 0, 5e-9); /* the 5 mΩ themselves drop 3e-9 V */
  assert_complex (net.v[1], -90, 0, 5e-9);
}

/* A dead wire beside a live one, read with nothing and with a 10 MΩ meter. */
static void
a_floating_wire_shows_ghost_volts_until_a_meter_loads_it (void)
{
  g_auto (Net) net = net_new (2, 4);
  double w = 2 * G_PI * 60;

  join (&net, -1, 0, 4, 0);
  net.emf[0] = (HobComplex) { 120, 0 };
  join (&net, 0, 1, 0, w * 60e-12);
  join (&net, 1, -1, 0, w * 60e-12);
  join (&net, 1, -1, 0, 0);
  net_solve (&net);
  g_assert_cmpfloat_with_epsilon (hob_complex_abs (net.v[1]), 60, 1e-6);

  net.y[3].re = 1e-7;
  net_solve (&net);
  g_assert_cmpfloat_with_epsilon (hob_complex_abs (net.v[1]),
                                  120 * w * 60e-12 / hypot (1e-7, w * 120e-12), 1e-6);
}

static void
currents_sum_to_zero_in_any_house (void)
{
  double worst = 0;

  for (guint32 seed = 0; seed < 300; seed++)
    {
      g_auto (Net) net = random_house (seed, 3 + (int) (seed % 150));

      worst = MAX (worst, net_solve (&net));
    }
  g_test_message ("largest sum of currents at a node: %.3g A", worst);
  /* 120 V in double carries 1.4e-14 V; a contact of 200 S makes 3e-12 A of it, and several meet
   * at a node. */
  g_assert_cmpfloat (worst, <, 1e-10);
}

/* Σ emf·i* + Σ v·J* = Σ |i|²/y over every branch. */
static void
power_given_is_power_taken (void)
{
  for (guint32 seed = 0; seed < 100; seed++)
    {
      g_auto (Net) net = random_house (seed, 4 + (int) seed);
      double given = 0, taken = 0;

      net.inject[1] = (HobComplex) { 0.5, -0.25 };
      net_solve (&net);
      for (int b = 0; b < net.m; b++)
        {
          double y2 = hob_complex_abs2 (net.y[b]);

          given += net.emf[b].re * net.i[b].re + net.emf[b].im * net.i[b].im;
          taken += y2 > 0 ? hob_complex_abs2 (net.i[b]) * net.y[b].re / y2 : 0;
        }
      given += net.v[1].re * net.inject[1].re + net.v[1].im * net.inject[1].im;
      g_assert_cmpfloat_with_epsilon (given, taken, 1e-9 * (1 + fabs (given)));
    }
}

static void
what_a_gives_at_b_b_gives_at_a (void)
{
  for (guint32 seed = 0; seed < 100; seed++)
    {
      int n = 10 + (int) seed, a = 1, b = n - 2;
      g_auto (Net) net = random_house (seed, n);
      HobComplex at_b;

      memset (net.emf, 0, (gsize) net.m * sizeof (HobComplex));
      net.inject[a].re = 1;
      net_solve (&net);
      at_b = net.v[b];
      net.inject[a].re = 0;
      net.inject[b].re = 1;
      net_solve (&net);
      g_assert_cmpfloat_with_epsilon (apart (net.v[a], at_b), 0,
                                      1e-10 * (1 + hob_complex_abs (at_b)));
    }
}

static void
causes_add_up (void)
{
  for (guint32 seed = 0; seed < 50; seed++)
    {
      g_auto (Net) both = random_house (seed, 50), mains = random_house (seed, 50),
                   other = random_house (seed, 50);

      both.emf[7] = other.emf[7] = (HobComplex) { 0, 9 };
      both.inject[5] = other.inject[5] = (HobComplex) { 0.01, 0 };
      memset (other.emf + other.m - 1, 0, sizeof (HobComplex));
      net_solve (&both);
      net_solve (&mains);
      net_solve (&other);
      for (int k = 0; k < 50; k++)
        g_assert_cmpfloat_with_epsilon (hypot (both.v[k].re - mains.v[k].re - other.v[k].re,
                                               both.v[k].im - mains.v[k].im - other.v[k].im),
                                        0, 1e-9 * (1 + hob_complex_abs (other.v[k])));
    }
}

static void
turning_a_branch_round_turns_its_current (void)
{
  g_auto (Net) net = random_house (9, 60), turned = random_house (9, 60);

  for (int b = 0; b < net.m; b++)
    {
      turned.branch[b] = (HobBranch) { net.branch[b].b, net.branch[b].a };
      turned.emf[b] = (HobComplex) { -net.emf[b].re, -net.emf[b].im };
    }
  net_solve (&net);
  net_solve (&turned);
  for (int b = 0; b < net.m; b++)
    g_assert_cmpfloat_with_epsilon (
        hypot (net.i[b].re + turned.i[b].re, net.i[b].im + turned.i[b].im), 0, 1e-10);
}

static void
the_same_question_gets_the_same_bits (void)
{
  g_auto (Net) net = random_house (4, 80), again = random_house (4, 80);

  net_solve (&net);
  net_solve (&again);
  g_assert_cmpmem (net.v, 80 * sizeof (HobComplex), again.v, 80 * sizeof (HobComplex));
  g_assert_cmpmem (net.i, (gsize)net.m * sizeof (HobComplex), again.i,
                   (gsize)net.m * sizeof (HobComplex));
}

static void
no_sources_given_is_no_sources (void)
{
  g_auto (Net) net = random_house (4, 20);
  g_autoptr (HobCircuit) circuit = hob_circuit_new (net.n, net.branch, net.m, NULL);
  g_autofree double *work = g_new (double, hob_circuit_work_size (circuit));

  hob_circuit_solve (circuit, net.y, NULL, NULL, net.v, NULL, work);
  for (int k = 0; k < net.n; k++)
    assert_complex (net.v[k], 0, 0, 0);
}

/* In whatever order the nodes are eliminated: the same volts and currents, but for rounding. */
static void
the_order_of_elimination_does_not_matter (void)
{
  g_auto (Net) net = random_house (9, 60);
  g_autoptr (GRand) dice = g_rand_new_with_seed (10);
  g_autofree HobComplex *v = g_new (HobComplex, net.n), *i = g_new (HobComplex, net.m);

  net_solve (&net);
  for (int trial = 0; trial < 20; trial++)
    {
      guint8 rank[60];
      g_autoptr (HobCircuit) circuit = NULL;
      g_autofree double *work = NULL;

      for (int k = 0; k < net.n; k++)
        rank[k] = (guint8) g_rand_int_range (dice, 0, 4);
      circuit = hob_circuit_new (net.n, net.branch, net.m, rank);
      work = g_new (double, hob_circuit_work_size (circuit));
      hob_circuit_solve (circuit, net.y, net.emf, net.inject, v, i, work);
      for (int k = 0; k < net.n; k++)
        g_assert_cmpfloat (apart (v[k], net.v[k]), <, 1e-9);
      for (int k = 0; k < net.m; k++)
        g_assert_cmpfloat (apart (i[k], net.i[k]), <, 1e-9);
    }
}

static void
the_work_grows_in_a_line_with_a_tree (void)
{
  gsize size[2];

  for (int k = 0; k < 2; k++)
    {
      int n = 100 << (2 * k);
      g_auto (Net) net = net_new (n, 2 * n);
      g_autoptr (HobCircuit) circuit = NULL;

      for (int j = 1; j < n; j++)
        {
          join (&net, (j - 1) / 3, j, 1, 0);
          join (&net, j, 0, 0, 1);
        }
      circuit = hob_circuit_new (net.n, net.branch, net.m, NULL);
      size[k] = hob_circuit_work_size (circuit);
    }
  /* Four times the nodes and their edges; a full matrix would take sixteen times as much. */
  g_assert_cmpfloat ((double) size[1] / (double) size[0], <, 4.1);
}

/* Branches open, close and drift, sources come and go, and probes ask in between: a workspace
 * that has seen all that answers with the bits of one that has seen nothing. The last branches
 * never change, and are not looked at again. */
static void
solving_again_gives_the_bits_of_solving_first (void)
{
  g_auto (Net) net = random_house (5, 60);
  g_autoptr (HobCircuit) circuit = hob_circuit_new (net.n, net.branch, net.m, NULL);
  gsize size = hob_circuit_work_size (circuit);
  gsize volts = (gsize) net.n * sizeof (HobComplex), currents = (gsize) net.m * sizeof (HobComplex);
  g_autofree double *used = g_new0 (double, size), *fresh = g_new (double, size);
  g_autofree HobComplex *v = g_new (HobComplex, net.n), *i = g_new (HobComplex, net.m);
  g_autoptr (GRand) dice = g_rand_new_with_seed (6);
  int changing = net.m * 3 / 4;

  hob_circuit_solve_again (circuit, net.y, net.emf, net.m, NULL, v, used);
  for (guint k = 0; k < 400; k++)
    {
      int b = g_rand_int_range (dice, 0, changing), what = g_rand_int_range (dice, 0, 5);
      const HobComplex *emf = what == 3 ? NULL : net.emf, *inject = what >= 3 ? net.inject : NULL;

      if (what == 0)
        net.y[b] = (HobComplex) { 0, 0 };
      else if (what == 1)
        net.y[b] = (HobComplex) { pow (10, g_rand_double_range (dice, -3, 3)), 0 };
      else if (what == 2)
        net.emf[b] = (HobComplex) { g_rand_double_range (dice, -120, 120), 0 };
      else
        net.inject[b % net.n] = (HobComplex) { g_rand_double_range (dice, 0, 1), 0 };
      hob_circuit_solve_again (circuit, net.y, emf, changing, inject, v, used);
      hob_circuit_solve (circuit, net.y, emf, inject, net.v, net.i, fresh);
      g_assert_cmpmem (v, volts, net.v, volts);
      if (what >= 3)
        continue;
      hob_circuit_currents (circuit, net.m, i, used);
      hob_circuit_refine (circuit, NULL, i, used);
      g_assert_cmpmem (i, currents, net.i, currents);
    }
}

/* A probe goes its own way through the rows, and comes to the bits of a solve of all of them. */
static void
a_probe_gives_the_bits_of_a_solve (void)
{
  g_auto (Net) net = random_house (7, 60);
  g_autoptr (HobCircuit) circuit = hob_circuit_new (net.n, net.branch, net.m, NULL);
  gsize size = hob_circuit_work_size (circuit);
  g_autofree double *used = g_new0 (double, size), *fresh = g_new (double, size);
  g_autofree HobComplex *v = g_new (HobComplex, net.n + 1);
  g_autoptr (GRand) dice = g_rand_new_with_seed (8);

  for (guint k = 0; k < 400; k++)
    {
      int a = g_rand_int_range (dice, 0, net.n), b = g_rand_int_range (dice, -1, net.n);
      HobComplex whole, probe;

      net.y[g_rand_int_range (dice, 0, net.m)].re = pow (10, g_rand_double_range (dice, -3, 3));
      memset (net.inject, 0, sizeof (HobComplex) * (gsize) net.n);
      net.inject[a].re += 1;
      if (b >= 0)
        net.inject[b].re -= 1;
      if (k % 3 == 0)
        hob_circuit_solve_again (circuit, net.y, net.emf, net.m, NULL, v, used);
      probe = hob_circuit_probe_again (circuit, net.y, net.m, a, b, used);
      hob_circuit_solve (circuit, net.y, NULL, net.inject, v, NULL, fresh);
      v[net.n] = (HobComplex) { 0, 0 };
      whole.re = v[a].re - v[b < 0 ? net.n : b].re;
      whole.im = v[a].im - v[b < 0 ? net.n : b].im;
      g_assert_cmpmem (&probe, sizeof probe, &whole, sizeof whole);
    }
}

static void
a_cleared_pattern_holds_nothing (void)
{
  static const int ends[] = { 0, 1, 1, 2, 2, -1 };
  static const HobPattern nothing = { 0 };
  HobPattern pattern;

  hob_pattern_init (&pattern, 3, ends, 3, NULL);
  g_assert_cmpint (pattern.n_slots, >=, 3);
  hob_pattern_clear (&pattern);
  g_assert_true (pattern.row == nothing.row && pattern.start == nothing.start);
  g_assert_true (pattern.later == nothing.later && pattern.pair == nothing.pair);
  g_assert_true (pattern.target == nothing.target);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/circuit/" name, function)
  CASE ("a-small-current-through-a-short-wire-loses-no-digits",
        a_small_current_through_a_short_wire_loses_no_digits);
  CASE ("an-empty-network-is-solved-at-once", an_empty_network_is_solved_at_once);
  CASE ("a-node-that-hangs-on-nothing-reads-zero", a_node_that_hangs_on_nothing_reads_zero);
  CASE ("two-resistors-divide-the-voltage", two_resistors_divide_the_voltage);
  CASE ("parallel-branches-share-by-admittance", parallel_branches_share_by_admittance);
  CASE ("a-branch-from-a-node-to-itself-keeps-its-current",
        a_branch_from_a_node_to_itself_keeps_its_current);
  CASE ("open-contacts-are-as-if-they-were-not-there", open_contacts_are_as_if_they_were_not_there);
  CASE ("a-source-that-floats-on-picofarads-keeps-its-digits",
        a_source_that_floats_on_picofarads_keeps_its_digits);
  CASE ("a-floating-wire-shows-ghost-volts-until-a-meter-loads-it",
        a_floating_wire_shows_ghost_volts_until_a_meter_loads_it);
  CASE ("currents-sum-to-zero-in-any-house", currents_sum_to_zero_in_any_house);
  CASE ("power-given-is-power-taken", power_given_is_power_taken);
  CASE ("what-a-gives-at-b-b-gives-at-a", what_a_gives_at_b_b_gives_at_a);
  CASE ("causes-add-up", causes_add_up);
  CASE ("turning-a-branch-round-turns-its-current", turning_a_branch_round_turns_its_current);
  CASE ("the-same-question-gets-the-same-bits", the_same_question_gets_the_same_bits);
  CASE ("solving-again-gives-the-bits-of-solving-first",
        solving_again_gives_the_bits_of_solving_first);
  CASE ("no-sources-given-is-no-sources", no_sources_given_is_no_sources);
  CASE ("the-order-of-elimination-does-not-matter", the_order_of_elimination_does_not_matter);
  CASE ("the-work-grows-in-a-line-with-a-tree", the_work_grows_in_a_line_with_a_tree);
  CASE ("a-probe-gives-the-bits-of-a-solve", a_probe_gives_the_bits_of_a_solve);
  CASE ("a-cleared-pattern-holds-nothing", a_cleared_pattern_holds_nothing);
#undef CASE
  return g_test_run ();
}
