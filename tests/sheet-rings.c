/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Who is ringed: one second after the first symptom of every fault of every range the part that has
 * the fault has a closed ring on some sheet (one that is on no sheet: what it moves), and no other
 * part has one.  And what should be there is always something that a normal range shows.  The
 * counts are printed.  In the ordinary run a fixed sample of the faults is tried. */

#include "run/comparison.h"
#include "run/differ.h"
#include "run/sequence.h"
#include "sheet/scene.h"
#include "shipped.h"

#include <math.h>
#include <string.h>

#define SAMPLE 11
#define LEAST_RIGHT 0.98
#define MOST_WRONG 0.01

typedef struct
{
  int tried, right, wrong, nothing; /* pictures; of the third, rings */
} Count;

static gboolean
is_drawn (const HobPart *part)
{
  for (int sheet = 0; sheet < HOB_N_SHEETS; sheet++)
    if (part->at[sheet].placed)
      return TRUE;
  return FALSE;
}

/* The first symptom of any kind, s; NaN: none. */
static double
first_symptom (HobBench *bench, double until)
{
  HobEvent event;
  double t = -1;

  while (hob_run_next_event (bench->run, t, until, &event))
    {
      t = event.t;
      if (event.what == HOB_EVENT_SYMPTOM)
        return t;
    }
  return NAN;
}

/* Rings, arcs and brackets on all sheets. */
static int
rings_of (const HobScene *scene)
{
  int n = 0;

  for (int p = 0; p < scene->range->n_parts; p++)
    n += scene->parts[p].culprit || scene->parts[p].differs || scene->parts[p].noted >= 0;
  for (int k = 0; k < scene->range->n_wires; k++)
    n += scene->wires[k].differs || scene->wires[k].volts_differ;
  for (int k = 0; k < scene->range->n_pipes; k++)
    n += scene->pipes[k].differs || scene->pipes[k].pressure_differs;
  return n;
}

/* Entries of the sequence line, which is on every sheet. */
static int
ringed_entries (HobBench *bench, double t)
{
  g_autoptr (HobComparison) c = hob_comparison_new (bench->plan);
  g_autoptr (GArray) entries = NULL;
  int n = 0;

  hob_run_advance (hob_bench_twin (bench), t + HOB_SEQUENCE_AHEAD, NULL);
  entries = hob_sequence_read (bench->run, hob_bench_twin (bench), hob_bench_should_be (bench), c,
                               t);
  for (guint k = 0; k < entries->len; k++)
    n += hob_sequence_is_ringed (&g_array_index (entries, HobSequenceEntry, k));
  return n;
}

static void
look (HobBench *bench, int part, const char *words, double t, Count *count)
{
  const HobRange *range = hob_bench_range (bench);
  g_autoptr (HobScene) scene = hob_scene_new (range);
  g_autoptr (HobSceneReader) reader = hob_scene_reader_new (bench->plan);
  int right = 0, wrong = 0, signs;

  hob_bench_advance (bench, t, NULL);
  hob_scene_read (reader, scene, bench->run, hob_bench_should_be (bench), t);
  for (int p = 0; p < range->n_parts; p++)
    {
      gboolean own = p == part
                     || (range->parts[p].moved_by == part && !is_drawn (&range->parts[part]));

      if (scene->parts[p].culprit && is_drawn (&range->parts[p]))
        *(own ? &right : &wrong) += 1;
    }
  count->tried++;
  count->right += right > 0;
  count->wrong += wrong;
  signs = rings_of (scene);
  if (signs == 0)
    signs = ringed_entries (bench, t);
  count->nothing += signs == 0;
  if (right == 0 || wrong > 0)
    g_test_message ("%s %s at %g s: %s, %d others, %d signs", range->id, words, t,
                    right > 0 ? "ringed" : "not ringed", wrong, signs);
}

