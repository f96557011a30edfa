/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How bad a fault is, said in a technician's unit. */

#include "parts/severity.h"
#include <string.h>

static const HobFaultDef *
fault_of (const HobKind **kind, const char *name, const char *id)
{
  *kind = hob_kind_find (name);
  g_assert_nonnull (*kind);
  g_assert_cmpint (hob_kind_fault (*kind, id), >=, 0);
  return &(*kind)->faults[hob_kind_fault (*kind, id)];
}

static void
expect (const char *name, const char *id, double severity, const char *said, const char *span)
{
  const HobKind *kind;
  const HobFaultDef *fault = fault_of (&kind, name, id);
  g_autofree char *one = hob_fault_severity_text (kind, fault, severity);
  g_autofree char *all = hob_fault_span_text (kind, fault);

  g_assert_cmpstr (one, ==, said);
  g_assert_cmpstr (all, ==, span);
}

static void
test_a_difference_is_in_degrees (void)
{
  expect ("oven-dial", "calibration-high", 0.6, "54 °F too hot", "up to 90 °F too hot");
  expect ("oven-dial", "calibration-low", 1, "90 °F too cool", "up to 90 °F too cool");
  expect ("high-limit", "weak", 0.5, "opens 108 °F below its rating",
          "opens up to 216 °F below its rating");
}

static void
test_a_factor_is_the_change_it_makes (void)
{
  expect ("igniter-flat", "aged", 0.5, "30% more resistance", "up to 60% more resistance");
  expect ("regulator", "set-low", 1, "manifold pressure 70% low",
          "manifold pressure up to 70% low");
}

static void
test_a_span_goes_from_the_mildest_to_the_worst (void)
{
  expect ("electrode", "gap-wide", 0, "spark gap of 0.24 in.",
          "spark gap of 0.24 in. to 0.55 in.");
  expect ("spark-module", "irregular", 0.5, "50% of the sparks missing",
          "20% to 80% of the sparks missing");
}

static void
test_a_long_length_is_in_feet (void)
{
  expect ("cord", "thin-extension", 1, "98 ft of extension cord", "up to 98 ft of extension cord");
}

static void
test_an_area_is_the_width_of_a_hole (void)
{
  expect ("connector", "leaks", 1, "leaks as much as a hole with a diameter of 0.031 in.",
          "leaks as much as a hole with a diameter of up to 0.031 in.");
}

static void
test_the_effect_that_grows_is_said (void)
{
  expect ("spark-switch", "wet", 0, "60 kΩ of resistance across the switch",
          "60 kΩ to 15 kΩ of resistance across the switch");
}

/* One crack in two faults, by where the spark goes: no depth is in neither. */
static void
test_cracks_go_on_where_the_others_end (void)
{
  const HobKind *kind;
  const HobFaultDef *deep = fault_of (&kind, "electrode", "cracked-deep"),
                    *shallow = fault_of (&kind, "electrode", "cracked");
  g_autofree char *worst = hob_fault_severity_text (kind, deep, 1),
                  *mildest = hob_fault_severity_text (kind, shallow, 0);

  g_assert_cmpint (deep->effects[0].setting, ==, shallow->effects[0].setting);
  g_assert_cmpfloat (deep->effects[0].at1, ==, shallow->effects[0].at0);
  g_assert_cmpstr (worst, ==, mildest);
}

static void
test_all_or_nothing_has_no_severity (void)
{
  expect ("valve-safety", "heater-open", 1, NULL, NULL);
}

/* Whatever a kind adds: one place for the amount, and an amount that grows with the severity. */
static void
test_every_graded_fault_says_its_amount (void)
{
  for (int k = 0; hob_kinds[k] != NULL; k++)
    for (int f = 0; f < hob_kinds[k]->n_faults; f++)
      {
        const HobFaultDef *fault = &hob_kinds[k]->faults[f];
        g_autofree char *mild = hob_fault_severity_text (hob_kinds[k], fault, 0.1);
        g_autofree char *worst = hob_fault_severity_text (hob_kinds[k], fault, 1);

        if (fault->severity_words == NULL)
          continue;
        g_test_message ("%s:%s: %s, %s", hob_kinds[k]->name, fault->id, mild, worst);
        g_assert_nonnull (strstr (fault->severity_words, "%s"));
        g_assert_true (strstr (fault->severity_words, "%s")
                       == strrchr (fault->severity_words, '%'));
        g_assert_null (strstr (worst, "%s"));
        g_assert_cmpstr (mild, !=, worst);
      }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/parts/severity/a-difference-is-in-degrees", test_a_difference_is_in_degrees);
  g_test_add_func ("/parts/severity/a-factor-is-the-change-it-makes",
                   test_a_factor_is_the_change_it_makes);
  g_test_add_func ("/parts/severity/a-span-goes-from-the-mildest-to-the-worst",
                   test_a_span_goes_from_the_mildest_to_the_worst);
  g_test_add_func ("/parts/severity/a-long-length-is-in-feet", test_a_long_length_is_in_feet);
  g_test_add_func ("/parts/severity/an-area-is-the-width-of-a-hole",
                   test_an_area_is_the_width_of_a_hole);
  g_test_add_func ("/parts/severity/the-effect-that-grows-is-said",
                   test_the_effect_that_grows_is_said);
  g_test_add_func ("/parts/severity/cracks-go-on-where-the-others-end",
                   test_cracks_go_on_where_the_others_end);
  g_test_add_func ("/parts/severity/all-or-nothing-has-no-severity",
                   test_all_or_nothing_has_no_severity);
  g_test_add_func ("/parts/severity/every-graded-fault-says-its-amount",
                   test_every_graded_fault_says_its_amount);
  return g_test_run ();
}
