/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* @text on one line of a terminal: what would move the cursor, end the line or change the direction
 * of what follows is written as an escape such as \n or \u009b, and so is what is not UTF-8.  For
 * words out of a file or off a command line; a table for a spreadsheet keeps them as they are.
 * (transfer full) */
char *hob_plain_text (const char *text);

G_END_DECLS
