/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which hazard holds when: each by what the range does, at the moment at which its figure is
 * reached, and for as long as it must be believed. */

#include "base/errors.h"
#include "base/i18n.h"
#include "shipped.h"
#include "symptoms/bench.h"
#include "watched.h"

#include <math.h>
#include <string.h>

#define BIT(h) HOB_HAZARD_BIT (HOB_HAZARD_##h)
#define GASES (BIT (GAS_STRONG) | BIT (GAS_FAINT) | BIT (GAS_GATHERED))

#define WATCH(range, until, ...)                                                                   \
  watched_run (range, NULL, until, (const char *const[]){ __VA_ARGS__, NULL })

static HobHazards
at (const Watched *w, double t)
{
  return hob_hazards_at (w->book, w->run, t);
}

/* When @hazard first holds; NaN: never. */
static double
begins (const Watched *w, HobHazards hazard)
{
  guint first, n = hob_run_events (w->run, -1, G_MAXDOUBLE, &first);

  for (guint k = first; k < first + n; k++)
    if (at (w, hob_run_event (w->run, k)->t) & hazard)
      return hob_run_event (w->run, k)->t;
  return NAN;
}

/* When it last ended; NaN: it still holds, or never held. */
static double
ends (const Watched *w, HobHazards hazard)
{
  guint first, n = hob_run_events (w->run, -1, G_MAXDOUBLE, &first);
  double end = NAN;

  for (guint k = first + 1; k < first + n; k++)
    {
      double t = hob_run_event (w->run, k)->t, before = hob_run_event (w->run, k - 1)->t;

      if (!(at (w, t) & hazard) && (at (w, before) & hazard))
        end = t;
    }
  return end;
}

static void
a_normal_lighting_raises_none (void)
{
  g_auto (Watched) top
      = WATCH ("dial-four", 60, "1s knob-lf=light", "6s knob-lf=high", "40s knob-lf=off");
  g_auto (Watched) bake = WATCH ("dial-four", 900, "0s oven.mode=bake");
  g_auto (Watched) propane = WATCH ("lp-four", 60, "1s knob-lf=light", "6s knob-lf=high");

  g_assert_cmphex (hob_hazards_up_to (top.book, top.run, 60), ==, 0);
  g_assert_cmphex (hob_hazards_up_to (bake.book, bake.run, 900), ==, 0);
  g_assert_cmphex (hob_hazards_up_to (propane.book, propane.run, 60), ==, HOB_HAZARD_IF_LP);
}

/* s at which 300 W first burn outside. */
static double
rolls_from (const Watched *w)
{
  for (double t = 0; t < 900; t += 0.1)
    if (watched_value (w, "burner-bake.rolled-out", t) >= 300)
      return t;
  return NAN;
}

/* It begins when flames have burned outside for 5 s, with 300 W or more, and is over 5 s after the
 * last.  With as much of the vent open as a flame needs, none does. */
static void
flames_that_roll_out_are_a_fire (void)
{
  g_auto (Watched) w
      = WATCH ("dial-four", 900, "cavity:vent-covered=0.8", "0s oven.mode=bake",
               "600s oven.mode=off");
  g_auto (Watched) open = WATCH ("dial-four", 900, "cavity:vent-covered=0.2", "0s oven.mode=bake");
  double from = begins (&w, BIT (FIRE)), until = ends (&w, BIT (FIRE));

  g_test_message ("rolls out from %.1f s on; fire from %.1f to %.1f s", rolls_from (&w), from,
                  until);
  g_assert_cmpfloat_with_epsilon (from, rolls_from (&w) + 5, 0.2);
  g_assert_cmpfloat (until, >, 600);
  g_assert_cmpfloat (watched_value (&w, "burner-bake.rolled-out", until - 5.5), >, 0);
  g_assert_cmpfloat (watched_value (&w, "burner-bake.rolled-out", until), ==, 0);
  g_assert_cmpfloat (watched_value (&open, "burner-bake.rolled-out", 600), <, 300);
  g_assert_true (isnan (begins (&open, BIT (FIRE))));
}

