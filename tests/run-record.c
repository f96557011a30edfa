/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A run's record: what is done goes back and forth, memory is bounded, and neither changes a
 * bit. */

#include "config.h"
#include "base/hash.h"
#include "run/record.h"
#include <math.h>

typedef struct
{
  HobRange *range;
  HobPlan *plan;
  HobCase *acts;
  HobMoment *m;
} Fixture;

static void
set_up (Fixture *f, gconstpointer name)
{
  g_autofree char *file = g_build_filename (HOB_SOURCE_DIR, "diagrams", name, NULL);
  g_autoptr (GError) error = NULL;

  f->range = hob_range_load (file, NULL, &error);
  g_assert_no_error (error);
  f->plan = hob_plan_new (f->range);
  f->acts = hob_case_new (f->range);
  f->m = hob_moment_new (f->plan);
}

static void
tear_down (Fixture *f, gconstpointer name)
{
  hob_moment_free (f->m);
  hob_case_free (f->acts);
  hob_plan_unref (f->plan);
  hob_range_unref (f->range);
}

static void
do_ (HobCase *acts, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_do (acts, text, &error);
  g_assert_no_error (error);
}

static HobAct
act_of (Fixture *f, gint64 ms, const char *control, double value)
{
  HobAct act = { .ms = ms, .what = HOB_ACT_CONTROL, .value = value };

  g_assert_true (hob_range_find_control (f->range, control, &act.part, &act.index, NULL));
  return act;
}

static void
advance (HobRun *run, double t)
{
  g_autoptr (GError) error = NULL;

  hob_run_advance (run, t, &error);
  g_assert_no_error (error);
}

static guint64
hash_at (Fixture *f, HobRun *run, double t)
{
  advance (run, t);
  g_assert_true (hob_run_read (run, t, f->m));
  return hob_moment_hash (f->m);
}

static double
random_time (guint k, double until)
{
  return floor (hob_hash_uniform (3, 5, k) * until * 1000) / 1000;
}

static guint
pick (guint k, guint salt, guint n)
{
  return (guint) (hob_hash_uniform (17, salt, k) * n);
}

/* ---- Who is who ---- */

static void
each_of_a_thousand_runs_shows_its_own_states (Fixture *f, gconstpointer name)
{
  for (int k = 0; k < 1000; k++)
    {
      g_autoptr (HobCase) acts = hob_case_new (f->range);
      HobAct bake = act_of (f, 1 + k, "oven.mode", 1);

      hob_case_add (acts, bake);
      g_autoptr (HobRun) run = hob_run_new (f->plan, acts, NULL);
      advance (run, 3);
      hob_run_read (run, 2.5, f->m);
      g_assert_cmpfloat (hob_moment_control (f->m, bake.part, bake.index), ==,
                         1 + k <= 2500 ? 1 : 0);
      g_autoptr (HobMoment) fresh = hob_moment_new (f->plan);
      hob_run_read (run, 2.5, fresh);
      g_assert_cmphex (hob_moment_hash (f->m), ==, hob_moment_hash (fresh));
    }
}

static void
cases_have_serial_numbers (Fixture *f, gconstpointer name)
{
  g_autoptr (HobCase) copy = hob_case_copy (f->acts);
  guint64 before = f->acts->serial;

  g_assert_cmphex (copy->serial, !=, before);
  do_ (f->acts, "1s oven.mode=bake");
  g_assert_cmphex (f->acts->serial, !=, before);
  before = f->acts->serial;
  hob_case_remove (f->acts, 0);
  g_assert_cmphex (f->acts->serial, !=, before);
}

/* ---- Undo and redo ---- */

#define CHANGES 30

/* Any act of any class, in the past or now. */
static void
change_something (Fixture *f, HobRun *run, guint k)
{
  gint64 ms = (gint64) (random_time (100 + k, 900) * 1000);
  HobAct act = act_of (f, ms, k % 2 ? "oven.mode" : "knob-lf", pick (k, 1, 2) * (k % 2 ? 1 : 100));
  guint n = hob_run_case (run)->acts->len;

  switch (pick (k, 2, 5))
    {
    case 0:
      hob_run_remove (run, pick (k, 3, n));
      return;
    case 1:
      act.ms = 0;
      hob_run_insert (run, act);
      return;
    case 2:
      act = (HobAct){ ms, HOB_ACT_FAULT, act.part, 0, 1 };
      break;
    case 3:
      act = (HobAct){ pick (k, 4, 2) * ms, HOB_ACT_SETTING, hob_range_part (f->range, "receptacle"),
                      0, 0 };
      act.index = hob_kind_setting (f->range->parts[act.part].kind, "volts");
      act.value = 110 + pick (k, 5, 15);
      break;
    default:
      break;
    }
  if (k % 7 == 3)
    hob_run_join (run);
  hob_run_act (run, act);
}

