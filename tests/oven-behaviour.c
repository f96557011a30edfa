/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a normal oven does, and what it does under its faults: whole shipped ranges, run by the
 * engine. */

#include "base/hash.h"
#include "oven-run.h"

static const char *const ranges[] = { "dial-four", "board-five" };

/* ---- What a cook or a technician with thermometer, clamp and clock writes down ---- */

typedef struct
{
  double reached;    /* s from the call until the center is first at the dial */
  double first_hour; /* J of gas burned in the hour from the call */
  double overshoot;  /* K over the dial after the first cut-off */
  double duty, mean, swing, cycle; /* whole cycles from minute 60 on: share, K, K, s */
  double coolest;    /* K, igniter at the first lift, least of all cycles */
  double loudest;    /* J, most of all lightings */
  double longest;    /* s of gas before the flame, most of all lightings */
  double first_swing;/* K, the greatest fall noted by the cavity */
} Notes;

static double
burner_on_between (Oven *o, double from, double to)
{
  double on = 0, t = from, burning = oven_at (o, from, "burner-bake.flame");

  while (t < to)
    {
      double next = MIN (oven_change (o, "burner-bake", "flame", burning > 0 ? 0 : 1, t), to);

      on += burning > 0 ? next - t : 0;
      burning = burning > 0 ? 0 : 1;
      t = next;
    }
  return on;
}

static void
note_cycles (Oven *o, Notes *n, double from, double to)
{
  double start = oven_change (o, "burner-bake", "flame", 1, from), end = start;
  int cycles = 0;

  for (double next = start; (next = oven_change (o, "burner-bake", "flame", 1, next)) < to;
       cycles++)
    end = next;
  g_assert_cmpint (cycles, >=, 3);
  double least = INFINITY, most = 0, sum = 0;
  int samples = 0;
  for (double t = start; t < end; t += 1, samples++)
    {
      double air = oven_at (o, t, "cavity.air");

      least = MIN (least, air);
      most = MAX (most, air);
      sum += air;
    }
  n->duty = burner_on_between (o, start, end) / (end - start);
  n->mean = sum / samples;
  n->swing = most - least;
  n->cycle = (end - start) / cycles;
}

static void
note_lightings (Oven *o, Notes *n)
{
  n->coolest = INFINITY;
  n->loudest = n->longest = 0;
  for (double t = 0; isfinite (t = oven_change (o, "valve-bake", "lifted", 1, t));)
    {
      double lit = oven_change (o, "burner-bake", "flame", 1, t);

      n->coolest = MIN (n->coolest, oven_at (o, t, "igniter-bake.temperature"));
      if (!isfinite (lit))
        break;
      n->loudest = MAX (n->loudest, oven_at (o, lit, "burner-bake.light-energy"));
      n->longest = MAX (n->longest, lit - t);
    }
}

