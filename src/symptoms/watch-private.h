/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/symptoms: how a watch is laid out. */

#include "symptoms/book.h"

G_BEGIN_DECLS

/* A value of one part and its bound. */
typedef struct
{
  int part, index; /* quantity or control */
  int value;       /* among those of the watch */
  double limit;
  double slack; /* IS, IS_NOT: how far from limit still is there; negative: this part has no such
                   position */
} Ref;

/* What several refs look at. */
typedef struct
{
  HobMeasure measure;
  int part, index;
} Value;

typedef struct
{
  HobMeasure measure;
  HobBound bound;
  gboolean all;   /* of the refs, else one */
  int first, n;   /* refs */
  int before;     /* the last one before it whose first part is the same; −1 */
} Predicate;

typedef struct
{
  int predicate;
  double hold; /* s */
  gboolean already;
} Clause;

/* Clauses, one after another in the list of all. */
typedef struct
{
  int first, n;
} Clauses;

typedef struct
{
  HobEventClass begins, ends;
  int index; /* of the entry, among those of its class */
  int part;
  Clauses conditions, until;
  int times;
  double clears_after;
} Instance;

/* Items by key: key k has item[first[k]] to item[first[k + 1] − 1]. */
typedef struct
{
  int *first, *item; /* owned */
} Lists;

/* When it began and broke; how often its conditions came true, and when they last did so. */
enum { I_BEGAN, I_BROKEN, I_TIMES, I_CAME_TRUE, I_SIZE };

struct _HobSymptomWatch
{
  gatomicrefcount owners;
  HobWatch watch;
  HobPlan *plan;      /* owned reference */
  GArray *values;     /* Value, … */
  GArray *quantities; /* … and HobQuantityOf, for the first of them */
  GArray *refs;       /* Ref */
  GArray *predicates; /* Predicate */
  GArray *clauses;    /* Clause */
  GArray *instances;  /* Instance */
  Lists looks_at;     /* per value: the predicates about it */
  Lists asks_for;     /* per predicate: the instances that it is a condition of */
  int *last_of;       /* owned, while it is built: the last predicate that is first about the whole
                         range, or about each part; −1 */
};

/* Where a value may go, or has been. */
typedef struct
{
  double low, high; /* both belong to it */
} Reach;

/* In a run's notes, since they were last cleared. */
typedef struct
{
  Reach *values;   /* between which each was at the ends of steps; infinity to −infinity at first */
  double *longest; /* s, that each predicate held until it failed; 0 at first */
} Seen;

/* Borrowed.  Without values: nothing is noted. */
Seen hob_symptom_watch_seen (const HobSymptomWatch *w, double *notes);

G_END_DECLS
