/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "check.h"
#include "physics/material.h"

/* Longest time to trip, T = (20/I)^1.43 s with I in mA. */
static void
the_interrupter_trips_within_the_published_time (void)
{
  check_near ("UL 943: 6 mA", hob_interrupter_time (6e-3), 5.594, 0.001);
  check_near ("UL 943: 10 mA", hob_interrupter_time (10e-3), 2.695, 0.001);
  check_near ("UL 943: 100 mA", hob_interrupter_time (100e-3), 0.100, 0.0005);
}

static void
the_breaker_holds_its_rating_for_good (void)
{
  g_assert_cmpfloat (hob_breaker_rate (15, 15), ==, 0); /* UL 489 */
  g_assert_cmpfloat (hob_breaker_rate (15, 0), ==, 0);
}

static void
the_breaker_trips_within_an_hour_at_135_per_cent (void)
{
  check_within ("UL 489: s", 1 / hob_breaker_rate (15, 1.35 * 15), 1, 3600);
  check_within ("UL 489: s", 1 / hob_breaker_rate (20, 1.35 * 20), 1, 3600);
}

static void
the_breaker_trips_within_two_minutes_at_200_per_cent (void)
{
  check_within ("UL 489: s", 1 / hob_breaker_rate (15, 2 * 15), 1, 120);
  check_within ("UL 489: s", 1 / hob_breaker_rate (20, 2 * 20), 1, 120);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/protection/the-interrupter-trips-within-the-published-time",
                   the_interrupter_trips_within_the_published_time);
  g_test_add_func ("/outside/protection/the-breaker-holds-its-rating-for-good",
                   the_breaker_holds_its_rating_for_good);
  g_test_add_func ("/outside/protection/the-breaker-trips-within-an-hour-at-135-per-cent",
                   the_breaker_trips_within_an_hour_at_135_per_cent);
  g_test_add_func ("/outside/protection/the-breaker-trips-within-two-minutes-at-200-per-cent",
                   the_breaker_trips_within_two_minutes_at_200_per_cent);
  return g_test_run ();
}
