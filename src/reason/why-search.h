/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* The search for a chain, for the files why*.c alone: what differed, since when, and what the chain
 * ends at. */

#include "reason/why.h"
#include "run/comparison.h"

G_BEGIN_DECLS

/* How a quantity has differed up to the symptom. */
typedef struct
{
  int part, quantity; /* quantity −1: what was done to the part */
  double since;    /* s; NaN: it has not */
  GArray *off;     /* double of each look, SI: by how much, 0: it doesn't differ; none if quantity
                      is −1 */
  HobAct act;      /* quantity −1 */
} Course;

typedef struct
{
  HobBench *bench;   /* borrowed */
  int symptom;
  HobWhy *why;       /* borrowed */
  const gint *cancel; /* borrowed; NULL: never */
  HobRun *normal;    /* owned: the same acts without the faults, for every clamp; NULL: not yet */
  GArray *looks;     /* double, s */
  GPtrArray *courses; /* Course *, owned: each quantity */
  GPtrArray *faults;  /* Course *, owned: of each part to which something was done, the first */
  gboolean *acts;     /* of each part: does it ever do something else to others than it should? */
  HobComparison *comparison;
} Search;

/* The first link of @kind that moves something by @quantity; NULL: none. */
const HobLinkDef *hob_why_link_from (const HobKind *kind, int quantity);
/* The one of them that has a limit; NULL: none has. */
const HobLinkDef *hob_why_limited_link (const HobKind *kind, int quantity);

static inline double
hob_why_last_look (const Search *s)
{
  return g_array_index (s->looks, double, s->looks->len - 1);
}

/* How @quantity of @part has differed; NULL: it is −1, and what was done to the part speaks for
 * it. */
const Course *hob_why_course (const Search *s, int part, int quantity);

/* What the symptom looks at and differs: the end of the chain.  FALSE: nothing does. */
gboolean hob_why_find_end (const Search *s, HobWhyEntry *end);
/* What lies between the end and one of @starts (Course) whose part is faulty: Course *, borrowed,
 * from the end back, down to one of that part.  (transfer container) NULL: no way leads there. */
GPtrArray *hob_why_trace (const Search *s, const GPtrArray *starts, const HobWhyEntry *end);

G_END_DECLS
