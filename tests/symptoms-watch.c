/* SPDX-License-Identifier: GPL-3.0-or-later */

/* The watch: when symptoms begin and end, and that this hangs on nothing but what happens. */

#include "symptoms-at.h"
#include "symptoms/symptoms.h"
#include "watched.h"

#include <math.h>

/* A run of dial-four watched with @symptoms; watched.h. */
static Watched
look (const char *symptoms, const char *const *words, double until)
{
  return watched_run ("dial-four", symptoms, until, words);
}

/* Time of the n-th event (from 0) of a class; NaN if there is none. */
static double
moment (const Watched *l, HobEventClass what, guint n)
{
  guint first, count = hob_run_events (l->run, -1, G_MAXDOUBLE, &first);

  for (guint k = first; k < first + count; k++)
    if (hob_run_event (l->run, k)->what == what && n-- == 0)
      return hob_run_event (l->run, k)->t;
  return NAN;
}

static guint
present (const Watched *l, double t)
{
  g_autoptr (GArray) now = symptoms_at (l->run, t);

  return now->len;
}

#define WORDS "<technician>t</technician><customer>c</customer>"
#define BAKE                                                                                       \
  {                                                                                                \
    "0s oven.mode=bake", NULL                                                                      \
  }

static void
it_begins_when_the_value_crosses_and_not_where_a_step_ends (void)
{
  static const char *const bake[] = BAKE;
  Watched l = look ("<symptom id=\"x\" each=\"cavity\">" WORDS
                    "<condition quantity=\"air\" at-least=\"400 K\"/></symptom>",
                    bake, 600);
  double t = moment (&l, HOB_EVENT_SYMPTOM, 0);

  g_assert_cmpfloat_with_epsilon (watched_value (&l, "cavity.air", t), 400, 1e-5);
  g_assert_cmpfloat (watched_value (&l, "cavity.air", t - 0.01), <, 400);
  clear_watched (&l);
}

static void
it_waits_for_as_long_as_its_condition_says (void)
{
  static const char *const bake[] = BAKE;
  Watched now = look ("<symptom id=\"x\" each=\"cavity\">" WORDS
                      "<condition quantity=\"air\" at-least=\"400 K\"/></symptom>",
                      bake, 600);
  Watched later = look ("<symptom id=\"x\" each=\"cavity\">" WORDS
                        "<condition quantity=\"air\" at-least=\"400 K\" for=\"17.5 s\"/></symptom>",
                        bake, 600);

  g_assert_cmpfloat_with_epsilon (moment (&later, HOB_EVENT_SYMPTOM, 0),
                                  moment (&now, HOB_EVENT_SYMPTOM, 0) + 17.5, 1e-6);
  clear_watched (&now);
  clear_watched (&later);
}

static void
the_last_condition_decides (void)
{
  static const char *const bake[] = { "0s oven.mode=bake", "30s knob-lf=light", NULL };
  Watched l = look (
      "<symptom id=\"x\">" WORDS "<condition any=\"knob\" stands=\"light\" for=\"2 s\"/>"
      "<condition any=\"oven-dial\" control=\"mode\" stands=\"bake\" for=\"20 s\"/></symptom>",
      bake, 60);

  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_SYMPTOM, 0), 32, 1e-9);
  clear_watched (&l);
}

static void
a_condition_that_fails_too_soon_begins_nothing (void)
{
  static const char *const acts[]
      = { "1s knob-lf=light", "5.9s knob-lf=off", "7s knob-lf=light", "12.1s knob-lf=off", NULL };
  Watched l = look ("<symptom id=\"x\">" WORDS
                    "<condition any=\"knob\" stands=\"light\" for=\"5 s\"/></symptom>",
                    acts, 30);

  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_SYMPTOM, 0), 12, 1e-9);
  g_assert_true (isnan (moment (&l, HOB_EVENT_SYMPTOM, 1)));
  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_SYMPTOM_END, 0), 12.1, 1e-9);
  clear_watched (&l);
}

