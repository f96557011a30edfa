/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The oven's parts alone, wired up by hand in one series circuit and stepped by a fixed
 * Runge–Kutta step: what each kind computes, without the engine that runs whole ranges. */

#include "parts/kind.h"
#include "physics/material.h"

#include <math.h>
#include <string.h>

#define DEGF(f) (((f) + 459.67) / 1.8)
#define TO_DEGF(k) ((k) * 1.8 - 459.67)

enum { CAVITY, BURNER, BULB, DIAL, IGNITER, VALVE, N_PARTS }; /* outer places first */
enum { MAX_OF = 16 };

typedef struct
{
  const HobKind *kind;
  HobPartContext c;
  double set[MAX_OF], ctl[MAX_OF], y[MAX_OF], dy[MAX_OF], mode[MAX_OF], place[HOB_N_PLACE], p[4],
      q[2];
  HobComplex g[MAX_OF], emf[MAX_OF], v[MAX_OF], i[MAX_OF];
  HobDuct duct[2];
} Part;

typedef struct
{
  Part part[N_PARTS];
  HobHouse house;
  double room[HOB_N_PLACE];
  double ledger[HOB_N_LEDGER], sum[HOB_N_LEDGER];
  double warmed;   /* J into the room */
  double volts;    /* at the receptacle */
  double pressure; /* Pa at the valve's inlet */
  double fan;      /* 0…1, stirring put into the cavity */
  double t;
} Bench;

#define SERIES_OHMS 0.35 /* receptacle, cord and harness */

static double
get (const Bench *b, int part, const char *quantity)
{
  int k = hob_kind_quantity (b->part[part].kind, quantity);

  g_assert_cmpint (k, >=, 0);
  return b->part[part].kind->observe (&b->part[part].c, k);
}

static double *
setting (Bench *b, int part, const char *name)
{
  int k = hob_kind_setting (b->part[part].kind, name);

  g_assert_cmpint (k, >=, 0);
  return &b->part[part].set[k];
}

static void
clear (Bench *b)
{
  memset (b->ledger, 0, sizeof b->ledger);
  memset (b->room, 0, sizeof b->room);
  b->room[HOB_PLACE_AIR] = b->room[HOB_PLACE_AIR_LOW] = b->house.temperature;
  b->room[HOB_PLACE_COMPARTMENT] = b->house.temperature;
  b->room[HOB_PLACE_OXYGEN] = HOB_OXYGEN_IN_AIR;
  b->room[HOB_PLACE_BURNABLE] = 1;
  for (int k = 0; k < N_PARTS; k++)
    {
      Part *p = &b->part[k];

      p->c.t = &b->t;
      memset (p->g, 0, sizeof p->g);
      memset (p->duct, 0, sizeof p->duct);
      memset (p->dy, 0, sizeof p->dy);
      memset (p->place, 0, sizeof p->place);
      p->place[HOB_PLACE_HOT] = p->place[HOB_PLACE_GLOW_SHOWN] = -INFINITY;
    }
  b->part[CAVITY].place[HOB_PLACE_FAN] = b->fan;
}

/* One loop: source, thermostat, selector, igniter, valve heater. */
static void
solve_circuit (Bench *b)
{
  Part *dial = &b->part[DIAL], *igniter = &b->part[IGNITER], *valve = &b->part[VALVE];
  const double g[]
      = { 1 / SERIES_OHMS, dial->g[0].re, dial->g[1].re, igniter->g[0].re, valve->g[0].re };
  double ohms = 0, at = b->volts;

  for (guint k = 0; k < G_N_ELEMENTS (g); k++)
    ohms += g[k] > 0 ? 1 / g[k] : INFINITY;
  double amps = isfinite (ohms) ? b->volts / ohms : 0;
  double node[G_N_ELEMENTS (g)];
  for (guint k = 0; k < G_N_ELEMENTS (g); k++)
    node[k] = at -= amps > 0 ? amps / g[k] : 0;

  dial->i[0].re = dial->i[1].re = igniter->i[0].re = valve->i[0].re = amps;
  igniter->v[0].re = node[2];
  igniter->v[1].re = valve->v[0].re = node[3];
  valve->v[1].re = node[4];
}

