/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The words of a test, and what a meter reads. */

#include "base/errors.h"
#include "run/reading.h"

#include <math.h>
#include <string.h>

typedef struct
{
  HobRange *range;
  HobPlan *plan;
} Fixture;

static void
set_up (Fixture *f, gconstpointer name)
{
  g_autofree char *file = hob_range_locate (name);
  g_autoptr (GError) error = NULL;

  f->range = hob_range_load (file, NULL, &error);
  g_assert_no_error (error);
  f->plan = hob_plan_new (f->range);
}

static void
tear_down (Fixture *f, gconstpointer name)
{
  hob_plan_unref (f->plan);
  hob_range_unref (f->range);
}

/* The reading of test @words in a case of @fault and @setting (NULL: none). */
static HobReading
take (Fixture *f, const char *words, const char *fault, const char *setting)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobTest) test = hob_test_parse (f->range, words, &error);
  g_autoptr (HobCase) base = hob_case_new (f->range), c = NULL;
  g_autoptr (HobRun) run = NULL;
  double t;

  g_assert_no_error (error);
  if (fault != NULL)
    hob_case_fault (base, fault, &error);
  if (setting != NULL && error == NULL)
    hob_case_setting (base, setting, &error);
  g_assert_no_error (error);
  c = hob_test_case (test, base, &t);
  run = hob_run_new (f->plan, c, NULL);
  hob_run_advance (run, t, &error);
  g_assert_no_error (error);
  return hob_reading_take (run, test, t);
}

/* ---- Words ---- */

static void
print_parse_print_is_the_identity (Fixture *f, gconstpointer name)
{
  static const char *const tests[] = {
    "volts igniter-bake.a igniter-bake.b @ 0s oven.mode=bake; 60s",
    "ohms igniter-bake.a valve-bake.b @ 0s cord.plug=out; 0.5s",
    "ohms switch-lf.a switch-lf.b lead-off @ 0s cord.plug=out; 0.5s",
    "amps igniter-bake",
    "amps oven.bake @ 12.345s oven.dial=400 degF; 1s oven.mode=bake; 3600s",
    "pressure manifold.lf @ 0s knob-lf=62.5 %; 10s",
    "temp cavity.air @ 1234567.891s",
    "look glow-no-flame @ 0s oven.mode=bake; 120s",
  };

  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HobTest) first = hob_test_parse (f->range, tests[i], &error), again = NULL;
      g_autofree char *text = NULL, *second = NULL;

      g_assert_no_error (error);
      text = hob_test_text (f->range, first);
      again = hob_test_parse (f->range, text, &error);
      g_assert_no_error (error);
      second = hob_test_text (f->range, again);
      g_assert_cmpstr (second, ==, text);
      /* Acts come back in the order of time; else the text is the one that was written. */
      if (strstr (tests[i], "12.345s") == NULL)
        g_assert_cmpstr (text, ==, tests[i]);
    }
}

static const struct
{
  const char *text;
  HobError code;
} refused[] = {
  { "", HOB_ERROR_USAGE },
  { "volt igniter-bake.a igniter-bake.b", HOB_ERROR_USAGE },
  { "volts igniter-bake.a", HOB_ERROR_USAGE },
  { "volts igniter-bake.a igniter-bake.b igniter-bake.a", HOB_ERROR_USAGE },
  { "volts igniter-bake.a igniter-bake.c", HOB_ERROR_NAME },
  { "volts igniter-bake.a module.out-lf", HOB_ERROR_NO_ANSWER },
  { "amps manifold", HOB_ERROR_NAME },
  { "bubbles module", HOB_ERROR_NO_ANSWER },
  { "amps nothing", HOB_ERROR_NAME },
  { "pressure igniter-bake.a", HOB_ERROR_NAME },
  { "temp igniter-bake.current", HOB_ERROR_NAME },
  { "amps igniter-bake @", HOB_ERROR_USAGE },
  { "amps igniter-bake @ 0s oven.mode=bake", HOB_ERROR_USAGE },
  { "amps igniter-bake @ 0s oven.mode=toast; 60s", HOB_ERROR_VALUE },
  { "amps igniter-bake @ -1s", HOB_ERROR_VALUE },
  { "amps igniter-bake @ 60 V", HOB_ERROR_VALUE },
};

