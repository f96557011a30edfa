/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>
#include <math.h>

/* What a value rests on. */
typedef enum
{
  PUBLISHED,       /* the number is in the source named */
  DERIVED,         /* computed from a published formula or from published data */
  COMMON_PRACTICE, /* the trade works by it; nobody has published it */
  FROM_MEMORY      /* believed to be published; the source was not at hand */
} Basis;

static inline const char *
basis_words (Basis basis)
{
  static const char *const words[] = {
    [PUBLISHED] = "published",
    [DERIVED] = "derived",
    [COMMON_PRACTICE] = "common practice, no source",
    [FROM_MEMORY] = "from memory",
  };

  return words[basis];
}

/* @source says where the value is from, and of what. @got is the program's. */
static inline void
check_near (Basis basis, const char *source, double got, double wanted, double tolerance)
{
  const char *words = basis_words (basis);

  g_test_message ("%s: %s: %.9g; program: %.9g (%+.3g)", source, words, wanted, got, got - wanted);
  if (!(fabs (got - wanted) <= tolerance))
    g_test_fail_printf ("%s: %s: %.9g ± %.3g; program: %.9g", source, words, wanted, tolerance,
                        got);
}

/* The same for a band. */
static inline void
check_within (Basis basis, const char *source, double got, double low, double high)
{
  const char *words = basis_words (basis);

  g_test_message ("%s: %s: %.9g to %.9g; program: %.9g", source, words, low, high, got);
  if (!(got >= low && got <= high))
    g_test_fail_printf ("%s: %s: %.9g to %.9g; program: %.9g", source, words, low, high, got);
}

static inline double
celsius (double degrees)
{
  return degrees + 273.15;
}
