/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How much a person sees and smells without instruments: flames against what is normal for this
 * range, changes while they happen, gas by its concentration; and what it takes to notice the rest.
 */

#include "shipped.h"
#include "symptoms/book.h"
#include "watched.h"

#include <math.h>
#include <string.h>

#define BURNER_ON "0s knob-lf=light", "5s knob-lf=high"
#define WATCH(range, until, ...)                                                                   \
  watched_run (range, NULL, until, (const char *const[]){ __VA_ARGS__, NULL })

/* When @symptom is first noticed; NaN: never. */
static double
noticed (const Watched *w, const char *symptom)
{
  int index = hob_symptom_book_find (w->book, symptom);
  guint first, n = hob_run_events (w->run, -1, G_MAXDOUBLE, &first);

  g_assert_cmpint (index, >=, 0);
  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (w->run, k);

      if (e->what == HOB_EVENT_SYMPTOM && e->index == index)
        return e->t;
    }
  return NAN;
}

/* ---- Still flames ---- */

/* Whatever its size, its gas and its pressure. */
static void
a_normal_flame_is_as_high_as_is_normal_for_its_range (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();

  for (int r = 0; ranges[r] != NULL; r++)
    {
      g_auto (Watched) w = WATCH (ranges[r], 180, BURNER_ON, "0s knob-rr=light", "5s knob-rr=high",
                                  "0s oven.mode=bake");
      const char *const asked[] = { "burner-lf.flame-height", "burner-rr.flame-height",
                                    "burner-bake.flame-height", NULL };

      for (int k = 0; asked[k] != NULL; k++)
        {
          double height = watched_value (&w, asked[k], 170);

          g_test_message ("%s %s %.1f %%", ranges[r], asked[k], height);
          g_assert_cmpfloat (height, >, 96);
          g_assert_cmpfloat (height, <, 104);
        }
    }
}

/* @share of its heat by an orifice of another width, on a range whose file has @filed m. */
static void
assert_flame (const char *range, double filed, double share, const char *small, const char *large)
{
  g_autofree char *orifice
      = g_strdup_printf ("burner-lf.orifice=%.6f m", filed * sqrt (share));
  g_auto (Watched) w = WATCH (range, 30, orifice, BURNER_ON);

  g_test_message ("%s, %.0f %% of its heat: height %.1f %%", range, 100 * share,
                  watched_value (&w, "burner-lf.flame-height", 29));
  g_assert_cmpint (isnan (noticed (&w, "flame-small")), ==, small == NULL);
  g_assert_cmpint (isnan (noticed (&w, "flame-large")), ==, large == NULL);
}

/* The ports of round-dial carry a tenth less: one figure for all ranges would say otherwise. */
static void
an_eye_sees_30_percent_less_and_25_percent_more (void)
{
  static const struct
  {
    const char *range;
    double orifice; /* m */
  } of[] = { { "dial-four", 0.0520 * 0.0254 },
             { "round-dial", 0.0550 * 0.0254 },
             { "lp-four", 0.0354 * 0.0254 } };

  for (guint k = 0; k < G_N_ELEMENTS (of); k++)
    {
      assert_flame (of[k].range, of[k].orifice, 0.66, "small", NULL);
      assert_flame (of[k].range, of[k].orifice, 0.72, NULL, NULL);
      assert_flame (of[k].range, of[k].orifice, 1.11, NULL, NULL);
      assert_flame (of[k].range, of[k].orifice, 1.21, NULL, NULL);
      assert_flame (of[k].range, of[k].orifice, 1.29, NULL, "large");
    }
}

/* A regulator set a quarter too high feeds 11% more. */
static void
a_pressure_that_is_a_quarter_high_shows_on_a_gauge_alone (void)
{
  g_auto (Watched) w
      = WATCH ("dial-four", 180, "regulator:set-high=0.25", BURNER_ON, "10s oven.mode=bake");
  g_auto (Watched) normal = WATCH ("dial-four", 180, BURNER_ON, "10s oven.mode=bake");
  double pressure = watched_value (&w, "regulator.pressure", 170);

  g_assert_cmpfloat_with_epsilon (watched_value (&w, "burner-bake.flame-height", 170), 111, 2);
  g_assert_true (isnan (noticed (&w, "flame-large")));
  g_assert_cmpfloat_with_epsilon (pressure / watched_value (&normal, "regulator.pressure", 170),
                                  1.25, 0.02);
}

