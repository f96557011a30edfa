/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/lines.h"

#include "base/i18n.h"

#include <math.h>

#define OPEN 1e-6   /* of a wire's diameter: next to no copper is left */
#define PINCHED 0.05 /* of a pipe's bore, at most: assumed */

GArray *
hob_line_faults (const HobRange *range)
{
  GArray *all = g_array_new (FALSE, FALSE, sizeof (HobLineFault));

  for (int k = 0; k < range->n_wires + range->n_pipes; k++)
    {
      gboolean pipe = k >= range->n_wires;
      HobLineFault fault = { pipe, pipe ? k - range->n_wires : k };

      g_array_append_val (all, fault);
    }
  return all;
}

static const HobLine *
line_of (const HobRange *range, const HobLineFault *fault)
{
  return fault->pipe ? &range->pipes[fault->line] : &range->wires[fault->line];
}

HobRange *
hob_line_fault_range (const HobRange *range, const HobLineFault *fault, double severity)
{
  double diameter = line_of (range, fault)->diameter;

  return fault->pipe ? hob_range_with_pipe (range, fault->line, diameter * pow (PINCHED, severity))
                     : hob_range_with_wire (range, fault->line, diameter * OPEN);
}

char *
hob_line_fault_words (const HobRange *range, const HobLineFault *fault)
{
  const HobLine *line = line_of (range, fault);
  const char *from = hob_part_label (&range->parts[line->from.part]);
  const char *to = hob_part_label (&range->parts[line->to.part]);

  /* Translators: two parts of the range, and the wire's or pipe's code. */
  return g_strdup_printf (
      fault->pipe
          ? _ ("A fault not on this list, probably a kinked or clogged gas line between %s and %s "
               "(%s)")
          : _ ("A fault not on this list, probably an open wire between %s and %s (%s)"),
      from, to, line->id);
}