/* Two orifices in a row: the seat and the burner's own. */
static void
solve_gas (Bench *b)
{
  Part *burner = &b->part[BURNER], *valve = &b->part[VALVE];
  double seat = valve->duct[0].area, jet = burner->duct[0].area;
  double p = seat > 0 ? b->pressure * seat * seat / (seat * seat + jet * jet) : 0;

  burner->p[0] = p;
  burner->q[0] = valve->q[0] = jet * sqrt (2 * b->house.fuel->density * p);
}

static void
evaluate (Bench *b)
{
  clear (b);
  b->part[DIAL].c.moved = b->part[BULB].kind->turn (&b->part[BULB].c);
  b->part[CAVITY].c.moved = b->part[DIAL].kind->turn (&b->part[DIAL].c);
  for (int k = 0; k < N_PARTS; k++)
    if (b->part[k].kind->give != NULL)
      b->part[k].kind->give (&b->part[k].c);
  for (int k = 0; k < N_PARTS; k++)
    {
      if (b->part[k].kind->conduct != NULL)
        b->part[k].kind->conduct (&b->part[k].c);
      if (b->part[k].kind->flow != NULL)
        b->part[k].kind->flow (&b->part[k].c);
    }
  solve_circuit (b);
  solve_gas (b);
  for (int k = N_PARTS - 1; k >= 0; k--)
    if (b->part[k].kind->rates != NULL)
      b->part[k].kind->rates (&b->part[k].c);
}

/* Every due change, each followed by a look whether it is settled: that is its hysteresis. */
static void
settle (Bench *b)
{
  for (int pass = 0, changed = 1; changed; pass++)
    {
      g_assert_cmpint (pass, <, 32);
      changed = 0;
      evaluate (b);
      for (int k = 0; k < N_PARTS; k++)
        for (int guard = 0; guard < b->part[k].kind->n_guards; guard++)
          if (b->part[k].kind->guard (&b->part[k].c, guard) > 0)
            {
              b->part[k].kind->flip (&b->part[k].c, guard, b->part[k].y);
              evaluate (b);
              g_assert_cmpfloat (b->part[k].kind->guard (&b->part[k].c, guard), <=, 0);
              changed = 1;
            }
    }
}

static void
step (Bench *b, double h)
{
  static const double ahead[] = { 0, 0.5, 0.5, 1 }, weight[] = { 1, 2, 2, 1 };
  double t0 = b->t, y0[N_PARTS][MAX_OF], sum[N_PARTS][MAX_OF] = { 0 };

  for (int k = 0; k < N_PARTS; k++)
    memcpy (y0[k], b->part[k].y, sizeof y0[k]);
  for (int stage = 0; stage < 4; stage++)
    {
      b->t = t0 + ahead[stage] * h;
      for (int k = 0; stage > 0 && k < N_PARTS; k++)
        for (int j = 0; j < MAX_OF; j++)
          b->part[k].y[j] = y0[k][j] + ahead[stage] * h * b->part[k].dy[j];
      evaluate (b);
      for (int k = 0; k < N_PARTS; k++)
        for (int j = 0; j < MAX_OF; j++)
          sum[k][j] += weight[stage] * b->part[k].dy[j];
      for (int j = 0; j < HOB_N_LEDGER; j++)
        b->sum[j] += weight[stage] * h / 6 * b->ledger[j];
      b->warmed += weight[stage] * h / 6 * b->room[HOB_PLACE_HEAT_AIR];
    }
  for (int k = 0; k < N_PARTS; k++)
    for (int j = 0; j < MAX_OF; j++)
      b->part[k].y[j] = y0[k][j] + h / 6 * sum[k][j];
  settle (b);
}

