/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "physics/spark.h"

#include <math.h>

/* Gauss–Legendre on −1…1, ten points (Abramowitz and Stegun, table 25.4), the positive half. */
static const struct
{
  double at, weight;
} gauss[] = {
  { 0.148874338981631211, 0.295524224714752870 }, { 0.433395394129247191, 0.269266719309996355 },
  { 0.679409568299024406, 0.219086362515982044 }, { 0.865063366688984511, 0.149451349150580593 },
  { 0.973906528517171720, 0.066671344308688138 },
};

/* Mean charging current over a mains cycle at capacitor volts v = V sin α (V the crest, R all
 * resistance in series):
 *
 *   I(v) = V/(πR)·[cos α − (π/2 − α) sin α],   less v/R_bleed.
 *
 * So dt = C dv/(I − v/R_bleed) = πRC·cos α dα / D(α),  D = cos α − (π/2 − α + κ) sin α,  κ =
 * πR/R_bleed, and D′ = −(π/2 − α + κ) cos α.  Where charge and bleed nearly balance at the
 * trigger, 1/D peaks there: that pole is taken out and integrated in closed form, and ten points
 * do for the rest. */
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
    return 0; /* the bleed holds it below the trigger for good */

  return 1 / (G_PI * r * cell->capacitance * charging_integral (end, kappa));
}

double
hob_spark_cell_dc_time (const HobSparkCell *cell, double volts)
{
  if (volts <= cell->trigger)
    return INFINITY;

  return -cell->resistance * cell->capacitance * log1p (-cell->trigger / volts);
}

double
hob_spark_cell_energy (const HobSparkCell *cell)
{
  return 0.5 * cell->capacitance * cell->trigger * cell->trigger;
}

/* V = a·d + b·√d, the form of the uniform-field line, with a and b (d in mm, V in kV) fitted to
 * the peak values for spheres at 20 °C and 101.3 kPa: 1 mm 4.95 (Peek), 5 mm 16.8–17.4 and 10 mm
 * 31.2–32.0 (IEC 60052, IEEE 4). */
double
hob_breakdown_sphere (double gap)
{
  const double a = 2.29, b = 2.63;
  double mm = MAX (gap, 0) * 1e3;

  return 1e3 * (a * mm + b * sqrt (mm));
}

/* Breakdown goes with the density of the gas: in flame, at some 1,200 K above four times room
 * temperature, a quarter is left. */
double
hob_breakdown_point (double gap, double hot)
{
  const double edge = 0.49; /* of the sphere gap's: 5.6 kV at 3 mm; this project's figure */

  return edge * hob_breakdown_sphere (gap) * (1 - 0.75 * CLAMP (hot, 0, 1));
}