static void
gas_from_no_burner_that_is_on_is_strong (void)
{
  g_auto (Watched) hose = WATCH ("dial-four", 30, "connector:leaks");
  g_auto (Watched) valve = WATCH ("dial-four", 30, "valve-bake:stuck-open=1");
  g_auto (Watched) stem = WATCH ("dial-four", 30, "valve-lf:leaks");

  g_assert_cmpfloat_with_epsilon (begins (&hose, BIT (GAS_STRONG)), 10, 1e-3);
  g_assert_cmpfloat_with_epsilon (begins (&valve, BIT (GAS_STRONG)), 15, 1e-3);
  g_assert_cmpfloat_with_epsilon (begins (&stem, BIT (GAS_STRONG)), 15, 1e-3);
}

/* The oven is on, so that its burner's gas comes from a burner that is on: what counts is how
 * much there is. */
static void
a_fifth_of_the_lean_limit_is_strong_and_a_twentieth_is_none (void)
{
  g_auto (Watched) w = WATCH ("dial-four", 36000, "valve-bake:stuck-open=0.5", "igniter-bake:open",
                              "0s oven.mode=bake", "60s shutoff=closed", "70s door=open");
  double from = begins (&w, BIT (GAS_STRONG)), to = ends (&w, BIT (GAS_STRONG));

  g_assert_cmpfloat_with_epsilon (watched_value (&w, "cavity.gas", from - 10), 0.2, 1e-3);
  g_assert_true (fabs (watched_value (&w, "cavity.gas", to) - 0.05) < 1e-3);
  g_assert_cmphex (at (&w, from - 0.1) & BIT (GAS_STRONG), ==, 0);
  g_assert_cmphex (at (&w, (from + to) / 2) & BIT (GAS_STRONG), ==, BIT (GAS_STRONG));
  g_assert_false (isnan (to));
}

static void
a_knob_left_on_is_faint_and_propane_strong_after_a_minute (void)
{
  g_auto (Watched) natural = WATCH ("dial-four", 400, "1s knob-lf=high", "80s knob-lf=off");
  g_auto (Watched) propane = WATCH ("lp-four", 400, "1s knob-lf=high", "80s knob-lf=off");
  double gone;

  g_assert_cmpfloat_with_epsilon (begins (&natural, BIT (GAS_FAINT)), 9, 0.1);
  g_assert_true (isnan (begins (&natural, BIT (GAS_STRONG))));
  g_assert_cmphex (at (&natural, 85) & GASES, ==, BIT (GAS_FAINT));
  gone = ends (&natural, BIT (GAS_FAINT));
  g_assert_cmpfloat (watched_value (&natural, "burner-lf.nearby", gone), <, 0.05);
  /* It is smelled a minute longer. */
  g_assert_cmpfloat_with_epsilon (watched_value (&natural, "house.smell", gone - 60), 0.006, 1e-4);
  g_assert_cmpfloat_with_epsilon (begins (&propane, BIT (GAS_FAINT)), 9, 0.1);
  g_assert_cmpfloat_with_epsilon (begins (&propane, BIT (GAS_STRONG)), 61, 0.1);
  g_assert_cmphex (at (&propane, 100) & HOB_HAZARD_IF_LP, !=, 0);
}

/* Whoever could shut it: once enough has gathered to make a cubic meter flammable.  A lower flame's
 * gas needs longer for that. */
static void
a_burner_left_unlit_for_long_is_strong (void)
{
  g_auto (Watched) high = WATCH ("dial-four", 1800, "1s knob-lf:=high");
  g_auto (Watched) half = WATCH ("dial-four", 1800, "1s knob-lf:=65%");
  g_auto (Watched) normal = WATCH ("dial-four", 1800, "1s knob-lf=light", "6s knob-lf=high",
                                   "10s knob-rf=light", "15s knob-rf=high");
  double from = begins (&high, BIT (GAS_STRONG));

  g_assert_cmpfloat_with_epsilon (watched_value (&high, "house.flammable", from - 10), 1, 1e-3);
  g_assert_cmpfloat (from, <, 1200);
  g_assert_cmpfloat (watched_value (&high, "house.smell", from), <, 0.05);
  g_assert_false (begins (&half, BIT (GAS_STRONG)) <= from);
  g_assert_cmpfloat (watched_value (&normal, "house.flammable", 1800), <, 0.01);
  g_assert_true (isnan (begins (&normal, BIT (GAS_STRONG))));
}

