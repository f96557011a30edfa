/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Evidence: what was seen, what was read, and what both say about how bad a fault is. */

#include "base/hash.h"
#include "reason/beliefs.h"
#include "reason/divide.h"

#include <math.h>

/* ---- Seen ---- */

static void
seen_not_seen_not_looked (void)
{
  static const HobSeen all[] = { HOB_NOT_LOOKED, HOB_SEEN, HOB_NOT_SEEN };
  static const double shows[] = { 1, 1, 1 }, hidden[] = { 0, 0, 0 };

  g_assert_cmpfloat (hob_seen_likelihood (all[0], shows[0], 0.03), ==, 1);
  g_assert_cmpfloat (hob_seen_likelihood (all[0], hidden[0], 0.03), ==, 1);
  g_assert_cmpfloat_with_epsilon (hob_seen_likelihood (all[1], 1, 0.03), 0.97, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_seen_likelihood (all[1], 0, 0.03), 0.03, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_seen_likelihood (all[2], 1, 0.03), 0.03, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_seen_likelihood (all[2], 0, 0.03), 0.97, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_seen_likelihood (all[1], 0.5, 0.03), 0.5, 1e-12);
}

/* A symptom that was seen by mistake does not rule the truth out: two others outweigh it. */
static void
one_mistake_is_outweighed (void)
{
  static const double shows[3][2] = { { 0, 1 }, { 1, 0 }, { 1, 0 } };
  static const double prior[] = { 1, 1 };
  g_autoptr (HobBelief) belief = hob_belief_new (prior, 2);
  double p[2], likelihood[2];

  for (int e = 0; e < 3; e++)
    {
      for (int s = 0; s < 2; s++)
        likelihood[s] = hob_seen_likelihood (HOB_SEEN, shows[e][s], HOB_MIS_SEEN);
      g_assert_true (hob_belief_update (belief, likelihood));
    }
  hob_belief_get (belief, p);
  g_assert_cmpfloat (p[0], >, 0.95);
  g_assert_cmpfloat (p[1], >, 0);
}

/* ---- Read ---- */

static double
log_likelihood (double value, double expected, double spread, double limit)
{
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);

  return hob_reading_log_likelihood (value, &(HobExpected){ expected, spread }, &amps, limit, 10);
}

static void
nearer_is_likelier (void)
{
  double at = log_likelihood (2.9, 2.9, 0.05, NAN), near_by = log_likelihood (2.9, 3.0, 0.05, NAN);
  double far = log_likelihood (2.9, 3.5, 0.05, NAN), farther = log_likelihood (2.9, 9, 0.05, NAN);

  g_assert_cmpfloat (at, >, near_by);
  g_assert_cmpfloat (near_by, >, far + 3);
  g_assert_cmpfloat (farther, >, -INFINITY);
  /* Beyond all spread only a reading taken wrong explains it, however far. */
  g_assert_cmpfloat_with_epsilon (farther, far, 0.1);
}

/* What only two units were tried for may lie far off in a third; what ten were, may not. */
static void
two_units_say_little_of_a_third (void)
{
  HobMeterClass ohms = hob_meter_class (HOB_DIM_RESISTANCE);
  HobExpected many = { 188, 10, 0, FALSE }, few = { 188, 10, 0, TRUE };
  double edge = 240, likelihood[2][3];

  g_assert_cmpfloat (hob_reading_log_likelihood (259, &few, &ohms, NAN, 1e6), >,
                     hob_reading_log_likelihood (259, &many, &ohms, NAN, 1e6) + 5);
  g_assert_cmpfloat (hob_reading_log_likelihood (188, &few, &ohms, NAN, 1e6), <,
                     hob_reading_log_likelihood (188, &many, &ohms, NAN, 1e6));
  hob_reading_outcomes (&many, &ohms, &edge, 1, likelihood[0]);
  hob_reading_outcomes (&few, &ohms, &edge, 1, likelihood[1]);
  g_assert_cmpfloat (likelihood[1][1], >, 10 * likelihood[0][1]);
  g_assert_cmpfloat_with_epsilon (likelihood[1][0] + likelihood[1][1] + likelihood[1][2], 1, 1e-9);
}

/* A meter shows 0 for what is next to nothing, however much that scatters. */
static void
nothing_is_read_for_next_to_nothing (void)
{
  HobMeterClass ohms = hob_meter_class (HOB_DIM_RESISTANCE);
  HobExpected wire = { 0.03, 0.18 }, none = { 0.005, 0.001 };

  g_assert_cmpfloat (hob_reading_log_likelihood (0, &wire, &ohms, NAN, 10), >,
                     hob_reading_log_likelihood (0, &none, &ohms, NAN, 10) - 1);
}

