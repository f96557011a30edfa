/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Names of an earlier version: none is in use again, and each leads to one of today. */

#include "parts/kind.h"
#include "parts/renamed.h"

/* Whether a kind, a fault or a quantity has exactly this name today. */
static gboolean
in_use (const char *name)
{
  for (int k = 0; hob_kinds[k] != NULL; k++)
    {
      const HobKind *kind = hob_kinds[k];

      if (g_str_equal (kind->name, name))
        return TRUE;
      for (int f = 0; f < kind->n_faults; f++)
        if (g_str_equal (kind->faults[f].id, name))
          return TRUE;
      for (int q = 0; q < kind->n_quantities; q++)
        if (g_str_equal (kind->quantities[q].name, name))
          return TRUE;
    }
  return FALSE;
}

static gboolean
is_a_setting (const char *name)
{
  for (int k = 0; hob_kinds[k] != NULL; k++)
    for (int i = 0; i < hob_kinds[k]->n_settings; i++)
      if (g_str_equal (hob_kinds[k]->settings[i].name, name))
        return TRUE;
  return FALSE;
}

static void
an_old_name_leads_to_one_of_today (void)
{
  for (const HobRenamed *r = hob_renamings; r->old != NULL; r++)
    {
      if (in_use (r->old))
        g_error ("'%s' is an old name and in use", r->old);
      if (!in_use (r->now) && !is_a_setting (r->now))
        g_error ("'%s' leads to '%s', which nothing is called", r->old, r->now);
    }
}

static void
kinds_and_their_faults_and_quantities_are_found_by_it (void)
{
  const HobKind *dual = hob_kind_find ("valve-two-coil"), *oven = hob_kind_find ("burner-oven"),
                *top = hob_kind_find ("burner-top");

  g_assert_cmpstr (dual->name, ==, "valve-dual");
  g_assert_cmpstr (oven->faults[hob_kind_fault (oven, "jet-clogged")].id, ==, "orifice-clogged");
  g_assert_cmpstr (top->quantities[hob_kind_quantity (top, "unburnt")].name, ==, "unburned");
  g_assert_cmpint (hob_kind_fault (oven, "jet-small-and-large"), ==, -1);
}

/* A sealed burner had a shutter, which it should not have; an open one has it today. */
static void
a_setting_is_found_by_it_where_the_kind_has_none_of_that_name (void)
{
  const HobKind *sealed = hob_kind_find ("burner-top"), *open = hob_kind_find ("burner-open");

  g_assert_cmpstr (sealed->settings[hob_kind_setting (sealed, "shutter")].name, ==, "venturi");
  g_assert_cmpstr (open->settings[hob_kind_setting (open, "shutter")].name, ==, "shutter");
  g_assert_cmpint (hob_kind_setting (open, "venturi"), ==, -1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/renamed/an old name leads to one of today", an_old_name_leads_to_one_of_today);
  g_test_add_func ("/renamed/kinds and their faults and quantities are found by it",
                   kinds_and_their_faults_and_quantities_are_found_by_it);
  g_test_add_func ("/renamed/a setting is found by it where the kind has none of that name",
                   a_setting_is_found_by_it_where_the_kind_has_none_of_that_name);
  return g_test_run ();
}