static Notes
take_notes (const char *range, const char *settings, const char *mode, int dial_degf, double hours)
{
  Notes n = { .reached = INFINITY };
  double dial = (dial_degf + 459.67) / 1.8, until = CALL_AT + hours * 3600;
  g_autofree char *dial_act = g_strdup_printf ("oven.dial=%d degF", dial_degf);
  double error, turned, gas, gas_turned;
  Oven o;

  oven_open (&o, range, settings);
  oven_do (&o, CALL_AT, dial_act);
  oven_do (&o, CALL_AT, mode);
  oven_run (&o, until);
  for (double t = CALL_AT; t < until && !isfinite (n.reached); t += 1)
    if (oven_at (&o, t, "cavity.air") >= dial)
      n.reached = t - CALL_AT;
  hob_run_read (o.run, CALL_AT + 3600, o.moment);
  hob_moment_balance (o.moment, &error, &turned, &gas, &gas_turned);
  n.first_hour = gas_turned * hob_moment_house (o.moment)->fuel->heat;
  for (double t = CALL_AT; t < CALL_AT + 3600; t += 1)
    n.overshoot = MAX (n.overshoot, oven_at (&o, t, "cavity.air") - dial);
  for (double t = CALL_AT; t < until; t += 60)
    n.first_swing = MAX (n.first_swing, oven_at (&o, t, "cavity.swing"));
  note_lightings (&o, &n);
  if (hours >= 1.5)
    note_cycles (&o, &n, CALL_AT + 3600, until);
  g_test_message ("%s %s, %d degF, %s: reached after %.1f min; first hour %.0f Btu; overshoot %.1f "
                  "degF; duty %.1f %%, "
                  "mean %.1f degF, swing %.1f degF, cycle %.2f min; igniter at least %.0f degF, "
                  "lightings up to %.2f kJ "
                  "after %.2f s; noted swing %.1f degF",
                  range, mode, dial_degf, settings != NULL ? settings : "nominal", n.reached / 60,
                  n.first_hour / BTU, n.overshoot * 1.8, n.duty * 100, TO_DEGF (n.mean),
                  n.swing * 1.8, n.cycle / 60, TO_DEGF (n.coolest), n.loudest / 1e3, n.longest,
                  n.first_swing * 1.8);
  oven_close (&o);
  return n;
}

/* ---- Igniter and valve ---- */

/* In later cycles the compartment is warm: the arm lifts sooner, over a cooler igniter. */
static void
test_warm_rows (void)
{
  const struct
  {
    int dial;
    double seconds, degf;
  } warm[] = { { 350, 27, 2410 }, { 500, 22, 2370 } };

  for (guint k = 0; k < G_N_ELEMENTS (warm); k++)
    {
      Oven o;

      oven_open (&o, "dial-four", KEPT_COOL);
      oven_bake (&o, CALL_AT, warm[k].dial, 3 * 3600);
      double call = oven_change (&o, "oven", "contact", 1, 2.5 * 3600);
      double lift = oven_change (&o, "valve-bake", "lifted", 1, call);
      double degf = TO_DEGF (oven_at (&o, lift, "igniter-bake.temperature"));
      g_test_message ("at %d degF: opens %.1f s after the call at %.0f degF, compartment %.1f °C",
                      warm[k].dial, lift - call, degf,
                      oven_at (&o, lift, "cavity.compartment") - 273.15);
      g_assert_cmpfloat (fabs (lift - call - warm[k].seconds), <=, 0.15 * warm[k].seconds);
      g_assert_cmpfloat (fabs (degf - warm[k].degf), <=, 40);
      oven_close (&o);
    }
}

/* ---- Normal ovens ---- */

static void
assert_lights_well (const Notes *n)
{
  g_assert_cmpfloat (TO_DEGF (n->coolest), >, 2000);
  g_assert_cmpfloat (n->loudest, <, 5e3); /* silent; a thump begins at 12 kJ */
  g_assert_cmpfloat (n->longest, <, 1.5);
}

static void
test_nominal (void)
{
  static const char *const kitchens[] = { NULL, "house.temperature=20 degC" };

  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    for (guint k = 0; k < G_N_ELEMENTS (kitchens); k++)
      {
        Notes n = take_notes (ranges[r], kitchens[k], "oven.mode=bake", 350, 3);

        g_assert_cmpfloat (n.reached, >=, 8 * 60);
        g_assert_cmpfloat (n.reached, <=, 13 * 60);
        g_assert_cmpfloat (n.first_hour, >=, 9000 * BTU);
        g_assert_cmpfloat (n.first_hour, <=, 13000 * BTU);
        g_assert_cmpfloat (n.duty, >=, 0.30);
        g_assert_cmpfloat (n.duty, <=, 0.42);
        g_assert_cmpfloat (n.swing * 1.8, >=, 40);
        g_assert_cmpfloat (n.swing * 1.8, <=, 60);
        g_assert_cmpfloat (fabs (TO_DEGF (n.mean) - 350), <=, 15);
        g_assert_cmpfloat (n.overshoot * 1.8, <=, 60); /* normal; "overheats" begins above */
        assert_lights_well (&n);
      }
}