/* The stated ± takes the place of the meter's class; the units still differ. */
static void
a_stated_tolerance_counts (void)
{
  HobExpected expected = { 118, 0.5 };
  HobMeterClass volts = hob_meter_class (HOB_DIM_VOLTAGE);

  g_assert_cmpfloat_with_epsilon (hob_reading_deviation (&expected, &volts, NAN),
                                  hypot (0.5, 1.48 / sqrt (3)), 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_reading_deviation (&expected, &volts, 2),
                                  hypot (0.5, 2 / sqrt (3)), 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_reading_deviation (&expected, &volts, 0), 0.5, 1e-12);
}

static void
every_dimension_has_a_meter (void)
{
  for (int dim = 0; dim <= HOB_DIM_CHOICE; dim++)
    {
      HobMeterClass meter = hob_meter_class ((HobDimension) dim);

      g_assert_cmpfloat (meter.of_reading + meter.fixed, >, 0);
    }
}

static void
open_is_a_reading (void)
{
  HobMeterClass ohms = hob_meter_class (HOB_DIM_RESISTANCE);
  HobExpected open = { INFINITY, 0 }, closed = { 60, 2 };
  double both = hob_reading_log_likelihood (INFINITY, &open, &ohms, NAN, 100);
  double other = hob_reading_log_likelihood (INFINITY, &closed, &ohms, NAN, 100);

  g_assert_cmpfloat (both, >, other + 4);
  g_assert_cmpfloat (other, >, -INFINITY);
  g_assert_cmpfloat (hob_reading_log_likelihood (60, &open, &ohms, NAN, 100), <,
                     hob_reading_log_likelihood (60, &closed, &ohms, NAN, 100) - 4);
}

/* The density is one: it integrates to 1 over what can be read. */
static void
the_density_adds_up (void)
{
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);
  HobExpected expected = { 3, 0.1 };
  double sum = 0, step = 0.001;

  for (double x = -2; x < 8; x += step)
    sum += step * exp (hob_reading_log_likelihood (x, &expected, &amps, NAN, 10));
  g_assert_cmpfloat_with_epsilon (sum, 1, 1e-3);
}

/* ---- A reading that is yet to be taken ---- */

static void
outcomes_divide_the_expectations (void)
{
  static const HobExpected all[]
      = { { 3.5, 0.03 }, { 0, 0 }, { 3.45, 0.03 }, { 2.9, 0.03 }, { INFINITY, 0 }, { 2.85, 0.03 } };
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);
  HobForeseen foreseen[G_N_ELEMENTS (all)];
  double edges[2], outcome[G_N_ELEMENTS (all)][4];
  int n;
  static const int answer[G_N_ELEMENTS (all)] = { 2, 0, 2, 1, 3, 1 };

  for (guint s = 0; s < G_N_ELEMENTS (all); s++)
    foreseen[s] = (HobForeseen){ all[s], 1, (int) s };
  n = hob_reading_divide (foreseen, G_N_ELEMENTS (all), G_N_ELEMENTS (all), &amps, edges, 2);
  g_assert_cmpint (n, ==, 2);
  g_assert_cmpfloat (edges[0], >, 0);
  g_assert_cmpfloat (edges[0], <, 2.85);
  g_assert_cmpfloat (edges[1], >, 2.9);
  g_assert_cmpfloat (edges[1], <, 3.45);
  for (guint s = 0; s < G_N_ELEMENTS (all); s++)
    {
      double sum = 0;

      hob_reading_outcomes (&all[s], &amps, edges, n, outcome[s]);
      for (int o = 0; o < 4; o++)
        sum += outcome[s][o];
      g_assert_cmpfloat_with_epsilon (sum, 1, 1e-12);
      g_assert_cmpfloat (outcome[s][answer[s]], >, 0.9);
    }
}

/* Far apart in what is hardly probable, or in what is replaced together, is not where to divide:
 * between the likely ones it is, even where they lie close. */
