/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "duct-laws.h"

/* Nets of ducts in series and in parallel, solved without a Jacobian, by bisection.  What flows
 * rises with the pressure of the net's one end while its other end is the room, each law being
 * monotonic: so halving the span finds it, whatever the laws look like.  The laws
 * are those of the books. */

#define N_MOST 200

/* A net as a tree: a duct, or a row of nets, or nets side by side. */
typedef enum { DUCT, ROW, BESIDE } Shape;

typedef struct Piece
{
  Shape shape;
  HobDuct duct;
  const struct Piece *part[2];
} Piece;

typedef struct
{
  Piece piece[N_MOST];
  int n;
} Heap;

static const Piece *
take (Heap *heap, Piece piece)
{
  g_assert_cmpint (heap->n, <, N_MOST);
  heap->piece[heap->n] = piece;
  return &heap->piece[heap->n++];
}

static double
duct_drop_error (const HobDuct *duct, const HobFuel *fuel, double q, double dp)
{
  if (duct->law == HOB_DUCT_PIPE)
    return pipe_drop (duct, fuel, q) - dp;
  return q - orifice_flow (duct->area, dp, fuel->density);
}

/* ---- Bisection ---- */

/* 0 of a rising function between low and high. */
#define BISECT(x, low, high, rising)                                                               \
  G_STMT_START                                                                                     \
  {                                                                                                \
    double low_ = (low), high_ = (high);                                                           \
    for (int k_ = 0; k_ < 200 && low_ < high_; k_++)                                               \
      {                                                                                            \
        x = low_ + (high_ - low_) / 2;                                                             \
        if (x <= low_ || x >= high_)                                                               \
          break;                                                                                   \
        if ((rising) > 0)                                                                          \
          high_ = x;                                                                               \
        else                                                                                       \
          low_ = x;                                                                                \
      }                                                                                            \
  }                                                                                                \
  G_STMT_END

/* kg/s into a piece at its end a and out of it at b: less what its nodes' vents let out between. */
typedef struct
{
  double in, out;
} Flow;

#define VENT 1e-13 /* kg/s/Pa: each node's vent to the room, as gas.h has it */

static Flow
flow_through (const Piece *piece, const HobFuel *fuel, double pa, double pb)
{
  Flow one, other;
  double x = 0;

  switch (piece->shape)
    {
    case BESIDE:
      one = flow_through (piece->part[0], fuel, pa, pb);
      other = flow_through (piece->part[1], fuel, pa, pb);
      return (Flow){ one.in + other.in, one.out + other.out };
    case ROW: /* the pressure between: what comes in falls with it, what goes out rises */
      BISECT (x, MIN (pa, pb), MAX (pa, pb),
              flow_through (piece->part[1], fuel, x, pb).in + VENT * x
                  - flow_through (piece->part[0], fuel, pa, x).out);
      return (Flow){ flow_through (piece->part[0], fuel, pa, x).in,
                     flow_through (piece->part[1], fuel, x, pb).out };
    case DUCT:
      if (piece->duct.law == HOB_DUCT_PIPE)
        BISECT (x, -1, 1, duct_drop_error (&piece->duct, fuel, x, pa - pb));
      else
        x = orifice_flow (piece->duct.area, pa - pb, fuel->density);
      return (Flow){ x, x };
    default:
      g_assert_not_reached ();
    }
}

/* ---- The same net for the solver ---- */

typedef struct
{
  HobBranch branch[N_MOST];
  HobDuct duct[N_MOST];
  double p[N_MOST], q[N_MOST];
  int n, m;
} Net;

static int
join (Net *net, int a, int b, HobDuct duct)
{
  net->branch[net->m] = (HobBranch){ a, b };
  net->duct[net->m] = duct;
  return net->m++;
}

static void
lay (Net *net, const Piece *piece, int a, int b)
{
  int middle;

  switch (piece->shape)
    {
    case ROW:
      middle = net->n++;
      lay (net, piece->part[0], a, middle);
      lay (net, piece->part[1], middle, b);
      break;
    case BESIDE:
      lay (net, piece->part[0], a, b);
      lay (net, piece->part[1], a, b);
      break;
    case DUCT:
      join (net, a, b, piece->duct);
      break;
    default:
      g_assert_not_reached ();
    }
}

