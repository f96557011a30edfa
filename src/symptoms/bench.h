/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* All that belongs to one range at work: what can be noticed, the range compiled, its run under the
 * eyes of a watch, and the two twins that show how it should be.  What is done is done to all. */

#include "run/step-twin.h"
#include "run/twin.h"
#include "symptoms/symptoms.h"

G_BEGIN_DECLS

typedef struct _HobInert HobInert;

typedef struct
{
  /*< owned; read them, and run->… through the functions of run.h that change nothing >*/
  HobSymptomBook *book;
  HobPlan *plan;
  HobSymptomWatch *watch;
  HobRun *run;
  HobRun *twin; /* the long one; NULL until somebody asks for it */
  HobRun *step_twin; /* NULL until somebody asks for it, and while nothing is wrong */
  gboolean compares; /* somebody has asked for the step twin */
  gboolean looks;    /* what has shown is looked for along the way */
} HobBench;

/* @book: NULL loads the shipped one.  @acts is copied; NULL: nothing is done.  Takes references. */
HobBench *hob_bench_new (HobSymptomBook *book, HobRange *range, const HobCase *acts,
                         GError **error);
/* The same range, compiled once, under another case.  For another thread too. */
HobBench *hob_bench_again (const HobBench *bench, const HobCase *acts);
/* From before t on, a run of @acts that is the bench's own until then: hob_run_fork_same (). */
HobBench *hob_bench_fork (const HobBench *bench, double t, const HobCase *acts);
/* Its run will say how long each fault of @inert changes nothing that the watch looks at: before
 * the first advance, run/inert.h. */
void hob_bench_set_inert (HobBench *bench, HobInert *inert);
void hob_bench_free (HobBench *bench);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobBench, hob_bench_free)

const HobRange *hob_bench_range (const HobBench *bench);
HobMoment *hob_bench_moment_new (const HobBench *bench); /* (transfer full) */
/* As far as the run has come.  Borrowed. */
HobRun *hob_bench_twin (HobBench *bench);

/* What should be there now (run/step-twin.h): the run itself while nothing is wrong with it.  As
 * far as the run has come.  Borrowed until something is done. */
HobRun *hob_bench_should_be (HobBench *bench);

/* From now on what the run has shown (hob_step_twin_shown) is looked for as it is advanced, so that
 * nobody who asks at the end of a long record waits for it. */
void hob_bench_look_along (HobBench *bench);

/* The run, and the twins if there are any, cover time t. */
HobRunStatus hob_bench_advance (HobBench *bench, double t, GError **error);
/* The same, unless *@cancel, read atomically now and then, is not 0 (NULL: never).  FALSE: the run
 * came to an impossible state. */
gboolean hob_bench_advance_unless (HobBench *bench, const gint *cancel, double t);
/* How many pieces of work have been begun so far, by all threads: benches that were made, and
 * stretches between two looks at `cancel`. */
guint hob_bench_begun (void);
double hob_bench_reached (const HobBench *bench); /* all do, s */

static inline gboolean
hob_is_cancelled (const gint *cancel)
{
  return cancel != NULL && g_atomic_int_get (cancel) != 0;
}

/* As hob_run_act …: one thing to undo each, unless hob_bench_join came before it. */
void hob_bench_act (HobBench *bench, HobAct act);
void hob_bench_insert (HobBench *bench, HobAct act);
void hob_bench_remove (HobBench *bench, guint index);
void hob_bench_join (HobBench *bench);
gboolean hob_bench_undo (HobBench *bench);
gboolean hob_bench_redo (HobBench *bench);
/* From now on the run of @acts (copied): hob_run_set_case. */
void hob_bench_set_case (HobBench *bench, const HobCase *acts);

/* Whether @act may be done after what was done before it: no match is held at a burner while there
 * may be gas in the air, or someone is sick.  The run must have come that far.  HOB_ERROR_FINDING,
 * which says what to do instead. */
gboolean hob_bench_allows (const HobBench *bench, const HobAct *act, GError **error);
/* Whether @act works something that can spark or glow while the smell of gas is strong. */
gboolean hob_bench_act_may_ignite (const HobBench *bench, const HobAct *act);
/* hob_bench_allows () of all that is done in a case. */
gboolean hob_case_allowed (HobRange *range, const HobCase *acts, GError **error);

/* Whether @symptom (index in the book) was noticed by time t, at @part, or anywhere for −1. */
gboolean hob_bench_noticed (const HobBench *bench, int symptom, int part, double t);

G_END_DECLS
