/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The wiring from the service to the igniter: where each connection's drop is read, what is open
 * with the plug pulled, what a GFCI minds, and what a person feels. */

#include "faulty.h"

#define INSULATED "house.gas-pipe-ohms=open"
#define BAKE "0s oven.mode=bake"
#define UNPLUGGED "0s cord.plug=out"
#define SLOTS_VOLTS "volts receptacle.line receptacle.neutral"

/* ---- Connections ---- */

/* Where the meter goes: from the panel to the igniter and back. */
static const char *const drops[] = {
  "volts receptacle.line cord.plug-line",      "volts cord.plug-line cord.lug-line",
  "volts cord.lug-line cord.line",             "volts cord.neutral cord.lug-neutral",
  "volts cord.lug-neutral cord.plug-neutral",  "volts cord.plug-neutral receptacle.neutral",
  "volts neutral.at neutral.supply",           "volts igniter-bake.a igniter-bake.lead",
  "volts receptacle.neutral receptacle.ground",
};
static const char *const at_fault[] = {
  "cord:line-blade-burned=0.5",      "cord:line-strands-broken=0.5",
  "cord:line-screw-loose=0.5",       "cord:neutral-screw-loose=0.5",
  "cord:neutral-strands-broken=0.5", "cord:neutral-blade-burned=0.5",
  "neutral:burned=0.5",              "igniter-bake:plug-burned=0.5",
  "receptacle:neutral-resistance=0.5",
};

/* All nine light late or never; the drop is at one place, and nowhere else. */
static void
each_bad_connection_has_its_own_drop (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (at_fault); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", at_fault[k], BAKE);

      for (guint d = 0; d < G_N_ELEMENTS (drops); d++)
        {
          double volts = meter (&f, 60, drops[d]);

          g_test_message ("%s: %s = %.2f V", at_fault[k], drops[d], volts);
          if (d == k)
            g_assert_cmpfloat (volts, >, 10);
          else
            g_assert_cmpfloat (volts, <, 1);
        }
      g_assert_cmpfloat (at (&f, 60, "burner-bake.flame"), ==, 0);
    }
}

/* As they are found, they drop a few volts, smell, and limp on: the oven lights, and a day of
 * baking makes them little worse. */
static void
a_typical_bad_connection_limps (void)
{
  for (guint k = 0; k < G_N_ELEMENTS (at_fault); k++)
    {
      g_autofree char *typical = g_strndup (at_fault[k], strcspn (at_fault[k], "="));
      g_auto (Faulty) f = SHIPPED ("dial-four", typical, BAKE);
      g_autofree char *wear = g_strdelimit (g_strdup (typical), ":", '\0');
      g_autofree char *open = g_strconcat (wear, ".joint-burned-open", NULL);
      double volts = meter (&f, 90, drops[k]);

      g_test_message ("%s: %.2f V, %.3f burned open", typical, volts, at (&f, 24 * 3600, open));
      g_assert_cmpfloat (volts, >, 2);
      g_assert_cmpfloat (volts, <, 7);
      g_assert_cmpfloat (at (&f, 120, "burner-bake.flame"), ==, 1);
      g_assert_cmpfloat (at (&f, 24 * 3600, open), <, 0.05);
    }
}

/* V = I·R/2: hot and neutral have half of the circuit's ohms each. */
static void
a_weak_branch_raises_neutral_above_ground (void)
{
  g_auto (Faulty) weak = SHIPPED ("dial-four", "receptacle:weak-branch=1", BAKE);
  g_auto (Faulty) normal = SHIPPED ("dial-four", BAKE);
  const char *test = "volts receptacle.neutral receptacle.ground";

  assert_near (meter (&weak, 300, test), 1.75 / 2 * meter (&weak, 300, "amps cord.plug-neutral"),
               0.05);
  g_assert_cmpfloat (meter (&weak, 300, test), >, 2.5);
  g_assert_cmpfloat (meter (&normal, 300, test), <, 0.6);
}

/* ---- The plug ---- */

static void
pulled_out_the_blades_belong_to_the_range (void)
{
  static const struct
  {
    const char *fault, *test;
  } ways[] = {
    { "cord:neutral-pinched", "ohms cord.plug-neutral chassis.body" },
    { "cord:line-pinched", "ohms cord.plug-line chassis.body" },
    { "igniter-bake:line-lead-chafed", "ohms igniter-bake.lead chassis.body" },
  };
  g_auto (Faulty) normal = SHIPPED ("dial-four", UNPLUGGED);
  g_auto (Faulty) open = SHIPPED ("dial-four", "cord:ground-open", UNPLUGGED);

  for (guint k = 0; k < G_N_ELEMENTS (ways); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", ways[k].fault, UNPLUGGED);

      g_assert_cmpfloat (meter (&f, 1, ways[k].test), <, 0.5);
      g_assert_cmpfloat (meter (&normal, 1, ways[k].test), ==, INFINITY);
    }
  g_assert_cmpfloat (meter (&normal, 1, "ohms cord.plug-ground chassis.body"), <, 0.2);
  g_assert_cmpfloat (meter (&open, 1, "ohms cord.plug-ground chassis.body"), ==, INFINITY);
  /* and the slots stay the house's */
  assert_near (meter (&normal, 1, "volts cord.slot-line cord.slot-neutral"), 120, 0.1);
  g_assert_cmpfloat (meter (&normal, 1, "volts cord.plug-line cord.plug-neutral"), <, 1e-6);
}

/* Reversed, with a bootleg ground, on a gas pipe that insulates: the chassis is at line voltage.
 * With the plug pulled only ghost voltage is left, which nobody feels. */
