/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/write-file.h"
#include "base/errors.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

/* A folder for each test, with whatever is left in it when the test ends. */
typedef struct
{
  char *folder, *file;
} Place;

static void
set_up (Place *place, gconstpointer data)
{
  place->folder = g_dir_make_tmp ("write-XXXXXX", NULL);
  place->file = g_build_filename (place->folder, "out.txt", NULL);
}

static guint
count_files (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
tear_down (Place *place, gconstpointer data)
{
  g_autoptr (GDir) dir = NULL;
  const char *name;

  g_assert_cmpint (g_chmod (place->folder, 0700), ==, 0);
  dir = g_dir_open (place->folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *path = g_build_filename (place->folder, name, NULL);

      g_unlink (path);
    }
  g_assert_cmpint (g_rmdir (place->folder), ==, 0);
  g_free (place->folder);
  g_free (place->file);
}

static void
write_text (const char *file, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_write_file (file, text, strlen (text), &error);
  g_assert_no_error (error);
}

static void
assert_holds (const char *file, const char *text)
{
  g_autofree char *got = NULL;

  g_assert_true (g_file_get_contents (file, &got, NULL, NULL));
  g_assert_cmpstr (got, ==, text);
}

static void
assert_refused (const char *file)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (hob_write_file (file, "new", 3, &error));
  g_assert_error (error, HOB_ERROR, HOB_ERROR_OUTPUT);
  g_assert_nonnull (strstr (error->message, file));
}

static int
mode_of (const char *file)
{
  struct stat st;

  g_assert_cmpint (lstat (file, &st), ==, 0);
  return (int) (st.st_mode & 07777);
}

static void
a_new_file_holds_all_and_nothing_else_is_left (Place *place, gconstpointer data)
{
  mode_t mask = umask (027);

  write_text (place->file, "all of it");
  umask (mask);
  assert_holds (place->file, "all of it");
  g_assert_cmpint (mode_of (place->file), ==, 0640);
  g_assert_cmpuint (count_files (place->folder), ==, 1);
}

static void
nothing_shows_before_it_is_whole (Place *place, gconstpointer data)
{
  HobWriter *writer;

  write_text (place->file, "old");
  writer = hob_writer_new (place->file, NULL);
  g_assert_true (hob_writer_add (writer, "ne", 2));
  assert_holds (place->file, "old");
  g_assert_true (hob_writer_add (writer, "w", 1));
  g_assert_true (hob_writer_close (writer, NULL));
  assert_holds (place->file, "new");
}

static void
what_is_dropped_leaves_the_old_file (Place *place, gconstpointer data)
{
  HobWriter *writer;

  write_text (place->file, "old");
  writer = hob_writer_new (place->file, NULL);
  hob_writer_add (writer, "new", 3);
  hob_writer_discard (writer);
  assert_holds (place->file, "old");
  g_assert_cmpuint (count_files (place->folder), ==, 1);
}

static void
the_mode_of_the_old_file_stays (Place *place, gconstpointer data)
{
  write_text (place->file, "old");
  g_assert_cmpint (g_chmod (place->file, 0600), ==, 0);
  write_text (place->file, "new");
  assert_holds (place->file, "new");
  g_assert_cmpint (mode_of (place->file), ==, 0600);
}

static void
a_link_stays_and_its_file_is_written (Place *place, gconstpointer data)
{
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);

  write_text (place->file, "old");
  g_assert_cmpint (symlink ("out.txt", link), ==, 0);
  write_text (link, "new");
  assert_holds (place->file, "new");
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
}

static void
a_link_to_no_file_yet_makes_it (Place *place, gconstpointer data)
{
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);

  g_assert_cmpint (symlink (place->file, link), ==, 0);
  write_text (link, "new");
  assert_holds (place->file, "new");
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
}

static void
links_in_a_ring_are_refused (Place *place, gconstpointer data)
{
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);

  g_assert_cmpint (symlink (link, place->file), ==, 0);
  g_assert_cmpint (symlink (place->file, link), ==, 0);
  assert_refused (link);
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
  g_assert_true (g_file_test (place->file, G_FILE_TEST_IS_SYMLINK));
}

static void
a_pipe_is_written_to (Place *place, gconstpointer data)
{
  char got[16] = "";
  int fd;

  g_assert_cmpint (mkfifo (place->file, 0600), ==, 0);
  fd = open (place->file, O_RDONLY | O_NONBLOCK);
  g_assert_cmpint (fd, >=, 0);
  write_text (place->file, "through");
  g_assert_cmpint (read (fd, got, sizeof got - 1), ==, 7);
  g_assert_cmpstr (got, ==, "through");
  close (fd);
  g_assert_cmpuint (count_files (place->folder), ==, 1);
}

static void
a_reader_who_leaves_is_no_error (Place *place, gconstpointer data)
{
  HobWriter *writer;
  int ends[2];

  g_assert_cmpint (pipe (ends), ==, 0);
  close (ends[0]);
  writer = hob_writer_new_for_stream (ends[1]);
  g_assert_false (hob_writer_add (writer, "x", 1));
  g_assert_true (hob_writer_close (writer, NULL));
  close (ends[1]);
}

static void
a_full_device_is_an_error (Place *place, gconstpointer data)
{
  assert_refused ("/dev/full");
}

