/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/gas.h"

#include "physics/integrate.h"
#include "physics/sparse.h"

#include <math.h>
#include <string.h>

/* Signs: pressures are gauge, Pa. A flow is positive from end a of a duct to end b, kg/s. */

/* ---- Fuels ----
 *
 * The gas trade measures volumes at 60 °F and 30 in. Hg, saturated with water. Air then has
 * 1.2184 kg/m³; the factor 1658.5 in the orifice formula of the National Fuel Gas Code implies
 * the same. 1 Btu (IT) is 1055.056 J, 1 ft³ is 0.028316847 m³. */
#define AIR_DENSITY 1.2184
#define BTU_FT3 (1055.056 / 0.028316847) /* J/m³ */

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
    .air = 9.55,              /* of methane: 2/0.2095 (derived) */
    .carbon = 1,              /* methane, CH4 */
    .lean = 0.05,             /* methane, NFPA 325 */
    .rich = 0.15,
    .autoignition = 537 + 273.15, /* methane, NFPA 325; another source has 630 °C */
    .spark_energy = 0.28e-3,  /* 0.28 to 0.30 mJ, US Bureau of Mines Bulletin 627 */
    .quench = 2.0e-3,         /* 2.0 to 2.5 mm; from memory */
    .hot_surface = 1000 + 273.15, /* this project's figure */
    .yellow_below = 0.45,     /* this project's figure */
  },
  [HOB_FUEL_LP] = {
    FUEL_BASICS (1.52, 2516), /* commercial propane, GPA 2145; another table has 2,572 */
    .viscosity = 8.0e-6,      /* propane at 15 °C; from memory */
    .air = 23.86,             /* of propane: 5/0.2095 (derived) */
    .carbon = 3,              /* propane, C3H8 */
    .lean = 0.021,            /* propane, NFPA 325 */
    .rich = 0.095,
    .autoignition = 450 + 273.15, /* propane, NFPA 325 */
    .spark_energy = 0.25e-3,  /* 0.25 to 0.26 mJ, US Bureau of Mines Bulletin 627 */
    .quench = 1.8e-3,         /* 1.8 to 2.0 mm; from memory */
    .hot_surface = 940 + 273.15, /* this project's figure */
    .yellow_below = 0.50,     /* this project's figure */
  },
};

/* ---- The laws of the ducts ---- */

/* Every node leaks this much to the room, kg/s/Pa, so that a pipe closed at both ends settles at 0
 * Pa. It is far below anything that a manometer or a flame could notice. */
static const double vent = 1e-13;

/* Below this drop, Pa, the orifice law bends into a straight line, as laminar flow does. */
static const double laminar = 1;

/* Torricelli's law, q = A·√(2·ρ·Δp), smoothed at zero with δ = 1 Pa:
 *
 *   q  = A·√(2·ρ)·Δp/(Δp² + δ²)^¼
 *   q′ = q/Δp·(1 − Δp²/(2·(Δp² + δ²)))
 *
 * A includes the discharge coefficient. At 1 in. w.c. it is 4·10⁻⁶ below the square root. @root is
 * √(2·ρ). */
static inline double
orifice (double area_cd, double dp, double root, double *slope)
{
  double square = dp * dp + laminar * laminar;
  double per_dp = area_cd * root / sqrt (sqrt (square));

  *slope = per_dp * (1 - 0.5 * dp * dp / square);
  return per_dp * dp;
}

/* The inverse. With z = q/(A·√(2·ρ)) the law reads Δp⁴ = z⁴·(Δp² + δ²), a quadratic in Δp². */
static inline double
orifice_drop (double area_cd, double q, double root)
{
  double z = q / (area_cd * root);
  double z4 = z * z * z * z;

  return copysign (sqrt (0.5 * (z4 + sqrt (z4 * (z4 + 4 * laminar * laminar)))), q);
}

