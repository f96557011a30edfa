/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The step twin says what should be there now, at every second and whatever the hand does, and
 * nothing of a normal range differs from it. */

#include "case-words.h"
#include "run/comparison.h"
#include "run/differ.h"
#include "shipped.h"

#include <math.h>

#define MINUTES 95

typedef struct
{
  HobRange *range;
  HobBench *bench;
  HobComparison *c;
} Stand;

/* @words: what is done ("0s oven.mode=bake"), faults and settings, NULL-ended. */
static Stand
stand_open (const char *name, const char *const *words, double until)
{
  Stand s = { .range = shipped_range (name) };
  g_autoptr (HobCase) acts = hob_case_new (s.range);
  g_autoptr (GError) error = NULL;

  case_add_all (acts, words);
  s.bench = hob_bench_new (NULL, s.range, acts, &error);
  g_assert_no_error (error);
  hob_bench_should_be (s.bench);
  g_assert_cmpint (hob_bench_advance (s.bench, until, &error), ==, HOB_RUN_OK);
  s.c = hob_comparison_new (s.bench->plan);
  return s;
}

static void
stand_close (Stand *s)
{
  hob_comparison_free (s->c);
  hob_bench_free (s->bench);
  hob_range_unref (s->range);
}

static void
stand_read (Stand *s, double t)
{
  hob_comparison_read (s->c, s->bench->run, hob_bench_should_be (s->bench), t);
}

/* Value and should-be of "PART.QUANTITY". */
static double
value_of (const Stand *s, const HobMoment *m, const char *name)
{
  int part, quantity;

  g_assert_true (hob_range_find_quantity (s->range, name, &part, &quantity, NULL));
  return hob_moment_quantity (m, part, quantity);
}

static double
now (const Stand *s, const char *name)
{
  return value_of (s, hob_comparison_now (s->c), name);
}

static double
normal (const Stand *s, const char *name)
{
  return value_of (s, hob_comparison_normal (s->c), name);
}

static gboolean
differs (const Stand *s, const char *name)
{
  int part, quantity;

  g_assert_true (hob_range_find_quantity (s->range, name, &part, &quantity, NULL));
  return hob_comparison_quantity (s->c, part, quantity, NULL);
}

/* The parts that misbehave by themselves are this one alone. */
static void
assert_only_culprit (Stand *s, const char *id)
{
  for (int p = 0; p < s->range->n_parts; p++)
    g_assert_cmpint (hob_comparison_culprit (s->c, p, NULL), ==,
                     g_str_equal (s->range->parts[p].id, id));
}

static void
assert_between (double value, double low, double high)
{
  g_assert_cmpfloat (value, >=, low);
  g_assert_cmpfloat (value, <=, high);
}

/* Two who read the same twin at different times: neither changes what the other reads. */
static void
two_readers_do_not_disturb_each_other (void)
{
  static const char *const words[] = { "0s oven.mode=bake", "igniter-bake:aged", NULL };
  Stand s = stand_open ("dial-four", words, 900);
  HobRun *twin = hob_bench_should_be (s.bench);
  g_autoptr (HobMoment) one = hob_moment_new (s.bench->plan),
                        other = hob_moment_new (s.bench->plan);

  g_assert_true (isnan (hob_step_twin_shown (s.bench->run, 100))); /* it is no twin */
  for (double t = 100.25; t < 900; t += 50)
    {
      guint64 before;

      g_assert_true (hob_run_read (twin, t, one));
      before = hob_moment_hash (one);
      g_assert_true (hob_run_read (twin, 900 - t, other));
      g_assert_true (hob_run_read (twin, t, one));
      g_assert_cmphex (hob_moment_hash (one), ==, before);
    }
  stand_close (&s);
}

/* ---- Named cases: every second of 95 minutes ---- */

#define STAND(...) stand_open (name, (const char *const[]){ __VA_ARGS__, NULL }, 60 * MINUTES + 1)

