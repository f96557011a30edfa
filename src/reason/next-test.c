/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/next-test.h"

#include "reason/beliefs.h"

#include <math.h>
#include <string.h>

/* The times are usual ones in the trade (common practice, no source); the rest is this project's
 * own choice: a second visit with a needless part is put at two hours. */
const HobTestRule hob_test_rule_default = {
  .sure = 0.95,
  .wrong = 120,
  .price = { 0, 1, 5, 5 },
  .ahead = 2,
  .breadth = 6,
  .effort = 2e7,
};

enum
{
  SHORT_LIST = 20, /* tests followed at all in a large problem; at most the bits of `used` */
  MOST_TESTS = 24, /* in a row */
  DEEPER = 8,      /* times the work, for one more test ahead: measured */
};

#define NEGLIGIBLE 1e-3  /* states that together weigh less are left out of a large problem */
#define LARGE 32         /* states */
#define SLIGHT 0.02      /* of the average weight; in a large problem lighter states … */
#define RARE 5e-3        /* … and branches less probable than this are not followed */
#define DULL 1e-9        /* bits; less is nothing */
#define TAIL 1e5         /* multiplications for what follows the tests that are tried, times the
                            weight of the node: twenty readings of six outcomes have no end */
#define EQUAL_BITS 0.005 /* two tests that tell as much, to within this */
#define FOR_SAFETY 5.0   /* minutes beyond its price that a test without danger may take: assumed */

typedef struct
{
  double cost;   /* minutes and the price of its danger */
  double set_up; /* … of them those that are not spent again once its set-up is made */
  int index;     /* in the problem's list */
  int danger;
  guint64 makes; /* the bit of its set-up, or 0 */
  int n_outcomes;
  double *likelihood; /* owned; [outcome·n + state] of the states that were kept */
  double *logs;       /* owned; its log2, where it is not 0 */
} Option;

/* Ways to choose among tests. */
enum
{
  BITS_PER_MINUTE,   /* about the groups */
  BITS,              /* the same; a dear test may spare many cheap ones */
  DETAIL_PER_MINUTE, /* about the states: which of a group's it is says how it is proved */
  N_WAYS,
};

typedef struct
{
  int option;
  double cost; /* what is left of it */
  double bits; /* about the groups, times the weight of the node */
  double by[N_WAYS];
} Rated;

/* Where a walk is: tests made so far, those that it has used and the set-ups that they have made,
 * and how many more are chosen by trying several.  Beyond them the best by one way is taken. */
typedef struct
{
  int level, ahead;
  guint32 used;
  guint64 made;
  int way; /* in which they are chosen then */
} Place;

/* States that are left after some outcomes. */
typedef struct
{
  int n;
  int *state;   /* owned */
  double *w;    /* owned */
  double *log_w; /* owned; log2 of it: no logarithm is taken twice */
  double total; /* of w */
} Node;

typedef struct
{
  /*< borrowed >*/
  const HobTestRule *rule;
  /*< owned >*/
  int n, n_groups, n_options;
  int *group;     /* of each state that was kept, in the numbers of the search: 0 … n_groups − 1 */
  int *name;      /* of each such group, in the numbers of the problem */
  gboolean *alone; /* of each state: no other is of its group */
  double *wrong;  /* of each group */
  double *sums;   /* scratch, of each group; zero between uses */
  Node *nodes;    /* the first: before any test; the others: scratch, one a test in the row */
  Option *options;
  Option nothing; /* one outcome that is certain: what tests are compared with */
  /*< of the walk >*/
  double slight;  /* of the average weight, states below it are not followed */
  double rare;    /* branches less probable than this are not followed */
  double spent;   /* multiplications */
  double most;    /* … after which the row of tests that is walked now ends */
  gboolean cut;   /* a branch was not followed to its end */
} Search;

/* ---- Taking what matters of the problem ---- */

typedef struct
{
  double p;
  int state;
} Weighed;

static int
heavier_first (const void *a, const void *b)
{
  const Weighed *x = a, *y = b;

  return x->p > y->p ? -1 : x->p < y->p ? 1 : x->state - y->state;
}

/* The states that are followed, heaviest first; in a large problem those that together weigh
 * next to nothing are left out. */
