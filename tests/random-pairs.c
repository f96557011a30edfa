/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Two faults at once, drawn at random from all of all ranges: none makes a range impossible, none
 * leaves a figure that no range can have, and none is said to show what excludes each other. */

#include "base/hash.h"
#include "shipped.h"

#include <math.h>
#include <string.h>

#define PAIRS 200
#define SAMPLE 40
#define UNTIL 960.0 /* s */

static const char *const acts[] = { "5s oven.mode=bake", "20s knob-lf=light", "26s knob-lf=high",
                                    "500s knob-lf=off", "700s door=open",     "705s door=closed" };

/* What is never true of one range at one moment, by hand. */
static const char *const exclude[][2] = {
  { "stays-cold", "overheats" },
  { "runs-hot", "runs-cool" },
  { "no-spark-any", "sparks-never-stop" },
  { "no-glow", "glow-without-call" },
  { "no-flame-top", "flame-large" },
  { "flame-large", "flame-small" },
  { "light-dark", "light-bright" },
  { "tingle", "shock" },
  { "display-dark", "display-too-hot" },
  { "display-sensor-open", "display-sensor-shorted" },
};

/* Holds symptom @id at some part: how many of those begun have not ended. */
static gboolean
holds (const HobBench *bench, const int *begun, const char *id)
{
  for (int s = 0; s < hob_symptom_book_size (bench->book); s++)
    if (begun[s] > 0 && g_str_equal (hob_symptom_book_get (bench->book, s)->id, id))
      return TRUE;
  return FALSE;
}

static void
assert_no_contradiction (const HobBench *idle, const HobCase *c, const char *what)
{
  g_autoptr (HobBench) bench = hob_bench_again (idle, c);
  g_autofree int *begun = g_new0 (int, hob_symptom_book_size (bench->book));
  guint first, n;

  hob_bench_advance (bench, UNTIL, NULL);
  n = hob_run_events (bench->run, -1, UNTIL, &first);
  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *event = hob_run_event (bench->run, k);

      if (event->what == HOB_EVENT_SYMPTOM)
        begun[event->index]++;
      else if (event->what == HOB_EVENT_SYMPTOM_END)
        begun[event->index]--;
      else
        continue;
      for (guint i = 0; i < G_N_ELEMENTS (exclude); i++)
        if (holds (bench, begun, exclude[i][0]) && holds (bench, begun, exclude[i][1]))
          g_test_fail_printf ("%s: %s and %s at %g s", what, exclude[i][0], exclude[i][1],
                              event->t);
    }
}

/* A fault that this range has, by chance. */
static char *
draw (const HobRange *range, guint64 seed, guint64 count)
{
  for (guint64 k = 0;; k++)
    {
      int p = (int) (hob_hash_uniform (seed, count, 2 * k) * range->n_parts), n;

      n = range->parts[p].kind->n_faults;
      if (n > 0)
        {
          int f = (int) (hob_hash_uniform (seed, count, 2 * k + 1) * n);

          if (hob_range_has_fault (range, p, f))
            return g_strdup_printf ("%s:%s", range->parts[p].id,
                                    range->parts[p].kind->faults[f].id);
        }
    }
}

/* Where nothing is asked there is no set temperature, and a control without power reads nothing. */
static gboolean
has_no_figure (const HobMoment *m, int part, const HobKind *kind, const char *name)
{
  static const char *const read[] = { "sensed", "ohms", NULL };
  int display = hob_kind_quantity (kind, "display");

  if (g_strv_contains (read, name))
    return display >= 0 && hob_moment_quantity (m, part, display) == 0;
  return g_str_equal (name, "target");
}

static void
assert_possible (const HobBench *idle, const HobCase *c, const char *what)
{
  const HobRange *range = hob_bench_range (idle);
  g_autoptr (HobPlan) plan = hob_plan_new ((HobRange *) range);
  g_autoptr (HobMoment) m = hob_moment_new (plan);
  g_autoptr (HobRun) run = hob_run_new (plan, (HobCase *) c, NULL);
  g_autoptr (GError) error = NULL;

  hob_run_advance (run, UNTIL, &error);
  if (error != NULL)
    {
      g_test_fail_printf ("%s: %s", what, error->message);
      return;
    }
  for (double t = 60; t <= UNTIL; t += 60)
    {
      hob_run_read (run, t, m);
      for (int p = 0; p < range->n_parts; p++)
        for (int q = 0; q < range->parts[p].kind->n_quantities; q++)
          {
            const HobQuantityDef *def = &range->parts[p].kind->quantities[q];
            double value = hob_moment_quantity (m, p, q);

            if ((isnan (value) && !has_no_figure (m, p, range->parts[p].kind, def->name))
                || (def->dim == HOB_DIM_TEMPERATURE && !isnan (value)
                    && !(value >= 0 && value < 4000)))
              g_test_fail_printf ("%s: %s.%s is %g at %g s", what, range->parts[p].id, def->name,
                                  value, t);
          }
    }
}

static void
no_pair_of_faults_contradicts_itself (void)
{
  g_auto (GStrv) names = shipped_ranges ();
  int n_ranges = (int) g_strv_length (names), n = full_sweep () ? PAIRS : SAMPLE;

  for (int r = 0; r < n_ranges; r++)
    {
      g_autoptr (HobRange) range = shipped_range (names[r]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);

      for (int k = r; k < n; k += n_ranges)
        {
          g_autoptr (HobCase) c = hob_case_new (range);
          g_autofree char *a = draw (range, 7, (guint64) (2 * k)),
                          *b = draw (range, 7, (guint64) (2 * k + 1)),
                          *what = g_strdup_printf ("%s: %s + %s", names[r], a, b);

          g_assert_true (hob_case_fault (c, a, NULL) && hob_case_fault (c, b, NULL));
          for (guint i = 0; i < G_N_ELEMENTS (acts); i++)
            g_assert_true (hob_case_do (c, acts[i], NULL));
          assert_possible (idle, c, what);
          assert_no_contradiction (idle, c, what);
          g_test_message ("%s", what);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/random-pairs/no-pair-of-faults-contradicts-itself",
                   no_pair_of_faults_contradicts_itself);
  return g_test_run ();
}
