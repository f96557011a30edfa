/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The air of oven, drawer and kitchen: what burns, how it is aired, what an analyzer reads. */

#include "faulty.h"

#include "parts/air.h"

#define BAKE "0s oven.mode=bake"

/* Nothing is lost or made: atoms to a millionth of what burned, gas as ever. */
static void
assert_balanced (Faulty *f, double t)
{
  double heat, turned, gas, gas_turned, oxygen, products, burnt;

  hob_run_read (faulty_run (f, t), t, f->moment);
  hob_moment_balance (f->moment, &heat, &turned, &gas, &gas_turned);
  hob_moment_air_balance (f->moment, &oxygen, &products, &burnt);
  g_test_message ("%.3g of %.3g kg; %.3g and %.3g of %.3g mol", gas, gas_turned, oxygen, products,
                  burnt);
  g_assert_cmpfloat (fabs (heat), <=, fmax (1, 1e-3 * turned));
  g_assert_cmpfloat (fabs (gas), <=, 1e-9 + 1e-6 * gas_turned);
  g_assert_cmpfloat (fabs (oxygen), <=, 1e-9 + 1e-6 * burnt);
  g_assert_cmpfloat (fabs (products), <=, 1e-9 + 1e-6 * burnt);
}

static void
atoms_are_conserved_whatever_burns_and_blows_up (void)
{
  g_auto (Faulty) normal = SHIPPED ("dial-four", BAKE, "0s knob-lf=light", "5s knob-lf=high");
  g_auto (Faulty) covered = SHIPPED ("dial-four", BAKE, "cavity:vent-covered=1");
  g_auto (Faulty) blown = SHIPPED ("dial-four", "valve-bake:stuck-open=1", "3min oven.mode=bake");
  g_auto (Faulty) propane = SHIPPED ("lp-four", BAKE, "20min oven.mode=broil");

  assert_balanced (&normal, 3600);
  assert_balanced (&covered, 1800);
  assert_balanced (&blown, 900);
  assert_balanced (&propane, 3600);
}

/* CH4 + 2 O2 → CO2 + 2 H2O and C3H8 + 5 O2 → 3 CO2 + 4 H2O: as many atoms before as after. */
static void
each_fuel_burns_by_its_equation (void)
{
  static const struct
  {
    HobFuelName fuel;
    double oxygen, carbon, hydrogen;
  } of[] = { { HOB_FUEL_NATURAL, 2, 1, 4 }, { HOB_FUEL_LP, 5, 3, 8 } };

  for (guint k = 0; k < G_N_ELEMENTS (of); k++)
    {
      const HobFuel *fuel = &hob_fuels[of[k].fuel];
      double oxygen = hob_fuel_oxygen (fuel), water = 2 * (oxygen - fuel->carbon);

      g_assert_cmpfloat_with_epsilon (oxygen, of[k].oxygen, 0.002);
      g_assert_cmpfloat_with_epsilon (fuel->carbon, of[k].carbon, 1e-9);
      g_assert_cmpfloat_with_epsilon (2 * water, of[k].hydrogen, 0.01);
    }
}

/* Gas takes the place of air: no mixture is more than all of it, however long it flows, and nothing
 * above the rich limit goes off. */
static void
gas_fills_an_oven_no_more_than_the_jet_s_own_mixture (void)
{
  g_auto (Faulty) natural = SHIPPED ("dial-four", "valve-bake:stuck-open=1");
  g_auto (Faulty) propane = SHIPPED ("lp-four", "valve-bake:stuck-open=1");

  g_assert_cmpfloat (at (&natural, 7200, "cavity.gas") * 0.05, <, 0.154);
  g_assert_cmpfloat (at (&natural, 7200, "burner-bake.nearby") * 0.05, <, 0.154);
  g_assert_cmpfloat (at (&propane, 7200, "cavity.gas") * 0.021, <, 0.075);
  g_assert_cmpfloat (at (&propane, 7200, "cavity.drawer") * 0.021, <=, 0.075);
}

/* An oven that has filled for half an hour explodes at the first flame; the oven bottom is not
 * white hot after it: nine tenths of the energy go out of the door. */
static void
an_explosion_relieves_itself_by_the_door (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "valve-bake:stuck-open=1", "30min oven.mode=bake");
  double worst = 0;

  for (double t = 1800; t < 1900; t += 0.5)
    worst = fmax (worst, at (&f, t, "cavity.burst"));
  g_assert_cmpfloat (worst, ==, HOB_BURST_EXPLOSION);
  g_assert_cmpfloat (at (&f, 1900, "cavity.floor"), <, 700);
  g_assert_cmpfloat (at (&f, 1900, "cavity.gas"), <, 0.2);
}

/* The hardest burst of @part from @from to @to s. */
static double
hardest (Faulty *f, const char *part, double from, double to)
{
  g_autofree char *name = g_strconcat (part, ".burst", NULL);
  double worst = 0;

  for (double t = from; t <= to; t += 1)
    worst = fmax (worst, at (f, t, name));
  return worst;
}

/* Gas that has gathered needs no stream to go off: the igniter lights what is around it after the
 * lever was closed, as hard as its share of the compartment makes it, and no flame stays.  What
 * propane left in the drawer goes off with it. */
