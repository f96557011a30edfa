/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Whoever watches a run, and however often, sees the same run: asked for every 0.01 s to every 60 s each state is the
 * same to the last bit as in a run that was taken at once. */

#include "config.h"
#include "run/run.h"
#include <string.h>

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* Names of all shipped ranges, in order. (transfer full) */
static GPtrArray *
shipped (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GDir) folder = g_dir_open (HOB_SOURCE_DIR "/diagrams", 0, &error);
  GPtrArray *names = g_ptr_array_new_with_free_func (g_free);
  const char *name;

  g_assert_no_error (error);
  while ((name = g_dir_read_name (folder)) != NULL)
    if (g_str_has_suffix (name, ".xml"))
      g_ptr_array_add (names, g_strndup (name, strlen (name) - 4));
  g_ptr_array_sort (names, by_name);
  return names;
}

static void
do_ (HobCase *acts, const char *text)
{
  g_autoptr (GError) error = NULL;

  hob_case_do (acts, text, &error);
  g_assert_no_error (error);
}

/* A bake, and a burner lit, turned and shut meanwhile. */
static HobCase *
busy_case (HobRange *range)
{
  HobCase *acts = hob_case_new (range);
  const char *knob = NULL;

  for (int p = 0; p < range->n_parts && knob == NULL; p++)
    for (int k = 0; k < range->parts[p].kind->n_controls; k++)
      if (range->parts[p].kind->controls[k].exercise == HOB_EXERCISE_LIGHT)
        knob = range->parts[p].id;
  g_assert_nonnull (knob);
  do_ (acts, "0s oven.mode=bake");
  for (const char *const *act = (const char *const[]){ "2s %s=light", "8s %s=high", "611.5s %s=off", NULL }; *act != NULL; act++)
    {
      g_auto (GStrv) around = g_strsplit (*act, "%s", 2);
      g_autofree char *text = g_strjoinv (knob, around);

      do_ (acts, text);
    }
  return acts;
}

/* Asks @run for every @every s until @until and holds each against the run taken at once. */
static void
ask (HobPlan *plan, const HobCase *acts, HobRun *at_once, double every, double until)
{
  g_autoptr (HobRun) run = hob_run_new (plan, acts, NULL);
  g_autoptr (HobMoment) here = hob_moment_new (plan), there = hob_moment_new (plan);

  for (int k = 0; k * every <= until; k++)
    {
      g_assert_cmpint (hob_run_advance (run, k * every, NULL), ==, HOB_RUN_OK);
      hob_run_read (run, k * every, here);
      hob_run_read (at_once, k * every, there);
      g_assert_cmphex (hob_moment_hash (here), ==, hob_moment_hash (there));
    }
  hob_run_read (run, until, here);
  hob_run_read (at_once, until, there);
  g_assert_cmphex (hob_moment_hash (here), ==, hob_moment_hash (there));
}

static void
same_bits_every_hundredth_of_a_second_to_every_minute (gconstpointer name)
{
  g_autofree char *file = g_strdup_printf ("%s/diagrams/%s.xml", HOB_SOURCE_DIR, (const char *) name);
  g_autoptr (GError) error = NULL;
  g_autoptr (HobRange) range = hob_range_load (file, NULL, &error);

  g_assert_no_error (error);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobCase) acts = busy_case (range);
  g_autoptr (HobRun) at_once = hob_run_new (plan, acts, NULL);
  g_assert_cmpint (hob_run_advance (at_once, 1200, NULL), ==, HOB_RUN_OK);

  /* Until the igniter has lit the oven and half a minute more, then over whole cycles. */
  ask (plan, acts, at_once, 0.01, 75);
  ask (plan, acts, at_once, 0.37, 1200);
  ask (plan, acts, at_once, 5, 1200);
  ask (plan, acts, at_once, 60, 1200);
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) names = shipped ();

  g_test_init (&argc, &argv, NULL);
  for (guint k = 0; k < names->len; k++)
    {
      const char *name = g_ptr_array_index (names, k);
      g_autofree char *path
          = g_strdup_printf ("/outside/any-step/%s/same-bits-every-hundredth-of-a-second-to-every-minute", name);
      g_test_add_data_func (path, name, same_bits_every_hundredth_of_a_second_to_every_minute);
    }
  return g_test_run ();
}
