/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Suspects: from what is seen and read on a shipped range to the fault that was put into it. */

#include "asked.h"
#include "base/errors.h"
#include "reason/suspect-words.h"
#include "shipped.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static Asked bench;

static HobSuspects *
suspects_of (const char *const *seen, const char *const *readings, HobSkill role)
{
  static const char *const nothing[] = { NULL };

  return asked_suspects (&bench, seen, nothing, readings, role);
}

static void
assert_first (const HobSuspects *all, const char *part, const char *fault)
{
  const HobRange *range = bench.range;
  const HobSuspect *first = all->suspects->pdata[0];

  g_assert_cmpint (first->what, ==, HOB_SUSPECT_FAULT);
  g_assert_cmpstr (range->parts[first->part].id, ==, part);
  g_assert_cmpstr (range->parts[first->part].kind->faults[first->fault].id, ==, fault);
}

static const HobSuspect *
suspect_of (const HobSuspects *all, const char *part, const char *fault)
{
  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];
      const HobPart *p = s->what == HOB_SUSPECT_FAULT ? &bench.range->parts[s->part] : NULL;

      if (p != NULL && s->part2 < 0 && g_str_equal (p->id, part)
          && g_str_equal (p->kind->faults[s->fault].id, fault))
        return s;
    }
  g_assert_not_reached ();
}

/* Follows the advice until the next test begins with @wanted, and looks in vain; that test.
 * (transfer full) NULL: testing stops before. */
static char *
followed_to (const char *const *said, GPtrArray *readings, const char *wanted)
{
  for (int n = 0; n < 12; n++)
    {
      g_autoptr (HobSuspects) all = NULL;
      const HobOffer *next;
      g_autofree char *text = NULL;

      g_ptr_array_add (readings, NULL);
      all = suspects_of (said, (const char *const *) readings->pdata, HOB_SKILL_TECHNICIAN);
      g_ptr_array_set_size (readings, (int) readings->len - 1);
      next = hob_suspects_next (all);
      if (next == NULL)
        return NULL;
      text = hob_test_text (bench.range, next->test);
      g_test_message ("%s", text);
      if (g_str_has_prefix (text, wanted))
        return g_steal_pointer (&text);
      g_assert_cmpint (next->test->what, ==, HOB_TEST_LOOK);
      g_ptr_array_add (readings, g_strconcat (text, " = not-seen", NULL));
    }
  return NULL;
}

#define NO_FLAME "glow-no-flame @ 0s oven.mode=bake; 180s"
#define AMPS "amps igniter-bake @ 0s oven.mode=bake; 90s = 2.73 A"
#define VOLTS "volts igniter-bake.a igniter-bake.b @ 0s oven.mode=bake; 90s = "

static void
aged_igniter (void)
{
  g_autoptr (HobSuspects) amps = suspects_of ((const char *[]){ NO_FLAME, NULL },
                                              (const char *[]){ AMPS, NULL },
                                              HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) both = suspects_of ((const char *[]){ NO_FLAME, NULL },
                                              (const char *[]){ AMPS, VOLTS "116 V", NULL },
                                              HOB_SKILL_TECHNICIAN);
  const HobSuspect *first = both->suspects->pdata[0];

  assert_first (amps, "igniter-bake", "aged");
  g_assert_cmpint (amps->proof, ==, HOB_PROOF_VOLTS);
  g_assert_cmpint (((HobOffer *) amps->offers->pdata[0])->test->what, ==, HOB_TEST_VOLTS);
  assert_first (both, "igniter-bake", "aged");
  g_assert_cmpint (both->proof, ==, HOB_PROOF_READING);
  g_assert_cmpint (both->verdict, ==, HOB_TEST_SURE);
  g_assert_cmpfloat (fabs (first->severity.middle - 0.5), <, 0.1);
}

/* On its way from a flame in time to none at all a weak igniter has had one that came late,
 * whatever the severities that were run; a valve that is stuck was never slow. */
static void
none_comes_after_late (void)
{
  static const char *const slow[] = { "lights-slowly burner-bake", NULL };
  static const char *const never[] = { NO_FLAME, NULL };
  static const char *const nothing[] = { NULL };
  g_autoptr (HobSuspects) late = suspects_of (slow, nothing, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) none = suspects_of (never, nothing, HOB_SKILL_TECHNICIAN);

  assert_first (late, "igniter-bake", "aged");
  g_assert_cmpfloat (suspect_of (late, "igniter-bake", "aged")->p, >, 0.3);
  g_assert_cmpfloat (suspect_of (late, "valve-bake", "stuck-closed")->expected[0], <, 0.05);
  g_assert_cmpfloat (suspect_of (none, "valve-bake", "stuck-closed")->expected[0], >, 0.9);
}

/* A new igniter draws what a normal one does, the oven lights and goes up and down, and what was
 * complained of stays away. */
static void
after_the_repair (void)
{
  g_autoptr (HobSuspects) all = suspects_of ((const char *[]){ NO_FLAME, NULL },
                                             (const char *[]){ AMPS, VOLTS "116 V", NULL },
                                             HOB_SKILL_TECHNICIAN);
  const HobSuspect *first = all->suspects->pdata[0];
  guint amps = 0, looks = 0, hot = 0;

  for (guint k = 0; k < all->checks->len; k++)
    {
      const HobCheck *check = all->checks->pdata[k];

      if (check->test->what == HOB_TEST_AMPS)
        {
          g_assert_true (hob_test_at_part (bench.range, check->test, first->part));
          g_assert_cmpfloat (check->value, >=, 3.2);
          g_assert_cmpfloat (check->value, <=, 3.6);
          amps++;
        }
      looks += check->test->what == HOB_TEST_LOOK;
      if (hob_test_dimension (check->test) == HOB_DIM_TEMPERATURE)
        {
          g_assert_cmpfloat (check->value, >, 420);
          g_assert_cmpfloat (check->most - check->value, >, 15);
          g_assert_cmpfloat (check->most, <, 480);
          hot++;
        }
    }
  g_assert_cmpuint (amps, >, 0);
  g_assert_cmpuint (looks, ==, 1);
  g_assert_cmpuint (hot, ==, 1);
  g_assert_cmpint (all->lights, ==, hob_range_part (bench.range, "burner-bake"));
  g_assert_false (all->by_knob);
  g_assert_cmpfloat (all->lights_after, >, 20);
  g_assert_cmpfloat (all->lights_after, <, 90);
}

/* The oven stays cold there, and nobody calls for heat. */
static void
after_the_repair_of_a_surface_burner (void)
{
  g_autoptr (HobSuspects) all
      = suspects_of ((const char *[]){ "flame-small burner-lf", NULL },
                     (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);

  for (guint k = 0; k < all->checks->len; k++)
    g_assert_cmpint (
        hob_test_dimension (((const HobCheck *) all->checks->pdata[k])->test), !=,
        HOB_DIM_TEMPERATURE);
  g_assert_cmpint (all->lights, ==, hob_range_part (bench.range, "burner-lf"));
  g_assert_true (all->by_knob);
  g_assert_cmpfloat (all->lights_after, <, 4);
}

/* Who says it twice has not seen it twice. */
static void
said_twice_counts_once (void)
{
  g_autoptr (HobSuspects) once = suspects_of ((const char *[]){ NO_FLAME, NULL },
                                              (const char *[]){ AMPS, NULL },
                                              HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) twice = suspects_of ((const char *[]){ NO_FLAME, NO_FLAME, NULL },
                                               (const char *[]){ AMPS, AMPS, NULL },
                                               HOB_SKILL_TECHNICIAN);
  const HobSuspect *a = once->suspects->pdata[0], *b = twice->suspects->pdata[0];

  g_assert_cmpint (a->part, ==, b->part);
  g_assert_cmpfloat_with_epsilon (a->p, b->p, 1e-12);
}

static void
burned_contact (void)
{
  g_autoptr (HobSuspects) all = suspects_of ((const char *[]){ NO_FLAME, NULL },
                                             (const char *[]){ AMPS, VOLTS "89.7 V", NULL },
                                             HOB_SKILL_TECHNICIAN);

  assert_first (all, "oven", "contact-burned");
}

/* As the README tells it: the same complaint from a joint of 9 Ω, proved by what it drops. */
static void
joint_of_nine_ohms (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ NO_FLAME, NULL },
      (const char *[]){ "amps igniter-bake @ 0s oven.mode=bake; 90s = 2.81 A", VOLTS "91.3 V",
                        "volts oven.line oven.mid @ 0s oven.mode=bake; 90s = 24.7 V", NULL },
      HOB_SKILL_TECHNICIAN);

  assert_first (all, "oven", "contact-burned");
  g_assert_cmpint (all->verdict, ==, HOB_TEST_SURE);
  g_assert_cmpint (all->proof, ==, HOB_PROOF_READING);
}

