/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/confirm.h"

#include "reason/checks.h"
#include "reason/offers.h"

#include <math.h>

#define APART 3.0 /* standard deviations by which a reading that confirms is off a normal one */

/* Was it read there before, at whatever time? */
static gboolean
was_read (const HobInquiry *q, const HobTest *test)
{
  for (guint k = 0; k < q->clues->len; k++)
    if (hob_test_same (((HobClue *) q->clues->pdata[k])->test, test))
      return TRUE;
  return FALSE;
}

/* The quickest so far. */
typedef struct
{
  const HobInquiry *q;
  const HobSuspect *first;
  HobSkill role;
  double *told; /* owned; [run]: of one column */
  const HobOccasion *occasion;
  const HobListedTest *listed;
  double t, minutes;
} Quickest;

static gboolean
confirms (Quickest *best, const HobListedTest *listed, const float *answers, gsize stride,
          const HobScatter *spread)
{
  HobExpected with, normal;

  for (guint r = 0; r < best->q->n_runs; r++)
    best->told[r] = (double) answers[r * stride];
  normal = hob_expected_of (best->told[0], listed->dim, spread);
  with = hob_listed_expected (hob_inquiry_listed (best->q, best->first), best->told, 1,
                              best->first->severity.middle, listed->dim, spread);
  return hob_expected_apart (&with, &normal, listed->dim, APART);
}

static void
try_at (Quickest *best, const HobOccasion *o, double t)
{
  const GPtrArray *tests = hob_trials_tests (best->q->trials);
  const HobScatter *spread;
  const float *answers = hob_trials_readings (best->q->trials, o->acts, t, &spread);

  for (guint k = 0; answers != NULL && k < tests->len; k++)
    {
      const HobListedTest *listed = tests->pdata[k];
      double minutes = hob_offer_minutes (listed->means, t);

      if (minutes >= best->minutes || !hob_occasion_suits (o, listed->test)
          || !hob_test_at_part (best->q->base->range, listed->test, best->first->part)
          || !hob_offer_is_for (listed->means, best->role) || was_read (best->q, listed->test)
          || !confirms (best, listed, answers + k, tests->len, &spread[k]))
        continue;
      best->occasion = o;
      best->listed = listed;
      best->t = t;
      best->minutes = minutes;
    }
}

HobOffer *
hob_confirm_find (const HobInquiry *q, const GPtrArray *occasions, HobSkill role,
                  const HobSuspect *first)
{
  g_autofree double *told = g_new (double, q->n_runs);
  Quickest best = { q, first, role, told, NULL, NULL, NAN, INFINITY };
  HobOffer *offer;

  for (guint k = 0; k < occasions->len && !hob_trials_cancelled (q->trials); k++)
    {
      const HobOccasion *o = occasions->pdata[k];

      for (guint i = 0; i < o->moments->len; i++)
        try_at (&best, o, g_array_index (o->moments, double, i));
    }
  if (best.listed == NULL)
    return NULL;
  offer = g_new0 (HobOffer, 1);
  *offer = (HobOffer){ hob_occasion_test (q->base, best.occasion, best.t, best.listed->test),
                       best.listed->means, best.minutes, 0, 0 };
  offer->hazards = hob_test_hazards (q->base->range, offer->test);
  return offer;
}
