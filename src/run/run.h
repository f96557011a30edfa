/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

#include "run/case.h"

G_BEGIN_DECLS

/* A range compiled for running: networks, offsets, order.  Immutable; threads may share it. */
typedef struct _HobPlan HobPlan;

HobPlan *hob_plan_new (HobRange *range); /* takes a reference; never fails on a checked range */
HobPlan *hob_plan_ref (HobPlan *plan);
void hob_plan_unref (HobPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobPlan, hob_plan_unref)
const HobRange *hob_plan_range (const HobPlan *plan);
gsize hob_plan_block_size (const HobPlan *plan); /* bytes of one run state, watch excluded */
/* Part and its outlet (terminal index; −1: a valve's stem) that call burner @part; FALSE if
 * none. */
gboolean hob_plan_caller (const HobPlan *plan, int burner, int *part, int *outlet);

/* ---- A moment: the whole range at one time, evaluated ---- */

typedef struct _HobMoment HobMoment;

HobMoment *hob_moment_new (const HobPlan *plan);
void hob_moment_free (HobMoment *moment);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobMoment, hob_moment_free)

double hob_moment_time (const HobMoment *m);
guint64 hob_moment_hash (const HobMoment *m);
/* A part's context, all phases evaluated: settings, states, terminals … as its kind sees them.
 * Borrowed. */
const HobPartContext *hob_moment_part (const HobMoment *m, int part);
double hob_moment_quantity (const HobMoment *m, int part, int quantity);
/* Of each of n parts its quantity. */
typedef struct
{
  int part, quantity;
} HobQuantityOf;
void hob_moment_quantities (const HobMoment *m, const HobQuantityOf *of, int n, double *values);
double hob_moment_control (const HobMoment *m, int part, int control);
gboolean hob_moment_asked (const HobMoment *m,
                           int burner); /* its caller's control asks for it now */
HobComplex hob_moment_volts (const HobMoment *m, HobEnd terminal); /* to earth */
HobComplex hob_moment_wire_current (const HobMoment *m, int wire); /* A, from → to */
double hob_moment_pipe_flow (const HobMoment *m, int pipe);        /* kg/s, from → to */
double hob_moment_pressure (const HobMoment *m, HobEnd port);      /* Pa gauge */
const HobLead *hob_moment_lead (const HobMoment *m, int lead);
const HobHouse *hob_moment_house (const HobMoment *m);
/* Whether the fault is present, and how severe (NaN: not present). */
double hob_moment_fault (const HobMoment *m, int part, int fault);
/* Residuals of the conservation laws at this moment: A, kg/s; and the largest current, A. */
void hob_moment_residuals (const HobMoment *m, double *ampere, double *largest, double *gas);
/* Since the start: J into bodies − out − stored more (heat), turned over; kg (gas). */
void hob_moment_balance (const HobMoment *m, double *heat_error, double *heat_turned,
                         double *gas_error, double *gas_turned);
/* Since the start, mol: oxygen atoms into modeled air − out − there; burnt fuel − its products
 * that left − those still there; fuel burnt.  The last two hold while one fuel flows. */
void hob_moment_air_balance (const HobMoment *m, double *oxygen_error, double *products_error,
                             double *turned);

/* ---- Watches: what looks at a run as it goes (symptoms) ---- */

typedef struct _HobRun HobRun;
typedef struct _HobSpan HobSpan; /* one accepted step, readable at any time in it */

double hob_span_start (const HobSpan *span);
double hob_span_end (const HobSpan *span);
/* A moment within the span; borrowed, valid until the next call. hob_span_end's is free of cost. */
const HobMoment *hob_span_at (HobSpan *span, double t);
/* As much of it as one quantity reads. */
const HobMoment *hob_span_at_for (HobSpan *span, double t, int part, int quantity);

typedef struct
{
  int n_memory; /* doubles kept in the run's state block, so that history holds */
  int n_notes;  /* doubles kept beside the run, to work with */
  /* At t = 0 and after each accepted step or instant change.  Says what began or ended through
   * hob_run_emit.  Between two steps nobody writes to @notes, except that the first of them is 0
   * where @memory is not what the last step left.  FALSE: the step wrote nothing to @memory. */
  void (*begin) (gpointer user, HobRun *run, const HobMoment *m, double *memory);
  gboolean (*step) (gpointer user, HobRun *run, HobSpan *span, double *memory, double *notes);
  gpointer user;
} HobWatch;

/* ---- Events ---- */

typedef enum
{
  HOB_EVENT_ACT,
  HOB_EVENT_CHANGE,
  HOB_EVENT_SYMPTOM,
  HOB_EVENT_SYMPTOM_END,
  HOB_EVENT_HAZARD, /* these two are for cautions: no list and no chart shows them */
  HOB_EVENT_HAZARD_END,
} HobEventClass;

typedef struct
{
  double t;
  HobEventClass what;
  int part;       /* −1: none */
  int index;      /* act: its place in hob_run_case (run)->acts; change: mode; symptom, hazard: the
                     watch's own number */
  double value;   /* new value */
} HobEvent;

/* ---- A run ---- */