static int *
kept_states (const HobTestProblem *problem, int *n_kept)
{
  int n = problem->n_states, kept = 0;
  g_autofree Weighed *all = g_new (Weighed, MAX (n, 1));
  int *states = g_new (int, MAX (n, 1));
  double left = 0;

  for (int s = 0; s < n; s++)
    {
      all[s] = (Weighed){ .p = problem->p[s], .state = s };
      left += problem->p[s];
    }
  qsort (all, (gsize) n, sizeof *all, heavier_first);
  while (kept < n && all[kept].p > 0 && (kept < LARGE || left > NEGLIGIBLE))
    {
      left -= all[kept].p;
      states[kept] = all[kept].state;
      kept++;
    }
  *n_kept = kept;
  return states;
}

static double
cost_of (const HobTestRule *rule, const HobTestOption *test)
{
  int last = (int) G_N_ELEMENTS (rule->price) - 1;

  return test->minutes + rule->price[MIN (test->danger, last)];
}

static Option
take_option (const HobTestProblem *problem, const HobTestRule *rule, int index, const int *states,
             int n)
{
  const HobTestOption *test = &problem->tests[index];
  Option option = { .cost = cost_of (rule, test), .set_up = test->set_up_minutes, .index = index,
                    .danger = test->danger, .n_outcomes = test->n_outcomes,
                    .makes = test->set_up > 0 ? G_GUINT64_CONSTANT (1) << test->set_up : 0 };

  option.likelihood = g_new (double, MAX (test->n_outcomes * n, 1));
  option.logs = g_new (double, MAX (test->n_outcomes * n, 1));
  for (int o = 0; o < test->n_outcomes; o++)
    for (int s = 0; s < n; s++)
      {
        double likelihood = test->likelihood[o * problem->n_states + states[s]];

        option.likelihood[o * n + s] = likelihood;
        option.logs[o * n + s] = likelihood > 0 ? log2 (likelihood) : 0;
      }
  return option;
}

static void
clear_option (Option *option)
{
  g_free (option->likelihood);
  g_free (option->logs);
}

/* ---- One node: the states that are left, with weights that are not normalized ---- */

static double
weigh (Node *node)
{
  node->total = 0;
  for (int k = 0; k < node->n; k++)
    node->total += node->w[k];
  return node->total;
}

/* Adds up the weights by group. */
static void
add_groups (Search *search, const Node *node)
{
  for (int k = 0; k < node->n; k++)
    search->sums[search->group[node->state[k]]] += node->w[k];
  search->spent += node->n;
}

/* Takes the sum of the group of the node's state @k, once; leaves 0 for the next use. */
static double
take_sum (Search *search, const Node *node, int k)
{
  double *sum = &search->sums[search->group[node->state[k]]], taken = *sum;

  *sum = 0;
  return taken;
}

/* W·H: over the groups, and over the states. */
typedef struct
{
  double groups, states;
} Entropies;

/* After an outcome of @option.  W·H = W·log2 W − Σ w·log2 w, where log2 w is that before the
 * outcome and that of its likelihood; only of groups of several states is one taken here. */
static Entropies
entropies_after (Search *search, const Node *node, const Option *option, int outcome)
{
  const double *likelihood = option->likelihood + outcome * search->n;
  const double *logs = option->logs + outcome * search->n;
  double total = 0, alone = 0, states = 0, groups = 0, all;

  for (int k = 0; k < node->n; k++)
    {
      int s = node->state[k];
      double w = node->w[k] * likelihood[s], term = w * (node->log_w[k] + logs[s]);

      total += w;
      if (search->alone[s])
        {
          alone += term;
          continue;
        }
      states += term;
      search->sums[search->group[s]] += w;
    }
  for (int k = 0; k < node->n; k++)
    if (!search->alone[node->state[k]])
      {
        double sum = take_sum (search, node, k);

        groups += sum > 0 ? sum * log2 (sum) : 0;
      }
  search->spent += 2 * node->n;
  if (total <= 0)
    return (Entropies){ 0, 0 };
  all = total * log2 (total) - alone;
  return (Entropies){ fmax (all - groups, 0), fmax (all - states, 0) };
}

