/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Which hazards hold: those of the symptoms that are present, and those that the book's <hazard>
 * entries compute whether or not anyone notices. */
#include "symptoms/book.h"

#define N_BITS (8 * (int) sizeof (HobHazards))

/* +1: @event begins something that has hazards; -1: it ends it; 0: neither. */
static int
change_of (const HobSymptomBook *book, const HobEvent *event, HobHazards *hazards)
{
  gboolean symptom = event->what == HOB_EVENT_SYMPTOM || event->what == HOB_EVENT_SYMPTOM_END;
  gboolean begins = event->what == HOB_EVENT_SYMPTOM || event->what == HOB_EVENT_HAZARD;
  gboolean ends = event->what == HOB_EVENT_SYMPTOM_END || event->what == HOB_EVENT_HAZARD_END;
  const GPtrArray *entries = symptom ? book->entries : book->hazards;

  if (!begins && !ends)
    return 0;
  *hazards = ((const HobEntry *) entries->pdata[event->index])->symptom.hazards;
  return begins ? 1 : -1;
}

HobHazards
hob_hazards_at (const HobSymptomBook *book, const HobRun *run, double t)
{
  guint first, n = hob_run_events (run, -1, t, &first);
  int reasons[N_BITS] = { 0 };
  HobHazards now = 0;

  for (guint k = first; k < first + n; k++)
    {
      HobHazards hazards = 0;
      int change = change_of (book, hob_run_event (run, k), &hazards);

      for (int bit = 0; bit < N_BITS; bit++)
        if (hazards & HOB_HAZARD_BIT (bit))
          reasons[bit] += change;
    }
  for (int bit = 0; bit < N_BITS; bit++)
    if (reasons[bit] > 0)
      now |= HOB_HAZARD_BIT (bit);
  return now;
}

HobHazards
hob_hazards_up_to (const HobSymptomBook *book, const HobRun *run, double t)
{
  guint first, n = hob_run_events (run, -1, t, &first);
  HobHazards all = 0;

  for (guint k = first; k < first + n; k++)
    {
      HobHazards hazards = 0;

      if (change_of (book, hob_run_event (run, k), &hazards) > 0)
        all |= hazards;
    }
  return all;
}