static void
all_that_was_done_is_undone_and_done_again (Fixture *f, gconstpointer name)
{
  g_autoptr (HobRun) run = NULL;
  guint64 hash[CHANGES + 1];
  guint things = 0, k;

  do_ (f->acts, "0s oven.mode=bake");
  do_ (f->acts, "2s knob-lf=light");
  do_ (f->acts, "600s knob-lf=off");
  run = hob_run_new (f->plan, f->acts, NULL);
  hash[0] = hash_at (f, run, 900);
  for (k = 0; k < CHANGES; k++)
    {
      gboolean joined = k % 7 == 3 && pick (k, 2, 5) >= 2;

      change_something (f, run, k);
      things += !joined;
      hash[things] = hash_at (f, run, 900);
      g_autoptr (HobRun) fresh = hob_run_new (f->plan, hob_run_case (run), NULL);
      g_assert_cmphex (hash_at (f, fresh, 900), ==, hash[things]);
    }
  g_assert_cmpuint (things, <, CHANGES);
  for (k = things; k-- > 0;)
    {
      g_assert_true (hob_run_undo (run));
      g_assert_cmphex (hash_at (f, run, 900), ==, hash[k]);
    }
  g_assert_false (hob_run_undo (run));
  g_assert_false (hob_run_can_undo (run));
  g_assert_cmpuint (hob_case_common (hob_run_case (run), f->acts), ==, 3);
  for (k = 1; k <= things; k++)
    {
      g_assert_true (hob_run_can_redo (run));
      g_assert_true (hob_run_redo (run));
      g_assert_cmphex (hash_at (f, run, 900), ==, hash[k]);
    }
  g_assert_false (hob_run_redo (run));
}

static void
a_new_act_ends_redo (Fixture *f, gconstpointer name)
{
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL);

  hob_run_act (run, act_of (f, 1000, "oven.mode", 1));
  hob_run_act (run, act_of (f, 2000, "oven.mode", 0));
  g_assert_true (hob_run_undo (run));
  hob_run_act (run, act_of (f, 3000, "knob-lf", 100));
  g_assert_false (hob_run_redo (run));
  g_assert_cmpuint (hob_run_case (run)->acts->len, ==, 2);
}

/* Who goes back and does something there does all that follows anew; what only is to come stays.
 * It is one thing that is undone. */
static void
what_was_done_after_an_act_goes_with_it (Fixture *f, gconstpointer name)
{
  const HobCase *acts;

  do_ (f->acts, "60s door=closed");
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL);
  acts = hob_run_case (run);
  advance (run, 20);
  hob_run_act (run, act_of (f, 10000, "knob-lf", 100));
  advance (run, 20);
  hob_run_act (run, act_of (f, 15000, "door", 1));
  advance (run, 20);
  g_assert_cmpuint (acts->acts->len, ==, 3);
  hob_run_act (run, act_of (f, 5000, "oven.mode", 1));
  g_assert_cmpuint (acts->acts->len, ==, 2);
  g_assert_cmpint (g_array_index (acts->acts, HobAct, 0).ms, ==, 5000);
  g_assert_cmpint (g_array_index (acts->acts, HobAct, 1).ms, ==, 60000);
  advance (run, 20);
  hob_run_undo (run);
  g_assert_cmpuint (acts->acts->len, ==, 3);
  g_assert_cmpint (g_array_index (acts->acts, HobAct, 0).ms, ==, 10000);
}

static void
another_case_cuts_where_it_differs (Fixture *f, gconstpointer name)
{
  g_autoptr (HobCase) other = NULL;
  g_autoptr (HobRun) run = NULL, fresh = NULL;

  do_ (f->acts, "0s oven.mode=bake");
  do_ (f->acts, "400s knob-lf=light");
  other = hob_case_copy (f->acts);
  do_ (other, "300s door=open");
  run = hob_run_new (f->plan, f->acts, NULL);
  advance (run, 600);
  hob_run_set_case (run, f->acts);
  g_assert_cmpfloat (hob_run_reached (run), >=, 600);
  hob_run_set_case (run, other);
  g_assert_cmpfloat (hob_run_reached (run), <=, 300);
  g_assert_cmpfloat (hob_run_reached (run), >, 100);
  fresh = hob_run_new (f->plan, other, NULL);
  g_assert_cmphex (hash_at (f, run, 600), ==, hash_at (f, fresh, 600));
  other->seed = 5;
  hob_run_set_case (run, other);
  g_assert_cmpfloat (hob_run_reached (run), ==, 0);
}