/* A file may not grow beyond 4 KiB: as on a full disk, a part is written and the rest refused. */
static void
a_full_disk_leaves_the_old_file (Place *place, gconstpointer data)
{
  struct rlimit before, small;
  g_autofree char *large = g_strnfill (100000, 'x');
  g_autoptr (GError) error = NULL;
  gboolean good;

  write_text (place->file, "old");
  signal (SIGXFSZ, SIG_IGN);
  g_assert_cmpint (getrlimit (RLIMIT_FSIZE, &before), ==, 0);
  small = (struct rlimit){ 4096, before.rlim_max };
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &small), ==, 0);
  good = hob_write_file (place->file, large, 100000, &error);
  g_assert_cmpint (setrlimit (RLIMIT_FSIZE, &before), ==, 0);
  g_assert_false (good);
  g_assert_error (error, HOB_ERROR, HOB_ERROR_OUTPUT);
  assert_holds (place->file, "old");
  g_assert_cmpuint (count_files (place->folder), ==, 1);
}

static void
a_read_only_file_is_refused (Place *place, gconstpointer data)
{
  write_text (place->file, "old");
  g_assert_cmpint (g_chmod (place->file, 0444), ==, 0);
  assert_refused (place->file);
  assert_holds (place->file, "old");
  g_assert_cmpint (mode_of (place->file), ==, 0444);
}

/* The name that a writer has given its unfinished file, in the child that is killed. */
static void
write_until_killed (Place *place)
{
  pid_t child = fork ();

  g_assert_cmpint (child, >=, 0);
  if (child == 0)
    {
      HobWriter *writer = hob_writer_new (place->file, NULL);

      hob_writer_add (writer, "half", 4);
      raise (SIGKILL);
    }
  g_assert_cmpint (waitpid (child, NULL, 0), ==, child);
}

static void
what_a_killed_writer_left_is_swept (Place *place, gconstpointer data)
{
  g_autofree char *other = g_build_filename (place->folder, "other.txt", NULL);
  HobWriter *open;

  write_text (place->file, "old");
  open = hob_writer_new (place->file, NULL);
  write_until_killed (place);
  g_assert_cmpuint (count_files (place->folder), ==, 3);
  write_text (other, "x");
  g_assert_cmpuint (count_files (place->folder), ==, 3); /* both files, and what is still open */
  g_assert_true (hob_writer_add (open, "new", 3));
  g_assert_true (hob_writer_close (open, NULL));
  assert_holds (place->file, "new");
  g_assert_cmpuint (count_files (place->folder), ==, 2);
}

/* Files with similar names that no writer made. */
static void
what_others_called_alike_stays (Place *place, gconstpointer data)
{
  g_autofree char *longer = g_build_filename (place->folder, ".hobwright-settings", NULL);
  g_autofree char *link = g_build_filename (place->folder, ".hobwright-abcdef", NULL);

  write_text (longer, "mine");
  g_assert_cmpint (symlink (longer, link), ==, 0);
  write_text (place->file, "x");
  assert_holds (longer, "mine");
  g_assert_true (g_file_test (link, G_FILE_TEST_IS_SYMLINK));
}

/* A folder that is not there, and one that nobody, not even root, may write in. */
static void
a_folder_that_takes_nothing_is_an_error (Place *place, gconstpointer data)
{
  assert_refused ("/proc/hobwright.txt");
  assert_refused ("/no-such-folder/hobwright.txt");
  assert_refused (place->folder);
}

static void
the_same_file_by_two_names_is_known (Place *place, gconstpointer data)
{
  g_autofree char *link = g_build_filename (place->folder, "link", NULL);

  write_text (place->file, "x");
  g_assert_false (hob_same_file (place->file, link));
  g_assert_cmpint (symlink ("out.txt", link), ==, 0);
  g_assert_true (hob_same_file (place->file, link));
  g_assert_false (hob_same_file (place->folder, link));
}

#define TEST(name, function) \
  g_test_add ("/base/write-file/" name, Place, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  signal (SIGPIPE, SIG_IGN);

  TEST ("a-new-file-holds-all-and-nothing-else-is-left",
        a_new_file_holds_all_and_nothing_else_is_left);
  TEST ("nothing-shows-before-it-is-whole", nothing_shows_before_it_is_whole);
  TEST ("what-is-dropped-leaves-the-old-file", what_is_dropped_leaves_the_old_file);
  TEST ("the-mode-of-the-old-file-stays", the_mode_of_the_old_file_stays);
  TEST ("a-link-stays-and-its-file-is-written", a_link_stays_and_its_file_is_written);
  TEST ("a-link-to-no-file-yet-makes-it", a_link_to_no_file_yet_makes_it);
  TEST ("links-in-a-ring-are-refused", links_in_a_ring_are_refused);
  TEST ("a-pipe-is-written-to", a_pipe_is_written_to);
  TEST ("a-reader-who-leaves-is-no-error", a_reader_who_leaves_is_no_error);
  TEST ("a-full-device-is-an-error", a_full_device_is_an_error);
  TEST ("a-full-disk-leaves-the-old-file", a_full_disk_leaves_the_old_file);
  TEST ("what-a-killed-writer-left-is-swept", what_a_killed_writer_left_is_swept);
  TEST ("what-others-called-alike-stays", what_others_called_alike_stays);
  TEST ("a-read-only-file-is-refused", a_read_only_file_is_refused);
  TEST ("a-folder-that-takes-nothing-is-an-error", a_folder_that_takes_nothing_is_an_error);
  TEST ("the-same-file-by-two-names-is-known", the_same_file_by_two_names_is_known);
  return g_test_run ();
}