/* What no eye sees, each with the reading that shows it: by how much it is off, at least. */
static const struct
{
  const char *range, *fault, *reading;
  double off;
} by_gauge[] = {
  { "dial-four", "regulator:set-low", "regulator.pressure", 0.3 },
  { "dial-four", "regulator:set-high", "regulator.pressure", 0.3 },
  { "dial-four", "regulator:cap-turned", "regulator.pressure", 0.3 },
  { "dial-four", "regulator:sticks", "regulator.pressure", 0.15 },
  { "lp-four", "regulator:set-low", "regulator.pressure", 0.3 },
  { "lp-four", "regulator:cap-turned", "regulator.pressure", 0.4 },
  { "round-dial", "regulator:set-low", "regulator.pressure", 0.3 },
  { "round-dial", "house:gas-low", "house.pressure", 0.5 },
};

static void
what_no_eye_sees_a_gauge_shows (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (by_gauge); k++)
    {
      g_auto (Watched) faulty = WATCH (by_gauge[k].range, 60, by_gauge[k].fault, BURNER_ON);
      g_auto (Watched) normal = WATCH (by_gauge[k].range, 60, BURNER_ON);
      double reads = watched_value (&faulty, by_gauge[k].reading, 59);
      double should = watched_value (&normal, by_gauge[k].reading, 59);

      g_test_message ("%s, %s: %.0f Pa, should be %.0f Pa", by_gauge[k].range, by_gauge[k].fault,
                      reads, should);
      g_assert_true (isnan (noticed (&faulty, "flame-small")));
      g_assert_true (isnan (noticed (&faulty, "flame-large")));
      g_assert_cmpfloat (fabs (reads / should - 1), >, by_gauge[k].off);
    }
}

/* ---- Changes ---- */

/* The same 17% of heat, at once and in five steps. */
static void
a_flame_is_seen_to_sink_only_within_two_seconds (void)
{
  g_auto (Watched) fast
      = WATCH ("dial-four", 80, BURNER_ON, "regulator.set-pressure=860 Pa@30s");
  g_auto (Watched) little
      = WATCH ("dial-four", 80, BURNER_ON, "regulator.set-pressure=950 Pa@30s");
  g_auto (Watched) slow
      = WATCH ("dial-four", 80, BURNER_ON, "regulator.set-pressure=1120 Pa@30s",
               "regulator.set-pressure=1010 Pa@33s", "regulator.set-pressure=930 Pa@36s",
               "regulator.set-pressure=860 Pa@39s");

  g_assert_cmpfloat_with_epsilon (watched_value (&slow, "burner-lf.heat", 79),
                                  watched_value (&fast, "burner-lf.heat", 79), 1);
  g_assert_cmpfloat (watched_value (&fast, "burner-lf.heat", 79), <,
                     0.85 * watched_value (&fast, "burner-lf.heat", 29));
  g_assert_cmpfloat (noticed (&fast, "flame-sinks"), <, 33);
  g_assert_true (isnan (noticed (&slow, "flame-sinks")));
  g_assert_true (isnan (noticed (&little, "flame-sinks")));
}

/* ---- Smell ---- */

/* A larger leak is smelled sooner; the smallest mixes with the air before anyone does. */
static void
gas_is_smelled_by_its_concentration (void)
{
  static const char *const leaks[] = { "connector:leaks=1", "connector:leaks=0.7",
                                       "connector:leaks=0.5", "connector:leaks=0.05" };
  double last = 0;

  for (guint k = 0; k < G_N_ELEMENTS (leaks); k++)
    {
      g_auto (Watched) w = WATCH ("dial-four", 3600, leaks[k]);
      double t = noticed (&w, "gas-smell"), smell;

      if (k == G_N_ELEMENTS (leaks) - 1)
        {
          g_assert_true (isnan (t));
          break;
        }
      smell = watched_value (&w, "house.smell", t - 5);
      g_test_message ("%s: %.1f s", leaks[k], t);
      g_assert_cmpfloat (t, >, last);
      g_assert_cmpfloat_with_epsilon (smell, 0.006, 1e-4); /* 5 s before */
      last = t;
    }
}

