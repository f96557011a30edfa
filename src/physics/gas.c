/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/gas.h"

#include "base/i18n.h"
#include "physics/sparse.h"

#include <math.h>
#include <string.h>

/* The gas trade measures volumes at 60 °F and 30 in Hg, saturated with water; air is then 1.2184 kg/m³, which is also
 * what stands behind the 1658.5 of the National Fuel Gas Code's orifice formula. */
#define AIR_DENSITY 1.2184
/* Btu (IT) per ft³ in J/m³. */
#define BTU_FT3 (1055.056 / 0.028316847)

#define FUEL_BASICS(sg, btu) .density = (sg) * AIR_DENSITY, .specific_gravity = (sg), \
                             .heat = (btu) * BTU_FT3 / ((sg) * AIR_DENSITY)

const HobFuel hob_fuels[HOB_N_FUELS] = {
  [HOB_FUEL_NATURAL] = {
    .name = "natural-gas",
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
    .name = "lp",
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

/* A flow and its slopes: into b as the inlet rises, out of a as the outlet falls; neither is ever negative. */
typedef struct
{
  double q;              /* kg/s from a to b */
  double by_a, by_b;     /* ∂q/∂p_a, −∂q/∂p_b, kg/s/Pa */
} Flow;

/* q = A·√(2ρ)·Δp/(Δp² + δ²)^¼: the square root from a few Pa up (4·10⁻⁶ low at 1 in. w.c.), a straight line through
 * 0, as the laminar flow there is. */
static inline double
orifice (double area_cd, double dp, double density, double *slope)
{
  const double delta = 1; /* Pa */
  double square = dp * dp + delta * delta;
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

/* Friction as the number N = f·Re², f Darcy's factor, of the Reynolds number: 64·Re below 2,000, Haaland (1983)
 * above 4,000 and a smooth blend of the two f between.  rough: (ε/3.7D)^1.11. */
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

/* Reynolds number that has friction number n: N/64 bounds it above, as no flow rubs less than a laminar one, and
 * 2,000 below; Newton between those ends, halving where it would leave them. */
static double
reynolds_of (double n, double rough, double *slope)
{
  double low = 2000, high = n / 64;

  if (high <= low)
    {
      *slope = 64;
      return high;
    }

  double re = MAX (low, MIN (high, pow (n / 0.316, 4.0 / 7))); /* Blasius starts it */
  for (int k = 0; k < 60; k++)
    {
      double miss = friction_number (re, rough, slope) - n;

      if (miss > 0)
        high = re;
      else
        low = re;
      if (fabs (miss) <= 1e-13 * n || high - low <= 1e-13 * high)
        break;
      re -= miss / *slope;
      if (!(re > low && re < high))
        re = (low + high) / 2;
    }

  return re;
}

static double
pipe_flow (const HobDuct *duct, const HobFuel *fuel, double dp, double *slope)
{
  double bore = duct->bore;
  double per_re = G_PI / 4 * bore * fuel->viscosity;
  double per_dp = 2 * fuel->density * bore * bore * bore
                  / (fuel->viscosity * fuel->viscosity * duct->length);
  double n = fabs (dp) * per_dp, n_slope;
  double re = reynolds_of (n, n > 128000 ? roughness_term (bore) : 0, &n_slope);

  *slope = per_re * per_dp / n_slope;
  return copysign (per_re * re, dp);
}

/* Share of its area that a regulator opens at outlet p: a ramp from shut at set·(1 + lockup) to open at
 * set·(1 − lockup), its corners rounded over a tenth of it. */
static double
regulator_opening (const HobDuct *duct, double p, double *slope)
{
  const double corner = 0.1;
  double span = 2 * duct->lockup * duct->set;
  double x = (duct->set * (1 + duct->lockup) - p) / span;
  double end = x < 0.5 ? x : 1 - x; /* distance from the nearer corner */

  if (end >= corner)
    {
      *slope = 1 / span;
      return x;
    }
  if (end <= -corner)
    {
      *slope = 0;
      return x < 0.5 ? 0 : 1;
    }

  double rounded = (end + corner) * (end + corner) / (4 * corner);
  *slope = (end + corner) / (2 * corner) / span;
  return x < 0.5 ? rounded : 1 - rounded;
}

static Flow
regulator_flow (const HobDuct *duct, const HobFuel *fuel, double pa, double pb)
{
  double opens, slope;
  double area = regulator_opening (duct, pb, &opens) * duct->area + duct->leak;
  double q = orifice (area, pa - pb, fuel->density, &slope);
  double per_area = area > 0 ? q / area : orifice (1, pa - pb, fuel->density, &(double) { 0 });

  /* Flow backwards would fall as the valve closes; leaving that out keeps every slope positive. */
  return (Flow) { q, slope, slope + MAX (per_area, 0) * duct->area * opens };
}

static Flow
duct_flow (const HobDuct *duct, const HobFuel *fuel, double pa, double pb)
{
  double slope = 0, q = 0;

  switch (duct->law)
    {
    case HOB_DUCT_REGULATOR:
      return regulator_flow (duct, fuel, pa, pb);
    case HOB_DUCT_ORIFICE:
      q = orifice (duct->area, pa - pb, fuel->density, &slope);
      break;
    case HOB_DUCT_SUPPLY:
      q = orifice (duct->area, pa + duct->set - pb, fuel->density, &slope);
      break;
    case HOB_DUCT_PIPE:
      if (duct->bore > 0)
        q = pipe_flow (duct, fuel, pa - pb, &slope);
      break;
    case HOB_DUCT_ABSENT:
      break;
    }

  return (Flow) { q, slope, slope };
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

/* Slopes of an edge: how the flow into its later row grows with the pressure of the earlier, and the other way. */
typedef struct
{
  double out, in;
} Slopes;

/* Workspace of a solve, rows 0 … n. */
typedef struct
{
  Slopes *slopes;      /* per slot */
  Flow *flow;          /* per duct */
  double *p, *trial;   /* Pa */
  double *surplus;     /* kg/s that runs into a row and not out again */
  double *step;        /* Pa */
} Work;

gsize
hob_gas_work_size (const HobGas *gas)
{
  return 2 * (gsize) gas->pattern.n_slots + 3 * (gsize) gas->n_ducts + 4 * (gsize) (gas->pattern.n + 1);
}

static Work
lay_out (const HobGas *gas, double *memory)
{
  gsize rows = (gsize) gas->pattern.n + 1;
  Work work = { .slopes = (Slopes *) memory };

  work.flow = (Flow *) (work.slopes + gas->pattern.n_slots);
  work.p = (double *) (work.flow + gas->n_ducts);
  work.trial = work.p + rows;
  work.surplus = work.trial + rows;
  work.step = work.surplus + rows;
  return work;
}

/* Flows and surpluses at pressures p; → the sum of all surpluses' sizes, the measure that each step lowers. */
static double
evaluate (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, const double *p, Work *work)
{
  int n = gas->pattern.n;
  double total = 0;

  for (int k = 0; k <= n; k++)
    work->surplus[k] = -vent * p[k];
  for (int d = 0; d < gas->n_ducts; d++)
    {
      work->flow[d] = duct_flow (&ducts[d], fuel, p[gas->end_a[d]], p[gas->end_b[d]]);
      work->surplus[gas->end_a[d]] -= work->flow[d].q;
      work->surplus[gas->end_b[d]] += work->flow[d].q;
    }
  for (int k = 0; k < n; k++)
    total += fabs (work->surplus[k]);

  return total;
}

static void
load_slopes (const HobGas *gas, double leak, Work *work)
{
  const HobPattern *pattern = &gas->pattern;

  memset (work->slopes, 0, (gsize) pattern->n_slots * sizeof (Slopes));
  for (int d = 0; d < gas->n_ducts; d++)
    {
      Slopes *s = work->slopes + gas->slot[d];
      const Flow *flow = &work->flow[d];

      if (gas->slot[d] < 0)
        continue;
      s->out += gas->forward[d] ? flow->by_a : flow->by_b;
      s->in += gas->forward[d] ? flow->by_b : flow->by_a;
    }
  for (int k = 0; k < pattern->n; k++)
    work->slopes[pattern->start[k + 1] - 1].out += leak; /* the reference is each row's last neighbour */
}

/* Newton's step: Σ_out·δ_k − Σ in·δ_p = surplus_k in every row.  The column of k holds only slopes that are positive
 * off the diagonal and whose sum is the diagonal (what leaves k arrives somewhere, the room included), so elimination
 * needs neither pivots nor differences. */
static void
newton_step (const HobGas *gas, Work *work)
{
  const HobPattern *pattern = &gas->pattern;
  double *b = work->step;

  memcpy (b, work->surplus, ((gsize) pattern->n + 1) * sizeof (double));
  for (int k = 0; k < pattern->n; k++)
    {
      Slopes *row = work->slopes + pattern->start[k];
      const int *later = pattern->later + pattern->start[k];
      const int *target = pattern->target + pattern->pair[k];
      int m = pattern->start[k + 1] - pattern->start[k];
      double diagonal = 0;

      for (int p = 0; p < m; p++)
        diagonal += row[p].out;

      double r = 1 / diagonal; /* > 0: the vent is in it */
      for (int p = 0; p < m; p++)
        {
          double share = row[p].out * r;

          b[later[p]] += share * b[k];
          row[p].in *= r;
          for (int q = p + 1; q < m; q++)
            {
              Slopes *t = work->slopes + *target++;
              t->out += row[p].in * row[q].out;
              t->in += share * row[q].in;
            }
        }
      b[k] *= r;
    }

  b[pattern->n] = 0;
  for (int k = pattern->n - 1; k >= 0; k--)
    for (int s = pattern->start[k]; s < pattern->start[k + 1]; s++)
      b[k] += work->slopes[s].in * b[pattern->later[s]];
}

/* Moves along the step as far as it lowers the total surplus. */
static gboolean
line_search (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, double *total, Work *work)
{
  int n = gas->pattern.n;

  for (double share = 1; share > 1e-4; share /= 2)
    {
      for (int k = 0; k <= n; k++)
        work->trial[k] = work->p[k] + share * work->step[k];

      double now = evaluate (gas, ducts, fuel, work->trial, work);
      if (now <= (1 - 1e-4 * share) * *total)
        {
          *total = now;
          memcpy (work->p, work->trial, ((gsize) n + 1) * sizeof (double));
          return TRUE;
        }
    }

  *total = evaluate (gas, ducts, fuel, work->p, work);
  return FALSE;
}

static double
largest (const double *values, int n)
{
  double worst = 0;

  for (int k = 0; k < n; k++)
    worst = MAX (worst, fabs (values[k]));

  return worst;
}

/* What rounding alone leaves of the sums of the flows. */
static double
rounding (const HobGas *gas, const Work *work)
{
  double sum = 0;

  for (int d = 0; d < gas->n_ducts; d++)
    sum += fabs (work->flow[d].q) + (work->flow[d].by_a + work->flow[d].by_b) * 1e3;

  return sum * 1e-15;
}

/* Newton, damped by the line search.  Where that stalls, every node gets an extra leak in the slopes, which bends the
 * step towards the plain flow of time (each node filling at its surplus): in such a net that always lowers the total,
 * so the leak is doubled until a step is accepted and falls again after. */
static int
iterate (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, Work *work)
{
  const int most = 200;
  const double enough = 1e-9; /* Pa and relative; the next step, squared, would be below rounding */
  double total = evaluate (gas, ducts, fuel, work->p, work);
  double leak = vent;

  for (int k = 1; k <= most; k++)
    {
      load_slopes (gas, leak, work);
      newton_step (gas, work);

      gboolean small = leak == vent
                       && largest (work->step, gas->pattern.n)
                            <= enough * (1 + largest (work->p, gas->pattern.n));
      if (!isfinite (total))
        return -1;
      if (line_search (gas, ducts, fuel, &total, work))
        leak = leak > 1e-12 ? leak / 16 : vent;
      else if (small || total <= rounding (gas, work))
        return k;
      else
        leak = MAX (leak * 64, 1e-12);
      if (small)
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

  int used = iterate (gas, ducts, fuel, &w);

  for (int k = 0; k < pattern->n; k++)
    p[k] = w.p[pattern->row[k]];
  for (int d = 0; d < gas->n_ducts; d++)
    q[d] = w.flow[d].q;
  return used;
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
