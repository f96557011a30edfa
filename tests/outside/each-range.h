/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "config.h"
#include "run/run.h"
#include <string.h>

/* One test for each range in diagrams/. */

static inline int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* Adds @test, whose data is the range's name, as /outside/@path/NAME/@words for every range. */
static inline void
add_for_each_range (const char *path, const char *words, GTestDataFunc test)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) folder = g_dir_open (HOB_SOURCE_DIR "/diagrams", 0, &error);
  g_autoptr (GPtrArray) names = g_ptr_array_new ();
  const char *file;

  g_assert_no_error (error);
  while ((file = g_dir_read_name (folder)) != NULL)
    if (g_str_has_suffix (file, ".xml"))
      g_ptr_array_add (names, g_strndup (file, strlen (file) - 4));
  g_ptr_array_sort (names, by_name);
  for (guint k = 0; k < names->len; k++)
    {
      char *name = g_ptr_array_index (names, k);
      g_autofree char *full = g_strdup_printf ("/outside/%s/%s/%s", path, name, words);

      g_test_add_data_func_full (full, g_strdup (name), test, g_free);
      g_free (name);
    }
}

static inline HobRange *
range_by_name (const char *name)
{
  g_autofree char *file = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, name);
  g_autoptr (GError) error = NULL;
  HobRange *range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  return range;
}

static inline void
do_ (HobCase *acts, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_do (acts, text, &error);
  g_assert_no_error (error);
}

/* The first knob that lights a burner. */
static inline const char *
lighting_knob (const HobRange *range)
{
  for (int p = 0; p < range->n_parts; p++)
    for (int k = 0; k < range->parts[p].kind->n_controls; k++)
      if (range->parts[p].kind->controls[k].exercise == HOB_EXERCISE_LIGHT)
        return range->parts[p].id;
  g_assert_not_reached ();
}
