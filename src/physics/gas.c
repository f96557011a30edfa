/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/gas.h"

#include "physics/sparse.h"

#include <math.h>
#include <string.h>

/* The gas trade measures volumes at 60 °F and 30 in Hg, saturated with water; air is then 1.2184
 * kg/m³, which is also what stands behind the 1658.5 of the National Fuel Gas Code's orifice
 * formula. */
#define AIR_DENSITY 1.2184
/* Btu (IT) per ft³ in J/m³. */
#define BTU_FT3 (1055.056 / 0.028316847)

#define FUEL_BASICS(sg, btu) .density = (sg) * AIR_DENSITY, .specific_gravity = (sg), \
                             .heat = (btu) * BTU_FT3 / ((sg) * AIR_DENSITY)

const char *const hob_fuel_names[HOB_N_FUELS + 1] = {
  [HOB_FUEL_NATURAL] = "natural-gas",
  [HOB_FUEL_LP] = "lp",
};

const HobFuel hob_fuels[HOB_N_FUELS] = {
  [HOB_FUEL_NATURAL] = {
    FUEL_BASICS (0.60, 1040), /* National Fuel Gas Code, Annex E */
    .viscosity = 1.08e-5,     /* methane at 15 °C; from memory */
    .air = 9.55,              /* ft³/ft³, of methane: 2/0.2095 */
    .lean = 0.05,             /* NFPA 325 */
    .rich = 0.15,
    .autoignition = 537 + 273.15,
    .spark_energy = 0.28e-3,  /* J, 0.28–0.30 mJ */
    .quench = 2.0e-3,         /* 2.0–2.5 mm; from memory */
    .hot_surface = 1000 + 273.15,
    .yellow_below = 0.45,
  },
  [HOB_FUEL_LP] = {
    FUEL_BASICS (1.52, 2516), /* commercial propane */
    .viscosity = 8.0e-6,      /* propane at 15 °C; from memory */
    .air = 23.86,             /* 5/0.2095 */
    .lean = 0.021,            /* NFPA 325 */
    .rich = 0.095,
    .autoignition = 450 + 273.15,
    .spark_energy = 0.25e-3,  /* J, 0.25–0.26 mJ */
    .quench = 1.8e-3,         /* 1.8–2.0 mm; from memory */
    .hot_surface = 940 + 273.15,
    .yellow_below = 0.50,
  },
};

/* Every node's vent to the room, kg/s/Pa: a pipe shut at both ends comes to rest at 0 Pa. */
static const double vent = 1e-13;

/* Below this the orifice law bends into a straight line, as the laminar flow there is, Pa. */
static const double laminar = 1;

/* q = A·√(2ρ)·Δp/(Δp² + δ²)^¼: the square root from a few Pa up (4·10⁻⁶ low at 1 in. w.c.). */
static inline double
orifice (double area_cd, double dp, double density, double *slope)
{
  double square = dp * dp + laminar * laminar;
  double per_dp = area_cd * sqrt (2 * density) / sqrt (sqrt (square));

  *slope = per_dp * (1 - 0.5 * dp * dp / square);
  return per_dp * dp;
}

double
hob_orifice_flow (double area_cd, double dp, double density)
{
  double slope;

  return orifice (area_cd, dp, density, &slope);
}

/* The same asked backwards: with z = q/(A·√(2ρ)), Δp⁴ = z⁴·(Δp² + δ²), a quadratic in Δp². */
static inline double
orifice_drop (double area_cd, double q, double density)
{
  double z = q / (area_cd * sqrt (2 * density));
  double z4 = z * z * z * z;

  return copysign (sqrt (0.5 * (z4 + sqrt (z4 * (z4 + 4 * laminar * laminar)))), q);
}

/* Friction as the number N = f·Re², f Darcy's factor, of the Reynolds number: 64·Re below 2,000,
 * Haaland (1983) above 4,000 and a smooth blend of the two f between.  rough: (ε/3.7D)^1.11. */
static double
friction_number (double re, double rough, double *slope)
{
  const double from = 2000, to = 4000;

  *slope = 64;
  if (re <= from)
    return 64 * re;

  double inside = 6.9 / re + rough;
  double root = -1.8 / G_LN10 * log (inside); /* 1/√f */
  double f = 1 / (root * root);
  double df = -2 * f / root * (1.8 / G_LN10) * (6.9 / (re * re)) / inside;
  double u = MIN ((re - from) / (to - from), 1);
  double w = u * u * (3 - 2 * u), dw = 6 * u * (1 - u) / (to - from);
  double blend = (1 - w) * 64 / re + w * f;
  double dblend = dw * (f - 64 / re) - (1 - w) * 64 / (re * re) + w * df;

  *slope = re * (2 * blend + re * dblend);
  return re * re * blend;
}

