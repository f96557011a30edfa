/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "technician.h"

#include "base/hash.h"
#include "reason/alike.h"
#include "reason/beliefs.h"
#include "reason/effort.h"
#include "reason/inquiry.h"
#include "reason/offers.h"
#include "reason/trials-cache.h"
#include "reason/vary.h"
#include "shipped.h"

#include <math.h>
#include <string.h>
#include <time.h>

#define MOST_TESTS 20
#define SURE 0.9  /* of who stops for being sure: what is hardly probable is left out */
#define SHOWN 6 /* suspects at the end */
#define APART 2.0 /* standard deviations, by which two readings are told apart */
#define MOST_ALIKE 3 /* parts that no test tells apart; more are a failure */
#define LEAST_GIVEN 0.05 /* probability from which it is counted how often that is right */
#define OPEN 1e-6    /* of a wire's diameter: next to no copper is left */
#define PINCHED 0.15 /* of a pipe's bore */

Shop *
shop_new (const char *name)
{
  Shop *shop = g_new0 (Shop, 1);
  HobTableWork work = { .cache = TRUE };

  shop->range = shipped_range (name);
  shop->idle = hob_bench_new (NULL, shop->range, NULL, NULL);
  shop->trials = hob_trials_new (shop->idle, &work);
  shop->priors = hob_priors_new (shop->range);
  return shop;
}

void
shop_free (Shop *shop)
{
  g_free (shop->price);
  hob_priors_free (shop->priors);
  hob_trials_free (shop->trials);
  hob_bench_free (shop->idle);
  hob_range_unref (shop->range);
  g_free (shop);
}

/* ---- Truths ---- */

static const HobBench *
bench_of (const Shop *shop, const Truth *truth)
{
  return truth->own != NULL ? truth->own : shop->idle;
}

/* "SYMPTOM PART @ ACTS; TIME" of an event under @acts. (transfer full) */
static char *
complaint_of (const Shop *shop, const HobCase *acts, const HobEvent *e)
{
  HobEnd none = { -1, -1 };
  HobTest look = { .what = HOB_TEST_LOOK, .a = none, .b = none, .wire = -1, .part = e->part,
                   .quantity = -1, .time = ceil (e->t) + 1 };
  g_autofree char *text = NULL;

  look.symptom = (char *) hob_symptom_book_get (shop->idle->book, e->index)->id;
  look.acts = hob_case_new (shop->range);
  for (guint k = 0; k < acts->acts->len; k++)
    {
      const HobAct *act = &g_array_index (acts->acts, HobAct, k);

      if (act->what == HOB_ACT_CONTROL && (double) act->ms <= look.time * 1000)
        hob_case_add (look.acts, *act);
    }
  text = hob_test_text (shop->range, &look);
  hob_case_free (look.acts);
  return g_strdup (text + strlen ("look "));
}

/* Up to @until the same is done. */
static gboolean
same_until (const HobCase *a, const HobCase *b, double until)
{
  guint common = hob_case_common (a, b);

  return (common >= a->acts->len
          || (double) g_array_index (a->acts, HobAct, common).ms > until * 1000)
         && (common >= b->acts->len
             || (double) g_array_index (b->acts, HobAct, common).ms > until * 1000);
}

/* The run under @acts, until then: one that is there, or a new one.  Borrowed. */
static HobBench *
run_under (const HobBench *idle, GPtrArray *runs, const HobCase *acts, double until,
           gboolean *answered)
{
  HobBench *bench = NULL;

  for (guint k = 0; k < runs->len && bench == NULL; k++)
    if (same_until (hob_run_case (((HobBench *) runs->pdata[k])->run), acts, until))
      bench = runs->pdata[k];
  if (bench == NULL)
    {
      bench = hob_bench_again (idle, acts);
      g_ptr_array_add (runs, bench);
    }
  *answered = hob_bench_advance (bench, until, NULL) == HOB_RUN_OK;
  return bench;
}

static GPtrArray *
runs_new (void)
{
  return g_ptr_array_new_with_free_func ((GDestroyNotify) hob_bench_free);
}

