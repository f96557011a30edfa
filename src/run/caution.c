/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What is to be minded where a test is made: the words stand with the act. */

#include "run/reading.h"
#include "base/i18n.h"

/* Hot and brittle where it glows. */
static gboolean
glows (const HobRange *range, int part)
{
  return part >= 0 && (range->parts[part].kind->hazards & HOB_HAZARD (HOT_IGNITER)) != 0;
}

const char *
hob_test_caution (const HobRange *range, const HobTest *test)
{
  g_return_val_if_fail (range != NULL && test != NULL, NULL);

  switch (test->what)
    {
    case HOB_TEST_VOLTS:
      if (glows (range, test->a.part) || glows (range, test->b.part))
        return N_ ("live, by a trained person: at the harness end, never inside the hot cavity; the igniter is "
                   "brittle, and hot for ten minutes");
      return N_ ("live, by a trained person: off is not dead");
    case HOB_TEST_OHMS:
      return N_ ("where it smells of gas, touch nothing electric; else unplug, prove it dead, take one lead off the part");
    case HOB_TEST_PRESSURE:
      return N_ ("gas shut, gauge fitted, leak-tested with soap solution, never a flame; afterwards plugged and "
                 "leak-tested");
    case HOB_TEST_AMPS:
      return N_ ("clamp on one wire, by a trained person: it is live");
    case HOB_TEST_TEMP:
    case HOB_TEST_LOOK:
    default:
      return NULL;
    }
}
