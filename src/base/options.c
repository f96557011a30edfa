/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/options.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <string.h>

/* GLib tells an error apart by its code, and the option only in its sentence: "Unknown option
 * --frob", in the person's language.  (transfer full) */
static char *
option_in (const char *sentence)
{
  const char *at = *sentence == '-' ? sentence : strstr (sentence, " -");

  return g_strdup (at == NULL ? sentence : *at == ' ' ? at + 1 : at);
}

static char *
unknown (const char *word, const char *const *names)
{
  g_autofree char *name = g_strndup (word, strcspn (word, "=")), *list = NULL;
  const char *near;

  if (names == NULL)
    return g_strdup_printf (_ ("'%s' is not an option; see --help"), word);
  if (*names == NULL)
    return g_strdup_printf (_ ("'%s' is not an option here; leave it out"), word);
  near = hob_near_miss (name, names);
  if (near != NULL)
    return g_strdup_printf (_ ("'%s' is not an option here; did you mean %s?"), word, near);
  list = g_strjoinv (" ", (char **)names);
  return g_strdup_printf (_ ("'%s' is not an option here; use one of: %s"), word, list);
}

void
hob_option_reword (GError **error, const char *const *names)
{
  g_autofree char *word = NULL, *sentence = NULL;

  if (error == NULL || *error == NULL || (*error)->domain != G_OPTION_ERROR)
    return;
  word = option_in ((*error)->message);
  sentence = g_error_matches (*error, G_OPTION_ERROR, G_OPTION_ERROR_UNKNOWN_OPTION)
                 ? unknown (word, names)
                 : g_strdup_printf (_ ("%s needs a value; write one after it"), word);
  g_clear_error (error);
  g_set_error_literal (error, HOB_ERROR, HOB_ERROR_USAGE, sentence);
}

gboolean
hob_option_given_twice (const char *name, GError **error)
{
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE, _ ("%s is given twice; leave one out"), name);
  return FALSE;
}
