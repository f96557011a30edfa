/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Beliefs and the choice of the next test: on numbers alone, against a search that tries every
 * order of tests, at the edges, and at the size of a range. */

#include "base/hash.h"
#include "reason/beliefs.h"
#include "reason/next-test.h"

#include <math.h>
#include <string.h>
#include <time.h>

/* ---- Beliefs ---- */

static void
evidence_multiplies (void)
{
  static const double prior[] = { 6, 3, 1, 0 }, likelihood[] = { 0.1, 0.4, 0.8, 1 };
  g_autoptr (HobBelief) belief = hob_belief_new (prior, 4);
  double p[4];

  g_assert_true (hob_belief_update (belief, likelihood));
  hob_belief_get (belief, p);
  g_assert_cmpfloat_with_epsilon (p[0], 0.6 / 2.6, 1e-12);
  g_assert_cmpfloat_with_epsilon (p[1], 1.2 / 2.6, 1e-12);
  g_assert_cmpfloat_with_epsilon (p[2], 0.8 / 2.6, 1e-12);
  g_assert_cmpfloat (p[3], ==, 0);
}

/* The order of the evidence changes nothing but last bits. */
static void
order_does_not_matter (void)
{
  enum { N = 5, N_EVIDENCE = 7 };
  double prior[N], likelihood[N_EVIDENCE][N], p[N], q[N];
  g_autoptr (HobBelief) forward = NULL, backward = NULL;

  for (int s = 0; s < N; s++)
    prior[s] = hob_hash_uniform (3, 0, (guint64) s);
  for (int e = 0; e < N_EVIDENCE; e++)
    for (int s = 0; s < N; s++)
      likelihood[e][s] = hob_hash_uniform (3, 1 + (guint64) e, (guint64) s);
  forward = hob_belief_new (prior, N);
  backward = hob_belief_new (prior, N);
  for (int e = 0; e < N_EVIDENCE; e++)
    {
      g_assert_true (hob_belief_update (forward, likelihood[e]));
      g_assert_true (hob_belief_update (backward, likelihood[N_EVIDENCE - 1 - e]));
    }
  hob_belief_get (forward, p);
  hob_belief_get (backward, q);
  for (int s = 0; s < N; s++)
    g_assert_cmpfloat_with_epsilon (p[s], q[s], 1e-12);
}

/* A thousand pieces of evidence against a state, then as many for it: no underflow on the way. */
static void
a_state_comes_back_from_far_below (void)
{
  static const double prior[] = { 1, 1 }, against[] = { 1e-3, 1 }, speaks_for[] = { 1, 1e-3 };
  g_autoptr (HobBelief) belief = hob_belief_new (prior, 2);
  double p[2];

  for (int k = 0; k < 1000; k++)
    g_assert_true (hob_belief_update (belief, against));
  hob_belief_get (belief, p);
  g_assert_cmpfloat (p[0], ==, 0);
  for (int k = 0; k < 1000; k++)
    g_assert_true (hob_belief_update (belief, speaks_for));
  hob_belief_get (belief, p);
  g_assert_cmpfloat_with_epsilon (p[0], 0.5, 1e-9);
}

static void
impossible_evidence_is_refused (void)
{
  static const double prior[] = { 0.7, 0.3, 0 }, none[] = { 0, 0, 1 };
  g_autoptr (HobBelief) belief = hob_belief_new (prior, 3);
  double p[3];

  g_assert_false (hob_belief_update (belief, none));
  hob_belief_get (belief, p);
  g_assert_cmpfloat_with_epsilon (p[0], 0.7, 1e-12);
  g_assert_cmpfloat_with_epsilon (p[1], 0.3, 1e-12);
}

static void
a_copy_is_its_own (void)
{
  static const double prior[] = { 1, 3 }, likelihood[] = { 1, 0 };
  g_autoptr (HobBelief) belief = hob_belief_new (prior, 2), copy = hob_belief_copy (belief);
  double p[2];

  g_assert_true (hob_belief_update (belief, likelihood));
  hob_belief_get (copy, p);
  g_assert_cmpfloat_with_epsilon (p[1], 0.75, 1e-12);
}

