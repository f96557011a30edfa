/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What is wrong with gas: fuel, jets, cap, pipe, regulator, connector, lever, height. */

#include "faulty.h"

/* All four top burners lit and at high after 10 s: 39,000 Btu/h by their jets. */
#define ALL_ON                                                                                     \
  "0s knob-lf=light", "0s knob-lr=light", "0s knob-rf=light", "0s knob-rr=light",                  \
      "10s knob-lf=high", "10s knob-lr=high", "10s knob-rf=high", "10s knob-rr=high"
#define ONE_ON "0s knob-lf=light", "10s knob-lf=high"
#define LP "house.fuel=lp"
/* Jets of the other gas: 0.0520 in is 0.0354 in for LP. */
#define LP_JET "burner-lf.orifice=0.0354 in"

/* A supply pipe and a furnace between the house and the gas shutoff valve. */
#define PIPE(bore, length)                                                                         \
  {                                                                                                \
    "<part id=\"shutoff\"",                                                                        \
        "<part id=\"supply\" kind=\"supply-pipe\"><set name=\"bore\" value=\"" bore                \
        "\"/><set name=\"length\" value=\"" length                                                 \
        "\"/><at sheet=\"gas\" x=\"80\" y=\"560\"/></part>"                                        \
        "<part id=\"furnace\" kind=\"house-load\"><at sheet=\"gas\" x=\"80\" "                     \
        "y=\"680\"/></part><part id=\"shutoff\"",                                                  \
        "from=\"house.gas\" to=\"shutoff.in\"",                                                    \
        "from=\"house.gas\" to=\"supply.in\" bore=\"15.8 mm\" length=\"0.1 m\"/>"                  \
        "<pipe id=\"ps\" from=\"supply.out\" to=\"furnace.in\" bore=\"15.8 mm\" length=\"0.1 "     \
        "m\"/>"                                                                                    \
        "<pipe id=\"pf\" from=\"furnace.out\" to=\"shutoff.in\"",                                  \
        NULL                                                                                       \
  }
static const char *const half_inch[] = PIPE ("15.8 mm", "20 ft");
static const char *const long_three_eighths[] = PIPE ("12.5 mm", "60 ft");
static const char *const quarter_inch[] = PIPE ("9.2 mm", "30 ft");

static double
heat_with (const char *const *words)
{
  g_auto (Faulty) f = faulty_new ("dial-four", NULL, words);

  return at (&f, 20, "burner-lf.heat");
}

static double
share (double with, const char *what)
{
  double of_sound = with / heat_with (WORDS (ONE_ON));

  g_test_message ("%s: %.4f of its heat", what, of_sound);
  return of_sound;
}

static void
a_natural_jet_on_lp_with_the_cap_turned_gives_2_15_times_the_heat (void)
{
  double heat = heat_with (WORDS (ONE_ON, LP, "regulator.cap=lp"));

  assert_near (share (heat, "natural jet on LP, cap on LP"), 2.15, 0.02);
}

static void
with_the_cap_left_at_natural_1_52_times (void)
{
  assert_near (share (heat_with (WORDS (ONE_ON, LP)), "natural jet on LP, cap on natural"), 1.52,
               0.02);
}

static void
an_lp_jet_on_natural_gas_gives_0_465_of_the_heat (void)
{
  assert_near (share (heat_with (WORDS (ONE_ON, LP_JET)), "LP jet on natural gas"), 0.465, 0.01);
}

/* The cap asks for 10 in. and the house has 7: wide open, the manifold is near the inlet
 * pressure. */
static void
natural_gas_with_the_cap_on_lp_gives_a_sixth_more_and_no_more (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", ONE_ON, "regulator:cap-turned");

  assert_near (share (at (&f, 20, "burner-lf.heat"), "natural gas, cap on LP"), 1.16, 0.02);
  g_assert_cmpfloat (at (&f, 20, "regulator.pressure"), >, 0.97 * at (&f, 20, "house.pressure"));
}

