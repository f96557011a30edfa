/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* Files that belong to a program as long as it runs.  The lock goes when the program does, however
 * it ends; so what a killed program left behind can be told from what another one is using. */

/* Makes a file of a new name, locked: the last XXXXXX in @name is replaced.  −1 and errno. */
int hob_lock_new (char *name, int mode);
/* Opens a file of this user and locks it.  −1: it is gone, or another program has it. */
int hob_lock_take (const char *name);

G_END_DECLS
