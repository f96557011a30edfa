/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Turns that only repeat themselves: what a symptom looks at was the same in the last ones, and so
 * it will not begin in those to come. */

#include "symptoms/cycles.h"
#include "watched.h"

#define TURN 60.0 /* s */

/* A range at rest, with a condition that holds from the start and has to last. */
#define LASTS(how_long)                                                                            \
  "<symptom id=\"x\" each=\"cavity\"><technician>t</technician><customer>c</customer>"             \
  "<condition quantity=\"air\" at-most=\"400 K\" for=\"" how_long "\"/></symptom>"

static Watched
at_rest (const char *symptoms, double until)
{
  static const char *const nothing[] = { NULL };

  return watched_run ("dial-four", symptoms, until, nothing);
}

/* Three turns of @run, and whether as many more as come @until, s, would only repeat them. */
static gboolean
repeats (Watched *w, double until)
{
  HobCycles *cycles = hob_cycles_new (w->watch);
  double begun = hob_run_reached (w->run);
  gboolean repeat;

  hob_cycles_begin (cycles, w->run);
  for (int k = 1; k <= 3; k++)
    {
      g_assert_cmpint (hob_run_advance (w->run, begun + k * TURN, NULL), ==, HOB_RUN_OK);
      hob_cycles_turn (cycles, w->run);
    }
  repeat = hob_cycles_repeat (cycles, w->run, (until - begun) / TURN - 3, until);
  hob_cycles_free (cycles);
  return repeat;
}

/* It holds all the time, and will have lasted after an hour: not before, but then. */
static void
what_lasts_begins_at_its_own_time (void)
{
  g_auto (Watched) before = at_rest (LASTS ("1 h"), 600), then = at_rest (LASTS ("1 h"), 600),
                   begun = at_rest (LASTS ("5 min"), 600);

  g_assert_true (repeats (&before, 3500));
  g_assert_false (repeats (&then, 3700));
  g_assert_true (repeats (&begun, 3700));
}

/* Of a run that has not come to anything there is no turn, however often somebody looks. */
static void
what_has_not_begun_does_not_repeat (void)
{
  g_auto (Watched) w = at_rest (LASTS ("1 h"), 0);
  HobCycles *cycles = hob_cycles_new (w.watch);

  hob_cycles_begin (cycles, w.run);
  for (int k = 0; k < 4; k++)
    hob_cycles_turn (cycles, w.run);
  g_assert_false (hob_cycles_repeat (cycles, w.run, 5, 600));
  hob_cycles_free (cycles);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/symptoms/cycles/what-lasts-begins-at-its-own-time",
                   what_lasts_begins_at_its_own_time);
  g_test_add_func ("/symptoms/cycles/what-has-not-begun-does-not-repeat",
                   what_has_not_begun_does_not_repeat);
  return g_test_run ();
}