static void
apprentice (void)
{
  g_autoptr (HobSuspects) all = suspects_of ((const char *[]){ NO_FLAME, NULL },
                                             (const char *[]){ NULL }, HOB_SKILL_APPRENTICE);

  g_assert_cmpint (all->proof, ==, HOB_PROOF_NONE);
  g_assert_cmpuint (all->offers->len, >, 0);
  for (guint k = 0; k < all->offers->len; k++)
    g_assert_cmpint (((HobOffer *) all->offers->pdata[k])->means->danger, <, HOB_DANGER_LIVE);
}

static double
normal_of (const HobSuspects *all)
{
  for (guint k = 0; k < all->suspects->len; k++)
    if (((HobSuspect *) all->suspects->pdata[k])->what == HOB_SUSPECT_NORMAL)
      return ((HobSuspect *) all->suspects->pdata[k])->p;
  g_assert_not_reached ();
}

/* What somebody saw who looked for it is asked for once more at most after the same is done. */
static void
seen_is_not_asked_often (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "no-glow", NULL },
      (const char *[]){ "look no-glow @ 0s oven.mode=bake; 90s = seen",
                        "look no-glow @ 0s oven.mode=bake; 91s = seen", NULL },
      HOB_SKILL_TECHNICIAN);

  g_assert_cmpuint (all->offers->len, >, 0);
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobTest *test = ((HobOffer *) all->offers->pdata[k])->test;
      g_autofree char *text = hob_test_text (bench.range, test);

      if (g_strcmp0 (test->symptom, "no-glow") == 0)
        g_assert_null (strstr (text, "oven.mode=bake; 9"));
    }
}

/* Nor is what he did not see, a second later and a second later again. */
static void
unseen_is_not_asked_often (void)
{
#define BURNER "1s knob-rr=light; 11s knob-rr=high; 31s knob-rr=low; 41s knob-rr=off; "
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "ring-partial-low burner-rr @ 1s knob-rr=light; 11s knob-rr=high; "
                        "31s knob-rr=low; 36s",
                        NULL },
      (const char *[]){ "look burner-rr @ 0s cord.plug=out; 1s = not-seen",
                        "look goes-out-low @ " BURNER "61s = not-seen",
                        "look flame-small @ " BURNER "61s = seen",
                        "look flame-small @ " BURNER "62s = seen",
                        "look ring-partial @ " BURNER "61s = seen",
                        "look ring-partial @ " BURNER "62s = not-seen",
                        "look sparks-but-no-light @ " BURNER "61s = not-seen",
                        "look sparks-but-no-light @ " BURNER "62s = not-seen", NULL },
      HOB_SKILL_TECHNICIAN);

  g_assert_cmpuint (all->offers->len, >, 0);
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobTest *test = ((HobOffer *) all->offers->pdata[k])->test;
      g_autofree char *text = hob_test_text (bench.range, test);

      g_assert_false (g_str_has_prefix (text, "look sparks-but-no-light @ " BURNER));
    }
#undef BURNER
}

/* A customer may imagine what is not there: of the few faults that show it none is sure before
 * somebody has looked, and to look is offered, at the flame or at what makes
 * it so. */
static void
complaint_is_looked_at (void)
{
  const char *said[] = { "yellow-tips burner-bake", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);
  const HobTest *next = ((HobOffer *) all->offers->pdata[0])->test;
  g_autofree char *text = hob_test_text (bench.range, next);
  g_autofree char *seen = g_strconcat (text, " = seen", NULL);
  g_autoptr (HobSuspects) looked
      = suspects_of (said, (const char *[]){ seen, NULL }, HOB_SKILL_TECHNICIAN);
  double before = normal_of (all), after = normal_of (looked);

  assert_first (all, "burner-bake", "shutter-closed");
  g_assert_true (hob_test_is_seen (next));
  g_assert_cmpfloat (before, >, 0.1);
  g_assert_cmpfloat (after, <, before / 5);
}

/* What one must stop using the range for is not brought about again to find its cause: no test that
 * is offered has a likely suspect shock, smoke or leak. */
static void
nothing_is_brought_about (void)
{
  static const char *const said[] = { "tingle", "joint-smokes", "late-light-thump" };
  const HobSkill roles[] = { HOB_SKILL_APPRENTICE, HOB_SKILL_TECHNICIAN };

  for (guint k = 0; k < 2 * G_N_ELEMENTS (said); k++)
    {
      const char *one[] = { said[k / 2], NULL }, *none[] = { NULL };
      g_autoptr (HobSuspects) all = suspects_of (one, none, roles[k % 2]);
      const HobOffer *next = hob_suspects_next (all);

      if (next == NULL)
        continue;
      g_assert_cmpstr (next->test->symptom, !=, said[k / 2]);
      for (guint i = 0; i < next->test->acts->acts->len; i++)
        {
          const HobAct *act = &g_array_index (next->test->acts->acts, HobAct, i);

          g_assert_cmpint (bench.range->parts[act->part].kind->flags & HOB_KIND_LIVES, ==, 0);
        }
    }
}

/* Who complains of what nobody takes for something else has hardly imagined it, and where one fault
 * alone shows it, that one is first. */
static void
what_is_grave_is_not_imagined (void)
{
  g_autoptr (HobSuspects) shock
      = suspects_of ((const char *[]){ "shock", NULL }, (const char *[]){ NULL },
                     HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) leak
      = suspects_of ((const char *[]){ "gas-smell-behind", NULL }, (const char *[]){ NULL },
                     HOB_SKILL_TECHNICIAN);

  g_assert_cmpfloat (normal_of (shock), <, 0.2);
  g_assert_cmpfloat (normal_of (leak), <, 0.2);
  assert_first (leak, "connector", "leaks");
}

/* Who smells gas behind the range, and has the gas company find it, puts leak-detection solution on
 * the connector: bubbles speak for it, and none against it. */
