/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Symptoms of the shipped ranges: none while they are sound, the right ones from physics when something is wrong, and
 * no way from a fault to a symptom but through the parts. */

#include "config.h"
#include "base/hash.h"
#include "symptoms/symptoms.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static const char *const ranges[] = { "dial-four", "board-five", "lp-four" };

static HobRange *
load (const char *name)
{
  g_autofree char *file = hob_range_locate (name);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

/* "ID TIME\n" of every symptom that begins, in order. (transfer full) */
static char *
symptoms_of (HobPlan *plan, const HobSymptomBook *book, const HobCase *acts, double until)
{
  g_autoptr (HobSymptomWatch) watch = hob_symptom_watch_new (book, plan);
  g_autoptr (HobRun) run = hob_run_new (plan, acts, hob_symptom_watch_get (watch));
  g_autoptr (GError) error = NULL;
  GString *out = g_string_new (NULL);
  guint first, n;

  hob_run_advance (run, until, &error);
  g_assert_no_error (error);
  n = hob_run_events (run, -1, until, &first);
  for (guint k = first; k < first + n; k++)
    if (hob_run_event (run, k)->what == HOB_EVENT_SYMPTOM)
      {
        g_string_append_printf (out, "%s ", hob_symptom_book_get (book, hob_run_event (run, k)->index)->id);
        hob_append_number (out, hob_run_event (run, k)->t);
        g_string_append_c (out, '\n');
      }
  return g_string_free (out, FALSE);
}

/* The case of a procedure with words for settings and faults ("PART:FAULT" or "PART.NAME=VALUE", NULL-ended). */
static HobCase *
case_of (const HobRange *range, const char *procedure, const char *const *words, double *until)
{
  HobCase *c = hob_case_new (range);
  g_autoptr (GError) error = NULL;

  for (int i = 0; words != NULL && words[i] != NULL; i++)
    {
      if (strchr (words[i], ':') != NULL)
        hob_case_fault (c, words[i], &error);
      else
        hob_case_setting (c, words[i], &error);
      g_assert_no_error (error);
    }
  hob_procedure_add (c, procedure, until, &error);
  g_assert_no_error (error);
  return c;
}

/* ---- Sound ranges ---- */

static void
a_sound_range_shows_nothing_in (const char *name, guint64 seed)
{
  static const char *const volts[] = { "receptacle.volts=114 V", "receptacle.volts=120 V", "receptacle.volts=126 V" };
  static const char *const air[] = { "house.temperature=15 degC", "house.temperature=25 degC",
                                     "house.temperature=35 degC" };
  g_autoptr (HobRange) range = load (name);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_auto (GStrv) procedures = hob_procedure_names (range);

  for (char **p = procedures; *p != NULL; p++)
    for (guint k = 0; k < G_N_ELEMENTS (volts) * G_N_ELEMENTS (air); k++)
      {
        const char *words[] = { volts[k / G_N_ELEMENTS (air)], air[k % G_N_ELEMENTS (air)], NULL };
        double until = 0;
        g_autoptr (HobCase) c = case_of (range, *p, words, &until);
        g_autofree char *seen = NULL;

        c->seed = seed;
        seen = symptoms_of (plan, book, c, until);
        if (*seen != '\0')
          {
            g_test_message ("%s, %s, %s, %s, seed %u: %s", name, *p, words[0], words[1], (guint) seed, seen);
            g_test_fail ();
          }
      }
}

static void
sound_ranges_show_nothing_in_any_procedure (void)
{
  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    a_sound_range_shows_nothing_in (ranges[r], 0);
}

/* ---- Faults ---- */

static const struct
{
  const char *range, *procedure;
  const char *what[3];
  const char *shows;
} known[] = {
  { "dial-four", "all-off-1min", { "switch-lf:stuck-closed" }, "sparks-all-knobs-off" },
  { "dial-four", "all-off-1min", { "switch-rr:wet" }, "sparks-all-knobs-off" },
  { "dial-four", "light-knob-lf", { "switch-lf:open" }, "no-spark-any" },
  { "dial-four", "light-knob-lf", { "module:dead" }, "no-spark-any" },
  { "dial-four", "light-knob-lf", { "module:output-lf-dead" }, "no-spark-one" },
  { "dial-four", "light-knob-lf", { "module:irregular" }, "sparks-irregular" },
  { "dial-four", "light-knob-lf", { "electrode-lf:cracked" }, "no-spark-one" },
  { "dial-four", "light-knob-lf", { "electrode-lf:cracked" }, "ticks-unseen" },
  { "dial-four", "light-knob-lf", { "electrode-lf:gap-wide" }, "no-spark-one" },
  { "dial-four", "light-knob-lf", { "switch-lf:stuck-closed" }, "sparks-never-stop" },
  { "dial-four", "light-knob-lf", { "shutoff=closed" }, "sparks-but-no-light" },
  { "dial-four", "light-knob-lf", { "module:dead" }, "gas-smell" },
  { "dial-four", "light-knob-lf", { "house.fuel=lp" }, "yellow-flame" },
  { "dial-four", "bake-350", { "burner-bake.orifice=0.05 in" }, "flame-lifts" },
  { "dial-four", "bake-350", { "burner-bake.orifice=0.05 in" }, "slow-preheat" },
  { "dial-four", "bake-350", { "igniter-bake:aged" }, "glow-no-flame" },
  { "dial-four", "bake-350", { "igniter-bake:open" }, "no-glow" },
  { "dial-four", "bake-350", { "valve-bake:heater-open" }, "no-glow" },
  { "dial-four", "bake-350", { "valve-bake:heater-open" }, "stays-cold" },
  { "dial-four", "bake-350", { "oven:contact-welded" }, "overheats" },
  { "dial-four", "bake-350", { "lever=closed" }, "glow-no-flame" },
  { "dial-four", "bake-350", { "oven.offset=-30 degF" }, "runs-cool" },
  { "dial-four", "bake-350", { "oven.offset=50 degF" }, "runs-hot" },
  { "dial-four", "bake-350", { "oven.differential=20 degF" }, "wide-swing" },
  { "dial-four", "bake-350", { "breaker.rating=1 A" }, "breaker-trips" },
  { "dial-four", "bake-350", { "igniter-bake.resistance-factor=2.5" }, "glow-dull" },
  { "dial-four", "broil", { "igniter-broil:aged" }, "glow-no-flame" },
  { "board-five", "bake-350", { "oven:contact-welded" }, "overheats" },
  { "board-five", "bake-350", { "oven:contact-welded" }, "flame-without-call" },
  { "board-five", "bake-350", { "oven:contact-welded" }, "glow-without-call" },
  { "board-five", "bake-350", { "sensor.plug-ohms=5 kohm" }, "display-sensor-open" },
  { "board-five", "bake-350", { "sensor.plug-ohms=60 ohm" }, "runs-cool" },
  { "board-five", "all-off-1min", { "breaker=off" }, "display-dark" },
};

/* Words of a control ("lever=closed") are acts at time 0. */
static HobCase *
case_with (const HobRange *range, const char *procedure, const char *const *what, double *until)
{
  const char *words[4] = { NULL };
  g_autofree char *act = NULL;
  HobCase *c;
  int n = 0;

  for (int i = 0; what[i] != NULL; i++)
    if (strchr (what[i], ':') != NULL || strchr (what[i], '.') != NULL)
      words[n++] = what[i];
    else
      act = g_strdup_printf ("0s %s", what[i]);
  c = case_of (range, procedure, words, until);
  if (act != NULL)
    g_assert_true (hob_case_do (c, act, NULL));
  return c;
}

static void
shows (const HobRange *range, HobPlan *plan, const HobSymptomBook *book, guint i)
{
  double until = 0;
  g_autoptr (HobCase) c = case_with (range, known[i].procedure, known[i].what, &until);
  g_autofree char *seen = symptoms_of (plan, book, c, until);
  g_autofree char *line = g_strdup_printf ("\n%s", seen), *wanted = g_strdup_printf ("\n%s ", known[i].shows);

  if (strstr (line, wanted) == NULL)
    {
      g_test_message ("%s, %s, %s: no %s among: %s", known[i].range, known[i].procedure, known[i].what[0],
                      known[i].shows, seen);
      g_test_fail ();
    }
}

static void
what_is_wrong_shows (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);

  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    {
      g_autoptr (HobRange) range = load (ranges[r]);
      g_autoptr (HobPlan) plan = hob_plan_new (range);

      for (guint i = 0; i < G_N_ELEMENTS (known); i++)
        if (g_str_equal (known[i].range, ranges[r]))
          shows (range, plan, book, i);
    }
}