static void
bench_init (Bench *b, const char *igniter, double celsius)
{
  const char *const kinds[N_PARTS]
      = { "cavity", "burner-oven", "bulb", "oven-dial", igniter, "valve-safety" };

  memset (b, 0, sizeof *b);
  b->house = (HobHouse){ celsius + 273.15, 0.5, 101325, &hob_fuels[HOB_FUEL_NATURAL] };
  b->volts = 120;
  b->pressure = 1245; /* 5 in. w.c. */
  for (int k = 0; k < N_PARTS; k++)
    {
      Part *p = &b->part[k];
      const HobKind *kind = p->kind = hob_kind_find (kinds[k]);
      double *within = k == CAVITY || k == DIAL ? b->room
                       : k == IGNITER           ? b->part[BURNER].place
                                                : b->part[CAVITY].place;

      g_assert_nonnull (kind);
      p->c = (HobPartContext){
        .index = k,
        .house = &b->house,
        .set = p->set,
        .ctl = p->ctl,
        .y = p->y,
        .dy = p->dy,
        .mode = p->mode,
        .g = p->g,
        .emf = p->emf,
        .v = p->v,
        .i = p->i,
        .duct = p->duct,
        .p = p->p,
        .q = p->q,
        .place = p->place,
        .within = within,
        .ledger = b->ledger,
      };
      for (int j = 0; j < kind->n_settings; j++)
        p->set[j] = kind->settings[j].normal;
      for (int j = 0; j < kind->n_controls; j++)
        p->ctl[j] = kind->controls[j].start;
      if (kind->start != NULL)
        kind->start (&p->c, p->y);
    }
}

static void
bake (Bench *b, double dial_degf)
{
  const HobKind *dial = b->part[DIAL].kind;

  b->part[DIAL].ctl[hob_kind_control (dial, "mode")] = 1;
  b->part[DIAL].ctl[hob_kind_control (dial, "dial")] = DEGF (dial_degf);
  settle (b);
}

/* s from the call to the first lift of the arm; +inf if it does not come within ten minutes. */
static double
time_to_lift (Bench *b)
{
  bake (b, 550);
  while (b->t < 600)
    {
      step (b, 0.1);
      if (get (b, VALVE, "opening") > 0)
        return b->t;
    }
  return INFINITY;
}

/* ---- Igniter and valve ---- */

/* Above 2,000 °F when the gas comes: between 114 and 126 V, in a kitchen of 15 to 35 °C. */
static void
test_hot_enough (void)
{
  for (int volts = 114; volts <= 126; volts += 6)
    for (int celsius = 15; celsius <= 35; celsius += 10)
      {
        Bench b;

        bench_init (&b, "igniter-flat", celsius);
        b.volts = volts;
        g_assert_true (isfinite (time_to_lift (&b)));
        g_assert_cmpfloat (TO_DEGF (get (&b, IGNITER, "temperature")), >, 2000);
      }
}

/* Cold ohms scatter from one specimen to the next and say nothing about the current when hot. */
static void
test_cold_ohms (void)
{
  double least = INFINITY, most = 0;

  for (guint64 seed = 1; seed <= 40; seed++)
    {
      Bench b;

      bench_init (&b, "igniter-flat", 25);
      b.part[IGNITER].c.seed = seed;
      evaluate (&b);
      double cold = 1 / b.part[IGNITER].g[0].re;
      least = MIN (least, cold);
      most = MAX (most, cold);
      g_assert_true (isfinite (time_to_lift (&b)));
    }
  g_assert_cmpfloat (least, <, 60);
  g_assert_cmpfloat (most, >, 140);
}

