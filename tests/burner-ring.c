/* SPDX-License-Identifier: GPL-3.0-or-later */

/* How much of the ring of a surface burner burns: ports, cap, air and flow, each by degree. */

#include "faulty.h"
#include "parts/say.h"

/* At HIGH from 8 s, at LOW from 20 s, off at 32 s. */
#define DOWN "1s knob-lf=light", "8s knob-lf=high", "20s knob-lf=low", "32s knob-lf=off"
#define AT_HIGH 19.0
#define AT_LOW 31.0
#define OFF 32.7

/* Every burner of @f, one after the other as DOWN does: a flame all round, and no sound. */
static void
assert_whole (const char *range, const char *x, const char *const *house)
{
  const char *const acts[] = { "1s knob-%s=light", "8s knob-%s=high", "20s knob-%s=low",
                               "32s knob-%s=off" };
  g_autofree char *ring = g_strdup_printf ("burner-%s.ring", x);
  g_autofree char *pop = g_strdup_printf ("burner-%s.pop", x);
  g_auto (Faulty) f = faulty_new (range, NULL, house);

  for (guint k = 0; k < G_N_ELEMENTS (acts); k++)
    {
      g_autofree char *act = hob_words_around (acts[k], x);

      faulty_add (&f, WORDS (act));
    }
  g_assert_cmpfloat (at (&f, AT_HIGH, ring), ==, 1);
  g_assert_cmpfloat (at (&f, AT_LOW, ring), ==, 1);
  g_assert_cmpfloat (at (&f, OFF, ring), ==, 0);
  g_assert_cmpfloat (at (&f, OFF, pop), ==, 0);
}

static void
a_normal_burner_has_a_flame_at_every_port_at_high_and_at_low (void)
{
  static const struct
  {
    const char *range, *burners;
  } of[] = { { "dial-four", "lf lr rf rr" },       { "board-five", "lf lr rf rr c" },
             { "lp-four", "lf lr rf rr" },         { "pair-spark-four", "lf lr rf rr" },
             { "reignite-six", "lf lr cf cr rf rr" }, { "round-dial", "lf lr rf rr" },
             { "convection-fan", "lf lr rf rr" } };

  for (guint k = 0; k < G_N_ELEMENTS (of); k++)
    {
      g_auto (GStrv) burners = g_strsplit (of[k].burners, " ", -1);

      for (int b = 0; burners[b] != NULL; b++)
        assert_whole (of[k].range, burners[b], WORDS (NULL));
    }
  /* high up, and on the least gas that a house should supply */
  assert_whole ("dial-four", "rf", WORDS ("house.altitude=7000 ft"));
  assert_whole ("dial-four", "rf", WORDS ("house.gas-pressure=5.5 inH2O"));
}

/* What burns and what rises unburned are all that flows. */
static void
what_does_not_burn_rises_unburned (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "valve-lf:low-too-low=0.65", DOWN);
  double gas, burned, unburned;

  gas = at (&f, AT_LOW, "burner-lf.gas");
  burned = at (&f, AT_LOW, "burner-lf.heat") / hob_fuels[HOB_FUEL_NATURAL].heat;
  unburned = at (&f, AT_LOW, "burner-lf.unburned");
  g_test_message ("ring %.3f, burns %.3f of its gas", at (&f, AT_LOW, "burner-lf.ring"),
                  burned / gas);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.ring"), <, 0.9);
  g_assert_cmpfloat (burned, <, 0.99 * gas);
  /* gathered gas leaves in ten seconds: it lags by that */
  g_assert_cmpfloat (fabs (gas - burned - unburned), <, 0.5 * (gas - burned));
}

static void
a_flame_goes_out_at_low_and_stays_out (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "valve-lf:low-too-low=0.8", "1s knob-lf=light",
                               "8s knob-lf=high", "20s knob-lf=low", "32s knob-lf=high");

  g_assert_cmpfloat (at (&f, AT_HIGH, "burner-lf.ring"), ==, 1);
  g_assert_cmpfloat (at (&f, 24, "burner-lf.went-out"), ==, 1);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.gas"), >, 0);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.unlit"), >, 8);
  g_assert_cmpfloat (at (&f, 40, "burner-lf.flame"), ==, 0); /* without a spark */
}

/* Too much air: the flame lifts at HIGH, travels back at LOW, and stays in the tube until the gas
 * is off. */
static void
too_much_air_flashes_back_at_low_until_the_gas_is_off (void)
{
  g_auto (Faulty) f = SHIPPED ("round-dial", "burner-lf:shutter-open=0.6", "1s knob-lf=light",
                               "8s knob-lf=high", "20s knob-lf=low", "32s knob-lf=high",
                               "40s knob-lf=off", "45s knob-lf=light", "50s knob-lf=high");

  g_assert_cmpfloat (at (&f, AT_HIGH, "burner-lf.inside"), ==, 0);
  g_assert_cmpfloat (at (&f, AT_HIGH, "burner-lf.lift"), >, 0.5);
  g_assert_cmpfloat (at (&f, 21, "burner-lf.pop"), ==, 1);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.inside"), ==, 1);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.ring"), ==, 0);
  g_assert_cmpfloat (at (&f, 39, "burner-lf.inside"), ==, 1);
  g_assert_cmpfloat (at (&f, 41, "burner-lf.inside"), ==, 0);
  g_assert_cmpfloat (at (&f, 55, "burner-lf.inside"), ==, 0);
  g_assert_cmpfloat (at (&f, 55, "burner-lf.flame"), ==, 1);
}

