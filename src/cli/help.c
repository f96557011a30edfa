/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"

static void
explain_all (GString *out)
{
  g_string_append_printf (out, "%s\n\n", _("hob: simulate a gas range from its description"));
  for (const HobCommand *c = hob_commands; c->name != NULL; c++)
    if (c->summary != NULL)
      g_string_append_printf (out, "  %-8s %s\n", c->name, _(c->summary));
  g_string_append_printf (
      out, "\n%s\n",
      _ ("For more about a command, use hob help COMMAND. RANGE is a file or one of the ranges "
         "that come with Hobwright, such as dial-four."));
}

int
hob_command_help (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "help", error);
  const HobCommand *command = NULL;
  HobOutput *output;
  GString *out;

  if (args == NULL || !hob_args_words (args, 0, 1, "help [COMMAND]", error))
    return 2;
  if (args->words->len > 0)
    {
      command = hob_command_find (args->words->pdata[0]);
      if (command == NULL || command->summary == NULL)
        {
          g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
                       _("'%s' is not a command; see 'hob help'"),
                       (const char *) args->words->pdata[0]);
          return 2;
        }
    }
  output = hob_output_stdout ();
  out = hob_output_text (output);
  if (command == NULL)
    explain_all (out);
  else
    {
      g_string_append_printf (out, "%s\n\n  hob %s\n", _ (command->summary), command->usage);
      hob_args_explain (out, command->options);
    }
  hob_output_close (output, error);
  return 0;
}
