/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What fails on the way from a knob to a flame, run in shipped ranges: each as a sentence with
 * its figures. */

#include "faulty.h"
#include "physics/spark.h"

#define MILLIJOULE 1e-3
#define HOUR 3600.0
#define WAIT 20.0 /* s at light */

static double
of (Faulty *f, double t, const char *part, const char *place, const char *quantity)
{
  g_autofree char *name = g_strdup_printf ("%s-%s.%s", part, place, quantity);

  return at (f, t, name);
}

/* "PART:FAULT=SEVERITY" in the C locale. (transfer full) */
static char *
fault_at (const char *fault, double severity)
{
  g_autofree char *number = hob_number_text (severity);

  return g_strconcat (fault, "=", number, NULL);
}

/* The left front knob of @range stands at light from 1 s on, @fault hung if there is one. */
static Faulty
lighting (const char *range, const char *fault)
{
  return faulty_new (
      range, NULL, fault != NULL ? WORDS ("1s knob-lf=light", fault) : WORDS ("1s knob-lf=light"));
}

static double
sparks (Faulty *f, const char *place)
{
  return of (f, WAIT, "electrode", place, "sparks");
}

static gboolean
lit (Faulty *f, const char *place)
{
  return of (f, WAIT, "burner", place, "flame") > 0;
}

/* Does @fault leave the left front burner of dial-four unlit, and are there sparks at its cap? */
static void
assert_left_front (const char *fault, gboolean sparks_at_cap, gboolean lights)
{
  g_auto (Faulty) f = lighting ("dial-four", fault);

  g_test_message ("%s: %g sparks, %s", fault, sparks (&f, "lf"), lit (&f, "lf") ? "lit" : "unlit");
  g_assert_cmpint (sparks (&f, "lf") > 0, ==, sparks_at_cap);
  g_assert_cmpint (lit (&f, "lf"), ==, lights);
  g_assert_cmpfloat (sparks (&f, "rr"), >, 0);
}

/* s from the knob to the flame on average over @seeds; WAIT for those that never light. */
static double
mean_wait (const char *range, const char *fault, int seeds)
{
  double sum = 0;

  for (int seed = 1; seed <= seeds; seed++)
    {
      g_auto (Faulty) f = lighting (range, fault);
      double t = 1;

      f.acts->seed = (guint64) seed;
      while (t < 1 + WAIT && of (&f, t, "burner", "lf", "flame") == 0)
        t += 0.05;
      sum += t - 1;
    }
  return sum / seeds;
}

/* ---- Wet switches ---- */

#define KITCHEN "house.temperature=22 degC"

/* Sparks per second with a film in series, this project's figures. */
static double
figure (double ohms)
{
  static const double table[][2]
      = { { 0, 2.96 }, { 47e3, 1.41 }, { 100e3, 0.85 }, { 200e3, 0.44 }, { 300e3, 0.26 } };

  for (guint k = 0; k + 1 < G_N_ELEMENTS (table); k++)
    if (ohms <= table[k + 1][0])
      {
        double u = (ohms - table[k][0]) / (table[k + 1][0] - table[k][0]);
        return table[k][1] * pow (table[k + 1][1] / table[k][1], u);
      }
  return NAN;
}

static void
a_film_slows_the_beat_by_its_resistance (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", KITCHEN, "switch-lf:wet");
  int compared = 0, silent = 0;

  for (double t = 0; t < 4 * HOUR; t += 61)
    {
      double film = at (&f, t, "switch-lf.film-ohms"), rate = at (&f, t, "module.rate");

      if (film < 300e3)
        {
          g_assert_cmpfloat (fabs (rate / figure (film) - 1), <, 0.15);
          compared++;
        }
      else if (film > 500e3)
        {
          g_assert_cmpfloat (rate, ==, 0);
          silent++;
        }
    }
  g_assert_cmpint (compared, >, 60);
  g_assert_cmpint (silent, >, 10);
}

