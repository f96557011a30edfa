/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/units.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <math.h>
#include <string.h>

/* Exact by definition unless a source is named. */
#define INCH 0.0254
#define FOOT (12.0 * INCH)
#define BTU 1055.05585262        /* J, International Table */
#define POUND 0.45359237         /* kg */
#define INCH_OF_WATER 249.08891  /* Pa, conventional column (NIST SP 811, appendix B) */
#define PSI 6894.757293168       /* Pa */
#define ICE_POINT 273.15         /* K */
#define FAHRENHEIT_ZERO 459.67   /* degF below which nothing is */

/* A size that is a name and no quantity of anything: its number is an index. */
typedef enum { MEASURE, GAUGE, DRILL } UnitNature;

/* value in SI = (number + offset) × scale; a difference leaves the offset out. */
typedef struct
{
  const char *word;
  HobDimension dim;
  double scale;
  double offset;
  UnitNature nature;
} Unit;

static const Unit units[] = {
  { "%", HOB_DIM_NUMBER, 0.01, 0, MEASURE },
  { "degF", HOB_DIM_TEMPERATURE, 5.0 / 9.0, FAHRENHEIT_ZERO, MEASURE },
  { "F", HOB_DIM_TEMPERATURE, 5.0 / 9.0, FAHRENHEIT_ZERO, MEASURE },
  { "°F", HOB_DIM_TEMPERATURE, 5.0 / 9.0, FAHRENHEIT_ZERO, MEASURE },
  { "degC", HOB_DIM_TEMPERATURE, 1.0, ICE_POINT, MEASURE },
  { "C", HOB_DIM_TEMPERATURE, 1.0, ICE_POINT, MEASURE },
  { "°C", HOB_DIM_TEMPERATURE, 1.0, ICE_POINT, MEASURE },
  { "K", HOB_DIM_TEMPERATURE, 1.0, 0, MEASURE },
  { "V", HOB_DIM_VOLTAGE, 1.0, 0, MEASURE },
  { "mV", HOB_DIM_VOLTAGE, 1e-3, 0, MEASURE },
  { "kV", HOB_DIM_VOLTAGE, 1e3, 0, MEASURE },
  { "A", HOB_DIM_CURRENT, 1.0, 0, MEASURE },
  { "mA", HOB_DIM_CURRENT, 1e-3, 0, MEASURE },
  { "µA", HOB_DIM_CURRENT, 1e-6, 0, MEASURE },
  { "uA", HOB_DIM_CURRENT, 1e-6, 0, MEASURE },
  { "ohm", HOB_DIM_RESISTANCE, 1.0, 0, MEASURE },
  { "Ω", HOB_DIM_RESISTANCE, 1.0, 0, MEASURE },
  { "kohm", HOB_DIM_RESISTANCE, 1e3, 0, MEASURE },
  { "Mohm", HOB_DIM_RESISTANCE, 1e6, 0, MEASURE },
  { "W", HOB_DIM_POWER, 1.0, 0, MEASURE },
  { "kW", HOB_DIM_POWER, 1e3, 0, MEASURE },
  { "Btu/h", HOB_DIM_POWER, BTU / 3600.0, 0, MEASURE },
  { "Pa", HOB_DIM_PRESSURE, 1.0, 0, MEASURE },
  { "kPa", HOB_DIM_PRESSURE, 1e3, 0, MEASURE },
  { "mbar", HOB_DIM_PRESSURE, 100.0, 0, MEASURE },
  { "inH2O", HOB_DIM_PRESSURE, INCH_OF_WATER, 0, MEASURE },
  { "in. w.c.", HOB_DIM_PRESSURE, INCH_OF_WATER, 0, MEASURE },
  { "psi", HOB_DIM_PRESSURE, PSI, 0, MEASURE },
  { "m", HOB_DIM_LENGTH, 1.0, 0, MEASURE },
  { "cm", HOB_DIM_LENGTH, 1e-2, 0, MEASURE },
  { "mm", HOB_DIM_LENGTH, 1e-3, 0, MEASURE },
  { "in", HOB_DIM_LENGTH, INCH, 0, MEASURE },
  { "ft", HOB_DIM_LENGTH, FOOT, 0, MEASURE },
  { "AWG", HOB_DIM_LENGTH, 0, 0, GAUGE },
  { "drill", HOB_DIM_LENGTH, 0, 0, DRILL },
  { "s", HOB_DIM_TIME, 1.0, 0, MEASURE },
  { "ms", HOB_DIM_TIME, 1e-3, 0, MEASURE },
  { "min", HOB_DIM_TIME, 60.0, 0, MEASURE },
  { "h", HOB_DIM_TIME, 3600.0, 0, MEASURE },
  { "kg", HOB_DIM_MASS, 1.0, 0, MEASURE },
  { "g", HOB_DIM_MASS, 1e-3, 0, MEASURE },
  { "lb", HOB_DIM_MASS, POUND, 0, MEASURE },
  { "oz", HOB_DIM_MASS, POUND / 16.0, 0, MEASURE },
  { "kg/s", HOB_DIM_MASS_FLOW, 1.0, 0, MEASURE },
  { "g/s", HOB_DIM_MASS_FLOW, 1e-3, 0, MEASURE },
  { "lb/h", HOB_DIM_MASS_FLOW, POUND / 3600.0, 0, MEASURE },
  { "J", HOB_DIM_ENERGY, 1.0, 0, MEASURE },
  { "kJ", HOB_DIM_ENERGY, 1e3, 0, MEASURE },
  { "Btu", HOB_DIM_ENERGY, BTU, 0, MEASURE },
  { "1/s", HOB_DIM_RATE, 1.0, 0, MEASURE },
  { "/s", HOB_DIM_RATE, 1.0, 0, MEASURE },
  { "m3", HOB_DIM_VOLUME, 1.0, 0, MEASURE },
  { "L", HOB_DIM_VOLUME, 1e-3, 0, MEASURE },
  { "cu ft", HOB_DIM_VOLUME, FOOT * FOOT * FOOT, 0, MEASURE },
  { "ppm", HOB_DIM_FRACTION, 1e-6, 0, MEASURE },
};

