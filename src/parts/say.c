/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "parts/say.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "physics/material.h"

#include <math.h>

#define CONTROL_DIGITS 3
#define SETTING_DIGITS 4

const char *const hob_no_yes[] = { N_ ("no"), N_ ("yes"), NULL };
/* Translators: how hard gas lights, from normal to worst. */
const char *const hob_bursts[] = { N_ ("none"), N_ ("puff"), N_ ("whoosh"), N_ ("bang"),
                                   N_ ("explosion"), NULL };

static char *
glow_text (double kelvin)
{
  const char *word = hob_glow_word (kelvin);

  /* Translators: an igniter that doesn't glow. */
  return g_strdup (word != NULL ? _ (word) : _ ("none"));
}

static char *
gauge_text (double diameter, int digits)
{
  int gauge = hob_awg_of (diameter);

  return gauge > 0 ? g_strdup_printf ("%d AWG", gauge)
                   : hob_person_text (diameter, HOB_DIM_LENGTH, digits);
}

#define STANDARD_AIR 1.2 /* kg/m³, 0.075 lb/ft³: the trade's, from memory */

/* ft³/min of @flow, kg/s: as fans are rated. */
static double
air_by_the_minute (double flow)
{
  return hob_convert (flow * 60 / STANDARD_AIR, HOB_DIM_VOLUME, HOB_UNITS_TRADE);
}

static char *
air_text (double flow, int digits)
{
  g_autofree char *number
      = hob_person_text (air_by_the_minute (flow), HOB_DIM_NUMBER, MIN (digits, 2));

  return g_strdup_printf (_ ("%s CFM"), number);
}

/* "18.6 °F below" */
static char *
above_text (double value, HobDimension dim, int digits)
{
  g_autofree char *text = hob_person_text (fabs (value), dim, digits);

  return g_strdup_printf (value < 0 ? _ ("%s below") : _ ("%s above"), text);
}

char *
hob_said_text (HobSay say, double value, HobDimension dim, int digits)
{
  if (isnan (value))
    return hob_person_text (value, dim, digits);
  switch (say)
    {
    case HOB_SAY_SHARE: return hob_percent_text (value);
    case HOB_SAY_PERCENT: return hob_percent_text (value / 100);
    case HOB_SAY_GLOW: return glow_text (value);
    case HOB_SAY_HOLE:
      return hob_person_text (sqrt (4 * value / G_PI), HOB_DIM_LENGTH, digits);
    case HOB_SAY_AIR: return air_text (value, digits);
    case HOB_SAY_ABOVE: return above_text (value, dim, digits);
    case HOB_SAY_FEET: return hob_feet_text (value, digits);
    case HOB_SAY_GAUGE: return gauge_text (value, digits);
    case HOB_SAY_AMOUNT:
    default: return hob_person_text (value, dim, digits);
    }
}

static const char *
word_of (const char *const *words, double value)
{
  int wanted = (int) lround (value), k = 0;

  while (words[k] != NULL && k < wanted)
    k++;
  return words[k];
}

static gboolean
is_gas (const HobQuantityDef *quantity)
{
  return quantity->say == HOB_SAY_AMOUNT
         && (quantity->dim == HOB_DIM_MASS_FLOW || quantity->dim == HOB_DIM_MASS);
}

/* Nobody weighs gas: a flow is the heat that it carries, and what has gathered is a volume. */
static double
measure_of (const HobQuantityDef *quantity, double value, const HobFuel *fuel, HobDimension *dim)
{
  *dim = quantity->dim == HOB_DIM_MASS ? HOB_DIM_VOLUME : HOB_DIM_POWER;
  return quantity->dim == HOB_DIM_MASS ? value / fuel->density : value * fuel->heat;
}

char *
hob_quantity_text_of (const HobQuantityDef *quantity, double value, int digits,
                      const HobFuel *fuel)
{
  HobDimension dim;

  if (fuel == NULL || !is_gas (quantity) || !isfinite (value))
    return hob_quantity_text (quantity, value, digits);
  value = measure_of (quantity, value, fuel, &dim);
  return hob_person_text (value, dim, digits);
}

double
hob_quantity_trade (const HobQuantityDef *quantity, double value, const HobFuel *fuel)
{
  HobDimension dim = quantity->dim;

  if (quantity->say == HOB_SAY_AIR)
    return air_by_the_minute (value);
  if (is_gas (quantity))
    value = measure_of (quantity, value, fuel, &dim);
  return hob_convert (hob_person_value (value, dim), dim, HOB_UNITS_TRADE);
}