/* Darcy's law for a round pipe of diameter D and length L, with velocity v = Re·μ/(ρ·D):
 *
 *   Δp = f·(L/D)·ρ·v²/2 = N·μ²·L/(2·ρ·D³),   N = f·Re²,   q = π/4·D·μ·Re
 *
 * The number N holds all that depends on the flow. Darcy's friction factor f is 64/Re below Re =
 * 2,000 (Hagen and Poiseuille); above 4,000 it follows S. E. Haaland (J. Fluids Eng. 105 (1983)
 * 89):
 *
 *   1/√f = −1.8·lg(6.9/Re + (ε/(3.7·D))^1.11)
 *
 * Nothing is published for the range between. Here f blends from one to the other with 3u² − 2u³.
 * rough is the term with the roughness ε. Returns N; *slope is dN/dRe. */
static double
friction_number (double re, double rough, double *slope)
{
  const double from = 2000, to = 4000;

  *slope = 64;
  if (re <= from)
    return 64 * re;

  double inside = 6.9 / re + rough;
  double root = -1.8 / G_LN10 * log (inside);
  double f = 1 / (root * root);
  double df = -2 * f / root * (1.8 / G_LN10) * (6.9 / (re * re)) / inside;
  double u = MIN ((re - from) / (to - from), 1);
  double w = u * u * (3 - 2 * u), dw = 6 * u * (1 - u) / (to - from);
  double blend = (1 - w) * 64 / re + w * f;
  double dblend = dw * (f - 64 / re) - (1 - w) * 64 / (re * re) + w * df;

  *slope = re * (2 * blend + re * dblend);
  return re * re * blend;
}

/* (ε/(3.7·D))^1.11 */
static double
roughness_term (double bore)
{
  const double epsilon = 0.045e-3; /* m, commercial steel: L. F. Moody, Trans. ASME 66 (1944) 671 */

  return pow (epsilon / (3.7 * bore), 1.11);
}

/* The friction number wanted, and the roughness term. */
typedef struct
{
  double n, rough;
} Friction;

/* ln N(Re)/n, over ln Re: nearly a straight line, so that few steps find its zero. */
static double
friction_above (double log_re, gpointer user)
{
  const Friction *wanted = user;
  double slope;

  return log (friction_number (exp (log_re), wanted->rough, &slope) / wanted->n);
}

/* The Reynolds number at friction number @n. No flow has less friction than a laminar one, N =
 * 64·Re, so n/64 is an upper bound. */
static double
reynolds_of (double n, double bore)
{
  if (n <= 64 * 2000)
    return n / 64;

  Friction wanted = { n, roughness_term (bore) };
  return exp (hob_locate (friction_above, &wanted, log (2000), log (n / 64) + 1e-9, 1e-13));
}

/* ---- Lines ----
 *
 * Newton's method replaces each duct by the tangent to its law at an operating point:
 *
 *   q = by_a·p_a − by_b·p_b + c
 *
 * For most laws by_a = by_b, the slope dq/dΔp. A regulator also senses its outlet, which adds to
 * by_b. */
typedef struct
{
  double by_a, by_b; /* kg/s/Pa, never negative */
  double c;          /* kg/s */
  double open;       /* REGULATOR: its travel u at the operating point, 0 closed … 1 open */
} Line;

/* A duct in which gas may flow, while a net is solved. */
typedef struct
{
  int d, slot;           /* which one it is, and its edge */
  int a, b;              /* rows of its ends */
  gboolean forward;      /* it points as its slot does */
  double root;           /* √(2·ρ) */
  double scale, per_re;  /* PIPE: Pa at friction number 1, kg/s at Reynolds number 1 */
  Line line;
  double q;              /* kg/s: what the line gives */
} Way;

/* The flow that a line gives. */
static inline double
along (const Line *line, double pa, double pb)
{
  return line->by_a * pa - line->by_b * pb + line->c;
}

/* The tangent at (dp, q) to a law of Δp alone. @head is what a supply adds to p_a. */
static inline Line
touch (double dp, double q, double slope, double head)
{
  return (Line) { slope, slope, q + slope * (head - dp), 0 };
}

