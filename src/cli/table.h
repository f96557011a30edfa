/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/cli: the table of faults, as text and as a chart. */

#include "cli/cli.h"
#include "reason/table.h"

G_BEGIN_DECLS

/* (transfer full) */
HobFaultTable *hob_table_make (const HobBench *idle, gboolean pairs);
/* The command with -o. */
int hob_table_draw (char **words, const HobArgs *args, GError **error);

G_END_DECLS
