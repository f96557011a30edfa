/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Chance is a pure function of (seed, part index, count), never a stream: no order of asking
 * changes it. */
guint64 hob_hash_mix (guint64 seed, guint64 part, guint64 count);

/* Uniform in [0, 1). */
double hob_hash_uniform (guint64 seed, guint64 part, guint64 count);

/* Standard normal (by the inverse distribution; one hash a number). */
double hob_hash_normal (guint64 seed, guint64 part, guint64 count);

/* Hash of a block of memory, for "same state" checks. */
guint64 hob_hash_block (const void *data, gsize size);

G_END_DECLS