/* 4 s off in between are no end where 5 must pass; 6 s are. */
static void
it_ends_when_it_stays_away_long_enough (void)
{
  static const char *const acts[] = { "1s knob-lf=light", "10s knob-lf=off",   "14s knob-lf=light",
                                      "20s knob-lf=off",  "26s knob-lf=light", NULL };
  Watched l = look ("<symptom id=\"x\" clears-after=\"5 s\">" WORDS
                    "<condition any=\"knob\" stands=\"light\"/></symptom>",
                    acts, 40);

  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_SYMPTOM, 0), 1, 1e-9);
  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_SYMPTOM_END, 0), 25, 1e-9);
  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_SYMPTOM, 1), 26, 1e-9);
  g_assert_true (isnan (moment (&l, HOB_EVENT_SYMPTOM_END, 1)));
  g_assert_cmpuint (present (&l, 24), ==, 1);
  g_assert_cmpuint (present (&l, 25.5), ==, 0);
  g_assert_cmpuint (present (&l, 40), ==, 1);
  clear_watched (&l);
}

#define NO_SYMPTOM "<symptom id=\"x\">" WORDS "<condition any=\"knob\" stands=\"50 %\"/></symptom>"

/* Off at 10 s and at 30 s, but the door is shut only at 20 s and again at 40 s. */
static void
a_hazard_lasts_until_what_ends_it_holds_too (void)
{
  static const char *const acts[] = { "0s door=open",    "1s knob-lf=light", "10s knob-lf=off",
                                      "20s door=closed", "25s door=open",    "26s knob-lf=light",
                                      "30s knob-lf=off", "40s door=closed",  NULL };
  Watched l = look (
      NO_SYMPTOM "<hazard is=\"fire\" each=\"burner-top\"><condition asked=\"yes\" for=\"2 s\"/>"
                 "<until every=\"door\" stands=\"closed\"/><until any=\"fan\" quantity=\"speed\" "
                 "at-least=\"9\"/>"
                 "</hazard>",
      acts, 50);

  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_HAZARD, 0), 3, 1e-9);
  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_HAZARD_END, 0), 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_HAZARD, 1), 28, 1e-9);
  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_HAZARD_END, 1), 40, 1e-9);
  g_assert_cmphex (hob_hazards_at (l.book, l.run, 15), ==, HOB_HAZARD_BIT (HOB_HAZARD_FIRE));
  g_assert_cmphex (hob_hazards_at (l.book, l.run, 22), ==, 0);
  g_assert_cmphex (hob_hazards_up_to (l.book, l.run, 22), ==, HOB_HAZARD_BIT (HOB_HAZARD_FIRE));
  g_assert_cmpuint (present (&l, 15), ==, 0);
  clear_watched (&l);
}

/* 9 s apart they count as one row; after 11 s without, a new row begins. */
static void
a_hazard_may_take_more_than_one_time (void)
{
  static const char *const acts[]
      = { "1s knob-lf=light",  "2s knob-lf=off",  "13s knob-lf=light", "14s knob-lf=off",
          "22s knob-lf=light", "23s knob-lf=off", "40s knob-lf=light", NULL };
  Watched l = look (NO_SYMPTOM
                    "<hazard is=\"fire\" each=\"burner-top\" times=\"2\" clears-after=\"10 s\">"
                    "<condition asked=\"yes\" for=\"0.5 s\"/></hazard>",
                    acts, 60);

  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_HAZARD, 0), 22.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (moment (&l, HOB_EVENT_HAZARD_END, 0), 33, 1e-9);
  g_assert_true (isnan (moment (&l, HOB_EVENT_HAZARD, 1)));
  clear_watched (&l);
}