/* In the first routine in which the fault shows a symptom. */
static void
try_fault (const HobBench *idle, int part, int fault, Count *count)
{
  const HobRange *range = hob_bench_range (idle);
  const HobKind *kind = range->parts[part].kind;
  g_auto (GStrv) procedures = hob_procedure_names (range);
  g_autofree char *words
      = g_strdup_printf ("%s:%s", range->parts[part].id, kind->faults[fault].id);

  for (int k = 0; procedures[k] != NULL; k++)
    {
      double until, t;
      g_autoptr (HobCase) acts
          = case_of (range, procedures[k], (const char *const[]){ words, NULL }, &until);
      g_autoptr (HobBench) bench = hob_bench_again (idle, acts);

      t = first_symptom (bench, until);
      if (isnan (t))
        continue;
      look (bench, part, words, t + 1, count);
      return;
    }
}

static void
culprits_are_ringed (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();
  Count count = { 0 };
  int n = 0;

  for (int r = 0; ranges[r] != NULL; r++)
    {
      g_autoptr (HobRange) range = shipped_range (ranges[r]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);

      for (int p = 0; p < range->n_parts; p++)
        for (int f = 0; f < range->parts[p].kind->n_faults; f++)
          if (hob_range_has_fault (range, p, f) && (full_sweep () || n++ % SAMPLE == 0))
            try_fault (idle, p, f, &count);
    }
  g_test_message ("%d pictures: the culprit ringed in %d (%.1f %%), %d other closed rings, "
                  "no sign at all in %d",
                  count.tried, count.right, 100.0 * count.right / count.tried, count.wrong,
                  count.nothing);
  g_assert_cmpfloat (count.right, >=, LEAST_RIGHT * count.tried);
  g_assert_cmpfloat (count.wrong, <=, MOST_WRONG * count.tried);
  g_assert_cmpint (count.nothing, ==, 0);
}

/* ---- What should be there is something that a normal range shows ---- */

#define MOMENTS 200
#define MOST_DOUBTFUL 0.005
#define COARSE 29

/* What a range shows in one step of a routine: what its regulating contacts do. */
static guint
step_of (const HobMoment *m, const HobRange *range)
{
  guint key = 0;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_modes; k++)
      if (range->parts[p].kind->modes[k].regulates)
        key = 2 * key + (hob_moment_part (m, p)->mode[k] > 0);
  return key & 1;
}

#define COUNTED 6 /* switchings since an act; as many or more are told apart no further */

/* How far a run has come in its steps. */
typedef struct
{
  int n;            /* how often what regulates has switched since the last act, below COUNTED */
  double length[2]; /* s, that the step has lasted so far, and that the one before it did */
} Progress;

static gboolean
regulates (const HobEvent *event, const HobRange *range)
{
  return event->what == HOB_EVENT_CHANGE
         && range->parts[event->part].kind->modes[event->index].regulates;
}

static Progress
progress_at (const HobRun *run, const HobRange *range, double t)
{
  double last = 0, before = 0;
  Progress at = { 0 };
  guint first, n = hob_run_events (run, -1, t, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (run, k);

      if (event->what == HOB_EVENT_ACT)
        at.n = 0;
      if (!regulates (event, range))
        continue;
      at.n = MIN (at.n + 1, COUNTED - 1);
      before = last;
      last = event->t;
    }
  at.length[0] = t - last;
  at.length[1] = last - before;
  return at;
}

#define STORES 12 /* parts of an oven that store heat, at most */

/* Lowest and highest of every quantity in either step of a routine, of a normal range.  And after
 * as many switchings, of what an oven's parts store, and the longest that such a step has lasted,
 * and the one before it: −∞, where it never came to that. */
typedef struct
{
  double *low[2], *high[2];
  int n;
  double longest[2][COUNTED][2];
  double coldest[2][COUNTED][STORES], hottest[2][COUNTED][STORES];
} Bounds;

static void
stretch_to (Bounds *b, guint step, int at, double value)
{
  b->low[step][at] = fmin (b->low[step][at], value);
  b->high[step][at] = fmax (b->high[step][at], value);
}

