/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/moments.h"

#include "reason/checks.h"

GPtrArray *
hob_reading_moments (const HobRange *range, const HobTest *test)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_test_free);
  g_auto (GStrv) procedures = hob_procedure_names (range);
  g_autoptr (HobCase) base = hob_case_new (range);

  for (char **name = procedures; *name != NULL; name++)
    {
      HobOccasion *o = hob_occasion_new (base, *name, test->what == HOB_TEST_OHMS);

      for (guint k = 0; k < o->moments->len; k++)
        {
          double t = g_array_index (o->moments, double, k);

          g_ptr_array_add (all, hob_occasion_test (base, o, t, test));
        }
      hob_occasion_free (o);
    }
  return all;
}
