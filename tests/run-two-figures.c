/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "run/two-figures.h"

#include <math.h>

static void
assert_reads (HobDimension dim, double least, double value, double should_be, const char *text)
{
  const HobQuantityDef quantity = { .dim = dim, .least = least };
  g_autofree char *figures = hob_figures_text (&quantity, value, should_be);

  g_assert_cmpstr (figures, ==, text);
}

static void
two_digits_where_they_tell (void)
{
  assert_reads (HOB_DIM_CURRENT, 0, 2.734, 3.481, "2.7 A, should be 3.5 A");
  assert_reads (HOB_DIM_CURRENT, 0, 2.734, NAN, "2.7 A");
}

static void
more_where_two_would_be_the_same (void)
{
  assert_reads (HOB_DIM_RESISTANCE, 0, 1094, 1151, "1,090 Ω, should be 1,150 Ω");
}

/* But what an instrument of this quantity can read is never nothing. */
static void
a_leak_beside_amperes_is_nothing (void)
{
  assert_reads (HOB_DIM_CURRENT, 0, 12e-6, 3.48, "0 A, should be 3.5 A");
  assert_reads (HOB_DIM_CURRENT, 1e-7, 12e-6, 3.48, "12 µA, should be 3.5 A");
  assert_reads (HOB_DIM_FRACTION, 0, 5e-6, 30e-6, "5.0 ppm, should be 30 ppm");
}

static void
an_unknown_value_is_a_dash (void)
{
  assert_reads (HOB_DIM_TEMPERATURE, 0, NAN, 450, "–, should be 350 °F");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/two-figures/two-digits-where-they-tell", two_digits_where_they_tell);
  g_test_add_func ("/two-figures/more-where-two-would-be-the-same",
                   more_where_two_would_be_the_same);
  g_test_add_func ("/two-figures/a-leak-beside-amperes-is-nothing",
                   a_leak_beside_amperes_is_nothing);
  g_test_add_func ("/two-figures/an-unknown-value-is-a-dash", an_unknown_value_is_a_dash);
  return g_test_run ();
}