static void
test_broken (void)
{
  Bench b;

  bench_init (&b, "igniter-flat", 25);
  *setting (&b, IGNITER, "broken") = 1;
  bake (&b, 350);
  g_assert_cmpfloat (get (&b, IGNITER, "current"), ==, 0);
  bench_init (&b, "igniter-flat", 25);
  *setting (&b, VALVE, "broken") = 1;
  bake (&b, 350);
  g_assert_cmpfloat (get (&b, VALVE, "current"), ==, 0);
}

/* ---- Burner ---- */

static void
test_lights_silently (void)
{
  Bench b;

  bench_init (&b, "igniter-flat", 25);
  double lift = time_to_lift (&b);
  while (get (&b, BURNER, "flame") < 1 && b.t < 600)
    step (&b, 0.02);
  double wait = b.t - lift;
  g_test_message ("gas for %.2f s, then %.2f kJ go off", wait,
                  get (&b, BURNER, "light-energy") / 1e3);
  g_assert_cmpfloat (wait, >=, 0.2);
  g_assert_cmpfloat (wait, <=, 1.5);
  g_assert_cmpfloat (get (&b, BURNER, "light-energy"), <, 5e3);
  for (int k = 0; k < 100; k++)
    step (&b, 0.05);
  g_assert_cmpfloat (fabs (get (&b, BURNER, "heat") - 5275), <, 0.03 * 5275);
  g_assert_cmpfloat (get (&b, BURNER, "gathered"), <, 1e-9);
}

/* Gas over an igniter that is too cool gathers; the longer, the more goes off when it is hot at
 * last. */
static void
test_gathers (void)
{
  double last = 0;

  for (double late = 4; late <= 16; late *= 2)
    {
      Bench b;

      bench_init (&b, "igniter-flat", 25);
      bake (&b, 350);
      b.part[VALVE].y[0] = 600; /* an arm bent by force: gas with a cold igniter */
      b.volts = 0;
      for (double t = 0; t < late; t += 0.05)
        {
          b.part[VALVE].y[0] = 600;
          step (&b, 0.05);
        }
      g_assert_cmpfloat (get (&b, BURNER, "flame"), ==, 0);
      g_assert_cmpfloat (get (&b, BURNER, "unlit"), >, late - 0.5);
      b.part[IGNITER].y[0] = 1600;
      step (&b, 0.05);
      g_assert_cmpfloat (get (&b, BURNER, "flame"), ==, 1);
      double energy = get (&b, BURNER, "light-energy");
      g_assert_cmpfloat (energy, >, last);
      g_assert_cmpfloat (energy, <=, 5400 * late);
      last = energy;
    }
  g_assert_cmpfloat (last, >, 40e3);
}

static void
test_wrong_gas (void)
{
  Bench b;

  bench_init (&b, "igniter-flat", 25);
  b.house.fuel = &hob_fuels[HOB_FUEL_LP];
  b.pressure = 2490; /* 10 in. w.c. on a natural gas orifice */
  time_to_lift (&b);
  for (int k = 0; k < 600; k++)
    step (&b, 0.02);
  g_assert_cmpfloat (get (&b, BURNER, "heat"), >, 2.0 * 5275);
  g_assert_cmpfloat (get (&b, BURNER, "yellow"), >, 0.5);
}

/* ---- Cavity ---- */

static double
stored (const Bench *b, gboolean gas)
{
  double sum = 0;

  for (int k = 0; k < N_PARTS; k++)
    {
      double (*of) (const HobPartContext *)
          = gas ? b->part[k].kind->stored_gas : b->part[k].kind->stored_heat;

      sum += of != NULL ? of (&b->part[k].c) : 0;
    }
  return sum;
}

