/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/hash.h"

#include <math.h>
#include <string.h>

/* The finaliser of splitmix64 (Steele, Lea & Flood, OOPSLA 2014): a bijection in which every bit of
 * the input flips every bit of the output about half of the time. */
static guint64
scramble (guint64 x)
{
  x ^= x >> 30;
  x *= G_GUINT64_CONSTANT (0xbf58476d1ce4e5b9);
  x ^= x >> 27;
  x *= G_GUINT64_CONSTANT (0x94d049bb133111eb);
  return x ^ (x >> 31);
}

#define GOLDEN G_GUINT64_CONSTANT (0x9e3779b97f4a7c15) /* 2⁶⁴ / golden ratio, odd */

guint64
hob_hash_mix (guint64 seed, guint64 part, guint64 count)
{
  guint64 h = scramble (seed + GOLDEN);

  h = scramble (h ^ (part + GOLDEN));
  return scramble (h ^ (count + GOLDEN));
}

double
hob_hash_uniform (guint64 seed, guint64 part, guint64 count)
{
  return (double) (hob_hash_mix (seed, part, count) >> 11) * 0x1p-53;
}

/* Horner's rule, the constant term first. */
static double
polynomial (const double c[8], double x)
{
  double sum = c[7];

  for (int i = 6; i >= 0; i--)
    sum = sum * x + c[i];
  return sum;
}

/* Inverse of the standard normal distribution, 0 < p < 1, to about 1e-16 relative.
 * Source: Wichura, algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477-484. */
static double
normal_quantile (double p)
{
  static const double a[8]
      = { 3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3,
          1.3731693765509461125e4, 4.5921953931549871457e4, 6.7265770927008700853e4,
          3.3430575583588128105e4, 2.5090809287301226727e3 };
  static const double b[8] = { 1.0,
                               4.2313330701600911252e1,
                               6.8718700749205790830e2,
                               5.3941960214247511077e3,
                               2.1213794301586595867e4,
                               3.9307895800092710610e4,
                               2.8729085735721942674e4,
                               5.2264952788528545610e3 };
  static const double c[8]
      = { 1.42343711074968357734e0,  4.63033784615654529590e0, 5.76949722146069140550e0,
          3.64784832476320460504e0,  1.27045825245236838258e0, 2.41780725177450611770e-1,
          2.27238449892691845833e-2, 7.74545014278341407640e-4 };
  static const double d[8] = { 1.0,
                               2.05319162663775882187e0,
                               1.67638483018380384940e0,
                               6.89767334985100004550e-1,
                               1.48103976427480074590e-1,
                               1.51986665636164571966e-2,
                               5.47593808499534494600e-4,
                               1.05075007164441684324e-9 };
  static const double e[8]
      = { 6.65790464350110377720e0,  5.46378491116411436990e0,  1.78482653991729133580e0,
          2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
          2.71155556874348757815e-5, 2.01033439929228813265e-7 };
  static const double f[8] = { 1.0,
                               5.99832206555887937690e-1,
                               1.36929880922735805310e-1,
                               1.48753612908506148525e-2,
                               7.86869131145613259100e-4,
                               1.84631831751005468180e-5,
                               1.42151175831644588870e-7,
                               2.04426310338993978564e-15 };
  double q = p - 0.5, r, x;

  if (fabs (q) <= 0.425)
    {
      r = 0.180625 - q * q;
      return q * polynomial (a, r) / polynomial (b, r);
    }

  r = sqrt (-log (q < 0.0 ? p : 1.0 - p));
  if (r <= 5.0)
    x = polynomial (c, r - 1.6) / polynomial (d, r - 1.6);
  else
    x = polynomial (e, r - 5.0) / polynomial (f, r - 5.0);
  return q < 0.0 ? -x : x;
}

double
hob_hash_normal (guint64 seed, guint64 part, guint64 count)
{
  /* In the middle of each of 2⁵² equal cells (2⁵³ would round the last one up to 1): never 0,
   * never 1. */
  return normal_quantile (((double) (hob_hash_mix (seed, part, count) >> 12) + 0.5) * 0x1p-52);
}

guint64
hob_hash_block (const void *data, gsize size)
{
  const guint8 *bytes = data;
  guint64 h = scramble ((guint64) size + GOLDEN);

  while (size > 0)
    {
      guint64 word = 0;
      gsize n = MIN (size, sizeof word);

      memcpy (&word, bytes, n);
      h = scramble (h ^ (word + GOLDEN)) + GOLDEN;
      bytes += n;
      size -= n;
    }
  return h;
}