static void
solve (Net *net, const HobFuel *fuel)
{
  g_autoptr (HobGas) gas = hob_gas_new (net->n, net->branch, net->m);
  g_autofree double *work = g_new0 (double, hob_gas_work_size (gas));

  g_assert_cmpint (hob_gas_solve (gas, net->duct, fuel, net->p, net->q, work), >, 0);
}

/* Flow of the net between a supply behind an orifice and the room, found in both ways. */
static void
compare (const char *what, Heap *heap, const Piece *net, const HobFuel *fuel, double supply,
         double *worst)
{
  const double area = 8e-5;
  HobDuct service = { .law = HOB_DUCT_ORIFICE, .area = area };
  const Piece *whole
      = take (heap, (Piece){ ROW, .part = { take (heap, (Piece){ DUCT, .duct = service }), net } });
  double wanted = flow_through (whole, fuel, supply, 0).in, apart;
  Net laid = { .n = 1 };
  int first = join (&laid, -1, 0, (HobDuct){ .law = HOB_DUCT_SUPPLY, .area = area, .set = supply });

  lay (&laid, net, 0, -1);
  solve (&laid, fuel);
  apart = fabs (laid.q[first] / wanted - 1);
  *worst = MAX (*worst, apart);
  if (!(apart < 1e-8))
    g_test_fail_printf ("%s: %d ducts at %g Pa: bisected %.12g kg/s, solved %.12g", what, laid.m,
                        supply, wanted, laid.q[first]);
}

/* ---- Nets ---- */

static Piece
random_duct (GRand *dice)
{
  HobDuct duct = { .law = HOB_DUCT_ORIFICE, .area = pow (10, g_rand_double_range (dice, -8, -4)) };

  if (g_rand_int_range (dice, 0, 2) == 0)
    duct = (HobDuct){ .law = HOB_DUCT_PIPE,
                      .bore = g_rand_double_range (dice, 3e-3, 30e-3),
                      .length = pow (10, g_rand_double_range (dice, -1, 1.5)) };
  return (Piece){ DUCT, .duct = duct };
}

/* Rows within what is side by side within rows …: each row bisects what is in it anew, so depth
 * is dear. */
static const Piece *
random_net (Heap *heap, GRand *dice, int depth)
{
  Piece piece;

  if (depth == 0)
    return take (heap, random_duct (dice));
  piece = (Piece){ depth % 2 == 0 ? ROW : BESIDE, .part = { NULL } };
  piece.part[0] = random_net (heap, dice, depth - 1);
  piece.part[1] = random_net (heap, dice, g_rand_int_range (dice, 0, depth));
  return take (heap, piece);
}

static void
nets_in_series_and_parallel_agree (void)
{
  g_autoptr (GRand) dice = g_rand_new_with_seed (41);
  double worst = 0;

  for (int k = 0; k < 60; k++)
    {
      Heap heap = { .n = 0 };
      const Piece *net = random_net (&heap, dice, 1 + k % 3);

      compare ("random net", &heap, net, &hob_fuels[k % HOB_N_FUELS],
               pow (10, g_rand_double_range (dice, 1, 4)), &worst);
    }
  g_test_message ("largest difference from bisection: %.3g", worst);
}

/* n orifices in a row are one of 1/A² = Σ 1/A_i²; side by side, of Σ A_i: but for what the
 * vents take. */
static void
orifices_add_up_as_they_must (void)
{
  const double areas[] = { 3e-6, 1.1e-6, 5e-6, 2e-6 };
  const HobFuel *fuel = &hob_fuels[HOB_FUEL_NATURAL];
  double inverse = 0, sum = 0, pressure = 5000;
  Net row = { .n = G_N_ELEMENTS (areas) }, beside = { .n = 1 };

  join (&row, -1, 0, (HobDuct){ .law = HOB_DUCT_SUPPLY, .area = 1, .set = pressure });
  join (&beside, -1, 0, (HobDuct){ .law = HOB_DUCT_SUPPLY, .area = 1, .set = pressure });
  for (int k = 0; k < (int)G_N_ELEMENTS (areas); k++)
    {
      HobDuct duct = { .law = HOB_DUCT_ORIFICE, .area = areas[k] };

      join (&row, k, k + 1 < (int)G_N_ELEMENTS (areas) ? k + 1 : -1, duct);
      join (&beside, 0, -1, duct);
      inverse += 1 / (areas[k] * areas[k]);
      sum += areas[k];
    }
  solve (&row, fuel);
  solve (&beside, fuel);
  check_near (DERIVED, "Torricelli, in a row: kg/s", row.q[0],
              sqrt (2 * fuel->density * pressure / inverse), 3 * VENT * pressure);
  check_near (DERIVED, "Torricelli, side by side: kg/s", beside.q[0],
              sum * sqrt (2 * fuel->density * pressure), VENT * pressure);
}