static void
too_rich_a_jet_burns_yellow_and_too_lean_a_jet_lifts (void)
{
  g_auto (Faulty) rich = SHIPPED ("dial-four", ONE_ON, LP, "regulator.cap=lp");
  g_auto (Faulty) half_rich = SHIPPED ("dial-four", ONE_ON, LP);
  g_auto (Faulty) lean = SHIPPED ("dial-four", ONE_ON, LP_JET);
  g_auto (Faulty) sound = SHIPPED ("dial-four", ONE_ON);
  g_auto (Faulty) cap = SHIPPED ("dial-four", ONE_ON, "regulator:cap-turned");

  g_assert_cmpfloat (at (&rich, 20, "burner-lf.yellow"), >, 0.5);
  g_assert_cmpfloat (at (&half_rich, 20, "burner-lf.yellow"), >, 0.5);
  g_assert_cmpfloat (at (&lean, 20, "burner-lf.lift"), >, 0.5);
  g_assert_cmpfloat (at (&lean, 20, "burner-lf.yellow"), ==, 0);
  g_assert_cmpfloat (at (&sound, 20, "burner-lf.yellow") + at (&sound, 20, "burner-lf.lift"), <,
                     0.1);
  g_assert_cmpfloat (at (&cap, 20, "burner-lf.yellow"), <,
                     0.1); /* the orifice is right: taller, but blue */
}

/* ---- The LP range ---- */

static void
on_its_own_gas_the_lp_range_burns_what_its_plate_says (void)
{
  g_auto (Faulty) f = SHIPPED ("lp-four", ALL_ON, "0s oven.mode=bake");

  assert_near (at (&f, 100, "burner-lf.heat") / (9500 * BTU_PER_HOUR), 1, 0.03);
  assert_near (at (&f, 100, "burner-lr.heat") / (5000 * BTU_PER_HOUR), 1, 0.03);
  assert_near (at (&f, 100, "burner-rf.heat") / (15000 * BTU_PER_HOUR), 1, 0.03);
  assert_near (at (&f, 100, "burner-bake.heat") / (18000 * BTU_PER_HOUR), 1, 0.03);
  assert_near (at (&f, 100, "manifold.pressure") / INCH_OF_WATER, 10, 0.5);
  g_assert_cmpfloat (at (&f, 100, "burner-lf.yellow") + at (&f, 100, "burner-lf.lift"), <, 0.2);
}

static void
put_on_natural_gas_it_burns_small_and_lifts (void)
{
  g_auto (Faulty) cap
      = SHIPPED ("lp-four", ONE_ON, "house.fuel=natural-gas", "regulator:cap-turned");
  g_auto (Faulty) sound = SHIPPED ("lp-four", ONE_ON);

  assert_near (at (&cap, 20, "burner-lf.heat") / at (&sound, 20, "burner-lf.heat"), 0.465, 0.01);
  g_assert_cmpfloat (at (&cap, 20, "burner-lf.lift"), >, 0.5);
}

static void
with_its_cap_turned_to_natural_it_burns_at_half_pressure (void)
{
  g_auto (Faulty) cap = SHIPPED ("lp-four", ONE_ON, "regulator:cap-turned");
  g_auto (Faulty) sound = SHIPPED ("lp-four", ONE_ON);

  assert_near (at (&cap, 20, "burner-lf.heat") / at (&sound, 20, "burner-lf.heat"), M_SQRT1_2,
               0.01);
}

/* A cylinder nearly empty has no pressure from the start; one too cold loses it as more is drawn.
 */
static void
a_low_cylinder_shows_standing_and_a_cold_one_only_drawn_upon (void)
{
  g_auto (Faulty) low
      = SHIPPED ("lp-four", "house:gas-low", "60s knob-lf=light", "70s knob-lf=high");
  g_auto (Faulty) cold = SHIPPED ("lp-four", "house:gas-starved", ALL_ON);
  g_auto (Faulty) resting = SHIPPED ("lp-four", "house:gas-starved");
  g_auto (Faulty) sound = SHIPPED ("lp-four", ALL_ON);

  g_assert_cmpfloat (at (&low, 30, "house.pressure"), <, 5 * INCH_OF_WATER);
  assert_near (at (&resting, 30, "house.pressure") / INCH_OF_WATER, 11, 0.1);
  g_assert_cmpfloat (at (&cold, 30, "house.pressure"), <, 5 * INCH_OF_WATER);
  g_assert_cmpfloat (at (&cold, 30, "burner-lf.heat"), <, 0.85 * at (&sound, 30, "burner-lf.heat"));
}

