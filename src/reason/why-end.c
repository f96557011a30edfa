/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Where a chain ends: what the symptom looks at. */
#include "reason/why-search.h"

#include <math.h>

/* What the symptom looks at and differs, at the part where it was noticed if it can be. */
static const Course *
find_end (const Search *s)
{
  g_autoptr (GArray) list
      = hob_symptom_watch_observables (s->bench->watch, s->symptom, s->why->part);
  const Course *best = NULL;

  for (guint k = 0; k < list->len; k++)
    for (guint i = 0; i < s->courses->len; i++)
      {
        const HobObservable *o = &g_array_index (list, HobObservable, k);
        const Course *c = s->courses->pdata[i];

        if (c->part != o->part || c->quantity != o->quantity || isnan (c->since))
          continue;
        if (best == NULL || (c->part == s->why->part && best->part != s->why->part)
            || (c->since > best->since && (c->part == s->why->part || best->part != s->why->part)))
          best = c;
      }
  return best;
}

/* Below what an instrument reads, a nose may notice it: what it looks at is on the other side of
 * the symptom's limit.  FALSE: none of it is. */
static gboolean
find_end_beyond (const Search *s, HobWhyEntry *end)
{
  g_autoptr (GArray) list
      = hob_symptom_watch_observables (s->bench->watch, s->symptom, s->why->part);
  double t = hob_why_last_look (s);

  hob_comparison_read (s->comparison, s->bench->run, hob_bench_should_be (s->bench), t);
  for (guint k = 0; k < list->len; k++)
    {
      const HobObservable *o = &g_array_index (list, HobObservable, k);
      double value
          = hob_moment_quantity (hob_comparison_now (s->comparison), o->part, o->quantity);
      double normal
          = hob_moment_quantity (hob_comparison_normal (s->comparison), o->part, o->quantity);

      if ((value >= o->limit) == (normal >= o->limit))
        continue;
      *end = (HobWhyEntry){ .part = o->part, .quantity = o->quantity, .since = t, .t = t };
      return TRUE;
    }
  return FALSE;
}

/* Where nothing that it looks at differs from the step twin, whose oven is as hot, the whole
 * speaks: the long twin.  FALSE: nor does it there. */
static gboolean
find_end_of_whole (const Search *s, HobWhyEntry *end)
{
  g_autoptr (GArray) list
      = hob_symptom_watch_observables (s->bench->watch, s->symptom, s->why->part);
  g_autoptr (HobComparison) whole = hob_comparison_new (s->bench->plan);
  double t = hob_why_last_look (s);

  hob_comparison_read (whole, s->bench->run, hob_bench_twin (s->bench), t);
  for (guint k = 0; k < list->len; k++)
    {
      const HobObservable *o = &g_array_index (list, HobObservable, k);

      if (!hob_comparison_quantity (whole, o->part, o->quantity, NULL))
        continue;
      *end = (HobWhyEntry){ .part = o->part, .quantity = o->quantity, .since = t, .t = t,
                            .whole = TRUE };
      return TRUE;
    }
  return FALSE;
}

gboolean
hob_why_find_end (const Search *s, HobWhyEntry *end)
{
  const Course *course = find_end (s);

  if (course != NULL)
    *end = (HobWhyEntry){ .part = course->part, .quantity = course->quantity,
                          .since = course->since, .t = course->since };
  return course != NULL || find_end_beyond (s, end) || find_end_of_whole (s, end);
}
