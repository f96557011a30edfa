/* SPDX-License-Identifier: GPL-3.0-or-later */

#include "asked.h"

Asked
asked_up (HobRange *range, gboolean keep)
{
  HobTableWork work = { .cache = keep };
  HobBench *idle = hob_bench_new (NULL, range, NULL, NULL);

  return (Asked){ range, idle, hob_trials_new (idle, &work), hob_priors_new (range) };
}

void
asked_down (Asked *asked)
{
  hob_priors_free (asked->priors);
  hob_trials_free (asked->trials);
  hob_bench_free (asked->idle);
  hob_range_unref (asked->range);
}

HobSuspects *
asked_suspects (const Asked *asked, const char *const *seen, const char *const *not_seen,
                const char *const *readings, HobSkill role)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HobCase) base = hob_case_new (asked->range);
  g_autoptr (GPtrArray) clues = g_ptr_array_new_with_free_func ((GDestroyNotify) hob_clue_free);

  for (; *seen != NULL; seen++)
    hob_clues_add (clues, asked->range, hob_clue_look (asked->idle, *seen, HOB_SEEN, &error));
  for (; *not_seen != NULL; not_seen++)
    hob_clues_add (clues, asked->range,
                   hob_clue_look (asked->idle, *not_seen, HOB_NOT_SEEN, &error));
  for (; *readings != NULL; readings++)
    hob_clues_add (clues, asked->range, hob_clue_reading (asked->idle, *readings, &error));
  g_assert_no_error (error);
  return hob_suspects_new (asked->trials, base, clues, role, asked->priors);
}
