/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The list of tests: each is words and words again, and says what it takes and what it puts at
 * risk. */

#include "config.h"
#include "run/tests.h"
#include <math.h>
#include <string.h>

static HobRange *
shipped (const char *name)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

static const char *const looks[] = { "glow-no-flame", "no-spark", NULL };

/* Calls @each for every test of every shipped range; returns how many there are. */
static guint
for_all (void (*each) (const HobRange *range, const HobListedTest *listed))
{
  g_autofree char *folder = g_build_filename (HOB_SOURCE_DIR, "diagrams", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;
  guint n = 0;

  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      {
        g_autoptr (HobRange) range = shipped (name);
        g_autoptr (GPtrArray) all = hob_tests_of (range, looks);

        for (guint k = 0; k < all->len; k++)
          each (range, all->pdata[k]);
        n += all->len;
      }
  return n;
}

static void
survives (const HobRange *range, const HobListedTest *listed)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = hob_test_text (range, listed->test), *again = NULL;
  g_autoptr (HobTest) parsed = hob_test_parse (range, text, &error);

  g_assert_no_error (error);
  again = hob_test_text (range, parsed);
  g_assert_cmpstr (again, ==, text);
  g_assert_cmpint (parsed->what, ==, listed->test->what);
}

static void
every_test_survives_print_and_parse (void)
{
  g_assert_cmpuint (for_all (survives), >, 700);
}

/* The danger is the means'; a danger has its hazard, and who is no technician is asked for
 * nothing live. */
static void
says_what_it_takes (const HobRange *range, const HobListedTest *listed)
{
  g_autofree char *text = hob_test_text (range, listed->test);
  static const HobHazards of[] = {
    [HOB_DANGER_NONE] = 0,
    [HOB_DANGER_HOT] = HOB_HAZARD (HOT_IGNITER) | HOB_HAZARD (CO_FLAME),
    [HOB_DANGER_LIVE] = HOB_HAZARD (LIVE_TEST),
    [HOB_DANGER_GAS] = HOB_HAZARD (GAS_JOINT) | HOB_HAZARD (PRESSURE),
  };

  g_test_message ("%s", text);
  g_assert_cmpfloat (listed->means->minutes, >, 0);
  g_assert_nonnull (listed->means->words);
  if (listed->means->danger != HOB_DANGER_NONE)
    g_assert_cmpuint (listed->hazards & of[listed->means->danger], !=, 0);
  if (listed->means->danger == HOB_DANGER_LIVE || listed->means->danger == HOB_DANGER_GAS)
    g_assert_cmpint (listed->means->skill, ==, HOB_SKILL_TECHNICIAN);
  if (listed->means->safe & HOB_SAFE_UNPLUGGED)
    g_assert_cmpuint (listed->hazards & (HOB_HAZARD (DEAD_FIRST) | HOB_HAZARD (LIVE_TEST)), !=, 0);
  g_assert_cmpint (listed->dim, ==, hob_test_dimension (listed->test));
}

static void
every_test_says_what_it_takes (void)
{
  g_assert_cmpuint (for_all (says_what_it_takes), >, 700);
}

static void
no_meter_touches_a_spark_lead (const HobRange *range, const HobListedTest *listed)
{
  const HobEnd ends[] = { listed->test->a, listed->test->b };

  for (int k = 0; k < 2 && listed->test->what != HOB_TEST_PRESSURE; k++)
    if (ends[k].part >= 0)
      g_assert_false (range->parts[ends[k].part].kind->terminals[ends[k].terminal].high_voltage);
}

static void
spark_leads_are_left_alone (void)
{
  for_all (no_meter_touches_a_spark_lead);
}

/* One moment serves all meters, in any order, and shows what a meter of its own would. */
static void
a_moment_is_read_as_the_run_is (void)
{
  g_autoptr (HobRange) range = shipped ("dial-four.xml");
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (GPtrArray) all = hob_tests_of (range, NULL);
  g_autoptr (HobMoment) m = hob_moment_new (plan);
  g_autoptr (HobRun) run = NULL;
  guint answered = 0;
  guint64 hash;

  g_assert_true (hob_case_do (acts, "0s oven.mode=bake", NULL));
  run = hob_run_new (plan, acts, NULL);
  g_assert_cmpint (hob_run_advance (run, 90, NULL), ==, HOB_RUN_OK);
  hob_run_read (run, 77.7, m);
  hash = hob_moment_hash (m);
  for (guint k = all->len; k-- > 0;)
    {
      const HobTest *test = ((HobListedTest *) all->pdata[k])->test;
      HobReading here = hob_reading_at (m, test), there = hob_reading_take (run, test, 77.7);

      g_assert_true (here.value == there.value || (isnan (here.value) && isnan (there.value)));
      g_assert_cmpstr (here.unit, ==, there.unit);
      g_assert_cmpstr (here.note, ==, there.note);
      answered += here.answered && !isnan (here.value);
    }
  g_assert_cmpuint (answered, >, all->len / 2);
  g_assert_cmphex (hob_moment_hash (m), ==, hash);
}

