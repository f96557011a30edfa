/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/hazard.h"

#include <string.h>

#define BIT(h) HOB_HAZARD_BIT (HOB_HAZARD_##h)

static const char order[]
    = "gas-strong fire co-sick shock hot-plug gas-faint gas-gathered stop-using breaker-gfci "
      "co-flame dead-first live-test spark-lead no-bypass hot-igniter gas-joint pressure match "
      "put-back always";

static void
the_gravest_comes_first (void)
{
  g_auto (GStrv) ids = g_strsplit (order, " ", -1);

  g_assert_cmpuint (g_strv_length (ids), ==, HOB_N_HAZARDS);
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    {
      g_assert_cmpstr (hob_hazards[h].id, ==, ids[h]);
      g_assert_cmpint (hob_hazard_find (ids[h]), ==, h);
      g_assert_cmpint (hob_hazards[h].silences, ==, h <= HOB_HAZARD_SHOCK);
    }
  g_assert_cmpint (hob_hazard_find ("gas"), ==, -1);
}

/* Someone under stress reads them: 20 words a sentence at most. */
static void
check_sentences (const char *text)
{
  g_auto (GStrv) sentences = g_strsplit_set (text, ".:;", -1);

  for (char **s = sentences; *s != NULL; s++)
    {
      g_auto (GStrv) words = g_strsplit (g_strstrip (*s), " ", -1);

      g_assert_cmpuint (g_strv_length (words), <=, 20);
    }
  g_assert_true (g_str_has_suffix (text, "."));
  g_assert_true (g_ascii_isupper (*text));
  g_assert_null (strstr (text, "  "));
}

static void
sentences_are_short (void)
{
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    {
      check_sentences (hob_hazards[h].text);
      g_assert_cmpint (hob_hazards[h].when == 0, ==, hob_hazards[h].variant == NULL);
      if (hob_hazards[h].variant != NULL)
        check_sentences (hob_hazards[h].variant);
    }
}

static void
the_words_of_a_file_are_a_set (void)
{
  g_autofree char *unknown = NULL;

  g_assert_cmphex (hob_hazards_parse (" match\n  fire fire ", &unknown), ==,
                   BIT (FIRE) | BIT (MATCH));
  g_assert_null (unknown);
  g_assert_cmphex (hob_hazards_parse ("shock if-stuck", &unknown), ==,
                   BIT (SHOCK) | HOB_HAZARD_IF_STUCK);
  g_assert_null (unknown);
  g_assert_cmphex (hob_hazards_parse ("", &unknown), ==, 0);
  g_assert_null (unknown);
  g_assert_cmphex (hob_hazards_parse ("match flood storm", &unknown), ==, BIT (MATCH));
  g_assert_cmpstr (unknown, ==, "flood");
}

static void
a_set_is_walked_in_order (void)
{
  HobHazards set = BIT (ALWAYS) | BIT (FIRE) | BIT (MATCH) | HOB_HAZARD_IF_ANY;

  g_assert_cmpint (hob_hazards_next (set, -1), ==, HOB_HAZARD_FIRE);
  g_assert_cmpint (hob_hazards_next (set, HOB_HAZARD_FIRE), ==, HOB_HAZARD_MATCH);
  g_assert_cmpint (hob_hazards_next (set, HOB_HAZARD_MATCH), ==, HOB_HAZARD_ALWAYS);
  g_assert_cmpint (hob_hazards_next (set, HOB_HAZARD_ALWAYS), ==, -1);
  g_assert_cmpint (hob_hazards_next (0, -1), ==, -1);
}

/* Every set of two: what is below a hazard that silences the others is not shown, all else is. */
static void
the_gravest_silences_what_is_below (void)
{
  for (int a = 0; a < HOB_N_HAZARDS; a++)
    for (int b = a + 1; b < HOB_N_HAZARDS; b++)
      {
        HobHazards set = HOB_HAZARD_BIT (a) | HOB_HAZARD_BIT (b) | HOB_HAZARD_IF_LP;
        gboolean spark = hob_hazards[a].unlit_gas && hob_hazards[b].sparks;
        gboolean pull = hob_hazards[a].hot_plug && hob_hazards[b].unplugs;
        gboolean switched = hob_hazards[b].unlit_gas && hob_hazards[a].sparks;
        gboolean both = (!hob_hazards[a].silences && !spark && !pull) || b == HOB_HAZARD_ALWAYS;

        g_assert_cmphex (hob_hazards_shown (set), ==,
                         switched ? set & ~HOB_HAZARD_BIT (a)
                         : both   ? set
                                  : set & ~HOB_HAZARD_BIT (b));
        g_assert_cmpint (hob_hazards_make_safe (set) != NULL, ==,
                         hob_hazards[a].silences || hob_hazards[b].silences);
      }
  g_assert_cmphex (hob_hazards_shown (0), ==, 0);
  g_assert_null (hob_hazards_make_safe (0));
}

