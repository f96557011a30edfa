/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Tests as a person reads them, and the moments at which each may be made. */

#include "config.h"
#include "reason/beliefs.h"
#include "reason/inquiry.h"
#include "reason/moments.h"
#include "reason/plain.h"
#include "reason/priors.h"
#include "reason/suspect-words.h"
#include "reason/table.h"
#include "reason/trials.h"
#include "reason/why.h"
#include <math.h>
#include <string.h>

static HobBench *
bench_of (const char *name)
{
  g_autofree char *file = hob_range_locate (name);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);
  g_autoptr (HobCase) nothing = NULL;
  HobBench *bench;

  g_assert_no_error (error);
  nothing = hob_case_new (range);
  bench = hob_bench_new (NULL, range, nothing, &error);
  g_assert_no_error (error);
  return bench;
}

static HobTest *
parse (const HobBench *bench, const char *text)
{
  g_autoptr (GError) error = NULL;
  HobTest *test = hob_test_parse (hob_bench_range (bench), text, &error);

  g_assert_no_error (error);
  return test;
}

/* The instrument and what it is held to, by label: no id is read. */
static void
a_test_is_said_by_its_labels (void)
{
  static const char *const said[][2] = {
    { "volts igniter-bake.a igniter-bake.b", "Volts: from Bake igniter, " },
    { "ohms igniter-bake.a igniter-bake.b", "Ohms: from Bake igniter, " },
    { "ohms igniter-bake.a igniter-bake.b lead-off",
      "Ohms with one wire off: from Bake igniter, " },
    { "amps igniter-bake", "Amps: Bake igniter" },
    { "amps oven.line", "Amps: Oven control, " },
    { "amps w26", "Amps: " },
    { "pressure manifold.tap", "Gas pressure: Manifold, " },
    { "temp cavity.air", "Oven cavity: air temperature in the center" },
    { "look no-glow", "Igniter" },
    { "look igniter-bake", "Bake igniter: something looks wrong" },
    { "look glow-no-flame burner-bake", "Bake burner: " },
  };
  g_autoptr (HobBench) bench = bench_of ("dial-four");

  for (guint k = 0; k < G_N_ELEMENTS (said); k++)
    {
      g_autoptr (HobTest) test = parse (bench, said[k][0]);
      g_autofree char *words = hob_test_words (bench, test);

      if (!g_str_has_prefix (words, said[k][1]))
        g_error ("'%s' is said '%s'", said[k][0], words);
      g_assert_null (strstr (words, "igniter-bake"));
      g_assert_null (strstr (words, "manifold."));
    }
}

static void
what_is_done_for_a_test_is_said_with_its_times (void)
{
  g_autoptr (HobBench) bench = bench_of ("dial-four");
  const HobRange *range = hob_bench_range (bench);
  g_autoptr (HobTest) plain = parse (bench, "amps igniter-bake"),
                      read = parse (bench, "amps igniter-bake @ 5s oven.mode=bake; 90s"),
                      look = parse (bench, "look no-glow @ 5s oven.mode=bake; 2min"),
                      part = parse (bench, "look igniter-bake @ 5s oven.mode=bake; 2min"),
                      bubbles = parse (bench, "bubbles connector @ 5s oven.mode=bake; 2min");
  g_autofree char *none = hob_test_acts_words (range, plain),
                  *reading = hob_test_acts_words (range, read),
                  *looking = hob_test_acts_words (range, look),
                  *at_part = hob_test_acts_words (range, part),
                  *at_leak = hob_test_acts_words (range, bubbles);

  g_assert_null (none);
  g_assert_cmpstr (reading, ==, "Oven control: BAKE at 5 s. Take the reading at 90 s.");
  g_assert_true (g_str_has_prefix (looking, "Oven control: BAKE at 5 s. Watch until 2 min"));
  g_assert_true (
      g_str_has_prefix (at_part, "Oven control: BAKE at 5 s. Then look at the part."));
  g_assert_cmpstr (at_leak, ==, "Oven control: BAKE at 5 s. At 2 min, look for bubbles.");
}

/* Both faults of a pair; a severity in words, with one period at its end whatever its unit is. */
static void
a_suspect_is_said_by_part_and_fault (void)
{
  g_autoptr (HobBench) bench = bench_of ("dial-four");
  const HobRange *range = hob_bench_range (bench);
  HobSuspect pair = { .what = HOB_SUSPECT_FAULT }, gap = { .what = HOB_SUSPECT_FAULT, .part2 = -1 };
  g_autofree char *name = NULL, *one = NULL, *severity = NULL, *none = NULL;

  g_assert_true (hob_range_find_fault (range, "igniter-bake:open", &pair.part, &pair.fault, NULL));
  g_assert_true (
      hob_range_find_fault (range, "valve-bake:heater-open", &pair.part2, &pair.fault2, NULL));
  name = hob_suspect_name (range, &pair);
  none = hob_suspect_severity (range, &pair);
  g_assert_true (g_str_has_prefix (name, "Two faults at once: Bake igniter: "));
  g_assert_nonnull (strstr (name, "; Bake valve: "));
  g_assert_null (none);
  g_assert_true (hob_range_find_fault (range, "electrode-lf:gap-wide", &gap.part, &gap.fault,
                                       NULL));
  gap.graded = TRUE;
  gap.severity = (HobSeveritySpan){ .low = 0.25, .middle = 0.5, .high = 0.75 };
  one = hob_suspect_name (range, &gap);
  severity = hob_suspect_severity (range, &gap);
  g_assert_true (g_str_has_prefix (one, "LF electrode: "));
  g_assert_true (g_str_has_prefix (severity, "Severity about 0.50 on a scale of 0 to 1 (probably "
                                             "0.25 to 0.75): "));
  g_assert_true (g_str_has_suffix (severity, " in."));
}

