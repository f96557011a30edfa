/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* How the window looks, kept from one time to the next in a key file of the person's config folder.
 * What that file lacks, or says wrong, is as it is without it. */

#include <glib.h>

G_BEGIN_DECLS

char *hob_kept_look_theme (void); /* NULL: never chosen. (transfer full) */
void hob_kept_look_set_theme (const char *theme);

G_END_DECLS