/* ---- The pipe ---- */

/* Darcy's loss along 30 ft of 1/4 in. at q kg/s, in. w.c.: laminar, or Haaland's for steel of 45
 * µm. */
static double
darcy (double q, gboolean laminar)
{
  const HobFuel *gas = &hob_fuels[HOB_FUEL_NATURAL];
  double bore = 9.2e-3, re = 4 * q / (G_PI * bore * gas->viscosity),
         v = 4 * q / (G_PI * bore * bore * gas->density);
  double root = -1.8 * log10 (pow (45e-6 / bore / 3.7, 1.11) + 6.9 / re);
  double f = laminar ? 64 / re : 1 / (root * root);

  return f * 9.144 / bore * gas->density * v * v / 2 / INCH_OF_WATER;
}

/* All four top burners draw at a Reynolds number of 2,800, between laminar and turbulent. */
static void
a_quarter_inch_pipe_loses_an_inch_and_more_than_twice_with_the_oven (void)
{
  g_auto (Faulty) f = faulty_new ("dial-four", quarter_inch, WORDS (ALL_ON, "20s oven.mode=bake"));
  double top = at (&f, 30, "supply.loss") / INCH_OF_WATER, top_flow = at (&f, 30, "supply.flow");
  double all = at (&f, 150, "supply.loss") / INCH_OF_WATER, all_flow = at (&f, 150, "supply.flow");

  g_test_message ("1/4 in., 30 ft: %.3f in. w.c. (laminar %.3f, turbulent %.3f), with the oven "
                  "%.3f (%.3f, %.3f)",
                  top, darcy (top_flow, TRUE), darcy (top_flow, FALSE), all, darcy (all_flow, TRUE),
                  darcy (all_flow, FALSE));
  g_assert_cmpfloat (top, >, darcy (top_flow, TRUE));
  g_assert_cmpfloat (top, <, darcy (top_flow, FALSE));
  g_assert_cmpfloat (all, >, darcy (all_flow, TRUE));
  g_assert_cmpfloat (all, <, darcy (all_flow, FALSE));
  g_assert_cmpfloat (all, >, 2 * top);
}

/* 60 ft of it.  Flames are judged by their heat: below 85% an eye sees them sink. */
static void
on_it_the_top_flames_sink_when_the_oven_lights (void)
{
  g_auto (Faulty) f = faulty_new ("dial-four", half_inch,
                                  WORDS (ALL_ON, "20s oven.mode=bake", "supply:undersized"));
  g_auto (Faulty) sound = faulty_new ("dial-four", half_inch, WORDS (ALL_ON, "20s oven.mode=bake"));
  double rated = at (&sound, 30, "burner-lf.heat");

  g_test_message ("1/4 in.: %.3f before, %.3f after; 1/2 in.: %.3f",
                  at (&f, 30, "burner-lf.heat") / rated, at (&f, 150, "burner-lf.heat") / rated,
                  at (&sound, 150, "burner-lf.heat") / rated);
  g_assert_cmpfloat (at (&f, 150, "burner-bake.flame"), ==, 1);
  g_assert_cmpfloat (at (&f, 30, "burner-lf.heat"), >, 0.85 * rated);
  g_assert_cmpfloat (at (&f, 150, "burner-lf.heat"), <, 0.85 * rated);
  g_assert_cmpfloat (at (&sound, 150, "burner-lf.heat"), >, 0.97 * rated);
}

static void
sixty_feet_of_three_eighths_hide_behind_the_regulator (void)
{
  g_auto (Faulty) f
      = faulty_new ("dial-four", long_three_eighths, WORDS (ALL_ON, "20s oven.mode=bake"));
  g_auto (Faulty) sound = faulty_new ("dial-four", half_inch, WORDS (ALL_ON, "20s oven.mode=bake"));

  g_assert_cmpfloat (at (&f, 150, "supply.loss"), >, 0.5 * INCH_OF_WATER);
  g_assert_cmpfloat (at (&f, 150, "burner-lf.heat"), >, 0.97 * at (&sound, 150, "burner-lf.heat"));
}

