/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The sequence of operation: what has been done in time is met, what has not is ringed with both
 * figures and both times, and what waits for it waits. */

#include "run/sequence.h"
#include "shipped.h"

#include <math.h>
#include <string.h>

typedef struct
{
  HobRange *range;
  HobBench *bench;
  HobComparison *c;
  GArray *entries;
} Stand;

static Stand
stand_open (const char *range, const char *fault, const char *const *acts, double t)
{
  Stand s = { .range = shipped_range (range) };
  g_autoptr (HobCase) done = hob_case_new (s.range);
  g_autoptr (GError) error = NULL;

  if (fault != NULL)
    hob_case_fault (done, fault, &error);
  g_assert_no_error (error);
  for (; *acts != NULL; acts++)
    {
      hob_case_do (done, *acts, &error);
      g_assert_no_error (error);
    }
  s.bench = hob_bench_new (NULL, s.range, done, &error);
  g_assert_no_error (error);
  hob_bench_should_be (s.bench);
  g_assert_cmpint (hob_bench_advance (s.bench, t, &error), ==, HOB_RUN_OK);
  s.c = hob_comparison_new (s.bench->plan);
  hob_run_advance (hob_bench_twin (s.bench), t + HOB_SEQUENCE_AHEAD, NULL);
  s.entries = hob_sequence_read (s.bench->run, hob_bench_twin (s.bench),
                                 hob_bench_should_be (s.bench), s.c, t);
  return s;
}

static void
stand_close (Stand *s)
{
  g_array_unref (s->entries);
  hob_comparison_free (s->c);
  hob_bench_free (s->bench);
  hob_range_unref (s->range);
}

#define STAND_OF(range, fault, t, ...)                                                             \
  stand_open (range, fault, (const char *const[]){ __VA_ARGS__, NULL }, t)
#define STAND(fault, t, ...) STAND_OF ("dial-four", fault, t, __VA_ARGS__)

static const HobSequenceEntry *
first_ringed (const Stand *s)
{
  for (guint k = 0; k < s->entries->len; k++)
    if (hob_sequence_is_ringed (&g_array_index (s->entries, HobSequenceEntry, k)))
      return &g_array_index (s->entries, HobSequenceEntry, k);
  return NULL;
}

static int
count (const Stand *s, HobSequenceState state)
{
  int n = 0;

  for (guint k = 0; k < s->entries->len; k++)
    n += g_array_index (s->entries, HobSequenceEntry, k).state == state;
  return n;
}

static void
assert_is (const Stand *s, const HobSequenceEntry *e, const char *part, const char *mode,
           double value)
{
  g_assert_nonnull (e);
  g_assert_cmpstr (s->range->parts[e->part].id, ==, part);
  g_assert_cmpstr (s->range->parts[e->part].kind->modes[e->mode].name, ==, mode);
  g_assert_cmpfloat (e->value, ==, value);
}

/* At every second of an hour, with knobs turned and the door opened. */
static void
a_normal_range_meets_all (void)
{
  for (int t = 0; t <= 3600; t += 97)
    {
      Stand s = STAND (NULL, t, "0s oven.mode=bake", "100s knob-lf=light", "105s knob-lf=high",
                       "1000s door=open", "1060s door=closed");

      g_assert_null (first_ringed (&s));
      g_assert_cmpint (count (&s, HOB_SEQUENCE_WAITING), ==, 0);
      if (t > 100)
        g_assert_cmpint (count (&s, HOB_SEQUENCE_MET), >, 5);
      stand_close (&s);
    }
}

/* 2.85 A is what the valve's heater needs: i = √(G·rise/R), 0.060 W/K, 135.4 K, 1 Ω. */
static void
weak_igniter (void)
{
  Stand s = STAND ("igniter-bake:aged", 300, "0s oven.mode=bake");
  const HobSequenceEntry *e = first_ringed (&s);
  g_autofree char *words = NULL, *figures = NULL;

  assert_is (&s, e, "valve-bake", "lifted", 1);
  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_UNMET);
  g_assert_true (isnan (e->done));
  g_assert_cmpfloat (fabs (e->due - 41), <, 3);
  g_assert_cmpfloat (fabs (e->limit - sqrt (0.060 * 135.4)), <, 0.03);
  words = hob_sequence_words (s.bench->run, e);
  figures = hob_sequence_figures (s.bench->run, e);
  g_assert_nonnull (strstr (words, "Bake valve"));
  g_assert_nonnull (strstr (figures, "2.7 A, should be 3.5 A"));
  g_assert_nonnull (strstr (figures, "opens at 2.8"));
  g_assert_cmpint (count (&s, HOB_SEQUENCE_UNMET), ==, 1);
  stand_close (&s);
}