static void
gathered_gas_goes_off_though_none_flows (void)
{
  g_auto (Faulty) propane = SHIPPED ("lp-four", "valve-bake:stuck-open=0.5", "5min lever=closed",
                                     "6min oven.mode=bake");
  g_auto (Faulty) natural = SHIPPED ("dial-four", "valve-bake:stuck-open=0.5", "10min lever=closed",
                                     "10min oven.mode=bake");
  g_auto (Faulty) aired = SHIPPED ("lp-four", "valve-bake:stuck-open=0.5", "5min lever=closed",
                                   "5min door=open", "50min oven.mode=bake");

  g_assert_cmpfloat (at (&propane, 370, "burner-bake.nearby"), >, 1);
  g_assert_cmpfloat (at (&propane, 370, "cavity.drawer"), >, 1);
  g_assert_cmpfloat (hardest (&propane, "burner-bake", 360, 390), ==, HOB_BURST_BANG);
  g_assert_cmpfloat (hardest (&propane, "cavity", 360, 390), ==, HOB_BURST_EXPLOSION);
  g_assert_cmpfloat (at (&propane, 400, "burner-bake.nearby"), <, 0.01);
  g_assert_cmpfloat (at (&propane, 400, "cavity.drawer"), <, 0.01);
  g_assert_cmpfloat (hardest (&natural, "burner-bake", 600, 630), ==, HOB_BURST_BANG);
  for (double t = 360; t < 480; t += 5)
    g_assert_cmpfloat (at (&propane, t, "burner-bake.flame"), ==, 0);
  g_assert_cmpfloat (hardest (&aired, "burner-bake", 3000, 3120), ==, HOB_BURST_NONE);
  g_assert_cmpfloat (hardest (&aired, "cavity", 3000, 3120), ==, HOB_BURST_NONE);
  assert_balanced (&propane, 600);
  assert_balanced (&natural, 900);
}

/* So does what is around a large surface burner, at the spark of another knob or at a match; some
 * seconds later it has risen away. */
static void
gas_around_a_closed_burner_goes_off_at_a_spark (void)
{
  g_auto (Faulty) spark = SHIPPED ("dial-four", "0s knob-rf:=high", "60s knob-rf:=off",
                                   "60.5s knob-lr=light");
  g_auto (Faulty) match = SHIPPED ("dial-four", "0s knob-rf:=high", "60s knob-rf:=off",
                                   "61s match=burner-rf");
  g_auto (Faulty) later = SHIPPED ("dial-four", "0s knob-rf:=high", "60s knob-rf:=off",
                                   "80s knob-lr=light");

  g_assert_cmpfloat (hardest (&spark, "burner-rf", 60, 70), >=, HOB_BURST_PUFF);
  g_assert_cmpfloat (hardest (&match, "burner-rf", 60, 70), >=, HOB_BURST_PUFF);
  g_assert_cmpfloat (hardest (&later, "burner-rf", 60, 90), ==, HOB_BURST_NONE);
  g_assert_cmpfloat (at (&spark, 63, "burner-rf.flame"), ==, 0);
  g_assert_cmpfloat (at (&match, 63, "burner-rf.flame"), ==, 0);
  g_assert_cmpfloat (at (&spark, 63, "burner-lr.flame"), ==, 1);
  assert_balanced (&spark, 90);
}

/* A flame beside it sets off what has gathered around a burner that doesn't spark, and the burner
 * then burns; one with clogged ports lights off its neighbor, late. */
