/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Cases from words, acts back to words, and the procedures that a range's own controls give. */

#include "base/errors.h"
#include "run/case-file.h"
#include "run/case-options.h"
#include "run/run.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

static HobRange *
load (const char *name)
{
  g_autofree char *file = hob_range_locate (name);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

static const HobAct *
act (const HobCase *c, guint index)
{
  g_assert_cmpuint (index, <, c->acts->len);
  return &g_array_index (c->acts, HobAct, index);
}

/* ---- Words that are understood ---- */

typedef gboolean (*Reader) (HobCase *c, const char *text, GError **error);

static const struct
{
  Reader read;
  const char *text;
  HobActWhat what;
  gint64 ms;
  double value;
  const char *printed;
} understood[] = {
  { hob_case_do, "0s oven.mode=bake", HOB_ACT_CONTROL, 0, 1, "oven.mode=bake" },
  { hob_case_do, "  1.5 min   knob-lf=light", HOB_ACT_CONTROL, 90000, 20, "knob-lf=light" },
  { hob_case_do, "60 knob-lf=62 %", HOB_ACT_CONTROL, 60000, 62, "knob-lf=62 %" },
  { hob_case_do, "0.0004s knob-lf=off", HOB_ACT_CONTROL, 0, 0, "knob-lf=off" },
  { hob_case_do, "10s knob-lf:=low", HOB_ACT_CONTROL, 10000, 100, "knob-lf:=low" },
  { hob_case_do, "10s oven.mode:=bake", HOB_ACT_CONTROL, 10000, 1, "oven.mode=bake" },
  { hob_case_do, "2h oven.dial=350 degF", HOB_ACT_CONTROL, 7200000, (350 + 459.67) / 1.8,
    "oven.dial=350 degF" },
  { hob_case_do, "0s cord.plug=out", HOB_ACT_CONTROL, 0, 0, "cord.plug=out" },
  { hob_case_fault, "igniter-bake:aged", HOB_ACT_FAULT, 0, 0.5, "igniter-bake:aged=0.5" },
  { hob_case_fault, "igniter-bake:aged=0.25@90s", HOB_ACT_FAULT, 90000, 0.25,
    "igniter-bake:aged=0.25" },
  { hob_case_fault, "igniter-bake:aged=40 %@1 min", HOB_ACT_FAULT, 60000, 0.4,
    "igniter-bake:aged=0.4" },
  { hob_case_fault, "igniter-bake:open", HOB_ACT_FAULT, 0, 1, "igniter-bake:open" },
  { hob_case_fault, "igniter-bake:open=0@5s", HOB_ACT_LIFT, 5000, 0, "igniter-bake:open=0" },
  { hob_case_setting, "receptacle.volts=110 V", HOB_ACT_SETTING, 0, 110, "receptacle.volts=110 V" },
  { hob_case_setting, "house.temperature=59 degF", HOB_ACT_SETTING, 0, 288.15,
    "house.temperature=288.15 K" },
  { hob_case_setting, "house.fuel=lp", HOB_ACT_SETTING, 0, 1, "house.fuel=lp" },
  { hob_case_setting, "house.gas-pipe-ohms=open", HOB_ACT_SETTING, 0, INFINITY,
    "house.gas-pipe-ohms=open" },
  { hob_case_setting, "receptacle.volts=108 V@10min", HOB_ACT_SETTING, 600000, 108,
    "receptacle.volts=108 V" },
  { hob_case_setting, "house.humidity=80 %@0", HOB_ACT_SETTING, 0, 0.8, "house.humidity=0.8" },
};

static void
words_become_acts_and_acts_words (void)
{
  g_autoptr (HobRange) range = load ("dial-four");

  for (guint i = 0; i < G_N_ELEMENTS (understood); i++)
    {
      g_autoptr (HobCase) c = hob_case_new (range);
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL;

      understood[i].read (c, understood[i].text, &error);
      g_assert_no_error (error);
      g_assert_cmpuint (c->acts->len, ==, 1);
      g_assert_cmpint (act (c, 0)->what, ==, understood[i].what);
      g_assert_cmpint (act (c, 0)->ms, ==, understood[i].ms);
      if (isinf (understood[i].value))
        g_assert_true (isinf (act (c, 0)->value));
      else
        g_assert_cmpfloat_with_epsilon (act (c, 0)->value, understood[i].value, 1e-9);
      text = hob_act_text (range, act (c, 0));
      g_assert_cmpstr (text, ==, understood[i].printed);
    }
}

/* Acts that leave a control where it is from the start are left out, later ones are not. */
static void
what_changes_nothing_is_left_out (void)
{
  static const char *const acts[]
      = { "0s oven.dial=350 degF", "0s oven.mode=off", "1s oven.mode=bake", "9s oven.dial=400 degF",
          "20s oven.dial=350 degF", "30s oven.mode=off" };
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobCase) c = hob_case_new (range);
  g_autoptr (HobCase) same = NULL;

  for (guint k = 0; k < G_N_ELEMENTS (acts); k++)
    g_assert_true (hob_case_do (c, acts[k], NULL));
  same = hob_case_effective (c);
  g_assert_cmpuint (c->acts->len, ==, 6);
  g_assert_cmpuint (same->acts->len, ==, 4);
  for (guint k = 0; k < same->acts->len; k++)
    g_assert_true (hob_act_same (act (same, k), act (c, k + 2)));
}