static void
the_chassis_is_live_by_a_bootleg_ground_until_it_is_unplugged (void)
{
  const char *const test = "volts chassis.body house.earth";
  g_auto (Faulty) in = SHIPPED ("dial-four", "receptacle:bootleg-ground", "receptacle:reversed",
                                INSULATED);
  g_auto (Faulty) out = SHIPPED ("dial-four", "receptacle:bootleg-ground", "receptacle:reversed",
                                 INSULATED, "0s cord.plug=out", "10s person=chassis");

  g_test_message ("in %.1f V, out %.3f V", meter (&in, 5, test), meter (&out, 5, test));
  assert_near (meter (&in, 5, test), 120, 0.5);
  g_assert_cmpfloat (meter (&out, 5, test), <, 40);
  g_assert_cmpfloat (at (&out, 11, "person.felt"), <, 10e-6);
  g_assert_cmpfloat (meter (&out, 11, test), <, 0.1);
}

/* ---- The service ---- */

/* Two legs in series across 240 V. */
static void
with_the_house_neutral_open_volts_follow_the_loads_of_both_legs (void)
{
  const char *const test = "volts receptacle.line receptacle.neutral";
  g_auto (Faulty) open = SHIPPED ("dial-four", "house:neutral-open", "5s oven.mode=bake");
  g_auto (Faulty) joint
      = SHIPPED ("dial-four", "receptacle:neutral-resistance=0.5", "5s oven.mode=bake");
  double before = meter (&open, 4, test), with_oven = meter (&open, 60, test);

  hob_case_setting (open.acts, "house.other-leg-watts=3000@100s", NULL);
  g_test_message ("%.1f V, %.1f V with the oven, %.1f V with more on the other leg", before,
                  with_oven, meter (&open, 110, test));
  g_assert_cmpfloat (before, >, 140);
  g_assert_cmpfloat (with_oven, <, before - 15);
  /* not so where only one receptacle's connection is bad: its volts never rise above the panel's,
   * and its neutral is far from ground under load */
  g_assert_cmpfloat (meter (&joint, 4, test), <, 120.1);
  g_assert_cmpfloat (meter (&joint, 60, "volts receptacle.neutral receptacle.ground"), >, 10);
  g_assert_cmpfloat (meter (&open, 60, "volts receptacle.neutral receptacle.ground"), <, 1);
}

/* The gas pipe is a way back to the transformer, and the range's ground wire and connector lead to
 * it: amperes where none belong.  A fitting that insulates stops them. */
static void
with_the_house_neutral_open_current_returns_by_the_gas_pipe (void)
{
  g_auto (Faulty) open = SHIPPED ("dial-four", "house:neutral-open");
  g_auto (Faulty) insulated = SHIPPED ("dial-four", "house:neutral-open", INSULATED);
  g_auto (Faulty) normal = SHIPPED ("dial-four", "0s knob-lf=off");
  double volts = meter (&open, 4, SLOTS_VOLTS) - 120;

  g_test_message ("%.2f A, insulated %.2g A, normal %.2g A", meter (&open, 4, "amps w9"),
                  meter (&insulated, 4, "amps w9"), meter (&normal, 4, "amps w9"));
  /* the shift of neutral over the main's 12 Ω and the pipe's 2; some takes the pipe's own bond */
  assert_near (meter (&open, 4, "amps w9"), volts / 14, 0.15 * volts / 14);
  g_assert_cmpfloat (meter (&open, 4, "amps w9"), >, 1);
  g_assert_cmpfloat (meter (&insulated, 4, "amps w9"), <, 1e-4);
  g_assert_cmpfloat (meter (&normal, 4, "amps w9"), <, 1e-3);
}

static void
it_changes_while_another_load_comes_on (void)
{
  const char *const test = "volts receptacle.line receptacle.neutral";
  g_auto (Faulty) open = SHIPPED ("dial-four", "house:neutral-open",
                                  "house.other-leg-watts=3000@100s");
  g_auto (Faulty) normal = SHIPPED ("dial-four", "house.other-leg-watts=3000@100s");

  g_assert_cmpfloat (meter (&open, 101, test), >, meter (&open, 99, test) + 20);
  assert_near (meter (&normal, 101, test), meter (&normal, 99, test), 0.1);
}

/* The flame's direct current has no way back to a neutral that nothing grounds. */
static void
on_a_generator_with_a_floating_neutral_the_sparks_never_stop (void)
{
  g_auto (Faulty) f = SHIPPED ("reignite-six", "house:neutral-floats", "1s knob-lf=high");
  g_auto (Faulty) normal = SHIPPED ("reignite-six", "1s knob-lf=high");

  g_assert_cmpfloat (at (&f, 30, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 30, "module.rate"), >, 1);
  g_assert_cmpfloat (at (&f, 30, "module.flame-current"), <, 0.1e-6);
  g_assert_cmpfloat (at (&normal, 30, "module.rate"), ==, 0);
  g_assert_cmpfloat (meter (&f, 30, "volts receptacle.neutral receptacle.ground"), >, 10);
  g_assert_cmpfloat (meter (&normal, 30, "volts receptacle.neutral receptacle.ground"), <, 1);
}

/* ---- A person ---- */

