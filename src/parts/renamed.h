/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Kinds, faults, quantities and settings that had another name in an earlier version: a file or a
 * command line that still uses it is read, with a warning.  Another kind may have a setting of the
 * old name today: a kind's own names come first. */

typedef struct
{
  const char *old, *now;
} HobRenamed;

extern const HobRenamed hob_renamings[]; /* ends in a NULL name */

/* The name of today for @name; NULL if it never was another's name. */
const char *hob_renamed (const char *name);

G_END_DECLS