static inline Line
orifice_line (const HobDuct *duct, double root, double dp, double head)
{
  double slope, q = orifice (duct->area, dp, root, &slope);

  return touch (dp, q, slope, head);
}

/* Pressure drop in Pa at friction number 1: μ²·L/(2·ρ·D³). */
static double
pipe_scale (const HobDuct *duct, const HobFuel *fuel)
{
  double mu = fuel->viscosity, bore = duct->bore;

  return mu * mu * duct->length / (2 * fuel->density * bore * bore * bore);
}

/* kg/s at Reynolds number 1. */
static double
pipe_flow (const HobDuct *duct, const HobFuel *fuel)
{
  return G_PI / 4 * duct->bore * fuel->viscosity;
}

/* The tangent of a pipe at the Reynolds number @re, in the direction @sign. */
static inline Line
pipe_line (const HobDuct *duct, const Way *way, double re, double sign)
{
  double n_slope;
  double n = friction_number (re, re > 2000 ? roughness_term (duct->bore) : 0, &n_slope);

  return touch (sign * n * way->scale, sign * re * way->per_re,
                way->per_re / (n_slope * way->scale), 0);
}

/* ---- The regulator ----
 *
 * Its diaphragm senses the outlet and opens the valve in proportion, over the span 2·lockup·set:
 *
 *   u = (set·(1 + lockup) − p_b)/(2·lockup·set),   0 closed, 1 open
 *
 * The opening follows u, rounded into fully open over a tenth of the travel. The corner at closed
 * is left sharp on purpose: it is the lockup pressure, and a dead-ended manifold settles exactly
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

/* Pa between closed and fully open. */
static double
regulator_span (const HobDuct *duct)
{
  return 2 * duct->lockup * duct->set;
}

/* u at the outlet pressure @pb; below 0 and above 1 it is not limited. */
static double
regulator_travel (const HobDuct *duct, double pb)
{
  return (duct->set * (1 + duct->lockup) - pb) / regulator_span (duct);
}

/* The tangent at travel u and drop dp. As p_b falls the valve opens, which adds to by_b. For gas
 * that flows backwards this term would be negative. It is left out, because elimination needs
 * slopes that are never negative; Newton then takes more steps, to the same solution. */
static Line
regulator_line (const HobDuct *duct, double root, double u, double dp)
{
  double opens, slope, unit_slope;
  double area = duct->area * regulator_opening (u, &opens) + duct->leak;
  double q = orifice (area, dp, root, &slope);
  double unit = orifice (duct->area, dp, root, &unit_slope);
  double sense = MAX (unit, 0) * opens / regulator_span (duct);
  double pb = duct->set * (1 + duct->lockup) - u * regulator_span (duct);

  return (Line) { slope, slope + sense, q - slope * dp + sense * pb, u };
}

/* How far the travel may move in one iteration. Beyond either end the tangent is flat and has no
 * information, so that Newton could jump between the ends forever: a move across the whole travel
 * stops half-way, and the valve closes in steps by a factor of 64. */
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

/* The flow by a duct's law at pressures pa and pb. The newest line knows it, but for a regulator:
 * beyond closed its line goes on as if the valve could open by less than nothing. */
static double
flow_by_law (const HobDuct *duct, const Way *way, double pa, double pb)
{
  double slope;

  if (duct->law != HOB_DUCT_REGULATOR)
    return along (&way->line, pa, pb);

  double area = duct->area * regulator_opening (regulator_travel (duct, pb), &slope) + duct->leak;
  return orifice (area, pa - pb, way->root, &slope);
}

/* The tangent at the pressures where the iteration starts. */
static Line
line_at_pressures (const HobDuct *duct, const Way *way, double pa, double pb)
{
  double dp = pa - pb;

  switch (duct->law)
    {
    case HOB_DUCT_REGULATOR:
      return regulator_line (duct, way->root, regulator_travel (duct, pb), dp);
    case HOB_DUCT_ORIFICE:
      return orifice_line (duct, way->root, dp, 0);
    case HOB_DUCT_SUPPLY:
      return orifice_line (duct, way->root, dp + duct->set, duct->set);
    case HOB_DUCT_PIPE:
      if (duct->bore > 0)
        return pipe_line (duct, way, reynolds_of (fabs (dp) / way->scale, duct->bore),
                          dp < 0 ? -1 : 1);
      break;
    case HOB_DUCT_ABSENT:
      break;
    }

  return (Line) { 0, 0, 0, 0 };
}