static void
a_pinhole_is_found_with_solution_not_by_nose (void)
{
  g_auto (Watched) pinhole = WATCH ("dial-four", 600, "valve-lf:leaks=0.05");
  g_auto (Watched) hole = WATCH ("dial-four", 600, "valve-lf:leaks");
  g_auto (Watched) hose = WATCH ("dial-four", 600, "connector:leaks=0.03");
  g_auto (Watched) worn = WATCH ("dial-four", 600, "connector:leaks");

  g_assert_cmpfloat (watched_value (&pinhole, "burner-lf.unburned", 600), >, 0);
  g_assert_true (isnan (noticed (&pinhole, "gas-without-call")));
  g_assert_cmpfloat (noticed (&hole, "gas-without-call"), <, 60);
  g_assert_cmpfloat (watched_value (&hose, "connector.leak", 600), >, 0);
  g_assert_true (isnan (noticed (&hose, "gas-smell-behind")));
  g_assert_cmpfloat (noticed (&worn, "gas-smell-behind"), <, 60);
}

/* ---- What it takes ---- */

static const HobPart *
part_of (const HobRange *range, const char *id)
{
  for (int p = 0; p < range->n_parts; p++)
    if (g_str_equal (range->parts[p].id, id))
      return &range->parts[p];
  g_assert_not_reached ();
}

static guint
with (const Watched *w, const char *symptom, const char *part)
{
  const HobSymptom *s
      = hob_symptom_book_get (w->book, hob_symptom_book_find (w->book, symptom));

  return hob_symptom_with (s, part_of (w->range, part));
}

/* The bake burner is behind the oven bottom; the broil and surface burners are in view. */
static void
flames_behind_the_oven_bottom_take_it_out (void)
{
  static const char *const flames[] = { "yellow-flame", "yellow-tips",  "flame-lifts",
                                        "flame-large",  "flame-orange", "oven-flame-small" };
  g_auto (Watched) w = WATCH ("dial-four", 0, "cavity:bottom-covered=0");

  for (guint k = 0; k < G_N_ELEMENTS (flames); k++)
    {
      g_assert_cmpuint (with (&w, flames[k], "burner-bake"), ==, HOB_WITH_BOTTOM_OUT);
      g_assert_cmpuint (with (&w, flames[k], "burner-broil"), ==, 0);
      g_assert_cmpuint (with (&w, flames[k], "burner-lf"), ==, 0);
    }
}

static void
what_it_takes_is_said_with_the_symptom (void)
{
  g_auto (Watched) w = WATCH ("dial-four", 0, "cavity:bottom-covered=0");
  const HobSymptom *cool
      = hob_symptom_book_get (w.book, hob_symptom_book_find (w.book, "runs-cool"));
  g_autofree char *words = hob_symptom_words (cool, part_of (w.range, "cavity"));

  g_assert_true (g_str_has_prefix (words, cool->technician));
  g_assert_cmpuint (strlen (words), >, strlen (cool->technician));
}

/* Looked at by a thermometer: an average, a swing, a difference, a figure above the dial. */
static gboolean
takes_a_thermometer (const HobEntry *e)
{
  static const char *const measured[] = { "middle", "swing", "tilt", "above-dial", NULL };

  for (guint k = 0; k < e->conditions->len; k++)
    {
      const HobCondition *c = &g_array_index (e->conditions, HobCondition, k);

      if (c->measure == HOB_MEASURE_QUANTITY && g_strv_contains (measured, c->name))
        return TRUE;
    }
  return FALSE;
}

static void
averages_and_differences_take_a_thermometer (void)
{
  g_auto (Watched) w = WATCH ("dial-four", 0, "cavity:bottom-covered=0");
  int n = 0;

  for (int s = 0; s < hob_symptom_book_size (w.book); s++)
    {
      const HobEntry *e = hob_symptom_book_entry (w.book, s);

      if (!takes_a_thermometer (e))
        continue;
      if (!(e->symptom.with & HOB_WITH_THERMOMETER))
        g_test_fail_printf ("%s doesn't say that it takes a thermometer", e->symptom.id);
      n++;
    }
  g_assert_cmpint (n, >=, 6);
}