static void
gas_beside_a_flame_goes_off_and_burns (void)
{
  g_auto (Faulty) propane
      = SHIPPED ("lp-four", "electrode-lf:lead-open", "0s knob-lf=light", "5s knob-lf=high",
                 "300s knob-lr=light", "303s knob-lr=high");
  g_auto (Faulty) clogged
      = SHIPPED ("dial-four", "burner-lf:port-clogged=1", "0s knob-lr=light", "3s knob-lr=high",
                 "5s knob-lf=high");

  g_assert_cmpfloat (at (&propane, 299, "burner-lf.nearby"), >, 1);
  g_assert_cmpfloat (at (&propane, 299, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (hardest (&propane, "burner-lf", 300, 310), >=, HOB_BURST_PUFF);
  g_assert_cmpfloat (at (&propane, 310, "burner-lf.flame"), ==, 1);
  g_assert_cmpfloat (at (&propane, 310, "burner-lf.nearby"), <, 0.05);
  assert_balanced (&propane, 600);

  g_assert_cmpfloat (at (&clogged, 10, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&clogged, 10, "burner-lf.nearby"), <, 1);
  g_assert_cmpfloat (hardest (&clogged, "burner-lf", 10, 30), >=, HOB_BURST_PUFF);
  g_assert_cmpfloat (at (&clogged, 60, "burner-lf.flame"), ==, 1);
  assert_balanced (&clogged, 60);
}

/* It goes off there too where the knob is off by then, but no flame stays.  Where burners are lit
 * one after the other nothing gathers: none puffs, and one turned off stays off. */
static void
a_flame_beside_it_never_lights_a_burner_turned_off (void)
{
  g_auto (Faulty) raw
      = SHIPPED ("dial-four", "electrode-rf:lead-open", "0s knob-rf:=high", "60s knob-rf:=off",
                 "60.5s knob-lr=light");
  g_auto (Faulty) all
      = SHIPPED ("dial-four", "0s knob-lf=light", "3s knob-lf=high", "5s knob-rf=light",
                 "8s knob-rf=high", "10s knob-lr=light", "13s knob-lr=high", "60s knob-rf=off");
  static const char *const burners[] = { "burner-lf", "burner-rf", "burner-lr" };

  g_assert_cmpfloat (hardest (&raw, "burner-rf", 60, 70), >=, HOB_BURST_PUFF);
  for (double t = 60; t < 120; t += 1)
    g_assert_cmpfloat (at (&raw, t, "burner-rf.flame"), ==, 0);
  assert_balanced (&raw, 120);

  for (guint k = 0; k < G_N_ELEMENTS (burners); k++)
    g_assert_cmpfloat (hardest (&all, burners[k], 0, 120), ==, HOB_BURST_NONE);
  g_assert_cmpfloat (at (&all, 55, "burner-rf.flame"), ==, 1);
  for (double t = 62; t < 120; t += 1)
    g_assert_cmpfloat (at (&all, t, "burner-rf.flame"), ==, 0);
}

#define SMALL_KITCHEN "house.kitchen=5", "house.air-changes=0.05", "valve-bake:stuck-open=1"

/* A small shut kitchen fills to the lean limit and goes off at a flame, once: what burns takes the
 * oxygen with it, nothing is lost, and nobody hears it any longer after ten seconds.  Without a
 * flame the gas goes on gathering. */
static void
a_kitchen_full_of_gas_goes_off_at_a_flame (void)
{
  g_auto (Faulty) lit
      = SHIPPED ("dial-four", SMALL_KITCHEN, "0s knob-lf=light", "5s knob-lf=high");
  g_auto (Faulty) dark = SHIPPED ("dial-four", SMALL_KITCHEN);
  double t = 1800, before;

  while (t < 2400 && at (&lit, t, "house.burst") == HOB_BURST_NONE)
    t += 1;
  g_assert_cmpfloat (at (&lit, t, "house.burst"), ==, HOB_BURST_EXPLOSION);
  g_assert_cmpfloat (at (&lit, t - 1, "house.gas"), >, 0.99);
  g_assert_cmpfloat (at (&lit, t + 1, "house.gas"), <, 0.5);
  before = at (&lit, t - 1, "house.oxygen");
  g_assert_cmpfloat (at (&lit, t + 1, "house.oxygen"), <, 0.6 * before);
  g_assert_cmpfloat (at (&lit, t + 1, "burner-lf.flame"), ==, 0);
  g_assert_cmpfloat (at (&lit, t + 11, "house.burst"), ==, HOB_BURST_NONE);
  g_assert_cmpfloat (at (&lit, 7200, "house.gas"), >, 1.5);
  g_assert_cmpfloat (at (&lit, 7200, "house.burst"), ==, HOB_BURST_NONE);
  assert_balanced (&lit, 7200);
  for (double later = 1800; later < 3600; later += 60)
    g_assert_cmpfloat (at (&dark, later, "house.burst"), ==, HOB_BURST_NONE);
  g_assert_cmpfloat (at (&dark, 3600, "house.gas"), >, 1.5);
}

static double
left_after (const char *range, const char *door, double minutes, const char *where)
{
  g_auto (Faulty) f = SHIPPED (range, "valve-bake:stuck-open=0.5", "600s shutoff=closed", door);

  return at (&f, 600 + 60 * minutes, where) / at (&f, 600, where);
}

/* Natural gas rises out of the vent, propane sinks: an open door airs both ovens, and the drawer of
 * neither. */
static void
an_open_door_airs_the_oven_and_propane_stays_in_the_drawer (void)
{
  g_assert_cmpfloat (left_after ("dial-four", "600s door=open", 5, "cavity.gas"), <, 0.05);
  g_assert_cmpfloat (left_after ("dial-four", "600s door=closed", 5, "cavity.gas"), >, 0.2);
  g_assert_cmpfloat (left_after ("lp-four", "600s door=open", 5, "cavity.gas"), <, 0.05);
  g_assert_cmpfloat (left_after ("lp-four", "600s door=open", 10, "cavity.drawer"), >, 0.2);
  g_auto (Faulty) natural = SHIPPED ("dial-four", "valve-bake:stuck-open=0.5");
  g_assert_cmpfloat (at (&natural, 600, "cavity.drawer"), ==, 0);
}

/* A drawer is a pan: what sinks from the oven and is lighter than the propane that lies there
 * passes over it and washes nothing out.  So the drawer is aired no faster with the oven door
 * shut. */
static void
opening_the_door_never_airs_the_drawer_slower (void)
{
  for (double severity = 0.25; severity <= 1; severity += 0.25)
    {
      g_autofree char *fault = g_strdup_printf ("valve-bake:stuck-open=%g", severity);
      g_auto (Faulty) open = SHIPPED ("lp-four", fault, "2min lever=closed", "2min door=open");
      g_auto (Faulty) shut = SHIPPED ("lp-four", fault, "2min lever=closed");

      for (double t = 180; t <= 2400; t += 60)
        g_assert_cmpfloat (at (&open, t, "cavity.drawer"), <=,
                           1.01 * at (&shut, t, "cavity.drawer"));
    }
}

#define FULL_OF_PROPANE                                                                            \
  "house.kitchen=5", "house.air-changes=0.05", "valve-bake:stuck-open=1", "40min lever=closed"

/* What lies on the floor is above its rich limit and burns at no flame; it goes off once it has
 * thinned, as much of it as the air in it burns. */
static void
a_layer_too_rich_to_burn_waits_for_air (void)
{
  g_auto (Faulty) lit = SHIPPED ("lp-four", FULL_OF_PROPANE, "41min knob-lf=light",
                                 "2465s knob-lf=low");
  const double rich = 0.095 / 0.021;
  double t = 2470;

  g_assert_cmpfloat (at (&lit, t, "house.floor"), >, rich);
  g_assert_cmpfloat (at (&lit, t, "burner-lf.flame"), ==, 1);
  while (t < 4800 && at (&lit, t, "house.burst") == HOB_BURST_NONE)
    t += 1;
  g_assert_cmpfloat (at (&lit, t - 1, "house.floor"), <, 1.01 * rich);
  g_assert_cmpfloat (at (&lit, t - 1, "house.floor"), >, 0.98 * rich);
  g_assert_cmpfloat (at (&lit, t, "house.burst"), ==, HOB_BURST_EXPLOSION);
  assert_balanced (&lit, 4800);
}

/* What leaks behind the range needs a while to gather there.  Propane then lies on the floor and
 * creeps into the drawer, where most of it is still after the gas was shut off and the nose finds
 * less; natural gas does neither. */
static void
leaking_propane_lies_on_the_floor (void)
{
  g_auto (Faulty) propane = SHIPPED ("lp-four", "connector:leaks=1", "1h shutoff=closed");
  g_auto (Faulty) natural = SHIPPED ("dial-four", "connector:leaks=1");
  g_auto (Faulty) burner = SHIPPED ("lp-four", "0s knob-lf:=high");
  double full = at (&propane, 1200, "connector.smell");

  g_assert_cmpfloat (at (&propane, 0, "connector.smell"), ==, 0);
  g_assert_cmpfloat (at (&propane, 20, "connector.smell") / full, >, 0.5);
  g_assert_cmpfloat (at (&propane, 20, "connector.smell") / full, <, 0.75);
  g_assert_cmpfloat (at (&propane, 3600, "house.floor"), >, 2 * at (&propane, 3600, "house.gas"));
  g_assert_cmpfloat (at (&propane, 3600, "cavity.drawer"), >, 0.1);
  g_assert_cmpfloat (at (&propane, 600, "cavity.drawer"), <, at (&propane, 600, "house.floor"));
  g_assert_cmpfloat (at (&propane, 4200, "cavity.drawer") / at (&propane, 3600, "cavity.drawer"), >,
                     at (&propane, 4200, "house.smell") / at (&propane, 3600, "house.smell"));
  g_assert_cmpfloat (at (&burner, 1200, "house.floor"), >, 0.1);
  g_assert_cmpfloat (at (&burner, 1200, "cavity.drawer"), >, 0.03);
  g_assert_cmpfloat (at (&natural, 3600, "house.floor"), ==, 0);
  g_assert_cmpfloat (at (&natural, 3600, "cavity.drawer"), ==, 0);
  assert_balanced (&propane, 7200);
}

static void
a_window_and_the_hood_air_the_kitchen (void)
{
  g_auto (Faulty) shut = SHIPPED ("dial-four", "valve-bake:stuck-open=1", "20min shutoff=closed");
  g_auto (Faulty) open = SHIPPED ("dial-four", "valve-bake:stuck-open=1", "20min shutoff=closed",
                                  "20min house.window=open");
  g_auto (Faulty) hood = SHIPPED ("dial-four", "valve-bake:stuck-open=1", "20min shutoff=closed",
                                  "20min house.window=open", "20min house.hood=on");
  double closed = at (&shut, 2400, "house.gas"), aired = at (&open, 2400, "house.gas");

  g_assert_cmpfloat (aired, <, 0.5 * closed);
  g_assert_cmpfloat (at (&hood, 2400, "house.gas"), <, 0.5 * aired);
}

/* A nose finds a hundredth of the lean limit and less (from memory), and a fifth is what an odorant
 * must announce: 49 CFR 192.625.  A small burner is smelled later than a large one. */
static void
the_more_gas_the_sooner_it_is_smelled (void)
{
  g_auto (Faulty) large = SHIPPED ("dial-four", "1s knob-rf=high");
  g_auto (Faulty) small = SHIPPED ("dial-four", "1s knob-lr=high");
  g_auto (Faulty) lit = SHIPPED ("dial-four", "1s knob-rf=light", "6s knob-rf=high");

  g_assert_cmpfloat (at (&large, 15, "house.smell"), >, 0.006);
  g_assert_cmpfloat (at (&small, 15, "house.smell"), <, 0.006);
  g_assert_cmpfloat (at (&small, 60, "house.smell"), >, 0.006);
  g_assert_cmpfloat (at (&lit, 20, "house.smell"), <, 0.006);
}

/* ---- Oxygen and carbon monoxide ---- */

static double
co_at (double minutes, const char *fault)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", BAKE);

  if (fault != NULL)
    faulty_add (&f, WORDS (fault));
  return at (&f, 60 * minutes, "cavity.co") * 1e6;
}

/* 20 to 100 ppm in these ranges, more while the oven is cold (this project's figures); 800 ppm is
 * the approvals' limit, second-hand. */
static void
a_normal_oven_makes_little_carbon_monoxide_and_most_of_it_cold (void)
{
  double cold = co_at (1.2, NULL), hot = co_at (10, NULL);

  g_test_message ("%.0f ppm after a minute, %.0f after ten", cold, hot);
  g_assert_cmpfloat (hot, >, 20);
  g_assert_cmpfloat (hot, <, 100);
  g_assert_cmpfloat (cold, >, 2 * hot);
  g_assert_cmpfloat (cold, <, 800);
}

static void
foil_and_a_covered_vent_make_far_more_than_the_limit (void)
{
  g_assert_cmpfloat (co_at (10, "cavity:bottom-covered=1"), >, 800);
  g_assert_cmpfloat (co_at (10, "cavity:vent-covered=1"), <, 25000);
  g_assert_cmpfloat (co_at (8, "cavity:vent-covered=0.8"), >, 800);
}

/* Foil keeps a flame's products below the oven bottom, whatever the door does: at no time does it
 * make much of a difference, and a cold oven has the most carbon monoxide either way. */
static void
with_foil_the_door_makes_no_difference_to_the_flame (void)
{
  static const char *const fuels[] = { "dial-four", "lp-four" };

  for (guint k = 0; k < G_N_ELEMENTS (fuels); k++)
    {
      g_auto (Faulty) shut = SHIPPED (fuels[k], BAKE, "0s oven.dial=500degF",
                                      "cavity:bottom-covered=1");
      g_auto (Faulty) open = SHIPPED (fuels[k], BAKE, "0s oven.dial=500degF", "0s door=open",
                                      "cavity:bottom-covered=1");

      for (double t = 90; t <= 600; t += 30)
        {
          double closed = at (&shut, t, "cavity.co"), ratio = at (&open, t, "cavity.co") / closed;

          g_test_message ("%s, %.0f s: %.0f ppm, with the door open %.2f of that", fuels[k], t,
                          closed * 1e6, ratio);
          g_assert_cmpfloat (ratio, >, 0.5);
          g_assert_cmpfloat (ratio, <, 2);
        }
      g_assert_cmpfloat (at (&shut, 120, "cavity.co"), >, at (&shut, 600, "cavity.co"));
      assert_balanced (&shut, 1200);
    }
}

/* Amounts of gas, with all that lights, burns and blows up: none is ever less than nothing. */
static void
no_gas_is_less_than_none (void)
{
  static const char *const amounts[] = { "burner-lf.gathered", "burner-bake.gathered",
                                         "cavity.gas", "cavity.drawer", "house.gas",
                                         "house.floor" };
  g_auto (Faulty) normal = SHIPPED ("dial-four", "1s knob-lf=light", "5s knob-lf=high",
                                    "0s oven.dial=350degF", "1s oven.mode=bake");
  g_auto (Faulty) bang = SHIPPED ("lp-four", "valve-bake:stuck-open", "10min oven.dial=350degF",
                                  "601s oven.mode=bake");
  Faulty *both[] = { &normal, &bang };

  for (guint i = 0; i < G_N_ELEMENTS (both); i++)
    for (guint k = 0; k < G_N_ELEMENTS (amounts); k++)
      for (double t = 0.5; t < 1200; t += 1)
        {
          double gas = at (both[i], t, amounts[k]);

          if (gas < 0)
            g_test_message ("%s is %g at %.1f s", amounts[k], gas, t);
          g_assert_cmpfloat (gas, >=, 0);
        }
  g_assert_cmpfloat (at (&bang, 1200, "house.gas"), >, 0);
}

/* Four parts in a hundred of propane are the most that the air burns which is left between them. */
static void
a_drawer_burns_no_more_than_its_air (void)
{
  g_auto (Faulty) f = SHIPPED ("lp-four", "valve-bake:stuck-open", "10min oven.dial=350degF",
                               "601s oven.mode=bake");
  const HobFuel *lp = &hob_fuels[HOB_FUEL_LP];
  double t = 601, oven, drawer, burned;

  while (at (&f, t, "cavity.light-energy") == 0 && t < 900)
    t += 0.5;
  oven = at (&f, t - 0.5, "cavity.gas") * lp->lean * 0.130 * lp->density;
  drawer = at (&f, t - 0.5, "cavity.drawer") * lp->lean;
  burned = at (&f, t, "cavity.light-energy") / lp->heat;
  g_test_message ("%.1f s: %.2f g in the oven, %.3f vol/vol in the drawer, %.2f g burned", t,
                  oven * 1000, drawer, burned * 1000);
  g_assert_cmpfloat (drawer, >, 1.3 / (1 + lp->air));
  g_assert_cmpfloat (burned, <, oven + 0.040 * lp->density * 1.05 / (1 + lp->air));
  g_assert_cmpfloat (at (&f, t + 2, "cavity.drawer"), <, 0.1);
  assert_balanced (&f, 1200);
}

/* The oven door is above the slots that foil covers: opening it airs the oven, not the burner
 * compartment.  A covered vent is above the door's opening, and an open door takes its place. */
static void
an_open_door_eases_a_covered_vent_and_not_a_covered_bottom (void)
{
  static const char *const fuels[] = { "dial-four", "lp-four" };

  for (guint k = 0; k < G_N_ELEMENTS (fuels); k++)
    {
      g_auto (Faulty) shut = SHIPPED (fuels[k], BAKE, "0s oven.dial=500degF",
                                      "cavity:bottom-covered=1");
      g_auto (Faulty) open = SHIPPED (fuels[k], BAKE, "0s oven.dial=500degF", "0s door=open",
                                      "cavity:bottom-covered=1");
      g_auto (Faulty) vent = SHIPPED (fuels[k], BAKE, "0s oven.dial=500degF", "0s door=open",
                                      "cavity:vent-covered=1");
      double closed = at (&shut, 600, "cavity.co");

      g_test_message ("%s: %.0f ppm, %.0f with the door open, %.0f of the vent", fuels[k],
                      closed * 1e6, at (&open, 600, "cavity.co") * 1e6,
                      at (&vent, 600, "cavity.co") * 1e6);
      g_assert_cmpfloat (at (&open, 600, "cavity.co"), >, 0.75 * closed);
      g_assert_cmpfloat (at (&open, 600, "burner-bake.yellow"), >, 0.75);
      g_assert_cmpfloat (at (&vent, 600, "cavity.co"), <, 0.1 * closed);
      assert_balanced (&open, 1200);
    }
}

/* CO·20.95/(20.95 − O2), as an analyzer works it out from its two readings. */
static void
air_free_is_what_the_analyzer_s_formula_says (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", BAKE);

  double oxygen = at (&f, 600, "cavity.oxygen"), measured = at (&f, 600, "cavity.co-measured");

  assert_near (at (&f, 600, "cavity.co"), measured * 0.2095 / (0.2095 - oxygen), 1e-9);
  g_assert_cmpfloat (measured, <, 0.5 * at (&f, 600, "cavity.co"));
}

static double
minutes_to_350 (const char *fault)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", BAKE);

  if (fault != NULL)
    faulty_add (&f, WORDS (fault));
  for (double t = 300; t < 3600; t += 5)
    if (at (&f, t, "cavity.air") >= HOB_DEGF (350))
      return t / 60;
  return INFINITY;
}

