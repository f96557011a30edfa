/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/figure.h"

#include <locale.h>
#include <math.h>

static void
figures_are_said_in_units_of_the_trade (void)
{
  static const struct
  {
    double si;
    HobDimension dim;
    int digits;
    const char *text;
  } figures[] = {
    { 1090, HOB_DIM_RESISTANCE, 4, "1,090 Ω" },
    { 9999, HOB_DIM_RESISTANCE, 4, "9,999 Ω" },
    { 47000, HOB_DIM_RESISTANCE, 2, "47 kΩ" },
    { 1e7, HOB_DIM_RESISTANCE, 2, "10 MΩ" },
    { 1538.7, HOB_DIM_TEMPERATURE, 3, "2,310 °F" },
    { 449.816667, HOB_DIM_TEMPERATURE, 3, "350 °F" },
    { 11.1111111, HOB_DIM_DIFFERENCE, 2, "20 °F" },
    { 5275.28, HOB_DIM_POWER, 3, "18,000 Btu/h" },
    { 1200, HOB_DIM_WATTS, 3, "1,200 W" },
    { 1245.44455, HOB_DIM_PRESSURE, 2, "5.0 in. w.c." },
    { 3.4312, HOB_DIM_CURRENT, 3, "3.43 A" },
    { 0.0061, HOB_DIM_CURRENT, 2, "6.1 mA" },
    { 15000, HOB_DIM_VOLTAGE, 2, "15 kV" },
    { -2.5, HOB_DIM_VOLTAGE, 2, "-2.5 V" },
    { 2.9, HOB_DIM_RATE, 2, "2.9/s" },
    { 0, HOB_DIM_RATE, 3, "0/s" },
    { 0.003175, HOB_DIM_LENGTH, 3, "1/8 in." },
    { 0.01905, HOB_DIM_LENGTH, 3, "3/4 in." },
    { 0.0127, HOB_DIM_LENGTH, 3, "1/2 in." },
    { 0.0095, HOB_DIM_LENGTH, 3, "3/8 in." },
    { 0.0015, HOB_DIM_LENGTH, 2, "0.059 in." },
    { 2.0, HOB_DIM_LENGTH, 3, "7 ft" },
    { 0.02, HOB_DIM_ENERGY, 2, "20 mJ" },
    { 1.5, HOB_DIM_ENERGY, 2, "1.5 J" },
    { 10550.5585, HOB_DIM_ENERGY, 2, "10 Btu" },
    { 0.001, HOB_DIM_MASS, 2, "0.035 oz" },
    { 1e-5, HOB_DIM_MASS_FLOW, 2, "0.079 lb/h" },
    { 1e-9, HOB_DIM_MASS_FLOW, 3, "0 lb/h" },
    { 94, HOB_DIM_TIME, 3, "94 s" },
    { 1.5, HOB_DIM_TIME, 3, "1.5 s" },
    { 3900, HOB_DIM_TIME, 3, "1 h 5 min" },
    { 1234567, HOB_DIM_NUMBER, 7, "1,234,567" },
    { -1234.5, HOB_DIM_NUMBER, 5, "-1,234.5" },
    { 999, HOB_DIM_NUMBER, 3, "999" },
    { 12, HOB_DIM_NUMBER, 3, "12" },
    { 1234567, HOB_DIM_NUMBER, 3, "1,234,567" },
    { INFINITY, HOB_DIM_RESISTANCE, 3, "open" },
    { NAN, HOB_DIM_VOLTAGE, 3, "–" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    {
      g_autofree char *text
          = hob_person_text (figures[i].si, figures[i].dim, figures[i].digits);

      g_assert_cmpstr (text, ==, figures[i].text);
    }
}

static void
shares_are_joined_to_their_sign (void)
{
  static const struct { double share; const char *text; } shares[] = {
    { 0, "0%" },     { 0.5, "50%" },     { 1, "100%" },       { 0.0104, "1%" },
    { 0.999, "100%" }, { 0.0051, "0.51%" }, { 12.5, "1,250%" }, { -0.3, "-30%" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      g_autofree char *text = hob_percent_text (shares[i].share);

      g_assert_cmpstr (text, ==, shares[i].text);
    }
}

/* No more than four decimals, whatever the digits asked for. */
static void
no_figure_is_a_row_of_zeros (void)
{
  for (int dim = HOB_DIM_NUMBER; dim < HOB_DIM_CHOICE; dim++)
    for (double si = 1e-12; si < 1e3; si *= 3.1)
      for (int digits = 1; digits <= 6; digits++)
        {
          g_autofree char *text = hob_person_text (si, dim, digits);

          g_assert_null (strstr (text, "0000"));
          g_assert_null (strstr (text, "e-"));
        }
}

/* What a field shows and takes again is in the C locale, without zeros that say nothing. */
static void
an_entry_reads_what_it_shows (void)
{
  static const struct { double si; HobDimension dim; const char *text; } entries[] = {
    { 298.15, HOB_DIM_TEMPERATURE, "77 °F" }, { 120, HOB_DIM_VOLTAGE, "120 V" },
    { 0.0095, HOB_DIM_LENGTH, "0.37402 in" }, { 1100, HOB_DIM_RESISTANCE, "1100 ohm" },
    { 0.5, HOB_DIM_NUMBER, "0.5" },           { 0, HOB_DIM_NUMBER, "0" },
    { 0.0125, HOB_DIM_CURRENT, "12.5 mA" },   { INFINITY, HOB_DIM_RESISTANCE, "open" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      g_autofree char *text = hob_entry_text (entries[i].si, entries[i].dim);
      double back = NAN;

      g_assert_cmpstr (text, ==, entries[i].text);
      g_assert_true (hob_parse_quantity (text, entries[i].dim, &back, NULL));
      g_assert_true (back == entries[i].si
                     || fabs (back - entries[i].si) < 1e-4 * fabs (entries[i].si));
    }
}

int
main (int argc, char *argv[])
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/figure/figures-are-said-in-units-of-the-trade",
                   figures_are_said_in_units_of_the_trade);
  g_test_add_func ("/base/figure/shares-are-joined-to-their-sign", shares_are_joined_to_their_sign);
  g_test_add_func ("/base/figure/no-figure-is-a-row-of-zeros", no_figure_is_a_row_of_zeros);
  g_test_add_func ("/base/figure/an-entry-reads-what-it-shows", an_entry_reads_what_it_shows);
  return g_test_run ();
}