/* ---- Acts without end ---- */

static void
a_thousand_turns_at_one_moment_are_legal (Fixture *f, gconstpointer name)
{
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL), fresh = NULL;

  advance (run, 5);
  for (int k = 0; k < 1000; k++)
    {
      hob_run_act (run, act_of (f, 5000, "knob-lf", k % 2 ? 100 : 0));
      advance (run, 5);
    }
  fresh = hob_run_new (f->plan, hob_run_case (run), NULL);
  g_assert_cmphex (hash_at (f, run, 10), ==, hash_at (f, fresh, 10));
  while (hob_run_can_undo (run))
    hob_run_undo (run);
  g_assert_cmpuint (hob_run_case (run)->acts->len, ==, 0);
}

static void
a_cut_repeats_no_event (Fixture *f, gconstpointer name)
{
  guint first, n, again;

  do_ (f->acts, "0s oven.mode=bake");
  do_ (f->acts, "100s knob-lf=light");
  do_ (f->acts, "105s knob-lf=high");
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL);
  advance (run, 600);
  n = hob_run_events (run, -1, 600, &first);
  for (guint k = 0; k < 50; k++)
    {
      hob_run_act (run, act_of (f, (gint64) (random_time (k, 600) * 1000), "door", 1));
      advance (run, random_time (k + 50, 600));
      hob_run_undo (run);
      advance (run, 600);
      again = hob_run_events (run, -1, 600, &first);
      g_assert_cmpuint (again, ==, n);
    }
}

/* ---- Memory ---- */

#define SMALL (256u << 10)

static void
a_thinned_run_reads_as_a_fresh_one (Fixture *f, gconstpointer name)
{
  double until = 3 * 3600;

  do_ (f->acts, "0s oven.mode=bake");
  do_ (f->acts, "2s knob-lf=light");
  do_ (f->acts, "8s knob-lf=high");
  do_ (f->acts, "7000s knob-lf=off");
  g_autoptr (HobRun) whole = hob_run_new (f->plan, f->acts, NULL),
                     small = hob_run_new (f->plan, f->acts, NULL);
  hob_run_set_limit (small, SMALL);
  advance (whole, until);
  advance (small, until);
  g_assert_cmpuint (small->bytes, <=, SMALL);
  g_assert_cmpuint (small->bytes, >, SMALL / 4);
  for (guint k = 0; k < 200; k++)
    {
      double t = random_time (k, until);

      g_assert_cmphex (hash_at (f, small, t), ==, hash_at (f, whole, t));
      if (k % 40 == 0)
        {
          g_autoptr (HobRun) fresh = hob_run_new (f->plan, f->acts, NULL);
          g_assert_cmphex (hash_at (f, fresh, t), ==, hash_at (f, small, t));
        }
    }
  g_assert_cmphex (hash_at (f, small, until + 900), ==, hash_at (f, whole, until + 900));
}

/* Looking back between two steps leaves the next one as it is, thinned or not. */
static void
looking_back_does_not_touch_the_run (Fixture *f, gconstpointer name)
{
  do_ (f->acts, "0s oven.mode=bake");
  do_ (f->acts, "40s knob-lf=light");
  g_autoptr (HobRun) still = hob_run_new (f->plan, f->acts, NULL),
                     looked = hob_run_new (f->plan, f->acts, NULL);
  hob_run_set_limit (looked, SMALL / 8);
  for (guint k = 1; k <= 300; k++)
    {
      advance (looked, 10 * k);
      for (guint i = 0; i < 3; i++)
        hob_run_read (looked, random_time (3 * k + i, 10 * k), f->m);
    }
  g_assert_cmphex (hash_at (f, looked, 3000), ==, hash_at (f, still, 3000));
  g_assert_cmpuint (hob_run_counters (looked).steps, ==, hob_run_counters (still).steps);
  g_assert_cmpuint (hob_run_counters (looked).events, ==, hob_run_counters (still).events);
}

/* A step ends where an act is due.  Who reads that moment before the act is done reads what was
 * before it, and afterwards what came of it. */