/* What shows in every procedure, the first of each symptom at each part; @runs keeps the runs. */
static GPtrArray *
shown (const Shop *shop, const HobBench *idle, GPtrArray *runs, const HobCase *base)
{
  GPtrArray *all = g_ptr_array_new_with_free_func (g_free);
  g_auto (GStrv) names = hob_procedure_names (shop->range);
  g_autoptr (GHashTable) known = g_hash_table_new (NULL, NULL);

  for (char **name = names; *name != NULL; name++)
    {
      g_autoptr (HobCase) acts = hob_case_copy (base);
      const HobBench *bench;
      gboolean answered;
      double until;
      guint first, n;

      hob_procedure_add (acts, *name, &until, NULL);
      bench = run_under (idle, runs, acts, until, &answered);
      n = hob_run_events (bench->run, -1, until, &first);
      for (guint k = first; k < first + n; k++)
        {
          const HobEvent *e = hob_run_event (bench->run, k);

          if (e->what == HOB_EVENT_SYMPTOM
              && g_hash_table_add (known, GINT_TO_POINTER (1 + e->index * 1000 + e->part + 1)))
            g_ptr_array_add (all, complaint_of (shop, acts, e));
        }
    }
  return all;
}

/* By weight, one that is not drawn yet. */
static void
draw_fault (const Shop *shop, Truth *t, guint64 seed)
{
  const GArray *faults = hob_trials_faults (shop->trials);
  double sum = 0, u;

  for (guint k = 0; k < faults->len; k++)
    {
      const HobHypothesis *h = &g_array_index (faults, HobListed, k).h;

      sum += shop->priors->weights[h->part[0]][h->fault[0]];
    }
  u = sum * hob_hash_uniform (seed, 1, (guint64) t->n_faults);
  for (guint k = 0; k < faults->len; k++)
    {
      const HobListed *f = &g_array_index (faults, HobListed, k);
      int n = t->n_faults;

      u -= shop->priors->weights[f->h.part[0]][f->h.fault[0]];
      if (u > 0)
        continue;
      t->part[n] = f->h.part[0];
      t->fault[n] = f->h.fault[0];
      t->severity[n]
          = f->graded ? 0.1 + 0.9 * hob_hash_uniform (seed, 2, (guint64) n) : f->h.severity[0];
      t->n_faults++;
      return;
    }
}

/* Another unit in another house, that shows nothing. */
static HobCase *
draw_unit (const Shop *shop, guint64 seed)
{
  for (guint64 again = 0;; again++)
    {
      HobCase *acts = hob_case_new (shop->range);
      g_autoptr (GPtrArray) normal = NULL, runs = runs_new ();

      hob_case_vary (acts, seed * 1000 + again + 100);
      normal = shown (shop, shop->idle, runs, acts);
      if (normal->len == 0)
        return acts;
      hob_case_free (acts);
    }
}

static const HobListed *
listed_of (const Shop *shop, int part, int fault)
{
  const GArray *faults = hob_trials_faults (shop->trials);

  for (guint k = 0; k < faults->len; k++)
    {
      const HobListed *f = &g_array_index (faults, HobListed, k);

      if (f->h.part[0] == part && f->h.fault[0] == fault)
        return f;
    }
  g_assert_not_reached ();
}

/* Does each of two faults change something that the other does not? */
static gboolean
both_matter (const Shop *shop, const Truth *t)
{
  const HobListed *a = listed_of (shop, t->part[0], t->fault[0]);
  const HobListed *b = listed_of (shop, t->part[1], t->fault[1]);
  g_autoptr (HobCase) house = hob_case_new (shop->range);

  return hob_alike_changes (shop->trials, house, a, t->severity[0], b, t->severity[1], APART)
         && hob_alike_changes (shop->trials, house, b, t->severity[1], a, t->severity[0], APART);
}

static void
draw_faults (const Shop *shop, Truth *t, int n_faults, guint64 seed)
{
  guint64 again = 0;

  do
    {
      t->n_faults = 0;
      while (t->n_faults < n_faults)
        draw_fault (shop, t, seed + 7919 * again);
      again++;
    }
  while (n_faults == 2 && !both_matter (shop, t));
}

Truth *
truth_draw (const Shop *shop, int n_faults, guint64 seed)
{
  Truth *t = g_new0 (Truth, 1);

  t->acts = draw_unit (shop, seed);
  draw_faults (shop, t, n_faults, seed);
  for (int k = 0; k < t->n_faults; k++)
    hob_case_add (t->acts, (HobAct){ .what = HOB_ACT_FAULT, .part = t->part[k],
                                     .index = t->fault[k], .value = t->severity[k] });
  t->runs = runs_new ();
  t->shows = shown (shop, shop->idle, t->runs, t->acts);
  return t;
}