/* The tangent for the next iteration, at the flow q that the last lines gave. */
static Line
line_at_flow (const HobDuct *duct, const Way *way, double pa, double pb, double q)
{
  double root = way->root;

  switch (duct->law)
    {
    case HOB_DUCT_REGULATOR:
      {
        double opens, u = limit_travel (way->line.open, regulator_travel (duct, pb));
        double area = duct->area * regulator_opening (u, &opens) + duct->leak;
        double dp = area > 0 ? orifice_drop (area, q, root) : 0;

        /* A valve that regulates takes the drop that there is. A wide open one needs at least the
         * drop of its flow. */
        return regulator_line (duct, root, u, MAX (dp, pa - pb));
      }
    case HOB_DUCT_ORIFICE:
      if (duct->area > 0)
        return orifice_line (duct, root, orifice_drop (duct->area, q, root), 0);
      break;
    case HOB_DUCT_SUPPLY:
      if (duct->area > 0)
        return orifice_line (duct, root, orifice_drop (duct->area, q, root), duct->set);
      break;
    case HOB_DUCT_PIPE:
      if (duct->bore > 0)
        return pipe_line (duct, way, fabs (q) / way->per_re, q < 0 ? -1 : 1);
      break;
    case HOB_DUCT_ABSENT:
      break;
    }

  return (Line) { 0, 0, 0, 0 };
}

/* ---- The net ---- */

/* All that depends on the topology alone. A slot is an edge of the linear net; ducts between the
 * same two nodes share one. */
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
  for (int k = 0; k < n_nodes; k++) /* its vent */
    {
      ends[2 * (n_ducts + k)] = k;
      ends[2 * (n_ducts + k) + 1] = -1;
    }
  hob_pattern_init (&gas->pattern, n_nodes, ends, n_ducts + n_nodes, NULL);

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

/* What the lists of a workspace hold; all 0 before the first solve. */
struct Counts
{
  int flow, rows, legs;
  gboolean known;
};

/* An edge of the linear net between two rows. The flow from the row that is eliminated earlier to
 * the later one is  out·p_early − in·p_late + c. */
typedef struct
{
  double out, in, c;
} Edge;

/* A row at which ducts meet in which gas may flow.  Its last slot is that to the reference. */
typedef struct
{
  int k;              /* which one it is */
  int first, last;    /* its slots */
  const int *target;  /* slots of its pairs */
  double vent;        /* kg/s/Pa, with those of the legs that end in it */
} Live;

/* Workspace of a solve; rows 0 … n, the reference last. */
typedef struct
{
  struct Counts *n; /* one */
  Edge *edge;   /* per slot */
  Way *way;     /* n->flow of them, by the numbers of their ducts */
  double *p;    /* per row, Pa */
  Live *live;   /* n->rows of them, rising */
  int *leg;     /* n->legs of them: ducts of dead legs, from the far end on … */
  int *end;     /* … and the far row of each */
  int *vents;   /* per row: its own vent, and those of the legs that end in it */
  int *degree;  /* per row: ducts in which gas may flow, without the dead legs */
  int *sum;     /* scratch, per row: the sum of their numbers: of one, its number */
  guint8 *dead; /* scratch, per duct */
  guint8 *cut;  /* per duct: what the legs were cut by */
} Work;

