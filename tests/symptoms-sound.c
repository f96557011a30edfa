/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Sound ranges show nothing: every shipped one, in every procedure, under any supply that is still good and in a cold and
 * a hot kitchen, on the gas that its plate names. */

#include "shipped.h"

static void
a_sound_range_shows_nothing_in (const char *name, guint64 seed)
{
  static const char *const volts[] = { "receptacle.volts=114 V", "receptacle.volts=120 V", "receptacle.volts=126 V" };
  static const char *const air[] = { "house.temperature=15 degC", "house.temperature=25 degC",
                                     "house.temperature=35 degC" };
  g_autoptr (HobRange) range = shipped_range (name);
  g_autoptr (HobPlan) plan = hob_plan_new (range);
  g_autoptr (HobSymptomBook) book = hob_symptom_book_load (NULL, NULL);
  g_auto (GStrv) procedures = hob_procedure_names (range);

  for (char **p = procedures; *p != NULL; p++)
    for (guint k = 0; k < G_N_ELEMENTS (volts) * G_N_ELEMENTS (air); k++)
      {
        const char *words[] = { volts[k / G_N_ELEMENTS (air)], air[k % G_N_ELEMENTS (air)], NULL };
        double until = 0;
        g_autoptr (HobCase) c = case_of (range, *p, words, &until);
        g_autofree char *seen = NULL;

        c->seed = seed;
        seen = symptoms_of (plan, book, c, until);
        if (*seen != '\0')
          {
            g_test_message ("%s, %s, %s, %s, seed %u: %s", name, *p, words[0], words[1], (guint) seed, seen);
            g_test_fail ();
          }
      }
}

static void
sound_ranges_show_nothing_in_any_procedure (void)
{
  g_auto (GStrv) ranges = shipped_ranges ();

  for (int r = 0; ranges[r] != NULL; r++)
    a_sound_range_shows_nothing_in (ranges[r], 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/symptoms/sound/nothing-shows-in-any-procedure", sound_ranges_show_nothing_in_any_procedure);
  return g_test_run ();
}
