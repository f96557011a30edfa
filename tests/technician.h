/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A technician who is told nothing but what a customer says: makes the next test that is advised,
 * types what it reads, and goes on until testing stops. */

#include "reason/suspects.h"

/* Minutes, and of them those that are not needed again where the range was opened before. */
typedef struct
{
  double minutes, set_up;
  int behind; /* the place where it is opened, −1: none */
  int means;  /* HobMeans */
} Price;

/* What is asked of one range again and again. */
typedef struct
{
  HobRange *range;
  HobBench *idle;
  HobTrials *trials;
  HobPriors *priors;
  Price *price; /* what confirming each fault of the list takes; NULL: not asked yet */
} Shop;

Shop *shop_new (const char *range);
void shop_free (Shop *shop);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Shop, shop_free)

/* What is really the case, and is not told to anybody. */
typedef struct
{
  /*< owned >*/
  HobRange *range; /* NULL: the shop's; else it has something that no list has … */
  HobBench *own;   /* … and its bench */
  char *changed;   /* … in words: "w22 open" */
  HobCase *acts;   /* settings, specimen and faults */
  int n_faults;
  int part[3], fault[3];
  double severity[3];
  GPtrArray *shows; /* char *: "SYMPTOM" or "SYMPTOM PART" that it shows in any procedure */
  GPtrArray *runs;  /* HobBench *: what was done with it so far, each once */
} Truth;

/* Another unit in another house with @n_faults faults drawn by prior, or none; drawn again while
 * the unit without them is not silent.  (transfer full) */
Truth *truth_draw (const Shop *shop, int n_faults, guint64 seed);
/* The same without faults of a list: an open wire, two wires exchanged, or a pinched pipe.
 * (transfer full) */
Truth *truth_draw_unlisted (const Shop *shop, guint64 seed);
/* "igniter-bake:aged=0.55", or what was changed.  (transfer full) */
char *truth_text (const Shop *shop, const Truth *truth);
void truth_free (Truth *truth);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Truth, truth_free)

enum { N_BINS = 10 };

/* How it went. */
typedef struct
{
  HobSuspectWhat what; /* the first suspect at the end */
  int part, fault;
  double p;
  gboolean stopped;  /* at "First make it safe." */
  gboolean right;    /* it names a part that has a fault; or rightly none */
  gboolean both;     /* of two faults it names both */
  gboolean together; /* right, since no test tells it from the true one … */
  char *group;       /* … owned: the parts that no test tells apart; NULL */
  int tests, unsafe, needless;
  int given[N_BINS], right_of[N_BINS]; /* parts by their probability, at every answer */
  int single_given[N_BINS], single_right[N_BINS]; /* … if it is known that it is one of the list */
  double minutes;
  double bits;          /* entropy of the parts after the complaint alone */
  double fixed_minutes; /* of checking the suspects in the order of probability over cost */
  double known_minutes; /* of confirming a true fault alone; +∞: none is listed */
  double slowest;       /* s of processor time for one answer */
  HobTestVerdict verdict; /* at the end */
  char *log;            /* what was typed, a line each */
  char *suspects;       /* the first at the end: "PART:FAULT 0.62; …" */
} Outcome;

void outcome_clear (Outcome *outcome);

/* @clues: what is known at first, HobClue *; the technician adds to it. */
Outcome technician_solve (Shop *shop, const Truth *truth, HobSkill role, GPtrArray *clues,
                          guint64 seed);
/* How probable it is that a part that has a fault has one; or rightly, that none or another has. */
double technician_true_share (const Truth *truth, const HobSuspects *all);
/* Does the first of them name a part that has a fault, or one that no test tells from it; or
 * rightly none? */
gboolean technician_is_right (const Shop *shop, const Truth *truth, const HobSuspects *all);
/* What is typed after the @n-th test: its reading; volts where ohms are refused, since it is
 * verified first that the part is dead.  NULL: nothing is read.  (transfer full) */
char *technician_reads (const Shop *shop, const Truth *truth, const HobTest *test, guint64 seed,
                        guint64 n);
/* The complaint that comes first: one of those that it shows, by chance.  (transfer full) */
GPtrArray *technician_complaint (const Shop *shop, const char *text);