/* Divides a workspace; NULL: there is none yet. Returns its size in doubles. */
static gsize
lay_out (const HobGas *gas, double *memory, Work *work)
{
  gsize slots = (gsize) gas->pattern.n_slots, ducts = (gsize) gas->n_ducts;
  gsize rows = (gsize) gas->pattern.n + 1, at = 0;

#define TAKE(field, type, count)                                                               \
  (work->field = memory != NULL ? (type *) (gpointer) (memory + at) : NULL,                    \
   at += ((count) * sizeof (type) + 7) / sizeof (double))
  TAKE (n, struct Counts, 1);
  TAKE (edge, Edge, slots);
  TAKE (way, Way, ducts);
  TAKE (p, double, rows);
  TAKE (live, Live, rows);
  TAKE (leg, int, rows);
  TAKE (end, int, rows);
  TAKE (vents, int, rows);
  TAKE (degree, int, rows);
  TAKE (sum, int, rows);
  TAKE (dead, guint8, ducts);
  TAKE (cut, guint8, ducts);
#undef TAKE
  return at;
}

gsize
hob_gas_work_size (const HobGas *gas)
{
  Work work;

  return lay_out (gas, NULL, &work);
}

/* ---- Dead legs ----
 *
 * A leg that ends at a closed valve has no flow but what its own vents take. In a range most legs
 * are dead most of the time. They are left out of the net, their vents are moved to the node where
 * they begin, and they are given their pressure afterwards: that node's, less the tiny drop of this
 * flow. Which ones are dead depends on which ducts are open alone; it is found anew when that
 * changes. */

static gboolean
may_flow (const HobDuct *duct)
{
  switch (duct->law)
    {
    case HOB_DUCT_ORIFICE:
    case HOB_DUCT_SUPPLY:
      return duct->area > 0;
    case HOB_DUCT_PIPE:
      return duct->bore > 0;
    case HOB_DUCT_REGULATOR:
      return TRUE;
    case HOB_DUCT_ABSENT:
      break;
    }

  return FALSE;
}

/* Without flow there is no drop, except at a closed regulator and at a supply. */
static gboolean
has_no_drop_at_rest (const HobDuct *duct)
{
  return duct->law == HOB_DUCT_PIPE || duct->law == HOB_DUCT_ORIFICE;
}

/* Takes away the leg that ends at row @k, if there is one, as far as it goes. */
static void
cut_leg (const HobGas *gas, const HobDuct *ducts, int k, Work *work)
{
  while (k < gas->pattern.n && work->degree[k] == 1 && has_no_drop_at_rest (&ducts[work->sum[k]]))
    {
      int d = work->sum[k], other = gas->end_a[d] + gas->end_b[d] - k;

      work->dead[d] = 1;
      work->degree[k] = 0;
      work->degree[other]--;
      work->sum[other] -= d;
      work->vents[other] += work->vents[k];
      work->leg[work->n->legs] = d;
      work->end[work->n->legs++] = k;
      k = other;
    }
}

/* Are the same ducts open as before?  Notes which are. */
static gboolean
are_legs_known (const HobGas *gas, const HobDuct *ducts, Work *work)
{
  gboolean known = work->n->known;

  for (int d = 0; d < gas->n_ducts; d++)
    {
      guint8 cut = (guint8) (may_flow (&ducts[d]) ? 1 + has_no_drop_at_rest (&ducts[d]) : 0);

      known = known && cut == work->cut[d];
      work->cut[d] = cut;
    }
  work->n->known = TRUE;
  return known;
}

