/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What is wrong with the house's wiring, and what a meter, a hand and the breaker say to it. */

#include "faulty.h"

#define INSULATED "house.gas-pipe-ohms=open"

static const char *const slots[]
    = { "volts receptacle.line receptacle.neutral", "volts receptacle.line receptacle.ground",
        "volts receptacle.neutral receptacle.ground" };

/* Line to neutral, line to ground, neutral to ground, the range unplugged. */
static void
assert_slots (Faulty *f, double line_neutral, double line_ground, double neutral_ground)
{
  assert_near (meter (f, 1, slots[0]), line_neutral, 0.1);
  assert_near (meter (f, 1, slots[1]), line_ground, 0.1);
  assert_near (meter (f, 1, slots[2]), neutral_ground, 0.1);
}

static void
a_sound_receptacle_reads_120_120_0 (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "0s cord.plug=out");

  assert_slots (&f, 120, 120, 0);
}

static void
with_line_and_neutral_exchanged_it_reads_120_0_120 (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "0s cord.plug=out", "receptacle:reversed");

  assert_slots (&f, 120, 0, 120);
}

/* The ground hole floats: the meter's 10 MΩ see what strays bring, far from 120 V. */
static void
with_its_ground_open_only_ghost_volts_stand_there (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "0s cord.plug=out", "receptacle:ground-open");

  assert_near (meter (&f, 1, slots[0]), 120, 0.1);
  g_assert_cmpfloat (meter (&f, 1, slots[1]), <, 60);
}

static void
a_false_ground_reads_as_sound (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "0s cord.plug=out", "receptacle:bootleg-ground");

  assert_slots (&f, 120, 120, 0);
}

static void
a_false_ground_at_a_reversed_receptacle_reads_120_120_0_too (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "0s cord.plug=out", "receptacle:bootleg-ground",
                 "receptacle:reversed");

  assert_slots (&f, 120, 120, 0);
  assert_near (meter (&f, 1, "volts receptacle.ground house.earth"), 120,
               0.1); /* a separate ground shows it */
}

static void
plugged_in_there_the_chassis_is_live_where_the_pipe_insulates (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "receptacle:bootleg-ground", "receptacle:reversed",
                               INSULATED, "10s person=chassis");

  assert_near (meter (&f, 5, "volts chassis.body house.earth"), 120, 0.5);
  assert_near (at (&f, 11, "person.felt"), 0.060, 0.002);
  g_assert_cmpfloat (at (&f, 600, "breaker.tripped"), ==, 0); /* nothing else shows it */
}

static void
plugged_in_there_the_breaker_trips_where_the_pipe_conducts (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "receptacle:bootleg-ground", "receptacle:reversed");

  g_assert_cmpfloat (at (&f, 1, "receptacle.current"), >,
                     40); /* 120 V on 2 Ω of pipe and the branch */
  g_assert_cmpfloat (at (&f, 60, "breaker.tripped"), ==, 1);
  assert_near (meter (&f, 60, "volts chassis.body house.earth"), 0, 0.1);
}

static void
a_ground_that_is_open_shows_nothing_while_the_pipe_conducts (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "receptacle:ground-open", "0s oven.mode=bake", "50s person=chassis");
  g_auto (Faulty) sound = SHIPPED ("dial-four", "0s oven.mode=bake", "50s person=chassis");

  assert_near (at (&f, 100, "igniter-bake.current"), at (&sound, 100, "igniter-bake.current"),
               1e-4);
  g_assert_cmpfloat (at (&f, 100, "burner-bake.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 60, "person.felt"), <, 1e-6);
}

/* A conductor pinched against the metal at a reversed receptacle: who gets the current is who
 * grounds the chassis. */
static void
it_tingles_only_when_nothing_grounds_the_chassis (void)
{
  static const struct
  {
    const char *ground, *pipe;
    gboolean felt;
  } ways[] = {
    { "receptacle:reversed", "house.gas-pipe-ohms=2", FALSE },
    { "receptacle:reversed", INSULATED, FALSE },
    { "receptacle:ground-open", "house.gas-pipe-ohms=2", FALSE },
    { "receptacle:ground-open", INSULATED, TRUE },
    { "cord:ground-open", INSULATED, TRUE },
    { "cord:ground-open", "house.gas-pipe-ohms=2", FALSE },
  };

  for (guint k = 0; k < G_N_ELEMENTS (ways); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", "receptacle:reversed", "cord:neutral-pinched",
                                   ways[k].ground, ways[k].pipe, "60s person=chassis");

      g_test_message ("%s, pipe %s: %g A, tripped %g", ways[k].ground, ways[k].pipe,
                      at (&f, 61, "person.felt"), at (&f, 61, "breaker.tripped"));
      if (ways[k].felt)
        g_assert_cmpfloat (at (&f, 61, "person.felt"), >, 0.5e-3);
      else
        g_assert_cmpfloat (at (&f, 61, "person.felt"), <, 5e-6); /* the service neutral's drop */
      g_assert_cmpfloat (at (&f, 61, "breaker.tripped"), ==, ways[k].felt ? 0 : 1);
    }
}