/* Changes one wire, two wires or one pipe of @range; what it did.  (transfer full) */
static char *
change_lines (HobRange *range, guint64 seed)
{
  HobLine *a = &range->wires[(int) (hob_hash_uniform (seed, 11, 0) * range->n_wires)];
  HobLine *b = &range->wires[(int) (hob_hash_uniform (seed, 11, 1) * range->n_wires)];
  HobLine *pipe = &range->pipes[(int) (hob_hash_uniform (seed, 11, 2) * range->n_pipes)];
  HobEnd end = a->to;

  switch (seed % 3)
    {
    case 0:
      a->diameter *= OPEN;
      return g_strdup_printf ("%s open", a->id);
    case 1:
      a->to = b->to;
      b->to = end;
      return g_strdup_printf ("%s and %s exchanged", a->id, b->id);
    default:
      pipe->diameter *= PINCHED;
      return g_strdup_printf ("%s pinched", pipe->id);
    }
}

Truth *
truth_draw_unlisted (const Shop *shop, guint64 seed)
{
  Truth *t = g_new0 (Truth, 1);
  g_autoptr (HobCase) unit = draw_unit (shop, seed);

  t->range = shipped_range (shop->range->id);
  t->changed = change_lines (t->range, seed);
  t->own = hob_bench_new (NULL, t->range, NULL, NULL);
  t->acts = hob_case_copy_to (unit, t->range);
  t->runs = runs_new ();
  t->shows = shown (shop, t->own, t->runs, t->acts);
  return t;
}

char *
truth_text (const Shop *shop, const Truth *truth)
{
  GString *text = g_string_new (truth->changed);

  for (int k = 0; k < truth->n_faults; k++)
    g_string_append_printf (text, "%s%s:%s=%.2f", text->len > 0 ? " + " : "",
                            shop->range->parts[truth->part[k]].id,
                            shop->range->parts[truth->part[k]].kind->faults[truth->fault[k]].id,
                            truth->severity[k]);
  if (text->len == 0)
    g_string_append (text, "nothing");
  return g_string_free (text, FALSE);
}

void
truth_free (Truth *t)
{
  hob_case_free (t->acts);
  g_ptr_array_unref (t->shows);
  g_ptr_array_unref (t->runs);
  g_clear_pointer (&t->own, hob_bench_free);
  g_clear_pointer (&t->range, hob_range_unref);
  g_free (t->changed);
  g_free (t);
}

/* ---- Tests ---- */

static double
cpu (void)
{
  struct timespec t;

  clock_gettime (CLOCK_THREAD_CPUTIME_ID, &t);
  return (double) t.tv_sec + (double) t.tv_nsec * 1e-9;
}

static double
truly (const Shop *shop, const Truth *truth, const HobTest *test, gboolean *answered)
{
  double t;
  g_autoptr (HobCase) acts = hob_test_case (test, truth->acts, &t);
  const HobBench *idle = bench_of (shop, truth);
  const HobBench *bench = run_under (idle, truth->runs, acts, t, answered);
  HobReading reading;

  if (!*answered)
    return NAN;
  if (test->what == HOB_TEST_LOOK)
    return hob_bench_noticed (bench, hob_symptom_book_find (idle->book, test->symptom), test->part,
                              t);
  reading = hob_reading_take (bench->run, test, t);
  *answered = reading.answered;
  return reading.value;
}

/* What a person types: the meter errs by its class, eyes by the share that is assumed. */
static char *
typed (const Shop *shop, const Truth *truth, const char *text, guint64 seed, guint64 n,
       gboolean *answered)
{
  g_autoptr (HobTest) test
      = hob_test_parse (truth->range != NULL ? truth->range : shop->range, text, NULL);
  double value = truly (shop, truth, test, answered);
  HobMeterClass meter = hob_meter_class (hob_test_dimension (test));
  double u = 2 * hob_hash_uniform (seed, 77, n) - 1;
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (hob_test_is_seen (test))
    {
      gboolean wrong = hob_hash_uniform (seed, 78, n) < shop->priors->mis_seen;

      return g_strdup_printf ("%s = %s", text, (value > 0) != wrong ? "seen" : "not-seen");
    }
  if (!*answered)
    return NULL;
  if (isnan (value) || isinf (value))
    return g_strdup_printf ("%s = OL", text);
  value += u * (meter.of_reading * fabs (value) + meter.fixed);
  return g_strdup_printf ("%s = %s%s", text,
                          g_ascii_formatd (number, sizeof number, "%.5g",
                                           hob_test_dimension (test) == HOB_DIM_DIFFERENCE
                                               ? value
                                               : fmax (value, 0)),
                          test->what == HOB_TEST_TEMP ? " K" : "");
}