/* A flame that comes later than it may is not met. */
static void
late_is_not_met (void)
{
  Stand s = STAND ("igniter-bake:aged=0.25", 300, "0s oven.mode=bake");
  const HobSequenceEntry *e = first_ringed (&s);

  assert_is (&s, e, "valve-bake", "lifted", 1);
  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_LATE);
  g_assert_cmpfloat (e->done, >, e->due + 10);
  stand_close (&s);
}

static void
out_of_calibration_is_early (void)
{
  Stand s = STAND ("oven:calibration-low", 1200, "0s oven.mode=bake");
  const HobSequenceEntry *e = first_ringed (&s);

  assert_is (&s, e, "oven", "contact", 0);
  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_EARLY);
  g_assert_cmpfloat (e->done, <, e->due - 60);
  stand_close (&s);
}

/* What makes later cycles early is not said again; and the figures of what was late are those of
 * then, not of an igniter that warms up in a later cycle. */
static void
figures_are_those_of_its_moment (void)
{
  for (int t = 200; t <= 2400; t += 200)
    {
      Stand early = STAND ("oven:calibration-low", t, "0s oven.mode=bake");
      Stand late = STAND ("igniter-bake:aged=0.25", t, "0s oven.mode=bake");
      const HobSequenceEntry *e = first_ringed (&late);

      g_assert_cmpint (count (&early, HOB_SEQUENCE_EARLY), <=, 1);
      g_assert_cmpint (e->state, ==, HOB_SEQUENCE_LATE);
      g_assert_true (e->differs);
      g_assert_cmpfloat (e->figure, >, 2.8);
      g_assert_cmpfloat (e->figure, <, 0.95 * e->should_be);
      g_assert_cmpfloat_with_epsilon (e->should_be, 3.5, 0.15);
      stand_close (&early);
      stand_close (&late);
    }
}

/* The turn to HIGH does not make it forget that there was no flame. */
static void
no_flame_stays_unmet (void)
{
  Stand s = STAND ("electrode-lf:cracked", 60, "5s knob-lf=light", "20s knob-lf=high");
  const HobSequenceEntry *e = first_ringed (&s);

  assert_is (&s, e, "burner-lf", "flame", 1);
  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_UNMET);
  stand_close (&s);
}

/* Gas with the oven off is something that a normal range never has. */
static void
what_is_never_done_is_extra (void)
{
  Stand s = STAND ("valve-bake:stuck-open", 60, "5s door=open");
  const HobSequenceEntry *e = first_ringed (&s);

  assert_is (&s, e, "burner-bake", "flowing", 1);
  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_EXTRA);
  g_assert_true (isnan (e->due));
  stand_close (&s);
}

/* The flame lights in time and is too small: the knob's turn off afterwards changes nothing. */
static void
a_flame_too_small_is_not_met (void)
{
  for (double t = 20; t <= 300; t += 70)
    {
      Stand s = STAND ("burner-lf:orifice-clogged", t, "1s knob-lf=light", "5s knob-lf=high",
                       "100s knob-lf=off");
      const HobSequenceEntry *e = first_ringed (&s);
      g_autofree char *figures = NULL;

      assert_is (&s, e, "burner-lf", "flame", 1);
      g_assert_cmpint (e->state, ==, HOB_SEQUENCE_POOR);
      g_assert_cmpfloat (e->figure, <, 0.6 * e->should_be);
      figures = hob_sequence_figures (s.bench->run, e);
      g_assert_true (g_regex_match_simple ("^[0-9],[0-9]00 Btu/h, should be 9,[0-9]00 Btu/h$",
                                           figures, 0, 0));
      stand_close (&s);
    }
}

/* Five seconds are little beside the time that the igniter takes, and long for gas to wait. */
static void
a_delayed_ignition_is_late (void)
{
  Stand s = STAND ("igniter-bake:out-of-place", 300, "0s oven.mode=bake");
  const HobSequenceEntry *e = first_ringed (&s);

  assert_is (&s, e, "burner-bake", "flame", 1);
  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_LATE);
  g_assert_cmpfloat (e->done - e->due, >, 2);
  g_assert_cmpfloat (e->done, <, 1.1 * e->due + 2);
  stand_close (&s);
}

/* A valve that never opened has not closed either. */
static void
what_never_began_has_not_ended (void)
{
  Stand s = STAND ("igniter-bake:open", 1200, "0s oven.mode=bake", "600s oven.mode=off");
  g_autofree char *figures = NULL;
  int n = 0;

  for (guint k = 0; k < s.entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (s.entries, HobSequenceEntry, k);

      if (!g_str_equal (s.range->parts[e->part].id, "valve-bake"))
        continue;
      g_assert_true (isnan (e->done));
      n++;
    }
  g_assert_cmpint (n, >=, 2);
  figures = hob_sequence_figures (s.bench->run, first_ringed (&s));
  g_assert_true (g_str_has_prefix (figures, "0 A, should be 3."));
  g_assert_nonnull (strstr (figures, "didn't happen; due at 4"));
  stand_close (&s);
}

