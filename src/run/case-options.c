/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/case-options.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/options.h"

#include <string.h>

typedef enum
{
  DO,
  FAULT,
  SETTING,
  SEED
} Which;

static const char *const names[] = {
  [DO] = "do", [FAULT] = "fault", [SETTING] = "setting", [SEED] = "seed"
};

typedef struct
{
  Which which;
  char *text; /* owned */
} Given;

struct _HobCaseOptions
{
  GArray *given;       /* Given, owned */
  const char *program; /* borrowed: what sentences about wrong words begin with; NULL: nothing */
  gboolean refused;
};

static void
clear_given (gpointer item)
{
  g_free (((Given *)item)->text);
}

HobCaseOptions *
hob_case_options_new (void)
{
  HobCaseOptions *options = g_new0 (HobCaseOptions, 1);

  options->given = g_array_new (FALSE, FALSE, sizeof (Given));
  g_array_set_clear_func (options->given, clear_given);
  return options;
}

void
hob_case_options_free (HobCaseOptions *options)
{
  if (options == NULL)
    return;
  g_array_unref (options->given);
  g_free (options);
}

static gboolean
has (const HobCaseOptions *options, Which which)
{
  for (guint i = 0; i < options->given->len; i++)
    if (g_array_index (options->given, Given, i).which == which)
      return TRUE;
  return FALSE;
}

/* @name: "--do" */
static gboolean
take (const char *name, const char *value, gpointer user, GError **error)
{
  HobCaseOptions *options = user;
  Given given = { DO, NULL };

  while (strcmp (names[given.which], name + strlen ("--")) != 0)
    given.which++;
  if (given.which == SEED && has (options, SEED))
    return hob_option_given_twice (name, error);
  given.text = g_strdup (value);
  g_array_append_val (options->given, given);
  return TRUE;
}

static void
on_error (GOptionContext *context, GOptionGroup *group, gpointer user, GError **error)
{
  HobCaseOptions *options = user;

  options->refused = TRUE;
  if (options->program == NULL)
    return;
  hob_option_reword (error, NULL);
  g_prefix_error (error, "%s: ", options->program);
}

GOptionGroup *
hob_case_options_group (HobCaseOptions *options, const char *program)
{
  static const GOptionEntry entries[] = {
    { "do", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, take,
      N_ ("Set a control at a given time, such as \"60s oven.mode=bake\"; repeat this option for "
          "each change"),
      N_ ("\"TIME CONTROL=POSITION\"") },
    { "fault", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, take,
      N_ ("Add a fault for the whole run, after FROM, or between FROM and TO; repeat this option "
          "for each fault"),
      N_ ("PART:FAULT[=SEVERITY][@FROM[..TO]]") },
    { "setting", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, take,
      N_ ("Change a range or house setting, from the start or at a given time; repeat this option "
          "for each one"),
      N_ ("PART.NAME=VALUE[@TIME]") },
    { "seed", 0, G_OPTION_FLAG_FILENAME, G_OPTION_ARG_CALLBACK, take,
      /* Translators: a number, after --seed. */
      N_ ("Simulate another unit of the same model, with slightly different parts"), N_ ("N") },
    { NULL },
  };
  GOptionGroup *group
      = g_option_group_new ("case", _ ("Options that describe the case:"),
                            _ ("Show the options that describe a case"), options, NULL);

  options->program = program;
  g_option_group_add_entries (group, entries);
  g_option_group_set_translation_domain (group, GETTEXT_PACKAGE);
  g_option_group_set_error_hook (group, on_error);
  return group;
}

static gboolean
parse_seed (const char *text, guint64 *seed, GError **error)
{
  if (text[strspn (text, "0123456789")] == '\0'
      && g_ascii_string_to_unsigned (text, 10, 0, G_MAXUINT64, seed, NULL))
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE,
               _ ("--seed: '%s' is not a whole number; use digits only"), text);
  return FALSE;
}

gboolean
hob_case_options_apply (const HobCaseOptions *options, HobCase *c, GError **error)
{
  static gboolean (*const add[]) (HobCase *, const char *, GError **) = {
    [DO] = hob_case_do, [FAULT] = hob_case_fault, [SETTING] = hob_case_setting
  };

  for (guint i = 0; i < options->given->len; i++)
    {
      const Given *given = &g_array_index (options->given, Given, i);

      if (given->which == SEED ? !parse_seed (given->text, &c->seed, error)
                               : !add[given->which](c, given->text, error))
        return FALSE;
    }
  return TRUE;
}

gboolean
hob_case_options_have_acts (const HobCaseOptions *options)
{
  return has (options, DO);
}

gboolean
hob_case_options_refused (const HobCaseOptions *options)
{
  return options->refused;
}