/* A leak check is described: nobody has smelled anything yet. */
static void
what_is_described_silences_nothing (void)
{
  HobHazards test = BIT (GAS_STRONG) | BIT (GAS_JOINT), fault = BIT (DEAD_FIRST);

  g_assert_cmphex (hob_hazards_shown_with (0, test), ==, test);
  g_assert_cmphex (hob_hazards_shown_with (fault, test), ==, test | fault);
  g_assert_cmphex (hob_hazards_shown_with (BIT (SHOCK), test | fault), ==,
                   BIT (SHOCK) | BIT (GAS_STRONG));
  g_assert_cmphex (hob_hazards_shown_with (BIT (GAS_FAINT), BIT (LIVE_TEST) | BIT (PRESSURE)), ==,
                   BIT (GAS_FAINT) | BIT (PRESSURE));
}

/* Whatever else holds, nothing below a smell of gas has anyone make a spark; each text that does
 * is known as such by its words. */
static void
nothing_sparks_where_it_smells_of_gas (void)
{
  static const char *const words[] = { "nplug", "lug in", "breaker", "Reset", "match" };
  HobHazards all = HOB_HAZARD_BIT (HOB_N_HAZARDS) - 1, shown;

  shown = hob_hazards_shown (all & ~(HOB_HAZARD_BIT (HOB_HAZARD_GAS_FAINT) - 1));
  for (int h = HOB_HAZARD_GAS_FAINT + 1; h < HOB_HAZARD_ALWAYS; h++)
    {
      gboolean sparks = FALSE;

      for (guint k = 0; k < G_N_ELEMENTS (words); k++)
        sparks = sparks || strstr (hob_hazards[h].text, words[k]) != NULL;
      g_assert_cmpint (hob_hazards[h].sparks, ==, sparks);
      g_assert_cmpint ((shown & HOB_HAZARD_BIT (h)) != 0, ==, !sparks);
    }
}

static void
the_first_of_a_set_and_its_rest (void)
{
  HobHazards set
      = BIT (SHOCK) | BIT (STOP_USING) | BIT (MATCH) | BIT (PUT_BACK) | HOB_HAZARD_IF_STUCK,
      rest;

  g_assert_cmphex (hob_hazards_first (set, 3, &rest), ==, set & ~BIT (PUT_BACK));
  g_assert_cmphex (rest, ==, BIT (PUT_BACK) | HOB_HAZARD_IF_STUCK);
  g_assert_cmphex (hob_hazards_first (set, 9, &rest), ==, set);
  g_assert_cmpint (hob_hazards_next (rest, -1), ==, -1);
}

static void
circumstances_change_one_text (void)
{
  for (int h = 0; h < HOB_N_HAZARDS; h++)
    {
      g_autofree char *plain = hob_hazard_text (h, HOB_HAZARD_BIT (h));
      g_autofree char *full = hob_hazard_text (h, HOB_HAZARD_IF_ANY);
      g_autofree char *other = hob_hazard_text (h, HOB_HAZARD_IF_ANY & ~hob_hazards[h].when);

      g_assert_cmpstr (plain, ==, hob_hazards[h].text);
      g_assert_cmpstr (other, ==, plain);
      g_assert_cmpint (g_str_equal (full, plain), ==, hob_hazards[h].when == 0);
    }
}

static void
the_act_that_saves_comes_first (void)
{
  g_autofree char *stuck = hob_hazard_text (HOB_HAZARD_SHOCK, HOB_HAZARD_IF_STUCK);
  g_autofree char *propane = hob_hazard_text (HOB_HAZARD_GAS_STRONG, HOB_HAZARD_IF_LP);

  g_assert_true (g_str_has_prefix (stuck, "If someone is being shocked: Don't touch them. "));
  g_assert_true (g_str_has_prefix (propane, "Get everyone out now. "));
  g_assert_true (g_str_has_suffix (propane, " low spots."));
}