/* A covered vent keeps some heat in while there is oxygen to spare, and starves the flame then. */
static void
a_covered_vent_preheats_three_percent_faster_at_most_and_then_slower (void)
{
  static const char *const worse[] = { "cavity:vent-covered=0.9", "cavity:vent-covered=1" };
  double normal = minutes_to_350 (NULL);

  for (double s = 0.1; s < 0.85; s += 0.1)
    {
      g_autofree char *fault = g_strdup_printf ("cavity:vent-covered=%.1f", s);
      double minutes = minutes_to_350 (fault);

      g_test_message ("%.0f%% covered: %.2f min, normal %.2f", 100 * s, minutes, normal);
      g_assert_cmpfloat (minutes, >, 0.97 * normal);
    }
  for (guint k = 0; k < G_N_ELEMENTS (worse); k++)
    g_assert_cmpfloat (minutes_to_350 (worse[k]), >, normal);
}

/* What finds the vent covered pushes out around the door; a vent half covered passes the rest. */
static void
a_covered_vent_turns_hot_air_out_around_the_door (void)
{
  g_auto (Faulty) normal = SHIPPED ("dial-four", BAKE);
  g_auto (Faulty) half = SHIPPED ("dial-four", BAKE, "cavity:vent-covered=0.5");
  g_auto (Faulty) shut = SHIPPED ("dial-four", BAKE, "cavity:vent-covered=1");

  g_assert_cmpfloat (at (&normal, 300, "cavity.edge"), ==, 0);
  g_assert_cmpfloat (at (&half, 300, "cavity.edge"), >, 0);
  g_assert_cmpfloat (at (&half, 300, "cavity.vent"), >, 5 * at (&half, 300, "cavity.edge"));
  g_assert_cmpfloat (at (&shut, 300, "cavity.edge"), >, at (&half, 300, "cavity.edge"));
  g_assert_cmpfloat (at (&shut, 300, "cavity.vent"), <, 1e-9);
}

