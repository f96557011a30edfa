/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: tables of faults kept in the user's cache folder, each under a checksum of
 * all that it depends on: the range, the symptoms, the hypotheses and the program. */

#include "reason/table.h"

G_BEGIN_DECLS

/* A checksum of all that what is kept depends on; @format: what it is, @acts: and under which acts.
 * (transfer full) */
char *hob_cache_key (const HobBench *idle, const char *format, const GArray *hypotheses,
                     const char *acts);

/* Fills the rows of @table; FALSE, and no rows, if none are kept. */
gboolean hob_table_cache_load (const HobBench *idle, HobFaultTable *table);

/* Keeps the rows of @table, if that is possible. */
void hob_table_cache_store (const HobBench *idle, const HobFaultTable *table);

G_END_DECLS