static void
stretch (Bounds *b, const HobRange *range, const HobMoment *m, const Progress *progress)
{
  guint step = step_of (m, range);
  int at = 0, stored = 0;

  for (int p = 0; p < range->n_parts; p++)
    for (int q = 0; q < range->parts[p].kind->n_quantities; q++, at++)
      stretch_to (b, step, at, hob_moment_quantity (m, p, q));
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_states; k++)
      if (range->parts[p].kind->states[k].stores)
        {
          double y = hob_moment_part (m, p)->y[k], *low = &b->coldest[step][progress->n][stored],
                 *high = &b->hottest[step][progress->n][stored];

          *low = fmin (*low, y);
          *high = fmax (*high, y);
          stored++;
        }
  for (int k = 0; k < 2; k++)
    b->longest[step][progress->n][k] = fmax (b->longest[step][progress->n][k], progress->length[k]);
}

static Bounds
bounds_new (const HobRange *range)
{
  Bounds b = { 0 };

  int stores = 0;

  for (int p = 0; p < range->n_parts; p++)
    {
      b.n += range->parts[p].kind->n_quantities;
      for (int k = 0; k < range->parts[p].kind->n_states; k++)
        stores += range->parts[p].kind->states[k].stores;
    }
  g_assert_cmpint (stores, <=, STORES);
  for (int k = 0; k < 2; k++)
    {
      b.low[k] = g_new (double, b.n);
      b.high[k] = g_new (double, b.n);
      for (int i = 0; i < 2 * COUNTED; i++)
        b.longest[k][i / 2][i % 2] = -INFINITY;
      for (int i = 0; i < COUNTED * STORES; i++)
        {
          b.coldest[k][i / STORES][i % STORES] = INFINITY;
          b.hottest[k][i / STORES][i % STORES] = -INFINITY;
        }
      for (int i = 0; i < b.n; i++)
        {
          b.low[k][i] = INFINITY;
          b.high[k][i] = -INFINITY;
        }
    }
  return b;
}

/* Those of one routine. */
static Bounds
bounds_of (const HobBench *idle, const char *procedure)
{
  const HobRange *range = hob_bench_range (idle);
  double until;
  g_autoptr (HobCase) acts
      = case_of (range, procedure, (const char *const[]){ NULL }, &until);
  g_autoptr (HobBench) bench = hob_bench_again (idle, acts);
  g_autoptr (HobMoment) m = hob_bench_moment_new (idle);
  Bounds b = bounds_new (range);

  hob_bench_advance (bench, until, NULL);
  for (int k = 0; k <= 20 * MOMENTS; k++)
    {
      double t = until * k / (20.0 * MOMENTS);
      const Progress progress = progress_at (bench->run, range, t);

      hob_run_read (bench->run, t, m);
      stretch (&b, range, m, &progress);
    }
  return b;
}

static void
bounds_clear (Bounds *b)
{
  for (int k = 0; k < 2; k++)
    {
      g_free (b->low[k]);
      g_free (b->high[k]);
    }
}

/* Why what should be there may be what no normal range shows in that step: what should be there is
 * what there is in an oven as hot as this one. */
typedef enum
{
  REASON_NONE,
  REASON_OVEN,   /* hotter or colder than that of a normal range ever is in that step, after as
                    many switchings since an act */
  REASON_LENGTH, /* the step, or the one before it, has lasted longer than a normal range's after
                    these acts, or is one more: what cools goes on cooling, and clocks go on */
  N_REASONS
} Reason;

typedef struct
{
  int n, doubtful, of_air, air_without;
  int by[N_REASONS]; /* of the doubtful, by reason */
} Judged;

/* Of one quantity, while one fault is judged. */
typedef struct
{
  int doubtful;
  double least, most; /* of what it should be at these moments */
} Doubt;

/* What is in the oven's air, and comes from there into the kitchen's, depends on how long a flame
 * has burned in an oven that is still cold, and the oven of a normal range is never cold for long:
 * counted apart. */