/* Twist drills by number, diameter in thousandths of an inch.  Source: ANSI/ASME B94.11M. */
static const double drill_mils[] = {
  0,
  228.0, 221.0, 213.0, 209.0, 205.5, 204.0, 201.0, 199.0, 196.0, 193.5, /*  1 … 10 */
  191.0, 189.0, 185.0, 182.0, 180.0, 177.0, 173.0, 169.5, 166.0, 161.0, /* 11 … 20 */
  159.0, 157.0, 154.0, 152.0, 149.5, 147.0, 144.0, 140.5, 136.0, 128.5, /* 21 … 30 */
  120.0, 116.0, 113.0, 111.0, 110.0, 106.5, 104.0, 101.5, 99.5,  98.0,  /* 31 … 40 */
  96.0,  93.5,  89.0,  86.0,  82.0,  81.0,  78.5,  76.0,  73.0,  70.0,  /* 41 … 50 */
  67.0,  63.5,  59.5,  55.0,  52.0,  46.5,  43.0,  42.0,  41.0,  40.0,  /* 51 … 60 */
  39.0,  38.0,  37.0,  36.0,  35.0,  33.0,  32.0,  31.0,  29.2,  28.0,  /* 61 … 70 */
  26.0,  25.0,  24.0,  22.5,  21.0,  20.0,  18.0,  16.0,  14.5,  13.5,  /* 71 … 80 */
};
#define DRILL_LAST ((int) G_N_ELEMENTS (drill_mils) - 1)
#define AWG_LAST 56 /* the finest of the handbook's table */