static void
entropy_counts_bits (void)
{
  static const double even[] = { 1, 1, 1, 1, 1, 1, 1, 1 }, one[] = { 0, 5, 0 }, zero[] = { 0, 0 };
  g_autoptr (HobBelief) eight = hob_belief_new (even, 8), sure = hob_belief_new (one, 3);
  g_autoptr (HobBelief) unknown = hob_belief_new (zero, 2), nothing = hob_belief_new (NULL, 0);

  g_assert_cmpfloat_with_epsilon (hob_belief_entropy (eight), 3, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_belief_entropy (sure), 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_belief_entropy (unknown), 1, 1e-12);
  g_assert_cmpfloat (hob_belief_entropy (nothing), ==, 0);
  g_assert_cmpfloat (hob_weighted_entropy (zero, 2), ==, 0);
  g_assert_cmpfloat_with_epsilon (hob_weighted_entropy (even, 8), 8 * 3, 1e-12);
}

static void
not_on_my_list_keeps_its_share (void)
{
  double prior[] = { 2, 6, 99 }, alone[] = { 0 };

  hob_prior_set_share (prior, 3, 2, 0.2);
  g_assert_cmpfloat_with_epsilon (prior[2] / (prior[0] + prior[1] + prior[2]), 0.2, 1e-12);
  g_assert_cmpfloat_with_epsilon (prior[1] / prior[0], 3, 1e-12);
  hob_prior_set_share (alone, 1, 0, 0.2);
  g_assert_cmpfloat (alone[0], >, 0);
}

/* A test that says the same of every state of a group tells nothing about its states. */
static void
information_is_about_groups (void)
{
  static const double p[] = { 0.25, 0.25, 0.25, 0.25 };
  static const double halves[] = { 1, 1, 0, 0, 0, 0, 1, 1 }, odd[] = { 1, 0, 1, 0, 0, 1, 0, 1 };
  static const int group[] = { 0, 0, 1, 1 };

  g_assert_cmpfloat_with_epsilon (hob_information (p, 4, group, 2, halves, 2), 1, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_information (p, 4, group, 2, odd, 2), 0, 1e-12);
  g_assert_cmpfloat_with_epsilon (hob_information (p, 4, NULL, 0, odd, 2), 1, 1e-12);
}

/* ---- The next test, against every order of tests ---- */

enum { N_STATES = 6, N_TESTS = 6, MOST_OUTCOMES = 3, N_PROBLEMS = 200 };

typedef struct
{
  double p[N_STATES], likelihood[N_TESTS][MOST_OUTCOMES * N_STATES];
  int group[N_STATES];
  HobTestOption tests[N_TESTS];
  HobTestRule rule;
} Problem;

/* Half of the tests answer without fail, half are noisy; some states are of one group. */
static void
problem_init (Problem *problem, guint64 seed)
{
  double sum = 0;

  *problem = (Problem){ .rule = hob_test_rule_default };
  for (int s = 0; s < N_STATES; s++)
    {
      sum += problem->p[s] = -log (1 - hob_hash_uniform (seed, 0, (guint64) s));
      problem->group[s] = s > 0 && hob_hash_uniform (seed, 1, (guint64) s) < 0.2 ? s - 1 : s;
    }
  for (int s = 0; s < N_STATES; s++)
    problem->p[s] /= sum;
  for (int t = 0; t < N_TESTS; t++)
    {
      int n = t % 3 == 2 ? 3 : 2;
      double *likelihood = problem->likelihood[t];

      for (int s = 0; s < N_STATES; s++)
        {
          double noise = t % 2 * 0.3, u = hob_hash_uniform (seed, 2 + (guint64) t, (guint64) s);
          int answer = (int) (u * n);

          for (int o = 0; o < n; o++)
            likelihood[o * N_STATES + s] = o == answer ? 1 - noise : noise / (n - 1);
        }
      problem->tests[t] = (HobTestOption){
        .minutes = 1 + 19 * hob_hash_uniform (seed, 9, (guint64) t),
        .n_outcomes = n,
        .likelihood = likelihood,
      };
    }
  problem->rule.wrong = 20 + 180 * hob_hash_uniform (seed, 10, 0);
}

static double
sum_of (const double *p)
{
  double sum = 0;

  for (int s = 0; s < N_STATES; s++)
    sum += p[s];
  return sum;
}

static int
less_first (const void *a, const void *b)
{
  const double *x = a, *y = b;

  return *x < *y ? -1 : *x > *y;
}

