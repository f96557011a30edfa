/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/reason: what a person does with the range so as to look and to read, and when. */

#include "reason/trials.h"

G_BEGIN_DECLS

#define HOB_OCCASION_SOON 90.0      /* s after an act, when to read */
#define HOB_OCCASION_LONGEST 7200.0 /* s: what is left alone for longer nobody waits for */

typedef struct
{
  gboolean dead;     /* unplugged, gas shut off: for an ohmmeter */
  gboolean still;    /* … and nothing done: for looking closely too */
  gboolean exchanged; /* leads are exchanged first: for looking alone */
  HobCase *acts;     /* owned */
  guint first;       /* of the acts: those before it are of the house, or make the range dead */
  double until;      /* s */
  GArray *moments;   /* double, s */
  double watched;    /* s, until when somebody has watched it */
  double runs_on;    /* s, the same if the range was not turned off since; or 0 */
} HobOccasion;

void hob_occasion_free (HobOccasion *occasion);
/* @procedure under what is known of the house, and when in it to read.  (transfer full) */
HobOccasion *hob_occasion_new (const HobCase *base, const char *procedure, gboolean dead);

/* All of @procedures; those that exchange leads; and, with the range dead, those that do something
 * that no other one does.  HobOccasion *.  (transfer full) */
GPtrArray *hob_occasions_new (const HobCase *base, char *const *procedures);
/* @base, with which something is done already, as it goes on for a while; and with the range dead.
 * HobOccasion *.  (transfer full) */
GPtrArray *hob_occasions_going_on (const HobCase *base);
/* Is it an occasion for @test? */
gboolean hob_occasion_suits (const HobOccasion *occasion, const HobTest *test);
/* The last time, s, before it does something more than @acts, or at which it ends; −∞: it does not
 * begin with them. */
double hob_occasion_left_alone (const HobOccasion *occasion, const HobCase *acts);

/* What is done by time t, s; @next: when more is, or it ends.  (transfer full) */
HobCase *hob_occasion_done (const HobOccasion *occasion, double t, double *next);

G_END_DECLS