/* A starved oven keeps as much flame as it has air for, and the rest rolls out: it neither burns at
 * full heat nor fills with gas that goes off, as long as its igniter glows. */
static void
a_starved_flame_rolls_out_and_does_not_bang (void)
{
  static const char *const covered[] = { "cavity:vent-covered=0.9", "cavity:vent-covered=1" };

  for (guint k = 0; k < G_N_ELEMENTS (covered); k++)
    {
      g_auto (Faulty) f = SHIPPED ("dial-four", BAKE, covered[k]);
      double burst = 0;

      for (double t = 40; t < 1800; t += 2)
        burst = fmax (burst, fmax (at (&f, t, "burner-bake.burst"), at (&f, t, "cavity.burst")));
      g_test_message ("%s: %.0f W inside, %.0f W outside", covered[k],
                      at (&f, 600, "burner-bake.heat"), at (&f, 600, "burner-bake.rolled-out"));
      g_assert_cmpfloat (burst, ==, HOB_BURST_NONE);
      g_assert_cmpfloat (at (&f, 600, "burner-bake.heat"), <, 3000);
      g_assert_cmpfloat (at (&f, 600, "burner-bake.rolled-out"), >, 2000);
      g_assert_cmpfloat (at (&f, 600, "cavity.gas"), <, 0.01);
    }
}