/* 3.2 to 3.6 A is what the trade reads of a flat igniter and its valve (common practice). */
static void
aged_igniter (const char *name)
{
  Stand s = STAND ("0s oven.mode=bake", "igniter-bake:aged", "1500s door=open", "1600s door=closed",
                   "3000s knob-lf=light", "3010s knob-lf=off");

  for (int t = 60; t <= 60 * MINUTES; t++)
    {
      stand_read (&s, t);
      g_assert_true (differs (&s, "igniter-bake.current"));
      assert_between (now (&s, "igniter-bake.current"), 2.6, 2.9);
      assert_between (normal (&s, "igniter-bake.current"), 3.2, 3.6);
      assert_only_culprit (&s, "igniter-bake");
    }
  stand_close (&s);
}

static void
igniter_on_dial (void)
{
  aged_igniter ("dial-four");
}

static void
igniter_on_board (void)
{
  aged_igniter ("board-five");
}

/* 60 Ω in the plug are 60 Ω at every temperature. */
static void
sensor_plug (void)
{
  const char *name = "board-five";
  Stand s = STAND ("0s oven.mode=bake", "sensor:plug-corroded", "4000s oven.dial=425 degF");

  for (int t = 5; t <= 60 * MINUTES; t++)
    {
      stand_read (&s, t);
      g_assert_true (differs (&s, "sensor.ohms"));
      assert_between (now (&s, "sensor.ohms") - normal (&s, "sensor.ohms"), 59, 61);
      assert_only_culprit (&s, "sensor");
    }
  stand_close (&s);
}

/* What a normal thermostat does at a bulb's temperature, by its differential of 5 °F; between the
 * two it may be either. */
static void
assert_thermostat_normal (const Stand *s, double set_degf)
{
  double degf = normal (s, "bulb.reads") * 1.8 - 459.67;

  if (degf < set_degf - 6.5)
    g_assert_cmpfloat (normal (s, "oven.contact"), ==, 1);
  else if (degf > set_degf + 6.5)
    g_assert_cmpfloat (normal (s, "oven.contact"), ==, 0);
}

/* It opens and closes 30 °C too low: at the temperatures of this oven a normal contact is
 * closed. */
static void
calibration_low (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("0s oven.mode=bake", "oven:calibration-low");
  int cycles = 0;
  double before = 1;

  for (int t = 5; t <= 60 * MINUTES; t++)
    {
      stand_read (&s, t);
      assert_thermostat_normal (&s, 350);
      g_assert_cmpfloat (normal (&s, "oven.contact"), ==, 1);
      cycles += now (&s, "oven.contact") < before;
      before = now (&s, "oven.contact");
      if (before < 1)
        {
          g_assert_true (differs (&s, "oven.contact"));
          assert_between (normal (&s, "igniter-bake.current"), 3.2, 3.6);
          assert_only_culprit (&s, "oven");
        }
    }
  g_assert_cmpint (cycles, >, 5);
  stand_close (&s);
}

/* A bulb in its clips follows the air and the liner of the oven as it is:
 *
 *   dT/dt = (0.88·T_air + 0.12·T_liner − T)/36 s */
static void
bulb_on_floor (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("0s oven.mode=bake", "bulb:on-bottom");
  double before = NAN, seen_before = NAN;
  int off = 0;

  for (int t = 5; t <= 60 * MINUTES; t++)
    {
      double seen, bulb;

      stand_read (&s, t);
      bulb = normal (&s, "bulb.sensed");
      seen = 0.88 * now (&s, "cavity.air") + 0.12 * now (&s, "cavity.wall");
      if (t > 5)
        assert_between ((bulb - before) - ((seen + seen_before) - (bulb + before)) / 2 / 36, -0.01,
                        0.01);
      before = bulb;
      seen_before = seen;
      assert_thermostat_normal (&s, 350);
      off += differs (&s, "bulb.sensed");
      if (differs (&s, "bulb.sensed"))
        assert_only_culprit (&s, "bulb");
    }
  g_assert_cmpint (off, >, 30 * MINUTES);
  stand_close (&s);
}