/* ---- Words that are refused ---- */

static const struct
{
  Reader read;
  const char *text;
  HobError code;
  const char *says;
} refused[] = {
  { hob_case_do, "", HOB_ERROR_USAGE, "TIME CONTROL=POSITION" },
  { hob_case_do, "oven.mode=bake", HOB_ERROR_USAGE, "TIME CONTROL=POSITION" },
  { hob_case_do, "0s =bake", HOB_ERROR_USAGE, "TIME CONTROL=POSITION" },
  { hob_case_do, "0s :=bake", HOB_ERROR_USAGE, "TIME CONTROL=POSITION" },
  { hob_case_do, "0s oven.mode", HOB_ERROR_USAGE, "TIME CONTROL=POSITION" },
  { hob_case_do, "-1s oven.mode=bake", HOB_ERROR_VALUE, "not a valid time" },
  { hob_case_do, "1,5s oven.mode=bake", HOB_ERROR_VALUE, "decimal point" },
  { hob_case_do, "nan oven.mode=bake", HOB_ERROR_VALUE, "number" },
  { hob_case_do, "1e300s oven.mode=bake", HOB_ERROR_VALUE, "1,000 h" },
  { hob_case_do, "5V oven.mode=bake", HOB_ERROR_VALUE, "unit" },
  { hob_case_do, "0s oven.mod=bake", HOB_ERROR_NAME, "oven.mode" },
  { hob_case_do, "0s oven.mode=bakke", HOB_ERROR_VALUE, "bake" },
  { hob_case_do, "0s oven.dial=350", HOB_ERROR_VALUE, "without a unit" },
  { hob_case_do, "0s oven.dial=900 degF", HOB_ERROR_VALUE, "too low or too high" },
  { hob_case_do, "0s knob-lf=101", HOB_ERROR_VALUE, "too low or too high" },
  { hob_case_fault, "igniter-bake", HOB_ERROR_USAGE, "PART:FAULT" },
  { hob_case_fault, "igniter-bake:age", HOB_ERROR_NAME, "igniter-bake:aged" },
  { hob_case_fault, "igniter-bake:aged=1.01", HOB_ERROR_VALUE, "0 to 1" },
  { hob_case_fault, "igniter-bake:aged=x", HOB_ERROR_VALUE, "number" },
  { hob_case_fault, "igniter-bake:open=0.5", HOB_ERROR_VALUE, "has no severity" },
  { hob_case_fault, "igniter-bake:aged@", HOB_ERROR_VALUE, "number" },
  { hob_case_fault, "igniter-bake:aged@20s..10s", HOB_ERROR_VALUE, "later time" },
  { hob_case_fault, "igniter-bake:aged@20s..20s", HOB_ERROR_VALUE, "later time" },
  { hob_case_fault, "igniter-bake:aged@20s..", HOB_ERROR_VALUE, "number" },
  { hob_case_fault, "igniter-bake:aged@..20s", HOB_ERROR_VALUE, "number" },
  { hob_case_fault, "igniter-bake:aged@1s..2s..3s", HOB_ERROR_VALUE, "unit" },
  { hob_case_setting, "receptacle.volts=108 V@", HOB_ERROR_VALUE, "number" },
  { hob_case_setting, "receptacle.volts=108 V@-1s", HOB_ERROR_VALUE, "not a valid time" },
  { hob_case_setting, "receptacle.volts=108 V@1s..2s", HOB_ERROR_VALUE, "unit" },
  { hob_case_setting, "receptacle.volts@10min", HOB_ERROR_USAGE, "PART.NAME=VALUE" },
  { hob_case_setting, "receptacle.volts", HOB_ERROR_USAGE, "PART.NAME=VALUE" },
  { hob_case_setting, "receptacle.volt=110", HOB_ERROR_NAME, "receptacle.volts" },
  { hob_case_setting, "receptacle.volts=1,5", HOB_ERROR_VALUE, "decimal point" },
  { hob_case_setting, "receptacle.volts=1000 V", HOB_ERROR_VALUE, "too low or too high" },
  { hob_case_setting, "house.temperature=25", HOB_ERROR_VALUE, "without a unit" },
  { hob_case_setting, "house.fuel=butane", HOB_ERROR_VALUE, "natural-gas" },
};

