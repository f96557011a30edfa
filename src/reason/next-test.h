/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The next test: which one to make now, so that the whole search costs the fewest expected minutes,
 * the cost of replacing a wrong part included.  Plain arrays; nothing here knows a range.
 *
 *   V(p) = min ( stop:  wrong(g)·(1 − p(g)) + wrong(h)·(1 − p(g) − p(h)), where g is the most
 *                       probable group and h the next: one and then the other is replaced,
 *                test:  minutes(t) + Σ over outcomes o of P(o)·V(p after o) )
 *
 * The first `ahead` tests in a row, or more, are chosen by trying several at each step; what
 * follows is priced by the best of three simple ways that go on to the end: most bits per minute,
 * most bits, most about the single states per minute.  Small problems are tried in full, and then
 * the answer is exact. */

#include <glib.h>

G_BEGIN_DECLS

/* One test that could be made.  It is made once: asked again, the same part answers the same. */
typedef struct
{
  double minutes;           /* > 0, its set-up included */
  double set_up_minutes;    /* … which takes so many of them, of all tests that share it as many */
  int set_up;               /* its number, 1 … 63: who made one test need not make it for others of
                               the same number; 0: none */
  int danger;               /* 0: none; the greater, the more dangerous; below 32 */
  int n_outcomes;           /* ≥ 1 */
  const double *likelihood; /* borrowed; [outcome·n_states + state]: P(outcome | state) */
} HobTestOption;

typedef struct
{
  int n_states;
  const double *p;   /* borrowed; of each state, sum 1 */
  const int *group;  /* borrowed; what is replaced for it: 0 … n_groups − 1; NULL: each its own */
  int n_groups;      /* unused where group is NULL */
  const double *wrong; /* borrowed; minutes that replacing a group needlessly costs; NULL: rule's */
  int n_tests;
  const HobTestOption *tests; /* borrowed */
  const gboolean *made;       /* borrowed; of each test; NULL: none */
} HobTestProblem;

/* When to stop and how far to think: all of it may be changed by the person. */
typedef struct
{
  double sure;      /* stop when a group has at least this probability */
  double wrong;     /* minutes that a needless part costs, a second visit included */
  guint veto;       /* bits 1 << danger: what this person must not do; never only a price */
  double price[4];  /* minutes added for the danger 0 … 3 (above: as 3) */
  int ahead;        /* tests to look ahead at least, ≥ 1 */
  gboolean greedy;  /* take the most bits per minute and think no further: for comparison */
  int breadth;      /* tests followed at each step, the best by bits per minute */
  double effort;    /* multiplications after which it looks no deeper */
} HobTestRule;

extern const HobTestRule hob_test_rule_default;

typedef enum
{
  HOB_TEST_GO,           /* make `test` */
  HOB_TEST_SURE,         /* stop: a group is as probable as the rule asks */
  HOB_TEST_NOTHING_TELLS, /* stop: no test that is left separates the groups */
  HOB_TEST_NOT_WORTH,    /* stop: what is left to know costs more than being wrong */
  HOB_TEST_VETOED,       /* stop: only tests that this person must not make would tell more */
} HobTestVerdict;

typedef struct
{
  HobTestVerdict verdict;
  int test;       /* −1 unless HOB_TEST_GO */
  int group;      /* the most probable one now; −1: no state at all */
  double bits;    /* that the test tells about the groups; 0 when stopping */
  double minutes; /* expected to the end, this test and the cost of being wrong included */
  gboolean exact; /* every branch was followed to its end */
} HobNextTest;

HobNextTest hob_next_test (const HobTestProblem *problem, const HobTestRule *rule);

G_END_DECLS