/* Once the oven is hotter than its dial asks, all is said by the contact. */
static void
contact_welded (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("0s oven.mode=bake", "oven:contact-welded");

  for (int t = 5; t <= 60 * MINUTES; t++)
    {
      stand_read (&s, t);
      assert_thermostat_normal (&s, 350);
      g_assert_cmpfloat (now (&s, "oven.contact"), ==, 1);
      if (t < 600)
        g_assert_false (hob_comparison_shows (s.c));
      if (t < 900)
        continue;
      g_assert_true (differs (&s, "oven.contact"));
      g_assert_cmpfloat (normal (&s, "igniter-bake.current"), <, 0.01);
      assert_only_culprit (&s, "oven");
    }
  stand_close (&s);
}

static void
relay_welded (void)
{
  const char *name = "board-five";
  Stand s = STAND ("0s oven.mode=bake", "oven:contact-welded", "4000s oven.mode=off");

  for (int t = 5; t <= 60 * MINUTES; t++)
    {
      stand_read (&s, t);
      assert_between (now (&s, "igniter-bake.current"), 0.5, 4);
      if (t < 900)
        continue;
      g_assert_cmpfloat (normal (&s, "igniter-bake.current"), <, 0.01);
      assert_only_culprit (&s, "oven");
    }
  stand_close (&s);
}

static void
stuck_spark_switch (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("10s knob-lf=light", "20s knob-lf=high", "2000s knob-lf=off",
                   "switch-rf:stuck-closed");

  for (int t = 1; t <= 60 * MINUTES; t++)
    {
      /* On its way off the knob passes LIGHT again. */
      gboolean lighting = (t >= 10 && t <= 21) || t == 2000;

      stand_read (&s, t);
      g_assert_cmpfloat (now (&s, "switch-rf.contact"), ==, 1);
      g_assert_cmpfloat (normal (&s, "switch-rf.contact"), ==, 0);
      assert_only_culprit (&s, "switch-rf");
      if (!lighting)
        {
          assert_between (now (&s, "electrode-rr.rate"), 2, 4);
          g_assert_cmpfloat (normal (&s, "electrode-rr.rate"), ==, 0);
          g_assert_true (differs (&s, "electrode-rr.rate"));
        }
    }
  stand_close (&s);
}

/* The turn to HIGH ends the sparks, not what has failed: there should be a flame. */
static void
cracked_electrode (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("10s knob-lf=light", "20s knob-lf=high", "electrode-lf:cracked");

  for (int t = 22; t <= 60 * MINUTES; t++)
    {
      stand_read (&s, t);
      g_assert_cmpfloat (now (&s, "burner-lf.flame"), ==, 0);
      g_assert_cmpfloat (normal (&s, "burner-lf.flame"), ==, 1);
      g_assert_true (differs (&s, "burner-lf.flame"));
      assert_between (normal (&s, "burner-lf.heat"), 2700, 2950); /* 9,500 Btu/h */
    }
  stand_close (&s);
}

static void
tripped_breaker (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("0s oven.mode=bake", "breaker:weak");

  for (int t = 48; t <= 60 * MINUTES; t++)
    {
      stand_read (&s, t);
      g_assert_cmpfloat (now (&s, "breaker.tripped"), ==, 1);
      g_assert_cmpfloat (normal (&s, "breaker.tripped"), ==, 0);
      g_assert_cmpfloat (now (&s, "receptacle.volts"), <, 1);
      assert_between (normal (&s, "receptacle.volts"), 118, 120);
      assert_between (normal (&s, "igniter-bake.current"), 3.2, 3.6);
      assert_only_culprit (&s, "breaker");
    }
  stand_close (&s);
}