/* Gas that has flowed for half a minute goes off with the first spark; lit at once, it does not. */
static void
gas_that_has_gathered_goes_off_with_a_thump (void)
{
  static const char *const acts[][3] = { { "0s knob-lf=high", "30s knob-lf=light" }, { "30s knob-lf=light" } };
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);

  for (int k = 0; k < 2; k++)
    {
      g_autoptr (HobCase) c = hob_case_new (range);
      g_autofree char *seen = NULL;

      for (int i = 0; acts[k][i] != NULL; i++)
        g_assert_true (hob_case_do (c, acts[k][i], NULL));
      seen = symptoms_of (plan, book, c, 40);
      g_assert_cmpint (strstr (seen, "late-light-thump") != NULL, ==, k == 0);
    }
}

/* The smallest range with a live chassis: the line reaches it through a lamp, and no ground leads away. */
static const char live[]
    = "<range format=\"1\" id=\"live\" name=\"Live chassis\" plate=\"natural-gas\">"
      "<part id=\"h\" kind=\"house\"/><part id=\"l\" kind=\"light\"/><part id=\"c\" kind=\"chassis\"/>"
      "<part id=\"p\" kind=\"person\"/><part id=\"j\" kind=\"junction\"/>"
      "<wire id=\"w1\" from=\"h.line\" to=\"l.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w2\" from=\"l.b\" to=\"c.body\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w3\" from=\"p.hand\" to=\"c.body\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w4\" from=\"h.neutral\" to=\"j.at\" colour=\"WH\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w5\" from=\"j.at\" to=\"l.b\" colour=\"WH\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "</range>";

