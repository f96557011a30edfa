/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Symptoms of the shipped ranges: none while they are sound, the right ones from physics when
 * something is wrong, and no way from a fault to a symptom but through the parts. */

#include "config.h"
#include "renamed.h"
#include "shipped.h"
#include "symptoms/symptoms.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

/* ---- Faults ---- */

static const struct
{
  const char *range, *procedure;
  const char *what[4];
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
  { "dial-four", "light-knob-lf", { "house.minerals=0.6" }, "flame-orange" },
  { "dial-four", "bake-350", { "cavity.oil=1" }, "smells-of-oil" },
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
  { "dial-four", "all-off-1min", { "switch-lf:wet" }, "sparks-slow" },
  { "dial-four", "light-knob-lf", { "valve-lf:stuck-closed" }, "sparks-but-no-light" },
  { "dial-four", "light-knob-lf", { "valve-lf:stuck-closed" }, "no-flame-top" },
  { "dial-four", "light-knob-lf", { "regulator:set-low=1" }, "flame-small" },
  { "dial-four", "light-knob-lf", { "burner-lf:ports-blocked" }, "flame-large" },
  { "dial-four", "everything-on", { "house:gas-starved" }, "flame-sinks" },
  { "dial-four", "bake-350", { "burner-bake:orifice-for-lp" }, "oven-flame-small" },
  { "lp-four", "light-knob-lf", { "burner-lf:cap-large" }, "yellow-tips" },
  { "round-dial", "light-knob-lf", { "burner-lf:shutter-closed" }, "yellow-flame" },
  { "round-dial", "light-knob-lf", { "burner-lf:shutter-open" }, "flame-lifts" },
  { "dial-four", "light-knob-lf", { "burner-lf:ports-blocked" }, "ring-partial" },
  { "dial-four", "light-knob-lf", { "valve-lf:low-too-low" }, "ring-partial-low" },
  { "dial-four", "light-knob-rf", { "valve-rf:low-too-low" }, "goes-out-low" },
  { "round-dial", "light-knob-lf", { "burner-lf:shutter-open=0.05" }, "pops-off" },
  { "round-dial", "light-knob-lf", { "burner-lf:shutter-open" }, "flashback" },
  { "dial-four", "all-off-1min", { "valve-lf:leaks" }, "gas-without-call" },
  { "dial-four", "all-off-1min", { "connector:leaks" }, "gas-smell-behind" },
  { "dial-four", "bake-350", { "cord:line-blade-burned=1" }, "glow-dull" },
  { "round-dial", "bake-350", { "receptacle:low-volts" }, "lights-slowly" },
  { "dial-four", "bake-350", { "oven:contact-burned" }, "hot-joint" },
  { "round-dial", "bake-350", { "splice-bake:burned=0.5" }, "joint-brown" },
  { "dial-four", "bake-350", { "igniter-bake:plug-burned=0.5" }, "joint-brown" },
  { "dial-four", "bake-350", { "cord:line-blade-burned=0.5" }, "joint-smokes" },
  { "dial-four", "broil", { "igniter-broil:open" }, "broil-no-heat" },
  { "dial-four", "bake-350", { "igniter-bake:out-of-place=1" }, "late-light-thump" },
  { "dial-four", "bake-350", { "igniter-bake:out-of-place" }, "late-light-whoosh" },
  { "dial-four", "bake-350", { "burner-bake:ports-clogged=0.6" }, "late-light-puff" },
  { "dial-four", "bake-350", { "cavity:bottom-covered" }, "yellow-flame" },
  { "dial-four", "bake-350", { "cavity:vent-covered=1" }, "alarm-sounds" },
  { "dial-four", "bake-350", { "cavity:vent-covered=1" }, "headache" },
  { "lp-four", "bake-350", { "burner-bake:orifice-for-natural", "oven:contact-welded" },
    "passes-out" },
  { "dial-four", "everything-on", { "valve-bake:stuck-open", "valve-broil:stuck-open" },
    "late-light-explosion" },
  { "dial-four", "light-knob-lf", { "burner-lf:port-clogged=0.7" }, "late-light-puff" },
  { "dial-four", "light-knob-lf", { "burner-lf:port-clogged=0.9" }, "late-light-whoosh" },
  { "dial-four", "everything-on", { "valve-bake:slow-to-close" }, "flame-lingers" },
  { "board-five", "bake-350", { "oven:contact-welded" }, "heats-when-off" },
  { "dial-four", "bake-350", { "oven:selector-welded" }, "heats-when-off" },
  { "dial-four", "bake-350", { "burner-bake:orifice-clogged" }, "slow-preheat" },
  { "board-five", "convection-350", { "oven:relay-open" }, "never-reaches" },
  { "round-dial", "bake-350", { "splice-bake:burned=0.5" }, "goes-dead-hot" },
  { "board-five", "bake-350", { "sensor:plug-corroded" }, "runs-cool" },
  { "board-five", "bake-350", { "oven:reads-low" }, "runs-hot" },
  { "dial-four", "bake-350", { "bulb:near-door" }, "wide-swing" },
  { "dial-four", "bake-350", { "cavity:bottom-covered" }, "bakes-unevenly" },
  { "convection-fan", "convection-350", { "fan:seized" }, "convection-uneven" },
  { "dial-four", "bake-350", { "door:gasket-torn" }, "heat-at-door" },
  { "dial-four", "bake-350", { "cavity:vent-covered" }, "vent-weak" },
  { "dial-four", "bake-350", { "cavity:vent-covered" }, "flames-roll-out" },
  { "board-five", "all-off-1min", { "oven:dead" }, "display-dark" },
  { "board-five", "bake-350", { "sensor:open" }, "display-sensor-open" },
  { "board-five", "bake-350", { "sensor:shorted" }, "display-sensor-shorted" },
  { "convection-fan", "bake-350", { "oven:contact-welded" }, "display-too-hot" },
  { "board-five", "bake-350", { "oven:contact-welded" }, "display-too-hot" },
  { "board-five", "all-off-1min", { "door-switch:stuck-closed" }, "display-door" },
  { "board-five", "all-off-1min", { "door-switch:stuck-closed" }, "light-stays-on" },
  { "board-five", "convection-350", { "fan:seized" }, "fan-silent" },
  { "board-five", "door-open", { "light:open" }, "light-dark" },
  { "board-five", "convection-350", { "element:open" }, "element-cold" },
  { "board-five", "door-open", { "house:neutral-open" }, "light-bright" },
  { "dial-four", "bake-350", { "breaker:weak" }, "breaker-trips" },
  { "reignite-six", "all-off-1min", { "switch-lf:wet-to-stem" }, "interrupter-trips" },
  { "dial-four", "person-chassis",
    { "switch-lf:wet-to-stem=0.3", "receptacle:ground-open", "house:pipe-not-grounded" },
    "tingle" },
  { "dial-four", "person-chassis",
    { "switch-lf:wet-to-stem", "receptacle:ground-open", "house:pipe-not-grounded" }, "shock" },
  { "board-five", "bake-350", { "cord:neutral-blade-burned=0.5" }, "display-outage" },
  { "dial-four", "person-chassis", { "receptacle:reversed", "receptacle:bootleg-ground" },
    "shock-held" },
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
shows (const HobBench *idle, guint i)
{
  double until = 0;
  g_autoptr (HobCase) c
      = case_with (hob_bench_range (idle), known[i].procedure, known[i].what, &until);
  g_autofree char *seen = symptoms_of (idle, c, until);
  g_autofree char *line = g_strdup_printf ("\n%s", seen),
                  *wanted = g_strdup_printf ("\n%s ", known[i].shows);

  if (strstr (line, wanted) == NULL)
    {
      g_test_message ("%s, %s, %s: no %s among: %s", known[i].range, known[i].procedure,
                      known[i].what[0], known[i].shows, seen);
      g_test_fail ();
    }
}

static void
what_is_wrong_shows (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();

  for (int r = 0; ranges[r] != NULL; r++)
    {
      g_autoptr (HobRange) range = shipped_range (ranges[r]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);

      for (guint i = 0; i < G_N_ELEMENTS (known); i++)
        if (g_str_equal (known[i].range, ranges[r]))
          shows (idle, i);
    }
}

/* Is there a shipped range in which a fault, or two, and nothing else show symptom @id?  Whether
 * they do is asked above. */
static gboolean
is_shown_by_a_fault (const char *id)
{
  for (guint i = 0; i < G_N_ELEMENTS (known); i++)
    {
      gboolean faults = TRUE;

      for (int k = 0; known[i].what[k] != NULL; k++)
        faults = faults && strchr (known[i].what[k], ':') != NULL;
      if (faults && g_str_equal (known[i].shows, id))
        return TRUE;
    }
  return FALSE;
}

/* What the house, or being new, brings about: no fault of a range shows it, and none should. */
static gboolean
is_no_fault (const char *id)
{
  static const char *const house[] = { "flame-orange", "flame-wavers", "smells-of-oil", NULL };

  return g_strv_contains (house, id);
}

static void
every_symptom_has_a_fault_that_shows_it (void)
{
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);

  g_assert_cmpint (hob_symptom_book_size (book), >=, 35);
  for (int s = 0; s < hob_symptom_book_size (book); s++)
    if (is_no_fault (hob_symptom_book_get (book, s)->id)
        == is_shown_by_a_fault (hob_symptom_book_get (book, s)->id))
      {
        g_test_message ("no fault of a shipped range is said to show %s",
                        hob_symptom_book_get (book, s)->id);
        g_test_fail ();
      }
}

