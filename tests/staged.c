/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"
#include "staged.h"

#include "case-words.h"
#include "base/hash.h"
#include "shipped.h"
#include <string.h>

Staged *
staged_new (const char *range, const char *words, double at)
{
  g_autofree char *file = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, range);
  g_autoptr (GError) error = NULL;
  Staged *staged = g_new0 (Staged, 1);

  staged->range = hob_range_load (file, NULL, &error);
  g_assert_no_error (error);
  staged->acts = hob_case_new (staged->range);
  case_add_list (staged->acts, words);
  staged->bench = hob_bench_new (NULL, staged->range, staged->acts, &error);
  g_assert_no_error (error);
  hob_bench_should_be (staged->bench);
  g_assert_cmpint (hob_bench_advance (staged->bench, at, NULL), ==, HOB_RUN_OK);
  staged->reader = hob_scene_reader_new (staged->bench->plan);
  staged->scene = hob_scene_new (staged->range);
  staged->scene->still = TRUE;
  staged->at = at;
  staged_read (staged);
  return staged;
}

void
staged_read (Staged *staged)
{
  hob_scene_read (staged->reader, staged->scene, staged->bench->run,
                  hob_bench_should_be (staged->bench), staged->at);
}

void
staged_free (Staged *staged)
{
  if (staged == NULL)
    return;
  hob_scene_free (staged->scene);
  hob_scene_reader_free (staged->reader);
  hob_bench_free (staged->bench);
  hob_case_free (staged->acts);
  hob_range_unref (staged->range);
  g_free (staged);
}

/* Some need a terminal that is not connected here. */
static gboolean
allowed (const HobRange *range, const char *fault)
{
  g_autoptr (HobCase) acts = hob_case_new (range);

  return hob_case_fault (acts, fault, NULL);
}

static void
add_if_allowed (GPtrArray *faults, const HobRange *range, const HobPart *part, int fault)
{
  g_autofree char *words = g_strdup_printf ("%s:%s", part->id, part->kind->faults[fault].id);

  if (allowed (range, words))
    g_ptr_array_add (faults, g_steal_pointer (&words));
}

GPtrArray *
staged_faults (const HobRange *range)
{
  GPtrArray *faults = g_ptr_array_new_with_free_func (g_free);

  for (int p = 0; p < range->n_parts; p++)
    for (int f = 0; f < range->parts[p].kind->n_faults; f++)
      add_if_allowed (faults, range, &range->parts[p], f);
  for (guint k = faults->len - 1; k > 0; k--)
    {
      guint other = (guint) (hob_hash_uniform (20261127, 1, k) * (k + 1));
      gpointer kept = faults->pdata[k];

      faults->pdata[k] = faults->pdata[other];
      faults->pdata[other] = kept;
    }
  return faults;
}

void
staged_each_fault (const char *range, guint sample, StagedCheck check, gpointer user, guint *n)
{
  g_autoptr (HobRange) shipped = shipped_range (range);
  g_autoptr (GPtrArray) faults = staged_faults (shipped);

  *n = full_sweep () ? faults->len : MIN (sample, faults->len);
  for (guint k = 0; k < *n; k++)
    check (user, range, faults->pdata[k]);
}

void
staged_add_ranges (const char *path, GTestDataFunc test)
{
  g_auto (GStrv) ranges = shipped_ranges ();

  for (char **range = ranges; *range != NULL; range++)
    {
      g_autofree char *one = g_strdup_printf ("%s/%s", path, *range);

      g_test_add_data_func_full (one, g_strdup (*range), test, g_free);
    }
}
