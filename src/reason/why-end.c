/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where a chain ends: what the symptom looks at. */
#include "reason/why-search.h"

#include <math.h>

/* An observable of the symptom, by how well it ends the chain. */
typedef enum
{
  NOT_AT_ALL,
  WHOLE,          /* nothing differs now, but in the whole */
  BEYOND,         /* below what an instrument reads, but on the other side of the symptom's limit */
  ELSEWHERE,      /* it differs, at another part than the one where the symptom is noticed … */
  WITHIN,         /* … or at one that is in its air */
  WHOLE_HERE,     /* at that part, in the whole … */
  WHOLE_CROSSES,  /* … and on the other side of the limit */
  HERE,           /* it differs there … */
  CROSSES,        /* … and is on the other side of the limit */
} Worth;

/* Both comparisons are of the moment at which the symptom is noticed. */
typedef struct
{
  const Search *s;
  HobComparison *whole;
  double t;
  Worth worth;      /* of the best one so far */
  HobWhyEntry *end; /* which it is */
} Ends;

/* NULL: it has not differed. */
static const Course *
course_of (const Search *s, const HobObservable *o)
{
  const Course *c = hob_why_course (s, o->part, o->quantity);

  return isnan (c->since) ? NULL : c;
}

static gboolean
crosses (const HobComparison *c, const HobObservable *o)
{
  double value = hob_moment_quantity (hob_comparison_now (c), o->part, o->quantity);
  double normal = hob_moment_quantity (hob_comparison_normal (c), o->part, o->quantity);

  return (value >= o->limit) != (normal >= o->limit);
}

static Worth
worth_of (const Ends *e, const HobObservable *o)
{
  int where = e->s->why->part;
  gboolean here = o->part == where;
  gboolean within = where >= 0 && hob_bench_range (e->s->bench)->parts[o->part].in == where;

  if (course_of (e->s, o) != NULL)
    return here     ? (crosses (e->s->comparison, o) ? CROSSES : HERE)
           : within ? WITHIN
                    : ELSEWHERE;
  if (hob_comparison_quantity (e->whole, o->part, o->quantity, NULL))
    return !here ? WHOLE : crosses (e->whole, o) ? WHOLE_CROSSES : WHOLE_HERE;
  return crosses (e->s->comparison, o) ? BEYOND : NOT_AT_ALL;
}

/* Of several as good the one that has differed last, or else the first. */
static void
consider (Ends *e, const HobObservable *o)
{
  Worth worth = worth_of (e, o);
  const Course *c = course_of (e->s, o);
  double since = c != NULL ? c->since : e->t;

  if (worth == NOT_AT_ALL || worth < e->worth || (worth == e->worth && since <= e->end->since))
    return;
  e->worth = worth;
  *e->end = (HobWhyEntry){ .part = o->part, .quantity = o->quantity, .since = since, .t = since,
                           .whole = c == NULL && worth != BEYOND };
}

/* The step twin's oven is as hot as the run's, so that the whole speaks of its heat: the long
 * twin. */
gboolean
hob_why_find_end (const Search *s, HobWhyEntry *end)
{
  g_autoptr (GArray) list
      = hob_symptom_watch_observables (s->bench->watch, s->symptom, s->why->part);
  g_autoptr (HobComparison) whole = hob_comparison_new (s->bench->plan);
  Ends e = { s, whole, hob_why_last_look (s), NOT_AT_ALL, end };

  hob_comparison_read (whole, s->bench->run, hob_bench_twin (s->bench), e.t);
  hob_comparison_read (s->comparison, s->bench->run, hob_bench_should_be (s->bench), e.t);
  for (guint k = 0; k < list->len; k++)
    consider (&e, &g_array_index (list, HobObservable, k));
  return e.worth != NOT_AT_ALL;
}