static void
what_is_wrong_is_said_in_one_line (void)
{
  g_autoptr (HobRange) range = load ("dial-four");

  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autoptr (HobCase) c = hob_case_new (range);
      g_autoptr (GError) error = NULL;

      g_assert_false (refused[i].read (c, refused[i].text, &error));
      if (!g_error_matches (error, HOB_ERROR, (int) refused[i].code)
          || strstr (error->message, refused[i].says) == NULL)
        g_error ("'%s' says '%s'", refused[i].text, error->message);
      g_assert_null (strchr (error->message, '\n'));
      g_assert_cmpuint (c->acts->len, ==, 0);
    }
}

static void
newlines_in_a_word_stay_out_of_the_line (void)
{
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobCase) c = hob_case_new (range);
  g_autoptr (GError) error = NULL;

  g_assert_false (hob_case_do (c, "0s\noven\xff.mode", &error));
  g_assert_null (strchr (error->message, '\n'));
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
}

/* ---- Words that say when ---- */

static void
a_fault_that_ends_is_two_acts (void)
{
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobCase) c = hob_case_new (range);

  g_assert_true (hob_case_fault (c, "igniter-bake:aged=0.25@1 min..1.5 min", NULL));
  g_assert_true (hob_case_do (c, "70s oven.mode=bake", NULL));
  g_assert_cmpuint (c->acts->len, ==, 3);
  g_assert_cmpint (act (c, 0)->what, ==, HOB_ACT_FAULT);
  g_assert_cmpint (act (c, 0)->ms, ==, 60000);
  g_assert_cmpint (act (c, 2)->what, ==, HOB_ACT_LIFT);
  g_assert_cmpint (act (c, 2)->ms, ==, 90000);
}

/* Print, parse, print: the same text and the very same act, whatever its digits. */
static void
an_argument_gives_the_same_act (void)
{
  static const struct
  {
    Reader read;
    const char *text, *printed;
  } cases[] = {
    { hob_case_do, "1.5min knob-lf=light", "90 s knob-lf=light" },
    { hob_case_do, "0.25 s oven.dial=351.3 degF", NULL },
    { hob_case_do, "1s oven.dial=351.234567890123 degF", NULL },
    { hob_case_fault, "igniter-bake:open", "igniter-bake:open" },
    { hob_case_fault, "igniter-bake:aged=0.123456789012345@31.557min", NULL },
    { hob_case_fault, "igniter-bake:aged=0@5s", "igniter-bake:aged=0@5 s" },
    { hob_case_setting, "receptacle.volts=108 V@10min", "receptacle.volts=108 V@600 s" },
    { hob_case_setting, "house.temperature=59.77 degF", NULL },
    { hob_case_setting, "house.gas-pipe-ohms=open@1h", "house.gas-pipe-ohms=open@3600 s" },
    { hob_case_setting, "house.fuel=lp@3599999.999s", "house.fuel=lp@3599999.999 s" },
  };
  g_autoptr (HobRange) range = load ("dial-four");

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (HobCase) first = hob_case_new (range), again = hob_case_new (range);
      g_autoptr (GError) error = NULL;
      g_autofree char *text = NULL, *more = NULL;

      g_assert_true (cases[i].read (first, cases[i].text, NULL));
      text = hob_act_argument (range, act (first, 0));
      hob_case_add_argument (again, act (first, 0)->what, text, &error);
      g_assert_no_error (error);
      g_assert_true (hob_act_same (act (first, 0), act (again, 0)));
      more = hob_act_argument (range, act (again, 0));
      g_assert_cmpstr (text, ==, more);
      if (cases[i].printed != NULL)
        g_assert_cmpstr (text, ==, cases[i].printed);
    }
}

