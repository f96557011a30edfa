/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/spark.h"

#include <math.h>

/* Gauss–Legendre with ten points between −1 and 1 (Abramowitz and Stegun, table 25.4): the
 * positive half; the other one is its mirror image. */
static const struct
{
  double at, weight;
} gauss[] = {
  { 0.148874338981631211, 0.295524224714752870 }, { 0.433395394129247191, 0.269266719309996355 },
  { 0.679409568299024406, 0.219086362515982044 }, { 0.865063366688984511, 0.149451349150580593 },
  { 0.973906528517171720, 0.066671344308688138 },
};

/* ---- The cell ----
 *
 * With the capacitor at v = V·sin α (V is the crest of the line, R all the resistance in series)
 * current flows while the line is above v. Its mean over a cycle, less what the bleed resistor
 * takes, is
 *
 *   I(v) = V/(π·R)·(cos α − (π/2 − α)·sin α) − v/R_bleed
 *
 * From C·dv/dt = I follows the time to the trigger voltage V·sin α_end:
 *
 *   t = π·R·C·∫ cos α/D dα  from 0 to α_end,
 *   D = cos α − (π/2 − α + κ)·sin α,   κ = π·R/R_bleed,   D′ = −(π/2 − α + κ)·cos α
 *
 * Where charge and bleed nearly balance at the trigger, 1/D peaks there. This function takes the
 * peak out, cos α_end/(D_end − D′_end·(α_end − α)), adds its integral in closed form, and leaves
 * a smooth rest for ten Gauss points. Returns the integral. */
static double
charging_integral (double end, double kappa)
{
  double cos_end = cos (end);
  double d_end = cos_end - (G_PI_2 - end + kappa) * sin (end);
  double slope = (G_PI_2 - end + kappa) * cos_end;
  double half = end / 2, sum = 0;

  for (guint k = 0; k < 2 * G_N_ELEMENTS (gauss); k++)
    {
      double u = k % 2 == 0 ? gauss[k / 2].at : -gauss[k / 2].at;
      double alpha = half + half * u;
      double c = cos (alpha), s = sin (alpha);
      double d = c - (G_PI_2 - alpha + kappa) * s;

      sum += gauss[k / 2].weight * (c / d - cos_end / (d_end + slope * (end - alpha)));
    }

  return half * sum + cos_end / slope * log1p (slope * end / d_end);
}

double
hob_spark_cell_rate (const HobSparkCell *cell, double volts, double source_ohms)
{
  double crest = volts * G_SQRT2;
  double r = cell->resistance + source_ohms;

  if (!(cell->trigger > 0) || !(crest > cell->trigger) || !isfinite (r))
    return 0;

  double end = asin (cell->trigger / crest);
  double kappa = G_PI * r / cell->bleed;
  if (cos (end) <= (G_PI_2 - end + kappa) * sin (end))
    return 0; /* the bleed resistor takes as much as comes in: it never gets there */

  return 1 / (G_PI * r * cell->capacitance * charging_integral (end, kappa));
}

/* E = C·V²/2 */
double
hob_spark_cell_energy (const HobSparkCell *cell)
{
  return 0.5 * cell->capacitance * cell->trigger * cell->trigger;
}

/* ---- The gap ----
 *
 * V = a·d + b·√d, the form of the line for a uniform field. a and b, for d in mm and V in kV,
 * were fitted to published crest values for spheres at 20 °C and 101.3 kPa: 4.95 kV at 1 mm (F.
 * W. Peek), 16.8 to 17.4 kV at 5 mm and 31.2 to 32.0 kV at 10 mm (IEC 60052, IEEE 4). */
double
hob_breakdown_sphere (double gap)
{
  const double a = 2.29, b = 2.63;
  double mm = MAX (gap, 0) * 1e3;

  return 1e3 * (a * mm + b * sqrt (mm));
}

/* A point at a rounded edge breaks down at about half of that: 5.6 kV at 3 mm (this project's
 * figure). Breakdown falls with the density of the gas. At about 1,200 K, four times room
 * temperature, a quarter is left. */
double
hob_breakdown_point (double gap, double hot)
{
  const double edge = 0.49;

  return edge * hob_breakdown_sphere (gap) * (1 - 0.75 * CLAMP (hot, 0, 1));
}
