/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* What the window shows: one range, its run and that of a normal range, and the moment that
 * is looked at.  No widget here.  Time is in whole milliseconds, so that an act of now is seen
 * now. */

#include "base/hazard.h"
#include "sheet/scene.h"
#include "symptoms/bench.h"
#include <glib-object.h>

G_BEGIN_DECLS

/* Signals: "cut" (gint64 ms) what the record holds after ms is another; "opened" another range
 * is here; "moved" the moment or what was done changed; "chosen" another part or line; "pace"
 * runs, held, speed; "trouble" (const char *) one line for the person, or NULL. */
#define HOB_TYPE_SESSION (hob_session_get_type ())
G_DECLARE_FINAL_TYPE (HobSession, hob_session, HOB, SESSION, GObject)

HobSession *hob_session_new (GError **error); /* empty: open a range before anything else */

/* Takes a reference of @range; @acts (of that range; may be NULL) is copied.  Starts at 0 and runs.
 */
void hob_session_open (HobSession *self, HobRange *range, const HobCase *acts);
/* @range takes the place of one that changed; what was done goes along as far as it fits, and so
 * does the time looked at.  @left_out: what doesn't fit, a line each (char *). */
void hob_session_replace (HobSession *self, HobRange *range, GPtrArray *left_out);

void hob_session_say (HobSession *self, const char *line); /* NULL: nothing is wrong any longer */

/*< borrowed >*/
HobRange *hob_session_range (HobSession *self);
HobBench *hob_session_bench (HobSession *self);
const HobSymptomBook *hob_session_book (HobSession *self);
const HobMoment *hob_session_moment (HobSession *self); /* at the time looked at */
HobScene *hob_session_scene (HobSession *self);         /* filled for the time looked at */

/* ---- Time ---- */

#define HOB_SESSION_BUDGET_US 6000 /* the most a frame spends on computing */

gint64 hob_session_ms (HobSession *self);
gint64 hob_session_reached_ms (HobSession *self); /* how far the record goes */
gboolean hob_session_running (HobSession *self);
gboolean
hob_session_busy (HobSession *self); /* runs, or is on its way to a moment beyond the record */
double hob_session_speed (HobSession *self);
void hob_session_set_running (HobSession *self, gboolean running);
void hob_session_set_speed (HobSession *self, double speed);
/* @wall s of real time have gone by: moves on, for at most HOB_SESSION_BUDGET_US of computing. */
void hob_session_tick (HobSession *self, double wall);
/* Goes there and holds; beyond the record it computes its way over the next ticks. */
void hob_session_go (HobSession *self, gint64 ms);
void hob_session_next_event (HobSession *self);
void hob_session_previous_event (HobSession *self);

/* The first whole millisecond that shows @event. */
gint64 hob_event_ms (const HobEvent *event);

/* ---- Acts, all at the time looked at ---- */

void hob_session_act (HobSession *self, HobActWhat what, int part, int index, double value);
/* The same acts once more with this one before them; comes back to the time looked at. */
void hob_session_from_start (HobSession *self, HobActWhat what, int part, int index, double value);
/* What is done in between is one thing to undo (a turn of a knob). */
void hob_session_begin_turn (HobSession *self);
void hob_session_end_turn (HobSession *self);
gboolean hob_session_can_undo (HobSession *self);
gboolean hob_session_can_redo (HobSession *self);
void hob_session_undo (HobSession *self);
void hob_session_redo (HobSession *self);

/* ---- What was noticed ---- */

typedef struct
{
  int symptom; /* index in the book */
  int part;    /* where; −1: none */
  gint64 from_ms;
  gint64 until_ms; /* −1: still there */
} HobNoticed;

/* Symptoms begun up to the time looked at, in order. (transfer full) */
GArray *hob_session_noticed (HobSession *self);

/* ---- The sequence of operation ---- */

/* What is due around the time looked at, as far ahead as has been looked. (transfer full) */
GArray *hob_session_sequence (HobSession *self);
/* Computes what a normal range does next, for at most HOB_SESSION_BUDGET_US.  FALSE: that is known
 * for as long as is shown. */
gboolean hob_session_look_ahead (HobSession *self);

/* ---- Beside another ---- */

/* Another session of @first's range, on hold at 0: the run of @acts (copied).  (transfer full) */
HobSession *hob_session_new_beside (HobSession *first, const HobCase *acts);
/* From now on the run of @acts (copied). */
void hob_session_set_case (HobSession *self, const HobCase *acts);
/* Comes to the time that @first looks at, at its pace: for at most HOB_SESSION_BUDGET_US.  FALSE:
 * it is on its way there. */
gboolean hob_session_keep_step (HobSession *self, HobSession *first);
/* What @first has done of what @self has, and the other way round, as of the time looked at: due
 * is when @self did it, and what should be is what @self has. (transfer full) */
GArray *hob_session_steps_beside (HobSession *self, HobSession *first);

/* The hazards that hold at the time looked at. */
HobHazards hob_session_hazards (HobSession *self);

/* ---- What is chosen ---- */

int hob_session_chosen_part (HobSession *self); /* −1 */
int hob_session_chosen_wire (HobSession *self); /* −1 */
void hob_session_choose (HobSession *self, int part, int wire);

G_END_DECLS