static double
roughness_term (double bore)
{
  const double epsilon = 0.045e-3; /* m, commercial steel (Moody 1944) */

  return pow (epsilon / (3.7 * bore), 1.11);
}

/* Δp/L = N·μ²/(2ρD³), since v = Re·μ/(ρD). */
double
hob_pipe_gradient (double bore, double q, const HobFuel *fuel)
{
  double re = 4 * fabs (q) / (G_PI * bore * fuel->viscosity), slope;
  double n = friction_number (re, roughness_term (bore), &slope);
  double scale = fuel->viscosity * fuel->viscosity / (2 * fuel->density * bore * bore * bore);

  return copysign (n * scale, q);
}

/* Reynolds number that has friction number n: N/64 bounds it above, as no flow rubs less than a
 * laminar one, and 2,000 below; Newton between those ends, halving where it would leave them. */
static double
reynolds_of (double n, double rough)
{
  double low = 2000, high = n / 64, slope;

  if (high <= low)
    return high;

  double re = MAX (low, MIN (high, pow (n / 0.316, 4.0 / 7))); /* Blasius starts it */
  for (int k = 0; k < 60; k++)
    {
      double miss = friction_number (re, rough, &slope) - n;

      if (miss > 0)
        high = re;
      else
        low = re;
      if (fabs (miss) <= 1e-12 * n || high - low <= 1e-12 * high)
        break;
      re -= miss / slope;
      if (!(re > low && re < high))
        re = (low + high) / 2;
    }

  return re;
}

/* A duct replaced by a straight line through its operating point: q = by_a·p_a − by_b·p_b + c. */
typedef struct
{
  double by_a, by_b; /* kg/s/Pa, never negative */
  double c;          /* kg/s */
  double open;       /* REGULATOR: its travel u at the operating point, 0 shut … 1 open */
} Line;

/* Flow that the line gives. */
static inline double
along (const Line *line, double pa, double pb)
{
  return line->by_a * pa - line->by_b * pb + line->c;
}

/* The line of a law that knows only Δp, touching it at (dp, q); head: what a supply adds to p_a. */
static inline Line
touch (double dp, double q, double slope, double head)
{
  return (Line) { slope, slope, q + slope * (head - dp), 0 };
}

static Line
orifice_line (const HobDuct *duct, const HobFuel *fuel, double dp, double head)
{
  double slope, q = orifice (duct->area, dp, fuel->density, &slope);

  return touch (dp, q, slope, head);
}

/* μ²/(2ρD³)·L, the pressure drop that belongs to friction number 1: v = Re·μ/(ρD). */
static double
pipe_scale (const HobDuct *duct, const HobFuel *fuel)
{
  double mu = fuel->viscosity, bore = duct->bore;

  return mu * mu * duct->length / (2 * fuel->density * bore * bore * bore);
}

static Line
pipe_line (const HobDuct *duct, const HobFuel *fuel, double re, double sign)
{
  double per_re = G_PI / 4 * duct->bore * fuel->viscosity; /* kg/s */
  double scale = pipe_scale (duct, fuel), n_slope;
  double n = friction_number (re, re > 2000 ? roughness_term (duct->bore) : 0, &n_slope);

  return touch (sign * n * scale, sign * re * per_re, per_re / (n_slope * scale), 0);
}

/* Share of its area that a regulator opens at travel u: straight, but rounded into fully open over
 * a tenth.  Shut is a corner on purpose: where next to nothing flows the outlet stands right
 * there. */
static double
regulator_opening (double u, double *slope)
{
  const double corner = 0.1;
  double left = 1 - u;

  *slope = 0;
  if (u <= 0)
    return 0;
  if (left <= -corner)
    return 1;

  *slope = 1;
  if (left >= corner)
    return u;

  *slope = (left + corner) / (2 * corner);
  return 1 - (left + corner) * (left + corner) / (4 * corner);
}

static double
regulator_span (const HobDuct *duct)
{
  return 2 * duct->lockup * duct->set;
}

static double
regulator_travel (const HobDuct *duct, double pb)
{
  return (duct->set * (1 + duct->lockup) - pb) / regulator_span (duct);
}

