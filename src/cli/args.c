/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/options.h"

#include <math.h>
#include <string.h>

/* Indexed by HobOption. */
static const struct
{
  const char *name;
  char letter;
  const char *value; /* N_(); NULL: a flag */
  const char *words; /* N_() */
} options[] = {
  [HOB_OPTION_UNTIL] = { "until", 0, N_ ("TIME"), N_ ("Run until this time, such as 5min") },
  [HOB_OPTION_TRACE] = { "trace", 0, N_ ("QUANTITY,…"), N_ ("Print these quantities over time, "
                                                            "as CSV") },
  [HOB_OPTION_EVERY] = { "every", 0, N_ ("TIME"), N_ ("Time between the rows that --trace "
                                                      "prints") },
  [HOB_OPTION_EVENTS]
  = { "events", 0, N_ ("FILE"), N_ ("Also write the list of events to a file") },
  [HOB_OPTION_PROCEDURE]
  = { "procedure", 0, N_ ("NAME"), N_ ("Follow one of the range's routines (see hob list)") },
  [HOB_OPTION_CSV] = { "csv", 0, NULL, N_ ("Print CSV for a spreadsheet") },
  [HOB_OPTION_HASH] = { "hash", 0, NULL, N_ ("Print a checksum of the final state") },
  [HOB_OPTION_PAIRS] = { "pairs", 0, NULL, N_ ("Try every pair of faults") },
  [HOB_OPTION_UNITS] = { "units", 0, "si|trade", N_ ("Units to use in the output") },
  [HOB_OPTION_TEST] = { "test", 0, N_ ("\"TEST\""), N_ ("What to measure; repeat this option for "
                                                        "each reading") },
  [HOB_OPTION_SHEET]
  = { "sheet", 0, "wiring|gas|cutaway|chart|sequence|why", N_ ("Which sheet to draw") },
  [HOB_OPTION_AT] = { "at", 0, N_ ("TIME"), N_ ("Time at which to draw the sheet") },
  [HOB_OPTION_SIZE] = { "size", 0, N_ ("WIDTHxHEIGHT"), N_ ("Size of the picture in pixels") },
  [HOB_OPTION_THEME] = { "theme", 0, "light|dark|print", N_ ("Color theme") },
  [HOB_OPTION_PAPER]
  = { "paper", 0, "letter|a4|tabloid", N_ ("Lay out the picture to fit a paper size") },
  [HOB_OPTION_COVER]
  = { "cover", 0, NULL, N_ ("Leave out faults and symptoms, for teaching and exams") },
  [HOB_OPTION_OUTPUT]
  = { "output", 'o', N_ ("FILE"), N_ ("Where to save the sheet: FILE.svg, .pdf, or .png") },
  [HOB_OPTION_SEEN]
  = { "seen", 0, N_ ("\"SYMPTOM\""), N_ ("A symptom you noticed; repeat this option "
                                         "for each one") },
  [HOB_OPTION_NOT_SEEN]
  = { "not-seen", 0, N_ ("\"SYMPTOM\""), N_ ("A symptom you looked for but didn't find; repeat "
                                             "this option for each one") },
  [HOB_OPTION_READING]
  = { "reading", 0, N_ ("\"READING\""), N_ ("What you measured; repeat this option for each "
                                            "reading") },
  [HOB_OPTION_ROLE]
  = { "role", 0, "apprentice|technician", N_ ("Who will do the next test") },
  [HOB_OPTION_PRIORS]
  = { "priors", 0, NULL, N_ ("Print the assumptions, such as how common each fault is, in a form "
                             "you can save and edit") },
  [HOB_OPTION_SYMPTOM]
  = { "symptom", 0, N_ ("\"SYMPTOM\""), N_ ("The symptom to explain") },
};

/* Of the others a second one leaves open which was meant. */
#define REPEATABLE                                                                                 \
  (HOB_BIT (HOB_OPTION_TEST) | HOB_BIT (HOB_OPTION_SEEN) | HOB_BIT (HOB_OPTION_NOT_SEEN)           \
   | HOB_BIT (HOB_OPTION_READING))

/* As a person writes it. (transfer full) */
static char *
written (HobOption option)
{
  return options[option].letter != 0 ? g_strdup_printf ("-%c", options[option].letter)
                                     : g_strconcat ("--", options[option].name, NULL);
}

/* @name: "--until", "-o" */
static HobOption
find_option (const char *name)
{
  int i = 0;

  while (name[1] == '-' ? strcmp (options[i].name, name + 2) != 0 : options[i].letter != name[1])
    i++;
  return (HobOption)i;
}

static gboolean
take_option (const char *name, const char *value, gpointer user, GError **error)
{
  HobArgs *args = user;
  HobGiven given = { find_option (name), NULL };

  if (value != NULL && !(HOB_BIT (given.option) & REPEATABLE) && hob_args_has (args, given.option))
    return hob_option_given_twice (name, error);
  given.value = g_strdup (value != NULL ? value : "");
  g_array_append_val (args->given, given);
  return TRUE;
}

static gboolean
take_word (const char *name, const char *value, gpointer user, GError **error)
{
  g_ptr_array_add (((HobArgs *)user)->words, g_strdup (value));
  return TRUE;
}

static void
clear_given (gpointer item)
{
  g_free (((HobGiven *)item)->value);
}

static HobArgs *
args_new (guint allowed)
{
  HobArgs *args = g_new0 (HobArgs, 1);

  args->allowed = allowed;
  args->words = g_ptr_array_new_with_free_func (g_free);
  args->given = g_array_new (FALSE, FALSE, sizeof (HobGiven));
  g_array_set_clear_func (args->given, clear_given);
  args->of_case = hob_case_options_new ();
  return args;
}

