/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A range under other names: what it does must not hang on what its parts are called. */

#include "run/case.h"

/* A new name for every id of the range: "q" and a number without order.  Keys are borrowed from
 * @range. (transfer full) */
GHashTable *renamed_ids (const HobRange *range, guint64 seed);
/* @name with the part's id before the first of @ends exchanged. (transfer full) */
char *renamed_word (GHashTable *names, const char *name, const char *ends);
/* The range written in @text, under its new names. (transfer full) */
HobRange *renamed_range (const char *text, GHashTable *names);
/* The same acts, faults and settings, said in the other range's names. (transfer full) */
HobCase *renamed_case (const HobCase *c, const HobRange *other, GHashTable *names);