/* I = V/R by the way to ground. */
static void
what_a_person_feels_follows_the_way_to_ground (void)
{
  static const struct
  {
    const char *path;
    double ohms;
  } ways[] = { { "person.path=dry-shoes", 200e3 },
               { "person.path=dry-tile", 20e3 },
               { "person.path=damp", 2e3 },
               { "person.path=sink", 1e3 } };

  for (guint k = 0; k < G_N_ELEMENTS (ways); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", "receptacle:bootleg-ground", "receptacle:reversed",
                                   INSULATED, ways[k].path, "1s person=chassis");

      g_test_message ("%s: %.2f mA", ways[k].path, 1e3 * at (&f, 2, "person.felt"));
      assert_near (at (&f, 2, "person.felt"), 120 / ways[k].ohms, 0.02 * 120 / ways[k].ohms);
    }
}

/* ---- GFCI ---- */

/* Its second coil sees neutral on the chassis without any load, down to 4 Ω; at 5 Ω it takes the
 * oven's current. */
static void
a_gfci_trips_on_a_grounded_neutral_with_everything_off (void)
{
  g_auto (Faulty) hard = SHIPPED ("reignite-six", "cord:neutral-pinched=1");
  g_auto (Faulty) five
      = SHIPPED ("reignite-six", "cord:neutral-pinched=0.2314", "60s oven.mode=bake");
  g_auto (Faulty) normal = SHIPPED ("reignite-six", "5s oven.mode=bake");

  g_assert_cmpfloat (at (&hard, 2, "interrupter.tripped"), ==, 1);
  g_test_message ("5 ohm: %.2f mA off", 1e3 * at (&five, 50, "interrupter.leakage"));
  g_assert_cmpfloat (at (&five, 50, "interrupter.leakage"), >, 3e-3);
  g_assert_cmpfloat (at (&five, 50, "interrupter.tripped"), ==, 0);
  g_assert_cmpfloat (at (&five, 62, "interrupter.tripped"), ==, 1);
  g_assert_cmpfloat (at (&normal, 600, "interrupter.tripped"), ==, 0);
  g_assert_cmpfloat (at (&normal, 600, "interrupter.leakage"), <, 0.5e-3);
}

/* A button that is held down closes it once. */
/* At 4 Ω even a unit of 6 mA trips; a person gets no more than a nip. */
static void
a_gfci_is_as_sensitive_and_as_quick_as_in_life (void)
{
  g_auto (Faulty) late = SHIPPED ("reignite-six", "interrupter.threshold=6 mA",
                                  "cord:neutral-pinched=0.2687");
  g_auto (Faulty) held
      = SHIPPED ("reignite-six", "receptacle:ground-open", "cord:line-pinched", INSULATED,
                 "2s person=chassis");

  g_test_message ("%.2f mA through the pinch", 1e3 * at (&late, 0, "interrupter.leakage"));
  g_assert_cmpfloat (at (&late, 5, "interrupter.tripped"), ==, 1);
  g_assert_cmpfloat (at (&held, 2.01, "person.felt"), >, 30e-3);
  g_assert_cmpfloat (at (&held, 2.05, "interrupter.tripped"), ==, 1);
  g_assert_cmpfloat (at (&held, 2.05, "person.felt"), <, 0.5e-3);
}

static void
a_gfci_is_trip_free (void)
{
  g_auto (Faulty) held = SHIPPED ("reignite-six", "cord:neutral-pinched", "10s interrupter=reset");
  g_auto (Faulty) fixed = SHIPPED ("reignite-six", "cord:neutral-pinched@0..5",
                                   "10s interrupter=reset", "12s interrupter=set");
  double most = 0;

  for (double t = 11; t < 60; t += 0.5)
    {
      g_assert_cmpfloat (at (&held, t, "interrupter.tripped"), ==, 1);
      most = fmax (most, meter (&held, t, "volts receptacle.line receptacle.neutral"));
    }
  g_assert_cmpfloat (most, <, 1);
  g_assert_cmpfloat (at (&fixed, 60, "interrupter.tripped"), ==, 0);
}

static void
one_that_trips_too_easily_trips_on_sparks_and_not_on_the_oven (void)
{
  g_auto (Faulty) sparks = SHIPPED ("reignite-six", "interrupter:sensitive", "5s knob-lf=high");
  g_auto (Faulty) oven = SHIPPED ("reignite-six", "interrupter:sensitive", "5s oven.mode=bake");
  g_auto (Faulty) normal = SHIPPED ("reignite-six", "5s knob-lf=high");

  g_assert_cmpfloat (at (&sparks, 10, "interrupter.tripped"), ==, 1);
  g_assert_cmpfloat (at (&oven, 120, "interrupter.tripped"), ==, 0);
  g_assert_cmpfloat (at (&normal, 10, "interrupter.tripped"), ==, 0);
}

/* ---- The igniter's plug and leads ---- */

/* In the hottest kitchen too it is whole as long as the oven is cold. */
static void
a_plug_that_opens_hot_works_cold_and_fails_hot (void)
{
  g_auto (Faulty) summer = SHIPPED ("dial-four", "igniter-bake:plug-opens-hot=1",
                                    "house.temperature=40 degC", BAKE);
  g_auto (Faulty) f = SHIPPED ("dial-four", "igniter-bake:plug-opens-hot", BAKE);
  g_auto (Faulty) open = SHIPPED ("dial-four", "igniter-bake:open", BAKE);

  g_assert_cmpfloat (at (&summer, 60, "burner-bake.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 200, "burner-bake.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 1250, "burner-bake.flame"), ==, 0);
  /* line voltage at the plug; at an open igniter it is behind the plug */
  g_assert_cmpfloat (meter (&f, 1250, "volts igniter-bake.a igniter-bake.lead"), >, 110);
  g_assert_cmpfloat (meter (&f, 1250, "volts igniter-bake.lead igniter-bake.b"), <, 1);
  g_assert_cmpfloat (meter (&open, 60, "volts igniter-bake.a igniter-bake.lead"), <, 1);
  g_assert_cmpfloat (meter (&open, 60, "volts igniter-bake.lead igniter-bake.b"), >, 110);
}

