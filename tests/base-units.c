/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/errors.h"
#include "base/figure.h"
#include "base/units.h"

#include <locale.h>
#include <math.h>
#include <string.h>

typedef struct
{
  const char *text;
  HobDimension dim;
  double si;
} Good;

/* Every unit of the list, and the edges of the number grammar. */
static const Good good[] = {
  { "350 degF", HOB_DIM_TEMPERATURE, 449.816666666667 },
  { "350 F", HOB_DIM_TEMPERATURE, 449.816666666667 },
  { "350°F", HOB_DIM_TEMPERATURE, 449.816666666667 },
  { "32degF", HOB_DIM_TEMPERATURE, 273.15 },
  { "25 degC", HOB_DIM_TEMPERATURE, 298.15 },
  { "25C", HOB_DIM_TEMPERATURE, 298.15 },
  { "25 °C", HOB_DIM_TEMPERATURE, 298.15 },
  { "-40 degF", HOB_DIM_TEMPERATURE, 233.15 },
  { "-40 degC", HOB_DIM_TEMPERATURE, 233.15 },
  { "300 K", HOB_DIM_TEMPERATURE, 300.0 },
  { "0 K", HOB_DIM_TEMPERATURE, 0.0 },
  { "-459.67 degF", HOB_DIM_TEMPERATURE, 0.0 },
  { "-273.15 degC", HOB_DIM_TEMPERATURE, 0.0 },
  { "20 degF", HOB_DIM_DIFFERENCE, 11.1111111111111 },
  { "20 F", HOB_DIM_DIFFERENCE, 11.1111111111111 },
  { "-20 degF", HOB_DIM_DIFFERENCE, -11.1111111111111 },
  { "20 degC", HOB_DIM_DIFFERENCE, 20.0 },
  { "150 K", HOB_DIM_DIFFERENCE, 150.0 },
  { "120 V", HOB_DIM_VOLTAGE, 120.0 },
  { "350 mV", HOB_DIM_VOLTAGE, 0.35 },
  { "15 kV", HOB_DIM_VOLTAGE, 15000.0 },
  { "3.43 A", HOB_DIM_CURRENT, 3.43 },
  { "6 mA", HOB_DIM_CURRENT, 0.006 },
  { "2.7 µA", HOB_DIM_CURRENT, 2.7e-6 },
  { "2.7 uA", HOB_DIM_CURRENT, 2.7e-6 },
  { "1080 ohm", HOB_DIM_RESISTANCE, 1080.0 },
  { "15 Ω", HOB_DIM_RESISTANCE, 15.0 },
  { "1.08 kohm", HOB_DIM_RESISTANCE, 1080.0 },
  { "10 Mohm", HOB_DIM_RESISTANCE, 1e7 },
  { "open", HOB_DIM_RESISTANCE, INFINITY },
  { "400 W", HOB_DIM_POWER, 400.0 },
  { "5.275 kW", HOB_DIM_POWER, 5275.0 },
  { "1.2 kW", HOB_DIM_WATTS, 1200.0 },
  { "18000 Btu/h", HOB_DIM_POWER, 5275.2792631 },
  { "1245 Pa", HOB_DIM_PRESSURE, 1245.0 },
  { "5 inH2O", HOB_DIM_PRESSURE, 1245.44455 },
  { "5 in. w.c.", HOB_DIM_PRESSURE, 1245.44455 },
  { "12.5 mbar", HOB_DIM_PRESSURE, 1250.0 },
  { "1.2 kPa", HOB_DIM_PRESSURE, 1200.0 },
  { "0.5 psi", HOB_DIM_PRESSURE, 0.5 * 6894.757293168 },
  { "0.9 m", HOB_DIM_LENGTH, 0.9 },
  { "30 cm", HOB_DIM_LENGTH, 0.3 },
  { "9.5mm", HOB_DIM_LENGTH, 0.0095 },
  { "9.5 mm", HOB_DIM_LENGTH, 0.0095 },
  { "1 in", HOB_DIM_LENGTH, 0.0254 },
  { "60 ft", HOB_DIM_LENGTH, 18.288 },
  { "60ft", HOB_DIM_LENGTH, 18.288 },
  { "18 AWG", HOB_DIM_LENGTH, 0.00102368734 },
  { "36 AWG", HOB_DIM_LENGTH, 0.000127 },
  { "0 AWG", HOB_DIM_LENGTH, 0.0082514628 },
  { "1 drill", HOB_DIM_LENGTH, 0.2280 * 0.0254 },
  { "50 drill", HOB_DIM_LENGTH, 0.0700 * 0.0254 },
  { "80drill", HOB_DIM_LENGTH, 0.0135 * 0.0254 },
  { "90 s", HOB_DIM_TIME, 90.0 },
  { "12 min", HOB_DIM_TIME, 720.0 },
  { "8h", HOB_DIM_TIME, 28800.0 },
  { "250 ms", HOB_DIM_TIME, 0.25 },
  { "50 %", HOB_DIM_NUMBER, 0.5 },
  { "50%", HOB_DIM_NUMBER, 0.5 },
  { "4 kg", HOB_DIM_MASS, 4.0 },
  { "250 g", HOB_DIM_MASS, 0.25 },
  { "8.5 lb", HOB_DIM_MASS, 8.5 * 0.45359237 },
  { "4 oz", HOB_DIM_MASS, 0.25 * 0.45359237 },
  { "0.001 kg/s", HOB_DIM_MASS_FLOW, 0.001 },
  { "5.4 g/s", HOB_DIM_MASS_FLOW, 0.0054 },
  { "2 lb/h", HOB_DIM_MASS_FLOW, 2 * 0.45359237 / 3600 },
  { "5 kJ", HOB_DIM_ENERGY, 5000.0 },
  { "100 J", HOB_DIM_ENERGY, 100.0 },
  { "1 Btu", HOB_DIM_ENERGY, 1055.05585262 },
  { "3.1 1/s", HOB_DIM_RATE, 3.1 },
  { "3.1 /s", HOB_DIM_RATE, 3.1 },
  { "60 m3", HOB_DIM_VOLUME, 60.0 },
  { "2 L", HOB_DIM_VOLUME, 0.002 },
  { "5 cu ft", HOB_DIM_VOLUME, 5 * 0.028316846592 },
  { "800 ppm", HOB_DIM_FRACTION, 800e-6 },
  /* A bare number is SI. */
  { "120", HOB_DIM_VOLTAGE, 120.0 },
  { "1245", HOB_DIM_PRESSURE, 1245.0 },
  { "60", HOB_DIM_TIME, 60.0 },
  { "1.25", HOB_DIM_NUMBER, 1.25 },
  { "0", HOB_DIM_POWER, 0.0 },
  /* Ways to write one number. */
  { "+1.5 V", HOB_DIM_VOLTAGE, 1.5 },
  { "-1.5 V", HOB_DIM_VOLTAGE, -1.5 },
  { ".5 V", HOB_DIM_VOLTAGE, 0.5 },
  { "5. V", HOB_DIM_VOLTAGE, 5.0 },
  { "1e3 V", HOB_DIM_VOLTAGE, 1000.0 },
  { "1.5E-3V", HOB_DIM_VOLTAGE, 0.0015 },
  { "  120  V  ", HOB_DIM_VOLTAGE, 120.0 },
  { "\t120\n", HOB_DIM_VOLTAGE, 120.0 },
  { "1e-999 V", HOB_DIM_VOLTAGE, 0.0 },
};