static void
bubbles_find_a_leak (void)
{
  const char *smell[] = { "gas-smell-behind", NULL };
  g_autoptr (HobSuspects) seen = suspects_of (
      smell, (const char *[]){ "bubbles connector = seen", NULL }, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) none = suspects_of (
      smell, (const char *[]){ "bubbles connector = not-seen", NULL }, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) alone
      = suspects_of (smell, (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);
  double before = suspect_of (alone, "connector", "leaks")->p;

  g_assert_cmpfloat (1 - suspect_of (seen, "connector", "leaks")->p, <, (1 - before) / 2);
  g_assert_cmpfloat (suspect_of (none, "connector", "leaks")->p, <, before / 2);
}

/* Whoever was shocked makes the range safe before anything is tested, and then turns no knob only
 * to look, nor measures from a pulled plug to its slot; the suspects are known all the same. */
static void
a_shock_is_made_safe_first (void)
{
  const char *said[] = { "shock @ 0s person=chassis; 5s", NULL }, *none[] = { NULL };
  const char *unplugged[]
      = { "volts receptacle.line receptacle.neutral @ 0s cord.plug=out; 90s = 120 V", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, none, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) after = suspects_of (said, unplugged, HOB_SKILL_TECHNICIAN);

  g_assert_true (all->stop & HOB_HAZARD (SHOCK));
  g_assert_cmpuint (all->offers->len, ==, 0);
  assert_first (all, "house", "neutral-open");
  g_assert_cmpuint (after->stop, ==, 0);
  g_assert_cmpint (after->verdict, ==, HOB_TEST_GO);
  for (guint k = 0; k < after->offers->len; k++)
    {
      const HobTest *test = ((HobOffer *) after->offers->pdata[k])->test;
      g_autofree char *text = hob_test_text (bench.range, test);

      g_assert_cmpint (test->what, !=, HOB_TEST_LOOK);
      g_assert_false (strstr (text, "cord.plug=out") != NULL && strstr (text, "cord.slot") != NULL);
    }
}

/* Gas of a burner that was turned on and does not light is no leak. */
static void
a_burner_that_does_not_light_is_no_leak (void)
{
  const char *said[] = { "no-flame-top", NULL }, *none[] = { NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, none, HOB_SKILL_TECHNICIAN);

  g_assert_cmpuint (all->stop, ==, 0);
  g_assert_true (all->hazards & HOB_HAZARD (GAS_FAINT));
  g_assert_cmpint (all->verdict, ==, HOB_TEST_GO);
}

/* What would show three minutes after BROIL and did not in four speaks against whoever shows it,
 * though another unit may take longer. */
static void
what_was_not_seen_in_time_counts (void)
{
  const char *said[] = { "glow-no-flame @ 0s oven.mode=bake; 180s", NULL }, *none[] = { NULL };
  const char *not_seen[] = { "look broil-no-heat @ 0s oven.mode=broil; 240s = not-seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, none, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) after = suspects_of (said, not_seen, HOB_SKILL_TECHNICIAN);
  const HobSuspect *before = suspect_of (all, "lever", "left-shut");
  const HobSuspect *now = suspect_of (after, "lever", "left-shut");

  g_assert_cmpfloat (now->p, <, 0.7 * before->p);
  g_assert_cmpfloat (now->p, >, 0.2 * before->p);
}

/* The next test, but for what somebody has watched and need only say. */
static const HobOffer *
next_of (const HobSuspects *all)
{
  g_assert_cmpint (all->verdict, ==, HOB_TEST_GO);
  for (guint k = 0; k < all->offers->len; k++)
    if (((HobOffer *) all->offers->pdata[k])->minutes > 0.2)
      return all->offers->pdata[k];
  g_assert_not_reached ();
}

/* A thermometer for most of an hour does not come before a clamp that tells as much in minutes;
 * what was seen while the volts were read is only said. */
static void
a_safer_test_may_not_take_much_longer (void)
{
  const char *said[] = { "glow-no-flame @ 0s oven.mode=bake; 180s", NULL };
  const char *volts[]
      = { "volts igniter-bake.a igniter-bake.b @ 0s oven.mode=bake; 90s = 116 V", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, volts, HOB_SKILL_TECHNICIAN);


  g_assert_cmpint (next_of (all)->test->what, ==, HOB_TEST_AMPS);
}

/* Two faults show it alike: what else one of them shows, of which a customer would rather complain,
 * is said beside it. */
static void
of_what_else_one_would_complain_is_said (void)
{
  const char *said[] = { "tingle @ 0s person=chassis; 5s", NULL }, *none[] = { NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, none, HOB_SKILL_TECHNICIAN);
  const HobSuspect *neutral = suspect_of (all, "house", "neutral-open");
  const HobSuspect *pinched = suspect_of (all, "cord", "line-pinched");
  g_autoptr (HobClue) clue = hob_clue_look (bench.idle, said[0], HOB_SEEN, NULL);
  g_autofree char *alone = hob_suspect_reason (all, neutral, clue, 0, "it");
  g_autofree char *among = hob_suspect_reason (all, pinched, clue, 0, "it");

  g_assert_cmpfloat (neutral->p / neutral->prior, >, 3 * pinched->p / pinched->prior);
  g_assert_null (strstr (alone, "would complain about this"));
  g_assert_nonnull (strstr (among, "would complain about this"));
}

static gboolean
is_look_at (const HobOffer *offer, const char *symptom)
{
  return offer->test->what == HOB_TEST_LOOK && g_str_equal (offer->test->symptom, symptom);
}

/* What a range that has nothing wrong answers.  (transfer full) */
static char *
normal_answer (const HobTest *test)
{
  g_autofree char *text = hob_test_text (bench.range, test);
  g_autoptr (HobCase) base = hob_case_new (bench.range);
  double t;
  g_autoptr (HobCase) acts = hob_test_case (test, base, &t);
  g_autoptr (HobBench) run = hob_bench_again (bench.idle, acts);
  HobReading reading;

  if (hob_test_is_seen (test))
    return g_strdup_printf ("%s = not-seen", text);
  g_assert_cmpint (hob_bench_advance (run, t, NULL), ==, HOB_RUN_OK);
  reading = hob_reading_take (run->run, test, t);
  g_assert_true (reading.answered);
  return isnan (reading.value) ? g_strdup_printf ("%s = OL", text)
                               : g_strdup_printf ("%s = %.4f%s", text, reading.value,
                                                  test->what == HOB_TEST_TEMP ? " K" : "");
}

/* A complaint that takes an hour of bake to show, where a suspect makes carbon monoxide by then: it
 * is cleared first, in minutes, and testing does not end before. */
static void
danger_is_cleared_first (void)
{
  enum { MOST = 20 };
  const char *said[] = { "never-reaches", NULL };
  g_autoptr (GPtrArray) made = g_ptr_array_new_with_free_func (g_free);
  double covered = 1;

  g_ptr_array_add (made, NULL);
  for (int k = 0; k < MOST && covered > 0.01; k++)
    {
      g_autoptr (HobSuspects) all
          = suspects_of (said, (const char *const *) made->pdata, HOB_SKILL_TECHNICIAN);
      const HobOffer *next = hob_suspects_next (all);

      covered = suspect_of (all, "cavity", "vent-covered")->p;
      g_assert_nonnull (next);
      g_assert_cmpfloat (next->minutes, <, covered > 0.01 ? 15 : INFINITY);
      g_ptr_array_insert (made, (int) made->len - 1, normal_answer (next->test));
    }
  g_assert_cmpuint (made->len, >, 2);
  g_assert_cmpfloat (covered, <, 0.01);
}

/* Who looks at a part and then sees the opposite of what he saw has proved nothing, and while it
 * may be that nothing is wrong somebody looks at the complaint. */
static void
opposite_looks_prove_nothing (void)
{
  const char *said[] = { "heat-at-door", NULL };
  const char *looks[]
      = { "look door @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s = not-seen",
          "look door @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 2s = seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, looks, HOB_SKILL_TECHNICIAN);
  const HobOffer *next = hob_suspects_next (all);

  assert_first (all, "door", "gasket-torn");
  g_assert_nonnull (next);
  g_assert_true (is_look_at (next, "heat-at-door"));
}

static gboolean
has_offer (const HobSuspects *all, const char *text)
{
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      g_autofree char *own = hob_test_text (bench.range, offer->test);

      if (g_str_equal (own, text))
        return TRUE;
    }
  return FALSE;
}

#define BAKE "0s oven.dial=350 degF; 0s oven.mode=bake; "
#define FLAME_LIFTS "look flame-lifts @ 0s oven.dial=550 degF; 0s oven.mode=broil; "

/* In a procedure that goes on for long too: eyes err there as elsewhere. */
static void
a_long_procedure_is_looked_at_again (void)
{
  const char *said[] = { "oven-flame-small", NULL };
  const char *look[] = { FLAME_LIFTS "90s = seen",
                         "look oven-flame-small @ 0s oven.dial=550 degF; 0s oven.mode=broil; 105s "
                         "= not-seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, look, HOB_SKILL_TECHNICIAN);

  g_assert_true (has_offer (all, FLAME_LIFTS "91s"));
}

/* Who looks again before more is done looks a second less: afterwards it is something else. */
static void
looked_at_again_before_more_is_done (void)
{
  const char *said[] = { "yellow-tips burner-lr @ 1s knob-lr=light; 9s", NULL };
  const char *looks[]
      = { "look burner-lr @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s = not-seen",
          "look burner-lr @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 2s = not-seen",
          "look yellow-tips @ 1s knob-lr=light; 10s = not-seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, looks, HOB_SKILL_TECHNICIAN);

  g_assert_true (has_offer (all, "look yellow-tips @ 1s knob-lr=light; 9s"));
}

/* Who has watched five minutes of what shows after a quarter of an hour has not looked yet. */
static void
a_short_look_is_not_enough (void)
{
  const char *said[] = { "overheats cavity @ " BAKE "1105s", NULL };
  const char *looks[] = { "look overheats cavity @ " BAKE "300s = not-seen",
                          "look late-light-thump @ " BAKE "90s = not-seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, looks, HOB_SKILL_TECHNICIAN);
  const HobOffer *next = hob_suspects_next (all);

  g_assert_nonnull (next);
  g_assert_true (is_look_at (next, "overheats"));
  g_assert_cmpfloat (next->test->time, >, 1105);
}

/* What somebody has seen for himself and one fault alone explains says that something is wrong: to
 * watch a quarter of an hour for the complaint as well tells nothing. */
static void
what_was_found_is_not_looked_for (void)
{
  const char *said[] = { "slow-preheat cavity @ " BAKE "1081s", NULL };
  const char *found[]
      = { "look oven-flame-small @ " BAKE "90s = seen",
          "look oven-flame-small @ " BAKE "91s = seen",
          "look flame-lifts @ " BAKE "90s = not-seen",
          "look flame-lifts @ " BAKE "91s = not-seen",
          "look flame-small @ 1s knob-rf=light; 11s knob-rf=high; 31s knob-rf=low; 41s "
          "knob-rf=off; 61s = not-seen",
          "look bulb @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s = not-seen",
          "pressure burner-bake.in @ " BAKE "90s = 1296 Pa", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, found, HOB_SKILL_TECHNICIAN);

  assert_first (all, "burner-bake", "orifice-clogged");
  g_assert_cmpint (all->proof, ==, HOB_PROOF_NONE);
  g_assert_cmpint (all->verdict, !=, HOB_TEST_GO);
}

/* Four switches in parallel read next to nothing alike, whichever is stuck, and a meter shows that
 * as nothing: only one that is taken off tells. */
static void
parallel_switches_read_alike (void)
{
  const char *said[] = { "sparks-never-stop burner-lf @ 1s knob-lf=light; 11s knob-lf=high; 22s",
                         NULL };
  const char *ohms[]
      = { "ohms switch-lf.a switch-lf.b @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s "
          "= 0",
          "ohms switch-lf.a switch-lf.b lead-off @ 0s cord.plug=out; 0s shutoff=closed; 0s "
          "lever=closed; 1s = OL",
          "ohms switch-lr.a switch-lr.b @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s "
          "= 0.32 ohm", NULL };
  static const char *const others[] = { "switch-lr", "switch-rf", "switch-rr" };
  g_autoptr (HobSuspects) all = suspects_of (said, ohms, HOB_SKILL_TECHNICIAN);

  for (gsize k = 0; k < G_N_ELEMENTS (others); k++)
    g_assert_cmpfloat (suspect_of (all, others[k], "stuck-closed")->p, >, 0.2);
}

/* A knob that slips by a third of the most sparks and opens no gas; at a quarter it lights, and
 * at a half there is no spark either. */
static void
what_shows_between_two_severities (void)
{
  const char *said[] = { "sparks-but-no-light burner-lf @ 1s knob-lf=light; 8s", NULL };
  const char *seen[]
      = { "look burner-lf @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s = not-seen",
          "look sparks-never-stop @ 1s knob-lf=light; 11s knob-lf=high; 31s = seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, seen, HOB_SKILL_TECHNICIAN);
  const HobSuspect *slips = suspect_of (all, "knob-lf", "slips");

  g_assert_cmpfloat (slips->p, >, 0.2);
  g_assert_cmpfloat (slips->severity.middle, >, 0.25);
  g_assert_cmpfloat (slips->severity.middle, <, 0.5);
}

/* A module that draws next to nothing cannot be read to be dead: as a rule none is called so before
 * somebody has read what feeds it, even where a needless one costs nothing to speak of. */
static void
what_feeds_a_dead_part_is_read (void)
{
  const char *said[] = { "no-flame-top burner-rf @ 1s knob-rf=light; 11s knob-rf=high; 17s", NULL };
  const char *seen[] = { "look no-spark-any @ 1s knob-rf=light; 10s = seen",
                         "look no-spark-any @ 1s knob-rr=light; 10s = seen",
                         "look no-spark-any @ 1s knob-lf=light; 10s = seen",
                         "volts receptacle.line receptacle.neutral @ 1s knob-lf=light; 6s = 117 V",
                         "look no-glow @ " BAKE "90s = not-seen", NULL };
  g_autoptr (HobSuspects) all = NULL;
  double wrong = bench.priors->rule.wrong;
  const HobOffer *next;

  bench.priors->rule.wrong = 1;
  all = suspects_of (said, seen, HOB_SKILL_TECHNICIAN);
  bench.priors->rule.wrong = wrong;
  assert_first (all, "module", "dead");
  g_assert_cmpint (all->proof, ==, HOB_PROOF_NONE);
  next = hob_suspects_next (all);
  g_assert_nonnull (next);
  g_assert_true (hob_test_at_part (bench.range, next->test,
                                   ((HobSuspect *) all->suspects->pdata[0])->part));
}

/* No volts across a valve through which amps flow say that something else is wrong: that is read
 * once more before the valve is condemned. */
static void
what_contradicts_is_read_again (void)
{
  const char *said[] = { "glow-no-flame burner-bake @ " BAKE "108s", NULL };
  static const char *const read[]
      = { "amps w23 @ " BAKE "90s = 3.62 A", "pressure burner-bake.in @ " BAKE "90s = 0",
          "pressure valve-bake.out @ " BAKE "90s = 6.83",
          "temp cavity.air-high @ 0s oven.dial=550 degF; 0s oven.mode=broil; 600s = 404.46 K",
          "volts valve-bake.a valve-bake.b @ " BAKE "90s = 0" };
  g_autoptr (GPtrArray) readings = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *again = NULL;

  for (gsize k = 0; k < G_N_ELEMENTS (read); k++)
    g_ptr_array_add (readings, g_strdup (read[k]));
  again = followed_to (said, readings, "volts valve-bake.a valve-bake.b @ ");
  g_assert_nonnull (again);
}

/* A flame that lifts is one for which a customer stops using the range; whoever came to find out
 * why, and stands beside it, counts ten minutes for it at most. */
static void
a_technician_runs_what_fails (void)
{
  const char *said[] = { "slow-preheat cavity @ " BAKE "1081s", NULL };
  const char *seen[] = { "look oven-flame-small @ " BAKE "90s = seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, seen, HOB_SKILL_TECHNICIAN);
  double risk = 0;

  for (guint k = 0; k < all->offers->len; k++)
    risk = fmax (risk, ((HobOffer *) all->offers->pdata[k])->risk);
  g_assert_cmpfloat (risk, >, 2);
  g_assert_cmpfloat (risk, <, 10);
}

/* A contact that reads closed where it is open on a normal range is welded, whatever the igniters
 * beyond it happen to have: by those of two units nobody knows those of a third. */
static void
welded_contact (void)
{
  const char *said[] = { "heats-when-off cavity @ 0s oven.dial=350 degF; 0s oven.mode=bake; 5400s "
                         "oven.mode=off; 5581s", NULL };
  const char *ohms[]
      = { "ohms oven.mid oven.bake @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s = "
          "0.19 ohm",
          "ohms oven.mid oven.broil @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s = "
          "259 ohm", NULL };
  const char *first[] = { ohms[0], NULL };
  g_autoptr (HobSuspects) one = suspects_of (said, first, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) both = suspects_of (said, ohms, HOB_SKILL_TECHNICIAN);

  assert_first (one, "oven", "selector-welded");
  g_assert_cmpint (one->verdict, ==, HOB_TEST_SURE);
  assert_first (both, "oven", "selector-welded");
  g_assert_cmpint (both->verdict, ==, HOB_TEST_SURE);
}

/* A thermometer that is read after ten minutes takes those and the time to put it in, not the three
 * cycles of an average. */
static void
a_thermometer_is_read_when_it_tells (void)
{
  const char *said[] = { "slow-preheat", NULL }, *none[] = { NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, none, HOB_SKILL_TECHNICIAN);
  int n = 0;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];

      if (offer->means != &hob_means[HOB_MEANS_THERMOMETER] || offer->test->time > 1000)
        continue;
      g_assert_cmpfloat (offer->minutes, <, offer->test->time / 60 + 8);
      n++;
    }
  g_assert_cmpint (n, >, 0);
}

/* What a thermometer had at a time is noted: how far that is from the dial need not be waited for
 * once more. */
static void
a_thermometer_is_read_once (void)
{
  const char *said[] = { "slow-preheat", NULL };
  const char *air[] = { "temp cavity.air @ " BAKE "600s = 390 K", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, air, HOB_SKILL_TECHNICIAN);
  int n = 0;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      g_autofree char *text = hob_test_text (bench.range, offer->test);

      if (offer->means != &hob_means[HOB_MEANS_THERMOMETER]
          || !g_str_has_suffix (text, BAKE "600s"))
        continue;
      g_assert_cmpfloat (offer->minutes, <=, 1);
      n++;
    }
  g_assert_cmpint (n, >, 0);
}

/* Where it is hardly another part, a glance at the burner comes before a manometer, though what the
 * glance would find is not the first of its faults. */
static void
a_part_is_confirmed_the_quick_way (void)
{
#define LOW "look flame-small @ 1s knob-lf=light; 11s knob-lf=high; 31s knob-lf=low; 41s "
  const char *said[]
      = { "flashback burner-lf @ 1s knob-lf=light; 11s knob-lf=high; 31s knob-lf=low; 35s", NULL };
  const char *seen[] = { LOW "knob-lf=off; 61s = seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, seen, HOB_SKILL_TECHNICIAN);
  const HobOffer *next = next_of (all);

  assert_first (all, "burner-lf", "orifice-for-lp");
  g_assert_cmpint (next->test->what, ==, HOB_TEST_INSPECT);
  g_assert_cmpstr (bench.range->parts[next->test->part].id, ==, "burner-lf");
}

/* A cold igniter that has rather many ohms proves nothing: its amps are read, hot, before it is
 * named. */
static void
cold_ohms_prove_nothing (void)
{
  const char *said[]
      = { "stays-cold cavity @ 0s oven.dial=550 degF; 0s oven.mode=broil; 901s", NULL };
  const char *found[]
      = { "look no-glow @ " BAKE "90s = not-seen", "look hot-joint @ " BAKE "90s = not-seen",
          "ohms igniter-broil.lead igniter-broil.b @ 0s cord.plug=out; 0s shutoff=closed; 0s "
          "lever=closed; 1s = 182.5 ohm",
          "ohms valve-broil.a valve-broil.b @ 0s cord.plug=out; 0s shutoff=closed; 0s "
          "lever=closed; 1s = 0.96 ohm",
          FLAME_LIFTS "90s = not-seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, found, HOB_SKILL_TECHNICIAN);
  g_autoptr (GPtrArray) readings = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *amps = NULL;

  assert_first (all, "igniter-broil", "aged");
  g_assert_cmpint (all->proof, ==, HOB_PROOF_NONE);
  for (const char **text = found; *text != NULL; text++)
    g_ptr_array_add (readings, g_strdup (*text));
  amps = followed_to (said, readings, "amps ");
  g_assert_nonnull (amps);
}

/* All burners on HIGH are looked at together, before the oven is turned on. */
static void
all_burners_are_looked_at_together (void)
{
  const char *said[]
      = { "no-flame-top burner-lf @ 1s knob-lf=light; 11s knob-lf=high; 17s", NULL };
  const char *looks[] = { "look no-spark-any @ 1s knob-lf=light; 10s = seen",
                          "look no-spark-any @ 1s knob-rr=light; 10s = not-seen", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, looks, HOB_SKILL_TECHNICIAN);
  const HobOffer *together = NULL;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];

      if (offer->test->what == HOB_TEST_LOOK && offer->test->acts->acts->len == 8)
        together = offer;
    }
  g_assert_nonnull (together);
  g_assert_cmpfloat (together->test->time, >, 50);
  g_assert_cmpfloat (together->minutes, <, 5);
}

/* A strong smell silences the tests; one that a knob explains does not, and is a complaint like any
 * other: what else the range shows is known. */
static void
a_smell_from_a_knob_is_weighed (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "gas-smell @ 1s knob-lf=light; 11s knob-lf=high; 60s", NULL },
      (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);
  const HobSuspect *open = suspect_of (all, "switch-lf", "open");

  g_assert_cmpint (all->stop, ==, 0);
  g_assert_cmpfloat (open->said, >, 0);
  g_assert_cmpfloat (open->said, <, 0.5);
}

/* A look that contradicts what was seen before is made once more. */
static void
a_part_is_looked_at_again (void)
{
  const char *said[] = { "yellow-tips burner-lr", NULL };
  const char *look[]
      = { "look burner-lr @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s = not-seen",
          NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, look, HOB_SKILL_TECHNICIAN);
  gboolean again = FALSE;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobTest *test = ((HobOffer *) all->offers->pdata[k])->test;
      g_autofree char *text = hob_test_text (bench.range, test);

      again = again || g_str_has_prefix (text, "look burner-lr @ 0s cord.plug=out");
    }
  g_assert_true (again);
}

/* An ohmmeter is not put to the same terminals again where every suspect reads as before. */
static void
the_same_reading_is_not_asked_again (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "no-glow burner-bake @ 0s oven.mode=bake; 61s", NULL },
      (const char *[]){ "ohms oven.bake igniter-bake.a @ 0s cord.plug=out; 0s shutoff=closed; "
                        "0s lever=closed; 1s knob-lf=light; 6s = OL", NULL },
      HOB_SKILL_TECHNICIAN);

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobTest *test = ((HobOffer *) all->offers->pdata[k])->test;
      g_autofree char *text = hob_test_text (bench.range, test);

      g_assert_false (g_str_has_prefix (text, "ohms oven.bake igniter-bake.a "));
    }
}

