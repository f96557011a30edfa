/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/symptoms: the shipped book as tables.  To read its XML takes a third of a short
 * command's time; press.c reads it when the program is built, and writes the tables. */

#include "symptoms/book.h"

G_BEGIN_DECLS

enum { HOB_PRESSED_NONE = -1 }; /* no list of kinds, which is not an empty one */

/* The fields are those of HobCondition and HobEntry.  The kinds of all lists stand one after
 * another in an array of their own, as numbers in hob_kinds; so do the conditions. */
typedef struct
{
  HobSubject subject;
  HobMeasure measure;
  HobBound bound;
  gboolean already;
  int n_kinds;
  const char *name, *value;
  double limit, hold;
} HobPressedCondition;

typedef struct
{
  HobSymptom symptom; /* its words are not translated */
  int n_each, n_conditions, n_until;
  int times;
  double clears_after;
} HobPressedEntry;

/* The book of these bytes; NULL: they are not the shipped ones. */
HobSymptomBook *hob_book_shipped (const char *data, gsize size);

G_END_DECLS