static const struct
{
  const char *text;
  HobDimension dim;
  const char *says; /* a piece of the sentence */
} bad[] = {
  { "", HOB_DIM_NUMBER, "number" },
  { "   ", HOB_DIM_VOLTAGE, "number" },
  { "V", HOB_DIM_VOLTAGE, "number" },
  { "nan", HOB_DIM_NUMBER, "number" },
  { "NaN V", HOB_DIM_VOLTAGE, "number" },
  { "-nan", HOB_DIM_NUMBER, "number" },
  { "inf", HOB_DIM_RESISTANCE, "number" },
  { "infinity V", HOB_DIM_VOLTAGE, "number" },
  { "-inf", HOB_DIM_NUMBER, "number" },
  { "1e999 V", HOB_DIM_VOLTAGE, "too large" },
  { "1e999", HOB_DIM_NUMBER, "too large" },
  { "1e308 kV", HOB_DIM_VOLTAGE, "too large" },
  { "0x10", HOB_DIM_NUMBER, "decimal" },
  { "0X1p3 V", HOB_DIM_VOLTAGE, "decimal" },
  { "1,5", HOB_DIM_NUMBER, "use a decimal point" },
  { "1 V", HOB_DIM_NUMBER, "wrong kind of unit; use one of: %" },
  { "1 V", HOB_DIM_CHOICE, "takes a word, not a number" },
  { "1,5 V", HOB_DIM_VOLTAGE, "use a decimal point" },
  { "18,000 Btu/h", HOB_DIM_POWER, "use a decimal point" },
  { "1.5.2 V", HOB_DIM_VOLTAGE, "decimal" },
  { "--5 V", HOB_DIM_VOLTAGE, "number" },
  { ". V", HOB_DIM_VOLTAGE, "number" },
  { "- 5 V", HOB_DIM_VOLTAGE, "number" },
  { "e5 V", HOB_DIM_VOLTAGE, "number" },
  { "five V", HOB_DIM_VOLTAGE, "number" },
  { "1 200 V", HOB_DIM_VOLTAGE, "unknown unit" },
  { "1e V", HOB_DIM_VOLTAGE, "unknown unit" },
  { "5 volts", HOB_DIM_VOLTAGE, "unknown unit" },
  { "5 v", HOB_DIM_VOLTAGE, "unknown unit" },
  { "5 V V", HOB_DIM_VOLTAGE, "unknown unit" },
  { "5 furlong", HOB_DIM_LENGTH, "mm" },
  { "5 A", HOB_DIM_VOLTAGE, "wrong kind" },
  { "5 mm", HOB_DIM_PRESSURE, "inH2O" },
  { "5 %", HOB_DIM_VOLTAGE, "wrong kind" },
  { "5 V", HOB_DIM_NUMBER, "wrong kind" },
  { "350", HOB_DIM_TEMPERATURE, "degF" },
  { "20", HOB_DIM_DIFFERENCE, "degF" },
  { "0", HOB_DIM_TEMPERATURE, "degF" },
  { "350 deg", HOB_DIM_TEMPERATURE, "degF" },
  { "-1 K", HOB_DIM_TEMPERATURE, "absolute zero" },
  { "-460 degF", HOB_DIM_TEMPERATURE, "absolute zero" },
  { "-274 degC", HOB_DIM_TEMPERATURE, "absolute zero" },
  { "18.5 AWG", HOB_DIM_LENGTH, "whole numbers" },
  { "-1 AWG", HOB_DIM_LENGTH, "whole numbers" },
  { "99 AWG", HOB_DIM_LENGTH, "whole numbers" },
  { "0 drill", HOB_DIM_LENGTH, "whole numbers" },
  { "81 drill", HOB_DIM_LENGTH, "from 1 to 80" },
  { "1e300 drill", HOB_DIM_LENGTH, "whole numbers" },
  { "18 AWG", HOB_DIM_CURRENT, "wrong kind" },
  { "open", HOB_DIM_VOLTAGE, "number" },
  { "open ohm", HOB_DIM_RESISTANCE, "number" },
  { "3", HOB_DIM_CHOICE, "a word, not a number" },
};

