/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* SI inside, everywhere.  Units are parsed and printed here and nowhere else. */
typedef enum
{
  HOB_DIM_NUMBER,      /* plain number, or % */
  HOB_DIM_TEMPERATURE, /* K (absolute); a bare number is refused */
  HOB_DIM_DIFFERENCE,  /* K (temperature difference: 20 degF is 11.1 K); a bare number is refused */
  HOB_DIM_VOLTAGE,     /* V */
  HOB_DIM_CURRENT,     /* A */
  HOB_DIM_RESISTANCE,  /* ohm; "open" is +infinity */
  HOB_DIM_POWER,       /* W of heat: Btu/h in the trade */
  HOB_DIM_WATTS,       /* W of electricity: W in the trade too */
  HOB_DIM_PRESSURE,    /* Pa gauge */
  HOB_DIM_LENGTH,      /* m; also "18 AWG" and "50 drill" (the diameter) */
  HOB_DIM_TIME,        /* s */
  HOB_DIM_MASS,        /* kg */
  HOB_DIM_MASS_FLOW,   /* kg/s */
  HOB_DIM_ENERGY,      /* J */
  HOB_DIM_RATE,        /* 1/s */
  HOB_DIM_VOLUME,      /* m³: cubic feet in the trade */
  HOB_DIM_FRACTION,    /* volume of a gas in a volume of air: a trace of it, in ppm */
  HOB_DIM_CHOICE,      /* one of a setting's words, stored as its index */
} HobDimension;

typedef enum
{
  HOB_UNITS_SI,    /* K, Pa, W, ohm … */
  HOB_UNITS_TRADE, /* °F, in. w.c., Btu/h … */
} HobUnits;

/* Reads "NUMBER [space] UNIT" in the C locale into *si.  Refuses NaN, inf, hexadecimal, a decimal
 * comma (and says "use a decimal point"), an unknown unit, a unit of another dimension, a
 * temperature without unit.  Errors: HOB_ERROR_VALUE, text without file and line. */
gboolean hob_parse_quantity (const char *text, HobDimension dim, double *si, GError **error);

/* The number in the chosen units (K → °F …). */
double hob_convert (double si, HobDimension dim, HobUnits units);

/* The unit's sign as printed ("°F", "Pa", "ohm"); "" for plain numbers.  Borrowed. */
const char *hob_unit_sign (HobDimension dim, HobUnits units);

/* "%.9g" in the C locale, for files, CSV and the command line; "" for NaN. (transfer full) */
char *hob_number_text (double value);
/* The same appended; never touches the locale. */
void hob_append_number (GString *out, double value);

/* Rounded to @digits significant ones, in the C locale, without an exponent wherever that stays
 * short. (transfer full) */
char *hob_significant_text (double value, int digits);
/* The number with the prefix that the trade uses, and its sign: 6.1 "mA", 15 "kV"; what no
 * instrument would show is 0.  *sign is borrowed. */
double hob_convert_short (double si, HobDimension dim, HobUnits units, const char **sign);
/* Both in one text that can be read again: "3.43 A", "6.1 mA", "1090 ohm", in the C locale.
 * base/figure.h has the figures for people. (transfer full) */
char *hob_figure_text (double si, HobDimension dim, HobUnits units, int digits);

/* "94 s", "12 min", "1 h 5 min": simulated time for people.  (transfer full) */
char *hob_time_text (double seconds);

/* Diameter in m of an American wire gauge (NBS Handbook 100: d[in] = 0.005·92^((36−n)/39)). */
double hob_awg_diameter (int gauge);
/* The gauge of exactly that diameter in m, from 1 on; 0 if there is none. */
int hob_awg_of (double diameter);
/* Feet in @metres. */
double hob_feet (double metres);

G_END_DECLS
