/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* kept: a copy of the open job in the person's state folder.  It is there as long as something in
 * the job is not saved, and is left behind only where the program was killed. */

#include "run/case-file.h"

G_BEGIN_DECLS

typedef struct _HobKept HobKept;

/* A place for a copy that nobody else has.  HOB_ERROR_OUTPUT. */
HobKept *hob_kept_new (GError **error);
/* The copy @file that a killed program left; NULL: another program has taken it. */
HobKept *hob_kept_take (const char *file);
gboolean hob_kept_write (HobKept *kept, const HobCaseFile *c, GError **error);
/* Frees; the copy stays, as if the program had been killed. */
void hob_kept_release (HobKept *kept);
/* Removes the copy and frees. */
void hob_kept_free (HobKept *kept);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobKept, hob_kept_free)

/* Copies that killed programs left, char *, latest first.  Whatever else they left there is
 * removed.  (transfer full) */
GPtrArray *hob_kept_left (void);

G_END_DECLS