/* The milder one: a spill from a live switch to the stem leaks a few milliampere to the body. */
static void
a_spill_to_the_stem_tingles_only_when_nothing_grounds_the_chassis (void)
{
  g_auto (Faulty) bare = SHIPPED ("dial-four", "switch-lf:wet-to-stem", "receptacle:ground-open",
                                  INSULATED, "60s person=chassis");
  g_auto (Faulty) grounded
      = SHIPPED ("dial-four", "switch-lf:wet-to-stem", INSULATED, "60s person=chassis");
  g_auto (Faulty) by_pipe = SHIPPED ("dial-four", "switch-lf:wet-to-stem", "receptacle:ground-open",
                                     "60s person=chassis");

  g_test_message ("felt: %g A", at (&bare, 61, "person.felt"));
  g_assert_cmpfloat (at (&bare, 61, "person.felt"), >, 0.5e-3);
  g_assert_cmpfloat (at (&grounded, 61, "person.felt"), <, 0.05e-3);
  g_assert_cmpfloat (at (&by_pipe, 61, "person.felt"), <, 0.05e-3);
}

/* At a normal receptacle neutral and ground meet at the panel: the range works, part of its current
 * comes back through the ground, and only a GFCI minds, whether the oven is on or not. */
static void
a_pinched_neutral_is_seen_only_by_an_interrupter (void)
{
  const char *interrupter[]
      = { "<part id=\"receptacle\"",
          "<part id=\"interrupter\" kind=\"interrupter\"><at sheet=\"wiring\" x=\"200\" "
          "y=\"600\"/></part>\n  "
          "<part id=\"receptacle\"",
          "to=\"receptacle.feed\"",
          "to=\"interrupter.line-in\"",
          "from=\"receptacle.return\" to=\"house.neutral\"",
          "from=\"interrupter.neutral-in\" to=\"house.neutral\"",
          "<wire id=\"w4\"",
          "<wire id=\"wi1\" from=\"interrupter.line\" to=\"receptacle.feed\" colour=\"BK\" "
          "gauge=\"14 AWG\" length=\"0.1 m\"/>"
          "<wire id=\"wi2\" from=\"receptacle.return\" to=\"interrupter.neutral\" colour=\"WH\" "
          "gauge=\"14 AWG\" length=\"0.1 m\"/>"
          "<wire id=\"w4\"",
          NULL };
  g_auto (Faulty) plain = SHIPPED ("dial-four", "cord:neutral-pinched", "0s oven.mode=bake");
  g_auto (Faulty) guarded
      = faulty_new ("dial-four", interrupter, WORDS ("cord:neutral-pinched", "10s oven.mode=bake"));
  g_auto (Faulty) sound = faulty_new ("dial-four", interrupter, WORDS ("10s oven.mode=bake"));

  g_assert_cmpfloat (at (&plain, 100, "burner-bake.flame"), ==, 1);
  g_assert_cmpfloat (meter (&plain, 100, "amps cord.plug-ground"), >, 0.2);
  g_assert_cmpfloat (at (&plain, 100, "breaker.tripped"), ==, 0);
  g_assert_cmpfloat (at (&guarded, 1, "interrupter.tripped"), ==, 1); /* its second coil */
  g_assert_cmpfloat (at (&sound, 100, "interrupter.tripped"), ==, 0);
}

