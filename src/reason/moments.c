/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/moments.h"

#include "reason/checks.h"

GPtrArray *
hob_reading_moments (const HobRange *range, const HobTest *test)
{
  GPtrArray *all = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_test_free);
  g_auto (GStrv) procedures = hob_procedure_names (range);
  g_autoptr (HobCase) base = hob_case_new (range);
  g_autoptr (GPtrArray) occasions = hob_occasions_new (base, procedures);

  for (guint i = 0; i < occasions->len; i++)
    {
      const HobOccasion *o = occasions->pdata[i];
      gboolean suits = hob_occasion_suits (o, test);

      for (guint k = 0; k < o->moments->len && suits; k++)
        {
          double t = g_array_index (o->moments, double, k);

          g_ptr_array_add (all, hob_occasion_test (base, o, t, test));
        }
    }
  return all;
}

guint
hob_trials_wanted (const HobCase *base, char *const *procedures)
{
  g_autoptr (GPtrArray) occasions = hob_occasions_new (base, procedures);

  return MAX (occasions->len, 1);
}