/* Set lower while it is hot, turned on again while it is, and left as it is after an outage, of
 * which a control may speak that has forgotten what it did. */
static void
a_hot_oven_set_lower_is_silent (void)
{
  static const char *const acts[][5] = {
    { "0s oven.dial=550 degF", "10s oven.mode=bake", "1h oven.dial=250 degF" },
    { "0s oven.dial=550 degF", "10s oven.mode=bake", "1h oven.mode=off",
      "61min oven.dial=250 degF", "62min oven.mode=bake" },
    { "10s oven.mode=bake", "20min cord.plug=out", "21min cord.plug=in" },
  };
  g_auto (GStrv) names = shipped_ranges ();

  for (int r = 0; names[r] != NULL; r++)
    for (guint k = 0; k < G_N_ELEMENTS (acts); k++)
      {
        g_autoptr (HobRange) range = shipped_range (names[r]);
        g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
        g_autoptr (HobCase) c = hob_case_new (range);
        g_autofree char *seen = NULL;

        for (guint i = 0; i < G_N_ELEMENTS (acts[k]) && acts[k][i] != NULL; i++)
          g_assert_true (hob_case_do (c, acts[k][i], NULL));
        seen = symptoms_of (idle, c, 10800);
        if (*seen == '\0' || (g_str_has_prefix (seen, "display-outage ")
                              && strchr (seen, '\n') == strrchr (seen, '\n')))
          continue;
        g_test_message ("%s, %s: %s", names[r], acts[k][2], seen);
        g_test_fail ();
      }
}