/* Before ohms are read it is verified that it is dead: where it is not, volts are read.  NULL:
 * nothing is. */
static char *
volts_there (const Shop *shop, const Truth *truth, const HobTest *ohms, guint64 seed, guint64 n)
{
  HobTest volts = *ohms;
  g_autofree char *text = NULL;
  gboolean answered;

  if (ohms->what != HOB_TEST_OHMS)
    return NULL;
  volts.what = HOB_TEST_VOLTS;
  volts.lead_off = FALSE;
  text = hob_test_text (shop->range, &volts);
  return typed (shop, truth, text, seed, n, &answered);
}

char *
technician_reads (const Shop *shop, const Truth *truth, const HobTest *test, guint64 seed,
                  guint64 n)
{
  g_autofree char *text = hob_test_text (shop->range, test);
  gboolean answered;
  char *line = typed (shop, truth, text, seed, n, &answered);

  return answered ? line : volts_there (shop, truth, test, seed, n);
}

GPtrArray *
technician_complaint (const Shop *shop, const char *text)
{
  GPtrArray *clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);
  HobClue *clue = hob_clue_look (shop->idle, text, HOB_SEEN, NULL);

  g_assert_nonnull (clue);
  g_ptr_array_add (clues, clue);
  return clues;
}

/* ---- Judging ---- */

static gboolean
has_fault_at (const Truth *truth, int part)
{
  for (int k = 0; k < truth->n_faults; k++)
    if (truth->part[k] == part)
      return TRUE;
  return FALSE;
}

/* At any severity of the suspect's; @at: that severity. */
static gboolean
alike (const Shop *shop, const HobListed *a, double severity, const HobListed *b, double *at)
{
  g_autoptr (HobCase) house = hob_case_new (shop->range);

  for (int k = 0; k < b->n_states; k++)
    {
      *at = hob_listed_severity (b, k);
      if (hob_alike (shop->trials, house, a, severity, b, *at, APART))
        return TRUE;
    }
  return FALSE;
}

/* The faults that no test tells from the true one and from each other, @first among them: the ids
 * of their parts.  NULL: @first is none of them, or their parts are too many. */
static char *
group_of (const Shop *shop, const Truth *truth, const HobSuspect *first)
{
  const GArray *faults = hob_trials_faults (shop->trials);
  const HobListed *members[64] = { listed_of (shop, truth->part[0], truth->fault[0]),
                                   listed_of (shop, first->part, first->fault) };
  double at[64] = { truth->severity[0] };
  g_autoptr (GHashTable) parts = g_hash_table_new (NULL, NULL);
  g_autoptr (HobCase) house = hob_case_new (shop->range);
  GString *text = g_string_new (NULL);
  guint n = 2;

  if (!alike (shop, members[0], at[0], members[1], &at[1]))
    return g_string_free (text, TRUE);
  for (guint k = 0; k < faults->len && n < G_N_ELEMENTS (members); k++)
    {
      const HobListed *f = &g_array_index (faults, HobListed, k);
      gboolean all = f != members[0] && f != members[1]
                     && alike (shop, members[0], at[0], f, &at[n]);

      for (guint m = 1; m < n && all; m++)
        all = hob_alike (shop->trials, house, members[m], at[m], f, at[n], APART);
      if (all)
        members[n++] = f;
    }
  for (guint k = 0; k < n; k++)
    if (g_hash_table_add (parts, GINT_TO_POINTER (members[k]->h.part[0])))
      g_string_append_printf (text, "%s%s", k > 0 ? ", " : "",
                              shop->range->parts[members[k]->h.part[0]].id);
  return g_string_free (text, g_hash_table_size (parts) > MOST_ALIKE);
}

