/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "outside/duct-laws.h"

#include <math.h>
#include <string.h>

static const double inch_of_water = 249.08891; /* Pa */
static const HobFuel *const natural = &hob_fuels[HOB_FUEL_NATURAL];

/* A net with its solution. */
typedef struct
{
  int n, m;
  HobBranch branch[400];
  HobDuct duct[400];
  double p[80], q[400];
  int iterations;
} Net;

static int
join (Net *net, int a, int b, HobDuct duct)
{
  g_assert_cmpint (net->m, <, (int) G_N_ELEMENTS (net->branch));
  net->branch[net->m] = (HobBranch) { a, b };
  net->duct[net->m] = duct;
  return net->m++;
}

static HobDuct
orifice (double area)
{
  return (HobDuct) { .law = HOB_DUCT_ORIFICE, .area = area };
}

static HobDuct
pipe (double bore, double length)
{
  return (HobDuct) { .law = HOB_DUCT_PIPE, .bore = bore, .length = length };
}

static HobDuct
supply (double inches)
{
  return (HobDuct) { .law = HOB_DUCT_SUPPLY, .set = inches * inch_of_water, .area = 1e-3 };
}

static HobDuct
regulator (double inches)
{
  return (HobDuct){
    .law = HOB_DUCT_REGULATOR, .set = inches * inch_of_water, .lockup = 0.05, .area = 3e-5
  };
}

/* Solves from the pressures that stand in the net. */
static double
solve (Net *net, const HobFuel *fuel)
{
  g_autoptr (HobGas) gas = hob_gas_new (net->n, net->branch, net->m);
  g_autofree double *work = g_new0 (double, hob_gas_work_size (gas));

  net->iterations = hob_gas_solve (gas, net->duct, fuel, net->p, net->q, work);
  g_assert_cmpint (net->iterations, >, 0);
  return hob_gas_residual (gas, net->p, net->q);
}

/* Supply 7 in, regulator 5 in, manifold with five jets behind cocks: ducts FIRST_COCK, +1 … */
enum { REGULATOR_DUCT = 2, FIRST_COCK = 3, N_JETS = 5, MANIFOLD = 2 };

static Net
range (double inlet, double area_share)
{
  static const double jet[N_JETS] = { 0.0520, 0.0520, 0.0377, 0.0653, 0.0715 }; /* in */
  Net net = { .n = 3 + N_JETS };

  join (&net, -1, 0, supply (inlet));
  join (&net, 0, 1, pipe (0.0125, 10));
  join (&net, 1, MANIFOLD, regulator (5));
  for (int k = 0; k < N_JETS; k++)
    join (&net, MANIFOLD, 3 + k, orifice (area_share * 2e-5));
  for (int k = 0; k < N_JETS; k++)
    join (&net, 3 + k, -1, orifice (0.9 * G_PI / 4 * pow (jet[k] * 0.0254, 2)));
  return net;
}

static void
with_every_cock_shut_nothing_flows (void)
{
  Net net = range (7, 0);

  g_assert_cmpfloat (solve (&net, natural), <, 1e-12);
  for (int k = 0; k < N_JETS; k++)
    {
      g_assert_cmpfloat (net.q[FIRST_COCK + k], ==, 0);
      g_assert_cmpfloat_with_epsilon (net.p[3 + k], 0, 1e-9);
    }
  g_assert_cmpfloat_with_epsilon (net.p[MANIFOLD], 5 * 1.05 * inch_of_water, 0.1); /* lockup */
}

/* From a thousandth of one cock to all five open. */
static void
the_regulator_holds_its_set_from_tiny_to_full_flow (void)
{
  double before = INFINITY;

  for (double share = 1e-4; share <= 1; share *= 1.5)
    {
      Net net = range (7, share);

      solve (&net, natural);
      g_assert_cmpfloat_with_epsilon (net.p[MANIFOLD] / (5 * inch_of_water), 1, 0.055);
      g_assert_cmpfloat (net.p[MANIFOLD], <, before); /* it droops as more is drawn */
      before = net.p[MANIFOLD];
    }
}