/* What stopping costs, times the weight of @p: the most probable group is replaced, and then the
 * next one.  @sure: the rule says to stop. */
static double
stop_loss (const Problem *problem, const double *p, gboolean *sure)
{
  double weight[N_STATES] = { 0 }, sum = sum_of (p);

  for (int s = 0; s < N_STATES; s++)
    weight[problem->group[s]] += p[s];
  qsort (weight, N_STATES, sizeof *weight, less_first);
  *sure = weight[N_STATES - 1] >= (problem->rule.sure - 1e-12) * sum;
  return problem->rule.wrong
         * (2 * (sum - weight[N_STATES - 1]) - weight[N_STATES - 2]);
}

static void
after_outcome (const Problem *problem, const double *p, int test, int outcome, double *after)
{
  for (int s = 0; s < N_STATES; s++)
    after[s] = p[s] * problem->likelihood[test][outcome * N_STATES + s];
}

static gboolean
is_set_up (const Problem *problem, int test, guint made)
{
  for (int t = 0; t < N_TESTS; t++)
    if ((made >> t & 1) != 0 && problem->tests[t].set_up == problem->tests[test].set_up)
      return problem->tests[test].set_up > 0;
  return FALSE;
}

/* What a test takes after others. */
static double
minutes_after (const Problem *problem, int test, guint made)
{
  const HobTestOption *t = &problem->tests[test];

  return t->minutes - (is_set_up (problem, test, made) ? t->set_up_minutes : 0);
}

/* Tests share two set-ups, of 10 and 20 min. */
static void
share_set_ups (Problem *problem)
{
  for (int t = 0; t < N_TESTS; t++)
    {
      HobTestOption *test = &problem->tests[t];

      test->set_up = 1 + t % 2;
      test->set_up_minutes = 10 * test->set_up;
      test->minutes += test->set_up_minutes;
    }
}

/* The least expected minutes over all orders of tests, each outcome followed. */
static double
least (const Problem *problem, const double *p, guint made)
{
  double after[N_STATES], best;
  gboolean sure;

  best = stop_loss (problem, p, &sure);
  for (int t = 0; t < N_TESTS && !sure; t++)
    {
      double value = sum_of (p) * minutes_after (problem, t, made);

      if ((made >> t & 1) != 0)
        continue;
      for (int o = 0; o < problem->tests[t].n_outcomes && value < best; o++)
        {
          after_outcome (problem, p, t, o, after);
          value += least (problem, after, made | 1u << t);
        }
      best = MIN (best, value);
    }
  return best;
}

/* Expected minutes of doing what is advised, times the weight of @p. */
static double
advised (const Problem *problem, const HobTestRule *rule, const double *p, guint made)
{
  gboolean flags[N_TESTS], sure;
  double now[N_STATES], after[N_STATES], sum = sum_of (p), value;
  HobTestOption left[N_TESTS];
  HobTestProblem question = { .n_states = N_STATES, .p = now, .group = problem->group,
                              .n_groups = N_STATES, .n_tests = N_TESTS, .tests = left,
                              .made = flags };
  HobNextTest next;

  if (sum <= 0)
    return 0;
  for (int s = 0; s < N_STATES; s++)
    now[s] = p[s] / sum;
  for (int t = 0; t < N_TESTS; t++)
    {
      flags[t] = (made >> t & 1) != 0;
      left[t] = problem->tests[t];
      left[t].minutes = minutes_after (problem, t, made);
      if (is_set_up (problem, t, made))
        left[t].set_up = 0;
    }
  next = hob_next_test (&question, rule);
  if (next.verdict != HOB_TEST_GO)
    return stop_loss (problem, p, &sure);
  value = sum * left[next.test].minutes;
  for (int o = 0; o < problem->tests[next.test].n_outcomes; o++)
    {
      after_outcome (problem, p, next.test, o, after);
      value += advised (problem, rule, after, made | 1u << next.test);
    }
  return value;
}

typedef struct
{
  double worst, sum, optimum;
} Excess;

static void
add_excess (Excess *excess, double got, double optimum)
{
  excess->worst = MAX (excess->worst, got / optimum - 1);
  excess->sum += got;
  excess->optimum += optimum;
}