static void
judge (const Shop *shop, const Truth *truth, const HobSuspects *all, Outcome *o)
{
  const HobSuspect *first = all->suspects->pdata[0];

  o->what = first->what;
  o->part = first->part;
  o->fault = first->fault;
  o->p = first->p;
  o->stopped = all->stop != 0;
  o->right = truth->range != NULL ? first->what == HOB_SUSPECT_NOT_LISTED
             : truth->n_faults == 0 ? first->what == HOB_SUSPECT_NORMAL
             : truth->n_faults > 2
                 ? first->what == HOB_SUSPECT_NOT_LISTED || has_fault_at (truth, first->part)
                 : first->what == HOB_SUSPECT_FAULT && has_fault_at (truth, first->part);
  if (!o->right && truth->n_faults == 1 && first->what == HOB_SUSPECT_FAULT)
    {
      o->group = group_of (shop, truth, first);
      o->right = o->together = o->group != NULL;
    }
  if (first->part2 >= 0)
    o->right = o->right && has_fault_at (truth, first->part2);
  o->both = first->part2 >= 0 && truth->n_faults == 2 && o->right;
  o->needless = first->what == HOB_SUSPECT_FAULT && !has_fault_at (truth, first->part);
}

/* How probable it is that each part has a fault, that nothing has, that something else has: how
 * often that is right.  Of two faults at once both parts have one. */
static void
calibrate (const Shop *shop, const Truth *truth, const HobSuspects *all, Outcome *o)
{
  int n = shop->range->n_parts;
  g_autofree double *p = g_new0 (double, n + 2);

  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      p[s->what == HOB_SUSPECT_FAULT    ? s->part
        : s->what == HOB_SUSPECT_NORMAL ? n
                                        : n + 1] += s->p;
      if (s->part2 >= 0)
        p[s->part2] += s->p;
    }
  for (int k = 0; k < n + 2; k++)
    {
      int bin = MIN ((int) (p[k] * N_BINS), N_BINS - 1);
      gboolean right = k < n    ? has_fault_at (truth, k)
                       : k == n ? truth->n_faults == 0 && truth->range == NULL
                                : truth->range != NULL;

      o->given[bin] += p[k] >= LEAST_GIVEN;
      o->right_of[bin] += p[k] >= LEAST_GIVEN && right;
    }
}

/* The same if it is known that it is one fault of the list, as of those that are drawn so. */
static void
calibrate_single (const Shop *shop, const Truth *truth, const HobSuspects *all, Outcome *o)
{
  int n = shop->range->n_parts;
  g_autofree double *p = g_new0 (double, n);
  double sum = 0;

  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      if (s->what != HOB_SUSPECT_FAULT || s->part2 >= 0)
        continue;
      p[s->part] += s->p;
      sum += s->p;
    }
  for (int k = 0; k < n && truth->n_faults == 1 && sum > 0; k++)
    {
      int bin = MIN ((int) (p[k] / sum * N_BINS), N_BINS - 1);

      o->single_given[bin] += p[k] / sum >= LEAST_GIVEN;
      o->single_right[bin] += p[k] / sum >= LEAST_GIVEN && has_fault_at (truth, k);
    }
}

/* Is any test offered that is above the role? */
static int
above (const HobSuspects *all, HobSkill role)
{
  int n = 0;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobMeansDef *means = ((HobOffer *) all->offers->pdata[k])->means;

      n += means->skill > role
           || (role < HOB_SKILL_TECHNICIAN && means->danger >= HOB_DANGER_LIVE);
    }
  return n;
}

/* Of the parts, bits. */
static double
entropy_of (const Shop *shop, const HobSuspects *all)
{
  g_autofree double *w = g_new0 (double, shop->range->n_parts + 2);

  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      w[s->what == HOB_SUSPECT_FAULT ? s->part : shop->range->n_parts + (int) s->what - 1] += s->p;
    }
  return hob_weighted_entropy (w, shop->range->n_parts + 2);
}

/* ---- A list on paper: what is checked, one after another ---- */

/* Of the fault at a usual severity. */
static guint
typical_run (const Shop *shop, guint fault)
{
  return g_array_index (hob_trials_faults (shop->trials), HobListed, fault).same_run;
}

static guint
confirm_of (const Shop *shop, guint fault)
{
  const HobHypothesis *h
      = &g_array_index (hob_trials_faults (shop->trials), HobListed, fault).h;

  return shop->range->parts[h->part[0]].kind->faults[h->fault[0]].confirm;
}

/* Is it noticed on a normal range too? */
static gboolean
is_normal (const GArray *noticed, const HobTrialNoticed *row)
{
  for (guint k = 0; k < noticed->len; k++)
    {
      const HobTrialNoticed *other = &g_array_index (noticed, HobTrialNoticed, k);

      if (other->run == 0 && other->symptom == row->symptom && other->part == row->part)
        return TRUE;
    }
  return FALSE;
}

