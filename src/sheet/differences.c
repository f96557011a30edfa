/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheet/differences.h"
#include "base/i18n.h"

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

char *
hob_wire_title (const HobRange *range, const HobLine *wire)
{
  return g_strdup_printf (_ ("Wire: %s to %s"), hob_part_label (&range->parts[wire->from.part]),
                          hob_part_label (&range->parts[wire->to.part]));
}