static void
a_moment_read_before_its_act_shows_the_act_afterwards (Fixture *f, gconstpointer name)
{
  HobAct out = act_of (f, 10000, "cord.plug", 0);

  do_ (f->acts, "10s cord.plug=out");
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL);
  advance (run, 0);
  while (hob_run_reached (run) < 10)
    advance (run, nextafter (hob_run_reached (run), INFINITY));
  g_assert_true (hob_run_read (run, 10, f->m));
  g_assert_cmpfloat (hob_moment_control (f->m, out.part, out.index), ==, 1);
  advance (run, 20);
  g_assert_true (hob_run_read (run, 10, f->m));
  g_assert_cmpfloat (hob_moment_control (f->m, out.part, out.index), ==, 0);
}

/* An act in the middle of a step cuts the record where that step began.  Who looks there before the
 * run goes on does not keep the old step in mind. */
static void
a_reader_at_a_cut_sees_what_was_put_in (Fixture *f, gconstpointer name)
{
  do_ (f->acts, "0s oven.mode=bake");
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL);
  for (double t = 31; t < 300; t += 30)
    {
      HobAct door = act_of (f, 0, "door", 1);
      double from, end;

      advance (run, 300);
      from = g_array_index (run->records, HobRecord, hob_run_record_at (run, t)).t0;
      end = g_array_index (run->records, HobRecord, hob_run_record_at (run, t)).end;
      door.ms = (gint64) (500 * (from + end));
      hob_run_insert (run, door);
      g_assert_true (hob_run_read (run, hob_run_reached (run), f->m));
      advance (run, 300);
      g_assert_true (hob_run_read (run, fmax (end - 1e-4, (double) door.ms / 1000), f->m));
      g_assert_cmpfloat (hob_moment_control (f->m, door.part, door.index), ==, 1);
      hob_run_undo (run);
    }
}

/* Whatever is looked at next, no stretch longer than two gaps is taken again. */
static void
gaps_are_even_over_the_whole_record (Fixture *f, gconstpointer name)
{
  double worst = 0, until = 3 * 3600, last = 0;
  guint n;

  do_ (f->acts, "0s oven.mode=bake");
  g_autoptr (HobRun) run = hob_run_new (f->plan, f->acts, NULL);
  hob_run_set_limit (run, SMALL);
  advance (run, until);
  n = run->records->len;
  g_assert_cmpuint (n, >, 20);
  for (guint k = 1; k < n; k++)
    {
      double steps = g_array_index (run->records, HobRecord, k).ordinal;

      worst = fmax (worst, steps - last);
      last = steps;
    }
  g_test_message ("%u blocks of %.0f steps, the widest gap has %.0f", n, last, worst);
  g_assert_cmpfloat (worst, <=, 2.5 * last / n + 1);
}

#define ADD(sentence, function)                                                                    \
  g_test_add ("/record/" sentence "/dial-four", Fixture, "dial-four.xml", set_up, function,        \
              tear_down);                                                                          \
  g_test_add ("/record/" sentence "/board-five", Fixture, "board-five.xml", set_up, function,      \
              tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("each-of-a-thousand-runs-shows-its-own-states",
       each_of_a_thousand_runs_shows_its_own_states);
  ADD ("cases-have-serial-numbers", cases_have_serial_numbers);
  ADD ("all-that-was-done-is-undone-and-done-again", all_that_was_done_is_undone_and_done_again);
  ADD ("a-new-act-ends-redo", a_new_act_ends_redo);
  ADD ("what-was-done-after-an-act-goes-with-it", what_was_done_after_an_act_goes_with_it);
  ADD ("another-case-cuts-where-it-differs", another_case_cuts_where_it_differs);
  ADD ("a-thousand-turns-at-one-moment-are-legal", a_thousand_turns_at_one_moment_are_legal);
  ADD ("a-cut-repeats-no-event", a_cut_repeats_no_event);
  ADD ("a-thinned-run-reads-as-a-fresh-one", a_thinned_run_reads_as_a_fresh_one);
  ADD ("looking-back-does-not-touch-the-run", looking_back_does_not_touch_the_run);
  ADD ("a-moment-read-before-its-act-shows-the-act-afterwards",
       a_moment_read_before_its_act_shows_the_act_afterwards);
  ADD ("a-reader-at-a-cut-sees-what-was-put-in", a_reader_at_a_cut_sees_what_was_put_in);
  ADD ("gaps-are-even-over-the-whole-record", gaps_are_even_over_the_whole_record);
  return g_test_run ();
}
