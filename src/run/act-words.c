/* SPDX-License-Identifier: GPL-3.0-or-later */

/* What a person did, as a person says it: "Oven control: BAKE", not "oven.mode=bake". */

#include "base/i18n.h"
#include "parts/say.h"
#include "parts/severity.h"
#include "run/case.h"

/* A setting's sentence without its end. */
static char *
setting_words (const HobSettingDef *setting)
{
  char *words = g_strdup (_ (setting->words));

  if (g_str_has_suffix (words, "."))
    words[strlen (words) - 1] = '\0';
  return words;
}

static char *
setting_act (const HobPart *part, const HobAct *act)
{
  const HobSettingDef *setting = &part->kind->settings[act->index];
  g_autofree char *words = setting_words (setting),
                  *value = hob_setting_text (setting, act->value);

  /* Translators: a part's label, one of its settings, and the value it is given. */
  return g_strdup_printf (_ ("%s: %s, %s"), hob_part_label (part), words, value);
}

static char *
fault_act (const HobPart *part, const HobAct *act)
{
  const HobFaultDef *fault = &part->kind->faults[act->index];
  g_autofree char *amount = hob_fault_severity_text (part->kind, fault, act->value);

  if (amount == NULL)
    return g_strdup_printf (_ ("%s: %s"), hob_part_label (part), _ (fault->words));
  /* Translators: a part's label, its fault, and how bad: "Oven control: calibration off, 54
   * °F too hot". */
  return g_strdup_printf (_ ("%s: %s, %s"), hob_part_label (part), _ (fault->words), amount);
}

static char *
position_words (const HobRange *range, const HobControlDef *control, double value)
{
  for (int k = 0; k < range->n_parts; k++)
    if (value == HOB_AT (k) && hob_range_control_is_for (range, control, k))
      return g_strdup (hob_part_label (&range->parts[k]));
  return hob_position_text (control, value);
}

char *
hob_act_words (const HobRange *range, const HobAct *act)
{
  const HobPart *part = &range->parts[act->part];
  g_autofree char *value = NULL;

  switch (act->what)
    {
    case HOB_ACT_CONTROL:
      value = position_words (range, &part->kind->controls[act->index], act->value);
      return g_strdup_printf (_ ("%s: %s"), hob_part_label (part), value);
    case HOB_ACT_FAULT: return fault_act (part, act);
    case HOB_ACT_LIFT:
      /* Translators: a part's label, and a fault that is taken out of it again. */
      return g_strdup_printf (_ ("%s: %s (fault removed)"), hob_part_label (part),
                              _ (part->kind->faults[act->index].words));
    case HOB_ACT_SETTING: return setting_act (part, act);
    default: g_return_val_if_reached (NULL);
    }
}
