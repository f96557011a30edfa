/* SPDX-License-Identifier: GPL-3.0-or-later */

/* An event in a person's words, as a chart's flag has room for: "Oven control: BAKE", not
 * "oven.mode=bake". */

#include "sheet/draw.h"
#include "base/i18n.h"
#include "parts/severity.h"

/* The mark as the front has it, else the figure. */
static char *
position_words (const HobControlDef *control, double value)
{
  g_autofree char *figure = NULL;

  for (const HobPosition *p = control->positions; p != NULL && p->name != NULL; p++)
    if (p->value == value)
      return g_strdup (_ (p->words));
  figure = hob_figure_text (value, control->dim, HOB_UNITS_TRADE, 3);
  return control->dim == HOB_DIM_NUMBER ? g_strconcat (figure, " %", NULL)
                                        : g_steal_pointer (&figure);
}

static char *
act_words (const HobRange *range, const HobAct *act)
{
  const HobPart *part = &range->parts[act->part];
  gboolean of_fault = act->what == HOB_ACT_FAULT || act->what == HOB_ACT_LIFT;
  const HobFaultDef *fault = of_fault ? &part->kind->faults[act->index] : NULL;
  g_autofree char *value = NULL;

  switch (act->what)
    {
    case HOB_ACT_CONTROL:
      value = position_words (&part->kind->controls[act->index], act->value);
      return g_strdup_printf (_ ("%s: %s"), hob_part_label (part), value);
    case HOB_ACT_FAULT:
      value = hob_fault_severity_text (part->kind, fault, act->value);
      if (value == NULL)
        return g_strdup_printf (_ ("%s: %s"), hob_part_label (part), _ (fault->words));
      /* Translators: a part's label, its fault, and how bad: "Oven control: calibration off, 54
       * °F too hot". */
      return g_strdup_printf (_ ("%s: %s, %s"), hob_part_label (part), _ (fault->words), value);
    case HOB_ACT_LIFT:
      /* Translators: a part's label, and a fault that is taken out of it again. */
      return g_strdup_printf (_ ("%s: %s, removed"), hob_part_label (part), _ (fault->words));
    case HOB_ACT_SETTING:
    default:
      return hob_act_text (range, act);
    }
}

char *
hob_flag_words (const HobRun *run, const HobEvent *event, const HobSymptomBook *book)
{
  const HobRange *range = hob_plan_range (hob_run_plan (run));
  const char *words;

  switch (event->what)
    {
    case HOB_EVENT_ACT:
      return act_words (range, &g_array_index (hob_run_case (run)->acts, HobAct, event->index));
    case HOB_EVENT_CHANGE:
      return hob_event_text (run, event);
    case HOB_EVENT_HAZARD:
    case HOB_EVENT_HAZARD_END:
      return NULL;
    case HOB_EVENT_SYMPTOM:
    case HOB_EVENT_SYMPTOM_END:
    default:
      if (book == NULL)
        return NULL;
      words = hob_symptom_book_get (book, event->index)->technician;
      return event->what == HOB_EVENT_SYMPTOM ? g_strdup (words)
                                              : g_strdup_printf (_ ("Ended: %s"), words);
    }
}
