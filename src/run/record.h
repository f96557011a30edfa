/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* Private to src/run: the record of a run.
 *
 * A run is a chain of blocks.  From one block the next follows by a pure function — one step of the
 * integrator, up to its end, the first guard or the next act on its dense output; or, where an act
 * is due, that act alone — so any stretch can be taken again with the same bits, and whoever asks
 * for a time in between reads the step's dense output.
 *
 * Not every block is kept.  Each link has a cost, and of the cost so far, cut into equal gaps, the
 * first block in each gap stays; the last block always does.  A record that grows too large doubles
 * its gaps.  So the gaps are even over the whole record, and what it costs to take one again is
 * bounded. */

#include "run/follow.h"
#include "run/shown.h"

G_BEGIN_DECLS

#define HOB_STEP_COST 8   /* of a step, and … */
#define HOB_INSTANT_COST 1 /* … of an act: one evaluation or two */
#define HOB_FIRST_GAP 128

typedef struct
{
  double t0;      /* s */
  double *block;  /* owned */
  double h; /* s, of the step taken from here: taken again by that it is the same step at once */
  double end;     /* s, where that step was cut; NaN: nothing follows yet */
  guint ordinal;  /* in the chain, blocks that are not kept counted too */
  guint32 cost;   /* of the chain up to here */
  guint32 before; /* of the chain up to the block before */
} HobRecord;

typedef struct
{
  HobEvent event;
  guint ordinal; /* of the block that was made when it was told: it goes when that one does */
} HobTold;

/* An act put into the case, or taken out of it. */
typedef struct
{
  HobAct act;
  guint at;        /* its place among the acts */
  gboolean out;
  gboolean begins; /* the first of what one undo takes back */
} HobChange;

struct _HobRun
{
  /*< owned >*/
  HobPlan *plan;
  HobCase *acts;
  HobMoment *tip;  /* works at the record's end */
  GArray *records; /* HobRecord, of the blocks that are kept */
  GArray *events;  /* HobTold, in time order */
  GArray *changes; /* HobChange: those done, then those undone */
  double *next_block;
  double *notes;   /* the watch's */
  double *atol;    /* the plan's, in the same proportion to rtol as at 1e-4 */
  char *trouble;   /* why the record cannot go on; NULL: it can */
  HobMoment *again; /* takes stretches again for readers; NULL: not yet needed */
  double *again_block, *again_next;
  HobFollow *follow; /* another run that has some of its states; NULL */
  HobShown *shown;   /* what that one has shown beside it; NULL: nobody has asked */

  /*< borrowed >*/
  const HobWatch *watch;

  guint64 serial;  /* of what the record holds: a new one with every cut */
  guint n_done;    /* changes; the rest are undone */
  gboolean joined; /* the next change belongs to the one before it */
  double rtol;
  double cut_at;   /* s, a step ends here; 0: nowhere */
  gboolean checked; /* the counters know the worst residuals */
  gboolean remembered; /* the watch's memory is another one than in the last block */
  gboolean stands; /* the tip stands, evaluated, where the last record begins */
  gsize bytes, limit; /* of the records */
  guint32 gap;
  HobRunCounters counters;
};

struct _HobSpan
{
  HobMoment *moment;
  const HobOdeStep *step; /* NULL: an instant */
  double start, end;
  double *y;
};

/* run.c: from @block, which the moment has loaded, to the next, which is written to @next.  Only
 * the run's own tip tells events, counts, watches and gets into trouble.  FALSE: impossible. */
gboolean hob_run_step (HobRun *run, HobMoment *m, const double *block, double *next);
/* The integrator's step from the moment's block, of at most h s. FALSE: no step is possible. */
gboolean hob_run_open_step (const HobRun *run, HobMoment *m, double h);
/* Flips what is due at the moment's time until nothing is, the moment evaluated there; @changed:
 * set if anything was.  FALSE: that never ends.  Whoever integrates by other means changes the
 * discrete states by this. */
gboolean hob_run_settle (HobRun *run, HobMoment *m, gboolean *changed);
gsize hob_run_block_size (const HobRun *run); /* bytes, watch included */
void hob_run_begin (HobRun *run);
/* Of a fork: up to t it is the run that it was made from, to the bit; its record begins there. */
void hob_run_begin_at (HobRun *run, double t);
void hob_run_go_on (HobRun *run); /* by one block, or into trouble */
/* From now on the case is another; the state is what it was.  FALSE: impossible. */
gboolean hob_run_take_over (HobRun *run, const HobCase *acts);
void hob_run_load (const HobRun *run, HobMoment *m, const double *block);
const HobAct *hob_run_next_act (const HobRun *run, const HobMoment *m);

/* history.c */
HobRecord *hob_run_last (const HobRun *run);
/* Makes the moment stand in the step that holds t, unevaluated.  FALSE: it could not be taken
 * again. */
gboolean hob_run_open (HobRun *run, HobMoment *m, double t);
void hob_run_push (HobRun *run, guint32 cost); /* what next_block holds, @cost away */
/* Drops what no longer holds: what came after t, and after the first @at acts. */
void hob_run_cut (HobRun *run, guint at, double t);
void hob_run_forget_first (HobRun *run); /* the record begins at the second block that it kept */
guint hob_run_record_at (const HobRun *run, double t); /* the last record at or before t */

G_END_DECLS