/* Heat in = heat out + heat stored, gas likewise: as it is, with the fan, with a bad gasket. */
static void
test_ledgers (void)
{
  Bench b;

  bench_init (&b, "igniter-flat", 25);
  double heat0 = stored (&b, FALSE);
  bake (&b, 350);
  while (b.t < 1500)
    {
      b.fan = b.t > 600;
      *setting (&b, CAVITY, "gasket-leak") = b.t > 1000 ? 0.5 : 0;
      step (&b, 0.1);
    }
  double heat
      = b.sum[HOB_LEDGER_HEAT_IN] - b.sum[HOB_LEDGER_HEAT_OUT] - b.warmed
        - (stored (&b, FALSE) - heat0);
  double gas = b.sum[HOB_LEDGER_GAS_IN] - b.sum[HOB_LEDGER_GAS_BURNT]
               - b.sum[HOB_LEDGER_GAS_ESCAPED] - stored (&b, TRUE);
  g_test_message ("heat %.3g J of %.3g, gas %.3g kg of %.3g", heat, b.sum[HOB_LEDGER_HEAT_IN], gas,
                  b.sum[HOB_LEDGER_GAS_IN]);
  g_assert_cmpfloat (b.sum[HOB_LEDGER_HEAT_IN], >, 4e6);
  g_assert_cmpfloat (fabs (heat), <, MAX (1, 1e-3 * b.sum[HOB_LEDGER_HEAT_IN]));
  g_assert_cmpfloat (fabs (gas), <, 1e-9);
}

/* The igniter's 400 W alone warm the cavity, but bake nothing. */
static void
test_igniter_alone (void)
{
  Bench b;

  bench_init (&b, "igniter-flat", 25);
  b.pressure = 0;
  bake (&b, 350);
  while (b.t < 600)
    step (&b, 0.1);
  double celsius = get (&b, CAVITY, "air") - 273.15;
  g_test_message ("%.1f °C after ten minutes of glow", celsius);
  g_assert_cmpfloat (celsius, >, 33);
  g_assert_cmpfloat (celsius, <, 45);
}

static void
test_still_oven (void)
{
  Bench b;

  bench_init (&b, "igniter-flat", 25);
  settle (&b);
  while (b.t < 60)
    step (&b, 0.5);
  for (int k = 0; k < b.part[CAVITY].kind->n_states; k++)
    if (b.part[CAVITY].kind->states[k].dim == HOB_DIM_TEMPERATURE)
      g_assert_cmpfloat (b.part[CAVITY].y[k], ==, b.house.temperature);
  g_assert_cmpfloat_with_epsilon (get (&b, CAVITY, "oxygen"), HOB_OXYGEN_IN_AIR, 1e-9);
}

/* ---- Dial ---- */

static void
test_dial (void)
{
  Bench b;

  bench_init (&b, "igniter-flat", 25);
  settle (&b);
  /* The thermostat knows nothing of the selector: cold, its contact is closed and the selector
   * cuts. */
  g_assert_cmpfloat (get (&b, DIAL, "contact"), ==, 1);
  g_assert_cmpfloat (get (&b, IGNITER, "current"), ==, 0);
  bake (&b, 350);
  g_assert_cmpfloat (get (&b, DIAL, "contact"), ==, 1);
  g_assert_cmpfloat (get (&b, IGNITER, "current"), >, 0);

  const struct
  {
    double degf;
    int contact;
  } path[] = { { 354.9, 1 }, { 355.1, 0 }, { 345.1, 0 }, { 344.9, 1 } };
  for (guint k = 0; k < G_N_ELEMENTS (path); k++)
    {
      b.part[BULB].y[0] = DEGF (path[k].degf);
      settle (&b);
      g_assert_cmpfloat (get (&b, DIAL, "contact"), ==, path[k].contact);
    }

  *setting (&b, DIAL, "welded") = 1;
  b.part[BULB].y[0] = DEGF (450);
  settle (&b);
  g_assert_cmpfloat (get (&b, IGNITER, "current"), >, 0);
}

/* ---- Sensor and board, joined by hand ---- */

/* What the board takes @ohms across its sensor terminals for, K; through @error what it complains
 * of. */
