/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/two-figures.h"

#include "base/figure.h"
#include "base/i18n.h"
#include "parts/say.h"
#include "run/differ.h"
#include <math.h>
#include <string.h>

#define NOTHING_BESIDE 100.0 /* times as much: 10 µA beside 3.5 A are read as 0 */

/* What no instrument is sure of, beside a figure that is far larger. */
static double
read_beside (const HobQuantityDef *quantity, double value, double other)
{
  double least = quantity->least > 0 ? quantity->least : hob_differ_floor (quantity->dim);

  return fabs (value) < least / 2 && fabs (other) > NOTHING_BESIDE * fabs (value) ? 0 : value;
}

/* What a person reads off a figure. */
static double
read_off (const HobQuantityDef *quantity, double value, int digits)
{
  g_autofree char *text = hob_figure_text (value, quantity->dim, HOB_UNITS_TRADE, digits);

  return g_ascii_strtod (text, NULL);
}

/* Does the difference that a person reads off the two figures come near the true one? */
static gboolean
tells_difference (const HobQuantityDef *quantity, double value, double should_be, int digits)
{
  const double near = 0.15;
  double truth = read_off (quantity, value, 7) - read_off (quantity, should_be, 7);
  double read = read_off (quantity, value, digits) - read_off (quantity, should_be, digits);

  return !isfinite (truth) || fabs (read - truth) <= near * fabs (truth);
}

void
hob_two_figures (const HobQuantityDef *quantity, double value, double should_be, char **now,
                 char **normal)
{
  double now_read = read_beside (quantity, value, should_be),
         normal_read = read_beside (quantity, should_be, value);

  for (int digits = 2; digits <= 5; digits++)
    {
      g_free (*now);
      g_free (*normal);
      *now = hob_quantity_text (quantity, now_read, digits);
      *normal = isnan (should_be) ? NULL : hob_quantity_text (quantity, normal_read, digits);
      if (isnan (value) || *normal == NULL
          || (strcmp (*now, *normal) != 0
              && tells_difference (quantity, now_read, normal_read, digits)))
        return;
    }
}

char *
hob_figures_text (const HobQuantityDef *quantity, double value, double should_be)
{
  g_autofree char *now = NULL, *normal = NULL;

  hob_two_figures (quantity, value, should_be, &now, &normal);
  if (normal == NULL || strcmp (now, normal) == 0)
    return g_steal_pointer (&now);
  /* Translators: a figure, and what it would be on a normal range. */
  return g_strdup_printf (_ ("%s, should be %s"), now, normal);
}
