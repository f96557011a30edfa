/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A run in time: the same bits however it is asked, acts in the past, undo, conservation. */

#include "config.h"
#include "base/hash.h"
#include "run/engine.h"
#include <math.h>

typedef struct
{
  HobRange *range;
  HobPlan *plan;
  HobCase *acts;
} Fixture;

static char *
shipped (const char *name)
{
  return g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
}

static void
set_up (Fixture *f, gconstpointer name)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *file = shipped (name);

  f->range = hob_range_load (file, NULL, &error);
  g_assert_no_error (error);
  f->plan = hob_plan_new (f->range);
  f->acts = hob_case_new (f->range);
}

static void
tear_down (Fixture *f, gconstpointer name)
{
  hob_case_free (f->acts);
  hob_plan_unref (f->plan);
  hob_range_unref (f->range);
}

static void
do_ (Fixture *f, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_do (f->acts, text, &error);
  g_assert_no_error (error);
}

static HobRun *
run_of (Fixture *f, double until)
{
  g_autoptr (GError) error = NULL;
  HobRun *run = hob_run_new (f->plan, f->acts, NULL);

  hob_run_set_checked (run);
  hob_run_advance (run, until, &error);
  g_assert_no_error (error);
  return run;
}

static guint64
hash_at (HobRun *run, HobMoment *m, double t)
{
  hob_run_read (run, t, m);
  return hob_moment_hash (m);
}

static double
random_time (guint k, double until)
{
  return floor (hob_hash_uniform (7, 11, k) * until * 1000) / 1000;
}

static void
busy_case (Fixture *f)
{
  do_ (f, "0s oven.mode=bake");
  do_ (f, "2s knob-lf=light");
  do_ (f, "8s knob-lf=high");
  do_ (f, "600s knob-lf=off");
  do_ (f, "700s oven.dial=450 degF");
}

static void
same_state_however_asked (Fixture *f, gconstpointer name)
{
  g_autoptr (HobMoment) m = hob_moment_new (f->plan);
  g_autoptr (HobMoment) other = hob_moment_new (f->plan);
  double until = 1500;
  guint64 forward[100];

  busy_case (f);
  g_autoptr (HobRun) run = run_of (f, until);
  for (guint k = 0; k < 100; k++)
    forward[k] = hash_at (run, m, random_time (k, until));
  for (guint k = 100; k-- > 0;)
    g_assert_cmphex (hash_at (run, m, random_time (k, until)), ==, forward[k]);
  for (guint k = 0; k < 100; k += 9)
    {
      double t = random_time (k, until);
      g_autoptr (HobRun) fresh = run_of (f, t);
      g_assert_cmphex (hash_at (fresh, other, t), ==, forward[k]);
    }
  for (double every = 0.1; every < 20; every *= 100)
    {
      g_autoptr (HobRun) slow = hob_run_new (f->plan, f->acts, NULL);
      for (double t = 0; t < until; t += every)
        {
          hob_run_advance (slow, t, NULL);
          hob_run_read (slow, t, other);
        }
      for (guint k = 0; k < 100; k++)
        {
          hob_run_advance (slow, until, NULL);
          g_assert_cmphex (hash_at (slow, other, random_time (k, until)), ==, forward[k]);
        }
    }
}

static void
live_acts_are_scripted_acts (Fixture *f, gconstpointer name)
{
  g_autoptr (HobMoment) m = hob_moment_new (f->plan);
  g_autoptr (HobCase) empty = hob_case_copy (f->acts);

  busy_case (f);
  g_autoptr (HobRun) scripted = run_of (f, 900);
  guint64 wanted = hash_at (scripted, m, 900);
  g_autoptr (HobRun) live = hob_run_new (f->plan, empty, NULL);
  for (guint k = 0; k < f->acts->acts->len; k++)
    {
      HobAct act = g_array_index (f->acts->acts, HobAct, k);
      hob_run_advance (live, (double) act.ms / 1000, NULL);
      hob_run_act (live, act);
    }
  hob_run_advance (live, 900, NULL);
  g_assert_cmphex (hash_at (live, m, 900), ==, wanted);
}

