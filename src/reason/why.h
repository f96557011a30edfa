/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Why a symptom was noticed: a chain of quantities, from one of a faulty part to one of those that
 * the symptom looks at.  Of a part of which nothing can be read (a torn gasket, a reversed
 * receptacle) the fault itself is the first entry.
 *
 * A part belongs to it if it differs from what should be there (run/step-twin.h) before the symptom
 * begins, and if the symptom stays away once this part alone acts as it does in a run of the same
 * acts without the faults (run/clamp.h).  The part at which the symptom is noticed ends the
 * chain.  Where one can be followed by wire, pipe, lead, shaft and air from there back to the only
 * faulty part, the parts on that way are the chain: they pass on what reaches them. */

#include "symptoms/bench.h"

G_BEGIN_DECLS

#define HOB_WHY_MOST 7 /* entries of a chain */

typedef struct
{
  int part, quantity;      /* quantity −1: none of its own differs, and `act` speaks for it */
  HobAct act;              /* quantity −1: what was done to it */
  double value, should_be; /* SI, at time t; NaN: quantity −1 */
  HobFuel fuel;            /* the gas in the house then */
  double limit;            /* SI: from which on it moves something else; NaN: there is none */
  double t;                /* s, whole tenths, or when the symptom was noticed */
  double since;            /* s, when it was first found to differ; since ≤ t */
  gboolean passes_on; /* what it does follows from what reaches it: no clamp has to say so */
  gboolean whole; /* should_be is what the long twin has: nothing differs from the step twin */
} HobWhyEntry;

typedef struct
{
  HobCase *acts;   /* that it is a chain of, owned: the faults that are enough by themselves */
  double t;        /* s, when the symptom was noticed … */
  int part;        /* … and where; −1: at the range as a whole */
  GArray *entries; /* HobWhyEntry, in the order of time; owned.  None: no part was found whose
                      normal working keeps the symptom away */
} HobWhy;

void hob_why_free (HobWhy *why);

/* Why @symptom was noticed first, at @part or, for −1, anywhere, as far as @bench has run.  With
 * faults of several parts each entry is one without which the symptom would not be; where several
 * are enough by themselves there are several chains, each with the other faults removed.  @cancel:
 * read atomically, not 0 ends the work; NULL: never.  HobWhy *; empty: it was not noticed.
 * (transfer full) NULL: cancelled. */
GPtrArray *hob_why (HobBench *bench, int symptom, int part, const gint *cancel);

/* The run, and what should be there, cover @until.  FALSE: cancelled, or they don't come so far. */
gboolean hob_why_advance (HobBench *bench, double until, const gint *cancel);

/* Does @symptom stay away until hob_why_horizon (), and nothing new come, once @part acts as it
 * should?  Of the only faulty part the run without its faults says so. */
gboolean hob_why_heals (HobBench *bench, const HobWhy *why, int symptom, int part);
/* s: it must stay away for half a minute more than it took, or a tenth more. */
double hob_why_horizon (const HobCase *acts, double noticed);

/* "The igniter draws 2.7 A. Normal is 3.5 A.", from the kind's links.  (transfer full) */
char *hob_why_words (const HobRange *range, const HobWhyEntry *entry);

G_END_DECLS