/* A plug that must not be pulled, and a caution that begins with pulling it. */
static void
nobody_pulls_a_hot_plug (void)
{
  HobHazards set = BIT (HOT_PLUG) | BIT (DEAD_FIRST) | BIT (LIVE_TEST) | BIT (NO_BYPASS);

  g_assert_cmphex (hob_hazards_shown (set), ==, BIT (HOT_PLUG) | BIT (NO_BYPASS));
  g_assert_cmphex (hob_hazards_shown (set & ~BIT (HOT_PLUG)), ==, set & ~BIT (HOT_PLUG));
  for (int h = HOB_HAZARD_HOT_PLUG + 1; h < HOB_N_HAZARDS; h++)
    if (g_regex_match_simple ("(^|\\. )(Unplug|Plug in|Clip)", hob_hazards[h].text, 0, 0))
      g_assert_true (hob_hazards[h].unplugs);
}

/* The breaker of a hot plug waits until the smell is gone. */
static void
a_hot_plug_waits_for_the_gas (void)
{
  HobHazards set = BIT (HOT_PLUG) | BIT (GAS_FAINT);

  g_assert_cmphex (hob_hazards_shown (set), ==, BIT (GAS_FAINT));
  g_assert_cmphex (hob_hazards_beside (BIT (HOT_PLUG), BIT (GAS_FAINT)), ==, BIT (GAS_FAINT));
}

/* A smell of gas has a name beside it too where a stronger one keeps its own silent. */
static void
what_is_silenced_names_what_silences_it (void)
{
  HobHazards strong = BIT (GAS_STRONG), faint = BIT (GAS_FAINT), match = BIT (MATCH);

  g_assert_cmphex (hob_hazards_beside (faint, strong | faint), ==, strong);
  g_assert_cmphex (hob_hazards_beside (faint, faint), ==, faint);
  g_assert_cmphex (hob_hazards_beside (match, faint), ==, faint);
  g_assert_cmphex (hob_hazards_beside (match | BIT (SPARK_LEAD), faint), ==, BIT (SPARK_LEAD));
  g_assert_cmphex (hob_hazards_beside (0, strong), ==, 0);
}

static void
names_are_in_one_line (void)
{
  g_autofree char *names = hob_hazards_names (BIT (PUT_BACK) | BIT (FIRE) | HOB_HAZARD_IF_LP);
  g_autofree char *none = hob_hazards_names (0);

  g_assert_cmpstr (names, ==, "Fire, Putting the range back");
  g_assert_cmpstr (none, ==, "");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/base/hazard/the gravest comes first", the_gravest_comes_first);
  g_test_add_func ("/base/hazard/sentences are short", sentences_are_short);
  g_test_add_func ("/base/hazard/the words of a file are a set", the_words_of_a_file_are_a_set);
  g_test_add_func ("/base/hazard/a set is walked in order", a_set_is_walked_in_order);
  g_test_add_func ("/base/hazard/the gravest silences what is below",
                   the_gravest_silences_what_is_below);
  g_test_add_func ("/base/hazard/what is described silences nothing",
                   what_is_described_silences_nothing);
  g_test_add_func ("/base/hazard/nothing sparks where it smells of gas",
                   nothing_sparks_where_it_smells_of_gas);
  g_test_add_func ("/base/hazard/the first of a set and its rest", the_first_of_a_set_and_its_rest);
  g_test_add_func ("/base/hazard/circumstances change one text", circumstances_change_one_text);
  g_test_add_func ("/base/hazard/the act that saves comes first", the_act_that_saves_comes_first);
  g_test_add_func ("/base/hazard/nobody pulls a hot plug", nobody_pulls_a_hot_plug);
  g_test_add_func ("/base/hazard/a hot plug waits for the gas", a_hot_plug_waits_for_the_gas);
  g_test_add_func ("/base/hazard/what is silenced names what silences it",
                   what_is_silenced_names_what_silences_it);
  g_test_add_func ("/base/hazard/names are in one line", names_are_in_one_line);
  return g_test_run ();
}