static void
a_furnace_on_the_same_pipe_takes_their_gas (void)
{
  g_auto (Faulty) f = faulty_new ("dial-four", long_three_eighths,
                                  WORDS (ALL_ON, "60s furnace=on", "120s furnace=off"));
  double before, during;

  before = at (&f, 50, "burner-lf.heat");
  during = at (&f, 110, "burner-lf.heat");
  g_test_message ("furnace burns %.0f Btu/h; flames %.3f of theirs, inlet %.2f in. w.c.",
                  at (&f, 110, "furnace.heat") / BTU_PER_HOUR, during / before,
                  (at (&f, 110, "house.pressure") - at (&f, 110, "supply.loss")) / INCH_OF_WATER);
  g_assert_cmpfloat (during, <, 0.85 * before);
  assert_near (at (&f, 130, "burner-lf.heat"), before, 0.01 * before);
}

/* Its pipe is large enough: nobody sees the water heater come on.  Behind a smaller one the flames
 * drop as long as it burns. */
static void
a_water_heater_pulls_the_flames_down_behind_a_small_pipe_alone (void)
{
#define HEATER "1s knob-lf=light", "8s knob-lf=high", "30s heater=on", "60s heater=off"
  g_auto (Faulty) normal = SHIPPED ("round-dial", HEATER);
  g_auto (Faulty) small = SHIPPED ("round-dial", HEATER, "supply:undersized");

  assert_near (at (&normal, 50, "heater.heat"), 40000 * BTU_PER_HOUR, 1000 * BTU_PER_HOUR);
  g_assert_cmpfloat (at (&normal, 50, "burner-lf.sank"), <, 0.03);
  assert_near (at (&small, 29, "burner-lf.heat"), at (&normal, 29, "burner-lf.heat"), 30);
  g_assert_cmpfloat (at (&small, 31, "burner-lf.sank"), >, 0.06);
  g_assert_cmpfloat (at (&small, 50, "burner-lf.heat"), <,
                     0.92 * at (&small, 29, "burner-lf.heat"));
  assert_near (at (&small, 70, "burner-lf.heat"), at (&small, 29, "burner-lf.heat"), 10);
}

/* ---- Regulator, shutoff, connector, lever ---- */

static void
a_regulator_that_creeps_shows_at_lock_up_alone (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "regulator:creeps", "60s knob-lf=light", "70s knob-lf=high");
  g_auto (Faulty) sound = SHIPPED ("dial-four", "60s knob-lf=light", "70s knob-lf=high");

  assert_near (at (&sound, 30, "manifold.pressure") / INCH_OF_WATER, 5.25, 0.01);
  assert_near (at (&f, 30, "manifold.pressure") / INCH_OF_WATER, 7, 0.01);
  assert_near (at (&f, 80, "manifold.pressure") / at (&sound, 80, "manifold.pressure"), 1, 0.02);
}

static void
a_stiff_regulator_swings_between_lock_up_and_full_draw (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "regulator:sticks=1", "60s knob-lf=off");
  g_auto (Faulty) drawn = SHIPPED ("dial-four", "regulator:sticks=1", ALL_ON, "20s oven.mode=bake");

  g_assert_cmpfloat (at (&f, 30, "manifold.pressure"), >, 6.5 * INCH_OF_WATER);
  g_assert_cmpfloat (at (&drawn, 150, "manifold.pressure"), <,
                     at (&f, 30, "manifold.pressure") - INCH_OF_WATER);
}

static void
a_shut_off_half_shut_starves_who_comes_last (void)
{
  g_auto (Faulty) one = SHIPPED ("dial-four", ONE_ON, "shutoff:half-shut");
  g_auto (Faulty) all = SHIPPED ("dial-four", ALL_ON, "20s oven.mode=bake", "shutoff:half-shut");
  double rated = heat_with (WORDS (ONE_ON));

  g_assert_cmpfloat (at (&one, 20, "burner-lf.heat"), >, 0.9 * rated);
  g_assert_cmpfloat (at (&all, 150, "burner-lf.heat"), <, 0.85 * rated);
}