static void
edges_are_put_where_they_tell_most (void)
{
  static const HobForeseen all[] = {
    { { 0, 0 }, 1e-4, 0 },      { { 0.4, 0.01 }, 1e-4, 1 }, { { 1.2, 0.01 }, 1e-4, 2 },
    { { 2.2, 0.1 }, 0.3, 3 },   { { 2.6, 0.1 }, 0.3, 3 },   { { 3.0, 0.1 }, 0.1, 3 },
    { { 3.47, 0.1 }, 0.2, 4 },  { { 6, 0.1 }, 1e-4, 5 },    { { INFINITY, 0 }, 0.1, 6 },
  };
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);
  double edge;

  g_assert_cmpint (hob_reading_divide (all, G_N_ELEMENTS (all), 7, &amps, &edge, 1), ==, 1);
  g_assert_cmpfloat (edge, >, 3.0);
  g_assert_cmpfloat (edge, <, 3.47);
}

/* Expectations that are all the same, or none, have no edge: one outcome beside open. */
static void
nothing_to_divide (void)
{
  static const HobExpected same[] = { { 3, 0.1 }, { 3, 0.2 }, { INFINITY, 0 } };
  static const HobForeseen foreseen[]
      = { { { 3, 0.1 }, 1, 0 }, { { 3, 0.2 }, 1, 1 }, { { INFINITY, 0 }, 1, 2 } };
  static const HobForeseen together[] = { { { 2, 0.1 }, 1, 0 }, { { 3, 0.2 }, 1, 0 } };
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);
  double edges[3], outcome[2];

  g_assert_cmpint (hob_reading_divide (foreseen, 3, 3, &amps, edges, 3), ==, 0);
  g_assert_cmpint (hob_reading_divide (together, 2, 1, &amps, edges, 3), ==, 0);
  g_assert_cmpint (hob_reading_divide (NULL, 0, 0, &amps, edges, 3), ==, 0);
  hob_reading_outcomes (&same[0], &amps, edges, 0, outcome);
  g_assert_cmpfloat (outcome[0], >, 0.99);
  hob_reading_outcomes (&same[2], &amps, edges, 0, outcome);
  g_assert_cmpfloat (outcome[1], >, 0.99);
}

/* ---- Severity ---- */

enum { N_GRID = 101 };

/* Amps of an igniter whose ohms have grown by 60% at severity 1. */
static double
amps_at (double severity)
{
  return 120 / (33.5 * (1 + 0.6 * severity) + 1);
}

static void
compute_amps (HobExpected *computed)
{
  for (int k = 0; k < HOB_N_SEVERITIES; k++)
    computed[k] = (HobExpected){ amps_at (hob_severities[k]), 0.02 };
}

/* Probability of each severity after one reading, all equal before; the grid into @s. */
static void
severity_after (const HobExpected *computed, double reading, double *s, double *p)
{
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);

  for (int k = 0; k < N_GRID; k++)
    {
      HobExpected expected;

      s[k] = k / (N_GRID - 1.0);
      expected = hob_expected_at (computed, s[k]);
      p[k] = exp (hob_reading_log_likelihood (reading, &expected, &amps, NAN, 10));
    }
}

/* The curve goes through what was computed, never back, and is near the truth in between. */
static void
the_curve_is_monotone_and_near (void)
{
  HobExpected computed[HOB_N_SEVERITIES];
  double last = INFINITY;

  compute_amps (computed);
  for (int k = 0; k < HOB_N_SEVERITIES; k++)
    g_assert_cmpfloat_with_epsilon (hob_expected_at (computed, hob_severities[k]).value,
                                    computed[k].value, 1e-12);
  for (int k = 0; k <= 1000; k++)
    {
      HobExpected at = hob_expected_at (computed, k / 1000.0);

      g_assert_cmpfloat (at.value, <=, last);
      g_assert_cmpfloat (fabs (at.value - amps_at (k / 1000.0)), <, at.spread);
      g_assert_cmpfloat (fabs (at.value - amps_at (k / 1000.0)), <, 0.015);
      last = at.value;
    }
}

static void
a_step_stays_between_its_ends (void)
{
  static const HobExpected computed[HOB_N_SEVERITIES]
      = { { 5, 0 }, { 5, 0 }, { 1, 0 }, { 1, 0 }, { 1, 0 } };

  for (int k = 0; k <= 1000; k++)
    {
      HobExpected at = hob_expected_at (computed, k / 1000.0);

      g_assert_cmpfloat (at.value, <=, 5);
      g_assert_cmpfloat (at.value, >=, 1 - 1e-12);
    }
  g_assert_cmpfloat (hob_expected_at (computed, 0.375).spread, >, 0.3);
  g_assert_cmpfloat (hob_expected_at (computed, 0.9).spread, <, 1e-12);
}

