/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>
#include <math.h>

/* A published value: where it stands, what the program gives, what was published, and how far
 * apart they may be. */
static inline void
check_near (const char *source, double got, double published, double tolerance)
{
  g_test_message ("%s: published %.9g, here %.9g (%+.3g)", source, published, got, got - published);
  if (!(fabs (got - published) <= tolerance))
    g_test_fail_printf ("%s: published %.9g ± %.3g, here %.9g", source, published, tolerance, got);
}

/* …and a published band. */
static inline void
check_within (const char *source, double got, double low, double high)
{
  g_test_message ("%s: published %.9g to %.9g, here %.9g", source, low, high, got);
  if (!(got >= low && got <= high))
    g_test_fail_printf ("%s: published %.9g to %.9g, here %.9g", source, low, high, got);
}

static inline double
celsius (double degrees)
{
  return degrees + 273.15;
}
