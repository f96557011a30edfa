/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What happened in a run: finding it, and saying it in words. */

#include "run/record.h"
#include "base/i18n.h"
#include <math.h>

/* How many events there are at or before t. */
static guint
events_until (const HobRun *run, double t)
{
  guint low = 0, high = run->events->len;

  while (low < high)
    {
      guint middle = low + (high - low) / 2;
      if (hob_run_event (run, middle)->t <= t)
        low = middle + 1;
      else
        high = middle;
    }
  return low;
}

guint
hob_run_events (const HobRun *run, double from, double to, guint *first)
{
  *first = events_until (run, from);
  return MAX (events_until (run, to), *first) - *first;
}

const HobEvent *
hob_run_event (const HobRun *run, guint index)
{
  return &g_array_index (run->events, HobTold, index).event;
}

gboolean
hob_run_next_event (HobRun *run, double t, double until, HobEvent *event)
{
  for (double end = t;;)
    {
      guint first, n;

      /* A watch may tell of a moment some time after it: look a step further than the event. */
      if (hob_run_advance (run, fmin (end, until), NULL) != HOB_RUN_OK)
        end = until;
      n = hob_run_events (run, t, until, &first);
      if (n > 0)
        {
          *event = *hob_run_event (run, first);
          return event->t <= until;
        }
      if (end >= until)
        return FALSE;
      end = fmin (until, fmax (end + 10, hob_run_reached (run) + 10));
    }
}

static char *
act_id (const HobRange *range, const HobAct *act)
{
  const HobPart *part = &range->parts[act->part];

  switch (act->what)
    {
    case HOB_ACT_CONTROL: return hob_range_control_name (range, act->part, act->index);
    case HOB_ACT_SETTING:
      return g_strdup_printf ("%s.%s", part->id, part->kind->settings[act->index].name);
    case HOB_ACT_FAULT:
    case HOB_ACT_LIFT:
    default: return g_strdup_printf ("%s:%s", part->id, part->kind->faults[act->index].id);
    }
}

char *
hob_event_id (const HobRun *run, const HobEvent *event)
{
  const HobRange *range = run->plan->range;
  const HobPart *part = event->part >= 0 ? &range->parts[event->part] : NULL;

  if (event->what == HOB_EVENT_CHANGE)
    return g_strdup_printf ("%s.%s", part->id, part->kind->modes[event->index].name);
  if (event->what == HOB_EVENT_ACT)
    return act_id (range, &g_array_index (run->acts->acts, HobAct, event->index));
  return NULL;
}

char *
hob_event_text (const HobRun *run, const HobEvent *event)
{
  const HobRange *range = run->plan->range;
  const HobPart *part = event->part >= 0 ? &range->parts[event->part] : NULL;
  const char *const *words;
  int n = 0;

  if (event->what == HOB_EVENT_ACT)
    return hob_act_text (range, &g_array_index (run->acts->acts, HobAct, event->index));
  if (event->what != HOB_EVENT_CHANGE)
    return NULL;
  words = part->kind->modes[event->index].words;
  while (words[n] != NULL)
    n++;
  /* Translators: a part's label, then what happens to it: "Bake burner: flame lights". */
  return g_strdup_printf (_ ("%s: %s"), hob_part_label (part),
                          _ (words[(int) CLAMP (event->value, 0, n - 1)]));
}