static void
with_neutral_pinched_its_blade_reads_to_the_metal_unplugged (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "cord:neutral-pinched", "0s cord.plug=out");
  g_auto (Faulty) sound = SHIPPED ("dial-four", "0s cord.plug=out");

  g_assert_cmpfloat (meter (&f, 1, "ohms cord.neutral chassis.body"), <, 0.2);
  g_assert_cmpfloat (meter (&sound, 1, "ohms cord.neutral chassis.body"), >, 1e6);
}

/* Cold and with an ohmmeter's milliamp there is little; under the oven's 3 A there are volts
 * from neutral to ground, the connection heats, and the igniter needs far longer to open its
 * valve. */
static void
a_bad_neutral_joint_shows_under_load_alone (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "receptacle:neutral-resistance=0.5", "5s oven.mode=bake");
  g_auto (Faulty) cold = SHIPPED ("dial-four", "receptacle:neutral-resistance=0.5",
                                  "0s cord.plug=out", "0s breaker=off");

  assert_near (meter (&f, 4, slots[2]), 0, 0.1);
  g_assert_cmpfloat (meter (&f, 120, slots[2]), >, 5);
  g_assert_cmpfloat (at (&f, 300, "receptacle.joint-heat"), >, 15);
  g_assert_cmpfloat (at (&f, 300, "receptacle.joint-smell"), >, 0.5);
  g_assert_cmpfloat (at (&f, 300, "igniter-bake.current"), <, 3.0);
  g_assert_cmpfloat (at (&f, 65, "burner-bake.flame"), ==, 0);
  g_assert_cmpfloat (meter (&cold, 1, "ohms receptacle.neutral receptacle.return"), <, 1.5);
}

static void
without_line_nothing_glows_and_nothing_sparks (void)
{
  const char *const causes[]
      = { "receptacle:dead", "breaker:open", "0s cord.plug=out", "0s breaker=off" };

  for (guint k = 0; k < G_N_ELEMENTS (causes); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", causes[k], "1s oven.mode=bake", "1s knob-lf=light");

      g_assert_cmpfloat (at (&f, 60, "igniter-bake.current"), <, 1e-6);
      g_assert_cmpfloat (at (&f, 60, "module.rate"), ==, 0);
    }
}

static void
a_weak_breaker_trips_on_what_a_sound_one_carries_for_ever (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "breaker:weak", "0s oven.mode=bake");
  g_auto (Faulty) sound = SHIPPED ("dial-four", "0s oven.mode=bake");

  g_assert_cmpfloat (at (&f, 600, "breaker.tripped"), ==, 1);
  g_assert_cmpfloat (at (&sound, 600, "breaker.tripped"), ==, 0);
}

/* Volts at the range under the oven's load; an igniter with 18% more resistance is one that 110 V
 * no longer serves. */
