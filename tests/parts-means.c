/* SPDX-License-Identifier: GPL-3.0-or-later */

/* Means of finding out, and the hazards that follow from them for every fault. */

#include "parts/kind.h"

#include <math.h>
#include <string.h>

#define EACH_KIND(k) (const HobKind *const *k = hob_kinds; *k != NULL; k++)

/* One of these is shown wherever a confirmation of this class of danger is described. */
static const HobHazards of_danger[] = {
  [HOB_DANGER_NONE] = 0,
  [HOB_DANGER_HOT] = HOB_HAZARD (HOT_IGNITER) | HOB_HAZARD (CO_FLAME),
  [HOB_DANGER_LIVE] = HOB_HAZARD (LIVE_TEST),
  [HOB_DANGER_GAS] = HOB_HAZARD (GAS_JOINT) | HOB_HAZARD (PRESSURE),
};

static void
every_means_says_what_it_takes (void)
{
  for (int k = 0; k < HOB_N_MEANS; k++)
    {
      const HobMeansDef *means = &hob_means[k];

      g_assert_true (means->id != NULL && means->words != NULL);
      g_assert_cmpint (hob_means_find (means->id), ==, k);
      g_assert_cmpfloat (means->minutes, >, 0);
    }
  g_assert_cmpint (hob_means_find ("guess"), ==, -1);
}

static void
dangerous_means_have_their_hazards (void)
{
  for (int k = 0; k < HOB_N_MEANS; k++)
    {
      const HobMeansDef *means = &hob_means[k];

      if (means->danger != HOB_DANGER_NONE)
        g_assert_cmphex (means->hazards & of_danger[means->danger], !=, 0);
      if (means->danger == HOB_DANGER_LIVE || means->danger == HOB_DANGER_GAS)
        g_assert_cmpint (means->skill, ==, HOB_SKILL_TECHNICIAN);
      if (means->danger == HOB_DANGER_NONE && (means->safe & HOB_SAFE_UNPLUGGED) != 0)
        g_assert_cmphex (means->hazards & HOB_HAZARD (DEAD_FIRST), !=, 0);
    }
}

static void
every_fault_is_confirmed_by_some_means (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_faults; i++)
    {
      guint confirm = (*k)->faults[i].confirm;

      if (confirm == 0 || confirm >= HOB_MEANS_BIT (HOB_N_MEANS))
        g_error ("%s:%s has no way to confirm it", (*k)->name, (*k)->faults[i].id);
    }
}

static void
faults_have_the_hazards_of_their_confirmation (void)
{
  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_faults; i++)
    {
      const HobFaultDef *fault = &(*k)->faults[i];
      HobHazards hazards = hob_fault_hazards (*k, fault);

      for (int m = 0; m < HOB_N_MEANS; m++)
        if ((fault->confirm & HOB_MEANS_BIT (m)) != 0 && hob_means[m].danger != HOB_DANGER_NONE
            && (hazards & of_danger[hob_means[m].danger]) == 0)
          g_error ("%s:%s: %s is dangerous, and nothing says so", (*k)->name, fault->id,
                   hob_means[m].id);
      g_assert_cmphex (hazards & (*k)->hazards, ==, (*k)->hazards);
    }
}

