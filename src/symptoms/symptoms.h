/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* symptoms: what a person would notice, from observables alone; no fault is known here. */

#include "base/hazard.h"
#include "run/run.h"

G_BEGIN_DECLS

/* What a person needs to notice it, besides the senses: bits. */
typedef enum
{
  HOB_WITH_THERMOMETER = 1 << 0,
  HOB_WITH_BOTTOM_OUT = 1 << 1, /* only where the part is behind the oven bottom */
  HOB_WITH_PANEL_OUT = 1 << 2,
  HOB_WITH_ALARM = 1 << 3,
  HOB_WITH_METER = 1 << 4,
} HobWith;

typedef struct
{
  const char *id;        /* "glow-no-flame" */
  const char *technician; /* translated words, borrowed */
  const char *customer;
  HobHazards hazards;    /* what whoever notices it must know */
  guint with;            /* HOB_WITH_… */
  int less;              /* the next lower degree of the same, or −1 */
  int passes;            /* what a fault that gets worse shows before it comes to this, or −1 */
} HobSymptom;

typedef struct _HobSymptomBook HobSymptomBook; /* data/symptoms.xml; immutable */

HobSymptomBook *hob_symptom_book_load (const char *file,
                                       GError **error); /* NULL file: the shipped one */
HobSymptomBook *hob_symptom_book_ref (HobSymptomBook *book);
void hob_symptom_book_unref (HobSymptomBook *book);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobSymptomBook, hob_symptom_book_unref)
guint64 hob_symptom_book_hash (const HobSymptomBook *book); /* of the file's bytes */
int hob_symptom_book_size (const HobSymptomBook *book);
const HobSymptom *hob_symptom_book_get (const HobSymptomBook *book, int index);
int hob_symptom_book_find (const HobSymptomBook *book, const char *id); /* −1 */
/* What it takes to notice it at @part, HOB_WITH_… */
guint hob_symptom_with (const HobSymptom *symptom, const HobPart *part);
/* By which means somebody looks for it: a look, where nothing else is needed. */
HobMeans hob_symptom_means (const HobSymptom *symptom);
/* The technician's words and what it takes, at @part; NULL: wherever it may be. (transfer full) */
char *hob_symptom_words (const HobSymptom *symptom, const HobPart *part);
/* The same, with the label of @part before it. (transfer full) */
char *hob_symptom_words_at (const HobSymptom *symptom, const HobPart *part);
/* Is one of them the next higher degree of the other? */
gboolean hob_symptom_book_next_degree (const HobSymptomBook *book, int a, int b);
/* Has @range a part at which it may show? */
gboolean hob_symptom_book_may_show (const HobSymptomBook *book, int index, const HobRange *range);
/* Whoever notices it has turned the burner's control on. */
gboolean hob_symptom_book_calls (const HobSymptomBook *book, int index);
/* Only a person's body notices it: a shock. */
gboolean hob_symptom_book_is_felt (const HobSymptomBook *book, int index);

/* The watch for one plan: conditions bound to its parts.  Event index = symptom index, part = where
 * it is seen. */
typedef struct _HobSymptomWatch HobSymptomWatch;
HobSymptomWatch *hob_symptom_watch_new (const HobSymptomBook *book, const HobPlan *plan);
HobSymptomWatch *hob_symptom_watch_ref (HobSymptomWatch *watch);
void hob_symptom_watch_unref (HobSymptomWatch *watch);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobSymptomWatch, hob_symptom_watch_unref)
const HobWatch *hob_symptom_watch_get (const HobSymptomWatch *watch); /* borrowed */

/* A quantity of a part that a symptom looks at, and the value at which it counts. */
typedef struct
{
  int part, quantity;
  double limit; /* SI */
} HobObservable;

/* What @symptom, noticed at @part, looks at, or, for −1, all that is looked at: HobObservable.
 * (transfer full) */
GArray *hob_symptom_watch_observables (const HobSymptomWatch *watch, int symptom, int part);

/* ---- Hazards ----
 * Those that the symptoms name, and those that are computed whether or not anyone notices.  The
 * run must have been made with a watch of that book.  For what is shown of them: base/hazard.h. */

HobHazards hob_hazards_at (const HobSymptomBook *book, const HobRun *run, double t);
/* All that held at any time up to t. */
HobHazards hob_hazards_up_to (const HobSymptomBook *book, const HobRun *run, double t);

G_END_DECLS