static void
what_is_no_test_is_refused (Fixture *f, gconstpointer name)
{
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (HobTest) test = hob_test_parse (f->range, refused[i].text, &error);

      g_assert_null (test);
      if (!g_error_matches (error, HOB_ERROR, (int) refused[i].code))
        g_error ("'%s' says '%s'", refused[i].text, error->message);
      g_assert_null (strchr (error->message, '\n'));
    }
}

/* ---- The meter ---- */

#define BAKING " @ 0s oven.mode=bake; 90s"

static void
one_current_flows_through_the_series_path (Fixture *f, gconstpointer name)
{
  double igniter = take (f, "amps igniter-bake" BAKING, NULL, NULL).value;

  g_assert_cmpfloat_with_epsilon (igniter, 3.43, 0.1);
  g_assert_cmpfloat_with_epsilon (take (f, "amps valve-bake" BAKING, NULL, NULL).value, igniter,
                                  1e-5);
  g_assert_cmpfloat_with_epsilon (take (f, "amps igniter-bake.b" BAKING, NULL, NULL).value, igniter,
                                  1e-5);
  g_assert_cmpfloat_with_epsilon (take (f, "amps oven.bake" BAKING, NULL, NULL).value, igniter,
                                  1e-5);
}

static void
volts_divide_as_the_series_path_says (Fixture *f, gconstpointer name)
{
  double heater = take (f, "volts valve-bake.a valve-bake.b" BAKING, NULL, NULL).value;
  double igniter = take (f, "volts igniter-bake.a igniter-bake.b" BAKING, NULL, NULL).value;
  double back = take (f, "volts igniter-bake.b igniter-bake.a" BAKING, NULL, NULL).value;

  g_assert_cmpfloat_with_epsilon (heater, 3.43, 0.1); /* 1 ohm */
  g_assert_cmpfloat (igniter + heater, >, 117);
  g_assert_cmpfloat (igniter + heater, <, 120);
  g_assert_cmpfloat_with_epsilon (back, igniter, 1e-9);
  g_assert_cmpfloat (take (f, "volts igniter-bake.a igniter-bake.a" BAKING, NULL, NULL).value, ==,
                     0);
}

/* No current, no drop: the whole line stands across what is open. */
static void
the_line_stands_across_what_is_open (Fixture *f, gconstpointer name)
{
  g_assert_cmpfloat (
      take (f, "volts igniter-bake.a igniter-bake.b" BAKING, "igniter-bake:open", NULL).value, >,
      119);
  g_assert_cmpfloat (
      take (f, "volts valve-bake.a valve-bake.b" BAKING, "igniter-bake:open", NULL).value, <, 0.01);
  g_assert_cmpfloat (
      take (f, "volts valve-bake.a valve-bake.b" BAKING, "valve-bake:heater-open", NULL).value, >,
      119);
  g_assert_cmpfloat (take (f, "amps igniter-bake" BAKING, "igniter-bake:open", NULL).value, <,
                     1e-4);
}

#define UNPLUGGED " @ 0s cord.plug=out; 1s"

static void
cold_ohms_of_a_new_igniter (Fixture *f, gconstpointer name)
{
  HobReading r
      = take (f, "ohms igniter-bake.a igniter-bake.b" UNPLUGGED, NULL, "house.temperature=293 K");

  g_assert_true (r.answered);
  g_assert_cmpfloat_with_epsilon (r.value, 95, 0.01);
  g_assert_null (r.note);
}

static void
ohms_add_along_a_path (Fixture *f, gconstpointer name)
{
  double igniter = take (f, "ohms igniter-bake.a igniter-bake.b" UNPLUGGED, NULL, NULL).value;
  double both = take (f, "ohms igniter-bake.a valve-bake.b" UNPLUGGED, NULL, NULL).value;

  g_assert_cmpfloat_with_epsilon (both - igniter, 1.0, 0.05);
}

static void
an_open_part_reads_overload (Fixture *f, gconstpointer name)
{
  HobReading r
      = take (f, "ohms igniter-bake.a igniter-bake.b" UNPLUGGED, "igniter-bake:open", NULL);

  g_assert_true (r.answered);
  g_assert_true (isnan (r.value));
  g_assert_cmpstr (r.note, ==, "OL");
}

static void
a_live_part_gives_no_ohms (Fixture *f, gconstpointer name)
{
  HobReading r = take (f, "ohms igniter-bake.a igniter-bake.b" BAKING, NULL, NULL);

  g_assert_false (r.answered);
  g_assert_true (isnan (r.value));
  g_assert_true (g_str_has_prefix (r.note, "warning:"));
  r = take (f, "ohms cord.line cord.neutral", NULL, NULL);
  g_assert_false (r.answered);
}