static void
a_wet_switch_sparks_with_knobs_off_and_is_quiet_after_hours_unplugged (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", KITCHEN, "switch-lf:wet", "60s cord.plug=out", "14460s cord.plug=in");

  g_assert_cmpfloat (at (&f, 50, "electrode-rr.sparks"), >, 10);
  double before = at (&f, 14460, "electrode-rr.sparks");
  g_assert_cmpfloat (at (&f, 14460 + 600, "electrode-rr.sparks"), ==, before);
}

/* How often sparking is said to begin or to end by @until s. */
static guint
said_of_sparking (Faulty *f, double until)
{
  HobRun *run = faulty_run (f, until);
  guint first, n = hob_run_events (run, -1, until, &first), said = 0;

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (run, k);
      g_autofree char *id = hob_event_id (run, event);

      said += g_strcmp0 (id, "module.sparking") == 0;
    }
  return said;
}

/* A film comes and goes by the second: that is one sparking with lulls, not eighty of them.  A
 * contact that opens ends it at once. */
static void
sparks_of_a_wet_switch_are_told_as_one (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", KITCHEN, "switch-lf:wet");
  g_auto (Faulty) normal = SHIPPED ("dial-four", "1s knob-lf=light", "5s knob-lf=high");

  g_assert_cmpfloat (at (&f, 10800, "electrode-lf.sparks"), >, 1000);
  g_assert_cmpuint (said_of_sparking (&f, 10800), >=, 1);
  g_assert_cmpuint (said_of_sparking (&f, 10800), <, 20);
  g_assert_cmpuint (said_of_sparking (&normal, 5.5), ==, 2);
}

static void
a_failed_switch_is_never_quiet (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", KITCHEN, "switch-lf:stuck-closed", "60s cord.plug=out",
                               "8h cord.plug=in");

  g_assert_cmpfloat (at (&f, 8 * HOUR - 1, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&f, 8 * HOUR + 1, "module.rate"), >, 2.9);
}

static double
sparks_in_an_hour (const char *fault, const char *humidity)
{
  g_auto (Faulty) f = faulty_new ("dial-four", NULL, WORDS (KITCHEN, humidity, fault));

  return at (&f, 9 * HOUR, "electrode-lf.sparks") - at (&f, 8 * HOUR, "electrode-lf.sparks");
}

/* Dry it is quiet at 40 and 50%, and ticks again at 85%. */
static void
what_a_spill_leaves_comes_back_with_damp (void)
{
  g_assert_cmpfloat (sparks_in_an_hour ("switch-lf:residue", "house.humidity=0.4"), ==, 0);
  g_assert_cmpfloat (sparks_in_an_hour ("switch-lf:residue", "house.humidity=0.5"), <, 30);
  g_assert_cmpfloat (sparks_in_an_hour ("switch-lf:residue", "house.humidity=0.85"), >, 1000);
  g_assert_cmpfloat (sparks_in_an_hour ("switch-lf:wet", "house.humidity=0.4"), ==, 0);
  g_assert_cmpfloat (sparks_in_an_hour ("switch-lf:wet=0.8", "house.humidity=0.4"), ==, 0);
  g_assert_cmpfloat (sparks_in_an_hour ("switch-lf:wet=0.8", "house.humidity=0.9"), >, 100);
}

/* 200 kΩ·50^−s: from 20 kΩ down it trips, knobs off; at 90 kΩ it does not. */
static void
a_film_to_the_stem_trips_the_interrupter (void)
{
  for (int k = 0; k <= 10; k += 2)
    {
      g_autofree char *fault = fault_at ("switch-cf:wet-to-stem", k / 10.0);
      g_auto (Faulty) f = faulty_new ("reignite-six", NULL, WORDS (fault));
      double ohms = 200e3 * pow (50, -k / 10.0);

      g_test_message ("%.1f kΩ: %s", ohms / 1e3,
                      at (&f, 120, "interrupter.tripped") > 0 ? "trips" : "holds");
      if (ohms <= 20e3)
        g_assert_cmpfloat (at (&f, 120, "interrupter.tripped"), ==, 1);
      if (ohms >= 90e3)
        g_assert_cmpfloat (at (&f, 120, "interrupter.tripped"), ==, 0);
    }
}