/* What is lost on average if the search ends here: the most probable group is replaced, and if that
 * was needless the next one.  @best: the most probable. */
static double
loss_of (Search *search, const Node *node, gboolean *sure, int *best)
{
  double most = 0, second = 0;
  int next = -1;

  *best = -1;
  add_groups (search, node);
  for (int k = 0; k < node->n; k++)
    {
      int g = search->group[node->state[k]];
      double sum = take_sum (search, node, k);

      if (*best < 0 || sum > most)
        {
          second = most;
          next = *best;
          most = sum;
          *best = g;
        }
      else if (sum > second)
        {
          second = sum;
          next = g;
        }
    }
  *sure = most >= (search->rule->sure - 1e-12) * node->total;
  return (*best >= 0 ? search->wrong[*best] * fmax (node->total - most, 0) : 0)
         + (next >= 0 ? search->wrong[next] * fmax (node->total - most - second, 0) : 0);
}

/* Bits that @option tells, times the node's weight; @before: the node's own entropies. */
static Entropies
tells (Search *search, const Node *node, Entropies before, const Option *option)
{
  for (int o = 0; o < option->n_outcomes; o++)
    {
      Entropies after = entropies_after (search, node, option, o);

      before.groups -= after.groups;
      before.states -= after.states;
    }
  return (Entropies){ fmax (before.groups, 0), fmax (before.states, 0) };
}

/* @made: the set-ups that have been made. */
static double
cost_after (const Option *option, guint64 made)
{
  return option->cost - ((option->makes & made) != 0 ? option->set_up : 0);
}

static Entropies
entropies_of (Search *search, const Node *node)
{
  return entropies_after (search, node, &search->nothing, 0);
}

/* @before: the node's own; @index: by which the option goes on. */
static Rated
rated_of (Search *search, const Node *node, Entropies before, const Option *option, int index,
          guint64 made)
{
  Rated r = { .option = index, .cost = cost_after (option, made) };
  Entropies told = tells (search, node, before, option);

  r.by[BITS] = r.bits = told.groups;
  r.by[BITS_PER_MINUTE] = told.groups / r.cost;
  r.by[DETAIL_PER_MINUTE] = told.states / r.cost;
  return r;
}

/* Rates every option that was not used; those that tell nothing are left out, unless all of them
 * do: two tests may tell together what neither tells alone. */
static int
rate (Search *search, const Node *node, Place at, Rated *rated)
{
  Entropies before = entropies_of (search, node);
  int n = 0, n_telling = 0;

  for (int k = 0; k < search->n_options; k++)
    {
      Rated r;

      if ((at.used >> k & 1) != 0)
        continue;
      r = rated_of (search, node, before, &search->options[k], k, at.made);
      rated[n++] = r;
      if (r.bits <= DULL * node->total)
        continue;
      rated[n - 1] = rated[n_telling];
      rated[n_telling++] = r;
    }
  return n_telling > 0 ? n_telling : n;
}

/* Puts the best one by a way, of those from @from on, at @from. */
static void
bring_best (Rated *rated, int from, int n, int way)
{
  int best = from;
  Rated taken;

  for (int k = from + 1; k < n; k++)
    if (rated[k].by[way] > rated[best].by[way])
      best = k;
  taken = rated[best];
  memmove (rated + from + 1, rated + from, (gsize) (best - from) * sizeof *rated);
  rated[from] = taken;
}

/* Puts first those that are tried: by each way as many. */
static void
bring_tried (const Search *search, Place at, Rated *rated, int n)
{
  int breadth = search->rule->breadth;

  for (int k = 0; k < MIN (at.ahead > 0 ? breadth : 1, n); k++)
    bring_best (rated, k, n, at.ahead > 0 ? k * N_WAYS / breadth : at.way);
}

/* ---- The walk ---- */

static double value_of (Search *search, const Node *node, Place at);

/* The node after an outcome.  In a large problem a state that weighs less than a fiftieth of the
 * average is not followed: of all weight that is less than a fiftieth. */