/* Hagen and Poiseuille: Δp = 128·μ·L·q/(π·ρ·D⁴). */
static void
a_slow_stream_follows_hagen_and_poiseuille (void)
{
  const HobFuel *fuel = &hob_fuels[HOB_FUEL_LP];
  Net net = { .n = 2 };
  double wanted;

  join (&net, -1, 0, (HobDuct){ .law = HOB_DUCT_SUPPLY, .area = 1e-3, .set = 50 });
  join (&net, 0, 1, (HobDuct){ .law = HOB_DUCT_PIPE, .bore = 4e-3, .length = 20 });
  join (&net, 1, -1, (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = 1e-3 });
  solve (&net, fuel);
  wanted
      = (net.p[0] - net.p[1]) * G_PI * fuel->density * pow (4e-3, 4) / (128 * fuel->viscosity * 20);
  check_near (DERIVED, "Hagen and Poiseuille: kg/s", net.q[1], wanted, 1e-9 * wanted);
}

/* A regulator in a row has one unknown, its outlet: what it lets through falls as that rises,
 * what the jet takes rises. Shut at set·(1 + l), half open at set, fully from set·(1 − l) down,
 * rounded over a tenth of its travel there. */
static double
regulator_flow (const HobDuct *duct, const HobFuel *fuel, double pa, double pb)
{
  double u = (duct->set * (1 + duct->lockup) - pb) / (2 * duct->lockup * duct->set);
  double share = CLAMP (u, 0, 1);

  if (u > 0.9 && u < 1.1)
    share = 1 - (1.1 - u) * (1.1 - u) / 0.4;
  return orifice_flow (duct->area * share + duct->leak, pa - pb, fuel->density);
}

static void
a_regulator_stands_where_bisection_puts_it (void)
{
  const HobFuel *fuel = &hob_fuels[HOB_FUEL_NATURAL];
  double worst = 0;

  for (double inlet = 300; inlet < 6000; inlet *= 1.3)
    for (double jet = 1e-8; jet < 1e-4; jet *= 3)
      for (int creeps = 0; creeps < 2; creeps++)
        {
          HobDuct regulator = { .law = HOB_DUCT_REGULATOR,
                                .area = 4e-5,
                                .set = 1245,
                                .lockup = 0.05,
                                .leak = creeps ? 3e-7 : 0 };
          Net net = { .n = 2 };
          double outlet = 0, apart;

          join (&net, -1, 0, (HobDuct){ .law = HOB_DUCT_SUPPLY, .area = 1, .set = inlet });
          join (&net, 0, 1, regulator);
          join (&net, 1, -1, (HobDuct){ .law = HOB_DUCT_ORIFICE, .area = jet });
          solve (&net, fuel);
          BISECT (outlet, 0, inlet,
                  orifice_flow (jet, outlet, fuel->density) + VENT * outlet
                      - regulator_flow (&regulator, fuel, inlet, outlet));
          /* Within the imbalance at which the solver rests, 1e-9 kg/s. */
          apart = orifice_flow (jet, net.p[1], fuel->density)
                  - orifice_flow (jet, outlet, fuel->density);
          worst = MAX (worst, fabs (apart));
          if (!(fabs (apart) <= 1e-9 && fabs (net.p[1] - outlet) <= 0.05))
            g_test_fail_printf ("inlet %g Pa, jet %g m², %s: bisected %.9g Pa, solved %.9g", inlet,
                                jet, creeps ? "creeping" : "sound", outlet, net.p[1]);
        }
  g_test_message ("largest difference from bisection: %.3g kg/s", worst);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/gas-bisection/nets-in-series-and-parallel-agree",
                   nets_in_series_and_parallel_agree);
  g_test_add_func ("/outside/gas-bisection/orifices-add-up-as-they-must",
                   orifices_add_up_as_they_must);
  g_test_add_func ("/outside/gas-bisection/a-slow-stream-follows-hagen-and-poiseuille",
                   a_slow_stream_follows_hagen_and_poiseuille);
  g_test_add_func ("/outside/gas-bisection/a-regulator-stands-where-bisection-puts-it",
                   a_regulator_stands_where_bisection_puts_it);
  return g_test_run ();
}