/* ---- Modules ---- */

static void
the_plain_module_needs_neither_polarity_nor_the_cords_ground (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "receptacle:reversed", "cord:ground-open",
                               "house:pipe-not-grounded", "1s knob-lf=light");

  g_assert_cmpfloat (sparks (&f, "lf"), >, 40);
  g_assert_true (lit (&f, "lf"));
}

/* Gap 0.5 mm·24^s: 0.6 mm at the lug cost a quarter of the energy, 2.4 mm a half; 12 mm leave the
 * lead's charge alone. */
static void
a_loose_ground_lug_thins_all_sparks (void)
{
  const double severity[] = { 0.05, 0.5, 1 }, energy[] = { 0.41, 0.285, 0.235 };

  for (int k = 0; k < 3; k++)
    {
      g_autofree char *fault = fault_at ("module:ground-loose", severity[k]);
      g_auto (Faulty) f = lighting ("dial-four", fault);

      g_test_message ("lug %g: %.3f mJ", severity[k],
                      at (&f, 1.1, "electrode-rr.energy") / MILLIJOULE);
      g_assert_cmpfloat (fabs (at (&f, 1.1, "electrode-rr.energy") / MILLIJOULE - energy[k]), <,
                         0.01);
      g_assert_cmpint (sparks (&f, "lf") > 0, ==, k < 2);
      g_assert_cmpint (sparks (&f, "rr") > 0, ==, k < 2);
    }
  assert_near (mean_wait ("dial-four", "module:ground-loose=0.05", 5),
               mean_wait ("dial-four", NULL, 5), 0.5);
  g_assert_cmpfloat (mean_wait ("dial-four", "module:ground-loose=0.5", 10), >, 3);
  g_assert_cmpfloat (mean_wait ("dial-four", "module:ground-loose=1", 3), >=, WAIT - 0.1);
}

/* 154 V in place of 130: slow at 120 V, and at 108 V, whose crest is 153 V, nothing. */
static void
a_tired_trigger_is_slow_and_dies_on_low_volts (void)
{
  g_auto (Faulty) sound = lighting ("dial-four", NULL);
  g_auto (Faulty) tired = lighting ("dial-four", "module:slow");
  g_auto (Faulty) low
      = SHIPPED ("dial-four", "receptacle.volts=108 V", "module:slow", "1s knob-lf=light");

  g_test_message ("%.2f, tired %.2f per second", at (&sound, 2, "module.rate"),
                  at (&tired, 2, "module.rate"));
  g_assert_cmpfloat (at (&tired, 2, "module.rate"), <, 0.6 * at (&sound, 2, "module.rate"));
  g_assert_cmpfloat (at (&tired, 2, "module.rate"), >, 0);
  g_assert_cmpfloat (at (&low, 2, "module.rate"), ==, 0);
}

static void
a_faded_capacitor_is_quick_and_lights_nothing (void)
{
  g_auto (Faulty) f = lighting ("dial-four", "module:faded");

  g_assert_cmpfloat (at (&f, 2, "module.rate"), >, 5);
  g_assert_cmpfloat (at (&f, 1.1, "electrode-lf.energy"), <, 0.28 * MILLIJOULE);
  g_assert_false (lit (&f, "lf"));
}

/* ---- Electrodes in series ---- */