/* The line at travel u and, across the opening, dp.  The sense of the outlet adds to by_b: as p_b
 * falls it opens. Flow backwards would fall as the valve closes; leaving that out keeps the slope
 * positive. */
static Line
regulator_line (const HobDuct *duct, const HobFuel *fuel, double u, double dp)
{
  double opens, slope, unit_slope;
  double area = duct->area * regulator_opening (u, &opens) + duct->leak;
  double q = orifice (area, dp, fuel->density, &slope);
  double unit = orifice (duct->area, dp, fuel->density, &unit_slope);
  double sense = MAX (unit, 0) * opens / regulator_span (duct);
  double pb = duct->set * (1 + duct->lockup) - u * regulator_span (duct);

  return (Line) { slope, slope + sense, q - slope * dp + sense * pb, u };
}

/* How far the travel may go in one iteration: from one end beyond the other it stops half-way, and
 * it comes down to shut by steps of 64, lest it jump between ends where its line is flat and says
 * nothing. */
static double
limit_travel (double from, double to)
{
  const double tiny = 1e-8;

  if ((from <= 0 && to >= 1) || (from >= 1 && to <= 0))
    return 0.5;
  if (from > tiny && to <= 0)
    return from / 64;
  return to;
}

/* What a duct's law says at pressures pa, pb, by its newest line.  A regulator's line reaches past
 * shut as if the valve could open less than not at all, so its law is asked again. */
static double
flow_by_law (const HobDuct *duct, const HobFuel *fuel, const Line *line, double pa, double pb)
{
  double slope;

  if (duct->law != HOB_DUCT_REGULATOR)
    return along (line, pa, pb);

  double area = duct->area * regulator_opening (regulator_travel (duct, pb), &slope) + duct->leak;
  return orifice (area, pa - pb, fuel->density, &slope);
}

/* Line of a duct at pressures pa, pb: where the iteration starts. */
static Line
line_at_pressures (const HobDuct *duct, const HobFuel *fuel, double pa, double pb)
{
  double dp = pa - pb;

  switch (duct->law)
    {
    case HOB_DUCT_REGULATOR:
      return regulator_line (duct, fuel, regulator_travel (duct, pb), dp);
    case HOB_DUCT_ORIFICE:
      return orifice_line (duct, fuel, dp, 0);
    case HOB_DUCT_SUPPLY:
      return orifice_line (duct, fuel, dp + duct->set, duct->set);
    case HOB_DUCT_PIPE:
      if (duct->bore > 0)
        return pipe_line (duct, fuel, reynolds_of (fabs (dp) / pipe_scale (duct, fuel),
                                                   roughness_term (duct->bore)), dp < 0 ? -1 : 1);
      break;
    case HOB_DUCT_ABSENT:
      break;
    }

  return (Line) { 0, 0, 0, 0 };
}

/* Line for the next iteration, from what the last lines gave: pressures and flow. */
static Line
line_at_flow (const HobDuct *duct, const HobFuel *fuel, double pa, double pb, double q,
              double was_open)
{
  switch (duct->law)
    {
    case HOB_DUCT_REGULATOR:
      {
        double opens, u = limit_travel (was_open, regulator_travel (duct, pb));
        double area = duct->area * regulator_opening (u, &opens) + duct->leak;
        double dp = area > 0 ? orifice_drop (area, q, fuel->density) : 0;

        /* Regulating, the drop that stands is the truth; wide open, the one that the flow needs,
         * and that is more. */
        return regulator_line (duct, fuel, u, MAX (dp, pa - pb));
      }
    case HOB_DUCT_ORIFICE:
      if (duct->area > 0)
        return orifice_line (duct, fuel, orifice_drop (duct->area, q, fuel->density), 0);
      break;
    case HOB_DUCT_SUPPLY:
      if (duct->area > 0)
        return orifice_line (duct, fuel, orifice_drop (duct->area, q, fuel->density), duct->set);
      break;
    case HOB_DUCT_PIPE:
      if (duct->bore > 0)
        return pipe_line (duct, fuel, fabs (q) / (G_PI / 4 * duct->bore * fuel->viscosity),
                          q < 0 ? -1 : 1);
      break;
    case HOB_DUCT_ABSENT:
      break;
    }

  return (Line) { 0, 0, 0, 0 };
}

struct _HobGas
{
  HobPattern pattern; /* owned */
  int n_ducts;
  int *slot;            /* owned: of each duct, −1 where both ends are one node */
  gboolean *forward;    /* owned: the duct points as its slot does */
  int *end_a, *end_b;   /* owned: rows, the reference being row n */
};