static void
go_down (const Search *search, const Node *node, const Option *option, int outcome, Node *after)
{
  const double *likelihood = option->likelihood + outcome * search->n;
  const double *logs = option->logs + outcome * search->n;
  double least;

  after->n = 0;
  for (int k = 0; k < node->n; k++)
    {
      after->state[after->n] = node->state[k];
      after->w[after->n] = node->w[k] * likelihood[node->state[k]];
      after->log_w[after->n] = node->log_w[k] + logs[node->state[k]];
      after->n += after->w[after->n] > 0;
    }
  least = after->n > 0 ? search->slight * weigh (after) / after->n : 0;
  for (int k = 0, n = after->n; k < n; k++)
    {
      after->n = k == 0 ? 0 : after->n;
      after->state[after->n] = after->state[k];
      after->w[after->n] = after->w[k];
      after->log_w[after->n] = after->log_w[k];
      after->n += after->w[k] >= least;
    }
  weigh (after);
}

/* V of the node when no more tests are chosen by trying: by the best one of the ways. */
static double
tail_of (Search *search, const Node *node, Place at)
{
  double value = INFINITY;

  for (at.way = 0; at.way < N_WAYS; at.way++)
    {
      search->most = search->spent + TAIL * node->total;
      value = fmin (value, value_of (search, node, at));
    }
  return value;
}

/* Expected minutes of making @option now and going on from there; gives up above @best. */
static double
follow (Search *search, const Node *node, Place at, int option, double best)
{
  const Option *o = &search->options[option];
  Node *after = &search->nodes[at.level + 1];
  Place next = { at.level + 1, MAX (at.ahead - 1, 0), at.used | 1u << option,
                 at.made | o->makes, at.way };
  double value = node->total * cost_after (o, at.made);

  for (int k = 0; k < o->n_outcomes && value < best; k++)
    {
      go_down (search, node, o, k, after);
      value += at.ahead == 1 ? tail_of (search, after, next) : value_of (search, after, next);
    }
  return value;
}

/* V of the node, times its weight. */
static double
value_of (Search *search, const Node *node, Place at)
{
  int breadth = at.ahead > 0 ? search->rule->breadth : 1, n;
  Rated rated[SHORT_LIST];
  gboolean sure;
  double best;

  if (node->n == 0)
    return 0;
  best = loss_of (search, node, &sure, &n);
  if (sure || best <= 0)
    return best;
  if (at.level == MOST_TESTS || node->total < search->rare
      || (at.ahead == 0 && search->spent > search->most))
    {
      search->cut = TRUE;
      return best;
    }
  n = rate (search, node, at, rated);
  bring_tried (search, at, rated, n);
  search->cut = search->cut || n > breadth;
  for (int k = 0; k < MIN (n, breadth); k++)
    best = fmin (best, follow (search, node, at, rated[k].option, best));
  return best;
}

/* At equal information a test without danger, where that is not much longer; of those the one that
 * leads to fewer minutes. */
static int
safer (const Search *search, const Rated *rated, const double *values, int n, int best)
{
  int choice = best;

  for (int k = 0; k < n; k++)
    {
      const Option *o = &search->options[rated[k].option];
      const Option *chosen = &search->options[rated[choice].option];

      if (rated[k].bits < rated[best].bits - EQUAL_BITS || values[k] > values[best] + FOR_SAFETY)
        continue;
      if ((o->danger == 0 && chosen->danger > 0)
          || (o->danger == chosen->danger && values[k] < values[choice]))
        choice = k;
    }
  return choice;
}

/* The best first test when @ahead tests are chosen by trying several; −1: stopping costs less
 * than any. */
static int
choose (Search *search, const Rated *rated, int n, int ahead, double loss, double *value)
{
  double values[SHORT_LIST];
  int best = -1;

  search->cut = n > search->rule->breadth;
  for (int k = 0; k < n; k++)
    {
      values[k] = INFINITY;
      if (k < search->rule->breadth)
        values[k] = follow (search, search->nodes, (Place){ .ahead = ahead }, rated[k].option,
                            INFINITY);
      if (values[k] < (best < 0 ? loss : values[best]))
        best = k;
    }
  *value = best < 0 ? loss : values[best];
  return best < 0 ? -1 : safer (search, rated, values, n, best);
}