/* How a dimension is printed: the SI sign, the trade's sign, the trade's unit in `units`. */
static const struct
{
  const char *si;
  const char *trade;
  const char *trade_word;
} signs[] = {
  [HOB_DIM_NUMBER] = { "", "", NULL },
  [HOB_DIM_TEMPERATURE] = { "K", "°F", "degF" },
  [HOB_DIM_DIFFERENCE] = { "K", "°F", "degF" },
  [HOB_DIM_VOLTAGE] = { "V", "V", NULL },
  [HOB_DIM_CURRENT] = { "A", "A", NULL },
  [HOB_DIM_RESISTANCE] = { "ohm", "ohm", NULL },
  [HOB_DIM_POWER] = { "W", "Btu/h", "Btu/h" },
  [HOB_DIM_WATTS] = { "W", "W", NULL },
  [HOB_DIM_PRESSURE] = { "Pa", "in. w.c.", "inH2O" },
  [HOB_DIM_LENGTH] = { "m", "in", "in" },
  [HOB_DIM_TIME] = { "s", "s", NULL },
  [HOB_DIM_MASS] = { "kg", "oz", "oz" },
  [HOB_DIM_MASS_FLOW] = { "kg/s", "lb/h", "lb/h" },
  [HOB_DIM_ENERGY] = { "J", "Btu", "Btu" },
  [HOB_DIM_RATE] = { "1/s", "1/s", NULL },
  [HOB_DIM_VOLUME] = { "m3", "cu ft", "cu ft" },
  [HOB_DIM_FRACTION] = { "", "ppm", "ppm" },
  [HOB_DIM_CHOICE] = { "", "", NULL },
};

static const Unit *
find_unit (const char *word)
{
  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (units[i].word[0] == word[0] && g_str_equal (units[i].word, word))
      return &units[i];
  return NULL;
}

/* A difference is written in the units of temperature, electricity in those of heat. */
static gboolean
unit_fits (const Unit *unit, HobDimension dim)
{
  return unit->dim == dim || (unit->dim == HOB_DIM_TEMPERATURE && dim == HOB_DIM_DIFFERENCE)
         || (unit->dim == HOB_DIM_POWER && dim == HOB_DIM_WATTS);
}

static gsize
count_digits (const char *text)
{
  return strspn (text, "0123456789");
}

/* Length of the decimal number that @text begins with: [sign] digits [. digits] [e [sign] digits];
 * 0 if none.  The C library's reader is not asked, because it also takes "inf", "nan" and "0x1p3".
 */
static gsize
number_length (const char *text)
{
  gsize n = (*text == '+' || *text == '-') ? 1 : 0;
  gsize digits = count_digits (text + n);

  n += digits;
  if (text[n] == '.')
    {
      gsize decimals = count_digits (text + n + 1);

      digits += decimals;
      n += 1 + decimals;
    }
  if (digits == 0)
    return 0;

  if (text[n] == 'e' || text[n] == 'E')
    {
      gsize sign = (text[n + 1] == '+' || text[n + 1] == '-') ? 1 : 0;
      gsize exponent = count_digits (text + n + 1 + sign);

      if (exponent > 0)
        n += 1 + sign + exponent;
    }
  return n;
}

/* Takes @sentence over.  It quotes what a person typed, and stays one line whatever that was. */
static gboolean
refuse (GError **error, char *sentence)
{
  g_strdelimit (sentence, "\n\r\t\v\f\033", ' ');
  g_set_error_literal (error, HOB_ERROR, HOB_ERROR_VALUE, sentence);
  g_free (sentence);
  return FALSE;
}

/* @text without the space around it, and short enough to be quoted in a sentence. (transfer full)
 */
static char *
quotable (const char *text)
{
  const gsize longest = 80;
  g_autofree char *valid = g_utf8_make_valid (text, (gssize) strnlen (text, 4 * longest));
  char *quoted = g_utf8_strlen (valid, -1) > (glong) longest
                     ? g_utf8_substring (valid, 0, (glong) longest)
                     : g_strdup (valid);

  return g_strstrip (quoted);
}

