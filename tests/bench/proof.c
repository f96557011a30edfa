/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Proof of the reasoning: a technician who knows nothing but what a customer says and what tests
 * answer, against truths drawn by prior.  Nothing here passes or fails: it prints how it went.
 *
 *   bench-proof [RANGE [SINGLES [PAIRS [TRIPLES [LINES [NORMAL [FIRST-SEED]]]]]]]
 *
 * Lines are wires open or exchanged and pipes pinched.  With PROOF_SHOW each problem that was not
 * solved is printed with all that was typed; with PROOF_SHOW=all every one.  With PROOF_INSIDER,
 * who knows the answer beforehand is timed, too. */

#include "base/hash.h"
#include "rivals.h"
#include "reason/complaint.h"

#include <math.h>
#include <stdlib.h>

#define OUTCOMES 6.0 /* of a reading, as the choice of the next test counts them */

typedef struct
{
  const char *name;
  int drawn, silent, n, right, both, together, stopped, unsafe, needless, tests;
  int greedy_right, list_right, insider_right;
  int given[N_BINS], right_of[N_BINS], single_given[N_BINS], single_right[N_BINS];
  double minutes, greedy_minutes, list_minutes, insider_minutes, fixed_minutes, bits, slowest;
} Sums;

/* (owned) Truths that show nothing, and parts that no test tells apart. */
static GPtrArray *silent, *groups;

/* One of those that such a range may show, each as often as it is imagined. */
static const char *
any_symptom (const Shop *shop, guint64 seed)
{
  const HobSymptomBook *book = shop->idle->book;
  int n = hob_symptom_book_size (book), k;

  for (guint64 again = 0;; again++)
    {
      k = (int) (hob_hash_uniform (seed, 6, again) * n);
      if (hob_symptom_book_may_show (book, k, shop->range)
          && hob_hash_uniform (seed, 7, again) < hob_complaint_imagined (book, k))
        return hob_symptom_book_get (book, k)->id;
    }
}

/* What the customer says: something that it shows, or something that it does not. */
static const char *
complaint_of (const Shop *shop, const Truth *truth, guint64 seed)
{
  return truth->shows->len > 0
             ? truth->shows->pdata[(guint) (hob_hash_uniform (seed, 5, 0) * truth->shows->len)]
             : any_symptom (shop, seed);
}

/* With PROOF_INSIDER, which takes ten times as long. */
static void
add_insider (Sums *s, Shop *shop, const Truth *truth, guint64 seed)
{
  RivalOutcome insider = rival_insider (shop, truth, complaint_of (shop, truth, seed), seed);

  s->insider_minutes += insider.minutes;
  s->insider_right += insider.right;
}

static Outcome
solve (Shop *shop, const Truth *truth, HobSkill role, guint64 seed, gboolean greedy)
{
  g_autoptr (GPtrArray) clues = technician_complaint (shop, complaint_of (shop, truth, seed));

  shop->priors->rule.greedy = greedy;
  return technician_solve (shop, truth, role, clues, seed);
}

static void
count (Sums *s, const Outcome *o, const Outcome *greedy, RivalOutcome list)
{
  s->n++;
  s->right += o->right;
  s->both += o->both;
  s->together += o->together;
  s->needless += o->needless;
  s->tests += o->tests;
  s->minutes += o->minutes;
  s->greedy_minutes += greedy->minutes;
  s->greedy_right += greedy->right;
  s->list_minutes += list.minutes;
  s->list_right += list.right;
  s->fixed_minutes += o->fixed_minutes;
  s->bits += o->bits;
  s->slowest = fmax (s->slowest, o->slowest);
  for (int k = 0; k < N_BINS; k++)
    {
      s->given[k] += o->given[k];
      s->right_of[k] += o->right_of[k];
      s->single_given[k] += o->single_given[k];
      s->single_right[k] += o->single_right[k];
    }
}