static int
openings (const char *fault, guint64 seed)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", fault, "0s cord.plug=out");
  int n = 0;
  gboolean was = FALSE;

  f.acts->seed = seed;
  for (double t = 1; t < 1800; t += 4)
    {
      gboolean open = meter (&f, t, "ohms igniter-bake.a igniter-bake.lead") > 1e6;

      n += open && !was;
      was = open;
    }
  return n;
}

/* From the seed: the same unit does the same, another one does not; looser is worse. */
static void
a_loose_plug_comes_and_goes (void)
{
  int a = openings ("igniter-bake:plug-loose=0.5", 1),
      b = openings ("igniter-bake:plug-loose=0.5", 2),
      slight = openings ("igniter-bake:plug-loose=0", 1),
      bad = openings ("igniter-bake:plug-loose=1", 1);

  g_test_message ("openings in half an hour: %d, %d; slight %d, bad %d", a, b, slight, bad);
  g_assert_cmpint (a, ==, openings ("igniter-bake:plug-loose=0.5", 1));
  g_assert_cmpint (a, >, 3);
  g_assert_cmpint (b, >, 3);
  g_assert_cmpint (slight, <, a);
  g_assert_cmpint (bad, >, a);
}

static void
a_plug_can_open_when_the_door_is_slammed (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "igniter-bake:plug-opens-slammed", BAKE,
                               "200s door=open", "210s door=closed");

  g_assert_cmpfloat (at (&f, 205, "igniter-bake.current"), >, 3);
  g_assert_cmpfloat (at (&f, 215, "igniter-bake.current"), <, 0.01);
}

/* Before the load it is a short; behind it the igniter glows brighter than ever, and the valve gets
 * nothing. */
static void
a_chafed_lead_is_a_short_before_the_load_and_a_bypass_behind_it (void)
{
  g_auto (Faulty) before = SHIPPED ("dial-four", "igniter-bake:line-lead-chafed", BAKE);
  g_auto (Faulty) behind = SHIPPED ("dial-four", "igniter-bake:valve-lead-chafed", BAKE);
  g_auto (Faulty) stuck = SHIPPED ("dial-four", "valve-bake:stuck-closed", BAKE);
  g_auto (Faulty) normal = SHIPPED ("dial-four", BAKE);

  g_assert_cmpfloat (at (&before, 1, "breaker.tripped"), ==, 1);
  g_assert_cmpfloat (at (&behind, 200, "burner-bake.flame"), ==, 0);
  g_assert_cmpfloat (at (&behind, 200, "igniter-bake.current"), >,
                     at (&normal, 30, "igniter-bake.current"));
  g_assert_cmpfloat (meter (&behind, 200, "volts valve-bake.a valve-bake.b"), <, 1);
  g_assert_cmpfloat (meter (&stuck, 200, "volts valve-bake.a valve-bake.b"), >, 3);
}

/* ---- The sensor's plug ---- */

/* 60 Ω in it: at the control's side they are read, on the sensor's own side they are not. */
static void
the_sensor_reads_normal_on_its_own_side_of_a_corroded_plug (void)
{
  g_auto (Faulty) f = SHIPPED ("board-five", "sensor:plug-corroded", UNPLUGGED);
  g_auto (Faulty) drifted = SHIPPED ("board-five", "sensor:drifted", UNPLUGGED);
  g_auto (Faulty) normal = SHIPPED ("board-five", UNPLUGGED);
  double own = meter (&normal, 1, "ohms sensor.own sensor.b");

  assert_near (meter (&f, 1, "ohms sensor.a sensor.b") - own, 60, 0.5);
  assert_near (meter (&f, 1, "ohms sensor.own sensor.b"), own, 0.1);
  g_assert_cmpfloat (meter (&drifted, 1, "ohms sensor.own sensor.b"), >, own + 30);
}

/* ---- Controls and modules ---- */

/* It comes back off, says so, and does not cook until it is set again. */
static void
a_board_comes_back_off_after_an_outage (void)
{
  g_auto (Faulty) board = SHIPPED ("board-five", "10s oven.mode=bake", "600s breaker=off",
                                   "605s breaker=on", "900s oven.mode=off", "901s oven.mode=bake");
  g_auto (Faulty) dial
      = SHIPPED ("dial-four", "10s oven.mode=bake", "600s breaker=off", "605s breaker=on");

  g_assert_cmpfloat (at (&board, 599, "igniter-bake.current"), >, 2);
  g_assert_cmpfloat (at (&board, 800, "igniter-bake.current"), <, 0.01);
  g_assert_cmpfloat (at (&board, 800, "oven.display"), ==, 8);
  g_assert_cmpfloat (at (&board, 960, "igniter-bake.current"), >, 2);
  g_assert_cmpfloat (at (&dial, 680, "igniter-bake.current"), >, 2);
}

/* A circuit of 10 Ω drops the control out at the first call; it stays off. */
static void
a_board_does_not_restart_for_ever_on_a_weak_circuit (void)
{
  g_auto (Faulty) f = SHIPPED ("board-five", "receptacle.source-ohms=20", "house.leg-watts=10",
                               "10s oven.mode=bake");
  int starts = 0;
  double before = 1;

  for (double t = 11; t < 600; t += 0.5)
    {
      double powered = at (&f, t, "oven.display") > 0;

      starts += powered > before;
      before = powered;
    }
  g_test_message ("%d restarts", starts);
  g_assert_cmpint (starts, <=, 1);
}

