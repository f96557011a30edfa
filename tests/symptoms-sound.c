/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Normal ranges show nothing and raise no hazard: every shipped one, on the gas of its data
 * plate, in every routine, under any supply that is still good and in a cold and a hot kitchen;
 * and any unit of it, whatever its seed. */

#include "shipped.h"

/* Any eight will do, as long as they stay the same: the first and the last, and some that once
 * failed. */
static const guint64 sample[] = { 1, 4, 20, 46, 51, 100, 137, 200 };
#define N_FULL 200

static const char *const volts[]
    = { "receptacle.volts=114 V", "receptacle.volts=120 V", "receptacle.volts=126 V" };
static const char *const air[] = { "house.temperature=15 degC", "house.temperature=25 degC",
                                   "house.temperature=35 degC" };

typedef struct
{
  char *name; /* (owned) */
  HobRange *range;
  HobBench *idle;
  GStrv routines;
} Bench;

static void
bench_open (Bench *b, const char *name)
{
  b->name = g_strdup (name);
  b->range = shipped_range (name);
  b->idle = hob_bench_new (NULL, b->range, NULL, NULL);
  b->routines = hob_procedure_names (b->range);
}

static void
bench_close (Bench *b)
{
  g_strfreev (b->routines);
  hob_bench_free (b->idle);
  hob_range_unref (b->range);
  g_free (b->name);
}

/* What unit @seed of the range shows in a routine under these settings of the house: it must be
 * nothing. */
static void
expect_silence (const Bench *b, const char *routine, const char *const *house, guint64 seed)
{
  double until = 0;
  g_autoptr (HobCase) acts = case_of (b->range, routine, house, &until);
  g_autofree char *seen = NULL, *named = NULL;
  HobHazards hazards;

  acts->seed = seed;
  seen = symptoms_and_hazards_of (b->idle, acts, until, &hazards);
  named = hob_hazards_names (hazards);
  if (*seen == '\0' && *named == '\0')
    return;
  g_test_message ("%s, %s, %s, %s, seed %" G_GUINT64_FORMAT ": %s%s", b->name, routine, house[0],
                  house[1], seed, seen, named);
  g_test_fail ();
}

static void
in_every_house (const Bench *b)
{
  for (char **r = b->routines; *r != NULL; r++)
    for (guint v = 0; v < G_N_ELEMENTS (volts); v++)
      for (guint a = 0; a < G_N_ELEMENTS (air); a++)
        expect_silence (b, *r, (const char *[]){ volts[v], air[a], NULL }, 0);
}

static void
any_unit (const Bench *b)
{
  guint n = full_sweep () ? N_FULL : G_N_ELEMENTS (sample);

  for (guint i = 0; i < n; i++)
    for (char **r = b->routines; *r != NULL; r++)
      expect_silence (b, *r, (const char *[]){ volts[1], air[1], NULL },
                      full_sweep () ? i + 1 : sample[i]);
}

static void
on_every_range (void (*check) (const Bench *))
{
  g_auto (GStrv) ranges = shipped_ranges ();

  for (int r = 0; ranges[r] != NULL; r++)
    {
      Bench b;

      bench_open (&b, ranges[r]);
      check (&b);
      bench_close (&b);
      g_test_message ("%s, every routine", ranges[r]);
    }
}

static void
nothing_shows_in_any_house (void)
{
  on_every_range (in_every_house);
}

static void
nothing_shows_on_any_unit (void)
{
  on_every_range (any_unit);
}

/* What the range shows after these acts, by @until. */
static char *
shown_after (const Bench *b, const char *fault, const char *const *acts, double until)
{
  g_autoptr (HobCase) c = hob_case_new (b->range);

  if (fault != NULL)
    g_assert_true (hob_case_fault (c, fault, NULL));
  for (; *acts != NULL; acts++)
    g_assert_true (hob_case_do (c, *acts, NULL));
  return symptoms_of (b->idle, c, until);
}

/* Broil heats from above and holds no temperature: its top is far hotter than its bottom, and no
 * average of it is compared with the end of the scale. */
static void
broils_for_long (const Bench *b)
{
  g_autofree char *broil = shown_after (b, NULL, (const char *[]){ "0s oven.mode=broil", NULL },
                                        60 * 60);
  g_autofree char *baked
      = shown_after (b, NULL,
                     (const char *[]){ "0s oven.mode=bake", "30min oven.mode=broil", NULL },
                     80 * 60);

  g_assert_cmpstr (broil, ==, "");
  g_assert_cmpstr (baked, ==, "");
}

static void
nothing_shows_in_broil (void)
{
  on_every_range (broils_for_long);
}

/* An oven that cools without its power: one with a dial is said to have gone dead, and of one with
 * a display nothing is said but that it is blank.  Nobody says it bakes unevenly. */
static void
loses_its_power (const Bench *b)
{
  g_autofree char *seen
      = shown_after (b, NULL, (const char *[]){ "0s oven.mode=bake", "20min breaker=off", NULL },
                     90 * 60);
  int part, display;

  if (hob_range_find_quantity (b->range, "oven.display", &part, &display, NULL))
    g_assert_cmpstr (seen, ==, "display-dark 1210\n");
  else
    g_assert_nonnull (strstr (seen, "goes-dead-hot"));
  g_assert_null (strstr (seen, "uneven"));
}