static gboolean
is_of_air (const HobRange *range, int part, const HobQuantityDef *def)
{
  static const char *const kitchen[] = { "humidity", "co", "oxygen", NULL };
  const char *kind = range->parts[part].kind->name;

  return (strcmp (kind, "cavity") == 0 && def->dim != HOB_DIM_TEMPERATURE)
         || (strcmp (kind, "house") == 0 && g_strv_contains (kitchen, def->name));
}

/* Is it beyond what these bounds have in that step? */
static gboolean
is_beyond (const Bounds *b, guint step, int at, double value, HobDimension dim)
{
  double near = CLAMP (value, b->low[step][at], b->high[step][at]);

  return b->low[step][at] > b->high[step][at] || hob_differs (value, near, dim);
}

static gboolean
oven_is_beyond (const Bounds *b, const HobRange *range, const HobMoment *m, guint step, int n)
{
  const double least = hob_differ_floor (HOB_DIM_TEMPERATURE);
  int at = 0;

  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_states; k++)
      if (range->parts[p].kind->states[k].stores)
        {
          double y = hob_moment_part (m, p)->y[k];

          if (y < b->coldest[step][n][at] - least || y > b->hottest[step][n][at] + least)
            return TRUE;
          at++;
        }
  return FALSE;
}

static gboolean
step_is_longer (const Bounds *b, const Progress *progress, guint step)
{
  const double least = hob_differ_floor (HOB_DIM_TIME);
  const double *longest = b->longest[step][progress->n];

  return progress->length[0] > longest[0] + least || progress->length[1] > longest[1] + least;
}

static Reason
reason_of (const Bounds *b, const HobRange *range, const HobMoment *normal,
           const Progress *progress)
{
  guint step = step_of (normal, range);

  return step_is_longer (b, progress, step)                     ? REASON_LENGTH
         : oven_is_beyond (b, range, normal, step, progress->n) ? REASON_OVEN
                                                                : REASON_NONE;
}

/* Quantities that differ, and those of them whose should-be no normal range shows in that step of
 * the routine: each such moment has a reason. */
static void
judge (const HobComparison *c, const HobRange *range, const Bounds *b, const Progress *progress,
       Doubt *doubts, Judged *judged)
{
  const HobMoment *normal = hob_comparison_normal (c);
  guint step = step_of (normal, range);
  int at = 0, n = 0;
  gboolean of_air = TRUE;

  for (int p = 0; p < range->n_parts; p++)
    for (int q = 0; q < range->parts[p].kind->n_quantities; q++, at++)
      {
        const HobQuantityDef *def = &range->parts[p].kind->quantities[q];
        Doubt *doubt = &doubts[at];
        double should_be;

        if (def->counts || !hob_comparison_quantity (c, p, q, &should_be)
            || !is_beyond (b, step, at, should_be, def->dim))
          continue;
        n++;
        of_air = of_air && is_of_air (range, p, def);
        doubt->least = doubt->doubtful > 0 ? fmin (doubt->least, should_be) : should_be;
        doubt->most = doubt->doubtful > 0 ? fmax (doubt->most, should_be) : should_be;
        doubt->doubtful++;
      }
  judged->n++;
  if (n == 0)
    return;
  judged->of_air += of_air;
  judged->doubtful += !of_air;
  judged->by[reason_of (b, range, normal, progress)] += !of_air;
  judged->air_without += of_air && reason_of (b, range, normal, progress) == REASON_NONE;
}