static void
a_normal_flame_stays_inside (void)
{
  static const char *const ranges[] = { "dial-four", "lp-four", "convection-fan" };

  for (guint k = 0; k < G_N_ELEMENTS (ranges); k++)
    {
      g_auto (Faulty) f = SHIPPED (ranges[k], "10s oven.dial=500 degF", "10s oven.mode=bake");

      for (double t = 40; t < 3600; t += 10)
        g_assert_cmpfloat (at (&f, t, "burner-bake.rolled-out"), <, 1);
    }
}

/* ---- What a flame breathes ---- */

#define TIGHT "house.kitchen=8", "house.air-changes=0.01"

/* Two burners use up a closet's air.  Above 17% they burn as ever; then less and less of their gas
 * finds oxygen, and below 16% (this project's figures) they are out.  A flame at LOW, which the
 * metal of its ports cools, goes first. */
static void
flames_fail_as_the_air_loses_its_oxygen (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", TIGHT, "0s knob-lf=light", "5s knob-lf=high",
                               "0s knob-lr=light", "5s knob-lr=high", "0s knob-rf=light",
                               "5s knob-rf=low");
  double full = at (&f, 60, "burner-lf.heat"), high_out = NAN, low_out = NAN;

  for (double t = 60; t < 2400; t += 5)
    {
      double oxygen = at (&f, t, "house.oxygen"), heat = at (&f, t, "burner-lf.heat");

      if (oxygen > 0.1705)
        assert_near (heat, full, 1e-3 * full);
      if (heat == 0 && isnan (high_out))
        high_out = oxygen;
      if (at (&f, t, "burner-rf.flame") == 0 && isnan (low_out))
        low_out = oxygen;
      if (oxygen < 0.1599)
        g_assert_cmpfloat (heat, ==, 0);
    }
  g_test_message ("LOW is out at %.2f%%, HIGH at %.2f%%", 100 * low_out, 100 * high_out);
  assert_near (high_out, 0.160, 0.0005);
  g_assert_cmpfloat (low_out, >, high_out + 0.003);
  g_assert_cmpfloat (low_out, <, 0.185);
}