/* How often the flame of @part has changed as it should, of the times that it should have. */
static int
flames_of (const Stand *s, const char *part, int *due)
{
  int done = 0;

  *due = 0;
  for (guint k = 0; k < s->entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (s->entries, HobSequenceEntry, k);
      const HobPart *p = &s->range->parts[e->part];

      if (!g_str_equal (p->id, part) || !g_str_equal (p->kind->modes[e->mode].name, "flame"))
        continue;
      *due += 1;
      done += !isnan (e->done);
    }
  return done;
}

/* One burner never lit, so it did not go out either; the next one did both. */
static void
each_part_ends_what_it_began_itself (void)
{
  Stand s = STAND ("switch-lf:open", 150, "1s knob-lf=light", "20s knob-lf=off",
                   "60s knob-rf=light", "65s knob-rf=high", "100s knob-rf=off");
  int due;

  g_assert_cmpint (flames_of (&s, "burner-lf", &due), ==, 0);
  g_assert_cmpint (due, ==, 2);
  g_assert_cmpint (flames_of (&s, "burner-rf", &due), ==, 2);
  g_assert_cmpint (due, ==, 2);
  stand_close (&s);
}

static void
a_yellow_flame_is_named (void)
{
  Stand s = STAND ("burner-lf:venturi-blocked", 20, "1s knob-lf=light", "5s knob-lf=high");
  const HobSequenceEntry *e = first_ringed (&s);
  g_autofree char *figures = NULL;

  assert_is (&s, e, "burner-lf", "flame", 1);
  figures = hob_sequence_figures (s.bench->run, e);
  g_assert_nonnull (strstr (figures, "yellow in the flame: "));
  g_assert_true (g_str_has_suffix (figures, "should be 0%"));
  stand_close (&s);
}

/* The first ringed one of @part's own; NULL: none. */
static const HobSequenceEntry *
ringed_at (const Stand *s, const char *part, const char *mode)
{
  for (guint k = 0; k < s->entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (s->entries, HobSequenceEntry, k);
      const HobPart *p = &s->range->parts[e->part];

      if (hob_sequence_is_ringed (e) && g_str_equal (p->id, part)
          && g_str_equal (p->kind->modes[e->mode].name, mode))
        return e;
    }
  return NULL;
}

/* What an electronic control reads decides when it calls for heat, and when it stops: 5 °F about
 * the set temperature. */
static void
a_control_that_reads_wrong_is_named (void)
{
  static const struct
  {
    const char *fault, *limit;
    double t, value;
  } cases[] = {
    { "sensor:open", "calls for heat below 345 °F", 60, 1 },
    { "oven:reads-low=1", "stops calling for heat above 355 °F", 1000, 0 },
  };

  for (guint k = 0; k < G_N_ELEMENTS (cases); k++)
    {
      Stand s = STAND_OF ("board-five", cases[k].fault, cases[k].t, "0s oven.dial=350 degF",
                          "0s oven.mode=bake");
      const HobSequenceEntry *e = ringed_at (&s, "oven", "call");
      g_autofree char *figures = NULL;

      g_assert_nonnull (e);
      g_assert_cmpfloat (e->value, ==, cases[k].value);
      figures = hob_sequence_figures (s.bench->run, e);
      g_assert_nonnull (strstr (figures, cases[k].limit));
      stand_close (&s);
    }
}

/* Of hundreds of acts the last ones count: those before them are not looked through each time. */
static void
only_the_last_acts_count (void)
{
  for (int n = 60; n <= 70; n += 10)
    {
      g_autoptr (GPtrArray) acts = g_ptr_array_new_with_free_func (g_free);
      double earliest = INFINITY;
      Stand s;

      g_ptr_array_add (acts, g_strdup ("0s oven.mode=bake"));
      for (int k = 1; k < n; k++)
        g_ptr_array_add (acts,
                         g_strdup_printf ("%ds door=%s", 60 + k, k % 2 > 0 ? "open" : "closed"));
      g_ptr_array_add (acts, NULL);
      s = stand_open ("dial-four", NULL, (const char *const *) acts->pdata, 60 + n);
      for (guint k = 0; k < s.entries->len; k++)
        earliest = fmin (earliest, g_array_index (s.entries, HobSequenceEntry, k).due);
      if (n == 60)
        g_assert_cmpfloat (earliest, <, 60);
      else
        g_assert_cmpfloat (earliest, >, 60);
      stand_close (&s);
    }
}