/* The units one may write for @dim, "degF, F, …". (transfer full) */
static char *
units_of (HobDimension dim)
{
  GString *list = g_string_new (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (units); i++)
    if (unit_fits (&units[i], dim))
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", units[i].word);
  return g_string_free (list, FALSE);
}

static gboolean
refuse_unit (const char *text, const char *word, HobDimension dim, gboolean known, GError **error)
{
  g_autofree char *list = units_of (dim);
  g_autofree char *said = quotable (word);

  if (known)
    return refuse (
        error, g_strdup_printf (_ ("'%s' has the wrong kind of unit; use one of: %s"), text, list));
  return refuse (error, g_strdup_printf (_ ("'%s' has an unknown unit '%s'; use one of: %s"), text,
                                         said, list));
}

static gboolean
refuse_number (const char *text, GError **error)
{
  return refuse (
      error,
      g_strdup_printf (_ ("'%s' doesn't start with a number; use digits, such as 12.5"), text));
}

/* AWG and drill numbers: whole, and of the table. */
static gboolean
read_index (const char *text, double number, const Unit *unit, double *si, GError **error)
{
  int first = unit->nature == DRILL ? 1 : 0;
  int last = unit->nature == DRILL ? DRILL_LAST : AWG_LAST;

  if (number < first || number > last || number != floor (number))
    return refuse (error,
                   /* Translators: what was typed, AWG (of wires) or drill (of orifices), and two
                    * numbers. */
                   g_strdup_printf (_ ("'%s' is not a valid size; %s sizes are whole numbers "
                                       "from %d to %d"),
                                    text, unit->word, first, last));
  if (unit->nature == DRILL)
    *si = drill_mils[(int) number] * 1e-3 * INCH;
  else
    *si = hob_awg_diameter ((int) number);
  return TRUE;
}

static gboolean
read_measure (const char *text, double number, const Unit *unit, HobDimension dim, double *si,
              GError **error)
{
  double value
      = dim == HOB_DIM_DIFFERENCE ? number * unit->scale : (number + unit->offset) * unit->scale;

  if (!isfinite (value))
    return refuse (error, g_strdup_printf (_("'%s' is too large; use a smaller number"), text));
  /* 1e-9: -459.67 is absolute zero, whatever the last bit of the sum says. */
  if (dim == HOB_DIM_TEMPERATURE && value < -1e-9)
    return refuse (
        error,
        g_strdup_printf (_ ("'%s' is below absolute zero; use a higher temperature"), text));
  *si = dim == HOB_DIM_TEMPERATURE ? MAX (value, 0.0) : value;
  return TRUE;
}

static gboolean
read_bare (const char *text, double number, HobDimension dim, double *si, GError **error)
{
  if (dim == HOB_DIM_TEMPERATURE || dim == HOB_DIM_DIFFERENCE)
    return refuse (
        error, g_strdup_printf (_ ("'%s' is a temperature without a unit; add degF, degC, or K"),
                                text));
  if (!isfinite (number))
    return refuse (error, g_strdup_printf (_("'%s' is too large; use a smaller number"), text));
  *si = number;
  return TRUE;
}

/* The dimensions that have a word of their own for a value. */
static gboolean
is_open (const char *text, HobDimension dim)
{
  return dim == HOB_DIM_RESISTANCE && g_str_equal (text, "open");
}