/* A little too much air burns well; what is left in the head pops as the gas goes. */
static void
a_little_too_much_air_pops_when_turned_off (void)
{
  g_auto (Faulty) f = SHIPPED ("round-dial", "burner-lf:shutter-open=0.05", DOWN);

  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.ring"), ==, 1);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.pop"), ==, 0);
  g_assert_cmpfloat (at (&f, OFF, "burner-lf.pop"), ==, 1);
}

/* The flame falls together at once, and at LOW it holds on the open side alone. */
static void
a_cap_knocked_off_its_seat_changes_a_burning_flame (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "burner-lf:cap-not-seated=0.5@12", DOWN);
  g_auto (Faulty) gone = SHIPPED ("dial-four", "burner-lf:cap-missing@12", DOWN);

  g_assert_cmpfloat (at (&f, AT_HIGH, "burner-lf.loading"), <,
                     0.5 * at (&f, 11, "burner-lf.loading"));
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.ring"), <, 0.7);
  g_assert_cmpfloat (at (&f, AT_LOW, "burner-lf.ring"), >, 0.3);
  g_assert_cmpfloat (at (&gone, AT_HIGH, "burner-lf.yellow"), >, 0.5);
  g_assert_cmpfloat (at (&gone, AT_LOW, "burner-lf.flame"), ==, 0);
}

/* Fewer ports: the others get more each, and the jet draws in less air. */
static void
blocked_ports_make_the_others_burn_higher_and_yellower (void)
{
  g_auto (Faulty) some = SHIPPED ("dial-four", "burner-lf:ports-blocked=0.4", DOWN);
  g_auto (Faulty) many = SHIPPED ("dial-four", "burner-lf:ports-blocked=0.8", DOWN);
  g_auto (Faulty) normal = SHIPPED ("dial-four", DOWN);

  assert_near (at (&some, AT_HIGH, "burner-lf.loading") * at (&some, AT_HIGH, "burner-lf.ring"),
               at (&normal, AT_HIGH, "burner-lf.loading"), 0.01);
  g_assert_cmpfloat (at (&many, AT_HIGH, "burner-lf.ring"), <,
                     at (&some, AT_HIGH, "burner-lf.ring"));
  g_assert_cmpfloat (at (&many, AT_HIGH, "burner-lf.yellow"), >, 0.5);
}

/* A match lights what no spark reaches, and nothing where no gas comes out. */
static void
a_match_lights_a_burner_without_a_spark (void)
{
#define DEAD "module:dead", "1s knob-lf=high"
  g_auto (Faulty) unlit = SHIPPED ("dial-four", DEAD);
  g_auto (Faulty) match = SHIPPED ("dial-four", DEAD, "4s match=burner-lf", "8s match=away");
  g_auto (Faulty) elsewhere = SHIPPED ("dial-four", DEAD, "4s match=burner-rf");
  g_auto (Faulty) tube = SHIPPED ("round-dial", "burner-lf:tube-blocked=1", "0s match=burner-lf",
                                  "1s knob-lf=light");

  g_assert_cmpfloat (at (&unlit, 10, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&match, 3.9, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&match, 4.1, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&match, 10, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&match, 10, "match.held"), ==, 0);
  g_assert_cmpfloat (at (&elsewhere, 10, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&elsewhere, 10, "burner-rf.flame"), ==, 0);
  g_assert_cmpfloat (at (&tube, 1.5, "burner-lf.flame"), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/burner/ring/" name, function)
  CASE ("a-normal-burner-has-a-flame-at-every-port",
        a_normal_burner_has_a_flame_at_every_port_at_high_and_at_low);
  CASE ("what-does-not-burn-rises-unburned", what_does_not_burn_rises_unburned);
  CASE ("a-flame-goes-out-at-low-and-stays-out", a_flame_goes_out_at_low_and_stays_out);
  CASE ("too-much-air-flashes-back-at-low",
        too_much_air_flashes_back_at_low_until_the_gas_is_off);
  CASE ("a-little-too-much-air-pops-when-turned-off", a_little_too_much_air_pops_when_turned_off);
  CASE ("a-cap-knocked-off-its-seat-changes-a-burning-flame",
        a_cap_knocked_off_its_seat_changes_a_burning_flame);
  CASE ("blocked-ports-make-the-others-burn-higher-and-yellower",
        blocked_ports_make_the_others_burn_higher_and_yellower);
  CASE ("a-match-lights-a-burner-without-a-spark", a_match_lights_a_burner_without_a_spark);
  return g_test_run ();
}