/* The element behind the wall warms an oven whose burner never lit: it stays short of its set
 * temperature, but a flame that never was can't be said to have gone. */
static void
without_a_flame_at_all_no_oven_goes_dead (void)
{
  static const char *const faults[][2]
      = { { "convection-fan", "oven:line-relay-open" }, { "board-five", "oven:relay-open" },
          { "board-five", "igniter-bake:aged=1" } };

  for (guint k = 0; k < G_N_ELEMENTS (faults); k++)
    {
      g_autoptr (HobRange) range = shipped_range (faults[k][0]);
      g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
      double until = 0;
      g_autoptr (HobCase) c = case_with (range, "convection-350",
                                         (const char *const[]){ faults[k][1], NULL }, &until);
      g_autofree char *seen = symptoms_of (idle, c, until);

      g_test_message ("%s, %s: %s", faults[k][0], faults[k][1], seen);
      g_assert_nonnull (strstr (seen, "never-reaches"));
      g_assert_null (strstr (seen, "goes-dead-hot"));
    }
}

/* Gas that has flowed for half a minute goes off with the first spark; lit at once, it does not. */
static void
gas_that_has_gathered_goes_off_with_a_whoosh (void)
{
  static const char *const acts[][3]
      = { { "0s knob-lf=high", "30s knob-lf=light" }, { "30s knob-lf=light" } };
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);

  for (int k = 0; k < 2; k++)
    {
      g_autoptr (HobCase) c = hob_case_new (range);
      g_autofree char *seen = NULL;

      for (int i = 0; acts[k][i] != NULL; i++)
        g_assert_true (hob_case_do (c, acts[k][i], NULL));
      seen = symptoms_of (idle, c, 40);
      g_assert_cmpint (strstr (seen, "late-light-whoosh") != NULL, ==, k == 0);
    }
}

