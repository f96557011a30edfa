/* SPDX-License-Identifier: GPL-3.0-or-later */

/* A technician who follows the advice: on a small fixed sample of faults, and on the cases of
 * diagrams/cases/, whose solutions are here and nowhere else. */

#include "base/hash.h"
#include "run/case-file.h"
#include "technician.h"

#include <math.h>
#include <string.h>

static Shop *shop;

/* ---- A sample ---- */

enum { SINGLES = 12, RIGHT = 10, MOST = 40 };

static Outcome
solve_first_complaint (const Truth *truth, guint64 seed, HobSkill role)
{
  guint k = (guint) (hob_hash_uniform (seed, 5, 0) * truth->shows->len);
  g_autoptr (GPtrArray) clues = technician_complaint (shop, truth->shows->pdata[k]);

  return technician_solve (shop, truth, role, clues, seed);
}

static void
singles_are_found (void)
{
  int n = 0, right = 0;

  for (guint64 seed = 1; n < SINGLES && seed < MOST; seed++)
    {
      g_autoptr (Truth) truth = truth_draw (shop, 1, seed);
      Outcome o;

      if (truth->shows->len == 0)
        continue;
      o = solve_first_complaint (truth, seed, HOB_SKILL_TECHNICIAN);
      g_assert_cmpint (o.unsafe, ==, 0);
      if (!o.stopped)
        {
          n++;
          right += o.right;
          g_test_message ("%s:%s: %s, %d tests, %.0f minutes",
                          shop->range->parts[truth->part[0]].id,
                          shop->range->parts[truth->part[0]].kind->faults[truth->fault[0]].id,
                          o.right ? "found" : "not found", o.tests, o.minutes);
        }
      outcome_clear (&o);
    }
  g_assert_cmpint (n, ==, SINGLES);
  g_assert_cmpint (right, >=, RIGHT);
}

/* Whoever verifies that a part is dead before he reads ohms reads volts where it is not. */
static void
what_is_live_is_read_as_volts (void)
{
  static const struct
  {
    const char *when;
    gboolean live;
  } cases[] = { { "1s", TRUE }, { "0s cord.plug=out; 1s", FALSE } };
  g_autoptr (Truth) truth = truth_draw (shop, 1, 1);

  for (gsize k = 0; k < G_N_ELEMENTS (cases); k++)
    {
      g_autofree char *text
          = g_strconcat ("ohms igniter-bake.a igniter-bake.b @ ", cases[k].when, NULL);
      g_autoptr (HobTest) test = hob_test_parse (shop->range, text, NULL);
      g_autofree char *line = technician_reads (shop, truth, test, 1, 1);

      g_assert_nonnull (line);
      g_test_message ("%s", line);
      g_assert_true (g_str_has_prefix (line, cases[k].live ? "volts igniter-bake.a "
                                                           : "ohms igniter-bake.a "));
    }
}

/* On paper too a look at the cap does not find what is in the orifice, and amps take the time until
 * they flow, and the volts beside them. */
static void
a_list_on_paper_finds_what_it_looks_at (void)
{
  static const struct
  {
    guint64 seed;
    const char *part, *fault;
    double least;
  } all[] = { { 1234568, "burner-lr", "orifice-clogged", 10 },
              { 1234572, "igniter-bake", "aged", 15 } };

  for (gsize k = 0; k < G_N_ELEMENTS (all); k++)
    {
      g_autoptr (Truth) truth = truth_draw (shop, 1, all[k].seed);
      const HobPart *part = &shop->range->parts[truth->part[0]];
      Outcome o = solve_first_complaint (truth, all[k].seed, HOB_SKILL_TECHNICIAN);

      g_assert_cmpstr (part->id, ==, all[k].part);
      g_assert_cmpstr (part->kind->faults[truth->fault[0]].id, ==, all[k].fault);
      g_assert_cmpfloat (o.fixed_minutes, >, all[k].least);
      outcome_clear (&o);
    }
}

/* An apprentice is never offered a live test or one that opens gas. */
static void
apprentice_is_safe (void)
{
  for (guint64 seed = 1; seed <= 6; seed++)
    {
      g_autoptr (Truth) truth = truth_draw (shop, 1, seed);
      Outcome o;

      if (truth->shows->len == 0)
        continue;
      o = solve_first_complaint (truth, seed, HOB_SKILL_APPRENTICE);
      g_assert_cmpint (o.unsafe, ==, 0);
      outcome_clear (&o);
    }
}