typedef enum { HOB_RUN_OK, HOB_RUN_IMPOSSIBLE } HobRunStatus;

typedef struct
{
  guint steps, rejected, evaluations, events;
  double worst_residual; /* A over max(largest current, 0.1 A), over all steps; NaN: not checked */
  double worst_gas;      /* kg/s; NaN: not checked */
} HobRunCounters;

/* @acts is copied. @watch may be NULL; borrowed. Private to one thread. */
HobRun *hob_run_new (HobPlan *plan, const HobCase *acts, const HobWatch *watch);
void hob_run_free (HobRun *run);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (HobRun, hob_run_free)

/* Relative, of a step; the states' own tolerances stand at 1e-4 and go with it.  A cavity may then
 * err by 1 mK in a step, and an hour's changes, fourteen cycles on, come within 0.1 s: an error in
 * how the burner goes out comes back every cycle. */
#define HOB_RUN_TOLERANCE 1e-6
/* Before the first advance. */
void hob_run_set_tolerance (HobRun *run, double rtol);
/* Of memory that the record keeps; less makes looking back slower, and changes no bit.  Before the
 * first advance. */
void hob_run_set_limit (HobRun *run, gsize bytes);

/* Checks after every step that currents and gas add up to nothing at every node: it costs a
 * twentieth of the run.  Before the first advance. */
void hob_run_set_checked (HobRun *run);

/* A new run that goes on from what @run is at time t, under another case: where @acts did the same
 * before t it is that case's own run, bit for bit, spared the way to t; else it is @run's state at
 * t, and from then on all is as @acts say, faults and settings of earlier times too.  It begins at
 * or shortly before t, keeps what happened until then, and takes no acts before it.  @watch goes
 * on where it is @run's own, else it begins there.  (transfer full) NULL: @run does not come as
 * far as t. */
HobRun *hob_run_fork (HobRun *run, double t, const HobCase *acts, const HobWatch *watch);
/* A fork before t, where the caller knows that the run of @acts, which has as many acts at the same
 * times, is @run until then, to the bit (run/inert.h).  (transfer full) */
HobRun *hob_run_fork_same (const HobRun *run, double t, const HobCase *acts,
                           const HobWatch *watch);
double hob_run_begins (const HobRun *run); /* the record's start, s: 0 but for a fork */

const HobPlan *hob_run_plan (const HobRun *run);
const HobCase *hob_run_case (const HobRun *run);

/* Makes sure that the record covers time t (s). On IMPOSSIBLE the record ends where it stands and
 * @error names the parts. */
HobRunStatus hob_run_advance (HobRun *run, double t, GError **error);
double hob_run_reached (const HobRun *run); /* the record's end, s */
/* Each guard of its parts where the record ends: above 0 it would flip.  It has just gone on.
 * Borrowed until the next advance. */
const double *hob_run_guards (HobRun *run, int *n);
/* The state at t ≤ reached, into @moment: from the record, which does not change.  FALSE and a
 * critical warning: a stretch of it could not be taken again. */
gboolean hob_run_read (HobRun *run, double t, HobMoment *moment);
/* Events with from < t ≤ to, in order; @first: index of the first, returns their number. */
guint hob_run_events (const HobRun *run, double from, double to, guint *first);
const HobEvent *hob_run_event (const HobRun *run, guint index);
/* The first event after t within the record or up to `until` (advances as needed); FALSE: none.
 * Acts, changes, symptoms. */
gboolean hob_run_next_event (HobRun *run, double t, double until, HobEvent *event);

/* ---- What is done ----
 * Each of the three is one thing to undo, unless hob_run_join came before it. */

/* An act at its own time: the record after it is cut, and acts that it held after it are
 * dropped. */
void hob_run_act (HobRun *run, HobAct act);
void hob_run_insert (HobRun *run,
                     HobAct act); /* at its own time; what was done later is done again */
void hob_run_remove (HobRun *run,
                     guint index); /* one of hob_run_case's acts, as if it had never been done */
/* What is done next belongs to what was done last, and is undone with it: a turn of a knob. */
void hob_run_join (HobRun *run);

gboolean hob_run_can_undo (const HobRun *run);
gboolean hob_run_can_redo (const HobRun *run);
gboolean hob_run_undo (HobRun *run); /* FALSE: nothing to undo */
gboolean hob_run_redo (HobRun *run);

/* From now on the run of @acts (copied): its record is cut where they begin to differ.  Cannot be
 * undone. */
void hob_run_set_case (HobRun *run, const HobCase *acts);

HobRunCounters hob_run_counters (const HobRun *run);

/* For watches only: what it keeps in the last block, and what it works with. */
const double *hob_run_memory (const HobRun *run);
double *hob_run_notes (HobRun *run);
void hob_run_emit (HobRun *run, double t, HobEventClass what, int part, int index, double value);

/* What happened, in words: "igniter-bake: …". Symptoms are worded by their owner. (transfer
 * full) */
char *hob_event_id (
    const HobRun *run,
    const HobEvent *event); /* control (or fault, setting), PART.MODE; NULL for symptoms */
char *hob_event_text (const HobRun *run, const HobEvent *event); /* for people; NULL for symptoms */

G_END_DECLS