static void
each_part_is_looked_at_for_itself (void)
{
  static const char *const acts[] = { "1s knob-lf=light", "2s knob-rr=light", NULL };
  Watched l
      = look ("<symptom id=\"x\" each=\"burner-top\">" WORDS "<condition asked=\"yes\"/></symptom>",
              acts, 10);
  g_autoptr (GArray) now = symptoms_at (l.run, 10);

  g_assert_cmpuint (now->len, ==, 2);
  g_assert_cmpint (hob_run_event (l.run, g_array_index (now, guint, 0))->part, ==,
                   hob_range_part (l.range, "burner-lf"));
  g_assert_cmpint (hob_run_event (l.run, g_array_index (now, guint, 1))->part, ==,
                   hob_range_part (l.range, "burner-rr"));
  clear_watched (&l);
}

/* Acts that change nothing cut the steps elsewhere: the symptom still comes 90 s after the moment
 * at which that run's own igniter came to 1,000 K.  The runs themselves differ by what the
 * integration's tolerance leaves. */
static void
no_answer_hangs_on_where_steps_end (void)
{
  g_autoptr (GStrvBuilder) words = g_strv_builder_new ();
  static const char *const aged[] = { "igniter-bake:aged", "0s oven.mode=bake", NULL };
  g_auto (GStrv) cut = NULL;
  Watched plain = look (NULL, aged, 200), chopped;

  g_strv_builder_addv (words, (const char **) aged);
  for (int k = 1; k < 150; k++)
    {
      g_autofree char *word = g_strdup_printf ("%d.%03ds breaker=on", k, k * 7 % 1000);

      g_strv_builder_add (words, word);
    }
  cut = g_strv_builder_end (words);
  chopped = look (NULL, (const char *const *) cut, 200);
  g_assert_cmpfloat_with_epsilon (
      watched_value (&plain, "burner-bake.glow", moment (&plain, HOB_EVENT_SYMPTOM, 0) - 90), 1000,
      1e-3);
  g_assert_cmpfloat_with_epsilon (
      watched_value (&chopped, "burner-bake.glow", moment (&chopped, HOB_EVENT_SYMPTOM, 0) - 90),
      1000, 1e-3);
  clear_watched (&plain);
  clear_watched (&chopped);
}

static void
one_long_run_and_many_short_ones_tell_the_same (void)
{
  static const char *const aged[] = { "igniter-bake:aged", "0s oven.mode=bake", NULL };
  Watched once = look (NULL, aged, 1000), often = look (NULL, aged, 0);

  for (int k = 0; k <= 3000; k++)
    hob_run_advance (often.run, k / 3.0, NULL);
  for (guint n = 0; n < 3; n++)
    {
      double a = moment (&once, HOB_EVENT_SYMPTOM, n), b = moment (&often, HOB_EVENT_SYMPTOM, n);

      g_assert_true (a == b || (isnan (a) && isnan (b)));
    }
  g_assert_false (isnan (moment (&once, HOB_EVENT_SYMPTOM, 0)));
  clear_watched (&once);
  clear_watched (&often);
}

static void
back_in_time_it_is_not_there_yet_and_after_an_act_it_may_never_be (void)
{
  static const char *const aged[] = { "igniter-bake:aged", "0s oven.mode=bake", NULL };
  Watched l = look (NULL, aged, 180);
  double t = moment (&l, HOB_EVENT_SYMPTOM, 0);
  int oven = hob_range_part (l.range, "oven");
  HobAct off = { (gint64) (t * 1000) - 5000, HOB_ACT_CONTROL, oven,
                 hob_kind_control (l.range->parts[oven].kind, "mode"), 0 };

  g_assert_cmpuint (present (&l, t - 1), ==, 0);
  g_assert_cmpuint (present (&l, t), ==, 1);
  hob_run_act (l.run, off);
  hob_run_advance (l.run, 180, NULL);
  g_assert_cmpuint (present (&l, 180), ==, 0);
  g_assert_true (hob_run_undo (l.run));
  hob_run_advance (l.run, 180, NULL);
  g_assert_cmpuint (present (&l, 180), ==, 1);
  g_assert_cmpfloat (moment (&l, HOB_EVENT_SYMPTOM, 0), ==, t);
  clear_watched (&l);
}

