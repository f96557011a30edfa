/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "reason/effort.h"

#include <math.h>

/* Minutes: common practice, no source. */
#define ACT 0.2   /* to work a control */
#define PLACE 3.0 /* to put a thermometer into the oven */
#define NOTE 0.1  /* to say what one more sign did in a run that is watched anyway: assumed */

/* The usual minutes of a thermometer are those of the cycles that it watches; who reads it at a
 * known time takes that time, and those to put it in. */
static double
without_waiting (const HobMeansDef *means)
{
  return means == &hob_means[HOB_MEANS_THERMOMETER] ? PLACE : means->minutes;
}

/* Minutes at the controls by time t. */
static double
handling (const HobOccasion *o, double t)
{
  guint n = 0;

  for (guint k = o->first; k < o->acts->acts->len; k++)
    n += (double) g_array_index (o->acts->acts, HobAct, k).ms <= t * 1000;
  return ACT * n;
}

double
hob_effort_first (const HobMeansDef *means, const HobOccasion *o, double t)
{
  return without_waiting (means) + t / 60 + handling (o, t);
}

double
hob_effort_note (void)
{
  return NOTE;
}

static int
part_of (const HobRange *range, const HobTest *test)
{
  return test->wire >= 0 ? range->wires[test->wire].from.part
         : test->part >= 0 ? test->part
                           : test->a.part;
}

int
hob_effort_behind (const HobRange *range, const HobTest *test)
{
  int part = part_of (range, test), place = part >= 0 ? range->parts[part].in : -1;

  while (place >= 0 && range->parts[place].in >= 0)
    place = range->parts[place].in;
  return place;
}

/* Were the panels taken off for an earlier test? */
static gboolean
is_open (const HobInquiry *q, int behind)
{
  const HobRange *range = q->base->range;

  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobTest *made = ((HobClue *) q->clues->pdata[k])->test;

      if (hob_means[hob_test_means (range, made)].set_up > 0
          && hob_effort_behind (range, made) == behind)
        return TRUE;
    }
  return FALSE;
}

/* @clue: of a run of the range that somebody watched. */
static void
add_watched (const HobInquiry *q, HobOccasion *o, guint k)
{
  const HobClue *clue = q->clues->pdata[k];
  g_autoptr (HobCase) acts = NULL;
  double until;

  if (clue->volunteered || isnan (clue->test->time) || hob_test_is_dead (clue->test))
    return;
  acts = hob_clue_case (clue, q->base, &until);
  if (hob_occasion_left_alone (o, acts) < until)
    return;
  o->watched = fmax (o->watched, until);
  if (k + 1 == q->clues->len)
    o->runs_on = until;
}

void
hob_effort_note_watched (const HobInquiry *q, const GPtrArray *occasions)
{
  for (guint i = 0; i < occasions->len; i++)
    for (guint k = 0; k < q->clues->len; k++)
      add_watched (q, occasions->pdata[i], k);
}

/* Whoever watches goes on watching, and has seen all that eyes can see: what one more sign did
 * need only be said.  An instrument that was not there has shown nothing. */
static HobEffort
of_look (const HobOccasion *o, double t, const HobMeansDef *means)
{
  gboolean eyes = means == &hob_means[HOB_MEANS_LOOK], watched = t <= o->watched;
  double left = watched          ? 0
                : o->runs_on > 0 ? (t - o->runs_on) / 60
                                 : t / 60 + handling (o, t);
  double minutes = (eyes && watched ? NOTE : without_waiting (means)) + left;

  return (HobEffort){ minutes, eyes ? minutes - NOTE : left, o, t };
}

/* What one thermometer read at a time is noted: the air, how far it is from what is set, and how
 * that went up and down. */
static gboolean
was_noted (const HobInquiry *q, const HobOccasion *o, double t)
{
  for (guint k = 0; k < q->clues->len; k++)
    {
      const HobClue *clue = q->clues->pdata[k];
      g_autoptr (HobCase) acts = NULL;
      double then;

      if (clue->volunteered || isnan (clue->test->time)
          || hob_test_means (q->base->range, clue->test) != HOB_MEANS_THERMOMETER)
        continue;
      acts = hob_clue_case (clue, q->base, &then);
      if (then == t && hob_occasion_left_alone (o, acts) >= t)
        return TRUE;
    }
  return FALSE;
}

static HobEffort
of_thermometer (const HobInquiry *q, const HobOccasion *o, double t, const HobMeansDef *means)
{
  double minutes = was_noted (q, o, t) ? hob_means[HOB_MEANS_LOOK].minutes
                                       : hob_effort_first (means, o, t);

  return (HobEffort){ minutes, 0, NULL, 0 };
}

static HobEffort
of_reading (const HobInquiry *q, const HobOccasion *o, double t, const HobTest *test,
            const HobMeansDef *means)
{
  const HobRange *range = q->base->range;
  double minutes = hob_effort_first (means, o, t);
  int behind;

  if (means->set_up <= 0)
    return (HobEffort){ minutes, 0, NULL, 0 };
  behind = hob_effort_behind (range, test);
  if (is_open (q, behind))
    return (HobEffort){ minutes - means->set_up, 0, NULL, 0 };
  return (HobEffort){ minutes, means->set_up, range, behind };
}

/* Leads stay exchanged from one look to the next. */
static HobEffort
of_exchange (const HobInquiry *q, const HobOccasion *o, double t, const HobMeansDef *means)
{
  const HobMeansDef *look = &hob_means[HOB_MEANS_LOOK];

  for (guint k = 0; k < q->clues->len; k++)
    if (&hob_means[hob_test_means (q->base->range, ((HobClue *) q->clues->pdata[k])->test)]
        == means)
      return (HobEffort){ hob_effort_first (look, o, t), 0, NULL, 0 };
  return (HobEffort){ means->minutes + hob_effort_first (look, o, t), means->minutes, means, 0 };
}

HobEffort
hob_effort_of (const HobInquiry *q, const HobOccasion *o, double t, const HobTest *test,
               const HobMeansDef *means)
{
  return o->exchanged                             ? of_exchange (q, o, t, means)
         : test->what == HOB_TEST_LOOK         ? of_look (o, t, means)
         : means == &hob_means[HOB_MEANS_THERMOMETER] ? of_thermometer (q, o, t, means)
                                               : of_reading (q, o, t, test, means);
}
