/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The one way a file is written.  A regular file is written beside its name, synced, and takes the
 * name only when it is whole; the mode of a file that it replaces is kept.  A link leads to the
 * file that it names.  A pipe, a device or a stream that this program has open is written to as it
 * is.
 */
typedef struct _HobWriter HobWriter;

/* HOB_ERROR_OUTPUT. */
HobWriter *hob_writer_new (const char *file, GError **error);
/* On a stream that stays open, such as standard output. */
HobWriter *hob_writer_new_for_stream (int fd);
/* Doesn't wait for the disk: whole if the program is killed, but perhaps not if the power fails. */
void hob_writer_skip_sync (HobWriter *writer);
/* FALSE once a byte was refused, or the reader of a pipe is gone: what follows is dropped. */
gboolean hob_writer_add (HobWriter *writer, const char *bytes, gsize size);
/* Frees it.  A closed pipe is not an error. */
gboolean hob_writer_close (HobWriter *writer, GError **error);
/* Frees it; no file is made or changed. */
void hob_writer_discard (HobWriter *writer);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobWriter, hob_writer_discard)

/* All of it at once. */
gboolean hob_write_file (const char *file, const char *bytes, gsize size, GError **error);

/* Removes what killed programs left in @folder of the files that they were writing.  Every writer
 * does so where it writes. */
void hob_writer_sweep (const char *folder);

/* TRUE if both names lead to one file that exists. */
gboolean hob_same_file (const char *a, const char *b);

G_END_DECLS