static void
valve_stuck_open (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("valve-bake:stuck-open", "1800s shutoff=closed");

  for (int t = 5; t < 1800; t++)
    {
      stand_read (&s, t);
      assert_between (now (&s, "valve-bake.opening"), 0.49, 0.51);
      g_assert_cmpfloat (normal (&s, "valve-bake.opening"), ==, 0);
      g_assert_cmpfloat (normal (&s, "burner-bake.gas"), <=, 1e-9);
      g_assert_true (differs (&s, "burner-bake.gas"));
      assert_only_culprit (&s, "valve-bake");
    }
  stand_close (&s);
}

/* ---- A normal range ---- */

static gboolean
anything_differs (const Stand *s, const char **what, int *part)
{
  for (int p = 0; p < s->range->n_parts; p++)
    for (int q = 0; q < s->range->parts[p].kind->n_quantities; q++)
      {
        const HobQuantityDef *def = &s->range->parts[p].kind->quantities[q];

        if (!def->counts && hob_comparison_quantity (s->c, p, q, NULL))
          {
            *what = def->name;
            *part = p;
            return TRUE;
          }
      }
  return FALSE;
}

/* A fault that does nothing yet makes the twin a run of its own; every figure of it is the
 * range's. */
static void
never_differs (const char *name, const char *fault, const char *const *acts, guint64 seed,
               double volts, double kelvin, double until)
{
  g_autofree char *supply = g_strdup_printf ("receptacle.volts=%g V", volts),
                  *room = g_strdup_printf ("house.temperature=%g K", kelvin);
  const char *words[12] = { fault, supply, room };
  Stand s;

  for (int k = 0; acts[k] != NULL; k++)
    words[3 + k] = acts[k];
  s = stand_open (name, words, 0);
  if (seed != 0)
    {
      g_autoptr (HobCase) again = hob_case_copy (hob_run_case (s.bench->run));
      HobBench *bench;

      again->seed = seed;
      bench = hob_bench_again (s.bench, again);
      hob_bench_free (s.bench);
      s.bench = bench;
    }
  g_assert_true (hob_bench_should_be (s.bench) != s.bench->run);
  g_assert_cmpint (hob_bench_advance (s.bench, until + 1, NULL), ==, HOB_RUN_OK);
  for (double t = 0.5; t <= until; t += 1)
    {
      const char *what;
      int part;

      stand_read (&s, t);
      if (anything_differs (&s, &what, &part))
        g_error ("%s, seed %d, %g V, %g K: at %g s %s.%s differs", name, (int) seed, volts, kelvin,
                 t, s.range->parts[part].id, what);
    }
  stand_close (&s);
}

static const char *const baking[]
    = { "0s oven.mode=bake", "1500s door=open", "1560s door=closed", "2400s oven.dial=425 degF",
        "4000s oven.mode=off", "4500s oven.mode=broil", NULL };

static void
normal_ranges (void)
{
  static const struct
  {
    guint64 seed;
    double volts, kelvin;
  } houses[] = { { 0, 120, 298.15 }, { 17, 102, 278.15 }, { 58, 132, 313.15 } };
  g_auto (GStrv) ranges = shipped_ranges ();
  gboolean full = full_sweep ();

  for (int r = 0; ranges[r] != NULL; r++)
    for (guint h = 0; h < (full ? 40 : 1); h++)
      {
        int k = full ? (int) (h % G_N_ELEMENTS (houses)) : r % (int) G_N_ELEMENTS (houses);

        never_differs (ranges[r], "switch-rr:open", baking, houses[k].seed + h, houses[k].volts,
                       houses[k].kelvin, full ? 28800 : 5700);
      }
}

/* Nothing wrong at all: the run is its own twin. */
static void
own_twin (void)
{
  const char *name = "dial-four";
  Stand s = STAND ("0s oven.mode=bake", "receptacle.volts=108 V");

  g_assert_true (hob_bench_should_be (s.bench) == s.bench->run);
  stand_close (&s);
}

