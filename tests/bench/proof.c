/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Proof of the reasoning: a technician who knows nothing but what a customer says and what tests
 * answer, against truths drawn by prior.  Nothing here passes or fails: it prints how it went.
 *
 *   bench-proof [RANGE [SINGLES [PAIRS [TRIPLES [NORMAL [FIRST-SEED]]]]]] */

#include "base/hash.h"
#include "technician.h"

#include <math.h>
#include <stdlib.h>

#define OUTCOMES 6.0 /* of a reading, as the choice of the next test counts them */

typedef struct
{
  const char *name;
  int drawn, silent, n, right, both, together, stopped, none, unsafe, needless, tests;
  double minutes, greedy_minutes, fixed_minutes, bits, slowest;
  int sure[2], of_sure[2]; /* given 0.7 to 0.8, and 0.95 or more */
} Sums;

static void
count_calibration (Sums *s, const Outcome *o)
{
  int bin = o->p >= 0.95 ? 1 : o->p >= 0.7 && o->p < 0.8 ? 0 : -1;

  if (bin < 0)
    return;
  s->of_sure[bin]++;
  s->sure[bin] += o->right;
}

static Outcome
solve (Shop *shop, const Truth *truth, guint64 seed, gboolean greedy)
{
  const char *complaint
      = truth->shows->len > 0
            ? truth->shows->pdata[(guint) (hob_hash_uniform (seed, 5, 0) * truth->shows->len)]
            : hob_symptom_book_get (shop->idle->book,
                                    (int) (hob_hash_uniform (seed, 6, 0)
                                           * hob_symptom_book_size (shop->idle->book)))->id;
  g_autoptr (GPtrArray) clues = technician_complaint (shop, complaint);

  shop->priors->rule.greedy = greedy;
  return technician_solve (shop, truth, HOB_SKILL_TECHNICIAN, clues, seed);
}

static void
add (Sums *s, Shop *shop, const Truth *truth, guint64 seed)
{
  Outcome o = solve (shop, truth, seed, FALSE), greedy;

  s->stopped += o.stopped;
  if (!o.stopped)
    {
      greedy = solve (shop, truth, seed, TRUE);
      s->n++;
      s->right += o.right;
      s->both += o.both;
      s->together += o.together;
      s->unsafe += o.unsafe;
      s->needless += o.needless;
      s->tests += o.tests;
      s->minutes += o.minutes;
      s->greedy_minutes += greedy.minutes;
      s->fixed_minutes += o.fixed_minutes;
      s->bits += o.bits;
      s->slowest = fmax (s->slowest, o.slowest);
      count_calibration (s, &o);
      outcome_clear (&greedy);
    }
  if (!o.right && !o.stopped && g_getenv ("PROOF_SHOW") != NULL)
    {
      for (int k = 0; k < truth->n_faults; k++)
        g_print ("# truth %s:%s=%.2f\n", shop->range->parts[truth->part[k]].id,
                 shop->range->parts[truth->part[k]].kind->faults[truth->fault[k]].id,
                 truth->severity[k]);
      g_print ("# said %s %s:%s %.2f\n# %s\n", truth->shows->len > 0
                   ? (char *) truth->shows->pdata[(guint) (hob_hash_uniform (seed, 5, 0)
                                                           * truth->shows->len)] : "-",
               o.part >= 0 ? shop->range->parts[o.part].id : "-",
               o.part >= 0 ? shop->range->parts[o.part].kind->faults[o.fault].id
               : o.what == HOB_SUSPECT_NORMAL ? "nothing-wrong" : "not-on-my-list", o.p, o.log);
    }
  outcome_clear (&o);
}

static void
print (const Sums *s)
{
  double n = MAX (s->n, 1);

  g_print ("%-8s %4d drawn, %d silent, %d ended at make safe, %d solved: right %.1f %% (%d by a "
           "group that no test separates, %d with both faults), tests %.1f, minutes %.1f (fixed "
           "order %.1f, greedy %.1f), entropy %.2f bit = at least %.1f tests, unsafe %d, needless "
           "parts %d, slowest answer %.0f ms, calibration 70-80 %%: %d of %d, 95 %% and more: %d "
           "of %d\n",
           s->name, s->drawn, s->silent, s->stopped, s->n, 100 * s->right / n, s->together,
           s->both,
           s->tests / n, s->minutes / n, s->fixed_minutes / n, s->greedy_minutes / n, s->bits / n,
           s->bits / n / log2 (OUTCOMES), s->unsafe, s->needless, 1000 * s->slowest, s->sure[0],
           s->of_sure[0], s->sure[1], s->of_sure[1]);
}

static void
sample (Shop *shop, const char *name, int n_faults, int wanted, guint64 seed)
{
  Sums s = { .name = name };

  while (s.n + s.stopped < wanted && s.drawn < 10 * wanted)
    {
      g_autoptr (Truth) truth = truth_draw (shop, n_faults, seed);

      s.drawn++;
      if (truth->shows->len == 0 && n_faults > 0)
        s.silent++;
      else
        add (&s, shop, truth, seed);
      seed++;
      if (s.drawn % 25 == 0)
        print (&s);
    }
  if (wanted > 0)
    print (&s);
}

int
main (int argc, char **argv)
{
  static const char *const names[] = { "singles", "pairs", "triples", "normal" };
  static const int faults[] = { 1, 2, 3, 0 };
  g_autoptr (Shop) shop = shop_new (argc > 1 ? argv[1] : "dial-four");
  guint64 seed = argc > 6 ? g_ascii_strtoull (argv[6], NULL, 10) : 1;

  for (int k = 0; k < 4; k++)
    sample (shop, names[k], faults[k],
            argc > k + 2 ? atoi (argv[k + 2]) : k == 0 ? 24 : 0, seed + (guint64) k * 100000);
  return 0;
}
