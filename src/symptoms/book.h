/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/symptoms: the book as conditions over kinds, before a range is known. */

#include "symptoms/symptoms.h"

G_BEGIN_DECLS

/* Whose value a condition looks at. */
typedef enum
{
  HOB_SUBJECT_SELF,   /* the part that the symptom is looked for at (each=…) */
  HOB_SUBJECT_CALLER, /* what calls that burner: its knob, or its control */
  HOB_SUBJECT_AROUND, /* the place that it is in */
  HOB_SUBJECT_WITHIN, /* parts in it: at one of them */
  HOB_SUBJECT_ANY,    /* one part of the range at least */
  HOB_SUBJECT_EVERY,  /* all parts of the range */
} HobSubject;

typedef enum
{
  HOB_MEASURE_QUANTITY,
  HOB_MEASURE_CONTROL,
  HOB_MEASURE_ASKED,   /* 1 while its control calls for the burner */
  HOB_MEASURE_GRAVITY, /* of the gas that flows, to air: above 1 it sinks */
} HobMeasure;

typedef enum
{
  HOB_BOUND_AT_LEAST,
  HOB_BOUND_AT_MOST,
  HOB_BOUND_IS,     /* within a fiftieth of a control's travel */
  HOB_BOUND_IS_NOT,
} HobBound;

typedef struct
{
  HobSubject subject;
  GPtrArray *kinds; /* const HobKind *, owned; NULL where the subject is not found by kind */
  HobMeasure measure;
  HobBound bound;
  char *name;       /* of the quantity or the control, owned; NULL: asked */
  char *value;      /* of a control, as its own table reads it, owned; NULL else */
  double limit;     /* SI, of a quantity */
  double hold;      /* s for which it must have held */
  gboolean already; /* it held before the others did */
} HobCondition;

/* A symptom, or a hazard that holds whether or not anyone notices (its symptom has no id and no
 * words then). */
typedef struct
{
  HobSymptom symptom;  /* its words are owned here */
  GPtrArray *each;     /* const HobKind *, owned; NULL: one for the whole range */
  GArray *conditions;  /* HobCondition, owned: all of them begin it */
  GArray *until;       /* HobCondition, owned: it lasts until all of these hold too */
  int times;           /* how often the conditions must have come true */
  double clears_after; /* s */
} HobEntry;

struct _HobSymptomBook
{
  gatomicrefcount refs;
  GPtrArray *entries; /* HobEntry *, owned: the symptoms */
  GPtrArray *hazards; /* HobEntry *, owned */
  guint64 hash;       /* of the file's bytes */
};

const HobEntry *hob_symptom_book_entry (const HobSymptomBook *book, int index);

/* What it takes besides the senses, as files and people say it. */
typedef struct
{
  const char *word;
  HobWith bit;
  HobMeans means;    /* for whoever looks for it */
  const char *words; /* N_() */
} HobWithWord;

enum { HOB_N_WITHS = 5 };
extern const HobWithWord hob_withs[HOB_N_WITHS];

HobSymptomBook *hob_book_new (guint64 hash); /* an empty one */
HobEntry *hob_entry_new (void);              /* one that asks for nothing */
/* @data: a file's bytes, ended by NUL.  NULL and HOB_ERROR_UNREADABLE with @file and line. */
HobSymptomBook *hob_book_read (const char *file, const char *data, gsize size, GError **error);

G_END_DECLS