static void
show (const Shop *shop, const Truth *truth, guint64 seed, const Outcome *o)
{
  g_autofree char *text = truth_text (shop, truth);

  g_print ("# %s: %s (seed %" G_GUINT64_FORMAT "); verdict %d, %d tests, %.0f min, no err "
           "%.0f min, of the true part alone %.0f min; %s\n# complaint: %s\n",
           o->right ? "found" : "not found", text, truth->acts->seed, (int) o->verdict, o->tests,
           o->minutes, o->fixed_minutes, o->known_minutes, o->suspects,
           complaint_of (shop, truth, seed));
  g_print ("%s", o->log);
}

/* The technician, the greedy one, and an apprentice. */
static void
add (Sums *s, Shop *shop, const Truth *truth, guint64 seed)
{
  Outcome o = solve (shop, truth, HOB_SKILL_TECHNICIAN, seed, FALSE);
  Outcome apprentice = solve (shop, truth, HOB_SKILL_APPRENTICE, seed, FALSE);

  s->stopped += o.stopped;
  s->unsafe += o.unsafe + apprentice.unsafe;
  if (!o.stopped)
    {
      Outcome greedy = solve (shop, truth, HOB_SKILL_TECHNICIAN, seed, TRUE);

      count (s, &o, &greedy,
             rival_list (shop, truth, complaint_of (shop, truth, seed), seed));
      outcome_clear (&greedy);
      if (g_getenv ("PROOF_INSIDER") != NULL)
        add_insider (s, shop, truth, seed);
    }
  if (o.group != NULL)
    g_ptr_array_add (groups, g_steal_pointer (&o.group));
  if (g_getenv ("PROOF_SHOW") != NULL && !o.stopped
      && (!o.right || g_str_equal (g_getenv ("PROOF_SHOW"), "all")))
    show (shop, truth, seed, &o);
  outcome_clear (&o);
  outcome_clear (&apprentice);
}

static void
print_head (void)
{
  g_print ("%-8s %5s %6s %4s %6s %6s %6s %5s %5s %7s %7s %6s %7s %7s %6s %6s %6s %8s %6s\n", "",
           "drawn", "silent", "stop", "solved", "right", "group", "both", "tests", "minutes", "(a)",
           "right", "no err", "(b)", "right", "(c)", "unsafe", "needless", "ms");
}

/* (a): minutes of a fixed order under the same eyes, meters and stop rule, and how often that is
 * right; of one whose inspections never err; (b): of the greedy choice, and how often that is
 * right; (c): tests at least, by entropy. */
static void
print (const Sums *s)
{
  double n = MAX (s->n, 1);

  g_print ("%-8s %5d %6d %4d %6d %5.1f%% %6d %5d %5.2f %7.1f %7.1f %5.1f%% %7.1f %7.1f %5.1f%% "
           "%6.2f %6d %8d %6.0f\n",
           s->name, s->drawn, s->silent, s->stopped, s->n, 100 * s->right / n, s->together,
           s->both, s->tests / n, s->minutes / n, s->list_minutes / n, 100 * s->list_right / n,
           s->fixed_minutes / n, s->greedy_minutes / n, 100 * s->greedy_right / n,
           s->bits / n / log2 (OUTCOMES), s->unsafe, s->needless, 1000 * s->slowest);
}

static void
print_insider (const Sums *s)
{
  if (s->insider_minutes > 0)
    g_print ("  who knows the answer and only proves it: %.1f minutes, %.1f%% right\n",
             s->insider_minutes / s->n, 100.0 * s->insider_right / s->n);
}

static void
print_calibration (const char *of, const int *given, const int *right)
{
  gboolean any = FALSE;

  for (int k = 0; k < N_BINS; k++)
    any = any || given[k] > 0;
  if (!any)
    return;
  g_print ("  calibration, %s:", of);
  for (int k = 0; k < N_BINS; k++)
    if (given[k] > 0)
      g_print (" %d-%d%%: %.0f%% of %d;", 100 * k / N_BINS, 100 * (k + 1) / N_BINS,
               100.0 * right[k] / given[k], given[k]);
  g_print ("\n");
}

