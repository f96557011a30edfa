/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* base: units, errors, seeded numbers, geometry and drawing verbs; knows nothing of ranges. */

#include <glib.h>

G_BEGIN_DECLS

/* Errors for the person: one code each, one line of text each, "FILE:LINE: what is wrong; what to
 * do" where a file is at fault.  Our own mistakes are g_return_ and g_assert; physics answers by
 * status. */
typedef enum {
  HOB_ERROR_USAGE,      /* the words of a command are off                 → exit 2 */
  HOB_ERROR_UNREADABLE, /* file missing, unreadable, not well-formed, DOCTYPE, encoding, newer →
                           exit 2 */
  HOB_ERROR_FINDING,    /* well-formed, but with findings                 → exit 1 */
  HOB_ERROR_NAME,       /* a name that this range does not have        → exit 1 */
  HOB_ERROR_VALUE, /* a number or unit that cannot be read           → exit 1 in a file, 2 as an
                      argument */
  HOB_ERROR_NO_ANSWER,  /* a question without an answer                   → exit 1 */
  HOB_ERROR_OUTPUT,     /* a file could not be written                    → exit 2 */
  HOB_ERROR_IMPOSSIBLE, /* the run came to a state that cannot be (names the parts) → exit 1 */
} HobError;

#define HOB_ERROR (hob_error_quark ())
GQuark hob_error_quark (void);

/* The exit status that belongs to @error (0 for NULL; 2 for an error of another domain). */
int hob_error_exit_status (const GError *error);

/* The name among @names (NULL-ended) nearest to @word, for "did you mean"; NULL if none is near.
 * Borrowed. */
const char *hob_near_miss (const char *word, const char *const *names);

G_END_DECLS