HobGas *
hob_gas_new (int n_nodes, const HobBranch *ducts, int n_ducts)
{
  HobGas *gas = g_new0 (HobGas, 1);
  g_autofree int *ends = g_new (int, 2 * (n_ducts + n_nodes) + 1);

  for (int d = 0; d < n_ducts; d++)
    {
      ends[2 * d] = ducts[d].a;
      ends[2 * d + 1] = ducts[d].b;
    }
  for (int k = 0; k < n_nodes; k++) /* the vents */
    {
      ends[2 * (n_ducts + k)] = k;
      ends[2 * (n_ducts + k) + 1] = -1;
    }
  hob_pattern_init (&gas->pattern, n_nodes, ends, n_ducts + n_nodes);

  gas->n_ducts = n_ducts;
  gas->slot = g_new (int, n_ducts + 1);
  gas->forward = g_new (gboolean, n_ducts + 1);
  gas->end_a = g_new (int, n_ducts + 1);
  gas->end_b = g_new (int, n_ducts + 1);
  for (int d = 0; d < n_ducts; d++)
    {
      gas->slot[d] = hob_pattern_slot (&gas->pattern, ducts[d].a, ducts[d].b, &gas->forward[d]);
      gas->end_a[d] = gas->pattern.row[ducts[d].a < 0 ? n_nodes : ducts[d].a];
      gas->end_b[d] = gas->pattern.row[ducts[d].b < 0 ? n_nodes : ducts[d].b];
    }

  return gas;
}

void
hob_gas_free (HobGas *gas)
{
  if (gas == NULL)
    return;

  hob_pattern_clear (&gas->pattern);
  g_free (gas->slot);
  g_free (gas->forward);
  g_free (gas->end_a);
  g_free (gas->end_b);
  g_free (gas);
}

/* An edge of the linear net: its flow from the earlier row to the later is out·p_early − in·p_late
 * + c. */
typedef struct
{
  double out, in, c;
} Edge;

/* Workspace of a solve; rows 0 … n, the reference last. */
typedef struct
{
  Edge *edge; /* per slot */
  Line *line; /* per duct */
  double *p;  /* per row, Pa */
  double *q;  /* per duct, kg/s: what the lines give at p */
} Work;

gsize
hob_gas_work_size (const HobGas *gas)
{
  return 3 * (gsize) gas->pattern.n_slots + 5 * (gsize) gas->n_ducts + (gsize) gas->pattern.n + 1;
}

static Work
lay_out (const HobGas *gas, double *memory)
{
  Work work = { .edge = (Edge *) memory };

  work.line = (Line *) (work.edge + gas->pattern.n_slots);
  work.p = (double *) (work.line + gas->n_ducts);
  work.q = work.p + gas->pattern.n + 1;
  return work;
}

static void
load_lines (const HobGas *gas, Work *work)
{
  const HobPattern *pattern = &gas->pattern;

  memset (work->edge, 0, (gsize) pattern->n_slots * sizeof (Edge));
  for (int d = 0; d < gas->n_ducts; d++)
    {
      const Line *line = &work->line[d];
      Edge *e = work->edge + gas->slot[d];

      if (gas->slot[d] < 0)
        continue;
      e->out += gas->forward[d] ? line->by_a : line->by_b;
      e->in += gas->forward[d] ? line->by_b : line->by_a;
      e->c += gas->forward[d] ? line->c : -line->c;
    }
  for (int k = 0; k < pattern->n; k++)
    work->edge[pattern->start[k + 1] - 1].out
        += vent; /* the reference is each row's last neighbour */
}

/* Pressures of the linear net.  What leaves row k arrives somewhere, the room included, so its
 * diagonal is the sum of its `out`; elimination sends the star of k into the mesh of its
 * neighbours (compare circuit.c):
 *
 *   p_k = (Σ in·p_later − Σ c)/D,  D = Σ out,  s = out/D:
 *   between p and q:  out += in_p·s_q,  in += in_q·s_p,  c += s_p·c_q − s_q·c_p.
 *
 * Only sums of positive slopes: no pivots, no differences. */