/* The smallest range with a live chassis: the line reaches it through a lamp, and no ground leads
 * away. */
static const char live[]
    = "<range format=\"1\" id=\"live\" name=\"Live chassis\" plate=\"natural-gas\">"
      "<part id=\"h\" kind=\"house\"/><part id=\"l\" kind=\"light\"/><part id=\"c\" "
      "kind=\"chassis\"/>"
      "<part id=\"p\" kind=\"person\"/><part id=\"j\" kind=\"junction\"/>"
      "<wire id=\"w1\" from=\"h.line\" to=\"l.a\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w2\" from=\"l.b\" to=\"c.body\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 m\"/>"
      "<wire id=\"w3\" from=\"p.hand\" to=\"c.body\" colour=\"BK\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>"
      "<wire id=\"w4\" from=\"h.neutral\" to=\"j.at\" colour=\"WH\" gauge=\"14 AWG\" length=\"1 "
      "m\"/>"
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

  for (int k = 0; k < 2; k++)
    {
      g_autoptr (HobRange) range
          = hob_range_load_memory (files[k], strlen (files[k]), "live.xml", NULL, &error);
      g_autoptr (HobBench) idle = NULL;
      g_autoptr (HobCase) c = NULL;
      g_autofree char *seen = NULL;

      g_assert_no_error (error);
      idle = hob_bench_new (NULL, range, NULL, NULL);
      c = hob_case_new (range);
      g_assert_true (hob_case_do (c, "1s p=chassis", NULL));
      seen = symptoms_of (idle, c, 5);
      if (k == 0)
        g_assert_true (g_str_has_prefix (seen, "shock-held 1.2"));
      else
        g_assert_cmpstr (seen, ==, "");
    }
}

static void
a_hand_on_a_sound_range_feels_nothing (void)
{
  g_autoptr (HobRange) range = shipped_range ("dial-four");
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL);
  g_autoptr (HobCase) c = hob_case_new (range);
  g_autofree char *seen = NULL;

  g_assert_true (hob_case_do (c, "1s person=chassis", NULL));
  g_assert_true (hob_case_do (c, "2s oven.mode=bake", NULL));
  seen = symptoms_of (idle, c, 120);
  g_assert_cmpstr (seen, ==, "");
}

/* ---- Between parts and symptoms stands nothing but physics ---- */

/* Every fault, in the procedures that are short or that call the oven. */
static void
renamed_ranges_show_the_same (void)
{
  static const char *const procedures[] = { "all-off-1min", "light-knob-lf", "bake-350" };
  guint shown = 0;
  g_autofree char *text = shipped_range_text ("board-five");
  g_autoptr (HobRange) range = shipped_range ("board-five"), other = NULL;
  g_autoptr (GHashTable) names = renamed_ids (range, (guint64) g_test_rand_int ());
  g_autoptr (HobBench) idle = hob_bench_new (NULL, range, NULL, NULL), twin = NULL;

  other = renamed_range (text, names);
  twin = hob_bench_new (NULL, other, NULL, NULL);
  for (int p = 0; p < range->n_parts; p++)
    for (int f = 0; f < range->parts[p].kind->n_faults; f++)
      for (guint k = 0; k < G_N_ELEMENTS (procedures) && hob_range_has_fault (range, p, f); k++)
        {
          g_autofree char *word
              = g_strdup_printf ("%s:%s", range->parts[p].id, range->parts[p].kind->faults[f].id);
          const char *words[] = { word, NULL };
          double until = 0;
          g_autoptr (HobCase) c = case_of (range, procedures[k], words, &until);
          g_autoptr (HobCase) d = renamed_case (c, other, names);
          g_autofree char *here = NULL, *there = NULL;

          until = MIN (until, 1500);
          here = symptoms_of (idle, c, until);
          there = symptoms_of (twin, d, until);
          shown += *here != '\0';
          g_assert_cmpstr (there, ==, here);
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

/* An id that is an everyday word ("open", "overheats") may be in a sentence, but nowhere in quotes
 * of its own. */
static gboolean
names_id (const char *file, GHashTable *words, const char *id)
{
  g_autofree char *text = NULL, *quoted = g_strdup_printf ("\"%s\"", id);

  if (strchr (id, '-') != NULL)
    return g_hash_table_contains (words, id);
  g_assert_true (g_file_get_contents (file, &text, NULL, NULL));
  return strstr (text, quoted) != NULL;
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
        if (names_id (files->pdata[i], words, hob_symptom_book_get (book, s)->id))
          {
            g_test_message ("%s names %s", (char *) files->pdata[i],
                            hob_symptom_book_get (book, s)->id);
            g_test_fail ();
          }
    }
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
          if (names_id (files->pdata[i], words, hob_kinds[k]->faults[f].id))
            {
              g_test_message ("%s names %s", (char *) files->pdata[i], hob_kinds[k]->faults[f].id);
              g_test_fail ();
            }
    }
}