/* Which, and what a normal range shows in either step of that routine. */
static void
tell (const HobRange *range, const Bounds *b, const Doubt *doubts, const char *what,
      const Judged *judged)
{
  g_autoptr (GString) words = g_string_new (NULL);
  int at = 0;

  for (int p = 0; p < range->n_parts; p++)
    for (int q = 0; q < range->parts[p].kind->n_quantities; q++, at++)
      if (doubts[at].doubtful > 0)
        g_string_append_printf (words, "; %s.%s in %d should be %g to %g, normal %g to %g",
                                range->parts[p].id, range->parts[p].kind->quantities[q].name,
                                doubts[at].doubtful, doubts[at].least, doubts[at].most,
                                fmin (b->low[0][at], b->low[1][at]),
                                fmax (b->high[0][at], b->high[1][at]));
  if (judged->doubtful + judged->air_without > 0)
    g_test_message ("%s %s: %d of %d doubtful; oven beyond %d, step longer %d, no reason %d "
                    "(%d of air)%s",
                    range->id, what, judged->doubtful, judged->n, judged->by[REASON_OVEN],
                    judged->by[REASON_LENGTH], judged->by[REASON_NONE],
                    judged->air_without, words->str);
}

static void
judge_fault (const HobBench *idle, const char *procedure, const Bounds *b, const char *words,
             Judged *all)
{
  const HobRange *range = hob_bench_range (idle);
  double until;
  g_autoptr (HobCase) acts
      = case_of (range, procedure, (const char *const[]){ words, NULL }, &until);
  g_autoptr (HobBench) bench = hob_bench_again (idle, acts);
  g_autoptr (HobComparison) c = hob_comparison_new (idle->plan);
  g_autofree Doubt *doubts = g_new0 (Doubt, b->n);
  g_autofree char *what = g_strdup_printf ("%s %s", procedure, words);
  Judged judged = { 0 };

  hob_bench_should_be (bench);
  hob_bench_advance (bench, until, NULL);
  for (int k = 0; k < MOMENTS; k++)
    {
      double t = until * (k + 0.5) / MOMENTS;
      const Progress progress = progress_at (hob_bench_should_be (bench), range, t);

      hob_comparison_read (c, bench->run, hob_bench_should_be (bench), t);
      judge (c, range, b, &progress, doubts, &judged);
    }
  tell (range, b, doubts, what, &judged);
  all->n += judged.n;
  all->doubtful += judged.doubtful;
  all->of_air += judged.of_air;
  all->air_without += judged.air_without;
  for (int k = 0; k < N_REASONS; k++)
    all->by[k] += judged.by[k];
}

/* Every fault in one routine, or in the ordinary run a few of them. */
static void
judge_routine (const HobBench *idle, const char *procedure, const Bounds *b, int *at,
               Judged *judged)
{
  const HobRange *range = hob_bench_range (idle);

  for (int p = 0; p < range->n_parts; p++)
    for (int f = 0; f < range->parts[p].kind->n_faults; f++)
      if (hob_range_has_fault (range, p, f) && (*at)++ % (full_sweep () ? 1 : COARSE * 7) == 0)
        {
          g_autofree char *words = g_strdup_printf ("%s:%s", range->parts[p].id,
                                                    range->parts[p].kind->faults[f].id);

          judge_fault (idle, procedure, b, words, judged);
        }
}