/* A control that is dark calls for nothing and turns no fan.  Unplugged, a range is not complained
 * about at all. */
static void
a_dark_control_is_judged_by_its_display (void)
{
  static const char *const names[] = { "board-five", "convection-fan" };

  for (guint k = 0; k < G_N_ELEMENTS (names); k++)
    {
      Bench b;

      bench_open (&b, names[k]);
      g_autofree char *off = shown_after (
          &b, NULL,
          (const char *[]){ "0s oven.dial=450 degF", "0s oven.mode=convection",
                            "55min breaker=off", NULL },
          3 * 60 * 60);
      g_autofree char *unplugged = shown_after (
          &b, NULL,
          (const char *[]){ "0s oven.dial=450 degF", "0s oven.mode=convection",
                            "55min cord.plug=out", NULL },
          3 * 60 * 60);
      g_autofree char *dead = shown_after (
          &b, "oven:dead", (const char *[]){ "0s oven.mode=convection", NULL }, 60 * 60);
      g_assert_cmpstr (off, ==, "display-dark 3310\n");
      g_assert_cmpstr (unplugged, ==, "");
      g_assert_cmpstr (dead, ==, "display-dark 10\n");
      bench_close (&b);
    }
}

/* Nor of one in which nothing ever burned. */
static void
an_oven_that_does_not_bake_is_not_uneven (void)
{
  g_autofree char *seen = NULL;
  Bench b;

  on_every_range (loses_its_power);
  bench_open (&b, "convection-fan");
  seen = shown_after (&b, "latch:stuck", (const char *[]){ "0s oven.mode=convection", NULL },
                      60 * 60);
  g_assert_nonnull (strstr (seen, "stays-cold"));
  g_assert_null (strstr (seen, "uneven"));
  bench_close (&b);
}

/* The disc of the high limit, K, at its hottest of @until s. */
static double
hottest_disc (const Bench *b, const char *const *house, const char *const *acts, double until)
{
  g_autoptr (HobCase) c = hob_case_new (b->range);
  g_autoptr (HobPlan) plan = hob_plan_new (b->range);
  g_autoptr (HobRun) run = NULL;
  g_autoptr (HobMoment) m = hob_moment_new (plan);
  double hottest = 0;
  int part, quantity;

  for (; *house != NULL; house++)
    g_assert_true (hob_case_setting (c, *house, NULL));
  for (; *acts != NULL; acts++)
    g_assert_true (hob_case_do (c, *acts, NULL));
  run = hob_run_new (plan, c, NULL);
  g_assert_cmpint (hob_run_advance (run, until, NULL), ==, HOB_RUN_OK);
  g_assert_true (
      hob_range_find_quantity (b->range, "high-limit.temperature", &part, &quantity, NULL));
  for (double t = 0; t <= until; t += 60)
    {
      hob_run_read (run, t, m);
      hottest = MAX (hottest, hob_moment_quantity (m, part, quantity));
    }
  return hottest;
}

/* No use of a normal range brings its high limit within 10 K of opening: not the longest broil,
 * nor after the hottest bake, on any volts and in any kitchen in which it works. */
static void
no_normal_use_opens_the_high_limit (void)
{
  static const char *const uses[][4] = {
    { "0s oven.mode=broil", NULL },
    { "0s oven.dial=550 degF", "0s oven.mode=bake", "90min oven.mode=broil", NULL },
    { "0s oven.dial=550 degF", "0s oven.mode=convection", "90min oven.mode=broil", NULL },
  };
  static const char *const houses[][3] = {
    { "receptacle.volts=102 V", "house.temperature=40 degC", NULL },
    { "receptacle.volts=132 V", "house.temperature=40 degC", NULL },
    { "receptacle.volts=120 V", "house.temperature=25 degC", NULL },
    { "receptacle.volts=110 V", "house.temperature=5 degC", NULL },
  };
  Bench b;
  int part, opens;

  bench_open (&b, "convection-fan");
  g_assert_true (hob_range_find_setting (b.range, "high-limit.opens", &part, &opens, NULL));
  for (guint u = 0; u < G_N_ELEMENTS (uses); u++)
    for (guint h = 0; h < G_N_ELEMENTS (houses); h++)
      {
        double disc = hottest_disc (&b, houses[h], uses[u], 4 * 60 * 60);

        g_test_message ("%s, %s, %s: %.0f degF", uses[u][0], houses[h][0], houses[h][1],
                        disc * 1.8 - 459.67);
        g_assert_cmpfloat (disc, <, b.range->parts[part].set[opens] - 10);
      }
  bench_close (&b);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/symptoms/sound/nothing-shows-in-any-house", nothing_shows_in_any_house);
  g_test_add_func ("/symptoms/sound/nothing-shows-on-any-unit", nothing_shows_on_any_unit);
  g_test_add_func ("/symptoms/sound/nothing-shows-in-broil", nothing_shows_in_broil);
  g_test_add_func ("/symptoms/sound/an-oven-that-does-not-bake-is-not-uneven",
                   an_oven_that_does_not_bake_is_not_uneven);
  g_test_add_func ("/symptoms/sound/a-dark-control-is-judged-by-its-display",
                   a_dark_control_is_judged_by_its_display);
  g_test_add_func ("/symptoms/sound/no-normal-use-opens-the-high-limit",
                   no_normal_use_opens_the_high_limit);
  return g_test_run ();
}