static void
a_dead_line_relay_has_the_line_across_it (void)
{
  g_auto (Faulty) f = SHIPPED ("convection-fan", "oven:line-relay-open", "10s oven.mode=bake");
  g_auto (Faulty) bake = SHIPPED ("convection-fan", "oven:relay-open", "10s oven.mode=bake");

  g_assert_cmpfloat (meter (&f, 60, "volts oven.line oven.mid"), >, 110);
  g_assert_cmpfloat (meter (&bake, 60, "volts oven.line oven.mid"), <, 1);
  g_assert_cmpfloat (meter (&bake, 60, "volts oven.mid oven.bake"), >, 110);
}

/* Each of the two inputs watches the other's burner. */
static void
crossed_spark_leads_show_on_a_module_that_watches (void)
{
  g_auto (Faulty) one = SHIPPED ("reignite-six", "module:leads-crossed", "1s knob-lf=high");
  g_auto (Faulty) both
      = SHIPPED ("reignite-six", "module:leads-crossed", "1s knob-lf=high", "1s knob-lr=high");
  g_auto (Faulty) other = SHIPPED ("reignite-six", "module:leads-crossed", "1s knob-rf=high");

  g_assert_cmpfloat (at (&one, 30, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&one, 30, "module.rate"), >, 1);
  g_assert_cmpfloat (at (&both, 30, "module.rate"), ==, 0);
  g_assert_cmpfloat (at (&other, 30, "module.rate"), ==, 0);
}

/* ---- The house in time ---- */

/* Dried over night, what a spill has left is woken by the steam of a kettle, in one run, and dries
 * again. */
static void
a_kettle_wakes_a_switch_that_has_dried (void)
{
  g_auto (Faulty) f
      = SHIPPED ("lp-four", "switch-lf:wet=1", "30000s kettle=on", "34000s kettle=off");
  double dry = at (&f, 29900, "switch-lf.water"), damp = at (&f, 29900, "house.humidity");

  g_test_message ("water %.4f at %.0f%%, with steam %.4f at %.0f%%, later %.4f at %.0f%%", dry,
                  100 * damp, at (&f, 34000, "switch-lf.water"),
                  100 * at (&f, 34000, "house.humidity"), at (&f, 70000, "switch-lf.water"),
                  100 * at (&f, 70000, "house.humidity"));
  g_assert_cmpfloat (fabs (damp - 0.5), <, 0.001);
  g_assert_cmpfloat (at (&f, 34000, "house.humidity"), >, 0.8);
  g_assert_cmpfloat (at (&f, 34000, "switch-lf.water"), >, 1.5 * dry);
  g_assert_cmpfloat (at (&f, 70000, "house.humidity"), <, 0.52);
  g_assert_cmpfloat (at (&f, 70000, "switch-lf.water"), <, at (&f, 34000, "switch-lf.water"));
}

/* 0.2 kg of water has boiled away when its heat of evaporation has gone in: it steams no longer and
 * takes no current, until it is filled again. */
static void
a_kettle_boils_dry (void)
{
  g_auto (Faulty) f = SHIPPED ("lp-four", "kettle.water=0.2 kg", "0s kettle=on",
                               "3600s kettle=off", "3601s kettle=on");
  double amps = at (&f, 200, "kettle.current");
  double watt = amps * amps * 120 * 120 / 1200;
  double lost = 372.15 - 298.15; /* 1 W/K */
  double dry = 0.2 * 2.257e6 / (watt - lost) + 0.2 * 4186 * lost / (watt - lost / 2);

  g_test_message ("%.0f W, dry at about %.0f s; humidity %.0f%% then, %.0f%% an hour later", watt,
                  dry, 100 * at (&f, dry, "house.humidity"), 100 * at (&f, 3590, "house.humidity"));
  g_assert_cmpfloat (at (&f, 0.95 * dry, "kettle.current"), >, 0.99 * amps);
  g_assert_cmpfloat (at (&f, 1.05 * dry, "kettle.current"), ==, 0);
  g_assert_cmpfloat (at (&f, 3590, "house.humidity"), <, at (&f, dry, "house.humidity") - 0.1);
  g_assert_cmpfloat (at (&f, 3700, "kettle.current"), >, 0.99 * amps);
}

/* What steam has added to the humidity at t s. */
static double
steam (Faulty *f, double t)
{
  return at (f, t, "house.humidity") - 0.5;
}

/* It fills the kitchen and leaves with the kitchen's air: two changes an hour, more with a window
 * open, less damp where there is more room. */
static void
steam_leaves_with_the_kitchens_air (void)
{
  g_auto (Faulty) f = SHIPPED ("lp-four", "0s kettle=on", "1200s kettle=off");
  g_auto (Faulty) open
      = SHIPPED ("lp-four", "0s kettle=on", "1200s kettle=off", "1200s house.window=open");
  g_auto (Faulty) large
      = SHIPPED ("lp-four", "house.kitchen=120", "0s kettle=on", "1200s kettle=off");

  g_test_message ("%.1f%% more; in a large kitchen %.1f%%; %.1f%%, with the window open %.1f%%",
                  100 * steam (&f, 1300), 100 * steam (&large, 1300), 100 * steam (&f, 3100),
                  100 * steam (&open, 3100));
  g_assert_cmpfloat_with_epsilon (steam (&f, 3100) / steam (&f, 1300), exp (-1), 0.02);
  g_assert_cmpfloat (steam (&open, 3100), <, 0.5 * steam (&f, 3100));
  g_assert_cmpfloat_with_epsilon (steam (&large, 1300) / steam (&f, 1300), 0.5, 0.01);
}

