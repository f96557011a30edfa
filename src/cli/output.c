/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>
#include <unistd.h>

#define BLOCK 16384 /* bytes kept back before they are written */

struct _HobOutput
{
  GString *text;
  FILE *stream;    /* borrowed if standard output */
  char *file;      /* owned; NULL: standard output */
  char *beside;    /* owned; what is written until it is renamed */
  gboolean gone;   /* the reader has closed the pipe */
  int trouble;     /* errno of the first failure, 0 */
};

HobOutput *
hob_output_stdout (void)
{
  HobOutput *output = g_new0 (HobOutput, 1);

  output->text = g_string_new (NULL);
  output->stream = stdout;
  return output;
}

static void
set_trouble (const char *file, int trouble, GError **error)
{
  g_set_error (error, HOB_ERROR, HOB_ERROR_OUTPUT, _("cannot write %s: %s"), file != NULL ? file : _("the output"),
               g_strerror (trouble));
}

/* The name to write before it is renamed to @file: in the same folder, so that the renaming is one step. */
static char *
name_beside (const char *file)
{
  g_autofree char *folder = g_path_get_dirname (file), *base = g_path_get_basename (file);
  g_autofree char *hidden = g_strdup_printf (".%s.%ld", base, (long) getpid ());

  return g_build_filename (folder, hidden, NULL);
}

/* A device or a pipe is written straight: there is nothing to rename. */
static gboolean
is_plain (const char *file)
{
  return !g_file_test (file, G_FILE_TEST_EXISTS) || g_file_test (file, G_FILE_TEST_IS_REGULAR);
}

HobOutput *
hob_output_file (const char *file, GError **error)
{
  g_autoptr (HobOutput) output = g_new0 (HobOutput, 1);

  output->text = g_string_new (NULL);
  output->file = g_strdup (file);
  output->beside = is_plain (file) ? name_beside (file) : NULL;
  output->stream = g_fopen (output->beside != NULL ? output->beside : file, "w");
  if (output->stream == NULL)
    {
      set_trouble (file, errno, error);
      return NULL;
    }
  return g_steal_pointer (&output);
}

GString *
hob_output_text (HobOutput *output)
{
  return output->text;
}

static void
write_out (HobOutput *output)
{
  if (output->trouble == 0 && !output->gone
      && (fwrite (output->text->str, 1, output->text->len, output->stream) < output->text->len
          || fflush (output->stream) != 0))
    {
      output->gone = errno == EPIPE;
      output->trouble = errno == EPIPE ? 0 : errno;
    }
  g_string_truncate (output->text, 0);
}

gboolean
hob_output_flush (HobOutput *output)
{
  if (output->text->len >= BLOCK)
    write_out (output);
  return !output->gone && output->trouble == 0;
}

void
hob_output_discard (HobOutput *output)
{
  if (output == NULL)
    return;
  if (output->file != NULL && output->stream != NULL)
    fclose (output->stream);
  if (output->beside != NULL)
    g_unlink (output->beside);
  g_string_free (output->text, TRUE);
  g_free (output->file);
  g_free (output->beside);
  g_free (output);
}

gboolean
hob_output_close (HobOutput *own, GError **error)
{
  g_autoptr (HobOutput) output = own;

  write_out (output);
  if (output->file != NULL)
    {
      if (fclose (output->stream) != 0 && output->trouble == 0)
        output->trouble = errno;
      output->stream = NULL;
    }
  if (output->trouble == 0 && output->beside != NULL && g_rename (output->beside, output->file) != 0)
    output->trouble = errno;
  if (output->trouble != 0)
    {
      set_trouble (output->file, output->trouble, error);
      return FALSE;
    }
  g_clear_pointer (&output->beside, g_free);
  return TRUE;
}

void
hob_csv_text (GString *out, const char *text, gboolean first)
{
  if (!first)
    g_string_append_c (out, ',');
  if (strpbrk (text, ",\"\r\n") == NULL)
    {
      g_string_append (out, text);
      return;
    }
  g_string_append_c (out, '"');
  for (const char *p = text; *p != '\0'; p++)
    {
      if (*p == '"')
        g_string_append_c (out, '"');
      g_string_append_c (out, *p);
    }
  g_string_append_c (out, '"');
}

void
hob_csv_number (GString *out, double value, gboolean first)
{
  if (!first)
    g_string_append_c (out, ',');
  if (isfinite (value))
    hob_append_number (out, value);
}

void
hob_append_moment (GString *out, double t)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  g_ascii_formatd (text, sizeof text, "%.2f", t);
  g_string_append_printf (out, "%10s s", text);
}

/* One line, whatever a person has typed into it.  What begins with a file and a line is left to begin with them. */
void
hob_complain (const GError *error)
{
  g_autofree char *line = g_utf8_make_valid (error->message, -1);
  gboolean placed = g_error_matches (error, HOB_ERROR, HOB_ERROR_UNREADABLE)
                    || g_error_matches (error, HOB_ERROR, HOB_ERROR_FINDING);

  g_strdelimit (line, "\n\r\v\f\033", ' ');
  fprintf (stderr, "%s%s\n", placed ? "" : "hob: ", line);
}
