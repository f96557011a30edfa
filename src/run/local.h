/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/run: the local test.  A part's own functions are called twice with all that the
 * part gets at a moment (its states and modes, controls, volts and currents, pressures and flows,
 * place, leads, shaft): once with its settings as they are, once with normal ones. */

#include "run/engine.h"

G_BEGIN_DECLS

typedef struct _HobLocal HobLocal;

HobLocal *hob_local_new (const HobPlan *plan);
void hob_local_free (HobLocal *local);

/* Are its settings other than @normal? */
gboolean hob_local_is_changed (const HobMoment *m, int part, const double *normal);
/* Do its functions then give something else?  @element, NULL or: the only branch or duct that does
 * (ducts count on after branches); −1: several, or something else.  Uses the moment's memory for
 * probing, and leaves it as it was. */
gboolean hob_local_misbehaves (HobLocal *local, HobMoment *m, int part, const double *normal,
                               int *element);

/* Does it do something else to others at @m than at @other, with all that it gets at each? */
gboolean hob_local_acts_apart (HobLocal *local, HobMoment *m, HobMoment *other, int part);

/* ---- To the bit, for run/inert.h ---- */

typedef enum { HOB_LOCAL_ACTS, HOB_LOCAL_STARTS, HOB_LOCAL_FLIPS } HobLocalQuestion;

/* What the part does as it is … */
void hob_local_ask (HobLocal *local, HobMoment *m, int part, const guint8 *shown);
/* … and whether settings @set, after that, give the same wherever anybody reads it: what it writes
 * and its @shown quantities, what it starts with, or what its flip @k leaves.  What it gives to its
 * place is read by the parts in there: those do the same, and show the same. */
gboolean hob_local_same (HobLocal *local, HobMoment *m, int part, const double *set,
                         guint8 *const *shown, HobLocalQuestion question, int k);
/* … and whether it gives the same to its place, so that what flips in there leaves the same. */
gboolean hob_local_place_same (HobLocal *local, HobMoment *m, int part, const double *set);

G_END_DECLS
