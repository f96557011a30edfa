/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what a range without faults, and one with a fault, makes one expect of a
 * test. */

#include "reason/trials.h"

G_BEGIN_DECLS

/* What a fault makes one expect of a test, by its severity.  A value of NaN is not known. */
typedef struct
{
  gboolean look, graded;
  HobExpected at[HOB_N_SEVERITIES]; /* of a reading; the first alone, unless it is graded */
  double shows[HOB_N_SHOWN]; /* of a look: of nothing wrong, and at each severity … */
  double most;                      /* … the most of these … */
  double other;                     /* … and in another unit and house, if that differs; or NaN */
} HobCourse;

/* From answers at each computed severity (@answers: [stride·run]; run 0: nothing wrong). */
HobCourse hob_listed_course (const HobListed *fault, const double *answers, guint stride,
                             HobDimension dim, const HobScatter *spread);
HobExpected hob_course_at (const HobCourse *course, double severity);
/* At one severity. */
HobExpected hob_listed_expected (const HobListed *fault, const double *answers, guint stride,
                                 double severity, HobDimension dim, const HobScatter *spread);
/* @answer of a normal range, with the spread of its make. */
HobExpected hob_expected_of (double answer, HobDimension dim, const HobScatter *spread);

G_END_DECLS