static void
assert_near (double got, double wanted, double relative, const char *about)
{
  if (isinf (wanted) ? got == wanted : fabs (got - wanted) <= relative * fabs (wanted) + 1e-12)
    return;
  g_error ("%s: got %.12g, wanted %.12g", about, got, wanted);
}

static void
good_quantities_are_read (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GError) error = NULL;
      double si = NAN;

      if (!hob_parse_quantity (good[i].text, good[i].dim, &si, &error))
        g_error ("'%s' was refused: %s", good[i].text, error->message);
      assert_near (si, good[i].si, 1e-8, good[i].text);
    }
}

static void
bad_quantities_are_refused_with_advice (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr (GError) error = NULL;
      double si = 42.0;

      if (hob_parse_quantity (bad[i].text, bad[i].dim, &si, &error))
        g_error ("'%s' was read as %g", bad[i].text, si);
      g_assert_error (error, HOB_ERROR, HOB_ERROR_VALUE);
      g_assert_cmpfloat (si, ==, 42.0);
      if (strstr (error->message, bad[i].says) == NULL || strstr (error->message, "; ") == NULL)
        g_error ("'%s': the sentence \"%s\" does not say \"%s\"", bad[i].text, error->message,
                 bad[i].says);
    }
}

static void
a_refusal_stays_one_short_line (void)
{
  g_autofree char *endless = g_strnfill (1 << 20, 'x');
  const char *nasty[] = { "12\nV\r!", "5 \033[31m", "\xff\xfe", endless };

  for (guint i = 0; i < G_N_ELEMENTS (nasty); i++)
    {
      g_autoptr (GError) error = NULL;
      double si;

      g_assert_false (hob_parse_quantity (nasty[i], HOB_DIM_VOLTAGE, &si, &error));
      g_assert_null (strpbrk (error->message, "\n\r\033"));
      g_assert_cmpuint (strlen (error->message), <, 1000);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
    }
}