/* @text has no space around it; @quoted is what a refusal says of it. */
static gboolean
parse (const char *text, const char *quoted, HobDimension dim, double *si, GError **error)
{
  const char *word;
  const Unit *unit;
  double number;
  gsize n;

  if (dim == HOB_DIM_CHOICE)
    return refuse (error, g_strdup_printf (_ ("'%s' is a number; this setting takes a word, "
                                              "not a number"),
                                           quoted));
  if (is_open (text, dim))
    {
      *si = INFINITY;
      return TRUE;
    }

  n = number_length (text);
  if (n == 0)
    return refuse_number (quoted, error);
  word = text + n;
  if (*word == ',')
    return refuse (
        error, g_strdup_printf (_ ("'%s' has a comma in its number; leave it out, or use a decimal "
                                   "point"),
                                quoted));
  if (*word == 'x' || *word == 'X' || *word == '.')
    return refuse (
        error,
        g_strdup_printf (_ ("'%s' is not a decimal number; use digits, such as 12.5"), quoted));

  number = g_ascii_strtod (text, NULL);
  while (g_ascii_isspace (*word))
    word++;
  if (*word == '\0')
    return read_bare (quoted, number, dim, si, error);

  unit = find_unit (word);
  if (unit == NULL || !unit_fits (unit, dim))
    return refuse_unit (quoted, word, dim, unit != NULL, error);
  if (unit->nature != MEASURE)
    return read_index (quoted, number, unit, si, error);
  return read_measure (quoted, number, unit, dim, si, error);
}

/* Nearly all is right: only a refusal quotes. */
gboolean
hob_parse_quantity (const char *text, HobDimension dim, double *si, GError **error)
{
  g_autofree char *trimmed = NULL, *quoted = NULL;

  g_return_val_if_fail (text != NULL && si != NULL, FALSE);

  trimmed = g_strstrip (g_strdup (text));
  if (parse (trimmed, "", dim, si, NULL))
    return TRUE;
  quoted = quotable (text);
  return parse (trimmed, quoted, dim, si, error);
}

double
hob_convert (double si, HobDimension dim, HobUnits system)
{
  const Unit *unit;

  g_return_val_if_fail ((guint) dim < G_N_ELEMENTS (signs), si);

  if (system == HOB_UNITS_SI || signs[dim].trade_word == NULL)
    return si;
  unit = find_unit (signs[dim].trade_word);
  return si / unit->scale - (dim == HOB_DIM_TEMPERATURE ? unit->offset : 0.0);
}

const char *
hob_unit_sign (HobDimension dim, HobUnits system)
{
  g_return_val_if_fail ((guint) dim < G_N_ELEMENTS (signs), "");

  return system == HOB_UNITS_SI ? signs[dim].si : signs[dim].trade;
}

/* "%.9g" without the locale; 0 has no sign, so that a settled zero always prints alike. */
static const char *
format_number (char buffer[G_ASCII_DTOSTR_BUF_SIZE], double value)
{
  if (isnan (value))
    return "";
  return g_ascii_formatd (buffer, G_ASCII_DTOSTR_BUF_SIZE, "%.9g", value == 0.0 ? 0.0 : value);
}

char *
hob_number_text (double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  return g_strdup (format_number (buffer, value));
}

void
hob_append_number (GString *out, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  g_string_append (out, format_number (buffer, value));
}

char *
hob_significant_text (double value, int digits)
{
  char rounded[G_ASCII_DTOSTR_BUF_SIZE], format[8], plain[64];
  double magnitude;
  int decimals;

  if (value == 0.0)
    return g_strdup ("0");

  g_snprintf (format, sizeof format, "%%.%de", digits - 1);
  value = g_ascii_strtod (g_ascii_formatd (rounded, sizeof rounded, format, value), NULL);
  magnitude = fabs (value);
  if (magnitude < 1e-6 || magnitude >= 1e15)
    return g_strdup (g_ascii_formatd (rounded, sizeof rounded, format, value));

  decimals = MAX (0, digits - 1 - (int) floor (log10 (magnitude)));
  g_snprintf (format, sizeof format, "%%.%df", decimals);
  return g_strdup (g_ascii_formatd (plain, sizeof plain, format, value));
}

