/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "config.h"
#include "run/reading.h"

#include <math.h>
#include <string.h>

/* Checks of whole appliances: shipped ranges, run through the engine. */

static inline int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *)a, *(const char *const *)b);
}

/* Adds @test, whose data is the name of the range, as /outside/@path/NAME/@words for every range
 * in diagrams/. */
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

/* (transfer full) */
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

static inline void
set (HobCase *acts, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_setting (acts, text, &error);
  g_assert_no_error (error);
}

static inline void
add_fault (HobCase *acts, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_fault (acts, text, &error);
  g_assert_no_error (error);
}

/* @words are "TIME CONTROL=POSITION", "PART:FAULT" or "PART.NAME=VALUE", NULL-ended.
 * (transfer full) */
static inline HobRun *
run_of (HobRange *range, const char *const *words, double until)
{
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = hob_case_new (range);
  g_autoptr (GError) error = NULL;
  HobRun *run;

  for (; *words != NULL; words++)
    if (g_ascii_isdigit (**words))
      do_ (acts, *words);
    else if (strchr (*words, ':') != NULL)
      add_fault (acts, *words);
    else
      set (acts, *words);
  run = hob_run_new (plan, acts, NULL);
  hob_run_advance (run, until, &error);
  g_assert_no_error (error);
  return run;
}

#define WORDS(...) ((const char *const[]){ __VA_ARGS__, NULL })

/* "PART.QUANTITY" at a moment. */
static inline double
quantity_in (const HobMoment *m, const HobRange *range, const char *name)
{
  g_autoptr (GError) error = NULL;
  int part, index;

  hob_range_find_quantity (range, name, &part, &index, &error);
  g_assert_no_error (error);
  return hob_moment_quantity (m, part, index);
}

/* The same at @t. */
static inline double
quantity (HobRun *run, const char *name, double t)
{
  g_autoptr (HobMoment) m = hob_moment_new (hob_run_plan (run));

  hob_run_read (run, t, m);
  return quantity_in (m, hob_plan_range (hob_run_plan (run)), name);
}

/* When "PART.MODE" first changes to @value, s; infinite if it does not by @until. */
static inline double
first_change (HobRun *run, const char *id, const char *mode, int value, double until)
{
  const HobRange *range = hob_plan_range (hob_run_plan (run));
  guint first, n = hob_run_events (run, -1, until, &first);

  for (guint k = first; k < first + n; k++)
    {
      const HobEvent *e = hob_run_event (run, k);

      if (e->what == HOB_EVENT_CHANGE && e->value == value
          && g_str_equal (range->parts[e->part].id, id)
          && g_str_equal (range->parts[e->part].kind->modes[e->index].name, mode))
        return e->t;
    }
  return INFINITY;
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