/* Lists the ducts and rows that are left; all others are at rest. */
static void
cut_legs (const HobGas *gas, const HobDuct *ducts, Work *work)
{
  const HobPattern *pattern = &gas->pattern;
  int n = pattern->n;

  if (are_legs_known (gas, ducts, work))
    return;
  work->n->flow = work->n->rows = work->n->legs = 0;
  memset (work->degree, 0, sizeof (int) * ((gsize) n + 1));
  memset (work->sum, 0, sizeof (int) * ((gsize) n + 1));
  for (int d = 0; d < gas->n_ducts; d++)
    {
      work->dead[d] = gas->slot[d] < 0 || !may_flow (&ducts[d]);
      for (int e = 0; e < 2 && !work->dead[d]; e++)
        {
          int k = e == 0 ? gas->end_a[d] : gas->end_b[d];

          work->degree[k]++;
          work->sum[k] += d;
        }
    }
  for (int k = 0; k < n; k++)
    work->vents[k] = 1;
  for (int k = 0; k < n; k++)
    cut_leg (gas, ducts, k, work);
  for (int d = 0; d < gas->n_ducts; d++)
    if (!work->dead[d])
      work->way[work->n->flow++] = (Way){ .d = d, .slot = gas->slot[d], .a = gas->end_a[d],
                                          .b = gas->end_b[d], .forward = gas->forward[d] };
  for (int k = 0; k < n; k++)
    if (work->degree[k] > 0)
      work->live[work->n->rows++]
          = (Live){ k, pattern->start[k], pattern->start[k + 1] - 1,
                    pattern->target + pattern->pair[k], vent * work->vents[k] };
}

/* ---- Lines of the net ---- */

/* Adds up the lines of the ducts, and the vents, into the edges. */
static void
load_lines (const HobGas *gas, Work *work)
{
  const HobPattern *pattern = &gas->pattern;

  memset (work->edge, 0, (gsize) pattern->n_slots * sizeof (Edge));
  for (const Way *way = work->way; way < work->way + work->n->flow; way++)
    {
      const Line *line = &way->line;
      Edge *e = work->edge + way->slot;

      e->out += way->forward ? line->by_a : line->by_b;
      e->in += way->forward ? line->by_b : line->by_a;
      e->c += way->forward ? line->c : -line->c;
    }
  for (const Live *row = work->live; row < work->live + work->n->rows; row++)
    work->edge[row->last].out += row->vent;
}

/* Pressures of the linear net by star–mesh elimination, as in circuit.c. What leaves row k
 * arrives at a neighbor or in the room, so that the flows at row k add up to zero:
 *
 *   p_k = (Σ in·p_later − Σ c)/D,   D = Σ out,   s = out/D
 *
 * Inserted into the flows of its neighbors p and q, this adds to the edge between them
 *
 *   out += in_p·s_q,   in += in_q·s_p,   c += s_p·c_q − s_q·c_p
 *
 * The slopes are sums of positive terms, so that there is nothing to pivot and no digit is lost. */
static void
solve_lines (const HobGas *gas, Work *work)
{
  const Live *begin = work->live, *end = begin + work->n->rows;
  const int *later = gas->pattern.later;
  double *pressure = work->p;

  for (const Live *live = begin; live < end; live++)
    {
      Edge *row = work->edge + live->first;
      const int *target = live->target;
      int m = live->last + 1 - live->first;
      double diagonal = 0, c = 0;

      for (int p = 0; p < m; p++)
        {
          diagonal += row[p].out;
          c += row[p].c;
        }

      double r = 1 / diagonal; /* D > 0, because of the vent */
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
      pressure[live->k] = -c * r;
    }

  pressure[gas->pattern.n] = 0;
  for (const Live *live = end; live-- > begin;)
    {
      double p = pressure[live->k] + 0.0; /* the reference adds nothing, but no zero is negative */

      for (int s = live->first; s < live->last; s++)
        p += work->edge[s].in * pressure[later[s]];
      pressure[live->k] = p;
    }
}

/* Solves the lines, then takes each duct's next tangent. *met says that in every duct the flow by
 * its law and the flow by its line agree, to 10⁻⁹ of it or to rounding. Newton's error is squared
 * with each step, so that the solution is better than that. @damp goes only half of the way. */
static void
iterate (const HobGas *gas, const HobDuct *ducts, gboolean damp, Work *work, gboolean *met)
{
  const double enough = 1e-9, rounding = 1e-15;

  *met = TRUE;
  solve_lines (gas, work);
  for (Way *way = work->way; way < work->way + work->n->flow; way++)
    {
      const HobDuct *duct = &ducts[way->d];
      const Line *line = &way->line;
      double pa = work->p[way->a], pb = work->p[way->b];
      double q = along (line, pa, pb);

      way->line = line_at_flow (duct, way, pa, pb, damp ? (q + way->q) / 2 : q);
      way->q = q;

      double gap = fabs (flow_by_law (duct, way, pa, pb) - q);
      double noise = rounding * (line->by_a * fabs (pa) + line->by_b * fabs (pb) + fabs (line->c));
      *met = *met && gap <= enough * fabs (q) + noise; /* FALSE for a NaN */
    }
}