static void
what_is_open_reads_ol (void)
{
  g_autoptr (HobBench) bench = bench_of ("dial-four");
  g_autoptr (GError) error = NULL;
  HobClue *clue = hob_clue_reading (bench, "ohms igniter-bake.a igniter-bake.b @ 0s cord.plug=out; "
                                           "5s = OL", &error);
  g_autofree char *open = NULL, *closed = NULL;

  g_assert_no_error (error);
  g_assert_true (isinf (clue->value));
  open = hob_clue_figure (clue, clue->value);
  closed = hob_clue_figure (clue, 90);
  g_assert_cmpstr (open, ==, "OL");
  g_assert_true (g_str_has_prefix (closed, "90"));
  hob_clue_free (clue);
}

/* A meter reads in the routines, an ohmmeter with the range unplugged: after its last act, and the
 * same part in the same way. */
static void
each_test_has_its_moments (void)
{
  static const char *const texts[] = { "amps igniter-bake",
                                       "ohms igniter-bake.a igniter-bake.b" };
  g_autoptr (HobBench) bench = bench_of ("dial-four");
  const HobRange *range = hob_bench_range (bench);

  for (guint k = 0; k < G_N_ELEMENTS (texts); k++)
    {
      g_autoptr (HobTest) test = parse (bench, texts[k]);
      g_autoptr (GPtrArray) all = hob_reading_moments (range, test);

      g_assert_cmpuint (all->len, >, 3);
      for (guint i = 0; i < all->len; i++)
        {
          const HobTest *each = all->pdata[i];
          g_autofree char *text = hob_test_text (range, each);
          guint n = each->acts->acts->len;

          g_assert_true (g_str_has_prefix (text, texts[k]));
          g_assert_false (isnan (each->time));
          g_assert_true (test->what != HOB_TEST_OHMS || strstr (text, "cord.plug=out") != NULL
                         || strstr (text, "breaker=off") != NULL);
          g_assert_true (n == 0
                         || (double) g_array_index (each->acts->acts, HobAct, n - 1).ms
                                <= each->time * 1000 + 0.5);
        }
    }
}

/* A live test begins unplugged but at a receptacle, one on a dead range stays so, and looking needs
 * neither. */
static void
what_is_made_safe_first_is_said (void)
{
  for (int k = 0; k < HOB_N_MEANS; k++)
    {
      const HobOffer offer = { .means = &hob_means[k] };
      g_autoptr (GPtrArray) lines = hob_offer_safe (&offer);
      const char *last = lines->len > 0 ? lines->pdata[lines->len - 1] : "";
      gboolean unplug = lines->len > 0 && strstr (lines->pdata[0], "unplug") != NULL;

      g_assert_cmpint (unplug, ==, (hob_means[k].safe & HOB_SAFE_UNPLUGGED) != 0);
      g_assert_cmpint (strstr (last, "Clip on the meter leads") != NULL, ==,
                       unplug && hob_means[k].danger == HOB_DANGER_LIVE);
    }
}

/* Nothing is replaced on a guess, nor on ohms where volts under load decide. */
static void
what_is_not_proved_is_not_replaced (void)
{
  static const struct
  {
    HobSuspectWhat what;
    HobProof proof;
    const char *says; /* NULL: nothing */
  } cases[] = {
    { HOB_SUSPECT_FAULT, HOB_PROOF_NONE, "Nothing has confirmed the fault." },
    { HOB_SUSPECT_FAULT, HOB_PROOF_VOLTS, "voltage drop across it under load" },
    { HOB_SUSPECT_NORMAL, HOB_PROOF_NONE, NULL },
  };

  for (guint k = 0; k < G_N_ELEMENTS (cases); k++)
    {
      HobSuspect first = { .what = cases[k].what };
      g_autoptr (GPtrArray) suspects = g_ptr_array_new ();
      const HobSuspects all = { .suspects = suspects, .proof = cases[k].proof };
      const char *said;

      g_ptr_array_add (suspects, &first);
      said = hob_suspects_unproved (&all);
      g_assert_cmpint (said == NULL, ==, cases[k].says == NULL);
      if (said != NULL)
        g_assert_nonnull (strstr (said, cases[k].says));
    }
}

/* Where there is nothing, nothing is freed. */
static void
nothing_is_freed_of_nothing (void)
{
  hob_belief_free (NULL);
  hob_inquiry_free (NULL);
  hob_plain_free (NULL);
  hob_priors_free (NULL);
  hob_fault_table_free (NULL);
  hob_trials_free (NULL);
  hob_why_free (NULL);
  hob_suspects_free (NULL);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reason/words/a-test-is-said-by-its-labels", a_test_is_said_by_its_labels);
  g_test_add_func ("/reason/words/what-is-done-for-it-has-its-times",
                   what_is_done_for_a_test_is_said_with_its_times);
  g_test_add_func ("/reason/words/a-suspect-is-said-by-part-and-fault",
                   a_suspect_is_said_by_part_and_fault);
  g_test_add_func ("/reason/words/what-is-open-reads-ol", what_is_open_reads_ol);
  g_test_add_func ("/reason/words/each-test-has-its-moments", each_test_has_its_moments);
  g_test_add_func ("/reason/words/what-is-made-safe-first-is-said",
                   what_is_made_safe_first_is_said);
  g_test_add_func ("/reason/words/what-is-not-proved-is-not-replaced",
                   what_is_not_proved_is_not_replaced);
  g_test_add_func ("/reason/words/nothing-is-freed-of-nothing", nothing_is_freed_of_nothing);
  return g_test_run ();
}