static void
test_every_house (void)
{
  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    for (int volts = 114; volts <= 126; volts += 6)
      for (int celsius = 15; celsius <= 35; celsius += 10)
        for (int dial = 350; dial <= 550; dial += 200)
          {
            g_autofree char *house
                = g_strdup_printf ("receptacle.volts=%d|house.temperature=%d degC", volts, celsius);
            Notes n = take_notes (ranges[r], house, "oven.mode=bake", dial, 1.4);

            assert_lights_well (&n);
            g_assert_cmpfloat (n.first_swing * 1.8, <, 70); /* "wide swing" begins there */
          }
}

static void
test_fan (void)
{
  Notes still = take_notes ("board-five", NULL, "oven.mode=bake", 350, 3);
  Notes stirred = take_notes ("board-five", NULL, "oven.mode=convection", 350, 3);

  g_assert_cmpfloat (stirred.swing * 1.8, >=, 30);
  g_assert_cmpfloat (stirred.swing * 1.8, <=, 48);
  g_assert_cmpfloat (stirred.swing, <, 0.85 * still.swing);
  g_assert_cmpfloat (stirred.reached, <, 13 * 60);
  g_assert_cmpfloat (fabs (TO_DEGF (stirred.mean) - 350), <=, 15);
  assert_lights_well (&stirred);
}

static void
test_broil (void)
{
  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    {
      Oven o;

      oven_open (&o, ranges[r], NULL);
      oven_do (&o, CALL_AT, "oven.mode=broil");
      oven_run (&o, CALL_AT + 300);
      g_assert_cmpfloat (oven_at (&o, CALL_AT + 300, "burner-broil.flame"), ==, 1);
      g_assert_cmpfloat (
          fabs (oven_at (&o, CALL_AT + 300, "burner-broil.heat") - 13500 * BTU / 3600), <, 300);
      g_assert_cmpfloat (oven_at (&o, CALL_AT + 300, "burner-bake.flame"), ==, 0);
      g_assert_cmpfloat (oven_at (&o, CALL_AT + 300, "igniter-bake.current"), <, 0.01);
      oven_close (&o);
    }
}

/* ---- Ovens with a fault ---- */

static void
test_aged (void)
{
  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    {
      Oven o;

      oven_open (&o, ranges[r], "igniter-bake:aged");
      oven_bake (&o, CALL_AT, 350, CALL_AT + 1800);
      g_assert_cmpfloat (oven_at (&o, CALL_AT + 1800, "valve-bake.opening"), ==, 0);
      g_assert_false (isfinite (oven_change (&o, "burner-bake", "flame", 1, 0)));
      /* Bright, and yet: color accuses nobody here. */
      g_assert_cmpfloat (TO_DEGF (oven_at (&o, CALL_AT + 300, "burner-bake.glow")), >, 2200);
      g_assert_cmpfloat (oven_at (&o, CALL_AT + 300, "igniter-bake.current"), <, 3.0);
      oven_close (&o);
    }
}

static void
test_no_glow (void)
{
  static const char *const faults[] = { "igniter-bake:open", "valve-bake:heater-open" };

  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    for (guint k = 0; k < G_N_ELEMENTS (faults); k++)
      {
        Oven o;

        oven_open (&o, ranges[r], faults[k]);
        oven_bake (&o, CALL_AT, 350, CALL_AT + 300);
        g_assert_cmpfloat (oven_at (&o, CALL_AT + 300, "igniter-bake.current"), <, 0.001);
        g_assert_cmpfloat (oven_at (&o, CALL_AT + 300, "burner-bake.glow"), <, 400);
        /* The line stands across the broken one, nothing across the sound one. */
        g_assert_cmpfloat (
            oven_at (&o, CALL_AT + 300, k == 0 ? "igniter-bake.volts" : "valve-bake.volts"), >,
            115);
        g_assert_cmpfloat (
            oven_at (&o, CALL_AT + 300, k == 0 ? "valve-bake.volts" : "igniter-bake.volts"), <, 5);
        oven_close (&o);
      }
}

