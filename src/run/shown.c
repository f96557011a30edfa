/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "run/shown.h"

#include "run/follow.h"
#include "run/record.h"
#include <math.h>

#define BESIDE_EDGE 0.5 /* s before and after what ends one step and begins another */
#define BEHIND 0.1      /* s: so far beyond its time a look may read */

struct _HobShown
{
  /*< owned >*/
  HobComparison *back; /* NULL: nobody has looked so far */

  /*< borrowed >*/
  HobRun *twin;

  double looked_to; /* s: every look up to here has been made */
  double from;      /* s: something has shown from here on; NaN: not so far */
  guint looks;
};

HobShown *
hob_shown_new (HobRun *twin)
{
  HobShown *shown = g_new0 (HobShown, 1);

  shown->twin = twin;
  shown->looked_to = -INFINITY;
  shown->from = NAN;
  return shown;
}

void
hob_shown_free (HobShown *shown)
{
  if (shown == NULL)
    return;
  hob_comparison_free (shown->back);
  g_free (shown);
}

void
hob_shown_cut (HobShown *shown, double t)
{
  /* What has shown from some time on was seen BESIDE_EDGE before it. */
  if (shown->from > t - BEHIND)
    shown->from = NAN;
  /* The edge at t may be a new one, and nobody has looked before it. */
  shown->looked_to = fmin (shown->looked_to, t - BESIDE_EDGE - BEHIND);
}

guint
hob_shown_looks (const HobShown *shown)
{
  return shown->looks;
}

static void
look (HobShown *shown, double t)
{
  HobRun *run = hob_follow_run (shown->twin->follow);

  if (shown->back == NULL)
    shown->back = hob_comparison_new (hob_run_plan (run));
  shown->looks++;
  hob_comparison_read (shown->back, run, shown->twin, fmax (t, 0));
  if (hob_comparison_shows (shown->back))
    shown->from = t + BESIDE_EDGE;
}

/* The next edge of the @n from *@k on. */
static const HobEvent *
next_edge (const HobRun *run, guint *k, guint n)
{
  for (; *k < n; (*k)++)
    {
      const HobEvent *event = hob_run_event (run, *k);

      if (event->what == HOB_EVENT_ACT || event->what == HOB_EVENT_CHANGE)
        return event;
    }
  return NULL;
}

/* Two walks over the same edges, one that looks before them and one that looks after. */
static void
look_to (HobShown *shown, double to)
{
  const HobRun *run = hob_follow_run (shown->twin->follow);
  guint first, n = hob_run_events (run, shown->looked_to - 2 * BESIDE_EDGE, to + BESIDE_EDGE,
                                   &first);
  guint before = first, after = first;

  n += first;
  while (isnan (shown->from))
    {
      const HobEvent *b = next_edge (run, &before, n), *a = next_edge (run, &after, n);
      double tb = b != NULL ? b->t - BESIDE_EDGE : INFINITY;
      double ta = a != NULL ? a->t + BESIDE_EDGE : INFINITY;
      double t = fmin (ta, tb);

      if (!(t <= to))
        break;
      if (tb <= ta)
        before++;
      else
        after++;
      if (t <= shown->looked_to)
        continue;
      look (shown, t);
      shown->looked_to = t;
    }
}

double
hob_shown_at (HobShown *shown, double t)
{
  if (isnan (shown->from))
    look_to (shown, t - BESIDE_EDGE);
  return shown->from <= t ? shown->from : NAN;
}