static void
a_pair_shares_the_winding_alike (void)
{
  g_auto (Faulty) f = lighting ("pair-spark-four", NULL);

  assert_near (at (&f, 1.1, "electrode-lf.energy") / MILLIJOULE, 0.53, 0.01);
  assert_near (at (&f, 1.1, "electrode-lr.energy") / MILLIJOULE, 0.53, 0.01);
  g_assert_true (lit (&f, "lf"));
  for (int k = 0; k < 4; k++)
    g_assert_cmpfloat (sparks (&f, ((const char *[]){ "lf", "lr", "rf", "rr" })[k]), >, 40);
}

static void
what_is_open_at_one_silences_both_of_a_pair (void)
{
  static const char *const open[]
      = { "electrode-lr:lead-open", "burner-lr:cap-missing", "module:output-lr-dead" };

  for (guint k = 0; k < G_N_ELEMENTS (open); k++)
    {
      g_auto (Faulty) f = lighting ("pair-spark-four", open[k]);

      g_assert_cmpfloat (sparks (&f, "lf"), ==, 0);
      g_assert_cmpfloat (sparks (&f, "lr"), ==, 0);
      g_assert_cmpfloat (of (&f, 2, "electrode", "lf", "ticking"), ==, 0);
      g_assert_false (lit (&f, "lf"));
      assert_near (at (&f, 2, "electrode-lf.energy") / MILLIJOULE, 0.24, 0.01);
      g_assert_cmpfloat (sparks (&f, "rf"), >, 40);
      g_assert_cmpfloat (sparks (&f, "rr"), >, 40);
    }
}

static void
a_crack_leaves_the_partner_a_stronger_spark (void)
{
  g_auto (Faulty) f = lighting ("pair-spark-four", "electrode-lr:cracked");

  g_assert_cmpfloat (sparks (&f, "lr"), ==, 0);
  g_assert_cmpfloat (of (&f, 2, "electrode", "lr", "ticking"), >, 2.5);
  g_assert_cmpfloat (sparks (&f, "lf"), >, 40);
  g_assert_cmpfloat (at (&f, 1.1, "electrode-lf.energy"), >, 0.65 * MILLIJOULE);
  g_assert_true (lit (&f, "lf"));
}

static void
a_plain_module_leaves_the_others_alone (void)
{
  g_auto (Faulty) f = lighting ("dial-four", "electrode-lr:lead-open");

  g_assert_cmpfloat (sparks (&f, "lr"), ==, 0);
  g_assert_cmpfloat (sparks (&f, "lf"), >, 40);
  g_assert_true (lit (&f, "lf"));
}

/* ---- The module that watches ---- */

#define ON "1s knob-lf=light", "6s knob-lf=high"

static void
a_flame_gives_two_point_seven_microamperes_and_the_sparks_end (void)
{
  g_auto (Faulty) f = SHIPPED ("reignite-six", ON);

  assert_near (at (&f, 5, "module.flame-current") * 1e6, 2.70, 0.01);
  g_assert_cmpfloat (at (&f, 5, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&f, 60, "electrode-lf.sparks"), <, 8);
  g_assert_cmpfloat (at (&f, 60, "burner-lf.flame"), ==, 1);
}

/* Each burner has its own input: a second one sparks although the first is lit, as soon as its
 * knob has come to where the switch closes. */
