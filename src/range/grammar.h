/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* grammar: the shapes of a file by RELAX NG, from a grammar that is in the program. */

#include "range/range.h"

#include <libxml/tree.h>

G_BEGIN_DECLS

/* Static; compiled at its first use. */
typedef struct
{
  const char *text;
  int size;
  const char *name; /* "range.rng" */
  GOnce once;
} HobGrammar;

/* Findings at @findings for what it refuses. */
void hob_grammar_check_by (HobGrammar *grammar, xmlDoc *doc, const char *file, GPtrArray *findings);

G_END_DECLS