static void
a_live_chassis_tingles (void)
{
  g_autoptr (GError) error = NULL;
  /* Without its neutral wire the lamp hands the line on to the chassis. */
  g_autofree char *cut = g_strndup (live, (gsize) (strstr (live, "<wire id=\"w5\"") - live));
  g_autofree char *text = g_strconcat (cut, "</range>", NULL);
  const char *const files[] = { text, live };
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);

  for (int k = 0; k < 2; k++)
    {
      g_autoptr (HobRange) range = hob_range_load_memory (files[k], strlen (files[k]), "live.xml", NULL, &error);
      g_autoptr (HobPlan) plan = NULL;
      g_autoptr (HobCase) c = NULL;
      g_autofree char *seen = NULL;

      g_assert_no_error (error);
      plan = hob_plan_new (range);
      c = hob_case_new (range);
      g_assert_true (hob_case_do (c, "1s p=chassis", NULL));
      seen = symptoms_of (plan, book, c, 5);
      if (k == 0)
        g_assert_true (g_str_has_prefix (seen, "tingle 1.2"));
      else
        g_assert_cmpstr (seen, ==, "");
    }
}

static void
a_hand_on_a_sound_range_feels_nothing (void)
{
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_autoptr (HobCase) c = hob_case_new (range);
  g_autofree char *seen = NULL;

  g_assert_true (hob_case_do (c, "1s person=chassis", NULL));
  g_assert_true (hob_case_do (c, "2s oven.mode=bake", NULL));
  seen = symptoms_of (plan, book, c, 120);
  g_assert_cmpstr (seen, ==, "");
}

/* ---- Between parts and symptoms stands nothing but physics ---- */