/* The global gradient method of water networks (E. Todini and S. Pilati 1988): Newton's method on
 * flows and pressures at once. A duct's new tangent touches its law at the *flow* found, not at
 * the drop found. Δp over q is about q·|q|, gentle everywhere; q over Δp is steep at zero, and
 * Newton's method there would go in circles. If 25 iterations have not been enough, three of four
 * are damped. */
static int
converge (const HobGas *gas, const HobDuct *ducts, Work *work)
{
  const int most = 200, patience = 25;

  for (int k = 1; k <= most; k++)
    {
      gboolean met;

      load_lines (gas, work);
      iterate (gas, ducts, k > patience && k % 4 != 0, work, &met);
      if (met)
        return k;
    }

  return -1;
}

/* The drop of so little flow that it is laminar. */
static double
slight_drop (const HobDuct *duct, const HobFuel *fuel, double q)
{
  if (duct->law == HOB_DUCT_ORIFICE)
    return orifice_drop (duct->area, q, sqrt (2 * fuel->density));
  return 64 * q / pipe_flow (duct, fuel) * pipe_scale (duct, fuel);
}

/* The answer, dead legs included; what nothing reaches has no pressure. */
static void
spread_pressures (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, const Work *work,
                  double *p, double *q)
{
  const HobPattern *pattern = &gas->pattern;

  memset (q, 0, sizeof (double) * (gsize) gas->n_ducts);
  for (int f = 0; f < work->n->flow; f++)
    q[work->way[f].d] = work->way[f].q;
  for (int k = work->n->legs - 1; k >= 0; k--)
    {
      int d = work->leg[k], end = work->end[k], begin = gas->end_a[d] + gas->end_b[d] - end;
      double taken = vent * work->vents[end] * work->p[begin];

      work->p[end] = work->p[begin] - slight_drop (&ducts[d], fuel, taken);
      q[d] = gas->end_b[d] == end ? taken : -taken;
    }
  for (int k = 0; k < pattern->n; k++)
    p[k] = work->p[pattern->row[k]];
}

/* The tangents at the pressures given. */
static void
start_lines (const HobDuct *ducts, const HobFuel *fuel, Work *work)
{
  double root = sqrt (2 * fuel->density);

  for (Way *way = work->way; way < work->way + work->n->flow; way++)
    {
      const HobDuct *duct = &ducts[way->d];
      double pa = work->p[way->a], pb = work->p[way->b];

      way->root = root;
      if (duct->law == HOB_DUCT_PIPE)
        {
          way->scale = pipe_scale (duct, fuel);
          way->per_re = pipe_flow (duct, fuel);
        }
      way->line = line_at_pressures (duct, way, pa, pb);
      way->q = along (&way->line, pa, pb);
    }
}

int
hob_gas_solve (const HobGas *gas, const HobDuct *ducts, const HobFuel *fuel, double *p, double *q,
               double *work)
{
  const HobPattern *pattern = &gas->pattern;
  Work w;
  int used;

  lay_out (gas, work, &w);
  cut_legs (gas, ducts, &w);
  memset (w.p, 0, sizeof (double) * ((gsize) pattern->n + 1));
  for (int k = 0; k < pattern->n; k++)
    if (w.degree[pattern->row[k]] > 0)
      w.p[pattern->row[k]] = p[k];
  start_lines (ducts, fuel, &w);
  used = converge (gas, ducts, &w);
  spread_pressures (gas, ducts, fuel, &w, p, q);
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

/* Kirchhoff's law for gas: what flows into a node flows out of it, its vent included. */
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