/* A look takes as long as it takes to show. */
static void
price_looks (const Shop *shop, const HobOccasion *o)
{
  const GArray *noticed = hob_trials_noticed (shop->trials, o->acts, o->until);
  guint n_faults = hob_trials_faults (shop->trials)->len;

  for (guint k = 0; k < noticed->len && !o->dead && !o->exchanged; k++)
    {
      const HobTrialNoticed *row = &g_array_index (noticed, HobTrialNoticed, k);
      const HobSymptom *symptom = hob_symptom_book_get (shop->idle->book, row->symptom);
      double minutes = hob_effort_first (&hob_means[hob_symptom_means (symptom)], o,
                                         (double) row->first);

      for (guint f = 0; f < n_faults; f++)
        if (typical_run (shop, f) == (guint) row->run && minutes < shop->price[f].minutes
            && confirm_of (shop, f) == HOB_MEANS (LOOK) && !is_normal (noticed, row))
          shop->price[f] = (Price){ minutes, 0, -1, HOB_MEANS_LOOK };
    }
}

/* What each means takes at each fault's part, [fault·HOB_N_MEANS + means]: the quickest reading
 * that is not what a normal range has; +∞: none of its readings is; NaN: it reads nothing there. */
static void
time_readings (const Shop *shop, const HobOccasion *o, double t, double *taken)
{
  const GArray *faults = hob_trials_faults (shop->trials);
  const GPtrArray *tests = hob_trials_tests (shop->trials);
  const HobScatter *spread;
  const float *answers = hob_trials_readings (shop->trials, o->acts, t, &spread);

  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];
      HobExpected normal = hob_expected_of ((double) answers[k], listed->dim, &spread[k]);

      for (guint f = 0; f < faults->len && hob_occasion_suits (o, listed->test); f++)
        {
          const HobHypothesis *h = &g_array_index (faults, HobListed, f).h;
          gsize run = typical_run (shop, f);
          HobExpected with
              = hob_expected_of ((double) answers[run * tests->len + k], listed->dim, &spread[k]);
          double *least = &taken[(gsize) f * HOB_N_MEANS + (gsize) (listed->means - hob_means)];

          if (hob_test_at_part (shop->range, listed->test, h->part[0]))
            *least = fmin (hob_expected_apart (&with, &normal, listed->dim, APART)
                               ? hob_effort_first (listed->means, o, t)
                               : INFINITY,
                           *least);
        }
    }
}

/* May volts be read across the part? */
static gboolean
has_volts (const Shop *shop, int part)
{
  const GPtrArray *tests = hob_trials_tests (shop->trials);

  for (guint k = 0; k < tests->len; k++)
    if (hob_is_volts_across (((const HobListedTest *) tests->pdata[k])->test, part))
      return TRUE;
  return FALSE;
}

/* Of one means.  Amps condemn a part only with the volts
 * across it under the same load: the meter is put on while the range is open. */
static double
minutes_of (const Shop *shop, int part, int m, double taken)
{
  const HobMeansDef *volts = &hob_means[HOB_MEANS_LIVE_VOLTS];
  double minutes = isnan (taken) ? hob_means[m].minutes : taken;

  return m == HOB_MEANS_AMPS && has_volts (shop, part)
             ? 2 * minutes - hob_means[m].minutes + volts->minutes - volts->set_up
             : minutes;
}

/* The quickest of the means that its kind names, other than to look at what the range does: that is
 * what the customer did. */
static Price
price_of (const Shop *shop, guint fault, const double *taken)
{
  const HobHypothesis *h
      = &g_array_index (hob_trials_faults (shop->trials), HobListed, fault).h;
  HobTest at = { .wire = -1, .part = h->part[0] };
  Price least = { INFINITY, 0, hob_effort_behind (shop->range, &at), -1 };

  for (int m = 0; m < HOB_N_MEANS; m++)
    {
      double minutes = minutes_of (shop, h->part[0], m, taken[(gsize) fault * HOB_N_MEANS
                                                              + (gsize) m]);

      if (m == HOB_MEANS_LOOK || (confirm_of (shop, fault) & HOB_MEANS_BIT (m)) == 0
          || minutes >= least.minutes)
        continue;
      least.minutes = minutes;
      least.set_up = hob_means[m].set_up;
      least.means = m;
    }
  return least;
}