/* A new name for every id of the range: "q" and a number without order. */
static GHashTable *
new_names (const HobRange *range, guint64 seed)
{
  GHashTable *names = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);

  for (int p = 0; p < range->n_parts; p++)
    g_hash_table_insert (names, range->parts[p].id,
                         g_strdup_printf ("q%08x", (guint) (hob_hash_mix (seed, 1, (guint64) p) >> 32)));
  return names;
}

/* @name with the part's id before the first of @ends exchanged. (transfer full) */
static char *
renamed (GHashTable *names, const char *name, const char *ends)
{
  gsize length = strcspn (name, ends);
  g_autofree char *id = g_strndup (name, length);
  const char *to = g_hash_table_lookup (names, id);

  return to != NULL ? g_strconcat (to, name + length, NULL) : g_strdup (name);
}

static gboolean
rename_attribute (const GMatchInfo *match, GString *out, gpointer user)
{
  g_autofree char *attribute = g_match_info_fetch (match, 1), *value = g_match_info_fetch (match, 2);
  g_autofree char *to = renamed (user, value, ".");

  g_string_append_printf (out, " %s=\"%s\"", attribute, to);
  return FALSE;
}

static HobRange *
load_renamed (const char *name, GHashTable *names)
{
  g_autofree char *file = hob_range_locate (name), *text = NULL, *other = NULL;
  g_autoptr (GRegex) regex = g_regex_new (" (id|in|moved-by|from|to)=\"([^\"]*)\"", 0, 0, NULL);
  g_autoptr (GError) error = NULL;
  HobRange *range;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  other = g_regex_replace_eval (regex, text, -1, 0, 0, rename_attribute, names, NULL);
  range = hob_range_load_memory (other, strlen (other), "renamed.xml", NULL, &error);
  g_assert_no_error (error);
  return range;
}

/* The same acts, faults and settings, said in the other range's names. */
static HobCase *
case_renamed (const HobCase *c, const HobRange *other, GHashTable *names)
{
  HobCase *to = hob_case_new (other);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < c->acts->len; i++)
    {
      const HobAct *act = &g_array_index (c->acts, HobAct, i);
      g_autofree char *text = hob_act_text (c->range, act), *name = renamed (names, text, ".:=");

      if (act->what == HOB_ACT_CONTROL)
        {
          g_autofree char *word = g_strdup_printf ("%d.%03ds %s", (int) (act->ms / 1000), (int) (act->ms % 1000), name);

          hob_case_do (to, word, &error);
        }
      else if (act->what == HOB_ACT_SETTING)
        hob_case_setting (to, name, &error);
      else
        hob_case_fault (to, name, &error);
      g_assert_no_error (error);
    }
  to->seed = c->seed;
  return to;
}

/* Every fault of both ranges, in the procedures that are short or that call the oven. */
static void
renamed_ranges_show_the_same (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  static const char *const procedures[] = { "all-off-1min", "light-knob-lf", "bake-350" };
  guint shown = 0;

  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    {
      g_autoptr (HobRange) range = load (ranges[r]), other = NULL;
      g_autoptr (GHashTable) names = new_names (range, (guint64) g_test_rand_int ());
      g_autoptr (HobPlan) plan = hob_plan_new (range), twin = NULL;

      other = load_renamed (ranges[r], names);
      twin = hob_plan_new (other);
      for (int p = 0; p < range->n_parts; p++)
        for (int f = 0; f < range->parts[p].kind->n_faults; f++)
          for (guint k = 0; k < G_N_ELEMENTS (procedures) && hob_range_has_fault (range, p, f); k++)
            {
              g_autofree char *word = g_strdup_printf ("%s:%s", range->parts[p].id, range->parts[p].kind->faults[f].id);
              const char *words[] = { word, NULL };
              double until = 0;
              g_autoptr (HobCase) c = case_of (range, procedures[k], words, &until);
              g_autoptr (HobCase) d = case_renamed (c, other, names);
              g_autofree char *here = NULL, *there = NULL;

              until = MIN (until, 1500);
              here = symptoms_of (plan, book, c, until);
              there = symptoms_of (twin, book, d, until);
              shown += *here != '\0';
              g_assert_cmpstr (there, ==, here);
            }
    }
  g_assert_cmpuint (shown, >, 30);
}