static guint64
hash_at (HobRun *run, HobMoment *moment, double t)
{
  hob_run_read (run, t, moment);
  return hob_moment_hash (moment);
}

static double
amps_at (HobRun *run, HobMoment *moment, double t)
{
  int part, quantity;

  g_assert_true (hob_range_find_quantity (hob_plan_range (hob_run_plan (run)),
                                          "igniter-bake.current", &part, &quantity, NULL));
  hob_run_read (run, t, moment);
  return hob_moment_quantity (moment, part, quantity);
}

/* @setting: what is set beside baking; NULL: nothing.  Runs to 300 s by steps of @every. */
static HobRun *
bake_with (HobPlan *plan, const char *setting, double every)
{
  g_autoptr (HobCase) c = hob_case_new (hob_plan_range (plan));
  HobRun *run;

  g_assert_true (hob_case_do (c, "0s oven.mode=bake", NULL));
  if (setting != NULL)
    g_assert_true (hob_case_setting (c, setting, NULL));
  run = hob_run_new (plan, c, NULL);
  for (double t = every; t < 300; t += every)
    g_assert_cmpint (hob_run_advance (run, t, NULL), ==, HOB_RUN_OK);
  g_assert_cmpint (hob_run_advance (run, 300, NULL), ==, HOB_RUN_OK);
  return run;
}

/* The house as it was until that time, another one behind it, and the same to the last bit however
 * often one asks on the way. */
static void
a_setting_acts_from_its_time_on (void)
{
  static const char *const settings[]
      = { "receptacle.volts=108 V@2min", "house.humidity=80 %@2min",
          "house.temperature=95 degF@2min" };
  g_autoptr (HobRange) range = load ("dial-four");
  HobPlan *plan = hob_plan_new (range);
  HobMoment *moment = hob_moment_new (plan);
  HobRun *plain = bake_with (plan, NULL, 300);

  for (guint i = 0; i < G_N_ELEMENTS (settings); i++)
    {
      HobRun *whole = bake_with (plan, settings[i], 300);
      HobRun *pieces = bake_with (plan, settings[i], 7);
      guint64 late = hash_at (whole, moment, 300);

      g_assert_cmphex (hash_at (whole, moment, 119), ==, hash_at (plain, moment, 119));
      g_assert_cmphex (late, !=, hash_at (plain, moment, 300));
      g_assert_cmphex (late, ==, hash_at (pieces, moment, 300));
      if (i == 0)
        {
          double before = amps_at (whole, moment, 119), after = amps_at (whole, moment, 250);

          g_test_message ("igniter: %.3f A at 120 V, %.3f A at 108 V", before, after);
          g_assert_cmpfloat (after, <, before);
        }
      hob_run_free (whole);
      hob_run_free (pieces);
    }
  hob_run_free (plain);
  hob_moment_free (moment);
  hob_plan_unref (plan);
}

/* ---- Options ---- */