/* What confirming each fault takes, as its kind says it is confirmed. */
static void
price_all (Shop *shop)
{
  const GArray *faults = hob_trials_faults (shop->trials);
  g_autoptr (HobCase) house = hob_case_new (shop->range);
  g_auto (GStrv) names = hob_procedure_names (shop->range);
  g_autoptr (GPtrArray) all = hob_occasions_new (house, names);
  gsize cells = (gsize) faults->len * HOB_N_MEANS;
  g_autofree double *taken = g_new (double, cells + 1);

  for (gsize k = 0; k < cells; k++)
    taken[k] = NAN;
  for (guint k = 0; k < all->len; k++)
    {
      const HobOccasion *o = all->pdata[k];

      hob_trials_prepare (shop->trials, o->acts, o->until, o->moments);
      for (guint i = 0; i < o->moments->len; i++)
        time_readings (shop, o, g_array_index (o->moments, double, i), taken);
    }
  shop->price = g_new (Price, faults->len + 1);
  for (guint f = 0; f < faults->len; f++)
    shop->price[f] = price_of (shop, f, taken);
  for (guint k = 0; k < all->len; k++)
    price_looks (shop, all->pdata[k]);
}

typedef struct
{
  double worth;
  Price price;
  int part;
} Inspection;

static int
most_first (const void *a, const void *b)
{
  const Inspection *x = a, *y = b;

  return x->worth > y->worth ? -1 : x->worth < y->worth;
}

/* Were those panels taken off for an inspection before the k-th? */
static gboolean
is_open (const Inspection *list, guint k)
{
  for (guint i = 0; i < k; i++)
    if (list[i].price.behind == list[k].price.behind && list[i].price.set_up > 0
        && list[k].price.set_up > 0)
      return TRUE;
  return FALSE;
}

/* Was the part inspected by the same means before the k-th? */
static gboolean
is_inspected (const Inspection *list, guint k)
{
  for (guint i = 0; i < k; i++)
    if (list[i].part == list[k].part && list[i].price.means == list[k].price.means)
      return TRUE;
  return FALSE;
}

/* An inspection finds what its means confirms at that part: who looks at a cap does not see what is
 * in the orifice. */
static gboolean
finds (const Shop *shop, const Truth *truth, const Inspection *inspection)
{
  for (int k = 0; k < truth->n_faults; k++)
    {
      const HobKind *kind = shop->range->parts[truth->part[k]].kind;

      if (truth->part[k] == inspection->part
          && (kind->faults[truth->fault[k]].confirm & HOB_MEANS_BIT (inspection->price.means)))
        return TRUE;
    }
  return FALSE;
}

/* Each suspect that shows the complaint is confirmed as its kind says, which is taken to answer
 * without fail, the one with the most prior for its minutes first, until one is found that is
 * there. */
static double
fixed_order (Shop *shop, const Truth *truth, const HobSuspects *all)
{
  g_autofree Inspection *list = g_new (Inspection, all->suspects->len + 1);
  double minutes = 0;
  guint n = 0;

  if (shop->price == NULL)
    price_all (shop);
  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];
      Price price;

      if (s->what != HOB_SUSPECT_FAULT || s->part2 >= 0 || !(s->expected[0] > 0.05))
        continue;
      price = shop->price[listed_of (shop, s->part, s->fault)
                          - &g_array_index (hob_trials_faults (shop->trials), HobListed, 0)];
      if (isfinite (price.minutes))
        list[n++] = (Inspection){ s->prior / price.minutes, price, s->part };
    }
  qsort (list, n, sizeof *list, most_first);
  for (guint k = 0; k < n; k++)
    {
      if (is_inspected (list, k))
        continue;
      minutes += list[k].price.minutes - (is_open (list, k) ? list[k].price.set_up : 0);
      if (finds (shop, truth, &list[k]))
        break;
    }
  return minutes;
}

/* What confirming one of the true faults takes alone, as (a) counts it: no order of the same
 * inspections takes less. */
static double
known_truth (const Shop *shop, const Truth *truth)
{
  double least = INFINITY;

  for (int k = 0; k < truth->n_faults; k++)
    least = fmin (least, shop->price[listed_of (shop, truth->part[k], truth->fault[k])
                                     - &g_array_index (hob_trials_faults (shop->trials), HobListed,
                                                       0)].minutes);
  return least;
}

void
outcome_clear (Outcome *o)
{
  g_clear_pointer (&o->log, g_free);
  g_clear_pointer (&o->suspects, g_free);
  g_clear_pointer (&o->group, g_free);
}

