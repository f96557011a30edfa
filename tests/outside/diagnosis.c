/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Choosing tests, against published problems that have nothing to do with ranges. */

#include "check.h"
#include "reason/beliefs.h"
#include "reason/next-test.h"

#include <string.h>

/* ---- Information ---- */

#define MITCHELL "T. Mitchell, Machine Learning (1997), table 3.2 and section 3.4"

/* Fourteen days: outlook (sunny, overcast, rain), temperature (hot, mild, cool), humidity (high,
 * normal), wind (weak, strong), and whether tennis was played. */
static const struct
{
  int value[4], play;
} days[] = {
  { { 0, 0, 0, 0 }, 0 }, { { 0, 0, 0, 1 }, 0 }, { { 1, 0, 0, 0 }, 1 }, { { 2, 1, 0, 0 }, 1 },
  { { 2, 2, 1, 0 }, 1 }, { { 2, 2, 1, 1 }, 0 }, { { 1, 2, 1, 1 }, 1 }, { { 0, 1, 0, 0 }, 0 },
  { { 0, 2, 1, 0 }, 1 }, { { 2, 1, 1, 0 }, 1 }, { { 0, 1, 1, 1 }, 1 }, { { 1, 1, 0, 1 }, 1 },
  { { 1, 0, 1, 0 }, 1 }, { { 2, 1, 0, 1 }, 0 },
};

enum { N_DAYS = G_N_ELEMENTS (days) };

/* The book prints the gains to three digits; the others follow from its table. */
static void
gains_of_the_tennis_days (void)
{
  static const struct
  {
    const char *name;
    int n_values;
    double gain;
  } columns[] = { { "outlook", 3, 0.246750 }, { "temperature", 3, 0.029223 },
                  { "humidity", 2, 0.151836 }, { "wind", 2, 0.048127 } };
  double p[N_DAYS], likelihood[3 * N_DAYS];
  int group[N_DAYS];

  for (int c = 0; c < (int) G_N_ELEMENTS (columns); c++)
    {
      g_autofree char *source
          = g_strdup_printf ("%s, gain of %s", MITCHELL, columns[c].name);

      memset (likelihood, 0, sizeof likelihood);
      for (int d = 0; d < N_DAYS; d++)
        {
          p[d] = 1.0 / N_DAYS;
          group[d] = days[d].play;
          likelihood[days[d].value[c] * N_DAYS + d] = 1;
        }
      check_near (PUBLISHED, source,
                  hob_information (p, N_DAYS, group, 2, likelihood, columns[c].n_values),
                  columns[c].gain, 5e-7);
    }
}

/* ---- Test sequencing ---- */

#define PATTIPATI "K. Pattipati, M. Alexandridis, IEEE Trans. SMC 20(4) (1990) 872"

enum { N_STATES = 6, N_TESTS = 5 };

static const double prior[N_STATES] = { 0.70, 0.01, 0.02, 0.10, 0.05, 0.12 };

/* Which states a test finds, by its number. */
static const char *const finds[N_TESTS] = { "000111", "010011", "001001", "001101", "010100" };

typedef struct
{
  double likelihood[N_TESTS][2 * N_STATES];
  HobTestOption tests[N_TESTS];
} Sequencing;

static void
sequencing_init (Sequencing *s)
{
  for (int t = 0; t < N_TESTS; t++)
    {
      for (int k = 0; k < N_STATES; k++)
        for (int o = 0; o < 2; o++)
          s->likelihood[t][o * N_STATES + k] = finds[t][k] - '0' == o;
      s->tests[t]
          = (HobTestOption){ .minutes = 1, .n_outcomes = 2, .likelihood = s->likelihood[t] };
    }
}

/* Expected cost of doing what is advised until the search stops. */
static double
cost_of_advice (const HobTestOption *tests, int n_tests, int n_states, const double *p,
                const gboolean *made, const HobTestRule *rule)
{
  HobTestProblem problem = { .n_states = n_states, .p = p, .n_tests = n_tests, .tests = tests,
                             .made = made };
  HobNextTest next = hob_next_test (&problem, rule);
  g_autofree gboolean *now = g_memdup2 (made, (gsize) n_tests * sizeof *made);
  double cost;

  if (next.verdict != HOB_TEST_GO)
    return 0;
  cost = tests[next.test].minutes;
  now[next.test] = TRUE;
  for (int o = 0; o < tests[next.test].n_outcomes; o++)
    {
      g_autofree double *after = g_new (double, n_states);
      double sum = 0;

      for (int s = 0; s < n_states; s++)
        sum += after[s] = p[s] * tests[next.test].likelihood[o * n_states + s];
      if (sum <= 0)
        continue;
      for (int s = 0; s < n_states; s++)
        after[s] /= sum;
      cost += sum * cost_of_advice (tests, n_tests, n_states, after, now, rule);
    }
  return cost;
}

static double
cost_of_sequencing (HobTestRule rule)
{
  static const gboolean none[N_TESTS];
  Sequencing s;

  sequencing_init (&s);
  rule.sure = 1;
  rule.wrong = 1e6;
  return cost_of_advice (s.tests, N_TESTS, N_STATES, prior, none, &rule);
}

static void
test_sequencing_is_solved (void)
{
  HobTestRule rule = hob_test_rule_default, short_sighted = rule;

  check_near (DERIVED, PATTIPATI ", problem from memory: entropy of the priors",
              hob_weighted_entropy (prior, N_STATES), 1.4549, 5e-5);
  check_near (DERIVED, PATTIPATI ", problem from memory: least expected tests",
              cost_of_sequencing (rule), 2.18, 1e-9);
  rule.greedy = TRUE;
  check_near (DERIVED, PATTIPATI ", problem from memory: most information first",
              cost_of_sequencing (rule), 2.86, 1e-9);
  short_sighted.effort = 0;
  check_near (DERIVED, PATTIPATI ", problem from memory: two tests ahead, no deeper",
              cost_of_sequencing (short_sighted), 2.18, 1e-9);
}

/* Each check finds its own state and no other; none of the three is the one thing sure beforehand,
 * so that the last one has to be found as well.  The best order is by p/c, whatever the rest. */
static void
single_checks_go_by_the_ratio (void)
{
  enum { N = 4 };
  static const double p[N] = { 0.5, 0.3, 0.2, 1e-9 }, minutes[] = { 4, 1, 1 };
  static const gboolean none[3];
  double likelihood[3][2 * N];
  HobTestOption tests[3];
  HobTestRule rule = hob_test_rule_default;
  HobTestProblem problem = { .n_states = N, .p = p, .n_tests = 3, .tests = tests };

  for (int t = 0; t < 3; t++)
    {
      for (int s = 0; s < N; s++)
        {
          likelihood[t][N + s] = s == t;
          likelihood[t][s] = s != t;
        }
      tests[t] = (HobTestOption){ .minutes = minutes[t], .n_outcomes = 2,
                                  .likelihood = likelihood[t] };
    }
  rule.sure = 1;
  rule.wrong = 1e12;
  g_assert_cmpint (hob_next_test (&problem, &rule).test, ==, 1);
  check_near (DERIVED, "order by p/c of perfect single checks, p = .5 .3 .2, c = 4 1 1",
              cost_of_advice (tests, 3, N, p, none, &rule), 3.7, 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/outside/diagnosis/gains-of-the-tennis-days", gains_of_the_tennis_days);
  g_test_add_func ("/outside/diagnosis/test-sequencing-is-solved", test_sequencing_is_solved);
  g_test_add_func ("/outside/diagnosis/single-checks-go-by-the-ratio",
                   single_checks_go_by_the_ratio);
  return g_test_run ();
}