/* Advice costs at most 2% more than the best of all orders, in every problem.  Two tests ahead and
 * no deeper, as in a problem too large to be followed to its end, it does so over all problems. */
static void
random_problems_are_solved (void)
{
  Excess deep = { 0 }, two = { 0 }, greedy = { 0 };

  for (guint64 seed = 1; seed <= N_PROBLEMS; seed++)
    {
      Problem problem;
      HobTestRule shallow, naive;
      double optimum;

      problem_init (&problem, seed);
      shallow = naive = problem.rule;
      shallow.effort = 0;
      naive.greedy = TRUE;
      optimum = least (&problem, problem.p, 0);
      add_excess (&deep, advised (&problem, &problem.rule, problem.p, 0), optimum);
      add_excess (&two, advised (&problem, &shallow, problem.p, 0), optimum);
      add_excess (&greedy, advised (&problem, &naive, problem.p, 0), optimum);
    }
  g_test_message ("over the optimum: default %.3f %% (worst %.3f %%), two ahead %.2f %% (worst "
                  "%.1f %%), most bits per minute first %.1f %%",
                  100 * (deep.sum / deep.optimum - 1), 100 * deep.worst,
                  100 * (two.sum / two.optimum - 1), 100 * two.worst,
                  100 * (greedy.sum / greedy.optimum - 1));
  g_assert_cmpfloat (deep.worst, >=, -1e-9);
  g_assert_cmpfloat (deep.worst, <=, 0.02);
  g_assert_cmpfloat (two.sum, <=, 1.02 * two.optimum);
  g_assert_cmpfloat (greedy.sum, >, 1.02 * greedy.optimum);
}

/* So it does where tests share their set-ups; who thinks of each test alone pays for that. */
static void
shared_set_ups_are_foreseen (void)
{
  Excess deep = { 0 }, alone = { 0 };

  for (guint64 seed = 1; seed <= N_PROBLEMS / 2; seed++)
    {
      Problem problem;
      HobTestRule naive;
      double optimum;

      problem_init (&problem, seed);
      share_set_ups (&problem);
      naive = problem.rule;
      naive.greedy = TRUE;
      optimum = least (&problem, problem.p, 0);
      add_excess (&deep, advised (&problem, &problem.rule, problem.p, 0), optimum);
      add_excess (&alone, advised (&problem, &naive, problem.p, 0), optimum);
    }
  g_test_message ("over the optimum: default %.3f %% (worst %.3f %%), most bits first %.1f %%",
                  100 * (deep.sum / deep.optimum - 1), 100 * deep.worst,
                  100 * (alone.sum / alone.optimum - 1));
  g_assert_cmpfloat (deep.worst, >=, -1e-9);
  g_assert_cmpfloat (deep.worst, <=, 0.02);
  g_assert_cmpfloat (alone.sum, >, 1.02 * alone.optimum);
}

/* ---- The next test at its edges ---- */

static const double even[] = { 0.5, 0.5 }, tells_all[] = { 1, 0, 0, 1 }, tells_none[] = { 1, 1 };

static HobNextTest
ask (const HobTestOption *tests, int n_tests, const HobTestRule *rule)
{
  HobTestProblem problem = { .n_states = 2, .p = even, .n_tests = n_tests, .tests = tests };

  return hob_next_test (&problem, rule);
}

static void
no_test_means_stop (void)
{
  HobNextTest next = ask (NULL, 0, &hob_test_rule_default);

  g_assert_cmpint (next.verdict, ==, HOB_TEST_NOTHING_TELLS);
  g_assert_cmpint (next.test, ==, -1);
  g_assert_cmpfloat_with_epsilon (next.minutes, 60, 1e-9);
}

static void
one_state_is_sure (void)
{
  static const double p[] = { 1 };
  HobTestOption test = { .minutes = 1, .n_outcomes = 1, .likelihood = p };
  HobTestProblem problem = { .n_states = 1, .p = p, .n_tests = 1, .tests = &test };
  HobNextTest next = hob_next_test (&problem, &hob_test_rule_default);

  g_assert_cmpint (next.verdict, ==, HOB_TEST_SURE);
  g_assert_cmpint (next.group, ==, 0);
  problem.n_states = 0;
  next = hob_next_test (&problem, &hob_test_rule_default);
  g_assert_cmpint (next.verdict, ==, HOB_TEST_SURE);
  g_assert_cmpint (next.group, ==, -1);
}

