/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/material.h"

static void
a_black_square_metre_radiates_by_stefan_and_boltzmann (void)
{
  check_near ("CODATA 2018: W at 1,000 K", hob_surface_loss (1, 1, 0, 1000, 0), 5.670374419e4,
              1e-5);
}

static void
the_first_red_is_seen_at_798_kelvin (void)
{
  double rgb[3];

  g_assert_false (hob_glow_colour (797.9, rgb)); /* Draper 1847 */
  g_assert_null (hob_glow_word (797.9));
  g_assert_true (hob_glow_colour (798.1, rgb));
  g_assert_nonnull (hob_glow_word (798.1));
  g_assert_cmpfloat (rgb[0], >, rgb[1]);
  g_assert_cmpfloat (rgb[0], >, rgb[2]);
}

static void
words_follow_the_classic_table_of_heat_colours (void)
{
  g_assert_cmpstr (hob_glow_word (celsius (700)), ==, "dark red");
  g_assert_cmpstr (hob_glow_word (celsius (800)), ==, "dull cherry");
  g_assert_cmpstr (hob_glow_word (celsius (900)), ==, "cherry");
  g_assert_cmpstr (hob_glow_word (celsius (1000)), ==, "bright cherry");
  g_assert_cmpstr (hob_glow_word (celsius (1100)), ==, "orange-red");
}

/* Yellow about 1,200 °C, white 1,300 to 1,600: the sources disagree. */
static void
above_it_bands_only (void)
{
  g_assert_nonnull (g_strrstr (hob_glow_word (celsius (1200)), "yellow"));
  g_assert_nonnull (g_strrstr (hob_glow_word (celsius (1500)), "white"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/glow/a-black-square-metre-radiates-by-stefan-and-boltzmann",
                   a_black_square_metre_radiates_by_stefan_and_boltzmann);
  g_test_add_func ("/outside/glow/the-first-red-is-seen-at-798-kelvin",
                   the_first_red_is_seen_at_798_kelvin);
  g_test_add_func ("/outside/glow/words-follow-the-classic-table-of-heat-colours",
                   words_follow_the_classic_table_of_heat_colours);
  g_test_add_func ("/outside/glow/above-it-bands-only", above_it_bands_only);
  return g_test_run ();
}