static void
an_excess_flow_valve_that_trips_early_stops_all_gas_until_all_is_shut (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "connector:trips-early", "10s knob-rf=light", "30s knob-rf=off");

  g_assert_cmpfloat (at (&f, 5, "connector.tripped"), ==, 0);
  assert_near (at (&f, 5, "manifold.pressure") / INCH_OF_WATER, 5.25, 0.01);
  g_assert_cmpfloat (at (&f, 20, "connector.tripped"), ==, 1);
  g_assert_cmpfloat (at (&f, 20, "burner-rf.flame"), ==, 0);
  g_assert_cmpfloat (at (&f, 20, "manifold.pressure"), <, 0.1 * INCH_OF_WATER);
  g_assert_cmpfloat (at (&f, 40, "connector.tripped"), ==, 0);
}

static void
a_sound_one_carries_the_whole_range (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", ALL_ON, "20s oven.mode=broil");
  g_auto (Faulty) lp = SHIPPED ("dial-four", ALL_ON, "20s oven.mode=bake", LP, "regulator.cap=lp");

  g_assert_cmpfloat (at (&f, 150, "connector.tripped"), ==, 0);
  g_assert_cmpfloat (at (&lp, 150, "connector.tripped"), ==, 0);
}

static void
a_hose_that_leaks_does_so_until_the_shut_off_is_closed (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "connector:leaks", "60s shutoff=closed");

  g_assert_cmpfloat (at (&f, 30, "connector.leak"), >, 1e-6);
  g_assert_cmpfloat (at (&f, 70, "connector.leak"), <, 1e-9);
}

static void
with_the_lever_closed_full_amps_glow_and_no_gas (void)
{
  const char *const ways[] = { "0s lever=closed", "lever:left-shut" };
  g_auto (Faulty) sound = SHIPPED ("dial-four", ONE_ON, "0s oven.mode=bake");

  for (guint k = 0; k < G_N_ELEMENTS (ways); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", ways[k], ONE_ON, "0s oven.mode=bake");

      assert_near (at (&f, 100, "igniter-bake.current"), at (&sound, 100, "igniter-bake.current"),
                   0.1);
      assert_near (at (&f, 100, "valve-bake.opening"), 1, 1e-9);
      g_assert_cmpfloat (at (&f, 100, "burner-bake.gas"), <, 1e-9);
      g_assert_cmpfloat (at (&f, 100, "burner-lf.flame"), ==, 1);
    }
}

/* ---- Height ---- */

/* 5,000 ft: the jet loses the root of what the air loses, 1.8% for each 1,000 ft against 3.4%, so
 * that jets left as they are burn with less air to spare; to keep it they must give up as much as
 * the air. */
static void
high_up_the_heat_falls_with_the_root_of_the_air (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", ONE_ON, "house.altitude=5000 ft");
  double heat, air;

  heat = share (at (&f, 20, "burner-lf.heat"), "5,000 ft");
  air = hob_moment_house (f.moment)->pressure / 101325;
  g_test_message ("for each 1,000 ft heat −%.2f %%, air −%.2f %%", 20 * (1 - heat), 20 * (1 - air));
  assert_near (heat, sqrt (air), 0.005);
  assert_near (20 * (1 - heat), 1.8, 0.1);
  assert_near (20 * (1 - air), 3.4, 0.1);
  /* Primary air follows the jet of gas. */
  g_assert_cmpfloat (at (&f, 20, "burner-lf.yellow"), <, 0.1);
}

/* ---- Nothing wrong ---- */

