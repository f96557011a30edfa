/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <math.h>
#include <string.h>

/* Indexed by HobOption. */
static const struct
{
  const char *name;
  gboolean flag;
} options[] = {
  [HOB_OPTION_DO] = { "--do", FALSE },
  [HOB_OPTION_FAULT] = { "--fault", FALSE },
  [HOB_OPTION_SETTING] = { "--setting", FALSE },
  [HOB_OPTION_SEED] = { "--seed", FALSE },
  [HOB_OPTION_UNTIL] = { "--until", FALSE },
  [HOB_OPTION_TRACE] = { "--trace", FALSE },
  [HOB_OPTION_EVERY] = { "--every", FALSE },
  [HOB_OPTION_EVENTS] = { "--events", FALSE },
  [HOB_OPTION_PROCEDURE] = { "--procedure", FALSE },
  [HOB_OPTION_CSV] = { "--csv", TRUE },
  [HOB_OPTION_HASH] = { "--hash", TRUE },
  [HOB_OPTION_PAIRS] = { "--pairs", TRUE },
  [HOB_OPTION_UNITS] = { "--units", FALSE },
  [HOB_OPTION_TEST] = { "--test", FALSE },
  [HOB_OPTION_SHEET] = { "--sheet", FALSE },
  [HOB_OPTION_AT] = { "--at", FALSE },
  [HOB_OPTION_SIZE] = { "--size", FALSE },
  [HOB_OPTION_THEME] = { "--theme", FALSE },
  [HOB_OPTION_OUTPUT] = { "-o", FALSE },
};

/* The rest are said once: of two the reader could not tell which was meant. */
#define REPEATABLE                                                                                                   \
  (HOB_BIT (HOB_OPTION_DO) | HOB_BIT (HOB_OPTION_FAULT) | HOB_BIT (HOB_OPTION_SETTING) | HOB_BIT (HOB_OPTION_TEST))

static int
find_option (const char *name, gsize length)
{
  for (int i = 0; i < HOB_N_OPTIONS; i++)
    if (strlen (options[i].name) == length && strncmp (options[i].name, name, length) == 0)
      return i;
  return -1;
}

static gboolean
refuse_option (const char *word, guint allowed, GError **error)
{
  const char *names[HOB_N_OPTIONS + 1];
  g_autofree char *list = NULL;
  const char *near;
  int n = 0;

  for (int i = 0; i < HOB_N_OPTIONS; i++)
    if (allowed & HOB_BIT (i))
      names[n++] = options[i].name;
  names[n] = NULL;
  near = hob_near_miss (word, names);
  list = g_strjoinv (" ", (char **) names);
  if (near != NULL)
    g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("no option '%s' here; did you mean %s?"), word, near);
  else if (n > 0)
    g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("no option '%s' here; there are: %s"), word, list);
  else
    g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("no option '%s' here; this command takes none"), word);
  return FALSE;
}

/* Takes an option, and its value behind '=' or in the next word; *at moves over what was taken. */
static gboolean
take_option (HobArgs *args, char **words, guint *at, guint allowed, GError **error)
{
  const char *word = words[*at], *sign = g_str_has_prefix (word, "--") ? strchr (word, '=') : NULL;
  HobGiven given = { 0, "" };
  int option = find_option (word, sign != NULL ? (gsize) (sign - word) : strlen (word));

  if (option < 0 || !(allowed & HOB_BIT (option)))
    return refuse_option (word, allowed, error);
  given.option = (HobOption) option;
  if (options[option].flag && sign != NULL)
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("%s takes no value; write it alone"), options[option].name);
      return FALSE;
    }
  if (sign != NULL)
    given.value = sign + 1;
  else if (!options[option].flag)
    {
      given.value = words[++*at];
      if (given.value == NULL)
        {
          g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("%s stands without its value; write one behind it"), word);
          return FALSE;
        }
    }
  if (!options[option].flag && !(HOB_BIT (option) & REPEATABLE) && hob_args_has (args, given.option))
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("%s stands twice; leave one of them away"), options[option].name);
      return FALSE;
    }
  g_array_append_val (args->given, given);
  return TRUE;
}

HobArgs *
hob_args_parse (char **words, guint allowed, GError **error)
{
  g_autoptr (HobArgs) args = g_new0 (HobArgs, 1);
  gboolean open = TRUE;

  args->words = g_ptr_array_new ();
  args->given = g_array_new (FALSE, FALSE, sizeof (HobGiven));
  for (guint i = 0; words[i] != NULL; i++)
    {
      if (open && g_str_equal (words[i], "--"))
        open = FALSE;
      else if (!open || words[i][0] != '-' || words[i][1] == '\0')
        g_ptr_array_add (args->words, words[i]);
      else if (!take_option (args, words, &i, allowed, error))
        return NULL;
    }
  return g_steal_pointer (&args);
}

void
hob_args_free (HobArgs *args)
{
  if (args == NULL)
    return;
  g_ptr_array_unref (args->words);
  g_array_unref (args->given);
  g_free (args);
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
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("write: hob %s"), usage);
  return FALSE;
}

gboolean
hob_args_time (const HobArgs *args, HobOption option, double *seconds, GError **error)
{
  const char *text = hob_args_get (args, option);

  if (!hob_parse_quantity (text, HOB_DIM_TIME, seconds, error))
    {
      g_prefix_error (error, "%s: ", options[option].name);
      return FALSE;
    }
  if (*seconds < 0 || *seconds > 1e9)
    {
      g_set_error (error, HOB_ERROR, HOB_ERROR_VALUE, _("%s: '%s' is no time of a run; it goes from 0 s to 30 years"),
                   options[option].name, text);
      return FALSE;
    }
  *seconds = floor (*seconds * 1000.0 + 0.5) / 1000.0;
  return TRUE;
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
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _("--units knows no '%s'; write si or trade"), text);
  return FALSE;
}