/* ---- The same bits ---- */

static guint64
hash_at (HobRun *run, double t)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));

  g_assert_true (hob_run_read (run, t, m));
  return hob_moment_hash (m);
}

/* In one go, in small steps beside the run, or after the run has gone ahead. */
static void
same_bits (void)
{
  static const char *const words[] = { "0s oven.mode=bake", "oven:calibration-low", NULL };
  Stand once = stand_open ("dial-four", words, 4000), small = stand_open ("dial-four", words, 0);
  g_autoptr (HobBench) late = hob_bench_again (once.bench, hob_run_case (once.bench->run));

  for (double t = 0; t <= 4000; t += 7.3)
    hob_bench_advance (small.bench, t, NULL);
  hob_bench_advance (small.bench, 4000, NULL);
  hob_bench_advance (late, 4000, NULL);
  for (double t = 100; t < 4000; t += 777)
    {
      guint64 hash = hash_at (hob_bench_should_be (once.bench), t);

      g_assert_cmphex (hash, ==, hash_at (hob_bench_should_be (small.bench), t));
      g_assert_cmphex (hash, ==, hash_at (hob_bench_should_be (late), t));
      g_assert_cmphex (hash, ==, hash_at (hob_bench_should_be (once.bench), t)); /* looked back */
    }
  stand_close (&once);
  stand_close (&small);
}

/* A fault that is added later, moved about and taken out again. */
static void
follows_the_hand (void)
{
  static const char *const words[] = { "0s oven.mode=bake", NULL };
  Stand s = stand_open ("dial-four", words, 300);
  HobAct fault = { 200000, HOB_ACT_FAULT, hob_range_part (s.range, "igniter-bake"), 0, 0.5 };
  HobAct off = { 400000, HOB_ACT_CONTROL, 0, 0, 0 };
  g_autoptr (HobBench) fresh = NULL;

  g_assert_true (hob_range_find_control (s.range, "oven.mode", &off.part, &off.index, NULL));
  g_assert_true (hob_bench_should_be (s.bench) == s.bench->run);
  hob_bench_act (s.bench, fault);
  hob_bench_advance (s.bench, 600, NULL);
  g_assert_true (hob_bench_should_be (s.bench) != s.bench->run);
  g_assert_cmphex (hash_at (hob_bench_should_be (s.bench), 100), ==, hash_at (s.bench->run, 100));
  hob_bench_insert (s.bench, off);
  hob_bench_advance (s.bench, 600, NULL);
  fresh = hob_bench_again (s.bench, hob_run_case (s.bench->run));
  hob_bench_should_be (fresh);
  hob_bench_advance (fresh, 600, NULL);
  g_assert_cmphex (hash_at (hob_bench_should_be (s.bench), 550), ==,
                   hash_at (hob_bench_should_be (fresh), 550));
  hob_bench_undo (s.bench);
  hob_bench_undo (s.bench);
  hob_bench_advance (s.bench, 600, NULL);
  g_assert_true (hob_bench_should_be (s.bench) == s.bench->run);
  stand_close (&s);
}

/* As long as the hand does nothing new there is nothing to take back. */
static void
nothing_new_is_nothing_to_do (void)
{
  g_autofree char *file = hob_range_locate ("dial-four");
  g_autoptr (HobRange) range = hob_range_load (file, NULL, NULL);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (HobMoment) m = hob_moment_new (plan);
  HobRun *run, *twin;
  double reached;
  guint64 hash;

  case_add_all (acts, (const char *const[]){ "0s oven.mode=bake", "igniter-bake:aged", NULL });
  run = hob_run_new (plan, acts, NULL);
  twin = hob_step_twin_new (run);
  hob_run_advance (run, 60, NULL);
  hob_run_advance (twin, 60, NULL);
  hob_run_read (twin, 60, m);
  hash = hob_moment_hash (m);
  reached = hob_run_reached (twin);
  g_assert_true (hob_step_twin_keep_up (twin));
  g_assert_cmpfloat (hob_run_reached (twin), ==, reached);
  hob_run_read (twin, 60, m);
  g_assert_cmphex (hob_moment_hash (m), ==, hash);
  hob_run_free (twin);
  hob_run_free (run);
}