/* Beyond a switch that is off only strays to the chassis are left, and those carry nothing from
 * the line. */
static void
a_floating_wire_reads_what_strays_leave (Fixture *f, gconstpointer name)
{
  HobReading r = take (f, "volts oven.bake oven.neutral @ 0s cord.plug=in; 1s", NULL, NULL);

  g_assert_true (r.answered);
  g_assert_cmpfloat (r.value, >=, 0);
  g_assert_cmpfloat (r.value, <, 1);
}

static void
pressure_and_temperature (Fixture *f, gconstpointer name)
{
  HobReading standing = take (f, "pressure manifold.lf", NULL, NULL);
  HobReading flowing = take (f, "pressure manifold.lf @ 0s knob-lf=high; 30s", NULL, NULL);

  g_assert_cmpstr (standing.unit, ==, "Pa");
  g_assert_cmpfloat_with_epsilon (flowing.value, 5 * 249.089, 60);
  g_assert_cmpfloat (standing.value, >, flowing.value); /* lock-up */
  g_assert_cmpfloat_with_epsilon (
      take (f, "temp cavity.air", NULL, "house.temperature=15 degC").value, 288.15, 1e-6);
}

static void
a_look_is_not_for_the_meter (Fixture *f, gconstpointer name)
{
  g_assert_false (take (f, "look anything @ 1s", NULL, NULL).answered);
}

/* A round igniter is a spiral and a flat one a bar: anyone who looks knows, whatever its age. */
static void
the_other_kind_of_igniter_is_seen (Fixture *f, gconstpointer name)
{
  g_assert_cmpfloat (take (f, "look igniter-bake", NULL, NULL).value, ==, 0);
  g_assert_cmpfloat (take (f, "look igniter-bake", "igniter-bake:aged=1", NULL).value, ==, 0);
  g_assert_cmpfloat (take (f, "look igniter-bake", "igniter-bake:wrong-kind", NULL).value, ==, 1);
}

static void
less_than_an_instrument_s_last_digit_is_nothing (Fixture *f, gconstpointer name)
{
  g_autoptr (HobTest) amps = hob_test_parse (f->range, "amps igniter-bake", NULL),
                      volts = hob_test_parse (f->range, "volts oven.line oven.mid", NULL);

  g_assert_cmpfloat (hob_test_resolved (amps, 4.5e-7), ==, 0);
  g_assert_cmpfloat (hob_test_resolved (amps, 5e-3), ==, 5e-3);
  g_assert_cmpfloat (hob_test_resolved (amps, 3.4754), ==, 3.4754);
  g_assert_cmpfloat (hob_test_resolved (volts, 6e-5), ==, 0);
  g_assert_cmpfloat (hob_test_resolved (volts, -0.02), ==, -0.02);
  g_assert_true (isnan (hob_test_resolved (volts, NAN)));
}

#define ADD(path, function)                                                                        \
  g_test_add ("/run/reading/" path, Fixture, "dial-four", set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("print-parse-print-is-the-identity", print_parse_print_is_the_identity);
  ADD ("what-is-no-test-is-refused", what_is_no_test_is_refused);
  ADD ("the-other-kind-of-igniter-is-seen", the_other_kind_of_igniter_is_seen);
  ADD ("less-than-an-instrument-s-last-digit-is-nothing",
       less_than_an_instrument_s_last_digit_is_nothing);
  ADD ("one-current-flows-through-the-series-path", one_current_flows_through_the_series_path);
  ADD ("volts-divide-as-the-series-path-says", volts_divide_as_the_series_path_says);
  ADD ("the-line-stands-across-what-is-open", the_line_stands_across_what_is_open);
  ADD ("cold-ohms-of-a-new-igniter", cold_ohms_of_a_new_igniter);
  ADD ("ohms-add-along-a-path", ohms_add_along_a_path);
  ADD ("an-open-part-reads-overload", an_open_part_reads_overload);
  ADD ("a-live-part-gives-no-ohms", a_live_part_gives_no_ohms);
  ADD ("a-floating-wire-reads-what-strays-leave", a_floating_wire_reads_what_strays_leave);
  ADD ("pressure-and-temperature", pressure_and_temperature);
  ADD ("a-look-is-not-for-the-meter", a_look_is_not_for_the_meter);
  return g_test_run ();
}
