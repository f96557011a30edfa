/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Reading a range or a case file for a person: what is in it, or all that is wrong with it. */

#include "run/case-file.h"
#include <gio/gio.h>

G_BEGIN_DECLS

typedef struct
{
  /*< owned >*/
  char *file;       /* its path */
  HobCaseFile *c;   /* NULL: it can't be opened */
  GPtrArray *lines; /* char *: "oven.xml:12: what is wrong; what to do", in the file's order */

  /*< borrowed >*/
  HobRange *range; /* of c */
} HobOpening;

HobOpening *hob_opening_new (const char *file);
gboolean hob_opening_is_case (const HobOpening *opening); /* else the file is a range */
void hob_opening_free (HobOpening *opening);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobOpening, hob_opening_free)

char *hob_opening_title (const HobOpening *opening); /* what the list is about (transfer full) */

/* What was done in @from, as far as @range has the same parts and positions.  @left_out: what it
 * has no place for, a line each (char *).  (transfer full) */
HobCase *hob_case_carry (const HobCase *from, const HobRange *range, GPtrArray *left_out);

/* ---- The ranges that come with the program ---- */

typedef struct
{
  char *file, *name; /* owned */
} HobShipped;

/* All that can be opened, HobShipped *, by name. (transfer full) */
GPtrArray *hob_shipped_ranges (void);

G_END_DECLS