static double
board_reads (double ohms, gboolean *error)
{
  const HobKind *board = hob_kind_find ("oven-board");
  double set[MAX_OF], ctl[MAX_OF], mode[MAX_OF] = { 0 }, y[MAX_OF] = { 298.15 };
  HobComplex v[MAX_OF] = { { 0, 0 } }, g[MAX_OF], emf[MAX_OF];
  HobHouse house = { 298.15, 0.5, 101325, &hob_fuels[HOB_FUEL_NATURAL] };
  double t;
  HobPartContext c = {
    .t = &t, .house = &house, .set = set, .ctl = ctl, .mode = mode,
    .v = v, .g = g, .emf = emf, .y = y
  };

  for (int k = 0; k < board->n_settings; k++)
    set[k] = board->settings[k].normal;
  for (int k = 0; k < board->n_controls; k++)
    ctl[k] = board->controls[k].start;
  ctl[hob_kind_control (board, "mode")] = 1;
  v[hob_kind_terminal (board, "line")].re = 120;
  board->start (&c, y);
  for (t = 0; t < 4; t += 0.5)
    for (int guard = 0; guard < board->n_guards; guard++)
      {
        memset (g, 0, sizeof g);
        memset (emf, 0, sizeof emf);
        board->conduct (&c);
        /* Element 1 is its source: from sensor-b to sensor-a. */
        double divided = g[1].re > 0 ? emf[1].re * ohms / (ohms + 1 / g[1].re) : 0;
        v[hob_kind_terminal (board, "sensor-a")].re = isfinite (ohms) ? divided : emf[1].re;
        if (board->guard (&c, guard) > 0)
          board->flip (&c, guard, y);
      }
  *error = board->observe (&c, hob_kind_quantity (board, "error")) > 0;
  return board->observe (&c, hob_kind_quantity (board, "sensed"));
}

static void
test_board_reads (void)
{
  gboolean error;

  for (double kelvin = 280; kelvin < 570; kelvin += 10)
    {
      g_assert_cmpfloat (
          fabs (board_reads (hob_platinum_resistance (1000, kelvin), &error) - kelvin), <, 0.01);
      g_assert_false (error);
    }
  board_reads (INFINITY, &error);
  g_assert_true (error);
  board_reads (3100, &error);
  g_assert_true (error);
  board_reads (850, &error);
  g_assert_true (error);
  board_reads (0.01, &error);
  g_assert_true (error);
}

/* 60 ohm in the sensor's plug make the board believe the oven 16.2 K hotter: it bakes 29 °F
 * cool. */
static void
test_plug_ohms (void)
{
  gboolean error;
  double kelvin = DEGF (350);
  double believed = board_reads (hob_platinum_resistance (1000, kelvin) + 60, &error);

  g_assert_cmpfloat (fabs (believed - kelvin - 16.2), <, 0.4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/parts-oven/the igniter is above 2000 degF when the gas comes",
                   test_hot_enough);
  g_test_add_func ("/parts-oven/cold ohms convict no igniter", test_cold_ohms);
  g_test_add_func ("/parts-oven/a broken igniter or heater carries nothing", test_broken);
  g_test_add_func ("/parts-oven/a healthy burner lights silently", test_lights_silently);
  g_test_add_func ("/parts-oven/gas that waits goes off the louder", test_gathers);
  g_test_add_func ("/parts-oven/a natural gas jet on LP burns big and yellow", test_wrong_gas);
  g_test_add_func ("/parts-oven/heat and gas balance", test_ledgers);
  g_test_add_func ("/parts-oven/the igniter alone bakes nothing", test_igniter_alone);
  g_test_add_func ("/parts-oven/a still oven stays at the room's temperature", test_still_oven);
  g_test_add_func ("/parts-oven/the dial opens 5 degF above and closes 5 degF below", test_dial);
  g_test_add_func ("/parts-oven/the board reads its sensor through the circuit", test_board_reads);
  g_test_add_func ("/parts-oven/ohms in the plug make the oven run cool", test_plug_ohms);
  return g_test_run ();
}
