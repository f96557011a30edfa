/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Contrast by the formula of WCAG 2.2 (relative luminance, ratio (L1 + 0.05)/(L2 + 0.05)), in
 * every theme. */

#include "sheet/sheet.h"
#include "physics/material.h"
#include <math.h>

static double
linear (double c)
{
  return c <= 0.04045 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

static double
luminance (const double rgb[3])
{
  return 0.2126 * linear (rgb[0]) + 0.7152 * linear (rgb[1]) + 0.0722 * linear (rgb[2]);
}

/* @veil: stray light of a projector, added to both. */
static double
contrast_rgb (const double a[3], const double b[3], double veil)
{
  double la = luminance (a) + 0.05 + veil, lb = luminance (b) + 0.05 + veil;

  return fmax (la, lb) / fmin (la, lb);
}

static double
contrast (HobTheme theme, HobRole a, HobRole b, double veil)
{
  double ca[3], cb[3];

  hob_theme_colour (theme, a, ca);
  hob_theme_colour (theme, b, cb);
  return contrast_rgb (ca, cb, veil);
}

static const char *const theme_names[]
    = { "light", "dark", "print", "contrast light", "contrast dark" };

static void
at_least (HobTheme theme, HobRole a, HobRole on, double veil, double least)
{
  double got = contrast (theme, a, on, veil);

  if (got < least)
    {
      g_test_message ("%s: role %d on %d: %.2f, wanted %.1f", theme_names[theme], a, on, got,
                      least);
      g_test_fail ();
    }
}

static const HobRole texts[] = { HOB_ROLE_INK, HOB_ROLE_INK2, HOB_ROLE_CAUTION };
static const HobRole signs[]
    = { HOB_ROLE_EDGE, HOB_ROLE_GAS, HOB_ROLE_HEAT, HOB_ROLE_RING, HOB_ROLE_PENCIL };

static void
test_text_and_signs (void)
{
  for (int theme = 0; theme < HOB_N_THEMES; theme++)
    for (int on = HOB_ROLE_SHEET; on <= HOB_ROLE_PANEL; on++)
      {
        for (gsize k = 0; k < G_N_ELEMENTS (texts); k++)
          at_least ((HobTheme) theme, texts[k], (HobRole) on, 0, 4.5);
        for (gsize k = 0; k < G_N_ELEMENTS (signs); k++)
          at_least ((HobTheme) theme, signs[k], (HobRole) on, 0, 3.0);
      }
}

/* The light sheet is the one that is projected. */
static void
test_projected (void)
{
  for (gsize k = 0; k < G_N_ELEMENTS (texts); k++)
    at_least (HOB_THEME_LIGHT, texts[k], HOB_ROLE_SHEET, 0.10, 4.1);
  for (gsize k = 0; k < G_N_ELEMENTS (signs); k++)
    at_least (HOB_THEME_LIGHT, signs[k], HOB_ROLE_SHEET, 0.10, 3.25);
}

/* The ratios that the roles were chosen for, to one decimal. */
static void
test_chosen_ratios (void)
{
  static const struct
  {
    HobTheme theme;
    HobRole role, on;
    double ratio;
  } chosen[] = {
    { HOB_THEME_LIGHT, HOB_ROLE_INK, HOB_ROLE_SHEET, 14.7 },
    { HOB_THEME_DARK, HOB_ROLE_INK, HOB_ROLE_SHEET, 13.0 },
    { HOB_THEME_LIGHT, HOB_ROLE_INK2, HOB_ROLE_SHEET, 6.4 },
    { HOB_THEME_DARK, HOB_ROLE_INK2, HOB_ROLE_SHEET, 8.1 },
    { HOB_THEME_LIGHT, HOB_ROLE_EDGE, HOB_ROLE_SHEET, 4.4 },
    { HOB_THEME_DARK, HOB_ROLE_EDGE, HOB_ROLE_SHEET, 4.5 },
    { HOB_THEME_LIGHT, HOB_ROLE_GAS, HOB_ROLE_SHEET, 6.1 },
    { HOB_THEME_DARK, HOB_ROLE_GAS, HOB_ROLE_SHEET, 7.3 },
    { HOB_THEME_LIGHT, HOB_ROLE_HEAT, HOB_ROLE_SHEET, 5.1 },
    { HOB_THEME_DARK, HOB_ROLE_HEAT, HOB_ROLE_SHEET, 6.7 },
    { HOB_THEME_LIGHT, HOB_ROLE_RING, HOB_ROLE_SHEET, 6.8 },
    { HOB_THEME_DARK, HOB_ROLE_RING, HOB_ROLE_SHEET, 6.8 },
    { HOB_THEME_LIGHT, HOB_ROLE_PENCIL, HOB_ROLE_SHEET, 7.0 },
    { HOB_THEME_DARK, HOB_ROLE_PENCIL, HOB_ROLE_SHEET, 8.0 },
    { HOB_THEME_LIGHT, HOB_ROLE_CAUTION, HOB_ROLE_SHEET, 6.0 },
    { HOB_THEME_DARK, HOB_ROLE_CAUTION, HOB_ROLE_SHEET, 8.6 },
    { HOB_THEME_LIGHT, HOB_ROLE_TAG_INK, HOB_ROLE_TAG, 11.3 },
    { HOB_THEME_DARK, HOB_ROLE_TAG_INK, HOB_ROLE_TAG, 9.3 },
    { HOB_THEME_CONTRAST_LIGHT, HOB_ROLE_INK, HOB_ROLE_SHEET, 21 },
    { HOB_THEME_CONTRAST_DARK, HOB_ROLE_INK, HOB_ROLE_SHEET, 21 },
    { HOB_THEME_CONTRAST_LIGHT, HOB_ROLE_RING, HOB_ROLE_SHEET, 9.6 },
    { HOB_THEME_CONTRAST_DARK, HOB_ROLE_RING, HOB_ROLE_SHEET, 10.9 },
    { HOB_THEME_CONTRAST_LIGHT, HOB_ROLE_GAS, HOB_ROLE_SHEET, 9.7 },
    { HOB_THEME_CONTRAST_DARK, HOB_ROLE_GAS, HOB_ROLE_SHEET, 13.6 },
    { HOB_THEME_CONTRAST_LIGHT, HOB_ROLE_PENCIL, HOB_ROLE_SHEET, 11.6 },
    { HOB_THEME_CONTRAST_DARK, HOB_ROLE_PENCIL, HOB_ROLE_SHEET, 13.6 },
    { HOB_THEME_LIGHT, HOB_ROLE_FLAME, HOB_ROLE_CAVITY, 5.4 },
    { HOB_THEME_LIGHT, HOB_ROLE_FLAME_CONE, HOB_ROLE_CAVITY, 10.9 },
    { HOB_THEME_LIGHT, HOB_ROLE_FLAME_TIP, HOB_ROLE_CAVITY, 9.6 },
  };

  for (gsize k = 0; k < G_N_ELEMENTS (chosen); k++)
    {
      double got = contrast (chosen[k].theme, chosen[k].role, chosen[k].on, 0);

      g_test_message ("%s: role %d on %d: %.2f", theme_names[chosen[k].theme], chosen[k].role,
                      chosen[k].on, got);
      g_assert_cmpfloat_with_epsilon (got, chosen[k].ratio, 0.1);
    }
}

/* A wire is seen by its core against the sheet or against its casing. */
static void
test_wires (void)
{
  static const char *const codes[]
      = { "BK", "WH", "RD", "BU", "OG", "YE", "GN", "BN", "VT", "GY", "PK" };

  for (int theme = 0; theme < HOB_N_THEMES; theme++)
    for (gsize k = 0; k < G_N_ELEMENTS (codes); k++)
      {
        double core[3], sheet[3], casing[3];

        g_assert_true (hob_wire_colour (codes[k], core));
        hob_theme_colour ((HobTheme) theme, HOB_ROLE_SHEET, sheet);
        hob_theme_colour ((HobTheme) theme, HOB_ROLE_INK, casing);
        g_assert_cmpfloat (fmax (contrast_rgb (core, sheet, 0), contrast_rgb (core, casing, 0)), >=,
                           3.0);
      }
}

static void
test_unknown_code (void)
{
  double rgb[3];

  g_assert_false (hob_wire_colour ("XX", rgb));
  g_assert_false (hob_wire_colour ("", rgb));
  g_assert_true (hob_wire_colour ("GNYE", rgb));
}

/* From dark red on, glow is seen against the inside of the oven by 1.6 and more, and grows with
 * heat. */
static void
test_glow (void)
{
  double before = 1.0, rgb[3], cavity[3];

  hob_theme_colour (HOB_THEME_LIGHT, HOB_ROLE_CAVITY, cavity);
  g_assert_false (hob_glow_colour (790, rgb));
  for (double celsius = 700; celsius <= 1400; celsius += 100)
    {
      double now;

      g_assert_true (hob_glow_colour (celsius + 273.15, rgb));
      now = contrast_rgb (rgb, cavity, 0);
      g_assert_cmpfloat (now, >, before);
      g_assert_cmpfloat (now, >=, 1.5);
      before = now;
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet/theme/text-is-read-and-signs-are-seen", test_text_and_signs);
  g_test_add_func ("/sheet/theme/the-light-sheet-stands-a-projector", test_projected);
  g_test_add_func ("/sheet/theme/roles-keep-their-chosen-ratios", test_chosen_ratios);
  g_test_add_func ("/sheet/theme/every-wire-is-seen", test_wires);
  g_test_add_func ("/sheet/theme/an-unknown-code-has-no-colour", test_unknown_code);
  g_test_add_func ("/sheet/theme/glow-grows-with-heat", test_glow);
  return g_test_run ();
}