static void
a_test_that_tells_nothing_is_not_made (void)
{
  HobTestOption test = { .minutes = 1, .n_outcomes = 1, .likelihood = tells_none };

  g_assert_cmpint (ask (&test, 1, &hob_test_rule_default).verdict, ==, HOB_TEST_NOTHING_TELLS);
}

static void
a_test_is_made_once (void)
{
  static const double noisy[] = { 0.6, 0.4, 0.4, 0.6 };
  static const gboolean made[] = { TRUE };
  HobTestOption test = { .minutes = 1, .n_outcomes = 2, .likelihood = noisy };
  HobTestProblem problem = { .n_states = 2, .p = even, .n_tests = 1, .tests = &test };

  g_assert_cmpint (hob_next_test (&problem, &hob_test_rule_default).verdict, ==, HOB_TEST_GO);
  problem.made = made;
  g_assert_cmpint (hob_next_test (&problem, &hob_test_rule_default).verdict, ==,
                   HOB_TEST_NOTHING_TELLS);
}

static void
being_wrong_may_cost_less_than_a_test (void)
{
  HobTestOption test = { .minutes = 15, .n_outcomes = 2, .likelihood = tells_all };
  HobTestRule rule = hob_test_rule_default;

  g_assert_cmpint (ask (&test, 1, &rule).verdict, ==, HOB_TEST_GO);
  rule.wrong = 20;
  g_assert_cmpint (ask (&test, 1, &rule).verdict, ==, HOB_TEST_NOT_WORTH);
}

/* The stop rule is the person's: with less asked of it, the search ends sooner. */
static void
sure_is_adjustable (void)
{
  static const double p[] = { 0.9, 0.1 };
  HobTestOption test = { .minutes = 1, .n_outcomes = 2, .likelihood = tells_all };
  HobTestProblem problem = { .n_states = 2, .p = p, .n_tests = 1, .tests = &test };
  HobTestRule rule = hob_test_rule_default;

  g_assert_cmpint (hob_next_test (&problem, &rule).verdict, ==, HOB_TEST_GO);
  rule.sure = 0.9;
  g_assert_cmpint (hob_next_test (&problem, &rule).verdict, ==, HOB_TEST_SURE);
}

/* However much a live test tells and however little it takes: who must not make it is never
 * offered it. */
static void
danger_is_a_veto (void)
{
  static const double little[] = { 0.7, 0.3, 0.3, 0.7 };
  HobTestOption tests[] = {
    { .minutes = 0.1, .danger = 2, .n_outcomes = 2, .likelihood = tells_all },
    { .minutes = 20, .danger = 0, .n_outcomes = 2, .likelihood = little },
  };
  HobTestRule rule = hob_test_rule_default;

  rule.sure = 0.6;
  g_assert_cmpint (ask (tests, 2, &rule).test, ==, 0);
  rule.veto = 1u << 2;
  g_assert_cmpint (ask (tests, 2, &rule).test, ==, 1);
  g_assert_cmpint (ask (tests, 1, &rule).verdict, ==, HOB_TEST_VETOED);
}

static void
equal_information_goes_to_the_dead_test (void)
{
  HobTestOption tests[] = {
    { .minutes = 2, .danger = 2, .n_outcomes = 2, .likelihood = tells_all },
    { .minutes = 15, .danger = 0, .n_outcomes = 2, .likelihood = tells_all },
    { .minutes = 12, .danger = 0, .n_outcomes = 2, .likelihood = tells_all },
  };

  g_assert_cmpint (ask (tests, 3, &hob_test_rule_default).test, ==, 2);
}

/* What is less dangerous, and not without danger, costs less for that, and no more is spent. */
static void
a_hot_test_is_no_dead_one (void)
{
  HobTestOption tests[] = {
    { .minutes = 2, .danger = 2, .n_outcomes = 2, .likelihood = tells_all },
    { .minutes = 10, .danger = 1, .n_outcomes = 2, .likelihood = tells_all },
  };

  g_assert_cmpint (ask (tests, 2, &hob_test_rule_default).test, ==, 0);
  tests[1].minutes = 5;
  g_assert_cmpint (ask (tests, 2, &hob_test_rule_default).test, ==, 1);
}