/* What only the stray capacitance of a wire that hangs open drives tells no fault from another. */
static void
ghosts_tell_nothing (void)
{
  const char *said[] = { "no-glow burner-bake @ 0s oven.mode=bake; 61s", NULL };
  const char *read[] = { "volts oven.mid oven.bake @ 1s knob-lf=light; 6s = 36 V", NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, read, HOB_SKILL_TECHNICIAN);
  const HobSuspect *open = suspect_of (all, "igniter-bake", "open");
  const HobSuspect *heater = suspect_of (all, "valve-bake", "heater-open");

  g_assert_cmpfloat_with_epsilon (open->p / open->prior, heater->p / heater->prior,
                                  0.05 * open->p / open->prior);
}

/* What a normal range shows too, under what was done, speaks for no fault: with the hood on high
 * flames lean, whatever else there is. */
static void
what_is_normal_then_speaks_for_nothing (void)
{
  g_autoptr (GPtrArray) clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);
  g_autoptr (HobCase) base = hob_case_new (bench.range);
  g_autoptr (HobSuspects) all = NULL;
  const HobSuspect *first, *fault;

  g_assert_true (hob_case_setting (base, "house.hood-flow=0.28", NULL));
  g_ptr_array_add (clues, hob_clue_look (bench.idle,
                                         "flame-wavers @ 0s house.hood=on; 1s knob-lf=light; "
                                         "11s knob-lf=high; 40s",
                                         HOB_SEEN, NULL));
  all = hob_suspects_new (bench.trials, base, clues, HOB_SKILL_TECHNICIAN, bench.priors);
  first = all->suspects->pdata[0];
  fault = all->suspects->pdata[1];
  g_assert_cmpint (first->what, ==, HOB_SUSPECT_NORMAL);
  g_assert_cmpfloat (first->likelihood[0], >, 0.9);
  g_assert_cmpfloat_with_epsilon (fault->likelihood[0], first->likelihood[0], 1e-9);
}