/* What the trade says instead of a long row of zeros, the first that fits; @least in SI. */
static const struct
{
  HobDimension dim;
  double least;
  const char *word; /* of `units`; NULL: nothing that an instrument would show */
} prefixed[] = {
  { HOB_DIM_VOLTAGE, 1e4, "kV" },      { HOB_DIM_VOLTAGE, 5e-5, "V" },
  { HOB_DIM_VOLTAGE, 0, NULL },        { HOB_DIM_CURRENT, 0.1, "A" },
  { HOB_DIM_CURRENT, 1e-4, "mA" },     { HOB_DIM_CURRENT, 5e-8, "µA" },
  { HOB_DIM_CURRENT, 0, NULL },
  { HOB_DIM_RESISTANCE, 1e6, "Mohm" }, { HOB_DIM_RESISTANCE, 1e4, "kohm" },
};

/* Exchanges @value and @sign, both SI, for those a person would use. */
static void
choose_prefix (HobDimension dim, double *value, const char **sign)
{
  for (guint i = 0; i < G_N_ELEMENTS (prefixed); i++)
    if (prefixed[i].dim == dim && fabs (*value) >= prefixed[i].least)
      {
        if (prefixed[i].word == NULL)
          *value = 0.0;
        else
          {
            *sign = prefixed[i].word;
            *value /= find_unit (*sign)->scale;
          }
        return;
      }
}

double
hob_convert_short (double si, HobDimension dim, HobUnits system, const char **sign)
{
  double value = hob_convert (si, dim, system);

  *sign = hob_unit_sign (dim, system);
  choose_prefix (dim, &value, sign);
  return value;
}

char *
hob_figure_text (double si, HobDimension dim, HobUnits system, int digits)
{
  const char *sign;
  double value = hob_convert_short (si, dim, system, &sign);
  g_autofree char *number = NULL;

  if (isnan (value))
    return g_strdup ("–");
  if (isinf (value))
    return g_strdup (value < 0 ? "−∞" : dim == HOB_DIM_RESISTANCE ? "open" : "∞");

  number = hob_significant_text (value, CLAMP (digits, 1, 9));
  return g_strdup_printf ("%s%s%s", number, *sign != '\0' ? " " : "", sign);
}

char *
hob_time_text (double seconds)
{
  const char *sign = seconds < 0 ? "-" : "";
  double s = fabs (seconds);
  char number[G_ASCII_DTOSTR_BUF_SIZE];
  gint64 whole;

  if (!isfinite (s))
    return g_strdup ("–");
  /* From here on in whole seconds; the sum of what is printed is what was rounded. */
  if (s < 9.95)
    {
      g_ascii_formatd (number, sizeof number, "%.1f", s);
      if (g_str_has_suffix (number, ".0"))
        number[strlen (number) - 2] = '\0';
      return g_strdup_printf ("%s%s s", g_str_equal (number, "0") ? "" : sign, number);
    }
  if (s >= 1e15)
    return g_strdup_printf ("%s%s s", sign, g_ascii_formatd (number, sizeof number, "%.3g", s));
  whole = (gint64) floor (s + 0.5);
  if (whole < 120)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT " s", sign, whole);
  if (whole < 3600 && whole % 60 != 0)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT " min %d s", sign, whole / 60,
                            (int) (whole % 60));
  if (whole < 3600)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT " min", sign, whole / 60);
  whole = (whole + 30) / 60;
  if (whole % 60 != 0)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT " h %d min", sign, whole / 60,
                            (int) (whole % 60));
  return g_strdup_printf ("%s%" G_GINT64_FORMAT " h", sign, whole / 60);
}

double
hob_awg_diameter (int gauge)
{
  return 0.005 * INCH * pow (92.0, (36 - gauge) / 39.0);
}

/* Neighbors are 12% apart. */
int
hob_awg_of (double diameter)
{
  for (int gauge = 1; gauge <= AWG_LAST; gauge++)
    if (fabs (diameter / hob_awg_diameter (gauge) - 1) < 1e-3)
      return gauge;
  return 0;
}

double
hob_feet (double metres)
{
  return metres / FOOT;
}