/* Neither of two tests tells anything alone; together they tell all. */
static void
two_tests_that_only_tell_together (void)
{
  static const double p[] = { 0.25, 0.25, 0.25, 0.25 };
  static const double first[] = { 1, 1, 0, 0, 0, 0, 1, 1 }, second[] = { 1, 0, 1, 0, 0, 1, 0, 1 };
  static const int group[] = { 0, 1, 1, 0 };
  HobTestOption tests[] = { { .minutes = 1, .n_outcomes = 2, .likelihood = first },
                            { .minutes = 1, .n_outcomes = 2, .likelihood = second } };
  HobTestProblem problem = { .n_states = 4, .p = p, .group = group, .n_groups = 2, .n_tests = 2,
                             .tests = tests };
  HobNextTest next = hob_next_test (&problem, &hob_test_rule_default);

  g_assert_cmpint (next.verdict, ==, HOB_TEST_GO);
  g_assert_cmpfloat_with_epsilon (next.minutes, 2, 1e-9);
}

/* ---- The size of a range ---- */

enum { LARGE_STATES = 1000, LARGE_GROUPS = 250, LARGE_TESTS = 400, BINS = 4 };

static void
large_init (double *p, int *group, HobTestOption *tests, double *likelihood)
{
  double sum = 0;

  for (int s = 0; s < LARGE_STATES; s++)
    {
      sum += p[s] = -log (1 - hob_hash_uniform (7, 0, (guint64) s));
      group[s] = s / (LARGE_STATES / LARGE_GROUPS);
    }
  for (int s = 0; s < LARGE_STATES; s++)
    p[s] /= sum;
  for (int t = 0; t < LARGE_TESTS; t++)
    {
      double *of_test = likelihood + t * BINS * LARGE_STATES;

      for (int s = 0; s < LARGE_STATES; s++)
        {
          double u = hob_hash_uniform (7, 1 + (guint64) t, (guint64) group[s]);
          int answer = u < 0.8 ? 0 : (int) (u * 20) - 16;

          for (int o = 0; o < BINS; o++)
            of_test[o * LARGE_STATES + s] = o == answer ? 0.97 : 0.01;
        }
      tests[t] = (HobTestOption){ .minutes = 1 + 14 * hob_hash_uniform (7, 500, (guint64) t),
                                  .n_outcomes = BINS, .likelihood = of_test };
    }
}

/* Of this thread, so that a busy machine changes little. */
static double
cpu_ms (void)
{
  struct timespec t;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &t);
  return (double) t.tv_sec * 1e3 + (double) t.tv_nsec * 1e-6;
}

/* 250 faults at four severities and 400 tests: the truth is found, and how long an answer took, the
 * update and the next test, is printed and not judged. */
static void
a_whole_range_is_answered_at_once (void)
{
  g_autofree double *p = g_new (double, LARGE_STATES);
  g_autofree double *likelihood = g_new (double, LARGE_TESTS * BINS * LARGE_STATES);
  g_autofree int *group = g_new (int, LARGE_STATES);
  g_autofree HobTestOption *tests = g_new (HobTestOption, LARGE_TESTS);
  g_autofree gboolean *made = g_new0 (gboolean, LARGE_TESTS);
  g_autoptr (HobBelief) belief = NULL;
  const int truth = 617;
  HobNextTest next;
  int n = 0;
  double slowest = 0;

  large_init (p, group, tests, likelihood);
  belief = hob_belief_new (p, LARGE_STATES);
  do
    {
      HobTestProblem problem = { .n_states = LARGE_STATES, .p = p, .group = group,
                                 .n_groups = LARGE_GROUPS, .n_tests = LARGE_TESTS, .tests = tests,
                                 .made = made };
      double begin = cpu_ms ();

      hob_belief_get (belief, p);
      next = hob_next_test (&problem, &hob_test_rule_default);
      if (next.verdict == HOB_TEST_GO)
        {
          const double *of_test = tests[next.test].likelihood;
          int answer = 0;

          while (of_test[answer * LARGE_STATES + truth] < 0.5)
            answer++;
          made[next.test] = TRUE;
          g_assert_true (hob_belief_update (belief, of_test + answer * LARGE_STATES));
          n++;
        }
      slowest = MAX (slowest, cpu_ms () - begin);
    }
  while (next.verdict == HOB_TEST_GO);
  g_test_message ("%d tests until sure, slowest answer %.1f ms", n, slowest);
  g_assert_cmpint (next.verdict, ==, HOB_TEST_SURE);
  g_assert_cmpint (next.group, ==, group[truth]);
}

