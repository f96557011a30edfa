/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/figure.h"

#include "base/i18n.h"

#include <math.h>
#include <string.h>

#define INCH 0.0254
#define FOOT (12 * INCH)
#define EIGHTH (INCH / 8)
#define MOST_DECIMALS 4
#define ENTRY_DIGITS 5
#define LEAST_SHARE 5e-5 /* 0.005%; what is below is nothing to a person */

char *
hob_person_number (const char *number)
{
  GString *out = g_string_new (NULL);
  gsize sign = *number == '-' ? 1 : 0;
  gsize whole = strspn (number + sign, "0123456789");

  g_string_append_len (out, number, (gssize) sign);
  for (gsize i = 0; i < whole; i++)
    {
      if (i > 0 && (whole - i) % 3 == 0)
        g_string_append_c (out, ',');
      g_string_append_c (out, number[sign + i]);
    }
  g_string_append (out, number + sign + whole);
  return g_string_free (out, FALSE);
}

static int
decimals_of (const char *number)
{
  const char *point = strchr (number, '.');

  return point != NULL ? (int) strspn (point + 1, "0123456789") : 0;
}

/* Fewer digits, so that no more than MOST_DECIMALS are left behind the point. */
static char *
short_number (double value, int digits)
{
  for (; digits > 0; digits--)
    {
      g_autofree char *number = hob_significant_text (value, digits);

      if (strchr (number, 'e') == NULL && decimals_of (number) <= MOST_DECIMALS)
        return g_steal_pointer (&number);
    }
  return g_strdup ("0");
}

static char *
with_unit (double value, int digits, const char *unit)
{
  g_autofree char *plain = short_number (value, digits);
  g_autofree char *number = hob_person_number (plain);

  return g_strconcat (number, unit, NULL);
}

/* An inch in eighths where that is what it is: "1/8 in.". */
static char *
eighths_text (double length)
{
  int n = (int) lround (length / EIGHTH);

  if (n < 1 || n > 7 || fabs (length - n * EIGHTH) > 0.005 * length)
    return NULL;
  return n % 4 == 0   ? g_strdup ("1/2 in.")
         : n % 2 == 0 ? g_strdup_printf ("%d/4 in.", n / 2)
                      : g_strdup_printf ("%d/8 in.", n);
}

static int
whole_digits (double value)
{
  return fabs (value) >= 1 ? (int) log10 (fabs (value) * (1 + 1e-9)) + 1 : 1;
}

char *
hob_feet_text (double length, int digits)
{
  double feet = hob_feet (length);

  return with_unit (feet, MIN (digits, whole_digits (feet)), " ft");
}

static char *
length_text (double length, int digits)
{
  char *fraction = eighths_text (length);

  if (fraction != NULL)
    return fraction;
  if (fabs (length) < 2 * FOOT)
    return with_unit (length / INCH, digits, " in.");
  return hob_feet_text (length, digits);
}

/* In Btu the energy of a spark would be too small to read. */
static char *
energy_text (double joule, int digits)
{
  if (fabs (joule) >= 100)
    return with_unit (hob_convert (joule, HOB_DIM_ENERGY, HOB_UNITS_TRADE), digits, " Btu");
  return fabs (joule) >= 1 ? with_unit (joule, digits, " J")
                           : with_unit (joule * 1000, digits, " mJ");
}

/* What a command writes in letters, or as a fraction. */
static const struct { const char *typed, *read; } signs[] = {
  { "", "" },         { "ohm", " Ω" }, { "kohm", " kΩ" },
  { "Mohm", " MΩ" },  { "1/s", "/s" },
};

static char *
measure_text (double si, HobDimension dim, int digits)
{
  const char *sign;
  double value = hob_convert_short (si, dim, HOB_UNITS_TRADE, &sign);
  g_autofree char *unit = g_strconcat (" ", sign, NULL);

  for (guint i = 0; i < G_N_ELEMENTS (signs); i++)
    if (g_str_equal (signs[i].typed, sign))
      return with_unit (value, digits, signs[i].read);
  return with_unit (value, digits, unit);
}

static char *
time_text (double seconds)
{
  g_autofree char *text = hob_time_text (seconds);

  return hob_person_number (text);
}

/* SI: half of what an instrument of the trade, or a nose, tells from nothing.  Common practice, no
 * source. */
static const double least_said[] = {
  [HOB_DIM_VOLTAGE] = 5e-4,   [HOB_DIM_POWER] = 0.05,     [HOB_DIM_WATTS] = 0.05,
  [HOB_DIM_PRESSURE] = 0.5,   [HOB_DIM_MASS_FLOW] = 1e-9, [HOB_DIM_RATE] = 5e-3,
  [HOB_DIM_FRACTION] = 5e-8,  [HOB_DIM_NUMBER] = 1e-6,    [HOB_DIM_CURRENT] = 5e-8,
};

double
hob_person_value (double si, HobDimension dim)
{
  return (guint) dim < G_N_ELEMENTS (least_said) && fabs (si) < least_said[dim] ? 0 : si;
}

char *
hob_person_text (double si, HobDimension dim, int digits)
{
  si = hob_person_value (si, dim);
  digits = CLAMP (digits, 1, 9);
  if (isnan (si))
    return g_strdup ("–");
  if (dim == HOB_DIM_NUMBER && fabs (si) < 1e9 && si == floor (si))
    digits = whole_digits (si); /* a count */
  if (isinf (si))
    /* Translators: an infinite resistance: the circuit is open; or a gap that is. */
    return g_strdup (si < 0                                               ? "−∞"
                     : dim == HOB_DIM_RESISTANCE || dim == HOB_DIM_LENGTH ? _ ("open")
                                                                          : "∞");
  switch ((int) dim)
    {
    case HOB_DIM_LENGTH: return length_text (si, digits);
    case HOB_DIM_ENERGY: return energy_text (si, digits);
    case HOB_DIM_TIME: return time_text (si);
    default: return measure_text (si, dim, digits);
    }
}

char *
hob_percent_text (double share)
{
  double percent = fabs (share) < LEAST_SHARE ? 0 : 100 * share;

  return with_unit (percent, fabs (share) >= 0.01 ? whole_digits (percent) : 2, "%");
}

char *
hob_entry_text (double si, HobDimension dim)
{
  const char *sign;
  double value = hob_convert_short (si, dim, HOB_UNITS_TRADE, &sign);
  g_autofree char *number = NULL;

  if (!isfinite (value))
    return hob_figure_text (si, dim, HOB_UNITS_TRADE, ENTRY_DIGITS);
  number = hob_significant_text (value, ENTRY_DIGITS);
  if (strchr (number, '.') != NULL && strchr (number, 'e') == NULL)
    for (gsize n = strlen (number); number[n - 1] == '0' || number[n - 1] == '.'; n--)
      {
        gboolean point = number[n - 1] == '.';

        number[n - 1] = '\0';
        if (point)
          break;
      }
  return g_strdup_printf ("%s%s%s", number, *sign != '\0' ? " " : "", sign);
}

char *
hob_one_period (char *sentence)
{
  GString *out = g_string_new (sentence);

  g_free (sentence);
  g_string_replace (out, "..", ".", 0);
  return g_string_free (out, FALSE);
}