/* What GLib says of wrong words becomes a sentence of ours that names the program. */
static void
wrong_options_are_refused_in_our_words (void)
{
  static const char *const said[][2] = {
    { "--frob", "walrus: '--frob' is not an option; see --help" },
    { "--do", "walrus: --do needs a value; write one after it" },
    { "--seed 1 --seed 2", "--seed is given twice; leave one out" },
  };

  for (guint k = 0; k < G_N_ELEMENTS (said); k++)
    {
      g_autoptr (HobCaseOptions) options = hob_case_options_new ();
      g_autoptr (GOptionContext) context = g_option_context_new (NULL);
      g_autofree char *line = g_strconcat ("walrus ", said[k][0], NULL);
      g_auto (GStrv) words = g_strsplit (line, " ", -1);
      g_autoptr (GError) error = NULL;

      g_option_context_add_group (context, hob_case_options_group (options, "walrus"));
      g_assert_false (hob_case_options_refused (options));
      g_assert_false (g_option_context_parse_strv (context, &words, &error));
      g_assert_true (hob_case_options_refused (options));
      g_assert_nonnull (strstr (error->message, said[k][1]));
    }
}

/* ---- Case files ---- */

#define CASE(inside) "<case format=\"1\" range=\"dial-four\" seed=\"7\">" inside "</case>"

static HobCaseFile *
parse_case (const char *text, GPtrArray *findings, GError **error)
{
  return hob_case_load_memory (text, strlen (text), "case.xml", findings, error);
}

/* An element says what the option of its name says, and what is written gives it all again. */
static void
a_case_file_is_the_command_line (void)
{
  static const char text[]
      = CASE ("\n<setting value='house.temperature=59.77 degF@2min'/>\n"
              "<fault value='igniter-bake:aged=0.123456789012345@1min..3min'/>\n"
              "<do value='5s knob-lf=light'/><do value='5s knob-lf=high'/>\n"
              "<seen value='glow-no-flame'/><not-seen value='gas-smell @ 5min'/>\n"
              "<reading value='amps igniter-bake @ 90s = 2.7 A'/>\n");
  g_autoptr (GError) error = NULL;
  g_autoptr (HobCaseFile) c = parse_case (text, NULL, &error), again = NULL;
  g_autoptr (HobCase) typed = NULL;
  g_autofree char *folder = g_dir_make_tmp (NULL, NULL);
  g_autofree char *file = g_build_filename (folder, "saved.xml", NULL);

  g_assert_no_error (error);
  typed = hob_case_new (c->range);
  g_assert_true (hob_case_setting (typed, "house.temperature=59.77 degF@2min", NULL));
  g_assert_true (hob_case_fault (typed, "igniter-bake:aged=0.123456789012345@1min..3min", NULL));
  g_assert_true (hob_case_do (typed, "5s knob-lf=light", NULL));
  g_assert_true (hob_case_do (typed, "5s knob-lf=high", NULL));
  g_assert_true (hob_case_save (c, file, &error));
  again = hob_case_load (file, NULL, &error);
  g_assert_no_error (error);
  for (int k = 0; k < 2; k++)
    {
      const HobCaseFile *each = k == 0 ? c : again;

      g_assert_cmpuint (each->acts->seed, ==, 7);
      g_assert_cmpuint (each->acts->acts->len, ==, 5);
      g_assert_cmpuint (typed->acts->len, ==, 5);
      g_assert_cmpuint (hob_case_common (each->acts, typed), ==, 5);
      g_assert_cmpstr (each->evidence[HOB_EVIDENCE_SEEN]->pdata[0], ==, "glow-no-flame");
      g_assert_cmpstr (each->evidence[HOB_EVIDENCE_NOT_SEEN]->pdata[0], ==, "gas-smell @ 5min");
      g_assert_cmpstr (each->evidence[HOB_EVIDENCE_READING]->pdata[0], ==,
                       "amps igniter-bake @ 90s = 2.7 A");
    }
  g_unlink (file);
  g_rmdir (folder);
}

static const struct
{
  const char *text;
  int line;
  const char *says;
} wrong[] = {
  { CASE ("\n<do value='oven.mode=bake'/>"), 2, "TIME CONTROL=POSITION" },
  { CASE ("\n\n<do/>"), 3, "has no value" },
  { CASE ("\n<do value='0s oven.mode=bake' at='0'/>"), 2, "the attribute 'at'" },
  { CASE ("<fault value='igniter-bake:agd'/>"), 1, "igniter-bake:aged" },
  { CASE ("<seen value='no-glow'><b/></seen>"), 1, "isn't empty" },
  { CASE ("\n<frob value='a'/>"), 2, "unknown element <frob>" },
  { CASE ("\nwords\n"), 2, "text between" },
  { CASE ("<reading value='amps igniter-bake'/>"), 1, "not a reading" },
  { CASE ("<reading value='amps igniter-bak = 2 A'/>"), 1, "igniter-bak" },
  { "<case format='1' range='dial-four' seed='-1'/>", 1, "whole number" },
  { "<case format='1'/>", 1, "doesn't name a range" },
  { "<case xmlns='urn:x' format='1' range='dial-four'/>", 1, "remove xmlns" },
};