const char *
hob_quantity_trade_sign (const HobQuantityDef *quantity)
{
  if (quantity->say == HOB_SAY_AIR)
    return "CFM";
  if (is_gas (quantity))
    return hob_unit_sign (quantity->dim == HOB_DIM_MASS ? HOB_DIM_VOLUME : HOB_DIM_POWER,
                          HOB_UNITS_TRADE);
  return hob_unit_sign (quantity->dim, HOB_UNITS_TRADE);
}

char *
hob_quantity_text (const HobQuantityDef *quantity, double value, int digits)
{
  const char *word = NULL;

  if (quantity->never > 0 && value >= quantity->never)
    return g_strdup (_ ("none yet"));
  if (quantity->values != NULL && isfinite (value))
    word = word_of (quantity->values, value);
  return word != NULL ? g_strdup (_ (word))
                      : hob_said_text (quantity->say, value, quantity->dim, digits);
}

char *
hob_quantity_words (const HobQuantityDef *quantity)
{
  const char *words = _ (quantity->words);

  return quantity->remark != NULL ? g_strdup_printf ("%s; %s", words, _ (quantity->remark))
                                  : g_strdup (words);
}

/* "0 no, 1 yes" */
static char *
values_text (const char *const *words)
{
  GString *out = g_string_new (NULL);

  for (int k = 0; words[k] != NULL; k++)
    g_string_append_printf (out, "%s%d %s", k > 0 ? ", " : "", k, _ (words[k]));
  return g_string_free (out, FALSE);
}

char *
hob_quantity_unit (const HobQuantityDef *quantity, HobUnits units)
{
  if (quantity->values != NULL)
    return values_text (quantity->values);
  if (quantity->say == HOB_SAY_SHARE)
    /* Translators: what can be entered for a setting. */
    return g_strdup (_ ("0 to 1"));
  if (quantity->say == HOB_SAY_PERCENT)
    return g_strdup ("%");
  return g_strdup (hob_unit_sign (quantity->dim, units));
}

char *
hob_position_text (const HobControlDef *control, double value)
{
  for (const HobPosition *p = control->positions; p != NULL && p->name != NULL; p++)
    if (p->value == value)
      return g_strdup (p->words != NULL ? _ (p->words) : p->name);
  return hob_said_text (control->dim == HOB_DIM_NUMBER ? HOB_SAY_PERCENT : HOB_SAY_AMOUNT, value,
                        control->dim, CONTROL_DIGITS);
}

/* What was typed in has no idle zeros: 120 V, 118.5 V. */
static int
digits_of (double si, HobDimension dim)
{
  const char *sign;
  double value = hob_convert_short (si, dim, HOB_UNITS_TRADE, &sign);
  g_autofree char *all = hob_significant_text (value, SETTING_DIGITS);
  int digits = 1;

  for (; digits < SETTING_DIGITS; digits++)
    {
      g_autofree char *fewer = hob_significant_text (value, digits);

      if (g_ascii_strtod (fewer, NULL) == g_ascii_strtod (all, NULL))
        break;
    }
  return digits;
}

char *
hob_setting_text (const HobSettingDef *setting, double value)
{
  if (setting->choices != NULL)
    return g_strdup (setting->choices[(int) value]);
  return hob_said_text (setting->say, value, setting->dim,
                        isfinite (value) && setting->say != HOB_SAY_FEET
                            ? digits_of (value, setting->dim)
                            : SETTING_DIGITS);
}

static char *
in_unit (double number, const char *unit)
{
  g_autofree char *text = hob_entry_text (number, HOB_DIM_NUMBER);

  return g_strconcat (text, unit, NULL);
}

char *
hob_setting_entry (const HobSettingDef *setting, double value)
{
  if (setting->choices != NULL)
    return g_strdup (setting->choices[(int) value]);
  switch ((int) setting->say)
    {
    case HOB_SAY_SHARE: return in_unit (100 * value, "%");
    case HOB_SAY_FEET: return in_unit (hob_feet (value), " ft");
    case HOB_SAY_GAUGE:
      if (hob_awg_of (value) > 0)
        return g_strdup_printf ("%d AWG", hob_awg_of (value));
      break;
    default: break;
    }
  return hob_entry_text (value, setting->dim);
}

char *
hob_words_around (const char *words, const char *figure)
{
  g_auto (GStrv) halves = g_strsplit (words, "%s", 2);

  return g_strjoinv (figure, halves);
}