static void
solve_lines (const HobGas *gas, Work *work)
{
  const HobPattern *pattern = &gas->pattern;

  for (int k = 0; k < pattern->n; k++)
    {
      Edge *row = work->edge + pattern->start[k];
      const int *target = pattern->target + pattern->pair[k];
      int m = pattern->start[k + 1] - pattern->start[k];
      double diagonal = 0, c = 0;

      for (int p = 0; p < m; p++)
        {
          diagonal += row[p].out;
          c += row[p].c;
        }

      double r = 1 / diagonal; /* > 0: the vent is in it */
      for (int p = 0; p < m; p++)
        for (int q = p + 1; q < m; q++)
          {
            Edge *t = work->edge + *target++;
            t->out += row[p].in * row[q].out * r;
            t->in += row[q].in * row[p].out * r;
            t->c += (row[p].out * row[q].c - row[q].out * row[p].c) * r;
          }
      for (int p = 0; p < m; p++)
        row[p].in *= r;
      work->p[k] = -c * r;
    }

  work->p[pattern->n] = 0;
  for (int k = pattern->n - 1; k >= 0; k--)
    for (int s = pattern->start[k]; s < pattern->start[k + 1]; s++)
      work->p[k] += work->edge[s].in * work->p[pattern->later[s]];
}

/* Solves the lines, then draws each duct's next one.  *met: in every duct what the next line gives
 * at the pressures found is the flow that was found, to 10⁻⁹ of it and to rounding; the error
 * after that step is its square. */
static void
iterate (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, gboolean damp, Work *work,
         gboolean *met)
{
  const double enough = 1e-9, rounding = 1e-15;

  *met = TRUE;
  solve_lines (gas, work);
  for (int d = 0; d < gas->n_ducts; d++)
    {
      Line *line = &work->line[d];
      double pa = work->p[gas->end_a[d]], pb = work->p[gas->end_b[d]];
      double q = along (line, pa, pb);
      double aim = damp ? (q + work->q[d]) / 2 : q;

      *line = line_at_flow (&ducts[d], fuel, pa, pb, aim, line->open);
      work->q[d] = q;

      double gap = fabs (flow_by_law (&ducts[d], fuel, line, pa, pb) - q);
      double noise = rounding * (line->by_a * fabs (pa) + line->by_b * fabs (pb) + fabs (line->c));
      *met = *met && gap <= enough * fabs (q) + noise; /* FALSE for a NaN */
    }
}

/* Newton on flows and pressures at once (the global gradient method of water nets, Todini and
 * Pilati 1988): after each linear solve a duct's new line touches its law where it carries the
 * *flow* found, not where it has the drop found. Δp(q) is about q·|q|, gentle everywhere, where
 * q(Δp) has a cliff at 0; so the method does not circle there. */
static int
converge (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, Work *work)
{
  const int most = 200, patience = 25;

  for (int k = 1; k <= most; k++)
    {
      gboolean met;

      load_lines (gas, work);
      iterate (gas, ducts, fuel, k > patience && k % 4 != 0, work, &met);
      if (met)
        return k;
    }

  return -1;
}

int
hob_gas_solve (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, double *p, double *q,
               double *work)
{
  const HobPattern *pattern = &gas->pattern;
  Work w = lay_out (gas, work);

  w.p[pattern->n] = 0;
  for (int k = 0; k < pattern->n; k++)
    w.p[pattern->row[k]] = p[k];
  for (int d = 0; d < gas->n_ducts; d++)
    {
      double pa = w.p[gas->end_a[d]], pb = w.p[gas->end_b[d]];

      w.line[d] = line_at_pressures (&ducts[d], fuel, pa, pb);
      w.q[d] = along (&w.line[d], pa, pb);
    }

  int used = converge (gas, ducts, fuel, &w);

  for (int k = 0; k < pattern->n; k++)
    p[k] = w.p[pattern->row[k]];
  for (int d = 0; d < gas->n_ducts; d++)
    q[d] = w.q[d];
  return used;
}

static double
largest (const double *values, int n)
{
  double worst = 0;

  for (int k = 0; k < n; k++)
    worst = MAX (worst, fabs (values[k]));

  return worst;
}

double
hob_gas_residual (const HobGas *gas, const double *p, const double *q)
{
  const HobPattern *pattern = &gas->pattern;
  g_autofree double *sum = g_new0 (double, pattern->n + 1);

  for (int k = 0; k < pattern->n; k++)
    sum[pattern->row[k]] = vent * p[k];
  for (int d = 0; d < gas->n_ducts; d++)
    {
      sum[gas->end_a[d]] += q[d];
      sum[gas->end_b[d]] -= q[d];
    }

  return largest (sum, pattern->n);
}