static void
should_be_is_normal (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();
  Judged judged = { 0 };
  int at = 0;

  for (int r = 0; ranges[r] != NULL; r++)
    {
      g_autoptr (HobRange) range = shipped_range (ranges[r]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
      g_auto (GStrv) procedures = hob_procedure_names (range);

      for (char **procedure = procedures; *procedure != NULL; procedure++)
        {
          Bounds b = bounds_of (idle, *procedure);

          judge_routine (idle, *procedure, &b, &at, &judged);
          bounds_clear (&b);
        }
    }
  g_test_message ("%d moments, %d doubtful (%.2f %%): in %d the oven is beyond a normal one, in %d "
                  "the step is longer than a normal one, %d have no reason; %d more of the oven's "
                  "air alone, %d of them without a reason",
                  judged.n, judged.doubtful, 100.0 * judged.doubtful / judged.n,
                  judged.by[REASON_OVEN], judged.by[REASON_LENGTH], judged.by[REASON_NONE],
                  judged.of_air, judged.air_without);
  g_assert_cmpfloat (judged.doubtful, <, MOST_DOUBTFUL * judged.n);
  g_assert_cmpint (judged.by[REASON_NONE], ==, 0);
}

/* ---- Rings come and go with their causes ---- */

#define EVERY 10.0 /* s */
#define BLINK_WATCH 300.0
#define BLINK_SAMPLE 37

/* What a person does with a normal range, in which house, with which unit. */
typedef struct
{
  const char *name;
  double until; /* s */
  const char *acts[12];
  const char *settings[3];
  guint64 seed;
} Use;

static const Use uses[] = {
  { .name = "eight hours", .until = 8 * 3600,
    .acts = { "0s oven.mode=bake", "600s knob-lf=light", "610s knob-lf=high", "1800s door=open",
              "1860s door=closed", "3600s knob-lf=off", "5400s oven.mode=off",
              "9000s oven.mode=broil", "10800s oven.mode=bake" } },
  { .name = "dial up and down", .until = 3 * 3600,
    .acts = { "0s oven.dial=170 degF", "0s oven.mode=bake", "30min oven.dial=550 degF",
              "90min oven.dial=350 degF", "120min oven.dial=200 degF" } },
  { .name = "broil for an hour", .until = 4500,
    .acts = { "0s oven.mode=broil", "3600s oven.mode=off" } },
  { .name = "door left open", .until = 3600,
    .acts = { "0s oven.mode=bake", "1200s door=open" } },
  { .name = "lever and plug", .until = 3600,
    .acts = { "0s oven.mode=bake", "600s lever=closed", "720s lever=open", "1200s cord.plug=out",
              "1260s cord.plug=in", "1320s oven.mode=off", "1330s oven.mode=bake" } },
  { .name = "cold kitchen, low volts", .until = 5400,
    .acts = { "0s oven.mode=bake", "20s knob-lf=light", "30s knob-lf=low", "600s knob-lf=off" },
    .settings = { "receptacle.volts=114 V", "house.temperature=59 degF" } },
  { .name = "hot kitchen, high volts", .until = 5400,
    .acts = { "0s oven.mode=bake", "20s knob-lf=light", "30s knob-lf=high", "600s knob-lf=off" },
    .settings = { "receptacle.volts=126 V", "house.temperature=95 degF" } },
  { .name = "unit 46", .until = 5400, .acts = { "0s oven.mode=bake", "4800s oven.mode=off" },
    .seed = 46 },
};

/* A setting that is set to what it is has nothing wrong, but is compared with a run of its own. */
static HobCase *
compared_case (const HobRange *range, const Use *use)
{
  HobCase *done = hob_case_new ((HobRange *) range);
  int part, setting;

  done->seed = use->seed;
  for (const char *const *words = use->settings; *words != NULL; words++)
    g_assert_true (hob_case_setting (done, *words, NULL));
  for (const char *const *words = use->acts; *words != NULL; words++)
    g_assert_true (hob_case_do (done, *words, NULL));
  g_assert_true (hob_range_find_setting (range, "igniter-bake.resistance-factor", &part, &setting,
                                         NULL));
  hob_case_add (done, (HobAct){ 0, HOB_ACT_SETTING, part, setting,
                                range->parts[part].set[setting] });
  return done;
}

/* Rings at all moments of that use. */
static int
rings_in_use (const HobBench *idle, const Use *use, int *moments)
{
  const HobRange *range = hob_bench_range (idle);
  g_autoptr (HobCase) done = compared_case (range, use);
  g_autoptr (HobBench) bench = hob_bench_again (idle, done);
  g_autoptr (HobScene) scene = hob_scene_new (range);
  g_autoptr (HobSceneReader) reader = hob_scene_reader_new (bench->plan);
  int rings = 0;

  for (double t = 0; t <= use->until; t += EVERY, (*moments)++)
    {
      hob_bench_should_be (bench);
      g_assert_cmpint (hob_bench_advance (bench, t, NULL), ==, HOB_RUN_OK);
      g_assert_true (hob_bench_should_be (bench) != bench->run);
      hob_scene_read (reader, scene, bench->run, hob_bench_should_be (bench), t);
      if (rings_of (scene) > 0)
        g_test_message ("%s, %s: %d rings at %g s", range->id, use->name, rings_of (scene), t);
      rings += rings_of (scene);
    }
  return rings;
}

/* In every use that a person makes of it; in the ordinary run one of each range. */
static void
a_normal_range_has_no_ring (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();
  int rings = 0, moments = 0;

  for (guint r = 0; r < g_strv_length (ranges); r++)
    {
      g_autoptr (HobRange) range = shipped_range (ranges[r]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);

      for (guint k = 0; k < G_N_ELEMENTS (uses); k++)
        if (full_sweep () || k == (r + 1) % G_N_ELEMENTS (uses))
          rings += rings_in_use (idle, &uses[k], &moments);
    }
  g_test_message ("%d moments of normal ranges, %d rings", moments, rings);
  g_assert_cmpint (rings, ==, 0);
}

/* What hands and modes of a run and of its twin do: while that is the same, it is one step. */
static guint
step_key (const HobMoment *m, const HobRange *range, guint key)
{
  for (int p = 0; p < range->n_parts; p++)
    {
      const HobKind *kind = range->parts[p].kind;

      for (int k = 0; k < kind->n_modes; k++)
        key = 31 * key + (guint) (hob_moment_part (m, p)->mode[k] + 7);
      for (int k = 0; k < kind->n_controls; k++)
        key = 31 * key + (guint) (hob_moment_part (m, p)->ctl[k] * 10);
    }
  return key;
}

/* How often a ring goes and comes back while nothing else changes. */
static int
blinks_of (HobBench *bench)
{
  const HobRange *range = hob_bench_range (bench);
  g_autoptr (HobScene) scene = hob_scene_new (range);
  g_autoptr (HobSceneReader) reader = hob_scene_reader_new (bench->plan);
  g_autoptr (HobComparison) c = hob_comparison_new (bench->plan);
  g_autofree char *had = g_new0 (char, range->n_parts); /* 1: ringed, 2: and then no longer */
  guint key = 0;
  int blinks = 0;

  g_assert_cmpint (hob_bench_advance (bench, BLINK_WATCH, NULL), ==, HOB_RUN_OK);
  for (double t = 0; t < BLINK_WATCH; t += 1)
    {
      HobRun *should_be = hob_bench_should_be (bench);
      guint now;

      hob_comparison_read (c, bench->run, should_be, t);
      now = step_key (hob_comparison_normal (c), range,
                      step_key (hob_comparison_now (c), range, 1));
      if (now != key)
        memset (had, 0, (gsize) range->n_parts);
      key = now;
      hob_scene_read (reader, scene, bench->run, should_be, t);
      for (int p = 0; p < range->n_parts; p++)
        {
          blinks += scene->parts[p].culprit && had[p] == 2;
          had[p] = scene->parts[p].culprit ? 1 : had[p] > 0 ? 2 : 0;
        }
    }
  return blinks;
}

static void
a_ring_does_not_blink_within_a_step (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();
  int n = 0, tried = 0, blinking = 0;

  for (int r = 0; ranges[r] != NULL; r++)
    {
      g_autoptr (HobRange) range = shipped_range (ranges[r]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);

      for (int p = 0; p < range->n_parts; p++)
        for (int f = 0; f < range->parts[p].kind->n_faults; f++)
          {
            g_autofree char *words = g_strdup_printf ("%s:%s", range->parts[p].id,
                                                      range->parts[p].kind->faults[f].id);
            double until;
            g_autoptr (HobCase) acts = NULL;
            g_autoptr (HobBench) bench = NULL;
            int blinks;

            if (!hob_range_has_fault (range, p, f)
                || n++ % (full_sweep () ? 1 : BLINK_SAMPLE) != 0)
              continue;
            acts = case_of (range, "bake-350", (const char *const[]){ words, NULL }, &until);
            bench = hob_bench_again (idle, acts);
            hob_bench_should_be (bench);
            blinks = blinks_of (bench);
            tried++;
            blinking += blinks > 0;
            if (blinks > 0)
              g_test_message ("%s %s: %d blinks", range->id, words, blinks);
          }
    }
  g_test_message ("%d faults watched, the ring blinks in %d", tried, blinking);
  g_assert_cmpint (blinking, ==, 0);
}

/* ---- From one step to the next ---- */

#define STEPS_WATCH 300.0
#define STEPS_SAMPLE 29

/* Knobs turned, the door opened, the oven off and on again: how often a ring goes while its part
 * still misbehaves. */
static int
lost_of (const HobBench *idle, const char *fault)
{
  static const char *const acts[]
      = { "0s oven.mode=bake", "20s knob-lf=light", "30s knob-lf=high", "90s knob-lf=off",
          "100s door=open", "110s door=closed", "150s oven.mode=off", "170s oven.mode=broil",
          "260s oven.mode=off" };
  const HobRange *range = hob_bench_range (idle);
  g_autoptr (HobCase) done = hob_case_new ((HobRange *) range);
  g_autoptr (HobBench) bench = NULL;
  g_autoptr (HobScene) scene = hob_scene_new (range);
  g_autoptr (HobSceneReader) reader = hob_scene_reader_new (idle->plan);
  g_autoptr (HobComparison) c = hob_comparison_new (idle->plan);
  g_autofree gboolean *had = g_new0 (gboolean, range->n_parts);
  int lost = 0;

  g_assert_true (hob_case_fault (done, fault, NULL));
  for (gsize k = 0; k < G_N_ELEMENTS (acts); k++)
    hob_case_do (done, acts[k], NULL);
  bench = hob_bench_again (idle, done);
  hob_bench_should_be (bench);
  g_assert_cmpint (hob_bench_advance (bench, STEPS_WATCH, NULL), ==, HOB_RUN_OK);
  for (double t = 0; t < STEPS_WATCH; t += 1)
    {
      hob_scene_read (reader, scene, bench->run, hob_bench_should_be (bench), t);
      hob_comparison_read (c, bench->run, hob_bench_should_be (bench), t);
      for (int p = 0; p < range->n_parts; p++)
        {
          if (had[p] && !scene->parts[p].culprit && hob_comparison_culprit (c, p, NULL))
            {
              lost++;
              g_test_message ("%s %s: the ring of %s goes at %g s", range->id, fault,
                              range->parts[p].id, t);
            }
          had[p] = scene->parts[p].culprit;
        }
    }
  return lost;
}

static void
a_ring_stays_until_its_part_is_well (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();
  int n = 0, tried = 0, losing = 0;

  for (int r = 0; ranges[r] != NULL; r++)
    {
      g_autoptr (HobRange) range = shipped_range (ranges[r]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);

      for (int p = 0; p < range->n_parts; p++)
        for (int f = 0; f < range->parts[p].kind->n_faults; f++)
          {
            g_autofree char *fault = g_strdup_printf ("%s:%s", range->parts[p].id,
                                                      range->parts[p].kind->faults[f].id);

            if (!hob_range_has_fault (range, p, f)
                || n++ % (full_sweep () ? 1 : STEPS_SAMPLE) != 0)
              continue;
            tried++;
            losing += lost_of (idle, fault) > 0;
          }
    }
  g_test_message ("%d faults watched through nine steps, a ring goes too early in %d", tried,
                  losing);
  g_assert_cmpint (losing, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/sheet-rings/culprits-are-ringed", culprits_are_ringed);
  g_test_add_func ("/sheet-rings/should-be-is-normal", should_be_is_normal);
  g_test_add_func ("/sheet-rings/a-normal-range-has-no-ring", a_normal_range_has_no_ring);
  g_test_add_func ("/sheet-rings/a-ring-does-not-blink-within-a-step",
                   a_ring_does_not_blink_within_a_step);
  g_test_add_func ("/sheet-rings/a-ring-stays-until-its-part-is-well",
                   a_ring_stays_until_its_part_is_well);
  return g_test_run ();
}
