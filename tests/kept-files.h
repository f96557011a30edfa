/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Where the copies of jobs are kept, and how many files are in a folder. */

#include <glib.h>

/* (transfer full) */
static inline char *
kept_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "hobwright", "jobs", NULL);
}

/* 0: the folder isn't there either. */
static inline guint
n_files_in (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (dir != NULL && g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static inline guint
n_kept (void)
{
  g_autofree char *folder = kept_folder ();

  return n_files_in (folder);
}