/* Line volts, the kitchen's temperature and the gas supply, each set anew in one run. */
static void
conditions_of_the_house_take_their_course (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "receptacle.volts=105 V@60s", "house.temperature=283.15 K@60s",
                 "house.humidity=80 %@60s", "house.gas-pressure=900 Pa@60s");

  g_assert_cmpfloat (meter (&f, 59, SLOTS_VOLTS) - meter (&f, 61, SLOTS_VOLTS), >, 14);
  g_assert_cmpfloat (at (&f, 59, "house.air") - at (&f, 61, "house.air"), >, 14);
  assert_near (at (&f, 61, "house.humidity"), 0.8, 0.001); /* the oven is warmer */
  g_assert_cmpfloat (at (&f, 59, "house.pressure"), >, at (&f, 61, "house.pressure") + 500);
}

/* ---- Too much ---- */

#define LOST_NEUTRAL "house:neutral-open", "house.other-leg-watts=6000"
#define LIGHT_ON "0s oven.light=on"

/* 200 V of a lost neutral, while the other leg carries most of the house. */
static void
lost_neutral_volts_break_what_is_made_for_120 (void)
{
  g_auto (Faulty) board = SHIPPED ("board-five", LOST_NEUTRAL, LIGHT_ON, BAKE);
  g_auto (Faulty) dial = SHIPPED ("dial-four", LOST_NEUTRAL, BAKE);
  g_auto (Faulty) mild
      = SHIPPED ("board-five", "house:neutral-open", LIGHT_ON, "10s oven.mode=bake");

  /* the control goes before anything glows, and does not come back at 120 V */
  g_assert_cmpfloat (meter (&board, 1.5, SLOTS_VOLTS), >, 190);
  assert_near (at (&board, 1.5, "light.shines"), pow (meter (&board, 1.5, SLOTS_VOLTS) / 120, 3.4),
               0.1);
  g_assert_cmpfloat (at (&board, 1.5, "oven.display"), >, 0);
  g_assert_cmpfloat (at (&board, 5, "oven.display"), ==, 0);
  g_assert_cmpfloat (at (&board, 60, "igniter-bake.current"), <, 1e-6);
  /* without one, the igniter glows, lights, and cracks within its first cycle */
  g_test_message ("%.1f V, igniter %.0f K at 12 s, %.2f A at 60 s", meter (&dial, 12, SLOTS_VOLTS),
                  at (&dial, 12, "igniter-bake.temperature"),
                  at (&dial, 60, "igniter-bake.current"));
  g_assert_cmpfloat (at (&dial, 12, "igniter-bake.temperature"), >, 1850);
  for (double t = 12; t < 60; t++)
    g_assert_cmpfloat (at (&dial, t, "igniter-bake.temperature"), <, 1925);
  g_assert_cmpfloat (at (&dial, 60, "igniter-bake.current"), <, 1e-3);
  /* 143 V are hard on it all, and nothing breaks at once */
  g_assert_cmpfloat (at (&mild, 9, "light.shines"), >, 1.5);
  g_assert_cmpfloat (at (&mild, 300, "burner-bake.flame"), ==, 1);
}

/* Power back at the right volts, a burned-out control stays dark. */
static void
a_control_that_burned_out_stays_dark (void)
{
  g_auto (Faulty) f = SHIPPED ("board-five", "house:neutral-open=1@0s..10s",
                               "house.other-leg-watts=6000", "20s breaker=off", "30s breaker=on");
  g_auto (Faulty) short_surge = SHIPPED ("board-five", "house:neutral-open=1@5s..6s",
                                         "house.other-leg-watts=6000");

  g_assert_cmpfloat (at (&f, 60, "oven.display"), ==, 0);
  g_assert_cmpfloat (at (&short_surge, 60, "oven.display"), >, 0);
  /* and a dead control reads nothing */
  g_assert_true (isnan (at (&f, 60, "oven.sensed")));
  g_assert_true (isnan (at (&f, 60, "oven.ohms")));
}

/* Hot and neutral reversed, and the lead between igniter and valve on the chassis: the line is
 * across the valve's heater alone. It opens long before the breaker would. */
static void
a_valve_heater_melts_like_a_fuse (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "receptacle:reversed", "igniter-bake:valve-lead-chafed");
  g_auto (Faulty) strong = SHIPPED ("round-dial", "igniter-bake:wrong-kind",
                                    "receptacle.volts=132 V", "oven:contact-welded", BAKE);

  g_assert_cmpfloat (meter (&f, 0, "amps valve-bake"), >, 70);
  for (double t = 0; t < 0.5; t += 0.01)
    g_assert_cmpfloat (at (&f, t, "valve-bake.arm"), <, 920);
  g_assert_cmpfloat (at (&f, 0.5, "valve-bake.current"), ==, 0);
  g_assert_cmpfloat (at (&f, 60, "breaker.tripped"), ==, 0);
  /* what any igniter lets through, in an oven that runs away, does not melt it */
  g_assert_cmpfloat (at (&strong, 7200, "valve-bake.current"), >, 3.5);
}

/* A relay that is welded cannot be stopped, but the control says so. */
static void
a_control_says_that_its_oven_runs_away (void)
{
  g_auto (Faulty) welded = SHIPPED ("board-five", "oven:contact-welded", BAKE);
  g_auto (Faulty) hot = SHIPPED ("board-five", BAKE, "0s oven.dial=550 degF");
  const double overheat = 7; /* the display's value */

  g_assert_cmpfloat (at (&welded, 1800, "oven.display"), <, overheat);
  g_assert_cmpfloat (at (&welded, 5400, "oven.display"), ==, overheat);
  g_assert_cmpfloat (at (&welded, 5400, "burner-bake.flame"), ==, 1);
  for (double t = 0; t < 7200; t += 60)
    g_assert_cmpfloat (at (&hot, t, "oven.display"), <, overheat);
}

