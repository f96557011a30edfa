/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/run: the record of a run.
 *
 * A run is a chain of blocks.  From one block the next follows by a pure function — one step of the integrator, up
 * to its end, the first guard or the next act on its dense output; or, where an act is due, that act alone — so any stretch can be
 * taken again with the same bits, and whoever asks for a time in between reads the step's dense output. */

#include "run/engine.h"

G_BEGIN_DECLS

typedef struct
{
  double t0;
  double *block; /* NULL: thinned out, follows from an earlier one */
  double h;      /* s, of the step taken from here: taken again by that it is the same step at once */
} HobRecord;

struct _HobRun
{
  /*< owned >*/
  HobPlan *plan;
  HobCase *acts;
  HobMoment *tip; /* works at the record's end */
  GArray *records; /* HobRecord */
  GArray *events;  /* HobEvent, in time order */
  GPtrArray *undo; /* HobCase *, what it was before each act */
  double *next_block;
  double *before; /* modes before a flip */
  int *flips;      /* per mode, in the second that began at flip_second */
  double *atol;    /* the plan's, in the same proportion to rtol as at 1e-4 */
  char *trouble;   /* why the record cannot go on; NULL: it can */

  /*< borrowed >*/
  const HobWatch *watch;

  guint64 version; /* of the acts: changes with every cut */
  double rtol;
  double flip_second;
  gboolean stands; /* the tip stands, evaluated, where the last record begins */
  gboolean muted;  /* a stretch is taken again: nothing is told */
  gsize bytes;
  HobRunCounters counters;
};

struct _HobSpan
{
  HobMoment *moment;
  const HobOdeStep *step; /* NULL: an instant */
  double start, end;
  double *y;
};

/* run.c: from @block, which the moment has loaded, to the next, which is written to run->next_block. FALSE: impossible. */
gboolean hob_run_step (HobRun *run, HobMoment *m, const double *block);
/* The integrator's step from the moment's block, of at most h s. FALSE: no step is possible. */
gboolean hob_run_open_step (const HobRun *run, HobMoment *m, double h);
/* Flips what is due at the moment's time until nothing is, the moment evaluated there; @changed: set if anything was.
 * FALSE: that never ends.  Whoever integrates by other means changes the discrete states by this. */
gboolean hob_run_settle (HobRun *run, HobMoment *m, gboolean *changed);
void hob_run_push (HobRun *run);
gsize hob_run_block_size (const HobRun *run); /* bytes, watch included */
void hob_run_begin (HobRun *run);

/* history.c */
void hob_run_thin (HobRun *run);
const HobAct *hob_run_next_act (const HobRun *run, const HobMoment *m);

G_END_DECLS
