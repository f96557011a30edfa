/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "parts/severity.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "parts/say.h"

#include <math.h>

/* Two digits; but three for "108 °F" and one for "9 °F", where parts of a unit mean nothing. */
static int
digits_of (double value, gboolean whole)
{
  int before = value >= 1 ? (int) log10 (value * (1 + 1e-9)) + 1 : 1;

  return whole ? before : before == 3 ? 3 : 2;
}

/* The effect that grows with severity; others only accompany it. */
static const HobEffect *
telling_effect (const HobFaultDef *fault)
{
  for (int i = 0; i < fault->n_effects; i++)
    if (fault->effects[i].at0 != fault->effects[i].at1)
      return &fault->effects[i];
  return NULL;
}

static double
effect_value (const HobEffect *effect, double severity)
{
  if (effect->geometric)
    return effect->at0 * pow (effect->at1 / effect->at0, severity);
  return effect->at0 + (effect->at1 - effect->at0) * severity;
}

/* An amount without its sign: the words around it give the direction.  A factor is given as the
 * change that it makes, in percent. */
char *
hob_fault_amount_text (const HobKind *kind, const HobFaultDef *fault, double severity)
{
  const HobEffect *effect = telling_effect (fault);
  HobDimension dim;
  double value;

  if (fault->severity_words == NULL)
    return NULL;
  dim = kind->settings[effect->setting].dim;
  value = effect_value (effect, severity);
  if (effect->how == HOB_EFFECT_MULTIPLY)
    return hob_percent_text (fabs (value - 1));
  value = fabs (value);
  if (dim == HOB_DIM_NUMBER && fault->say == HOB_SAY_AMOUNT)
    return hob_percent_text (value);
  if (dim == HOB_DIM_TEMPERATURE && effect->how == HOB_EFFECT_ADD)
    dim = HOB_DIM_DIFFERENCE;
  return hob_said_text (fault->say, value, dim,
                        digits_of (hob_convert (value, dim, HOB_UNITS_TRADE),
                                   dim == HOB_DIM_DIFFERENCE));
}

static char *
in_words (const HobFaultDef *fault, const char *amount)
{
  GString *out = g_string_new (_ (fault->severity_words));

  g_string_replace (out, "%s", amount, 1);
  return g_string_free (out, FALSE);
}

char *
hob_fault_severity_text (const HobKind *kind, const HobFaultDef *fault, double severity)
{
  g_autofree char *amount = NULL;

  if (fault->severity_words == NULL)
    return NULL;
  amount = hob_fault_amount_text (kind, fault, severity);
  return in_words (fault, amount);
}

/* Of a fault that begins at nothing only the worst is said. */
static gboolean
begins_at_nothing (const HobEffect *effect)
{
  double normal = effect->how == HOB_EFFECT_MULTIPLY ? 1 : 0;

  return fabs (effect->at0 - normal) < 0.01 * fabs (effect->at1 - normal);
}

char *
hob_fault_span_text (const HobKind *kind, const HobFaultDef *fault)
{
  g_autofree char *mild = NULL, *worst = NULL, *span = NULL;

  if (fault->severity_words == NULL)
    return NULL;
  mild = hob_fault_amount_text (kind, fault, 0);
  worst = hob_fault_amount_text (kind, fault, 1);
  /* Translators: amounts with their units, from the mildest to the worst: "90 °F", "2 ohm". */
  span = begins_at_nothing (telling_effect (fault)) ? g_strdup_printf (_ ("up to %s"), worst)
                                                    : g_strdup_printf (_ ("%s to %s"), mild, worst);
  return in_words (fault, span);
}