/* What a person reads about a meter, pressure or amps is done with one of the means for it. */
static void
words_and_means_agree (void)
{
  static const struct
  {
    const char *word;
    guint means;
  } says[] = {
    { "Unplug the range", HOB_MEANS (OHMS) | HOB_MEANS (CONTINUITY) | HOB_MEANS (LEAKAGE)
                              | HOB_MEANS (SENSOR_OHMS) | HOB_MEANS (HAND) | HOB_MEANS (SWAP)
                              | HOB_MEANS (RECEPTACLE) | HOB_MEANS (INSPECT)
                              | HOB_MEANS (INSPECT_INSIDE) | HOB_MEANS (OPEN_GAS) },
    { "OL",
      HOB_MEANS (OHMS) | HOB_MEANS (CONTINUITY) | HOB_MEANS (SENSOR_OHMS) | HOB_MEANS (LEAKAGE) },
    { "ohms at", HOB_MEANS (SENSOR_OHMS) },
    { "eceptacle with the range unplugged", HOB_MEANS (RECEPTACLE) },
    { "at the receptacle. The", HOB_MEANS (RECEPTACLE) },
    { "ead line voltage", HOB_MEANS (LIVE_VOLTS) },
    { "nder load", HOB_MEANS (VOLTAGE_DROP) | HOB_MEANS (LIVE_VOLTS) | HOB_MEANS (RECEPTACLE) },
    { "ead the manifold pressure", HOB_MEANS (PRESSURE) },
    { "ead the inlet pressure", HOB_MEANS (PRESSURE) },
    { "clamp meter", HOB_MEANS (AMPS) },
    { "full amps", HOB_MEANS (AMPS) },
    { "leak-detection solution", HOB_MEANS (LEAK_CHECK) },
    { "rifice out", HOB_MEANS (OPEN_GAS) },
    { "gas meter", HOB_MEANS (METER_CLOCK) },
    { "Swap", HOB_MEANS (SWAP) },
    { "thermometer", HOB_MEANS (THERMOMETER) },
  };
  guint n = 0;

  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_faults; i++)
    for (guint s = 0; s < G_N_ELEMENTS (says); s++)
      {
        const HobFaultDef *fault = &(*k)->faults[i];

        if (strstr (fault->proof, says[s].word) == NULL)
          continue;
        if ((fault->confirm & says[s].means) == 0)
          g_error ("%s:%s says \"%s\"", (*k)->name, fault->id, fault->proof);
        n++;
      }
  g_assert_cmpuint (n, >, 40);
}

static double
moved (const HobEffect *e, double from, double severity)
{
  double value = e->geometric ? e->at0 * pow (e->at1 / e->at0, severity)
                              : e->at0 + (e->at1 - e->at0) * severity;

  return e->how == HOB_EFFECT_SET ? value : e->how == HOB_EFFECT_ADD ? from + value : from * value;
}

static gboolean
shows (const HobKind *kind, const HobFaultDef *fault)
{
  for (int k = 0; k < fault->n_effects; k++)
    {
      const HobEffect *e = &fault->effects[k];
      const HobSettingDef *setting = &kind->settings[e->setting];

      if (setting->visible > 0
          && fabs (moved (e, setting->normal, hob_fault_typical (fault)) - setting->normal)
                 >= setting->visible)
        return TRUE;
    }
  return FALSE;
}

/* What is said to be confirmed by a close look is there to be seen, and what is there to be seen is
 * said to be. */
static void
a_close_look_confirms_what_shows (void)
{
  const guint close = HOB_MEANS (INSPECT) | HOB_MEANS (INSPECT_INSIDE);
  guint n = 0;

  for
    EACH_KIND (k)
  for (int i = 0; i < (*k)->n_faults; i++)
    {
      const HobFaultDef *fault = &(*k)->faults[i];

      if (((fault->confirm & close) != 0) != shows (*k, fault))
        g_error ("%s:%s: confirmed by a close look: %d, shows: %d", (*k)->name, fault->id,
                 (fault->confirm & close) != 0, shows (*k, fault));
      n += shows (*k, fault);
    }
  g_assert_cmpuint (n, >, 20);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);

  g_test_add_func ("/means/every means says what it takes", every_means_says_what_it_takes);
  g_test_add_func ("/means/dangerous means have their hazards", dangerous_means_have_their_hazards);
  g_test_add_func ("/means/every fault is confirmed by some means",
                   every_fault_is_confirmed_by_some_means);
  g_test_add_func ("/means/faults have the hazards of their confirmation",
                   faults_have_the_hazards_of_their_confirmation);
  g_test_add_func ("/means/words and means agree", words_and_means_agree);
  g_test_add_func ("/means/a close look confirms what shows", a_close_look_confirms_what_shows);

  return g_test_run ();
}