/* ---- The kitchen ---- */

/* What evaporates the water of combustion, a tenth of the heat of natural gas, warms nothing. */
static void
cooking_warms_the_kitchen_and_makes_it_damp (void)
{
#define COOK BAKE, "0s knob-lf=light", "5s knob-lf=high"
  g_auto (Faulty) shut = SHIPPED ("dial-four", COOK);
  g_auto (Faulty) open = SHIPPED ("dial-four", COOK, "0s house.window=open");
  g_auto (Faulty) hood = SHIPPED ("dial-four", COOK, "0s house.window=open", "0s house.hood=on");
  g_auto (Faulty) idle = SHIPPED ("dial-four", "0s knob-lf=off");
  double rise = at (&shut, 3600, "house.air") - 298.15;

  g_test_message ("%.1f K; window %.1f; hood too %.1f", rise,
                  at (&open, 3600, "house.air") - 298.15, at (&hood, 3600, "house.air") - 298.15);
  g_assert_cmpfloat (rise, >, 4);
  g_assert_cmpfloat (rise, <, 15);
  g_assert_cmpfloat (at (&open, 3600, "house.air"), <, at (&shut, 3600, "house.air") - 0.5);
  g_assert_cmpfloat (at (&hood, 3600, "house.air"), <, at (&open, 3600, "house.air") - 0.5);
  g_assert_cmpfloat (at (&idle, 3600, "house.air"), ==, 298.15);
  g_assert_cmpfloat (at (&idle, 3600, "house.humidity"), ==, 0.5);
}

/* Pa of water in the air. */
static double
vapor (Faulty *f, double t)
{
  double celsius = at (f, t, "house.air") - 273.15;

  return at (f, t, "house.humidity") * 611.2 * exp (17.62 * celsius / (243.12 + celsius));
}

/* 1 kg of natural gas makes 2 mol of water for each mol: 2.07 kg.  In a tight kitchen all of it is
 * in the air. */
static void
the_water_of_combustion_is_in_the_air (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "house.air-changes=0.01", "0s knob-lf=light",
                               "5s knob-lf=high");
  double gas = at (&f, 900, "burner-lf.gas") * 895; /* kg, of the 900 s since it lit */
  double water = gas / (0.6 * 0.028964) * 2 * 0.018015;
  double made = (vapor (&f, 900) - vapor (&f, 0)) * 60 / (461.5 * at (&f, 900, "house.air"));

  g_test_message ("%.1f g of gas, %.1f g of water, %.1f g in the air", 1e3 * gas, 1e3 * water,
                  1e3 * made);
  assert_near (made, water, 0.05 * water);
}

/* ---- The draft ---- */

static double
vent_at (const char *fault, double t)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", BAKE);

  if (fault != NULL)
    faulty_add (&f, WORDS (fault));
  return at (&f, t, "cavity.vent");
}

static void
the_draft_builds_as_the_flue_warms (void)
{
  double lit = vent_at (NULL, 45), half = vent_at (NULL, 60), minute = vent_at (NULL, 105),
         hot = vent_at (NULL, 600);

  g_test_message ("%.2f, %.2f, %.2f, %.2f g/s", 1e3 * lit, 1e3 * half, 1e3 * minute, 1e3 * hot);
  g_assert_cmpfloat (lit, <, 0.4 * hot);
  g_assert_cmpfloat (half, >, lit);
  g_assert_cmpfloat (minute, >, half);
  g_assert_cmpfloat (hot, >, 1.05 * minute);
  assert_near (hot, 5.2e-3, 0.2e-3);
}

/* It has to pass the slots in the oven bottom first. */
static void
foil_on_the_bottom_slows_the_draft (void)
{
  double normal = vent_at (NULL, 300), last = normal;

  for (double s = 0.25; s <= 1; s += 0.25)
    {
      g_autofree char *fault = g_strdup_printf ("cavity:bottom-covered=%g", s);
      double vent = vent_at (fault, 300);

      g_test_message ("%.0f%% covered: %.2f g/s, normal %.2f", 100 * s, 1e3 * vent, 1e3 * normal);
      g_assert_cmpfloat (vent, <, last);
      last = vent;
    }
  g_assert_cmpfloat (last, <, 0.75 * normal);
  g_assert_cmpfloat (last, >, 0.3 * normal);
}

/* UL 2034 wants an alarm within 60 to 240 min at 70 ppm, 10 to 50 at 150, 4 to 15 at 400 (from
 * memory).  In a tight house foil gets there. */