/* No spark on the way: these knobs jump. */
static void
a_second_failed_lighting_leaves_gas_an_ovens_first_does (void)
{
  g_auto (Watched) once = WATCH ("dial-four", 60, "1s knob-lf:=high", "7s knob-lf:=off");
  g_auto (Watched) twice = WATCH ("dial-four", 60, "1s knob-lf:=high", "7s knob-lf:=off",
                                  "30s knob-lf:=high", "37s knob-lf:=off");
  g_auto (Watched) aired = WATCH ("dial-four", 400, "1s knob-lf:=high", "7s knob-lf:=off",
                                  "320s knob-lf:=high", "327s knob-lf:=off");
  g_auto (Watched) oven = WATCH ("dial-four", 60, "igniter-bake:open", "valve-bake:stuck-open=1",
                                 "0s oven.mode=bake");

  g_assert_true (isnan (begins (&once, BIT (GAS_GATHERED))));
  g_assert_cmpfloat_with_epsilon (begins (&twice, BIT (GAS_GATHERED)), 35, 0.1);
  g_assert_true (isnan (begins (&aired, BIT (GAS_GATHERED))));
  g_assert_cmpfloat_with_epsilon (begins (&oven, BIT (GAS_GATHERED)), 5, 0.1);
}

#define LIVE_METAL                                                                                 \
  "receptacle:reversed", "receptacle:ground-open", "cord:neutral-pinched", "house:pipe-not-grounded"

/* 2,000 Ω to earth at 120 V are 60 mA; 20 kΩ are 6 mA, that a hand can still let go of. */
static void
a_current_through_a_person_is_a_shock (void)
{
  g_auto (Watched) w = WATCH ("dial-four", 60, LIVE_METAL, "0.2s person=chassis", "10s person=away",
                              "40s cord.plug=out");
  g_auto (Watched) weak
      = WATCH ("dial-four", 60, LIVE_METAL, "person.ohms=20 kohm", "0.2s person=chassis");

  g_assert_cmpfloat (watched_value (&w, "person.felt", 7), >, 0.05);
  g_assert_cmpfloat_with_epsilon (begins (&w, BIT (SHOCK)), 0.2, 1e-3);
  g_assert_cmphex (at (&w, 7) & HOB_HAZARD_IF_STUCK, !=, 0);
  g_assert_cmphex (at (&w, 30) & (BIT (SHOCK) | HOB_HAZARD_IF_STUCK), ==, BIT (SHOCK));
  g_assert_cmpfloat_with_epsilon (ends (&w, BIT (SHOCK)), 40, 1e-3);
  g_assert_cmphex (at (&weak, 30) & (BIT (SHOCK) | HOB_HAZARD_IF_STUCK), ==, BIT (SHOCK));
}

/* What strays hold on a chassis without ground is felt and endangers nobody; what is gone before
 * 0.8 s is what a breaker is for. */
static void
a_live_chassis_is_a_shock_that_nobody_has_to_feel (void)
{
  g_auto (Watched) live = WATCH ("dial-four", 60, LIVE_METAL, "40s cord.plug=out");
  g_auto (Watched) ghost = WATCH ("dial-four", 60, "cord:ground-open", "house:pipe-not-grounded",
                                  "person.path=sink", "5s person=chassis");
  g_auto (Watched) shorted = WATCH ("dial-four", 60, "cord:line-pinched=1");

  g_assert_cmpfloat_with_epsilon (begins (&live, BIT (SHOCK)), 0.8, 1e-3);
  g_assert_cmpfloat_with_epsilon (ends (&live, BIT (SHOCK)), 40, 1e-3);
  g_assert_cmpfloat (watched_value (&ghost, "chassis.volts", 2), >, 20);
  g_assert_cmphex (at (&ghost, 30) & BIT (SHOCK), ==, 0);
  g_assert_cmpfloat (watched_value (&shorted, "breaker.tripped", 30), ==, 1);
  g_assert_true (isnan (begins (&shorted, BIT (SHOCK))));
}

static void
a_plug_is_hot_from_90_degrees (void)
{
  g_auto (Watched) w
      = WATCH ("dial-four", 1200, "receptacle:neutral-resistance=0.3", "0s oven.mode=bake");
  double from = begins (&w, BIT (HOT_PLUG));

  g_assert_cmpfloat_with_epsilon (watched_value (&w, "receptacle.joint-temperature", from),
                                  273.15 + 90, 0.01);
}

