/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheet/differences.h"
#include "base/i18n.h"
#include "parts/say.h"
#include "run/differ.h"
#include <math.h>
#include <string.h>

/* Contacts, flames and turns have words, and shares are read as they are … */
static gboolean
is_plain (const HobQuantityDef *quantity)
{
  return quantity->values != NULL || quantity->say == HOB_SAY_SHARE;
}

/* … before what a sense or an instrument finds in figures. */
static gboolean
is_read (const HobQuantityDef *quantity)
{
  return quantity->sense != HOB_SENSE_NONE || quantity->dim == HOB_DIM_CURRENT
         || quantity->dim == HOB_DIM_RESISTANCE;
}

static int
turn_of (const HobQuantityDef *quantity)
{
  return is_plain (quantity) ? 0 : is_read (quantity) ? 1 : 2;
}

int
hob_difference_next (const HobComparison *c, const HobKind *kind, int part, gboolean seen,
                     double *should_be)
{
  int found = -1, least = 3;

  for (int k = 0; k < kind->n_quantities; k++)
    {
      const HobQuantityDef *quantity = &kind->quantities[k];
      double normal;

      if (k == kind->figure || quantity->counts || turn_of (quantity) >= least
          || (seen && quantity->sense != HOB_SENSE_EYE)
          || !hob_comparison_quantity (c, part, k, &normal))
        continue;
      found = k;
      least = turn_of (quantity);
      *should_be = normal;
    }
  return found;
}

/* ---- In figures ---- */

static char *
value_text (const HobQuantityDef *quantity, double value, int digits)
{
  if (isnan (value))
    return NULL;
  if (fabs (value) < hob_differ_floor (quantity->dim) / 2)
    value = 0;
  return hob_quantity_text (quantity, value, digits);
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
  for (int digits = 2; digits <= 5; digits++)
    {
      g_free (*now);
      g_free (*normal);
      *now = value_text (quantity, value, digits);
      *normal = value_text (quantity, should_be, digits);
      if (*now == NULL || *normal == NULL
          || (strcmp (*now, *normal) != 0
              && tells_difference (quantity, value, should_be, digits)))
        return;
    }
}

char *
hob_wire_title (const HobRange *range, const HobLine *wire)
{
  return g_strdup_printf (_ ("Wire: %s to %s"), hob_part_label (&range->parts[wire->from.part]),
                          hob_part_label (&range->parts[wire->to.part]));
}
