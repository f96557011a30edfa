/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/evidence.h"

#include <math.h>
#include <stdlib.h>

/* ---- What is seen ---- */

double
hob_seen_likelihood (HobSeen seen, double shows, double mis_seen)
{
  double reported = shows * (1 - mis_seen) + (1 - shows) * mis_seen;

  return seen == HOB_NOT_LOOKED ? 1 : seen == HOB_SEEN ? reported : 1 - reported;
}

/* ---- What is read ---- */

#define WIDE 0.2 /* of what is expected: a spread from which readings scatter by multiples */
#define MISREAD 0.005 /* share of readings that have nothing to do with the truth: assumed */

/* Limits of usual service instruments: common practice, no source. */
static const HobMeterClass meters[] = {
  [HOB_DIM_VOLTAGE] = { 0.010, 0.3 },    /* a digital multimeter on AC */
  [HOB_DIM_CURRENT] = { 0.020, 0.05 },   /* a clamp meter */
  [HOB_DIM_RESISTANCE] = { 0.010, 0.3 }, /* the same multimeter, leads included */
  [HOB_DIM_PRESSURE] = { 0.010, 12 },    /* a digital manometer: 0.05 in. w.c. */
  [HOB_DIM_TEMPERATURE] = { 0, 1.7 },    /* a thermocouple: 3 °F */
  [HOB_DIM_DIFFERENCE] = { 0, 1.7 },
  [HOB_DIM_TIME] = { 0, 1 },             /* a watch in a hand */
};

HobMeterClass
hob_meter_class (HobDimension dim)
{
  static const HobMeterClass other = { 0.02, 0 };

  if ((guint) dim >= G_N_ELEMENTS (meters))
    return other;
  return meters[dim].of_reading > 0 || meters[dim].fixed > 0 ? meters[dim] : other;
}

/* Limits without more knowledge are a rectangular distribution of deviation limit/√3 (JCGM
 * 100:2008, Guide to the expression of uncertainty in measurement, 4.3.7). */
double
hob_reading_deviation (const HobExpected *expected, const HobMeterClass *meter, double limit)
{
  double most = limit;

  if (isnan (most))
    most = meter->of_reading * fabs (expected->value) + meter->fixed;
  most /= sqrt (3);
  return sqrt (expected->spread * expected->spread + most * most);
}

gboolean
hob_expected_apart (const HobExpected *a, const HobExpected *b, HobDimension dim,
                    double deviations)
{
  HobMeterClass meter = hob_meter_class (dim);

  if (isnan (a->value) || isnan (b->value))
    return FALSE;
  if (isinf (a->value) || isinf (b->value))
    return isinf (a->value) != isinf (b->value);
  if (dim == HOB_DIM_NUMBER)
    return fabs (a->value - b->value) > 0.5;
  return fabs (a->value - b->value) > deviations
                                          * fmax (hob_reading_deviation (a, &meter, NAN),
                                                  hob_reading_deviation (b, &meter, NAN));
}

/* By how many deviations @value is off, and their size.  What scatters by a multiple, as a film of
 * water does, scatters as far up as down, unless the meter errs by more than that, or by as much as
 * there is to read: it shows 0 for what is next to nothing. */
static double
deviations_of (double value, const HobExpected *expected, double deviation, double *size)
{
  double spread = expected->spread, multiple;

  if (expected->value <= sqrt (fmax (deviation * deviation - spread * spread, 0))
      || spread < fmax (WIDE * expected->value, G_SQRT2 / 2 * deviation))
    {
      *size = deviation;
      return (value - expected->value) / deviation;
    }
  multiple = log1p (deviation / expected->value);
  *size = multiple * fmax (value, 0);
  return value > 0 ? log (value / expected->value) / multiple : -INFINITY;
}

/* What two units differ by says little of a third: Student's t of one degree of freedom, where it
 * is more than the meter errs by (W. S. Gosset, Biometrika 6 (1908) 1). */
static gboolean
has_long_tails (const HobExpected *expected, double deviation)
{
  return expected->few && expected->spread > G_SQRT2 / 2 * deviation;
}

/* At z deviations of that size. */
static double
density (double z, double size, gboolean tails)
{
  if (!(size > 0))
    return 0;
  return tails ? 1 / (size * G_PI * (1 + z * z)) : exp (-z * z / 2) / (size * sqrt (2 * G_PI));
}

double
hob_reading_log_likelihood (double value, const HobExpected *expected, const HobMeterClass *meter,
                            double limit, double scale)
{
  gboolean open = isinf (value), expects_open = isinf (expected->value);
  double deviation, size, z;

  if (expects_open)
    return open ? log (1 - MISREAD) : log (MISREAD) - log (scale);
  if (open)
    return log (MISREAD + (1 - MISREAD) * expected->open);
  deviation = hob_reading_deviation (expected, meter, limit);
  z = deviations_of (value, expected, deviation, &size);
  return log ((1 - MISREAD) * (1 - expected->open)
                  * density (z, size, has_long_tails (expected, deviation))
              + MISREAD / scale);
}