/* A contact that is closed where it should be open, and a part that is open: no single fault does
 * both. */
static void
two_faults_are_named_together (void)
{
  const char *said[] = { "sparks-all-knobs-off", "no-glow @ 0s oven.mode=bake; 180s", NULL };
  const char *read[] = { "ohms switch-rf.a switch-rf.b lead-off @ 0s cord.plug=out; "
                         "0s shutoff=closed; 0s lever=closed; 1s = 0.1",
                         "ohms igniter-bake.a igniter-bake.b lead-off @ 0s cord.plug=out; "
                         "0s shutoff=closed; 0s lever=closed; 1s = OL",
                         NULL };
  g_autoptr (HobSuspects) all = suspects_of (said, read, HOB_SKILL_TECHNICIAN);
  const HobSuspect *s = all->suspects->pdata[0];
  int igniter = hob_range_part (bench.range, "igniter-bake");
  int contact = hob_range_part (bench.range, "switch-rf");

  g_assert_cmpint (s->what, ==, HOB_SUSPECT_FAULT);
  g_assert_true ((s->part == igniter && s->part2 == contact)
                 || (s->part == contact && s->part2 == igniter));
}

/* A part that is looked at closely: what is seen there speaks for its faults, what is not against
 * those that are seen. */
static void
part_is_looked_at (void)
{
  const char *said[] = { "sparks-but-no-light burner-lf", NULL };
  g_autoptr (HobSuspects) seen
      = suspects_of (said, (const char *[]){ "look burner-lf = seen", NULL }, HOB_SKILL_APPRENTICE);
  g_autoptr (HobSuspects) not_seen = suspects_of (
      said, (const char *[]){ "look burner-lf = not-seen", NULL }, HOB_SKILL_APPRENTICE);
  int burner = hob_range_part (bench.range, "burner-lf");

  g_assert_cmpint (((HobSuspect *) seen->suspects->pdata[0])->part, ==, burner);
  g_assert_cmpint (seen->proof, ==, HOB_PROOF_READING);
  g_assert_cmpint (((HobSuspect *) not_seen->suspects->pdata[0])->part, !=, burner);
}