/* A humidifier on tap water: orange flames that burn as ever. */
static void
minerals_in_the_air_color_a_flame_and_change_nothing_else (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", ONE_ON, "house.minerals=0.6");
  g_auto (Faulty) normal = SHIPPED ("dial-four", ONE_ON);

  g_assert_cmpfloat (at (&f, 20, "burner-lf.orange"), ==, 0.6);
  g_assert_cmpfloat (at (&normal, 20, "burner-lf.orange"), ==, 0);
  g_assert_cmpfloat (at (&f, 20, "burner-lf.heat"), ==, at (&normal, 20, "burner-lf.heat"));
  g_assert_cmpfloat (at (&f, 20, "burner-lf.yellow"), ==, at (&normal, 20, "burner-lf.yellow"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
#define CASE(name, function) g_test_add_func ("/gas/faults/" name, function)
  CASE ("a-natural-jet-on-lp-with-the-cap-turned-gives-2.15-times-the-heat",
        a_natural_jet_on_lp_with_the_cap_turned_gives_2_15_times_the_heat);
  CASE ("with-the-cap-left-at-natural-1.52-times", with_the_cap_left_at_natural_1_52_times);
  CASE ("an-lp-jet-on-natural-gas-gives-0.465-of-the-heat",
        an_lp_jet_on_natural_gas_gives_0_465_of_the_heat);
  CASE ("natural-gas-with-the-cap-on-lp-gives-a-sixth-more-and-no-more",
        natural_gas_with_the_cap_on_lp_gives_a_sixth_more_and_no_more);
  CASE ("too-rich-a-jet-burns-yellow-and-too-lean-a-jet-lifts",
        too_rich_a_jet_burns_yellow_and_too_lean_a_jet_lifts);
  CASE ("on-its-own-gas-the-lp-range-burns-what-its-plate-says",
        on_its_own_gas_the_lp_range_burns_what_its_plate_says);
  CASE ("put-on-natural-gas-it-burns-small-and-lifts", put_on_natural_gas_it_burns_small_and_lifts);
  CASE ("with-its-cap-turned-to-natural-it-burns-at-half-pressure",
        with_its_cap_turned_to_natural_it_burns_at_half_pressure);
  CASE ("a-low-cylinder-shows-standing-and-a-cold-one-only-drawn-upon",
        a_low_cylinder_shows_standing_and_a_cold_one_only_drawn_upon);
  CASE ("a-quarter-inch-pipe-loses-an-inch-and-more-than-twice-with-the-oven",
        a_quarter_inch_pipe_loses_an_inch_and_more_than_twice_with_the_oven);
  CASE ("on-it-the-top-flames-sink-when-the-oven-lights",
        on_it_the_top_flames_sink_when_the_oven_lights);
  CASE ("sixty-feet-of-three-eighths-hide-behind-the-regulator",
        sixty_feet_of_three_eighths_hide_behind_the_regulator);
  CASE ("a-furnace-on-the-same-pipe-takes-their-gas", a_furnace_on_the_same_pipe_takes_their_gas);
  CASE ("a-water-heater-pulls-the-flames-down-behind-a-small-pipe-alone",
        a_water_heater_pulls_the_flames_down_behind_a_small_pipe_alone);
  CASE ("a-regulator-that-creeps-shows-at-lock-up-alone",
        a_regulator_that_creeps_shows_at_lock_up_alone);
  CASE ("a-stiff-regulator-swings-between-lock-up-and-full-draw",
        a_stiff_regulator_swings_between_lock_up_and_full_draw);
  CASE ("a-shut-off-half-shut-starves-who-comes-last", a_shut_off_half_shut_starves_who_comes_last);
  CASE ("an-excess-flow-valve-that-trips-early-stops-all-gas-until-all-is-shut",
        an_excess_flow_valve_that_trips_early_stops_all_gas_until_all_is_shut);
  CASE ("a-sound-one-carries-the-whole-range", a_sound_one_carries_the_whole_range);
  CASE ("a-hose-that-leaks-does-so-until-the-shut-off-is-closed",
        a_hose_that_leaks_does_so_until_the_shut_off_is_closed);
  CASE ("with-the-lever-closed-full-amps-glow-and-no-gas",
        with_the_lever_closed_full_amps_glow_and_no_gas);
  CASE ("high-up-the-heat-falls-with-the-root-of-the-air",
        high_up_the_heat_falls_with_the_root_of_the_air);
  CASE ("minerals-in-the-air-color-a-flame",
        minerals_in_the_air_color_a_flame_and_change_nothing_else);
  return g_test_run ();
}