static void
opens_halfway_to_the_severity_that_is_open (void)
{
  static const HobExpected computed[HOB_N_SEVERITIES]
      = { { 60, 1 }, { 70, 1 }, { 80, 1 }, { INFINITY, 0 }, { INFINITY, 0 } };

  g_assert_cmpfloat (hob_expected_at (computed, 0.6).value, ==, 80);
  g_assert_true (isinf (hob_expected_at (computed, 0.7).value));
  g_assert_cmpfloat (hob_expected_at (computed, 0.4).value, <, 80);
}

static void
a_symptom_begins_in_between (void)
{
  static const double computed[HOB_N_SHOWN] = { 0, 0, 0, 0, 1, 1, 1, 1, 1 };
  static const double once[HOB_N_SHOWN] = { 0, 0, 0, 1, 0, 0, 0, 0, 0 };

  g_assert_cmpfloat (hob_shows_at (computed, 0.3), ==, 0);
  g_assert_cmpfloat_with_epsilon (hob_shows_at (computed, 0.4375), 0.5, 1e-12);
  g_assert_cmpfloat (hob_shows_at (computed, 0.6), ==, 1);
  g_assert_cmpfloat (hob_shows_at (computed, 1), ==, 1);
  /* What shows at neither of two severities may show between them. */
  g_assert_cmpfloat (hob_shows_at (once, 0.25), ==, 0);
  g_assert_cmpfloat_with_epsilon (hob_shows_at (once, 0.34), 0.72, 1e-12);
  g_assert_cmpfloat (hob_shows_at (once, 0.5), ==, 0);
}

/* 2.9 A: the aging that explains it, and a span that follows from meter and units. */
static void
a_reading_says_how_bad (void)
{
  HobExpected computed[HOB_N_SEVERITIES];
  double s[N_GRID], p[N_GRID], truth = ((120 / 2.9 - 1) / 33.5 - 1) / 0.6, slope, deviation;
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);
  HobSeveritySpan span;

  compute_amps (computed);
  severity_after (computed, 2.9, s, p);
  span = hob_severity_span (s, p, N_GRID, 0.9);
  g_test_message ("2.9 A: severity %.3f (%.3f to %.3f), truth %.3f", span.middle, span.low,
                  span.high, truth);
  g_assert_cmpfloat_with_epsilon (span.middle, truth, 0.02);
  slope = (amps_at (truth + 0.01) - amps_at (truth - 0.01)) / 0.02;
  deviation = hob_reading_deviation (&(HobExpected){ 2.9, 0.02 }, &amps, NAN) / fabs (slope);
  g_assert_cmpfloat (span.high - span.low, >, 0.9 * 2 * 1.645 * deviation);
  g_assert_cmpfloat (span.high - span.low, <, 1.4 * 2 * 1.645 * deviation);
}

/* Of many igniters, read with a meter of that class, nine in ten lie within the span. */
static void
spans_hold_what_they_say (void)
{
  HobExpected computed[HOB_N_SEVERITIES];
  HobMeterClass amps = hob_meter_class (HOB_DIM_CURRENT);
  double s[N_GRID], p[N_GRID];
  int held = 0;
  const int n = 1000;

  compute_amps (computed);
  for (guint64 k = 0; k < (guint64) n; k++)
    {
      double truth = hob_hash_uniform (5, 0, k), value = amps_at (truth);
      double limit = amps.of_reading * value + amps.fixed;
      HobSeveritySpan span;

      value += 0.02 * hob_hash_normal (5, 1, k) + limit * (2 * hob_hash_uniform (5, 2, k) - 1);
      severity_after (computed, value, s, p);
      span = hob_severity_span (s, p, N_GRID, 0.9);
      held += truth >= span.low && truth <= span.high;
    }
  g_test_message ("%d of %d within the span of 90 %%", held, n);
  g_assert_cmpint (100 * held, >, 87 * n);
  g_assert_cmpint (100 * held, <, 96 * n);
}

static void
spans_at_the_edges (void)
{
  static const double s[] = { 0, 0.5, 1 }, one[] = { 0, 0, 4 }, none[] = { 0, 0, 0 };
  HobSeveritySpan span = hob_severity_span (s, one, 3, 0.9);

  g_assert_cmpfloat (span.low, >=, 0.75);
  g_assert_cmpfloat (span.high, <=, 1);
  span = hob_severity_span (s, none, 3, 0.9);
  g_assert_cmpfloat (span.low, <, 0.2);
  g_assert_cmpfloat (span.high, >, 0.8);
  span = hob_severity_span (s + 1, one, 1, 0.9);
  g_assert_cmpfloat (span.middle, ==, 0.5);
}