/* Of four switches in parallel one is stuck: each reads the same until its wires are off. */
static void
stuck_switch (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "sparks-all-knobs-off @ 60s", NULL },
      (const char *[]){ "ohms switch-rf.a switch-rf.b @ 0s cord.plug=out; 1s = 0.03",
                        "ohms switch-rf.a switch-rf.b lead-off @ 0s cord.plug=out; 1s = 0.01",
                        NULL },
      HOB_SKILL_TECHNICIAN);
  const HobSuspect *first = all->suspects->pdata[0];

  assert_first (all, "switch-rf", "stuck-closed");
  g_assert_cmpfloat (first->p, >, 0.9);
  g_assert_cmpint (first->group, <, 0);
}

static double
p_of (const HobSuspects *all, const char *part, const char *fault)
{
  for (guint k = 0; k < all->suspects->len; k++)
    {
      const HobSuspect *s = all->suspects->pdata[k];
      const HobPart *at = s->part >= 0 && s->part2 < 0 ? &bench.range->parts[s->part] : NULL;

      if (at != NULL && g_str_equal (at->id, part)
          && g_str_equal (at->kind->faults[s->fault].id, fault))
        return s->p;
    }
  return 0;
}

/* One of four switches in parallel is wet: how slowly it sparks differs by the unit, not by which
 * of them it is, until one of the knobs is turned. */
static void
wet_switch (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "sparks-slow @ 6s", NULL },
      (const char *[]){ "look sparks-all-knobs-off @ 60s = seen", NULL }, HOB_SKILL_TECHNICIAN);
  double first = p_of (all, "switch-lf", "wet");

  g_assert_cmpfloat (first, >, 0.15);
  g_assert_cmpfloat_with_epsilon (p_of (all, "switch-lr", "wet"), first, 1e-6);
  g_assert_cmpfloat_with_epsilon (p_of (all, "switch-rf", "wet"), first, 1e-6);
  g_assert_cmpfloat_with_epsilon (p_of (all, "switch-rr", "wet"), first, 1e-6);
}

/* Between the severity that lights as it should and the one that never does, it lights late. */
static void
degrees_in_between (void)
{
  g_autoptr (HobSuspects) slow
      = suspects_of ((const char *[]){ "lights-slowly burner-bake @ 0s oven.dial=350 degF; "
                                       "0s oven.mode=bake; 95s", NULL },
                     (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) late = suspects_of (
      (const char *[]){ "late-light-whoosh burner-lf @ 1s knob-lf=light; 10s", NULL },
      (const char *[]){ "look burner-lf = seen", NULL }, HOB_SKILL_TECHNICIAN);

  assert_first (slow, "igniter-bake", "aged");
  assert_first (late, "burner-lf", "port-clogged");
}

/* What only a customer says, and only a thermometer shows, somebody measures before a control is
 * replaced; and as long as it takes to say that it does not show. */
static void
word_alone_names_no_part (void)
{
  const char *said[] = { "overheats", NULL };
  g_autoptr (GPtrArray) readings = g_ptr_array_new_with_free_func (g_free);
  g_autofree char *text = followed_to (said, readings, "look overheats "), *not_seen = NULL;
  g_autoptr (HobSuspects) looked = NULL;

  g_assert_nonnull (text);
  not_seen = g_strconcat (text, " = not-seen", NULL);
  looked = suspects_of ((const char *[]){ "overheats", NULL }, (const char *[]){ not_seen, NULL },
                        HOB_SKILL_TECHNICIAN);
  g_assert_cmpint (((HobSuspect *) looked->suspects->pdata[0])->what, ==, HOB_SUSPECT_NORMAL);
}

static const HobLine *
line_called (const HobLine *lines, int n, const char *id)
{
  for (int k = 0; k < n; k++)
    if (g_str_equal (lines[k].id, id))
      return &lines[k];
  g_assert_not_reached ();
}

/* First comes what is not listed, and of it the line @id, which its name says too. */
static void
assert_line (const HobSuspects *all, const char *id)
{
  const HobSuspect *first = all->suspects->pdata[0];
  const HobRange *range = bench.range;
  g_autofree char *name = NULL;

  g_assert_cmpint (first->what, ==, HOB_SUSPECT_NOT_LISTED);
  g_assert_true (first->is_line);
  g_assert_cmpstr ((first->line.pipe ? range->pipes : range->wires)[first->line.line].id, ==, id);
  name = hob_suspect_name (range, first);
  g_assert_nonnull (strstr (name, id));
}

/* A dead output and an open lead show the same, until the leads are exchanged at the module: then
 * the one goes to another burner and the other stays. */
static void
exchanged_leads (void)
{
#define NO_SPARK "no-spark-one burner-rf @ 1s knob-rf=light; 7s"
#define EXCHANGED "look no-spark-one @ 0s module.leads=moved-on; 1s knob-rf=light; 11s "           \
                  "knob-rf=off; 31s = "
  static const char *const looked[] = {
    "look electrode-rf @ 0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 30s = not-seen",
    "look no-spark-one @ 1s knob-rf=light; 11s knob-rf=high; 31s knob-rf=low; 41s knob-rf=off; "
    "61s = seen",
    NULL
  };
  g_autoptr (HobSuspects) before = suspects_of ((const char *[]){ NO_SPARK, NULL }, looked,
                                                HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) moved
      = suspects_of ((const char *[]){ NO_SPARK, NULL },
                     (const char *[]){ looked[0], looked[1], EXCHANGED "not-seen", NULL },
                     HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) stayed
      = suspects_of ((const char *[]){ NO_SPARK, NULL },
                     (const char *[]){ looked[0], looked[1], EXCHANGED "seen", NULL },
                     HOB_SKILL_TECHNICIAN);
  const HobOffer *swap = NULL;

  for (guint k = 0; k < before->offers->len && swap == NULL; k++)
    if (((HobOffer *) before->offers->pdata[k])->means == &hob_means[HOB_MEANS_SWAP])
      swap = before->offers->pdata[k];
  g_assert_nonnull (swap);
  g_assert_cmpint (swap->test->what, ==, HOB_TEST_LOOK);
  g_assert_true (swap->hazards & HOB_HAZARD (DEAD_FIRST));
  assert_first (moved, "module", "output-rf-dead");
  g_assert_cmpstr (bench.range->parts[((HobSuspect *) stayed->suspects->pdata[0])->part].id, ==,
                   "electrode-rf");
}

/* No broil, and every part that could be the cause reads as it should: a wire is open. */
static void
open_wire (void)
{
#define DEAD "0s cord.plug=out; 0s shutoff=closed; 0s lever=closed; 1s knob-lf=light; 6s = "
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "no-glow burner-broil @ 0s oven.dial=550 degF; 0s oven.mode=broil; 61s",
                        NULL },
      (const char *[]){ "ohms igniter-broil.a igniter-broil.b @ " DEAD "203.8",
                        "ohms igniter-broil.lead igniter-broil.b @ " DEAD "205.7",
                        "ohms valve-broil.a valve-broil.b @ " DEAD "1.15",
                        "ohms oven.mid oven.broil @ " DEAD "OL",
                        "ohms igniter-broil.lead chassis.body lead-off @ " DEAD "OL",
                        "look no-glow @ 0s oven.dial=350 degF; 0s oven.mode=bake; 90s = not-seen",
                        "look no-glow @ 0s oven.dial=550 degF; 0s oven.mode=broil; 90s = seen",
                        NULL },
      HOB_SKILL_TECHNICIAN);

  g_assert_cmpint (((HobSuspect *) all->suspects->pdata[0])->what, ==, HOB_SUSPECT_NOT_LISTED);
  g_assert_false (((HobSuspect *) all->suspects->pdata[0])->is_line); /* there are three */
}