/* A short trips the breaker in the instant in which the control calls for heat: it did, and does so
 * no longer. */
static void
what_is_undone_at_once_does_not_hold (void)
{
  Stand s = STAND_OF ("board-five", "igniter-bake:line-lead-chafed", 15, "0s oven.mode=bake");
  int n = 0;

  for (guint k = 0; k < s.entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (s.entries, HobSequenceEntry, k);

      if (!g_str_equal (s.range->parts[e->part].id, "oven") || isnan (e->done) || e->value != 1)
        continue;
      g_assert_cmpfloat (e->until, <, 15);
      n++;
    }
  g_assert_cmpint (n, >, 0);
  stand_close (&s);
}

static const HobSequenceEntry *
entry_of (const Stand *s, const char *part, const char *mode, double value)
{
  for (guint k = 0; k < s->entries->len; k++)
    {
      const HobSequenceEntry *e = &g_array_index (s->entries, HobSequenceEntry, k);
      const HobPart *p = &s->range->parts[e->part];

      if (g_str_equal (p->id, part) && g_str_equal (p->kind->modes[e->mode].name, mode)
          && e->value == value)
        return e;
    }
  g_assert_not_reached ();
}

/* A thermostat that opens far too early has closed again when a normal one opens. */
static void
what_is_early_may_be_over_before_it_is_due (void)
{
  Stand s = STAND ("oven:calibration-low", 900, "0s oven.mode=bake");
  const HobSequenceEntry *e = entry_of (&s, "oven", "contact", 0);

  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_EARLY);
  g_assert_cmpfloat (e->done, <, e->until);
  g_assert_cmpfloat (e->until, <, e->due);
  stand_close (&s);
}

/* A hotter igniter holds the valve open longer than a normal one would in an oven as hot: the sheet
 * says that the gas should have stopped, while the oven of a normal range is not yet hot enough. */
static void
what_should_be_over_is_over (void)
{
  Stand s = STAND ("house:neutral-open", 700, "0s oven.mode=bake", "20s knob-lf=light",
                   "30s knob-lf=high");
  const HobSequenceEntry *e = entry_of (&s, "burner-bake", "flame", 1);

  hob_comparison_read (s.c, s.bench->run, hob_bench_should_be (s.bench), 700);
  g_assert_true (hob_comparison_mode (s.c, e->part, e->mode, NULL));
  g_assert_cmpint (e->state, ==, HOB_SEQUENCE_MET);
  g_assert_cmpfloat (e->due, <, e->until);
  g_assert_cmpfloat (e->until, <, 700);
  stand_close (&s);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/run-sequence/a-normal-range-meets-all", a_normal_range_meets_all);
  g_test_add_func ("/run-sequence/weak-igniter", weak_igniter);
  g_test_add_func ("/run-sequence/late-is-not-met", late_is_not_met);
  g_test_add_func ("/run-sequence/out-of-calibration-is-early", out_of_calibration_is_early);
  g_test_add_func ("/run-sequence/figures-are-those-of-its-moment",
                   figures_are_those_of_its_moment);
  g_test_add_func ("/run-sequence/no-flame-stays-unmet", no_flame_stays_unmet);
  g_test_add_func ("/run-sequence/what-is-never-done-is-extra", what_is_never_done_is_extra);
  g_test_add_func ("/run-sequence/a-flame-too-small-is-not-met", a_flame_too_small_is_not_met);
  g_test_add_func ("/run-sequence/a-yellow-flame-is-named", a_yellow_flame_is_named);
  g_test_add_func ("/run-sequence/a-delayed-ignition-is-late", a_delayed_ignition_is_late);
  g_test_add_func ("/run-sequence/what-never-began-has-not-ended", what_never_began_has_not_ended);
  g_test_add_func ("/run-sequence/each-part-ends-what-it-began-itself",
                   each_part_ends_what_it_began_itself);
  g_test_add_func ("/run-sequence/a-control-that-reads-wrong-is-named",
                   a_control_that_reads_wrong_is_named);
  g_test_add_func ("/run-sequence/what-is-undone-at-once-does-not-hold",
                   what_is_undone_at_once_does_not_hold);
  g_test_add_func ("/run-sequence/what-is-early-may-be-over-before-it-is-due",
                   what_is_early_may_be_over_before_it_is_due);
  g_test_add_func ("/run-sequence/what-should-be-over-is-over", what_should_be_over_is_over);
  g_test_add_func ("/run-sequence/only-the-last-acts-count", only_the_last_acts_count);
  return g_test_run ();
}