/* The words of a file: letters, digits and '-' together. */
static GHashTable *
words_of (const char *file)
{
  GHashTable *words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  g_autofree char *text = NULL;

  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  for (const char *p = text; *p != '\0';)
    {
      gsize n = strspn (p, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_");

      if (n > 0)
        g_hash_table_add (words, g_strndup (p, n));
      p += MAX (n, 1);
    }
  return words;
}

static GPtrArray *
files_in (const char *folder)
{
  g_autofree char *path = g_build_filename (HOB_SOURCE_DIR, folder, NULL);
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  GPtrArray *files = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_assert_nonnull (dir);
  while ((name = g_dir_read_name (dir)) != NULL)
    g_ptr_array_add (files, g_build_filename (path, name, NULL));
  g_assert_cmpuint (files->len, >, 0);
  return files;
}

static void
no_part_knows_a_symptom (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_autoptr (GPtrArray) files = files_in ("src/parts");

  for (guint i = 0; i < files->len; i++)
    {
      g_autoptr (GHashTable) words = words_of (files->pdata[i]);

      for (int s = 0; s < hob_symptom_book_size (book); s++)
        if (g_hash_table_contains (words, hob_symptom_book_get (book, s)->id))
          {
            g_test_message ("%s names %s", (char *) files->pdata[i], hob_symptom_book_get (book, s)->id);
            g_test_fail ();
          }
    }
}

/* A fault whose id is an everyday word ("open") may stand in a sentence, but nowhere in quotes of its own. */
static gboolean
names_fault (const char *file, GHashTable *words, const char *id)
{
  g_autofree char *text = NULL, *quoted = g_strdup_printf ("\"%s\"", id);

  if (strchr (id, '-') != NULL)
    return g_hash_table_contains (words, id);
  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return strstr (text, quoted) != NULL;
}

static void
no_symptom_knows_a_fault (void)
{
  g_autoptr (GPtrArray) files = files_in ("src/symptoms");

  g_ptr_array_add (files, g_build_filename (HOB_SOURCE_DIR, "data", "symptoms.xml", NULL));
  for (guint i = 0; i < files->len; i++)
    {
      g_autoptr (GHashTable) words = words_of (files->pdata[i]);

      for (int k = 0; hob_kinds[k] != NULL; k++)
        for (int f = 0; f < hob_kinds[k]->n_faults; f++)
          if (names_fault (files->pdata[i], words, hob_kinds[k]->faults[f].id))
            {
              g_test_message ("%s names %s", (char *) files->pdata[i], hob_kinds[k]->faults[f].id);
              g_test_fail ();
            }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/symptoms/ranges/sound-ones-show-nothing-in-any-procedure", sound_ranges_show_nothing_in_any_procedure);
  g_test_add_func ("/symptoms/ranges/what-is-wrong-shows", what_is_wrong_shows);
  g_test_add_func ("/symptoms/ranges/gas-that-has-gathered-goes-off-with-a-thump",
                   gas_that_has_gathered_goes_off_with_a_thump);
  g_test_add_func ("/symptoms/ranges/a-live-chassis-tingles", a_live_chassis_tingles);
  g_test_add_func ("/symptoms/ranges/a-hand-on-a-sound-one-feels-nothing", a_hand_on_a_sound_range_feels_nothing);
  g_test_add_func ("/symptoms/ranges/renamed-ones-show-the-same", renamed_ranges_show_the_same);
  g_test_add_func ("/symptoms/ranges/no-part-knows-a-symptom", no_part_knows_a_symptom);
  g_test_add_func ("/symptoms/ranges/no-symptom-knows-a-fault", no_symptom_knows_a_fault);
  return g_test_run ();
}