/* ---- What has shown so far ---- */

#define SILENT "0s oven.mode=bake", "cord:ground-open" /* for hours, with some hundred edges */

static guint
looks (const Stand *s)
{
  return hob_step_twin_looks (hob_bench_should_be (s->bench));
}

/* Whoever asks is a reader of its own, as the sheet, the chart, and the title block are. */
static gboolean
asked (const Stand *s, double t)
{
  g_autoptr (HobComparison) c = hob_comparison_new (s->bench->plan);

  hob_comparison_read (c, s->bench->run, hob_bench_should_be (s->bench), t);
  return hob_comparison_has_shown (c);
}

static guint
edges (const Stand *s, double from, double to)
{
  guint first, n = hob_run_events (s->bench->run, from, to, &first), edges = 0;

  for (guint k = first; k < first + n; k++)
    edges += hob_run_event (s->bench->run, k)->what <= HOB_EVENT_CHANGE;
  return edges;
}

/* "10s knob-lf=light" */
static HobAct
act_of (const Stand *s, const char *words)
{
  g_autoptr (HobCase) acts = hob_case_new (s->range);

  case_add (acts, words);
  return g_array_index (acts->acts, HobAct, 0);
}

/* However many ask, and however often; and what is done later leaves what came before it. */
static void
the_record_is_looked_back_on_once (void)
{
  static const char *const words[] = { SILENT, "electrode-lf:lead-open", NULL };
  Stand s = stand_open ("dial-four", words, 7200);
  guint once;

  g_assert_cmpuint (looks (&s), ==, 0);
  g_assert_false (asked (&s, 7200));
  once = looks (&s);
  g_assert_cmpuint (edges (&s, -1, 7200), >, 100);
  g_assert_cmpuint (once, <=, 2 * edges (&s, -1, 7200));
  for (double t = 7200; t > 0; t -= 450)
    g_assert_false (asked (&s, t));
  g_assert_cmpuint (looks (&s), ==, once);

  hob_bench_act (s.bench, act_of (&s, "7200s door=open"));
  g_assert_cmpint (hob_bench_advance (s.bench, 7203, NULL), ==, HOB_RUN_OK);
  g_assert_false (asked (&s, 7203));
  g_assert_cmpuint (looks (&s), >, once);
  g_assert_cmpuint (looks (&s), <=, once + 2 * edges (&s, 7198, 7203));
  once = looks (&s);

  hob_bench_insert (s.bench, act_of (&s, "3600s door=open"));
  g_assert_cmpint (hob_bench_advance (s.bench, 7203, NULL), ==, HOB_RUN_OK);
  g_assert_false (asked (&s, 7203));
  g_assert_cmpuint (looks (&s), <=, once + 2 * edges (&s, 3598, 7203));

  hob_bench_insert (s.bench, act_of (&s, "3610s knob-lf=light"));
  hob_bench_insert (s.bench, act_of (&s, "3620s knob-lf=off"));
  g_assert_cmpint (hob_bench_advance (s.bench, 7203, NULL), ==, HOB_RUN_OK);
  g_assert_true (asked (&s, 7203));
  stand_close (&s);
}

/* So that nobody waits at the end of a long record. */
static void
what_has_shown_is_looked_for_along_the_way (void)
{
  Stand s = stand_open ("dial-four", (const char *const[]){ SILENT, NULL }, 1);
  guint along;

  hob_bench_look_along (s.bench);
  for (double t = 10; t <= 7200; t += 10)
    g_assert_cmpint (hob_bench_advance (s.bench, t, NULL), ==, HOB_RUN_OK);
  along = looks (&s);
  g_assert_cmpuint (along, >, 100);
  g_assert_false (asked (&s, 7200));
  g_assert_cmpuint (looks (&s), ==, along);
  stand_close (&s);
}