static gboolean
allowed (const char *range_name, const char *const *words, GError **error)
{
  g_autoptr (HobRange) range = shipped_range (range_name);
  g_autoptr (HobCase) acts = hob_case_new (range);

  for (; *words != NULL; words++)
    {
      GError *wrong = NULL;

      if (strchr (*words, ':') != NULL)
        hob_case_fault (acts, *words, &wrong);
      else
        hob_case_do (acts, *words, &wrong);
      g_assert_no_error (wrong);
    }
  return hob_case_allowed (range, acts, error);
}

/* After a spark that failed once a match may light the burner; after a second one gas may be about,
 * for the five minutes that the caution asks for. */
static void
a_match_is_refused_while_gas_may_be_about (void)
{
#define TRIES(...)                                                                                 \
  (const char *const[])                                                                            \
  {                                                                                                \
    "module:dead", "1s knob-lf=light", "8s knob-lf=off", __VA_ARGS__, NULL                         \
  }
  g_autoptr (GError) error = NULL;

  g_assert_true (allowed ("dial-four", TRIES ("20s match=burner-lf"), &error));
  /* gas that it lights with a whoosh is no reason: it was not known before */
  g_assert_true (allowed ("round-dial",
                          (const char *const[]){ "burner-lf:tube-blocked=1", "1s knob-lf=light",
                                                 "7.5s match=burner-lf", NULL },
                          &error));
  g_assert_no_error (error);
  g_assert_false (allowed ("dial-four",
                           TRIES ("12s knob-lf=light", "20s knob-lf=off", "30s match=burner-lf"),
                           &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_FINDING);
  g_assert_nonnull (strstr (error->message, "30 s match=burner-lf"));
  g_assert_nonnull (strstr (error->message, _ (hob_hazards[HOB_HAZARD_GAS_GATHERED].text)));
  g_assert_true (allowed ("dial-four",
                          TRIES ("12s knob-lf=light", "20s knob-lf=off", "6min match=burner-lf"),
                          NULL));
  g_assert_false (allowed ("dial-four",
                           (const char *const[]){ "valve-lf:leaks", "3min match=burner-rf", NULL },
                           NULL));
  g_assert_true (
      allowed ("dial-four", (const char *const[]){ "3min match=burner-rf", NULL }, NULL));
}

/* A caution that nothing ever names is never read. */
static void
every_hazard_is_named_by_something (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, &error);
  /* From rules of their own, which the cases above show. */
  HobHazards named = BIT (ALWAYS) | BIT (FIRE) | BIT (CO_SICK) | BIT (SHOCK);

  g_assert_no_error (error);
  for (int s = 0; s < hob_symptom_book_size (book); s++)
    named |= hob_symptom_book_get (book, s)->hazards;
  for (int k = 0; hob_kinds[k] != NULL; k++)
    for (int f = 0; f < hob_kinds[k]->n_faults; f++)
      named |= hob_fault_hazards (hob_kinds[k], &hob_kinds[k]->faults[f]);
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    if (!(named & HOB_HAZARD_BIT (h)))
      g_error ("nothing names %s", hob_hazards[h].id);
}

#define ADD(path, function) g_test_add_func ("/symptoms/hazards/" path, function)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("every hazard is named by something", every_hazard_is_named_by_something);
  ADD ("a normal lighting raises none", a_normal_lighting_raises_none);
  ADD ("gas from no burner that is on is strong", gas_from_no_burner_that_is_on_is_strong);
  ADD ("a burner left unlit for long is strong", a_burner_left_unlit_for_long_is_strong);
  ADD ("a fifth of the lean limit is strong and a twentieth is none",
       a_fifth_of_the_lean_limit_is_strong_and_a_twentieth_is_none);
  ADD ("a knob left on is faint, and propane strong after a minute",
       a_knob_left_on_is_faint_and_propane_strong_after_a_minute);
  ADD ("a second failed lighting leaves gas; an oven's first does",
       a_second_failed_lighting_leaves_gas_an_ovens_first_does);
  ADD ("a current through a person is a shock", a_current_through_a_person_is_a_shock);
  ADD ("a live chassis is a shock that nobody has to feel",
       a_live_chassis_is_a_shock_that_nobody_has_to_feel);
  ADD ("a plug is hot from 90 degrees", a_plug_is_hot_from_90_degrees);
  ADD ("flames that roll out are a fire", flames_that_roll_out_are_a_fire);
  ADD ("a match is refused while gas may be about", a_match_is_refused_while_gas_may_be_about);
  return g_test_run ();
}
