/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/lock.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* Who finds a file before it is locked takes it for left behind, and removes it. */
static gboolean
is_removed (int fd)
{
  struct stat st;

  return fstat (fd, &st) == 0 && st.st_nlink == 0;
}

/* A file system without locks has none to fear: nobody else gets one either. */
static gboolean
lock (int fd)
{
  return flock (fd, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
}

int
hob_lock_new (char *name, int mode)
{
  g_autofree char *pattern = g_strdup (name);

  for (;;)
    {
      int fd;

      g_strlcpy (name, pattern, strlen (pattern) + 1);
      fd = g_mkstemp_full (name, O_RDWR | O_CLOEXEC, mode);
      if (fd < 0 || (lock (fd) && !is_removed (fd)))
        return fd;
      close (fd);
    }
}

int
hob_lock_take (const char *name)
{
  int fd = open (name, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
  struct stat st;

  if (fd < 0)
    return -1;
  if (fstat (fd, &st) == 0 && S_ISREG (st.st_mode) && st.st_uid == geteuid ()
      && flock (fd, LOCK_EX | LOCK_NB) == 0 && !is_removed (fd))
    return fd;
  close (fd);
  return -1;
}
