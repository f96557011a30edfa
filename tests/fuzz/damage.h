/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Seeded damages: where no fuzzer is linked, a test tries what a fuzzer would. */

#include "base/hash.h"
#include <glib.h>
#include <stdint.h>

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

static guint64 seed = 1;

static guint
chance (guint below)
{
  return (guint) (hob_hash_uniform (7, 0, seed++) * below);
}

/* Cuts @bytes short, takes a stretch of at most @longest away, changes a byte or puts one of @bits
 * in. */
static void
damage (GString *bytes, const char *const *bits, guint n_bits, guint longest)
{
  gsize at = chance ((guint) bytes->len + 1), some = 1 + chance (longest);

  switch (chance (4))
    {
    case 0:
      g_string_truncate (bytes, at);
      break;
    case 1:
      g_string_erase (bytes, (gssize) at, (gssize) MIN (bytes->len - at, some));
      break;
    case 2:
      if (at < bytes->len)
        bytes->str[at] = (char) chance (256);
      break;
    default:
      g_string_insert (bytes, (gssize) at, bits[chance (n_bits)]);
      break;
    }
}

/* @file as it is, then @times with one to three damages. */
static void
try_file (const char *file, int times, const char *const *bits, guint n_bits, guint longest)
{
  g_autofree char *text = NULL;
  gsize size;

  g_assert_true (g_file_get_contents (file, &text, &size, NULL));
  LLVMFuzzerTestOneInput ((const uint8_t *) text, size);
  for (int i = 0; i < times; i++)
    {
      GString *bytes = g_string_new_len (text, (gssize) size);

      for (guint k = 0, n = 1 + chance (3); k < n; k++)
        damage (bytes, bits, n_bits, longest);
      LLVMFuzzerTestOneInput ((const uint8_t *) bytes->str, bytes->len);
      g_string_free (bytes, TRUE);
    }
}

/* Every file of @folder, which has some, but what tests expect. */
static void
try_files_of (const char *folder, int times, const char *const *bits, guint n_bits, guint longest)
{
  g_autofree char *path = g_build_filename (HOB_SOURCE_DIR, folder, NULL);
  g_autoptr (GDir) dir = g_dir_open (path, 0, NULL);
  const char *name;
  guint n = 0;

  g_assert_nonnull (dir);
  for (; (name = g_dir_read_name (dir)) != NULL; n++)
    {
      g_autofree char *file = g_build_filename (path, name, NULL);

      if (g_file_test (file, G_FILE_TEST_IS_REGULAR) && !g_str_has_suffix (name, ".expected"))
        try_file (file, times, bits, n_bits, longest);
    }
  g_assert_cmpuint (n, >, 0);
}
