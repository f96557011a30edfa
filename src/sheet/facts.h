/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What the title block of a picture says about the moment that it shows. */

#include "symptoms/bench.h"

G_BEGIN_DECLS

typedef struct
{
  const char *heading; /* translated, borrowed */
  char *text;          /* owned */
} HobFact;

typedef struct
{
  const HobRange *range; /* borrowed */
  GArray *list;          /* HobFact; owned */
  HobHazards now;        /* that apply */
} HobFacts;

/* @cover: without faults, symptoms and what gives them away, and says so. (transfer full) */
HobFacts *hob_facts_new (HobBench *bench, double t, gboolean cover);
void hob_facts_free (HobFacts *facts);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobFacts, hob_facts_free)

/* What the house supplies now and should not: "House: 108 V, should be 120 V"; NULL: all is as it
 * should be. (transfer full) */
char *hob_house_off_words (const HobRange *range, const HobMoment *m);
/* Does the event give a fault away: one itself, a setting of the appliance, or a symptom? */
gboolean hob_event_is_covered (const HobRun *run, const HobEvent *event);
/* An event in a person's words; NULL: a symptom without its book. (transfer full) */
char *hob_event_words (const HobRun *run, const HobEvent *event, const HobSymptomBook *book);

G_END_DECLS
