/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What draws is a program of its own beside this one: to load the libraries that it needs takes
 * longer than to read a range, and nothing but a picture needs them.  It has the same source, and
 * begins in this one's place. */
#include "cli/table.h"

#include "base/errors.h"
#include "base/i18n.h"

#include <errno.h>
#include <unistd.h>

#define DRAWING_PROGRAM "hob-draw"

static char *
path_beside (const char *name)
{
  g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
  g_autofree char *folder = program != NULL ? g_path_get_dirname (program) : NULL;

  return g_build_filename (folder != NULL ? folder : "/usr/bin", name, NULL);
}

/* Returns only if there is no such program. */
static int
go_on_there (const char *command, char **words, GError **error)
{
  g_autofree char *program = path_beside (DRAWING_PROGRAM);
  g_autoptr (GPtrArray) all = g_ptr_array_new ();

  g_ptr_array_add (all, (gpointer) "hob");
  g_ptr_array_add (all, (gpointer) command);
  for (; *words != NULL; words++)
    g_ptr_array_add (all, *words);
  g_ptr_array_add (all, NULL);
  execv (program, (char **) all->pdata);
  g_set_error (error, HOB_ERROR, HOB_ERROR_UNREADABLE,
               _ ("%s can't be started: %s; reinstall Hobwright"), program,
               g_strerror (errno));
  return 2;
}

int
hob_command_draw (char **words, GError **error)
{
  return go_on_there ("draw", words, error);
}

int
hob_table_draw (char **words, const HobArgs *args, GError **error)
{
  return go_on_there ("table", words, error);
}
