/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A knob on its way from one position to another, in a shipped range. */

#include "faulty.h"

#define TRIES 20

/* Where the left front knob is at @s s. */
static double
travel (Faulty *f, double s)
{
  return at (f, s, "knob-lf.travel");
}

static void
a_turn_from_low_to_off_takes_half_a_second (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "1s knob-lf:=low", "10s knob-lf=off");

  g_assert_cmpfloat (travel (&f, 10), ==, 100);
  g_assert_cmpfloat_with_epsilon (travel (&f, 10.25), 50, 4);
  g_assert_cmpfloat (travel (&f, 10.45), >, 0);
  g_assert_cmpfloat (travel (&f, 10.51), ==, 0);
}

static void
a_jump_passes_nothing (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "1s knob-lf:=low", "10s knob-lf:=off");

  g_assert_cmpfloat (travel (&f, 1), ==, 100);
  g_assert_cmpfloat (travel (&f, 10), ==, 0);
}

static void
a_hand_that_changes_its_mind_goes_on_from_where_the_knob_is (void)
{
  g_auto (Faulty) f
      = SHIPPED ("dial-four", "1s knob-lf:=low", "10s knob-lf=off", "10.25s knob-lf=high");

  g_assert_cmpfloat_with_epsilon (travel (&f, 10.25), 50, 4);
  g_assert_cmpfloat (travel (&f, 10.3), <, 50);
  g_assert_cmpfloat (travel (&f, 10.3), >, 35);
  g_assert_cmpfloat (travel (&f, 10.4), ==, 35);
}

static void
a_worn_knob_turns_while_its_stem_stays_behind (void)
{
  g_auto (Faulty) f = SHIPPED ("dial-four", "knob-lf:slips=1", "1s knob-lf=high");

  g_assert_cmpfloat (travel (&f, 2), ==, 35);
  g_assert_cmpfloat (at (&f, 2, "valve-lf.opening"), ==, 0);
}

/* The left front burner, unlit, turned off with @off after its module was left somewhere between
 * two sparks by another knob. */
static Faulty
turned_off (const char *from, const char *off, int try)
{
  g_autofree char *left = g_strdup_printf ("%d ms knob-rf:=off", 10000 + 50 * try);
  g_autofree char *on = g_strconcat ("20s knob-lf:=", from, NULL);

  return SHIPPED ("dial-four", "0s knob-rf=light", left, on, off);
}

/* Of so many tries, those in which turning off sparked; each of them must have lit the gas. */
static int
that_spark (const char *from, const char *off)
{
  int n = 0;

  for (int k = 0; k < TRIES; k++)
    {
      g_auto (Faulty) f = turned_off (from, off, k);
      gboolean sparks = at (&f, 26, "electrode-lf.sparks") > at (&f, 24, "electrode-lf.sparks");

      g_assert_cmpfloat (at (&f, 24, "burner-lf.flame"), ==, 0);
      g_assert_cmpfloat (at (&f, 26, "burner-lf.flame"), ==, 0);
      if (!sparks)
        g_assert_cmpfloat (at (&f, 24.6, "burner-lf.light-energy"), ==, 0);
      else if (at (&f, 24.6, "burner-lf.light-energy") > 0)
        n++;
    }
  g_test_message ("%s, %s: lit by turning off in %d of %d", from, off, n, TRIES);
  return n;
}

/* 50 of the stem's 270° have the spark switch closed: a tenth of a second, at some three sparks a
 * second. */
static void
gathered_gas_can_be_lit_by_turning_a_knob_off (void)
{
  int n = that_spark ("low", "24s knob-lf=off") + that_spark ("high", "24s knob-lf=off");

  g_assert_cmpint (n, >=, 2 * TRIES / 8);
  g_assert_cmpint (n, <=, 2 * TRIES / 2);
}

static void
a_jump_to_off_never_lights_it (void)
{
  g_assert_cmpint (that_spark ("low", "24s knob-lf:=off"), ==, 0);
}

#define SAYS(what) g_test_add_func ("/parts-knob/" #what, what)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  SAYS (a_turn_from_low_to_off_takes_half_a_second);
  SAYS (a_jump_passes_nothing);
  SAYS (a_hand_that_changes_its_mind_goes_on_from_where_the_knob_is);
  SAYS (a_worn_knob_turns_while_its_stem_stays_behind);
  SAYS (gathered_gas_can_be_lit_by_turning_a_knob_off);
  SAYS (a_jump_to_off_never_lights_it);
  return g_test_run ();
}