static void
every_burner_is_watched_for_itself (void)
{
  g_auto (Faulty) f
      = SHIPPED ("reignite-six", ON, "20s knob-cr=light", "20s shutoff=open", "30s knob-rr=low");

  g_assert_cmpfloat (at (&f, 19, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&f, 20.1, "module.rate"), >, 2);
  g_assert_cmpfloat (at (&f, 29, "burner-cr.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 29, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&f, 40, "burner-rr.flame"), ==, 1);
}

static void
it_lights_again_what_went_out (void)
{
  g_auto (Faulty) f = SHIPPED ("reignite-six", ON, "20s shutoff=closed", "30s shutoff=open");

  g_assert_cmpfloat (at (&f, 21, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&f, 21, "module.rate"), >, 2.9);
  g_assert_cmpfloat (at (&f, 34, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 34, "module.rate"), ==, 0);
}

static void
assert_never_stops (const char *const *words)
{
  g_auto (Faulty) f = faulty_new ("reignite-six", NULL, words);

  g_assert_cmpfloat (at (&f, 120, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 120, "module.rate"), >, 2.9);
  g_assert_cmpfloat (at (&f, 120, "module.flame-current"), <, 0.5e-6);
}

static void
without_polarity_or_any_ground_the_sparks_never_stop (void)
{
  assert_never_stops (WORDS (ON, "receptacle:reversed"));
  assert_never_stops (WORDS (ON, "receptacle:ground-open", "house:pipe-not-grounded"));
  assert_never_stops (WORDS (ON, "cord:ground-open", "house:pipe-not-grounded"));
  assert_never_stops (WORDS (ON, "electrode-lf:fouled=1"));
  assert_never_stops (WORDS (ON, "module:deaf"));
}

static void
an_open_ground_shows_nothing_while_the_pipe_is_metal (void)
{
  g_auto (Faulty) sound = SHIPPED ("reignite-six", ON);
  g_auto (Faulty) open = SHIPPED ("reignite-six", ON, "cord:ground-open");

  for (int t = 0; t < 60; t += 3)
    g_assert_cmpfloat (at (&open, t, "electrode-lf.sparks"), ==,
                       at (&sound, t, "electrode-lf.sparks"));
  assert_near (at (&open, 60, "module.flame-current"), at (&sound, 60, "module.flame-current"),
               1e-9);
}

/* Two kilohms of a person are way enough for microamperes. */
static void
a_hand_on_a_floating_range_lets_it_feel_the_flame (void)
{
  g_auto (Faulty) f = SHIPPED ("reignite-six", ON, "receptacle:ground-open",
                               "house:pipe-not-grounded",
                               "30s person=chassis");

  g_assert_cmpfloat (at (&f, 29, "module.rate"), >, 2.9);
  g_assert_cmpfloat (at (&f, 31, "module.rate"), ==, 0);
}

/* ---- Electrodes ---- */

/* Share of the pulses that jump at the cap; the burner's gas is shut off, so that it stays cold. */
static double
share_at_cap (const char *fault, double severity)
{
  g_autofree char *hung = fault_at (fault, severity);
  g_auto (Faulty) f
      = faulty_new ("dial-four", NULL, WORDS ("0s shutoff=closed", "1s knob-lf=light", hung));

  return at (&f, 300, "electrode-lf.sparks") / at (&f, 300, "electrode-rr.sparks");
}

/* Way through the crack 4.5 mm − 2.5 mm·s, or 2 mm − 1.5 mm·s. */
static void
a_crack_wins_alternates_or_loses_by_its_depth (void)
{
  g_assert_cmpfloat (share_at_cap ("electrode-lf:cracked", 1), ==, 0);         /* 0.5 mm */
  g_assert_cmpfloat (share_at_cap ("electrode-lf:cracked", 0.01), ==, 0);      /* 2 mm */
  g_assert_cmpfloat (share_at_cap ("electrode-lf:cracked-deep", 0.8), >, 0.08); /* 2.5 mm */
  g_assert_cmpfloat (share_at_cap ("electrode-lf:cracked-deep", 0.8), <, 0.25);
  g_assert_cmpfloat (share_at_cap ("electrode-lf:cracked-deep", 0.6), >, 0.4); /* 3 mm */
  g_assert_cmpfloat (share_at_cap ("electrode-lf:cracked-deep", 0.6), <, 0.6);
  g_assert_cmpfloat (share_at_cap ("electrode-lf:cracked-deep", 0.2), >, 0.9); /* 4 mm */
}

/* A crack that takes one pulse in eight leaves enough of them to light, later. */
static void
an_alternating_crack_lights_late (void)
{
  double late = mean_wait ("dial-four", "electrode-lf:cracked-deep=0.8", 10);

  g_test_message ("%.2f s", late);
  g_assert_cmpfloat (late, >, 1);
  g_assert_cmpfloat (late, <, 8);
}

/* 1.9 mm − 1 mm·s: below the quenching distance of 2 mm the gap drinks the kernel's heat. */
static void
a_narrow_gap_sparks_well_and_lights_badly (void)
{
  double sound = mean_wait ("dial-four", NULL, 10),
         typical = mean_wait ("dial-four", "electrode-lf:gap-narrow", 10);
  g_auto (Faulty) f = lighting ("dial-four", "electrode-lf:gap-narrow=0.5");

  g_test_message ("sound %.2f s, 1.7 mm %.2f s", sound, typical);
  g_assert_cmpfloat (typical, >, 1.5 * sound);
  g_assert_cmpfloat (typical, <, WAIT / 2);
  g_assert_cmpfloat (sparks (&f, "lf"), >, 50);
  g_assert_false (lit (&f, "lf"));
}

static void
leads_fail_open_or_to_metal (void)
{
  assert_left_front ("electrode-lf:lead-open", FALSE, FALSE);
  assert_left_front ("electrode-lf:lead-chafed", FALSE, FALSE);
  assert_left_front ("electrode-lf:lead-chafed=0.05", TRUE, TRUE);
  g_auto (Faulty) f = lighting ("dial-four", "electrode-lf:lead-chafed");
  g_assert_cmpfloat (of (&f, 5, "electrode", "lf", "ticking"), >, 2.5);
}

/* Over eleven severities the wait only grows, by no more than a third of the whole at a time, and
 * still does at the end. */
static void
assert_later_by_degree (const char *range, const char *fault)
{
  double wait[11], whole;

  for (int k = 0; k <= 10; k++)
    {
      g_autofree char *text = g_strdup_printf ("%s=%.1f", fault, k / 10.0);

      wait[k] = mean_wait (range, text, 6);
      g_test_message ("%s lights after %.2f s", text, wait[k]);
    }
  whole = wait[10] - wait[0];
  g_assert_cmpfloat (whole, >, 3);
  g_assert_cmpfloat (wait[10], <, WAIT);
  for (int k = 1; k <= 10; k++)
    {
      g_assert_cmpfloat (wait[k], >=, wait[k - 1]);
      g_assert_cmpfloat (wait[k] - wait[k - 1], <=, whole / 3);
    }
  g_assert_cmpfloat (wait[9] - wait[0], <, 0.98 * whole);
}

/* It lights from the gas that has gathered around the burner. */
static void
a_tip_out_of_the_mixture_sparks_and_lights_late (void)
{
  assert_left_front ("electrode-lf:off-place=0.05", TRUE, TRUE);
  assert_later_by_degree ("dial-four", "electrode-lf:off-place");
}

static void
clogged_ports_light_late (void)
{
  assert_left_front ("burner-lf:port-clogged=0.1", TRUE, TRUE);
  assert_later_by_degree ("dial-four", "burner-lf:port-clogged");
}

/* An open burner's spark is at the end of its flash tube. */
static void
a_lighter_tube_that_is_blocked_or_off_lights_late (void)
{
  assert_later_by_degree ("round-dial", "burner-lf:tube-blocked");
  assert_later_by_degree ("round-dial", "burner-lf:tube-off");
}

/* ---- Burners, knobs, valves ---- */

static void
a_cap_that_is_askew_missing_or_dirty_takes_the_spark (void)
{
  assert_left_front ("burner-lf:cap-not-seated", FALSE, FALSE);
  assert_left_front ("burner-lf:cap-not-seated=0.05", TRUE, TRUE);
  assert_left_front ("burner-lf:cap-missing", FALSE, FALSE);
  assert_left_front ("burner-lf:cap-dirty", TRUE, FALSE);
  assert_left_front ("burner-lf:cap-dirty=1", FALSE, FALSE);
}

/* The large burner's cap on the small one comes near the tip, the small one's on the large leaves
 * it far. */
static void
exchanged_caps_fail_at_both (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "burner-rf:cap-small", "burner-lr:cap-large",
                               "1s knob-rf=light", "30s knob-rf=off", "31s knob-lr=light");

  g_test_message ("cap far: %g, cap near: %g", at (&f, 29, "burner-rf.flame"),
                  at (&f, 60, "burner-lr.flame"));
  g_assert_cmpfloat (at (&f, 29, "burner-rf.flame") + at (&f, 60, "burner-lr.flame"), <, 2);
  g_assert_cmpfloat (at (&f, 60, "electrode-lr.sparks") - at (&f, 31, "electrode-lr.sparks"), >,
                     60);
}

static void
good_sparks_light_nothing_where_gas_or_air_are_wrong (void)
{
  assert_left_front ("burner-lf:orifice-clogged=1", TRUE, FALSE);
  assert_left_front ("valve-lf:stuck-closed", TRUE, FALSE);
}

/* Heat goes with the square of the jet's width. */
static void
a_clogged_jet_leaves_a_small_lifting_flame (void)
{
  g_auto (Faulty) sound = SHIPPED ("dial-four", "1s knob-lf=light", "10s knob-lf=high");
  g_auto (Faulty) f = SHIPPED ("dial-four", "burner-lf:orifice-clogged=0.4", "1s knob-lf=light",
                               "10s knob-lf=high");
  double share = at (&f, 20, "burner-lf.heat") / at (&sound, 20, "burner-lf.heat");

  assert_near (share, 0.74 * 0.74, 0.03);
  g_assert_cmpfloat (at (&f, 20, "burner-lf.lift"), >, at (&sound, 20, "burner-lf.lift"));
}

static void
too_little_air_is_yellow_too_much_lifts (void)
{
  g_auto (Faulty) closed = lighting ("round-dial", "burner-lf:shutter-closed");
  g_auto (Faulty) nest = lighting ("dial-four", "burner-lf:venturi-blocked");
  g_auto (Faulty) open = lighting ("round-dial", "burner-lf:shutter-open");

  g_test_message ("closed: %s, nest: %s", lit (&closed, "lf") ? "lit" : "unlit",
                  lit (&nest, "lf") ? "lit" : "unlit");
  g_assert_cmpfloat (of (&closed, WAIT, "burner", "lf", "yellow") , >, 0.5);
  g_assert_cmpfloat (of (&open, WAIT, "burner", "lf", "lift"), >, 0.5);
}

static void
a_valve_that_is_stiff_burns_small_and_one_that_leaks_feeds_with_the_knob_off (void)
{
  g_auto (Faulty) sound = SHIPPED ("dial-four", "1s knob-lf=light", "10s knob-lf=high");
  g_auto (Faulty) stiff
      = SHIPPED ("dial-four", "valve-lf:stiff", "1s knob-lf=light", "10s knob-lf=high");
  g_auto (Faulty) leaks = SHIPPED ("dial-four", "valve-lf:leaks");

  g_assert_cmpfloat (at (&stiff, 20, "burner-lf.heat"), <, 0.6 * at (&sound, 20, "burner-lf.heat"));
  g_assert_cmpfloat (at (&stiff, 20, "burner-lf.heat"), >, 0);
  g_assert_cmpfloat (at (&leaks, 60, "burner-lf.gas"), >, 0.01 * at (&sound, 20, "burner-lf.gas"));
}

/* With three fifths lost light turns the stem 16°, not yet to the switch. */
static void
a_knob_that_slips_does_less_than_it_shows (void)
{
  g_auto (Faulty) slips = lighting ("dial-four", "knob-lf:slips");
  g_auto (Faulty) broken
      = SHIPPED ("dial-four", "knob-lf:slips=1", "1s knob-lf=light", "5s knob-lf=high");

  g_assert_false (lit (&slips, "lf"));
  g_assert_cmpfloat (at (&broken, WAIT, "electrode-lf.sparks"), ==, 0);
  g_assert_cmpfloat (at (&broken, WAIT, "burner-lf.gas"), ==, 0);
}

/* Without a cap there is nothing to jump to but the crack: it clicks, and nobody sees a spark. */
static void
without_a_cap_a_crack_takes_every_spark (void)
{
  g_auto (Faulty) f = faulty_new (
      "dial-four", NULL,
      WORDS ("1s knob-lf=light", "electrode-lf:cracked-deep=0.2", "burner-lf:cap-missing"));

  g_assert_cmpfloat (sparks (&f, "lf"), ==, 0);
  g_assert_cmpfloat (of (&f, WAIT, "electrode", "lf", "ticking"), >, 1);
  g_assert_false (lit (&f, "lf"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define SAYS(suite, what) g_test_add_func ("/spark-faults/" suite "/" #what, what)
  SAYS ("wet", a_film_slows_the_beat_by_its_resistance);
  SAYS ("wet", a_wet_switch_sparks_with_knobs_off_and_is_quiet_after_hours_unplugged);
  SAYS ("wet", sparks_of_a_wet_switch_are_told_as_one);
  SAYS ("wet", a_failed_switch_is_never_quiet);
  SAYS ("wet", what_a_spill_leaves_comes_back_with_damp);
  SAYS ("wet", a_film_to_the_stem_trips_the_interrupter);
  SAYS ("module", the_plain_module_needs_neither_polarity_nor_the_cords_ground);
  SAYS ("module", a_loose_ground_lug_thins_all_sparks);
  SAYS ("module", a_tired_trigger_is_slow_and_dies_on_low_volts);
  SAYS ("module", a_faded_capacitor_is_quick_and_lights_nothing);
  SAYS ("pair", a_pair_shares_the_winding_alike);
  SAYS ("pair", what_is_open_at_one_silences_both_of_a_pair);
  SAYS ("pair", a_crack_leaves_the_partner_a_stronger_spark);
  SAYS ("pair", a_plain_module_leaves_the_others_alone);
  SAYS ("watch", a_flame_gives_two_point_seven_microamperes_and_the_sparks_end);
  SAYS ("watch", every_burner_is_watched_for_itself);
  SAYS ("watch", it_lights_again_what_went_out);
  SAYS ("watch", without_polarity_or_any_ground_the_sparks_never_stop);
  SAYS ("watch", an_open_ground_shows_nothing_while_the_pipe_is_metal);
  SAYS ("watch", a_hand_on_a_floating_range_lets_it_feel_the_flame);
  SAYS ("electrode", a_crack_wins_alternates_or_loses_by_its_depth);
  SAYS ("electrode", without_a_cap_a_crack_takes_every_spark);
  SAYS ("electrode", an_alternating_crack_lights_late);
  SAYS ("electrode", a_narrow_gap_sparks_well_and_lights_badly);
  SAYS ("electrode", leads_fail_open_or_to_metal);
  SAYS ("electrode", a_tip_out_of_the_mixture_sparks_and_lights_late);
  SAYS ("burner", clogged_ports_light_late);
  SAYS ("burner", a_lighter_tube_that_is_blocked_or_off_lights_late);
  SAYS ("burner", a_cap_that_is_askew_missing_or_dirty_takes_the_spark);
  SAYS ("burner", exchanged_caps_fail_at_both);
  SAYS ("burner", good_sparks_light_nothing_where_gas_or_air_are_wrong);
  SAYS ("burner", a_clogged_jet_leaves_a_small_lifting_flame);
  SAYS ("burner", too_little_air_is_yellow_too_much_lifts);
  SAYS ("burner", a_valve_that_is_stiff_burns_small_and_one_that_leaks_feeds_with_the_knob_off);
  SAYS ("burner", a_knob_that_slips_does_less_than_it_shows);
  return g_test_run ();
}