static void
foil_ends_with_an_alarm_and_a_normal_oven_does_not (void)
{
  g_auto (Faulty) foil
      = SHIPPED ("dial-four", BAKE, "cavity:bottom-covered=1", "house.air-changes=0.5");
  g_auto (Faulty) normal = SHIPPED ("dial-four", BAKE, "house.air-changes=0.5");
  double alarm = INFINITY;

  g_assert_cmpfloat (at (&foil, 4 * 3600, "house.co-alarm"), ==, 1);
  /* before anybody's head aches */
  for (double t = 0; at (&foil, t, "house.blood") < 0.1; t += 60)
    alarm = at (&foil, t, "house.co-alarm") > 0 ? fmin (alarm, t) : alarm;
  g_assert_cmpfloat (at (&foil, alarm + 300, "house.blood"), <, 0.1);
  g_assert_cmpfloat (at (&normal, 4 * 3600, "house.blood"), <, 0.02);
}

/* For the first ten minutes the oven bottom is colder than the upper air. */
static void
broil_heats_from_above (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "0s oven.dial=550 degF", "0s oven.mode=broil");

  for (double t = 120; t <= 600; t += 60)
    {
      g_assert_cmpfloat (at (&f, t, "cavity.floor"), <, at (&f, t, "cavity.air-high"));
      g_assert_cmpfloat (at (&f, t, "cavity.air-low"), <, at (&f, t, "cavity.air-high"));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
#define TEST(path, function) g_test_add_func ("/gas-air/" path, function)
  TEST ("atoms-are-conserved", atoms_are_conserved_whatever_burns_and_blows_up);
  TEST ("each-fuel-burns-by-its-equation", each_fuel_burns_by_its_equation);
  TEST ("gas-fills-no-more-than-the-jets-mixture",
        gas_fills_an_oven_no_more_than_the_jet_s_own_mixture);
  TEST ("an-explosion-relieves-itself", an_explosion_relieves_itself_by_the_door);
  TEST ("gathered-gas-goes-off-though-none-flows", gathered_gas_goes_off_though_none_flows);
  TEST ("gas-around-a-closed-burner-goes-off", gas_around_a_closed_burner_goes_off_at_a_spark);
  TEST ("gas-beside-a-flame-goes-off", gas_beside_a_flame_goes_off_and_burns);
  TEST ("a-flame-beside-it-lights-no-burner-turned-off",
        a_flame_beside_it_never_lights_a_burner_turned_off);
  TEST ("a-kitchen-full-of-gas-goes-off", a_kitchen_full_of_gas_goes_off_at_a_flame);
  TEST ("an-open-door-airs-propane-stays-in-the-drawer",
        an_open_door_airs_the_oven_and_propane_stays_in_the_drawer);
  TEST ("opening-the-door-never-airs-the-drawer-slower",
        opening_the_door_never_airs_the_drawer_slower);
  TEST ("a-layer-too-rich-to-burn-waits-for-air", a_layer_too_rich_to_burn_waits_for_air);
  TEST ("leaking-propane-lies-on-the-floor", leaking_propane_lies_on_the_floor);
  TEST ("window-and-hood-air-the-kitchen", a_window_and_the_hood_air_the_kitchen);
  TEST ("the-more-gas-the-sooner-smelled", the_more_gas_the_sooner_it_is_smelled);
  TEST ("a-normal-oven-makes-little-co",
        a_normal_oven_makes_little_carbon_monoxide_and_most_of_it_cold);
  TEST ("foil-and-a-covered-vent-make-more", foil_and_a_covered_vent_make_far_more_than_the_limit);
  TEST ("an-open-door-eases-a-covered-vent-alone",
        an_open_door_eases_a_covered_vent_and_not_a_covered_bottom);
  TEST ("with-foil-the-door-makes-no-difference",
        with_foil_the_door_makes_no_difference_to_the_flame);
  TEST ("no-gas-is-less-than-none", no_gas_is_less_than_none);
  TEST ("a-drawer-burns-no-more-than-its-air", a_drawer_burns_no_more_than_its_air);
  TEST ("air-free-by-the-analyzers-formula", air_free_is_what_the_analyzer_s_formula_says);
  TEST ("a-covered-vent-is-not-faster",
        a_covered_vent_preheats_three_percent_faster_at_most_and_then_slower);
  TEST ("a-covered-vent-turns-hot-air-out",
        a_covered_vent_turns_hot_air_out_around_the_door);
  TEST ("a-starved-flame-rolls-out", a_starved_flame_rolls_out_and_does_not_bang);
  TEST ("a-normal-flame-stays-inside", a_normal_flame_stays_inside);
  TEST ("flames-fail-as-the-air-loses-oxygen", flames_fail_as_the_air_loses_its_oxygen);
  TEST ("cooking-warms-the-kitchen", cooking_warms_the_kitchen_and_makes_it_damp);
  TEST ("the-water-of-combustion-is-in-the-air", the_water_of_combustion_is_in_the_air);
  TEST ("the-draft-builds-as-the-flue-warms", the_draft_builds_as_the_flue_warms);
  TEST ("foil-slows-the-draft", foil_on_the_bottom_slows_the_draft);
  TEST ("foil-ends-with-an-alarm", foil_ends_with_an_alarm_and_a_normal_oven_does_not);
  TEST ("broil-heats-from-above", broil_heats_from_above);
  return g_test_run ();
}