static const char *
means_of (const HobRange *range, const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobTest) test = hob_test_parse (range, text, &error);

  g_assert_no_error (error);
  return hob_means[hob_test_means (range, test)].id;
}

/* An oven thermometer reads the oven alone; an outlet is read with nothing plugged in. */
static void
each_part_is_tested_in_its_own_way (void)
{
  g_autoptr (HobRange) range = shipped ("board-five.xml");

  g_assert_cmpstr (means_of (range, "temp cavity.air"), ==, "thermometer");
  g_assert_cmpstr (means_of (range, "temp oven.joint-temperature"), ==, "surface");
  g_assert_cmpstr (means_of (range, "volts receptacle.line receptacle.neutral"), ==, "receptacle");
  g_assert_cmpstr (means_of (range, "volts igniter-bake.a igniter-bake.b"), ==, "live-volts");
  g_assert_cmpstr (means_of (range, "ohms sensor.a sensor.b lead-off"), ==, "sensor-ohms");
  g_assert_cmpstr (means_of (range, "ohms sensor.a sensor.b"), ==, "ohms-in-circuit");
  g_assert_cmpstr (means_of (range, "ohms igniter-bake.a igniter-bake.b"), ==,
                   "ohms-in-circuit");
  g_assert_cmpstr (means_of (range, "ohms igniter-bake.a igniter-bake.b lead-off"), ==, "ohms");
  g_assert_cmpstr (means_of (range, "ohms switch-lf.a chassis.body lead-off"), ==, "leakage");
}

/* The utility's side of the panel is live whatever is unplugged. */
static void
has_no_ohms_in_the_panel (const HobRange *range, const HobListedTest *listed)
{
  g_autofree char *text = hob_test_text (range, listed->test);

  g_assert_false (g_str_has_prefix (text, "ohms house."));
  g_assert_false (g_str_has_prefix (text, "ohms breaker.a "));
  g_assert_null (strstr (text, "house.center"));
}

static void
no_ohms_are_read_in_the_panel (void)
{
  g_assert_cmpuint (for_all (has_no_ohms_in_the_panel), >, 0);
}

static HobReading
read_after (const char *act, const char *text)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = shipped ("dial-four.xml");
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobTest) test = hob_test_parse (range, text, &error);
  g_autoptr (HobRun) run = NULL;

  g_assert_no_error (error);
  g_assert_true (hob_case_do (acts, act, NULL));
  run = hob_run_new (plan, acts, NULL);
  g_assert_cmpint (hob_run_advance (run, 2, NULL), ==, HOB_RUN_OK);
  return hob_reading_take (run, test, 1);
}

/* The neutral is no exception: plugged in, the meter would find its way through the house. */
static void
no_ohms_are_read_on_a_range_that_is_plugged_in (void)
{
  const char *neutral = "ohms cord.neutral chassis.body";

  g_assert_false (read_after ("0s door=closed", neutral).answered);
  g_assert_true (read_after ("0s cord.plug=out", neutral).answered);
  g_assert_true (read_after ("0s breaker=off", neutral).answered);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/tests/every-test-survives-print-and-parse",
                   every_test_survives_print_and_parse);
  g_test_add_func ("/tests/every-test-says-what-it-takes", every_test_says_what_it_takes);
  g_test_add_func ("/tests/each-part-is-tested-in-its-own-way", each_part_is_tested_in_its_own_way);
  g_test_add_func ("/tests/no-ohms-in-the-panel", no_ohms_are_read_in_the_panel);
  g_test_add_func ("/tests/no-ohms-plugged-in", no_ohms_are_read_on_a_range_that_is_plugged_in);
  g_test_add_func ("/tests/spark-leads-are-left-alone", spark_leads_are_left_alone);
  g_test_add_func ("/tests/a-moment-is-read-as-the-run-is", a_moment_is_read_as_the_run_is);
  return g_test_run ();
}
