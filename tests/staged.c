/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"
#include "staged.h"
#include <string.h>

static void
add_word (HobCase *acts, const char *word)
{
  g_autoptr (GError) error = NULL;

  if (strchr (word, ' ') != NULL)
    hob_case_do (acts, word, &error);
  else if (strchr (word, ':') != NULL)
    hob_case_fault (acts, word, &error);
  else
    hob_case_setting (acts, word, &error);
  g_assert_no_error (error);
}

Staged *
staged_new (const char *range, const char *words, double at)
{
  g_autofree char *file = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, range);
  g_auto (GStrv) list = g_strsplit (words != NULL ? words : "", "|", -1);
  g_autoptr (GError) error = NULL;
  Staged *staged = g_new0 (Staged, 1);

  staged->range = hob_range_load (file, NULL, &error);
  g_assert_no_error (error);
  staged->acts = hob_case_new (staged->range);
  for (char **word = list; *word != NULL; word++)
    if (*g_strstrip (*word) != '\0')
      add_word (staged->acts, *word);
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