/* Before anything is turned on, whatever has a temperature has that of the kitchen: each igniter,
 * each connection, the oven and its walls. */
static void
at_first_all_is_as_warm_as_the_kitchen (void)
{
  g_auto (GStrv) names = shipped_ranges ();

  for (int r = 0; names[r] != NULL; r++)
    {
      g_autoptr (HobRange) range = shipped_range (names[r]);
      g_autoptr (HobCase) acts = hob_case_new (range);
      g_autoptr (HobBench) cold = NULL;
      g_autoptr (HobMoment) m = NULL;
      guint n = 0;

      g_assert_true (hob_case_setting (acts, "house.temperature=283 K", NULL));
      cold = hob_bench_new (NULL, range, acts, NULL);
      m = hob_moment_new (cold->plan);
      g_assert_cmpint (hob_bench_advance (cold, 0, NULL), ==, HOB_RUN_OK);
      g_assert_true (hob_run_read (cold->run, 0, m));
      for (int p = 0; p < range->n_parts; p++)
        for (int k = 0; k < range->parts[p].kind->n_states; k++)
          if (range->parts[p].kind->states[k].dim == HOB_DIM_TEMPERATURE)
            {
              n++;
              if (fabs (hob_moment_part (m, p)->y[k] - 283) > 1e-6)
                g_error ("%s, %s of %s: %g K", names[r], range->parts[p].kind->states[k].name,
                         range->parts[p].id, hob_moment_part (m, p)->y[k]);
            }
      g_assert_cmpuint (n, >, 10);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/symptoms/ranges/what-is-wrong-shows", what_is_wrong_shows);
  g_test_add_func ("/symptoms/ranges/every-symptom-has-a-fault-that-shows-it",
                   every_symptom_has_a_fault_that_shows_it);
  g_test_add_func ("/symptoms/ranges/a-hot-oven-set-lower-is-silent",
                   a_hot_oven_set_lower_is_silent);
  g_test_add_func ("/symptoms/ranges/without-a-flame-at-all-none-goes-dead",
                   without_a_flame_at_all_no_oven_goes_dead);
  g_test_add_func ("/symptoms/ranges/gas-that-has-gathered-goes-off-with-a-whoosh",
                   gas_that_has_gathered_goes_off_with_a_whoosh);
  g_test_add_func ("/symptoms/ranges/a-live-chassis-tingles", a_live_chassis_tingles);
  g_test_add_func ("/symptoms/ranges/a-hand-on-a-sound-one-feels-nothing",
                   a_hand_on_a_sound_range_feels_nothing);
  g_test_add_func ("/symptoms/ranges/at-first-all-is-as-warm-as-the-kitchen",
                   at_first_all_is_as_warm_as_the_kitchen);
  g_test_add_func ("/symptoms/ranges/renamed-ones-show-the-same", renamed_ranges_show_the_same);
  g_test_add_func ("/symptoms/ranges/no-part-knows-a-symptom", no_part_knows_a_symptom);
  g_test_add_func ("/symptoms/ranges/no-symptom-knows-a-fault", no_symptom_knows_a_fault);
  return g_test_run ();
}