/* One finding, however many elements there are. */
static void
a_case_of_too_many_elements_is_refused_once (void)
{
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GString) text = g_string_new ("<case format='1' range='dial-four'>");
  g_autoptr (GError) error = NULL;

  for (int k = 0; k < 10001; k++)
    g_string_append (text, "<frob/>");
  g_string_append (text, "</case>");
  g_assert_null (parse_case (text->str, findings, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_FINDING);
  g_assert_cmpuint (findings->len, ==, 1);
  g_assert_nonnull (strstr (error->message, "more than 10000 elements"));
}

/* Where the range is: beside the case, by its whole path, or shipped. */
static void
a_case_names_its_range_by_a_path_too (void)
{
  g_autofree char *shipped = hob_range_locate ("dial-four");
  g_autofree char *text = g_strdup_printf ("<case format='1' range='%s'/>", shipped);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobCaseFile) c = parse_case (text, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (c->range->id, ==, "dial-four");
}

static void
what_is_wrong_in_a_case_file_is_found_at_its_line (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_autoptr (GPtrArray) findings
          = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
      g_autoptr (GError) error = NULL;
      const HobFinding *finding;

      g_assert_null (parse_case (wrong[i].text, findings, &error));
      g_assert_error (error, HOB_ERROR, HOB_ERROR_FINDING);
      g_assert_cmpuint (findings->len, ==, 1);
      finding = findings->pdata[0];
      g_assert_cmpint (finding->line, ==, wrong[i].line);
      if (strstr (finding->text, wrong[i].says) == NULL)
        g_error ("'%s' says '%s'", wrong[i].text, finding->text);
    }
}

static void
some_case_files_are_not_read_at_all (void)
{
  static const char *const texts[] = {
    "<case format='2' range='dial-four'/>",
    "<case format='one' range='dial-four'/>",
    "<!DOCTYPE case><case format='1' range='dial-four'/>",
    "<case format='1' range='none/such.xml'/>",
    "<case format='1' range='dial-four'>",
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (parse_case (texts[i], NULL, &error));
      g_assert_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE);
      g_assert_null (strchr (error->message, '\n'));
    }
}

/* ---- Order ---- */

static void
acts_stand_in_time_order_and_ties_as_they_came (void)
{
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobCase) c = hob_case_new (range), copy = NULL;
  static const char *const words[]
      = { "5s knob-lf=light", "1s knob-lf=high", "5s knob-lf=low", "3s knob-lf=off" };
  static const double order[] = { 35, 0, 20, 100 };

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    g_assert_true (hob_case_do (c, words[i], NULL));
  c->seed = 7;
  copy = hob_case_copy (c);
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    {
      g_assert_cmpfloat (act (c, i)->value, ==, order[i]);
      g_assert_cmpfloat (act (copy, i)->value, ==, order[i]);
    }
  g_assert_cmpuint (copy->seed, ==, 7);
  g_assert_true (hob_case_do (copy, "9s knob-lf=off", NULL));
  g_assert_cmpuint (c->acts->len, ==, 4);
}

/* ---- Procedures ---- */

static void
procedures_follow_from_the_controls (void)
{
  static const char *const dial[] = { "all-off-1min",  "light-knob-lf",        "light-knob-lr",
                                      "light-knob-rf", "light-knob-rr",        "bake-350",
                                      "broil",         "all-off-8h-unplugged", NULL };
  g_autoptr (HobRange) range = load ("dial-four"), board = load ("board-five");
  g_auto (GStrv) names = hob_procedure_names (range), more = hob_procedure_names (board);
  guint found = 0;

  /* More may stand between them, never in another order. */
  for (char **n = names; *n != NULL && dial[found] != NULL; n++)
    if (g_str_equal (*n, dial[found]))
      found++;
  g_assert_cmpstr (dial[found], ==, NULL);
  g_assert_true (g_strv_contains ((const char *const *) more, "light-knob-c"));
  g_assert_true (g_strv_contains ((const char *const *) more, "convection-350"));
}