static void
test_welded (void)
{
  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    {
      Oven o;

      oven_open (&o, ranges[r], "oven:contact-welded");
      oven_bake (&o, CALL_AT, 350, CALL_AT + 3600);
      double degf = TO_DEGF (oven_at (&o, CALL_AT + 3600, "cavity.air"));
      g_test_message ("%s, contact welded: %.0f degF after an hour", ranges[r], degf);
      g_assert_cmpfloat (degf, >, 620);
      g_assert_cmpfloat (degf, <, 740);
      g_assert_cmpfloat (oven_at (&o, CALL_AT + 3600, "burner-bake.flame"), ==, 1);
      oven_close (&o);
    }
}

/* A second relay in the line stops what one welded contact would let run. */
static void
test_line_relay (void)
{
  Oven o;

  oven_open (&o, "board-five", "oven:contact-welded|oven.line-relay=1");
  oven_bake (&o, CALL_AT, 350, CALL_AT + 3600);
  g_assert_cmpfloat (oven_at (&o, CALL_AT + 3600, "oven.error"), ==, 1);
  g_assert_cmpfloat (oven_at (&o, CALL_AT + 3600, "burner-bake.flame"), ==, 0);
  oven_close (&o);
}

static void
test_lever (void)
{
  Oven o;

  oven_open (&o, "dial-four", NULL);
  oven_do (&o, 0, "lever=closed");
  oven_bake (&o, CALL_AT, 350, CALL_AT + 3600);
  double at10 = oven_at (&o, CALL_AT + 600, "cavity.air") - 273.15;
  double at60 = oven_at (&o, CALL_AT + 3600, "cavity.air") - 273.15;
  g_test_message ("igniter alone: %.1f °C at 10 min, %.1f °C at 1 h", at10, at60);
  g_assert_cmpfloat (oven_at (&o, CALL_AT + 600, "igniter-bake.current"), >, 3.3);
  g_assert_cmpfloat (oven_at (&o, CALL_AT + 600, "valve-bake.opening"), ==, 1);
  g_assert_cmpfloat (oven_at (&o, CALL_AT + 600, "burner-bake.gas"), <, 1e-9);
  g_assert_cmpfloat (fabs (at10 - 40), <, 4);
  g_assert_cmpfloat (fabs (at60 - 57), <, 5);
  oven_close (&o);
}

static void
test_plug (void)
{
  Notes sound = take_notes ("board-five", NULL, "oven.mode=bake", 350, 2);
  Notes corroded = take_notes ("board-five", "sensor.plug-ohms=60", "oven.mode=bake", 350, 2);
  double cooler = (sound.mean - corroded.mean) * 1.8;

  g_test_message ("60 ohm in the sensor's plug: %.1f degF cooler", cooler);
  g_assert_cmpfloat (cooler, >, 22);
  g_assert_cmpfloat (cooler, <, 36);
}

static void
test_board_says_so (void)
{
  const struct
  {
    const char *fault;
    double shown;
  } sensors[] = { { "sensor:open@600", 5 }, { "sensor:shorted@600", 6 } };

  for (guint k = 0; k < G_N_ELEMENTS (sensors); k++)
    {
      Oven o;

      oven_open (&o, "board-five", sensors[k].fault);
      oven_bake (&o, CALL_AT, 350, 1200);
      g_assert_cmpfloat (oven_at (&o, 599, "burner-bake.flame"), ==, 1);
      g_assert_cmpfloat (oven_at (&o, 602, "oven.display"), ==, sensors[k].shown);
      g_assert_cmpfloat (oven_at (&o, 660, "burner-bake.flame"), ==, 0);
      g_assert_cmpfloat (oven_at (&o, 1200, "burner-bake.flame"), ==, 0);
      oven_close (&o);
    }
}