static void
act_in_the_past_cuts_and_one_undo_restores (Fixture *f, gconstpointer name)
{
  g_autoptr (HobMoment) m = hob_moment_new (f->plan);

  busy_case (f);
  g_autoptr (HobRun) run = run_of (f, 900);
  guint64 before = hash_at (run, m, 900), early = hash_at (run, m, 99);
  HobAct off = { 100 * 1000, HOB_ACT_CONTROL, 0, 0, 0 };
  hob_range_find_control (f->range, "oven.mode", &off.part, &off.index, NULL);
  hob_run_act (run, off);
  g_assert_cmpfloat (hob_run_reached (run), <=, 100);
  hob_run_advance (run, 900, NULL);
  g_assert_cmphex (hash_at (run, m, 900), !=, before);
  g_assert_cmphex (hash_at (run, m, 99), ==, early);
  g_assert_true (hob_run_undo (run));
  hob_run_advance (run, 900, NULL);
  g_assert_cmphex (hash_at (run, m, 900), ==, before);
  g_assert_false (hob_run_undo (run));
}

static void
currents_heat_and_gas_are_conserved (Fixture *f, gconstpointer name)
{
  g_autoptr (HobMoment) m = hob_moment_new (f->plan);
  double heat, turned, gas, gas_turned, oxygen, products, burnt;

  busy_case (f);
  g_autoptr (HobRun) run = run_of (f, 3600);
  g_assert_cmpfloat (hob_run_counters (run).worst_residual, <, 1e-9);
  g_assert_cmpfloat (hob_run_counters (run).worst_gas, <, 1e-9);
  hob_run_read (run, 3600, m);
  hob_moment_balance (m, &heat, &turned, &gas, &gas_turned);
  g_test_message ("heat %.3g of %.4g J, gas %.3g of %.4g kg, residual %.2g", heat, turned, gas,
                  gas_turned, hob_run_counters (run).worst_residual);
  g_assert_cmpfloat (turned, >, 5e6);
  g_assert_cmpfloat (fabs (heat), <, fmax (1, 1e-3 * turned));
  g_assert_cmpfloat (fabs (gas), <, fmax (1e-9, 1e-3 * gas_turned));
  hob_moment_air_balance (m, &oxygen, &products, &burnt);
  g_test_message ("of %.4g mol burned: oxygen %.2g, products %.2g mol", burnt, oxygen, products);
  g_assert_cmpfloat (burnt, >, 1);
  g_assert_cmpfloat (fabs (oxygen), <, 1e-6 * burnt);
  g_assert_cmpfloat (fabs (products), <, 1e-6 * burnt);
}

static void
next_event_is_the_first_after (Fixture *f, gconstpointer name)
{
  HobEvent event;
  double t = -1;

  busy_case (f);
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL);
  for (int k = 0; k < 12; k++)
    {
      g_assert_true (hob_run_next_event (run, t, 3600, &event));
      g_assert_cmpfloat (event.t, >, t);
      t = event.t;
    }
  g_assert_false (hob_run_next_event (run, 3599.9999, 3600, &event) && event.t > 3600);
}

static void
block_is_small (Fixture *f, gconstpointer name)
{
  g_assert_cmpuint (hob_plan_block_size (f->plan), <=, 4096);
}

static void
spoil (double *values, int n)
{
  for (int k = 0; k < n; k++)
    values[k] = NAN;
}

/* All that a guard may not read if it says so, as if it had never been computed. */
static void
spoil_what_is_computed (HobMoment *m)
{
  const HobPlan *plan = m->plan;

  spoil ((double *)m->v, 2 * plan->n_terms);
  spoil ((double *)m->i, 2 * plan->n_elems);
  spoil (m->p, plan->n_ports);
  spoil (m->q, plan->n_gas_branches);
  spoil (m->dy, plan->n_y);
  for (int k = 0; k < plan->range->n_leads; k++)
    m->leads[k].volts = m->leads[k].energy = m->leads[k].rate = m->leads[k].phase = NAN;
  spoil (m->place_start, HOB_N_PLACE - HOB_PLACE_HEAT);
  m->t_last = NAN;
}