static void
half_open_it_stands_at_its_set (void)
{
  Net net = { .n = 1 };
  double set = 5 * inch_of_water, inlet = 7 * inch_of_water;
  double half
      = 0.5 * 3e-5 * sqrt (inlet - set) / sqrt (set); /* the outlet that just passes it on */

  join (&net, -1, 0, regulator (5));
  net.duct[0].set = set;
  net.n = 2;
  net.branch[0] = (HobBranch) { 1, 0 };
  join (&net, -1, 1, (HobDuct) { .law = HOB_DUCT_SUPPLY, .set = inlet, .area = 1 });
  join (&net, 0, -1, orifice (half));
  solve (&net, natural);
  g_assert_cmpfloat_with_epsilon (net.p[0] / set, 1, 1e-5);
}

static void
with_too_little_at_its_inlet_it_is_an_orifice (void)
{
  for (double inlet = 0.5; inlet < 4.5; inlet += 0.5)
    {
      Net net = range (inlet, 1), plain = range (inlet, 1);

      plain.duct[REGULATOR_DUCT] = orifice (3e-5);
      solve (&net, natural);
      solve (&plain, natural);
      g_assert_cmpfloat_with_epsilon (net.p[MANIFOLD], plain.p[MANIFOLD], 1e-6);
    }
}

static void
a_regulator_that_creeps_lets_the_inlet_through_at_night (void)
{
  Net net = range (7, 0);

  net.duct[REGULATOR_DUCT].leak = 1e-9;
  solve (&net, natural);
  g_assert_cmpfloat_with_epsilon (net.p[MANIFOLD] / inch_of_water, 7, 0.01);

  net = range (7, 1);
  net.duct[REGULATOR_DUCT].leak = 1e-9;
  solve (&net, natural);
  g_assert_cmpfloat (net.p[MANIFOLD] / inch_of_water, <, 5.2);
}

static void
each_burner_more_takes_from_the_others (void)
{
  double manifold = INFINITY, first = INFINITY;

  for (int open = 1; open <= N_JETS; open++)
    {
      Net net = range (4, 1); /* too little for the regulator: all share */

      for (int k = open; k < N_JETS; k++)
        net.duct[FIRST_COCK + k].area = 0;
      solve (&net, natural);
      g_assert_cmpfloat (net.p[MANIFOLD], <, manifold);
      g_assert_cmpfloat (net.q[FIRST_COCK], <, first);
      manifold = net.p[MANIFOLD];
      first = net.q[FIRST_COCK];
    }
}

static void
a_pipe_shut_at_both_ends_comes_to_rest (void)
{
  Net net = { .n = 2, .p = { 1000, -3000 } };

  join (&net, 0, 1, pipe (0.01, 3));
  solve (&net, natural);
  g_assert_cmpfloat_with_epsilon (net.p[0], 0, 1e-9);
  g_assert_cmpfloat_with_epsilon (net.p[1], 0, 1e-9);
}

static void
two_halves_of_a_pipe_are_the_pipe (void)
{
  Net whole = { .n = 2 }, halves = { .n = 3 };

  join (&whole, -1, 0, supply (7));
  join (&whole, 0, 1, pipe (0.0092, 9));
  join (&whole, 1, -1, orifice (1.5e-5));
  join (&halves, -1, 0, supply (7));
  join (&halves, 0, 2, pipe (0.0092, 4.5));
  join (&halves, 1, 2, pipe (0.0092, 4.5)); /* laid the other way round */
  join (&halves, 1, -1, orifice (1.5e-5));
  solve (&whole, natural);
  solve (&halves, natural);
  /* Each node's vent takes 1e-13 kg/s/Pa, some 2e-10 kg/s here. */
  g_assert_cmpfloat_with_epsilon (whole.q[2], halves.q[3], 5e-10);
  g_assert_cmpfloat_with_epsilon (halves.q[2], -halves.q[1], 5e-10);
}