/* Looks ahead as far as the rule asks, then farther while that is still cheap. */
static HobNextTest
search_on (Search *search, const Rated *rated, int n, double loss)
{
  HobNextTest next = { .verdict = HOB_TEST_NOT_WORTH, .test = -1 };
  int ahead = MAX (search->rule->ahead, 1), choice;
  double before;

  do
    {
      before = search->spent;
      choice = choose (search, rated, n, ahead, loss, &next.minutes);
      before = search->spent - before;
    }
  while (search->cut && ++ahead < MOST_TESTS && DEEPER * before < search->rule->effort);
  next.exact = !search->cut;
  if (choice < 0)
    return next;
  next.verdict = HOB_TEST_GO;
  next.test = search->options[rated[choice].option].index;
  next.bits = rated[choice].bits;
  return next;
}

/* ---- The question ---- */

static gboolean
may_make (const HobTestProblem *problem, const HobTestRule *rule, int test, gboolean vetoed)
{
  gboolean forbidden = (rule->veto >> problem->tests[test].danger & 1) != 0;

  return forbidden == vetoed && (problem->made == NULL || !problem->made[test]);
}

/* Fills the short list from the tests that may be made (or, with @vetoed, from those that may not):
 * the best by each way. */
static void
take_options (Search *search, const HobTestProblem *problem, const int *states, gboolean vetoed)
{
  g_autofree Rated *rated = g_new (Rated, MAX (problem->n_tests, 1));
  Entropies entropies = entropies_of (search, search->nodes);
  int n = 0;

  for (int t = 0; t < problem->n_tests; t++)
    if (may_make (problem, search->rule, t, vetoed))
      {
        Option option = take_option (problem, search->rule, t, states, search->n);

        rated[n++] = rated_of (search, search->nodes, entropies, &option, t, 0);
        clear_option (&option);
      }
  for (int k = 0; k < MIN (n, SHORT_LIST); k++)
    {
      bring_best (rated, k, n, k * N_WAYS / SHORT_LIST);
      search->options[search->n_options++]
          = take_option (problem, search->rule, rated[k].option, states, search->n);
    }
}

static void
drop_options (Search *search)
{
  for (int k = 0; k < search->n_options; k++)
    clear_option (&search->options[k]);
  search->n_options = 0;
}

/* Before any test; the one that tells most per minute comes first. */
static int
rate_first (Search *search, Rated *rated)
{
  int n = rate (search, search->nodes, (Place){ 0 }, rated);

  if (n > 0)
    bring_best (rated, 0, n, BITS_PER_MINUTE);
  return n;
}

/* Why nothing is asked any more: would a vetoed test have told something? */
static HobTestVerdict
verdict_of_silence (Search *search, const HobTestProblem *problem, const int *states)
{
  Rated rated[SHORT_LIST];
  gboolean telling;

  drop_options (search);
  take_options (search, problem, states, TRUE);
  telling = rate_first (search, rated) > 0 && rated[0].bits > EQUAL_BITS;
  return telling ? HOB_TEST_VETOED : HOB_TEST_NOTHING_TELLS;
}

/* The test with the most bits per minute. */
static HobNextTest
most_bits (const Search *search, const Rated *rated)
{
  return (HobNextTest){
    .verdict = HOB_TEST_GO,
    .test = search->options[rated->option].index,
    .bits = rated->bits,
    .minutes = NAN,
  };
}

static HobNextTest
decide (Search *search, const HobTestProblem *problem, const int *states)
{
  HobNextTest next = { .verdict = HOB_TEST_SURE, .test = -1, .group = -1, .exact = TRUE };
  Rated rated[SHORT_LIST];
  gboolean sure;
  double loss;
  int best, n;

  if (search->n == 0)
    return next;
  next.minutes = loss = loss_of (search, search->nodes, &sure, &best);
  if (!sure)
    {
      take_options (search, problem, states, FALSE);
      n = rate_first (search, rated);
      next.verdict = HOB_TEST_NOT_WORTH;
      if (n > 0 && !search->rule->greedy)
        bring_tried (search, (Place){ .ahead = 1 }, rated, n);
      if (n > 0)
        next = search->rule->greedy ? most_bits (search, rated)
                                    : search_on (search, rated, n, loss);
      if (next.verdict == HOB_TEST_NOT_WORTH && (n == 0 || rated[0].bits <= EQUAL_BITS))
        next.verdict = verdict_of_silence (search, problem, states);
    }
  next.group = search->name[best];
  return next;
}