/* ---- Cases ---- */

static const struct
{
  const char *file, *faults[2];
} stories[] = {
  { "glows-but-no-flame", { "igniter-bake:aged=0.55" } },
  { "glows-but-no-flame-again", { "oven:contact-burned=0.5" } },
  { "two-small-faults", { "igniter-bake:aged=0.2", "receptacle:neutral-resistance=0.4" } },
  { "no-heat-after-cleaning", { "lever:left-shut" } },
  { "no-glow-at-all", { "valve-bake:heater-open" } },
  { "one-corner-dead", { "electrode-lr:lead-open" } },
  { "all-flames-small", { "regulator:set-low=0.8" } },
  { "knob-turns-nothing-happens", { "switch-lf:open" } },
  { "hot-door", { "door:gasket-torn=0.7" } },
  { "vent-gives-nothing", { "cavity:vent-covered=0.8" } },
};

static Truth *
truth_of (const char *const *faults)
{
  Truth *t = g_new0 (Truth, 1);
  g_autoptr (GError) error = NULL;

  t->acts = hob_case_new (shop->range);
  t->shows = g_ptr_array_new ();
  t->runs = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_bench_free);
  for (int k = 0; k < 2 && faults[k] != NULL; k++)
    {
      const HobAct *act;

      hob_case_fault (t->acts, faults[k], &error);
      g_assert_no_error (error);
      act = &g_array_index (t->acts->acts, HobAct, t->acts->acts->len - 1);
      t->part[k] = act->part;
      t->fault[k] = act->index;
      t->severity[k] = act->value;
      t->n_faults++;
    }
  return t;
}

static HobCaseFile *
load_story (const char *name)
{
  g_autofree char *file
      = g_strdup_printf (HOB_SOURCE_DIR "/diagrams/cases/%s.xml", name);
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) error = NULL;
  HobCaseFile *story = hob_case_load (file, findings, &error);

  g_assert_no_error (error);
  return story;
}

static GPtrArray *
clues_of (const HobCaseFile *story)
{
  GPtrArray *clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);
  g_autoptr (GError) error = NULL;

  for (int what = 0; what < HOB_N_EVIDENCE; what++)
    for (guint k = 0; k < story->evidence[what]->len; k++)
      {
        const char *text = story->evidence[what]->pdata[k];

        g_ptr_array_add (clues, what == HOB_EVIDENCE_READING
                                    ? hob_clue_reading (shop->idle, text, &error)
                                    : hob_clue_look (shop->idle, text,
                                                     what == HOB_EVIDENCE_SEEN ? HOB_SEEN
                                                                               : HOB_NOT_SEEN,
                                                     &error));
        g_assert_no_error (error);
      }
  return clues;
}

static void
story_is_solved (gconstpointer data)
{
  guint k = GPOINTER_TO_UINT (data);
  g_autoptr (HobCaseFile) story = load_story (stories[k].file);
  g_autoptr (Truth) truth = truth_of (stories[k].faults);
  g_autoptr (GPtrArray) clues = clues_of (story);
  Outcome o = technician_solve (shop, truth, HOB_SKILL_TECHNICIAN, clues, 1000 + k);

  g_test_message ("%s%d tests, %.0f minutes: %s:%s %.2f", o.log, o.tests, o.minutes,
                  o.part >= 0 ? shop->range->parts[o.part].id : "-",
                  o.part >= 0 ? shop->range->parts[o.part].kind->faults[o.fault].id : "-", o.p);
  g_assert_true (o.right);
  outcome_clear (&o);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  shop = shop_new ("dial-four");
  g_test_add_func ("/reason/technician/singles-are-found", singles_are_found);
  g_test_add_func ("/reason/technician/what-is-live-is-read-as-volts",
                   what_is_live_is_read_as_volts);
  g_test_add_func ("/reason/technician/a-list-on-paper", a_list_on_paper_finds_what_it_looks_at);
  g_test_add_func ("/reason/technician/apprentice-is-safe", apprentice_is_safe);
  for (guint k = 0; k < G_N_ELEMENTS (stories); k++)
    {
      g_autofree char *path = g_strconcat ("/reason/technician/", stories[k].file, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (k), story_is_solved);
    }
  status = g_test_run ();
  shop_free (shop);
  return status;
}