static void
both_ways_round_a_loop_share_the_flow (void)
{
  Net net = { .n = 4 };

  join (&net, -1, 0, supply (7));
  join (&net, 0, 1, pipe (0.0125, 5));
  join (&net, 0, 2, pipe (0.0125, 5));
  join (&net, 1, 3, pipe (0.0125, 5));
  join (&net, 3, 2, pipe (0.0125, 5));
  join (&net, 1, 2, pipe (0.0125, 5)); /* the bridge: nothing flows in it */
  join (&net, 3, -1, orifice (2e-5));
  solve (&net, natural);
  g_assert_cmpfloat_with_epsilon (net.q[1], net.q[2], 1e-13);
  g_assert_cmpfloat_with_epsilon (net.q[3], -net.q[4], 1e-13);
  g_assert_cmpfloat_with_epsilon (net.q[5], 0, 1e-13);
}

#define LARGEST 41  /* nodes */
#define WIDEST 1e-3 /* m², of an orifice */

static HobDuct
random_duct (GRand *dice, gboolean regulators)
{
  HobDuct duct = regulator (g_rand_double_range (dice, 2, 11));

  switch (g_rand_int_range (dice, regulators ? 0 : 3, 10))
    {
    case 0:
      return (HobDuct) { .law = HOB_DUCT_ABSENT };
    case 1:
    case 2:
      duct.area = pow (10, g_rand_double_range (dice, -5.5, -4));
      return duct;
    case 3:
    case 4:
    case 5:
      return orifice (WIDEST * pow (10, g_rand_double_range (dice, -6, 0)));
    default:
      return pipe (g_rand_double_range (dice, 0.004, 0.02),
                   pow (10, g_rand_double_range (dice, -1, 1.3)));
    }
}

/* A tree of anything at all, or of pipes and orifices with loops; outlets of every size.  (A
 * regulator *within* a loop may be held shut by gas that comes the other way, or not: such nets
 * have two answers.) */
static Net
random_net (guint32 seed, int n)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (seed);
  Net net = { .n = n };

  join (&net, -1, 0, supply (g_rand_double_range (dice, 1, 16)));
  for (int k = 1; k < n; k++)
    {
      join (&net, g_rand_int_range (dice, 0, k), k, random_duct (dice, seed % 2 == 0));
      if (g_rand_boolean (dice))
        join (&net, k, -1, orifice (pow (10, g_rand_double_range (dice, -9, -5))));
    }
  for (int k = 0; seed % 2 != 0 && k < n / 4; k++)
    join (&net, g_rand_int_range (dice, 0, n), g_rand_int_range (dice, 0, n), pipe (0.0095, 0.5));
  return net;
}

static double
largest_pressure (const Net *net)
{
  double most = 0;

  for (int k = 0; k < net->n; k++)
    most = fmax (most, fabs (net->p[k]));
  return most;
}

/* What a pressure's last digit moves through the widest orifice, where it passes most for a drop:
 * A·√(2·ρ)·Δp/√(1 Pa) at no drop.  Of each node's terms four are rounded. */
static void
any_net_is_solved_from_any_start (void)
{
  double worst = 0, last_digit = 0;
  int most = 0;

  for (guint32 seed = 0; seed < 2000; seed++)
    {
      g_autoptr (GRand) dice = g_rand_new_with_seed (seed);
      int n = 2 + (int) (seed % (LARGEST - 1));
      Net cold = random_net (seed, n), warm = random_net (seed, n);

      for (int k = 0; k < n; k++)
        warm.p[k] = g_rand_double_range (dice, -2000, 8000);
      worst = MAX (worst, solve (&cold, &hob_fuels[seed % 2]));
      worst = MAX (worst, solve (&warm, &hob_fuels[seed % 2]));
      last_digit = fmax (last_digit, WIDEST * sqrt (2 * hob_fuels[seed % 2].density)
                                         * largest_pressure (&cold) * DBL_EPSILON);
      most = MAX (most, MAX (cold.iterations, warm.iterations));
      for (int k = 0; k < n; k++)
        g_assert_cmpfloat_with_epsilon (cold.p[k], warm.p[k], 1e-5 * (1 + fabs (cold.p[k])));
    }
  g_test_message ("largest imbalance %.3g kg/s, of %.3g kg/s; most iterations %d", worst,
                  4 * LARGEST * last_digit, most);
  g_assert_cmpfloat (worst, <, 4 * LARGEST * last_digit);
}