/* Probability of a deviation below z. */
static double
below (double z, gboolean tails)
{
  return tails ? 0.5 + atan (z) / G_PI : erfc (-z / sqrt (2)) / 2;
}

void
hob_reading_outcomes (const HobExpected *expected, const HobMeterClass *meter, const double *edges,
                      int n_edges, double *likelihood)
{
  gboolean open = isinf (expected->value);
  double deviation = open ? 1 : hob_reading_deviation (expected, meter, NAN), before = 0, size;
  gboolean tails = has_long_tails (expected, deviation);
  int n = n_edges + 2;

  for (int k = 0; k <= n_edges; k++)
    {
      double up_to = k == n_edges ? 1
                     : open       ? 0
                                  : below (deviations_of (edges[k], expected, deviation, &size),
                                           tails);

      likelihood[k] = open ? 0 : (1 - expected->open) * (up_to - before);
      before = up_to;
    }
  likelihood[n_edges + 1] = open ? 1 : expected->open;
  for (int k = 0; k < n; k++)
    likelihood[k] = (1 - MISREAD) * likelihood[k] + MISREAD / n;
}

/* ---- Severity ---- */

const double hob_severities[HOB_N_SEVERITIES] = { 0, 0.25, 0.5, 0.75, 1 };

/* Of the step between two computed severities: what the curve may be off midway. */
#define SHAPE 0.1

/* The interval that holds @severity, and how far into it. */
static int
interval_of (double severity, double *into)
{
  int k = 0;

  severity = CLAMP (severity, 0, 1);
  while (k < HOB_N_SEVERITIES - 2 && severity > hob_severities[k + 1])
    k++;
  *into = (severity - hob_severities[k]) / (hob_severities[k + 1] - hob_severities[k]);
  return k;
}

/* Slope of the curve at a computed severity: the harmonic mean of the slopes beside it, 0 at an
 * extreme, so that the curve never leaves the values beside it (F. Fritsch, R. Carlson, SIAM J.
 * Numer. Anal. 17 (1980) 238; the mean as in F. Fritsch, J. Butland, SIAM J. Sci. Stat. Comput. 5
 * (1984) 300).  In units of the step, which is the same everywhere. */
static double
slope_at (const HobExpected *computed, int k)
{
  double before = k > 0 ? computed[k].value - computed[k - 1].value : NAN;
  double after = k + 1 < HOB_N_SEVERITIES ? computed[k + 1].value - computed[k].value : NAN;

  if (!isfinite (before))
    return isfinite (after) ? after : 0;
  if (!isfinite (after))
    return before;
  return before * after > 0 ? 2 * before * after / (before + after) : 0;
}

/* Cubic in Hermite's form. */
static double
curve (double a, double b, double slope_a, double slope_b, double u)
{
  double v = 1 - u;

  return a + (b - a) * u * u * (1 + 2 * v) + slope_a * u * v * v - slope_b * u * u * v;
}

HobExpected
hob_expected_at (const HobExpected *computed, double severity)
{
  double u;
  int k = interval_of (severity, &u);
  const HobExpected *a = &computed[k], *b = &computed[k + 1];
  double spread, shape;

  if (isinf (a->value) || isinf (b->value))
    return u < 0.5 ? *a : *b;
  spread = (1 - u) * a->spread + u * b->spread;
  shape = SHAPE * 4 * u * (1 - u) * (b->value - a->value);
  return (HobExpected){
    .few = a->few || b->few,
    .open = (1 - u) * a->open + u * b->open,
    .value = curve (a->value, b->value, slope_at (computed, k), slope_at (computed, k + 1), u),
    .spread = hypot (spread, shape),
  };
}

double
hob_shows_at (const double *computed, double severity)
{
  double u;
  int k = interval_of (severity, &u);
  const double *at = computed + 2 * k;

  if (u >= 0.5)
    at++;
  u = 2 * u - (u >= 0.5);
  return (1 - u) * at[0] + u * at[1];
}

/* The severity below which a share @share lies; each one stands for the interval halfway to its
 * neighbors. */
static double
quantile (const double *s, const double *p, int n, double share)
{
  double sum = 0, low = s[0];

  for (int k = 0; k < n; k++)
    {
      double high = k + 1 < n ? (s[k] + s[k + 1]) / 2 : s[k];

      if (p[k] > 0 && sum + p[k] >= share)
        return low + (high - low) * CLAMP ((share - sum) / p[k], 0, 1);
      sum += p[k];
      low = high;
    }
  return s[n - 1];
}

HobSeveritySpan
hob_severity_span (const double *s, const double *p, int n, double share)
{
  g_autofree double *normal = g_new (double, MAX (n, 1));
  double sum = 0;

  g_return_val_if_fail (n > 0, ((HobSeveritySpan){ NAN, NAN, NAN }));
  for (int k = 0; k < n; k++)
    sum += p[k];
  for (int k = 0; k < n; k++)
    normal[k] = sum > 0 ? p[k] / sum : 1.0 / n;
  return (HobSeveritySpan){
    .low = quantile (s, normal, n, (1 - share) / 2),
    .middle = quantile (s, normal, n, 0.5),
    .high = quantile (s, normal, n, (1 + share) / 2),
  };
}