/* ---- Nothing wrong ---- */

/* The usual hood leans no flame; a strong one does, and the flame is as hot as ever. */
static void
a_strong_hood_leans_the_flames_and_changes_nothing_else (void)
{
  g_auto (Watched) usual = WATCH ("dial-four", 60, BURNER_ON, "20s house.hood=on");
  g_auto (Watched) strong
      = WATCH ("dial-four", 60, "house.hood-flow=0.28", BURNER_ON, "20s house.hood=on");
  g_auto (Watched) off = WATCH ("dial-four", 60, "house.hood-flow=0.28", BURNER_ON);

  g_assert_cmpfloat_with_epsilon (noticed (&strong, "flame-wavers"), 25, 0.1);
  g_assert_true (isnan (noticed (&usual, "flame-wavers")));
  g_assert_true (isnan (noticed (&off, "flame-wavers")));
  g_assert_cmpfloat (watched_value (&strong, "burner-lf.heat", 59), ==,
                     watched_value (&off, "burner-lf.heat", 59));
  g_assert_cmpfloat (watched_value (&strong, "burner-lf.lean", 59), >,
                     2 * watched_value (&usual, "burner-lf.lean", 59));
}

/* More as the liner gets hotter, and less as the oil goes; a second baking is clean. */
static void
a_new_oven_smells_of_oil_for_its_first_hours (void)
{
  g_auto (Watched) fresh = WATCH ("dial-four", 6 * 3600, "cavity.oil=1", "0s oven.mode=bake",
                                  "3h oven.mode=off", "4h oven.mode=bake");
  g_auto (Watched) used = WATCH ("dial-four", 3600, "0s oven.mode=bake");
  int index = hob_symptom_book_find (fresh.book, "smells-of-oil"), times = 0;
  guint first, n = hob_run_events (fresh.run, -1, G_MAXDOUBLE, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (fresh.run, k);

      times += e->what == HOB_EVENT_SYMPTOM && e->index == index;
    }
  g_assert_cmpint (times, ==, 1);
  g_assert_cmpfloat (watched_value (&fresh, "cavity.oil", 3 * 3600), <, 0.05);
  g_assert_cmpfloat (watched_value (&fresh, "cavity.oil-smell", 1200), >,
                     3 * watched_value (&fresh, "cavity.oil-smell", 60));
  g_assert_true (isnan (noticed (&used, "smells-of-oil")));
}

#define ADD(name, function) g_test_add_func ("/symptoms-sight/" name, function)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("a-normal-flame-is-as-high-as-is-normal",
       a_normal_flame_is_as_high_as_is_normal_for_its_range);
  ADD ("an-eye-sees-30-percent-less-and-25-percent-more",
       an_eye_sees_30_percent_less_and_25_percent_more);
  ADD ("a-pressure-that-is-a-quarter-high",
       a_pressure_that_is_a_quarter_high_shows_on_a_gauge_alone);
  ADD ("what-no-eye-sees-a-gauge-shows", what_no_eye_sees_a_gauge_shows);
  ADD ("a-flame-is-seen-to-sink-within-two-seconds",
       a_flame_is_seen_to_sink_only_within_two_seconds);
  ADD ("gas-is-smelled-by-its-concentration", gas_is_smelled_by_its_concentration);
  ADD ("a-pinhole-is-not-found-by-nose", a_pinhole_is_found_with_solution_not_by_nose);
  ADD ("flames-behind-the-oven-bottom", flames_behind_the_oven_bottom_take_it_out);
  ADD ("what-it-takes-is-said", what_it_takes_is_said_with_the_symptom);
  ADD ("averages-take-a-thermometer", averages_and_differences_take_a_thermometer);
  ADD ("a-strong-hood-leans-the-flames", a_strong_hood_leans_the_flames_and_changes_nothing_else);
  ADD ("a-new-oven-smells-of-oil", a_new_oven_smells_of_oil_for_its_first_hours);
  return g_test_run ();
}
