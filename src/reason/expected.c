/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/expected.h"

#include <math.h>

/* Assumptions of this project. */
#define UNIT_LIMIT 0.03  /* how far units of one make differ at least */
#define ELSEWHERE 0.1    /* share of units in which a symptom begins at another severity */
#define MULTIPLES 20.0   /* by which what scatters may differ at most */
#define ROOM 298.15      /* K: temperatures differ in their distance to the room's */

/* Standard deviation among units: what other units and houses show, and never less than parts of
 * one make differ. */
HobExpected
hob_expected_of (double answer, HobDimension dim, const HobScatter *spread)
{
  double size = fabs (answer - (dim == HOB_DIM_TEMPERATURE ? ROOM : 0));
  double share = fmax (spread->share, UNIT_LIMIT / sqrt (3));

  double of_size = size * share;

  return (HobExpected){
    answer,
    isfinite (answer) ? sqrt (of_size * of_size + spread->fixed * spread->fixed) : 0,
  };
}

/* The least and the most that a fault answers in this unit and in another. */
static void
widen (const HobListed *fault, const double *answers, guint stride, double *low, double *high)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];

  *low = fmin (*low, fmin (same, other));
  *high = fmax (*high, fmax (same, other));
}

/* What another unit in another house, and other chances, change of a fault's answer, as a share: of
 * the greater and the less, how many times the one is more than the other.  Parts in parallel at
 * which it answers as well are more units. */
static double
share_of (const HobListed *fault, const double *answers, guint stride, HobDimension dim)
{
  double room = dim == HOB_DIM_TEMPERATURE ? ROOM : 0, low = INFINITY, high = -INFINITY;
  double all_low, all_high;

  widen (fault, answers, stride, &low, &high);
  if (!isfinite (low) || !isfinite (high))
    return 0;
  all_low = low;
  all_high = high;
  for (const HobListed *f = fault + fault->next; f != fault; f += f->next)
    widen (f, answers, stride, &all_low, &all_high);
  if (isfinite (all_low) && isfinite (all_high))
    {
      low = all_low;
      high = all_high;
    }
  low -= room;
  high -= room;
  if (low * high <= 0)
    return low != high ? 1 : 0;
  return fmin (fmax (low / high, high / low) - 1, MULTIPLES);
}

static double
most_of (const double *values, int n)
{
  double most = values[0];

  for (int k = 1; k < n; k++)
    most = fmax (most, values[k]);
  return most;
}

/* In another unit and house it is open and here it is not, or the other way round: as often as not
 * it is open, and what it reads otherwise is known by its size alone. */
static HobExpected
open_or (double finite)
{
  return (HobExpected){ finite, fabs (finite), 0.5 };
}

/* Halfway; where that was not run, as often as on either side. */
static double
halfway (double mid, double below, double above)
{
  return isnan (mid) ? (below + above) / 2 : mid;
}

static HobCourse
course_of_look (const HobListed *fault, const double *answers, guint stride)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];
  HobCourse c = { .look = TRUE, .graded = fault->graded, .shows = { answers[0] },
                  .other = isfinite (other) && other != same ? other : NAN };

  for (int k = 1; k < HOB_N_SEVERITIES; k++)
    {
      double mid = fault->first_mid > 0 ? answers[stride * (fault->first_mid + (guint) k - 1)]
                                        : (double) NAN;

      c.shows[2 * k] = fault->graded ? answers[stride * (fault->first_run + (guint) k - 1)] : same;
      c.shows[2 * k - 1] = halfway (mid, c.shows[2 * k - 2], c.shows[2 * k]);
    }
  c.most = most_of (c.shows + 1, HOB_N_SHOWN - 1);
  return c;
}

static HobCourse
course_of_reading (const HobListed *fault, const double *answers, guint stride, HobDimension dim,
                   const HobScatter *spread)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];
  HobScatter own = { fmax (spread->share, share_of (fault, answers, stride, dim)),
                     spread->fixed };
  HobCourse c = { .graded = fault->graded, .at = { hob_expected_of (answers[0], dim, spread) } };

  if (isinf (same) != isinf (other) && !isnan (same) && !isnan (other))
    return (HobCourse){ .at = { open_or (isinf (same) ? other : same) } };
  if (!fault->graded)
    c.at[0] = hob_expected_of (answers[stride * fault->first_run], dim, &own);
  for (int k = 1; fault->graded && k < HOB_N_SEVERITIES; k++)
    c.at[k] = hob_expected_of (answers[stride * (fault->first_run + (guint) k - 1)], dim, &own);
  for (int k = 0; k < HOB_N_SEVERITIES; k++) /* where normal units read nothing, none says more */
    c.at[k].few = isinf (answers[0]) && isfinite (c.at[k].value);
  return c;
}

HobCourse
hob_listed_course (const HobListed *fault, const double *answers, guint stride, HobDimension dim,
                   const HobScatter *spread)
{
  return dim == HOB_DIM_NUMBER ? course_of_look (fault, answers, stride)
                               : course_of_reading (fault, answers, stride, dim, spread);
}

/* Whether it shows: at a severity, and as often as not in another unit and house, where that
 * differs. */
static double
shows_at (const HobCourse *c, double severity)
{
  double here = c->graded ? (1 - ELSEWHERE) * hob_shows_at (c->shows, severity)
                                + ELSEWHERE * c->most
                          : c->most;

  return isnan (c->other) ? here : (here + c->other) / 2;
}

HobExpected
hob_course_at (const HobCourse *c, double severity)
{
  if (c->look)
    return (HobExpected){ shows_at (c, severity), 0, 0 };
  return c->graded ? hob_expected_at (c->at, severity) : c->at[0];
}

HobExpected
hob_listed_expected (const HobListed *fault, const double *answers, guint stride, double severity,
                     HobDimension dim, const HobScatter *spread)
{
  HobCourse c = hob_listed_course (fault, answers, stride, dim, spread);

  return hob_course_at (&c, severity);
}