/* Whoever stands on the soil is between the house's rod and the utility's. */
static void
with_the_house_neutral_open_grounded_metal_is_live (void)
{
  g_auto (Faulty) mild = SHIPPED ("dial-four", "house:neutral-open", "2s person=chassis");
  g_auto (Faulty) hard = SHIPPED ("dial-four", LOST_NEUTRAL, "house.gas-pipe-ohms=50 ohm",
                                  "2s person=chassis");
  g_auto (Faulty) normal = SHIPPED ("dial-four", "2s person=chassis", BAKE);

  g_test_message ("%.1f V and %.1f V", at (&mild, 1, "chassis.volts"),
                  at (&hard, 1, "chassis.volts"));
  g_assert_cmpfloat (at (&mild, 1, "chassis.volts"), >, 10);
  g_assert_cmpfloat (at (&mild, 3, "person.felt"), >, 0.5e-3);
  g_assert_cmpfloat (at (&hard, 1, "chassis.volts"), >, 50);
  g_assert_cmpfloat (at (&hard, 1, "chassis.volts"), <, 90);
  g_assert_cmpfloat (at (&normal, 60, "person.felt"), <, 10e-6);
}

/* Kilowatts in a spot are not borne for an hour: what is too much for the wire and too little for
 * the breaker burns clear within seconds, with smoke.  What is more than that trips the breaker. */
static void
a_pinched_line_burns_clear_or_trips_the_breaker (void)
{
  static const char *const clears[][2] = {
    { "cord:line-pinched=0.1", "cord" },
    { "igniter-bake:line-lead-chafed=0.1", "igniter-bake" },
  };
  g_auto (Faulty) hard = SHIPPED ("dial-four", "cord:line-pinched");

  for (guint k = 0; k < G_N_ELEMENTS (clears); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", clears[k][0], BAKE);
      g_autofree char *smoke = g_strconcat (clears[k][1], ".joint-smoke", NULL);
      g_autofree char *heat = g_strconcat (clears[k][1], ".joint-heat", NULL);

      g_assert_cmpfloat (at (&f, 0.5, heat), >, 1000);
      g_assert_cmpfloat (at (&f, 5, smoke), ==, 1);
      g_assert_cmpfloat (at (&f, 10, heat), <, 1);
      g_assert_cmpfloat (at (&f, 60, "breaker.tripped"), ==, 0);
      g_assert_cmpfloat (at (&f, 60, "burner-bake.flame"), ==, 1);
    }
  g_assert_cmpfloat (at (&hard, 1, "breaker.tripped"), ==, 1);
}

static HobHazards
hazards_of (Faulty *f, const char *text)
{
  HobTest *test = hob_test_parse (f->range, text, NULL);
  HobReading reading = hob_reading_take (faulty_run (f, 5), test, 5);

  hob_test_free (test);
  return reading.hazards;
}

/* A ghost is not live, and other parts are expected to be. */
static void
a_meter_on_a_live_chassis_says_so (void)
{
  const char *test = "volts chassis.body house.earth";
  g_auto (Faulty) live = SHIPPED ("dial-four", "receptacle:reversed", "receptacle:bootleg-ground",
                                  "house:pipe-not-grounded");
  g_auto (Faulty) ghost = SHIPPED ("dial-four", "cord:ground-open", "house:pipe-not-grounded");

  g_assert_cmpint (hazards_of (&live, test), ==, HOB_HAZARD (SHOCK));
  g_assert_cmpint (hazards_of (&live, "volts chassis.body cord.neutral"), ==, HOB_HAZARD (SHOCK));
  g_assert_cmpfloat (meter (&ghost, 5, test), >, 10);
  g_assert_cmpint (hazards_of (&ghost, test), ==, 0);
  g_assert_cmpint (hazards_of (&live, "volts cord.line house.earth"), ==, 0);
}

/* What runs on an impedance, or glows, is wire to an ohmmeter; what begins with a rectifier is
 * nothing. */