/* A kind that a range has none of: nothing to look at, no symptom, no harm. */
static void
a_range_without_the_part_has_no_such_symptom (void)
{
  static const char *const none[] = { NULL };
  Watched l = look ("<symptom id=\"x\" each=\"fan\">" WORDS
                    "<condition quantity=\"speed\" at-most=\"1\"/></symptom>"
                    "<symptom id=\"y\">" WORDS
                    "<condition every=\"fan\" quantity=\"speed\" at-most=\"1\"/></symptom>",
                    none, 5);

  g_assert_cmpuint (present (&l, 5), ==, 0);
  clear_watched (&l);
}

#define ADD(path, function) g_test_add_func ("/symptoms/watch/" path, function)

static guint
symptoms_told (HobRun *run, double until)
{
  guint first, n, told = 0;

  g_assert_cmpint (hob_run_advance (run, until, NULL), ==, HOB_RUN_OK);
  n = hob_run_events (run, -1, until, &first);
  for (guint k = first; k < first + n; k++)
    told += hob_run_event (run, k)->what == HOB_EVENT_SYMPTOM;
  return told;
}

/* A run that nobody watched, and from some time on somebody does: what is there then is told, and
 * is still told when what was done after that is taken back. */
static void
who_comes_later_sees_what_is_there (void)
{
  static const char *const bake[] = BAKE;
  g_auto (Watched) l = look ("<symptom id=\"x\" each=\"cavity\">" WORDS
                             "<condition quantity=\"air\" at-least=\"400 K\"/></symptom>",
                             bake, 1);
  g_autoptr (HobRun) alone = hob_run_new (l.plan, hob_run_case (l.run), NULL), watched = NULL;
  HobAct door = { .ms = 900100, .what = HOB_ACT_CONTROL, .value = 1 };

  g_assert_true (hob_range_find_control (l.range, "door", &door.part, &door.index, NULL));
  g_assert_cmpuint (symptoms_told (alone, 900), ==, 0);
  watched = hob_run_fork (alone, 900, hob_run_case (alone), hob_symptom_watch_get (l.watch));
  g_assert_cmpuint (symptoms_told (watched, 950), ==, 1);
  hob_run_insert (watched, door);
  g_assert_cmpuint (symptoms_told (watched, 950), ==, 1);
  hob_run_undo (watched);
  g_assert_cmpuint (symptoms_told (watched, 950), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("it-begins-when-the-value-crosses-and-not-where-a-step-ends",
       it_begins_when_the_value_crosses_and_not_where_a_step_ends);
  ADD ("it-waits-for-as-long-as-its-condition-says", it_waits_for_as_long_as_its_condition_says);
  ADD ("the-last-condition-decides", the_last_condition_decides);
  ADD ("a-condition-that-fails-too-soon-begins-nothing",
       a_condition_that_fails_too_soon_begins_nothing);
  ADD ("it-ends-when-it-stays-away-long-enough", it_ends_when_it_stays_away_long_enough);
  ADD ("a-hazard-lasts-until-what-ends-it-holds-too", a_hazard_lasts_until_what_ends_it_holds_too);
  ADD ("a-hazard-may-take-more-than-one-time", a_hazard_may_take_more_than_one_time);
  ADD ("each-part-is-looked-at-for-itself", each_part_is_looked_at_for_itself);
  ADD ("no-answer-hangs-on-where-steps-end", no_answer_hangs_on_where_steps_end);
  ADD ("one-long-run-and-many-short-ones-tell-the-same",
       one_long_run_and_many_short_ones_tell_the_same);
  ADD ("back-in-time-it-is-not-there-yet-and-after-an-act-it-may-never-be",
       back_in_time_it_is_not_there_yet_and_after_an_act_it_may_never_be);
  ADD ("a-range-without-the-part-has-no-such-symptom",
       a_range_without_the_part_has_no_such_symptom);
  ADD ("who-comes-later-sees-what-is-there", who_comes_later_sees_what_is_there);
  return g_test_run ();
}
