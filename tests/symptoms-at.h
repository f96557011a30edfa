/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/run.h"

static inline gboolean
same_symptom (const HobEvent *a, const HobEvent *b)
{
  return a->index == b->index && a->part == b->part;
}

/* Symptoms present at time t of a run made with that watch: indices of their begin events in
 * hob_run_event. (transfer full) */
static inline GArray *
symptoms_at (const HobRun *run, double t)
{
  GArray *present = g_array_new (FALSE, FALSE, sizeof (guint));
  guint first, n = hob_run_events ((HobRun *) run, -1, t, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (run, k);

      if (e->what == HOB_EVENT_SYMPTOM)
        g_array_append_val (present, k);
      else if (e->what == HOB_EVENT_SYMPTOM_END)
        for (guint i = 0; i < present->len; i++)
          if (same_symptom (hob_run_event (run, g_array_index (present, guint, i)), e))
            g_array_remove_index (present, i--);
    }
  return present;
}