/* A lead that is open shows where sparks are called for, and is remembered from then on; the answer
 * is the same for a time whether it is the first that is asked for or the last, and whether the
 * record was made at once or cut and made again. */
static void
the_answer_is_the_same_whoever_asks (void)
{
  static const char *const words[] = { "30s knob-lf=light", "40s knob-lf=off",
                                       "electrode-lf:lead-open", NULL };
  Stand s = stand_open ("dial-four", words, 120);
  guint shown = 0;

  for (double t = 120; t > 0; t -= 1.3)
    {
      Stand fresh = stand_open ("dial-four", words, t);

      shown += asked (&s, t);
      g_assert_cmpint (asked (&s, t), ==, asked (&fresh, t));
      stand_close (&fresh);
    }
  g_assert_cmpuint (shown, >=, 60);
  g_assert_cmpuint (shown, <=, 70);
  g_assert_true (asked (&s, 80));
  hob_bench_insert (s.bench, act_of (&s, "20s knob-rf=off"));
  hob_bench_advance (s.bench, 120, NULL);
  g_assert_false (asked (&s, 25));
  g_assert_true (asked (&s, 80));
  for (guint k = hob_run_case (s.bench->run)->acts->len; k-- > 0;)
    if (g_array_index (hob_run_case (s.bench->run)->acts, HobAct, k).ms >= 30000)
      hob_bench_remove (s.bench, k);
  hob_bench_advance (s.bench, 120, NULL);
  g_assert_false (asked (&s, 80));
  while (hob_bench_undo (s.bench))
    continue;
  hob_bench_advance (s.bench, 120, NULL);
  g_assert_true (asked (&s, 80));
  stand_close (&s);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/step-twin/two-readers-do-not-disturb-each-other",
                   two_readers_do_not_disturb_each_other);
  g_test_add_func ("/run-step-twin/nothing-new-is-nothing-to-do", nothing_new_is_nothing_to_do);
  g_test_add_func ("/run-step-twin/aged-igniter-dial", igniter_on_dial);
  g_test_add_func ("/run-step-twin/aged-igniter-board", igniter_on_board);
  g_test_add_func ("/run-step-twin/sensor-plug", sensor_plug);
  g_test_add_func ("/run-step-twin/calibration-low", calibration_low);
  g_test_add_func ("/run-step-twin/bulb-on-floor", bulb_on_floor);
  g_test_add_func ("/run-step-twin/contact-welded", contact_welded);
  g_test_add_func ("/run-step-twin/relay-welded", relay_welded);
  g_test_add_func ("/run-step-twin/stuck-spark-switch", stuck_spark_switch);
  g_test_add_func ("/run-step-twin/cracked-electrode", cracked_electrode);
  g_test_add_func ("/run-step-twin/tripped-breaker", tripped_breaker);
  g_test_add_func ("/run-step-twin/valve-stuck-open", valve_stuck_open);
  g_test_add_func ("/run-step-twin/normal-ranges", normal_ranges);
  g_test_add_func ("/run-step-twin/own-twin", own_twin);
  g_test_add_func ("/run-step-twin/same-bits", same_bits);
  g_test_add_func ("/run-step-twin/follows-the-hand", follows_the_hand);
  g_test_add_func ("/run-step-twin/the-record-is-looked-back-on-once",
                   the_record_is_looked_back_on_once);
  g_test_add_func ("/run-step-twin/what-has-shown-is-looked-for-along-the-way",
                   what_has_shown_is_looked_for_along_the_way);
  g_test_add_func ("/run-step-twin/the-answer-is-the-same-whoever-asks",
                   the_answer_is_the_same_whoever_asks);
  return g_test_run ();
}