static GOptionContext *
context_for (HobArgs *args)
{
  GOptionContext *context = g_option_context_new (NULL);
  GOptionGroup *main_group = g_option_group_new (NULL, NULL, NULL, args, NULL);
  GOptionEntry entries[HOB_N_OPTIONS + 2] = { { NULL } };
  int n = 0;

  for (int i = 0; i < HOB_N_OPTIONS; i++)
    if (args->allowed & HOB_BIT (i))
      entries[n++] = (GOptionEntry){
        options[i].name,
        options[i].letter,
        options[i].value == NULL ? G_OPTION_FLAG_NO_ARG : G_OPTION_FLAG_FILENAME,
        G_OPTION_ARG_CALLBACK,
        take_option,
        options[i].words,
        options[i].value,
      };
  entries[n] = (GOptionEntry){ G_OPTION_REMAINING, 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK,
                               take_word, NULL, NULL };
  g_option_group_add_entries (main_group, entries);
  g_option_context_set_main_group (context, main_group);
  if (args->allowed & HOB_TAKES_CASE)
    g_option_context_add_group (context, hob_case_options_group (args->of_case, NULL));
  g_option_context_set_help_enabled (context, FALSE);
  return context;
}

/* NULL-ended: what one may write. (transfer full) */
static char **
names_of (guint allowed)
{
  GStrvBuilder *builder = g_strv_builder_new ();
  char **names;

  for (int i = 0; i < HOB_N_OPTIONS; i++)
    if (allowed & HOB_BIT (i))
      {
        g_autofree char *name = written ((HobOption)i);

        g_strv_builder_add (builder, name);
      }
  if (allowed & HOB_TAKES_CASE)
    g_strv_builder_add_many (builder, "--do", "--fault", "--setting", "--seed", NULL);
  names = g_strv_builder_end (builder);
  g_strv_builder_unref (builder);
  return names;
}

/* GOption drops the value of an option that takes none: whoever writes --csv=no means something. */
static gboolean
no_flag_has_a_value (char **words, guint allowed, GError **error)
{
  for (int i = 0; i < HOB_N_OPTIONS; i++)
    if ((allowed & HOB_BIT (i)) && options[i].value == NULL)
      {
        g_autofree char *start = g_strdup_printf ("--%s=", options[i].name);

        for (char **word = words; *word != NULL && !g_str_equal (*word, "--"); word++)
          if (g_str_has_prefix (*word, start))
            {
              g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
                           _ ("--%s doesn't take a value; leave the value out"), options[i].name);
              return FALSE;
            }
      }
  return TRUE;
}

HobArgs *
hob_args_parse (char **words, const char *command, GError **error)
{
  g_autoptr (HobArgs) args = args_new (hob_command_find (command)->options);
  g_autoptr (GOptionContext) context = context_for (args);
  g_auto (GStrv) names = names_of (args->allowed),
                 strv = g_new0 (char *, g_strv_length (words) + 2);
  g_autoptr (GError) wrong = NULL;

  strv[0] = g_strdup (command);
  for (guint i = 0; words[i] != NULL; i++)
    strv[i + 1] = g_strdup (words[i]);
  if (no_flag_has_a_value (words, args->allowed, &wrong)
      && g_option_context_parse_strv (context, &strv, &wrong))
    return g_steal_pointer (&args);
  hob_option_reword (&wrong, (const char *const *)names);
  g_propagate_error (error, g_steal_pointer (&wrong));
  return NULL;
}

void
hob_args_free (HobArgs *args)
{
  if (args == NULL)
    return;
  g_ptr_array_unref (args->words);
  g_array_unref (args->given);
  hob_case_options_free (args->of_case);
  g_free (args);
}

/* GLib aligns and translates; what it says above its lists, of a program without commands, is left
 * out. */
void
hob_args_explain (GString *out, guint allowed)
{
  g_autoptr (HobArgs) args = args_new (allowed);
  g_autoptr (GOptionContext) context = context_for (args);
  g_autofree char *help = NULL;
  const char *lists;

  g_option_context_set_translation_domain (context, GETTEXT_PACKAGE);
  help = g_option_context_get_help (context, FALSE, NULL);
  lists = strstr (help, "\n\n");
  if (lists != NULL && allowed != 0)
    g_string_append (out, lists + 1);
}

const char *
hob_args_get (const HobArgs *args, HobOption option)
{
  for (guint i = args->given->len; i-- > 0;)
    if (g_array_index (args->given, HobGiven, i).option == option)
      return g_array_index (args->given, HobGiven, i).value;
  return NULL;
}

gboolean
hob_args_has (const HobArgs *args, HobOption option)
{
  return hob_args_get (args, option) != NULL;
}

gboolean
hob_args_words (const HobArgs *args, guint least, guint most, const char *usage, GError **error)
{
  if (args->words->len >= least && args->words->len <= most)
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("a word is missing, or there is one too many; use: hob %s"), usage);
  return FALSE;
}

gboolean
hob_args_time (const HobArgs *args, HobOption option, double *seconds, GError **error)
{
  g_autofree char *name = written (option);
  const char *text = hob_args_get (args, option);

  if (hob_moment_parse (text, seconds, error))
    return TRUE;
  g_prefix_error (error, "%s: ", name);
  return FALSE;
}

gboolean
hob_args_units (const HobArgs *args, HobUnits *units, GError **error)
{
  const char *text = hob_args_get (args, HOB_OPTION_UNITS);

  *units = HOB_UNITS_SI;
  if (text == NULL || g_str_equal (text, "si") || g_str_equal (text, "SI"))
    return TRUE;
  *units = HOB_UNITS_TRADE;
  if (g_str_equal (text, "trade"))
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _ ("--units: '%s' is not a system of units; "
                                                     "use si or trade"),
               text);
  return FALSE;
}