typedef struct
{
  const char *name;
  int n_faults; /* −1: none of the list */
  int usual;    /* how many, unless it is said */
} Sort;

static const Sort sorts[]
    = { { "singles", 1, 24 }, { "pairs", 2, 0 }, { "triples", 3, 0 }, { "lines", -1, 0 },
        { "normal", 0, 0 } };

/* How often the priors have a range of this sort among those that are complained of; two sorts are
 * not listed. */
static double
share_of (const HobPriors *priors, const Sort *sort)
{
  double faulty = 1 - priors->nothing_wrong - priors->not_listed;

  return sort->n_faults == 0   ? priors->nothing_wrong
         : sort->n_faults == 1 ? faulty * (1 - priors->two_faults)
         : sort->n_faults == 2 ? faulty * priors->two_faults
                               : priors->not_listed / 2;
}

/* How often a part is at fault that is given a probability, each sort coming as often as the priors
 * say: a probability that leaves room for all sorts is too modest for most of them. */
static void
print_together (const Sums *sums, const HobPriors *priors)
{
  g_print ("calibration, as often as the priors say:");
  for (int k = 0; k < N_BINS; k++)
    {
      double given = 0, right = 0;

      for (guint s = 0; s < G_N_ELEMENTS (sorts); s++)
        if (sums[s].n > 0)
          {
            given += share_of (priors, &sorts[s]) / sums[s].n * sums[s].given[k];
            right += share_of (priors, &sorts[s]) / sums[s].n * sums[s].right_of[k];
          }
      if (given > 0)
        g_print (" %d-%d%%: %.0f%%;", 100 * k / N_BINS, 100 * (k + 1) / N_BINS,
                 100 * right / given);
    }
  g_print ("\n");
}

static Sums
sample (Shop *shop, const Sort *sort, int wanted, guint64 seed)
{
  Sums s = { .name = sort->name };

  for (; s.n < wanted && s.drawn < 10 * wanted; seed++)
    {
      g_autoptr (Truth) truth = sort->n_faults < 0 ? truth_draw_unlisted (shop, seed)
                                                   : truth_draw (shop, sort->n_faults, seed);

      s.drawn++;
      if (truth->shows->len == 0 && sort->n_faults != 0)
        {
          s.silent++;
          g_ptr_array_add (silent, truth_text (shop, truth));
        }
      else
        add (&s, shop, truth, seed);
      if (s.drawn % 25 == 0)
        print (&s);
    }
  if (wanted == 0)
    return s;
  print (&s);
  print_insider (&s);
  print_calibration ("parts at every answer", s.given, s.right_of);
  print_calibration ("the same, known to be one fault of the list", s.single_given,
                     s.single_right);
  return s;
}

static void
print_all (const char *what, const GPtrArray *texts)
{
  g_print ("%s: %u\n", what, texts->len);
  for (guint k = 0; k < texts->len; k++)
    g_print ("  %s\n", (char *) texts->pdata[k]);
}

int
main (int argc, char **argv)
{
  enum { SEED = 2 + G_N_ELEMENTS (sorts) };
  g_autoptr (Shop) shop = shop_new (argc > 1 ? argv[1] : "dial-four");
  Sums sums[G_N_ELEMENTS (sorts)];
  guint64 seed = argc > SEED ? g_ascii_strtoull (argv[SEED], NULL, 10) : 1;

  silent = g_ptr_array_new_with_free_func (g_free);
  groups = g_ptr_array_new_with_free_func (g_free);
  print_head ();
  for (int k = 0; k < (int) G_N_ELEMENTS (sorts); k++)
    sums[k] = sample (shop, &sorts[k], argc > k + 2 ? atoi (argv[k + 2]) : sorts[k].usual,
                      seed + (guint64) k * 100000);
  print_together (sums, shop->priors);
  print_all ("parts that no test separates", groups);
  print_all ("truths that show nothing", silent);
  g_ptr_array_unref (silent);
  g_ptr_array_unref (groups);
  return 0;
}