/* A slow igniter shows itself at the first light, from cold; the swing later hides it. */
static void
test_slow_igniter (void)
{
  Notes sound = take_notes ("dial-four", NULL, "oven.mode=bake", 350, 3);
  Notes slow
      = take_notes ("dial-four", "igniter-bake.resistance-factor=1.16", "oven.mode=bake", 350, 3);
  Oven o;

  oven_open (&o, "dial-four", "igniter-bake.resistance-factor=1.16");
  oven_bake (&o, CALL_AT, 350, CALL_AT + 300);
  g_assert_cmpfloat (fabs (oven_change (&o, "burner-bake", "flame", 1, 0) - CALL_AT - 77), <, 8);
  oven_close (&o);
  g_assert_cmpfloat ((slow.swing - sound.swing) * 1.8, <, 6);
}

/* Whatever hands do, in whatever order, with whatever fault: currents, gas and heat are kept, and
 * no part chatters. */
static void
test_any_hands (void)
{
  static const char *const acts[] = {
    "oven.mode=off",      "oven.mode=bake", "oven.mode=broil", "oven.dial=200 degF",
    "oven.dial=500 degF", "door=open",      "door=closed",     "lever=closed",
    "lever=open",         "cord.plug=out",  "cord.plug=in",    "breaker=off",
    "breaker=on",         "shutoff=closed", "shutoff=open",
  };
  static const char *const faults[] = {
    NULL,
    "igniter-bake:aged",
    "igniter-bake:open",
    "valve-bake:heater-open",
    "oven:contact-welded",
    "valve-bake:stuck-open",
    "valve-bake:slow-to-close",
    "burner-bake:ports-clogged",
    "igniter-bake:out-of-place=1",
    "cavity:bottom-covered",
    "valve-bake:wrong-kind",
  };
  static const char *const any[] = { "dial-four", "board-five", "round-dial", "convection-fan" };

  for (guint64 seed = 1; seed <= 44; seed++)
    {
      Oven o;

      oven_open (&o, any[seed % G_N_ELEMENTS (any)], faults[seed % G_N_ELEMENTS (faults)]);
      for (int k = 0; k < 40; k++)
        {
          double t = floor (7200 * hob_hash_uniform (seed, 0, (guint64) k));

          oven_do (&o, t,
                   acts[(int) (G_N_ELEMENTS (acts) * hob_hash_uniform (seed, 1, (guint64) k))]);
        }
      oven_run (&o, 7200);
      oven_close (&o);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/oven/a warm compartment lifts the arm sooner", test_warm_rows);
  g_test_add_func ("/oven/bakes 350 degF as a healthy oven does", test_nominal);
  g_test_add_func ("/oven/lights silently over a hot igniter in every house", test_every_house);
  g_test_add_func ("/oven/a fan makes the swing small", test_fan);
  g_test_add_func ("/oven/broils with its own burner alone", test_broil);
  g_test_add_func ("/oven/an aged igniter glows bright and opens nothing", test_aged);
  g_test_add_func ("/oven/a broken igniter or heater does not glow", test_no_glow);
  g_test_add_func ("/oven/a welded contact runs away", test_welded);
  g_test_add_func ("/oven/a line relay stops the runaway", test_line_relay);
  g_test_add_func ("/oven/with the lever closed it glows at full current and bakes nothing",
                   test_lever);
  g_test_add_func ("/oven/ohms in the sensor's plug make it run cool", test_plug);
  g_test_add_func ("/oven/the board stops and says so when its sensor is lost", test_board_says_so);
  g_test_add_func ("/oven/a slow igniter shows at the first light, not in the swing",
                   test_slow_igniter);
  g_test_add_func ("/oven/any hands, any order: nothing is lost or made", test_any_hands);
  return g_test_run ();
}