/* q found is q of the law, duct by duct. */
static void
every_flow_obeys_its_law (void)
{
  for (guint32 seed = 0; seed < 200; seed++)
    {
      Net net = random_net (seed, 2 + (int) (seed % 40));

      solve (&net, natural);
      for (int d = 0; d < net.m; d++)
        {
          double pa = net.branch[d].a < 0 ? 0 : net.p[net.branch[d].a];
          double pb = net.branch[d].b < 0 ? 0 : net.p[net.branch[d].b];
          const HobDuct *duct = &net.duct[d];

          if (duct->law == HOB_DUCT_ORIFICE)
            g_assert_cmpfloat_with_epsilon (
                net.q[d], orifice_flow (duct->area, pa - pb, natural->density),
                1e-7 * fabs (net.q[d]) + 1e-14);
          if (duct->law == HOB_DUCT_PIPE)
            g_assert_cmpfloat_with_epsilon (pipe_drop (duct, natural, net.q[d]), pa - pb,
                                            1e-7 * fabs (pa - pb) + 1e-9);
          if (duct->law == HOB_DUCT_ABSENT)
            g_assert_cmpfloat (net.q[d], ==, 0);
        }
    }
}

static void
the_last_solution_is_the_quickest_start (void)
{
  Net net = range (7, 1);
  double p[80];

  solve (&net, natural);
  memcpy (p, net.p, sizeof p);
  solve (&net, natural);
  g_assert_cmpint (net.iterations, <=, 2);
  for (int k = 0; k < net.n; k++)
    g_assert_cmpfloat_with_epsilon (net.p[k], p[k], 1e-7);
}

static void
the_same_start_gives_the_same_bits (void)
{
  Net net = random_net (5, 30), again = random_net (5, 30);

  solve (&net, natural);
  solve (&again, natural);
  g_assert_cmpmem (net.p, sizeof net.p, again.p, sizeof again.p);
  g_assert_cmpmem (net.q, sizeof net.q, again.q, sizeof again.q);
}

/* What flows through one duct to the room behind a supply; *dp is the drop along it. */
static double
flow_through (HobDuct duct, double inches, double *dp)
{
  Net net = { .n = 1 };

  join (&net, -1, 0, supply (inches));
  join (&net, 0, -1, duct);
  net.p[0] = inches * inch_of_water;
  solve (&net, natural);
  *dp = net.p[0];
  return net.q[1];
}

static void
an_orifice_is_a_square_root_and_near_nothing_a_line (void)
{
  double a = 1e-6, rho = natural->density, dp, twice, q;

  g_assert_cmpfloat (flow_through (orifice (a), 0, &dp), ==, 0);
  q = flow_through (orifice (a), -2, &dp);
  g_assert_cmpfloat_with_epsilon (q / -flow_through (orifice (a), 2, &dp), 1, 1e-9);
  q = flow_through (orifice (a), 1, &dp);
  g_assert_cmpfloat_with_epsilon (q / (a * sqrt (2 * rho * dp)), 1, 1e-5);
  q = flow_through (orifice (a), 1e-5, &dp);
  g_assert_cmpfloat_with_epsilon (flow_through (orifice (a), 2e-5, &twice) / q, twice / dp, 1e-5);
}

