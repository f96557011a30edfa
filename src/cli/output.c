/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cli.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/plain.h"
#include "base/write-file.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define BLOCK 16384 /* bytes kept back before they are written */

struct _HobOutput
{
  GString *text;     /* owned; not yet written */
  HobWriter *writer; /* owned */
};

static HobOutput *
output_on (HobWriter *writer)
{
  HobOutput *output = g_new0 (HobOutput, 1);

  output->text = g_string_new (NULL);
  output->writer = writer;
  return output;
}

HobOutput *
hob_output_stdout (void)
{
  return output_on (hob_writer_new_for_stream (STDOUT_FILENO));
}

HobOutput *
hob_output_file (const char *file, GError **error)
{
  HobWriter *writer = hob_writer_new (file, error);

  return writer != NULL ? output_on (writer) : NULL;
}

gboolean
hob_output_may_replace (const HobRange *range, const char *file, GError **error)
{
  if (!hob_same_file (range->file, file))
    return TRUE;
  g_set_error (error, HOB_ERROR, HOB_ERROR_OUTPUT,
               _ ("%s is the range file itself; write to another file"), file);
  return FALSE;
}

GString *
hob_output_text (HobOutput *output)
{
  return output->text;
}

static gboolean
write_out (HobOutput *output)
{
  gboolean good = hob_writer_add (output->writer, output->text->str, output->text->len);

  g_string_truncate (output->text, 0);
  return good;
}

gboolean
hob_output_flush (HobOutput *output)
{
  return output->text->len < BLOCK || write_out (output);
}

void
hob_output_discard (HobOutput *output)
{
  if (output == NULL)
    return;
  hob_writer_discard (output->writer);
  g_string_free (output->text, TRUE);
  g_free (output);
}

gboolean
hob_output_close (HobOutput *own, GError **error)
{
  g_autoptr (HobOutput) output = own;

  write_out (output);
  return hob_writer_close (g_steal_pointer (&output->writer), error);
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

/* One line, whatever a person has typed into it.  What begins with a file and a line is left to
 * begin with them. */
void
hob_complain (const GError *error)
{
  g_autofree char *line = hob_plain_text (error->message);
  gboolean placed = g_error_matches (error, HOB_ERROR, HOB_ERROR_UNREADABLE)
                    || g_error_matches (error, HOB_ERROR, HOB_ERROR_FINDING);

  fprintf (stderr, "%s%s\n", placed ? "" : "hob: ", line);
}

static void
show_progress (guint done, guint total, gpointer user)
{
  if (done < total)
    fprintf (stderr, "\r%u/%u", done, total);
  else
    fprintf (stderr, "\r%20s\r", "");
}

void (*hob_cli_progress (void)) (guint done, guint total, gpointer user)
{
  return isatty (STDERR_FILENO) ? show_progress : NULL;
}

/* The libraries that set text can crash where memory ends, so that it is asked for before. */
#define ROOM (72 << 20) /* bytes: more than the largest picture of a shipped range takes */

static gboolean
has_room (GError **error)
{
  g_autofree char *room = g_try_malloc (ROOM);

  if (room == NULL)
    g_set_error_literal (error, HOB_ERROR, HOB_ERROR_VALUE,
                         _ ("not enough memory; raise the limit (see ulimit -v)"));
  return room != NULL;
}

gboolean
hob_cli_may_draw (const char *file, GError **error)
{
  if (g_str_has_suffix (file, ".svg") || g_str_has_suffix (file, ".pdf")
      || g_str_has_suffix (file, ".png"))
    return has_room (error);
  g_set_error (error, HOB_ERROR, HOB_ERROR_USAGE,
               _ ("'%s' doesn't end in .svg, .pdf, or .png; use one of these endings"), file);
  return FALSE;
}
