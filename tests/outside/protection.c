/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Breaker of a range whose branch circuit is overloaded. The ground-fault interrupter is in
 * supply.c. */

#include "appliance.h"
#include "check.h"

#define RATING 15.0 /* A */

/* When the breaker trips with another appliance of @watts on the circuit, s; what it carried. */
static double
time_to_trip (double watts, double until, double *amps)
{
  g_autoptr (HobRange) range = range_by_name ("lp-four");
  g_autofree char *kettle = g_strdup_printf ("kettle.watts=%d W", (int)watts);
  g_autoptr (HobRun) run = run_of (range, WORDS (kettle, "0s kettle=on"), until);

  *amps = quantity (run, "breaker.current", 0.001);
  return first_change (run, "breaker", "tripped", 1, until);
}

/* Watts for that multiple of the rating, a little more for the volts that the wires drop. */
static double
watts_for (double multiple)
{
  double amps, tried = multiple * RATING * 120;

  time_to_trip (tried, 1, &amps);
  return tried * multiple * RATING / amps * 1.001;
}

static void
it_holds_its_rating_for_good (void)
{
  double amps, time = time_to_trip (watts_for (0.998), 3 * 3600, &amps);

  g_assert_cmpfloat_with_epsilon (amps, RATING, 0.05);
  g_assert_cmpfloat (amps, <=, RATING);
  check_within (PUBLISHED, "UL 489, 100 %: s", time, INFINITY, INFINITY);
}

static void
it_trips_within_an_hour_at_135_per_cent (void)
{
  double amps, time = time_to_trip (watts_for (1.35), 3600, &amps);

  g_assert_cmpfloat_with_epsilon (amps / RATING, 1.35, 0.02);
  check_within (PUBLISHED, "UL 489, 135 %: s", time, 0, 3600);
}

static void
it_trips_within_two_minutes_at_200_per_cent (void)
{
  double amps, time = time_to_trip (watts_for (2), 120, &amps);

  g_assert_cmpfloat_with_epsilon (amps / RATING, 2, 0.03);
  check_within (PUBLISHED, "UL 489, 200 %: s", time, 0, 120);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/protection/it-holds-its-rating-for-good",
                   it_holds_its_rating_for_good);
  g_test_add_func ("/outside/protection/it-trips-within-an-hour-at-135-per-cent",
                   it_trips_within_an_hour_at_135_per_cent);
  g_test_add_func ("/outside/protection/it-trips-within-two-minutes-at-200-per-cent",
                   it_trips_within_two_minutes_at_200_per_cent);
  return g_test_run ();
}