/* A line that is crushed, an orifice that is blocked, and what isn't there: all of the supply's
 * pressure is before it. */
static void
nothing_flows_where_there_is_no_way (void)
{
  const HobDuct shut[] = { orifice (0), pipe (0, 1), { .law = HOB_DUCT_ABSENT } };

  for (guint k = 0; k < G_N_ELEMENTS (shut); k++)
    for (double inches = -7; inches < 8; inches += 7)
      {
        double dp;

        g_assert_cmpfloat (flow_through (shut[k], inches, &dp), ==, 0);
        g_assert_cmpfloat_with_epsilon (dp, inches * inch_of_water, 1e-6);
      }
  hob_gas_free (NULL);
}

/* Exactly Hagen and Poiseuille below Re 2,000. No jump anywhere: d ln q/d ln Δp, which is 1 in
 * laminar flow and falls toward 1/2 in turbulent flow, changes little from one drop to the next. */
static void
a_pipe_is_smooth_from_laminar_to_turbulent (void)
{
  const double bore = 0.0095;
  double q_before = 0, dp_before = 0, before = 1;

  for (double inches = 1e-4; inches < 20; inches *= 1.01)
    {
      double dp, q = flow_through (pipe (bore, 10), inches, &dp);
      double re = 4 * q / (G_PI * bore * natural->viscosity), power;

      if (re < 2000)
        g_assert_cmpfloat_with_epsilon (
            128 * natural->viscosity * q * 10 / (G_PI * natural->density * pow (bore, 4)) / dp, 1,
            1e-6);
      power = log (q / q_before) / log (dp / dp_before);
      if (q_before > 0)
        {
          g_assert_cmpfloat (power, >, 0.2);
          g_assert_cmpfloat (fabs (power - before), <, 0.05);
          before = power;
        }
      q_before = q;
      dp_before = dp;
    }
  g_assert_cmpfloat (before, >, 0.5); /* fully rough */
  g_assert_cmpfloat (before, <, 4.0 / 7);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/gas/" name, function)
  CASE ("with-every-cock-shut-nothing-flows", with_every_cock_shut_nothing_flows);
  CASE ("the-regulator-holds-its-set-from-tiny-to-full-flow",
        the_regulator_holds_its_set_from_tiny_to_full_flow);
  CASE ("half-open-it-stands-at-its-set", half_open_it_stands_at_its_set);
  CASE ("with-too-little-at-its-inlet-it-is-an-orifice",
        with_too_little_at_its_inlet_it_is_an_orifice);
  CASE ("a-regulator-that-creeps-lets-the-inlet-through-at-night",
        a_regulator_that_creeps_lets_the_inlet_through_at_night);
  CASE ("each-burner-more-takes-from-the-others", each_burner_more_takes_from_the_others);
  CASE ("a-pipe-shut-at-both-ends-comes-to-rest", a_pipe_shut_at_both_ends_comes_to_rest);
  CASE ("two-halves-of-a-pipe-are-the-pipe", two_halves_of_a_pipe_are_the_pipe);
  CASE ("both-ways-round-a-loop-share-the-flow", both_ways_round_a_loop_share_the_flow);
  CASE ("any-net-is-solved-from-any-start", any_net_is_solved_from_any_start);
  CASE ("every-flow-obeys-its-law", every_flow_obeys_its_law);
  CASE ("the-last-solution-is-the-quickest-start", the_last_solution_is_the_quickest_start);
  CASE ("the-same-start-gives-the-same-bits", the_same_start_gives_the_same_bits);
  CASE ("an-orifice-is-a-square-root-and-near-nothing-a-line",
        an_orifice_is_a_square_root_and_near_nothing_a_line);
  CASE ("nothing-flows-where-there-is-no-way", nothing_flows_where_there_is_no_way);
  CASE ("a-pipe-is-smooth-from-laminar-to-turbulent", a_pipe_is_smooth_from_laminar_to_turbulent);
#undef CASE
  return g_test_run ();
}