static void
an_ohmmeter_finds_parts_at_rest (void)
{
  static const struct
  {
    const char *test;
    double least, most;
  } reads[] = {
    { "ohms fan.a fan.b lead-off", 20, 100 },
    { "ohms light.a light.b lead-off", 20, 32 },
    { "ohms oven.line oven.neutral lead-off", 300, 1200 },
    { "ohms igniter-bake.a igniter-bake.b lead-off", 40, 220 },
    { "ohms valve-bake.a valve-bake.b lead-off", 0.9, 1.1 },
    { "ohms element.a element.b lead-off", 14, 19 },
  };
  g_auto (Faulty) off = SHIPPED ("board-five", UNPLUGGED);
  g_auto (Faulty) open = SHIPPED ("board-five", "fan:open", UNPLUGGED);
  g_auto (Faulty) stuck = SHIPPED ("board-five", "fan:seized", UNPLUGGED);
  g_auto (Faulty) dead = SHIPPED ("board-five", "module:dead", UNPLUGGED);
  g_auto (Faulty) runs = SHIPPED ("board-five", "0s oven.mode=convection");
  g_auto (Faulty) hums = SHIPPED ("board-five", "fan:seized", "0s oven.mode=convection");
  g_auto (Faulty) lit = SHIPPED ("board-five", "0s oven.light=on");

  for (guint k = 0; k < G_N_ELEMENTS (reads); k++)
    {
      double ohms = meter (&off, 5, reads[k].test);

      g_test_message ("%s = %.2f", reads[k].test, ohms);
      g_assert_cmpfloat (ohms, >, reads[k].least);
      g_assert_cmpfloat (ohms, <, reads[k].most);
    }
  g_assert_true (isinf (meter (&open, 5, reads[0].test)));
  assert_near (meter (&stuck, 5, reads[0].test), meter (&off, 5, reads[0].test), 1e-6);
  g_assert_true (isinf (meter (&off, 5, "ohms module.in module.neutral lead-off")));
  g_assert_true (isinf (meter (&dead, 5, "ohms module.in module.neutral lead-off")));
  /* at work */
  assert_near (meter (&runs, 60, "amps fan"), 0.24, 0.05);
  assert_near (meter (&hums, 60, "amps fan") / meter (&runs, 60, "amps fan"), 1.4, 0.01);
  assert_near (meter (&lit, 5, "amps light"), 120 / 360., 0.02);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/electric/faults/" name, function)
  CASE ("each-bad-connection-has-its-own-drop", each_bad_connection_has_its_own_drop);
  CASE ("a-typical-bad-connection-limps", a_typical_bad_connection_limps);
  CASE ("a-weak-branch-raises-neutral-above-ground", a_weak_branch_raises_neutral_above_ground);
  CASE ("pulled-out-the-blades-belong-to-the-range", pulled_out_the_blades_belong_to_the_range);
  CASE ("the-chassis-is-live-by-a-bootleg-ground-until-it-is-unplugged",
        the_chassis_is_live_by_a_bootleg_ground_until_it_is_unplugged);
  CASE ("with-the-house-neutral-open-current-returns-by-the-gas-pipe",
        with_the_house_neutral_open_current_returns_by_the_gas_pipe);
  CASE ("with-the-house-neutral-open-volts-follow-the-loads-of-both-legs",
        with_the_house_neutral_open_volts_follow_the_loads_of_both_legs);
  CASE ("it-changes-while-another-load-comes-on", it_changes_while_another_load_comes_on);
  CASE ("on-a-generator-with-a-floating-neutral-the-sparks-never-stop",
        on_a_generator_with_a_floating_neutral_the_sparks_never_stop);
  CASE ("what-a-person-feels-follows-the-way-to-ground",
        what_a_person_feels_follows_the_way_to_ground);
  CASE ("a-gfci-trips-on-a-grounded-neutral-with-everything-off",
        a_gfci_trips_on_a_grounded_neutral_with_everything_off);
  CASE ("a-gfci-is-as-sensitive-and-as-quick-as-in-life",
        a_gfci_is_as_sensitive_and_as_quick_as_in_life);
  CASE ("a-gfci-is-trip-free", a_gfci_is_trip_free);
  CASE ("one-that-trips-too-easily-trips-on-sparks-and-not-on-the-oven",
        one_that_trips_too_easily_trips_on_sparks_and_not_on_the_oven);
  CASE ("a-plug-that-opens-hot-works-cold-and-fails-hot",
        a_plug_that_opens_hot_works_cold_and_fails_hot);
  CASE ("a-loose-plug-comes-and-goes", a_loose_plug_comes_and_goes);
  CASE ("a-plug-can-open-when-the-door-is-slammed", a_plug_can_open_when_the_door_is_slammed);
  CASE ("a-chafed-lead-is-a-short-before-the-load-and-a-bypass-behind-it",
        a_chafed_lead_is_a_short_before_the_load_and_a_bypass_behind_it);
  CASE ("the-sensor-reads-normal-on-its-own-side-of-a-corroded-plug",
        the_sensor_reads_normal_on_its_own_side_of_a_corroded_plug);
  CASE ("a-board-comes-back-off-after-an-outage", a_board_comes_back_off_after_an_outage);
  CASE ("a-board-does-not-restart-for-ever-on-a-weak-circuit",
        a_board_does_not_restart_for_ever_on_a_weak_circuit);
  CASE ("a-dead-line-relay-has-the-line-across-it", a_dead_line_relay_has_the_line_across_it);
  CASE ("crossed-spark-leads-show-on-a-module-that-watches",
        crossed_spark_leads_show_on_a_module_that_watches);
  CASE ("a-kettle-wakes-a-switch-that-has-dried", a_kettle_wakes_a_switch_that_has_dried);
  CASE ("a-kettle-boils-dry", a_kettle_boils_dry);
  CASE ("steam-leaves-with-the-kitchens-air", steam_leaves_with_the_kitchens_air);
  CASE ("conditions-of-the-house-take-their-course", conditions_of_the_house_take_their_course);
  CASE ("lost-neutral-volts-break-what-is-made-for-120",
        lost_neutral_volts_break_what_is_made_for_120);
  CASE ("a-control-that-burned-out-stays-dark", a_control_that_burned_out_stays_dark);
  CASE ("a-valve-heater-melts-like-a-fuse", a_valve_heater_melts_like_a_fuse);
  CASE ("a-control-says-that-its-oven-runs-away", a_control_says_that_its_oven_runs_away);
  CASE ("with-the-house-neutral-open-grounded-metal-is-live",
        with_the_house_neutral_open_grounded_metal_is_live);
  CASE ("a-pinched-line-burns-clear-or-trips-the-breaker",
        a_pinched_line_burns_clear_or_trips_the_breaker);
  CASE ("a-meter-on-a-live-chassis-says-so", a_meter_on_a_live_chassis_says_so);
  CASE ("an-ohmmeter-finds-parts-at-rest", an_ohmmeter_finds_parts_at_rest);
  return g_test_run ();
}