/* Twenty readings of six outcomes, each of which says a little about every state: followed to the
 * end they have 6²⁰ ends. */
static void
many_readings_end_soon (void)
{
  enum { STATES = 30, TESTS = 20, OUTCOMES = 6 };
  double p[STATES], likelihood[TESTS][OUTCOMES * STATES], begin;
  HobTestOption tests[TESTS];
  HobTestProblem problem
      = { .n_states = STATES, .p = p, .n_tests = TESTS, .tests = tests };
  HobNextTest next;

  for (int s = 0; s < STATES; s++)
    p[s] = 1.0 / STATES;
  for (int t = 0; t < TESTS; t++)
    {
      for (int s = 0; s < STATES; s++)
        for (int o = 0; o < OUTCOMES; o++)
          likelihood[t][o * STATES + s]
              = (int) (hob_hash_uniform (5, (guint64) t, (guint64) s) * OUTCOMES) == o ? 0.6
                                                                                        : 0.08;
      tests[t] = (HobTestOption){ .minutes = 1 + t % 7, .n_outcomes = OUTCOMES,
                                  .likelihood = likelihood[t] };
    }
  begin = cpu_ms ();
  next = hob_next_test (&problem, &hob_test_rule_default);
  g_test_message ("%.0f ms", cpu_ms () - begin);
  g_assert_cmpint (next.verdict, ==, HOB_TEST_GO);
  g_assert_false (next.exact);
  g_assert_cmpfloat (cpu_ms () - begin, <, 10000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reason/beliefs/evidence-multiplies", evidence_multiplies);
  g_test_add_func ("/reason/beliefs/order-does-not-matter", order_does_not_matter);
  g_test_add_func ("/reason/beliefs/a-state-comes-back-from-far-below",
                   a_state_comes_back_from_far_below);
  g_test_add_func ("/reason/beliefs/impossible-evidence-is-refused",
                   impossible_evidence_is_refused);
  g_test_add_func ("/reason/beliefs/a-copy-is-its-own", a_copy_is_its_own);
  g_test_add_func ("/reason/beliefs/entropy-counts-bits", entropy_counts_bits);
  g_test_add_func ("/reason/beliefs/not-on-my-list-keeps-its-share",
                   not_on_my_list_keeps_its_share);
  g_test_add_func ("/reason/beliefs/information-is-about-groups", information_is_about_groups);
  g_test_add_func ("/reason/next-test/random-problems-are-solved", random_problems_are_solved);
  g_test_add_func ("/reason/next-test/shared-set-ups-are-foreseen", shared_set_ups_are_foreseen);
  g_test_add_func ("/reason/next-test/no-test-means-stop", no_test_means_stop);
  g_test_add_func ("/reason/next-test/one-state-is-sure", one_state_is_sure);
  g_test_add_func ("/reason/next-test/a-test-that-tells-nothing-is-not-made",
                   a_test_that_tells_nothing_is_not_made);
  g_test_add_func ("/reason/next-test/a-test-is-made-once", a_test_is_made_once);
  g_test_add_func ("/reason/next-test/being-wrong-may-cost-less-than-a-test",
                   being_wrong_may_cost_less_than_a_test);
  g_test_add_func ("/reason/next-test/sure-is-adjustable", sure_is_adjustable);
  g_test_add_func ("/reason/next-test/danger-is-a-veto", danger_is_a_veto);
  g_test_add_func ("/reason/next-test/equal-information-goes-to-the-dead-test",
                   equal_information_goes_to_the_dead_test);
  g_test_add_func ("/reason/next-test/a-hot-test-is-no-dead-one", a_hot_test_is_no_dead_one);
  g_test_add_func ("/reason/next-test/two-tests-that-only-tell-together",
                   two_tests_that_only_tell_together);
  g_test_add_func ("/reason/next-test/many-readings-end-soon", many_readings_end_soon);
  g_test_add_func ("/reason/next-test/a-whole-range-is-answered-at-once",
                   a_whole_range_is_answered_at_once);
  return g_test_run ();
}