/* A knob is left where it sparks, for a while. */
static void
sparking_case (Fixture *f)
{
  busy_case (f);
  do_ (f, "800s knob-rr=light");
  do_ (f, "1400s knob-rr=off");
}

/* While the moment is looked for at which a guard is due, only what it says it reads is
 * computed. */
static void
guards_read_what_they_say (Fixture *f, gconstpointer name)
{
  const double until = 1500;
  int n = 0;

  sparking_case (f);
  g_autoptr (HobRun) run = run_of (f, until);
  for (guint k = 0; k < 50; k++)
    for (int g = 0; g < f->plan->n_guards; g++)
      {
        g_autoptr (HobMoment) m = hob_moment_new (f->plan);
        HobGuardRef ref = f->plan->guards[g];
        const guint8 *reads = f->range->parts[ref.part].kind->guard_reads;

        if (reads == NULL || reads[ref.k] == HOB_READS_ALL)
          continue;
        hob_run_read (run, random_time (k, until), m);
        double wanted = hob_moment_guard (m, g);
        spoil_what_is_computed (m);
        hob_moment_evaluate_for_guard (m, m->t, NULL, g);
        g_assert_cmpfloat (hob_moment_guard (m, g), ==, wanted);
        n++;
      }
  g_assert_cmpint (n, >=, 50);
}

/* While the moment is looked for at which a quantity passes a bound, too. */
static void
quantities_read_what_they_say (Fixture *f, gconstpointer name)
{
  const double until = 1500;
  int n = 0, others = 0;

  sparking_case (f);
  g_autoptr (HobRun) run = run_of (f, until);
  for (guint k = 0; k < 50; k++)
    for (int p = 0; p < f->range->n_parts; p++)
      for (int q = 0; q < f->range->parts[p].kind->n_quantities; q++)
        {
          g_autoptr (HobMoment) m = NULL;
          HobReads reads = f->range->parts[p].kind->quantities[q].reads;

          if (reads == HOB_READS_ALL)
            continue;
          m = hob_moment_new (f->plan);
          hob_run_read (run, random_time (k, until), m);
          double wanted = hob_moment_quantity (m, p, q);
          spoil_what_is_computed (m);
          hob_moment_evaluate_for (m, m->t, NULL, p, reads);
          g_assert_cmpfloat (hob_moment_quantity (m, p, q), ==, wanted);
          n++;
          others += wanted != 0 && wanted != f->range->parts[p].kind->quantities[q].never;
        }
  g_assert_cmpint (n, >=, 50);
  g_assert_cmpint (others, >=, 50);
}

#define ADD(sentence, function)                                                                    \
  g_test_add ("/run/" sentence "/dial-four", Fixture, "dial-four.xml", set_up, function,           \
              tear_down);                                                                          \
  g_test_add ("/run/" sentence "/board-five", Fixture, "board-five.xml", set_up, function,         \
              tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("same-state-however-asked", same_state_however_asked);
  ADD ("live-acts-are-scripted-acts", live_acts_are_scripted_acts);
  ADD ("act-in-the-past-cuts-and-one-undo-restores", act_in_the_past_cuts_and_one_undo_restores);
  ADD ("currents-heat-and-gas-are-conserved", currents_heat_and_gas_are_conserved);
  ADD ("next-event-is-the-first-after", next_event_is_the_first_after);
  ADD ("guards-read-what-they-say", guards_read_what_they_say);
  ADD ("quantities-read-what-they-say", quantities_read_what_they_say);
  ADD ("block-is-small", block_is_small);
  return g_test_run ();
}