/* Only groups that have a state are counted: few are left when much is known. */
static void
name_groups (Search *search, const HobTestProblem *problem, const int *states)
{
  int n_all = problem->group != NULL ? problem->n_groups : problem->n_states;
  g_autofree int *number = g_new (int, MAX (n_all, 1));

  for (int g = 0; g < n_all; g++)
    number[g] = -1;
  for (int s = 0; s < search->n; s++)
    {
      int g = problem->group != NULL ? problem->group[states[s]] : states[s];

      if (number[g] < 0)
        {
          number[g] = search->n_groups++;
          search->name[number[g]] = g;
        }
      search->group[s] = number[g];
    }
}

/* Room for a row of tests, and the node before any. */
static void
init_nodes (Search *search, const HobTestProblem *problem, const int *states)
{
  Node *first;

  search->nodes = g_new (Node, MOST_TESTS + 2);
  for (int k = 0; k < MOST_TESTS + 2; k++)
    search->nodes[k] = (Node){ .state = g_new (int, MAX (search->n, 1)),
                               .w = g_new (double, MAX (search->n, 1)),
                               .log_w = g_new (double, MAX (search->n, 1)) };
  first = search->nodes;
  first->n = search->n;
  for (int s = 0; s < search->n; s++)
    {
      first->state[s] = s;
      first->w[s] = problem->p[states[s]];
    }
  weigh (first);
  for (int s = 0; s < search->n; s++)
    {
      first->w[s] /= first->total;
      first->log_w[s] = log2 (first->w[s]);
    }
  first->total = 1;
}

static void
init_nothing (Search *search)
{
  search->nothing = (Option){ .n_outcomes = 1, .likelihood = g_new (double, MAX (search->n, 1)),
                              .logs = g_new0 (double, MAX (search->n, 1)) };
  for (int s = 0; s < search->n; s++)
    search->nothing.likelihood[s] = 1;
}

/* The states that are alone in their groups. */
static void
find_alone (Search *search)
{
  g_autofree int *count = g_new0 (int, MAX (search->n, 1));

  for (int s = 0; s < search->n; s++)
    count[search->group[s]]++;
  for (int s = 0; s < search->n; s++)
    search->alone[s] = count[search->group[s]] == 1;
}

static void
search_init (Search *search, const HobTestProblem *problem, const HobTestRule *rule, int n,
             const int *states)
{
  gsize room = (gsize) MAX (n, 1);
  gboolean large = n > LARGE;

  *search = (Search){ .rule = rule, .n = n };
  search->slight = large ? SLIGHT : 0;
  search->rare = large ? RARE : 0;
  search->group = g_new (int, room);
  search->name = g_new (int, room);
  search->alone = g_new (gboolean, room);
  search->wrong = g_new (double, room);
  search->sums = g_new0 (double, room);
  search->options = g_new (Option, SHORT_LIST);
  init_nodes (search, problem, states);
  init_nothing (search);
  name_groups (search, problem, states);
  find_alone (search);
  for (int g = 0; g < search->n_groups; g++)
    search->wrong[g] = problem->wrong != NULL ? problem->wrong[search->name[g]] : rule->wrong;
}

static void
search_clear (Search *search)
{
  drop_options (search);
  for (int k = 0; k < MOST_TESTS + 2; k++)
    {
      g_free (search->nodes[k].state);
      g_free (search->nodes[k].w);
      g_free (search->nodes[k].log_w);
    }
  g_free (search->nodes);
  g_free (search->group);
  g_free (search->name);
  g_free (search->alone);
  clear_option (&search->nothing);
  g_free (search->wrong);
  g_free (search->sums);
  g_free (search->options);
}

HobNextTest
hob_next_test (const HobTestProblem *problem, const HobTestRule *rule)
{
  int n;
  g_autofree int *states = kept_states (problem, &n);
  HobNextTest next;
  Search search;

  search_init (&search, problem, rule, n, states);
  next = decide (&search, problem, states);
  search_clear (&search);
  return next;
}
