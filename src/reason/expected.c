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

  return (HobExpected){ answer, isfinite (answer) ? hypot (size * share, spread->fixed) : 0 };
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

/* Whether it shows: at a severity, and as often as not in another unit and house, where that
 * differs. */
static double
shows_of (const HobListed *fault, const double *answers, guint stride, double severity)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];
  double shows[HOB_N_SEVERITIES] = { answers[0] }, here = same;

  for (int k = 1; fault->graded && k < HOB_N_SEVERITIES; k++)
    shows[k] = answers[stride * (fault->first_run + (guint) k - 1)];
  if (fault->graded)
    here = (1 - ELSEWHERE) * hob_shows_at (shows, severity)
           + ELSEWHERE * most_of (shows + 1, HOB_N_SEVERITIES - 1);
  return isfinite (other) && other != same ? (here + other) / 2 : here;
}

/* In another unit and house it is open and here it is not, or the other way round: as often as not
 * it is open, and what it reads otherwise is known by its size alone. */
static HobExpected
open_or (double finite)
{
  return (HobExpected){ finite, fabs (finite), 0.5 };
}

HobExpected
hob_listed_expected (const HobListed *fault, const double *answers, guint stride, double severity,
                     HobDimension dim, const HobScatter *spread)
{
  double same = answers[stride * fault->same_run], other = answers[stride * fault->other_run];
  HobScatter own = { fmax (spread->share, share_of (fault, answers, stride, dim)),
                     spread->fixed };
  HobExpected computed[HOB_N_SEVERITIES] = { hob_expected_of (answers[0], dim, spread) };

  if (dim == HOB_DIM_NUMBER)
    return (HobExpected){ shows_of (fault, answers, stride, severity), 0, 0 };
  if (isinf (same) != isinf (other) && !isnan (same) && !isnan (other))
    return open_or (isinf (same) ? other : same);
  if (!fault->graded)
    return hob_expected_of (answers[stride * fault->first_run], dim, &own);
  for (int k = 1; k < HOB_N_SEVERITIES; k++)
    computed[k]
        = hob_expected_of (answers[stride * (fault->first_run + (guint) k - 1)], dim, &own);
  return hob_expected_at (computed, severity);
}