/* The ohms from end to end of a wire tell which one is open. */
static void
open_wire_is_named (void)
{
  static const char *const wires[] = { "w22", "w23", "w29" };

  for (guint k = 0; k < G_N_ELEMENTS (wires); k++)
    {
      const HobLine *wire = line_called (bench.range->wires, bench.range->n_wires, wires[k]);
      HobTest ohms = { .what = HOB_TEST_OHMS, .a = wire->from, .b = wire->to, .wire = -1,
                       .part = -1, .quantity = -1, .time = NAN };
      g_autofree char *what = NULL, *reading = NULL;
      g_autoptr (HobSuspects) all = NULL;

      ohms.acts = hob_case_new (bench.range);
      what = hob_test_text (bench.range, &ohms);
      hob_case_free (ohms.acts);
      reading = g_strdup_printf ("%s @ " DEAD "OL", what);
      all = suspects_of (
          (const char *[]){ "no-glow burner-bake @ 0s oven.dial=350 degF; 0s oven.mode=bake; 61s",
                            NULL },
          (const char *[]){ reading, NULL }, HOB_SKILL_TECHNICIAN);
      assert_line (all, wires[k]);
    }
}

/* Full pressure where a pipe begins and little where it ends. */
static void
pinched_pipe_is_named (void)
{
#define LIT " @ 1s knob-lf=light; 11s knob-lf=high; 21s = "
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ "flame-small burner-lf @ 1s knob-lf=light; 11s knob-lf=high; 17s", NULL },
      (const char *[]){ "pressure manifold.lf" LIT "1240 Pa", "pressure valve-lf.in" LIT "570 Pa",
                        NULL },
      HOB_SKILL_TECHNICIAN);

  assert_line (all, "p5");
}

/* No reading that a fault makes, no symptom that it shows: something that no list has. */
static void
not_on_the_list (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ NO_FLAME, NULL },
      (const char *[]){ AMPS, VOLTS "20 V", "volts receptacle.line receptacle.neutral @ 0s "
                                            "oven.mode=bake; 90s = 66 V",
                        NULL },
      HOB_SKILL_TECHNICIAN);

  g_assert_cmpint (((HobSuspect *) all->suspects->pdata[0])->what, ==, HOB_SUSPECT_NOT_LISTED);
}

/* A complaint, and then all is normal. */
static void
nothing_wrong (void)
{
  g_autoptr (HobSuspects) all = suspects_of (
      (const char *[]){ NO_FLAME, NULL },
      (const char *[]){ "look glow-no-flame @ 0s oven.mode=bake; 300s = not-seen",
                        "amps igniter-bake @ 0s oven.mode=bake; 90s = 3.48 A", VOLTS "116 V",
                        NULL },
      HOB_SKILL_TECHNICIAN);

  g_assert_cmpint (((HobSuspect *) all->suspects->pdata[0])->what, ==, HOB_SUSPECT_NORMAL);
}