/* The first suspects.  (transfer full) */
static char *
first_suspects (const HobRange *range, const HobSuspects *all)
{
  GString *text = g_string_new (NULL);

  for (guint k = 0; k < MIN (all->suspects->len, SHOWN); k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      g_string_append (text, k > 0 ? "; " : "");
      if (s->what == HOB_SUSPECT_FAULT)
        g_string_append_printf (text, "%s:%s", range->parts[s->part].id,
                                range->parts[s->part].kind->faults[s->fault].id);
      else
        g_string_append (text, s->what == HOB_SUSPECT_NORMAL ? "nothing-wrong" : "not-listed");
      if (s->part2 >= 0)
        g_string_append_printf (text, " + %s:%s", range->parts[s->part2].id,
                                range->parts[s->part2].kind->faults[s->fault2].id);
      g_string_append_printf (text, " %.2f", s->p);
    }
  return g_string_free (text, FALSE);
}

/* How probable the first suspect's part is, or that it is none: of what says that it is sure. */
static double
sure_of (const HobSuspects *all)
{
  const HobSuspect *first = all->suspects->pdata[0];
  double p = 0;

  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];

      p += s->what == first->what && (s->part == first->part || s->part2 == first->part) ? s->p : 0;
    }
  return p;
}

double
technician_true_share (const Truth *truth, const HobSuspects *all)
{
  double p = 0;

  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];
      gboolean right = truth->range != NULL     ? s->what == HOB_SUSPECT_NOT_LISTED
                       : truth->n_faults == 0 ? s->what == HOB_SUSPECT_NORMAL
                                              : s->what == HOB_SUSPECT_FAULT
                                                    && (has_fault_at (truth, s->part)
                                                        || has_fault_at (truth, s->part2));

      p += right ? s->p : 0;
    }
  return p;
}

/* Makes the test that is offered, after @n answers; how many there are then, −1: it has none. */
static int
make (const Shop *shop, const Truth *truth, const HobOffer *offer, GPtrArray *clues, guint64 seed,
      int n, double true_p, double first_p, GString *log, Outcome *o)
{
  g_autofree char *line = technician_reads (shop, truth, offer->test, seed, (guint64) n);
  HobClue *clue;

  o->minutes += offer->minutes;
  o->unsafe += line == NULL && offer->test->what == HOB_TEST_OHMS;
  if (line == NULL)
    return -1;
  g_string_append_printf (log, "%5.1f min, true %3.0f%%, first %3.0f%%: %s\n", offer->minutes,
                          100 * true_p, 100 * first_p, line);
  clue = hob_clue_reading (shop->idle, line, NULL);
  g_assert_nonnull (clue);
  g_ptr_array_add (clues, clue);
  return n + 1;
}

gboolean
technician_is_right (const Shop *shop, const Truth *truth, const HobSuspects *all)
{
  Outcome o = { 0 };

  judge (shop, truth, all, &o);
  g_free (o.group);
  return o.right;
}

Outcome
technician_solve (Shop *shop, const Truth *truth, HobSkill role, GPtrArray *clues, guint64 seed)
{
  Outcome o = { 0 };
  g_autoptr (HobCase) base = hob_case_new (shop->range);
  g_autoptr (HobSuspects) all = NULL;
  GString *log = g_string_new (NULL);
  int answers = 0;

  for (;;)
    {
      double begin = cpu ();
      guint asked;

      g_clear_pointer (&all, hob_suspects_free);
      all = hob_suspects_new (shop->trials, base, clues, role, shop->priors);
      o.slowest = o.tests > 0 ? fmax (o.slowest, cpu () - begin) : 0;
      o.unsafe += above (all, role);
      calibrate (shop, truth, all, &o);
      calibrate_single (shop, truth, all, &o);
      if (o.tests == 0)
        {
          o.bits = entropy_of (shop, all);
          o.fixed_minutes = fixed_order (shop, truth, all);
          o.known_minutes = known_truth (shop, truth);
        }
      g_assert_true (all->verdict != HOB_TEST_SURE || sure_of (all) > SURE);
      if (all->verdict != HOB_TEST_GO || all->offers->len == 0 || o.tests == MOST_TESTS)
        break;
      asked = 1 + all->along;
      for (guint k = 0; k < asked && answers >= 0; k++)
        answers = make (shop, truth, all->offers->pdata[k], clues, seed, answers,
                        technician_true_share (truth, all), sure_of (all), log, &o);
      o.tests++;
      if (answers < 0)
        break;
    }
  judge (shop, truth, all, &o);
  o.verdict = all->verdict;
  o.suspects = first_suspects (shop->range, all);
  o.log = g_string_free (log, FALSE);
  return o;
}