static void
a_long_thin_cord_takes_volts_and_a_tired_igniter_fails_on_it (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "cord:thin-extension=1", "igniter-bake:aged=0.3",
                               "receptacle.volts=115 V", "0s oven.mode=bake");
  g_auto (Faulty) without = SHIPPED ("dial-four", "igniter-bake:aged=0.3",
                                     "receptacle.volts=115 V", "0s oven.mode=bake");

  g_assert_cmpfloat (at (&without, 300, "burner-bake.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 300, "burner-bake.flame"), ==, 0);
  g_assert_cmpfloat (meter (&f, 300, "volts receptacle.line receptacle.neutral")
                         - meter (&f, 300, "volts cord.line cord.neutral"),
                     >, 2.5);
}

/* A kettle of 1,200 W in the other half of the receptacle. */
static void
it_fails_only_while_another_load_drags_the_branch_down (void)
{
  const char *kettle[] = { "<part id=\"cord\"",
                           "<part id=\"kettle\" kind=\"branch-load\"><at sheet=\"wiring\" "
                           "x=\"400\" y=\"320\"/></part>\n  <part id=\"cord\"",
                           "<wire id=\"w5\"",
                           "<wire id=\"wk1\" from=\"receptacle.line\" to=\"kettle.a\" "
                           "colour=\"BK\" gauge=\"14 AWG\" length=\"0.1 m\"/>"
                           "<wire id=\"wk2\" from=\"receptacle.neutral\" to=\"kettle.b\" "
                           "colour=\"WH\" gauge=\"14 AWG\" length=\"0.1 m\"/>"
                           "<wire id=\"w5\"",
                           NULL };
  g_auto (Faulty) alone = faulty_new (
      "dial-four", kettle,
      WORDS ("receptacle:weak-branch=0.4", "igniter-bake:aged=0.3", "0s oven.mode=bake"));
  g_auto (Faulty) beside
      = faulty_new ("dial-four", kettle,
                    WORDS ("receptacle:weak-branch=0.4", "igniter-bake:aged=0.3", "0s kettle=on",
                           "0s oven.mode=bake", "300s kettle=off"));

  g_assert_cmpfloat (at (&alone, 290, "burner-bake.flame"), ==, 1);
  g_assert_cmpfloat (at (&beside, 290, "burner-bake.flame"), ==, 0);
  g_assert_cmpfloat (at (&beside, 290, "igniter-bake.current"), <,
                     at (&alone, 290, "igniter-bake.current") - 0.1);
  g_assert_cmpfloat (at (&beside, 500, "burner-bake.flame"), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/house/faults/" name, function)
  CASE ("a-sound-receptacle-reads-120-120-0", a_sound_receptacle_reads_120_120_0);
  CASE ("with-line-and-neutral-exchanged-it-reads-120-0-120",
        with_line_and_neutral_exchanged_it_reads_120_0_120);
  CASE ("with-its-ground-open-only-ghost-volts-stand-there",
        with_its_ground_open_only_ghost_volts_stand_there);
  CASE ("a-false-ground-reads-as-sound", a_false_ground_reads_as_sound);
  CASE ("a-false-ground-at-a-reversed-receptacle-reads-120-120-0-too",
        a_false_ground_at_a_reversed_receptacle_reads_120_120_0_too);
  CASE ("plugged-in-there-the-chassis-is-live-where-the-pipe-insulates",
        plugged_in_there_the_chassis_is_live_where_the_pipe_insulates);
  CASE ("plugged-in-there-the-breaker-trips-where-the-pipe-conducts",
        plugged_in_there_the_breaker_trips_where_the_pipe_conducts);
  CASE ("a-ground-that-is-open-shows-nothing-while-the-pipe-conducts",
        a_ground_that_is_open_shows_nothing_while_the_pipe_conducts);
  CASE ("it-tingles-only-when-nothing-grounds-the-chassis",
        it_tingles_only_when_nothing_grounds_the_chassis);
  CASE ("a-spill-to-the-stem-tingles-only-when-nothing-grounds-the-chassis",
        a_spill_to_the_stem_tingles_only_when_nothing_grounds_the_chassis);
  CASE ("a-pinched-neutral-is-seen-only-by-an-interrupter",
        a_pinched_neutral_is_seen_only_by_an_interrupter);
  CASE ("with-neutral-pinched-its-blade-reads-to-the-metal-unplugged",
        with_neutral_pinched_its_blade_reads_to_the_metal_unplugged);
  CASE ("a-bad-neutral-joint-shows-under-load-alone", a_bad_neutral_joint_shows_under_load_alone);
  CASE ("without-line-nothing-glows-and-nothing-sparks",
        without_line_nothing_glows_and_nothing_sparks);
  CASE ("a-weak-breaker-trips-on-what-a-sound-one-carries-for-ever",
        a_weak_breaker_trips_on_what_a_sound_one_carries_for_ever);
  CASE ("a-long-thin-cord-takes-volts-and-a-tired-igniter-fails-on-it",
        a_long_thin_cord_takes_volts_and_a_tired_igniter_fails_on_it);
  CASE ("it-fails-only-while-another-load-drags-the-branch-down",
        it_fails_only_while_another_load_drags_the_branch_down);
  return g_test_run ();
}
