/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/kept.h"

#include "base/errors.h"
#include "base/i18n.h"
#include "base/lock.h"
#include "base/write-file.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#define LOCK ".lock"
#define COPY ".xml"

/* The lock is a file of its own, since each writing of the copy makes another file. */
struct _HobKept
{
  char *lock, *copy; /* owned: paths */
  int fd;            /* of the lock */
};

static char *
jobs_folder (void)
{
  return g_build_filename (g_get_user_state_dir (), "hobwright", "jobs", NULL);
}

/* "…/job-1.lock" → "…/job-1.xml", and back.  (transfer full) */
static char *
with_ending (const char *path, const char *from, const char *to)
{
  return g_strdup_printf ("%.*s%s", (int) (strlen (path) - strlen (from)), path, to);
}

static HobKept *
kept_of (const char *lock, int fd)
{
  HobKept *kept = g_new (HobKept, 1);

  kept->lock = g_strdup (lock);
  kept->copy = with_ending (lock, LOCK, COPY);
  kept->fd = fd;
  return kept;
}

HobKept *
hob_kept_new (GError **error)
{
  g_autofree char *folder = jobs_folder ();
  g_autofree char *lock = g_build_filename (folder, "job-XXXXXX" LOCK, NULL);
  int fd = -1;

  if (g_mkdir_with_parents (folder, 0700) == 0)
    fd = hob_lock_new (lock, 0600);
  if (fd >= 0)
    return kept_of (lock, fd);
  g_set_error (error, HOB_ERROR, HOB_ERROR_OUTPUT, _ ("cannot write %s: %s"), folder,
               g_strerror (errno));
  return NULL;
}

HobKept *
hob_kept_take (const char *file)
{
  g_autofree char *lock = with_ending (file, COPY, LOCK);
  int fd = hob_lock_take (lock);

  return fd >= 0 ? kept_of (lock, fd) : NULL;
}

/* While somebody works: a disk that is busy for a second would hold up the window for as long. */
gboolean
hob_kept_write (HobKept *kept, const HobCaseFile *c, GError **error)
{
  g_autoptr (GString) text = hob_case_text (c, kept->copy);
  HobWriter *writer = hob_writer_new (kept->copy, error);

  if (writer == NULL)
    return FALSE;
  hob_writer_skip_sync (writer);
  hob_writer_add (writer, text->str, text->len);
  return hob_writer_close (writer, error);
}

void
hob_kept_release (HobKept *kept)
{
  close (kept->fd);
  g_free (kept->copy);
  g_free (kept->lock);
  g_free (kept);
}

/* The lock goes last: without it nobody would look for the copy. */
void
hob_kept_free (HobKept *kept)
{
  if (kept == NULL)
    return;
  g_unlink (kept->copy);
  g_unlink (kept->lock);
  hob_kept_release (kept);
}

/* ---- What was left ---- */

static gint64
written_at (const char *path)
{
  GStatBuf st;

  if (g_stat (path, &st) != 0)
    return 0;
  return (gint64) st.st_mtim.tv_sec * G_USEC_PER_SEC + st.st_mtim.tv_nsec / 1000;
}

static int
latest_first (gconstpointer a, gconstpointer b)
{
  gint64 one = written_at (*(char *const *) a), other = written_at (*(char *const *) b);

  return (one < other) - (one > other);
}

/* A lock without a copy is of a program that was killed before anything was done, or after. */
static void
look_at (const char *lock, GPtrArray *left)
{
  int fd = hob_lock_take (lock);
  HobKept *kept;

  if (fd < 0)
    return;
  kept = kept_of (lock, fd);
  if (!g_file_test (kept->copy, G_FILE_TEST_EXISTS))
    {
      hob_kept_free (kept);
      return;
    }
  g_ptr_array_add (left, g_strdup (kept->copy));
  hob_kept_release (kept);
}

GPtrArray *
hob_kept_left (void)
{
  g_autofree char *folder = jobs_folder ();
  GPtrArray *left = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  if (dir != NULL)
    hob_writer_sweep (folder);
  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_str_has_suffix (name, LOCK))
        look_at (path, left);
    }
  g_ptr_array_sort (left, latest_first);
  return left;
}