/* A smell that no knob explains: make it safe; no test is offered. */
static void
smell_of_gas (void)
{
  g_autoptr (HobSuspects) off
      = suspects_of ((const char *[]){ "gas-smell @ 60s", NULL }, (const char *[]){ NULL },
                     HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) on
      = suspects_of ((const char *[]){ "gas-smell burner-lf @ 1s knob-lf=low; 60s", NULL },
                     (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);

  g_assert_true (off->stop & HOB_HAZARD (GAS_STRONG));
  g_assert_cmpuint (off->offers->len, ==, 0);
  g_assert_false (on->stop & HOB_HAZARD (GAS_STRONG));
  g_assert_cmpuint (on->offers->len, >, 0);
}

static double
worth_of (const HobOffer *offer)
{
  double price = bench.priors->rule.price[offer->means->danger];

  return offer->bits / (offer->minutes + offer->risk + price);
}

/* Every test that is offered can be typed again, and be read. */
static void
offers_are_typed_again (void)
{
  g_autoptr (HobSuspects) all = suspects_of ((const char *[]){ NO_FLAME, NULL },
                                             (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);
  double before = G_MAXDOUBLE;

  g_assert_cmpuint (all->offers->len, >, 3);
  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];
      g_autofree char *text = hob_test_text (bench.range, offer->test), *again = NULL;
      g_autofree char *reading = g_strconcat (
          text, hob_test_is_seen (offer->test)       ? " = seen"
                : offer->test->what == HOB_TEST_TEMP ? " = 300 K"
                                                     : " = 1",
          NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (HobTest) test = hob_test_parse (bench.range, text, &error);
      HobClue *clue;

      g_assert_no_error (error);
      again = hob_test_text (bench.range, test);
      g_assert_cmpstr (again, ==, text);
      clue = hob_clue_reading (bench.idle, reading, &error);
      g_assert_no_error (error);
      hob_clue_free (clue);
      if (k > 1)
        g_assert_cmpfloat (worth_of (offer), <=, before);
      before = k > 0 ? worth_of (offer) : before;
    }
}

/* Assumptions of a person's own file change what is thought first. */
/* Of the offers of that sort. */
static double
least_minutes (const HobSuspects *all, HobTestWhat what)
{
  double least = INFINITY;

  for (guint k = 0; k < all->offers->len; k++)
    {
      const HobOffer *offer = all->offers->pdata[k];

      if (offer->test->what == what)
        least = fmin (least, offer->minutes);
    }
  return least;
}

/* Who watched broil for 90 s saw all there was; who has opened the range for one reading need not
 * open it for the next. */
static void
work_is_not_done_twice (void)
{
  static const char *const complaint[]
      = { "broil-no-heat @ 0s oven.dial=550 degF; 0s oven.mode=broil; 181s", NULL };
  static const char *const none[] = { NULL };
  static const char *const look[]
      = { "look no-glow @ 0s oven.dial=550 degF; 0s oven.mode=broil; 90s = not-seen", NULL };
  static const char *const reading[]
      = { "ohms igniter-broil.a igniter-broil.b @ 0s cord.plug=out; 0s shutoff=closed; "
          "0s lever=closed; 1s = 95 ohm", NULL };
  g_autoptr (HobSuspects) first = suspects_of (complaint, none, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) watched = suspects_of (complaint, look, HOB_SKILL_TECHNICIAN);
  g_autoptr (HobSuspects) opened = suspects_of (complaint, reading, HOB_SKILL_TECHNICIAN);
  const HobMeansDef *ohms = &hob_means[HOB_MEANS_OHMS_IN_CIRCUIT];
  const double minute = hob_means[HOB_MEANS_LOOK].minutes;

  g_assert_cmpfloat (least_minutes (first, HOB_TEST_LOOK), >, minute + 0.1);
  g_assert_cmpfloat (least_minutes (watched, HOB_TEST_LOOK), <, 0.2); /* it need only be said */
  g_assert_cmpfloat (least_minutes (first, HOB_TEST_OHMS), >, ohms->minutes);
  g_assert_cmpfloat (least_minutes (opened, HOB_TEST_OHMS), <, ohms->minutes - ohms->set_up + 1);
}

/* The dial is at 350 °F from the start: whether somebody says so or not, the range runs once. */
static void
same_acts_in_other_words (void)
{
#define DIAL "oven-flame-small @ 0s oven.dial=350 degF; 0s oven.mode=bake; 90s"
#define NO_DIAL "oven-flame-small @ 0s oven.mode=bake; 90s"
  g_autoptr (HobSuspects) first
      = suspects_of ((const char *[]){ DIAL, NULL }, (const char *[]){ NULL },
                     HOB_SKILL_TECHNICIAN);
  guint before = hob_bench_begun ();
  g_autoptr (HobSuspects) same = suspects_of ((const char *[]){ NO_DIAL, NULL },
                                              (const char *[]){ NULL }, HOB_SKILL_TECHNICIAN);

  g_assert_cmpuint (hob_bench_begun () - before, <, hob_trials_n_runs (bench.trials));
  g_assert_cmpfloat (((HobSuspect *) same->suspects->pdata[0])->p, ==,
                     ((HobSuspect *) first->suspects->pdata[0])->p);
}

static void
priors_are_adjustable (void)
{
  g_autofree char *file = g_build_filename (g_get_tmp_dir (), "hobwright-priors-test.ini", NULL);
  g_autoptr (HobPriors) priors = hob_priors_new (bench.range);
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  int part = hob_range_part (bench.range, "oven");

  g_assert_true (hob_priors_load (priors, bench.range, "/no/such/file", &error));
  g_assert_true (g_file_set_contents (file, "[Assumptions]\nsure=0.9\n[Faults]\n"
                                            "oven:contact-burned=50\nother:fault=1\n", -1, NULL));
  g_assert_true (hob_priors_load (priors, bench.range, file, &error));
  g_assert_no_error (error);
  g_assert_cmpfloat (priors->rule.sure, ==, 0.9);
  text = hob_priors_text (priors, bench.range);
  g_assert_nonnull (strstr (text, "oven:contact-burned=50\n"));
  g_assert_nonnull (strstr (text, "sure=0.9\n"));
  for (int f = 0; f < bench.range->parts[part].kind->n_faults; f++)
    if (g_str_equal (bench.range->parts[part].kind->faults[f].id, "contact-burned"))
      g_assert_cmpfloat (priors->weights[part][f], ==, 50);
  g_assert_true (g_file_set_contents (file, "[Assumptions]\nsure=much\n", -1, NULL));
  g_assert_false (hob_priors_load (priors, bench.range, file, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_VALUE);
  g_remove (file);
}

int
main (int argc, char **argv)
{
  int status;

  g_test_init (&argc, &argv, NULL);
  bench = asked_up (shipped_range ("dial-four"), TRUE);
  g_test_add_func ("/reason/suspects/aged-igniter", aged_igniter);
  g_test_add_func ("/reason/suspects/none-comes-after-late", none_comes_after_late);
  g_test_add_func ("/reason/suspects/after-the-repair", after_the_repair);
  g_test_add_func ("/reason/suspects/after-the-repair-of-a-surface-burner",
                   after_the_repair_of_a_surface_burner);
  g_test_add_func ("/reason/suspects/said-twice-counts-once", said_twice_counts_once);
  g_test_add_func ("/reason/suspects/burned-contact", burned_contact);
  g_test_add_func ("/reason/suspects/joint-of-nine-ohms", joint_of_nine_ohms);
  g_test_add_func ("/reason/suspects/apprentice", apprentice);
  g_test_add_func ("/reason/suspects/seen-is-not-asked", seen_is_not_asked_often);
  g_test_add_func ("/reason/suspects/unseen-is-not-asked-often", unseen_is_not_asked_often);
  g_test_add_func ("/reason/suspects/nothing-is-brought-about", nothing_is_brought_about);
  g_test_add_func ("/reason/suspects/what-is-grave-is-not-imagined", what_is_grave_is_not_imagined);
  g_test_add_func ("/reason/suspects/bubbles-find-a-leak", bubbles_find_a_leak);
  g_test_add_func ("/reason/suspects/a-shock-is-made-safe-first", a_shock_is_made_safe_first);
  g_test_add_func ("/reason/suspects/a-burner-that-does-not-light-is-no-leak",
                   a_burner_that_does_not_light_is_no_leak);
  g_test_add_func ("/reason/suspects/what-was-not-seen-in-time-counts",
                   what_was_not_seen_in_time_counts);
  g_test_add_func ("/reason/suspects/a-safer-test-may-not-take-much-longer",
                   a_safer_test_may_not_take_much_longer);
  g_test_add_func ("/reason/suspects/of-what-else-one-would-complain-is-said",
                   of_what_else_one_would_complain_is_said);
  g_test_add_func ("/reason/suspects/danger-is-cleared-first", danger_is_cleared_first);
  g_test_add_func ("/reason/suspects/opposite-looks-prove-nothing", opposite_looks_prove_nothing);
  g_test_add_func ("/reason/suspects/a-part-is-looked-at-again", a_part_is_looked_at_again);
  g_test_add_func ("/reason/suspects/a-long-procedure-is-looked-at-again",
                   a_long_procedure_is_looked_at_again);
  g_test_add_func ("/reason/suspects/looked-at-again-before-more-is-done",
                   looked_at_again_before_more_is_done);
  g_test_add_func ("/reason/suspects/a-short-look-is-not-enough", a_short_look_is_not_enough);
  g_test_add_func ("/reason/suspects/what-was-found-is-not-looked-for",
                   what_was_found_is_not_looked_for);
  g_test_add_func ("/reason/suspects/parallel-switches-read-alike", parallel_switches_read_alike);
  g_test_add_func ("/reason/suspects/a-technician-runs-what-fails", a_technician_runs_what_fails);
  g_test_add_func ("/reason/suspects/what-shows-between-two-severities",
                   what_shows_between_two_severities);
  g_test_add_func ("/reason/suspects/what-feeds-a-dead-part-is-read",
                   what_feeds_a_dead_part_is_read);
  g_test_add_func ("/reason/suspects/what-contradicts-is-read-again",
                   what_contradicts_is_read_again);
  g_test_add_func ("/reason/suspects/welded-contact", welded_contact);
  g_test_add_func ("/reason/suspects/a-thermometer-is-read-when-it-tells",
                   a_thermometer_is_read_when_it_tells);
  g_test_add_func ("/reason/suspects/a-thermometer-is-read-once", a_thermometer_is_read_once);
  g_test_add_func ("/reason/suspects/a-part-is-confirmed-the-quick-way",
                   a_part_is_confirmed_the_quick_way);
  g_test_add_func ("/reason/suspects/cold-ohms-prove-nothing", cold_ohms_prove_nothing);
  g_test_add_func ("/reason/suspects/all-burners-are-looked-at-together",
                   all_burners_are_looked_at_together);
  g_test_add_func ("/reason/suspects/a-smell-from-a-knob-is-weighed",
                   a_smell_from_a_knob_is_weighed);
  g_test_add_func ("/reason/suspects/same-reading", the_same_reading_is_not_asked_again);
  g_test_add_func ("/reason/suspects/ghosts-tell-nothing", ghosts_tell_nothing);
  g_test_add_func ("/reason/suspects/complaint-is-looked-at", complaint_is_looked_at);
  g_test_add_func ("/reason/suspects/part-is-looked-at", part_is_looked_at);
  g_test_add_func ("/reason/suspects/what-is-normal-then", what_is_normal_then_speaks_for_nothing);
  g_test_add_func ("/reason/suspects/two-faults-together", two_faults_are_named_together);
  g_test_add_func ("/reason/suspects/stuck-switch", stuck_switch);
  g_test_add_func ("/reason/suspects/wet-switch", wet_switch);
  g_test_add_func ("/reason/suspects/degrees-in-between", degrees_in_between);
  g_test_add_func ("/reason/suspects/word-alone", word_alone_names_no_part);
  g_test_add_func ("/reason/suspects/exchanged-leads", exchanged_leads);
  g_test_add_func ("/reason/suspects/open-wire", open_wire);
  g_test_add_func ("/reason/suspects/open-wire-is-named", open_wire_is_named);
  g_test_add_func ("/reason/suspects/pinched-pipe-is-named", pinched_pipe_is_named);
  g_test_add_func ("/reason/suspects/not-on-the-list", not_on_the_list);
  g_test_add_func ("/reason/suspects/nothing-wrong", nothing_wrong);
  g_test_add_func ("/reason/suspects/smell-of-gas", smell_of_gas);
  g_test_add_func ("/reason/suspects/offers-are-typed-again", offers_are_typed_again);
  g_test_add_func ("/reason/suspects/work-is-not-done-twice", work_is_not_done_twice);
  g_test_add_func ("/reason/suspects/same-acts-in-other-words", same_acts_in_other_words);
  g_test_add_func ("/reason/suspects/priors-are-adjustable", priors_are_adjustable);
  status = g_test_run ();
  asked_down (&bench);
  return status;
}
