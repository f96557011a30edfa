/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* GOption reads the words of a command; what it says about wrong ones is put into our own words, in
 * one line with HOB_ERROR_USAGE.
 */

/* Rewords a G_OPTION_ERROR; other errors stay.  @names: "--csv", "-o", …, NULL-ended, for "did you
 * mean"; NULL if they are not known. */
void hob_option_reword (GError **error, const char *const *names);
/* For a callback; FALSE. */
gboolean hob_option_given_twice (const char *name, GError **error);

G_END_DECLS
