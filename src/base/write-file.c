/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/write-file.h"
#include "base/errors.h"
#include "base/i18n.h"
#include "base/lock.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define MOST_LINKS 40 /* as many as the kernel follows */
#define BESIDE ".hobwright-"
#define UNKNOWN "XXXXXX"

struct _HobWriter
{
  /*< owned >*/
  char *file;   /* as it was named; NULL: a stream */
  char *target; /* what a link leads to */
  char *beside; /* what is written until it takes the target's name; NULL: written straight */
  int fd;
  gboolean borrowed; /* fd stays open */
  gboolean gone;     /* the reader has closed the pipe */
  gboolean unsynced; /* nobody waits for the disk */
  int trouble;       /* errno of the first failure, 0 */
};

static HobWriter *
refuse (const char *file, int trouble, GError **error)
{
  g_set_error (error, HOB_ERROR, HOB_ERROR_OUTPUT, _ ("cannot write %s: %s"),
               /* Translators: in place of the name of a file: "cannot write the output: …". */
               file != NULL ? file : _ ("the output"), g_strerror (trouble));
  return NULL;
}

static gboolean
is_same (const struct stat *a, const struct stat *b)
{
  return a->st_dev == b->st_dev && a->st_ino == b->st_ino;
}

gboolean
hob_same_file (const char *a, const char *b)
{
  struct stat sa, sb;

  return stat (a, &sa) == 0 && stat (b, &sb) == 0 && is_same (&sa, &sb);
}

/* A file that exists and is not a regular one, or that this program writes to already, as
 * /dev/stdout is. */
static gboolean
is_stream (const struct stat *there)
{
  struct stat open;

  if (!S_ISREG (there->st_mode))
    return TRUE;
  for (int fd = STDOUT_FILENO; fd <= STDERR_FILENO; fd++)
    if (fstat (fd, &open) == 0 && is_same (&open, there))
      return TRUE;
  return FALSE;
}

/* The name at the end of all links, whether there is a file of that name or not. (transfer full) */
static char *
follow_links (const char *file)
{
  char *name = g_strdup (file);

  for (int n = 0; n < MOST_LINKS; n++)
    {
      g_autofree char *link = g_file_read_link (name, NULL), *folder = NULL;

      if (link == NULL)
        break;
      folder = g_path_get_dirname (name);
      g_free (name);
      name = g_path_is_absolute (link) ? g_steal_pointer (&link)
                                       : g_build_filename (folder, link, NULL);
    }
  return name;
}

void
hob_writer_sweep (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = NULL;
      int fd;

      if (!g_str_has_prefix (name, BESIDE) || strlen (name) != strlen (BESIDE UNKNOWN))
        continue;
      path = g_build_filename (folder, name, NULL);
      if ((fd = hob_lock_take (path)) < 0)
        continue;
      g_unlink (path);
      close (fd);
    }
}

/* Beside the target, so that the renaming is one step; by a name that nobody can foresee, made new.
 * It stays locked until it has the target's name. */
static int
open_beside (HobWriter *w, const struct stat *old)
{
  g_autofree char *folder = g_path_get_dirname (w->target);
  char *name = g_build_filename (folder, BESIDE UNKNOWN, NULL);
  int fd;

  hob_writer_sweep (folder);
  fd = hob_lock_new (name, old != NULL ? 0600 : 0666);

  if (fd < 0)
    {
      g_free (name);
      return -1;
    }
  w->beside = name;
  /* Another person's file, written by root, stays theirs; where that may not be, it is ours. */
  if (old != NULL
      && ((fchown (fd, old->st_uid, old->st_gid) != 0 && errno != EPERM)
          || fchmod (fd, old->st_mode & 0777) != 0))
    w->trouble = errno;
  return fd;
}

/* Root may write a read-only file; whoever made it read-only meant root too. */
static gboolean
is_read_only (const char *target, const struct stat *there)
{
  return (there->st_mode & 0222) == 0 || g_access (target, W_OK) != 0;
}

HobWriter *
hob_writer_new (const char *file, GError **error)
{
  g_autoptr (HobWriter) w = g_new0 (HobWriter, 1);
  struct stat old;
  gboolean there = stat (file, &old) == 0;

  w->fd = -1;
  if (!there && errno != ENOENT)
    return refuse (file, errno, error);
  if (there && S_ISREG (old.st_mode) && is_read_only (file, &old))
    return refuse (file, EACCES, error);
  w->file = g_strdup (file);
  w->target = follow_links (file);
  if (there && is_stream (&old))
    w->fd = open (file, O_WRONLY | O_CLOEXEC | O_NOCTTY | (S_ISREG (old.st_mode) ? O_APPEND : 0));
  else
    w->fd = open_beside (w, there ? &old : NULL);
  if (w->fd < 0)
    return refuse (file, errno, error);
  return g_steal_pointer (&w);
}

HobWriter *
hob_writer_new_for_stream (int fd)
{
  HobWriter *w = g_new0 (HobWriter, 1);

  w->fd = fd;
  w->borrowed = TRUE;
  return w;
}

void
hob_writer_skip_sync (HobWriter *w)
{
  w->unsynced = TRUE;
}

gboolean
hob_writer_add (HobWriter *w, const char *bytes, gsize size)
{
  while (size > 0 && w->trouble == 0 && !w->gone)
    {
      gssize n = write (w->fd, bytes, size);

      if (n >= 0)
        {
          bytes += n;
          size -= (gsize)n;
        }
      else if (errno == EPIPE)
        w->gone = TRUE;
      else if (errno != EINTR)
        w->trouble = errno;
    }
  return w->trouble == 0 && !w->gone;
}

static void
note (HobWriter *w, int result)
{
  if (result != 0 && w->trouble == 0)
    w->trouble = errno;
}

static void
close_file (HobWriter *w)
{
  if (!w->borrowed && w->fd >= 0)
    note (w, close (w->fd));
  w->fd = -1;
}

gboolean
hob_writer_close (HobWriter *own, GError **error)
{
  g_autoptr (HobWriter) w = own;

  if (w->beside != NULL && w->trouble == 0 && !w->unsynced)
    note (w, fsync (w->fd));
  if (w->beside != NULL && w->trouble == 0)
    note (w, g_rename (w->beside, w->target));
  close_file (w);
  if (w->trouble != 0)
    {
      refuse (w->file, w->trouble, error);
      return FALSE;
    }
  g_clear_pointer (&w->beside, g_free);
  return TRUE;
}

void
hob_writer_discard (HobWriter *w)
{
  if (w == NULL)
    return;
  close_file (w);
  if (w->beside != NULL)
    g_unlink (w->beside);
  g_free (w->file);
  g_free (w->target);
  g_free (w->beside);
  g_free (w);
}

gboolean
hob_write_file (const char *file, const char *bytes, gsize size, GError **error)
{
  HobWriter *w = hob_writer_new (file, error);

  if (w == NULL)
    return FALSE;
  hob_writer_add (w, bytes, size);
  return hob_writer_close (w, error);
}