/* Every procedure ends after its last act, and leaves every control where a range stands at
 * load. */
static void
procedures_leave_everything_as_it_was (void)
{
  static const char *const ranges[] = { "dial-four", "board-five" };

  for (guint r = 0; r < G_N_ELEMENTS (ranges); r++)
    {
      g_autoptr (HobRange) range = load (ranges[r]);
      g_auto (GStrv) names = hob_procedure_names (range);

      for (char **n = names; *n != NULL; n++)
        {
          g_autoptr (HobCase) c = hob_case_new (range);
          double until = 0;

          g_assert_true (hob_procedure_add (c, *n, &until, NULL));
          for (guint i = 0; i < c->acts->len; i++)
            {
              const HobAct *a = act (c, i);
              gboolean last = TRUE;

              g_assert_cmpint (a->ms, <, (gint64) (until * 1000));
              for (guint k = i + 1; k < c->acts->len; k++)
                last = last && !(act (c, k)->part == a->part && act (c, k)->index == a->index);
              if (last)
                {
                  const HobControlDef *def = &range->parts[a->part].kind->controls[a->index];

                  if (def->dim != HOB_DIM_TEMPERATURE)
                    g_assert_cmpfloat (a->value, ==, def->start);
                }
            }
        }
    }
}

static void
an_unknown_procedure_has_a_near_miss (void)
{
  g_autoptr (HobRange) range = load ("dial-four");
  g_autoptr (HobCase) c = hob_case_new (range);
  g_autoptr (GError) error = NULL;
  double until;

  g_assert_false (hob_procedure_add (c, "bake350", &until, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_NAME);
  g_assert_nonnull (strstr (error->message, "bake-350"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/run/case/words-become-acts-and-acts-words", words_become_acts_and_acts_words);
  g_test_add_func ("/run/case/what-changes-nothing-is-left-out", what_changes_nothing_is_left_out);
  g_test_add_func ("/run/case/what-is-wrong-is-said-in-one-line",
                   what_is_wrong_is_said_in_one_line);
  g_test_add_func ("/run/case/newlines-in-a-word-stay-out-of-the-line",
                   newlines_in_a_word_stay_out_of_the_line);
  g_test_add_func ("/run/case/a-fault-that-ends-is-two-acts", a_fault_that_ends_is_two_acts);
  g_test_add_func ("/run/case/an-argument-gives-the-same-act", an_argument_gives_the_same_act);
  g_test_add_func ("/run/case/a-setting-acts-from-its-time-on", a_setting_acts_from_its_time_on);
  g_test_add_func ("/run/case/wrong-options-are-refused-in-our-words",
                   wrong_options_are_refused_in_our_words);
  g_test_add_func ("/run/case-file/is-the-command-line", a_case_file_is_the_command_line);
  g_test_add_func ("/run/case-file/what-is-wrong-is-found-at-its-line",
                   what_is_wrong_in_a_case_file_is_found_at_its_line);
  g_test_add_func ("/run/case-file/too-many-elements-are-refused-once",
                   a_case_of_too_many_elements_is_refused_once);
  g_test_add_func ("/run/case-file/names-its-range-by-a-path-too",
                   a_case_names_its_range_by_a_path_too);
  g_test_add_func ("/run/case-file/some-are-not-read-at-all", some_case_files_are_not_read_at_all);
  g_test_add_func ("/run/case/acts-stand-in-time-order-and-ties-as-they-came",
                   acts_stand_in_time_order_and_ties_as_they_came);
  g_test_add_func ("/run/procedures/follow-from-the-controls", procedures_follow_from_the_controls);
  g_test_add_func ("/run/procedures/leave-everything-as-it-was",
                   procedures_leave_everything_as_it_was);
  g_test_add_func ("/run/procedures/an-unknown-one-has-a-near-miss",
                   an_unknown_procedure_has_a_near_miss);
  return g_test_run ();
}