/* A wet film that may have dried: open as often as not, and else by its size, as far up as down. */
static void
what_may_be_open_is_expected_both_ways (void)
{
  HobMeterClass ohms = hob_meter_class (HOB_DIM_RESISTANCE);
  HobExpected film = { 30e3, 30e3, 0.5 }, dry = { INFINITY, 0, 0 }, wet = { 30e3, 300, 0 };
  double open = hob_reading_log_likelihood (INFINITY, &film, &ohms, NAN, 1e6);
  double up = hob_reading_log_likelihood (60e3, &film, &ohms, NAN, 1e6) + log (60e3);
  double down = hob_reading_log_likelihood (15e3, &film, &ohms, NAN, 1e6) + log (15e3);

  g_assert_cmpfloat_with_epsilon (exp (open), 0.5, 0.01);
  g_assert_cmpfloat_with_epsilon (up, down, 0.05);
  g_assert_cmpfloat (hob_reading_log_likelihood (60e3, &film, &ohms, NAN, 1e6), >,
                     hob_reading_log_likelihood (60e3, &wet, &ohms, NAN, 1e6) + 2);
  g_assert_cmpfloat (hob_reading_log_likelihood (INFINITY, &dry, &ohms, NAN, 1e6), >, open);
}

/* A closed contact of a few milliohms, more in another unit: the meter reads 0 as well. */
static void
next_to_no_ohms_is_within_the_meters_error (void)
{
  HobMeterClass ohms = hob_meter_class (HOB_DIM_RESISTANCE);
  HobExpected contact = { .value = 0.005, .spread = 0.02 };
  double none = hob_reading_log_likelihood (0, &contact, &ohms, NAN, 1e6);
  double as_expected = hob_reading_log_likelihood (0.005, &contact, &ohms, NAN, 1e6);

  g_assert_cmpfloat_with_epsilon (none, as_expected, 0.01);
  g_assert_cmpfloat (hob_reading_log_likelihood (5, &contact, &ohms, NAN, 1e6), <, none - 5);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    GTestFunc test;
  } all[] = {
    { "/reason/evidence/seen-not-seen-not-looked", seen_not_seen_not_looked },
    { "/reason/evidence/one-mistake-is-outweighed", one_mistake_is_outweighed },
    { "/reason/evidence/nearer-is-likelier", nearer_is_likelier },
    { "/reason/evidence/a-stated-tolerance-counts", a_stated_tolerance_counts },
    { "/reason/evidence/every-dimension-has-a-meter", every_dimension_has_a_meter },
    { "/reason/evidence/two-units", two_units_say_little_of_a_third },
    { "/reason/evidence/next-to-nothing", nothing_is_read_for_next_to_nothing },
    { "/reason/evidence/open-is-a-reading", open_is_a_reading },
    { "/reason/evidence/the-density-adds-up", the_density_adds_up },
    { "/reason/evidence/outcomes-divide-the-expectations", outcomes_divide_the_expectations },
    { "/reason/evidence/edges-are-put-where-they-tell-most", edges_are_put_where_they_tell_most },
    { "/reason/evidence/nothing-to-divide", nothing_to_divide },
    { "/reason/evidence/what-may-be-open", what_may_be_open_is_expected_both_ways },
    { "/reason/evidence/next-to-no-ohms", next_to_no_ohms_is_within_the_meters_error },
    { "/reason/severity/the-curve-is-monotone-and-near", the_curve_is_monotone_and_near },
    { "/reason/severity/a-step-stays-between-its-ends", a_step_stays_between_its_ends },
    { "/reason/severity/opens-halfway", opens_halfway_to_the_severity_that_is_open },
    { "/reason/severity/a-symptom-begins-in-between", a_symptom_begins_in_between },
    { "/reason/severity/a-reading-says-how-bad", a_reading_says_how_bad },
    { "/reason/severity/spans-hold-what-they-say", spans_hold_what_they_say },
    { "/reason/severity/spans-at-the-edges", spans_at_the_edges },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint k = 0; k < G_N_ELEMENTS (all); k++)
    g_test_add_func (all[k].path, all[k].test);
  return g_test_run ();
}
