/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/plain.h"
#include "run/case-file.h"

/* Findings are this command's answer and go to standard output; a file that cannot be read is an
 * error. */
static int
check_file (const char *word, GString *out)
{
  g_autofree char *file = hob_range_locate (word);
  g_autoptr (GPtrArray) findings
      = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_finding_free);
  g_autoptr (GError) wrong = NULL;
  G_GNUC_UNUSED g_autoptr (HobCaseFile) c = hob_case_load (file, findings, &wrong);

  for (guint i = 0; i < findings->len; i++)
    {
      g_autofree char *text = hob_finding_text (findings->pdata[i]), *plain = hob_plain_text (text);

      g_string_append_printf (out, "%s\n", plain);
    }
  if (wrong != NULL
      && !(g_error_matches (wrong, HOB_ERROR, HOB_ERROR_FINDING) && findings->len > 0))
    hob_complain (wrong);
  return hob_error_exit_status (wrong);
}

int
hob_command_check (char **words, GError **error)
{
  g_autoptr (HobArgs) args = hob_args_parse (words, "check", error);
  HobOutput *output;
  int status = 0;

  if (args == NULL || !hob_args_words (args, 1, G_MAXUINT, "check FILE…", error))
    return 2;
  output = hob_output_stdout ();
  for (guint i = 0; i < args->words->len; i++)
    {
      int worst = check_file (args->words->pdata[i], hob_output_text (output));

      status = MAX (status, worst);
      hob_output_flush (output);
    }
  return hob_output_close (output, error) ? status : 2;
}