/* Source: ANSI/ASME B94.11M, in; the ones an orifice is drilled with. */
static void
drills_have_their_published_diameters (void)
{
  static const struct { int number; double inch;
  } table[] = {
    { 80, 0.0135 }, { 75, 0.0210 }, { 70, 0.0280 }, { 65, 0.0350 }, { 62, 0.0380 },
    { 60, 0.0400 }, { 57, 0.0430 }, { 55, 0.0520 }, { 54, 0.0550 }, { 53, 0.0595 },
    { 52, 0.0635 }, { 50, 0.0700 }, { 47, 0.0785 }, { 42, 0.0935 }, { 40, 0.0980 },
    { 30, 0.1285 }, { 20, 0.1610 }, { 10, 0.1935 }, { 1, 0.2280 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    {
      g_autofree char *text = g_strdup_printf ("%d drill", table[i].number);
      double si = NAN;

      g_assert_true (hob_parse_quantity (text, HOB_DIM_LENGTH, &si, NULL));
      assert_near (si, table[i].inch * 0.0254, 1e-12, text);
    }
}

static void
a_higher_drill_number_is_a_finer_hole (void)
{
  double before = INFINITY;

  for (int number = 1; number <= 80; number++)
    {
      g_autofree char *text = g_strdup_printf ("%d drill", number);
      double si = NAN;

      g_assert_true (hob_parse_quantity (text, HOB_DIM_LENGTH, &si, NULL));
      g_assert_cmpfloat (si, <, before);
      before = si;
    }
}

/* Source: NBS Handbook 100; the wire of gauge 36 is 0.005 in, 39 gauges are a factor of 92. */
static void
wire_gauges_follow_the_handbook (void)
{
  assert_near (hob_awg_diameter (36), 0.005 * 0.0254, 1e-14, "36 AWG");
  assert_near (hob_awg_diameter (-3), 0.46 * 0.0254, 1e-14, "4/0 AWG");
  assert_near (hob_awg_diameter (12), 0.0808 * 0.0254, 1e-3, "12 AWG");
  assert_near (hob_awg_diameter (14), 0.0641 * 0.0254, 1e-3, "14 AWG");
  assert_near (hob_awg_diameter (18), 0.0403 * 0.0254, 1e-3, "18 AWG");
}

static void
conversion_goes_back_to_the_number_read (void)
{
  static const struct { const char *text; HobDimension dim; double number; } there[] = {
    { "350 degF", HOB_DIM_TEMPERATURE, 350 },  { "-40 degF", HOB_DIM_TEMPERATURE, -40 },
    { "20 degF", HOB_DIM_DIFFERENCE, 20 },     { "18000 Btu/h", HOB_DIM_POWER, 18000 },
    { "5 inH2O", HOB_DIM_PRESSURE, 5 },        { "0.0715 in", HOB_DIM_LENGTH, 0.0715 },
    { "9400 Btu", HOB_DIM_ENERGY, 9400 },      { "2 lb/h", HOB_DIM_MASS_FLOW, 2 },
    { "3.43 A", HOB_DIM_CURRENT, 3.43 },       { "90 s", HOB_DIM_TIME, 90 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (there); i++)
    {
      double si = NAN;

      g_assert_true (hob_parse_quantity (there[i].text, there[i].dim, &si, NULL));
      assert_near (hob_convert (si, there[i].dim, HOB_UNITS_TRADE), there[i].number, 1e-12,
                   there[i].text);
      g_assert_cmpfloat (hob_convert (si, there[i].dim, HOB_UNITS_SI), ==, si);
    }
}

/* What is printed with its sign is read back as the same quantity. */
static void
a_printed_figure_is_read_again (void)
{
  for (int dim = HOB_DIM_NUMBER; dim < HOB_DIM_CHOICE; dim++)
    for (int system = HOB_UNITS_SI; system <= HOB_UNITS_TRADE; system++)
      {
        g_autofree char *text = hob_figure_text (321.0, dim, system, 9);
        double si = NAN;

        g_assert_true (hob_parse_quantity (text, dim, &si, NULL));
        assert_near (si, 321.0, 1e-8, text);
      }
}

static void
figures_have_the_digits_asked_for (void)
{
  static const struct
  {
    double si;
    HobDimension dim;
    HobUnits system;
    int digits;
    const char *text;
  } figures[] = {
    { 3.4312, HOB_DIM_CURRENT, HOB_UNITS_SI, 3, "3.43 A" },
    { 3.4, HOB_DIM_CURRENT, HOB_UNITS_SI, 3, "3.40 A" },
    { 9.996, HOB_DIM_CURRENT, HOB_UNITS_SI, 3, "10.0 A" },
    { 118.4, HOB_DIM_VOLTAGE, HOB_UNITS_SI, 3, "118 V" },
    { 5275.28, HOB_DIM_POWER, HOB_UNITS_SI, 3, "5280 W" },
    { 5275.28, HOB_DIM_POWER, HOB_UNITS_TRADE, 3, "18000 Btu/h" },
    { 449.816667, HOB_DIM_TEMPERATURE, HOB_UNITS_TRADE, 3, "350 °F" },
    { 11.1111111, HOB_DIM_DIFFERENCE, HOB_UNITS_TRADE, 2, "20 °F" },
    { 1245.44455, HOB_DIM_PRESSURE, HOB_UNITS_TRADE, 2, "5.0 in. w.c." },
    { 0.0095, HOB_DIM_LENGTH, HOB_UNITS_SI, 2, "0.0095 m" },
    { 0.25, HOB_DIM_NUMBER, HOB_UNITS_SI, 2, "0.25" },
    { 0.0, HOB_DIM_CURRENT, HOB_UNITS_SI, 3, "0 A" },
    { -0.0, HOB_DIM_CURRENT, HOB_UNITS_SI, 3, "0 A" },
    { -2.5, HOB_DIM_VOLTAGE, HOB_UNITS_SI, 2, "-2.5 V" },
    { 0.0061, HOB_DIM_CURRENT, HOB_UNITS_SI, 2, "6.1 mA" },
    { 2.7e-6, HOB_DIM_CURRENT, HOB_UNITS_SI, 2, "2.7 µA" },
    { 0.2e-3, HOB_DIM_CURRENT, HOB_UNITS_SI, 2, "0.20 mA" },
    { 2.6e-9, HOB_DIM_CURRENT, HOB_UNITS_SI, 2, "0 A" },
    { -4.3e-9, HOB_DIM_VOLTAGE, HOB_UNITS_TRADE, 2, "0 V" },
    { 15000, HOB_DIM_VOLTAGE, HOB_UNITS_SI, 2, "15 kV" },
    { 1090, HOB_DIM_RESISTANCE, HOB_UNITS_SI, 4, "1090 ohm" },
    { 47000, HOB_DIM_RESISTANCE, HOB_UNITS_SI, 2, "47 kohm" },
    { 1e7, HOB_DIM_RESISTANCE, HOB_UNITS_SI, 2, "10 Mohm" },
    { 1.5e-9, HOB_DIM_MASS_FLOW, HOB_UNITS_SI, 2, "1.5e-09 kg/s" },
    { INFINITY, HOB_DIM_RESISTANCE, HOB_UNITS_SI, 3, "open" },
    { NAN, HOB_DIM_VOLTAGE, HOB_UNITS_SI, 3, "–" },
    { 3.4312, HOB_DIM_CURRENT, HOB_UNITS_SI, 0, "3 A" },
    { 3.4312, HOB_DIM_CURRENT, HOB_UNITS_SI, 99, "3.43120000 A" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (figures); i++)
    {
      g_autofree char *text
          = hob_figure_text (figures[i].si, figures[i].dim, figures[i].system, figures[i].digits);

      g_assert_cmpstr (text, ==, figures[i].text);
    }
}

static void
numbers_for_files_have_nine_digits (void)
{
  static const struct { double value; const char *text; } numbers[] = {
    { 0.0, "0" },          { -0.0, "0" },      { 1.5, "1.5" },       { -1.5, "-1.5" },
    { 1.0 / 3.0, "0.333333333" }, { 123456789.0, "123456789" }, { 1e20, "1e+20" }, { NAN, "" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autofree char *text = hob_number_text (numbers[i].value);
      g_autoptr (GString) out = g_string_new ("<");

      g_assert_cmpstr (text, ==, numbers[i].text);
      hob_append_number (out, numbers[i].value);
      g_assert_cmpstr (out->str + 1, ==, numbers[i].text);
    }
}

static void
times_read_like_a_person_says_them (void)
{
  static const struct { double s; const char *text;
  } times[] = {
    { 0, "0 s" },       { 0.04, "0 s" },       { -0.04, "0 s" },       { 1.5, "1.5 s" },
    { 9.94, "9.9 s" },  { 9.96, "10 s" },      { 94, "94 s" },         { 119.4, "119 s" },
    { 119.6, "2 min" }, { 720, "12 min" },     { 740, "12 min 20 s" }, { 3599.7, "1 h" },
    { 3600, "1 h" },    { 3900, "1 h 5 min" }, { 3629, "1 h" },        { 28800, "8 h" },
    { -94, "-94 s" },   { NAN, "–" },          { INFINITY, "–" },      { 1e18, "1e+18 s" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    {
      g_autofree char *text = hob_time_text (times[i].s);

      g_assert_cmpstr (text, ==, times[i].text);
    }
}

static void
every_dimension_has_a_sign (void)
{
  g_assert_cmpstr (hob_unit_sign (HOB_DIM_TEMPERATURE, HOB_UNITS_TRADE), ==, "°F");
  g_assert_cmpstr (hob_unit_sign (HOB_DIM_PRESSURE, HOB_UNITS_SI), ==, "Pa");
  g_assert_cmpstr (hob_unit_sign (HOB_DIM_NUMBER, HOB_UNITS_SI), ==, "");
  g_assert_cmpstr (hob_unit_sign (HOB_DIM_FRACTION, HOB_UNITS_SI), ==, "");
  g_assert_cmpstr (hob_unit_sign (HOB_DIM_FRACTION, HOB_UNITS_TRADE), ==, "ppm");
  for (int dim = HOB_DIM_TEMPERATURE; dim < HOB_DIM_FRACTION; dim++)
    for (int system = HOB_UNITS_SI; system <= HOB_UNITS_TRADE; system++)
      g_assert_cmpstr (hob_unit_sign (dim, system), !=, "");
}

/* Whatever the locale's decimal sign is, ours is a point. */
static void
the_locale_touches_no_figure (void)
{
  g_autofree char *number = hob_number_text (2.5);
  g_autofree char *figure = hob_figure_text (2.5, HOB_DIM_CURRENT, HOB_UNITS_SI, 2);
  g_autofree char *local = hob_person_text (2.5, HOB_DIM_CURRENT, 2);
  g_autofree char *pressure = hob_person_text (1245.44455, HOB_DIM_PRESSURE, 2);
  double si = NAN;

  g_assert_cmpstr (number, ==, "2.5");
  g_assert_cmpstr (figure, ==, "2.5 A");
  g_assert_cmpstr (local, ==, "2.5 A");
  g_assert_cmpstr (pressure, ==, "5.0 in. w.c.");
  g_assert_true (hob_parse_quantity ("2.5 A", HOB_DIM_CURRENT, &si, NULL));
  g_assert_cmpfloat (si, ==, 2.5);
  g_assert_false (hob_parse_quantity ("2,5 A", HOB_DIM_CURRENT, &si, NULL));
}

/* A test run under Spanish proves something only if Spanish is there. */
static void
a_locale_asked_for_is_there (void)
{
  const char *wanted = g_getenv ("HOB_TEST_DECIMAL_POINT");

  g_assert_cmpstr (localeconv ()->decimal_point, ==, wanted != NULL ? wanted : ".");
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/units/good quantities are read", good_quantities_are_read);
  g_test_add_func ("/base/units/bad quantities are refused with advice",
                   bad_quantities_are_refused_with_advice);
  g_test_add_func ("/base/units/a refusal stays one short line", a_refusal_stays_one_short_line);
  g_test_add_func ("/base/units/drills have their published diameters",
                   drills_have_their_published_diameters);
  g_test_add_func ("/base/units/a higher drill number is a finer hole",
                   a_higher_drill_number_is_a_finer_hole);
  g_test_add_func ("/base/units/wire gauges follow the handbook", wire_gauges_follow_the_handbook);
  g_test_add_func ("/base/units/conversion goes back to the number read",
                   conversion_goes_back_to_the_number_read);
  g_test_add_func ("/base/units/a printed figure is read again", a_printed_figure_is_read_again);
  g_test_add_func ("/base/units/figures have the digits asked for",
                   figures_have_the_digits_asked_for);
  g_test_add_func ("/base/units/numbers for files have nine digits",
                   numbers_for_files_have_nine_digits);
  g_test_add_func ("/base/units/times read like a person says them",
                   times_read_like_a_person_says_them);
  g_test_add_func ("/base/units/every dimension has a sign", every_dimension_has_a_sign);
  g_test_add_func ("/base/units/the locale touches no figure",
                   the_locale_touches_no_figure);
  g_test_add_func ("/base/units/a locale asked for is there", a_locale_asked_for_is_there);
  return g_test_run ();
}
